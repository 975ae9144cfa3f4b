"""Everything of a plan that is measured from, at true size, in the order of the work."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from joinlay.checks.gathering import beside_parts
from joinlay.documents.lean_templates import marked_elsewhere, not_on_sticks
from joinlay.templates import templates_for
from joinlay.templates.drilling import (
    pull_templates,
    runner_templates,
    shelf_strips,
    stop_templates,
)
from joinlay.templates.fold_strips import fold_strips
from joinlay.templates.joint_sections import joint_sections
from joinlay.templates.knob_profile_template import profile_template
from joinlay.templates.outline_template import outline_templates
from joinlay.templates.story.story_sticks import story_sticks

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.templates import Template
    from joinlay.templates.ends.end_templates import Drawn

__all__ = ["TrueSize", "lean_ends", "plan_templates", "steps_of_work", "true_size"]


def plan_templates(plan: Plan) -> tuple[Template, ...]:
    """The templates of ``plan`` in the order of the work; parts that are marked alike share one (PR-6)."""
    return TrueSize(plan).ends


def lean_ends(plan: Plan) -> tuple[Template, ...]:
    """The same without what strips, sticks and drill templates mark; an end where nothing else is cut has none (PR-11)."""
    return TrueSize(plan).lean_ends()


class TrueSize:
    """Everything of a plan that is measured from, each drawn once, when it is asked for."""

    def __init__(self, plan: Plan) -> None:
        """Nothing is drawn yet."""
        self._plan = plan
        self._drawn: Drawn = {}

    @cached_property
    def ends(self) -> tuple[Template, ...]:
        """The templates of the ends of parts, and of the maker's own outlines."""
        return self._made(None)

    @cached_property
    def chapters(self) -> dict[str, tuple[Template, ...]]:
        """All of it, as ``true_size`` has it."""
        return true_size(self._plan, self.ends)

    @property
    def every(self) -> tuple[Template, ...]:
        """Every template there is, in the order of the work."""
        return tuple(template for some in self.chapters.values() for template in some)

    @cached_property
    def elsewhere(self) -> dict[tuple[str, str], str]:
        """What is marked twice, as ``marked_elsewhere`` has it."""
        return marked_elsewhere(self._plan)

    def lean_ends(self) -> tuple[Template, ...]:
        """The ends without what strips, sticks and drill templates mark; one where nothing else is cut has none (PR-11)."""
        return self._made(self.elsewhere)

    def lean(self) -> tuple[Template, ...]:
        """The chapter of templates likewise, and without what stands on the sticks too: the ends come first in it."""
        rest = self.chapters.get("templates", ())[len(self.ends) :]
        return (*self.lean_ends(), *not_on_sticks(self._plan, rest))

    def _made(self, elsewhere: Mapping[tuple[str, str], str] | None) -> tuple[Template, ...]:
        steps = steps_of_work(self._plan, elsewhere, self._drawn)
        return tuple(template for _, templates in steps for template in templates)


def steps_of_work(
    plan: Plan, elsewhere: Mapping[tuple[str, str], str] | None = None, drawn: Drawn | None = None
) -> tuple[tuple[str, tuple[Template, ...]], ...]:
    """The templates of ``plan`` as (step of the work, templates), in the order a maker takes them; no step without any.

    Case, face frame, runners, whatever else the piece has, then the drawers from the top, and the maker's own outlines: the
    order of the trade. An end where nothing is cut but along the whole part has none. What was found of a part stands beside
    it. ``elsewhere`` and ``drawn`` as ``templates_for`` has them.
    """
    beside = beside_parts(plan.findings, plan.rule)
    steps = [(assembly.name, assembly.boards) for assembly in plan.others]
    steps.append(("drawers", tuple(board for drawer in plan.drawers for board in drawer.assembly.boards)))
    made = [
        (step, templates_for(boards, plan.rule, beside, only_needed=True, elsewhere=elsewhere, drawn=drawn))
        for step, boards in steps
    ]
    made.append(("your own outlines", (*outline_templates(plan.outlines, plan.rule), *_profile(plan))))
    return tuple((step, templates) for step, templates in made if templates)


def true_size(plan: Plan, ends: Sequence[Template] | None = None) -> dict[str, tuple[Template, ...]]:
    """Everything of ``plan`` that is measured from, in the order of the work, by the word of its chapter; none empty (PR-1).

    ``ends`` are its ``plan_templates``, where they have been drawn; they come first in their chapter.
    """
    chapters = {
        "sticks": story_sticks(plan),
        "templates": (
            *(plan_templates(plan) if ends is None else ends),
            *fold_strips(plan),
            *pull_templates(plan),
            *shelf_strips(plan),
            *stop_templates(plan),
            *runner_templates(plan),
        ),
        "sections": joint_sections(plan),
    }
    return {word: templates for word, templates in chapters.items() if templates}


def _profile(plan: Plan) -> Iterator[Template]:
    if plan.profile is not None and plan.knobs:
        yield profile_template(plan.profile, plan.knobs, plan.rule)
