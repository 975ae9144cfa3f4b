"""Files written whole or not at all: beside the target first, then moved into its place.

Whatever stops the writing (a full disk, a folder that may not be written to, a pulled plug), the files that were there before
are there still, each of them whole. What a run that was cut short left beside them is swept away by the next.
"""

from __future__ import annotations

import contextlib
import errno
import os
import re
import shutil
import stat
import sys
import time
from pathlib import Path, PurePath
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, quoted

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping
    from io import BufferedWriter

__all__ = ["held", "write_all", "write_whole"]

_REASONS: Final = {
    errno.EACCES: "it may not be written to",
    errno.EPERM: "it may not be written to",
    errno.EROFS: "it lies on a disk that can only be read",
    errno.ENOSPC: "the disk is full",
    errno.EDQUOT: "the disk is full",
    errno.EFBIG: "the file would be larger than this system allows",
    errno.EISDIR: "there is a folder of that name",
    errno.ENOTDIR: "part of its path is a file, not a folder",
    errno.ENOENT: "its folder is not there",
    errno.EEXIST: "there is a file where a folder is wanted",
    errno.ENAMETOOLONG: "its name is too long",
    errno.ELOOP: "its path runs in a circle of links",
}


def write_whole(path: Path, content: bytes) -> None:
    """Write ``content`` to the file ``path``, whose folder must be there.

    Raises BadInput, saying why, where that can't be done; what was at ``path`` before is then untouched.
    """
    with _said_plainly(path), _Batch() as batch:
        _sweep(path.parent)
        batch.add(path, content)
        batch.into_place()


def write_all(folder: Path, files: Mapping[str, bytes], stale: Iterable[str] = ()) -> None:
    """Write every file of ``files`` (name to content, all made before this is called) into ``folder``, made if need be; in their
    order.

    ``stale`` are names of files in ``folder`` that an earlier run made and this one doesn't; they are taken away last. Names
    may not lead out of the folder. Raises BadInput, saying why, where anything fails: then every file that was there before is
    as it was.
    """
    gone = frozenset(stale) - frozenset(files)
    for name in (*files, *gone):
        _refuse_straying(name)
    with _said_plainly(folder), _new_folder(folder), _Batch() as batch:
        _sweep(folder)
        for name, content in files.items():
            batch.add(folder / name, content)
        batch.into_place()
    for name in gone:
        with contextlib.suppress(OSError):
            (folder / name).unlink()


#: How long one run waits for another that writes to the same folder, in seconds.
_PATIENCE: Final = 10.0


@contextlib.contextmanager
def held(folder: Path) -> Iterator[None]:
    """``folder`` for this run alone until the block is left: what is read in it is still so when it is written.

    A folder that isn't there yet is held by nobody. Raises BadInput where another run doesn't let go of it.
    """
    if sys.platform == "win32":  # folders can't be locked there
        yield
        return
    import fcntl

    try:
        lock = os.open(folder, os.O_RDONLY)
    except OSError:
        yield
        return
    try:
        until = time.monotonic() + _PATIENCE
        while True:
            try:
                fcntl.flock(lock, fcntl.LOCK_EX | fcntl.LOCK_NB)
                break
            except BlockingIOError:
                if time.monotonic() > until:
                    raise BadInput(f"another joinlay is writing in {folder}; let it end, then try again.") from None
                time.sleep(0.02)
            except OSError:  # a disk that knows no locks
                break
        yield
    finally:
        os.close(lock)


#: A passing file of a run that may still be going is left alone for so long, in seconds.
_DAY: Final = 86_400


def _sweep(folder: Path) -> None:
    """Take away the passing files that a run which was cut short left in ``folder``."""
    with contextlib.suppress(OSError), os.scandir(folder) as every:
        for one in every:
            found = _LEFT_OVER.fullmatch(one.name)
            if found and (time.time() - one.stat(follow_symlinks=False).st_mtime > _DAY or not _is_running(int(found[1]))):
                with contextlib.suppress(OSError):
                    Path(one.path).unlink()


