"""Fold-over strips: one paper for both halves of a loose tenon joint, folded over the edge where their outsides meet.

A corner is opened flat about its arris: the end of one board beside the face or edge of the other. On paper the fold stands
upright in the middle, the flap of the end on one side of it, that of the face or edge on the other.
"""

from __future__ import annotations

from collections import Counter
from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, PartKind, Surface
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import beside, hand_sign, stacked
from joinlay.pen.hatching import Waste
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Fill, Line, Polyline, Role, Text, bounds_of, flatten
from joinlay.pen.mouths import mouth_polygon, mouth_strokes
from joinlay.pen.placing import spread
from joinlay.pen.signs import BAR
from joinlay.records import dataclass
from joinlay.templates.opened_corner import corners_of
from joinlay.templates.piece_axes import hand_of
from joinlay.templates.template import FIGURE, SMALL, WORD, Template
from joinlay.templates.turn_over import TurnedOver, both_ways, turned_block

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation
    from joinlay.pen.blocks import Block
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark
    from joinlay.templates.opened_corner import Flap, Mortise, OpenedCorner

__all__ = ["cuts_on_strips", "fold_strips", "grooves_on_strips"]

#: From a flap to the column of figures beside it, and the white there.
_LEAD, _WHITE = Fraction(5), Fraction(1)
_CROSS: Final = Fraction(3)
_BLACK: Final = Fraction(1)
_HALF, _TALL = Fraction(3), Fraction(6)
#: Between what is told in a heading, and how near to an end of its board a mortise is said to be by that end.
_ROW: Final = Fraction(2)
_BY_END: Final = Fraction(80)
#: The widest a line of a heading may be, and the letters it holds, beside the sign of a hand and under that.
_COLUMN: Final = Fraction(50)
_LETTERS, _BESIDE_SIGN, _UNDER_SIGN = 13, 10, 16
_ZERO: Final = Fraction(0)


def fold_strips(plan: Plan) -> tuple[Template, ...]:
    """A strip for each loose tenon corner of ``plan`` that differs: sides to fronts, rails and mullions (LT-1 to LT-12).

    Drawn with x = 0 at the fold and y = 0 at the reference edge of the board mortised in its end. Folded over the arris where
    both outsides are flush, each flap in turn lies on its board while the other hooks over it; folded flat, the centres of both
    lie on each other. Left and right corners share a strip, which is turned over and folded the other way for the second (PR-11).
    A corner whose outsides are nowhere flush has none. Source: common practice.
    """
    alike: dict[Hashable, list[OpenedCorner]] = {}
    for corner in corners_of(plan.boards):
        alike.setdefault((_likeness(corner), corner.hand, corner.end.surface, corner.into.surface), []).append(corner)
    pairs = both_ways(alike.values(), side=lambda corner: corner.hand, likeness=_likeness)
    return tuple(_template(corners, turned, plan.rule) for corners, turned in pairs)


def _template(corners: list[OpenedCorner], turned: list[OpenedCorner], rule: Graduation) -> Template:
    strokes = tuple(flatten(_FoldStrip(corners[0], corners, turned, rule).marks()))
    return Template(
        tuple(corner.end.board.name for corner in corners),
        _end_word(corners[0]),
        strokes,
        bounds_of(strokes),
        mates=tuple(dict.fromkeys(corner.into.board.name for corner in (*corners, *turned))),
        turned=tuple(corner.end.board.name for corner in turned),
        turned_end=_end_word(turned[0]) if turned else "",
        what="fold-over strip",
    )


def _end_word(corner: OpenedCorner) -> str:
    return corner.end.board.datum.word(corner.end.surface)


def cuts_on_strips(plan: Plan) -> frozenset[tuple[str, str]]:
    """The mortises that the strips of ``plan`` mark, as (board, cut) by their names: no other template need mark them (PR-11)."""
    flaps = (flap for corner in corners_of(plan.boards) for flap in (corner.end, corner.into))
    return frozenset((flap.board.name, mortise.cut.name) for flap in flaps for mortise in flap.mortises)


def grooves_on_strips(plan: Plan) -> frozenset[tuple[str, str]]:
    """The grooves of drawers' fronts that the strips of ``plan`` mark at both ends, as (board, cut) by name (GR-3, PR-11)."""
    ends = Counter(
        (corner.into.board.name, groove.cut.name) for corner in corners_of(plan.boards) for groove in corner.into.grooves
    )
    return frozenset(groove for groove, many in ends.items() if many == 2)


def _likeness(corner: OpenedCorner) -> Hashable:
    """Corners of one likeness are one drawing, or each other's mirror image."""

    def seen(flap: Flap, out: Fraction) -> Hashable:
        mortises, grooves = (
            frozenset(Counter((one.box, one.cut.depth.mm) for one in cuts).items()) for cuts in (flap.mortises, flap.grooves)
        )
        return (flap.board.role.kind, flap.board.datum.edge, out, flap.low, flap.high, mortises, grooves)

    # How far a face goes on past its mortises is not on the paper, and which end it is stands in words.
    return seen(corner.end, corner.end.out), seen(corner.into, _ZERO)


