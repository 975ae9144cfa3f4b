"""Templates that need not be as high as their part: where every cut goes right across, the lower part of the paper tells it all.

So the drawers of a bank that differ only in height share their templates, and the side of a deep case needs a strip along one edge.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, Final

from joinlay.boards import Axis

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from joinlay.templates.net import Mouth, Net

__all__ = ["cut_off", "likeness_across", "lowest_shown"]

#: A part wider than this is marked from a strip of this height, if that tells it all; the strip carries the words too.
_WIDE: Final = Fraction(250)
_STRIP: Final = Fraction(125)
#: Wood shown above the highest thing that is told, where a strip has to be higher.
_ABOVE: Final = Fraction(20)


def likeness_across(net: Net) -> Hashable | None:
    """What of the cuts matters whatever the part's width; None where some cut ends short of the far edge too high up for a strip."""
    told = []
    for mouth in net.mouths:
        _, low, _, high = mouth.box
        if _runs_along_the_top(net, mouth):
            continue
        top = None if high == net.height else high
        if max(low, top or Fraction(0)) > _STRIP:
            return None
        told.append((mouth.on, mouth.cut.name, low, top))
    return tuple(told)


def lowest_shown(nets: Sequence[Net]) -> Fraction | None:
    """How high the one template of ``nets`` is to be, which are alike across; None: as high as the parts, which are all of one width."""
    widths = {net.height for net in nets}
    least = min(widths)
    if least > _WIDE:
        return max([_STRIP, *(m.box[3] + _ABOVE for m in nets[0].mouths if m.box[3] < least and m.box[3] > _STRIP - _ABOVE)])
    return None if len(widths) == 1 else least


def cut_off(net: Net, shown: Fraction) -> Net:
    """``net`` with only the lowest ``shown`` of its part on the paper, and without what runs along above it."""
    kept = []
    for mouth in net.mouths:
        u0, low, u1, high = mouth.box
        if low < shown and not _runs_along_the_top(net, mouth):
            kept.append(replace(mouth, box=(u0, low, u1, min(high, shown))))
    return replace(net, mouths=tuple(kept), shown=shown)


def _runs_along_the_top(net: Net, mouth: Mouth) -> bool:
    """True for a rabbet or groove the whole length of the part by its far edge: a fence sets it, and it needs no template."""
    along = mouth.cut.span(Axis.ALONG)
    whole = along.start.mm == 0 and along.stop.mm == net.board.length.mm
    return whole and mouth.box[3] == net.height and mouth.box[1] > 0
