"""The plan: everything worked out, as data. Every drawing, setting, list and file is made from it and from nothing else."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from joinlay.assembly.order import Order
from joinlay.boards import Axis, Whole
from joinlay.checks.conditions import usual_conditions
from joinlay.findings import Harm
from joinlay.jobs.on_hand import NOTHING_ON_HAND
from joinlay.lengths import Dimension
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.assembly.timetable import Timetable
    from joinlay.boards import Board, DrawerRole, PartRole
    from joinlay.boards.meeting import Meeting
    from joinlay.boards.outline import Outline, PlacedOutline
    from joinlay.casework.assembly import Assembly, Drawer
    from joinlay.casework.bay import OpenBay
    from joinlay.casework.pulls import Pull, Pulls
    from joinlay.checks.conditions import Conditions
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import OnHand
    from joinlay.lengths import Graduation, Unit
    from joinlay.settings import Choice, SettingsList
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["Plan"]


@dataclass(frozen=True, slots=True)
class Plan:
    """A worked-out job.

    ``file`` is the job file's name (no folder). ``stocks`` is keyed by the names the job gives them. ``drawers`` run from the top
    down, placed in the piece; ``others`` are the case, frame and runners where the job has them. ``paper`` is the name of a paper
    (``letter``, ``610 x 914 mm``). ``findings`` are all of them, the worst first. ``on_hand`` is what the lists and layouts start
    from. ``pulls`` is what the job asks of its knobs, None where it asks for none; ``knobs`` are those knobs placed, each with
    its front, sizes and dot, bank by bank from the top down. ``conditions`` are what the findings were judged by. ``outlines``
    are the maker's own, each on its board; ``profile`` is half of a knob as the maker drew it. ``rows`` are the drawers bank by
    bank from the left, row by row from the top down, each row from the left; openings alone are one bank. ``opens`` are the bays
    without drawers. ``existing`` stand for a case that is there, as far as it was measured: runners and drawers meet them, and
    none of them is made. ``choice`` is how each cut is made in the shop, and what is to be told of that; None for a plan that was
    put together without one. ``order`` is how the piece goes together, stage by stage; ``glue_ups`` are what of it is glued and
    clamped at once, in the order of the work, and ``timetable`` is when. ``over_all`` are the width, height and depth of the
    piece, None for openings alone. ``maker`` and ``date`` are the job's own words for the foot of each sheet, '' where it has
    none; no size hangs on them.
    """

    title: str
    file: str
    unit: Unit
    rule: Graduation
    shop: Shop
    stocks: Mapping[str, Stock]
    drawers: tuple[Drawer, ...]
    others: tuple[Assembly, ...]
    findings: tuple[Finding, ...]
    paper: str
    on_hand: OnHand = NOTHING_ON_HAND
    pulls: Pulls | None = None
    knobs: tuple[Pull, ...] = ()
    conditions: Conditions = field(default_factory=usual_conditions)
    outlines: tuple[PlacedOutline, ...] = ()
    profile: Outline | None = None
    rows: tuple[tuple[tuple[DrawerRole, ...], ...], ...] = ()
    opens: tuple[OpenBay, ...] = ()
    existing: tuple[Board, ...] = ()
    choice: Choice | None = None
    order: Order = field(default=Order(()), repr=False, compare=False)
    glue_ups: tuple[GlueUp, ...] = field(default=(), repr=False, compare=False)
    over_all: tuple[Dimension, Dimension, Dimension] | None = field(default=None, repr=False, compare=False)
    maker: str = ""
    date: str = ""
    _settings: SettingsList | None = field(default=None, init=False, repr=False, compare=False)
    _timetable: Timetable | None = field(default=None, init=False, repr=False, compare=False)

    @property
    def assemblies(self) -> tuple[Assembly, ...]:
        """The case, frame and runners, then each drawer."""
        return self.others + tuple(drawer.assembly for drawer in self.drawers)

    @property
    def is_whole(self) -> bool:
        """True where a case is made around the drawers; openings alone have none, nor have runners in a case that is there."""
        return any(assembly.of is Whole.CASE for assembly in self.others)

    @property
    def is_placed(self) -> bool:
        """True where all drawers stand in one piece, made or there before; else each has a zero of its own."""
        return self.is_whole or bool(self.existing)

    @property
    def placed(self) -> dict[PartRole, Board]:
        """Every board that stands in the piece by its role, those that are there before included: what a meeting may speak of."""
        return {board.role: board for board in (*self.existing, *self.boards)}

    @property
    def boards(self) -> tuple[Board, ...]:
        """Every board of the piece, each with its own name."""
        return tuple(board for assembly in self.assemblies for board in assembly.boards)

    @property
    def meetings(self) -> tuple[Meeting, ...]:
        """Where two boards of the piece meet: one for each pair, as their joint was designed."""
        return tuple(met for assembly in self.assemblies for met in assembly.meetings)

    @property
    def settings(self) -> SettingsList:
        """The cuts on cards, in the order to make them. Worked out when it is first asked for, since the best order takes a
        search. MS-3.
        """
        if self._settings is None:
            from joinlay.settings import cards_of, choose

            object.__setattr__(self, "_settings", cards_of(self.choice or choose(self.boards, self.shop)))
        assert self._settings is not None
        return self._settings

    @property
    def timetable(self) -> Timetable:
        """When each of the glue-ups is done. Worked out when it is first asked for. PT-9."""
        if self._timetable is None:
            from joinlay.assembly.timetable import timetable_of

            object.__setattr__(self, "_timetable", timetable_of(self.glue_ups, self.shop))
        assert self._timetable is not None
        return self._timetable

    @property
    def on_cutting(self) -> tuple[Finding, ...]:
        """Those of the findings that are about how its cuts are made: what no tool makes, what is cut by hand, what is run with
        care.
        """
        told = {(finding.kind, finding.what) for finding in self.choice.findings} if self.choice else set()
        return tuple(finding for finding in self.findings if (finding.kind, finding.what) in told)

    @property
    def is_refused(self) -> bool:
        """True where something in the job was refused: then nothing should be cut from it."""
        return any(finding.harm is Harm.REFUSE for finding in self.findings)

    def dimensions(self) -> dict[str, Dimension]:
        """Every named number by its name, in the order of the parts; the first of a name stands."""
        found: dict[str, Dimension] = {}
        for assembly in self.assemblies:
            for dimension in (*assembly.dimensions, *(d for board in assembly.boards for d in _on_board(board))):
                _collect(dimension, found)
        return found


def _on_board(board: Board) -> Iterator[Dimension]:
    yield from (board.size(axis) for axis in Axis)
    for cut in board.cuts:
        for axis in Axis:
            span = cut.span(axis)
            yield from (span.start, span.stop)
    for taper in board.tapers:
        yield from (taper.near, taper.far)


def _collect(dimension: Dimension, found: dict[str, Dimension]) -> None:
    if dimension.name:
        if dimension.name in found:
            return
        found[dimension.name] = dimension
    for operand in dimension.operands:
        if isinstance(operand, Dimension):
            _collect(operand, found)
