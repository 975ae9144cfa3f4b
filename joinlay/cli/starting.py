"""``joinlay start``: write a job to fill in."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.cli import words
from joinlay.cli.saying import say
from joinlay.cli.starter import starter_job
from joinlay.documents.writing import write_whole
from joinlay.errors import BadInput
from joinlay.lengths import Unit

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["write_starter"]


def write_starter(path: Path, *, is_metric: bool, is_piece: bool, is_forced: bool) -> None:
    """Write the starter job to ``path``. Raises BadInput where there is something already and it isn't ``is_forced``, or it can't be written."""
    if not is_forced and _is_there(path):
        raise BadInput(words.is_there(path))
    write_whole(path, starter_job(Unit.MM if is_metric else Unit.INCH, is_piece=is_piece).encode())
    say(words.started(path))


def _is_there(path: Path) -> bool:
    """True for anything of that name, a broken link too."""
    try:
        path.lstat()
    except OSError:
        return False
    return True
