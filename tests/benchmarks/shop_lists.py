"""Parts lists made up by a fixed seed, and a general rectangle packer to lay the same lists with."""

from __future__ import annotations

from random import Random
from typing import Final

import rectpack

from joinlay.cutlist.guillotine import Bin, Item

__all__ = ["CLASSES", "LISTS", "SHEET", "fewest_by_packer", "fewest_by_sawing_packer", "instance", "parts_list"]

#: A sheet of 2440 by 1220 mm and pieces in mm, each with a 3 mm kerf.
SHEET: Final = Bin(2443, 1223)
_KERF: Final = 3

#: How many lists there are.
LISTS: Final = 20

#: What the lists are of: least and most length and width. Cases and shelves, drawers, all sorts, strips.
_KINDS: Final = ((300, 1200, 200, 600), (350, 620, 90, 260), (100, 900, 60, 500), (400, 1800, 40, 150))

#: The side of the square sheet and of the largest item, for classes 1 to 6; and items at 100 by 100 for classes 7 to 10: long,
#: tall, large, small.
_SQUARES: Final = {1: (10, 10), 2: (30, 10), 3: (40, 35), 4: (100, 35), 5: (100, 100), 6: (300, 100)}
_SHAPES: Final = ((67, 100, 1, 50), (1, 50, 67, 100), (50, 100, 50, 100), (1, 50, 1, 50))

#: How many classes there are.
CLASSES: Final = 10

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


def instance(number: int, seed: int, count: int = 60) -> tuple[Bin, list[Item]]:
    """The sheet and ``count`` items of class ``number`` (1 to 10) of the recipes the literature compares by; none may be turned.

    Source: Berkey and Wang 1987 (classes 1 to 6: items from 1 to so much on a square sheet), Martello and Vigo 1998 (7 to 10:
    seven in ten long, tall, large or small), from memory. Only the recipe is theirs; the numbers are drawn here.
    """
    chance = Random(100 * number + seed)
    side, most = _SQUARES.get(number, (100, 0))
    items = []
    for n in range(count):
        kind = number - 7 if most or chance.random() < 0.7 else chance.choice([k for k in range(4) if k != number - 7])
        a, b, c, d = (1, most, 1, most) if most else _SHAPES[kind]
        items.append(Item(n, chance.randint(a, b), chance.randint(c, d), turnable=False))
    return Bin(side, side), items


def fewest_by_packer(items: list[Item], sheet: Bin = SHEET, *, rotation: bool = False) -> int:
    """The fewest sheets that any algorithm of the packer takes in any order, those that no saw could cut included."""
    return _fewest(items, sheet, _ALGORITHMS, rotation=rotation)


def fewest_by_sawing_packer(items: list[Item], sheet: Bin) -> int:
    """The fewest sheets that any of its algorithms takes whose cuts go right across."""
    return _fewest(items, sheet, tuple(each for each in _ALGORITHMS if each.__name__.startswith("Guillotine")), rotation=False)


def _fewest(items: list[Item], sheet: Bin, algorithms: tuple[type, ...], *, rotation: bool) -> int:
    tries = ((algorithm, sort) for algorithm in algorithms for sort in _SORTS)
    return min(found for algorithm, sort in tries if (found := _packed(items, sheet, algorithm, sort, rotation=rotation)))


def _packed(items: list[Item], sheet: Bin, algorithm: type, sort: object, *, rotation: bool) -> int:
    packer = rectpack.newPacker(rectpack.PackingMode.Offline, rectpack.PackingBin.BBF, algorithm, sort, rotation=rotation)
    for item in items:
        packer.add_rect(item.length, item.width, item.number)
    packer.add_bin(sheet.length, sheet.width, count=len(items))
    packer.pack()
    return len(packer) if len(packer.rect_list()) == len(items) else 0
