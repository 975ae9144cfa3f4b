"""What the house tests look at: the package's modules as text and as trees, and the files kept in the repository."""

import ast
import subprocess
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

#: Folders that hold nothing of ours when there is no git to ask.
_NOT_OURS = {
    ".git",
    ".venv",
    ".hypothesis",
    ".pytest_cache",
    ".mypy_cache",
    ".ruff_cache",
    ".import_linter_cache",
    ".benchmarks",
    "__pycache__",
}


@cache
def paths():
    """Every module of the package by its path under the root, in order; quick, for the names of tests."""
    return tuple(path.relative_to(ROOT).as_posix() for path in sorted((ROOT / "joinlay").rglob("*.py")))


def floors():
    """The names of the floors: folders of the package, and modules that stand alone beside them."""
    return sorted({path.split("/")[1] for path in paths()})


@cache
def modules():
    """Every module of the package, by its path under the root (``joinlay/lengths/length.py``), as a tree."""
    return {path: ast.parse((ROOT / path).read_text(encoding="utf-8")) for path in paths()}


@cache
def nodes(tree):
    """Every node of a module's ``tree``: a dozen tests ask each tree for them, and to walk one takes longer than to read it."""
    return tuple(ast.walk(tree))


def modules_of(*floors):
    """The modules of some floors, by path."""
    return {path: tree for path, tree in modules().items() if path.split("/")[1].removesuffix(".py") in floors}


@cache
def kept_files():
    """Every file that is kept in the repository: those git knows, or, in an unpacked archive, all that isn't made by a tool."""
    if (ROOT / ".git").exists():
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
        return tuple(ROOT / name for name in listed.split("\0") if name and (ROOT / name).is_file())
    return tuple(
        path
        for path in sorted(ROOT.rglob("*"))
        if path.is_file() and not any(part in _NOT_OURS or part.endswith(".egg-info") for part in path.relative_to(ROOT).parts)
    )


def functions_and_classes(tree):
    """Every public function and class of a module that stands at its top or in a public class, with the class it stands in or
    None.
    """
    for node in tree.body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef) and not node.name.startswith("_"):
            yield node, None
            if isinstance(node, ast.ClassDef):
                yield from (
                    (inner, node) for inner in node.body if isinstance(inner, ast.FunctionDef) and not inner.name.startswith("_")
                )
