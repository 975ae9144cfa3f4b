"""Which cutter, and in how many passes: only what the shop owns (MS-8), none too deep at once (MS-4), one beside the other (DA-5)."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.findings import refusal
from joinlay.lengths import NOTHING, dimension
from joinlay.settings.elements import Pass, Role, Tool, ToolKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.boards import Span
    from joinlay.lengths import Dimension, Length
    from joinlay.settings.feeding import Feeding
    from joinlay.shop import Cutter, Shop

__all__ = ["blade", "dado_set", "depth_steps", "fence_steps", "passes_of", "router_cutter"]


#: How many passes more are as bad as changing the cutter. Our own choice.
_A_CHANGE: Final = 2


def fence_steps(span: Span, tool: Dimension, role: Role) -> tuple[Dimension, ...]:
    """Near sides of the cutter from the fence, the nearest first, for a cut over ``span`` counted from the fence.

    A channel and a tongue begin at the wall near the fence, a step at the edge; from there on in even steps no longer than the cutter is wide.
    Which of them is cut first belongs to the way of guiding (``Feeding``). A step narrower than the cutter takes one pass with the cutter
    partly in the fence. Rule DA-5.
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

    Whole steps of ``most`` first, so that the last pass, which leaves the floor, is the lightest and the heights of several settings
    agree. Rule MS-4.
    """
    if most is None:
        return (depth.named("height of the cutter", "MS-1", "by geometry"),)
    count = ceil(depth / most)
    steps = (dimension(most) * n if n < count else depth for n in range(1, count + 1))
    return tuple(step.named("height of the cutter", "MS-4", "common practice") for step in steps)


def passes_of(span: Span, depth: Dimension, tool: Tool, role: Role, shop: Shop, feeding: Feeding) -> tuple[Pass, ...]:
    """All passes: at each fence position every height, shallow to deep, before the fence is moved (a height is set sooner than a fence).

    The fence positions come in the order that ``feeding`` asks for, so that every pass after the first cuts against the feed. Rules DA-5, MS-6.
    """
    heights = _heights(depth, tool, shop)
    return tuple(Pass(near, height) for near in feeding.in_order(fence_steps(span, tool.width, role)) for height in heights)


def _heights(depth: Dimension, tool: Tool, shop: Shop) -> tuple[Dimension, ...]:
    most = min(tool.width, shop.machines.limits.deepest_pass) if tool.kind is ToolKind.CUTTER else None
    return depth_steps(depth, most)


def router_cutter(
    span: Span, depth: Dimension, role: Role, what: str, shop: Shop, others: Iterable[Length], *, rather_wide: bool = False
) -> Tool:
    """The shop's cutter for a cut over ``span`` (from the fence) and ``depth``.

    A channel or tongue takes the widest that is no wider than the cut: a wider one would spoil a wall, or trap the work between itself and
    the fence. A step, open at the fence, may take any: the one with the fewest passes, where a cutter that is not among the ``others``,
    which the job uses anyway, counts as two passes more; of equals the narrowest, or with ``rather_wide`` the widest. Raises Refused where
    none is narrow enough or long enough, with the one that would do. Rules MS-6, MS-8.
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
        passes = len(fence_steps(span, cutter.diameter, role)) * len(_heights(depth, _tool(cutter), shop))
        return passes + (0 if cutter.diameter in used else _A_CHANGE), -cutter.diameter if rather_wide else cutter.diameter

    return _tool(min(long_enough, key=cost))


def _tool(cutter: Cutter) -> Tool:
    return Tool(ToolKind.CUTTER, cutter.diameter, cutter.reach)


def _refuse_wide(what: str, width: Dimension, shop: Shop) -> None:
    if not shop.cutters:
        raise refusal("cutter", "the {cut} is {width} wide and the shop has no cutter",
                      "A straight cutter of {width}, or a thinner one in several passes, would do.", "MS-8",
                      cut=what, width=width)  # fmt: skip
    thinnest = min(cutter.diameter for cutter in shop.cutters)
    raise refusal("cutter", "the {cut} is {width} wide and the thinnest cutter of the shop is {thinnest}",
                  "A straight cutter of {width}, or a thinner one in several passes, would do.", "MS-8",
                  cut=what, width=width, thinnest=thinnest)  # fmt: skip


def _refuse_short(what: str, depth: Dimension, narrow: Sequence[Cutter]) -> None:
    longest = max(narrow, key=lambda cutter: (cutter.reach, cutter.diameter))
    raise refusal("cutter reach",
                  "the {cut} is {depth} deep and no cutter of the shop that fits it reaches so far; the {diameter} one goes {reach} deep",
                  "A cutter of {diameter} that reaches {depth} would do, or a cut {reach} deep.", "MS-8",
                  cut=what, depth=depth, diameter=longest.diameter, reach=longest.reach)  # fmt: skip


def dado_set(span: Span, depth: Dimension, role: Role, what: str, shop: Shop) -> Tool:
    """The widest stack of the saw's dado set that is no wider than the cut (any, for a step). Raises Refused as for a cutter (MS-8)."""
    saw = shop.machines.table_saw
    widths = saw.dado_widths if saw is not None else ()
    fitting = [width for width in widths if role is Role.STEP or width <= span.size]
    if saw is None or not fitting:
        raise refusal("dado set", "the {cut} is {width} wide and the saw has no dado set that narrow",
                      "A dado set stacked to {width} would do.", "MS-8", cut=what, width=span.size)  # fmt: skip
    _refuse_blade(what, depth, saw.blade_height)
    if role is Role.STEP:
        covering = [width for width in fitting if width >= span.size]
        return Tool(ToolKind.DADO_SET, min(covering) if covering else max(fitting), saw.blade_height)
    return Tool(ToolKind.DADO_SET, max(fitting), saw.blade_height)


def blade(span: Span, depth: Dimension, role: Role, what: str, shop: Shop) -> Tool:
    """The saw's own blade, for single kerfs side by side. Raises Refused where the kerf is wider than the cut (MS-8)."""
    saw, kerf = shop.machines.table_saw, shop.saw.kerf
    if saw is None or (role is not Role.STEP and kerf > span.size):
        raise refusal("saw kerf", "the {cut} is {width} wide and the saw cuts {kerf}",
                      "A blade with a kerf of {width} or less would do.", "MS-8", cut=what, width=span.size, kerf=kerf)  # fmt: skip
    _refuse_blade(what, depth, saw.blade_height)
    return Tool(ToolKind.BLADE, kerf, saw.blade_height)


def _refuse_blade(what: str, depth: Dimension, height: Dimension) -> None:
    if depth > height:
        raise refusal("blade height", "the {cut} is {depth} deep and the saw cuts {height} at most",
                      "Cut it with a router, or no deeper than {height}.", "MS-8", cut=what, depth=depth, height=height)  # fmt: skip
