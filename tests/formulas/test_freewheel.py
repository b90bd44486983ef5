"""A chopped winding at every setting: against stepping through time, and the limits that can be written down."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import freewheel

SUPPLY_V, OHM, HENRY, DIODE_V, FULL_A, FRICTION = 12.0, 0.32, 0.55e-3, 0.45, 5.5, 0.2
MOTOR = {
    "voltage_V": SUPPLY_V,
    "resistance_ohm": OHM,
    "inductance_H": HENRY,
    "diode_V": DIODE_V,
    "full_V": SUPPLY_V,
    "full_A": FULL_A,
    "friction_share": FRICTION,
}


def _stepped(duty, frequency_Hz, per_period=400):
    """Rms of the switch, peak, mean of the diode: winding and flywheel stepped through time until they repeat.

    The flywheel is a capacitor that the torque current charges; the load draws friction and drag from it.
    """
    full_emf = SUPPLY_V - FULL_A * OHM
    step = 1 / (frequency_Hz * per_period)
    farad = 40 / frequency_Hz  # heavy enough that the speed hardly ripples
    current, emf = 0.0, 0.9 * duty * full_emf
    for _ in range(500):
        squares = charge = peak = 0.0
        for place in range(per_period):
            on = place < round(duty * per_period)
            push = SUPPLY_V if on else -DIODE_V
            before = current
            current = max(0.0, current + step * (push - emf - OHM * current) / HENRY)
            middle = (before + current) / 2
            drag = FULL_A * (FRICTION + (1 - FRICTION) * (emf / full_emf) ** 2)
            emf = max(0.0, emf + step * (middle - drag) / farad)
            squares, charge = (squares + middle**2, charge) if on else (squares, charge + middle)
            peak = max(peak, current)
    return (squares / per_period) ** 0.5, peak, charge / per_period


@pytest.mark.parametrize(("duty", "frequency_Hz"), [(0.3, 200.0), (0.6, 200.0), (0.5, 1000.0)])
def test_stepping_through_time_ends_in_the_same_state(duty, frequency_Hz):
    """Winding, diode and a turning load by Euler's rule; 2 % for its step and for the ripple of the speed."""
    state = freewheel.settings(frequency_Hz=frequency_Hz, **MOTOR)[round(duty * freewheel.STEPS) - 1]
    rms, peak, diode = _stepped(duty, frequency_Hz)
    assert state.switch_rms_A == pytest.approx(rms, rel=0.02)
    assert state.peak_A == pytest.approx(peak, rel=0.02)
    assert state.diode_mean_A == pytest.approx(diode, rel=0.02)


@given(ohm=st.floats(0.05, 1.8), milli=st.floats(0.2, 4), share=st.floats(0, 1), frequency=st.floats(50, 30e3))
def test_at_the_full_setting_the_motor_draws_its_full_current(ohm, milli, share, frequency):
    last = freewheel.settings(12, frequency, ohm, ohm * milli / 1000, 0.4, 12, 5.5, share)[-1]
    assert last.switch_rms_A == pytest.approx(5.5, rel=1e-6)
    assert last.diode_mean_A == 0


@given(ohm=st.floats(1, 50), diode_V=st.floats(0.3, 1))
def test_smooth_current_of_a_coil_is_the_mean_of_the_voltages(ohm, diode_V):
    """No back emf, 1 MHz: current (D V - (1-D) Vd)/R, and the diode has it for the rest of the time."""
    known = {
        "voltage_V": 12,
        "frequency_Hz": 1e6,
        "resistance_ohm": ohm,
        "inductance_H": 0.1,
        "diode_V": diode_V,
        "full_V": 12,
        "full_A": 12 / ohm,
        "friction_share": 0,
    }
    settings = [step / freewheel.STEPS for step in range(1, freewheel.STEPS + 1)]
    smooth = [max(0, duty * 12 - (1 - duty) * diode_V) / ohm for duty in settings]
    expected = max((1 - duty) * ampere for duty, ampere in zip(settings, smooth, strict=True))
    assert freewheel.largest_diode_mean_A(**known) == pytest.approx(expected, rel=2e-3)
    assert freewheel.largest_peak_A(**known) == pytest.approx(12 / ohm, rel=2e-3)


def test_a_low_frequency_heats_the_switch_more_than_full_strength():
    """The slower it is chopped, the more its current comes in pulses."""
    slow, fast = (freewheel.largest_switch_rms_A(frequency_Hz=hertz, **MOTOR) for hertz in (50.0, 20e3))
    assert slow > 1.05 * FULL_A
    assert fast == pytest.approx(FULL_A, rel=1e-3)


def test_more_friction_asks_more_of_the_diode():
    """A load of the same torque at any speed draws its full current at low settings too."""
    shares = [
        freewheel.largest_diode_mean_A(frequency_Hz=1000.0, **MOTOR | {"friction_share": share})
        for share in (0.0, 0.2, 0.6, 1.0)
    ]
    assert shares == sorted(shares)
    assert shares[-1] > 0.6 * FULL_A
