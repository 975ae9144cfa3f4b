"""Drawer fronts of one bank cut from one column of the sheet, top to bottom, so that the grain runs on from front to front (CL-2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.lengths import Fraction, Length

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.cutlist.pattern import Blank, Piece

__all__ = ["FRONT", "Stack", "stack_fronts"]

#: The kind of part that may be kept together.
FRONT = "drawer front"


@dataclass(frozen=True, slots=True)
class Stack:
    """Pieces cut one after the other from one column, a kerf between.

    ``across`` True: they lie above one another across the sheet, as fronts do whose grain runs from side to side; False: end to end,
    for fronts with upright grain. ``parted_from`` is the last piece before, where the column had to be broken.
    """

    pieces: tuple[Piece, ...]
    across: bool
    parted_from: str = ""

    def length(self, kerf: Length) -> Length:
        """How much of the sheet's length it takes."""
        sizes = [piece.length for piece in self.pieces]
        return max(sizes) if self.across else _end_to_end(sizes, kerf)

    def width(self, kerf: Length) -> Length:
        """How much of the sheet's width it takes."""
        sizes = [piece.width for piece in self.pieces]
        return _end_to_end(sizes, kerf) if self.across else max(sizes)


def stack_fronts(pieces: Sequence[Piece], boards: Mapping[str, Board], sheet: Blank, kerf: Length) -> tuple[Stack, ...]:
    """The columns to cut the fronts among ``pieces`` in, each no larger than a whole ``sheet``.

    ``boards`` are the boards by name; those of one bank stand above one another in the piece and come in that order, uppermost first. Pieces that
    are no fronts, may be turned, or stand alone in their bank are left to lie anywhere. A bank too tall for the sheet is broken
    where it must be. Source: common practice.
    """
    room = (sheet.length - 2 * sheet.trim, sheet.width - 2 * sheet.trim)
    stacks: list[Stack] = []
    for bank in _banks([piece for piece in pieces if boards[piece.name].part == FRONT and not piece.any_grain], boards):
        across = not _is_upright(boards[bank[0].name])
        stacks.extend(_broken(bank, room, kerf, across=across))
    return tuple(stack for stack in stacks if len(stack.pieces) > 1 or stack.parted_from)


def _banks(fronts: Sequence[Piece], boards: Mapping[str, Board]) -> list[list[Piece]]:
    """Fronts by the bank they stand in: equally long, and above one another; uppermost first."""
    banks: dict[tuple[object, ...], list[Piece]] = {}
    for front in fronts:
        place = boards[front.name].place
        key = (None,) if place is None else (place.origin[0], place.origin[1], _is_upright(boards[front.name]))
        banks.setdefault(key, []).append(front)
    return [sorted(bank, key=lambda front: -_height(boards[front.name])) for bank in banks.values()]


def _height(board: Board) -> Fraction:
    return board.place.origin[2] if board.place is not None else Fraction(0)


def _is_upright(board: Board) -> bool:
    """True where the grain of a front runs up and down in the piece."""
    return board.place is not None and abs(board.place.along[2]) > abs(board.place.along[0])


def _broken(bank: Sequence[Piece], room: tuple[Length, Length], kerf: Length, *, across: bool) -> list[Stack]:
    """The bank in as few columns as fit, filled from the top."""
    stacks: list[Stack] = []
    run: list[Piece] = []
    parted_from = ""
    for piece in bank:
        longer = Stack((*run, piece), across, parted_from)
        if run and (longer.length(kerf) > room[0] or longer.width(kerf) > room[1]):
            stacks.append(Stack(tuple(run), across, parted_from))
            parted_from, run = run[-1].name, []
        run.append(piece)
    return [*stacks, Stack(tuple(run), across, parted_from)]


def _end_to_end(sizes: Sequence[Length], kerf: Length) -> Length:
    return sum(sizes[1:], Length(sizes[0].mm)) + kerf * (len(sizes) - 1)
