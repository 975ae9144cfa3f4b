"""Story sticks: full-size strips with every position along one direction of the piece, counted from one end."""

from joinlay.templates.story.story_sticks import story_sticks

__all__ = ["story_sticks"]
