"""Templates of a maker's own outlines: each at true size on the wood around it, with the end and edge its paper is held to.

Where the end or edge is near, the paper reaches to it, and a heavy bar outside the wood shows it. Where it is far, the centre
line of the outline is laid on a line that the maker squares across the part: a long strip of empty paper would only stretch. The
words beside it say the part, what it is for, which face is up, and its place in figures.
"""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Hand, Shape, Surface
from joinlay.boards.names import in_few_words
from joinlay.boards.outline import Ring
from joinlay.geometry import corners, shared_box
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import Block, beside, hand_sign, stacked
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Arc, Fill, Line, Move, Polyline, Role, Text, Turn, bounds_of, flatten, moved
from joinlay.pen.mouths import mouth_strokes
from joinlay.pen.signs import BreakLine
from joinlay.records import dataclass
from joinlay.templates.template import FIGURE, WORD, Template

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Iterator, Sequence

    from joinlay.boards import Span
    from joinlay.boards.outline import PlacedOutline
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Mark, Point

__all__ = ["outline_templates"]

#: An end or edge no further than this is on the paper; the wood past the outline is shown to a far side no further than that, in
#: mm.
_NEAR, _WHOLE = Fraction(150), Fraction(40)
#: How much wood is shown past the outline where it goes on.
_MARGIN: Final = Fraction(12)
#: How far centre lines go past the outline, and the caption stands off.
_PAST, _ASIDE = Fraction(6), Fraction(8)
_BAR: Final = Fraction(8, 5)
_BLACK: Final = Fraction(1)


def outline_templates(placed: Iterable[PlacedOutline], rule: Graduation) -> tuple[Template, ...]:
    """A template for each outline on each part, in their order; those that look alike are one, with all the names (PR-6).

    Figures are on ``rule``. x = 0 at the end the outline is counted from, or at its own middle where that is far off; y = 0 at
    the reference edge.
    """
    found: dict[Hashable, list[PlacedOutline]] = {}
    for one in placed:
        found.setdefault(_likeness(one), []).append(one)
    return tuple(_template(alike, rule) for alike in found.values())


@dataclass(frozen=True, slots=True)
class _Seen:
    """A board as it is seen on the face that is up, its reference edge down; in mm from its left end and that edge."""

    one: PlacedOutline

    @property
    def size(self) -> Point:
        return self.one.board.length.mm, self.one.board.width.mm

    @property
    def lies(self) -> Box:
        """What the outline's box takes up."""
        return self.box(self.one.along.start.mm, self.one.across.start.mm, self.one.along.stop.mm, self.one.across.stop.mm)

    def box(self, start: Fraction, low: Fraction, stop: Fraction, high: Fraction) -> Box:
        """A box given along and across the board."""
        if self.one.end_on_left:
            return (start, low, stop, high)
        return (self.size[0] - stop, low, self.size[0] - start, high)

    @property
    def end_is_left(self) -> bool:
        """Whether the paper is held against the end at the left: the one its place is counted from, else the nearer one."""
        if self.one.end is None:
            return self.lies[0] <= self.size[0] - self.lies[2]
        return (self.one.end is Surface.END) == self.one.end_on_left

    @property
    def edge_is_low(self) -> bool:
        """Whether it is held against the edge below: the one its place is counted from, else the reference edge."""
        return self.one.edge is not Surface.FAR_EDGE

    @property
    def held(self) -> tuple[Surface, Surface]:
        """The end and the edge the paper is held against, or their distances are counted from."""
        end = Surface.END if self.end_is_left == self.one.end_on_left else Surface.FAR_END
        return end, Surface.EDGE if self.edge_is_low else Surface.FAR_EDGE

    @property
    def has_end(self) -> bool:
        """Whether that end is on the paper."""
        return (self.lies[0] if self.end_is_left else self.size[0] - self.lies[2]) <= _NEAR

    @property
    def has_edge(self) -> bool:
        """Whether that edge is on the paper."""
        return (self.lies[1] if self.edge_is_low else self.size[1] - self.lies[3]) <= _NEAR

    @property
    def window(self) -> Box:
        """What of the board is on the paper."""
        left, right = _shown(self.lies[0], self.lies[2], self.size[0], is_low=self.end_is_left, has_datum=self.has_end)
        low, high = _shown(self.lies[1], self.lies[3], self.size[1], is_low=self.edge_is_low, has_datum=self.has_edge)
        return (left, low, right, high)


def _shown(start: Fraction, stop: Fraction, whole: Fraction, *, is_low: bool, has_datum: bool) -> tuple[Fraction, Fraction]:
    """From where to where wood is shown on one axis around what goes from ``start`` to ``stop``."""
    low = start if (has_datum and is_low) or start <= _WHOLE else _MARGIN
    high = whole - stop if (has_datum and not is_low) or whole - stop <= _WHOLE else _MARGIN
    return start - low, stop + high


