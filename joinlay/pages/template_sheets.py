"""Templates on sheets at true size: small ones share a sheet, large ones are tiled, and every sheet has its check square.

Each template is laid in one of three ways, tried in this order: whole, where it fits an empty sheet; in strips side by side,
where it is five times as long as wide or more; else in tiles, of the size that takes fewest. What goes where is ``packing``,
where a drawing is cut is ``seams``. What goes on a sheet whole is laid twice, the right way up and packed close, and the way that
takes less paper is kept.
"""

from __future__ import annotations

from functools import cache, partial
from itertools import groupby
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction, Unit
from joinlay.pages.close_packing import packed
from joinlay.pages.packing import GAP, Cutout, SheetStack
from joinlay.pages.printed_sheet import Laid, Sheet, bind
from joinlay.pages.printer import Printer
from joinlay.pages.seams import OVERLAP, Parting, count_tiles, match_letters, next_stop, seams_across, with_boxes
from joinlay.pages.tile_maps import TileMap
from joinlay.pages.tiling import tile, tile_at
from joinlay.pages.title_block import TemplateFoot
from joinlay.pen.marks import Move
from joinlay.pen.signs import signs_on

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from joinlay.pages.packing import Strip
    from joinlay.pages.seams import Seams, Span
    from joinlay.pages.tiling import Tile
    from joinlay.paper import Paper
    from joinlay.pen.marks import Box, Stroke
    from joinlay.templates.template import Template

__all__ = ["lay_out", "pack_close"]


#: So many times as long as it is wide, and a template is cut into strips wherever there is room for one (our own choice).
_THIN: Final = 5


def lay_out(
    templates: Iterable[Template], paper: Paper, *, title: str, file: str, unit: Unit, printer: Printer | None = None
) -> tuple[Sheet, ...]:
    """Sheets of ``paper`` with ``templates`` in their order, each as far forward as there is room for it.

    ``title`` and ``file`` (the job's, no folder) stand at the foot of each sheet, with what is on it and the ``unit`` of the
    figures. PR-1: nothing is scaled. PR-2: a check square on each sheet, two long bars on the first. PR-3: corrected for
    ``printer``, which is taken at its word unless given. PR-4: what does not fit is tiled, what is long and thin is cut into
    strips that lie side by side, and templates are turned about where that saves a sheet. A sheet of a roll is as long as it
    must be. Raises BadInput for paper too small for the check square and a template beside it.
    """
    asked = printer or Printer()
    return bind(_cut(_both_ways_up(tuple(templates), paper, asked), title=title, file=file, unit=unit))


def _both_ways_up(templates: Sequence[Template], paper: Paper, printer: Printer) -> SheetStack:
    """Sheets with ``templates`` in their order, the right way up where that takes no more paper than turning some."""
    upright = _laid(templates, SheetStack(paper, printer))
    if not upright.has_put:
        # Strips are laid alike either way.
        return upright
    return min(upright, _laid(templates, SheetStack(paper, printer, is_close=True)), key=lambda one: one.used)


def _cut(stack: SheetStack, *, title: str, file: str, unit: Unit) -> list[Sheet]:
    """The sheets of ``stack`` with their feet, not yet bound."""
    paper, asked = stack.paper, stack.printer
    sheets = []
    for sheet, page in stack.cut():
        foot = TemplateFoot(
            title=title,
            parts=tuple(_said(sheet.laid)),
            paper=paper,
            file=file,
            unit="inches" if unit is Unit.INCH else "mm",
            corner=sheet.foot,
            maps=tuple(sheet.maps),
            signs=signs_on(sheet.strokes),
            printer=asked,
        )
        sheets.append(Sheet(page, asked, tuple(sheet.strokes), foot, tuple(sheet.laid)))
    return sheets


def _laid(templates: Iterable[Template], stack: SheetStack) -> SheetStack:
    """``stack`` with all the templates on it."""
    letters = match_letters()
    for template in templates:
        _lay(template, stack, letters)
    return stack


def _lay(template: Template, stack: SheetStack, letters: Iterator[str]) -> None:
    """Lay a template whole where it goes on a sheet, else in strips, else in tiles."""
    width, height = template.size
    empty = stack.empty().room
    if any(_fits(width, height, box) or _fits(height, width, box) for box in empty.boxes):
        stack.put(_uncut(template))
        return
    short, long = sorted(template.size)
    strip = empty.strip(short, long)
    if long >= _THIN * short and strip is not None and strip.length > 3 * OVERLAP:
        _lay_strips(template, stack, letters)
    else:
        _lay_tiles(template, stack, letters)


