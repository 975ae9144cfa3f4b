"""What is told of a part, and of a number, when it is pressed: its card, and its working."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from starlette.responses import HTMLResponse, PlainTextResponse, Response
from starlette.routing import Route

from joinlay.bench.inked import inked
from joinlay.boards import Axis, Surface
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.jobs.working import numbers_of, working_of
from joinlay.lengths import Fraction
from joinlay.pictures.part_picture import surface_picture
from joinlay.pictures.picture import scales_of
from joinlay.settings.wording import cut_words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from markupsafe import Markup
    from starlette.requests import Request

    from joinlay.bench.application import Desk
    from joinlay.boards import Board
    from joinlay.jobs.plan import Plan
    from joinlay.jobs.working import WorkingLine

__all__ = ["card_routes", "line_written"]

_SIZES: Final = ((Axis.ALONG, "length"), (Axis.ACROSS, "width"), (Axis.INTO, "thickness"))
#: How wide a face is drawn at most, in mm on paper.
_WIDE: Final = Fraction(120)


def card_routes(answered: Callable[[Callable[[Desk, Request], Response]], Any]) -> list[Route]:
    """Where the cards are to be had: ``/part`` and ``/why``, each by ``name``."""
    return [Route("/part", answered(_part_card)), Route("/why", answered(_why_card))]


# -- a number ----------------------------------------------------------------------------------------


def _why_card(desk: Desk, request: Request) -> Response:
    """The working of a number, each line leading on, down to the line in the job."""
    plan, name = desk.showing.seen().plan, request.query_params.get("name", "")
    size = numbers_of(plan).get(name) if plan else None
    if plan is None or size is None:
        return PlainTextResponse("There is no such number in the job as it is now.", 404)

    def line(step: WorkingLine) -> int:
        return line_written(step.size.origin, desk.draft.path.name)

    return HTMLResponse(desk.html("why.html", step=working_of(size, plan.rule), line=line))


def line_written(origin: str, file: str) -> int:
    """The line of the job's own ``file`` that an ``origin`` (``print-chest.toml:61``) names; 0 where it is none of it."""
    place, _, line = origin.rpartition(":")
    return int(line) if place == file and line.isdecimal() else 0


# -- a part ------------------------------------------------------------------------------------------


def _part_card(desk: Desk, request: Request) -> Response:
    """A part: its sizes, wood, where it is joined, how it is cut, its line in the cutting list, and each face that has cuts."""
    plan, name = desk.showing.seen().plan, request.query_params.get("name", "")
    board = next((one for one in plan.boards if one.name == name), None) if plan else None
    if plan is None or board is None:
        return PlainTextResponse("There is no such part in the piece as it is now.", 404)
    row = next((row for row in cutting_list(plan).rows if board.name in row.names), None)
    return HTMLResponse(
        desk.html(
            "part.html",
            board=board,
            sizes=[(word, plan.rule.text(board.size(axis)), board.size(axis).name) for axis, word in _SIZES],
            row=row,
            joined=tuple(_joined(board, plan)),
            cuts=tuple(_cuts(board, plan)),
            cards=[(card.number, cut_words(card)) for card in plan.settings.settings if board.name in card.board_names],
            faces=tuple(_faces(board, plan)),
        )
    )


def _joined(board: Board, plan: Plan) -> Iterator[tuple[str, str]]:
    """What it is joined to, each once, and how it is held there."""
    met: dict[str, str] = {}
    for meeting in plan.meetings:
        if meeting.tie.is_fixed and board.role in (meeting.one, meeting.other):
            other = meeting.other if meeting.one == board.role else meeting.one
            met.setdefault(other.name, meeting.tie.value)
    yield from met.items()


def _cuts(board: Board, plan: Plan) -> Iterator[tuple[str, str, tuple[tuple[str, str, str], ...]]]:
    """Each cut: its name, the surface it is in, and where it begins and ends along, across and into the board."""
    for cut in board.cuts:
        spans = [(word, cut.span(axis)) for axis, word in zip(Axis, ("along", "across", "into"), strict=True)]
        figures = tuple((word, plan.rule.text(span.start), plan.rule.text(span.stop)) for word, span in spans)
        yield cut.name, board.datum.word(cut.surface), figures


def _faces(board: Board, plan: Plan) -> Iterator[tuple[str, Markup]]:
    """The reference face, and every other surface that a cut opens in, seen square on at one scale."""
    scales = scales_of(plan.unit)
    scale = next((one for one in scales if board.length.mm * one.factor <= _WIDE), scales[-1])
    opened = {cut.surface for cut in board.cuts} | {Surface.FACE}
    for n, surface in enumerate(one for one in Surface if one in opened):
        said = board.datum.word(surface)
        strokes = surface_picture(board, surface, scale)
        yield said, inked(strokes, f"{board.name}, {said}", f"Drawn {scale.text} on paper.", f"face-{n}")
