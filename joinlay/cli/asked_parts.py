"""Which sheets of a packet are wanted: by the numbers at their feet, or by the part they are for."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from joinlay.cli import words
from joinlay.errors import BadInput, nearest_names

if TYPE_CHECKING:
    from joinlay.documents.packet import Packet
    from joinlay.jobs.plan import Plan
    from joinlay.pages import Sheet

__all__ = ["chosen_sheets", "parts_meant"]

_STRETCH: Final = re.compile(r"(\d{1,6})(?:\s*(?:-|–|to)\s*(\d{1,6}))?")


def chosen_sheets(packet: Packet, plan: Plan, only: str | None, pages: str | None) -> tuple[Sheet, ...]:
    """The sheets of ``packet`` whose numbers ``pages`` gives (``4-6, 9``), or that have a template of the part called ``only``;
    of both, both.

    Raises BadInput for numbers that can't be read or aren't there, and for a part that isn't there or has no template.
    """
    wanted = _numbered(pages, len(packet.sheets)) if pages is not None else set()
    if only is not None:
        found = packet.sheets_for(parts_meant(plan, only, "--only"))
        if not found:
            raise BadInput(words.no_template(only))
        wanted |= {sheet.number for sheet in found}
    return tuple(sheet for sheet in packet.sheets if sheet.number in wanted)


def _numbered(given: str, last: int) -> set[int]:
    """The numbers ``given`` means, each from 1 to ``last``."""
    wanted: set[int] = set()
    for stretch in given.split(","):
        read = _STRETCH.fullmatch(stretch.strip())
        if read is None:
            raise BadInput(words.unread_pages(stretch.strip() or given))
        first, to = int(read[1]), int(read[2] or read[1])
        if not 1 <= first <= to <= last:
            raise BadInput(words.no_such_pages(stretch.strip(), last))
        wanted |= set(range(first, to + 1))
    return wanted


def parts_meant(plan: Plan, given: str, option: str) -> set[str]:
    """The names of the boards that ``given`` means: one by its whole name, all of an assembly, or all of a kind.

    Raises BadInput, with ``option`` in front, where there is none.
    """
    asked = " ".join(given.lower().split())
    named = {board.name for board in plan.boards if asked in (board.name.lower(), board.part.lower())}
    named = named or {board.name for board in plan.boards if board.name.lower().startswith(f"{asked} ")}
    if not named or not asked:
        known = dict.fromkeys(name for board in plan.boards for name in (board.name, board.part))
        raise BadInput(words.no_part(option, given, nearest_names(given, tuple(known)), plan.file))
    return named