def _is_running(process: int) -> bool:
    """Whether there is a process of this number; True where that can't be told."""
    if sys.platform == "win32":
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


@contextlib.contextmanager
def _new_folder(folder: Path) -> Iterator[None]:
    """Make ``folder`` and those above it, and take away again those that were made where the block fails."""
    made = [path for path in (folder, *folder.parents) if not path.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
        yield
    except BaseException:
        for path in made:
            with contextlib.suppress(OSError):
                path.rmdir()
        raise


def _refuse_straying(file: str) -> None:
    path = PurePath(file)
    if path.is_absolute() or len(path.parts) != 1 or file in (".", "..") or "\0" in file:
        raise BadInput(f"{quoted(file)} is no plain file name, so it is not written.")


@contextlib.contextmanager
def _said_plainly(path: Path) -> Iterator[None]:
    """An OSError inside as BadInput with the path and the reason."""
    try:
        yield
    except OSError as bad:
        # A file that was to be written is the better name, but never the passing one beside it.
        at = bad.filename2 or bad.filename
        where = path if at is None or _PASSING in str(at) else at
        reason = _REASONS.get(bad.errno or 0, (bad.strerror or str(bad)).lower())
        raise BadInput(f"{where} cannot be written: {reason}. What was there before is untouched.") from bad


#: How the names of files that only pass through begin.
_PASSING: Final = ".joinlay-"
_LEFT_OVER: Final = re.compile(r"\.joinlay-(\d{1,9})-\d+-\d+\.part")


class _Batch:
    """Files on their way into place together; leaving the block takes away what is left over."""

    def __init__(self) -> None:
        self._waiting: list[tuple[Path, Path]] = []
        self._kept: list[tuple[Path, Path | None]] = []

    def __enter__(self) -> _Batch:
        return self

    def __exit__(self, *_: object) -> None:
        for left in (*(passing for passing, _target in self._waiting), *(kept for _target, kept in self._kept if kept)):
            with contextlib.suppress(OSError):
                left.unlink(missing_ok=True)

    def add(self, path: Path, content: bytes) -> None:
        """Write ``content`` beside ``path``, down to the disk."""
        target = Path(os.path.realpath(path))  # a link stays a link; what it leads to is written
        _refuse_special(target)
        passing = self._beside(target)
        self._waiting.append((passing, target))
        with _opened(passing) as file:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())

    def into_place(self) -> None:
        """Move every file to its name, each in one step; where one can't be moved, put back those that were."""
        try:
            for passing, target in self._waiting:
                self._kept.append((target, self._keep(target)))
                passing.replace(target)
        except BaseException:
            self._put_back()
            raise
        self._waiting.clear()

    def _put_back(self) -> None:
        for target, kept in reversed(self._kept):
            with contextlib.suppress(OSError):
                if kept is not None:
                    kept.replace(target)
                else:
                    target.unlink(missing_ok=True)

    def _keep(self, target: Path) -> Path | None:
        """The file at ``target`` under a second name, None where there is none."""
        if not target.exists():
            return None
        kept = self._beside(target)
        try:
            os.link(target, kept)
        except OSError:
            shutil.copy2(target, kept)
        return kept

    def _beside(self, target: Path) -> Path:
        return target.parent / f"{_PASSING}{os.getpid()}-{len(self._waiting)}-{len(self._kept)}.part"


def _refuse_special(target: Path) -> None:
    """A folder, a device or a pipe is not written over."""
    with contextlib.suppress(FileNotFoundError):
        mode = target.stat().st_mode
        if stat.S_ISDIR(mode):
            raise IsADirectoryError(errno.EISDIR, "is a folder", str(target))
        if not stat.S_ISREG(mode):
            raise BadInput(f"{target} cannot be written: it is not an ordinary file.")


def _opened(path: Path) -> BufferedWriter:
    """A new file at ``path``; one left over from a run that was cut short goes first."""
    path.unlink(missing_ok=True)
    return path.open("xb")
