"""A maker's own outline out of an SVG file.

The problem: a file from anywhere becomes exact lines on wood, and nothing in it may be guessed, fetched or left out in silence.
The method, in four steps: the file is read strictly (``outline_svg``), before any other reader sees it; what was understood is
spelled again in the plainest SVG there is, groups, paths of four commands (``outline_paths``) and circles, with nothing but
checked numbers in it; svglib draws that; and what it draws becomes runs of straight lines and whole circles.

Coordinates are rounded to a thousandth of a millimetre, once; a curve becomes straight lines that leave it by a hundredth at
most. The time is bounded: at most a thousand shapes, ten thousand lines and curves, twenty thousand points. It can't read
lettering, pictures, gradients or anything that hides or repeats by reference to another file: each is refused by name, with what
to do.
"""

from __future__ import annotations

import re
from io import BytesIO
from itertools import chain
from math import ceil, hypot, isclose, sqrt
from typing import TYPE_CHECKING, Final

from joinlay.boards.outline import Ring, StraightRun, outline_of
from joinlay.documents.outline_paths import ellipse_steps, number, numbers, path_steps
from joinlay.documents.outline_svg import SHAPES, read_strictly, sizes_of
from joinlay.errors import BadInput, quoted
from joinlay.lengths import Fraction

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from reportlab.graphics.shapes import Group, Path

    from joinlay.boards.outline import Outline
    from joinlay.documents.outline_paths import Step
    from joinlay.documents.outline_svg import Drawn, Element
    from joinlay.geometry import Point

__all__ = ["read_outline"]

#: Coordinates are kept in these many steps to a millimetre.
_PER_MM: Final = 1000
#: How far straight lines may leave the curve they stand for, before rounding, in mm.
_LEAVE: Final = 0.009
_MM: Final = 25.4 / 72
_MOST_POINTS: Final = 20_000

_Spot = tuple[float, float]
#: A turn, stretch and move as six numbers (a, b, c, d, e, f): x becomes a x + c y + e, y becomes b x + d y + f.
_Matrix = tuple[float, float, float, float, float, float]


def read_outline(content: bytes, name: str) -> Outline:
    """The outline drawn in the SVG file ``content``, called ``name``, at true size; the white around it doesn't count.

    Raises BadInput, with the file's name and what to change, for anything that isn't a plain outline with its size in mm, cm or
    in.
    """
    try:
        drawn = read_strictly(content)
        return outline_of(name, _lines(_spelled_again(drawn)))
    except BadInput as bad:
        raise BadInput(f"{name} {bad}.") from None


# -- what svglib drew, as exact lines ------------------------------------------------------------------


def _lines(plain: bytes) -> list[StraightRun | Ring]:
    from svglib.svglib import svg2rlg

    drawing = svg2rlg(BytesIO(plain))
    if drawing is None:
        raise BadInput("cannot be drawn; save it again as plain SVG")
    lines: list[StraightRun | Ring] = []
    left = _MOST_POINTS
    for line in _shapes(drawing, (_MM, 0.0, 0.0, _MM, 0.0, 0.0)):
        left -= len(line.points) if isinstance(line, StraightRun) else 1
        if left < 0:
            raise _too_many()
        lines.append(line)
    if not lines:
        raise BadInput("draws nothing; draw the outline as a path, and save it as plain SVG")
    return lines


def _too_many() -> BadInput:
    return BadInput(f"needs more than {_MOST_POINTS} points at its size; an outline is a few lines")


def _shapes(group: Group, matrix: _Matrix) -> Iterator[StraightRun | Ring]:
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


def _runs(path: Path, matrix: _Matrix) -> Iterator[StraightRun]:
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


def _run(spots: Sequence[_Spot], *, is_closed: bool = False) -> Iterator[StraightRun]:
    """The run through ``spots``, each point once; nothing where it goes nowhere."""
    points: list[Point] = []
    for point in map(_exact, spots):
        if not points or point != points[-1]:
            points.append(point)
    if is_closed and len(points) > 2 and points[0] == points[-1]:
        points.pop()
    if len(points) > 1:
        yield StraightRun(tuple(points), is_closed and len(points) > 2)


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
    return Fraction(round(size * _PER_MM), _PER_MM)


# -- spelled again in the plainest SVG ------------------------------------------------------------------

