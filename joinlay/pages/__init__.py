"""Sheets of paper: what is read, what is measured from, whole or in tiles, and what a printer makes of a true length."""

from joinlay.pages.printed_sheet import Sheet
from joinlay.pages.printer import Printer
from joinlay.pages.template_sheets import lay_out

__all__ = ["Printer", "Sheet", "lay_out"]
