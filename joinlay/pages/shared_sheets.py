"""Sheets that are read, shared: what ends near the top of one lets the next begin below it, so that no paper goes out near-empty
(PR-11).

Nothing is made anew or parted: a sheet that is low enough is moved down whole under the one before it, with its titles, its links
and what it is filed under. The order stays that of the work.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Final

from joinlay.lengths import Fraction
from joinlay.pages.plain_sheet import FOOT, PlainFoot
from joinlay.pen.marks import Move, bounds_of, moved

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from joinlay.pages.printed_sheet import Sheet

__all__ = ["begun_under", "joined"]

#: White between what stands above and what begins below it.
_BETWEEN: Final = Fraction(8)
#: Where less is left under it, the next begins on a sheet of its own.
_LEAST: Final = Fraction(45)


def begun_under(sheets: Sequence[Sheet]) -> Fraction:
    """How many mm at the head of the last of ``sheets`` are taken for what begins under it.

    0 where nothing may, since it is measured from or there is none; and where it has too little room for a heading and what that
    heads.
    """
    sheet = sheets[-1] if sheets else None
    if sheet is None or not isinstance(sheet.foot, PlainFoot) or not sheet.body or sheet.foot.is_too_full:
        return Fraction(0)
    _, bottom, _, top = sheet.printer.room(sheet.paper)
    taken = top - bounds_of(sheet.body)[1] + _BETWEEN
    return taken if top - bottom - FOOT - taken >= _LEAST else Fraction(0)


def joined(sheets: Iterable[Sheet]) -> list[Sheet]:
    """``sheets`` in their order, each moved down under the one before it where that leaves room for all of it.

    Sheets that are measured from stay as they are.
    """
    done: list[Sheet] = []
    for sheet in sheets:
        under = _under(done[-1], sheet) if done else None
        if under is None:
            done.append(sheet)
        else:
            done[-1] = under
    return done


def _under(above: Sheet, below: Sheet) -> Sheet | None:
    """Both on one sheet; None where they don't go on one."""
    one, two = above.foot, below.foot
    if not isinstance(one, PlainFoot) or not isinstance(two, PlainFoot) or not above.body or not below.body:
        return None
    if above.paper != below.paper or above.printer != below.printer:
        return None
    room = above.printer.room(above.paper)
    down = room[3] - bounds_of(above.body)[1] + _BETWEEN
    if bounds_of(below.body)[1] - down < room[1] + FOOT:
        return None
    foot = one.shared(two)
    if foot.is_too_full:
        return None
    move = Move(up=-down)
    return replace(
        above,
        body=(*above.body, *(moved(stroke, move) for stroke in below.body)),
        foot=foot,
        laid=(*above.laid, *(replace(laid, move=replace(laid.move, up=laid.move.up - down)) for laid in below.laid)),
        links=(*above.links, *(replace(link, box=move.box(link.box)) for link in below.links)),
    )
