"""``[shop]``, its machines and ``[practice]``: what the maker owns, and the maker's own figures for the trade rules.

A shop file that many jobs share holds the same tables. A machine is a table with what differs from a modest shop's, or
``false`` where the shop has none. ``[practice]`` has a key for every row of the shop's practice tables.
"""

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Final, TypeVar

from pydantic import Field, ModelWrapValidatorHandler, PrivateAttr, create_model, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.amounts import Time
from joinlay.jobs.tables.given import Count, EitherWay, Entry, Gap, Given, Name, Ratio, Size, YesOrNo, dimension_of, one_of
from joinlay.lengths import GRADUATIONS, Dimension, Graduation, Length, Unit
from joinlay.shop import (
    LENGTH_RULES,
    RATIO_RULES,
    Clamps,
    CornerCutter,
    Cutter,
    Glue,
    HandRouter,
    HandTools,
    MachineKind,
    Machines,
    Practice,
    RouterTable,
    Saw,
    Shop,
    TableSaw,
    TenonStock,
    deepest_mortise,
    usual_machines,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pydantic import GetJsonSchemaHandler
    from pydantic_core import CoreSchema

    from joinlay.lengths import Fraction

__all__ = [
    "PRACTICE_KEYS",
    "TWO_MEANINGS",
    "UNITS",
    "ClampEntry",
    "CornerCutterEntry",
    "CutterEntry",
    "GlueEntry",
    "HandRouterEntry",
    "HandToolsEntry",
    "JobShopEntry",
    "LimitsEntry",
    "MachineTables",
    "PracticeEntry",
    "RouterTableEntry",
    "Rule",
    "ShopEntry",
    "ShopFile",
    "TableSawEntry",
    "TenonEntry",
    "Units",
    "key_of",
    "set_length",
]

#: Keys that would be read either way, with what to write instead.
TWO_MEANINGS: Final = {
    "bottom-clearance": (
        "write bottom-clearance-of-the-front (drawer front to the rail below it) or bottom-panel-clearance (how much smaller "
        "the bottom is than its grooves)."
    )
}

#: Lengths that must be above zero to mean anything.
_ABOVE_ZERO: Final = {"groove depth", "tenon spacing in a case"}


#: Lengths that may be negative.
_EITHER_WAY: Final = {"taper"}


def key_of(rule: str) -> str:
    """The key that sets the rule called ``rule``: its name with hyphens."""
    return rule.replace(" ", "-")


_NAMES: Final = (*(row.name for row in LENGTH_RULES), *(row.name for row in RATIO_RULES))

#: Every key of ``[practice]`` with the name of the rule it sets.
PRACTICE_KEYS: Final[dict[str, str]] = {key_of(name): name for name in _NAMES}
_RULES: Final = {row.name: row.rule for row in LENGTH_RULES}


def set_length(practice: Practice, rule: str, given: Given[Length], name: str = "") -> Practice:
    """``practice`` with the length rule ``rule`` set as given; the dimension is called ``name``, or like the rule."""
    return practice.but({rule: dimension_of(given, name or rule, _RULES[rule])})


class Figures(Entry):
    """What ``[practice]`` can do, whatever rows its tables have."""

    @model_validator(mode="after")
    def _shares_are_parts(self) -> "Figures":
        given: Given[Fraction] | None
        for field, given in self:
            if field.endswith("share") and given is not None and given.value >= 1:
                key = field.replace("_", "-")
                raise BadInput(f'{key} is {given.spelled}; a share of a thickness must be less than 1, such as "1/3".')
        return self

    def over(self, usual: Practice) -> Practice:
        """``usual`` with every figure that is written here in its place."""
        written: Mapping[str, Any] = {PRACTICE_KEYS[field.replace("_", "-")]: given for field, given in self if given is not None}
        lengths = {rule: dimension_of(given, rule, _RULES[rule]) for rule, given in written.items() if rule in _RULES}
        return usual.but(lengths, {rule: given.value for rule, given in written.items() if rule not in _RULES})


def _kind_of(rule: str) -> object:
    if rule in _EITHER_WAY:
        return EitherWay
    return Size if rule in _ABOVE_ZERO else Gap


def _fields() -> dict[str, Any]:
    lengths = {row.name: _kind_of(row.name) for row in LENGTH_RULES}
    kinds: dict[str, Any] = {**lengths, **{row.name: Ratio for row in RATIO_RULES}}
    return {key_of(rule).replace("-", "_"): (kind | None, None) for rule, kind in kinds.items()}


#: ``[practice]`` of a job or shop file.
PracticeEntry = create_model("PracticeEntry", __base__=Figures, **_fields())


_M = TypeVar("_M", RouterTable, TableSaw, HandRouter, HandTools)

#: The machines a channel or rabbet may be cut at, by the words for them.
_CHOICES: Final = {kind.value: kind for kind in (MachineKind.ROUTER_TABLE, MachineKind.TABLE_SAW, MachineKind.HAND_ROUTER)}
Choice = Annotated[Given[MachineKind], one_of(_CHOICES)]


class _Machine(Entry):
    """A table of sizes, or ``false``; ``true`` is a machine like any other modest shop's."""

    #: What its sizes are called, by key, and the rule they stand in.
    words: ClassVar[dict[str, str]] = {}
    _has_none: bool = PrivateAttr(default=False)

    @model_validator(mode="wrap")
    @classmethod
    def _or_false(cls, given: object, handler: ModelWrapValidatorHandler["_Machine"]) -> "_Machine":
        if not isinstance(given, Spelled):
            return handler(given)
        if not isinstance(given.value, bool):
            raise BadInput(
                f'write false where the shop has none, or a table with its sizes, such as {{ {next(iter(cls.words))} = "4" }}.'
            )
        made = handler({})
        made._has_none = not given.value
        return made

    @classmethod
    def __get_pydantic_json_schema__(cls, core_schema: "CoreSchema", handler: "GetJsonSchemaHandler") -> dict[str, Any]:
        """The table, or true or false in its place."""
        return {"anyOf": [handler(core_schema), {"type": "boolean"}]}

    def sizes(self) -> dict[str, Any]:
        """The sizes that are written, by field."""
        written = {key.replace("-", "_"): (getattr(self, key.replace("-", "_")), word) for key, word in self.words.items()}
        return {field: dimension_of(given, word, "MS-5") for field, (given, word) in written.items() if given is not None}


class RouterTableEntry(_Machine):
    """A router under a table: its fence's height and reach from the cutter, and the largest part carried over it."""

    words: ClassVar[dict[str, str]] = {
        "fence-height": "table fence height",
        "fence-reach": "table fence reach",
        "longest": "longest part on the table",
        "farthest": "farthest from the table's fence",
    }
    fence_height: Size | None = None
    fence_reach: Size | None = None
    longest: Size | None = None
    farthest: Size | None = None


class TableSawEntry(_Machine):
    """A table saw; ``dado-set`` lists the widths its dado set is stacked to."""

    words: ClassVar[dict[str, str]] = {
        "fence-height": "saw fence height",
        "fence-reach": "saw fence reach",
        "blade-height": "blade height",
        "longest": "longest part on the saw",
        "farthest": "farthest from the saw's fence",
    }
    fence_height: Size | None = None
    fence_reach: Size | None = None
    blade_height: Size | None = None
    longest: Size | None = None
    farthest: Size | None = None
    dado_set: Annotated[list[Size], Field(min_length=1, max_length=50)] | None = None


class OffsetEntry(Entry):
    """The edge of the base to the near wall of a trial cut along a straightedge, and the cutter it was cut with."""

    distance: Size
    cutter: Size

    def to_centre(self) -> Dimension:
        """The edge of the base to the middle of the cutter, which is the same for every cutter (MS-5)."""
        distance = dimension_of(self.distance, "edge of the router's base to the near wall")
        cutter = dimension_of(self.cutter, "cutter of the trial cut")
        return (distance + cutter / 2).named("edge of the router's base to the middle of the cutter", "MS-5", "measured")


class HandRouterEntry(_Machine):
    """A hand-held router: the width of its base, how far its edge guide sets, and ``offset`` where the base is not true."""

    words: ClassVar[dict[str, str]] = {"base": "router base", "guide-reach": "edge guide reach"}
    base: Size | None = None
    guide_reach: Size | None = None
    offset: OffsetEntry | None = None

    def sizes(self) -> dict[str, Any]:
        """The sizes that are written, by field; a new base without an offset is taken to be true."""
        written = super().sizes()
        return written if self.offset is None else {**written, "to_centre": self.offset.to_centre()}


class HandToolsEntry(_Machine):
    """The hand tools of the bench: the width of the narrowest chisel; false where nothing is cut by hand."""

    words: ClassVar[dict[str, str]] = {"narrowest-chisel": "narrowest chisel"}
    narrowest_chisel: Size | None = None

    def sizes(self) -> dict[str, Any]:
        """The width that is written, by field."""
        given = self.narrowest_chisel
        return {} if given is None else {"narrowest_chisel": dimension_of(given, "narrowest chisel", "MS-8")}


class LimitsEntry(Entry):
    """How a part is run: the deepest pass, and the smallest and tallest parts (MS-4 to MS-6)."""

    deepest_pass: Size | None = None
    narrow: Size | None = None
    short: Size | None = None
    smallest: Size | None = None
    tallest_on_end: Size | None = None


#: What the limits are called, and their rule.
_LIMITS: Final = {
    "deepest_pass": ("deepest pass", "MS-4"),
    "narrow": ("narrow part", "MS-6"),
    "short": ("short part", "MS-6"),
    "smallest": ("smallest part", "MS-6"),
    "tallest_on_end": ("tallest part on end", "MS-5"),
}


#: Everything a machine with fixed steps can be set to (MS-10).
Steps = Annotated[list[Size], Field(min_length=1, max_length=40)]


class MachineTables(Entry):
    """The keys of ``[shop]`` that say which machines there are; ``first-choice`` is the order in which they are tried."""

    router_table: RouterTableEntry | None = None
    table_saw: TableSawEntry | None = None
    hand_router: HandRouterEntry | None = None
    mortiser: YesOrNo | None = None
    mortise_depths: Steps | None = None
    mortise_heights: Steps | None = None
    mortise_widths: Steps | None = None
    drill: YesOrNo | None = None
    hand_tools: HandToolsEntry | None = None
    first_choice: Annotated[list[Choice], Field(min_length=1, max_length=10)] | None = None
    limits: LimitsEntry | None = None

    @model_validator(mode="after")
    def _named_once(self) -> "MachineTables":
        chosen = [choice.value for choice in self.first_choice or ()]
        if twice := next((kind for kind in chosen if chosen.count(kind) > 1), None):
            raise BadInput(f"first-choice names the {twice.value} twice; write each machine once, the one you like best first.")
        return self

    def machines(self, before: Machines, usual: Machines) -> Machines:
        """``before`` with everything that is written here in its place.

        A machine that ``before`` hasn't is a ``usual`` one but for what is written.
        """
        made = replace(
            before,
            router_table=_over(self.router_table, before.router_table, usual.router_table),
            table_saw=_over(self.table_saw, before.table_saw, usual.table_saw),
            hand_router=_over(self.hand_router, before.hand_router, usual.hand_router),
            hand_tools=_over(self.hand_tools, before.hand_tools, usual.hand_tools),
            has_mortiser=before.has_mortiser if self.mortiser is None else self.mortiser,
            mortise_depths=_steps(self.mortise_depths, "depth stop", before.mortise_depths),
            mortise_heights=_steps(self.mortise_heights, "step of the fence", before.mortise_heights),
            mortise_widths=_steps(self.mortise_widths, "width of the mortiser", before.mortise_widths),
            has_drill=before.has_drill if self.drill is None else self.drill,
            first_choice=before.first_choice if self.first_choice is None else _in_order(self.first_choice, before.first_choice),
        )
        if self.table_saw is not None and self.table_saw.dado_set is not None and made.table_saw is not None:
            widths = sorted(dimension_of(width, f"{width.spelled} dado set") for width in self.table_saw.dado_set)
            made = replace(made, table_saw=replace(made.table_saw, dado_widths=tuple(widths)))
        return made if self.limits is None else replace(made, limits=replace(made.limits, **_limits(self.limits)))


def _over(part: _Machine | None, before: _M | None, usual: _M | None) -> _M | None:
    if part is None:
        return before
    base = before or usual
    return None if part._has_none or base is None else replace(base, **part.sizes())


def _steps(written: list[Given[Length]] | None, word: str, before: tuple[Dimension, ...]) -> tuple[Dimension, ...]:
    """The steps of a machine as written, small to large, each once; ``before`` where none are (MS-10)."""
    if written is None:
        return before
    return tuple(sorted({step.value.mm: dimension_of(step, f"{step.spelled} {word}", "MS-10") for step in written}.values()))


def _in_order(written: list[Given[MachineKind]], before: tuple[MachineKind, ...]) -> tuple[MachineKind, ...]:
    """The machines in the order written; those that are not named come after, as they stood."""
    first = [choice.value for choice in written]
    return (*first, *(kind for kind in before if kind not in first))


def _limits(part: LimitsEntry) -> dict[str, Dimension]:
    written = {field: getattr(part, field) for field in _LIMITS}
    return {field: dimension_of(given, *_LIMITS[field]) for field, given in written.items() if given is not None}


#: The words for a unit.
UNITS: Final = {"inch": Unit.INCH, "mm": Unit.MM}

Units = Annotated[Given[Unit], one_of(UNITS)]
Rule = Annotated[Given[Graduation], one_of(GRADUATIONS)]


class CutterEntry(Entry):
    """A straight cutter: its diameter and how deep it reaches."""

    diameter: Size
    reach: Size

    def cutter(self) -> Cutter:
        """The cutter itself, called by its diameter as the maker spelled it."""
        spelled = self.diameter.spelled
        return Cutter(
            dimension_of(self.diameter, f"{spelled} cutter"), dimension_of(self.reach, f"reach of the {spelled} cutter")
        )


class CornerCutterEntry(Entry):
    """A cutter that makes both halves of a corner, by what its test cut measures (MS-11)."""

    slot: Size
    tongue: Size | None = None
    length: Size
    deepest: Size
    diameter: Size

    @model_validator(mode="after")
    def _sound(self) -> "CornerCutterEntry":
        if self.tongue is not None and self.tongue.value > self.slot.value:
            raise BadInput(
                f"the tongue is {self.tongue.spelled} thick and the slot {self.slot.spelled} wide; lower the cutter until it goes in, and measure again."
            )
        if self.length.value >= self.deepest.value:
            raise BadInput(
                f"the tongue is {self.length.spelled} long and the deepest slot {self.deepest.spelled}; the tongue ends short of the wood above "
                "the slot, so the slot is deeper."
            )
        if self.deepest.value >= self.diameter.value:
            raise BadInput(
                f"the deepest slot is {self.deepest.spelled} and the diameter {self.diameter.spelled}; a cutter stands out of the fence by less "
                "than it is wide."
            )
        return self

    def cutter(self) -> CornerCutter:
        """The cutter itself, called by its slot as the maker spelled it; its tongue fills its slot unless it was measured thinner."""
        of = f"of the corner cutter with the {self.slot.spelled} slot"
        slot = dimension_of(self.slot, f"slot {of}", "MS-11")
        tongue = slot if self.tongue is None else dimension_of(self.tongue, f"tongue {of}", "MS-11")
        return CornerCutter(
            slot,
            tongue,
            dimension_of(self.length, f"tongue length {of}", "MS-11"),
            dimension_of(self.deepest, f"deepest slot {of}", "MS-11"),
            dimension_of(self.diameter, f"diameter {of}", "MS-11"),
        )


class TenonEntry(Entry):
    """Tenon stock: ready-made tenons have a width and a length; strip has neither. ``reach`` is the deepest mortise."""

    thickness: Size
    width: Size | None = None
    length: Size | None = None
    reach: Size | None = None

    def tenon(self) -> TenonStock:
        """The tenon stock itself, called by its thickness as the maker spelled it."""
        spelled = self.thickness.spelled
        names = {
            "width": f"{spelled} tenon stock width",
            "length": f"{spelled} tenon stock length",
            "reach": f"deepest {spelled} mortise",
        }
        width, length, reach = (
            None if given is None else dimension_of(given, names[word])
            for word, given in (("width", self.width), ("length", self.length), ("reach", self.reach))
        )
        thickness = dimension_of(self.thickness, f"{spelled} tenon stock")
        if reach is None and length is None:
            # LT-4: no mortise is deeper for its tenon than five times its thickness. A ready-made tenon says by its length how deep it goes.
            reach = deepest_mortise(thickness, names["reach"])
        return TenonStock(thickness, width, length, reach)


class GlueEntry(Entry):
    """The glue, as its bottle says: how long it is open, and how long it stays in clamps (PT-3, PT-9)."""

    open_time: Time | None = None
    clamp_time: Time | None = None

    def over(self, usual: Glue) -> Glue:
        """``usual`` with the times that are written; only what is open so long by its bottle is known to be."""
        is_written, origin = usual.is_written, usual.origin
        if self.open_time is not None:
            is_written, origin = True, self.open_time.origin
        open_time, clamp_time = (
            before if given is None else given.value
            for given, before in ((self.open_time, usual.open_time), (self.clamp_time, usual.clamp_time))
        )
        return Glue(open_time, clamp_time, is_written, origin)


class ClampEntry(Entry):
    """Clamps that are alike: the length between their open jaws, and how many there are (PT-4)."""

    length: Size
    count: Count

    def clamps(self) -> Clamps:
        """The clamps themselves, called by their length as the maker spelled it."""
        return Clamps(dimension_of(self.length, f"{self.length.spelled} clamp", "PT-4"), self.count)


class ShopEntry(MachineTables):
    """What the maker owns. A list that is written takes the place of the usual one altogether."""

    kerf: Size | None = None
    cutters: Annotated[list[CutterEntry], Field(min_length=1, max_length=100)] | None = None
    corner_cutters: Annotated[list[CornerCutterEntry], Field(min_length=1, max_length=20)] | None = None
    tenons: Annotated[list[TenonEntry], Field(min_length=1, max_length=50)] | None = None
    glue: GlueEntry | None = None
    clamps: Annotated[list[ClampEntry], Field(min_length=1, max_length=50)] | None = None

    def over(self, usual: Shop) -> Shop:
        """``usual`` with everything that is written here in its place; cutters and tenons run thin to thick."""
        shop = usual
        if self.kerf is not None:
            shop = replace(shop, saw=Saw(dimension_of(self.kerf, "saw kerf")))
        if self.cutters is not None:
            cutters = sorted((part.cutter() for part in self.cutters), key=lambda cutter: cutter.diameter)
            shop = replace(shop, cutters=tuple(cutters))
        if self.corner_cutters is not None:
            shop = replace(shop, corner_cutters=tuple(part.cutter() for part in self.corner_cutters))
        if self.tenons is not None:
            tenons = sorted((part.tenon() for part in self.tenons), key=lambda tenon: tenon.thickness)
            shop = replace(shop, tenons=tuple(tenons))
        if self.glue is not None:
            shop = replace(shop, glue=self.glue.over(shop.glue))
        if self.clamps is not None:
            shop = replace(shop, clamps=tuple(part.clamps() for part in self.clamps))
        return replace(shop, machines=self.machines(shop.machines, usual_machines(shop.rule.unit)))


class JobShopEntry(ShopEntry):
    """``[shop]`` in a job: it may also name the shop file that the rest comes from."""

    file: Name | None = None


class ShopFile(ShopEntry):
    """A whole shop file. It says its own units, since jobs in inches and in millimetres may share it."""

    units: Units
    smallest: Rule | None = None
    practice: PracticeEntry | None = None

    def over(self, usual: Shop) -> Shop:
        """``usual`` with the tools, rule and practice of this file."""
        shop = super().over(usual)
        # A metric shop's rule is no help to a job in inches; such a job keeps the usual rule of its own unit.
        same_unit = self.smallest is not None and self.smallest.value.unit is shop.rule.unit
        rule = self.smallest.value if self.smallest is not None and same_unit else shop.rule
        practice = shop.practice if self.practice is None else self.practice.over(shop.practice)
        return replace(shop, rule=rule, practice=practice)
