"""``[runners]``: what the drawers run on; for openings that are there, also what was measured of the case behind them."""

from collections.abc import Mapping
from typing import Final

from joinlay.casework.existing_case import ExistingCase
from joinlay.casework.runners import RunnerMake
from joinlay.casework.stops import StopMake
from joinlay.errors import BadInput
from joinlay.jobs.tables.given import Entry, Gap, Size, StockName, dimension_of, dimension_or_none
from joinlay.stock import Stock
from joinlay.stock.movement import Seasons

__all__ = ["RunnersEntry"]

#: The keys that tell of a case that was there before.
_MEASURED: Final = ("sides", "inside_width", "inside_depth", "left_edge", "right_edge", "rail", "below", "above")


class RunnersEntry(Entry):
    """What bearers, guides and kickers are ripped from; and, for openings in a case that is there, what was measured of it."""

    stock: StockName
    guides: StockName | None = None
    kickers: StockName | None = None
    nail_length: Size | None = None
    screw_length: Size | None = None
    sides: StockName | None = None
    inside_width: Size | None = None
    inside_depth: Size | None = None
    left_edge: Gap | None = None
    right_edge: Gap | None = None
    rail: Size | None = None
    below: Gap | None = None
    above: Gap | None = None

    @property
    def measured(self) -> tuple[str, ...]:
        """The keys that are written and tell of a case that is there, as they are written."""
        return tuple(key.replace("_", "-") for key in _MEASURED if getattr(self, key) is not None)

    def make(self, stocks: Mapping[str, Stock], sides: Stock) -> RunnerMake:
        """What each kind of runner is ripped from, out of the job's ``stocks`` by name, and how it is held on ``sides``.

        Raises BadInput for nails where they are screwed, and for screws where they are nailed (RN-4).
        """
        own, other = ("screw", "nail") if sides.is_solid else ("nail", "screw")
        if getattr(self, f"{other}_length") is not None:
            why = "solid, so that bearers are screwed" if sides.is_solid else "not solid, so that bearers are nailed"
            raise BadInput(f"{other}-length under [runners] is for other wood: the case's sides are {why}; write {own}-length.")
        guides, kickers = (None if given is None else stocks[given.value] for given in (self.guides, self.kickers))
        lengths = (
            dimension_or_none(getattr(self, f"{word}_length"), f"length of the bearers' {word}s") for word in ("nail", "screw")
        )
        return RunnerMake(stocks[self.stock.value], guides, kickers, *lengths)

    def existing_case(self, stocks: Mapping[str, Stock], stops: StopMake | None, seasons: Seasons) -> ExistingCase:
        """The case that is there (RN-1 to RN-4). Raises BadInput where a key is missing that nothing can stand in for."""
        if self.inside_depth is None:
            raise BadInput(
                "inside-depth is missing: openings alone get runners in a case that is there. Write "
                "inside-depth = and what it measures from the "
                "back of its frame to its back, or a whole piece with [case], [frame] and [[bank]]."
            )
        if self.sides is None:
            raise BadInput(
                "sides is missing; write sides = and the stock that tells what the case is made of: solid wood "
                "moves, and the runners are then "
                "screwed through slots."
            )
        return ExistingCase(
            runners=self.make(stocks, stocks[self.sides.value]),
            sides=stocks[self.sides.value],
            inside_depth=dimension_of(self.inside_depth, "case inside depth"),
            inside_width=dimension_or_none(self.inside_width, "case inside width"),
            left_edge=dimension_or_none(self.left_edge, "left edge of the openings from the case side"),
            right_edge=dimension_or_none(self.right_edge, "right edge of the openings from the case side"),
            rail=dimension_or_none(self.rail, "rail height"),
            below=dimension_or_none(self.below, "lowest opening down to the case bottom"),
            above=dimension_or_none(self.above, "topmost opening up to the case top"),
            stops=stops,
            seasons=seasons,
        )
