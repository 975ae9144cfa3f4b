"""The template of one joint at the bench, as a PDF."""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.documents.templates import joint_template_pdf
from joinlay.documents.writing import write_whole
from joinlay.lengths import Unit

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from joinlay.boards import Board
    from joinlay.lengths import Graduation

__all__ = ["write_template"]


def write_template(boards: Iterable[Board], title: str, path: Path, rule: Graduation, paper: str | None) -> None:
    """Write the template of a joint in ``boards`` to ``path``; letter or A4 after the unit, unless ``paper`` says. BadInput where it can't be."""
    size = paper or ("letter" if rule.unit is Unit.INCH else "a4")
    write_whole(path, joint_template_pdf(boards, title, rule, size))
