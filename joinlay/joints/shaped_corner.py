"""A corner from a cutter with a shape of its own, which cuts both its halves at one height (MS-11).

The cutter is known by its test cut: a scrap laid flat on the table and run with its end to the fence comes out with a slot in its
end and beside it, on the side that lay on the table, a tongue shorter than the wood on the other side, the lip. A second scrap of
the same thickness, stood on its end with its face to the fence, comes out with a dado near that end. At the height where the
tongue is as thick as the slot is wide, the tongue goes into such a dado and the wood beyond the dado into the slot. How far the
cutter stands out of the fence is all that differs: the thickness of the upright part for the flat one, the tongue's length for
the upright one. So the sizes follow from the cutter, and the wood has to suit them.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.findings import note, refusal, stock_of, warning
from joinlay.joints.fits import findings_at, label, name_of, refusals_at, refuse_nothing
from joinlay.joints.spans import inwards, refuse_not_end, whole
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import CornerCutter, Practice

__all__ = ["ShapedCorner", "cut_flat_part", "cut_upright_part", "design_shaped_corner"]

_SOURCE = "measured on a test cut"


@dataclass(frozen=True, slots=True)
class ShapedCorner:
    """A corner as the cutter makes it; both parts are cut at one height.

    The flat part's end gets a slot ``slot_width`` wide and ``slot_depth`` deep (along the part), with the tongue on its inner
    side, ``tongue_thickness`` thick and ``tongue_length`` from the slot's floor to its tip, and on its outer side the ``lip``.
    The upright part gets a dado ``slot_width`` wide and ``dado_depth`` deep, its near wall ``dado_offset`` from the end; the wood
    beyond it fills the slot. The flat part is ``end_part_addition`` longer than the inside width. ``findings`` bear the name of
    ``role`` as their place.
    """

    role: JointRole | None
    slot_width: Dimension
    slot_depth: Dimension
    tongue_thickness: Dimension
    tongue_length: Dimension
    lip: Dimension
    dado_offset: Dimension
    dado_depth: Dimension
    end_part_addition: Dimension
    findings: tuple[Finding, ...]


def design_shaped_corner(
    *,
    upright: Dimension,
    flat: Dimension,
    cutter: CornerCutter,
    practice: Practice,
    end: str = "front",
    role: JointRole | None = None,
) -> ShapedCorner:
    """The corner that ``cutter`` makes of a part ``upright`` thick that is cut on its end and one ``flat`` thick (MS-11).

    ``end`` is the flat part, a drawer's ``front`` or ``back``. Source: common practice.
    Raises BadInput for sizes of zero or less; Refused where the flat part is too thin for tongue, slot and lip (LR-6), or the
    upright one too thin for the dado (LR-4), too thick for the wood beyond the dado not to break (LR-4), or for the cutter to
    reach through.
    """
    refuse_nothing(side_thickness=upright, end_thickness=flat)
    named = name_of(role)
    slot, tongue, length = cutter.slot, cutter.tongue, cutter.length
    lip = (flat - tongue - slot).named(label(named, "lip"), "MS-11, LR-6", "by geometry")
    with refusals_at(named):
        _refuse_thin_lip(lip, flat, end, practice)
        _refuse_upright(upright, cutter, practice)
        found = _judge_dado(upright, length, practice)
    return ShapedCorner(
        role=role,
        slot_width=slot.named(label(named, "slot width"), "MS-11", _SOURCE),
        slot_depth=upright.named(label(named, "slot depth"), "MS-11, LR-6", "common practice"),
        tongue_thickness=tongue.named(label(named, "tongue thickness"), "MS-11", _SOURCE),
        tongue_length=length.named(label(named, "tongue length"), "MS-11", _SOURCE),
        lip=lip,
        dado_offset=tongue.named(label(named, "dado offset"), "MS-11, LR-7", _SOURCE),
        dado_depth=length.named(label(named, "dado depth"), "MS-11, LR-7", _SOURCE),
        end_part_addition=(upright * 2).named(label(named, "end part addition"), "MS-11, LR-6", "common practice"),
        findings=findings_at(named, found, _no_room()),
    )


def cut_flat_part(
    joint: ShapedCorner, board: Board, at: Surface, mate: PartRole | None, across: Span, which: Hand | None
) -> Board:
    """The front or back with slot and tongue at the end ``at`` (END or FAR_END), over ``across`` of its width (MS-11).

    Two cuts, which one run makes: ``shaped slot`` and ``shaped tongue end``, ``which`` before each. Raises BadInput for a surface
    that is no end.
    """
    refuse_not_end(at)
    slot = Cut(
        kind=CutKind.SLOT,
        surface=at,
        along=inwards(board, at, NOTHING, joint.slot_depth),
        across=across,
        into=Span(joint.tongue_thickness, joint.tongue_thickness + joint.slot_width),
        role=CutRole(CutUse.SHAPED_SLOT, mate, joint.role, which),
    )
    tip = Cut(
        kind=CutKind.RABBET,
        surface=Surface.FACE,
        along=inwards(board, at, NOTHING, joint.slot_depth - joint.tongue_length),
        across=across,
        into=Span(NOTHING, joint.tongue_thickness),
        role=CutRole(CutUse.SHAPED_END, mate, joint.role, which),
    )
    return board.with_cuts(slot, tip)


def cut_upright_part(
    joint: ShapedCorner, board: Board, at: Surface, mate: PartRole | None, which: Hand | PartRole | None
) -> Board:
    """The side with its dado in the reference (inside) face near the end ``at`` (END or FAR_END), right across (MS-11).

    The cut is called ``shaped dado``, ``which`` before it. Raises BadInput for a surface that is no end.
    """
    refuse_not_end(at)
    cut = Cut(
        kind=CutKind.DADO,
        surface=Surface.FACE,
        along=inwards(board, at, joint.dado_offset, joint.dado_offset + joint.slot_width),
        across=whole(board, Axis.ACROSS),
        into=Span(NOTHING, joint.dado_depth),
        role=CutRole(CutUse.SHAPED_DADO, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def _refuse_thin_lip(lip: Dimension, flat: Dimension, end: str, practice: Practice) -> None:
    """Raise Refused where tongue and slot leave too thin a lip, naming the thinnest part that would do (LR-6)."""
    least = practice.length("least lip")
    if lip >= least:
        return
    what = "The cutter's tongue and slot leave a lip of {lip} on a part {flat} thick, and {least} must stay."
    if lip.mm <= 0:
        what = "The cutter's tongue and slot take the whole of a part {flat} thick, and {least} must stay as a lip."
    raise refusal(
        "lip",
        what,
        "A part {thinnest} thick would do.",
        "MS-11, LR-6",
        "common practice",
        lip=lip,
        flat=flat,
        least=least,
        thinnest=flat - lip + least,
    ).by(stock_of("drawers", end, thinnest=flat - lip + least))


def _refuse_upright(upright: Dimension, cutter: CornerCutter, practice: Practice) -> None:
    """Raise Refused where the upright part suits the cutter in neither reach, dado nor short grain, with what would do (LR-4,
    MS-11).
    """
    utmost, share = practice.ratio("largest rabbet share"), practice.ratio("short grain share")
    thickest = cutter.deepest if share <= 0 else min(cutter.deepest, cutter.tongue / share)
    if utmost > 0 and cutter.length > upright * utmost:
        raise refusal(
            "dado depth",
            "The cutter makes a dado {deep} deep, and leaves {left} of a side {side} thick.",
            "Sides {thinnest} thick would do.",
            "MS-11, LR-4",
            "common practice",
            deep=cutter.length,
            left=upright - cutter.length,
            side=upright,
            thinnest=cutter.length / utmost,
        ).by(stock_of("drawers", "sides", thinnest=cutter.length / utmost, thickest=thickest))
    suits = stock_of("drawers", "sides", thinnest=cutter.length / utmost if utmost > 0 else None, thickest=thickest)
    if upright > cutter.deepest:
        raise refusal(
            "cutter reach",
            "A side {side} thick wants a slot as deep, and the cutter reaches {deepest}.",
            "Sides of {thickest} or less would do.",
            "MS-11",
            "common practice",
            side=upright,
            deepest=cutter.deepest,
            thickest=thickest,
        ).by(suits)
    if cutter.tongue < upright * share:
        raise refusal(
            "short grain",
            "The cutter leaves {left} of wood beyond the dado, and under {least} the short grain breaks.",
            "Sides of {thickest} or less would do.",
            "MS-11, LR-4",
            "common practice; Wheeler",
            left=cutter.tongue,
            least=upright * share,
            thickest=thickest,
        ).by(suits)


def _judge_dado(upright: Dimension, deep: Dimension, practice: Practice) -> Finding | None:
    """A warning where the dado weakens the side (LR-4)."""
    most = upright * practice.ratio("largest dado share")
    if deep <= most:
        return None
    return warning(
        "dado depth",
        "The cutter makes a dado {deep} deep in a side {side} thick and weakens it.",
        "Sides {thick} thick or more are usual for it.",
        "MS-11, LR-4",
        "common practice",
        deep=deep,
        side=upright,
        thick=deep / practice.ratio("largest dado share"),
    )


def _no_room() -> Finding:
    what = "One cutter makes tongue and dado, so the tongue fills the dado to its floor: brush the glue on thin."
    return note("tip gap", what, "MS-11", "common practice")
