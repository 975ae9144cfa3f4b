"""What is wrong with a job file, in the maker's words: where, what was given, what is allowed.

Two kinds of fault are found here. ``complaints`` turns what pydantic found in a table by itself into sentences that name the
nearest key there is or show what to write. ``between_tables`` finds what only shows when tables are read together: a drawer
with no stock named anywhere, two drawers of one name, tenons the shop lacks.
"""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING, Any, Final

from joinlay.errors import BadInput, nearest_names, on_one_line, quoted
from joinlay.jobs.misspelt import headings_with, keys_of, table_in
from joinlay.jobs.source import Spelled, table_or_empty
from joinlay.jobs.tables.drawers import OPENING_KEYS, STOCK_KEYS
from joinlay.jobs.tables.given import listed
from joinlay.jobs.tables.shop import TWO_MEANINGS
from joinlay.jobs.too_much import drawers_in_row, too_much, written_length
from joinlay.lengths import GRADUATIONS, Unit, said_by
from joinlay.paper import letter_fault, name_fault, written_one_way

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

    from pydantic import BaseModel, ValidationError
    from pydantic_core import ErrorDetails

    from joinlay.errors import Trouble
    from joinlay.jobs.source import KeyPath, Source
    from joinlay.jobs.tables.given import Entry
    from joinlay.shop import Shop

__all__ = ["MOST_TROUBLES", "between_tables", "complaints", "where_is"]

#: Past this many a file is not a job with slips in it; the rest are only counted.
MOST_TROUBLES: Final = 50

#: The letters of a key that are shown.
_LONG_KEY: Final = 60

#: What to write for a table or list that is missing or of the wrong kind, by its key.
_HOW: Final = {
    "stock": 'write a table for each stock: [stock.birch-12], then nominal = "1/2" and measured = "0.472"',
    "drawer": 'write [[drawer]], two brackets each side, then opening = { width = "18", height = "4 1/4", depth = "20" }',
    "opening": 'write opening = { width = "18 3/8", height = "4 1/4", depth = "20" }',
    "cutters": 'write cutters = [{ diameter = "1/4", reach = "1" }]',
    "corner-cutters": 'write corner-cutters = [{ slot = "3/16", length = "1/4", deepest = "5/8", diameter = "1 1/2" }]',
    "tenons": 'write tenons = [{ thickness = "4 mm" }]',
    "first-choice": 'write first-choice = ["table saw", "router table"]',
    "dado-set": 'write the widths your dado set stacks to: dado-set = ["1/4", "3/8"]',
    "offset": 'write offset = { distance = "2 7/8", cutter = "1/4" }',
    "distance": 'write the edge of the base to the near wall it cut: distance = "2 7/8"',
    "cutter": 'write the cutter of the trial cut: cutter = "1/4"',
    "sheet": 'write length and width of a whole sheet: sheet = ["96", "48"]',
    "outline": 'write [[outline]], two brackets each side, then file = "finger-hole.svg" and on = "drawer front"',
    "at": 'write at = { end = "left end", from-end = "60", edge = "top edge", from-edge = "0" }',
    "units": 'write units = "inch" or units = "mm"',
    "nominal": 'write what it is sold as: nominal = "1/2"',
    "paper": 'write paper = "letter" or a table [paper]',
    "shop": 'write shop = "my.shop.toml" or a table [shop]',
}


