"""Reading a job: TOML text to a Job, or everything that is wrong with it at once.

How it goes: the text is read to a Source, every value with its line; each table checks itself (``tables``); what only shows
between tables is looked for beside them (``complaints``), so that one bad key hides no other fault. Only where nothing is wrong
are the tables turned into what the engine works with. The texts of the job and its shop file, and the outlines, are handed in:
nothing here opens a file.
"""

from __future__ import annotations

import itertools
from dataclasses import replace
from typing import TYPE_CHECKING, Any, Final, TypeVar

from pydantic import ValidationError

from joinlay.boards import DrawerRole
from joinlay.boards.outline import Outline
from joinlay.casework.existing_case import check_measures
from joinlay.errors import BadInput, Trouble, Troubles, nearest_names, quoted
from joinlay.findings import Refused
from joinlay.jobs.complaints import MOST_TROUBLES, between_tables, complaints, where_is
from joinlay.jobs.job import Job, JobDrawer, Written
from joinlay.jobs.misspelt import as_meant
from joinlay.jobs.source import Source, Spelled, read_source, table_or_empty
from joinlay.jobs.tables.case_and_frame import StopsEntry, piece_spec
from joinlay.jobs.tables.drawers import DrawersEntry
from joinlay.jobs.tables.file import JobFile
from joinlay.jobs.tables.given import Context, Entry
from joinlay.jobs.tables.printing import usual_paper
from joinlay.jobs.tables.shop import UNITS, JobShopEntry, ShopFile
from joinlay.jobs.tables.stock import on_hand_of
from joinlay.jobs.tables.use import conditions_of
from joinlay.lengths import Unit, said_by
from joinlay.paper import name_fault, written_one_way
from joinlay.shop import usual_shop

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from pydantic import BaseModel

    from joinlay.casework.existing_case import ExistingCase
    from joinlay.casework.outline_place import OutlineWish
    from joinlay.casework.piece import PieceSpec
    from joinlay.jobs.source import KeyPath
    from joinlay.lengths import Length
    from joinlay.shop import Shop, TenonStock
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["named_outline_files", "named_shop_file", "read_job"]

_P = TypeVar("_P", bound=Entry)


def read_job(
    text: str,
    file_name: str,
    shop_text: str | None = None,
    shop_file_name: str | None = None,
    outlines: Mapping[str, Outline | BadInput] | None = None,
) -> Job:
    """The job that ``text`` describes; ``file_name`` (no folder) stands in every message and origin.

    ``shop_text`` is the text of the shop file the job names, None where it names none or where there is no such file.
    ``shop_file_name`` stands in the messages about it. ``outlines`` are the outlines drawn in the files the job names, by
    those names, or what is wrong with one; a file that isn't there is left out.
    Raises Troubles with everything that is wrong in both texts, by file and line.
    """
    source, troubles = _as_meant(_with_short_tables(read_source(text, file_name)), JobFile)
    source = _with_plain_units(source)
    roles = _drawer_roles(source.tables("drawer"))
    names = _names(roles)
    context = Context(_unit(source) or Unit.INCH, tuple(source.table("stock")))
    shop_file = _shop_file(source, shop_text, shop_file_name, troubles)
    written = _read(JobFile, source, names, context, troubles)
    shop = _shop(source.tree, shop_file, context)
    troubles.extend(between_tables(source, names, context.unit, shop))
    troubles.extend(_bad_outlines(source, outlines or {}))
    if written is None or shop is None or troubles:
        raise Troubles(_first(troubles))
    return replace(
        _job(written, source, roles, context.unit, shop),
        outlines=tuple(_outlines(written, outlines or {})),
        profile=_profile(written, outlines or {}),
    )


