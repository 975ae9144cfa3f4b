"""What is done to a piece that stands together, for the chapter on putting it together: fitting, finish, and how it is set down.

The words are those of ``checks``, which the terminal says too (PT-10 to PT-12).
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.checks.fitting import finish_words, fitting_order, fitting_words, fittings
from joinlay.checks.setting_down import anchor_words, level_words, lifting_words
from joinlay.checks.weights import stocks_by_name
from joinlay.pages.plain_sheet import PageBlock
from joinlay.pages.told_beside import INDENT, WHITE, Saying, heading, told_in_blocks, upper

if TYPE_CHECKING:
    from collections.abc import Iterator

    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Fraction

__all__ = ["FITTING", "STANDING", "finishing_blocks"]

#: What stands over the two last things done to the piece.
FITTING: Final = "Fitting, in this order"
STANDING: Final = "Finish, and where it stands"


def finishing_blocks(plan: Plan, wide: Fraction) -> Iterator[PageBlock]:
    """Fitting in its order, each thing to tick, then finish and how it is set down, ``wide`` mm across (PT-10 to PT-12)."""
    yield heading(FITTING, wide)
    yield from told_in_blocks(_fitted(plan), wide)
    yield PageBlock((), WHITE)
    yield heading(STANDING, wide)
    standing = (
        finish_words(plan.conditions, plan.shop.practice, plan.rule) if plan.drawers else (),
        lifting_words(plan.drawers, plan.others, stocks_by_name(plan.stocks.values()), plan.rule),
        level_words(plan.drawers, plan.others, plan.rule),
        anchor_words(plan.conditions, plan.others),
    )
    yield from told_in_blocks((Saying(" ".join(said)) for said in standing if said), wide)


def _fitted(plan: Plan) -> Iterator[Saying]:
    """Each thing to fit, after the drawers where each may be tight."""
    for head, said in fitting_order(plan.others, has_pulls=bool(plan.knobs)):
        yield Saying(f"{head}: {said}", ticked=True)
        if head == "Drawers":
            yield from (Saying(sentence, indent=INDENT) for sentence in _tight(plan))


def _tight(plan: Plan) -> Iterator[str]:
    """Where each drawer may be tight; drawers of which the same is said together."""
    alike: dict[tuple[str, ...], list[str]] = {}
    for one in fittings(plan.drawers, plan.shop.practice, plan.conditions):
        alike.setdefault(fitting_words(one, plan.rule), []).append(one.drawer)
    for said, names in alike.items():
        # Of the only drawer it is plain which.
        yield " ".join(said) if len(plan.drawers) == 1 else f"{upper(in_few_words(names))}: {' '.join(said)}"
