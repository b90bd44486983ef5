"""Laws of the surface, and the levels at their edges."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import coil, surface


@given(air=st.floats(10, 60), power=st.floats(0, 100), transfer=st.floats(8, 15), area=st.floats(1e-3, 0.5))
def test_the_rise_is_power_through_the_thermal_resistance(air, power, transfer, area):
    rise = power * coil.thermal_resistance_K_per_W(transfer, area)
    assert surface.surface_degC(air, power, transfer, area) == pytest.approx(air + rise)


@pytest.mark.parametrize(
    ("degC", "level"),
    [
        (47.9, None),
        (48, "note"),
        (50.9, "note"),
        (51, "warm"),
        (59.9, "warm"),
        (60, "caution"),
        (84.9, "caution"),
        (85, "must fix"),
        (200, "must fix"),
    ],
)
def test_each_level_begins_at_its_temperature(degC, level):
    found = surface.touch_level(degC)
    assert (found and found.level) == level


def test_every_level_gives_its_reason():
    assert surface.touch_level(60).reason
