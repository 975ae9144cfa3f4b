"""Panels under double bearers: how far each sags in years under the drawers that ride on it between its supports (CK-3, RO-1)."""

from __future__ import annotations

from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, Surface
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Tie
from joinlay.checks.conditions import GRAVITY, estimate, weight
from joinlay.checks.plates import CREEP
from joinlay.checks.shelf_sag import SEEN
from joinlay.checks.weights import drawer_load, drawer_weight
from joinlay.findings import Change, Finding, Harm, Remedy
from joinlay.lengths import Fraction, Length
from joinlay.records import dataclass
from joinlay.stock import Sheet, stiffness_of

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.checks.conditions import Conditions
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["LoadedBeam", "check_panels"]

_SOURCE: Final = "beam formulas, Wood Handbook ch. 9, from memory; common practice"
#: Places along a beam where its sag is taken.
_PLACES: Final = 40


@dataclass(frozen=True, slots=True)
class LoadedBeam:
    """A beam on its two ends: ``span`` in mm, ``stiffness`` E I in N mm2; ``loads`` are how far each is from its left end, in mm,
    and how much, in N.
    """

    span: float
    stiffness: float
    loads: tuple[tuple[float, float], ...]

    def sag(self) -> float:
        """How far it goes down at once where it does most, in mm: P b x (L^2 - b^2 - x^2) / (6 L E I) of each load, at x before
        it and b from it to the other end (CK-3; Wood Handbook ch. 9, from memory).
        """
        return max(self._at(self.span * n / _PLACES) for n in range(1, _PLACES))

    def _at(self, x: float) -> float:
        total = 0.0
        for at, load in self.loads:
            near, far = (x, self.span - at) if x <= at else (self.span - x, at)
            total += load * far * near * (self.span**2 - far**2 - near**2)
        return total / (6 * self.span * self.stiffness)


def check_panels(
    others: Sequence[Assembly],
    drawers: Sequence[Drawer],
    stocks: Mapping[str, Stock],
    shop: Shop,
    conditions: Conditions,
) -> tuple[Finding, ...]:
    """Whether each panel with double bearers on it stays straight to the eye under its drawers, doubled for years (CK-3, RO-1).

    A panel is taken as a beam on its ends and on the partitions that hold it up, stiffened by the rail glued to its front edge.
    Each double bearer has half of the drawer at either side of it. A warning says what would do: partitions, which stand on the
    panel and hang it in what is over it, or a thicker stock. ``stocks`` are the job's by the names on its boards.
    """
    meetings = [met for one in (*others, *(drawer.assembly for drawer in drawers)) for met in one.meetings]
    boards = {board.role: board for one in others for board in one.boards}
    found = []
    for panel, guides in _doubled(boards, meetings).items():
        loads = [(_middle(boards[guide]), _on(guide, meetings, drawers, conditions)) for guide in guides]
        worst = max(_beams(boards, boards[panel], loads, meetings, stocks), key=lambda beam: beam.sag() / beam.span, default=None)
        if worst is not None:
            found.append(_judged(worst, boards[panel], stocks, shop))
    return tuple(found)


def _doubled(boards: Mapping[PartRole, Board], meetings: Sequence[Meeting]) -> dict[PartRole, list[PartRole]]:
    """The guides of double bearers by the panel that these lie on, or that is the bearer itself."""
    lies = {met.one: met.other for met in meetings if met.one.kind is PartKind.BEARER and met.facings[0].rule == "RO-1"}
    found: dict[PartRole, list[PartRole]] = {}
    for met in meetings:
        if met.one.kind is PartKind.GUIDE and met.facings[0].rule == "RO-1" and met.tie is Tie.GLUED:
            panel = lies.get(met.other, met.other)
            if panel in boards:
                found.setdefault(panel, []).append(met.one)
    return found


def _middle(board: Board) -> Fraction:
    """The middle of a board across the piece, in X."""
    box = SpaceBox.around(board)
    return (box.low[0] + box.high[0]) / 2


def _on(guide: PartRole, meetings: Sequence[Meeting], drawers: Sequence[Drawer], conditions: Conditions) -> float:
    """What comes down on a double bearer, in N: half of each drawer that its guide stands beside."""
    beside = {met.one.drawer for met in meetings if met.other == guide and met.one.kind is PartKind.DRAWER_SIDE}
    heavy = (drawer_weight(drawer) + drawer_load(drawer, conditions) for drawer in drawers if drawer.role in beside)
    return GRAVITY * sum(heavy) / 2


