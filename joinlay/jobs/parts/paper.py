"""``[paper]``: what the templates are printed on."""

from typing import Annotated, Final

from pydantic import PlainValidator

from joinlay.jobs.parts.given import Given, Part, one_of
from joinlay.lengths import Unit

__all__ = ["PAPERS", "PaperPart", "usual_paper"]

#: The sizes of paper a job may name.
PAPERS: Final = ("letter", "legal", "tabloid", "a4", "a3")

PaperSize = Annotated[Given[str], PlainValidator(one_of({size: size for size in PAPERS}))]


class PaperPart(Part):
    """The sheet size."""

    size: PaperSize | None = None


def usual_paper(unit: Unit) -> str:
    """Letter for a maker who works in inches, A4 for one in millimetres."""
    return "letter" if unit is Unit.INCH else "a4"
