"""Wide solid parts glued up from boards edge to edge, before anything is cut in them: how many boards, and their clamps (PN-1,
PT-4).

Two things say how many clamps. The glue wants pressure all along the joint: so much on each square inch, by the wood, and one
clamp gives only so much. And what a clamp presses spreads at 45 degrees through the caul and the outer board: it reaches the
first joint over twice their width together, so that no clamp may stand farther from the next. The larger count is taken.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis, CutUse, Surface
from joinlay.errors import BadInput
from joinlay.lengths import Fraction, Length, dimension, fraction_in
from joinlay.records import dataclass
from joinlay.stock import Solid, species_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from joinlay.boards import Board, PartRole
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["PRESSURES", "PSI", "GluedPanel", "glued_panels", "joint_lines", "pressure_of"]

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
    ``reach`` how far they must open, cauls included.
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


def glued_panels(boards: Iterable[Board], stocks: Iterable[Stock], practice: Practice) -> tuple[GluedPanel, ...]:
    """The parts of solid wood that are wider than boards come, those alike together, in the order of ``boards`` (PN-1, PT-4).

    ``boards`` are of the piece; what is of no stock that is known is left out.
    """
    solid = {stock.name: stock for stock in stocks if isinstance(stock, Solid)}
    widest = practice.length("widest board")
    alike: dict[object, list[Board]] = {}
    for board in boards:
        if board.stock in solid and board.width > widest:
            alike.setdefault((board.stock, *(board.size(axis).mm for axis in Axis)), []).append(board)
    return tuple(_panel(some, solid, practice) for some in alike.values())


#: Cuts that run along a board or sit in it at one place across: an edge joint keeps away from them. Source: common practice.
_KEPT_OFF: Final = (
    CutUse.GROOVE, CutUse.RABBET, CutUse.MORTISE, CutUse.SCREW_HOLE, CutUse.SCREW_SLOT, CutUse.PULL_HOLE, CutUse.PIN_HOLE,
)  # fmt: skip
#: How much farther from even an edge joint is looked for, step by step. Source: our own choice.
_STEP: Final = Fraction(1)


def joint_lines(board: Board, practice: Practice) -> tuple[Dimension, ...]:
    """Where the edge joints of a solid ``board`` wider than boards come lie, from its reference edge; none where it is no wider
    (PN-1).

    As few as can be and as evenly as can be, no board wider than ``widest board``, each joint ``joint from a cut`` off grooves,
    rabbets, tenons and holes and off the board's own edges. Where they can't all be kept off, with up to three boards more, they
    lie evenly.
    """
    widest, clear = practice.length("widest board").mm, practice.length("joint from a cut").mm
    width = board.width.mm
    if width <= widest:
        return ()
    spans = [(cut.across.start.mm - clear, cut.across.stop.mm + clear) for cut in board.cuts_of(*_KEPT_OFF)]
    spans += [(Fraction(0), clear), (width - clear, width)]
    least = ceil(width / widest)
    for count in range(least, least + 4):
        lines = _kept_off(width, count, widest, spans)
        if lines is not None:
            break
    else:
        lines = [width * n / least for n in range(1, least)]
    return tuple(
        dimension(Length(at)).named(
            f"{board.name} edge joint {n} from its {board.datum.word(Surface.EDGE)}", "PN-1", "common practice"
        )
        for n, at in enumerate(lines, start=1)
    )


def _kept_off(width: Fraction, count: int, widest: Fraction, spans: Sequence[tuple[Fraction, Fraction]]) -> list[Fraction] | None:
    """``count`` - 1 joints clear of ``spans``, each the nearest to where it would lie evenly that leaves no board too wide; None
    where one can't.
    """
    lines: list[Fraction] = []
    for n in range(1, count):
        before, even = lines[-1] if lines else Fraction(0), width * n / count
        left = count - n
        tried = (even + way * step * _STEP for step in range(ceil(widest)) for way in ((1, -1) if step else (1,)))
        at = next(
            (
                at
                for at in tried
                if before < at <= before + widest
                and width - at <= left * widest
                and not any(low < at < high for low, high in spans)
            ),
            None,
        )
        if at is None:
            return None
        lines.append(at)
    return lines


def _panel(some: list[Board], solid: Mapping[str, Solid], practice: Practice) -> GluedPanel:
    one = some[0]
    name, caul = one.name, practice.length("caul thickness")
    count = len(joint_lines(one, practice)) + 1
    board = (one.width / count).named(f"{name} board width", "PN-1", "common practice")
    spread = ((board + caul) * 2).named(f"{name} clamps no farther apart than", "PT-4", "common practice")
    pressure = pressure_of(solid[one.stock])
    newtons = pressure[0] * PSI * one.length.mm * one.thickness.mm
    by_force = ceil(newtons / (practice.ratio("clamp force") * 1000))
    clamps = max(2, by_force, ceil(one.length / spread))
    reach = (dimension(one.width) + 2 * caul).named(f"{name} edge clamps open at least", "PT-4", "common practice")
    return GluedPanel(
        tuple(board.role for board in some), one.stock, count, board, one.length, one.width, one.thickness, pressure,
        newtons / 1000, spread, clamps, reach,
    )  # fmt: skip
