"""Freewheel diode: what its class must stand."""

from guide_gen.formulas.validity import above_zero, not_negative, temperature
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_REVERSE = rule("diode reverse margin").value
_UNDER_PWM = rule("diode mean share under PWM").value
_REPEATED = rule("repeated share of a surge").value
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


@worked("I_FSM", "A", f"I_pk / {_REPEATED:g}", {"I_pk": ("peak_A", "A")}, rule("repeated share of a surge").source)
def surge_for_repeated_A(peak_A: float) -> float:
    """The single surge that a diode must stand so that a peak may repeat many times a second.

    Raises OutsideValidity. Source: common practice, no source; an estimate.
    """
    above_zero(peak_A=peak_A)
    return peak_A / _REPEATED


@worked(
    "P_d",
    "W",
    "V_f * I_d + t_rr * I_pk * V * f / 2",
    {
        "V_f": ("forward_V", "V"),
        "I_d": ("mean_A", "A"),
        "t_rr": ("recovery_s", "s"),
        "I_pk": ("peak_A", "A"),
        "V": ("voltage_V", "V"),
        "f": ("frequency_Hz", "Hz"),
    },
    "textbooks of power electronics: conduction and reverse recovery; from memory",
)
def power_W(
    forward_V: float, mean_A: float, recovery_s: float, peak_A: float, voltage_V: float, frequency_Hz: float
) -> float:
    """Heat in a freewheel diode under PWM: its drop, and what it lets pass backwards at each turn-on.

    recovery_s: 0 for a Schottky diode, 2e-6 to 30e-6 for a mains rectifier. Above frequency x recovery_s = 0.01 it
    is too slow whatever it stands. Raises OutsideValidity. Source: textbooks of power electronics; from memory.
    """
    not_negative(
        forward_V=forward_V,
        mean_A=mean_A,
        recovery_s=recovery_s,
        peak_A=peak_A,
        voltage_V=voltage_V,
        frequency_Hz=frequency_Hz,
    )
    return forward_V * mean_A + recovery_s * peak_A * voltage_V * frequency_Hz / 2


@worked(
    "T_j",
    "°C",
    "T_a + P * R_th",
    {"T_a": ("ambient_degC", "°C"), "P": ("power_W", "W"), "R_th": ("thermal_K_per_W", "K/W")},
    "JESD51, definition of thermal resistance",
)
def junction_degC(ambient_degC: float, power_W: float, thermal_K_per_W: float) -> float:
    """Temperature of a diode's junction; at most 125 unless its data say otherwise.

    Raises OutsideValidity. Source: JESD51, definition of thermal resistance; from memory.
    """
    temperature(ambient_degC=ambient_degC)
    not_negative(power_W=power_W, thermal_K_per_W=thermal_K_per_W)
    return ambient_degC + power_W * thermal_K_per_W
