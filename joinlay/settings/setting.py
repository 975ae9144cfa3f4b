"""A card as data: everything a maker sets before a run, which parts go through it, and what is banded before it (MS-1, EB-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.records import dataclass
from joinlay.settings.feeding import feeding_of

if TYPE_CHECKING:
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.settings.caution import Caution
    from joinlay.settings.elements import Adjustment, Guide, Pass, Role, Tool, Work
    from joinlay.settings.feeding import Feeding
    from joinlay.settings.figures import Reading, TestPiece
    from joinlay.shop import MachineKind

__all__ = ["BandsFirst", "Setting", "SettingsList"]


@dataclass(frozen=True, slots=True)
class Setting:
    """One card: machine, cutter, fence and height, and every part that goes through them the same way (MS-1, MS-3).

    ``number`` is its place in the order, ``set_up`` the count of set-ups when it begins (the same as the card before where
    nothing need be touched), ``set_ups`` how many it takes itself: one for each time that cutter, fence or height is set, none
    where all stands already. ``passes`` are in the order to cut them, which is the guide's: ``feeding`` says why (MS-6).
    ``offset`` is from the straightedge to the near side of the cutter. ``speed`` in revolutions a minute, None where the machine
    has its own. ``reason`` says why this machine.
    """

    number: int
    set_up: int
    set_ups: int
    machine: MachineKind
    guide: Guide
    tool: Tool
    role: Role
    passes: tuple[Pass, ...]
    works: tuple[Work, ...]
    joints: tuple[str, ...]
    changes: tuple[Adjustment, ...]
    offset: Dimension | None
    speed: int | None
    test_piece: TestPiece
    readings: tuple[Reading, ...]
    cautions: tuple[Caution, ...]
    reason: Finding

    @property
    def near_side(self) -> Dimension:
        """Fence to the near side of the cutter on the pass nearest to it."""
        return min(each.near_side for each in self.passes)

    @property
    def centre(self) -> Dimension:
        """Fence to the centre of the cutter on the pass nearest to it."""
        return (self.near_side + self.tool.width / 2).named("fence to the centre of the cutter", "MS-1", "by geometry")

    @property
    def far_side(self) -> Dimension:
        """Fence to the far side of the cutter on the pass farthest from it."""
        return (max(each.near_side for each in self.passes) + self.tool.width).named(
            "fence to the far side of the cutter", "MS-1", "by geometry"
        )

    @property
    def height(self) -> Dimension:
        """The full height or depth of cut, on the last pass."""
        return self.passes[-1].height

    @property
    def fences(self) -> tuple[Dimension, ...]:
        """The fence positions of the passes, each once, in order (near sides)."""
        return tuple(dict.fromkeys(each.near_side for each in self.passes))

    @property
    def heights(self) -> tuple[Dimension, ...]:
        """The heights of the passes, each once, in order."""
        return tuple(dict.fromkeys(each.height for each in self.passes))

    @property
    def lines(self) -> tuple[Dimension, ...]:
        """The pencil lines its cuts lie on, from the surface they are gauged from, each once; none where a fence keeps them."""
        marked = (position.line for work in self.works for position in work.positions)
        return tuple(dict.fromkeys(line for line in marked if line is not None))

    @property
    def feeding(self) -> Feeding | None:
        """Which way it is fed, by its guide; None for what goes straight in, and for hand tools (MS-6)."""
        return feeding_of(self.machine, self.guide)

    @property
    def count(self) -> int:
        """How many times a part goes through this setting."""
        return sum(work.count for work in self.works)

    @property
    def cut_names(self) -> tuple[str, ...]:
        """The names of its cuts, each once."""
        return tuple(dict.fromkeys(name for work in self.works for name in work.cuts))

    @property
    def board_names(self) -> tuple[str, ...]:
        """The names of its parts, each once."""
        return tuple(dict.fromkeys(name for work in self.works for name in work.boards))


@dataclass(frozen=True, slots=True)
class BandsFirst:
    """Bands to be glued and trimmed before the card ``number``.

    ``boards`` are the parts' names, ``edges`` the maker's words for what is banded, in the order of gluing. ``is_lipping``: solid
    wood (EB-4).
    """

    number: int
    boards: tuple[str, ...]
    edges: tuple[str, ...]
    is_lipping: bool = False


@dataclass(frozen=True, slots=True)
class SettingsList:
    """All settings of a job, in the order to cut them.

    ``findings`` are the choice's, cut by cut; ``remarks`` what is good to know at a card, or of a joint that one set-up cuts.
    ``set_ups`` counts how often cutter, fence or height is set in this order (those of the settings taken together),
    ``naive_set_ups`` how often it would be taking the parts one after another and their cuts as planned. ``first_then`` are pairs
    of setting numbers: the first must come before the second. ``bands`` are what has to be banded before a setting. ``is_proved``
    is True where the order is known to be the best; a job so large that the search was cut short says False.
    """

    settings: tuple[Setting, ...]
    findings: tuple[Finding, ...]
    remarks: tuple[Finding, ...]
    set_ups: int
    naive_set_ups: int
    cutter_changes: int
    first_then: tuple[tuple[int, int], ...]
    bands: tuple[BandsFirst, ...]
    is_proved: bool
