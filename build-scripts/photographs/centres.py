"""Pictures that stand in the middle of a piece, each drawn in a square from -100 to 100."""
import math
import random

from . import paint, plants


def quince(ctx, x, y, r, turn):
    """A golden fruit, broad below and drawn in at the stalk."""
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(turn)
    ctx.move_to(-r * 0.10, -r * 1.0)
    ctx.curve_to(-r * 0.75, -r * 0.85, -r * 1.12, -r * 0.1, -r * 0.92, r * 0.45)
    ctx.curve_to(-r * 0.78, r * 0.95, -r * 0.3, r * 1.12, 0, r * 0.98)
    ctx.curve_to(r * 0.3, r * 1.12, r * 0.78, r * 0.95, r * 0.92, r * 0.45)
    ctx.curve_to(r * 1.12, -r * 0.1, r * 0.75, -r * 0.85, r * 0.10, -r * 1.0)
    ctx.close_path()
    outline = ctx.copy_path()
    ctx.set_source(paint.around(-r * 0.3, -r * 0.25, r * 0.05, r * 1.5, (0, "#fbe9a2", 1), (0.4, "#e3b548", 1), (0.8, "#b27a25", 1), (1, "#7d4f18", 1)))
    ctx.fill()
    ctx.append_path(outline)
    ctx.clip()
    ctx.set_line_cap(1)
    ctx.set_line_width(r * 0.022)
    for k in range(11):  # a little hatching, as an engraver shades
        paint.ink(ctx, "#6f4516", 0.10 + 0.03 * k)
        ctx.move_to(r * (0.26 + 0.05 * k), r * 0.95)
        ctx.curve_to(r * (0.42 + 0.05 * k), r * 0.55, r * (0.46 + 0.05 * k), r * 0.1, r * (0.34 + 0.05 * k), -r * (0.05 + 0.05 * (k % 3)))
        ctx.stroke()
    ctx.restore()
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(turn)
    for k in range(5):
        a = math.pi / 2 + (k - 2) * 0.42
        plants.leaf(ctx, 0, r * 0.92, a, r * 0.34, r * 0.16, "#7c6130")
    ctx.restore()


def quince_bough(ctx):
    """A natural branch with fruit, in brown and gold."""
    rnd = random.Random(4417)
    bark = "#6a4726"
    plants.stem(ctx, [(88, 62), (48, 38), (12, 10), (-24, -22), (-62, -52), (-86, -58)], 9, 2.5, bark)
    plants.stem(ctx, [(34, 27), (40, -6), (56, -36), (60, -56)], 5, 1.5, bark)
    plants.stem(ctx, [(-10, -10), (-40, 4), (-58, 28), (-62, 44)], 5, 1.5, bark)
    plants.stem(ctx, [(10, 10), (4, 32), (12, 52)], 3.5, 1.5, bark)
    tones = ("#8c7434", "#a58a3f", "#6f6a34", "#9a6d34")
    places = [(-84, -58, 3.6), (-70, -54, -1.3), (-60, -48, 2.2), (-40, -36, -0.9), (-36, -32, 2.5), (-14, -16, -1.4), (58, -50, -0.6),
              (60, -54, -1.9), (50, -26, 0.1), (44, -16, -2.6), (-58, 30, 2.9), (-60, 40, 1.2), (-48, 14, 3.9), (-30, 2, 1.4), (60, 44, 0.9), (72, 54, -0.9), (26, 22, -0.3), (86, 62, 0.5), (30, 24, 1.9)]
    for x, y, angle in places:
        plants.leaf(ctx, x, y, angle, rnd.uniform(27, 37), rnd.uniform(15, 19), tones[rnd.randrange(4)], bend=rnd.uniform(-0.12, 0.12))
    quince(ctx, 14, 62, 23, 0.1)
    quince(ctx, -60, 60, 20, -0.15)
    quince(ctx, 58, -64, 18, 2.9)
    quince(ctx, -22, 24, 17, 0.35)
    for x, y, angle in ((4, 40, 0.2), (12, 42, 2.6), (-66, 40, -2.9), (52, -48, 3.3), (-16, 4, 0.4)):
        plants.leaf(ctx, x, y, angle, 26, 14, tones[rnd.randrange(4)])


