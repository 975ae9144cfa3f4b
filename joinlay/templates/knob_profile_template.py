"""A knob's own profile as a template for the lathe: half of it over its centre line, with the diameter at each step.

The drawing lies on its side: the centre line is the lower edge of its box, the side against the drawer's front is at the left.
Cut out along the curve, the paper or a card cut from it is held to the turning.
"""

from __future__ import annotations

from itertools import pairwise
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, PartRole
from joinlay.boards.names import in_few_words
from joinlay.boards.outline import Ring
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import stacked
from joinlay.pen.lettering import Run, figures, set_line, words
from joinlay.pen.marks import Align, Arc, Line, Polyline, Role, Text, bounds_of, flatten
from joinlay.templates.template import FIGURE, WORD, Template

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards.outline import Outline
    from joinlay.casework.pulls import Pull
    from joinlay.geometry import Point
    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Mark

__all__ = ["profile_template", "steps_of"]

#: Steps nearer to each other than this are one, in mm.
_APART: Final = Fraction(1)
#: A corner turns by more than this, as the square of the sine: about 25 degrees, more than the lines of a flattened curve.
_SHARP: Final = Fraction(18, 100)
_PAST, _ASIDE, _LONGEST = Fraction(6), Fraction(10), 24
_SMALL: Final = Fraction(5, 2)
#: Below the centre line: the first row of numbers, and from row to row.
_FIRST_ROW, _ROW = Fraction(4), Fraction(4)
_ZERO: Final = Fraction(0)


def profile_template(profile: Outline, knobs: Sequence[Pull], rule: Graduation) -> Template:
    """The template of ``profile`` for those of ``knobs`` that are as wide as it is, or for all where none is (PU-2).

    Figures are on ``rule``. x = 0 at the front of the drawer, y = 0 on the knob's centre line.
    """
    across = Length(profile.height * 2)
    own = [knob for knob in knobs if abs(knob.diameter - across) <= rule.division / 2] or list(knobs)
    names = tuple(dict.fromkeys(PartRole(PartKind.KNOB_BLANK, knob.on.drawer, of=knob.on).name for knob in own))
    strokes = tuple(flatten(_marks(profile, own, rule)))
    return Template(names, "profile", strokes, bounds_of(strokes))


def steps_of(profile: Outline) -> tuple[Point, ...]:
    """Where a turner measures, from the front on: (along, radius) in mm of both ends, corners, narrowest and widest places.

    Of steps within a millimetre of each other the wider one stays.
    """
    found: list[Point] = []
    for line in profile.lines:
        if isinstance(line, Ring):
            (x, y), r = line.centre, line.radius
            found += [(x - r, y), (x, y + r), (x + r, y)]
            continue
        points = (*line.points, line.points[0]) if line.is_closed else line.points
        found += [
            points[0],
            points[-1],
            *(b for a, b, c in zip(points, points[1:], points[2:], strict=False) if _is_step(a, b, c)),
        ]
    kept: list[Point] = []
    for step in sorted(set(found)):
        if kept and step[0] - kept[-1][0] < _APART:
            kept[-1] = max(kept[-1], step, key=lambda one: one[1])
        else:
            kept.append(step)
    return tuple(kept)


def _is_step(one: Point, two: Point, three: Point) -> bool:
    """True at a corner, and where the radius turns from growing to shrinking or back."""
    (ax, ay), (bx, by) = ((b[0] - a[0], b[1] - a[1]) for a, b in pairwise((one, two, three)))
    if ay * by < 0 or (ay == 0) != (by == 0):
        return True
    cross, dot = ax * by - ay * bx, ax * bx + ay * by
    return dot <= 0 or cross**2 > _SHARP * (cross**2 + dot**2)


def _marks(profile: Outline, knobs: Sequence[Pull], rule: Graduation) -> Iterator[Mark]:
    for line in profile.lines:
        if isinstance(line, Ring):
            yield Arc(line.centre, line.radius, _ZERO, Fraction(360), Role.SHAPE, "knob profile")
        else:
            yield Polyline(line.points, Role.SHAPE, line.is_closed, "knob profile")
    yield Line((-_PAST, _ZERO), (profile.width + _PAST, _ZERO), Role.CENTRE, "knob centre line")
    # The front of the drawer, which the knob stands on.
    yield Line((_ZERO, -_PAST), (_ZERO, profile.height + _PAST), Role.OUTLINE, "front of the drawer")
    steps = steps_of(profile)
    for x, r in steps:
        yield Line((x, _ZERO), (x, r), Role.DIMENSION) if r else Line((x, -_SMALL / 2), (x, _SMALL / 2), Role.DIMENSION)
    yield from _numbers(steps)
    caption = _caption(profile, knobs, steps, rule)
    yield from caption.marks(profile.width + _PAST + _ASIDE, profile.height - caption.height)


def _numbers(steps: Sequence[Point]) -> Iterator[Text]:
    """Each step's number under it, in the first of three rows where it has room; beside the front of the drawer, not on it."""
    rows: list[Fraction | None] = [None] * 3
    for number, (x, _) in enumerate(steps, start=1):
        label = words(str(number), _SMALL)
        half = set_line(label).width / 2 + Fraction(1, 2)
        at = max(x, half) if x else -half
        row = next((n for n, taken in enumerate(rows) if taken is None or at - half >= taken), None)
        if row is not None:
            rows[row] = at + half
            yield Text((at, -_FIRST_ROW - _SMALL - row * _ROW), label, Align.MIDDLE)


def _caption(profile: Outline, knobs: Sequence[Pull], steps: Sequence[Point], rule: Graduation) -> Block:
    knob = knobs[0]
    fronts = dict.fromkeys(one.front for one in knobs)
    part = [words(line, FIGURE, bold=True) for line in wrap(f"{in_few_words(fronts)} knob", _LONGEST)]
    made = (Run("half of it, over the centre line   ", WORD, bold=True), *words(f"make {len(knobs)}", WORD, bold=True))
    head = stacked([*part, words("PROFILE", FIGURE, bold=True), made])
    spigot: Content = (Run("spigot ", WORD), *figures(knob.hole, rule, WORD), Run(" across", WORD))
    if knob.depth is None:
        spigot += (Run(", right through the front", WORD),)
    else:
        spigot += (Run(", ", WORD), *figures(knob.depth, rule, WORD), Run(" long", WORD))
    rows: list[Content] = []
    for number, (x, r) in enumerate(steps, start=1):
        away, across = (figures(Length(size), rule, WORD) for size in (x, 2 * r))
        rows.append((Run(f"{number}   ", WORD), *away, Run(" from the front, ", WORD), *across, Run(" across", WORD)))
    return stacked([head, stacked([spigot, *rows]), words(f"drawn in {profile.file}", _SMALL)], Fraction(3))
