"""The case behind the frame: sides, bottom and top in dadoes, back in rabbets, partitions between banks (CA-1, DA, RA-1)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.boards import Board, Datum, Hand, JointKind, JointRole, PartKind, PartRole, Place, Surface, Whole
from joinlay.casework.assembly import Assembly
from joinlay.casework.case_sizes import CaseSizes, size_case
from joinlay.casework.meeting import Meeting, Side, meeting
from joinlay.findings import note
from joinlay.joints.dado import cut_dado, cut_notch, design_dado
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.bay import Bay
    from joinlay.casework.case_sizes import CaseMake
    from joinlay.casework.frame_sizes import FrameSizes
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado
    from joinlay.joints.rabbet import Rabbet
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop
    from joinlay.stock import Stock

__all__ = ["Case", "Cavity", "make_case"]

_SIDE = Datum("inside face", "front edge", "bottom end", "outside face", "back edge", "top end")
_BOTTOM = Datum("upper face", "front edge", "left end", "lower face", "back edge", "right end")
_TOP = Datum("lower face", "front edge", "left end", "upper face", "back edge", "right end")
_PARTITION = Datum("left face", "front edge", "bottom end", "right face", "back edge", "top end")
_BACK = Datum("inside face", "left edge", "bottom end", "outside face", "right edge", "top end")


@dataclass(frozen=True, slots=True)
class Cavity:
    """The room of one bank in the case: the wood at its left and right, and the faces they turn to it, in X."""

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
class Case:
    """A case with its sizes, the cavity of each bank from the left, and where its parts meet."""

    assembly: Assembly
    sizes: CaseSizes
    cavities: tuple[Cavity, ...]
    meetings: tuple[Meeting, ...]


def make_case(
    make: CaseMake, frame: FrameSizes, size: tuple[Dimension, Dimension, Dimension], bays: Sequence[Bay], runner: Dimension,
    shop: Shop,
) -> Case:  # fmt: skip
    """Cut and place the case behind a frame; the whole piece is ``size`` = width, height, depth over all, frame included.

    CA-1 bottom and top in dadoes, RA-1 back in rabbets, partitions centred behind the uprights. ``runner`` is the thickness of the
    bearers' stock. Raises Refused where a size leaves nothing, a rail can't hide a panel, or a joint can't be made.
    """
    role = JointRole(JointKind.CASE_SIDE)
    dado = design_dado(
        into=make.sides.thickness, panel=make.panels.thickness, shop=shop, is_stopped=make.has_stopped_dadoes, role=role
    )
    rabbet = design_rabbet(into=make.sides.thickness, panel=make.back.thickness, shop=shop, role=role)
    sizes = size_case(make, frame, size, rabbet, runner, shop.practice)
    return _Maker(make, sizes, dado, rabbet, tuple(bays), frame, shop).made()


class _Maker:
    """Gathers the boards of one case; every dado and rabbet is put on both its boards at once."""

    def __init__(
        self, make: CaseMake, sizes: CaseSizes, dado: Dado, rabbet: Rabbet, bays: tuple[Bay, ...], frame: FrameSizes, shop: Shop
    ) -> None:
        self._make, self._sizes, self._dado, self._rabbet = make, sizes, dado, rabbet
        self._bays, self._frame, self._shop = bays, frame, shop
        self._tip = shop.practice.length("tip gap")
        self._meetings: list[Meeting] = []
        self._findings: list[Finding] = [*dado.findings, *rabbet.findings, *self._mixed()]

    def made(self) -> Case:
        left, right, back = self._side(Hand.LEFT), self._side(Hand.RIGHT), self._back()
        bottom, top = self._panel(PartKind.CASE_BOTTOM), self._panel(PartKind.CASE_TOP)
        left, right, bottom, top = self._dadoed(left, right, bottom, top)
        left, right = (
            cut_rabbet(self._rabbet, side, Surface.FAR_EDGE, mate=back.role, which=back.role) for side in (left, right)
        )
        self._meet_back(back, (left, right), (bottom, top))
        partitions = []
        for bay in self._bays[1:]:
            partition, bottom, top = self._partition(bay, bottom, top)
            partitions.append(partition)
            self._meetings.append(
                meeting(f"{back.name} on {partition.name}", (back, Surface.FACE), (partition, Surface.FAR_EDGE))
            )
        boards = (left, right, bottom, top, *partitions, back)
        findings = tuple(finding.at("case") for finding in self._findings)
        return Case(
            Assembly(Whole.CASE, boards, self._dimensions(), findings),
            self._sizes,
            self._cavities(partitions),
            tuple(self._meetings),
        )

    # -- boards --------------------------------------------------------------------------------------

    def _board(self, role: PartRole, stock: Stock, size: tuple[Dimension, Dimension], datum: Datum, place: Place) -> Board:
        name = role.name
        thickness = stock.thickness.named(f"{name} thickness", "section 0", "as measured")
        length, width = size[0].named(f"{name} length", "CA-1"), size[1].named(f"{name} width", "CA-1")
        return Board(role, stock.name, length, width, thickness, datum, place=place)

    def _side(self, hand: Hand) -> Board:
        sizes = self._sizes
        x, into = (sizes.inside_left, "-X") if hand is Hand.LEFT else (sizes.inside_left + sizes.inside_width, "+X")
        place = Place.at(x, sizes.front, sizes.underside, "+Z", "+Y", into)
        return self._board(PartRole(PartKind.CASE_SIDE, hand=hand), self._make.sides, (sizes.height, sizes.depth), _SIDE, place)

    def _panel(self, kind: PartKind) -> Board:
        sizes = self._sizes
        length = sizes.inside_width + 2 * self._dado.depth - 2 * self._tip
        z, into, datum = (sizes.floor, "-Z", _BOTTOM) if kind is PartKind.CASE_BOTTOM else (sizes.ceiling, "+Z", _TOP)
        place = Place.at(sizes.inside_left - self._dado.depth + self._tip, sizes.front, z, "+X", "+Y", into)
        return self._board(PartRole(kind), self._make.panels, (length, sizes.inside_depth), datum, place)

    def _back(self) -> Board:
        sizes = self._sizes
        width = sizes.inside_width + 2 * self._rabbet.depth - 2 * self._tip
        place = Place.at(sizes.inside_left - self._rabbet.depth + self._tip, sizes.back, sizes.underside, "+Z", "+X", "+Y")
        return self._board(PartRole(PartKind.CASE_BACK), self._make.back, (sizes.height, width), _BACK, place)

    def _partition(self, bay: Bay, bottom: Board, top: Board) -> tuple[Board, Board, Board]:
        """The partition left of ``bay``, centred behind its upright, and bottom and top with its dadoes."""
        sizes, stock = self._sizes, self._make.sides
        role = PartRole(PartKind.CASE_PARTITION, number=bay.number - 1)
        name, joint = role.name, JointRole(JointKind.PARTITION, role)
        dado = design_dado(into=self._make.panels.thickness, panel=stock.thickness, shop=self._shop, role=joint)
        self._findings += dado.findings
        x = bay.left - (self._frame.mullion + stock.thickness) / 2
        length = sizes.ceiling - sizes.floor + 2 * dado.depth - 2 * self._tip
        place = Place.at(x, sizes.front, sizes.floor - dado.depth + self._tip, "+Z", "+Y", "+X")
        board = self._board(role, stock, (length, sizes.inside_depth), _PARTITION, place)
        offset = (x - sizes.inside_left + self._dado.depth - self._tip).named(f"{name} from the panels' left ends", "CA-1")
        bottom, top = (cut_dado(dado, panel, offset, mate=role, which=role) for panel in (bottom, top))
        for panel, end in ((bottom, Surface.END), (top, Surface.FAR_END)):
            floor = Side(panel.name, Surface.FACE, dado.depth)
            self._meetings.append(Meeting(f"{name} in the {panel.name}", Side(name, end), floor, self._tip, "CA-1"))
        return board, bottom, top

    # -- joints --------------------------------------------------------------------------------------

    def _dadoed(self, left: Board, right: Board, bottom: Board, top: Board) -> tuple[Board, Board, Board, Board]:
        sides = {Surface.END: left, Surface.FAR_END: right}
        panels = {Surface.END: bottom, Surface.FAR_END: top}
        for hand, side in sides.items():
            for end, panel in panels.items():
                offset = self._sizes.bottom_offset if end is Surface.END else self._sizes.top_offset
                sides[hand] = cut_dado(self._dado, sides[hand], offset, mate=panel.role, at=end, which=panel.role)
                if self._dado.is_stopped:
                    panels[end] = cut_notch(self._dado, panels[end], hand, mate=side.role, which=side.role.hand)
                self._meet_dado(panel, side, hand, offset)
        return sides[Surface.END], sides[Surface.FAR_END], panels[Surface.END], panels[Surface.FAR_END]

    def _meet_dado(self, panel: Board, side: Board, hand: Surface, offset: Dimension) -> None:
        """The panel's end in the dado, with the tip gap; its outer face on the wall nearest the side's end."""
        floor = Side(side.name, Surface.FACE, self._dado.depth)
        self._meetings.append(Meeting(f"{panel.name} in the {side.name}", Side(panel.name, hand), floor, self._tip, "CA-1"))
        away = Surface.FAR_END if panel.role.kind is PartKind.CASE_BOTTOM else Surface.END
        wall = Side(side.name, away, side.length - offset)
        self._meetings.append(
            Meeting(f"{panel.name} on the wall of its dado", Side(panel.name, Surface.FAR_FACE), wall, NOTHING, "CA-1")
        )

    def _meet_back(self, back: Board, sides: Sequence[Board], panels: Sequence[Board]) -> None:
        for side, edge in zip(sides, (Surface.EDGE, Surface.FAR_EDGE), strict=True):
            wall = Side(side.name, Surface.FACE, self._rabbet.depth)
            self._meetings.append(Meeting(f"{back.name} in the {side.name}", Side(back.name, edge), wall, self._tip, "RA-1"))
        for panel in panels:
            self._meetings.append(
                meeting(f"{back.name} on {panel.name}", (back, Surface.FACE), (panel, Surface.FAR_EDGE), rule="RA-1")
            )

    def _cavities(self, partitions: Sequence[Board]) -> tuple[Cavity, ...]:
        sizes, thickness = self._sizes, self._make.sides.thickness
        edges, left, wood = [], sizes.inside_left, PartRole(PartKind.CASE_SIDE, hand=Hand.LEFT)
        for bay, partition in zip(self._bays[1:], partitions, strict=True):
            middle = bay.left - self._frame.mullion / 2
            edges.append(Cavity(left, middle - thickness / 2, wood, partition.role))
            left, wood = middle + thickness / 2, partition.role
        right = PartRole(PartKind.CASE_SIDE, hand=Hand.RIGHT)
        edges.append(Cavity(left, sizes.inside_left + sizes.inside_width, wood, right))
        return tuple(edges)

    # -- what else there is to say -------------------------------------------------------------------

    def _mixed(self) -> Iterator[Finding]:
        if self._make.sides.is_solid != self._make.panels.is_solid:
            yield note("case", "Sides and bottom move differently with the seasons: glue the dadoes at the front third only and "
                       "let the rest slide.", "CK-6", "common practice")  # fmt: skip

    def _dimensions(self) -> tuple[Dimension, ...]:
        sizes = self._sizes
        return (
            sizes.width, sizes.height, sizes.depth, sizes.inside_width, sizes.inside_depth, sizes.bottom_offset, sizes.top_offset,
            sizes.floor, sizes.ceiling, sizes.back,
        )  # fmt: skip
