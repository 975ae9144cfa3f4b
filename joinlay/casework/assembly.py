"""An assembly: boards that are put together as one thing, with the numbers and findings that belong to it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import DrawerRole, Hand, PartKind
from joinlay.lengths import NOTHING, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board, PartRole, Whole
    from joinlay.boards.meeting import Meeting, Tie
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension

__all__ = ["Assembly", "Drawer"]


@dataclass(frozen=True, slots=True)
class Assembly:
    """Boards put together: the case, the face frame, one drawer ...: ``of`` says which.

    ``boards`` are placed. ``meetings`` are where they meet each other, and what was there before them: runners the case, drawers
    the runners. ``dimensions`` are the named numbers worth asking for beside those on the boards (clearances, spacings), in the
    order they are worked out. ``findings`` name the assembly in their place.
    """

    of: Whole | DrawerRole
    boards: tuple[Board, ...]
    meetings: tuple[Meeting, ...] = ()
    dimensions: tuple[Dimension, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def name(self) -> str:
        """For people: ``case``, ``face frame``, ``drawer 3`` ..."""
        return self.of.name if isinstance(self.of, DrawerRole) else self.of.value

    def part(self, role: PartRole) -> Board:
        """The board of this ``role``; KeyError where there is none."""
        for board in self.boards:
            if board.role == role:
                return board
        raise KeyError(f"{self.name} has no {role.name}")

    def of_kind(self, *kinds: PartKind) -> tuple[Board, ...]:
        """Its boards of these kinds, in their order."""
        return tuple(board for board in self.boards if board.role.kind in kinds)

    def board(self, part: str) -> Board:
        """The board called ``part`` in this assembly (``left side`` for ``drawer 3 left side``); KeyError where there is none."""
        for board in self.boards:
            if board.role.short == part:
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
    def side_room(self) -> Dimension:
        """Its clearance at each side once it is fitted: what is planed off one made full included (DR-1, HF-1)."""
        return self.side_clearance if self.make.planed is None else self.side_clearance + self.make.planed.sides

    @property
    def top_room(self) -> Dimension:
        """The same over its top (DR-1, HF-1)."""
        return self.top_clearance if self.make.planed is None else self.top_clearance + self.make.planed.top

    @property
    def name(self) -> str:
        """``drawer 3``."""
        return self.assembly.name

    @property
    def role(self) -> DrawerRole:
        """Which drawer it is."""
        assert isinstance(self.assembly.of, DrawerRole)
        return self.assembly.of

    @property
    def front(self) -> Board:
        """The board a hand pulls at."""
        return self._one(PartKind.DRAWER_FRONT)

    @property
    def back(self) -> Board:
        """The board between the sides at the rear."""
        return self._one(PartKind.DRAWER_BACK)

    @property
    def bottom(self) -> Board:
        """The panel in the grooves; of two halves beside a bar, which are alike, the left one."""
        return self.bottoms[0]

    @property
    def bottoms(self) -> tuple[Board, ...]:
        """The panel in the grooves, or its left and right half beside a bar (BO-1)."""
        return self.assembly.of_kind(PartKind.DRAWER_BOTTOM)

    @property
    def bar(self) -> Board | None:
        """The grooved bar down the middle of its bottom; None where it has none (BO-1)."""
        return next(iter(self.assembly.of_kind(PartKind.BOTTOM_BAR)), None)

    def side(self, hand: Hand) -> Board:
        """The side at this ``hand``: left or right."""
        return self._one(PartKind.DRAWER_SIDE, hand)

    @property
    def sides(self) -> tuple[Board, Board]:
        """Left and right side."""
        return self.side(Hand.LEFT), self.side(Hand.RIGHT)

    def _one(self, kind: PartKind, hand: Hand | None = None) -> Board:
        """Asked often, so it looks no further than it must."""
        for board in self.assembly.boards:
            if board.role.kind is kind and board.role.hand is hand:
                return board
        raise KeyError(f"{self.name} has no {kind.value}")

    def tied(self, *ties: Tie) -> tuple[Meeting, ...]:
        """Where its parts meet something held, or left free, in one of these ways."""
        return tuple(met for met in self.assembly.meetings if met.tie in ties)

    def board(self, part: str) -> Board:
        """The board called ``part``: ``front``, ``left side``, ``right side``, ``back``, ``bottom``; KeyError where there is
        none.
        """
        return self.assembly.board(part)

    @property
    def corner(self) -> tuple[Length, Length]:
        """The left of its opening and the level it rides on, in X and Z, as it is placed (DR-1, DR-2)."""
        place = self.front.place
        assert place is not None
        return Length(place.origin[0]) - self.side_clearance, Length(place.origin[2]) - self.bottom_clearance

    @property
    def by_itself(self) -> Drawer:
        """The same with its own zero, wherever it is placed."""
        left, floor = self.corner
        return self.moved(-left, NOTHING, -floor)

    def moved(self, x: Length, y: Length, z: Length) -> Drawer:
        """The same drawer with every board shifted in the piece: right, back, up."""
        boards = tuple(board.moved(x, y, z) for board in self.assembly.boards)
        return replace(self, assembly=replace(self.assembly, boards=boards))
