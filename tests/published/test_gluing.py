"""Glue and clamps: pressures of the Wood Handbook (from memory), times of Fairham and Noyes, 45 degrees after common practice;
Foster's squares.
"""

from math import isclose, sqrt

import pytest

from joinlay.assembly.edge_joints import PRESSURES, PSI, glued_panels, pressure_of
from joinlay.assembly.squaring import apart, diagonal, may_differ
from joinlay.boards import Board, Datum, PartKind, PartRole
from joinlay.lengths import Fraction, Unit, dimension, inches, mm
from joinlay.shop import USUAL_GLUE, usual_practice
from joinlay.stock import SPECIES, Solid

DATUM = Datum("face", "edge", "end", "far face", "far edge", "far end")


def solid(species):
    return Solid("wood", dimension(inches("3/4")), dimension(inches("3/4")), species, "flat")


def panel(species, length="32", width="16", **figures):
    board = Board(PartRole(PartKind.LONE, called="top"), "wood", dimension(inches(length)), dimension(inches(width)),
                  dimension(inches("3/4")), DATUM)  # fmt: skip
    practice = usual_practice(Unit.INCH).but(ratios={name.replace("_", " "): value for name, value in figures.items()})
    return glued_panels((board,), (solid(species),), practice)


# -- E4: 100 to 150 psi in softwood, 175 to 250 in hardwood; Wood Handbook ch. 10, from memory ---------------


@pytest.mark.parametrize(
    ("species", "psi"),
    [
        ("eastern white pine", (100, 150)),
        ("white fir", (100, 150)),
        ("Douglas-fir", (100, 150)),
        ("sugar maple", (175, 250)),
        ("black cherry", (175, 250)),
        ("poplar", (175, 250)),
    ],
)
def test_the_pressure_of_an_edge_joint(species, psi):
    assert pressure_of(solid(species)) == psi


def test_every_wood_of_the_table_is_one_or_the_other():
    assert {pressure_of(solid(name)) for name in SPECIES} == set(PRESSURES.values())


def test_a_pound_on_a_square_inch_is_6895_pascals():
    # Exact definitions of pound-force and inch.
    assert isclose(float(PSI) * 1e6, 6894.757, rel_tol=1e-6)


def test_the_clamps_of_a_maple_top():
    # By hand: 32 x 3/4 in at 175 psi are 4200 lbf = 18.68 kN; by 4.5 kN a clamp, five. Three boards of 5 1/3 and a caul of 3/4:
    # 12 1/6 in, three.
    (made,) = panel("sugar maple")
    assert (made.boards, made.clamps) == (3, 5)
    assert float(made.force) == pytest.approx(18.68, abs=0.01)
    assert made.spread == mm(Fraction(73, 6) * Fraction(127, 5))
    assert made.reach == inches("17 1/2")


def test_where_the_pressure_spreads_at_45_degrees_it_says_how_near_clamps_stand():
    # Common practice: no farther apart than twice board and caul. With clamps that press hard enough that alone decides: 32 / 12
    # 1/6, so three.
    (made,) = panel("sugar maple", clamp_force=Fraction(20))
    assert made.clamps == 3
    assert made.apart <= made.spread


def test_a_board_as_wide_as_boards_come_is_not_glued_up():
    assert panel("sugar maple", width="6") == ()
    (made,) = panel("sugar maple", width="6 1/32")
    assert made.boards == 2


# -- F14: one to four hours in clamps (Fairham figs. 195-199); another says six (Noyes) ----------------------


def test_the_usual_time_in_clamps_is_what_the_books_have():
    assert 1 <= USUAL_GLUE.clamp_time / 3600 <= 4


# -- F18: 36, 48, 60 and 6, 8, 10 square a corner; 36 x 78 ft has the diagonal 85.906 ft (Foster) ------------


@pytest.mark.parametrize(("width", "height", "across"), [(36, 48, 60), (6, 8, 10)])
def test_fosters_triangles(width, height, across):
    assert diagonal(inches(str(width)), inches(str(height))) == inches(str(across))


def test_fosters_barn():
    # He leaves off what comes after the third place: it is 85.9069.
    assert int(float(diagonal(inches(str(36 * 12)), inches(str(78 * 12))).inches) / 12 * 1000) == 85_906


# -- PT-5, worked out: out of square by an angle t, diagonals differ by 2 w h t / sqrt(w^2 + h^2) ------------


@pytest.mark.parametrize(("width", "height"), [("900", "600"), ("300", "1200"), ("457.2", "101.6")])
def test_the_angle_and_the_diagonals(width, height):
    w, h = mm(width), mm(height)
    out = mm("0.5")
    angle = float(out.mm / h.mm)
    by_rule = 2 * float(w.mm) * float(h.mm) * angle / sqrt(float(w.mm) ** 2 + float(h.mm) ** 2)
    assert float(apart(w, h, out).mm) == pytest.approx(by_rule, abs=2e-4)
    # Half the clearance c is left while t is at most c / (2 h): then they differ by w c / sqrt(w^2 + h^2).
    clearance = mm("0.8")
    most = float(clearance.mm) / (2 * float(h.mm))
    assert float(may_differ(w, h, clearance).mm) == pytest.approx(
        2 * float(w.mm) * float(h.mm) * most / sqrt(float(w.mm) ** 2 + float(h.mm) ** 2), abs=1e-3
    )


# -- PT-12, worked out: a surface twisted by t over w x h is z = t x y / (w h) ------------------------------


def test_a_flat_front_in_a_twisted_frame_stands_out_by_its_share_of_the_height():
    width, height, low, high, twist = 900.0, 600.0, 150.0, 300.0, 4.0

    def out(x, y):
        return twist * x * y / (width * height)

    # The plane through three corners of a front as wide as the frame, and how far its fourth lies off the frame there.
    fourth = out(0, high) + out(width, low) - out(0, low)
    assert out(width, high) - fourth == pytest.approx(twist * (high - low) / height)
