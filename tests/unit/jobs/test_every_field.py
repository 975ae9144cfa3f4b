"""Every field of a job file, found by walking its schema: whatever stands there is answered in short, whole lines.

What a file holds may come from anybody. A line end in a value may not forge a second message, nor a sign that moves the cursor
or turns letters round (Unicode Standard Annex 9) make one read as another; a page of letters may not drown the answer; and a
list is refused by its length before work is done with what is in it.
"""

import json
import tomllib

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job
from joinlay.jobs.schema import job_schema
from tests.unit.jobs.jobs import GOOD

SCHEMA = job_schema()
HOSTILE = f"\x1b[2J\x9b1m\u202e a\nchest.toml:1: all is well\r\n\x07\u2028\u200b{'x' * 900}"
#: The longest line an answer may have: a place, what was given, what would do.
LONGEST = 600
#: What stands under a name of the maker's own.
NAMED = {("stock",): {"nominal": "3/4"}, ("prices", "of"): "3.50"}
#: Leaves that take anything, since they change nothing.
SILENT = {("schema",)}


def kinds(found):
    """A schema as each of the ways that may stand for it, references followed."""
    while "$ref" in found:
        found = {**SCHEMA["$defs"][found["$ref"].rsplit("/", 1)[1]], **{k: v for k, v in found.items() if k != "$ref"}}
    if "anyOf" in found:
        for one in found["anyOf"]:
            yield from kinds(one)
    else:
        yield found


def places(found=SCHEMA, path=()):
    """(what, path, schema) of every table, list and leaf; '*' in a path is a name of the maker's own."""
    for one in kinds(found):
        if "properties" in one or isinstance(one.get("additionalProperties"), dict):
            yield "table", path, one
            for key, inner in one.get("properties", {}).items():
                yield from places(inner, (*path, key))
            if isinstance(one.get("additionalProperties"), dict):
                yield from places(one["additionalProperties"], (*path, "*"))
        elif one.get("type") == "array":
            yield "list", path, one
            yield from places(one["items"], (*path, 0))
        else:
            yield "leaf", path, one


def of(kind):
    return {path: one for what, path, one in places() if what == kind}


LEAVES, LISTS, TABLES = of("leaf"), of("list"), of("table")


def literal(value):
    """A value as TOML writes it on one line."""
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{json.dumps(key)} = {literal(inner)}" for key, inner in value.items()) + " }"
    if isinstance(value, list):
        return f"[{', '.join(map(literal, value))}]"
    return json.dumps(value)


def put(within, path, value):
    """``within``, a table or list or nothing yet, with ``value`` at ``path``."""
    if not path:
        return value
    key, rest = "birch" if path[0] == "*" else path[0], path[1:]
    if key == 0:
        return [put(within[0] if isinstance(within, list) and within else None, rest, value)]
    table = within if isinstance(within, dict) else {}
    return {**table, key: put(table.get(key), rest, value)}


def job(*values):
    """The text of the good job with every (path, value) set in it."""
    tree = tomllib.loads(GOOD)
    for path, value in values:
        tree = put(tree, path, value)
    return "".join(f"{json.dumps(key)} = {literal(value)}\n" for key, value in tree.items())


def answer(text):
    """What is said of a job, line by line: each short, of signs that can be seen, and about a line of this file."""
    with pytest.raises(Troubles) as bad:
        read_job(text, "chest.toml")
    lines = str(bad.value).split("\n")
    assert [ascii(line) for line in lines if not line.isprintable() or len(line) > LONGEST] == []
    assert [line for line in lines if not line.startswith("chest.toml:") or "chest.toml:1: all is" in line[:24]] == []
    return lines


@pytest.mark.parametrize("value", [HOSTILE, "\u202e12", [HOSTILE], {HOSTILE: HOSTILE}], ids=["text", "turned", "list", "table"])
def test_whatever_stands_in_a_field_is_answered_in_short_whole_lines(value):
    assert len(LEAVES) > 400
    for table in TABLES:
        keys = sorted({path for path in LEAVES if path[:-1] == table and path not in SILENT}, key=str)
        # What bare numbers are in is answered alone; and no more than fifty things are told.
        for some in ([path] for path in keys) if not table else (keys[n : n + 40] for n in range(0, len(keys), 40)):
            told = answer(job(*((path, value) for path in some)))
            silent = [path for path in some if path[-1] != "*" and not any(f"{path[-1]}" in line for line in told)]
            assert (table, silent) == (table, [])


@pytest.mark.parametrize("name", [HOSTILE, "\u202ea", "x" * 2000, "\n", ""], ids=ascii)
def test_whatever_a_key_is_called_is_answered_so_too(name):
    assert len(TABLES) > 50
    for table in TABLES:
        answer(job(((*table, name), 1)))


def test_every_list_has_a_length_beyond_which_it_is_refused():
    limits = {path: one.get("maxItems") for path, one in LISTS.items()}
    limits |= {
        path: one.get("maxProperties") for path, one in TABLES.items() if isinstance(one.get("additionalProperties"), dict)
    }
    assert {path for path, most in limits.items() if most is None} == set()
    for path, most in limits.items():
        # Its length is told, and nothing of what is in it.
        many = [HOSTILE] * (most + 1) if path in LISTS else {f"n{n}": NAMED[path] for n in range(most + 1)}
        said = answer(job((path, many)))
        wanted = f"here; there must be at most {most}"
        assert any(f"there are {count} {wanted}" in line for line in said for count in (most + 1, "too many")), path
