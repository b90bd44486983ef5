"""ISO 273 medium series: clearance holes for metric screws, mm. Looked-up."""

import pytest

from guide_gen.published.tables import screw


@pytest.mark.parametrize(("size", "mm"), [("M3", "3.4"), ("M4", "4.5"), ("M5", "5.5"), ("M6", "6.6"), ("M8", "9")])
def test_medium_hole(size, mm, printed):
    assert screw(size).hole_mm == printed(mm)
