"""Laws of the motor bounds."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import motor
from guide_gen.formulas.validity import OutsideValidity


@given(voltage_V=st.floats(1, 48), ohm=st.floats(0.05, 10), share=st.floats(0.01, 0.99))
def test_a_turning_motor_resists_less_than_its_meter_readings_suggest(voltage_V, ohm, share):
    running_A = share * motor.start_current_A(voltage_V, ohm)
    assert motor.back_emf_V(voltage_V, running_A, ohm) > 0
    assert ohm < motor.winding_upper_ohm(voltage_V, running_A)


def test_a_motor_at_standstill_has_no_back_emf():
    assert motor.back_emf_V(12, motor.start_current_A(12, 0.5), 0.5) == 0


def test_more_current_than_at_standstill_is_refused():
    with pytest.raises(OutsideValidity, match="current_A is 25, it must be at most 24, the current at standstill"):
        motor.back_emf_V(12, 25, 0.5)
