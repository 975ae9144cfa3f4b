"""The rows of a ``[[bank]]``: drawers side by side, places left open among them, open bays and shelves (RO-1, SH-1)."""

from collections.abc import Mapping, Sequence
from itertools import count
from typing import Annotated, Final, Literal, Union

from pydantic import BeforeValidator, ConfigDict, Field, TypeAdapter, ValidationInfo, WithJsonSchema, model_validator

from joinlay.boards import DrawerRole
from joinlay.casework.graduation import ByShares, Heights, OneByOne
from joinlay.casework.row import RowPlace, RowWish, place_name
from joinlay.casework.shelves import Lipping, OpenMake
from joinlay.errors import BadInput
from joinlay.jobs.source import Spelled
from joinlay.jobs.tables.amounts import Bearing
from joinlay.jobs.tables.given import (
    Checked,
    Context,
    Count,
    Entry,
    Given,
    Ratio,
    Size,
    StockName,
    YesOrNo,
    dimension_of,
    dimension_or_none,
    one_of,
)
from joinlay.jobs.tables.within import Within
from joinlay.lengths import Length
from joinlay.stock import Stock

__all__ = ["ROW_MEANINGS", "OpeningHeight", "RowEntry", "RowOrCount"]

_SIZE: Final[TypeAdapter[Given[Length]]] = TypeAdapter(Size, config=ConfigDict(defer_build=True))


def _opening_height(given: object, info: ValidationInfo[Context]) -> Given[Length] | None:
    """A height, or ``fill`` for the opening that takes what is left."""
    if isinstance(given, Spelled) and isinstance(given.value, str) and given.value.strip().casefold() == "fill":
        return None
    return _SIZE.validate_python(given, context=info.context)


OpeningHeight = Annotated[Given[Length] | None, Checked(_opening_height), WithJsonSchema({"type": ["string", "number"]})]

#: More drawers side by side than any piece has.
_MOST_IN_A_ROW: Final = 20
_ROW_SAID: Final = (
    'how many drawers stand side by side in it, or { widths = ["8", "fill"] }, or { shares = [1, 2] }; an open bay is "open", '
    "{ fixed = 2 } with shelves in dadoes, or { loose = 2 } with shelves on pins"
)


class LippingEntry(Entry):
    """A lipping on the front edge of every fixed shelf of the bay: its stock, which gives its thickness, and its height."""

    stock: StockName
    height: Size

    def lipping(self, stocks: Mapping[str, Stock]) -> Lipping:
        """The lipping, out of the job's ``stocks`` by name."""
        return Lipping(stocks[self.stock.value], dimension_of(self.height, "lipping height"))


