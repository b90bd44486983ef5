"""PWM steady state: against stepping the circuit, its balances, its limits, and one motor's table."""

from math import hypot, pi

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import kickback, pwm
from guide_gen.formulas.validity import OutsideValidity

# The worked shaker: 0.32 ohm, 0.06 ohm of path on and 0.03 ohm off, 0.55 mH.
SHAKER = {"voltage_V": 12, "on_ohm": 0.38, "off_ohm": 0.35, "inductance_H": 0.55e-3}
TURNING = {"constant_V_s_per_rad": 0.045, "load_N_m": 0.022, "drag_N_m_s2": 4.6e-6, "brush_V": 0}
FREQUENCIES = (100, 200, 1000, 20000)

states = {
    "voltage_V": st.floats(5, 48),
    "duty": st.floats(0.01, 0.99),
    "frequency_Hz": st.floats(50, 25000),
    "on_ohm": st.floats(0.1, 10),
    "inductance_H": st.floats(1e-4, 0.1),
    "diode_V": st.floats(0.2, 1.2),
}
shares = st.floats(0, 0.95)


@st.composite
def running(draw):
    """All that steady_state takes, the back emf below the supply."""
    found = {name: draw(values) for name, values in states.items()}
    found["off_ohm"] = found["on_ohm"] * draw(st.floats(0.6, 1))
    found["emf_V"] = found["voltage_V"] * draw(shares)
    return found


def _stepped(case, periods=60, steps=2000):
    """The same circuit stepped by a midpoint rule, until it repeats; means and squares of its last period."""
    period = 1 / case["frequency_Hz"]
    on_steps = max(1, round(steps * case["duty"]))
    off_steps = steps - on_steps
    on_dt, off_dt = case["duty"] * period / on_steps, (1 - case["duty"]) * period / off_steps
    current = 0.0
    for _ in range(periods):
        before, charge, square, peak = current, [0.0, 0.0], [0.0, 0.0], 0.0
        for on, dt, count in ((0, on_dt, on_steps), (1, off_dt, off_steps)):
            ohm = case["off_ohm"] if on else case["on_ohm"]
            push = -case["diode_V"] - case["emf_V"] if on else case["voltage_V"] - case["emf_V"]
            for _ in range(count):
                half = current + dt / 2 * (push - ohm * current) / case["inductance_H"]
                after = max(0.0, current + dt * (push - ohm * half) / case["inductance_H"])
                charge[on] += (current + after) / 2 * dt
                square[on] += (current**2 + current * after + after**2) / 3 * dt
                current, peak = after, max(peak, after)
        if abs(current - before) < 1e-9 * max(peak, 1e-9):
            break
    rate = case["frequency_Hz"]
    return charge[0] * rate, charge[1] * rate, (square[0] * rate) ** 0.5, (square[1] * rate) ** 0.5, peak


@pytest.mark.parametrize("emf_V", [0, 2, 6])
@pytest.mark.parametrize("frequency_Hz", [100, 1000])
@pytest.mark.parametrize("duty", [0.1, 0.5])
def test_stepping_the_circuit_gives_the_same(emf_V, frequency_Hz, duty):
    case = SHAKER | {"emf_V": emf_V, "frequency_Hz": frequency_Hz, "duty": duty, "diode_V": 0.4}
    state = pwm.steady_state(**case)
    found = state.switch_mean_A, state.diode_mean_A, state.switch_rms_A, state.diode_rms_A, state.peak_A
    assert found == pytest.approx(_stepped(case), rel=2e-3)


@given(case=running())
def test_charge_is_kept(case):
    """What the motor gets came through the switch or the diode, in the mean and in the mean square."""
    state = pwm.steady_state(**case)
    assert state.motor_mean_A == pytest.approx(state.switch_mean_A + state.diode_mean_A)
    assert state.motor_rms_A == pytest.approx(hypot(state.switch_rms_A, state.diode_rms_A))


