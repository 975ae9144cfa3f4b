"""Spacing mortises along a joint line: as few as hold, the end ones far out, the rest as even as keep-outs let them be.

Trade rules LT-7 to LT-11 and their layout; ``layout`` holds the search.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TYPE_CHECKING

from joinlay.joints.fits import label, refuse_nothing
from joinlay.joints.layout import free, lay_out
from joinlay.lengths import NOTHING, BadSize, Dimension, Fraction, Length, chosen, largest, rounded_down, rounded_to, rounded_up
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.joints.layout import Free
    from joinlay.lengths import Graduation

__all__ = ["KeepOut", "Spacing", "shortest_line", "spread"]

_SOURCE = "our own choice"

#: More mortises than anyone cuts in one line: a slip of the pen, and no reason to keep a maker waiting.
_MOST = 2000


@dataclass(frozen=True, slots=True)
class KeepOut:
    """Where another cut lies on the joint line, from ``start`` to ``stop`` (counted from its datum end), called ``name``.

    The extent is the cut's own: the clearance of LT-11 is added by the joint.
    """

    start: Dimension
    stop: Dimension
    name: str

    def __post_init__(self) -> None:
        """Refuse an extent that runs backwards or is empty."""
        if self.stop <= self.start:
            said = "keep-out {name} runs from {start} to {stop}; it must end past its start."
            raise BadSize(said, name=self.name or "on the line", start=self.start, stop=self.stop)


@dataclass(frozen=True, slots=True)
class Spacing:
    """Places on a line, counted from its datum end: ``centres`` in order, none where not even one fits.

    ``largest`` and ``smallest`` are the gaps between neighbouring centres, None with fewer than two. ``is_within`` is False where
    keep-outs make the largest gap wider than was asked.
    """

    centres: tuple[Dimension, ...]
    largest: Dimension | None
    smallest: Dimension | None
    is_within: bool


def spread(
    line: Dimension,
    width: Dimension,
    margin: Dimension,
    between: Dimension,
    widest: Dimension,
    keep_outs: Sequence[KeepOut] = (),
    *,
    clearance: Dimension = NOTHING,
    slack: Dimension = NOTHING,
    named: str = "",
    rule: Graduation | None = None,
) -> Spacing:
    """The most even spacing of mortises ``width`` wide on a joint line (LT-7 to LT-11, exact, derived).

    ``margin`` is kept to both ends of ``line``, ``between`` from one mortise to the next, ``clearance`` to every keep-out.
    ``widest`` is the widest centre spacing wanted. Mortises after the first are ``slack`` wider (LT-12). The first and last
    centre stand as far out as they can; between them go the fewest mortises that keep the largest spacing, and of those rows the
    one with the least largest spacing, then the largest smallest spacing. One mortise, nearest the middle, where two don't fit.
    With a ``rule`` the centres of such a row are moved to its marks, by less than a division each, where the row then keeps all
    of the above but to be as far out and as even as can be (FR-1); else they stay as they are. Raises BadInput for sizes of zero
    or less.
    """
    refuse_nothing(line=line, mortise_width=width, largest_spacing=widest)
    for what, size in (("end margin", margin), ("wood between", between), ("clearance", clearance), ("slack", slack)):
        if size.mm < 0:
            raise BadSize("{name} is {size}; it must be at least 0.", name=size.name or what, size=size)
    if line / (width + between) > _MOST:
        said = f"{{name}} of {{line}} would hold over {_MOST} mortises {{width}} wide; check both sizes."
        raise BadSize(said, name=line.name or "the joint line", line=line, width=width)
    first, rest = (_Line(line, wide, margin, keep_outs, clearance) for wide in (width, width + slack if slack else width))
    places = lay_out(first.free, rest.free, rest.width.mm + between.mm, widest.mm, line.mm / 2)
    if not places:
        return Spacing((), None, None, is_within=True)
    if len(places) == 1:
        return Spacing((_alone(places[0], first, named),), None, None, is_within=True)
    ends = (
        first.first(places[0]).named(label(named, "tenon 1 centre"), "LT-7", _SOURCE),
        rest.last(places[-1]).named(label(named, f"tenon {len(places)} centre"), "LT-7", _SOURCE),
    )
    inner = [_inner(place, n, len(places), ends, named) for n, place in enumerate(places[1:-1], start=1)]
    centres = (ends[0], *inner, ends[1])
    if rule is not None:
        centres = _on_marks(centres, (first, rest), between, widest, rule)
    wide, tight = _gaps(centres, named)
    return Spacing(centres, wide, tight, is_within=wide <= widest)


def shortest_line(
    width: Dimension, margin: Dimension, keep_outs: Sequence[KeepOut] = (), *, clearance: Dimension = NOTHING
) -> Dimension:
    """The shortest joint line on which one mortise finds room, its keep-outs staying as far from the datum end as they are
    (LT-10).
    """
    past = max((keep_out.stop for keep_out in keep_outs), default=NOTHING)
    long = largest(past, NOTHING) + clearance + (width + margin) * 2
    roomy = _Line(long, width, margin, keep_outs, clearance)
    place = roomy.first(roomy.free[0][0])
    return place + width / 2 + margin


class _Line:
    """A joint line with the centres that are free on it, and the working of the outermost two."""

    def __init__(
        self, line: Dimension, width: Dimension, margin: Dimension, keep_outs: Sequence[KeepOut], clearance: Dimension
    ) -> None:
        self.line, self.width, self.margin, self.keep_outs, self.clearance = line, width, margin, keep_outs, clearance
        out, room = margin.mm + width.mm / 2, clearance.mm + width.mm / 2
        blocked = ((keep_out.start.mm - room, keep_out.stop.mm + room) for keep_out in keep_outs)
        self.free: Free = free(out, line.mm - out, blocked)

    def has(self, centre: Length) -> bool:
        """Whether a mortise may stand there."""
        return any(low <= centre.mm <= high for low, high in self.free)

    def first(self, place: Fraction) -> Dimension:
        """The lowest free centre, as margin or keep-out give it."""
        for keep_out in self.keep_outs:
            if (beside := keep_out.stop + self.clearance + self.width / 2).mm == place:
                return beside
        return self.margin + self.width / 2

    def last(self, place: Fraction) -> Dimension:
        """The highest free centre, as margin or keep-out give it."""
        for keep_out in self.keep_outs:
            if (beside := keep_out.start - self.clearance - self.width / 2).mm == place:
                return beside
        return self.line - self.margin - self.width / 2


def _alone(place: Fraction, line: _Line, named: str) -> Dimension:
    """The centre of the only mortise: the middle of the line, or the free place nearest to it (LT-10)."""
    middle = line.line / 2
    keep_outs = [end for keep_out in line.keep_outs for end in (keep_out.start, keep_out.stop)]
    centre = middle if middle.mm == place else chosen(Length(place), "free place nearest the middle of", line.line, *keep_outs)
    return centre.named(label(named, "tenon 1 centre"), "LT-10", "common practice")


def _inner(place: Fraction, n: int, count: int, ends: tuple[Dimension, Dimension], named: str) -> Dimension:
    """The centre of mortise ``n`` (from 0) between the two ends: at its even place, or as near as keep-outs let it be."""
    centre = ends[0] + (ends[1] - ends[0]) * Fraction(n, count - 1)
    if centre.mm != place:
        centre = chosen(Length(place), f"place {n + 1} of {count}, as even as keep-outs let it be, between", *ends)
    return centre.named(label(named, f"tenon {n + 1} centre"), "LT-9", "derived")


def _on_marks(
    centres: tuple[Dimension, ...], lines: tuple[_Line, _Line], between: Dimension, widest: Dimension, rule: Graduation
) -> tuple[Dimension, ...]:
    """The ``centres`` on the marks of the ``rule``, the outer ones moved inwards (FR-1); as they are where that isn't as good
    a row.
    """
    exact = [centre.as_step for centre in centres]
    marks = (rounded_up(exact[0], rule), *(rounded_to(one, rule) for one in exact[1:-1]), rounded_down(exact[-1], rule))
    (first, *others), limit = marks, max(widest.mm, *(after.mm - before.mm for before, after in pairwise(centres)))
    apart = [after.mm - before.mm for before, after in pairwise(marks)]
    is_free = lines[0].has(first) and all(lines[1].has(other) for other in others)
    if not is_free or min(apart) < lines[1].width.mm + between.mm or max(apart) > limit:
        return centres
    return tuple(mark.named(was.name, f"{was.rule}, FR-1", was.source) for mark, was in zip(marks, centres, strict=True))


def _gaps(centres: tuple[Dimension, ...], named: str) -> tuple[Dimension, Dimension]:
    """The largest and smallest gap between neighbours."""
    gaps = [(after.mm - before.mm, n) for n, (before, after) in enumerate(pairwise(centres))]
    (_, wide), (_, tight) = max(gaps, key=lambda gap: gap[0]), min(gaps, key=lambda gap: gap[0])
    return (
        (centres[wide + 1] - centres[wide]).named(label(named, "largest spacing"), "LT-9", _SOURCE),
        (centres[tight + 1] - centres[tight]).named(label(named, "smallest spacing"), "LT-9", _SOURCE),
    )
