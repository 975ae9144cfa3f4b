"""The folder that one job's files are in: a small record in it says whose it is, and what is the maker's own stays untouched.

The problem: a folder that ``make`` writes to may be a maker's own, or another job's; and a run may be stopped in the middle. A
name tells nothing, and what a file says of itself can be written by anybody.

How it works: beside the files lies a record of the way to the job they are made from, and of each file's digest. A file is a
job's own where the record is that job's and the file is still, byte for byte, what the record says; only such a file is written
over or taken away. The record is written before the files, with what is there and what is to come, and once more after them:
whenever a run is stopped, the next knows every file that is its own.

What it can't do: it doesn't know a job that was moved or given another name; then it asks, and ``--force`` takes the folder over.
"""

from __future__ import annotations

import hashlib
import json
import os
from dataclasses import field
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from joinlay.documents.json_text import json_text
from joinlay.documents.writing import held, write_all, write_whole
from joinlay.errors import BadInput, on_one_line
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

__all__ = ["RECORD", "FolderRecord", "keep_in", "record_in", "usual_folder", "way_to"]

#: The record's name in the folder.
RECORD: Final = ".joinlay.json"

#: A record of more bytes, or of more files, is none of ours.
_LARGEST: Final = 4_000_000
_NAMED: Final = 3


@dataclass(frozen=True, slots=True)
class FolderRecord:
    """Whose a folder is: the way from it to the ``job``, and the ``files`` made for it, each with every digest it may have."""

    job: str
    files: Mapping[str, frozenset[str]] = field(default_factory=dict)

    def owns(self, name: str, digest: str | None) -> bool:
        """Whether the file called ``name`` with this ``digest`` was made for the job, and by nobody changed since."""
        return digest is not None and digest in self.files.get(name, frozenset())

    def content(self) -> bytes:
        """The record as it lies in the folder, the same bytes each time."""
        files = {name: sorted(self.files[name]) for name in sorted(self.files)}
        return json_text({"about": _ABOUT, "job": self.job, "files": files}).encode()


_ABOUT: Final = "joinlay made these files from this job; it writes over them or takes them away as long as they are unchanged"


def usual_folder(job: Path) -> Path:
    """Where the files of ``job`` go unless told: a folder of its own name, without what some systems drop from a name's end."""
    return Path("templates_out") / (job.stem.rstrip(". ") or "job")


def record_in(folder: Path) -> FolderRecord | None:
    """The record in ``folder``; None where there is none, or none that can be understood: then nothing there is a job's."""
    try:
        with (folder / RECORD).open("rb") as file:
            content = file.read(_LARGEST + 1)
        tree: Any = json.loads(content) if len(content) <= _LARGEST else None
        job, files = tree["job"], tree["files"]
        kept = {name: frozenset(map(_text, digests)) for name, digests in files.items() if _is_plain(name)}
        return FolderRecord(_text(job), kept)
    except (OSError, ValueError, KeyError, TypeError, AttributeError, RecursionError):
        return None


def _text(given: object) -> str:
    if not isinstance(given, str):
        raise TypeError("a text is wanted")
    return given


def _is_plain(file: str) -> bool:
    """Whether ``file`` is one in the folder itself."""
    return Path(file).name == file and file not in ("", ".", "..") and "\0" not in file


def way_to(job: Path, folder: Path) -> str:
    """The way from ``folder`` to ``job``, so that both may be moved together; the whole path where there is no such way."""
    there, here = os.path.realpath(job), os.path.realpath(folder)
    try:
        return Path(os.path.relpath(there, here)).as_posix()
    except ValueError:  # another drive
        return Path(there).as_posix()


def keep_in(folder: Path, job: Path, files: Mapping[str, bytes], *, is_whole: bool, is_forced: bool = False) -> tuple[str, ...]:
    """Write ``files`` (name to content), made from the job at ``job``, into ``folder``; the names of those taken away.

    ``is_whole``: they are all there is of the job, and others that earlier runs made of it are taken away. Raises BadInput,
    and nothing is touched, where the folder is another job's, or where a file that isn't this job's own would be written over;
    unless ``is_forced``: then the folder is taken over, and what isn't to be written stays, but for unchanged files of that job.
    """
    with held(folder):
        way, found = way_to(job, folder), record_in(folder)
        there = {name: _digest_of(folder / name) for name in {*files, *(found.files if found else ())}}
        coming = {name: _digest(content) for name, content in files.items()}
        others = found is not None and found.job != way
        own = None if others else found
        strange = [
            name
            for name in files
            if _is_there(folder / name) and there[name] != coming[name] and not (own and own.owns(name, there[name]))
        ]
        if (others or strange) and not is_forced:
            raise BadInput(_not_ours(folder, found.job if found and others else "", strange))
        # Those of a job that is put out are its own too, as long as nobody has changed them.
        is_all = is_whole or others
        stale = [name for name in found.files if name not in files and found.owns(name, there[name]) and is_all] if found else []
        lasting = {} if is_all or found is None else {name: each for name, each in found.files.items() if name not in files}
        after = FolderRecord(way, {**lasting, **{name: frozenset((digest,)) for name, digest in coming.items()}})
        before = _together(after, found.files if found else {})
        write_all(folder, {RECORD: before.content(), **files}, stale)
        write_whole(folder / RECORD, after.content())
        return tuple(stale)


def _together(after: FolderRecord, before: Mapping[str, frozenset[str]]) -> FolderRecord:
    """While it is written a file is what it was or what it will be."""
    names = {*after.files, *before}
    return FolderRecord(after.job, {name: after.files.get(name, frozenset()) | before.get(name, frozenset()) for name in names})


def _is_there(path: Path) -> bool:
    """False where it isn't, and where no file could be called so."""
    try:
        return path.exists()
    except OSError:
        return False


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()


def _digest_of(path: Path) -> str | None:
    """The digest of the file at ``path``; None where there is none that can be read."""
    try:
        if not path.is_file():  # a pipe would never end
            return None
        with path.open("rb") as file:
            return hashlib.file_digest(file, "sha256").hexdigest()
    except OSError:
        return None


def _not_ours(folder: Path, job: str, strange: Iterable[str]) -> str:
    """Why nothing was written into ``folder``: it is that of another ``job``, or holds files that aren't this job's."""
    said = _some(tuple(strange))
    whose = f"{folder} is the folder of another job ({on_one_line(job)})" if job else f"{folder} holds what this job did not make"
    touched = f"; {said} would be written over" if said else ""
    return f"{whose}{touched}. Nothing was written. Name another folder with --out, or take this one over with --force."


def _some(names: tuple[str, ...]) -> str:
    first = list(names[:_NAMED])
    if len(names) > _NAMED:
        first.append(f"{len(names) - _NAMED} more")
    return first[0] if len(first) == 1 else f"{', '.join(first[:-1])} and {first[-1]}" if first else ""
