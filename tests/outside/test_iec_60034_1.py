"""IEC 60034-1, temperature of a copper winding from its resistance: (R2/R1) = (235 + T2) / (235 + T1). From memory."""

import pytest

from guide_gen.formulas.motor import winding_at_ohm


@pytest.mark.parametrize(("cold", "hot"), [(20, 60), (20, 105), (25, 130), (40, 155)])
def test_resistance_tells_the_temperature(cold, hot):
    ratio = winding_at_ohm(6.5, hot) / winding_at_ohm(6.5, cold)
    assert ratio * (235 + cold) - 235 == pytest.approx(hot, abs=0.3)


def test_a_coil_whose_current_fell_by_28_percent_is_at_119_degC():
    """255 / 0.72 - 235, from 20 °C at constant voltage."""
    assert 1 / winding_at_ohm(1, 119) == pytest.approx(0.72, rel=0.001)
