"""Paper from the page: made by what makes it for ``joinlay make``, with the same bytes, in the background, told of and stopped.

The browser never prints a template itself: it fits pages to its paper, by its own idea of a margin, and what is off by a hair is
no template. It is given the same PDF as is written into the folder. Nothing is written here: what was made is held until the next
is made, each file by itself and all of them in one archive.
"""

from __future__ import annotations

import zipfile
from dataclasses import replace
from io import BytesIO
from pathlib import PurePath
from threading import Lock, Thread
from typing import TYPE_CHECKING, Any, Final

from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.documents.dxf import refuse_without_dxf
from joinlay.documents.job_files import AGAIN, STEPS, job_files
from joinlay.documents.mending import tried
from joinlay.documents.model import refuse_without_model
from joinlay.documents.wanted_sheets import CHAPTERS, EVERYTHING, LEAN, Wanted, chapters_called
from joinlay.errors import BadInput, JoinlayError
from joinlay.jobs.known import Known
from joinlay.jobs.planning import plan
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from starlette.requests import Request

    from joinlay.bench.application import Desk, Form
    from joinlay.documents.job_file import JobTexts
    from joinlay.jobs.job import Job
    from joinlay.pages import Printer

__all__ = ["Lot", "PaperMaking", "archive", "chapters", "paper_changes", "paper_routes"]

_KINDS: Final = {
    ".pdf": "application/pdf",
    ".svg": "image/svg+xml",
    ".csv": "text/csv; charset=utf-8",
    ".json": "application/json",
    ".dxf": "image/vnd.dxf",
    ".glb": "model/gltf-binary",
    ".zip": "application/zip",
}
#: When a file in the archive was made, so that the same files give the same bytes: the first day it can tell.
_LONG_AGO: Final = (1980, 1, 1, 0, 0, 0)


class _Stopped(Exception):
    """It was stopped before it was done."""


@dataclass(frozen=True, slots=True)
class Made:
    """How the making stands: the ``step`` it is at ('' where nothing is being made), its number ``at``, what went ``wrong``,
    the ``files`` made.
    """

    step: str = ""
    at: int = 0
    wrong: str = ""
    files: Mapping[str, bytes] | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """What is to be made: one ``chapter``, or what is for one ``part``; else the packet and its files, with ``is_all`` what is
    only looked at too.

    With ``is_dxf`` each template as DXF too, with ``is_model`` a model to turn about.
    """

    chapter: str = ""
    part: str = ""
    is_all: bool = False
    is_dxf: bool = False
    is_model: bool = False


class PaperMaking:
    """Makes paper of a job in the background, one lot at a time; what is begun anew puts an end to what was being made."""

    def __init__(self, on_printer: Callable[[Job], tuple[Job, Printer | None]]) -> None:
        """Make it for the printer that ``on_printer`` finds for a job."""
        self._on_printer, self._lock = on_printer, Lock()
        self._number, self.stands = 0, Made()

    def begin(self, texts: JobTexts, lot: Lot) -> Thread:
        """Make ``lot`` of the job of ``texts``. Raises BadInput, before anything is worked out, where what writes it isn't
        installed.
        """
        if lot.is_dxf:
            refuse_without_dxf()
        if lot.is_model:
            refuse_without_model()
        with self._lock:
            self._number += 1
            number = self._number
            self.stands = Made("reading the job")
        worker = Thread(target=self._make, args=(number, texts, lot), daemon=True)
        worker.start()
        return worker

    def stop(self) -> None:
        """What is being made is not wanted."""
        with self._lock:
            self._number += 1
            self.stands = Made()

    def _tell(self, number: int, stands: Made) -> None:
        with self._lock:
            if number != self._number:
                raise _Stopped
            self.stands = stands

    def _make(self, number: int, texts: JobTexts, lot: Lot) -> None:
        wrong = "it broke off by a fault of the program; joinlay make says more of it."
        try:
            files = self._files(number, texts, lot)
            self._tell(number, Made(files=files))
            wrong = ""
        except _Stopped:
            wrong = ""
        except JoinlayError as bad:
            wrong = str(bad)
        finally:
            # Whatever happens, the page doesn't wait for ever.
            if wrong:
                self._end(number, wrong)

    def _end(self, number: int, wrong: str) -> None:
        with self._lock:
            if number == self._number:
                self.stands = Made(wrong=wrong)

    def _files(self, number: int, texts: JobTexts, lot: Lot) -> Mapping[str, bytes]:
        job, printer = self._on_printer(texts.job())
        known = Known()
        worked_out = tried(texts, plan(job, known), known)
        if worked_out.is_refused:
            raise BadInput("something in the job is refused, so nothing is made of it; see what was found.")

        def step(word: str) -> None:
            self._tell(number, Made(word, STEPS.index(word) + 1))

        if not lot.chapter and not lot.part:
            wanted = EVERYTHING if lot.is_all else LEAN
            return job_files(worked_out, printer, wanted, step, is_dxf=lot.is_dxf, is_model=lot.is_model)[0]
        from joinlay.documents.packet import packet_for

        step(STEPS[0])
        packet = packet_for(worked_out, printer, Wanted(chapters=chapters_called([lot.chapter])) if lot.chapter else LEAN)
        sheets = packet.sheets if lot.chapter else packet.sheets_for({lot.part})
        if not sheets:
            raise BadInput(f"there is no sheet of that for this job{', since it has no template' if lot.part else ''}.")
        return {AGAIN: packet.pdf(sheets)}


def archive(files: Mapping[str, bytes]) -> bytes:
    """``files`` as one archive (ZIP, as it is registered: application/zip); the same files give the same bytes."""
    made = BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as packed:
        for name, content in files.items():
            packed.writestr(zipfile.ZipInfo(name, _LONG_AGO), content, zipfile.ZIP_DEFLATED)
    return made.getvalue()


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
        is_all, is_dxf, is_model = (form.text(name) == "yes" for name in ("all", "dxf", "model"))
        desk.paper.begin(texts, Lot(form.text("chapter"), form.text("part"), is_all=is_all, is_dxf=is_dxf, is_model=is_model))
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
    return HTMLResponse(desk.html("made.html", made=desk.paper.stands, steps=len(STEPS), archive=desk.archive))


def _file(desk: Desk, request: Request) -> Response:
    """One of the files that were made, by its name among them; or all of them in one."""
    name, files = request.path_params["name"], desk.paper.stands.files or {}
    content = archive(files) if files and name == desk.archive else files.get(name)
    if content is None:
        return PlainTextResponse("That was not made, or something else was made since.", 404)
    kind = _KINDS.get(PurePath(name).suffix.casefold(), "application/octet-stream")
    plain = "".join(one if one.isascii() and (one.isalnum() or one in ".-_") else "_" for one in name)
    return Response(content, media_type=kind, headers={"Content-Disposition": f'attachment; filename="{plain}"'})
