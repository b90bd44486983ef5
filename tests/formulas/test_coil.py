"""Laws of the coil: current and energy, heating against stepping, pulses against repeating them, holding."""

from math import inf, isinf

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import coil
from guide_gen.formulas.motor import winding_at_ohm
from guide_gen.formulas.validity import OutsideValidity

volts, ohms = st.floats(5, 48), st.floats(1, 100)
henries, seconds = st.floats(1e-3, 1), st.floats(1e-3, 1)
airs, limits = st.floats(10, 60), st.floats(80, 170)
capacities, thermals = st.floats(2, 200), st.floats(1, 40)


# Current and energy


@given(volt=volts, ohm=ohms, henry=henries, second=seconds)
def test_the_time_to_a_current_is_the_inverse_of_the_rise(volt, ohm, henry, second):
    current = coil.current_A(volt, ohm, henry, second, 0)
    assume(current < 0.999 * volt / ohm)
    assert coil.time_to_current_s(volt, ohm, henry, current) == pytest.approx(second)


@given(volt=volts, ohm=ohms, henry=henries, over=st.floats(1.0001, 3))
def test_a_current_above_the_final_one_is_never_reached(volt, ohm, henry, over):
    assert coil.time_to_current_s(volt, ohm, henry, over * volt / ohm) == inf


@given(volt=volts, ohm=ohms, henry=henries, second=seconds, start=st.floats(0, 20))
def test_a_current_moves_from_its_start_towards_its_end(volt, ohm, henry, second, start):
    current = coil.current_A(volt, ohm, henry, second, start)
    assert min(start, volt / ohm) - 1e-9 <= current <= max(start, volt / ohm) + 1e-9
    assert coil.current_A(volt, ohm, henry, 0, start) == start


@given(volt=volts, ohm=ohms, henry=henries, second=seconds)
def test_supplied_energy_is_stored_or_heats_the_winding(volt, ohm, henry, second):
    """The heat by Simpson's rule."""
    steps = 200
    squares = [coil.current_A(volt, ohm, henry, second * n / steps, 0) ** 2 for n in range(steps + 1)]
    weighted = squares[0] + squares[-1] + 4 * sum(squares[1:-1:2]) + 2 * sum(squares[2:-1:2])
    assume(second < 20 * henry / ohm)
    heat = ohm * weighted * second / steps / 3
    stored = coil.stored_energy_J(henry, coil.current_A(volt, ohm, henry, second, 0))
    assert coil.supplied_energy_J(volt, ohm, henry, second) == pytest.approx(stored + heat, rel=1e-3)


# Copper


@given(ohm=ohms, millimetre=st.floats(0.1, 1))
def test_five_percent_of_diameter_are_twenty_two_percent_of_mass(ohm, millimetre):
    mass = coil.copper_mass_by_wire_kg(ohm, millimetre)
    assert coil.copper_mass_by_wire_kg(ohm, 1.05 * millimetre) / mass == pytest.approx(1.22, abs=0.005)


def test_wire_and_window_give_the_same_mass_for_one_winding():
    """A window of 10 mm to 20 mm radius and 30 mm length, half full of 0.5 mm wire: its length gives its resistance."""
    area_mm2 = 3.14159265 / 4 * 0.5**2
    volume_mm3 = 0.5 * 3.14159265 * (20**2 - 10**2) * 30
    ohm = 1.72414e-8 * (volume_mm3 / area_mm2 / 1000) / (area_mm2 * 1e-6)
    assert coil.copper_mass_by_wire_kg(ohm, 0.5) == pytest.approx(
        coil.copper_mass_by_window_kg(0.5, 20, 10, 30), rel=1e-6
    )


def test_a_window_without_room_is_refused():
    with pytest.raises(OutsideValidity, match="inner_mm is 20, it must be below outer_mm, 20"):
        coil.copper_mass_by_window_kg(0.5, 20, 20, 30)


# Heating


@given(volt=volts, ohm=ohms, capacity=capacities, air=airs, limit=limits)
def test_the_adiabatic_time_reaches_exactly_the_limit(volt, ohm, capacity, air, limit):
    second = coil.adiabatic_time_s(volt, ohm, capacity, air, limit)
    assert coil.adiabatic_temperature_degC(volt, ohm, capacity, air, second) == pytest.approx(limit)


@given(volt=volts, ohm=ohms, capacity=capacities, air=airs, limit=limits)
def test_the_hottest_start_for_a_time_is_that_which_has_this_time(volt, ohm, capacity, air, limit):
    second = coil.adiabatic_time_s(volt, ohm, capacity, air, limit)
    assert coil.hottest_start_degC(volt, ohm, capacity, limit, second) == pytest.approx(air, abs=1e-6)
    assert coil.hottest_start_degC(volt, ohm, capacity, limit, 0) == pytest.approx(limit)


def test_a_time_that_no_start_allows_has_one_far_below_any_air():
    assert coil.hottest_start_degC(48, 6, 0.05, 95, 10) < -200


def test_a_coil_that_starts_at_its_limit_has_no_time():
    assert coil.adiabatic_time_s(24, 6, 30, 120, 110) == 0


def _stepped_s(volt, ohm, thermal, capacity, air, start, limit):
    """C dT/dt = V²/R(T) - (T - Ta)/Rth as a sum over temperature by Simpson's rule."""
    steps = 400

    def slowness(degC):
        return capacity / (volt**2 / winding_at_ohm(ohm, degC) - (degC - air) / thermal)

    step = (limit - start) / steps
    values = [slowness(start + n * step) for n in range(steps + 1)]
    return (values[0] + values[-1] + 4 * sum(values[1:-1:2]) + 2 * sum(values[2:-1:2])) * step / 3


