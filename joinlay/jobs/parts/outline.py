"""``[[outline]]``: a maker's own outline out of an SVG file, and where it goes."""

from typing import Annotated, Final

from pydantic import PlainValidator

from joinlay.boards.outline import Outline
from joinlay.casework.tracing import OutlineWish, Spot
from joinlay.errors import BadInput
from joinlay.jobs.parts.given import Gap, Given, Name, Part, Spelled, dimension_of, one_of
from joinlay.jobs.parts.on_hand import YesOrNo
from joinlay.lengths import Dimension, Length

__all__ = ["OutlinePart", "SpotPart"]

_TURNS: Final = {0: 0, 90: 1, 180: 2, 270: 3}
_TO: Final = {"near side": False, "middle": True}
To = Annotated[Given[bool], PlainValidator(one_of(_TO))]


def _quarters(given: object) -> int:
    value = given.value if isinstance(given, Spelled) else None
    if isinstance(value, bool) or not isinstance(value, int) or value not in _TURNS:
        raise BadInput("turn is how far it is turned anticlockwise; write 0, 90, 180 or 270.")
    return _TURNS[value]


Turned = Annotated[int, PlainValidator(_quarters)]


class SpotPart(Part):
    """Where an outline goes: so far from an ``end`` and an ``edge``, each in the middle unless given; counted ``to`` which part of it."""

    end: Name | None = None
    from_end: Gap | None = None
    edge: Name | None = None
    from_edge: Gap | None = None
    to: To | None = None


class OutlinePart(Part):
    """The outline in ``file``, ``on`` which parts, ``at`` which place of which ``face``, and how ``depth`` it is cut (left out: right through)."""

    file: Name
    on: Name
    purpose: Name | None = None
    face: Name | None = None
    at: SpotPart | None = None
    turn: Turned = 0
    mirrored: YesOrNo = False
    depth: Gap | None = None

    def wish(self, outline: Outline) -> OutlineWish:
        """What the maker wants with ``outline``, which is what the file draws; mirrored first, then turned."""
        seen = (outline.mirrored() if self.mirrored else outline).turned(self.turn)
        purpose = "outline" if self.purpose is None else self.purpose.value
        return OutlineWish(
            seen, self.on.value, purpose, self._spot(purpose), _word(self.face), _maybe(self.depth, f"{purpose} depth")
        )

    def _spot(self, purpose: str) -> Spot:
        if self.at is None:
            return Spot()
        at = self.at
        from_end, from_edge = _maybe(at.from_end, f"{purpose} from the end"), _maybe(at.from_edge, f"{purpose} from the edge")
        return Spot(_word(at.end), from_end, _word(at.edge), from_edge, to_middle=at.to is not None and at.to.value)


def _word(given: Given[str] | None) -> str | None:
    return None if given is None else given.value


def _maybe(given: Given[Length] | None, name: str) -> Dimension | None:
    return None if given is None else dimension_of(given, name)
