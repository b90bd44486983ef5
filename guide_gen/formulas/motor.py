"""Brushed motor: its winding and constant from what can be measured, its speed and current under load.

V = R i + Ke w + Vb and torque = Ke i, in SI. V: at the brushes. Vb: drop of carbon brushes, 0 when lumped into R.
Magnetics are linear, and cogging counts as friction.
"""

from dataclasses import dataclass
from math import pi, sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, share, within
from guide_gen.published.tables import copper, rule
from guide_gen.values.worked import worked

_MOTOR = "OpenStax College Physics 2e, back emf"
_ALPHA = copper().coefficient_per_K
_MAGNET = rule("magnet coefficient").value
_LEAST_DETERMINANT = 0.05


@worked("R_max", "Ω", "V / I", {"V": ("voltage_V", "V"), "I": ("current_A", "A")}, _MOTOR)
def winding_upper_ohm(voltage_V: float, current_A: float) -> float:
    """The winding's resistance is below this: a turning motor's back emf takes a part of the voltage.

    current_A: running at voltage_V, low end of its range. Raises OutsideValidity.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, current_A=current_A)
    return voltage_V / current_A


@worked("I_start", "A", "V / R", {"V": ("voltage_V", "V"), "R": ("resistance_ohm", "Ω")}, _MOTOR)
def start_current_A(voltage_V: float, resistance_ohm: float) -> float:
    """The current at the moment of switching on at full voltage, when there is no back emf.

    resistance_ohm: of the winding and all that lies in its loop. Raises OutsideValidity.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm)
    return voltage_V / resistance_ohm


@worked(
    "E",
    "V",
    "V - I * R",
    {"V": ("voltage_V", "V"), "I": ("current_A", "A"), "R": ("resistance_ohm", "Ω")},
    _MOTOR,
)
def back_emf_V(voltage_V: float, current_A: float, resistance_ohm: float) -> float:
    """The voltage that a turning motor makes against its supply.

    Raises OutsideValidity, also when the current could not even flow at standstill.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm)
    not_negative(current_A=current_A)
    if current_A * resistance_ohm > voltage_V:
        standstill_A = voltage_V / resistance_ohm
        raise OutsideValidity("current_A", current_A, f"at most {standstill_A:g}, the current at standstill")
    return voltage_V - current_A * resistance_ohm


# Identification -----------------------------------------------------------------------------------------------------


@worked("w", "rad/s", f"{pi / 30:.9g} * n", {"n": ("speed_rpm", "rpm")}, "SI Brochure, units of angle and time")
def angular_speed_rad_per_s(speed_rpm: float) -> float:
    """A speed in turns a minute as an angular speed.

    Raises OutsideValidity. Source: SI Brochure: a turn is 2 pi radians, a minute 60 s.
    """
    not_negative(speed_rpm=speed_rpm)
    return pi / 30 * speed_rpm


@worked(
    "R",
    "Ω",
    "(V - V_b) / I_s",
    {"V": ("voltage_V", "V"), "V_b": ("brush_V", "V"), "I_s": ("stall_A", "A")},
    _MOTOR,
)
def stall_resistance_ohm(voltage_V: float, brush_V: float, stall_A: float) -> float:
    """Resistance of a winding from the current with the shaft held.

    stall_A: mean of three or four shaft positions, at a low voltage and for a second, so that it stays cold.
    Raises OutsideValidity. Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, stall_A=stall_A)
    _brush_below(brush_V, voltage_V)
    return (voltage_V - brush_V) / stall_A


@worked(
    "K_e",
    "V s/rad",
    "(V - V_b - I * R) / w",
    {
        "V": ("voltage_V", "V"),
        "V_b": ("brush_V", "V"),
        "I": ("current_A", "A"),
        "R": ("resistance_ohm", "Ω"),
        "w": ("speed_rad_per_s", "rad/s"),
    },
    _MOTOR,
)
def constant_V_s_per_rad(
    voltage_V: float, brush_V: float, current_A: float, resistance_ohm: float, speed_rad_per_s: float
) -> float:
    """The motor's constant Ke from one running point; in SI its torque per ampere is the same number.

    Raises OutsideValidity, also when the winding alone would take the whole voltage: a current as at standstill.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, current_A=current_A, resistance_ohm=resistance_ohm, speed_rad_per_s=speed_rad_per_s)
    _brush_below(brush_V, voltage_V)
    standstill_A = (voltage_V - brush_V) / resistance_ohm
    if current_A >= standstill_A:
        raise OutsideValidity("current_A", current_A, f"below {standstill_A:g}, the current at standstill")
    return (voltage_V - brush_V - current_A * resistance_ohm) / speed_rad_per_s


def _brush_below(brush_V: float, voltage_V: float) -> None:
    not_negative(brush_V=brush_V)
    if brush_V >= voltage_V:
        raise OutsideValidity("brush_V", brush_V, f"below voltage_V, {voltage_V:g}")


@dataclass(frozen=True)
class RunningPoint:
    """A motor that turns steadily: voltage at its brushes, current, speed."""

    voltage_V: float
    current_A: float
    speed_rad_per_s: float


@dataclass(frozen=True)
class Identified:
    """A motor's two constants."""

    resistance_ohm: float
    constant_V_s_per_rad: float


