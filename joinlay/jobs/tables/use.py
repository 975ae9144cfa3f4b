"""``[seasons]``, ``[use]`` and the loads: what the checks of a job judge by.

The air the piece is made in and will stand in, how it stands and is finished, and what lies in its drawers (which is written with
the drawers).
"""

from typing import TYPE_CHECKING, Annotated, Final

from pydantic import model_validator

from joinlay.boards import DrawerRole, bay_name
from joinlay.checks.conditions import Conditions, Finish, Stands, usual_conditions
from joinlay.errors import BadInput
from joinlay.jobs.tables.amounts import Celsius, Percent
from joinlay.jobs.tables.given import Entry, Gap, Given, one_of
from joinlay.jobs.tables.within import Within
from joinlay.lengths import Fraction
from joinlay.stock import Day, Metered, Seasons, usual_seasons
from joinlay.stock.movement import Air

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.checks.conditions import Load
    from joinlay.jobs.tables.drawers import DrawersEntry
    from joinlay.jobs.tables.file import JobFile

__all__ = ["DayEntry", "SeasonsEntry", "UseEntry", "conditions_of"]

#: What a job calls each way to stand.
_STANDS: Final = {stands.value: stands for stands in Stands}
_WAYS: Final = (
    'write humidity = "45 %", with temperature = "21 C" or "70 F" if it is known; or moisture = "8 %" by a meter in the wood.'
)

#: What a job calls each finish.
_FINISHES: Final = {finish.value: finish for finish in Finish}

Finishing = Annotated[Given[Finish], one_of(_FINISHES)]
Standing = Annotated[Given[Stands], one_of(_STANDS)]


class DayEntry(Entry):
    """A day by its air, or by the moisture that a meter shows in the wood."""

    temperature: Celsius | None = None
    humidity: Percent | None = None
    moisture: Percent | None = None

    @model_validator(mode="after")
    def _is_one_or_the_other(self) -> "DayEntry":
        if self.moisture is not None and (self.humidity is not None or self.temperature is not None):
            raise BadInput(f"the moisture of the wood and the air are both given, and only one can count; {_WAYS}")
        if self.moisture is None and self.humidity is None:
            raise BadInput(f"nothing says how damp it is; {_WAYS}")
        # Air and wood that the equations don't serve are refused here, where their line is known.
        self.air(Fraction(20))
        return self

    def air(self, celsius: Fraction) -> Air:
        """The day; ``celsius`` where no temperature is written."""
        if self.moisture is not None:
            return Metered(self.moisture.value)
        assert self.humidity is not None
        return Day(celsius if self.temperature is None else self.temperature.value, self.humidity.value / 100)

    @property
    def origin(self) -> str:
        """File and line of the first thing written."""
        return next(given.origin for given in (self.moisture, self.humidity, self.temperature) if given is not None)


class SeasonsEntry(Entry):
    """The driest and the dampest day where the piece will stand, and the air of the workshop (CK-6)."""

    driest: Within[DayEntry] | None = None
    dampest: Within[DayEntry] | None = None
    workshop: Within[DayEntry] | None = None

    @model_validator(mode="after")
    def _in_order(self) -> "SeasonsEntry":
        self.seasons()
        return self

    def seasons(self) -> Seasons:
        """The year, the usual one where nothing is written. BadInput where the driest day is the damper."""
        usual = usual_seasons()
        days = {}
        for key in ("driest", "dampest", "workshop"):
            part: DayEntry | None = getattr(self, key)
            day: Air = getattr(usual, key)
            days[key] = day if part is None else part.air(day.celsius if isinstance(day, Day) else Fraction(20))
        return Seasons(**days)

    def written(self) -> dict[str, str]:
        """File and line of each day that is written."""
        return {key: part.origin for key, part in self if part is not None}


class UseEntry(Entry):
    """How the piece stands, how far its front feet stand back from its foremost point (CK-5), and what it is finished with
    (PT-11).
    """

    stands: Standing | None = None
    feet_set_back: Gap | None = None
    finish: Finishing | None = None


def conditions_of(written: "JobFile", every: "DrawersEntry", names: "Sequence[tuple[str, ...]]") -> Conditions:
    """The conditions that a job's tables describe; the usual figures where nothing is written (CK-3, CK-5, CK-6).

    ``every`` is what ``[drawers]`` says. ``names`` are the drawers' names by ``[[drawer]]`` table; the drawers of banks are
    numbered through.
    """
    usual, seasons, use = usual_conditions(), written.seasons, written.use
    origins = {} if seasons is None else seasons.written()
    stands, feet = usual.stands, usual.feet_back
    if use is not None and use.stands is not None:
        stands, origins["stands"] = use.stands.value, use.stands.origin
    if use is not None and use.feet_set_back is not None:
        feet, origins["feet set back"] = use.feet_set_back.value, use.feet_set_back.origin
    finish = None if use is None or use.finish is None else use.finish
    if finish is not None:
        origins["finish"] = finish.origin
    load = usual.load
    if every.load is not None:
        load, origins["load"] = every.load.value, every.load.origin
    own = dict(_own_loads(written, names))
    shelves = dict(_shelf_loads(written))
    origins |= {
        f"{name} load": given.origin for name, given in (*own.items(), *((bay_name(n), load) for n, load in shelves.items()))
    }
    return Conditions(
        seasons=usual.seasons if seasons is None else seasons.seasons(),
        load=load,
        own_loads={name: given.value for name, given in own.items()},
        shelf_loads={number: given.value for number, given in shelves.items()},
        stands=stands,
        feet_back=feet,
        written=origins,
        finish=None if finish is None else finish.value,
    )


def _own_loads(written: "JobFile", names: "Sequence[tuple[str, ...]]") -> "Iterator[tuple[str, Given[Load]]]":
    """The loads of drawers that have one of their own, by the drawer's name."""
    for part, called in zip(written.drawer or (), names, strict=False):
        if part.load is not None:
            yield from ((name, part.load) for name in called)
    first = 1
    for bank in written.bank or ():
        if bank.load is not None:
            yield from ((DrawerRole(n).name, bank.load) for n in range(first, first + bank.count))
        first += bank.count


def _shelf_loads(written: "JobFile") -> "Iterator[tuple[int, Given[Load]]]":
    """The loads of shelves that are written, by the number of their open bay."""
    bays = (row for bank in written.bank or () for row in bank.rows or () for _ in range(row.open_count))
    yield from ((number, row.load) for number, row in enumerate(bays, start=1) if row.load is not None)
