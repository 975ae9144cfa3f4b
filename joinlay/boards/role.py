"""What a part, a cut and a joint are in the piece, as data; their English names are made from this, last, for people.

Nothing asks a name what it means: whose part it is, at which hand and under which drawer stand here as fields. The name is worked
out once, when the role is made, and kept beside them.
"""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import Final

from joinlay.records import dataclass

__all__ = [
    "CutRole",
    "CutUse",
    "DrawerRole",
    "Hand",
    "JointKind",
    "JointRole",
    "PartKind",
    "PartRole",
    "Whole",
    "bay_name",
    "row_name",
]


class Hand(Enum):
    """Which of two that are alike: left or right as seen from the front; bottom or top where one stands over the other."""

    LEFT = "left"
    RIGHT = "right"
    BOTTOM = "bottom"
    TOP = "top"

    @property
    def other(self) -> Hand:
        """The one across from it."""
        return {Hand.LEFT: Hand.RIGHT, Hand.RIGHT: Hand.LEFT, Hand.BOTTOM: Hand.TOP, Hand.TOP: Hand.BOTTOM}[self]


class Whole(Enum):
    """What is put together as one thing, beside the drawers."""

    CASE = "case"
    FRAME = "face frame"
    RUNNERS = "runners"
    STOPS = "stops"
    PULLS = "pulls"
    SHELVES = "shelves"
    TOP = "top"
    BASE = "base"
    FILLER = "filler"


class PartKind(Enum):
    """What kind of part it is; the value is the trade's word for it, as on every list."""

    DRAWER_FRONT = "drawer front"
    DRAWER_SIDE = "drawer side"
    DRAWER_BACK = "drawer back"
    DRAWER_BOTTOM = "drawer bottom"
    BOTTOM_BAR = "bottom bar"
    LOOSE_TENON = "loose tenon"
    CASE_SIDE = "case side"
    CASE_BOTTOM = "case bottom"
    CASE_TOP = "case top"
    CASE_PARTITION = "case partition"
    CASE_BACK = "case back"
    DUST_PANEL = "dust panel"
    SHELF = "shelf"
    LIPPING = "lipping"
    LOOSE_SHELF = "loose shelf"
    STILE = "stile"
    RAIL = "rail"
    MULLION = "mullion"
    BEARER = "bearer"
    GUIDE = "guide"
    KICKER = "kicker"
    PACKING = "packing"
    STOP_STRIP = "stop strip"
    STOP_BLOCK = "stop block"
    KNOB_BLANK = "knob blank"
    TOP = "top"
    TOP_STRIP = "top strip"
    BASE_FRONT = "base front"
    BASE_SIDE = "base side"
    BASE_BACK = "base back"
    FOOT = "foot block"
    TOE_BOARD = "toe board"
    FILLER = "filler"
    LONE = "part"  #: of no piece, such as one of the two parts of a joint that is worked out alone

    @property
    def whole(self) -> Whole | None:
        """What a part of this kind belongs to beside the drawers; None for a drawer's own, and where its ``PartRole.of``
        decides.
        """
        return _WHOLE.get(self)

    @property
    def is_loose(self) -> bool:
        """True for what goes between two parts and is of neither, such as a loose tenon: it is from no stock that a job
        describes.
        """
        return self is PartKind.LOOSE_TENON

    @property
    def nouns(self) -> str:
        """The same of several: ``sides``, ``shelves``."""
        return f"{self.noun.removesuffix('f')}ves" if self in (PartKind.SHELF, PartKind.LOOSE_SHELF) else f"{self.noun}s"

    @property
    def noun(self) -> str:
        """What it is called among the parts of one drawer, case ...: ``side``."""
        return _NOUN.get(self, self.value)


