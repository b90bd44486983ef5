"""Supply: what is asked of it and what it has left."""

from collections.abc import Mapping

from guide_gen.formulas.validity import above_zero, not_negative, within
from guide_gen.published.tables import rule
from guide_gen.values.worked import Shape, Worked, worked

_USABLE = rule("usable supply share").value
_OPENING = rule("supply limit for opening").value
_CARRY = rule("supply limit to carry").value


def demand(id: str, name: str, currents_A: Mapping[str, float]) -> Worked:
    """The sum of the currents that may flow at once, with its working; result in A.

    currents_A: letter -> current; a letter is a Python name, ``I_1``. Nothing at all gives 0 A.
    Raises OutsideValidity. Source: OpenStax College Physics 2e, parallel circuits.
    """
    not_negative(**currents_A)
    return Worked(
        id,
        name,
        Shape.FORMULA,
        "I",
        sum(currents_A.values()),
        "A",
        " + ".join(currents_A) or "0",
        "OpenStax College Physics 2e, parallel circuits",
        numbers=dict(currents_A),
        units=dict.fromkeys(currents_A, "A"),
    )


@worked("I_usable", "A", f"{_USABLE:g} * I_r", {"I_r": ("rated_A", "A")}, rule("usable supply share").source)
def usable_current_A(rated_A: float) -> float:
    """What may be asked of a supply for long. Raises OutsideValidity. Source: common practice, no source."""
    above_zero(rated_A=rated_A)
    return _USABLE * rated_A


@worked(
    "h",
    "%",
    "100 * (1 - I / I_r)",
    {"I": ("demand_A", "A"), "I_r": ("rated_A", "A")},
    "this project",
)
def headroom_percent(demand_A: float, rated_A: float) -> float:
    """The share of a supply that is left in percent; negative when it is overloaded.

    Raises OutsideValidity. Source: this project; a ratio.
    """
    not_negative(demand_A=demand_A)
    above_zero(rated_A=rated_A)
    return 100 * (1 - demand_A / rated_A)


@worked(
    "I_peak",
    "A",
    "I + I_start - I_run",
    {"I": ("demand_A", "A"), "I_start": ("start_A", "A"), "I_run": ("running_A", "A")},
    "this project",
)
def demand_at_start_A(demand_A: float, start_A: float, running_A: float) -> float:
    """What is asked of a supply while its heaviest starter starts and all others run.

    running_A: that toy's own share in demand_A. Raises OutsideValidity. Source: this project; a sum.
    """
    not_negative(demand_A=demand_A, start_A=start_A)
    within(0, demand_A, running_A=running_A)
    return demand_A + start_A - running_A


@worked("I_s", "A", f"{_OPENING:g} * I_r", {"I_r": ("rated_A", "A")}, rule("supply limit for opening").source)
def limit_for_opening_A(rated_A: float) -> float:
    """What a supply of unknown limit is sure to give when a fuse must open: the low end.

    Raises OutsideValidity. Source: common practice, no source; an estimate, 1.05 to 1.5 times its rating.
    """
    above_zero(rated_A=rated_A)
    return _OPENING * rated_A


@worked("I_s", "A", f"{_CARRY:g} * I_r", {"I_r": ("rated_A", "A")}, rule("supply limit to carry").source)
def limit_to_carry_A(rated_A: float) -> float:
    """What a supply of unknown limit may push through a lead for ever: the high end.

    Raises OutsideValidity. Source: common practice, no source; an estimate, 1.05 to 1.5 times its rating.
    """
    above_zero(rated_A=rated_A)
    return _CARRY * rated_A
