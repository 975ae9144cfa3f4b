"""What is printed against the plan: check squares and mortise marks read back from the PDF by a reader that isn't ours, to
0.001 mm.
"""

from collections.abc import Callable
from functools import partial

import pytest

from joinlay.boards import CutKind, Surface
from joinlay.documents.pdf import sheets_pdf
from joinlay.jobs.plan import Plan
from joinlay.lengths import Fraction
from joinlay.pen.marks import Line, Role, moved
from joinlay.templates.ends.net import views_of
from tests.measured.packets import drawers, example, examples, steps_of_work, template_sheets
from tests.measured.reading import MM, pixels_of, strokes_of
from tests.unit.templates.reading import lines, polylines

#: How near a stroke read back must be to where the plan has it, in mm.
NEAR = 0.001

PLANS: dict[str, Callable[[], Plan]] = {
    **{name: partial(example, name) for name in examples()},
    "loose tenons, one inch-sized drawer": lambda: drawers("4 5/16"),
    "half-blind, small and large": lambda: drawers("2", "14", make="half-blind and dado"),
}


def is_there(strokes, line):
    """True where a straight stroke read back lies on ``line`` from end to end, either way round."""
    wanted = tuple(map(float, (*line.start, *line.end)))
    turned = wanted[2:] + wanted[:2]
    return any(all(abs(a - b) < NEAR for a, b in zip(found, each, strict=True)) for found in strokes for each in (wanted, turned))


def printed(plan, paper):
    """Each sheet with the straight strokes read back from its page."""
    sheets = template_sheets(plan, paper)
    pdf = sheets_pdf(sheets, title=plan.title)
    return [(sheet, strokes_of(pdf, page)) for page, sheet in enumerate(sheets)]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("name", sorted(PLANS))
def test_check_squares_measure_what_they_say(name, paper):
    for sheet, strokes in printed(PLANS[name](), paper):
        inner = [s for s in lines(sheet.strokes) if s.says == "check square 100 mm"]
        assert len(inner) == 2
        assert all(is_there(strokes, line) for line in inner)
        sizes = [max(abs(s[2] - s[0]), abs(s[3] - s[1])) for s in strokes]
        assert sum(abs(size - 101.6) < NEAR for size in sizes) >= 4
        assert sum(abs(size - 100) < NEAR for size in sizes) >= 2


@pytest.mark.parametrize("name", sorted(PLANS))
def test_marks_are_where_the_plan_has_the_cuts(name):
    """Mortise centres, and the walls of grooves, dadoes and slots, each from the datum edge and the end printed beside it."""
    plan = PLANS[name]()
    boards = {board.name: board for board in plan.boards}
    # What the maker drew is held against its own plan elsewhere.
    own = dict(steps_of_work(plan)).get("your own outlines", ())
    seen = 0
    for sheet, strokes in printed(plan, plan.paper):
        for laid in sheet.laid:
            if laid.tile or laid.template in own:
                continue
            # Every one of the parts that share a template is marked right by it, as it lies on its face or on an edge, and by its
            # back where it is turned over.
            one = laid.template
            for names, end, turned in ((one.names, one.end, False), (one.turned, one.turned_end, True)):
                for name in names:
                    views = [view for _, view in views_of(boards[name]) if end in (view.datum.end, view.datum.far_end)]
                    if views:
                        view = next((view for view in views if view.datum.face == one.on), views[0])
                        seen += marks_checked(view, laid, strokes, end, turned=turned)
    assert seen >= 10


