"""Laws of the short circuit."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import fuse_opening, short_circuit
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.tables import fuse_series, withstand_for

currents, areas, constants = st.floats(1, 1000), st.floats(0.3, 20), st.floats(60, 150)


@given(volt=st.floats(5, 48), supply=st.floats(0, 1), loop=st.floats(0.01, 5), limit=st.floats(1, 60))
def test_a_fault_never_passes_what_wire_or_supply_allow(volt, supply, loop, limit):
    free = short_circuit.prospective_A(volt, supply, loop)
    fault = short_circuit.fault_current_A(free, limit)
    assert fault <= limit
    assert fault * (supply + loop) <= volt * (1 + 1e-9)


@given(volt=st.floats(5, 48), loop=st.floats(0.01, 5), more=st.floats(1.01, 5))
def test_a_longer_run_holds_a_fault_back(volt, loop, more):
    assert short_circuit.prospective_A(volt, 0, loop * more) < short_circuit.prospective_A(volt, 0, loop)


@given(k=constants, area=areas, current=currents)
def test_time_area_and_heat_agree(k, area, current):
    stood = short_circuit.withstand_A2s(k, area)
    assert current**2 * short_circuit.time_stood_s(k, area, current) == pytest.approx(stood)
    assert short_circuit.least_area_mm2(stood, k) == pytest.approx(area)


@given(start=st.floats(20, 150), rise=st.floats(1, 100), hotter=st.floats(1, 50))
def test_a_wire_that_is_already_warm_stands_less(start, rise, hotter):
    end = start + hotter + rise
    assert short_circuit.withstand_constant(start + hotter, end) < short_circuit.withstand_constant(start, end)


def test_a_time_beyond_the_formula_is_refused():
    with pytest.raises(OutsideValidity, match="longest_s is 6, it must be from 0 to 5"):
        short_circuit.let_through_A2s(20, 6)


def test_an_end_that_is_no_rise_is_refused():
    with pytest.raises(OutsideValidity, match="end_degC is 70, it must be above start_degC, 70"):
        short_circuit.withstand_constant(70, 70)


@pytest.mark.parametrize(
    ("insulation", "k"),
    [
        (60, 115),
        (70, 115),
        (75, 100),
        (90, 100),
        (105, 87),
        (125, 68),
        (200, 123),
    ],
)
def test_unknown_insulation_takes_the_cautious_constant(insulation, k):
    assert withstand_for(insulation).k == k


def test_bursts_of_24_A_for_a_tenth_of_the_time_heat_like_7_6_A():
    assert short_circuit.rms_of_bursts_A(24, 0.1) == pytest.approx(7.6, abs=0.05)


def test_the_thinnest_wire_stands_what_a_10_A_blade_lets_through():
    """0.75 mm² of PVC against 20 A for the longest 5 s."""
    band = fuse_opening.curve(fuse_series("blade"), 10).opening(20)
    let_through = short_circuit.let_through_A2s(20, band.longest_s)
    assert let_through < short_circuit.withstand_A2s(withstand_for(70).k, 0.75)
