"""Pulls: where the knobs sit on a bank of fronts, how their sizes grow, their holes and the blanks they are turned from (PU)."""

from __future__ import annotations

from math import isqrt
from typing import TYPE_CHECKING, Union

from joinlay.boards import Axis, Board, Cut, CutKind, CutRole, CutUse, Datum, PartKind, PartRole, Shape, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Change, at_most, larger, refusal
from joinlay.lengths import NOTHING, ZERO, BadSize, Fraction, Length, chosen, dimension, rounded_to, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop

__all__ = ["ByEye", "ByStep", "Dot", "Pull", "Pulls", "drill_holes", "knob_blanks", "place_pulls"]

_BLANK: Datum = Datum("face", "edge", "knob end", "far face", "far edge", "waste end")


@dataclass(frozen=True, slots=True)
class ByStep:
    """Each knob is ``step`` wider than the one above it; None: the maker's usual growth (PU-2)."""

    step: Dimension | None = None


@dataclass(frozen=True, slots=True)
class ByEye:
    """The knobs look alike to an eye ``height`` above the floor and ``distance`` before the piece, which stands ``stand`` off
    it.
    """

    height: Dimension
    distance: Dimension
    stand: Dimension = NOTHING


@dataclass(frozen=True, slots=True)
class Dot:
    """A dot inlaid in the middle of the knob: ``diameter`` in the ``alike`` uppermost rows of the bank, larger by ``step`` in
    each below them.

    ``depth`` is how deep it is let in; None: the maker's usual depth (PU-2).
    """

    diameter: Dimension
    step: Dimension = NOTHING
    alike: int = 1
    depth: Dimension | None = None


@dataclass(frozen=True, slots=True)
class Pulls:
    """The knobs of a bank.

    ``stock`` names what they are turned from, ``diameter`` is the uppermost knob's, ``projection`` how far they stand out,
    ``hole`` the diameter of the spigot and its hole, ``depth`` the hole's (None: right through). ``count`` None: one, or two on
    wide fronts; ``share`` None: the maker's usual share of the width (PU-1). ``growth`` None: all alike. ``from_top`` keeps the
    knobs of deep drawers that far below the top edge; None centres every knob.
    """

    stock: str
    diameter: Dimension
    projection: Dimension
    hole: Dimension
    depth: Dimension | None = None
    count: int | None = None
    share: Fraction | None = None
    growth: Union[ByStep, ByEye, None] = None
    from_top: Dimension | None = None
    dot: Dot | None = None

    def __post_init__(self) -> None:
        """Refuse counts other than one and two, shares past the middle, and sizes of zero or less."""
        if self.count not in (None, 1, 2):
            raise BadInput(f"{self.count} pulls were asked on a drawer; write 1 or 2.")
        if self.share is not None and not 0 < self.share < Fraction(1, 2):
            raise BadInput(
                f"the pulls were put {self.share} of the width from the ends; write more than 0 and less than 1/2, 1/4 being "
                "usual."
            )
        for size in (self.diameter, self.projection, self.hole, *([self.depth] if self.depth else [])):
            if size.mm <= 0:
                raise BadSize("{name} is {size}; it must be more than 0.", name=size.name or "a size of the pulls", size=size)
        if self.hole >= self.diameter:
            said = "the pulls' hole is {hole} and the knob {knob} across; the knob must cover its hole."
            raise BadSize(said, hole=self.hole, knob=self.diameter)


@dataclass(frozen=True, slots=True)
class Pull:
    """One knob: ``on`` which front, its ``number`` there from the left, the centre of its hole, and its sizes (PU-3)."""

    on: PartRole
    number: int
    from_left: Dimension
    from_top: Dimension
    from_bottom: Dimension
    diameter: Dimension
    hole: Dimension
    depth: Dimension | None
    projection: Dimension
    dot: Dimension | None
    dot_depth: Dimension | None = None

    @property
    def front(self) -> str:
        """The front's name, for people."""
        return self.on.name


def place_pulls(fronts: Sequence[Board], pulls: Pulls, shop: Shop, rows: Sequence[int] | None = None) -> tuple[Pull, ...]:
    """The knobs of one bank of placed ``fronts``, from the top down and from the left.

    ``rows`` are which row each front stands in, from 0 at the top; None: one in each. What stands in one row has knobs alike.

    PU-1: one in the middle by the diagonals (Foster), or two at a share of the width from the ends, in line down the bank. PU-2:
    they grow by a step (common practice), or with their distance from the eye (derived), then to the nearest mark of the maker's
    rule. Raises Refused where a dot would be wider than its knob or a knob higher than its front; BadInput for a front without a
    place.
    """
    made: list[Pull] = []
    heights = [_height_on(front, pulls) for front in fronts]
    deep = _dot_depth(pulls, shop.practice)
    for n, front in enumerate(fronts):
        row = n if rows is None else rows[n]
        diameter = _diameter(pulls, fronts, heights, n, row, shop)
        _refuse_wide(front, diameter, _dot(pulls, row))
        made.extend(
            Pull(
                on=front.role,
                number=number,
                from_left=x,
                from_top=(front.width - heights[n]).named(f"{front.name} top edge to the hole", "PU-3"),
                from_bottom=heights[n],
                diameter=diameter,
                hole=pulls.hole,
                depth=pulls.depth,
                projection=pulls.projection,
                dot=_dot(pulls, row),
                dot_depth=deep,
            )
            for number, x in enumerate(_across(front, pulls, shop.practice), start=1)
        )
    return tuple(made)


