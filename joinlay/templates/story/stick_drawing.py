"""Drawing a story stick: a strip with its stretches in lanes, a tick to the edge for each position, its figure, and what it is.

The stick stands upright, zero at the foot. From the left: the edge to mark from, the lanes, lines that lead to the figures, the
figures and names, and a lane for what the stick is, said again and again so that every tile of a long one tells it. At the foot
the end that everything is counted from, at the top the far end with the cabinetmaker's triangle.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.blocks import stacked
from joinlay.pen.hatching import Waste
from joinlay.pen.lettering import fitted, set_line, unparted, words
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text, Turn, flatten
from joinlay.pen.signs import BAR, TONE
from joinlay.records import dataclass
from joinlay.templates.story.stick import Apex, StretchKind
from joinlay.templates.story.stick_labels import label
from joinlay.templates.template import SMALL, WORD

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Point, Stroke
    from joinlay.templates.story.stick import Stick, Stretch
    from joinlay.templates.story.stick_labels import Inside, LabelRow, Labels

__all__ = ["draw_stick"]

#: Paper between the edge and the first lane, so that ticks are seen to reach it; the width of a lane; room for lines to the rows.
_EDGE, _LANE, _LEAD = Fraction(3, 2), Fraction(7, 2), Fraction(3)
#: White before and after the rows, and the lane of the title.
_WHITE, _TITLE = Fraction(3, 5), Fraction(18, 5)
#: From one title to the next, and white between two of the things that are said along the stick.
_AGAIN, _APART = Fraction(250), Fraction(20)
_DOT: Final = Fraction(1, 2)
_LEAST_ROWS: Final = Fraction(20)
#: Paper past the far end, for the triangle at the least, and white under and over its words there.
_FAR_ROOM, _FAR_WHITE = Fraction(12), Fraction(1, 2)
#: White over and under a line of words at the foot.
_LINE_GAP: Final = Fraction(1, 2)
#: The triangle: half its base, and its height.
_HALF, _TALL = Fraction(7, 2), Fraction(7)
#: The pointers under the heavy bar: half as wide as they are, and how high.
_POINT: Final = (Fraction(2), Fraction(7, 2))
_BLACK: Final = Fraction(1)
_ZERO: Final = Fraction(0)


def draw_stick(stick: Stick, rule: Graduation) -> tuple[Stroke, ...]:
    """Every stroke of ``stick``, figures on ``rule``; x = 0 at the edge to mark from, y = 0 at the end that is counted from."""
    return tuple(flatten(_DrawnStick(stick, label(stick, rule)).marks()))


@dataclass(frozen=True, slots=True)
class _DrawnStick:
    stick: Stick
    labels: Labels

    @property
    def lanes_end(self) -> Fraction:
        return _EDGE + self.stick.lanes * _LANE

    @property
    def rows_start(self) -> Fraction:
        return self.lanes_end + _LEAD

    @property
    def title_start(self) -> Fraction:
        return self.rows_start + _WHITE + max(self.labels.width, _LEAST_ROWS) + _WHITE

    @property
    def width(self) -> Fraction:
        return self.title_start + _TITLE

    @property
    def top(self) -> Fraction:
        """Where the paper's far margin begins: past the end of the wood and past the last row."""
        return self.stick.length if self.labels.top <= self.stick.length else self.labels.top + 1

    @property
    def far_words(self) -> Block:
        """The name of the far end, beside what the triangle stands for."""
        wide = set_line(words(self.stick.top, SMALL, bold=True)).width
        return stacked(_in_lines(self.stick.far.upper(), self.width - 2 * _HALF - wide - 7))

    @property
    def far_room(self) -> Fraction:
        """How high the paper's far margin is."""
        return max(_FAR_ROOM, self.far_words.height + 2 * _FAR_WHITE)

    def marks(self) -> Iterator[Mark]:
        for stretch in self.stick.stretches:
            yield from self._stretch(stretch)
        for at, parts in self.stick.places.items():
            is_centre = any(centre.at == at for centre in self.stick.centres)
            says = "; ".join(parts) or (self.stick.far if at else self.stick.datum)
            yield Line((_ZERO, at), (self.lanes_end, at), Role.CENTRE if is_centre else Role.CUT, says)
        yield Line((_ZERO, _ZERO), (_ZERO, self.stick.length), Role.OUTLINE, "edge to mark from")
        yield Line((self.width, _ZERO), (self.width, self.top + self.far_room), Role.REGISTER)
        for inside in self.labels.inside:
            yield self._inside(inside)
        for row in self.labels.rows:
            yield from self._row(row)
        yield from self._titles()
        yield from _datum_end(self.stick, self.width)
        yield from self._far_end()

    # -- what lies along the stick -------------------------------------------------------------------

    def _lane(self, stretch: Stretch) -> Box:
        left = _EDGE + stretch.lane * _LANE
        low, high = self.stick.seen(stretch)
        return (left, low, left + _LANE, high)

    def _stretch(self, stretch: Stretch) -> Iterator[Mark]:
        box = corners(self._lane(stretch))
        if stretch.kind is StretchKind.WOOD:
            yield Fill(box, TONE, Role.CUT)
            yield Polyline(box, Role.DIMENSION, closed=True)
        elif stretch.kind is StretchKind.CUT:
            if not any(inside.stretch is stretch for inside in self.labels.inside):
                yield Waste(box)
            yield Polyline(box, Role.DIMENSION, closed=True)

    def _inside(self, inside: Inside) -> Text:
        left, _, right, _ = self._lane(inside.stretch)
        line = set_line(inside.content)
        baseline = (left + right - line.rise - line.fall) / 2 + line.rise
        return Text((baseline, inside.middle), inside.content, Align.MIDDLE, Turn.UP)

    # -- rows ----------------------------------------------------------------------------------------

    def _row(self, row: LabelRow) -> Iterator[Mark]:
        end = (self.rows_start, row.middle)
        bend = (self.lanes_end, row.at)
        if row.lane is None:
            yield Line(bend, end, Role.DIMENSION)
        else:
            x = _EDGE + row.lane * _LANE + _LANE / 2
            y = row.at
            yield Fill(((x - _DOT, y), (x, y - _DOT), (x + _DOT, y), (x, y + _DOT)), _BLACK, Role.DIMENSION)
            yield Polyline(((x, y), bend, end), Role.DIMENSION)
        yield from row.block.marks(self.rows_start + _WHITE, row.middle - row.block.height / 2)

    # -- what the stick is ---------------------------------------------------------------------------

    def _titles(self) -> Iterator[Mark]:
        """The title, half-way to the next which end is zero, and both again every 250 mm."""
        sayings = (
            (f"{in_few_words(self.stick.names)}: {self.stick.measures}", True),
            (f"count from the {self.stick.datum}", False),
        )
        room = min(_AGAIN / len(sayings), self.top) - _APART
        for turn, (said, is_title) in enumerate(sayings):
            content = fitted(said, room, (SMALL, Fraction(9, 5)), bold=is_title)
            y = 2 + turn * _AGAIN / len(sayings)
            while y + set_line(content).width <= self.top:
                yield self._title(y, content)
                y += _AGAIN

    def _title(self, y: Fraction, content: Content) -> Text:
        line = set_line(content)
        baseline = self.title_start + (_TITLE - line.rise - line.fall) / 2 + line.rise
        return Text((baseline, y), content, turn=Turn.UP)

    def _far_end(self) -> Iterator[Mark]:
        """The far end's line, its name above the top, and the triangle whose apex shows how the piece stands."""
        stick, width, top, room = self.stick, self.width, self.top, self.far_room
        yield Line((_ZERO, stick.length), (width if top == stick.length else Fraction(2), stick.length), Role.OUTLINE, stick.far)
        said = words(stick.top, SMALL, bold=True)
        middle = (width - 3 - _HALF, top + room / 2)
        yield Polyline(_triangle(middle, stick.apex), Role.OUTLINE, closed=True, says="triangle")
        yield Text((middle[0] - _HALF - 1, middle[1] - set_line(said).rise / 2), said, Align.RIGHT)
        yield from self.far_words.marks(Fraction(2), top + (room - self.far_words.height) / 2)


