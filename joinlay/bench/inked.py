"""Marks as SVG within a page: no style of their own, so that the page's rules may stay strict, and each mark with what it
stands for.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from markupsafe import Markup, escape

from joinlay.documents.svg import arc_element, number_text, points_text, text_elements, tone_of
from joinlay.lengths import Dimension
from joinlay.pen.marks import Arc, Fill, Line, Polyline, bounds_of, text_box

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pen.marks import Of, Stroke, Text

__all__ = ["inked"]

#: White around a drawing, in mm.
_MARGIN = 3


def inked(strokes: Sequence[Stroke], title: str, told: str, key: str, areas: Sequence[Fill] = ()) -> Markup:
    """``strokes`` as an ``svg`` element with ``title`` and what is ``told`` of it for those who can't see it; ``key`` is a word
    for its ids.

    ``areas`` are where parts can be pressed, the nearest last. What a mark is of stands in it: ``data-part`` has the names of
    parts, ``data-why`` the name of a number. 1 unit is 1 mm on paper; how large it is shown is the page's business.
    """
    left, bottom, right, top = bounds_of(strokes)
    box = (left - _MARGIN, -top - _MARGIN, right - left + 2 * _MARGIN, top - bottom + 2 * _MARGIN)
    lines = [
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing" role="group" viewBox="{" ".join(map(number_text, box))}" '
        f'aria-labelledby="{key}-title {key}-told" preserveAspectRatio="xMidYMid meet">',
        f'<title id="{key}-title">{escape(title)}</title><desc id="{key}-told">{escape(told)}</desc>',
        *(f'<polygon class="part"{_part(area.of)} points="{points_text(area.points)}"/>' for area in areas),
        *(element for stroke in strokes for element in _element(stroke)),
        "</svg>",
    ]
    return Markup("\n").join(Markup(line) for line in lines)


def _element(stroke: Stroke) -> Iterator[str]:
    if isinstance(stroke, Line):
        (x1, y1), (x2, y2) = stroke.start, stroke.end
        yield (
            f'<line {_about(stroke)} x1="{number_text(x1)}" y1="{number_text(-y1)}" x2="{number_text(x2)}" '
            f'y2="{number_text(-y2)}"/>'
        )
    elif isinstance(stroke, Polyline):
        yield f'<{"polygon" if stroke.closed else "polyline"} {_about(stroke)} points="{points_text(stroke.points)}"/>'
    elif isinstance(stroke, Fill):
        yield f'<polygon class="area" fill="{tone_of(stroke.ink)}" points="{points_text(stroke.points)}"/>'
    elif isinstance(stroke, Arc):
        yield arc_element(stroke, _about(stroke))
    else:
        yield from _told(stroke)


def _told(text: Text) -> Iterator[str]:
    """Words; a figure whose number has a name can be pressed, and so can the name of a part, on all the room they take."""
    of = text.of
    if of is None or (isinstance(of, Dimension) and not of.name):
        yield from text_elements(text)
        return
    said = escape(text.plain)
    if isinstance(of, Dimension):
        yield (
            f'<g class="why" data-why="{escape(of.name)}" role="button" tabindex="0" aria-label="{said}: '
            f'{escape(of.name)}. Why?">'
        )
    else:
        yield f'<g class="called"{_part(of)}>'
    left, low, right, high = text_box(text)
    x, y, wide, deep = map(number_text, (left - 1, -high - 1, right - left + 2, high - low + 2))
    yield f'<rect x="{x}" y="{y}" width="{wide}" height="{deep}"/>'
    yield from text_elements(text)
    yield "</g>"


def _part(of: Of) -> str:
    """Which parts a mark is of, by name, as a list for the page's script."""
    if of is None or isinstance(of, Dimension):
        return ""
    names = [role.name for role in (of if isinstance(of, tuple) else (of,))]
    return f' data-part="{escape(json.dumps(names))}"'


def _about(stroke: Stroke) -> str:
    return f'class="{stroke.role.value}"{_part(stroke.of)}'
