"""The lists as plain dicts and lists, for JSON; how a length is set down is the caller's affair."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.cutlist.changes import Change, Changes
    from joinlay.cutlist.cutting_list import Group, Row, Size
    from joinlay.cutlist.lists import Lists
    from joinlay.cutlist.pattern import CutSheet, Layout, Panel
    from joinlay.cutlist.shopping import Line, Shopping
    from joinlay.lengths import Fraction, Length

__all__ = ["changes_tree", "lists_tree"]


def lists_tree(lists: Lists, length: Callable[[Length], Any], number: Callable[[Fraction], Any]) -> dict[str, Any]:
    """All of ``lists``, the findings left out. ``length`` and ``number`` make of a length and of an amount what the file is to
    hold of it. Rules CL-1, CL-2.
    """
    said = _Plainly(length, number)
    return {
        "parts": [said.group(group) for group in lists.parts.groups],
        "layouts": [said.layout(layout) for layout in lists.layouts],
        "shopping": said.shopping(lists.shopping),
    }


def changes_tree(changes: Changes) -> dict[str, Any]:
    """What differs between two plans, as words."""
    return {
        "written": [_change(change) for change in changes.givens],
        "parts": [_change(change) for change in changes.parts],
        "joints": [_change(change) for change in changes.joints],
        "settings": [_change(change) for change in changes.settings],
        "fates": [{"fate": fate.value, "parts": list(names)} for fate, names in changes.fates],
        "untouched": changes.untouched,
        "wood": [{"part": part, "from": old} for part, old in changes.wood],
    }


def _change(change: Change) -> dict[str, Any]:
    return {"names": list(change.names), "what": change.what, "old": change.old, "new": change.new}


@dataclass(frozen=True, slots=True)
class _Plainly:
    """Turns lists into plain things, lengths by the caller's hand."""

    length: Callable[[Length], Any]
    number: Callable[[Fraction], Any]

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

    def line(self, line: Line) -> dict[str, Any]:
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
