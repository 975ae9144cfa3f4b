"""The sizes of a case behind its frame, and where its bottom and top stand in it (CA-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.findings import Change, at_least, at_most, larger, refusal, stock_of
from joinlay.lengths import NOTHING
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards.fastener import FastenerKind
    from joinlay.casework.face_frame import FrameSizes
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["CaseMake", "CaseSizes", "size_case"]


@dataclass(frozen=True, slots=True)
class CaseMake:
    """What a case is made of.

    ``panels`` are its bottom and top, ``sides`` its partitions too. ``bottom_offset`` is from the sides' lower ends to the
    underside of the bottom, ``top_offset`` from their upper ends to the top of the top; None: where the bearers need no packing,
    or, where the rail is too low for that, level with the rail. ``has_stopped_dadoes`` hides the dadoes at the front of the sides
    (DA-4), for a case without a frame's cover. ``back_inset`` is from the sides' rear edges to the back, which then stands in
    grooves; None: it lies in rabbets, flush with them (SC-2, RA-1). ``back_held``
    is what holds it there; None: nails in rabbets, nothing but its grooves where it stands in those.
    """

    sides: Stock
    panels: Stock
    back: Stock
    bottom_offset: Dimension | None = None
    top_offset: Dimension | None = None
    has_stopped_dadoes: bool = False
    back_inset: Dimension | None = None
    back_held: FastenerKind | None = None


@dataclass(frozen=True, slots=True)
class CaseSizes:
    """The case worked out, in the piece's own directions: X from the frame's left, Y from its show face, Z from its underside.

    ``left`` and ``underside`` are the outside of the case; ``front`` and ``back`` the frame's back and the inner face of the case
    back. ``floor`` is the upper face of the bottom and ``ceiling`` the lower face of the top. ``below`` is how far sides and back
    reach under the case, to the floor they stand on (BA-2; nothing: they end with it).
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
    below: Dimension = NOTHING

    @property
    def foot(self) -> Dimension:
        """The level of the lower ends of sides and back."""
        return self.underside - self.below if self.below else self.underside

    @property
    def upright(self) -> Dimension:
        """How long sides and back are."""
        return self.height + self.below if self.below else self.height

    @property
    def above_foot(self) -> Dimension:
        """From the lower ends of the sides to the underside of the bottom."""
        return self.bottom_offset + self.below if self.below else self.bottom_offset

    @property
    def inside_left(self) -> Dimension:
        """The inside face of the left side."""
        return self.left + (self.width - self.inside_width) / 2


def size_case(
    make: CaseMake,
    frame: FrameSizes,
    size: tuple[Dimension, Dimension, Dimension],
    behind: Dimension,
    runner: Dimension,
    practice: Practice,
    *,
    is_open_below: bool = False,
    is_open_above: bool = False,
    below: Dimension = NOTHING,
) -> CaseSizes:
    """The sizes of a case behind a frame, the whole piece ``size`` = width, height, depth over all.

    CA-1: the outside follows from the frame and its overhangs; ``behind`` is what the back's rabbet, or its groove and what
    stands behind that, takes of the depth; ``runner`` is the thickness of the bearers' stock, which decides where bottom and top
    stand by default; over and under an open bay (``is_open_below``, ``is_open_above``) they are level with the rail, where that
    hides them. ``below`` is how far the sides reach under it. Raises Refused where a rail is too low to hide the bottom or the
    top. Source: common practice.
    """
    whole_width, whole_height, whole_depth = size
    width = (whole_width - 2 * frame.overhang).named("case width", "CA-1, FF-3", "common practice")
    height = (whole_height - frame.overhang_top - frame.overhang_bottom).named("case height", "CA-1, FF-3", "common practice")
    depth = (whole_depth - frame.thickness).named("case depth, without the frame", "CA-1", "common practice")
    inside = (width - 2 * make.sides.thickness).named("case inside width", "CA-1", "common practice")
    inside_depth = (depth - behind).named("case inside depth", "CA-1, RA-1", "common practice")
    for left in (inside, inside_depth, height):
        _refuse_nothing(left)
    under = frame.bottom_rail - frame.overhang_bottom
    over = frame.top_rail - frame.overhang_top
    panel = make.panels.thickness
    bottom = _offset("bottom", make.bottom_offset, under, panel, NOTHING if is_open_below else runner, practice)
    lift = practice.length("kicker lift")
    top = _offset("top", make.top_offset, over, panel, NOTHING if is_open_above else runner, practice, lift)
    floor = (frame.overhang_bottom + bottom + panel).named("case floor above the frame's underside", "CA-1")
    ceiling = (whole_height - frame.overhang_top - top - panel).named("case ceiling above the frame's underside", "CA-1")
    return CaseSizes(
        width=width,
        height=height,
        depth=depth,
        left=frame.overhang,
        underside=frame.overhang_bottom,
        front=frame.thickness,
        back=(frame.thickness + inside_depth).named("case back from the face of the frame", "CA-1"),
        inside_width=inside,
        inside_depth=inside_depth,
        bottom_offset=bottom,
        top_offset=top,
        floor=floor,
        ceiling=ceiling,
        below=below,
    )


