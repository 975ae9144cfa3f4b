"""Work given to a second core: a process split off from this one does it, while this one goes on with the rest.

The problem: most of a packet is drawn by reckoning, and Python reckons on one core only, where every machine has two or more.

How it works: the process is split in two (``fork``), so that the second knows everything that was read and planned without being
told any of it. The works lie in one pile, and either process takes the next from the top: the second at once, the first when it
needs a result that isn't there yet, rather than wait. What the second makes comes through a pipe, as ``pickle`` has it. Whatever
goes wrong there (no process is to be had, it is killed, it has no memory left, a result can't be sent), the work is done in the
first when its result is asked for; so what a work raises is raised there, by doing it. Whoever does it, a result is the same, and
so are the bytes made of it.

What it costs: some 10 ms to split, and 25 ms to send and take the three thousand strokes of a piece.

What it can't do: it isn't done where other threads run (the page at the bench; the bar in a terminal, before which it begins): a
lock that one of them holds would never be let go in the second process; nor where the system has no ``fork`` or, on macOS, only
one that its own libraries don't bear; nor where but one core may be used. Everything is then done in the first. A work must not
read what the first changes later, and says nothing: its output is closed. When the first is killed outright, the second learns
of it as it sends its next result, and ends.
"""

from __future__ import annotations

import gc
import os
import pickle
import signal
import sys
import threading
from contextlib import suppress
from typing import TYPE_CHECKING, Any, Final, NoReturn, Self, TypeVar, cast

if TYPE_CHECKING:
    from collections.abc import Callable

__all__ = ["SecondCore", "has_second_core"]

_T = TypeVar("_T")

#: The length of a result stands before it in so many bytes.
_LENGTH: Final = 8
#: A pipe holds so many bytes where the system lets it, so that the second process needn't wait to be listened to.
_HELD: Final = 1 << 20


def has_second_core() -> bool:
    """Whether this process may be split, and the two would run side by side."""
    if not hasattr(os, "fork") or sys.platform == "darwin" or threading.active_count() > 1:
        return False
    cores = len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
    return cores > 1


class SecondCore:
    """Works to be shared with a second process once that has begun; where it never begins, or fails, all are done here.

    Used in a ``with``, at whose end the second process is gone, whatever happened.
    """

    def __init__(self) -> None:
        """Nothing is given, and no process there."""
        self._works: list[Callable[[], object]] = []
        self._found: dict[int, object] = {}
        #: How many of the works are shared, and which have been begun here.
        self._shared = 0
        self._begun: set[int] = set()
        self._process: int | None = None
        self._pile = self._sent = -1

    def __enter__(self) -> Self:
        """Itself."""
        return self

    def __exit__(self, *_: object) -> None:
        """No process stays behind."""
        self.end()

    def give(self, work: Callable[[], _T]) -> Callable[[], _T]:
        """Put ``work`` under those given before it; what comes back gives its result, the same however often it is asked for.

        A work that is given once the second process has begun is done by the first, when there is nothing to do but to wait, or
        when it is asked for. What ``work`` raises is raised by asking, each time.
        """
        number = len(self._works)
        self._works.append(work)

        def result() -> _T:
            while number not in self._found and self._process is not None:
                self._go_on()
            if number not in self._found:
                self._found[number] = work()
            return cast("_T", self._found[number])

        return result

    def begin(self) -> None:
        """Split the process off, where that can be done; to it goes what has been given by now."""
        if self._process is not None or not self._works or not has_second_core():
            return
        # Neither process looks for rubbish in what both have, which would only copy it.
        gc.freeze()
        # A break from the keyboard goes to both; it waits until the second knows how to take it.
        signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
        try:
            self._split()
        except OSError:
            self.end()
        finally:
            signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})

    def end(self) -> None:
        """End the second process, if it is there still; what it hasn't sent is done here when it is asked for."""
        process, ends = self._process, (self._pile, self._sent)
        self._process, self._pile, self._sent = None, -1, -1
        for end in ends:
            if end >= 0:
                os.close(end)
        if process is not None:
            with suppress(OSError):
                os.kill(process, signal.SIGKILL)
            with suppress(OSError):
                os.waitpid(process, 0)

    def _split(self) -> None:
        self._pile, put = os.pipe()
        self._shared = len(self._works)
        # One byte for each work: to read one is to take it, no two can read the same, and at its end none is left.
        with os.fdopen(put, "wb") as pile:
            pile.write(bytes(range(self._shared)))
        self._sent, sent = os.pipe()
        try:
            process = os.fork()
            if process == 0:
                self._second(sent)
            self._process = process
        finally:
            os.close(sent)

    def _go_on(self) -> None:
        """Do the next work that nobody has taken, or one of this process's own; where there is none left, wait for what the
        second sends.
        """
        number = self._taken()
        if number is None:
            number = next((n for n in range(self._shared, len(self._works)) if n not in self._begun), None)
        if number is not None:
            self._begun.add(number)
        try:
            if number is None:
                number, result = _read(self._sent)
            else:
                result = self._works[number]()
        except Exception:
            # A work that fails fails again when its own result is asked for, and says why.
            if number is None:
                self.end()
        else:
            self._found[number] = result

    def _taken(self) -> int | None:
        """The number of the next work on the pile, which is this process's from now on; None where there is none left."""
        number = os.read(self._pile, 1)
        return number[0] if number else None

    def _second(self, sent: int) -> NoReturn:
        """What the second process does: works, as long as there are any. Nothing of the first is done or said twice."""
        try:
            # Where the first was begun to heed no break, neither does the second.
            if signal.getsignal(signal.SIGINT) is not signal.SIG_IGN:
                signal.signal(signal.SIGINT, signal.SIG_DFL)
            signal.pthread_sigmask(signal.SIG_UNBLOCK, {signal.SIGINT})
            gc.disable()
            os.close(self._sent)
            nowhere = os.open(os.devnull, os.O_RDWR)
            for stream in range(3):
                os.dup2(nowhere, stream)
            _widen(sent)
            with os.fdopen(sent, "wb") as pipe:
                while (number := self._taken()) is not None:
                    result = pickle.dumps((number, self._works[number]()), pickle.HIGHEST_PROTOCOL)
                    pipe.write(len(result).to_bytes(_LENGTH, "big"))
                    pipe.write(result)
                    pipe.flush()
            os._exit(0)
        finally:
            os._exit(1)


def _read(pipe: int) -> tuple[int, Any]:
    """The next result that comes, whole, and the number of its work. EOFError where it ends before that."""
    length = int.from_bytes(_bytes(pipe, _LENGTH), "big")
    found: tuple[int, Any] = pickle.loads(_bytes(pipe, length))
    return found


def _bytes(pipe: int, many: int) -> bytes:
    read: list[bytes] = []
    while many:
        read.append(os.read(pipe, min(many, _HELD)))
        if not read[-1]:
            raise EOFError
        many -= len(read[-1])
    return b"".join(read)


def _widen(pipe: int) -> None:
    """Let ``pipe`` hold more at once, where the system has a way to say so."""
    import fcntl

    size: Any = getattr(fcntl, "F_SETPIPE_SZ", None)
    if size is not None:
        with suppress(OSError):
            fcntl.fcntl(pipe, size, _HELD)
