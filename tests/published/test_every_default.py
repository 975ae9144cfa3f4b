"""Every default of the trade rules, row by row: the figure in inches and in millimetres, its rule, under the source it is taken
from.

"Common practice" is what is taught and done with no one source; "our own choice" is just that, and is said wherever it is shown.
Books: Noyes 1910, Fairham about 1920, Wheeler 1899, Griffith 1912, Foster 1911, US Army EN0533, Joyce, AWS 2009, Elek 2020, a
chest of drawers list of the 1880s.
"""

from fractions import Fraction

import pytest

from joinlay.checks.plates import CREEP
from joinlay.lengths import GRADUATIONS, MM_PER_INCH, Unit, mm, read_length
from joinlay.paper import PAPERS
from joinlay.shop import LENGTH_RULES, RATIO_RULES, usual_machines, usual_shop
from joinlay.stock import SHEET_DENSITY, Sheet, Solid, stiffness_of, thickness_spread
from joinlay.stock.lumber import LUMBER_IN_INCHES, LUMBER_IN_MM, lumber_for
from joinlay.stock.movement import Metered, in_range
from tests.unit.cutlist.bench import size

#: By source, then by name: inches, millimetres, rule.
LENGTHS = {
    "our own choice": {
        "leveller out": ("1/2", "12", "BA-3"),
        "filler screw spacing": ("12", "300", "SC-1"),
        "narrowest filler": ("1/2", "12", "SC-1"),
        "thickest banding": ("1/8", "3", "EB-4"),
        "tenon wall": ("3 mm", "3", "LT-2"),
        "end margin in plywood": ("5/16", "8", "LT-7"),
        "end margin in solid wood": ("1/2", "12", "LT-7"),
        "tenon spacing in a case": ("6", "150", "LT-9"),
        "keep-out clearance": ("1/8", "3", "LT-11"),
        "edge trim": ("1/4", "6", "CL-2"),
        "shortest offcut": ("12", "300", "CL-2"),
        "narrowest offcut": ("4", "100", "CL-2"),
        "case dado margin": ("1/4", "6", "CA-1"),
        "thinnest strip": ("1/8", "3", "RN-3"),
        "stop overlap": ("3/32", "2", "ST-2"),
        "stop seat": ("1/2", "12", "ST-4"),
        "stop notch margin": ("1/8", "3", "ST-1"),
        "cutting tolerance": ("1/64", "0.4", "CK-1"),
        "finish film": ("0.1 mm", "0.1", "PT-11"),
        "bottom screw spacing": ("6", "150", "DJ-3"),
        "bottom bar lift": ("1/8", "3", "BO-1"),
        "bottom bar rise": ("3/8", "10", "BO-1"),
        "top screw spacing": ("12", "300", "TO-1"),
        "corner nail spacing": ("2", "50", "DJ-1, DJ-4"),
        "bearer screw spacing": ("10", "250", "RN-4"),
    },
    "common practice": {
        "mortise floor": ("1/8", "3", "LT-3"),
        "mortise slack": ("0", "0", "LT-12"),
        "rail shoulder": ("3/16", "5", "FF-2"),
        "tip gap": ("1/64", "0.4", "LR-3"),
        "least lip": ("1/8", "3", "LR-6"),
        "panel fit": ("0", "0", "DA-1"),
        "rabbet allowance": ("1/32", "0.8", "RA-1"),
        "groove offset": ("3/8", "10", "GR-1"),
        "least groove offset": ("1/4", "6", "GR-1"),
        "bottom panel clearance": ("1/16", "1.6", "GR-2"),
        "side clearance": ("1/32", "0.8", "DR-1"),
        "top clearance": ("1/32", "0.8", "DR-1"),
        "bottom clearance of the front": ("1/32", "0.8", "DR-1"),
        "taper": ("0", "0", "DR-4"),
        "front set-back": ("0", "0", "DR-5"),
        "edge joint allowance": ("1/8", "3", "PN-1"),
        "joint from a cut": ("1/2", "12", "PN-1"),
        "pin hole": ("1/4", "5", "SH-2"),
        "pin hole depth": ("3/8", "9", "SH-2"),
        "pin line": ("1 1/2", "37", "SH-2"),
        "pin spacing": ("1 1/4", "32", "SH-2"),
        "shelf clearance": ("1/16", "1.5", "SH-2"),
        "bottom screw": ("1/8", "3.5", "DJ-3"),
        "back screw": ("1/8", "3.5", "SC-2"),
        "filler scribe": ("3/4", "19", "SC-1"),
        "filler screw": ("3/16", "4.5", "SC-1"),
        "toe height": ("3 1/2", "90", "BA-2"),
        "toe depth": ("3", "75", "BA-2"),
        "top overhang": ("3/4", "19", "TO-1"),
        "top screw": ("3/16", "4.5", "TO-1"),
        "plinth set-back": ("1/8", "3", "BA-1"),
        "stile width": ("1 1/2", "38", "FF-1"),
        "mullion width": ("1 1/2", "38", "FF-1"),
        "top rail height": ("2", "50", "FF-1"),
        "bottom rail height": ("2", "50", "FF-1"),
        "rail height": ("1", "25", "FF-1"),
        "frame overhang": ("0", "0", "FF-3"),
        "bearer margin": ("1/4", "6", "RN-1"),
        "bearer back gap": ("1/8", "3", "RN-1"),
        "kicker lift": ("1/32", "0.8", "RN-3"),
        "bearer screw": ("3/16", "4.5", "RN-4"),
        "screw from the end": ("1 1/2", "40", "RN-4"),
        "stop thickness": ("3/16", "5", "ST-3"),
        "stop clearance": ("1/32", "0.8", "ST-3"),
        "stop width": ("1 1/2", "40", "ST-1"),
        "banding worth counting": ("1/32", "0.8", "EB-2"),
        "banding trim": ("1", "25", "EB-3"),
        "lipping proud": ("1/64", "0.5", "EB-4"),
        "two pulls from": ("24", "600", "PU-1"),
        "knob growth": ("1/16", "1.5", "PU-2"),
        "turning allowance": ("1/4", "6", "PU-2"),
        "parting allowance": ("1/4", "6", "PU-2"),
        "dot depth": ("1/4", "6", "PU-2"),
        "clamp spacing": ("8", "200", "PT-4"),
        "widest board": ("6", "150", "PN-1"),
        "caul thickness": ("3/4", "18", "PT-4"),
    },
    "US Army EN0533": {
        "glue room": ("1/16", "1.6", "LT-5"),
    },
    "Elek 2020: 0 to 0.1 mm": {
        "tongue fit": ("0", "0", "LR-8"),
    },
    "Foster": {
        "back set-in": ("1/2", "12", "DJ-2"),
    },
    "Foster fig. 195": {
        "stopped dado margin": ("1/2", "12", "DA-4"),
    },
    "Noyes p. 191": {
        "groove depth": ("1/4", "6", "GR-1"),
    },
    "an 1880s chest of drawers list": {
        "back gap": ("1/2", "12", "DR-5"),
    },
    "NAVEDTRA 14119; MIL-DTL-45449": {
        "back nail spacing": ("6", "150", "RA-1"),
        "runner nail spacing": ("6", "150", "RN-4"),
    },
    "Joyce": {
        "rough length allowance": ("1/2", "12", "CL-1"),
        "rough width allowance": ("1/4", "6", "CL-1"),
    },
    "AWS 2009": {
        "thinnest frame": ("3/4", "18", "FF-1"),
    },
}

