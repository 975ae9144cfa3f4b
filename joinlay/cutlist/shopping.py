"""What to buy and have ready, what it costs at the maker's prices, and what metal slides would have cost instead."""

from __future__ import annotations

from collections import Counter
from math import ceil
from typing import TYPE_CHECKING, Final

from joinlay.boards import CutUse, PartKind
from joinlay.cutlist.fastenings import fasteners_of, glued, tenon_strips
from joinlay.cutlist.solid_wood import CUBIC_METRES, lipping_stock
from joinlay.errors import nearest_names
from joinlay.findings import note, warning
from joinlay.lengths import MM_PER_INCH, Fraction, Unit, decimal_text
from joinlay.paper import paper_named
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.cutlist.cutting_list import CuttingList
    from joinlay.cutlist.pattern import Layout
    from joinlay.cutlist.solid_wood import SolidNeed
    from joinlay.findings import Finding
    from joinlay.jobs.on_hand import Prices
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Graduation

__all__ = ["Shopping", "ShoppingLine", "shopping_list"]

#: A foot and a metre in mm: what strip and banding are sold by.
_RUN: Final = {Unit.INCH: ("feet", 12 * MM_PER_INCH), Unit.MM: ("metres", Fraction(1000))}
#: A square inch and a square centimetre in square mm.
_AREA: Final = {Unit.INCH: ("square inches", MM_PER_INCH**2), Unit.MM: ("square cm", Fraction(100))}


@dataclass(frozen=True, slots=True)
class ShoppingLine:
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
        """The amount as it is printed times the price, to the hundredth, so that costs add up as printed; None where there is
        no price.
        """
        return None if self.price is None else Fraction(round(self.told * self.price * 100), 100)

    @property
    def told(self) -> Fraction:
        """The amount as it is printed, to two places (cubic metres: three), never rounded down: a strip a hair short is of no
        use.
        """
        places = 3 if self.unit == CUBIC_METRES else 2
        return Fraction(ceil(self.amount * 10**places), 10**places)

    @property
    def figures(self) -> str:
        """The amount in figures."""
        return decimal_text(self.told, 3)


@dataclass(frozen=True, slots=True)
class Shopping:
    """The lines, their total at the prices known, and what was found.

    ``total`` is None where no price is given at all. ``is_whole`` False: some line has no price, so the total is at least that
    much. ``slides`` is what metal slides for the drawers would have cost, None where their price isn't given.
    """

    lines: tuple[ShoppingLine, ...]
    currency: str
    total: Fraction | None
    is_whole: bool
    slides: ShoppingLine | None
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
    """Everything to buy or make ready for ``plan``, with its cost at ``plan.on_hand.prices`` (CL-2).

    ``parts`` is the cutting list, ``sheets`` are the sheet layouts, ``solid`` what is needed of solid wood, ``paper`` the
    number of sheets of paper its templates are printed on, None where that isn't known. Lengths of strip and banding are in
    feet or metres, by the job's unit.
    """
    prices = plan.on_hand.prices
    lines = tuple(
        _priced(line, plan, prices)
        for line in (
            *_sheets(sheets),
            *_solid(solid, plan.rule),
            *_banding(plan, parts),
            *_tenons(plan, parts),
            *_fastenings(plan),
            *_pins(plan),
            *_levellers(plan),
            *_glue(plan),
            *_knobs(plan, parts),
            *_dots(plan),
            *(
                [ShoppingLine("paper", Fraction(paper), "sheets", f"{paper_named(plan.paper).title}, for the packet")]
                if paper
                else []
            ),
        )
    )
    bought = [line for line in lines if line.is_bought and line.amount]
    known = [line.cost for line in bought if line.cost is not None]
    total = sum(known, Fraction(0)) if prices.of else None
    found = (*_unpriced(bought, prices), *_unused(lines, plan, prices))
    return Shopping(lines, prices.currency, total, len(known) == len(bought), _slides(plan, prices), found)


def _sheets(layouts: Sequence[Layout]) -> Iterator[ShoppingLine]:
    for layout in layouts:
        pieces = sum(not sheet.blank.is_whole for sheet in layout.sheets)
        held = "1 piece on hand" if pieces == 1 else f"{pieces} pieces on hand"
        remark = (f"besides {held}" if layout.whole else f"{held} will do") if pieces else ""
        yield ShoppingLine(layout.stock, Fraction(layout.whole), "sheets" if layout.whole != 1 else "sheet", remark)


def _solid(needs: Sequence[SolidNeed], rule: Graduation) -> Iterator[ShoppingLine]:
    for need in needs:
        wide = f"{rule.text(rule.up(need.widest))} wide at most, wide parts are glued up" if need.widest is not None else ""
        words = [need.stock.species, need.lumber.name, wide, "waste included" if need.buy else "all of it on hand"]
        yield ShoppingLine(need.stock.name, need.buy, need.unit, ", ".join(word for word in words if word))


def _banding(plan: Plan, parts: CuttingList) -> Iterator[ShoppingLine]:
    unit, size = _RUN[plan.unit]
    lengths: dict[tuple[str, str, bool], Fraction] = {}
    strips: dict[tuple[str, str, bool], int] = {}
    for row in parts.rows:
        for band in row.bands:
            sold = plan.rule.sold
            what = "banding" if band.width is None else f"lipping {sold(band.thickness)} thick, {sold(band.width)} wide"
            key = (band.stock, what, band.width is None or lipping_stock(band, plan.stocks) is None)
            lengths[key] = lengths.get(key, Fraction(0)) + band.length.mm * row.quantity
            strips[key] = strips.get(key, 0) + row.quantity
    for (stock, what, is_bought), length in lengths.items():
        counted = "" if is_bought else "; its wood is counted above"
        said = f"{what}, in {strips[stock, what, is_bought]} strips, trim included{counted}"
        yield ShoppingLine(stock, length / size, unit, said, is_bought=is_bought)


