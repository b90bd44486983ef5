"""A blower's start and what it moves."""

from math import inf, pi

import pytest

from guide_gen.formulas.blower import blower_plan, drag_N_m_s2, fan_point
from guide_gen.formulas.validity import OutsideValidity

FAN = {
    "supply_V": 12.0, "pwm_Hz": 20000.0, "loop_on_ohm": 2.0, "loop_off_ohm": 2.0, "inductance_H": 1e-3, "diode_V": 0.4,
    "emf_V_s": 0.03, "friction_N_m": 0.003, "drag_N_m_s2": 3e-7,
}  # fmt: skip


def test_it_starts_where_the_torque_at_rest_is_one_and_a_half_times_the_friction():
    """Smooth current at 20 kHz: (D Vs - (1-D) Vd) / R."""
    current = 1.5 * 0.003 / 0.03
    assert blower_plan(**FAN).start == pytest.approx((current * 2.0 + 0.4) / 12.4, rel=1e-3)


def test_half_the_speed_moves_half_the_air_at_an_eighth_of_the_power_and_15_dB_less():
    point = fan_point(0.5, 20, 40)
    assert (point.flow_share, point.pressure_share, point.power_share) == (0.5, 0.25, 0.125)
    assert point.sound_dB == pytest.approx(-15.05, abs=0.01)


def test_the_full_speed_balances_motor_and_air():
    last = blower_plan(**FAN).points[-1]
    speed = 2 * pi * last.turning_Hz
    assert 0.03 * (12 - 0.03 * speed) / 2.0 == pytest.approx(0.003 + 3e-7 * speed**2, rel=1e-6)
    assert (last.flow_share, last.sound_dB) == (1, 0)
    assert drag_N_m_s2(0.03, (12 - 0.03 * speed) / 2, 0.003, speed) == pytest.approx(3e-7, rel=1e-5)


def test_more_setting_moves_more():
    flows = [point.flow_share for point in blower_plan(**FAN).points]
    assert flows[0] == 0
    assert flows == sorted(flows)


def test_at_rest_it_is_silent():
    assert fan_point(0, 0, 40).sound_dB == -inf


def test_a_blower_that_cannot_turn_is_refused():
    with pytest.raises(OutsideValidity, match="friction_N_m is 1, it must be low enough to turn at the full setting"):
        blower_plan(**FAN | {"friction_N_m": 1.0})
