"""Short circuit: what flows into it, and the heat that a wire stands until the fuse has opened."""

from math import log, sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, temperature, within
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_ADIABATIC = "IEC 60364-4-43 434.5.2"
_LONGEST_S = rule("adiabatic limit").value


@worked(
    "I_k",
    "A",
    "V / (R_s + R)",
    {"V": ("voltage_V", "V"), "R_s": ("supply_ohm", "Ω"), "R": ("loop_ohm", "Ω")},
    "Lessons In Electric Circuits volume I, conductors",
)
def prospective_A(voltage_V: float, supply_ohm: float, loop_ohm: float) -> float:
    """What would flow into a short circuit at the far end of a run, from a supply that does not limit.

    loop_ohm: both ways with fuse and contacts, above 0; warm for the fuse's sake, cold for the wire's.
    Raises OutsideValidity. Source: Lessons In Electric Circuits volume I, conductors.
    """
    above_zero(voltage_V=voltage_V, loop_ohm=loop_ohm)
    not_negative(supply_ohm=supply_ohm)
    return voltage_V / (supply_ohm + loop_ohm)


@worked(
    "I_f",
    "A",
    "min(I_k, I_s)",
    {"I_k": ("prospective_A", "A"), "I_s": ("limit_A", "A")},
    "this project",
)
def fault_current_A(prospective_A: float, limit_A: float) -> float:
    """What flows into a short circuit from a supply that limits its current.

    limit_A: its over-current point. Raises OutsideValidity. Source: this project; the smaller of the two.
    """
    above_zero(prospective_A=prospective_A, limit_A=limit_A)
    return min(prospective_A, limit_A)


@worked(
    "I_e",
    "A",
    "I * sqrt(d)",
    {"I": ("burst_A", "A"), "d": ("burst_share", "")},
    "this project",
)
def rms_of_bursts_A(burst_A: float, burst_share: float) -> float:
    """What heats a wire behind a supply that tries again and again.

    burst_share: of the time in which it gives current. Raises OutsideValidity. Source: this project; mean square.
    """
    not_negative(burst_A=burst_A)
    within(0, 1, burst_share=burst_share)
    return burst_A * sqrt(burst_share)


@worked(
    "k",
    "",
    "226 * sqrt(log(1 + (T_e - T_s) / (234.5 + T_s)))",
    {"T_s": ("start_degC", "°C"), "T_e": ("end_degC", "°C")},
    "IEC 60364-5-54 annex A",
)
def withstand_constant(start_degC: float, end_degC: float) -> float:
    """The k of copper in A s^0.5/mm² between two temperatures; the table's values are this formula's.

    end_degC: above the start. Raises OutsideValidity. Source: IEC 60364-5-54 annex A, from memory.
    """
    temperature(start_degC=start_degC, end_degC=end_degC)
    within(-200, 1083, start_degC=start_degC, end_degC=end_degC)
    if end_degC <= start_degC:
        raise OutsideValidity("end_degC", end_degC, f"above start_degC, {start_degC:g}")
    return 226 * sqrt(log(1 + (end_degC - start_degC) / (234.5 + start_degC)))


@worked("W_w", "A²s", "(k * S) ** 2", {"k": ("constant", ""), "S": ("area_mm2", "mm²")}, _ADIABATIC)
def withstand_A2s(constant: float, area_mm2: float) -> float:
    """The I2t that a wire stands from the temperature of its insulation on.

    constant: k in A s^0.5/mm². Raises OutsideValidity. Source: IEC 60364-4-43 434.5.2, from memory.
    """
    above_zero(constant=constant, area_mm2=area_mm2)
    return (constant * area_mm2) ** 2


@worked(
    "W_f",
    "A²s",
    "I ** 2 * t",
    {"I": ("current_A", "A"), "t": ("longest_s", "s")},
    _ADIABATIC,
)
def let_through_A2s(current_A: float, longest_s: float) -> float:
    """The I2t that a fuse lets pass at a current, at its longest time.

    longest_s: at most 5; beyond that the wire gives off heat and the rules for overload hold instead.
    Raises OutsideValidity. Source: IEC 60364-4-43 434.5.2, from memory.
    """
    not_negative(current_A=current_A)
    within(0, _LONGEST_S, longest_s=longest_s)
    return current_A**2 * longest_s


@worked(
    "t",
    "s",
    "(k * S / I) ** 2",
    {"k": ("constant", ""), "S": ("area_mm2", "mm²"), "I": ("current_A", "A")},
    _ADIABATIC,
)
def time_stood_s(constant: float, area_mm2: float, current_A: float) -> float:
    """How long a wire stands a current; true up to 5 s, beyond that it stands longer.

    Raises OutsideValidity. Source: IEC 60364-4-43 434.5.2, from memory.
    """
    above_zero(constant=constant, area_mm2=area_mm2, current_A=current_A)
    return (constant * area_mm2 / current_A) ** 2


@worked(
    "S_min",
    "mm²",
    "sqrt(W) / k",
    {"W": ("let_through_A2s", "A²s"), "k": ("constant", "")},
    _ADIABATIC,
)
def least_area_mm2(let_through_A2s: float, constant: float) -> float:
    """The least wire that stands an I2t. Raises OutsideValidity. Source: IEC 60364-4-43 434.5.2, from memory."""
    not_negative(let_through_A2s=let_through_A2s)
    above_zero(constant=constant)
    return sqrt(let_through_A2s) / constant
