"""The loose tenon: separate slips of wood glued into matching mortises in two parts (LT-1 to LT-12)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, Cut, CutKind, CutRole, CutUse, Shape, Span, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, way_into
from joinlay.errors import BadInput
from joinlay.findings import Refused, larger, note, refusal, warning
from joinlay.joints.fits import findings_at, name_of, refusals_at, refuse_nothing
from joinlay.joints.mortise_depth import mortise_depths
from joinlay.joints.mortise_steps import centre_above_face, slack_of_the_rest
from joinlay.joints.spacing import KeepOut, Spacing, shortest_line, spread
from joinlay.joints.spans import inwards
from joinlay.joints.tenon_size import Use, tenon_sizes, wall_needed
from joinlay.lengths import NOTHING, Fraction, largest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board, Hand, JointRole, PartRole
    from joinlay.findings import Finding
    from joinlay.joints.tenon_size import TenonSize
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop, TenonStock

__all__ = ["KeepOut", "LooseTenon", "Seat", "Use", "cut_mortises", "design_loose_tenon", "keep_outs_on", "meet_mortise"]

#: Pi, near enough for glue.
_PI: Final = Fraction(355, 113)


@dataclass(frozen=True, slots=True)
class LooseTenon:
    """Loose tenons along one joint line.

    Each tenon is ``tenon_thickness`` by ``tenon_width`` (along the line) by ``tenon_length``. ``centres`` count from the datum
    end of the line. Mortises are ``depth_in_end`` deep in the part mortised in its end or edge and ``depth_in_face`` in the
    other; those after the first are ``slack`` wider than the tenon. ``from_reference_face`` is the centre of the mortise above
    the face of the part mortised in its end that lies to the fence, and ``from_far_face`` above the other: the same, unless the
    fence has steps (MS-7, MS-10). ``largest_spacing`` and ``smallest_spacing`` are from centre to centre, None with one tenon.
    ``findings`` bear the name of ``role`` as their place.
    """

    role: JointRole | None
    tenon_thickness: Dimension
    tenon_width: Dimension
    tenon_length: Dimension
    centres: tuple[Dimension, ...]
    depth_in_end: Dimension
    depth_in_face: Dimension
    slack: Dimension
    from_reference_face: Dimension
    from_far_face: Dimension
    largest_spacing: Dimension | None
    smallest_spacing: Dimension | None
    findings: tuple[Finding, ...]

    @property
    def glue_room(self) -> Dimension:
        """The room for glue past each end of a tenon (LT-5)."""
        return (self.depth_in_end + self.depth_in_face - self.tenon_length) / 2

    def glue_in(self, depth: Dimension) -> Fraction:
        """How much of a tenon is glued in a mortise so deep, in square millimetres: all round, as far as it reaches in (LT-5)."""
        wide, thick = self.tenon_width.mm, self.tenon_thickness.mm
        return (2 * (wide - thick) + _PI * thick) * (depth - self.glue_room).mm

    def cheeks_in(self, i: int, depth: Dimension) -> Fraction:
        """How much of that are cheeks of mortise ``i`` (from 0), in square millimetres, which hold against a pull (LT-4)."""
        return 2 * self.mortise_width(i).mm * depth.mm

    def mortise_width(self, i: int) -> Dimension:
        """How wide mortise ``i`` (from 0) is along the line: the tenon, and after the first its slack too (LT-12)."""
        return self.tenon_width + self.slack if i and self.slack else self.tenon_width

    def mortise_span(self, i: int) -> Span:
        """From where to where mortise ``i`` (from 0) runs on the joint line."""
        return Span.about(self.centres[i], self.mortise_width(i))


@dataclass(frozen=True, slots=True)
class Seat:
    """Where a joint line lies on a board: it runs along ``axis`` from the coordinate ``start`` in ``surface``.

    It runs towards larger numbers, or smaller ones where it is ``backwards``. ``centre`` is the coordinate of the tenons'
    mid-thickness on the remaining axis.
    """

    surface: Surface
    axis: Axis
    start: Dimension
    centre: Dimension
    backwards: bool = False

    def __post_init__(self) -> None:
        """Refuse a line that would run into the wood."""
        if self.axis is self.surface.axis:
            raise BadInput(
                f"a joint line in the {self.surface.value} cannot run {self.axis.value} the board; it must lie in that surface."
            )

    @property
    def through(self) -> Axis:
        """The axis of the tenons' thickness: neither along the line nor into the wood."""
        return next(axis for axis in Axis if axis not in (self.axis, self.surface.axis))

    def on_board(self, at: Dimension) -> Dimension:
        """The board's coordinate of a place on the joint line."""
        if self.backwards:
            return self.start - at
        return self.start + at if self.start else at


