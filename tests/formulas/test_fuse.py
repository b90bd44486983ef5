"""Laws of the fuse formulas."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import fuse
from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.tables import all_fuse_series

current = st.floats(0.01, 5)
air = st.floats(-20, 85)


@given(one=current, other=current, degC=air, holder=st.sampled_from(sorted(all_fuse_series())))
def test_more_current_never_takes_a_smaller_fuse(one, other, degC, holder):
    def rating(current_A):
        factor = fuse.temperature_factor(degC)
        needed = max(fuse.needed_by_margin_A(current_A, 1.5), fuse.needed_by_continuous_A(current_A, factor))
        return smallest_at_or_above(all_fuse_series()[holder].ratings_A, needed, "A")[0]

    smaller, larger = sorted((one, other))
    assert rating(smaller) <= rating(larger)


@given(one=air, other=air)
def test_warmer_air_never_lets_a_fuse_carry_more(one, other):
    cooler, warmer = sorted((one, other))
    assert fuse.temperature_factor(cooler) >= fuse.temperature_factor(warmer)


@pytest.mark.parametrize(("degC", "factor"), [(-40, 1), (20, 1), (42.5, 0.925), (65, 0.85), (75, 0.80), (85, 0.75)])
def test_temperature_factor_is_straight_between_its_points(degC, factor):
    assert fuse.temperature_factor(degC) == pytest.approx(factor)


def test_air_hotter_than_the_last_point_is_refused():
    with pytest.raises(OutsideValidity, match=r"temperature_degC is 85\.1, it must be from -273\.15 to 85"):
        fuse.temperature_factor(85.1)


def test_the_trade_margin_is_enough_up_to_about_50_degC():
    """1.5 equals 1/(0.75 k_T) at k_T = 0.889, which the straight line reaches at 53 °C."""
    for degC, enough in ((20, True), (50, True), (56, False)):
        continuous = fuse.needed_by_continuous_A(1, fuse.temperature_factor(degC))
        assert (fuse.needed_by_margin_A(1, 1.5) >= continuous) is enough


@given(rating=st.floats(0.05, 100), opens_at=st.floats(1, 3))
def test_least_ampacity_undoes_largest_rating(rating, opens_at):
    assert fuse.largest_rating_A(fuse.least_ampacity_A(rating, opens_at), opens_at) == pytest.approx(rating)


@given(ampacity=st.floats(0.5, 200), opens_at=st.floats(1, 3))
def test_the_wire_stands_what_opens_its_fuse(ampacity, opens_at):
    rating = fuse.largest_rating_A(ampacity, opens_at)
    assert rating <= ampacity
    assert opens_at * rating <= 1.45 * ampacity * (1 + 1e-12)


@given(smaller=st.floats(1, 10), more=st.floats(1, 10))
def test_a_larger_fuse_has_less_resistance(smaller, more):
    assert fuse.blade_resistance_ohm(smaller + more) < fuse.blade_resistance_ohm(smaller)
    assert fuse.blade_resistance_ohm(smaller) < fuse.cartridge_resistance_ohm(smaller)
