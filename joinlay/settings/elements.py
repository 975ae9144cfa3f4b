"""What a setting is made of: guide, tool, passes, stops and how the parts lie. The bottom of this floor; nothing here asks how or
why.

No sentence stands here: enumerations carry the trade's words, ``wording`` makes sentences of them.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards import CutUse, Hand, PartKind
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import CutRole, Surface
    from joinlay.lengths import Dimension
    from joinlay.shop import CornerCutter

__all__ = ["Adjustment", "Guide", "Pass", "PlainCut", "Position", "Role", "Stops", "Tool", "ToolKind", "Work"]


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
    SHAPED = "corner cutter"
    DADO_SET = "dado set"
    BLADE = "saw blade"
    MORTISE_CUTTER = "mortise cutter"
    BIT = "drill bit"
    HAND_SAW = "hand saw and chisel"
    ROUTER_PLANE = "hand saw, chisel and router plane"
    RABBET_PLANE = "rabbet plane"
    BRACE = "brace and bit"
    BRACE_AND_CHISEL = "brace, bit and chisel"


class Role(Enum):
    """What the cut is to the wood beside it, and so what the fence and the height decide."""

    CHANNEL = "channel"  #: two walls: the fence sets its place, a last pass its width, the height its depth
    TONGUE = "tongue"  #: the wood between fence and cutter stays: the fence sets its thickness, the height its length
    STEP = "step"  #: cut away from the fence side, the cutter partly in the fence: the fence sets its width
    MORTISE = "mortise"
    HOLE = "hole"
    SHAPED = "shaped"  #: by a cutter with a corner's shape: the height sets the tongue, the fence how far the cutter stands out


class Adjustment(Enum):
    """What has to be touched on the machine before a setting."""

    CUTTER = "cutter"
    FENCE = "fence"
    HEIGHT = "height"


@dataclass(frozen=True, slots=True)
class Tool:
    """A cutter, blade or bit: ``width`` of its cut, and ``reach``, the deepest it goes (None where nothing says).

    ``shape`` is that of a cutter which makes both halves of a corner; None for any other (MS-11).
    """

    kind: ToolKind
    width: Dimension
    reach: Dimension | None = None
    shape: CornerCutter | None = None


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass: ``near_side`` from the fence (or the surface measured from) to the near side of the cutter, ``height`` its depth
    of cut.

    ``near_side`` is negative where the cutter stands partly in the fence. ``guide`` is where the straightedge is clamped, from
    the same surface; None without one.
    """

    near_side: Dimension
    height: Dimension
    guide: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Stops:
    """Where a stopped cut begins and ends, both from the surface that goes first, ``leading``.

    ``begin`` and ``finish`` are None where the cut runs in or out at the edge of the work. On a table ``infeed_stop`` is from the
    far side of the cutter (the side away from the stop) to the block the *trailing* surface rests on at the start,
    ``outfeed_stop`` from the far side of the cutter to the block the *leading* surface meets at the end.
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

    ``line`` is where the line lies, from the surface it is gauged from, for what is cut to a pencil line; None where a fence
    keeps it.
    """

    centre: Dimension
    width: Dimension
    line: Dimension | None = None


@dataclass(frozen=True, slots=True)
class PlainCut:
    """What a cut is to one who stands at a machine: its use, and ``at``, where that tells it from others (``back``); else ''.

    Whose mortise it is, at which hand, and which of several, matter to the plan and not here.
    """

    use: CutUse
    at: str = ""

    @classmethod
    def of(cls, role: CutRole) -> PlainCut:
        """A cut of this ``role``."""
        if role.use is CutUse.MORTISE:
            return cls(role.use)
        if role.hand is not None:
            return cls(role.use, "" if role.hand in (Hand.LEFT, Hand.RIGHT) else role.hand.value)
        part = role.part
        return cls(role.use, "" if part is None or part.kind is PartKind.CASE_PARTITION or part.hand is not None else part.short)

    @property
    def words(self) -> str:
        """``back dado``, ``mortise``."""
        return f"{self.at} {self.use.value}".lstrip()


@dataclass(frozen=True, slots=True)
class Work:
    """Parts that go through a setting the same way round.

    ``boards`` and ``cuts`` are names, ``parts`` kinds of part, paired by place; several mortises or holes of one line are one
    cut, ``rail under drawer 1 to 7 mortise``. ``plain_cuts`` are what these cuts are at a machine, each once. ``entry`` is the
    surface the cutter comes in at: down on a table or saw, up under a hand-held router. ``fence`` is the surface against the
    fence, or from which the guide is measured. The ``..._word`` fields are the maker's words for them. ``positions`` are of
    mortises and holes, from ``positions_from``. ``squared`` is True where the plan's cut stops square, so that the round ends the
    cutter leaves are to be chopped square.
    """

    boards: tuple[str, ...]
    parts: tuple[PartKind, ...]
    cuts: tuple[str, ...]
    plain_cuts: tuple[PlainCut, ...]
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
