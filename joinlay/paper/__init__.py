"""Paper: its sizes by name, any size a maker gives, rolls, and the border no printer reaches."""

from joinlay.paper.names import LONGEST_NAME, letter_fault, name_fault, written_one_way
from joinlay.paper.sizes import BORDER, LONGEST, PAPERS, Paper, paper_named, roll_of, sheet_of, with_border

__all__ = [
    "BORDER",
    "LONGEST",
    "LONGEST_NAME",
    "PAPERS",
    "Paper",
    "letter_fault",
    "name_fault",
    "paper_named",
    "roll_of",
    "sheet_of",
    "with_border",
    "written_one_way",
]
