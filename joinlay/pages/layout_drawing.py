"""A sheet drawn small: its parts in grey, what is worth keeping in white, and its cuts numbered in the order to make them (CL-2).

What is hard is to letter it: a sheet of narrow parts has more numbers and names than white. All words are put down once, in
this order, and none is moved again. First the numbers of the cuts, those on the shortest lines first, since they have the
fewest places: some sixty places along each line are tried, from near where the saw comes out. A number that finds none stands
for a run of cuts together, then closer to other lines, then smaller. Then the parts: from the fullest wording (number, name,
size) to the number alone, from large to small, the first that fits. The work grows with the places tried times the words
already there. It can't promise a name on every part: one with room for none is only grey, and the list of cuts under the
drawing names it where it is done.
"""

from __future__ import annotations

from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING, Final, Union

from joinlay.cutlist.pattern import Direction, Panel, cut_steps
from joinlay.geometry import corners
from joinlay.lengths import ZERO, Fraction, Length
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pen.hatching import Waste
from joinlay.pen.lettering import Run, figures, plain, set_line, words
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text, Turn, box_around, flatten, text_box
from joinlay.pen.placing import MM, Room, Whole, whole
from joinlay.pen.signs import TONE
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.cutlist.pattern import CutSheet, CutStep, LaidPiece, SawCut
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Point, Stroke

__all__ = ["by", "layout_drawing", "read"]

_WORD, _SMALL, _TINY = Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
_ZERO, _BLACK, _WHITE = Fraction(0), Fraction(1), Fraction(0)
#: Left clear round a drawing, for the numbers of cuts along its edges.
_MARGIN: Final = Fraction(5)
#: Black round the figures of a cut's number: at the sides, above and below.
_ROUND: Final = (Fraction(4, 5), Fraction(3, 5))
#: How many places along a line are tried for its number, and the least white between two of them, in micrometres.
_SPOTS: Final = 60
_APART: Final = 3 * MM // 10
#: How much paper is given to what is left past the last part, where it is not drawn to its end, and how far a break line strays.
_LEFT_OVER: Final = Fraction(14)
_ZIGZAG: Final = Fraction(3, 2)
#: A crosscut shorter than this has its number in the middle; a longer cut has it so far from its end.
_SHORT, _FROM_END = Fraction(40), Fraction(5)
#: Where words are tried in a part, as shares of the room they leave: the middle first.
_SHIFTS: Final = tuple(Fraction(n, 8) for n in (0, 1, -1, 2, -2, 3, -3, 4, -4))
#: White between words of one line that do not belong together.
_GAP: Final = (Run("  ", Fraction(1)),)
#: A drawing is at most this many times as large as the whole sheet would be.
_LARGEST: Final = 3


def layout_drawing(sheet: CutSheet, kerf: Length, rule: Graduation, wide: Fraction, deep: Fraction) -> tuple[PageBlock, int]:
    """``sheet`` in a block ``wide`` mm across with its drawing at most ``deep`` mm high, and the scale: one to so many (CL-2).

    ``kerf`` is the saw's; sizes stand on ``rule``. The sheet's length lies from side to side, its near corner at the lower
    left. Where only a corner of it is used, what is left is broken off (ISO 128) so that the parts may be drawn larger.
    """
    scale, shown = _framed(sheet, wide - 2 * _MARGIN, deep)
    drawing = _Drawing(sheet, kerf, rule, shown, Fraction(1, scale))
    high = shown.width.mm / scale
    strokes = [
        *(Fill(corners(drawing.box(laid.panel)), TONE, Role.CUT) for laid in sheet.pieces),
        *drawing.edges(),
        *flatten(Waste(corners(drawing.box(defect))) for defect in sheet.defects),
        *(drawing.line(cut) for cut in sheet.cuts),
        *drawing.lettered(whole((_ZERO, -high - 2 * _MARGIN, wide, _ZERO))),
    ]
    low = -high - 2 * _MARGIN - _SMALL
    if sheet.blank.grain_known:
        strokes.append(Text((_MARGIN, low), words("The grain runs from side to side of this drawing.", _SMALL)))
    return PageBlock(tuple(strokes), high + 2 * _MARGIN + 6), scale


def _framed(sheet: CutSheet, wide: Fraction, deep: Fraction) -> tuple[int, Panel]:
    """The largest scale at which all parts and some of what is left go into ``wide`` by ``deep`` mm, and how much that shows."""
    long, broad = sheet.blank.length, sheet.blank.width
    last = max((laid.panel.along + laid.panel.length for laid in sheet.pieces), default=long)
    upper = max((laid.panel.across + laid.panel.width for laid in sheet.pieces), default=broad)
    whole_of_it = max(1, ceil(max(long.mm / wide, broad.mm / deep)))

    def shown(scale: int) -> Panel:
        more = Length(_LEFT_OVER * scale)
        # A little more than is shown anyway may as well be shown.
        length, width = (size if size - used <= 2 * more else used + more for size, used in ((long, last), (broad, upper)))
        return Panel(ZERO, ZERO, length, width)

    for scale in range(ceil(Fraction(whole_of_it, _LARGEST)), whole_of_it):
        panel = shown(scale)
        if panel.length.mm <= wide * scale and panel.width.mm <= deep * scale:
            return scale, panel
    return whole_of_it, shown(whole_of_it)


