"""Loose tenons whole: sizes, places, what is said of them, and the mortises in both boards."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from joinlay.boards import Axis, CutKind, Shape, Span, Surface
from joinlay.errors import BadInput
from joinlay.findings import Harm, Refused
from joinlay.joints.loose_tenon import KeepOut, Seat, Use, cut_mortises, design_loose_tenon, keep_outs_on
from joinlay.lengths import GRADUATIONS, NOTHING, Unit, inches, mm
from tests import by_hand
from tests.unit.joints.wood import INCH, board, f, keep_out, number, said, shop, size, spans, tenon, way_out, with_tenons


def designed(**changed):
    asked = {
        "end_thickness": size("1/2", "side"),
        "face_thickness": size("3/4", "front"),
        "line": size("4 1/4", "line"),
        "shop": shop(),
        "use": Use.DRAWER,
        "named": "drawer 1 left front corner",
    }
    asked |= changed
    return design_loose_tenon(role=by_hand.joint_called(asked.pop("named")), **asked)


def test_a_drawer_corner():
    joint = designed()
    assert (joint.tenon_thickness, joint.tenon_width, joint.tenon_length) == (mm(4), mm(12), inches("1 1/16"))
    assert (joint.depth_in_end, joint.depth_in_face) == (inches("5/8"), inches("9/16"))
    assert joint.from_reference_face == inches("1/4")
    # As far out as they may stand, 5/16 in and half of 12 mm from each end, and in to the next mark of 1/32 in (FR-1); the middle
    # one on a mark too.
    first, last = inches("5/16") + mm(6), inches("4 1/4") - inches("5/16") - mm(6)
    assert joint.centres == (inches("9/16"), inches("2 1/8"), inches("3 11/16"))
    assert first < joint.centres[0] < first + inches("1/32")
    assert last - inches("1/32") < joint.centres[-1] < last
    assert joint.largest_spacing == joint.smallest_spacing == inches("1 9/16")
    assert joint.findings == ()


@pytest.mark.parametrize("rule", list(GRADUATIONS))
@pytest.mark.parametrize("line", ["4 1/4", "4.173", "100.3 mm", "7 3/64"])
def test_places_that_are_free_stand_on_the_rule(rule, line):
    """FR-1: on any rule, however odd the line; and the row is as good: its margins, its fewest, and its widest spacing are
    kept.
    """
    own = replace(shop(), rule=GRADUATIONS[rule])
    joint = designed(shop=own, line=size(line))
    assert not any(own.rule.read(centre).left_over for centre in joint.centres)
    assert all("FR-1" in centre.rule for centre in joint.centres)
    assert joint.mortise_span(0).start >= inches("5/16")
    assert joint.mortise_span(len(joint.centres) - 1).stop <= size(line) - inches("5/16")
    assert joint.largest_spacing <= mm(48)


def test_places_that_are_forced_do_not_pretend():
    """Where a mark would break a limit all stay as they are: on a line with room for two and not a hair more, and on a rule of
    no use there.
    """
    room = inches("5/16") * 2 + mm(12) * 2 + mm(8)
    joint = designed(line=size(f"{float(room.mm)} mm"))
    assert joint.centres == (inches("5/16") + mm(6), room - inches("5/16") - mm(6))


def test_names_begin_with_the_label():
    joint = designed()
    assert joint.tenon_width.name == "drawer 1 left front corner tenon width"
    assert designed(named="").tenon_width.name == "tenon width"
    assert joint.centres[1].name == "drawer 1 left front corner tenon 2 centre"


def test_the_working_goes_down_to_what_was_written():
    seen, todo = set(), [designed().depth_in_face]
    while todo:
        step = todo.pop()
        seen.add(step.name)
        todo.extend(step.inputs)
    assert {"front", "side", "drawer 1 left front corner mortise depth in the end"} <= seen


@pytest.mark.parametrize(
    ("use", "is_solid", "margin"), [(Use.DRAWER, False, "5/16"), (Use.DRAWER, True, "1/2"), (Use.FRAME, True, "3/16")]
)
def test_the_margin_is_that_of_the_wood_or_the_shoulder(use, is_solid, margin):
    own = shop()
    before = designed(use=use, is_solid=is_solid, shop=own).mortise_span(0).start - inches(margin)
    # What is more brings the centre to the next mark of the rule (FR-1).
    assert mm(0) <= before < own.rule.division


def test_a_thick_tenon_keeps_its_own_thickness_to_the_end():
    joint = designed(end_thickness=size("36 mm"), face_thickness=size("2"), line=size("6"), is_solid=False)
    assert joint.tenon_thickness == mm(12)
    assert mm(12) <= joint.mortise_span(0).start < mm(12) + inches("1/32")


def test_cases_are_spaced_by_length_and_drawers_by_thickness():
    case = designed(end_thickness=size("3/4"), line=size("20"), use=Use.CASE)
    drawer = designed(end_thickness=size("3/4"), line=size("20"), use=Use.DRAWER)
    assert inches(4) < case.largest_spacing <= inches(6)
    assert mm(60) < drawer.largest_spacing <= mm(72)


def test_a_face_frame():
    joint = designed(end_thickness=size("3/4"), face_thickness=size("1 1/2"), line=size("1 1/2"), use=Use.FRAME)
    assert (joint.tenon_thickness, joint.tenon_width, len(joint.centres)) == (mm(6), mm(18), 1)
    assert joint.findings == ()


def test_one_tenon_in_a_short_drawer_is_noted():
    found = designed(line=size("1 1/2")).findings
    assert [(one.kind, one.harm, one.where) for one in found] == [("one tenon", Harm.NOTE, "drawer 1 left front corner")]


def test_a_gap_that_keep_outs_make_too_wide_is_warned_of():
    (found,) = designed(line=size("6"), keep_outs=[keep_out("1 1/4", "4 3/4")]).findings
    assert (found.rule, found.harm) == ("LT-9", Harm.WARN)
    assert number(found, "limit") == mm(48)


def test_no_room_is_refused_with_the_shortest_line():
    with pytest.raises(Refused) as refused:
        designed(line=size("1"))
    found = refused.value.finding
    assert found.where == "drawer 1 left front corner"
    assert said(found) == "A tenon 15/32+ in (12 mm) wide finds no room on a joint line 1 in long."
    shortest = number(found, "shortest")
    assert shortest == inches("5/8") + mm(12)
    assert len(designed(line=size(f"{shortest.mm} mm")).centres) == 1


def test_no_room_beside_a_groove_names_it_and_the_tenon_that_fits():
    with pytest.raises(Refused) as refused:
        designed(end_thickness=size("3/4"), line=size("2"), keep_outs=[KeepOut(size("3/4"), size("1"), "bottom {groove}")])
    found = refused.value.finding
    assert "beside the bottom groove." in said(found)
    assert "Or ask for the 5/32+ in (4 mm) tenon, which fits." in way_out(found)


def test_a_thin_face_names_the_tenon_that_fits():
    with pytest.raises(Refused) as refused:
        designed(end_thickness=size("3/4"), face_thickness=size("3/8"))
    assert way_out(refused.value.finding).endswith("Or ask for the 5/32+ in (4 mm) tenon, which fits.")


def test_a_thin_face_that_suits_no_tenon_names_none():
    with pytest.raises(Refused) as refused:
        designed(end_thickness=size("3/4"), face_thickness=size("1/4"))
    assert "Or ask" not in way_out(refused.value.finding)


def test_the_tenon_asked_for_is_taken():
    assert designed(end_thickness=size("3/4"), tenon=tenon("4 mm")).tenon_thickness == mm(4)


def test_slack_widens_all_but_the_first():
    joint = designed(shop=shop(mortise_slack="1/16"))
    widths = [joint.mortise_span(i).size for i in range(3)]
    assert widths == [mm(12), mm(12) + inches("1/16"), mm(12) + inches("1/16")]
    last = inches("4 1/4") - inches("5/16")
    assert last - inches("1/32") < joint.mortise_span(2).stop <= last


@pytest.mark.parametrize("what", ["end_thickness", "face_thickness", "line"])
@pytest.mark.parametrize("text", ["0", "-1/2"])
def test_sizes_that_are_none(what, text):
    with pytest.raises(BadInput, match="must be more than 0"):
        designed(**{what: size(text, what)})


def test_mortises_in_an_end_and_in_a_face():
    joint = designed()
    side = cut_mortises(
        joint,
        board("18", "4 1/4", "1/2"),
        Seat(Surface.END, Axis.ACROSS, NOTHING, joint.from_reference_face),
        joint.depth_in_end,
        by_hand.part("front"),
    )
    front = board("18", "4 5/16", "3/4", "front")
    seat = Seat(Surface.FACE, Axis.ACROSS, size("1/32"), front.length - joint.from_reference_face)
    front = cut_mortises(joint, front, seat, joint.depth_in_face, by_hand.part("side"), by_hand.hand("right"))
    assert [cut.name for cut in side.cuts] == ["mortise 1", "mortise 2", "mortise 3"]
    assert [cut.name for cut in front.cuts] == ["right mortise 1", "right mortise 2", "right mortise 3"]
    for n, (in_side, in_front) in enumerate(zip(side.cuts, front.cuts, strict=True)):
        assert in_side.kind is in_front.kind is CutKind.MORTISE
        assert in_side.shape is Shape.ROUND_ENDS
        assert in_side.joint == in_front.joint == joint.role.name
        assert (in_side.along.start, in_side.along.stop) == (mm(0), inches("5/8"))
        assert (in_front.into.start, in_front.into.stop) == (mm(0), inches("9/16"))
        assert in_side.across.centre == joint.centres[n]
        assert in_front.across.centre == joint.centres[n] + inches("1/32")
        assert in_side.into.centre == inches("1/4")
        assert in_front.along.centre == inches("17 3/4")
        assert in_side.into.size == in_front.along.size == mm(4)


def test_mortises_run_backwards_and_into_far_surfaces():
    joint = designed()
    seat = Seat(Surface.FAR_END, Axis.ACROSS, size("4 1/4"), joint.from_reference_face, backwards=True)
    cut = cut_mortises(joint, board("18", "4 1/4", "1/2"), seat, joint.depth_in_end, by_hand.part("back")).cuts[0]
    assert (cut.along.start, cut.along.stop) == (inches("17 3/8"), inches(18))
    assert cut.across.stop == inches("4 1/4") - joint.mortise_span(0).start
    assert mm(0) <= joint.mortise_span(0).start - inches("5/16") < inches("1/32")


def test_a_joint_line_lies_in_its_surface():
    with pytest.raises(BadInput, match="cannot run along the board"):
        Seat(Surface.END, Axis.ALONG, NOTHING, NOTHING)


def test_mortises_outside_the_wood_are_refused():
    joint = designed()
    with pytest.raises(BadInput, match="mortise 3 runs from"):
        cut_mortises(
            joint,
            board("18", "3", "1/2"),
            Seat(Surface.END, Axis.ACROSS, NOTHING, size("1/4")),
            joint.depth_in_end,
            None,
        )


def grooved(face):
    into = (NOTHING, size("1/4")) if face is Surface.FACE else (size("1/4"), size("1/2"))
    groove = by_hand.cut(CutKind.GROOVE, face, Span.of(mm(0), inches(18)), Span(size("3/8"), size("5/8")), Span(*into), "groove")
    return board("18", "4 1/4", "1/2").with_cuts(groove)


def test_a_groove_in_the_way_is_a_keep_out():
    seat = Seat(Surface.END, Axis.ACROSS, NOTHING, size("1/4"))
    (found,) = keep_outs_on(grooved(Surface.FACE), seat, size("5/8"), size("4 mm"), size("1/8"))
    assert (found.start.inches, found.stop.inches, found.name) == (f("3/8"), f("5/8"), "groove")
    back = Seat(Surface.END, Axis.ACROSS, size("4 1/4"), size("1/4"), backwards=True)
    (found,) = keep_outs_on(grooved(Surface.FACE), back, size("5/8"), size("4 mm"), size("1/8"))
    assert (found.start.inches, found.stop.inches) == (f("3 5/8"), f("3 7/8"))


def test_a_groove_on_the_far_face_is_none_where_wood_enough_lies_between():
    seat = Seat(Surface.FACE, Axis.ACROSS, NOTHING, size("9"))
    far = grooved(Surface.FAR_FACE)
    assert keep_outs_on(far, seat, size("1/8"), size("4 mm"), size("1/8")) == ()
    assert len(keep_outs_on(far, seat, size("5/32"), size("4 mm"), size("1/8"))) == 1


def test_a_cut_elsewhere_along_the_board_is_none():
    elsewhere = by_hand.cut(
        CutKind.DADO, Surface.FACE, Span(size("5"), size("6")), Span(size("1"), size("2")), Span.of(mm(0), mm(6)), "dado"
    )
    holed = board("18", "4 1/4", "1/2").with_cuts(elsewhere)
    assert keep_outs_on(holed, Seat(Surface.END, Axis.ACROSS, NOTHING, size("1/4")), size("5/8"), size("4 mm"), size("1/8")) == ()


def test_a_metric_shop_gives_metric_figures():
    joint = design_loose_tenon(
        end_thickness=size("18", unit=Unit.MM),
        face_thickness=size("18", unit=Unit.MM),
        line=size("400", unit=Unit.MM),
        shop=shop(Unit.MM),
        use=Use.CASE,
    )
    assert (joint.tenon_thickness, joint.depth_in_end, joint.depth_in_face) == (mm(6), mm(24), mm("13.5"))
    assert joint.tenon_length == mm("34.3")
    assert [centre.mm for centre in joint.centres] == [17, 139, 261, 383]


def test_a_ready_made_tenon_needs_its_own_width():
    joint = designed(tenon=tenon("5 mm", width="20 mm", length="30 mm"), end_thickness=size("3/4"), shop=with_tenons())
    assert (joint.tenon_width, joint.tenon_length) == (mm(20), mm(30))
    assert (
        spans(
            cut_mortises(
                joint,
                board("9", "4 1/4", "3/4"),
                Seat(Surface.END, Axis.ACROSS, NOTHING, size("3/8")),
                joint.depth_in_end,
                None,
                by_hand.part("m"),
            ).cuts[0]
        )[1][0]
        == joint.mortise_span(0).start.inches
    )
    assert mm(0) <= joint.mortise_span(0).start - inches("5/16") < inches("1/32")
    assert joint.tenon_width.expression(INCH.text).startswith("size")


def test_glue_goes_all_round_a_tenon_as_far_as_it_reaches_in():
    """A tenon 12 wide and 4 thick: its two mortises together take what its whole length does, all round."""
    joint = designed()
    around = 2 * (12 - 4) + Fraction(355, 113) * 4
    both = joint.glue_in(joint.depth_in_end) + joint.glue_in(joint.depth_in_face)
    assert both == around * joint.tenon_length.mm
    assert joint.glue_in(joint.depth_in_end) == around * (joint.depth_in_end - joint.glue_room).mm


def test_the_cheeks_are_those_of_the_mortise():
    joint = designed(shop=shop(mortise_slack="1/16"))
    first, second = (joint.cheeks_in(n, joint.depth_in_face) for n in (0, 1))
    assert first == 2 * 12 * joint.depth_in_face.mm
    assert second == 2 * (12 + inches("1/16").mm) * joint.depth_in_face.mm
