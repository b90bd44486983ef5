"""Electronic switch (MOSFET): its heat and the temperature of its junction."""

from math import sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, at_least, not_negative, temperature
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_K = rule("MOSFET temperature coefficient").value
_BOOK = "textbooks of power electronics: losses of a switch; from memory"


@worked(
    "I_rms",
    "A",
    "sqrt(E * f)",
    {"E": ("pulse_A2s", "A²s"), "f": ("frequency_Hz", "Hz")},
    "this project: the meaning of rms, the square of the current averaged over the time between pulses",
)
def pulse_rms_A(pulse_A2s: float, frequency_Hz: float) -> float:
    """Rms current of pulses that repeat. pulse_A2s: integral of the square of the current over one of them.

    Raises OutsideValidity. Source: this project; the meaning of rms.
    """
    not_negative(pulse_A2s=pulse_A2s, frequency_Hz=frequency_Hz)
    return sqrt(pulse_A2s * frequency_Hz)


@worked(
    "R_25",
    "Ω",
    f"R / (1 + {_K:g} * (T - 25))",
    {"R": ("resistance_ohm", "Ω"), "T": ("junction_degC", "°C")},
    _BOOK,
)
def cold_ohm(resistance_ohm: float, junction_degC: float) -> float:
    """Resistance at 25 °C of a switch whose figure is given for another temperature of its junction.

    Raises OutsideValidity. Source: textbooks of power electronics; as `conduction_W`.
    """
    not_negative(resistance_ohm=resistance_ohm)
    at_least(-55, junction_degC=junction_degC)
    return resistance_ohm / (1 + _K * (junction_degC - 25))


@worked(
    "P_c",
    "W",
    f"I ** 2 * R_25 * (1 + {_K:g} * (T_j - 25))",
    {"I": ("rms_A", "A"), "R_25": ("cold_ohm", "Ω"), "T_j": ("junction_degC", "°C")},
    _BOOK,
)
def conduction_W(rms_A: float, cold_ohm: float, junction_degC: float) -> float:
    """Heat of a switch that is on, at the temperature of its junction.

    cold_ohm: at 25 °C and the gate voltage it really gets, not the highest that a data sheet prints.
    Raises OutsideValidity. Source: textbooks of power electronics; 0.6 % a kelvin is an estimate (0.4 to 0.8).
    """
    not_negative(rms_A=rms_A, cold_ohm=cold_ohm)
    at_least(-55, junction_degC=junction_degC)
    return rms_A**2 * cold_ohm * (1 + _K * (junction_degC - 25))


@worked(
    "P_s",
    "W",
    "V * (I_on * t_r + I_off * t_f) * f / 2",
    {
        "V": ("voltage_V", "V"),
        "I_on": ("turn_on_A", "A"),
        "I_off": ("turn_off_A", "A"),
        "t_r": ("rise_s", "s"),
        "t_f": ("fall_s", "s"),
        "f": ("frequency_Hz", "Hz"),
    },
    _BOOK,
)
def switching_W(
    voltage_V: float, turn_on_A: float, turn_off_A: float, rise_s: float, fall_s: float, frequency_Hz: float
) -> float:
    """Heat of a switch from turning on and off under PWM.

    turn_on_A: the lowest current, 0 where it dies out in each pause. turn_off_A: the peak.
    Raises OutsideValidity. Source: textbooks of power electronics: half of voltage times current at each edge.
    """
    above_zero(voltage_V=voltage_V)
    not_negative(turn_on_A=turn_on_A, turn_off_A=turn_off_A, rise_s=rise_s, fall_s=fall_s, frequency_Hz=frequency_Hz)
    return voltage_V * (turn_on_A * rise_s + turn_off_A * fall_s) * frequency_Hz / 2


