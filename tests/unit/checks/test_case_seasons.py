"""A solid case through the year, and the opening in it."""

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import CutKind, Place, Shape, Surface, Whole
from joinlay.boards.meeting import Tie
from joinlay.casework.assembly import Assembly
from joinlay.checks.case_seasons import check_case_seasons, check_damp_play, check_slots, frame_year
from joinlay.checks.seasons import check_seasons, year_of
from joinlay.findings import Harm
from joinlay.lengths import ZERO, Length, mm
from tests import by_hand
from tests.unit.checks.making import CONDITIONS, DATUM, SHOP, among, board, cut, drawer, met, sheet, shop_with, size, solid

ASH, MAPLE, PLY = solid("ash", 20), solid("maple", 20, "sugar maple"), sheet("ply", 18)
STOCKS = {stock.name: stock for stock in (ASH, MAPLE, PLY)}


def part(name, stock, width, of="case", kind=""):
    place = Place.at(ZERO, ZERO, ZERO, "+Z", "+Y", "+X")
    return by_hand.board(f"{of} {name}", kind or f"{of} {name}", stock.name, size(800), size(width), size(18), DATUM, place=place)


def case(sides=ASH, panels=ASH, back=PLY, depth=400):
    boards = (
        part("left side", sides, depth, kind="case side"), part("right side", sides, depth, kind="case side"),
        part("bottom", panels, depth), part("top", panels, depth), part("back", back, 500),
    )  # fmt: skip
    return (Assembly(Whole.CASE, boards),)


def found(others, drawers=()):
    return [(f.harm, f.where) for f in check_case_seasons(others, drawers, STOCKS, SHOP, CONDITIONS)]


def test_sheet_goods_and_openings_say_nothing():
    assert found(case(PLY, PLY), [drawer()]) == []
    assert found((), [drawer()]) == []


def test_a_case_of_one_wood_is_noted_with_what_is_behind_its_drawers():
    (finding,) = check_case_seasons(case(), [drawer()], STOCKS, SHOP, CONDITIONS)
    assert (finding.harm, finding.where) == (Harm.NOTE, "case")
    assert finding.numbers["gap"] == mm(12)


@pytest.mark.parametrize(("sides", "panels"), [(ASH, PLY), (PLY, ASH)])
def test_solid_glued_to_sheet_over_three_millimetres_is_warned_of(sides, panels):
    """The limit itself is sound: the depth at which the ash moves just 3 mm in the year."""
    moves = sum(year_of(ASH, mm(400), CONDITIONS), ZERO)
    limit = 400 * Fraction(3) / moves.mm
    warned = [where for harm, where in found(case(sides, panels, depth=limit + Fraction(1, 1000))) if harm is Harm.WARN]
    assert warned == ["case bottom", "case top"]
    assert [where for harm, where in found(case(sides, panels, depth=limit)) if harm is Harm.WARN] == []


def test_the_sides_are_told_where_to_leave_the_dado_dry():
    first = check_case_seasons(case(ASH, PLY), [], STOCKS, SHOP, CONDITIONS)[0]
    assert first.about == ("case bottom", "case left side", "case right side")
    assert first.few_words(str) == "glue its dadoes at the front only"


def test_a_solid_back_is_warned_of():
    assert (Harm.WARN, "case back") in found(case(back=ASH))
    assert (Harm.WARN, "case back") not in found(case(back=PLY))


def test_drawers_need_what_the_case_shrinks():
    """The gap behind the drawer is what the sides lose by the driest day, or a hair less."""
    shrinks, _ = year_of(ASH, mm(400), CONDITIONS)
    for gap, harm in ((shrinks, Harm.NOTE), (shrinks - mm("0.001"), Harm.WARN)):
        made = drawer(shop=shop_with(back_gap=gap.mm))
        (finding,) = check_case_seasons(case(), [made], STOCKS, SHOP, CONDITIONS)
        assert finding.harm is harm


def bearer(shorter=0):
    """A hole 40 mm from the front, and a slot for a screw 300 mm behind it; so much ``shorter`` at its back than the ash
    needs.
    """
    hole = cut(
        CutKind.HOLE,
        Surface.EDGE,
        (Fraction("37.75"), Fraction("42.25")),
        (0, 40),
        (5, Fraction("9.5")),
        "screw hole",
        shape=Shape.ROUND,
    )
    dry, damp = (share.mm for share in year_of(ASH, mm(300), CONDITIONS))
    half = Fraction("2.25")
    along = (340 - half - dry, 340 + half + damp - Fraction(shorter))
    slot = cut(CutKind.SLOT, Surface.EDGE, along, (0, 40), (5, Fraction("9.5")), "screw slot 1", shape=Shape.ROUND_ENDS)
    return board(hole, slot, name="runners drawer 1 left bearer", width=40)


