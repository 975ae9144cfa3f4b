"""What must be done to the parts before a glue-up shuts them in: faces that can't be reached well afterwards, and joints to be
kept clean (PT-8).

A face is shut in where another board of the same thing stands over against it: the inside of a side looks at the other side.
Panels that lie loose in grooves are shut in on both faces, since their edges go in with the finish on, or a bare line shows as
they shrink. It is found from the boxes around the boards, exactly.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.assembly.blocking import box_of
from joinlay.assembly.glue_ups import Hold
from joinlay.boards import PartKind, Surface, Whole
from joinlay.boards.meeting import way_into
from joinlay.boards.names import in_few_words, listed
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from joinlay.assembly.blocking import Box
    from joinlay.assembly.glue_ups import GlueUp
    from joinlay.boards import Board, PartRole

__all__ = ["MASKED", "ShutIn", "before_words", "shut_in_by"]

#: What holds for every joint alike, so that it need be said but once.
MASKED: Final = "Where you finish first, mask every joint: glue holds on bare wood alone."
#: What a drawer's side runs on, along or under: no glue may lie there (PT-8).
_RUN_ON: Final = (PartKind.BEARER, PartKind.GUIDE, PartKind.KICKER)

_PANELS: Final = (PartKind.DRAWER_BOTTOM, PartKind.CASE_BACK)

#: What nobody looks into.
_UNSEEN: Final = ((Whole.BASE.value,), (Whole.FRAME.value,))


@dataclass(frozen=True, slots=True)
class ShutIn:
    """A face that a glue-up shuts in: the part, which of its two faces, and the maker's word for that (``inside face``)."""

    part: PartRole
    surface: Surface
    word: str


def shut_in_by(glue_up: GlueUp, boards: Iterable[Board]) -> tuple[ShutIn, ...]:
    """The faces to sand, and to finish if they are to be, before the ``glue_up`` closes, of the first thing it is done to (PT-8).

    None for loose tenons, whose parts still lie open, for the face frame, which has no inside, and for what is put into the
    piece.
    """
    if glue_up.hold is Hold.ITSELF or glue_up.steps[0].is_whole or glue_up.of in _UNSEEN:
        return ()
    by_role = {board.role: board for board in boards}
    group = [by_role[role] for role in glue_up.steps[-1].each[0][-1].parts if not role.kind.is_loose]
    boxes = {board.role: box_of(board) for board in group}
    handled = set(glue_up.goes[0].parts)
    return tuple(
        ShutIn(board.role, surface, board.datum.word(surface))
        for board in group
        if board.role in handled
        for surface in (Surface.FACE, Surface.FAR_FACE)
        if board.role.kind in _PANELS or _is_faced(board, surface, boxes)
    )


def _is_faced(board: Board, surface: Surface, boxes: Mapping[PartRole, Box]) -> bool:
    """True where another board stands over against a quarter of that face or more."""
    out = way_into(board, surface).opposite
    axis = "XYZ".index(out.value[1])
    mine = boxes[board.role]
    across = [n for n in range(3) if n != axis]
    size = (mine[across[0] + 3] - mine[across[0]]) * (mine[across[1] + 3] - mine[across[1]])
    for role, box in boxes.items():
        is_beyond = box[axis] >= mine[axis + 3] if out.value[0] == "+" else box[axis + 3] <= mine[axis]
        if role == board.role or not is_beyond:
            continue
        wide, high = (min(mine[n + 3], box[n + 3]) - max(mine[n], box[n]) for n in across)
        if wide > 0 and high > 0 and 4 * wide * high >= size:
            return True
    return False


def before_words(glue_up: GlueUp, boards: Iterable[Board]) -> tuple[str, ...]:
    """What to do before the ``glue_up`` closes, a sentence each; none where there is nothing to say (PT-8)."""
    found = shut_in_by(glue_up, boards)
    said = []
    if found:
        said.append(f"Sand now, while you can reach: {_faces(found)}.")
        if any(one.part.kind in _PANELS for one in found):
            glued = any(met.one.kind in _PANELS for met in glue_up.most.glued)
            edges = "all but the edge that is glued" if glued else "edges and all"
            said.append(f"Finish the bottom now too, {edges}: it moves in its grooves, and what is bare would show.")
        said.append(MASKED)
    kinds = {move.moving[0].kind for go in glue_up.goes for move in go.moves}
    if glue_up.steps[0].is_whole and kinds & set(_RUN_ON):
        said.append("No glue where a drawer rides: wipe off at once what comes out, and leave the wood bare there for wax.")
    return tuple(said)


def _faces(found: Iterable[ShutIn]) -> str:
    """``the inside faces of the left and right side and the back, both faces of the bottom``."""
    words: dict[PartRole, list[str]] = {}
    for one in found:
        words.setdefault(one.part, []).append(one.word)
    alike: dict[str, list[str]] = {}
    for part, faces in words.items():
        alike.setdefault(faces[0] if len(faces) == 1 else "both faces", []).append(part.short)
    return listed([_of_parts(face, in_few_words(parts).split(", "), len(parts)) for face, parts in alike.items()])


def _of_parts(face: str, parts: list[str], count: int) -> str:
    of = listed(parts)
    # What has a number has no article.
    of = of if count == 1 and of[-1].isdigit() else f"the {of}"
    return f"both faces of {of}" if face == "both faces" else f"the {face}{'s' if count > 1 else ''} of {of}"
