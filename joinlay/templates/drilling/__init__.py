"""Drill and position templates: pulls on the fronts, stop blocks on their strips, runners at the front of the case."""

from joinlay.templates.drilling.pulls import pull_templates
from joinlay.templates.drilling.runners import runner_templates
from joinlay.templates.drilling.stops import stop_templates

__all__ = ["pull_templates", "runner_templates", "stop_templates"]