def complaints(
    error: ValidationError, model: type[Entry], source: Source, names: Sequence[tuple[str, ...]], unit: Unit
) -> Iterator[Trouble]:
    """Every fault pydantic found in ``source``, by line, as troubles.

    ``error`` is what it raised, reading the source as ``model``; ``names`` are the drawers' names by ``[[drawer]]`` table;
    lengths are told in ``unit``, the job's. Past the most that are shown, a trouble is only there to be counted, and has no
    message.
    """
    told = (fault for fault in error.errors(include_url=False) if not _is_in_slip(fault["loc"], source.slips))
    faults = sorted(told, key=lambda fault: source.line(fault["loc"]))
    for n, fault in enumerate(faults):
        path: KeyPath = fault["loc"]
        if n >= MOST_TROUBLES:
            yield source.trouble(path, "", "")
        elif fault["type"] in ("missing", "extra_forbidden"):
            # The place is the table; the key itself is said in the message.
            message = _missing(path) if fault["type"] == "missing" else _unknown(path, model)
            yield source.trouble(path, where_is(path[:-1], names), message)
        else:
            said = _value(fault, unit) if fault["type"] == "value_error" else _MESSAGES.get(fault["type"], _other)(fault)
            yield source.trouble(path, where_is(path, names), said)


def _is_in_slip(path: KeyPath, slips: frozenset[KeyPath]) -> bool:
    return any(path[:n] in slips for n in range(1, len(path) + 1))


def where_is(path: KeyPath, names: Sequence[tuple[str, ...]]) -> str:
    """``path`` in the maker's words: ``drawer 2, opening, width``; ``stock birch-12, nominal``; ``shop, cutter 1``.

    ``names`` are the drawers' names by ``[[drawer]]`` table.
    """
    words: list[str] = []
    for n, key in enumerate(path):
        before = path[n - 1] if n else ""
        if isinstance(key, str):
            short = on_one_line(key if len(key) <= _LONG_KEY else f"{key[: _LONG_KEY - 3]}...")
            if before == "stock" and n == 1:
                words[-1] = f"stock {short}"
            else:
                words.append(short)
        elif before == "drawer" and n == 1:
            words[-1] = names[key][0] if key < len(names) else f"drawer {key + 1}"
        else:
            words[-1] = f"{_one_of(words[-1])} {key + 1}"
    return ", ".join(words)


def _one_of(list_key: str) -> str:
    """What one thing of a list is called: a ``cutter`` of the ``cutters``."""
    return list_key if list_key.endswith("ss") else list_key.removesuffix("s")


def _missing(path: KeyPath) -> str:
    key = str(path[-1])
    return f"{key} is missing; {_HOW.get(key, f'write {key} = ...')}."


def _unknown(path: KeyPath, model: type[Entry]) -> str:
    given, known = str(path[-1]), _keys_at(path[:-1], model)
    if given in TWO_MEANINGS and path[:1] == ("practice",):
        return f"{given} could mean two things; {TWO_MEANINGS[given]}"
    elsewhere = headings_with(given, model)
    if 0 < len(elsewhere) <= 3:
        return f"there is no key {quoted(given)} here; it stands under {' or '.join(elsewhere)}."
    near = nearest_names(given, known, 1) or nearest_names(given.replace("_", "-"), known, 1)
    if near:
        return f"there is no key {quoted(given)} here; the nearest is {quoted(near[0])}."
    some = ", ".join(known[:12]) + (" and more" if len(known) > 12 else "")
    return f"there is no key {quoted(given)} here; the keys are {some}."


def _keys_at(path: KeyPath, model: type[BaseModel]) -> tuple[str, ...]:
    """The keys of the table at ``path`` in a file read as ``model``."""
    kind = model
    keys = iter(path)
    for key in keys:
        inner = table_in(keys_of(kind)[str(key)])
        if inner is not None:
            kind = inner[0]
            if inner[1] is not None:
                next(keys, None)  # the maker's own name, or the number in a list
    return tuple(keys_of(kind))


def _given(fault: ErrorDetails) -> str:
    value = fault["input"]
    if isinstance(value, Spelled):
        return quoted(value.value, mark='"')
    return "a table" if isinstance(value, dict) else "a list" if isinstance(value, list) else "something else"


def _no_table(fault: ErrorDetails) -> str:
    key = "stock" if fault["loc"][0] == "stock" else _last_word(fault)
    return f"this is {_given(fault)}, where a table is wanted; {_HOW.get(key, f'write [{key}] with its keys below it')}."


