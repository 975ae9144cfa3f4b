"""The figures of a card: what is set on the maker's rule and what that leaves over, what a test piece must measure, what to
move when it doesn't.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Length
from joinlay.records import dataclass
from joinlay.settings.elements import Guide, Role

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Dimension, Graduation, OnRule
    from joinlay.settings.elements import Pass, Tool
    from joinlay.settings.ways import WayToCut

__all__ = [
    "FIT",
    "Adjust",
    "Correction",
    "Direction",
    "Measure",
    "Measured",
    "Reading",
    "TestPiece",
    "Value",
    "piece_to_test",
    "readings_of",
]


class Measured(Enum):
    """What callipers are put to."""

    FROM_FENCE = "fence side to the near wall"
    CENTRE = "fence side to the middle"
    WIDTH = "width"
    DEPTH = "depth"
    TONGUE_THICKNESS = "tongue thickness"
    TONGUE_LENGTH = "tongue length"
    STEP_WIDTH = "rabbet width"
    WOOD_LEFT = "wood left"
    BELOW_SLOT = "wood below the slot"
    SLOT_DEPTH = "slot depth"


class Adjust(Enum):
    """What is moved."""

    FENCE = "fence"  #: every fence position alike
    FAR_FENCE = "fence position of the far wall"  #: a run more at this place where there was one only
    HEIGHT = "height"


class Direction(Enum):
    """Which way it is moved."""

    FARTHER = "farther"  #: the cut comes to lie farther from the fence side: the fence goes away from the cutter
    NEARER = "nearer"  #: the cut comes nearer: the fence goes towards the cutter
    DEEPER = "deeper"
    SHALLOWER = "shallower"


@dataclass(frozen=True, slots=True)
class Correction:
    """Where ``measured`` comes out too large (``is_over``) or too small by some amount, move ``adjust`` by the same amount
    that way.
    """

    measured: Measured
    is_over: bool
    adjust: Adjust
    direction: Direction


@dataclass(frozen=True, slots=True)
class Measure:
    """What a good test piece measures."""

    measured: Measured
    value: Dimension


@dataclass(frozen=True, slots=True)
class TestPiece:
    """A scrap of the part's own stock run first: what it must measure and how each miss is put right."""

    __test__ = False  # a piece of wood, not a test case

    measures: tuple[Measure, ...]
    corrections: tuple[Correction, ...]

    def correction(self, measured: Measured, *, is_over: bool) -> Correction | None:
        """How ``measured`` is put right where it came out too large, or too small; None where no setting changes it.

        A depth is put right by the height, also where the card tells of the wood that is left instead.
        """
        ways = (*self.corrections, *_DEPTH)
        return next((way for way in ways if way.measured is measured and way.is_over is is_over), None)


def _both(measured: Measured, adjust: Adjust, over: Direction, under: Direction) -> tuple[Correction, ...]:
    return tuple(
        Correction(measured, is_over=is_over, adjust=adjust, direction=way) for is_over, way in ((True, over), (False, under))
    )


_PLACE: Final = _both(Measured.FROM_FENCE, Adjust.FENCE, Direction.NEARER, Direction.FARTHER)
_DEPTH: Final = _both(Measured.DEPTH, Adjust.HEIGHT, Direction.SHALLOWER, Direction.DEEPER)
_WIDTH: Final = _both(Measured.WIDTH, Adjust.FAR_FENCE, Direction.NEARER, Direction.FARTHER)
_THICKNESS: Final = _both(Measured.TONGUE_THICKNESS, Adjust.FENCE, Direction.NEARER, Direction.FARTHER)
_LENGTH: Final = _both(Measured.TONGUE_LENGTH, Adjust.HEIGHT, Direction.SHALLOWER, Direction.DEEPER)
_STEP: Final = _both(Measured.STEP_WIDTH, Adjust.FAR_FENCE, Direction.NEARER, Direction.FARTHER)
_LEFT: Final = _both(Measured.WOOD_LEFT, Adjust.HEIGHT, Direction.DEEPER, Direction.SHALLOWER)
_MIDDLE: Final = _both(Measured.CENTRE, Adjust.FENCE, Direction.NEARER, Direction.FARTHER)
_BELOW: Final = _both(Measured.BELOW_SLOT, Adjust.HEIGHT, Direction.SHALLOWER, Direction.DEEPER)
_OUT: Final = _both(Measured.SLOT_DEPTH, Adjust.FENCE, Direction.NEARER, Direction.FARTHER)

#: How each kind of cut is put right; a channel of one pass can be widened but not narrowed.
_CORRECTIONS: Final = {
    Role.CHANNEL: (*_WIDTH, *_PLACE, *_DEPTH),
    Role.TONGUE: (*_THICKNESS, *_LENGTH),
    Role.STEP: (*_LEFT, *_STEP),
    Role.MORTISE: (*_MIDDLE, *_DEPTH),
    Role.HOLE: (*_MIDDLE, *_DEPTH),
    Role.SHAPED: (*_BELOW, *_OUT),
}


