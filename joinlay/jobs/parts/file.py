"""The whole job file: its headings and tables."""

from typing import Annotated

from pydantic import Field

from joinlay.jobs.parts.drawer import DrawerPart, DrawersPart
from joinlay.jobs.parts.finish import BandingPart, PullsPart
from joinlay.jobs.parts.given import Name
from joinlay.jobs.parts.on_hand import BoardPart, OffcutPart, PricesPart, SawingPart
from joinlay.jobs.parts.outline import OutlinePart
from joinlay.jobs.parts.paper import PaperPart
from joinlay.jobs.parts.piece import PieceTables
from joinlay.jobs.parts.practice import PracticePart
from joinlay.jobs.parts.shop import JobShopPart, Rule, Units
from joinlay.jobs.parts.stock import StockPart
from joinlay.jobs.parts.use import SeasonsPart, UsePart

__all__ = ["JobFile"]


class JobFile(PieceTables):
    """A job file as it is written: openings one by one (``[[drawer]]``), or a whole piece with its banks (``[[bank]]``).

    ``shop`` is a table, or the name of a shop file (then read as a table that only names it).
    """

    title: Name | None = None
    units: Units | None = None
    smallest: Rule | None = None
    stock: Annotated[dict[str, StockPart], Field(min_length=1)]
    shop: JobShopPart | None = None
    practice: PracticePart | None = None
    seasons: SeasonsPart | None = None
    use: UsePart | None = None
    paper: PaperPart | None = None
    sawing: SawingPart | None = None
    offcut: list[OffcutPart] | None = None
    board: list[BoardPart] | None = None
    prices: PricesPart | None = None
    pulls: PullsPart | None = None
    banding: list[BandingPart] | None = None
    outline: list[OutlinePart] | None = None
    drawers: DrawersPart | None = None
    drawer: Annotated[list[DrawerPart] | None, Field(min_length=1)] = None
