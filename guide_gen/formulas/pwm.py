"""PWM on a low-side switch with a freewheel diode across the motor: the exact periodic steady state.

Within a period inductance and back emf are constant and the edges ideal: good from about 50 Hz up for a shaker.
voltage_V: of the supply. emf_V: back emf Ke w and brush drop. on_ohm: winding, supply wire, fuse and switch.
off_ohm: winding and what lies in the diode's loop; a diode at the motor leaves the cable out.
Torque goes with the mean current and is never negative: a low-side switch with a diode cannot brake.
"""

from dataclasses import dataclass
from math import hypot, inf, log1p, sqrt

from guide_gen.formulas.coil import settled, time_constant_s
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, within
from guide_gen.values.worked import procedure, worked

_CHOPPER = "this project: the two exponential pieces of a chopper's current, joined so that the period repeats"
_HALVINGS = 60

# The pieces ---------------------------------------------------------------------------------------------------------


@worked("t_on", "s", "D / f", {"D": ("duty", ""), "f": ("frequency_Hz", "Hz")}, "this project")
def on_time_s(duty: float, frequency_Hz: float) -> float:
    """How long the switch is on in a period. Raises OutsideValidity. Source: this project; the meaning of duty."""
    within(0, 1, duty=duty)
    above_zero(frequency_Hz=frequency_Hz)
    return duty / frequency_Hz


@worked("t_off", "s", "(1 - D) / f", {"D": ("duty", ""), "f": ("frequency_Hz", "Hz")}, "this project")
def off_time_s(duty: float, frequency_Hz: float) -> float:
    """How long the switch is off in a period. Raises OutsideValidity. Source: this project; the meaning of duty."""
    within(0, 1, duty=duty)
    above_zero(frequency_Hz=frequency_Hz)
    return (1 - duty) / frequency_Hz


@worked(
    "A",
    "A",
    "max(0, (V - E) / R_on)",
    {"V": ("voltage_V", "V"), "E": ("emf_V", "V"), "R_on": ("on_ohm", "Ω")},
    _CHOPPER,
)
def on_limit_A(voltage_V: float, emf_V: float, on_ohm: float) -> float:
    """The current towards which it rises while the switch is on; 0 when the motor makes more than the supply.

    Raises OutsideValidity. Source: this project; Ohm's law in the supply's loop.
    """
    above_zero(voltage_V=voltage_V, on_ohm=on_ohm)
    not_negative(emf_V=emf_V)
    return max(0.0, (voltage_V - emf_V) / on_ohm)


@worked(
    "B",
    "A",
    "(V_d + E) / R_off",
    {"V_d": ("diode_V", "V"), "E": ("emf_V", "V"), "R_off": ("off_ohm", "Ω")},
    _CHOPPER,
)
def off_limit_A(diode_V: float, emf_V: float, off_ohm: float) -> float:
    """The current below zero towards which it falls while the switch is off; the diode stops it at zero.

    diode_V: above 0, at the current that flows. Raises OutsideValidity. Source: this project; the diode's loop.
    """
    above_zero(diode_V=diode_V, off_ohm=off_ohm)
    not_negative(emf_V=emf_V)
    return (diode_V + emf_V) / off_ohm


@worked(
    "I_min",
    "A",
    "max(0, (A * y_on * (1 - y_off) - B * y_off) / (y_on + y_off - y_on * y_off))",
    {
        "A": ("on_limit_A", "A"),
        "B": ("off_limit_A", "A"),
        "y_on": ("on_settled", ""),
        "y_off": ("off_settled", ""),
    },
    _CHOPPER,
)
def lowest_A(on_limit_A: float, off_limit_A: float, on_settled: float, off_settled: float) -> float:
    """The current at the end of each pause; 0 when the motor's current dies out before the next pulse.

    on_settled, off_settled: `coil.settled` of the on and the off time, not both 0.
    Raises OutsideValidity. Source: this project; the period repeats.
    """
    not_negative(on_limit_A=on_limit_A, off_limit_A=off_limit_A)
    within(0, 1, on_settled=on_settled, off_settled=off_settled)
    if on_settled == off_settled == 0:
        raise OutsideValidity("on_settled", on_settled, "above 0 where off_settled is 0")
    rising = on_limit_A * on_settled * (1 - off_settled) - off_limit_A * off_settled
    return max(0.0, rising / (on_settled + off_settled - on_settled * off_settled))


