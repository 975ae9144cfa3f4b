"""A drawing that was read strictly, spelled again in the plainest SVG there is: groups, paths of four commands, and circles.

Shapes become paths, what is used again is written out, and only checked numbers are written: the reader that comes next has nothing to guess.
"""

from __future__ import annotations

import re
from itertools import chain
from math import hypot, isclose
from typing import TYPE_CHECKING, Final

from joinlay.documents.svg_paths import ellipse_steps, number, numbers, path_steps
from joinlay.documents.svg_refused import SHAPES
from joinlay.documents.svg_strict import sizes_of
from joinlay.errors import BadInput, quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from joinlay.documents.svg_paths import Step
    from joinlay.documents.svg_strict import Drawn, Element

__all__ = ["spelled_again"]

#: The most elements once everything that is used again is written out, and the most commands of all paths together.
_MOST_ELEMENTS, _MOST_STEPS, _DEEPEST = 1_000, 10_000, 32

_LONGEST_TRANSFORM: Final = 1_000
_TRANSFORM: Final = re.compile(r"[\s,]*([A-Za-z]+)\s*\(([^()]*)\)[\s,]*")
#: How many numbers each may take.
_TAKES: Final[Mapping[str, tuple[int, ...]]] = {
    "matrix": (6,), "translate": (1, 2), "scale": (1, 2), "rotate": (1, 3), "skewX": (1,), "skewY": (1,),
}  # fmt: skip


def spelled_again(drawn: Drawn) -> bytes:
    """``drawn`` as plain SVG of the same size.

    Raises BadInput where the size isn't written with a unit of length, for numbers and references that are wrong, and for too much of anything.
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
                raise BadInput("its radius is less than nothing")
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
        raise BadInput("a size of it is less than nothing")
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
        raise BadInput("its radius is less than nothing")
    if rx and ry:
        yield "M", ((cx + rx, cy),)
        yield from ellipse_steps((cx, cy), (rx, ry), 0.0, 360.0)
        yield "Z", ()


_STEPS: Final = {
    "path": _path, "line": _line, "polyline": _polyline, "polygon": _polygon, "rect": _rect, "circle": _ellipse, "ellipse": _ellipse,
}  # fmt: skip
