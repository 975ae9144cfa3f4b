"""Templates that are folded over the end of a part and marked from: its face, its end, and as much of its far face as is cut."""

from joinlay.templates.ends.end_templates import templates_for

__all__ = ["templates_for"]
