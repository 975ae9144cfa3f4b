"""Whether a piece would fall forward."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import Place, Whole
from joinlay.casework.assembly import Assembly
from joinlay.checks.conditions import Load, Stands
from joinlay.checks.tipping import CHILD, Mass, PulledDrawer, Standing, check_tipping, standing
from joinlay.checks.weights import board_weight, drawer_load
from joinlay.findings import Harm
from joinlay.lengths import ZERO, mm
from tests import by_hand
from tests.unit.checks.making import CONDITIONS, DATUM, SHOP, drawer, sheet, size

LIGHT = replace(CONDITIONS, load=Load(Fraction(0)))


def block(depth, thickness=18, height=900, width=600):
    """A case as one solid block: ``depth`` from front to back at the floor, its front at the frame's face."""
    made = by_hand.board(
        "case", "case", "case stock", size(height), size(depth), size(width), DATUM,
        place=Place.at(ZERO, ZERO, ZERO, "+Z", "+Y", "+X"),
    )  # fmt: skip
    return Assembly(Whole.CASE, (made,))


STOCKS = {"case stock": sheet("case stock", 18)}


def test_moments_are_about_the_front_foot():
    """20 kg 300 mm behind it, a 5 kg drawer at 200 mm that comes 300 mm out with its 10 kg."""
    piece = Standing(Mass(20, 300), (PulledDrawer(Mass(5, 200), Mass(10, 220), 300, 320),))
    assert piece.moment() == 6000 + 1000
    assert piece.moment(out={0}) == 6000 - 500
    assert piece.moment(full={0}) == 7000 + 2200
    assert piece.moment(out={0}, full={0}) == 6000 - 500 - 800
    assert piece.tipping_load({0}) == piece.least_load(1) == 5500 / 320
    assert piece.kilograms == 25


def test_what_falls_by_itself_takes_no_load():
    assert Standing(Mass(1, 100), (PulledDrawer(Mass(5, 200), Mass(10, 220), 300, 320),)).tipping_load({0}) == 0


def test_the_masses_are_those_of_the_boards():
    made = drawer()
    piece = standing([block(400)], [made], STOCKS, CONDITIONS)
    assert piece.case.kilograms == pytest.approx(620 * 0.9 * 0.4 * 0.6)
    assert piece.case.behind == pytest.approx(200)
    (pulled,) = piece.drawers
    assert pulled.empty.kilograms == pytest.approx(sum(board_weight(one, STOCKS) for one in made.assembly.boards))
    assert 0 < pulled.empty.behind < float(made.length.mm)
    assert pulled.load.kilograms == drawer_load(made, CONDITIONS)
    assert pulled.out == pulled.reach == pytest.approx(float(made.length.mm) * 2 / 3)


def harms(depth, conditions=CONDITIONS, drawers=1, stocks=STOCKS):
    row = [drawer(name=f"drawer {n + 1}") for n in range(drawers)]
    return [finding.harm for finding in check_tipping([block(depth)], row, stocks, SHOP, conditions)]


def test_without_a_case_there_is_nothing_that_stands():
    assert check_tipping([], [drawer()], STOCKS, SHOP, CONDITIONS) == ()
    assert check_tipping([block(400)], [], STOCKS, SHOP, CONDITIONS) == ()


def test_the_caution_to_anchor_always_stands():
    for depth in (100, 900):
        (finding,) = check_tipping([block(depth)], [drawer()], STOCKS, SHOP, CONDITIONS)
        assert "Anchor it" in finding.way_out(str)
        assert "no test to ASTM F2057 or EN 14749" in finding.way_out(str)


def test_a_deep_heavy_case_stands_and_a_shallow_one_falls():
    assert harms(900) == [Harm.NOTE]
    assert harms(60) == [Harm.WARN]


