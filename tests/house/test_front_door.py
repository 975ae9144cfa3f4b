"""``import joinlay``: what programs get, the examples in its data sheets, and that nothing is fetched before it is asked for."""

import doctest
import subprocess
import sys
from fractions import Fraction
from importlib import resources
from typing import assert_type

import pytest

import joinlay
from tests.house.source import ROOT
from tests.making import made_once
from tests.odd_pieces import odd_piece

EXAMPLE = ROOT / "examples" / "moth-cabinet.toml"


def test_the_examples_in_the_data_sheets_say_what_they_say(monkeypatch):
    monkeypatch.chdir(ROOT)
    with made_once():
        tried = doctest.testmod(joinlay, extraglobs={"joinlay": joinlay})
    assert tried.failed == 0
    assert tried.attempted > 15


def test_from_a_file_to_a_packet_with_types_that_hold():
    job = assert_type(joinlay.read(EXAMPLE), joinlay.Job)
    worked_out = assert_type(joinlay.plan(job), joinlay.Plan)
    with made_once():
        packet = assert_type(joinlay.packet(worked_out), joinlay.Packet)
    front = assert_type(worked_out.drawers[0], joinlay.Drawer).board("front")
    assert_type(assert_type(front, joinlay.Board).cuts[0], joinlay.Cut)
    assert Fraction(assert_type(front.length, joinlay.Dimension).mm) > 0
    assert assert_type(worked_out.findings[0], joinlay.Finding).harm in joinlay.Harm
    assert packet.title == job.title == "Moth cabinet"
    assert packet.sheets[-1].number == len(packet.sheets)


def test_what_would_mend_a_job_is_tried_before_it_is_given(tmp_path):
    job = tmp_path / "odd.toml"
    job.write_text(odd_piece("top rail too low"), encoding="utf-8")
    proposed = joinlay.plan(joinlay.read(job)).findings[0]
    checked = assert_type(joinlay.check(job), joinlay.Plan)
    (remedy,) = assert_type(checked.findings[0].remedies, tuple[joinlay.Remedy, ...])
    assert [(change.table, change.key, change.value) for change in assert_type(remedy.changes, tuple[joinlay.Change, ...])] == [
        ("frame", "top-rail", "2")
    ]
    assert len(proposed.remedies) > 1
    assert remedy in proposed.remedies


def test_what_cannot_be_read_is_an_error_of_its_own(tmp_path):
    (tmp_path / "a.toml").write_text("titel = 1\n[stock.a]\nnominal = true\n")
    with pytest.raises(joinlay.Troubles) as caught:
        joinlay.read(str(tmp_path / "a.toml"))
    assert isinstance(caught.value, joinlay.JoinlayError)
    troubles = assert_type(caught.value.troubles, tuple[joinlay.Trouble, ...])
    assert [(trouble.line, trouble.where) for trouble in troubles][1:] == [(1, ""), (3, "stock a, nominal")]
    with pytest.raises(joinlay.BadInput, match="no file"):
        joinlay.read(tmp_path / "b.toml")


def test_every_name_that_is_given_is_there_and_no_other():
    assert set(joinlay.__all__) <= set(dir(joinlay))
    for name in joinlay.__all__:
        assert getattr(joinlay, name) is not None
    unknown = "cutter"
    with pytest.raises(AttributeError, match="no attribute 'cutter'"):
        getattr(joinlay, unknown)


def test_nothing_is_fetched_before_it_is_asked_for():
    code = (
        "import sys, joinlay\n"
        "before = sorted(name for name in sys.modules if name.startswith('joinlay'))\n"
        "joinlay.Length\n"
        "print(before, 'joinlay.lengths' in sys.modules, 'pydantic' in sys.modules)"
    )
    ran = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert ran.stdout == "['joinlay'] True False\n"


def test_the_types_are_said_to_be_there():
    assert (resources.files(joinlay) / "py.typed").is_file()
    assert '"py.typed"' in (ROOT / "pyproject.toml").read_text(encoding="utf-8")
