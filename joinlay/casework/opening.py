"""The opening a drawer goes into, and what the drawer is to be made of."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.casework.corners import LOCKED, TENONED
from joinlay.lengths import BadSize
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.casework.corners import CornerKind
    from joinlay.lengths import Dimension
    from joinlay.stock import Stock

__all__ = ["BackHeight", "BottomReach", "DrawerMake", "Opening", "ToPlane"]


class BackHeight(Enum):
    """Whether the back is grooved for the bottom, or stands on it (GR-4)."""

    FULL = "full"
    ON_BOTTOM = "on bottom"


class BottomReach(Enum):
    """How far a bottom reaches that slides in under the back: flush with the back's outer face, or to the ends of the sides
    (DJ-3).
    """

    BACK = "back"
    ENDS = "ends of the sides"


@dataclass(frozen=True, slots=True)
class Opening:
    """The opening inside the face frame. ``depth`` runs from the face of the frame to what is behind the drawer."""

    width: Dimension
    height: Dimension
    depth: Dimension

    def __post_init__(self) -> None:
        """Refuse sizes of zero or less."""
        for size in (self.width, self.height, self.depth):
            if size.mm <= 0:
                raise BadSize("{name} is {size}; it must be more than 0.", name=size.name or "the opening", size=size)


@dataclass(frozen=True, slots=True)
class ToPlane:
    """What a drawer that is made full to its opening is planed by as it is fitted: each of its ``sides``, its ``top`` edges and
    the ``bottom`` edge of its front (HF-1).
    """

    sides: Dimension
    top: Dimension
    bottom: Dimension


@dataclass(frozen=True, slots=True)
class DrawerMake:
    """What a drawer is made of and how it is joined: which kind of corner at the front and at the back.

    ``bottom_reach`` is for a bottom under the back; one in a grooved back goes as deep as its groove. ``side_height`` None: as
    high as DR-3 allows. ``planed`` is for a drawer that is fitted by hand, without clearances before (HF-1).
    ``has_upright_grain``: the grain of its front, which is of a sheet, runs up and down. ``bar``
    is the stock of a bar down the middle of its bottom; None: it has none (BO-1).
    """

    front: Stock
    sides: Stock
    back: Stock
    bottom: Stock
    front_joint: CornerKind = TENONED
    back_joint: CornerKind = LOCKED
    back_height: BackHeight = BackHeight.FULL
    bottom_reach: BottomReach = BottomReach.BACK
    side_height: Dimension | None = None
    planed: ToPlane | None = None
    has_upright_grain: bool = False
    bar: Stock | None = None
