"""``joinlay look``: the page at the bench, shown in the browser of this computer until it is stopped."""

from __future__ import annotations

import contextlib
import sys
from pathlib import Path

from joinlay.cli.terminal import say
from joinlay.errors import BadInput

__all__ = ["look_at"]


def look_at(path: Path | None, port: int, at: str, *, is_shared: bool) -> None:
    """Show the job at ``path`` in the browser until Ctrl+C; where none is named, offer to start one.

    ``is_shared``: also at the machine, at this computer's address ``at``, '' to find it. Raises BadInput for a job that can't be
    read, for none where nobody is there to be asked, for a port that is taken, and an address that isn't this computer's.
    """
    if at and not is_shared:
        raise BadInput("--at says where the page is shared; give it with --share.")
    job = _started() if path is None else path
    if job is None:
        return
    from joinlay.bench import serve
    from joinlay.cli.make_command import with_printer

    def show(address: str, shared: str) -> None:
        said = f"{job} is open at\n\n  {address}\n\nOpen it in a browser on this computer; Ctrl+C stops."
        say(f"{said}\n\n{_shared(shared)}" if shared else said)

    # To stop it is how it is meant to end.
    with contextlib.suppress(KeyboardInterrupt):
        serve(job, port, show, lambda read: with_printer(read, job, None), at if is_shared else None)


def _shared(address: str) -> str:
    from joinlay.bench.sharing import qr_lines

    return (
        f"At the machine, on a phone that is on the same network:\n\n  {address}\n\n{qr_lines(address)}\n\n"
        "Whoever has this address can tick off what is done, and nothing else."
    )


def _started() -> Path | None:
    """A job begun in a file whose name is asked for; None where none is wanted."""
    if not _is_answered():
        raise BadInput(f"name the job to look at{_there()}. joinlay start my-chest.toml --piece writes a new one.")
    say(f"No job was named{_there()}. To start one, write a name for its file, such as my-chest.toml; or nothing to leave it:")
    name = sys.stdin.readline().strip()
    if not name:
        return None
    path = Path(name)
    path = path if path.suffix == ".toml" else Path(f"{name}.toml")
    if path.exists():
        return path
    say("In inches or in millimetres? (in or mm)")
    unit = sys.stdin.readline().strip().casefold()
    if unit not in ("in", "mm"):
        raise BadInput(f"{unit!r} is neither in nor mm; nothing was written.")
    from joinlay.cli.starter import write_starter

    write_starter(path, is_metric=unit == "mm", is_piece=True, is_forced=False)
    return path


def _is_answered() -> bool:
    return sys.stdin.isatty() and sys.stdout.isatty()


def _there() -> str:
    """The jobs in this folder, if there are any, in brackets."""
    jobs = sorted(
        path.name for path in Path().glob("*.toml") if path.suffixes[-2:] != [".shop", ".toml"] and path.name != "pyproject.toml"
    )
    return f" (there are {', '.join(jobs[:5])})" if jobs else ""
