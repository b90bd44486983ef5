"""Freewheel diode: what its class must stand."""

from guide_gen.formulas.validity import above_zero
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_REVERSE = rule("diode reverse margin").value
_UNDER_PWM = rule("diode mean share under PWM").value
_SINGLE = rule("diode mean share of single shots").value


@worked("V_RRM", "V", f"{_REVERSE:g} * V", {"V": ("voltage_V", "V")}, rule("diode reverse margin").source)
def reverse_voltage_V(voltage_V: float) -> float:
    """The repetitive reverse voltage a diode across a load needs: twice the supply's.

    voltage_V: the highest end of the supply's range. Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(voltage_V=voltage_V)
    return _REVERSE * voltage_V


@worked("I_F", "A", f"{_UNDER_PWM:g} * I", {"I": ("current_A", "A")}, rule("diode mean share under PWM").source)
def mean_current_under_pwm_A(current_A: float) -> float:
    """The mean forward current of the diode across a turning motor of unknown winding, at its worst duty.

    current_A: the motor's at full voltage. Raises OutsideValidity.
    Source: this project, an estimate: of 150 simulated motors half stay below 0.32 and all below 0.53 of it.
    """
    above_zero(current_A=current_A)
    return _UNDER_PWM * current_A


@worked("I_F", "A", f"{_SINGLE:g} * I", {"I": ("current_A", "A")}, rule("diode mean share of single shots").source)
def mean_current_single_shots_A(current_A: float) -> float:
    """The mean forward current of a diode that works only when a load is switched off now and then.

    Its surge class must be at least current_A itself.
    Raises OutsideValidity. Source: common practice, no source; an estimate.
    """
    above_zero(current_A=current_A)
    return _SINGLE * current_A
