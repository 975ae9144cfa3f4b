"""Every file that a job gives, made in memory: the packet, each template as a drawing of its own, the cutting list and the
plan.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.documents.ahead import made_ahead
from joinlay.documents.job_folder import RECORD
from joinlay.documents.second_core import SecondCore

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from joinlay.documents.ahead import Ahead
    from joinlay.documents.packet import Packet
    from joinlay.documents.wanted_sheets import Wanted
    from joinlay.jobs.plan import Plan
    from joinlay.pages import Printer

__all__ = ["AGAIN", "PACKET", "PLAN", "STEPS", "free_name", "job_files"]

PACKET: Final = "packet.pdf"
PLAN: Final = "plan.json"
#: What is printed once more, or by itself.
AGAIN: Final = "again.pdf"
#: What is made, in this order, as it is told while it is being made.
STEPS: Final = ("the packet", "each template", "the cutting list", "the plan")


def job_files(
    plan: Plan,
    printer: Printer | None,
    wanted: Wanted,
    step: Callable[[str], None],
    *,
    is_dxf: bool = False,
    is_model: bool = False,
    ahead: Ahead | None = None,
) -> tuple[dict[str, bytes], Packet]:
    """Every file by its name, and the packet; ``step`` is told each of ``STEPS`` as it begins.

    ``printer`` is taken at its word unless given, ``wanted`` is what of the packet is printed; with ``is_dxf`` each template as
    DXF too, with ``is_model`` a model to turn about. What was begun ``ahead`` is taken from there. Raises BadInput for paper too
    small. Rules PR-1 to PR-7, CL-1.
    """
    from joinlay.cutlist.cutting_list import cutting_list
    from joinlay.documents.cutting_list_csv import cutting_list_csv
    from joinlay.documents.packet import packet_for
    from joinlay.documents.pdf import load_fonts
    from joinlay.documents.template_files import template_dxfs, template_svgs
    from joinlay.documents.true_size import TrueSize
    from joinlay.pages.printed_sheet import made_words

    files: dict[str, bytes] = {}
    step(STEPS[0])
    measured, made = TrueSize(plan), made_words(plan.maker, plan.date)
    begun = replace(ahead or made_ahead(plan, printer, wanted, SecondCore()), measured=measured)
    # What can be done while others are waited for.
    drawings = begun.second.give(lambda: template_svgs(measured.every, begun.mark(), made))
    begun.second.give(load_fonts)
    packet = packet_for(plan, printer, wanted, ahead=begun)
    mark = packet.mark
    files[PACKET] = packet.pdf()
    step(STEPS[1])
    for name, drawing in (*drawings(), *(template_dxfs(measured.every, mark, made) if is_dxf else ())):
        files[free_name(name, files)] = drawing
    if is_model:
        from joinlay.documents.model import MODEL, plan_model

        files[MODEL] = plan_model(plan, mark)
    step(STEPS[2])
    files["cutting-list.csv"] = cutting_list_csv(cutting_list(plan), plan.rule, mark)
    step(STEPS[3])
    files[PLAN] = begun.told().content((*files, PLAN, RECORD))
    return files, packet


def free_name(file: str, taken: Mapping[str, bytes]) -> str:
    """``file``, or with a number behind it where two drawers' names come to the same file."""
    stem, dot, kind = file.rpartition(".")
    names = [file, *(f"{stem}-{n}{dot}{kind}" for n in range(2, len(taken) + 2))]
    return next(one for one in names if one not in taken)
