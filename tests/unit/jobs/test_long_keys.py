"""A key of thousands of parts is answered at once: TOML's reader would take minutes over it."""

from time import perf_counter

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.source import read_source


@pytest.mark.parametrize(
    "text",
    [
        ".".join("a" * 100_000) + " = 1",
        "[" + " . ".join("a" * 100_000) + "]",
        "x = { " + ".".join("a" * 100_000) + " = 1 }",
        "a" * 900_000,
    ],
    ids=["key", "table", "in a line", "one word"],
)
def test_hostile_keys_take_no_time(text):
    start = perf_counter()
    with pytest.raises(Troubles, match=r"a\.toml:2: "):
        read_source(f"# a job\n{text}\n", "a.toml")
    assert perf_counter() - start < 2


def test_words_with_full_stops_are_no_key():
    source = read_source('title = "No. 1. A chest of drawers, ca. 1.5 m. wide, e.g. for a shop. Etc. Etc."\n', "a.toml")
    assert source.line(("title",)) == 1
