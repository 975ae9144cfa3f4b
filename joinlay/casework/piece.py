"""The whole piece around the drawers: frame, case, runners and stops, and a slot for every drawer."""

from __future__ import annotations

from dataclasses import field, replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import PartKind, Surface
from joinlay.boards.extent import SpaceBox
from joinlay.boards.meeting import Tie, butted
from joinlay.casework.base import make_base
from joinlay.casework.bay import BankWish, OpenBay, lay_out_bays, slots_in
from joinlay.casework.case import make_case
from joinlay.casework.face_frame import make_frame
from joinlay.casework.fillers import make_fillers
from joinlay.casework.runners import Behind, RunnerMake, make_runners
from joinlay.casework.stops import make_stops
from joinlay.casework.toe_recess import cut_toe_recess
from joinlay.casework.top import make_top
from joinlay.errors import BadInput
from joinlay.findings import note
from joinlay.lengths import NOTHING, BadSize
from joinlay.records import dataclass
from joinlay.stock.movement import Seasons, usual_seasons

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.boards import Board, DrawerRole
    from joinlay.boards.meeting import Meeting
    from joinlay.casework.assembly import Assembly
    from joinlay.casework.base import BaseMake
    from joinlay.casework.bay import Bay, DrawerWish, Slot
    from joinlay.casework.case import Case
    from joinlay.casework.case_sizes import CaseMake
    from joinlay.casework.face_frame import FrameMake
    from joinlay.casework.fillers import FillerMake
    from joinlay.casework.graduation import Heights, Rounding
    from joinlay.casework.row import RowWish
    from joinlay.casework.runners import Runners
    from joinlay.casework.stops import StopMake, Stops
    from joinlay.casework.top import TopMake
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["Bank", "Piece", "PieceSpec", "plan_piece", "within_room"]


@dataclass(frozen=True, slots=True)
class Bank:
    """One bank of drawers, from the top down: how its height is divided (DR-7), and what each of its ``drawers`` is to be.

    ``rail`` None: the frame's rail height. ``rows`` are how many drawers stand side by side in each opening of its height (RO-1),
    none: one in each; ``drawers`` are then given row by row. ``mullion`` is the width of the uprights between those; None: the
    frame's.
    """

    heights: Heights
    drawers: tuple[DrawerWish, ...]
    rounding: Rounding | None = None
    rail: Dimension | None = None
    rows: tuple[RowWish, ...] = ()
    mullion: Dimension | None = None

    def __post_init__(self) -> None:
        """Refuse a division into another number of openings than there are drawers, or rows of them."""
        if self.rows and self.heights.count != len(self.rows):
            raise BadInput(f"a bank was divided into {self.heights.count} openings for {len(self.rows)} rows; give as many.")
        drawers = sum(row.count for row in self.rows) if self.rows else self.heights.count
        if drawers != len(self.drawers):
            raise BadInput(f"a bank was divided into {drawers} openings for {len(self.drawers)} drawers; give as many.")

    @property
    def most_side_by_side(self) -> int:
        """How many openings stand side by side in its fullest row."""
        return max((row.place_count for row in self.rows), default=1)

    @property
    def by_row(self) -> tuple[int, ...]:
        """How many drawers stand in each of its rows, from the top down."""
        return tuple(row.count for row in self.rows) or (1,) * len(self.drawers)


@dataclass(frozen=True, slots=True)
class PieceSpec:
    """A piece as a maker would ask for it, its sizes over all, frame included.

    ``banks`` stand side by side from the left, ``widths`` divides their room (None: alike). ``runner`` is what bearers, guides
    and kickers are ripped from, unless ``guide`` or ``kicker`` is another. ``stops``, ``top``, ``base`` and ``filler``
    None: none; the sizes are without top, base and fillers, which go over, under and beside them.
    ``seasons`` are the air the piece will stand in, for wood that moves.
    """

    width: Dimension
    height: Dimension
    depth: Dimension
    frame: FrameMake
    case: CaseMake
    banks: tuple[Bank, ...]
    runner: Stock
    stops: StopMake | None = None
    widths: Heights | None = None
    top: TopMake | None = None
    base: BaseMake | None = None
    filler: FillerMake | None = None
    seasons: Seasons = field(default_factory=usual_seasons)
    guide: Stock | None = None
    kicker: Stock | None = None
    nail: Dimension | None = None
    screw: Dimension | None = None

    @property
    def runners(self) -> RunnerMake:
        """What each kind of runner is ripped from."""
        return RunnerMake(self.runner, self.guide, self.kicker, self.nail, self.screw)


