"""The corners of a drawer, one kind a file; a job asks for one by its word.

A new kind of corner is a file here that ends in a ``CornerKind``, and a place in the table below.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind, FrontCorner, GrooveLines, Wanted
from joinlay.casework.corners.half_blind import HALF_BLIND
from joinlay.casework.corners.housed import HOUSED
from joinlay.casework.corners.locked import LOCKED
from joinlay.casework.corners.nailed import NAILED
from joinlay.casework.corners.rabbeted import RABBETED
from joinlay.casework.corners.shaped_lock import SHAPED_LOCK
from joinlay.casework.corners.tenoned import TENONED
from joinlay.findings import Change, Refused, Remedy

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

__all__ = [
    "AT_BACK",
    "AT_FRONT",
    "CORNERS",
    "HALF_BLIND",
    "HOUSED",
    "LOCKED",
    "NAILED",
    "RABBETED",
    "SHAPED_LOCK",
    "TENONED",
    "BackCorner",
    "CornerKind",
    "Cornered",
    "FrontCorner",
    "GrooveLines",
    "Wanted",
    "design_back",
    "design_front",
]

#: Every kind of corner there is.
CORNERS: Final = (TENONED, HALF_BLIND, RABBETED, LOCKED, HOUSED, SHAPED_LOCK, NAILED)

#: Those that can stand at the front, and at the back, by the word a job has for them; the first is the usual one.
AT_FRONT: Final = {kind.word: kind for kind in CORNERS if kind.at_front is not None}
AT_BACK: Final = {kind.word: kind for kind in CORNERS if kind.at_back is not None}

#: The kinds that a refusal names in place of what was asked for, the better ones first. What is only nailed is named where
#: nothing else will do.
_INSTEAD: Final = (TENONED, HALF_BLIND, RABBETED, LOCKED, SHAPED_LOCK, HOUSED, NAILED)


def design_front(kind: CornerKind, wanted: Wanted) -> FrontCorner:
    """The front corners of a drawer by the ``kind`` asked for.

    Raises Refused where that can't be made, with the kind that can among its remedies; BadInput where it can't stand there.
    """
    try:
        return kind.front(wanted)
    except Refused as refused:
        raise _or_another(refused, kind, AT_FRONT, "front", lambda other: other.front(wanted)) from None


def design_back(kind: CornerKind, wanted: Wanted) -> BackCorner:
    """The same for the back corners."""
    try:
        return kind.back(wanted)
    except Refused as refused:
        raise _or_another(refused, kind, AT_BACK, "back", lambda other: other.back(wanted)) from None


def _or_another(
    refused: Refused, asked: CornerKind, there: Mapping[str, CornerKind], at: str, design: Callable[[CornerKind], object]
) -> Refused:
    """The refusal with the first other kind that can be made ``there`` among its remedies; as it is where none can."""
    for kind in _INSTEAD:
        if kind is asked or kind.word not in there:
            continue
        try:
            design(kind)
        except Refused:
            continue
        way = Remedy(f"join its {at} by a {kind.word}", (Change("drawers", f"{at}-joint", kind.word),))
        return Refused(replace(refused.finding, remedies=(*refused.finding.remedies, way)))
    return refused
