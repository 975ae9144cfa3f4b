"""Setup gauges: pieces of paper at true size to hold against fence and cutter, a step for every distance to set."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.drawings.lettering import figures, fitted
from joinlay.drawings.marks import Align, Line, Polyline, Role, Text, bounds_of
from joinlay.drawings.template import Template
from joinlay.lengths import ZERO
from joinlay.settings import Guide
from joinlay.settings import Role as CutRole
from joinlay.settings.wording import cut_words
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.drawings.marks import Point, Stroke
    from joinlay.lengths import Dimension, Graduation
    from joinlay.settings import Setting

__all__ = ["gauge_templates"]

#: The handle of a gauge: its size, and how much longer a step is than half the cutter, so that the handle clears it.
_HANDLE_WIDE, _HANDLE_LONG, _CLEAR = Fraction(54), Fraction(24), Fraction(10)
_APART: Final = Fraction(12)
_BESIDE: Final = Fraction(20)
_WORD, _SMALL = Fraction(7, 2), Fraction(5, 2)
#: Longer than this a rule serves better than paper.
_LONGEST: Final = Fraction(150)
_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def gauge_templates(settings: Iterable[Setting], rule: Graduation) -> tuple[Template, ...]:
    """A gauge for each setting that has a distance to be held to: strokes to cut out along, in the order of the settings.

    The *fence* part stands with its long straight edge against the fence (guide or straightedge); each step ends where the cutter's
    near side comes, or its far side where the cutter is sunk in the fence. The *height* part stands on the table; each step is as
    high as the cutter. Nothing for distances past 150 mm, and for what is marked and not set. Rules MS-1, PR-1; common practice.
    """
    found = []
    for setting in settings:
        strokes = tuple(_gauge(setting, rule))
        if strokes:
            name = f"gauge for the {cut_words(setting)}"
            found.append(Template((f"setting {setting.number}",), name, strokes, bounds_of(strokes)))
    return tuple(found)


def fence_steps(setting: Setting) -> tuple[Dimension, ...]:
    """The distances a gauge shows for the fence: near sides, far sides of a step, or the offset of a straightedge. Rule MS-1."""
    if setting.guide in (Guide.CENTRE_LINE, Guide.GAUGED_LINE):
        return ()
    if setting.offset is not None:
        found: tuple[Dimension, ...] = (setting.offset,)
    elif setting.role is CutRole.STEP:
        found = tuple(fence + setting.tool.width for fence in setting.fences)
    else:
        found = setting.fences
    return tuple(size for size in found if size > ZERO and size.mm <= _LONGEST)


def _gauge(setting: Setting, rule: Graduation) -> Iterator[Stroke]:
    fences = fence_steps(setting)
    heights = tuple(size for size in setting.heights if size.mm <= _LONGEST) if setting.machine in _TABLES else ()
    long = setting.tool.width.mm / 2 + _CLEAR
    x = Fraction(0)
    for title, sizes, edge in (("fence", fences, f"to the {setting.guide.value}"), ("height", heights, "on the table")):
        if sizes:
            yield from _stair(setting, title, sizes, edge, x, long, rule)
            x += max(_HANDLE_WIDE, max(size.mm for size in sizes) + _BESIDE) + _APART


def _stair(
    setting: Setting, title: str, sizes: Sequence[Dimension], edge: str, x: Fraction, long: Fraction, rule: Graduation
) -> Iterator[Stroke]:
    """A handle with a step above it for each size, the widest next to the handle; its left side is the straight edge."""
    steps = sorted(sizes, reverse=True)
    points: list[Point] = [(x, Fraction(0)), (x + _HANDLE_WIDE, Fraction(0)), (x + _HANDLE_WIDE, _HANDLE_LONG)]
    y = _HANDLE_LONG
    for size in steps:
        points += [(x + size.mm, y), (x + size.mm, y + long)]
        y += long
    points.append((x, y))
    yield Polyline(tuple(points), Role.CUT, closed=True, says=f"{title} gauge")
    yield Line((x + Fraction(3, 2), Fraction(2)), (x + Fraction(3, 2), y - 2), Role.DATUM, f"{title} edge")
    yield from _labels(setting, title, edge, x)
    for n, size in enumerate(steps):
        middle = _HANDLE_LONG + long * n + long / 2
        yield Text((x + size.mm + 2, middle - _WORD / 2), figures(size, rule, _WORD, bold=True))


def _labels(setting: Setting, title: str, edge: str, x: Fraction) -> Iterator[Stroke]:
    room = _HANDLE_WIDE - 7
    for up, line in (
        (Fraction(17), fitted(f"setting {setting.number}", room, (_WORD,), bold=True)),
        (Fraction(11), fitted(f"{title}: {cut_words(setting)}", room, (_WORD, _SMALL))),
        (Fraction(5), fitted(f"long side {edge}", room, (_SMALL,))),
    ):
        yield Text((x + 4, up), line, Align.LEFT)
