"""How the cabinet answers a turning weight, and what its contents stand."""

from dataclasses import dataclass
from math import pi, sqrt

import numpy as np

from guide_gen.formulas.drive import Floats
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, within
from guide_gen.published.vibration import VibrationClass
from guide_gen.values.worked import worked

_BOOK = "W. T. Thomson, Theory of Vibration with Applications, rotating unbalance"
_DECREMENT = "W. T. Thomson, Theory of Vibration with Applications, logarithmic decrement"
CROSSING_Hz = 9.0  # IEC 60721-3-3: displacement counts below, acceleration from here on


# One case, with its working -----------------------------------------------------------------------------------------


@worked(
    "X",
    "m",
    "m_e / M * (f / f_n) ** 2 / sqrt((1 - (f / f_n) ** 2) ** 2 + (2 * z * f / f_n) ** 2)",
    {
        "m_e": ("unbalance_kg_m", "kg m"),
        "M": ("mass_kg", "kg"),
        "f": ("turning_Hz", "Hz"),
        "f_n": ("natural_Hz", "Hz"),
        "z": ("damping_share", ""),
    },
    _BOOK,
)
def sideways_shift_m(
    unbalance_kg_m: float, mass_kg: float, turning_Hz: float, natural_Hz: float, damping_share: float
) -> float:
    """How far the cabinet sways from its middle: peak, at the height of the shaker.

    mass_kg: what moves, weight included. Raises OutsideValidity.
    Source: Thomson, Theory of Vibration with Applications, rotating unbalance.
    """
    above_zero(unbalance_kg_m=unbalance_kg_m, mass_kg=mass_kg, turning_Hz=turning_Hz, natural_Hz=natural_Hz)
    _damping(damping_share)
    ratio = turning_Hz / natural_Hz
    return unbalance_kg_m / mass_kg * ratio**2 / sqrt((1 - ratio**2) ** 2 + (2 * damping_share * ratio) ** 2)


@worked(
    "a",
    "m/s²",
    "X * (2 * 3.141592653589793 * f) ** 2",
    {"X": ("shift_m", "m"), "f": ("turning_Hz", "Hz")},
    "OpenStax University Physics 1, simple harmonic motion",
)
def acceleration_m_s2(shift_m: float, turning_Hz: float) -> float:
    """Peak acceleration of a sinusoid of this shift and frequency.

    Raises OutsideValidity. Source: OpenStax University Physics 1, simple harmonic motion.
    """
    not_negative(shift_m=shift_m)
    above_zero(turning_Hz=turning_Hz)
    return shift_m * (2 * pi * turning_Hz) ** 2


@worked(
    "F_floor",
    "N",
    "m_e * (2 * 3.141592653589793 * f) ** 2 * sqrt(1 + (2 * z * f / f_n) ** 2)"
    " / sqrt((1 - (f / f_n) ** 2) ** 2 + (2 * z * f / f_n) ** 2)",
    {
        "m_e": ("unbalance_kg_m", "kg m"),
        "f": ("turning_Hz", "Hz"),
        "f_n": ("natural_Hz", "Hz"),
        "z": ("damping_share", ""),
    },
    _BOOK,
)
def floor_force_N(unbalance_kg_m: float, turning_Hz: float, natural_Hz: float, damping_share: float) -> float:
    """The force that goes on into the floor, peak.

    Raises OutsideValidity. Source: Thomson, Theory of Vibration with Applications, rotating unbalance.
    """
    above_zero(unbalance_kg_m=unbalance_kg_m, turning_Hz=turning_Hz, natural_Hz=natural_Hz)
    _damping(damping_share)
    ratio = turning_Hz / natural_Hz
    through = 2 * damping_share * ratio
    pull_N = unbalance_kg_m * (2 * pi * turning_Hz) ** 2
    return pull_N * sqrt(1 + through**2) / sqrt((1 - ratio**2) ** 2 + through**2)


@worked(
    "f_n",
    "Hz",
    "sqrt(F / (s * M)) / (2 * 3.141592653589793)",
    {"F": ("push_N", "N"), "s": ("deflection_m", "m"), "M": ("mass_kg", "kg")},
    _BOOK,
)
def push_test_natural_Hz(push_N: float, deflection_m: float, mass_kg: float) -> float:
    """Natural frequency from a steady sideways push and how far the cabinet gave way.

    Raises OutsideValidity. Source: Thomson, Theory of Vibration with Applications, free vibration.
    """
    above_zero(push_N=push_N, deflection_m=deflection_m, mass_kg=mass_kg)
    return sqrt(push_N / (deflection_m * mass_kg)) / (2 * pi)


