"""Paper: its sizes, what a printer leaves of it, and how drawings are laid on sheets, whole or in tiles."""

from joinlay.pages.laying_out import lay_out
from joinlay.pages.paper import PAPERS, Paper, Printer, paper_named
from joinlay.pages.sheet import Sheet

__all__ = ["PAPERS", "Paper", "Printer", "Sheet", "lay_out", "paper_named"]
