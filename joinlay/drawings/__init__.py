"""Board faces as marks on paper, in exact millimetres, true to scale. Nothing here knows a sheet of paper or a file."""

from joinlay.drawings.marks import Drawing, Role
from joinlay.drawings.template import Template, templates_for

__all__ = ["Drawing", "Role", "Template", "templates_for"]
