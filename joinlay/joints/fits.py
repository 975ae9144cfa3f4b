"""What every joint asks: is the size a size, which cutter fills the width, in how many passes, and how deep is sound."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import replace
from math import ceil
from typing import TYPE_CHECKING

from joinlay.findings import Refused, Remedy, figure, refusal, warning
from joinlay.lengths import NOTHING, BadSize, rounded_down
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import JointRole
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension, Fraction, Graduation
    from joinlay.shop import Shop

__all__ = [
    "Pass",
    "cutter_or_none",
    "depth_down",
    "findings_at",
    "judge_depth",
    "judge_panel",
    "label",
    "name_of",
    "passes_for",
    "refusals_at",
    "refuse_nothing",
    "refuse_wide_cutter",
    "widest_cutter",
]


@dataclass(frozen=True, slots=True)
class Pass:
    """One pass of the cutter: ``aside`` is how far it lies from the outermost one at either wall.

    Which wall is cut first belongs to the way of guiding, and not to the joint (MS-6).
    """

    aside: Dimension


def label(named: str, words: str) -> str:
    """The name of a number: the joint's label and the plain words; the plain words alone without one."""
    return f"{named} {words}" if named else words


def name_of(role: JointRole | None) -> str:
    """What the joint's numbers begin with; '' for one that is of no piece."""
    return "" if role is None else role.name


def findings_at(named: str, *found: Finding | None) -> tuple[Finding, ...]:
    """The findings that are there, each with the joint's label as its place."""
    return tuple(finding.at(named) if named else finding for finding in found if finding is not None)


@contextmanager
def refusals_at(named: str) -> Iterator[None]:
    """Give a refusal raised in here the joint's label as its place."""
    try:
        yield
    except Refused as refused:
        if not named:
            raise
        raise refused.at(named) from None


def refuse_nothing(**sizes: Dimension | None) -> None:
    """Raise BadInput where a size that is given is zero or negative; the keyword serves as its name where it has none."""
    for what, size in sizes.items():
        if size is not None and size.mm <= 0:
            name = size.name or what.replace("_", " ")
            raise BadSize("{name} is {size}; it must be more than 0.", name=name, size=size)


def passes_for(width: Dimension, cutter: Dimension) -> tuple[Pass, ...]:
    """The passes that cut ``width`` with ``cutter``, which is no wider: from one wall to the other (DA-5).

    In even steps no longer than the cutter is wide, until the last lies width - cutter aside. At which wall they begin, so that
    every pass after the first cuts against the feed, is told by the guide (MS-6). Derived.
    """
    more = ceil(width / cutter) - 1
    if more == 0:
        return (Pass(NOTHING),)
    whole = width - cutter
    return (Pass(NOTHING), *(Pass(whole * n / more if n < more else whole) for n in range(1, more + 1)))


def widest_cutter(shop: Shop, width: Dimension, depth: Dimension, what: str) -> Dimension:
    """The diameter of the widest cutter of the shop that is no wider than ``width`` and reaches ``depth`` (MS-8, CK-7).

    Raises Refused, naming the cutter that would do, where the shop has none; ``what`` is the cut (``dado``).
    """
    fitting = shop.cutters_up_to(width)
    reaching = [cutter for cutter in fitting if cutter.reach >= depth]
    if reaching:
        return reaching[0].diameter
    if fitting:
        reach = max(cutter.reach for cutter in fitting)
        raise refusal(
            "cutter",
            f"No cutter of the shop that fits a {what} {{width}} wide reaches {{depth}}; the longest is {{reach}}.",
            f"A cutter that reaches {{depth}} would do, or a {what} {{reach}} deep.",
            "CK-7",
            width=width,
            depth=depth,
            reach=reach,
        )
    if not shop.cutters:
        raise refusal(
            "cutter",
            f"A {what} {{width}} wide needs a cutter no wider, and the shop has none.",
            "Add a cutter of {width} or less to the shop.",
            "MS-8",
            width=width,
        )
    thinnest = min(cutter.diameter for cutter in shop.cutters)
    raise refusal(
        "cutter",
        f"No cutter of the shop fits a {what} {{width}} wide; the thinnest is {{thinnest}}.",
        f"A cutter of {{width}} or less would do, or a {what} at least {{thinnest}} wide.",
        "MS-8",
        width=width,
        thinnest=thinnest,
    )


def cutter_or_none(shop: Shop, width: Dimension, depth: Dimension, what: str) -> Dimension | None:
    """The same; None where the shop has none, for a joint of a whole piece: which tool makes it is judged with all its cuts
    (MS-8).
    """
    try:
        return widest_cutter(shop, width, depth, what)
    except Refused:
        return None


