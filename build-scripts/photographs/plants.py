"""The small things that printed pictures are made of: leaves, blossoms, fruit, stems."""
import math

from . import paint


def leaf(ctx, x, y, angle, length, width, code, vein=None, bend=0.0):
    """A leaf from its stalk at (x, y) outward: one half in light, a midrib, and side veins if it is large enough."""
    vein = vein or paint.mix(code, "#1c1408", 0.45)
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    lift = bend * length

    def half(sign):
        ctx.move_to(0, 0)
        ctx.curve_to(length * 0.28, sign * width * 0.75 + lift * 0.3, length * 0.72, sign * width * 0.6 + lift, length, lift)
        ctx.curve_to(length * 0.66, lift * 0.9, length * 0.33, lift * 0.3, 0, 0)
        ctx.close_path()

    for sign, tone in ((1, paint.mix(code, "#000000", 0.14)), (-1, paint.mix(code, "#ffffff", 0.16))):
        half(sign)
        paint.ink(ctx, tone)
        ctx.fill()
    ctx.set_line_cap(1)
    ctx.set_line_width(max(width * 0.055, length * 0.012))
    paint.ink(ctx, vein, 0.85)
    ctx.move_to(0, 0)
    ctx.curve_to(length * 0.33, lift * 0.3, length * 0.66, lift * 0.9, length * 0.98, lift)
    ctx.stroke()
    if length > 26:
        ctx.set_line_width(max(width * 0.03, length * 0.009))
        for i in range(1, 5):
            t = i / 5.4
            for sign in (-1, 1):
                ctx.move_to(length * t, lift * t * t)
                ctx.line_to(length * (t + 0.13), lift * t + sign * width * 0.34 * math.sin(math.pi * min(t + 0.12, 1)))
                ctx.stroke()
    ctx.restore()


def stem(ctx, points, wide, narrow, code):
    paint.tapered(ctx, points, wide, narrow)
    paint.ink(ctx, code)
    ctx.fill()


def ball(ctx, x, y, r, code, shine=True):
    """A round fruit, lit from the upper left."""
    paint.ellipse(ctx, x, y, r, r)
    ctx.set_source(paint.around(x - r * 0.3, y - r * 0.35, r * 0.05, r * 1.35, (0, paint.mix(code, "#ffffff", 0.5), 1), (0.45, code, 1), (1, paint.mix(code, "#1c1008", 0.5), 1)))
    ctx.fill()
    if shine:
        paint.ellipse(ctx, x - r * 0.36, y - r * 0.4, r * 0.16, r * 0.1, -0.7)
        paint.ink(ctx, "#ffffff", 0.7)
        ctx.fill()


def blossom(ctx, x, y, r, code, heart="#e8c44a", petals=5, turn=0.0):
    for layer, tone in ((1.0, paint.mix(code, "#000000", 0.16)), (0.9, code)):
        for k in range(petals):
            angle = turn + 2 * math.pi * k / petals
            paint.ellipse(ctx, x + math.cos(angle) * r * 0.55, y + math.sin(angle) * r * 0.55, r * 0.5 * layer, r * 0.40 * layer, angle)
            paint.ink(ctx, tone)
            ctx.fill()
    for k in range(petals):
        angle = turn + 2 * math.pi * k / petals
        ctx.move_to(x + math.cos(angle) * r * 0.2, y + math.sin(angle) * r * 0.2)
        ctx.line_to(x + math.cos(angle) * r * 0.6, y + math.sin(angle) * r * 0.6)
        ctx.set_line_width(r * 0.05)
        paint.ink(ctx, paint.mix(code, "#2a0808", 0.45), 0.7)
        ctx.stroke()
    paint.ellipse(ctx, x, y, r * 0.22, r * 0.22)
    paint.ink(ctx, heart)
    ctx.fill()
    paint.ellipse(ctx, x, y, r * 0.1, r * 0.1)
    paint.ink(ctx, paint.mix(heart, "#5a2a00", 0.6))
    ctx.fill()


def rose(ctx, x, y, r, code):
    """A full round flower of many petals."""
    for k in range(9):
        angle = 2 * math.pi * k / 9
        paint.ellipse(ctx, x + math.cos(angle) * r * 0.55, y + math.sin(angle) * r * 0.55, r * 0.5, r * 0.42, angle)
        paint.ink(ctx, paint.mix(code, "#000000" if k % 2 else "#ffffff", 0.14))
        ctx.fill()
    for k in range(6):
        angle = 2 * math.pi * k / 6 + 0.4
        paint.ellipse(ctx, x + math.cos(angle) * r * 0.28, y + math.sin(angle) * r * 0.28, r * 0.34, r * 0.28, angle)
        paint.ink(ctx, paint.mix(code, "#ffffff", 0.10 + 0.16 * (k % 2)))
        ctx.fill()
    ctx.set_line_width(r * 0.07)
    paint.ink(ctx, paint.mix(code, "#200404", 0.45), 0.8)
    for k in range(3):
        ctx.new_sub_path()
        ctx.arc(x, y, r * (0.14 + 0.12 * k), 0.5 + k * 1.9, 3.6 + k * 1.9)
        ctx.stroke()


def bell(ctx, x, y, r, angle, code):
    ctx.save()
    ctx.translate(x, y)
    ctx.rotate(angle)
    ctx.move_to(0, -r * 0.35)
    ctx.curve_to(r * 0.7, -r * 0.7, r, -r * 0.5, r * 1.5, -r * 0.75)
    ctx.line_to(r * 1.25, 0)
    ctx.line_to(r * 1.5, r * 0.75)
    ctx.curve_to(r, r * 0.5, r * 0.7, r * 0.7, 0, r * 0.35)
    ctx.close_path()
    paint.ink(ctx, code)
    ctx.fill()
    ctx.restore()
