"""The cuts of a sheet as a sawyer makes them: one setting of fence or stop, and every cut that follows at it (CL-2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.cutlist.pattern import Direction, Keeps

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.cutlist.pattern import CutSheet, LaidPiece, Panel, SawCut

__all__ = ["CutStep", "cut_steps"]


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
