"""``[seasons]`` and ``[use]``: the air the piece is made in and will stand in, and how it stands. What lies in a drawer stands with the drawers."""

from typing import Annotated, Final

from pydantic import PlainValidator, model_validator

from joinlay.checks.conditions import Stands
from joinlay.errors import BadInput
from joinlay.jobs.parts.amounts import Celsius, Percent
from joinlay.jobs.parts.given import Gap, Given, Part, one_of
from joinlay.lengths import Fraction
from joinlay.stock import Day, Metered, Seasons, usual_seasons
from joinlay.stock.movement import Air

__all__ = ["DayPart", "SeasonsPart", "UsePart"]

#: What a job calls each way to stand.
_STANDS: Final = {stands.value: stands for stands in Stands}
_WAYS: Final = (
    'write humidity = "45 %", with temperature = "21 C" or "70 F" if it is known; or moisture = "8 %" by a meter in the wood.'
)

Standing = Annotated[Given[Stands], PlainValidator(one_of(_STANDS))]


class DayPart(Part):
    """A day by its air, or by the moisture that a meter shows in the wood."""

    temperature: Celsius | None = None
    humidity: Percent | None = None
    moisture: Percent | None = None

    @model_validator(mode="after")
    def _is_one_or_the_other(self) -> "DayPart":
        if self.moisture is not None and (self.humidity is not None or self.temperature is not None):
            raise BadInput(f"the moisture of the wood is known, so its air isn't asked; {_WAYS}")
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


class SeasonsPart(Part):
    """The driest and the dampest day where the piece will stand, and the air of the workshop (CK-6)."""

    driest: DayPart | None = None
    dampest: DayPart | None = None
    workshop: DayPart | None = None

    @model_validator(mode="after")
    def _in_order(self) -> "SeasonsPart":
        self.seasons()
        return self

    def seasons(self) -> Seasons:
        """The year, the usual one where nothing is written. BadInput where the driest day is the damper."""
        usual = usual_seasons()
        days = {}
        for key in ("driest", "dampest", "workshop"):
            part: DayPart | None = getattr(self, key)
            day: Air = getattr(usual, key)
            days[key] = day if part is None else part.air(day.celsius if isinstance(day, Day) else Fraction(20))
        return Seasons(**days)

    def written(self) -> dict[str, str]:
        """File and line of each day that is written."""
        return {key: part.origin for key, part in self if part is not None}


class UsePart(Part):
    """How the piece stands, and how far its front feet stand back from its foremost point (CK-5)."""

    stands: Standing | None = None
    feet_set_back: Gap | None = None
