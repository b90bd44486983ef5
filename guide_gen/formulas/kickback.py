"""Kickback: how fast a coil's current dies when it is switched off, how high the voltage rises, where the energy goes.

Vc is the voltage across the coil while the current dies: the diode's drop; diode and zener; for a switch that
avalanches its voltage less the supply's. Inductance: of the closed plunger, since it is switched off closed.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import atan2, cos, cosh, exp, inf, log1p, pi, sin, sinh, sqrt

from guide_gen.formulas.coil import time_constant_s
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative
from guide_gen.values.worked import procedure, worked

_DECAY = "this project: an RL circuit against a constant voltage"
_RINGING = "this project: the damped oscillation of coil, resistor and charged capacitor"
_HALVINGS = 60
CLASS_PULSE_S = 1e-3  # to half value, of the 10/1000 μs pulse by which suppressor diodes are rated

# Against a constant voltage -----------------------------------------------------------------------------------------


@worked(
    "t",
    "s",
    "L / R * log((I_0 * R + V_c) / (I * R + V_c))",
    {
        "L": ("inductance_H", "H"),
        "R": ("resistance_ohm", "Ω"),
        "I_0": ("start_A", "A"),
        "I": ("release_A", "A"),
        "V_c": ("clamp_V", "V"),
    },
    _DECAY,
    never="I * R + V_c <= 0",
)
def decay_time_s(inductance_H: float, resistance_ohm: float, start_A: float, release_A: float, clamp_V: float) -> float:
    """Time until a coil's current has fallen to where it lets go; 0 A: until it is gone.

    Infinite for 0 A against nothing at all. release_A: at most start_A.
    Raises OutsideValidity. Source: this project; L di/dt = -R i - Vc.
    """
    constant = time_constant_s(inductance_H, resistance_ohm)
    not_negative(start_A=start_A, release_A=release_A, clamp_V=clamp_V)
    if release_A > start_A:
        raise OutsideValidity("release_A", release_A, f"at most start_A, {start_A:g}")
    left_V = release_A * resistance_ohm + clamp_V
    if left_V <= 0:
        return inf
    return constant * log1p((start_A - release_A) * resistance_ohm / left_V)


@worked(
    "i",
    "A",
    "max(0, (I_0 + V_c / R) * exp(-t * R / L) - V_c / R)",
    {
        "L": ("inductance_H", "H"),
        "R": ("resistance_ohm", "Ω"),
        "I_0": ("start_A", "A"),
        "V_c": ("clamp_V", "V"),
        "t": ("time_s", "s"),
    },
    _DECAY,
)
def decaying_current_A(
    inductance_H: float, resistance_ohm: float, start_A: float, clamp_V: float, time_s: float
) -> float:
    """What still flows a time after switching off. Raises OutsideValidity. Source: this project."""
    constant = time_constant_s(inductance_H, resistance_ohm)
    not_negative(start_A=start_A, clamp_V=clamp_V, time_s=time_s)
    pull = clamp_V / resistance_ohm
    return max(0.0, (start_A + pull) * exp(-time_s / constant) - pull)


@worked(
    "E_c",
    "J",
    "V_p * L / R * (I_0 - V_c / R * log(1 + I_0 * R / V_c))",
    {
        "V_p": ("part_V", "V"),
        "V_c": ("clamp_V", "V"),
        "L": ("inductance_H", "H"),
        "R": ("resistance_ohm", "Ω"),
        "I_0": ("start_A", "A"),
    },
    _DECAY,
)
def clamp_energy_J(part_V: float, clamp_V: float, inductance_H: float, resistance_ohm: float, start_A: float) -> float:
    """Energy that one part takes at a switching off, until the current is gone.

    part_V: across that part: the diode's drop, the zener's voltage, or the whole avalanche voltage of a bare switch,
    which takes the supply's share too. clamp_V: across the coil, above 0.
    Raises OutsideValidity. Source: this project; the part's voltage times the charge.
    """
    not_negative(part_V=part_V, start_A=start_A)
    above_zero(clamp_V=clamp_V)
    constant = time_constant_s(inductance_H, resistance_ohm)
    pull = clamp_V / resistance_ohm
    return part_V * constant * (start_A - pull * log1p(start_A / pull))


@worked("P_pk", "W", "V_p * I_0", {"V_p": ("part_V", "V"), "I_0": ("start_A", "A")}, "this project")
def clamp_peak_W(part_V: float, start_A: float) -> float:
    """Power in one part at the moment of switching off; from there it falls with the current to zero.

    Raises OutsideValidity. Source: this project; the part's voltage times the current.
    """
    not_negative(part_V=part_V, start_A=start_A)
    return part_V * start_A


@worked(
    "P_1",
    "W",
    f"P_pk * sqrt(max(1, t_0 / {CLASS_PULSE_S:g}))",
    {"P_pk": ("peak_W", "W"), "t_0": ("fall_s", "s")},
    "common practice, no source; 10/1000 μs pulse as in IEC 61643-321, from memory",
)
def class_pulse_W(peak_W: float, fall_s: float) -> float:
    """The 10/1000 μs pulse power that a suppressor diode must be rated for, to stand a longer pulse.

    What it stands falls about with the square root of the time. The whole fall counts as the time to half value, which
    a current that falls straight to zero reaches in half of it: the safe side. No more is allowed for a shorter one.
    Raises OutsideValidity. Source: common practice, no source; the pulse of IEC 61643-321, from memory.
    """
    not_negative(peak_W=peak_W, fall_s=fall_s)
    return peak_W * sqrt(max(1.0, fall_s / CLASS_PULSE_S))


@worked("P_c", "W", "f * E_c", {"f": ("frequency_Hz", "Hz"), "E_c": ("energy_J", "J")}, "this project")
def repeated_power_W(frequency_Hz: float, energy_J: float) -> float:
    """Heat from an energy that comes again at every switching off. Raises OutsideValidity. Source: this project."""
    not_negative(frequency_Hz=frequency_Hz, energy_J=energy_J)
    return frequency_Hz * energy_J


@worked(
    "E",
    "J",
    "C * V ** 2 + L * I ** 2 / 2",
    {
        "C": ("capacitance_F", "F"),
        "V": ("voltage_V", "V"),
        "L": ("inductance_H", "H"),
        "I": ("start_A", "A"),
    },
    "OpenStax University Physics 2, energy of a capacitor and of an inductor",
)
def rc_cycle_energy_J(capacitance_F: float, voltage_V: float, inductance_H: float, start_A: float) -> float:
    """What a resistor and capacitor across a coil, and the coil, turn into heat each time it is switched on and off.

    Charging to the supply loses as much as it stores; after switching off that and the coil's own energy die out.
    Raises OutsideValidity. Source: OpenStax University Physics 2, energy of a capacitor and of an inductor.
    """
    above_zero(capacitance_F=capacitance_F, voltage_V=voltage_V, inductance_H=inductance_H)
    not_negative(start_A=start_A)
    return capacitance_F * voltage_V**2 + inductance_H * start_A**2 / 2


@worked(
    "U_pk",
    "V",
    "V + V_c",
    {"V": ("voltage_V", "V"), "V_c": ("clamp_V", "V")},
    "this project",
)
def clamped_peak_V(voltage_V: float, clamp_V: float) -> float:
    """The highest voltage at the switch while a diode, or diode and zener, take the current over.

    Raises OutsideValidity. Source: this project; the coil's far end stays at the supply.
    """
    above_zero(voltage_V=voltage_V)
    not_negative(clamp_V=clamp_V)
    return voltage_V + clamp_V


# Resistor and capacitor ---------------------------------------------------------------------------------------------


@worked(
    "U_max",
    "V",
    "V + sqrt(V ** 2 + I_0 ** 2 * L / C)",
    {
        "V": ("voltage_V", "V"),
        "I_0": ("start_A", "A"),
        "L": ("inductance_H", "H"),
        "C": ("capacitance_F", "F"),
    },
    "this project: conservation of energy",
)
def rc_bound_V(voltage_V: float, start_A: float, inductance_H: float, capacitance_F: float) -> float:
    """What the switch never passes with a capacitor across the coil, when nothing is lost.

    The capacitor's own charge counts: V + I sqrt(L/C) alone is too low.
    Raises OutsideValidity. Source: this project; conservation of energy.
    """
    above_zero(inductance_H=inductance_H, capacitance_F=capacitance_F)
    not_negative(voltage_V=voltage_V, start_A=start_A)
    return voltage_V + sqrt(voltage_V**2 + start_A**2 * inductance_H / capacitance_F)


@worked(
    "C_min",
    "F",
    "L * I_0 ** 2 / ((U - V) ** 2 - V ** 2)",
    {
        "V": ("voltage_V", "V"),
        "U": ("allowed_V", "V"),
        "I_0": ("start_A", "A"),
        "L": ("inductance_H", "H"),
    },
    "this project: conservation of energy",
)
def rc_least_capacitance_F(voltage_V: float, allowed_V: float, start_A: float, inductance_H: float) -> float:
    """The least capacitor that keeps the switch below a voltage; then `rc_peak_V` verifies with the resistor.

    allowed_V: above twice the supply, which a charged capacitor alone makes.
    Raises OutsideValidity. Source: this project; conservation of energy.
    """
    above_zero(voltage_V=voltage_V, inductance_H=inductance_H)
    not_negative(start_A=start_A, allowed_V=allowed_V)
    if allowed_V <= 2 * voltage_V:
        raise OutsideValidity("allowed_V", allowed_V, f"above twice voltage_V, {2 * voltage_V:g}")
    return inductance_H * start_A**2 / ((allowed_V - voltage_V) ** 2 - voltage_V**2)


@worked(
    "R_s,max",
    "Ω",
    "(U - V) / I_0",
    {"V": ("voltage_V", "V"), "U": ("allowed_V", "V"), "I_0": ("start_A", "A")},
    "this project",
)
def rc_largest_resistance_ohm(voltage_V: float, allowed_V: float, start_A: float) -> float:
    """The largest resistor in series with the capacitor: at first the whole current flows through it.

    On the safe side by the supply's voltage, which the charged capacitor takes off at that moment.

    Raises OutsideValidity. Source: this project; Ohm's law at the moment of switching off.
    """
    above_zero(voltage_V=voltage_V, start_A=start_A)
    not_negative(allowed_V=allowed_V)
    if allowed_V <= voltage_V:
        raise OutsideValidity("allowed_V", allowed_V, f"above voltage_V, {voltage_V:g}")
    return (allowed_V - voltage_V) / start_A


@dataclass(frozen=True)
class _Ringing:
    """x(t) of x'' + 2 a x' + g x = 0, by x(0) and x'(0)."""

    a: float
    g: float
    start: float
    slope: float

    @property
    def _square(self) -> float:
        return self.a**2 - self.g

    def at(self, t: float) -> float:
        """The value at a time; periodic, aperiodic and the case between."""
        steep, square = self.slope + self.a * self.start, self._square
        w = sqrt(abs(square))
        if w * t < 1e-8:
            return exp(-self.a * t) * (self.start + steep * t)
        if square < 0:
            return exp(-self.a * t) * (self.start * cos(w * t) + steep * sin(w * t) / w)
        if w * t > 30:
            return exp((w - self.a) * t) * (self.start + steep / w) / 2
        return exp(-self.a * t) * (self.start * cosh(w * t) + steep * sinh(w * t) / w)

    @property
    def derivative(self) -> "_Ringing":
        """x'(t), which obeys the same equation."""
        return _Ringing(self.a, self.g, self.slope, -2 * self.a * self.slope - self.g * self.start)

    def zeros(self) -> tuple[float, ...]:
        """The first times after 0 at which it is zero: two when it rings, one or none else."""
        steep, square = self.slope + self.a * self.start, self._square
        w = sqrt(abs(square))
        if square < 0:
            # start cos + steep/w sin = 0
            first = atan2(-self.start * w, steep) % pi
            return first / w if first else pi / w, (first + pi) / w
        if steep == 0 or self.start / steep >= 0:
            return ()
        ratio = -self.start / steep
        if w * ratio >= 1:
            return ()
        return (ratio if w * ratio < 1e-8 else _artanh(w * ratio) / w,)