#: The most elements once everything that is used again is written out, and the most commands of all paths together.
_MOST_ELEMENTS, _MOST_STEPS, _DEEPEST = 1_000, 10_000, 32

_LONGEST_TRANSFORM: Final = 1_000
_TRANSFORM: Final = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,]*")
#: How many numbers each may take.
_TAKES: Final[Mapping[str, tuple[int, ...]]] = {
    "matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,),
}  # fmt: skip


def _spelled_again(drawn: Drawn) -> bytes:
    """``drawn`` as plain SVG of the same size.

    Raises BadInput where the size isn't written with a unit of length, for numbers and references that are wrong, and for too
    much of anything.
    """
    wide, high, box = sizes_of(drawn.root)
    head = f'width="{float(wide)!r}mm" height="{float(high)!r}mm" viewBox="{" ".join(repr(float(n)) for n in box)}"'
    body = "".join(_Spelling(drawn).inside(drawn.root, is_round=True))
    return f'<svg xmlns="http://www.w3.org/2000/svg" {head} fill="none" stroke="black">{body}</svg>'.encode()


class _Spelling:
    """Writes elements one after the other and counts them. ``is_round`` is true where a circle is still round."""

    def __init__(self, drawn: Drawn) -> None:
        self.named = drawn.named
        self.elements = self.steps = 0
        self.using: list[str] = []

    def inside(self, element: Element, *, is_round: bool) -> Iterator[str]:
        for one in element.inside:
            if one.tag != "defs":
                yield from self.element(one, is_round=is_round)

    def element(self, one: Element, *, is_round: bool) -> Iterator[str]:
        self.elements += 1
        if self.elements > _MOST_ELEMENTS:
            raise _Placed(f"has more than {_MOST_ELEMENTS} shapes once what is used again is written out; an outline has a few")
        try:
            placed, keeps = _transform(one.given.get("transform", ""))
            is_round = is_round and keeps
            if one.tag == "use":
                inner = self.used(one, is_round=is_round)
            elif one.tag in SHAPES:
                inner = self.shape(one, is_round=is_round)
            else:
                inner = self.inside(one, is_round=is_round)
            yield from (f'<g transform="{placed}">', *inner, "</g>") if placed else inner
        except _Placed:
            raise
        except BadInput as bad:
            raise _Placed(f"has a {one.tag} that is wrong: {bad} (line {one.line})") from None

    def used(self, one: Element, *, is_round: bool) -> Iterator[str]:
        address = one.given.get("href", "")
        if not address.startswith("#"):
            raise _Placed(
                f"uses something from elsewhere ({quoted(address, 40)}, line {one.line}); put it into the drawing itself"
            )
        target = self.named.get(address[1:])
        if target is None or target.tag in ("svg", "defs"):
            raise BadInput(f"there is no shape or group called {quoted(address[1:], 40)} to use")
        if address in self.using or len(self.using) >= _DEEPEST:
            raise _Placed(f"uses {quoted(address[1:], 40)} within itself (line {one.line}); take that out")
        self.using.append(address)
        x, y = (number(one.given.get(name, "0")) for name in ("x", "y"))
        yield f'<g transform="translate({x!r} {y!r})">'
        yield from self.element(target, is_round=is_round)
        yield "</g>"
        self.using.pop()

    def shape(self, one: Element, *, is_round: bool) -> Iterator[str]:
        given = one.given
        if one.tag == "circle" and is_round:
            cx, cy, r = (number(given.get(name, "0")) for name in ("cx", "cy", "r"))
            if r < 0:
                raise BadInput("its radius is negative")
            if r:
                yield f'<circle cx="{cx!r}" cy="{cy!r}" r="{r!r}"/>'
            return
        steps = list(self.counted(_STEPS[one.tag](given)))
        if steps:
            yield f'<path d="{" ".join(map(_said, steps))}"/>'

    def counted(self, steps: Iterable[Step]) -> Iterator[Step]:
        for step in steps:
            self.steps += 1
            if self.steps > _MOST_STEPS:
                raise _Placed(f"has paths of more than {_MOST_STEPS} lines and curves; an outline has a few")
            yield step


class _Placed(BadInput):
    """A fault that says its own place."""


def _said(step: Step) -> str:
    return step[0] + " ".join(f"{x!r} {y!r}" for x, y in step[1])


