"""What a layout is: sheets with parts on them, and the numbered cuts that saw them out, in exact lengths.

Positions count from one corner of the sheet: ``along`` with the sheet's grain and length, ``across`` with its width. Cuts are
in the order they are made; ``cut_steps`` draws those together that a sawyer makes at one setting of the fence or the stop.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.lengths import Fraction
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import FirstCut
    from joinlay.lengths import Dimension, Length

__all__ = [
    "Blank",
    "CutSheet",
    "CutStep",
    "Direction",
    "Keeps",
    "LaidPiece",
    "Layout",
    "Panel",
    "PartToSaw",
    "SawCut",
    "cut_steps",
]


class Direction(Enum):
    """Which way a cut runs."""

    RIP = "rip"  #: with the sheet's length: the piece cut off has a width
    CROSSCUT = "crosscut"  #: across it: the piece cut off has a length


class Keeps(Enum):
    """Which side of a cut is wanted."""

    BOTH = "both"
    NEAR = "near"  #: the far side is only an edge or a defect
    FAR = "far"  #: the near side is


@dataclass(frozen=True, slots=True)
class Panel:
    """A rectangle of a sheet: its near corner, its size along and its size across."""

    along: Length
    across: Length
    length: Length
    width: Length

    @property
    def area(self) -> Fraction:
        """In square millimetres."""
        return self.length.mm * self.width.mm


@dataclass(frozen=True, slots=True)
class PartToSaw:
    """A part to be sawn: ``name`` as on its template, the ``row`` it has in the cutting list, its size as sawn.

    ``length`` is with its grain. ``any_grain`` True: it may be turned a quarter on the sheet.
    """

    name: str
    row: int
    length: Dimension
    width: Dimension
    any_grain: bool = False


@dataclass(frozen=True, slots=True)
class LaidPiece:
    """A piece in its place; ``turned`` a quarter where its length lies across the sheet."""

    piece: PartToSaw
    panel: Panel
    turned: bool


@dataclass(frozen=True, slots=True)
class Blank:
    """What is sawn up: a whole sheet, an offcut, or the clear part of a board. ``length`` is with the grain.

    ``trim`` comes off any edge that a piece would lie against. ``grain_known`` False: only pieces of any grain may go on it.
    """

    name: str
    length: Length
    width: Length
    trim: Length
    is_whole: bool = False
    grain_known: bool = True


@dataclass(frozen=True, slots=True)
class SawCut:
    """Cut ``number``: right across ``panel``, which an earlier cut made. ``at`` is what the fence is set to.

    ``at`` runs from the panel's near edge (for a rip; near end for a crosscut) to the near side of the kerf. It is negative
    where the blade hangs over the edge: a trim thinner than the kerf.
    """

    number: int
    direction: Direction
    panel: Panel
    at: Length
    keeps: Keeps


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One blank and everything sawn from it, cuts in the order to make them; ``offcuts`` worth keeping, the largest first.

    ``defects`` are the stretches of a board that are cut out and thrown away.
    """

    blank: Blank
    pieces: tuple[LaidPiece, ...]
    cuts: tuple[SawCut, ...]
    offcuts: tuple[Panel, ...]
    defects: tuple[Panel, ...] = ()

    @property
    def used(self) -> Fraction:
        """The share of the blank that its pieces take up, 0 to 1."""
        return sum((laid.panel.area for laid in self.pieces), Fraction(0)) / (self.blank.length.mm * self.blank.width.mm)


@dataclass(frozen=True, slots=True)
class Layout:
    """All sheets of one stock: what is on hand first, then whole sheets to buy.

    ``least_whole`` is the number of whole sheets below which no layout can go. ``left_out`` are parts that fit no blank; a
    finding says why. ``unused`` are blanks on hand that were not needed. ``runs`` are the drawer fronts that lie in one column
    each, so that the figure runs on from one to the next, by name, in the order in which they stand in the piece.
    """

    stock: str
    thickness: Dimension
    kerf: Length
    first_cut: FirstCut
    sheets: tuple[CutSheet, ...]
    least_whole: int
    left_out: tuple[PartToSaw, ...]
    unused: tuple[Blank, ...]
    findings: tuple[Finding, ...]
    runs: tuple[tuple[str, ...], ...] = ()

    @property
    def whole(self) -> int:
        """How many whole sheets are cut into."""
        return sum(sheet.blank.is_whole for sheet in self.sheets)

    @property
    def used(self) -> Fraction:
        """The share of everything cut into that the pieces take up; 0 where nothing is laid."""
        cut_into = sum((sheet.blank.length.mm * sheet.blank.width.mm for sheet in self.sheets), Fraction(0))
        laid = sum((laid.panel.area for sheet in self.sheets for laid in sheet.pieces), Fraction(0))
        return laid / cut_into if cut_into else Fraction(0)


@dataclass(frozen=True, slots=True)
class CutStep:
    """Cuts one after the other at one setting, each through what the one before left of ``cuts[0].panel``.

    ``done`` are the pieces that no later cut touches, in the order they come off.
    """

    cuts: tuple[SawCut, ...]
    done: tuple[LaidPiece, ...]

    @property
    def first(self) -> SawCut:
        """The first of its cuts; the panel it goes through is the one to fetch."""
        return self.cuts[0]

    @property
    def numbers(self) -> str:
        """``4``, or ``4–7``."""
        first, last = self.cuts[0].number, self.cuts[-1].number
        return str(first) if first == last else f"{first}–{last}"


def cut_steps(sheet: CutSheet) -> tuple[CutStep, ...]:
    """The cuts of ``sheet`` in order, those at one setting drawn together. Source: by geometry."""
    runs: list[list[SawCut]] = []
    for cut in sheet.cuts:
        if runs and _goes_on(runs[-1][-1], cut):
            runs[-1].append(cut)
        else:
            runs.append([cut])
    done: dict[int, list[LaidPiece]] = {}
    for laid in sorted(sheet.pieces, key=lambda laid: (laid.panel.across, laid.panel.along)):
        last = next((cut for cut in reversed(sheet.cuts) if _holds(cut.panel, laid.panel)), None)
        if last is not None:
            done.setdefault(last.number, []).append(laid)
    return tuple(CutStep(tuple(run), _off(run, done)) for run in runs)


def _off(run: Sequence[SawCut], done: dict[int, list[LaidPiece]]) -> tuple[LaidPiece, ...]:
    return tuple(laid for cut in run for laid in done.get(cut.number, ()))


def _goes_on(before: SawCut, cut: SawCut) -> bool:
    """True where ``cut`` is at the setting of ``before``, through what that left."""
    if before.keeps is not Keeps.BOTH or cut.keeps is not Keeps.BOTH:
        return False
    if (before.direction, before.at) != (cut.direction, cut.at):
        return False
    one, other = before.panel, cut.panel
    if cut.direction is Direction.RIP:
        same = (one.along, one.length) == (other.along, other.length)
        return same and other.across > one.across and other.across + other.width == one.across + one.width
    same = (one.across, one.width) == (other.across, other.width)
    return same and other.along > one.along and other.along + other.length == one.along + one.length


def _holds(outer: Panel, inner: Panel) -> bool:
    return (
        outer.along <= inner.along
        and outer.across <= inner.across
        and inner.along + inner.length <= outer.along + outer.length
        and inner.across + inner.width <= outer.across + outer.width
    )
