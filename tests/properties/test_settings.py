"""Laws of the settings, over boards and jobs nobody has thought of."""

from __future__ import annotations

from dataclasses import replace
from itertools import permutations
from math import ceil, floor

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from joinlay.boards import CutKind, Shape, Span, Surface
from joinlay.casework.corners import AT_BACK, AT_FRONT
from joinlay.casework.opening import BackHeight
from joinlay.findings import Harm, Refused
from joinlay.lengths import Fraction, Unit, dimension, mm
from joinlay.settings import Guide, ToolKind, settings_for
from joinlay.settings.ordering import MachineStand, best_order, cost_of
from joinlay.shop import Cutter, MachineKind, Shop, usual_shop
from tests import by_hand
from tests.assembly.cutting import cells, climbs, grid_of, taken_by_settings
from tests.unit.casework import drawers
from tests.unit.settings.wood import ACROSS, LEFT, RIGHT, SIDE

#: Yes or no; the kinds of cuts; where a board stands and what its sides are called.
YES_OR_NO = st.booleans()
KINDS = st.sampled_from(["groove", "dado", "end rabbet", "edge rabbet", "slot", "mortise", "hole"])
STANDINGS = st.sampled_from([(LEFT, SIDE), (RIGHT, SIDE), (None, ACROSS)])
#: The diameters a shop may have cutters of, and how far down they reach.
DIAMETERS = st.lists(st.sampled_from([3, 4, 6, 8, 10, 12, 18]), min_size=1, max_size=4, unique=True)
REACHES = st.sampled_from([10, 20, 35])
DADO_WIDTHS = st.sampled_from([(), (6, 10), (5,)])
CUTS_OF_A_BOARD = st.integers(1, 4)


def between(draw, low, high):
    """A size in twelfths of a millimetre: there are thirds in it, as sums and equal spacings give."""
    return Fraction(draw(st.integers(ceil(low * 12), floor(high * 12))), 12)


def millimetres(number):
    return dimension(mm(number))


def stretch(draw, size, least=Fraction(5, 2)):
    """A stretch inside 0 to ``size``, at least ``least`` long; it may reach either side or both."""
    start = between(draw, 0, size - least) if draw(YES_OR_NO) else Fraction(0)
    stop = between(draw, start + least, size) if draw(YES_OR_NO) else size
    return Span(millimetres(start), millimetres(stop))


def a_cut(draw, length, width, thick, name):
    """A cut as the joints make them, anywhere on the board."""
    through_across, through_along = Span(millimetres(0), millimetres(width)), Span(millimetres(0), millimetres(length))
    deep = between(draw, 1, thick / 2)
    far = draw(YES_OR_NO)
    into = Span(millimetres(thick - deep), millimetres(thick)) if far else Span(millimetres(0), millimetres(deep))
    face = Surface.FAR_FACE if far else Surface.FACE
    kind = draw(KINDS)
    along, across = stretch(draw, length), stretch(draw, width)
    if kind == "groove":
        low = between(draw, 1, width - 8)
        return by_hand.cut(
            CutKind.GROOVE,
            face,
            along,
            Span(millimetres(low), millimetres(low + between(draw, 2, 6))),
            into,
            name,
            joint="bottom",
        )
    if kind == "dado":
        near = between(draw, 1, length - 30)
        return by_hand.cut(
            CutKind.DADO,
            face,
            Span(millimetres(near), millimetres(near + between(draw, 2, 25))),
            across if draw(YES_OR_NO) else through_across,
            into,
            name,
            joint="corner",
        )
    if kind == "end rabbet":
        long = between(draw, 2, 15)
        at = Span(millimetres(length - long), millimetres(length)) if draw(YES_OR_NO) else Span(millimetres(0), millimetres(long))
        return by_hand.cut(CutKind.RABBET, face, at, through_across, into, name, joint="corner")
    if kind == "edge rabbet":
        wide = between(draw, 2, 15)
        return by_hand.cut(
            CutKind.RABBET,
            face,
            along if draw(YES_OR_NO) else through_along,
            Span(millimetres(width - wide), millimetres(width)),
            into,
            name,
        )
    low = between(draw, 2, thick / 2 - 1)
    thin = between(draw, 2, thick / 2)
    if kind == "slot":
        return by_hand.cut(
            CutKind.SLOT,
            Surface.END,
            Span(millimetres(0), millimetres(between(draw, 3, 20))),
            through_across,
            Span(millimetres(low), millimetres(low + thin)),
            name,
            joint="corner",
        )
    if kind == "mortise":
        return by_hand.cut(
            CutKind.MORTISE,
            Surface.END,
            Span(millimetres(0), millimetres(15)),
            stretch(draw, width, least=thin + 1),
            Span(millimetres(low), millimetres(low + thin)),
            name,
            joint="front",
            shape=Shape.ROUND_ENDS,
        )
    centre = between(draw, 4, min(length, width) - 4)
    about = Span.about(millimetres(centre), millimetres(5))
    return by_hand.cut(
        CutKind.HOLE, Surface.FACE, about, about, Span(millimetres(0), millimetres(thick)), name, shape=Shape.ROUND
    )