@given(case=running())
def test_energy_is_kept(case):
    """The supply feeds both loops' heat, the diode, and what the motor turns into work."""
    state = pwm.steady_state(**case)
    given_W = case["voltage_V"] * state.switch_mean_A
    taken_W = (
        case["on_ohm"] * state.switch_rms_A**2
        + case["off_ohm"] * state.diode_rms_A**2
        + case["emf_V"] * state.motor_mean_A
        + case["diode_V"] * state.diode_mean_A
    )
    assert taken_W == pytest.approx(given_W, rel=1e-5, abs=1e-9)


@given(case=running())
def test_mean_rms_and_peak_are_in_order(case):
    state = pwm.steady_state(**case)
    assert 0 <= state.lowest_A <= state.peak_A
    assert state.motor_mean_A <= state.motor_rms_A * (1 + 1e-9) <= state.peak_A * (1 + 1e-6)
    assert state.switch_mean_A <= state.switch_rms_A * (1 + 1e-6)
    assert state.peak_A <= case["voltage_V"] / case["on_ohm"]
    assert state.continuous == (state.lowest_A > 0)


@given(case=running(), more=st.floats(1.01, 3))
def test_more_duty_never_means_less_current(case, more):
    longer = case | {"duty": min(1, case["duty"] * more)}
    assert pwm.steady_state(**longer).motor_mean_A >= pwm.steady_state(**case).motor_mean_A * (1 - 1e-9)


@given(case=running(), lower=st.floats(0.1, 0.9))
def test_a_faster_motor_draws_less(case, lower):
    slower = case | {"emf_V": case["emf_V"] * lower}
    assert pwm.steady_state(**slower).motor_mean_A >= pwm.steady_state(**case).motor_mean_A * (1 - 1e-9)


@given(case=running(), more=st.floats(0.05, 1))
def test_a_diode_that_drops_more_leaves_less(case, more):
    worse = case | {"diode_V": case["diode_V"] + more}
    assert pwm.steady_state(**worse).motor_mean_A <= pwm.steady_state(**case).motor_mean_A * (1 + 1e-9)


@given(case=running())
def test_no_duty_gives_no_current(case):
    state = pwm.steady_state(**case | {"duty": 0})
    assert (state.peak_A, state.motor_mean_A, state.motor_rms_A, state.diode_s) == (0, 0, 0, 0)


@given(case=running())
def test_full_duty_is_direct_current_with_nothing_in_the_diode(case):
    state = pwm.steady_state(**case | {"duty": 1})
    direct = (case["voltage_V"] - case["emf_V"]) / case["on_ohm"]
    assert (state.lowest_A, state.peak_A, state.switch_mean_A, state.switch_rms_A) == pytest.approx((direct,) * 4)
    assert state.diode_mean_A == 0


@given(case=running(), over=st.floats(1, 2))
def test_a_back_emf_above_the_supply_gives_no_current_and_no_brake(case, over):
    state = pwm.steady_state(**case | {"emf_V": case["voltage_V"] * over})
    assert (state.peak_A, state.motor_mean_A) == (0, 0)


@pytest.mark.parametrize("end", ["low", "high"])
def test_duty_reaches_its_ends_without_a_jump(end):
    duty = {"low": 1e-6, "high": 1 - 1e-6}[end]
    case = SHAKER | {"emf_V": 3, "frequency_Hz": 500, "diode_V": 0.4}
    near = pwm.steady_state(**case, duty=duty).motor_mean_A
    assert near == pytest.approx(pwm.steady_state(**case, duty=round(duty)).motor_mean_A, abs=1e-3)


def test_the_lowest_current_reaches_zero_from_both_sides():
    """Where conduction becomes discontinuous the peak does not jump."""
    case = SHAKER | {"duty": 0.3, "frequency_Hz": 400, "diode_V": 0.4}
    low, high = 0.0, 12.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if pwm.steady_state(**case, emf_V=middle).continuous else (low, middle)
    inside, outside = (pwm.steady_state(**case, emf_V=emf) for emf in (low - 1e-7, high + 1e-7))
    assert inside.continuous
    assert not outside.continuous
    assert inside.lowest_A == pytest.approx(0, abs=1e-5)
    assert inside.peak_A == pytest.approx(outside.peak_A, rel=1e-6)
    assert inside.diode_s == pytest.approx(outside.diode_s, rel=1e-5)