_WHOLE: Final = {
    PartKind.CASE_SIDE: Whole.CASE,
    PartKind.CASE_BOTTOM: Whole.CASE,
    PartKind.CASE_TOP: Whole.CASE,
    PartKind.CASE_PARTITION: Whole.CASE,
    PartKind.CASE_BACK: Whole.CASE,
    PartKind.DUST_PANEL: Whole.CASE,
    PartKind.SHELF: Whole.CASE,
    PartKind.LIPPING: Whole.CASE,
    PartKind.LOOSE_SHELF: Whole.SHELVES,
    PartKind.STILE: Whole.FRAME,
    PartKind.RAIL: Whole.FRAME,
    PartKind.MULLION: Whole.FRAME,
    PartKind.BEARER: Whole.RUNNERS,
    PartKind.GUIDE: Whole.RUNNERS,
    PartKind.KICKER: Whole.RUNNERS,
    PartKind.PACKING: Whole.RUNNERS,
    PartKind.STOP_STRIP: Whole.STOPS,
    PartKind.STOP_BLOCK: Whole.STOPS,
    PartKind.KNOB_BLANK: Whole.PULLS,
    PartKind.TOP: Whole.TOP,
    PartKind.TOP_STRIP: Whole.TOP,
    PartKind.BASE_FRONT: Whole.BASE,
    PartKind.BASE_SIDE: Whole.BASE,
    PartKind.BASE_BACK: Whole.BASE,
    PartKind.FOOT: Whole.BASE,
    PartKind.TOE_BOARD: Whole.BASE,
    PartKind.FILLER: Whole.FILLER,
}

#: What a part is called within its drawer, case, frame ..., without its hand and number.
_NOUN: Final = {
    PartKind.DRAWER_FRONT: "front",
    PartKind.DRAWER_SIDE: "side",
    PartKind.DRAWER_BACK: "back",
    PartKind.DRAWER_BOTTOM: "bottom",
    PartKind.LOOSE_TENON: "tenon",
    PartKind.CASE_SIDE: "side",
    PartKind.CASE_BOTTOM: "bottom",
    PartKind.CASE_TOP: "top",
    PartKind.CASE_PARTITION: "partition",
    PartKind.CASE_BACK: "back",
    PartKind.TOP: "board",
    PartKind.TOP_STRIP: "strip",
    PartKind.BASE_FRONT: "front",
    PartKind.BASE_SIDE: "side",
    PartKind.BASE_BACK: "back",
    PartKind.FILLER: "strip",
    PartKind.STOP_STRIP: "strip",
    PartKind.STOP_BLOCK: "block",
}


def bay_name(number: int) -> str:
    """What an open bay is called, by its number through the piece: ``open bay 1`` (SH-1)."""
    return f"open bay {number}"


#: What lies under a row of drawers, and what parts two of a row.
_UNDER_A_ROW: Final = (PartKind.RAIL, PartKind.DUST_PANEL)
_IN_A_ROW: Final = (PartKind.MULLION, PartKind.CASE_PARTITION)


@dataclass(frozen=True, slots=True)
class DrawerRole:
    """Which drawer: its ``number``, from the top down and bank by bank from the left, and the ``title`` the maker gave it ('':
    none).
    """

    number: int
    title: str = ""
    name: str = field(init=False, compare=False, repr=False)
    """``drawer 3``, or ``drawer socks``."""

    def __post_init__(self) -> None:
        """Work the name out, once."""
        object.__setattr__(self, "name", f"drawer {self.title or self.number}")


def row_name(first: DrawerRole, last: int = 0) -> str:
    """What a row of drawers is called, from the ``first`` to the one of number ``last`` (0: it stands alone): ``drawers 1 to
    3``.
    """
    if last <= first.number:
        return first.name
    return f"drawers {first.number} {'and' if last == first.number + 1 else 'to'} {last}"


