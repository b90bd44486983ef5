"""What textbooks of power electronics derive for a chopper with ideal parts. From memory, rederived here."""

from math import sqrt

import pytest

from guide_gen.formulas import pwm, switch
from guide_gen.formulas.coil import settled

VOLT, HENRY, HERTZ = 12, 1e-4, 10000
SMALL = 1e-6
"""Resistance and diode drop that stand for none."""


@pytest.mark.parametrize("duty", [0.1, 0.42, 0.75, 0.9])
def test_a_smooth_current_sees_duty_times_supply(duty):
    """An ideal diode and 1 ohm."""
    assert pwm.smooth_current_A(VOLT, 0, duty, 1, 1, 0) == pytest.approx(duty * VOLT)
    state = pwm.steady_state(VOLT, 0, duty, HERTZ, 1, 1, HENRY, SMALL)
    assert state.motor_mean_A == pytest.approx(duty * VOLT, rel=1e-5)


@pytest.mark.parametrize("duty", [0.2, 0.5, 0.7])
@pytest.mark.parametrize("k", [0.02, 0.05, 0.1])
def test_discontinuous_conversion_ratio(duty, k):
    """Step-down converter with load R: M = 2 / (1 + sqrt(1 + 4 K / D²)), K = 2 L f / R, as long as K < 1 - D."""
    ratio = 2 / (1 + sqrt(1 + 4 * k / duty**2))
    load = 2 * HENRY * HERTZ / k
    state = pwm.steady_state(VOLT, ratio * VOLT, duty, HERTZ, SMALL, SMALL, HENRY, SMALL)
    assert not state.continuous
    assert state.motor_mean_A * load == pytest.approx(ratio * VOLT, rel=1e-4)


@pytest.mark.parametrize("duty", [0.2, 0.5, 0.8])
def test_ripple_of_a_continuous_current(duty):
    """Peak to peak V D (1 - D) / (L f), where the resistance hardly bends it."""
    state = pwm.steady_state(VOLT, duty * VOLT - 0.5, duty, HERTZ, 0.1, 0.1, HENRY, SMALL)
    assert state.continuous
    assert state.peak_A - state.lowest_A == pytest.approx(VOLT * duty * (1 - duty) / (HENRY * HERTZ), rel=0.01)


@pytest.mark.parametrize("duty", [0.3, 0.6])
def test_switch_and_diode_share_a_smooth_current_by_duty(duty):
    """Mean D I and (1 - D) I; rms sqrt(D) I and sqrt(1 - D) I."""
    state = pwm.steady_state(VOLT, 0, duty, 1e6, 1, 1, 1e-2, SMALL)
    current = state.motor_mean_A
    assert state.switch_mean_A == pytest.approx(duty * current, rel=1e-3)
    assert state.diode_mean_A == pytest.approx((1 - duty) * current, rel=1e-3)
    assert state.switch_rms_A == pytest.approx(sqrt(duty) * current, rel=1e-3)
    assert state.diode_rms_A == pytest.approx(sqrt(1 - duty) * current, rel=1e-3)


def test_switching_loss_of_equal_edges():
    """V I (tr + tf) f / 2."""
    assert switch.switching_W(24, 5, 5, 100e-9, 50e-9, 20000) == pytest.approx(24 * 5 * 150e-9 * 20000 / 2)


@pytest.mark.parametrize(("constants", "percent"), [(1, "63.2"), (2, "86.5"), (3, "95.0"), (4, "98.2"), (5, "99.3")])
def test_time_constants(constants, percent, printed):
    """The table of every introduction to circuits."""
    assert settled(constants, 1) * 100 == printed(percent)
