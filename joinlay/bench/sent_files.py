"""The files that are sent as they stand: style, script, letters. Nothing is sent that isn't in this table."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Final

from starlette.responses import Response
from starlette.routing import Route

if TYPE_CHECKING:
    from collections.abc import Iterator

    from starlette.requests import Request

__all__ = ["file_routes"]

_HERE: Final = Path(__file__).parent
_FONTS: Final = _HERE.parent / "documents" / "fonts"

#: What is sent: its file, its type, and how it is packed.
_SENT: Final[dict[str, tuple[Path, str, str]]] = {
    "bench.css": (_HERE / "static" / "bench.css", "text/css; charset=utf-8", ""),
    "bench.js": (_HERE / "static" / "bench.js", "text/javascript; charset=utf-8", ""),
    "machine.css": (_HERE / "static" / "machine.css", "text/css; charset=utf-8", ""),
    "machine.js": (_HERE / "static" / "machine.js", "text/javascript; charset=utf-8", ""),
    "icon.svg": (_HERE / "static" / "icon.svg", "image/svg+xml", ""),
    "htmx.min.js": (_HERE / "static" / "htmx.min.js.gz", "text/javascript; charset=utf-8", "gzip"),
    "letters.ttf": (_FONTS / "DejaVuSans.ttf", "font/ttf", ""),
    "letters-bold.ttf": (_FONTS / "DejaVuSans-Bold.ttf", "font/ttf", ""),
}


def file_routes(base: str = "") -> Iterator[Route]:
    """A route to each of the files, below ``base``, where pages look for them: ``/static/bench.css``."""
    return (_route(base, name, *where) for name, where in _SENT.items())


def _route(base: str, name: str, path: Path, kind: str, packed: str) -> Route:
    headers = {"Cache-Control": "max-age=86400" if packed or kind.startswith("font") else "no-cache"}
    if packed:
        headers["Content-Encoding"] = packed

    def endpoint(request: Request) -> Response:
        del request
        return Response(path.read_bytes(), media_type=kind, headers=headers)

    return Route(f"{base}/static/{name}", endpoint)
