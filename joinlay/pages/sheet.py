"""A sheet: everything on one side of one piece of paper, in millimetres from its lower left corner."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from joinlay.drawings.marks import Move, Stroke
    from joinlay.drawings.template import Template
    from joinlay.pages.paper import Paper, Printer

__all__ = ["Laid", "Sheet"]


@dataclass(frozen=True, slots=True)
class Laid:
    """A template, or a tile of one, on a sheet: ``move`` takes its own millimetres to the sheet's. ``tile`` counts from 1, 0 where it is whole."""

    template: Template
    move: Move
    tile: int = 0
    tiles: int = 0

    @property
    def title(self) -> str:
        """``drawer 1 front, left end``, and which tile of it."""
        return f"{self.template.title}: tile {self.tile} of {self.tiles}" if self.tile else self.template.title


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet. ``strokes`` are drawn in their order, with the ``printer``'s correction; ``laid`` says which templates are on it."""

    number: int
    paper: Paper
    printer: Printer
    strokes: tuple[Stroke, ...]
    laid: tuple[Laid, ...]

    @property
    def title(self) -> str:
        """What is on it, for a table of contents."""
        return "; ".join(one.title for one in self.laid)
