"""Drill strips for shelf pins: one line of holes at true scale, from the floor of an open bay upwards (SH-2)."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, PartKind, bay_name
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction
from joinlay.pen.blocks import stacked
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Line, Role, bounds_of, flatten
from joinlay.records import dataclass
from joinlay.templates.datum_marks import figures_below, figures_beside, level_datum, upright_datum
from joinlay.templates.piece_axes import PieceAxis, centre_of, reach
from joinlay.templates.template import FIGURE, SMALL, Template

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board, Cut
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.marks import Mark

__all__ = ["pins_drilled", "shelf_strips"]

#: Paper past the line of holes and over the highest; room for the figures beside it.
_PAST, _FIGURES = Fraction(12), Fraction(24)
_ZERO: Final = Fraction(0)
_LETTERS: Final = 22
_UPRIGHTS: Final = (PartKind.CASE_SIDE, PartKind.CASE_PARTITION)


@dataclass(frozen=True, slots=True)
class _Strip:
    """A line of holes: their ``levels`` above the floor of the bay, how far they are ``in`` from the edge, how wide and how
    deep.
    """

    levels: tuple[Fraction, ...]
    line: Fraction
    across: Fraction
    depth: Fraction
    height: Fraction


def shelf_strips(plan: Plan) -> tuple[Template, ...]:
    """A strip for the pin holes of each open bay in ``plan``, for both lines in the wood at both its sides; bays alike share one
    (SH-2).

    Drawn with x = 0 at the edge of the wood and y = 0 at the floor of the bay, all holes from that one datum. None where no shelf
    is loose.
    """
    alike: dict[_Strip, list[tuple[int, Board]]] = {}
    for bay in plan.opens:
        for board in (board for board in plan.boards if board.role.kind in _UPRIGHTS):
            cuts = _of_bay(board, bay.number)
            if cuts:
                alike.setdefault(_strip(board, cuts, bay.floor.mm, bay.height.mm), []).append((bay.number, board))
    return tuple(_template(strip, places, plan.rule) for strip, places in alike.items())


def pins_drilled(plan: Plan) -> frozenset[tuple[str, str]]:
    """The holes that the strips of ``plan`` mark, as (board, hole) by their names: no other template need mark them (PR-11)."""
    return frozenset((board.name, cut.name) for board in plan.boards for cut in board.cuts_of(CutUse.PIN_HOLE))


def _of_bay(board: Board, number: int) -> list[Cut]:
    return [cut for cut in board.cuts_of(CutUse.PIN_HOLE) if cut.role.mate is not None and cut.role.mate.bay == number]


def _strip(board: Board, cuts: list[Cut], floor: Fraction, height: Fraction) -> _Strip:
    levels = tuple(sorted({centre_of(board, PieceAxis.HEIGHT, cut) - floor for cut in cuts}))
    edge = reach(board, PieceAxis.DEPTH)[0]
    line = min(centre_of(board, PieceAxis.DEPTH, cut) for cut in cuts) - edge
    return _Strip(levels, line, cuts[0].along.size.mm, cuts[0].depth.mm, height)


def _template(strip: _Strip, places: list[tuple[int, Board]], rule: Graduation) -> Template:
    names = tuple(dict.fromkeys(board.name for _, board in places))
    bays = in_few_words(dict.fromkeys(bay_name(number) for number, _ in places))
    strokes = tuple(flatten(_marks(strip, names, bays, rule)))
    return Template(names, f"drill strip, {bays}", strokes, bounds_of(strokes))


def _marks(strip: _Strip, names: tuple[str, ...], bays: str, rule: Graduation) -> Iterator[Mark]:
    right, top = strip.line + strip.across / 2 + _PAST, strip.levels[-1] + strip.across / 2 + _PAST
    yield from level_datum(_ZERO, right, _ZERO, "floor of the bay", is_top=False)
    yield from upright_datum(_ZERO, top, _ZERO, "edge", -1)
    yield Line((right, _ZERO), (right, top), Role.CUT)
    yield Line((_ZERO, top), (right, top), Role.CUT)
    yield Line((strip.line, _ZERO), (strip.line, top), Role.CENTRE)
    arm = strip.across
    for n, level in enumerate(strip.levels, start=1):
        yield Line((strip.line - arm, level), (strip.line + arm, level), Role.CENTRE)
        yield Arc((strip.line, level), strip.across / 2, _ZERO, Fraction(360), Role.CUT, f"{names[0]} {bays} pin hole level {n}")
    yield from figures_beside(strip.levels, _ZERO, right, 1, rule, SMALL, "pin holes")
    yield from figures_below({_ZERO, strip.line}, _ZERO, -_PAST, rule, FIGURE)
    said = [words(line, FIGURE, bold=True) for line in wrap(f"{in_few_words(names)}: {bays}", _LETTERS)]
    how = (
        "foot on the floor of the bay, or on the upper wall of that panel's dado; edge to the front edge of the "
        "wood. For the line behind, "
        "turn it over, its edge to the back edge or to the shoulder of the back's rabbet"
    )
    block = stacked([*said, *(words(line, SMALL) for line in wrap(how, 34))])
    yield from block.marks(right + _FIGURES, top - block.height)
