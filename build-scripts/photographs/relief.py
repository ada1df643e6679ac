"""Relief of the mould, shape by shape. Where it stands (all round, in panels) is recorded; what it shows is here."""
import math

from . import paint


def _curve(flat, points):
    """A path through (angle, v) points of the rim."""
    return lambda ctx: paint.smooth(ctx, [flat.on_rim(a, v) for a, v in points])


def _lattice_and_bud(ctx, flat, panels=6):
    """Jessamount: a lattice in a long rounded field, with a bud at either end."""
    width = flat.reach * 0.010
    half = math.pi / panels * 0.60
    for k in range(panels):
        middle = 2 * math.pi * (k + 0.5) / panels - math.pi / 2

        def field(ctx, grow=1.0, middle=middle):
            for j in range(120):
                turn = 2 * math.pi * j / 120
                c, s = math.cos(turn), math.sin(turn)
                a = math.copysign(abs(c) ** 0.62, c) * half * grow
                v = 0.53 + math.copysign(abs(s) ** 0.62, s) * 0.33 * grow
                (ctx.line_to if j else ctx.move_to)(*flat.on_rim(middle + a, v))
            ctx.close_path()

        ctx.save()
        field(ctx, 0.98)
        ctx.clip()
        for lean in (-1, 1):
            for i in range(-9, 10):
                bar = [(middle + i / 7 * half + lean * (v - 0.53) * half * 0.75, v) for v in (0.1, 0.25, 0.4, 0.55, 0.7, 0.85, 1.0)]
                paint.raised(ctx, _curve(flat, bar), width * 0.62, flat.glaze, 0.8)
        ctx.restore()
        paint.raised(ctx, field, width * 0.9, flat.glaze)
        for end in (-1, 1):
            tip = middle + end * half * 1.21
            for lean in (-1, 1):
                leaf = [(middle + end * half * 1.02, 0.53 + lean * 0.06), (middle + end * half * 1.11, 0.53 + lean * 0.20), (middle + end * half * 1.24, 0.53 + lean * 0.17)]
                paint.raised(ctx, _curve(flat, leaf), width * 0.85, flat.glaze)
            x, y = flat.on_rim(tip, 0.53)
            turn = flat.outward(tip) + math.pi / 2
            for d, grow, code, alpha in ((width * 0.55, 1.15, paint.mix(flat.glaze[2], "#6b5a46", 0.45), 0.6), (0, 1.0, flat.glaze[1], 1), (-width * 0.3, 0.55, "#ffffff", 0.85)):
                paint.ellipse(ctx, x + d, y + d, width * 1.9 * grow, width * 1.3 * grow, turn)
                paint.ink(ctx, code, alpha)
                ctx.fill()


def _shells(ctx, flat, panels=4):
    """Tavenshaw: fans of shell."""
    width = flat.reach * 0.011
    for k in range(panels):
        middle = 2 * math.pi * k / panels + math.pi / 4
        for j in range(-4, 5):
            spread = j / 4
            ray = [(middle + spread * 0.05, 0.2), (middle + spread * 0.14, 0.5), (middle + spread * 0.24, 0.88 - 0.25 * spread**2)]
            paint.raised(ctx, _curve(flat, ray), width, flat.glaze)
        for side in (-1, 1):
            scroll = [(middle + side * 0.07, 0.2), (middle + side * 0.24, 0.18), (middle + side * 0.34, 0.36), (middle + side * 0.29, 0.5), (middle + side * 0.25, 0.40)]
            paint.raised(ctx, _curve(flat, scroll), width * 0.9, flat.glaze)


def _panels(ctx, flat, panels=4):
    """Kelderling: a framed field on each side with a fan of bars in it."""
    width = flat.reach * 0.010
    for k in range(panels):
        middle = 2 * math.pi * k / panels
        half = 0.50
        for inset in (0.0, 0.09):
            h = half - inset * 0.5
            low, high = 0.24 + inset, 0.82 - inset
            frame = []
            for a, v in ((-h, low), (h, low), (h, high), (-h, high), (-h, low)):
                frame.append((middle + a, v))
            def outline(c, frame=frame):
                for i, ((a0, v0), (a1, v1)) in enumerate(zip(frame, frame[1:])):
                    for j in range(13):
                        point = flat.on_rim(a0 + (a1 - a0) * j / 12, v0 + (v1 - v0) * j / 12)
                        (c.line_to if i or j else c.move_to)(*point)
            paint.raised(ctx, outline, width * (0.9 if inset else 0.75), flat.glaze)
        for j in range(-9, 10):
            a = j / 10 * (half - 0.08)
            rise = 0.20 * (1 - (abs(j) / 10) ** 1.5)
            def bar(c, a=a, rise=rise):
                c.move_to(*flat.on_rim(middle + a, 0.40))
                c.line_to(*flat.on_rim(middle + a, 0.44 + rise))
            paint.raised(ctx, bar, width * 0.6, flat.glaze, 0.7)


def _ribs(ctx, flat):
    """Linnavere: fine ribs, like the edge of a coin."""
    count = 180
    for k in range(count):
        angle = 2 * math.pi * k / count
        def rib(c, a=angle):
            c.move_to(*flat.on_rim(a, 0.52))
            c.line_to(*flat.on_rim(a, 0.93))
        paint.raised(ctx, rib, flat.reach * 0.0085, flat.glaze, 0.6)


def _swirl(ctx, flat):
    """Bellancroft: flutes that turn as they cross the rim."""
    count = 48
    for k in range(count):
        angle = 2 * math.pi * k / count
        paint.raised(ctx, _curve(flat, [(angle, 0.0), (angle + 0.05, 0.35), (angle + 0.13, 0.7), (angle + 0.19, 0.97)]), flat.reach * 0.011, flat.glaze, 0.75)


def _scrolls(ctx, flat):
    """Ellastrane: scrolls all round."""
    count = 18
    for k in range(count):
        a = 2 * math.pi * k / count
        step = 2 * math.pi / count
        paint.raised(ctx, _curve(flat, [(a, 0.35), (a + step * 0.4, 0.28), (a + step * 0.85, 0.45), (a + step * 0.75, 0.75), (a + step * 0.45, 0.72), (a + step * 0.5, 0.55), (a + step * 0.62, 0.55)]), flat.reach * 0.010, flat.glaze)
        paint.raised(ctx, _curve(flat, [(a + step * 0.1, 0.6), (a, 0.8), (a + step * 0.2, 0.9)]), flat.reach * 0.009, flat.glaze)


def _gadroon(ctx, flat):
    """Hollinstane: a row of plump lobes at the edge."""
    count = 64
    for k in range(count):
        a = 2 * math.pi * k / count
        paint.raised(ctx, _curve(flat, [(a, 0.74), (a + 0.015, 0.84), (a + 0.035, 0.96)]), flat.reach * 0.024, flat.glaze, 0.7)


_BY_SHAPE = {
    "jessamount": _lattice_and_bud,
    "haldermoyne-lattice": lambda ctx, flat: _lattice_and_bud(ctx, flat, 5),
    "tavenshaw": _shells,
    "kelderling": _panels,
    "linnavere": _ribs,
    "bellancroft": _swirl,
    "ellastrane": _scrolls,
    "hollinstane": _gadroon,
}


def draw(ctx, flat):
    carve = _BY_SHAPE.get(flat.piece.shape_id)
    if carve:
        carve(ctx, flat)
    elif flat.piece.look("embossing") == "in panels":
        _panels(ctx, flat)
    else:
        _ribs(ctx, flat)
