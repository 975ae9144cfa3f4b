"""Long thin templates: cut into strips that lie side by side, and joined again without a hair's loss; and paper by the roll."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.documents.pdf import sheets_pdf
from joinlay.errors import BadInput
from joinlay.lengths import Unit
from joinlay.pages import Printer, lay_out
from joinlay.pages.seams import OVERLAP
from joinlay.pages.title_block import TemplateFoot
from joinlay.paper import paper_named
from joinlay.pen.lettering import words
from joinlay.pen.marks import Arc, Line, Move, Polyline, Role, Stroke, Text, bounds_of, moved
from joinlay.templates.template import Template
from tests.drawn import fractions
from tests.measured.collisions import collisions
from tests.measured.reading import page_sizes, strokes_of


def stick(long, thick=40, ticks=(), name="case left side", *, is_upright=False):
    """A story stick: an outline, a tick across it at each of ``ticks`` and at its ends, and the tick's name beside it."""
    long, thick = Fraction(long), Fraction(thick)
    zero = Fraction(0)
    drawn: list[Stroke] = [
        Polyline(((zero, zero), (long, zero), (long, thick), (zero, thick)), Role.OUTLINE, closed=True, says="outline")
    ]
    for x in (zero, *map(Fraction, ticks), long):
        drawn.append(Line((x, zero), (x, thick), Role.CUT, f"tick {x}"))
    drawn += [Text((Fraction(x) + 1, thick / 2), words(f"{int(x)}", 3)) for x in ticks]
    strokes = tuple(moved(stroke, Move(quarters=1)) for stroke in drawn) if is_upright else tuple(drawn)
    return Template((name,), "story stick", strokes, bounds_of(strokes))


def laid(templates, paper, printer=None):
    return lay_out(templates, paper_named(paper), title="Map chest", file="map-chest.toml", unit=Unit.MM, printer=printer)


def tiles_of(sheets, template):
    """Each tile of a template as (its strokes on the paper, the box it covers there), in order."""
    found = []
    for sheet in sheets:
        for one in sheet.laid:
            if one.template == template and one.tile:
                found.append((one.tile, one, sheet))
    return [(one, sheet) for _, one, sheet in sorted(found, key=lambda each: each[0])]


def rings(sheet):
    return [stroke.centre for stroke in sheet.strokes if isinstance(stroke, Arc) and stroke.role is Role.REGISTER]


def back(move, point):
    """Where a point of the sheet lies in the drawing."""
    turned = Move(quarters=4 - move.quarters % 4)
    return turned.point((point[0] - move.right, point[1] - move.up))


TICKS = tuple(range(37, 2400, 113))


def joined_error(template, sheets, along):
    """Lay tile after tile over the last by its register marks alone, as a maker does; how far off the last tick then is, along
    the stick.

    Only what is on paper is used: the rings as they lie on the sheets.
    """
    tiles = tiles_of(sheets, template)
    shift = Fraction(0)
    for (one, sheet), (two, other) in pairwise(tiles):
        seams = {back(one.move, ring) for ring in rings(sheet)} & {back(two.move, ring) for ring in rings(other)}
        ring = min(seams, key=lambda point: point[1 - along])
        # On paper, each tile is measured from where its own zero would be.
        before, after = one.move.point(ring), two.move.point(ring)
        shift += back(one.move, before)[along] - back(two.move, after)[along]
    return shift


@pytest.mark.parametrize("is_upright", [False, True])
@pytest.mark.parametrize("paper", ["letter", "a4", "legal"])
def test_a_stick_of_two_metres_and_a_half_is_true_end_to_end(paper, is_upright):
    template = stick(2400, ticks=TICKS, is_upright=is_upright)
    sheets = laid([template], paper)
    tiles = tiles_of(sheets, template)
    assert len(tiles) > 8
    along = 1 if is_upright else 0
    assert joined_error(template, sheets, along) == 0
    # Every tick is found on some tile at its own place, exactly: so the first and the last lie 2400 mm apart.
    places: dict[str, set[Fraction]] = {}
    for one, sheet in tiles:
        for stroke in sheet.body:
            if isinstance(stroke, Line) and stroke.says.startswith("tick"):
                places.setdefault(stroke.says, set()).add(back(one.move, stroke.start)[along])
    for x in (0, *TICKS, 2400):
        assert Fraction(x) in places[f"tick {x}"]


