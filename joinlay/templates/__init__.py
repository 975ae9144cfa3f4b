"""What is laid on the wood at true size to mark from: faces, ends, strips, sticks. Nothing here knows a sheet of paper or a file."""

from joinlay.pen.marks import Drawing, Role
from joinlay.templates.ends import templates_for
from joinlay.templates.template import Template

__all__ = ["Drawing", "Role", "Template", "templates_for"]
