"""ISO 898-1: stress areas and proof loads of metric screws. Looked-up."""

from math import pi

import pytest

from guide_gen.published.tables import screw


@pytest.mark.parametrize(
    ("size", "mm2"),
    [
        ("M3", "5.03"),
        ("M4", "8.78"),
        ("M5", "14.2"),
        ("M6", "20.1"),
        ("M8", "36.6"),
    ],
)
def test_stress_area(size, mm2, printed):
    found = screw(size)
    assert found.stress_area_mm2 == printed(mm2)
    assert pi / 4 * (found.diameter_mm - 0.9382 * found.pitch_mm) ** 2 == printed(mm2)


@pytest.mark.parametrize(("size", "newton"), [("M3", 2920), ("M4", 5100), ("M5", 8230), ("M6", 11600), ("M8", 21200)])
def test_proof_load_of_class_8_8(size, newton):
    """580 MPa on the stress area, to the standard's own rounding of half a percent."""
    assert 580 * screw(size).stress_area_mm2 == pytest.approx(newton, rel=5e-3)
