"""A band: thin wood glued to an edge or end of a board, part of its finished size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from joinlay.boards.surface import Surface
    from joinlay.lengths import Dimension

__all__ = ["Band"]


@dataclass(frozen=True, slots=True)
class Band:
    """Edge banding on one ``surface`` of a board: an edge or an end.

    ``stock`` names the banding, ``thickness`` is how much of the board's finished size it is, ``length`` what to cut, trim
    included (EB-3), and ``order`` its turn on this board, from 1 (EB-1).
    """

    surface: Surface
    stock: str
    thickness: Dimension
    length: Dimension
    order: int
