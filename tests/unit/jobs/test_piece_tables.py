"""The tables of a job that describe the whole piece, its pulls and its banding."""

from fractions import Fraction

import pytest
from pydantic import ValidationError

from joinlay.boards import Datum, Surface
from joinlay.casework.graduation import Arithmetic, ByShares, Equal, Geometric, OneByOne
from joinlay.casework.pulls import ByEye, ByStep
from joinlay.casework.shelves import Lipping, OpenMake
from joinlay.errors import BadInput
from joinlay.jobs.source import read_source
from joinlay.jobs.tables.case_and_frame import PieceTables, piece_spec
from joinlay.jobs.tables.drawers import DrawersEntry
from joinlay.jobs.tables.finish import BandingEntry, PullsEntry
from joinlay.jobs.tables.given import Context
from joinlay.lengths import Unit, dimension, inches
from joinlay.shop import usual_shop
from tests import by_hand
from tests.assembly.pieces import ply, solid, whole

STOCKS = {"cherry": solid("3/4"), "ply": ply("3/4"), "half": ply("1/2"), "thin": ply("1/4"), "maple": solid("3/4", "red maple")}
READING = Context(Unit.INCH, tuple(STOCKS))
SHOP = usual_shop(Unit.INCH)
CASE = 'width = "24"\nheight = "36"\ndepth = "20"'
JOB = """
[case]
{case}
sides = "ply"
back = "thin"
[frame]
stock = "cherry"
[runners]
stock = "maple"
[[bank]]
{bank}
"""
DRAWERS = 'front = "cherry"\nsides = "half"\nbottom = "thin"'


def part(model, text):
    return model.model_validate(read_source(text, "job.toml").tree, context=READING)


def spec(bank="drawers = 4", case=CASE, more=""):
    tables = part(PieceTables, JOB.format(bank=bank, case=case) + more)
    return piece_spec(tables, part(DrawersEntry, DRAWERS), STOCKS, SHOP, lambda given: SHOP.tenons[0])


def test_a_described_piece_is_planned_whole():
    wanted = spec()
    assert (wanted.width, wanted.height, wanted.depth) == (inches(24), inches(36), inches(20))
    assert wanted.height.origin == "job.toml:4"
    assert len(whole(wanted, SHOP).drawers) == 4


def test_no_tables_describe_no_piece():
    assert piece_spec(part(PieceTables, ""), DrawersEntry(), STOCKS, SHOP, lambda given: SHOP.tenons[0]) is None


def test_half_a_piece_says_what_is_missing():
    tables = part(PieceTables, '[frame]\nstock = "cherry"')
    with pytest.raises(BadInput, match=r"lacks its \[case\]"):
        piece_spec(tables, DrawersEntry(), STOCKS, SHOP, lambda given: SHOP.tenons[0])


@pytest.mark.parametrize(
    ("bank", "division"),
    [
        ("drawers = 3", Equal(3)),
        ('drawers = 3\ngraduation = "arithmetic"', Arithmetic(3, dimension(inches(1)))),
        ('drawers = 3\ngraduation = "arithmetic"\nstep = "1/2"', Arithmetic(3, dimension(inches("1/2")))),
        ('drawers = 3\ngraduation = "geometric"\nratio = "6/5"', Geometric(3, Fraction(6, 5))),
        ('drawers = 3\ngraduation = "geometric"', Geometric(3, Fraction(9, 8))),
        ('heights = ["4", "fill", "6"]', OneByOne((dimension(inches(4)), None, dimension(inches(6))))),
    ],
)
def test_a_bank_is_divided_as_it_says(bank, division):
    assert spec(bank).banks[0].heights == division


def test_rows_say_what_stands_side_by_side():
    (bank,) = spec('rows = [2, 1, { widths = ["6", "fill"] }, { shares = [1, "1/2", 1] }]\nmullion = "1"\nremainder = 4').banks
    assert bank.by_row == (2, 1, 2, 3)
    assert bank.heights == Equal(4)
    assert bank.mullion == inches(1)
    assert [row.widths for row in bank.rows] == [
        None, None, OneByOne((dimension(inches(6)), None)), ByShares((Fraction(1), Fraction(1, 2), Fraction(1)))
    ]  # fmt: skip
    assert bank.rows[2].widths.given[0].name == "drawer 4 opening width asked for"
    assert len(whole(spec("rows = [2, 1]"), SHOP).drawers) == 3


def test_a_row_may_be_an_open_bay_with_shelves():
    (bank,) = spec(
        'rows = ["open", { fixed = 2, lipping = { stock = "cherry", height = "1 1/2" } }, { loose = 1, stock = "half" }, 1]'
    ).banks
    first, second, third, _ = bank.rows
    assert (first.count, first.open) == (0, OpenMake())
    assert second.open == OpenMake(fixed=2, lipping=Lipping(STOCKS["cherry"], dimension(inches("1 1/2"))))
    assert third.open == OpenMake(loose=1, stock=STOCKS["half"])
    assert len(bank.drawers) == 1


