"""A job that has been read and checked: the maker's words turned into things the engine works with."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from joinlay.boards import DrawerRole
from joinlay.casework.bay import DrawerWish
from joinlay.casework.existing_case import OpeningThere
from joinlay.checks.conditions import usual_conditions
from joinlay.jobs.on_hand import NOTHING_ON_HAND
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.boards.outline import Outline
    from joinlay.casework.existing_case import ExistingCase
    from joinlay.casework.opening import DrawerMake, Opening
    from joinlay.casework.outline_place import OutlineWish
    from joinlay.casework.piece import PieceSpec
    from joinlay.casework.pulls import Pulls
    from joinlay.checks.conditions import Conditions
    from joinlay.jobs.on_hand import OnHand
    from joinlay.jobs.tables.finish import BandingEntry
    from joinlay.jobs.tables.given import Given
    from joinlay.lengths import Graduation, Unit
    from joinlay.shop import Shop, TenonStock
    from joinlay.stock import Stock

__all__ = ["Job", "JobDrawer", "Written"]


@dataclass(frozen=True, slots=True)
class JobDrawer:
    """One drawer of a job; ``count = 3`` in the file gives three of these.

    ``role`` says which it is, and so what every part is called. ``shop`` is the job's shop with this drawer's own figures
    (clearances, taper, offsets) set in its practice. ``tenon`` is the loose-tenon stock the maker asked for, None where the
    rules are to choose. ``origin`` is the file and line where the drawer is described.
    """

    role: DrawerRole
    opening: Opening
    make: DrawerMake
    shop: Shop
    tenon: TenonStock | None
    origin: str

    @property
    def name(self) -> str:
        """``drawer 3``."""
        return self.role.name

    @property
    def there(self) -> OpeningThere:
        """Its opening in a case that is there."""
        return OpeningThere(self.role, self.opening, DrawerWish(self.make, self.shop, self.tenon))


@dataclass(frozen=True, slots=True)
class Written:
    """How a job was written: ``rows``, the table and row of each drawer by its name, and ``keys``, those of each table (row
    None) or row.
    """

    rows: Mapping[str, tuple[str, int]] = field(default_factory=dict, hash=False)
    keys: frozenset[tuple[str, int | None, str]] = frozenset()


@dataclass(frozen=True, slots=True)
class Job:
    """A whole job, checked, with every length a Dimension that knows its file and line.

    ``file`` is the job file's name without its folder. ``unit`` is what a bare number is read in, ``rule`` what lengths are
    shown on (also ``shop.rule``). ``stocks`` is keyed by the names the job gives them, in its order. ``drawers`` run from the
    top down; there are none where ``piece`` has them in its banks, and ``piece`` is None where only openings are given.
    ``pulls`` are the knobs of every front, None where none are asked for; ``banding`` is in the order it is glued. ``paper`` is
    the name of a paper (``letter``, ``610 x 914 mm``), ``printer`` that of the printer to use, None where none is named.
    ``on_hand`` changes no part: it is for the lists and layouts. ``conditions`` are what the checks judge by.
    ``outlines`` are the maker's own, each with where it is to go; ``profile`` is half of a knob as the maker drew it.
    ``existing`` is the case that is there around ``drawers``, where they get runners; None where only openings are given.
    ``written`` says where in the file each drawer stands. ``maker`` and ``date`` are as the job gives them, '' where it doesn't.
    """

    title: str
    file: str
    unit: Unit
    rule: Graduation
    shop: Shop
    stocks: Mapping[str, Stock]
    drawers: tuple[JobDrawer, ...]
    paper: str
    on_hand: OnHand = NOTHING_ON_HAND
    piece: PieceSpec | None = None
    pulls: Pulls | None = None
    banding: tuple[BandingEntry, ...] = ()
    conditions: Conditions = field(default_factory=usual_conditions)
    printer: Given[str] | None = None
    outlines: tuple[OutlineWish, ...] = ()
    profile: Outline | None = None
    written: Written = field(default_factory=Written)
    existing: ExistingCase | None = None
    maker: str = ""
    date: str = ""

    @property
    def rows(self) -> tuple[tuple[tuple[DrawerRole, ...], ...], ...]:
        """Every drawer asked for: bank by bank from the left, row by row from the top down, each row from the left; openings
        alone are one bank, each a row of its own.
        """
        if self.piece is None:
            return (tuple((drawer.role,) for drawer in self.drawers),)
        numbers = iter(range(1, self.drawer_count + 1))
        return tuple(
            tuple(tuple(DrawerRole(next(numbers)) for _ in range(side_by_side)) for side_by_side in bank.by_row)
            for bank in self.piece.banks
        )

    @property
    def banks(self) -> tuple[tuple[DrawerRole, ...], ...]:
        """The same without the rows."""
        return tuple(tuple(role for row in bank for role in row) for bank in self.rows)

    @property
    def drawer_count(self) -> int:
        """How many drawers were asked for, one by one or in the banks of the piece."""
        banks = self.piece.banks if self.piece else ()
        return len(self.drawers) + sum(len(bank.drawers) for bank in banks)
