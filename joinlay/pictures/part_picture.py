"""One part drawn small, looking at its reference face with the reference edge down: outline, cuts, grain and marks."""

from __future__ import annotations

from dataclasses import replace
from itertools import chain, product
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Place, Shape, Surface
from joinlay.geometry import corners
from joinlay.lengths import NOTHING, Fraction, Length
from joinlay.pen.marks import Arc, Fill, Line, Polyline, Role
from joinlay.pen.mouths import mouth_strokes
from joinlay.pen.placing import whole
from joinlay.pictures.picture import Easel
from joinlay.pictures.projecting import FROM_FRONT
from joinlay.pictures.sight import look
from joinlay.pictures.wood import Fit, GrainArrow, edge_strokes
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pictures.picture import Scale

__all__ = ["MARKS_BELOW", "FaceMark", "part_picture", "surface_picture", "thumbnail"]

#: How thick the bar under the reference edge is, and the gap above it; how far the marks reach below the wood.
_BAR, _GAP = Fraction(4, 5), Fraction(3, 10)
MARKS_BELOW: Final = _BAR + _GAP
#: Heights of the face mark, the highest that fits.
_MARKS: Final = (Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(3, 2))
#: Grain arrows, the longest that fits.
_ARROWS: Final = (Fraction(16), Fraction(10), Fraction(6))
_ZERO: Final = Fraction(0)
#: The least that a part in a thumbnail is high.
_LEAST_HIGH: Final = Fraction(4, 5)


@dataclass(frozen=True, slots=True)
class FaceMark:
    """The cabinetmaker's mark of the reference face: a loop, ``high`` mm in all, whose tail runs to the edge at ``foot``."""

    foot: Point
    high: Fraction

    @property
    def box(self) -> Box:
        """The room it takes."""
        x, y = self.foot
        wide = self.high * Fraction(2, 5)
        return (x - wide / 2, y, x + wide, y + self.high)

    def spelled(self) -> Iterator[Stroke]:
        """The tail and the loop."""
        x, y = self.foot
        r = self.high / 5
        loop = (x + r, y + self.high - r)
        yield Line(self.foot, (x, loop[1]), Role.REFERENCE, "reference face")
        yield Arc(loop, r, Fraction(270), Fraction(270), Role.REFERENCE)


def part_picture(board: Board, scale: Scale, *, has_grain: bool = True, joints: Sequence[Length] = ()) -> tuple[Stroke, ...]:
    """A board at ``scale``, the lower left corner of its wood at zero.

    The reference edge is down, with a heavy bar under it; the reference face is towards the eye, its mark by the reference end,
    which is at the left or right as on the templates (PR-6). Cuts that open on the face are lines, those that don't are dashed.
    ``has_grain`` False: no grain arrow. ``joints`` are where it is glued up from boards edge to edge, from its reference edge
    (PN-1).
    """
    fit, easel = Fit((_ZERO, _ZERO), scale.factor), Easel()
    laid = _laid(board)
    easel.draw(edge_strokes(look([laid], FROM_FRONT), fit))
    easel.draw(stroke for cut in board.cuts for stroke in _unseen(board, cut, fit))
    long, wide = board.length.mm * scale.factor, board.width.mm * scale.factor
    for at in joints:
        y = at.mm * scale.factor
        easel.draw((Line((_ZERO, y), (long, y), Role.SEEN, "edge joint"),))
    easel.draw((Fill(corners((_ZERO, -_GAP - _BAR, long, -_GAP)), Fraction(1), Role.REFERENCE, board.datum.edge),))
    _mark_face(easel, board, long, wide)
    if has_grain:
        _mark_grain(easel, long, wide, is_upright=board.has_grain_across)
    return tuple(easel.strokes)


def thumbnail(board: Board, room: tuple[Fraction, Fraction]) -> tuple[Stroke, ...]:
    """A board as large as it goes into ``room``, wide and high in mm, the lower left corner of its wood at zero: what is seen of
    it, no more.

    It lies as in ``part_picture``. What would be narrower than 0.8 mm is drawn no narrower.
    """
    factor = min(room[0] / board.length.mm, room[1] / board.width.mm)
    if board.width.mm * factor < _LEAST_HIGH:
        rim = corners((_ZERO, _ZERO, board.length.mm * factor, _LEAST_HIGH))
        return (Polyline(rim, Role.SEEN, closed=True, says=board.name, of=board.role),)
    # So small that every line is a thin one.
    seen = edge_strokes(look([_laid(board)], FROM_FRONT), Fit((_ZERO, _ZERO), factor))
    return tuple(replace(line, role=Role.SEEN) for line in seen)


