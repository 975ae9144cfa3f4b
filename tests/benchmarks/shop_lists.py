"""Parts lists made up by a fixed seed, and a general rectangle packer to lay the same lists with."""

from __future__ import annotations

from random import Random
from typing import Final

import rectpack

from joinlay.cutlist.guillotine import Bin, Item

__all__ = ["LISTS", "SHEET", "fewest_by_packer", "parts_list"]

#: A sheet of 2440 by 1220 mm and pieces in mm, each with a 3 mm kerf.
SHEET: Final = Bin(2443, 1223)
_KERF: Final = 3

#: How many lists there are.
LISTS: Final = 20

#: What the lists are of: least and most length and width. Cases and shelves, drawers, all sorts, strips.
_KINDS: Final = ((300, 1200, 200, 600), (350, 620, 90, 260), (100, 900, 60, 500), (400, 1800, 40, 150))

_ALGORITHMS: Final = tuple(
    getattr(rectpack, name) for name in sorted(dir(rectpack)) if name.startswith(("MaxRects", "Guillotine", "Skyline"))
)
_SORTS: Final = (rectpack.SORT_AREA, rectpack.SORT_LSIDE, rectpack.SORT_SSIDE, rectpack.SORT_PERI, rectpack.SORT_DIFF)


def parts_list(seed: int, count: int = 60) -> list[Item]:
    """List number ``seed`` of ``count`` parts, none of which may be turned: all have grain."""
    chance = Random(seed)
    least_long, most_long, least_wide, most_wide = _KINDS[seed % len(_KINDS)]
    return [
        Item(n, chance.randint(least_long, most_long) + _KERF, chance.randint(least_wide, most_wide) + _KERF, turnable=False)
        for n in range(count)
    ]


def fewest_by_packer(items: list[Item]) -> int:
    """The fewest sheets that any algorithm of the packer takes in any order, those that no saw could cut included."""
    return min(found for algorithm in _ALGORITHMS for sort in _SORTS if (found := _packed(items, algorithm, sort)))


def _packed(items: list[Item], algorithm: object, sort: object) -> int:
    packer = rectpack.newPacker(rectpack.PackingMode.Offline, rectpack.PackingBin.BBF, algorithm, sort, rotation=False)
    for item in items:
        packer.add_rect(item.length, item.width, item.number)
    packer.add_bin(SHEET.length, SHEET.width, count=len(items))
    packer.pack()
    return len(packer) if len(packer.rect_list()) == len(items) else 0
