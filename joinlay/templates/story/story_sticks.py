"""Every story stick of a plan, as templates at true size."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.pen.marks import bounds_of
from joinlay.templates.story.across import depth_sticks, width_sticks
from joinlay.templates.story.banks import whole_piece
from joinlay.templates.story.drawing import draw_stick
from joinlay.templates.story.heights import height_sticks
from joinlay.templates.story.openings import opening_sticks
from joinlay.templates.story.stick import merged
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from joinlay.jobs.plan import Plan
    from joinlay.templates.story.stick import Stick

__all__ = ["sticks_of", "story_sticks"]


def story_sticks(plan: Plan) -> tuple[Template, ...]:
    """A strip of paper for each direction of the piece, with everything that lies along it, counted from one end.

    For a whole piece: the case's sides and the faces of its partitions, the stiles and mullions, the fronts of each bank (heights); the
    width over all; the depth at each kind of drawer. For openings alone: each kind of drawer in its opening. Sticks alike are one, for all
    their parts. Drawn upright, zero at the foot, the edge to mark from at the left; every position is that of a placed board or a cut in
    one, exact. Rule: section 0 (every position from one datum, never a chain), PR-1; common practice.
    """
    return tuple(_template(stick, plan) for stick in sticks_of(plan))


def sticks_of(plan: Plan) -> tuple[Stick, ...]:
    """The sticks of ``plan`` as data, in the order they are drawn. No rule."""
    whole = whole_piece(plan)
    if whole is None:
        return merged(opening_sticks(plan.drawers))
    return merged((*height_sticks(whole), *width_sticks(whole), *depth_sticks(whole)))


def _template(stick: Stick, plan: Plan) -> Template:
    strokes = draw_stick(stick, plan.rule)
    return Template(stick.names, f"story stick of {stick.measures}", strokes, bounds_of(strokes))
