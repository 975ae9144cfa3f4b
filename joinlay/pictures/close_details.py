"""The words of a detail that stands close to others: numbers in balloons on its parts or in the corners about its circle, and
what its gap is under it (ISO 6433).

A circle with names beside it takes half a sheet's width, one with numbers a third: so three stand in a row. What the numbers
stand for is said once for all of them. A gap's words stand right under the circle, whose line goes straight up to it: the
balloons, which are set after it, keep off.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import set_line, words
from joinlay.pen.marks import Align, Line, Role, Text, text_box
from joinlay.pictures.balloons import Numbered, Paper, set_balloons
from joinlay.pictures.leaders import leader
from joinlay.pictures.picture import SMALL
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import PartRole
    from joinlay.pen.marks import Point, Stroke
    from joinlay.pictures.leaders import Named
    from joinlay.pictures.wood import Fit

__all__ = ["CloseWords", "close_words"]

#: From the middle of a circle to the sides of its room, and how far past the circle that goes up and down.
_HALF, _PAST = Fraction(32), Fraction(1)
#: From the circle down to the line of words under it.
_UNDER: Final = Fraction(9, 2)
#: So far past its room nothing is set.
_FAR: Final = Fraction(60)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class CloseWords:
    """The balloons and words of a detail, and what found no room: numbers and gaps."""

    strokes: tuple[Stroke, ...]
    over: tuple[str, ...] = ()


def close_words(
    drawn: Sequence[Stroke],
    circle: Sequence[Point],
    gaps: Sequence[Named],
    seen: Mapping[PartRole, Sequence[Point]],
    fit: Fit,
    numbers: Mapping[PartRole, int],
) -> CloseWords:
    """What is said of a detail that is ``drawn`` in its ``circle``: the first of its ``gaps`` in words, and a balloon for each of
    ``numbers`` of the parts that are ``seen``, each at points of these in mm of wood.

    Parts without a number, and gaps past the first, are left over by name.
    """
    radius = max(x for x, _ in circle)
    paper = Paper((-_FAR, -_FAR))
    paper.take(stroke for stroke in drawn if isinstance(stroke, Line) and stroke.role is not Role.HATCH)
    paper.take(Line(one, two, Role.SEEN) for one, two in pairwise((*circle, circle[0])))
    across, up = _HALF, radius + _PAST
    paper.take_words(
        [
            (-_FAR, -_FAR, -across, _FAR),
            (across, -_FAR, _FAR, _FAR),
            (-across, up, across, _FAR),
            (-across, -_FAR, across, -up),
        ]
    )
    strokes: list[Stroke] = []
    for gap in gaps[:1]:
        strokes += _told(gap, fit, radius)
        paper.take_words(text_box(stroke) for stroke in strokes if isinstance(stroke, Text))
        paper.take_words(_beside(stroke) for stroke in strokes if isinstance(stroke, Line))
    rows: dict[int, list[PartRole]] = {}
    for role in seen:
        if role in numbers:
            rows.setdefault(numbers[role], []).append(role)
    wanted = [
        Numbered(number, tuple(roles), tuple(fit.point(spot) for role in roles for spot in seen[role]))
        for number, roles in sorted(rows.items())
    ]
    made, left = set_balloons(wanted, paper, lambda x, y: x * x + y * y > radius**2)
    strokes += (stroke for balloon in made for stroke in balloon.spelled())
    over = (
        *(gap.said for gap in gaps[1:]),
        *(role.name for role in seen if role not in numbers),
        *(str(one.number) for one in left),
    )
    return CloseWords(tuple(strokes), over)


def _told(gap: Named, fit: Fit, radius: Fraction) -> Iterator[Stroke]:
    """What a gap is, on a line under the circle, and a line from there straight up into it."""
    x, y = fit.point(gap.spots[0])
    said = words(gap.said, SMALL)
    aside = max(_ZERO, _HALF - set_line(said).width / 2)
    base = -radius - _UNDER
    yield Text((max(-aside, min(aside, x)), base), said, Align.MIDDLE)
    yield from leader((x, base + SMALL + Fraction(1, 2)), (x, y))


def _beside(line: Line) -> tuple[Fraction, Fraction, Fraction, Fraction]:
    """The strip an upright line takes, with white at both sides."""
    (x, y0), (_, y1) = line.start, line.end
    return (x - 1, min(y0, y1), x + 1, max(y0, y1))
