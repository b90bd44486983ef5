"""OpenStax University Physics volume 2: series motor (module m58481), resistance of a wire (m58731). Looked-up."""

import pytest

from guide_gen.formulas.motor import back_emf_V
from guide_gen.formulas.port import switch_power_W
from guide_gen.formulas.wire import awg_area_mm2, run_resistance_ohm
from guide_gen.published.tables import awg_diameter_mm


@pytest.mark.parametrize(("ampere", "back_emf", "heat_kW"), [(10, "100", "0.20"), (20, "80", "0.80")])
def test_a_motor_under_load(ampere, back_emf, heat_kW, printed):
    """120 V, 2.0 ohm."""
    assert back_emf_V(120, ampere, 2.0) == printed(back_emf)
    assert switch_power_W(ampere, 2.0) / 1000 == printed(heat_kW)


def test_12_AWG(printed):
    """2.053 mm and 3.31 mm²."""
    assert awg_diameter_mm(12) == printed("2.053")
    assert awg_area_mm2(12) == printed("3.31")


def test_five_metres_of_12_AWG(printed):
    """0.025 ohm with the book's 1.68e-8 ohm m."""
    assert run_resistance_ohm(1.68e-8 / (awg_area_mm2(12) * 1e-6), 5) == printed("0.025")
