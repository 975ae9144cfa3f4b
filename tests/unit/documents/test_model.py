"""The model to turn about, read back by a reader that isn't ours: metres, Y up, every part where the plan has it and as large
(glTF 2.0).
"""

import json
import struct
from io import BytesIO

import pytest
import trimesh

from joinlay.boards import Axis, Shape, Whole
from joinlay.boards.extent import SpaceBox
from joinlay.documents import model as model_of_piece
from joinlay.documents.model import part_nodes, plan_model
from joinlay.errors import BadInput
from joinlay.jobs.plan import Plan
from joinlay.lengths import Unit
from joinlay.pictures.scene import scene_of
from joinlay.shop import usual_shop
from tests.measured.packets import drawers, example

CHEST = example("print-chest")


@pytest.fixture(scope="module")
def model():
    return plan_model(CHEST, "abc123")


@pytest.fixture(scope="module")
def scene(model):
    return trimesh.load_scene(BytesIO(model), file_type="glb")


def tree_of(data):
    length = struct.unpack("<I", data[12:16])[0]
    return json.loads(data[20 : 20 + length])


def wood(board):
    """The volume of a board with straight cuts only, in cubic mm, exactly: cells of the grid of its cuts that none of them
    takes.
    """
    lines = []
    for axis in Axis:
        ends = (end.mm for cut in board.cuts for end in (cut.span(axis).start, cut.span(axis).stop))
        lines.append(sorted({0, board.size(axis).mm, *ends}))
    spans = [[(cut.span(axis).start.mm, cut.span(axis).stop.mm) for axis in Axis] for cut in board.cuts]
    volume = 0
    for a, b in zip(lines[0], lines[0][1:], strict=False):
        for c, d in zip(lines[1], lines[1][1:], strict=False):
            for e, f in zip(lines[2], lines[2][1:], strict=False):
                cell = ((a, b), (c, d), (e, f))
                if not any(all(s <= x and y <= t for (s, t), (x, y) in zip(span, cell, strict=True)) for span in spans):
                    volume += (b - a) * (d - c) * (f - e)
    return volume


def test_it_is_a_gltf_binary_of_version_2(model):
    assert model[:4] == b"glTF"
    assert struct.unpack("<II", model[4:12]) == (2, len(model))
    tree = tree_of(model)
    assert tree["asset"] == {"version": "2.0", "generator": "joinlay"}
    assert tree["scenes"][0]["extras"] == {"title": "Print chest", "job": "print-chest.toml", "plan mark": "abc123"}


def test_every_placed_part_is_there_once_by_its_number_and_name(scene):
    placed = [board for board in CHEST.boards if board.place is not None]
    assert sorted(scene.graph.nodes_geometry) == sorted(part_nodes(CHEST)[board.role] for board in placed)
    assert "case left side" in " ".join(scene.graph.nodes_geometry)


def test_each_part_stands_where_the_plan_has_it_in_metres_with_y_up(scene):
    names = part_nodes(CHEST)
    for board in CHEST.boards:
        if board.place is None:
            continue
        matrix, geometry = scene.graph[names[board.role]]
        made = scene.geometry[geometry].copy().apply_transform(matrix)
        space = SpaceBox.around(board)
        (x0, y0, z0), (x1, y1, z1) = space.low, space.high
        low, high = (x0, z0, -y1), (x1, z1, -y0)
        # A leaning side is drawn as its joint holds it, which its box may miss by twice the lean over the joint; a micrometre
        # else.
        near = 1e-6 if not board.tapers and all(part.denominator == 1 for part in board.place.along) else 1e-3
        for end, wanted in zip(made.bounds, (low, high), strict=True):
            assert tuple(end) == pytest.approx([float(at) / 1000 for at in wanted], abs=near)


def test_its_wood_is_as_much_as_the_plan_s(scene):
    names, tried = part_nodes(CHEST), 0
    for board in CHEST.boards:
        straight = not board.tapers and not board.has_round_edges and all(cut.shape is Shape.SQUARE for cut in board.cuts)
        if board.place is None or not straight:
            continue
        made = scene.geometry[names[board.role]]
        assert made.is_watertight
        assert made.volume * 1e9 == pytest.approx(float(wood(board)), rel=2e-5), board.name
        tried += 1
    assert tried > 40


def test_parts_hang_under_what_they_are_of(model):
    nodes = tree_of(model)["nodes"]
    groups = {node["name"]: [nodes[n]["name"] for n in node["children"]] for node in nodes if "children" in node}
    assert any("left stile" in name for name in groups["face frame"])
    assert len(groups["drawer 2"]) == len([b for b in CHEST.drawers[1].assembly.boards if b.place is not None])


def test_the_same_plan_gives_the_same_bytes(model):
    assert plan_model(CHEST, "abc123") == model


def test_drawers_for_openings_stand_one_over_the_other():
    planned = drawers("4", "6")
    read = trimesh.load_scene(BytesIO(plan_model(planned)), file_type="glb")
    boards = [board for board in scene_of(planned).boards if board.role.drawer == planned.drawers[0].role]
    lowest = min(SpaceBox.around(board).low[2] for board in boards)
    names = part_nodes(planned)
    for board in boards:
        matrix, geometry = read.graph[names[board.role]]
        assert read.geometry[geometry].copy().apply_transform(matrix).bounds[0][1] > float(lowest) / 1000 - 1e-6
    assert lowest > 150


def test_whatever_a_piece_is_made_of_has_a_tone_of_its_own():
    assert set(model_of_piece.TONES) == set(Whole)
    assert len(set(model_of_piece.TONES.values())) == len(Whole)


def test_a_plan_of_nothing_has_no_model():
    shop = usual_shop(Unit.MM)
    with pytest.raises(BadInput, match="nothing to make a model of"):
        plan_model(Plan("Empty", "empty.toml", Unit.MM, shop.rule, shop, {}, (), (), (), "a4"))
