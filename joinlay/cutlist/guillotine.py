"""Laying rectangles into rectangles with cuts that go right across: the plain, whole-number heart of the layouts.

The problem: a saw cuts a panel from edge to edge, so a piece can be freed only if every cut beside it runs right across what is
left of the sheet.

How it works: pieces are taken in the order they are given. Each goes into the near corner of the free panel that it fits best,
offcuts before whole sheets; two cuts right across then part that panel into the piece and two smaller free panels. Which panel
fits best and which of the two cuts comes first is a Way, one of a few rules of thumb; ``search`` tries many orders and many
ways. So whatever comes out can be sawn, by the way it is made.

The kerf: every size has one kerf added to each of its sides' lengths, pieces and sheets alike, so pieces may touch (a piece
w + k by h + k in a sheet W + k by H + k). Units are whatever makes every length a whole number. ``length`` is with the
grain, ``width`` across it.

What it costs: for each piece a look at every free panel that is still large enough for some piece, so about the square of the
number of pieces at worst; a hundred pieces take about a thousandth of a second.

What it can't do: it never takes a piece back, never joins two free panels that lie side by side, and frees each piece with two
cuts, at the piece's own sizes. Some layouts that a saw could make are out of its reach; ``blocks`` reaches more of them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Final, NamedTuple

from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["FITS", "SPLITS", "Bin", "Item", "Laying", "Manner", "Packing", "Space", "pack", "rests_of"]


class Item(NamedTuple):
    """A piece to lay: its ``number`` among the pieces, its sizes, and whether it may be turned a quarter."""

    number: int
    length: int
    width: int
    turnable: bool


class Bin(NamedTuple):
    """A sheet or offcut to lay pieces in; ``only_turnable``: its grain isn't known, so pieces must be turnable."""

    length: int
    width: int
    only_turnable: bool = False


class Space(NamedTuple):
    """A free panel of bin ``bin``, its corner at ``along``, ``across``; ``untouched``: only cuts of the first kind made it."""

    bin: int
    along: int
    across: int
    length: int
    width: int
    untouched: bool


class Laying(NamedTuple):
    """``item`` laid in the near corner of ``space``; with ``rip_first`` the panel is ripped to its width first, else crosscut."""

    space: Space
    item: Item
    turned: bool
    rip_first: bool


@dataclass(frozen=True, slots=True)
class Packing:
    """What came of one try.

    ``steps`` are in the order of laying, ``left`` the free panels, also those of bins that were not used, ``left_out`` the pieces
    that found no room, ``opened`` the number of whole sheets. ``blocks`` free panels in which several pieces were laid together:
    their items are no pieces, and have negative numbers.
    """

    steps: tuple[Laying, ...]
    left: tuple[Space, ...]
    left_out: tuple[Item, ...]
    opened: int
    blocks: tuple[Laying, ...] = ()

    @property
    def merit(self) -> tuple[int, int, int]:
        """Smaller is better: how much is left out, then whole sheets, then how scattered what is left is."""
        out = sum(item.length * item.width for item in self.left_out)
        return (out, self.opened, -sum((space.length * space.width) ** 2 for space in self.left))


#: Makes a tuple of a kind as it is, in half the time; millions of panels come and go in a search.
_new = tuple.__new__

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
class Manner:
    """How one try goes about it. ``first_rip`` None: whole sheets may be cut either way first."""

    fit: Fit
    split: Split
    first_rip: bool | None


def pack(items: Sequence[Item], bins: Sequence[Bin], sheet: Bin | None, way: Manner, most: int | None = None) -> Packing:
    """Lay ``items``, in their order, each where ``way`` says it fits best: ``bins`` on hand before whole sheets.

    ``sheet`` is a whole sheet, None where there are none to be had; there are ``most`` of them, None for any number. After each
    piece the panel it took is cut right across twice, so what comes out can always be sawn. A piece that fits nowhere is left
    out.
    """
    work = _Packer(bins, sheet, way, most, _least(items))
    left_out = tuple(item for item in items if not work.lay(item))
    return Packing(tuple(work.steps), (*work.free, *work.scraps), left_out, work.opened)


def _least(items: Sequence[Item]) -> tuple[int, int]:
    """The shortest length and the least width that any piece can take up; a panel smaller than that either way is a scrap."""
    long = min((min(item.length, item.width) if item.turnable else item.length for item in items), default=0)
    wide = min((min(item.length, item.width) if item.turnable else item.width for item in items), default=0)
    return long, wide


