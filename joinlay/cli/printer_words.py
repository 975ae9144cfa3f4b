"""The words of ``joinlay scale-sheet`` and ``joinlay printer``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from collections.abc import Sequence

SCALE_SHEET: Final = "Print a sheet to measure, so that joinlay learns how true your printer is."
SCALE_SHEET_PAPER: Final = "The paper, such as letter, a4, '610 x 914 mm' or '24 in roll'; letter unless told."
SCALE_SHEET_OUT: Final = "The PDF to write; scale-sheet.pdf unless told."
SCALE_SHEET_PRINTER: Final = "Correct it for a printer that was measured, to prove the correction."
FILE_BESIDE: Final = "Keep it beside this job, for this job only, and not in your own settings."

PRINTER: Final = "The printers you have measured: add, list, show, forget."
ADD: Final = "Keep what you measured on the scale sheet."
ADD_NAME: Final = "A name of your own, such as 'shop laser'."
ADD_PAPER: Final = "The paper of the scale sheet; letter unless told."
ADD_ACROSS: Final = "The bar across the sheet, as measured, such as 199.2mm or '7 31/32 in'."
ADD_DOWN: Final = "The bar down the sheet, as measured."
ADD_RISING: Final = "The diagonal from the lower left corner, as measured; both or neither."
ADD_FALLING: Final = "The diagonal from the upper left corner, as measured."
ADD_BORDER: Final = "What the printer leaves blank all round; 6 mm (1/4 in) unless told."
ADD_MEASURED: Final = "The day you measured, such as 2026-11-20; today unless told."
ADD_METRIC: Final = "A number without a unit is in millimetres or in inches."
LIST: Final = "List the printers you have measured."
SHOW: Final = "Say all there is to know of one printer."
FORGET: Final = "Forget a printer, or one paper of it."
NAME: Final = "The printer's name."
ONE_PAPER: Final = "Only with this paper."
JOB_TOO: Final = "Look beside this job first."
MAKE_PRINTER: Final = "The printer to correct for, by the name you gave it; what the job says unless told."

TABLE_HEAD: Final = ("printer", "paper", "drawn across", "drawn down", "measured", "kept in")


def scale_sheet_made(path: object, paper: str, *, is_proof: bool) -> str:
    """After ``scale-sheet``: what to do with it."""
    if is_proof:
        return f"{path} is written.\n\nNext: print it on {paper} at actual size; each length must measure as the sheet says."
    return (
        f"{path} is written.\n\nNext: print it on {paper} at actual size, measure it, and then\n"
        f"  joinlay printer add NAME --paper {quoted(paper)} --across .. --down .."
    )


def quoted(word: str) -> str:
    """``word`` as it is typed in a terminal."""
    return f"'{word}'" if " " in word else word


def added(name: str, correction: str, paper: str, *, was: str) -> str:
    """The first line after ``printer add``; ``was`` is the correction kept before, '' where there was none."""
    return f"{name} on {paper}: the correction is {correction}." + (f" It was {was}." if was else "")


def next_proof(name: str, paper: str) -> str:
    """After ``printer add``."""
    return f"Next: joinlay scale-sheet --paper {quoted(paper)} --printer {quoted(name)} proves it; joinlay make JOB --printer {quoted(name)} uses it."


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
        f"The diagonals differ: the top of a sheet prints {amount} to the {side} over {over} (skew). That is not corrected: set the paper "
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
        f"there is no printer called {name!r}.{nearest} To add it, print what joinlay scale-sheet --paper {quoted(paper)} writes, measure it, "
        f"and joinlay printer add {quoted(name)} --paper {quoted(paper)} --across .. --down .."
    )


def other_paper(name: str, papers: Sequence[str], paper: str) -> str:
    """A printer that was measured, but not with this paper."""
    return (
        f"{name!r} was measured with {' and '.join(papers)}, not with {paper}, and each paper is fed in its own way. Measure it with that too "
        f"(joinlay scale-sheet --paper {quoted(paper)}), or use --paper {quoted(papers[0])}."
    )


def no_home() -> str:
    """A user without a home folder."""
    return "your home folder cannot be found; set JOINLAY_CONFIG to the folder to keep printers in, or use --beside JOB."


def no_day(given: str) -> str:
    """A date that is none."""
    return f"--measured {given!r} is no day; write it as 2026-11-20."


def no_name(given: str) -> str:
    """A name that is none."""
    return f"{given[:60]!r} is no name for a printer; write 1 to 40 letters and figures on one line."


def kept_elsewhere(name: str, path: object) -> str:
    """``printer forget`` in the wrong file."""
    return f"{name!r} is not kept in {path}; joinlay printer show {quoted(name)} says where it is, and --beside JOB looks beside a job."
