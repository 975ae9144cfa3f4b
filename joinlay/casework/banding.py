"""Edge banding: which edges, in which order, the core that is cut and the lengths of band (EB-1 to EB-3).

What is thicker than any banding is lipping: solid wood sawn for it, a little wider than the edge is thick, and planed flush
(EB-4).
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Band, CutUse, Surface
from joinlay.errors import BadInput
from joinlay.findings import note, refusal, warning
from joinlay.lengths import BadSize
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board, Cut
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Length
    from joinlay.shop import Practice

__all__ = ["EDGES", "Banding", "band_board", "core_size"]

#: Ends first, then the long edges lapping over them (EB-1).
EDGES = (Surface.END, Surface.FAR_END, Surface.EDGE, Surface.FAR_EDGE)


@dataclass(frozen=True, slots=True)
class Banding:
    """Banding of one kind: the name of its ``stock``, its ``thickness``, and the ``surfaces`` it goes on, in the order of
    gluing.
    """

    stock: str
    thickness: Dimension
    surfaces: tuple[Surface, ...] = EDGES

    def __post_init__(self) -> None:
        """Refuse faces, an edge named twice, and bands of zero or less."""
        if self.thickness.mm <= 0:
            raise BadSize("banding {stock} is {size} thick; it must be more than 0.", stock=self.stock, size=self.thickness)
        faces = [s.value for s in self.surfaces if s.axis is Axis.INTO]
        if faces or len(set(self.surfaces)) != len(self.surfaces) or not self.surfaces:
            raise BadInput(
                f"banding {self.stock} goes on edges and ends, each once; it was given {[s.value for s in self.surfaces]}."
            )


def band_board(board: Board, bandings: Sequence[Banding], practice: Practice) -> tuple[Board, tuple[Finding, ...]]:
    """``board``, whose sizes stay the finished ones, with its bands; and what was found.

    EB-1: the bands go on in the order given; each is as long as the edge as it then is: the core and the bands already glued at
    its two ends. EB-3: with trim at both ends. EB-4: how wide a lipping is sawn, and how it is put on. Bands thinner than
    ``banding worth counting`` are noted as ones that may be left out of the core's size. Source: common practice. Raises BadInput
    for an edge banded twice, Refused where no core is left.
    """
    turns = [(surface, banding) for banding in bandings for surface in banding.surfaces]
    on = [surface for surface, _ in turns] + [band.surface for band in board.bands]
    twice = next((surface for surface in on if on.count(surface) > 1), None)
    if twice is not None or board.bands:
        what = f"its {board.datum.word(twice)} is banded twice" if twice else "it is banded already"
        raise BadInput(f"{board.name}: {what}; name all of a part's bands at once, each edge once.")
    bands = []
    for n, (surface, banding) in enumerate(turns):
        covered = _covered(board, surface, turns[n + 1 :])
        length = (covered + 2 * practice.length("banding trim")).named(
            f"{board.name} band length, {board.datum.word(surface)}", "EB-3", "common practice"
        )
        bands.append(Band(surface, banding.stock, banding.thickness, length, n + 1, _sawn_width(board, banding, practice)))
    banded = replace(board, bands=tuple(bands))
    for axis in (Axis.ALONG, Axis.ACROSS):
        _refuse_no_core(banded, axis)
    lipped = [band for band in bands if band.width is not None]
    thin = (f for banding in bandings for f in _thin(board, banding, practice))
    return banded, (*thin, *_cut_through(banded), *_lipped(board, lipped, practice))


def core_size(board: Board, axis: Axis) -> Dimension:
    """What to cut the core to on ``axis``: the finished size less the bands on its two ends or edges (EB-2)."""
    core = board.size(axis)
    on = [band.thickness for band in board.bands if band.surface.axis is axis]
    for thickness in on:
        core = core - thickness
    word = {Axis.ALONG: "length", Axis.ACROSS: "width", Axis.INTO: "thickness"}[axis]
    return core.named(f"{board.name} core {word}", "EB-2", "common practice") if on else core


def _covered(board: Board, surface: Surface, to_come: Sequence[tuple[Surface, Banding]]) -> Dimension:
    """How long the edge is when this band goes on: the finished size less the bands still to come at its two ends."""
    axis = Axis.ACROSS if surface.axis is Axis.ALONG else Axis.ALONG
    covered = board.size(axis)
    for later, banding in to_come:
        if later.axis is axis:
            covered = covered - banding.thickness
    return covered


def _sawn_width(board: Board, banding: Banding, practice: Practice) -> Dimension | None:
    """How wide a lipping is sawn: as wide as the edge and a little proud of both faces; None for banding, which is bought
    (EB-4).
    """
    if banding.thickness <= practice.length("thickest banding"):
        return None
    return (board.thickness + 2 * practice.length("lipping proud")).named(
        f"{board.name} lipping as sawn", "EB-4", "common practice"
    )


def _lipped(board: Board, bands: Sequence[Band], practice: Practice) -> list[Finding]:
    """How lippings are glued on and made flush, told once of all those of a board."""
    if not bands or bands[0].width is None:
        return []
    first, *then = dict.fromkeys(band.surface.axis for band in bands)
    turns = "" if not then else " those on its {ends} first, trimmed flush before the others lap over them,"
    numbers: dict[str, Length | int | str] = {
        "thickness": bands[0].thickness, "width": bands[0].width, "proud": practice.length("lipping proud"),
        "ends": "ends" if first is Axis.ALONG else "long edges",
    }  # fmt: skip
    what = (
        f"Its lipping is {{thickness}} thick, and sawn {{width}} wide to stand {{proud}} proud of both faces: "
        f"glue and clamp it on with a batten "
        f"over it,{turns} and plane it flush before any fence or rule touches the part."
    )
    return [note("lipping", what, "EB-4", "common practice", **numbers).at(board.name)]


def _refuse_no_core(board: Board, axis: Axis) -> None:
    core = core_size(board, axis)
    if core.mm <= 0:
        raise refusal(
            "banding",
            "The bands take {bands} of {size}, so no core is left.",
            "Use thinner banding.",
            "EB-2",
            "by geometry",
            bands=board.size(axis) - core,
            size=board.size(axis),
        ).at(board.name)


def _thin(board: Board, banding: Banding, practice: Practice) -> list[Finding]:
    worth = practice.length("banding worth counting")
    if banding.thickness >= worth:
        return []
    return [note("banding", "The banding is {thickness} thick; under {worth} the core may as well be cut to the finished size.",
                 "EB-2", "common practice", thickness=banding.thickness, worth=worth).at(board.name)]  # fmt: skip


def _cut_through(board: Board) -> list[Finding]:
    """Say where a cut reaches into a band: the joint would show at the edge that the band was to hide.

    A slot in the end of a front is no fault: the lip beside it keeps its band (LR-6). But it runs out at the edges it crosses, so
    what there is to say is when to glue them.
    """
    found, crossed = [], []
    for band in board.bands:
        axis = band.surface.axis
        for cut in board.cuts:
            span = cut.span(axis)
            reach = span.stop > board.size(axis) - band.thickness if band.surface.is_far else span.start < band.thickness
            if reach and _is_in_a_rabbet(board, cut, band):
                continue
            if reach and not _is_behind_a_lip(board, cut):
                found.append(_shows(board, band, cut))
            elif reach and axis is Axis.ACROSS:
                crossed.append(board.datum.word(band.surface))
    return found + ([_crossed(board, " and ".join(dict.fromkeys(crossed)))] if crossed else [])


def _is_behind_a_lip(board: Board, cut: Cut) -> bool:
    """True for the slot of a half-blind corner and the end of the tongue beside it, and for a rabbet: the lip covers them."""
    if cut.surface.axis is Axis.ALONG or cut.role.use is CutUse.RABBET:
        return cut.into.stop < board.thickness
    slots = [other for other in board.cuts if other.joint == cut.joint and other.surface.axis is Axis.ALONG]
    return any(other.into.stop < board.thickness and other.along.overlaps(cut.along) for other in slots)


def _is_in_a_rabbet(board: Board, cut: Cut, band: Band) -> bool:
    """True where a groove reaches the band of an end only in what the rabbet of a corner takes away there."""
    if band.surface.axis is not Axis.ALONG:
        return False
    for rabbet in board.cuts_of(CutUse.RABBET):
        is_there = rabbet.along.stop == board.length if band.surface.is_far else rabbet.along.start.mm == 0
        is_deeper = rabbet.into.start <= cut.into.start and cut.into.stop <= rabbet.into.stop
        if rabbet is not cut and is_there and is_deeper and rabbet.along.size >= band.thickness:
            return True
    return False


def _crossed(board: Board, edges: str) -> Finding:
    return note(
        "banding",
        "The corner joints cross the band on the {edges} and are seen there when the drawer is out. Glue the bands on before "
        "the corners are cut.",
        "EB-3",
        "common practice",
        edges=edges,
    ).at(board.name)


def _shows(board: Board, band: Band, cut: Cut) -> Finding:
    return warning(
        "banding",
        "The {cut} runs into the band on the {edge}, {thickness} thick, and would show.",
        "Leave that edge out of its [[banding]], under edges, or make the part of solid wood, which needs no band.",
        "EB-3",
        "AWS 2009",
        cut=cut.name,
        edge=board.datum.word(band.surface),
        thickness=band.thickness,
    ).at(board.name)
