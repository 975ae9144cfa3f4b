"""``joinlay scale-sheet`` and ``joinlay printer``: print, measure, keep."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from joinlay.cli import printer_words as words
from joinlay.cli.printer_store import found_printer, keep, kept_in, printer_file, same_name
from joinlay.cli.saying import say, table
from joinlay.errors import BadInput
from joinlay.lengths import GRADUATIONS, Length, Unit, decimal_text, read_length
from joinlay.pages.measured_printer import MeasuredPrinter, measured_printer
from joinlay.paper import Paper, paper_named, with_border

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from joinlay.pages.measured_printer import Reading

__all__ = ["add_printer", "forget_printer", "list_printers", "show_printer", "write_scale_sheet"]


def write_scale_sheet(paper: str, out: Path, printer: str | None, beside: Path | None) -> None:
    """Write the scale sheet; corrected for a ``printer``, where one is named. BadInput for what can't be."""
    from joinlay.documents.scale_sheet import scale_sheet_pdf
    from joinlay.documents.writing import write_whole

    sheet = _paper(paper)
    known = None if printer is None else found_printer(printer, sheet, beside)
    write_whole(out, scale_sheet_pdf(sheet, None if known is None else known.printer))
    say(words.scale_sheet_made(out, sheet.plain_name, is_proof=known is not None))


def add_printer(
    name: str,
    paper: str,
    across: str,
    down: str,
    *,
    rising: str | None,
    falling: str | None,
    border: str | None,
    measured: str | None,
    beside: Path | None,
    is_metric: bool,
) -> None:
    """Keep what was measured, in place of what was kept of that printer and paper before. BadInput for what can't be."""
    unit = Unit.MM if is_metric else Unit.INCH
    called, sheet = _name(name), _paper(paper)
    blank = None if border is None else _border(border, sheet, unit)
    new = measured_printer(called, sheet, across, down, _day(measured), unit=unit, rising=rising, falling=falling, border=blank)
    path = printer_file(beside)
    kept = kept_in(path)
    old = [one for one in kept if same_name(one.name, called) and one.is_for(sheet)]
    keep(path, [*(one for one in kept if one not in old), new])
    was = old[0].printer.correction if old else ""
    head = words.added(called, new.printer.correction, sheet.title, was=was)
    say("\n\n".join([head, *remarks(new), words.next_proof(called, sheet.plain_name)]))


def list_printers(beside: Path | None) -> None:
    """Say which printers are kept, and where."""
    rows = [
        (
            one.name,
            one.paper.title,
            *one.printer.correction.replace("across ", "").replace("down ", "").split(", "),
            one.measured,
            str(path),
        )
        for path in _files(beside)
        for one in kept_in(path)
    ]
    say(table([words.TABLE_HEAD, *rows]) if rows else words.no_printers())


def show_printer(name: str, beside: Path | None) -> None:
    """Say all that is kept of a printer, paper by paper."""
    said = [_shown(one, path) for path in _files(beside) for one in kept_in(path) if same_name(one.name, name)]
    if not said:
        found_printer(name, paper_named("letter"), beside)
    say("\n\n".join(said))


def forget_printer(name: str, paper: str | None, beside: Path | None) -> None:
    """Take a printer, or one paper of it, out of the file. BadInput where it isn't there."""
    path = printer_file(beside)
    kept = kept_in(path)
    only = None if paper is None else _paper(paper)
    gone = [one for one in kept if same_name(one.name, name) and (only is None or one.is_for(only))]
    if not gone:
        found_printer(name, only or paper_named("letter"), beside)
        raise BadInput(words.kept_elsewhere(name, path))
    keep(path, [one for one in kept if one not in gone])
    say(words.forgotten(gone[0].name, [one.paper.title for one in gone], path))


def remarks(printer: MeasuredPrinter) -> Iterator[str]:
    """What there is to say of the measures: as good as true, skew, a slip."""
    if printer.is_true:
        yield words.NOISE
    else:
        for which, reading in (("across", printer.across), ("down", printer.down)):
            if reading.is_noise:
                yield words.noise(which, _mm(reading.within))
    if printer.is_skew:
        over = "a metre" if printer.paper.is_roll else f"a {printer.paper.title} sheet"
        yield words.skew(_mm(printer.skew, 1), "right" if printer.skew.mm > 0 else "left", over)
    if printer.disagrees:
        yield words.disagree(_mm(printer.disagreement, 1), "longer" if printer.disagreement.mm > 0 else "shorter")


def _shown(printer: MeasuredPrinter, path: Path) -> str:
    readings = (
        ("across", printer.across),
        ("down", printer.down),
        ("rising diagonal", printer.rising),
        ("falling diagonal", printer.falling),
    )
    rows = [words.one_reading(what, *_read(reading)) for what, reading in readings if reading is not None]
    rows.append(("drawn", printer.printer.correction))
    if printer.border is not None:
        rows.append(("border", _mm(printer.border)))
    head = f"{printer.name} on {printer.paper.title}, measured {printer.measured}"
    return "\n".join([f"{head} ({path})", table(rows), *(f"\n{remark}" for remark in remarks(printer))])


def _read(reading: Reading) -> tuple[str, str, str]:
    inch = reading.measured.inches
    if inch.denominator in (2, 4, 8, 16, 32, 64) or (inch.denominator == 1 and reading.drawn.inches.denominator == 1):
        measured = GRADUATIONS["1/64 in"].text(reading.measured)
    else:
        measured = _mm(reading.measured)
    whole_inch = reading.drawn.inches.denominator == 1
    return measured, f"{reading.drawn.inches} in" if whole_inch else _mm(reading.drawn), _mm(reading.within)


def _mm(length: Length, places: int = 2) -> str:
    return f"{decimal_text(abs(length.mm), places)} mm"


def _files(beside: Path | None) -> tuple[Path, ...]:
    own = printer_file(None)
    return (own,) if beside is None else tuple(dict.fromkeys((printer_file(beside), own)))


def _paper(text: str) -> Paper:
    try:
        return paper_named(text)
    except BadInput as bad:
        raise BadInput(f"--paper: {bad}") from None


def _border(text: str, paper: Paper, unit: Unit) -> Length:
    try:
        border = read_length(text, unit)
        with_border(paper, border)
    except BadInput as bad:
        raise BadInput(f"--border: {bad}") from None
    return border


def _name(text: str) -> str:
    name = " ".join(text.split())
    if not name or len(name) > 40 or not name.isprintable():
        raise BadInput(words.no_name(text))
    return name


def _day(given: str | None) -> str:
    """The day as 2026-11-20: as given, else today's."""
    if given is None:
        return date.today().isoformat()
    try:
        return date.fromisoformat(given).isoformat()
    except ValueError:
        raise BadInput(words.no_day(given)) from None
