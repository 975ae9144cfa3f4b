"""Path data of an SVG drawing, read to the letter and spelled in four commands: move, line, cubic curve, close.

What a path may hold is the SVG standard's; an arc becomes curves of at most 15 degrees, under a ten-millionth of its radius off.
"""

from __future__ import annotations

import re
from math import acos, ceil, cos, degrees, hypot, radians, sin, sqrt, tan
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, quoted

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

__all__ = ["LARGEST", "NUMBER", "Step", "ellipse_steps", "number", "numbers", "path_steps"]

#: A number as SVG writes it; never NaN or infinite.
NUMBER: Final = r"[+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][+-]?[0-9]{1,4})?"
#: The largest number in a drawing, in its own units either side of zero.
LARGEST: Final = 1_000_000
_MOST_FIGURES: Final = 50

#: How many numbers each command takes.
_TAKES: Final = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}
_TOKEN: Final = re.compile(rf"[\s,]*(?:([A-Za-z])|({NUMBER}))")
_FLAG: Final = re.compile(r"[\s,]*([01])")
_GAP: Final = re.compile(r"[\s,]*")
#: The largest part of an ellipse drawn as one curve, in degrees.
_PIECE: Final = 15.0

_Point = tuple[float, float]
#: One command of a path that is spelled out: ``M``, ``L``, ``C`` or ``Z`` and the points it takes.
Step = tuple[str, tuple[_Point, ...]]


def number(text: str) -> float:
    """One number. Raises BadInput for what is none, and for one that is too large to be a drawing's."""
    if re.fullmatch(NUMBER, text.strip()) is None:
        raise BadInput(f"{quoted(text)} is no number; inside the drawing write plain numbers, in the units of the viewBox")
    return _checked(text)


def numbers(text: str) -> list[float]:
    """Numbers one after the other, with spaces or commas between them where they would run together; errors as ``number``."""
    found, at = [], _skipped(text, 0)
    while at < len(text):
        token = _TOKEN.match(text, at)
        if token is None or token[2] is None:
            raise BadInput(
                f"{quoted(text[at : at + 20])} is no number; inside the drawing write plain numbers, in the units of the viewBox"
            )
        found.append(_checked(token[2]))
        at = _skipped(text, token.end())
    return found


def _checked(text: str) -> float:
    if len(text) > _MOST_FIGURES:
        raise BadInput(f"a number has {len(text)} figures; {_MOST_FIGURES} are enough for any outline")
    value = float(text)
    if abs(value) > LARGEST:
        raise BadInput(f"the number {quoted(text.strip(), 20)} is too large; the largest is {LARGEST}")
    return value


def path_steps(text: str) -> Iterator[Step]:
    """The path data ``text`` with every command absolute and spelled in moves, lines, cubic curves and closings.

    Raises BadInput at the first thing that is no path data: nothing after it is guessed.
    """
    pen = _Pen()
    for command, given in _commands(text):
        yield from pen.step(command, given)


def _commands(text: str) -> Iterator[tuple[str, list[float]]]:
    """Each command with its own numbers; a command that is left out, because it is the one before, is put in."""
    at, command = 0, ""
    while (at := _skipped(text, at)) < len(text):
        found = _TOKEN.match(text, at)
        if found is None:
            raise BadInput(f"path data goes wrong at {quoted(text[at : at + 12])}")
        if found[1]:
            command, at = found[1], found.end()
            if command.upper() not in _TAKES:
                raise BadInput(f"path data has no command {quoted(command)}")
        elif command in "Zz":
            raise BadInput(f"path data goes wrong at {quoted(text[at : at + 12])}; a number stands where a command is wanted")
        given, at = _take(command, text, at)
        yield command, given
        # More points after a move are lines.
        command = {"M": "L", "m": "l"}.get(command, command)


def _skipped(text: str, at: int) -> int:
    gap = _GAP.match(text, at)
    return gap.end() if gap else at


def _take(command: str, text: str, at: int) -> tuple[list[float], int]:
    given: list[float] = []
    for n in range(_TAKES[command.upper()]):
        is_flag = command in "Aa" and n in (3, 4)
        found = (_FLAG if is_flag else _TOKEN).match(text, at)
        figures = found[1 if is_flag else 2] if found else None
        if found is None or figures is None:
            raise BadInput(
                f"path data goes wrong at {quoted(text[at : at + 12])}; {command} takes {_TAKES[command.upper()]} numbers"
            )
        given.append(_checked(figures))
        at = found.end()
    return given, at


