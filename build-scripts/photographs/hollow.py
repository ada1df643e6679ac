"""Hollow ware seen from the side: teapots and teacups, with the handle, finial, foot and cover that are recorded."""
import math

from . import motifs, paint
from .records import Unfit

_HEIGHTS = {"teapot": 920, "teacup": 1000}


def can_draw(form):
    return form in _HEIGHTS


def height(form):
    return _HEIGHTS[form]


def draw(ctx, piece, width, height):
    glaze = paint.GLAZES[piece.look("glaze", "ivory")]
    {"teapot": _teapot, "teacup": _teacup}[piece.form](ctx, piece, glaze)


def _tube(ctx, path, width, glaze):
    """A handle or spout: a round bar of clay, lit along its upper left side."""
    light, middle, shade = glaze
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    deep = paint.mix(shade, "#6b5a46", 0.5)
    for d, share, code in ((0, 1.0, deep), (-0.03, 0.9, shade), (-0.07, 0.74, paint.mix(shade, middle, 0.6)), (-0.11, 0.56, middle), (-0.15, 0.36, light), (-0.18, 0.16, "#ffffff")):
        ctx.save()
        ctx.translate(width * d, width * d)
        path(ctx)
        ctx.restore()
        ctx.set_line_width(width * share)
        paint.ink(ctx, code)
        ctx.stroke()


def _handle_path(kind, x, top, bottom, reach):
    """From the side of a piece at x, between two heights, standing out by `reach`."""
    middle = (top + bottom) / 2

    def looped(ctx):
        ctx.move_to(x, top)
        ctx.curve_to(x + reach * 0.55, top - reach * 0.34, x + reach * 1.15, top - reach * 0.05, x + reach, middle - reach * 0.05)
        ctx.curve_to(x + reach * 0.9, middle + reach * 0.4, x + reach * 0.5, bottom - reach * 0.02, x - reach * 0.1, bottom)

    def angular(ctx):
        ctx.move_to(x, top)
        ctx.line_to(x + reach, top - reach * 0.06)
        ctx.line_to(x - reach * 0.08, bottom)

    def ring(ctx):
        r = min(reach, bottom - top) * 0.5
        ctx.new_sub_path()
        ctx.arc(x + r * 0.82, middle, r, 0, 2 * math.pi)
        ctx.close_path()

    if kind not in ("looped", "angular", "ring"):
        raise Unfit(f"a handle is looped, angular or ring, and not `{kind}`")
    return {"looped": looped, "angular": angular, "ring": ring}[kind]


def _knob(ctx, kind, x, y, glaze):
    """A finial that stands on a cover at (x, y)."""
    light, middle, shade = glaze

    def lump(lx, ly, rx, ry):
        paint.ellipse(ctx, lx, ly, rx, ry)
        ctx.set_source(paint.around(lx - rx * 0.35, ly - ry * 0.4, 1, rx * 1.6, (0, "#ffffff", 1), (0.4, middle, 1), (1, paint.mix(shade, "#6b5a46", 0.4), 1)))
        ctx.fill()

    lump(x, y - 4, 30, 11)
    if kind == "open loop":
        def loop(c):
            c.save()
            c.translate(x, y - 50)
            c.scale(1, 1.12)
            c.new_sub_path()
            c.arc(0, 0, 31, 0, 2 * math.pi)
            c.close_path()
            c.restore()
        _tube(ctx, loop, 19, glaze)
    elif kind == "slot":
        def bar(c):
            c.move_to(x - 44, y - 8)
            c.curve_to(x - 46, y - 46, x + 46, y - 46, x + 44, y - 8)
        _tube(ctx, bar, 24, glaze)
    elif kind == "acorn":
        lump(x, y - 30, 24, 20)
        lump(x, y - 50, 20, 26)
        lump(x, y - 79, 5, 7)
    else:
        lump(x, y - 36, 30, 27)


def _round_shade(ctx, left, right, top, bottom, glaze):
    """Over a body that is clipped: darker to both sides and below, with light on the left of the middle."""
    shade = paint.mix(glaze[2], "#6b5a46", 0.35)
    ctx.set_source(paint.across(left, 0, right, 0, (0, shade, 0.55), (0.13, shade, 0.20), (0.3, "#ffffff", 0.0), (0.55, shade, 0.02), (0.8, shade, 0.28), (0.95, shade, 0.66), (1, shade, 0.55)))
    ctx.paint()
    ctx.set_source(paint.across(0, top, 0, bottom, (0, shade, 0.0), (0.6, shade, 0.02), (1, shade, 0.5)))
    ctx.paint()


