"""Papers and templates that are files of their own: each template as SVG and as DXF, the paper of one joint, the scale sheet."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from joinlay.documents.dxf import template_dxf
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.svg import template_svg
from joinlay.errors import BadInput
from joinlay.pages import lay_out
from joinlay.pages.scale_sheet import scale_sheets
from joinlay.paper import paper_named
from joinlay.templates import templates_for

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.boards import Board
    from joinlay.lengths import Graduation
    from joinlay.pages import Printer
    from joinlay.paper import Paper
    from joinlay.templates import Template

__all__ = ["joint_template_pdf", "scale_sheet_pdf", "template_dxfs", "template_svgs"]


def template_svgs(templates: Iterable[Template]) -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, SVG), in their order."""
    return tuple((f"{_file_name(template)}.svg", template_svg(template)) for template in templates)


def template_dxfs(templates: Iterable[Template]) -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, DXF), in their order. BadInput where the extra that writes DXF isn't installed."""
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


def scale_sheet_pdf(paper: Paper, printer: Printer | None = None) -> bytes:
    """The scale sheet for ``paper``; corrected for ``printer``, where one is given (PR-2, PR-3). BadInput for paper too small."""
    sheets = scale_sheets(paper, printer)
    return sheets_pdf(sheets, title=f"Scale sheet, {paper.title}", subject="measure to learn how true a printer is")


def _file_name(template: Template) -> str:
    return re.sub(r"[^a-z0-9]+", "-", template.title.lower()).strip("-")