def by(panel: Panel, rule: Graduation) -> str:
    """Length by width of ``panel``, on ``rule``."""
    return f"{read(panel.length, rule)} × {read(panel.width, rule)}"


def read(length: Length, rule: Graduation) -> str:
    """``length`` on ``rule``, + and − for a hair more or less (MS-2)."""
    return plain(figures(length, rule, 1))


#: A cut's number: the room it takes, and what it is drawn with.
_Bead = tuple[Whole, list[Union[Fill, Text]]]


@dataclass(frozen=True, slots=True)
class _Drawing:
    """The sheet on paper: ``scale`` mm for each mm of wood; of it only ``shown``, which hangs down from y = -margin."""

    sheet: CutSheet
    kerf: Length
    rule: Graduation
    shown: Panel
    scale: Fraction

    def box(self, panel: Panel) -> Box:
        """What is shown of ``panel``, on paper."""
        low = -self.shown.width.mm * self.scale - _MARGIN
        ends = (panel.along, min(panel.along + panel.length, self.shown.length))
        edges = (panel.across, min(panel.across + panel.width, self.shown.width))
        x0, x1 = (_MARGIN + end.mm * self.scale for end in ends)
        y0, y1 = (low + edge.mm * self.scale for edge in edges)
        return (x0, y0, x1, y1)

    def line(self, cut: SawCut) -> Line:
        """The middle of the kerf, from edge to edge of the panel."""
        x0, y0, x1, y1 = self.box(cut.panel)
        at = (cut.at.mm + self.kerf.mm / 2) * self.scale
        if cut.direction is Direction.RIP:
            return Line((x0, min(y0 + at, y1)), (x1, min(y0 + at, y1)), Role.FRAME)
        return Line((min(x0 + at, x1), y0), (min(x0 + at, x1), y1), Role.FRAME)

    def edges(self) -> Iterator[Stroke]:
        """The sheet's own edges, and break lines where it goes on."""
        x0, y0, x1, y1 = self.box(self.shown)
        goes_on = self.shown.length < self.sheet.blank.length, self.shown.width < self.sheet.blank.width
        yield Polyline(((x1, y0), (x0, y0), (x0, y1)), Role.OUTLINE)
        for broken, start, end in ((goes_on[0], (x1, y0), (x1, y1)), (goes_on[1], (x0, y1), (x1, y1))):
            yield Polyline(_break(start, end), Role.BREAK) if broken else Line(start, end, Role.OUTLINE)

    def lettered(self, within: Whole) -> list[Stroke]:
        """The numbers of the cuts, the ones with least room first, then the names in what room is left."""
        taken: list[Whole] = []
        strokes: list[Stroke] = []
        lines = {cut.number: self.line(cut) for cut in self.sheet.cuts}
        boxes = {number: whole(box_around(line)) for number, line in lines.items()}
        for step in sorted(cut_steps(self.sheet), key=lambda step: min(_long(lines[cut.number]) for cut in step.cuts)):
            on = [lines[cut.number] for cut in step.cuts]
            own = {cut.number for cut in step.cuts}
            others = [box for number, box in boxes.items() if number not in own]
            for box, number in self._numbered(step, on, taken, others, within):
                taken.append(box)
                strokes += number
        return [*strokes, *self._labels(Room(taken, within))]

    def _numbered(
        self, step: CutStep, on: Sequence[Line], taken: Sequence[Whole], others: Sequence[Whole], within: Whole
    ) -> list[_Bead]:
        """A number on the line of each cut, away from other lines; where there isn't room, one for the run, or a small one."""
        each = [(str(cut.number), [line]) for cut, line in zip(step.cuts, on, strict=True)]
        together = [(step.numbers, list(on))]
        placed: list[_Bead | None] = []
        for height, numbers, clear in (
            (_SMALL, each, others), (_SMALL, together, others), (_SMALL, each, ()), (_SMALL, together, ()), (_TINY, together, ()),
        ):  # fmt: skip
            room = Room([*taken, *clear], within)
            placed = [_number(said, height, lines, room) for said, lines in numbers]
            if all(placed):
                break
        return [bead for bead in placed if bead is not None]

    def _labels(self, room: Room) -> Iterator[Text]:
        for laid in self.sheet.pieces:
            yield from _label(self._said(laid), self.box(laid.panel), room)
        for panel in self.sheet.offcuts:
            yield from _label([[words(f"keep {by(panel, self.rule)}", 1)]], self.box(panel), room)

    def _said(self, laid: LaidPiece) -> list[list[Content]]:
        """What may stand in a part, the fullest first: its number, its name and its size, in one line or more; or less."""
        number, name = words(str(laid.piece.row), 1, bold=True), words(laid.piece.name, 1)
        size = words(by(laid.panel, self.rule) + (", turned" if laid.turned else ""), 1)
        return [
            [(*number, *_GAP, *name), size],
            [number, name, size],
            [(*number, *_GAP, *name, *_GAP, *size)],
            [number, size],
            [(*number, *_GAP, *size)],
            [(*number, *_GAP, *name)],
            [number],
        ]


