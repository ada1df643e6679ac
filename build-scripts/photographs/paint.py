"""Colours, light and strokes that every picture shares. The light falls from the upper left."""
import math

import cairo

GLAZES = {
    # lit, middle, shaded
    "white": ("#fdfdfb", "#f3f3ef", "#d3d6d8"),
    "clear": ("#fdfdfb", "#f3f3ef", "#d3d6d8"),
    "ivory": ("#fdf7e6", "#f5ebd2", "#d8c7a2"),
    "vellum": ("#f8f0df", "#efe4cd", "#cfbf9f"),
    "tinted": ("#e6efda", "#d3e2c5", "#a8bd9a"),
    "rose tint": ("#f8e4df", "#eecfc9", "#cfa49d"),
    "green tint": ("#e6efda", "#d3e2c5", "#a8bd9a"),
    "turquoise tint": ("#ddf0ee", "#c2e2df", "#8fbab7"),
}
METALS = {
    "gold": ("#7d5a1e", "#d8ae52", "#fbeeb8", "#b98a36", "#8c6725"),
    "platinum": ("#6f747a", "#c3c8cc", "#ffffff", "#a3a9ae", "#777d83"),
}
LINES = {"green": "#4d7a4b", "rust": "#a5502c", "coloured": "#5b6f8f"}


def rgb(code):
    return tuple(int(code[i : i + 2], 16) / 255 for i in (1, 3, 5))


def ink(ctx, code, alpha=1.0):
    ctx.set_source_rgba(*rgb(code), alpha)


def mix(one, other, share):
    return "#" + "".join(f"{round(255 * (a * (1 - share) + b * share)):02x}" for a, b in zip(rgb(one), rgb(other)))


def across(x0, y0, x1, y1, *stops):
    """A straight gradient; a stop is (offset, colour, alpha)."""
    gradient = cairo.LinearGradient(x0, y0, x1, y1)
    for offset, code, alpha in stops:
        gradient.add_color_stop_rgba(offset, *rgb(code), alpha)
    return gradient


def around(x, y, inner, outer, *stops):
    gradient = cairo.RadialGradient(x, y, inner, x, y, outer)
    for offset, code, alpha in stops:
        gradient.add_color_stop_rgba(offset, *rgb(code), alpha)
    return gradient


def lit(x, y, reach, *stops):
    """A gradient from the lit to the shaded side of something at (x, y)."""
    d = reach * 0.72
    return across(x - d, y - d, x + d, y + d, *stops)


def metal(name, x, y, reach):
    codes = METALS[name]
    turns = 4  # the line glints and darkens as it runs round
    stops = []
    for i in range(turns * len(codes)):
        stops.append((i / (turns * len(codes) - 1), codes[i % len(codes)], 0.95))
    return lit(x, y, reach, *stops)


def soft_stroke(ctx, width, code, alpha, steps=10):
    """Strokes the current path with an edge that fades; the path is used up."""
    path = ctx.copy_path()
    ctx.new_path()
    for i in range(steps):
        ctx.append_path(path)
        ctx.set_line_width(width * (i + 1) / steps)
        ink(ctx, code, alpha / steps * 1.6)
        ctx.stroke()


def soft_shadow(ctx, draw, x, y, spread, alpha, steps=26):
    """The shadow of what `draw(ctx, grow)` outlines, moved by (x, y); `grow` is in pixels."""
    for i in range(steps):
        grow = spread * (1 - 2 * i / (steps - 1))
        ctx.save()
        ctx.translate(x, y)
        draw(ctx, grow)
        ink(ctx, "#2a2420", alpha / steps * 1.5)
        ctx.fill()
        ctx.restore()


def raised(ctx, draw, width, glaze, height=1.0):
    """A raised line or edge: light on its upper left, shade on its lower right. `draw(ctx)` makes the path."""
    light, middle, shade = glaze
    d = width * 0.42
    ctx.set_line_cap(cairo.LINE_CAP_ROUND)
    ctx.set_line_join(cairo.LINE_JOIN_ROUND)
    for dx, code, alpha, wide in (
        (d * 1.3, mix(shade, "#5a4a3a", 0.45), 0.34 * height, width * 1.25),
        (-d, "#ffffff", 0.85 * height, width),
        (0, middle, 0.9, width * 0.8),
        (-d * 0.35, light, 0.8, width * 0.4),
    ):
        ctx.save()
        ctx.translate(dx, dx)
        draw(ctx)
        ctx.restore()
        ctx.set_line_width(wide)
        ink(ctx, code, alpha)
        ctx.stroke()


def smooth(ctx, points, closed=False):
    """A curve through the points (Catmull-Rom)."""
    n = len(points)
    at = (lambda i: points[i % n]) if closed else (lambda i: points[max(0, min(n - 1, i))])
    ctx.move_to(*points[0])
    for i in range(n if closed else n - 1):
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = at(i - 1), at(i), at(i + 1), at(i + 2)
        ctx.curve_to(bx + (cx - ax) / 6, by + (cy - ay) / 6, cx - (dx - bx) / 6, cy - (dy - by) / 6, cx, cy)
    if closed:
        ctx.close_path()


def sample(points, steps):
    """Points along the same curve, with the direction at each: (x, y, angle)."""
    n = len(points)
    at = lambda i: points[max(0, min(n - 1, i))]
    found = []
    for k in range(steps):
        t = k / (steps - 1) * (n - 1)
        i = min(int(t), n - 2)
        u = t - i
        (ax, ay), (bx, by), (cx, cy), (dx, dy) = at(i - 1), at(i), at(i + 1), at(i + 2)

        def part(a, b, c, d):
            return 0.5 * (2 * b + (c - a) * u + (2 * a - 5 * b + 4 * c - d) * u * u + (3 * b - a - 3 * c + d) * u**3)

        def slope(a, b, c, d):
            return 0.5 * ((c - a) + 2 * (2 * a - 5 * b + 4 * c - d) * u + 3 * (3 * b - a - 3 * c + d) * u * u)

        found.append((part(ax, bx, cx, dx), part(ay, by, cy, dy), math.atan2(slope(ay, by, cy, dy), slope(ax, bx, cx, dx))))
    return found


def tapered(ctx, points, wide, narrow):
    """The outline of a stem that grows thinner, as a path to fill."""
    line = sample(points, 8 * len(points))
    left, right = [], []
    for i, (x, y, angle) in enumerate(line):
        half = (wide + (narrow - wide) * i / (len(line) - 1)) / 2
        left.append((x - math.sin(angle) * half, y + math.cos(angle) * half))
        right.append((x + math.sin(angle) * half, y - math.cos(angle) * half))
    for i, point in enumerate(left + right[::-1]):
        (ctx.line_to if i else ctx.move_to)(*point)
    ctx.close_path()


def ellipse(ctx, x, y, rx, ry, turn=0.0):
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(turn)
    ctx.scale(rx, ry)
    ctx.new_sub_path()
    ctx.arc(0, 0, 1, 0, 2 * math.pi)
    ctx.restore()
