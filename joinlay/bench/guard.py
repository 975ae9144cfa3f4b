"""What is let through to the page: requests that name this computer, come from this page, and are of a size and number a hand can
make.

A page of another site that is open in the same browser can send requests here, and may have a name of its own lead to this
computer. It can't put our address into ``Host`` and ``Origin``, nor read the token that stands in this page; so the three are
asked for. What goes out may run no script but ours, be shown in no frame, and be kept by nobody.
"""

from __future__ import annotations

import hmac
import secrets
import time
from typing import TYPE_CHECKING, Final

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import PlainTextResponse

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator

    from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["LARGEST_BODY", "TOKEN_HEADER", "Guard"]

#: The header that a change brings the token in.
TOKEN_HEADER: Final = "X-Bench-Token"
#: The most bytes that a request brings: a job of a megabyte, its signs spelled for a form.
LARGEST_BODY: Final = 3_200_000
#: Requests that may come at once, and how many more a second.
_AT_ONCE, _A_SECOND = 240, 60

_HEADERS: Final = {
    "Content-Security-Policy": "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; "
    "font-src 'self'; connect-src 'self'; "
    "form-action 'self'; base-uri 'none'; frame-ancestors 'none'",
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    "Referrer-Policy": "no-referrer",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """Stands before the page: answers 400, 403, 413 or 429 itself to what isn't let through.

    ``hosts`` are what ``Host`` may be, with the port (``127.0.0.1:8300``); ``token`` is asked for by every change.
    """

    def __init__(
        self,
        hosts: Collection[str],
        token: str | None = None,
        now: Callable[[], float] = time.monotonic,
        *,
        largest: int = LARGEST_BODY,
    ) -> None:
        """A guard for ``hosts``; a new ``token`` unless told. ``now`` is the clock that requests are counted by."""
        self.hosts = frozenset(hosts)
        self.token = token or secrets.token_urlsafe(16)
        self._now, self._largest = now, largest
        self._left, self._since = float(_AT_ONCE), now()

    def around(self, app: ASGIApp) -> ASGIApp:
        """``app`` with this guard before it."""

        async def guarded(scope: Scope, receive: Receive, send: Send) -> None:
            if scope["type"] != "http":
                if scope["type"] == "lifespan":
                    await app(scope, receive, send)
                return
            headers = Headers(scope=scope)
            refused = self._refused(scope["method"], headers)
            if refused is not None:
                await PlainTextResponse(refused[1], refused[0])(scope, receive, _with_headers(send))
                return
            await app(scope, _at_most(receive, self._largest), _with_headers(send))

        return guarded

    def _refused(self, method: str, headers: Headers) -> tuple[int, str] | None:
        """The status and the words for a request that isn't let through; None for one that is."""
        return next(((status, said) for is_so, status, said in self._faults(method, headers) if is_so), None)

    def _faults(self, method: str, headers: Headers) -> Iterator[tuple[bool, int, str]]:
        """Each fault a request may have, the gravest first: whether this one has it, and what is answered then."""
        hosts = headers.getlist("host")
        yield (
            len(hosts) != 1 or hosts[0].lower() not in self.hosts,
            400,
            "This page answers only to the address that joinlay look showed.",
        )
        origin = headers.get("origin")
        yield (
            origin is not None and origin.lower() not in {f"http://{host}" for host in self.hosts},
            403,
            "This request comes from another page.",
        )
        is_page = headers.get("sec-fetch-mode") == "navigate" and method == "GET"
        is_near = headers.get("sec-fetch-site", "none") in ("same-origin", "none")
        yield not is_near and not is_page, 403, "This request comes from another site."
        yield method not in ("GET", "HEAD", "POST"), 405, "The page reads and changes, nothing else."
        is_ours = hmac.compare_digest(headers.get(TOKEN_HEADER, "").encode(), self.token.encode())
        yield method == "POST" and not is_ours, 403, "This page is from an earlier run of joinlay look. Load it again."
        size = headers.get("content-length", "0")
        yield not size.isdecimal() or len(size) > 12 or int(size) > self._largest, 413, "That is more than a job may hold."
        yield not self._has_time(), 429, "That is more than a hand can ask for. Wait a second."

    def _has_time(self) -> bool:
        now = self._now()
        self._left = min(float(_AT_ONCE), self._left + (now - self._since) * _A_SECOND)
        self._since = now
        self._left -= 1
        if self._left < 0:
            self._left = 0
            return False
        return True


def _with_headers(send: Send) -> Send:
    async def sent(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                headers[name] = value
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return sent


def _at_most(receive: Receive, most: int) -> Receive:
    """What is received, as if it broke off where it is larger than it said or than ``most`` bytes."""
    come = 0

    async def received() -> Message:
        nonlocal come
        message = await receive()
        come += len(message.get("body", b""))
        return {"type": "http.disconnect"} if come > most else message

    return received
