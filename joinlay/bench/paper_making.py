"""Paper from the page: made by what makes it for ``joinlay make``, with the same bytes, in the background, told of and stopped.

The browser never prints a template itself: it fits pages to its paper, by its own idea of a margin, and what is off by a hair is no template. It is
given the same PDF as is written into the folder. Nothing is written here: what was made is held until the next is made.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import PurePath
from threading import Lock, Thread
from typing import TYPE_CHECKING, Any, Final

from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.documents.job_files import AGAIN, STEPS, job_files
from joinlay.documents.mending import tried
from joinlay.documents.packet import packet_for
from joinlay.documents.wanted_sheets import CHAPTERS, EVERYTHING, LEAN, Wanted, chapters_called
from joinlay.errors import BadInput, JoinlayError
from joinlay.jobs.planning import plan
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from starlette.requests import Request

    from joinlay.bench.application import Desk, Form
    from joinlay.documents.job_file import JobTexts
    from joinlay.jobs.job import Job
    from joinlay.pages import Printer

__all__ = ["PaperMaking", "chapters", "paper_changes", "paper_routes"]

_KINDS: Final = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json",
}


class _Stopped(Exception):
    """It was stopped before it was done."""


@dataclass(frozen=True, slots=True)
class Made:
    """How the making stands: the ``step`` it is at ('' where nothing is being made), its number ``at``, what went ``wrong``, the ``files`` made."""

    step: str = ""
    at: int = 0
    wrong: str = ""
    files: Mapping[str, bytes] | None = None


class PaperMaking:
    """Makes paper of a job in the background, one lot at a time; what is begun anew puts an end to what was being made."""

    def __init__(self, on_printer: Callable[[Job], tuple[Job, Printer | None]]) -> None:
        """Make it for the printer that ``on_printer`` finds for a job."""
        self._on_printer, self._lock = on_printer, Lock()
        self._lot, self.stands = 0, Made()

    def begin(self, texts: JobTexts, *, chapter: str = "", part: str = "", is_all: bool = False) -> Thread:
        """Make the packet of the job of ``texts`` and its files, with ``is_all`` whole; or one ``chapter``, or what is for one ``part``."""
        with self._lock:
            self._lot += 1
            lot = self._lot
            self.stands = Made("reading the job")
        worker = Thread(target=self._make, args=(lot, texts, chapter, part), kwargs={"is_all": is_all}, daemon=True)
        worker.start()
        return worker

    def stop(self) -> None:
        """What is being made is not wanted."""
        with self._lock:
            self._lot += 1
            self.stands = Made()

    def _tell(self, lot: int, stands: Made) -> None:
        with self._lock:
            if lot != self._lot:
                raise _Stopped
            self.stands = stands

    def _make(self, lot: int, texts: JobTexts, chapter: str, part: str, *, is_all: bool) -> None:
        try:
            files = self._files(lot, texts, chapter, part, is_all=is_all)
            self._tell(lot, Made(files=files))
        except _Stopped:
            return
        except JoinlayError as bad:
            self._end(lot, str(bad))

    def _end(self, lot: int, wrong: str) -> None:
        with self._lock:
            if lot == self._lot:
                self.stands = Made(wrong=wrong)

    def _files(self, lot: int, texts: JobTexts, chapter: str, part: str, *, is_all: bool) -> Mapping[str, bytes]:
        job, printer = self._on_printer(texts.job())
        worked_out = tried(texts, plan(job))
        if worked_out.is_refused:
            raise BadInput("something in the job is refused, so nothing is made of it; see what was found.")

        def step(word: str) -> None:
            self._tell(lot, Made(word, STEPS.index(word) + 1))

        if not chapter and not part:
            return job_files(worked_out, printer, EVERYTHING if is_all else LEAN, step)[0]
        step(STEPS[0])
        packet = packet_for(worked_out, printer, Wanted(chapters=chapters_called([chapter])) if chapter else LEAN)
        sheets = packet.sheets if chapter else packet.sheets_for({part})
        if not sheets:
            raise BadInput(f"there is no sheet of that for this job{', since it has no template' if part else ''}.")
        return {AGAIN: packet.pdf(sheets)}


# -- on the page -------------------------------------------------------------------------------------


def paper_routes(answered: Callable[[Callable[[Desk, Request], Response]], Any]) -> list[Route]:
    """How the making stands, and each file that was made."""
    return [Route("/made", answered(_made)), Route("/made/{name}", answered(_file))]


def paper_changes(posted: Callable[[Callable[[Desk, Form], Response]], Any]) -> list[Route]:
    """To begin it, and to stop it."""
    return [Route("/make", posted(_begin), methods=["POST"]), Route("/stop", posted(_stop), methods=["POST"])]


def chapters() -> list[tuple[str, str]]:
    """The chapters that can be made by themselves: the word for each, and its heading."""
    return [(kind.word, kind.heading) for kind in CHAPTERS]


def _begin(desk: Desk, form: Form) -> Response:
    try:
        texts = desk.showing.texts()
        desk.paper.begin(texts, chapter=form.text("chapter"), part=form.text("part"), is_all=form.text("all") == "yes")
    except BadInput as bad:
        desk.paper.stop()
        desk.paper.stands = replace(Made(), wrong=str(bad))
    return _stands(desk)


def _stop(desk: Desk, form: Form) -> Response:
    del form
    desk.paper.stop()
    return _stands(desk)


def _made(desk: Desk, request: Request) -> Response:
    del request
    return _stands(desk)


def _stands(desk: Desk) -> Response:
    return HTMLResponse(desk.html("made.html", made=desk.paper.stands, steps=len(STEPS)))


def _file(desk: Desk, request: Request) -> Response:
    """One of the files that were made, by its name among them."""
    name = request.path_params["name"]
    content = (desk.paper.stands.files or {}).get(name)
    if content is None:
        return PlainTextResponse("That was not made, or something else was made since.", 404)
    kind = _KINDS.get(PurePath(name).suffix.casefold(), "application/octet-stream")
    plain = "".join(one if one.isascii() and (one.isalnum() or one in ".-_") else "_" for one in name)
    return Response(content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}"'})
