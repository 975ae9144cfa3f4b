"""``joinlay help-on``: a page about one kind of finding."""

from __future__ import annotations

from joinlay.checks.help_on import PAGES, help_on
from joinlay.cli.saying import say

__all__ = ["say_help"]


def say_help(kind: str) -> None:
    """Print the page on findings of ``kind``; the names of all pages where it is empty. Raises BadInput, with near names, for no such page."""
    say(help_on(kind).text if kind else "\n".join(PAGES))
