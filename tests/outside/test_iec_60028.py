"""IEC 60028: annealed copper conducts 58 S m/mm² at 20 °C; its coefficient is 0.00393 per kelvin. From memory."""

import pytest

from guide_gen.formulas.wire import resistance_at_ohm_per_m
from guide_gen.published.tables import copper


def test_resistivity():
    assert copper().resistivity_ohm_m * 1e6 == pytest.approx(1 / 58, rel=5e-5)


def test_copper_has_no_resistance_at_minus_234_5_degC(printed):
    """234.5 is the constant of IEC 60287 for copper, from memory."""
    per_kelvin = resistance_at_ohm_per_m(1, 21) - resistance_at_ohm_per_m(1, 20)
    assert 1 / per_kelvin - 20 == pytest.approx(234.5, abs=0.06)


def test_a_published_slip_in_melting_currents_is_shown_different(printed):
    """A reprinted example of the fusing equation takes 234 minus the 25 °C of the air, 209; it is 234 plus 25."""
    per_kelvin = resistance_at_ohm_per_m(1, 26) - resistance_at_ohm_per_m(1, 25)
    span = resistance_at_ohm_per_m(1, 25) / per_kelvin
    assert span == printed("259")
    assert span != pytest.approx(209, rel=0.1)
