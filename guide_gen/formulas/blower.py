"""A blower fan: when it starts, and what it moves at each setting."""

from dataclasses import dataclass
from math import inf, log10, pi

import numpy as np

from guide_gen.formulas.drive import Shakers
from guide_gen.formulas.swing import lift_threshold, turning
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, share
from guide_gen.published.vibration import motion_value
from guide_gen.values.worked import worked


@dataclass(frozen=True)
class FanPoint:
    """A fan at a setting, as shares of full speed's; sound_dB: change, 0 at full speed, minus infinity at rest."""

    setting: float
    turning_Hz: float
    flow_share: float
    pressure_share: float
    power_share: float
    sound_dB: float


@worked(
    "c_2",
    "N m s²",
    "(K_e * I - T_c) / w ** 2",
    {
        "K_e": ("emf_V_s", "V s"),
        "I": ("current_A", "A"),
        "T_c": ("friction_N_m", "N m"),
        "w": ("speed_rad_s", "rad/s"),
    },
    "any machines text: torque balance at a measured point",
)
def drag_N_m_s2(emf_V_s: float, current_A: float, friction_N_m: float, speed_rad_s: float) -> float:
    """Torque over the square of the speed, from one running point; for blower and shaker alike.

    Raises OutsideValidity, also when friction alone is more than the motor's torque.
    Source: any machines text, torque balance.
    """
    above_zero(emf_V_s=emf_V_s, current_A=current_A, speed_rad_s=speed_rad_s)
    not_negative(friction_N_m=friction_N_m)
    if friction_N_m > emf_V_s * current_A:
        raise OutsideValidity("friction_N_m", friction_N_m, f"at most the motor's torque, {emf_V_s * current_A:g}")
    return (emf_V_s * current_A - friction_N_m) / speed_rad_s**2


def fan_point(setting: float, turning_Hz: float, full_Hz: float) -> FanPoint:
    """Flow with the speed, pressure with its square, power with its cube, sound with 50 times its logarithm.

    Raises OutsideValidity. Source: fan laws of any handbook of fans, unchanged duct.
    """
    above_zero(full_Hz=full_Hz)
    not_negative(turning_Hz=turning_Hz, setting=setting)
    ratio = turning_Hz / full_Hz
    sound_dB = 50 * log10(ratio) if ratio > 0 else -inf
    return FanPoint(setting, turning_Hz, ratio, ratio**2, ratio**3, sound_dB)


@dataclass(frozen=True)
class BlowerPlan:
    """start: the setting from which it starts surely, infinity when never; points: from standstill to full."""

    start: float
    points: tuple[FanPoint, ...]
    kick_s: float


def blower_plan(
    supply_V: float,
    pwm_Hz: float,
    loop_on_ohm: float,
    loop_off_ohm: float,
    inductance_H: float,
    diode_V: float,
    emf_V_s: float,
    friction_N_m: float,
    drag_N_m_s2: float,
    step: float = 0.05,
) -> BlowerPlan:
    """A brushed blower on PWM. It starts where the torque at standstill is half as much again as its friction.

    Below the start it is at rest unless it was kicked: the points give what it keeps.
    Raises OutsideValidity. Source: section by section any machines text and the fan laws; the reserve is an estimate.
    """
    above_zero(
        supply_V=supply_V,
        pwm_Hz=pwm_Hz,
        loop_on_ohm=loop_on_ohm,
        loop_off_ohm=loop_off_ohm,
        inductance_H=inductance_H,
        diode_V=diode_V,
        emf_V_s=emf_V_s,
        drag_N_m_s2=drag_N_m_s2,
    )
    not_negative(friction_N_m=friction_N_m)
    share(step=step)
    # a blower is a shaker without a weight: nothing that shakes takes torque away
    fan = Shakers.of(
        supply_V=supply_V,
        pwm_Hz=pwm_Hz,
        loop_on_ohm=loop_on_ohm,
        loop_off_ohm=loop_off_ohm,
        inductance_H=inductance_H,
        diode_V=diode_V,
        brush_V=0.0,
        emf_V_s=emf_V_s,
        friction_N_m=friction_N_m,
        drag_N_m_s2=drag_N_m_s2,
        unbalance_kg_m=0.0,
        inertia_kg_m2=1.0,
        mass_kg=1.0,
        natural_Hz=1.0,
        damping_share=0.5,
    )
    reserve = motion_value("blower start reserve").value
    start = float(lift_threshold(fan, fan.friction_N_m * reserve)[0])
    settings = np.append(np.arange(0, 1 - step / 2, step), 1.0)
    speeds = turning(fan, settings).speed_rad_s[0] / (2 * pi)
    if not speeds[-1] > 0:
        raise OutsideValidity("friction_N_m", friction_N_m, "low enough to turn at the full setting")
    points = tuple(fan_point(float(d), float(f), float(speeds[-1])) for d, f in zip(settings, speeds, strict=True))
    return BlowerPlan(start, points, motion_value("blower kick time").value)
