"""Captions: the part's name in short lines, and left told from right."""

from dataclasses import replace

import pytest

from joinlay.boards import Hand, Place, Surface
from joinlay.lengths import mm
from joinlay.pen.lettering import plain
from joinlay.pen.signs import DatumEdge
from joinlay.templates.ends.captions import caption_shapes, datum_words
from joinlay.templates.piece_axes import hand_of
from tests.unit.templates.parts import FRONT, board, groove
from tests.unit.templates.reading import exact, flat


def net_of(name, end=Surface.END, **more):
    return flat(board(name, cuts=(groove(),), **more), end)


def lines_of(blocks):
    return [plain(line) for block in blocks for _, _, line in block.lines]


@pytest.mark.parametrize(
    ("names", "lines"),
    [
        (["drawer 1 left side"], ["drawer 1", "left side"]),
        (["drawer 1 back", "drawer 2 back", "drawer 3 back"], ["drawer 1 to 3", "back"]),
        (["drawer 1 back", "drawer 3 back", "drawer 5 back", "drawer 7 back"], ["drawer 1, 3, 5", "and 7", "back"]),
        (["face part"], ["face part"]),
        (["a part with a long name"], ["a part with a", "long name"]),
    ],
)
def test_names_in_short_lines(names, lines):
    shapes = caption_shapes(net_of(names[0]), names)
    assert [line for line in lines_of(shapes[0]) if line in lines] == lines


def test_every_shape_says_everything():
    for shape in caption_shapes(net_of("drawer 1 left side"), ["drawer 1 left side"]):
        said = " ".join(lines_of(shape))
        for words in ("drawer 1", "left side", "FRONT END", "inside face up", "make 1"):
            assert words in said
        assert [is_left for block in shape for _, _, is_left in block.signs] == [True]


@pytest.mark.parametrize(
    ("name", "end", "hand"),
    [
        ("drawer 1 left side", Surface.FAR_END, Hand.LEFT),
        ("drawer 1 right side", Surface.END, Hand.RIGHT),
        ("shelf", Surface.END, None),
    ],
)
def test_the_hand_is_the_parts_own(name, end, hand):
    assert hand_of(net_of(name, end).board, end) is hand


def test_a_part_that_is_neither_takes_the_hand_of_its_end():
    placed = Place.at(mm(0), mm(0), mm(0), "+X", "+Z", "-Y")
    front = [net_of("drawer 1 front", end, datum=FRONT, place=placed) for end in (Surface.END, Surface.FAR_END)]
    assert [hand_of(one.board, one.end) for one in front] == [Hand.LEFT, Hand.RIGHT]
    shapes = [caption_shapes(one, ["drawer 1 front"])[0] for one in front]
    assert [[is_left for block in shape for _, _, is_left in block.signs] for shape in shapes] == [[True], [False]]


def test_an_end_at_the_front_or_the_top_has_no_hand():
    for along, across in (("+Y", "+Z"), ("+Z", "+Y")):
        placed = Place.at(mm(0), mm(0), mm(0), along, across, "+X")
        assert hand_of(net_of("partition", place=placed).board, Surface.END) is None


def test_the_datum_says_as_much_as_there_is_room_for():
    net = net_of("drawer 1 left side")
    (room,) = exact(200)
    said = plain(datum_words(net, room))
    assert said == "BOTTOM EDGE  lay on this edge"
    wide = DatumEdge.room(datum_words(net, room))[0]
    assert plain(datum_words(net, wide - 1)) == "lay on BOTTOM EDGE"
    for less in range(30, 90, 5):
        (room,) = exact(less)
        assert DatumEdge.room(datum_words(net, room))[0] <= room


def test_a_very_long_edge_name_is_cut_short():
    long = replace(FRONT, edge="the edge that stands on the bench while it is marked")
    (room,) = exact(60)
    content = datum_words(net_of("part", datum=long), room)
    assert plain(content).endswith("…")
    assert DatumEdge.room(content)[0] <= room
