"""Machine settings: from the cuts on the boards, every fence, height and stop, in the order to cut them (MS-1 to MS-9).

What stands here is fetched when it is asked for: an answer at the bench needs the way of feeding alone.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from joinlay.settings.cards import cards_of, settings_for
    from joinlay.settings.caution import Caution
    from joinlay.settings.choice import Choice, choose
    from joinlay.settings.elements import Adjustment, Guide, Pass, Position, Role, Stops, Tool, ToolKind, Work
    from joinlay.settings.feeding import SPEEDS, Feeding, Hand, Turn, Wall, feeding_of, router_speed
    from joinlay.settings.figures import Adjust, Correction, Direction, Measure, Measured, Reading, TestPiece, Value
    from joinlay.settings.setting import BandsFirst, Setting, SettingsList

__all__ = [
    "SPEEDS",
    "Adjust",
    "Adjustment",
    "BandsFirst",
    "Caution",
    "Choice",
    "Correction",
    "Direction",
    "Feeding",
    "Guide",
    "Hand",
    "Measure",
    "Measured",
    "Pass",
    "Position",
    "Reading",
    "Role",
    "Setting",
    "SettingsList",
    "Stops",
    "TestPiece",
    "Tool",
    "ToolKind",
    "Turn",
    "Value",
    "Wall",
    "Work",
    "cards_of",
    "choose",
    "feeding_of",
    "router_speed",
    "settings_for",
]  # fmt: skip

#: Where each name stands.
_FROM: Final = {
    "cards": ("cards_of", "settings_for"),
    "choice": ("Choice", "choose"),
    "caution": ("Caution",),
    "elements": ("Adjustment", "Guide", "Pass", "Position", "Role", "Stops", "Tool", "ToolKind", "Work"),
    "feeding": ("SPEEDS", "Feeding", "Hand", "Turn", "Wall", "feeding_of", "router_speed"),
    "figures": ("Adjust", "Correction", "Direction", "Measure", "Measured", "Reading", "TestPiece", "Value"),
    "setting": ("BandsFirst", "Setting", "SettingsList"),
}  # fmt: skip


def __getattr__(name: str) -> object:
    """What is called ``name``, out of the module it stands in."""
    for module, names in _FROM.items():
        if name in names:
            return getattr(import_module(f"joinlay.settings.{module}"), name)
    raise AttributeError(f"module 'joinlay.settings' has no attribute {name!r}")