@worked(
    "I_pk",
    "A",
    "A * y_on + I_min * (1 - y_on)",
    {"A": ("on_limit_A", "A"), "y_on": ("on_settled", ""), "I_min": ("lowest_A", "A")},
    _CHOPPER,
)
def peak_A(on_limit_A: float, on_settled: float, lowest_A: float) -> float:
    """The current at the end of each pulse, in switch and motor and then in the diode.

    Raises OutsideValidity. Source: this project; an exponential rise.
    """
    not_negative(on_limit_A=on_limit_A, lowest_A=lowest_A)
    within(0, 1, on_settled=on_settled)
    return on_limit_A * on_settled + lowest_A * (1 - on_settled)


@worked(
    "t_x",
    "s",
    "min(t_off, tau * log(1 + I_pk / B))",
    {
        "t_off": ("off_s", "s"),
        "tau": ("off_constant_s", "s"),
        "I_pk": ("peak_A", "A"),
        "B": ("off_limit_A", "A"),
    },
    _CHOPPER,
)
def diode_time_s(off_s: float, off_constant_s: float, peak_A: float, off_limit_A: float) -> float:
    """How long the diode carries current in each pause. Raises OutsideValidity. Source: this project."""
    not_negative(off_s=off_s, peak_A=peak_A)
    above_zero(off_constant_s=off_constant_s, off_limit_A=off_limit_A)
    return min(off_s, off_constant_s * log1p(peak_A / off_limit_A))


_ON = {
    "f": ("frequency_Hz", "Hz"),
    "t_on": ("on_s", "s"),
    "tau": ("on_constant_s", "s"),
    "y": ("on_settled", ""),
    "A": ("on_limit_A", "A"),
    "I_min": ("lowest_A", "A"),
}


def _check_on(
    frequency_Hz: float, on_s: float, on_constant_s: float, on_settled: float, on_limit_A: float, lowest_A: float
) -> None:
    above_zero(frequency_Hz=frequency_Hz, on_constant_s=on_constant_s)
    not_negative(on_s=on_s, on_limit_A=on_limit_A, lowest_A=lowest_A)
    within(0, 1, on_settled=on_settled)


@worked("I_s", "A", "max(0, f * (A * t_on + (I_min - A) * tau * y))", _ON, _CHOPPER)
def switch_mean_A(
    frequency_Hz: float, on_s: float, on_constant_s: float, on_settled: float, on_limit_A: float, lowest_A: float
) -> float:
    """Mean current in switch, fuse and supply lead: what a DC meter shows, never what sizes a wire.

    Raises OutsideValidity. Source: this project; charge of a pulse times frequency.
    """
    _check_on(frequency_Hz, on_s, on_constant_s, on_settled, on_limit_A, lowest_A)
    return max(0.0, frequency_Hz * (on_limit_A * on_s + (lowest_A - on_limit_A) * on_constant_s * on_settled))


@worked(
    "I_s,rms",
    "A",
    "sqrt(max(0, f * (A ** 2 * t_on + 2 * A * (I_min - A) * tau * y + (I_min - A) ** 2 * tau * (y - y ** 2 / 2))))",
    _ON,
    _CHOPPER,
)
def switch_rms_A(
    frequency_Hz: float, on_s: float, on_constant_s: float, on_settled: float, on_limit_A: float, lowest_A: float
) -> float:
    """Rms current in switch, fuse and supply lead: what heats them.

    Raises OutsideValidity. Source: this project; integral of the square over a pulse.
    """
    _check_on(frequency_Hz, on_s, on_constant_s, on_settled, on_limit_A, lowest_A)
    below = lowest_A - on_limit_A
    square = (
        on_limit_A**2 * on_s
        + 2 * on_limit_A * below * on_constant_s * on_settled
        + below**2 * on_constant_s * (on_settled - on_settled**2 / 2)
    )
    return sqrt(max(0.0, frequency_Hz * square))


_OFF = {
    "f": ("frequency_Hz", "Hz"),
    "t_x": ("diode_s", "s"),
    "tau": ("off_constant_s", "s"),
    "y": ("diode_settled", ""),
    "B": ("off_limit_A", "A"),
    "I_pk": ("peak_A", "A"),
}