def _datum_end(stick: Stick, width: Fraction) -> Iterator[Mark]:
    """A heavy bar under zero, pointers that touch it, and the name of the end."""
    yield Fill(((_ZERO, -BAR), (width, -BAR), (width, _ZERO), (_ZERO, _ZERO)), _BLACK)
    half, tall = _POINT
    for x in (half + 1, width - half - 1):
        y = -BAR - 1
        yield Fill(((x, y), (x - half, y - tall), (x + half, y - tall)), _BLACK)
    y = -BAR - _LINE_GAP
    shown = "grey is wood, crossed is cut" if any(one.kind is StretchKind.CUT for one in stick.stretches) else "grey is wood"
    told = _parted(f"Count from here; {stick.lies}. {shown[0].upper()}{shown[1:]}.", width - 1, SMALL, bold=False)
    for line in (*_in_lines(stick.datum.upper(), width - 4 * half - 4), *(words(line, SMALL) for line in told)):
        set_out = set_line(line)
        y -= set_out.rise
        yield Text((width / 2, y), line, Align.MIDDLE)
        y -= set_out.fall + _LINE_GAP


def _triangle(middle: Point, apex: Apex) -> tuple[Point, Point, Point]:
    """The cabinetmaker's triangle about ``middle``, its apex up, down or to the edge at the left."""
    x, y = middle
    half, tall = _HALF, _TALL / 2
    return {
        Apex.FAR: ((x - half, y - tall), (x + half, y - tall), (x, y + tall)),
        Apex.DATUM: ((x - half, y + tall), (x + half, y + tall), (x, y - tall)),
        Apex.EDGE: ((x + tall, y - half), (x + tall, y + half), (x - tall, y)),
    }[apex]


def _in_lines(said: str, room: Fraction) -> list[Content]:
    """``said`` in bold, in as few lines as go into ``room``; smaller where it would take more than two."""
    for high in (WORD, SMALL):
        lines = _parted(said, room, high, bold=True)
        if len(lines) <= 2 and all(set_line(words(line, high, bold=True)).width <= room for line in lines):
            break
    # Where one word alone is longer than a narrow stick is wide, it is set smaller.
    return [fitted(line, room, (high, Fraction(9, 5)), bold=True) for line in lines]


def _parted(said: str, room: Fraction, high: Fraction, *, bold: bool) -> list[str]:
    """``said`` parted between words into lines that go into ``room``, where its words do."""
    lines: list[str] = []
    for word in unparted(said):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and set_line(words(longer, high, bold=bold)).width <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines
