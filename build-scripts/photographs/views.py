"""Two centres with many things in them: a kitchen shelf and a harbour. Drawn from -100 to 100."""
import math
import random

import cairo

from . import paint, plants

_COPPER = ((0, "#7a3b1a", 1), (0.18, "#c9773d", 1), (0.34, "#ffd9a8", 1), (0.5, "#d98a4c", 1), (0.8, "#8d4a20", 1), (1, "#c07038", 1))


def copper_pantry(ctx):
    """A kitchen still life, with jug, kettle and onions."""
    brown = "#5a3217"
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    # rail with a pan, a ladle and a skimmer
    ctx.set_line_width(3)
    paint.ink(ctx, "#4a3a2c")
    ctx.move_to(-92, -82)
    ctx.line_to(92, -82)
    ctx.stroke()
    for x in (-66, -22, 16, 62):
        ctx.move_to(x, -82)
        ctx.curve_to(x, -74, x + 5, -74, x + 4, -78)
        ctx.set_line_width(2)
        ctx.stroke()
    ctx.move_to(-66, -76)
    ctx.line_to(-66, -50)
    ctx.set_line_width(4.5)
    paint.ink(ctx, brown)
    ctx.stroke()
    paint.ellipse(ctx, -66, -33, 21, 21)
    ctx.set_source(paint.around(-72, -40, 1, 30, (0, "#ffdcb0", 1), (0.45, "#cf7f42", 1), (1, "#7a3b1a", 1)))
    ctx.fill()
    paint.ellipse(ctx, -66, -33, 16.5, 16.5)
    ctx.set_line_width(1.2)
    paint.ink(ctx, brown, 0.7)
    ctx.stroke()
    for x, bowl in ((-22, 8), (16, 10)):
        ctx.move_to(x, -76)
        ctx.line_to(x, -42)
        ctx.set_line_width(2.6)
        paint.ink(ctx, "#8d5a33")
        ctx.stroke()
        paint.ellipse(ctx, x, -36, bowl, 7 if bowl < 9 else 10)
        ctx.set_source(paint.across(x - bowl, 0, x + bowl, 0, *_COPPER))
        ctx.fill()
    for i, (dx, dy) in enumerate(((-6, -2), (0, -4), (5, -1), (-3, 3), (3, 3))):
        paint.ellipse(ctx, 16 + dx, -36 + dy, 1.1, 1.1)
        paint.ink(ctx, brown)
        ctx.fill()
    # a string of onions
    ctx.move_to(62, -76)
    ctx.line_to(62, -8)
    ctx.set_line_width(2.4)
    paint.ink(ctx, "#a98d52")
    ctx.stroke()
    for k in range(5):
        for side in (-1, 1):
            _onion(ctx, 62 + side * 8.5, -58 + 12 * k + 3 * (side > 0), 8.2, side * 0.5)
    # shelf
    ctx.rectangle(-96, 66, 192, 9)
    ctx.set_source(paint.across(0, 66, 0, 75, (0, "#b48a58", 1), (1, "#7d5730", 1)))
    ctx.fill()
    ctx.rectangle(-90, 75, 180, 3)
    paint.ink(ctx, "#5a3d22")
    ctx.fill()
    # kettle
    ctx.move_to(-88, 8)
    ctx.curve_to(-96, 14, -80, 36, -64, 42)
    ctx.line_to(-60, 30)
    ctx.curve_to(-70, 26, -78, 14, -78, 6)
    ctx.close_path()
    ctx.set_source(paint.across(-95, 20, -60, 30, *_COPPER))
    ctx.fill()
    ctx.move_to(-68, 66)
    ctx.curve_to(-84, 40, -66, 8, -36, 6)
    ctx.curve_to(-6, 8, 12, 40, -4, 66)
    ctx.close_path()
    ctx.set_source(paint.across(-76, 0, 4, 0, *_COPPER))
    ctx.fill()
    paint.ellipse(ctx, -36, 7, 19, 5)
    ctx.set_source(paint.across(-55, 0, -17, 0, *_COPPER))
    ctx.fill_preserve()
    ctx.set_line_width(1.2)
    paint.ink(ctx, brown)
    ctx.stroke()
    plants.ball(ctx, -36, 0, 4.5, "#6d3b1c")
    for width, code in ((6, brown), (3, "#c9773d")):
        ctx.move_to(-62, 18)
        ctx.curve_to(-66, -26, -6, -26, -10, 18)
        ctx.set_line_width(width)
        paint.ink(ctx, code)
        ctx.stroke()
    ctx.move_to(-70, 60)
    ctx.line_to(-2, 60)
    ctx.set_line_width(1.4)
    paint.ink(ctx, brown, 0.7)
    ctx.stroke()
    # jug
    for width, code in ((8, brown), (5, "#b9662f")):
        ctx.move_to(50, 12)
        ctx.curve_to(80, 4, 80, 48, 48, 50)
        ctx.set_line_width(width)
        paint.ink(ctx, code)
        ctx.stroke()
    ctx.move_to(20, 66)
    ctx.curve_to(2, 50, 8, 28, 22, 18)
    ctx.line_to(20, 2)
    ctx.line_to(12, -6)
    ctx.curve_to(26, -2, 40, -2, 52, -2)
    ctx.line_to(48, 18)
    ctx.curve_to(62, 30, 66, 50, 48, 66)
    ctx.close_path()
    ctx.set_source(paint.across(8, 0, 62, 0, *_COPPER))
    ctx.fill()
    for y, x0, x1 in ((18, 22, 48), (21, 20, 50)):
        ctx.move_to(x0, y)
        ctx.line_to(x1, y)
        ctx.set_line_width(1.2)
        paint.ink(ctx, brown, 0.8)
        ctx.stroke()
    # onions on the shelf, and parsley
    for x, y, r in ((74, 56, 12), (2, 59, 10)):
        _onion(ctx, x, y, r, 0.0)
    _onion(ctx, 90, 60, 8, 0.6)
    for x, angle in ((66, -0.4), (70, -2.2), (-84, -1.0), (-80, -2.0), (-88, -2.7)):
        plants.leaf(ctx, x, 66, angle, 17, 8, "#6f8f4a")
    _onion(ctx, -84, 60, 8, -0.3)


