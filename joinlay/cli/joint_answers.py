"""The bench's answers for locking rabbets, dadoes, rabbets and grooves: the joint designed from what was typed, and what is said of it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import PartKind, PartRole, Surface
from joinlay.cli.joint_bench import Answer, Piece
from joinlay.errors import BadInput
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.groove import cut_groove, design_groove
from joinlay.joints.locking_rabbet import HalfBlind, cut_end_part, cut_side, design_half_blind, design_locking_rabbet
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import Unit, dimension, read_length
from joinlay.settings import Guide, Role, feeding_of
from joinlay.settings.feeding import way_sentence
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.cli.joint_bench import Bench
    from joinlay.joints.fits import Pass
    from joinlay.joints.locking_rabbet import LockingRabbet
    from joinlay.lengths import Dimension, Length

__all__ = ["answer_dado", "answer_groove", "answer_locking_rabbet", "answer_rabbet"]


def answer_locking_rabbet(
    bench: Bench,
    side: str,
    end: str,
    cutter: str,
    dado_depth: str | None,
    tip_gap: str | None,
    tongue: str | None,
    *,
    is_half_blind: bool,
) -> Answer:
    """A locking rabbet for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's rules."""
    thick, across = bench.size("--side", side, "side thickness"), bench.size("--end", end, "end part thickness")
    gap = None if tip_gap is None else bench.length("--tip-gap", tip_gap, "tip gap asked for")
    if gap is not None and gap.mm < 0:
        raise BadInput(f"--tip-gap: {tip_gap} is negative; it must be 0 or more.")
    if tongue is not None and not is_half_blind:
        raise BadInput("--tongue is for --half-blind; a plain locking rabbet's tongue is as thick as the cutter.")
    given: dict[str, Any] = {
        "side_thickness": thick,
        "end_thickness": across,
        "cutter": bench.size("--cutter", cutter, "cutter"),
        "practice": bench.shop.practice,
        "rule": bench.shop.rule,
        "dado_depth": bench.size_or_none("--dado-depth", dado_depth, "dado depth asked for"),
        "tip_gap": gap,
    }
    joint: LockingRabbet | HalfBlind
    if is_half_blind:
        joint = design_half_blind(**given, tongue=bench.size_or_none("--tongue", tongue, "tongue asked for"))
    else:
        joint = design_locking_rabbet(**given)
    return Answer(
        _rabbet_headline(bench, joint),
        _rabbet_rows(joint),
        _rabbet_tree(joint),
        joint.findings,
        lambda: _rabbet_boards(joint, thick, across),
    )


def _rabbet_headline(bench: Bench, joint: LockingRabbet | HalfBlind) -> str:
    kind = "Half-blind locking rabbet" if isinstance(joint, HalfBlind) else "Locking rabbet"
    setup = "; one set-up cuts it all" if joint.one_setup else ""
    return f"{kind}: make the end part {bench.text(joint.end_part_addition)} longer than the inside width{setup}."


def _rabbet_rows(joint: LockingRabbet | HalfBlind) -> tuple[tuple[str, Length | str], ...]:
    shared: tuple[tuple[str, Length | str], ...] = (
        ("dado in the side, from its end", joint.dado_offset),
        ("dado width", joint.dado_width),
        ("dado depth", joint.dado_depth),
        ("tongue thickness", joint.tongue_thickness),
        ("tongue length", joint.tongue_length),
    )
    if isinstance(joint, HalfBlind):
        return (
            *shared,
            ("slot in the front's end, width", joint.slot_width),
            ("slot depth", joint.slot_depth),
            ("lip", joint.lip),
            ("tip gap", joint.tip_gap),
        )
    return (
        *shared,
        ("rabbet in the end part, width", joint.rabbet_width),
        ("rabbet depth", joint.rabbet_depth),
        ("tip gap", joint.tip_gap),
    )


def _rabbet_tree(joint: LockingRabbet | HalfBlind) -> dict[str, Any]:
    half_blind = isinstance(joint, HalfBlind)
    cut = (joint.slot_width, joint.slot_depth) if isinstance(joint, HalfBlind) else (joint.rabbet_width, joint.rabbet_depth)
    return {
        "dado": {
            "width": joint.dado_width,
            "depth": joint.dado_depth,
            "offset": joint.dado_offset,
        },
        "tongue": {"thickness": joint.tongue_thickness, "length": joint.tongue_length},
        "slot" if half_blind else "rabbet": {"width": cut[0], "depth": cut[1]},
        "end_part_addition": joint.end_part_addition,
        "lip": joint.lip if isinstance(joint, HalfBlind) else None,
        "tip_gap": joint.tip_gap,
        "one_setup": joint.one_setup,
    }


def _rabbet_boards(joint: LockingRabbet | HalfBlind, thick: Dimension, across: Dimension) -> tuple[Board, ...]:
    side, end_part = Piece("side", thick).board(), Piece("end part", across).board()
    return (
        cut_side(joint, side, Surface.END, end_part.role),
        cut_end_part(joint, end_part, Surface.END, side.role),
    )


#: Where a dado lies along a board is the maker's to say; untold, its template draws it so far from the end.
_DRAWN_AT: Final = {Unit.INCH: "2", Unit.MM: "50"}
#: The part that goes in.
_PANEL: Final = PartRole(PartKind.LONE, called="panel")


