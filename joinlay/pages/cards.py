"""Setting cards: one set-up on a sheet, its key numbers readable at arm's length, with a view at true size (MS-1)."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.drawings.lettering import figures, fitted, plain, set_line, words
from joinlay.drawings.marks import Align, Line, Move, Role, Text, bounds_of, flatten, moved
from joinlay.drawings.template import Template
from joinlay.lengths import Unit
from joinlay.pages.frames import Paragraph, fill_frames, halves
from joinlay.pages.measures import SQUARE
from joinlay.pages.paper import Printer
from joinlay.pages.section_view import SectionView
from joinlay.pages.sheet import Laid, Sheet, bind
from joinlay.pages.title_block import Foot
from joinlay.settings import Value
from joinlay.settings.wording import (
    change_words,
    correction_pairs,
    cut_words,
    lying_together,
    machine_words,
    measure_words,
    position_words,
    remainder_words,
    speed_words,
    stop_words,
    value_words,
)
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Board
    from joinlay.drawings.marks import Box, Stroke
    from joinlay.lengths import Graduation, Length
    from joinlay.pages.paper import Paper
    from joinlay.settings import Reading, Setting, SettingsList, Work

__all__ = ["setting_sheets"]

_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)
_GAP: Final = Fraction(5)
#: Letter heights in mm: figures to set by, what is read while holding a part, the rest, and small print.
_KEY, _LOWER_KEY, _HELD, _WORD, _SMALL = Fraction(10), Fraction(7), Fraction(5), Fraction(7, 2), Fraction(5, 2)
#: The head of a card, and the room of one key number.
_HEAD: Final = Fraction(31)
_ROW, _LEAST_ROW = Fraction(22), Fraction(17)
#: How far a fraction reaches up, in heights of the figure beside it.
_FRACTION_HIGH: Final = Fraction(23, 20)
_MANY_KEYS: Final = 3
_INDENT: Final = Fraction(4)
#: How high wood is drawn in the view, and how wide the view is.
_VIEW_HIGH, _VIEW_WIDE = Fraction(45), Fraction(112)
#: A view higher than this would push everything else off the sheet.
_VIEW_HIGHEST: Final = Fraction(95)
#: More key numbers than this, in all and in one of two columns, are told in words below.
_MOST_KEYS: Final = 6
_COLUMN: Final = 3


@dataclass(frozen=True, slots=True)
class _Job:
    """What every card of a job has in common."""

    boards: dict[str, Board]
    paper: Paper
    rule: Graduation
    title: str
    file: str
    printer: Printer

    @property
    def area(self) -> Box:
        return self.printer.room(self.paper)

    @property
    def frames(self) -> tuple[Box, Box]:
        """The card above the check square, and what is left beside the square."""
        left, bottom, right, top = self.area
        return (left, bottom + SQUARE + _GAP, right, top), (left, bottom, right - SQUARE - _GAP, bottom + SQUARE)


def setting_sheets(
    found: SettingsList,
    boards: Sequence[Board],
    paper: Paper,
    rule: Graduation,
    *,
    title: str,
    file: str,
    printer: Printer | None = None,
) -> tuple[Sheet, ...]:
    """A sheet for each setting of ``found``, in order; a second one where a card has too much to say for one.

    ``boards`` are those the settings were made for. Every sheet has its check square, since the view is true to size (PR-1, PR-2). MS-1.
    """
    job = _Job({board.name: board for board in boards}, paper, rule, title, file, printer or Printer())
    return bind([_sheet(setting, strokes, job) for setting in found.settings for strokes in _card(setting, job)])


def _sheet(setting: Setting, strokes: tuple[Stroke, ...], job: _Job) -> Sheet:
    _, bottom, right, _ = job.area
    laid = Laid(
        Template((f"setting {setting.number}",), cut_words(setting), strokes, bounds_of(strokes)), Move(), serves=_served(setting)
    )
    unit = "inches" if job.rule.unit is Unit.INCH else "mm"
    foot = Foot(
        job.title, (laid.title,), job.paper, job.file, unit, (right - SQUARE, bottom), document="setting", printer=job.printer
    )
    return Sheet(job.paper, job.printer, strokes, foot, (laid,))


def _served(setting: Setting) -> tuple[str, ...]:
    return tuple(dict.fromkeys(name for work in setting.works for name in work.boards))


def _card(setting: Setting, job: _Job) -> Iterator[tuple[Stroke, ...]]:
    """The strokes of each sheet of a card."""
    upper, lower = job.frames
    left, _, right, top = upper
    head = tuple(_head(setting, (left, top - _HEAD, right, top), job.rule))
    view, low = _view(setting, (left, top - _HEAD - _GAP), job)
    # Beside the view; under one that takes the width of the sheet, in two columns.
    if bounds_of(view)[2] > left + _VIEW_WIDE - 2:
        columns = [(left, left + _VIEW_WIDE, low - _GAP), (left + _VIEW_WIDE, right, low - _GAP)]
    else:
        columns = [(left + _VIEW_WIDE, right, top - _HEAD - _GAP)]
    keys = _shared_out(setting, len(columns))
    rows: list[Stroke] = []
    deep = low
    for column, told in zip(columns, keys, strict=True):
        drawn, reached = _keys(setting, told, column, job.rule)
        rows += drawn
        deep = min(deep, reached)
    said = [*_parts(setting, job), *_rest(setting, job, told=[each for column in keys for each in column])]
    strokes, waiting = fill_frames(said, ((left, upper[1], right, deep - _GAP), lower))
    yield (*head, *view, *rows, *strokes)
    while waiting:
        more, still = fill_frames(waiting, ((left, upper[1], right, top - _HEAD - _GAP), lower))
        if len(still) == len(waiting):
            # Longer than a whole sheet by itself: a list of names without end. It is told in two halves.
            waiting = (*halves(waiting[0]), *waiting[1:])
            continue
        waiting = still
        yield (*head, *more)


def _head(setting: Setting, box: Box, rule: Graduation) -> Iterator[Stroke]:
    """Which setting, what is cut, what has to be touched; then machine, cutter and speed."""
    left, bottom, right, top = box
    name = fitted(f"{setting.number}  {cut_words(setting)}", right - left - 60, (_LOWER_KEY, _HELD, _WORD), bold=True)
    yield Text((left, top - 9), name)
    yield Text((right, top - 9), words(change_words(setting.changes), _HELD), Align.RIGHT)
    yield Line((left, top - 12), (right, top - 12), Role.FRAME)
    yield Text((left, top - 19), fitted(machine_words(setting, rule.text), right - left, (_HELD, _WORD, _SMALL)))
    if setting.speed is not None:
        yield Text((left, top - 25), words(speed_words(setting), _WORD))
    why = f"Why here: {setting.reason.sentence(rule.text)}"
    yield Text((left, bottom + 1), fitted(why, right - left, (_SMALL,)))


def _view(setting: Setting, corner: tuple[Fraction, Fraction], job: _Job) -> tuple[tuple[Stroke, ...], Fraction]:
    """The view at true size with its upper left corner at ``corner``, and how far down it reaches."""
    board = job.boards[setting.works[0].boards[0]]
    marks = tuple(flatten((SectionView(setting, board, job.rule, _VIEW_WIDE - 4, _VIEW_HIGH),)))
    x0, y0, x1, y1 = bounds_of(marks)
    left, top = corner
    if x1 - x0 > job.area[2] - left or y1 - y0 > _VIEW_HIGHEST:
        return (Text((left, top - 5), words("the cut is too large to be drawn true on this paper", _SMALL)),), top - 7
    move = Move(left - x0, top - y1)
    low = top - (y1 - y0)
    says = "seen from the out-feed side, true to size" if setting.machine in _TABLES else "seen along the cut, true to size"
    caption = Text((left, low - 5), words(says, _SMALL))
    return (*(moved(mark, move) for mark in marks), caption), low - 7


def _shared_out(setting: Setting, columns: int) -> list[list[Reading]]:
    """The readings that are told large, in one column or in two; the first fences and the full height go before the rest."""
    fences, heights = ([each for each in setting.readings if (each.value is Value.HEIGHT) is which] for which in (False, True))
    if columns > 1:
        return [fences[:_COLUMN], heights[-_COLUMN:]]
    if len(fences) + len(heights) <= _MOST_KEYS:
        return [fences + heights]
    return [fences[: _MOST_KEYS - 2] + heights[-2:]]


def _keys(
    setting: Setting, keys: Sequence[Reading], room: tuple[Fraction, Fraction, Fraction], rule: Graduation
) -> tuple[tuple[Stroke, ...], Fraction]:
    """The values to set, one under the other: what it is, the figure large, and what the rule leaves over."""
    left, right, top = room
    row, high = (_ROW, _KEY) if len(keys) <= _MANY_KEYS else (_LEAST_ROW, _LOWER_KEY)
    strokes: list[Stroke] = []
    for n, reading in enumerate(keys):
        y = top - n * row
        strokes.append(Text((left, y - 4), fitted(_called(setting, reading), right - left, (_WORD, _SMALL))))
        y -= 6 + high * _FRACTION_HIGH
        figure = figures(reading.exact, rule, high, bold=True)
        strokes.append(Text((left, y), figure))
        width = set_line(figure).width
        rest = " ".join(part for part in (reading.on_rule.unit, reading.on_rule.remainder.strip()) if part)
        strokes.append(Text((left + width + 2, y), fitted(rest, right - left - width - 2, (_WORD, _SMALL))))
    return tuple(strokes), top - len(keys) * row


def _called(setting: Setting, reading: Reading) -> str:
    """What is set, with its turn where it is set more than once."""
    alike = [each for each in setting.readings if each.value is reading.value]
    said = value_words(setting, reading.value)
    return f"{said}, {alike.index(reading) + 1} of {len(alike)}" if len(alike) > 1 else said


def _parts(setting: Setting, job: _Job) -> Iterator[Paragraph]:
    """How the parts lie, which they are, where they stop: read while holding them."""
    for lying, works in lying_together(setting):
        yield Paragraph(lying, _HELD, bold=True, above=Fraction(3), leads=True)
        for work in works:
            turns = sum(other.boards == work.boards and other.positions == work.positions for other in setting.works)
            ends = " at both ends" if turns > 1 and work.stops is None else ""
            held = tuple(_held(setting, work, job.rule))
            yield Paragraph(f"{work.count} × {in_few_words(work.boards)}{ends}", _WORD, above=Fraction(1), leads=bool(held))
            yield from held


def _held(setting: Setting, work: Work, rule: Graduation) -> Iterator[Paragraph]:
    def show(length: Length) -> str:
        return plain(figures(length, rule, _HELD)).replace(" +", "+")

    if work.stops is not None:
        yield Paragraph(stop_words(work.stops, show, at_table=setting.machine in _TABLES), _HELD, indent=_INDENT)
    if work.positions:
        yield Paragraph(position_words(work, show), _HELD, indent=_INDENT)
    if work.squared:
        yield Paragraph("chop the round ends square", _WORD, indent=_INDENT)


def _rest(setting: Setting, job: _Job, *, told: Sequence[Reading]) -> Iterator[Paragraph]:
    """Everything else, small: remainders, test piece and its corrections, the reason, the cautions."""
    for reading in setting.readings:
        if reading not in told:
            yield Paragraph(f"{_called(setting, reading)}: {reading.on_rule.text}", _WORD)
    left_over = [said for said in (remainder_words(each, job.rule) for each in setting.readings) if said]
    if left_over:
        yield Paragraph("; ".join(left_over), _SMALL, above=Fraction(3))
    yield Paragraph(f"Test piece: {measure_words(setting, job.rule.text)}", _WORD, above=Fraction(3))
    for said in correction_pairs(setting):
        yield Paragraph(said, _SMALL, indent=_INDENT)
    for n, caution in enumerate(setting.cautions):
        yield Paragraph(caution.value, _SMALL, above=Fraction(2) if n == 0 else Fraction(1, 2))