@dataclass(frozen=True, slots=True)
class PartRole:
    """What a part is in the piece.

    ``drawer`` is the one it is of, that rides on it or is stopped by it; for a rail or a dust panel the first of the row that it
    lies under, whose last is of ``number`` where there are several; for a mullion or partition in a row the one at its left.
    ``hand`` tells two alike apart, ``number`` more of them, from 1. ``bay`` is the number of the open bay that it is in, or that
    a rail or dust panel lies under, or that a mullion or partition stands right of. ``of`` is the part that a loose tenon or a
    knob's blank goes into: a drawer's front, a rail.
    ``called`` is for a ``LONE`` part, which has nothing else to be named by.
    """

    kind: PartKind
    drawer: DrawerRole | None = None
    hand: Hand | None = None
    number: int = 0
    of: PartRole | None = None
    called: str = ""
    bay: int = 0
    name: str = field(init=False, compare=False, repr=False)
    """On every sheet and list: ``drawer 3 left side``, ``face frame rail under drawer 3``."""
    short: str = field(init=False, compare=False, repr=False)
    """The same without what it is part of: ``left side``, ``rail under drawer 3``."""

    def __post_init__(self) -> None:
        """Work the names out, once."""
        short = self._short()
        object.__setattr__(self, "short", short)
        object.__setattr__(self, "name", _spoken(self._before(), short))

    def __hash__(self) -> int:
        """By the name, which is at hand; equal roles have equal names."""
        return hash(self.name)

    @property
    def whole(self) -> Whole | DrawerRole | None:
        """The drawer, case, frame ... it is part of; None for a lone part."""
        if self.kind.is_loose:
            return None if self.of is None else self.of.whole
        return self.kind.whole or self.drawer

    @property
    def is_in_a_row(self) -> bool:
        """True for a mullion or partition between two places of one row, and not between banks (RO-1)."""
        return self.kind in _IN_A_ROW and (self.bay > 0 or self.drawer is not None)

    def _short(self) -> str:
        """The drawer comes in where the part isn't the drawer's own."""
        if self.kind is PartKind.LONE:
            return self.called
        if self.kind is PartKind.KNOB_BLANK:
            return _spoken(_name_of(self.of), self.kind.value)
        noun = self.kind.noun
        if self.kind is PartKind.DRAWER_BOTTOM and self.hand is not None:
            noun = "bottom half"  # beside a bar
        if self.kind.is_loose:
            return _spoken("" if self.of is None else self.of.short, _hand(self), noun, _count(self.number))
        if self.kind in _UNDER_A_ROW and (self.bay or self.drawer is not None):
            row = bay_name(self.bay) if self.drawer is None else row_name(self.drawer, self.number)
            return f"{noun} under {row}"
        if self.is_in_a_row:
            return f"{noun} right of {bay_name(self.bay) if self.drawer is None else self.drawer.name}"
        other = bay_name(self.bay) if self.bay else _name_of(self.drawer) if self.kind.whole is not None else ""
        return _spoken(other, _hand(self), noun, _count(self.number))

    def _before(self) -> str:
        """What it is part of, as its name begins. A knob's blank is known by its front."""
        if self.kind is PartKind.KNOB_BLANK:
            return ""
        whole = self.whole
        return whole.value if isinstance(whole, Whole) else _name_of(whole)


class JointKind(Enum):
    """Which joint of the piece it is; the value is said after the name of what it is a joint of."""

    FRONT_CORNER = "front corner"  #: both front corners of a drawer
    BACK_CORNER = "back corner"  #: both back corners of a drawer
    BOTTOM_GROOVE = ""  #: the grooves a drawer's bottom lies in
    BOTTOM_BAR = "bottom bar"  #: the grooves and ends of the bar down a bottom's middle
    CASE_SIDE = "case side"  #: bottom, top and back in the sides of the case
    PARTITION = "partition"  #: a partition in bottom and top
    SHELF = "shelf"  #: the fixed shelves of an open bay, where their stock is another than the case's panels
    FRAME = "frame"  #: the two ends of a rail or mullion


