"""The locking rabbet: a tongue on the end of one part, held in a dado near the end of the other (LR-1 to LR-8).

The plain one's ends come flush. In the half-blind one the front laps over the side's end, so that the joint shows only from the
side. Both have the side's dado, how deep it is, and the room at the tongue's tip.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Span, Surface
from joinlay.findings import note, refusal, stock_of
from joinlay.joints.fits import (
    Pass,
    depth_down,
    findings_at,
    judge_depth,
    label,
    name_of,
    passes_for,
    refusals_at,
    refuse_nothing,
    refuse_wide_cutter,
)
from joinlay.joints.spans import inwards, refuse_not_end, whole
from joinlay.lengths import NOTHING, BadSize, Unit, inches, mm
from joinlay.records import dataclass
from joinlay.shop import is_sold

if TYPE_CHECKING:
    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Graduation, Length
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
    for, it does, and the tongue fills the dado. Raises BadInput for sizes of zero or less and for a gap as long as
    the dado is deep; Refused where the wood beyond the dado would break (LR-4) or the dado is far too deep.
    """
    refuse_nothing(side_thickness=side_thickness, end_thickness=end_thickness, cutter=cutter, dado_depth=dado_depth)
    named = name_of(role)
    with refusals_at(named):
        _refuse_short_grain(side_thickness, end_thickness, cutter, practice)
        fit, asked = practice.length("tongue fit"), _tip_gap_asked(tip_gap, practice)
        same = _same_cut(side_thickness, end_thickness, cutter, practice)
        one = same and not fit and not asked and dado_depth in (None, cutter)
        depth = _depth_of_dado(side_thickness, practice, rule, cutter if one else dado_depth, named)
        gap = NOTHING if one else (practice.length("tip gap") if asked is None else asked)
        found = _judge_dado_depth(side_thickness, depth, practice)
    thick, long = _tongue_thickness(cutter, fit, named), _tongue_length(depth, gap, named)
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
        return _cut_half_blind_end(joint, board, at, mate, across=across, which=which)
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
    raise refusal(
        "short grain",
        what,
        remedy,
        "LR-4",
        "common practice; Wheeler",
        cutter=cutter,
        left=left,
        least=least,
        widest=widest,
        thicker=thicker,
        end=end,
    ).by(stock_of("drawers", "back", thinnest=thicker))


def _same_cut(side: Dimension, end: Dimension, cutter: Dimension, practice: Practice) -> bool:
    """True where one fence and height can cut dado and rabbet alike: end = 2 cutters, and a cutter is a sound dado depth
    (LR-5).
    """
    return end == cutter * 2 and _is_sound_depth(side, cutter, practice)


def _is_sound_depth(side: Dimension, depth: Dimension, practice: Practice) -> bool:
    return side * practice.ratio("least dado share") <= depth <= side * practice.ratio("largest dado share")


def _no_room(practice: Practice) -> Finding:
    what = (
        "One set-up cuts it all, so the tongue fills the dado to its floor. For room past the tip, ask for a tip gap of {gap}: "
        "that "
        "takes a second height."
    )
    return note("one set-up", what, "LR-5", "derived", gap=practice.length("tip gap"))


def _near_one_setup(side: Dimension, end: Dimension, cutter: Dimension, practice: Practice, rule: Graduation) -> Finding | None:
    """A note of what would make it one set-up, where that is within a hair and can be had (LR-5)."""
    twice, half = cutter * 2, end / 2
    if _is_near(end, twice, rule) and _is_sound_depth(side, cutter, practice):
        what = "An end part {thick} thick (it is {is_thick}) would let one set-up cut it all."
        return note("one set-up", what, "LR-5", "derived", thick=twice, is_thick=end)
    if _is_near(cutter, half, rule) and is_sold(half) and _is_sound_depth(side, half, practice):
        what = "A {half} cutter in place of the {cutter} one would let one set-up cut it all."
        return note("one set-up", what, "LR-5", "derived", half=half, cutter=cutter)
    return None


