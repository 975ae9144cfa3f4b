"""What differs between two versions of a job, for a maker who has begun to cut, and what can still be used."""

from __future__ import annotations

from enum import Enum
from typing import TYPE_CHECKING, Any, Final

from joinlay.boards import Axis
from joinlay.boards.names import in_few_words
from joinlay.cutlist.cutting_list import stock_called
from joinlay.records import dataclass
from joinlay.shop import LENGTH_RULES, RATIO_RULES

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from joinlay.boards import Board, Cut
    from joinlay.boards.outline import PlacedOutline
    from joinlay.jobs.plan import Plan
    from joinlay.lengths import Dimension, Fraction, Length

__all__ = ["Changes", "Difference", "Facts", "Fate", "changes_tree", "compare_plans"]

#: Words about named things, as text: ``{"drawer 1 front": {"length": "18 5/16 in"}}``.
Facts = dict[str, dict[str, str]]


class Fate(Enum):
    """What becomes of a part that was cut to the old job."""

    SERVES = "serves as it is; make the new cuts in it"
    SERVES_UNJOINTED = "right in size; serves if its joints are not cut yet"
    HAIR = "too small, but by no more than a cut may stray; try it before you make it again"
    CUT_DOWN = "too large; cut it down if its joints are not cut yet"
    AGAIN = "too small, or of other wood; make it again"
    NOT_NEEDED = "not needed any more"
    NEW = "new"


@dataclass(frozen=True, slots=True)
class Difference:
    """One fact that differs: ``what`` of the things ``names`` was ``old`` and is ``new``; '' where there was or is none."""

    names: tuple[str, ...]
    what: str
    old: str
    new: str

    @property
    def where(self) -> str:
        """The names in few words."""
        return in_few_words(self.names)


@dataclass(frozen=True, slots=True)
class Changes:
    """All that differs. ``givens`` are what the maker wrote otherwise; ``fates`` what becomes of every part that is touched.

    ``untouched`` parts are as they were. ``wood`` are parts to be made, each with an old one that has no other use and is large
    enough to cut it from, where its joints are not in the way.
    """

    givens: tuple[Difference, ...]
    parts: tuple[Difference, ...]
    joints: tuple[Difference, ...]
    settings: tuple[Difference, ...]
    fates: tuple[tuple[Fate, tuple[str, ...]], ...]
    untouched: int
    wood: tuple[tuple[str, str], ...]

    def count(self, *fates: Fate) -> int:
        """How many parts have one of these ``fates``."""
        return sum(len(names) for fate, names in self.fates if fate in fates)

    @property
    def is_nothing_cut(self) -> bool:
        """True where every part is as it was, and every setting."""
        return not (self.parts or self.joints or self.settings or self.fates)

    @property
    def is_none(self) -> bool:
        """True where the two jobs come to the same."""
        return not (self.givens or self.parts or self.joints or self.settings or self.fates)


def compare_plans(old: Plan, new: Plan, old_settings: Facts | None = None, new_settings: Facts | None = None) -> Changes:
    """Everything that differs from ``old`` to ``new``; both are shown on the new plan's rule.

    Parts are told apart by name. ``old_settings`` and ``new_settings`` are facts that the floor of settings gives, under any
    names; None where they aren't to be compared. A part that comes out short by no more than a cut may stray (CK-1) is worth a
    try. Source: by geometry.
    """
    one, other = _Reader(new, old), _Reader(new, new)
    before = {board.name: _Part.of(board, old) for board in old.boards}
    after = {board.name: _Part.of(board, new) for board in new.boards}
    stray = new.shop.practice.length("cutting tolerance")
    fates: dict[Fate, list[str]] = {}
    for name in dict.fromkeys([*before, *after]):
        fate = _fate(before.get(name), after.get(name), stray)
        if fate is not None:
            fates.setdefault(fate, []).append(name)
    shared = before.keys() & after.keys()
    made = {name: after[name] for fate in (Fate.AGAIN, Fate.NEW) for name in fates.get(fate, ())}
    spare = {name: before[name] for fate in (Fate.AGAIN, Fate.NOT_NEEDED) for name in fates.get(fate, ())}
    return Changes(
        givens=_differing(one.givens(), other.givens()),
        parts=_differing(one.sizes(shared), other.sizes(shared)),
        joints=_differing(one.joints(shared), other.joints(shared)),
        settings=_differing(old_settings or {}, new_settings or {}),
        fates=tuple((fate, tuple(fates[fate])) for fate in Fate if fate in fates),
        untouched=len(before) - sum(len(names) for fate, names in fates.items() if fate is not Fate.NEW),
        wood=tuple(_from_old_wood(made, spare)),
    )