def _offset(
    part: str,
    given: Dimension | None,
    hidden: Dimension,
    panel: Dimension,
    runner: Dimension,
    practice: Practice,
    lift: Dimension | None = None,
) -> Dimension:
    """From the end of the sides to the panel behind a rail that hides ``hidden`` of them.

    A panel level with it may stand up to ``lift`` further off. By default the panel stands a runner's thickness away from the
    opening, so that nothing is packed; else level with the rail.
    """
    name, margin = f"case {part} offset", practice.length("case dado margin")
    if given is not None:
        return _checked(part, given, hidden, panel, practice, lift).named(name, "CA-1")
    level = hidden - panel
    if level - runner >= margin:
        return (level - runner).named(name, "CA-1", "our own choice")
    if level >= margin:
        return level.named(name, "CA-1", "our own choice")
    raise (
        refusal(
            "case dado",
            f"The {part} rail hides {{hidden}} of the case's sides, too little for a dado {{panel}} wide with "
            f"{{margin}} beyond it.",
            f"Make the {part} rail at least {{short}} higher, or the case's panels thinner.",
            "CA-1",
            "our own choice",
            hidden=hidden,
            panel=panel,
            margin=margin,
            short=margin - level,
        )
        .at("case")
        .by(larger("frame", f"{part}-rail", margin - level), stock_of("case", "panels", thickest=hidden - margin))
    )


def _checked(
    part: str, given: Dimension, hidden: Dimension, panel: Dimension, practice: Practice, lift: Dimension | None
) -> Dimension:
    """An offset the maker gave: wood beyond the dado, the panel not in the opening, and room above it for a strip or none at
    all. A top may be lifted as a kicker is, by so much that the drawer touches it and never the rail (RN-3).
    """
    margin, strip = practice.length("case dado margin"), practice.length("thinnest strip")
    level = hidden - panel
    if given < margin:
        raise (
            refusal(
                "case dado",
                f"The {part} offset leaves {{left}} of the sides beyond the dado.",
                "Leave at least {margin}.",
                "CA-1",
                "our own choice",
                left=given,
                margin=margin,
            )
            .at("case")
            .by(at_least("case", f"{part}-offset", margin))
        )
    if given > level:
        raise (
            refusal(
                "case dado",
                f"The case {part} would stand {{over}} past the {part} rail, in the opening.",
                "Give an offset of {level} at most.",
                "CA-1",
                "by geometry",
                over=given - level,
                level=level,
            )
            .at("case")
            .by(Change("case", f"{part}-offset", level))
        )
    nearest = level if lift is None else level - lift
    if level - strip < given < nearest:
        lifted = "," if lift is None else ", of {lifted} to lift it by the usual {lift},"
        raise (
            refusal(
                "case dado",
                f"The case {part} lies {{room}} from the opening, too little for any bearer or kicker.",
                f"Give an offset of {{level}}{lifted} or of {{less}} at most.",
                "RN-3",
                "our own choice",
                room=level - given,
                level=level,
                less=level - strip,
                lifted=nearest,
                lift=lift or NOTHING,
            )
            .at("case")
            .by(
                Change("case", f"{part}-offset", nearest),
                at_most("case", f"{part}-offset", level - strip),
            )
        )
    return given


def _refuse_nothing(size: Dimension) -> None:
    if size <= NOTHING:
        raise refusal(
            "case size",
            f"The {size.name} would be {{left}}.",
            "Make the piece at least {short} larger that way.",
            "CA-1",
            "by geometry",
            left=size,
            short=-size,
        ).at("case")
