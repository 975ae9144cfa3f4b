"""Blocks of words: lines stacked under each other or side by side, measured before they are placed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line
from joinlay.pen.marks import Text
from joinlay.pen.signs import HAND_SIZE, HandSign
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark

__all__ = ["Block", "beside", "hand_sign", "stacked"]

#: Between two lines of a block, from the lowest letter of one to the highest of the next, in mm.
LEAD: Final = Fraction(6, 5)


@dataclass(frozen=True, slots=True)
class Block:
    """Words that stay together, ``width`` by ``height`` in mm.

    ``lines`` are (right, up, line) from the block's lower left corner to each baseline; ``signs`` are (right, up, is left).
    """

    width: Fraction
    height: Fraction
    lines: tuple[tuple[Fraction, Fraction, Content], ...] = ()
    signs: tuple[tuple[Fraction, Fraction, bool], ...] = ()

    def marks(self, left: Fraction, bottom: Fraction) -> Iterator[Mark]:
        """The block's marks with its lower left corner at this point of the paper, in mm."""
        for right, up, is_left in self.signs:
            yield HandSign((left + right, bottom + up), is_left)
        for right, up, line in self.lines:
            yield Text((left + right, bottom + up), line)


def hand_sign(*, is_left: bool) -> Block:
    """A hand sign alone, for a part at the left, or at the right."""
    return Block(HAND_SIZE, HAND_SIZE, signs=((Fraction(0), Fraction(0), is_left),))


def stacked(parts: Sequence[Content | Block], lead: Fraction = LEAD) -> Block:
    """Lines and blocks under each other from the top, their left sides in line, with ``lead`` mm of white between them."""
    blocks = [part if isinstance(part, Block) else _of_line(part) for part in parts]
    high = sum((block.height for block in blocks), lead * (len(blocks) - 1))
    made = Block(max(block.width for block in blocks), high)
    top = high
    for block in blocks:
        made = _with(made, block, Fraction(0), top - block.height)
        top -= block.height + lead
    return made


def beside(one: Block, two: Block, gap: Fraction = Fraction(3)) -> Block:
    """Two blocks next to each other, ``gap`` mm apart, the lower of them half-way up the higher."""
    made = Block(one.width + gap + two.width, max(one.height, two.height))
    made = _with(made, one, Fraction(0), (made.height - one.height) / 2)
    return _with(made, two, one.width + gap, (made.height - two.height) / 2)


def _of_line(line: Content) -> Block:
    room = set_line(line)
    # A line that nothing hangs from is spaced like the others.
    fall = max(room.fall, room.rise / 5)
    return Block(room.width, room.rise + fall, ((Fraction(0), fall, line),))


def _with(into: Block, block: Block, right: Fraction, up: Fraction) -> Block:
    lines = tuple((x + right, y + up, line) for x, y, line in block.lines)
    signs = tuple((x + right, y + up, is_left) for x, y, is_left in block.signs)
    return Block(into.width, into.height, into.lines + lines, into.signs + signs)
