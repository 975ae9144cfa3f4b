"""Pieces of wood to put one joint on, long enough for its template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from joinlay.boards import Board, Datum
from joinlay.lengths import dimension, mm

if TYPE_CHECKING:
    from joinlay.lengths import Dimension

__all__ = ["STRIP", "Piece"]

#: The width of a piece whose width was not given, and the length of any: enough to lay a template on.
STRIP: Final = dimension(mm(100))
_LENGTH: Final = dimension(mm(400))

_DATUM: Final = Datum("reference face", "datum edge", "jointed end", "far face", "far edge", "far end")


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece called ``name``, of a thickness and width."""

    name: str
    thickness: Dimension
    width: Dimension = STRIP

    def board(self) -> Board:
        """The piece without a cut."""
        return Board(self.name, self.name, "", _LENGTH, self.width, self.thickness, _DATUM)
