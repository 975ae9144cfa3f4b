"""``[drawers]``, ``[[drawer]]`` and ``[[bank]]``: openings, how a bank's height is divided (DR-7), and how drawers are made."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Annotated, Any, Final

from pydantic import Field, WithJsonSchema, model_validator

from joinlay.boards import DrawerRole
from joinlay.casework.corners import AT_BACK, AT_FRONT, CornerKind
from joinlay.casework.graduation import Arithmetic, Equal, Geometric, Heights, OneByOne
from joinlay.casework.opening import BackHeight, BottomReach, DrawerMake, Opening, ToPlane
from joinlay.casework.outwards import OutwardsWish, opening_depth_around, opening_height_around, opening_width_around
from joinlay.casework.row import RowWish, name_of_row
from joinlay.errors import BadInput
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.amounts import Bearing
from joinlay.jobs.tables.given import (
    Checked,
    Count,
    EitherWay,
    Entry,
    Gap,
    Given,
    Name,
    Ratio,
    Size,
    StockName,
    StockOrNone,
    dimension_of,
    dimension_or_none,
    dimension_or_zero,
    one_of,
)
from joinlay.jobs.tables.rows import OpeningHeight, RowEntry, RowOrCount
from joinlay.jobs.tables.shop import set_length
from joinlay.jobs.tables.within import Within
from joinlay.lengths import NOTHING, Dimension, Fraction, Length, chosen
from joinlay.shop import Practice, Shop
from joinlay.stock import Stock

__all__ = ["OPENING_KEYS", "RULES_BY_KEY", "STOCK_KEYS", "BankEntry", "DrawerEntry", "DrawersEntry", "OpeningEntry"]

#: What an opening must have, here or in ``[drawers]``.
OPENING_KEYS: Final = ("width", "height", "depth")

#: The parts of a drawer whose stock must be named, here or in ``[drawers]``. A back that isn't named is of the sides' stock.
STOCK_KEYS: Final = ("front", "sides", "bottom")

#: Keys that choose among ways to make a drawer.
_CHOICES: Final = ("front_joint", "back_joint", "back_height", "bottom_reach")

#: The same, where the key is written in the words of a maker and the drawer's make has another name for it.
_TRUTHS: Final = {"front_grain": "has_upright_grain"}

#: Keys of a drawer that set a rule of the practice tables for it.
_RULES: Final = {
    "side_clearance": "side clearance",
    "top_clearance": "top clearance",
    "bottom_clearance": "bottom clearance of the front",
    "taper": "taper",
    "set_back": "front set-back",
    "back_gap": "back gap",
    "back_set_in": "back set-in",
    "groove_offset": "groove offset",
    "groove_depth": "groove depth",
    "tip_gap": "tip gap",
    "mortise_slack": "mortise slack",
}
#: Those that a drawer made full has none of before it is planed: at each side, at the top, and under its front (HF-1).
_PLANED: Final = ("side clearance", "top clearance", "bottom clearance of the front")
#: The same, by the key as it is written.
RULES_BY_KEY: Final = {field.replace("_", "-"): rule for field, rule in _RULES.items()}

Front = Annotated[Given[CornerKind], one_of(AT_FRONT)]
Back = Annotated[Given[CornerKind], one_of(AT_BACK)]
Fit = Annotated[Given[bool], one_of({"clearances": False, "plane": True})]
FrontGrain = Annotated[Given[bool], one_of({"from side to side": False, "upright": True})]
Height = Annotated[Given[BackHeight], one_of({height.value: height for height in BackHeight})]
Reach = Annotated[Given[BottomReach], one_of({reach.value: reach for reach in BottomReach})]


class OpeningEntry(Entry):
    """The opening inside the face frame; ``depth`` runs from the frame's face to what is behind the drawer."""

    width: Size | None = None
    height: Size | None = None
    depth: Size | None = None


class InsideEntry(Entry):
    """What must lie in a drawer each way, and how much ``room`` is left in each; the opening is worked out around it (CO-1)."""

    width: Size | None = None
    height: Size | None = None
    depth: Size | None = None
    room: Gap | None = None


class FrontSizeEntry(Entry):
    """The size of a drawer's finished front; the opening is worked out around it (CO-1)."""

    width: Size | None = None
    height: Size | None = None


