"""A cut: the wood one joint takes out of a board, in exact lengths from the board's references."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards.surface import Axis, Surface
from joinlay.lengths import BadSize, dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards.role import CutRole
    from joinlay.lengths import Dimension, Fraction, Length

__all__ = ["Cut", "CutKind", "Shape", "Span"]


class CutKind(Enum):
    """What the trade calls a cut."""

    GROOVE = "groove"  #: along the grain
    DADO = "dado"  #: across the grain
    RABBET = "rabbet"  #: a step along an edge or end
    MORTISE = "mortise"
    HOLE = "hole"
    SLOT = "slot"


class Shape(Enum):
    """The outline of the cut's mouth."""

    SQUARE = "square"  #: straight sides, square corners
    ROUND_ENDS = "round ends"  #: half-round at both ends of its longer side, as a cutter leaves a mortise
    ROUND = "round"  #: a full circle, as a drill leaves


@dataclass(frozen=True, slots=True)
class Span:
    """From ``start`` to ``stop`` on one axis, both counted from the board's reference; start comes first."""

    start: Dimension
    stop: Dimension

    def __post_init__(self) -> None:
        """Refuse a span that runs backwards or is empty."""
        if self.stop <= self.start:
            said = "a cut from {start} to {stop} takes no wood; its end must lie past its start."
            raise BadSize(said, start=self.start, stop=self.stop)

    @classmethod
    def of(cls, start: Length, stop: Length) -> Span:
        """A span between two lengths of any kind."""
        return cls(dimension(start), dimension(stop))

    @classmethod
    def about(cls, centre: Length, size: Length) -> Span:
        """A span of ``size`` with ``centre`` in its middle."""
        half = dimension(size) / 2
        return cls(dimension(centre) - half, dimension(centre) + half)

    @property
    def size(self) -> Dimension:
        """How long the span is."""
        return self.stop - self.start

    @property
    def centre(self) -> Dimension:
        """The middle of the span."""
        return (self.start + self.stop) / 2

    def overlaps(self, other: Span) -> bool:
        """True where both share more than a point."""
        return self.start < other.stop and other.start < self.stop


@dataclass(frozen=True, slots=True)
class Cut:
    """Wood taken out of a board: a box in the board's own directions.

    ``surface`` is where the cutter enters; ``along``, ``across`` and ``into`` say from where to where, counted from the
    reference end, edge and face. ``role`` is what it is for; two cuts of one joint bear the same ``role.joint``.
    """

    kind: CutKind
    surface: Surface
    along: Span
    across: Span
    into: Span
    role: CutRole
    shape: Shape = Shape.SQUARE
    name: str = field(init=False, compare=False, repr=False)
    """In the maker's words, for people: ``back dado``."""
    mate: str = field(init=False, compare=False, repr=False)
    """The name of the part that goes in or meets it; '' where none does."""
    joint: str = field(init=False, compare=False, repr=False)
    """The name of its joint; '' where it is of none."""

    def __post_init__(self) -> None:
        """Keep the names at hand."""
        mate, joint = self.role.mate, self.role.joint
        object.__setattr__(self, "name", self.role.name)
        object.__setattr__(self, "mate", "" if mate is None else mate.name)
        object.__setattr__(self, "joint", "" if joint is None else joint.name)

    def span(self, axis: Axis) -> Span:
        """The cut's extent on ``axis``."""
        # Asked for some ten thousand times in a packet, so no table is made to look it up in.
        if axis is Axis.ALONG:
            return self.along
        return self.across if axis is Axis.ACROSS else self.into

    @property
    def spans(self) -> tuple[Span, Span, Span]:
        """The cut's extent along, across and into the board."""
        return self.along, self.across, self.into

    @property
    def depth(self) -> Dimension:
        """How far the cut goes in, square to the surface it enters."""
        return self.span(self.surface.axis).size

    @property
    def floor_area(self) -> Fraction:
        """How large its floor is, in square millimetres; of a channel, its length by its width."""
        along, across = self._mouth
        return along * across

    @property
    def wall_area(self) -> Fraction:
        """How large one of its two long walls is, in square millimetres."""
        return max(self._mouth) * self.depth.mm

    @property
    def _mouth(self) -> tuple[Fraction, Fraction]:
        """How far its mouth reaches on the two axes in its surface."""
        one, other = (
            span.stop.mm - span.start.mm for axis, span in zip(Axis, self.spans, strict=True) if axis is not self.surface.axis
        )
        return one, other

    def overlaps(self, other: Cut) -> bool:
        """True where both take the same wood (as boxes; round ends count as square, so this errs to the safe side)."""
        return all(mine.overlaps(its) for mine, its in zip(self.spans, other.spans, strict=True))
