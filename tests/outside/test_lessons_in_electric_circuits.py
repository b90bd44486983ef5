"""Lessons In Electric Circuits, 2010 release: volume I on conductors and on time constants, III on LEDs. Looked-up."""

from math import floor

import pytest

from guide_gen.formulas import coil, fuse_opening, led, short_circuit, wire
from guide_gen.formulas.motor import start_current_A
from guide_gen.published.tables import fuse_series

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


@pytest.mark.parametrize(
    ("second", "coil_V", "ampere"),
    [
        (0.5, "9.098", "5.902"),
        (1, "5.518", "9.482"),
        (2, "2.030", "12.97"),
        (3, "0.747", "14.25"),
        (3.5, "0.453", "14.547"),
        (5, "0.101", "14.90"),
    ],
)
def test_the_rise_of_a_current(second, coil_V, ampere, printed):
    """15 V, 1 ohm, 1 H."""
    current = coil.current_A(15, 1, 1, second, 0)
    assert current == printed(ampere)
    assert 15 - current == printed(coil_V)


def test_the_last_row_of_the_rise(printed):
    """After 10 s 0.000681 V are left; the current is printed cut, not rounded: 14.99 A."""
    current = coil.current_A(15, 1, 1, 10, 0)
    assert 15 - current == printed("0.000681")
    assert floor(current * 100) / 100 == 14.99


@pytest.mark.parametrize(
    ("second", "coil_V", "ampere"),
    [
        (0.1, "4.094", "5.453"),
        (0.25, "3.033", "5.984"),
        (0.5, "1.839", "6.580"),
        (1, "0.677", "7.162"),
        (2, "0.092", "7.454"),
        (3, "0.012", "7.494"),
    ],
)
def test_a_rise_from_a_current_that_flows_already(second, coil_V, ampere, printed):
    """15 V, 1 H, from 3 to 2 ohm: 5 A to 7.5 A, as in each period under PWM."""
    current = coil.current_A(15, 2, 1, second, 5)
    assert current == printed(ampere)
    assert 15 - 2 * current == printed(coil_V)


@pytest.mark.parametrize(("volt", "ohm", "milliwatt", "preferred"), [(6, "220", "88", 220), (24, "1120", "448", 1200)])
def test_the_resistor_of_an_led(volt, ohm, milliwatt, preferred, printed):
    """Volume III, diodes: 1.6 V, 20 mA. The 1.12 kohm of 24 V is no preferred value, and too hot for 1/4 W."""
    needed = led.series_resistance_ohm(volt, 1, 1.6, 0.020)
    assert needed == printed(ohm)
    assert led.resistor_W(0.020, needed) * 1000 == printed(milliwatt)
    assert led.next_e24_ohm(needed) == preferred


def test_a_fuse_of_20_A_never_opens_behind_a_long_thin_wire(printed):
    """The same 20.352 A into a short circuit: the fuse may stay whole for ever."""
    loop = 2 * wire.run_resistance_ohm(OHM_PER_FOOT_14_AWG, FEET)
    fault = short_circuit.prospective_A(230, 0, loop)
    assert fault == printed("20.352")
    assert fuse_opening.curve(fuse_series("blade"), 20).outcome(fault, 3600) is fuse_opening.Outcome.NEVER