def test_it_is_read_back_from_the_pdf_as_true():
    """Tile by tile, by a reader that isn't ours: the pitch of the ticks added up over the whole stick is within 0.02 mm of
    2400 mm.
    """
    ticks = tuple(range(24, 2400, 24))
    template = stick(2400, ticks=ticks)
    sheets = laid([template], "letter")
    pdf = sheets_pdf(sheets, title="stick")
    found: dict[int, list[float]] = {}
    for one, sheet in tiles_of(sheets, template):
        page = sheets.index(sheet)
        upright = one.move.quarters % 2 == 1
        for x0, y0, x1, y1 in strokes_of(pdf, page):
            cross = abs(x1 - x0) if upright else abs(y1 - y0)
            if cross == pytest.approx(40, abs=0.001):
                x = float(back(one.move, (Fraction(x0), Fraction(y0)))[0])
                if abs(x - round(x / 24) * 24) < 0.02 and 0 <= round(x / 24) <= 100:
                    found.setdefault(round(x / 24) * 24, []).append(x)
    assert sorted(found) == [0, *ticks, 2400]
    assert max(min(abs(x - n) for x in places) for n, places in found.items()) < 0.001


@pytest.mark.parametrize(("paper", "most"), [("letter", 4), ("a4", 4), ("legal", 3), ("tabloid", 2), ("a3", 2), ("a2", 1)])
def test_strips_lie_side_by_side(paper, most):
    """2.4 m of stick 40 mm wide: 3 sheets of A4 would do by area alone."""
    assert len(laid([stick(2400, ticks=TICKS)], paper)) <= most


@pytest.mark.parametrize("paper", ["letter", "a4", "a3 landscape"])
@pytest.mark.parametrize("printer", [None, Printer(Fraction(102, 100), Fraction(97, 100), "shop laser", "2026-11-20")])
def test_no_strip_lies_on_another_or_off_the_sheet(paper, printer):
    templates = [stick(2400, 40, TICKS), stick(1200, 35, (300, 777), "left stile"), stick(760, 55, (), "front", is_upright=True)]
    sheets = laid(templates, paper, printer)
    for sheet in sheets:
        assert collisions(sheet.strokes) == []
        left, bottom, right, top = sheet.printer.room(sheet.paper)
        x0, y0, x1, y1 = bounds_of(sheet.body)
        assert (x0 >= left, y0 >= bottom, x1 <= right, y1 <= top) == (True,) * 4


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_seams_keep_off_joint_marks_and_words(paper):
    template = stick(2400, ticks=TICKS)
    (first, *_) = laid([template], paper)
    assert isinstance(first.foot, TemplateFoot)
    windows = first.foot.maps[0].windows
    for before, after in pairwise(windows):
        assert before[2] - after[0] == OVERLAP
        # Clear of each tick and of the figures after it.
        assert not any(after[0] - 9 < tick < before[2] + 1 for tick in TICKS)


@settings(max_examples=12, deadline=None)
@given(
    long=fractions(Fraction(300), Fraction(2500), max_denominator=32, of=Fraction),
    thick=fractions(Fraction(25), Fraction(58), max_denominator=16, of=Fraction),
    ticks=st.lists(st.integers(5, 290), max_size=12, unique=True),
    paper=st.sampled_from(["letter", "a4", "tabloid", "150 x 400 mm"]),
    is_upright=st.booleans(),
)
def test_any_stick_is_whole_again(long, thick, ticks, paper, is_upright):
    template = stick(long, thick, ticks, is_upright=is_upright)
    sheets = laid([template], paper)
    along = 1 if is_upright else 0
    whole = [one for sheet in sheets for one in sheet.laid if not one.tile]
    tiles = tiles_of(sheets, template)
    if whole:
        assert tiles == []
        return
    assert [one.tile for one, _ in tiles] == list(range(1, tiles[0][0].tiles + 1))
    assert joined_error(template, sheets, along) == 0
    # The long edge of the outline, put together from all the pieces that lie on it, has no gap. Other pieces lie on the sheet
    # too, one of them maybe in line with it.
    spans = []
    windows = tiles[0][1].foot.maps[0].windows
    for one, sheet in tiles:
        window = windows[one.tile - 1]
        for stroke in sheet.body:
            if isinstance(stroke, Line) and stroke.says == "outline":
                (x0, y0), (x1, y1) = back(one.move, stroke.start), back(one.move, stroke.end)
                first, last = ((x0, x1), (y0, y1))[along]
                across = {(x0, x1), (y0, y1)} - {((x0, x1), (y0, y1))[along]}
                edge = template.box[1 - along]
                within = window[along] <= min(first, last) and max(first, last) <= window[along + 2]
                if across == {(edge, edge)} and first != last and within:
                    spans.append(sorted((first, last)))
    at = template.box[along]
    for low, high in sorted(spans):
        assert low <= at
        at = max(at, high)
    assert at == template.box[along + 2]