#: By source, then by name: the share or count, and the rule.
RATIOS = {
    "Fairham; Noyes no. 42": {
        "tenon share": ("1/3", "LT-1"),
    },
    "our own choice": {
        "tenon wall share": ("1/4", "LT-2"), "tenon width": ("3", "LT-6"), "wood between mortises": ("2", "LT-8"),
        "tenon spacing in a drawer": ("12", "LT-9"), "solid wood waste": ("1/5", "CL-2"), "spare tenons": ("1/10", "LT-5"),
        "seconds to glue a surface": ("30", "PT-3"), "seconds to set a clamp": ("30", "PT-3"),
        "minutes to set up a glue-up": ("10", "PT-9"), "hours at the bench": ("6", "PT-9"),
    },
    "common practice": {
        "mortise floor share": ("1/4", "LT-3"), "least dado share": ("1/4", "LR-4, DA-2"), "rabbet share": ("1/2", "RA-1"),
        "largest rabbet share": ("2/3", "RA-1"), "pull share": ("1/4", "PU-1"),
    },
    "common practice, from memory": {
        "clamp force": ("4.5", "PT-4"),
    },
    "Noyes; Griffith": {
        "front rabbet share": ("2/3", "DJ-1"),
    },
    "Moxon's rule, from memory": {
        "tenon depth": ("4", "LT-4"),
    },
    "Wheeler 1899": {
        "widest tenon": ("6", "LT-6"),
    },
    "Foster's drawings": {
        "largest dado share": ("1/2", "LR-4, DA-2"),
    },
    "Griffith pl. 27": {
        "dado share": ("1/3", "DA-2"),
    },
    "common practice; Wheeler": {
        "short grain share": ("1/3", "LR-4"),
    },
    "Noyes; Mission Furniture": {
        "groove share": ("1/2", "GR-1"),
    },
}  # fmt: skip