@dataclass(frozen=True, slots=True)
class JointRole:
    """Which joint: its kind, and the drawer or part it is a joint ``of`` (a partition, the rail whose ends it holds).

    Corners that are cut alike are one joint.
    """

    kind: JointKind
    of: DrawerRole | PartRole | None = None
    name: str = field(init=False, compare=False, repr=False)
    """Before each of its numbers: ``drawer 3 front corner``."""

    def __post_init__(self) -> None:
        """Work the name out, once."""
        object.__setattr__(self, "name", self._spoken())

    def __hash__(self) -> int:
        """By the name, which is at hand."""
        return hash(self.name)

    def _spoken(self) -> str:
        # What is joined to a partition or rail is named as that is.
        return self.of.name if isinstance(self.of, PartRole) else _spoken(_name_of(self.of), self.kind.value)


class CutUse(Enum):
    """What a cut is for; the value is the maker's word for it."""

    GROOVE = "groove"  #: for the drawer's bottom
    DADO = "dado"
    NOTCH = "notch"  #: of a part that hides the stopped end of its dado
    RABBET = "rabbet"
    SLOT = "slot"  #: in the end of a half-blind front
    TONGUE_END = "tongue end"  #: the wood taken off the tip of a half-blind front's tongue
    SHAPED_SLOT = "shaped slot"  #: these three by a cutter that makes both halves of a corner
    SHAPED_END = "shaped tongue end"
    SHAPED_DADO = "shaped dado"
    MORTISE = "mortise"
    SCREW_HOLE = "screw hole"
    SCREW_SLOT = "screw slot"  #: lets the wood move past its screw
    PULL_HOLE = "pull hole"
    DOT_HOLE = "dot hole"  #: for a dot inlaid in a knob, bored into its blank
    PIN_HOLE = "pin hole"  #: for a pin that a loose shelf lies on
    LEVELLER_HOLE = "leveller hole"  #: for the stem of a levelling foot, or the insert it turns in
    TOE_NOTCH = "toe notch"  #: the recess for toes, out of the corner of a case side that stands on the floor
    STOP_NOTCH = "stop notch"  #: lets a drawer's back pass its stop block

    @property
    def is_shaped(self) -> bool:
        """True where a cutter with a corner's shape makes it, together with what is beside it (MS-11)."""
        return self in (CutUse.SHAPED_SLOT, CutUse.SHAPED_END, CutUse.SHAPED_DADO)

    @property
    def is_for_a_screw(self) -> bool:
        """True where a screw goes through it."""
        return self in (CutUse.SCREW_HOLE, CutUse.SCREW_SLOT)


@dataclass(frozen=True, slots=True)
class CutRole:
    """What a cut is for.

    ``mate`` is the part that goes in or meets it, None where none does; ``joint`` the joint it is of, None where it is of none.
    ``which`` tells it from others of its use in the board: the hand it is at, or the part it is for. ``number`` counts those that
    are alike even so, from 1.
    """

    use: CutUse
    mate: PartRole | None = None
    joint: JointRole | None = None
    which: Hand | PartRole | None = None
    number: int = 0
    name: str = field(init=False, compare=False, repr=False)
    """In the maker's words: ``left mortise 2``, ``back dado``."""

    def __post_init__(self) -> None:
        """Work the name out, once."""
        object.__setattr__(self, "name", self._spoken())

    def __hash__(self) -> int:
        """By the name and the mate's, which are at hand."""
        return hash((self.name, self.mate))

    @property
    def hand(self) -> Hand | None:
        """The hand it is at; None where it is told apart otherwise."""
        return self.which if isinstance(self.which, Hand) else None

    @property
    def part(self) -> PartRole | None:
        """The part it is told apart by; None where it is told apart otherwise."""
        return self.which if isinstance(self.which, PartRole) else None

    def _spoken(self) -> str:
        at = "" if self.which is None else self.which.value if isinstance(self.which, Hand) else self.which.short
        return _spoken(at, self.use.value, _count(self.number))


def _spoken(*words: str) -> str:
    return " ".join(word for word in words if word)


def _name_of(named: DrawerRole | PartRole | None) -> str:
    return "" if named is None else named.name


def _hand(role: PartRole) -> str:
    return "" if role.hand is None else role.hand.value


def _count(number: int) -> str:
    return str(number) if number else ""
