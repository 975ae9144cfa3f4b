"""EN 315: thickness tolerance of sanded plywood (check value D1)."""

import pytest

from joinlay.errors import BadInput
from joinlay.lengths import mm
from joinlay.stock import sanded_plywood_limits


@pytest.mark.parametrize(("nominal", "thin", "thick"), [(18, "17.06", "18.74"), (12, "11.24", "12.56")])
def test_limits_of_sanded_plywood(nominal, thin, thick):
    """+(0.2 + 0.03 t) and -(0.4 + 0.03 t) mm."""
    assert sanded_plywood_limits(mm(nominal)) == (mm(thin), mm(thick))


@pytest.mark.parametrize("outside", ["2.9", "25.1"])
def test_the_standard_stops_at_3_and_25_mm(outside):
    with pytest.raises(BadInput, match="3 mm to 25 mm"):
        sanded_plywood_limits(mm(outside))
