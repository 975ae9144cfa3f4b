"""Names of cuts in few words: whose mortise it is, and the hand and number of a cut, matter to the plan and not to a machine."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words

if TYPE_CHECKING:
    from collections.abc import Iterable

__all__ = ["all_in_few_words", "kind_of_cut"]

_NUMBER = re.compile(r" \d+$")
_BEFORE = re.compile(r"^(?:left|right|partition [\d, toand]+) ")


def kind_of_cut(name: str) -> str:
    """What a cut is, by its ``name``: ``rail under drawer 7 mortise 1`` and ``left mortise`` are both ``mortise``. No rule."""
    plain = _NUMBER.sub("", name)
    return "mortise" if plain.split()[-1] == "mortise" else _BEFORE.sub("", plain)


def all_in_few_words(names: Iterable[str]) -> str:
    """Mortises or holes of one line, each without its own number: ``rail under drawer 1 to 7 mortise``. No rule."""
    return in_few_words(dict.fromkeys(_NUMBER.sub("", name) for name in names))
