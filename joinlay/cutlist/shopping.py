"""What to buy and have ready, what it costs at the maker's prices, and what metal slides would have cost instead."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.cutlist.fastening import glued, nails, screws
from joinlay.cutlist.solid_wood import CUBIC_METRES
from joinlay.cutlist.tenon_strip import tenon_strips
from joinlay.errors import nearest_names
from joinlay.findings import note, warning
from joinlay.lengths import MM_PER_INCH, Fraction, Unit, decimal_text
from joinlay.paper import paper_named

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList
    from joinlay.cutlist.pattern import Layout
    from joinlay.cutlist.solid_wood import SolidNeed
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import Prices
    from joinlay.jobs.plan import Plan

__all__ = ["Line", "Shopping", "shopping_list"]

#: A foot and a metre in mm: what strip and banding are sold by.
_RUN: Final = {Unit.INCH: ("feet", 12 * MM_PER_INCH), Unit.MM: ("metres", Fraction(1000))}
#: A square inch and a square centimetre in square mm.
_AREA: Final = {Unit.INCH: ("square inches", MM_PER_INCH**2), Unit.MM: ("square cm", Fraction(100))}


@dataclass(frozen=True, slots=True)
class Line:
    """One thing to have: ``amount`` of ``what`` in ``unit``, with a word on it in ``remark``.

    ``price`` is for one unit, None where none is given; ``is_bought`` False for what the maker makes or only needs to know.
    """

    what: str
    amount: Fraction
    unit: str
    remark: str = ""
    price: Fraction | None = None
    is_bought: bool = True

    @property
    def cost(self) -> Fraction | None:
        """Amount times price; None where there is no price."""
        return None if self.price is None else self.amount * self.price

    @property
    def figures(self) -> str:
        """The amount in figures, to two places (three of a cubic metre), never rounded down: a strip a hair short is of no use."""
        places = 3 if self.unit == CUBIC_METRES else 2
        return decimal_text(Fraction(ceil(self.amount * 10**places), 10**places), places)


@dataclass(frozen=True, slots=True)
class Shopping:
    """The lines, their total at the prices known, and what was found.

    ``total`` is None where no price is given at all. ``is_whole`` False: some line has no price, so the total is at least that much.
    ``slides`` is what metal slides for the drawers would have cost, None where their price isn't given.
    """

    lines: tuple[Line, ...]
    currency: str
    total: Fraction | None
    is_whole: bool
    slides: Line | None
    findings: tuple[Finding, ...]

    def money(self, amount: Fraction) -> str:
        """``amount`` to two places with its currency: ``12.50 GBP``."""
        cents = round(amount * 100)
        return f"{cents // 100}.{cents % 100:02d} {self.currency}".rstrip()


def shopping_list(
    plan: Plan,
    parts: CuttingList,
    sheets: Sequence[Layout],
    solid: Sequence[SolidNeed],
    paper: int | None = None,
) -> Shopping:
    """Everything to buy or make ready for ``plan``, with its cost at ``plan.on_hand.prices``.

    ``sheets`` are the sheet layouts, ``solid`` what is needed of solid wood, ``paper`` the number of sheets of paper its templates are
    printed on, where that is known. Lengths of strip and banding are in feet or metres, by the job's unit (CL-2).
    """
    prices = plan.on_hand.prices
    lines = tuple(
        _priced(line, plan, prices)
        for line in (
            *_sheets(sheets),
            *_solid(solid),
            *_banding(plan, parts),
            *_tenons(plan, parts),
            *_fastenings(plan),
            *_glue(plan),
            *_knobs(plan, parts),
            *_dots(plan),
            *([Line("paper", Fraction(paper), "sheets", f"{paper_named(plan.paper).title}, for the packet")] if paper else []),
        )
    )
    bought = [line for line in lines if line.is_bought and line.amount]
    known = [line.cost for line in bought if line.cost is not None]
    total = sum(known, Fraction(0)) if prices.of else None
    found = (*_unpriced(bought, prices), *_unused(lines, plan, prices))
    return Shopping(lines, prices.currency, total, len(known) == len(bought), _slides(plan, prices), found)


def _sheets(layouts: Sequence[Layout]) -> Iterator[Line]:
    for layout in layouts:
        pieces = sum(not sheet.blank.is_whole for sheet in layout.sheets)
        held = "1 piece on hand" if pieces == 1 else f"{pieces} pieces on hand"
        remark = (f"besides {held}" if layout.whole else f"{held} will do") if pieces else ""
        yield Line(layout.stock, Fraction(layout.whole), "sheets" if layout.whole != 1 else "sheet", remark)


def _solid(needs: Sequence[SolidNeed]) -> Iterator[Line]:
    for need in needs:
        words = [need.stock.species, need.lumber.name, "waste included" if need.buy else "all of it on hand"]
        yield Line(need.stock.name, need.buy, need.unit, ", ".join(word for word in words if word))


def _banding(plan: Plan, parts: CuttingList) -> Iterator[Line]:
    unit, size = _RUN[plan.unit]
    lengths: dict[str, Fraction] = {}
    strips: dict[str, int] = {}
    for row in parts.rows:
        for band in row.bands:
            lengths[band.stock] = lengths.get(band.stock, Fraction(0)) + band.length.mm * row.quantity
            strips[band.stock] = strips.get(band.stock, 0) + row.quantity
    for stock, length in lengths.items():
        yield Line(stock, length / size, unit, f"banding, in {strips[stock]} strips, trim included")


def _tenons(plan: Plan, parts: CuttingList) -> Iterator[Line]:
    unit, size = _RUN[plan.unit]
    for strip in tenon_strips(plan, parts):
        section = f"{plan.rule.sold(strip.thickness)} by {plan.rule.sold(strip.width)}"
        each = ", ".join(f"{row.quantity} at {plan.rule.text(row.finished.length)}" for row in strip.rows)
        remark = f"{section}: {each}, and {strip.spare} to spare"
        yield Line(strip.rows[0].board.stock, strip.length.mm / size, unit, remark, is_bought=False)


def _fastenings(plan: Plan) -> Iterator[Line]:
    if number := screws(plan):
        shank = plan.rule.text(plan.shop.practice.length("bearer screw"))
        yield Line("screws", Fraction(number), "pieces", f"{shank} in the shank, through the runners into the case")
    if number := nails(plan):
        yield Line("nails", Fraction(number), "pieces", "for the runners, glued as well")


def _glue(plan: Plan) -> Iterator[Line]:
    unit, size = _AREA[plan.unit]
    if where := glued(plan):
        area = Fraction(ceil(sum(where.values(), Fraction(0)) / size))
        yield Line("glue", area, unit, f"to cover: {', '.join(where)}; bottoms and backs stay dry", is_bought=False)


def _knobs(plan: Plan, parts: CuttingList) -> Iterator[Line]:
    blanks = sum(row.quantity for row in parts.rows if row.part == "knob blank")
    if blanks:
        two = ", two from one blank where a front has two" if len(plan.knobs) > blanks else ""
        knobs = f"for {len(plan.knobs)} knob{'' if len(plan.knobs) == 1 else 's'}{two}; " if plan.knobs else ""
        yield Line("knob blanks", Fraction(blanks), "pieces", f"{knobs}their wood is counted above", is_bought=False)


def _dots(plan: Plan) -> Iterator[Line]:
    dots = Counter(plan.rule.text(knob.dot) for knob in plan.knobs if knob.dot is not None)
    if dots:
        each = ", ".join(f"{count} of {across}" for across, count in dots.items())
        yield Line("inlaid dots", Fraction(dots.total()), "pieces", f"for the knobs, across: {each}", is_bought=False)


def _priced(line: Line, plan: Plan, prices: Prices) -> Line:
    names = [line.what, *(key for key, stock in plan.stocks.items() if stock.name == line.what)]
    price = next((prices.of[name] for name in names if name in prices.of), None)
    return line if price is None else Line(line.what, line.amount, line.unit, line.remark, price, is_bought=True)


def _unpriced(bought: Iterable[Line], prices: Prices) -> Iterator[Finding]:
    missing = [line.what for line in bought if line.price is None]
    if missing and prices.of:
        yield note("no price", "The total leaves out {names}, for want of a price.", "CL-2", names=", ".join(missing))


def _unused(lines: Sequence[Line], plan: Plan, prices: Prices) -> Iterator[Finding]:
    """A price that belongs to nothing is most often a slip in a name."""
    known = tuple(dict.fromkeys([*plan.stocks, *(stock.name for stock in plan.stocks.values()), *(line.what for line in lines)]))
    for name in prices.of:
        if name not in known:
            near = nearest_names(name, known, 1)
            remedy = "The nearest name is {near}." if near else "The names are {near}."
            yield warning(
                "price not used", "The price of {name} belongs to nothing on the list.", remedy, "CL-2",
                name=name, near=near[0] if near else ", ".join(known),
            )  # fmt: skip


def _slides(plan: Plan, prices: Prices) -> Line | None:
    if prices.slides is None or not plan.drawers:
        return None
    longest = max(drawer.length for drawer in plan.drawers)
    remark = f"for drawers up to {plan.rule.text(longest)} long, had they not run on wood"
    return Line("metal slides", Fraction(len(plan.drawers)), "pairs", remark, prices.slides)
