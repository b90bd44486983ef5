"""The many-at-once currents: the same as the single case, and as stepping the two-segment circuit."""

import itertools

import numpy as np
import pytest

from guide_gen.formulas import drive, pwm

GRID = list(
    itertools.product(
        [50.0, 200.0, 1000.0, 20000.0], [0.0, 0.01, 0.06, 0.3, 0.9, 1.0], [0.0, 0.3, 2.0, 8.0, 12.5], [0.35, 1.0]
    )
)


def test_many_at_once_give_what_the_single_case_gives(example):
    """240 points in both modes."""
    pwm_Hz, setting, back_V, diode_V = (np.array(column) for column in zip(*GRID, strict=True))
    shakers = example(pwm_Hz=pwm_Hz, diode_V=diode_V)
    mean, peak = drive.motor_current(shakers, setting, back_V / 0.045)
    for number, (frequency, duty, emf, drop) in enumerate(GRID):
        single = pwm.steady_state(12.0, emf, duty, frequency, 0.38, 0.35, 0.55e-3, drop)
        assert mean[number] == pytest.approx(single.motor_mean_A, rel=1e-8, abs=1e-9), GRID[number]
        assert peak[number] == pytest.approx(single.peak_A, rel=1e-8, abs=1e-9), GRID[number]
    drawn = drive.supply_current(shakers, setting, back_V / 0.045)
    for number, (frequency, duty, emf, drop) in enumerate(GRID):
        single = pwm.steady_state(12.0, emf, duty, frequency, 0.38, 0.35, 0.55e-3, drop)
        assert drawn[number] == pytest.approx(single.switch_mean_A, rel=1e-8, abs=1e-9), GRID[number]


@pytest.mark.parametrize(("frequency", "duty", "speed"), [(100, 0.08, 60), (200, 0.1, 0), (1000, 0.4, 150)])
def test_stepping_the_circuit_gives_the_same_mean(example, frequency, duty, speed):
    """An independent second method: small steps of the circuit until the period repeats."""
    back_V, current, steps, means = 0.045 * speed, 0.0, 4000, []
    h = 1 / frequency / steps
    for _ in range(12):
        total = 0.0
        for step in range(steps):
            on = step < duty * steps
            ohm, push = (0.38, 12 - back_V) if on else (0.35, -0.5 - back_V)
            half = current + h / 2 * (push - ohm * current) / 0.55e-3
            following = max(current + h * (push - ohm * half) / 0.55e-3, 0.0)
            total += (current + following) / 2
            current = following
        means.append(total / steps)
    mean, _ = drive.motor_current(example(pwm_Hz=frequency), np.array([duty]), np.array([float(speed)]))
    assert mean[0] == pytest.approx(means[-1], rel=2e-3)


def test_a_motor_is_never_braked(example):
    """Above the speed that the supply can reach there is no current, never one that flows back."""
    mean, peak = drive.motor_current(example(), np.linspace(0, 1, 11), np.array([400.0]))
    assert (mean == 0).all()
    assert (peak == 0).all()


def test_a_smooth_voltage_needs_no_diode(example):
    """The trimmer's share of the supply, less the back emf, over the loop."""
    mean, _ = drive.motor_current(example(pwm_Hz=np.inf, diode_V=0.9), np.array([0.5]), np.array([50.0]))
    assert mean[0] == pytest.approx((6 - 2.25) / 0.38)
