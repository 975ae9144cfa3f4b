"""The bench's answers for channels and steps that take another part's thickness: dadoes, rabbets and grooves."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import PartKind, PartRole, Surface
from joinlay.cli.joint_bench import Answer, Piece
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.groove import cut_groove, design_groove
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import Unit, dimension, read_length
from joinlay.settings import Guide, Role, feeding_of
from joinlay.settings.feeding import way_sentence
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.cli.joint_bench import Bench
    from joinlay.joints.fits import Pass
    from joinlay.lengths import Dimension, Length

__all__ = ["answer_dado", "answer_groove", "answer_rabbet"]


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
    """A bottom groove for these sizes, as they were typed. Raises BadInput for what can't be read, Refused by the trade's
    rules.
    """
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
        f"Groove: {bench.text(joint.width)} wide, {bench.text(joint.depth)} deep, {bench.text(joint.offset)} "
        f"from the bottom edge.",
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


def _cutting(cutter: Dimension | None, passes: Sequence[Pass]) -> dict[str, Any]:
    ways = [
        {
            "machine": machine.value,
            "guide": guide.value,
            "in_words": way_sentence(machine, guide, Role.CHANNEL, is_widened=len(passes) > 1),
            "last_pass_cuts": feeding.fresh.value,
            "then_move": then,
        }
        for machine, guide, _, then in _GUIDED
        if (feeding := feeding_of(machine, guide)) is not None
    ]
    return {"cutter": cutter, "passes": [{"aside": one.aside} for one in passes], "ways": ways}


def _pass_rows(cutter: Dimension | None, passes: Sequence[Pass]) -> tuple[tuple[str, Length | str], ...]:
    """The cutter, and for each way of guiding which way to feed and what to move between passes (DA-5, MS-6)."""
    rows: list[tuple[str, Length | str]] = [("passes", str(len(passes)))]
    if cutter is not None:
        rows.insert(0, ("cutter", cutter))
    for machine, guide, where, then in _GUIDED:
        rows.append((where, way_sentence(machine, guide, Role.CHANNEL, is_widened=len(passes) > 1)))
        rows += [
            (f"  pass {n}: {then}{' by' if n == 2 else ', in all by'}", one.aside) for n, one in enumerate(passes[1:], start=2)
        ]
    return tuple(rows)
