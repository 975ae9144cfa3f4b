"""Which cutter, and in which passes: MS-4, MS-6, MS-8, DA-5."""

from math import ceil

import pytest

from joinlay.boards import Span
from joinlay.findings import Refused
from joinlay.lengths import Unit, inches, mm
from joinlay.settings.elements import Guide, Role, ToolKind
from joinlay.settings.feeding import feeding_of
from joinlay.settings.ways import blade, dado_set, depth_steps, fence_steps, passes_of, router_cutter
from joinlay.shop import MachineKind
from tests.unit.settings.wood import inch, metric, shop, span, with_dado_set


def feeding(machine, guide):
    found = feeding_of(machine, guide)
    assert found is not None
    return found


AT_TABLE = feeding(MachineKind.ROUTER_TABLE, Guide.FENCE)
AT_SAW = feeding(MachineKind.TABLE_SAW, Guide.FENCE)
ALONG_STRAIGHTEDGE = feeding(MachineKind.HAND_ROUTER, Guide.STRAIGHTEDGE)


@pytest.mark.parametrize(
    ("near", "far", "cutter", "role", "fences"),
    [
        ("1/4", "1/2", "1/4", Role.CHANNEL, ["1/4"]),
        ("1/4", "17/32", "1/4", Role.CHANNEL, ["1/4", "9/32"]),
        ("1", "2", "1/4", Role.CHANNEL, ["1", "5/4", "3/2", "7/4"]),
        ("0", "1/2", "3/4", Role.STEP, ["-1/4"]),
        ("0", "3/4", "3/4", Role.STEP, ["0"]),
        ("0", "7/8", "3/4", Role.STEP, ["0", "1/8"]),
        ("1/4", "3/4", "1/4", Role.TONGUE, ["1/4", "1/2"]),
    ],
)
def test_places_side_by_side_from_the_wall_by_the_fence(near, far, cutter, role, fences):
    found = fence_steps(span(near, far), inch(cutter), role)
    assert [step.inches for step in found] == [inches(text).inches for text in fences]


def test_the_name_and_working_of_a_fence_position():
    last = fence_steps(span("1/4", "17/32"), inch("1/4"), Role.CHANNEL)[-1]
    assert last.name == "fence to the near side of the cutter"
    assert last.rule == "MS-1"
    assert last.operation == "-"


@pytest.mark.parametrize(
    ("depth", "most", "heights"),
    [
        ("1/4", "1/4", ["1/4"]),
        ("3/8", "1/4", ["1/4", "3/8"]),
        ("1/2", "1/8", ["1/8", "1/4", "3/8", "1/2"]),
        ("1/2", None, ["1/2"]),
    ],
)
def test_no_pass_is_too_deep_and_the_last_is_the_lightest(depth, most, heights):
    found = depth_steps(inch(depth), None if most is None else inches(most))
    assert [step.inches for step in found] == [inches(text).inches for text in heights]


def test_every_height_is_run_before_the_fence_is_moved():
    made = shop(cutters={"1/4": "1"})
    tool = router_cutter(span("1", "1 3/8"), inch("1/2"), Role.CHANNEL, "dado", made, ())
    passes = passes_of(span("1", "1 3/8"), inch("1/2"), tool, Role.CHANNEL, made, AT_TABLE)
    assert [(each.near_side, each.height) for each in passes] == [
        (inches("1"), inches("1/4")),
        (inches("1"), inches("1/2")),
        (inches("1 1/8"), inches("1/4")),
        (inches("1 1/8"), inches("1/2")),
    ]


def test_along_a_straightedge_the_far_wall_is_cut_first():
    made = shop(cutters={"1/4": "1"})
    tool = router_cutter(span("1", "1 3/8"), inch("1/2"), Role.CHANNEL, "dado", made, ())
    passes = passes_of(span("1", "1 3/8"), inch("1/2"), tool, Role.CHANNEL, made, ALONG_STRAIGHTEDGE)
    assert [(each.near_side, each.height) for each in passes] == [
        (inches("1 1/8"), inches("1/4")),
        (inches("1 1/8"), inches("1/2")),
        (inches("1"), inches("1/4")),
        (inches("1"), inches("1/2")),
    ]


def test_a_thin_cutter_takes_no_more_than_its_own_diameter():
    made = shop(cutters={"1/8": "1"})
    tool = router_cutter(span("1", "1 1/8"), inch("1/4"), Role.CHANNEL, "groove", made, ())
    assert len(passes_of(span("1", "1 1/8"), inch("1/4"), tool, Role.CHANNEL, made, AT_TABLE)) == 2


