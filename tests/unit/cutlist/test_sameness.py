"""Boards are merged only where one can stand in for the other."""

from dataclasses import replace

from joinlay.boards import Band, Surface, Taper
from joinlay.cutlist.sameness import shape_key
from joinlay.lengths import NOTHING
from tests.unit.cutlist.bench import board, groove, left, mortise, right, size


def test_same_wood_has_same_key_whatever_it_is_called():
    one, other = board("drawer 1 back", cuts=[groove()]), board("drawer 2 back", cuts=[replace(groove(), name="other", mate="x")])
    assert shape_key(one) == shape_key(other)


def test_order_of_cuts_does_not_matter():
    cuts = [groove(), mortise("2")]
    assert shape_key(board("a", cuts=cuts)) == shape_key(board("a", cuts=cuts[::-1]))


def test_a_left_side_is_not_a_right_side():
    side = board("side", cuts=[groove(), mortise("2")])
    assert shape_key(left(side)) != shape_key(right(side))


def test_plain_boards_have_no_hand():
    assert shape_key(left(board("side"))) == shape_key(right(board("side")))


def test_cuts_alike_end_for_end_have_no_hand():
    side = board("side", cuts=[groove(), mortise("2"), mortise("18")])
    assert shape_key(left(side)) == shape_key(right(side))


def test_a_through_groove_alone_has_no_hand():
    side = board("side", cuts=[groove()])
    assert shape_key(left(side)) == shape_key(right(side))


def test_a_stopped_groove_has_a_hand():
    side = board("side", cuts=[groove(start="1")])
    assert shape_key(left(side)) != shape_key(right(side))


def test_a_board_turned_end_for_end_and_over_its_edge_is_the_same():
    # Two turns at once (end for end, edge for edge) leave the face up.
    one = board("a", cuts=[mortise("2", "1")])
    turned = board("a", cuts=[mortise("18", "3")])
    assert shape_key(one) == shape_key(turned)
    assert shape_key(one) != shape_key(board("a", cuts=[mortise("18", "1")]))


def test_rounded_mouths_count():
    square = replace(mortise("2"), shape=groove().shape)
    assert shape_key(board("a", cuts=[square])) != shape_key(board("a", cuts=[mortise("2")]))


def test_sizes_stock_part_and_edges_count():
    plain = board("a")
    others = [board("a", length="20 1/32"), board("a", width="5"), board("a", stock="other"), board("a", part="drawer back")]
    others += [board("a", thickness="5/8"), replace(plain, has_round_edges=True)]
    assert shape_key(plain) not in {shape_key(other) for other in others}


def test_tapers_count_and_have_a_hand():
    taper = Taper(Surface.FAR_EDGE, NOTHING, size("1/32"))
    tapered = board("a", tapers=(taper,))
    assert shape_key(tapered) != shape_key(board("a"))
    # Thinner at the far end seen from one side, at the near end seen from the other: a turn over makes them the same.
    assert shape_key(tapered) == shape_key(board("a", tapers=(Taper(Surface.FAR_EDGE, size("1/32"), NOTHING),)))
    grooved = replace(tapered, cuts=(groove(start="1"),))
    assert shape_key(left(grooved)) != shape_key(right(grooved))


def test_bands_count():
    band = Band(Surface.END, "tape", size("1/32"), size("6"), 1)
    assert shape_key(board("a", bands=(band,))) != shape_key(board("a"))
    far = replace(band, surface=Surface.FAR_END)
    assert shape_key(board("a", bands=(band,))) == shape_key(board("a", bands=(far,)))
    assert shape_key(board("a", bands=(band,), cuts=[mortise("2")])) != shape_key(board("a", bands=(far,), cuts=[mortise("2")]))
