"""What holds the piece together besides its joints: screws, nails, glue, and the strip that loose tenons are cut from."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutKind, PartKind, Whole
from joinlay.lengths import NOTHING, Fraction, mm, plain_mm

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.boards import Board, Cut
    from joinlay.boards.place import Vector
    from joinlay.cutlist.cutting_list import CuttingList, Row
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension

__all__ = ["TenonStrip", "glued", "nails", "screws", "tenon_strips"]

#: Pi, near enough for glue.
_PI: Final = Fraction(355, 113)

#: The widest spacing of nails along a runner. Source: our own choice.
_NAIL_SPACING: Final = mm(150)

#: Runners that are glued and nailed in a plywood case: on edge, so the glue covers length by thickness (RN-4).
_NAILED: Final = (PartKind.BEARER, PartKind.KICKER, PartKind.PACKING)

#: Strips and blocks glued flat, over length by width, as guides are too (RN-2, ST-2, ST-4).
_STOPS: Final = (PartKind.STOP_STRIP, PartKind.STOP_BLOCK)

#: The members of a face frame.
_FRAME: Final = (PartKind.STILE, PartKind.RAIL)


def screws(plan: Plan) -> int:
    """How many screws ``plan`` takes: one for each hole or slot that is for one (RN-4, GR-2; common practice)."""
    return sum(cut.role.use.is_for_a_screw for board in plan.boards for cut in board.cuts)


def nails(plan: Plan) -> int:
    """How many nails the runners of ``plan`` take in a plywood case, at most 150 mm apart (RN-4; spacing our own choice)."""
    return sum(1 + max(1, ceil(board.length / _NAIL_SPACING)) for board in plan.boards if _is_nailed(board))


def _is_nailed(board: Board) -> bool:
    return board.role.kind in _NAILED and not any(cut.role.use.is_for_a_screw for cut in board.cuts)


def glued(plan: Plan) -> dict[str, Fraction]:
    """How much of ``plan`` is glued where, in square millimetres, by the trade's word for it; only what there is any of (RN-4).

    Loose tenons all round. Dadoes on their floor and walls, once, in the part they are cut in; slots of half-blind fronts on
    their floor and outer wall, the inner one being the tongue's. Nailed runners, guides, stop strips and blocks where they lie
    on; runners that are screwed through slots only round their front screw. The face frame where its back lies against the
    front edges of the case. Grooves for bottoms and rabbets for backs are left dry. Source: by geometry.
    """
    frame = [board for board in plan.boards if board.role.kind in _FRAME and board.place is not None]
    case = [board for board in plan.boards if board.role.whole is Whole.CASE and board.place is not None]
    areas = {
        "loose tenons": _sum(_around(board) for board in plan.boards if board.role.kind is PartKind.LOOSE_TENON),
        "dadoes": _sum(_walls(cut) for board in plan.boards for cut in board.cuts if cut.role.mate),
        "runners": _sum(_laid_on(board) for board in plan.boards if board.role.kind in (*_NAILED, PartKind.GUIDE)),
        "stops": _sum(_laid_on(board) for board in plan.boards if board.role.kind in _STOPS),
        "frame on the case": _sum(_shared(member, wood) for member in frame for wood in case),
    }
    return {where: area for where, area in areas.items() if area}


def _sum(areas: Iterable[Fraction]) -> Fraction:
    return sum(areas, Fraction(0))


def _around(tenon: Board) -> Fraction:
    """The two cheeks and the rounded edges of a loose tenon."""
    wide, thick = tenon.width.mm, tenon.thickness.mm
    around = 2 * (wide - thick) + _PI * thick if tenon.has_round_edges else 2 * (wide + thick)
    return around * tenon.length.mm


def _laid_on(board: Board) -> Fraction:
    """What a strip or block is glued over where it lies on something."""
    if board.role.kind not in _NAILED:
        return board.length.mm * board.width.mm
    screw = next((cut for cut in board.cuts if cut.role.use.is_for_a_screw), None)
    # Glued as far past its front screw as that is from the end, so that the wood behind is free to move.
    length = board.length.mm if screw is None else min(board.length.mm, screw.along.start.mm + screw.along.stop.mm)
    return length * board.thickness.mm


def _walls(cut: Cut) -> Fraction:
    """The floor of a dado and its two walls; of a slot its floor and one wall; nothing of any other cut."""
    walls = {CutKind.DADO: 2, CutKind.SLOT: 1}.get(cut.kind)
    if walls is None:
        return Fraction(0)
    along, across = (cut.span(axis).size.mm for axis in Axis if axis is not cut.surface.axis)
    long, short = max(along, across), min(along, across)
    return long * (short + walls * cut.depth.mm)


def _shared(member: Board, wood: Board) -> Fraction:
    """How much of the back of a frame member lies against ``wood``."""
    (left, _, low), (right, back, high) = _reach(member)
    (start, front, bottom), (stop, _, top) = _reach(wood)
    if back != front:
        return Fraction(0)
    return max(min(right, stop) - max(left, start), Fraction(0)) * max(min(high, top) - max(low, bottom), Fraction(0))


def _reach(board: Board) -> tuple[Vector, Vector]:
    """The nearest and the furthest corner of a placed board, in the piece's millimetres."""
    assert board.place is not None
    near, far = board.place.point(NOTHING, NOTHING, NOTHING), board.place.point(board.length, board.width, board.thickness)
    (a, b, c), (d, e, f) = near, far
    return (min(a, d), min(b, e), min(c, f)), (max(a, d), max(b, e), max(c, f))


@dataclass(frozen=True, slots=True)
class TenonStrip:
    """Strip of one section: ``thickness`` by ``width``, rounded on its two narrow edges, to be crosscut into tenons.

    ``rows`` are those of the cutting list, one for each length of tenon. ``spare`` is how many are made over ``count``.
    ``length`` is all that must be milled, a kerf for each tenon included.
    """

    thickness: Dimension
    width: Dimension
    rows: tuple[Row, ...]
    count: int
    spare: int
    length: Dimension


def tenon_strips(plan: Plan, parts: CuttingList) -> tuple[TenonStrip, ...]:
    """The strips to mill for the loose tenons of ``parts``, thinnest first, with some over for trials (LT-5; our own choice).

    ``parts`` is the cutting list of ``plan``, whose shop gives the kerf and the share to spare.
    """
    sections: dict[tuple[Fraction, Fraction], list[Row]] = {}
    for group in parts.groups:
        for row in group.rows if group.is_tenons else ():
            sections.setdefault((row.finished.thickness.mm, row.finished.width.mm), []).append(row)
    return tuple(_strip(plan, rows) for _, rows in sorted(sections.items()))


def _strip(plan: Plan, rows: list[Row]) -> TenonStrip:
    length: Dimension = NOTHING
    spares = 0
    for row in rows:
        spare = ceil(row.quantity * plan.shop.practice.ratio("spare tenons"))
        length = length + (row.finished.length + plan.shop.saw.kerf) * (row.quantity + spare)
        spares += spare
    size = rows[0].finished
    named = length.named(f"strip for {plain_mm(size.thickness)} by {plain_mm(size.width)} tenons", "LT-5", "our own choice")
    return TenonStrip(size.thickness, size.width, tuple(rows), sum(row.quantity for row in rows), spares, named)
