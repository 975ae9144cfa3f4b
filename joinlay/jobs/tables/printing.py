"""``[paper]``: what the templates are printed on, and by which printer."""

from typing import Annotated

from pydantic import ValidationInfo, WithJsonSchema, model_validator

from joinlay.errors import BadInput
from joinlay.jobs.tables.given import Checked, Context, Entry, Gap, Given, Name, Size, checked_text
from joinlay.lengths import Unit
from joinlay.paper import Paper, paper_named, roll_of, sheet_of, with_border

__all__ = ["PaperEntry", "usual_paper"]


def _paper(given: object, info: ValidationInfo[Context]) -> Given[Paper]:
    found = checked_text(given, 'a paper, such as "letter", "a4" or "610 x 914 mm",')
    return Given(paper_named(found.value, info.context.unit), found.spelled, found.origin)


PaperSize = Annotated[
    Given[Paper],
    Checked(_paper),
    WithJsonSchema({"type": "string", "examples": ["letter", "a4", "610 x 914 mm", "24 in roll"]}),
]


class PaperEntry(Entry):
    """The paper: a ``size`` by name or by figures, its ``width`` and ``height``, or a ``roll`` of some width; and the printer."""

    size: PaperSize | None = None
    width: Size | None = None
    height: Size | None = None
    roll: Size | None = None
    border: Gap | None = None
    printer: Name | None = None

    @model_validator(mode="after")
    def _is_one_paper(self, info: ValidationInfo[Context]) -> "PaperEntry":
        given = [bool(self.size), bool(self.width or self.height), bool(self.roll)]
        if sum(given) > 1:
            raise BadInput("the paper is given twice over; write size, or width and height, or roll.")
        if bool(self.width) != bool(self.height):
            raise BadInput(f'{"height" if self.width else "width"} is missing; paper has both, but for a roll: roll = "24 in".')
        self.paper(info.context.unit)
        return self

    def paper(self, unit: Unit) -> Paper:
        """The paper itself; the usual one of the ``unit`` where nothing is said. BadInput for a size or border that can't be."""
        if self.size is not None:
            paper = self.size.value
        elif self.width is not None and self.height is not None:
            paper = sheet_of(self.width.value, self.height.value, unit)
        elif self.roll is not None:
            paper = roll_of(self.roll.value, unit)
        else:
            paper = paper_named(usual_paper(unit))
        return paper if self.border is None else with_border(paper, self.border.value)


def usual_paper(unit: Unit) -> str:
    """The name of the paper where a job says nothing: letter for a maker whose ``unit`` is the inch, else A4."""
    return "letter" if unit is Unit.INCH else "a4"
