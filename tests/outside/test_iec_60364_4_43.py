"""IEC 60364-4-43: a fuse and the wire behind it (433.1, from memory), short-circuit heat (434.5.2, table 43A)."""

from math import floor

import pytest

from guide_gen.formulas.fuse import largest_rating_A, least_ampacity_A
from guide_gen.formulas.short_circuit import least_area_mm2, let_through_A2s, withstand_constant
from guide_gen.published.tables import all_fuse_series, withstands


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


@pytest.mark.parametrize(
    ("material", "start", "end", "k"),
    [
        ("PVC", 70, 160, 115),
        ("PVC", 90, 160, 100),
        ("XLPE or EPR", 90, 250, 143),
        ("rubber", 60, 200, 141),
        ("silicone rubber", 180, 350, 132),
    ],
)
def test_table_43a(material, start, end, k, printed):
    """115 and 143 looked-up, the others from memory; all follow from the formula of IEC 60364-5-54 annex A."""
    (row,) = (one for one in withstands() if (one.material, one.start_degC) == (material, start))
    assert (row.end_degC, row.k) == (end, k)
    assert withstand_constant(start, end) == pytest.approx(k, abs=0.6)


def test_rows_that_the_table_lacks_follow_its_formula_rounded_down():
    """Insulation of 105, 125 and 200 °C."""
    added = [row for row in withstands() if row.how_known == "computed"]
    assert [row.k for row in added] == [floor(withstand_constant(row.start_degC, row.end_degC)) for row in added]
    assert len(added) == 3


@pytest.mark.parametrize(("ampere", "k", "square_mm"), [(3000, 143, "6.6"), (10000, 115, "27.5")])
def test_the_least_wire_for_a_tenth_of_a_second(ampere, k, square_mm, printed):
    """434.5.2, S = I sqrt(t) / k, as worked in notes on cable sizing. Looked-up."""
    assert least_area_mm2(let_through_A2s(ampere, 0.1), k) == printed(square_mm)
