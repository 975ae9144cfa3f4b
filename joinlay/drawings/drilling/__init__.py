"""Drill and position templates: pulls on the fronts, stop blocks on their strips, runners at the front of the case."""

from joinlay.drawings.drilling.pulls import pull_templates
from joinlay.drawings.drilling.runners import runner_templates
from joinlay.drawings.drilling.stops import stop_templates

__all__ = ["pull_templates", "runner_templates", "stop_templates"]
