"""Fasteners: how long a screw must be, how hard it clamps, and whether that holds a toy where it is."""

from math import pi

from guide_gen.formulas.validity import above_zero, not_negative, within
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_TRADE = "common practice, no source"
_SHIGLEY = "Shigley, Mechanical Engineering Design, bolted joints; from memory"
_PROOF_SHARE = rule("proof share of a clamp").value


@worked(
    "s",
    "mm",
    "p + a + b + 2 * w",
    {
        "p": ("panel_mm", "mm"),
        "a": ("allowance_mm", "mm"),
        "b": ("bracket_mm", "mm"),
        "w": ("washer_mm", "mm"),
    },
    _TRADE,
)
def stack_mm(panel_mm: float, allowance_mm: float, bracket_mm: float, washer_mm: float) -> float:
    """What a through-bolt clamps: panel, bracket and a washer on each side.

    allowance_mm: how much thicker the panel may be than it is called. washer_mm: the thickest washer allowed.
    Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(panel_mm=panel_mm)
    not_negative(allowance_mm=allowance_mm, bracket_mm=bracket_mm, washer_mm=washer_mm)
    return panel_mm + allowance_mm + bracket_mm + 2 * washer_mm


@worked(
    "l",
    "mm",
    "s + h + 2 * P",
    {"s": ("stack_mm", "mm"), "h": ("nut_mm", "mm"), "P": ("pitch_mm", "mm")},
    _TRADE,
)
def screw_length_needed_mm(stack_mm: float, nut_mm: float, pitch_mm: float) -> float:
    """The least length of a screw: the stack, the lock nut, and two threads beyond it.

    Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(stack_mm=stack_mm, nut_mm=nut_mm, pitch_mm=pitch_mm)
    return stack_mm + nut_mm + 2 * pitch_mm


@worked(
    "F",
    "N",
    f"min({_PROOF_SHARE:g} * S_p * A_s, p * {pi / 4:.9g} * (D ** 2 - d ** 2))",
    {
        "S_p": ("proof_MPa", "MPa"),
        "A_s": ("stress_area_mm2", "mm²"),
        "p": ("bearing_MPa", "MPa"),
        "D": ("washer_mm", "mm"),
        "d": ("hole_mm", "mm"),
    },
    _SHIGLEY,
)
def clamp_N(proof_MPa: float, stress_area_mm2: float, bearing_MPa: float, washer_mm: float, hole_mm: float) -> float:
    """How hard one screw may clamp: three quarters of its proof load, or what the panel under its washer bears.

    Raises OutsideValidity. Source: Shigley, Mechanical Engineering Design, bolted joints; from memory.
    """
    above_zero(proof_MPa=proof_MPa, stress_area_mm2=stress_area_mm2, bearing_MPa=bearing_MPa, hole_mm=hole_mm)
    within(hole_mm, max(hole_mm, washer_mm), washer_mm=washer_mm)
    return min(_PROOF_SHARE * proof_MPa * stress_area_mm2, bearing_MPa * pi / 4 * (washer_mm**2 - hole_mm**2))


@worked(
    "T",
    "N m",
    "K * F * d / 1000",
    {"K": ("nut_factor", ""), "F": ("clamp_N", "N"), "d": ("diameter_mm", "mm")},
    _SHIGLEY,
)
def tightening_N_m(nut_factor: float, clamp_N: float, diameter_mm: float) -> float:
    """The torque that gives a clamp, without what a locking nut itself asks for.

    Raises OutsideValidity. Source: Shigley, Mechanical Engineering Design, bolted joints; from memory.
    """
    above_zero(nut_factor=nut_factor, diameter_mm=diameter_mm)
    not_negative(clamp_N=clamp_N)
    return nut_factor * clamp_N * diameter_mm / 1000


@worked(
    "S",
    "",
    "n * mu * k * F / F_l",
    {
        "n": ("screws", ""),
        "mu": ("friction", ""),
        "k": ("kept", ""),
        "F": ("clamp_N", "N"),
        "F_l": ("side_N", "N"),
    },
    "this project: friction of all screws against the pull from the side",
)
def slip_safety(screws: float, friction: float, kept: float, clamp_N: float, side_N: float) -> float:
    """How many times its pull a mount's friction holds; below 1 it slips and the screws bear in shear.

    kept: of the clamp, once wood has given way. Raises OutsideValidity. Source: this project; dry friction.
    """
    above_zero(screws=screws, friction=friction, kept=kept, side_N=side_N)
    not_negative(clamp_N=clamp_N)
    return screws * friction * kept * clamp_N / side_N
