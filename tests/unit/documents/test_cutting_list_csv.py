"""The cutting list in a spreadsheet: one row a part, units said, nothing run as a formula, nothing taken for a date."""

import csv
import io
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from joinlay.boards import Band, Surface, Taper
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.documents.cutting_list_csv import cutting_list_csv
from joinlay.lengths import NOTHING, Unit
from tests.unit.cutlist.bench import board, cherry, make_plan, ply, size


def rows(*boards, **more):
    plan = make_plan(*boards, **more)
    content = cutting_list_csv(cutting_list(plan), plan.rule)
    assert content.startswith(b"\xef\xbb\xbf")
    return list(csv.DictReader(io.StringIO(content.decode("utf-8-sig"), newline="")))


def test_one_row_a_part_with_fractions_and_decimals():
    made = rows(
        board("drawer 1 back", "17 25/32", "4 7/32"), board("drawer 2 back", "17 25/32", "4 7/32"),
        board("rail", "20", "3", "cherry", "13/16", "rail"), stocks={"ply": ply(), "cherry": cherry()},
    )  # fmt: skip
    first, second = made
    assert first["names"] == "drawer 1 back; drawer 2 back"
    assert (first["number"], first["quantity"], first["stock"], first["part"]) == ("1", "2", "ply", "drawer side")
    assert (first["finished length (as read)"], first["finished length (in)"]) == ("17 25/32 in", "17.78125")
    assert (first["thickness (as read)"], first["thickness (in)"]) == ("1/2 in", "0.5")
    assert (first["rough length (in)"], first["core length (in)"], first["grain"]) == ("", "", "with the length")
    assert (second["rough length (as read)"], second["rough width (in)"]) == ("20 1/2 in", "3.25")


def test_cores_and_bands():
    bands = (Band(Surface.FAR_EDGE, "cherry tape", size("1/16"), size("22"), 1),)
    (row,) = rows(board("a", bands=bands))
    assert (row["core width (as read)"], row["core length (in)"]) == ("3 15/16 in", "20")
    assert row["banding"] == "top edge: cherry tape"


def test_a_tapered_part_has_both_its_sizes():
    made = rows(board("a", tapers=(Taper(Surface.END, NOTHING, size("1/32")),)), board("b", "21"))
    at_both = "20 in long at the bottom edge, 19 31/32 in long at the top edge (1/32 in off the left end there)"
    assert [row["taper"] for row in made] == [at_both, ""]


def test_millimetres():
    (row,) = rows(board("a", "400.5 mm", "100 mm", thickness="12 mm"), unit=Unit.MM)
    assert (row["finished length (as read)"], row["finished length (mm)"]) == ("400.5 mm", "400.5")


def test_lines_end_as_the_standard_has_them():
    # RFC 4180, section 2: CR LF after each record, the last included.
    plan = make_plan(board("a"))
    content = cutting_list_csv(cutting_list(plan), plan.rule)
    assert content.endswith(b"\r\n")
    assert b"\n" not in content.replace(b"\r\n", b"")


@pytest.mark.parametrize("name", ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "  =1", "＝1", "\r=1"])
def test_nothing_a_maker_wrote_is_run(name):
    (row,) = rows(board(name, stock=name), stocks={})
    assert row["names"].startswith("'")
    assert row["stock"].startswith("'")


@given(st.text(min_size=1, max_size=12))
def test_any_name_survives(name):
    (row,) = rows(board(name), stocks={"ply": ply()})
    shown = row["names"]
    assert shown in (name, f"'{name}")
    assert not re.match(r"\s*[=+\-@]", shown)


@pytest.mark.parametrize("name", ["3/4", "1-2", " 5/16 ", "3/4/25", "2025-11-25"])
def test_a_name_that_looks_like_a_date_stays_a_name(name):
    (row,) = rows(board(name, stock=name), stocks={})
    assert (row["names"], row["stock"]) == (f"'{name}", f"'{name}")


@pytest.mark.parametrize("name", ["3/4 birch", "drawer 1 to 3", "12", "1.5"])
def test_other_names_are_left_alone(name):
    (row,) = rows(board(name), stocks={"ply": ply()})
    assert row["names"] == name


def test_no_fraction_can_be_taken_for_a_date():
    for row in rows(board("a", "5/16", "3/4")):
        assert not any(re.fullmatch(r"\d+/\d+", cell) for cell in row.values())
