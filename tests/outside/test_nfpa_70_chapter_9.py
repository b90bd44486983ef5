"""NFPA 70-2023 chapter 9 table 8: DC resistance of copper at 75 °C, ohm per 1000 ft. Looked-up.

The table rounds its areas and strands by 1.018 to 1.025, so it is met to 0.6 % and not to its last place.
"""

import pytest

from guide_gen.formulas.wire import resistance_at_ohm_per_m
from guide_gen.published.tables import copper, resistance_ohm_per_m
from guide_gen.values.quantity import WireSize

KFT_M = 304.8


def _ohm_per_kft(gauge):
    return resistance_at_ohm_per_m(resistance_ohm_per_m(WireSize("AWG", str(gauge))), 75) * KFT_M


@pytest.mark.parametrize(
    ("gauge", "ohm"),
    [
        (18, 7.95),
        (16, 4.99),
        (14, 3.14),
        (12, 1.98),
        (10, 1.24),
        (8, 0.778),
        (6, 0.491),
    ],
)
def test_stranded(gauge, ohm):
    assert _ohm_per_kft(gauge) == pytest.approx(ohm, rel=6e-3)


@pytest.mark.parametrize(("gauge", "ohm"), [(18, 7.77), (16, 4.89), (14, 3.07), (12, 1.93), (10, 1.21), (8, 0.764)])
def test_solid(gauge, ohm):
    """Stranding is 2 % of ours."""
    assert _ohm_per_kft(gauge) / copper().stranding == pytest.approx(ohm, rel=6e-3)