def _table_shadow(ctx, x, y, rx, ry):
    for i in range(26):
        share = 1.35 - 0.62 * i / 25
        paint.ellipse(ctx, x + rx * 0.16, y, rx * share, ry * share)
        paint.ink(ctx, "#2a2420", 0.030)
        ctx.fill()


def _fan(ctx, x, y, r, glaze, turn):
    """A shell in relief."""
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(turn)
    for j in range(-4, 5):
        a = j / 4 * 1.05
        long = r * (1 - 0.18 * abs(j) / 4)
        def ray(c, a=a, long=long):
            c.move_to(math.sin(a) * r * 0.16, -math.cos(a) * r * 0.16)
            c.line_to(math.sin(a) * long, -math.cos(a) * long)
        paint.raised(ctx, ray, r * 0.11, glaze, 0.9)
    for side in (-1, 1):
        def scroll(c, side=side):
            c.move_to(side * r * 0.1, r * 0.06)
            c.curve_to(side * r * 0.9, r * 0.3, side * r * 1.35, -r * 0.3, side * r * 1.02, -r * 0.32)
        paint.raised(ctx, scroll, r * 0.1, glaze)
    ctx.restore()


def _lozenge_lattice(ctx, x, y, r, glaze):
    """A lattice field in relief."""
    ctx.save()
    paint.ellipse(ctx, x, y, r * 1.2, r * 0.62)
    ctx.clip()
    for lean in (-1, 1):
        for i in range(-8, 9):
            def bar(c, i=i, lean=lean):
                c.move_to(x + i * r * 0.25 - lean * r * 0.6, y - r)
                c.line_to(x + i * r * 0.25 + lean * r * 0.6, y + r)
            paint.raised(ctx, bar, r * 0.07, glaze, 0.8)
    ctx.restore()
    paint.raised(ctx, lambda c: paint.ellipse(c, x, y, r * 1.2, r * 0.62), r * 0.09, glaze)


