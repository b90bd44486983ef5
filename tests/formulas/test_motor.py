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


# Identification, temperature, steady running, gearbox

volts, ohms, constants = st.floats(5, 48), st.floats(0.1, 5), st.floats(0.01, 0.2)
shares = st.floats(0.05, 0.9)


def _speed(voltage_V, current_A, ohm, constant, brush_V=0):
    return (voltage_V - brush_V - current_A * ohm) / constant


@given(volt=volts, ohm=ohms, constant=constants, share=shares, brush_V=st.floats(0, 1.5))
def test_the_constant_is_found_back_from_a_running_point(volt, ohm, constant, share, brush_V):
    current = share * (volt - brush_V) / ohm
    speed = _speed(volt, current, ohm, constant, brush_V)
    assert motor.constant_V_s_per_rad(volt, brush_V, current, ohm, speed) == pytest.approx(constant)


@given(volt=volts, ohm=ohms, brush_V=st.floats(0, 1.5))
def test_the_winding_is_found_back_from_the_stall_current(volt, ohm, brush_V):
    stall = motor.running_current_A(volt, brush_V, ohm, 0.05, 0)
    assert motor.stall_resistance_ohm(volt, brush_V, stall) == pytest.approx(ohm)


@given(volt=volts, ohm=ohms, constant=constants, light=st.floats(0.05, 0.3), heavy=st.floats(0.5, 0.9))
def test_both_are_found_back_from_two_running_points(volt, ohm, constant, light, heavy):
    points = [
        motor.RunningPoint(volt, part * volt / ohm, _speed(volt, part * volt / ohm, ohm, constant))
        for part in (light, heavy)
    ]
    found = motor.from_two_points(*points, 0)
    assert found.resistance_ohm == pytest.approx(ohm)
    assert found.constant_V_s_per_rad == pytest.approx(constant)


def test_two_points_too_close_together_are_refused():
    near = [motor.RunningPoint(12, amp, _speed(12, amp, 0.4, 0.05)) for amp in (5, 5.1)]
    with pytest.raises(OutsideValidity, match="too close together"):
        motor.from_two_points(*near, 0)


def test_two_points_that_no_motor_has_are_refused():
    with pytest.raises(OutsideValidity, match="one reading must be wrong"):
        motor.from_two_points(motor.RunningPoint(12, 5, 100), motor.RunningPoint(12, 10, 150), 0)


def test_a_running_current_as_at_standstill_is_refused():
    with pytest.raises(OutsideValidity, match="current_A is 30, it must be below 30, the current at standstill"):
        motor.constant_V_s_per_rad(12, 0, 30, 0.4, 200)


@given(degC=st.floats(21, 150))
def test_a_hot_motor_stalls_at_less_current_but_turns_faster(degC):
    cold_ohm, cold = 0.32, 0.045
    hot_ohm, hot = motor.winding_at_ohm(cold_ohm, degC), motor.constant_at_V_s_per_rad(cold, degC)
    assert motor.start_current_A(12, hot_ohm) < motor.start_current_A(12, cold_ohm)
    # Without load, since a loaded hot motor also loses more in its winding.
    assert motor.steady_speed_rad_per_s(12, 0, hot_ohm, hot, 0, 0) > motor.steady_speed_rad_per_s(
        12, 0, cold_ohm, cold, 0, 0
    )


@given(volt=volts, ohm=ohms, constant=constants, load=st.floats(0, 1), drag=st.floats(0, 1e-3))
def test_torques_balance_at_the_steady_speed(volt, ohm, constant, load, drag):
    speed = motor.steady_speed_rad_per_s(volt, 0, ohm, constant, load, drag)
    torque = motor.torque_N_m(constant, motor.running_current_A(volt, 0, ohm, constant, speed))
    if speed:
        assert torque == pytest.approx(load + drag * speed**2, rel=1e-6, abs=1e-9)
    else:
        assert torque <= load * (1 + 1e-12)


def test_a_load_above_the_stall_torque_stalls_it():
    assert motor.steady_speed_rad_per_s(12, 0, 0.4, 0.05, 1.6, 1e-6) == 0


@given(scale=st.floats(0.2, 5))
def test_scaling_voltage_and_load_scales_current_and_speed(scale):
    """Without drag the equations are linear."""
    once = motor.steady_speed_rad_per_s(12, 0.5, 0.4, 0.05, 0.1, 0)
    assert motor.steady_speed_rad_per_s(12 * scale, 0.5 * scale, 0.4, 0.05, 0.1 * scale, 0) == pytest.approx(
        once * scale
    )


@given(ratio=st.floats(1, 200), efficiency=st.floats(0.2, 1), torque=st.floats(0, 10), friction=st.floats(0, 0.1))
def test_a_gearbox_never_gives_more_power_than_it_takes(ratio, efficiency, torque, friction):
    load = motor.geared_load_N_m(torque, ratio, efficiency, friction)
    assert load * 100 >= torque * motor.output_speed_rad_per_s(100, ratio) * (1 - 1e-9)
    assert motor.output_torque_N_m(load, ratio, efficiency, min(friction, load)) == pytest.approx(torque, abs=1e-9)


def test_drag_is_what_friction_leaves_of_the_loss():
    loss = motor.torque_N_m(0.045, 5.5)
    assert motor.drag_N_m_s2(loss, 0.022, 220) * 220**2 + 0.022 == pytest.approx(loss)
    with pytest.raises(OutsideValidity, match=r"friction_N_m is 1, it must be at most loss_N_m, 0\.2475"):
        motor.drag_N_m_s2(loss, 1, 220)
    assert 0 < motor.friction_guess_N_m(loss) < loss


def test_load_counts_whole_and_the_loss_of_a_free_motor_only_by_a_fifth():
    """By hand: 0.6 A of which 0.2 A are its own: 0.4 A of load and a fifth of 0.2 A, 0.44 of 0.6 A."""
    assert motor.constant_share(0.2, 0.6) == pytest.approx(0.44 / 0.6)
    assert motor.constant_share(0.6, 0.6) == pytest.approx(0.2)
    assert motor.constant_torque_N_m(0.44 / 0.6, 0.03) == pytest.approx(0.022)
    with pytest.raises(OutsideValidity, match=r"free_A is 0\.61, it must be at most current_A, 0\.6"):
        motor.constant_share(0.61, 0.6)


def test_the_worked_shaker_turns_as_measured():
    """12 V, 0.32 ohm and 0.06 ohm of path, 0.045 V s, friction 0.022 N m, drag 4.6e-6: 5.5 A at 35 Hz."""
    speed = motor.steady_speed_rad_per_s(12, 0, 0.38, 0.045, 0.022, 4.6e-6)
    assert speed == pytest.approx(motor.angular_speed_rad_per_s(35 * 60), rel=0.01)
    assert motor.running_current_A(12, 0, 0.38, 0.045, speed) == pytest.approx(5.5, abs=0.1)
