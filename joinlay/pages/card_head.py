"""The head of a setting card: which it is, what is cut, what has to be touched; machine, cutter, speed, and the way to feed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import tick_box
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Role, Text
from joinlay.records import dataclass
from joinlay.settings.feeding import feed_in_short
from joinlay.settings.wording import change_words, cut_words, machine_words, speed_words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Setting

__all__ = ["CardHead", "why_words"]

_ZERO: Final = Fraction(0)
#: Letter heights in mm: what is read at arm's length, the rest, small print.
_HELD, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: Where the name of a card stands, the line under it, the machine under that; the step to a third line, and the white below.
_NAMED, _RULED, _MACHINE, _NEXT, _UNDER = Fraction(-11, 2), Fraction(-29, 4), Fraction(-23, 2), Fraction(5), Fraction(5, 4)
#: Where a card's name begins that has a box to tick before it; white between words side by side.
_BOX, _BETWEEN, _BESIDE = Fraction(7), Fraction(6), Fraction(5)


@dataclass(frozen=True, slots=True)
class CardHead:
    """The head of the card of ``setting``, ``wide`` mm across; ``has_box`` and ``cautions`` as ``CardMaker`` has them."""

    setting: Setting
    rule: Graduation
    wide: Fraction
    has_box: bool
    cautions: str = ""

    @property
    def deep(self) -> Fraction:
        """How far down it reaches."""
        return -_MACHINE + _UNDER + len(self._way_below) * _NEXT

    @property
    def says_why(self) -> bool:
        """Whether why it is cut there stands in it; which way to feed always does, where there is one."""
        return not feed_in_short(self.setting) and self._beside_machine()[1] is not None

    @property
    def says_cautions(self) -> bool:
        """Whether it has room to say where the cautions stand."""
        machine, said = self._beside_machine()
        taken = set_line(machine).width + (0 if said is None else _BESIDE + set_line(said).width) + _BETWEEN
        return bool(self.cautions) and taken + set_line(self._aside(self.cautions)).width <= self.wide

    def strokes(self) -> Iterator[Stroke]:
        """Which card, what is cut, what has to be touched; then machine and cutter, which way to feed, and the speed (MS-6,
        MS-9).
        """
        change = words(change_words(self.setting), _HELD)
        after = _BOX if self.has_box else _ZERO
        room = self.wide - after - set_line(change).width - _BETWEEN
        if self.has_box:
            yield tick_box(_ZERO, _NAMED)
        name = f"{self.setting.number}  {cut_words(self.setting)}"
        yield Text((after, _NAMED), fitted(name, room, (_HELD, _WORD), bold=True))
        yield Text((self.wide, _NAMED), change, Align.RIGHT)
        yield Line((_ZERO, _RULED), (self.wide, _RULED), Role.FRAME)
        machine, said = self._beside_machine()
        yield Text((_ZERO, _MACHINE), machine)
        yield Text((self.wide, _MACHINE), self._aside(self.cautions if self.says_cautions else ""), Align.RIGHT)
        if said is not None:
            yield Text((set_line(machine).width + _BESIDE, _MACHINE), said)
        for n, line in enumerate(self._way_below, 1):
            yield Text((_ZERO, _MACHINE - n * _NEXT), words(line, _WORD, bold=True))

    def _aside(self, cautions: str) -> Content:
        """What stands at the right of the machine: the speed, and where the ``cautions`` are, where it has room for that."""
        said = (speed_words(self.setting).partition(";")[0], cautions and f"cautions: {cautions}")
        return words("; ".join(filter(None, said)), _SMALL)

    @property
    def _way_below(self) -> list[str]:
        """Which way to feed in lines of their own under the machine, where it has no room beside that; never set smaller."""
        way = feed_in_short(self.setting)
        is_below = bool(way) and self._beside_machine()[1] is None
        return list(wrapped(way, self.wide, _WORD, bold=True)) if is_below else []

    def _beside_machine(self) -> tuple[Content, Content | None]:
        """Machine and cutter, and beside them which way to feed, or why it is cut there; None where there is no room for it. The
        machine is set smaller where that makes room for which way to feed.
        """
        room = self.wide - set_line(self._aside("")).width - _BETWEEN
        named = machine_words(self.setting, self.rule.sold)
        way = feed_in_short(self.setting)
        said = words(way, _WORD, bold=True) if way else words(why_words(self.setting, self.rule), _SMALL)
        for high in (_WORD, _SMALL) if way else (_WORD,):
            machine = words(named, high)
            if set_line(machine).width + _BESIDE + set_line(said).width <= room:
                return machine, said
        return fitted(named, room, (_WORD, _SMALL)), None


def why_words(setting: Setting, rule: Graduation) -> str:
    """Why it is cut with this machine and cutter."""
    return f"Why here: {setting.reason.sentence(rule.text)}"