def a_board(draw, number):
    length, width = between(draw, 60, 1500), between(draw, 40, 600)
    thick = between(draw, 9, 25)
    place, datum = draw(STANDINGS)
    made = [a_cut(draw, length, width, thick, f"cut {n}") for n in range(draw(CUTS_OF_A_BOARD))]
    long, wide, deep = map(millimetres, (length, width, thick))
    return by_hand.board(f"board {number}", "part", "birch", long, wide, deep, datum, tuple(made), place=place)


@st.composite
def shops(draw):
    usual = usual_shop(Unit.MM)
    diameters = draw(DIAMETERS)
    owned = tuple(Cutter(millimetres(d), millimetres(draw(REACHES))) for d in sorted(diameters))
    saw = usual.machines.table_saw
    assert saw is not None
    widths = tuple(map(millimetres, draw(DADO_WIDTHS)))
    first = draw(st.permutations(usual.machines.first_choice))
    table = usual.machines.router_table if draw(YES_OR_NO) else None
    machines = replace(
        usual.machines,
        table_saw=replace(saw, dado_widths=widths),
        router_table=table,
        first_choice=tuple(first),
        has_mortiser=draw(YES_OR_NO),
    )
    return replace(usual, cutters=owned, machines=machines)


@st.composite
def boards(draw):
    """One board to three."""
    return tuple(a_board(draw, number) for number in range(draw(st.integers(1, 3))))


jobs = boards()


def box_of(cut):
    return tuple((span.start.mm, span.stop.mm) for span in (cut.along, cut.across, cut.into))


def refused_cuts(found):
    return {finding.where for finding in found.findings if finding.harm is Harm.REFUSE}


def assert_cut_exactly(given_boards, found):
    refused = refused_cuts(found)
    taken = taken_by_settings(found.settings, given_boards)
    for board in given_boards:
        wanted = [box_of(cut) for cut in board.cuts if f"{board.name}, {cut.name}" not in refused]
        grid = grid_of(wanted, taken[board.name])
        assert cells(wanted, grid) == cells(taken[board.name], grid)


@settings(max_examples=120)
@given(jobs, shops())
def test_boards_are_cut_by_their_settings_exactly(given_boards, shop):
    """What is on a card is cut exactly; what isn't is refused by name, and nothing else."""
    assert_cut_exactly(given_boards, settings_for(given_boards, shop))