@given(case=running())
def test_a_very_high_frequency_reaches_the_smooth_current(case):
    smooth = {name: case[name] for name in ("voltage_V", "emf_V", "duty", "on_ohm", "off_ohm", "diode_V")}
    current = pwm.smooth_current_A(**smooth)
    assume(current > 0.05)
    assert pwm.steady_state(**case | {"frequency_Hz": 3e7}).motor_mean_A == pytest.approx(current, rel=1e-3)


def test_the_mean_voltage_is_not_duty_times_supply():
    """At standstill, 10 %, 20 kHz, silicon: 1.36 A and not the 3.16 A of 10 % of 12 V."""
    state = pwm.steady_state(**SHAKER, emf_V=0, duty=0.1, frequency_Hz=20000, diode_V=0.8)
    assert state.motor_mean_A == pytest.approx(1.36, abs=0.005)
    assert pwm.motor_V(0, 0.32, state.motor_mean_A) < 0.5


# One motor, worked in a prototype that was checked against a circuit simulator: mean at standstill in A, turning in Hz.
TABLE = {
    (0.4, 0.06): ((1.61, 7.9), (1.39, 5.7), (0.98, 1.0), (0.98, 0.6)),
    (0.4, 0.08): ((2.24, 10.6), (1.98, 8.2), (1.68, 2.7), (1.68, 1.5)),
    (0.4, 0.10): ((2.87, 12.7), (2.59, 10.3), (2.38, 4.4), (2.38, 2.3)),
    (0.8, 0.06): ((1.40, 7.6), (1.12, 5.2), (0.45, 0.0), (0.03, 0.0)),
    (0.8, 0.08): ((2.00, 10.3), (1.66, 7.9), (0.74, 1.8), (0.64, 0.2)),
    (0.8, 0.10): ((2.61, 12.5), (2.23, 10.0), (1.36, 3.7), (1.36, 1.1)),
}


@pytest.mark.parametrize(
    ("diode_V", "duty", "frequency_Hz", "cell"),
    [
        (*row, frequency, cell)
        for row, cells in TABLE.items()
        for frequency, cell in zip(FREQUENCIES, cells, strict=True)
    ],
)
def test_the_worked_shaker(diode_V, duty, frequency_Hz, cell):
    case = SHAKER | {"diode_V": diode_V, "duty": duty, "frequency_Hz": frequency_Hz}
    ampere, hertz = cell
    assert pwm.steady_state(**case, emf_V=0).motor_mean_A == pytest.approx(ampere, abs=0.0051)
    assert pwm.turning_speed_rad_per_s(**case, **TURNING) / (2 * pi) == pytest.approx(hertz, abs=0.051)


@pytest.mark.parametrize(
    ("frequency_Hz", "meter", "rms", "peak", "mean"),
    [
        (100, 0.44, 1.76, 10.1, 0.93),
        (200, 0.26, 1.04, 6.2, 0.76),
        (1000, 0.06, 0.26, 1.6, 0.51),
        (20000, 0.04, 0.14, 0.5, 0.49),
    ],
)
def test_a_dc_meter_in_the_supply_lead_shows_little_of_what_heats_it(frequency_Hz, meter, rms, peak, mean):
    """The same shaker turning at 8 %, Schottky; to one unit of the last place, since its drag is rounded."""
    case = SHAKER | {"diode_V": 0.4, "duty": 0.08, "frequency_Hz": frequency_Hz}
    speed = pwm.turning_speed_rad_per_s(**case, **TURNING)
    state = pwm.steady_state(**case, emf_V=0.045 * speed)
    assert state.switch_mean_A == pytest.approx(meter, abs=0.011)
    assert state.switch_rms_A == pytest.approx(rms, abs=0.011)
    assert state.peak_A == pytest.approx(peak, abs=0.11)
    assert state.motor_mean_A == pytest.approx(mean, abs=0.011)