def marks_checked(board, laid, strokes, end, *, turned):
    """How many cuts of ``board`` near its ``end`` are on a laid template, or on its back: each worked out from the board
    alone.
    """
    at_end = Surface.END if end == board.datum.end else Surface.FAR_END
    # A template need not be as high as its part where a cut goes right across; its wall is seen as far as the paper reaches.
    top = max(y for s in lines(laid.template.strokes) if s.role is Role.CUT for _, y in (s.start, s.end))
    mirrored = ((at_end is Surface.END) != board.end_on_left) is not turned
    long = board.length.mm

    def from_end(along):
        return along if at_end is Surface.END else long - along

    def line(u0, y0, u1, y1):
        sign = -1 if mirrored else 1
        one, two = (laid.move.point((sign * u, y)) for u, y in ((u0, y0), (u1, y1)))
        return Line(one, two, Role.CUT)

    count = 0
    for cut in board.cuts:
        u = sorted((from_end(cut.along.start.mm), from_end(cut.along.stop.mm)))
        y = (cut.across.start.mm, cut.across.stop.mm)
        if cut.kind is CutKind.MORTISE and u[0] <= 30:
            middle = (sum(u) / 2, sum(y) / 2) if cut.surface is Surface.FACE else (-cut.into.centre.mm, sum(y) / 2)
            assert crosses_at(strokes, laid.move.point(((-1 if mirrored else 1) * middle[0], middle[1]))), cut.name
            count += 1
        elif cut.kind is CutKind.DADO and u[1] <= 50:
            for wall in u:
                assert is_there(strokes, line(wall, y[0], wall, min(y[1], top))), cut.name
                count += 1
        elif cut.kind is CutKind.GROOVE and u[0] <= 30:
            for wall in y:
                near = max(Fraction(0), u[0])
                assert starts_at(strokes, laid.move.point(((-1 if mirrored else 1) * near, wall))), cut.name
                count += 1
    return count


def crosses_at(strokes, point):
    """True where a level and an upright stroke both have their middle at a point."""
    x, y = map(float, point)
    middle = [s for s in strokes if abs((s[0] + s[2]) / 2 - x) < NEAR and abs((s[1] + s[3]) / 2 - y) < NEAR]
    return any(abs(s[0] - s[2]) < NEAR for s in middle) and any(abs(s[1] - s[3]) < NEAR for s in middle)


def starts_at(strokes, point):
    """True where a stroke begins or ends at a point."""
    x, y = map(float, point)
    return any(abs(s[n] - x) < NEAR and abs(s[n + 1] - y) < NEAR for s in strokes for n in (0, 2))


@pytest.mark.parametrize("name", sorted(PLANS))
def test_every_straight_stroke_of_a_template_is_on_its_page(name):
    for sheet, strokes in printed(PLANS[name](), "a4")[:2]:
        for laid in sheet.laid:
            if not laid.tile:
                drawn = [moved(line, laid.move) for line in lines(laid.template.strokes)]
                assert [line for line in drawn if not is_there(strokes, line)] == []


@pytest.mark.parametrize("name", examples())
def test_the_square_is_true_to_a_pixel_at_600_dpi(name):
    """Another renderer: the outer square's sides, as rows and columns of dark pixels."""
    plan = example(name)
    sheet = template_sheets(plan)[0]
    rows = pixels_of(sheets_pdf([sheet], title="one"), 0, 600)
    (square,) = (s for s in polylines(sheet.strokes) if s.says == "check square 4 in")
    left, bottom = (min(point[n] for point in square.points) for n in (0, 1))
    per_mm = 600 / 25.4
    level = round((float(sheet.paper.height) - float(bottom) - 70) * per_mm)  # a row that meets upright sides only
    across = dark_runs(rows[level], round((float(left) - 2) * per_mm), round((float(left) + 104) * per_mm))
    assert across[-1] - across[0] == pytest.approx(101.6 * per_mm, abs=1)
    assert min(abs(x - across[0] - 100 * per_mm) for x in across) <= 1
    column = round((float(left) + 75) * per_mm)
    top = round((float(sheet.paper.height) - float(bottom) - 104) * per_mm)
    down = dark_runs([row[column] for row in rows], top, round((float(sheet.paper.height) - float(bottom) + 2) * per_mm))
    assert down[-1] - down[0] == pytest.approx(101.6 * per_mm, abs=1)
    assert min(abs(down[-1] - y - 100 * per_mm) for y in down) <= 1


def dark_runs(pixels, start, stop):
    """The middle of each run of dark pixels from ``start`` to ``stop``."""
    runs, begun = [], None
    for n in range(start, stop):
        dark = pixels[n] < 160
        if dark and begun is None:
            begun = n
        elif not dark and begun is not None:
            runs.append((begun + n - 1) / 2)
            begun = None
    return runs


def test_a_point_is_a_seventy_second_of_an_inch():
    """ISO 32000's default user space (from memory, D5)."""
    assert pytest.approx(25.4) == MM * 72
