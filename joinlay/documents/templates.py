"""The paper templates of a plan or of a joint, as whole files in memory."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from joinlay.checks.beside import beside_parts
from joinlay.documents.dxf import template_dxf
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.svg import template_svg
from joinlay.errors import BadInput
from joinlay.pages import lay_out
from joinlay.paper import paper_named
from joinlay.templates import templates_for
from joinlay.templates.drilling import pull_templates, runner_templates, stop_templates
from joinlay.templates.fold_strips import fold_strips
from joinlay.templates.joint_sections import joint_sections
from joinlay.templates.knob_profile_template import profile_template
from joinlay.templates.outline_template import outline_templates
from joinlay.templates.story.story_sticks import story_sticks

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pages import Printer, Sheet
    from joinlay.templates import Template

__all__ = [
    "joint_template_pdf", "plan_templates", "steps_of_work", "template_dxfs", "template_sheets", "template_svgs", "templates_pdf",
    "true_size",
]  # fmt: skip


def plan_templates(plan: Plan) -> tuple[Template, ...]:
    """The templates of ``plan`` in the order of the work; parts that are marked alike share one (PR-6)."""
    return tuple(template for _, templates in steps_of_work(plan) for template in templates)


def steps_of_work(plan: Plan) -> tuple[tuple[str, tuple[Template, ...]], ...]:
    """The templates of ``plan`` by steps of work: (step, templates), in the order a maker takes them; a step without any is left out.

    Case, face frame, runners, whatever else the piece has, then the drawers from the top, and the maker's own outlines. An end where nothing
    is cut but along the whole part has none. What was found of a part stands beside it. No rule: the order of the trade.
    """
    beside = beside_parts(plan.findings, plan.rule)
    steps = [(assembly.name, assembly.boards) for assembly in plan.others]
    steps.append(("drawers", tuple(board for drawer in plan.drawers for board in drawer.assembly.boards)))
    made = [(step, templates_for(boards, plan.rule, beside, only_needed=True)) for step, boards in steps]
    made.append(("your own outlines", (*outline_templates(plan.outlines, plan.rule), *_profile(plan))))
    return tuple((step, templates) for step, templates in made if templates)


def true_size(plan: Plan) -> tuple[tuple[str, tuple[Template, ...]], ...]:
    """Everything of ``plan`` that is measured from, as (chapter, templates) in the order of the work; a chapter without any is left out (PR-1)."""
    chapters = (
        ("Story sticks", story_sticks(plan)),
        ("Templates", plan_templates(plan)),
        (
            "Strips, sections and drilling",
            (
                *fold_strips(plan),
                *joint_sections(plan),
                *pull_templates(plan),
                *stop_templates(plan),
                *runner_templates(plan),
            ),
        ),
    )
    return tuple((chapter, templates) for chapter, templates in chapters if templates)


def _profile(plan: Plan) -> Iterator[Template]:
    if plan.profile is not None and plan.knobs:
        yield profile_template(plan.profile, plan.knobs, plan.rule)


def template_sheets(plan: Plan, paper: str | None = None, printer: Printer | None = None) -> tuple[Sheet, ...]:
    """The templates of ``plan`` on sheets of ``paper`` (a name such as ``a4``; the plan's own unless given)."""
    sheet = paper_named(paper or plan.paper)
    return lay_out(plan_templates(plan), sheet, title=plan.title, file=plan.file, unit=plan.rule.unit, printer=printer)


def templates_pdf(plan: Plan, paper: str | None = None, printer: Printer | None = None) -> bytes:
    """The templates of ``plan`` as a PDF. Raises BadInput for paper that isn't known, or a letter the typeface lacks."""
    return sheets_pdf(template_sheets(plan, paper, printer), title=plan.title, subject="templates at true size")


def template_svgs(templates: Iterable[Template]) -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, SVG), in their order. No rule."""
    return tuple((f"{_file_name(template)}.svg", template_svg(template)) for template in templates)


def template_dxfs(templates: Iterable[Template]) -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, DXF), in their order. Raises BadInput where the extra that writes DXF isn't installed."""
    return tuple((f"{_file_name(template)}.dxf", template_dxf(template)) for template in templates)


def joint_template_pdf(
    boards: Iterable[Board], title: str, rule: Graduation, paper: str, printer: Printer | None = None
) -> bytes:
    """The templates of one joint as a PDF: of each board of ``boards``, each end that has cuts near it.

    Raises BadInput for paper that isn't known, and where no board has a cut within 100 mm of an end.
    """
    templates = templates_for(boards, rule)
    if not templates:
        raise BadInput("there is nothing to draw: no board has a cut within 100 mm of an end.")
    sheets = lay_out(templates, paper_named(paper), title=title, file="", unit=rule.unit, printer=printer)
    return sheets_pdf(sheets, title=title, subject="template at true size")


def _file_name(template: Template) -> str:
    return re.sub(r"[^a-z0-9]+", "-", template.title.lower()).strip("-")
