"""Every story stick of a plan, as templates at true size."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.marks import bounds_of
from joinlay.templates.banks import whole_piece
from joinlay.templates.piece_axes import PieceAxis, reach
from joinlay.templates.story.heights import height_sticks, pull_centres
from joinlay.templates.story.stick import Apex, Stick, Stretch, merged
from joinlay.templates.story.stick_drawing import draw_stick
from joinlay.templates.story.widths_depths import across_drawer, along_drawer, depth_sticks, width_sticks
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.assembly import Drawer
    from joinlay.jobs.plan import Plan

__all__ = ["sticks_of", "story_sticks"]

_ZERO: Final = Fraction(0)


def story_sticks(plan: Plan) -> tuple[Template, ...]:
    """A strip of paper for each direction of the piece, with everything that lies along it, counted from one end.

    For a whole piece: the case's sides and the faces of its partitions, the stiles and mullions, the fronts of each bank
    (heights); the width over all; the depth at each kind of drawer. For openings alone: each kind of drawer in its opening.
    Sticks alike are one, for all their parts. Drawn upright, zero at the foot, the edge to mark from at the left; every position
    is that of a placed board or a cut in one, exact. Every position counts from one datum, never from the one before it (PR-1;
    common practice).
    """
    return tuple(_template(stick, plan) for stick in sticks_of(plan))


def sticks_of(plan: Plan) -> tuple[Stick, ...]:
    """The sticks of ``plan`` as data, in the order they are drawn: heights, widths, depths."""
    whole = whole_piece(plan)
    if whole is None:
        return merged(_opening_sticks(plan.drawers))
    return merged((*height_sticks(whole), *width_sticks(whole), *depth_sticks(whole)))


def _template(stick: Stick, plan: Plan) -> Template:
    strokes = draw_stick(stick, plan.rule)
    return Template(stick.names, f"story stick of {stick.measures}", strokes, bounds_of(strokes))


def _opening_sticks(drawers: Sequence[Drawer]) -> Iterator[Stick]:
    """Heights from the floor of the opening, widths from its left, depths from the face of the frame, for each of ``drawers``."""
    for drawer in drawers:
        yield Stick(
            names=(drawer.name,),
            measures="heights",
            datum="floor of the opening",
            far="top of the opening",
            lies="hold up in the opening",
            length=drawer.opening.height.mm,
            stretches=tuple(_up(drawer)),
            centres=tuple(pull_centres(drawer.board("front"), PieceAxis.HEIGHT, _ZERO)),
            top="top",
            apex=Apex.FAR,
        )
    for drawer in drawers:
        yield Stick(
            names=(drawer.name,),
            measures="widths",
            datum="left of the opening",
            far="right of the opening",
            lies="hold across the opening",
            length=drawer.opening.width.mm,
            stretches=tuple(across_drawer(drawer, _ZERO)),
            centres=tuple(pull_centres(drawer.board("front"), PieceAxis.WIDTH, _ZERO)),
            top="top",
            apex=Apex.EDGE,
        )
    for drawer in drawers:
        zero = min(_ZERO, reach(drawer.board("front"), PieceAxis.DEPTH)[0])
        yield Stick(
            names=(drawer.name,),
            measures="depths",
            datum="face of the frame",
            far="back of the opening",
            lies="lay in the opening, front to back",
            length=drawer.opening.depth.mm - zero,
            stretches=tuple(along_drawer(drawer, zero)),
            centres=(),
            top="front",
            apex=Apex.DATUM,
        )


def _up(drawer: Drawer) -> Iterator[Stretch]:
    """Front, side, bottom and back as they stand over each other."""
    for part, word, lane in (
        ("front", "front", 0),
        ("left side", "drawer side", 1),
        ("bottom", "bottom", 2),
        ("back", "back", 2),
    ):
        board = drawer.board(part)
        low, high = reach(board, PieceAxis.HEIGHT)
        yield Stretch(low, high, word, board.name, lane)
