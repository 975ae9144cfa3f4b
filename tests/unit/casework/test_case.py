"""The case (CA-1, RA-1)."""

import pytest

from joinlay.boards import PartKind
from joinlay.boards.meeting import Tie
from joinlay.casework.bay import DrawerWish
from joinlay.casework.case_sizes import CaseMake
from joinlay.casework.face_frame import FrameMake
from joinlay.casework.graduation import Equal
from joinlay.casework.piece import Bank, plan_piece
from joinlay.findings import Refused
from joinlay.lengths import inches
from tests.assembly.pieces import drawer_make, ply, shop, size, solid, spec, tried, way_out

SHOP = shop()


def case(own=SHOP, **changed):
    return plan_piece(spec(own, **changed), own).case


def made_of(sides="3/4", **changed):
    return CaseMake(ply(sides), ply("3/4"), ply("1/4"), **changed)


def test_the_inside_is_the_outside_less_the_sides():
    made = case()
    assert (made.sizes.width, made.sizes.inside_width) == (inches(24), inches("22 1/2"))
    bottom = made.assembly.board("bottom")
    dado = made.assembly.board("left side").cut_named("bottom dado")
    assert bottom.length == inches("22 1/2") + 2 * dado.depth - 2 * inches("1/64")
    assert dado.along.size == bottom.thickness


def test_the_back_lies_in_rabbets_half_the_side_deep():
    made = case()
    rabbet = made.assembly.board("left side").cut_named("back rabbet")
    assert (rabbet.depth, rabbet.across.size) == (inches("3/8"), inches("9/32"))
    assert made.assembly.board("back").width == inches("22 1/2") + inches("3/4") - inches("1/32")
    assert made.sizes.inside_depth == inches("20") - inches("3/4") - inches("9/32")


def test_an_overhang_makes_the_case_narrower_and_moves_it():
    made = case(frame=FrameMake(solid("3/4"), overhang=size("1/4"), overhang_top=size("1/2")))
    assert made.sizes.width == inches("23 1/2")
    assert made.sizes.height == inches("35 1/2")
    assert made.assembly.board("left side").place.origin[0] == (inches("1/4") + inches("3/4")).mm


def test_the_panels_leave_room_for_the_bearers_behind_the_rails():
    made = case()
    assert made.sizes.floor == inches(2) - inches("3/4")
    assert made.sizes.ceiling == inches(36) - inches(2) + inches("3/4")


def test_behind_a_low_rail_the_panel_lies_level_with_it():
    made = case(frame=FrameMake(solid("3/4"), bottom_rail=size("1 1/2")))
    assert made.sizes.floor == inches("1 1/2")


def test_the_lowest_rail_that_hides_the_dado_and_its_margin_is_enough():
    """3/4 in of panel and 1/4 in of wood beyond it (CA-1)."""
    made = case(frame=FrameMake(solid("3/4"), bottom_rail=size("1")))
    assert made.sizes.floor == inches("1")


def test_stopped_dadoes_are_notched_round():
    made = case(case=made_of(has_stopped_dadoes=True))
    assert made.assembly.board("left side").cut_named("top dado").across.start == inches("1/2")
    assert [cut.name for cut in made.assembly.board("top").cuts] == ["left notch", "right notch"]


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"frame": FrameMake(solid("3/4"), bottom_rail=size("7/8"))}, "Make the bottom rail at least 1/8 in higher"),
        ({"case": made_of(bottom_offset=size("1/8"))}, "Leave at least 1/4 in"),
        ({"case": made_of(bottom_offset=size("1 1/2"))}, "Give an offset of 1 1/4 in at most"),
        (
            {"case": made_of(top_offset=size("1 3/16"))},
            "Give an offset of 1 1/4 in, of 1 7/32 in to lift it by the usual 1/32 in, or of 1 1/8 in at most",
        ),
        ({"depth": size("7/8")}, "Make the piece at least"),
    ],
)
def test_what_cannot_be_made_says_what_would_work(changed, said):
    made = tried(spec(SHOP, **changed), SHOP)
    assert isinstance(made, Refused)
    assert said in way_out(made, SHOP)


def test_offsets_that_are_offered_work():
    for offset in ("1 1/4", "1 7/32", "1 1/8"):
        assert case(case=made_of(top_offset=size(offset))).sizes.top_offset == inches(offset)


def test_partitions_stand_behind_the_uprights():
    wish = DrawerWish(drawer_make(), SHOP)
    made = case(banks=(Bank(Equal(2), (wish,) * 2),) * 2, width=size(48))
    partition = made.assembly.board("partition 1")
    middle = partition.place.origin[0] + (partition.thickness / 2).mm
    assert middle == inches(24).mm
    left, right = made.cavities
    assert left.right + partition.thickness == right.left
    assert (left.right_wood, right.left_wood) == (partition.role, partition.role)


def test_solid_sides_on_plywood_panels_are_noted():
    own = CaseMake(solid("3/4"), ply("3/4"), ply("1/4"))
    assert "move differently" in case(case=own).assembly.findings[0].what
    assert case().assembly.findings == ()


def test_the_back_is_nailed_all_round_and_never_glued():
    # NAVEDTRA 14119, MIL-DTL-45449: a nail three times as long as what it holds, nails at most 6 in apart.
    made = case().assembly
    met = {one.other.short: one for one in made.meetings if one.one.kind is PartKind.CASE_BACK}
    assert set(met) == {"left side", "right side", "bottom", "top"}
    for one in met.values():
        assert (one.tie, one.glue) == (Tie.FASTENED, 0)
        assert one.fastener is not None
        assert one.fastener.length >= 3 * inches("1/4")
        run = made.board("back").length if "side" in one.other.short else case().sizes.inside_width
        assert run.mm / one.fasteners <= inches(6).mm < run.mm / (one.fasteners - 1)
