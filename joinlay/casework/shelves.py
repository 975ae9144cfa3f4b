"""Shelves of an open bay: what the maker asks of them, where fixed ones lie, and where the holes for pins are (SH-1, SH-2)."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Cut, CutKind, CutRole, CutUse, PartKind, PartRole, Shape, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Change, refusal
from joinlay.lengths import NOTHING, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.boards import Board
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["Lipping", "OpenMake", "PinLines", "bore_pin_holes", "fixed_levels", "pin_lines"]


@dataclass(frozen=True, slots=True)
class Lipping:
    """A strip of ``stock`` on edge along the front of a shelf, ``height`` high and as thick as its stock (SH-1)."""

    stock: Stock
    height: Dimension

    def refuse_low(self, role: PartRole, thickness: Dimension) -> None:
        """Raise Refused where it, called ``role``, doesn't cover the edge of a shelf ``thickness`` thick."""
        if self.height < thickness:
            raise refusal(
                "shelves",
                "A lipping {height} high does not cover the edge of a shelf {thickness} thick.",
                "Make it at least {thickness} high.",
                "SH-1",
                "by geometry",
                height=self.height,
                thickness=thickness,
            ).at(role.name)


@dataclass(frozen=True, slots=True)
class OpenMake:
    """What the maker asks of a bay without drawers: ``fixed`` shelves in dadoes, as far apart as each other, or ``loose`` ones on
    pins.

    ``stock`` None: the case's panels'. Only fixed shelves have a ``lipping``.
    """

    fixed: int = 0
    loose: int = 0
    stock: Stock | None = None
    lipping: Lipping | None = None

    def __post_init__(self) -> None:
        """Refuse both kinds at once, and a lipping where no shelf is fixed."""
        if self.fixed and self.loose:
            raise BadInput("a bay was given fixed shelves and loose ones; give it one kind, or make two bays of it.")
        if self.lipping is not None and not self.fixed:
            raise BadInput(
                "a lipping is glued to fixed shelves, and this bay has none; leave it out, or write fixed = and how many."
            )


def fixed_levels(count: int, floor: Dimension, ceiling: Dimension, thickness: Dimension, where: str) -> tuple[Dimension, ...]:
    """The levels of the upper faces of ``count`` shelves ``thickness`` thick, from the top down, with the same room over, between
    and under them (SH-1, by geometry). Raises Refused where they leave none.
    """
    spaces = count + 1
    room = ((ceiling - floor - thickness * count) / spaces).named(f"{where} room between shelves", "SH-1", "by geometry")
    if room.mm <= 0:
        raise refusal(
            "shelves",
            "The shelves alone take {wood} of a bay {room} high.",
            "Give it fewer of them, or make the bay higher.",
            "SH-1",
            "by geometry",
            wood=thickness * count,
            room=ceiling - floor,
        ).at(where)
    return tuple(
        (ceiling - room * n - thickness * (n - 1)).named(f"{where} shelf {n} upper face", "SH-1", "by geometry")
        for n in range(1, count + 1)
    )


@dataclass(frozen=True, slots=True)
class PinLines:
    """Where the holes for shelf pins are in the wood beside a bay (SH-2): two upright lines, each with a hole at every level.

    ``levels`` are from the bay's floor up to the middle of each hole; ``front`` and ``back`` from the front edge to the two
    lines.
    """

    levels: tuple[Dimension, ...]
    front: Dimension
    back: Dimension
    diameter: Dimension
    depth: Dimension

    def nearest(self, wanted: Dimension) -> int:
        """The place of the hole whose level is nearest to ``wanted`` above the floor."""
        return min(range(len(self.levels)), key=lambda n: abs(self.levels[n] - wanted))


def pin_lines(height: Dimension, deep: Dimension, count: int, practice: Practice, where: str) -> PinLines:
    """The holes for ``count`` loose shelves in a bay ``height`` high and ``deep`` from front to back (SH-2).

    They begin and end two spacings from floor and ceiling, where no shelf is wanted. Source: common practice; 32 mm apart, 5 mm
    wide, 37 mm from the front edge. Raises Refused where there is no room for as many as there are shelves, or for two lines.
    """
    spacing, line = practice.length("pin spacing"), practice.length("pin line")
    most = int(height / spacing)
    levels = tuple(
        (spacing * n).named(f"{where} floor to pin hole {n - 1}", "SH-2", "common practice") for n in range(2, most - 1)
    )
    if len(levels) < count:
        standing = "a shelf is" if count == 1 else "{count} shelves are"
        raise (
            refusal(
                "shelves",
                f"A bay {{height}} high has room for {{holes}} pin holes one over the other, and {standing} to stand in it.",
                "Give it fewer loose shelves, make the bay at least {enough} high, or bore the holes nearer "
                "(pin-spacing under [practice]).",
                "SH-2",
                "common practice",
                height=height,
                holes=len(levels),
                count=count,
                enough=spacing * (count + 3),
            )
            .at(where)
            .by(Change("practice", "pin spacing", height / (count + 3), toward=-1))
        )
    if deep <= 2 * line:
        raise (
            refusal(
                "shelves",
                "The lines of pin holes, {line} from each edge, leave nothing between them in a bay {deep} deep.",
                "Make the case deeper than {least}, or bring the lines nearer to the edges (pin-line under [practice]).",
                "SH-2",
                "common practice",
                line=line,
                deep=deep,
                least=2 * line,
            )
            .at(where)
            .by(Change("practice", "pin line", deep / 4, toward=-1))
        )
    return PinLines(
        levels=levels,
        front=line.named(f"{where} front edge to the first line of pin holes", "SH-2"),
        back=(deep - line).named(f"{where} front edge to the second line of pin holes", "SH-2", "common practice"),
        diameter=practice.length("pin hole"),
        depth=practice.length("pin hole depth"),
    )


def bore_pin_holes(board: Board, lines: PinLines, floor: Dimension, face: Surface, mate: PartRole, *, is_between: bool) -> Board:
    """``board``, upright beside a bay, with all its pin holes in ``face``; ``floor`` is from its lower end to the bay's floor
    (SH-2).

    ``mate`` is the lowest shelf that stands on them. Where a bay ``is_between`` others, holes may be bored from both faces, and
    keep to three eighths of the thickness, so that a quarter stays between them (our own choice).
    """
    depth = smallest(lines.depth, board.thickness * 3 / 8) if is_between else lines.depth
    cuts = []
    for n, level in enumerate(lines.levels, start=1):
        for line, across in enumerate((lines.front, lines.back)):
            at = floor + level
            into = Span(NOTHING, depth) if face is Surface.FACE else Span(board.thickness - depth, board.thickness)
            role = CutRole(CutUse.PIN_HOLE, mate, which=PartRole(PartKind.LOOSE_SHELF, bay=mate.bay), number=2 * n - 1 + line)
            cuts.append(
                Cut(
                    CutKind.HOLE,
                    face,
                    Span.about(at, lines.diameter),
                    Span.about(across, lines.diameter),
                    into,
                    role,
                    shape=Shape.ROUND,
                )
            )
    return board.with_cuts(*cuts)
