"""Brushed motor of which only the running current is known: bounds on its winding and its start."""

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative
from guide_gen.values.worked import worked

_MOTOR = "OpenStax College Physics 2e, back emf"


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
