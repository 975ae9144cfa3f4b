"""Loose tenons are parts too: how many of each size, and how much strip to mill for them."""

from __future__ import annotations

from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from joinlay.lengths import NOTHING, plain_mm

if TYPE_CHECKING:
    from joinlay.cutlist.cutting_list import CuttingList, Row
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Fraction

__all__ = ["TenonStrip", "tenon_strips"]


@dataclass(frozen=True, slots=True)
class TenonStrip:
    """Strip of one section: ``thickness`` by ``width``, rounded on its two narrow edges, to be crosscut into tenons.

    ``rows`` are those of the cutting list, one for each length of tenon. ``spare`` is how many are made over ``count``. ``length`` is
    all that must be milled, a kerf for each tenon included.
    """

    thickness: Dimension
    width: Dimension
    rows: tuple[Row, ...]
    count: int
    spare: int
    length: Dimension


def tenon_strips(plan: Plan, parts: CuttingList) -> tuple[TenonStrip, ...]:
    """The strips to mill for the loose tenons of ``parts``, thinnest first, with some over for trials and losses (LT-5; our own choice)."""
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
