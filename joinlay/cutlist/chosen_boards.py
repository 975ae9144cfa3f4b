"""Which of the boards that are there a wide solid part is glued up from: how many, how wide each, in which order (PN-1).

A part is divided evenly, into boards as wide as they are usually glued, where those can be had from the wood on hand. Where they
can't, its boards are as wide as what is there: the widest first, and no more of them than it takes.
"""

from __future__ import annotations

from itertools import pairwise, permutations
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.assembly.edge_joints import MORE_BOARDS, NARROWEST, joint_lines, joint_lines_between
from joinlay.cutlist.clear_wood import boards_there, clear_lengths
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.lengths import Fraction
from joinlay.records import dataclass
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList, Group, Row
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice

__all__ = ["Joints", "joints_in", "sawn_widths"]

#: The edge joints of wide parts, by the part's name, where the boards on hand decide them.
Joints = dict[str, tuple["Dimension", ...]]

#: Boards of different widths are tried in every order up to so many, then only the widest first and last.
_ORDERED: Final = 4


def sawn_widths(row: Row, lines: Sequence[Dimension], practice: Practice) -> list[Fraction]:
    """How wide in mm each board is sawn that a part of ``row`` is glued up from with joints at ``lines``, from its reference
    edge.

    Each joint takes an allowance to plane off both its boards; what is sawn over on a part's two edges stays on the outer ones
    (PN-1).
    """
    joint, outer = practice.length("edge joint allowance").mm, (row.sawn.width.mm - row.board.width.mm) / 2
    ends = [-outer, *(line.mm for line in lines), row.board.width.mm + outer]
    last = len(lines)
    return [high - low + joint * ((n > 0) + (n < last)) for n, (low, high) in enumerate(pairwise(ends))]


def joints_in(plan: Plan, parts: CuttingList | None = None) -> Joints:
    """The joints of those parts of ``plan`` whose boards are chosen from what is on hand; all others are divided evenly (PN-1).

    ``parts`` is its cutting list, where that is at hand. The largest part chooses first; parts that are alike are alike in their
    joints too, also where boards for some of them have to be bought.
    """
    found: Joints = {}
    if not plan.on_hand.boards:
        return found
    for group in (cutting_list(plan) if parts is None else parts).groups:
        if isinstance(group.stock, Solid) and group.thickness <= group.stock.thickness:
            found |= _in_group(plan, group, group.stock)
    return found


def _in_group(plan: Plan, group: Group, stock: Solid) -> Joints:
    """The chosen joints of the parts of one stock, the largest part first."""
    practice, kerf = plan.shop.practice, plan.shop.saw.kerf
    wide = [row for row in group.rows if joint_lines(row.board, practice)]
    there = boards_there(plan, stock) if wide else []
    if not there:
        return {}
    wood = _Wood(
        [(stop.mm - start.mm, board.width.mm) for board in there for start, stop in clear_lengths(board, kerf)[0]], kerf.mm
    )
    found: Joints = {}
    for row in sorted(wide, key=lambda row: (-row.sawn.length.mm * row.sawn.width.mm, row.number)):
        lines, wood = _best(row, wood, practice)
        if lines != joint_lines(row.board, practice):
            found |= dict.fromkeys(row.names, lines)
    return found


def _best(row: Row, wood: _Wood, practice: Practice) -> tuple[tuple[Dimension, ...], _Wood]:
    """The joints that leave the least of a row's parts to buy, of those the fewest; and what is left of the wood then."""
    tried = []
    for lines in (joint_lines(row.board, practice), *_from_there(row, wood, practice)):
        rest = _Wood(list(wood.pieces), wood.kerf)
        widths = sawn_widths(row, lines, practice) * row.quantity
        short = sum((width for width in sorted(widths, reverse=True) if not rest.cut(row.sawn.length.mm, width)), Fraction(0))
        tried.append((short, len(lines), lines, rest))
    _, _, lines, rest = min(tried, key=lambda one: one[:2])
    return lines, rest


def _from_there(row: Row, wood: _Wood, practice: Practice) -> Iterator[tuple[Dimension, ...]]:
    """Ways to divide the parts of a row into boards as wide as what is there; for all of the parts, or for as many as it does."""
    joint, outer = practice.length("edge joint allowance").mm, (row.sawn.width.mm - row.board.width.mm) / 2
    off, widest = joint + max(joint, outer), practice.length("widest board").mm
    whole = wood.widths(row.sawn.length.mm, widest + off)
    for parts in range(row.quantity, 0, -1):
        # Parts alike have boards alike, so of each width there must be one for every part.
        there = [width - off for width in whole[parts - 1 :: parts] if width - off >= NARROWEST.mm]
        if not there:
            continue
        least = list(_enough(there, row.board.width.mm, widest))
        # With a board more there is room to move joints out of the way of cuts.
        for more in range(MORE_BOARDS + 1):
            most = [*least, *there[len(least) : len(least) + more]]
            lines = _first(joint_lines_between(row.board, practice, order) for order in dict.fromkeys(_orders(most)))
            if lines is not None:
                yield lines
                break


def _first(found: Iterable[tuple[Dimension, ...] | None]) -> tuple[Dimension, ...] | None:
    return next((lines for lines in found if lines is not None), None)


def _enough(there: Sequence[Fraction], width: Fraction, widest: Fraction) -> Iterator[Fraction]:
    """The fewest of the widths that are ``there``, the widest first, that make ``width``; what is wanting is to be bought."""
    rest = width
    for one in there:
        if rest <= 0:
            return
        yield one
        rest -= one
    if rest > 0:
        count = ceil(rest / widest)
        yield from [max(rest / count, NARROWEST.mm)] * count


def _orders(most: list[Fraction]) -> Iterable[tuple[Fraction, ...]]:
    ranked = sorted(most, reverse=True)
    return permutations(ranked) if len(ranked) <= _ORDERED else (tuple(ranked), tuple(reversed(ranked)))


@dataclass(slots=True)
class _Wood:
    """What is there of a stock: ``pieces`` as length and width in mm, crosscut first and then ripped, with a ``kerf`` each."""

    pieces: list[tuple[Fraction, Fraction]]
    kerf: Fraction

    def cut(self, length: Fraction, width: Fraction) -> bool:
        """Cut one from the smallest piece that holds it, what is left of that being there afterwards; False where none does."""
        holding = [piece for piece in self.pieces if piece[0] >= length and piece[1] >= width]
        if not holding:
            return False
        piece = min(holding, key=lambda piece: (piece[1], piece[0]))
        self.pieces.remove(piece)
        rests = ((piece[0] - length - self.kerf, piece[1]), (length, piece[1] - width - self.kerf))
        self.pieces += [rest for rest in rests if min(rest) > 0]
        return True

    def widths(self, length: Fraction, most: Fraction) -> list[Fraction]:
        """How wide the boards are that so long ones can be had of, ``most`` at most, each as often as it can; the widest
        first.
        """
        found = []
        for long, wide in self.pieces:
            across = ceil((wide + self.kerf) / (most + self.kerf))
            each = (wide - self.kerf * (across - 1)) / across
            found += [each] * (across * int((long + self.kerf) / (length + self.kerf)))
        return sorted(found, reverse=True)
