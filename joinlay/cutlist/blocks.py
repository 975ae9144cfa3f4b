"""Pieces joined into blocks before they are laid, so that a cut may run at the sum of two sizes: a third stage of cuts.

The problem: ``guillotine`` cuts a panel only as wide, or as long, as the one piece it lays there. A strip that is to be as wide
as two pieces one above the other, with a third beside them that is narrower than both, can't come about so: rip, crosscut, rip.

How it works: two pieces side by side are one larger item with a little waste where they differ; two such blocks may be joined
again. They are laid like pieces, and each block is then parted: it becomes a panel of its own, which one cut parts into its two
halves. Which are joined is left to chance, best matches first.

What it costs: for each block a look at every other item. What it can't do: a block keeps its halves together, so most tries come
to nothing; they are made where everything else has not met the bound.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from joinlay.cutlist.guillotine import Item, Laying, Packing, Space, rests_of

if TYPE_CHECKING:
    from collections.abc import Sequence
    from random import Random

    from joinlay.cutlist.guillotine import Bin

__all__ = ["Blocks", "joined"]


class _Block(NamedTuple):
    """Two items side by side: ``far`` beyond ``near`` across the sheet (``across``), or along it; each may be turned for it."""

    near: Item
    far: Item
    across: bool
    near_turned: bool
    far_turned: bool


class Blocks(dict[int, _Block]):
    """Blocks by the numbers of their items, all of them negative."""

    def parted(self, packing: Packing, *, first_rip: bool | None) -> Packing | None:
        """``packing`` with every block laid as its two halves; None where that would put another cut before the first of a whole
        sheet.

        ``first_rip`` is how whole sheets are cut first; None: either way. Source: by geometry.
        """
        if not self:
            return packing
        steps: list[Laying] = []
        freed: list[Laying] = []
        left = list(packing.left)
        todo = list(reversed(packing.steps))
        while todo:
            step = todo.pop()
            block = self.get(step.item.number)
            if block is None:
                steps.append(step)
                continue
            space, panel = step.space, _panel(step)
            fills = (panel.length, panel.width) == (space.length, space.width)
            if space.untouched and first_rip is not None:
                own = block.across if fills else first_rip if _is_cut(step, is_rip=first_rip) else not first_rip
                if own is not first_rip:
                    return None
            if fills:
                panel = space
            else:
                freed.append(step)
            near = Laying(panel, block.near, block.near_turned, block.across)
            # The first of what the first cut leaves is all of the panel on its far side.
            beside, beyond = rests_of(near)
            far = Laying(beside, block.far, block.far_turned, block.across)
            left += [rest for rest in (beyond, *rests_of(far)) if rest.length > 0 and rest.width > 0]
            todo += [far, near]
        return Packing(tuple(steps), tuple(left), tuple(self.pieces(packing.left_out)), packing.opened, tuple(freed))

    def pieces(self, items: Sequence[Item]) -> list[Item]:
        """The pieces of ``items``, those of blocks one by one."""
        found, todo = [], list(reversed(items))
        while todo:
            item = todo.pop()
            block = self.get(item.number)
            if block is None:
                found.append(item)
            else:
                todo += [block.far, block.near]
        return found


def _panel(step: Laying) -> Space:
    """What ``step`` frees for its block."""
    return step.space._replace(length=step.item.length, width=step.item.width, untouched=False)


def _is_cut(step: Laying, *, is_rip: bool) -> bool:
    """True where a cut of that kind frees the item of ``step``."""
    return step.item.width < step.space.width if is_rip else step.item.length < step.space.length


#: How many blocks are joined in a try, at most, and among how many of the best matches one is picked.
_MOST, _PICKED = 4, 3


def joined(items: Sequence[Item], sheet: Bin, chance: Random) -> tuple[list[Item], Blocks]:
    """``items`` with one to a few pairs joined into blocks that go on ``sheet``, picked by ``chance``; and the blocks."""
    pool, blocks = list(items), Blocks()
    for _ in range(1 + chance.randrange(_MOST)):
        if len(pool) < 2:
            break
        one = pool.pop(chance.randrange(len(pool)))
        across = bool(chance.randrange(2))
        matches = sorted(
            (match for n, other in enumerate(pool) for match in _matches(one, other, n, sheet, across=across)),
            key=lambda match: match[0],
        )[:_PICKED]
        if not matches:
            pool.append(one)
            continue
        _, n, item, block = matches[chance.randrange(len(matches))]
        pool.pop(n)
        number = -1 - len(blocks)
        blocks[number] = block
        pool.append(item._replace(number=number))
    return pool, blocks


def _stood(item: Item) -> tuple[tuple[int, int, bool], ...]:
    as_it_is = (item.length, item.width, False)
    return (as_it_is, (item.width, item.length, True)) if item.turnable and item.number >= 0 else (as_it_is,)


def _matches(one: Item, other: Item, n: int, sheet: Bin, *, across: bool) -> list[tuple[int, int, Item, _Block]]:
    """The ways to join the two, each with what it wastes; none where they are too large for the sheet together."""
    found = []
    for long, wide, turned in _stood(one):
        for far_long, far_wide, far_turned in _stood(other):
            length = max(long, far_long) if across else long + far_long
            width = wide + far_wide if across else max(wide, far_wide)
            if length <= sheet.length and width <= sheet.width:
                waste = length * width - long * wide - far_long * far_wide
                found.append((waste, n, Item(0, length, width, turnable=False), _Block(one, other, across, turned, far_turned)))
    return found
