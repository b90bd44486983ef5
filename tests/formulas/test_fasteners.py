"""Laws of the screw stack."""

from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import fasteners
from guide_gen.published.tables import screws

thickness = st.floats(0.5, 40)


@given(panel=thickness, bracket=thickness, size=st.sampled_from(sorted(screws())))
def test_two_threads_stand_out_of_the_nut(panel, bracket, size):
    screw = screws()[size]
    stack = fasteners.stack_mm(panel, 0.5, bracket, screw.washer_mm)
    length = fasteners.screw_length_needed_mm(stack, screw.lock_nut_mm, screw.pitch_mm)
    assert stack > panel + bracket
    assert length - stack - screw.lock_nut_mm > 1.99 * screw.pitch_mm


@given(panel=thickness, more=st.floats(0.1, 10))
def test_a_thicker_panel_asks_for_a_longer_screw(panel, more):
    assert fasteners.stack_mm(panel + more, 0.5, 3, 1) > fasteners.stack_mm(panel, 0.5, 3, 1)