def refuse_wide_cutter(cutter: Dimension, width: Dimension, what: str, others: Sequence[Dimension] = ()) -> None:
    """Raise Refused where ``cutter`` is wider than the cut (MS-8), naming the widest of ``others`` that would do."""
    if cutter <= width:
        return
    fitting = [other for other in others if other <= width]
    best = max(fitting, default=width)
    raise refusal(
        "cutter",
        f"The {{cutter}} cutter is wider than the {what}, which is {{width}}.",
        "A cutter of {best} would do.",
        "MS-8",
        cutter=cutter,
        width=width,
        best=best,
    )


def depth_down(length: Dimension, rule: Graduation, least: Dimension) -> Dimension:
    """``length`` down to the maker's rule, unless the rule is so coarse that it falls under ``least``: then as it is (MS-2)."""
    down = rounded_down(length, rule)
    return down if down >= least else length


def judge_panel(what: str, panel: Dimension, thickness: Dimension, times: tuple[int, int], rule: str) -> Finding | None:
    """Judge a ``panel`` that goes into a ``what`` in wood of this ``thickness``; ``times`` is how many times as thick it may be
    usually, and at most.

    A warning over the usual most; raises Refused over the utmost: such a pair is a slip of the pen, or a wrong unit. None where
    they go together. ``rule`` is the joint's. Source: our own choice.
    """
    most, utmost = (thickness * each for each in times)
    if panel > utmost:
        raise refusal(
            "panel thickness",
            f"A panel {{panel}} thick can't be held by a {what} in wood only {{thickness}} thick.",
            "A panel of at most {utmost}, {most} being usual, or wood of at least {least}; check both figures and their units.",
            rule,
            "our own choice",
            panel=panel,
            thickness=thickness,
            utmost=utmost,
            most=most,
            least=panel / times[1],
        )
    if panel > most:
        return warning(
            "panel thickness",
            f"The panel is {{panel}} thick, and the wood that holds it in a {what} only {{thickness}}.",
            "A panel of at most {most} is usual.",
            rule,
            "our own choice",
            panel=panel,
            thickness=thickness,
            most=most,
        )
    return None


def judge_depth(
    what: str,
    depth: Dimension,
    thickness: Dimension,
    shares: tuple[Fraction, Fraction, Fraction],
    rule: str,
    set_by: tuple[str, Graduation] | None = None,
) -> Finding | None:
    """Judge the ``depth`` of a ``what`` in wood of this thickness; ``shares`` are the least, the usual most and the utmost.

    The shares are those of DA-2, LR-4, RA-1 or GR-1, and ``rule`` says which. A warning under the least and over the most; raises
    Refused over the utmost. None where it is sound. ``set_by`` is the figure of the practice that sets it, and the maker's rule;
    None at the bench.
    """
    try:
        found = _judged(what, depth, thickness, shares, rule)
    except Refused as refused:
        raise Refused(_with_remedy(refused.finding, thickness, shares, set_by)) from None
    return found and _with_remedy(found, thickness, shares, set_by)


def _with_remedy(
    found: Finding, thickness: Dimension, shares: tuple[Fraction, Fraction, Fraction], set_by: tuple[str, Graduation] | None
) -> Finding:
    """The finding with the depth that would do, on the maker's rule: the most that is usual, or the least."""
    if set_by is None:
        return found
    name, rule = set_by
    best = rule.up(thickness * shares[0]) if "least" in found.numbers else rule.down(thickness * shares[1])
    if not best.mm:
        return found
    way = Remedy("cut it {set} deep", (figure(name, best),))
    return replace(found, numbers={**found.numbers, "set": best}, remedies=(way,))


def _judged(
    what: str, depth: Dimension, thickness: Dimension, shares: tuple[Fraction, Fraction, Fraction], rule: str
) -> Finding | None:
    least, most, utmost = (thickness * share for share in shares)
    if depth > utmost:
        raise refusal(
            f"{what} depth",
            f"A {what} {{depth}} deep leaves too little of wood {{thickness}} thick.",
            "At most {utmost} deep, {most} usual.",
            rule,
            depth=depth,
            thickness=thickness,
            utmost=utmost,
            most=most,
        )
    if depth > most:
        return warning(
            f"{what} depth",
            f"The {what} is {{depth}} deep in wood {{thickness}} thick and weakens it.",
            "{most} deep at most is usual.",
            rule,
            depth=depth,
            thickness=thickness,
            most=most,
        )
    if depth < least:
        return warning(
            f"{what} depth",
            f"The {what} is {{depth}} deep in wood {{thickness}} thick and holds little.",
            "{least} deep at least is usual.",
            rule,
            depth=depth,
            thickness=thickness,
            least=least,
        )
    return None
