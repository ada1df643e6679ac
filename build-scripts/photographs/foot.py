"""The underside of a plate, with its marks as their records describe them: words, picture, method, colour."""
import math
import random

import cairo

from . import letters, paint
from .records import plain

_INKS = {
    "black": "#2b2826",
    "brown": "#6d4a2c",
    "green": "#3c6d4c",
    "red": "#b5382c",
    "grey": "#6e7478",
    "gold": "#b08a3c",
}


def draw(ctx, piece, marks, width, height):
    glaze = paint.GLAZES[piece.look("glaze", "ivory")]
    x, y = width / 2, height / 2
    _underside(ctx, glaze, x, y, piece)
    turn = -0.10
    for i, mark in enumerate(marks):
        ctx.save()
        # a second mark is set over the first, a little askew
        ctx.translate(x + 30 * i, y + 128 * i)
        ctx.rotate(turn - 0.12 * i)
        _print(ctx, piece, mark, glaze)
        ctx.restore()
    _gloss(ctx, x, y, piece.look("glaze") == "vellum")


def _underside(ctx, glaze, x, y, piece):
    light, middle, shade = glaze
    deep = paint.mix(shade, "#6b5a46", 0.4)
    ctx.rectangle(0, 0, 2 * x, 2 * y)
    ctx.set_source(paint.lit(x, y, x * 1.3, (0, light, 1), (0.5, middle, 1), (1, paint.mix(middle, shade, 0.8), 1)))
    ctx.fill()
    # the wall of the plate falls away from the foot on every side
    ctx.rectangle(0, 0, 2 * x, 2 * y)
    ctx.set_source(paint.around(x, y, 470, 900, (0, shade, 0.0), (0.25, shade, 0.35), (1, deep, 0.75)))
    ctx.fill()

    # the ring on which it stands, and its shadow within
    def ring(c, r):
        c.new_sub_path()
        c.arc(x, y, r, 0, 2 * math.pi)

    for r, width, first, second, alpha in ((470, 26, "#ffffff", deep, 0.75), (446, 34, deep, "#ffffff", 0.8)):
        ring(ctx, r)
        ctx.set_line_width(width)
        ctx.set_source(paint.lit(x, y, r, (0, first, alpha), (0.42, first, alpha * 0.15), (0.58, second, alpha * 0.15), (1, second, alpha * 0.9)))
        ctx.stroke()
    ring(ctx, 459)
    ctx.set_line_width(12)
    ctx.set_source(paint.lit(x, y, 459, (0, light, 1), (1, middle, 1)))
    ctx.stroke()
    ring(ctx, 459)
    ctx.set_line_width(5)
    paint.ink(ctx, paint.mix("#b8a68c", shade, 0.4), 0.8)  # the foot is dry: wiped clean before the fire
    ctx.stroke()
    ring(ctx, 428)
    ctx.set_source(paint.lit(x, y, 428, (0, paint.mix(shade, middle, 0.35), 0.9), (0.35, middle, 0.5), (0.7, light, 0.6), (1, "#ffffff", 0.8)))
    ctx.fill()

    rnd = random.Random(piece.id)
    for k in range(3):  # where the kiln's pins held it
        a = 0.5 + 2 * math.pi * k / 3
        px, py = x + 380 * math.cos(a), y + 380 * math.sin(a)
        paint.ellipse(ctx, px, py, 5, 4)
        paint.ink(ctx, deep, 0.8)
        ctx.fill()
        paint.ellipse(ctx, px - 1.5, py - 1.5, 2.5, 2)
        paint.ink(ctx, "#ffffff", 0.7)
        ctx.fill()
    for _ in range(26):  # specks of iron
        a, r = rnd.uniform(0, 6.28), 420 * math.sqrt(rnd.random())
        paint.ellipse(ctx, x + r * math.cos(a), y + r * math.sin(a), rnd.uniform(0.8, 2.0), rnd.uniform(0.8, 1.8))
        paint.ink(ctx, "#5a4632", 0.45)
        ctx.fill()
    if plain(piece.shape.get("look", {}).get("glaze")) == "white":
        _crazing(ctx, x, y, rnd)


def _crazing(ctx, x, y, rnd):
    """The fine net of cracks of an old white glaze."""
    ctx.save()
    ctx.arc(x, y, 428, 0, 2 * math.pi)
    ctx.clip()
    ctx.set_line_width(0.8)
    paint.ink(ctx, "#7d6a52", 0.20)
    for _ in range(60):
        px, py = x + rnd.uniform(-430, 430), y + rnd.uniform(-430, 430)
        a = rnd.uniform(0, 6.28)
        ctx.move_to(px, py)
        for _ in range(7):
            a += rnd.uniform(-0.6, 0.6)
            px += math.cos(a) * rnd.uniform(12, 34)
            py += math.sin(a) * rnd.uniform(12, 34)
            ctx.line_to(px, py)
        ctx.stroke()
    ctx.restore()


