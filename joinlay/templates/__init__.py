"""What is laid on the wood at true size to mark from: ends, sticks, strips, sections. Nothing here knows paper or files."""

from joinlay.pen.marks import Drawing, Role
from joinlay.templates.ends import templates_for
from joinlay.templates.template import Template

__all__ = ["Drawing", "Role", "Template", "templates_for"]
