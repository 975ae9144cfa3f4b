"""The order told to a maker: moves that are made alike become one numbered step, and drawers that go together alike are told
once.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.boards import DrawerRole, PartKind, Whole
from joinlay.boards.meeting import Tie, Way
from joinlay.boards.names import in_few_words, listed
from joinlay.lengths import MM_PER_INCH, Fraction, Unit, decimal_text
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from joinlay.assembly.order import Move, Order, Stage
    from joinlay.boards import PartRole
    from joinlay.boards.meeting import Meeting

__all__ = [
    "Step",
    "area_words",
    "come_from",
    "fasteners_word",
    "no_glue_on",
    "parts_named",
    "step_glue",
    "step_loose",
    "step_words",
    "steps_of",
]

#: Where a part comes from that goes a way.
_FROM: Final = {
    Way.RIGHT: "from the left",
    Way.LEFT: "from the right",
    Way.BACK: "from the front",
    Way.FRONT: "from behind",
    Way.UP: "from below",
    Way.DOWN: "from above",
}

#: A square inch and a square centimetre in square mm.
_AREA: Final = {Unit.INCH: ("square inches", MM_PER_INCH**2), Unit.MM: ("square cm", Fraction(100))}

#: So many of a kind are named one by one; more are counted.
_NAMED: Final = 3


@dataclass(frozen=True, slots=True)
class Step:
    """One thing to do at the bench: ``moves`` made one after the other, alike, in each of the things ``of`` (names of stages).

    The moves are those of the first of them; ``most`` are those of the one with the most glue. ``each`` are those of every one,
    in the order of ``of``.
    """

    number: int
    of: tuple[str, ...]
    moves: tuple[Move, ...]
    most: tuple[Move, ...]
    is_alike: bool
    """True where each of them takes the same glue."""
    is_whole: bool
    ends: bool
    """True for the last step of its stage, after which the diagonals are measured."""
    each: tuple[tuple[Move, ...], ...]

    @property
    def surfaces(self) -> int:
        """How many surfaces get glue, in one of the things it is done in, at the most."""
        return sum(len(move.glued) for move in self.most)

    @property
    def glue(self) -> Fraction:
        """How much is glued in one of them at the most, in square millimetres."""
        return sum((move.glue for move in self.most), Fraction(0))


def steps_of(order: Order) -> tuple[Step, ...]:
    """The numbered steps: moves on the same parts the same way, or of the same kind of part, are one (PT-2)."""
    alike: dict[object, list[Stage]] = {}
    for stage in order.stages:
        alike.setdefault(_shape(stage), []).append(stage)
    steps: list[Step] = []
    for same in alike.values():
        cut = [list(_bounds(stage.moves)) for stage in same]
        for n, (_, stop) in enumerate(cut[0]):
            each = [stage.moves[slice(*bounds[n])] for stage, bounds in zip(same, cut, strict=True)]
            most = max(each, key=lambda moves: sum(move.glue for move in moves))
            steps.append(
                Step(
                    number=len(steps) + 1,
                    of=tuple(stage.name for stage in same),
                    moves=each[0],
                    most=most,
                    is_alike=len({tuple(move.glue for move in moves) for moves in each}) == 1,
                    is_whole=same[0].of is None,
                    ends=stop == len(same[0].moves),
                    each=tuple(each),
                )
            )
    return tuple(steps)


def _shape(stage: Stage) -> object:
    """What two drawers that go together alike have in common, however many tenons each has; anything else is like itself
    alone.
    """
    if not isinstance(stage.of, DrawerRole):
        return stage.name
    return tuple(
        (stage.moves[start].way, *dict.fromkeys((move.moving[0].kind, move.moving[0].hand) for move in stage.moves[start:stop]))
        for start, stop in _bounds(stage.moves)
    )


def _bounds(moves: Sequence[Move]) -> Iterator[tuple[int, int]]:
    start = 0
    for n in range(1, len(moves) + 1):
        if n == len(moves) or not _are_one(moves[n - 1], moves[n]):
            yield start, n
            start = n


def _are_one(one: Move, other: Move) -> bool:
    """True where a maker would do both in one go."""
    kinds = {move.moving[0].kind for move in (one, other)}
    if len(kinds) == 1 and next(iter(kinds)).is_loose:
        return True
    if one.moving[0].kind.is_loose is not other.moving[0].kind.is_loose:
        return False
    if one.way is not other.way or _is_drawer(one) is not _is_drawer(other):
        return False
    return len(kinds) == 1 or _held(one) == _held(other) != set()


def _held(move: Move) -> set[PartRole]:
    own = set(move.moving)
    return {met.other if met.one in own else met.one for met in move.closing}


def _is_drawer(move: Move) -> bool:
    return isinstance(move.moving[0].whole, DrawerRole) and not move.moving[0].kind.is_loose and len(move.moving) > 1


# -- in words ------------------------------------------------------------------------------------------------


def step_words(step: Step) -> str:
    """What to do, in a sentence: what, onto what, which way; and what is screwed then that came in before (PT-2, DJ-3)."""
    said = _put_together(step)
    moving = step.moves[0].moving[0].kind
    screwed = {
        met.one.kind
        for each in step.moves
        for met in each.closing
        if met.tie is Tie.FASTENED and met.other.kind is PartKind.DRAWER_BACK
    }
    if PartKind.BOTTOM_BAR in screwed:
        said = f"{said} Screw the bar up to the back."
    if PartKind.DRAWER_BOTTOM in screwed and moving is not PartKind.DRAWER_BOTTOM:
        said = f"{said} Screw the bottom up to the back."
    return said


def _put_together(step: Step) -> str:
    first = step.moves[0]
    come = _FROM[first.way]
    if step.is_whole and _is_drawer(first):
        names = in_few_words(move.moving[0].drawer.name for move in step.moves if move.moving[0].drawer is not None)
        return f"Push {names.replace('drawer ', 'drawers ', 1) if len(step.moves) > 1 else names} in, {come}."
    if step.is_whole and first.moving[0].whole is Whole.FRAME:
        return f"Glue the face frame to the front edges of the case, {come}."
    if step.is_whole and first.moving[0].whole is Whole.BASE and len(first.moving) > 1:
        return "Glue the base under the frame and the case, and turn the piece upright again."
    what, onto = parts_named([move.moving[0] for move in step.moves]), _held_in(step)
    if first.moving[0].kind is PartKind.BEARER:
        come = f"{come}, up to the frame"
    if first.moving[0].kind is PartKind.DRAWER_BOTTOM:
        closed = [(move, met) for move in step.moves for met in move.closing if met.joint is not None]
        grooved = dict.fromkeys(met.other if met.one in move.moving else met.one for move, met in closed)
        return _bottom_words(step, first).format(what=what, onto=parts_named(list(grooved)), come=come)
    if (own := _OWN_WORDS.get(first.moving[0].kind)) is not None:
        return own(step, first).format(what=what, come=come)
    said = _OF_KIND.get(first.moving[0].kind) or _held_by({met.tie for move in step.moves for met in move.glued})
    return said.format(what=what, onto=onto, come=come)


#: What is said of parts that go in by their own rule; of all others it is told how they are held.
_OF_KIND: Final = {
    PartKind.LOOSE_TENON: "Glue the loose tenons into {onto}, as deep as they go.",
    PartKind.TOP: "Lay the top on, and screw it up from inside, through the case's top panel and the strips, without glue.",
    PartKind.TOP_STRIP: "Glue {what} on the upper face of the case's top panel, their holes over its holes.",
    PartKind.FOOT: "Glue {what} under {onto}, and turn the piece upright again.",
    PartKind.FILLER: "Where the piece will stand, level and fixed: plane {what} of the filler to the wall, "
    "and screw on through the stile, from inside the openings, without glue.",
    PartKind.TOE_BOARD: "Glue and nail {what} between the sides, {come}, up to the case's bottom and flush with their notches.",
    PartKind.STOP_BLOCK: "Glue {what} to {onto}, {come}, each where its drawer, tried in, comes to rest.",
}


def _bottom_words(step: Step, move: Move) -> str:
    """A bottom slides into its grooves, glued at most along its front, and is screwed up to a back that stands on it (GR-2,
    DJ-3).
    """
    glue = "with glue in the groove of the front only" if step.surfaces else "without glue"
    screwed = any(met.tie is Tie.FASTENED for met in move.closing)
    them = "it" if len(step.moves) == 1 else "both"
    return (
        f"Slide {{what}} into the grooves of {{onto}}, {{come}}, {glue}{f', and screw {them} up to the back' if screwed else ''}."
    )


def _back_words(step: Step, move: Move) -> str:
    """A case's back is laid in from behind and nailed or screwed, or slides along its grooves (RA-1, SC-2)."""
    count = sum(one.fasteners for one in step.moves)
    of = fasteners_word(met for one in step.moves for met in one.closing)
    held = f", and {of.removesuffix('s')} it there, {count} {of if count > 1 else of.removesuffix('s')} in all" if count else ""
    if move.way in (Way.UP, Way.DOWN):
        return f"Slide {{what}} along its grooves, {{come}}, without glue{held}."
    return f"Lay {{what}} into its rabbets, {{come}}, without glue{held}."


