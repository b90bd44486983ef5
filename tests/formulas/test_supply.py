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
