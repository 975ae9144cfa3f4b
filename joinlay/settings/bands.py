"""Edge banding and machine cuts: a band goes on before the first cut that counts from it, or runs past it (EB-1, EB-2)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import Board

__all__ = ["BandsFirst", "bands_first"]


@dataclass(frozen=True, slots=True)
class BandsFirst:
    """Bands to be glued and trimmed before the card ``number``.

    ``boards`` are the parts' names, ``edges`` the maker's words for what is banded, in the order of gluing.
    """

    number: int
    boards: tuple[str, ...]
    edges: tuple[str, ...]


def bands_first(cards: Sequence[Sequence[Board]]) -> tuple[BandsFirst, ...]:
    """For each banded part, the first of ``cards`` (the boards of each, in the order to cut them) that it goes through.

    Fences, stops and positions count from the finished edges, and a board's sizes are the finished ones, so a part is banded and trimmed
    before it meets a machine at all. Parts banded alike before the same card are told together. Rules EB-1, EB-2, MS-1; common practice.
    """
    told: dict[tuple[int, tuple[str, ...]], list[str]] = {}
    seen: set[str] = set()
    for number, boards in enumerate(cards, start=1):
        for board in boards:
            if board.bands and board.name not in seen:
                edges = tuple(board.datum.word(band.surface) for band in sorted(board.bands, key=lambda band: band.order))
                told.setdefault((number, edges), []).append(board.name)
            seen.add(board.name)
    return tuple(BandsFirst(number, tuple(names), edges) for (number, edges), names in told.items())