def _lay_strips(template: Template, stack: SheetStack, letters: Iterator[str]) -> None:
    """Cut a long template into strips, each as long as the room that is left for it, in their order (PR-4)."""
    along = 0 if template.size[0] >= template.size[1] else 1
    low, high = template.box[along], template.box[along + 2]
    thick, seams = template.size[1 - along], seams_across(with_boxes(template.strokes), template.box, along)
    places: list[tuple[int, Strip]] = []
    spans: list[Span] = []
    # The strips of one template stand on sheets that follow each other, beginning where the one before ended.
    start, at = low, max(0, len(stack.sheets) - 1)
    while not spans or spans[-1][1] < high:
        at, strip, stop = _next_strip(stack, at, thick, (start, high), seams)
        stack.sheets[at].room.take(strip.cut_to(stop - start))
        places.append((at, strip))
        spans.append((start, stop))
        start = stop - OVERLAP
    other: list[Span] = [(template.box[1 - along], template.box[3 - along])]
    across, up = (spans, other) if along == 0 else (other, spans)
    own = tuple(next(letters) for _ in spans[1:])
    # Everything is laid twice and cut once.
    tiles = cache(lambda: tile_at(template.strokes, across, up, title=template.title, letters=iter(own)))
    windows = tuple((x0, y0, x1, y1) for y0, y1 in up for x0, x1 in across)
    for (at, strip), (begin, end), cutout in zip(places, spans, _cutouts(template, windows, own, tiles), strict=True):
        stack.lay(cutout, at, strip.cut_to(end - begin)[:2], is_turned=strip.is_upright != (along == 1))


def _next_strip(stack: SheetStack, at: int, thick: Fraction, span: Span, seams: Seams) -> tuple[int, Strip, Fraction]:
    """The sheet, place and end of the next strip of a template of which ``span`` is left, from sheet number ``at`` on.

    On the first sheet with a clear seam it is the strip that takes it furthest, and of those the shortest, so that longer ones
    stay free. Rather a place further on than a seam across what is marked from, and rather on another sheet than one across
    words.
    """
    start, high = span
    before = len(stack.sheets)
    found: list[tuple[int, Strip, Fraction, Parting]] = []
    clear: list[tuple[int, Strip, Fraction]] = []
    known: dict[Fraction, tuple[Fraction, Parting]] = {}
    for place, strip in stack.strips(thick, high - start, at):
        if clear and place != clear[0][0]:
            break
        if place == before and (whole := [one for one in found if one[3] is Parting.MARKS]):
            found = whole
            break
        if strip.length not in known:
            known[strip.length] = next_stop(start, strip.length, high, seams)
        stop, parts = known[strip.length]
        if parts is Parting.NOTHING:
            clear.append((place, strip, stop))
        found.append((place, strip, stop, parts))
    if clear:
        at, strip, stop = max(clear, key=lambda one: (one[2], -one[1].length))
    else:
        at, strip, stop, _ = max(found, key=lambda one: (one[2], -one[0]))
    # A sheet that was only looked at stays out of the stack.
    del stack.sheets[max(before, at + 1) :]
    return at, strip, stop


def _lay_tiles(template: Template, stack: SheetStack, letters: Iterator[str]) -> None:
    """Cut a large template into tiles of the size that takes fewest, in their order on the sheets (PR-4)."""
    boxes = stack.empty().room.boxes
    rooms = [size for box in boxes for size in ((box[2] - box[0], box[3] - box[1]), (box[3] - box[1], box[2] - box[0]))]
    wide, high = min((room for room in rooms if min(room) > 3 * OVERLAP), key=lambda room: _worth(template.size, room))
    at = 0
    tiles = tile(template.strokes, wide, high, title=template.title, letters=letters)
    for cutout in _cutouts(template, tuple(one.window for one in tiles), tiles[0].letters, lambda: tiles):
        at = stack.put(cutout, at)


def _uncut(template: Template) -> Cutout:
    """A template that goes on a sheet whole."""
    return Cutout(Laid(template, Move()), lambda: template.strokes, template.box)


def _cutouts(
    template: Template, windows: tuple[Box, ...], letters: tuple[str, ...], tiles: Callable[[], Sequence[Tile]]
) -> Iterator[Cutout]:
    """A cutout for each of ``windows``, which ``letters`` join; ``tiles`` cuts the template."""
    for n, window in enumerate(windows):
        laid = Laid(template, Move(), n + 1, len(windows))
        yield Cutout(laid, partial(_strokes_on, tiles, n), window, TileMap(windows, n + 1, letters))


def _strokes_on(tiles: Callable[[], Sequence[Tile]], n: int) -> tuple[Stroke, ...]:
    return tiles()[n].strokes