class DrawersEntry(Entry):
    """What every drawer has unless it says otherwise. Opening sizes that are alike may stand here too."""

    opening: Within[OpeningEntry] | None = None
    inside: Within[InsideEntry] | None = None
    front_size: Within[FrontSizeEntry] | None = None
    front: StockName | None = None
    front_grain: FrontGrain | None = None
    sides: StockName | None = None
    back: StockName | None = None
    bottom: StockName | None = None
    bottom_bar: StockOrNone | None = None
    front_joint: Front | None = None
    back_joint: Back | None = None
    back_height: Height | None = None
    bottom_reach: Reach | None = None
    side_height: Size | None = None
    fit: Fit | None = None
    tenon: Size | None = None
    side_clearance: Gap | None = None
    top_clearance: Gap | None = None
    bottom_clearance: Gap | None = None
    taper: EitherWay | None = None
    set_back: Gap | None = None
    back_gap: Gap | None = None
    back_set_in: Gap | None = None
    groove_offset: Gap | None = None
    groove_depth: Size | None = None
    tip_gap: Gap | None = None
    mortise_slack: Gap | None = None
    load: Bearing | None = None

    def outwards(self, name: str) -> OutwardsWish:
        """What the drawer called ``name`` must hold, or the size of its front, of what is written here (CO-1)."""
        inside, front = self.inside or InsideEntry(), self.front_size or FrontSizeEntry()
        return OutwardsWish(
            width=dimension_or_none(inside.width, f"{name} inside width asked for"),
            height=dimension_or_none(inside.height, f"{name} inside height asked for"),
            depth=dimension_or_none(inside.depth, f"{name} inside depth asked for"),
            room=dimension_or_zero(inside.room, f"{name} room to spare inside"),
            front_width=dimension_or_none(front.width, f"{name} front width asked for"),
            front_height=dimension_or_none(front.height, f"{name} front height asked for"),
        )

    @model_validator(mode="after")
    def _is_given_once(self) -> "DrawersEntry":
        for key in OPENING_KEYS:
            said = [word for word in ("opening", "inside", "front_size") if getattr(getattr(self, word), key, None) is not None]
            if len(said) > 1:
                both = " and in ".join(word.replace("_", "-") for word in said)
                raise BadInput(f"the {key} is written in {both}; one of them gives the other, so leave one out.")
        return self

    def practice(self, usual: Practice, named: str = "") -> Practice:
        """``usual`` with the clearances and offsets that are written here.

        ``named`` is the drawer whose own they are and goes before their names; '' where they are every drawer's.
        """
        practice = usual
        for field, rule in _RULES.items():
            given: Given[Length] | None = getattr(self, field)
            if given is not None:
                practice = set_length(practice, rule, given, f"{named} {rule}".strip())
        return practice