def from_two_points(first: RunningPoint, second: RunningPoint, brush_V: float) -> Identified:
    """Winding and constant from two running points: both are unknown in V = R i + Ke w + Vb, written twice.

    Raises OutsideValidity when the points lie too close together to tell the two apart (their determinant is less
    than 5 % of its terms), or when they give no real motor. Source: this project; Cramer's rule.
    """
    for point in (first, second):
        above_zero(voltage_V=point.voltage_V, current_A=point.current_A, speed_rad_per_s=point.speed_rad_per_s)
        _brush_below(brush_V, point.voltage_V)
    terms = first.current_A * second.speed_rad_per_s, second.current_A * first.speed_rad_per_s
    determinant = terms[0] - terms[1]
    if abs(determinant) < _LEAST_DETERMINANT * max(terms):
        raise OutsideValidity(
            "current_A", second.current_A, "of a point farther from the first: these two are too close together"
        )
    first_V, second_V = first.voltage_V - brush_V, second.voltage_V - brush_V
    resistance = (first_V * second.speed_rad_per_s - second_V * first.speed_rad_per_s) / determinant
    constant = (first.current_A * second_V - second.current_A * first_V) / determinant
    if resistance <= 0 or constant <= 0:
        raise OutsideValidity(
            "current_A", second.current_A, "such that winding and constant come out above 0: one reading must be wrong"
        )
    return Identified(resistance, constant)


@worked("T", "N m", "K_e * I", {"K_e": ("constant_V_s_per_rad", "V s/rad"), "I": ("current_A", "A")}, _MOTOR)
def torque_N_m(constant_V_s_per_rad: float, current_A: float) -> float:
    """Torque at a current; at the current measured while running it is the whole loss at that speed.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, back emf: the same constant, by conservation of energy.
    """
    above_zero(constant_V_s_per_rad=constant_V_s_per_rad)
    not_negative(current_A=current_A)
    return constant_V_s_per_rad * current_A


@worked(
    "T_c",
    "N m",
    f"{rule('friction share').value:g} * T",
    {"T": ("loss_N_m", "N m")},
    rule("friction share").source,
)
def friction_guess_N_m(loss_N_m: float) -> float:
    """Dry friction when it was not measured: a part of the loss at full speed, most of which grows with speed.

    Raises OutsideValidity. Source: common practice, no source; an estimate, 0.1 to 0.6 of the loss.
    """
    above_zero(loss_N_m=loss_N_m)
    return rule("friction share").value * loss_N_m


@worked(
    "s",
    "",
    f"1 - (1 - {rule('friction share').value:g}) * I_0 / I",
    {"I_0": ("free_A", "A"), "I": ("current_A", "A")},
    "this project: what it draws alone splits as any motor's loss, the rest is load",
)
def constant_share(free_A: float, current_A: float) -> float:
    """Of a loaded motor's torque what is the same at every speed, as a share of it.

    free_A: what it draws with nothing on its output; a part of that torque grows with the speed, see
    `friction_guess_N_m`. All else is load: what is lifted or rubs asks for the same at any speed.
    Raises OutsideValidity, also when it draws more alone than loaded. Source: this project; the part is an estimate.
    """
    above_zero(free_A=free_A, current_A=current_A)
    if free_A > current_A:
        raise OutsideValidity("free_A", free_A, f"at most current_A, {current_A:g}")
    return 1 - (1 - rule("friction share").value) * free_A / current_A


@worked(
    "T_c",
    "N m",
    "s * T",
    {"s": ("constant_share", ""), "T": ("torque_N_m", "N m")},
    "this project: balance of torques at a measured point",
)
def constant_torque_N_m(constant_share: float, torque_N_m: float) -> float:
    """The part of a torque that is the same at every speed, from its share.

    Raises OutsideValidity. Source: this project; T = Tc + c2 w².
    """
    share(constant_share=constant_share)
    above_zero(torque_N_m=torque_N_m)
    return constant_share * torque_N_m


