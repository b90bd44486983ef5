"""OpenStax College Physics 2e: back emf (module m42411), filament lamp (m42346, m42714), coils. Looked-up."""

import pytest

from guide_gen.formulas import coil, fuse_opening, kickback, lamp, motor
from guide_gen.formulas.motor import back_emf_V, start_current_A, winding_upper_ohm
from guide_gen.formulas.switch import conduction_W
from guide_gen.formulas.unbalance import rim_speed_m_s


def test_a_motor_at_switch_on(printed):
    """0.400 ohm at 48.0 V: 120 A and 5.76 kW of heat."""
    assert start_current_A(48.0, 0.400) == printed("120")
    assert conduction_W(120, 0.400, 25) / 1000 == printed("5.76")


def test_the_same_motor_turning(printed):
    """40.0 V of back emf at 20 A, 160 W of heat; from outside it can only be said to be below 2.4 ohm."""
    assert back_emf_V(48.0, 20, 0.400) == printed("40.0")
    assert conduction_W(20, 0.400, 25) == printed("160")
    assert winding_upper_ohm(48.0, 20) > 0.400


def test_resistance_from_the_start_current(printed):
    """120 V, 10.0 A at switch-on: 12.00 ohm; at 100 V of back emf 1.67 A."""
    assert winding_upper_ohm(120, 10.0) == printed("12.00")
    assert back_emf_V(120, 1.67, 12.00) == pytest.approx(100, abs=0.06)


def test_back_emf_from_two_currents(printed):
    """120 V, 20.0 A starting, 8.00 A running: 72.0 V."""
    assert back_emf_V(120, 8.00, winding_upper_ohm(120, 20.0)) == printed("72.0")


def test_a_toy_motor_on_four_cells(printed):
    """6.00 V, 3.00 A, back emf 4.50 V: the loop is 0.500 ohm, of which four cells take 0.100 ohm each."""
    assert back_emf_V(6.00, 3.00, 0.100 + 4 * 0.100) == printed("4.50")


def test_a_cold_lamp(printed):
    """0.350 ohm cold at 12.0 V: 34.3 A and 411 W, though it is a 30.0 W lamp of 2.50 A when hot."""
    assert start_current_A(12.0, 0.350) == printed("34.3")
    assert conduction_W(start_current_A(12.0, 0.350), 0.350, 25) == printed("411")
    assert conduction_W(2.50, winding_upper_ohm(12.0, 2.50), 25) == printed("30.0")


def test_a_hot_lamp(printed):
    """0.350 ohm cold, 4.5e-3 per kelvin over 2830 K: 4.8 ohm, and nearly fourteen times the current when cold."""
    assert lamp.hot_resistance_ohm(0.350, 2830) == printed("4.8")
    assert lamp.measured_inrush_ratio(12.0, 0.350, 2.50) == pytest.approx(13.71, abs=0.005)
    assert lamp.inrush_A(lamp.measured_inrush_ratio(12.0, 0.350, 2.50), 2.50) == printed("34.3")


def test_a_coil_is_shorted(printed):
    """Module m42425. 7.50 mH, 3.00 ohm, 10.0 A: 2.50 ms; after 5.00 ms 1.35 A."""
    assert coil.time_constant_s(7.50e-3, 3.00) * 1000 == printed("2.50")
    assert coil.current_A(0, 3.00, 7.50e-3, 5.00e-3, 10.0) == printed("1.35")
    assert kickback.decaying_current_A(7.50e-3, 3.00, 10.0, 0, 5.00e-3) == printed("1.35")
    assert kickback.decay_time_s(7.50e-3, 3.00, 10.0, 10.0 * 0.368, 0) * 1000 == printed("2.50")


def test_energy_in_a_coil(printed):
    """Module m42420. 0.632 mH with 30.0 A: 0.284 J."""
    assert coil.stored_energy_J(0.632e-3, 30.0) == printed("0.284")


def test_a_capacitor_gives_its_energy_to_whatever_it_is_discharged_into():
    """A defibrillator of 8.00 uF at 10.0 kV gives 400 J; from memory. Into any resistance that is I2t times it."""
    assert fuse_opening.capacitor_A2s(8.00e-6, 1.00e4, 50) * 50 == pytest.approx(400)


def test_the_constant_of_a_motor_is_its_back_emf_by_speed():
    """Module m42411: 120 V, 6.00 ohm at start, 8.00 A running."""
    ohm = motor.stall_resistance_ohm(120, 0, 20.0)
    assert ohm == pytest.approx(6.00)
    assert motor.constant_V_s_per_rad(120, 0, 8.00, ohm, 100) * 100 == pytest.approx(72.0)
    assert motor.running_current_A(120, 0, ohm, 0.72, 100) == pytest.approx(8.00)


def test_rim_of_a_turning_part_moves_at_its_radius_times_its_speed():
    """OpenStax College Physics 2e, angular velocity: a tyre of 0.300 m at 15.0 m/s turns at 50.0 rad/s."""
    assert rim_speed_m_s(radius_m=0.300, speed_rad_s=50.0) == pytest.approx(15.0)
