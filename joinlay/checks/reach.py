"""Whether a cutter of the shop reaches the floor of each cut (CK-7, MS-8)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, Board, Cut, CutKind
from joinlay.checks.clashes import stands_alone
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Length

if TYPE_CHECKING:
    from joinlay.shop import Shop

__all__ = ["check_reach"]


def check_reach(board: Board, shop: Shop) -> tuple[Finding, ...]:
    """A warning for the deepest cut of ``board`` that no cutter of ``shop`` can reach (CK-7); holes and screw slots are a drill's.

    A mortise is reached by its tenon stock's own cutter or any cutter no thicker; a channel by a cutter no wider than it is; a rabbet by
    any cutter that reaches its shorter way.
    """
    routed = [cut for cut in board.cuts if cut.kind is CutKind.MORTISE or not stands_alone(cut)]
    short = [(cut, reach) for cut in routed if (reach := _short_reach(cut, shop)) is not None]
    if not short:
        return ()
    cut, reach = max(short, key=lambda pair: _depth(pair[0]))
    numbers: dict[str, Length | int | str] = {"cut": cut.name, "depth": _depth(cut), "width": _width(cut)}
    what = "The {cut} is {depth} deep and {width} wide; "
    what += "the shop's cutters that fit reach {reach}." if reach else "the shop has no cutter that narrow."
    remedy = "A cutter of {width} or less that reaches {depth} would do"
    remedy += (
        "; so would a shallower mortise." if cut.kind is CutKind.MORTISE else ", or the saw where the cut runs right through."
    )
    return (
        Finding(
            "cutter reach",
            Harm.WARN,
            board.name,
            what,
            {**numbers, "reach": reach},
            "MS-8",
            "common practice",
            remedy,
            "no cutter for the {cut}, {depth} deep",
        ),
    )


def _short_reach(cut: Cut, shop: Shop) -> Length | None:
    """The longest reach among the tools that fit, where it is too short; None where one reaches or nothing limits it."""
    width, depth = _width(cut), _depth(cut)
    reaches: list[Length | None] = [c.reach for c in shop.cutters if cut.kind is CutKind.RABBET or c.diameter <= width]
    if cut.kind is CutKind.MORTISE:
        reaches += [tenon.reach for tenon in shop.tenons if tenon.thickness <= width]
    if any(reach is None or reach >= depth for reach in reaches):
        return None
    return Length(max((reach.mm for reach in reaches if reach is not None), default=ZERO.mm))


def _width(cut: Cut) -> Length:
    return min(_size(cut, axis) for axis in Axis if axis is not cut.surface.axis)


def _depth(cut: Cut) -> Length:
    # A rabbet may be cut standing or lying, whichever is shallower.
    depth = _size(cut, cut.surface.axis)
    return min(depth, _width(cut)) if cut.kind is CutKind.RABBET else depth


def _size(cut: Cut, axis: Axis) -> Length:
    # Its working isn't asked for here.
    span = cut.span(axis)
    return Length(span.stop.mm - span.start.mm)
