"""Laws of the port formulas."""

from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import port


@given(rated_A=st.floats(0.1, 100))
def test_a_port_is_never_used_to_its_rating(rated_A):
    assert 0 < port.usable_current_A(rated_A) < rated_A