def _long(line: Line) -> Fraction:
    """How long it is: it is level or upright."""
    return abs(line.end[0] - line.start[0]) + abs(line.end[1] - line.start[1])


def _break(start: Point, end: Point) -> tuple[Point, ...]:
    """A break line from ``start`` to ``end`` with two zigzags."""
    (x0, y0), (x1, y1) = start, end
    points = [start]
    long = abs(x1 - x0) + abs(y1 - y0)
    (a, b) = ((x1 - x0) / long, (y1 - y0) / long)
    for share in (Fraction(1, 4), Fraction(3, 4)):
        x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
        for on, off in ((-1, 0), (Fraction(-1, 2), 1), (Fraction(1, 2), -1), (1, 0)):
            points.append((x + (a * on + b * off) * _ZIGZAG, y + (b * on + a * off) * _ZIGZAG))
    return (*points, end)


def _number(said: str, height: Fraction, lines: Sequence[Line], room: Room) -> _Bead | None:
    """A cut's number, white on black, on one of ``lines`` where nothing else is written; None where there is no room."""
    content = words(said, height, bold=True)
    wide, high = set_line(content).width / 2 + _ROUND[0], height / 2 + _ROUND[1]
    # In whole micrometres: there are many places to try, and where a number stands need not be exact.
    across, up = ceil(wide * MM), ceil(high * MM)
    for x, y in _spots(lines):
        taken = (x - across, y - up, x + across, y + up)
        if room.is_free(taken, _APART):
            room.take(taken)
            middle, line = Fraction(x, MM), Fraction(y, MM)
            box = (middle - wide, line - high, middle + wide, line + high)
            return taken, [Fill(_rounded(box), _BLACK), Text((middle, line - height / 2), content, Align.MIDDLE, ink=_WHITE)]
    return None


def _label(choices: Sequence[Sequence[Content]], box: Box, room: Room) -> Iterator[Text]:
    """The first of ``choices`` that has room in ``box``, as large as may be, reading along its longer side."""
    for lines in choices:
        for height in (_WORD, _SMALL):
            for texts in _in_box([_at(line, height) for line in lines], height, box):
                if all(room.is_free(whole(text_box(text)), _APART) for text in texts):
                    for text in texts:
                        room.take(whole(text_box(text)))
                    yield from texts
                    return


def _at(content: Content, height: Fraction) -> Content:
    """The same words at another height."""
    return tuple(replace(run, height=height) for run in content)


def _in_box(lines: Sequence[Content], height: Fraction, box: Box) -> Iterator[list[Text]]:
    """``lines`` in the middle of ``box``, along its longer side, then shifted either way; nothing where they do not fit."""
    x0, y0, x1, y1 = box
    upright = y1 - y0 > x1 - x0
    long, deep = (y1 - y0, x1 - x0) if upright else (x1 - x0, y1 - y0)
    step = height * Fraction(3, 2)
    spare = long - 2 - max(set_line(line).width for line in lines)
    if spare < 0 or step * len(lines) > deep - Fraction(1, 2):
        return
    for share in _SHIFTS:
        shift = spare * share
        texts = []
        for n, line in enumerate(lines):
            off = ((len(lines) - 1) / Fraction(2) - n) * step - height / 2
            x, y = (x0 + x1) / 2, (y0 + y1) / 2
            at = (x - off, y + shift) if upright else (x + shift, y + off)
            texts.append(Text(at, line, Align.MIDDLE, Turn.UP if upright else Turn.RIGHT))
        yield texts


def _spots(lines: Sequence[Line]) -> Iterator[tuple[int, int]]:
    """Places on the lines for a number, in micrometres.

    On a short line from the middle outwards; on a longer one from near where the saw comes out.
    """
    for line in lines:
        x0, y0, x1, y1 = whole(box_around(line))
        long = _long(line)
        # A rip has names above and below it, so its number goes to the end sooner.
        is_long = long > (_SHORT if y1 - y0 > x1 - x0 else 3 * _FROM_END)
        first = round((1 - _FROM_END / long) * _SPOTS) if is_long else _SPOTS // 2
        for n in sorted(range(1, _SPOTS), key=lambda n: abs(n - first)):
            yield x0 + (x1 - x0) * n // _SPOTS, y0 + (y1 - y0) * n // _SPOTS


def _rounded(box: Box) -> tuple[tuple[Fraction, Fraction], ...]:
    """A box with its corners cut off, so that it reads as a bead and not as wood."""
    x0, y0, x1, y1 = box
    c = (y1 - y0) / 4
    return ((x0 + c, y0), (x1 - c, y0), (x1, y0 + c), (x1, y1 - c), (x1 - c, y1), (x0 + c, y1), (x0, y1 - c), (x0, y0 + c))
