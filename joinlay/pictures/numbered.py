"""Numbers of the cutting list on a view of the piece: each once in a balloon, on its part or beside it (PR-10).

``balloons.py`` finds where they stand; here is said what is taken already, and where on a part its number may be told. Words keep
every leader off, lines only balloons. Over hatching a balloon may stand: it covers it.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import islice, pairwise
from math import ceil, floor
from typing import TYPE_CHECKING

from joinlay.pen.marks import Arc, Line, Polyline, Role, Text, bounds_of, text_box
from joinlay.pictures.balloons import Numbered, Paper, set_balloons
from joinlay.pictures.wood import Fit
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping

    from joinlay.boards import Board, PartRole
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pictures.picture import Picture, Scale
    from joinlay.pictures.sight import Sight

__all__ = ["NumberedView", "numbering"]

#: Of the parts of one number, and of the places on each, how many are looked at.
_PARTS, _SPOTS = 4, 8


@dataclass(frozen=True, slots=True)
class NumberedView:
    """A view of the piece that can be drawn at any scale, its parts numbered.

    ``box`` is the wood that is seen, in mm of the view: its lower left corner comes to zero on paper. ``bare`` draws it without
    its numbers, which is quick, to see how much room it takes; ``numbered`` gives them to what ``bare`` has drawn, which takes up
    the box on paper that is given with it.
    """

    title: str
    box: Box
    bare: Callable[[Scale], Picture]
    numbered: Callable[[Picture, Box], Picture]


def numbering(
    sight: Sight, zero: Point, boards: Iterable[Board], numbers: Mapping[PartRole, int]
) -> Callable[[Picture, Box], Picture]:
    """What gives a drawing of ``sight``, which takes up a box on paper, balloons for those of ``boards`` that are seen.

    Numbers that find no room are said. ``zero`` is the point of the view that came to zero on paper, ``numbers`` are those of the
    cutting list, by role. A number goes to one of the parts it stands for. ISO 6433 for the balloons.
    """

    @cache
    def told() -> tuple[Numbered, ...]:
        # Where a part is seen is the same at every scale.
        return tuple(_numbered(sight, boards, numbers))

    return lambda bare, box: _numbers_on(bare, box, sight, zero, told())


def _numbers_on(bare: Picture, box: Box, sight: Sight, zero: Point, told: Iterable[Numbered]) -> Picture:
    """``bare`` with the numbers that are ``told``, whose spots are in mm of wood."""
    fit, paper = Fit(zero, bare.scale.factor), Paper(box[:2])
    paper.take(line for stroke in bare.strokes for line in _lines(stroke))
    paper.take_words(text_box(stroke) for stroke in bare.strokes if isinstance(stroke, Text))
    x0, y0, x1, y1 = fit.box(sight.box)
    left, low, right, top = ceil(x0), ceil(y0), floor(x1), floor(y1)
    made, over = set_balloons(
        (replace(one, spots=tuple(map(fit.point, one.spots))) for one in told),
        paper,
        lambda x, y: not (left <= x <= right and low <= y <= top),
    )
    unset = ", ".join(str(one.number) for one in over)
    balloons = (stroke for balloon in made for stroke in balloon.spelled())
    unsaid = (*bare.unsaid, f"In the drawing too: {unset}.") if unset else bare.unsaid
    return replace(bare, strokes=(*bare.strokes, *balloons), unsaid=unsaid)


def _numbered(sight: Sight, boards: Iterable[Board], numbers: Mapping[PartRole, int]) -> Iterator[Numbered]:
    seen = {parted.edge.board.role for parted in sight.edges if parted.seen}
    rows: dict[int, list[Board]] = {}
    for board in boards:
        if board.role in seen and board.role in numbers:
            rows.setdefault(numbers[board.role], []).append(board)
    for number, own in sorted(rows.items()):
        spots = [spot for board in own[:_PARTS] for spot in islice(sight.spots(board), _SPOTS)]
        if spots:
            yield Numbered(number, tuple(board.role for board in own), tuple(spots))


def _lines(stroke: Stroke) -> Iterator[Line]:
    """A stroke as lines; hatching is none."""
    if isinstance(stroke, Line):
        if stroke.role is not Role.HATCH:
            yield stroke
    elif isinstance(stroke, Polyline):
        points = (*stroke.points, stroke.points[0]) if stroke.closed else stroke.points
        yield from (Line(one, two, stroke.role) for one, two in pairwise(points))
    elif isinstance(stroke, Arc):
        # The square around a circle, and its middle: a knob is no place for a number.
        a, b, c, d = bounds_of((stroke,))
        middle = (b + d) / 2
        yield from (Line((a, y), (c, y), stroke.role) for y in (b, middle, d))
        yield from (Line((x, b), (x, d), stroke.role) for x in (a, c))