@dataclass(frozen=True, slots=True)
class _FoldStrip:
    corner: OpenedCorner
    all: list[OpenedCorner]
    turned: list[OpenedCorner]
    rule: Graduation

    def marks(self) -> Iterator[Mark]:
        end, into = self.corner.end, self.corner.into
        for flap, side in ((end, -self.corner.hand), (into, self.corner.hand)):
            yield from self._flap(flap, side)
            yield from self._figures(flap, side)
            yield from self._heading(flap, side)
        low, high = min(end.low, into.low), max(end.high, into.high)
        yield Line((_ZERO, low - 3), (_ZERO, high + 2), Role.FOLD, "fold")
        yield Polyline(
            ((-_HALF, high + 3), (_HALF, high + 3), (_ZERO, high + 3 + _TALL)), Role.OUTLINE, closed=True, says="triangle"
        )

    def _flap(self, flap: Flap, side: int) -> Iterator[Mark]:
        out, name = flap.out, flap.board.name
        panel = _box((_ZERO, flap.low, out, flap.high), side)
        left, bottom, right, top = panel
        for groove in flap.grooves:
            lies = _box(groove.box, side)
            yield Waste(mouth_polygon(lies, groove.cut.shape))
            yield from mouth_strokes(lies, groove.cut.shape, Role.CUT, panel, f"{name} {groove.cut.name}")
        for mortise in flap.mortises:
            lies = _box(mortise.box, side)
            yield from mouth_strokes(lies, mortise.cut.shape, Role.CUT, panel, f"{name} {mortise.cut.name}")
            x, y = mortise.centre
            x *= side
            high = (mortise.box[3] - mortise.box[1]) / 2 + 1
            yield Line((x, y - high), (x, y + high), Role.CUT, f"{name} {mortise.cut.name} centre")
            yield Line((_ZERO, y), (side * out, y), Role.CENTRE, f"{name} {mortise.cut.name} centre")
        yield Line((left, top), (right, top), Role.OUTLINE)
        yield Line((side * out, bottom), (side * out, top), Role.OUTLINE if flap is self.corner.end else Role.CUT)
        foot = flap.datum
        yield Line((left, foot), (right, foot), Role.OUTLINE, f"{name} {self._edge_word(flap)}")
        yield Fill(((left, foot - BAR), (right, foot - BAR), (right, foot), (left, foot)), _BLACK)

    def _rows(self, flap: Flap) -> Iterator[_Row]:
        """What is said beside a flap, from the foot up, none over another."""
        said = [(y, stacked([figures(Length(y - flap.datum), self.rule, FIGURE)])) for y in _centres(flap)]
        said += ((groove.centre[1], self._groove(flap, groove)) for groove in flap.grooves)
        said.sort(key=lambda one: one[0])
        middles = spread([at for at, _ in said], [block.height + _WHITE for _, block in said], flap.datum)
        return (_Row(at, middle, block) for (at, block), middle in zip(said, middles, strict=True))

    def _groove(self, flap: Flap, groove: Mortise) -> Block:
        """How far up and how deep a groove is, and where it stops."""
        low, stops = (figures(Length(at), self.rule, FIGURE) for at in (groove.box[1] - flap.datum, groove.box[0]))
        deep = figures(groove.cut.depth, self.rule, FIGURE)
        return stacked(
            [
                words(groove.cut.kind.value, WORD, bold=True),
                (*low, Run(" up", SMALL)),
                (*deep, Run(" deep", SMALL)),
                (Run("stops ", SMALL), *stops),
                words("from the end", SMALL),
            ]
        )

    def _edge_word(self, flap: Flap) -> str:
        """The edge the flap's foot lies on: the board's own, or on a stile the line of the rail's."""
        own = self.corner.end.board.datum.edge
        if flap is self.corner.into and flap.board.role.kind is PartKind.DRAWER_FRONT:
            return flap.board.datum.edge
        if flap is self.corner.end or flap.low != flap.datum:
            return own
        return f"line of the rail's {own}"

    def _figures(self, flap: Flap, side: int) -> Iterator[Mark]:
        """Each centre's height above the flap's own datum, in a column past the flap, and what is to be known of a groove."""
        out = flap.out
        column = side * (out + _LEAD + _WHITE)
        align = Align.LEFT if side > 0 else Align.RIGHT
        for row in self._rows(flap):
            yield Line((side * out, row.at), (side * (out + _LEAD), row.middle), Role.DIMENSION)
            yield from row.block.marks(column if side > 0 else column - row.block.width, row.middle - row.block.height / 2)
        foot = flap.datum - BAR
        for said in wrap(self._edge_word(flap), _LETTERS):
            edge = words(said, SMALL, bold=True)
            foot -= _WHITE + set_line(edge).rise
            yield Text((side * (out + _WHITE), foot), edge, align)
            foot -= set_line(edge).fall

    def _heading(self, flap: Flap, side: int) -> Iterator[Mark]:
        """Which boards the flap is for, which end or surface of them, and what is cut there; over the flap's column.

        Then the boards it is for turned over, and their end where that is another.
        """
        is_end = flap is self.corner.end
        here, there = ([one.end if is_end else one.into for one in corners] for corners in (self.all, self.turned))
        names = tuple(dict.fromkeys(one.board.name for one in here))
        surface, ends = _where(here)
        hand = hand_of(flap.board, flap.surface) if is_end else None
        letters = _BESIDE_SIGN if hand else _LETTERS
        named = stacked(_in_one_size(_named(names, letters)))
        # The sign stands beside the names alone, so that two strips lie side by side on a sheet.
        named = beside(hand_sign(is_left=hand is Hand.LEFT), named) if hand else named
        where = wrap(f"on the {surface}{f', {ends}' if ends else ''}", _UNDER_SIGN if hand else _LETTERS)
        parts: list[Content | Block] = [stacked([named, *(words(line, WORD) for line in where)])]
        if there:
            others = tuple(dict.fromkeys(one.board.name for one in there))
            other_surface, other_ends = _where(there)
            turned = TurnedOver(
                names=() if others == names else others,
                end=", ".join([*_other(surface, other_surface), *_other(ends, other_ends)]),
                hand=hand_of(there[0].board, there[0].surface) if is_end else None,
            )
            parts.append(turned_block(turned, _named(turned.names, letters)))
        block = stacked([*parts, *self._cut_there(flap)], _ROW)
        x = _HALF + 1 if side > 0 else -(_HALF + 1) - block.width
        top = (
            max(self.corner.end.high, self.corner.into.high, *(row.middle + row.block.height / 2 for row in self._rows(flap))) + 3
        )
        yield from block.marks(x, top)

    def _cut_there(self, flap: Flap) -> Iterator[Content]:
        """How many mortises, how long and wide, and how deep, in figures that are read with the part in hand."""
        mortise = flap.mortises[0]
        wide, long = mortise.box[2] - mortise.box[0], mortise.box[3] - mortise.box[1]
        many = len(flap.mortises)
        yield words(f"{many} mortise{'s' if many > 1 else ''}", WORD)
        yield (*figures(Length(long), self.rule, FIGURE), Run(" × ", SMALL), *figures(Length(wide), self.rule, FIGURE))
        yield (*figures(mortise.cut.depth, self.rule, FIGURE), Run(" deep", WORD))


