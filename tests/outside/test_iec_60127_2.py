"""IEC 60127-2: cartridges of 5 x 20 mm. Ratings 0.2 A to 10 A and sheets 2, 3, 5 looked-up, the others from memory."""

from math import inf

import pytest

from guide_gen.formulas.fuse import largest_rating_A
from guide_gen.formulas.fuse_opening import Outcome, curve
from guide_gen.published.tables import fuse_series

SERIES = fuse_series("5 x 20 mm")


def test_ratings_from_one_ampere_up():
    assert [rating for rating in SERIES.ratings_A if rating >= 1] == [1, 1.25, 1.6, 2, 2.5, 3.15, 4, 5, 6.3, 8, 10]


def test_ratings_are_every_tenth_of_a_decade():
    """ISO 3, preferred numbers R10: each is a tenth of a decade above the last, to their rounding."""
    for smaller, larger in zip(SERIES.ratings_A, SERIES.ratings_A[1:], strict=False):
        assert larger / smaller == pytest.approx(10**0.1, rel=0.03)


def test_opens_for_certain_at_210_percent():
    assert SERIES.opens_at == 2.1


def test_the_ac_rating_says_nothing_of_dc():
    assert SERIES.dc_voltage_V is None


@pytest.mark.parametrize(
    ("character", "multiple", "shortest_s", "longest_s"),
    [
        ("F sheet 2", 1.5, 3600, None),
        ("F sheet 2", 2.1, None, 1800),
        ("F sheet 2", 2.75, 0.05, 2),
        ("F sheet 2", 4, 0.01, 0.3),
        ("F sheet 2", 10, None, 0.02),
        ("T sheet 3", 1.5, 3600, None),
        ("T sheet 3", 2.1, None, 120),
        ("T sheet 3", 2.75, 0.6, 10),
        ("T sheet 3", 4, 0.15, 3),
        ("T sheet 3", 10, 0.02, 0.3),
    ],
)
def test_opening_times_of_a_5_A_fuse(character, multiple, shortest_s, longest_s):
    (gate,) = (
        gate
        for gate in SERIES.gates
        if (gate.character, gate.multiple) == (character, multiple) and gate.from_A <= 5 <= gate.to_A
    )
    assert (gate.shortest_s, gate.longest_s) == (shortest_s, longest_s)


def test_a_wire_allows_only_0_69_of_its_ampacity(printed):
    """IEC 60364-4-43 433.1: 2.1 In <= 1.45 Iz gives In <= 0.69 Iz."""
    assert largest_rating_A(1, SERIES.opens_at) == printed("0.69")


@pytest.mark.parametrize(
    ("speed", "multiple", "shortest_s", "longest_s"),
    [
        ("fast", 1.5, 3600, inf),
        ("fast", 2.75, 0.05, 2),
        ("fast", 4, 0.01, 0.3),
        ("time-lag", 1.5, 3600, inf),
        ("time-lag", 2.75, 0.6, 80),
        ("time-lag", 4, 0.15, 5),
        ("time-lag", 10, 0.02, 0.3),
    ],
)
def test_the_band_of_a_5_A_fuse_of_known_speed(speed, multiple, shortest_s, longest_s):
    """Time-lag: the wider of sheets 3 and 5, since both print a T."""
    band = curve(SERIES, 5, speed).opening(multiple * 5)
    assert (band.shortest_s, band.longest_s) == (shortest_s, longest_s)


def test_one_and_a_half_times_its_rating_is_carried_for_an_hour():
    assert curve(SERIES, 5).outcome(7.5, 3599) is not Outcome.OPENS
    assert curve(SERIES, 5).opening(7.4).shortest_s == inf
