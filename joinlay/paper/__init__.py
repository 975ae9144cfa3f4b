"""Paper: its sizes by name, any size a maker gives, rolls, and the border no printer reaches."""

from joinlay.paper.sizes import BORDER, LONGEST, PAPERS, Paper, paper_named, roll_of, sheet_of, with_border

__all__ = ["BORDER", "LONGEST", "PAPERS", "Paper", "paper_named", "roll_of", "sheet_of", "with_border"]
