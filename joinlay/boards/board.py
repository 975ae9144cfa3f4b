"""A board with cuts is the one truth: lists, settings, templates and checks all read it."""

from __future__ import annotations

from dataclasses import field, replace
from typing import TYPE_CHECKING

from joinlay.boards.surface import Axis, Surface
from joinlay.errors import BadInput
from joinlay.lengths import ZERO, BadSize
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards.cut import Cut
    from joinlay.boards.place import Place
    from joinlay.boards.role import CutUse, PartRole
    from joinlay.lengths import Dimension, Length

__all__ = ["Band", "Board", "Datum", "Taper"]


@dataclass(frozen=True, slots=True)
class Band:
    """Edge banding on one ``surface`` of a board: an edge or an end.

    ``stock`` names the banding, ``thickness`` is how much of the board's finished size it is, ``length`` what to cut, trim
    included (EB-3), and ``order`` its turn on this board, from 1 (EB-1). ``width`` is how wide a lipping is sawn, None for
    banding as it is bought (EB-4).
    """

    surface: Surface
    stock: str
    thickness: Dimension
    length: Dimension
    order: int
    width: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Datum:
    """What the maker calls the six surfaces of a part: ``inside face``, ``bottom edge``, ``front end``, and those opposite."""

    face: str
    edge: str
    end: str
    far_face: str
    far_edge: str
    far_end: str

    def word(self, surface: Surface) -> str:
        """The maker's word for ``surface``."""
        return {
            Surface.FACE: self.face,
            Surface.EDGE: self.edge,
            Surface.END: self.end,
            Surface.FAR_FACE: self.far_face,
            Surface.FAR_EDGE: self.far_edge,
            Surface.FAR_END: self.far_end,
        }[surface]


@dataclass(frozen=True, slots=True)
class Taper:
    """Wood planed off an edge or end in a straight line.

    ``surface`` is an edge or an end. ``near`` comes off where the board's other reference lies (for an edge its reference end,
    for an end its reference edge), ``far`` at the other side.
    """

    surface: Surface
    near: Dimension
    far: Dimension

    def __post_init__(self) -> None:
        """Refuse a taper of a face, and one that would put wood on."""
        if self.surface.axis is Axis.INTO:
            raise BadInput(f"a taper is planed off an edge or an end, not off the {self.surface.value}.")
        for size in (self.near, self.far):
            if size < ZERO:
                raise BadSize(
                    "a taper takes wood off; {name} is {size}, and 0 is the least.", name=size.name or "one end of it", size=size
                )


@dataclass(frozen=True, slots=True)
class Board:
    """A piece of wood: its sizes, its references, what is cut out of it, and where it stands.

    ``role`` is what it is in the piece, ``stock`` the name of what it is made of. ``length`` runs with the grain, ``width``
    across it (the other way about with ``has_grain_across``), ``thickness`` through. Cuts and tapers count from the reference
    face, edge and end, which ``datum`` gives their words. ``place`` is None for a board that stands alone.
    """

    role: PartRole
    stock: str
    length: Dimension
    width: Dimension
    thickness: Dimension
    datum: Datum
    cuts: tuple[Cut, ...] = ()
    tapers: tuple[Taper, ...] = ()
    place: Place | None = None
    has_round_edges: bool = False
    """True for a loose tenon whose two narrow edges are rounded to fit a routed mortise."""
    planed: tuple[tuple[Surface, Dimension], ...] = ()
    """What is made full and planed off as it is fitted: from which surface, and about how much (HF-1)."""
    has_grain_across: bool = False
    """True for a part of a sheet whose grain runs along its width: a drawer front with its grain upright."""
    bands: tuple[Band, ...] = ()
    """Edge banding, in the order it is glued on; the board's sizes are the finished ones, bands included."""
    name: str = field(init=False, compare=False, repr=False)
    """The one on every sheet and list, for people: ``drawer 3 left side``."""
    part: str = field(init=False, compare=False, repr=False)
    """The trade's word for its kind, for people: ``drawer side``."""

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less, and cuts that lie outside the wood."""
        object.__setattr__(self, "name", self.role.name)
        object.__setattr__(self, "part", self.role.kind.value)
        sizes = self.sizes
        for axis, size in zip(Axis, sizes, strict=True):
            if size.mm <= 0:
                said = "{name}: its size {axis} would be {size}; it must be more than 0."
                raise BadSize(said, name=self.name, axis=axis.value, size=size)
        # A board is made anew with every cut, so all its cuts are looked at again and again.
        length, width, thickness = (size.mm for size in sizes)
        for cut in self.cuts:
            along, across, into = cut.spans
            if (
                along.start.mm < 0
                or along.stop.mm > length
                or across.start.mm < 0
                or across.stop.mm > width
                or into.start.mm < 0
                or into.stop.mm > thickness
            ):
                self._refuse_outside(cut)

    def _refuse_outside(self, cut: Cut) -> None:
        for axis in Axis:
            span = cut.span(axis)
            if span.start.mm < 0 or span.stop.mm > self.size(axis).mm:
                said = "{name}: the {cut} runs from {start} to {stop} {axis} the board, which is 0 to {size}."
                raise BadSize(
                    said, name=self.name, cut=cut.name, start=span.start, stop=span.stop, axis=axis.value, size=self.size(axis)
                )

    @property
    def sizes(self) -> tuple[Dimension, Dimension, Dimension]:
        """Length, width and thickness."""
        return self.length, self.width, self.thickness

    def size(self, axis: Axis) -> Dimension:
        """Length, width or thickness."""
        if axis is Axis.ALONG:
            return self.length
        return self.width if axis is Axis.ACROSS else self.thickness

    def with_cuts(self, *cuts: Cut) -> Board:
        """The same board with more cuts. Raises BadInput for one that lies outside the wood."""
        return replace(self, cuts=self.cuts + cuts)

    def cuts_of(self, *uses: CutUse) -> tuple[Cut, ...]:
        """Its cuts of these uses, in the order they were made."""
        return tuple(cut for cut in self.cuts if cut.role.use in uses)

    def cuts_for(self, mate: PartRole) -> tuple[Cut, ...]:
        """The cuts that the part ``mate`` goes into or meets."""
        return tuple(cut for cut in self.cuts if cut.role.mate == mate)

    def cut_named(self, name: str) -> Cut:
        """The first cut called ``name``; KeyError where there is none."""
        for cut in self.cuts:
            if cut.name == name:
                return cut
        raise KeyError(f"{self.name} has no cut called {name}")

    @property
    def end_on_left(self) -> bool:
        """True where the reference end is at the left, looking at the reference face with the reference edge down."""
        return self.place is None or self.place.end_on_left

    def moved(self, x: Length, y: Length, z: Length) -> Board:
        """The same board shifted in the piece: right, back, up. An unplaced board stays so."""
        return self if self.place is None else replace(self, place=self.place.moved(x, y, z))
