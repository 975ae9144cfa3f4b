"""Settings as plain dicts and lists, for JSON; how a length is set down is the caller's affair."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from joinlay.settings.feeding import feed_sentence, feed_words
from joinlay.settings.wording import correction_words, cut_words, effect_words, measure_words, position_words

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.lengths import Graduation, Length
    from joinlay.settings.elements import Pass, Stops, Work
    from joinlay.settings.figures import Reading
    from joinlay.settings.setting import Setting, SettingsList

__all__ = ["settings_tree"]


def settings_tree(found: SettingsList, rule: Graduation, length: Callable[[Length], Any]) -> dict[str, Any]:
    """The settings of a job as plain dicts and lists, the findings left out.

    ``length`` makes of a length what the file is to hold of it; sentences are set on ``rule``. Rules MS-1 to MS-9.
    """
    said = _Plainly(rule, length)
    return {
        "cards": len(found.settings),
        "set_ups": found.set_ups,
        "naive_set_ups": found.naive_set_ups,
        "cutter_changes": found.cutter_changes,
        "is_proved": found.is_proved,
        "first_then": [list(pair) for pair in found.first_then],
        "bands_first": [{"before": one.number, "boards": list(one.boards), "edges": list(one.edges)} for one in found.bands],
        "settings": [said.setting(setting) for setting in found.settings],
    }


class _Plainly:
    """Turns settings into plain things, lengths by the caller's hand."""

    __slots__ = ("_hand", "_rule")

    def __init__(self, rule: Graduation, hand: Callable[[Length], Any]) -> None:
        self._rule, self._hand = rule, hand

    def length(self, length: Length | None) -> object:
        """A length, or null where there is none."""
        return None if length is None else self._hand(length)

    def setting(self, setting: Setting) -> dict[str, Any]:
        """A card: the machine and how it is set, the parts, the test piece, the cautions."""
        return {
            "number": setting.number,
            "set_up": setting.set_up,
            "set_ups": setting.set_ups,
            "cut": cut_words(setting),
            "machine": setting.machine.value,
            "guide": setting.guide.value,
            "tool": {
                "kind": setting.tool.kind.value,
                "width": self.length(setting.tool.width),
                "reach": self.length(setting.tool.reach),
                "slot": None if setting.tool.shape is None else self.length(setting.tool.shape.slot),
                "tongue_length": None if setting.tool.shape is None else self.length(setting.tool.shape.length),
            },
            "role": setting.role.value,
            "change": [change.value for change in setting.changes],
            "fence_to_near_side": self.length(setting.near_side),
            "fence_to_centre": self.length(setting.centre),
            "fence_to_far_side": self.length(setting.far_side),
            "height": self.length(setting.height),
            "guide_offset": self.length(setting.offset),
            "feeding": self._feeding(setting),
            "passes": [self._pass(each) for each in setting.passes],
            "on_rule": [self._reading(reading) for reading in setting.readings],
            "speed": setting.speed,
            "works": [self._work(setting, work) for work in setting.works],
            "count": setting.count,
            "joints": list(setting.joints),
            "test_piece": {
                "measures": [
                    {"what": one.measured.value, "value": self.length(one.value)} for one in setting.test_piece.measures
                ],
                "in_words": measure_words(setting, self._rule.text),
                "corrections": [correction_words(setting, each) for each in setting.test_piece.corrections],
            },
            "cautions": [caution.value for caution in setting.cautions],
            "reason": setting.reason.sentence(self._rule.text),
        }

    def _feeding(self, setting: Setting) -> dict[str, Any] | None:
        """Which way to walk or feed, and why; null for what goes straight in, and for hand tools (MS-6)."""
        feeding = setting.feeding
        if feeding is None:
            return None
        return {
            "way": feed_words(setting),
            "in_words": feed_sentence(setting),
            "cutter_turns": None if feeding.turn is None else feeding.turn.value,
            "counted_from_on": feeding.datum.value,
            "last_pass_cuts": feeding.fresh.value,
        }

    def _pass(self, each: Pass) -> dict[str, Any]:
        return {
            "near_side": self.length(each.near_side),
            "height": self.length(each.height),
            "straightedge": self.length(each.guide),
        }

    def _reading(self, reading: Reading) -> dict[str, Any]:
        return {
            "value": reading.value.value,
            "to": reading.value.short,
            "exact": self.length(reading.exact),
            "set": self.length(reading.on_rule.nearest),
            "left_over": self.length(reading.on_rule.left_over),
            "affects": None if reading.affects is None else reading.affects.value,
            "by": self.length(reading.by),
            "effect": effect_words(reading),
        }

    def _work(self, setting: Setting, work: Work) -> dict[str, Any]:
        return {
            "boards": list(work.boards),
            "parts": [kind.value for kind in work.parts],
            "cuts": list(work.cuts),
            "entry": work.entry_word,
            "fence": work.fence_word,
            "stops": None if work.stops is None else self._stops(work.stops),
            "positions": [
                {"centre": self.length(one.centre), "width": self.length(one.width), "line": self.length(one.line)}
                for one in work.positions
            ],
            "positions_from": work.positions_from,
            "positions_in_words": position_words(setting, work, self._rule.text),
            "square_the_ends": work.squared,
        }

    def _stops(self, stops: Stops) -> dict[str, Any]:
        return {
            "first": stops.leading_word,
            "begin": self.length(stops.begin),
            "finish": self.length(stops.finish),
            "infeed_stop": self.length(stops.infeed_stop),
            "outfeed_stop": self.length(stops.outfeed_stop),
        }