def _template(alike: list[PlacedOutline], rule: Graduation) -> Template:
    one = alike[0]
    names = tuple(placed.board.name for placed in alike)
    seen = _Seen(one)
    strokes = tuple(flatten(_marks(seen, names, rule)))
    zero = (0 if seen.end_is_left else seen.size[0]) if seen.has_end else (seen.lies[0] + seen.lies[2]) / 2
    move = Move(-Fraction(zero))
    strokes = tuple(moved(stroke, move) for stroke in strokes)
    return Template(names, one.purpose, strokes, bounds_of(strokes))


def _marks(seen: _Seen, names: tuple[str, ...], rule: Graduation) -> Iterator[Mark]:
    yield from _cuts(seen)
    yield from _wood(seen)
    yield from _centre_lines(seen)
    yield from _traced(seen)
    yield from _held(seen)
    yield from _caption(seen, names, rule)


def _caption(seen: _Seen, names: tuple[str, ...], rule: Graduation) -> Iterator[Mark]:
    """The words under the wood where that is wide enough for them, else to the right of it."""
    left, low, right, high = seen.window
    caption = _caption_of(seen.one, names, rule, seen.held, (seen.has_end, seen.has_edge))
    bar = _BAR + _ASIDE
    if caption.width <= right - left:
        yield from caption.marks(left, low - _ASIDE - (bar if seen.has_edge and seen.edge_is_low else 0) - caption.height)
    else:
        yield from caption.marks(right + _ASIDE + (bar if seen.has_end and not seen.end_is_left else 0), high - caption.height)


def _traced(seen: _Seen) -> Iterator[Mark]:
    """The outline itself."""
    right, up, _, _ = seen.lies
    says = f"{seen.one.board.name} {seen.one.purpose}"
    for line in seen.one.outline.lines:
        if isinstance(line, Ring):
            centre = (line.centre[0] + right, line.centre[1] + up)
            yield Arc(centre, line.radius, Fraction(0), Fraction(360), Role.SHAPE, says)
        else:
            yield Polyline(tuple((x + right, y + up) for x, y in line.points), Role.SHAPE, line.is_closed, says)


def _wood(seen: _Seen) -> Iterator[Mark]:
    """The edges of the wood, and thin lines where it goes on."""
    left, low, right, high = seen.window
    long, wide = seen.size
    yield Line((left, low), (right, low), Role.OUTLINE if low == 0 else Role.BREAK)
    yield Line((left, high), (right, high), Role.OUTLINE if high == wide else Role.BREAK)
    for x, is_end in ((left, left == 0), (right, right == long)):
        yield Line((x, low), (x, high), Role.OUTLINE) if is_end else BreakLine((x, low), (x, high))


def _centre_lines(seen: _Seen) -> Iterator[Mark]:
    """The middle of the outline both ways, carried to the end and the edge the paper is held against."""
    x0, y0, x1, y1 = seen.lies
    left, low, right, high = seen.window
    x, y = (x0 + x1) / 2, (y0 + y1) / 2
    level = (left, min(x1 + _PAST, right)) if seen.end_is_left else (max(x0 - _PAST, left), right)
    upright = (low, min(y1 + _PAST, high)) if seen.edge_is_low else (max(y0 - _PAST, low), high)
    if not seen.has_end:
        upright = (low, high)
    if not seen.has_edge:
        level = (left, right)
    yield Line((level[0], y), (level[1], y), Role.CENTRE)
    yield Line((x, upright[0]), (x, upright[1]), Role.CENTRE)


def _cuts(seen: _Seen) -> Iterator[Mark]:
    """The cuts of the part around the outline, dashed: a sign that the paper lies right, and what to keep clear of."""
    for cut in seen.one.board.cuts:
        lies = seen.box(cut.along.start.mm, cut.across.start.mm, cut.along.stop.mm, cut.across.stop.mm)
        box = shared_box(lies, seen.window)
        if box is not None:
            yield from mouth_strokes(box, Shape.SQUARE, Role.HIDDEN, seen.window)


def _held(seen: _Seen) -> Iterator[Mark]:
    """The heavy bars outside the end and the edge that the paper is held against, with their words."""
    left, low, right, high = seen.window
    if seen.has_edge:
        inner, outer = (low, low - _BAR) if seen.edge_is_low else (high, high + _BAR)
        yield Fill(corners((left, min(inner, outer), right, max(inner, outer))), _BLACK)
        yield _edge_words(seen.one, ((left + right) / 2, outer), right - left, is_below=seen.edge_is_low)
    if seen.has_end:
        inner, outer = (left, left - _BAR) if seen.end_is_left else (right, right + _BAR)
        yield Fill(corners((min(inner, outer), low, max(inner, outer), high)), _BLACK)
        yield _end_words(seen.one, (outer, (low + high) / 2), high - low, is_left=seen.end_is_left)


