"""Parts made by hand, in whole millimetres, so that every place on a drawing can be worked out in the head."""

from joinlay.boards import CutKind, Datum, Place, Shape, Span, Surface
from joinlay.lengths import GRADUATIONS, dimension, mm
from tests import by_hand

METRIC = GRADUATIONS["0.5 mm"]
INCH = GRADUATIONS["1/32 in"]

FRONT = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")
SIDE = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")


def board(name="drawer 1 left side", part="drawer side", length=400, width=100, thickness=12, datum=SIDE, **more):
    long, wide, thick = (dimension(mm(size)) for size in (length, width, thickness))
    return by_hand.board(name, part, "ply", long, wide, thick, datum, **more)


def cut(kind, surface, along, across, into, name, shape=Shape.SQUARE, mate=""):
    spans = [Span.of(mm(a), mm(b)) for a, b in (along, across, into)]
    return by_hand.cut(kind, surface, spans[0], spans[1], spans[2], name, mate, shape=shape)


def groove(length=400, start=0, across=(10, 16), depth=6):
    return cut(CutKind.GROOVE, Surface.FACE, (start, length), across, (0, depth), "bottom groove")


def end_mortise(n, centre, depth=15):
    """A mortise 4 x 12 in the reference end, its middle 6 from the face and ``centre`` up."""
    return cut(CutKind.MORTISE, Surface.END, (0, depth), (centre - 6, centre + 6), (4, 8), f"mortise {n}", Shape.ROUND_ENDS)


def face_mortise(n, centre, along=6, depth=13):
    """A mortise 4 x 12 in the reference face, its middle ``along`` from the end and ``centre`` up."""
    return cut(
        CutKind.MORTISE,
        Surface.FACE,
        (along - 2, along + 2),
        (centre - 6, centre + 6),
        (0, depth),
        f"left mortise {n}",
        Shape.ROUND_ENDS,
    )


def back_dado(length=400):
    """A dado 6 wide, 5 deep, its near wall 6 from the far end."""
    return cut(CutKind.DADO, Surface.FACE, (length - 12, length - 6), (0, 100), (0, 5), "dado")


def side(**more):
    """A left side: two mortises in the front end, the groove, and a dado for the back."""
    return board(cuts=(end_mortise(1, 30), end_mortise(2, 80), groove(), back_dado()), **more)


def front(**more):
    """A front 18 thick: two mortises by its left end, and a stopped groove. Seen from inside, its left end is at the right."""
    place = Place.at(mm(0), mm(18), mm(0), "+X", "+Z", "-Y")
    cuts = (face_mortise(1, 30), face_mortise(2, 80), groove(start=6, length=394))
    return board("drawer 1 front", "drawer front", thickness=18, datum=FRONT, cuts=cuts, place=place, **more)


def back(**more):
    """A back 12 thick with a rabbet 6 x 6 in the outside face at its left end."""
    rabbet = cut(CutKind.RABBET, Surface.FAR_FACE, (0, 6), (0, 100), (6, 12), "rabbet")
    return board("drawer 1 back", "drawer back", datum=FRONT, cuts=(rabbet,), **more)
