"""Sheets of words and figures that are read and not measured from: blocks one under the other, over a foot that is one strip.

A chapter that is read is made in three steps, with nothing measured twice. It makes *blocks*, each drawn downwards from zero
and so high; ``flow`` parts them into pages in their order, a heading always with what it heads; ``PlainPages`` stands them on
sheets. Words that run on are *paragraphs*, set into frames, one frame after the other, each paragraph whole. Neither goes back:
a page is filled as far as the next block fits, and no page is evened out against another.
"""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING, Final

from joinlay.geometry import corners
from joinlay.lengths import Fraction, Unit
from joinlay.pages.printed_sheet import NO_WORDS, Laid, Sheet, bind
from joinlay.pen.held_words import held_lines
from joinlay.pen.lettering import fitted, set_line, words, wrapped
from joinlay.pen.marks import Align, Line, Move, Polyline, Role, Text, bounds_of, flatten, moved
from joinlay.pen.signs import sample_of, signs_on
from joinlay.records import dataclass
from joinlay.templates.template import Template

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.jobs.plan import Plan
    from joinlay.pages.printed_sheet import FootWords
    from joinlay.pages.printer import Printer
    from joinlay.paper import Paper
    from joinlay.pen.lettering import Content
    from joinlay.pen.marks import Box, Point, Stroke
    from joinlay.pen.signs import Sign

__all__ = [
    "FOOT",
    "NO_SCALE",
    "PageBlock",
    "Paragraph",
    "PlainFoot",
    "PlainPages",
    "fill_frames",
    "flow",
    "halves",
    "hung",
    "tick_box",
    "title_over",
    "wrapped",
]


#: How high the foot is, in mm, with the white above it.
FOOT: Final = Fraction(14)
_TITLE, _WORD, _SMALL, _TINY = Fraction(5), Fraction(7, 2), Fraction(5, 2), Fraction(9, 5)
#: From one baseline to the next, in heights of a capital.
_LEADING: Final = Fraction(8, 5)
#: The side of a box to tick, and how far it reaches below the words beside it.
_SIDE, _BELOW = Fraction(9, 2), Fraction(1, 2)
_SIGNS: Final = ("+", "−")
#: How high over the foot of a sheet the line stands that says what its signs mean; and how wide and high a sample of one is.
_OVER: Final = Fraction(57, 5)
_SAMPLE: Final = (Fraction(7), Fraction(11, 5))
_ZERO: Final = Fraction(0)
#: What the foot says of scale where nothing is drawn to one, and what stands between two of them.
NO_SCALE, _AND = "not to scale", " and "
#: What a foot calls a sheet of several kinds whose names it has no room for.
_SEVERAL: Final = "several"


@dataclass(frozen=True, slots=True)
class PageBlock:
    """Something that stands in a column of others: ``strokes`` hang down from y = 0, ``height`` mm of it.

    ``leads`` True: a heading, which goes to the next page with what it heads. ``again`` is what stands at the head of a page
    that begins with this block, so that a list gone on with says what it is. ``at_head`` is what stands in its place where a page
    begins with it. ``serves`` names the boards it shows.
    """

    strokes: tuple[Stroke, ...]
    height: Fraction
    leads: bool = False
    again: PageBlock | None = None
    at_head: PageBlock | None = None
    serves: tuple[str, ...] = ()


def flow(blocks: Sequence[PageBlock], room: Fraction, begun: Fraction = _ZERO) -> list[list[PageBlock]]:
    """``blocks`` parted into pages of at most ``room`` mm, no heading last on a page and none empty. One too high for a page
    has it alone.

    The first page has ``begun`` mm less; where not even the first of them has room there it is as high as the others.
    """
    pages: list[list[PageBlock]] = []
    page: list[PageBlock] = []
    left = room - begun
    for block in blocks:
        if block.height > left and left < room:
            waiting: list[PageBlock] = []
            while page and page[-1].leads:
                waiting.insert(0, page.pop())
            if page:
                pages.append(page)
            if waiting and waiting[0].at_head is not None:
                waiting[0] = waiting[0].at_head
            page = waiting or ([block.again] if block.again is not None else [])
            left = room - sum(each.height for each in page)
        page.append(block if page or block.at_head is None else block.at_head)
        left -= page[-1].height
    # White that is left over is no page of its own.
    return [each for each in (*pages, page) if any(block.strokes for block in each)]


def title_over(said: str, wide: Fraction, height: Fraction) -> PageBlock:
    """A title over a page ``wide`` mm across, in a block ``height`` mm high: what ``said``, smaller where it would run over."""
    return PageBlock(
        (Text((Fraction(0), -_TITLE - 2), fitted(said, wide, (_TITLE, _WORD, _SMALL), bold=True)),), height, leads=True
    )