class _Packer:
    """Panels as they are taken and cut. Kept apart: those that may still take a piece, and scraps."""

    __slots__ = ("_choosy", "_least", "_most", "_on_hand", "_sheet", "_way", "free", "opened", "scraps", "steps")

    def __init__(self, bins: Sequence[Bin], sheet: Bin | None, way: Manner, most: int | None, least: tuple[int, int]) -> None:
        first = way.first_rip is not None
        self.free = [Space(n, 0, 0, each.length, each.width, untouched=first) for n, each in enumerate(bins)]
        self.steps: list[Laying] = []
        self.scraps: list[Space] = []
        self.opened = 0
        self._choosy = {n for n, each in enumerate(bins) if each.only_turnable}
        self._on_hand, self._sheet, self._way, self._most, self._least = len(bins), sheet, way, most, least

    def lay(self, item: Item) -> bool:
        """Lay ``item`` where it fits best; False where it fits nowhere."""
        found = self._best(item, self.free) or self._on_new_sheet(item)
        if found is None:
            return False
        space, turned = found
        self.free.remove(space)
        step = _new(Laying, (space, item, turned, _rips_first(space, item, self._way, turned=turned)))
        self.steps.append(step)
        least_long, least_wide = self._least
        for rest in rests_of(step):
            _, _, _, length, width, _ = rest
            if length > 0 and width > 0:
                (self.scraps if length < least_long or width < least_wide else self.free).append(rest)
        return True

    def _best_on_sheets(self, item: Item, free: Sequence[Space]) -> tuple[Space, bool] | None:
        """The same for the usual case, a piece with grain and nothing but whole sheets, which most of the time is spent on."""
        _, long, wide, _ = item
        fit, found, least = self._way.fit, None, 0
        for space in free:
            _, _, _, length, width, _ = space
            if long <= length and wide <= width:
                key = fit(length, width, long, wide)
                if found is None or key < least:
                    found, least = space, key
        return None if found is None else (found, False)

    def _on_new_sheet(self, item: Item) -> tuple[Space, bool] | None:
        sheet = self._sheet
        if sheet is None or self.opened == self._most:
            return None
        space = Space(self._on_hand + self.opened, 0, 0, sheet.length, sheet.width, untouched=self._way.first_rip is not None)
        found = self._best(item, [space])
        if found is not None:
            self.free.append(space)
            self.opened += 1
        return found

    def _best(self, item: Item, free: Sequence[Space]) -> tuple[Space, bool] | None:
        """The panel ``item`` fits best and whether it is turned for it; panels on hand come before those of whole sheets."""
        if not item.turnable and not self._on_hand:
            return self._best_on_sheets(item, free)
        found: tuple[Space, bool] | None = None
        least: tuple[bool, int] | None = None
        fit, on_hand, choosy = self._way.fit, self._on_hand, self._choosy
        ways = ((item.length, item.width, False), (item.width, item.length, True))
        for long, wide, turned in ways if item.turnable and item.length != item.width else ways[:1]:
            for space in free:
                number, _, _, length, width, _ = space
                if long <= length and wide <= width and (item.turnable or number not in choosy):
                    key = (number >= on_hand, fit(length, width, long, wide))
                    if least is None or key < least:
                        found, least = (space, turned), key
        return found


def _rips_first(space: Space, item: Item, way: Manner, *, turned: bool) -> bool:
    if space.untouched and way.first_rip is not None:
        return way.first_rip
    long, wide = (item.width, item.length) if turned else (item.length, item.width)
    return way.split(space.length - long, space.width - wide, long, wide)


def rests_of(step: Laying) -> tuple[Space, Space]:
    """The two panels left of the one that ``step`` took a piece from: what its first cut took off, then its second; either may
    be empty.
    """
    (number, along, across, length, width, untouched), item, turned, rip_first = step
    _, long, wide, _ = item
    if turned:
        long, wide = wide, long
    if rip_first:
        return (
            _new(Space, (number, along, across + wide, length, width - wide, untouched)),
            _new(Space, (number, along + long, across, length - long, wide, False)),
        )
    return (
        _new(Space, (number, along + long, across, length - long, width, untouched)),
        _new(Space, (number, along, across + wide, long, width - wide, False)),
    )
