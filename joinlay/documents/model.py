"""The piece as a model to turn about: every placed board with its cuts, in one glTF binary (Khronos glTF 2.0).

The standard has lengths in metres, Y up and the front of a thing towards +Z; a plan has millimetres, Z up and its front towards
-Y. So a point (x, y, z) of the piece comes to (x, z, -y) / 1000. Each part is a mesh about its own corner, moved into place by
its node, since the standard keeps points in 32 bits: so a part is as true as its own length allows, wherever it stands. Parts
hang under the drawer, case, frame ... that they are of, and are named by their number in the cutting list and their name there.

The libraries come with the extra ``assembly`` and are fetched only when a model is asked for.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import DrawerRole, Whole
from joinlay.cutlist.cutting_list import cutting_list
from joinlay.errors import BadInput
from joinlay.pictures.scene import scene_of

if TYPE_CHECKING:
    from joinlay.boards import PartRole
    from joinlay.jobs.plan import Plan

__all__ = ["MODEL", "TONES", "part_nodes", "plan_model", "refuse_without_model"]

#: What the file is called.
MODEL: Final = "model.glb"

#: Millimetres in a metre.
_METRE: Final = 1000.0

#: From the plan's X, Y, Z to the standard's.
_TURN: Final = ((1, 0, 0), (0, 0, 1), (0, -1, 0))

#: Red, green, blue of what a part is of, so that they are told apart: nothing in it says what wood it is.
TONES: Final = {
    Whole.CASE: (196, 160, 116),
    Whole.FRAME: (150, 98, 62),
    Whole.RUNNERS: (224, 204, 160),
    Whole.STOPS: (236, 220, 186),
    Whole.PULLS: (110, 72, 46),
    Whole.SHELVES: (206, 174, 130),
    Whole.TOP: (166, 116, 74),
    Whole.BASE: (124, 84, 54),
    Whole.FILLER: (138, 90, 58),
}
_DRAWER: Final = (178, 128, 84)

#: What stands over all groups; none of them is called so.
_ROOT: Final = "piece"


def refuse_without_model() -> None:
    """Raise BadInput, with how to install it, where what a model is made with isn't there."""
    from importlib.util import find_spec

    if any(find_spec(name) is None for name in ("trimesh", "manifold3d", "numpy")):
        raise BadInput(
            "making a model needs the geometry kernel; install it with: pip install 'joinlay[assembly]'. Nothing was written."
        )


def part_nodes(plan: Plan) -> dict[PartRole, str]:
    """What each part of ``plan`` is called in its model: its number in the cutting list and its name, ``12 drawer 3 left
    side`` (CL-1).
    """
    numbers = {name: row.number for row in cutting_list(plan).rows for name in row.names}
    return {board.role: f"{numbers[board.name]} {board.name}" for board in plan.boards}


def plan_model(plan: Plan, mark: str = "") -> bytes:
    """The placed boards of ``plan`` with their cuts as one glTF binary: metres, Y up, the front towards +Z.

    Drawers stand shut; where only openings are given, one over the other. What has no place, such as a blank to turn, is not in
    it. ``mark`` is the plan's (PR-7), kept with the scene. The same plan gives the same bytes. Raises BadInput where the extra
    isn't installed, and where nothing is placed.
    """
    refuse_without_model()
    from numpy import array, asarray, eye
    from trimesh import Scene, Trimesh
    from trimesh.visual import TextureVisuals
    from trimesh.visual.material import PBRMaterial

    from joinlay.checks.solids import solid_of

    drawn = scene_of(plan)
    boards = [board for board in drawn.boards if board.place is not None and board.role not in drawn.existing]
    if not boards:
        raise BadInput("there is nothing to make a model of: the job has no part that stands anywhere.")
    names, turn = part_nodes(plan), array(_TURN, dtype=float)
    scene = Scene(base_frame=_ROOT, metadata={"title": plan.title, "job": plan.file, "plan mark": mark})
    made: dict[Any, Any] = {}
    for board in boards:
        whole = board.role.whole
        group = whole.name if isinstance(whole, DrawerRole) else whole.value if whole is not None else "other parts"
        if group not in made:
            colour = _DRAWER if whole is None or isinstance(whole, DrawerRole) else TONES[whole]
            made[group] = PBRMaterial(name=group, baseColorFactor=[*colour, 255], metallicFactor=0.0, roughnessFactor=0.8)
            scene.graph.update(frame_to=group, frame_from=_ROOT, matrix=eye(4))
        body = solid_of(board)
        mesh = body.wood.to_mesh64()
        corner = asarray(body.low)
        points = (asarray(mesh.vert_properties)[:, :3] - corner) @ turn.T / _METRE
        solid = Trimesh(points, asarray(mesh.tri_verts), process=False, metadata={"part": board.part, "stock": board.stock})
        solid.visual = TextureVisuals(material=made[group])
        matrix = eye(4)
        matrix[:3, 3] = turn @ corner / _METRE
        name = names[board.role]
        scene.add_geometry(solid, node_name=name, geom_name=name, parent_node_name=group, transform=matrix)
    # Without normals a viewer shades each flat face as flat, as the standard asks it to.
    return bytes(scene.export(file_type="glb", include_normals=False, tree_postprocessor=_sign))


def _sign(tree: dict[str, Any]) -> None:
    """Say by whom the file was made."""
    tree["asset"]["generator"] = "joinlay"
