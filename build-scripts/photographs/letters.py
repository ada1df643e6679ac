"""Letters as an engraver cuts them: strokes on a grid of 6 by 10, so that no font need be installed."""
import math

import cairo

from . import paint

# A stroke that begins with "~" is a curve through its points; the others are straight.
_SIGNS = {
    "A": ["0,10 3,0 6,10", "1.1,6.6 4.9,6.6"],
    "B": ["0,0 0,10", "~0,0 3.6,0.2 4.9,2.4 3.6,4.7 0,4.9", "~0,4.9 4.2,5.1 5.6,7.4 4.2,9.8 0,10"],
    "C": ["~5.8,2 3.4,0 0.8,2 0.1,5 0.8,8 3.4,10 5.8,8"],
    "D": ["0,0 0,10", "~0,0 3.4,0.5 5.8,5 3.4,9.5 0,10"],
    "E": ["5.4,0 0,0 0,10 5.6,10", "0,4.9 4.2,4.9"],
    "F": ["5.4,0 0,0 0,10", "0,4.9 4.2,4.9"],
    "G": ["~5.8,2 3.4,0 0.8,2 0.1,5 0.8,8 3.4,10 5.8,8.2", "5.8,9.4 5.8,5.6 3.6,5.6"],
    "H": ["0,0 0,10", "6,0 6,10", "0,4.9 6,4.9"],
    "I": ["1.5,0 1.5,10"],
    "J": ["~4.4,0 4.4,7 3.2,9.8 1,9.6 0.2,7.8"],
    "K": ["0,0 0,10", "5.8,0 0,5.8", "2,4 6,10"],
    "L": ["0,0 0,10 5.4,10"],
    "M": ["0,10 0.6,0 3.4,6.6 6.2,0 6.8,10"],
    "N": ["0,10 0,0 6,10 6,0"],
    "O": ["~3,0 0.7,1.8 0,5 0.7,8.2 3,10 5.3,8.2 6,5 5.3,1.8 3,0"],
    "P": ["0,10 0,0", "~0,0 3.8,0.2 5.4,2.7 3.8,5.2 0,5.4"],
    "Q": ["~3,0 0.7,1.8 0,5 0.7,8.2 3,10 5.3,8.2 6,5 5.3,1.8 3,0", "3.6,7.4 6.2,10.6"],
    "R": ["0,10 0,0", "~0,0 3.8,0.2 5.2,2.5 3.8,4.8 0,5", "2.6,5 5.8,10"],
    "S": ["~5.4,1.8 3,0 0.6,1.6 1,4 3,5 5,6.2 5.4,8.2 3,10 0.4,8.3"],
    "T": ["0,0 6,0", "3,0 3,10"],
    "U": ["~0,0 0,6.4 0.8,9.2 3,10 5.2,9.2 6,6.4 6,0"],
    "V": ["0,0 3,10 6,0"],
    "W": ["0,0 1.9,10 4,2.4 6.1,10 8,0"],
    "X": ["0,0 6,10", "6,0 0,10"],
    "Y": ["0,0 3,5 6,0", "3,5 3,10"],
    "Z": ["0,0 6,0 0,10 6,10"],
    "&": ["~6,10 2.6,5.6 1,2.4 2.6,0 4.2,2 2.6,4.6 0.2,7.2 1.4,9.8 4,9.4 6,5.8"],
    ".": ["1.2,9.4 1.2,10"],
    "-": ["0.8,5.4 3.6,5.4"],
    "/": ["0,10.6 3.8,-0.6"],
    "0": ["~2.8,0 0.5,2 0,5 0.5,8 2.8,10 5.1,8 5.6,5 5.1,2 2.8,0"],
    "1": ["0.6,2 2.4,0 2.4,10"],
    "2": ["~0.3,2.4 1.4,0.3 3.6,0.2 5,2.2 4,5 0.2,10", "0.2,10 5.4,10"],
    "3": ["~0.4,1.4 2.6,0 4.8,1.6 4.4,4 2.4,4.8 4.8,5.8 5.2,8.2 2.8,10 0.3,8.6"],
    # four and nine are cut alike: a closed loop to the left of an upright
    "4": ["4.4,10 4.4,0 0.2,5.6 0.6,6.3 5.6,6.3"],
    "5": ["5,0 0.9,0 0.5,4.4", "~0.5,4.4 3.2,3.8 5.2,6.4 4,9.4 1.6,10 0.1,8.8"],
    "6": ["~4.8,1 2.6,0.4 0.6,3.4 0.2,7 1.6,9.8 4.2,9.6 5.2,7 3.8,4.6 1.2,5 0.3,7"],
    "7": ["0,0 5.4,0 2,10"],
    "8": ["~2.8,0 0.8,1.4 1.2,3.8 2.8,4.8 4.6,6 5.2,8.2 2.8,10 0.4,8.2 1,6 2.8,4.8 4.4,3.8 4.8,1.4 2.8,0"],
    "9": ["4.4,10 4.4,0.4", "~4.4,1.4 2.2,0 0.3,2.6 0.8,5.6 2.6,6.3 4.4,5"],
}


def _width(sign):
    if sign == " ":
        return 4.2
    return max(float(p.split(",")[0]) for stroke in _SIGNS[sign] for p in stroke.lstrip("~").split())


def _sign(ctx, sign):
    for stroke in _SIGNS.get(sign, []):
        points = [tuple(float(c) for c in p.split(",")) for p in stroke.lstrip("~").split()]
        if stroke[0] == "~":
            paint.smooth(ctx, points)
        else:
            for i, point in enumerate(points):
                (ctx.line_to if i else ctx.move_to)(*point)


def length(text, size, gap=3.0):
    return size / 10 * (sum(_width(s) + gap for s in text) - gap)


def line(ctx, text, x, y, size, weight=0.13, gap=3.0, lean=0.0):
    """Text centred on (x, y), whose letters are `size` high; strokes it with the source that is set."""
    text = text.upper()
    scale = size / 10
    at = x - length(text, size, gap) / 2
    for sign in text:
        ctx.save()
        ctx.translate(at, y - size / 2)
        if lean:
            ctx.transform(cairo.Matrix(1, 0, -lean, 1, lean * size, 0))
        ctx.scale(scale, scale)
        _sign(ctx, sign)
        ctx.restore()
        at += scale * (_width(sign) + gap)
    ctx.set_line_width(size * weight)
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    ctx.stroke()


def arc(ctx, text, x, y, radius, middle, size, weight=0.13, gap=3.0, inside=False):
    """Text along a circle round (x, y), centred on the angle `middle`; `inside` for text that is read from below."""
    text = text.upper()
    scale = size / 10
    turn = -1 if inside else 1
    at = middle - turn * length(text, size, gap) / 2 / radius
    for sign in text:
        step = scale * (_width(sign) + gap)
        angle = at + turn * scale * _width(sign) / 2 / radius
        ctx.save()
        ctx.translate(x + radius * math.cos(angle), y + radius * math.sin(angle))
        ctx.rotate(angle + (math.pi / 2 if not inside else -math.pi / 2))
        ctx.translate(-scale * _width(sign) / 2, -size / 2)
        ctx.scale(scale, scale)
        _sign(ctx, sign)
        ctx.restore()
        at += turn * step / radius
    ctx.set_line_width(size * weight)
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    ctx.stroke()
