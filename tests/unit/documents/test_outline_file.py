"""A maker's outline out of an SVG file: true to size, exact to a thousandth of a millimetre, curves within a hundredth."""

import itertools
from fractions import Fraction
from math import cos, hypot, radians, sin

import pytest

from joinlay.boards.outline import Ring, StraightRun
from joinlay.documents.outline_file import read_outline

F = Fraction


def svg(body, size='width="100mm" height="50mm" viewBox="0 0 100 50"'):
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{body}</svg>'.encode()


def read(body, **more):
    return read_outline(svg(body, **more), "mine.svg")


def points(body, **more):
    (run,) = read(body, **more).lines
    return run.points


SQUARE = ((F(0), F(10)), (F(10), F(10)), (F(10), F(0)), (F(0), F(0)))


@pytest.mark.parametrize(
    "body",
    [
        '<path d="M20 20h10v10h-10z"/>',
        '<path d="M20,20 30,20 L30,30 L20,30 Z"/>',
        '<path d="m20 20 10 0 0 10-10 0z"/>',
        '<path d="M2e1+20H30V30H20Z"/>',
        '<rect x="20" y="20" width="10" height="10"/>',
        '<polygon points="20,20 30,20 30,30 20,30"/>',
        '<polygon points="20 20 30 20 30 30 20 30" transform="translate(3)"/>',
        '<g transform="translate(5 5) scale(2)"><rect width="5" height="5"/></g>',
        '<g transform="rotate(90 10 10)"><g transform="translate(1,2)"><polygon points="0,10 0,0 10,0 10,10"/></g></g>',
        '<rect width="10" height="10" transform="matrix(1 0 0 1 7 8)"/>',
        '<defs><g id="a"><rect id="b" width="10" height="10"/></g></defs><use href="#a" x="3" y="4"/>',
        '<title>A square</title><desc>of ten</desc><rect width="10" height="10" style="fill:none;stroke:#000;stroke-width:.2"/>',
        '<rect width="10" height="10" fill="none" stroke="black" id="x" class="y" data-z="1"/><!-- words --><g/>',
    ],
)
def test_a_square_of_ten_is_one_however_it_is_written(body):
    outline = read(body)
    assert (outline.width, outline.height) == (10, 10)
    (run,) = outline.lines
    assert run.is_closed
    assert run.points == SQUARE


@pytest.mark.parametrize(
    ("size", "wide"),
    [
        ('width="100mm" height="50mm" viewBox="0 0 100 50"', F(10)),
        ('width="10cm" height="5cm" viewBox="0 0 100 50"', F(10)),
        ('width="4in" height="2in" viewBox="0 0 100 50"', F("10.16")),
        ('width="100mm" height="50mm" viewBox="-50 -25 400 200"', F("2.5")),
        ('width="1e2mm" height=" 50 mm " viewBox="0,0,1000,500"', F(1)),
    ],
)
def test_true_size_comes_from_the_drawing_s_own_units(size, wide):
    assert read('<rect x="20" y="20" width="10" height="10"/>', size=size).width == wide


def test_a_size_with_unit_and_view_box_that_differ_in_the_fifth_figure_agree():
    size = 'width="210mm" height="297mm" viewBox="0 0 744.094 1052.362"'
    assert read('<rect width="744.094" height="1052.362"/>', size=size).width == 210


def test_a_circle_stays_a_circle_where_nothing_stretches_it():
    assert read('<circle cx="20" cy="20" r="5"/>').lines == (Ring((F(5), F(5)), F(5)),)
    assert read('<circle r="5" transform="rotate(30) scale(-2 2)"/>').lines == (Ring((F(10), F(10)), F(10)),)
    (run,) = read('<circle cx="20" cy="20" r="5" transform="scale(2 1)"/>').lines
    assert isinstance(run, StraightRun)
    assert max(x for x, _ in run.points) == 20
    assert all(abs(hypot(float(x) / 2 - 5, float(y) - 5) - 5) < 0.02 for x, y in run.points)


def chord_middles(given):
    return [((float(a) + float(c)) / 2, (float(b) + float(d)) / 2) for (a, b), (c, d) in itertools.pairwise(given)]


@pytest.mark.parametrize("radius", [2, 30, 1200])
def test_an_arc_of_any_radius_is_within_a_hundredth(radius):
    """Every point and the middle of every line between them, against the circle itself."""
    size = 'width="2500mm" height="2500mm" viewBox="0 0 2500 2500"'
    given = points(f'<path d="M0 {radius} A{radius} {radius} 0 0 1 {radius} 0"/>', size=size)
    assert given[0] == (0, 0)
    assert given[-1] == (radius, radius)
    for x, y in [*given, *chord_middles(given)]:
        assert abs(hypot(float(x) - radius, float(y)) - radius) < 0.01


