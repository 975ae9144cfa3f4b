"""Where measured printers are kept: one file in the user's configuration folder, and one beside a job where that is asked for."""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Final

from joinlay.cli import printer_words as words
from joinlay.documents.job_file import text_of
from joinlay.documents.printers_file import printers_text, read_printers
from joinlay.documents.writing import write_all
from joinlay.errors import BadInput, nearest_names

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.pages import Paper
    from joinlay.pages.measured_printer import MeasuredPrinter

__all__ = ["found_printer", "keep", "kept_in", "printer_file", "same_name"]

_FILE: Final = "printers.toml"


def config_folder() -> Path:
    """The user's configuration folder for joinlay: JOINLAY_CONFIG itself, or in XDG_CONFIG_HOME, or in the system's usual place."""
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
        raise BadInput(words.no_home()) from None
    usual = {"win32": home / "AppData" / "Roaming", "darwin": home / "Library" / "Application Support"}
    return usual.get(sys.platform, home / ".config") / "joinlay"


def printer_file(beside: Path | None) -> Path:
    """The file of printers beside a job, or the user's own."""
    return (config_folder() if beside is None else beside.parent) / _FILE


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
    """Write a file of printers, whole or not at all. Raises BadInput where that can't be done: then what was there is untouched."""
    write_all(path.parent, {path.name: printers_text(printers).encode()})


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
        raise BadInput(words.unknown_printer(name, near, paper.plain_name))
    fitting = [one for one in mine if one.is_for(paper)]
    if not fitting:
        raise BadInput(
            words.other_paper(mine[0].name, tuple(dict.fromkeys(one.paper.plain_name for one in mine)), paper.plain_name)
        )
    return fitting[0]