@dataclass(frozen=True, slots=True)
class _Reader:
    """Reads the facts of ``plan`` on the rule of ``on``."""

    on: Plan
    plan: Plan

    def givens(self) -> Facts:
        """What a maker writes: stocks, openings, the saw, the figures of the practice tables."""
        text, facts = self.on.rule.text, Facts()
        facts["the job"] = {"title": self.plan.title}
        facts["the piece"] = {size.name: text(size) for size in _of_the_piece(self.plan)}
        for name, stock in self.plan.stocks.items():
            facts[name] = {"thickness": text(stock.thickness), "nominal thickness": text(stock.nominal)}
        for drawer in self.plan.drawers:
            opening = drawer.opening
            sizes = {"width": opening.width, "height": opening.height, "depth": opening.depth}
            # In a whole piece they follow from what is written of it.
            facts[f"{drawer.name} opening"] = {word: text(size) for word, size in sizes.items() if not size.operands}
            facts[f"{drawer.name} joints"] = {
                "front": drawer.make.front_joint.word,
                "back": drawer.make.back_joint.word,
                "back height": drawer.make.back_height.value,
                "bottom reach": drawer.make.bottom_reach.value,
                "bottom bar": "none" if drawer.make.bar is None else drawer.make.bar.name,
            }
        shop = self.plan.shop
        facts["the shop"] = {
            "saw kerf": text(shop.saw.kerf),
            "cutters": ", ".join(text(cutter.diameter) for cutter in shop.cutters),
            "tenons": ", ".join(text(stock.thickness) for stock in shop.tenons),
        }
        facts["the shop"] |= {rule.name: text(shop.practice.length(rule.name)) for rule in LENGTH_RULES}
        facts["the shop"] |= {rule.name: str(shop.practice.ratio(rule.name)) for rule in RATIO_RULES}
        return facts

    def sizes(self, names: set[str]) -> Facts:
        """Stock and sizes of the boards called ``names``."""
        text, facts = self.on.rule.text, Facts()
        for board in self._boards(names):
            facts[board.name] = {
                "stock": board.stock,
                "length": text(board.length),
                "width": text(board.width),
                "thickness": text(board.thickness),
                **({"grain": "across its length"} if board.has_grain_across else {}),
                **{
                    f"taper of the {board.datum.word(taper.surface)}": f"{text(taper.near)} to {text(taper.far)}"
                    for taper in board.tapers
                },
                **{
                    f"band on the {board.datum.word(band.surface)}": f"{band.stock}, {text(band.thickness)}"
                    for band in board.bands
                },
            }
        return facts

    def joints(self, names: set[str]) -> Facts:
        """Where every cut of the boards called ``names`` lies."""
        facts = Facts()
        for board in self._boards(names):
            seen: dict[str, int] = {}
            for cut in board.cuts:
                seen[cut.name] = seen.get(cut.name, 0) + 1
                label = cut.name if seen[cut.name] == 1 else f"{cut.name}, {seen[cut.name]}"
                facts.setdefault(board.name, {}).update(self._cut(board, cut, label))
        for placed in self.plan.outlines:
            if placed.board.name in names:
                facts.setdefault(placed.board.name, {}).update(self._outline(placed))
        return facts

    def _outline(self, placed: PlacedOutline) -> dict[str, str]:
        """Where a maker's own outline lies, how deep it goes, and what is drawn."""
        text, datum, of = self.on.rule.text, placed.board.datum, placed.purpose
        return {
            f"{of}, from the {datum.end}": f"{text(placed.along.start)} to {text(placed.along.stop)}",
            f"{of}, from the {datum.edge}": f"{text(placed.across.start)} to {text(placed.across.stop)}",
            f"{of}, on the {datum.word(placed.face)}": "marked only" if placed.into is None else f"{text(placed.into.size)} deep",
            f"{of}, lines of {placed.outline.file}": f"{placed.outline.points} points",
        }

    def _cut(self, board: Board, cut: Cut, label: str) -> dict[str, str]:
        text = self.on.rule.text
        found = {}
        for axis, datum in ((Axis.ALONG, board.datum.end), (Axis.ACROSS, board.datum.edge), (Axis.INTO, board.datum.face)):
            span = cut.span(axis)
            found[f"{label}, from the {datum}"] = f"{text(span.start)} to {text(span.stop)}"
        return found

    def _boards(self, names: set[str]) -> Iterator[Board]:
        return (board for board in self.plan.boards if board.name in names)


_OF_THE_PRACTICE: Final = frozenset(rule.name for rule in LENGTH_RULES)


def _of_the_piece(plan: Plan) -> Iterator[Dimension]:
    """The figures that the maker wrote of the piece itself: not of a stock, of the shop, of the practice, or of an opening by
    itself.
    """
    shop, openings = plan.shop, [drawer.opening for drawer in plan.drawers]
    elsewhere = {size.origin for stock in plan.stocks.values() for size in (stock.nominal, stock.thickness)}
    elsewhere |= {size.origin for size in (*(one.diameter for one in shop.cutters), *(one.thickness for one in shop.tenons))}
    elsewhere |= {size.origin for opening in openings for size in (opening.width, opening.height, opening.depth)}
    for size in plan.dimensions().values():
        # What a job says has the file and line it stands in.
        if not size.operands and ":" in size.origin and size.origin not in elsewhere and size.name not in _OF_THE_PRACTICE:
            yield size


