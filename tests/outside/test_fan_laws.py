"""Fan laws as in the ASHRAE Handbook, HVAC Systems and Equipment, fans. From memory."""

import pytest

from guide_gen.formulas.blower import fan_point


@pytest.mark.parametrize(("speed", "flow", "pressure", "power", "decibel"), [
    (2.0, 2.0, 4.0, 8.0, 15.1), (0.8, 0.8, 0.64, 0.512, -4.8), (0.5, 0.5, 0.25, 0.125, -15.1),
])  # fmt: skip
def test_flow_pressure_power_and_sound_with_the_speed(speed, flow, pressure, power, decibel):
    """Twice the speed: twice the flow, four times the pressure, eight times the power, 15 dB."""
    point = fan_point(30 * speed, 30)
    assert (point.flow_share, point.pressure_share, point.power_share) == pytest.approx((flow, pressure, power))
    assert point.sound_dB == pytest.approx(decibel, abs=0.06)