def named_shop_file(text: str, file_name: str) -> str | None:
    """The shop file that a job names (``shop = "my.shop.toml"``, or ``file`` in its ``[shop]``); None where it names none.

    What doesn't end in ``.toml`` is no shop file, and isn't to be read.

    Raises Troubles where ``text`` isn't TOML.
    ``text`` is the job file's, ``file_name`` what messages call it.
    """
    named = _shop_file_in(_with_short_tables(read_source(text, file_name)).tree)
    return named if named is not None and named.endswith(".toml") else None


def named_outline_files(text: str, file_name: str) -> tuple[str, ...]:
    """The SVG files that a job names (in its ``[[outline]]`` tables, and the profile of its knobs), each once, in its order.
    What doesn't end in ``.svg`` is no drawing, and isn't to be read.

    Raises Troubles where ``text`` isn't TOML.
    ``text`` is the job file's, ``file_name`` what messages call it.
    """
    if "outline" not in text and "profile" not in text:
        return ()
    return tuple(dict.fromkeys(name for _, name in _drawings(read_source(text, file_name)) if _is_drawing(name)))


def _drawings(source: Source) -> Iterator[tuple[KeyPath, str]]:
    """Where each SVG file is named, and its name."""
    places = [(("outline", n, "file"), table) for n, table in enumerate(source.tables("outline"))]
    for path, table in [*places, (("pulls", "profile"), source.table("pulls"))]:
        name = _text(table.get(str(path[-1])))
        if name:
            yield path, name


# -- reading and finding fault -------------------------------------------------------------------------


def _read(
    model: type[_P], source: Source, names: Sequence[tuple[str, ...]], context: Context, troubles: list[Trouble]
) -> _P | None:
    try:
        return model.model_validate(source.tree, context=context)
    except ValidationError as error:
        troubles.extend(complaints(error, model, source, names, context.unit))
        return None


def _as_meant(source: Source, model: type[BaseModel]) -> tuple[Source, list[Trouble]]:
    """``source`` as it was meant, its slips in keys and headings told; drawers are called as they are where it is written."""
    names = _names(_drawer_roles(source.tables("drawer")))
    return as_meant(source, model, lambda path: where_is(path, names))


def _shop_file(source: Source, text: str | None, name: str | None, troubles: list[Trouble]) -> ShopFile | None:
    wanted = _shop_file_in(source.tree)
    if wanted is not None and not wanted.endswith(".toml"):
        message = f"a shop file's name ends in .toml, and that of {quoted(wanted)} does not; it is not read."
        troubles.append(source.trouble(("shop", "file"), "shop", message))
        return None
    if text is None:
        if wanted is not None:
            message = f"there is no shop file {quoted(wanted)} beside the job; write its name as it is, or leave this out."
            troubles.append(source.trouble(("shop", "file"), "shop", message))
        return None
    try:
        shop, slips = _as_meant(read_source(text, name or wanted or "shop file", is_shown=False), ShopFile)
        troubles.extend(slips)
        shop = _with_plain_units(shop)
    except Troubles as bad:
        troubles.extend(bad.troubles)
        return None
    return _read(ShopFile, shop, (), Context(_unit(shop) or Unit.INCH), troubles)


def _bad_outlines(source: Source, outlines: Mapping[str, Outline | BadInput]) -> Iterator[Trouble]:
    for path, name in _drawings(source):
        found = outlines.get(name)
        if not _is_drawing(name):
            message = f"an outline is an SVG file, and the name of {quoted(name)} does not end in .svg; it is not read."
            yield source.trouble(path, where_is(path[:-1], ()), message)
        elif not isinstance(found, Outline):
            message = (
                str(found)
                if found
                else f"there is no file {quoted(name)} beside the job; write its name as it is, or leave this out."
            )
            yield source.trouble(path, where_is(path[:-1], ()), message)


def _is_drawing(file: str) -> bool:
    return file.casefold().endswith(".svg")


def _outlines(written: JobFile, outlines: Mapping[str, Outline | BadInput]) -> Iterator[OutlineWish]:
    for entry in written.outline or ():
        found = outlines.get(entry.file.spelled)
        if isinstance(found, Outline):
            yield entry.wish(found)


