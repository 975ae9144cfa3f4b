"""Which tenon of the shop a joint takes, and how wide it is (LT-1, LT-2, LT-6, FF-2)."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Final

from joinlay.findings import Change, note, refusal, stock_of, warning
from joinlay.joints.fits import label
from joinlay.joints.mortise_steps import no_such_width, width_by_step
from joinlay.lengths import Fraction, chosen, largest, rounded_down, rounded_up, smallest
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.findings import Finding, Refused
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice, Shop, TenonStock

__all__ = ["TenonSize", "Use", "tenon_sizes"]

_A_THIRD = "Fairham; Noyes no. 42"

#: Narrowest tenon in a frame, in its thicknesses (FF-2).
_NARROWEST = 2

#: As thick as a tenon may be in its wood where the shop has none that is thinner (LT-1).
_UTMOST_SHARE = Fraction(2, 5)


#: A frame's rails, by their keys: only that which is too low can be mended by its own.
_RAILS: Final = ("rail", "top-rail", "bottom-rail")


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
    stocks = _narrow_enough(_thin_enough(end_thickness, shop, use, given), shop.practice)
    found = []
    for stock in stocks:
        thickness = _thickness(stock, end_thickness, line, shop, is_given=given is not None, is_first=stock is stocks[0])
        thickness = thickness.named(label(named, "tenon thickness"), "LT-1", _A_THIRD)
        width = _width(stock, thickness, line, shop, use)
        if width is not None:
            width = width.named(label(named, "tenon width"), "LT-6", "our own choice; Wheeler 1899")
            found.append(TenonSize(stock, thickness, width, _judged(stock, end_thickness, shop, is_given=given is not None)))
    if not found:
        raise _no_width(stocks, line, shop, use)
    return tuple(found)


def wall_needed(thickness: Dimension, practice: Practice) -> Dimension:
    """The wood that must stay on each side of a mortise in wood of this thickness (LT-2)."""
    return largest(thickness * practice.ratio("tenon wall share"), practice.length("tenon wall"))


def _thickest(end_thickness: Dimension, practice: Practice) -> Dimension:
    return (end_thickness * practice.ratio("tenon share")).named("thickest tenon allowed", "LT-1", _A_THIRD)


def _thin_enough(end_thickness: Dimension, shop: Shop, use: Use, given: TenonStock | None) -> list[TenonStock]:
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
        # The thinnest the shop has may be over its third and still be sound: the trade goes up to 2/5.
        utmost = smallest(end_thickness * _UTMOST_SHARE, holding)
        thinnest = min(shop.tenons, key=lambda stock: stock.thickness, default=None)
        fitting = [thinnest] if thinnest is not None and thinnest.thickness <= utmost else []
    if not fitting:
        raise _none_thin_enough(end_thickness, shop, most, wall, use)
    return sorted(fitting, key=lambda stock: stock.thickness, reverse=True)


def _thickness(
    stock: TenonStock, end_thickness: Dimension, line: Dimension, shop: Shop, *, is_given: bool, is_first: bool
) -> Dimension:
    """The tenon's thickness with how it was come by."""
    if is_given:
        return stock.thickness
    most = _thickest(end_thickness, shop.practice)
    if not is_first:
        return chosen(stock.thickness, "thinner tenon of the shop, for a joint line of", line)
    why = "thickest tenon of the shop at most" if stock.thickness <= most else "thinnest tenon of the shop, none being at most"
    return chosen(stock.thickness, why, most)


def _judged(stock: TenonStock, end_thickness: Dimension, shop: Shop, *, is_given: bool) -> Finding | None:
    """What there is to say of a tenon over its share: a warning, or a note where the rule can't show by how much (LT-1)."""
    most = _thickest(end_thickness, shop.practice)
    if stock.thickness <= most:
        return None
    what = "The tenon is {thickness} thick, over its share of wood {wood} thick: {most}."
    if not is_given and (stock.thickness - most) * 2 < shop.rule.division:
        what = "The tenon is {thickness} thick, a hair over its share of {wood}; that does no harm."
        return note("tenon thickness", what, "LT-1", _A_THIRD, thickness=stock.thickness, wood=end_thickness)
    return warning(
        "tenon thickness",
        what,
        "A tenon of {most} or less is usual.",
        "LT-1",
        _A_THIRD,
        thickness=stock.thickness,
        wood=end_thickness,
        most=most,
    )


