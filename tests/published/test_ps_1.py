"""PS 1-19: thickness tolerance of American plywood (check values D2 and D3)."""

from joinlay.lengths import inches
from joinlay.stock import PANEL_LABELS, american_plywood_limits


def test_sanded_plywood_to_three_quarters():
    """1/64 in either way: 23/32 is .7031 to .7344 in."""
    thin, thick = american_plywood_limits(inches("23/32"))
    assert (thin, thick) == (inches("45/64"), inches("47/64"))
    assert (round(float(thin.inches), 4), round(float(thick.inches), 4)) == (0.7031, 0.7344)


def test_unsanded_plywood():
    """1/32 in either way."""
    assert american_plywood_limits(inches("1/2"), sanded=False) == (inches("15/32"), inches("17/32"))


def test_labels_of_the_panel_categories():
    """US panel categories: what a panel sold as 1/4, 1/2, 23/32 and 3/4 in carries on its label."""
    assert {str(name.inches): str(label.inches) for name, label in PANEL_LABELS.items()} == {
        "1/4": "9/40", "1/2": "483/1000", "23/32": "703/1000", "3/4": "367/500",
    }  # fmt: skip
