"""What is done and ticked off, kept beside the job: ``print-chest.ticks.json``.

The file has the mark of the plan it was ticked by and, for each tick, the key of its task and words that tell of it. Where the
plan is another now, ticks whose work is the same hold on; the others stay in the file, told as no longer holding, until somebody
takes them out: the wood was cut all the same. Written whole beside and renamed. Safe to use from several threads at once.
"""

from __future__ import annotations

import json
from threading import RLock
from typing import TYPE_CHECKING, Any, Final

from joinlay.documents.json_text import json_text
from joinlay.documents.writing import write_whole
from joinlay.errors import BadInput, on_one_line

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from pathlib import Path

    from joinlay.bench.tasks import Task

__all__ = ["Ticks", "ticks_beside"]

#: A file of more bytes, or of more ticks, is none of ours.
_LARGEST, _MOST = 4_000_000, 20_000
_ABOUT: Final = "what is done of this job, as ticked off at the machine"


def ticks_beside(job: Path) -> Path:
    """Where the ticks of the job at ``job`` are kept."""
    return job.with_name(f"{job.stem}.ticks.json")


class Ticks:
    """The ticks in the file ``path``: ``words`` by key, in the order of ticking. ``revision`` goes up with every change."""

    def __init__(self, path: Path) -> None:
        """Read the ticks at ``path``, none where there is no file. Raises BadInput for a file that is something else."""
        self.path, self.lock, self.revision = path, RLock(), 0
        self.words: dict[str, str] = _read(path)

    def turn(self, changes: Mapping[str, bool], tasks: Iterable[Task], mark: str) -> int:
        """Tick what is True in ``changes``, by key, take the tick from what is False, and write it with the plan's ``mark``.

        Keys of none of ``tasks`` can't be ticked, only taken out; how many were passed over is given. Raises BadInput where the
        file can't be written; then nothing is changed.
        """
        with self.lock:
            known = {task.key: task.words for task in tasks}
            now, strange = dict(self.words), 0
            for key, is_done in changes.items():
                if not is_done:
                    now.pop(key, None)
                elif key in known:
                    now[key] = known[key]
                else:
                    strange += 1
            if now != self.words:
                done = [{"key": key, "what": words} for key, words in now.items()]
                write_whole(self.path, json_text({"about": _ABOUT, "plan_mark": mark, "done": done}).encode())
                self.words = now
                self.revision += 1
            return strange

    def held(self, tasks: Iterable[Task]) -> frozenset[str]:
        """The keys of ``tasks`` that are done."""
        with self.lock:
            return frozenset(task.key for task in tasks if task.key in self.words)

    def lost(self, tasks: Iterable[Task]) -> dict[str, str]:
        """The words, by key, of what was ticked and is none of ``tasks``: done by another plan."""
        with self.lock:
            known = {task.key for task in tasks}
            return {key: words for key, words in self.words.items() if key not in known}


def _read(path: Path) -> dict[str, str]:
    try:
        with path.open("rb") as file:
            content = file.read(_LARGEST + 1)
    except FileNotFoundError:
        return {}
    except OSError as bad:
        raise BadInput(f"{path} cannot be read: {(bad.strerror or str(bad)).lower()}.") from None
    try:
        tree: Any = json.loads(content) if len(content) <= _LARGEST else None
        found = {_text(one["key"]): on_one_line(_text(one["what"])) for one in tree["done"]}
    except (ValueError, KeyError, TypeError, RecursionError):
        found = None
    if found is None or len(found) > _MOST:
        raise BadInput(f"{path} isn't a file of ticks; move it away, or take a copy of the job under another name.")
    return found


def _text(given: object) -> str:
    if not isinstance(given, str) or len(given) > 1000:
        raise TypeError
    return given