def _likeness(one: PlacedOutline) -> Hashable:
    """Two outlines with the same likeness are the same drawing, on parts that only their drawer or a number tells apart."""
    board = one.board
    spans = (one.along, one.across, *(span for cut in board.cuts for span in (cut.along, cut.across)))
    sizes = (board.length.mm, board.width.mm, *(at.mm for span in spans for at in (span.start, span.stop)))
    deep = None if one.into is None else one.into.size == board.thickness or one.into.size.mm
    return (
        board.role.kind,
        board.role.hand,
        board.datum,
        board.end_on_left,
        one.outline,
        one.purpose,
        one.face,
        one.end,
        one.edge,
        one.to_middle,
        deep,
        sizes,
    )


# -- words ---------------------------------------------------------------------------------------------

_SMALL: Final = Fraction(5, 2)
#: Letters in a line, at most, and from a bar to its words, in mm.
_LONGEST, _OFF = 24, Fraction(6, 5)


def _caption_of(
    one: PlacedOutline, names: Sequence[str], rule: Graduation, held: tuple[Surface, Surface], are_shown: tuple[bool, bool]
) -> Block:
    """The words beside the outline (PR-6). ``held`` are the end and edge that count, ``are_shown`` whether each is on the
    paper.
    """
    part = [words(line, FIGURE, bold=True) for line in wrap(in_few_words(names), _LONGEST)]
    purpose = [words(line.upper(), FIGURE, bold=True) for line in wrap(one.purpose, _LONGEST)]
    face = (
        *words(f"{one.board.datum.word(one.face)} up", WORD, bold=True),
        Run("   ", WORD),
        *words(f"make {len(names)}", WORD, bold=True),
    )
    head = stacked([*part, *purpose, face])
    if one.board.role.hand in (Hand.LEFT, Hand.RIGHT):
        head = beside(hand_sign(is_left=one.board.role.hand is Hand.LEFT), head)
    facts = [*_sizes(one, rule), *_place(one, rule, held, are_shown)]
    return stacked([head, stacked(facts), words(f"drawn in {one.outline.file}", _SMALL)], Fraction(3))


def _sizes(one: PlacedOutline, rule: Graduation) -> Iterator[Content]:
    yield (*_figures(one.outline.width, rule), Run(" x ", WORD), *_figures(one.outline.height, rule))
    if one.into is None:
        yield words("marked only", WORD)
    elif one.into.size == one.board.thickness:
        yield words("right through", WORD)
    else:
        yield (*_figures(one.into.size.mm, rule), Run(" deep", WORD))


def _place(
    one: PlacedOutline, rule: Graduation, held: tuple[Surface, Surface], are_shown: tuple[bool, bool]
) -> Iterator[Content]:
    """How far it is from the end and the edge; where one of them is off the paper, what to do instead."""
    axes = ((one.along, one.board.length.mm, one.end), (one.across, one.board.width.mm, one.edge))
    for (span, whole, given), counted, is_shown in zip(axes, held, are_shown, strict=True):
        to_middle = one.to_middle or given is None or not is_shown
        away = _away(span, whole, is_far=counted.is_far, to_middle=to_middle)
        yield (
            *_figures(away, rule),
            Run(f" from the {one.board.datum.word(counted)} to its {'middle' if to_middle else 'near side'}", WORD),
        )
        if not is_shown:
            yield words("square a line there, lay the centre line on it", _SMALL)


def _away(span: Span, whole: Fraction, *, is_far: bool, to_middle: bool) -> Fraction:
    if to_middle:
        middle = (span.start.mm + span.stop.mm) / 2
        return whole - middle if is_far else middle
    return whole - span.stop.mm if is_far else span.start.mm


def _figures(size: Fraction, rule: Graduation) -> Content:
    return figures(Length(size), rule, WORD)


def _edge_words(one: PlacedOutline, middle: Point, room: Fraction, *, is_below: bool) -> Text:
    """The edge's name under the middle of its bar, or over it, as large as the ``room`` beside it lets it be."""
    said = one.board.datum.word(Surface.EDGE if is_below else Surface.FAR_EDGE).upper()
    edge = words(said, WORD, bold=True)
    content = next((c for c in ((*edge, Run("  lay on this edge", WORD)), edge) if set_line(c).width <= room), None)
    content = content or fitted(said, room, (WORD, _SMALL), bold=True)
    line = set_line(content)
    up = middle[1] - _OFF - line.rise if is_below else middle[1] + _OFF + line.fall
    return Text((middle[0], up), content, Align.MIDDLE)


def _end_words(one: PlacedOutline, middle: Point, room: Fraction, *, is_left: bool) -> Text:
    """The end's name beside the middle of its bar, reading upwards."""
    surface = Surface.END if is_left == one.end_on_left else Surface.FAR_END
    content = fitted(one.board.datum.word(surface).upper(), room, (WORD, _SMALL), bold=True)
    line = set_line(content)
    right = middle[0] - _OFF - line.fall if is_left else middle[0] + _OFF + line.rise
    return Text((right, middle[1]), content, Align.MIDDLE, Turn.UP)
