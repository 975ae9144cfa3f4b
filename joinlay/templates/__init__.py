"""What is laid on the wood at true size to mark from: faces, ends, strips, sticks. Nothing here knows a sheet of paper or a file."""

from joinlay.pen.marks import Drawing, Role
from joinlay.templates.template import Template, templates_for

__all__ = ["Drawing", "Role", "Template", "templates_for"]
