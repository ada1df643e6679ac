"""The printed pictures, one function a motif.

A centre is drawn in a square from -100 to 100; a border or spray is drawn on the plate itself, because it follows
the plate's outline. The records' own words for a motif (its note, its class) say what each must show.
"""
import math
import random

from . import centres, paint, plants, views
from .records import Unfit


def _middle(draw, fill):
    """A centre on a flat piece, scaled to its well."""
    def on_flat(ctx, flat):
        ctx.save()
        ctx.translate(flat.x, flat.y)
        floor = flat.verge - 0.10 if flat.is_bowl() else flat.verge if flat.rimmed else 0.72
        size = flat.reach * floor * fill / 100
        ctx.scale(size, size * (1 if flat.squash > 0.9 else 0.90))
        draw(ctx)
        ctx.restore()
    return on_flat


def _pimpernel_paling(ctx, flat):
    """Red flowers on a black lattice, broken into six parts."""
    parts, half = 6, math.pi / 6 * 0.80
    for k in range(parts):
        middle = 2 * math.pi * k / parts + math.pi / 6
        low, high = 0.20, 0.84
        bars = 9
        ctx.set_line_width(flat.reach * 0.0052)
        ctx.set_line_cap(1)
        paint.ink(ctx, "#221d1c", 0.92)
        for lean in (-1, 1):
            for i in range(-bars - 3, bars + 4):
                points = []
                for j in range(13):
                    v = j / 12
                    a = i / bars * half + lean * (v - 0.5) * half * 0.42
                    if abs(a) <= half:
                        points.append(flat.on_rim(middle + a, low + (high - low) * v))
                if len(points) > 1:
                    paint.smooth(ctx, points)
                    ctx.stroke()
        for v, wide in ((low, 0.010), (high, 0.010)):
            for j in range(25):
                a = middle - half + 2 * half * j / 24
                (ctx.line_to if j else ctx.move_to)(*flat.on_rim(a, v))
            ctx.set_line_width(flat.reach * wide)
            ctx.stroke()
        rnd = random.Random(310 + k)
        vine = [(-1.02, 0.42), (-0.6, 0.66), (-0.2, 0.42), (0.2, 0.64), (0.6, 0.40), (1.02, 0.60)]
        points = [flat.on_rim(middle + a * half, v) for a, v in vine]
        plants.stem(ctx, points, flat.reach * 0.009, flat.reach * 0.006, "#46633a")
        for i, (a, v) in enumerate(vine):
            x, y = flat.on_rim(middle + a * half, v)
            out = flat.outward(middle + a * half)
            for lean in (-1.9, -1.0, 1.0, 1.9):
                plants.leaf(ctx, x, y, out + lean + rnd.uniform(-0.3, 0.3), flat.reach * 0.086, flat.reach * 0.044, ("#5b7d47", "#6f9156")[i % 2])
        for i, (a, v) in enumerate(vine):
            x, y = flat.on_rim(middle + a * half, v)
            size = 0.046 if i in (0, 5) else 0.058
            plants.blossom(ctx, x, y, flat.reach * size, "#c8372f", turn=rnd.uniform(0, 6))
        for a in (-0.4, 0.0, 0.42):
            x, y = flat.on_rim(middle + a * half, 0.27 + 0.5 * rnd.random())
            plants.ball(ctx, x, y, flat.reach * 0.012, "#d9564a", shine=False)


def _bellrope_border(ctx, flat):
    """A narrow border in blue and rose, with tassels."""
    for v, code, wide in ((0.86, "#4f6f9f", 0.012), (0.66, "#4f6f9f", 0.008)):
        flat.arc(ctx, 0, 2 * math.pi, flat.verge + (1 - flat.verge) * v)
        ctx.set_line_width(flat.reach * wide)
        paint.ink(ctx, code, 0.9)
        ctx.stroke()
    count = 36
    for k in range(count):
        a = 2 * math.pi * k / count
        step = 2 * math.pi / count
        rope = [flat.on_rim(a + step * j / 8, 0.76 + 0.06 * math.sin(2 * math.pi * j / 8)) for j in range(9)]
        paint.smooth(ctx, rope)
        ctx.set_line_width(flat.reach * 0.012)
        paint.ink(ctx, "#c27b86" if k % 2 else "#6d8bb5", 0.95)
        ctx.stroke()
        if k % 3 == 0:
            x, y = flat.on_rim(a, 0.62)
            back = flat.outward(a) + math.pi
            plants.ball(ctx, x, y, flat.reach * 0.012, "#c27b86", shine=False)
            for spread in (-0.25, -0.12, 0, 0.12, 0.25):
                ctx.move_to(x, y)
                ctx.line_to(x + math.cos(back + spread) * flat.reach * 0.06, y + math.sin(back + spread) * flat.reach * 0.06)
                ctx.set_line_width(flat.reach * 0.005)
                paint.ink(ctx, "#4f6f9f")
                ctx.stroke()