def heron_pond(ctx):
    """A bird among reeds, in black silhouette."""
    black = "#1b1a1b"
    rnd = random.Random(6033)
    paint.ink(ctx, black)
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    # the bird: body, neck, head
    ctx.move_to(-17, 2)
    ctx.curve_to(-14, -20, 10, -30, 28, -16)
    ctx.curve_to(42, -6, 54, 12, 62, 30)
    ctx.curve_to(50, 26, 46, 30, 40, 36)
    ctx.curve_to(36, 30, 30, 36, 24, 40)
    ctx.curve_to(4, 42, -14, 30, -17, 2)
    ctx.close_path()
    ctx.fill()
    paint.tapered(ctx, [(-6, 8), (-22, -6), (-28, -26), (-16, -42), (-12, -56), (-20, -68), (-30, -71)], 19, 7.5)
    ctx.fill()
    paint.ellipse(ctx, -30, -71.5, 10, 6, -0.08)
    ctx.fill()
    ctx.move_to(-36, -76)
    ctx.line_to(-76, -66)
    ctx.line_to(-35, -67)
    ctx.close_path()
    ctx.fill()
    for lean, length in ((0.0, 40), (0.10, 34)):  # the crest
        paint.tapered(ctx, [(-26, -76), (-10, -77 + 20 * lean), (6, -72 + 60 * lean), (length - 20, -64 + 80 * lean)], 3.2, 0.6)
        ctx.fill()
    for k in range(4):  # plumes at the breast
        paint.tapered(ctx, [(-14 + 2 * k, 8), (-22 + 4 * k, 24), (-21 + 5 * k, 42 - 3 * k)], 3, 0.5)
        ctx.fill()
    for points in ([(10, 34), (8, 56), (10, 84)], [(22, 34), (30, 54), (26, 84)]):
        paint.tapered(ctx, points, 3.6, 2.6)
        ctx.fill()
    # feathers and eye, left white
    paint.ink(ctx, "#f5ebd2")
    ctx.set_line_width(1.3)
    for k in range(4):
        ctx.move_to(2 + 4 * k, -12 + 8 * k)
        ctx.curve_to(20 + 4 * k, -10 + 8 * k, 34 + 4 * k, 4 + 6 * k, 46 + 3 * k, 20 + 3 * k)
        ctx.stroke()
    paint.ellipse(ctx, -33, -73, 1.5, 1.5)
    ctx.fill()
    # reeds and bulrushes
    paint.ink(ctx, black)
    for x, top, lean in ((-86, -20, -6), (-76, -52, -4), (-64, -10, 5), (-56, 14, -8), (-48, 36, 7), (58, -8, -5), (68, -60, 5), (78, -24, 9), (88, 4, 8), (50, 30, -6), (-92, 24, -10), (94, 36, 10)):
        paint.tapered(ctx, [(x, 90), (x + lean * 0.2, (90 + top) / 2), (x + lean, top)], 3.4, 0.7)
        ctx.fill()
    for x, y, lean in ((-80, -42, -0.06), (73, -50, 0.06), (-59, 0, 0.08), (86, -14, 0.12)):
        paint.ellipse(ctx, x, y, 3.8, 14, lean)
        ctx.fill()
    for x, y, bend in ((-70, 60, 1), (-84, 40, -1), (72, 52, -1), (86, 58, 1), (62, 66, 1), (-54, 66, -1)):
        paint.tapered(ctx, [(x, 90), (x + bend * 6, y), (x + bend * 26, y + 8)], 4, 0.5)
        ctx.fill()
    # water
    for y in (84, 89, 94, 99):
        x = -94 + rnd.uniform(0, 10)
        while x < 92:
            length = min(rnd.uniform(10, 40), 96 - x)
            ctx.move_to(x, y)
            ctx.curve_to(x + length * 0.3, y - 1.6, x + length * 0.6, y + 1.6, x + length, y)
            ctx.set_line_width(1.5 if y < 92 else 1.0)
            ctx.stroke()
            x += length + rnd.uniform(6, 18)


