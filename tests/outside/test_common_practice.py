"""Facts of the trade. Common practice, no source."""

import pytest

from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.formulas.fasteners import screw_length_needed_mm, stack_mm
from guide_gen.formulas.fuse import needed_by_continuous_A, needed_by_margin_A
from guide_gen.published.tables import fuse_series, screw_lengths

INCH = 25.4


@pytest.mark.parametrize(
    ("holder", "rating_A"),
    [
        ("blade", 7.5),
        ("mini blade", 7.5),
        ("6.3 x 32 mm UL", 7.5),
        ("5 x 20 mm", 8),
        ("5 x 20 mm UL", 8),
    ],
)
def test_5_A_times_1_5_takes_the_7_5_A_fuse_where_there_is_one_and_else_8_A(holder, rating_A):
    needed = needed_by_margin_A(5, 1.5)
    assert needed == 7.5
    assert smallest_at_or_above(fuse_series(holder).ratings_A, needed, "A")[0] == rating_A


@pytest.mark.parametrize("running_A", [5, 5.5, 6])
def test_a_5_A_fuse_is_below_the_load_of_a_motor_that_draws_5_A_to_6_A(running_A):
    assert needed_by_margin_A(running_A, 1.5) > 5
    assert needed_by_continuous_A(running_A, 1) > 5


@pytest.mark.parametrize(("factor", "rating"), [(1.0, "2.0"), (0.80, "2.5")])
def test_a_load_of_1_5_A_at_25_degC_and_at_70_degC(factor, rating, printed):
    """Widely reprinted in fuse guides, from memory: 1.5/0.75 = 2.0 A, and 1.5/(0.75 x 0.80) = 2.5 A for a slow fuse."""
    assert needed_by_continuous_A(1.5, factor) == printed(rating)


def test_a_shaker_in_a_three_quarter_inch_floor_takes_inch_and_a_half_screws(printed):
    """3/4 in panel, 1/8 in frame, two washers of 0.049 in, nut of 0.240 in, two threads of 1/32 in: 1.276 in."""
    stack = stack_mm(0.75 * INCH, 0, 0.125 * INCH, 0.049 * INCH)
    needed = screw_length_needed_mm(stack, 0.240 * INCH, INCH / 32)
    assert needed / INCH == pytest.approx(1.276, abs=0.001)
    lengths = {length.length_mm: length.shown for length in screw_lengths("inch")}
    taken, _ = smallest_at_or_above(lengths, needed, "mm")
    assert lengths[taken] == "1 1/2 in"
