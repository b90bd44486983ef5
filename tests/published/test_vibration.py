"""Limits and usual values of motion: whole, ordered, and refusing what they do not have."""

import pytest

from guide_gen.published.tables import NotInTable
from guide_gen.published.vibration import comfort_bands, motion_value, motion_values, vibration_class


def test_every_usual_value_stands_inside_its_own_range():
    for value in motion_values().values():
        assert value.source
        assert (value.low or value.value) <= value.value <= (value.high or value.value), value.name


def test_comfort_bands_rise():
    lows = [band.low_m_s2 for band in comfort_bands()]
    assert lows == sorted(lows)


def test_an_unknown_class_or_value_is_refused_with_the_known_ones():
    with pytest.raises(NotInTable, match="no vibration class '3M9'; the table has 3M1, 3M2, 3M3, 3M4"):
        vibration_class("3M9")
    with pytest.raises(NotInTable, match="no motion value 'dampng'; the table has winding resistance, "):
        motion_value("dampng")
