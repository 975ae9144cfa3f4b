"""Wooden runners: what each drawer rides on, is guided by, and is kept from tipping by (RN-1 to RN-5).

Every strip is ripped from one stock, unless guides or kickers have one of their own. A bearer lies flat; a guide lies flat on it;
kickers and packing stand on edge under it, straight above the drawer's side, so that their height is a ripping width and any
sheet will do. Where nothing is known over a drawer, its kickers lie flat on the wood beside it.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from joinlay.boards import Board, CutUse, Datum, Hand, PartKind, PartRole, Place, Surface, Whole
from joinlay.boards.meeting import Meeting, Tie, butted
from joinlay.casework.assembly import Assembly
from joinlay.casework.double_bearers import no_double
from joinlay.casework.runner_fastening import held, is_second_face, screw_slots
from joinlay.casework.runner_heights import size_runner
from joinlay.findings import larger, note, refusal, stock_of
from joinlay.lengths import NOTHING, largest
from joinlay.records import dataclass
from joinlay.stock import Solid

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.boards import DrawerRole
    from joinlay.casework.bay import Slot
    from joinlay.casework.runner_heights import RunnerHeights
    from joinlay.findings import Finding
    from joinlay.lengths import Dimension
    from joinlay.shop import Practice
    from joinlay.stock import Stock
    from joinlay.stock.movement import Seasons

__all__ = ["Behind", "Kick", "RunnerMake", "Runners", "RunnersAt", "SlotRunners", "has_guide", "make_runners", "under_face"]


def _unguided(slot: Slot, hand: Hand) -> Finding:
    wood, member = slot.cavity.wood(hand), slot.upright(hand).kind.value
    return note(
        "runners",
        f"The {wood.kind.value} beside the drawer guides it: it stands {{gap}} back from the edge of "
        f"the {member}, too little "
        "for a guide.",
        "RN-2",
        "our own choice",
        gap=slot.guide(hand),
    ).at(slot.name)


_BEARER = Datum("upper face", "outer edge", "front end", "lower face", "inner edge", "back end")
_ON_EDGE = Datum("outer face", "lower edge", "front end", "inner face", "upper edge", "back end")

_HANDS = (Hand.LEFT, Hand.RIGHT)
_CASE_BOTTOM = PartRole(PartKind.CASE_BOTTOM)


def under_face(panel: PartRole) -> Surface:
    """The face that a panel of the case turns down: its own for the case top, a dust panel's far one (RO-1)."""
    return Surface.FACE if panel.kind is PartKind.CASE_TOP else Surface.FAR_FACE


def has_guide(slot: Slot, hand: Hand) -> bool:
    """True where the frame covers the case so far that a guide is worth ripping; less, and the wood itself guides the drawer
    (RN-2).
    """
    return slot.guide(hand) >= slot.wish.shop.practice.length("thinnest strip")


@dataclass(frozen=True, slots=True)
class RunnerMake:
    """What runners are ripped from: all of one ``stock``, or guides and kickers each of their own. Packing is of the bearers'.

    ``nail`` and ``screw`` are how long those are that hold the bearers; None: by what they go through and into (RN-4).
    """

    stock: Stock
    guide: Stock | None = None
    kicker: Stock | None = None
    nail: Dimension | None = None
    screw: Dimension | None = None

    def of(self, kind: PartKind) -> Stock:
        """The stock of bearers, guides, kickers or packing."""
        own = {PartKind.GUIDE: self.guide, PartKind.KICKER: self.kicker}.get(kind)
        return self.stock if own is None else own


@dataclass(frozen=True, slots=True)
class Kick:
    """What a drawer's side kicks against: the part, and the surface that it turns down."""

    part: PartRole
    surface: Surface


@dataclass(frozen=True, slots=True)
class RunnersAt:
    """What one side of a drawer has: the board it rides on, ``inner``: where that ends towards the middle, in X, and what it
    kicks against, with the surface that this turns down.

    ``inner_edge`` is the edge of that board there, and of the ``guide`` that it shares with the drawer beside it; None: it shares
    none. ``under`` is the strip under the bearer where it comes as far towards the middle as that; None where it doesn't, or
    there is none.
    """

    bears: PartRole
    inner: Dimension
    kicks: PartRole
    kicked: Surface
    under: PartRole | None
    inner_edge: Surface = Surface.FAR_EDGE
    guide: PartRole | None = None