def _transform(text: str) -> tuple[str, bool]:
    """A transform spelled again, and whether circles stay round under it."""
    if len(text) > _LONGEST_TRANSFORM:
        raise BadInput(f"its transform has {len(text)} letters; {_LONGEST_TRANSFORM} are enough for any")
    at, said, is_round = 0, [], True
    while at < len(text):
        found = _TRANSFORM.match(text, at)
        if found is None or found[1] not in _TAKES:
            raise BadInput(f"its transform goes wrong at {quoted(text[at : at + 20])}")
        given = numbers(found[2])
        if len(given) not in _TAKES[found[1]]:
            raise BadInput(
                f"its transform {found[1]} has {len(given)} numbers; {' or '.join(map(str, _TAKES[found[1]]))} are wanted"
            )
        said.append(f"{found[1]}({' '.join(map(repr, given))})")
        is_round = is_round and _keeps_round(found[1], given)
        at = found.end()
    return " ".join(said), is_round


def _keeps_round(name: str, given: list[float]) -> bool:
    if name == "scale":
        return len(given) == 1 or abs(given[0]) == abs(given[1])
    if name == "matrix":
        a, b, c, d = given[:4]
        return isclose(hypot(a, b), hypot(c, d), rel_tol=1e-9) and abs(a * c + b * d) <= 1e-9 * hypot(a, b) * hypot(c, d)
    return not name.startswith("skew")


# -- shapes as paths -----------------------------------------------------------------------------------


def _path(given: Mapping[str, str]) -> Iterator[Step]:
    return path_steps(given.get("d", ""))


def _line(given: Mapping[str, str]) -> Iterator[Step]:
    x1, y1, x2, y2 = (number(given.get(name, "0")) for name in ("x1", "y1", "x2", "y2"))
    yield from (("M", ((x1, y1),)), ("L", ((x2, y2),)))


def _polyline(given: Mapping[str, str]) -> Iterator[Step]:
    figures = numbers(given.get("points", ""))
    if len(figures) % 2:
        raise BadInput(f"it has {len(figures)} numbers, and points come in twos")
    for n in range(0, len(figures), 2):
        yield ("L" if n else "M"), ((figures[n], figures[n + 1]),)


def _polygon(given: Mapping[str, str]) -> Iterator[Step]:
    points = list(_polyline(given))
    yield from chain(points, [("Z", ())] if points else [])


def _rect(given: Mapping[str, str]) -> Iterator[Step]:
    """A rectangle; its corners rounded as the SVG standard says, one radius standing for both where only one is given."""
    x, y, wide, high = (number(given.get(name, "0")) for name in ("x", "y", "width", "height"))
    radii = [number(given[name]) for name in ("rx", "ry") if given.get(name, "auto") != "auto"]
    if min(wide, high, *radii) < 0:
        raise BadInput("a size of it is negative")
    if not wide or not high:
        return
    rx, ry = min(radii[0], wide / 2) if radii else 0.0, min(radii[-1], high / 2) if radii else 0.0
    if not rx or not ry:
        yield from (("M", ((x, y),)), ("L", ((x + wide, y),)), ("L", ((x + wide, y + high),)), ("L", ((x, y + high),)), ("Z", ()))
        return
    yield "M", ((x + rx, y),)
    for n, (cx, cy) in enumerate(
        ((x + wide - rx, y + ry), (x + wide - rx, y + high - ry), (x + rx, y + high - ry), (x + rx, y + ry))
    ):
        start = ((cx, y), (x + wide, cy), (cx, y + high), (x, cy))[n]
        yield "L", (start,)
        yield from ellipse_steps((cx, cy), (rx, ry), -90.0 + 90 * n, 90.0)
    yield "Z", ()


def _ellipse(given: Mapping[str, str]) -> Iterator[Step]:
    """A whole ellipse, or a circle that something stretches."""
    cx, cy = number(given.get("cx", "0")), number(given.get("cy", "0"))
    rx, ry = (number(given.get("r", given.get(name, "0"))) for name in ("rx", "ry"))
    if min(rx, ry) < 0:
        raise BadInput("its radius is negative")
    if rx and ry:
        yield "M", ((cx + rx, cy),)
        yield from ellipse_steps((cx, cy), (rx, ry), 0.0, 360.0)
        yield "Z", ()


_STEPS: Final = {
    "path": _path,
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
    "rect": _rect,
    "circle": _ellipse,
    "ellipse": _ellipse,
}
