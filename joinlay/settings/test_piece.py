"""The test piece of a setting: what it must measure, and which way to move what when it doesn't (MS-1)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.settings.elements import Role

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.lengths import Dimension
    from joinlay.settings.elements import Pass, Tool
    from joinlay.settings.way_of_cutting import Way

__all__ = ["Adjust", "Correction", "Direction", "Measure", "Measured", "TestPiece", "piece_to_test"]


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
    """Where ``measured`` comes out too large (``is_over``) or too small by some amount, move ``adjust`` by the same amount that way."""

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

#: How each kind of cut is put right; a channel of one pass can be widened but not narrowed.
_CORRECTIONS: Final = {
    Role.CHANNEL: (*_WIDTH, *_PLACE, *_DEPTH),
    Role.TONGUE: (*_THICKNESS, *_LENGTH),
    Role.STEP: (*_LEFT, *_STEP),
    Role.MORTISE: (*_MIDDLE, *_DEPTH),
    Role.HOLE: (*_MIDDLE, *_DEPTH),
}


def piece_to_test(way: Way, boards: Sequence[Board]) -> TestPiece:
    """What a scrap run through ``way`` must measure; ``boards`` are the parts it is for.

    The wood a step leaves is given only where all parts are equally thick. A miss is put right by moving the fence or the cutter as much as the
    miss: a tongue too thick by some amount, cut upright, wants the fence that much nearer the cutter. Rule MS-1; by geometry.
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
    if role is Role.CHANNEL:
        return (Measure(Measured.WIDTH, width), Measure(Measured.FROM_FENCE, near), Measure(Measured.DEPTH, depth))
    centre = ((near + far) / 2).named("fence side to the middle", "MS-7", "common practice")
    return (Measure(Measured.CENTRE, centre), Measure(Measured.WIDTH, width), Measure(Measured.DEPTH, depth))