def _artanh(x: float) -> float:
    return (log1p(x) - log1p(-x)) / 2


_RC = {
    "V": ("voltage_V", "V"),
    "I_0": ("start_A", "A"),
    "L": ("inductance_H", "H"),
    "R": ("resistance_ohm", "Ω"),
    "C": ("capacitance_F", "F"),
    "R_s": ("series_ohm", "Ω"),
}


def _ringing(
    voltage_V: float,
    start_A: float,
    inductance_H: float,
    resistance_ohm: float,
    capacitance_F: float,
    series_ohm: float,
) -> _Ringing:
    """The coil's current from switching off on; the capacitor stands at the supply's voltage at that moment."""
    above_zero(
        voltage_V=voltage_V, inductance_H=inductance_H, resistance_ohm=resistance_ohm, capacitance_F=capacitance_F
    )
    not_negative(start_A=start_A, series_ohm=series_ohm)
    loop = resistance_ohm + series_ohm
    return _Ringing(
        loop / (2 * inductance_H),
        1 / (inductance_H * capacitance_F),
        start_A,
        (voltage_V - loop * start_A) / inductance_H,
    )


@procedure(
    "U_pk",
    "V",
    "highest voltage at the switch, at the first turning points of the damped oscillation of coil and capacitor",
    _RC,
    _RINGING,
)
def rc_peak_V(
    voltage_V: float,
    start_A: float,
    inductance_H: float,
    resistance_ohm: float,
    capacitance_F: float,
    series_ohm: float,
) -> float:
    """The highest voltage at the switch with resistor and capacitor in series across the coil.

    resistance_ohm: of the coil. series_ohm: of the suppressor's resistor.
    Raises OutsideValidity. Source: this project; i'' + (R+Rs)/L i' + i/(L C) = 0 with the capacitor at the supply.
    """
    current = _ringing(voltage_V, start_A, inductance_H, resistance_ohm, capacitance_F, series_ohm)
    # Above the supply: R i + L di/dt against the coil, which again obeys the same equation.
    slope = current.derivative
    above = _Ringing(
        current.a,
        current.g,
        -resistance_ohm * current.start - inductance_H * current.slope,
        -resistance_ohm * current.slope - inductance_H * slope.slope,
    )
    turning = [above.at(t) for t in above.derivative.zeros()]
    return voltage_V + max(0.0, above.start, *turning)


