"""Sheets as a PDF at true size: millimetres become points once, at the last moment, and nothing is ever scaled to fit (PR-1).

A packet has some fifteen thousand strokes and eight thousand pieces of type, and the library's own way to take each of them is
the larger part of the time a packet takes. So the operators of a page are written here, in the library's figures, and handed to
the canvas as one; a number or a piece of type that comes again is not worked out again. Fonts, pages,
links and the file stay with the library.

The typeface is DejaVu Sans, shipped with the package (licence beside its files). Every letter is looked for in it before it is
printed.
"""

from __future__ import annotations

import os
import re
from contextlib import contextmanager
from functools import cache, lru_cache
from importlib.resources import files
from io import BytesIO
from math import cos, radians, sin, tan
from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput, quoted
from joinlay.pen.marks import PENS, Arc, Fill, Line, Polyline, Text, pieces_of

if TYPE_CHECKING:
    from collections.abc import Collection, Container, Iterable, Iterator, Sequence

    from reportlab.pdfgen.canvas import Canvas

    from joinlay.lengths import Fraction
    from joinlay.pages import Sheet
    from joinlay.pen.lettering import SetRun
    from joinlay.pen.marks import Point, Role, Stroke

__all__ = ["FONT_FILES", "FONT_NAMES", "figures_in_points", "load_fonts", "sheets_pdf"]

#: The names the two fonts go by in the PDF, regular and bold.
FONT_NAMES: Final = ("DejaVuSans", "DejaVuSans-Bold")
#: Their files in this package.
FONT_FILES: Final = ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf")

#: Points in a millimetre: 72 to the inch of 25.4 mm, exactly (PR-1).
_TOP, _UNDER = 360, 127
#: An arc is drawn as Bezier pieces of at most this many degrees; at 30 the error is under a millionth of the radius.
_PIECE: Final = 30.0
#: What is smaller is written as nothing, and how many decimals a number has below what size, as the library has them.
_NOTHING: Final = 1e-7
_PLACES: Final = ((3, 10_000), (2, 100_000), (1, 1_000_000))
#: Letters that are shown as they stand: those of ASCII but for brackets and what escapes them.
_PLAIN: Final = re.compile(r"[ -'*-\[\]-~]+")


def sheets_pdf(sheets: Sequence[Sheet], *, title: str, subject: str = "", author: str = "") -> bytes:
    """The sheets as one PDF, with page labels and bookmarks, a chapter for each section; the same sheets give the same bytes.

    ``author`` is who makes the piece, '' where nobody says. Its words are English. Viewers are asked to print at actual size
    (PR-1). Raises BadInput for a letter the typeface lacks.
    """
    from reportlab.pdfgen.canvas import Canvas

    load_fonts()
    held = BytesIO()
    with _no_date_from_outside():
        canvas = Canvas(held, pageCompression=0, invariant=1, pdfVersion=(1, 7), initialFontName=FONT_NAMES[0], lang="en-GB")
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setAuthor(author or "joinlay")
    canvas.setCreator("joinlay")
    canvas.setViewerPreference("PrintScaling", "None")
    there = {sheet.number for sheet in sheets}
    outline: dict[str, list[tuple[str, str]]] = {}
    case = _TypeCase(canvas)
    for page, sheet in enumerate(sheets):
        canvas.addPageLabel(page, "ARABIC", sheet.number)
        for chapter in sheet.chapters:
            if chapter not in outline:
                canvas.bookmarkPage(chapter)
                outline[chapter] = []
        for n, laid in enumerate(sheet.laid, start=1):
            outline.setdefault(laid.chapter or sheet.section, []).append((laid.title, f"{sheet.number}.{n}"))
        _page(canvas, sheet, there, case)
    for chapter, entries in outline.items():
        if chapter:
            canvas.addOutlineEntry(chapter, chapter, level=0, closed=True)
        for said, key in entries:
            canvas.addOutlineEntry(said, key, level=1 if chapter else 0)
    if any(outline):
        canvas.showOutline()
    canvas.save()
    return held.getvalue()


@contextmanager
def _no_date_from_outside() -> Iterator[None]:
    """Without SOURCE_DATE_EPOCH, which the library would date the file by: the same sheets would then give other bytes."""
    name = "SOURCE_DATE_EPOCH"
    given = os.environ.pop(name, None)
    try:
        yield
    finally:
        if given is not None:
            os.environ[name] = given


def _page(canvas: Canvas, sheet: Sheet, there: Collection[int], case: _TypeCase) -> None:
    canvas.setPageSize((_points(sheet.paper.width), _points(sheet.paper.height)))
    canvas.bookmarkPage(_key(sheet.number))
    for n in range(1, len(sheet.laid) + 1):
        canvas.bookmarkPage(f"{sheet.number}.{n}")
    pen = _Pen(sheet, case)
    for link in (one for one in sheet.links if one.to in there):
        x0, y0, x1, y1 = link.box
        canvas.linkRect("", _key(link.to), (*pen.at((x0, y0)), *pen.at((x1, y1))), thickness=0)
    canvas.drawText(_Ready(pen.operators(sheet.strokes)))
    canvas.showPage()