def _print(ctx, piece, mark, glaze):
    colour = plain(mark.get("colour", "black"))
    colour = colour[0] if isinstance(colour, list) else colour
    if plain(mark.get("method")) == "impressed":
        deep = paint.mix(glaze[2], "#5a4a38", 0.6)
        for d, code, alpha in ((-1.8, deep, 0.8), (1.8, "#ffffff", 0.9), (0, paint.mix(glaze[2], deep, 0.3), 0.75)):
            ctx.save()
            ctx.translate(d, d)
            paint.ink(ctx, code, alpha)
            _device(ctx, piece, mark, code, alpha)
            ctx.restore()
        return
    ctx.push_group()
    code = _INKS[colour]
    paint.ink(ctx, code)
    _device(ctx, piece, mark, code, 1.0)
    # a stamp never prints evenly
    rnd = random.Random(mark["mark"] + piece.id)
    ctx.set_operator(cairo.OPERATOR_DEST_OUT)
    for _ in range(900):
        a, r = rnd.uniform(0, 6.28), 330 * math.sqrt(rnd.random())
        size = rnd.uniform(0.5, 1.7)
        paint.ellipse(ctx, r * math.cos(a), r * math.sin(a), size * rnd.uniform(0.7, 1.8), size, rnd.uniform(0, 3))
        ctx.set_source_rgba(0, 0, 0, rnd.uniform(0.3, 0.9))
        ctx.fill()
    fade = cairo.RadialGradient(150, 130, 10, 150, 130, 260)
    fade.add_color_stop_rgba(0, 0, 0, 0, 0.22)
    fade.add_color_stop_rgba(1, 0, 0, 0, 0)
    ctx.set_source(fade)
    ctx.paint()
    ctx.set_operator(cairo.OPERATOR_OVER)
    ctx.pop_group_to_source()
    ctx.paint_with_alpha(0.9)


def _device(ctx, piece, mark, code, alpha):
    """Words and picture in the arrangement that the mark's record tells of."""
    reads = plain(mark.get("reads", ""))
    reads = reads[0] if isinstance(reads, list) else reads
    words = [w.strip() for w in reads.split(" / ")]
    shows = plain(mark.get("shows", ""))
    again = lambda: paint.ink(ctx, code, alpha)
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    if "shield" in shows:
        _shield(ctx)
        _boat(ctx, 0, -4, 1.0)
        for word, x in zip(reads.split(), (-78, 78)):
            letters.line(ctx, word, x, -120, 54)
    elif "circle" in shows:
        for r, wide in ((238, 7), (226, 2.5), (160, 3)):
            ctx.new_sub_path()
            ctx.arc(0, 0, r, 0, 2 * math.pi)
            ctx.set_line_width(wide)
            ctx.stroke()
        _boat(ctx, 0, 18, 1.06)
        letters.arc(ctx, words[0], 0, 0, 193, -math.pi / 2, 38)
        if len(words) > 1:
            letters.arc(ctx, words[1], 0, 0, 193, math.pi / 2, 38, inside=True)
        for angle in (0.36, math.pi - 0.36):
            paint.ellipse(ctx, 193 * math.cos(angle), 193 * math.sin(angle), 6, 6)
            again()
            ctx.fill()
    elif "oval" in shows:
        for grow, wide in ((1.0, 6), (0.92, 2.5)):
            paint.ellipse(ctx, 0, 0, 200 * grow, 130 * grow)
            ctx.set_line_width(wide)
            ctx.stroke()
        letters.line(ctx, reads, 0, -26, 78)
        letters.line(ctx, _batch(piece), 0, 62, 40)
    elif "boat" in shows and plain(mark.get("laid", "")) == "overglaze":
        _boat(ctx, 0, -70, 0.7)
        letters.line(ctx, piece.shape.get("name", reads), 0, 60, 62, weight=0.10, gap=2.4, lean=0.28)
    elif "boat" in shows:
        _boat(ctx, 0, -112, 1.25)
        letters.line(ctx, reads, 0, 66, 54, gap=3.4)
        letters.line(ctx, _batch(piece), 0, 158, 58, gap=4.4)
        for side in (-1, 1):
            ctx.move_to(side * 130, 158)
            ctx.line_to(side * 215, 158)
            ctx.set_line_width(3.5)
            again()
            ctx.stroke()
    elif len(words) > 1:  # a stamped label of two lines
        half = letters.length(words[0], 60) / 2 + 46
        for grow, wide in ((0, 7), (-12, 2.5)):
            ctx.move_to(-half - grow + 24, -92 - grow)
            ctx.line_to(half + grow - 24, -92 - grow)
            ctx.curve_to(half + grow, -92 - grow, half + grow, 92 + grow, half + grow - 24, 92 + grow)
            ctx.line_to(-half - grow + 24, 92 + grow)
            ctx.curve_to(-half - grow, 92 + grow, -half - grow, -92 - grow, -half - grow + 24, -92 - grow)
            ctx.close_path()
            ctx.set_line_width(wide)
            ctx.stroke()
        letters.line(ctx, words[0], 0, -26, 60, weight=0.16)
        letters.line(ctx, words[1], 0, 48, 34, weight=0.15, gap=4.2)
    else:
        letters.arc(ctx, reads, 0, 210, 280, -math.pi / 2, 52, gap=4)


