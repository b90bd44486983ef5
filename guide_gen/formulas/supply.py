"""Supply: what is asked of it and what it has left."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import log

from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.formulas.validity import above_zero, not_negative, within
from guide_gen.published.tables import rule, supply_ratings_A
from guide_gen.values.worked import Candidate, Shape, Worked, worked

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


# At start -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Starter:
    """A toy at its start. start_A: from the supply. running_A: its share of the demand. delay_s: until it starts."""

    name: str
    start_A: float
    running_A: float
    delay_s: float = 0.0


@dataclass(frozen=True)
class StartBudget:
    """The worst moment of starting. together: the toys that start in it. demand_A: what is asked then."""

    together: tuple[str, ...]
    demand_A: float


def largest_start(demand_A: float, starters: tuple[Starter, ...]) -> StartBudget:
    """What is asked of a supply while one toy starts and all others run: the worst of them.

    With none it is the demand itself. Raises OutsideValidity. Source: this project; a sum.
    """
    not_negative(demand_A=demand_A)
    return _worst(demand_A, [(starter,) for starter in starters])


def staggered_start(demand_A: float, starters: tuple[Starter, ...]) -> StartBudget:
    """The same where software starts toys at set times: those of one moment count together, all others as running.

    Raises OutsideValidity. Source: this project; a sum.
    """
    not_negative(demand_A=demand_A)
    moments = sorted({starter.delay_s for starter in starters})
    return _worst(demand_A, [tuple(one for one in starters if one.delay_s == moment) for moment in moments])


def _worst(demand_A: float, groups: list[tuple[Starter, ...]]) -> StartBudget:
    worst = StartBudget((), demand_A)
    for group in groups:
        for one in group:
            not_negative(start_A=one.start_A, delay_s=one.delay_s)
            within(0, demand_A, running_A=one.running_A)
        asked = demand_A + sum(one.start_A - one.running_A for one in group)
        if asked > worst.demand_A:
            worst = StartBudget(tuple(one.name for one in group), asked)
    return worst


@worked(
    "s",
    "",
    "I * t / (C * V)",
    {
        "I": ("current_A", "A"),
        "t": ("time_s", "s"),
        "C": ("capacitance_F", "F"),
        "V": ("voltage_V", "V"),
    },
    "OpenStax University Physics volume 2, capacitance",
)
def capacitor_sag(current_A: float, time_s: float, capacitance_F: float, voltage_V: float) -> float:
    """The share of its voltage that an output capacitor loses to a short start; up to 0.05 it carries it alone.

    time_s: at most 0.02. Raises OutsideValidity. Source: OpenStax University Physics volume 2, capacitance.
    """
    not_negative(current_A=current_A)
    within(0, 0.02, time_s=time_s)
    above_zero(capacitance_F=capacitance_F, voltage_V=voltage_V)
    return current_A * time_s / (capacitance_F * voltage_V)


@worked(
    "W",
    "J",
    "C * V ** 2 / 2",
    {"C": ("capacitance_F", "F"), "V": ("voltage_V", "V")},
    "OpenStax University Physics volume 2, energy stored in a capacitor",
)
def capacitor_energy_J(capacitance_F: float, voltage_V: float) -> float:
    """What capacitors hold when the plug is out.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, energy stored in a capacitor.
    """
    above_zero(capacitance_F=capacitance_F, voltage_V=voltage_V)
    return capacitance_F * voltage_V**2 / 2


@worked(
    "t",
    "s",
    "max(0, R * C * log(V / V_s))",
    {
        "R": ("bleed_ohm", "Ω"),
        "C": ("capacitance_F", "F"),
        "V": ("voltage_V", "V"),
        "V_s": ("safe_V", "V"),
    },
    "OpenStax University Physics volume 2, RC circuits",
)
def discharge_s(bleed_ohm: float, capacitance_F: float, voltage_V: float, safe_V: float) -> float:
    """How long a resistor takes to bring capacitors down to a voltage.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, RC circuits.
    """
    above_zero(bleed_ohm=bleed_ohm, capacitance_F=capacitance_F, voltage_V=voltage_V, safe_V=safe_V)
    return max(0.0, bleed_ohm * capacitance_F * log(voltage_V / safe_V))


# The one to buy -----------------------------------------------------------------------------------------------------


@worked("I_r,min", "A", f"I / {_USABLE:g}", {"I": ("demand_A", "A")}, rule("usable supply share").source)
def rating_to_run_A(demand_A: float) -> float:
    """The rating that a supply needs for what runs: its usable share covers the demand.

    Raises OutsideValidity. Source: common practice, no source.
    """
    not_negative(demand_A=demand_A)
    return demand_A / _USABLE


@worked(
    "I_r,min",
    "A",
    f"max(I / {_USABLE:g}, I_peak)",
    {"I": ("demand_A", "A"), "I_peak": ("peak_A", "A")},
    rule("usable supply share").source,
)
def rating_needed_A(demand_A: float, peak_A: float) -> float:
    """The rating that a supply needs: its usable share covers the demand, the whole of it the worst start.

    peak_A: at least demand_A. Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(demand_A=demand_A)
    not_negative(peak_A=peak_A)
    within(demand_A, max(demand_A, peak_A), peak_A=peak_A)
    return max(rating_to_run_A(demand_A), peak_A)


def rating_to_buy(needed_A: float) -> tuple[float | None, tuple[Candidate, ...]]:
    """The next supply that is easy to buy, and its neighbours; None above the largest: split the toys over two.

    Raises OutsideValidity. Source: common practice, no source.
    """
    return smallest_at_or_above(supply_ratings_A(), needed_A, "A")
