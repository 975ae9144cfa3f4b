"""The page on this computer: a port that is free, an address that is shown, and an end as soon as it is asked for."""

from __future__ import annotations

import gc
import socket
from contextlib import ExitStack
from dataclasses import replace
from typing import TYPE_CHECKING, Final

import uvicorn

from joinlay.bench.application import Desk, application, sheets
from joinlay.bench.draft import Draft
from joinlay.bench.guard import Guard
from joinlay.bench.machine import Machine
from joinlay.bench.paper_making import PaperMaking
from joinlay.bench.showing import Showing
from joinlay.errors import BadInput

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from starlette.types import ASGIApp

    from joinlay.jobs.job import Job
    from joinlay.pages import Printer

    OnPrinter = Callable[[Job], tuple[Job, Printer | None]]

__all__ = ["LOOPBACK", "desk_for", "serve", "server_of"]

#: This computer, and nothing else.
LOOPBACK: Final = "127.0.0.1"


def desk_for(path: Path, port: int, token: str | None = None, on_printer: OnPrinter = lambda job: (job, None)) -> Desk:
    """All that the page of the job at ``path`` works with, to be answered at ``port``. Raises BadInput where the job can't be
    read.

    ``on_printer`` gives a job on the paper of the printer it names, and that printer; without it, printers are taken at their
    word.
    """
    draft = Draft(path)
    guard = Guard({f"{name}:{port}" for name in (LOOPBACK, "localhost")}, token)
    showing = Showing(draft)
    return Desk(draft, showing, guard, sheets(), Machine(path, showing.may_read), PaperMaking(on_printer))


def serve(path: Path, port: int, show: Callable[[str, str], None], on_printer: OnPrinter, share_at: str | None = None) -> None:
    """Answer for the job at ``path`` until it is stopped with Ctrl+C; the address is given to ``show`` once it can be opened.

    ``port`` 0 is any that is free; ``on_printer`` as for ``desk_for``. With ``share_at``, this computer's address on the local
    network ('' to find it), the page at the machine answers there too, and ``show`` is given that address as well, else ''.
    Raises BadInput where the job can't be read, the port is another's, or there is no such address.
    """
    with _bound(port) as listening, ExitStack() as beside:
        taken = listening.getsockname()[1]
        desk = desk_for(path, taken, on_printer=on_printer)
        if share_at is not None:
            from joinlay.bench.sharing import Shared, local_address

            shared = Shared(desk, share_at or local_address())
            beside.callback(shared.stop)
            desk = replace(desk, shared=shared.address)
        # It lives long, so rubbish is looked for; but never among what is fetched once, and seldom, since to look takes longer
        # than to draw.
        gc.freeze()
        gc.set_threshold(50_000, 20, 40)
        show(f"http://{LOOPBACK}:{taken}/", desk.shared)
        server_of(application(desk)).run(sockets=[listening])


def server_of(answers: ASGIApp) -> uvicorn.Server:
    """What serves ``answers`` to a maker's own browsers: it says nothing in the terminal, nor who it is to anybody."""
    return uvicorn.Server(
        uvicorn.Config(
            answers,
            log_level="critical",
            access_log=False,
            lifespan="off",
            ws="none",
            server_header=False,
            timeout_graceful_shutdown=1,
            timeout_keep_alive=30,
            limit_concurrency=64,
        )
    )


def _bound(port: int) -> socket.socket:
    listening = socket.socket()
    listening.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
    try:
        listening.bind((LOOPBACK, port))
        listening.listen()
    except (OSError, OverflowError):
        listening.close()
        raise BadInput(f"port {port} is taken or can't be had; name another, or none, and a free one is found.") from None
    return listening
