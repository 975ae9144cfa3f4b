"""``[shop]`` in a job, and a shop file that many jobs share: what the maker owns."""

from dataclasses import replace
from typing import Annotated, Final

from pydantic import Field, PlainValidator

from joinlay.jobs.parts.given import Given, Name, Part, Size, dimension_of, one_of
from joinlay.jobs.parts.machines import MachineTables
from joinlay.jobs.parts.practice import PracticePart
from joinlay.lengths import GRADUATIONS, Graduation, Unit
from joinlay.shop import Cutter, Saw, Shop, TenonStock, usual_machines

__all__ = ["UNITS", "CutterPart", "JobShopPart", "Rule", "ShopFile", "ShopPart", "TenonPart", "Units"]

#: The words for a unit.
UNITS: Final = {"inch": Unit.INCH, "mm": Unit.MM}

Units = Annotated[Given[Unit], PlainValidator(one_of(UNITS))]
Rule = Annotated[Given[Graduation], PlainValidator(one_of(GRADUATIONS))]


class CutterPart(Part):
    """A straight cutter: its diameter and how deep it reaches."""

    diameter: Size
    reach: Size

    def cutter(self) -> Cutter:
        """The cutter itself, called by its diameter as the maker spelled it."""
        spelled = self.diameter.spelled
        return Cutter(
            dimension_of(self.diameter, f"{spelled} cutter"), dimension_of(self.reach, f"reach of the {spelled} cutter")
        )


class TenonPart(Part):
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
        return TenonStock(dimension_of(self.thickness, f"{spelled} tenon stock"), width, length, reach)


class ShopPart(MachineTables):
    """What the maker owns. A list that is written takes the place of the usual one altogether."""

    kerf: Size | None = None
    cutters: Annotated[list[CutterPart], Field(min_length=1)] | None = None
    tenons: Annotated[list[TenonPart], Field(min_length=1)] | None = None

    def over(self, usual: Shop) -> Shop:
        """``usual`` with everything that is written here in its place; cutters and tenons run thin to thick."""
        shop = usual
        if self.kerf is not None:
            shop = replace(shop, saw=Saw(dimension_of(self.kerf, "saw kerf")))
        if self.cutters is not None:
            cutters = sorted((part.cutter() for part in self.cutters), key=lambda cutter: cutter.diameter)
            shop = replace(shop, cutters=tuple(cutters))
        if self.tenons is not None:
            tenons = sorted((part.tenon() for part in self.tenons), key=lambda tenon: tenon.thickness)
            shop = replace(shop, tenons=tuple(tenons))
        return replace(shop, machines=self.machines(shop.machines, usual_machines(shop.rule.unit)))


class JobShopPart(ShopPart):
    """``[shop]`` in a job: it may also name the shop file that the rest comes from."""

    file: Name | None = None


class ShopFile(ShopPart):
    """A whole shop file. It says its own units, since jobs in inches and in millimetres may share it."""

    units: Units
    smallest: Rule | None = None
    practice: PracticePart | None = None

    def over(self, usual: Shop) -> Shop:
        """``usual`` with the tools, rule and practice of this file."""
        shop = super().over(usual)
        # A metric shop's rule is no help to a job in inches; such a job keeps the usual rule of its own unit.
        same_unit = self.smallest is not None and self.smallest.value.unit is shop.rule.unit
        rule = self.smallest.value if self.smallest is not None and same_unit else shop.rule
        practice = shop.practice if self.practice is None else self.practice.over(shop.practice)
        return replace(shop, rule=rule, practice=practice)
