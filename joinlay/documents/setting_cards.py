"""The cards of a plan's machine settings, and the paper gauges to set them by, as whole files in memory (MS-1 to MS-9)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.documents.pdf import sheets_pdf
from joinlay.pages import lay_out, paper_named
from joinlay.pages.cards import setting_sheets
from joinlay.pages.gauges import gauge_templates
from joinlay.settings import settings_for

if TYPE_CHECKING:
    from joinlay.jobs.plan import Plan
    from joinlay.settings import SettingsList

__all__ = ["setting_pdfs"]


def setting_pdfs(plan: Plan) -> tuple[tuple[str, bytes], ...]:
    """The cards and the gauges of ``plan`` as (file name, PDF); without those there is nothing for."""
    found = settings_for(plan.boards, plan.shop)
    made = (("settings.pdf", _cards(plan, found)), ("gauges.pdf", _gauges(plan, found)))
    return tuple((name, pages) for name, pages in made if pages is not None)


def _cards(plan: Plan, found: SettingsList) -> bytes | None:
    """A card for each setting, in the order to cut; None where nothing is cut by machine."""
    sheets = setting_sheets(found, plan.boards, paper_named(plan.paper).for_words, plan.rule, title=plan.title, file=plan.file)
    return sheets_pdf(sheets, title=plan.title, subject="machine settings") if sheets else None


def _gauges(plan: Plan, found: SettingsList) -> bytes | None:
    """The paper gauges of the settings at true size; None where no setting has a distance to hold one to."""
    templates = gauge_templates(found.settings, plan.rule)
    sheets = lay_out(templates, paper_named(plan.paper), title=plan.title, file=plan.file, unit=plan.rule.unit)
    return sheets_pdf(sheets, title=plan.title, subject="gauges at true size") if sheets else None
