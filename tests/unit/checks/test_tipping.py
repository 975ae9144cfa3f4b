"""Whether a piece would fall forward."""

from dataclasses import replace
from fractions import Fraction
from math import nextafter

import pytest

from joinlay.boards import Place, Whole
from joinlay.casework.assembly import Assembly
from joinlay.checks.conditions import Load, Stands
from joinlay.checks.tipping import CHILD, NEAR, Mass, PulledDrawer, Standing, check_tipping, standing
from joinlay.checks.weights import board_weight, drawer_load
from joinlay.findings import Harm
from joinlay.lengths import ZERO, Fine, mm
from joinlay.stock import density_of
from tests import by_hand
from tests.unit.checks.making import CONDITIONS, DATUM, SHOP, drawer, sheet, size

LIGHT = replace(CONDITIONS, load=Load(Fraction(0)))


def block(depth, height=900, width=600):
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
    assert pulled.out == pulled.reach == pytest.approx(float(made.length.mm) * 9 / 10)


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


def limit(pull, conditions, drawers=1):
    """The depths just deep enough and just too shallow for ``pull`` (of a piece) to come within a fifth of tipping, by
    halving.
    """
    row = [drawer(name=f"drawer {n + 1}") for n in range(drawers)]
    low, high = 60.0, 3000.0
    for _ in range(50):
        depth = (low + high) / 2
        at = pull(standing([block(Fraction(depth))], row, STOCKS, conditions))
        low, high = (low, depth) if at < NEAR else (depth, high)
    return Fraction(high), Fraction(low)


HEAVY = replace(CONDITIONS, load=Load(Fraction(6000)))


@pytest.mark.parametrize(
    ("pull", "conditions", "drawers"),
    [
        (lambda piece: piece.with_child, LIGHT, 1),
        (lambda piece: piece.all_full, HEAVY, 3),
        (lambda piece: piece.all_empty, LIGHT, 30),
    ],
    ids=["a child on one", "all full", "all empty"],
)
def test_each_of_the_three_is_a_limit(pull, conditions, drawers):
    """A block's moment grows with the square of its depth: to each there is one where just it comes within a fifth of tipping
    the piece.
    """
    enough, short = limit(pull, conditions, drawers)
    assert harms(enough, conditions, drawers) == [Harm.NOTE]
    assert harms(short, conditions, drawers) == [Harm.WARN]


def exact(*, child=0.0, empty=0.0, full=0.0):
    """A piece whose case holds back 10 000 kg mm, with one drawer that pulls with these shares of it, each in its own case."""
    return Standing(
        Mass(50, 200),
        (PulledDrawer(Mass(1, 100), Mass(1, 100), 100 + 10_000 * empty, 0.0),) if not child and not full else
        (PulledDrawer(Mass(1, 100), Mass(1, 100), 100, child * 10_000 / CHILD),) if child else
        (PulledDrawer(Mass(0, 100), Mass(1, 100), 100 + 10_000 * full, 0.0),),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("share", "falls", "is_near"), [(0.79, False, False), (0.8, False, True), (0.99, False, True), (1.0, True, True)]
)
def test_what_pulls_as_a_share_of_what_holds(share, falls, is_near):
    """Worked by hand: the case holds with 50 kg x 200 mm; what is pulled out pulls with ``share`` of that. At four fifths it
    is near.
    """
    for pull in (exact(child=share).with_child, exact(empty=share).all_empty, exact(full=share).all_full):
        assert pull == pytest.approx(share)
        assert (round(pull, 12) >= 1, round(pull, 12) >= NEAR) == (falls, is_near)


@pytest.mark.parametrize(("pull", "harm"), [(NEAR, Harm.WARN), (nextafter(NEAR, 0), Harm.NOTE), (1.0, Harm.WARN)])
@pytest.mark.parametrize("worst", ["all_full", "all_empty", "with_child"])
def test_a_fifth_short_of_tipping_is_itself_warned_of(monkeypatch, worst, pull, harm):
    for name in ("all_full", "all_empty", "with_child"):
        monkeypatch.setattr(Standing, name, pull if name == worst else 0.0)
    assert harms(900) == [harm]


def test_the_case_that_holds_nothing_falls():
    assert Standing(Mass(1, -5), (PulledDrawer(Mass(1, -5), Mass(1, 0), 10, 10),)).all_empty == float("inf")


def test_what_tips_it_is_said_and_how_far_out_and_how_many():
    def said(depth, conditions, drawers):
        row = [drawer(name=f"drawer {n}") for n in range(drawers)]
        (finding,) = check_tipping([block(depth)], row, STOCKS, SHOP, conditions)
        return finding.sentence(SHOP.rule.text)

    out = SHOP.rule.text(Fine(SHOP.rule.round(drawer().length * Fraction(9, 10))))
    assert f"it falls forward with its drawer {out} out and full" in said(300, HEAVY, 1)
    assert f"it falls forward with all 20 drawers {out} out, full or empty" in said(150, LIGHT, 20)
    assert "with only one so far out, empty, and a child's 27 kg on its front edge" in said(60, LIGHT, 3)
    assert "it stands with all 3 drawers" in said(900, LIGHT, 3)
    enough, short = limit(lambda piece: piece.with_child, LIGHT)
    assert "comes within a fifth of falling with it" in said(short, LIGHT, 1)
    assert "falls forward" not in said(enough, LIGHT, 1)


def small(height, kilograms, conditions=CONDITIONS):
    """What is found of a shallow case of ``height`` mm that weighs about so much with its drawer."""
    made = drawer(width=200, height=60, depth=90)
    own = sum(board_weight(one, STOCKS) for one in made.assembly.boards)
    density = float(density_of(STOCKS["case stock"]))
    depth = (kilograms - own) * 10**9 / density / (float(height) * 300)
    case = block(Fraction(depth), height=height, width=300)
    (finding,) = check_tipping([case], [made], STOCKS, SHOP, replace(conditions, load=Load(Fraction(10**6))))
    return finding


def test_a_piece_both_low_and_light_is_only_noted():
    """CK-5: lower than 27 in and lighter than 30 lb, both."""
    inch, pound = Fraction(254, 10), 0.45359237
    low = small(27 * inch - Fraction(1, 100), 30 * pound - 0.001)
    assert low.harm is Harm.NOTE
    assert "falls forward" in low.what
    assert "so this is only noted" in low.what
    for height, kilograms in ((27 * inch, 30 * pound - 0.001), (27 * inch - Fraction(1, 100), 30 * pound + 0.001)):
        assert small(height, kilograms).harm is Harm.WARN
        assert "only noted" not in small(height, kilograms).what


def test_the_remedy_helps():
    (warned,) = check_tipping([block(60)], [drawer()], STOCKS, SHOP, CONDITIONS)
    assert 'write stands = "anchored" under [use]' in warned.way_out(str)
    assert harms(60, replace(CONDITIONS, stands=Stands("anchored"))) == [Harm.NOTE]


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
    """Moments about the foot, worked by hand: the case 8000 kg mm, each drawer 200 x its weight, 300 x it less where it is
    out.
    """
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

    assert told(1)[0].endswith("on the front of one open drawer tips it.")
    assert " with all." in told(2)[0]
    assert "with two open" not in told(2)[0]
    said, numbers = told(5)
    assert (
        f"{numbers['one']} on the front of one open drawer tips it, {numbers['two']} with two open, {numbers['all']} with all."
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
