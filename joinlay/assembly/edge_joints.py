"""Wide solid parts glued up from boards edge to edge, before anything is cut in them: how many boards, and their clamps (PN-1,
PT-4).

Two things say how many clamps. The glue wants pressure all along the joint: so much on each square inch, by the wood, and one
clamp gives only so much. And what a clamp presses spreads at 45 degrees through the caul and the outer board: it reaches the
first joint over twice their width together, so that no clamp may stand farther from the next. The larger count is taken.
"""

from __future__ import annotations

from itertools import pairwise
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse, Surface
from joinlay.errors import BadInput
from joinlay.lengths import NOTHING, Fraction, Length, dimension, fraction_in, smallest
from joinlay.records import dataclass
from joinlay.stock import Solid, species_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = [
    "MORE_BOARDS",
    "NARROWEST",
    "PRESSURES",
    "PSI",
    "GluedPanel",
    "glued_panels",
    "joint_lines",
    "joint_lines_between",
    "pressure_of",
]

#: Least and most pressure in an edge joint, in lb/in2. Source: Wood Handbook ch. 10, from memory; the glue's own sheet comes
#: first.
PRESSURES: Final = {True: (100, 150), False: (175, 250)}

#: Newtons on a square mm of a pound on a square inch.
PSI: Final = fraction_in("4.4482216152605") / (fraction_in("25.4") ** 2)


@dataclass(frozen=True, slots=True)
class GluedPanel:
    """Parts that are alike (``parts``, by role), each glued up from ``boards`` edge to edge; sizes are the finished ones.

    ``board`` is how wide each board is at least, ``pressure`` the least and most the joint wants, in lb/in2, ``force`` what the
    least is in all, in kN. ``spread`` is how far apart clamps may stand for the 45 degrees, ``clamps`` how many are wanted,
    ``reach`` how far they must open, cauls included. ``widths`` are those of its boards from the reference edge, where they are
    chosen from what is there and so may differ; ``board`` is then the narrower of the two outer ones.
    """

    parts: tuple[PartRole, ...]
    stock: str
    boards: int
    board: Dimension
    length: Dimension
    width: Dimension
    thickness: Dimension
    pressure: tuple[int, int]
    force: Fraction
    spread: Dimension
    clamps: int
    reach: Dimension
    widths: tuple[Dimension, ...] = ()

    @property
    def apart(self) -> Length:
        """From clamp to clamp; the first is half of that from the end."""
        return Length(self.length.mm / self.clamps)


def pressure_of(stock: Solid) -> tuple[int, int]:
    """The least and most pressure in an edge joint of ``stock``, in lb/in2 (PT-4). Source: Wood Handbook ch. 10, from memory.

    A species that isn't in the table is taken as hardwood.
    """
    try:
        is_softwood = species_named(stock.species).is_softwood
    except BadInput:
        is_softwood = False
    return PRESSURES[is_softwood]


def glued_panels(
    boards: Iterable[Board],
    stocks: Iterable[Stock],
    practice: Practice,
    chosen: Mapping[str, tuple[Dimension, ...]] | None = None,
) -> tuple[GluedPanel, ...]:
    """The parts of solid wood that are wider than boards come, those alike together, in the order of ``boards`` (PN-1, PT-4).

    ``boards`` are of the piece; what is of no stock that is known is left out. ``chosen`` are the joints, by the part's name, of
    those whose boards are chosen from what is there.
    """
    chosen = chosen or {}
    solid = {stock.name: stock for stock in stocks if isinstance(stock, Solid)}
    widest = practice.length("widest board")
    alike: dict[object, list[Board]] = {}
    for board in boards:
        if board.stock in solid and board.width > widest:
            own = tuple(line.mm for line in chosen.get(board.name, ()))
            alike.setdefault((board.stock, own, *(board.size(axis).mm for axis in Axis)), []).append(board)
    return tuple(_panel(some, solid, practice, chosen.get(some[0].name, ())) for some in alike.values())


#: Cuts that run along a board or sit in it at one place across: an edge joint keeps away from them. Source: common practice.
_KEPT_OFF: Final = (
    CutUse.GROOVE, CutUse.RABBET, CutUse.MORTISE, CutUse.SCREW_HOLE, CutUse.SCREW_SLOT, CutUse.PULL_HOLE, CutUse.PIN_HOLE,
)  # fmt: skip
#: How much farther from even an edge joint is looked for, step by step. Source: our own choice.
_STEP: Final = Fraction(1)
#: How many boards more than the fewest are tried, to keep joints off cuts. Source: our own choice.
MORE_BOARDS: Final = 3
#: The narrowest board worth gluing in. Source: our own choice.
NARROWEST: Final = Length(fraction_in("38.1"))


