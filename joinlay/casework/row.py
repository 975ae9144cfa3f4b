"""A row of a bank: drawers side by side, places left open among them, or an open bay from end to end (RO-1, SH-1)."""

from __future__ import annotations

from typing import TYPE_CHECKING, Union

from joinlay.boards import DrawerRole, PartKind, PartRole, bay_name, row_name
from joinlay.casework.graduation import IN_A_ROW, Equal, opening_heights
from joinlay.errors import BadInput
from joinlay.findings import Refused, refusal
from joinlay.records import dataclass

if TYPE_CHECKING:
    from collections.abc import Sequence

    from joinlay.casework.graduation import Heights, Rounding
    from joinlay.casework.shelves import OpenMake
    from joinlay.lengths import Dimension

__all__ = ["Row", "RowPlace", "RowWish", "divide_row", "name_of_row", "place_name", "right_of"]

#: What one place of a row holds: a drawer; or nothing, known by the number of the open bay it then is.
RowPlace = Union[DrawerRole, int]


def place_name(place: RowPlace) -> str:
    """``drawer 3``; ``open bay 1``."""
    return place.name if isinstance(place, DrawerRole) else bay_name(place)


def right_of(place: RowPlace, kind: PartKind) -> PartRole:
    """The role of what stands between a ``place`` of a row and the next: a mullion in the frame, a partition behind it."""
    return PartRole(kind, place) if isinstance(place, DrawerRole) else PartRole(kind, bay=place)


def name_of_row(places: Sequence[RowPlace]) -> str:
    """What a row is called: by its drawers, or where it has none, by the first of its open bays."""
    drawers = [place for place in places if isinstance(place, DrawerRole)]
    return row_name(drawers[0], drawers[-1].number) if drawers else place_name(places[0])


@dataclass(frozen=True, slots=True)
class RowWish:
    """What the maker asks of a row of a bank: ``count`` drawers side by side, alike unless ``widths`` divides its room (RO-1).

    ``open`` is what an open bay in their place has, and ``count`` then 0 (SH-1). With ``left_open``, places counted from 1 at the
    left, the row has as many places as drawers and those together, and ``open`` is what each of those has. ``has_double_bearers``
    instead of partitions between drawers.
    """

    count: int = 1
    widths: Heights | None = None
    open: OpenMake | None = None
    has_double_bearers: bool = False
    left_open: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        """Refuse a row of none, a division into another number of openings, and places left open that it doesn't have."""
        if self.left_open:
            self._refuse_places()
        elif self.open is not None and self.count == 0 and self.widths is None:
            return
        elif self.count < 1 or self.open is not None or (self.widths is not None and self.widths.count != self.count):
            raise BadInput(f"a row of {self.count} drawers was divided otherwise; give as many widths as drawers, one at least.")

    def _refuse_places(self) -> None:
        if self.open is None or self.has_double_bearers:
            raise BadInput("a place left open stands between partitions, and says what it holds; give it both.")
        if self.widths is not None and self.widths.count != self.place_count:
            raise BadInput(f"a row of {self.place_count} places was divided otherwise; give as many widths as places.")
        if len(set(self.left_open)) < len(self.left_open) or not all(1 <= place <= self.place_count for place in self.left_open):
            raise BadInput(f"a row of {self.place_count} places was given others to leave open; name each once, from 1.")

    @property
    def open_places(self) -> tuple[int, ...]:
        """The places that hold no drawer, from 1 at the left: of an open bay its one."""
        return self.left_open or ((1,) if self.open is not None else ())

    @property
    def place_count(self) -> int:
        """How many openings stand side by side."""
        return self.count + len(self.open_places)


@dataclass(frozen=True, slots=True)
class Row:
    """A row of a bay: its ``places`` from the left, each with an opening of its own (RO-1).

    ``floor`` is the top of the rail under it, above the frame's underside, ``height`` its openings'. ``lefts`` are the lefts of
    the openings from the frame's left edge, ``widths`` their widths. What has no drawer ``holds`` shelves or nothing (SH-1).
    ``has_double_bearers`` where these stand behind its mullions in place of partitions.
    """

    places: tuple[RowPlace, ...]
    floor: Dimension
    height: Dimension
    lefts: tuple[Dimension, ...]
    widths: tuple[Dimension, ...]
    holds: OpenMake | None = None
    has_double_bearers: bool = False

    @property
    def drawers(self) -> tuple[DrawerRole, ...]:
        """Its drawers from the left."""
        return tuple(place for place in self.places if isinstance(place, DrawerRole))

    @property
    def is_parted(self) -> bool:
        """True where more than one opening stands in it, with something between (RO-1)."""
        return len(self.places) > 1

    @property
    def is_open(self) -> bool:
        """True where some place of it has no drawer (SH-1)."""
        return self.holds is not None

    @property
    def needs_panels(self) -> bool:
        """True where it needs a floor and a ceiling: where it is parted or open (RO-1, SH-1)."""
        return self.is_parted or self.is_open

    def under(self, kind: PartKind) -> PartRole:
        """The role of what lies under it: a rail, a dust panel."""
        drawers = self.drawers
        if not drawers:
            assert isinstance(self.places[0], int)
            return PartRole(kind, bay=self.places[0])
        return PartRole(kind, drawers[0], number=drawers[-1].number if len(drawers) > 1 else 0)

    def partings(self, kind: PartKind) -> tuple[PartRole, ...]:
        """The roles of what stands right of each place but the last: mullions, partitions."""
        return tuple(right_of(place, kind) for place in self.places[:-1])


def divide_row(
    wish: RowWish,
    places: tuple[RowPlace, ...],
    floor: Dimension,
    height: Dimension,
    left: Dimension,
    width: Dimension,
    mullion: Dimension,
    landing: Rounding | None,
) -> Row:
    """The openings of one row side by side, ``mullion`` between each two; together they are exactly ``width`` (RO-1).

    ``landing`` brings them to the maker's rule; None: they are as they come.

    Raises Refused, with the row named, where they don't fit.
    """
    if len(places) == 1:
        return Row(places, floor, height, (left,), (width,), wish.open)
    called = name_of_row(places)
    wood = mullion * (len(places) - 1)
    room = (width - wood).named(f"{called} room for openings", "RO-1", "by geometry")
    if room.mm <= 0:
        fewer = "the drawers of the row" if not wish.left_open else "the places of the row"
        raise refusal(
            "graduation",
            "The mullions alone take {wood} of a row {width} wide.",
            f"Make the opening wider than {{wood}}, the mullions narrower, or {fewer} fewer.",
            "RO-1",
            "by geometry",
            wood=wood,
            width=width,
        ).at(called)
    names = [place_name(place) for place in places]
    try:
        division = wish.widths or Equal(len(places))
        widths = opening_heights(division, room, names=names, rounding=landing, divided=IN_A_ROW)
    except Refused as refused:
        raise refused.at(called) from None
    lefts = [left]
    for name, wide in zip(names[1:], widths, strict=False):
        lefts.append((lefts[-1] + wide + mullion).named(f"{name} left of the opening", "RO-1", "by geometry"))
    return Row(places, floor, height, tuple(lefts), widths, wish.open, wish.has_double_bearers)