def design_loose_tenon(
    *,
    end_thickness: Dimension,
    face_thickness: Dimension,
    line: Dimension,
    shop: Shop,
    use: Use,
    is_solid: bool = False,
    tenon: TenonStock | None = None,
    keep_outs: Sequence[KeepOut] = (),
    role: JointRole | None = None,
) -> LooseTenon:
    """Size and place the loose tenons of one joint (LT-1 to LT-12, FF-2; sources as each rule has them).

    ``end_thickness`` is that of the part mortised in its end or edge; ``face_thickness`` how deep the other part is where it is
    mortised; ``line`` the length of the joint line. ``is_solid`` picks the end margin (LT-7). ``tenon`` is the one the maker asks
    for, else the shop's best. Raises BadInput for sizes of zero or less; Refused, naming the nearest that works,
    where no tenon suits the wood or the line.
    """
    refuse_nothing(end_thickness=end_thickness, face_thickness=face_thickness, joint_line=line)
    asked = _Asked(
        end_thickness=end_thickness,
        face_thickness=face_thickness,
        line=line,
        shop=shop,
        use=use,
        is_solid=is_solid,
        keep_outs=tuple(keep_outs),
        role=role,
    )
    with refusals_at(asked.named):
        sizes = tenon_sizes(end_thickness, line, shop, use, tenon, asked.named)
        try:
            return asked.made(sizes[0])
        except Refused as refused:
            raise asked.with_way_out(refused, sizes[1:]) from None


def cut_mortises(
    joint: LooseTenon, board: Board, seat: Seat, depth: Dimension, mate: PartRole | None, which: Hand | PartRole | None = None
) -> Board:
    """The board with one mortise for each tenon, ``depth`` deep from ``seat.surface``, round at both ends as a cutter leaves it.

    The mortises after the first are wider by the slack (LT-12). The cuts are called ``mortise``, ``which`` before it and a number
    from 1 after it. Raises BadInput where one would lie outside the wood.
    """
    into = inwards(board, seat.surface, NOTHING, depth)
    through = Span.about(seat.centre, joint.tenon_thickness)
    cuts = []
    for i, centre in enumerate(joint.centres):
        role = CutRole(CutUse.MORTISE, mate, joint.role, which, i + 1)
        at = seat.on_board(centre).named(f"{board.name} {role.name} centre", "LT-7 to LT-9", "by geometry")
        spans = {seat.axis: Span.about(at, joint.mortise_width(i)), seat.surface.axis: into, seat.through: through}
        cuts.append(
            Cut(
                kind=CutKind.MORTISE,
                surface=seat.surface,
                along=spans[Axis.ALONG],
                across=spans[Axis.ACROSS],
                into=spans[Axis.INTO],
                role=role,
                shape=Shape.ROUND_ENDS,
            )
        )
    return board.with_cuts(*cuts)


def meet_mortise(joint: LooseTenon, n: int, tenon: Board, end: Surface, wood: Board, surface: Surface) -> Meeting:
    """Tenon ``n`` (from 0) of the joint, by its ``end``, in its mortise in a ``surface`` of ``wood``, both placed (LT-5, PT-1).

    It goes in along its length and is glued all round as far as it reaches, with the glue's room past its end.
    """
    depth = joint.depth_in_end if surface.axis is Axis.ALONG else joint.depth_in_face
    return Meeting(
        one=tenon.role,
        other=wood.role,
        facings=(Facing("in the", Plane(end), Plane(surface, depth), joint.glue_room, "LT-5"),),
        closes=(way_into(wood, surface),),
        tie=Tie.GLUED,
        joint=joint.role,
        glue=joint.glue_in(depth),
        cheeks=joint.cheeks_in(n, depth),
    )


