"""The piece as it is drawn: its placed boards, the openings of its drawers, its knobs, and where it is cut through.

Drawers of which only openings are given stand stacked.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, bay_name
from joinlay.boards.extent import SpaceBox
from joinlay.geometry import overlap
from joinlay.lengths import NOTHING, Fraction, Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.boards import Board, PartRole, Vector
    from joinlay.casework.assembly import Drawer
    from joinlay.casework.bay import OpenBay
    from joinlay.casework.pulls import Pull
    from joinlay.casework.row import Row
    from joinlay.jobs.plan import Plan
    from joinlay.pen.marks import Box
    from joinlay.pictures.projecting import View

__all__ = ["Knob", "PlacedBay", "PlacedOpening", "Scene", "in_bank", "level_cut", "meeting_box", "near_cut", "scene_of"]

#: Between two openings that stand on no rail the job gives.
_BETWEEN: Final = Fraction(20)
#: How far below the opening of the drawer that is cut there is wood worth drawing: its bearers.
_BELOW: Final = Fraction(60)


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
class PlacedOpening:
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
class PlacedBay:
    """An open bay seen from the front: its ``number``, ``name`` and the ``box`` of its opening; ``row`` is the row it is of."""

    number: int
    name: str
    box: Box
    row: Row

    @property
    def span(self) -> tuple[Fraction, Fraction]:
        """Where its row begins and ends, in X."""
        return self.row.lefts[0].mm, self.row.lefts[-1].mm + self.row.widths[-1].mm

    @property
    def is_first(self) -> bool:
        """True where it is the first of its row, or the whole of it."""
        return self.box[0] == self.row.lefts[0].mm


@dataclass(frozen=True, slots=True)
class Scene:
    """What there is to draw of a plan; ``is_whole`` with a case made around, ``existing`` what of ``boards`` is of a case that is
    there.

    ``opens`` are the bays without drawers, ``rows`` the openings bank by bank from the left, row by row from the top down, each
    row from the left.
    """

    boards: tuple[Board, ...]
    rows: tuple[tuple[tuple[PlacedOpening, ...], ...], ...]
    knobs: tuple[Knob, ...]
    is_whole: bool
    opens: tuple[PlacedBay, ...] = ()
    existing: frozenset[PartRole] = frozenset()

    @property
    def is_placed(self) -> bool:
        """True where the openings stand in one piece, made or there before."""
        return self.is_whole or bool(self.existing)

    @property
    def openings(self) -> tuple[PlacedOpening, ...]:
        """All openings, in that order."""
        return tuple(opening for bank in self.rows for row in bank for opening in row)

    @property
    def banks(self) -> tuple[tuple[PlacedOpening, ...], ...]:
        """The openings of each bank, without its rows."""
        return tuple(tuple(opening for row in bank for opening in row) for bank in self.rows)

    def beside(self, opening: PlacedOpening) -> tuple[PlacedBay, ...]:
        """The places left open in the row of ``opening``, from the left (RO-1)."""
        return tuple(bay for bay in self.opens if opening.drawer.role in bay.row.drawers)

    def column(self, bank: int) -> tuple[PlacedOpening, ...]:
        """The openings of a bank that stand over and under the middle of its first one, from the top down: one of each row, none
        of a row with an upright there.
        """
        x0, _, x1, _ = self.rows[bank][0][0].box
        return tuple(one for one in self.banks[bank] if one.box[0] <= (x0 + x1) / 2 <= one.box[2])

    @property
    def box(self) -> tuple[Vector, Vector]:
        """The least and the greatest X, Y and Z of wood and openings. ValueError where there is nothing."""
        spaces = [SpaceBox.around(board) for board in self.boards]
        points = [corner for space in spaces for corner in (space.low, space.high)]
        points += [
            (x, Fraction(0), z) for x0, z0, x1, z1 in (opening.box for opening in self.openings) for x, z in ((x0, z0), (x1, z1))
        ]
        xs, ys, zs = zip(*points, strict=True)
        return (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs))


def scene_of(plan: Plan) -> Scene:
    """The boards of ``plan`` that have a place, with the openings and knobs."""
    others = tuple(board for assembly in plan.others for board in assembly.boards if board.place is not None) + plan.existing
    is_placed = plan.is_placed
    openings = tuple(map(_placed_opening, plan.drawers) if is_placed else _stacked(plan.drawers))
    drawn = tuple(board for opening in openings for board in opening.drawer.assembly.boards)
    by_role = {opening.drawer.role: opening for opening in openings}
    rows = plan.rows if is_placed else (tuple((opening.drawer.role,) for opening in openings),)
    found = ([tuple(by_role[role] for role in row if role in by_role) for row in bank] for bank in rows)
    placed = tuple(bank for bank in (tuple(row for row in some if row) for some in found) if bank)
    return Scene(
        boards=(*others, *drawn),
        rows=placed,
        knobs=tuple(_knobs(plan.knobs, drawn)),
        is_whole=plan.is_whole,
        opens=tuple(map(_placed_bay, plan.opens)),
        existing=frozenset(board.role for board in plan.existing),
    )


def _placed_bay(bay: OpenBay) -> PlacedBay:
    left, floor = bay.left.mm, bay.floor.mm
    return PlacedBay(bay.number, bay_name(bay.number), (left, floor, left + bay.width.mm, floor + bay.height.mm), bay.row)


def _placed_opening(drawer: Drawer) -> PlacedOpening:
    """Where the opening lies, from the front and its clearances (DR-1, DR-2)."""
    left, floor = drawer.corner
    return PlacedOpening(drawer, left.mm, floor.mm)


def _stacked(drawers: Sequence[Drawer]) -> Iterator[PlacedOpening]:
    """One opening over the other, the last given at the bottom, all centred."""
    widest = max((drawer.opening.width.mm for drawer in drawers), default=Fraction(0))
    floor = sum((drawer.opening.height.mm + _BETWEEN for drawer in drawers), Fraction(0))
    for drawer in drawers:
        floor -= drawer.opening.height.mm + _BETWEEN
        aside = (widest - drawer.opening.width.mm) / 2
        yield _placed_opening(drawer.moved(Length(aside), NOTHING, Length(floor)))


def _knobs(pulls: Iterable[Pull], boards: Iterable[Board]) -> Iterator[Knob]:
    fronts = {board.role: board for board in boards if board.role.kind is PartKind.DRAWER_FRONT}
    for pull in pulls:
        front = fronts.get(pull.on)
        if front is not None and front.place is not None:
            yield Knob(pull, front.place.point(pull.from_left, pull.from_bottom, front.thickness))


# -- where it is cut through ---------------------------------------------------------------------------


def level_cut(scene: Scene) -> Fraction:
    """The height at which the piece is cut level: through the first drawer's knobs, or the middle of its front without any."""
    front = scene.openings[0].drawer.front
    assert front.place is not None
    own = [knob.centre[2] for knob in scene.knobs if knob.pull.on == front.role]
    return own[0] if own else front.place.origin[2] + front.width.mm / 2


def near_cut(scene: Scene) -> tuple[Board, ...]:
    """The boards that the level cut goes through or that lie close below it; without a case, the first drawer's."""
    if not scene.is_placed:
        return scene.openings[0].drawer.assembly.boards
    cut, deep = level_cut(scene), scene.openings[0].drawer.opening.height.mm + _BELOW
    return tuple(board for board in scene.boards if SpaceBox.around(board).high[2] > cut - deep)


def in_bank(scene: Scene, openings: Sequence[PlacedOpening]) -> list[Board]:
    """Case, frame and runners, and the drawers of ``openings``; other banks stand beyond a partition or before the cut."""
    others = [opening.drawer.role for opening in scene.openings if opening not in openings]
    return [board for board in scene.boards if board.role.whole not in others]


def meeting_box(boards: Iterable[Board], view: View, box: Box) -> list[Board]:
    """Those of ``boards`` that, looked at in ``view``, meet ``box`` (in mm of wood) at any depth."""
    return [board for board in boards if overlap(view.box(SpaceBox.around(board)), box)]
