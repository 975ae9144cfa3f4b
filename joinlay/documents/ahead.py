"""What of a job's files hangs on nothing but its plan, so that a second core may make it before it is wanted."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from joinlay.documents.second_core import SecondCore
from joinlay.documents.wanted_sheets import is_small
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Callable

    from joinlay.documents.plan_json import PlanText
    from joinlay.documents.true_size import TrueSize
    from joinlay.documents.wanted_sheets import Wanted
    from joinlay.jobs.plan import Plan
    from joinlay.pages import Printer, Sheet

__all__ = ["Ahead", "made_ahead", "made_alone"]


@dataclass(frozen=True, slots=True)
class Ahead:
    """Each is made once, and here, when it is asked for, unless a second core had made it by then.

    ``piece`` gives the sheets of the piece, ``closing`` the chapters behind those that are measured from, by their headings,
    ``told`` the plan as JSON, and ``mark`` its mark (PR-7); ``measured`` is what is measured from, where that is drawn already.
    Works for when there is nothing to do but to wait may be given to ``second``.
    """

    piece: Callable[[], tuple[Sheet, ...]]
    closing: Callable[[], dict[str, tuple[Sheet, ...]]]
    told: Callable[[], PlanText]
    mark: Callable[[], str]
    second: SecondCore
    measured: TrueSize | None = None


def made_ahead(plan: Plan, printer: Printer | None, wanted: Wanted, second: SecondCore) -> Ahead:
    """What a ``second`` core is given of ``plan``, the longest first; ``printer`` and ``wanted`` as in ``packet_for``.

    Each fetches by itself what it is made with: most of that isn't wanted by whoever does the others.
    """

    def piece() -> tuple[Sheet, ...]:
        from joinlay.pages.piece_sheets import piece_sheets
        from joinlay.pages.printer import Printer, for_words
        from joinlay.paper import paper_named

        paper, reader = for_words(paper_named(plan.paper), printer or Printer())
        return piece_sheets(plan, paper, printer=reader)

    def closing() -> dict[str, tuple[Sheet, ...]]:
        from joinlay.documents.packet import closing_chapters

        return closing_chapters(plan, printer, wanted)

    def told() -> PlanText:
        from joinlay.documents.plan_json import plan_text

        return plan_text(plan)

    # In a small job the piece begins under what was found, and so is made with that.
    first = piece if is_small(plan) else second.give(piece)
    last, text = second.give(closing), second.give(told)
    return Ahead(first, last, text, lambda: text().mark, second)


def made_alone(plan: Plan, printer: Printer | None, wanted: Wanted) -> Ahead:
    """The same for a packet by itself, made here, and of the plan as JSON only its mark."""
    from joinlay.documents.plan_mark import plan_mark

    return replace(made_ahead(plan, printer, wanted, SecondCore()), mark=lambda: plan_mark(plan))
