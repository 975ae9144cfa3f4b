"""Tables within tables: each is checked when one is met, and as if it were checked with the whole."""

from typing import get_args, get_type_hints

import pytest

from joinlay.errors import Troubles
from joinlay.jobs.reader import read_job
from joinlay.jobs.tables.file import JobFile
from joinlay.jobs.tables.given import Entry
from joinlay.jobs.tables.within import _Within
from tests.unit.jobs.jobs import GOOD


def _every(kind):
    for own in kind.__subclasses__():
        yield own
        yield from _every(own)


def _bare(hint, is_within=False):
    """The tables in the type of a key that would be made ready with the table around them."""
    if isinstance(hint, type) and issubclass(hint, Entry):
        return [] if is_within else [hint.__name__]
    within = any(isinstance(part, _Within) for part in getattr(hint, "__metadata__", ()))
    return [name for part in get_args(hint) for name in _bare(part, within)]


def test_no_table_is_made_ready_before_one_is_met():
    assert JobFile in _every(Entry)
    tables = list(dict.fromkeys(_every(Entry)))
    assert sum(_Within.__name__ in repr(get_type_hints(table, include_extras=True)) for table in tables) > 5
    found = {table.__name__: names for table in tables for names in _bare_keys(table)}
    # A row may be a bare number too, so it is made ready with its bank.
    assert found == {"BankEntry": ["RowEntry"]}


def _bare_keys(table):
    hints = get_type_hints(table, include_extras=True)
    return [names for key in table.model_fields if (names := _bare(hints[key]))]


def test_what_is_wrong_in_one_is_told_where_it_stands():
    wrong = GOOD + '\n[shop.glue]\nopen-time = "soon"\n\n[seasons.driest]\nhumidty = "30 %"\n'
    with pytest.raises(Troubles) as found:
        read_job(wrong, "chest.toml")
    places = {(trouble.line, trouble.where) for trouble in found.value.troubles}
    lines = wrong.splitlines()
    assert {lines[line - 1].split(" = ")[0] for line, _ in places} == {"open-time", "humidty"}
    assert all("glue" in where or "driest" in where for _, where in places)
