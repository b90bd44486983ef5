"""MIT course 2.007, notes on motors: a motor gives most power at half its speed and half its torque. Looked-up."""

import pytest

from guide_gen.formulas import motor

VOLT = 12


def _shaft_W(rpm, stall_N_m, load_share):
    """Power and speed of a motor of this no-load speed and stall torque, under a share of that torque."""
    free = motor.angular_speed_rad_per_s(rpm)
    constant = VOLT / free
    ohm = constant * VOLT / stall_N_m
    load = load_share * stall_N_m
    speed = motor.steady_speed_rad_per_s(VOLT, 0, ohm, constant, load, 0)
    return load * speed, speed / free * rpm, load


@pytest.mark.parametrize(
    ("rpm", "stall", "at_rpm", "at_torque"),
    [
        (600, 0.325, "300", "0.163"),
        (3750, 0.0722, "1875", "0.0361"),
        (92, 1.6, "46", "0.80"),
    ],
)
def test_greatest_power(rpm, stall, at_rpm, at_torque, printed):
    power, speed, torque = _shaft_W(rpm, stall, 0.5)
    assert speed == printed(at_rpm)
    assert torque == printed(at_torque)
    assert power > max(_shaft_W(rpm, stall, 0.49)[0], _shaft_W(rpm, stall, 0.51)[0])


@pytest.mark.parametrize(("rpm", "stall", "watt"), [(600, 0.325, "5.105"), (3750, 0.0722, "7.088"), (92, 1.6, "3.854")])
def test_its_amount(rpm, stall, watt, printed):
    """Computed from the same figures, not printed there."""
    assert _shaft_W(rpm, stall, 0.5)[0] == printed(watt)
