"""ISO 8820-3: blade fuses of type C (regular) and F (mini).

Ratings to 30 A, colours and voltage looked-up; 35 A, 40 A and opening times from memory.
"""

import pytest

from guide_gen.formulas.fuse_opening import curve
from guide_gen.published.tables import fuse_series


def test_regular_ratings():
    assert fuse_series("blade").ratings_A == (1, 2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30, 35, 40)


def test_mini_ratings():
    assert fuse_series("mini blade").ratings_A == (2, 3, 4, 5, 7.5, 10, 15, 20, 25, 30)


@pytest.mark.parametrize("holder", ["blade", "mini blade"])
def test_voltage_is_32_V_DC(holder):
    assert fuse_series(holder).dc_voltage_V == 32


@pytest.mark.parametrize("holder", ["blade", "mini blade"])
def test_opens_for_certain_at_135_percent(holder):
    assert fuse_series(holder).opens_at == 1.35


@pytest.mark.parametrize(
    ("multiple", "shortest_s", "longest_s"),
    [
        (1.10, 360000, None),
        (1.35, 0.75, 600),
        (1.60, 0.25, 50),
        (2.00, 0.15, 5),
        (3.50, 0.04, 0.5),
        (6.00, 0.02, 0.1),
    ],
)
def test_opening_times(multiple, shortest_s, longest_s):
    (gate,) = (gate for gate in fuse_series("blade").gates if gate.multiple == multiple)
    assert (gate.shortest_s, gate.longest_s) == (shortest_s, longest_s)


@pytest.mark.parametrize(
    ("rating_A", "colour"),
    [
        (3, "violet"),
        (5, "tan"),
        (7.5, "brown"),
        (10, "red"),
        (15, "blue"),
        (20, "yellow"),
        (30, "green"),
    ],
)
def test_colours(rating_A, colour):
    assert fuse_series("blade").fuse(rating_A).colour == colour
    assert fuse_series("mini blade").fuse(rating_A).colour == colour


@pytest.mark.parametrize(
    ("multiple", "shortest_s", "longest_s"),
    [
        (1.35, 0.75, 600),
        (1.60, 0.25, 50),
        (2.00, 0.15, 5),
        (3.50, 0.04, 0.5),
        (6.00, 0.02, 0.1),
    ],
)
def test_the_band_of_every_rating(multiple, shortest_s, longest_s):
    for rating in fuse_series("blade").ratings_A:
        band = curve(fuse_series("blade"), rating).opening(multiple * rating)
        assert (band.shortest_s, band.longest_s) == pytest.approx((shortest_s, longest_s))


def test_110_percent_is_carried_for_100_hours():
    assert curve(fuse_series("blade"), 10).opening(11).shortest_s == 100 * 3600


def test_the_floor_of_the_melting_i2t():
    """3.5² x 0.04 s = 0.49 times the rating squared, the least of all gates."""
    assert curve(fuse_series("mini blade"), 5).melting_A2s == pytest.approx(0.49 * 25)