def piece_to_test(way: WayToCut, boards: Sequence[Board]) -> TestPiece:
    """What a scrap run through ``way`` must measure; ``boards`` are the parts it is for.

    The wood a step leaves is given only where all parts are equally thick. A miss is put right by moving the fence or the cutter
    as much as the miss: a tongue too thick by some amount, cut upright, wants the fence that much nearer the cutter. Rule MS-1;
    by geometry.
    """
    corrections = _CORRECTIONS[way.role]
    if way.role is Role.CHANNEL and len({each.near_side for each in way.passes}) == 1:
        corrections = corrections[1:]
    measures = tuple(_measures(way.role, way.passes, way.tool))
    left = {board.size(way.how.entry.axis) - way.passes[-1].height for board in boards}
    if way.role is Role.STEP and len(left) == 1 and (only := left.pop()).mm > 0:
        measures = (Measure(Measured.WOOD_LEFT, only.named("wood left by the rabbet", "MS-1", "by geometry")), *measures)
    return TestPiece(measures, corrections)


def _measures(role: Role, passes: tuple[Pass, ...], tool: Tool) -> tuple[Measure, ...]:
    last = passes[-1]
    near = min(each.near_side for each in passes)
    far = max(each.near_side for each in passes) + tool.width
    width = (far - near).named("width of the cut", "MS-1", "by geometry")
    depth = last.height
    if role is Role.TONGUE:
        return (Measure(Measured.TONGUE_THICKNESS, near), Measure(Measured.TONGUE_LENGTH, depth))
    if role is Role.STEP:
        return (
            Measure(Measured.STEP_WIDTH, far.named("width of the rabbet", "MS-1", "by geometry")),
            Measure(Measured.DEPTH, depth),
        )
    if role is Role.SHAPED and tool.shape is not None:
        below = (last.height - tool.shape.slot).named("wood below the slot", "MS-11", "by geometry")
        return (
            Measure(Measured.BELOW_SLOT, below),
            Measure(Measured.SLOT_DEPTH, far.named("depth of the slot", "MS-11", "by geometry")),
        )
    if role is Role.CHANNEL:
        return (Measure(Measured.WIDTH, width), Measure(Measured.FROM_FENCE, near), Measure(Measured.DEPTH, depth))
    centre = ((near + far) / 2).named("fence side to the middle", "MS-7", "common practice")
    return (Measure(Measured.CENTRE, centre), Measure(Measured.WIDTH, width), Measure(Measured.DEPTH, depth))


class Value(Enum):
    """What is set on the machine."""

    NEAR_SIDE = "fence to the near side of the cutter"
    FAR_SIDE = "fence to the far side of the cutter"
    CENTRE = "fence to the centre of the cutter"
    STRAIGHTEDGE = "straightedge"
    NEAR_LINE = "near line"
    FAR_LINE = "far line"
    HEIGHT = "height"

    @property
    def short(self) -> str:
        """Which side of the cutter a fence is to, or what else is meant, where there is room for a word or two; '' for a
        height (MS-1).
        """
        return _SHORT.get(self, self.value)


_SHORT: Final = {
    Value.NEAR_SIDE: "near side",
    Value.FAR_SIDE: "far side",
    Value.CENTRE: "middle",
    Value.STRAIGHTEDGE: "straightedge",
    Value.HEIGHT: "",
}


#: Of these a few tenths decide whether a joint goes together.
FIT: Final = frozenset({Measured.WIDTH, Measured.TONGUE_THICKNESS, Measured.WOOD_LEFT, Measured.BELOW_SLOT})


@dataclass(frozen=True, slots=True)
class Reading:
    """A value to set. ``exact`` is what the plan wants, ``on_rule`` what the rule can show of it; the second wall of a cut is
    read from where the first one was set, by as much as the cut is wide (DA-5).

    Set to the mark alone, ``affects`` comes out larger by ``by`` (smaller where that is negative). ``affects`` is None where
    nothing does: the fence or height of a pass between the first and the last.
    """

    value: Value
    exact: Dimension
    on_rule: OnRule
    affects: Measured | None
    by: Length

    @property
    def aim(self) -> Length:
        """What is to be set as nearly as can be: ``exact``, but for the second wall of a cut, which goes by the first as it
        was set.
        """
        return Length(self.on_rule.nearest.mm + self.on_rule.left_over.mm)