def _width(stock: TenonStock, thickness: Dimension, line: Dimension, shop: Shop, use: Use) -> Dimension | None:
    """The tenon's width; None where it is too wide for the rail of a frame, or no width the machine gives (LT-6, FF-2, MS-10)."""
    wanted = thickness * shop.practice.ratio("tenon width") if stock.width is None else stock.width
    if shop.machines.width_steps and stock.width is None:
        return width_by_step(wanted, thickness, None if use is not Use.FRAME else _room_in(line, shop), shop)
    if shop.machines.width_steps and wanted not in shop.machines.width_steps:
        return None
    return wanted if use is not Use.FRAME else _between_shoulders(stock, wanted, line, shop)


def _between_shoulders(stock: TenonStock, wanted: Dimension, line: Dimension, shop: Shop) -> Dimension | None:
    """The width in the rail of a frame: as wanted, or narrowed to what the shoulders leave; None under twice its thickness."""
    room = _room_in(line, shop)
    if wanted <= room:
        return wanted
    least = stock.thickness * _NARROWEST
    if stock.width is not None or room < least:
        return None
    on_rule = rounded_down(room, shop.rule)
    return on_rule if on_rule >= least else room


def _room_in(rail: Dimension, shop: Shop) -> Dimension:
    """What the shoulders leave of a rail's height (FF-2)."""
    return rail - shop.practice.length("rail shoulder") * 2


def _no_width(stocks: list[TenonStock], line: Dimension, shop: Shop, use: Use) -> Refused:
    """The refusal where no tenon has a width: the rail is too low for any, or the machine gives none of the widths that would
    do (FF-2, MS-10).
    """
    stock = stocks[0]
    room, least = _room_in(line, shop), stock.width or stock.thickness * _NARROWEST
    if not shop.machines.width_steps or (
        use is Use.FRAME and all((each.width or each.thickness * _NARROWEST) > room for each in stocks)
    ):
        return _low_rail(stocks, line, shop)
    most = stock.width or stock.thickness * shop.practice.ratio("widest tenon")
    if use is Use.FRAME:
        most = smallest(most, largest(room, least))
    return no_such_width(_wanted(stock, shop.practice), shop, least, most)


def _narrow_enough(stocks: list[TenonStock], practice: Practice) -> list[TenonStock]:
    """The tenons that are not too wide for their thickness; raises Refused where all are (LT-6; Wheeler 1899)."""
    times = practice.ratio("widest tenon")
    fitting = [stock for stock in stocks if _wanted(stock, practice) <= stock.thickness * times]
    if not fitting:
        width, most = _wanted(stocks[0], practice), stocks[0].thickness * times
        raise refusal(
            "tenon width",
            "A tenon {width} wide is over {times} times its thickness, {most}.",
            "A tenon {most} wide at most would do, and more than one of them.",
            "LT-6",
            "Wheeler 1899",
            width=width,
            most=most,
            times=str(times),
        )
    return fitting


def _wanted(stock: TenonStock, practice: Practice) -> Dimension:
    return stock.thickness * practice.ratio("tenon width") if stock.width is None else stock.width