@dataclass(frozen=True, slots=True)
class SlotRunners:
    """What one drawer has at both its sides; ``kicker_gap`` is from its top to what it kicks against, at rest."""

    left: RunnersAt
    right: RunnersAt
    kicker_gap: Dimension

    def at(self, hand: Hand) -> RunnersAt:
        """What the side at that ``hand`` has."""
        return self.left if hand is Hand.LEFT else self.right


@dataclass(frozen=True, slots=True)
class Runners:
    """All runners of a piece, and what each drawer has of them."""

    assembly: Assembly
    of: dict[DrawerRole, SlotRunners]


@dataclass(frozen=True, slots=True)
class Behind:
    """Where runners lie: from the ``front``, the back of the frame in Y, to the case back, ``depth`` behind it; ``panel`` is how
    thick the case's bottom, top and dust panels are.
    """

    front: Dimension
    depth: Dimension
    panel: Dimension


def make_runners(
    slots: Sequence[Slot], behind: Behind, make: RunnerMake, sides: Stock, practice: Practice, seasons: Seasons
) -> Runners:
    """Bearers, guides and kickers for every slot of a bank or more, packed at the top and bottom as they must be.

    RN-1 to RN-3; in a case of solid ``sides`` the bearers are screwed through slots that let the sides move over ``seasons``
    (RN-4). Raises Refused where a rail is too low for the stock, or an opening too narrow for two bearers. Source: common
    practice.
    """
    return _RunnerMaker(slots=tuple(slots), behind=behind, make=make, sides=sides, practice=practice, seasons=seasons).made()