@settings(max_examples=60)
@given(jobs, shops())
def test_every_card_keeps_to_the_rules(given_boards, shop: Shop):
    found = settings_for(given_boards, shop)
    owned = {cutter.diameter: cutter for cutter in shop.cutters}
    by_name = {board.name: board for board in given_boards}
    for number, setting in enumerate(found.settings, 1):
        assert setting.number == number
        if setting.tool.kind is ToolKind.CUTTER:  # MS-8, MS-4
            assert owned[setting.tool.width].reach >= setting.height
            most = min(setting.tool.width, shop.machines.limits.deepest_pass)
            steps = [setting.heights[0], *(b - a for a, b in zip(setting.heights, setting.heights[1:], strict=False))]
            assert all(step <= most for step in steps)
            assert setting.speed == 24_000
        # DA-5: away from the cutter only, but back towards a straightedge
        assert list(setting.fences) == sorted(setting.fences, reverse=setting.guide is Guide.STRAIGHTEDGE)
        if setting.machine is not MachineKind.BENCH:  # MS-6
            for work in setting.works:
                assert not any(climbs(setting, work, by_name[name], []) for name in work.boards)
    assert found.set_ups <= found.naive_set_ups
    assert all(first < then for first, then in found.first_then)


@settings(max_examples=40)
@given(jobs, shops(), st.randoms(use_true_random=False))
def test_the_cards_do_not_depend_on_the_order_of_the_boards(given_boards, shop, chance):
    shuffled = list(given_boards)
    chance.shuffle(shuffled)
    one, other = settings_for(given_boards, shop), settings_for(shuffled, shop)
    assert one == settings_for(given_boards, shop)
    assert (one.set_ups, one.cutter_changes, len(one.settings)) == (other.set_ups, other.cutter_changes, len(other.settings))


@st.composite
def drawer_jobs(draw):
    unit = draw(st.sampled_from(list(Unit)))
    metric = unit is Unit.MM
    width, height, depth = (
        draw(st.integers(low, high))
        for low, high in (((200, 700), (70, 250), (300, 600)) if metric else ((8, 30), (3, 10), (12, 24)))
    )
    shop = drawers.shop(unit, taper=draw(st.sampled_from(["0", "1/32"])))
    half = drawers.plywood("half", draw(st.sampled_from(["12", "11.7", "13"] if metric else ["1/2", "15/32", "0.472"])), unit)
    front = drawers.cherry(draw(st.sampled_from(["18", "19", "22"] if metric else ["3/4", "13/16"])), unit)
    make = drawers.usual_make(
        front=front, sides=half, back=half, bottom=drawers.plywood("bottom", "6" if metric else "1/4", unit),
        front_joint=draw(st.sampled_from(list(AT_FRONT.values()))), back_joint=draw(st.sampled_from(list(AT_BACK.values()))),
        back_height=draw(st.sampled_from(BackHeight)),
    )  # fmt: skip
    opening = drawers.opening(str(width), str(height), str(depth), unit)
    try:
        return drawers.drawer(opening=opening, make=make, shop=shop), shop
    except Refused:
        assume(False)
        raise


@settings(max_examples=60)
@given(drawer_jobs())
def test_planned_drawers_are_cut_by_their_settings_exactly(job):
    drawer, shop = job
    found = settings_for(drawer.assembly.boards, shop)
    assert_cut_exactly(drawer.assembly.boards, found)
    assert found.is_proved


states = st.tuples(*(st.integers(0, 2) for _ in range(3)))
steps = st.builds(
    lambda machine, begin, last, several, joints: MachineStand(
        machine, begin, (begin[0], *last) if several else begin, frozenset(joints)
    ),
    st.sampled_from(["router table", "mortiser"]),
    states,
    st.tuples(st.integers(0, 2), st.integers(0, 2)),
    st.booleans(),
    st.sets(st.sampled_from("abc"), max_size=2),
)


@settings(max_examples=60)
@given(st.lists(steps, min_size=1, max_size=6), st.data())
def test_the_order_is_as_good_as_any_there_is(found, data):
    """Compared with every order there is, of those in which what must come first does."""
    pairs = [(i, j) for j in range(len(found)) for i in range(j)]
    before = frozenset(data.draw(st.sets(st.sampled_from(pairs), max_size=4))) if pairs else frozenset()
    allowed = [order for order in permutations(range(len(found))) if all(order.index(i) < order.index(j) for i, j in before)]
    order, is_proved = best_order(found, before)
    assert is_proved
    assert order in allowed
    costs = {each: cost_of(found, each) for each in allowed}
    best = min(costs.values())
    assert costs[order] == best
    assert order == min(each for each in allowed if costs[each] == best)
