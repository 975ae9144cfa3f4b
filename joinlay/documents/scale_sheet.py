"""The scale sheet as a PDF, in memory."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.documents.pdf import sheets_pdf
from joinlay.pages.scale_sheet import scale_sheets

if TYPE_CHECKING:
    from joinlay.pages import Printer
    from joinlay.paper import Paper

__all__ = ["scale_sheet_pdf"]


def scale_sheet_pdf(paper: Paper, printer: Printer | None = None) -> bytes:
    """The scale sheet for ``paper``; corrected for ``printer``, where one is given (PR-2, PR-3). BadInput for paper too small for it."""
    return sheets_pdf(
        scale_sheets(paper, printer), title=f"Scale sheet, {paper.title}", subject="measure to learn how true a printer is"
    )
