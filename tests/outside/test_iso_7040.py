"""ISO 7040: greatest height of metric lock nuts with a nylon insert, mm. Looked-up."""

import pytest

from guide_gen.published.tables import screw


@pytest.mark.parametrize(("size", "mm"), [("M3", "4.5"), ("M4", "6.0"), ("M5", "6.8"), ("M6", "8.0"), ("M8", "9.5")])
def test_nut_height(size, mm, printed):
    assert screw(size).lock_nut_mm == printed(mm)
