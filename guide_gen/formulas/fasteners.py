"""Fasteners: how long a screw must be."""

from guide_gen.formulas.validity import above_zero, not_negative
from guide_gen.values.worked import worked

_TRADE = "common practice, no source"


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
