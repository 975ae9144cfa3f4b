"""Reading the files a maker names: text, at most a megabyte, in UTF-8."""

from __future__ import annotations

import stat
from dataclasses import field
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from joinlay.boards.outline import Outline
    from joinlay.jobs.job import Job

__all__ = ["JobTexts", "files_named", "job_in", "text_of", "texts_of", "texts_with"]


@dataclass(frozen=True, slots=True)
class JobTexts:
    """A job as it stands in its files: its ``text``, that of its shop file (None where it names none), and the outlines it names.

    ``name`` and ``shop_name`` are the names of the files, without their folders.
    """

    text: str
    name: str
    shop: str | None = None
    shop_name: str | None = None
    drawn: Mapping[str, Outline | BadInput] = field(default_factory=dict)

    def job(self) -> Job:
        """The job itself. Raises Troubles or BadInput with what is wrong, and where: file and line."""
        from joinlay.jobs.reader import read_job

        return read_job(self.text, self.name, self.shop, self.shop_name, self.drawn)


def texts_of(path: Path) -> JobTexts:
    """The texts of the job file ``path``, of the shop file and the outlines it names, if any. Raises as ``job_in`` does."""
    return texts_with(path, text_of(path))


def texts_with(path: Path, text: str, may_read: Callable[[str], bool] = bool) -> JobTexts:
    """What ``texts_of`` gives, if ``text`` stood in the job file ``path``, which need not be there.

    Of the files it names only those are read whose names ``may_read``; others count as not there. Raises as ``job_in`` does.
    """
    from joinlay.jobs.reader import named_outline_files, named_shop_file

    drawn = {
        name: found
        for name in named_outline_files(text, path.name)
        if may_read(name) and (found := _outline_in(path.parent / name, name))
    }
    shop = named_shop_file(text, path.name)
    shop_path = None if shop is None or not may_read(shop) else path.parent / shop
    if shop_path is None or not _is_there(shop_path):
        return JobTexts(text, path.name, drawn=drawn)
    return JobTexts(text, path.name, text_of(shop_path), shop_path.name, drawn)


def files_named(text: str, file: str) -> frozenset[str]:
    """The other files that a job's ``text`` names, as it names them: its shop file and outlines. None of a text that isn't TOML.

    ``file`` is what the job's own is called.
    """
    from joinlay.jobs.reader import named_outline_files, named_shop_file

    try:
        shop = named_shop_file(text, file)
        return frozenset((*named_outline_files(text, file), *([shop] if shop else ())))
    except BadInput:
        return frozenset()


def job_in(path: Path) -> Job:
    """The job in the file ``path``, with the shop file and the outlines it names, if any.

    Raises Troubles or BadInput with what is wrong, and where: file and line.
    """
    return texts_of(path).job()


def _outline_in(path: Path, name: str) -> Outline | BadInput | None:
    """The outline drawn in a file that a job names, or what is wrong with it; None where there is no such file."""
    from joinlay.documents.outline_file import read_outline
    from joinlay.documents.outline_svg import LARGEST_SVG

    if not _is_there(path):
        return None
    try:
        return read_outline(_content_of(path, LARGEST_SVG, "the SVG file"), name)
    except BadInput as bad:
        return bad


def _is_there(path: Path) -> bool:
    """False only where there is no such file: one that can't be read is another matter."""
    try:
        path.stat()
    except (FileNotFoundError, NotADirectoryError, ValueError):
        return False
    except OSError:
        return True
    return True


def text_of(path: Path) -> str:
    """The text of the file ``path``.

    Raises BadInput where it isn't there, isn't an ordinary file, can't be read, is larger than a job may be, or isn't UTF-8.
    """
    from joinlay.jobs.source import LARGEST_FILE

    content = _content_of(path, LARGEST_FILE, "the job file")
    if len(content) > LARGEST_FILE:
        raise BadInput(f"{path} is larger than {LARGEST_FILE // 1_000_000} MB; a job is a page or two.")
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError as bad:
        line = content[: bad.start].count(b"\n") + 1
        raise BadInput(f"{path.name}:{line}: this is not UTF-8 text; save the file as UTF-8.") from None


def _content_of(path: Path, most: int, what: str) -> bytes:
    """What the file ``path``, which should be ``what``, holds, and of one too large a byte more than ``most``."""
    try:
        mode = path.stat().st_mode
        if stat.S_ISDIR(mode):
            raise BadInput(f"{path} is a folder; name {what} in it.")
        if not stat.S_ISREG(mode):
            raise BadInput(f"{path} is not an ordinary file.")
        with path.open("rb") as file:
            return file.read(most + 1)
    except FileNotFoundError:
        raise BadInput(f"there is no file {path}{_near(path)}") from None
    except PermissionError:
        raise BadInput(f"{path} may not be read; ask for leave to read it, or copy it elsewhere.") from None
    except OSError as bad:
        raise BadInput(f"{path} cannot be read: {(bad.strerror or str(bad)).lower()}.") from None


def _near(path: Path) -> str:
    """The job files beside the one that isn't there, the nearest first."""
    from joinlay.errors import nearest_names

    try:
        names = sorted(found.name for found in path.parent.iterdir() if found.suffix == ".toml")
    except OSError:
        return "."
    near = nearest_names(path.name, names, 1)
    return f"; the nearest is {path.parent / near[0]}." if near else "; joinlay start writes one."