def drill_holes(front: Board, pulls: Sequence[Pull], clear: Length = ZERO) -> Board:
    """``front`` with the holes of those ``pulls`` that are its own, drilled from the outside face (PU-3).

    Raises Refused where a hole would meet another cut of the front, with the depth that ends it ``clear`` of that one.
    """
    for pull in pulls:
        if pull.on != front.role:
            continue
        depth = pull.depth if pull.depth is not None else front.thickness
        if depth > front.thickness:
            raise (
                refusal(
                    "pull",
                    "The hole is {depth} deep in a front {thickness} thick.",
                    "Drill at most {thickness}, or right through.",
                    "PU-3",
                    depth=depth,
                    thickness=front.thickness,
                )
                .at(front.name)
                .by(at_most("pulls", "depth", front.thickness))
            )
        hole = Cut(
            CutKind.HOLE,
            Surface.FAR_FACE,
            Span.about(pull.from_left, pull.hole),
            Span.about(pull.from_bottom, pull.hole),
            Span(front.thickness - depth if pull.depth else NOTHING, front.thickness),
            CutRole(CutUse.PULL_HOLE, number=pull.number),
            shape=Shape.ROUND,
        )
        met = next((cut for cut in front.cuts if cut.overlaps(hole)), None)
        if met is not None:
            raise (
                refusal(
                    "pull",
                    f"The hole of pull {pull.number}, {{hole}} across, would meet the {met.name}.",
                    "Move the pull, drill it less deep, or give it a smaller spigot.",
                    "PU-3",
                    hole=pull.hole,
                )
                .at(front.name)
                .by(_shallower(front, met, clear))
            )
        front = front.with_cuts(hole)
    return front


def _shallower(front: Board, met: Cut, clear: Length) -> Change | None:
    """The change that ends a hole from outside short of what it ``met`` on the inside; None where that leaves no hole."""
    most = front.thickness - met.into.stop - clear
    return at_most("pulls", "depth", most) if most.mm > 0 else None


def knob_blanks(pulls: Sequence[Pull], stock: str, fronts: Sequence[Board], practice: Practice) -> tuple[Board, ...]:
    """The blanks to turn the knobs from, one a front: two knobs of one front come from one blank, so that their grain matches
    (PU-2).

    A blank is the knob's diameter and the turning allowance square, and as long as its knobs, spigots included, with the parting
    allowance beyond and between them. Source: common practice.
    """
    blanks = []
    for front in fronts:
        own = [pull for pull in pulls if pull.on == front.role]
        if not own:
            continue
        pull = own[0]
        spigot = pull.depth if pull.depth is not None else front.thickness
        knob = (pull.projection + spigot).named(f"{front.name} knob length, spigot included", "PU-2")
        square = (pull.diameter + practice.length("turning allowance")).named(f"{front.name} knob blank, square", "PU-2")
        length = (len(own) * knob + (len(own) + 1) * practice.length("parting allowance")).named(
            f"{front.name} knob blank length", "PU-2", "common practice"
        )
        blank = Board(PartRole(PartKind.KNOB_BLANK, front.role.drawer, of=front.role), stock, length, square, square, _BLANK)
        blanks.append(_bored(blank, own, practice))
    return tuple(blanks)


def _bored(blank: Board, own: Sequence[Pull], practice: Practice) -> Board:
    """The blank with a boring for the dot in the end that is to be each knob's face; the spigots of two lie in the middle (PU-2).

    It is bored while the blank is square and lies well to be marked, deeper by the parting allowance, which is turned away with
    the face.
    """
    for pull, end in zip(own, (Surface.END, Surface.FAR_END), strict=False):
        if pull.dot is None or pull.dot_depth is None:
            continue
        deep = (pull.dot_depth + practice.length("parting allowance")).named(
            f"{blank.name} boring for the dot", "PU-2", "common practice"
        )
        along = Span(blank.length - deep, blank.length) if end.is_far else Span(NOTHING, deep)
        middle = Span.about(blank.width / 2, pull.dot)
        role = CutRole(CutUse.DOT_HOLE, number=pull.number if len(own) > 1 else 0)
        blank = blank.with_cuts(Cut(CutKind.HOLE, end, along, middle, middle, role, shape=Shape.ROUND))
    return blank


