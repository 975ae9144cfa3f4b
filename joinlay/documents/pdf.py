"""Sheets as a PDF at true size: millimetres become points once, at the last moment, and nothing is ever scaled to fit (PR-1)."""

from __future__ import annotations

from io import BytesIO
from math import cos, radians, sin, tan
from typing import TYPE_CHECKING, Final

from joinlay.documents.fonts import FONT_NAMES, check_letters, load_fonts
from joinlay.pen.marks import PENS, Arc, Fill, Line, Polyline, Text, Turn, pieces_of

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Sequence

    from reportlab.pdfgen.canvas import Canvas

    from joinlay.lengths import Fraction
    from joinlay.pages import Sheet
    from joinlay.pen.marks import Point, Role, Stroke

__all__ = ["sheets_pdf"]

#: Points in a millimetre: 72 to the inch of 25.4 mm, exactly (PR-1).
_TOP, _UNDER = 360, 127
#: An arc is drawn as Bezier pieces of at most this many degrees; at 30 the error is under a ten-thousandth of a thousandth of the radius.
_PIECE: Final = 30.0


def sheets_pdf(sheets: Sequence[Sheet], *, title: str, subject: str = "") -> bytes:
    """The sheets as one PDF, with page labels and bookmarks, a chapter for each section; the same sheets give the same bytes.

    Viewers are asked to print at actual size (PR-1). Raises BadInput for a letter the typeface lacks.
    """
    from reportlab.pdfgen.canvas import Canvas

    load_fonts()
    held = BytesIO()
    canvas = Canvas(held, pageCompression=0, invariant=1, pdfVersion=(1, 7), initialFontName=FONT_NAMES[0])
    canvas.setTitle(title)
    canvas.setSubject(subject)
    canvas.setCreator("joinlay")
    canvas.setViewerPreference("PrintScaling", "None")
    section = ""
    there = {sheet.number for sheet in sheets}
    for page, sheet in enumerate(sheets):
        canvas.addPageLabel(page, "ARABIC", sheet.number)
        if sheet.section and sheet.section != section:
            canvas.bookmarkPage(sheet.section)
            canvas.addOutlineEntry(sheet.section, sheet.section, level=0, closed=True)
        section = sheet.section
        _page(canvas, sheet, there)
    if section:
        canvas.showOutline()
    canvas.save()
    return held.getvalue()


def _page(canvas: Canvas, sheet: Sheet, there: Collection[int]) -> None:
    canvas.setPageSize((_points(sheet.paper.width), _points(sheet.paper.height)))
    canvas.bookmarkPage(_key(sheet.number))
    for n, laid in enumerate(sheet.laid, start=1):
        key = f"{sheet.number}.{n}"
        canvas.bookmarkPage(key)
        canvas.addOutlineEntry(laid.title, key, level=1 if sheet.section else 0)
    pen = _Pen(canvas, sheet)
    for link in (one for one in sheet.links if one.to in there):
        x0, y0, x1, y1 = link.box
        canvas.linkRect("", _key(link.to), (*pen.at((x0, y0)), *pen.at((x1, y1))), thickness=0)
    for stroke in sheet.strokes:
        pen.draw(stroke)
    canvas.showPage()


def _key(number: int) -> str:
    """What the PDF calls the sheet of this number."""
    return f"sheet {number}"


class _Pen:
    """Draws the strokes of one sheet: those of one role that follow each other as one path, to keep the file small and quick."""

    def __init__(self, canvas: Canvas, sheet: Sheet) -> None:
        self.canvas = canvas
        self.printer = sheet.printer
        self.left, self.bottom, _, _ = sheet.paper.printable
        self.is_true = sheet.printer.across == sheet.printer.down == 1
        self.role: Role | None = None
        self.path = canvas.beginPath()

    def at(self, point: Point) -> tuple[float, float]:
        """A point in points, corrected for the printer."""
        x, y = point
        if not self.is_true:
            x, y = self.left + (x - self.left) * self.printer.across, self.bottom + (y - self.bottom) * self.printer.down
        return _points(x), _points(y)

    def draw(self, stroke: Stroke) -> None:
        """Draw one stroke."""
        if isinstance(stroke, Text):
            self.flush()
            self._text(stroke)
        elif isinstance(stroke, Fill):
            self.flush()
            self._fill(stroke)
        else:
            if stroke.role is not self.role:
                self.flush()
                self.role = stroke.role
            self._add(stroke)

    def flush(self) -> None:
        """Stroke the path so far."""
        if self.role is None:
            return
        pen = PENS[self.role]
        self.canvas.setLineWidth(_points(pen.weight))
        self.canvas.setDash([_points(length) for length in pen.dash])
        self.canvas.drawPath(self.path)
        self.role, self.path = None, self.canvas.beginPath()

    def _add(self, stroke: Line | Polyline | Arc) -> None:
        if isinstance(stroke, Line):
            self.path.moveTo(*self.at(stroke.start))
            self.path.lineTo(*self.at(stroke.end))
        elif isinstance(stroke, Polyline):
            self._run(stroke.points)
            if stroke.closed:
                self.path.close()
        else:
            self._arc(stroke)

    def _run(self, points: Iterable[Point]) -> None:
        first, *rest = map(self.at, points)
        self.path.moveTo(*first)
        for point in rest:
            self.path.lineTo(*point)

    def _arc(self, arc: Arc) -> None:
        x, y = self.at(arc.centre)
        # A correction unlike in x and y makes the circle a little oval, as it must.
        across, down = float(self.printer.across) * _points(arc.radius), float(self.printer.down) * _points(arc.radius)
        for n, (one, two, three, four) in enumerate(_bezier(float(arc.start), float(arc.sweep))):
            if n == 0:
                self.path.moveTo(x + across * one[0], y + down * one[1])
            self.path.curveTo(*(c for px, py in (two, three, four) for c in (x + across * px, y + down * py)))

    def _fill(self, fill: Fill) -> None:
        self._run(fill.points)
        self.path.close()
        self.canvas.setFillGray(float(1 - fill.ink))
        self.canvas.drawPath(self.path, stroke=0, fill=1)
        self.path = self.canvas.beginPath()

    def _text(self, text: Text) -> None:
        across, up = _READING[text.turn]
        self.canvas.setFillGray(float(1 - text.ink))
        written = self.canvas.beginText()
        for piece, start in pieces_of(text):
            check_letters(piece)
            written.setFont(FONT_NAMES[piece.bold], _points(piece.em))
            written.setTextTransform(across, up, -up, across, *self.at(start))
            written.textOut(piece.text)
        self.canvas.drawText(written)


#: The direction a line of text reads in.
_READING: Final = {Turn.RIGHT: (1, 0), Turn.UP: (0, 1), Turn.LEFT: (-1, 0), Turn.DOWN: (0, -1)}

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
