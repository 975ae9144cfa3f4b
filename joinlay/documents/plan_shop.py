"""Stock and shop as plan.json has them: what parts are made of, tools and machines, and the maker's own figures."""

from typing import Annotated

from pydantic import AliasPath, BeforeValidator, Field, model_validator

from joinlay.documents.json_text import exact_text
from joinlay.documents.plan_numbers import LengthTold, NumberTold, Told, Word, attributes
from joinlay.lengths import fraction_in
from joinlay.shop import LENGTH_RULES, RATIO_RULES, Practice
from joinlay.stock import Sheet, Solid

__all__ = ["ShopTold", "StockTold"]


class SheetSizeTold(Told):
    """A whole sheet, its length with the face grain."""

    length: LengthTold
    width: LengthTold


class StockTold(Told):
    """What parts are made of."""

    kind: str = Field(description='"solid", or the kind of sheet.')
    nominal: LengthTold = Field(description="The thickness it is sold as.")
    measured: LengthTold | None = Field(description="The thickness by callipers; null where it was not measured.")
    sheet: SheetSizeTold | None = None
    species: str | None = None
    cut: str | None = Field(None, description="flat or quarter sawn.")

    @model_validator(mode="before")
    @classmethod
    def _of(cls, given: object) -> object:
        if isinstance(given, Sheet):
            return {"kind": given.kind, "nominal": given.nominal, "measured": given.measured, "sheet": given}
        if isinstance(given, Solid):
            return {"kind": "solid", **attributes(given)}
        return given


class CornerCutterTold(Told):
    """A cutter that makes both halves of a corner, by its test cut."""

    slot: LengthTold = Field(description="How wide the slot is in the end of a scrap that lay flat.")
    tongue: LengthTold = Field(description="How thick the wood below the slot is.")
    length: LengthTold = Field(description="From the slot's floor to the tongue's tip.")
    deepest: LengthTold = Field(description="The deepest slot it makes.")
    diameter: LengthTold


class CutterTold(Told):
    """A straight cutter and how deep it reaches."""

    diameter: LengthTold
    reach: LengthTold


class TenonStockTold(Told):
    """Tenon stock: strip where it has no width and length. ``reach`` is the deepest mortise; null: no limit."""

    thickness: LengthTold
    width: LengthTold | None
    length: LengthTold | None
    reach: LengthTold | None


class RouterTableTold(Told):
    """A router under a table: its fence, and how large a part is carried over it."""

    fence_height: LengthTold
    fence_reach: LengthTold = Field(description="The farthest the fence is set from the cutter.")
    longest: LengthTold = Field(description="The longest part, along the fence.")
    farthest: LengthTold = Field(description="How far a part reaches from the fence at most.")


class TableSawTold(RouterTableTold):
    """A table saw."""

    blade_height: LengthTold = Field(description="The deepest it cuts.")
    dado_widths: list[LengthTold] = Field(description="The widths its dado set is stacked to; empty where it has none.")


class HandRouterTold(Told):
    """A hand-held router."""

    base: LengthTold = Field(description="The width of its base.")
    guide_reach: LengthTold = Field(description="The farthest its edge guide is set.")
    to_centre: LengthTold | None = Field(description="Edge of the base to the middle of the cutter; null: half the base.")


class HandToolsTold(Told):
    """What is on the bench to cut by hand."""

    narrowest_chisel: LengthTold = Field(description="No channel or mortise that is narrower is cut by hand.")


class GlueTold(Told):
    """The glue, as its bottle says."""

    open_time: int = Field(description="How long it stays open, in seconds.")
    clamp_time: int = Field(description="How long it stays in clamps, in seconds.")
    is_written: bool = Field(description="False for the usual glue, which nobody read off a bottle.")


class ClampsTold(Told):
    """Clamps that are alike."""

    length: LengthTold = Field(description="Between their jaws, wide open.")
    count: int


class RunLimitsTold(Told):
    """How a part is run."""

    deepest_pass: LengthTold
    narrow: LengthTold = Field(description="A narrower part gets a push block or a carrier.")
    short: LengthTold = Field(description="So does a shorter one.")
    smallest: LengthTold = Field(description="A part with no side as long as this is not run at all.")
    tallest_on_end: LengthTold


class MachinesTold(Told):
    """What the shop cuts joints with; null or false for what it has not."""

    router_table: RouterTableTold | None
    table_saw: TableSawTold | None
    hand_router: HandRouterTold | None
    mortiser: bool = Field(validation_alias="has_mortiser")
    mortise_depths: list[LengthTold] = Field(description="The stops the mortiser can be set to; empty where it takes any depth.")
    mortise_heights: list[LengthTold] = Field(
        description="The steps of its fence, to the mortise's centre; empty where it takes any."
    )
    mortise_widths: list[LengthTold] = Field(description="The widths of a mortise it gives; empty where it takes any.")
    drill: bool = Field(validation_alias="has_drill")
    hand_tools: HandToolsTold | None = Field(description="They cut what no machine does.")
    first_choice: list[Word] = Field(description="The order in which they are tried.")
    limits: RunLimitsTold


def _own_practice(practice: object) -> object:
    """The figures of the trade rules that the maker set otherwise than usual."""
    if not isinstance(practice, Practice):
        return practice
    lengths = {row.name: practice.length(row.name) for row in LENGTH_RULES}
    ratios = {row.name: practice.ratio(row.name) for row in RATIO_RULES}
    usual = {row.name: fraction_in(row.value) for row in RATIO_RULES}
    return {
        **{name: figure for name, figure in lengths.items() if figure.origin != "default"},
        **{
            name: {"number": float(figure), "exact": exact_text(figure)}
            for name, figure in ratios.items()
            if figure != usual[name]
        },
    }


class ShopTold(Told):
    """The tools, and the figures of trade rules that the maker set otherwise than usual."""

    kerf: LengthTold = Field(validation_alias=AliasPath("saw", "kerf"))
    cutters: list[CutterTold]
    corner_cutters: list[CornerCutterTold] = Field(
        description="Those that make both halves of a drawer's corner; empty where there are none."
    )
    tenons: list[TenonStockTold]
    machines: MachinesTold
    glue: GlueTold
    clamps: list[ClampsTold] | None = Field(description="Null where the maker has not said.")
    practice: Annotated[dict[str, LengthTold | NumberTold], BeforeValidator(_own_practice)]
