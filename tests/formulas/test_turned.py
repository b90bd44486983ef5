"""A motor from its running point: where it starts, how fast it turns, how hard it pushes when held."""

from math import inf, isinf, pi, sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

from guide_gen.formulas import motor, pwm
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.turned import Turned, at_settings, centred, keeps_of, narrowed, start_of, widest
from guide_gen.formulas.validity import OutsideValidity

SURE = Spread.exactly
WINDING = Spread(4.0, 4.2, 4.4)
# An invented gear motor: 0.6 A at 12 V, 4800 turns a minute, all of its loss the same at every speed.
GEAR = Turned(
    voltage_V=12.0,
    current_A=Spread(0.5, 0.6, 0.7),
    resistance_ohm=WINDING,
    speed_rad_s=Spread(480.0, 500.0, 520.0),
    friction_share=SURE(1.0),
    inductance_H=Spread(0.0025, 0.0063, 0.0105),
    supply_V=Spread(11.0, 12.0, 13.0),
    path_on_ohm=Spread(0.1, 0.15, 0.2),
    path_off_ohm=Spread(0.0, 0.004, 0.01),
    diode_V=Spread(0.35, 0.45, 0.6),
    pwm_Hz=200.0,
)
CURRENTS = ("stall_A", "stall_N_m", "drawn_A")  # under PWM they dip a little between two inductances
NAMES = ("current_A", "resistance_ohm", "speed_rad_s", "friction_share", "supply_V", "path_on_ohm", "path_off_ohm",
         "inductance_H", "diode_V")  # fmt: skip


def exactly(turned, **given):
    """The same without a doubt: at its likeliest values, some of them given."""
    known = {name: SURE(getattr(turned, name).nominal) for name in NAMES}
    return Turned(**(vars(turned) | known | {name: SURE(value) for name, value in given.items()}))


def fan(**given):
    """The same motor as a fan: a fifth of its loss is friction, the rest goes with the square of the speed."""
    return Turned(**(vars(GEAR) | {"friction_share": Spread(0.1, 0.2, 0.6), "reserve": 1.5} | given))


def test_measured_point_is_found_back():
    """At the measured voltage without anything before it, it turns as fast as it was measured."""
    one = exactly(GEAR, path_on_ohm=0.0)
    assert at_settings(one, [1.0])[0].speed_rad_s.nominal == pytest.approx(500, rel=1e-6)
    assert at_settings(exactly(fan(), path_on_ohm=0.0), [1.0])[0].speed_rad_s.nominal == pytest.approx(500, rel=1e-6)


def test_worked_example_of_a_textbook_gives_constant_and_stall():
    """OpenStax College Physics 2e, back emf: 120 V, 20 A at start, 8 A running: 72 V back emf."""
    one = exactly(
        GEAR, current_A=8.0, resistance_ohm=6.0, speed_rad_s=72.0, supply_V=120.0, path_on_ohm=0.0, path_off_ohm=0.0
    )
    found = at_settings(Turned(**(vars(one) | {"voltage_V": 120.0})), [1.0])[0]
    assert found.stall_A.nominal == pytest.approx(20)
    assert found.speed_rad_s.nominal == pytest.approx(72)
    assert found.stall_N_m.nominal == pytest.approx(20 * 72 / 72)  # 1 V s/rad


def test_a_motor_under_load_agrees_with_a_published_worked_example():
    """MIT 2.007 notes, permanent-magnet motor: speed falls in a straight line from no load to stall."""
    one = exactly(GEAR, path_on_ohm=0.0)
    constant = (12 - 0.6 * 4.2) / 500
    free, stall = 12 / constant, constant * 12 / 4.2
    assert at_settings(one, [1.0])[0].speed_rad_s.nominal == pytest.approx(free * (1 - 0.6 * constant / stall))


@pytest.mark.parametrize("frequency_Hz", [100.0, 200.0, 1000.0, 20e3])
def test_start_under_pwm_is_that_of_an_integrated_winding(frequency_Hz):
    """The current at rest, stepped by scipy over periods until it repeats, has the running current's mean there."""
    one = exactly(Turned(**(vars(GEAR) | {"pwm_Hz": frequency_Hz})))
    duty = start_of(one).nominal
    loop_on, loop_off, inductance = 4.2 + 0.15, 4.2 + 0.004, 0.0063
    current, mean, period = 0.0, 0.0, 1 / frequency_Hz

    def leg(start_A, voltage_V, ohm, span_s, blocks):
        """Current and charge; a diode ends a fall at zero."""

        def stops(_, state):
            return state[0]

        stops.terminal, stops.direction = True, -1
        solved = solve_ivp(
            lambda _, state: [(voltage_V - ohm * state[0]) / inductance, state[0]],
            (0, span_s),
            [start_A, 0.0],
            events=stops if blocks and start_A > 0 else None,
            rtol=1e-9,
            atol=1e-12,
        )
        return max(float(solved.y[0, -1]), 0.0), float(solved.y[1, -1])

    for _ in range(max(3, int(0.02 * frequency_Hz))):
        current, on_charge = leg(current, 12.0, loop_on, duty * period, False)
        current, off_charge = leg(current, -0.45, loop_off, (1 - duty) * period, True)
        mean = (on_charge + off_charge) * frequency_Hz
        if frequency_Hz > 5e3 and _ > 250:
            break
    assert mean == pytest.approx(0.6, rel=5e-3)


