"""IEC 60364-4-43 433.1, a fuse and the wire behind it: In <= Iz and I2 <= 1.45 Iz. From memory."""

import pytest

from guide_gen.formulas.fuse import largest_rating_A, least_ampacity_A
from guide_gen.published.tables import all_fuse_series


@pytest.mark.parametrize("holder", ["blade", "mini blade", "5 x 20 mm UL", "6.3 x 32 mm UL"])
def test_a_fuse_that_opens_at_135_percent_may_be_as_large_as_the_ampacity(holder):
    """1.35 is below 1.45, so the first condition governs."""
    assert largest_rating_A(13.1, all_fuse_series()[holder].opens_at) == 13.1


def test_a_gg_fuse_of_i2_1_6_is_limited_to_0_906_of_the_ampacity(printed):
    """Textbook figure for IEC 60269 gG fuses, I2 = 1.6 In: In <= 0.906 Iz. From memory."""
    assert largest_rating_A(1, 1.6) == printed("0.906")


def test_a_circuit_breaker_of_i2_1_45_may_be_as_large_as_the_ampacity():
    """IEC 60898-1: I2 = 1.45 In makes both conditions one. From memory."""
    assert least_ampacity_A(16, 1.45) == pytest.approx(16)