def _shelf_words(step: Step, move: Move) -> str:
    """A loose shelf goes in before the back, or when all is finished, tilted (SH-2)."""
    later = ", or last of all from the front, where found to go in tilted" if move.way is Way.FRONT else ""
    return f"Set {{what}} on {'its' if len(step.moves) == 1 else 'their'} pins, {{come}}{later}."


#: Parts that are told of by what they go into.
_OWN_WORDS: Final = {PartKind.CASE_BACK: _back_words, PartKind.LOOSE_SHELF: _shelf_words}


def _held_by(ties: set[Tie]) -> str:
    if Tie.SCREWED in ties:
        return "Screw {what} to {onto}, {come}, with glue at the front only."
    if Tie.NAILED in ties:
        return "Glue and nail {what} to {onto}, {come}."
    return "Glue {what} to {onto}, {come}." if ties else "Put {what} to {onto}, {come}, without glue."


def step_glue(step: Step, unit: Unit) -> str:
    """How much is glued: ``4 surfaces, 33 square cm``; empty for a step without glue (PT-7)."""
    if not step.surfaces:
        return ""
    count = "1 surface" if step.surfaces == 1 else f"{step.surfaces} surfaces"
    area = area_words(step.glue, unit)
    if len(step.of) > 1:
        counts = {sum(move.fasteners for move in moves) for moves in (step.moves, step.most)}
        more = (
            f", {max(counts)} {fasteners_word(met for move in step.moves for met in move.closing)}"
            if len(counts) == 1 and max(counts)
            else ""
        )
        return f"{count} in each, {area}{more}" if step.is_alike else f"up to {count} and {area} in each"
    fasteners = sum(move.fasteners for move in step.moves)
    return (
        f"{count}, {area}, {fasteners} {fasteners_word(met for move in step.moves for met in move.closing)}"
        if fasteners
        else f"{count}, {area}"
    )