def _profile(written: JobFile, outlines: Mapping[str, Outline | BadInput]) -> Outline | None:
    named = written.pulls.profile if written.pulls else None
    found = outlines.get(named.spelled) if named else None
    return found if isinstance(found, Outline) else None


def _first(troubles: Sequence[Trouble]) -> list[Trouble]:
    """The first troubles by line and, where there are very many, how many follow."""
    ordered = sorted(troubles, key=lambda trouble: (trouble.file, trouble.line))
    first, rest = ordered[:MOST_TROUBLES], ordered[MOST_TROUBLES:]
    more = [Trouble(rest[0].file, rest[0].line, "", f"and {len(rest)} more things from here on.")] if rest else []
    return first + more


def _with_short_tables(source: Source) -> Source:
    """``shop = "my.shop.toml"`` is short for a table that only names the file, ``paper = "letter"`` for one with only a size."""
    short = {key: {word: source.tree[key]} for key, word in _SHORT.items() if isinstance(source.tree.get(key), Spelled)}
    return replace(source, tree={**source.tree, **short}) if short else source


def _with_plain_units(source: Source) -> Source:
    """``units`` in any of its spellings as one of those that the rest reads.

    Raises Troubles with that fault alone where it is none: what lengths mean, and so what is wrong with them, hangs on it.
    """
    given = _text(source.tree.get("units"))
    if given is None:
        return source
    word = " ".join(given.casefold().replace(".", "").split())
    plain = next((plain for plain, spellings in _SPELLED.items() if word in spellings), None)
    if plain is None:
        if word in _OTHER_UNITS:
            said = f"lengths may each be written in {_OTHER_UNITS[word]}, but bare numbers are in millimetres or inches"
        else:
            near = nearest_names(word, tuple(name for spellings in _SPELLED.values() for name in spellings), 1)
            said = f"the nearest is {quoted(near[0])}" if near else "bare numbers are in millimetres or inches"
        message = f'{quoted(given)} is no unit of a job: {said}; write units = "mm" or units = "inch".'
        raise Troubles([source.trouble(("units",), "units", message)])
    return replace(source, tree={**source.tree, "units": Spelled(plain, source.tree["units"].origin)})


#: Other spellings of what bare numbers may be in, and units that only a length itself may have, as it is then written.
_SPELLED: Final = {
    "inch": ("inch", "inches", "in", "ins", '"', "″", "imperial"),
    "mm": ("mm", "mms", "millimetre", "millimetres", "millimeter", "millimeters", "metric"),
}
_OTHER_UNITS: Final = {
    **dict.fromkeys(("cm", "cms", "centimetre", "centimetres", "centimeter", "centimeters"), 'cm, as in "46.5 cm"'),
    **dict.fromkeys(("m", "metre", "metres", "meter", "meters"), 'm, as in "1.2 m"'),
    **dict.fromkeys(("ft", "foot", "feet", "'", "′"), 'feet and inches, as in "2 ft 3 in"'),
}

#: Tables that a single value may stand for, and the key it then has.
_SHORT: Final = {"shop": "file", "paper": "size"}


def _shop_file_in(tree: Mapping[str, Any]) -> str | None:
    return _text(table_or_empty(tree.get("shop")).get("file"))


def _text(given: object) -> str | None:
    return given.value if isinstance(given, Spelled) and isinstance(given.value, str) else None


def _unit(source: Source) -> Unit | None:
    """The unit a file says its bare numbers are in; None where it names none, or none that is known (reported elsewhere)."""
    units = source.tree.get("units")
    return UNITS.get(units.value.strip().casefold()) if isinstance(units, Spelled) and isinstance(units.value, str) else None


# -- making the job ------------------------------------------------------------------------------------


