"""A job that is right becomes what the engine works with, and every length knows where it was written."""

from fractions import Fraction

import pytest

from joinlay.casework.corners import HALF_BLIND, HOUSED, LOCKED, TENONED
from joinlay.casework.opening import BackHeight
from joinlay.jobs.reader import read_job
from joinlay.lengths import Unit, inches, mm
from joinlay.shop import LENGTH_RULES, RATIO_RULES, usual_shop
from joinlay.stock import Sheet, Solid
from tests.unit.jobs.jobs import GOOD, with_line


def read(text):
    return read_job(text, "chest.toml")


def test_maker_and_date_are_words_of_the_job():
    text = GOOD.replace("[stock", 'maker = "Ada  Fir"\ndate = "28 November 2026"\n\n[stock', 1)
    found = read_job(text, "chest.toml")
    assert (found.maker, found.date) == ("Ada Fir", "28 November 2026")
    assert (read_job(GOOD, "chest.toml").maker, read_job(GOOD, "chest.toml").date) == ("", "")


def test_headings():
    job = read(GOOD)
    assert (job.title, job.file, job.unit, job.paper) == ("Seed chest", "chest.toml", Unit.INCH, "letter")
    assert job.rule.division == inches("1/32")
    assert job.shop.rule == job.rule


def test_what_is_left_out_has_the_usual_value():
    job = read(GOOD.replace('title = "Seed chest"\nunits = "inch"\nsmallest = "1/32 in"\n', ""))
    assert (job.title, job.unit) == ("chest", Unit.INCH)
    assert job.shop == usual_shop(Unit.INCH)
    metric = read(GOOD.replace('"inch"', '"mm"').replace('smallest = "1/32 in"\n', "").replace("60, ", "1500, "))
    assert (metric.unit, metric.paper, metric.rule.division) == (Unit.MM, "a4", mm("0.5"))


def test_stock_of_both_kinds():
    stocks = read(GOOD).stocks
    assert list(stocks) == ["cherry", "birch", "thin"]
    cherry, birch, thin = stocks.values()
    assert isinstance(cherry, Solid)
    assert (cherry.species, cherry.cut, cherry.thickness) == ("black cherry", "flat", inches("3/4"))
    assert isinstance(birch, Sheet)
    assert (birch.kind, birch.measured, birch.length) == ("plywood", inches("0.483"), inches(60))
    assert isinstance(thin, Sheet)
    assert (thin.measured, thin.length, thin.width) == (None, inches(96), inches(48))
    assert thin.length.origin == "default"


def test_a_decimal_keeps_every_figure():
    job = read(GOOD.replace("0.483", "0.4830000000000000000000000000001"))
    assert job.stocks["birch"].thickness.inches == Fraction("0.4830000000000000000000000000001")


@pytest.mark.parametrize("spelled", ["7.10", "+7.1", "7_1.0e-1", '"7.1"', "71e-1"])
def test_a_bare_number_is_exact_or_refused(spelled):
    text = GOOD.replace('"20"', spelled)
    if "e" in spelled:
        with pytest.raises(ValueError, match="write it out in plain figures"):
            read(text)
    else:
        assert read(text).drawers[0].opening.depth == inches("7.1")


def test_every_length_knows_its_file_and_line():
    job = read(GOOD)
    drawer = job.drawers[0]
    assert drawer.origin == "chest.toml:24"
    assert (drawer.opening.width.name, drawer.opening.width.origin) == ("drawer 1 opening width", "chest.toml:25")
    assert drawer.make.front.nominal.origin == "chest.toml:8"
    assert (drawer.make.sides.thickness.name, drawer.make.sides.thickness.origin) == ("birch measured thickness", "chest.toml:13")


def test_drawers_by_count_and_by_name():
    more = '\n[[drawer]]\ncount = 2\nopening = { width = "18", height = "6", depth = "20" }\n'
    named = more.replace("count = 2", 'name = "Top"')
    job = read(GOOD + more + more.replace("count = 2", 'name = "9"\ncount = 2') + named)
    assert [drawer.name for drawer in job.drawers] == ["drawer 1", "drawer 2", "drawer 3", "drawer 9", "drawer 10", "drawer Top"]
    assert job.drawers[2].opening.height.name == "drawer 3 opening height"
    assert job.drawers[2].opening == job.drawers[1].opening


def test_a_drawer_may_say_otherwise_than_all_of_them():
    text = with_line(
        "[drawers]", 'front-joint = "half-blind locking rabbet"\ntaper = "1/16"\nopening.width = "15"\nopening.height = "5"'
    )
    text += (
        '\n[[drawer]]\nfront-joint = "Loose Tenon"\nback-joint = "dado"\nback-height = "on bottom"\nback = '
        '"thin"\nside-height = 3\n'
    )
    text += "taper = 0\nopening = { depth = 21, height = 4 }\n"
    first, second = read(text).drawers
    assert (first.make.front_joint, first.make.back_joint) == (HALF_BLIND, LOCKED)
    assert (second.make.front_joint, second.make.back_joint) == (TENONED, HOUSED)
    assert second.make.back_height is BackHeight.ON_BOTTOM
    assert (second.make.back.name, first.make.back.name) == ("thin", "birch")
    assert second.make.side_height == inches(3)
    assert (first.opening.width, first.opening.height) == (inches("18 3/8"), inches("4 1/4"))
    assert (second.opening.width, second.opening.height, second.opening.depth) == (inches(15), inches(4), inches(21))
    assert first.shop.practice.length("taper") == inches("1/16")
    assert second.shop.practice.length("taper") == mm(0)


