"""One cut, one board, one machine: can it be done there, with which cutter, and in which passes (MS-5, MS-6, MS-8)."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from joinlay.findings import refusal
from joinlay.settings.cut_names import kind_of_cut
from joinlay.settings.elements import Guide, Role
from joinlay.settings.feeding import feeding_of
from joinlay.settings.orientation import Orientation, from_surface
from joinlay.settings.tool_choice import blade, dado_set, passes_of, router_cutter
from joinlay.settings.ways import role_of
from joinlay.shop import MachineKind, RouterTable

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable

    from joinlay.boards import Board, Cut, Span
    from joinlay.lengths import Dimension, Length
    from joinlay.settings.elements import Pass, Tool
    from joinlay.shop import Shop, TableSaw

__all__ = ["Attempt", "Way", "at_hand_router", "at_router_table", "at_saw_blade", "at_saw_dado_set"]


@dataclass(frozen=True, slots=True)
class Attempt:
    """A cut asked for: on ``board``, lying ``how``, with what the shop has; ``others`` are cutter diameters the job uses anyway.

    ``rather_wide`` True: of cutters that do a step equally well, the widest.
    """

    board: Board
    cut: Cut
    how: Orientation
    shop: Shop
    others: frozenset[Length]
    rather_wide: bool = False

    @property
    def role(self) -> Role:
        """What the fence and height decide."""
        return role_of(self.board, self.cut, self.how)

    @property
    def span(self) -> Span:
        """The cut's walls, counted from the fence."""
        return from_surface(self.board, self.cut.span(self.how.fence.axis), self.how.fence)

    @property
    def depth(self) -> Dimension:
        """How far the cutter goes in."""
        return from_surface(self.board, self.cut.span(self.how.entry.axis), self.how.entry).stop

    @property
    def is_stopped(self) -> bool:
        """True where the cut does not run from one side of the board to the other."""
        span = self.cut.span(self.how.feed)
        return bool(span.start) or span.stop != self.board.size(self.how.feed)


@dataclass(frozen=True, slots=True)
class Way:
    """A way of making a cut that works: everything that is set, before parts are brought together."""

    machine: MachineKind
    guide: Guide
    how: Orientation
    role: Role
    tool: Tool
    passes: tuple[Pass, ...]
    offset: Dimension | None = None

    @property
    def likeness(self) -> Hashable:
        """Ways with the same likeness need the same set-up: where the cut is made to a pencil line, the line may lie anywhere (MS-3)."""
        passes: Hashable = self.passes
        if self.guide is Guide.CENTRE_LINE:
            first = self.passes[0].near_side
            passes = tuple((each.near_side - first, each.height) for each in self.passes)
        return self.machine, self.guide, self.tool, self.role, passes, self.offset


def _cutter(asked: Attempt) -> Tool:
    name = kind_of_cut(asked.cut.name)
    return router_cutter(asked.span, asked.depth, asked.role, name, asked.shop, asked.others, rather_wide=asked.rather_wide)


def at_router_table(asked: Attempt) -> Way:
    """The cut at the router table. Raises Refused where there is none, the part is too large for it, or no cutter serves."""
    table = asked.shop.machines.router_table
    if table is None:
        raise refusal("router table", "the shop has no router table", "A hand-held router would do.", "MS-5")
    _refuse_large(asked, table, "router table")
    tool = _cutter(asked)
    return _at_table(asked, MachineKind.ROUTER_TABLE, tool)


def at_saw_dado_set(asked: Attempt) -> Way:
    """The cut at the table saw with its dado set. Raises Refused as for a router table, and for a stopped cut."""
    return _at_saw(asked, dado_set)


def at_saw_blade(asked: Attempt) -> Way:
    """The cut at the table saw in single kerfs. Raises Refused as for a router table, and for a stopped cut."""
    return _at_saw(asked, blade)


