"""``joinlay scale-sheet`` and ``joinlay printer``: print, measure, keep; and where measured printers are kept."""

from __future__ import annotations

import os
import shlex
import sys
from contextlib import contextmanager, suppress
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, Final

from joinlay.cli.terminal import say, table
from joinlay.documents.job_file import text_of
from joinlay.documents.printers_file import printers_text, read_printers
from joinlay.documents.writing import held, write_all
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.lengths import GRADUATIONS, Length, Unit, decimal_text, read_length
from joinlay.pages.measured_printer import MeasuredPrinter, measured_printer
from joinlay.paper import Paper, name_fault, paper_named, with_border

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.pages.measured_printer import Measurement

__all__ = [
    "add_printer",
    "forget_printer",
    "found_printer",
    "keep",
    "kept_in",
    "list_printers",
    "printer_file",
    "same_name",
    "show_printer",
    "write_scale_sheet",
]


_FILE: Final = "printers.toml"


def config_folder() -> Path:
    """The user's configuration folder for joinlay: JOINLAY_CONFIG itself, or in XDG_CONFIG_HOME, or in the system's usual
    place.
    """
    if own := os.environ.get("JOINLAY_CONFIG"):
        return Path(own)
    base = os.environ.get("XDG_CONFIG_HOME", "")
    if not Path(base).is_absolute():
        base = os.environ.get("APPDATA", "") if sys.platform == "win32" else ""
    if base:
        return Path(base) / "joinlay"
    try:
        home = Path.home()
    except RuntimeError:
        raise BadInput(no_home()) from None
    usual = {"win32": home / "AppData" / "Roaming", "darwin": home / "Library" / "Application Support"}
    return usual.get(sys.platform, home / ".config") / "joinlay"


def printer_file(beside: Path | None) -> Path:
    """The file of printers beside a job, or the user's own.

    Raises BadInput for a job that isn't there: what is kept beside a misspelt one would be looked for in vain.
    """
    if beside is None:
        return config_folder() / _FILE
    from joinlay.documents.job_file import text_of

    text_of(beside)
    return beside.parent / _FILE


def kept_in(path: Path) -> tuple[MeasuredPrinter, ...]:
    """The printers in a file; none where there is no such file. Raises BadInput for one that can't be read or understood."""
    try:
        path.stat()
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return ()
    except OSError:
        pass  # something is there, and the reader says what keeps it from being read
    return read_printers(text_of(path), path.name)


def keep(path: Path, printers: Sequence[MeasuredPrinter]) -> None:
    """Write a file of printers, whole or not at all. Raises BadInput where that can't be done: then what was there is
    untouched.
    """
    write_all(path.parent, {path.name: printers_text(printers).encode()})


@contextmanager
def changing(path: Path) -> Iterator[None]:
    """A file of printers for this run alone, from the reading to the writing: two that add at once keep both."""
    with suppress(OSError):  # what is wrong with the folder is said by the writing
        path.parent.mkdir(parents=True, exist_ok=True)
    with held(path.parent):
        yield


def same_name(one: str, two: str) -> bool:
    """True for two names that differ only in capitals and spaces."""
    return " ".join(one.casefold().split()) == " ".join(two.casefold().split())


def found_printer(name: str, paper: Paper, job: Path | None) -> MeasuredPrinter:
    """The printer called ``name`` as measured with ``paper``; what is kept beside the ``job`` goes before the user's own.

    Raises BadInput for a name that isn't kept, with the nearest and how to add it, and for a paper it was not measured with.
    """
    files = dict.fromkeys([*([printer_file(job)] if job is not None else []), printer_file(None)])
    known = [one for path in files for one in kept_in(path)]
    mine = [one for one in known if same_name(one.name, name)]
    if not mine:
        near = nearest_names(name, tuple(dict.fromkeys(one.name for one in known)))
        raise BadInput(unknown_printer(name, near, paper.plain_name))
    fitting = [one for one in mine if one.is_for(paper)]
    if not fitting:
        raise BadInput(other_paper(mine[0].name, tuple(dict.fromkeys(one.paper.plain_name for one in mine)), paper.plain_name))
    return fitting[0]


def write_scale_sheet(paper: str, out: Path, printer: str | None, beside: Path | None) -> None:
    """Write the scale sheet; corrected for a ``printer``, where one is named. BadInput for what can't be."""
    from joinlay.documents.template_files import scale_sheet_pdf
    from joinlay.documents.writing import write_whole

    sheet = _paper(paper)
    known = None if printer is None else found_printer(printer, sheet, beside)
    write_whole(out, scale_sheet_pdf(sheet, None if known is None else known.printer, _made(beside)))
    say(scale_sheet_made(out, sheet.plain_name, is_proof=known is not None))