def test_the_child_on_the_drawer_is_the_limit():
    """A block's moment grows with the square of its depth: bisect to the depth where just a child's weight tips it."""
    low, high = 60.0, 900.0
    for _ in range(40):
        depth = (low + high) / 2
        made = drawer()
        load = standing([block(Fraction(depth))], [made], STOCKS, LIGHT).least_load(1)
        low, high = (low, depth) if load >= CHILD else (depth, high)
    assert harms(Fraction(high), LIGHT) == [Harm.NOTE]
    assert harms(Fraction(low), LIGHT) == [Harm.WARN]


def test_what_tips_it_is_said():
    def said(depth, conditions, drawers):
        row = [drawer(name=f"drawer {n}") for n in range(drawers)]
        (finding,) = check_tipping([block(depth)], row, STOCKS, SHOP, conditions)
        return finding.what

    assert "one full drawer" in said(60, replace(CONDITIONS, load=Load(Fraction(5000))), 1)
    assert "all its empty drawers" in said(150, LIGHT, 20)
    assert "hangs on the front of one open drawer" in said(150, LIGHT, 1)
    assert "to tip it" in said(900, LIGHT, 1)


def test_an_anchored_piece_is_only_noted():
    assert harms(60, replace(CONDITIONS, stands=Stands.ANCHORED)) == [Harm.NOTE]


@pytest.mark.parametrize("shift", [0, 250])
def test_where_the_piece_stands_makes_no_difference(shift):
    case, made = block(400), drawer()
    boards = tuple(board.moved(mm(shift), mm(shift), mm(shift)) for board in case.boards)
    moved = replace(case, boards=boards)
    there = standing([moved], [made.moved(mm(shift), mm(shift), mm(shift))], STOCKS, CONDITIONS)
    here = standing([case], [made], STOCKS, CONDITIONS)
    assert there.moment(out={0}, full={0}) == pytest.approx(here.moment(out={0}, full={0}))


def three(*kilograms):
    drawers = tuple(PulledDrawer(Mass(heavy, 200), Mass(10, 220), 300, 320) for heavy in kilograms)
    return Standing(Mass(40, 200), drawers)


def test_of_two_or_more_drawers_those_that_hold_it_back_least_count():
    """Moments about the foot, worked by hand: the case 8000 kg mm, each drawer 200 x its weight, 300 x it less where it is out."""
    piece = three(5, 9, 7)
    shut = 8000 + 200 * (5 + 9 + 7)
    assert piece.least_load(1) == (shut - 300 * 9) / 320
    assert piece.least_load(2) == (shut - 300 * (9 + 7)) / 320
    assert piece.least_load(3) == (shut - 300 * (9 + 7 + 5)) / 320
    assert three(50, 50, 50).least_load(3) == 0


def test_one_two_and_all_drawers_out_are_told():
    def told(count, depth=900):
        row = [drawer(name=f"drawer {n}") for n in range(count)]
        (finding,) = check_tipping([block(depth)], row, STOCKS, SHOP, LIGHT)
        return finding.sentence(str), finding.numbers

    assert told(1)[0].endswith("of one open drawer to tip it.")
    assert " with all." in told(2)[0]
    assert "with two open" not in told(2)[0]
    said, numbers = told(5)
    assert (
        f"{numbers['one']} on the front of one open drawer to tip it, {numbers['two']} with two open, {numbers['all']} with all."
        in said
    )
    kilograms = [float(str(numbers[key]).split()[0]) for key in ("one", "two", "all")]
    assert kilograms == sorted(kilograms, reverse=True)


def test_feet_set_back_bring_the_fall_nearer():
    made = drawer()
    firm = standing([block(400)], [made], STOCKS, LIGHT)
    back = standing([block(400)], [made], STOCKS, replace(LIGHT, feet_back=mm(50)))
    assert back.case.behind == pytest.approx(firm.case.behind - 50)
    assert back.drawers[0].reach == pytest.approx(firm.drawers[0].reach + 50)
    assert back.least_load(1) < firm.least_load(1)


def test_what_is_built_in_cannot_fall():
    assert check_tipping([block(60)], [drawer()], STOCKS, SHOP, replace(CONDITIONS, stands=Stands.BUILT_IN)) == ()
