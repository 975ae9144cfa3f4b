"""True-size sections of the joints, to hold a cut end against."""

from joinlay.templates.sections.joint_sections import joint_sections

__all__ = ["joint_sections"]
