"""The case behind the frame: sides, bottom and top in dadoes, back in rabbets, partitions between banks (CA-1, DA, RA-1)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.boards import (
    Board,
    Datum,
    DrawerRole,
    Hand,
    JointKind,
    JointRole,
    PartKind,
    PartRole,
    Place,
    Surface,
    Whole,
    bay_name,
)
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.case_back import back_seat, meet_back
from joinlay.casework.case_sizes import size_case
from joinlay.casework.shelves import bore_pin_holes, fixed_levels, pin_lines
from joinlay.findings import at_least, note, refusal, stock_of
from joinlay.joints.dado import cut_dado, cut_notch, design_dado
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.casework.bay import Bay
    from joinlay.casework.case_back import BackSeat
    from joinlay.casework.case_sizes import CaseMake, CaseSizes
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.casework.row import Row
    from joinlay.casework.shelves import Lipping, OpenMake, PinLines
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["Case", "Cavity", "Cell", "make_case"]


_SIDE = Datum("inside face", "front edge", "bottom end", "outside face", "back edge", "top end")
_BOTTOM = Datum("upper face", "front edge", "left end", "lower face", "back edge", "right end")
_TOP = Datum("lower face", "front edge", "left end", "upper face", "back edge", "right end")
_LIPPING = Datum("inner face", "lower edge", "left end", "show face", "upper edge", "right end")
_PARTITION = Datum("left face", "front edge", "bottom end", "right face", "back edge", "top end")
_BACK = Datum("inside face", "left edge", "bottom end", "outside face", "right edge", "top end")


@dataclass(frozen=True, slots=True)
class Cavity:
    """The room of one bank in the case: the wood at its left and right, and the faces they turn to it, in X.

    Where no wood stands between two drawers of a row, it is the panel that their double bearer lies on, and the middle of that
    (RO-1).
    """

    left: Dimension
    right: Dimension
    left_wood: PartRole
    right_wood: PartRole

    def wood(self, hand: Hand) -> PartRole:
        """The wood at that hand."""
        return self.left_wood if hand is Hand.LEFT else self.right_wood

    def facing(self, hand: Hand) -> Surface:
        """The face that the wood at that hand turns to the bank: a partition turns its far face to the bank on its right."""
        is_partition = self.wood(hand).kind is PartKind.CASE_PARTITION
        return Surface.FAR_FACE if is_partition and hand is Hand.LEFT else Surface.FACE


@dataclass(frozen=True, slots=True)
class Cell:
    """The room of one drawer: its ``cavity``, the panels ``ground`` and ``roof`` under and over it and the faces they turn to it,
    in Z.

    None where no panel is, but only the runners of the drawer below or above.
    """

    cavity: Cavity
    ground: PartRole | None = None
    roof: PartRole | None = None
    floor: Dimension | None = None
    ceiling: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Case:
    """A case with its sizes, the cavity of each bank from the left, the room of each drawer, and its loose ``shelves``."""

    assembly: Assembly
    sizes: CaseSizes
    cavities: tuple[Cavity, ...]
    cells: Mapping[DrawerRole, Cell]
    shelves: Assembly


def make_case(
    make: CaseMake,
    frame: FrameSizes,
    size: tuple[Dimension, Dimension, Dimension],
    bays: Sequence[Bay],
    runner: Dimension,
    shop: Shop,
    below: Dimension = NOTHING,
) -> Case:
    """Cut and place the case behind a frame; the whole piece is ``size`` = width, height, depth over all, frame included.

    CA-1 bottom and top in dadoes, RA-1 back in rabbets, partitions centred behind the uprights. ``runner`` is the thickness of
    the bearers' stock; ``below`` is how far the sides reach under it, to the floor (BA-2). Raises Refused
    where a size leaves nothing, a rail can't hide a panel, or a joint can't be made.
    """
    role = JointRole(JointKind.CASE_SIDE)
    dado = design_dado(
        into=make.sides.thickness,
        panel=make.panels.thickness,
        shop=shop,
        is_stopped=make.has_stopped_dadoes,
        is_judged_later=True,
        role=role,
    )
    seat = back_seat(make, shop, role)
    under, above = (any(bay.rows[n].is_open for bay in bays) for n in (-1, 0))
    sizes = size_case(
        make, frame, size, seat.behind, runner, shop.practice, is_open_below=under, is_open_above=above, below=below
    )
    return _CaseMaker(make=make, sizes=sizes, dado=dado, seat=seat, bays=tuple(bays), frame=frame, shop=shop).made()


class _CaseMaker:
    """Gathers the boards of one case; every dado and rabbet is put on both its boards at once."""

    def __init__(
        self, make: CaseMake, sizes: CaseSizes, dado: Dado, seat: BackSeat, bays: tuple[Bay, ...], frame: FrameSizes, shop: Shop
    ) -> None:
        self._make, self._sizes, self._dado, self._seat = make, sizes, dado, seat
        self._bays, self._frame, self._shop = bays, frame, shop
        self._tip = shop.practice.length("tip gap")
        self._boards: dict[PartRole, Board] = {}
        panels = sizes.inside_left - dado.depth + self._tip
        #: Where panels begin at the left, in X; the levels of dust panels' upper faces, and of partitions' lower ends.
        self._lefts = {PartRole(PartKind.CASE_BOTTOM): panels, PartRole(PartKind.CASE_TOP): panels}
        self._levels: dict[PartRole, Dimension] = {}
        self._feet: dict[PartRole, Dimension] = {}
        self._loose: list[Board] = []
        self._loose_meetings: list[Meeting] = []
        self._meetings: list[Meeting] = []
        self._findings: list[Finding] = [*dado.findings, *seat.joint.findings, *self._mixed()]

    def made(self) -> Case:
        left, right, back = self._side(Hand.LEFT), self._side(Hand.RIGHT), self._back()
        bottom, top = self._panel(PartKind.CASE_BOTTOM), self._panel(PartKind.CASE_TOP)
        left, right, bottom, top = self._dadoed(left, right, bottom, top)
        left, right = (self._seat.cut(side, back.role) for side in (left, right))
        self._meetings += meet_back(
            self._seat,
            back,
            (left, right),
            (bottom, top),
            self._sizes.inside_width,
            self._shop,
            is_solid=self._make.back.is_solid,
            held=self._make.back_held,
        )
        self._boards = {board.role: board for board in (left, right, bottom, top)}
        for bay in self._bays[1:]:
            x = bay.left - (self._frame.mullion + self._make.sides.thickness) / 2
            self._stand(PartRole(PartKind.CASE_PARTITION, number=bay.number - 1), x, bottom.role, top.role)
        cavities = self._cavities()
        cells: dict[DrawerRole, Cell] = {}
        for bay, cavity in zip(self._bays, cavities, strict=True):
            cells |= self._cells(bay, cavity)
        for role in self._boards:
            if role.kind in (PartKind.CASE_PARTITION, PartKind.DUST_PANEL, PartKind.SHELF):
                self._meetings.append(butted((back, Surface.FACE), (self._boards[role], Surface.FAR_EDGE), "on the", rule="RA-1"))
        boards = (*self._boards.values(), back)
        findings = tuple(finding.at("case") for finding in self._findings)
        assembly = Assembly(Whole.CASE, boards, tuple(self._meetings), self._dimensions(), findings)
        loose = Assembly(Whole.SHELVES, tuple(self._loose), tuple(self._loose_meetings))
        return Case(assembly, self._sizes, cavities, cells, loose)

    # -- boards --------------------------------------------------------------------------------------

    def _board(self, role: PartRole, stock: Stock, size: tuple[Dimension, Dimension], datum: Datum, place: Place) -> Board:
        name = role.name
        thickness = stock.thickness.named(f"{name} thickness", "", "the stock's own")
        length, width = size[0].named(f"{name} length", "CA-1"), size[1].named(f"{name} width", "CA-1")
        return Board(role, stock.name, length, width, thickness, datum, place=place)

    def _side(self, hand: Hand) -> Board:
        sizes = self._sizes
        x, into = (sizes.inside_left, "-X") if hand is Hand.LEFT else (sizes.inside_left + sizes.inside_width, "+X")
        place = Place.at(x, sizes.front, sizes.foot, "+Z", "+Y", into)
        return self._board(PartRole(PartKind.CASE_SIDE, hand=hand), self._make.sides, (sizes.upright, sizes.depth), _SIDE, place)

    def _panel(self, kind: PartKind) -> Board:
        sizes = self._sizes
        length = sizes.inside_width + 2 * self._dado.depth - 2 * self._tip
        z, into, datum = (sizes.floor, "-Z", _BOTTOM) if kind is PartKind.CASE_BOTTOM else (sizes.ceiling, "+Z", _TOP)
        place = Place.at(sizes.inside_left - self._dado.depth + self._tip, sizes.front, z, "+X", "+Y", into)
        return self._board(PartRole(kind), self._make.panels, (length, sizes.inside_depth), datum, place)

    def _back(self) -> Board:
        sizes = self._sizes
        width = sizes.inside_width + 2 * self._seat.depth - 2 * self._tip
        place = Place.at(sizes.inside_left - self._seat.depth + self._tip, sizes.back, sizes.foot, "+Z", "+X", "+Y")
        return self._board(PartRole(PartKind.CASE_BACK), self._make.back, (sizes.upright, width), _BACK, place)

    def _stand(self, role: PartRole, x: Dimension, under: PartRole, over: PartRole) -> None:
        """A partition, its left face at ``x``, in dadoes of the panels ``under`` and ``over`` it (CA-1, RO-1)."""
        sizes, stock = self._sizes, self._make.sides
        joint = JointRole(JointKind.PARTITION, role)
        dado = design_dado(
            into=self._make.panels.thickness, panel=stock.thickness, shop=self._shop, is_judged_later=True, role=joint
        )
        self._findings += dado.findings
        floor, ceiling = self._upper_face(under), self._lower_face(over)
        length = ceiling - floor + 2 * dado.depth - 2 * self._tip
        place = Place.at(x, sizes.front, floor - dado.depth + self._tip, "+Z", "+Y", "+X")
        board = self._boards[role] = self._board(role, stock, (length, sizes.inside_depth), _PARTITION, place)
        self._feet[role] = floor - dado.depth + self._tip
        for panel, end, into in ((under, Surface.END, Way.DOWN), (over, Surface.FAR_END, Way.UP)):
            ends = "the panels' left ends" if not role.is_in_a_row else f"the left end of the {panel.name}"
            offset = (x - self._lefts[panel]).named(f"{role.name} from {ends}", "CA-1")
            # A dust panel is under what it turns its far face to.
            face = Surface.FAR_FACE if panel.kind is PartKind.DUST_PANEL and end is Surface.FAR_END else Surface.FACE
            self._boards[panel] = cut_dado(dado, self._boards[panel], offset, mate=role, face=face, which=role)
            self._meet_dado(board, end, self._boards[panel], (into, Way.FRONT, Way.BACK), joint)

    def _cells(self, bay: Bay, cavity: Cavity) -> Iterator[tuple[DrawerRole, Cell]]:
        """The room of each drawer of ``bay``: dust panels over and under a row that is parted, and its partitions (RO-1)."""
        grounds: list[PartRole | None] = [
            self._dust_panel(bay, n, cavity) if bay.has_panel_under(n) else None for n in range(len(bay.rows) - 1)
        ]
        levels = [PartRole(PartKind.CASE_TOP), *grounds, PartRole(PartKind.CASE_BOTTOM)]
        for row, roof, ground in zip(bay.rows, levels, levels[1:], strict=False):
            floor = None if ground is None else self._upper_face(ground)
            ceiling = None if roof is None else self._lower_face(roof)
            rooms = self._part(bay, row, cavity, ground, roof)
            for place, room in zip(row.places, rooms, strict=True):
                if isinstance(place, DrawerRole):
                    yield place, Cell(room, ground, roof, floor, ceiling)
                else:
                    assert row.holds is not None
                    assert floor is not None
                    assert ceiling is not None
                    self._shelve(place, row.holds, room, floor, ceiling)

    def _part(self, bay: Bay, row: Row, cavity: Cavity, ground: PartRole | None, roof: PartRole | None) -> list[Cavity]:
        """The room of each place of a ``row`` from the left, parted by partitions or over double bearers (RO-1)."""
        rooms, left, wood = [], cavity.left, cavity.left_wood
        thickness = self._make.sides.thickness
        for role, after in zip(row.partings(PartKind.CASE_PARTITION), row.lefts[1:], strict=True):
            assert ground is not None
            assert roof is not None
            if row.has_double_bearers:
                middle = after - bay.mullion / 2
                rooms.append(Cavity(left, middle, wood, ground))
                left, wood = middle, ground
                continue
            x = after - (bay.mullion + thickness) / 2
            self._stand(role, x, ground, roof)
            rooms.append(Cavity(left, x, wood, role))
            left, wood = x + thickness, role
        return [*rooms, Cavity(left, cavity.right, wood, cavity.right_wood)]

    def _dust_panel(self, bay: Bay, n: int, cavity: Cavity) -> PartRole:
        """A panel behind the rail under row ``n``, its upper face level with the rail's top, in dadoes at both sides (RO-1)."""
        row, stock = bay.rows[n], self._make.panels
        role = row.under(PartKind.DUST_PANEL)
        if stock.thickness > bay.rail:
            raise (
                refusal(
                    "dust panel",
                    "A dust panel {panel} thick does not go behind a rail {rail} high.",
                    "Make the rail at least {panel} high, or the case's panels of stock {rail} thick at most.",
                    "RO-1",
                    "by geometry",
                    panel=stock.thickness,
                    rail=bay.rail,
                )
                .at(role.name)
                .by(at_least("frame", "rail", stock.thickness), stock_of("case", "panels", thickest=bay.rail))
            )
        self._lay(role, row.floor, stock, self._dado, cavity)
        return role

    def _lay(
        self,
        role: PartRole,
        top: Dimension,
        stock: Stock,
        dado: Dado,
        cavity: Cavity,
        front: Dimension = NOTHING,
        rule: str = "RO-1",
    ) -> None:
        """A panel or shelf across ``cavity`` with its upper face at ``top``, in dadoes of the wood at both sides; its front edge
        stands ``front`` behind that of the case.
        """
        sizes = self._sizes
        reach = dado.depth - self._tip
        length = cavity.right - cavity.left + 2 * reach
        left = (cavity.left - reach).named(f"{role.name} left end", rule, "by geometry")
        self._lefts[role], self._levels[role] = left, top
        place = Place.at(left, sizes.front + front, top, "+X", "+Y", "-Z")
        self._boards[role] = self._board(role, stock, (length, sizes.inside_depth - front), _BOTTOM, place)
        low = top - stock.thickness
        along = (Way.FRONT,) if dado.is_stopped else (Way.FRONT, Way.BACK)
        for hand, end, into in ((Hand.LEFT, Surface.END, Way.LEFT), (Hand.RIGHT, Surface.FAR_END, Way.RIGHT)):
            wood = cavity.wood(hand)
            offset = (low - self._foot(wood)).named(f"{wood.name} lower end to the {role.name}", rule, "by geometry")
            self._boards[wood] = cut_dado(dado, self._boards[wood], offset, mate=role, face=cavity.facing(hand), which=role)
            if dado.is_stopped and dado.margin > front:
                self._boards[role] = cut_notch(
                    replace(dado, margin=dado.margin - front), self._boards[role], end, mate=wood, which=hand
                )
            self._meet_dado(self._boards[role], end, self._boards[wood], (into, *along), dado.role, Surface.FAR_END)

    def _foot(self, wood: PartRole) -> Dimension:
        """The level of the lower end of a side or partition."""
        return self._sizes.foot if wood.kind is PartKind.CASE_SIDE else self._feet[wood]

    # -- open bays -----------------------------------------------------------------------------------

    def _shelve(self, bay: int, holds: OpenMake, cavity: Cavity, floor: Dimension, ceiling: Dimension) -> None:
        """The shelves of an open bay between ``floor`` and ``ceiling`` (SH-1, SH-2)."""
        stock, where = holds.stock or self._make.panels, bay_name(bay)
        if holds.fixed:
            self._fix_shelves(bay, holds, stock, cavity, (floor, ceiling))
        if not holds.loose:
            return
        height = (ceiling - floor).named(f"{where} height inside", "SH-2", "by geometry")
        lines = pin_lines(height, self._sizes.inside_depth, holds.loose, self._shop.practice, where)
        lowest = PartRole(PartKind.LOOSE_SHELF, number=holds.loose, bay=bay)
        for hand in (Hand.LEFT, Hand.RIGHT):
            wood = cavity.wood(hand)
            up = (floor - self._foot(wood)).named(f"{wood.name} lower end to the floor of {where}", "SH-2", "by geometry")
            is_between = wood.kind is PartKind.CASE_PARTITION
            self._boards[wood] = bore_pin_holes(self._boards[wood], lines, up, cavity.facing(hand), lowest, is_between=is_between)
        self._lay_loose(bay, holds.loose, stock, cavity, lines, floor, height)

    def _fix_shelves(self, bay: int, holds: OpenMake, stock: Stock, cavity: Cavity, between: tuple[Dimension, Dimension]) -> None:
        """Fixed shelves in dadoes, each with its lipping where one is asked for (SH-1)."""
        where, lipping = bay_name(bay), holds.lipping
        dado = self._dado
        if stock.thickness != self._make.panels.thickness:
            joint = JointRole(JointKind.SHELF, PartRole(PartKind.SHELF, bay=bay))
            dado = design_dado(
                into=self._make.sides.thickness,
                panel=stock.thickness,
                shop=self._shop,
                is_stopped=self._dado.is_stopped,
                is_judged_later=True,
                role=joint,
            )
            self._findings += dado.findings
        front = NOTHING if lipping is None else lipping.stock.thickness
        for n, top in enumerate(fixed_levels(holds.fixed, *between, stock.thickness, where), start=1):
            role = PartRole(PartKind.SHELF, number=n, bay=bay)
            self._lay(role, top, stock, dado, cavity, front, "SH-1")
            if lipping is not None:
                self._lip(role, lipping, cavity, top, stock.thickness)

    def _lip(self, shelf: PartRole, lipping: Lipping, cavity: Cavity, top: Dimension, thickness: Dimension) -> None:
        """A strip on edge before a shelf, level with its upper face, glued to its front edge (SH-1)."""
        role = PartRole(PartKind.LIPPING, number=shelf.number, bay=shelf.bay)
        lipping.refuse_low(role, thickness)
        length = cavity.right - cavity.left
        place = Place.at(cavity.left, self._sizes.front + lipping.stock.thickness, top - lipping.height, "+X", "+Z", "-Y")
        board = self._boards[role] = self._board(role, lipping.stock, (length, lipping.height), _LIPPING, place)
        glue = length.mm * thickness.mm
        self._meetings.append(
            butted((board, Surface.FACE), (shelf, Surface.EDGE), "on the", rule="SH-1", tie=Tie.GLUED, glue=glue)
        )

    def _lay_loose(
        self, bay: int, count: int, stock: Stock, cavity: Cavity, lines: PinLines, floor: Dimension, height: Dimension
    ) -> None:
        """Loose shelves on the pins nearest to where they part the bay alike (SH-2)."""
        clear, sizes, where = self._shop.practice.length("shelf clearance"), self._sizes, bay_name(bay)
        length = (cavity.right - cavity.left - 2 * clear).named(f"{where} loose shelf length", "SH-2", "common practice")
        taken: set[int] = set()
        for n in range(1, count + 1):
            hole = lines.nearest((height * (count + 1 - n)) / (count + 1))
            while hole in taken:
                hole -= 1
            taken.add(hole)
            role = PartRole(PartKind.LOOSE_SHELF, number=n, bay=bay)
            under = (floor + lines.levels[hole] + lines.diameter / 2).named(f"{role.name} underside", "SH-2", "by geometry")
            place = Place.at(cavity.left + clear, sizes.front, under + stock.thickness, "+X", "+Y", "-Z")
            deep = sizes.inside_depth - clear
            board = self._board(role, stock, (length, deep), _BOTTOM, place)
            self._loose.append(board)
            for hand, end in ((Hand.LEFT, Surface.END), (Hand.RIGHT, Surface.FAR_END)):
                wood = (cavity.wood(hand), cavity.facing(hand))
                self._loose_meetings.append(butted((board, end), wood, "on pins in the", gap=clear, rule="SH-2", tie=Tie.RIDES))

    def _upper_face(self, panel: PartRole) -> Dimension:
        """The level of the upper face of the case bottom or a dust panel."""
        return self._sizes.floor if panel.kind is PartKind.CASE_BOTTOM else self._levels[panel]

    def _lower_face(self, panel: PartRole) -> Dimension:
        """The level of the lower face of the case top or a dust panel."""
        if panel.kind is PartKind.CASE_TOP:
            return self._sizes.ceiling
        return self._levels[panel] - self._make.panels.thickness

    def _dadoed(self, left: Board, right: Board, bottom: Board, top: Board) -> tuple[Board, Board, Board, Board]:
        sides = {Surface.END: left, Surface.FAR_END: right}
        panels = {Surface.END: bottom, Surface.FAR_END: top}
        for hand, side in sides.items():
            for end, panel in panels.items():
                offset = self._sizes.above_foot if end is Surface.END else self._sizes.top_offset
                sides[hand] = cut_dado(self._dado, sides[hand], offset, mate=panel.role, at=end, which=panel.role)
                if self._dado.is_stopped:
                    panels[end] = cut_notch(self._dado, panels[end], hand, mate=side.role, which=side.role.hand)
                # Where it stops at the front, the panel goes along it from the back only.
                along = (Way.FRONT,) if self._dado.is_stopped else (Way.FRONT, Way.BACK)
                wall = Surface.FAR_END if end is Surface.END else Surface.END
                into = Way.LEFT if hand is Surface.END else Way.RIGHT
                self._meet_dado(panel, hand, sides[hand], (into, *along), self._dado.role, wall)
        return sides[Surface.END], sides[Surface.FAR_END], panels[Surface.END], panels[Surface.FAR_END]

    def _meet_dado(
        self, part: Board, end: Surface, wood: Board, ways: tuple[Way, ...], joint: JointRole | None, wall: Surface | None = None
    ) -> None:
        """The ``end`` of a part in the dado just cut in ``wood``, with the tip gap; its far face on the ``wall`` that looks that
        way.
        """
        dado = wood.cuts[-1]
        facings = [Facing("in the", Plane(end), Plane.floor(dado), self._tip, "CA-1")]
        if wall is not None:
            facings.append(
                Facing("on the wall of its dado in the", Plane(Surface.FAR_FACE), Plane.wall(wood, dado, wall), rule="CA-1")
            )
        glue = dado.floor_area + 2 * dado.wall_area
        self._meetings.append(
            Meeting(
                one=part.role,
                other=wood.role,
                facings=tuple(facings),
                closes=ways,
                tie=Tie.GLUED,
                joint=joint,
                glue=glue,
            )
        )

    def _cavities(self) -> tuple[Cavity, ...]:
        sizes, thickness = self._sizes, self._make.sides.thickness
        edges, left, wood = [], sizes.inside_left, PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT)
        for bay in self._bays[1:]:
            partition = PartRole(PartKind.CASE_PARTITION, number=bay.number - 1)
            middle = bay.left - self._frame.mullion / 2
            edges.append(Cavity(left, middle - thickness / 2, wood, partition))
            left, wood = middle + thickness / 2, partition
        right = PartRole(PartKind.CASE_SIDE, hand=Hand.RIGHT)
        edges.append(Cavity(left, sizes.inside_left + sizes.inside_width, wood, right))
        return tuple(edges)

    # -- what else there is to say -------------------------------------------------------------------

    def _mixed(self) -> Iterator[Finding]:
        if self._make.sides.is_solid != self._make.panels.is_solid:
            yield note(
                "case",
                "Sides and bottom move differently with the seasons: glue the dadoes at the front third only and "
                "let the rest slide.",
                "CK-6",
                "common practice",
            )

    def _dimensions(self) -> tuple[Dimension, ...]:
        sizes = self._sizes
        return (
            sizes.width,
            sizes.height,
            sizes.depth,
            sizes.inside_width,
            sizes.inside_depth,
            sizes.bottom_offset,
            sizes.top_offset,
            sizes.floor,
            sizes.ceiling,
            sizes.back,
        )
