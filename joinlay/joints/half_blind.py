"""The half-blind locking rabbet: the front laps the side's end, so the joint shows only from the side (LR-6 to LR-8)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.findings import note, refusal
from joinlay.joints.fits import Pass, findings_at, label, name_of, passes_for, refusals_at, refuse_nothing, refuse_wide_cutter
from joinlay.joints.spans import inwards, whole
from joinlay.joints.tongue import dado_depth as depth_of_dado
from joinlay.joints.tongue import judge_dado_depth, tip_gap_asked, tongue_length, tongue_thickness
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Practice

__all__ = ["HalfBlind", "cut_half_blind_end", "design_half_blind"]


@dataclass(frozen=True, slots=True)
class HalfBlind:
    """A half-blind locking rabbet: the front's end is flush with the side's outside face.

    The front's end gets a slot ``slot_width`` wide and ``slot_depth`` deep (along the front). On its inner side stands the
    tongue, ``tongue_thickness`` thick, shortened to ``tongue_length``; on its outer side the ``lip``. The side gets a dado
    ``dado_width`` wide and ``dado_depth`` deep, its near wall ``dado_offset`` from the side's end, cut in ``dado_passes``; the
    wood beyond it fills the slot, and the side's end meets the lip. The front is ``end_part_addition`` longer than the inside
    width. ``one_setup`` is always False: slot and dado have different heights. ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    slot_width: Dimension
    slot_depth: Dimension
    dado_width: Dimension
    dado_depth: Dimension
    dado_offset: Dimension
    dado_passes: tuple[Pass, ...]
    tongue_thickness: Dimension
    tongue_length: Dimension
    tip_gap: Dimension
    lip: Dimension
    end_part_addition: Dimension
    one_setup: bool
    findings: tuple[Finding, ...]


def design_half_blind(
    *,
    side_thickness: Dimension,
    end_thickness: Dimension,
    cutter: Dimension,
    practice: Practice,
    rule: Graduation,
    dado_depth: Dimension | None = None,
    tip_gap: Dimension | None = None,
    tongue: Dimension | None = None,
    role: JointRole | None = None,
) -> HalfBlind:
    """Size a half-blind locking rabbet cut with ``cutter`` (LR-6 to LR-8; common practice; Elek 2020 for the fit).

    ``tongue`` is the width of the side's dado, the cutter's unless given; ``dado_depth`` and ``tip_gap`` are the maker's own
    where given. In the classic set (front 3 cutters thick, side 2) one pass trims the tongue to the dado's full depth, so no tip
    gap is left unless one is asked for. Raises BadInput for sizes that are not more than nothing; Refused where the lip is too
    thin (LR-6), the wood beyond the dado would break (LR-4), the cutter is wider than the dado (MS-8) or the dado far too deep.
    """
    refuse_nothing(
        side_thickness=side_thickness, end_thickness=end_thickness, cutter=cutter, dado_depth=dado_depth, tongue=tongue
    )
    wide = cutter if tongue is None else tongue
    named = name_of(role)
    fit, asked = practice.length("tongue fit"), tip_gap_asked(tip_gap, practice)
    classic = asked is None and not fit and wide == cutter and _is_classic(side_thickness, end_thickness, cutter, dado_depth)
    with refusals_at(named):
        refuse_wide_cutter(cutter, wide, "dado")
        thick = tongue_thickness(wide, fit, named)
        lip = (end_thickness - thick - cutter).named(label(named, "lip"), "LR-6", "common practice")
        _refuse_thin_lip(lip, end_thickness, cutter, thick, practice, tongue)
        _refuse_short_grain(side_thickness, cutter, practice)
        depth = depth_of_dado(side_thickness, practice, rule, dado_depth, named)
        found = judge_dado_depth(side_thickness, depth, practice)
    gap = NOTHING if classic else (practice.length("tip gap") if asked is None else asked)
    offset = cutter - fit if fit else cutter
    return HalfBlind(
        role=role,
        slot_width=cutter.named(label(named, "slot width"), "LR-6", "common practice"),
        slot_depth=side_thickness.named(label(named, "slot depth"), "LR-6", "common practice"),
        dado_width=wide.named(label(named, "dado width"), "LR-7", "common practice"),
        dado_depth=depth,
        dado_offset=offset.named(label(named, "dado offset"), "LR-7", "common practice"),
        dado_passes=passes_for(wide, cutter),
        tongue_thickness=thick,
        tongue_length=tongue_length(depth, gap, named),
        tip_gap=gap.named(label(named, "tip gap"), "LR-6", "common practice"),
        lip=lip,
        end_part_addition=(side_thickness * 2).named(label(named, "end part addition"), "LR-6", "common practice"),
        one_setup=False,
        findings=findings_at(named, found, _no_room(practice) if classic else None),
    )


