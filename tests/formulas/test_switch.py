"""Laws of the switch: the closed form against going round the loop."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import switch
from guide_gen.formulas.validity import OutsideValidity

MILLIOHM = st.floats(0.001, 0.1)


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


@given(ohm=st.floats(0.001, 1), degC=st.floats(-40, 175))
def test_a_cold_figure_is_the_warm_one_taken_back(ohm, degC):
    cold = switch.cold_ohm(ohm, degC)
    assert switch.conduction_W(1, cold, degC) == pytest.approx(ohm)
    assert switch.cold_ohm(ohm, 25) == ohm


@given(air=st.floats(20, 85), thermal=st.floats(1, 70), switching=st.floats(0, 5), rms=st.floats(0.5, 20), ohm=MILLIOHM)
def test_largest_share_of_the_current_brings_the_junction_just_to_its_limit(air, thermal, switching, rms, ohm):
    """Switching goes with the current, conduction with its square."""
    share = switch.largest_share((125 - air) / thermal, switching, switch.conduction_W(rms, ohm, 125))
    assert switch.junction_degC(air, thermal, share * switching, share * rms, ohm) == pytest.approx(125)


@given(air=st.floats(20, 85), thermal=st.floats(1, 70), switching=st.floats(0, 0.5), rms=st.floats(0.5, 20))
def test_largest_resistance_brings_the_junction_just_to_its_limit(air, thermal, switching, rms):
    ohm = switch.largest_cold_ohm(125, air, thermal, switching, rms)
    assert switch.junction_degC(air, thermal, switching, rms, ohm) == pytest.approx(125)


def test_no_resistance_is_left_where_switching_alone_is_too_hot():
    assert switch.largest_cold_ohm(125, 40, 60, 1.5, 5) == 0


@given(air=st.floats(20, 85), watt=st.floats(0.01, 100))
def test_largest_thermal_resistance_gives_just_the_limit(air, watt):
    assert switch.part_degC(air, watt, switch.largest_thermal_K_per_W(125, air, watt)) == pytest.approx(125)


@given(peak=st.floats(0.1, 20), on_s=st.floats(0.001, 0.1), off_s=st.floats(0.1, 5))
def test_rms_of_square_pulses_goes_with_the_root_of_their_share(peak, on_s, off_s):
    """OpenStax University Physics 2: rms is the root of the mean square."""
    share = on_s / (on_s + off_s)
    assert switch.pulse_rms_A(peak**2 * on_s, 1 / (on_s + off_s)) == pytest.approx(peak * share**0.5)


@given(current_A=st.floats(0.1, 50), ohm=st.floats(0.001, 1))
def test_twice_the_current_is_four_times_the_heat(current_A, ohm):
    assert switch.conduction_W(2 * current_A, ohm, 25) == pytest.approx(4 * switch.conduction_W(current_A, ohm, 25))
