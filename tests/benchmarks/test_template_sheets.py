"""How long a template sheet takes, against the same strokes drawn straight on a canvas with nothing around them."""

from collections.abc import Callable
from io import BytesIO
from time import perf_counter

import pytest
from reportlab.pdfgen.canvas import Canvas

from joinlay.documents.pdf import FONT_NAMES, load_fonts, sheets_pdf
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.pen.marks import PENS, Arc, Fill, Line, Polyline, Text, pieces_of
from tests.benchmarks.jobs import job_of
from tests.measured.packets import template_sheets

#: A sheet may take this many times as long as its strokes on a bare canvas.
MOST_TIMES = 2

POINTS = 360 / 127


@pytest.fixture(scope="module")
def sheets():
    """The sheets of a job of eight drawers."""
    return template_sheets(plan(read_job(job_of(8), "timed.toml")))


def in_points(sheet):
    """A sheet's strokes as (pen, what to draw) in floats, so that the bare canvas has nothing to work out."""
    for stroke in sheet.strokes:
        match stroke:
            case Text():
                for piece, (x, y) in pieces_of(stroke):
                    yield (
                        "text",
                        (FONT_NAMES[piece.bold], float(piece.em) * POINTS, float(x) * POINTS, float(y) * POINTS, piece.text),
                    )
            case Fill(points=points):
                yield "fill", (1 - float(stroke.ink), [(float(x) * POINTS, float(y) * POINTS) for x, y in points])
            case Line(start=start, end=end):
                yield "line", (pen_of(stroke), *(float(c) * POINTS for point in (start, end) for c in point))
            case Polyline(points=points, closed=closed):
                yield "run", (pen_of(stroke), closed, [(float(x) * POINTS, float(y) * POINTS) for x, y in points])
            case Arc(centre=(x, y), radius=r):
                box = (
                    (float(x) - float(r)) * POINTS,
                    (float(y) - float(r)) * POINTS,
                    (float(x) + float(r)) * POINTS,
                    (float(y) + float(r)) * POINTS,
                )
                yield "arc", (pen_of(stroke), *box, float(stroke.start), float(stroke.sweep))


def pen_of(stroke):
    """Line weight and dashes in points."""
    pen = PENS[stroke.role]
    return float(pen.weight) * POINTS, [float(length) * POINTS for length in pen.dash]


def bare(pages):
    """Draw strokes that are floats already, one after the other."""
    held = BytesIO()
    canvas = Canvas(held, pageCompression=0, invariant=1, initialFontName=FONT_NAMES[0])
    for strokes in pages:
        for kind, what in strokes:
            _DRAW[kind](canvas, *what)
        canvas.showPage()
    canvas.save()
    return held.getvalue()


def _text(canvas, font, size, x, y, text):
    written = canvas.beginText(x, y)
    written.setFont(font, size)
    written.textOut(text)
    canvas.drawText(written)


def _path(canvas, points, **how):
    path = canvas.beginPath()
    path.moveTo(*points[0])
    for point in points[1:]:
        path.lineTo(*point)
    canvas.drawPath(path, **how)


def _fill(canvas, grey, points):
    canvas.setFillGray(grey)
    _path(canvas, points, stroke=0, fill=1)


def _pen(canvas, pen):
    canvas.setLineWidth(pen[0])
    canvas.setDash(pen[1])


def _line(canvas, pen, *ends):
    _pen(canvas, pen)
    canvas.line(*ends)


def _run(canvas, pen, closed, points):
    _pen(canvas, pen)
    _path(canvas, [*points, points[0]] if closed else points)


def _arc(canvas, pen, x1, y1, x2, y2, start, sweep):
    _pen(canvas, pen)
    canvas.arc(x1, y1, x2, y2, start, sweep)


_DRAW: dict[str, Callable[..., None]] = {"text": _text, "fill": _fill, "line": _line, "run": _run, "arc": _arc}


def quickest(run, rounds=7):
    """The shortest of several runs, in seconds."""

    def once():
        start = perf_counter()
        run()
        return perf_counter() - start

    return min(once() for _ in range(rounds))


def test_sheets_against_a_bare_canvas(benchmark, sheets):
    load_fonts()
    pages = [list(in_points(sheet)) for sheet in sheets]
    assert len(bare(pages)) > 0.5 * len(sheets_pdf(sheets, title="timed"))
    pairs = [(quickest(lambda: sheets_pdf(sheets, title="timed"), 1), quickest(lambda: bare(pages), 1)) for _ in range(7)]
    benchmark.pedantic(sheets_pdf, args=(sheets,), kwargs={"title": "timed"}, rounds=3)
    ratio = min(ours for ours, _ in pairs) / min(empty for _, empty in pairs)
    benchmark.extra_info["ms a sheet"] = round(benchmark.stats["min"] * 1000 / len(sheets), 2)
    benchmark.extra_info["times a bare canvas"] = round(ratio, 2)
    assert ratio <= MOST_TIMES


def test_drawing_and_laying_out(benchmark, sheets):
    planned = plan(read_job(job_of(8), "timed.toml"))
    laid = benchmark.pedantic(template_sheets, args=(planned,), rounds=3)
    benchmark.extra_info["ms a sheet"] = round(benchmark.stats["min"] * 1000 / len(laid), 2)
    assert len(laid) == len(sheets)