def readings_of(way: WayToCut, rule: Graduation) -> tuple[Reading, ...]:
    """Every fence position and height of ``way`` on ``rule``, fences first, in order.

    A step's fence is set by the far side of the cutter, since the near side is inside the fence; a mortise's by the cutter's
    centre; a straightedge by its distance from the surface measured from. Rule MS-2.
    """
    fences = list({each.near_side: each for each in way.passes}.values())
    heights = list({each.height: each for each in way.passes})
    found = [*_fence_readings(way, fences, rule)]
    for n, height in enumerate(heights):
        left = rule.read(height).left_over
        affects = _HEIGHT_AFFECTS[way.role] if n == len(heights) - 1 else None
        found.append(Reading(Value.HEIGHT, height, rule.read(height), affects, _change(affects, left)))
    return tuple(found)


_HEIGHT_AFFECTS: Final = {
    Role.CHANNEL: Measured.DEPTH,
    Role.TONGUE: Measured.TONGUE_LENGTH,
    Role.STEP: Measured.WOOD_LEFT,
    Role.MORTISE: Measured.DEPTH,
    Role.HOLE: Measured.DEPTH,
    Role.SHAPED: Measured.BELOW_SLOT,
}


def _change(affects: Measured | None, left_over: Length) -> Length:
    """What too small a distance by ``left_over`` does; wood left is the one thing that grows by it."""
    if affects is None:
        return Length(0)
    return left_over if affects is Measured.WOOD_LEFT else -left_over


def _fence_readings(way: WayToCut, fences: list[Pass], rule: Graduation) -> Iterator[Reading]:
    """The fences in the order to set them; the last wall is set from the first as that was set, so that a width is rounded
    once (DA-5, FR-2).
    """
    value = _value(way)
    nearest, farthest = (choose(fences, key=lambda each: each.near_side) for choose in (min, max))
    first = rule.read(_set_at(way, fences[0], value)).left_over
    has_walls = way.role in (Role.CHANNEL, Role.MORTISE)
    read = []
    for each in fences:
        exact = _set_at(way, each, value)
        is_second = has_walls and each is not fences[0] and each in (nearest, farthest)
        read.append((each, exact, rule.read(exact - first if is_second else exact), is_second))
    for each, exact, on_rule, is_second in read:
        affects, by = None, Length(0)
        if is_second:
            affects, by = Measured.WIDTH, -on_rule.left_over if each is farthest else on_rule.left_over
        elif has_walls and each is fences[0]:
            # Where the near wall comes in the end, whichever of the two is set first.
            near_exact, near_set = next((size, shown.nearest) for one, size, shown, _ in read if one is nearest)
            affects, by = _NEAR_FENCE_AFFECTS[way.role], Length(near_set.mm - near_exact.mm)
        elif each is nearest and way.role not in _BY_FAR_SIDE:
            affects, by = _NEAR_FENCE_AFFECTS[way.role], -on_rule.left_over
        elif each is farthest and way.role in _BY_FAR_SIDE:
            affects, by = _BY_FAR_SIDE[way.role], -on_rule.left_over
        yield Reading(value, exact, on_rule, affects, by)
    if value is Value.NEAR_LINE and way.role is Role.CHANNEL:
        line = (farthest.near_side + way.tool.width).named("far line of the notch", "MS-1", "by geometry")
        on_rule = rule.read(line - first)
        yield Reading(Value.FAR_LINE, line, on_rule, Measured.WIDTH, -on_rule.left_over)


#: What is set by the far side of the cutter, whose near side is inside the fence, and what that decides.
_BY_FAR_SIDE: Final = {Role.STEP: Measured.STEP_WIDTH, Role.SHAPED: Measured.SLOT_DEPTH}

_NEAR_FENCE_AFFECTS: Final = {
    Role.CHANNEL: Measured.FROM_FENCE,
    Role.TONGUE: Measured.TONGUE_THICKNESS,
    Role.MORTISE: Measured.CENTRE,
    Role.HOLE: Measured.CENTRE,
}


def _value(way: WayToCut) -> Value:
    if way.guide is Guide.STRAIGHTEDGE:
        return Value.STRAIGHTEDGE
    if way.guide is Guide.GAUGED_LINE:
        return Value.FAR_LINE if way.role is Role.STEP else Value.NEAR_LINE
    if way.role in _BY_FAR_SIDE:
        return Value.FAR_SIDE
    one = len({each.near_side for each in way.passes}) == 1
    return Value.CENTRE if way.role in (Role.MORTISE, Role.HOLE) and one else Value.NEAR_SIDE


def _set_at(way: WayToCut, each: Pass, value: Value) -> Dimension:
    if each.guide is not None:
        return each.guide
    if value in (Value.FAR_SIDE, Value.FAR_LINE):
        return (each.near_side + way.tool.width).named("fence to the far side of the cutter", "MS-1", "by geometry")
    if value is Value.CENTRE:
        return (each.near_side + way.tool.width / 2).named("fence to the centre of the cutter", "MS-7", "common practice")
    return each.near_side
