"""Setup gauges: paper steps exactly as wide and as high as what is set."""

from fractions import Fraction

import pytest

from joinlay.documents.pdf import sheets_pdf
from joinlay.lengths import Unit, inches
from joinlay.pages import lay_out
from joinlay.pages.gauges import fence_steps, gauge_templates
from joinlay.paper import paper_named
from joinlay.pen.marks import Polyline
from joinlay.settings import settings_for
from joinlay.shop import usual_shop
from tests.measured.collisions import collisions
from tests.measured.reading import strokes_of
from tests.unit.pages.test_setting_sheets import KINDS
from tests.unit.settings.wood import board, dado

SHOP = usual_shop(Unit.INCH)


def gauges_of(*names):
    return gauge_templates(settings_for([KINDS[name] for name in names], SHOP).settings, SHOP.rule)


def stairs(template):
    """For each part of a gauge, how far each step stands out from its straight edge, from the tip to the handle."""
    found = {}
    for stroke in template.strokes:
        if isinstance(stroke, Polyline):
            edge = stroke.points[0][0]
            tread = [x - edge for x, y in stroke.points[3:-1]]
            found[stroke.says] = tread[::-2]
    return found


@pytest.mark.parametrize(
    ("name", "fences", "heights"),
    [
        ("dado", ["1/4"], ["1/4"]),
        ("slot", ["1/4"], ["1/4", "1/2"]),
        ("back rabbet", ["9/32"], ["1/4", "3/8"]),
        ("stopped groove", ["3/8", "27/64"], ["3/16", "1/4"]),
        ("dado with a straightedge", ["2 5/8"], []),
        ("long groove", ["3/8"], []),
    ],
)
def test_a_step_for_every_distance(name, fences, heights):
    (gauge,) = gauges_of(name)
    found = stairs(gauge)
    assert found["fence gauge"] == [inches(text).mm for text in fences]
    assert found.get("height gauge", []) == [inches(text).mm for text in heights]
    assert collisions(gauge.strokes) == []
    assert gauge.title == f"card 1, gauge for the {KINDS[name].cuts[0].name} in {KINDS[name].part}"


def test_what_is_marked_and_not_set_has_no_gauge():
    assert gauges_of("hole") == ()


def test_paper_longer_than_a_hand_is_left_to_the_rule():
    (card,) = settings_for([dado(board("30", "9", "3/4"), "7", "3/4", "1/4")], SHOP).settings
    assert fence_steps(card) == ()
    (gauge,) = gauge_templates([card], SHOP.rule)
    assert list(stairs(gauge)) == ["height gauge"]


def test_printed_and_read_back_the_steps_are_true():
    sheets = lay_out(gauges_of("slot"), paper_named("a4"), title="Chest", file="chest.toml", unit=Unit.INCH)
    strokes = strokes_of(sheets_pdf(sheets, title="Chest"))
    riser = float(inches("1/8").mm) + 10  # half the cutter and 10 mm
    edge = 26 + 2 * riser  # the handle and two risers
    told = []
    for x0, y0, x1, y1 in strokes:
        if abs(max(abs(x1 - x0), abs(y1 - y0)) - edge) < 0.001:
            # From the straight edge to each riser beside it, whichever way the gauge was laid.
            upright = abs(x1 - x0) < 0.001
            walls = [wall for wall in strokes if abs(max(abs(wall[2] - wall[0]), abs(wall[3] - wall[1])) - riser) < 0.001]
            told += [
                abs(wall[0] - x0) if upright else abs(wall[1] - y0)
                for wall in walls
                if (abs(wall[2] - wall[0]) < 0.001) is upright
            ]
    for text in ("1/4", "1/2"):
        assert any(abs(size - float(inches(text).mm)) < 0.001 for size in told), text


def test_the_handle_keeps_clear_of_the_cutter():
    (gauge,) = gauges_of("dado with a straightedge")
    (stair,) = (stroke for stroke in gauge.strokes if isinstance(stroke, Polyline))
    ys = sorted({y for _, y in stair.points})
    assert ys[-1] - ys[-2] > inches("3/4").mm / 2 + Fraction(5)
