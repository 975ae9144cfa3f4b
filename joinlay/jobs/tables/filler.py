"""``[filler]``: strips between the stiles and the walls of a piece that is built in (SC-1)."""

from collections.abc import Mapping
from typing import Final

from pydantic import model_validator

from joinlay.boards import Hand
from joinlay.casework.fillers import FillerMake
from joinlay.errors import BadInput
from joinlay.jobs.tables.given import Entry, Gap, Size, StockName, dimension_of, dimension_or_none
from joinlay.lengths import NOTHING, Dimension
from joinlay.stock import Stock

__all__ = ["FILLER_MEANINGS", "FillerEntry"]

#: What each key is for.
FILLER_MEANINGS: Final = {
    "stock": "The stock of the fillers; the frame's unless told.",
    "left": "How wide the gap is that one closes at the left, from stile to wall.",
    "right": "The same at the right.",
    "scribe": "How much wider each is made, to be planed to the wall.",
}


class FillerEntry(Entry):
    """A filler at the left, at the right or at both: how wide the gap from stile to wall is."""

    stock: StockName | None = None
    left: Size | None = None
    right: Size | None = None
    scribe: Gap | None = None

    @model_validator(mode="after")
    def _is_somewhere(self) -> "FillerEntry":
        if self.left is None and self.right is None:
            raise BadInput('it says no gap; write left = "1 1/2 in" or right, from stile to wall, or both.')
        return self

    def gaps(self) -> dict[Hand, Dimension]:
        """How wide the gaps are, by hand."""
        written = {Hand.LEFT: self.left, Hand.RIGHT: self.right}
        return {hand: dimension_of(gap, f"gap at the {hand.value}") for hand, gap in written.items() if gap is not None}

    def make(self, frame: Stock, stocks: Mapping[str, Stock]) -> FillerMake:
        """The fillers, of the ``frame``'s stock or of one of the job's ``stocks`` by name."""
        return FillerMake(
            frame if self.stock is None else stocks[self.stock.value],
            self.gaps(),
            dimension_or_none(self.scribe, "what is scribed away of a filler"),
        )

    def beside(self, ends: Dimension) -> Dimension:
        """What fillers and a top that overhangs by ``ends`` take of the width of a room, both sides together (SC-1, TO-1)."""
        gaps = self.gaps()
        left, right = (gaps.get(hand, ends) for hand in (Hand.LEFT, Hand.RIGHT))
        return left + right if left.mm or right.mm else NOTHING
