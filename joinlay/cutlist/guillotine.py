"""Laying rectangles into rectangles with cuts that go right across: the plain, whole-number heart of the sheet layout.

Every size here already has one kerf added to each of its sides' lengths, pieces and sheets alike, so pieces may touch (pack w + k by h + k into
W + k by H + k). Units are whatever makes every length a whole number. ``length`` is with the grain, ``width`` across it.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Final, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["FITS", "SPLITS", "Bin", "Item", "Packing", "Space", "Step", "Way", "pack"]


class Item(NamedTuple):
    """A piece to lay: its ``number`` among the pieces, its sizes, and whether it may be turned a quarter."""

    number: int
    length: int
    width: int
    turnable: bool


class Bin(NamedTuple):
    """A sheet or offcut to lay pieces in. ``only_turnable``: its grain isn't known, so it takes only pieces that may be turned."""

    length: int
    width: int
    only_turnable: bool = False


class Space(NamedTuple):
    """A free panel of bin ``bin``, its corner at ``along``, ``across``. ``untouched``: no cut but the sheet's first kind has made it."""

    bin: int
    along: int
    across: int
    length: int
    width: int
    untouched: bool


class Step(NamedTuple):
    """``item`` laid in the near corner of ``space``; ``rip_first``: the panel is first ripped to the item's width, else crosscut."""

    space: Space
    item: Item
    turned: bool
    rip_first: bool


@dataclass(frozen=True, slots=True)
class Packing:
    """What came of one try. ``left`` are the free panels, those of bins that were not used included; ``opened`` how many whole sheets."""

    steps: tuple[Step, ...]
    left: tuple[Space, ...]
    left_out: tuple[Item, ...]
    opened: int

    @property
    def merit(self) -> tuple[int, int, int]:
        """Smaller is better: pieces left out, then whole sheets, then how scattered what is left is."""
        return (len(self.left_out), self.opened, -sum((space.length * space.width) ** 2 for space in self.left))


#: How well a piece fits a free panel: from the panel's length and width and the piece's. The smallest wins.
Fit = Callable[[int, int, int, int], int]
FITS: Final[tuple[Fit, ...]] = (
    lambda length, width, long, wide: length * width - long * wide,
    lambda length, width, long, wide: min(length - long, width - wide),
    lambda length, width, long, wide: max(length - long, width - wide),
    lambda length, width, long, wide: width - wide or long - length,
    lambda length, width, long, wide: length - long or wide - width,
)

#: Whether to rip first, from what is left over along and across, and the piece's length and width.
Split = Callable[[int, int, int, int], bool]
SPLITS: Final[tuple[Split, ...]] = (
    lambda over_long, over_wide, long, wide: over_wide * long >= over_long * wide,
    lambda over_long, over_wide, long, wide: over_wide * long < over_long * wide,
    lambda over_long, over_wide, _long, _wide: over_wide >= over_long,
    lambda over_long, over_wide, _long, _wide: over_wide < over_long,
    lambda *_sizes: True,
    lambda *_sizes: False,
)


@dataclass(frozen=True, slots=True)
class Way:
    """How one try goes about it. ``first_rip`` None: whole sheets may be cut either way first."""

    fit: Fit
    split: Split
    first_rip: bool | None


def pack(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin | None, way: Way) -> Packing:
    """Lay ``items``, in their order, each in the free panel it fits best: ``bins`` on hand before whole sheets, of which there are any number.

    After each piece the panel it took is cut right across twice, so what comes out can always be sawn. A piece that fits
    nowhere is left out.
    """
    free = [Space(n, 0, 0, each.length, each.width, untouched=way.first_rip is not None) for n, each in enumerate(bins)]
    choosy = {n for n, each in enumerate(bins) if each.only_turnable}
    steps: list[Step] = []
    left_out: list[Item] = []
    opened = 0
    for item in items:
        best = _best(item, free, choosy, way.fit, len(bins))
        if best is None and sheet is not None:
            free.append(Space(len(bins) + opened, 0, 0, sheet.length, sheet.width, untouched=way.first_rip is not None))
            best = _best(item, free[-1:], choosy, way.fit, len(bins))
            if best is None:
                free.pop()
            else:
                opened += 1
        if best is None:
            left_out.append(item)
            continue
        space, turned = best
        free.remove(space)
        step = Step(space, item, turned, _rips_first(space, item, way, turned=turned))
        steps.append(step)
        free.extend(rest for rest in _rests(step) if rest.length > 0 and rest.width > 0)
    return Packing(tuple(steps), tuple(free), tuple(left_out), opened)


def _best(item: Item, free: Sequence[Space], choosy: set[int], fit: Fit, on_hand: int) -> tuple[Space, bool] | None:
    """The panel ``item`` fits best and whether it is turned for it; panels on hand come before those of whole sheets."""
    found: tuple[Space, bool] | None = None
    least: tuple[bool, int] | None = None
    ways = ((item.length, item.width, False), (item.width, item.length, True))
    for long, wide, turned in ways if item.turnable and item.length != item.width else ways[:1]:
        for space in free:
            if long <= space.length and wide <= space.width and (item.turnable or space.bin not in choosy):
                key = (space.bin >= on_hand, fit(space.length, space.width, long, wide))
                if least is None or key < least:
                    found, least = (space, turned), key
    return found


def _rips_first(space: Space, item: Item, way: Way, *, turned: bool) -> bool:
    if space.untouched and way.first_rip is not None:
        return way.first_rip
    long, wide = (item.width, item.length) if turned else (item.length, item.width)
    return way.split(space.length - long, space.width - wide, long, wide)


def _rests(step: Step) -> tuple[Space, Space]:
    """The two panels left of the one that ``step`` took a piece from; either may be empty."""
    space, item = step.space, step.item
    long, wide = (item.width, item.length) if step.turned else (item.length, item.width)
    beside = space._replace(across=space.across + wide, width=space.width - wide)
    beyond = space._replace(along=space.along + long, length=space.length - long)
    if step.rip_first:
        return beside, beyond._replace(width=wide, untouched=False)
    return beyond, beside._replace(length=long, untouched=False)
