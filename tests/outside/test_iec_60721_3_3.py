"""IEC 60721-3-3, mechanical classes as labelled in the edition of 1994, table 6. 3M1 looked-up, the others memory."""

import pytest

from guide_gen.formulas.cabinet import CROSSING_Hz, acceleration_m_s2
from guide_gen.published.vibration import vibration_class

ROWS = [("3M1", 0.3, 1), ("3M2", 1.5, 5), ("3M3", 1.5, 5), ("3M4", 3.0, 10)]


@pytest.mark.parametrize(("name", "shift_mm", "acceleration"), ROWS)
def test_class_stands_as_in_the_table(name, shift_mm, acceleration):
    limit = vibration_class(name)
    assert limit.shift_m == pytest.approx(shift_mm / 1000)
    assert limit.acceleration_m_s2 == acceleration


@pytest.mark.parametrize(("name", "shift_mm", "acceleration"), ROWS)
def test_both_columns_meet_where_one_takes_over_from_the_other(name, shift_mm, acceleration):
    """At 9 Hz, within 5 %: computed."""
    assert acceleration_m_s2(shift_mm / 1000, CROSSING_Hz) == pytest.approx(acceleration, rel=0.05)


def test_only_9_Hz_joins_them():
    """2 Hz, where the table begins, or 200 Hz, where it ends, would be off by far."""
    assert acceleration_m_s2(1.5e-3, 2) < 0.3
    assert acceleration_m_s2(1.5e-3, 200) > 2000
