"""Settings as bands, and the tuning steps that follow."""

from itertools import pairwise
from math import inf

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas.bands import Band, band_numbers, intervals, of_band, setting_grid, tuning


def _bands(hertz, accel, use):
    numbers = band_numbers(np.array(hertz), np.array(accel), np.array(use), 8.0, 0.03)
    return intervals(np.arange(len(hertz)) / 10, numbers)


def test_a_resonance_puts_too_much_between_two_acceptable_intervals():
    found = _bands([3, 4, 5, 6, 9], [0.5] * 5, [0.5, 1.5, 1.2, 0.9, 0.9])
    assert [one.band for one in found] == [Band.SWAY, Band.TOO_MUCH, Band.SWAY, Band.VIBRATION]
    assert of_band(found, Band.SWAY) == ((0.0, 0.1), (0.3, 0.4))


def test_what_is_hardly_felt_is_faint_and_8_Hz_is_still_sway():
    found = _bands([2, 8, 8.01, 12], [0.029, 0.03, 0.03, 0.5], [0.1] * 4)
    assert [one.band for one in found] == [Band.FAINT, Band.SWAY, Band.VIBRATION]


def test_neighbours_meet_and_cover_everything():
    found = _bands([3, 9, 3, 9, 3], [1] * 5, [0.5] * 5)
    assert found[0].low == 0
    assert found[-1].high == 0.4
    assert all(one.high == other.low for one, other in pairwise(found))


def test_what_is_not_sure_is_a_gap():
    settings, numbers = np.arange(6) / 10, np.array([3.0] * 6)
    found = intervals(settings, numbers, np.array([True, True, False, False, True, True]))
    assert [(one.low, one.high) for one in found] == [(0.0, 0.1), (0.4, 0.5)]


def test_the_grid_holds_the_steps_of_the_port_and_the_exact_places():
    assert setting_grid(4, [0.3, 1.7]).tolist() == [0, 0.25, 0.3, 0.5, 0.75, 1]
    assert len(setting_grid(None, [])) == 401


@pytest.mark.parametrize(("slope", "steps", "step"), [
    (40, None, 0.0125), (100, None, 0.005), (10, None, 0.02), (40, 255, 3 / 255), (40, 48, 1 / 48),
    (5000, None, 0.0025),
])  # fmt: skip
def test_a_step_is_half_a_hertz_in_whole_port_steps_and_at_most_2_percent(slope, steps, step):
    """0.4 Hz and 1.0 Hz a percent; a port of 48 steps cannot go finer than its own 2.1 %."""
    assert tuning(np.array([0.0, 1.0]), np.zeros(2), 0.1, slope, steps).step == pytest.approx(step)


@given(start=st.floats(0.01, 0.9), steps=st.sampled_from([None, 48, 255, 1000]))
def test_tuning_begins_on_a_step_at_or_below_the_lowest_start(start, steps):
    begin = tuning(np.array([0.0, 1.0]), np.zeros(2), start, 50, steps).begin
    one = 1 / (steps or 400)
    assert start - one - 1e-9 < begin <= start + 1e-9
    assert begin / one == pytest.approx(round(begin / one))


def test_tuning_stops_a_step_before_it_may_be_too_much():
    settings = np.array([0.05, 0.1, 0.2, 0.3, 1.0])
    found = tuning(settings, np.array([2.0, 0.5, 0.9, 1.1, 0.8]), 0.1, 100, None)
    assert found.ceiling == 0.3
    assert found.stop == pytest.approx(0.295)
    assert tuning(settings, np.zeros(5), 0.1, 100, None).ceiling == inf