def _tenons(plan: Plan, parts: CuttingList) -> Iterator[ShoppingLine]:
    unit, size = _RUN[plan.unit]
    for strip in tenon_strips(plan, parts):
        section = f"{plan.rule.sold(strip.thickness)} by {plan.rule.sold(strip.width)}"
        each = ", ".join(f"{row.quantity} at {plan.rule.text(row.finished.length)}" for row in strip.rows)
        remark = f"{section}: {each}, and {strip.spare} to spare"
        yield ShoppingLine(strip.rows[0].board.stock, strip.length.mm / size, unit, remark, is_bought=False)


def _fastenings(plan: Plan) -> Iterator[ShoppingLine]:
    for each in fasteners_of(plan):
        size = each.fastener
        shank = "" if size.shank is None else f", {plan.rule.text(size.shank)} in the shank"
        through, into = (kind.value for kind in (each.through, each.into))
        apart = "" if size.spacing is None else f", {plan.rule.text(size.spacing)} apart at most"
        remark = f"{plan.rule.text(size.length)} long{shank}{apart}; through each {through} into the {into}"
        yield ShoppingLine(f"{size.kind.value}s", Fraction(each.count), "pieces", remark)


def _levellers(plan: Plan) -> Iterator[ShoppingLine]:
    """A leveller for each foot that is bored for one (BA-3)."""
    holes = [cut for board in plan.boards for cut in board.cuts_of(CutUse.LEVELLER_HOLE)]
    if holes:
        wide, deep = plan.rule.text(holes[0].across.size), plan.rule.text(holes[0].depth)
        yield ShoppingLine("levellers", Fraction(len(holes)), "pieces", f"for holes of {wide}, {deep} deep, one in each foot")


def _pins(plan: Plan) -> Iterator[ShoppingLine]:
    if shelves := sum(board.role.kind is PartKind.LOOSE_SHELF for board in plan.boards):
        hole = plan.rule.text(plan.shop.practice.length("pin hole"))
        yield ShoppingLine("shelf pins", Fraction(4 * shelves), "pieces", f"for holes of {hole}, four under each loose shelf")


def _glue(plan: Plan) -> Iterator[ShoppingLine]:
    unit, size = _AREA[plan.unit]
    if where := glued(plan):
        area = Fraction(ceil(sum(where.values(), Fraction(0)) / size))
        dry = "the rest of the bottoms stays" if "bottoms at the front" in where else "bottoms stay"
        yield ShoppingLine("glue", area, unit, f"to cover: {', '.join(where)}; {dry} dry, and so do backs", is_bought=False)


def _knobs(plan: Plan, parts: CuttingList) -> Iterator[ShoppingLine]:
    blanks = sum(row.quantity for row in parts.rows if row.kind is PartKind.KNOB_BLANK)
    if blanks:
        two = ", two from one blank where a front has two" if len(plan.knobs) > blanks else ""
        knobs = f"for {len(plan.knobs)} knob{'' if len(plan.knobs) == 1 else 's'}{two}; " if plan.knobs else ""
        yield ShoppingLine("knob blanks", Fraction(blanks), "pieces", f"{knobs}their wood is counted above", is_bought=False)


def _dots(plan: Plan) -> Iterator[ShoppingLine]:
    dots = Counter(plan.rule.text(knob.dot) for knob in plan.knobs if knob.dot is not None)
    if dots:
        each = ", ".join(f"{count} of {across}" for across, count in dots.items())
        yield ShoppingLine("inlaid dots", Fraction(dots.total()), "pieces", f"for the knobs, across: {each}", is_bought=False)


def _priced(line: ShoppingLine, plan: Plan, prices: Prices) -> ShoppingLine:
    names = [line.what, *(key for key, stock in plan.stocks.items() if stock.name == line.what)]
    price = next((prices.of[name] for name in names if name in prices.of), None)
    return line if price is None else ShoppingLine(line.what, line.amount, line.unit, line.remark, price, is_bought=True)


def _unpriced(bought: Iterable[ShoppingLine], prices: Prices) -> Iterator[Finding]:
    missing = [line.what for line in bought if line.price is None]
    if missing and prices.of:
        yield note("no price", "The total leaves out {names}, for want of a price.", "CL-2", names=", ".join(missing))


def _unused(lines: Sequence[ShoppingLine], plan: Plan, prices: Prices) -> Iterator[Finding]:
    """A price that belongs to nothing is most often a slip in a name."""
    known = tuple(dict.fromkeys([*plan.stocks, *(stock.name for stock in plan.stocks.values()), *(line.what for line in lines)]))
    for name in prices.of:
        if name not in known:
            near = nearest_names(name, known, 1)
            remedy = "The nearest name is {near}." if near else "The names are {near}."
            yield warning(
                "price not used",
                "There is a price for {name}, but nothing on the list is called that.",
                remedy,
                "CL-2",
                name=name,
                near=near[0] if near else ", ".join(known),
            )


def _slides(plan: Plan, prices: Prices) -> ShoppingLine | None:
    if prices.slides is None or not plan.drawers:
        return None
    longest = max(drawer.length for drawer in plan.drawers)
    remark = f"for drawers up to {plan.rule.text(longest)} long, had they not run on wood"
    return ShoppingLine("metal slides", Fraction(len(plan.drawers)), "pairs", remark, prices.slides)