def _gooseberry_wreath(ctx, flat):
    """A ring of leaves with green fruit."""
    rnd = random.Random(6203)
    s = flat.verge * 0.66
    reach = flat.reach
    count = 34
    for begin in range(4):  # a twisted twig in four lengths
        points = []
        for j in range(13):
            a = begin * math.pi / 2 + math.pi / 2 * j / 12 * 1.06
            points.append(flat.at(a, s + 0.012 * math.sin(9 * a)))
        plants.stem(ctx, points, reach * 0.012, reach * 0.006, "#7a5b3a")
    for k in range(count):
        a = 2 * math.pi * k / count
        x, y = flat.at(a, s)
        along = flat.outward(a, s) + math.pi / 2
        for lean, size in ((-0.75, 0.125), (0.85, 0.115)):
            green = ("#5f7f3c", "#7a9650", "#4d6c38", "#8aa35c")[rnd.randrange(4)]
            length = reach * size * rnd.uniform(0.85, 1.1)
            lobed_leaf(ctx, x, y, along + lean + rnd.uniform(-0.15, 0.15), length, green)
    for k in range(17):
        a = 2 * math.pi * (k + 0.5) / 17
        lift = (-0.055, 0.062)[k % 2]
        x, y = flat.at(a, s + lift)
        x0, y0 = flat.at(a, s)
        ctx.move_to(x0, y0)
        ctx.line_to(x, y)
        ctx.set_line_width(reach * 0.004)
        paint.ink(ctx, "#7a5b3a")
        ctx.stroke()
        gooseberry(ctx, x, y, reach * 0.034, flat.outward(a, s) + (0 if lift > 0 else math.pi))


def lobed_leaf(ctx, x, y, angle, length, code):
    """A leaf of three rounded lobes."""
    for lean, share in ((-0.62, 0.74), (0.62, 0.74), (0, 1.0)):
        plants.leaf(ctx, x, y, angle + lean, length * share, length * 0.42, paint.mix(code, "#000000", 0.05 if lean else 0.0))


def gooseberry(ctx, x, y, r, angle):
    """A green berry with pale meridians and a withered tip."""
    plants.ball(ctx, x, y, r, "#a9bf62", shine=False)
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    ctx.set_line_width(r * 0.07)
    paint.ink(ctx, "#eef2cf", 0.85)
    for bow in (-0.75, -0.4, 0, 0.4, 0.75):
        ctx.move_to(-r * 0.95, 0)
        ctx.curve_to(-r * 0.4, bow * r * 1.2, r * 0.4, bow * r * 1.2, r * 0.95, 0)
        ctx.stroke()
    ctx.set_line_width(r * 0.12)
    paint.ink(ctx, "#6e4f30")
    for lean in (-0.25, 0, 0.25):
        ctx.move_to(r * 0.95, 0)
        ctx.line_to(r * 1.35, lean * r)
        ctx.stroke()
    ctx.restore()
    paint.ellipse(ctx, x - r * 0.35, y - r * 0.38, r * 0.18, r * 0.12, -0.7)
    paint.ink(ctx, "#ffffff", 0.75)
    ctx.fill()


