"""Wood left behind and beside each cut (CK-7, LT-2, LT-3): the joints see to it, and this looks again at the finished board."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Board, Cut, CutKind
from joinlay.checks.clashes import stands_alone
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Fine, Fraction, Length, largest

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.shop import Practice

__all__ = ["check_walls"]

#: Wood behind a channel, as a share of the thickness: less is no floor. Source: common practice.
_CHANNEL_FLOOR: Final = Fraction(1, 4)
#: Wood beside a hole or screw slot, as a share of how wide it is. Source: our own choice.
_HOLE_WALL: Final = Fraction(1, 2)
#: These may come out at the far side on purpose.
_MAY_GO_THROUGH: Final = (CutKind.HOLE, CutKind.SLOT)


def check_walls(board: Board, practice: Practice) -> tuple[Finding, ...]:
    """Where the cuts of ``board`` leave too little wood: the worst place only, a refusal where a cut comes out or parts the
    board.

    Behind a mortise in a face: ``mortise floor`` and ``mortise floor share`` (LT-3). Beside a mortise: ``tenon wall``, and in the
    thickness ``tenon wall share`` too (LT-2); beside a hole or screw slot half its width. Behind a channel a quarter of the
    thickness, beside it ``tenon wall``.
    """
    thin = [finding for cut in board.cuts for finding in _of_cut(board, cut, practice)]
    return tuple(sorted(thin, key=lambda finding: (finding.harm, _left(finding)))[:1])


def _left(finding: Finding) -> Length:
    left = finding.numbers["left"]
    return left if isinstance(left, Length) else ZERO


def _of_cut(board: Board, cut: Cut, practice: Practice) -> Iterator[Finding]:
    behind, floor = _behind(board, cut), _least_behind(board, cut, practice)
    if behind < floor and (behind or cut.kind not in _MAY_GO_THROUGH):
        yield _finding(board, cut, "behind", behind, floor, "LT-3" if stands_alone(cut) else "DA-2")
    for axis, left in _beside(board, cut):
        wall = _least_beside(board, cut, axis, practice)
        # A channel or rabbet that reaches the edge is meant to.
        if left < wall and (left or stands_alone(cut)):
            yield _finding(board, cut, "beside", left, wall, "LT-2")


def _behind(board: Board, cut: Cut) -> Length:
    axis = cut.surface.axis
    span = cut.span(axis)
    return Length(span.start.mm if cut.surface.is_far else board.size(axis).mm - span.stop.mm)


def _beside(board: Board, cut: Cut) -> Iterator[tuple[Axis, Length]]:
    if cut.kind is CutKind.RABBET:
        return
    for axis, span, size in zip(Axis, cut.spans, board.sizes, strict=True):
        if axis is not cut.surface.axis:
            yield axis, Length(min(span.start.mm, size.mm - span.stop.mm))


def _least_behind(board: Board, cut: Cut, practice: Practice) -> Length:
    floor, thickness = practice.length("mortise floor"), board.size(cut.surface.axis)
    if stands_alone(cut):
        in_face = cut.surface.axis is Axis.INTO and cut.kind is CutKind.MORTISE
        return largest(floor, thickness * practice.ratio("mortise floor share")) if in_face else floor
    if cut.kind is CutKind.RABBET:
        return thickness * (1 - practice.ratio("largest rabbet share")) if cut.surface.axis is Axis.INTO else ZERO
    return thickness * _CHANNEL_FLOOR if cut.surface.axis is Axis.INTO else ZERO


def _least_beside(board: Board, cut: Cut, axis: Axis, practice: Practice) -> Length:
    wall = practice.length("tenon wall")
    if cut.kind in _MAY_GO_THROUGH and stands_alone(cut):
        return min(cut.span(other).size for other in Axis if other is not cut.surface.axis) * _HOLE_WALL
    if axis is Axis.INTO and cut.kind is CutKind.MORTISE:
        return largest(wall, board.thickness * practice.ratio("tenon wall share"))
    return wall


def _finding(board: Board, cut: Cut, where: str, left: Length, least: Length, rule: str) -> Finding:
    what = (
        f"Only {{left}} of wood is left {where} the {{cut}}."
        if left
        else ("The {cut} goes right through." if where == "behind" else "The {cut} comes out at the side.")
    )
    return Finding(
        "thin wood",
        Harm.WARN if left else Harm.REFUSE,
        board.name,
        what,
        {"left": Fine(left), "cut": cut.name, "least": Length(least.mm)},
        rule,
        "common practice",
        "Leave {least}: a smaller cut, or thicker stock.",
        f"only {{left}} {where} the {{cut}}" if left else "the {cut} comes through",
    )
