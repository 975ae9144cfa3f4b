"""Whatever the parts, every layout can be sawn as it stands, and nothing is lost."""

from functools import cache
from itertools import pairwise

from hypothesis import given, settings
from hypothesis import strategies as st

from joinlay.cutlist.layouts import FrontColumn, OffcutLimits, lay_out
from joinlay.cutlist.pattern import Blank, PartToSaw
from joinlay.jobs.on_hand import FirstCut
from joinlay.lengths import ZERO, Length, dimension, inches, mm
from tests.unit.cutlist.sawyer import check_every_piece_once, check_sheet

LIMITS = OffcutLimits(mm(300), mm(100))


@cache
def _lengths(least: int, most: int) -> st.SearchStrategy[Length]:
    """Inch and metric sizes mixed, as jobs have them."""
    return st.one_of(
        st.integers(least * 2, most * 2).map(lambda n: mm(n) / 2),
        st.integers(least * 16 // 25, most * 16 // 25).map(lambda n: inches(1) * n / 16),
    )


@st.composite
def _pieces(draw, most=14):
    made = []
    for n in range(draw(st.integers(0, most))):
        length, width = dimension(draw(_lengths(60, 1300))), dimension(draw(_lengths(40, 700)))
        made += [PartToSaw(f"part {n}.{k}", n, length, width, draw(st.booleans())) for k in range(draw(st.integers(1, 3)))]
    return made


@st.composite
def _blanks(draw):
    return [
        Blank(f"offcut {n}", draw(_lengths(100, 1500)), draw(_lengths(80, 900)), ZERO, grain_known=draw(st.booleans()))
        for n in range(draw(st.integers(0, 3)))
    ]


_WHOLE = st.sampled_from([
    Blank("8 by 4", inches(96), inches(48), mm(6), is_whole=True),
    Blank("square", mm(1525), mm(1525), mm(2), is_whole=True),
    Blank("clean", mm(2440), mm(1220), ZERO, is_whole=True),
    None,
])  # fmt: skip
_KERFS = st.sampled_from([mm(3), inches("1/8"), inches("3/32"), mm("2.4")])


@given(_pieces(), _blanks(), _WHOLE, _KERFS, st.sampled_from(FirstCut))
@settings(max_examples=40, deadline=None)
def test_every_layout_can_be_sawn_and_has_every_part_once(pieces, on_hand, whole, kerf, first_cut):
    laid = lay_out(pieces, on_hand, whole, kerf, first_cut, LIMITS)
    check_every_piece_once(pieces, laid.sheets, laid.left_out)
    for sheet in laid.sheets:
        check_sheet(sheet, kerf, first_cut)
    assert sum(sheet.blank.is_whole for sheet in laid.sheets) >= laid.least_whole


@given(_pieces(most=6), st.lists(_lengths(80, 260), min_size=2, max_size=5), _lengths(300, 700), _KERFS, st.booleans())
@settings(max_examples=25, deadline=None)
def test_a_column_of_fronts_stays_together_in_its_order(others, heights, wide, kerf, across):
    whole = Blank("8 by 4", inches(96), inches(60), mm(6), is_whole=True)
    # Fronts of a bank may differ a little in width too.
    fronts = [
        PartToSaw(f"front {n}", 99, dimension(wide + mm(n) if across else high), dimension(high if across else wide + mm(n)))
        for n, high in enumerate(heights)
    ]
    laid = lay_out([*others, *fronts], [], whole, kerf, FirstCut.RIP, LIMITS, [FrontColumn(tuple(fronts), across)])
    check_every_piece_once([*others, *fronts], laid.sheets, laid.left_out)
    for sheet in laid.sheets:
        check_sheet(sheet, kerf, FirstCut.RIP)
    places = {piece.piece.name: (n, piece.panel) for n, sheet in enumerate(laid.sheets) for piece in sheet.pieces}
    for upper, lower in pairwise(fronts):
        (one, above), (other, below) = places[upper.name], places[lower.name]
        assert one == other
        if across:
            assert above.along == below.along
            assert below.across == above.across + above.width + kerf
        else:
            assert above.across == below.across
            assert below.along == above.along + above.length + kerf
