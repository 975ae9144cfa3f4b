"""Every limit that a check judges by, literally, beside its source; and that no table or limit of these floors is missed here.

Those of the practice, machines, stock and paper stand in test_every_default.py, those of the woods in test_wood_handbook.py.
"""

import ast
import re
from fractions import Fraction
from importlib import import_module
from pathlib import Path

import pytest

import joinlay
from joinlay.lengths import Length, inches, mm

KG_PER_POUND = 0.45359237
F = Fraction

#: By module of the product, then by name: the figure. Our own choice unless told.
LIMITS: dict[str, dict[str, object]] = {
    "assembly.blocking": {"RUBBED": 25},  # mm, common practice
    "assembly.edge_joints": {"MORE_BOARDS": 3, "NARROWEST": Length(F("38.1"))},
    "assembly.glue_ups": {"_MOST_RUNS": 2, "_MOST_SMALL": 16},
    "assembly.timetable": {"_PAUSE": 15},
    "casework.runner_fastening": {"_SHARE": 2, "_TWICE": 2},
    "checks.clashes": {"_BETWEEN_FACES": F(1, 3), "_HAIR": mm("0.001")},
    # The standard acceleration of gravity, and the international pound: exact by definition.
    "checks.conditions": {"GRAVITY": 9.80665, "_KG_PER_POUND": 0.45359237},
    # Wood Handbook 2010, ch. 5, from memory: 18 to 28 % of 10 N/mm2 along the grain. The jerk is our own choice.
    "checks.corner_strength": {"GLUE_SHEAR": (1.8, 2.8), "_JERK": 3.0},
    # Years of load: Wood Handbook 2010, ch. 5. Poisson's ratio as in Timoshenko's table of plates.
    "checks.plates": {"CREEP": 2.0, "_POISSON": 0.3},
    "checks.play": {"OUT": F(2, 3), "LOOSE": mm(5), "_DROOPS": mm(6)},
    # Friction of wood on wood: common practice.
    "checks.racking": {"FRICTION": {"waxed": F(1, 5), "planed": F(7, 20), "rough": F(1, 2)}, "_USEFUL": F(1, 2)},
    "checks.sag": {"LEAST_BOTTOM": mm(3)},
    # 0.02 in a foot: common practice.
    "checks.shelf_sag": {"SEEN": F(1, 600)},
    # A child of 60 lb, to warn by: no standard's test. Low and light: compare the scope of ASTM F2057.
    "checks.tipping": {
        "CHILD": 60 * KG_PER_POUND, "AS_FAR": F(9, 10), "NEAR": 0.8, "LOW": inches(27), "LIGHT": 30 * KG_PER_POUND,
    },
    "checks.walls": {"_CHANNEL_FLOOR": F(1, 4), "_HOLE_WALL": F(1, 2)},
    "checks.weights": {"_UNKNOWN": 650.0},
}  # fmt: skip

#: No limits of the trade: how finely it is reckoned, how much is told, and pages that only speak of figures.
NONE = {"CONTACT", "MACHINE_FIGURES", "MOVEMENT_SOURCE", "ON_BUYING", "ON_CHECKS", "ON_MAKING", "ORDER"}


@pytest.mark.parametrize(("module", "name"), [(module, name) for module, held in LIMITS.items() for name in held])
def test_a_limit_is_what_its_source_says(module, name):
    found = getattr(import_module(f"joinlay.{module}"), name)
    assert found == (pytest.approx(LIMITS[module][name]) if isinstance(found, float) else LIMITS[module][name])


def constants():
    """The public constants of a floor that hold figures, with their modules."""
    root = Path(joinlay.__file__).parent
    for floor in ("shop", "stock", "checks", "joints", "assembly"):
        for path in sorted((root / floor).rglob("*.py")):
            for node in ast.parse(path.read_text(encoding="utf-8")).body:
                if isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name) and node.value is not None:
                    figures = [each.value for each in ast.walk(node.value) if isinstance(each, ast.Constant)]
                    if node.target.id.isupper() and any(re.search(r"\d", str(each)) for each in figures):
                        yield ".".join(path.relative_to(root).with_suffix("").parts), node.target.id


def test_no_public_table_or_limit_is_missed():
    """Each is asserted here, or stands by its name in another file of these tests."""
    other = " ".join(path.read_text(encoding="utf-8") for path in Path(__file__).parent.glob("*.py") if path != Path(__file__))
    found = [(module, name) for module, name in constants() if not name.startswith("_")]
    assert len(found) > 25
    missed = [
        (module, name)
        for module, name in found
        if name not in LIMITS.get(module, {}) and name not in NONE and not re.search(rf"\b{name}\b", other)
    ]
    assert missed == []
