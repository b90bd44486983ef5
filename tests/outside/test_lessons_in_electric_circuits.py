"""Lessons In Electric Circuits, volume I (DC), 2010 release, on conductors and their temperature. Looked-up."""

import pytest

from guide_gen.formulas import wire
from guide_gen.formulas.motor import start_current_A

# The book's copper: 10.09 ohm cmil/ft; 14 AWG is 4107 cmil.
FEET = 2300
OHM_PER_FOOT_14_AWG = 10.09 / 4107


def test_a_run_of_14_AWG(printed):
    """2300 ft of 14 AWG have 5.651 ohm."""
    assert wire.run_resistance_ohm(OHM_PER_FOOT_14_AWG, FEET) == printed("5.651")


def test_a_long_thin_wire_holds_a_short_circuit_back(printed):
    """230 V into a short at its far end, there and back, drive 20.352 A only."""
    loop = wire.loop_resistance_ohm(2 * wire.run_resistance_ohm(OHM_PER_FOOT_14_AWG, FEET), 0, 0, 0, 0)
    assert start_current_A(230, loop) == printed("20.352")


def test_0_2_ohm_in_each_wire_is_the_most_that_25_A_allow(printed):
    """From 230 V to the 220 V that the load needs."""
    loop = wire.loop_resistance_ohm(2 * 0.2, 0, 0, 0, 0)
    assert wire.drop_V(25, loop) == printed("10")


@pytest.mark.parametrize(("degC", "wire_V", "load_V"), [(20, "0.75", "12.5"), (35, "0.79", "12.42")])
def test_a_warm_wire_drops_more(degC, wire_V, load_V, printed):
    """14 V, two wires of 15 ohm at 20 °C, a load of 250 ohm; the book's 0.004041 per K changes no printed place."""
    one_wire = wire.run_resistance_ohm(wire.resistance_at_ohm_per_m(15, degC), 1)
    current_A = 14 / (2 * one_wire + 250)
    assert wire.drop_V(current_A, one_wire) == printed(wire_V)
    assert wire.drop_V(current_A, 250) == printed(load_V)
