"""The trade rules by number, as DEVELOPERS.md lists them: the one list that code and docstrings are held against."""

import re
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

#: LT-1, or LT-7 to LT-9 for all three.
_NUMBER = re.compile(r"\b([A-Z]{2})-(\d+)(?: to (?:\1-)?(\d+))?")


@cache
def rule_numbers():
    """Every rule number in the table of DEVELOPERS.md."""
    text = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    return frozenset(re.findall(r"^\| ([A-Z]{2}-\d+) \|", text, re.MULTILINE))


def rules_named_in(text):
    """The rule numbers that ``text`` names; ``LT-7 to LT-9`` names three. Standards (EN-, DIN-) look otherwise and aren't met."""
    found = set()
    for kind, first, last in _NUMBER.findall(text):
        found |= {f"{kind}-{n}" for n in range(int(first), int(last or first) + 1)}
    return found
