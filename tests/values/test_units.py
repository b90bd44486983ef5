"""Factors of units. NIST SP 811 (2008), Guide for the Use of the SI, appendix B.8; from memory, not compared again.

The traps are what pint makes of text, tried with pint 0.25.3: the grammar stands in front of it.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.values.units import DIMENSION_OF, DIMENSIONS, MEANT, from_si, tidy_unit, to_si


@pytest.mark.parametrize(
    ("number", "unit", "printed", "half_last_place"),
    [
        (1.0, "ft", 0.3048, 0.0),
        (1.0, "in", 0.0254, 0.0),
        (1.0, "lb", 0.4535924, 0.00000005),
        (1.0, "oz", 0.02834952, 0.000000005),
        (1.0, "lbf in", 0.1129848, 0.00000005),
        (1.0, "rpm", 0.1047198, 0.00000005),
        (1.0, "km", 1000.0, 0.0),
        (1.0, "min", 60.0, 0.0),
    ],
)
def test_a_factor_is_what_sp_811_prints(number: float, unit: str, printed: float, half_last_place: float) -> None:
    assert to_si(number, unit) == pytest.approx(printed, rel=0, abs=half_last_place + 1e-15)


# The two fixed points of both scales: ice and steam at one atmosphere.
@pytest.mark.parametrize(("fahrenheit", "celsius"), [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0), (104.0, 40.0)])
def test_fahrenheit_meets_celsius(fahrenheit: float, celsius: float) -> None:
    assert to_si(fahrenheit, "°F") == celsius


@pytest.mark.parametrize(("written", "second"), [("us", 1e-6), ("µs", 1e-6), ("μs", 1e-6), ("ns", 1e-9)])
def test_short_times_have_the_prefixes_of_the_si(written: str, second: float) -> None:
    """BIPM SI brochure, table of prefixes; both signs for micro are read."""
    assert to_si(35.0, tidy_unit(written)) == pytest.approx(35 * second, rel=1e-12)


@pytest.mark.parametrize("written", ["K/W", "°C/W", "degC/W"])
def test_a_kelvin_a_watt_is_a_degree_a_watt(written: str) -> None:
    """A difference of temperatures is the same in both: NIST SP 811, 8.5; no zero point enters."""
    assert tidy_unit(written) == "K/W"
    assert to_si(60.0, "K/W") == 60.0


def test_percent_is_a_share_of_one() -> None:
    assert to_si(12.0, "%") == 0.12


def test_a_decimal_unit_leaves_no_noise() -> None:
    assert to_si(18.0, "mm") == 0.018


@given(st.sampled_from(sorted(DIMENSION_OF)), st.floats(0.001, 1000.0))
def test_there_and_back_is_the_same_number(unit: str, number: float) -> None:
    assert from_si(to_si(number, unit), unit) == pytest.approx(number, rel=1e-9, abs=1e-9)


def test_what_people_write_leads_to_units_of_the_list() -> None:
    assert {unit for unit in MEANT.values() if unit not in DIMENSION_OF} == set()


def test_no_spelling_is_taken_and_corrected_at_once() -> None:
    taken = {spelling for spelling in MEANT if tidy_unit(spelling) in DIMENSION_OF}
    assert {spelling for spelling in taken if MEANT[spelling] != spelling} == set()


def test_every_unit_of_a_dimension_has_a_finite_factor() -> None:
    assert all(math.isfinite(to_si(1.0, unit)) for dimension in DIMENSIONS.values() for unit in dimension.units)
