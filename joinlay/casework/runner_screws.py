"""The screws of a strip on wood that moves along it: one held fast in front, the rest in slots (RN-4)."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Board, Cut, CutKind, CutRole, CutUse, Shape, Span, Surface
from joinlay.findings import larger, refusal, stock_of
from joinlay.lengths import NOTHING
from joinlay.stock.movement import MOVEMENT_SOURCE, year_of

if TYPE_CHECKING:
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Solid
    from joinlay.stock.movement import Seasons

__all__ = ["screw_slots"]


def screw_slots(board: Board, wood: Solid, practice: Practice, seasons: Seasons, *, is_second: bool = False) -> Board:
    """``board``, a strip along the grain of nothing but itself, with its screws through the width into ``wood``, which moves
    along it.

    RN-4: the front screw goes through a hole and is glued there; each one behind it through a slot as long as the screw is thick
    and the wood moves over the distance between the two, towards the back on damp days and to the front on dry ones. Sources:
    Noyes; CK-6, Wood Handbook equation 13-2. On the second face of a partition (``is_second``) they stand two shanks further
    back, clear of those from the first. Raises Refused where the strip is too thin or short for the screws.
    """
    screw, end = practice.length("bearer screw"), practice.length("screw from the end")
    _refuse_small(board, screw, end)
    first = (end + 2 * screw if is_second else end).named(f"{board.name} front screw", "RN-4", "our own choice")
    reach = board.length - 2 * end
    count = max(1, ceil(reach / practice.length("bearer screw spacing")))
    cuts = [_hole(board, CutRole(CutUse.SCREW_HOLE), Span.about(first, screw), screw, CutKind.HOLE)]
    for n in range(1, count + 1):
        distance = reach * n / count if n < count else reach
        at = first + distance
        forward, backward = year_of(wood, distance, seasons)
        span = Span(
            (at - screw / 2 - forward).named(f"{board.name} screw slot {n} start", "RN-4", MOVEMENT_SOURCE),
            (at + screw / 2 + backward).named(f"{board.name} screw slot {n} stop", "RN-4", MOVEMENT_SOURCE),
        )
        cuts.append(_hole(board, CutRole(CutUse.SCREW_SLOT, number=n), span, screw, CutKind.SLOT))
    return board.with_cuts(*cuts)


def _hole(board: Board, role: CutRole, along: Span, screw: Dimension, kind: CutKind) -> Cut:
    shape = Shape.ROUND if kind is CutKind.HOLE else Shape.ROUND_ENDS
    middle = Span.about(board.thickness / 2, screw)
    return Cut(kind, Surface.EDGE, along, Span(NOTHING, board.size(Axis.ACROSS)), middle, role, shape=shape)


def _refuse_small(board: Board, screw: Dimension, end: Dimension) -> None:
    least = 2 * screw
    if board.thickness < least:
        raise refusal("screws", "A strip {thick} thick is too thin for screws of {screw}.",
                      "Use stock of {least} or more, or thinner screws.",
                      "RN-4", "our own choice", thick=board.thickness, screw=screw, least=least,
                      ).at(board.name).by(stock_of("runners", "stock", thinnest=least))  # fmt: skip
    if board.length <= 2 * end + screw:
        raise refusal("screws", "A strip {length} long has no room for two screws {end} from its ends.", "Make the case deeper.",
                      "RN-4", "our own choice", length=board.length, end=end,
                      ).at(board.name).by(larger("case", "depth", 2 * end + 2 * screw - board.length))  # fmt: skip