def _said(laid: Sequence[Laid]) -> Iterator[str]:
    """What is on a sheet, the tiles of one template in one line: ``tiles 1 to 4 of 10: case side, story stick``."""
    for title, group in groupby(laid, key=lambda one: one.template.title):
        here = list(group)
        if len(here) > 1 and all(one.tile for one in here):
            yield f"tiles {here[0].tile} to {here[-1].tile} of {here[0].tiles}: {title}"
        else:
            yield from (one.title for one in here)


def _worth(size: tuple[Fraction, Fraction], room: tuple[Fraction, Fraction]) -> tuple[int, int, Fraction]:
    """How well tiles of ``room`` suit a template, the least best: few of them, its shorter side whole, long ones."""
    across, up = count_tiles(size[0], room[0]), count_tiles(size[1], room[1])
    return across * up, across if size[0] < size[1] else up, -max(room)


def _fits(width: Fraction, height: Fraction, box: Box) -> bool:
    return width <= box[2] - box[0] and height <= box[3] - box[1]


def pack_close(
    templates: Sequence[Template],
    paper: Paper,
    *,
    title: str,
    file: str,
    unit: Unit,
    printer: Printer | None = None,
    before: Sequence[Template] = (),
) -> tuple[Sheet, ...]:
    """Sheets with ``templates``, often fewer than in their order: small ones fill what large ones leave (PR-4, PR-11).

    Those of ``before`` are laid first and in their order, as ``lay_out`` has it. Several orders are tried for the others, and the
    one that takes least paper is kept. The sheet with the long bars comes first, then those of ``before``, then the others in the
    order of the first template on each. Everything else as ``lay_out`` has it, and what it raises.
    """
    asked = printer or Printer()
    if paper.is_roll:
        best = min((_both_ways_up((*before, *order), paper, asked) for order in _orders(templates)), key=lambda stack: stack.used)
    else:
        best = _packed(templates, before, paper, asked)
    sheets = _cut(best, title=title, file=file, unit=unit)
    if not sheets:
        return ()
    # The long bars are on the first that was laid, and there a maker looks for them (PR-2).
    first, *rest = sheets
    turn = {id(template): n for n, template in enumerate((*before, *templates))}
    return bind([first, *sorted(rest, key=lambda sheet: min(turn[id(laid.template)] for laid in sheet.laid))])


def _packed(templates: Sequence[Template], before: Sequence[Template], paper: Paper, printer: Printer) -> SheetStack:
    """Sheets with those of ``before`` in their order and the others where they take least paper; or with only those of ``before``
    that are cut in their order, and those that go on a sheet whole among the others, where that takes less.
    """
    fresh = SheetStack(paper, printer).empty().room.boxes
    whole = [one for one in before if any(_fits(*size, box) for box in fresh for size in (one.size, one.size[::-1]))]
    first = _packed_after(before, templates, paper, printer)
    if not whole:
        return first
    cut = [one for one in before if not any(one is other for other in whole)]
    return min(first, _packed_after(cut, (*whole, *templates), paper, printer), key=lambda stack: stack.used)


def _packed_after(before: Sequence[Template], templates: Sequence[Template], paper: Paper, printer: Printer) -> SheetStack:
    """Sheets with those of ``before``, then what is cut into strips or tiles, and all that goes on whole where it takes least
    paper.
    """
    stack = _both_ways_up(before, paper, printer)
    stack.is_close = True
    letters = match_letters()
    for _ in range(sum(laid.tiles > laid.tile for sheet in stack.sheets for laid in sheet.laid)):
        next(letters)
    fresh = stack.empty().room.boxes
    whole = [one for one in templates if any(_fits(*size, box) for box in fresh for size in (one.size, one.size[::-1]))]
    for template in sorted(templates, key=lambda one: -one.size[0] * one.size[1]):
        if not any(template is one for one in whole):
            _lay(template, stack, letters)
    stack.begin()
    rooms = [sheet.room.boxes for sheet in stack.sheets]
    for template, lain in zip(whole, packed([one.size for one in whole], rooms, fresh, GAP), strict=True):
        while len(stack.sheets) <= lain.sheet:
            stack.sheets.append(stack.empty())
        stack.lay(_uncut(template), lain.sheet, (lain.x, lain.y), is_turned=lain.is_turned)
    return stack


def _orders(templates: Sequence[Template]) -> Iterator[Sequence[Template]]:
    """The orders that templates are laid in on a roll: the largest first, and the widest round first."""
    yield sorted(templates, key=lambda template: -template.size[0] * template.size[1])
    yield sorted(templates, key=lambda template: -sum(template.size))
