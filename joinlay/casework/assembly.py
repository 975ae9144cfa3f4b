"""An assembly: boards that are put together as one thing, with the numbers and findings that belong to it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Length

__all__ = ["Assembly", "Drawer"]


@dataclass(frozen=True, slots=True)
class Assembly:
    """Boards put together: ``case``, ``face frame``, ``drawer 3`` ...

    ``boards`` are placed. ``dimensions`` are the named numbers worth asking for beside those on the boards (clearances, spacings),
    in the order they are worked out. ``findings`` name the assembly in their place.
    """

    name: str
    boards: tuple[Board, ...]
    dimensions: tuple[Dimension, ...] = ()
    findings: tuple[Finding, ...] = ()

    def board(self, part: str) -> Board:
        """The board called ``part`` in this assembly (``left side`` for ``drawer 3 left side``); KeyError where there is none."""
        wanted = f"{self.name} {part}"
        for board in self.boards:
            if board.name == wanted:
                return board
        raise KeyError(f"{self.name} has no {part}")


@dataclass(frozen=True, slots=True)
class Drawer:
    """A drawer, placed closed in its opening.

    Its own zero: X at the left of the opening, Y at the face of the frame (to the back), Z at the bearer the sides ride on.
    ``length`` is front included (DR-5). Clearances are at each side, the top, and under the front (DR-1, DR-2). ``taper`` is in
    all, over the length of the side (DR-4). ``inside_width`` is between the sides at the front.
    """

    assembly: Assembly
    opening: Opening
    make: DrawerMake
    length: Dimension
    inside_width: Dimension
    side_clearance: Dimension
    top_clearance: Dimension
    bottom_clearance: Dimension
    taper: Dimension

    @property
    def name(self) -> str:
        """``drawer 3``."""
        return self.assembly.name

    def board(self, part: str) -> Board:
        """The board called ``part``: ``front``, ``left side``, ``right side``, ``back``, ``bottom``; KeyError where there is none."""
        return self.assembly.board(part)

    def moved(self, x: Length, y: Length, z: Length) -> Drawer:
        """The same drawer with every board shifted in the piece: right, back, up."""
        boards = tuple(board.moved(x, y, z) for board in self.assembly.boards)
        return replace(self, assembly=replace(self.assembly, boards=boards))
