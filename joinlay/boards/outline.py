"""A maker's own outline: lines to be traced onto a part, in exact millimetres, and the place on a board where they go.

An outline goes through the house like this, a file a floor:

    documents/outline_file.py       reads it out of an SVG file (outline_svg.py: what that may hold; outline_paths.py: path data)
    casework/outline_place.py       where on a part a maker wants it, and whether it lies on the wood
    checks/outline_check.py         whether it runs over a cut of the part
    jobs/finishing.py               traces each of a job's outlines on every part it is for
    templates/outline_template.py   lays it on paper at true size

Half the profile of a knob is an outline too, which is turned and not traced; what is about that one has ``knob_profile`` in its
name: checks/knob_profile_check.py (is it the size of the knobs?) and templates/knob_profile_template.py (the template for the
lathe).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Union

from joinlay.boards.surface import Surface
from joinlay.geometry import box_of
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from joinlay.boards.board import Board
    from joinlay.boards.cut import Span
    from joinlay.geometry import Point
    from joinlay.lengths import Fraction

__all__ = ["Outline", "PlacedOutline", "Ring", "StraightRun", "outline_of"]


@dataclass(frozen=True, slots=True)
class StraightRun:
    """Straight lines from point to point, back to the first where ``is_closed``."""

    points: tuple[Point, ...]
    is_closed: bool = False


@dataclass(frozen=True, slots=True)
class Ring:
    """A whole circle; ``radius`` in mm."""

    centre: Point
    radius: Fraction


@dataclass(frozen=True, slots=True)
class Outline:
    """The lines of one drawing, from the file called ``file``. The lower left corner of the box that holds them is the zero
    point.
    """

    file: str
    lines: tuple[Union[StraightRun, Ring], ...]
    width: Fraction
    height: Fraction

    @property
    def points(self) -> int:
        """How many points its lines have; a circle counts as one."""
        return sum(len(line.points) if isinstance(line, StraightRun) else 1 for line in self.lines)

    def turned(self, quarters: int) -> Outline:
        """The same outline turned by so many quarter turns anticlockwise."""
        turned = self
        for _ in range(quarters % 4):
            turned = turned._moved(lambda point: (-point[1], point[0]))
        return turned

    def mirrored(self) -> Outline:
        """The same outline with left and right exchanged."""
        return self._moved(lambda point: (-point[0], point[1]))

    def _moved(self, put: Callable[[Point], Point]) -> Outline:
        lines = [
            replace(line, centre=put(line.centre))
            if isinstance(line, Ring)
            else replace(line, points=tuple(map(put, line.points)))
            for line in self.lines
        ]
        return outline_of(self.file, lines)


def outline_of(file: str, lines: Iterable[StraightRun | Ring]) -> Outline:
    """The outline of ``lines``, moved so that the box around them begins at the zero point. ValueError where there are none."""
    drawn = tuple(lines)
    left, bottom, right, top = box_of(corner for line in drawn for corner in _corners(line))
    return Outline(file, tuple(_shifted(line, -left, -bottom) for line in drawn), right - left, top - bottom)


def _corners(line: StraightRun | Ring) -> tuple[Point, ...]:
    if isinstance(line, StraightRun):
        return line.points
    (x, y), r = line.centre, line.radius
    return ((x - r, y - r), (x + r, y + r))


def _shifted(line: StraightRun | Ring, right: Fraction, up: Fraction) -> StraightRun | Ring:
    if isinstance(line, StraightRun):
        return replace(line, points=tuple((x + right, y + up) for x, y in line.points))
    return replace(line, centre=(line.centre[0] + right, line.centre[1] + up))


@dataclass(frozen=True, slots=True)
class PlacedOutline:
    """An outline on one face of a board.

    ``outline`` is as it is seen on ``face``, turned already, the board's reference edge down. ``along`` and ``across`` are what
    its box takes up, counted from the board's reference end and edge; ``into`` the wood that is cut away inside it, None where it
    is only marked. ``end`` and ``edge`` are the surfaces its place was counted from, None where it was put in the middle;
    ``to_middle`` is True where it was counted to the middle of its box, not to its near side. ``purpose`` is in the maker's
    words.
    """

    board: Board
    outline: Outline
    purpose: str
    face: Surface
    along: Span
    across: Span
    into: Span | None = None
    end: Surface | None = None
    edge: Surface | None = None
    to_middle: bool = False

    @property
    def end_on_left(self) -> bool:
        """True where the board's reference end is at the left, looking at ``face`` with the reference edge down."""
        return self.board.end_on_left == (self.face is Surface.FACE)
