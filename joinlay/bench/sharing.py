"""The page at the machine for a phone on the local network: an address that can't be guessed, and nothing but ticks to be
written.

The address has 128 random bits, made anew at each start and gone when it stops; whoever doesn't know it gets 404 for everything.
It is shown as signs to be photographed too (a QR code, ISO/IEC 18004). It answers at the one address of this computer on the
local network, from a thread of its own beside the bench's. The network is taken as the maker's own: what is sent can be read by
whoever listens in on it, as everything that isn't encrypted.
"""

from __future__ import annotations

import hmac
import ipaddress
import secrets
import socket
from threading import Thread
from typing import TYPE_CHECKING, Final

import segno
from starlette.applications import Starlette
from starlette.responses import PlainTextResponse

from joinlay.bench.guard import Guard
from joinlay.bench.machine import machine_routes
from joinlay.bench.sent_files import file_routes
from joinlay.bench.serving import server_of
from joinlay.errors import BadInput

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Receive, Scope, Send

    from joinlay.bench.application import Desk

__all__ = ["Shared", "local_address", "machine_application", "qr_lines", "qr_svg"]

#: The most bytes a request brings: ticks, and nothing larger.
_LARGEST: Final = 400_000
#: A place that is never asked; only which way leads there is looked up (RFC 5737, an address for documents).
_AFAR: Final = ("192.0.2.1", 9)


def local_address() -> str:
    """This computer's address on the local network. Raises BadInput where it is on none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as way:
        try:
            way.connect(_AFAR)  # sends nothing
            found = str(way.getsockname()[0])
        except OSError:
            found = ""
    if not found or ipaddress.ip_address(found).is_loopback:
        raise BadInput("this computer is on no network that a phone could reach it by; join one, or name its address with --at.")
    return found


def machine_application(desk: Desk, hosts: frozenset[str], secret: str) -> ASGIApp:
    """The pages at the machine below ``/secret/``, for requests to one of ``hosts``; 404 for everything else."""
    guard = Guard(hosts, desk.guard.token, largest=_LARGEST)
    inside = Starlette(routes=[*file_routes(), *machine_routes(desk, desk.machine, "")])

    async def behind(scope: Scope, receive: Receive, send: Send) -> None:
        first, slash, rest = str(scope["path"]).lstrip("/").partition("/")
        if not slash or not hmac.compare_digest(first.encode(), secret.encode()):
            await PlainTextResponse("There is nothing here.", 404)(scope, receive, send)
            return
        await inside({**scope, "path": f"/{rest}", "raw_path": b"", "root_path": ""}, receive, send)

    return guard.around(behind)


class Shared:
    """The pages at the machine as they are answered at ``address``, until ``stop()``."""

    def __init__(self, desk: Desk, at: str) -> None:
        """Begin to answer at this computer's address ``at``. Raises BadInput where it can't be had."""
        listening = _bound(at)
        port, secret = listening.getsockname()[1], secrets.token_urlsafe(16)
        host = f"[{at}]:{port}" if ":" in at else f"{at}:{port}"
        self.address = f"http://{host}/{secret}/"
        self._server = server_of(machine_application(desk, frozenset({host}), secret))
        self._thread = Thread(target=self._server.run, kwargs={"sockets": [listening]}, daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """Answer no more."""
        self._server.should_exit = True
        self._thread.join(timeout=3)


def _bound(at: str) -> socket.socket:
    try:
        family = socket.AF_INET6 if ipaddress.ip_address(at).version == 6 else socket.AF_INET
    except ValueError:
        raise BadInput(f"--at: {at!r} is no address of a computer; one looks like 192.168.1.20.") from None
    listening = socket.socket(family)
    try:
        listening.bind((at, 0))
        listening.listen()
    except OSError:
        listening.close()
        raise BadInput(f"--at: {at} is no address of this computer.") from None
    return listening


def qr_lines(address: str) -> str:
    """``address`` as a QR code in letters, two rows of it a line, dark on light wherever it is shown with its light margin."""
    rows = [[bool(sign) for sign in row] for row in segno.make(address, error="m", micro=False).matrix_iter(border=3)]
    rows += [[False] * len(rows[0])] * (len(rows) % 2)
    signs = {(False, False): "█", (False, True): "▀", (True, False): "▄", (True, True): " "}
    return "\n".join(
        "".join(signs[pair] for pair in zip(upper, lower, strict=True))
        for upper, lower in zip(rows[::2], rows[1::2], strict=True)
    )


def qr_svg(address: str) -> str:
    """``address`` as a QR code in SVG, to stand in a page."""
    code: str = segno.make(address, error="m", micro=False).svg_inline(
        scale=6,
        border=4,
        dark="#000",
        light="#fff",
        title="The address as a QR code",
        svgclass="code",
        lineclass=None,
        omitsize=False,
    )
    return code