def answer_dado(
    bench: Bench, into: str, panel: str, cutter: str | None, depth: str | None, offset: str | None, *, is_stopped: bool
) -> Answer:
    """A dado for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's rules."""
    thick = bench.size("--into", into, "thickness it is cut in")
    joint = design_dado(
        into=thick,
        panel=bench.size("--panel", panel, "panel thickness"),
        shop=bench.shop,
        cutter=bench.size_or_none("--cutter", cutter, "cutter"),
        depth=bench.size_or_none("--depth", depth, "depth asked for"),
        is_stopped=is_stopped,
    )
    place = bench.size_or_none("--offset", offset, "end of the board to the dado")
    stops: list[tuple[str, Length | str]] = [("stops short of the edge that shows", joint.margin)] if is_stopped else []
    if place is not None:
        stops.append(("near wall, from the end of the board", place))
    drawn_at = place or dimension(read_length(_DRAWN_AT[bench.unit], bench.unit))
    tree = {
        "dado": {"width": joint.width, "depth": joint.depth},
        "stopped": joint.margin if is_stopped else None,
        **_cutting(joint.cutter, joint.passes),
    }
    rows = (*_pass_rows(joint.cutter, joint.passes), *stops)
    return Answer(
        f"Dado: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep.",
        rows,
        tree,
        joint.findings,
        lambda: (cut_dado(joint, Piece("part", thick).board(), drawn_at, _PANEL),),
    )


def answer_rabbet(bench: Bench, into: str, panel: str, width: str | None, depth: str | None) -> Answer:
    """A rabbet for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's rules."""
    thick = bench.size("--into", into, "thickness it is cut in")
    joint = design_rabbet(
        into=thick,
        panel=bench.size("--panel", panel, "panel thickness"),
        shop=bench.shop,
        width=bench.size_or_none("--width", width, "width asked for"),
        depth=bench.size_or_none("--depth", depth, "depth asked for"),
    )
    return Answer(
        f"Rabbet: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep.",
        (("wood left beside it", thick - joint.depth),),
        {"rabbet": {"width": joint.width, "depth": joint.depth}},
        joint.findings,
        lambda: (cut_rabbet(joint, Piece("part", thick).board(), Surface.EDGE, _PANEL),),
    )


def answer_groove(bench: Bench, into: str, panel: str, cutter: str | None, offset: str | None, depth: str | None) -> Answer:
    """A bottom groove for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's rules."""
    thick = bench.size("--into", into, "thickness it is cut in")
    joint = design_groove(
        into=thick,
        panel=bench.size("--panel", panel, "panel thickness"),
        shop=bench.shop,
        cutter=bench.size_or_none("--cutter", cutter, "cutter"),
        offset=bench.size_or_none("--offset", offset, "offset asked for"),
        depth=bench.size_or_none("--depth", depth, "depth asked for"),
    )
    tree = {
        "groove": {
            "width": joint.width,
            "depth": joint.depth,
            "offset": joint.offset,
        },
        **_cutting(joint.cutter, joint.passes),
    }
    return Answer(
        f"Groove: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep, {bench.text(joint.offset)} from the bottom edge.",
        _pass_rows(joint.cutter, joint.passes),
        tree,
        joint.findings,
        lambda: (cut_groove(joint, Piece("part", thick).board(), PartRole(PartKind.DRAWER_BOTTOM)),),
    )


#: The ways a channel may be guided: the words of its row, and what is moved between passes, which way.
_GUIDED: Final = (
    (MachineKind.ROUTER_TABLE, Guide.FENCE, "at a router table", "fence away from the cutter"),
    (MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE, "hand-held, edge guide", "guide away from the cutter"),
    (MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE, "hand-held, straightedge", "straightedge back towards the side measured from"),
)  # fmt: skip


def _cutting(cutter: Dimension, passes: Sequence[Pass]) -> dict[str, Any]:
    ways = [
        {"machine": machine.value, "guide": guide.value, "in_words": way_sentence(machine, guide, Role.CHANNEL, is_widened=len(passes) > 1),
         "last_pass_cuts": feeding.fresh.value, "then_move": then}
        for machine, guide, _, then in _GUIDED
        if (feeding := feeding_of(machine, guide)) is not None
    ]  # fmt: skip
    return {"cutter": cutter, "passes": [{"aside": one.aside} for one in passes], "ways": ways}


def _pass_rows(cutter: Dimension, passes: Sequence[Pass]) -> tuple[tuple[str, Length | str], ...]:
    """The cutter, and for each way of guiding which way to feed and what to move between passes (DA-5, MS-6)."""
    rows: list[tuple[str, Length | str]] = [("cutter", cutter), ("passes", str(len(passes)))]
    for machine, guide, where, then in _GUIDED:
        rows.append((where, way_sentence(machine, guide, Role.CHANNEL, is_widened=len(passes) > 1)))
        rows += [
            (f"  pass {n}: {then}{' by' if n == 2 else ', in all by'}", one.aside) for n, one in enumerate(passes[1:], start=2)
        ]
    return tuple(rows)
