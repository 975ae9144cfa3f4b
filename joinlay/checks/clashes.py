"""Cuts that meet in one board, or come so near each other that the wood between breaks (CK-7, LT-11, DA-3).

Grooves, dadoes and rabbets may run into one another: that is how a bottom reaches into a corner. A mortise, a hole or a slot for
a screw may meet nothing at all.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from math import sqrt
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Board, Cut, CutKind, CutUse, Shape, Span
from joinlay.findings import Finding, Harm
from joinlay.lengths import ZERO, Fine, Fraction, Length, mm

if TYPE_CHECKING:
    from collections.abc import Iterable

    from joinlay.shop import Practice

__all__ = ["check_clashes", "stands_alone", "wood_between"]

#: Channels: what may meet from one side, but not from both faces at one place.
#: What is moved in a job, and the key that moves it, by what a cut is for.
_MOVED_BY: Final = {
    CutUse.GROOVE: "groove (groove-offset)",
    CutUse.PULL_HOLE: "pull (share and from-top under [pulls])",
    CutUse.STOP_NOTCH: "stops (stop-width under [practice])",
    CutUse.DADO: "dado (back-set-in of a drawer; bottom-offset and top-offset under [case])",
}

_CHANNELS: Final = (CutKind.GROOVE, CutKind.DADO)
#: Wood left between two channels in opposite faces, as a share of the thickness.
_BETWEEN_FACES: Final = Fraction(1, 3)
#: Less than this is no wood at all.
_HAIR: Final = mm("0.001")


def stands_alone(cut: Cut) -> bool:
    """True for a mortise, a hole or a round-ended slot, which no other cut may touch; the slot of a corner joint is a channel
    (CK-7).
    """
    if cut.kind is CutKind.SLOT:
        return cut.shape is not Shape.SQUARE
    return cut.kind in (CutKind.MORTISE, CutKind.HOLE)


def wood_between(one: Cut, other: Cut) -> Length:
    """The shortest way through wood from one cut to the other; nothing where they touch or overlap.

    Exact where they lie apart in one direction only; askew it is rounded down to 0.001 mm. Round ends count as square, so this
    errs to the safe side. Rule LT-11; derived.
    """
    steps = [step for step in map(_apart, one.spans, other.spans) if step]
    if len(steps) <= 1:
        return Length(steps[0]) if steps else ZERO
    return Length(Fraction(int(sqrt(sum(step * step for step in steps)) * 1000), 1000))


def _apart(one: Span, other: Span) -> Fraction | int:
    # Compared before they are taken from each other: most cuts of a board lie far apart one way only.
    if other.start.mm > one.stop.mm:
        return other.start.mm - one.stop.mm
    if one.start.mm > other.stop.mm:
        return one.start.mm - other.stop.mm
    return 0


def check_clashes(board: Board, practice: Practice) -> tuple[Finding, ...]:
    """What is wrong between the cuts of ``board``: at most one refusal and one warning, each for its worst place.

    Refused: a mortise, hole or screw slot that meets another cut, and channels from both faces that meet. Warned of: wood between
    them thinner than ``keep-out clearance`` (LT-11), or than a third of the thickness between two faces (DA-3).
    """
    met: list[Finding] = []
    near: list[tuple[Length, Finding]] = []
    for one, other in _near_each_other(board, practice):
        limit, rule = _limit(board, one, other, practice)
        if not limit:
            continue
        between = wood_between(one, other)
        if between >= limit:
            continue
        if not between:
            met.append(_meets(board, one, other, practice, rule))
        else:
            near.append((between, _too_near(board, one, other, between, limit, rule)))
    worst = min(near, key=lambda pair: pair[0], default=None)
    found = ([_with_more(met[0], len(met))] if met else []) + ([_with_more(worst[1], len(near))] if worst else [])
    return tuple(found)


#: Of a board with no more cuts every two are compared.
_FEW: Final = 12


def _near_each_other(board: Board, practice: Practice) -> Iterable[tuple[Cut, Cut]]:
    """Every two cuts that may be nearer than any rule asks for, in the order of the cuts: of a long row only neighbours."""
    if len(board.cuts) <= _FEW:
        return combinations(board.cuts, 2)
    most = max(practice.length("keep-out clearance"), board.thickness * _BETWEEN_FACES, _HAIR).mm
    run = max((Axis.ALONG, Axis.ACROSS), key=lambda axis: len({cut.span(axis).start.mm for cut in board.cuts}))
    spans = [(cut.span(run).start.mm, cut.span(run).stop.mm, n) for n, cut in enumerate(board.cuts)]
    found: list[tuple[int, int]] = []
    open_until: list[tuple[Fraction, int]] = []
    for start, stop, n in sorted(spans):
        open_until = [(end, one) for end, one in open_until if start - end < most]
        found += [(min(one, n), max(one, n)) for _, one in open_until]
        open_until.append((stop, n))
    return ((board.cuts[one], board.cuts[other]) for one, other in sorted(found))


def _limit(board: Board, one: Cut, other: Cut, practice: Practice) -> tuple[Length, str]:
    """The least wood between two cuts and its rule; nothing where they may meet."""
    alone = stands_alone(one), stands_alone(other)
    if one.joint and one.joint == other.joint:
        # A joint spaces its own cuts; here only two mortises in one another are caught.
        return (_HAIR, "LT-8") if all(alone) else (ZERO, "")
    if any(alone):
        return practice.length("keep-out clearance"), "LT-11"
    if one.kind in _CHANNELS and other.kind in _CHANNELS and _from_both_faces(one, other):
        return board.thickness * _BETWEEN_FACES, "DA-3"
    return ZERO, ""


def _from_both_faces(one: Cut, other: Cut) -> bool:
    return one.surface.axis is Axis.INTO and one.surface is other.surface.opposite


def _meets(board: Board, one: Cut, other: Cut, practice: Practice, rule: str) -> Finding:
    least = board.thickness * _BETWEEN_FACES if rule == "DA-3" else practice.length("keep-out clearance")
    return Finding(
        "clash",
        Harm.REFUSE,
        board.name,
        "The {one} and the {other} meet.",
        {"one": one.name, "other": other.name, "least": Length(least.mm)},
        rule,
        "our own choice",
        _way_out(one, other),
        "the {one} and the {other} meet",
    )


def _too_near(board: Board, one: Cut, other: Cut, between: Length, limit: Length, rule: str) -> Finding:
    return Finding(
        "clash",
        Harm.WARN,
        board.name,
        "Only {between} of wood is left between the {one} and the {other}.",
        {"between": Fine(between), "one": one.name, "other": other.name, "least": limit},
        rule,
        "our own choice",
        _way_out(one, other),
        "only {between} between the {one} and the {other}",
    )


def _way_out(one: Cut, other: Cut) -> str:
    """What moves the one or the other in a job, by their uses; else only wood with more room for both will do."""
    uses = [cut.role.use for cut in (one, other) if cut.role is not None]
    keys = list(dict.fromkeys(_MOVED_BY[use] for use in uses if use in _MOVED_BY))
    moved = f"Move the {' or the '.join(keys)}, or take thicker stock" if keys else "Take thicker or wider stock"
    return f"{moved}, until {{least}} of wood is left between them."


def _with_more(finding: Finding, count: int) -> Finding:
    if count == 1:
        return finding
    what = finding.what + " ({more} more such places in this board.)"
    return replace(finding, what=what, numbers={**finding.numbers, "more": count - 1})
