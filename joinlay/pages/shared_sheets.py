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
    from joinlay.pen.marks import Stroke

__all__ = ["KnownSheets", "begun_under", "is_foot_too_full", "joined"]

#: White between what stands above and what begins below it.
_BETWEEN: Final = Fraction(8)
#: How far letters may hang below the block they stand in.
_HANGING: Final = Fraction(2)
#: Where less is left under it, the next begins on a sheet of its own.
_LEAST: Final = Fraction(45)
_ZERO: Final = Fraction(0)


class KnownSheets:
    """What was found of sheets while they were joined: the same are joined again whenever one among them is made anew.

    All of it by the ``id`` of what is on a sheet, which is kept too, so that nothing else gets that.
    """

    def __init__(self) -> None:
        """Begin knowing of none."""
        self._lowest: dict[int, tuple[tuple[Stroke, ...], Fraction]] = {}
        self._both: dict[tuple[int, int], tuple[tuple[Stroke, ...], Fraction]] = {}

    def lowest(self, sheet: Sheet) -> Fraction:
        """The lowest there is of what stands on ``sheet``, in its own mm. ValueError where nothing does."""
        if id(sheet.body) not in self._lowest:
            # A sheet that is read is laid out as one template, whose box is known.
            own = (laid.template for laid in sheet.laid if laid.template.strokes is sheet.body and laid.move == Move())
            box = next((template.box for template in own), None)
            self._lowest[id(sheet.body)] = sheet.body, bounds_of(sheet.body)[1] if box is None else box[1]
        return self._lowest[id(sheet.body)][1]

    def together(self, above: Sheet, below: Sheet, move: Move) -> tuple[Stroke, ...]:
        """What is on ``above``, and what is on ``below`` moved so; the same move for the same two."""
        low = min(self.lowest(above), self.lowest(below) + move.up)
        both = id(above.body), id(below.body)
        if both not in self._both:
            self._both[both] = (*above.body, *(moved(stroke, move) for stroke in below.body)), low
            self._lowest[id(self._both[both][0])] = self._both[both]
        return self._both[both][0]


def begun_under(sheets: Sequence[Sheet], known: KnownSheets | None = None, begun: Fraction = _ZERO) -> Fraction:
    """How many mm at the head of the last of ``sheets`` are taken for what begins under it.

    0 where nothing may, since it is measured from or there is none; and where it has too little room for a heading and what that
    heads. ``known`` and ``begun`` as ``joined`` has them.
    """
    sheet = sheets[-1] if sheets else None
    if sheet is None or not isinstance(sheet.foot, PlainFoot) or not sheet.body or sheet.foot.is_too_full:
        return Fraction(0)
    _, bottom, _, top = sheet.printer.room(sheet.paper)
    taken = top - (known or KnownSheets()).lowest(sheet) + _BETWEEN + _HANGING + (begun if len(sheets) == 1 else 0)
    return taken if top - bottom - FOOT - taken >= _LEAST else Fraction(0)


def is_foot_too_full(above: Sequence[Sheet], below: Sequence[Sheet]) -> bool:
    """Whether the last sheet ``above`` and the first ``below`` are both read, and their signs and scales are too many for one
    foot: then the second begins at the head of a sheet of its own.
    """
    feet = [sheet.foot for sheet in (*above[-1:], *below[:1]) if isinstance(sheet.foot, PlainFoot)]
    return len(feet) > 1 and feet[0].shared(feet[1]).is_too_full


def joined(sheets: Iterable[Sheet], known: KnownSheets | None = None, begun: Fraction = _ZERO) -> list[Sheet]:
    """``sheets`` in their order, each moved down under the one before it where that leaves room for all of it.

    Sheets that are measured from stay as they are. ``known`` is what was found before of some of them. ``begun`` mm of the first
    are left to what comes before it, under which it is moved later.
    """
    known = known or KnownSheets()
    done: list[Sheet] = []
    for sheet in sheets:
        under = _under(done[-1], sheet, known, begun if len(done) == 1 else _ZERO) if done else None
        if under is None:
            done.append(sheet)
        else:
            done[-1] = under
    return done


def _under(above: Sheet, below: Sheet, known: KnownSheets, begun: Fraction) -> Sheet | None:
    """Both on one sheet, ``begun`` mm of which are left free; None where they don't go on one."""
    one, two = above.foot, below.foot
    if not isinstance(one, PlainFoot) or not isinstance(two, PlainFoot) or not above.body or not below.body:
        return None
    if above.paper != below.paper or above.printer != below.printer:
        return None
    room = above.printer.room(above.paper)
    down = room[3] - known.lowest(above) + _BETWEEN
    if known.lowest(below) - down < room[1] + FOOT + begun:
        return None
    foot = one.shared(two)
    if foot.is_too_full:
        return None
    move = Move(up=-down)
    return replace(
        above,
        body=known.together(above, below, move),
        foot=foot,
        laid=(*above.laid, *(replace(laid, move=replace(laid.move, up=laid.move.up - down)) for laid in below.laid)),
        links=(*above.links, *(replace(link, box=move.box(link.box)) for link in below.links)),
    )
