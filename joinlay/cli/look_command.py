"""``joinlay look``: the page at the bench, shown in the browser of this computer until it is stopped."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from joinlay.cli.terminal import say

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["look_at"]


def look_at(path: Path, port: int) -> None:
    """Show the job at ``path`` in the browser until Ctrl+C. Raises BadInput for a job that can't be read, and a port that is taken."""
    from joinlay.bench import serve

    said = "{} is open at\n\n  {}\n\nOpen it in a browser on this computer; Ctrl+C stops."
    # To stop it is how it is meant to end.
    with contextlib.suppress(KeyboardInterrupt):
        serve(path, port, lambda address: say(said.format(path, address)))
