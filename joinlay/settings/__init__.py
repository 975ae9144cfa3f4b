"""Machine settings: from the cuts on the boards, every fence, height and stop, in the order to cut them (MS-1 to MS-9)."""

from joinlay.settings.bands import BandsFirst
from joinlay.settings.caution import Caution
from joinlay.settings.elements import Change, Guide, Pass, Position, Role, Stops, Tool, ToolKind, Work
from joinlay.settings.feeding import Feeding, Hand, Turn, Wall, feeding_of
from joinlay.settings.making import refused_cuts, settings_for
from joinlay.settings.reading import Reading, Value
from joinlay.settings.setting import Setting, SettingsList
from joinlay.settings.speeds import SPEEDS, router_speed
from joinlay.settings.test_piece import Adjust, Correction, Direction, Measure, Measured, TestPiece

__all__ = [
    "SPEEDS", "Adjust", "BandsFirst", "Caution", "Change", "Correction", "Direction", "Feeding", "Guide", "Hand", "Measure", "Measured",
    "Pass", "Position", "Reading", "Role", "Setting", "SettingsList", "Stops", "TestPiece", "Tool", "ToolKind", "Turn", "Value", "Wall",
    "Work", "feeding_of", "refused_cuts", "router_speed", "settings_for",
]  # fmt: skip
