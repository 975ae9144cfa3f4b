"""What of the templates is printed unless all is asked for: nothing twice that one paper marks already (PR-11).

A mortise in an end is marked from a fold-over strip, a dado right across the case's side from its story stick, and where runners
and stop blocks come stands on the sticks too; so the templates that say it again are printed with ``--all`` only.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind
from joinlay.templates.drilling import FROM_THE_FRONT, ON_THE_RAIL, holes_drilled, pins_drilled
from joinlay.templates.fold_strips import cuts_on_strips, grooves_on_strips
from joinlay.templates.story.story_sticks import cuts_on_sticks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from joinlay.jobs.plan import Plan
    from joinlay.templates import Template

__all__ = ["is_any_left_out", "marked_elsewhere", "not_on_sticks"]

#: What is said on an end whose cuts are marked from another paper.
_GROOVE: Final = "groove: fold-over strip"
_STRIP, _STICK, _DRILL, _PINS = (
    "mortises: fold-over strip",
    "dadoes: story stick",
    "pull: drill template",
    "shelf pins: drill strip",
)
#: Templates that show what the story sticks show: what they say for an end.
_TOLD_BY_STICKS: Final = (FROM_THE_FRONT, ON_THE_RAIL)


def marked_elsewhere(plan: Plan) -> dict[tuple[str, str], str]:
    """The cuts near the ends of parts that another paper marks, as (board, cut) by their names, and what to say of it (PR-11)."""
    return {
        **dict.fromkeys(cuts_on_strips(plan), _STRIP),
        **dict.fromkeys(grooves_on_strips(plan), _GROOVE),
        **dict.fromkeys(cuts_on_sticks(plan), _STICK),
        **dict.fromkeys(holes_drilled(plan), _DRILL),
        **dict.fromkeys(pins_drilled(plan), _PINS),
    }


def not_on_sticks(plan: Plan, templates: Iterable[Template]) -> Iterator[Template]:
    """Those of ``templates`` that mark what no story stick of ``plan`` does (PR-11).

    Runners and stop blocks stand on the sticks of heights, widths and depths, but for packing under a bearer: how wide that is
    isn't on those of widths.
    """
    has_packing = any(board.role.kind is PartKind.PACKING for board in plan.boards)
    told = (ON_THE_RAIL,) if has_packing else _TOLD_BY_STICKS
    return (one for one in templates if one.end not in told)


def is_any_left_out(elsewhere: Mapping[tuple[str, str], str], templates: Iterable[Template]) -> bool:
    """Whether any of ``templates``, all of a plan, or anything on one, is printed with ``--all`` only; ``elsewhere`` is what is
    ``marked_elsewhere``.
    """
    return bool(elsewhere) or any(one.end in _TOLD_BY_STICKS for one in templates)
