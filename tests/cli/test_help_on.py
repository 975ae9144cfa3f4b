"""``joinlay help-on``: a page about one kind of finding."""

from joinlay.checks.help_on import PAGES
from tests.cli.running import run


def test_a_page_on_a_kind_of_finding(capsys):
    ran = run(capsys, "help-on", "racking")
    assert ran.code == 0
    assert "CK-2" in ran.out
    assert "What helps:" in ran.out


def test_tipping_begins_with_its_caution(capsys):
    assert run(capsys, "help-on", "tipping").out.startswith("Caution: ")


def test_without_a_kind_every_page_is_named(capsys):
    assert run(capsys, "help-on").out.split("\n")[: len(PAGES)] == list(PAGES)


def test_a_page_that_is_not_there_is_answered_with_near_ones(capsys):
    ran = run(capsys, "help-on", "rackin")
    assert ran.code == 2
    assert "racking" in ran.err