def cut_half_blind_end(
    joint: HalfBlind,
    board: Board,
    at: Surface,
    mate: PartRole | None,
    *,
    across: Span | None = None,
    which: Hand | PartRole | None = None,
) -> Board:
    """The front with its slot cut into the end ``at`` (END or FAR_END) and its tongue shortened (LR-6)."""
    stop = joint.tongue_thickness + joint.slot_width
    slot = Cut(
        kind=CutKind.SLOT,
        surface=at,
        along=inwards(board, at, NOTHING, joint.slot_depth),
        across=across or whole(board, Axis.ACROSS),
        into=Span(joint.tongue_thickness, stop),
        role=CutRole(CutUse.SLOT, mate, joint.role, which),
    )
    tip = Cut(
        kind=CutKind.RABBET,
        surface=Surface.FACE,
        along=inwards(board, at, NOTHING, joint.slot_depth - joint.tongue_length),
        across=across or whole(board, Axis.ACROSS),
        into=Span(NOTHING, joint.tongue_thickness),
        role=CutRole(CutUse.TONGUE_END, mate, joint.role, which),
    )
    return board.with_cuts(slot, tip)


def _is_classic(side: Dimension, end: Dimension, cutter: Dimension, depth: Dimension | None) -> bool:
    """True for the classic set: front three cutters thick, side two, dado as deep as the cutter is wide (LR-8)."""
    return end == cutter * 3 and side == cutter * 2 and (depth is None or depth == cutter)


def _refuse_thin_lip(
    lip: Dimension, end: Dimension, cutter: Dimension, thick: Dimension, practice: Practice, tongue: Dimension | None
) -> None:
    """Raise Refused where the lip is under the least (LR-6), naming the thinnest front and the widest cutter that would do."""
    least = practice.length("least lip")
    if lip >= least:
        return
    room = end - least
    widest = room / 2 if tongue is None else room - thick
    thinnest = thick + cutter + least
    remedy = "A front {thinnest} thick would do, or a cutter of {widest} or less."
    if widest.mm <= 0:
        remedy = "A front {thinnest} thick would do."
    what = "The lip would be {lip} thick, under the least of {least}."
    if lip.mm <= 0:
        what = "Slot and tongue take the front's whole thickness, {end}, and leave no lip."
    raise refusal("lip", what, remedy, "LR-6", "common practice", lip=lip, least=least, end=end, thinnest=thinnest,
                  widest=widest)  # fmt: skip


def _refuse_short_grain(side: Dimension, cutter: Dimension, practice: Practice) -> None:
    """Raise Refused where the wood between dado and end, a cutter thick, is under its share of the side's thickness (LR-4)."""
    least = side * practice.ratio("short grain share")
    if cutter < least:
        what = "The {cutter} cutter leaves {cutter} of wood beyond the dado, and under {least} the short grain breaks."
        raise refusal("short grain", what, "A cutter of {least} or more would do.", "LR-4", "common practice; Wheeler",
                      cutter=cutter, least=least)  # fmt: skip


def _no_room(practice: Practice) -> Finding:
    what = "One pass trims the tongue, so it fills the dado to its floor. For room past the tip, ask for a tip gap of {gap}."
    return note("tip gap", what, "LR-8", "common practice", gap=practice.length("tip gap"))
