"""The US table of annealed solid copper wire at 20 °C, ohm per 1000 ft.

Looked-up in the reprint of Georgia State University's HyperPhysics, table of American wire gauge.
"""

import pytest

from guide_gen.published.tables import copper, resistance_ohm_per_m
from guide_gen.values.quantity import WireSize


@pytest.mark.parametrize(
    ("gauge", "ohm"),
    [
        (24, "25.67"),
        (22, "16.14"),
        (20, "10.15"),
        (18, "6.385"),
        (16, "4.016"),
        (14, "2.525"),
        (12, "1.588"),
        (10, "0.9989"),
        (8, "0.6282"),
        (6, "0.3951"),
    ],
)
def test_resistance_at_20_degC(gauge, ohm, printed):
    solid = resistance_ohm_per_m(WireSize("AWG", str(gauge))) / copper().stranding
    assert solid * 304.8 == printed(ohm)
