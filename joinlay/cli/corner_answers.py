"""The bench's answers for the joints of corners: loose tenons and locking rabbets."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from joinlay.boards import Axis, Surface
from joinlay.cli.joint_bench import Answer, Piece
from joinlay.cli.words import counted
from joinlay.errors import BadInput, nearest_names, quoted
from joinlay.joints.locking_rabbet import HalfBlind, cut_end_part, cut_side, design_half_blind, design_locking_rabbet
from joinlay.joints.loose_tenon import KeepOut, Seat, Use, cut_mortises, design_loose_tenon
from joinlay.lengths import NOTHING
from joinlay.shop import TenonStock

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board
    from joinlay.cli.joint_bench import Bench
    from joinlay.joints.locking_rabbet import LockingRabbet
    from joinlay.joints.loose_tenon import LooseTenon
    from joinlay.lengths import Dimension, Length

__all__ = ["answer_locking_rabbet", "answer_loose_tenon"]


# -- loose tenons ------------------------------------------------------------------------------------


def answer_loose_tenon(
    bench: Bench, end: str, face: str, length: str, tenon: str | None, keep_outs: Sequence[str], use: str, *, is_solid: bool
) -> Answer:
    """Loose tenons for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's rules."""
    thick, deep = bench.size("--end", end, "end part thickness"), bench.size("--face", face, "face part thickness")
    line = bench.size("--length", length, "joint line")
    joint = design_loose_tenon(
        end_thickness=thick,
        face_thickness=deep,
        line=line,
        shop=bench.shop,
        use=_use_called(use),
        is_solid=is_solid,
        tenon=_tenon_stock(bench, tenon),
        keep_outs=[_keep_out(bench, n, spelled) for n, spelled in enumerate(keep_outs, start=1)],
    )
    text = bench.text
    size = f"{text(joint.tenon_thickness)} thick, {text(joint.tenon_width)} wide, {text(joint.tenon_length)} long"
    gaps = {"largest": joint.largest_spacing, "smallest": joint.smallest_spacing}
    rows = [
        *((f"centre {n}, from the datum end", centre) for n, centre in enumerate(joint.centres, start=1)),
        ("mortise width, along the joint", joint.mortise_width(0)),
        ("mortise depth in the end", joint.depth_in_end),
        ("mortise depth in the face", joint.depth_in_face),
        ("mortise centre, above the reference face", joint.from_reference_face),
        *((f"{which} spacing, centre to centre", gap) for which, gap in gaps.items() if gap is not None),
    ]
    if joint.slack:
        rows.insert(len(joint.centres) + 1, ("width of the mortises after the first", joint.mortise_width(1)))
    headline = f"{counted(len(joint.centres), 'loose tenon')}: {size}."
    return Answer(headline, tuple(rows), _tenon_tree(joint), joint.findings, lambda: _tenon_boards(joint, thick, deep, line))


def _tenon_tree(joint: LooseTenon) -> dict[str, Any]:
    return {
        "tenon": {
            "thickness": joint.tenon_thickness,
            "width": joint.tenon_width,
            "length": joint.tenon_length,
        },
        "count": len(joint.centres),
        "centres": list(joint.centres),
        "mortise": {
            "width": joint.mortise_width(0),
            "depth_in_end": joint.depth_in_end,
            "depth_in_face": joint.depth_in_face,
            "from_reference_face": joint.from_reference_face,
            "slack": joint.slack,
        },
        "spacing": {"largest": joint.largest_spacing, "smallest": joint.smallest_spacing},
    }


def _use_called(word: str) -> Use:
    uses = {use.value: use for use in Use}
    if word.casefold() not in uses:
        near = nearest_names(word, tuple(uses), 1)
        raise BadInput(
            f"--in: {quoted(word)} is not known; write {', '.join(uses)}" + (f" (the nearest is {near[0]})." if near else ".")
        )
    return uses[word.casefold()]


def _tenon_stock(bench: Bench, spelled: str | None) -> TenonStock | None:
    """The usual shop's tenon stock of that thickness; where it has none, strip of it with no limit to the mortise's depth."""
    thickness = bench.size_or_none("--tenon", spelled, "tenon stock")
    if thickness is None:
        return None
    return next((owned for owned in bench.shop.tenons if owned.thickness == thickness), TenonStock(thickness))


def _keep_out(bench: Bench, n: int, spelled: str) -> KeepOut:
    start, colon, stop = spelled.partition(":")
    if not colon:
        raise BadInput(f"--keep-out: {quoted(spelled)} is no extent; write FROM:TO from the datum end, such as 3/8:5/8.")
    name = f"keep-out {n}"
    extent = [bench.length("--keep-out", one, f"{name} {word}") for one, word in ((start, "start"), (stop, "end"))]
    if extent[0].mm < 0:
        raise BadInput(f"--keep-out: {quoted(spelled)} begins before the datum end; write FROM:TO with FROM 0 or more.")
    if extent[1] <= extent[0]:
        raise BadInput(f"--keep-out: {quoted(spelled)} ends before it begins; write the end nearer the datum first.")
    return KeepOut(extent[0], extent[1], name)


def _tenon_boards(joint: LooseTenon, thick: Dimension, deep: Dimension, line: Dimension) -> tuple[Board, ...]:
    """The two parts, set as at a corner: the end part's outer face flush with the end of the face part."""
    end_part = Piece("end part", thick, line).board()
    face_part = Piece("face part", deep, line).board()
    in_end = Seat(Surface.END, Axis.ACROSS, NOTHING, joint.from_reference_face)
    in_face = Seat(Surface.FACE, Axis.ACROSS, NOTHING, joint.from_reference_face)
    return (
        cut_mortises(joint, end_part, in_end, joint.depth_in_end, face_part.role),
        cut_mortises(joint, face_part, in_face, joint.depth_in_face, end_part.role),
    )


# -- locking rabbets ---------------------------------------------------------------------------------


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
    """A locking rabbet for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's
    rules.
    """
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