# -- the half-blind one --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class HalfBlind:
    """A half-blind locking rabbet: the front's end is flush with the side's outside face.

    The front's end gets a slot ``slot_width`` wide and ``slot_depth`` deep (along the front). On its inner side stands the
    tongue, ``tongue_thickness`` thick, shortened to ``tongue_length``; on its outer side the ``lip``. The side gets a dado
    ``dado_width`` wide and ``dado_depth`` deep, its near wall ``dado_offset`` from the side's end, cut in ``dado_passes``; the
    wood beyond it fills the slot, and the side's end meets the lip. The front is ``end_part_addition`` longer than the inside
    width. ``one_setup`` is always False: slot and dado have different heights. ``findings`` bear the name of ``role`` as their
    place.
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
    gap is left unless one is asked for. Raises BadInput for sizes of zero or less; Refused where the lip is too
    thin (LR-6), the wood beyond the dado would break (LR-4), the cutter is wider than the dado (MS-8) or the dado far too deep.
    """
    refuse_nothing(
        side_thickness=side_thickness, end_thickness=end_thickness, cutter=cutter, dado_depth=dado_depth, tongue=tongue
    )
    wide = cutter if tongue is None else tongue
    named = name_of(role)
    fit, asked = practice.length("tongue fit"), _tip_gap_asked(tip_gap, practice)
    classic = asked is None and not fit and wide == cutter and _is_classic(side_thickness, end_thickness, cutter, dado_depth)
    with refusals_at(named):
        refuse_wide_cutter(cutter, wide, "dado")
        thick = _tongue_thickness(wide, fit, named)
        lip = (end_thickness - thick - cutter).named(label(named, "lip"), "LR-6", "common practice")
        _refuse_thin_lip(lip, end_thickness, cutter, thick, practice, tongue)
        _refuse_short_end(side_thickness, cutter, practice)
        depth = _depth_of_dado(side_thickness, practice, rule, dado_depth, named)
        found = _judge_dado_depth(side_thickness, depth, practice)
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
        tongue_length=_tongue_length(depth, gap, named),
        tip_gap=gap.named(label(named, "tip gap"), "LR-6", "common practice"),
        lip=lip,
        end_part_addition=(side_thickness * 2).named(label(named, "end part addition"), "LR-6", "common practice"),
        one_setup=False,
        findings=findings_at(named, found, _no_tip_gap(practice) if classic else None),
    )


def _cut_half_blind_end(
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
    raise refusal(
        "lip", what, remedy, "LR-6", "common practice", lip=lip, least=least, end=end, thinnest=thinnest, widest=widest
    ).by(stock_of("drawers", "front", thinnest=thinnest))


def _refuse_short_end(side: Dimension, cutter: Dimension, practice: Practice) -> None:
    """Raise Refused where the wood between dado and end, a cutter thick, is under its share of the side's thickness (LR-4)."""
    least = side * practice.ratio("short grain share")
    if cutter < least:
        what = "The {cutter} cutter leaves {cutter} of wood beyond the dado, and under {least} the short grain breaks."
        raise refusal(
            "short grain",
            what,
            "A cutter of {least} or more would do.",
            "LR-4",
            "common practice; Wheeler",
            cutter=cutter,
            least=least,
        )


def _no_tip_gap(practice: Practice) -> Finding:
    what = "One pass trims the tongue, so it fills the dado to its floor. For room past the tip, ask for a tip gap of {gap}."
    return note("tip gap", what, "LR-8", "common practice", gap=practice.length("tip gap"))


# -- what both share -----------------------------------------------------------------------------------


def _depth_of_dado(side: Dimension, practice: Practice, rule: Graduation, given: Dimension | None, named: str) -> Dimension:
    """The depth of the dado in the side: the maker's own, or half the side's thickness down to the rule (LR-4; Foster's
    drawings).
    """
    name = label(named, "dado depth")
    if given is not None:
        return given.named(name, "LR-4")
    most = side * practice.ratio("largest dado share")
    return depth_down(most, rule, side * practice.ratio("least dado share")).named(name, "LR-4", "Foster's drawings")


def _judge_dado_depth(side: Dimension, depth: Dimension, practice: Practice) -> Finding | None:
    """A warning where the dado is shallower or deeper than LR-4 has it; raises Refused where it would leave under 1/3 (as
    DA-3).
    """
    shares = (practice.ratio("least dado share"), practice.ratio("largest dado share"), practice.ratio("largest rabbet share"))
    return judge_depth("dado", depth, side, shares, "LR-4")


def _tip_gap_asked(given: Dimension | None, practice: Practice) -> Dimension | None:
    """The tip gap somebody asked for: for this joint, or for the whole shop; None where it would only be the default (LR-3)."""
    usual = practice.length("tip gap")
    return given if given is not None else (usual if usual.origin != "default" else None)


def _tongue_length(depth: Dimension, gap: Dimension, named: str) -> Dimension:
    """How long the tongue is: the dado's depth less the tip gap (LR-3). BadInput where nothing would be left."""
    if gap.mm < 0 or gap >= depth:
        said = "{name} is {gap} in a dado {depth} deep; it must be at least 0 and less than the dado."
        raise BadSize(said, name=gap.name or "tip gap", gap=gap, depth=depth)
    whole = depth - gap if gap else depth
    return whole.named(label(named, "tongue length"), "LR-3", "common practice")


def _tongue_thickness(dado_width: Dimension, fit: Dimension, named: str) -> Dimension:
    """How thick the tongue is: the dado's width less the tongue fit (LR-1, LR-8; Elek 2020).

    BadInput where nothing would be left.
    """
    if fit.mm < 0 or fit >= dado_width:
        said = "{name} is {fit}; it must be at least 0 and less than the dado, {dado}."
        raise BadSize(said, name=fit.name or "tongue fit", fit=fit, dado=dado_width)
    whole = dado_width - fit if fit else dado_width
    return whole.named(label(named, "tongue thickness"), "LR-1", "Elek 2020")


def _is_near(one: Length, other: Length, rule: Graduation) -> bool:
    """True where two lengths differ, but by no more than 1/32 in (0.8 mm on a metric rule) (LR-5)."""
    return one != other and abs(one.mm - other.mm) <= (inches("1/32") if rule.unit is Unit.INCH else mm("0.8")).mm
