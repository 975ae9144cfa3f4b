"""Laws of joints: mates agree, tongues fill what they must and no more, and the maker's units make no difference."""

from __future__ import annotations

from dataclasses import fields, replace
from itertools import pairwise

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from joinlay.boards import Axis, Datum, Surface
from joinlay.errors import JoinlayError
from joinlay.findings import Refused
from joinlay.joints.dado import cut_dado, design_dado
from joinlay.joints.groove import design_groove
from joinlay.joints.locking_rabbet import cut_end_part, cut_side, design_half_blind, design_locking_rabbet
from joinlay.joints.loose_tenon import KeepOut, Seat, Use, cut_mortises, design_loose_tenon
from joinlay.joints.rabbet import design_rabbet
from joinlay.lengths import NOTHING, Dimension, Fraction, Graduation, Length, Unit, dimension, inches, mm
from joinlay.shop import Practice, TenonStock, usual_shop
from joinlay.shop.practice import LENGTH_RULES, RATIO_RULES
from tests import by_hand
from tests.drawn import fractions

CASES = settings(max_examples=80)
SHOP = usual_shop(Unit.INCH)
DATUM = Datum("inside face", "bottom edge", "front end", "outside face", "top edge", "back end")

#: Sixty-fourths of an inch from a quarter to an inch and a half.
thicknesses = st.integers(16, 96).map(lambda n: dimension(inches(Fraction(n, 64))))
lines = st.integers(64, 64 * 30).map(lambda n: dimension(inches(Fraction(n, 64))))
cutters = st.integers(8, 48).map(lambda n: dimension(inches(Fraction(n, 64))))
uses = st.sampled_from(list(Use))


@st.composite
def tenon_joints(draw, shop=SHOP):
    """A loose-tenon joint that isn't refused, with what was asked."""
    line = draw(lines)
    start = draw(fractions(0, 1, max_denominator=64))
    keep_outs = [KeepOut(line * start, line * start + inches("1/4"), "groove")] if draw(st.booleans()) else []
    asked = {
        "end_thickness": draw(thicknesses),
        "face_thickness": draw(thicknesses),
        "line": line,
        "use": draw(uses),
        "is_solid": draw(st.booleans()),
        "keep_outs": keep_outs,
    }
    try:
        return design_loose_tenon(shop=shop, **asked), asked
    except Refused:
        assume(False)


def sizes_of(joint):
    """Every length of a joint, by field."""
    found = {}
    for field in fields(joint):
        value = getattr(joint, field.name)
        if isinstance(value, Dimension):
            found[field.name] = value.mm
        elif field.name == "centres":
            found |= {f"centre {n}": centre.mm for n, centre in enumerate(value)}
    return found


@CASES
@given(tenon_joints())
def test_a_loose_tenon_keeps_its_rules(made):
    joint, asked = made
    practice = SHOP.practice
    wall = (asked["end_thickness"] - joint.tenon_thickness) / 2
    assert wall >= asked["end_thickness"] / 4
    assert wall >= mm(3)
    floor = asked["face_thickness"] - joint.depth_in_face
    assert floor >= asked["face_thickness"] / 4
    assert floor >= inches("1/8")
    assert joint.tenon_length == joint.depth_in_end + joint.depth_in_face - inches("1/8")
    assert joint.depth_in_face <= joint.depth_in_end
    assert 2 <= joint.tenon_width / joint.tenon_thickness <= 6
    for i in range(len(joint.centres)):
        span = joint.mortise_span(i)
        for keep_out in asked["keep_outs"]:
            clearance = practice.length("keep-out clearance")
            assert span.stop <= keep_out.start - clearance or span.start >= keep_out.stop + clearance
        margin = practice.length("rail shoulder") if asked["use"] is Use.FRAME else joint.tenon_thickness
        assert span.start >= margin
        assert span.stop <= asked["line"] - margin


@CASES
@given(tenon_joints(), st.booleans(), st.integers(0, 40))
def test_both_boards_carry_the_same_mortises(made, backwards, rise):
    joint, asked = made
    long = asked["line"] + inches(3)
    end_part = by_hand.board("rail", "rail", "wood", dimension(inches(40)), long, asked["end_thickness"], DATUM)
    face_part = by_hand.board("stile", "stile", "wood", dimension(inches(40)), long, asked["face_thickness"], DATUM)
    offset = dimension(inches(Fraction(rise, 32)))
    start = long - offset if backwards else offset
    in_end = Seat(Surface.FAR_END, Axis.ACROSS, NOTHING, joint.from_reference_face)
    in_face = Seat(Surface.FACE, Axis.ACROSS, start, dimension(inches(20)), backwards=backwards)
    ends = cut_mortises(joint, end_part, in_end, joint.depth_in_end, by_hand.part("stile")).cuts
    faces = cut_mortises(joint, face_part, in_face, joint.depth_in_face, by_hand.part("rail")).cuts
    assert len(ends) == len(faces) == len(joint.centres)
    for one, other in zip(ends, faces, strict=True):
        assert one.across.centre == (start - other.across.centre if backwards else other.across.centre - start)
        assert one.across.size == other.across.size
        assert one.into.size == other.along.size == joint.tenon_thickness
        assert one.into.start + one.into.stop == asked["end_thickness"]
        assert one.along.size + other.into.size - joint.tenon_length == inches("1/8")