@given(volt=volts, ohm=ohms, thermal=thermals, capacity=capacities, air=airs, part=st.floats(0.1, 0.95))
def test_the_time_to_a_limit_with_losses_is_what_stepping_gives(volt, ohm, thermal, capacity, air, part):
    final = coil.final_temperature_degC(volt, ohm, thermal, air)
    limit = air + part * (final - air)
    assume(air + 1 < limit < 250)
    start = air + 0.3 * (limit - air)
    assert coil.heating_time_s(thermal, capacity, final, air, start, limit) == pytest.approx(
        _stepped_s(volt, ohm, thermal, capacity, air, start, limit), rel=1e-5
    )


@given(volt=volts, ohm=ohms, thermal=thermals, air=airs)
def test_at_the_final_temperature_heat_in_is_heat_out(volt, ohm, thermal, air):
    final = coil.final_temperature_degC(volt, ohm, thermal, air)
    ratio = 1 + 0.00393 * (final - 20)
    assert volt**2 / (ohm * ratio) == pytest.approx((final - air) / thermal)


@given(volt=volts, ohm=ohms, thermal=thermals, capacity=capacities, air=airs, limit=limits)
def test_losses_only_lengthen_the_time(volt, ohm, thermal, capacity, air, limit):
    final = coil.final_temperature_degC(volt, ohm, thermal, air)
    lossless = coil.adiabatic_time_s(volt, ohm, capacity, air, limit)
    lossy = coil.heating_time_s(thermal, capacity, final, air, air, limit)
    assert lossy >= lossless
    assert isinf(lossy) == (final <= limit)


def test_with_almost_no_losses_both_times_agree():
    final = coil.final_temperature_degC(30, 6.5, 1e4, 30)
    assert coil.heating_time_s(1e4, 33, final, 30, 30, 120) == pytest.approx(
        coil.adiabatic_time_s(30, 6.5, 33, 30, 120), rel=1e-3
    )


@given(current=st.floats(0.1, 3), ohm=ohms, thermal=thermals, air=airs)
def test_a_constant_current_settles_or_runs_away(current, ohm, thermal, air):
    final = coil.final_at_constant_current_degC(current, ohm, thermal, air)
    rise = current**2 * ohm * thermal
    if isinf(final):
        assert rise * 0.00393 >= 1
    else:
        assert rise * (1 + 0.00393 * (final - 20)) == pytest.approx(final - air)


# Pulses


@pytest.mark.parametrize(("on_s", "off_s"), [(0.5, 1), (20, 60), (200, 30)])
def test_pulses_repeated_one_by_one_settle_at_the_peak(on_s, off_s):
    power, thermal, constant, air = 138, 8, 260, 40
    warmed, cooled = coil.settled(on_s, constant), coil.settled(off_s, constant)
    degC = air
    for _ in range(20000):
        peak = degC + (air + power * thermal - degC) * warmed
        degC = peak + (air - peak) * cooled
    assert coil.settled_peak_degC(air, power, thermal, constant, on_s, off_s) == pytest.approx(peak, rel=1e-9)


@given(
    power=st.floats(1, 200),
    thermal=thermals,
    constant=st.floats(10, 1000),
    allowed=st.floats(20, 150),
    on_s=st.floats(0.05, 100),
)
def test_the_shortest_pause_reaches_exactly_the_limit(power, thermal, constant, allowed, on_s):
    off_s = coil.shortest_off_s(power, thermal, constant, allowed, on_s)
    if isinf(off_s):
        assert power * thermal * coil.settled(on_s, constant) >= allowed
    elif off_s == 0:
        assert power * thermal <= allowed * (1 + 1e-9)
    else:
        assert coil.settled_peak_degC(0, power, thermal, constant, on_s, off_s) == pytest.approx(allowed, rel=1e-6)


# Holding


@given(allowed=st.floats(10, 120), thermal=thermals, hot=ohms, diode=st.floats(0, 1), volt=volts)
def test_a_held_coil_settles_at_its_limit(allowed, thermal, hot, diode, volt):
    current = coil.hold_current_A(allowed, thermal, hot)
    assert current**2 * hot * thermal == pytest.approx(allowed)
    duty = coil.hold_duty(current, hot, diode, volt)
    if duty < 1:
        assert duty * volt - (1 - duty) * diode == pytest.approx(current * hot, abs=1e-9)


def test_a_hot_spot_is_hotter_than_the_mean():
    assert coil.mean_limit_degC(105, 10) == 95


def test_the_worked_coil_is_too_hot_after_26_s():
    """30 V, 6.5 ohm, wire of 0.45 mm: 85 g; from 30 to 120 °C by the copper alone."""
    mass = coil.copper_mass_by_wire_kg(6.5, 0.45)
    assert mass == pytest.approx(0.085, abs=0.0005)
    second = coil.adiabatic_time_s(30, 6.5, coil.heat_capacity_J_per_K(mass), 30, 120)
    assert second == pytest.approx(26, abs=0.5)


def test_steady_current_and_power_agree():
    """P = V I, for a coil of 6.5 ohm at 30 V (Ohm's and Joule's law): 4.6 A, 138 W."""
    assert coil.steady_current_A(30, 6.5) == pytest.approx(4.615, abs=0.001)
    assert coil.power_W(30, 6.5) == pytest.approx(30 * coil.steady_current_A(30, 6.5))


def test_mantle_is_circumference_times_length():
    """A cylinder of 1 m across and 1 m long: pi square metres."""
    assert coil.mantle_m2(1000, 1000) == pytest.approx(3.14159265)
