"""One slip in a key or a heading is told once, and nothing of what would only follow from it."""

from pathlib import Path

import pytest

from joinlay.jobs.source import read_source
from joinlay.jobs.tables.file import JobFile
from joinlay.jobs.tables.shop import ShopFile
from tests.odd_pieces import SOUND, sound_piece
from tests.unit.jobs.jobs import GOOD, only_trouble, troubles_in, with_line

CHEST = (Path(__file__).parents[3] / "examples" / "print-chest.toml").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("right", "slip", "said"),
    [
        ('width = "36"', 'wdith = "36"', "case: there is no key 'wdith' here; the nearest is 'width'."),
        ('width = "36"', 'Width = "36"', "case: there is no key 'Width' here; the nearest is 'width'."),
        ("[case]", "[cases]", "there is no key 'cases' here; the nearest is 'case'."),
        ("[[bank]]", "[[banks]]", "there is no key 'banks' here; the nearest is 'bank'."),
        (
            "[[bank]]",
            "[bank]",
            "bank: this is a table, where a list is wanted; write [[bank]], two brackets each side, for each.",
        ),
        ("[stock.maple]", "[Stock.maple]", "there is no key 'Stock' here; the nearest is 'stock'."),
        ("[drawers]", "[Drawers]", "there is no key 'Drawers' here; the nearest is 'drawers'."),
        ('units = "inch"', 'unit = "inch"', "there is no key 'unit' here; the nearest is 'units'."),
        ("cutters = [", "cuters = [", "shop: there is no key 'cuters' here; the nearest is 'cutters'."),
        ('{ thickness = "4 mm" }', '{ thicknes = "4 mm" }', "shop, tenon 1: there is no key 'thicknes' here"),
        ('top-rail = "1 1/2"', 'top_rail = "1 1/2"', "frame: there is no key 'top_rail' here; the nearest is 'top-rail'."),
        ('kerf = "1/8"', 'kerff = "a hair"', "shop: there is no key 'kerff' here; the nearest is 'kerf'."),
    ],
)
def test_a_slip_is_told_alone(right, slip, said):
    assert CHEST.count(right) == 1
    text = CHEST.replace(right, slip)
    trouble = only_trouble(text)
    assert said in trouble
    assert int(trouble.split(":")[1]) == text[: text.index(slip)].count("\n") + 1


def test_lengths_are_read_in_the_unit_that_was_meant():
    metric = sound_piece(SOUND["millimetres"]).replace('units = "mm"', 'unit = "mm"')
    assert only_trouble(metric).endswith("there is no key 'unit' here; the nearest is 'units'.")


@pytest.mark.parametrize("heading", ["case", "frame", "shop", "pulls", "drawers"])
def test_keys_whose_heading_is_missing_are_told_together(heading):
    trouble = only_trouble(CHEST.replace(f"[{heading}]\n", "\n"))
    assert f"are keys of [{heading}], and that heading is missing above them; write [{heading}] there." in trouble


def test_so_is_one_of_two_brackets():
    assert "drawers, graduation and step are keys of [[bank]]" in only_trouble(CHEST.replace("[[bank]]\n", "\n"))


def test_a_stock_without_a_name_is_told_and_asked_for_one():
    (first, *rest) = troubles_in(GOOD.replace("[stock.thin]", "[stock]"))
    assert "nominal stands under [stock] alone; each stock has a name: write [stock.birch-12], say." in first
    assert len(rest) == 1
    assert 'there is no stock called "thin"; the job has "cherry" or "birch".' in rest[0]


def test_what_else_is_wrong_is_still_told():
    found = troubles_in(CHEST.replace("[case]", "[cases]").replace('height = "22"', 'height = "high"'))
    assert [line.split(": ", 1)[1][:40] for line in found] == [
        "there is no key 'cases' here; the neares", "case, height: 'high' cannot be read as a"
    ]  # fmt: skip


def test_a_key_that_is_there_already_is_not_meant_twice():
    assert only_trouble(with_line("[drawers]", 'sidse = "birch"')).endswith(
        "there is no key 'sidse' here; the nearest is 'sides'."
    )


def test_a_key_of_another_table_is_told_where_it_stands():
    assert "there is no key 'kerf' here; it stands under [shop]." in only_trouble(with_line("[drawers]", 'kerf = "1/8"'))
    assert "there is no key 'stile' here; it stands under [frame]." in only_trouble(with_line("[drawers]", 'stile = "1/8"'))


def test_a_file_of_strangers_costs_no_time():
    text = "".join(f"k{n} = 1\n" for n in range(4_000))
    assert len(troubles_in(text + GOOD)) == 51


def test_nothing_is_changed_of_a_file_without_slips():
    for text, model in ((GOOD, JobFile), (CHEST, JobFile), ('kerf = "1/8"\n', ShopFile)):
        source = read_source(text, "job.toml")
        assert as_it_stands(source, model) == (source, [])


def as_it_stands(source, model):
    from joinlay.jobs.misspelt import as_meant

    return as_meant(source, model, str)