def keep_outs_on(board: Board, seat: Seat, depth: Dimension, thickness: Dimension, clearance: Dimension) -> tuple[KeepOut, ...]:
    """The keep-outs that cuts already in ``board`` make for mortises at ``seat``, in three dimensions (LT-11; our own choice).

    ``depth`` and ``thickness`` are those of the mortises, or the most they may be. A cut counts where it comes nearer than
    ``clearance`` to the band of wood the mortises are cut from; one on the far face with that much wood between is no obstacle.
    """
    into = inwards(board, seat.surface, NOTHING, depth)
    through = Span.about(seat.centre, thickness)
    found = []
    for cut in board.cuts:
        bands = ((into, cut.span(seat.surface.axis)), (through, cut.span(seat.through)))
        if all(Span(band.start - clearance, band.stop + clearance).overlaps(other) for band, other in bands):
            span = cut.span(seat.axis)
            ends = (
                (seat.start - span.stop, seat.start - span.start)
                if seat.backwards
                else (span.start - seat.start, span.stop - seat.start)
            )
            found.append(KeepOut(*ends, cut.name))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What one joint was asked to be; tries it with one tenon of the shop or another."""

    end_thickness: Dimension
    face_thickness: Dimension
    line: Dimension
    shop: Shop
    use: Use
    is_solid: bool
    keep_outs: tuple[KeepOut, ...]
    role: JointRole | None

    @property
    def named(self) -> str:
        """What its numbers begin with."""
        return name_of(self.role)

    def made(self, size: TenonSize) -> LooseTenon:
        """The joint with this tenon. Raises Refused where face or line have no room for it."""
        depths = mortise_depths(size, self.face_thickness, self.shop, self.named, self.use)
        wall = wall_needed(self.end_thickness, self.shop.practice)
        above = centre_above_face(self.end_thickness, size.thickness, wall, self.shop, self.named)
        slack = slack_of_the_rest(size.width, self.shop, self.named)
        spacing = self._spacing(size, slack)
        if not spacing.centres:
            raise self._no_room(size)
        return LooseTenon(
            role=self.role,
            tenon_thickness=size.thickness,
            tenon_width=size.width,
            tenon_length=depths.length,
            centres=spacing.centres,
            depth_in_end=depths.in_end,
            depth_in_face=depths.in_face,
            slack=slack,
            from_reference_face=above,
            # By its own steps a fence stands where it stands; centred, either face may lie to it.
            from_far_face=self.end_thickness - above if self.shop.machines.fence_steps else above,
            largest_spacing=spacing.largest,
            smallest_spacing=spacing.smallest,
            findings=findings_at(self.named, size.finding, depths.finding, self._judged(spacing, size)),
        )

    def with_way_out(self, refused: Refused, thinner: Sequence[TenonSize]) -> Refused:
        """The same refusal; where a thinner tenon of the shop would do, its remedy names the thickest that does."""
        for size in thinner:
            try:
                self.made(size)
            except Refused:
                continue
            found = refused.finding
            remedy = f"{found.remedy} Or ask for the {{thinner}} tenon, which fits."
            return Refused(replace(found, remedy=remedy, numbers={**found.numbers, "thinner": size.stock.thickness}))
        return refused

    def _margin(self, size: TenonSize) -> Dimension:
        """From the end of the line to the nearest mortise (LT-7); in a frame the shoulder (FF-2)."""
        practice = self.shop.practice
        if self.use is Use.FRAME:
            return practice.length("rail shoulder")
        return largest(size.thickness, practice.length(f"end margin in {'solid wood' if self.is_solid else 'plywood'}"))

    def _limit(self, size: TenonSize) -> Dimension:
        """The widest centre spacing (LT-9)."""
        practice = self.shop.practice
        if self.use is Use.CASE:
            return practice.length("tenon spacing in a case")
        return size.thickness * practice.ratio("tenon spacing in a drawer")

    def _spacing(self, size: TenonSize, slack: Dimension) -> Spacing:
        practice = self.shop.practice
        return spread(
            self.line,
            size.width,
            self._margin(size),
            size.thickness * practice.ratio("wood between mortises"),
            self._limit(size),
            self.keep_outs,
            clearance=practice.length("keep-out clearance"),
            slack=slack,
            named=self.named,
            rule=self.shop.rule,
        )

    def _judged(self, spacing: Spacing, size: TenonSize) -> Finding | None:
        """A warning where the gap is wider than wanted (LT-9); a note where a drawer or case has but one tenon (LT-10)."""
        if spacing.largest is not None and not spacing.is_within:
            return warning(
                "tenon spacing",
                "There are {gap} between two tenons, over the widest wanted of {limit}.",
                "Move the cuts between them if that can be done.",
                "LT-9",
                "our own choice",
                gap=spacing.largest,
                limit=self._limit(size),
            )
        if len(spacing.centres) == 1 and self.use is not Use.FRAME:
            return note("one tenon", "The joint line has room for one tenon only.", "LT-10", "common practice")
        return None

    def _no_room(self, size: TenonSize) -> Refused:
        """The refusal where not even one tenon fits: the shortest line that would do (LT-10)."""
        clearance = self.shop.practice.length("keep-out clearance")
        shortest = shortest_line(size.width, self._margin(size), self.keep_outs, clearance=clearance)
        beside = f" beside {_names(self.keep_outs)}" if self.keep_outs else ""
        what = f"A tenon {{width}} wide finds no room on a joint line {{line}} long{beside}."
        return refusal(
            "tenon placing",
            what,
            "The shortest line that would do is {shortest}.",
            "LT-10",
            "common practice",
            width=size.width,
            line=self.line,
            shortest=shortest,
        ).by(larger("opening", "height", shortest - self.line) if self.use is Use.DRAWER else None)


def _names(keep_outs: Sequence[KeepOut]) -> str:
    """The keep-outs in words; braces are left out, since a finding puts numbers in them."""
    words = [f"the {keep_out.name}" if keep_out.name else "a keep-out" for keep_out in keep_outs]
    return ", ".join(words).translate({ord(brace): None for brace in "{}"})