def _differing(old: Mapping[str, Mapping[str, str]], new: Mapping[str, Mapping[str, str]]) -> tuple[Difference, ...]:
    """The facts that differ; those that differ alike are drawn together, by things and by words."""
    alike: dict[tuple[str, str, str], list[str]] = {}
    for name in dict.fromkeys([*old, *new]):
        was, now = old.get(name, {}), new.get(name, {})
        for what in dict.fromkeys([*was, *now]):
            if was.get(what) != now.get(what):
                alike.setdefault((what, was.get(what, ""), now.get(what, "")), []).append(name)
    together: dict[tuple[tuple[str, ...], str, str], list[str]] = {}
    for (what, was_so, now_so), names in alike.items():
        together.setdefault((tuple(names), was_so, now_so), []).append(what)
    return tuple(Difference(names, in_few_words(whats), was_so, now_so) for (names, was_so, now_so), whats in together.items())


@dataclass(frozen=True, slots=True)
class _Part:
    """A board and the wood it is of. Stock that was only measured again is the same wood."""

    board: Board
    wood: tuple[object, ...]
    taken: frozenset[tuple[object, ...]] = frozenset()
    """What cuts, tapers and a maker's own outlines take out of it."""

    @classmethod
    def of(cls, board: Board, plan: Plan) -> _Part:
        stock = stock_called(board.stock, plan.stocks)
        planed = None if stock is not None and stock.thickness == board.thickness else board.thickness.mm
        nominal = None if stock is None else stock.nominal.mm
        bands = tuple((band.surface, band.stock, band.thickness.mm) for band in board.bands)
        traced = ((one.outline, one.along, one.across, one.into) for one in plan.outlines if one.board.role == board.role)
        wood = (board.stock, nominal, planed, bands, board.has_round_edges, board.has_grain_across)
        return cls(board, wood, frozenset((*_taken(board), *traced)))

    @property
    def area(self) -> Fraction:
        """Length by width, in square millimetres."""
        return self.board.length.mm * self.board.width.mm

    def gives(self, other: _Part) -> bool:
        """True where ``other`` can be cut from it with its grain the same way."""
        return self.wood == other.wood and other.board.length <= self.board.length and other.board.width <= self.board.width


def _fate(old: _Part | None, new: _Part | None, stray: Length) -> Fate | None:
    """What becomes of a part; None where nothing about it has changed. ``stray`` is how far any cut may stray (CK-1)."""
    if old is None or new is None:
        return Fate.NEW if old is None else Fate.NOT_NEEDED
    if old.wood != new.wood:
        return Fate.AGAIN
    if (old.board.length, old.board.width) == (new.board.length, new.board.width):
        return None if old.taken == new.taken else Fate.SERVES if old.taken < new.taken else Fate.SERVES_UNJOINTED
    if old.gives(new):
        return Fate.CUT_DOWN
    is_hair = new.board.length <= old.board.length + stray and new.board.width <= old.board.width + stray
    return Fate.HAIR if is_hair else Fate.AGAIN


def _from_old_wood(made: Mapping[str, _Part], spare: Mapping[str, _Part]) -> Iterator[tuple[str, str]]:
    """The parts to be made, the largest first, each with the smallest spare one that gives it; loose tenons are milled anew."""
    left = {name: part for name, part in spare.items() if not part.board.role.kind.is_loose}
    for name, part in sorted(made.items(), key=lambda each: -each[1].area):
        found = min((old for old in left if left[old].gives(part)), key=lambda old: left[old].area, default=None)
        if found is not None:
            del left[found]
            yield name, found


def _taken(board: Board) -> set[tuple[object, ...]]:
    """The wood that cuts and tapers take out of a board."""
    cuts: set[tuple[object, ...]] = {
        (cut.surface, cut.shape, *((span.start.mm, span.stop.mm) for span in cut.spans)) for cut in board.cuts
    }
    tapers: Sequence[tuple[object, ...]] = [(taper.surface, taper.near.mm, taper.far.mm) for taper in board.tapers]
    return cuts | set(tapers)


def changes_tree(changes: Changes) -> dict[str, Any]:
    """``changes`` as plain dicts and lists of words, for JSON."""
    return {
        "written": [_change(change) for change in changes.givens],
        "parts": [_change(change) for change in changes.parts],
        "joints": [_change(change) for change in changes.joints],
        "settings": [_change(change) for change in changes.settings],
        "fates": [{"fate": fate.value, "parts": list(names)} for fate, names in changes.fates],
        "untouched": changes.untouched,
        "wood": [{"part": part, "from": old} for part, old in changes.wood],
    }


def _change(change: Difference) -> dict[str, Any]:
    return {"names": list(change.names), "what": change.what, "old": change.old, "new": change.new}
