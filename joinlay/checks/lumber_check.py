"""Solid parts thicker than any wood they could be sawn from (CL-1, CL-2)."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.boards.names import in_few_words
from joinlay.findings import warning
from joinlay.stock import Solid
from joinlay.stock.lumber import lumber_for

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board
    from joinlay.findings import Finding
    from joinlay.lengths import Unit
    from joinlay.stock import Stock

__all__ = ["LUMBER_KINDS", "check_lumber"]

#: The kinds of what is found here; their number ``stock`` is the stock's name.
LUMBER_KINDS: Final = ("no such lumber", "too thick")


def check_lumber(boards: Sequence[Board], stocks: Mapping[str, Stock], unit: Unit) -> tuple[Finding, ...]:
    """Which of ``boards`` are thicker than the lumber their solid stock is planed from (D6; CL-1, CL-2).

    ``stocks`` are keyed as the job names them, ``unit`` is the job's: by the quarter inch, or in millimetres. One finding a
    stock, over all of its parts: knob blanks are the usual ones. None for sheet goods, and for parts of a stock that isn't
    described.
    """
    return tuple(
        finding for key, stock in stocks.items() if isinstance(stock, Solid) for finding in _of(key, stock, boards, unit)
    )


def _of(key: str, stock: Solid, boards: Sequence[Board], unit: Unit) -> Iterator[Finding]:
    own = [board for board in boards if board.stock in (key, stock.name)]
    if not own:
        return
    lumber = lumber_for(stock, unit)
    thick = [board for board in own if board.thickness > lumber.thickness]
    if not lumber.is_listed:
        found = warning(
            "no such lumber",
            "No lumber is sold thick enough to plane to {thickness}, as {stock} is.",
            "Glue the parts up from thinner wood, or give the nominal thickness it was bought at.",
            "CL-2",
            thickness=lumber.thickness,
            stock=stock.name,
        )
        yield replace(found.at(stock.name), parts=tuple(board.name for board in own))
    elif thick:
        found = warning(
            "too thick",
            "They are {thickness} thick, more than the {lumber} of the {stock} they are to come from.",
            "Glue them up from two pieces, or give them a thicker stock.",
            "CL-2",
            thickness=max(board.thickness for board in thick),
            lumber=lumber.thickness,
            stock=stock.name,
        )
        names = tuple(board.name for board in thick)
        yield replace(found.at(in_few_words(names)), parts=names)
