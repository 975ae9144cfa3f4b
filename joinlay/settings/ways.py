"""One cut, one board, one machine: can it be done there, with which cutter, and in which passes (DA-5, MS-4 to MS-6, MS-8)."""

from __future__ import annotations

from dataclasses import field, replace
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.findings import refusal
from joinlay.lengths import NOTHING, dimension
from joinlay.records import dataclass
from joinlay.settings.elements import Guide, Pass, PlainCut, Role, Tool, ToolKind
from joinlay.settings.feeding import feeding_of
from joinlay.settings.lying import Orientation, from_surface, role_of
from joinlay.shop import MachineKind, RouterTable

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Sequence

    from joinlay.boards import Board, Cut, Span
    from joinlay.lengths import Dimension, Length
    from joinlay.settings.feeding import Feeding
    from joinlay.shop import Cutter, Shop, TableSaw

__all__ = [
    "Attempt",
    "WayToCut",
    "at_hand_router",
    "at_router_table",
    "at_saw_blade",
    "at_saw_dado_set",
    "blade",
    "dado_set",
    "depth_steps",
    "fence_steps",
    "passes_of",
    "refuse_large",
    "router_cutter",
]


@dataclass(frozen=True, slots=True)
class Attempt:
    """A cut asked for: on ``board``, lying ``how``, with what the shop has; ``others`` are cutter diameters the job uses anyway.

    ``rather_wide`` True: of cutters that do a step equally well, the widest. ``role`` is what the fence and height decide,
    ``span`` the cut's walls, counted from the fence, and ``depth`` how far the cutter goes in.
    """

    board: Board
    cut: Cut
    how: Orientation
    shop: Shop
    others: frozenset[Length]
    rather_wide: bool = False
    role: Role = field(init=False)
    span: Span = field(init=False)
    depth: Dimension = field(init=False)

    def __post_init__(self) -> None:
        """Keep what every machine asks for."""
        board, cut, how = self.board, self.cut, self.how
        object.__setattr__(self, "role", role_of(board, cut, how))
        object.__setattr__(self, "span", from_surface(board, cut.span(how.fence.axis), how.fence))
        object.__setattr__(self, "depth", from_surface(board, cut.span(how.entry.axis), how.entry).stop)

    @property
    def is_stopped(self) -> bool:
        """True where the cut does not run from one side of the board to the other."""
        span = self.cut.span(self.how.feed)
        return bool(span.start) or span.stop != self.board.size(self.how.feed)


@dataclass(frozen=True, slots=True)
class WayToCut:
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
        """Ways with the same likeness need the same set-up: where the cut is made to a pencil line, the line may lie anywhere
        (MS-3).
        """
        passes: Hashable = self.passes
        if self.guide is Guide.CENTRE_LINE:
            first = self.passes[0].near_side
            passes = tuple((each.near_side - first, each.height) for each in self.passes)
        return self.machine, self.guide, self.tool, self.role, passes, self.offset


def _cutter(asked: Attempt) -> Tool:
    name = PlainCut.of(asked.cut.role).words
    return router_cutter(asked.span, asked.depth, asked.role, name, asked.shop, asked.others, rather_wide=asked.rather_wide)


def at_router_table(asked: Attempt) -> WayToCut:
    """The cut at the router table. Raises Refused where there is none, the part is too large for it, or no cutter serves."""
    table = asked.shop.machines.router_table
    if table is None:
        raise refusal("router table", "the shop has no router table", "A hand-held router would do.", "MS-5")
    refuse_large(asked, table, "router table")
    tool = _cutter(asked)
    return _at_table(asked, MachineKind.ROUTER_TABLE, tool)


def at_saw_dado_set(asked: Attempt) -> WayToCut:
    """The cut at the table saw with its dado set. Raises Refused as for a router table, and for a stopped cut."""
    return _at_saw(asked, dado_set)


def at_saw_blade(asked: Attempt) -> WayToCut:
    """The cut at the table saw in single kerfs. Raises Refused as for a router table, and for a stopped cut."""
    return _at_saw(asked, blade)


