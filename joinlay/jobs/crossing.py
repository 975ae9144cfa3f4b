"""What only shows when tables are read together: a drawer with no stock named anywhere, two drawers of one name, tenons the shop lacks."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import BadInput
from joinlay.jobs.complaints import where_is
from joinlay.jobs.parts.drawer import OPENING_KEYS, STOCK_KEYS
from joinlay.jobs.parts.given import Spelled, listed
from joinlay.lengths import read_length

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.errors import Trouble
    from joinlay.jobs.lines import KeyPath
    from joinlay.jobs.source import Source
    from joinlay.lengths import Length, Unit
    from joinlay.shop import Shop

__all__ = ["between_tables"]

#: The most drawers in a job.
_MOST_DRAWERS: Final = 100


def between_tables(source: Source, names: Sequence[tuple[str, ...]], unit: Unit, shop: Shop | None) -> Iterator[Trouble]:
    """Faults between the tables of ``source``. ``shop`` is None where it could not be read: then tenons are not looked up."""
    found = source.tree.get("drawer")
    tables = [_table(table) for table in found] if isinstance(found, list) else []
    every = _table(source.tree.get("drawers"))
    yield from _no_drawers(source)
    yield from _missing_stock(source, "drawer", tables, every, names)
    yield from _missing_stock(source, "bank", _banks(source), every, names)
    for n, table in enumerate(tables):
        yield from _missing_sizes(source, ("drawer", n, "opening"), table.get("opening", {}), every.get("opening", {}), names)
    yield from _same_names(source, names)
    if shop is not None:
        yield from _tenons(source, names, unit, shop)


def _no_drawers(source: Source) -> Iterator[Trouble]:
    """A job has its drawers one by one or in the banks of a piece: one of them, not both."""
    if "drawer" not in source.tree and "bank" not in source.tree:
        message = (
            'drawer is missing; write [[drawer]], two brackets each side, then opening = { width = "18", height = "4 1/4", '
            'depth = "20" }, or a whole piece with [case], [frame], [[bank]] and [runners].'
        )
        yield source.trouble((), "", message)
    if "drawer" in source.tree and "bank" in source.tree:
        message = "the drawers of a whole piece stand in its banks; leave [[drawer]] out, or the piece."
        yield source.trouble(("drawer",), "drawers", message)


def _banks(source: Source) -> list[Mapping[str, Any]]:
    found = source.tree.get("bank")
    return [_table(table) for table in found] if isinstance(found, list) else []


def _missing_stock(
    source: Source,
    heading: str,
    tables: Sequence[Mapping[str, Any]],
    every: Mapping[str, Any],
    names: Sequence[tuple[str, ...]],
) -> Iterator[Trouble]:
    for key in STOCK_KEYS:
        without = [n for n, table in enumerate(tables) if key not in table and key not in every]
        message = f"nothing says what {_part(key)} of; write {key} = and the name of a stock"
        if without and len(without) == len(tables):
            yield source.trouble(("drawers",), "drawers", f"{message} in [drawers], or in each {heading}.")
        else:
            for n in without:
                yield source.trouble((heading, n), where_is((heading, n), names), f"{message}, here or in [drawers].")


def _missing_sizes(
    source: Source, path: KeyPath, own: object, usual: object, names: Sequence[tuple[str, ...]]
) -> Iterator[Trouble]:
    if not (isinstance(own, dict) and isinstance(usual, dict)):
        return
    missing = [key for key in OPENING_KEYS if key not in own and key not in usual]
    if missing:
        word = f"{missing[0]} is" if len(missing) == 1 else f"{', '.join(missing[:-1])} and {missing[-1]} are"
        message = f'{word} missing; write opening = {{ width = "18", height = "4 1/4", depth = "20" }}.'
        yield source.trouble(path, where_is(path, names), message)


def _part(key: str) -> str:
    return f"the {key} are" if key == "sides" else f"the {key} is"


def _same_names(source: Source, names: Sequence[tuple[str, ...]]) -> Iterator[Trouble]:
    first: dict[str, int] = {}
    for n, called in enumerate(names):
        for name in called:
            folded = name.casefold()
            if folded in first:
                line = source.line(("drawer", first[folded]))
                message = f"there is already a {name} (line {line}); give each drawer a name of its own."
                yield source.trouble(("drawer", n, "name"), name, message)
                break
            first[folded] = n
    if (total := sum(map(len, names))) > _MOST_DRAWERS:
        yield source.trouble(("drawer",), "drawers", f"there are {total} drawers; a job has at most {_MOST_DRAWERS}.")


def _tenons(source: Source, names: Sequence[tuple[str, ...]], unit: Unit, shop: Shop) -> Iterator[Trouble]:
    tables = source.tree.get("drawer")
    tables = tables if isinstance(tables, list) else []
    places: list[tuple[KeyPath, object]] = [(("drawers",), source.tree.get("drawers"))]
    places += [(("drawer", n), table) for n, table in enumerate(tables)]
    places += [(("bank", n), table) for n, table in enumerate(_banks(source))]
    owned = [tenon.thickness for tenon in shop.tenons]
    for path, table in places:
        asked = _length(_table(table).get("tenon"), unit)
        if asked is not None and asked not in owned:
            place = (*path, "tenon")
            shown = tuple(dict.fromkeys(shop.rule.text(thick) for thick in owned))
            message = f"the shop has no tenon stock {shop.rule.text(asked)} thick; it has {listed(shown)}."
            yield source.trouble(place, where_is(place, names), message)


def _length(given: object, unit: Unit) -> Length | None:
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, (str, int)):
        return None
    try:
        return read_length(str(value), unit)
    except BadInput:
        return None


def _table(given: object) -> Mapping[str, Any]:
    return given if isinstance(given, dict) else {}