# No diode, and the inductance by a meter


@given(
    volt=st.floats(5, 48),
    duty=st.floats(0.02, 0.5),
    ohm=st.floats(0.2, 5),
    millihenry=st.floats(0.1, 3),
    above=st.floats(20, 100),
)
def test_a_switch_without_diode_takes_the_energy_of_each_turn_off(volt, duty, ohm, millihenry, above):
    """As long as the current dies out in each pause it is the single shot, again and again."""
    henry = millihenry / 1000
    found = pwm.without_diode(volt, 0, duty, 50, ohm, henry, volt + above)
    once = kickback.clamp_energy_J(volt + above, above, henry, ohm, found.peak_A)
    assume(kickback.decay_time_s(henry, ohm, found.peak_A, 0, above) < (1 - duty) / 50)
    assert found.energy_J == pytest.approx(once, rel=1e-6, abs=1e-12)
    assert found.power_W == pytest.approx(kickback.repeated_power_W(50, once), rel=1e-6, abs=1e-9)
    assert found.energy_J > henry * found.peak_A**2 / 2 * 0.2


def test_without_resistance_the_supply_adds_its_share_to_the_stored_energy():
    """Half L I² times Vav / (Vav - Vs)."""
    found = pwm.without_diode(12, 0, 0.05, 100, 1e-4, 1e-3, 60)
    assert found.energy_J == pytest.approx(1e-3 * found.peak_A**2 / 2 * 60 / 48, rel=1e-3)


def test_without_a_diode_torque_is_lost_too():
    case = {"voltage_V": 12, "emf_V": 0, "duty": 0.1, "frequency_Hz": 1000, "inductance_H": 5e-4}
    with_diode = pwm.steady_state(**case, on_ohm=0.4, off_ohm=0.4, diode_V=0.5)
    assert pwm.without_diode(**case, loop_ohm=0.4, avalanche_V=60).motor_mean_A < 0.5 * with_diode.motor_mean_A


def test_an_avalanche_below_the_supply_is_refused():
    with pytest.raises(OutsideValidity, match="avalanche_V is 10, it must be above voltage_V, 12"):
        pwm.without_diode(12, 0, 0.1, 200, 0.4, 1e-3, 10)


@given(
    henry=st.floats(2e-5, 0.05),
    duty=st.floats(0.1, 0.6),
    frequency=st.floats(50, 2000),
    ohm=st.floats(0.2, 3),
)
def test_the_inductance_is_found_back_from_a_meter_reading(henry, duty, frequency, ohm):
    case = {
        "voltage_V": 12,
        "duty": duty,
        "frequency_Hz": frequency,
        "on_ohm": ohm,
        "off_ohm": ohm * 0.9,
        "diode_V": 0.4,
    }
    reading = pwm.steady_state(**case, emf_V=0, inductance_H=henry).switch_mean_A
    ends = [pwm.steady_state(**case, emf_V=0, inductance_H=end).switch_mean_A for end in (henry * 0.98, henry * 1.02)]
    # Where the reading hardly moves with the inductance no meter can tell it.
    assume(ends[0] - ends[1] > 1e-5 * reading)
    assert pwm.inductance_from_meter_H(reading, **case) == pytest.approx(henry, rel=1e-3)


@pytest.mark.parametrize("reading", [0.001, 20])
def test_a_reading_that_no_inductance_gives_is_refused(reading):
    with pytest.raises(OutsideValidity, match=f"supply_mean_A is {reading:g}, it must be between "):
        pwm.inductance_from_meter_H(reading, 12, 0.3, 200, 0.5, 0.45, 0.4)


def test_a_motor_that_does_not_reach_its_load_does_not_turn():
    case = SHAKER | {"diode_V": 0.8, "duty": 0.06, "frequency_Hz": 20000}
    assert pwm.turning_speed_rad_per_s(**case, **TURNING) == 0
