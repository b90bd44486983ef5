"""Laws of the supply formulas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import supply
from guide_gen.formulas.validity import OutsideValidity

amperes = st.floats(0.1, 100)


def test_demand_shows_what_it_adds():
    worked = supply.demand("demand", "Demand", {"I_1": 6.0, "I_2": 1.4})
    assert worked.formula == "I_1 + I_2"
    assert worked.result == pytest.approx(eval(worked.formula, {"__builtins__": {}}, dict(worked.numbers)))
    assert worked.units == {"I_1": "A", "I_2": "A"}
    assert worked.source


def test_nothing_asks_for_nothing():
    worked = supply.demand("demand", "Demand", {})
    assert (worked.formula, worked.result) == ("0", 0)


def test_a_negative_demand_is_refused():
    with pytest.raises(OutsideValidity, match="I_2 is -1"):
        supply.demand("demand", "Demand", {"I_1": 2.0, "I_2": -1.0})


@given(rated_A=amperes)
def test_what_a_lead_must_carry_is_never_below_what_opens_a_fuse(rated_A):
    assert supply.usable_current_A(rated_A) < rated_A
    assert rated_A < supply.limit_for_opening_A(rated_A) < supply.limit_to_carry_A(rated_A)


def test_headroom_is_what_is_left():
    assert supply.headroom_percent(0, 20) == 100
    assert supply.headroom_percent(16, 20) == pytest.approx(20)
    assert supply.headroom_percent(25, 20) == pytest.approx(-25)


@given(demand_A=amperes, share=st.floats(0, 1), start=st.floats(1, 10))
def test_a_start_never_asks_for_less_than_running(demand_A, share, start):
    running_A = share * demand_A
    assert supply.demand_at_start_A(demand_A, start * running_A, running_A) >= demand_A * (1 - 1e-12)


def test_a_toy_that_runs_on_more_than_the_whole_demand_is_refused():
    with pytest.raises(OutsideValidity, match="running_A is 6, it must be from 0 to 5"):
        supply.demand_at_start_A(5, 10, 6)


# At start, and the one to buy

starters = st.lists(
    st.builds(supply.Starter, st.text(max_size=3), st.floats(0, 60), st.floats(0, 1), st.sampled_from([0.0, 0.5, 1.0])),
    max_size=6,
).map(tuple)


@given(demand=st.floats(6, 30), found=starters)
def test_starting_together_asks_no_less_than_one_by_one(demand, found):
    single, staggered = supply.largest_start(demand, found), supply.staggered_start(demand, found)
    at_once = demand + sum(max(0.0, one.start_A - one.running_A) for one in found)
    assert demand <= single.demand_A <= at_once + 1e-9
    assert demand <= staggered.demand_A <= at_once + 1e-9


@given(demand=st.floats(6, 30), found=starters)
def test_toys_that_each_start_at_their_own_time_are_counted_one_by_one(demand, found):
    apart = tuple(supply.Starter(one.name, one.start_A, one.running_A, float(n)) for n, one in enumerate(found))
    assert supply.staggered_start(demand, apart).demand_A == pytest.approx(supply.largest_start(demand, apart).demand_A)


def test_the_largest_start_is_named():
    found = supply.largest_start(10, (supply.Starter("fan", 4, 1), supply.Starter("shaker", 30, 6)))
    assert found == supply.StartBudget(("shaker",), 34)


def test_without_a_starter_the_demand_stays():
    assert supply.largest_start(10, ()) == supply.StartBudget((), 10)


def test_a_starter_that_runs_at_more_than_the_demand_is_refused():
    with pytest.raises(OutsideValidity, match="running_A is 11"):
        supply.largest_start(10, (supply.Starter("shaker", 30, 11),))


@given(demand=amperes, more=st.floats(0, 50))
def test_the_rating_needed_covers_lasting_load_and_start(demand, more):
    needed = supply.rating_needed_A(demand, demand + more)
    assert supply.usable_current_A(needed) >= demand * (1 - 1e-9)
    assert needed >= demand + more


def test_the_next_supply_up_is_taken_and_above_the_largest_none():
    assert supply.rating_to_buy(supply.rating_needed_A(13, 14))[0] == 20
    assert supply.rating_to_buy(61)[0] is None


@given(second=st.floats(0, 0.02))
def test_a_larger_capacitor_sags_less(second):
    assert supply.capacitor_sag(20, second, 0.02, 12) <= supply.capacitor_sag(20, second, 0.01, 12)


def test_capacitor_holds_half_its_capacitance_times_the_voltage_squared():
    """OpenStax University Physics volume 2, energy stored in a capacitor: 1000 uF at 48 V hold 1.152 J."""
    assert supply.capacitor_energy_J(capacitance_F=1e-3, voltage_V=48) == pytest.approx(1.152)


def test_capacitor_empties_by_a_factor_of_e_in_each_time_constant():
    """OpenStax University Physics volume 2, RC circuits: t = R C ln(V / V_s); none when it is low already."""
    e = 2.718281828459045
    assert supply.discharge_s(bleed_ohm=1000, capacitance_F=0.01, voltage_V=5 * e, safe_V=5) == pytest.approx(10)
    assert supply.discharge_s(bleed_ohm=1000, capacitance_F=0.01, voltage_V=4, safe_V=5) == 0


@given(demand=amperes, more=st.floats(0, 50))
def test_the_rating_for_what_runs_is_the_one_needed_without_a_start(demand, more):
    assert supply.rating_to_run_A(demand) == supply.rating_needed_A(demand, demand)
    assert supply.rating_to_run_A(demand) <= supply.rating_needed_A(demand, demand + more)
