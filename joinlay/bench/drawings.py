"""The drawings on the page: which there are, and each as SVG out of the packet's own marks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from joinlay.bench.inked import inked
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.sheet_goods import sheet_layouts
from joinlay.errors import BadInput, nearest_names
from joinlay.lengths import Fraction
from joinlay.pages.assembly_sheets import numbers_of
from joinlay.pages.drawer_charts import chart_block, drawers_named, ways_out
from joinlay.pages.layout_drawing import layout_drawing
from joinlay.pictures.apart_views import whole_view
from joinlay.pictures.details import details
from joinlay.pictures.elevation import dimensioned_elevation
from joinlay.pictures.picture import Picture, Scale
from joinlay.pictures.sections import level_section, upright_sections
from joinlay.templates.story.story_sticks import story_sticks

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.plain_sheet import PageBlock
    from joinlay.pictures.picture import Size

__all__ = ["DRAWINGS", "drawing_of"]

#: The room a drawing has, in mm of paper: about what a sheet held level has.
_ROOM: Final[Size] = (Fraction(300), Fraction(200))
_TRUE: Final = Scale(1, 1)


def _front(plan: Plan) -> Sequence[Picture]:
    picture = dimensioned_elevation(plan, _ROOM)
    return (picture,) if picture else ()


def _upright(plan: Plan) -> Sequence[Picture]:
    return upright_sections(plan, _ROOM)


def _level(plan: Plan) -> Sequence[Picture]:
    picture = level_section(plan, _ROOM)
    return (picture,) if picture else ()


def _apart(plan: Plan) -> Sequence[Picture]:
    view = whole_view(plan, numbers_of(plan), _ROOM)
    return (view.picture,) if view else ()


def _sticks(plan: Plan) -> Sequence[Picture]:
    return [Picture(stick.title, stick.strokes, _TRUE) for stick in story_sticks(plan)]


def _layouts(plan: Plan) -> Sequence[Picture]:
    wide, deep = _ROOM
    return [
        _block(f"{layout.stock}, sheet {n} of {len(layout.sheets)}", layout_drawing(sheet, layout.kerf, plan.rule, wide, deep))
        for layout in sheet_layouts(plan, cutting_list(plan))
        for n, sheet in enumerate(layout.sheets, start=1)
    ]


def _charts(plan: Plan) -> Sequence[Picture]:
    return [
        _block(f"{drawers_named(way.drawers)} on the way out", (chart_block(way, plan.rule, _ROOM[0]), 1))
        for way in ways_out(plan)
    ]


def _block(title: str, drawn: tuple[PageBlock, int]) -> Picture:
    block, scale = drawn
    return Picture(title, block.strokes, Scale(1, scale))


#: Every drawing by its key in the address: what it is called on the page, and what draws it.
DRAWINGS: Final[dict[str, tuple[str, Callable[[Plan], Sequence[Picture]]]]] = {
    "front": ("Front", _front),
    "section": ("Section", _upright),
    "plan": ("Plan", _level),
    "details": ("Details", details),
    "apart": ("Taken apart", _apart),
    "sticks": ("Story sticks", _sticks),
    "layouts": ("Sheets", _layouts),
    "charts": ("Charts", _charts),
}


def drawing_of(plan: Plan | None, key: str) -> Markup:
    """The drawing ``key`` of ``plan``, one figure for each picture of it; in words where there is nothing to draw.

    Raises BadInput, with the nearest there is, where ``key`` is none of ``DRAWINGS``.
    """
    if key not in DRAWINGS:
        near = nearest_names(key, tuple(DRAWINGS), 1)
        raise BadInput(
            f"there is no such drawing; {f'the nearest is {near[0]}' if near else 'there are ' + ', '.join(DRAWINGS)}."
        )
    pictures = DRAWINGS[key][1](plan) if plan else ()
    if not pictures:
        return Markup('<p class="nothing">There is nothing to draw yet.</p>')
    return Markup("\n").join(_figure(picture, f"{key}-{n}") for n, picture in enumerate(pictures))


def _figure(picture: Picture, name: str) -> Markup:
    numbered = "; ".join(f"{n} {said}" for n, said in enumerate(picture.names, start=1))
    notes = [one for one in (numbered, *picture.unsaid) if one]
    told = f"Drawn {picture.scale.text} on paper. " + " ".join(notes)
    left, _, right, _ = picture.box
    # Details are drawn small on paper: many stand side by side.
    size = "small" if right - left < _ROOM[0] / 3 else "large"
    under = Markup("").join(Markup("<p>{}</p>").format(note) for note in notes)
    return Markup('<figure class="{}">{}<figcaption><h3>{}</h3> <span class="scale">{}</span>{}</figcaption></figure>').format(
        size, inked(picture.strokes, picture.title, told, name, picture.areas), _capital(picture.title), picture.scale.text, under
    )


def _capital(said: str) -> str:
    return f"{said[:1].upper()}{said[1:]}"