def _at_saw(asked: Attempt, choose: Callable[[Span, Dimension, Role, str, Shop], Tool]) -> Way:
    saw = asked.shop.machines.table_saw
    if saw is None:
        raise refusal("table saw", "the shop has no table saw", "A router would do.", "MS-5")
    if asked.is_stopped:
        raise refusal("stopped cut", "the {cut} stops in the wood, and a saw blade leaves a long curved end",
                      "Cut it with a router.", "MS-5", cut=kind_of_cut(asked.cut.name))  # fmt: skip
    _refuse_large(asked, saw, "table saw")
    return _at_table(
        asked, MachineKind.TABLE_SAW, choose(asked.span, asked.depth, asked.role, kind_of_cut(asked.cut.name), asked.shop)
    )


def _at_table(asked: Attempt, machine: MachineKind, tool: Tool) -> Way:
    return Way(machine, Guide.FENCE, asked.how, asked.role, tool, _passes(asked, tool, machine, Guide.FENCE))


def _passes(asked: Attempt, tool: Tool, machine: MachineKind, guide: Guide) -> tuple[Pass, ...]:
    feeding = feeding_of(machine, guide)
    assert feeding is not None
    return passes_of(asked.span, asked.depth, tool, asked.role, asked.shop, feeding)


def _refuse_large(asked: Attempt, machine: RouterTable | TableSaw, name: str) -> None:
    """MS-5: wide and long panels, and parts too tall on end, are not carried over a table; nor does the fence reach for ever."""
    board, how = asked.board, asked.how
    run, out = board.size(how.feed), board.size(how.fence.axis)
    if run > machine.longest:
        raise refusal("large part", "it is {run} along the fence and a {machine} takes {most}", "Cut it on the bench.",
                      "MS-5", machine=name, run=run, most=machine.longest)  # fmt: skip
    if not how.stands and out > machine.farthest:
        raise refusal("large part", "it reaches {out} from the fence and a {machine} takes {most}", "Cut it on the bench.",
                      "MS-5", machine=name, out=out, most=machine.farthest)  # fmt: skip
    tallest = asked.shop.machines.limits.tallest_on_end
    if how.stands and board.size(how.entry.axis) > tallest:
        raise refusal("tall part", "it would stand {tall} high on the {machine}, and {most} is the most that can be held upright",
                      "Clamp it upright in the bench and cut it with a hand-held router, or use a joint that is cut lying flat.",
                      "MS-5", tall=board.size(how.entry.axis), machine=name, most=tallest)  # fmt: skip
    if asked.span.start > machine.fence_reach:
        raise refusal("fence reach", "the cut begins {start} from the fence, and the fence goes {most} from the cutter",
                      "Clamp a straightedge to the work.", "MS-5", start=asked.span.start, most=machine.fence_reach)  # fmt: skip


def at_hand_router(asked: Attempt) -> Way:
    """The cut with a hand-held router: its edge guide where that reaches, else a straightedge clamped to the work (MS-5).

    The straightedge stands as far from the near wall as the cutter from the edge of the base, on the side of the surface measured from; so
    its far wall is cut first (MS-6). Raises Refused where the shop has no such router, no cutter serves, or neither guide can be placed.
    """
    router = asked.shop.machines.hand_router
    if router is None:
        raise refusal("hand-held router", "the shop has no hand-held router", "A router with a straightedge would do.", "MS-5")
    tool = _cutter(asked)
    passes = _passes(asked, tool, MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE)
    if max(each.near_side for each in passes) <= router.guide_reach:
        return Way(MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE, asked.how, asked.role, tool, passes)
    offset = router.offset(tool.width)
    if asked.how.stands or asked.span.start < offset:
        raise refusal("straightedge", "the cut begins {start} from the edge, past the edge guide, and leaves no room for a straightedge",
                      "An edge guide that reaches {start}, or a router base {base} wide or less, would do.", "MS-5",
                      start=asked.span.start, base=asked.span.start * 2 + tool.width)  # fmt: skip
    passes = _passes(asked, tool, MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE)
    guided = tuple(replace(each, guide=_guide(each.near_side, offset)) for each in passes)
    return Way(MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE, asked.how, asked.role, tool, guided, offset)


def _guide(near_side: Dimension, offset: Dimension) -> Dimension:
    return (near_side - offset).named("straightedge", "MS-5", "by geometry")
