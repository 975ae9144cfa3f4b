"""README's commands are there, agree with what CI runs, and name commands and options that exist."""

import os
import re
import shlex
import sys
from contextlib import redirect_stderr, redirect_stdout
from functools import cache
from io import StringIO
from unittest.mock import patch

import pytest

from joinlay.cli import main
from tests.house.source import ROOT
from tests.making import made_once

README = ROOT / "README.md"

#: What sets up and runs the tests, as README and .ci/run both write it.
TEST_COMMAND = "python3 -m venv .venv && .venv/bin/pip install -q -e '.[dev]' && .venv/bin/python -m pytest"


def code_blocks(text):
    """The blocks of a page that are set as code, whether fenced or indented."""
    fenced = re.findall(r"^```[^\n]*\n(.*?)^```", text, re.MULTILINE | re.DOTALL)
    rest = re.sub(r"^```.*?^```", "", text, flags=re.MULTILINE | re.DOTALL)
    indented = re.findall(r"(?:^(?: {4}|\t)[^\n]*\n?)+", rest, re.MULTILINE)
    return [*fenced, *indented]


def commands(text):
    """Every call of joinlay in the code of a page, as its words."""
    lines = [line.strip() for block in code_blocks(text) for line in re.sub(r"\\\n", " ", block).splitlines()]
    calls = [call for line in lines for call in re.split(r"&&|;|\|", line)]
    words = [shlex.split(call, comments=True) for call in calls if re.match(r"\s*(do )?(\$ )?(\.venv/bin/)?joinlay\b", call)]
    return [tuple(call[next(n for n, word in enumerate(call) if word.endswith("joinlay")) + 1 :]) for call in words]


@cache
def pages():
    """The pages for people, by name."""
    return {name: (ROOT / name).read_text(encoding="utf-8") for name in ("README.md", "DEVELOPERS.md") if (ROOT / name).exists()}


@cache
def answer(*words):
    """What ``joinlay WORDS --help`` says, and its exit code."""
    said, code = StringIO(), 0
    plain = patch.dict(os.environ, {"COLUMNS": "200", "NO_COLOR": "1"})
    with redirect_stdout(said), redirect_stderr(StringIO()), plain, patch.object(sys, "argv", ["joinlay", *words, "--help"]):
        try:
            main()
        except SystemExit as done:
            code = int(done.code or 0)
    return code, said.getvalue()


def test_command_one_sets_up_and_makes_an_example():
    blocks = [block for block in code_blocks(README.read_text(encoding="utf-8")) if "venv" in block and "joinlay make" in block]
    assert blocks, "README has no command that sets up and makes an example"
    made = [
        words
        for words in commands(README.read_text(encoding="utf-8"))
        if words[:1] == ("make",) and words[1].startswith("examples/")
    ]
    assert made
    assert all((ROOT / words[1]).is_file() for words in made)


def test_command_two_sets_up_and_runs_the_tests():
    blocks = code_blocks(README.read_text(encoding="utf-8"))
    assert any(TEST_COMMAND in " ".join(block.split()) for block in blocks)


def test_ci_begins_with_readmes_test_command():
    lines = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    doing = [line for line in lines if line.strip() and not line.lstrip().startswith(("#", "set ", "cd ", "say", "export "))]
    first = doing[next(n for n, line in enumerate(doing) if "venv" in line)]
    assert TEST_COMMAND in first
    assert not any(re.match(r"\S*(ruff|mypy|lint-imports)", line) for line in doing[: doing.index(first)])


@pytest.mark.parametrize("page", ["README.md", "DEVELOPERS.md"])
def test_every_command_on_a_page_exists_with_its_options(page):
    assert page in pages(), f"{page} is missing"
    found = commands(pages()[page])
    assert found
    for words in found:
        called: list[str] = []
        for word in words:
            if answer(*called, word)[0] != 0:
                break
            called.append(word)
        assert called or words[:1] == ("--help",), f"joinlay has no command {words[0]!r}"
        said = answer(*called)[1]
        options = {word.split("=")[0] for word in words if word.startswith("--")}
        missing = {option for option in options if not re.search(rf"{re.escape(option)}\b", said)}
        assert not missing, f"joinlay {' '.join(called)} has no {missing}"


def test_calls_are_found_however_they_are_set():
    page = """text

    joinlay make examples/a.toml  # out
    for job in *.toml; do joinlay make $job; done

```sh
python3 -m venv .venv && .venv/bin/joinlay check \\
  b.toml --json
$ joinlay why x.toml
```
"""
    assert commands(page) == [
        ("check", "b.toml", "--json"), ("why", "x.toml"), ("make", "examples/a.toml"), ("make", "$job"),
    ]  # fmt: skip


def test_pictures_on_the_pages_are_kept():
    linked = [
        target for text in pages().values() for target in re.findall(r"!?\[[^\]]*\]\(([^)#]+)\)|<img[^>]*src=\"([^\"]+)\"", text)
    ]
    local = [a or b for a, b in linked if not re.match(r"[a-z]+:", a or b)]
    assert [name for name in local if not (ROOT / name).exists()] == []


def test_the_python_on_the_page_says_what_it_says_it_does(capsys, monkeypatch):
    block = next(block for block in code_blocks(README.read_text(encoding="utf-8")) if "import joinlay" in block)
    monkeypatch.chdir(ROOT)
    with made_once():
        exec(compile(block, "README.md", "exec"), {})
    assert capsys.readouterr().out.splitlines() == re.findall(r"^print\(.*\)  # (.*)$", block, re.MULTILINE)
