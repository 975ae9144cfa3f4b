"""A board's surfaces as marks: outlines, the cuts seen in them, and the centre lines carried over the edges."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards import Shape, Surface
from joinlay.pen.hatching import Hatch
from joinlay.pen.marks import Fill, Line, Role
from joinlay.pen.outlines import outline, polygon
from joinlay.pen.signs import BreakLine

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.pen.marks import Box, Mark, Point
    from joinlay.templates.net import Mouth, Net

__all__ = ["centre_marks", "cut_marks", "on_paper", "outline_marks"]

#: How far a fold line shows past the wood, above and below; below it ends short of the words under the datum bar.
_PAST_TOP, _PAST_FOOT = Fraction(2), Fraction(12, 5)
#: Half the cross at the middle of a mortise.
_CROSS: Final = Fraction(3)
#: The tone of a mortise, light enough to see a pencil line or a prick on.
_TONE: Final = Fraction(1, 8)


def on_paper(net: Net, box: Box) -> Box:
    """A box of the net, given in u and y, as it lies on paper: mirrored where the end is seen at the right."""
    u0, y0, u1, y1 = box
    return box if net.hand > 0 else (-u1, y0, -u0, y1)


def _point(net: Net, u: Fraction, y: Fraction) -> Point:
    return (net.hand * u, y)


def _line(net: Net, one: Point, two: Point, role: Role, says: str = "") -> Line:
    return Line(_point(net, *one), _point(net, *two), role, says)


def outline_marks(net: Net, reach: Fraction) -> Iterator[Mark]:
    """The edges of the wood on every surface, fold lines between them, and break lines where it goes on."""
    zero, high, name = Fraction(0), net.height, net.board.name
    for surface in net.surfaces:
        u0, _, u1, _ = net.panel(surface, reach)
        edges = ((zero, Surface.EDGE), (high, Surface.FAR_EDGE))
        for y, edge in edges[: 1 if net.shown is not None else 2]:
            says = f"{name} {net.board.datum.word(edge)}" if surface is Surface.FACE else ""
            yield _line(net, (u0, y), (u1, y), Role.OUTLINE, says)
    folds = (zero, -net.flap) if net.far else (zero,)
    for u in folds:
        says = f"{name} {net.board.datum.word(net.end)}" if u == 0 else ""
        yield _line(net, (u, -_PAST_FOOT), (u, high + _PAST_TOP), Role.FOLD, says)
    whole = net.board.length.mm
    breaks = ([reach] if reach < whole else []) + ([net.outer] if net.far else [])
    for u in breaks:
        yield BreakLine(_point(net, u, zero), _point(net, u, high))
    if net.shown is not None:
        yield BreakLine(_point(net, net.outer, high), _point(net, reach, high))
    if reach >= whole:
        yield _line(net, (whole, zero), (whole, high), Role.OUTLINE)
    if not net.far:
        # The far edge of the end itself, or of a flap that only hooks over it.
        role = Role.OUTLINE if net.flap == net.board.thickness.mm else Role.CUT
        yield _line(net, (net.outer, zero), (net.outer, high), role)


def cut_marks(net: Net, reach: Fraction) -> Iterator[Mark]:
    """Every cut: hidden ones dashed, grooves, dadoes, rabbets and slots hatched, mortises and holes toned, the mouths in hairlines."""
    for mouth in net.mouths:
        panel = net.panel(mouth.on, reach)
        box = _clipped(mouth.box, panel)
        if box is None:
            continue
        lies, within = on_paper(net, box), on_paper(net, panel)
        says = f"{net.board.name} {mouth.cut.name}"
        shape = mouth.cut.shape if mouth.is_entered else Shape.SQUARE
        if mouth.is_hidden:
            yield from outline(lies, Shape.SQUARE, Role.HIDDEN, within)
            continue
        area = polygon(lies, shape)
        yield Fill(area, _TONE, Role.CUT) if mouth.is_centred else Hatch(area)
        yield from outline(lies, shape, Role.CUT, within, says)


def _clipped(box: Box, panel: Box) -> Box | None:
    u0, y0, u1, y1 = max(box[0], panel[0]), box[1], min(box[2], panel[2]), box[3]
    return (u0, y0, u1, y1) if u0 < u1 else None


def centre_marks(net: Net, stub: Fraction) -> Iterator[Mark]:
    """The centre of every mortise and hole: a cross in hairlines, and centre lines carried out to the edges and over the folds.

    ``stub`` is how far along the face the lines that cross the fold go on, for their figures.
    """
    centred = [mouth for mouth in net.mouths if not mouth.is_hidden and mouth.is_centred]
    upright = sorted({(mouth.centre[0], mouth.on.value) for mouth in centred})
    for u, _ in upright:
        yield _line(net, (u, Fraction(0)), (u, net.height), Role.CENTRE)
    for y in sorted({mouth.centre[1] for mouth in centred}):
        past = max([stub, *(mouth.box[2] + _CROSS for mouth in centred if mouth.centre[1] == y)])
        yield _line(net, (net.outer, y), (past, y), Role.CENTRE)
    for mouth in centred:
        yield from _cross(net, mouth)


def _cross(net: Net, mouth: Mouth) -> Iterator[Line]:
    u, y = mouth.centre
    u0, y0, u1, y1 = mouth.box
    wide, high = max(_CROSS, (u1 - u0) / 2 + 1), max(_CROSS, (y1 - y0) / 2 + 1)
    says = f"{net.board.name} {mouth.cut.name} centre"
    yield _line(net, (u - wide, y), (u + wide, y), Role.CUT, says)
    yield _line(net, (u, y - high), (u, y + high), Role.CUT, says)