def wren(ctx, x, y, size, angle, facing):
    """A small round brown bird with its tail up."""
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    ctx.scale(facing * size, size)
    # tail
    ctx.move_to(-0.55, -0.05)
    ctx.line_to(-1.02, -0.95)
    ctx.line_to(-0.72, -1.0)
    ctx.line_to(-0.28, -0.28)
    ctx.close_path()
    paint.ink(ctx, "#6b4526")
    ctx.fill()
    ctx.set_line_width(0.05)
    paint.ink(ctx, "#3d2614")
    for t in (0.25, 0.5, 0.75):
        ctx.move_to(-0.55 - 0.47 * t, -0.05 - 0.9 * t)
        ctx.line_to(-0.28 - 0.44 * t, -0.28 - 0.72 * t)
        ctx.stroke()
    # body and head
    ctx.move_to(-0.62, -0.02)
    ctx.curve_to(-0.4, -0.62, 0.2, -0.55, 0.38, -0.72)
    ctx.curve_to(0.52, -0.98, 0.98, -0.92, 0.98, -0.52)
    ctx.curve_to(1.0, -0.2, 0.85, 0.5, 0.1, 0.55)
    ctx.curve_to(-0.3, 0.55, -0.6, 0.3, -0.62, -0.02)
    ctx.close_path()
    ctx.set_source(paint.across(0, -0.8, 0.1, 0.6, (0, "#8a5a31", 1), (0.5, "#a9774a", 1), (1, "#e6cfa6", 1)))
    ctx.fill()
    # wing with bars
    ctx.move_to(-0.5, 0.02)
    ctx.curve_to(-0.3, -0.45, 0.25, -0.4, 0.45, -0.1)
    ctx.curve_to(0.25, 0.25, -0.2, 0.25, -0.5, 0.02)
    ctx.close_path()
    paint.ink(ctx, "#6b4526")
    ctx.fill()
    ctx.set_line_width(0.05)
    paint.ink(ctx, "#d8b483")
    for t in (-0.25, -0.05, 0.15):
        ctx.move_to(t, -0.26)
        ctx.line_to(t + 0.1, 0.14)
        ctx.stroke()
    # brow, eye, beak, legs
    ctx.set_line_width(0.07)
    paint.ink(ctx, "#efdcb8")
    ctx.move_to(0.5, -0.74)
    ctx.curve_to(0.62, -0.82, 0.78, -0.82, 0.92, -0.7)
    ctx.stroke()
    paint.ellipse(ctx, 0.76, -0.64, 0.07, 0.07)
    paint.ink(ctx, "#1d130b")
    ctx.fill()
    ctx.move_to(0.95, -0.66)
    ctx.line_to(1.32, -0.6)
    ctx.line_to(0.97, -0.5)
    ctx.close_path()
    paint.ink(ctx, "#4a3a2a")
    ctx.fill()
    ctx.set_line_width(0.06)
    for t in (0.0, 0.22):
        ctx.move_to(t, 0.5)
        ctx.line_to(t + 0.05, 0.86)
        ctx.stroke()
    ctx.restore()


def medlar(ctx, x, y, r, angle):
    """A brown fruit with an open crown."""
    plants.ball(ctx, x, y, r, "#a5713f", shine=False)
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    for k in range(5):
        lean = (k - 2) * 0.36
        ctx.move_to(r * 0.55 * math.cos(lean - 0.16), r * 0.55 * math.sin(lean - 0.16) * 1.3)
        ctx.line_to(r * 1.5 * math.cos(lean * 0.8), r * 1.3 * math.sin(lean))
        ctx.line_to(r * 0.55 * math.cos(lean + 0.16), r * 0.55 * math.sin(lean + 0.16) * 1.3)
        ctx.close_path()
        paint.ink(ctx, "#6d7a3e")
        ctx.fill()
    paint.ellipse(ctx, r * 0.62, 0, r * 0.24, r * 0.42)
    paint.ink(ctx, "#5a3a1e")
    ctx.fill()
    ctx.restore()


