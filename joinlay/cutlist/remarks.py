"""What else there is to say of a row of the cutting list: grain, core, bands in their order, tapers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.cutlist.cutting_list import Grain

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from joinlay.cutlist.cutting_list import Row
    from joinlay.lengths import Length

__all__ = ["row_remarks"]


def row_remarks(row: Row, text: Callable[[Length], str], by: str = "×") -> Iterator[str]:
    """Each remark in a few words, lengths by ``text``, sizes with ``by`` between them (CL-1, EB-1, EB-2, DR-4).

    The core is said only where the part is sawn larger still; else it is what is sawn.
    """
    if row.grain is Grain.ANY:
        yield "grain does not matter"
    if row.core is not None and row.rough is not None:
        yield f"core {text(row.core.length)} {by} {text(row.core.width)}"
    if row.bands:
        edges = ", ".join(f"{row.board.datum.word(band.surface)} {band.stock}" for band in row.bands)
        yield f"band, in this order: {edges}"
    if row.board.tapers:
        yield "tapered: see its template"
