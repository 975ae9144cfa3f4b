"""Findings on paper and each drawer's way out: nothing missing, no word on another, the figures those of the checks."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import DrawerRole
from joinlay.checks.conditions import weight
from joinlay.checks.play import OUT, droop, side_play
from joinlay.checks.weights import weigh
from joinlay.findings import Finding, Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import ZERO, Length
from joinlay.pages.drawer_charts import chart_block, drawers_named, ways_out, worst_ways
from joinlay.pages.finding_sheets import finding_sheets, harm_count, worst_findings
from joinlay.paper import PAPERS
from joinlay.pen.marks import Arc, Fill, Polyline, Role, Text, bounds_of
from tests.measured.collisions import collisions
from tests.measured.packets import example, examples
from tests.unit.jobs.jobs import GOOD

SIZES = pytest.mark.parametrize("paper", [PAPERS["a4"], PAPERS["letter"]])
#: Wide and deep, on a thin bottom, tight: much to warn of.
WILD = GOOD.replace('"18 3/8"', '"44"').replace('"4 1/4"', '"9"').replace('"20"', '"30"')


def planned(text=GOOD):
    return plan(read_job(text, "chest.toml"))


def said(sheets):
    return " ".join(stroke.plain for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text))


@SIZES
@pytest.mark.parametrize("name", examples())
def test_no_word_lies_on_another_or_off_the_page(name, paper):
    for sheet in finding_sheets(example(name), paper):
        assert collisions(sheet.strokes) == []
        left, bottom, right, top = bounds_of(sheet.strokes)
        low_x, low_y, high_x, high_y = paper.printable
        assert low_x <= left
        assert low_y <= bottom
        assert right <= high_x
        assert top <= high_y


@SIZES
def test_every_finding_is_told_whole_with_its_way_out(paper):
    worked_out = planned(WILD)
    assert worked_out.findings[0].harm is Harm.WARN
    words = said(finding_sheets(worked_out, paper))
    for finding in worked_out.findings:
        for text in (finding.where, finding.sentence(worked_out.rule.text), finding.way_out(worked_out.rule.text), finding.rule):
            assert text[1:] in words
    assert words.startswith("Seed chest: 3 warnings, ")
    assert "Reckoned with" in words
    assert "the usual figure" in words
    assert "What they weigh, about" in words
    (weighed,) = weigh(worked_out.drawers, worked_out.conditions)
    assert f"{weight(weighed.empty, worked_out.rule)} empty" in words


def test_what_is_refused_has_the_heavy_bar():
    def bars(harm):
        one = Finding("clash", harm, "drawer 1 front", "Two cuts meet.", rule="CK-7")
        (sheet,) = finding_sheets(replace(planned(), findings=(one,), drawers=()), PAPERS["a4"])
        return [right - left for left, _, right, _ in (bounds_of((s,)) for s in sheet.strokes if isinstance(s, Fill))]

    assert bars(Harm.REFUSE) == [Fraction(3, 2)]
    assert bars(Harm.WARN) == [Fraction(1, 2)]
    assert bars(Harm.NOTE) == []


def test_a_plan_with_nothing_to_say():
    bare = replace(planned(), findings=(), drawers=())
    assert harm_count(bare) == "nothing to remark"
    assert "Seed chest: nothing to remark" in said(finding_sheets(bare, PAPERS["a4"]))


# -- in short ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("size", [(180, 80), (120, 60), (90, 40), (180, 14)])
@pytest.mark.parametrize("text", [GOOD, WILD])
def test_the_worst_in_short_stay_in_their_box(size, text):
    box = (Fraction(15), Fraction(30), Fraction(15 + size[0]), Fraction(30 + size[1]))
    worked_out = planned(text)
    strokes = worst_findings(worked_out, box)
    assert collisions(strokes) == []
    left, bottom, right, top = bounds_of(strokes)
    assert left >= box[0]
    assert bottom >= box[1]
    assert right <= box[2]
    assert top <= box[3]
    words = [stroke.plain for stroke in strokes if isinstance(stroke, Text)]
    assert words[:2] == ["Findings", harm_count(worked_out)]


ROOMY = (Fraction(0), Fraction(0), Fraction(180), Fraction(120))


def short(worked_out, **how):
    return [stroke.plain for stroke in worst_findings(worked_out, ROOMY, **how) if isinstance(stroke, Text)]


def test_what_is_warned_of_stands_first_in_short_with_its_number():
    worked_out = planned(WILD)
    words = short(worked_out)
    bad = [finding for finding in worked_out.findings if finding.harm is Harm.WARN]
    heads = [word for word in words if word[0].isdigit() and " drawer" in word and "." not in word]
    assert heads == [f"{n} {finding.where}" for n, finding in enumerate(bad, start=1)]
    assert bad[0].sentence(worked_out.rule.text).split(". ")[0] in " ".join(words)
    assert f"2 {bad[1].where}" not in short(worked_out, most=1)


def test_what_is_refused_is_called_so():
    one = Finding("clash", Harm.REFUSE, "drawer 1 front", "Two cuts meet.", rule="CK-7")
    assert "1 REFUSED: drawer 1 front" in short(replace(planned(), findings=(one,)))


def test_what_is_good_to_know_is_named_by_kind_and_number():
    worked_out = planned()
    words = " ".join(short(worked_out))
    assert "Good to know: " in words
    for number, finding in enumerate(worked_out.findings, start=1):
        assert finding.harm is not Harm.NOTE or f"{finding.kind} {number}" in words


def test_the_caution_against_tipping_is_always_told_whole():
    worked_out = example("print-chest")
    assert "Anchor it to the wall whatever the figures say: children climb drawers." in " ".join(short(worked_out))


# -- the way out -------------------------------------------------------------------------------------


def test_drawers_that_come_out_alike_share_a_picture():
    ways = ways_out(example("print-chest"))
    assert sum(len(way.drawers) for way in ways) == len(example("print-chest").drawers)
    assert len({way.drawers for way in ways}) == len(ways) < len(example("print-chest").drawers)


def test_the_rings_on_the_curves_are_what_the_checks_say():
    worked_out = planned()
    (way,) = ways_out(worked_out)
    drawer = worked_out.drawers[0]
    out = Length((drawer.length * OUT).mm)
    assert way.play(out) == side_play(drawer, out)
    assert way.droop(out) == droop(way.gap, drawer.length, out)
    block = chart_block(way, worked_out.rule, Fraction(180))
    heights = [ring.centre[1] for ring in block.strokes if isinstance(ring, Arc)]
    # Both stand on one scale from the axis, which is where nothing is.
    floor = min(stroke.points[1][1] for stroke in block.strokes if hasattr(stroke, "points") and len(stroke.points) == 3)
    assert (heights[0] - floor) / (heights[1] - floor) == way.play(out) / way.droop(out)


def bars_of(block):
    """The box of every bar under the curves: they are drawn open, in the frame's line."""
    return [bounds_of((bar,)) for bar in block.strokes if isinstance(bar, Polyline) and bar.closed and bar.role is Role.FRAME]


