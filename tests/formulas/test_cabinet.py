"""The cabinet's answer against its equation of motion, limits from both sides, ranges against many tries."""

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import cabinet
from guide_gen.formulas.swing import shaking_torque_N_m
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.vibration import vibration_class

LIMIT = vibration_class("3M2")


@pytest.mark.parametrize("turning_Hz", [2.0, 4.5, 4.6, 9.0, 30.0])
def test_shift_agrees_with_stepping_the_equation_of_motion(turning_Hz):
    """An independent integrator, long after the beginning has died away; and the torque that feeds the damping."""
    integrate = pytest.importorskip("scipy.integrate")
    pull, mass, natural, damping, pace = 0.009, 95.0, 2 * pi * 4.5, 0.06, 2 * pi * turning_Hz

    def motion(t, state):
        force = pull * pace**2 * np.sin(pace * t)
        return [state[1], force / mass - 2 * damping * natural * state[1] - natural**2 * state[0]]

    times = np.linspace(6, 6 + 3 / turning_Hz, 2001)
    solved = integrate.solve_ivp(motion, (0, times[-1]), [0, 0], t_eval=times, rtol=1e-7, atol=1e-11)
    moved = cabinet.sideways_shift_m(pull, mass, turning_Hz, 4.5, damping)
    assert moved == pytest.approx(np.abs(solved.y[0]).max(), rel=2e-3)


def test_torque_for_the_damping_is_the_power_it_turns_to_heat(example):
    """c v² over a turn, divided by the speed."""
    shaker = example()
    pace = 2 * pi * 6.0
    moved = cabinet.sideways_shift_m(float(shaker.unbalance_kg_m[0]), 95.0, 6.0, 4.5, 0.06)
    heat_W = 2 * 0.06 * 95.0 * 2 * pi * 4.5 * (moved * pace) ** 2 / 2
    assert shaking_torque_N_m(shaker, np.array([pace]))[0] == pytest.approx(heat_W / pace)


@given(me=st.floats(1e-3, 0.1), mass=st.floats(20, 200), natural=st.floats(2, 15), damping=st.floats(0.01, 0.3))
def test_shift_has_its_two_known_limits(me, mass, natural, damping):
    assert cabinet.sideways_shift_m(me, mass, natural, natural, damping) == pytest.approx(me / (2 * damping * mass))
    assert cabinet.sideways_shift_m(me, mass, 1e4 * natural, natural, damping) == pytest.approx(me / mass, rel=1e-6)


@given(damping=st.floats(0.02, 0.3))
def test_the_largest_shift_lies_above_the_resonance(damping):
    """At 1 / sqrt(1 - 2 z²) times the natural frequency."""
    at = 5 / sqrt(1 - 2 * damping**2)
    here = cabinet.sideways_shift_m(0.01, 90, at, 5, damping)
    assert here >= cabinet.sideways_shift_m(0.01, 90, at * 1.01, 5, damping)
    assert here >= cabinet.sideways_shift_m(0.01, 90, at * 0.99, 5, damping)


@given(low=st.floats(2, 10), wide=st.floats(1, 3), damping=st.floats(0.02, 0.3), line=st.floats(1, 30))
def test_a_range_of_natural_frequencies_bounds_every_one_in_it(low, wide, damping, line):
    ends = (2 * pi * low, 2 * pi * low * wide)
    pace, force = np.array([2 * pi * line]), np.array([1.0])
    every = [
        float(cabinet.line_shift(force, 90.0, np.asarray(one), damping, pace)[0]) for one in np.linspace(*ends, 101)
    ]
    most = cabinet.greatest_shift(force, 90.0, ends, damping, pace)[0]
    least = cabinet.least_shift(force, 90.0, ends, damping, pace)[0]
    assert most >= max(every) * (1 - 1e-9)
    assert most <= max(every) * 1.35 + 1e-12
    assert least == pytest.approx(min(every))


def test_the_limit_changes_from_shift_to_acceleration_at_9_Hz():
    """Just below, 1.5 mm count; from 9 Hz on, 5 m/s²."""
    below, at = 2 * pi * np.array([8.999, 9.0])
    assert cabinet.limit_share(LIMIT, below, np.array(1.5e-3)) == pytest.approx(1.0)
    assert cabinet.limit_share(LIMIT, at, np.array(5 / at**2)) == pytest.approx(1.0)
    assert cabinet.limit_share(LIMIT, np.array(2 * pi), np.array(1.5e-3)) == pytest.approx(1.0)


@given(first=st.floats(0.5, 1), cycles=st.integers(1, 10), damping=st.floats(0.005, 0.4))
def test_a_decrement_gives_back_its_damping(first, cycles, damping):
    later = first * np.exp(-2 * pi * cycles * damping / sqrt(1 - damping**2))
    assert cabinet.decrement_damping(first, later, cycles) == pytest.approx(damping)


def test_growing_swings_are_no_decay():
    with pytest.raises(OutsideValidity, match=r"later_share is 0.9, it must be below first_share, 0.5"):
        cabinet.decrement_damping(0.5, 0.9, 3)


def test_a_pull_beyond_its_grip_creeps_and_beyond_its_weight_hops():
    assert cabinet.footing(200, 90, 0.3) == cabinet.Footing(False, False)
    assert cabinet.footing(300, 90, 0.3) == cabinet.Footing(True, False)
    assert cabinet.footing(900, 90, 0.3) == cabinet.Footing(True, True)