class RowEntry(Entry):
    """A row of a bank, drawers side by side: ``drawers`` and how many, alike; or their ``widths`` one by one from the left, one
    of them "fill" at most; or ``shares`` of the row.

    ``left-open`` are places of it without a drawer, counted from the left; ``widths`` and ``shares`` are then of all its places.
    Or an open bay: ``open``. Both may have ``fixed`` shelves in dadoes or ``loose`` ones on pins, of ``stock`` unless of the
    case's panels', with ``load`` on each.
    """

    drawers: Count | None = None
    widths: Annotated[list[OpeningHeight], Field(min_length=1, max_length=_MOST_IN_A_ROW)] | None = None
    shares: Annotated[list[Ratio], Field(min_length=1, max_length=_MOST_IN_A_ROW)] | None = None
    left_open: Annotated[list[Count], Field(min_length=1, max_length=_MOST_IN_A_ROW)] | None = None
    open: YesOrNo | None = None
    fixed: Count | None = None
    loose: Count | None = None
    stock: StockName | None = None
    lipping: Within[LippingEntry] | None = None
    load: Bearing | None = None
    between: Annotated[Given[bool], one_of({"partition": False, "double bearer": True})] | None = None

    @model_validator(mode="after")
    def _is_one_of_them(self) -> "RowEntry":
        said = [key for key in ("drawers", "widths", "shares") if getattr(self, key) is not None]
        of_a_bay = [key for key in ("open", "fixed", "loose", "stock", "lipping", "load") if getattr(self, key) is not None]
        if said and of_a_bay and (self.left_open is None or self.open is not None):
            instead = "leave one of them out"
            if self.left_open is None:
                instead += ", or say which of its places have no drawer: left-open = [2]"
            raise BadInput(f"{of_a_bay[0]} is for an open bay, and {said[0]} puts drawers into this row; {instead}.")
        if self.left_open is not None:
            self._has_places(said)
        if of_a_bay:
            self._has_shelves()
        if of_a_bay and not said:
            return self
        if self.between is not None and self.place_count < 2:
            raise BadInput("between is what parts drawers side by side, and this row has one; leave it out.")
        if len(said) != 1:
            raise BadInput(f"a row says {_ROW_SAID}; write one of them.")
        if self.widths is not None and sum(width is None for width in self.widths) > 1:
            raise BadInput('more than one width is "fill"; only one can take what is left.')
        if self.place_count > _MOST_IN_A_ROW:
            what = "drawers" if self.left_open is None else "places"
            raise BadInput(f"a row of {self.place_count} {what} is more than any piece has; the most is {_MOST_IN_A_ROW}.")
        return self

    def _has_places(self, said: Sequence[str]) -> None:
        """Refuse places left open that the row hasn't, or has twice; and a double bearer beside one (RO-1)."""
        places = self.left_open or []
        if not said:
            raise BadInput("left-open is of a row that has places side by side; write drawers =, widths = or shares = beside it.")
        for place in places:
            if place > self.place_count:
                raise BadInput(
                    f"left-open names place {place}, and with {said[0]} this row has {self.place_count}, counted from the left; "
                    f"give one from 1 to {self.place_count}."
                )
        if len(set(places)) < len(places):
            raise BadInput("left-open names a place twice; name each once, counted from the left.")
        if self.between is not None and self.between.value:
            raise BadInput(
                "a double bearer lies under two drawers side by side, and would not part a drawer from what lies in a place left "
                'open; write between = "partition", or leave it out.'
            )

    def _has_shelves(self) -> None:
        """Refuse what an open bay, or a place left open, can't have (SH-1, SH-2)."""
        if self.open is False:
            raise BadInput(f"a row that isn't open says {_ROW_SAID}.")
        if not self.open and self.left_open is None and self.fixed is None and self.loose is None:
            raise BadInput('this row has neither drawers nor shelves; write fixed = or loose = and how many, or "open" alone.')
        if (self.stock is not None or self.load is not None) and self.fixed is None and self.loose is None:
            raise BadInput(
                "stock and load are of the shelves of an open bay, and this one has none; write fixed = or loose = and how many."
            )
        if self.fixed and self.loose:
            raise BadInput("a bay has fixed shelves or loose ones; write one of them, or make two bays of it.")
        if self.lipping is not None and not self.fixed:
            raise BadInput(
                "a lipping is glued to fixed shelves, and this bay has none; leave it out, or write fixed = and how many."
            )

    @property
    def is_open(self) -> bool:
        """True for an open bay."""
        return self.drawers is None and self.widths is None and self.shares is None

    @property
    def count(self) -> int:
        """How many drawers; none in an open bay."""
        return 0 if self.is_open else self.place_count - len(self.left_open or ())

    @property
    def place_count(self) -> int:
        """How many openings side by side."""
        return 1 if self.is_open else len(self.widths or self.shares or ()) or (self.drawers or 1) + len(self.left_open or ())

    def places(self, first: int, first_open: int) -> tuple[RowPlace, ...]:
        """What stands in it from the left, numbered through the piece from ``first`` drawer and ``first_open`` bay."""
        opens = (1,) if self.is_open else self.left_open or ()
        drawers, bays = count(first), count(first_open)
        return tuple(next(bays) if n in opens else DrawerRole(next(drawers)) for n in range(1, self.place_count + 1))

    @property
    def open_count(self) -> int:
        """How many of its places are open bays."""
        return 1 if self.is_open else len(self.left_open or ())

    def wish(self, first: int, first_open: int, stocks: Mapping[str, Stock]) -> RowWish:
        """How the row is divided, and what stands open in it; ``first`` and ``first_open`` number its left drawer and bay,
        ``stocks`` are the job's by name.
        """
        holds = None
        if self.open_count:
            stock = None if self.stock is None else stocks[self.stock.value]
            lipping = None if self.lipping is None else self.lipping.lipping(stocks)
            holds = OpenMake(self.fixed or 0, self.loose or 0, stock, lipping)
        doubled = self.between is not None and self.between.value
        return RowWish(self.count, self._division(first, first_open), holds, doubled, tuple(self.left_open or ()))

    def _division(self, first: int, first_open: int) -> Heights | None:
        """By widths or shares; None: alike."""
        if self.widths is not None:
            names = (f"{place_name(place)} opening width asked for" for place in self.places(first, first_open))
            return OneByOne(tuple(dimension_or_none(one, name) for one, name in zip(self.widths, names, strict=True)))
        return None if self.shares is None else ByShares(tuple(share.value for share in self.shares))


def _row_table(given: object) -> object:
    """A row may be written as a number alone, which is how many drawers stand in it, or as "open"."""
    if isinstance(given, Spelled):
        if isinstance(given.value, str) and given.value.strip().casefold() == "open":
            return {"open": Spelled(value=True, origin=given.origin)}
        if isinstance(given.value, bool) or not isinstance(given.value, int):
            raise BadInput(f"a row of a bank says {_ROW_SAID}.")
        return {"drawers": given}
    return given


RowOrCount = Annotated[
    RowEntry,
    BeforeValidator(
        _row_table, json_schema_input_type=Union[Annotated[int, Field(ge=1, le=_MOST_IN_A_ROW)], Literal["open"], RowEntry]
    ),
]

#: What each key of a row is for, for the schema of a job.
ROW_MEANINGS: Final = {
    "RowEntry": {
        "drawers": "How many drawers side by side, all alike.",
        "widths": 'Their openings one by one, from the left; one at most may be "fill".',
        "shares": "How much of the row each has, from the left: 1, 2 makes the second twice as wide.",
        "between": "What parts them behind the frame: partitions unless told, or double bearers, each under two "
        "drawers, without wood between.",
        "left-open": "Which places of the row have no drawer, counted from the left; the drawers are then beside them, and "
        "widths and shares are of all its places.",
        "open": "True for an open bay in place of drawers; fixed or loose shelves say so too.",
        "fixed": "How many shelves in dadoes an open bay has, as far apart as each other.",
        "loose": "How many shelves on pins an open bay has; the wood at both sides is bored for them (SH-2).",
        "stock": "The stock of the shelves; the case's panels' unless told.",
        "lipping": "A strip along the front of each fixed shelf, which stiffens it.",
        "load": "What lies on each shelf; 15 lb/ft2 unless told.",
    },
    "LippingEntry": {
        "stock": "What it is of; as thick as that.",
        "height": "How high it stands, level with the shelf above and as far as that below.",
    },
}