def _at_saw(asked: Attempt, choose: Callable[[Span, Dimension, Role, str, Shop], Tool]) -> WayToCut:
    saw = asked.shop.machines.table_saw
    if saw is None:
        raise refusal("table saw", "the shop has no table saw", "A router would do.", "MS-5")
    if asked.is_stopped:
        raise refusal(
            "stopped cut",
            "the {cut} stops in the wood, and a saw blade leaves a long curved end",
            "Cut it with a router.",
            "MS-5",
            cut=PlainCut.of(asked.cut.role).words,
        )
    refuse_large(asked, saw, "table saw")
    return _at_table(
        asked, MachineKind.TABLE_SAW, choose(asked.span, asked.depth, asked.role, PlainCut.of(asked.cut.role).words, asked.shop)
    )


def _at_table(asked: Attempt, machine: MachineKind, tool: Tool) -> WayToCut:
    return WayToCut(machine, Guide.FENCE, asked.how, asked.role, tool, _passes(asked, tool, machine, Guide.FENCE))


def _passes(asked: Attempt, tool: Tool, machine: MachineKind, guide: Guide) -> tuple[Pass, ...]:
    feeding = feeding_of(machine, guide)
    assert feeding is not None
    return passes_of(asked.span, asked.depth, tool, asked.role, asked.shop, feeding)


def refuse_large(asked: Attempt, machine: RouterTable | TableSaw, name: str) -> None:
    """MS-5: wide and long panels, and parts too tall on end, are not carried over a table; nor does the fence reach for ever."""
    board, how = asked.board, asked.how
    run, out = board.size(how.feed), board.size(how.fence.axis)
    if run > machine.longest:
        raise refusal(
            "large part",
            "it is {run} along the fence and a {machine} takes {most}",
            "Cut it on the bench.",
            "MS-5",
            machine=name,
            run=run,
            most=machine.longest,
        )
    if not how.stands and out > machine.farthest:
        raise refusal(
            "large part",
            "it reaches {out} from the fence and a {machine} takes {most}",
            "Cut it on the bench.",
            "MS-5",
            machine=name,
            out=out,
            most=machine.farthest,
        )
    tallest = asked.shop.machines.limits.tallest_on_end
    if how.stands and board.size(how.entry.axis) > tallest:
        raise refusal(
            "tall part",
            "it would stand {tall} high on the {machine}, and {most} is the most that can be held upright",
            "Clamp it upright in the bench and cut it with a hand-held router, or use a joint that is cut lying flat.",
            "MS-5",
            tall=board.size(how.entry.axis),
            machine=name,
            most=tallest,
        )
    if asked.span.start > machine.fence_reach:
        raise refusal(
            "fence reach",
            "the cut begins {start} from the fence, and the fence goes {most} from the cutter",
            "Clamp a straightedge to the work.",
            "MS-5",
            start=asked.span.start,
            most=machine.fence_reach,
        )


def at_hand_router(asked: Attempt) -> WayToCut:
    """The cut with a hand-held router: its edge guide where that reaches, else a straightedge clamped to the work (MS-5).

    The straightedge stands as far from the near wall as the cutter from the edge of the base, on the side of the surface measured
    from; so its far wall is cut first (MS-6). Raises Refused where the shop has no such router, no cutter serves, or neither
    guide can be placed.
    """
    router = asked.shop.machines.hand_router
    if router is None:
        raise refusal("hand-held router", "the shop has no hand-held router", "A router with a straightedge would do.", "MS-5")
    tool = _cutter(asked)
    passes = _passes(asked, tool, MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE)
    if max(each.near_side for each in passes) <= router.guide_reach:
        return WayToCut(MachineKind.HAND_ROUTER, Guide.EDGE_GUIDE, asked.how, asked.role, tool, passes)
    offset = router.offset(tool.width)
    if asked.how.stands or asked.span.start < offset:
        raise refusal(
            "straightedge",
            "the cut begins {start} from the edge, past the edge guide, and leaves no room for a straightedge",
            "An edge guide that reaches {start}, or a router base {base} wide or less, would do.",
            "MS-5",
            start=asked.span.start,
            base=asked.span.start * 2 + tool.width,
        )
    passes = _passes(asked, tool, MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE)
    guided = tuple(replace(each, guide=_guide(each.near_side, offset)) for each in passes)
    return WayToCut(MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE, asked.how, asked.role, tool, guided, offset)


