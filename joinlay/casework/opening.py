"""The opening a drawer goes into, and what the drawer is to be made of."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from typing import TYPE_CHECKING

from joinlay.errors import BadInput
from joinlay.lengths import plain_mm

if TYPE_CHECKING:
    from joinlay.lengths import Dimension
    from joinlay.stock import Stock

__all__ = ["BackHeight", "BackJoint", "DrawerMake", "FrontJoint", "Opening"]


class FrontJoint(Enum):
    """How the sides meet the front."""

    LOOSE_TENON = "loose tenon"
    HALF_BLIND = "half-blind locking rabbet"


class BackJoint(Enum):
    """How the back meets the sides."""

    LOCKING_RABBET = "locking rabbet"
    DADO = "dado"


class BackHeight(Enum):
    """Whether the back is grooved for the bottom, or stands on it (GR-4)."""

    FULL = "full"
    ON_BOTTOM = "on bottom"


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening inside the face frame. ``depth`` runs from the face of the frame to what is behind the drawer."""

    width: Dimension
    height: Dimension
    depth: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes that are not more than nothing."""
        for size in (self.width, self.height, self.depth):
            if size.mm <= 0:
                raise BadInput(f"{size.name or 'the opening'} is {plain_mm(size)}; it must be more than nothing.")


@dataclass(frozen=True, slots=True)
class DrawerMake:
    """What a drawer is made of and how it is joined. ``side_height`` None: as high as DR-3 allows."""

    front: Stock
    sides: Stock
    back: Stock
    bottom: Stock
    front_joint: FrontJoint = FrontJoint.LOOSE_TENON
    back_joint: BackJoint = BackJoint.LOCKING_RABBET
    back_height: BackHeight = BackHeight.FULL
    side_height: Dimension | None = None
