"""Drawing a story stick: a strip with its stretches in lanes, a tick to the edge for each position, its figure, and what it is.

The stick stands upright, zero at the foot. From the left: the edge to mark from, the lanes, lines that lead to the figures, the figures and
names, and a lane for what the stick is, said again and again so that every tile of a long one tells it.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.geometry import corners
from joinlay.lengths import Fraction
from joinlay.pen.hatching import Hatch
from joinlay.pen.lettering import fitted, set_line
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text, Turn, flatten
from joinlay.templates.story.ends import FAR_ROOM, datum_end, far_end
from joinlay.templates.story.labels import SMALL, label
from joinlay.templates.story.stick import Kind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Stroke
    from joinlay.templates.story.labels import Inside, Labels, Row
    from joinlay.templates.story.stick import Stick, Stretch

__all__ = ["draw_stick"]

#: Paper between the edge and the first lane, so that ticks are seen to reach it; the width of a lane; room for lines to the rows.
_EDGE, _LANE, _LEAD = Fraction(2), Fraction(4), Fraction(5)
#: White before and after the rows, and the lane of the title.
_WHITE, _TITLE = Fraction(4, 5), Fraction(9, 2)
#: From one title to the next, and white between two of the things that are said along the stick.
_AGAIN, _APART = Fraction(250), Fraction(20)
_TONE: Final = Fraction(1, 8)
_DOT: Final = Fraction(1, 2)
_BLACK: Final = Fraction(1)
_LEAST_ROWS: Final = Fraction(20)
_ZERO: Final = Fraction(0)


def draw_stick(stick: Stick, rule: Graduation) -> tuple[Stroke, ...]:
    """Every stroke of ``stick``, true to size; figures on ``rule``. No rule: common practice."""
    return tuple(flatten(_Drawn(stick, label(stick, rule)).marks()))


@dataclass(frozen=True, slots=True)
class _Drawn:
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

    def marks(self) -> Iterator[Mark]:
        for stretch in self.stick.stretches:
            yield from self._stretch(stretch)
        for at, parts in self.stick.places.items():
            is_centre = any(centre.at == at for centre in self.stick.centres)
            says = "; ".join(parts) or (self.stick.far if at else self.stick.datum)
            yield Line((_ZERO, at), (self.lanes_end, at), Role.CENTRE if is_centre else Role.CUT, says)
        yield Line((_ZERO, _ZERO), (_ZERO, self.stick.length), Role.OUTLINE, "edge to mark from")
        yield Line((self.width, _ZERO), (self.width, self.top + FAR_ROOM), Role.REGISTER)
        for inside in self.labels.inside:
            yield self._inside(inside)
        for row in self.labels.rows:
            yield from self._row(row)
        yield from self._titles()
        yield from datum_end(self.stick, self.width)
        yield from far_end(self.stick, self.width, self.top)

    # -- what lies along the stick -------------------------------------------------------------------

    def _lane(self, stretch: Stretch) -> Box:
        left = _EDGE + stretch.lane * _LANE
        low, high = self.stick.seen(stretch)
        return (left, low, left + _LANE, high)

    def _stretch(self, stretch: Stretch) -> Iterator[Mark]:
        box = corners(self._lane(stretch))
        if stretch.kind is Kind.WOOD:
            yield Fill(box, _TONE, Role.CUT)
            yield Polyline(box, Role.DIMENSION, closed=True)
        elif stretch.kind is Kind.CUT:
            if not any(inside.stretch is stretch for inside in self.labels.inside):
                yield Hatch(box)
            yield Polyline(box, Role.DIMENSION, closed=True)

    def _inside(self, inside: Inside) -> Text:
        left, _, right, _ = self._lane(inside.stretch)
        line = set_line(inside.content)
        baseline = (left + right - line.rise - line.fall) / 2 + line.rise
        return Text((baseline, inside.middle), inside.content, Align.MIDDLE, Turn.UP)

    # -- rows ----------------------------------------------------------------------------------------

    def _row(self, row: Row) -> Iterator[Mark]:
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