@worked(
    "c_2",
    "N m s²",
    "(T - T_c) / w ** 2",
    {"T": ("loss_N_m", "N m"), "T_c": ("friction_N_m", "N m"), "w": ("speed_rad_per_s", "rad/s")},
    "this project: balance of torques at a measured point",
)
def drag_N_m_s2(loss_N_m: float, friction_N_m: float, speed_rad_per_s: float) -> float:
    """The part of the loss that grows with the square of the speed, for a speed of 1 rad/s.

    Raises OutsideValidity, also when friction is more than the whole loss. Source: this project; T = Tc + c2 w².
    """
    above_zero(loss_N_m=loss_N_m, speed_rad_per_s=speed_rad_per_s)
    not_negative(friction_N_m=friction_N_m)
    if friction_N_m > loss_N_m:
        raise OutsideValidity("friction_N_m", friction_N_m, f"at most loss_N_m, {loss_N_m:g}")
    return (loss_N_m - friction_N_m) / speed_rad_per_s**2


# Temperature --------------------------------------------------------------------------------------------------------


@worked(
    "R_T",
    "Ω",
    f"R_20 * (1 + {_ALPHA:g} * (T - 20))",
    {"R_20": ("resistance_20_ohm", "Ω"), "T": ("temperature_degC", "°C")},
    "IEC 60028",
)
def winding_at_ohm(resistance_20_ohm: float, temperature_degC: float) -> float:
    """Resistance of a copper winding at a temperature, from that at 20 °C.

    temperature_degC: -100 to 300. Raises OutsideValidity. Source: IEC 60028, coefficient from memory.
    """
    above_zero(resistance_20_ohm=resistance_20_ohm)
    within(-100, 300, temperature_degC=temperature_degC)
    return resistance_20_ohm * (1 + _ALPHA * (temperature_degC - 20))


@worked(
    "K_e",
    "V s/rad",
    f"K_20 * (1 - {-_MAGNET:g} * (T - 20))",
    {"K_20": ("constant_20_V_s_per_rad", "V s/rad"), "T": ("temperature_degC", "°C")},
    rule("magnet coefficient").source,
)
def constant_at_V_s_per_rad(constant_20_V_s_per_rad: float, temperature_degC: float) -> float:
    """A ferrite motor's constant at a temperature: a hot one stalls at less current but turns faster.

    temperature_degC: -40 to 150. Raises OutsideValidity. Source: common practice, no source; from memory.
    """
    above_zero(constant_20_V_s_per_rad=constant_20_V_s_per_rad)
    within(-40, 150, temperature_degC=temperature_degC)
    return constant_20_V_s_per_rad * (1 + _MAGNET * (temperature_degC - 20))


# Steady running on direct current -----------------------------------------------------------------------------------


def _speed_text() -> str:
    """The positive root of c2 w² + (Ke²/R) w = Ke (V - Vb)/R - Tl, in the form that holds for c2 = 0 too."""
    surplus = "max(0, K_e * (V - V_b) / R - T_l)"
    return f"2 * {surplus} / (K_e ** 2 / R + sqrt((K_e ** 2 / R) ** 2 + 4 * c_2 * {surplus}))"


@worked(
    "w",
    "rad/s",
    _speed_text(),
    {
        "V": ("voltage_V", "V"),
        "V_b": ("brush_V", "V"),
        "R": ("resistance_ohm", "Ω"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
        "T_l": ("load_N_m", "N m"),
        "c_2": ("drag_N_m_s2", "N m s²"),
    },
    "this project: balance of torques of a permanent-magnet motor",
)
def steady_speed_rad_per_s(
    voltage_V: float,
    brush_V: float,
    resistance_ohm: float,
    constant_V_s_per_rad: float,
    load_N_m: float,
    drag_N_m_s2: float,
) -> float:
    """Speed on direct current where the torque is load + drag w²; 0 when it stalls.

    load_N_m: dry friction included; what hangs on the shaft. Raises OutsideValidity.
    Source: this project; the balance of torques of a permanent-magnet motor.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm, constant_V_s_per_rad=constant_V_s_per_rad)
    _brush_below(brush_V, voltage_V)
    not_negative(load_N_m=load_N_m, drag_N_m_s2=drag_N_m_s2)
    surplus = max(0.0, constant_V_s_per_rad * (voltage_V - brush_V) / resistance_ohm - load_N_m)
    brake = constant_V_s_per_rad**2 / resistance_ohm
    return 2 * surplus / (brake + sqrt(brake**2 + 4 * drag_N_m_s2 * surplus))


@worked(
    "I",
    "A",
    "max(0, V - V_b - K_e * w) / R",
    {
        "V": ("voltage_V", "V"),
        "V_b": ("brush_V", "V"),
        "R": ("resistance_ohm", "Ω"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
        "w": ("speed_rad_per_s", "rad/s"),
    },
    _MOTOR,
)
def running_current_A(
    voltage_V: float,
    brush_V: float,
    resistance_ohm: float,
    constant_V_s_per_rad: float,
    speed_rad_per_s: float,
) -> float:
    """Current at a speed on direct current; at speed 0 it is the current at start and at stall.

    Raises OutsideValidity, also above the speed at which no current flows.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm, constant_V_s_per_rad=constant_V_s_per_rad)
    _brush_below(brush_V, voltage_V)
    # A motor without load turns at this very speed, which binary fractions may pass by a hair.
    within(0, (voltage_V - brush_V) / constant_V_s_per_rad * (1 + 1e-9), speed_rad_per_s=speed_rad_per_s)
    return max(0.0, voltage_V - brush_V - constant_V_s_per_rad * speed_rad_per_s) / resistance_ohm