def test_start_on_a_smooth_voltage_is_ohms_law():
    """Current times resistance over the supply."""
    one = exactly(Turned(**(vars(GEAR) | {"pwm_Hz": inf})))
    assert start_of(one).nominal == pytest.approx(0.6 * 4.35 / 12)
    constant = (12 - 0.6 * 4.2) / 500
    assert motor.start_share(0.6 * constant, 4.35, constant, 12) == pytest.approx(0.6 * 4.35 / 12)


def test_worked_value_of_the_start_is_the_one_of_the_batch():
    """One by one or many at once."""
    constant = (12 - 0.6 * 4.2) / 500
    one = pwm.start_duty(0.6 * constant, constant, 12, 200, 4.35, 4.204, 0.0063, 0.45)
    assert one == pytest.approx(start_of(exactly(GEAR)).nominal, rel=1e-6)
    assert isinf(pwm.start_duty(4 * constant, constant, 12, 200, 4.35, 4.204, 0.0063, 0.45))


def test_speed_under_pwm_is_where_the_torques_meet():
    """Root of the balance by scipy, with the current of the one-case formula."""
    one, constant = exactly(fan()), (12 - 0.6 * 4.2) / 500
    loss = 0.6 * constant

    def surplus(speed):
        state = pwm.steady_state(12, constant * speed, 0.5, 200, 4.35, 4.204, 0.0063, 0.45)
        return constant * state.motor_mean_A - 0.2 * loss - 0.8 * loss * (speed / 500) ** 2

    assert at_settings(one, [0.5])[0].speed_rad_s.nominal == pytest.approx(brentq(surplus, 1, 600), rel=1e-6)


def test_fan_runs_up_to_the_speed_that_is_worked_out():
    """Integrated in time by scipy on a smooth voltage, from rest."""
    one, constant = exactly(fan(pwm_Hz=inf)), (12 - 0.6 * 4.2) / 500
    loss = 0.6 * constant

    def faster(_, state):
        torque = constant * (0.6 * 12 - constant * state[0]) / 4.35
        return [(torque - 0.2 * loss - 0.8 * loss * (state[0] / 500) ** 2) / 1e-5]

    run = solve_ivp(faster, (0, 20), [0.0], rtol=1e-8, atol=1e-8)
    assert at_settings(one, [0.6])[0].speed_rad_s.nominal == pytest.approx(run.y[0, -1], rel=1e-5)


def test_fan_needs_more_to_start_than_to_keep_turning():
    """Half as much torque again, so half as much current: in a smooth current exactly."""
    one = exactly(fan(pwm_Hz=inf))
    assert start_of(one).nominal == pytest.approx(1.5 * keeps_of(one).nominal)
    assert start_of(one).nominal == pytest.approx(1.5 * 0.2 * 0.6 * 4.35 / 12)


def test_square_of_the_speed_takes_all_without_friction():
    """Free of friction and of winding drop, a fan would turn with the voltage; here slower than that by the winding."""
    one = exactly(fan(pwm_Hz=inf), friction_share=0.01, path_on_ohm=0.0)
    half = at_settings(one, [0.5])[0].speed_rad_s.nominal / 500
    constant = (12 - 0.6 * 4.2) / 500
    # K V/R = K²/R w + c w² solved by hand for half the voltage, friction left out
    c2, slope = 0.6 * constant / 500**2, constant**2 / 4.2
    root = (-slope + sqrt(slope**2 + 4 * c2 * constant * 6 / 4.2)) / (2 * c2)
    assert half == pytest.approx(root / 500, rel=0.01)


