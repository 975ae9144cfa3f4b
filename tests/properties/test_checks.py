"""Findings never contradict the plan: what is said to clear does clear in the solids, and sound joints raise no alarm."""

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from manifold3d import Manifold

from joinlay.boards import CutKind, DrawerRole, Shape, Surface
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.casework.drawer import plan_drawer
from joinlay.casework.opening import BackHeight, DrawerMake, Opening
from joinlay.checks.clashes import check_clashes, wood_between
from joinlay.checks.everything import check_board, find_everything
from joinlay.checks.fit import Stack
from joinlay.checks.play import check_play, side_play
from joinlay.checks.racking import jamming_length, pull_over_friction
from joinlay.checks.solids import solids_of
from joinlay.findings import Harm, Refused
from joinlay.lengths import ZERO, Fraction, Length, dimension, mm
from tests.drawn import fractions
from tests.unit.checks.making import CONDITIONS, PRACTICE, SHOP, board, cut, drawer, sheet, shop_with, size

tenths = st.integers(0, 40).map(lambda n: Fraction(n, 10))
out_shares = fractions(0, 1, max_denominator=20)


@st.composite
def makes(draw):
    sides = sheet("sides", draw(st.sampled_from(["12", "12.7", "15", "11.6"])))
    back = sheet("back", draw(st.sampled_from(["12", "11.6", "15"])))
    return DrawerMake(
        front=sheet("front", draw(st.sampled_from(["18", "19.05", "20", "17.4"]))),
        sides=sides,
        back=back,
        bottom=sheet("bottom", draw(st.sampled_from(["4", "6", "5.5"]))),
        front_joint=draw(st.sampled_from(list(AT_FRONT.values()))),
        back_joint=draw(st.sampled_from(list(AT_BACK.values()))),
        back_height=draw(st.sampled_from(list(BackHeight))),
    )


def planned(make, shop, width=400, height=150, depth=400):
    try:
        return plan_drawer(DrawerRole(1), Opening(size(width), size(height), size(depth)), make, shop)
    except Refused:
        assume(False)
        raise


def stiles(opening, thickness):
    """What stands left and right of an opening at the face of the frame, in mm."""
    reach, high = 50.0, float(opening.height.mm)
    left = Manifold.cube((reach, thickness, high)).translate((-reach, 0.0, 0.0))
    return left, left.translate((reach + float(opening.width.mm), 0.0, 0.0))


@settings(max_examples=25)
@given(makes(), st.integers(2, 40).map(lambda n: Fraction(n, 10)), tenths, out_shares)
def test_side_play_is_what_the_placed_sides_leave(make, clearance, taper, share):
    """DR-6, exactly: the sides' outer faces at the face of the frame, with the drawer so far out."""
    made = planned(make, shop_with(side_clearance=clearance, taper=min(taper, Fraction(3))))
    left, right = made.board("left side"), made.board("right side")
    assert left.place is not None
    assert right.place is not None
    out = made.length * share
    along = out - Length(left.place.origin[1])
    assume(along.mm >= 0)
    outer = [side.place.point(along, ZERO, side.thickness)[0] for side in (left, right)]
    assert side_play(made, out).mm == made.opening.width.mm - (outer[1] - outer[0])


@settings(max_examples=15)
@given(makes(), st.integers(2, 40).map(lambda n: Fraction(n, 10)), st.integers(0, 10).map(lambda n: Fraction(n, 10)), out_shares)
def test_side_play_is_what_the_solids_leave(make, clearance, taper, share):
    """The gaps at both stiles together; a leaning side is held square by its joint, so its solid may part from its place by a
    little.
    """
    made = planned(make, shop_with(side_clearance=clearance, taper=taper))
    out = made.length * min(share, Fraction(99, 100))
    beside = [made.board(part) for part in ("front", "left side", "right side")]
    pulled = [body.moved(0.0, -float(out.mm), 0.0).wood for body in solids_of(beside)]
    gaps = [min(stile.min_gap(wood, 10.0) for wood in pulled) for stile in stiles(made.opening, 1e-4)]
    bent = float(taper) * 2 * 25 / float(beside[1].length.mm)
    assert sum(gaps) == pytest.approx(float(side_play(made, out).mm), abs=1e-5 + bent)


