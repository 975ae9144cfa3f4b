"""What every kind of corner is asked, at the front of a drawer and at its back.

Both corners at one end of a drawer are one joint cut twice. A kind of corner says what sizes it needs, what it cuts on both
boards, which loose parts it has, where the boards then meet and with how much glue; what it is called; and which section explains
it.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from typing import TYPE_CHECKING, ClassVar, TypeVar

from joinlay.boards import Hand, Surface
from joinlay.boards.meeting import Facing, Meeting, Plane, Tie, Way
from joinlay.errors import BadInput
from joinlay.findings import Refused, refusal
from joinlay.lengths import NOTHING, Length, rounded_to, rounded_up
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.boards import Axis, Board, Cut, DrawerRole, JointRole
    from joinlay.casework.drawer_sizes import DrawerSizes
    from joinlay.casework.opening import DrawerMake
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Shop, TenonStock

__all__ = ["BackCorner", "CornerKind", "Cornered", "FrontCorner", "GrooveLines", "Wanted", "with_nearest_cutter"]

_Joint = TypeVar("_Joint")


@dataclass(frozen=True, slots=True)
class GrooveLines:
    """Where the bottom groove runs, so that a joint can keep clear: from the sides' bottom edge, and how deep."""

    offset: Dimension
    width: Dimension
    depth: Dimension


@dataclass(frozen=True, slots=True)
class Wanted:
    """What a corner is designed for: which ``drawer``, what it is made of, its ``sizes``, and the shop it is made in.

    ``groove`` is the bottom's, which a front corner keeps clear of; None for a back corner, which says how deep it may be.
    ``tenon`` is the tenon stock the maker asks for, None where the rules are to choose.
    """

    drawer: DrawerRole
    make: DrawerMake
    sizes: DrawerSizes
    shop: Shop
    groove: GrooveLines | None = None
    tenon: TenonStock | None = None


@dataclass(frozen=True, slots=True)
class Cornered:
    """Two corners made: the front or back that is the ``end``, left and right side with their cuts, what is loose, where they
    meet.
    """

    end: Board
    left: Board
    right: Board
    meetings: tuple[Meeting, ...]
    loose: tuple[Board, ...] = ()