@st.composite
def sound_rabbets(draw):
    """Side, end part and cutter that leave wood enough beyond the dado."""
    cutter, side = draw(cutters), draw(thicknesses)
    return side, cutter + side / 3 + inches(Fraction(draw(st.integers(0, 32)), 64)), cutter


@st.composite
def sound_half_blinds(draw):
    """Side, front, cutter and tongue that leave lip and wall enough."""
    cutter = draw(cutters)
    tongue = cutter + inches(Fraction(draw(st.integers(0, 8)), 64))
    side = cutter * draw(fractions(1, 3, max_denominator=8))
    return side, cutter + tongue + inches("1/8") + inches(Fraction(draw(st.integers(0, 32)), 64)), cutter, tongue


@CASES
@given(sound_rabbets(), st.integers(0, 3))
def test_a_tongue_fills_its_dado_but_for_what_is_stated(parts, fit):
    side, end, cutter = parts
    own = SHOP.practice.but({"tongue fit": dimension(mm(Fraction(fit, 20)))})
    joint = design_locking_rabbet(side_thickness=side, end_thickness=end, cutter=cutter, practice=own, rule=SHOP.rule)
    inside = inches(16)
    side_board = cut_side(
        joint, by_hand.board("side", "side", "wood", dimension(inches(20)), dimension(inches(4)), side, DATUM), Surface.END, None
    )
    back = by_hand.board("back", "back", "wood", inside + joint.end_part_addition, dimension(inches(4)), end, DATUM)
    back = cut_end_part(joint, back, Surface.END, None)
    dado, rabbet = side_board.cuts[0], back.cuts[0]
    # Seen from above, with the side's inside face at 0 and its end at 0: the back's inner face lies the back's thickness from the
    # end.
    tip = (back.length - inside) / 2
    assert dado.into.stop - tip == joint.tip_gap
    assert rabbet.along.stop == tip
    tongue = (end - rabbet.into.start, end)
    assert dado.along.stop == tongue[1]
    assert tongue[0] - dado.along.start == own.length("tongue fit")
    assert dado.along.start >= side / 3
    assert side / 4 - SHOP.rule.division <= joint.dado_depth <= side / 2
    if joint.one_setup:
        assert (end, joint.dado_depth, joint.tongue_length) == (cutter * 2, cutter, cutter)


@CASES
@given(sound_half_blinds(), st.integers(0, 3))
def test_a_half_blind_corner_closes(parts, fit):
    side, end, cutter, tongue = parts
    own = SHOP.practice.but({"tongue fit": dimension(mm(Fraction(fit, 20)))})
    joint = design_half_blind(side_thickness=side, end_thickness=end, cutter=cutter, practice=own, rule=SHOP.rule, tongue=tongue)
    inside = inches(16)
    side_board = cut_side(
        joint, by_hand.board("side", "side", "wood", dimension(inches(20)), dimension(inches(4)), side, DATUM), Surface.END, None
    )
    front = by_hand.board("front", "front", "wood", inside + joint.end_part_addition, dimension(inches(4)), end, DATUM)
    front = cut_end_part(joint, front, Surface.END, None)
    dado, (slot, tip) = side_board.cuts[0], front.cuts
    # The side's end stands against the lip: its coordinate y lies at slot.into.stop - y into the front.
    assert front.thickness - slot.into.stop == joint.lip >= own.length("least lip")
    wall, tongue = dado.along.start, slot.into.start
    assert slot.into.size - wall == own.length("tongue fit")
    assert slot.into.stop - dado.along.stop == mm(0)
    assert dado.along.size - tongue == own.length("tongue fit")
    # Across the drawer: the slot's floor meets the side's inside face, the tongue reaches into the dado but for the tip gap.
    assert slot.along.stop == side
    assert dado.into.stop - (slot.along.stop - tip.along.stop) == joint.tip_gap
    assert not slot.overlaps(tip)


@CASES
@given(thicknesses, thicknesses)
def test_passes_cover_a_dado_and_no_more(into, panel):
    try:
        joint = design_dado(into=into, panel=panel, shop=SHOP)
        assert joint.cutter is not None
    except Refused:
        assume(False)
    moves = [one.aside for one in joint.passes]
    assert moves[0] == mm(0)
    assert moves[-1] + joint.cutter == joint.width == panel
    assert all(mm(0) < after - before <= joint.cutter for before, after in pairwise(moves))
    board = cut_dado(
        joint, by_hand.board("side", "side", "wood", dimension(inches(20)), dimension(inches(4)), into, DATUM), joint.width, None
    )
    assert board.cuts[0].along.size == panel
    assert into / 4 <= board.cuts[0].depth <= into / 2