@dataclass(frozen=True, slots=True)
class PlainPages:
    """Makes sheets for one ``plan`` on ``paper``, corrected for ``printer``; ``document`` is what they are called at the foot.

    ``begun`` is how many mm at the head of the first are left to what comes before, under which it is moved (PR-11).
    """

    plan: Plan
    paper: Paper
    document: str
    printer: Printer
    begun: Fraction = _ZERO

    @property
    def box(self) -> Box:
        """The room above the foot, in the sheet's mm."""
        left, bottom, right, top = self.printer.room(self.paper)
        return (left, bottom + FOOT, right, top)

    def sheets(self, pages: Sequence[tuple[str, tuple[Stroke, ...]]]) -> tuple[Sheet, ...]:
        """A sheet for each of ``pages``, a name and strokes in the sheet's own millimetres; numbered among themselves."""
        return bind([self.sheet(name, strokes) for name, strokes in pages])

    @property
    def room(self) -> Fraction:
        """How high a sheet is above its foot, in mm."""
        return self.box[3] - self.box[1]

    def flowed(self, blocks: Sequence[PageBlock]) -> list[list[PageBlock]]:
        """``blocks`` page by page, the first as high as what has ``begun`` leaves it; see ``flow``."""
        return flow(blocks, self.room, self.begun)

    def stacked(self, blocks: Sequence[PageBlock]) -> tuple[Stroke, ...]:
        """``blocks`` one under the other from the top of the room."""
        left, _, _, y = self.box
        strokes: list[Stroke] = []
        for block in blocks:
            strokes += (moved(stroke, Move(left, y)) for stroke in block.strokes)
            y -= block.height
        return tuple(strokes)

    def foot(self, scale: str = NO_SCALE, signs: tuple[Sign, ...] = ()) -> PlainFoot:
        """The foot of a sheet whose drawings, if any, are at ``scale``: ``1:13``; it explains ``signs`` (PR-8)."""
        left, bottom, right, _ = self.printer.room(self.paper)
        return PlainFoot(
            title=self.plan.title,
            document=self.document,
            file=self.plan.file,
            paper=self.paper,
            unit=self.plan.unit,
            strip=(left, bottom, right),
            scale=scale,
            printed_on=self.printer.words,
            signs=signs,
        )

    def sheet(self, name: str, strokes: tuple[Stroke, ...], scale: str = NO_SCALE, serves: tuple[str, ...] = ()) -> Sheet:
        """One sheet called ``name`` with ``strokes`` in its own mm, not yet bound.

        ``scale`` is what its foot says of its drawings: ``1:13``. ``serves`` names the boards it is of use for.
        """
        foot = self.foot(scale, signs_on(strokes))
        template = Template((self.document,), name, strokes, bounds_of(strokes))
        return Sheet(self.paper, self.printer, strokes, foot, (Laid(template, Move(), serves=serves),))


@dataclass(frozen=True, slots=True)
class PlainFoot:
    """The foot of such a sheet: the fields of ISO 7200 in one strip. ``strip`` is its left, its bottom and its right.

    ``printed_on`` says which printer it was corrected for, if any (PR-3); ``signs`` are those it explains (PR-8).
    """

    title: str
    document: str
    file: str
    paper: Paper
    unit: Unit
    strip: tuple[Fraction, Fraction, Fraction]
    scale: str = NO_SCALE
    printed_on: str = ""
    signs: tuple[Sign, ...] = ()

    def shared(self, other: PlainFoot) -> PlainFoot:
        """The foot of a sheet that stands for this one and the ``other``: both their kinds of document, the scale of either,
        all signs.
        """
        scales = [one for one in (*self.scale.split(_AND), *other.scale.split(_AND)) if one != NO_SCALE]
        documents = dict.fromkeys((*self.document.split(", "), *other.document.split(", ")))
        signs = tuple(dict.fromkeys((*self.signs, *other.signs)))
        scale = _AND.join(dict.fromkeys(scales)) or NO_SCALE
        return replace(self, document=", ".join(documents), scale=scale, signs=signs)

    def strokes(self, number: int, of: int, mark: str = "", said: FootWords = NO_WORDS) -> tuple[Stroke, ...]:
        """The strip, on sheet ``number`` of ``of``, with the plan's ``mark`` (PR-7); over it maker, date and printer, if any,
        and the signs.
        """
        left, y, right = self.strip
        room = 20 * (right - left) / 136 - 2
        fields = (
            ("title", self.title, 27),
            ("document", self.document if set_line(words(self.document, _TINY)).width <= room else _SEVERAL, 20),
            ("job file", self.file, 22),
            ("sheet", said.numbered(number, of), 15),
            *((("plan mark", mark, 15),) if mark else ()),
            ("paper", self.paper.title, 10),
            ("scale", self.scale, 17),
            ("figures in", "inches" if self.unit is Unit.INCH else "mm", 10),
        )
        share = (right - left) / sum(wide for *_, wide in fields)
        strokes: list[Stroke] = [Line((left, y + 10), (right, y + 10), Role.FRAME)]
        x = left
        for label, held, wide in fields:
            strokes.append(Text((x + 1, y + 7), words(label, _TINY)))
            strokes.append(Text((x + 1, y + 2), fitted(held, wide * share - 2, (_WORD, _SMALL, _TINY))))
            x += wide * share
        strokes += self._key()
        taken = right - bounds_of(self._key())[0] + 3 if self.signs else Fraction(0)
        if over := "; ".join(filter(None, (said.made, self.printed_on))):
            strokes.append(Text((left + 1, y + _OVER), fitted(over, right - left - 2 - taken, (_TINY,))))
        return tuple(strokes)

    @property
    def is_too_full(self) -> bool:
        """True where it has no room for what it must say: three scales, or signs with white for maker and printer beside them."""
        left, _, right = self.strip
        if self.scale.count(_AND) > 1:
            return True
        return bool(self.signs) and bounds_of(self._key())[0] < left + (right - left) / 3

    def _key(self) -> list[Stroke]:
        """The signs with their meanings in a line over the strip, ending at its right (PR-8)."""
        _, y, right = self.strip
        strokes: list[Stroke] = []
        x = right
        for sign in reversed(self.signs):
            said = words(sign.value, _TINY)
            x -= set_line(said).width
            strokes.append(Text((x, y + _OVER), said))
            x -= _SAMPLE[0] + Fraction(3, 2)
            strokes += (moved(one, Move(x, y + _OVER - Fraction(2, 5))) for one in flatten(sample_of(sign, *_SAMPLE)))
            x -= 4
        return strokes


