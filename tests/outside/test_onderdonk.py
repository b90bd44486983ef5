"""Onderdonk's equation for a copper wire that melts, as handbooks print it. From memory; its use below looked-up.

I = A sqrt(log10((Tm - Ta) / (234 + Ta) + 1) / (33 t)), A in circular mils. It is the adiabatic formula of
IEC 60364-5-54 up to the melting point, with other roundings.
"""

from math import log10, sqrt

import pytest

from guide_gen.formulas.short_circuit import time_stood_s, withstand_constant
from guide_gen.formulas.wire import awg_area_mm2

MELTING_DEGC = 1083


def _onderdonk_A(cmil, second, air_degC):
    return cmil * sqrt(log10((MELTING_DEGC - air_degC) / (234 + air_degC) + 1) / (33 * second))


def _ours_A(gauge, second, air_degC):
    """The current that a wire stands for so long, from how long it stands 1 A."""
    return sqrt(time_stood_s(withstand_constant(air_degC, MELTING_DEGC), awg_area_mm2(gauge), 1) / second)


def test_16_AWG_for_5_s(printed):
    """2581 circular mils from 25 °C: 168.9 A."""
    assert _onderdonk_A(2581, 5, 25) == printed("168.9")
    assert _ours_A(16, 5, 25) == pytest.approx(168.9, rel=0.005)


def test_the_178_A_of_a_published_slip_are_refused():
    """A reader's sum took 234 less the air's temperature instead of 234 plus it."""
    assert 2581 * sqrt(log10((MELTING_DEGC - 25) / (234 - 25) + 1) / (33 * 5)) == pytest.approx(178, abs=0.5)
    assert _ours_A(16, 5, 25) < 172


def test_14_AWG_melts_at_400_A_in_2_26_s():
    """4107 circular mils; the same sum with the slip gives 2.50 s."""
    k = withstand_constant(25, MELTING_DEGC)
    assert time_stood_s(k, awg_area_mm2(14), 400) == pytest.approx(2.26, rel=0.01)
