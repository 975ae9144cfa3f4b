"""The drawings on the page: which there are, and each as SVG out of the packet's own marks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from markupsafe import Markup

from joinlay.bench.inked import inked
from joinlay.boards import PartKind
from joinlay.boards.names import in_few_words
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.cutlist.sheet_goods import sheet_layouts
from joinlay.cutlist.solid_wood import board_layouts
from joinlay.errors import BadInput, nearest_names
from joinlay.lengths import Dimension, Fraction
from joinlay.pages.assembly_sheets import numbers_of
from joinlay.pages.drawer_charts import chart_block, drawers_named, ways_out
from joinlay.pages.layout_drawing import layout_drawing
from joinlay.pages.sag_charts import bottoms, sag_block, shelf_block, shelves
from joinlay.pictures.apart_views import whole_view
from joinlay.pictures.details import details
from joinlay.pictures.elevation import dimensioned_elevation
from joinlay.pictures.picture import Picture, Scale, largest_that_fits, scales_of
from joinlay.pictures.sections import level_section, numbered_across, upright_sections
from joinlay.records import dataclass
from joinlay.stock import Sheet
from joinlay.templates.story.story_sticks import story_sticks

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.plain_sheet import PageBlock
    from joinlay.pictures.picture import Size

__all__ = ["DRAWINGS", "Drawing", "drawing_of", "views_of"]

#: The room a drawing has, in mm of paper: about what a sheet held level has.
_ROOM: Final[Size] = (Fraction(300), Fraction(200))
#: What stands under a drawing with numbers in circles.
_NUMBERED: Final = Markup(
    '<p>Numbers in circles are those of the <button type="button" class="line" hx-get="/list?name=" '
    'hx-target="#card" hx-swap="innerHTML">'
    "cutting list</button></p>"
)
_TRUE: Final = Scale(1, 1)


def _one(picture: Picture | None) -> Sequence[Picture]:
    return (picture,) if picture else ()


def _across(plan: Plan) -> Sequence[Picture]:
    view = numbered_across(plan, numbers_of(plan))
    if view is None:
        return ()
    left, bottom, right, top = view.box
    bare = largest_that_fits(lambda scale: (view.bare(scale),), (right - left, top - bottom), _ROOM, scales_of(plan.unit))
    return (view.numbered(bare, bare.box),)


def _apart(plan: Plan) -> Sequence[Picture]:
    view = whole_view(plan, numbers_of(plan), _ROOM)
    return (view.picture,) if view else ()


def _sticks(plan: Plan) -> Sequence[Picture]:
    return [Picture(stick.title, stick.strokes, _TRUE) for stick in story_sticks(plan)]


def _layouts(plan: Plan) -> Sequence[Picture]:
    wide, deep = _ROOM
    parts = cutting_list(plan)
    sheets = [(layout, "sheet") for layout in sheet_layouts(plan, parts)]
    boards = [(layout, "board") for layout in board_layouts(plan, parts)]
    return [
        _block(f"{layout.stock}, {word} {n} of {len(layout.sheets)}", layout_drawing(sheet, layout.kerf, plan.rule, wide, deep))
        for layout, word in (*sheets, *boards)
        for n, sheet in enumerate(layout.sheets, start=1)
    ]


def _charts(plan: Plan) -> Sequence[Picture]:
    out = [
        _block(f"{drawers_named(way.drawers)} on the way out", (chart_block(way, plan.rule, _ROOM[0]), 1))
        for way in ways_out(plan)
    ]
    sag = [
        _block(f"{drawers_named(one.drawers)}, sag of the bottom", (sag_block(one, plan.rule, _ROOM[0]), 1))
        for one in bottoms(plan)
    ]
    shelved = [_block(f"{one.shelf.name}, sag of the shelf", (shelf_block(one, plan.rule, _ROOM[0]), 1)) for one in shelves(plan)]
    return [*out, *sag, *shelved]


def _block(title: str, drawn: tuple[PageBlock, int]) -> Picture:
    block, scale = drawn
    return Picture(title, block.strokes, Scale(1, scale))


def _has_shelves(plan: Plan) -> bool:
    return any(board.role.kind in (PartKind.SHELF, PartKind.LOOSE_SHELF) for board in plan.boards)


def _is_sawn(plan: Plan) -> bool:
    return bool(plan.on_hand.boards) or any(isinstance(stock, Sheet) for stock in plan.stocks.values())


@dataclass(frozen=True, slots=True)
class Drawing:
    """A drawing on the page: what it is called, what draws it, whether a plan has it at all.

    Whether it is to a scale, as a chart isn't; and whether its parts are told by their numbers in the cutting list.
    """

    name: str
    drawn: Callable[[Plan], Sequence[Picture]]
    is_there: Callable[[Plan], bool]
    is_scaled: bool = True
    is_numbered: bool = False


#: Every drawing by its key in the address.
DRAWINGS: Final = {
    "front": Drawing("Front", lambda plan: _one(dimensioned_elevation(plan, _ROOM)), bool),
    "section": Drawing("Section", lambda plan: upright_sections(plan, _ROOM), lambda plan: bool(plan.drawers)),
    "across": Drawing("Across", _across, lambda plan: bool(plan.drawers) and bool(plan.others), is_numbered=True),
    "plan": Drawing("Plan", lambda plan: _one(level_section(plan, _ROOM)), lambda plan: bool(plan.drawers)),
    "details": Drawing("Details", details, lambda plan: bool(plan.drawers)),
    "apart": Drawing("Taken apart", _apart, lambda plan: any(stage.of is None for stage in plan.order.stages), is_numbered=True),
    "sticks": Drawing("Story sticks", _sticks, lambda plan: bool(plan.drawers) or bool(plan.others)),
    "layouts": Drawing("Sheets", _layouts, _is_sawn),
    "charts": Drawing("Charts", _charts, lambda plan: bool(plan.drawers) or _has_shelves(plan), is_scaled=False),
}


def views_of(plan: Plan | None) -> tuple[tuple[str, str], ...]:
    """The drawings that ``plan`` has, as (key, what it is called), in their order; the first alone before there is a plan."""
    return tuple((key, one.name) for n, (key, one) in enumerate(DRAWINGS.items()) if n == 0 or (plan and one.is_there(plan)))


def drawing_of(plan: Plan | None, key: str) -> Markup:
    """The drawing ``key`` of ``plan``, one figure for each picture of it; in words where there is nothing to draw.

    Raises BadInput, with the nearest there is, where ``key`` is none of ``DRAWINGS``.
    """
    if key not in DRAWINGS:
        near = nearest_names(key, tuple(DRAWINGS), 1)
        raise BadInput(
            f"there is no such drawing; {f'the nearest is {near[0]}' if near else 'there are ' + ', '.join(DRAWINGS)}."
        )
    drawing = DRAWINGS[key]
    pictures = drawing.drawn(plan) if plan and drawing.is_there(plan) else ()
    if not pictures:
        return Markup('<p class="nothing">There is nothing to draw yet.</p>')
    return Markup("\n").join(
        _figure(picture, f"{key}-{n}", is_scaled=drawing.is_scaled, is_numbered=drawing.is_numbered)
        for n, picture in enumerate(pictures)
    )


def _figure(picture: Picture, name: str, *, is_scaled: bool, is_numbered: bool) -> Markup:
    numbered = "; ".join(f"{n} {said}" for n, said in enumerate(picture.names, start=1))
    notes = [one for one in (numbered, *picture.unsaid) if one]
    told = " ".join([*([f"Drawn {picture.scale.text} on paper."] if is_scaled else []), *_parts_told(picture), *notes])
    left, _, right, _ = picture.box
    # Details are drawn small on paper: many stand side by side.
    size = "small" if right - left < _ROOM[0] / 3 else "large"
    under = Markup("").join(Markup("<p>{}</p>").format(note) for note in notes)
    if is_numbered:
        under += _NUMBERED
    scale = Markup(' <span class="scale">{} on paper</span>').format(picture.scale.text) if is_scaled else Markup("")
    return Markup('<figure class="{}">{}<figcaption><h3>{}</h3>{}{}</figcaption></figure>').format(
        size, inked(picture.strokes, picture.title, told, name, picture.areas), _capital(picture.title), scale, under
    )


def _parts_told(picture: Picture) -> Iterator[str]:
    """The parts that are seen in it, each once, for those who can't see it."""
    roles = [area.of for area in picture.areas if area.of is not None and not isinstance(area.of, Dimension)]
    names = dict.fromkeys(role.name for of in roles for role in (of if isinstance(of, tuple) else (of,)))
    if names:
        yield f"Parts seen: {in_few_words(names)}."


def _capital(said: str) -> str:
    return f"{said[:1].upper()}{said[1:]}"
