"""A board's own directions and surfaces: everything is measured from its reference face, edge and end."""

from __future__ import annotations

from enum import Enum

__all__ = ["Axis", "Surface"]


class Axis(Enum):
    """The three directions in a board, each counted from a reference."""

    ALONG = "along"  #: with the length, from the reference end
    ACROSS = "across"  #: with the width, from the reference edge
    INTO = "into"  #: through the thickness, from the reference face


class Surface(Enum):
    """The six surfaces of a board. FAR_ is the one opposite the reference."""

    FACE = "face"
    FAR_FACE = "far face"
    EDGE = "edge"
    FAR_EDGE = "far edge"
    END = "end"
    FAR_END = "far end"

    @property
    def axis(self) -> Axis:
        """The direction square to this surface."""
        return {"face": Axis.INTO, "edge": Axis.ACROSS, "end": Axis.ALONG}[self.value.removeprefix("far ")]

    @property
    def is_far(self) -> bool:
        """True where the surface lies opposite the reference."""
        return self.value.startswith("far ")

    @property
    def opposite(self) -> Surface:
        """The surface on the other side of the board."""
        return Surface(self.value.removeprefix("far ") if self.is_far else f"far {self.value}")
