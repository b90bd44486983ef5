"""Laws of the filament lamp."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import lamp
from guide_gen.formulas.fuse_opening import decay_A2s

amperes = st.floats(0.05, 5)


@given(hot=amperes, ratio=st.floats(1, 15), constant=st.floats(0.005, 0.05))
def test_the_inrush_is_a_decay_from_the_cold_current(hot, ratio, constant):
    assert lamp.inrush_A2s(ratio, hot, constant) == pytest.approx(decay_A2s(lamp.inrush_A(ratio, hot), constant))


@given(cold=st.floats(0.1, 20), rise=st.floats(1, 3300))
def test_a_filament_that_warms_draws_less(cold, rise):
    hot_A = 12 / lamp.hot_resistance_ohm(cold, rise)
    assert lamp.measured_inrush_ratio(12, cold, hot_A) == pytest.approx(lamp.hot_resistance_ohm(1, rise))
    assert lamp.inrush_A(lamp.measured_inrush_ratio(12, cold, hot_A), hot_A) == pytest.approx(12 / cold)


def test_a_cold_reading_above_the_hot_resistance_means_no_inrush():
    assert lamp.measured_inrush_ratio(12, 100, 1) == 1


@given(cold=st.floats(0.1, 20), volts=st.floats(1, 60))
def test_the_inrush_goes_with_the_voltage(cold, volts):
    """Ohm's law (OpenStax College Physics 2e): a cold filament is a resistance."""
    assert lamp.inrush_at_A(12 / cold, volts, 12) == pytest.approx(volts / cold)