def _beams(
    boards: Mapping[PartRole, Board],
    panel: Board,
    loads: Sequence[tuple[Fraction, float]],
    meetings: Sequence[Meeting],
    stocks: Mapping[str, Stock],
) -> Iterator[LoadedBeam]:
    """The panel from each support to the next: the wood its ends lie in, and partitions under it or, on the case bottom,
    between banks.
    """
    box = SpaceBox.around(panel)
    ends = [box.low[0], box.high[0]]
    held = []
    for met in (met for met in meetings if met.joint is not None):
        if met.one == panel.role:
            housed = met.facings[0].other.depth.mm - met.facings[0].gap.mm
            if met.facings[0].one.surface is Surface.END:
                ends[0] += housed
            else:
                ends[1] -= housed
        elif met.other == panel.role and met.one.kind is PartKind.CASE_PARTITION:
            is_under = met.facings[0].one.surface is Surface.FAR_END
            if is_under or not met.one.is_in_a_row:
                held.append(_middle(boards[met.one]))
    stiffness = _stiffness(panel, stocks)
    for rail in _rails(panel, boards, meetings):
        stiffness += _modulus(stocks[rail.stock]) * float(rail.thickness.mm) * float(rail.width.mm) ** 3 / 12
    for low, high in pairwise([ends[0], *sorted(held), ends[1]]):
        own = tuple((float(at - low), load) for at, load in loads if low < at < high)
        if own:
            yield LoadedBeam(float(high - low), stiffness, own)


def _rails(panel: Board, boards: Mapping[PartRole, Board], meetings: Sequence[Meeting]) -> Iterator[Board]:
    """The rails that are glued to the panel's front edge (FF-3)."""
    for met in meetings:
        if met.other == panel.role and met.one.kind is PartKind.RAIL and met.tie is Tie.GLUED:
            yield boards[met.one]


def _modulus(stock: Stock) -> float:
    return 1000 * float(stiffness_of(stock).along)


def _stiffness(panel: Board, stocks: Mapping[str, Stock]) -> float:
    return _modulus(stocks[panel.stock]) * float(panel.width.mm) * float(panel.thickness.mm) ** 3 / 12


def _judged(beam: LoadedBeam, panel: Board, stocks: Mapping[str, Stock], shop: Shop) -> Finding:
    rule = shop.rule
    sag, limit = CREEP * beam.sag(), float(SEEN) * beam.span
    numbers: dict[str, Length | int | str] = {
        "sag": estimate(sag, rule),
        "load": weight(sum(load for _, load in beam.loads) / GRAVITY, rule),
        "seen": estimate(limit, rule),
        "span": rule.round(Length(Fraction(round(beam.span * 1000), 1000))),
    }
    what = "Its double bearers carry {load} of loaded drawers over {span} with nothing under them: in years it sags about {sag}"
    if sag <= limit:
        what += "; the eye takes {seen} for straight."
        return Finding("panel sag", Harm.NOTE, panel.name, what, numbers, "CK-3", _SOURCE)
    own = _stiffness(panel, stocks)
    needed = own + beam.stiffness * (sag / limit - 1)
    numbers["thick"] = rule.up(Length(panel.thickness.mm * Fraction(ceil((needed / own) ** (1 / 3) * 10**6), 10**6)))
    remedy = 'Put partitions between its drawers, between = "partition"; or a panel of its kind {thick} thick would do.'
    ways = []
    thicker = [
        stock
        for stock in stocks.values()
        if isinstance(stock, Sheet)
        and stock.thickness > panel.thickness
        and _modulus(stock) * float(stock.thickness.mm) ** 3 >= needed * 12 / float(panel.width.mm)
    ]
    if thicker:
        better = min(thicker, key=lambda stock: stock.thickness)
        numbers["better"] = better.name
        ways.append(Remedy("make the case's panels of the {better} of your stock", (Change("case", "panels", better.name),)))
    what += ", and the eye takes {seen} for straight."
    return Finding("panel sag", Harm.WARN, panel.name, what, numbers, "CK-3", _SOURCE, remedy, "sags {sag}", remedies=tuple(ways))