def _shop(tree: Mapping[str, Any], shop_file: ShopFile | None, context: Context) -> Shop | None:
    """The shop of the job: the usual one, the shop file over it, the job's own table over both. None where the table is wrong."""
    try:
        own = JobShopEntry.model_validate(tree.get("shop", {}), context=context)
    except ValidationError:
        return None
    usual = usual_shop(context.unit)
    return own.over(usual if shop_file is None else shop_file.over(usual))


def _names(roles: Sequence[tuple[DrawerRole, ...]]) -> list[tuple[str, ...]]:
    return [tuple(role.name for role in some) for some in roles]


def _job(written: JobFile, source: Source, roles: Sequence[tuple[DrawerRole, ...]], unit: Unit, shop: Shop) -> Job:
    if written.smallest is not None:
        shop = replace(shop, rule=written.smallest.value)
    if written.practice is not None:
        shop = replace(shop, practice=written.practice.over(shop.practice))
    every = DrawersEntry() if written.drawers is None else written.drawers
    shop_of_all = replace(shop, practice=every.practice(shop.practice))
    stocks = {name: entry.stock(name, unit) for name, entry in written.stock.items()}
    title = source.file.removesuffix(".toml") if written.title is None else written.title.value
    drawers = tuple(_drawers(written, source, roles, shop_of_all, stocks))
    on_hand = on_hand_of(written.sawing, written.offcut, written.board, written.prices)
    paper = written.paper
    pulls = written.pulls.pulls() if written.pulls else None
    conditions = conditions_of(written, every, _names(roles))
    piece = _piece(written, every, source, shop_of_all, stocks)
    existing = _existing(written, drawers, source, shop_of_all, stocks, conditions.seasons)
    return Job(
        title=title,
        file=source.file,
        unit=unit,
        rule=shop.rule,
        shop=shop,
        stocks=stocks,
        drawers=drawers,
        paper=usual_paper(unit) if paper is None else paper.paper(unit).name,
        on_hand=on_hand,
        piece=piece and replace(piece, seasons=conditions.seasons),
        pulls=pulls,
        banding=tuple(written.banding or ()),
        conditions=conditions,
        printer=None if paper is None else paper.printer,
        written=_written(written, source, roles),
        existing=existing,
        maker="" if written.maker is None else written.maker.value,
        date="" if written.date is None else written.date.value,
    )


def _written(written: JobFile, source: Source, roles: Sequence[tuple[DrawerRole, ...]]) -> Written:
    """Which row each drawer stands in, and every key of a table or row."""
    rows = {role.name: ("drawer", n) for n, some in enumerate(roles) for role in some}
    numbers = itertools.count(1)
    for n, bank in enumerate(written.bank or ()):
        rows |= {DrawerRole(next(numbers)).name: ("bank", n) for _ in range(bank.count)}
    keys: set[tuple[str, int | None, str]] = {(table, None, key) for table in source.tree for key in source.table(table)}
    keys |= {(table, n, key) for table in ("drawer", "bank") for n, row in enumerate(source.tables(table)) for key in row}
    return Written(rows, frozenset(keys))


def _piece(written: JobFile, every: DrawersEntry, source: Source, shop: Shop, stocks: Mapping[str, Stock]) -> PieceSpec | None:
    """The piece around the drawers; None where the job has only openings. Raises Troubles where its tables don't go together."""
    try:
        return piece_spec(written, every, stocks, shop, lambda given: _tenon(shop, given.value))
    except (BadInput, Refused) as bad:
        place = next((key for key in ("bank", "case", "frame", "top", "base", "filler", "runners") if key in source.tree), "")
        raise Troubles([source.trouble((place,) if place else (), "piece", _said_by(bad, shop))]) from None


