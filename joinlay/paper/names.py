"""The one rule for every name that comes to stand on paper: of jobs, drawers, stocks, prices, boards, outlines, printers, files.

A name is short, on one line, and of letters that the packet's typeface has and that are set as they are read, from left to right.
What breaks the rule is found where the name is read, so that it is told with its line and long before anything is drawn.
"""

from __future__ import annotations

import unicodedata
from bisect import bisect_right
from typing import Final

from joinlay.errors import quoted

__all__ = ["LONGEST_NAME", "letter_fault", "name_fault", "written_one_way"]

#: The most letters of a name.
LONGEST_NAME: Final = 80

#: The letters that can be printed, first and last of each run: those of Latin, Greek, Cyrillic, Armenian and Georgian, with
#: signs and figures, as far as both faces of the typeface have them. A test holds the runs against the font files.
_RUNS: Final = """
20:7E A1:AC AE:2E9 2EC:2EE 300:34E 370:377 37A:37F 384:38A 38C:38C 38E:3A1 3A3:525 531:556 559:55F 561:587 589:58A 10A0:10C5
10D0:10FC 1E00:1EFB 1F00:1F15 1F18:1F1D 1F20:1F45 1F48:1F4D 1F50:1F57 1F59:1F59 1F5B:1F5B 1F5D:1F5D 1F5F:1F7D 1F80:1FB4
1FB6:1FC4 1FC6:1FD3 1FD6:1FDB 1FDD:1FEF 1FF2:1FF4 1FF6:1FFE 2010:2027 2030:205E 2070:2071 2074:208E 2090:209C 20A0:20B5
20B8:20BA 20BD:20BD 2100:2109 210B:2149 214B:214B 214E:214E 2150:2185 2189:2189 2190:2311 2460:2469 2500:269C FB00:FB06
"""
_FIRST, _LAST = zip(*(tuple(int(end, 16) for end in run.split(":")) for run in _RUNS.split()), strict=True)


def letter_fault(text: str) -> str:
    """What is wrong with the letters of ``text``, where one of them can't be printed; '' where all can."""
    for letter in text:
        n = bisect_right(_FIRST, ord(letter)) - 1
        if n < 0 or ord(letter) > _LAST[n]:
            return _said(letter)
    return ""


def name_fault(text: str, most: int = LONGEST_NAME) -> str:
    """What is wrong with ``text`` as a name of at most ``most`` letters, and what to write; '' where nothing is."""
    if not text.strip() or len(text) > most or not text.isprintable():
        return f"is not a name; write 1 to {most} letters and figures on one line"
    return letter_fault(text)


def written_one_way(text: str) -> str:
    """``text`` with single spaces, and each letter with its accent as one sign where there is one: so names that look alike are
    the same. Source: Unicode Standard Annex 15, form C.
    """
    return unicodedata.normalize("NFC", " ".join(text.split()))


def _said(letter: str) -> str:
    if not letter.isprintable():
        return f"has a sign that cannot be seen, {quoted(letter)}; leave it out"
    if unicodedata.bidirectional(letter) in ("R", "AL", "AN"):
        return (
            f"has the letter {quoted(letter)}, of a script that runs from right to left, which is not set right on paper yet; "
            "write it in Latin, Greek or Cyrillic letters"
        )
    return f"has the letter {quoted(letter)}, which the printed letters lack; write it in Latin, Greek or Cyrillic letters"