def _check_off(
    frequency_Hz: float, diode_s: float, off_constant_s: float, diode_settled: float, off_limit_A: float, peak_A: float
) -> None:
    above_zero(frequency_Hz=frequency_Hz, off_constant_s=off_constant_s)
    not_negative(diode_s=diode_s, off_limit_A=off_limit_A, peak_A=peak_A)
    within(0, 1, diode_settled=diode_settled)


@worked("I_d", "A", "max(0, f * ((I_pk + B) * tau * y - B * t_x))", _OFF, _CHOPPER)
def diode_mean_A(
    frequency_Hz: float, diode_s: float, off_constant_s: float, diode_settled: float, off_limit_A: float, peak_A: float
) -> float:
    """Mean current in the freewheel diode, which sizes it; at a low duty it is almost the motor's.

    diode_settled: `coil.settled` of diode_s. Raises OutsideValidity. Source: this project; charge times frequency.
    """
    _check_off(frequency_Hz, diode_s, off_constant_s, diode_settled, off_limit_A, peak_A)
    return max(0.0, frequency_Hz * ((peak_A + off_limit_A) * off_constant_s * diode_settled - off_limit_A * diode_s))


@worked(
    "I_d,rms",
    "A",
    "sqrt(max(0, f * (B ** 2 * t_x - 2 * B * (I_pk + B) * tau * y + (I_pk + B) ** 2 * tau * (y - y ** 2 / 2))))",
    _OFF,
    _CHOPPER,
)
def diode_rms_A(
    frequency_Hz: float, diode_s: float, off_constant_s: float, diode_settled: float, off_limit_A: float, peak_A: float
) -> float:
    """Rms current in the freewheel diode. Raises OutsideValidity. Source: this project; integral of the square."""
    _check_off(frequency_Hz, diode_s, off_constant_s, diode_settled, off_limit_A, peak_A)
    above = peak_A + off_limit_A
    square = (
        off_limit_A**2 * diode_s
        - 2 * off_limit_A * above * off_constant_s * diode_settled
        + above**2 * off_constant_s * (diode_settled - diode_settled**2 / 2)
    )
    return sqrt(max(0.0, frequency_Hz * square))


# The whole ----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Chopped:
    """A period that repeats. continuous: the current never falls to zero. switch: also fuse and supply lead."""

    continuous: bool
    lowest_A: float
    peak_A: float
    motor_mean_A: float
    motor_rms_A: float
    switch_mean_A: float
    switch_rms_A: float
    diode_mean_A: float
    diode_rms_A: float
    diode_s: float


def steady_state(
    voltage_V: float,
    emf_V: float,
    duty: float,
    frequency_Hz: float,
    on_ohm: float,
    off_ohm: float,
    inductance_H: float,
    diode_V: float,
) -> Chopped:
    """Mean, rms and peak of the current in motor, switch and diode.

    duty: 0 (no current) to 1 (direct current, none in the diode); no current either when emf_V reaches voltage_V.
    Raises OutsideValidity. Source: this project; choppers as in textbooks of power electronics, rms in closed form.
    """
    rising, falling = on_limit_A(voltage_V, emf_V, on_ohm), off_limit_A(diode_V, emf_V, off_ohm)
    on_s, off_s = on_time_s(duty, frequency_Hz), off_time_s(duty, frequency_Hz)
    on_constant, off_constant = time_constant_s(inductance_H, on_ohm), time_constant_s(inductance_H, off_ohm)
    on_part = settled(on_s, on_constant)
    lowest = lowest_A(rising, falling, on_part, settled(off_s, off_constant))
    peak = peak_A(rising, on_part, lowest)
    diode_s = diode_time_s(off_s, off_constant, peak, falling)
    on = frequency_Hz, on_s, on_constant, on_part, rising, lowest
    off = frequency_Hz, diode_s, off_constant, settled(diode_s, off_constant), falling, peak
    switch_mean, switch_rms = switch_mean_A(*on), switch_rms_A(*on)
    diode_mean, diode_rms = diode_mean_A(*off), diode_rms_A(*off)
    return Chopped(
        continuous=lowest > 0,
        lowest_A=lowest,
        peak_A=peak,
        motor_mean_A=switch_mean + diode_mean,
        motor_rms_A=hypot(switch_rms, diode_rms),
        switch_mean_A=switch_mean,
        switch_rms_A=switch_rms,
        diode_mean_A=diode_mean,
        diode_rms_A=diode_rms,
        diode_s=diode_s,
    )


