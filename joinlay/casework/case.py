"""The case behind the frame: sides, bottom and top in dadoes, back in rabbets, partitions between banks (CA-1, DA, RA-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Board, Datum, Hand, JointKind, JointRole, PartKind, PartRole, Place, Surface, Whole
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way, butted
from joinlay.casework.assembly import Assembly
from joinlay.findings import note, refusal
from joinlay.joints.dado import cut_dado, cut_notch, design_dado
from joinlay.joints.rabbet import cut_rabbet, design_rabbet
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.casework.bay import Bay
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.findings import Finding
    from joinlay.joints.dado import Dado
    from joinlay.joints.rabbet import Rabbet
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop
    from joinlay.stock import Stock

__all__ = ["Case", "CaseMake", "CaseSizes", "Cavity", "make_case", "size_case"]


@dataclass(frozen=True, slots=True)
class CaseMake:
    """What a case is made of.

    ``panels`` are its bottom and top, ``sides`` its partitions too. ``bottom_offset`` is from the sides' lower ends to the
    underside of the bottom, ``top_offset`` from their upper ends to the top of the top; None: where the bearers need no packing,
    or, where the rail is too low for that, level with the rail. ``has_stopped_dadoes`` hides the dadoes at the front of the sides
    (DA-4), for a case without a frame's cover.
    """

    sides: Stock
    panels: Stock
    back: Stock
    bottom_offset: Dimension | None = None
    top_offset: Dimension | None = None
    has_stopped_dadoes: bool = False


@dataclass(frozen=True, slots=True)
class CaseSizes:
    """The case worked out, in the piece's own directions: X from the frame's left, Y from its show face, Z from its underside.

    ``left`` and ``underside`` are the outside of the case; ``front`` and ``back`` the frame's back and the inner face of the case
    back. ``floor`` is the upper face of the bottom and ``ceiling`` the lower face of the top.
    """

    width: Dimension
    height: Dimension
    depth: Dimension
    left: Dimension
    underside: Dimension
    front: Dimension
    back: Dimension
    inside_width: Dimension
    inside_depth: Dimension
    bottom_offset: Dimension
    top_offset: Dimension
    floor: Dimension
    ceiling: Dimension

    @property
    def inside_left(self) -> Dimension:
        """The inside face of the left side."""
        return self.left + (self.width - self.inside_width) / 2


def size_case(
    make: CaseMake, frame: FrameSizes, size: tuple[Dimension, Dimension, Dimension], rabbet: Rabbet,
    runner: Dimension, practice: Practice,
) -> CaseSizes:  # fmt: skip
    """The sizes of a case behind a frame, the whole piece ``size`` = width, height, depth over all.

    CA-1: the outside follows from the frame and its overhangs; ``runner`` is the thickness of the bearers' stock, which decides
    where bottom and top stand by default. Raises Refused where a rail is too low to hide the bottom or the top. Source: common
    practice.
    """
    whole_width, whole_height, whole_depth = size
    width = (whole_width - 2 * frame.overhang).named("case width", "CA-1, FF-3", "common practice")
    height = (whole_height - frame.overhang_top - frame.overhang_bottom).named("case height", "CA-1, FF-3", "common practice")
    depth = (whole_depth - frame.thickness).named("case depth, without the frame", "CA-1", "common practice")
    inside = (width - 2 * make.sides.thickness).named("case inside width", "CA-1", "common practice")
    inside_depth = (depth - rabbet.width).named("case inside depth", "CA-1, RA-1", "common practice")
    for left in (inside, inside_depth, height):
        _refuse_nothing(left)
    under = frame.bottom_rail - frame.overhang_bottom
    over = frame.top_rail - frame.overhang_top
    panel = make.panels.thickness
    bottom = _offset("bottom", make.bottom_offset, under, panel, runner, practice)
    top = _offset("top", make.top_offset, over, panel, runner, practice)
    floor = (frame.overhang_bottom + bottom + panel).named("case floor above the frame's underside", "CA-1")
    ceiling = (whole_height - frame.overhang_top - top - panel).named("case ceiling above the frame's underside", "CA-1")
    return CaseSizes(
        width=width, height=height, depth=depth, left=frame.overhang, underside=frame.overhang_bottom, front=frame.thickness,
        back=(frame.thickness + inside_depth).named("case back from the face of the frame", "CA-1"),
        inside_width=inside, inside_depth=inside_depth, bottom_offset=bottom, top_offset=top, floor=floor, ceiling=ceiling,
    )  # fmt: skip


def _offset(
    part: str, given: Dimension | None, hidden: Dimension, panel: Dimension, runner: Dimension, practice: Practice
) -> Dimension:
    """From the end of the sides to the panel behind a rail that hides ``hidden`` of them.

    By default the panel stands a runner's thickness away from the opening, so that nothing is packed; else level with the rail.
    """
    name, margin = f"case {part} offset", practice.length("case dado margin")
    if given is not None:
        return _checked(part, given, hidden, panel, practice).named(name, "CA-1")
    level = hidden - panel
    if level - runner >= margin:
        return (level - runner).named(name, "CA-1", "our own choice")
    if level >= margin:
        return level.named(name, "CA-1", "our own choice")
    raise refusal(
        "case dado",
        f"The {part} rail hides {{hidden}} of the case's sides, too little for a dado {{panel}} wide with {{margin}} beyond it.",
        f"Make the {part} rail at least {{short}} higher, or the case's panels thinner.", "CA-1", "our own choice",
        hidden=hidden, panel=panel, margin=margin, short=margin - level,
    ).at("case")  # fmt: skip


def _checked(part: str, given: Dimension, hidden: Dimension, panel: Dimension, practice: Practice) -> Dimension:
    """An offset the maker gave: wood beyond the dado, the panel not in the opening, and room above it for a strip or none at
    all.
    """
    margin, strip = practice.length("case dado margin"), practice.length("thinnest strip")
    level = hidden - panel
    if given < margin:
        raise refusal(
            "case dado", f"The {part} offset leaves {{left}} of the sides beyond the dado.", "Leave at least {margin}.",
            "CA-1", "our own choice", left=given, margin=margin,
        ).at("case")  # fmt: skip
    if given > level:
        raise refusal(
            "case dado", f"The case {part} would stand {{over}} past the {part} rail, in the opening.",
            "Give an offset of {level} at most.", "CA-1", "by geometry", over=given - level, level=level,
        ).at("case")  # fmt: skip
    if level - strip < given < level:
        raise refusal(
            "case dado", f"The case {part} lies {{room}} from the opening, too little for any bearer or kicker.",
            "Give an offset of {level}, or of {less} at most.", "RN-3", "our own choice",
            room=level - given, level=level, less=level - strip,
        ).at("case")  # fmt: skip
    return given


def _refuse_nothing(size: Dimension) -> None:
    if size <= NOTHING:
        raise refusal("case size", f"The {size.name} would be {{left}}.", "Make the piece at least {short} larger that way.",
                      "CA-1",
                      "by geometry", left=size, short=-size).at("case")  # fmt: skip


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
    """A case with its sizes and the cavity of each bank from the left."""

    assembly: Assembly
    sizes: CaseSizes
    cavities: tuple[Cavity, ...]


def make_case(
    make: CaseMake, frame: FrameSizes, size: tuple[Dimension, Dimension, Dimension], bays: Sequence[Bay], runner: Dimension,
    shop: Shop,
) -> Case:  # fmt: skip
    """Cut and place the case behind a frame; the whole piece is ``size`` = width, height, depth over all, frame included.

    CA-1 bottom and top in dadoes, RA-1 back in rabbets, partitions centred behind the uprights. ``runner`` is the thickness of
    the bearers' stock. Raises Refused where a size leaves nothing, a rail can't hide a panel, or a joint can't be made.
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
    rabbet = design_rabbet(into=make.sides.thickness, panel=make.back.thickness, shop=shop, role=role)
    sizes = size_case(make, frame, size, rabbet, runner, shop.practice)
    return _CaseMaker(make=make, sizes=sizes, dado=dado, rabbet=rabbet, bays=tuple(bays), frame=frame, shop=shop).made()


