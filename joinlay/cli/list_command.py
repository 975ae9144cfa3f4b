"""``joinlay list``: the cutting list, the sheets to cut it from, and what to buy."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.cli.terminal import complain, finding_lines, hung, say, say_as_is, table, table_rows
from joinlay.cli.words import counted
from joinlay.cutlist.cutting_list import row_remarks
from joinlay.cutlist.lists import all_lists
from joinlay.cutlist.pattern import Keeps, cut_steps
from joinlay.cutlist.sheet_goods import run_words
from joinlay.documents.job_file import job_in
from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.lengths import decimal_text

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from joinlay.cutlist.cutting_list import Row, Size
    from joinlay.cutlist.lists import Lists
    from joinlay.cutlist.pattern import CutSheet, CutStep, Layout
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Length

__all__ = ["say_lists"]


def say_lists(path: Path, *, sheets: bool, buy: bool, as_json: bool) -> int:
    """Say the cutting list of the job at ``path``; with ``sheets`` how to saw it out, with ``buy`` what to buy instead.

    1 where something in the job was refused, else 0. Raises BadInput for what cannot be used.
    """
    worked_out = plan(job_in(path))
    lists = all_lists(worked_out)
    if worked_out.is_refused:
        complain(finding_lines([one for one in worked_out.findings if one.harm is Harm.REFUSE], worked_out.rule))
    if as_json:
        _say_json(worked_out, lists)
        return int(worked_out.is_refused)
    page = [] if sheets or buy else [*_parts(worked_out, lists)]
    page += _sheets(worked_out, lists) if sheets else ()
    page += _shopping(worked_out, lists) if buy else ()
    page += [] if buy and not sheets else [cautions_said(caution.sentence(worked_out.rule.text) for caution in lists.cautions)]
    found = finding_lines(lists.findings, worked_out.rule)
    following = "" if sheets and buy else next_list(path, sheets=sheets, buy=buy)
    say("\n\n".join(part for part in (*page, found, following) if part))
    return int(worked_out.is_refused)


def _say_json(worked_out: Plan, lists: Lists) -> None:
    from joinlay.cutlist.lists import lists_tree
    from joinlay.documents.json_text import InWords, json_text

    said = InWords(worked_out.rule)
    tree = lists_tree(lists, said.length, float)
    findings = [said.finding(finding) for finding in lists.findings]
    say_as_is(json_text({"job": worked_out.file, "title": worked_out.title, **tree, "findings": findings}).rstrip())


# -- what to cut -------------------------------------------------------------------------------------


def _parts(worked_out: Plan, lists: Lists) -> Iterator[str]:
    groups = lists.parts.groups
    yield list_verdict(worked_out.title, sum(group.quantity for group in groups), len(lists.parts.rows))
    if not groups:
        return
    rows = [LIST_HEAD, *(_row(row, worked_out) for row in lists.parts.rows)]
    heading, *told = table_rows(rows)
    body = iter(told)
    page = [heading]
    for group in groups:
        page += ["", f"{group.name}, {worked_out.rule.text(group.thickness)}", *(next(body) for _ in group.rows)]
    yield "\n".join(page)


def _row(row: Row, worked_out: Plan) -> tuple[str, ...]:
    finished, sawn = _by(row.finished, worked_out), _by(row.sawn, worked_out)
    also = "; ".join(row_remarks(row, worked_out.rule.text, "x"))
    return (
        str(row.number),
        f"{row.quantity} x",
        finished,
        sawn if sawn != finished else "",
        f"{row.where} ({also})" if also else row.where,
    )


def _by(size: Size, worked_out: Plan) -> str:
    return by(worked_out.rule.text(size.length), worked_out.rule.text(size.width))


# -- how to saw it out -------------------------------------------------------------------------------


def _sheets(worked_out: Plan, lists: Lists) -> Iterator[str]:
    if not lists.layouts:
        yield no_sheets(worked_out.title)
    for layout in lists.layouts:
        used = decimal_text(layout.used * 100, 0)
        yield layout_verdict(layout.stock, layout.whole, layout.least_whole, len(layout.sheets), used)
        for number, sheet in enumerate(layout.sheets, start=1):
            yield _sheet(number, sheet, layout, worked_out)
        if layout.unused:
            yield not_needed(blank.name for blank in layout.unused)


def _sheet(number: int, sheet: CutSheet, layout: Layout, worked_out: Plan) -> str:
    text = worked_out.rule.text
    size = by(text(sheet.blank.length), text(sheet.blank.width))
    rows = [CUTS_HEAD, *(_step(step, layout.kerf, worked_out) for step in cut_steps(sheet))]
    kept = [by(text(panel.length), text(panel.width)) for panel in sheet.offcuts]
    return "\n".join(
        part
        for part in (
            sheet_head(number, len(layout.sheets), sheet.blank.name, size),
            table(rows) if sheet.cuts else no_cuts(sheet.pieces[0].piece.name),
            offcuts_kept(kept),
            *run_words(layout, sheet),
        )
        if part
    )


def _step(step: CutStep, kerf: Length, worked_out: Plan) -> tuple[str, ...]:
    """Cuts at one setting: what the fence is set to, how often, the panel to take, and the parts that are then done."""
    cut, text = step.first, worked_out.rule.text
    done = in_few_words(laid.piece.name for laid in step.done)
    # What a trim takes off is what the maker sees; where the blade then runs is the kerf's affair.
    set_to = trim_of(text(cut.at + kerf)) if cut.keeps is Keeps.FAR else text(cut.at)
    panel = by(text(cut.panel.length), text(cut.panel.width))
    numbers = from_to(cut.number, step.cuts[-1].number)
    return (numbers, cut.direction.value, set_to, so_often(len(step.cuts)), panel, done)


# -- what to buy -------------------------------------------------------------------------------------


def _shopping(worked_out: Plan, lists: Lists) -> Iterator[str]:
    shopping = lists.shopping
    total = None if shopping.total is None else shopping.money(shopping.total)
    slides = None if shopping.slides is None or shopping.slides.cost is None else shopping.money(shopping.slides.cost)
    yield shopping_verdict(worked_out.title, total, slides, is_whole=shopping.is_whole)
    rows = []
    for line in shopping.lines:
        cost = "" if line.cost is None else shopping.money(line.cost)
        rows.append((line.figures, line.unit, line.what, cost, line.remark))
    if rows:
        yield table([SHOPPING_HEAD, *rows] if any(cost for _, _, _, cost, _ in rows) else rows)


# -- what it says -----------------------------------------------------------------------------------

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


def cautions_said(cautions: Iterable[str]) -> str:
    """What to beware of in sawing out, one under the other."""
    return "\n".join(hung(f"caution  {caution}") for caution in cautions)


def not_needed(names: Iterable[str]) -> str:
    """What is on hand and stays so."""
    return f"Not needed: {', '.join(names)}."


def shopping_verdict(title: str, total: str | None, slides: str | None, *, is_whole: bool) -> str:
    """The first line of ``list --buy``."""
    cost = "" if total is None else f", {total} in all" if is_whole else f", {total} at least"
    instead = "" if slides is None else f" Metal slides would have cost {slides}."
    return f"{title}: what to buy and have ready{cost}.{instead}"