def _made(job: Path | None) -> str:
    """Who makes the ``job`` and when, if there is one and it says so: paper may be measured before the job can be read.

    Raises BadInput for a job that isn't there.
    """
    from joinlay.documents.job_file import job_in, text_of
    from joinlay.pages.printed_sheet import made_words

    if job is None:
        return ""
    text_of(job)
    try:
        read = job_in(job)
    except BadInput:
        return ""
    return made_words(read.maker, read.date)


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
    with changing(path):
        kept = kept_in(path)
        old = [one for one in kept if same_name(one.name, called) and one.is_for(sheet)]
        keep(path, [*(one for one in kept if one not in old), new])
    was = old[0].printer.correction if old else ""
    head = added(called, new.printer.correction, sheet.title, was=was)
    readings = (
        ("across", across, new.across),
        ("down", down, new.down),
        ("rising", rising, new.rising),
        ("falling", falling, new.falling),
    )
    said = [
        (which, given, *_read(reading)[:2]) for which, given, reading in readings if reading is not None and given is not None
    ]
    bare = any(text.strip()[-1:].isdigit() for text in (*(given for _, given, _, _ in said), border or ""))
    took = read_as([(which, figure, drawn) for which, _, figure, drawn in said], unit.value if bare else "")
    head = f"{head}\n{took}"
    say("\n\n".join([head, *remarks(new), next_proof(called, sheet.plain_name)]))


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
    say(table([TABLE_HEAD, *rows]) if rows else no_printers())


def show_printer(name: str, beside: Path | None) -> None:
    """Say all that is kept of a printer, paper by paper."""
    said = [_shown(one, path) for path in _files(beside) for one in kept_in(path) if same_name(one.name, name)]
    if not said:
        found_printer(name, paper_named("letter"), beside)
    say("\n\n".join(said))


def forget_printer(name: str, paper: str | None, beside: Path | None) -> None:
    """Take a printer, or one paper of it, out of the file. BadInput where it isn't there."""
    path = printer_file(beside)
    only = None if paper is None else _paper(paper)
    with changing(path):
        kept = kept_in(path)
        gone = [one for one in kept if same_name(one.name, name) and (only is None or one.is_for(only))]
        if not gone:
            found_printer(name, only or paper_named("letter"), beside)
            raise BadInput(kept_elsewhere(name, path))
        keep(path, [one for one in kept if one not in gone])
    say(forgotten(gone[0].name, [one.paper.title for one in gone], path))


def remarks(printer: MeasuredPrinter) -> Iterator[str]:
    """What there is to say of the measures: as good as true, skew, a slip."""
    if printer.is_true:
        yield NOISE
    else:
        for which, reading in (("across", printer.across), ("down", printer.down)):
            if reading.is_noise:
                yield noise(which, _mm(reading.within))
    if printer.is_skew:
        over = "a metre" if printer.paper.is_roll else f"a {printer.paper.title} sheet"
        yield skew(_mm(printer.skew, 1), "right" if printer.skew.mm > 0 else "left", over)
    if printer.disagrees:
        yield disagree(_mm(printer.disagreement, 1), "longer" if printer.disagreement.mm > 0 else "shorter")


def _shown(printer: MeasuredPrinter, path: Path) -> str:
    readings = (
        ("across", printer.across),
        ("down", printer.down),
        ("rising diagonal", printer.rising),
        ("falling diagonal", printer.falling),
    )
    rows = [one_reading(what, *_read(reading)) for what, reading in readings if reading is not None]
    rows.append(("drawn", printer.printer.correction))
    if printer.border is not None:
        rows.append(("border", _mm(printer.border)))
    head = f"{printer.name} on {printer.paper.title}, measured {printer.measured}"
    return "\n".join([f"{head} ({path})", table(rows), *(f"\n{remark}" for remark in remarks(printer))])


def _read(reading: Measurement) -> tuple[str, str, str]:
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
    if fault := name_fault(name, 40):
        raise BadInput(no_name(text, fault))
    return name


def _day(given: str | None) -> str:
    """The day as 2026-11-20: as given, else today's."""
    if given is None:
        return date.today().isoformat()
    try:
        return date.fromisoformat(given).isoformat()
    except ValueError:
        raise BadInput(no_day(given)) from None


# -- what it says -----------------------------------------------------------------------------------

TABLE_HEAD: Final = ("printer", "paper", "drawn across", "drawn down", "measured", "kept in")


