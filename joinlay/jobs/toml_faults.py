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
#: A value that is whole: a text, a number, a list.
_WHOLE: Final = r"(?P<value>\"[^\"]*\"|'[^']*'|-?[\d.]+|true|false|\[[^\]]*\])"
#: Numbers as words.
_COUNTS: Final = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
_LONGEST: Final = 60
#: Letters of a line that are looked at; no line a maker writes is longer.
_LOOKED_AT: Final = 300

#: Each slip: what of the reader's complaint it goes with, what the line looks like, and what is said; ``{...}`` are groups of the
#: line.
_SLIPS: Final[tuple[tuple[str, str, str], ...]] = (
    (r"", r".*[“”„‟«»＂].*", "its quotes are curly; write plain ones: {plain}"),
    (r"", r".*=\s*[‘’‚‛].*", "its quotes are curly; write plain ones: {plain}"),
    (r"", r"(?://|--|/\*|;|%)+\s*(?P<rest>.*)", "a remark begins with #: # {rest}"),
    (
        r"Illegal|Unescaped",
        r".*[\x00-\x08\x0b-\x1f\x7f].*",
        "a sign stands in it that cannot be seen; delete the line and write it anew",
    ),
    (
        r"",
        r".*[\u00a0\u2000-\u200f\u202f\u2060\u3000\ufeff].*",
        "a blank in it is no plain one; write it anew with the space bar",
    ),
    (r"", rf"{_KEY}\s*[＝﹦].*", "its = is no plain one; write {key} = and its value"),
    (r"Invalid statement", r"[({<](?P<name>[\w.-]+)[)}>]\s*", "a heading stands in square brackets: {heading}"),
    (r"Expected '='", r"(?P<name>[\w.-]+)\s*\]+\s*", "a heading is opened with a bracket too: {heading}"),
    (r"Expected newline", r"\[(?P<name>[^\[\]]+)\]\].*", "as many brackets open a heading as close it: {heading}"),
    (
        r"Expected newline",
        r"(?P<head>\[+[^\[\]]+\]+)\s*(?P<rest>[\w-]+\s*=.*)",
        "a heading stands on a line alone: {head}, and below it {rest}",
    ),
    (r"Invalid initial", r"\[+\s*stock\s*\.\s*\]+.*", "each stock has a name: [stock.birch-12], say"),
    (
        r"Expected '\]+' at the end",
        r"\[+\s*(?P<name>[\w.-]+(?:\s+[\w.-]+)+)\s*\]+.*",
        "no blanks stand in a heading: {heading}",
    ),
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
    (
        r"Cannot (overwrite|mutate)",
        rf"\s*{_KEY}\s*[=.].*",
        "{key} is written twice{first}; leave one of them out{between}",
    ),
    (r"Unescaped|Invalid hex", r".*\\.*", "a \\ in plain quotes means something of its own; write / in its place"),
    (
        r"Unterminated|Illegal character '\\n'|Expected \"'\"",
        r"(?P<line>.*)",
        "a quote is opened and not closed in this line: close it, as in {closed}",
    ),
    (r"Expected '\]+' at the end", r"(?P<open>\[+)(?P<name>[^\]]*).*", "the heading is not closed; write {open}{name}{close}"),
    (r"Invalid initial", r".*,\s*\}.*", "no comma stands before }}: take out the last one"),
    (r"Invalid", r".*,\s*,.*", "two commas follow each other; leave one of them out"),
    (r"Expected '='", r".*[{,]\s*(?P<key>[\w-]+)\s*:.*\}.*", "between a key and its value stands =, not a colon: {key} = ..."),
    (
        r"Expected newline|Unclosed",
        rf"{_KEY}\s*=\s*\[?\s*(?P<list>\d+(?:,\s+\d+)+|\d+(?:\s+\d+)+)\s*\]?\s*(#.*)?",
        "several things stand in square brackets, with commas between: {key} = [{commas}]",
    ),
    (
        r"Unclosed|Invalid value",
        r".*[\[,]\s*(?P<bare>(?:\d+[ -])?\d+/\d+|[\d.]+\s*(?:mm|cm|in|ft)\b|\d+(?:\.\d*)?(?=[\"″]))[^,\]]*[,\]].*",
        'a length with a fraction or a unit stands in quotes: "{bare}"',
    ),
    (r"Unclosed array", r".*[\"'}]\s+[\"'{].*\].*", "a comma stands between two things of a list"),
    (
        r"Invalid value|Unclosed",
        rf"{_KEY}\s*=\s*\[(?:[^\"']*,)?\s*(?P<bare>[A-Za-z][\w -]*?)\s*[,\]].*",
        'words stand in quotes: "{bare}"',
    ),
    (r"Invalid value", rf"{_KEY}\s*=\s*\((?P<list>[^()]*,[^()]*)\).*", "a list stands in square brackets: {key} = [{list}]"),
    (r"Invalid value", rf"{_KEY}\s*=\s*\((?P<value>[^()]*)\).*", "no brackets stand round a value: {key} = {value}"),
    (r"Invalid value", rf"{_KEY}\s*(?:==+|=>|=:)\s*(?P<value>.+)", "one = stands between a key and its value: {key} = {value}"),
    (
        r"Expected newline",
        rf"{_KEY}\s*=\s*{_WHOLE}\s*[,;]?\s*(?P<next>[\w-]+\s*=.*)",
        "each key stands on a line of its own: {key} = {value}, and below it {next}",
    ),
    (r"Expected newline", rf"{_KEY}\s*=\s*{_WHOLE}\s*[;,.]+\s*(#.*)?", "nothing stands after a value: {key} = {value}"),
    (
        r"Expected newline",
        rf"{_KEY}\s*=\s*\"(?P<inside>[^\"]*\"[^\"=#]+\"[^\"]*)\"\s*(#.*)?",
        "quotes within quotes: {key} = '{inside}'",
    ),
    (r"Unclosed inline|Expected|Invalid", r".*\{[^}]*", "a table in braces stands on one line, from {{ to }}"),
    (
        r"Unclosed|Expected|Invalid value",
        rf".*[{{,]\s*{_KEY}\s*=\s*(?P<bare>-?\d[\d.]*\s*(?:[\s/,'’-]\s*\d+\s*(?:/\s*\d+)?|mm|cm|in|ft|″|′)[^,\"}}]*)[,}}].*",
        'a length with a fraction or a unit stands in quotes: {key} = "{bare}"',
    ),
    (
        r"Unclosed array|Unclosed inline",
        r".*",
        "a bracket is opened and not closed before this line{opened}; close it with ] or }}, commas between",
    ),
    (r"", rf"\s*{_KEY}\s*:(?!\d)\s*(?P<value>.*)", "between a key and its value stands =, not a colon: {key} = {value}"),
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
        r"Invalid value",
        rf"\s*{_KEY}\s*=\s*(?P<count>{'|'.join(_COUNTS)})\s*(#.*)?",
        "a number is written in figures: {key} = {figure}",
    ),
    (
        r"",
        rf"\s*{_KEY}\s*=\s*(?P<bare>-?[\d.][\d.,' /_-]*\d?\s*(?:mm|cm|m|in|inch|inches|ft|\"|'|″|′)?[^\"#\[{{]*?)\s*(#.*)?",
        'a length with a fraction or a unit stands in quotes: {key} = "{bare}"',
    ),
    (r"", rf"\s*{_KEY}\s*=\s*(?P<bare>[^\W\d][^\"'=#\[{{]*?)\s*(#.*)?", 'words stand in quotes: {key} = "{bare}"'),
    (
        r"Expected '='",
        r"\s*(?P<first>[\w-]+)\s+(?P<second>[\w-]+)\s*=.*",
        "a key is one word, with hyphens: {first}-{second} = ...",
    ),
    (r"Expected '='", r"(?P<key>[\w-]+)\s+(?P<value>[\"'\d\[{].*)", "= is missing: {key} = {value}"),
    (
        r"Expected '='",
        r"(?P<key>[\w-]+)\s*(#.*)?",
        "nothing says what {key} is; write {key} = and its value, or leave the line out",
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
        "heading": lambda: _heading(groups.get("name", "")),
        "commas": lambda: ", ".join(re.findall(r"\d+", groups.get("list", ""))),
        "figure": lambda: str(_COUNTS.index(groups["count"]) + 1),
        "between": lambda: (
            ", or write the heading that is missing between them" if any(one.startswith("[") for one in rows[:line]) else ""
        ),
        "opened": lambda: _opened(rows, line),
        "first": lambda: _first(groups.get("key") or groups.get("name", ""), rows, line),
    }
    made = {name: make() for name, make in makers.items() if f"{{{name}}}" in sentence and name not in groups}
    return sentence.format(**groups, **made)


def _heading(text: str) -> str:
    """The heading as it is written: two brackets for one of many, ``[stock.birch-12]`` with a point and hyphens."""
    words = text.replace(".", " ").split()
    if words[:1] == ["stock"] and len(words) > 1:
        return f"[stock.{'-'.join(words[1:])}]"
    whole = text if "." in text else "-".join(words)
    return f"[[{whole}]]" if whole in _MANY else f"[{whole}]"


def _opened(rows: Sequence[str], line: int) -> str:
    """Where the bracket was opened, of which the line before tells that it is not closed."""
    for n in range(min(line, len(rows)) - 1, -1, -1):
        value = rows[n].partition("=")[2] or rows[n]
        if value.count("[") > value.count("]") or value.count("{") > value.count("}"):
            return f", in line {n + 1}" if n + 1 < line else ""
    return ""


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
