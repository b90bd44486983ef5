"""A coil that is too hot for its pulses: the voltage, resistor and pause that are named do let it stand them."""

from math import exp

import pytest
from scipy.integrate import solve_ivp

from guide_gen.model.coil import Coil
from guide_gen.model.pulse_remedy import longest_pulse_s, remedy, remedy_words, whole_pause

ALPHA = 0.00393  # copper, IEC 60028


def coil(high_V=48.0, capacity_J_per_K=0.05, thermal_K_per_W=20.0, air_degC=40.0, limit_degC=95.0):
    """A thin coil of 6 ohm whose few grams of copper are at their limit within milliseconds."""
    return Coil(high_V, 0.9 * high_V, (6.0, 6.6), air_degC, limit_degC, capacity_J_per_K, thermal_K_per_W, ())


def time_to_limit(made, volts, start_degC, series_ohm=0.0, ohm=6.0):
    """C dT/dt = (V R(T) / (R(T) + Rs))² / R(T), stepped: R(T) by IEC 60028."""

    def rise(_, degC):
        hot = ohm * (1 + ALPHA * (degC - 20))
        return volts**2 * hot / (hot + series_ohm) ** 2 / made.capacity_J_per_K

    def reached(_, degC):
        return degC[0] - made.limit_degC

    reached.terminal = True
    return solve_ivp(rise, (0, 100), [start_degC], events=reached, rtol=1e-9).t_events[0][0]


def settled_peak(made, volts, on_s, off_s, series_ohm=0.0):
    """Pulse after pulse at the cold power, one lump cooling between them."""
    power = volts**2 * 6.0 / (6.0 + series_ohm) ** 2
    constant, rise, peak = made.thermal_K_per_W * made.capacity_J_per_K, 0.0, 0.0
    for _ in range(400):
        peak = power * made.thermal_K_per_W * (1 - exp(-on_s / constant)) + rise * exp(-on_s / constant)
        rise = peak * exp(-off_s / constant)
    return made.air_degC + peak


def test_at_that_voltage_it_stands_twice_a_pulse_and_a_little_above_no_more():
    """Against an integration of the heat; from where its pulses bring it, below 60 °C unless the air is warmer."""
    for made in (coil(), coil(air_degC=60.0)):
        volts = remedy(made, 0.04, 10.0).voltage_V
        for factor, stands in ((0.999, True), (1.01, False)):
            peak = settled_peak(made, factor * volts, 0.04, 10.0)
            cool = peak < 59.5 or made.air_degC == 60
            assert (cool and time_to_limit(made, factor * volts, peak) >= 0.08) == stands


def test_behind_that_resistor_it_stands_as_much_hot_and_cold():
    """The coil's share of the voltage grows as it warms: both ends of its resistance."""
    made = coil()
    found = remedy(made, 0.04, 10.0)
    peak = settled_peak(made, made.high_V, 0.04, 10.0, found.series_ohm)
    for ohm in made.cold_ohm:
        assert time_to_limit(made, made.high_V, peak, found.series_ohm, ohm) >= 0.08
    assert found.series_W == pytest.approx((48 / (6 + found.series_ohm)) ** 2 * found.series_ohm)


@pytest.mark.parametrize("ends_s", [None, 0.0, 0.1, 0.25])
@pytest.mark.parametrize("air_degC", [40.0, 62.0])
def test_after_that_pause_all_rules_hold_and_a_little_below_one_does_not(ends_s, air_degC):
    """A coil that one pulse leaves whole, repeated too fast: by an integration of the heat."""
    made = coil(capacity_J_per_K=5.0, air_degC=air_degC)
    found = whole_pause(made, 0.04, ends_s)
    assert found == remedy(made, 0.04, 0.1, ends_s).pause
    assert found.stays_s == (0.2 if ends_s is None else ends_s)
    for factor, holds in ((1.0, True), (0.97, False)):
        peak = settled_peak(made, 48, 0.04, factor * found.off_s)
        cool = peak < min(made.limit_degC, 60.0 if air_degC < 60 else made.limit_degC) - 0.49
        assert (cool and (found.stays_s == 0 or time_to_limit(made, 48, peak) >= found.stays_s * (1 - 1e-6))) == holds


def test_pause_with_a_limit_that_it_never_stands_brings_the_limit_down():
    """0.05 J/K times 55 K at up to 384 W stand 7 ms, never 200 ms: twice the pulse instead."""
    found = whole_pause(coil(), 0.001, 0.2)
    assert found.limited
    assert found.stays_s == pytest.approx(0.002)


def test_longest_pulse_holds_and_a_longer_one_does_not():
    """The same rules, solved for the pulse."""
    made = coil(capacity_J_per_K=2.0)
    longest = longest_pulse_s(made, 3.0, 0.2, 0.1)
    assert whole_pause(made, longest, 0.2).off_s <= 3.0
    assert whole_pause(made, 1.03 * longest, 0.2).off_s > 3.0


def test_a_coil_that_one_pulse_burns_is_not_told_to_wait():
    """0.05 J/K and 384 W: 7 ms to its limit."""
    assert remedy(coil(), 0.04, 10.0).pause is None
    assert "wait" not in remedy_words(coil(), 0.04, 10.0)


def test_coil_that_stands_its_pulses_needs_nothing():
    """And one of which the copper is not known is told nothing computed."""
    assert remedy(coil(capacity_J_per_K=50.0), 0.04, 60.0) is None
    assert remedy(coil(capacity_J_per_K=None), 0.04, 10.0) is None


def test_air_at_its_limit_leaves_no_voltage():
    """Class Y less the hot spot in a hot cabinet."""
    assert "air alone" in remedy_words(coil(air_degC=80.0, limit_degC=80.0), 0.04, 10.0)


@pytest.mark.parametrize(("ends_s", "told"), [(None, True), (0.2, True), (0.08, False), (0.0, False)])
def test_less_voltage_comes_with_a_limit_where_what_ends_a_pulse_comes_later(ends_s, told):
    """Twice a pulse of 40 ms; a thermal cut-out ends it whenever it is too hot."""
    assert ("after: 80 ms" in remedy_words(coil(), 0.04, 10.0, ends_s)) == told