def _teapot(ctx, piece, glaze):
    light, middle, shade = glaze
    x, top, belly, base = 590, 344, 516, 726
    scalloped = piece.look("outline") == "scalloped"
    over = piece.look("cover") == "over the edge"
    _table_shadow(ctx, x, base + 26, 250, 34)

    # spout and handle stand behind the body
    tip = (x - 400, top + 24)
    spout = [(x - 120, top + 250), (x - 240, top + 258), (x - 318, top + 196), (x - 352, top + 112), (tip[0] + 2, tip[1] + 4)]
    for share, code in ((1.0, paint.mix(shade, "#6b5a46", 0.3)), (0.93, shade), (0.82, paint.mix(shade, middle, 0.5)), (0.68, middle), (0.48, light), (0.22, "#ffffff")):
        ctx.save()
        ctx.translate(-14 * (1 - share), -16 * (1 - share))
        paint.tapered(ctx, spout, 168 * share, 54 * share)
        paint.ink(ctx, code)
        ctx.fill()
        ctx.restore()
    paint.ellipse(ctx, *tip, 30, 12, -0.42)
    paint.ink(ctx, paint.mix(shade, "#4a3a2a", 0.55))
    ctx.fill_preserve()
    ctx.set_line_width(6)
    ctx.set_source(paint.metal("gold", *tip, 60) if piece.look("edge-line") == "gold" else paint.across(0, tip[1] - 12, 0, tip[1] + 12, (0, light, 1), (1, middle, 1)))
    ctx.stroke()
    _tube(ctx, _handle_path(piece.look("handle", "looped"), x + 222, top + 84, top + 300, 205), 44, glaze)

    def body():
        ctx.move_to(x - 128, top)
        ctx.curve_to(x - 150, top + 34, x - 276, top + 60, x - 276, belly + 14)
        ctx.curve_to(x - 276, belly + 130, x - 190, base - 28, x - 128, base)
        ctx.line_to(x + 128, base)
        ctx.curve_to(x + 190, base - 28, x + 276, belly + 130, x + 276, belly + 14)
        ctx.curve_to(x + 276, top + 60, x + 150, top + 34, x + 128, top)
        ctx.close_path()

    # the foot
    ctx.move_to(x - 128, base - 12)
    ctx.curve_to(x - 140, base + 8, x - 158, base + 10, x - 160, base + 24)
    ctx.curve_to(x - 80, base + 40, x + 80, base + 40, x + 160, base + 24)
    ctx.curve_to(x + 158, base + 10, x + 140, base + 8, x + 128, base - 12)
    ctx.close_path()
    ctx.set_source(paint.across(x - 160, 0, x + 160, 0, (0, shade, 1), (0.3, light, 1), (0.6, middle, 1), (1, paint.mix(shade, "#6b5a46", 0.4), 1)))
    ctx.fill()

    ctx.save()
    body()
    ctx.set_source(paint.across(0, top, 0, base, (0, light, 1), (1, middle, 1)))
    ctx.fill_preserve()
    ctx.clip()
    if scalloped:  # soft flutes answer the scallops of the edge
        for k in range(-6, 7):
            bow = k / 6.5
            ctx.move_to(x + 128 * bow, top)
            ctx.curve_to(x + 290 * bow, top + 90, x + 290 * bow, base - 90, x + 128 * bow, base)
            paint.soft_stroke(ctx, 16, shade, 0.16)
    if piece.look("embossing") == "in panels":
        for side in (-1, 1):
            if piece.shape_id == "tavenshaw":
                _fan(ctx, x + side * 176, top + 114, 60, glaze, side * 0.42)
            else:
                _lozenge_lattice(ctx, x + side * 170, top + 88, 56, glaze)
    elif piece.look("embossing") == "all round":
        for k in range(-34, 35):
            a = k / 35 * 1.45
            def rib(c, a=a):
                c.move_to(x + 150 * math.sin(a), top + 22)
                c.line_to(x + 205 * math.sin(a), top + 74)
            paint.raised(ctx, rib, 6, glaze, 0.6)
    ctx.save()
    ctx.translate(x, top + 222)
    ctx.scale(1.42, 1.42)
    motifs.on_front(piece.motif)(ctx)
    ctx.restore()
    _round_shade(ctx, x - 276, x + 276, top, base, glaze)
    # a window reflected in the glaze
    soft = piece.look("glaze") == "vellum"
    for dx, wide, alpha in ((-190, 34, 0.5), (-160, 9, 0.4)):
        ctx.move_to(x + dx, top + 118)
        ctx.curve_to(x + dx - 34, top + 170, x + dx - 40, top + 230, x + dx - 24, top + 290)
        ctx.set_line_cap(1)
        paint.soft_stroke(ctx, wide * (2 if soft else 1), "#ffffff", alpha * (0.5 if soft else 1))
    ctx.restore()

    # collar and cover
    half = 150 if over else 134
    edge = piece.look("edge-line")
    if not over:
        _collar(ctx, x, top, 138, glaze, scalloped, edge, 2 * math.pi)
    ctx.move_to(x - half + 12, top - 4)
    ctx.curve_to(x - half + 30, top - 58, x - 56, top - 76, x, top - 78)
    ctx.curve_to(x + 56, top - 76, x + half - 30, top - 58, x + half - 12, top - 4)
    ctx.curve_to(x + 60, top + 14, x - 60, top + 14, x - half + 12, top - 4)
    ctx.close_path()
    cover = ctx.copy_path()
    ctx.set_source(paint.across(x - half, 0, x + half, 0, (0, shade, 1), (0.3, light, 1), (0.6, middle, 1), (1, paint.mix(shade, "#6b5a46", 0.4), 1)))
    ctx.fill()
    ctx.save()
    ctx.append_path(cover)
    ctx.clip()
    if scalloped:
        for k in range(-5, 6):
            ctx.move_to(x + 10 * k, top - 78)
            ctx.curve_to(x + 18 * k, top - 60, x + 24 * k, top - 30, x + 25 * k, top + 10)
            paint.soft_stroke(ctx, 10, shade, 0.22)
    ctx.move_to(x - 84, top - 26)
    ctx.curve_to(x - 72, top - 52, x - 40, top - 62, x - 20, top - 64)
    ctx.set_line_cap(1)
    paint.soft_stroke(ctx, 12, "#ffffff", 0.6)
    ctx.restore()
    if edge in paint.METALS:
        ctx.move_to(x - half + 16, top - 10)
        ctx.curve_to(x - 60, top + 8, x + 60, top + 8, x + half - 16, top - 10)
        ctx.set_line_width(6)
        ctx.set_source(paint.metal(edge, x, top, half))
        ctx.stroke()
    if not over:
        _collar(ctx, x, top, 138, glaze, scalloped, edge, math.pi)
    _knob(ctx, piece.look("finial", "closed knob"), x, top - 74, glaze)


def _collar(ctx, x, y, half, glaze, scalloped, edge, end):
    """The edge of the opening: its front only (`end` half a turn), or all of it."""
    light, middle, shade = glaze
    depth = 0.05 if scalloped else 0.0

    def rim(c):
        steps = 180
        for i in range(steps + 1):
            a = end * i / steps
            r = half * (1 - depth * (1 - abs(math.cos(10 * a)) ** 0.65))
            (c.line_to if i else c.move_to)(x - r * math.cos(a), y - 4 + r * 0.15 * math.sin(a) - 70 * depth * (1 - abs(math.cos(10 * a)) ** 0.65))

    ctx.set_line_cap(0)
    for dy, width, code in ((5, 16, paint.mix(shade, "#6b5a46", 0.35)), (1, 14, middle), (-2, 7, light)):
        ctx.save()
        ctx.translate(0, dy)
        rim(ctx)
        ctx.restore()
        ctx.set_line_width(width)
        ctx.set_line_join(1)
        paint.ink(ctx, code)
        ctx.stroke()
    if edge in paint.METALS:
        rim(ctx)
        ctx.set_line_width(6)
        ctx.set_source(paint.metal(edge, x, y, half))
        ctx.stroke()


