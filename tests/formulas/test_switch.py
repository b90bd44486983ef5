"""Laws of the switch: the closed form against going round the loop."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import switch
from guide_gen.formulas.validity import OutsideValidity


@given(
    air=st.floats(20, 60),
    thermal=st.floats(1, 70),
    switching=st.floats(0, 1),
    rms=st.floats(0.1, 10),
    milliohm=st.floats(1, 100),
)
def test_going_round_heat_and_temperature_ends_at_the_closed_form(air, thermal, switching, rms, milliohm):
    ohm = milliohm / 1000
    assume(thermal * rms**2 * ohm * 0.006 < 0.8)
    junction = air
    for _ in range(200):
        junction = switch.part_degC(air, switching + switch.conduction_W(rms, ohm, junction), thermal)
    assert switch.junction_degC(air, thermal, switching, rms, ohm) == pytest.approx(junction)


def test_a_switch_that_heats_itself_without_end_is_refused():
    with pytest.raises(OutsideValidity, match="rms_A is 20, it must be small enough that the switch does not"):
        switch.junction_degC(40, 62, 0, 20, 0.01)


@given(rms=st.floats(0.1, 5), more=st.floats(1.01, 1.5))
def test_more_current_makes_it_hotter_by_more_than_its_square(rms, more):
    low, high = (switch.junction_degC(40, 50, 0, amp, 0.01) - 40 for amp in (rms, rms * more))
    assert high > low * more**2 * (1 - 1e-9)


def test_a_current_that_dies_out_in_each_pause_costs_nothing_at_turn_on():
    assert switch.switching_W(12, 0, 6, 1e-6, 1e-7, 1000) == pytest.approx(12 * 6 * 1e-7 * 1000 / 2)


@given(frequency=st.floats(10, 1e5))
def test_switching_heat_goes_with_the_frequency(frequency):
    assert switch.switching_W(24, 3, 4, 1e-7, 2e-7, 2 * frequency) == pytest.approx(
        2 * switch.switching_W(24, 3, 4, 1e-7, 2e-7, frequency)
    )