@dataclass(frozen=True, slots=True)
class _Row:
    """A ``block`` of words beside a flap: it speaks of the height ``at`` and stands with its middle at ``middle``."""

    at: Fraction
    middle: Fraction
    block: Block


def _centres(flap: Flap) -> list[Fraction]:
    """How high the centres of a flap's mortises are, from the lowest up."""
    return sorted({mortise.centre[1] for mortise in flap.mortises})


def _where(flaps: Sequence[Flap]) -> tuple[str, str]:
    """The surface that is mortised, and which end of it where the mortises are by an end: ``inside face`` and ``left end``."""
    surfaces = dict.fromkeys(flap.board.datum.word(flap.surface) for flap in flaps)
    return in_few_words(surfaces), in_few_words(dict.fromkeys(end for flap in flaps if (end := _nearest_end(flap))))


def _other(here: str, there: str) -> tuple[str, ...]:
    """What is said of a paper turned over where that isn't said of it already."""
    return () if here == there else (there,)


def _nearest_end(flap: Flap) -> str:
    """The maker's word for the end of a board that mortises in its face or edge are by; '' where they are by neither, or in
    one.
    """
    if flap.surface in (Surface.END, Surface.FAR_END):
        return ""
    middle, long = flap.mortises[0].cut.along.centre.mm, flap.board.length.mm
    if min(middle, long - middle) > _BY_END:
        return ""
    return flap.board.datum.word(Surface.END if middle < long - middle else Surface.FAR_END)


def _named(names: Sequence[str], letters: int) -> list[str]:
    """Names in few words, in the fewest lines of so many ``letters``, and those a letter shorter where that takes no more."""
    return min((wrap(in_few_words(names), most) for most in (letters - 1, letters)), key=len)


def _in_one_size(lines: list[str]) -> list[Content]:
    """Lines of a heading, all as large as the widest of them can be."""
    for high in (WORD, SMALL):
        set_out = [words(line, high, bold=True) for line in lines]
        if all(set_line(line).width <= _COLUMN for line in set_out):
            return set_out
    return [fitted(line, _COLUMN, (SMALL,), bold=True) for line in lines]


def _box(box: Box, side: int) -> Box:
    x0, y0, x1, y1 = box
    return box if side > 0 else (-x1, y0, -x0, y1)
