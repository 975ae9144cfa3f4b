"""A machine setting as data: everything a maker sets before a run, and which parts go through it (MS-1).

No sentence stands here: enumerations carry the trade's words, ``wording`` makes sentences of them.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from joinlay.boards import Surface
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.settings.caution import Caution
    from joinlay.settings.reading import Reading
    from joinlay.settings.test_piece import TestPiece
    from joinlay.shop import MachineKind

__all__ = ["Change", "Guide", "Pass", "Position", "Role", "Setting", "SettingsList", "Stops", "Tool", "ToolKind", "Work"]


class Guide(Enum):
    """What keeps the cut in its line."""

    FENCE = "fence"
    EDGE_GUIDE = "edge guide"  #: on a hand-held router, running along an edge or end of the work
    STRAIGHTEDGE = "straightedge"  #: clamped to the work; the router's base runs along it
    CENTRE_LINE = "centre line"  #: a pencil line the machine's centre mark is held to
    GAUGED_LINE = "gauged line"  #: a line scribed on the work, sawn or pared to


class ToolKind(Enum):
    """What takes the wood away."""

    CUTTER = "straight cutter"
    DADO_SET = "dado set"
    BLADE = "saw blade"
    MORTISE_CUTTER = "mortise cutter"
    BIT = "drill bit"
    HAND_SAW = "hand saw and chisel"


class Role(Enum):
    """What the cut is to the wood beside it, and so what the fence and the height decide."""

    CHANNEL = "channel"  #: two walls: the fence sets its place, a last pass its width, the height its depth
    TONGUE = "tongue"  #: the wood between fence and cutter stays: the fence sets its thickness, the height its length
    STEP = "step"  #: cut away from the fence side, the cutter partly in the fence: the fence sets its width
    MORTISE = "mortise"
    HOLE = "hole"


class Change(Enum):
    """What has to be touched on the machine before a setting."""

    CUTTER = "cutter"
    FENCE = "fence"
    HEIGHT = "height"


@dataclass(frozen=True, slots=True)
class Tool:
    """A cutter, blade or bit: ``width`` of its cut, and ``reach``, the deepest it goes (None where nothing says)."""

    kind: ToolKind
    width: Dimension
    reach: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass: ``near_side`` from the fence (or the surface measured from) to the near side of the cutter, ``height`` its depth of cut.

    ``near_side`` is negative where the cutter stands partly in the fence. ``guide`` is where the straightedge is clamped, from the
    same surface; None without one.
    """

    near_side: Dimension
    height: Dimension
    guide: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Stops:
    """Where a stopped cut begins and ends, both from the surface that goes first, ``leading``.

    ``begin`` and ``finish`` are None where the cut runs in or out at the edge of the work. On a table ``infeed_stop`` is from the
    far side of the cutter (the side away from the stop) to the block the *trailing* surface rests on at the start, ``outfeed_stop`` from the
    far side of the cutter to the block the *leading* surface meets at the end.
    """

    leading: Surface
    leading_word: str
    begin: Dimension | None
    finish: Dimension | None
    infeed_stop: Dimension | None
    outfeed_stop: Dimension | None


@dataclass(frozen=True, slots=True)
class Position:
    """A mortise or hole on its line: ``centre`` from the board's reference, ``width`` along the line.

    ``line`` is where the line lies, from the surface it is gauged from, for what is cut to a pencil line; None where a fence keeps it.
    """

    centre: Dimension
    width: Dimension
    line: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Work:
    """Parts that go through a setting the same way round.

    ``boards`` and ``cuts`` are names, paired by place. ``entry`` is the surface the cutter comes in at: down on a table or saw, up under a
    hand-held router. ``fence`` is the surface against the fence, or from which the guide is measured. The ``..._word`` fields are
    the maker's words for them. ``positions`` are of mortises and holes, from ``positions_from``. ``squared`` is True where the plan's cut
    stops square, so that the round ends the cutter leaves are to be chopped square.
    """

    boards: tuple[str, ...]
    cuts: tuple[str, ...]
    entry: Surface
    fence: Surface
    entry_word: str
    fence_word: str
    stops: Stops | None = None
    positions: tuple[Position, ...] = ()
    positions_from: str = ""
    squared: bool = False

    @property
    def count(self) -> int:
        """How many times a part goes through."""
        return len(self.boards)


@dataclass(frozen=True, slots=True)
class Setting:
    """One card: machine, cutter, fence and height, and every part that goes through them the same way (MS-1, MS-3).

    ``number`` is its place in the order, ``set_up`` the count of set-ups when it begins (the same as the card before where nothing need be
    touched). ``passes`` are in order, the wall nearest the fence first (DA-5). ``offset`` is from the straightedge to the near side of the
    cutter. ``speed`` in revolutions a minute, None where the machine has its own. ``reason`` says why this machine.
    """

    number: int
    set_up: int
    machine: MachineKind
    guide: Guide
    tool: Tool
    role: Role
    passes: tuple[Pass, ...]
    works: tuple[Work, ...]
    joints: tuple[str, ...]
    changes: tuple[Change, ...]
    offset: Dimension | None
    speed: int | None
    test_piece: TestPiece
    readings: tuple[Reading, ...]
    cautions: tuple[Caution, ...]
    reason: Finding

    @property
    def near_side(self) -> Dimension:
        """Fence to the near side of the cutter on the first pass."""
        return self.passes[0].near_side

    @property
    def centre(self) -> Dimension:
        """Fence to the centre of the cutter on the first pass."""
        return (self.near_side + self.tool.width / 2).named("fence to the centre of the cutter", "MS-1", "by geometry")

    @property
    def far_side(self) -> Dimension:
        """Fence to the far side of the cutter on the last pass."""
        return (self.passes[-1].near_side + self.tool.width).named("fence to the far side of the cutter", "MS-1", "by geometry")

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
class SettingsList:
    """All settings of a job, in the order to cut them.

    ``set_ups`` counts how often cutter, fence or height is set in this order, ``naive_set_ups`` how often it would be taking the parts one
    after another and their cuts as planned. ``first_then`` are pairs of setting numbers: the first must come before the second.
    ``is_proved`` is True where the order is known to be the best; a job so large that the search was cut short says False.
    """

    settings: tuple[Setting, ...]
    findings: tuple[Finding, ...]
    set_ups: int
    naive_set_ups: int
    cutter_changes: int
    first_then: tuple[tuple[int, int], ...]
    is_proved: bool
