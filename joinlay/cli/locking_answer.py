"""The bench's answer for locking rabbets, plain and half-blind."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from joinlay.boards import Surface
from joinlay.cli.bench import Answer
from joinlay.cli.joint_boards import Piece
from joinlay.errors import BadInput
from joinlay.joints.locking_rabbet import HalfBlind, cut_end_part, cut_side, design_half_blind, design_locking_rabbet

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.cli.bench import Bench
    from joinlay.joints.locking_rabbet import LockingRabbet
    from joinlay.lengths import Dimension, Length

__all__ = ["answer_locking_rabbet"]


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
        raise BadInput(f"--tip-gap: {tip_gap} is less than nothing; it must be 0 or more.")
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
        _headline(bench, joint), _rows(joint), _tree(bench, joint), joint.findings, lambda: _boards(joint, thick, across)
    )


def _headline(bench: Bench, joint: LockingRabbet | HalfBlind) -> str:
    kind = "Half-blind locking rabbet" if isinstance(joint, HalfBlind) else "Locking rabbet"
    setup = "; one set-up cuts it all" if joint.one_setup else ""
    return f"{kind}: make the end part {bench.text(joint.end_part_addition)} longer than the inside width{setup}."


def _rows(joint: LockingRabbet | HalfBlind) -> tuple[tuple[str, Length | str], ...]:
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


def _tree(bench: Bench, joint: LockingRabbet | HalfBlind) -> dict[str, Any]:
    said = bench.in_words
    half_blind = isinstance(joint, HalfBlind)
    cut = (joint.slot_width, joint.slot_depth) if isinstance(joint, HalfBlind) else (joint.rabbet_width, joint.rabbet_depth)
    return {
        "dado": {
            "width": said.length(joint.dado_width),
            "depth": said.length(joint.dado_depth),
            "offset": said.length(joint.dado_offset),
        },
        "tongue": {"thickness": said.length(joint.tongue_thickness), "length": said.length(joint.tongue_length)},
        "slot" if half_blind else "rabbet": {"width": said.length(cut[0]), "depth": said.length(cut[1])},
        "end_part_addition": said.length(joint.end_part_addition),
        "lip": said.length(joint.lip) if isinstance(joint, HalfBlind) else None,
        "tip_gap": said.length(joint.tip_gap),
        "one_setup": joint.one_setup,
    }


def _boards(joint: LockingRabbet | HalfBlind, thick: Dimension, across: Dimension) -> tuple[Board, ...]:
    side, end_part = Piece("side", thick).board(), Piece("end part", across).board()
    return (
        cut_side(joint, side, Surface.END, end_part.name),
        cut_end_part(joint, end_part, Surface.END, side.name),
    )
