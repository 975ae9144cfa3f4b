"""Left and right on one paper: what is drawn for one hand, turned over with the print down, is the other's (PR-11).

A template that is turned over about its own upright zero, the end or the fold, swaps left and right and leaves heights as they
are. Its marks are pricked through, so they are as true on the back as on the front; its words are read before it is turned.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final, TypeVar

from joinlay.boards import Hand
from joinlay.pen.blocks import beside, hand_sign, stacked
from joinlay.pen.lettering import words
from joinlay.records import dataclass
from joinlay.templates.template import SMALL, WORD

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence

    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content

__all__ = ["TURNED_OVER", "TurnedOver", "both_ways", "turned_block"]

#: What stands over the parts that are marked from the back of a paper.
TURNED_OVER: Final = "turned over, print down:"

_Drawn = TypeVar("_Drawn")


@dataclass(frozen=True, slots=True)
class TurnedOver:
    """The parts marked with the paper turned over: their ``names``, the maker's word for their ``end``, and their hand, if any.

    ``end`` is '' where it goes without saying: it is the one that is printed, or the names tell it.
    """

    names: tuple[str, ...]
    end: str = ""
    hand: Hand | None = None


def both_ways(
    groups: Iterable[list[_Drawn]],
    side: Callable[[_Drawn], int],
    likeness: Callable[[_Drawn], Hashable],
    called: Callable[[_Drawn], Hashable] = lambda _: None,
) -> Iterator[tuple[list[_Drawn], list[_Drawn]]]:
    """Each of ``groups`` with the one that is its mirror image, or with none: (as printed, turned over), in the order given.

    The things of one group are drawn alike. ``side`` is 1 or -1, the way they are drawn; of two groups that are alike by
    ``likeness``, which leaves the side out, and drawn on opposite sides each is the other turned over. Of several the first that
    is also ``called`` the same is taken, else the first.
    """
    waiting = list(groups)
    while waiting:
        first = waiting.pop(0)
        wanted, at = likeness(first[0]), side(first[0])
        others = [n for n, one in enumerate(waiting) if side(one[0]) == -at and likeness(one[0]) == wanted]
        others.sort(key=lambda n: called(waiting[n][0]) != called(first[0]))
        yield first, waiting.pop(others[0]) if others else []


def turned_block(turned: TurnedOver, lines: Sequence[str], count: int = 0) -> Block:
    """What a paper says of the parts it marks when it is turned over: their hand, names, end, and how many where ``count`` is not
    0.

    ``lines`` are their names, as they are to be set.
    """
    said = [words(line, WORD, bold=True) for line in lines]
    what = [*([turned.end.upper()] if turned.end else []), *([f"make {count}"] if count else [])]
    if what:
        said.append(words("   ".join(what), WORD, bold=True))
    told: list[Content | Block] = [*said]
    if turned.hand:
        # The sign stands beside the names alone, so that the block is no wider than it must be.
        told = [beside(hand_sign(is_left=turned.hand is Hand.LEFT), stacked(said))]
    return stacked([words(TURNED_OVER, SMALL), *told])
