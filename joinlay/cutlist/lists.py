"""All the lists of a plan together: what to cut, from what, and what to buy; and the same as plain dicts and lists, for JSON."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from joinlay.cutlist.cutting_list import cutting_list, slants_of
from joinlay.cutlist.saw_cautions import cautions_at_sheets, cautions_of_list
from joinlay.cutlist.sheet_goods import sheet_layouts
from joinlay.cutlist.shopping import shopping_list
from joinlay.cutlist.solid_wood import board_layouts, solid_needs
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.cutlist.cutting_list import CuttingList, Group, Row, Size
    from joinlay.cutlist.pattern import CutSheet, Layout, Panel
    from joinlay.cutlist.saw_cautions import SawCaution
    from joinlay.cutlist.shopping import Shopping, ShoppingLine
    from joinlay.cutlist.solid_wood import SolidNeed
    from joinlay.findings import Finding
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Fraction, Length
    from joinlay.shop import RunLimits

__all__ = ["Lists", "all_lists", "lists_tree", "with_paper"]


@dataclass(frozen=True, slots=True)
class Lists:
    """The cutting list, layouts on ``sheets`` and on ``boards`` on hand, the ``solid`` wood needed, and the shopping list.

    ``limits`` are the maker's for running a part, by which the cautions in sawing out are chosen.
    """

    parts: CuttingList
    sheets: tuple[Layout, ...]
    boards: tuple[Layout, ...]
    solid: tuple[SolidNeed, ...]
    shopping: Shopping
    limits: RunLimits

    @property
    def cautions(self) -> tuple[SawCaution, ...]:
        """What to beware of in sawing out the whole list (section 14 of the trade rules)."""
        return cautions_of_list(self.parts, self.limits)

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
    return Lists(parts, sheets, boards, solid, shopping_list(plan, parts, sheets, solid, paper), plan.shop.machines.limits)


def lists_tree(lists: Lists, length: Callable[[Length], Any], number: Callable[[Fraction], Any]) -> dict[str, Any]:
    """All of ``lists``, the findings left out. ``length`` and ``number`` make of a length and of an amount what the file is to
    hold of it. Rules CL-1, CL-2.
    """
    said = _Plainly(length, number, lists.limits)
    return {
        "parts": [said.group(group) for group in lists.parts.groups],
        "layouts": [said.layout(layout) for layout in lists.layouts],
        "shopping": said.shopping(lists.shopping),
        "cautions": [said.caution(caution) for caution in lists.cautions],
    }


@dataclass(frozen=True, slots=True)
class _Plainly:
    """Turns lists into plain things, lengths by the caller's hand."""

    length: Callable[[Length], Any]
    number: Callable[[Fraction], Any]
    limits: RunLimits

    def caution(self, caution: SawCaution) -> dict[str, Any]:
        """What it is about, the rows of the list it is for with the least size among them (none: everything), and what to do."""
        return {
            "about": caution.about.name.lower(),
            "rows": list(caution.rows),
            "least": None if caution.least is None else self.length(caution.least),
            "says": caution.about.value,
        }

    def group(self, group: Group) -> dict[str, Any]:
        return {"stock": group.name, "thickness": self.length(group.thickness), "rows": [self.row(row) for row in group.rows]}

    def row(self, row: Row) -> dict[str, Any]:
        return {
            "number": row.number,
            "part": row.part,
            "names": list(row.names),
            "quantity": row.quantity,
            "finished": self.size(row.finished),
            "core": self.size(row.core),
            "rough": self.size(row.rough),
            "grain": row.grain.value,
            "taper": [
                {
                    "at": slant.at,
                    "across": slant.across,
                    "size": self.length(slant.size),
                    "off": self.length(slant.off),
                    "planed": list(slant.planed),
                }
                for slant in slants_of(row.board)
            ],
            "banding": [
                {"edge": row.board.datum.word(band.surface), "stock": band.stock, "length": self.length(band.length)}
                for band in row.bands
            ],
        }

    def size(self, size: Size | None) -> dict[str, Any] | None:
        return None if size is None else {"length": self.length(size.length), "width": self.length(size.width)}

    def layout(self, layout: Layout) -> dict[str, Any]:
        return {
            "stock": layout.stock,
            "kerf": self.length(layout.kerf),
            "first_cut": layout.first_cut.value,
            "whole_sheets": layout.whole,
            "least_whole_sheets": layout.least_whole,
            "used": self.number(layout.used),
            "sheets": [self.sheet(sheet) for sheet in layout.sheets],
            "runs": [list(run) for run in layout.runs],
            "left_out": [piece.name for piece in layout.left_out],
            "not_needed": [blank.name for blank in layout.unused],
        }

    def sheet(self, sheet: CutSheet) -> dict[str, Any]:
        return {
            "name": sheet.blank.name,
            "is_whole": sheet.blank.is_whole,
            "length": self.length(sheet.blank.length),
            "width": self.length(sheet.blank.width),
            "pieces": [{"name": laid.piece.name, "turned": laid.turned, **self.panel(laid.panel)} for laid in sheet.pieces],
            "cuts": [
                {"number": cut.number, "cut": cut.direction.value, "at": self.length(cut.at), "panel": self.panel(cut.panel)}
                for cut in sheet.cuts
            ],
            "offcuts": [self.panel(panel) for panel in sheet.offcuts],
            "cautions": [self.caution(caution) for caution in cautions_at_sheets([sheet], self.limits)],
        }

    def panel(self, panel: Panel) -> dict[str, Any]:
        return {word: self.length(getattr(panel, word)) for word in ("along", "across", "length", "width")}

    def shopping(self, shopping: Shopping) -> dict[str, Any]:
        return {
            "lines": [self.line(line) for line in shopping.lines],
            "currency": shopping.currency,
            "total": self._maybe(shopping.total),
            "is_whole": shopping.is_whole,
            "slides": None if shopping.slides is None else self.line(shopping.slides),
        }

    def line(self, line: ShoppingLine) -> dict[str, Any]:
        return {
            "what": line.what,
            "amount": self.number(line.amount),
            "unit": line.unit,
            "remark": line.remark,
            "price": self._maybe(line.price),
            "cost": self._maybe(line.cost),
            "is_bought": line.is_bought,
        }

    def _maybe(self, amount: Fraction | None) -> object:
        return None if amount is None else self.number(amount)