def _existing(
    written: JobFile, drawers: Sequence[JobDrawer], source: Source, shop: Shop, stocks: Mapping[str, Stock], seasons: Seasons
) -> ExistingCase | None:
    """The case that is there around openings with runners; None where there are none. Raises Troubles where its measures don't
    do.
    """
    if written.runners is None or not drawers:
        return None
    stops = (written.stops or StopsEntry()).make(stocks[written.runners.stock.value], stocks)
    try:
        existing = written.runners.existing_case(stocks, stops, seasons)
        check_measures(existing, [drawer.there for drawer in drawers])
    except BadInput as bad:
        raise Troubles([source.trouble(("runners",), "runners", _said_by(bad, shop))]) from None
    return existing


def _said_by(refused: BadInput | Refused, shop: Shop) -> str:
    """What was wrong, in a sentence; of a rule that refused, with its way out, on the maker's rule."""
    show = shop.rule.text
    if isinstance(refused, BadInput):
        return said_by(refused, show)
    finding = refused.finding
    return " ".join(filter(None, (finding.sentence(show), finding.way_out(show))))


def _drawers(
    written: JobFile, source: Source, roles: Sequence[tuple[DrawerRole, ...]], shop: Shop, stocks: Mapping[str, Stock]
) -> Iterator[JobDrawer]:
    every = DrawersEntry() if written.drawers is None else written.drawers
    for n, (entry, called) in enumerate(zip(written.drawer or (), roles, strict=True)):
        tenon = entry.found("tenon", every)
        for role in called:
            practice, planed = entry.fitted(entry.practice(shop.practice, role.name), every)
            make, own = entry.make_of(role.name, every, stocks, planed), replace(shop, practice=practice)
            try:
                opening = entry.opening_of(role, every, make, own)
            except (BadInput, Refused) as refused:
                place: tuple[str | int, ...] = (
                    ("drawer", n, "inside") if "inside" in source.tables("drawer")[n] else ("drawer", n)
                )
                raise Troubles([source.trouble(place, role.name, _said_by(refused, own))]) from None
            yield JobDrawer(
                role=role,
                opening=opening,
                make=make,
                shop=own,
                tenon=None if tenon is None else _tenon(shop, tenon.value),
                origin=f"{source.file}:{source.line(('drawer', n))}",
            )


def _tenon(shop: Shop, thickness: Length) -> TenonStock:
    """The shop's tenon stock of ``thickness``, which is known to be there; the first where there are several widths."""
    return next(tenon for tenon in shop.tenons if tenon.thickness == thickness)


# -- what the drawers are called -------------------------------------------------------------------------


def _drawer_roles(tables: Sequence[Mapping[str, Any]]) -> list[tuple[DrawerRole, ...]]:
    """The drawers that each ``[[drawer]]`` table stands for, numbered from the top down: ``drawer 1``, ``drawer top``.

    A table without a name takes the next numbers, counting every drawer above it. A table with a name and a count numbers its
    drawers: ``top 1``, ``top 2``, or goes on from a name that is a number. A count or name that is wrong is passed over here;
    it is reported elsewhere.
    """
    roles: list[tuple[DrawerRole, ...]] = []
    above = 0
    for table in tables:
        count = _whole(table.get("count"))
        titles = _titles(_good_name(table.get("name")), count)
        roles.append(tuple(DrawerRole(above + n, title) for n, title in enumerate(titles, start=1)))
        above += count
    return roles


def _titles(name: str, count: int) -> list[str]:
    """The titles of ``count`` drawers of one ``name``; empty where it gives none."""
    name = name[7:] if name.casefold().startswith("drawer ") else name
    if not name:
        return [""] * count
    if count == 1:
        return [name]
    if name.isascii() and name.isdigit() and len(name) < 6:
        return [str(int(name) + n) for n in range(count)]
    return [f"{name} {n}" for n in range(1, count + 1)]


def _good_name(given: object) -> str:
    value = given.value if isinstance(given, Spelled) else ""
    name = written_one_way(value) if isinstance(value, str) else ""
    return "" if name_fault(name) else name


def _whole(given: object) -> int:
    value = given.value if isinstance(given, Spelled) else 1
    return value if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= 100 else 1