def _teacup(ctx, piece, glaze):
    light, middle, shade = glaze
    x, rim, base = 540, 330, 812
    rx, ry, foot = 336, 74, 176
    soft = piece.look("glaze") == "vellum"
    raised_foot = piece.look("cup-foot") == "raised"
    _table_shadow(ctx, x, base + (34 if raised_foot else 14), 240, 44)
    _tube(ctx, _handle_path(piece.look("handle", "looped"), x + 262, 400, 648, 244), 46, glaze)

    if raised_foot:
        paint.ellipse(ctx, x, base + 26, foot * 0.9, 36)
        ctx.set_source(paint.across(x - foot, 0, x + foot, 0, (0, shade, 1), (0.3, light, 1), (1, paint.mix(shade, "#6b5a46", 0.4), 1)))
        ctx.fill()

    def body():
        ctx.move_to(x - rx, rim)
        ctx.curve_to(x - rx + 6, rim + 210, x - foot - 82, base - 70, x - foot, base)
        ctx.curve_to(x - foot * 0.5, base + 36, x + foot * 0.5, base + 36, x + foot, base)
        ctx.curve_to(x + foot + 82, base - 70, x + rx - 6, rim + 210, x + rx, rim)
        ctx.close_path()

    ctx.save()
    body()
    ctx.set_source(paint.across(0, rim, 0, base, (0, light, 1), (1, middle, 1)))
    ctx.fill_preserve()
    ctx.clip()
    ctx.save()
    ctx.translate(x, rim + 306)
    ctx.scale(1.45, 1.45)
    motifs.on_front(piece.motif)(ctx)
    ctx.restore()
    if piece.look("embossing") == "all round":
        for k in range(1, 96):  # ribs on the near side, closer together as they turn away
            a = math.pi * k / 96
            def rib(c, a=a):
                px, py = x + rx * math.cos(a), rim + ry * math.sin(a)
                c.move_to(px, py + 10)
                c.line_to(x + (rx - 7) * math.cos(a), py + 66)
            paint.raised(ctx, rib, 6.5 * (0.35 + 0.65 * math.sin(a)), glaze, 0.7)
    _round_shade(ctx, x - rx, x + rx, rim, base + 30, glaze)
    for dx, wide, alpha in ((-236, 38, 0.42), (-204, 10, 0.34)):
        ctx.move_to(x + dx, rim + 150)
        ctx.curve_to(x + dx + 4, rim + 230, x + dx + 24, rim + 290, x + dx + 52, rim + 340)
        ctx.set_line_cap(1)
        paint.soft_stroke(ctx, wide * (1.8 if soft else 1), "#ffffff", alpha * (0.5 if soft else 1))
    ctx.restore()

    # the opening: lip, and the inner wall that faces the light
    paint.ellipse(ctx, x, rim, rx, ry)
    ctx.set_source(paint.across(x - rx, 0, x + rx, 0, (0, light, 1), (0.6, middle, 1), (1, shade, 1)))
    ctx.fill()
    paint.ellipse(ctx, x, rim + 3, rx - 11, ry - 9)
    ctx.save()
    ctx.clip()
    ctx.set_source(paint.across(x - rx, rim - 30, x + rx, rim + 60, (0, paint.mix(shade, "#5a4a38", 0.45), 1), (0.45, paint.mix(shade, middle, 0.4), 1), (0.85, light, 1), (1, middle, 1)))
    ctx.paint()
    ctx.set_source(paint.across(0, rim - ry, 0, rim + ry, (0, "#5a4a38", 0.30), (0.5, "#5a4a38", 0.08), (1, "#5a4a38", 0.0)))
    ctx.paint()
    ctx.restore()
    edge = piece.look("edge-line", "none")
    if edge in paint.METALS or edge == "coloured":
        paint.ellipse(ctx, x, rim, rx - 2, ry - 2)
        ctx.set_line_width(7)
        if edge == "coloured":
            paint.ink(ctx, paint.LINES[piece.look("colour", "coloured")])
        else:
            ctx.set_source(paint.metal(edge, x, rim, rx))
        ctx.stroke()
