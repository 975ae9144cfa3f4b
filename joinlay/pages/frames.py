"""Setting lines of words into frames on a page, one frame after the other, each line whole."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pen.lettering import words, wrapped
from joinlay.pen.marks import Text

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.pen.marks import Box

__all__ = ["Paragraph", "fill_frames", "halves", "wrapped"]

#: From one baseline to the next, in heights of a capital.
_LEADING: Final = Fraction(8, 5)


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words that belong together: ``height`` of their capitals in mm, ``above`` the white before them, ``indent`` of every line.

    ``leads`` is True for words that mean nothing without the next paragraph: they go to the next frame with it.
    """

    text: str
    height: Fraction
    bold: bool = False
    above: Fraction = Fraction(0)
    indent: Fraction = Fraction(0)
    leads: bool = False


def halves(paragraph: Paragraph) -> tuple[Paragraph, Paragraph]:
    """A paragraph in two, parted between words; neither waits for what follows. No rule; our own choice."""
    said = paragraph.text.split()
    first, second = " ".join(said[: len(said) // 2]), " ".join(said[len(said) // 2 :])
    return replace(paragraph, text=first, leads=False), replace(paragraph, text=second, above=Fraction(0), leads=False)


def fill_frames(paragraphs: Iterable[Paragraph], frames: Sequence[Box]) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
    """``paragraphs`` set into ``frames`` from the top down, in order; the strokes, and the paragraphs there was no room for.

    A paragraph is never parted: where it doesn't fit what is left of a frame it goes on at the top of the next. No rule; our own choice.
    """
    left = list(paragraphs)
    strokes: list[Text] = []
    for x0, y0, x1, y1 in frames:
        y = y1
        while left and _depth(left, x1 - x0, is_first=y == y1) <= y - y0:
            first = left.pop(0)
            y -= first.above if y < y1 else Fraction(0)
            for line in wrapped(first.text, x1 - x0 - first.indent, first.height, bold=first.bold):
                y -= first.height * _LEADING
                strokes.append(
                    Text((x0 + first.indent, y + first.height * (_LEADING - 1) / 2), words(line, first.height, bold=first.bold))
                )
    return tuple(strokes), tuple(left)


def _depth(left: Sequence[Paragraph], room: Fraction, *, is_first: bool) -> Fraction:
    """How much of a frame the next paragraph takes, and with it those it leads to."""
    deep = Fraction(0)
    for n, one in enumerate(left):
        lines = sum(1 for _ in wrapped(one.text, room - one.indent, one.height, bold=one.bold))
        deep += (Fraction(0) if is_first and n == 0 else one.above) + lines * one.height * _LEADING
        if not one.leads:
            break
    return deep
