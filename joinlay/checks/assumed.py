"""What the findings were judged by, in words: every figure of it, whether the maker wrote it or it is the usual one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import bay_name
from joinlay.checks.conditions import Finish, Stands
from joinlay.lengths import Fine, Fraction, Unit, decimal_text
from joinlay.records import dataclass
from joinlay.stock import Day

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.checks.conditions import Conditions, Load
    from joinlay.lengths import Graduation
    from joinlay.shop import Practice
    from joinlay.stock.movement import Air

__all__ = ["Assumption", "assumed"]

_STANDS = {
    Stands.FREE: "the piece stands free",
    Stands.ANCHORED: "the piece is anchored to the wall",
    Stands.BUILT_IN: "the piece is built in",
}

_FINISHED = {Finish.OIL: "oil", Finish.WAX: "wax", Finish.FILM: "a film"}


@dataclass(frozen=True, slots=True)
class Assumption:
    """One figure the findings hang on: its ``name``, what it is in words, and the file and line it is ``written`` in ('' for the
    usual one).
    """

    name: str
    said: str
    written: str


def assumed(conditions: Conditions, practice: Practice, rule: Graduation, *, is_whole: bool = True) -> tuple[Assumption, ...]:
    """Seasons, loads, cutting tolerance, finish where it is said, and standing, in that order, as the maker measures them (CK-1,
    CK-3, CK-5, CK-6).

    ``is_whole`` False: there are only drawers, so that nothing stands.
    """
    told = (*_said(conditions, practice, rule), *(_standing(conditions, rule) if is_whole else ()))
    return tuple(Assumption(name, said, origin) for name, said, origin in told)


def _said(conditions: Conditions, practice: Practice, rule: Graduation) -> Iterator[tuple[str, str, str]]:
    written, seasons = conditions.written, conditions.seasons
    for key, day, when in (
        ("driest", seasons.driest, "on the driest day"),
        ("dampest", seasons.dampest, "on the dampest"),
        ("workshop", seasons.workshop, "in the workshop"),
    ):
        yield key, f"{_air(day, rule.unit)} {when}", written.get(key, "")
    yield "load", f"{_load(conditions.load, rule.unit)} {_where(conditions.load)}", written.get("load", "")
    for drawer, load in conditions.own_loads.items():
        yield f"{drawer} load", f"{_load(load, rule.unit)} {_where(load, drawer)}", written.get(f"{drawer} load", "")
    for bay, load in conditions.shelf_loads.items():
        name = bay_name(bay)
        yield f"{name} load", f"{_load(load, rule.unit)} on each shelf of {name}", written.get(f"{name} load", "")
    cut = practice.length("cutting tolerance")
    yield "cutting tolerance", f"cuts within {rule.text(Fine(cut))}", "" if cut.origin == "default" else cut.origin
    if conditions.finish is not None:
        film = f" of {rule.text(Fine(practice.length('finish film')))} on each face" if conditions.finish.builds else ""
        yield "finish", f"finished with {_FINISHED[conditions.finish]}{film}", written.get("finish", "")


def _standing(conditions: Conditions, rule: Graduation) -> Iterator[tuple[str, str, str]]:
    written = conditions.written
    feet = f", its front feet {rule.text(conditions.feet_back)} back" if conditions.feet_back.mm else ""
    yield "stands", f"{_STANDS[conditions.stands]}{feet}", written.get("stands", written.get("feet set back", ""))


def _air(day: Air, unit: Unit) -> str:
    wood = f"{decimal_text(day.moisture, 1)} %"
    if not isinstance(day, Day):
        return f"wood at {wood}"
    degrees, scale = (day.celsius * Fraction(9, 5) + 32, "F") if unit is Unit.INCH else (day.celsius, "C")
    return f"{decimal_text(degrees, 0)} {scale} and {decimal_text(100 * day.humidity, 0)} % (wood at {wood})"


def _load(load: Load, unit: Unit) -> str:
    if load.spelled:
        return load.spelled
    return "15 lb/ft2" if unit is Unit.INCH else "718 Pa (73 kg/m2)"


def _where(load: Load, drawer: str = "") -> str:
    if drawer:
        return f"in {drawer}" if load.is_weight else f"on the bottom of {drawer}"
    return "in each drawer" if load.is_weight else "on each bottom"