class DrawerEntry(DrawersEntry):
    """One drawer, or ``count`` of them alike; any key of ``[drawers]`` may be set otherwise here."""

    name: Name | None = None
    count: Count = 1

    def found(self, field: str, every: DrawersEntry) -> Given[Any] | None:
        """What this drawer says under ``field``, else what ``every`` drawer has; None where neither says."""
        own: Given[Any] | None = getattr(self, field)
        usual: Given[Any] | None = getattr(every, field)
        return usual if own is None else own

    def opening_of(self, role: DrawerRole, every: DrawersEntry, make: DrawerMake, shop: Shop) -> Opening:
        """The opening of the drawer ``role``; a size that isn't written here is every drawer's, one that is asked for from the
        inside is worked out around what the drawer is made of (CO-1).

        ``shop`` has the drawer's own practice. Raises BadInput where sizes don't fit, Refused where no back corner can be made.
        """

        def size(key: str) -> Dimension | OutwardsWish:
            for part in (self, every):
                given = getattr(part.opening, key, None)
                if given is not None:
                    return dimension_of(given, f"{role.name} opening {key}")
                if any(getattr(one, key, None) is not None for one in (part.inside, part.front_size)):
                    return part.outwards(role.name)
            # One of them has it, or the file would not have been accepted.
            raise BadInput(f"{role.name} has no {key}.")

        width, height, depth = (size(key) for key in OPENING_KEYS)
        wide = opening_width_around(role, width, make, shop) if isinstance(width, OutwardsWish) else width
        high = opening_height_around(role, height, make, shop) if isinstance(height, OutwardsWish) else height
        deep = opening_depth_around(role, depth, wide, high, make, shop) if isinstance(depth, OutwardsWish) else depth
        return Opening(wide, high, deep)

    def fitted(self, practice: Practice, every: DrawersEntry) -> tuple[Practice, ToPlane | None]:
        """``practice`` without the clearances of a drawer made full and planed until it goes; and what is planed off (HF-1).

        ``every`` is what ``[drawers]`` says. None, and the practice as it is, for one that is made with its clearances.
        """
        fit: Given[bool] | None = self.found("fit", every)
        if fit is None or not fit.value:
            return practice, None
        sides, top, bottom = (practice.length(rule) for rule in _PLANED)
        none = chosen(NOTHING, "none, since it is made full to its opening")
        full = {rule: none.named(f"{rule} before it is planed", "HF-1", "common practice") for rule in _PLANED}
        return practice.but(full), ToPlane(sides, top, bottom)

    def make_of(self, name: str, every: DrawersEntry, stocks: Mapping[str, Stock], planed: ToPlane | None = None) -> DrawerMake:
        """What the drawer called ``name`` is made of and how it is joined; DrawerMake's own defaults where nothing is said.

        ``every`` is what ``[drawers]`` says; ``stocks`` are the job's by name.
        """
        named = {field: given.value for field in (*STOCK_KEYS, "back", "bottom_bar") if (given := self.found(field, every))}
        of = {field: stocks[name] for field, name in named.items() if name is not None}
        ways = {field: given.value for field in _CHOICES if (given := self.found(field, every)) is not None}
        ways |= {name: given.value for field, name in _TRUTHS.items() if (given := self.found(field, every)) is not None}
        height = self.found("side_height", every)
        if height is not None:
            ways["side_height"] = dimension_of(height, f"{name} side height asked for")
        if planed is not None:
            ways["planed"] = planed
        ways["bar"] = of.get("bottom_bar")
        return DrawerMake(of["front"], of["sides"], of.get("back", of["sides"]), of["bottom"], **ways)


#: How much deeper each opening is than the one above where a geometric bank names no ratio: between the usual 1.1 and 1.25.
_USUAL_RATIO: Final = Fraction(9, 8)

_KINDS: Final = {kind: kind for kind in ("equal", "arithmetic", "geometric")}


def _remainder(given: object) -> Given[int]:
    """``top``, ``bottom``, or the number of a drawer of the bank from its top."""
    if isinstance(given, Spelled):
        if isinstance(given.value, int) and not isinstance(given.value, bool) and given.value >= 1:
            return Given(given.value - 1, str(given.value), given.origin)
        word = str(given.value).strip().casefold()
        if word in ("top", "bottom"):
            return Given(0 if word == "top" else -1, word, given.origin)
    raise BadInput('the remainder goes to "top", "bottom", or the number of a drawer counted from the top of its bank.')


Remainder = Annotated[
    Given[int],
    Checked(_remainder),
    WithJsonSchema({"anyOf": [{"enum": ["top", "bottom"]}, {"type": "integer", "minimum": 1}]}),
]
Kind = Annotated[Given[str], one_of(_KINDS)]


