"""IEC 60364-5-52 table B.52.4, method B2: three loaded copper conductors, PVC, 30 °C.

1.5 to 6 mm² looked-up; 10 and 16 mm² and table B.52.17 from memory.
"""

import pytest

from guide_gen.published.tables import family

FAMILY = family("IEC 60364-5-52")


@pytest.mark.parametrize(
    ("size", "ampere"),
    [
        ("1.5", "15"),
        ("2.5", "20"),
        ("4", "27"),
        ("6", "34"),
        ("10", "46"),
        ("16", "62"),
    ],
)
def test_ampacity(size, ampere, printed):
    assert FAMILY.ampacity_A(size, 70) == printed(ampere)


def test_conditions():
    assert (FAMILY.ambient_degC, FAMILY.insulation_degC, FAMILY.smallest) == (30, (70,), "1.5")


@pytest.mark.parametrize(
    ("circuits", "factor"),
    [
        (1, "1.00"),
        (2, "0.80"),
        (3, "0.70"),
        (4, "0.65"),
        (5, "0.60"),
        (6, "0.57"),
        (7, "0.54"),
        (8, "0.52"),
        (9, "0.50"),
        (12, "0.45"),
        (16, "0.41"),
        (20, "0.38"),
    ],
)
def test_bundle_factor(circuits, factor, printed):
    assert FAMILY.bundle_factor(circuits)[0] == printed(factor)