@dataclass(frozen=True, slots=True)
class Piece:
    """A planned piece, its drawers still to come.

    Its zero: X at the left edge of the frame seen from the front, Y at the frame's show face (to the back), Z at the frame's
    underside (up); so a case behind an overhang begins at X = the overhang. ``slots`` are the drawers' places, bank by bank from
    the left, each from the top down.
    """

    spec: PieceSpec
    frame: Assembly
    case: Case
    runners: Runners
    stops: Stops | None
    top: Assembly | None
    base: Assembly | None
    filler: Assembly | None
    bays: tuple[Bay, ...]
    slots: tuple[Slot, ...]
    findings: tuple[Finding, ...]

    @property
    def assemblies(self) -> tuple[Assembly, ...]:
        """Case, face frame, loose shelves, runners, stops, top, base and fillers, such as there are."""
        stops = (self.stops.assembly,) if self.stops else ()
        shelves = (self.case.shelves,) if self.case.shelves.boards else ()
        more = (assembly for assembly in (self.top, self.base, self.filler) if assembly is not None)
        return (self.case.assembly, self.frame, *shelves, self.runners.assembly, *stops, *more)

    @property
    def boards(self) -> tuple[Board, ...]:
        """Every board but the drawers'."""
        return tuple(board for assembly in self.assemblies for board in assembly.boards)

    @property
    def meetings(self) -> tuple[Meeting, ...]:
        """Where its parts meet, without the drawers."""
        return tuple(met for assembly in self.assemblies for met in assembly.meetings)

    @property
    def opens(self) -> tuple[OpenBay, ...]:
        """Its open bays, bank by bank from the left, each from the top down (SH-1)."""
        return tuple(
            OpenBay(place, bay.number, left, row.floor, width, row.height, row)
            for bay in self.bays
            for row in bay.rows
            for place, left, width in zip(row.places, row.lefts, row.widths, strict=True)
            if isinstance(place, int)
        )

    @property
    def behind(self) -> Behind:
        """Where its runners lie."""
        return Behind(self.case.sizes.front, self.case.sizes.inside_depth, self.spec.case.panels.thickness)

    def blocks(self, drawer: DrawerRole) -> tuple[Board, ...]:
        """The stop blocks of a drawer; none where the piece has no stops."""
        return self.stops.of[drawer] if self.stops else ()


def plan_piece(spec: PieceSpec, shop: Shop) -> Piece:
    """Work the piece out: every board but the drawers', cut and placed, and a slot for each drawer.

    Plan each drawer with its slot's opening and wish, then seat it with ``seat_drawer``. The rules are those of the parts: DR-7,
    FF, CA, RA, RN, ST. Raises Refused, with the place named, where one can't be met. Source: common practice.
    """
    sizes = spec.frame.sizes(shop.practice)
    first, first_open, wishes = 1, 1, []
    for bank in spec.banks:
        wish = BankWish(
            heights=bank.heights,
            rounding=bank.rounding,
            rail=bank.rail,
            first=first,
            rows=bank.rows,
            mullion=bank.mullion,
            first_open=first_open,
        )
        wishes.append(wish)
        first += len(bank.drawers)
        first_open += sum(len(row.open_places) for row in bank.rows)
    bays = lay_out_bays(
        spec.width,
        spec.height,
        stile=sizes.stile,
        mullion=sizes.mullion,
        top_rail=sizes.top_rail,
        bottom_rail=sizes.bottom_rail,
        rail=sizes.rail,
        banks=wishes,
        widths=spec.widths,
    )
    # The frame first: a rail too low for a tenon is a plainer refusal than runners that find no room behind it.
    frame = make_frame(make=spec.frame, sizes=sizes, width=spec.width, height=spec.height, bays=bays, shop=shop)
    case = make_case(
        make=spec.case,
        frame=sizes,
        size=(spec.width, spec.height, spec.depth),
        bays=bays,
        runner=spec.runner.thickness,
        shop=shop,
        below=spec.base.height if spec.base is not None and spec.base.is_cut else NOTHING,
    )
    slots = tuple(
        slot
        for bay, bank in zip(bays, spec.banks, strict=True)
        for slot in slots_in(bay, case, bank.drawers, is_last=bay is bays[-1])
    )
    behind = Behind(case.sizes.front, case.sizes.inside_depth, spec.case.panels.thickness)
    runners = make_runners(
        slots=slots, behind=behind, make=spec.runners, sides=spec.case.sides, practice=shop.practice, seasons=spec.seasons
    )
    stops = make_stops(spec.stops, slots, runners.of, behind.front, shop.practice) if spec.stops else None
    frame = replace(frame, meetings=(*frame.meetings, *_on_case(frame, case)))
    size, around = (
        (spec.width, spec.height, spec.depth),
        tuple(board for board in (*case.assembly.boards, *frame.boards) if not board.role.kind.is_loose),
    )
    top, base = None, None
    if spec.base and spec.base.is_cut:
        base, case = cut_toe_recess(spec.base, case, sizes, shop)
    elif spec.base:
        base = make_base(spec.base, size, sizes, spec.case.sides, around, shop)
    if spec.top:
        top, case = make_top(spec.top, spec.runner, size, case, sizes, around, shop, spec.seasons)
    filler = None
    if spec.filler:
        # The frame's stiles are bored for what is screwed on through them.
        ends = NOTHING if spec.top is None else spec.top.overhang_at_ends(shop.practice)
        touching = tuple(board for one in (top, base) if one is not None for board in one.boards)
        filler, frame = make_fillers(spec.filler, size[:2], frame, sizes, bays, touching, ends, shop)
    piece = Piece(
        spec=spec,
        frame=frame,
        case=case,
        runners=runners,
        stops=stops,
        top=top,
        base=base,
        filler=filler,
        bays=bays,
        slots=slots,
        findings=(),
    )
    findings = (*(f for assembly in piece.assemblies for f in assembly.findings), *_said(spec))
    return replace(piece, findings=findings)


