"""The machines of a shop in a job and in a shared shop file, and what the settings make of them."""

from fractions import Fraction

import pytest

from joinlay.findings import Harm
from joinlay.jobs.planning import plan
from joinlay.jobs.reader import read_job
from joinlay.lengths import Unit, inches, mm
from joinlay.settings import Guide, ToolKind, settings_for
from joinlay.shop import MachineKind, usual_machines
from tests.assembly.cutting import cut_boxes, same_wood, taken_by_settings
from tests.unit.jobs.jobs import GOOD, only_trouble, troubles_in

#: A small case of 3/4 in plywood around two drawers: panels wide enough for every way of cutting.
CASE = """\
units = "inch"
[stock.birch]
nominal = "3/4"
measured = "23/32"
[stock.cherry]
kind = "solid"
species = "black cherry"
nominal = "3/4"
measured = "3/4"
[stock.half]
nominal = "1/2"
measured = "15/32"
[stock.thin]
nominal = "1/4"
measured = "7/32"
[case]
width = "24"
height = "32"
depth = "20"
sides = "birch"
back = "thin"
{offset}
[frame]
stock = "cherry"
bottom-rail = "{rail}"
[runners]
stock = "cherry"
[drawers]
front = "cherry"
sides = "half"
bottom = "thin"
[[bank]]
drawers = 2
[shop]
"""


def made(shop, rail="2", offset=""):
    """The plan of the case and its settings, with ``shop`` under [shop]."""
    worked_out = plan(read_job(CASE.format(rail=rail, offset=offset) + shop, "case.toml"))
    assert not worked_out.is_refused
    return worked_out, settings_for(worked_out.boards, worked_out.shop)


def cut_alike(worked_out, found):
    """True where the cards, and they alone, cut every board as the plan has it."""
    taken = taken_by_settings(found.settings, worked_out.boards)
    return all(same_wood(each, taken[each.name], cut_boxes(each)) for each in worked_out.boards)


def shop_of(shop, shop_file=None):
    text = GOOD + "\n[shop]\n" + ('file = "my.shop.toml"\n' if shop_file else "") + shop
    return read_job(text, "chest.toml", shop_file, "my.shop.toml").shop


def test_a_shop_that_says_nothing_has_the_usual_machines():
    assert shop_of("").machines == usual_machines(Unit.INCH)


def test_every_size_is_the_makers_and_knows_its_line():
    machines = shop_of(
        'router-table = { fence-height = "5", fence-reach = "9", longest = "40", farthest = "30" }\n'
        'table-saw = { fence-height = "6", fence-reach = "30", blade-height = "3", longest = "100", farthest = '
        '"50", dado-set = ["3/8", "1/4"] }\n'
        'hand-router = { base = "6 1/2", guide-reach = "8" }\nmortiser = false\ndrill = false\n'
        'limits = { deepest-pass = "1/8", narrow = "2", short = "10", smallest = "5", tallest-on-end = "20" }\n'
    ).machines
    table, saw, router = machines.router_table, machines.table_saw, machines.hand_router
    assert table is not None
    assert [table.fence_height, table.fence_reach, table.longest, table.farthest] == [inches(n) for n in (5, 9, 40, 30)]
    assert table.fence_height.origin == "chest.toml:28"
    assert saw is not None
    assert [saw.fence_height, saw.fence_reach, saw.blade_height, saw.longest, saw.farthest] == [
        inches(n) for n in (6, 30, 3, 100, 50)
    ]
    assert saw.dado_widths == (inches("1/4"), inches("3/8"))
    assert router is not None
    assert (router.base, router.guide_reach, router.offset(router.base / 26)) == (inches("6 1/2"), inches(8), inches("3 1/8"))
    assert (machines.has_mortiser, machines.has_drill) == (False, False)
    limits = machines.limits
    sizes = [limits.deepest_pass, limits.narrow, limits.short, limits.smallest, limits.tallest_on_end]
    assert sizes == [inches(n) for n in ("1/8", 2, 10, 5, 20)]


def test_what_is_left_out_of_a_table_is_the_usual_figure_and_says_so():
    table = shop_of('router-table = { fence-height = "5" }\n').machines.router_table
    usual = usual_machines(Unit.INCH).router_table
    assert table is not None
    assert usual is not None
    assert (table.fence_reach, table.fence_reach.origin, table.fence_height) == (usual.fence_reach, "default", inches(5))


