"""The locking rabbet: a tongue on the end of one part, held in a dado near the end of the other (LR-1 to LR-8).

Here is the plain one, whose ends come flush, and the cuts of both kinds; ``half_blind`` sizes the other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.findings import note, refusal
from joinlay.joints.fits import findings_at, label, name_of, refusals_at, refuse_nothing
from joinlay.joints.half_blind import HalfBlind, cut_half_blind_end, design_half_blind
from joinlay.joints.spans import inwards, refuse_not_end, whole
from joinlay.joints.tongue import dado_depth as depth_of_dado
from joinlay.joints.tongue import is_near, judge_dado_depth, tip_gap_asked, tongue_length, tongue_thickness
from joinlay.lengths import NOTHING
from joinlay.shop import is_sold

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation
    from joinlay.shop import Practice

__all__ = ["HalfBlind", "LockingRabbet", "cut_end_part", "cut_side", "design_half_blind", "design_locking_rabbet"]


@dataclass(frozen=True, slots=True)
class LockingRabbet:
    """A plain locking rabbet, ends flush.

    The side gets a dado ``dado_width`` wide and ``dado_depth`` deep in its inside face, the near wall ``dado_offset`` from its
    end. The end part (a back between the sides) gets a rabbet in its outer face, ``rabbet_width`` along the part and
    ``rabbet_depth`` deep. That leaves the tongue on its inner face, ``tongue_thickness`` thick and ``tongue_length`` long, with
    ``tip_gap`` past its tip. The end part is ``end_part_addition`` longer than the inside width. ``one_setup`` is True where one
    fence and one height cut dado and rabbet alike. ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    dado_width: Dimension
    dado_depth: Dimension
    dado_offset: Dimension
    tongue_thickness: Dimension
    tongue_length: Dimension
    rabbet_width: Dimension
    rabbet_depth: Dimension
    end_part_addition: Dimension
    tip_gap: Dimension
    one_setup: bool
    findings: tuple[Finding, ...]


def design_locking_rabbet(
    *,
    side_thickness: Dimension,
    end_thickness: Dimension,
    cutter: Dimension,
    practice: Practice,
    rule: Graduation,
    dado_depth: Dimension | None = None,
    tip_gap: Dimension | None = None,
    role: JointRole | None = None,
) -> LockingRabbet:
    """Size a plain locking rabbet cut with ``cutter`` (LR-1 to LR-5; common practice, Foster, Wheeler).

    ``dado_depth`` and ``tip_gap`` are the maker's own where given. Where one set-up can cut it all and no gap or fit was asked
    for, it does, and the tongue fills the dado. Raises BadInput for sizes that are not more than nothing and for a gap as long as
    the dado is deep; Refused where the wood beyond the dado would break (LR-4) or the dado is far too deep.
    """
    refuse_nothing(side_thickness=side_thickness, end_thickness=end_thickness, cutter=cutter, dado_depth=dado_depth)
    named = name_of(role)
    with refusals_at(named):
        _refuse_short_grain(side_thickness, end_thickness, cutter, practice)
        fit, asked = practice.length("tongue fit"), tip_gap_asked(tip_gap, practice)
        same = _same_cut(side_thickness, end_thickness, cutter, practice)
        one = same and not fit and not asked and dado_depth in (None, cutter)
        depth = depth_of_dado(side_thickness, practice, rule, cutter if one else dado_depth, named)
        gap = NOTHING if one else (practice.length("tip gap") if asked is None else asked)
        found = judge_dado_depth(side_thickness, depth, practice)
    thick, long = tongue_thickness(cutter, fit, named), tongue_length(depth, gap, named)
    told = _no_room(practice) if one and asked is None else None
    near = None if same else _near_one_setup(side_thickness, end_thickness, cutter, practice, rule)
    return LockingRabbet(
        role=role,
        dado_width=cutter.named(label(named, "dado width"), "LR-2", "common practice"),
        dado_depth=depth,
        dado_offset=(end_thickness - cutter).named(label(named, "dado offset"), "LR-2", "common practice"),
        tongue_thickness=thick,
        tongue_length=long,
        rabbet_width=long.named(label(named, "rabbet width"), "LR-3", "common practice"),
        rabbet_depth=(end_thickness - thick).named(label(named, "rabbet depth"), "LR-1", "common practice"),
        end_part_addition=(long * 2).named(label(named, "end part addition"), "LR-3", "common practice"),
        tip_gap=gap.named(label(named, "tip gap"), "LR-3", "common practice"),
        one_setup=one,
        findings=findings_at(named, found, told, near),
    )


