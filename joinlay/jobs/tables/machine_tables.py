"""The machines of ``[shop]``: a table with what differs from a modest shop's for each, or ``false`` where the shop has none."""

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, ClassVar, Final, TypeVar

from pydantic import Field, ModelWrapValidatorHandler, PrivateAttr, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.given import Entry, Given, Size, YesOrNo, dimension_of, one_of
from joinlay.jobs.tables.within import Within
from joinlay.lengths import Dimension, Length
from joinlay.shop import HandRouter, HandTools, MachineKind, Machines, RouterTable, TableSaw

if TYPE_CHECKING:
    from pydantic import GetJsonSchemaHandler
    from pydantic_core import CoreSchema

__all__ = [
    "HandRouterEntry",
    "HandToolsEntry",
    "LimitsEntry",
    "MachineTables",
    "OffsetEntry",
    "RouterTableEntry",
    "TableSawEntry",
]


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
    offset: Within[OffsetEntry] | None = None

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

    router_table: Within[RouterTableEntry] | None = None
    table_saw: Within[TableSawEntry] | None = None
    hand_router: Within[HandRouterEntry] | None = None
    mortiser: YesOrNo | None = None
    mortise_depths: Steps | None = None
    mortise_heights: Steps | None = None
    mortise_widths: Steps | None = None
    drill: YesOrNo | None = None
    hand_tools: Within[HandToolsEntry] | None = None
    first_choice: Annotated[list[Choice], Field(min_length=1, max_length=10)] | None = None
    limits: Within[LimitsEntry] | None = None

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