def _key(number: int) -> str:
    """What the PDF calls the sheet of this number."""
    return f"sheet {number}"


@lru_cache(maxsize=65536)
def figures_in_points(number: float) -> str:
    """A number of points as the library writes it: six figures past the first, and no zero that says nothing."""
    size = abs(number)
    if size <= _NOTHING:
        return "0"
    # Written out, since each of some ten thousand numbers comes by here, most of them less than a thousand.
    if size < 10:
        text = f"{number:.6f}"
    elif size < 100:
        text = f"{number:.5f}"
    elif size < 1000:
        text = f"{number:.4f}"
    else:
        places = next((n for n, least in _PLACES if size < least), 0)
        text = f"{number:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return text[1:] if len(text) > 1 and text[0] == "0" else text


class _Ready:
    """The operators of a page, line by line, as the canvas asks for them."""

    __slots__ = ("_lines",)

    def __init__(self, lines: Sequence[str]) -> None:
        self._lines = lines

    def getCode(self) -> str:
        """All of them. The canvas asks by this name."""
        return "\n".join(self._lines)


class _TypeCase:
    """The pieces of type of one PDF: each text in each font spelled once in the codes its letters have in this file."""

    def __init__(self, canvas: Canvas) -> None:
        from reportlab.lib.rl_accel import escapePDF
        from reportlab.pdfbase.pdfmetrics import getFont

        self._escaped = escapePDF
        self._document = canvas._doc
        self._fonts = [getFont(name) for name in FONT_NAMES]
        self._spelled: dict[tuple[str, bool], list[tuple[str, str]]] = {}
        # By the ``id`` of a piece, which is kept too, so that no other gets that: lines that say the same share theirs.
        self._shown: dict[int, tuple[SetRun, str]] = {}

    def operators(self, piece: SetRun) -> str:
        """The operators that choose the font of ``piece`` and show its letters. BadInput for a letter the typeface lacks."""
        known = self._shown.get(id(piece))
        if known is None:
            em = _points(piece.em)
            sizes = f"{figures_in_points(em)} Tf {figures_in_points(em * 1.2)} TL"
            known = piece, " ".join(f"{name} {sizes} ({letters}) Tj" for name, letters in self._letters(piece))
            self._shown[id(piece)] = known
        return known[1]

    def _letters(self, piece: SetRun) -> list[tuple[str, str]]:
        """The letters of ``piece``, those of each subset of its font together with that subset's name."""
        known = self._spelled.get((piece.text, piece.bold))
        if known is None:
            _check_letters(piece)
            font, document = self._fonts[piece.bold], self._document
            if document in font.state and _PLAIN.fullmatch(piece.text):
                # Most of them: these have their own codes in the first subset of every font.
                known = [(font.getSubsetInternalName(0, document), piece.text)]
            else:
                known = [
                    (font.getSubsetInternalName(subset, document), self._escaped(letters))
                    for subset, letters in font.splitString(piece.text, document)
                ]
            self._spelled[piece.text, piece.bold] = known
        return known