def _no_list(fault: ErrorDetails) -> str:
    key = _last_word(fault)
    return f"this is {_given(fault)}, where a list is wanted; {_HOW.get(key, f'write {key} = [...]')}."


def _wrong_number(fault: ErrorDetails) -> str:
    key, limits = _last_word(fault), fault.get("ctx", {})
    wanted = f"at least {limits['min_length']}" if "min_length" in limits else f"at most {limits['max_length']}"
    told, how = limits.get("actual_length"), _HOW.get(key, "")
    count = "too many" if told is None else told
    return f"there {'is' if count == 1 else 'are'} {count} here; there must be {wanted}." + (
        f" {how[0].upper()}{how[1:]}." if how else ""
    )


def _value(fault: ErrorDetails, unit: Unit) -> str:
    """What a check of its own said, in the job's unit."""
    error = fault["ctx"]["error"]
    return said_by(error, _FINEST[unit].text) if isinstance(error, BadInput) else str(error)


#: What lengths are told on before the job's own rule is known.
_FINEST: Final = {Unit.INCH: GRADUATIONS["1/64 in"], Unit.MM: GRADUATIONS["0.1 mm"]}


def _other(fault: ErrorDetails) -> str:
    return f"{_given(fault)} cannot stand here: {fault['msg']}."


def _last_word(fault: ErrorDetails) -> str:
    return next((key for key in reversed(fault["loc"]) if isinstance(key, str)), "")


_MESSAGES: Final[Mapping[str, Callable[[ErrorDetails], str]]] = {
    "model_type": _no_table,
    "model_attributes_type": _no_table,
    "dict_type": _no_table,
    "list_type": _no_list,
    "too_short": _wrong_number,
    "too_long": _wrong_number,
}


# -- what only shows between tables ---------------------------------------------------------------------


def between_tables(source: Source, names: Sequence[tuple[str, ...]], unit: Unit, shop: Shop | None) -> Iterator[Trouble]:
    """Faults between the tables of ``source``.

    ``names`` are the drawers' names by ``[[drawer]]`` table, ``unit`` is what bare numbers are in. ``shop`` is None where it
    could not be read: then tenons are not looked up.
    """
    tables, every = source.tables("drawer"), source.table("drawers")
    yield from _no_drawers(source)
    yield from _names_of_tables(source)
    yield from too_much(source, unit, names)
    yield from _missing_stock(source, "drawer", tables, every, names)
    yield from _missing_stock(source, "bank", source.tables("bank"), every, names)
    for n, table in enumerate(tables):
        yield from _missing_sizes(source, ("drawer", n), table, every, names)
    yield from _missing_sizes_of_the_case(source, every)
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


def _names_of_tables(source: Source) -> Iterator[Trouble]:
    """Names that a maker gives as keys obey the rule for every name, and so does the file's own, which stands on each sheet."""
    if fault := letter_fault(source.file):
        yield source.trouble((), "", f"the file's name {fault}.")
    for path in (("stock",), ("prices", "of")):
        table: Any = source.tree
        for key in path:
            table = table_or_empty(table.get(key))
        for name in table:
            if fault := name_fault(name) or _otherwise_written(name):
                yield source.trouble((*path, name), ", ".join(path), f"{quoted(name)} {fault}.")


def _otherwise_written(name: str) -> str:
    plain = written_one_way(name)
    return "" if plain == name else f"has spaces too many, or an accent beside its letter; write it {quoted(plain)}"


def _is_all_open(bank: Mapping[str, Any]) -> bool:
    """True for a bank in which no drawer stands (SH-1)."""
    rows = bank.get("rows")
    return isinstance(rows, list) and all(drawers_in_row(row) == 0 for row in rows)