def _guide(near_side: Dimension, offset: Dimension) -> Dimension:
    return (near_side - offset).named("straightedge", "MS-5", "by geometry")


# -- which cutter, and in how many passes: only what the shop owns -------------------------------------------


#: How many passes more are as bad as changing the cutter. Our own choice.
_A_CHANGE: Final = 2


def fence_steps(span: Span, tool: Dimension, role: Role) -> tuple[Dimension, ...]:
    """Near sides of the cutter from the fence, the nearest first, for a cut over ``span`` counted from the fence.

    A channel and a tongue begin at the wall near the fence, a step at the edge; from there on in even steps no longer than the
    cutter is wide. Which of them is cut first belongs to the way of guiding (``Feeding``). A step narrower than the cutter takes
    one pass with the cutter partly in the fence. Rule DA-5.
    """
    near, last = span.start, span.stop - tool
    if role is Role.STEP and last <= NOTHING:
        return (_named(last),)
    more = ceil(span.size / tool) - 1
    between = (near + (last - near) * n / more for n in range(1, more))
    return tuple(_named(step) for step in (near, *between, *([last] if more else [])))


def _named(near_side: Dimension) -> Dimension:
    return near_side.named("fence to the near side of the cutter", "MS-1", "by geometry")


def depth_steps(depth: Dimension, most: Length | None) -> tuple[Dimension, ...]:
    """Heights of the passes, the last one ``depth``; none takes more than ``most`` at once (None: no limit).

    Whole steps of ``most`` first, so that the last pass, which leaves the floor, is the lightest and the heights of several
    settings agree. Rule MS-4.
    """
    if most is None:
        return (depth.named("height of the cutter", "MS-1", "by geometry"),)
    count = ceil(depth / most)
    steps = (dimension(most) * n if n < count else depth for n in range(1, count + 1))
    return tuple(step.named("height of the cutter", "MS-4", "common practice") for step in steps)


def passes_of(span: Span, depth: Dimension, tool: Tool, role: Role, shop: Shop, feeding: Feeding) -> tuple[Pass, ...]:
    """All passes: at each fence position every height, shallow to deep, before the fence is moved (a height is set sooner than a
    fence).

    The fence positions come in the order that ``feeding`` asks for, so that every pass after the first cuts against the feed.
    Rules DA-5, MS-6.
    """
    heights = _heights(depth, tool, shop)
    return tuple(Pass(near, height) for near in feeding.in_order(fence_steps(span, tool.width, role)) for height in heights)


def _heights(depth: Dimension, tool: Tool, shop: Shop) -> tuple[Dimension, ...]:
    return depth_steps(depth, _deepest(tool.width, shop) if tool.kind is ToolKind.CUTTER else None)


def _deepest(diameter: Length, shop: Shop) -> Length:
    """The most that a cutter takes at once (MS-4)."""
    return min(diameter, shop.machines.limits.deepest_pass)


def router_cutter(
    span: Span, depth: Dimension, role: Role, what: str, shop: Shop, others: Iterable[Length], *, rather_wide: bool = False
) -> Tool:
    """The shop's cutter for a cut over ``span`` (from the fence) and ``depth``.

    A channel or tongue takes the widest that is no wider than the cut: a wider one would spoil a wall, or trap the work between
    itself and the fence. A step, open at the fence, may take any: the one with the fewest passes, where a cutter that is not
    among the ``others``, which the job uses anyway, counts as two passes more; of equals the narrowest, or with ``rather_wide``
    the widest. Raises Refused where none is narrow enough or long enough, with the one that would do. Rules MS-6, MS-8.
    """
    narrow = shop.cutters if role is Role.STEP else shop.cutters_up_to(span.size)
    if not narrow:
        _refuse_wide(what, span.size, shop)
    long_enough = [cutter for cutter in narrow if cutter.reach >= depth]
    if not long_enough:
        _refuse_short(what, depth, narrow)
    if role is not Role.STEP:
        return _tool(long_enough[0])
    used = set(others)

    def cost(cutter: Cutter) -> tuple[int, Length]:
        passes = ceil(span.size / cutter.diameter) * ceil(depth / _deepest(cutter.diameter, shop))
        return passes + (0 if cutter.diameter in used else _A_CHANGE), -cutter.diameter if rather_wide else cutter.diameter

    return _tool(min(long_enough, key=cost))


