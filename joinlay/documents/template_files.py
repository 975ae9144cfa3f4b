"""Papers and templates that are files of their own: each template as SVG and as DXF, the paper of one joint, the scale sheet."""

from __future__ import annotations

import hashlib
import re
import unicodedata
from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.documents.dxf import template_dxf
from joinlay.documents.pdf import sheets_pdf
from joinlay.documents.svg import template_svg
from joinlay.errors import BadInput
from joinlay.pages import lay_out
from joinlay.pages.printed_sheet import FootWords
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


def template_svgs(templates: Iterable[Template], mark: str = "", made: str = "") -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, SVG), in their order, with the plan's ``mark`` (PR-7) and who ``made`` it."""
    return tuple((f"{_file_name(template)}.svg", template_svg(template, mark, made)) for template in templates)


def template_dxfs(templates: Iterable[Template], mark: str = "", made: str = "") -> tuple[tuple[str, bytes], ...]:
    """Each of ``templates`` as (file name, DXF), in their order, with the plan's ``mark`` (PR-7) and who ``made`` it.

    Raises BadInput where the extra that writes DXF isn't installed.
    """
    return tuple((f"{_file_name(template)}.dxf", template_dxf(template, mark, made)) for template in templates)


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


def scale_sheet_pdf(paper: Paper, printer: Printer | None = None, made: str = "") -> bytes:
    """The scale sheet for ``paper``; corrected for ``printer``, where one is given (PR-2, PR-3). BadInput for paper too small.

    ``made`` is who it is for and when, as ``made_words`` has it of a job.
    """
    sheets = tuple(replace(sheet, said=FootWords(made=made)) for sheet in scale_sheets(paper, printer))
    return sheets_pdf(sheets, title=f"Scale sheet, {paper.title}", subject="measure to learn how true a printer is")


#: Letters of a file name without its kind and a number behind it; every system takes so many.
_LONGEST: Final = 100


#: A part's name that a file name gives back, with the side of it that a story stick is for.
_PLAIN: Final = re.compile(r"[a-z0-9]+(?: [a-z0-9]+)*(?:, (?:left|right) (?:face|edge))?")


def _file_name(template: Template) -> str:
    """The title in small letters, figures and hyphens, and no longer than any system takes.

    What is cut short, or is of parts whose names have signs that a plain file name can't, has eight figures of the title's
    digest behind it: so its name stays the same whatever other templates there are, and no two come to one.
    """
    title = template.title.casefold()
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode()
    name = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")
    parts = (*template.names, *template.turned)
    if len(name) <= _LONGEST and all(_PLAIN.fullmatch(part.casefold()) for part in parts):
        return name
    digest = hashlib.sha256(title.encode()).hexdigest()[:8]
    return f"{name[: _LONGEST - 9].rstrip('-')}-{digest}".lstrip("-")