#: How a board is held so that each other surface of it looks to the eye: which ways its length, width and thickness then run.
_HELD: Final = {
    Surface.FAR_FACE: ("-X", "+Z", "-Y"),
    Surface.EDGE: ("+X", "+Y", "-Z"),
    Surface.FAR_EDGE: ("+X", "-Y", "+Z"),
    Surface.END: ("+Y", "+Z", "-X"),
    Surface.FAR_END: ("-Y", "+Z", "+X"),
}


def surface_picture(board: Board, surface: Surface, scale: Scale) -> tuple[Stroke, ...]:
    """What is seen of a board at ``scale``, looking at one ``surface`` of it, the lower left corner at zero; for its face
    ``part_picture``.

    Its edge or end lies down or upright as the board is turned over; round holes are drawn square, as its facets are.
    """
    if surface is Surface.FACE:
        return part_picture(board, scale)
    ways = _HELD[surface]
    sizes = (board.length.mm, board.width.mm, board.thickness.mm)
    sizes_along = {way[1]: size for way, size in zip(ways, sizes, strict=True)}
    if not board.end_on_left:
        ways = (_mirrored(ways[0]), _mirrored(ways[1]), _mirrored(ways[2]))
    # Wherever it comes to lie, its corner is put at zero.
    at = {axis: Length(sizes_along[axis]) if f"-{axis}" in ways else NOTHING for axis in "XYZ"}
    held = replace(board, place=Place.at(at["X"], at["Y"], at["Z"], *ways))
    return tuple(edge_strokes(look([held], FROM_FRONT), Fit((_ZERO, _ZERO), scale.factor)))


def _mirrored(way: str) -> str:
    """The way across the drawing turned about, the others as they are."""
    return {"+X": "-X", "-X": "+X"}.get(way, way)


def _laid(board: Board) -> Board:
    """The board turned to the eye: its face before, its edge down, its end at the side where it is on the templates."""
    at, run = (NOTHING, "+X") if board.end_on_left else (board.length, "-X")
    return replace(board, place=Place.at(at, NOTHING, NOTHING, run, "+Z", "+Y"))


def _unseen(board: Board, cut: Cut, fit: Fit) -> Iterator[Stroke]:
    """Round holes in the face as circles, and cuts that lie under it dashed."""
    along, across, into = (cut.span(axis) for axis in Axis)
    u0, u1 = along.start.mm, along.stop.mm
    if not board.end_on_left:
        u0, u1 = board.length.mm - u1, board.length.mm - u0
    box = fit.box((u0, across.start.mm, u1, across.stop.mm))
    face = fit.box((_ZERO, _ZERO, board.length.mm, board.width.mm))
    is_round = cut.shape is Shape.ROUND and cut.surface in (Surface.FACE, Surface.FAR_FACE)
    is_under = into.start.mm > 0
    if is_round or is_under:
        yield from mouth_strokes(box, Shape.ROUND if is_round else Shape.SQUARE, Role.HIDDEN if is_under else Role.SEEN, face)


def _mark_face(easel: Easel, board: Board, long: Fraction, wide: Fraction) -> None:
    """The face mark near the reference end, clear of the cuts where it can be, and the mark of the edge under it."""
    clear, over = product((True,), _MARKS, range(3, 30)), product((False,), _MARKS, (8,))
    for is_clear, high, aside in chain(clear, over):
        mark = FaceMark((Fraction(aside) if board.end_on_left else long - aside, _ZERO), high)
        left, _, right, top = mark.box
        fits = left >= 0 and right <= long and top <= wide
        if fits and (not is_clear or easel.taken.is_free(whole((left, Fraction(1, 2), right, top)), 200)):
            (x, _), low = mark.foot, -MARKS_BELOW - Fraction(8, 5)
            easel.draw(
                (*mark.spelled(), Polyline(((x - 1, low), (x, -MARKS_BELOW), (x + 1, low)), Role.SEEN, says="reference edge"))
            )
            return


def _mark_grain(easel: Easel, long: Fraction, wide: Fraction, *, is_upright: bool) -> None:
    for size in _ARROWS:
        for share in (Fraction(1, 2), Fraction(2, 3), Fraction(1, 3)):
            for up in (Fraction(1, 2), Fraction(3, 4), Fraction(1, 4)):
                arrow = GrainArrow((long * share, wide * up), size, is_upright=is_upright)
                if size + 2 <= (wide if is_upright else long) and easel.taken.is_free(whole(arrow.box), 200):
                    easel.draw(arrow.spelled())
                    return