def barrow_of_blooms(ctx):
    """A barrow full of flowers."""
    rnd = random.Random(388)
    wood, dark = "#8d6238", "#5a3a1e"
    # leaves behind, then the heap
    for k in range(34):
        a = math.pi + math.pi * (k + 0.5) / 34
        x, y = 4 + 52 * math.cos(a), 12 + 62 * math.sin(a)
        plants.leaf(ctx, x * 0.8, 12 + (y - 12) * 0.8, a + rnd.uniform(-0.4, 0.4), rnd.uniform(22, 30), 11, ("#5d7f48", "#77955a", "#46683c")[k % 3])
    colours = ("#c9505c", "#e58a9a", "#e9b44c", "#6b83bd", "#f1e6c8", "#b06aa3", "#d9713f")
    spots = []
    for row, (y, half, count) in enumerate(((6, 50, 8), (-9, 46, 7), (-24, 38, 6), (-38, 26, 4), (-50, 11, 2))):
        for i in range(count):
            spots.append((4 - half + 2 * half * i / (count - 1) + rnd.uniform(-3, 3), y + rnd.uniform(-3, 3), row))
    spots.sort(key=lambda s: s[1])
    for i, (x, y, row) in enumerate(spots):
        code = colours[(i * 3 + row) % len(colours)]
        size = rnd.uniform(8.5, 11.5)
        if i % 4 == 3:
            plants.leaf(ctx, x, y, rnd.uniform(-2.6, -0.5), 20, 9, "#5d7f48")
        if i % 3 == 0:
            plants.rose(ctx, x, y, size, code)
        else:
            plants.blossom(ctx, x, y, size, code, petals=5 + i % 2, turn=rnd.uniform(0, 6))
    for x, y, angle in ((-44, 14, 2.4), (-30, 18, 1.9), (46, 16, 0.8), (30, 18, 1.2), (6, 18, 1.6)):
        plants.leaf(ctx, x, y, angle, 18, 9, "#6a8a50")
    # the barrow
    ctx.set_line_cap(1)
    ctx.set_line_join(1)
    ctx.move_to(-54, 16)
    ctx.line_to(62, 16)
    ctx.line_to(44, 54)
    ctx.line_to(-30, 54)
    ctx.close_path()
    ctx.set_source(paint.across(0, 16, 0, 54, (0, "#b98650", 1), (1, dark, 1)))
    ctx.fill_preserve()
    ctx.set_line_width(2)
    paint.ink(ctx, dark)
    ctx.stroke()
    for t in (0.34, 0.68):
        y = 16 + 38 * t
        ctx.move_to(-54 + 24 * t, y)
        ctx.line_to(62 - 18 * t, y)
        ctx.set_line_width(1.5)
        ctx.stroke()
    for t in (-0.55, 0.0, 0.55):
        ctx.move_to(4 + 58 * t, 17)
        ctx.line_to(7 + 37 * t, 53)
        ctx.set_line_width(3.4)
        paint.ink(ctx, wood)
        ctx.stroke()
    for width, code in ((6.5, dark), (4, wood)):
        ctx.move_to(-58, 62)
        ctx.line_to(44, 54)
        ctx.curve_to(66, 50, 78, 40, 98, 34)
        ctx.set_line_width(width)
        paint.ink(ctx, code)
        ctx.stroke()
        ctx.move_to(40, 54)
        ctx.line_to(50, 88)
        ctx.stroke()
    # the wheel
    for radius, width, code in ((25, 6, dark), (25, 3, wood)):
        ctx.new_sub_path()
        ctx.arc(-58, 63, radius, 0, 2 * math.pi)
        ctx.set_line_width(width)
        paint.ink(ctx, code)
        ctx.stroke()
    for k in range(8):
        a = math.pi * k / 4
        ctx.move_to(-58 + 4 * math.cos(a), 63 + 4 * math.sin(a))
        ctx.line_to(-58 + 24 * math.cos(a), 63 + 24 * math.sin(a))
        ctx.set_line_width(3)
        paint.ink(ctx, dark)
        ctx.stroke()
    plants.ball(ctx, -58, 63, 6, wood, shine=False)
    # grass
    for k in range(46):
        x = -92 + 4 * k + rnd.uniform(-2, 2)
        paint.tapered(ctx, [(x, 92), (x + rnd.uniform(-3, 3), 86), (x + rnd.uniform(-7, 7), rnd.uniform(76, 86))], 2.2, 0.3)
        paint.ink(ctx, ("#7e9a5d", "#5d7f48")[k % 2])
        ctx.fill()


_STITCHES = """
.....RRR.........BBB.....
....RRPRR.......BBLBB....
....RPYPR..GG...BLYLB....
....RRPRR.GG.G..BBLBB....
.....RRR.GG.RRR..BBB.....
......G.....RYR..G.......
..GG..G..G..RRR..G..GG...
.GGG..G.GG...G..GG.GGG...
..GG..GGG....G..G.GGG....
YYY.G..G.....G.GG.G...OOO
YOY..G.GG..G.G.G.G.G.OORO
YYY..GG.G..GGG.GG..G.OYOO
.G....G.GG..GG.G..GG..OO.
.GG...GG.G..G.GG.GG...G..
..GG...G.GG.G.G.GG...GG..
...GG..GG.G.G.GGG...GG...
....GG..G.G.GGG....GG....
.....GG.GG.GGG...GGG.....
......GGG.GGG..GGG.......
.......GGGGGGGGG.........
....SS...GGGGG...SS......
...S..SS..SGS..SS..S.....
....SSS.SSSSSSS.SSS......
.......SS.GGG.SS.........
......S...G.G...S........
.....S...GG.GG...S.......
........GG...GG..........
"""


def sampler_posy(ctx):
    """A bouquet in cross-stitch."""
    thread = {"R": "#c2455a", "P": "#e9a0a8", "Y": "#e7bd4e", "B": "#4f6fae", "L": "#9db4dc", "G": "#5f8350", "O": "#d9783f", "S": "#7d5fa0"}
    rows = _STITCHES.split()
    cell = 7.0
    left, top = -cell * len(rows[0]) / 2, -cell * len(rows) / 2
    ctx.set_line_cap(1)
    ctx.set_line_width(1.9)
    for j, row in enumerate(rows):
        for i, sign in enumerate(row):
            if sign == ".":
                continue
            x, y = left + cell * i, top + cell * j
            paint.ink(ctx, thread[sign])
            ctx.move_to(x + 0.9, y + 0.9)
            ctx.line_to(x + cell - 0.9, y + cell - 0.9)
            ctx.stroke()
            paint.ink(ctx, paint.mix(thread[sign], "#000000", 0.15))
            ctx.move_to(x + cell - 0.9, y + 0.9)
            ctx.line_to(x + 0.9, y + cell - 0.9)
            ctx.stroke()
