"""A nail, pin or screw: what holds two boards beside their joint, or without one, and how long and how far apart they are."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.lengths import Length

__all__ = ["Fastener", "FastenerKind"]


class FastenerKind(Enum):
    """What it is called when it is bought."""

    SCREW = "screw"
    NAIL = "nail"
    PIN = "pin"  #: a fine nail with next to no head


@dataclass(frozen=True, slots=True)
class Fastener:
    """One size of nail, pin or screw, as it is bought, and how far from one to the next at most.

    ``shank`` is how thick a screw is; None for nails, which are bought by length. ``spacing`` None: there is one.
    """

    kind: FastenerKind
    length: Length
    shank: Length | None = None
    spacing: Length | None = None
