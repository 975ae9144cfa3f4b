"""What to beware of in sawing out: the saw itself, strips that are thin and blocks that are short (section 14 of the trade
rules).

Said where the work is done, in our own words; the saw's own manual goes before all of it.
"""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING

from joinlay.boards.names import in_few_words
from joinlay.lengths import Length
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from joinlay.cutlist.cutting_list import CuttingList
    from joinlay.cutlist.pattern import CutSheet
    from joinlay.shop import RunLimits

__all__ = ["SawCaution", "Sawing", "cautions_at_sheets", "cautions_of_list"]


class Sawing(Enum):
    """A caution in sawing out, as the sentences that are printed. Our own words."""

    ALL = (
        "guard and riving knife on; eyes, ears, lungs covered; sleeves and hair tied back; stand out of the blade's line; hold "
        "up what is long or wide; unplug it to touch the blade. The saw's manual, local rules and qualified people come first."
    )
    STRIPS = (
        "rip them off the side away from the fence, with a push stick, so that none runs between blade and "
        "fence and no hand comes near; "
        "what is thinner than your guard allows is sawn by hand."
    )
    BLOCKS = (
        "crosscut them from a long strip against a stop that ends before the blade, never the fence, where a block jams and is "
        "thrown; hold only the strip, take none until the blade stands; or use a bench hook."
    )


@dataclass(frozen=True, slots=True)
class SawCaution:
    """A caution and what it is for: ``rows`` are numbers of the cutting list and ``least`` the thinnest or shortest of them.

    Of what holds for everything, ``rows`` is empty and ``least`` None.
    """

    about: Sawing
    rows: tuple[int, ...] = ()
    least: Length | None = None

    def sentence(self, show: Callable[[Length], str]) -> str:
        """What is printed: ``Thin strips (no. 11 and 14, down to 3/16 in): rip them off ...``. Section 14."""
        if self.least is None:
            return f"Sawing out: {self.about.value}"
        what = "Thin strips" if self.about is Sawing.STRIPS else "Short blocks"
        numbers = in_few_words(f"no. {row}" for row in self.rows)
        return f"{what} ({numbers}, down to {show(self.least)}): {self.about.value}"


#: A part to be sawn: its row in the cutting list, its length and its width.
_Sized = tuple[int, Length, Length]


def cautions_of_list(parts: CuttingList, limits: RunLimits) -> tuple[SawCaution, ...]:
    """The cautions for all of ``parts``, judged by their finished sizes; none where there is nothing to saw. Section 14."""
    return tuple(_cautions(((row.number, row.finished.length, row.finished.width) for row in parts.rows), limits))


def cautions_at_sheets(sheets: Iterable[CutSheet], limits: RunLimits) -> tuple[SawCaution, ...]:
    """The cautions for all that is sawn from ``sheets``; none where no cut is made. Section 14."""
    pieces = [laid.piece for sheet in sheets if sheet.cuts for laid in sheet.pieces]
    return tuple(_cautions(((piece.row, piece.length, piece.width) for piece in pieces), limits))


def _cautions(parts: Iterable[_Sized], limits: RunLimits) -> Iterator[SawCaution]:
    """Thin is under a third of what counts as narrow at a machine (1 in, 25 mm), short is too small to be run by itself (4 in,
    100 mm): our own choice, and both move with the maker's own limits.
    """
    sized = list(parts)
    if not sized:
        return
    yield SawCaution(Sawing.ALL)
    thin = [(row, width) for row, _, width in sized if width < limits.narrow / 3]
    short = [(row, length) for row, length, _ in sized if length < limits.smallest]
    for about, found in ((Sawing.STRIPS, thin), (Sawing.BLOCKS, short)):
        if found:
            least = min((size for _, size in found), key=lambda size: size.mm)
            yield SawCaution(about, tuple(sorted({row for row, _ in found})), Length(least.mm))