def _missing_stock(
    source: Source,
    heading: str,
    tables: Sequence[Mapping[str, Any]],
    every: Mapping[str, Any],
    names: Sequence[tuple[str, ...]],
) -> Iterator[Trouble]:
    made = [(n, table) for n, table in enumerate(tables) if not _is_all_open(table)]
    for key in STOCK_KEYS:
        without = [n for n, table in made if key not in table and key not in every]
        message = f"nothing says what {_made_of(key)} made of; write {key} = and the name of a stock"
        if without and len(without) == len(made):
            yield source.trouble(("drawers",), "drawers", f"{message} in [drawers], or in each {heading}.")
        else:
            for n in without:
                yield source.trouble((heading, n), where_is((heading, n), names), f"{message}, here or in [drawers].")


def _missing_sizes_of_the_case(source: Source, every: Mapping[str, Any]) -> Iterator[Trouble]:
    """Each size of a piece over all is written, or follows from its room or from what lies in its drawers (CA-1, CO-1)."""
    case = source.tree.get("case")
    if not isinstance(case, dict) or "room" in case:
        return
    places = [table.get(word) for table in (every, *source.tables("bank")) for word in ("inside", "front-size")]
    given = {key for place in (case, *places) if isinstance(place, dict) for key in place}
    missing = next((key for key in OPENING_KEYS if key not in given), None)
    if missing is not None:
        message = (
            f'{missing} is missing; write width, height and depth over all, room = {{ width = "40", ... }}, or '
            f"inside = and what must lie in "
            "each drawer."
        )
        yield source.trouble(("case",), "case", message)


def _missing_sizes(
    source: Source, path: KeyPath, own: Mapping[str, Any], usual: Mapping[str, Any], names: Sequence[tuple[str, ...]]
) -> Iterator[Trouble]:
    """Each size of an opening is written, or follows from what lies in the drawer or from its front (CO-1)."""
    places = [table[word] for table in (own, usual) for word in ("opening", "inside", "front-size") if word in table]
    if not all(isinstance(place, dict) for place in places):
        return
    missing = [key for key in OPENING_KEYS if not any(key in place for place in places)]
    if missing:
        word = f"{missing[0]} is" if len(missing) == 1 else f"{', '.join(missing[:-1])} and {missing[-1]} are"
        message = (
            f'{word} missing; write opening = {{ width = "18", height = "4 1/4", depth = "20" }}, or '
            f"inside = and what must lie in it."
        )
        place = (*path, "opening")
        yield source.trouble(place, where_is(place, names), message)


def _made_of(key: str) -> str:
    return f"the {key} are" if key == "sides" else f"the {key} is"


def _same_names(source: Source, names: Sequence[tuple[str, ...]]) -> Iterator[Trouble]:
    first: dict[str, int] = {}
    for n, called in enumerate(names):
        for name in called:
            folded = unicodedata.normalize("NFKC", name).casefold()
            if folded in first:
                line = source.line(("drawer", first[folded]))
                message = f"there is already a {name} (line {line}); give each drawer a name of its own."
                yield source.trouble(("drawer", n, "name"), name, message)
                break
            first[folded] = n


def _tenons(source: Source, names: Sequence[tuple[str, ...]], unit: Unit, shop: Shop) -> Iterator[Trouble]:
    places: list[tuple[KeyPath, Mapping[str, Any]]] = [(("drawers",), source.table("drawers"))]
    places += [(("drawer", n), table) for n, table in enumerate(source.tables("drawer"))]
    places += [(("bank", n), table) for n, table in enumerate(source.tables("bank"))]
    owned = [tenon.thickness for tenon in shop.tenons]
    for path, table in places:
        asked = written_length(table.get("tenon"), unit)
        if asked is not None and asked not in owned:
            place = (*path, "tenon")
            shown = tuple(dict.fromkeys(shop.rule.text(thick) for thick in owned))
            message = f"the shop has no tenon stock {shop.rule.text(asked)} thick; it has {listed(shown)}."
            yield source.trouble(place, where_is(place, names), message)