@procedure(
    "t",
    "s",
    "first time at which the damped oscillation of coil and capacitor has brought the coil's current down",
    _RC | {"I": ("release_A", "A")},
    _RINGING,
)
def rc_release_s(
    voltage_V: float,
    start_A: float,
    inductance_H: float,
    resistance_ohm: float,
    capacitance_F: float,
    series_ohm: float,
    release_A: float,
) -> float:
    """Time until a coil with resistor and capacitor across it lets go; infinite for 0 A when it only creeps there.

    Raises OutsideValidity. Source: this project; as `rc_peak_V`.
    """
    current = _ringing(voltage_V, start_A, inductance_H, resistance_ohm, capacitance_F, series_ohm)
    not_negative(release_A=release_A)
    if release_A > start_A:
        raise OutsideValidity("release_A", release_A, f"at most start_A, {start_A:g}")
    zeros = current.zeros()
    if release_A == 0 and not zeros:
        return inf
    # It only falls between its highest point and its first zero.
    turning = [t for t in current.derivative.zeros() if current.slope > 0]
    early = turning[0] if turning else 0.0
    late = zeros[0] if zeros else _late(current.at, release_A, current.a / current.g)
    for _ in range(_HALVINGS):
        middle = (early + late) / 2
        early, late = (middle, late) if current.at(middle) > release_A else (early, middle)
    return (early + late) / 2


def _late(value: Callable[[float], float], low: float, first: float) -> float:
    """A time, doubled from a first guess, at which a value that creeps to zero lies below another."""
    while value(first) > low:
        first *= 2
    return first