def test_the_foot_says_all_tiles_of_a_stick_in_one_line():
    template = stick(2400, ticks=TICKS)
    first, *_ = laid([template], "letter")
    said = [stroke.plain for stroke in first.strokes if isinstance(stroke, Text)]
    assert any(line.startswith("tiles 1 to ") and line.endswith(": case left side, story stick") for line in said)
    numbers = {str(n) for n in range(1, first.laid[0].tiles + 1)}
    assert numbers <= set(said)


def test_a_roll_is_one_long_sheet():
    templates = [stick(2400, 40, TICKS), stick(1200, 35, (), "left stile")]
    sheets = laid(templates, "24 in roll")
    (sheet,) = sheets
    assert all(not one.tile for one in sheet.laid)
    assert sheet.paper.width == Fraction("609.6")
    # The bar above, the stick, and the border at both ends.
    assert sheet.paper.height == 2400 + Fraction("14.5") + 12
    x0, y0, x1, y1 = bounds_of(sheet.strokes)
    left, bottom, right, top = sheet.paper.printable
    assert (x0 >= left - 2, y0 >= bottom - 2, x1 <= right + 2, y1 <= top + 2) == (True,) * 4
    assert collisions(sheet.strokes) == []
    ((wide, high),) = page_sizes(sheets_pdf(sheets, title="stick"))
    assert (wide, high) == (pytest.approx(609.6, abs=0.01), pytest.approx(2426.5, abs=0.01))


def test_a_roll_with_little_on_it_is_short():
    (sheet,) = laid([stick(150, 40)], "24 in roll")
    assert sheet.paper.height == 200 + Fraction("14.5") + 12


def test_a_roll_for_a_printer_that_prints_short_is_cut_longer():
    printer = Printer(Fraction(1), Fraction(102, 100), "plotter", "2026-11-20")
    (sheet,) = laid([stick(2400)], "24 in roll", printer)
    assert sheet.paper.height == (2400 + Fraction("14.5")) * Fraction(102, 100) + 12
    assert printer.room(sheet.paper)[3] == max(
        stroke.points[2][1] for stroke in sheet.body if isinstance(stroke, Polyline) and stroke.role is not Role.ROUND
    ) + Fraction("14.5")


def test_past_the_longest_page_there_is_a_roll_is_tiled():
    template = stick(6000, 40, range(100, 6000, 100))
    sheets = laid([template], "24 in roll")
    assert all(sheet.paper.height <= 5080 for sheet in sheets)
    assert len(tiles_of(sheets, template)) == 2
    assert joined_error(template, sheets, 0) == 0


@pytest.mark.parametrize("paper", ["100 x 300 mm", "115 x 300 mm", "130 x 150 mm", "4 in roll"])
def test_paper_too_small_says_the_least_that_works(paper):
    with pytest.raises(BadInput) as caught:
        laid([stick(300)], paper)
    assert "the least is 128.1 mm x 157.6 mm" in str(caught.value)


@pytest.mark.parametrize("paper", ["128.1 x 157.6 mm", "157.6 x 128.1 mm", "129 mm roll"])
def test_the_least_paper_works(paper):
    for template in (stick(400, 60), stick(100, 90), stick(500, 300)):
        sheets = laid([template], paper)
        assert sum(len(sheet.laid) for sheet in sheets) == (sheets[-1].laid[-1].tiles or 1)
