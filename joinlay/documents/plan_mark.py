"""A plan's mark: eight letters and figures made from what is to be made, so that old paper can't be taken for new (PR-7).

The same plan has the same mark, whoever makes it and wherever the job file lies: what only tells where a number comes from (the
file, its lines, the working) is left out of it, and so is what was found, which follows from the rest. Forty bits of a digest are
enough to tell the plans of one shop apart: among a thousand, two are alike in one case out of two million.

Every file of a packet carries the words ``plan mark`` and the mark, as text that can be found without knowing what kind it is.
"""

from __future__ import annotations

import hashlib
import json
import re
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

from joinlay.documents.plan_json import plan_tree
from joinlay.errors import BadInput, quoted

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from joinlay.jobs.on_hand import OnHand
    from joinlay.jobs.plan import Plan

__all__ = ["MARKED", "mark_in", "marks_in", "plan_mark"]

#: Figures and capitals without those that are read for one another: I and L for 1, O for 0, U for V.
_LETTERS: Final = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_LONG: Final = 8

#: What stands before the mark in every file.
MARKED: Final = "plan mark"
#: The mark in a file of any kind: after the words, or in JSON and CSV behind a sign or a line end.
_FOUND: Final = re.compile(rb"plan[ _]mark\W{1,8}([0-9A-HJKMNP-TV-Z]{8})(?![0-9A-Za-z])")

#: Keys of plan.json that are no part of what is made: where from, how worked out, how said.
_ABOUT: Final = frozenset(
    {"made_by", "job", "files", "findings", "origin", "written", "working", "source", "rule", "text", "mark", "said"}
)

#: A file past this is read no further.
_MOST: Final = 100_000_000


def plan_mark(plan: Plan, tree: Mapping[str, Any] | None = None) -> str:
    """The mark of ``plan``: the same for the same plan, another as soon as any size, cut, place or stock is (PR-7).

    ``tree`` is its ``plan_tree``, where that has been made already.
    """
    told = {
        "plan": _bare(plan_tree(plan) if tree is None else tree),
        "rule": str(plan.rule.division.mm),
        "on hand": _on_hand(plan.on_hand),
    }
    content = json.dumps(told, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()
    number = int.from_bytes(hashlib.sha256(content).digest()[:5], "big")
    return "".join(_LETTERS[number >> 5 * place & 31] for place in reversed(range(_LONG)))


def mark_in(path: Path) -> str | None:
    """The mark that the file ``path`` carries, of whatever kind it is; None where it has none or can't be read."""
    try:
        if not path.is_file():
            return None
        with path.open("rb") as file:
            found = _FOUND.search(file.read(_MOST))
    except OSError:
        return None
    return found[1].decode() if found else None


def marks_in(folder: Path) -> dict[str, str]:
    """The mark of every file in ``folder`` that carries one, by the files' names in their order.

    Raises BadInput where there is no such folder, and where nothing in it has a mark.
    """
    try:
        files = sorted(path for path in folder.iterdir() if path.is_file())
    except OSError:
        raise BadInput(f"there is no folder {quoted(str(folder), 200)} to look into; name the one that make wrote to.") from None
    found = {path.name: mark for path in files if (mark := mark_in(path)) is not None}
    if not found:
        raise BadInput(f"nothing in {quoted(str(folder), 200)} carries the mark of a plan; name the folder that make wrote to.")
    return found


def _bare(value: object) -> object:
    """``value`` without what is only told about it."""
    if isinstance(value, (str, int, float)):
        # Most of them, and much sooner known than a mapping.
        return value
    if isinstance(value, Mapping):
        return {key: _bare(inner) for key, inner in value.items() if key not in _ABOUT}
    return [_bare(inner) for inner in value] if isinstance(value, list) else value


def _on_hand(on_hand: OnHand) -> dict[str, Any]:
    """What the lists and layouts are made with, beside the parts."""
    sawing, prices = on_hand.sawing, on_hand.prices
    sheets: Sequence[Any] = [
        [one.name, one.stock, str(one.length.mm), str(one.width.mm), one.grain_known, one.count] for one in on_hand.sheets
    ]
    boards: Sequence[Any] = [
        [
            *(one.name, one.stock, str(one.length.mm), str(one.width.mm), one.count),
            [[str(defect.start.mm), str(defect.stop.mm)] for defect in one.defects],
        ]
        for one in on_hand.boards
    ]
    costs: Mapping[str, str] = {name: str(price) for name, price in prices.of.items()}
    return {
        "sheets": sheets,
        "boards": boards,
        "sawing": [sawing.first_cut.value, sawing.fronts_together, sorted(sawing.any_grain)],
        "prices": [prices.currency, costs, str(prices.slides)],
    }
