"""Captions: the part's name in short lines, and left told from right."""

from dataclasses import replace

import pytest

from joinlay.boards import Surface
from joinlay.pen.lettering import plain
from joinlay.pen.signs import DatumEdge
from joinlay.templates.ends.captions import caption_shapes, datum_words, is_left
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
        ("drawer 1 left side", Surface.FAR_END, True),
        ("drawer 1 right side", Surface.END, False),
        ("shelf", Surface.END, None),
    ],
)
def test_the_hand_is_the_parts_own(name, end, hand):
    assert is_left(net_of(name, end)) is hand


def test_a_part_that_is_neither_takes_the_hand_of_its_end():
    front = net_of("drawer 1 front", datum=FRONT), net_of("drawer 1 front", Surface.FAR_END, datum=FRONT)
    assert [is_left(one) for one in front] == [True, False]


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
