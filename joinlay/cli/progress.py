"""A bar for what takes over a second, on a terminal only; what is quicker, or read by a program, shows none."""

from __future__ import annotations

import sys
from threading import Lock, Timer
from typing import TYPE_CHECKING, Final, Self

if TYPE_CHECKING:
    from typing import TextIO

__all__ = ["Progress"]

_WIDE: Final = 24


class Progress:
    """A bar of so many ``steps``. It appears ``after`` a second, even in the midst of a step, and leaves no trace."""

    def __init__(self, steps: int, stream: TextIO | None = None, after: float = 1.0) -> None:
        """Make ready; nothing is shown yet."""
        self._steps, self._done, self._word = steps, 0, ""
        self._stream = sys.stderr if stream is None else stream
        self._lock, self._is_shown = Lock(), False
        self._timer = Timer(after, self._appear)
        self._timer.daemon = True

    def __enter__(self) -> Self:
        """Start the clock, where somebody is there to see."""
        if self._stream.isatty():
            self._timer.start()
        return self

    def __exit__(self, *_: object) -> None:
        """Wipe the bar away."""
        self._timer.cancel()
        with self._lock:
            if self._is_shown:
                self._stream.write("\r\x1b[K")
                self._stream.flush()
            self._is_shown = False

    def step(self, word: str) -> None:
        """The next step begins, called ``word``."""
        with self._lock:
            self._done, self._word = (self._done + 1 if self._word else 0), word
            self._draw()

    def _appear(self) -> None:
        with self._lock:
            self._is_shown = True
            self._draw()

    def _draw(self) -> None:
        if self._is_shown:
            full = _WIDE * self._done // self._steps
            self._stream.write(f"\r\x1b[K[{'#' * full}{'.' * (_WIDE - full)}] {self._word}")
            self._stream.flush()
