"""ASME B1.1, unified threads: stress area pi/4 (d - 0.9743/n)², square inches. Looked-up; #6-32 from memory."""

from math import pi

import pytest

from guide_gen.published.tables import screw


@pytest.mark.parametrize(
    ("size", "inch2"),
    [
        ("6-32", "0.00909"),
        ("8-32", "0.0140"),
        ("10-24", "0.0175"),
        ("10-32", "0.0200"),
        ("1/4-20", "0.0318"),
    ],
)
def test_stress_area(size, inch2, printed):
    assert screw(size).stress_area_mm2 / 25.4**2 == printed(inch2)


@pytest.mark.parametrize(
    ("size", "threads"),
    [
        ("6-32", 32),
        ("8-32", 32),
        ("10-24", 24),
        ("10-32", 32),
        ("1/4-20", 20),
    ],
)
def test_stress_area_follows_from_the_thread(size, threads):
    """To 0.6 percent, the rounding of the tables."""
    found = screw(size)
    diameter_in = found.diameter_mm / 25.4
    assert found.pitch_mm * threads == pytest.approx(25.4, rel=1e-4)
    assert pi / 4 * (diameter_in - 0.9743 / threads) ** 2 * 25.4**2 == pytest.approx(found.stress_area_mm2, rel=6e-3)
