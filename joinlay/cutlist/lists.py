"""All the lists of a plan together: what to cut, from what, and what to buy."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from joinlay.cutlist.board_layout import board_layouts
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.sheet_layout import sheet_layouts
from joinlay.cutlist.shopping import shopping_list
from joinlay.cutlist.solid_wood import solid_needs

if TYPE_CHECKING:
    from joinlay.cutlist.cutting_list import CuttingList
    from joinlay.cutlist.pattern import Layout
    from joinlay.cutlist.shopping import Shopping
    from joinlay.cutlist.solid_wood import SolidNeed
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan

__all__ = ["Lists", "all_lists", "with_paper"]


@dataclass(frozen=True, slots=True)
class Lists:
    """The cutting list, layouts on ``sheets`` and on ``boards`` on hand, the ``solid`` wood needed, and the shopping list."""

    parts: CuttingList
    sheets: tuple[Layout, ...]
    boards: tuple[Layout, ...]
    solid: tuple[SolidNeed, ...]
    shopping: Shopping

    @property
    def layouts(self) -> tuple[Layout, ...]:
        """Sheets, then boards."""
        return self.sheets + self.boards

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything that was found, the worst first; on a layout with the stock in its place."""
        laid = [
            finding.at(layout.stock) if not finding.where else finding for layout in self.layouts for finding in layout.findings
        ]
        needed = [finding for need in self.solid for finding in need.findings]
        return tuple(sorted((*self.parts.findings, *laid, *needed, *self.shopping.findings), key=lambda finding: finding.harm))


def with_paper(lists: Lists, plan: Plan, paper: int) -> Lists:
    """``lists`` of ``plan`` with ``paper`` sheets of paper among what to have ready; nothing is laid out again (CL-2)."""
    return replace(lists, shopping=shopping_list(plan, lists.parts, lists.sheets, lists.solid, paper))


def all_lists(plan: Plan, paper: int | None = None) -> Lists:
    """Every list of ``plan`` (CL-1, CL-2); ``paper`` is how many sheets of paper its templates take, where that is known."""
    parts = cutting_list(plan)
    sheets, boards = sheet_layouts(plan, parts), board_layouts(plan, parts)
    solid = solid_needs(plan, parts, boards)
    return Lists(parts, sheets, boards, solid, shopping_list(plan, parts, sheets, solid, paper))