class _Pen:
    """Where the pen is, where its line began, and the last handle, which a smooth curve goes on from."""

    def __init__(self) -> None:
        self.at: _Point | None = None
        self.begun: _Point = (0.0, 0.0)
        self.handle: _Point = (0.0, 0.0)
        self.last = ""

    def step(self, command: str, given: Sequence[float]) -> Iterator[Step]:
        kind = command.upper()
        if self.at is None and kind != "M":
            raise BadInput("path data must begin with a move, M")
        x, y = self.at or (0.0, 0.0)
        points = self._placed(kind, given, (x, y) if command.islower() else (0.0, 0.0), (x, y))
        if kind in "CSQT":
            yield self._curve(kind, (x, y), points)
        elif kind == "A":
            yield from _arc((x, y), (given[0], given[1]), given[2], (given[3], given[4]), points[0])
        else:
            yield {"M": "M", "Z": "Z"}.get(kind, "L"), points
        self.last = kind
        self.at = self.begun if kind == "Z" else points[-1]
        if kind == "M":
            self.begun = points[0]

    @staticmethod
    def _placed(kind: str, given: Sequence[float], zero: _Point, at: _Point) -> tuple[_Point, ...]:
        """The points of a command, absolute; of an arc only its end."""
        if kind == "H":
            return ((zero[0] + given[0], at[1]),)
        if kind == "V":
            return ((at[0], zero[1] + given[0]),)
        pairs = given[5:] if kind == "A" else given
        return tuple((zero[0] + pairs[n], zero[1] + pairs[n + 1]) for n in range(0, len(pairs), 2))

    def _curve(self, kind: str, at: _Point, points: tuple[_Point, ...]) -> Step:
        """One curve as a cubic one; a smooth one's first handle is the last handle turned about the pen."""
        if kind in "ST":
            goes_on = self.last in ("CS" if kind == "S" else "QT") and self.last != ""
            first = (2 * at[0] - self.handle[0], 2 * at[1] - self.handle[1]) if goes_on else at
            points = (first, *points)
        self.handle = points[-2]
        if kind in "QT":
            handle, end = points
            one, two = ((p[0] + 2 * (handle[0] - p[0]) / 3, p[1] + 2 * (handle[1] - p[1]) / 3) for p in (at, end))
            points = (one, two, end)
        return "C", points


def _arc(start: _Point, radii: _Point, tilt: float, flags: tuple[float, float], end: _Point) -> Iterator[Step]:
    """An elliptical arc between two points (the SVG standard's appendix on elliptical arcs)."""
    rx, ry = abs(radii[0]), abs(radii[1])
    if start == end:
        return
    if rx == 0 or ry == 0:
        yield "L", (end,)
        return
    c, s = cos(radians(tilt)), sin(radians(tilt))
    dx, dy = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    # Half the chord and the centre, in the ellipse's own directions and radii.
    px, py = (c * dx + s * dy) / rx, (c * dy - s * dx) / ry
    half = hypot(px, py)
    if half > 1:
        rx, ry, px, py, half = rx * half, ry * half, px / half, py / half, 1.0
    away = sqrt(max(0.0, 1 - half * half)) / half * (1 if flags[0] != flags[1] else -1)
    qx, qy = away * py, -away * px
    begin = _angle(px - qx, py - qy)
    sweep = _angle(-px - qx, -py - qy) - begin
    sweep = sweep % 360 if flags[1] else -(-sweep % 360)
    x = (start[0] + end[0]) / 2 + c * rx * qx - s * ry * qy
    y = (start[1] + end[1]) / 2 + s * rx * qx + c * ry * qy
    steps = list(ellipse_steps((x, y), (rx, ry), begin, sweep, tilt))
    yield from steps[:-1]
    # The last one ends where it was said to, to the last figure.
    yield "C", (*steps[-1][1][:2], end)


def _angle(x: float, y: float) -> float:
    turn = degrees(acos(max(-1.0, min(1.0, x / hypot(x, y)))))
    return turn if y >= 0 else -turn


def ellipse_steps(centre: _Point, radii: _Point, begin: float, sweep: float, tilt: float = 0.0) -> Iterator[Step]:
    """Part of an ellipse as curves, from where the pen is: from angle ``begin`` through ``sweep``, all in degrees, y down."""
    pieces = max(1, ceil(abs(sweep) / _PIECE))
    turn = radians(sweep / pieces)
    handle = 4 / 3 * tan(turn / 4)
    c, s = cos(radians(tilt)), sin(radians(tilt))

    def put(x: float, y: float) -> _Point:
        x, y = x * radii[0], y * radii[1]
        return (centre[0] + c * x - s * y, centre[1] + s * x + c * y)

    for n in range(pieces):
        a, b = radians(begin) + n * turn, radians(begin) + (n + 1) * turn
        yield (
            "C",
            (
                put(cos(a) - handle * sin(a), sin(a) + handle * cos(a)),
                put(cos(b) + handle * sin(b), sin(b) - handle * cos(b)),
                put(cos(b), sin(b)),
            ),
        )