def test_a_figure_of_one_drawer_bears_its_name():
    job = read(with_line("[drawers]", 'side-clearance = "1/16"') + 'side-clearance = "3/64"\n')
    own = job.drawers[0].shop.practice.length("side clearance")
    assert (own.name, own.rule, own.origin) == ("drawer 1 side clearance", "DR-1", "chest.toml:27")
    every = read(with_line("[drawers]", 'side-clearance = "1/16"')).drawers[0].shop.practice.length("side clearance")
    assert (every.name, every.origin) == ("side clearance", "chest.toml:20")


@pytest.mark.parametrize(
    ("key", "rule"),
    [
        ("side-clearance", "side clearance"),
        ("top-clearance", "top clearance"),
        ("bottom-clearance", "bottom clearance of the front"),
        ("taper", "taper"),
        ("set-back", "front set-back"),
        ("back-gap", "back gap"),
        ("back-set-in", "back set-in"),
        ("groove-offset", "groove offset"),
        ("groove-depth", "groove depth"),
        ("tip-gap", "tip gap"),
        ("mortise-slack", "mortise slack"),
    ],
)
def test_each_figure_of_a_drawer_sets_its_rule(key, rule):
    drawer = read(f'{GOOD}{key} = "5/16"\n').drawers[0]
    usual = read(GOOD).drawers[0].shop.practice
    assert drawer.shop.practice.length(rule) == inches("5/16") != usual.length(rule)
    others = [row.name for row in LENGTH_RULES if row.name != rule]
    assert all(drawer.shop.practice.length(name) == usual.length(name) for name in others)


@pytest.mark.parametrize("rule", [row.name for row in LENGTH_RULES])
def test_every_length_rule_can_be_set_in_practice(rule):
    key = rule.replace(" ", "-")
    job = read(f'{GOOD}\n[practice]\n{key} = "5/64"\n')
    figure = job.shop.practice.length(rule)
    assert figure == inches("5/64")
    assert figure.rule == next(row.rule for row in LENGTH_RULES if row.name == rule)
    assert figure.origin == "chest.toml:28"
    assert job.drawers[0].shop.practice.length(rule) == figure


@pytest.mark.parametrize("rule", [row.name for row in RATIO_RULES])
def test_every_ratio_rule_can_be_set_in_practice(rule):
    job = read(f'{GOOD}\n[practice]\n{rule.replace(" ", "-")} = "3/7"\n')
    assert job.shop.practice.ratio(rule) == Fraction(3, 7)


def test_ratios_are_whole_decimal_or_fractions():
    job = read(f'{GOOD}\n[practice]\ntenon-depth = 3\ntenon-share = 0.4\nwidest-tenon = "5"\n')
    assert [job.shop.practice.ratio(name) for name in ("tenon depth", "tenon share", "widest tenon")] == [3, Fraction(2, 5), 5]


SHOP = """
[shop]
kerf = "3/32"
cutters = [{ diameter = "1/2", reach = 1 }, { diameter = "1/4", reach = "7/8" }]
tenons = [{ thickness = "6 mm" }, { thickness = "5 mm", width = "25 mm", length = "30 mm", reach = "20 mm" }]
"""


def test_the_shop_takes_the_place_of_the_usual_one():
    job = read(GOOD + SHOP)
    assert job.shop.saw.kerf == inches("3/32")
    assert [(cutter.diameter, cutter.reach) for cutter in job.shop.cutters] == [
        (inches("1/4"), inches("7/8")),
        (inches("1/2"), inches(1)),
    ]
    thin, thick = job.shop.tenons
    assert (thin.thickness, thin.width, thin.length, thin.reach) == (mm(5), mm(25), mm(30), mm(20))
    assert (thick.thickness, thick.width, thick.reach) == (mm(6), None, mm(30))
    assert job.shop.cutters[0].diameter.name == "1/4 cutter"


def test_strip_without_a_reach_goes_five_times_its_thickness_deep():
    # LT-4: 3 to 5 times the thickness; so a 4 mm tenon's mortise is 20 mm deep at most, and what is written stands over it.
    tenons = (
        'tenons = [{ thickness = "4 mm" }, { thickness = "6 mm", reach = "28 mm" }, { thickness = "5 mm", '
        'width = "25 mm", length = "30 mm" }]'
    )
    strip, ready, long = read_job(GOOD.replace("[drawers]", f"[shop]\n{tenons}\n\n[drawers]"), "chest.toml").shop.tenons
    assert (strip.reach, ready.reach, long.reach) == (mm(20), None, mm(28))
    assert strip.reach is not None
    assert (strip.reach.rule, strip.reach.source) == ("LT-4", "Moxon's rule, from memory")
    assert [tenon.reach for tenon in usual_shop(Unit.MM).tenons] == [mm(5 * thick) for thick in (4, 6, 8, 10, 12)]


def test_a_drawer_may_ask_for_one_of_the_shop_s_tenons():
    asked = GOOD.replace('bottom = "thin"', 'bottom = "thin"\ntenon = "5 mm"') + SHOP
    job = read(asked)
    assert job.drawers[0].tenon == job.shop.tenons[0]
    assert read(GOOD + SHOP).drawers[0].tenon is None


def test_the_same_job_twice_is_the_same():
    assert read(GOOD + SHOP) == read(GOOD + SHOP)


def test_windows_line_ends_and_a_byte_order_mark_make_no_difference():
    job = read("\ufeff" + GOOD.replace("\n", "\r\n"))
    assert job == read(GOOD)
    assert job.drawers[0].opening.width.origin == "chest.toml:25"