def joint_lines(board: Board, practice: Practice) -> tuple[Dimension, ...]:
    """Where the edge joints of a solid ``board`` wider than boards come lie, from its reference edge; none where it is no wider
    (PN-1).

    As few as can be and as evenly as can be, no board wider than ``widest board``, each joint ``joint from a cut`` off grooves,
    rabbets, tenons and holes and off the board's own edges. Where they can't all be kept off, with up to three boards more, they
    lie evenly.
    """
    widest = practice.length("widest board").mm
    width = board.width.mm
    if width <= widest:
        return ()
    least = ceil(width / widest)
    lines = _even(board, practice)
    return _named(board, [width * n / least for n in range(1, least)] if lines is None else lines)


def _even(board: Board, practice: Practice) -> list[Fraction] | None:
    """The joints of as few boards as can be, kept off cuts; None where they can't be with up to three boards more."""
    widest, width, spans = practice.length("widest board").mm, board.width.mm, _kept_clear(board, practice)
    least = ceil(width / widest)
    kept = (_kept_off([width / count] * count, [widest] * count, spans) for count in range(least, least + MORE_BOARDS + 1))
    return next((lines for lines in kept if lines is not None), None)


def joint_lines_between(board: Board, practice: Practice, most: Sequence[Fraction]) -> tuple[Dimension, ...] | None:
    """The same where the boards there are decide: from the reference edge they make at most ``most`` mm each of its width (PN-1).

    Each but the last is used in its whole width where the last then keeps enough of its own, else all are narrowed alike. None
    where joints can't be kept off cuts and edges so, though an even division of the part keeps them off.
    """
    width = board.width.mm
    rest = width - sum(most[:-1])
    share = width / sum(most)
    wanted = [*most[:-1], rest] if rest >= NARROWEST.mm else [one * share for one in most]
    lines = _kept_off(wanted, most, _kept_clear(board, practice))
    if lines is None and _even(board, practice) is None:
        lines = _kept_off(wanted, most, ())
    return None if lines is None else _named(board, lines)


def _named(board: Board, lines: Sequence[Fraction]) -> tuple[Dimension, ...]:
    return tuple(
        dimension(Length(at)).named(
            f"{board.name} edge joint {n} from its {board.datum.word(Surface.EDGE)}", "PN-1", "common practice"
        )
        for n, at in enumerate(lines, start=1)
    )


def _kept_clear(board: Board, practice: Practice) -> list[tuple[Fraction, Fraction]]:
    """Where across ``board`` no edge joint may lie: at its cuts and its own edges (PN-1)."""
    clear, width = practice.length("joint from a cut").mm, board.width.mm
    spans = [(cut.across.start.mm - clear, cut.across.stop.mm + clear) for cut in board.cuts_of(*_KEPT_OFF)]
    return [*spans, (Fraction(0), clear), (width - clear, width)]


def _kept_off(
    wanted: Sequence[Fraction], most: Sequence[Fraction], spans: Sequence[tuple[Fraction, Fraction]]
) -> list[Fraction] | None:
    """The joints between boards ``wanted`` so wide, clear of ``spans``, each the nearest to where it would lie that leaves no
    board wider than its ``most``; None where one can't.
    """
    lines: list[Fraction] = []
    width = sum(wanted, Fraction(0))
    for n in range(1, len(most)):
        before, even = lines[-1] if lines else Fraction(0), sum(wanted[:n], Fraction(0))
        left, own = sum(most[n:], Fraction(0)), most[n - 1]
        tried = (even + way * step * _STEP for step in range(ceil(own)) for way in ((1, -1) if step else (1,)))
        at = next(
            (
                at
                for at in tried
                if before < at <= before + own and width - at <= left and not any(low < at < high for low, high in spans)
            ),
            None,
        )
        if at is None:
            return None
        lines.append(at)
    return lines


def _panel(some: list[Board], solid: Mapping[str, Solid], practice: Practice, chosen: tuple[Dimension, ...]) -> GluedPanel:
    one = some[0]
    name, caul = one.name, practice.length("caul thickness")
    ends = (NOTHING, *chosen, one.width)
    widths = tuple(dimension(stop) - start for start, stop in pairwise(ends)) if chosen else ()
    count = len(chosen or joint_lines(one, practice)) + 1
    # What a clamp presses spreads over the outer board before it comes to the first joint.
    outer = smallest(widths[0], widths[-1]) if widths else one.width / count
    board = outer.named(f"{name} board width", "PN-1", "common practice")
    spread = ((board + caul) * 2).named(f"{name} clamps no farther apart than", "PT-4", "common practice")
    pressure = pressure_of(solid[one.stock])
    newtons = pressure[0] * PSI * one.length.mm * one.thickness.mm
    by_force = ceil(newtons / (practice.ratio("clamp force") * 1000))
    clamps = max(2, by_force, ceil(one.length / spread))
    reach = (dimension(one.width) + 2 * caul).named(f"{name} edge clamps open at least", "PT-4", "common practice")
    return GluedPanel(
        tuple(board.role for board in some),
        one.stock,
        count,
        board,
        one.length,
        one.width,
        one.thickness,
        pressure,
        newtons / 1000,
        spread,
        clamps,
        reach,
        widths,
    )
