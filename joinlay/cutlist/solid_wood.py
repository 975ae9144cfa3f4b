"""How much solid wood to buy, by species and thickness, with something over for waste (CL-2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cutlist.lumber import Lumber, board_feet, cubic_metres, lumber_for
from joinlay.findings import warning
from joinlay.lengths import Fraction, Unit
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList, Group
    from joinlay.cutlist.pattern import Layout
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan

__all__ = ["CUBIC_METRES", "SolidNeed", "solid_needs"]

#: What solid wood is bought by where the job is in millimetres, and in inches.
CUBIC_METRES: Final = "cubic metres"
_BOARD_FEET: Final = "board feet"


@dataclass(frozen=True, slots=True)
class SolidNeed:
    """Solid wood of one stock: ``net`` in the parts at their rough sizes, ``on_hand`` of it from boards the maker has.

    ``buy`` is the rest with the waste added. All in ``unit``: ``board feet`` or ``cubic metres``.
    """

    stock: Solid
    lumber: Lumber
    unit: str
    net: Fraction
    on_hand: Fraction
    buy: Fraction
    findings: tuple[Finding, ...] = ()


def solid_needs(plan: Plan, parts: CuttingList, layouts: Sequence[Layout] = ()) -> tuple[SolidNeed, ...]:
    """What is needed of each solid stock of ``parts``; ``layouts`` are those on boards on hand (CL-2).

    Board feet where the job is in inches (144 cubic inches of sawn thickness, D6), cubic metres where it is in millimetres. Waste is a share of
    the rough sizes, added to them: 20 % for our own choice.
    """
    needs = []
    for stock in dict.fromkeys(group.stock for group in parts.groups if isinstance(group.stock, Solid)):
        groups = [group for group in parts.groups if group.stock == stock]
        held = {laid.piece.name for each in layouts if each.stock == stock.name for sheet in each.sheets for laid in sheet.pieces}
        needs.append(_need(plan, stock, groups, held))
    return tuple(needs)


def _need(plan: Plan, stock: Solid, groups: Sequence[Group], held: set[str]) -> SolidNeed:
    lumber = lumber_for(stock, plan.unit)
    net = on_hand = Fraction(0)
    volume = board_feet if plan.unit is Unit.INCH else cubic_metres
    for row in (row for group in groups for row in group.rows):
        each = volume(row.sawn.length, row.sawn.width, max(lumber.thickness, row.sawn.thickness))
        net += each * row.quantity
        on_hand += each * sum(name in held for name in row.names)
    buy = (net - on_hand) * (1 + plan.shop.practice.ratio("solid wood waste"))
    unit = _BOARD_FEET if plan.unit is Unit.INCH else CUBIC_METRES
    return SolidNeed(stock, lumber, unit, net, on_hand, buy, tuple(_too_thick(lumber, groups)))


def _too_thick(lumber: Lumber, groups: Sequence[Group]) -> Iterator[Finding]:
    thick = [row for group in groups for row in group.rows if row.finished.thickness > lumber.thickness]
    if not lumber.is_listed:
        yield warning(
            "no such lumber",
            "No lumber is sold thick enough to plane to {thickness}.",
            "Glue the parts up from thinner wood, or give the nominal thickness it was bought at.",
            "CL-2",
            thickness=lumber.thickness,
        ).at(groups[0].name)
    elif thick:
        yield warning(
            "too thick",
            "They are {thickness} thick, more than the {lumber} they are to come from.",
            "Glue them up from two pieces, or buy thicker wood for them.",
            "CL-2",
            thickness=max(row.finished.thickness for row in thick),
            lumber=lumber.thickness,
        ).at(in_few_words(name for row in thick for name in row.names))
