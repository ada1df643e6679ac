"""One photograph: a soft table, and on it the face of a piece, or its foot where a mark is shown."""
import cairo

from . import foot, hollow, motifs, paint
from .flat import Flat
from .records import Piece, Unfit, references

WIDTH = 1200
_TABLES = {
    "orrinstead": ("#c9a99a", "#a98878"),
    "dorrimere": ("#a9bcc6", "#7f97a5"),
    "tavenshaw": ("#b9c3ac", "#8f9c80"),
    "kelderling": ("#c2b0bd", "#97838f"),
    "linnavere": ("#a7b7c9", "#7d8fa6"),
    "sorrendale": ("#a3b8b0", "#788f86"),
    "fennimarque": ("#d3c2a4", "#ab9875"),
}
_TABLE = ("#a9b3bb", "#7f8b95")
# Three of one shape want tables of their own.
_BY_MOTIF = {
    "copper-pantry": ("#9fb0a6", "#72867b"),
    "gooseberry-wreath": ("#b3a9c0", "#877c97"),
    "wren-and-medlar": ("#9db4c0", "#708b99"),
}


def _table(ctx, piece, width, height):
    light, dark = _BY_MOTIF.get(piece.motif) or _TABLES.get(piece.shape_id, _TABLE)
    ctx.set_source(paint.around(width * 0.36, height * 0.3, 0, width * 0.95, (0, paint.mix(light, "#ffffff", 0.30), 1), (0.55, light, 1), (1, dark, 1)))
    ctx.paint()


def photograph(guide, photo):
    shown = references(photo)
    pieces = [Piece(guide, id) for kind, id in shown if kind == "specimen"]
    marks = [guide.get("mark", id) for kind, id in shown if kind == "mark"]
    if len(pieces) != 1:
        raise Unfit(f"photo `{photo['photo']}` must show one specimen, and shows {len(pieces)}")
    piece = pieces[0]
    if marks:
        return _picture(piece, WIDTH, 1100, lambda ctx: foot.draw(ctx, piece, marks, WIDTH, 1100))
    if hollow.can_draw(piece.form):
        height = hollow.height(piece.form)
        return _picture(piece, WIDTH, height, lambda ctx: hollow.draw(ctx, piece, WIDTH, height))
    probe = Flat(piece, 0, 0, 1)
    height = WIDTH if probe.squash == 1 else 980
    # a square's corners reach further than its sides, and have room to
    flat = Flat(piece, WIDTH / 2, height / 2, WIDTH * (0.52 if probe.outline == "square" else 0.44))
    return _picture(piece, WIDTH, height, lambda ctx: flat.draw(ctx, motifs.on_flat(piece.motif)))


def _picture(piece, width, height, draw):
    surface = cairo.ImageSurface(cairo.FORMAT_RGB24, width, height)
    ctx = cairo.Context(surface)
    ctx.set_antialias(cairo.ANTIALIAS_BEST)
    ctx.set_tolerance(0.2)
    _table(ctx, piece, width, height)
    draw(ctx)
    return surface
