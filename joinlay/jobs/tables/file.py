"""The whole job file: its headings and tables."""

from typing import Annotated

from pydantic import Field

from joinlay.jobs.tables.case_and_frame import PieceTables
from joinlay.jobs.tables.drawers import DrawerEntry, DrawersEntry
from joinlay.jobs.tables.finish import BandingEntry, OutlineEntry, PullsEntry
from joinlay.jobs.tables.given import Name
from joinlay.jobs.tables.printing import PaperEntry
from joinlay.jobs.tables.shop import JobShopEntry, PracticeEntry, Rule, Units
from joinlay.jobs.tables.stock import BoardEntry, OffcutEntry, PricesEntry, SawingEntry, StockEntry
from joinlay.jobs.tables.use import SeasonsEntry, UseEntry
from joinlay.jobs.tables.within import Within

__all__ = ["JobFile"]


class JobFile(PieceTables):
    """A job file as it is written: openings one by one (``[[drawer]]``), or a whole piece with its banks (``[[bank]]``).

    ``shop`` is a table, or the name of a shop file (then read as a table that only names it).
    """

    title: Name | None = None
    maker: Name | None = None
    date: Name | None = None
    schema_file: Annotated[Name | None, Field(alias="schema")] = None
    units: Units | None = None
    smallest: Rule | None = None
    stock: Annotated[dict[str, Within[StockEntry]], Field(min_length=1, max_length=50)]
    shop: Within[JobShopEntry] | None = None
    practice: Within[PracticeEntry] | None = None
    seasons: Within[SeasonsEntry] | None = None
    use: Within[UseEntry] | None = None
    paper: Within[PaperEntry] | None = None
    sawing: Within[SawingEntry] | None = None
    offcut: Annotated[list[Within[OffcutEntry]] | None, Field(max_length=100)] = None
    board: Annotated[list[Within[BoardEntry]] | None, Field(max_length=100)] = None
    prices: Within[PricesEntry] | None = None
    pulls: Within[PullsEntry] | None = None
    banding: Annotated[list[Within[BandingEntry]] | None, Field(max_length=50)] = None
    outline: Annotated[list[Within[OutlineEntry]] | None, Field(max_length=50)] = None
    drawers: Within[DrawersEntry] | None = None
    drawer: Annotated[list[Within[DrawerEntry]] | None, Field(min_length=1, max_length=100)] = None
