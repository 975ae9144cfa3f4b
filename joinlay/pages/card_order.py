"""The order of the settings on paper: cutter after cutter, a box to tick for each card, and what the order saves (MS-3)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.findings import Harm
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pages.frames import wrapped
from joinlay.pages.plain_sheet import Block, flow
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Line, Polyline, Role, Text
from joinlay.settings import Change, Value
from joinlay.settings.wording import band_words, cut_words, machine_words, order_words, set_up_words, told_together, touch_words

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.findings import Finding
    from joinlay.lengths import Graduation
    from joinlay.pages.plain_sheet import PlainPages
    from joinlay.pages.sheet import Sheet
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Stroke
    from joinlay.settings import Reading, Setting, SettingsList

__all__ = ["order_sheets"]

_TITLE, _WORD, _SMALL = Fraction(5), Fraction(7, 2), Fraction(5, 2)
_STEP, _FINE_STEP, _ROW = Fraction(11, 2), Fraction(4), Fraction(13, 2)
_ZERO: Final = Fraction(0)
#: Where the columns stand: right edge of the card's number, left edges of what is cut; from the right, the fence, the height, what is touched.
_NUMBER, _CUT = Fraction(13), Fraction(17)
_FENCE, _HEIGHT, _CHANGE = Fraction(71), Fraction(39), Fraction(0)
_FENCE_WIDE, _CHANGE_WIDE = Fraction(14), Fraction(36)
_HARM: Final = {Harm.REFUSE: "Refused", Harm.WARN: "Warning", Harm.NOTE: "Note"}


def order_sheets(found: SettingsList, pages: PlainPages) -> tuple[Sheet, ...]:
    """Every card of ``found`` in the order to cut: what, where fence and height stand, what has to be touched.

    On top how many set-ups that takes, and how many taking part after part would; then what has to be banded first. Last, what was found.
    Rules MS-3, EB-1.
    """
    left, bottom, right, top = pages.box
    wide, rule = right - left, pages.plan.rule
    blocks = [_title(f"{pages.plan.title}: machine settings, in the order to cut", wide)]
    blocks += (_line(said, wide) for said in (order_words(found), *(f"First, {band_words(each)}." for each in found.bands)))
    blocks.append(_small_line(set_up_words(), wide))
    # What has no card must be known before the others are cut; what the rule leaves over stands on the cards themselves.
    refused = [finding for finding in found.findings if finding.harm is Harm.REFUSE]
    worth = [finding for finding in found.findings if finding.harm is not Harm.REFUSE and finding.kind != "rule"]
    blocks += (_found(finding, wide, rule) for finding in told_together(refused))
    blocks.append(_captions(wide))
    before: Setting | None = None
    for setting in found.settings:
        if before is None or Change.CUTTER in setting.changes or before.machine is not setting.machine:
            blocks.append(_heading(machine_words(setting, rule.sold), wide))
        blocks.append(_row(setting, wide, rule))
        before = setting
    blocks += (_found(finding, wide, rule) for finding in told_together(worth))
    parted = flow(blocks, top - bottom)
    return pages.sheets([("order of the cards", pages.stacked(page)) for page in parted])


def _title(said: str, wide: Fraction) -> Block:
    line = fitted(said, wide, (_TITLE, _WORD, _SMALL), bold=True)
    return Block((Text((_ZERO, -_TITLE - 2), line),), Fraction(11), leads=True)


def _line(said: str, wide: Fraction) -> Block:
    lines = [words(line, _WORD) for line in wrapped(said, wide, _WORD)]
    return Block(tuple(_under(lines, _ZERO)), len(lines) * _STEP + 2, leads=True)


def _under(lines: Iterable[Content], y: Fraction, step: Fraction = _STEP) -> Iterator[Stroke]:
    for n, line in enumerate(lines):
        yield Text((_ZERO, y - _WORD - n * step), line)


def _captions(wide: Fraction) -> Block:
    """What the columns are."""
    columns = (("fence", _FENCE), ("height or depth", _HEIGHT), ("to touch", _CHANGE))
    return Block(
        tuple(Text((wide - right, Fraction(-4)), words(said, _SMALL), Align.RIGHT) for said, right in columns),
        Fraction(3),
        leads=True,
    )


def _heading(said: str, wide: Fraction) -> Block:
    """The machine and its cutter."""
    name = Text((_ZERO, Fraction(-13, 2)), fitted(said, wide, (_WORD, _SMALL), bold=True))
    return Block((name, Line((_ZERO, Fraction(-17, 2)), (wide, Fraction(-17, 2)), Role.FRAME)), Fraction(17, 2), leads=True)


def _row(setting: Setting, wide: Fraction, rule: Graduation) -> Block:
    """A box to tick, the card's number, what is cut, and the figures; names that are long go on below."""
    fences, heights = ([each for each in setting.readings if (each.value is Value.HEIGHT) is which] for which in (False, True))
    taken = set_line(_first_and_more(fences, rule)).width if fences else _ZERO
    lines = list(wrapped(f"{setting.count} × {cut_words(setting)}", wide - _FENCE - max(taken + 3, _FENCE_WIDE) - _CUT, _WORD))
    high = max(_ROW, len(lines) * _STEP + 2)
    y = Fraction(-19, 4)
    strokes: list[Stroke] = [
        Polyline(corners((_ZERO, y - Fraction(1, 2), Fraction(4), y + Fraction(7, 2))), Role.FRAME, closed=True),
        Text((_NUMBER, y), words(str(setting.number), _WORD, bold=True), Align.RIGHT),
        *(Text((_CUT, y - n * _STEP), words(line, _WORD)) for n, line in enumerate(lines)),
        Text((wide - _CHANGE, y), fitted(touch_words(setting), _CHANGE_WIDE, (_WORD, _SMALL)), Align.RIGHT),
        Line((_ZERO, -high), (wide, -high), Role.HATCH),
    ]
    for readings, from_right in ((fences, _FENCE), (heights, _HEIGHT)):
        if readings:
            strokes.append(Text((wide - from_right, y), _first_and_more(readings, rule), Align.RIGHT))
    return Block(tuple(strokes), high)


def _first_and_more(readings: Sequence[Reading], rule: Graduation) -> Content:
    """The first value in figures, and the last where there are several."""
    first = figures(readings[0].exact, rule, _WORD)
    if len(readings) == 1:
        return first
    return (*first, Run(" to ", _WORD), *figures(readings[-1].exact, rule, _WORD))


def _found(finding: Finding, wide: Fraction, rule: Graduation) -> Block:
    told = " ".join(
        f"{said[0].upper()}{said[1:].rstrip('.')}." for said in (finding.sentence(rule.text), finding.way_out(rule.text)) if said
    )
    return _small_line(f"{_HARM[finding.harm]}, {finding.where}: {told}", wide)


def _small_line(said: str, wide: Fraction) -> Block:
    lines = [words(line, _SMALL) for line in wrapped(said, wide, _SMALL)]
    return Block(tuple(_under(lines, Fraction(-2), _FINE_STEP)), len(lines) * _FINE_STEP + 2)
