"""A maker's own outline out of an SVG file: read strictly, spelled again in the plainest SVG, drawn by svglib, and turned into exact lines.

Coordinates are rounded to a thousandth of a millimetre, once; a curve becomes straight lines that leave it by a hundredth at most. A circle
stays one.
"""

from __future__ import annotations

from io import BytesIO
from math import ceil, hypot, sqrt
from typing import TYPE_CHECKING, Final

from joinlay.boards.outline import Ring, Run, outline_of
from joinlay.documents.svg_spelled import spelled_again
from joinlay.documents.svg_strict import read_strictly
from joinlay.errors import BadInput
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from reportlab.graphics.shapes import Group, Path

    from joinlay.boards.outline import Outline
    from joinlay.geometry import Point

__all__ = ["read_outline"]

#: Coordinates are kept in these: a thousandth of a millimetre.
_STEPS: Final = 1000
#: How far straight lines may leave the curve they stand for, before rounding, in mm.
_LEAVE: Final = 0.009
_MM: Final = 25.4 / 72
_MOST_POINTS: Final = 20_000

_Spot = tuple[float, float]
#: A turn, stretch and move as six numbers (a, b, c, d, e, f): x becomes a x + c y + e, y becomes b x + d y + f.
_Matrix = tuple[float, float, float, float, float, float]


def read_outline(content: bytes, name: str) -> Outline:
    """The outline drawn in the SVG file ``content``, called ``name``, at true size; the white around it doesn't count.

    Raises BadInput, with the file's name and what to change, for anything that isn't a plain outline with its size in mm, cm or in.
    """
    try:
        drawn = read_strictly(content)
        return outline_of(name, _lines(spelled_again(drawn)))
    except BadInput as bad:
        raise BadInput(f"{name} {bad}.") from None


def _lines(plain: bytes) -> list[Run | Ring]:
    from svglib.svglib import svg2rlg

    drawing = svg2rlg(BytesIO(plain))
    if drawing is None:
        raise BadInput("cannot be drawn; save it again as plain SVG")
    lines: list[Run | Ring] = []
    left = _MOST_POINTS
    for line in _shapes(drawing, (_MM, 0.0, 0.0, _MM, 0.0, 0.0)):
        left -= len(line.points) if isinstance(line, Run) else 1
        if left < 0:
            raise _too_many()
        lines.append(line)
    if not lines:
        raise BadInput("draws nothing; draw the outline as a path, and save it as plain SVG")
    return lines


def _too_many() -> BadInput:
    return BadInput(f"needs more than {_MOST_POINTS} points at its size; an outline is a few lines")


def _shapes(group: Group, matrix: _Matrix) -> Iterator[Run | Ring]:
    from reportlab.graphics.shapes import Circle, Group, Path

    for shape in group.contents:
        if isinstance(shape, Group):
            yield from _shapes(shape, _both(matrix, shape.transform))
        elif isinstance(shape, Circle):
            yield _ring(shape.cx, shape.cy, shape.r, matrix)
        elif isinstance(shape, Path):
            yield from _runs(shape, matrix)
        else:
            raise BadInput(f"holds a {type(shape).__name__} that cannot be traced")


def _both(outer: _Matrix, inner: Sequence[float]) -> _Matrix:
    a, b, c, d, e, f = inner
    return (
        outer[0] * a + outer[2] * b, outer[1] * a + outer[3] * b, outer[0] * c + outer[2] * d, outer[1] * c + outer[3] * d,
        outer[0] * e + outer[2] * f + outer[4], outer[1] * e + outer[3] * f + outer[5],
    )  # fmt: skip


def _put(matrix: _Matrix, x: float, y: float) -> _Spot:
    a, b, c, d, e, f = matrix
    return (a * x + c * y + e, b * x + d * y + f)


def _ring(x: float, y: float, r: float, matrix: _Matrix) -> Ring:
    """A circle; what would stretch it was spelled as a path before."""
    return Ring(_exact(_put(matrix, x, y)), _rounded(r * hypot(matrix[0], matrix[1])))


def _runs(path: Path, matrix: _Matrix) -> Iterator[Run]:
    pairs = zip(path.points[::2], path.points[1::2], strict=True)
    spots = (_put(matrix, x, y) for x, y in pairs)
    run: list[_Spot] = []
    for operator in path.operators:
        if operator == _MOVE:
            yield from _run(run)
            run = [next(spots)]
        elif operator == _LINE:
            run.append(next(spots))
        elif operator == _CURVE:
            run += _flat(run[-1], next(spots), next(spots), next(spots))
            if len(run) > _MOST_POINTS:
                raise _too_many()
        else:
            yield from _run(run, is_closed=True)
            # What follows a closing without a move begins where the closed line did.
            run = run[:1]
    yield from _run(run)


_MOVE, _LINE, _CURVE = 0, 1, 2


def _run(spots: Sequence[_Spot], *, is_closed: bool = False) -> Iterator[Run]:
    """The run through ``spots``, each point once; nothing where it goes nowhere."""
    points: list[Point] = []
    for point in map(_exact, spots):
        if not points or point != points[-1]:
            points.append(point)
    if is_closed and len(points) > 2 and points[0] == points[-1]:
        points.pop()
    if len(points) > 1:
        yield Run(tuple(points), is_closed and len(points) > 2)


def _flat(start: _Spot, one: _Spot, two: _Spot, end: _Spot) -> Iterator[_Spot]:
    """A cubic curve as points after its start: as many as keep the lines between them within ``_LEAVE``."""
    bend = max(hypot(a[0] - 2 * b[0] + c[0], a[1] - 2 * b[1] + c[1]) for a, b, c in ((start, one, two), (one, two, end)))
    count = max(1, ceil(sqrt(0.75 * bend / _LEAVE)))
    if count > _MOST_POINTS:
        raise _too_many()
    for n in range(1, count):
        t = n / count
        u = 1 - t
        shares = (u * u * u, 3 * u * u * t, 3 * u * t * t, t * t * t)
        yield (
            sum(share * spot[0] for share, spot in zip(shares, (start, one, two, end), strict=True)),
            sum(share * spot[1] for share, spot in zip(shares, (start, one, two, end), strict=True)),
        )
    yield end


def _exact(spot: _Spot) -> Point:
    return (_rounded(spot[0]), _rounded(spot[1]))


def _rounded(size: float) -> Fraction:
    return Fraction(round(size * _STEPS), _STEPS)
