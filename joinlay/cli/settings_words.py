"""Words for ``joinlay settings``: the order of the cards, and one card."""

from __future__ import annotations

from typing import Final

from joinlay.cli.words import counted

SETTINGS_HEAD: Final = ("card", "set-ups", "what is cut", "machine and cutter", "fence", "height", "how they lie")
AT_BOTH_ENDS: Final = ", both ends or edges"
SQUARE_THE_ENDS: Final = "chop the round ends square"


def settings_verdict(title: str, order: str) -> str:
    """The first line of ``settings``: how many cards, and what their ``order`` saves."""
    return f"{title}: {order}" if order else f"{title}: nothing to set."


def settings_for_part(title: str, part: str, cards: int, of: int) -> str:
    """The first line of ``settings --for``: which of the cards, in the order of the whole job."""
    if not cards:
        return f"{title}: nothing is cut in {part}; it is only sawn to size."
    return f"{title}, {part}: {cards} of the {counted(of, 'card')}, in the order of the whole job."


def no_setting(card: int, most: int) -> str:
    """A card that isn't there."""
    return f"there is no card {card}; they are numbered 1 to {most}." if most else f"there is no card {card}: nothing is cut."


def next_setting(path: object, card: int = 1) -> str:
    """After ``settings``: how to see a whole card."""
    return f"Next: joinlay settings {path} --card {card}"


def first_of_all(bands: str) -> str:
    """What has to be banded before a card."""
    return f"First     {bands}."


def setting_head(number: int, cut: str, change: str) -> str:
    """The first line of a card in the terminal."""
    return f"Card {number}: {cut} ({change})"


def test_piece(measures: str) -> str:
    """What the test piece must measure."""
    return f"test piece: {measures}"