def within_room(
    room: tuple[Dimension, Dimension, Dimension], *, beside: Dimension, above: Dimension, behind: Dimension
) -> tuple[Dimension, Dimension, Dimension]:
    """The width, height and depth over all of a piece in a ``room`` (a niche's width, height, depth).

    ``beside`` is left free at each side, ``above`` over it, ``behind`` at its back (CA-1, by geometry).
    """
    width = (room[0] - 2 * beside).named("piece width over all", "CA-1", "by geometry")
    height = (room[1] - above).named("piece height over all", "CA-1", "by geometry")
    depth = (room[2] - behind).named("piece depth over all", "CA-1", "by geometry")
    for size in (width, height, depth):
        if size.mm <= 0:
            raise BadSize("the room leaves {size} for the {name}; make the free space smaller.", size=size, name=size.name)
    return width, height, depth


#: What stands behind the frame with an edge to its back.
_BEHIND: Final = (PartKind.CASE_SIDE, PartKind.CASE_PARTITION, PartKind.CASE_BOTTOM, PartKind.CASE_TOP, PartKind.DUST_PANEL)


def _on_case(frame: Assembly, case: Case) -> Iterator[Meeting]:
    """The frame is glued to the case's front edges, each member wherever it covers one (FF-3)."""
    edges = [(wood, SpaceBox.around(wood)) for wood in case.assembly.of_kind(*_BEHIND)]
    for member in frame.of_kind(PartKind.STILE, PartKind.MULLION, PartKind.RAIL):
        mine = SpaceBox.around(member)
        for wood, its in edges:
            wide, high = (min(mine.high[n], its.high[n]) - max(mine.low[n], its.low[n]) for n in (0, 2))
            if wide > 0 and high > 0:
                yield butted(
                    (member, Surface.FAR_FACE), (wood, Surface.EDGE), "on the", rule="FF-3", tie=Tie.GLUED, glue=wide * high
                )


def _said(spec: PieceSpec) -> Iterator[Finding]:
    if spec.frame.scribe:
        yield note(
            "scribe",
            "Its stiles are {scribe} wider than they will show: set it in its place, draw the walls' lines on "
            "them, and plane to those. So it goes "
            "between walls {narrow} to {wide} apart; the case stands {scribe} off them. Leave room above to lift it in.",
            "SC-1",
            "common practice",
            scribe=spec.frame.scribe,
            narrow=spec.width - 2 * spec.frame.scribe,
            wide=spec.width,
        ).at("face frame")
    if not any(bank.drawers for bank in spec.banks):
        pass
    elif spec.case.sides.is_solid:
        yield note(
            "runners", "The bearers are glued at the front only and screwed through the slots behind.", "RN-4", "Noyes"
        ).at("runners")
    else:
        yield note(
            "runners", "Bearers and kickers are glued and nailed, guides glued to the bearers.", "RN-4", "common practice"
        ).at("runners")
    yield note(
        "face frame", "The frame is glued to the front edges of the case, with no other joint.", "FF-3", "common practice"
    ).at("face frame")
