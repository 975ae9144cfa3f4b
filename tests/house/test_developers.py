"""DEVELOPERS.md is true: every file, function and name on it is there, and the length it follows has the figures it gives."""

import ast
import re
from functools import cache

import joinlay
from joinlay.cutlist.lists import all_lists
from joinlay.pages.list_sheets import cutting_list_sheets
from joinlay.paper import paper_named
from joinlay.pen.marks import Text
from tests.house.source import ROOT, modules, nodes

PAGE = "DEVELOPERS.md"


@cache
def text():
    return (ROOT / PAGE).read_text(encoding="utf-8")


def code_words(line):
    """What is set as code in a line that isn't itself code, without what stands for another word (``<joint>``, ``*``)."""
    words = [] if line.startswith("    ") else re.findall(r"`([^`]+)`", line)
    return [word for word in words if not re.search(r"[<>*]|\.\.\.", word)]


def is_path(word):
    return bool(re.fullmatch(r"[\w./-]*(/|\.(py|toml|md|pdf|csv|svg|json))[\w./-]*", word)) and not word.startswith(".")


def is_there(path):
    """True for a path from the root or from the package, and for the name alone of a file at the root or of a module."""
    if "/" not in path:
        return (ROOT / path).is_file() or any(name.endswith(f"/{path}") for name in modules())
    return any((base / path).exists() for base in (ROOT, ROOT / "joinlay"))


def module_at(path):
    return next((tree for name, tree in modules().items() if name in (path, f"joinlay/{path}")), None)


@cache
def names_in(tree):
    """Everything a module gives a name to: functions, classes, what is in them, and what is assigned."""
    found = {node.name for node in nodes(tree) if isinstance(node, ast.FunctionDef | ast.ClassDef)}
    found |= {node.id for node in nodes(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)}
    for node in tree.body:
        if isinstance(node, ast.ClassDef):
            inner_names = {one.name for one in node.body if isinstance(one, ast.FunctionDef)}
            inner_names |= {one.id for one in ast.walk(node) if isinstance(one, ast.Name) and isinstance(one.ctx, ast.Store)}
            found |= {f"{node.name}.{name}" for name in inner_names}
    return found


@cache
def all_names():
    """Every name of the product, and what it takes from elsewhere."""
    taken = {
        name.name
        for tree in modules().values()
        for node in nodes(tree)
        if isinstance(node, ast.ImportFrom)
        for name in node.names
    }
    return taken.union(*map(names_in, modules().values()))


def untrue_in(page):
    """What a page names and isn't there. A function after a file on the same line must be that file's."""
    for line in page.splitlines():
        at = None
        for word in code_words(line):
            called = re.fullmatch(r"([\w.]+)\(\)", word)
            if called:
                known = all_names() if at is None else names_in(at)
                if called[1] not in known:
                    yield word
            elif is_path(word):
                at = module_at(word)
                if not is_there(word):
                    yield word
            elif re.fullmatch(r"_?[A-Z]\w*[^_\W](\.\w+)?", word) and word not in all_names():
                yield word


def test_every_file_function_and_name_on_the_page_is_there():
    assert list(untrue_in(text())) == []


def test_what_is_not_there_is_found():
    page = (
        "`joinlay/nowhere.py`, `nowhere.py`, `tests/none/`, `no_such()`, `NoSuchClass`, `Plan.no_such()`, `ORDERS`\n"
        "`joinlay/jobs/plan.py` `read_source()`\n"
        "| `joinlay/jobs/source.py` `read_source()` | `jobs/plan.py` `Plan.dimensions()`, `Plan`, `plan.py`, "
        "`ORDER`, `PartKind.DRAWER_FRONT` |\n"
    )
    assert list(untrue_in(page)) == [
        "joinlay/nowhere.py",
        "nowhere.py",
        "tests/none/",
        "no_such()",
        "NoSuchClass",
        "Plan.no_such()",
        "ORDERS",
        "read_source()",
    ]


def test_the_page_names_every_floor_once():
    rows = re.findall(r"^\| ((?:`\w+`(?:, )?)+) \|", text().split("## The floors")[1].split("##")[0], re.MULTILINE)
    floors = [name for row in rows for name in re.findall(r"\w+", row)]
    there = {path.split("/")[1].removesuffix(".py") for path in modules()} - {"__init__", "__main__"}
    assert sorted(floors) == sorted(there)


def test_the_length_that_is_followed_has_these_figures(monkeypatch):
    monkeypatch.chdir(ROOT)
    part = text().split("## One length")[1].split("\n## ")[0]
    rows = [row for row in part.splitlines() if row.startswith("| `")]
    plan = joinlay.plan(joinlay.read("examples/print-chest.toml"))
    known = plan.dimensions()
    told = re.findall(r"`([^`]+)` = ([\d /]+ in)", part)
    assert len(told) >= 5
    assert [(name, plan.rule.text(known[name])) for name, _ in told] == told
    last = told[-1][1].removesuffix(" in")
    assert plan.rule.text(plan.drawers[2].front.length) == f"{last} in"
    on_paper = re.search(r"\| ([\d /]+) \|$", next(row for row in rows if "cutting_list_sheets" in row))
    assert on_paper is not None
    assert on_paper[1] == last
    sheets = cutting_list_sheets(plan, all_lists(plan), paper_named(plan.paper))
    assert on_paper[1] in {stroke.plain for sheet in sheets for stroke in sheet.strokes if isinstance(stroke, Text)}