def test_places_of_a_row_may_be_left_open_with_shelves():
    (bank,) = spec('rows = [{ widths = ["4", "fill", "5"], left-open = [1], loose = 1, stock = "half" }, 1]').banks
    row = bank.rows[0]
    assert (row.count, row.left_open, row.open) == (2, (1,), OpenMake(loose=1, stock=STOCKS["half"]))
    assert [one.name for one in row.widths.given if one is not None] == [
        "open bay 1 opening width asked for",
        "drawer 2 opening width asked for",
    ]
    assert len(bank.drawers) == 3


def test_a_bank_of_shelves_alone_needs_no_runners():
    tables = part(PieceTables, JOB.format(bank="rows = [{ fixed = 1 }]", case=CASE).replace('[runners]\nstock = "maple"\n', ""))
    wanted = piece_spec(tables, DrawersEntry(), STOCKS, SHOP, lambda given: SHOP.tenons[0])
    assert wanted is not None
    assert whole(wanted, SHOP).drawers == ()


def test_heights_of_rows_are_named_after_all_their_drawers():
    (bank,) = spec('rows = [2, 3]\nheights = ["4", "fill"]').banks
    assert bank.heights.given[0].name == "drawers 1 and 2 opening height asked for"


def test_drawers_of_a_bank_may_differ_from_the_others():
    wanted = spec('drawers = 1\n[[bank]]\ndrawers = 2\nfront = "ply"\ntaper = "1/32"')
    first, second = (bank.drawers[0] for bank in wanted.banks)
    assert (first.make.front.name, second.make.front.name) == (STOCKS["cherry"].name, STOCKS["ply"].name)
    assert second.shop.practice.length("taper") == inches("1/32")
    assert second.shop.practice.length("taper").name == "drawer 2 taper"


@pytest.mark.parametrize(("word", "place"), [('"top"', 0), ('"bottom"', -1), ("2", 1)])
def test_the_remainder_of_rounding_goes_where_it_is_put(word, place):
    assert spec(f"drawers = 4\nremainder = {word}").banks[0].rounding.remainder == place


def test_banks_may_have_widths():
    widths = spec('drawers = 1\nwidth = "8"\n[[bank]]\ndrawers = 1').widths
    assert widths == OneByOne((dimension(inches(8)), None))
    assert spec("drawers = 1\n[[bank]]\ndrawers = 1").widths is None
    with pytest.raises(BadInput, match="leave one at most"):
        spec('drawers = 1\nwidth = "8"\n[[bank]]\ndrawers = 1\n[[bank]]\ndrawers = 1')


def test_a_size_that_nothing_gives_is_missed():
    with pytest.raises(BadInput, match="height is missing"):
        spec("drawers = 2", 'width = "24"')


def test_a_room_gives_the_piece_its_sizes():
    wanted = spec(case='room = { width = "40", height = "90", depth = "22", beside = "1/2", above = "2" }')
    assert (wanted.width, wanted.height, wanted.depth) == (inches(39), inches(88), inches(22))


def test_stops_are_of_the_runners_stock_or_left_out():
    assert spec().stops.stock is STOCKS["maple"]
    assert spec(more='[stops]\nstock = "ply"').stops.stock is STOCKS["ply"]
    assert spec(more='[stops]\nkind = "none"').stops is None


