"""ASTM B258: diameters of the American wire gauge, in inches to a tenth of a mil. From memory."""

import pytest

from guide_gen.formulas.wire import awg_area_mm2
from guide_gen.published.tables import awg_diameter_mm


@pytest.mark.parametrize(
    ("gauge", "inches"),
    [
        (6, "0.1620"),
        (8, "0.1285"),
        (10, "0.1019"),
        (12, "0.0808"),
        (14, "0.0641"),
        (16, "0.0508"),
        (18, "0.0403"),
        (20, "0.0320"),
        (22, "0.0253"),
        (24, "0.0201"),
        (36, "0.0050"),
        (0, "0.3249"),
    ],
)
def test_diameter(gauge, inches, printed):
    assert awg_diameter_mm(gauge) / 25.4 == printed(inches)


def test_six_gauges_double_the_diameter_almost():
    """The rule's ratio is the 39th root of 92, 1.122932; its sixth power is 2.0050."""
    assert awg_diameter_mm(12) / awg_diameter_mm(18) == pytest.approx(2.0050, abs=5e-5)


@pytest.mark.parametrize(
    ("gauge", "cmil"),
    [
        (8, "16510"),
        (10, "10380"),
        (12, "6530"),
        (14, "4110"),
        (16, "2580"),
        (18, "1620"),
    ],
)
def test_area_in_circular_mils(gauge, cmil):
    """NFPA 70-2023 chapter 9 table 8 prints the areas to the nearest 10 circular mils; looked-up.

    6 AWG is left out: its 26240 comes from the rounded diameter.
    """
    mm2_to_cmil = 4 / 3.14159265 / 0.0254**2
    assert awg_area_mm2(gauge) * mm2_to_cmil == pytest.approx(float(cmil), abs=5)
