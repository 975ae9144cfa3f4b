"""The piece as it is drawn: its placed boards, the openings of its drawers, its knobs. Drawers of which only openings are given stand stacked."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.boards.extent import SpaceBox
from joinlay.lengths import NOTHING, Fraction, Length

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, Vector
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.pulls import Pull
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Box

__all__ = ["Knob", "Mouth", "Scene", "scene_of"]

#: Between two openings that stand on no rail the job gives.
_BETWEEN: Final = Fraction(20)


@dataclass(frozen=True, slots=True)
class Knob:
    """A knob in the piece: where its axis meets the front's show face, and its sizes."""

    pull: Pull
    centre: Vector

    @property
    def radius(self) -> Fraction:
        """Half its diameter, in mm."""
        return self.pull.diameter.mm / 2


@dataclass(frozen=True, slots=True)
class Mouth:
    """A drawer's opening in the piece: ``drawer`` stands closed in it, ``left`` and ``floor`` are in X and Z, in mm."""

    drawer: Drawer
    left: Fraction
    floor: Fraction

    @property
    def box(self) -> Box:
        """The opening seen from the front."""
        opening = self.drawer.opening
        return (self.left, self.floor, self.left + opening.width.mm, self.floor + opening.height.mm)


@dataclass(frozen=True, slots=True)
class Scene:
    """What there is to draw of a plan. ``mouths`` run bank by bank from the left, each from the top down. ``is_whole`` with a case around."""

    boards: tuple[Board, ...]
    mouths: tuple[Mouth, ...]
    knobs: tuple[Knob, ...]
    is_whole: bool

    @property
    def banks(self) -> tuple[tuple[Mouth, ...], ...]:
        """The mouths of each bank."""
        found: dict[Fraction, list[Mouth]] = {}
        for mouth in self.mouths:
            found.setdefault(mouth.left if self.is_whole else Fraction(0), []).append(mouth)
        return tuple(tuple(bank) for bank in found.values())

    @property
    def box(self) -> tuple[Vector, Vector]:
        """The least and the greatest X, Y and Z of wood and openings. ValueError where there is nothing."""
        spaces = [SpaceBox.around(board) for board in self.boards]
        points = [corner for space in spaces for corner in (space.low, space.high)]
        points += [
            (x, Fraction(0), z) for x0, z0, x1, z1 in (mouth.box for mouth in self.mouths) for x, z in ((x0, z0), (x1, z1))
        ]
        low, high = ((least(point[0] for point in points), least(point[1] for point in points), least(point[2] for point in points))
                     for least in (min, max))  # fmt: skip
        return low, high


def scene_of(plan: Plan) -> Scene:
    """The boards of ``plan`` that have a place, with the openings and knobs. No rule."""
    others = tuple(board for assembly in plan.others for board in assembly.boards if board.place is not None)
    is_whole = bool(others)
    mouths = tuple(_in_banks(map(_mouth, plan.drawers)) if is_whole else _stacked(plan.drawers))
    drawn = tuple(board for mouth in mouths for board in mouth.drawer.assembly.boards)
    return Scene((*others, *drawn), mouths, tuple(_knobs(plan.knobs, drawn)), is_whole)


def _mouth(drawer: Drawer) -> Mouth:
    """Where the opening lies, from the front and its clearances (DR-1, DR-2)."""
    place = drawer.board("front").place
    assert place is not None
    return Mouth(drawer, place.origin[0] - drawer.side_clearance.mm, place.origin[2] - drawer.bottom_clearance.mm)


def _in_banks(mouths: Iterable[Mouth]) -> list[Mouth]:
    return sorted(mouths, key=lambda mouth: (mouth.left, -mouth.floor))


def _stacked(drawers: Sequence[Drawer]) -> Iterator[Mouth]:
    """One opening over the other, the last given at the bottom, all centred."""
    widest = max((drawer.opening.width.mm for drawer in drawers), default=Fraction(0))
    floor = sum((drawer.opening.height.mm + _BETWEEN for drawer in drawers), Fraction(0))
    for drawer in drawers:
        floor -= drawer.opening.height.mm + _BETWEEN
        aside = (widest - drawer.opening.width.mm) / 2
        yield _mouth(drawer.moved(Length(aside), NOTHING, Length(floor)))


def _knobs(pulls: Iterable[Pull], boards: Iterable[Board]) -> Iterator[Knob]:
    fronts = {board.name: board for board in boards if board.part == "drawer front"}
    for pull in pulls:
        front = fronts.get(pull.front)
        if front is not None and front.place is not None:
            yield Knob(pull, front.place.point(pull.from_left, pull.from_bottom, front.thickness))