@pytest.mark.parametrize(
    ("bank", "case", "said"),
    [
        ("", CASE, "write drawers = and how many"),
        ('drawers = 2\nheights = ["4", "5"]', CASE, "write drawers = and how many"),
        ('heights = ["fill", "fill"]', CASE, "only one can take what is left"),
        ('heights = ["4"]\ngraduation = "equal"', CASE, "leave one of them out"),
        ('drawers = 2\nstep = "1"', CASE, 'step is for graduation = "arithmetic"'),
        ('drawers = 2\ngraduation = "arithmetic"\nratio = 2', CASE, 'ratio is for graduation = "geometric"'),
        ("drawers = 2\nremainder = 3", CASE, "the bank has 2"),
        ('drawers = 2\nremainder = "middle"', CASE, "counted from the top"),
        ('drawers = 2\nopening = { width = "4" }', CASE, "leave opening out"),
        ("drawers = 2\nrows = [2]", CASE, "leave one of them out"),
        ('rows = [2, 1]\nheights = ["4"]', CASE, "there are 2 rows and 1 heights"),
        ("rows = [2, 1]\nremainder = 3", CASE, "goes to row 3, but the bank has 2"),
        ('rows = [1, 1]\nmullion = "1"', CASE, "no row of this bank has two"),
        ("rows = []", CASE, "rows"),
        ('rows = ["two"]', CASE, "how many drawers stand side by side"),
        ("rows = [0]", CASE, "from 1 to 100"),
        ("rows = [21]", CASE, "the most is 20"),
        ("rows = [{ drawers = 2, shares = [1, 2] }]", CASE, "write one of them"),
        ('rows = [{ widths = ["fill", "fill"] }]', CASE, "only one can take what is left"),
        ("rows = [{ shares = [1, 0] }]", CASE, "more than 0"),
        ("rows = [{ fixed = 1, drawers = 2 }]", CASE, "fixed is for an open bay, and drawers puts drawers"),
        ("rows = [{ fixed = 1, drawers = 2 }]", CASE, "left-open = [2]"),
        ("rows = [{ fixed = 1, left-open = [1] }]", CASE, "write drawers =, widths = or shares = beside it"),
        ("rows = [{ drawers = 2, left-open = [4] }]", CASE, "names place 4, and with drawers this row has 3"),
        ("rows = [{ shares = [1, 1], left-open = [2, 2] }]", CASE, "names a place twice"),
        ("rows = [{ drawers = 2, left-open = [2], open = true }]", CASE, "open is for an open bay"),
        ('rows = [{ drawers = 2, left-open = [1], between = "double bearer" }]', CASE, 'write between = "partition"'),
        ("rows = [{ drawers = 20, left-open = [1] }]", CASE, "a row of 21 places"),
        ('rows = [{ drawers = 1, left-open = [1], stock = "ply" }]', CASE, "this one has none"),
        ("rows = [{ fixed = 1, loose = 2 }]", CASE, "a bay has fixed shelves or loose ones"),
        ("rows = [{ open = false }]", CASE, "a row that isn't open says"),
        ('rows = [{ load = "40 lb" }]', CASE, "neither drawers nor shelves"),
        ('rows = [{ open = true, stock = "ply" }]', CASE, "this one has none"),
        ('rows = [{ loose = 1, lipping = { stock = "cherry", height = "1" } }]', CASE, "glued to fixed shelves"),
        ('rows = [{ fixed = 1, stock = "elm" }]', CASE, "there is no stock called"),
        ("drawers = 2", CASE + '\nroom = { width = "4", height = "4", depth = "4" }', "leave one of them out"),
    ],
)
def test_tables_that_do_not_fit_together_say_why(bank, case, said):
    with pytest.raises(ValidationError) as caught:
        spec(bank, case)
    assert said in str(caught.value)


PULLS = 'stock = "walnut"\ndiameter = "1"\nprojection = "1"\nhole = "3/8"\n'


def test_pulls_are_read_with_their_growth_and_dot():
    pulls = part(
        PullsEntry, PULLS + 'growth = "step"\nstep = "1/8"\nshare = "1/5"\ndot = { diameter = "1/4", alike = 2, depth = "3/8" }'
    ).pulls()
    assert isinstance(pulls.growth, ByStep)
    assert (pulls.growth.step, pulls.share, pulls.dot.alike) == (inches("1/8"), Fraction(1, 5), 2)
    eye = part(PullsEntry, PULLS + 'growth = "eye"\neye = { height = "60", distance = "40" }').pulls().growth
    assert isinstance(eye, ByEye)
    assert eye.distance == inches(40)
    assert part(PullsEntry, PULLS).pulls().growth is None


@pytest.mark.parametrize(
    ("more", "said"),
    [('growth = "eye"', "write both or neither"), ('step = "1/8"', 'growth = "step"'), ("count = 3", "write 1 or 2")],
)
def test_pulls_that_do_not_fit_together_say_why(more, said):
    with pytest.raises(ValidationError) as caught:
        part(PullsEntry, PULLS + more)
    assert said in str(caught.value)


def test_banding_finds_its_edges_by_the_words_of_the_part():
    datum = Datum("inside face", "bottom edge", "left end", "outside face", "top edge", "right end")
    length, width, thickness = (dimension(inches(n)) for n in (18, 6, 1))
    board = by_hand.board("drawer 1 front", "drawer front", "ply", length, width, thickness, datum)
    text = 'part = "drawer front"\nstock = "cherry edging"\nthickness = "1/32"\n'
    assert part(BandingEntry, text + 'edges = ["top edge", "left end"]').banding_on(board).surfaces == (
        Surface.FAR_EDGE,
        Surface.END,
    )
    assert len(part(BandingEntry, text).banding_on(board).surfaces) == 4
    with pytest.raises(BadInput, match='the nearest is "top edge"'):
        part(BandingEntry, text + 'edges = ["top edges"]').banding_on(board)