def test_where_it_jams_is_as_long_as_its_bar():
    worked_out = planned(GOOD.replace('"18 3/8"', '"30"'))
    (way,) = ways_out(worked_out)
    block = chart_block(way, worked_out.rule, Fraction(180))
    lengths = [right - left for left, _, right, _ in bars_of(block)]
    assert len(lengths) == len(way.jams()) + 1 == 4
    whole = Length(way.first.length.mm)
    assert [bar / lengths[-1] for bar in lengths[:-1]] == [comes / whole for _, comes in way.jams()]
    assert [state for state, _ in way.jams()] == ["waxed", "planed", "rough"]
    words = " ".join(stroke.plain for stroke in block.strokes if isinstance(stroke, Text))
    assert "never jams" in words
    assert words.count("jams at") == 3


def test_drawers_are_named_together_by_their_numbers_and_titles():
    first, second, third = (DrawerRole(n) for n in (1, 2, 3))
    socks = DrawerRole(4, "socks")
    assert drawers_named([first]) == "drawer 1"
    assert drawers_named([socks]) == "drawer socks"
    assert drawers_named([first, second, third]) == "drawers 1 to 3"
    assert drawers_named([first, third, socks]) == "drawers 1 and 3, socks"


def test_of_many_ways_out_only_the_worst_are_drawn():
    more = "".join(f'\n[[drawer]]\nopening = {{ width = "{wide}", height = "4", depth = "20" }}\n' for wide in range(25, 34))
    worked_out = planned(GOOD + more)
    ways = ways_out(worked_out)
    assert len(ways) == 10
    kept = worst_ways(ways, 6)
    # The widest are pulled farthest from their middle, and so jam soonest.
    assert [[drawer.name for drawer in way.drawers] for way in kept] == [[f"drawer {n}"] for n in range(5, 11)]
    assert worst_ways(ways, 10) == ways
    words = said(finding_sheets(worked_out, PAPERS["a4"]))
    assert "Of 10 ways to come out, the 6 that jam soonest or droop most" in words
    assert "drawer 10: on the way out" in words
    assert "drawer 1: on the way out" not in words


@pytest.mark.parametrize(
    "extra", ['side-clearance = "0"\ntop-clearance = "0"', 'taper = "-1/16"', 'taper = "1/4"', 'side-height = "2"']
)
def test_drawers_without_play_or_with_much_of_it_have_their_picture_too(extra):
    (way,) = ways_out(planned(GOOD.replace('bottom = "thin"', f'bottom = "thin"\n{extra}')))
    block = chart_block(way, planned().rule, Fraction(180))
    assert collisions(block.strokes) == []
    left, bottom, right, top = bounds_of(block.strokes)
    assert left >= 0
    assert right <= 180
    assert bottom >= -block.height
    assert top <= 0


def test_a_drawer_pulled_in_its_middle_has_one_bar():
    (way,) = ways_out(planned())
    assert way.offset == ZERO
    assert way.jams() == ()
    assert len(bars_of(chart_block(way, planned().rule, Fraction(170)))) == 1
