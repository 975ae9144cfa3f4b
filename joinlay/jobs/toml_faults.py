"""What is wrong with a file that is not TOML, in a maker's words: the line, what is wrong in it, and the line as it should read.

Python's reader of TOML stops at the first sign it can't use and says which rule of its grammar that broke. A maker knows none of
them, but knows quotes, brackets and names. So the line is looked at afresh: each kind of slip has a pattern of its own, tried in
the order of the table; only a slip that none of them knows is told in the reader's own words.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

from joinlay.errors import on_one_line, quoted

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from re import Match

__all__ = ["fault_in_words"]

_PLACE: Final = re.compile(r"\s*\(at (?:line (\d+), column (\d+)|end of document)\)$")
#: Tables of which there may be several, each headed by its name in two brackets.
_MANY: Final = ("bank", "drawer", "offcut", "board", "banding", "outline", "printer")
_CURLY: Final = str.maketrans("“”„‟‘’‚‛«»＂", '""""\'\'\'\'"""')

_KEY: Final = r"(?P<key>[\w.\"'-]+)"
_LONGEST: Final = 60
#: Letters of a line that are looked at; no line a maker writes is longer.
_LOOKED_AT: Final = 300

#: Each slip: what of the reader's complaint it goes with, what the line looks like, and what is said; ``{...}`` are groups of the
#: line.
_SLIPS: Final[tuple[tuple[str, str, str], ...]] = (
    (r"", r".*[“”„‟«»＂].*", "its quotes are curly; write plain ones: {plain}"),
    (r"", r".*=\s*[‘’‚‛].*", "its quotes are curly; write plain ones: {plain}"),
    (r"Cannot declare", rf"\[\s*(?P<name>{'|'.join(_MANY)})\s*\].*", "each {name} stands under two brackets: [[{name}]]"),
    (
        r"Cannot (declare|overwrite)",
        r"\[\[\s*(?P<name>[\w-]+)\s*\]\].*",
        "[{name}] with one bracket stands above it; write [[{name}]], two brackets each side, for each",
    ),
    (
        r"Cannot declare",
        r"\[\s*(?P<name>[^\]]+?)\s*\].*",
        "the table [{name}] is there already{first}; write both under one heading",
    ),
    (r"Cannot (overwrite|mutate)", rf"\s*{_KEY}\s*[=.].*", "{key} is written twice{first}; leave one of them out"),
    (r"Unescaped|Invalid hex", r".*\\.*", "a \\ in plain quotes means something of its own; write / in its place"),
    (
        r"Unterminated|Illegal character '\\n'|Expected \"'\"",
        r"(?P<line>.*)",
        "a quote is opened and not closed in this line: close it, as in {closed}",
    ),
    (r"Expected '\]+' at the end", r"(?P<open>\[+)(?P<name>[^\]]*).*", "the heading is not closed; write {open}{name}{close}"),
    (r"Invalid initial", r".*,\s*\}.*", "no comma stands before }}: take out the last one"),
    (
        r"Unclosed|Expected|Invalid value",
        rf".*[{{,]\s*{_KEY}\s*=\s*(?P<bare>-?\d[\d.]*\s*(?:[\s/,'’-]\s*\d+\s*(?:/\s*\d+)?|mm|cm|in|ft|″|′)[^,\"}}]*)[,}}].*",
        'a length with a fraction or a unit stands in quotes: {key} = "{bare}"',
    ),
    (
        r"Unclosed array|Unclosed inline",
        r".*",
        "a bracket is opened and not closed before this line; close it with ] or }}, commas between",
    ),
    (r"", rf"\s*{_KEY}\s*:(?!\d).*", "between a key and its value stands =, not a colon: {key} = ..."),
    (
        r"",
        rf"\s*{_KEY}\s*=\s*(#.*)?",
        'nothing stands after {key} =; write its value, such as {key} = "1/2", or leave the line out',
    ),
    (r"", rf"\s*{_KEY}\s*=\s*(?P<word>True|TRUE|False|FALSE|yes|no|Yes|No)\s*(#.*)?", "write {key} = true or {key} = false"),
    (
        r"Expected newline",
        rf"\s*{_KEY}\s*=\s*\"(?P<inside>[^\"]*)\"\s*(\"|in\b|mm\b|cm\b|ft\b).*",
        'a mark for inches ends the quotes; write {key} = "{inside} in"',
    ),
    (
        r"",
        rf"\s*{_KEY}\s*=\s*(?P<bare>-?[\d.][\d.,' /_-]*\d?\s*(?:mm|cm|m|in|inch|inches|ft|\"|'|″|′)?[^\"#\[{{]*?)\s*(#.*)?",
        'a length with a fraction or a unit stands in quotes: {key} = "{bare}"',
    ),
    (r"", rf"\s*{_KEY}\s*=\s*(?P<bare>[^\W\d][^\"'=#\[{{]*?)\s*(#.*)?", 'words stand in quotes: {key} = "{bare}"'),
    (r"Invalid initial|Unclosed|Expected", r".*\{[^}]*", "a table in braces stands on one line, from {{ to }}"),
    (
        r"Expected '='",
        r"\s*(?P<first>[\w-]+)\s+(?P<second>[\w-]+)\s*=.*",
        "a key is one word, with hyphens: {first}-{second} = ...",
    ),
    (r"Expected '='", r".*", 'write a key, =, and its value: width = "18 3/8"; a remark begins with #'),
)