def test_false_where_the_shop_has_none_and_true_where_the_job_borrows_one():
    has_none = 'units = "inch"\nrouter-table = false\ntable-saw = false\nhand-router = false\nmortiser = false\n'
    machines = shop_of("", has_none).machines
    assert (machines.router_table, machines.table_saw, machines.hand_router, machines.has_mortiser) == (None, None, None, False)
    borrowed = shop_of('router-table = true\ntable-saw = { blade-height = "2" }\nmortiser = true\n', has_none).machines
    assert borrowed.router_table == usual_machines(Unit.INCH).router_table
    assert borrowed.table_saw is not None
    assert borrowed.table_saw.blade_height == inches(2)
    assert (borrowed.hand_router, borrowed.has_mortiser) == (None, True)


def test_a_shop_file_keeps_its_own_units_in_a_job_of_the_other():
    machines = shop_of("", 'units = "mm"\nrouter-table = { fence-height = 110 }\n').machines
    assert machines.router_table is not None
    assert machines.router_table.fence_height == mm(110)
    assert machines.router_table.fence_reach == inches(8)


def test_the_order_of_choice():
    assert shop_of('first-choice = ["table saw"]\n').machines.first_choice == (
        MachineKind.TABLE_SAW, MachineKind.ROUTER_TABLE, MachineKind.HAND_ROUTER,
    )  # fmt: skip


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("router-tabel = false", "there is no key 'router-tabel' here; the nearest is 'router-table'."),
        (
            "router-table = { fence-hight = 4 }",
            "shop, router-table: there is no key 'fence-hight' here; the nearest is 'fence-height'.",
        ),
        ("router-table = 4", "write false where the shop has none, or a table with its sizes"),
        ("table-saw = { blade-height = 0 }", "shop, table-saw, blade-height: 0 in is not a size; it must be more than 0."),
        ("table-saw = { dado-set = [] }", "Write the widths your dado set stacks to"),
        ("table-saw = { dado-set = [0.25, -1] }", "shop, table-saw, dado-set 2: -1 in is not a size"),
        ('hand-router = { offset = { distance = "2 7/8" } }', "cutter is missing; write the cutter of the trial cut"),
        ("mortiser = 3", "write true or false here."),
        ('first-choice = ["bandsaw"]', '"bandsaw" is not known here; write "router table", "table saw" or "hand-held router"'),
        ('first-choice = ["table saw", "table saw"]', "first-choice names the table saw twice"),
        ("limits = { narow = 3 }", "shop, limits: there is no key 'narow' here; the nearest is 'narrow'."),
    ],
)
def test_what_is_wrong_is_said_with_its_line_and_what_would_do(line, says):
    found = only_trouble(f"{GOOD}\n[shop]\n{line}\n")
    assert found.startswith(("chest.toml:28: ", "chest.toml:27: shop: first-choice names"))
    assert says in found


def test_what_is_wrong_in_a_shop_file_is_said_with_that_files_line():
    (found,) = troubles_in(f'shop = "my.shop.toml"\n{GOOD}', 'units = "mm"\ntable-saw = { dado = 5 }\n', "my.shop.toml")
    assert found == "my.shop.toml:2: table-saw: there is no key 'dado' here; the nearest is 'dado-set'."


def by_cut(found, word):
    """The cards that cut what is called ``word``."""
    return [card for card in found.settings if any(word in name for name in card.cut_names)]


def test_without_router_table_and_dado_set_a_case_gets_its_dadoes_by_straightedge_with_the_measured_offset():
    shop = 'router-table = false\nhand-router = { base = "6", offset = { distance = "2 7/8 in", cutter = "1/4 in" } }\n'
    worked_out, found = made(shop, rail="9", offset='bottom-offset = "8"')
    (card,) = [each for each in by_cut(found, "bottom dado") if each.guide is Guide.STRAIGHTEDGE]
    assert card.machine is MachineKind.HAND_ROUTER
    # Edge of the base to the middle of the cutter is 2 7/8 + 1/8 = 3 in; this cutter is 1/2 in wide.
    assert card.tool.width == inches("1/2")
    assert card.offset == inches("2 3/4")
    assert card.passes[-1].guide == card.near_side - inches("2 3/4")
    assert "no router table" in card.reason.what
    assert cut_alike(worked_out, found)


def test_without_router_table_a_saw_with_a_dado_set_cuts_them():
    worked_out, found = made('router-table = false\ntable-saw = { dado-set = ["1/4", "3/8", "1/2"] }\n')
    cards = by_cut(found, "bottom dado")
    assert {(card.machine, card.tool.kind) for card in cards} == {(MachineKind.TABLE_SAW, ToolKind.DADO_SET)}
    assert cut_alike(worked_out, found)