def _thin_walls(given: TenonStock, end: Dimension, shop: Shop, wall: Dimension) -> Refused:
    """The refusal of a tenon the maker asked for, naming the thickest that would hold, or the wood that would hold it."""
    left, most = (end - given.thickness) / 2, end - wall * 2
    owned = max((stock.thickness for stock in shop.tenons if stock.thickness <= most), default=None)
    what = "A {tenon} tenon leaves {left} on each side in wood {end} thick, and {wall} must stay."
    if left.mm <= 0:
        what = "A {tenon} tenon is as thick as the wood, {end}, or thicker, and {wall} must stay on each side."
    remedy, wood = _wood_that_holds(given.thickness, shop.practice, with_share=False)
    if owned is not None:
        remedy = "The {owned} tenon of the shop would hold."
    elif most.mm > 0:
        remedy = "A tenon {most} thick at most would hold."
    # Only a drawer's corner is given its tenon.
    ways = (None if owned is None else Change("drawers", "tenon", owned), stock_of("drawers", "sides", thinnest=wood))
    return refusal(
        "tenon walls",
        what,
        remedy,
        "LT-2",
        "our own choice",
        tenon=given.thickness,
        left=left,
        wall=wall,
        end=end,
        most=most,
        owned=owned or most,
        wood=wood,
    ).by(*ways)


def _none_thin_enough(end: Dimension, shop: Shop, most: Dimension, wall: Dimension, use: Use) -> Refused:
    """The refusal where the shop has no tenon thin enough, naming its thinnest and the wood that would suit it."""
    if not shop.tenons:
        return refusal(
            "tenon thickness",
            "The shop has no tenons.",
            "Add a tenon {most} thick or less to the shop.",
            "LT-1",
            _A_THIRD,
            most=most,
        )
    thinnest = min(stock.thickness for stock in shop.tenons)
    remedy, wood = _wood_that_holds(thinnest, shop.practice, with_share=True)
    what = "Wood {end} thick takes a tenon of {most} at most, and the shop's thinnest is {thinnest}."
    if thinnest > end - wall * 2:
        what = "Wood {end} thick cannot hold the shop's thinnest tenon, {thinnest}: {wall} must stay on each side."
    else:
        remedy += " Or ask for the {thinnest} tenon: its walls hold."
    asked = Change("drawers", "tenon", thinnest) if use is Use.DRAWER and thinnest <= end - wall * 2 else None
    thicker = stock_of("frame", "stock", thinnest=wood) if use is Use.FRAME else stock_of("drawers", "sides", thinnest=wood)
    return refusal(
        "tenon thickness", what, remedy, "LT-1", _A_THIRD, thinnest=thinnest, most=most, wall=wall, end=end, wood=wood
    ).by(asked, thicker)


def _wood_that_holds(tenon: Dimension, practice: Practice, *, with_share: bool) -> tuple[str, Dimension]:
    """The advice, and the thinnest wood that holds the tenon between its walls, and within its share where that is asked (LT-1,
    LT-2).
    """
    share, wall_share = practice.ratio("tenon share"), practice.ratio("tenon wall share")
    if wall_share * 2 >= 1 or (with_share and share <= 0):
        return "With the shop's shares for tenon and walls none would hold.", tenon
    needs = [tenon + practice.length("tenon wall") * 2, tenon / (1 - wall_share * 2), *([tenon / share] if with_share else [])]
    return "Wood {wood} thick would take it.", largest(*needs)


def _low_rail(stocks: list[TenonStock], line: Dimension, shop: Shop) -> Refused:
    """The refusal of a rail too low for any tenon, naming the lowest on the maker's rule that would do (FF-2)."""
    practice = shop.practice
    shoulder, narrowest = practice.length("rail shoulder"), min(practice.ratio("tenon width"), Fraction(_NARROWEST))
    lowest = min(stock.width or stock.thickness * narrowest for stock in stocks) + shoulder * 2
    lowest = rounded_up(lowest, shop.rule)
    ways = [
        Change("frame", rail, height)
        for rail in _RAILS
        for height in (lowest, practice.length(f"{rail.replace('-', ' ')} height"))
    ]
    return refusal(
        "tenon placing",
        "A rail {line} high leaves no room for a tenon between its shoulders of {shoulder}.",
        "The lowest rail that holds one is {lowest} high.",
        "FF-2",
        "common practice",
        line=line,
        shoulder=shoulder,
        lowest=lowest,
    ).by(*ways)