def _tool(cutter: Cutter) -> Tool:
    return Tool(ToolKind.CUTTER, cutter.diameter, cutter.reach)


def _refuse_wide(what: str, width: Dimension, shop: Shop) -> None:
    if not shop.cutters:
        raise refusal(
            "cutter",
            "the {cut} is {width} wide and the shop has no cutter",
            "A straight cutter of {width}, or a thinner one in several passes, would do.",
            "MS-8",
            cut=what,
            width=width,
        )
    thinnest = min(cutter.diameter for cutter in shop.cutters)
    raise refusal(
        "cutter",
        "the {cut} is {width} wide and the thinnest cutter of the shop is {thinnest}",
        "A straight cutter of {width}, or a thinner one in several passes, would do.",
        "MS-8",
        cut=what,
        width=width,
        thinnest=thinnest,
    )


def _refuse_short(what: str, depth: Dimension, narrow: Sequence[Cutter]) -> None:
    longest = max(narrow, key=lambda cutter: (cutter.reach, cutter.diameter))
    raise refusal(
        "cutter reach",
        "the {cut} is {depth} deep and no cutter of the shop that fits it reaches so far; the {diameter} one goes {reach} deep",
        "A cutter of {diameter} that reaches {depth} would do, or a cut {reach} deep.",
        "MS-8",
        cut=what,
        depth=depth,
        diameter=longest.diameter,
        reach=longest.reach,
    )


def dado_set(span: Span, depth: Dimension, role: Role, what: str, shop: Shop) -> Tool:
    """The widest stack of the saw's dado set that is no wider than the cut (any, for a step). Raises Refused as for a cutter
    (MS-8).
    """
    saw = shop.machines.table_saw
    widths = saw.dado_widths if saw is not None else ()
    fitting = [width for width in widths if role is Role.STEP or width <= span.size]
    if saw is None or not fitting:
        raise refusal(
            "dado set",
            "the {cut} is {width} wide and the saw has no dado set that narrow",
            "A dado set stacked to {width} would do.",
            "MS-8",
            cut=what,
            width=span.size,
        )
    _refuse_blade(what, depth, saw.blade_height)
    if role is Role.STEP:
        covering = [width for width in fitting if width >= span.size]
        return Tool(ToolKind.DADO_SET, min(covering) if covering else max(fitting), saw.blade_height)
    return Tool(ToolKind.DADO_SET, max(fitting), saw.blade_height)


def blade(span: Span, depth: Dimension, role: Role, what: str, shop: Shop) -> Tool:
    """The saw's own blade, for single kerfs side by side. Raises Refused where the kerf is wider than the cut (MS-8)."""
    saw, kerf = shop.machines.table_saw, shop.saw.kerf
    if saw is None or (role is not Role.STEP and kerf > span.size):
        raise refusal(
            "saw kerf",
            "the {cut} is {width} wide and the saw cuts {kerf}",
            "A blade with a kerf of {width} or less would do.",
            "MS-8",
            cut=what,
            width=span.size,
            kerf=kerf,
        )
    _refuse_blade(what, depth, saw.blade_height)
    return Tool(ToolKind.BLADE, kerf, saw.blade_height)


def _refuse_blade(what: str, depth: Dimension, height: Dimension) -> None:
    if depth > height:
        raise refusal(
            "blade height",
            "the {cut} is {depth} deep and the saw cuts {height} at most",
            "Cut it with a router, or no deeper than {height}.",
            "MS-8",
            cut=what,
            depth=depth,
            height=height,
        )
