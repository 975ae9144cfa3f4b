"""What a glue-up is made with: the glue on the bench, by what its bottle says, and the clamps there are."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from joinlay.errors import BadInput
from joinlay.records import dataclass

if TYPE_CHECKING:
    from joinlay.lengths import Dimension

__all__ = ["USUAL_GLUE", "Clamps", "Glue"]


@dataclass(frozen=True, slots=True)
class Glue:
    """A glue, by two times of its bottle in whole seconds.

    ``open_time`` is how long it stays wet from the first stroke until everything must be closed and clamped, ``clamp_time`` how
    long it is left in clamps. ``is_written`` is False for the usual one, which nobody has read off a bottle. ``origin`` is the
    file and line.
    """

    open_time: int
    clamp_time: int
    is_written: bool = False
    origin: str = ""

    def __post_init__(self) -> None:
        """Refuse times of zero or less."""
        if self.open_time <= 0 or self.clamp_time <= 0:
            raise BadInput("a glue is open, and stays in clamps, for more than no time at all.")


#: 8 minutes open, an hour in clamps (PT-3, PT-9). Source: our own choice; the bottle comes first.
USUAL_GLUE: Final = Glue(open_time=8 * 60, clamp_time=60 * 60)


@dataclass(frozen=True, slots=True)
class Clamps:
    """Clamps that are alike: how many, and the ``length`` between their jaws when they are wide open (PT-4)."""

    length: Dimension
    count: int
