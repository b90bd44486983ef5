"""What a fan moves, and what it needs to start."""

from math import inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import blower
from guide_gen.formulas.validity import OutsideValidity

speeds = st.floats(0.5, 200)


def test_half_the_speed_moves_half_the_air_at_an_eighth_of_the_power_and_15_dB_less():
    """By hand: 50 log10(1/2) is 15.05."""
    point = blower.fan_point(20, 40)
    assert (point.flow_share, point.pressure_share, point.power_share) == (0.5, 0.25, 0.125)
    assert point.sound_dB == pytest.approx(-15.05, abs=0.01)


@given(speed=speeds, full=speeds)
def test_power_goes_with_flow_times_pressure(speed, full):
    """The power in the air is what moves it times what presses it."""
    point = blower.fan_point(speed, full)
    assert point.power_share == pytest.approx(point.flow_share * point.pressure_share)


@given(one=speeds, other=speeds, third=speeds)
def test_two_changes_of_speed_are_one(one, other, third):
    """Decibels add where shares multiply."""
    first, second, both = (blower.fan_point(*pair) for pair in ((one, other), (other, third), (one, third)))
    assert both.flow_share == pytest.approx(first.flow_share * second.flow_share)
    assert both.sound_dB == pytest.approx(first.sound_dB + second.sound_dB, abs=1e-9)


def test_at_rest_it_is_silent():
    assert blower.fan_point(0, 40).sound_dB == -inf
    with pytest.raises(OutsideValidity, match="turning_Hz is 0"):
        blower.sound_change_dB(0, 40)


def test_start_asks_for_half_as_much_again_as_the_friction():
    """The reserve is an estimate of this project."""
    assert blower.start_torque_N_m(0.004) == pytest.approx(0.006)


def test_electronics_begin_at_half_their_voltage():
    """An estimate of this project: 0.3 to 0.7 of it."""
    assert blower.electronics_start_V(12) == pytest.approx(6)