@dataclass(frozen=True, slots=True)
class Paragraph:
    """Words that belong together: ``height`` of their capitals in mm, ``above`` the white before them, ``indent`` of every line.

    ``leads`` is True for words that mean nothing without the next paragraph: they go to the next frame with it. ``leading`` is
    the way from one baseline to the next, in heights of a capital. ``between`` is how high the words are where only the figures
    among them are of ``height``; None where all of it is.
    """

    text: str
    height: Fraction
    bold: bool = False
    above: Fraction = Fraction(0)
    indent: Fraction = Fraction(0)
    leads: bool = False
    leading: Fraction = _LEADING
    between: Fraction | None = None

    def lines(self, room: Fraction) -> tuple[tuple[Content, Fraction], ...]:
        """The lines it takes in ``room`` mm, and how high the letters of each are."""
        return _lines(self.text, room - self.indent, self.height, self.between, bold=self.bold)


#: Frames are tried one after the other, and in each of them every paragraph more than once.
@lru_cache(maxsize=4096)
def _lines(
    text: str, room: Fraction, height: Fraction, between: Fraction | None, *, bold: bool
) -> tuple[tuple[Content, Fraction], ...]:
    if between is not None:
        return tuple(held_lines(text, room, height, between))
    return tuple((words(line, height, bold=bold), height) for line in wrapped(text, room, height, bold=bold))


def halves(paragraph: Paragraph) -> tuple[Paragraph, Paragraph]:
    """``paragraph`` in two, parted between words; neither waits for what follows."""
    said = paragraph.text.split()
    first, second = " ".join(said[: len(said) // 2]), " ".join(said[len(said) // 2 :])
    return replace(paragraph, text=first, leads=False), replace(paragraph, text=second, above=Fraction(0), leads=False)


def fill_frames(paragraphs: Iterable[Paragraph], frames: Sequence[Box]) -> tuple[tuple[Text, ...], tuple[Paragraph, ...]]:
    """``paragraphs`` set into ``frames`` (in mm) from the top down, in order: the strokes, and those there was no room for.

    A paragraph is never parted: where it doesn't fit what is left of a frame it stands at the top of the next.
    """
    left = list(paragraphs)
    strokes: list[Text] = []
    for x0, y0, x1, y1 in frames:
        y = y1
        while left and _depth(left, x1 - x0, is_first=y == y1) <= y - y0:
            first = left.pop(0)
            y -= first.above if y < y1 else Fraction(0)
            for line, high in first.lines(x1 - x0):
                y -= high * first.leading
                strokes.append(Text((x0 + first.indent, y + high * (first.leading - 1) / 2), line))
    return tuple(strokes), tuple(left)


def _depth(left: Sequence[Paragraph], room: Fraction, *, is_first: bool) -> Fraction:
    """How much of a frame the next paragraph takes, and with it those it leads to."""
    deep = Fraction(0)
    for n, one in enumerate(left):
        high = sum((high for _, high in one.lines(room)), Fraction(0))
        deep += (Fraction(0) if is_first and n == 0 else one.above) + high * one.leading
        if not one.leads:
            break
    return deep


def tick_box(x: Fraction, y: Fraction) -> Polyline:
    """A square to tick with its left side at ``x``, for a line of words on the baseline ``y``, both in mm."""
    return Polyline(corners((x, y - _BELOW, x + _SIDE, y - _BELOW + _SIDE)), Role.FRAME, closed=True)


def hung(at: Point, figures: Content) -> Text:
    """``figures`` that end at the point ``at``; a + or − after them hangs past it, so that those of a column stand in line."""
    whole = set_line(figures).width
    last = figures[-1] if figures else None
    is_signed = last is not None and getattr(last, "text", "") in _SIGNS
    over = whole - set_line(figures[:-1]).width if is_signed else Fraction(0)
    return Text((at[0] + over, at[1]), figures, Align.RIGHT)
