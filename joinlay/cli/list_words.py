"""Every word that ``joinlay list`` and ``joinlay compare`` show, apart from findings: beside the other words, so that they keep one voice."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.cli.words import counted
from joinlay.cutlist.changes import Changes, Fate

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

LIST_HEAD: Final = ("", "", "finished", "sawn to, where not that", "where")
CUTS_HEAD: Final = ("cut", "", "at", "", "through a panel", "then done")
SHOPPING_HEAD: Final = ("", "", "", "cost", "")


def by(length: str, width: str) -> str:
    """Two sizes of one thing."""
    return f"{length} x {width}"


def list_verdict(title: str, parts: int, rows: int) -> str:
    """The first line of ``list``: how many parts, and how many that are different."""
    return f"{title}: {counted(parts, 'part')}, {rows} different." if parts else f"{title}: nothing to cut."


def next_list(path: object, *, sheets: bool, buy: bool) -> str:
    """After ``list``: the other lists."""
    if sheets:
        return f"Next: joinlay list {path} --buy says what to buy."
    if buy:
        return f"Next: joinlay list {path} --sheets says how to saw it out."
    return f"Next: joinlay list {path} --sheets says how to saw it out, --buy what to buy."


def no_sheets(title: str) -> str:
    """``list --sheets`` where nothing is cut from sheets or from boards on hand."""
    return f"{title}: nothing is cut from sheets, and no boards are on hand."


def layout_verdict(stock: str, whole: int, least: int, pieces: int, used: str) -> str:
    """The first line of a layout: what it takes, and that fewer can't be, or how far from it."""
    on_hand = pieces - whole
    takes = [
        f"{counted(whole, 'whole sheet')}" if whole or not on_hand else "",
        f"{on_hand} of what is on hand" if on_hand else "",
    ]
    if not whole:
        bound = ""
    elif whole == least:
        bound = ", and no layout takes fewer"
    else:
        bound = f"; no layout takes fewer than {least}"
    return f"{stock}: {' and '.join(filter(None, takes))}{bound}. {used} % of it is used."


def sheet_head(number: int, of: int, name: str, size: str) -> str:
    """Above the cuts of one sheet."""
    return f"{number} of {of}: {name}, {size}"


def trim_of(size: str) -> str:
    """What a cut sets to where it only takes an edge off."""
    return f"trim {size}"


def from_to(first: int, last: int) -> str:
    """One number, or a run of them."""
    return str(first) if first == last else f"{first} to {last}"


def so_often(times: int) -> str:
    """How many cuts are made at one setting, one after the other."""
    return f"{times} times" if times > 1 else ""


def no_cuts(name: str) -> str:
    """A part as large as its sheet."""
    return f"  {name} is all of it; no cut."


def offcuts_kept(sizes: Sequence[str]) -> str:
    """Below the cuts of one sheet."""
    return f"  keep: {', '.join(sizes)}" if sizes else ""


def not_needed(names: Iterable[str]) -> str:
    """What is on hand and stays so."""
    return f"Not needed: {', '.join(names)}."


def shopping_verdict(title: str, total: str | None, slides: str | None, *, is_whole: bool) -> str:
    """The first line of ``list --buy``."""
    cost = "" if total is None else f", {total} in all" if is_whole else f", {total} at least"
    instead = "" if slides is None else f" Metal slides would have cost {slides}."
    return f"{title}: what to buy and have ready{cost}.{instead}"


COMPARE_HEAD: Final = ("what", "was", "is", "where")
COMPARE_SECTIONS: Final = ("Written otherwise", "Parts", "Joints", "Settings")
COMPARE_FATES: Final = "Parts that are cut already"
COMPARE_WOOD: Final = "Old parts to cut new ones from, if their joints are not cut yet"


NONE: Final = "none"


def compare_verdict(old: str, new: str, changes: Changes) -> str:
    """The first line of ``compare``: how many parts stay, are to be looked at, and are to be made."""
    if changes.is_none:
        return f"From {old} to {new}: nothing differs."
    if changes.is_nothing_cut:
        return f"From {old} to {new}: nothing that is cut or set differs."
    look = changes.count(Fate.SERVES, Fate.SERVES_UNJOINTED, Fate.HAIR, Fate.CUT_DOWN)
    tally = (
        (changes.untouched, "as before"),
        (look, "to look at before you go on"),
        (changes.count(Fate.AGAIN), "to make again"),
        (changes.count(Fate.NEW), "new"),
        (changes.count(Fate.NOT_NEEDED), "not needed any more"),
    )
    return f"From {old} to {new}, of the parts: {', '.join(f'{number} {said}' for number, said in tally if number)}."


def cut_from(part: str) -> str:
    """Which old part a new one is cut from."""
    return f"from {part}"
