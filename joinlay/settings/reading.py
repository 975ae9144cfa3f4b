"""The numbers of a setting on the maker's rule: what to set, what is left over, and what that does to the fit (MS-2)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Length
from joinlay.settings.elements import Guide, Role
from joinlay.settings.test_piece import Measured

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.lengths import Dimension, Graduation, OnRule
    from joinlay.settings.elements import Pass
    from joinlay.settings.way_of_cutting import Way

__all__ = ["FIT", "Reading", "Value", "readings_of"]


class Value(Enum):
    """What is set on the machine."""

    NEAR_SIDE = "fence to the near side of the cutter"
    FAR_SIDE = "fence to the far side of the cutter"
    CENTRE = "fence to the centre of the cutter"
    STRAIGHTEDGE = "straightedge"
    NEAR_LINE = "near line"
    FAR_LINE = "far line"
    HEIGHT = "height"


#: Of these a few tenths decide whether a joint goes together.
FIT: Final = frozenset({Measured.WIDTH, Measured.TONGUE_THICKNESS, Measured.WOOD_LEFT})


@dataclass(frozen=True, slots=True)
class Reading:
    """A value to set. ``exact`` is what the plan wants, ``on_rule`` what the rule can show of it.

    Set to the mark alone, ``affects`` comes out larger by ``by`` (smaller where that is negative). ``affects`` is None where nothing does:
    the fence or height of a pass between the first and the last.
    """

    value: Value
    exact: Dimension
    on_rule: OnRule
    affects: Measured | None
    by: Length


def readings_of(way: Way, rule: Graduation) -> tuple[Reading, ...]:
    """Every fence position and height of ``way`` on ``rule``, fences first, in order.

    A step's fence is set by the far side of the cutter, since the near side is inside the fence; a mortise's by the cutter's centre; a
    straightedge by its distance from the surface measured from. Rule MS-2.
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
}


def _change(affects: Measured | None, left_over: Length) -> Length:
    """What too small a distance by ``left_over`` does; wood left is the one thing that grows by it."""
    if affects is None:
        return Length(0)
    return left_over if affects is Measured.WOOD_LEFT else -left_over


def _fence_readings(way: Way, fences: list[Pass], rule: Graduation) -> Iterator[Reading]:
    value = _value(way)
    nearest, farthest = (choose(fences, key=lambda each: each.near_side) for choose in (min, max))
    near, far = (rule.read(_set_at(way, each, value)).left_over for each in (nearest, farthest))
    for each in fences:
        exact = _set_at(way, each, value)
        affects, by = None, Length(0)
        if each is nearest and way.role is not Role.STEP:
            affects, by = _NEAR_FENCE_AFFECTS[way.role], -near
        elif each is farthest and way.role is Role.STEP:
            affects, by = Measured.STEP_WIDTH, -far
        elif each is farthest and way.role in (Role.CHANNEL, Role.MORTISE):
            affects, by = Measured.WIDTH, near - far
        yield Reading(value, exact, rule.read(exact), affects, by)
    if value is Value.NEAR_LINE and way.role is Role.CHANNEL:
        line = (farthest.near_side + way.tool.width).named("far line of the notch", "MS-1", "by geometry")
        yield Reading(Value.FAR_LINE, line, rule.read(line), Measured.WIDTH, near - rule.read(line).left_over)


_NEAR_FENCE_AFFECTS: Final = {
    Role.CHANNEL: Measured.FROM_FENCE,
    Role.TONGUE: Measured.TONGUE_THICKNESS,
    Role.MORTISE: Measured.CENTRE,
    Role.HOLE: Measured.CENTRE,
}


def _value(way: Way) -> Value:
    if way.guide is Guide.STRAIGHTEDGE:
        return Value.STRAIGHTEDGE
    if way.guide is Guide.GAUGED_LINE:
        return Value.FAR_LINE if way.role is Role.STEP else Value.NEAR_LINE
    if way.role is Role.STEP:
        return Value.FAR_SIDE
    one = len({each.near_side for each in way.passes}) == 1
    return Value.CENTRE if way.role in (Role.MORTISE, Role.HOLE) and one else Value.NEAR_SIDE


def _set_at(way: Way, each: Pass, value: Value) -> Dimension:
    if each.guide is not None:
        return each.guide
    if value in (Value.FAR_SIDE, Value.FAR_LINE):
        return (each.near_side + way.tool.width).named("fence to the far side of the cutter", "MS-1", "by geometry")
    if value is Value.CENTRE:
        return (each.near_side + way.tool.width / 2).named("fence to the centre of the cutter", "MS-7", "common practice")
    return each.near_side
