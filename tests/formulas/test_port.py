"""Laws of the port formulas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import port


@given(rated_A=st.floats(0.1, 100))
def test_a_port_is_never_used_to_its_rating(rated_A):
    assert 0 < port.usable_current_A(rated_A) < rated_A


@given(current_A=st.floats(0.1, 50), ohm=st.floats(0.001, 1))
def test_twice_the_current_is_four_times_the_heat(current_A, ohm):
    assert port.switch_power_W(2 * current_A, ohm) == pytest.approx(4 * port.switch_power_W(current_A, ohm))