#: What machines are taken to do and parts to need, unless a shop says otherwise; all our own choice but what is marked common
#: practice.
MACHINES = {
    "table fence height": ("4", "100", "MS-5", "our own choice"),
    "table fence reach": ("8", "200", "MS-5", "our own choice"),
    "longest part on the table": ("48", "1200", "MS-5", "our own choice"),
    "farthest from the fence": ("36", "900", "MS-5", "our own choice"),
    "saw fence height": ("3", "75", "MS-5", "our own choice"),
    "saw fence reach": ("24", "600", "MS-5", "our own choice"),
    "blade height": ("2 1/2", "65", "MS-5", "our own choice"),
    "longest part on the saw": ("96", "2400", "MS-5", "our own choice"),
    "router base": ("6", "150", "MS-5", "our own choice"),
    "edge guide reach": ("6", "150", "MS-5", "our own choice"),
    "deepest pass": ("1/4", "6.5", "MS-4", "common practice"),
    "narrow part": ("3", "75", "MS-6", "common practice"),
    "short part": ("12", "300", "MS-6", "common practice"),
    "smallest part": ("4", "100", "MS-6", "our own choice"),
    "narrowest chisel": ("1/8", "3", "MS-8", "our own choice"),
    "tallest part on end": ("24", "600", "MS-5", "our own choice"),
}


def test_every_length_stands_in_the_table_with_its_source():
    held = {(row.source, row.name): (row.inch, row.metric, row.rule) for row in LENGTH_RULES}
    assert held == {(source, name): row for source, rows in LENGTHS.items() for name, row in rows.items()}


def test_every_ratio_stands_in_the_table_with_its_source():
    held = {(row.source, row.name): (row.value, row.rule) for row in RATIO_RULES}
    assert held == {(source, name): row for source, rows in RATIOS.items() for name, row in rows.items()}


@pytest.mark.parametrize("unit", list(Unit))
def test_what_machines_are_taken_to_do(unit):
    machines = usual_machines(unit)
    parts = (machines.router_table, machines.table_saw, machines.hand_router, machines.hand_tools, machines.limits)
    held = [getattr(part, name) for part in parts if part is not None for name in part.__slots__]
    found = {
        figure.name: (figure.mm, figure.rule, figure.source) for figure in held if getattr(figure, "origin", "") == "default"
    }
    assert found == {
        name: (read_length(inch if unit is Unit.INCH else metric, unit).mm, rule, source)
        for name, (inch, metric, rule, source) in MACHINES.items()
    }


def test_how_heavy_sheets_are_taken_to_be():
    """Kilograms a cubic metre, about the middle of what is sold: common practice."""
    assert {kind: int(heavy) for kind, heavy in SHEET_DENSITY.items()} == {
        "plywood": 620,
        "mdf": 750,
        "hardboard": 950,
        "particleboard": 680,
    }


@pytest.mark.parametrize(("cut", "share"), [("flat", 20), ("quarter", 10)])
def test_how_much_softer_wood_is_across_its_grain(cut, share):
    """Lower than most hardwoods in the Wood Handbook 2010, table 5-1, from memory."""
    oak = stiffness_of(Solid("oak", size("1"), None, "red oak", cut))
    assert oak.along == oak.across * share


def test_years_of_load_double_a_sag():
    """Wood Handbook 2010, chapter 5 (B9)."""
    assert CREEP == 2


