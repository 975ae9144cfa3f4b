"""Words told beside a picture, and on under it: how a chapter that is read says one thing, as one block of a column.

The picture stands at the left as far as it reaches; a sentence that begins beside it may go on under it, but one with a box to
tick stays in one piece, so that its box has all of it.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import PageBlock, tick_box
from joinlay.pen.lettering import set_line, words, wrapped
from joinlay.pen.marks import Line, Move, Role, Text, moved
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.pen.marks import Stroke
    from joinlay.pictures.picture import Picture

__all__ = ["INDENT", "SMALL", "WHITE", "WORD", "Saying", "Told", "ToldBlock", "heading", "told_in_blocks", "upper"]

#: Heights of letters, in mm: of a step or a heading, and of what is said besides.
WORD, SMALL = Fraction(7, 2), Fraction(5, 2)
#: How far words are set in behind a box to tick, and the white under what belongs together.
INDENT, WHITE = Fraction(13, 2), Fraction(2)
#: From one line to the next, and the white between two things said.
_STEP, _FINE_STEP, _LEAST = Fraction(5), Fraction(19, 5), Fraction(1)
#: Between a picture and the words beside it, how wide a column of words must be there, and the white over it.
_BESIDE, _NARROWEST, _OVER = Fraction(4), Fraction(38), Fraction(4, 5)
_ZERO: Final = Fraction(0)


@dataclass(frozen=True, slots=True)
class Saying:
    """One sentence as it is set: ``height`` of its capitals and ``indent`` in mm, behind a box to tick where it is ``ticked``.

    ``head`` stands before it in bold. ``leads`` True: it stays with what comes after it. ``begins`` is the glue-up that begins
    with it, if any.
    """

    said: str
    height: Fraction = SMALL
    ticked: bool = False
    head: str = ""
    indent: Fraction = _ZERO
    leads: bool = False
    begins: GlueUp | None = None

    @property
    def set_in(self) -> Fraction:
        """How far its lines are set in, in mm."""
        return INDENT if self.ticked else self.indent


#: What of a sentence stands on one line: of its head, and of what follows that.
_Line = tuple[str, str]


def _lines(saying: Saying, wide: Fraction, after: Sequence[_Line] = ()) -> list[_Line]:
    """A sentence in lines that go into ``wide`` mm, but for what is said in those it comes ``after``."""
    room = wide - saying.set_in
    told = " ".join(said for _, said in after if said)
    left = " ".join(saying.said.split())[len(told) :].strip()
    lines: list[_Line] = []
    if saying.head and not after:
        *above, last = wrapped(saying.head, room, saying.height, bold=True)
        beside = room - set_line(words(last, saying.height, bold=True)).width - saying.height / 2
        said = next(iter(wrapped(left, beside, saying.height)))
        # A word that is too long for what is left of the line begins the next.
        said = said if set_line(words(said, saying.height)).width <= beside else ""
        lines = [*((line, "") for line in above), (last, said)]
        left = left[len(said) :].strip()
    return [*lines, *(("", line) for line in wrapped(left, room, saying.height))]


@dataclass(frozen=True, slots=True)
class ToldBlock(PageBlock):
    """A block that tells of ``glue_ups``, from their first step on."""

    glue_ups: tuple[GlueUp, ...] = ()


def told_in_blocks(
    sayings: Iterable[Saying], wide: Fraction, view: Picture | None = None, serves: tuple[str, ...] = ()
) -> Iterator[ToldBlock]:
    """``sayings`` in a column ``wide`` mm across, a block each; those beside the picture of a ``view`` in one with it, which
    ``serves`` the boards so named.
    """
    picture, told = _beside(view, wide) if view is not None else ((), Told(wide))
    strokes: tuple[Stroke, ...] = picture
    begun: list[GlueUp] = []
    for one in sayings:
        if (strokes or told.strokes) and told.is_under(one):
            yield ToldBlock((*strokes, *told.strokes), told.high, told.leads, serves=serves, glue_ups=tuple(begun))
            told, strokes, begun, serves = Told(wide), (), [], ()
        told.say(one)
        begun += filter(None, [one.begins])
    if strokes or told.strokes:
        yield ToldBlock((*strokes, *told.strokes), told.high, told.leads, serves=serves, glue_ups=tuple(begun))


def _step(saying: Saying) -> Fraction:
    return _STEP if saying.height > SMALL else _FINE_STEP


def _beside(view: Picture, wide: Fraction) -> tuple[tuple[Stroke, ...], Told]:
    """A picture down from zero, at the left or, where that leaves words no room, in the middle; and what takes the words."""
    x0, y0, x1, y1 = view.box
    told = Told(wide, (x1 - x0, y1 - y0 + _OVER))
    left = (wide - (x1 - x0)) / 2 if told.is_full else _ZERO
    return tuple(moved(stroke, Move(left - x0, -y1 - _OVER)) for stroke in view.strokes), told


class Told:
    """Words one under the other from zero down, ``wide`` mm across; beside a picture in its place at the left as far as that
    reaches, where it leaves room for them, and under it where it doesn't.

    ``taken`` is how wide and how high that picture is.
    """

    def __init__(self, wide: Fraction, taken: tuple[Fraction, Fraction] = (_ZERO, _ZERO)) -> None:
        """Begin with nothing said."""
        self._wide, (across, self._deep) = wide, taken
        self._left = across + _BESIDE if across else _ZERO
        self._y = _ZERO
        self.strokes: list[Stroke] = []
        #: Whether what was said last stays with what comes next.
        self.leads = False
        if wide - self._left < _NARROWEST:
            self._go_under()

    def say(self, saying: Saying) -> None:
        """Set a sentence, after its head on the same line where that leaves it room."""
        self.leads = saying.leads
        step = _step(saying)
        beside, lines = self._parted(saying)
        if lines:
            self._set(beside, saying, step)
            self._go_under()
        else:
            lines = beside
        if saying.ticked:
            # A box is as high as large words.
            self._y -= max(_ZERO, _STEP - step)
            self.strokes.append(tick_box(self._left, self._y - step))
        self._set(lines, saying, step)
        self._y -= _LEAST

    def is_under(self, saying: Saying) -> bool:
        """Whether nothing of a sentence goes beside the picture."""
        return self.is_full or not self._parted(saying)[0]

    def _parted(self, saying: Saying) -> tuple[list[_Line], list[_Line]]:
        """A sentence in lines that go beside the picture, and lines that go on under it where that ends higher up."""
        step = _step(saying)
        lines = _lines(saying, self._wide - self._left)
        ends = len(lines) * step - self._y
        if not self._left:
            return [], lines
        beside = [] if saying.ticked else lines[: ceil((self._deep + self._y) / step)]
        under = _lines(saying, self._wide, after=beside) if ends > self._deep else []
        if under and max(len(beside) * step - self._y, self._deep) + len(under) * step < ends:
            return beside, under
        return lines, []

    def _set(self, lines: Sequence[_Line], saying: Saying, step: Fraction) -> None:
        for head, said in lines:
            self._y -= step
            x = self._left + saying.set_in
            if head:
                content = words(head, saying.height, bold=True)
                self.strokes.append(Text((x, self._y), content))
                x += set_line(content).width + saying.height / 2
            if said:
                self.strokes.append(Text((x, self._y), words(said, saying.height)))

    def _go_under(self) -> None:
        self._y, self._left = min(self._y, -self._deep), _ZERO

    @property
    def high(self) -> Fraction:
        """How high it all is, the picture too."""
        return max(-self._y, self._deep)

    @property
    def is_full(self) -> bool:
        """True where nothing more stands beside the picture."""
        return not self._left or -self._y >= self._deep


def heading(said: str, wide: Fraction) -> PageBlock:
    """A heading in a column ``wide`` mm across, underlined, in as many lines as it takes; it stays with what it heads."""
    strokes: list[Stroke] = []
    y = _ZERO
    for line in wrapped(said, wide, WORD, bold=True):
        y -= _STEP
        strokes.append(Text((_ZERO, y + Fraction(1, 2)), words(line, WORD, bold=True)))
    y -= Fraction(1)
    strokes.append(Line((_ZERO, y), (wide, y), Role.FRAME))
    return PageBlock(tuple(strokes), 1 - y, leads=True)


def upper(said: str) -> str:
    """``said`` as a sentence begins."""
    return f"{said[0].upper()}{said[1:]}"