def _wren_and_medlar(ctx, flat):
    """Birds and fruit in a border that is broken six times, over the panels of a Jessamount rim."""
    reach = flat.reach
    for k in range(6):
        middle = 2 * math.pi * k / 6 - math.pi / 2
        rnd = random.Random(7203 + k)
        half = 0.40
        branch = [(-half, 0.42), (-half * 0.55, 0.28), (0, 0.30), (half * 0.55, 0.26), (half, 0.44)]
        for a, v, base in ((-0.33, 0.70, (-0.36, 0.40)), (-0.20, 0.60, (-0.21, 0.27)), (0.20, 0.58, (0.22, 0.26)), (0.34, 0.70, (0.36, 0.40))):
            plants.stem(ctx, [flat.on_rim(middle + base[0], base[1]), flat.on_rim(middle + a, v)], reach * 0.006, reach * 0.004, "#6b4a2c")
        plants.stem(ctx, [flat.on_rim(middle + a, v) for a, v in branch], reach * 0.013, reach * 0.006, "#6b4a2c")
        for j in range(11):
            t = j / 10
            a = middle - half + 2 * half * t
            v = 0.29 + 0.13 * abs(2 * t - 1) ** 2.2
            x, y = flat.on_rim(a, v)
            out = flat.outward(a)
            under_bird = abs(t - 0.5) < 0.16
            for lean in (-1.0, 1.0, math.pi - 0.7, math.pi + 0.7):
                if under_bird and abs(lean) < 1.5:
                    continue
                green = ("#7d8a4a", "#5f7a44", "#97a05c")[rnd.randrange(3)]
                plants.leaf(ctx, x, y, out + lean + rnd.uniform(-0.3, 0.3), reach * rnd.uniform(0.058, 0.078), reach * 0.032, green)
        for a, v in ((-0.33, 0.74), (-0.20, 0.64), (0.20, 0.62), (0.34, 0.74)):
            x, y = flat.on_rim(middle + a, v)
            medlar(ctx, x, y, reach * 0.030, flat.outward(middle + a) + rnd.uniform(-0.4, 0.4))
        x, y = flat.on_rim(middle, 0.545)
        wren(ctx, x, y, reach * 0.078, flat.outward(middle) + math.pi / 2, 1 if k % 2 else -1)


def _plaid_ribbon(ctx, flat):
    """A plaid band in green and rust."""
    inner, outer = (0.74, 0.92) if not flat.rimmed else (flat.verge + 0.07, flat.verge + 0.24)
    width = outer - inner
    green, rust = "#5f7f58", "#a9562f"
    for lo, hi, code, alpha in ((0.0, 1.0, "#cfd6b4", 0.55), (0.10, 0.34, green, 0.62), (0.66, 0.90, green, 0.62), (0.44, 0.56, rust, 0.72)):
        flat.band(ctx, inner + width * lo, inner + width * hi)
        paint.ink(ctx, code, alpha)
        ctx.fill()
    for v in (0.03, 0.40, 0.60, 0.97):
        flat.arc(ctx, 0, 2 * math.pi, inner + width * v)
        ctx.set_line_width(flat.reach * 0.004)
        paint.ink(ctx, rust if v in (0.03, 0.97) else "#f6efda", 0.9)
        ctx.stroke()
    count = 48
    step = 2 * math.pi / count
    for k in range(count):
        a = step * k
        for begin, end, code, alpha in ((0.06, 0.44, green, 0.58), (0.66, 0.80, rust, 0.62), (0.52, 0.56, "#f6efda", 0.8), (0.90, 0.94, "#f6efda", 0.8)):
            ctx.move_to(*flat.at(a + step * begin, inner))
            ctx.line_to(*flat.at(a + step * begin, outer))
            ctx.line_to(*flat.at(a + step * end, outer))
            ctx.line_to(*flat.at(a + step * end, inner))
            ctx.close_path()
            paint.ink(ctx, code, alpha)
            ctx.fill()


def seedhead(ctx, x, y, r, root, seed):
    """Seeds on fine rays, in turquoise and charcoal, on a long stem from the root."""
    rnd = random.Random(seed)
    charcoal, turquoise = "#3b3f44", "#3fa3a0"
    rx, ry = root
    ctx.set_line_cap(1)
    paint.tapered(ctx, [(rx, ry), (rx + (x - rx) * 0.22, ry + (y - ry) * 0.4), (rx + (x - rx) * 0.7, ry + (y - ry) * 0.72), (x, y)], r * 0.06, r * 0.03)
    paint.ink(ctx, charcoal)
    ctx.fill()
    rays = 34
    for k in range(rays):
        a = 2 * math.pi * k / rays + rnd.uniform(-0.05, 0.05)
        reach = r * (1.0, 0.8, 0.92, 0.68)[k % 4]
        ctx.move_to(x + math.cos(a) * r * 0.13, y + math.sin(a) * r * 0.13)
        ctx.line_to(x + math.cos(a) * reach, y + math.sin(a) * reach)
        ctx.set_line_width(r * 0.018)
        paint.ink(ctx, charcoal, 0.85)
        ctx.stroke()
        code = turquoise if k % 2 else charcoal
        if k % 2:
            for lean in (-0.6, -0.3, 0, 0.3, 0.6):
                ctx.move_to(x + math.cos(a) * reach, y + math.sin(a) * reach)
                ctx.line_to(x + math.cos(a) * reach + math.cos(a + lean) * r * 0.17, y + math.sin(a) * reach + math.sin(a + lean) * r * 0.17)
                ctx.set_line_width(r * 0.02)
                paint.ink(ctx, code)
                ctx.stroke()
            paint.ellipse(ctx, x + math.cos(a) * reach, y + math.sin(a) * reach, r * 0.045, r * 0.03, a)
        else:
            paint.ellipse(ctx, x + math.cos(a) * reach, y + math.sin(a) * reach, r * 0.07, r * 0.035, a)
        paint.ink(ctx, code)
        ctx.fill()
    paint.ellipse(ctx, x, y, r * 0.13, r * 0.13)
    paint.ink(ctx, charcoal)
    ctx.fill()
    paint.ellipse(ctx, x, y, r * 0.07, r * 0.07)
    paint.ink(ctx, "#8fd0cc")
    ctx.fill()


