"""Machine settings: from the cuts on the boards, every fence, height and stop, in the order to cut them (MS-1 to MS-9)."""

from joinlay.settings.cards import refused_cuts, settings_for
from joinlay.settings.caution import Caution
from joinlay.settings.elements import Change, Guide, Pass, Position, Role, Stops, Tool, ToolKind, Work
from joinlay.settings.feeding import SPEEDS, Feeding, Hand, Turn, Wall, feeding_of, router_speed
from joinlay.settings.figures import Adjust, Correction, Direction, Measure, Measured, Reading, TestPiece, Value
from joinlay.settings.setting import BandsFirst, Setting, SettingsList

__all__ = [
    "SPEEDS", "Adjust", "BandsFirst", "Caution", "Change", "Correction", "Direction", "Feeding", "Guide", "Hand", "Measure", "Measured",
    "Pass", "Position", "Reading", "Role", "Setting", "SettingsList", "Stops", "TestPiece", "Tool", "ToolKind", "Turn", "Value", "Wall",
    "Work", "feeding_of", "refused_cuts", "router_speed", "settings_for",
]  # fmt: skip
