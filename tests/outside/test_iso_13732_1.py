"""ISO 13732-1, burn thresholds of surfaces by material and time of contact. From memory."""

import pytest

from guide_gen.formulas.surface import touch_level

# Lower end of the burn threshold.
ANY_10_MIN, METAL_1_MIN, PLASTIC_1_MIN, METAL_1_S, PLASTIC_1_S = 48, 51, 60, 65, 85


@pytest.mark.parametrize(
    ("degC", "level"),
    [
        (ANY_10_MIN, "note"),
        (METAL_1_MIN, "warm"),
        (PLASTIC_1_MIN, "caution"),
        (PLASTIC_1_S, "must fix"),
    ],
)
def test_a_level_begins_at_a_threshold(degC, level):
    assert touch_level(degC).level == level
    below = touch_level(degC - 0.1)
    assert below is None or below.level != level


def test_metal_that_burns_at_a_touch_is_at_least_a_caution():
    assert touch_level(METAL_1_S).level == "caution"


def test_what_may_be_touched_for_8_hours_needs_no_word():
    """43 °C."""
    assert touch_level(43) is None