def scale_sheet_made(path: object, paper: str, *, is_proof: bool) -> str:
    """After ``scale-sheet``: what to do with it."""
    if is_proof:
        return f"{path} is written.\n\nNext: print it on {paper} at actual size; each length must measure as the sheet says."
    return (
        f"{path} is written.\n\nNext: print it on {paper} at actual size, measure it, and then\n"
        f"  joinlay printer add NAME --paper {typed(paper)} --across .. --down .."
    )


def typed(word: str) -> str:
    """``word`` as it is typed in a terminal."""
    return shlex.quote(word)


def added(name: str, correction: str, paper: str, *, was: str) -> str:
    """The first line after ``printer add``; ``was`` is the correction kept before, '' where there was none."""
    return f"{name} on {paper}: the correction is {correction}." + (f" It was {was}." if was else "")


def read_as(readings: Sequence[tuple[str, str, str]], bare: str) -> str:
    """After ``printer add``: what each measure was taken as, and of what; ``bare`` is the unit that was taken for a number
    without one.
    """
    said = ", ".join(f"{which} {figure} of {drawn}" for which, figure, drawn in readings)
    unit = {"mm": "millimetres (--inch for inches)", "inch": "inches (--metric for millimetres)"}.get(bare, "")
    return f"Read as {said}." + (f" A number without a unit was taken in {unit}." if unit else "")


def next_proof(name: str, paper: str) -> str:
    """After ``printer add``."""
    return (
        f"Next: joinlay scale-sheet --paper {typed(paper)} --printer {typed(name)} proves it; joinlay make "
        f"JOB --printer {typed(name)} uses it."
    )


def one_reading(what: str, measured: str, drawn: str, within: str) -> tuple[str, str]:
    """One line of ``printer show``."""
    return what, f"{measured} of {drawn}, read to {within} or so"


NOISE: Final = "Both bars measure true as nearly as the rule can be read: this printer needs no correction worth the name."


def noise(which: str, within: str) -> str:
    """One bar that is as good as true."""
    return (
        f"The bar {which} is true as nearly as the rule can be read ({within}); its correction is hardly more than the reading."
    )


def skew(amount: str, side: str, over: str) -> str:
    """Diagonals that differ."""
    return (
        f"The diagonals differ: the top of a sheet prints {amount} to the {side} over {over} (skew). That is "
        f"not corrected: set the paper "
        "guides square, print the scale sheet again, and see whether it stays."
    )


def disagree(amount: str, way: str) -> str:
    """Diagonals that do not go with the bars."""
    return f"The diagonals are {amount} {way} than the two bars let expect; one of the four was misread. Measure again."


def forgotten(name: str, papers: Sequence[str], path: object) -> str:
    """After ``printer forget``."""
    return f"{name} on {' and '.join(papers)} is forgotten ({path})."


def no_printers() -> str:
    """``printer list`` where there are none."""
    return "No printer has been measured yet.\n\nNext: joinlay scale-sheet, print it, measure it, and joinlay printer add."


def unknown_printer(name: str, near: Sequence[str], paper: str) -> str:
    """A printer that isn't kept anywhere."""
    nearest = f" The nearest is {' or '.join(near)}." if near else ""
    return (
        f"there is no printer called {quoted(name)}.{nearest} To add it, print what joinlay scale-sheet --paper "
        f"{typed(paper)} writes, measure it, "
        f"and joinlay printer add {typed(name)} --paper {typed(paper)} --across .. --down .."
    )


def other_paper(name: str, papers: Sequence[str], paper: str) -> str:
    """A printer that was measured, but not with this paper."""
    return (
        f"{quoted(name)} was measured with {' and '.join(papers)}, not with {paper}, and each paper is fed in "
        f"its own way. Measure it with that too "
        f"(joinlay scale-sheet --paper {typed(paper)}), or use --paper {typed(papers[0])}."
    )


def no_home() -> str:
    """A user without a home folder."""
    return "your home folder cannot be found; set JOINLAY_CONFIG to the folder to keep printers in, or use --beside JOB."


def no_day(given: str) -> str:
    """A date that is none."""
    return f"--measured {quoted(given)} is no day; write it as 2026-11-20."


def no_name(given: str, fault: str) -> str:
    """A name that is none, and why."""
    return f"{quoted(given)} is no name for a printer: it {fault}."


def kept_elsewhere(name: str, path: object) -> str:
    """``printer forget`` in the wrong file."""
    return (
        f"{quoted(name)} is not kept in {path}; joinlay printer show {typed(name)} says where it is, and "
        f"--beside JOB looks beside a job."
    )
