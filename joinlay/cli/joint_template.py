"""The template of one joint at the bench, as a PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.documents.templates import joint_template_pdf
from joinlay.documents.writing import write_whole
from joinlay.lengths import Unit

if TYPE_CHECKING:
    from pathlib import Path

    from joinlay.cli.bench import Answer, Bench

__all__ = ["write_template"]


def write_template(answer: Answer, path: Path, paper: str | None, bench: Bench) -> None:
    """Write the template of the joint to ``path``; letter or A4 after the unit, unless ``paper`` says. BadInput where it can't be."""
    size = paper or ("letter" if bench.unit is Unit.INCH else "a4")
    title = answer.headline.split(":")[0]
    write_whole(path, joint_template_pdf(answer.boards(), title, bench.shop.rule, size))