@dataclass(frozen=True, slots=True)
class FrontCorner(ABC):
    """How the sides meet the front. ``side_front`` is how far behind the face of the frame the sides begin."""

    role: JointRole
    side_front: Dimension

    #: The rule that the sides' length follows from.
    LENGTH_RULE: ClassVar[str] = "DR-5"

    @property
    @abstractmethod
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""

    @abstractmethod
    def join(self, front: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Front, left and right side, all placed, with the corner's cuts; its loose parts; and where they meet."""

    @property
    def holds_square(self) -> Length:
        """How far from its front end the joint holds a side square that leans: as deep as it cuts into the side, or lies
        against it.
        """
        return NOTHING

    @property
    def opens_groove(self) -> Dimension | None:
        """How deep the front's bottom groove, which stops behind the sides, must be for the corner's cuts to open its ends; None:
        they never do.
        """
        return None

    @property
    def hides_groove(self) -> Length:
        """How deep a groove may be that runs right through the front, since the corner takes off all it would show at (GR-3)."""
        return NOTHING


@dataclass(frozen=True, slots=True)
class BackCorner(ABC):
    """How the back stands between the sides.

    ``set_in`` is from the sides' back ends to the outer face of the back. ``thickness`` is the back's. ``addition`` is what the
    back is longer than the inside width, ``groove_limit`` how deep the back may be grooved for the bottom without breaking its
    tongue off, and ``groove_stop`` how far from their back ends the side's grooves end, hidden inside the joint (GR-3).
    """

    role: JointRole
    thickness: Dimension
    set_in: Dimension
    addition: Dimension
    groove_limit: Dimension
    groove_stop: Dimension

    #: The rule that the back's length follows from.
    LENGTH_RULE: ClassVar[str] = "LR-3"

    @property
    @abstractmethod
    def findings(self) -> tuple[Finding, ...]:
        """What the joint found."""

    @abstractmethod
    def join(self, back: Board, left: Board, right: Board, sizes: DrawerSizes) -> Cornered:
        """Back, left and right side, all placed, with the corner's cuts; and where they meet."""

    @property
    def laps(self) -> Dimension:
        """How far the back reaches behind the sides' ends."""
        return NOTHING

    def inside_face(self, side_length: Dimension) -> Dimension:
        """How far the back's inside face lies from the sides' front ends."""
        return side_length - self.set_in - self.thickness

    def back_length(self, sizes: DrawerSizes, side_length: Dimension) -> Dimension:
        """The back's length: the narrowest the drawer is over the thickness of the back, and the joint at both ends (LR-3,
        DR-4).
        """
        outer, inner = side_length - self.set_in, self.inside_face(side_length)
        at = outer if sizes.taper.mm >= 0 else inner
        inside = sizes.inside_width - sizes.taper * (at / side_length) if sizes.taper else sizes.inside_width
        named = f"{sizes.drawer.name} back length"
        return (inside + self.addition).named(named, self.LENGTH_RULE, "common practice")

    def in_dado(
        self, back: Board, side: Board, dado: Cut, tongue: Length, sizes: DrawerSizes, *, lies_inside: bool = False
    ) -> Meeting:
        """The back's tongue, ``tongue`` thick from its inside face, in the ``dado`` of a ``side`` (LR-2, LR-3, DA-1).

        Its outer side lies against the wall, or where it ``lies_inside`` its inner side does; the other has the tongue's fit, its
        tip the rest of the dado. In a tapered drawer the room past the tip is stated at both walls.
        """
        is_left = side.role.hand is Hand.LEFT
        end = Surface.END if is_left else Surface.FAR_END
        outer = Plane(Surface.FAR_FACE, Length(back.thickness.mm - tongue.mm))
        fit = Length(dado.along.size.mm - tongue.mm)
        walls = (("", None),) if not sizes.taper else (("inside", dado.along.start), ("outside", dado.along.stop))
        tips = []
        for which, at in walls:
            half = sizes.inside_width.mm / 2 - (sizes.taper.mm / 2 * (at.mm / side.length.mm) if at is not None else 0)
            room = Length(half + dado.into.stop.mm - back.length.mm / 2)
            where = f"in, at its wall {which}, the" if which else "in the"
            tips.append(Facing(where, Plane(end), Plane.floor(dado, at), room, "LR-3"))
        sides = ((outer, Plane.wall(side, dado, Surface.END)), (Plane(Surface.FACE), Plane.wall(side, dado, Surface.FAR_END)))
        lying, loose = sides[::-1] if lies_inside else sides
        facings = (
            Facing("against the", *lying, rule="DA-1, LR-2"),
            Facing("from the", *loose, fit, "DA-1, LR-2"),
            *tips,
        )
        into = Way.LEFT if is_left else Way.RIGHT
        glue = dado.floor_area + 2 * dado.wall_area
        return Meeting(
            one=back.role,
            other=side.role,
            facings=facings,
            closes=(into, Way.UP, Way.DOWN),
            tie=Tie.GLUED,
            joint=self.role,
            glue=glue,
        )


class CornerKind:
    """A kind of corner: there is one of each.

    ``word`` is what it is called, in a job and on paper. ``at_front`` and ``at_back`` design it there, raising Refused where it
    cannot be made; None where it can't stand. ``section`` is the axis of the side that a plane showing the joint is square to;
    None where no plane shows it, as with separate tenons.
    """

    def __init__(
        self,
        word: str,
        *,
        at_front: Callable[[Wanted], FrontCorner] | None = None,
        at_back: Callable[[Wanted], BackCorner] | None = None,
        section: Axis | None = None,
    ) -> None:
        """Take what is known of it."""
        self.word, self.at_front, self.at_back, self.section = word, at_front, at_back, section

    def __repr__(self) -> str:
        """By its word, which no other has."""
        return f"CornerKind({self.word!r})"

    def front(self, wanted: Wanted) -> FrontCorner:
        """The front corners of a drawer, designed.

        Raises Refused where they cannot be made, BadInput where this kind can't stand there.
        """
        if self.at_front is None:
            raise BadInput(f"a {self.word} can't stand at the front of a drawer.")
        return self.at_front(wanted)

    def back(self, wanted: Wanted) -> BackCorner:
        """The back corners of a drawer, designed.

        Raises Refused where they cannot be made, BadInput where this kind can't stand there.
        """
        if self.at_back is None:
            raise BadInput(f"a {self.word} can't stand at the back of a drawer.")
        return self.at_back(wanted)


def _widths(shop: Shop, wanted: Length) -> tuple[Dimension, ...]:
    """How wide a channel this shop cuts in one pass."""
    machines = shop.machines
    if machines.router_table is not None or machines.hand_router is not None:
        return tuple(cutter.diameter for cutter in shop.cutters)
    if machines.table_saw is not None and machines.table_saw.dado_widths:
        return machines.table_saw.dado_widths
    on_rule = rounded_to(wanted, shop.rule)
    return (on_rule if on_rule.mm > 0 else rounded_up(wanted, shop.rule),)


def with_nearest_cutter(shop: Shop, wanted: Length, design: Callable[[Dimension], _Joint]) -> _Joint:
    """The joint that ``design`` makes with the owned width of cut nearest to ``wanted``, the smaller first where two are as near
    (MS-8).

    A width is a router cutter's; in a shop without a router what the saw's dado set is stacked to, without that too any width on
    the rule, which saw kerfs and chisels leave. They are tried from the nearest on until one is not refused. Raises the first
    Refused where all are, and Refused where a shop with a router has no cutter at all.
    """
    first: Refused | None = None
    for width in sorted(_widths(shop, wanted), key=lambda width: (abs(width.mm - wanted.mm), width.mm)):
        try:
            return design(width)
        except Refused as refused:
            first = first or refused
    if first is not None:
        raise first
    raise refusal("no cutter", "the shop has no cutter", "List a straight cutter of about {wanted}.", "MS-8", wanted=wanted)