class _Pen:
    """Draws the strokes of one sheet: those of one role that follow each other as one path, to keep the file small and quick."""

    def __init__(self, sheet: Sheet, case: _TypeCase) -> None:
        self.case = case
        self.printer = sheet.printer
        self.left, self.bottom, _, _ = sheet.paper.printable
        self.is_true = sheet.printer.across == sheet.printer.down == 1
        #: Where a point is, written in points.
        self.place = _place if self.is_true else self._corrected
        self.role: Role | None = None
        self.path: list[str] = []
        self.lines: list[str] = []

    def at(self, point: Point) -> tuple[float, float]:
        """A point in points, corrected for the printer."""
        x, y = point
        if not self.is_true:
            x, y = self.left + (x - self.left) * self.printer.across, self.bottom + (y - self.bottom) * self.printer.down
        return _points(x), _points(y)

    def _corrected(self, point: Point) -> str:
        x, y = self.at(point)
        return f"{figures_in_points(x)} {figures_in_points(y)}"

    def operators(self, strokes: Iterable[Stroke]) -> list[str]:
        """The operators that draw ``strokes``, line by line."""
        place = self.place
        for stroke in strokes:
            if isinstance(stroke, Text):
                self._stroke()
                self._text(stroke)
                continue
            if isinstance(stroke, Fill):
                self._stroke()
                self._fill(stroke)
                continue
            if stroke.role is not self.role:
                self._stroke()
                self.role = stroke.role
            if isinstance(stroke, Line):
                self.path.append(f"{place(stroke.start)} m {place(stroke.end)} l")
            elif isinstance(stroke, Polyline):
                self._run(stroke.points)
                if stroke.closed:
                    self.path.append("h")
            else:
                self._arc(stroke)
        self._stroke()
        return self.lines

    def _stroke(self) -> None:
        """Stroke the path so far."""
        if self.role is not None:
            self.lines.append(f"{_set_pen(self.role)}\nn {' '.join(self.path)}\nS")
            self.role, self.path = None, []

    def _run(self, points: Sequence[Point]) -> None:
        places = map(self.place, points)
        self.path.append(f"{next(places)} m")
        self.path += [f"{place} l" for place in places]

    def _arc(self, arc: Arc) -> None:
        x, y = self.at(arc.centre)
        # A correction unlike in x and y makes the circle a little oval, as it must.
        across, down = float(self.printer.across) * _points(arc.radius), float(self.printer.down) * _points(arc.radius)
        for n, (one, two, three, four) in enumerate(_bezier(float(arc.start), float(arc.sweep))):
            if n == 0:
                self.path.append(f"{figures_in_points(x + across * one[0])} {figures_in_points(y + down * one[1])} m")
            curve = [figures_in_points(c) for px, py in (two, three, four) for c in (x + across * px, y + down * py)]
            self.path.append(f"{' '.join(curve)} c")

    def _fill(self, fill: Fill) -> None:
        self._run(fill.points)
        self.lines.append(f"{_grey(fill.ink)}\nn {' '.join(self.path)} h\nf*")
        self.path = []

    def _text(self, text: Text) -> None:
        reading, place, letters = _READING[text.turn.value], self.place, self.case.operators
        shown = "".join([f"{reading} {place(start)} Tm {letters(piece)} " for piece, start in pieces_of(text)])
        self.lines.append(f"{_grey(text.ink)}\nBT 1 0 0 1 0 0 Tm {shown}ET")


def _place(point: Point) -> str:
    """Where ``point`` is, written in points."""
    # Written out: most of the numbers of a packet come by here.
    x, y = point
    across, up = x.numerator * _TOP / (x.denominator * _UNDER), y.numerator * _TOP / (y.denominator * _UNDER)
    return f"{figures_in_points(across)} {figures_in_points(up)}"


@cache
def _set_pen(role: Role) -> str:
    """The operators that take the pen for ``role``: its weight and dash."""
    pen = PENS[role]
    dash = " ".join(figures_in_points(_points(length)) for length in pen.dash)
    return f"{figures_in_points(_points(pen.weight))} w\n[{dash}] 0 d"


def _grey(ink: Fraction) -> str:
    """The operator that takes so much ink to fill with."""
    return "0 g" if ink == 1 else f"{figures_in_points(float(1 - ink))} g"


#: The direction a line of text reads in, by its quarter turns, and the way its letters stand.
_READING: Final = ("1 0 0 1", "0 1 -1 0", "-1 0 0 -1", "0 -1 1 0")

_Unit = tuple[float, float]


def _bezier(start: float, sweep: float) -> Iterator[tuple[_Unit, _Unit, _Unit, _Unit]]:
    """A circle of radius 1 from ``start`` through ``sweep`` degrees as Bezier pieces: begin, two handles, end."""
    pieces = max(1, -int(-sweep // _PIECE))
    step = radians(sweep / pieces)
    handle = 4 / 3 * tan(step / 4)
    for n in range(pieces):
        a, b = radians(start) + n * step, radians(start) + (n + 1) * step
        yield (
            (cos(a), sin(a)),
            (cos(a) - handle * sin(a), sin(a) + handle * cos(a)),
            (cos(b) + handle * sin(b), sin(b) - handle * cos(b)),
            (cos(b), sin(b)),
        )


def _points(mm: Fraction) -> float:
    # One rounding only: whole numbers are divided, never floats multiplied.
    return mm.numerator * _TOP / (mm.denominator * _UNDER)


# -- the typeface --------------------------------------------------------------------------------------


@cache
def load_fonts() -> tuple[Container[int], Container[int]]:
    """Make both fonts known to the PDF library, once; gives the letters each has, as code points."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    held = []
    for name, file in zip(FONT_NAMES, FONT_FILES, strict=True):
        font = TTFont(name, str(files("joinlay.documents") / "fonts" / file), asciiReadable=1)
        pdfmetrics.registerFont(font)
        held.append(frozenset(font.face.charToGlyph))
    return held[0], held[1]


def _check_letters(piece: SetRun) -> None:
    """Raise BadInput for a letter the font lacks: a PDF would print a black box for it, without a word."""
    letters = load_fonts()[piece.bold]
    missing = next((letter for letter in piece.text if ord(letter) not in letters), None)
    if missing is not None:
        lacks = f"{quoted(piece.text)} has the letter {quoted(missing)}, which the printed letters lack"
        raise BadInput(f"{lacks}; write it in Latin, Greek or Cyrillic letters.")