def fasteners_word(closing: Iterable[Meeting]) -> str:
    """``screws``, ``nails`` or ``pins``, by the first of some meetings that has any; of the runners it is told by how they are
    held.
    """
    for met in (met for met in closing if met.fasteners):
        if met.fastener is not None:
            return f"{met.fastener.kind.value}s"
        if met.tie is Tie.SCREWED:
            return "screws"
    return "nails"


def step_loose(step: Step) -> str:
    """What stays dry as it closes: ``the bottom stays loose in its grooves``; empty where nothing does (PT-7)."""
    loose = dict.fromkeys(
        met.one for move in step.moves for met in move.dry if met.one not in move.moving
    )  # what goes in dry by itself says so
    return no_glue_on(list(loose)) if loose else ""


def no_glue_on(loose: Sequence[PartRole]) -> str:
    """That those parts, one or several, stay loose in their grooves (PT-7)."""
    stays = "stays loose in its" if len(loose) == 1 else "stay loose in their"
    return f"no glue on {parts_named(loose)}, which {stays} grooves"


def come_from(way: Way) -> str:
    """Where a part comes from that goes ``way``: ``from the left`` (PT-1)."""
    return _FROM[way]


def area_words(area: Fraction, unit: Unit) -> str:
    """An area as it is told: ``33 square cm``, ``5.1 square inches`` (MS-2)."""
    word, size = _AREA[unit]
    told = area / size
    return f"{decimal_text(told, 0 if told >= 10 else 1)} {word}"


def _held_in(step: Step) -> str:
    """What the moving parts go into or onto, where glue holds it; where none does, what holds it at all."""
    found: dict[PartRole, None] = {}
    for move in step.moves:
        own = set(move.moving)
        for met in move.glued or move.closing:
            other = met.other if met.one in own else met.one
            # A tenon is told by what it stands in.
            found[other.of if other.kind.is_loose and other.of is not None else other] = None
    return parts_named(list(found)) if found else ""


def parts_named(roles: Sequence[PartRole]) -> str:
    """Some parts of one thing in few words: ``the left and right side and the bottom``, ``8 bearers``, ``partition 1``."""
    by_kind: dict[PartKind, list[PartRole]] = {}
    for role in roles:
        by_kind.setdefault(role.kind, []).append(role)
    # Under one article: the front and back.
    said = [(_some(kind, some), len(some) > _NAMED or _is_numbered(some)) for kind, some in by_kind.items()]
    first, is_bare = said[0]
    return listed([first if is_bare else f"the {first}", *(word for word, _ in said[1:])])


def _some(kind: PartKind, some: Sequence[PartRole]) -> str:
    if len(some) > _NAMED:
        return f"{len(some)} {kind.nouns}"
    words = in_few_words(role.short for role in some)
    if ", " in words:
        # Each has a name of its own.
        return listed(words.split(", "))
    if len(some) > 1 and all(role.hand is None for role in some):
        return words.replace(kind.noun, kind.nouns, 1)
    return words


def _is_numbered(some: Sequence[PartRole]) -> bool:
    """True for one that has a number for a name, as partition 1, and so no article."""
    return len(some) == 1 and some[0].number > 0 and some[0].drawer is None
