"""Wood is measured in exact numbers: no float on any floor that works out a size or a place."""

import ast

from tests.house.source import modules, modules_of, nodes

#: Floors that hold sizes and places of wood. `checks` and `pages` work with loads and with ink as well, `documents` and `cli`
#: only show.
EXACT_FLOORS = (
    "assembly",
    "boards",
    "casework",
    "cutlist",
    "errors",
    "findings",
    "geometry",
    "jobs",
    "joints",
    "lengths",
    "paper",
    "pen",
    "pictures",
    "settings",
    "shop",
    "stock",
    "templates",
)

#: Where a float may stand on those floors, and why.
ALLOWED = {
    "joinlay/cutlist/search.py": "how often a change is tried is no size",
    "joinlay/errors/__init__.py": "how alike two names look is no size",
    "joinlay/lengths/length.py": "floats are named here to be refused",
    "joinlay/stock/movement.py": "moisture from weather is physics",
}

#: What `math` has that gives whole numbers or takes exact ones.
EXACT_MATH = {"ceil", "comb", "floor", "gcd", "isqrt", "lcm", "prod"}


def floats_in(tree):
    """The lines and words of a module where a float is written, made or asked for."""
    for node in nodes(tree):
        match node:
            case ast.Constant(value=float() | complex() as value):
                yield node.lineno, repr(value)
            case ast.Name(id="float"):
                yield node.lineno, "float"
            case ast.ImportFrom(module="math", names=names):
                yield from ((node.lineno, f"math.{name.name}") for name in names if name.name not in EXACT_MATH)
            case ast.Attribute(value=ast.Name(id="math"), attr=attr) if attr not in EXACT_MATH:
                yield node.lineno, f"math.{attr}"
            case ast.BinOp(op=ast.Div(), left=ast.Constant(), right=ast.Constant()):
                yield node.lineno, ast.unparse(node)
            case ast.Import(names=names) if any(name.name.split(".")[0] in {"numpy", "scipy", "cmath"} for name in names):
                yield node.lineno, ast.unparse(node)


def test_the_search_finds_every_way_to_write_a_float():
    written = "x = 0.5\nfrom math import sqrt, ceil\nimport math\ny = math.pi\nz: float = 1 / 2\nimport numpy\nw = 1j"
    assert [word for _, word in sorted(floats_in(ast.parse(written)))] == [
        "0.5", "math.sqrt", "math.pi", "1 / 2", "float", "import numpy", "1j",
    ]  # fmt: skip


def test_no_float_where_wood_is_measured():
    found = [
        f"{path}:{line}: {word}"
        for path, tree in modules_of(*EXACT_FLOORS).items()
        if path not in ALLOWED
        for line, word in floats_in(tree)
    ]
    assert found == []


def test_every_allowance_is_still_needed():
    needed = {path for path, tree in modules_of(*EXACT_FLOORS).items() if any(floats_in(tree))}
    assert set(ALLOWED) <= needed


def test_fractions_are_taken_from_one_place():
    taken = {
        path
        for path, tree in modules().items()
        for node in nodes(tree)
        if (isinstance(node, ast.ImportFrom) and node.module in {"fractions", "quicktions"})
        or (isinstance(node, ast.Import) and {"fractions", "quicktions"} & {name.name for name in node.names})
    }
    assert taken == {"joinlay/lengths/fraction.py"}


def texts_read_by_fraction(tree):
    """The lines where ``Fraction`` is given text, or is itself given to what may give it some: only ``fraction_in`` reads
    text.
    """
    for node in nodes(tree):
        if not isinstance(node, ast.Call):
            continue
        given = [*node.args, *(word.value for word in node.keywords)]
        if isinstance(node.func, ast.Name) and node.func.id == "Fraction":
            if any(
                isinstance(one, ast.JoinedStr) or (isinstance(one, ast.Constant) and isinstance(one.value, str)) for one in given
            ):
                yield node.lineno
        elif getattr(node.func, "id", "") != "isinstance" and any(
            isinstance(one, ast.Name) and one.id == "Fraction" for one in given
        ):
            yield node.lineno


def test_text_is_read_as_a_fraction_in_one_place():
    written = (
        "a = Fraction('1/2')\nb = map(Fraction, words)\nc = Fraction(f'{n}')\nd = Fraction(1, 2)\ne = isinstance(d, Fraction)"
    )
    assert list(texts_read_by_fraction(ast.parse(written))) == [1, 2, 3]
    assert [f"{path}:{line}" for path, tree in modules().items() for line in texts_read_by_fraction(tree)] == []
