"""The job's text while it is being written: as it stands in the file, as it is in hand, and everything it was before.

The file is the one truth. What is in hand is kept in it with ``keep()``, whole and beside first; what somebody else wrote there
is followed, and where both have changed neither is lost: the page asks, and the one that isn't taken stays among what can be
undone.

Texts here have plain line ends; the file keeps those it has, and its mark of UTF-8.
"""

from __future__ import annotations

import time
from threading import RLock
from typing import TYPE_CHECKING, Final

from joinlay.documents.job_file import text_of
from joinlay.documents.writing import write_whole
from joinlay.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

__all__ = ["Draft"]

#: What a file begins with that some editors write before UTF-8.
_MARK: Final = b"\xef\xbb\xbf"
#: What is typed within so many seconds is undone together.
_TOGETHER: Final = 1.0
#: The most letters of former texts that are kept, all together.
_MOST_KEPT: Final = 8_000_000


class Draft:
    """The text of the job at ``path``: ``text`` in hand, ``kept`` in the file, and ``theirs``, what somebody else wrote there
    meanwhile.

    ``theirs`` is None unless there is to be asked which goes on. ``revision`` goes up with every change, ``news`` with every one
    that wasn't typed. ``trouble`` is what keeps the file from being read, '' for nothing. Safe to use from several threads at
    once. Raises BadInput where the job can't be read to begin with.
    """

    def __init__(self, path: Path, now: Callable[[], float] = time.monotonic) -> None:
        """Read the job at ``path``; ``now`` is the clock that what is typed together goes by."""
        self.path, self.lock, self._now = path, RLock(), now
        self.revision, self.news, self.trouble = 0, 0, ""
        self.theirs: str | None = None
        self.kept = _plain(text_of(path))
        self._seen = self._stamp()
        self._texts, self._at = [self.kept], 0
        self._typed: tuple[str, float] | None = None
        self._last_from = ""

    @property
    def text(self) -> str:
        """The text in hand."""
        return self._texts[self._at]

    @property
    def is_unkept(self) -> bool:
        """Whether what is in hand differs from what the file has."""
        return self.text != self.kept

    @property
    def can_undo(self) -> bool:
        """Whether there is something before what is in hand."""
        return self._at > 0

    @property
    def can_redo(self) -> bool:
        """Whether something was undone that can be had back."""
        return self._at < len(self._texts) - 1

    # -- writing --------------------------------------------------------------------------------------

    def write(self, text: str, by: str, revision: int | None = None) -> bool:
        """Take ``text`` in hand, typed in the window called ``by``; False where that window hasn't seen what another wrote since
        ``revision``.

        What one window types in a breath is undone together.
        """
        with self.lock:
            text = _plain(text)
            if revision is not None and revision != self.revision and by != self._last_from:
                return text == self.text
            if text == self.text:
                return True
            now = self._now()
            is_going_on = self._typed is not None and self._typed[0] == by and now - self._typed[1] < _TOGETHER
            if is_going_on and not self.can_redo and self._at:
                self._texts[self._at] = text
                self.revision += 1
            else:
                self._put(text)
            self._typed, self._last_from = (by, now), by
            return True

    def put(self, text: str) -> None:
        """Take ``text`` in hand as one step of its own, such as a mend."""
        with self.lock:
            text = _plain(text)
            if text != self.text:
                self._put(text)
            self._typed, self._last_from = None, ""
            self.news += 1

    def is_from(self, by: str) -> bool:
        """Whether the window called ``by`` typed what is in hand."""
        return by != "" and by == self._last_from

    def undo(self) -> None:
        """Take the text before in hand; nothing where there is none."""
        self._go(-1)

    def redo(self) -> None:
        """Take in hand what was undone last; nothing where that is nothing."""
        self._go(1)

    def _go(self, step: int) -> None:
        with self.lock:
            if 0 <= self._at + step < len(self._texts):
                self._at += step
                self.revision += 1
                self.news += 1
            self._typed, self._last_from = None, ""

    def _put(self, text: str) -> None:
        self._texts[self._at + 1 :] = [text]
        self._at += 1
        self.revision += 1
        while self._at > 1 and sum(map(len, self._texts)) > _MOST_KEPT:
            del self._texts[0]
            self._at -= 1

    # -- the file -------------------------------------------------------------------------------------

    def keep(self) -> None:
        """Write what is in hand into the file, whole or not at all.

        Raises BadInput where the file can't be written, and where somebody else has changed it since: then ``theirs`` is what is
        asked about.
        """
        with self.lock:
            self.follow()
            if self.theirs is not None:
                raise BadInput("the file was changed elsewhere too; choose first which of the two goes on.")
            content = self.text.replace("\n", "\r\n") if self._has_returns else self.text
            write_whole(self.path, (_MARK if self._has_mark else b"") + content.encode())
            self.kept, self._seen, self.trouble = self.text, self._stamp(), ""
            self._typed = None

    def follow(self) -> bool:
        """Look at the file again: True where what is in hand, or what is to be asked about, is another now.

        Where nothing was changed here what somebody wrote there is taken in hand.
        """
        with self.lock:
            stamp = self._stamp()
            if stamp == self._seen:
                return False
            self._seen = stamp
            try:
                found = _plain(text_of(self.path))
            except BadInput as bad:
                self.trouble = str(bad)
                self.news += 1
                return True
            self.trouble = ""
            self.news += 1
            if found == self.kept:
                self.theirs = None
            elif self.is_unkept and found != self.text:
                self.theirs = found
            else:
                self.kept, self.theirs = found, None
                self.put(found)
            return True

    def settle(self, *, is_mine: bool) -> None:
        """Go on with what is in hand, or with ``theirs``; the other one is what undoing comes to. Nothing where there is
        nothing to choose.
        """
        with self.lock:
            if self.theirs is None:
                return
            mine, theirs, self.theirs = self.text, self.theirs, None
            self.kept = theirs
            for text in (theirs, mine) if is_mine else (mine, theirs):
                self.put(text)
            self.revision += 1
            self.news += 1

    def _stamp(self) -> tuple[int, int, int] | None:
        """What tells whether the file is another; None where it isn't there."""
        try:
            found = self.path.stat()
        except OSError:
            return None
        return found.st_mtime_ns, found.st_size, found.st_ino

    @property
    def _has_mark(self) -> bool:
        return self._bytes().startswith(_MARK)

    @property
    def _has_returns(self) -> bool:
        return b"\r\n" in self._bytes()

    def _bytes(self) -> bytes:
        try:
            return self.path.read_bytes()
        except OSError:
            return b""


def _plain(text: str) -> str:
    """``text`` with plain line ends, as a browser has it."""
    return text.replace("\r\n", "\n").replace("\r", "\n")