def test_the_widest_owned_cutter_no_wider_than_the_cut():
    made = shop(cutters={"1/8": "3/8", "1/4": "1", "1/2": "1"})
    assert router_cutter(span("1", "1 3/8"), inch("1/4"), Role.CHANNEL, "dado", made, ()).width == inches("1/4")
    # The 1/4 one is too short for this depth: the next thinner that reaches.
    short = shop(cutters={"1/8": "2", "1/4": "1"})
    assert router_cutter(span("1", "1 1/4"), inch("1 1/2"), Role.CHANNEL, "slot", short, ()).width == inches("1/8")


def test_a_step_takes_a_cutter_the_job_uses_anyway_unless_it_costs_two_passes_more():
    made = shop(cutters={"1/4": "1", "1/2": "1", "3/4": "1"})

    def chosen(wide, *others):
        return router_cutter(span("0", wide), inch("1/4"), Role.STEP, "rabbet", made, [inches(other) for other in others]).width

    assert chosen("3/8") == inches("1/2")
    assert chosen("3/8", "3/4") == inches("3/4")
    assert chosen("3/8", "1/4") == inches("1/4")
    assert chosen("3/4", "1/4") == inches("1/4")  # three passes; the 3/4 one would take one and a change
    assert chosen("1", "1/4") == inches("1/4")  # four passes; the 1/2 one two and a change: as bad, so the narrower
    assert chosen("1 1/4", "1/4") == inches("3/4")  # five passes; the 3/4 one two and a change


@pytest.mark.parametrize("role", [Role.CHANNEL, Role.TONGUE])
def test_no_cutter_narrow_enough(role):
    with pytest.raises(Refused) as refused:
        router_cutter(span("1", "1 1/10"), inch("1/8"), role, "groove", shop(), ())
    found = refused.value.finding
    assert (found.kind, found.rule) == ("cutter", "MS-8")
    assert found.numbers["width"] == inches("1/10")
    assert "A straight cutter of 0.1" in found.way_out(lambda length: str(float(length.inches)))


def test_no_cutter_at_all():
    with pytest.raises(Refused, match="the shop has no cutter"):
        router_cutter(span("1", "2"), inch("1/8"), Role.STEP, "rabbet", shop(cutters={}), ())


def test_no_cutter_long_enough_names_the_reach_that_would_do():
    with pytest.raises(Refused) as refused:
        router_cutter(span("1", "1 1/8"), inch("1/2"), Role.CHANNEL, "groove", shop(cutters={"1/8": "3/8"}), ())
    found = refused.value.finding
    assert found.kind == "cutter reach"
    assert (found.numbers["depth"], found.numbers["reach"], found.numbers["diameter"]) == (
        inches("1/2"),
        inches("3/8"),
        inches("1/8"),
    )


def test_a_dado_set_is_stacked_to_the_widest_that_fits():
    made = with_dado_set("1/4", "3/8", "1/2")
    assert dado_set(span("1", "1 7/16"), inch("1/4"), Role.CHANNEL, "dado", made).width == inches("3/8")
    assert dado_set(span("0", "7/16"), inch("1/4"), Role.STEP, "rabbet", made).width == inches("1/2")
    assert dado_set(span("0", "1"), inch("1/4"), Role.STEP, "rabbet", made).width == inches("1/2")
    with pytest.raises(Refused, match="no dado set that narrow"):
        dado_set(span("1", "1 1/8"), inch("1/4"), Role.CHANNEL, "groove", made)
    with pytest.raises(Refused, match="the saw cuts"):
        dado_set(span("1", "2"), inch("3"), Role.CHANNEL, "slot", made)


def test_single_kerfs():
    made = shop(Unit.MM)
    tool = blade(Span(metric(5), metric("8.5")), metric(6), Role.CHANNEL, "groove", made)
    assert (tool.kind, tool.width) == (ToolKind.BLADE, mm(3))
    assert len(passes_of(Span(metric(5), metric("8.5")), metric(6), tool, Role.CHANNEL, made, AT_SAW)) == ceil(3.5 / 3)
    with pytest.raises(Refused, match="the saw cuts"):
        blade(Span(metric(5), metric(7)), metric(6), Role.CHANNEL, "groove", made)
    with pytest.raises(Refused, match="dado set"):
        dado_set(Span(metric(5), metric(7)), metric(6), Role.CHANNEL, "groove", shop(table_saw=None))
