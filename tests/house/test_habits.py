"""Habits of the repository: names, sizes of modules, words that have no place here, and what stands at the top."""

import ast
import re

import pytest

from tests.house.source import ROOT, kept_files, modules, nodes, paths

TOP = {"README.md", "DEVELOPERS.md", "pyproject.toml", "joinlay", "tests", "templates_out", "examples"}

#: Words that have no place in a kept file. The letters in brackets keep this list from finding itself.
UNWANTED = re.compile(
    r"\b(?:[T]ODO|[F]IXME|[X]XX|[N]otImplementedError)\b"
    r"|(?i:\b(?:[a]gents?|[p]rompt(?:s|ed|ing)?|[k]itchens?|[l]inens?|[h]elpers?|[s]essions?|[s]eed doc\w*|[c]hatbots?)\b)"
    r"|/work/[s]hared",
)

#: Marks that silence a checker or a test.
SILENCED = re.compile(r"pytest\.mark\.([s]kip|[x]fail)|pytest\.([s]kip|[x]fail|[i]mportorskip)\(|# *type: *[i]gnore|# *[n]oqa")


def text_of(path):
    """The words of a kept file, '' for one that isn't text."""
    try:
        return path.read_text(encoding="utf-8")
    except UnicodeDecodeError:
        return ""


def lines_with(pattern):
    """Where ``pattern`` is found in the kept files."""
    return [
        f"{path.relative_to(ROOT)}:{number}: {line.strip()[:120]}"
        for path in kept_files()
        for number, line in enumerate(text_of(path).splitlines(), 1)
        if pattern.search(line)
    ]


def test_words_that_have_no_place_here():
    assert lines_with(UNWANTED) == []


def test_nothing_is_silenced():
    assert lines_with(SILENCED) == []


def test_only_the_fixed_names_stand_at_the_top():
    at_the_top = {path.relative_to(ROOT).parts[0] for path in kept_files()}
    assert {name for name in at_the_top if not name.startswith(".")} <= TOP


@pytest.mark.parametrize("path", paths())
def test_a_module_is_read_in_one_sitting(path):
    """One idea, one file: 100 to 400 lines are usual, and which ideas belong together is judged, not counted. Far past that
    there are two.
    """
    lines = (ROOT / path).read_text(encoding="utf-8").count("\n")
    assert lines <= 500


def test_no_module_is_a_drawer_for_odds_and_ends():
    odd = re.compile(r"(utils?|[h]elpers?|manager|common|misc|stuff|tools_misc)$")
    assert [path for path in paths() if any(odd.fullmatch(part.removesuffix(".py")) for part in path.split("/"))] == []


def test_no_text_shows_a_length_as_a_fraction_of_a_millimetre():
    """``127/32 mm`` is no way to say a length: errors say it with ``plain_mm``, findings on the maker's rule."""
    raw = re.compile(r"\{[^{}]*\.mm\} ?mm|\{[^{}]*\.mm\} (to|by) ")
    assert [path for path in paths() if raw.search((ROOT / path).read_text(encoding="utf-8"))] == []


#: What reads a file, a clock or the environment; only the top floors may.
OUTSIDE = {"open", "input", "print"}
OUTSIDE_MODULES = {
    "os",
    "io",
    "time",
    "datetime",
    "random",
    "secrets",
    "tempfile",
    "shutil",
    "subprocess",
    "socket",
    "platform",
    "locale",
    "logging",
}


def reaches_outside(tree):
    """Lines of a module that read or write something outside it."""
    for node in nodes(tree):
        match node:
            case ast.Call(func=ast.Name(id=name)) if name in OUTSIDE:
                yield node.lineno, name
            case ast.Import(names=names):
                yield from ((node.lineno, name.name) for name in names if name.name.split(".")[0] in OUTSIDE_MODULES)
            case ast.ImportFrom(module="random", names=[ast.alias(name="Random")]):
                continue  # seeded by its caller, so the same every time
            case ast.ImportFrom(module=str(module)) if module.split(".")[0] in OUTSIDE_MODULES:
                yield node.lineno, module
            case ast.Call(func=ast.Attribute(attr="read_text" | "write_text" | "read_bytes" | "write_bytes" | "open" as name)):
                yield node.lineno, name


def test_nothing_below_the_top_floors_touches_the_world_outside():
    found = [
        f"{path}:{line}: {word}"
        for path, tree in modules().items()
        if path.split("/")[1] not in {"cli", "bench", "documents"}
        for line, word in reaches_outside(tree)
    ]
    assert found == []


def test_the_search_for_the_world_outside_finds_it():
    written = (
        "import os\nfrom datetime import date\nfrom random import Random\nfrom random import "
        "shuffle\nprint(open('x'))\np.read_text()"
    )
    assert sorted(word for _, word in reaches_outside(ast.parse(written))) == [
        "datetime",
        "open",
        "os",
        "print",
        "random",
        "read_text",
    ]
