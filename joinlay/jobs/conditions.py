"""What the checks of a job judge by: the year, the loads and how the piece stands, as far as the maker says."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.checks.conditions import Conditions, usual_conditions

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.checks.conditions import Load
    from joinlay.jobs.parts.drawer import DrawersPart
    from joinlay.jobs.parts.file import JobFile
    from joinlay.jobs.parts.given import Given

__all__ = ["conditions_of"]


def conditions_of(written: JobFile, every: DrawersPart, names: Sequence[tuple[str, ...]]) -> Conditions:
    """The conditions that a job's ``[seasons]``, ``[use]`` and loads describe; the usual figures where nothing is written (CK-3, CK-5, CK-6).

    ``names`` are the drawers' names by ``[[drawer]]`` table; the drawers of banks are numbered through.
    """
    usual, seasons, use = usual_conditions(), written.seasons, written.use
    origins = {} if seasons is None else seasons.written()
    stands, feet = usual.stands, usual.feet_back
    if use is not None and use.stands is not None:
        stands, origins["stands"] = use.stands.value, use.stands.origin
    if use is not None and use.feet_set_back is not None:
        feet, origins["feet set back"] = use.feet_set_back.value, use.feet_set_back.origin
    load = usual.load
    if every.load is not None:
        load, origins["load"] = every.load.value, every.load.origin
    own = dict(_own_loads(written, names))
    origins |= {f"{name} load": given.origin for name, given in own.items()}
    return Conditions(
        usual.seasons if seasons is None else seasons.seasons(),
        load,
        {name: given.value for name, given in own.items()},
        stands,
        feet,
        origins,
    )


def _own_loads(written: JobFile, names: Sequence[tuple[str, ...]]) -> Iterator[tuple[str, Given[Load]]]:
    """The loads of drawers that have one of their own, by the drawer's name."""
    for part, called in zip(written.drawer or (), names, strict=False):
        if part.load is not None:
            yield from ((name, part.load) for name in called)
    first = 1
    for bank in written.bank or ():
        if bank.load is not None:
            yield from ((f"drawer {n}", bank.load) for n in range(first, first + bank.count))
        first += bank.count
