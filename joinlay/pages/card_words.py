"""What a setting card says under its figures: how the parts lie and where they stop, the test piece."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pages.card_figures import called, figures_said, shortly
from joinlay.pages.plain_sheet import Paragraph
from joinlay.records import dataclass
from joinlay.settings.wording import (
    is_turned,
    lying_together,
    measure_words,
    offset_words,
    position_clauses,
    remainder_words,
    said_on,
    stop_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.lengths import Graduation, Length
    from joinlay.settings import Reading, Setting, Work

__all__ = ["CardWords"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
_ZERO: Final = Fraction(0)
#: Letter heights in mm: figures read while holding a part; the rest; small print.
_HELD, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
_INDENT: Final = Fraction(3)
#: From one line of words to the next, in heights of a capital; the white over a paragraph.
_CLOSE, _WHITE = Fraction(7, 5), Fraction(3, 5)


@dataclass(frozen=True, slots=True)
class CardWords:
    """What the card of ``setting`` says: ``told`` are readings that stand large already, ``remarks`` what is to be done beside
    them, ``cautions`` where what to beware of stands, if
    the head doesn't say it. ``again`` is said first where all is set as it was for the card before.
    """

    setting: Setting
    rule: Graduation
    told: Sequence[Reading]
    remarks: Sequence[str]
    cautions: str
    again: str = ""

    def paragraphs(self, wide: Fraction) -> list[Paragraph]:
        """All of it in its order, for lines ``wide`` mm long. Rules MS-1, MS-2."""
        first = [Paragraph(self.again, _SMALL, above=_WHITE)] if self.again else []
        said = [*first, *self._parts(wide), *self._rest()]
        return [replace(one, leading=_CLOSE) for one in said]

    def _parts(self, wide: Fraction) -> Iterator[Paragraph]:
        """How the parts lie, which they are, where they stop: read while holding them. What all of them have in common is said
        once.
        """
        for lying, works in lying_together(self.setting):
            yield Paragraph(lying, _WORD, bold=True, above=_WHITE, leads=True)
            placed = [position_clauses(self.setting, work, self._figures) for work in works]
            turned = [is_turned(self.setting, work) for work in works]
            common = _common(placed) if len(works) > 1 else ()
            all_turned = all(turned) and bool(common)
            if common:
                both = "both ways round; " if all_turned else ""
                yield _held(f"All: {both}{shortly(said_on(common))}", above=_WHITE, leads=True)
            for work, clauses, is_both in zip(works, placed, turned, strict=True):
                ends = ", both ways round" if is_both and not all_turned else ""
                name = f"{work.count} × {in_few_words(work.boards)}{ends}"
                held = [*self._stopped(work)]
                if own := said_on(clause for clause in clauses if clause not in common):
                    held.append(shortly(own))
                if len(held) == 1 and _goes_with(inline := _held(f"{name}: {held[0]}", above=_WHITE), held[0], wide):
                    yield inline
                    continue
                yield Paragraph(name, _WORD, above=_WHITE, leads=bool(held))
                yield from (_held(said, indent=_INDENT) for said in held)
            if squared := [board for work in works if work.squared for board in work.boards]:
                which = "" if all(work.squared for work in works) else f": {in_few_words(squared)}"
                yield Paragraph(f"Then chop the round ends square{which}", _WORD, above=_WHITE)

    def _stopped(self, work: Work) -> Iterator[str]:
        """Where the work stops, if it does."""
        if work.stops is not None:
            yield shortly(stop_words(work.stops, self._figures, at_table=self.setting.machine in _TABLES))

    def _rest(self) -> Iterator[Paragraph]:
        """Everything else: what is set besides, what the remainders do, small; the test piece."""
        setting = self.setting
        for reading in setting.readings:
            if reading not in self.told:
                yield Paragraph(f"{called(setting, reading)}: {reading.on_rule.text}", _WORD)
        if offset := offset_words(setting, self.rule.text):
            yield Paragraph(f"{offset[0].upper()}{offset[1:]}", _SMALL, above=_WHITE)
        left_over = dict.fromkeys(said for said in (remainder_words(each, self.rule) for each in setting.readings) if said)
        if small := [f"{said[0].upper()}{said[1:]}." for said in left_over]:
            yield Paragraph(" ".join(small), _SMALL, above=_WHITE)
        for remark in self.remarks:
            yield Paragraph(f"{remark[0].upper()}{remark[1:]}", _WORD, above=_WHITE)
        piece = f"Test piece: {measure_words(setting, self.rule.callipers)}"
        said = f"{piece}. Cautions: {self.cautions}" if self.cautions else piece
        yield Paragraph(said, _WORD, above=_WHITE, between=_SMALL)

    def _figures(self, length: Length) -> str:
        return figures_said(length, self.rule)


def _held(said: str, *, above: Fraction = _ZERO, indent: Fraction = _ZERO, leads: bool = False) -> Paragraph:
    """What is read while holding a part: its figures large."""
    return Paragraph(said, _HELD, above=above, indent=indent, leads=leads, between=_WORD)


def _goes_with(inline: Paragraph, held: str, wide: Fraction) -> bool:
    """Whether what is read while ``held`` goes behind the name of its part: that takes no more lines, and the first has a
    figure.
    """
    lines = inline.lines(wide)
    return lines[0][1] == _HELD and len(lines) <= 1 + len(_held(held, indent=_INDENT).lines(wide))


def _common(placed: Sequence[Sequence[str]]) -> tuple[str, ...]:
    """The pieces that are in every one of ``placed``, as they stand in the first."""
    return tuple(piece for piece in placed[0] if all(piece in other for other in placed[1:]))
