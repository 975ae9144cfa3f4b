"""``joinlay look``: the page at the bench, shown in the browser of this computer until it is stopped."""

from __future__ import annotations

import contextlib
from typing import TYPE_CHECKING

from joinlay.cli.terminal import say
from joinlay.errors import BadInput

if TYPE_CHECKING:
    from pathlib import Path

__all__ = ["look_at"]


def look_at(path: Path, port: int, at: str, *, is_shared: bool) -> None:
    """Show the job at ``path`` in the browser until Ctrl+C; ``is_shared`` also at the machine, at this computer's address ``at``, '' to find it.

    Raises BadInput for a job that can't be read, a port that is taken, and an address that isn't this computer's.
    """
    from joinlay.bench import serve

    if at and not is_shared:
        raise BadInput("--at says where the page is shared; give it with --share.")

    def show(address: str, shared: str) -> None:
        said = f"{path} is open at\n\n  {address}\n\nOpen it in a browser on this computer; Ctrl+C stops."
        say(f"{said}\n\n{_shared(shared)}" if shared else said)

    # To stop it is how it is meant to end.
    with contextlib.suppress(KeyboardInterrupt):
        serve(path, port, show, at if is_shared else None)


def _shared(address: str) -> str:
    from joinlay.bench.sharing import qr_lines

    return (
        f"At the machine, on a phone that is on the same network:\n\n  {address}\n\n{qr_lines(address)}\n\n"
        "Whoever has this address can tick off what is done, and nothing else."
    )
