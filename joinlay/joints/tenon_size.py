"""Which tenon of the shop a joint takes, and how wide it is (LT-1, LT-2, LT-6, FF-2)."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from fractions import Fraction
from typing import TYPE_CHECKING

from joinlay.findings import refusal, warning
from joinlay.joints.fits import label
from joinlay.lengths import chosen, largest, rounded_down

if TYPE_CHECKING:
    from joinlay.findings import Finding, Refused
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop, TenonStock

__all__ = ["TenonSize", "Use", "tenon_sizes"]

_NARROWEST = 2
"""Narrowest tenon in a frame, in its thicknesses (FF-2)."""


class Use(Enum):
    """What the joint is for: it sets the spacing (LT-9), and in a frame the shoulders (FF-2)."""

    DRAWER = "drawer"
    CASE = "case"
    FRAME = "frame"


@dataclass(frozen=True, slots=True)
class TenonSize:
    """A tenon of the shop as this joint would take it. ``finding`` is what there is to say of its thickness."""

    stock: TenonStock
    thickness: Dimension
    width: Dimension
    finding: Finding | None = None


def tenon_sizes(
    end_thickness: Dimension, line: Dimension, shop: Shop, use: Use, given: TenonStock | None, named: str
) -> tuple[TenonSize, ...]:
    """The tenons that suit the thickness and, in a frame, the rail: the best first, then thinner ones (LT-1, LT-2, LT-6, FF-2).

    Only ``given`` where the maker names one. Raises Refused, naming the nearest that would do, where there is none.
    """
    stocks = _thin_enough(end_thickness, shop, given)
    sizes = [_sized(stock, end_thickness, line, shop, use, named) for stock in stocks]
    found = tuple(size for size in sizes if size is not None)
    if not found:
        raise _low_rail(stocks, line, shop.practice)
    return found


def wall_needed(thickness: Dimension, practice: Practice) -> Dimension:
    """The wood that must stay on each side of a mortise in wood of this thickness (LT-2)."""
    return largest(thickness * practice.ratio("tenon wall share"), practice.length("tenon wall"))


def _thickest(end_thickness: Dimension, practice: Practice) -> Dimension:
    return (end_thickness * practice.ratio("tenon share")).named("thickest tenon allowed", "LT-1", "Fairham; Noyes no. 42")


def _thin_enough(end_thickness: Dimension, shop: Shop, given: TenonStock | None) -> list[TenonStock]:
    """The tenons no thicker than their share whose walls hold, thickest first; ``given`` alone where its walls hold."""
    practice = shop.practice
    most, wall = _thickest(end_thickness, practice), wall_needed(end_thickness, practice)
    holding = end_thickness - wall * 2
    if given is not None:
        if given.thickness > holding:
            raise _thin_walls(given, end_thickness, shop, wall)
        return [given]
    fitting = [stock for stock in shop.tenons if stock.thickness <= most and stock.thickness <= holding]
    if not fitting:
        raise _none_thin_enough(end_thickness, shop, most, holding)
    return sorted(fitting, key=lambda stock: stock.thickness, reverse=True)


def _sized(stock: TenonStock, end_thickness: Dimension, line: Dimension, shop: Shop, use: Use, named: str) -> TenonSize | None:
    """The tenon with its width; None where it is too wide for the rail of a frame (FF-2)."""
    practice = shop.practice
    most = _thickest(end_thickness, practice)
    why = "thickest tenon of the shop at most" if stock.thickness <= most else "tenon asked for, though over"
    thickness = chosen(stock.thickness, why, most).named(label(named, "tenon thickness"), "LT-1", "Fairham; Noyes no. 42")
    wanted = thickness * practice.ratio("tenon width") if stock.width is None else stock.width
    _refuse_wide(wanted, thickness, practice)
    width = wanted if use is not Use.FRAME else _between_shoulders(stock, wanted, line, shop)
    if width is None:
        return None
    over = None
    if thickness > most:
        over = warning("tenon thickness", "The tenon is {thickness} thick, over its share of wood {wood} thick: {most}.",
                       "A tenon of {most} or less is usual.", "LT-1", "Fairham; Noyes no. 42",
                       thickness=thickness, wood=end_thickness, most=most)  # fmt: skip
    return TenonSize(stock, thickness, width.named(label(named, "tenon width"), "LT-6", "our own choice; Wheeler 1899"), over)


def _between_shoulders(stock: TenonStock, wanted: Dimension, line: Dimension, shop: Shop) -> Dimension | None:
    """The width in the rail of a frame: as wanted, or narrowed to what the shoulders leave; None under twice its thickness."""
    room = line - shop.practice.length("rail shoulder") * 2
    if wanted <= room:
        return wanted
    least = stock.thickness * _NARROWEST
    if stock.width is not None or room < least:
        return None
    on_rule = rounded_down(room, shop.rule)
    return on_rule if on_rule >= least else room


def _refuse_wide(width: Dimension, thickness: Dimension, practice: Practice) -> None:
    most = thickness * practice.ratio("widest tenon")
    if width > most:
        raise refusal("tenon width", "A tenon {width} wide is over {times} times its thickness, {most}.",
                      "A tenon {most} wide at most, or more than one.", "LT-6", "Wheeler 1899", width=width, most=most,
                      times=str(practice.ratio("widest tenon")))  # fmt: skip


def _thin_walls(given: TenonStock, end: Dimension, shop: Shop, wall: Dimension) -> Refused:
    """The refusal of a tenon the maker asked for, naming the thickest that would hold."""
    left, most = (end - given.thickness) / 2, end - wall * 2
    owned = max((stock.thickness for stock in shop.tenons if stock.thickness <= most), default=None)
    remedy = "A tenon {most} thick at most would hold." if owned is None else "The {owned} tenon of the shop would hold."
    numbers = {"tenon": given.thickness, "left": left, "wall": wall, "end": end, "most": most, "owned": owned or most}
    return _refused("tenon walls", "A {tenon} tenon leaves {left} on each side in wood {end} thick, and {wall} must stay.", remedy,
                    "LT-2", numbers)  # fmt: skip


def _none_thin_enough(end: Dimension, shop: Shop, most: Dimension, holding: Dimension) -> Refused:
    """The refusal where the shop has no tenon thin enough, naming its thinnest and the wood that would suit it."""
    if not shop.tenons:
        return _refused("tenon thickness", "The shop has no tenons.", "Add a tenon {most} thick or less to the shop.", "LT-1",
                        {"most": most})  # fmt: skip
    practice, thinnest = shop.practice, min(stock.thickness for stock in shop.tenons)
    wood = largest(
        thinnest / practice.ratio("tenon share"),
        thinnest + practice.length("tenon wall") * 2,
        thinnest / (1 - practice.ratio("tenon wall share") * 2),
    )
    remedy = "Wood {wood} thick would take it."
    if thinnest <= holding:
        remedy += " Or ask for the {thinnest} tenon: its walls hold."
    limit = min(most, holding)
    numbers = {"thinnest": thinnest, "limit": limit, "end": end, "wood": wood}
    return _refused("tenon thickness", "Wood {end} thick takes a tenon of {limit} at most, and the shop's thinnest is {thinnest}.", remedy,
                    "LT-1", numbers)  # fmt: skip


def _low_rail(stocks: list[TenonStock], line: Dimension, practice: Practice) -> Refused:
    """The refusal of a rail too low for any tenon, naming the lowest that would do (FF-2)."""
    narrowest = min(practice.ratio("tenon width"), Fraction(_NARROWEST))
    least = min(stock.width or stock.thickness * narrowest for stock in stocks)
    lowest = least + practice.length("rail shoulder") * 2
    return _refused("rail height", "A rail {line} high leaves no room for a tenon between its shoulders of {shoulder}.",
                    "The lowest rail that works is {lowest} high.", "FF-2",
                    {"line": line, "shoulder": practice.length("rail shoulder"), "lowest": lowest})  # fmt: skip


def _refused(kind: str, what: str, remedy: str, rule: str, numbers: dict[str, Dimension]) -> Refused:
    return refusal(kind, what, remedy, rule, "", **numbers)