class _CaseMaker:
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
            self._meetings.append(butted((back, Surface.FACE), (partition, Surface.FAR_EDGE), "on the", rule="RA-1"))
        boards = (left, right, bottom, top, *partitions, back)
        findings = tuple(finding.at("case") for finding in self._findings)
        assembly = Assembly(Whole.CASE, boards, tuple(self._meetings), self._dimensions(), findings)
        return Case(assembly, self._sizes, self._cavities(partitions))

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
        dado = design_dado(
            into=self._make.panels.thickness, panel=stock.thickness, shop=self._shop, is_judged_later=True, role=joint
        )
        self._findings += dado.findings
        x = bay.left - (self._frame.mullion + stock.thickness) / 2
        length = sizes.ceiling - sizes.floor + 2 * dado.depth - 2 * self._tip
        place = Place.at(x, sizes.front, sizes.floor - dado.depth + self._tip, "+Z", "+Y", "+X")
        board = self._board(role, stock, (length, sizes.inside_depth), _PARTITION, place)
        offset = (x - sizes.inside_left + self._dado.depth - self._tip).named(f"{name} from the panels' left ends", "CA-1")
        bottom, top = (cut_dado(dado, panel, offset, mate=role, which=role) for panel in (bottom, top))
        for panel, end, into in ((bottom, Surface.END, Way.DOWN), (top, Surface.FAR_END, Way.UP)):
            self._meet_dado(board, end, panel, (into, Way.FRONT, Way.BACK), joint)
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

    def _meet_back(self, back: Board, sides: Sequence[Board], panels: Sequence[Board]) -> None:
        """The back in the rabbets of the sides and against the panels' back edges, without glue."""
        joint, ways = self._rabbet.role, (Way.FRONT, Way.UP, Way.DOWN)
        for side, edge, into in zip(sides, (Surface.EDGE, Surface.FAR_EDGE), (Way.LEFT, Way.RIGHT), strict=True):
            facings = (
                Facing("in the", Plane(edge), Plane(Surface.FACE, self._rabbet.depth), self._tip, "RA-1"),
                Facing(
                    "against the rabbet of the", Plane(Surface.FACE), Plane(Surface.FAR_EDGE, self._rabbet.width), rule="RA-1"
                ),
            )
            self._meetings.append(Meeting(one=back.role, other=side.role, facings=facings, closes=(into, *ways), joint=joint))
        for panel in panels:
            self._meetings.append(butted((back, Surface.FACE), (panel, Surface.FAR_EDGE), "on the", rule="RA-1"))

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
