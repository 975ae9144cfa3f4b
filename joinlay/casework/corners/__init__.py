"""The corners of a drawer, one kind a file; a job asks for one by its word.

A new kind of corner is a file here that ends in a ``CornerKind``, and a place in the table below.
"""

from __future__ import annotations

from typing import Final

from joinlay.casework.corners.corner import BackCorner, Cornered, CornerKind, FrontCorner, GrooveLines, Wanted
from joinlay.casework.corners.half_blind import HALF_BLIND
from joinlay.casework.corners.housed import HOUSED
from joinlay.casework.corners.locked import LOCKED
from joinlay.casework.corners.tenoned import TENONED

__all__ = [
    "AT_BACK", "AT_FRONT", "CORNERS", "HALF_BLIND", "HOUSED", "LOCKED", "TENONED", "BackCorner", "CornerKind", "Cornered",
    "FrontCorner",
    "GrooveLines", "Wanted",
]  # fmt: skip

#: Every kind of corner there is.
CORNERS: Final = (TENONED, HALF_BLIND, LOCKED, HOUSED)

#: Those that can stand at the front, and at the back, by the word a job has for them; the first is the usual one.
AT_FRONT: Final = {kind.word: kind for kind in CORNERS if kind.at_front is not None}
AT_BACK: Final = {kind.word: kind for kind in CORNERS if kind.at_back is not None}
