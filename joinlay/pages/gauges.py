"""Setup gauges: pieces of paper at true size to hold against fence and cutter, a step for every distance to set."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.lengths import ZERO, Fraction
from joinlay.pen.lettering import figures, fitted
from joinlay.pen.marks import Align, Line, Polyline, Role, Text, bounds_of
from joinlay.settings import Guide
from joinlay.settings import Role as CutRole
from joinlay.settings.wording import cut_words
from joinlay.shop import MachineKind
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.lengths import Dimension, Graduation
    from joinlay.pen.marks import Point, Stroke
    from joinlay.settings import Setting

__all__ = ["fence_steps", "gauge_templates", "height_steps"]

#: The handle of a gauge: its size, and how much longer a step is than half the cutter, so that the handle clears it.
_HANDLE_WIDE, _HANDLE_LONG, _CLEAR = Fraction(60), Fraction(26), Fraction(10)
_APART: Final = Fraction(12)
_BESIDE: Final = Fraction(20)
_WORD, _SMALL, _TINY = Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: Longer than this a rule serves better than paper.
_LONGEST: Final = Fraction(150)
#: Set by the far side of the cutter, since the near side is inside the fence.
_SUNK: Final = (CutRole.STEP, CutRole.SHAPED)
_TABLES: Final = (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW)


def gauge_templates(settings: Iterable[Setting], rule: Graduation) -> tuple[Template, ...]:
    """A gauge, to cut out along its lines, for each of ``settings`` that has a distance to be held to, in their order.

    Figures stand on ``rule``. Settings with the same distances share one. The *fence* part stands with its long straight edge
    against the fence (guide or straightedge); each step ends where the cutter's near side comes, or its far side where the
    cutter is sunk in the fence. The *height* part stands on the table; each step is as high as the cutter. There is none for
    distances past 150 mm, where a rule serves better, and none for what is marked and not set. Rules MS-1, PR-1; common
    practice.
    """
    alike: dict[tuple[object, ...], list[Setting]] = {}
    for setting in settings:
        fences, heights = fence_steps(setting), height_steps(setting)
        if fences or heights:
            key = (fences, heights, setting.guide, _side(setting), setting.tool.width)
            alike.setdefault(key, []).append(setting)
    found = []
    for same in alike.values():
        cards = tuple(f"card {setting.number}" for setting in same)
        cuts = ", ".join(dict.fromkeys(cut_words(setting) for setting in same))
        strokes = tuple(_gauge(same[0], cards, cuts, rule))
        found.append(Template(cards, f"gauge for the {cuts}", strokes, bounds_of(strokes)))
    return tuple(found)


def _side(setting: Setting) -> str:
    """Where a fence step ends."""
    if setting.offset is not None:
        return "near wall of the cut"
    return "far side of the cutter" if setting.role in _SUNK else "near side of the cutter"


def height_steps(setting: Setting) -> tuple[Dimension, ...]:
    """The heights a gauge shows: those of a cutter that comes up through a table, none longer than a hand. Rule MS-1."""
    return tuple(size for size in setting.heights if size.mm <= _LONGEST) if setting.machine in _TABLES else ()


def fence_steps(setting: Setting) -> tuple[Dimension, ...]:
    """The distances a gauge shows for the fence: near sides, far sides of a step, or the offset of a straightedge. Rule MS-1."""
    if setting.guide in (Guide.CENTRE_LINE, Guide.GAUGED_LINE):
        return ()
    if setting.offset is not None:
        found: tuple[Dimension, ...] = (setting.offset,)
    elif setting.role in _SUNK:
        found = tuple(fence + setting.tool.width for fence in setting.fences)
    else:
        found = setting.fences
    return tuple(size for size in found if size > ZERO and size.mm <= _LONGEST)


def _gauge(setting: Setting, cards: Sequence[str], cuts: str, rule: Graduation) -> Iterator[Stroke]:
    long = setting.tool.width.mm / 2 + _CLEAR
    x = Fraction(0)
    for title, sizes, edge, ends in (
        ("fence", fence_steps(setting), f"long side to the {setting.guide.value}", f"steps end at the {_side(setting)}"),
        ("height", height_steps(setting), "long side on the table", "steps are as high as the cutter"),
    ):
        if sizes:
            says = (f"{title}: {in_few_words(cards)}", cuts, edge, ends)
            yield from _stair(title, sizes, says, (x, long), rule)
            x += max(_HANDLE_WIDE, max(size.mm for size in sizes) + _BESIDE) + _APART


def _stair(
    title: str, sizes: Sequence[Dimension], says: Sequence[str], place: tuple[Fraction, Fraction], rule: Graduation
) -> Iterator[Stroke]:
    """A handle with a step above it for each size, the widest next to the handle; its left side is the straight edge.

    ``place`` is where that side is, and how long a step is.
    """
    x, long = place
    steps = sorted(sizes, reverse=True)
    points: list[Point] = [(x, Fraction(0)), (x + _HANDLE_WIDE, Fraction(0)), (x + _HANDLE_WIDE, _HANDLE_LONG)]
    y = _HANDLE_LONG
    for size in steps:
        points += [(x + size.mm, y), (x + size.mm, y + long)]
        y += long
    points.append((x, y))
    yield Polyline(tuple(points), Role.CUT, closed=True, says=f"{title} gauge")
    yield Line((x + Fraction(3, 2), Fraction(2)), (x + Fraction(3, 2), y - 2), Role.DATUM, f"{title} edge")
    yield from _labels(says, x)
    for n, size in enumerate(steps):
        middle = _HANDLE_LONG + long * n + long / 2
        yield Text((x + size.mm + 2, middle - _WORD / 2), figures(size, rule, _WORD, bold=True))


def _labels(says: Sequence[str], x: Fraction) -> Iterator[Stroke]:
    """Which card, what is cut, where the long side goes, where the steps end: one under the other on the handle."""
    room = _HANDLE_WIDE - 6
    for n, line in enumerate(says):
        set_as = fitted(line, room, (_WORD, _SMALL), bold=True) if n == 0 else fitted(line, room, (_SMALL, _TINY))
        yield Text((x + 4, _HANDLE_LONG - 6 - n * Fraction(11, 2)), set_as, Align.LEFT)
