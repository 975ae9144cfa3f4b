"""What the template of a maker's own outline says: the part, what it is for, which face is up, and its place in figures."""

from __future__ import annotations

from textwrap import wrap
from typing import TYPE_CHECKING, Final

from joinlay.boards import Surface
from joinlay.boards.names import in_few_words
from joinlay.lengths import Fraction, Length
from joinlay.pen.blocks import Block, beside, hand_sign, stacked
from joinlay.pen.lettering import Run, figures, fitted, set_line, words
from joinlay.pen.marks import Align, Text, Turn
from joinlay.templates.template import FIGURE, WORD

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from joinlay.boards import Span
    from joinlay.boards.outline import PlacedOutline
    from joinlay.lengths import Graduation
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Point

__all__ = ["caption_of", "edge_words", "end_words"]

_SMALL: Final = Fraction(5, 2)
#: Letters in a line, at most, and from a bar to its words, in mm.
_LONGEST, _OFF = 24, Fraction(6, 5)


def caption_of(
    one: PlacedOutline, names: Sequence[str], rule: Graduation, held: tuple[Surface, Surface], are_shown: tuple[bool, bool]
) -> Block:
    """The words beside the outline (PR-6). ``held`` are the end and edge that count, ``are_shown`` whether each is on the paper."""
    part = [words(line, FIGURE, bold=True) for line in wrap(in_few_words(names), _LONGEST)]
    purpose = [words(line.upper(), FIGURE, bold=True) for line in wrap(one.purpose, _LONGEST)]
    face = (
        *words(f"{one.board.datum.word(one.face)} up", WORD, bold=True),
        Run("   ", WORD),
        *words(f"make {len(names)}", WORD, bold=True),
    )
    head = stacked([*part, *purpose, face])
    hand = next((word for word in one.board.name.lower().split() if word in ("left", "right")), None)
    if hand is not None:
        head = beside(hand_sign(is_left=hand == "left"), head)
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


def edge_words(one: PlacedOutline, middle: Point, room: Fraction, *, is_below: bool) -> Text:
    """The edge's name under the middle of its bar, or over it, as large as the ``room`` beside it lets it be."""
    said = one.board.datum.word(Surface.EDGE if is_below else Surface.FAR_EDGE).upper()
    edge = words(said, WORD, bold=True)
    content = next((c for c in ((*edge, Run("  lay on this edge", WORD)), edge) if set_line(c).width <= room), None)
    content = content or fitted(said, room, (WORD, _SMALL), bold=True)
    line = set_line(content)
    up = middle[1] - _OFF - line.rise if is_below else middle[1] + _OFF + line.fall
    return Text((middle[0], up), content, Align.MIDDLE)


def end_words(one: PlacedOutline, middle: Point, room: Fraction, *, is_left: bool) -> Text:
    """The end's name beside the middle of its bar, reading upwards."""
    surface = Surface.END if is_left == one.end_on_left else Surface.FAR_END
    content = fitted(one.board.datum.word(surface).upper(), room, (WORD, _SMALL), bold=True)
    line = set_line(content)
    right = middle[0] - _OFF - line.fall if is_left else middle[0] + _OFF + line.rise
    return Text((right, middle[1]), content, Align.MIDDLE, Turn.UP)
