"""``[top]`` and ``[base]``: what lies on the piece, and what it stands on (TO-1, BA-1 to BA-3)."""

from collections.abc import Mapping
from typing import Annotated, Final

from pydantic import model_validator

from joinlay.casework.base import BaseMake
from joinlay.casework.levellers import Leveller
from joinlay.casework.top import TopMake
from joinlay.errors import BadInput
from joinlay.jobs.tables.filler import FillerEntry
from joinlay.jobs.tables.given import (
    EitherWay,
    Entry,
    Gap,
    Given,
    Size,
    StockName,
    dimension_of,
    dimension_or_none,
    one_of,
)
from joinlay.jobs.tables.within import Within
from joinlay.lengths import NOTHING, BadSize, Dimension
from joinlay.shop import Practice, Shop
from joinlay.stock import Stock

__all__ = ["LEVELLER_MEANINGS", "BaseEntry", "LevellerEntry", "TopEntry", "less_top_and_base"]


class TopEntry(Entry):
    """A top that lies on the piece and overhangs it in front, at both ends and behind; flush behind unless told (TO-1)."""

    stock: StockName
    front: Gap | None = None
    ends: Gap | None = None
    back: Gap | None = None

    def make(self, stocks: Mapping[str, Stock]) -> TopMake:
        """The top, of one of the job's ``stocks`` by name."""
        overhangs = (dimension_or_none(getattr(self, key), f"top overhang {words}") for key, words in _OVERHANGS.items())
        return TopMake(stocks[self.stock.value], *overhangs)


#: What an overhang of the top is called, by its key.
_OVERHANGS: Final = {"front": "in front", "ends": "at each end", "back": "behind"}


#: What each key of a leveller is for.
LEVELLER_MEANINGS: Final = {
    "hole": "How wide the hole for its stem or insert is.",
    "depth": "How deep that hole is.",
    "out": "How far it holds the feet off the floor, screwed half-way.",
}


class LevellerEntry(Entry):
    """What each foot is bored for: the hole of a levelling foot, and how far that holds it off the floor (BA-3)."""

    hole: Size
    depth: Size
    out: Gap | None = None

    def make(self) -> Leveller:
        """The leveller."""
        return Leveller(
            dimension_of(self.hole, "leveller hole"),
            dimension_of(self.depth, "leveller hole depth"),
            dimension_or_none(self.out, "leveller standing out"),
        )


class BaseEntry(Entry):
    """What the piece stands on: a plinth, one with a recess for toes, or four feet (BA-1 to BA-3)."""

    stock: StockName
    height: Size | None = None
    kind: Annotated[Given[str], one_of({kind: kind for kind in ("plinth", "recess", "cut recess", "feet")})] | None = None
    set_back: EitherWay | None = None
    foot: Size | None = None
    leveller: Within[LevellerEntry] | None = None
    toe: Size | None = None

    @model_validator(mode="after")
    def _says_what_its_kind_asks(self) -> "BaseEntry":
        kind = self._called
        if self.height is None and "recess" not in kind:
            raise BadInput('height is missing; write how high the piece stands on its base, such as height = "4 in".')
        if (self.foot is None) is (kind == "feet"):
            raise BadInput('foot is how wide each foot is: write it with kind = "feet", and only then.')
        if self.leveller is not None and kind != "feet":
            raise BadInput('leveller is what is turned in a foot: write it with kind = "feet".')
        if self.toe is not None and "recess" not in kind:
            raise BadInput('toe is how deep the recess for toes is: write it with kind = "recess" or "cut recess".')
        if self.set_back is not None and kind == "cut recess":
            raise BadInput(
                'set-back is of a base under the piece, and with kind = "cut recess" the sides stand on the floor; leave it out.'
            )
        return self

    @property
    def _called(self) -> str:
        return "plinth" if self.kind is None else self.kind.value

    def make(self, stocks: Mapping[str, Stock], practice: Practice) -> BaseMake:
        """The base, of one of the job's ``stocks`` by name; one with a recess is as high as the ``practice`` has it unless told
        (BA-2).
        """
        kind = self._called
        height = practice.length("toe height") if self.height is None else dimension_of(self.height, "base height")
        return BaseMake(
            stocks[self.stock.value],
            height,
            dimension_or_none(self.set_back, "base set-back"),
            dimension_or_none(self.foot, "width of a foot"),
            has_recess=kind == "recess",
            toe=dimension_or_none(self.toe, "depth of the recess for toes"),
            is_cut=kind == "cut recess",
            leveller=None if self.leveller is None else self.leveller.make(),
        )


def less_top_and_base(
    over_all: tuple[Dimension, Dimension, Dimension],
    top: TopMake | None,
    base: BaseMake | None,
    filler: FillerEntry | None,
    shop: Shop,
) -> tuple[Dimension, Dimension, Dimension]:
    """What the piece may measure without its top, base and fillers, where all have to fit a room (TO-1, BA-1, SC-1)."""
    width, height, depth = over_all
    ends: Dimension = NOTHING
    if top is not None:
        usual = shop.practice.length("top overhang")
        front, ends = usual if top.front is None else top.front, top.overhang_at_ends(shop.practice)
        height, depth = height - top.stock.thickness, depth - front - (top.back or NOTHING)
    width = width - (2 * ends if filler is None else filler.beside(ends))
    if base is not None:
        height = height - base.stands(shop.practice)
    sizes = (
        size.named(f"piece {what}", "TO-1, BA-1, SC-1", "by geometry")
        for size, what in ((width, "width"), (height, "height"), (depth, "depth"))
    )
    width, height, depth = sizes
    for size in (width, height, depth):
        if size.mm <= 0:
            said = "the room leaves {size} for the {name}, once its top and base are taken off; make the room larger."
            raise BadSize(said, size=size, name=size.name)
    return width, height, depth
