"""Drill and position templates: pulls on the fronts, shelf pins, stop blocks on their strips, runners at the front of the
case.
"""

from joinlay.templates.drilling.pull_templates import holes_drilled, pull_templates
from joinlay.templates.drilling.runner_templates import FROM_THE_FRONT, runner_templates
from joinlay.templates.drilling.shelf_strips import pins_drilled, shelf_strips
from joinlay.templates.drilling.stop_templates import ON_THE_RAIL, stop_templates

__all__ = [
    "FROM_THE_FRONT",
    "ON_THE_RAIL",
    "holes_drilled",
    "pins_drilled",
    "pull_templates",
    "runner_templates",
    "shelf_strips",
    "stop_templates",
]
