"""Flatware and open bowls seen from above: outline, rim or coupe, verge, relief, lines, glaze.

Everything on a plate is placed by an angle and a share of the way from the middle (0) to the edge (1), so that the
same drawing fits a round plate, an octagon, a square or an oval dish.
"""
import math

import cairo

from . import paint, relief
from .records import Unfit

# Half-planes whose meeting bounds the polygonal outlines: (angle, distance), and how soft the corners are.
_OCTAGON = ([(k * math.pi / 4, 1.0) for k in range(8)], 70)
_CUT_SQUARE = ([(k * math.pi / 2, 1.0) for k in range(4)] + [(k * math.pi / 2 + math.pi / 4, 1.24) for k in range(4)], 60)
_ROUNDED_SQUARE = ([(k * math.pi / 2, 1.0) for k in range(4)], 5.2)
_LOBES = {"tavenshaw": 16, "bellancroft": 24, "ellastrane": 12, "hollinstane": 20}


def _polygon(planes, power, angle):
    total = 0.0
    for normal, distance in planes:
        reach = math.cos(angle - normal) / distance
        if reach > 0:
            total += reach**power
    return total ** (-1 / power)


class Flat:
    def __init__(self, piece, x, y, reach):
        self.piece, self.x, self.y, self.reach = piece, x, y, reach
        self.outline = piece.look("outline")
        if self.outline is None:
            raise Unfit(f"the outline of {piece.id} is not recorded")
        self.rimmed = piece.look("rim") != "no"
        self.glaze = paint.GLAZES[piece.look("glaze", "ivory")]
        self.satin = piece.look("glaze") == "vellum"
        sides = piece.actual
        self.squash = sides[1] / sides[0] if len(sides) == 2 and not self.is_bowl() and sides[1] > 4 else 1.0
        if piece.form.startswith("baker"):
            self.squash = sides[1] / sides[0]
        self.verge = 0.84 if self.is_bowl() else 0.68 if self.rimmed else 0.60

    def is_bowl(self):
        return self.piece.form.split("-")[0] in ("baker", "nappy", "bowl", "fruit", "oatmeal")

    def radius(self, angle, s):
        """Share of the reach at that angle, for the outline drawn at scale s."""
        softer = max(0.0, 1 - s) * 1.6
        if self.outline == "eight-sided":
            planes, power = _OCTAGON
            return s * _polygon(planes, max(9, power * (1 - softer)), angle) / 1.07
        if self.outline == "square":
            planes, power = _CUT_SQUARE if self.rimmed else _ROUNDED_SQUARE
            return s * _polygon(planes, max(3.4, power * (1 - softer)), angle) / 1.2
        if self.outline == "scalloped":
            lobes = _LOBES.get(self.piece.shape_id, 16)
            depth = 0.035 * max(0.0, 1 - (1 - s) / 0.22)
            return s * (1 - depth * (1 - abs(math.cos(lobes * angle / 2)) ** 0.65))
        return s

    def at(self, angle, s):
        r = self.radius(angle, s) * self.reach
        return self.x + r * math.cos(angle), self.y + r * math.sin(angle) * self.squash

    def on_rim(self, angle, v):
        """A point of the rim: v = 0 at the verge, 1 at the edge."""
        return self.at(angle, self.verge + (1 - self.verge) * v)

    def outward(self, angle, s=0.85):
        """The direction in which the edge lies, on the page."""
        (x0, y0), (x1, y1) = self.at(angle, s), self.at(angle, s + 0.01)
        return math.atan2(y1 - y0, x1 - x0)

    def ring(self, ctx, s, grow=0.0):
        """The outline at scale s as a path."""
        steps = 720
        s += grow / self.reach
        for i in range(steps):
            x, y = self.at(2 * math.pi * i / steps, s)
            (ctx.line_to if i else ctx.move_to)(x, y)
        ctx.close_path()

    def band(self, ctx, inner, outer):
        """What lies between two scales; fill it with the even-odd rule that this sets."""
        ctx.set_fill_rule(1)
        self.ring(ctx, outer)
        self.ring(ctx, inner)

    def arc(self, ctx, begin, end, s):
        steps = max(8, int(abs(end - begin) * 90))
        for i in range(steps + 1):
            x, y = self.at(begin + (end - begin) * i / steps, s)
            (ctx.line_to if i else ctx.move_to)(x, y)

    # From here on: painting, from the table up.

    def draw(self, ctx, decoration):
        self._shadow(ctx)
        self._body(ctx)
        if self.piece.look("embossing") not in (None, "none"):
            relief.draw(ctx, self)
        self._verge(ctx)
        decoration(ctx, self)
        self._lines(ctx)
        self._shine(ctx)

    def _shadow(self, ctx):
        d = self.reach * 0.03
        paint.soft_shadow(ctx, lambda c, grow: self.ring(c, 0.985, grow), d * 1.1, d * 1.25, self.reach * 0.075, 0.5)
        paint.soft_shadow(ctx, lambda c, grow: self.ring(c, 0.97, grow), d * 0.4, d * 0.45, self.reach * 0.03, 0.45)

    def _body(self, ctx):
        light, middle, shade = self.glaze
        reach = self.reach
        # the thickness of the edge, seen on the far side of the light
        ctx.save()
        ctx.translate(reach * 0.006, reach * 0.009)
        self.ring(ctx, 1)
        paint.ink(ctx, paint.mix(shade, "#6b5d4d", 0.35))
        ctx.fill()
        ctx.restore()
        self.ring(ctx, 1)
        ctx.set_source(paint.lit(self.x, self.y, reach, (0, light, 1), (0.5, middle, 1), (1, paint.mix(middle, shade, 0.55), 1)))
        ctx.fill()
        if self.rimmed:
            # a rim slopes up to its edge: the side away from the light faces it
            self.band(ctx, self.verge, 1)
            ctx.set_source(paint.lit(self.x, self.y, reach, (0, shade, 0.55), (0.45, shade, 0.06), (0.6, light, 0.15), (1, light, 0.9)))
            ctx.fill()
            floor = self.verge - (0.16 if self.is_bowl() else 0.045)
            self._wall(ctx, floor, self.verge, 0.95 if self.is_bowl() else 0.6)
        else:
            self._wall(ctx, self.verge, 1.0, 0.5)
        # a bright line where the edge turns over
        self.ring(ctx, 0.994)
        ctx.set_line_width(reach * 0.006)
        ctx.set_source(paint.lit(self.x, self.y, reach, (0, "#ffffff", 0.95), (0.55, "#ffffff", 0.2), (1, shade, 0.7)))
        ctx.stroke()

    def _wall(self, ctx, inner, outer, strength):
        """A wall that rises outward: dark where it turns from the light, bright where it faces it, soft at both ends."""
        dark = paint.rgb(paint.mix(self.glaze[2], "#8a7860", 0.25))
        around, across = 96, 6

        def colour(i, j):
            facing = math.cos(2 * math.pi * i / around - math.pi / 4)
            alpha = strength * math.sin(math.pi * j / across) ** 1.3 * abs(facing) ** 1.2
            return (1, 1, 1, alpha * 0.85) if facing > 0 else (*dark, alpha)

        mesh = cairo.MeshPattern()
        for i in range(around):
            for j in range(across):
                mesh.begin_patch()
                corners = ((i, j), (i, j + 1), (i + 1, j + 1), (i + 1, j))
                for k, (u, v) in enumerate(corners):
                    point = self.at(2 * math.pi * u / around, inner + (outer - inner) * v / across)
                    (mesh.line_to if k else mesh.move_to)(*point)
                for k, corner in enumerate(corners):
                    mesh.set_corner_color_rgba(k, *colour(*corner))
                mesh.end_patch()
        ctx.save()
        self.ring(ctx, min(outer, 0.999))
        ctx.clip()
        ctx.set_source(mesh)
        ctx.paint()
        ctx.restore()

    def _step(self, ctx, s, strength):
        light, _, shade = self.glaze
        dark = paint.mix(shade, "#6f5f4c", 0.45)
        for ds, first, second in ((0.0, dark, "#ffffff"), (0.008, "#ffffff", dark)):
            self.ring(ctx, s + ds)
            ctx.set_line_width(self.reach * 0.008)
            ctx.set_source(paint.lit(self.x, self.y, self.reach * s, (0, first, strength), (0.46, first, 0.12 * strength), (0.54, second, 0.12 * strength), (1, second, strength * 0.8)))
            ctx.stroke()

    def _verge(self, ctx):
        kind = self.piece.look("verge", "plain")
        if not self.rimmed:
            return
        if kind == "stepped":
            for s in (self.verge + 0.012, self.verge - 0.016, self.verge - 0.044):
                self._step(ctx, s, 0.75)
        elif kind == "fluted":
            for k in range(72):
                angle = 2 * math.pi * k / 72
                def flute(c, a=angle):
                    c.move_to(*self.at(a, self.verge - 0.05))
                    c.line_to(*self.at(a + 0.012, self.verge + 0.03))
                paint.raised(ctx, flute, self.reach * 0.010, self.glaze, 0.6)
        else:
            self._step(ctx, self.verge, 0.35)

    def _line(self, ctx, s, source, width):
        self.ring(ctx, s)
        ctx.set_line_width(width)
        ctx.set_source(source)
        ctx.stroke()

    def _lines(self, ctx):
        look, reach = self.piece.look, self.reach
        edge = look("edge-line", "none")
        thick = reach * 0.017
        if edge in paint.METALS:
            self._line(ctx, 0.989, paint.metal(edge, self.x, self.y, reach), thick)
        elif edge == "coloured":
            code = paint.LINES[look("colour", "coloured")]
            self._line(ctx, 0.988, paint.lit(self.x, self.y, reach, (0, paint.mix(code, "#ffffff", 0.18), 0.95), (1, paint.mix(code, "#000000", 0.15), 0.95)), thick * 1.1)
        if look("verge-line") == "gold":
            self._line(ctx, self.verge + 0.01, paint.metal("gold", self.x, self.y, reach), thick * 0.7)
        if look("shoulder") == "lustre band":
            self.band(ctx, self.verge + 0.05, self.verge + 0.13)
            stops = [(i / 8, code, 0.62) for i, code in enumerate(("#c98fae", "#e6c37a", "#9fbf9a", "#d69ab4", "#f0d9a0", "#8fb4c6", "#cf8fb0", "#e3c27c", "#a5c3a0"))]
            ctx.set_source(paint.lit(self.x, self.y, reach, *stops))
            ctx.fill()
        if look("stamp") == "gold at the rim":
            for k in range(96):
                angle = 2 * math.pi * k / 96
                x, y = self.at(angle, 0.945)
                paint.ellipse(ctx, x, y, reach * 0.017, reach * 0.009, self.outward(angle))
                ctx.set_source(paint.metal("gold", self.x, self.y, reach))
                ctx.fill()
                x, y = self.at(angle + math.pi / 96, 0.925)
                paint.ellipse(ctx, x, y, reach * 0.007, reach * 0.007)
                ctx.fill()

    def _shine(self, ctx):
        reach = self.reach
        strength, blur = (0.16, 1.9) if self.satin else (0.34, 1.0)
        ctx.save()
        self.ring(ctx, 0.98)
        ctx.clip()
        middle = self.verge + (1 - self.verge) * 0.45 if self.rimmed else 0.86
        for begin, end, s, width, share in (
            (3.55, 4.45, middle, 0.075, 1.0),
            (3.72, 4.05, middle + 0.05, 0.02, 0.9),
            (0.45, 1.15, middle + 0.02, 0.06, 0.45),
            (3.75, 4.35, self.verge - 0.14, 0.05, 0.4),
        ):
            self.arc(ctx, begin, end, s)
            ctx.set_line_cap(1)
            paint.soft_stroke(ctx, reach * width * blur, "#ffffff", strength * share)
        ctx.restore()