def _onion(ctx, x, y, r, turn):
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(turn)
    ctx.move_to(0, -r * 1.5)
    ctx.curve_to(-r * 0.15, -r * 0.9, -r * 1.05, -r * 0.6, -r, 0.1 * r)
    ctx.curve_to(-r * 0.9, r, r * 0.9, r, r, 0.1 * r)
    ctx.curve_to(r * 1.05, -r * 0.6, r * 0.15, -r * 0.9, 0, -r * 1.5)
    ctx.close_path()
    ctx.set_source(paint.around(-r * 0.35, -r * 0.25, r * 0.05, r * 1.4, (0, "#fbe7bd", 1), (0.45, "#dca459", 1), (1, "#97591f", 1)))
    ctx.fill()
    ctx.set_line_width(max(0.5, r * 0.06))
    paint.ink(ctx, "#8a5220", 0.7)
    for bow in (-0.6, 0, 0.6):
        ctx.move_to(0, -r * 1.1)
        ctx.curve_to(bow * r * 1.3, -r * 0.4, bow * r * 1.2, r * 0.5, bow * r * 0.2, r * 0.8)
        ctx.stroke()
    ctx.restore()


def harbour_lantern(ctx):
    """A quay at dusk."""
    rnd = random.Random(88)
    ctx.push_group()
    ctx.rectangle(-110, -110, 220, 220)
    ctx.set_source(paint.across(0, -95, 0, 22, (0, "#4b5f93", 1), (0.45, "#9a7f9d", 1), (0.75, "#e39d7c", 1), (1, "#f8d08c", 1)))
    ctx.fill()
    for x, y, w in ((-60, -58, 34), (20, -70, 46), (-20, -36, 40), (56, -44, 26)):  # clouds
        for k in range(6):
            paint.ellipse(ctx, x + (k - 2.5) * w / 5, y + rnd.uniform(-2, 2), w / 5, 3.4)
            paint.ink(ctx, "#f2b9a0", 0.45)
            ctx.fill()
    paint.ellipse(ctx, -34, 12, 11, 11)
    paint.ink(ctx, "#fff0c0", 0.95)
    ctx.fill()
    # far shore
    paint.smooth(ctx, [(-112, 16), (-80, 4), (-50, 12), (-20, 8), (10, 14), (40, 10), (112, 16)])
    ctx.line_to(112, 24)
    ctx.line_to(-112, 24)
    ctx.close_path()
    paint.ink(ctx, "#6b6a8a")
    ctx.fill()
    # water with the sun's path
    ctx.rectangle(-110, 20, 220, 90)
    ctx.set_source(paint.across(0, 20, 0, 105, (0, "#d99d86", 1), (0.2, "#7d82a4", 1), (1, "#2e4267", 1)))
    ctx.fill()
    ctx.set_line_cap(1)
    for k in range(70):
        y = 22 + 80 * (k / 70) ** 1.15
        x = rnd.uniform(-100, 60)
        near_sun = abs(x + 34) < 16
        ctx.move_to(x, y)
        ctx.line_to(x + rnd.uniform(6, 18), y)
        ctx.set_line_width(1.1)
        paint.ink(ctx, "#ffe2a6" if near_sun else ("#a9b1cb", "#3b5079")[k % 2], 0.85 if near_sun else 0.5)
        ctx.stroke()
    # two boats
    for x, y, s, hull in ((-52, 46, 1.0, "#5b2f2a"), (-8, 32, 0.62, "#2f3f4f")):
        ctx.save()
        ctx.translate(x, y)
        ctx.scale(s, s)
        ctx.move_to(-30, 0)
        ctx.curve_to(-20, 14, 18, 14, 28, -2)
        ctx.close_path()
        paint.ink(ctx, hull)
        ctx.fill()
        ctx.set_line_width(1.6)
        ctx.move_to(-2, 4)
        ctx.line_to(-2, -62)
        ctx.stroke()
        ctx.move_to(0, -58)
        ctx.curve_to(18, -44, 22, -22, 20, -8)
        ctx.line_to(0, -8)
        ctx.close_path()
        ctx.set_source(paint.across(0, 0, 22, 0, (0, "#f3d7a8", 1), (1, "#b9805e", 1)))
        ctx.fill()
        ctx.move_to(-4, -52)
        ctx.curve_to(-16, -34, -22, -18, -24, -8)
        ctx.line_to(-4, -8)
        ctx.close_path()
        paint.ink(ctx, "#c98f6c")
        ctx.fill()
        for k in range(5):
            ctx.move_to(-22 + 9 * k, 15 + 3 * (k % 2))
            ctx.line_to(-14 + 9 * k, 15 + 3 * (k % 2))
            ctx.set_line_width(1.4)
            paint.ink(ctx, hull, 0.6)
            ctx.stroke()
        ctx.restore()
    # houses on the quay
    for x, top, w, code in ((46, -36, 26, "#4c4662"), (70, -52, 24, "#3a3650"), (92, -30, 26, "#453f5a")):
        ctx.move_to(x - w / 2, 60)
        ctx.line_to(x - w / 2, top)
        ctx.line_to(x, top - 18)
        ctx.line_to(x + w / 2, top)
        ctx.line_to(x + w / 2, 60)
        ctx.close_path()
        paint.ink(ctx, code)
        ctx.fill()
        for wx in (-5, 5):
            for wy in (10, 30, 50):
                if rnd.random() < 0.7:
                    ctx.rectangle(x + wx - 2.4, top + wy - 4, 4.8, 7)
                    paint.ink(ctx, "#ffd884")
                    ctx.fill()
    ctx.move_to(112, 52)
    ctx.line_to(24, 58)
    ctx.line_to(8, 78)
    ctx.line_to(14, 112)
    ctx.line_to(112, 112)
    ctx.close_path()
    ctx.set_source(paint.across(0, 52, 0, 105, (0, "#8b7b79", 1), (1, "#4f4752", 1)))
    ctx.fill()
    ctx.set_line_width(1.1)
    paint.ink(ctx, "#38323e", 0.8)
    for row in range(5):
        y = 66 + 9 * row
        ctx.move_to(18 - row, y + 4)
        ctx.line_to(110, y)
        ctx.stroke()
        for k in range(6):
            x = 26 + 16 * k + 8 * (row % 2)
            ctx.move_to(x, y)
            ctx.line_to(x, y + 9)
            ctx.stroke()
    # the lantern
    ctx.set_source(paint.around(34, -8, 2, 46, (0, "#fff3c4", 0.95), (0.25, "#ffd97f", 0.6), (1, "#ffd97f", 0)))
    ctx.rectangle(-20, -60, 110, 110)
    ctx.fill()
    paint.ink(ctx, "#221c26")
    ctx.set_line_width(3.4)
    ctx.move_to(34, 64)
    ctx.line_to(34, 4)
    ctx.stroke()
    for x0, y0, x1, y1 in ((27, 64, 41, 64), (29, 6, 39, 6)):
        ctx.move_to(x0, y0)
        ctx.line_to(x1, y1)
        ctx.stroke()
    ctx.move_to(29, 4)
    ctx.line_to(26, -16)
    ctx.line_to(42, -16)
    ctx.line_to(39, 4)
    ctx.close_path()
    paint.ink(ctx, "#ffe9a0")
    ctx.fill_preserve()
    paint.ink(ctx, "#221c26")
    ctx.set_line_width(1.8)
    ctx.stroke()
    ctx.move_to(24, -16)
    ctx.line_to(34, -27)
    ctx.line_to(44, -16)
    ctx.close_path()
    ctx.fill()
    ctx.move_to(34, 4)
    ctx.line_to(34, -16)
    ctx.set_line_width(1.2)
    ctx.stroke()
    scene = ctx.pop_group()
    # a printed vignette: it fades out at an uneven edge
    ctx.set_source(scene)
    fade = cairo.RadialGradient(0, 4, 0, 0, 4, 102)
    for offset, alpha in ((0, 1), (0.82, 1), (0.93, 0.75), (1, 0)):
        fade.add_color_stop_rgba(offset, 0, 0, 0, alpha)
    ctx.mask(fade)
