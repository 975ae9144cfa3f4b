"""A shop file that many jobs share."""

from joinlay.jobs.reader import named_shop_file, read_job
from joinlay.lengths import inches, mm
from joinlay.shop import usual_shop
from tests.unit.jobs.jobs import GOOD, troubles_in

SHOP = """\
units = "mm"
smallest = "0.1 mm"
kerf = 2.4
cutters = [{ diameter = 6, reach = 25 }]

[practice]
side-clearance = 1
tip-gap = 0.5
"""

NAMES_IT = 'shop = "my.shop.toml"\n' + GOOD


def read(text, shop=SHOP):
    return read_job(text, "chest.toml", shop, "my.shop.toml")


def test_the_name_of_the_file_is_found():
    assert named_shop_file(GOOD, "chest.toml") is None
    assert named_shop_file(NAMES_IT, "chest.toml") == "my.shop.toml"
    assert named_shop_file(GOOD + '\n[shop]\nfile = "my.shop.toml"\n', "chest.toml") == "my.shop.toml"
    assert named_shop_file("shop = 3\n", "chest.toml") is None


def test_a_shop_file_is_read_in_its_own_units():
    job = read(NAMES_IT)
    assert job.shop.saw.kerf == mm("2.4")
    assert job.shop.saw.kerf.origin == "my.shop.toml:3"
    assert job.shop.cutters[0].diameter == mm(6)
    assert job.shop.practice.length("side clearance") == mm(1)
    assert job.drawers[0].opening.width == inches("18 3/8")


def test_what_the_file_leaves_out_is_the_usual_shop_s():
    assert read(NAMES_IT).shop.tenons == usual_shop(job_unit()).tenons


def job_unit():
    return read(GOOD, None).unit


def test_the_job_goes_over_the_file():
    text = GOOD.replace('smallest = "1/32 in"\n', "")
    own = read(text + '\n[shop]\nfile = "my.shop.toml"\nkerf = "1/8"\n\n[practice]\ntip-gap = "1/64"\n')
    assert own.shop.saw.kerf == inches("1/8")
    assert own.shop.cutters[0].diameter == mm(6)
    assert own.shop.practice.length("tip gap") == inches("1/64")
    assert own.shop.practice.length("side clearance") == mm(1)


def test_the_rule_of_a_shop_in_the_other_unit_is_no_help():
    text = NAMES_IT.replace('smallest = "1/32 in"\n', "")
    assert read(text).rule.division == inches("1/32")
    assert read(text, SHOP.replace("0.1 mm", "1/64 in")).rule.division == inches("1/64")
    assert read(NAMES_IT, SHOP.replace("0.1 mm", "1/64 in")).rule.division == inches("1/32")


def test_troubles_in_both_files_are_said_together():
    found = troubles_in(
        NAMES_IT.replace('"cherry"', '"chery"'), SHOP.replace("kerf", "curf").replace(", reach = 25", ""), "my.shop.toml"
    )
    assert [trouble[: trouble.index(" ")] for trouble in found] == ["chest.toml:21:", "my.shop.toml:3:", "my.shop.toml:4:"]
    assert "cutter 1: reach is missing" in found[2]


def test_a_shop_file_must_say_its_units():
    found = troubles_in(NAMES_IT, "kerf = 3\n", "my.shop.toml")
    assert found == ['my.shop.toml: units is missing; write units = "inch" or units = "mm".']


def test_a_shop_file_that_is_not_there_or_not_toml():
    assert troubles_in(NAMES_IT) == [
        "chest.toml:1: shop: there is no shop file 'my.shop.toml' beside the job; write its name as it is, or leave this out."
    ]
    assert troubles_in(NAMES_IT, "kerf = ", "my.shop.toml")[0].startswith("my.shop.toml:1: this is not TOML: ")


def test_a_shop_file_names_no_other():
    assert (
        "there is no key 'file' here" in troubles_in(NAMES_IT, SHOP.replace("kerf = 2.4", "file = 'x.toml'"), "my.shop.toml")[0]
    )
