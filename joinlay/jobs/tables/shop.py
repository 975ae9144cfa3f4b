"""``[shop]``, less its machines, and ``[practice]``: what the maker owns, and the maker's own figures for the trade rules.

A shop file that many jobs share holds the same tables. ``[practice]`` has a key for every row of the shop's practice tables.
"""

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any, Final

from pydantic import Field, create_model, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.tables.amounts import Time
from joinlay.jobs.tables.given import Count, EitherWay, Entry, Gap, Given, Name, Ratio, Size, dimension_of, one_of
from joinlay.jobs.tables.machine_tables import MachineTables
from joinlay.jobs.tables.within import Within
from joinlay.lengths import GRADUATIONS, Graduation, Length, Unit
from joinlay.shop import (
    LENGTH_RULES,
    RATIO_RULES,
    Clamps,
    CornerCutter,
    Cutter,
    Glue,
    Practice,
    Saw,
    Shop,
    TenonStock,
    deepest_mortise,
    usual_machines,
)

if TYPE_CHECKING:
    from collections.abc import Mapping

    from joinlay.lengths import Fraction

__all__ = [
    "PRACTICE_KEYS",
    "TWO_MEANINGS",
    "UNITS",
    "ClampEntry",
    "CornerCutterEntry",
    "CutterEntry",
    "GlueEntry",
    "JobShopEntry",
    "PracticeEntry",
    "Rule",
    "ShopEntry",
    "ShopFile",
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
                f"the tongue is {self.tongue.spelled} thick and the slot {self.slot.spelled} wide; lower the "
                f"cutter until it goes in, "
                "and measure again."
            )
        if self.length.value >= self.deepest.value:
            raise BadInput(
                f"the tongue is {self.length.spelled} long and the deepest slot {self.deepest.spelled}; the "
                f"tongue ends short of the wood above "
                "the slot, so the slot is deeper."
            )
        if self.deepest.value >= self.diameter.value:
            raise BadInput(
                f"the deepest slot is {self.deepest.spelled} and the diameter {self.diameter.spelled}; a cutter "
                f"stands out of the fence by less "
                "than it is wide."
            )
        return self

    def cutter(self) -> CornerCutter:
        """The cutter itself, called by its slot as the maker spelled it; its tongue fills its slot unless it was measured
        thinner.
        """
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
            # LT-4: no mortise is deeper for its tenon than five times its thickness. A ready-made tenon says by its length how
            # deep it goes.
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
    cutters: Annotated[list[Within[CutterEntry]], Field(min_length=1, max_length=100)] | None = None
    corner_cutters: Annotated[list[Within[CornerCutterEntry]], Field(min_length=1, max_length=20)] | None = None
    tenons: Annotated[list[Within[TenonEntry]], Field(min_length=1, max_length=50)] | None = None
    glue: Within[GlueEntry] | None = None
    clamps: Annotated[list[Within[ClampEntry]], Field(min_length=1, max_length=50)] | None = None

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
    practice: Within[PracticeEntry] | None = None

    def over(self, usual: Shop) -> Shop:
        """``usual`` with the tools, rule and practice of this file."""
        shop = super().over(usual)
        # A metric shop's rule is no help to a job in inches; such a job keeps the usual rule of its own unit.
        same_unit = self.smallest is not None and self.smallest.value.unit is shop.rule.unit
        rule = self.smallest.value if self.smallest is not None and same_unit else shop.rule
        practice = shop.practice if self.practice is None else self.practice.over(shop.practice)
        return replace(shop, rule=rule, practice=practice)