def _batch(piece):
    return piece.date_code if isinstance(piece.date_code, str) else piece.date_code[0]


def _shield(ctx):
    for grow, wide in ((1.0, 8), (0.93, 3)):
        ctx.save()
        ctx.scale(grow, grow)
        ctx.move_to(-150, -180)
        ctx.curve_to(-90, -160, -50, -160, 0, -186)
        ctx.curve_to(50, -160, 90, -160, 150, -180)
        ctx.curve_to(160, 20, 130, 130, 0, 200)
        ctx.curve_to(-130, 130, -160, 20, -150, -180)
        ctx.close_path()
        ctx.restore()
        ctx.set_line_width(wide)
        ctx.stroke()


def _boat(ctx, x, y, scale):
    """The ferry: a long hull, a cabin, a pole with a pennant, three waves."""
    ctx.save()
    ctx.translate(x, y)
    ctx.scale(scale, scale)
    ctx.move_to(-118, 20)
    ctx.curve_to(-104, 30, -96, 52, -80, 56)
    ctx.line_to(80, 56)
    ctx.curve_to(96, 52, 106, 28, 120, 16)
    ctx.curve_to(80, 30, -80, 32, -118, 20)
    ctx.close_path()
    ctx.fill()
    ctx.rectangle(-34, -18, 72, 42)
    ctx.set_line_width(5)
    ctx.stroke()
    for k in range(3):
        ctx.rectangle(-25 + 22 * k, -8, 12, 16)
        ctx.fill()
    ctx.move_to(-44, -18)
    ctx.curve_to(-20, -30, 24, -30, 48, -18)
    ctx.close_path()
    ctx.fill()
    ctx.move_to(-62, 24)
    ctx.line_to(-62, -86)
    ctx.set_line_width(5)
    ctx.stroke()
    ctx.move_to(-60, -86)
    ctx.curve_to(-40, -96, -26, -74, -2, -84)
    ctx.line_to(-14, -70)
    ctx.line_to(-4, -60)
    ctx.curve_to(-28, -54, -40, -72, -60, -62)
    ctx.close_path()
    ctx.fill()
    for px, py in ((-112, 18), (112, 14)):
        ctx.move_to(-62, -80)
        ctx.line_to(px, py)
        ctx.set_line_width(1.8)
        ctx.stroke()
    ctx.move_to(64, 26)
    ctx.line_to(64, -34)
    ctx.line_to(80, -34)
    ctx.line_to(80, 24)
    ctx.set_line_width(4.5)
    ctx.stroke()
    for k, (smoke_x, smoke_y, r) in enumerate(((82, -46, 7), (94, -58, 9), (110, -66, 11))):
        ctx.new_sub_path()
        ctx.arc(smoke_x, smoke_y, r, 0.3, 5.4)
        ctx.set_line_width(3)
        ctx.stroke()
    for row, half in ((70, 124), (82, 96), (94, 60)):
        ctx.move_to(-half, row)
        steps = int(half / 12)
        for k in range(steps):
            x0 = -half + 2 * half * k / steps
            x1 = -half + 2 * half * (k + 1) / steps
            ctx.curve_to(x0 + (x1 - x0) * 0.3, row - 7, x0 + (x1 - x0) * 0.7, row + 7, x1, row)
        ctx.set_line_width(3.6)
        ctx.stroke()
    ctx.restore()


def _gloss(ctx, x, y, satin):
    ctx.set_line_cap(1)
    for r, begin, end, width, alpha in ((360, 3.6, 4.5, 34, 0.5), (330, 3.8, 4.2, 9, 0.45), (400, 0.5, 1.0, 22, 0.35)):
        ctx.new_sub_path()
        ctx.arc(x, y, r, begin, end)
        paint.soft_stroke(ctx, width * (1.8 if satin else 1), "#ffffff", alpha * (0.4 if satin else 0.8))