def test_without_a_mortiser_mortises_are_routed_or_refused_with_the_cutter_that_would_do():
    long_cutter = 'mortiser = false\ncutters = [{ diameter = "4 mm", reach = "30 mm" }, { diameter = "1/4", reach = "1" }]\n'
    worked_out, found = made(long_cutter)
    cards = [card for card in found.settings if card.role.value == "mortise"]
    assert cards
    assert {card.machine for card in cards} == {MachineKind.HAND_ROUTER}
    assert cut_alike(worked_out, found)
    short = (
        'mortiser = false\nhand-tools = false\ncutters = [{ diameter = "4 mm", reach = "3/8" }, { diameter '
        '= "1/4", reach = "3/8" }]\n'
    )
    worked_out = plan(read_job(CASE.format(rail="2", offset="") + short, "case.toml"))
    refused = [one for one in worked_out.findings if one.harm is Harm.REFUSE and one.kind in ("mortiser", "mortise cutter")]
    assert refused
    assert worked_out.is_refused
    assert all("would do" in finding.remedy for finding in refused)


def kinds(found, harm):
    return {finding.kind for finding in found.findings if finding.harm is harm}


#: What a shop lacks, how bad that is, the kind of the finding, and a word of the way out.
LACKS = {
    "the cutters are all too wide": (
        'hand-tools = false\ntable-saw = false\ncutters = [{ diameter = "1", reach = "1" }]', Harm.REFUSE, "cutter", "would do",
    ),
    "the cutters are all too short": (
        'hand-tools = false\ntable-saw = false\ncutters = [{ diameter = "1/8", reach = "1/8" }]', Harm.REFUSE,
        "cutter reach", "that reaches",
    ),
    "the saw cuts too low": (
        'hand-tools = false\nrouter-table = false\nhand-router = false\ntable-saw = { blade-height = "1/8" }', Harm.REFUSE,
        "blade height", "Cut it with a router",
    ),
    "there is no machine": (
        'hand-tools = false\nrouter-table = false\nhand-router = false\ntable-saw = false', Harm.REFUSE, "machine", "would do",
    ),
    "every part is too small to run": (
        'hand-tools = false\nlimits = { smallest = "60" }', Harm.REFUSE, "small part", "cut the part off it afterwards",
    ),
    "the fence is low": ('router-table = { fence-height = "2" }', Harm.WARN, "tall part", "Screw a tall board to the fence"),
}  # fmt: skip


@pytest.mark.parametrize("lack", LACKS)
def test_what_a_shop_cannot_do_is_refused_or_warned_of_with_the_way_out(lack):
    shop, harm, kind, way_out = LACKS[lack]
    joints = 'front-joint = "half-blind locking rabbet"' if kind == "tall part" else 'back-joint = "dado"'
    worked_out = plan(read_job(f"{GOOD}\n[shop]\n{shop}\n".replace("[[drawer]]", f"{joints}\n[[drawer]]"), "x.toml"))
    found = settings_for(worked_out.boards, worked_out.shop)
    # Some of it is found by the joints already, before there is anything to set.
    said = [finding for finding in (*worked_out.findings, *found.findings) if finding.kind == kind]
    assert said
    assert all(finding.harm is harm and way_out in finding.remedy for finding in said)


def test_a_part_too_tall_to_stand_is_cut_another_way_and_the_card_says_why():
    text = GOOD.replace("[[drawer]]", 'front-joint = "half-blind locking rabbet"\n[[drawer]]')
    worked_out = plan(read_job(text + '\n[shop]\nlimits = { tallest-on-end = "12" }\n', "x.toml"))
    found = settings_for(worked_out.boards, worked_out.shop)
    (slot,) = by_cut(found, "slot")
    assert slot.machine is MachineKind.HAND_ROUTER
    assert "stand" in slot.reason.what
    assert slot.height == Fraction(483, 1000) * inches(1)


def test_a_fence_height_nobody_wrote_is_asked_for():
    text = GOOD.replace("[[drawer]]", 'front-joint = "half-blind locking rabbet"\n[[drawer]]')
    asked = {}
    for shop in ("", '\n[shop]\nrouter-table = { fence-height = "3" }\n'):
        worked_out = plan(read_job(text + shop, "x.toml"))
        (said,) = [one for one in worked_out.findings if one.kind == "tall part"]
        asked[shop] = said.way_out(worked_out.rule.text)
    assert [("write its fence-height under router-table in [shop]" in way_out) for way_out in asked.values()] == [True, False]