class _RunnerMaker:
    def __init__(
        self, slots: tuple[Slot, ...], behind: Behind, make: RunnerMake, sides: Stock, practice: Practice, seasons: Seasons
    ) -> None:
        self._slots, self._front, self._make, self._sides = slots, behind.front, make, sides
        self._panel = behind.panel
        self._practice, self._seasons = practice, seasons
        self._thickness = make.stock.thickness
        self._back_gap = practice.length("bearer back gap") if sides.is_solid else NOTHING
        self._length = (behind.depth - self._back_gap).named("bearer length", "RN-1", "common practice")
        self._boards: list[Board] = []
        self._meetings: list[Meeting] = []
        self._findings: list[Finding] = []

    def made(self) -> Runners:
        heights = [size_runner(slot, self._make.stock, self._practice) for slot in self._slots]
        found: dict[DrawerRole, SlotRunners] = {}
        above: tuple[Slot, RunnerHeights] | None = None
        for n, (slot, height) in enumerate(zip(self._slots, heights, strict=True)):
            over = self._kickers_under(*above, slot) if above is not None and not slot.is_topmost else self._over(slot, height)
            self._findings += height.findings
            below = None if slot.is_lowest or slot is self._slots[-1] else self._slots[n + 1]
            found[slot.drawer] = self._slot(slot, height, over, below)
            above = (slot, height)
        boards, meetings = tuple(self._boards), tuple(self._meetings)
        return Runners(Assembly(Whole.RUNNERS, boards, meetings, (self._length,), tuple(self._findings)), found)

    # -- one slot ------------------------------------------------------------------------------------

    def _slot(self, slot: Slot, height: RunnerHeights, over: tuple[Kick, Kick, Dimension], below: Slot | None) -> SlotRunners:
        widths = [self._bearer_width(slot, slot.guide(hand)) for hand in _HANDS]
        inner = (slot.cavity.left + widths[0], slot.cavity.right - widths[1])
        self._refuse_narrow(slot, inner)
        sides = []
        for hand, width, end, kicks in zip(_HANDS, widths, inner, over[:2], strict=True):
            if slot.is_shared(hand):
                bears = self._double(slot, hand, width, height)
                edge = Surface.EDGE if hand is Hand.LEFT else Surface.FAR_EDGE
                sides.append(RunnersAt(bears, end, kicks.part, kicks.surface, None, edge, self._shared_guide(slot, hand)))
                continue
            bears = self._bearer(slot, hand, width, height)
            if has_guide(slot, hand):
                self._guide(slot, hand, slot.guide(hand), bears)
            elif slot.guide(hand):
                self._findings.append(_unguided(slot, hand))
            under = self._under(slot, hand, height, below)
            reaches = under is not None and width - slot.guide(hand) == self._make.of(under.kind).thickness
            sides.append(RunnersAt(bears, end, kicks.part, kicks.surface, under if reaches else None))
        clearance = slot.wish.shop.practice.length("top clearance")
        gap = (clearance + over[2] if over[2] else clearance).named(f"{slot.name} kicker gap", "RN-3", "common practice")
        return SlotRunners(sides[0], sides[1], gap)

    def _under(self, slot: Slot, hand: Hand, height: RunnerHeights, below: Slot | None) -> PartRole | None:
        """The strip under a bearer: packing, or the kicker of the drawer ``below``."""
        if height.packing is not None:
            return PartRole(PartKind.PACKING, slot.drawer, hand)
        return PartRole(PartKind.KICKER, below.drawer, hand) if below is not None and height.kicker is not None else None

    def _bearer_width(self, slot: Slot, guide: Dimension) -> Dimension:
        """RN-1: guide, drawer side and margin; half the margin at least beyond a side with a wide clearance."""
        practice, side = slot.wish.shop.practice, slot.wish.make.sides.thickness
        margin = self._practice.length("bearer margin")
        clear = side + practice.length("side clearance") + largest(practice.length("taper") / 2, NOTHING) + margin / 2
        beside = largest(side + margin, clear, self._thickness)
        return guide + beside if guide else beside

    def _bearer(self, slot: Slot, hand: Hand, width: Dimension, height: RunnerHeights) -> PartRole:
        """The bearer, with its packing where it is the lowest; gives the role of the board the drawer's side rides on."""
        if height.bearer is None:
            assert slot.ground is not None
            return slot.ground
        board = self._flat(slot, PartKind.BEARER, hand, width, height.bearer, slot.floor)
        wood = (slot.cavity.wood(hand), slot.cavity.facing(hand))
        if self._sides.is_solid:
            board = self._screwed(board, is_second=is_second_face(wood[0], hand))
        self._boards.append(board)
        self._meetings.append(self._fixed(board, Surface.EDGE, wood, "on the", "RN-1"))
        # A mullion stands on the bottom rail, so it isn't before the lowest bearers.
        is_before = slot.guide(hand).mm > 0 and not (slot.is_lowest and slot.upright(hand).kind is PartKind.MULLION)
        self._between(board, slot.rails[0], *((slot.upright(hand),) if is_before else ()))
        if slot.is_lowest and height.packing is None:
            self._meetings.append(butted((board, Surface.FAR_FACE), (_CASE_BOTTOM, Surface.FACE), "on the", rule="RN-3"))
        if height.packing is not None:
            packing = self._on_edge(slot, PartKind.PACKING, hand, height.packing, slot.floor - slot.below)
            self._boards.append(packing)
            self._between(packing, slot.rails[0])
            self._meetings += [
                self._fixed(packing, Surface.EDGE, (_CASE_BOTTOM, Surface.FACE), "on the", "RN-3"),
                butted((packing, Surface.FAR_EDGE), (board, Surface.FAR_FACE), "under the", rule="RN-3"),
            ]
        return board.role

    def _double(self, slot: Slot, hand: Hand, width: Dimension, height: RunnerHeights) -> PartRole:
        """The bearer and guide behind a mullion for the drawers at both its sides, made with the one at its left (RO-1)."""
        assert slot.ground is not None
        if self._sides.is_solid or height.packing is not None:
            raise no_double(slot, None if self._sides.is_solid else height.packing)
        if hand is Hand.LEFT:
            before = self._slots[self._slots.index(slot) - 1].drawer
            return slot.ground if height.bearer is None else PartRole(PartKind.BEARER, before, Hand.RIGHT)
        after = self._slots[self._slots.index(slot) + 1]
        beyond = self._bearer_width(after, after.guide(Hand.LEFT))
        bears, panel = slot.ground, (slot.ground, Surface.FACE)
        if height.bearer is not None:
            board = self._flat(slot, PartKind.BEARER, hand, width + beyond, height.bearer, slot.floor, beyond)
            self._boards.append(board)
            self._between(board, slot.rails[0])
            self._meetings.append(self._fixed(board, Surface.FAR_FACE, panel, "on the", "RO-1"))
            bears = board.role
        high = self._make.of(PartKind.GUIDE).thickness
        past = after.guide(Hand.LEFT)
        guide = self._flat(slot, PartKind.GUIDE, hand, slot.guide(hand) + past, high, slot.floor + high, past)
        self._boards.append(guide)
        self._between(guide, slot.upright(hand))
        glue = guide.length.mm * guide.width.mm
        self._meetings.append(
            butted((guide, Surface.FAR_FACE), (bears, Surface.FACE), "on the", rule="RO-1", tie=Tie.GLUED, glue=glue)
        )
        return bears

    def _shared_guide(self, slot: Slot, hand: Hand) -> PartRole:
        owner = slot.drawer if hand is Hand.RIGHT else self._slots[self._slots.index(slot) - 1].drawer
        return PartRole(PartKind.GUIDE, owner, Hand.RIGHT)

    def _guide(self, slot: Slot, hand: Hand, guide: Dimension, bearer: PartRole) -> None:
        # It lies on the bearer, its inner edge even with the frame.
        high = self._make.of(PartKind.GUIDE).thickness
        if high > slot.opening.height:
            raise (
                refusal(
                    "guide",
                    "The guides are {guide} high and the opening {height}.",
                    "Use stock of {height} or thinner for the guides.",
                    "RN-2",
                    "by geometry",
                    guide=high,
                    height=slot.opening.height,
                )
                .at(slot.name)
                .by(stock_of("runners", "guides", thickest=slot.opening.height))
            )
        board = self._flat(slot, PartKind.GUIDE, hand, guide, high, slot.floor + high)
        self._boards.append(board)
        self._between(board, slot.upright(hand))
        wood = (slot.cavity.wood(hand), slot.cavity.facing(hand))
        self._meetings.append(butted((board, Surface.EDGE), wood, "beside the", rule="RN-2"))
        glue = board.length.mm * board.width.mm
        self._meetings.append(
            butted((board, Surface.FAR_FACE), (bearer, Surface.FACE), "on the", rule="RN-2", tie=Tie.GLUED, glue=glue)
        )

    def _kickers_under(self, above: Slot, height: RunnerHeights, slot: Slot) -> tuple[Kick, Kick, Dimension]:
        """The kickers of ``slot``, under the bearers of the drawer ``above`` it; or those bearers themselves."""
        bearers = (PartRole(PartKind.BEARER, above.drawer, Hand.LEFT), PartRole(PartKind.BEARER, above.drawer, Hand.RIGHT))
        assert height.bearer is not None
        if height.kicker is None:
            left, right = (Kick(bearer, Surface.FAR_FACE) for bearer in bearers)
            return (left, right, above.below - height.bearer)
        lift = self._practice.length("kicker lift")
        kickers = []
        for hand, bearer in zip(_HANDS, bearers, strict=True):
            board = self._on_edge(slot, PartKind.KICKER, hand, height.kicker, above.floor - above.below + lift)
            self._boards.append(board)
            kickers.append(Kick(board.role, Surface.EDGE))
            self._between(board, slot.rails[1])
            self._meetings.append(self._fixed(board, Surface.FAR_EDGE, (bearer, Surface.FAR_FACE), "under the", "RN-3"))
        return kickers[0], kickers[1], lift

    def _over(self, slot: Slot, height: RunnerHeights) -> tuple[Kick, Kick, Dimension]:
        """The kickers hung from the panel over a drawer; or that panel itself."""
        lift, roof = self._practice.length("kicker lift"), slot.roof
        if roof is None:
            return self._beside(slot, lift)
        if height.top_kicker is None:
            over = Kick(roof, under_face(roof))
            return (over, over, slot.above)
        kickers = []
        for hand in _HANDS:
            bottom = slot.floor + slot.opening.height + lift
            board = self._on_edge(slot, PartKind.KICKER, hand, height.top_kicker, bottom)
            if self._sides.is_solid:
                board = self._screwed(board)
            self._boards.append(board)
            kickers.append(Kick(board.role, Surface.EDGE))
            self._between(board, slot.rails[1])
            self._meetings.append(self._fixed(board, Surface.FAR_EDGE, (roof, under_face(roof)), "under the", "RN-3"))
        return kickers[0], kickers[1], lift

    def _beside(self, slot: Slot, lift: Dimension) -> tuple[Kick, Kick, Dimension]:
        """Kickers that lie flat on the wood beside a drawer, as wide as its bearers, where nothing is known over it to hang
        them from.
        """
        kickers, thickness = [], self._make.of(PartKind.KICKER).thickness
        for hand in _HANDS:
            top = slot.floor + slot.opening.height + lift + thickness
            board = self._flat(slot, PartKind.KICKER, hand, self._bearer_width(slot, slot.guide(hand)), thickness, top)
            if self._sides.is_solid:
                board = self._screwed(board)
            self._boards.append(board)
            kickers.append(Kick(board.role, Surface.FAR_FACE))
            self._between(board, slot.rails[1])
            wood = (slot.cavity.wood(hand), slot.cavity.facing(hand))
            self._meetings.append(self._fixed(board, Surface.EDGE, wood, "on the", "RN-3"))
        return kickers[0], kickers[1], lift

    # -- boards --------------------------------------------------------------------------------------

    def _flat(
        self,
        slot: Slot,
        kind: PartKind,
        hand: Hand,
        width: Dimension,
        thickness: Dimension,
        top: Dimension,
        past: Dimension = NOTHING,
    ) -> Board:
        """A strip lying flat along the wood at that hand, its upper face at ``top``; it begins ``past`` the end of the cavity."""
        x, across = (slot.cavity.left, "+X") if hand is Hand.LEFT else (slot.cavity.right + past, "-X")
        place = Place.at(x, self._front, top, "+Y", across, "-Z")
        return self._board(PartRole(kind, slot.drawer, hand), width, thickness, _BEARER, place)

    def _on_edge(self, slot: Slot, kind: PartKind, hand: Hand, height: Dimension, bottom: Dimension) -> Board:
        """A strip standing on edge straight above or below the drawer's side, its lower edge at ``bottom``."""
        x, into = (slot.left, "+X") if hand is Hand.LEFT else (slot.left + slot.opening.width, "-X")
        place = Place.at(x, self._front, bottom, "+Y", "+Z", into)
        return self._board(PartRole(kind, slot.drawer, hand), height, self._make.of(kind).thickness, _ON_EDGE, place)

    def _board(self, role: PartRole, width: Dimension, thickness: Dimension, datum: Datum, place: Place) -> Board:
        name = role.name
        return Board(
            role,
            self._make.of(role.kind).name,
            self._length.named(f"{name} length", "RN-1"),
            width.named(f"{name} width", "RN-1"),
            thickness.named(f"{name} thickness", "RN-1"),
            datum,
            place=place,
        )

    def _between(self, board: Board, *before: PartRole) -> None:
        """A strip reaches from the back of the frame, here of the members ``before`` it, to the back of the case, or nearly
        (RN-1).
        """
        for member in before:
            self._meetings.append(butted((board, Surface.END), (member, Surface.FAR_FACE), "against the", rule="RN-1"))
        back = (PartRole(PartKind.CASE_BACK), Surface.FACE)
        self._meetings.append(butted((board, Surface.FAR_END), back, "before the", gap=self._back_gap, rule="RN-1"))

    def _fixed(self, board: Board, edge: Surface, wood: tuple[PartRole, Surface], where: str, rule: str) -> Meeting:
        """A strip on edge, or by its edge, fast on the wood: glued and nailed, or screwed where it is screwed already (RN-4).

        What is screwed is glued as far past its front screw as that is from the end, so that the wood behind is free to move.
        """
        screws = board.cuts_of(CutUse.SCREW_HOLE)
        glued = min(board.length.mm, 2 * screws[0].along.centre.mm) if screws else board.length.mm
        own = None
        if board.role.kind is PartKind.BEARER:
            own = self._make.screw if screws else self._make.nail
        fast = held(board, edge, wood[0], self._deep(wood[0]), self._practice, self._slots[0].wish.shop.rule, own)
        self._findings += fast.findings
        return butted(
            (board, edge),
            wood,
            where,
            rule=rule,
            tie=Tie.SCREWED if screws else Tie.NAILED,
            glue=glued * board.thickness.mm,
            fasteners=len(fast.along),
            fastener=fast.fastener,
            along=fast.along,
        )

    def _deep(self, wood: PartRole) -> Dimension:
        """How deep a part is where a runner is held on it."""
        if wood.kind is PartKind.BEARER:
            return next(board.thickness for board in self._boards if board.role == wood)
        return self._sides.thickness if wood.kind in (PartKind.CASE_SIDE, PartKind.CASE_PARTITION) else self._panel

    def _screwed(self, board: Board, *, is_second: bool = False) -> Board:
        sides = self._sides
        assert isinstance(sides, Solid)
        return screw_slots(board, sides, self._practice, self._seasons, is_second=is_second)

    def _refuse_narrow(self, slot: Slot, inner: tuple[Dimension, Dimension]) -> None:
        """Between the bearers a strip must fit, and a hand to glue it."""
        least = 2 * self._practice.length("stop seat")
        left = inner[1] - inner[0]
        if left < least:
            wider = "the sides of the drawer" if slot.is_there else "the opening at least {short} wider,"
            raise (
                refusal(
                    "runners",
                    f"The bearers leave {'{left}' if left.mm > 0 else 'nothing'} between them in an opening {{width}} wide.",
                    f"Make {wider} or the runners of thinner stock.",
                    "RN-1",
                    "by geometry",
                    left=left,
                    width=slot.opening.width,
                    short=least - left,
                )
                .at(slot.name)
                .by(None if slot.is_there else larger("opening", "width", least - left))
            )