@CASES
@given(tenon_joints())
def test_an_inch_job_is_the_same_job_in_mm(made):
    joint, asked = made
    metric = {name: Dimension(mm(value.mm), "given in mm") for name, value in asked.items() if isinstance(value, Dimension)}
    again = design_loose_tenon(shop=SHOP, **{**asked, **metric})
    assert sizes_of(again) == sizes_of(joint)


def twice(shop):
    """The shop, and all its figures, twice as large."""
    lengths = {row.name: shop.practice.length(row.name) * 2 for row in LENGTH_RULES}
    ratios = {row.name: shop.practice.ratio(row.name) for row in RATIO_RULES}
    tenons = tuple(TenonStock(one.thickness * 2, reach=one.reach * 2 if one.reach else None) for one in shop.tenons)
    cutters = tuple(replace(one, diameter=one.diameter * 2, reach=one.reach * 2) for one in shop.cutters)
    rule = Graduation(shop.rule.unit, Length(shop.rule.division.mm * 2))
    return replace(shop, practice=Practice(lengths, ratios), tenons=tenons, cutters=cutters, rule=rule)


TWICE = twice(SHOP)


def doubled(sizes):
    return {name: size * 2 for name, size in sizes.items()}


@CASES
@given(tenon_joints())
def test_a_loose_tenon_twice_as_large(made):
    joint, asked = made
    larger = {name: value * 2 for name, value in asked.items() if isinstance(value, Dimension)}
    keep_outs = [KeepOut(one.start * 2, one.stop * 2, one.name) for one in asked["keep_outs"]]
    again = design_loose_tenon(shop=TWICE, **{**asked, **larger, "keep_outs": keep_outs})
    assert sizes_of(again) == doubled(sizes_of(joint))


def outcome(design, **asked):
    """The sizes of the joint, or the rule that refuses it."""
    try:
        return sizes_of(design(**asked))
    except Refused as refused:
        return refused.finding.rule


@CASES
@given(thicknesses, thicknesses, cutters, st.sampled_from([design_locking_rabbet, design_half_blind]))
def test_a_locking_rabbet_twice_as_large(side, end, cutter, design):
    one = outcome(design, side_thickness=side, end_thickness=end, cutter=cutter, practice=SHOP.practice, rule=SHOP.rule)
    larger = {"side_thickness": side * 2, "end_thickness": end * 2, "cutter": cutter * 2}
    # The figures twice as large are nobody's default any more, so the tip gap counts as asked for: ask for it in both.
    asked = outcome(
        design, side_thickness=side, end_thickness=end, cutter=cutter, practice=SHOP.practice, rule=SHOP.rule,
        tip_gap=SHOP.practice.length("tip gap"),
    )  # fmt: skip
    other = outcome(design, **larger, practice=TWICE.practice, rule=TWICE.rule)
    assert other == (doubled(asked) if isinstance(asked, dict) else asked)
    assert isinstance(one, dict) == isinstance(asked, dict)


@CASES
@given(thicknesses, thicknesses, st.sampled_from([design_dado, design_rabbet, design_groove]))
def test_a_channel_twice_as_large(into, panel, design):
    one, other = outcome(design, into=into, panel=panel, shop=SHOP), outcome(design, into=into * 2, panel=panel * 2, shop=TWICE)
    assert other == (doubled(one) if isinstance(one, dict) else one)


@settings(max_examples=200)
@given(st.data())
def test_nothing_but_our_own_errors_whatever_the_sizes(data):
    size = fractions(-50, 400, max_denominator=64).map(lambda n: dimension(Length(n)))
    a, b, c, d = (data.draw(size) for _ in range(4))
    tries = (
        lambda: design_loose_tenon(end_thickness=a, face_thickness=b, line=c, shop=SHOP, use=Use.FRAME, tenon=TenonStock(d)),
        lambda: design_loose_tenon(
            end_thickness=a, face_thickness=b, line=c, shop=SHOP, use=Use.DRAWER, keep_outs=[KeepOut(a, d, "cut")]
        ),
        lambda: design_locking_rabbet(
            side_thickness=a, end_thickness=b, cutter=c, practice=SHOP.practice, rule=SHOP.rule, tip_gap=d
        ),
        lambda: design_half_blind(side_thickness=a, end_thickness=b, cutter=c, practice=SHOP.practice, rule=SHOP.rule, tongue=d),
        lambda: design_dado(into=a, panel=b, shop=SHOP, depth=c, opposite_depth=d),
        lambda: design_rabbet(into=a, panel=b, shop=SHOP, depth=c, width=d),
        lambda: design_groove(into=a, panel=b, shop=SHOP, offset=c, depth=d),
    )
    for attempt in tries:
        try:
            joint = attempt()
        except JoinlayError as error:
            said = [str(error)]
        else:
            said = [found.sentence(SHOP.rule.text) + found.way_out(SHOP.rule.text) for found in joint.findings]
        assert all(said)