@worked(
    "T_j",
    "°C",
    f"(T_a + R_th * (P_s + I ** 2 * R_25 * (1 - {25 * _K:g}))) / (1 - R_th * I ** 2 * R_25 * {_K:g})",
    {
        "T_a": ("ambient_degC", "°C"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "P_s": ("switching_W", "W"),
        "I": ("rms_A", "A"),
        "R_25": ("cold_ohm", "Ω"),
    },
    "this project: heat and resistance that depend on each other, solved",
)
def junction_degC(
    ambient_degC: float, thermal_K_per_W: float, switching_W: float, rms_A: float, cold_ohm: float
) -> float:
    """Where a switch's junction settles, its resistance rising as it warms.

    thermal_K_per_W: from junction to air, 50 to 65 for a through-hole part without heat sink. Limit 125 °C unless
    its data say otherwise. Raises OutsideValidity, also when it runs away: each kelvin adds more heat than it gives
    off. Source: this project; Tj = Ta + Rth P(Tj) solved for Tj.
    """
    temperature(ambient_degC=ambient_degC)
    above_zero(thermal_K_per_W=thermal_K_per_W)
    not_negative(switching_W=switching_W, rms_A=rms_A, cold_ohm=cold_ohm)
    conduction = rms_A**2 * cold_ohm
    gain = thermal_K_per_W * conduction * _K
    if gain >= 1:
        raise OutsideValidity("rms_A", rms_A, "small enough that the switch does not heat itself without end")
    return (ambient_degC + thermal_K_per_W * (switching_W + conduction * (1 - 25 * _K))) / (1 - gain)


@worked(
    "T_j",
    "°C",
    "T_a + P * R_th",
    {"T_a": ("ambient_degC", "°C"), "P": ("power_W", "W"), "R_th": ("thermal_K_per_W", "K/W")},
    "JESD51, definition of thermal resistance",
)
def part_degC(ambient_degC: float, power_W: float, thermal_K_per_W: float) -> float:
    """Temperature of a part above its surroundings by a power that does not depend on it.

    thermal_K_per_W: the sum of all that lie between. Raises OutsideValidity.
    Source: JESD51, definition of thermal resistance; from memory.
    """
    temperature(ambient_degC=ambient_degC)
    not_negative(power_W=power_W, thermal_K_per_W=thermal_K_per_W)
    return ambient_degC + power_W * thermal_K_per_W


@worked(
    "R_th",
    "K/W",
    "(T_max - T_a) / P",
    {"T_max": ("limit_degC", "°C"), "T_a": ("ambient_degC", "°C"), "P": ("power_W", "W")},
    "JESD51, definition of thermal resistance",
)
def largest_thermal_K_per_W(limit_degC: float, ambient_degC: float, power_W: float) -> float:
    """Thermal resistance from junction to air at most, for a part that gives off this power at its limit.

    Raises OutsideValidity. Source: JESD51, definition of thermal resistance; from memory.
    """
    temperature(limit_degC=limit_degC, ambient_degC=ambient_degC)
    above_zero(power_W=power_W)
    if ambient_degC >= limit_degC:
        raise OutsideValidity("ambient_degC", ambient_degC, f"below limit_degC, {limit_degC:g}")
    return (limit_degC - ambient_degC) / power_W


@worked(
    "s",
    "",
    "2 * P / (P_s + sqrt(P_s ** 2 + 4 * P_c * P))",
    {"P": ("room_W", "W"), "P_s": ("switching_W", "W"), "P_c": ("conduction_W", "W")},
    "this project: the junction's balance at its limit, solved for the current",
)
def largest_share(room_W: float, switching_W: float, conduction_W: float) -> float:
    """Share of its current at which a switch gives off just so much heat at its limit.

    room_W: the heat that brings it to its limit. switching_W, conduction_W: at all of the current and at its limit;
    the one goes with the current, the other with its square. Raises OutsideValidity.
    Source: this project; P = s P_s + s^2 P_c solved for s.
    """
    not_negative(room_W=room_W, switching_W=switching_W, conduction_W=conduction_W)
    above_zero(heat_W=switching_W + conduction_W)
    return 2 * room_W / (switching_W + sqrt(switching_W**2 + 4 * conduction_W * room_W)) if room_W else 0.0


@worked(
    "R_25",
    "Ω",
    f"max(0, (T_max - T_a) / R_th - P_s) / (I ** 2 * (1 + {_K:g} * (T_max - 25)))",
    {
        "T_max": ("limit_degC", "°C"),
        "T_a": ("ambient_degC", "°C"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "P_s": ("switching_W", "W"),
        "I": ("rms_A", "A"),
    },
    "this project: the junction's balance at its limit, solved for the resistance",
)
def largest_cold_ohm(
    limit_degC: float, ambient_degC: float, thermal_K_per_W: float, switching_W: float, rms_A: float
) -> float:
    """Resistance at 25 °C that brings a switch just to its limit; 0 when switching alone does.

    Raises OutsideValidity. Source: this project; `junction_degC` solved for the resistance.
    """
    temperature(ambient_degC=ambient_degC)
    at_least(25, limit_degC=limit_degC)
    above_zero(thermal_K_per_W=thermal_K_per_W, rms_A=rms_A)
    not_negative(switching_W=switching_W)
    room_W = (limit_degC - ambient_degC) / thermal_K_per_W - switching_W
    return max(0.0, room_W) / (rms_A**2 * (1 + _K * (limit_degC - 25)))
