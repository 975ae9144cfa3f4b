"""What decides a fit, in the maker's words: what a remainder does, what a test piece must measure, and what to move when it doesn't."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Unit, decimal_text
from joinlay.settings.elements import Guide, Role
from joinlay.settings.feeding import Wall
from joinlay.settings.test_piece import Adjust, Direction, Measured
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.lengths import Graduation, Length
    from joinlay.settings.reading import Reading
    from joinlay.settings.setting import Setting
    from joinlay.settings.test_piece import Correction

__all__ = ["correction_pairs", "correction_words", "effect_words", "measure_words", "remainder_words", "small_words"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


#: What becomes of the fit where a measure comes out larger, and where it comes out smaller.
_EFFECT: Final = {
    Measured.WIDTH: ("the joint is that much looser", "the joint is that much tighter"),
    Measured.TONGUE_THICKNESS: ("the joint is that much tighter", "the joint is that much looser"),
    Measured.WOOD_LEFT: ("what is left fits that much tighter", "what is left fits that much looser"),
    Measured.DEPTH: ("there is that much more room at the bottom", "that much less room at the bottom"),
    Measured.TONGUE_LENGTH: ("that much less room past its tip", "that much more room past its tip"),
    Measured.STEP_WIDTH: ("what goes in has that much more room", "what goes in has that much less room"),
    Measured.FROM_FENCE: ("its mate sits that much off its place", "its mate sits that much off its place"),
    Measured.CENTRE: ("the parts meet that much off flush", "the parts meet that much off flush"),
}


def effect_words(reading: Reading) -> str:
    """What the remainder does to the fit of the joint: ``the joint is that much tighter``; '' where nothing is left over or depends on it. MS-2."""
    if reading.affects is None or not reading.by:
        return ""
    return _EFFECT[reading.affects][0 if reading.by.mm > 0 else 1]


def remainder_words(reading: Reading, rule: Graduation) -> str:
    """What the remainder does: to the measure and to the fit, '' where nothing is left over or nothing depends on it (MS-2)."""
    if reading.affects is None or not reading.by:
        return ""
    more = "larger" if reading.by.mm > 0 else "smaller"
    return f"set to the mark, {reading.affects.value} is {small_words(abs(reading.by), rule)} {more}: {effect_words(reading)}"


def small_words(length: Length, rule: Graduation) -> str:
    """A length under a mark of the rule, as a decimal: ``0.014 in`` rather than ``1/32 in - 0.017 in``. Rule MS-2."""
    if rule.unit is Unit.INCH:
        return f"{decimal_text(length.inches, 3)} in"
    return f"{decimal_text(length.mm, 2)} mm"


#: What a measure is called on the test piece, and the words for too much and too little of it.
_MEASURED: Final = {
    Measured.FROM_FENCE: ("fence side to near wall", "too far from the fence side", "too near the fence side"),
    Measured.CENTRE: ("fence side to middle", "too far from the fence side", "too near the fence side"),
    Measured.WIDTH: ("width", "too wide", "too narrow or its mate too tight"),
    Measured.DEPTH: ("depth", "too deep", "too shallow"),
    Measured.TONGUE_THICKNESS: ("tongue thickness", "tongue too thick or too tight", "tongue too thin or too loose"),
    Measured.TONGUE_LENGTH: ("tongue length", "tongue too long", "tongue too short"),
    Measured.STEP_WIDTH: ("rabbet width", "rabbet too wide", "rabbet too narrow"),
    Measured.WOOD_LEFT: ("wood left", "wood left too thick or too tight", "wood left too thin or too loose"),
}


def measure_words(setting: Setting, show: Callable[[Length], str]) -> str:
    """What the test piece must measure."""
    return ", ".join(f"{_MEASURED[measure.measured][0]} {show(measure.value)}" for measure in setting.test_piece.measures)


def correction_words(setting: Setting, correction: Correction) -> str:
    """What to move, which way and by how much: ``tongue too thick by x: move the fence x towards the cutter``."""
    fault = _MEASURED[correction.measured][1 if correction.is_over else 2]
    return f"{fault} by x: {_moving(setting, correction)}"


def correction_pairs(setting: Setting) -> tuple[str, ...]:
    """The corrections two and two, too much and too little of one measure on a line; where there is one only, that."""
    said: dict[Measured, str] = {}
    for each in setting.test_piece.corrections:
        if each.measured in said:
            said[each.measured] += f"; {_MEASURED[each.measured][2]}: the other way"
        else:
            said[each.measured] = correction_words(setting, each)
    return tuple(said.values())


def _moving(setting: Setting, correction: Correction) -> str:
    farther = correction.direction in (Direction.FARTHER, Direction.DEEPER)
    if correction.adjust is Adjust.HEIGHT:
        if setting.machine in _TABLES:
            return (
                f"{'raise' if farther else 'lower'} the {'blade' if setting.machine is MachineKind.TABLE_SAW else 'cutter'} by x"
            )
        return f"set it x {'deeper' if farther else 'shallower'}"
    where = f"x {_way(setting, farther=farther)}"
    return _widening(setting, where) if correction.adjust is Adjust.FAR_FENCE else f"move the {_guide(setting)} {where}"


def _widening(setting: Setting, where: str) -> str:
    """Moving the pass that cuts the far wall: which one that is belongs to the way of guiding (MS-6)."""
    far_goes_first = setting.feeding is not None and setting.feeding.fresh is Wall.NEAR
    if len(setting.fences) > 1:
        return f"move the {_guide(setting)} {where} for the {'first' if far_goes_first else 'last'} pass"
    if setting.role is not Role.CHANNEL:
        return f"move the {_guide(setting)} {where}"
    if far_goes_first:
        # A run more with the far wall fresh would climb, so the far wall is cut before the near one (MS-6).
        return f"make it two passes, the first with the {_guide(setting)} {where}"
    return f"run it again with the {_guide(setting)} {where}"


def _guide(setting: Setting) -> str:
    return {Guide.CENTRE_LINE: "line", Guide.GAUGED_LINE: "line"}.get(setting.guide, setting.guide.value)


def _way(setting: Setting, *, farther: bool) -> str:
    if setting.guide in (Guide.FENCE, Guide.EDGE_GUIDE):
        return "away from the cutter" if farther else "towards the cutter"
    word = setting.works[0].fence_word
    return f"away from the {word}" if farther else f"towards the {word}"