def test_a_slot_is_as_long_as_the_side_moves():
    assert check_slots(bearer(), ASH, CONDITIONS) == ()
    (finding,) = check_slots(bearer("0.1"), ASH, CONDITIONS)
    assert finding.harm is Harm.WARN
    assert finding.numbers["lacks"] == mm("0.1")
    assert check_slots(board(), ASH, CONDITIONS) == ()


# -- the opening ---------------------------------------------------------------------------------------


def member(name, kind, wood, wide, at, *, upright):
    """A stick of the frame, 500 mm long, its lower left corner at ``at`` (X, Z)."""
    ways = ("+Z", "+X") if upright else ("+X", "+Z")
    place = Place.at(Length(Fraction(at[0])), ZERO, Length(Fraction(at[1])), *ways, "+Y")
    return by_hand.board(f"face frame {name}", kind, wood.name, size(500), size(wide), size(20), DATUM, place=place)


def frame(left=40, right=30, below=50, above=20, wood=ASH):
    """Round the usual drawer, whose opening is 500 by 150 mm; with a rail farther off that doesn't count."""
    sticks = (
        member("left stile", "stile", wood, left, (-left, -50), upright=True),
        member("right stile", "stile", wood, right, (500, -50), upright=True),
        member("bottom rail", "rail", wood, below, (0, -below), upright=False),
        member("rail", "rail", wood, above, (0, 150), upright=False),
        member("top rail", "rail", wood, 90, (0, 300), upright=False),
    )
    return (Assembly(Whole.FRAME, sticks),)


SPOKEN = ("face frame left stile", "face frame right stile", "face frame bottom rail", "face frame rail")


def year(frame_around, made=None, stocks=None):
    """Of the usual drawer, whose front clears the four members beside its opening and not the top rail, which is farther off."""
    made = made or drawer()
    sides = zip((Surface.END, Surface.FAR_END, Surface.EDGE, Surface.FAR_EDGE), SPOKEN, strict=True)
    beside = [met(made.front, surface, name, Tie.CLEARS, 1) for surface, name in sides]
    return frame_year(among(made, *beside), frame_around, stocks or STOCKS, CONDITIONS)


def test_an_opening_changes_by_half_of_each_member_beside_it():
    width, height = year(frame())
    assert width == year_of(ASH, mm((40 + 30) / Fraction(2)), CONDITIONS)
    assert height == year_of(ASH, mm((50 + 20) / Fraction(2)), CONDITIONS)
    assert year(frame(wood=PLY)) == ((ZERO, ZERO), (ZERO, ZERO))
    assert year(()) == ((ZERO, ZERO), (ZERO, ZERO))


def test_side_play_lasts_through_the_dampest_day_or_binds():
    """Solid sides of 12 mm and stiles of 40 and 30: the clearance that they just use up is the limit, and sound."""
    wood = solid("sides", 12)
    closing, _ = year(frame())
    swells = closing[1] + 2 * year_of(wood, mm(12), CONDITIONS)[1]
    for more, harms in ((ZERO, []), (mm("0.001"), [Harm.WARN])):
        made = drawer(sides=wood, shop=shop_with(side_clearance=(swells - more).mm / 2))
        assert [f.harm for f in check_damp_play(made, closing, SHOP, CONDITIONS)] == harms


def test_side_play_that_dry_air_makes_too_much_rattles():
    closing, _ = year(frame())
    limit = (5 - closing[0].mm) / 2
    for clearance, said in ((limit, False), (limit + Fraction(1, 1000), True)):
        made = drawer(shop=shop_with(side_clearance=clearance))
        assert bool(check_damp_play(made, closing, SHOP, CONDITIONS)) is said
    # What is loose to begin with is told elsewhere.
    assert check_damp_play(drawer(shop=shop_with(side_clearance="2.6")), closing, SHOP, CONDITIONS) == ()


def test_rails_that_swell_take_room_from_the_fronts():
    wood = solid("fronts", 20)
    made = drawer(front=wood, height=150, shop=shop_with(top_clearance=4))
    room = Length(mm(4).mm) - year_of(wood, made.board("front").width, CONDITIONS)[1]
    assert [f.harm for f in check_seasons(made, SHOP, CONDITIONS, room) if "front" in f.where and f.mark.startswith("top")] == [
        Harm.NOTE
    ]
    over = check_seasons(made, SHOP, CONDITIONS, room + mm("0.001"))
    assert [f.harm for f in over if f.mark.startswith("top")] == [Harm.WARN]


def test_a_wood_nobody_knows_is_left_alone():
    odd = replace(ASH, name="odd", species="no such wood")
    stocks = {**STOCKS, "odd": odd}
    assert check_case_seasons(case(odd, odd), [], stocks, SHOP, CONDITIONS) == ()
    assert year(frame(wood=odd), stocks=stocks)[0] == (ZERO, ZERO)
    assert check_damp_play(drawer(sides=replace(odd, nominal=size(12), measured=size(12))), (ZERO, ZERO), SHOP, CONDITIONS) == ()