@worked(
    "I_m",
    "A",
    "max(0, (D * V - (1 - D) * V_d - E) / (D * R_on + (1 - D) * R_off))",
    {
        "V": ("voltage_V", "V"),
        "E": ("emf_V", "V"),
        "D": ("duty", ""),
        "R_on": ("on_ohm", "Ω"),
        "R_off": ("off_ohm", "Ω"),
        "V_d": ("diode_V", "V"),
    },
    _CHOPPER,
)
def smooth_current_A(
    voltage_V: float, emf_V: float, duty: float, on_ohm: float, off_ohm: float, diode_V: float
) -> float:
    """The motor's mean current at a frequency so high that it does not ripple.

    It lies below duty times the supply: for the rest of the time the diode takes its drop.
    Raises OutsideValidity. Source: this project; the means of voltage and resistance over a period.
    """
    above_zero(voltage_V=voltage_V, on_ohm=on_ohm, off_ohm=off_ohm)
    not_negative(emf_V=emf_V, diode_V=diode_V)
    within(0, 1, duty=duty)
    mean_V = duty * voltage_V - (1 - duty) * diode_V - emf_V
    return max(0.0, mean_V / (duty * on_ohm + (1 - duty) * off_ohm))


@worked(
    "U_M",
    "V",
    "E + R * I",
    {"E": ("emf_V", "V"), "R": ("winding_ohm", "Ω"), "I": ("mean_A", "A")},
    "OpenStax College Physics 2e, back emf",
)
def motor_V(emf_V: float, winding_ohm: float, mean_A: float) -> float:
    """Mean voltage that a DC meter shows across a chopped motor; the inductance takes none on average.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, back emf.
    """
    not_negative(emf_V=emf_V, winding_ohm=winding_ohm, mean_A=mean_A)
    return emf_V + winding_ohm * mean_A


# No diode -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Unsuppressed:
    """A switch that is driven into avalanche at every turn-off. energy_J: in each pulse."""

    peak_A: float
    energy_J: float
    power_W: float
    motor_mean_A: float


def without_diode(
    voltage_V: float,
    emf_V: float,
    duty: float,
    frequency_Hz: float,
    loop_ohm: float,
    inductance_H: float,
    avalanche_V: float,
) -> Unsuppressed:
    """Heat in a switch whose motor has no diode: it takes the winding's energy and the supply's share besides.

    loop_ohm: winding, supply wire, fuse and switch, the same while the current dies. avalanche_V: above the supply.
    Raises OutsideValidity. Source: this project; the supply's loop against a constant voltage at the switch.
    """
    above_zero(avalanche_V=avalanche_V)
    if avalanche_V <= voltage_V:
        raise OutsideValidity("avalanche_V", avalanche_V, f"above voltage_V, {voltage_V:g}")
    # Seen from the motor the avalanching switch is a diode whose drop is the voltage above the supply.
    state = steady_state(
        voltage_V, emf_V, duty, frequency_Hz, loop_ohm, loop_ohm, inductance_H, avalanche_V - voltage_V
    )
    power = avalanche_V * state.diode_mean_A
    return Unsuppressed(state.peak_A, power / frequency_Hz, power, state.motor_mean_A)


# Measured and turning -----------------------------------------------------------------------------------------------


@procedure(
    "L",
    "H",
    "the inductance at which the mean supply current comes out as measured, found by halving an interval",
    {
        "I": ("supply_mean_A", "A"),
        "V": ("voltage_V", "V"),
        "D": ("duty", ""),
        "f": ("frequency_Hz", "Hz"),
        "R_on": ("on_ohm", "Ω"),
        "R_off": ("off_ohm", "Ω"),
        "V_d": ("diode_V", "V"),
    },
    _CHOPPER,
)
def inductance_from_meter_H(
    supply_mean_A: float,
    voltage_V: float,
    duty: float,
    frequency_Hz: float,
    on_ohm: float,
    off_ohm: float,
    diode_V: float,
) -> float:
    """A motor's inductance from a DC meter in the supply lead: shaft held, a short test, duty and frequency known.

    The reading falls steadily with the inductance. Raises OutsideValidity for a reading that no inductance from
    0.1 uH to 1 H gives: then resistance, duty or frequency is wrong. Source: this project; `steady_state`.
    """
    above_zero(supply_mean_A=supply_mean_A)

    def reading(inductance_H: float) -> float:
        return steady_state(voltage_V, 0, duty, frequency_Hz, on_ohm, off_ohm, inductance_H, diode_V).switch_mean_A

    low, high = 1e-7, 1.0
    least, most = reading(high), reading(low)
    if not least < supply_mean_A < most:
        raise OutsideValidity("supply_mean_A", supply_mean_A, f"between {least:.3g} and {most:.3g}")
    for _ in range(_HALVINGS):
        middle = sqrt(low * high)
        low, high = (middle, high) if reading(middle) > supply_mean_A else (low, middle)
    return sqrt(low * high)


