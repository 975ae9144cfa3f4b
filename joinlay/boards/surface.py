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

    axis: Axis
    """The direction square to this surface."""
    is_far: bool
    """True where the surface lies opposite the reference."""

    def __init__(self, word: str) -> None:
        """Keep what is asked of a surface some ten thousand times in a plan."""
        self.is_far = word.startswith("far ")
        self.axis = {"face": Axis.INTO, "edge": Axis.ACROSS, "end": Axis.ALONG}[word.removeprefix("far ")]

    @property
    def opposite(self) -> Surface:
        """The surface on the other side of the board."""
        return Surface(self.value.removeprefix("far ") if self.is_far else f"far {self.value}")