def _seedhead(ctx, flat):
    x, y, r = flat.x, flat.y, flat.reach
    root = (x + r * 0.02, y + r * 0.46)
    seedhead(ctx, x - r * 0.25, y - r * 0.20, r * 0.24, root, 1)
    seedhead(ctx, x + r * 0.15, y - r * 0.36, r * 0.16, root, 2)
    seedhead(ctx, x + r * 0.32, y + r * 0.02, r * 0.20, root, 3)
    for cx, cy, seed in ((-0.42, 0.20, 5), (0.45, -0.38, 6), (-0.05, -0.52, 7)):
        rnd = random.Random(seed)
        px, py = x + r * cx, y + r * cy
        a = rnd.uniform(0, 6.28)
        for lean in (-0.4, -0.2, 0, 0.2, 0.4):  # a seed adrift
            ctx.move_to(px, py)
            ctx.line_to(px + math.cos(a + lean) * r * 0.05, py + math.sin(a + lean) * r * 0.05)
            ctx.set_line_width(r * 0.004)
            paint.ink(ctx, "#3fa3a0")
            ctx.stroke()
        ctx.move_to(px, py)
        ctx.line_to(px - math.cos(a) * r * 0.05, py - math.sin(a) * r * 0.05)
        ctx.set_line_width(r * 0.005)
        paint.ink(ctx, "#3b3f44")
        ctx.stroke()


def oat(ctx, x, y, size, angle):
    """A hanging head of grass in grey and gold."""
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    ctx.scale(size, size)
    ctx.set_line_cap(1)
    ctx.set_line_width(0.025)
    paint.ink(ctx, "#85888a")
    ctx.move_to(0, 1)
    ctx.curve_to(0, 0.3, 0.05, -0.4, 0.45, -0.95)
    ctx.stroke()
    for i in range(7):
        t = i / 6
        bx, by = 0.04 + 0.36 * t**1.6, 0.2 - 1.1 * t
        for side in (-1, 1):
            ex, ey = bx + side * (0.42 - 0.22 * t), by + 0.16
            ctx.move_to(bx, by)
            ctx.curve_to(bx + side * 0.1, by - 0.14, ex, ey - 0.2, ex, ey)
            ctx.set_line_width(0.012)
            paint.ink(ctx, "#85888a")
            ctx.stroke()
            plants.leaf(ctx, ex, ey, math.pi / 2 - side * 0.15, 0.26, 0.10, "#c9a24c" if (i + (side > 0)) % 2 else "#9da1a3")
    ctx.restore()


def _oat_spray(ctx, flat):
    r = flat.reach
    for dx, dy, size, angle in ((-0.2, 0.0, 0.34, -0.35), (0.12, -0.05, 0.40, 0.05), (0.30, 0.1, 0.28, 0.5)):
        oat(ctx, flat.x + r * dx, flat.y + r * dy, r * size, angle)


