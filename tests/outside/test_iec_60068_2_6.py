"""IEC 60068-2-6:2007, sinusoidal vibration: displacement and acceleration that go together. From memory."""

import pytest

from guide_gen.formulas.cabinet import acceleration_m_s2


@pytest.mark.parametrize(("shift_mm", "acceleration"), [(0.035, 4.9), (0.075, 9.8), (0.15, 19.6)])
def test_high_crossover_lies_between_57_and_62_Hz(shift_mm, acceleration):
    assert acceleration_m_s2(shift_mm / 1000, 57) <= acceleration <= acceleration_m_s2(shift_mm / 1000, 62)


@pytest.mark.parametrize(("shift_mm", "acceleration"), [(3.5, 9.8), (7.0, 19.6)])
def test_low_crossover_lies_between_8_and_9_Hz(shift_mm, acceleration):
    assert acceleration_m_s2(shift_mm / 1000, 8) <= acceleration <= acceleration_m_s2(shift_mm / 1000, 9)
