"""The bench's answers for dadoes, rabbets and grooves: a channel or step that takes the thickness of another part."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import Surface
from joinlay.cli.bench import Answer
from joinlay.cli.joint_boards import Piece
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.groove import cut_groove, design_groove
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import Unit, dimension, read_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.cli.bench import Bench
    from joinlay.joints.fits import Pass
    from joinlay.lengths import Dimension, Length

__all__ = ["answer_dado", "answer_groove", "answer_rabbet"]

#: Where a dado lies along a board is the maker's to say; untold, its template draws it so far from the end.
_DRAWN_AT: Final = {Unit.INCH: "2", Unit.MM: "50"}


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
    said = bench.in_words
    tree = {
        "dado": {"width": said.length(joint.width), "depth": said.length(joint.depth)},
        "stopped": said.length(joint.margin) if is_stopped else None,
        **_cutting(bench, joint.cutter, joint.passes),
    }
    rows = (*_pass_rows(joint.cutter, joint.passes), *stops)
    return Answer(
        f"Dado: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep.",
        rows,
        tree,
        joint.findings,
        lambda: (cut_dado(joint, Piece("part", thick).board(), drawn_at, "panel"),),
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
    said = bench.in_words
    return Answer(
        f"Rabbet: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep.",
        (("wood left beside it", thick - joint.depth),),
        {"rabbet": {"width": said.length(joint.width), "depth": said.length(joint.depth)}},
        joint.findings,
        lambda: (cut_rabbet(joint, Piece("part", thick).board(), Surface.EDGE, "panel"),),
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
    said = bench.in_words
    tree = {
        "groove": {
            "width": said.length(joint.width),
            "depth": said.length(joint.depth),
            "offset": said.length(joint.offset),
        },
        **_cutting(bench, joint.cutter, joint.passes),
    }
    return Answer(
        f"Groove: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep, {bench.text(joint.offset)} from the bottom edge.",
        _pass_rows(joint.cutter, joint.passes),
        tree,
        joint.findings,
        lambda: (cut_groove(joint, Piece("part", thick).board(), "bottom"),),
    )


def _cutting(bench: Bench, cutter: Dimension, passes: Sequence[Pass]) -> dict[str, Any]:
    said = bench.in_words
    return {"cutter": said.length(cutter), "passes": [{"fence_move": said.length(one.fence_move)} for one in passes]}


def _pass_rows(cutter: Dimension, passes: Sequence[Pass]) -> tuple[tuple[str, Length | str], ...]:
    """The cutter, and how the fence moves between passes (DA-5, MS-6)."""
    moves = [(f"pass {n}: fence away from the cutter by", one.fence_move) for n, one in enumerate(passes[1:], start=2)]
    return (("cutter", cutter), ("passes", str(len(passes))), *moves)
