"""How far a flat panel sags under an even load: thin plates, alike in all directions or stiffer one way.

Floats, since this is physics and not layout: millimetres, newtons and N/mm2 (MPa). Source of the theory: Timoshenko and
Woinowsky-Krieger, Theory of Plates and Shells (check values C1 to C3).
"""

from __future__ import annotations

from functools import lru_cache
from math import cosh, exp, pi, sinh, sqrt
from typing import Final

from joinlay.errors import BadInput
from joinlay.records import dataclass

__all__ = ["CREEP", "Plate", "sag_on_four_edges", "sag_with_a_free_edge"]

#: Years of load about double the first sag. Source: Wood Handbook 2010, ch. 5 (check value B9).
CREEP: Final = 2.0
#: Sideways strain of a board that is pulled: Poisson's ratio, as check value C1 takes it.
_POISSON: Final = 0.3
#: Odd terms of the series each way; past these the fourth figure doesn't change.
_TERMS: Final = 40


@dataclass(frozen=True, slots=True)
class Plate:
    """A panel ``length`` by ``width`` mm; ``along``, ``across`` and ``twist`` are its bending stiffnesses in N mm.

    ``along`` resists bending of the length, ``across`` of the width.
    """

    length: float
    width: float
    along: float
    across: float
    twist: float

    @classmethod
    def of(cls, length: float, width: float, thickness: float, modulus: float, modulus_across: float | None = None) -> Plate:
        """A panel of ``thickness`` mm whose stiffness is ``modulus`` MPa along its length and ``modulus_across`` (None: the same)
        across.

        The twisting stiffness of a panel with two moduli is taken as their geometric mean, which is right for one modulus and
        usual where nothing better is known (Huber's estimate, Timoshenko ch. 11). BadInput for a size of zero or less.
        """
        sizes = (length, width, thickness, modulus, modulus_across if modulus_across is not None else modulus)
        if min(sizes) <= 0:
            raise BadInput(f"a panel {length} x {width} x {thickness} mm of {modulus} MPa cannot sag; each must be more than 0.")
        rigidity = thickness**3 / (12 * (1 - _POISSON**2))
        along, across = modulus * rigidity, sizes[-1] * rigidity
        return cls(length, width, along, across, sqrt(along * across))


@lru_cache(maxsize=256)
def sag_on_four_edges(plate: Plate, pressure: float, terms: int = _TERMS) -> float:
    """Sag in mm at the middle of a panel resting on its four edges under ``pressure`` MPa: Navier's double series.

    ``terms`` odd terms each way (2 makes the first four of the series). Rule CK-3.
    """
    a, b = plate.length, plate.width
    total = 0.0
    for i in range(terms):
        m = 2 * i + 1
        for j in range(terms):
            n = 2 * j + 1
            p, q = (m / a) ** 2, (n / b) ** 2
            stiffness = plate.along * p * p + 2 * plate.twist * p * q + plate.across * q * q
            total += (-1) ** (i + j) / (m * n * stiffness)
    return 16 * pressure * total / pi**6


@lru_cache(maxsize=256)
def sag_with_a_free_edge(plate: Plate, pressure: float, terms: int = _TERMS) -> float:
    """Sag in mm at the middle of the free edge of a panel resting on three edges: one of its long ways (y = width) is free.

    Lévy's single series. The twisting stiffness is taken as the geometric mean of the other two, which lets the panel be
    stretched into one that is alike in all directions. Rule CK-3.
    """
    stretched = plate.width * (plate.along / plate.across) ** 0.25
    total = 0.0
    for i in range(terms):
        m = 2 * i + 1
        total += (-1) ** i / m**5 * _at_free_edge(m * pi * stretched / plate.length)
    return 4 * pressure * plate.length**4 / (pi**5 * plate.along) * total


def _at_free_edge(beta: float) -> float:
    """One term's deflection at the free edge, as a share of what a strip without ends would give.

    The term is 1 - (1 + s/2) e^-s + c sinh s + e s cosh s, with s the distance from the supported edge; it rests on that edge
    already, and c and e are found from no moment and no force at the free one (s = beta). sinh and cosh are scaled by e^-beta so
    that a long panel doesn't overflow.
    """
    nu, fade = _POISSON, exp(-beta)
    sh, ch = (sinh(beta) * fade, cosh(beta) * fade) if beta < 300 else (0.5, 0.5)
    # What the first part leaves of moment and force at the free edge, less what must be there: none.
    here = 1 - (1 + beta / 2) * fade
    moment = -beta / 2 * fade - nu * here
    force = (beta - 1) / 2 * fade - (2 - nu) * (0.5 + beta / 2) * fade
    # The same of sinh s and of s cosh s.
    sinh_moment, sinh_force = (1 - nu) * sh, (nu - 1) * ch
    run_moment = 2 * sh + (1 - nu) * beta * ch
    run_force = 3 * ch + beta * sh - (2 - nu) * (ch + beta * sh)
    spread = sinh_moment * run_force - run_moment * sinh_force
    c = (-moment * run_force + force * run_moment) / spread
    e = (-force * sinh_moment + moment * sinh_force) / spread
    return here + c * sh + e * beta * ch