class BankEntry(DrawersEntry):
    """One bank from the top down: ``drawers`` divided by a ``graduation``, or ``heights`` one by one, one of them "fill" at most.

    ``rows`` in place of ``drawers`` says what stands side by side: a number of drawers for each row from the top, or how it is
    divided; graduation and heights are then the rows'. ``mullion`` is the width of the uprights in a row. Any key of
    ``[drawers]`` may be set otherwise here. ``remainder`` rounds the openings to the maker's rule and says which takes what that
    leaves over. ``width`` is the openings'; one bank without it takes what is left, several share it alike only where none has
    one.
    """

    drawers: Count | None = None
    rows: Annotated[list[RowOrCount], Field(min_length=1, max_length=30)] | None = None
    graduation: Kind | None = None
    step: Gap | None = None
    ratio: Ratio | None = None
    heights: Annotated[list[OpeningHeight], Field(min_length=1, max_length=30)] | None = None
    remainder: Remainder | None = None
    rail: Size | None = None
    mullion: Size | None = None
    width: Size | None = None

    @model_validator(mode="after")
    def _fits_together(self) -> "BankEntry":
        if self.opening is not None:
            raise BadInput("the openings of a bank follow from the frame; leave opening out, or write heights.")
        if self.rows is not None:
            self._refuse_beside_rows(self.rows)
        elif (self.drawers is None) == (self.heights is None):
            raise BadInput('write drawers = and how many, or heights = and each opening, such as ["4", "fill", "6"].')
        if self.heights is not None:
            self._refuse_beside_heights(self.heights)
        kind = "equal" if self.graduation is None else self.graduation.value
        for key, needs in (("step", "arithmetic"), ("ratio", "geometric")):
            if getattr(self, key) is not None and kind != needs:
                raise BadInput(f'{key} is for graduation = "{needs}"; this bank is {kind}.')
        if self.remainder is not None and self.remainder.value >= self.row_count:
            what = "drawer" if self.rows is None else "row"
            raise BadInput(f"the remainder goes to {what} {self.remainder.spelled}, but the bank has {self.row_count}.")
        if self.mullion is not None and all(row.place_count < 2 for row in self.rows or ()):
            raise BadInput(
                "mullion is the width of the uprights between drawers side by side, and no row of this "
                "bank has two; leave it out."
            )
        return self

    def _refuse_beside_rows(self, rows: Sequence[RowEntry]) -> None:
        if self.drawers is not None:
            raise BadInput("rows says how many drawers stand in each row, so drawers isn't needed; leave one of them out.")
        if self.heights is not None and len(self.heights) != len(rows):
            raise BadInput(f"there are {len(rows)} rows and {len(self.heights)} heights; give each row its height.")

    def _refuse_beside_heights(self, heights: Sequence[object]) -> None:
        if self.graduation is not None:
            raise BadInput("heights gives the openings one by one, so there is no graduation; leave one of them out.")
        if sum(height is None for height in heights) > 1:
            raise BadInput('more than one opening is "fill"; only one can take what is left.')

    @property
    def count(self) -> int:
        """How many drawers."""
        if self.rows is not None:
            return sum(row.count for row in self.rows)
        return self.row_count

    @property
    def row_count(self) -> int:
        """How many rows; as many as drawers where none stand side by side."""
        if self.rows is not None:
            return len(self.rows)
        return len(self.heights) if self.heights is not None else self.drawers or 1

    def row_wishes(self, first: int, first_open: int, stocks: Mapping[str, Stock]) -> tuple[RowWish, ...]:
        """Its rows from the top down, if any; ``first`` and ``first_open`` number its topmost drawer and bay, ``stocks`` are the
        job's by name.
        """
        wishes = []
        for row in self.rows or ():
            wishes.append(row.wish(first, first_open, stocks))
            first, first_open = first + row.count, first_open + row.open_count
        return tuple(wishes)

    def division(self, first: int, rail: Dimension, first_open: int = 1) -> Heights:
        """How the bank is divided; ``first`` and ``first_open`` number its topmost drawer and bay, ``rail`` is the usual step."""
        if self.heights is not None:
            names = self._row_names(first, first_open)
            given = (
                dimension_or_none(one, f"{name} opening height asked for") for one, name in zip(self.heights, names, strict=True)
            )
            return OneByOne(tuple(given))
        kind = "equal" if self.graduation is None else self.graduation.value
        if kind == "arithmetic":
            return Arithmetic(
                self.row_count, rail if self.step is None else dimension_of(self.step, "step of the graduation", "DR-7")
            )
        if kind == "geometric":
            return Geometric(self.row_count, _USUAL_RATIO if self.ratio is None else self.ratio.value)
        return Equal(self.row_count)

    @property
    def open_count(self) -> int:
        """How many open bays."""
        return sum(row.open_count for row in self.rows or ())

    def _row_names(self, first: int, first_open: int) -> Iterator[str]:
        for row in self.rows or ():
            yield name_of_row(row.places(first, first_open))
            first, first_open = first + row.count, first_open + row.open_count
        if self.rows is None:
            yield from (DrawerRole(first + n).name for n in range(self.row_count))