@procedure(
    "w",
    "rad/s",
    "the speed at which the torque of the mean current meets friction and drag, found by halving an interval",
    {
        "V": ("voltage_V", "V"),
        "V_b": ("brush_V", "V"),
        "D": ("duty", ""),
        "f": ("frequency_Hz", "Hz"),
        "R_on": ("on_ohm", "Ω"),
        "R_off": ("off_ohm", "Ω"),
        "L": ("inductance_H", "H"),
        "V_d": ("diode_V", "V"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
        "T_l": ("load_N_m", "N m"),
        "c_2": ("drag_N_m_s2", "N m s²"),
    },
    _CHOPPER,
)
def turning_speed_rad_per_s(
    voltage_V: float,
    brush_V: float,
    duty: float,
    frequency_Hz: float,
    on_ohm: float,
    off_ohm: float,
    inductance_H: float,
    diode_V: float,
    constant_V_s_per_rad: float,
    load_N_m: float,
    drag_N_m_s2: float,
) -> float:
    """Smooth speed under PWM of a motor that is already turning; 0 when its torque at rest does not reach the load.

    load_N_m: dry friction included. Raises OutsideValidity. Source: this project; balance of mean torques.
    """
    above_zero(constant_V_s_per_rad=constant_V_s_per_rad)
    not_negative(brush_V=brush_V, load_N_m=load_N_m, drag_N_m_s2=drag_N_m_s2)

    def surplus(speed: float) -> float:
        state = steady_state(
            voltage_V,
            constant_V_s_per_rad * speed + brush_V,
            duty,
            frequency_Hz,
            on_ohm,
            off_ohm,
            inductance_H,
            diode_V,
        )
        return constant_V_s_per_rad * state.motor_mean_A - load_N_m - drag_N_m_s2 * speed**2

    if surplus(0) <= 0:
        return 0.0
    # The torque falls with speed and ends where the back emf reaches the supply.
    low, high = 0.0, voltage_V / constant_V_s_per_rad
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if surplus(middle) > 0 else (low, middle)
    return (low + high) / 2


@procedure(
    "D",
    "",
    "the smallest on-time share whose mean current at standstill gives the torque, found by halving an interval",
    {
        "T": ("torque_N_m", "N m"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
        "V": ("voltage_V", "V"),
        "f": ("frequency_Hz", "Hz"),
        "R_on": ("on_ohm", "Ω"),
        "R_off": ("off_ohm", "Ω"),
        "L": ("inductance_H", "H"),
        "V_d": ("diode_V", "V"),
    },
    _CHOPPER,
)
def start_duty(
    torque_N_m: float,
    constant_V_s_per_rad: float,
    voltage_V: float,
    frequency_Hz: float,
    on_ohm: float,
    off_ohm: float,
    inductance_H: float,
    diode_V: float,
) -> float:
    """The duty at which a motor at rest begins to turn against a torque; infinity when the full voltage is not enough.

    Raises OutsideValidity. Source: this project; `steady_state` at standstill.
    """
    above_zero(torque_N_m=torque_N_m, constant_V_s_per_rad=constant_V_s_per_rad)

    def reaches(duty: float) -> bool:
        state = steady_state(voltage_V, 0, duty, frequency_Hz, on_ohm, off_ohm, inductance_H, diode_V)
        return constant_V_s_per_rad * state.motor_mean_A >= torque_N_m

    low, high = 0.0, 1.0
    if not reaches(high):
        return inf
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if reaches(middle) else (middle, high)
    return high
