"""OpenStax College Physics 2e: back emf (module m42411), filament lamp (m42346, m42714). Looked-up."""

import pytest

from guide_gen.formulas.motor import back_emf_V, start_current_A, winding_upper_ohm
from guide_gen.formulas.port import switch_power_W


def test_a_motor_at_switch_on(printed):
    """0.400 ohm at 48.0 V: 120 A and 5.76 kW of heat."""
    assert start_current_A(48.0, 0.400) == printed("120")
    assert switch_power_W(120, 0.400) / 1000 == printed("5.76")


def test_the_same_motor_turning(printed):
    """40.0 V of back emf at 20 A, 160 W of heat; from outside it can only be said to be below 2.4 ohm."""
    assert back_emf_V(48.0, 20, 0.400) == printed("40.0")
    assert switch_power_W(20, 0.400) == printed("160")
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
    assert switch_power_W(start_current_A(12.0, 0.350), 0.350) == printed("411")
    assert switch_power_W(2.50, winding_upper_ohm(12.0, 2.50)) == printed("30.0")
