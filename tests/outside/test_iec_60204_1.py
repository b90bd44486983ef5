"""IEC 60204-1:2016 table 6 and annex D, method B2: PVC 70 °C at 40 °C. Table 6 and D.2 from memory, D.1 looked-up."""

import pytest

from guide_gen.formulas.wire import ambient_factor
from guide_gen.published.tables import family

FAMILY = family("IEC 60204-1")


@pytest.mark.parametrize(
    ("size", "ampere"),
    [
        ("0.75", "8.5"),
        ("1", "10.1"),
        ("1.5", "13.1"),
        ("2.5", "17.4"),
        ("4", "23"),
        ("6", "30"),
        ("10", "40"),
        ("16", "54"),
    ],
)
def test_ampacity(size, ampere, printed):
    assert FAMILY.ampacity_A(size, 70) == printed(ampere)


@pytest.mark.parametrize("size", ["1.5", "2.5", "4", "6", "10", "16"])
def test_ampacity_is_that_of_iec_60364_5_52_at_40_degC(size):
    """They differ by the factor from 30 °C to 40 °C, 0.87 in IEC 60364-5-52 table B.52.14 (from memory)."""
    at_30_degC = family("IEC 60364-5-52").ampacity_A(size, 70)
    assert FAMILY.ampacity_A(size, 70) == pytest.approx(0.87 * at_30_degC, abs=0.51)
    assert ambient_factor(70, 40, 30) == pytest.approx(0.87, abs=0.006)


@pytest.mark.parametrize(
    ("air_degC", "factor"),
    [
        (30, 1.15),
        (35, 1.08),
        (40, 1.00),
        (45, 0.91),
        (50, 0.82),
        (55, 0.71),
        (60, 0.58),
    ],
)
def test_ambient_factor(air_degC, factor):
    """Table D.1; the square root meets the printed rounding to 0.006."""
    assert ambient_factor(70, air_degC, 40) == pytest.approx(factor, abs=0.006)


@pytest.mark.parametrize(("circuits", "factor"), [(2, "0.80"), (4, "0.65"), (6, "0.57"), (9, "0.50")])
def test_bundle_factor(circuits, factor, printed):
    """Table D.2, methods B1 and B2."""
    assert FAMILY.bundle_factor(circuits)[0] == printed(factor)