def _across(front: Board, pulls: Pulls, practice: Practice) -> tuple[Dimension, ...]:
    two_from = practice.length("two pulls from")
    count = pulls.count if pulls.count is not None else 2 if front.length >= two_from else 1
    name = f"{front.name} left end to the hole"
    if count == 1:
        return ((front.length / 2).named(name, "PU-1", "Foster"),)
    share = pulls.share if pulls.share is not None else practice.ratio("pull share")
    inset = (front.length * share).named(f"{front.name} left end to the first hole", "PU-1", "common practice")
    return inset, (front.length - inset).named(f"{front.name} left end to the second hole", "PU-1", "common practice")


def _height_on(front: Board, pulls: Pulls) -> Dimension:
    """From the front's bottom edge to the hole: the middle, or on deep fronts the height the others keep below their top edge."""
    middle = front.width / 2
    name = f"{front.name} bottom edge to the hole"
    if pulls.from_top is None:
        return middle.named(name, "PU-1", "Foster")
    kept = smallest(middle, pulls.from_top)
    return (front.width - kept).named(name, "PU-1", "common practice")


def _diameter(pulls: Pulls, fronts: Sequence[Board], heights: Sequence[Dimension], n: int, row: int, shop: Shop) -> Dimension:
    name = f"{fronts[n].name} knob diameter"
    if isinstance(pulls.growth, ByStep):
        step = pulls.growth.step if pulls.growth.step is not None else shop.practice.length("knob growth")
        return (pulls.diameter + step * row if row else pulls.diameter).named(name, "PU-2", "common practice")
    if isinstance(pulls.growth, ByEye):
        own, first = (_from_eye(fronts[i], heights[i], pulls.growth) for i in (n, 0))
        seen = chosen(pulls.diameter * (own / first), "as wide to the eye, which is further off, as", pulls.diameter, own, first)
        return rounded_to(seen, shop.rule).named(name, "PU-2", "by geometry")
    return pulls.diameter.named(name, "PU-2", "common practice")


def _from_eye(front: Board, height: Dimension, eye: ByEye) -> Dimension:
    """From the eye to the knob, to a thousandth of a millimetre (Pythagoras in whole numbers, so every machine agrees)."""
    if front.place is None:
        raise BadInput(f"{front.name} has no place in the piece, so its knob's distance from the eye is not known.")
    up = front.place.point(NOTHING, height, NOTHING)[2] + eye.stand.mm - eye.height.mm
    thousandths = isqrt(int((up**2 + eye.distance.mm**2) * 10**6))
    return dimension(Length(Fraction(thousandths, 1000))).named(f"{front.name} knob to the eye", "PU-2", "by geometry")


def _dot(pulls: Pulls, row: int) -> Dimension | None:
    if pulls.dot is None:
        return None
    steps = max(0, row + 1 - pulls.dot.alike)
    return pulls.dot.diameter + pulls.dot.step * steps if steps else pulls.dot.diameter


def _dot_depth(pulls: Pulls, practice: Practice) -> Dimension | None:
    """How deep the dots are let in; raises Refused where that goes through the knob into its spigot (PU-2)."""
    if pulls.dot is None:
        return None
    deep = pulls.dot.depth if pulls.dot.depth is not None else practice.length("dot depth")
    if deep >= pulls.projection:
        raise refusal(
            "pull",
            "The dot is let {depth} into a knob that stands out {projection}.",
            "Let it in {half} at most.",
            "PU-2",
            depth=deep,
            projection=pulls.projection,
            half=pulls.projection / 2,
        ).by(at_most("pulls", "dot.depth", pulls.projection / 2))
    return deep.named("depth of the dot in its knob", "PU-2", "common practice")


def _refuse_wide(front: Board, diameter: Dimension, dot: Dimension | None) -> None:
    if dot is not None and dot >= diameter:
        raise (
            refusal(
                "pull",
                "The inlaid dot is {dot} wide on a knob {knob} across.",
                "Give the dot a smaller step, or the knob a larger size.",
                "PU-2",
                dot=dot,
                knob=diameter,
            )
            .at(front.name)
            .by(Change("pulls", "dot.step", NOTHING), larger("pulls", "diameter", dot - diameter))
        )
    if diameter > front.size(Axis.ACROSS):
        raise (
            refusal(
                "pull",
                "The knob is {knob} across on a front {height} high.",
                "Give the knobs at most {height}, or a smaller growth.",
                "PU-2",
                knob=diameter,
                height=front.width,
            )
            .at(front.name)
            .by(Change("pulls", "growth", "alike"), Change("pulls", "step", NOTHING), at_most("pulls", "diameter", front.width))
        )
