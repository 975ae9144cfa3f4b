"""What a face frame is made of, and how wide its members are (FF-1, FF-3)."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from joinlay.lengths import NOTHING

if TYPE_CHECKING:
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock

__all__ = ["FrameMake", "FrameSizes"]


@dataclass(frozen=True, slots=True)
class FrameMake:
    """What a face frame is made of, and its widths; None: the maker's usual ones.

    ``overhang`` is how far it stands proud of the case at each side, ``overhang_top`` and ``overhang_bottom`` above and below (FF-3;
    nothing: flush).
    """

    stock: Stock
    stile: Dimension | None = None
    mullion: Dimension | None = None
    top_rail: Dimension | None = None
    bottom_rail: Dimension | None = None
    rail: Dimension | None = None
    overhang: Dimension | None = None
    overhang_top: Dimension = NOTHING
    overhang_bottom: Dimension = NOTHING

    def sizes(self, practice: Practice) -> FrameSizes:
        """Every width given or usual (FF-1, FF-3)."""

        def one(given: Dimension | None, rule: str) -> Dimension:
            size = given if given is not None else practice.length(rule)
            return size.named(f"face frame {rule.removeprefix('frame ')}", "FF-3" if "overhang" in rule else "FF-1")

        return FrameSizes(
            thickness=self.stock.thickness.named("face frame thickness", "section 0", "as measured"),
            stile=one(self.stile, "stile width"),
            mullion=one(self.mullion, "mullion width"),
            top_rail=one(self.top_rail, "top rail height"),
            bottom_rail=one(self.bottom_rail, "bottom rail height"),
            rail=one(self.rail, "rail height"),
            overhang=one(self.overhang, "frame overhang"),
            overhang_top=self.overhang_top,
            overhang_bottom=self.overhang_bottom,
        )


@dataclass(frozen=True, slots=True)
class FrameSizes:
    """The widths of a frame's members and its overhangs, all known."""

    thickness: Dimension
    stile: Dimension
    mullion: Dimension
    top_rail: Dimension
    bottom_rail: Dimension
    rail: Dimension
    overhang: Dimension
    overhang_top: Dimension
    overhang_bottom: Dimension