@worked(
    "U",
    "",
    "T * R / (K_e * V)",
    {
        "T": ("torque_N_m", "N m"),
        "R": ("resistance_ohm", "Ω"),
        "K_e": ("constant_V_s_per_rad", "V s/rad"),
        "V": ("voltage_V", "V"),
    },
    _MOTOR,
)
def start_share(torque_N_m: float, resistance_ohm: float, constant_V_s_per_rad: float, voltage_V: float) -> float:
    """The share of a smooth voltage at which a motor at rest begins to turn against a torque; above 1: never.

    resistance_ohm: of the winding and all that lies in its loop. Raises OutsideValidity.
    Source: OpenStax College Physics 2e, back emf.
    """
    above_zero(
        torque_N_m=torque_N_m,
        resistance_ohm=resistance_ohm,
        constant_V_s_per_rad=constant_V_s_per_rad,
        voltage_V=voltage_V,
    )
    return torque_N_m * resistance_ohm / (constant_V_s_per_rad * voltage_V)


# Gearbox ------------------------------------------------------------------------------------------------------------


@worked(
    "T_l",
    "N m",
    "T_o / (N * eta) + T_c",
    {
        "T_o": ("output_N_m", "N m"),
        "N": ("ratio", ""),
        "eta": ("efficiency", ""),
        "T_c": ("friction_N_m", "N m"),
    },
    "this project: conservation of energy",
)
def geared_load_N_m(output_N_m: float, ratio: float, efficiency: float, friction_N_m: float) -> float:
    """The load on the motor's own shaft behind a gearbox.

    ratio: turns of the motor for one of the output. efficiency: a share.
    Raises OutsideValidity. Source: this project; conservation of energy.
    """
    not_negative(output_N_m=output_N_m, friction_N_m=friction_N_m)
    above_zero(ratio=ratio)
    share(efficiency=efficiency)
    return output_N_m / (ratio * efficiency) + friction_N_m


@worked(
    "w_o",
    "rad/s",
    "w / N",
    {"w": ("speed_rad_per_s", "rad/s"), "N": ("ratio", "")},
    "this project: the meaning of the ratio",
)
def output_speed_rad_per_s(speed_rad_per_s: float, ratio: float) -> float:
    """Speed behind a gearbox. Raises OutsideValidity. Source: this project; the meaning of its ratio."""
    not_negative(speed_rad_per_s=speed_rad_per_s)
    above_zero(ratio=ratio)
    return speed_rad_per_s / ratio


@worked(
    "T_o",
    "N m",
    "N * eta * (T - T_c)",
    {
        "T": ("torque_N_m", "N m"),
        "N": ("ratio", ""),
        "eta": ("efficiency", ""),
        "T_c": ("friction_N_m", "N m"),
    },
    "this project: conservation of energy",
)
def output_torque_N_m(torque_N_m: float, ratio: float, efficiency: float, friction_N_m: float) -> float:
    """Torque behind a gearbox, at stall what it pinches with.

    torque_N_m: of the motor's own shaft, at least its friction.
    Raises OutsideValidity. Source: this project; conservation of energy.
    """
    not_negative(torque_N_m=torque_N_m)
    within(0, torque_N_m, friction_N_m=friction_N_m)
    above_zero(ratio=ratio)
    share(efficiency=efficiency)
    return ratio * efficiency * (torque_N_m - friction_N_m)


@worked(
    "F",
    "N",
    "T_o / r",
    {"T_o": ("torque_N_m", "N m"), "r": ("radius_m", "m")},
    "OpenStax University Physics volume 1, torque",
)
def arm_force_N(torque_N_m: float, radius_m: float) -> float:
    """What the end of an arm pushes with, at a right angle to it.

    Raises OutsideValidity. Source: OpenStax University Physics volume 1, torque.
    """
    not_negative(torque_N_m=torque_N_m)
    above_zero(radius_m=radius_m)
    return torque_N_m / radius_m
