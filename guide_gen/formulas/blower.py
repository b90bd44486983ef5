"""A blower fan: what its speed moves, and what it needs to start."""

from dataclasses import dataclass
from math import inf, log

from guide_gen.formulas.validity import above_zero, not_negative
from guide_gen.published.vibration import motion_value
from guide_gen.values.worked import worked

_FAN_LAWS = "fan laws: ANSI/AMCA 210 and ISO 5801, conversion to another speed; from memory"
_FAN_SOUND = "fan laws of handbooks such as F. P. Bleier, Fan Handbook; from memory"
_RESERVE = motion_value("blower start reserve")
_ELECTRONICS = motion_value("fan electronics start share")


@dataclass(frozen=True)
class FanPoint:
    """A fan as shares of what it does at full speed; sound_dB: change, 0 at full speed, minus infinity at rest."""

    flow_share: float
    pressure_share: float
    power_share: float
    sound_dB: float


@worked("q", "", "n / n_0", {"n": ("turning_Hz", "Hz"), "n_0": ("full_Hz", "Hz")}, _FAN_LAWS)
def flow_share(turning_Hz: float, full_Hz: float) -> float:
    """The air that it moves, as a share: it goes with the speed, in an unchanged duct.

    Raises OutsideValidity. Source: fan laws, ANSI/AMCA 210 and ISO 5801; from memory.
    """
    not_negative(turning_Hz=turning_Hz)
    above_zero(full_Hz=full_Hz)
    return turning_Hz / full_Hz


@worked("p", "", "(n / n_0) ** 2", {"n": ("turning_Hz", "Hz"), "n_0": ("full_Hz", "Hz")}, _FAN_LAWS)
def pressure_share(turning_Hz: float, full_Hz: float) -> float:
    """The pressure of the air, as a share: it goes with the square of the speed.

    Raises OutsideValidity. Source: fan laws, ANSI/AMCA 210 and ISO 5801; from memory.
    """
    return flow_share(turning_Hz, full_Hz) ** 2


@worked("P", "", "(n / n_0) ** 3", {"n": ("turning_Hz", "Hz"), "n_0": ("full_Hz", "Hz")}, _FAN_LAWS)
def power_share(turning_Hz: float, full_Hz: float) -> float:
    """The power that goes into the air, as a share: it goes with the cube of the speed.

    Raises OutsideValidity. Source: fan laws, ANSI/AMCA 210 and ISO 5801; from memory.
    """
    return flow_share(turning_Hz, full_Hz) ** 3


@worked(
    "L",
    "dB",
    "50 * log(n / n_0) / log(10)",
    {"n": ("turning_Hz", "Hz"), "n_0": ("full_Hz", "Hz")},
    _FAN_SOUND,
)
def sound_change_dB(turning_Hz: float, full_Hz: float) -> float:
    """How much louder or quieter the air is than at full speed: 50 times the logarithm of the ratio of speeds.

    Raises OutsideValidity, also at rest. Source: fan laws of handbooks such as Bleier, Fan Handbook; from memory.
    """
    above_zero(turning_Hz=turning_Hz, full_Hz=full_Hz)
    return 50 * log(turning_Hz / full_Hz) / log(10)


def fan_point(turning_Hz: float, full_Hz: float) -> FanPoint:
    """All four fan laws at one speed; at rest it is silent.

    Raises OutsideValidity. Source: as for each of them.
    """
    return FanPoint(
        flow_share(turning_Hz, full_Hz),
        pressure_share(turning_Hz, full_Hz),
        power_share(turning_Hz, full_Hz),
        sound_change_dB(turning_Hz, full_Hz) if turning_Hz > 0 else -inf,
    )


@worked("T_s", "N m", f"{_RESERVE.value:g} * T_c", {"T_c": ("friction_N_m", "N m")}, "this project: estimate")
def start_torque_N_m(friction_N_m: float) -> float:
    """The torque at standstill that starts a fan for sure: its dry friction and half of it in reserve.

    Raises OutsideValidity. Source: this project; an estimate.
    """
    above_zero(friction_N_m=friction_N_m)
    return _RESERVE.value * friction_N_m


@worked("V_s", "V", f"{_ELECTRONICS.value:g} * V", {"V": ("voltage_V", "V")}, "this project: estimate, 0.3 to 0.7 of V")
def electronics_start_V(voltage_V: float) -> float:
    """The steady voltage at which a fan's own electronics begin to turn it; never for PWM on its supply.

    Raises OutsideValidity. Source: this project; an estimate, 0.3 to 0.7 of its rated voltage.
    """
    above_zero(voltage_V=voltage_V)
    return _ELECTRONICS.value * voltage_V
