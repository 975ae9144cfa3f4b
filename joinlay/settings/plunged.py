"""Mortises and holes: the tool goes straight in, at positions along a line that the machine's fence keeps (MS-7)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Axis, CutKind, Shape
from joinlay.findings import Refused, refusal
from joinlay.settings.elements import Guide, Pass, PlainCut, Position, Role, Tool, ToolKind
from joinlay.settings.feeding import feeding_of
from joinlay.settings.lying import Orientation, from_surface, low_and_high, nearer
from joinlay.settings.ways import WayToCut, fence_steps, passes_of, router_cutter
from joinlay.shop import MachineKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board, Cut, Span
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop

__all__ = ["is_plunged", "lying_to_plunge", "position_of", "way_to_plunge"]


def is_plunged(cut: Cut) -> bool:
    """True for a cut that is made by going straight in at a position: mortises, holes, and slots with round ends for screws."""
    return cut.kind in (CutKind.MORTISE, CutKind.HOLE) or (cut.kind is CutKind.SLOT and cut.shape is Shape.ROUND_ENDS)


def _line(cut: Cut) -> Axis:
    """The direction the mortise is long in, and its fellows stand in line in; for round holes along the board where that can
    be.
    """
    axes = [axis for axis in Axis if axis is not cut.surface.axis]
    return max(axes, key=lambda axis: (cut.span(axis).size, -axes.index(axis)))


def lying_to_plunge(board: Board, cut: Cut, steps: Sequence[Dimension] = ()) -> Orientation:
    """How a board lies for a mortise or hole: the reference face to the fence, or for a cut in a face the edge or nearer end
    (MS-7).

    ``steps`` are those of the mortiser's fence (MS-10): where the cut stands at none of them from that surface but does from the
    opposite one, that one lies to the fence.
    """
    narrow = next(axis for axis in Axis if axis not in (_line(cut), cut.surface.axis))
    reference = low_and_high(narrow)[0]
    first = nearer(board, cut.span(narrow), narrow) if narrow is Axis.ALONG else reference
    if steps and cut.kind is CutKind.MORTISE:
        at = {side: from_surface(board, cut.span(narrow), side).centre for side in (first, first.opposite)}
        first = next((side for side, centre in at.items() if centre in steps), first)
    return Orientation(cut.surface, first)


def position_of(board: Board, cut: Cut, way: WayToCut) -> Position:
    """Where the cut stands on its line, from the board's reference, how wide it is along it, and the line itself if it is
    marked. MS-7.
    """
    span, what = cut.span(way.how.feed), "mortise" if cut.kind is CutKind.MORTISE else "hole"
    line = None
    if way.guide is Guide.CENTRE_LINE:
        across = from_surface(board, cut.span(way.how.fence.axis), way.how.fence)
        line = across.centre.named(f"line of the {what}", "MS-7", "common practice")
    return Position(span.centre.named(f"centre of the {what}", "MS-7", "common practice"), span.size, line)


def way_to_plunge(board: Board, cut: Cut, shop: Shop) -> WayToCut:
    """How the shop makes a mortise or hole: mortiser, else router with an edge guide; drill for holes and screw slots.

    The fence stands half the thickness of the part mortised in its end from the cutter's centre, as the plan's cut has it. A face
    mortise farther from its end than the fence goes, or at none of its steps, is cut to a centre line. Raises Refused where the
    shop has nothing that fits. Rules MS-7, MS-8, MS-10.
    """
    how = lying_to_plunge(board, cut, shop.machines.fence_steps)
    span = from_surface(board, cut.span(how.fence.axis), how.fence)
    depth = from_surface(board, cut.span(cut.surface.axis), cut.surface).stop
    if cut.kind is not CutKind.MORTISE:
        return _drilled(cut, how, span, depth, shop)
    try:
        return _mortised(cut, how, span, depth, shop)
    except Refused as no_mortiser:
        try:
            return _routed(cut, how, span, depth, shop)
        except Refused:
            raise no_mortiser from None


def _drilled(cut: Cut, how: Orientation, span: Span, depth: Dimension, shop: Shop) -> WayToCut:
    if not shop.machines.has_drill:
        raise refusal(
            "drill",
            "the {cut} needs a drill and the shop has none",
            "A drill with a {size} bit would do.",
            "MS-8",
            cut=PlainCut.of(cut.role).words,
            size=span.size,
        )
    tool = Tool(ToolKind.BIT, span.size)
    return WayToCut(MachineKind.DRILL, Guide.CENTRE_LINE, how, Role.HOLE, tool, (Pass(_near(span), depth),))


def _near(span: Span) -> Dimension:
    return span.start.named("fence to the near side of the cutter", "MS-7", "common practice")


def _mortised(cut: Cut, how: Orientation, span: Span, depth: Dimension, shop: Shop) -> WayToCut:
    limits = shop.machines
    if not limits.has_mortiser:
        raise refusal(
            "mortiser",
            "the {cut} is {width} wide and the shop has no mortiser",
            "A router cutter of {width} or less that reaches {depth} would do.",
            "MS-8",
            cut=PlainCut.of(cut.role).words,
            width=span.size,
            depth=depth,
        )
    owned = [tenon for tenon in shop.tenons if tenon.thickness == span.size]
    if not owned:
        raise refusal(
            "mortise cutter",
            "the {cut} is {width} wide and the shop has no mortise cutter of that width",
            "A mortise cutter of {width}, or a router cutter no wider that reaches {depth}, would do.",
            "MS-8",
            cut=PlainCut.of(cut.role).words,
            width=span.size,
            depth=depth,
        )
    reach = owned[0].reach
    if reach is not None and reach < depth:
        raise refusal(
            "mortise cutter",
            "the {cut} is {depth} deep and the {width} mortise cutter goes {reach}",
            "A shorter tenon, or a cutter that reaches {depth}, would do.",
            "MS-8",
            cut=PlainCut.of(cut.role).words,
            depth=depth,
            width=span.size,
            reach=reach,
        )
    steps, in_face = limits.fence_steps, cut.surface.axis is Axis.INTO
    guide = (
        Guide.CENTRE_LINE
        if in_face and (span.centre > limits.limits.narrow or (steps and span.centre not in steps))
        else Guide.FENCE
    )
    if steps and guide is Guide.FENCE and span.centre not in steps:
        nearest = min(steps, key=lambda step: abs(step.mm - span.centre.mm))
        raise refusal(
            "fence step",
            "the {cut} has its centre {centre} from the fence, and the mortiser's nearest step is {nearest}",
            "A step at {centre} would do.",
            "MS-10",
            cut=PlainCut.of(cut.role).words,
            centre=span.centre,
            nearest=nearest,
        )
    tool = Tool(ToolKind.MORTISE_CUTTER, owned[0].thickness, reach)
    height = depth.named("depth of the mortise", "MS-7", "common practice")
    return WayToCut(MachineKind.MORTISER, guide, how, Role.MORTISE, tool, (Pass(_near(span), height),))


def _routed(cut: Cut, how: Orientation, span: Span, depth: Dimension, shop: Shop) -> WayToCut:
    router = shop.machines.hand_router
    if router is None:
        raise refusal("hand-held router", "the shop has neither mortiser nor hand-held router", "Either would do.", "MS-8")
    tool = router_cutter(span, depth, Role.CHANNEL, PlainCut.of(cut.role).words, shop, ())
    steps = fence_steps(span, tool.width, Role.CHANNEL)
    guide = Guide.EDGE_GUIDE if max(steps) <= router.guide_reach else Guide.CENTRE_LINE
    feeding = feeding_of(MachineKind.HAND_ROUTER, guide)
    assert feeding is not None
    passes = passes_of(span, depth, tool, Role.CHANNEL, shop, feeding)
    return WayToCut(MachineKind.HAND_ROUTER, guide, how, Role.MORTISE, tool, passes)