def fault_in_words(message: str, text: str, *, is_shown: bool = True) -> tuple[int, str]:
    """The line, from 1, and what is wrong there, of the good or bad ``text`` that Python's reader refused with ``message``.

    ``is_shown`` False: nothing of the text is echoed. The reader's own words stand where no better are known.
    """
    place = _PLACE.search(message)
    said = _PLACE.sub("", message)
    rows = text.split("\n")
    while len(rows) > 1 and not rows[-1].strip():
        rows.pop()
    line = int(place[1]) if place and place[1] else _begun(rows) if said.startswith(("Unterm", "Expected \"'")) else len(rows)
    if said.startswith(("Cannot overwrite", "Cannot mutate")) and place and not rows[line - 1 : line] and line > 1:
        line -= 1
    row = rows[line - 1] if line <= len(rows) else ""
    if is_shown:
        for kind, shape, sentence in _SLIPS:
            found = re.fullmatch(shape, row.strip()[:_LOOKED_AT]) if re.match(kind, said) else None
            if found:
                return line, f"{_filled(sentence, found, rows, line)}."
    column = f" at column {place[2]}" if place and place[2] else ""
    return (
        line,
        f"{said[:200]}{column}; {_nearby(row) if is_shown else 'it is not shown here, since it may be no file of yours.'}",
    )


def _filled(sentence: str, found: Match[str], rows: Sequence[str], line: int) -> str:
    """``sentence`` with what was found in the line."""
    row = found.string
    groups = {
        group: _short((given or "").replace('"', " in") if group == "bare" else given or "")
        for group, given in found.groupdict().items()
    }
    makers: dict[str, Callable[[], str]] = {
        "plain": lambda: _short(row.translate(_CURLY)),
        "closed": lambda: _short(_closed(row)),
        "close": lambda: "]" * len(groups.get("open", "")),
        "first": lambda: _first(groups.get("key") or groups.get("name", ""), rows, line),
    }
    made = {name: make() for name, make in makers.items() if f"{{{name}}}" in sentence and name not in groups}
    return sentence.format(**groups, **made)


def _short(text: str) -> str:
    return on_one_line(text.strip() if len(text) <= _LONGEST else f"{text[: _LONGEST - 3].strip()}...")


def _closed(row: str) -> str:
    """The line with its quote closed behind the value."""
    quote = "'" if "'" in row and '"' not in row else '"'
    value = row.split("#", maxsplit=1)[0].rstrip().rstrip(",")
    return f"{value}{quote}"


def _first(name: str, rows: Sequence[str], line: int) -> str:
    """Where ``name`` was written first, as far as the lines above tell: under the same heading, for a key."""
    for n in range(line - 2, -1, -1):
        row = rows[n].strip()
        if re.match(rf"{re.escape(name)}\s*[=.]|\[+\s*{re.escape(name)}\s*\]", row):
            return f", first in line {n + 1}"
        if row.startswith("[") and not rows[line - 1].strip().startswith("["):
            break
    return ""


def _begun(rows: Sequence[str]) -> int:
    """The line of the first quote that is opened and not closed; a text over several lines is opened by three."""
    for n, left in enumerate(_left_open(rows), start=1):
        if left:
            return n
    return len(rows)


def _left_open(rows: Sequence[str]) -> Iterator[bool]:
    within = ""
    for n, row in enumerate(rows):
        at = 0
        opened_here = False
        for sign in re.finditer(r"\"\"\"|'''|\\.|\"|'|#", row):
            if sign.start() < at:
                continue
            if not within and sign[0] == "#":
                break
            if not within and sign[0][0] in "\"'":
                within, opened_here = sign[0], True
            elif within == sign[0]:
                within, opened_here = "", False
            at = sign.end()
        if within and len(within) < 3:
            yield True
            return
        # A text of several lines that is never closed is told by its first line.
        yield bool(within) and opened_here and not any(within in later for later in rows[n + 1 :])


def _nearby(row: str) -> str:
    return (
        f"the line reads: {quoted(row.strip(), _LONGEST)}."
        if row.strip()
        else 'write tables as [drawers] and values as key = "text".'
    )
