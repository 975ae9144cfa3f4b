"""``[drawers]`` and ``[[drawer]]``: the openings, and what the drawers are made of and how."""

from collections.abc import Mapping
from typing import Annotated, Any, Final

from pydantic import PlainValidator

from joinlay.casework.opening import BackHeight, BackJoint, DrawerMake, FrontJoint, Opening
from joinlay.jobs.parts.amounts import Bearing
from joinlay.jobs.parts.given import Count, EitherWay, Gap, Given, Name, Part, Size, StockName, dimension_of, one_of
from joinlay.jobs.parts.practice import set_length
from joinlay.lengths import Length
from joinlay.shop import Practice
from joinlay.stock import Stock

__all__ = ["OPENING_KEYS", "STOCK_KEYS", "DrawerPart", "DrawersPart", "OpeningPart"]

#: What an opening must have, here or in ``[drawers]``.
OPENING_KEYS: Final = ("width", "height", "depth")

#: The parts of a drawer whose stock must be named, here or in ``[drawers]``. A back that isn't named is of the sides' stock.
STOCK_KEYS: Final = ("front", "sides", "bottom")

#: Keys that choose among ways to make a drawer.
_CHOICES: Final = ("front_joint", "back_joint", "back_height")

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

Front = Annotated[Given[FrontJoint], PlainValidator(one_of({joint.value: joint for joint in FrontJoint}))]
Back = Annotated[Given[BackJoint], PlainValidator(one_of({joint.value: joint for joint in BackJoint}))]
Height = Annotated[Given[BackHeight], PlainValidator(one_of({height.value: height for height in BackHeight}))]


class OpeningPart(Part):
    """The opening inside the face frame; ``depth`` runs from the frame's face to what is behind the drawer."""

    width: Size | None = None
    height: Size | None = None
    depth: Size | None = None


class DrawersPart(Part):
    """What every drawer has unless it says otherwise. Opening sizes that are alike may stand here too."""

    opening: OpeningPart | None = None
    front: StockName | None = None
    sides: StockName | None = None
    back: StockName | None = None
    bottom: StockName | None = None
    front_joint: Front | None = None
    back_joint: Back | None = None
    back_height: Height | None = None
    side_height: Size | None = None
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

    def practice(self, usual: Practice, named: str = "") -> Practice:
        """``usual`` with the clearances and offsets that are written here. ``named`` goes before their names where they are one drawer's own."""
        practice = usual
        for field, rule in _RULES.items():
            given: Given[Length] | None = getattr(self, field)
            if given is not None:
                practice = set_length(practice, rule, given, f"{named} {rule}".strip())
        return practice


class DrawerPart(DrawersPart):
    """One drawer, or ``count`` of them alike; any key of ``[drawers]`` may be set otherwise here."""

    name: Name | None = None
    count: Count = 1

    def found(self, field: str, every: DrawersPart) -> Given[Any] | None:
        """What this drawer says under ``field``, else what ``every`` drawer has; None where neither says."""
        own: Given[Any] | None = getattr(self, field)
        usual: Given[Any] | None = getattr(every, field)
        return usual if own is None else own

    def opening_of(self, name: str, every: DrawersPart) -> Opening:
        """The opening of the drawer called ``name``; a size that isn't written here is every drawer's."""

        def size(key: str) -> Given[Length]:
            places = [part.opening for part in (self, every) if part.opening is not None]
            # One of them has it, or the file would not have been accepted.
            return next(given for part in places if (given := getattr(part, key)) is not None)

        width, height, depth = (dimension_of(size(key), f"{name} opening {key}") for key in OPENING_KEYS)
        return Opening(width, height, depth)

    def make_of(self, name: str, every: DrawersPart, stocks: Mapping[str, Stock]) -> DrawerMake:
        """What the drawer called ``name`` is made of and how it is joined; DrawerMake's own defaults where nothing is said."""
        parts = (*STOCK_KEYS, "back")
        of = {field: stocks[given.value] for field in parts if (given := self.found(field, every)) is not None}
        chosen = {field: given.value for field in _CHOICES if (given := self.found(field, every)) is not None}
        height = self.found("side_height", every)
        if height is not None:
            chosen["side_height"] = dimension_of(height, f"{name} side height asked for")
        return DrawerMake(of["front"], of["sides"], of.get("back", of["sides"]), of["bottom"], **chosen)