#: Diameter and reach of the straight cutters of a modest shop, and its saw, rule and tenon strip: common practice.
CUTTERS = {
    Unit.INCH: {"1/8": "3/8", "3/16": "5/8", "1/4": "1", "3/8": "1", "1/2": "1 1/4", "3/4": "1 1/4"},
    Unit.MM: {"3": "10", "4": "14", "5": "16", "6": "25", "8": "25", "10": "30", "12": "32", "18": "32"},
}


@pytest.mark.parametrize(("unit", "kerf", "rule"), [(Unit.INCH, "1/8", "1/32 in"), (Unit.MM, "3", "0.5 mm")], ids=["inch", "mm"])
def test_what_a_modest_shop_is_taken_to_have(unit, kerf, rule):
    shop = usual_shop(unit)
    assert {cutter.diameter.mm: cutter.reach.mm for cutter in shop.cutters} == {
        read_length(wide, unit).mm: read_length(reach, unit).mm for wide, reach in CUTTERS[unit].items()
    }
    assert shop.saw.kerf == read_length(kerf, unit)
    assert shop.rule is GRADUATIONS[rule]
    # A18: 6 mm in 3/4 in, 4 mm in 1/2 in.
    assert [tenon.thickness.mm for tenon in shop.tenons] == [4, 6, 8, 10, 12]


def test_how_thick_hardwood_is_sawn_and_what_planing_takes():
    """NHLA (D6) in inches; EN 1313-2, from memory, in millimetres. Planed on both faces: our own choice, 5 mm."""
    assert LUMBER_IN_INCHES == (
        ("4/4", "1", "13/16"),
        ("5/4", "1 1/4", "1 1/16"),
        ("6/4", "1 1/2", "1 5/16"),
        ("8/4", "2", "1 3/4"),
    )
    assert LUMBER_IN_MM == ("20", "27", "32", "40", "50", "60", "65", "70", "80", "100")
    planed = Solid("oak", size("27 mm"), size("27 mm"), "red oak", "flat")
    assert lumber_for(planed, Unit.MM).thickness == mm(32)
    hair_more = Solid("oak", size("27.1 mm"), size("27.1 mm"), "red oak", "flat")
    assert lumber_for(hair_more, Unit.MM).thickness == mm(40)


@pytest.mark.parametrize(
    ("stock", "either_way"),
    [
        (Sheet("a", size("18 mm"), size("18 mm"), size("2440 mm"), size("1220 mm")), "0.1"),
        (Sheet("a", size("18 mm"), None, size("2440 mm"), size("1220 mm"), kind="mdf"), "0.3"),
        (Solid("a", size("20 mm"), None, "red oak", "flat"), "0.4"),
    ],
    ids=["measured", "pressed", "planed"],
)
def test_how_far_a_thickness_strays_where_no_standard_says(stock, either_way):
    """Common practice."""
    spread = thickness_spread(stock)
    nominal = stock.measured or stock.nominal
    assert (nominal - spread.thinnest, spread.thickest - nominal) == (mm(either_way), mm(either_way))


@pytest.mark.parametrize(("moisture", "holds"), [(5.9, False), (6, True), (14, True), (14.1, False)])
def test_in_which_moisture_the_change_coefficients_hold(moisture, holds):
    """Wood Handbook 2010, table 13-5: 6 to 14 %."""
    assert in_range(Metered(Fraction(str(moisture)))) is holds


def test_paper_by_its_names():
    """ISO 216, and ASME Y14.1 (inches) with legal beside it."""
    assert {name: tuple(map(int, paper.size)) for name, paper in PAPERS.items() if paper.unit is Unit.MM} == {
        "a4": (210, 297), "a3": (297, 420), "a2": (420, 594), "a1": (594, 841), "a0": (841, 1189),
    }  # fmt: skip
    assert {
        name: tuple(str(side / MM_PER_INCH) for side in paper.size) for name, paper in PAPERS.items() if paper.unit is Unit.INCH
    } == {
        "letter": ("17/2", "11"),
        "legal": ("17/2", "14"),
        "tabloid": ("11", "17"),
        "ansi c": ("17", "22"),
        "ansi d": ("22", "34"),
        "ansi e": ("34", "44"),
    }