@settings(max_examples=40)
@given(
    st.integers(-10, 40).map(lambda n: Fraction(n, 10)), st.integers(-30, 30).map(lambda n: Fraction(n, 10)), out_shares,
)  # fmt: skip
def test_a_drawer_that_is_not_refused_passes_on_all_its_way(clearance, taper, share):
    try:
        made = drawer(shop=shop_with(side_clearance=clearance, taper=taper))
    except Refused:
        assume(False)
        raise
    refused = any(finding.harm is Harm.REFUSE for finding in check_play(made, SHOP))
    if not refused:
        assert side_play(made, made.length * share) >= ZERO


@st.composite
def boxes(draw, kinds=(CutKind.MORTISE, CutKind.HOLE, CutKind.GROOVE, CutKind.DADO, CutKind.RABBET)):
    def span(most):
        start = draw(st.integers(0, most - 2))
        return start, draw(st.integers(start + 1, most))

    kind = draw(st.sampled_from(kinds))
    surface = draw(st.sampled_from([Surface.FACE, Surface.FAR_FACE]))
    deep = draw(st.integers(1, 12))
    into = (0, deep) if surface is Surface.FACE else (18 - deep, 18)
    return cut(kind, surface, span(60), span(40), into, "cut", shape=Shape.SQUARE)


def solid(one):
    spans = (one.along, one.across, one.into)
    low = tuple(float(span.start.mm) for span in spans)
    return Manifold.cube(tuple(float(span.size.mm) for span in spans)).translate(low)


@settings(max_examples=60)
@given(boxes(), boxes())
def test_wood_between_two_cuts_is_the_gap_of_their_solids(one, other):
    between = float(wood_between(one, other).mm)
    gap = solid(one).min_gap(solid(other), 100.0)
    assert gap - 0.0011 <= between <= gap + 1e-6


@settings(max_examples=60)
@given(boxes(kinds=(CutKind.MORTISE,)), boxes())
def test_a_pair_with_a_mortise_that_raises_nothing_has_its_wood(one, other):
    found = check_clashes(board(one, other), PRACTICE)
    gap = solid(one).min_gap(solid(other), 100.0)
    clearance = float(PRACTICE.length("keep-out clearance").mm)
    assert bool(found) == (gap < clearance - 1e-6)
    assert any(finding.harm is Harm.REFUSE for finding in found) == (gap < 1e-9)


@settings(max_examples=60)
@given(makes(), st.integers(70, 260), st.integers(200, 900))
def test_what_the_joints_let_pass_the_checks_let_pass(make, height, width):
    """No clash, thin wood or cutter out of reach in any drawer that the joints didn't refuse."""
    made = planned(make, SHOP, width=width, height=height)
    assert [finding for one in made.assembly.boards for finding in check_board(one, SHOP)] == []


@settings(max_examples=20)
@given(makes(), st.integers(70, 260), st.integers(200, 900), st.integers(1, 6))
def test_findings_are_the_same_every_time_and_sorted(make, height, width, count):
    bank = [planned(make, SHOP, width=width, height=height)] * count
    stocks = {stock.name: stock for stock in (make.front, make.sides, make.back, make.bottom)}
    found = find_everything(bank, (), stocks, SHOP, CONDITIONS)
    assert found == find_everything(bank, (), stocks, SHOP, CONDITIONS)
    assert [finding.harm for finding in found] == sorted(finding.harm for finding in found)
    for finding in found:
        assert finding.sentence(SHOP.rule.text)
        finding.way_out(SHOP.rule.text)


@given(st.lists(tenths, max_size=8), tenths)
def test_the_likely_lies_within_the_worst(strays, clearance):
    stack = Stack(dimension(mm(clearance)), tuple((f"size {n}", Length(stray)) for n, stray in enumerate(strays)))
    assert max(strays, default=Fraction(0)) <= stack.likely.mm <= stack.at_worst.mm + Fraction(1, 1000)
    assert stack.least_at_worst <= stack.clearance <= stack.most_at_worst


@given(st.integers(0, 500), st.integers(1, 1000), fractions(0, 1, max_denominator=50))
def test_it_jams_exactly_where_no_pull_moves_it(offset, inside, friction):
    pull = pull_over_friction(mm(offset), mm(inside), friction)
    assert (pull is None) == (mm(inside) <= jamming_length(mm(offset), friction))
    if pull is not None:
        assert pull >= 1