def test_arcs_take_the_way_their_flags_say():
    """The four arcs of radius 5 from (0, 0) to (5, 5), by where the circle's centre lies."""
    boxes = {}
    for large in "01":
        for sweep in "01":
            outline = read(f'<path d="M40 20a5 5 0 {large}{sweep}5 5"/>')
            boxes[large + sweep] = (outline.width, outline.height)
    assert boxes == {"00": (5, 5), "01": (5, 5), "10": (10, 10), "11": (10, 10)}
    # Seen on the page, sweep 1 goes clockwise: over the upper right corner.
    corner = points('<path d="M40 20a5 5 0 0 1 5 5"/>')
    assert max(x + y for x, y in corner) > F(5) * F("1.4") > 5


def test_a_tilted_ellipse_and_radii_too_small_for_their_ends():
    tilted = read('<path d="M40 20 A10 5 30 1 1 40.001 20"/>')
    wide = 2 * hypot(10 * cos(radians(30)), 5 * sin(radians(30)))
    assert float(tilted.width) == pytest.approx(wide, abs=0.02)
    grown = read('<path d="M10 10 A1 1 0 0 1 30 10"/>')
    assert (grown.width, grown.height) == (20, 10)
    assert points('<path d="M10 10 A0 5 0 0 1 30 10"/>') == ((0, 0), (20, 0))
    assert points('<path d="M10 10 A5 5 0 0 1 10 10 L12 10"/>') == ((0, 0), (2, 0))


def bezier(corners, t):
    """A point of a curve by de Casteljau's way, another than the reader's."""
    while len(corners) > 1:
        corners = [((1 - t) * a + t * c, (1 - t) * b + t * d) for (a, b), (c, d) in itertools.pairwise(corners)]
    return corners[0]


def distance(spot, run):
    """From a point to the nearest straight line of a run."""
    best = 1e9
    for (x0, y0), (x1, y1) in itertools.pairwise(run):
        dx, dy = x1 - x0, y1 - y0
        t = max(0, min(1, ((spot[0] - x0) * dx + (spot[1] - y0) * dy) / (dx * dx + dy * dy)))
        best = min(best, hypot(spot[0] - x0 - t * dx, spot[1] - y0 - t * dy))
    return best


@pytest.mark.parametrize(
    ("data", "corners"),
    [
        ("C 10 40 60 -20 80 30", [(0, 0), (10, 40), (60, -20), (80, 30)]),
        ("c 10 40 60 -20 80 30", [(0, 0), (10, 40), (60, -20), (80, 30)]),
        ("Q 40 60 80 0", [(0, 0), (40, 60), (80, 0)]),
        ("S 60 -20 80 30", [(0, 0), (0, 0), (60, -20), (80, 30)]),
        ("T 80 30", [(0, 0), (80, 30)]),
    ],
)
def test_a_curve_is_within_a_hundredth(data, corners):
    run = [(float(x), -float(y)) for x, y in points(f'<path d="M0 0 {data}"/>')]
    curve = [bezier(corners, n / 400) for n in range(401)]
    left, top = min(x for x, _ in curve), max(y for _, y in curve)
    # The box begins at the curve's own left and lowest point.
    assert max(distance((x - left, y - top), run) for x, y in curve) < 0.012


def test_smooth_curves_go_on_from_the_last_handle_only_of_their_own_kind():
    smooth = points('<path d="M0 0 Q5 10 10 0 T20 0"/>')
    assert smooth == points('<path d="M0 0 Q5 10 10 0 Q15 -10 20 0"/>')
    assert points('<path d="M0 0 C0 5 10 5 10 0 S20 -5 20 0"/>') == points('<path d="M0 0 C0 5 10 5 10 0 C10 -5 20 -5 20 0"/>')
    assert {y for x, y in points('<path d="M0 0 Q5 10 10 0 L20 0 T30 0"/>') if x >= 20} == {F(5)}


def test_a_path_goes_on_from_where_it_closed():
    one, two = read('<path d="M0 0 h10 v10 z l-5 -5"/>').lines
    assert one.is_closed
    assert (two.is_closed, two.points) == (False, ((5, 10), (0, 15)))


def test_rounded_corners():
    outline = read('<rect width="20" height="10" rx="3"/>')
    assert (outline.width, outline.height) == (20, 10)
    (run,) = outline.lines
    corner = [(x, y) for x, y in run.points if x < 3 and y < 3]
    assert all(abs(hypot(float(x) - 3, float(y) - 3) - 3) < 0.01 for x, y in corner)
    assert len(corner) > 3


def test_turning_and_mirroring():
    outline = read('<path d="M0 0 L10 0 L10 4"/>')
    assert outline.lines[0].points == ((0, 4), (10, 4), (10, 0))
    turned = outline.turned(1)
    assert (turned.width, turned.height) == (4, 10)
    assert turned.lines[0].points == ((0, 0), (0, 10), (4, 10))
    assert outline.turned(4) == outline == outline.mirrored().mirrored() == outline.turned(3).turned(1)
    assert outline.mirrored().lines[0].points == ((10, 4), (0, 4), (0, 0))
    ring = read('<circle r="2"/><path d="M0 0 L10 0"/>').turned(1)
    assert ring.lines[0] == Ring((F(2), F(2)), F(2))