@worked(
    "z",
    "",
    "log(x_0 / x_n) / n / sqrt(4 * 3.141592653589793 ** 2 + (log(x_0 / x_n) / n) ** 2)",
    {"x_0": ("first_share", ""), "x_n": ("later_share", ""), "n": ("cycles", "")},
    _DECREMENT,
)
def decrement_damping(first_share: float, later_share: float, cycles: float) -> float:
    """Damping ratio from two amplitudes of a free decay, `cycles` apart; both as shares of the largest.

    Raises OutsideValidity, also when it does not decay.
    Source: Thomson, Theory of Vibration with Applications, logarithmic decrement.
    """
    above_zero(first_share=first_share, later_share=later_share, cycles=cycles)
    if later_share >= first_share:
        raise OutsideValidity("later_share", later_share, f"below first_share, {first_share:g}")
    decrement = np.log(first_share / later_share) / cycles
    return float(decrement / sqrt(4 * pi**2 + decrement**2))


@worked(
    "z",
    "",
    "X_far / (2 * X_res)",
    {"X_far": ("far_m", "m"), "X_res": ("resonance_m", "m")},
    _BOOK,
)
def damping_from_two_shifts(far_m: float, resonance_m: float) -> float:
    """Damping ratio from the shift at resonance and the one that it tends to far above.

    Raises OutsideValidity. Source: Thomson, Theory of Vibration with Applications, rotating unbalance.
    """
    above_zero(far_m=far_m, resonance_m=resonance_m)
    return far_m / (2 * resonance_m)


def _damping(damping_share: float) -> None:
    within(1e-6, 1.0, damping_share=damping_share)


@dataclass(frozen=True)
class Footing:
    """Whether the pull at full power can walk or lift the cabinet."""

    creeps: bool
    hops: bool


def footing(pull_N: float, mass_kg: float, grip: float) -> Footing:
    """pull_N: of the weight at full speed; grip: friction of the feet.

    Raises OutsideValidity. Source: statics; derived here for a pull that turns.
    """
    above_zero(pull_N=pull_N, mass_kg=mass_kg, grip=grip)
    held_N = mass_kg * 9.80665
    return Footing(pull_N * sqrt(1 + grip**2) > grip * held_N, pull_N > held_N)


# Many cases ---------------------------------------------------------------------------------------------------------


def shift(
    unbalance_kg_m: Floats, mass_kg: Floats, natural_rad_s: Floats, damping_share: Floats, speed_rad_s: Floats
) -> Floats:
    """`sideways_shift_m` for arrays and angular frequencies; zero at standstill."""
    ratio = speed_rad_s / natural_rad_s
    result: Floats = (
        unbalance_kg_m / mass_kg * ratio**2 / np.sqrt((1 - ratio**2) ** 2 + (2 * damping_share * ratio) ** 2)
    )
    return result


def line_shift(
    force_N: Floats, mass_kg: float, natural_rad_s: Floats, damping_share: float, line_rad_s: Floats
) -> Floats:
    """The shift under a sinusoidal force of its own, such as one line of an uneven turn."""
    away = natural_rad_s**2 - line_rad_s**2
    result: Floats = force_N / (mass_kg * np.hypot(away, 2 * damping_share * natural_rad_s * line_rad_s))
    return result


def greatest_shift(
    force_N: Floats, mass_kg: float, natural_rad_s: tuple[float, float], damping_share: float, line_rad_s: Floats
) -> Floats:
    """The largest shift while the natural frequency may lie anywhere in its range.

    As a function of the natural frequency the shift has one peak, force / (2 z sqrt(1 - z²) M w²), at
    w sqrt(1 - 2 z²): the larger of both ends, or that peak when it lies between them. line_rad_s above 0.
    """
    ends = [line_shift(force_N, mass_kg, np.asarray(end), damping_share, line_rad_s) for end in natural_rad_s]
    peak = force_N / (mass_kg * line_rad_s**2 * 2 * damping_share * sqrt(1 - damping_share**2))
    at = line_rad_s * sqrt(max(1 - 2 * damping_share**2, 0.0))
    inside = (at >= natural_rad_s[0]) & (at <= natural_rad_s[1])
    return np.maximum(np.maximum(*ends), np.where(inside, peak, 0.0))


def least_shift(
    force_N: Floats, mass_kg: float, natural_rad_s: tuple[float, float], damping_share: float, line_rad_s: Floats
) -> Floats:
    """The smallest shift while the natural frequency may lie anywhere in its range: at one of its ends."""
    return np.minimum(
        *(line_shift(force_N, mass_kg, np.asarray(end), damping_share, line_rad_s) for end in natural_rad_s)
    )


def limit_share(limit: VibrationClass, line_rad_s: Floats, shift_m: Floats) -> Floats:
    """What share of a limit a sinusoid takes: by its shift below 9 Hz, by its acceleration from 9 Hz.

    Below 2 Hz, where the standard ends, the displacement is carried on.
    """
    by_shift = shift_m / limit.shift_m
    by_acceleration = shift_m * line_rad_s**2 / limit.acceleration_m_s2
    # a whisker of slack: 9 Hz must not fall below 9 Hz by rounding
    return np.where(line_rad_s < 2 * pi * CROSSING_Hz * (1 - 1e-12), by_shift, by_acceleration)