@settings(max_examples=40, deadline=None)
@given(draw=st.lists(st.floats(0, 1), min_size=9, max_size=9), setting=st.floats(0.3, 1.0), geared=st.booleans())
def test_corners_hold_for_every_machine_within_the_ranges(draw, setting, geared):
    """What is promised for the ranges is promised for each machine in them."""
    ranges = GEAR if geared else fan()
    inside = {
        name: getattr(ranges, name).low + part * (getattr(ranges, name).high - getattr(ranges, name).low)
        for name, part in zip(NAMES, draw, strict=True)
    }
    one = exactly(ranges, **inside)
    low, _, high = start_of(ranges)
    assert low * (1 - 1e-6) <= start_of(one).nominal <= high * (1 + 1e-6)
    promised, found = at_settings(ranges, [setting])[0], at_settings(one, [setting])[0]
    for what, off in (("speed_rad_s", 1e-4), ("own_share", 1e-4), *((name, 5e-3) for name in CURRENTS)):
        low, _, high = getattr(promised, what)
        assert low * (1 - off) - 1e-9 <= getattr(found, what).nominal <= high * (1 + off) + 1e-9, what


def test_more_setting_turns_faster_and_pushes_harder():
    """At every corner."""
    found = at_settings(GEAR, [0.3, 0.5, 0.7, 1.0])
    for what in ("speed_rad_s", "stall_N_m", "stall_A"):
        values = np.array([getattr(one, what) for one in found])
        assert (np.diff(values, axis=0) >= -1e-9).all(), what


def test_motor_that_is_too_weak_never_starts():
    """Three times the measured load: the reserve asks for more than it has."""
    assert isinf(start_of(Turned(**(vars(GEAR) | {"reserve": 6.0}))).high)


def test_current_as_at_standstill_is_refused():
    """0.7 A through 20 ohm would leave nothing of 12 V."""
    with pytest.raises(OutsideValidity, match="current_A"):
        start_of(Turned(**(vars(GEAR) | {"resistance_ohm": Spread(18.0, 19.0, 20.0)})))


def test_widest_range_is_named():
    """A current that is known to a factor of four decides; of a machine without a doubt nothing does."""
    assert widest(Turned(**(vars(GEAR) | {"current_A": Spread(0.2, 0.4, 0.8)}))) == "current_A"
    assert widest(exactly(GEAR)) is None
    assert widest(fan()) == "friction_share"


def test_current_while_turning_is_the_measured_one_at_the_measured_point():
    """All of its loss at once or grown with the speed: 0.6 A at 12 V."""
    for one in (exactly(GEAR, path_on_ohm=0.0), exactly(fan(), path_on_ohm=0.0)):
        assert at_settings(one, [1.0])[0].drawn_A.nominal == pytest.approx(0.6, rel=1e-6)


SMOOTH = Turned(**(vars(GEAR) | {"pwm_Hz": inf, "friction_share": Spread(0.1, 0.3, 1.0)}))


def test_found_start_cuts_the_friction_to_what_can_give_it():
    """On a smooth voltage by Ohm's law, share x current x ohms / volts: 20 % needs a share of 0.6 or more.

    0.20 = s x 0.7 A x 4.6 ohm / 11 V at its weakest gives s = 0.68; a grid of twelfths of 0.1 to 1 leaves one more.
    """
    cut = narrowed(SMOOTH, start_of, 0.199, 0.200).friction_share
    least = 0.199 * 11 / (0.7 * 4.6)
    assert least - 0.9 / 12 <= cut.low <= least
    assert cut.high == 1.0
    weak = narrowed(SMOOTH, start_of, 0.02, 0.025).friction_share
    most = 0.025 * 13 / (0.5 * 4.1)
    assert weak.low == 0.1
    assert most <= weak.high <= most + 0.9 / 12


def test_machine_that_gives_the_reading_stays_within_what_is_left():
    """Whatever its other values are."""
    for part in (0.1, 0.5, 0.9):
        inside = {name: one.low + part * (one.high - one.low) for name, one in vars(SMOOTH).items()
                  if isinstance(one, Spread)}  # fmt: skip
        start = start_of(exactly(SMOOTH, **inside)).nominal
        left = narrowed(SMOOTH, start_of, start - 0.01, start + 0.01)
        for name in ("current_A", "resistance_ohm", "speed_rad_s", "friction_share"):
            assert getattr(left, name).low <= inside[name] <= getattr(left, name).high, name


def test_reading_that_nothing_can_give_cuts_nothing():
    assert narrowed(SMOOTH, start_of, 0.8, 0.82) == SMOOTH


def test_likeliest_moves_to_where_it_gives_the_reading():
    """0.6 A x 4.35 ohm / 12 V is 21.75 % with all of it friction; half of that at half."""
    moved = centred(SMOOTH, "friction_share", start_of, 0.10875)
    assert moved.friction_share.nominal == pytest.approx(0.5, abs=0.9 / 24)
    assert (moved.friction_share.low, moved.friction_share.high) == (0.1, 1.0)


def test_output_turns_at_the_speed_over_the_ratio():
    """One turn in sixty."""
    assert motor.output_speed_rad_per_s(2 * pi * 60, 60) == pytest.approx(2 * pi)
