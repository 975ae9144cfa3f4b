"""Fillers between the stiles and the walls of a piece that is built in: strips scribed and screwed on last of all (SC-1).

A filler is as wide as its gap and what is planed away to the wall's line. It stands beside the stile, its show face level
with the frame's, and is held by screws through the stile, from the inside edge, where the drawers hide their heads. They
stand in the openings, clear of the rails and what joins them.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import (
    Axis,
    Board,
    Cut,
    CutKind,
    CutRole,
    CutUse,
    Datum,
    Hand,
    PartKind,
    PartRole,
    Place,
    Shape,
    Span,
    Surface,
    Whole,
)
from joinlay.boards.fastener import FastenerKind
from joinlay.boards.meeting import Meeting, Tie, Way, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.over_and_under import laid
from joinlay.findings import Change, Remedy, at_most, note, refusal
from joinlay.joints.fasteners import fastener_for, spread
from joinlay.joints.spans import whole
from joinlay.lengths import NOTHING, Length, dimension, inches
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from joinlay.casework.bay import Bay
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["FillerMake", "make_fillers"]


@dataclass(frozen=True, slots=True)
class FillerMake:
    """Fillers of ``stock``; ``gaps`` are how wide the gaps between stile and wall are that they close, by hand.

    ``scribe`` is how much wider each is made, to be planed to the wall (None: as the practice has it).
    """

    stock: Stock
    gaps: Mapping[Hand, Dimension]
    scribe: Dimension | None = None


_RULE: Final = "SC-1"
_SOURCE: Final = "common practice"
_DATUM: Final = Datum("show face", "stile edge", "bottom end", "back face", "wall edge", "top end")
#: How deep a screw goes into a filler at most: more holds no better. Source: our own choice.
_BITES: Final = inches("1 1/4")


def make_fillers(
    make: FillerMake,
    size: tuple[Dimension, Dimension],
    frame: Assembly,
    sizes: FrameSizes,
    bays: Sequence[Bay],
    over_and_under: Sequence[Board],
    ends: Dimension,
    shop: Shop,
) -> tuple[Assembly, Assembly]:
    """The fillers of a piece whose frame is ``size`` = width, height, and the ``frame`` with its stiles bored for their screws
    (SC-1; common practice).

    ``bays`` are its banks, ``over_and_under`` the boards of top and base, which a filler may touch; the top overhangs the piece
    by ``ends``. Raises Refused where a gap is too narrow for a screw to hold, or the top reaches past the wall.
    """
    practice = shop.practice
    scribe = practice.length("filler scribe") if make.scribe is None else make.scribe
    boards: list[Board] = []
    meetings: list[Meeting] = []
    findings: list[Finding] = []
    wanted: list[Dimension] = []
    has_base = any(board.role.whole is Whole.BASE for board in over_and_under)
    for hand, gap in make.gaps.items():
        _refuse_gap(hand, gap, practice.length("narrowest filler"), ends)
        filler = _filler(make, hand, gap, scribe, size)
        stile = frame.part(PartRole(PartKind.STILE, hand=hand))
        at = _screws(bays[0 if hand is Hand.LEFT else -1], practice.length("filler screw spacing"))
        shank = practice.length("filler screw")
        stile = _bored(stile, filler, at, shank)
        frame = replace(frame, boards=tuple(stile if own.role == stile.role else own for own in frame.boards))
        into = Length(min(gap.mm, _BITES.mm))
        screw = fastener_for(FastenerKind.SCREW, sizes.stile, into, shop.rule, shank, practice.length("filler screw spacing"))
        held = butted(
            (stile, Surface.FAR_EDGE),
            (filler, Surface.EDGE),
            "beside the",
            rule=_RULE,
            tie=Tie.FASTENED,
            fasteners=len(at),
            fastener=screw,
        )
        boards.append(filler)
        wanted.append(gap)
        # Wall and stile are there: it comes from the front, and nowhere else.
        meetings.append(replace(held, closes=(Way.FRONT,)))
        for surface, level in ((Surface.END, NOTHING), (Surface.FAR_END, size[1])):
            meetings += laid(filler, surface, over_and_under, level.mm, "against the", _RULE)
        findings.append(_said(filler, gap, scribe, len(at), has_base=has_base))
    return Assembly(Whole.FILLER, tuple(boards), tuple(meetings), (*wanted, scribe), tuple(findings)), frame


def _refuse_gap(hand: Hand, gap: Dimension, least: Dimension, ends: Dimension) -> None:
    """Refuse a gap too narrow for a screw to hold in, or that the top reaches across (SC-1)."""
    if gap < least:
        less = least - gap
        raise (
            refusal(
                "filler",
                "A gap {gap} wide leaves a screw too little to hold in; a filler is worth its screws from {least}.",
                "The filler can be left out there, and the stile made wider instead (scribe under [frame]).",
                _RULE,
                "our own choice",
                gap=gap,
                least=least,
                less=less,
            )
            .at("filler")
            .by(
                # The wall stands where it does: what the gap gains the piece loses.
                Remedy(
                    "make the piece {less} narrower, so that the gap is {least}",
                    (Change("filler", hand.value, least), Change("case", "width", -less, is_more=True)),
                )
            )
        )
    if ends > gap:
        raise (
            refusal(
                "filler",
                "The top overhangs the piece by {ends} at each end, and the wall is {gap} from it there.",
                "Let it overhang {gap} at most.",
                "SC-1, TO-1",
                "by geometry",
                ends=ends,
                gap=gap,
            )
            .at("filler")
            .by(at_most("top", "ends", gap))
        )


def _filler(make: FillerMake, hand: Hand, gap: Dimension, scribe: Dimension, size: tuple[Dimension, Dimension]) -> Board:
    role = PartRole(PartKind.FILLER, hand=hand)
    x, across = (NOTHING, "-X") if hand is Hand.LEFT else (size[0], "+X")
    return Board(
        role,
        make.stock.name,
        size[1].named(f"{role.name} length", _RULE, _SOURCE),
        (gap + scribe).named(f"{role.name} width, with what is scribed away", _RULE, _SOURCE),
        make.stock.thickness.named(f"{role.name} thickness", "", "the stock's own"),
        _DATUM,
        place=Place.at(x, NOTHING, NOTHING, "+Z", across, "+Y"),
    )


def _screws(bay: Bay, apart: Dimension) -> tuple[Dimension, ...]:
    """How high the screws stand over the frame's underside: in the lowest and the highest opening beside the stile, and in so
    many between that none is farther than ``apart`` from the next, where the openings allow that.
    """
    rows = sorted(bay.rows, key=lambda row: row.floor.mm)
    least = 2 if len(rows) == 1 else 1
    found = [row.floor + dimension(at) for row in rows for at in spread(row.height, apart, least=least)]
    chosen = [found[0]]
    for here, after in zip(found[1:], [*found[2:], None], strict=True):
        if after is None or after - chosen[-1] > apart:
            chosen.append(here)
    name = f"{PartKind.FILLER.value} screw above the frame's underside"
    return tuple(at.named(f"{name}, bank {bay.number}, {n}", _RULE, "our own choice") for n, at in enumerate(chosen, start=1))


def _bored(stile: Board, filler: Board, at: Sequence[Dimension], shank: Dimension) -> Board:
    """A stile with its holes, through from the inside edge, in the middle of what both have of the thickness."""
    middle = (stile.thickness if stile.thickness <= filler.thickness else filler.thickness) / 2
    holes = (
        Cut(
            CutKind.HOLE,
            Surface.EDGE,
            Span.about(up, shank),
            whole(stile, Axis.ACROSS),
            Span.about(middle, shank),
            CutRole(CutUse.SCREW_HOLE, filler.role, which=filler.role, number=n),
            shape=Shape.ROUND,
        )
        for n, up in enumerate(at, start=1)
    )
    return stile.with_cuts(*holes)


def _said(filler: Board, gap: Dimension, scribe: Dimension, screws: int, *, has_base: bool) -> Finding:
    beside = ", and close what is open beside its base in the same way" if has_base else ""
    return note(
        "filler",
        "It is {wide} wide for a gap of {gap}: {scribe} of that is there to be planed to the wall. Fit it last of all, once the "
        "piece stands level and fixed: hold it before the stile and the wall, draw the wall's line on it, plane to that line, "
        "and screw it on through the stile, from the opening, {screws} screws, their heads countersunk. Leave room above to lift "
        f"the piece in{beside}.",
        _RULE,
        _SOURCE,
        wide=filler.width,
        gap=gap,
        scribe=scribe,
        screws=screws,
    ).at(filler.name)