def teasel(ctx, x, y, size, angle):
    """A prickly head on a tall stem."""
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    ctx.scale(size, size)
    plants.stem(ctx, [(0, 1), (0.03, 0.4), (0, -0.2)], 0.05, 0.03, "#7f8a55")
    for side in (-1, 1):
        plants.leaf(ctx, 0, 0.65, -math.pi / 2 + side * 0.9, 0.6, 0.16, "#7f8f58")
        plants.leaf(ctx, 0, -0.15, -math.pi / 2 + side * 1.2, 0.4, 0.07, "#93a067")
    paint.ellipse(ctx, 0, -0.5, 0.2, 0.34)
    ctx.set_source(paint.across(-0.2, -0.5, 0.2, -0.5, (0, "#b79bb8", 1), (1, "#7d5f86", 1)))
    ctx.fill()
    ctx.set_line_width(0.016)
    paint.ink(ctx, "#5a4560")
    for i in range(9):
        for side in (-1, 1):
            h = -0.22 - 0.07 * i
            w = 0.2 * math.sqrt(max(0.05, 1 - ((h + 0.5) / 0.34) ** 2))
            ctx.move_to(side * w * 0.8, h)
            ctx.line_to(side * (w + 0.09), h - 0.09)
            ctx.stroke()
            ctx.move_to(0, h + 0.03)
            ctx.line_to(side * w * 0.6, h - 0.06)
            ctx.stroke()
    for side in (-1, 0, 1):
        plants.leaf(ctx, side * 0.06, -0.8, -math.pi / 2 + side * 0.3, 0.2, 0.05, "#c7a8cc")
    ctx.restore()


def _teasel_row(ctx, flat):
    """Three sprays, and the lines that join them where the treatment has such lines."""
    r = flat.reach
    places = [-math.pi / 2 + k * 2 * math.pi / 3 for k in range(3)]
    if flat.piece.look("connecting") == "gold":
        for k in places:
            flat.arc(ctx, k + 0.42, k + 2 * math.pi / 3 - 0.42, flat.verge - 0.10)
            ctx.set_line_width(r * 0.008)
            ctx.set_source(paint.metal("gold", flat.x, flat.y, r))
            ctx.stroke()
    for k in places:
        x, y = flat.at(k, flat.verge * 0.66)
        up = flat.outward(k, flat.verge * 0.66) + math.pi / 2
        for lean, size in ((-0.35, 0.17), (0.35, 0.17), (0, 0.23)):
            teasel(ctx, x + math.cos(up) * lean * r * 0.2, y + math.sin(up) * lean * r * 0.2, r * size, up + lean)


def _sampler_posy(ctx, flat):
    """A bouquet in cross-stitch, set twice on the rim's inner side."""
    for angle in (math.pi / 2 - 0.9, math.pi / 2 + 2.2):
        x, y = flat.at(angle, flat.verge * 0.62)
        ctx.save()
        ctx.translate(x, y)
        size = flat.reach * 0.30 / 100
        ctx.scale(size, size)
        centres.sampler_posy(ctx)
        ctx.restore()


_CENTRES = {
    "quince-bough": (centres.quince_bough, 0.76),
    "barrow-of-blooms": (centres.barrow_of_blooms, 0.76),
    "heron-pond": (centres.heron_pond, 0.66),
    "copper-pantry": (views.copper_pantry, 0.74),
    "harbour-lantern": (views.harbour_lantern, 0.82),
}
_ON_FLAT = {
    "none": lambda ctx, flat: None,
    "unknown": lambda ctx, flat: None,
    "bellrope-border": _bellrope_border,
    "pimpernel-paling": _pimpernel_paling,
    "gooseberry-wreath": _gooseberry_wreath,
    "wren-and-medlar": _wren_and_medlar,
    "plaid-ribbon": _plaid_ribbon,
    "seedhead": _seedhead,
    "oat-spray": _oat_spray,
    "teasel-row": _teasel_row,
    "sampler-posy": _sampler_posy,
    **{name: _middle(draw, fill) for name, (draw, fill) in _CENTRES.items()},
}
_ON_FRONT = {**{name: draw for name, (draw, _) in _CENTRES.items()}, "sampler-posy": centres.sampler_posy}


def on_flat(motif):
    if motif not in _ON_FLAT:
        raise Unfit(f"there is no drawing of the motif `{motif}` yet")
    return _ON_FLAT[motif]


def on_front(motif):
    """The drawing for the side of a hollow piece, from -100 to 100."""
    if motif in ("none", "unknown"):
        return lambda ctx: None
    if motif not in _ON_FRONT:
        raise Unfit(f"there is no drawing of the motif `{motif}` for hollow ware yet")
    return _ON_FRONT[motif]