def cut_side(
    joint: LockingRabbet | HalfBlind,
    board: Board,
    at: Surface,
    mate: PartRole | None,
    *,
    across: Span | None = None,
    which: Hand | PartRole | None = None,
) -> Board:
    """The side with its dado cut in the reference (inside) face, near the end ``at`` (END or FAR_END) (LR-2, LR-7).

    ``across`` is from where to where across the side, the full width unless given. The cut is called ``dado``, ``which`` before
    it (``front``: ``front dado``). Raises BadInput for a surface that is no end, or where the dado would lie outside the wood.
    """
    refuse_not_end(at)
    cut = Cut(
        kind=CutKind.DADO,
        surface=Surface.FACE,
        along=inwards(board, at, joint.dado_offset, joint.dado_offset + joint.dado_width),
        across=across or whole(board, Axis.ACROSS),
        into=Span(NOTHING, joint.dado_depth),
        role=CutRole(CutUse.DADO, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def cut_end_part(
    joint: LockingRabbet | HalfBlind,
    board: Board,
    at: Surface,
    mate: PartRole | None,
    *,
    across: Span | None = None,
    which: Hand | PartRole | None = None,
) -> Board:
    """The back or front with its tongue left at the end ``at`` (END or FAR_END) (LR-1, LR-6).

    ``across`` is from where to where across the board, the full width unless given.

    Plain: one cut, ``rabbet``, in the far (outer) face. Half-blind: two cuts, ``slot`` in the end and ``tongue end``, the wood
    taken off the tongue's tip. ``which`` comes before each name (``left rabbet``). Raises BadInput for a surface that is no end.
    """
    refuse_not_end(at)
    if isinstance(joint, HalfBlind):
        return cut_half_blind_end(joint, board, at, mate, across=across, which=which)
    cut = Cut(
        kind=CutKind.RABBET,
        surface=Surface.FAR_FACE,
        along=inwards(board, at, NOTHING, joint.rabbet_width),
        across=across or whole(board, Axis.ACROSS),
        into=Span(joint.tongue_thickness, board.thickness),
        role=CutRole(CutUse.RABBET, mate, joint.role, which),
    )
    return board.with_cuts(cut)


def _refuse_short_grain(side: Dimension, end: Dimension, cutter: Dimension, practice: Practice) -> None:
    """Raise Refused where the wood beyond the dado is under its share of the side's thickness (LR-4; Wheeler)."""
    least = side * practice.ratio("short grain share")
    left, widest, thicker = end - cutter, end - least, cutter + least
    if left >= least:
        return
    what = "The {cutter} cutter leaves {left} of wood beyond the dado, and under {least} the short grain breaks."
    if left.mm <= 0:
        what = "The {cutter} cutter takes the whole end of a part {end} thick, and leaves nothing beside the tongue."
    remedy = "A cutter of {widest} or less would do, or an end part {thicker} thick."
    if widest.mm <= 0:
        remedy = "An end part {thicker} thick would do."
    raise refusal("short grain", what, remedy, "LR-4", "common practice; Wheeler",
                  cutter=cutter, left=left, least=least, widest=widest, thicker=thicker, end=end)  # fmt: skip


def _same_cut(side: Dimension, end: Dimension, cutter: Dimension, practice: Practice) -> bool:
    """True where one fence and height can cut dado and rabbet alike: end = 2 cutters, and a cutter is a sound dado depth (LR-5)."""
    return end == cutter * 2 and _is_sound_depth(side, cutter, practice)


def _is_sound_depth(side: Dimension, depth: Dimension, practice: Practice) -> bool:
    return side * practice.ratio("least dado share") <= depth <= side * practice.ratio("largest dado share")


def _no_room(practice: Practice) -> Finding:
    what = (
        "One set-up cuts it all, so the tongue fills the dado to its floor. For room past the tip, ask for a tip gap of {gap}: that "
        "takes a second height."
    )
    return note("one set-up", what, "LR-5", "derived", gap=practice.length("tip gap"))


def _near_one_setup(side: Dimension, end: Dimension, cutter: Dimension, practice: Practice, rule: Graduation) -> Finding | None:
    """A note of what would make it one set-up, where that is within a hair and can be had (LR-5)."""
    twice, half = cutter * 2, end / 2
    if is_near(end, twice, rule) and _is_sound_depth(side, cutter, practice):
        what = "An end part {thick} thick (it is {is_thick}) would let one set-up cut it all."
        return note("one set-up", what, "LR-5", "derived", thick=twice, is_thick=end)
    if is_near(cutter, half, rule) and is_sold(half) and _is_sound_depth(side, half, practice):
        what = "A {half} cutter in place of the {cutter} one would let one set-up cut it all."
        return note("one set-up", what, "LR-5", "derived", half=half, cutter=cutter)
    return None
