"""Coil: how its current rises, how warm it gets, and how long it may stay on.

The winding is one lump of copper; its magnetics are linear, so force is not worked out. An inductance is that of the
open plunger for speed and of the closed one, two to four times as large, for release.
"""

from math import expm1, log, log1p, pi, sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, share, temperature, within
from guide_gen.published.tables import copper
from guide_gen.values.worked import worked

_COPPER = copper()
_ALPHA = _COPPER.coefficient_per_K
_RL = "OpenStax University Physics volume 2, RL circuits"
_HEAT = "OpenStax University Physics volume 1, heat transfer and specific heat"
_OHM = "OpenStax University Physics volume 2, Ohm's law"
_POWER = "OpenStax University Physics volume 2, electrical power"
_LUMP = "this project: one lump of copper with its resistance rising by IEC 60028"

# Current and energy -------------------------------------------------------------------------------------------------


@worked("tau", "s", "L / R", {"L": ("inductance_H", "H"), "R": ("resistance_ohm", "Ω")}, _RL)
def time_constant_s(inductance_H: float, resistance_ohm: float) -> float:
    """How quickly a current rises or falls: 63 % of the way in this time.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, RL circuits.
    """
    above_zero(inductance_H=inductance_H, resistance_ohm=resistance_ohm)
    return inductance_H / resistance_ohm


@worked("y", "", "1 - exp(-t / tau)", {"t": ("time_s", "s"), "tau": ("constant_s", "s")}, _RL)
def settled(time_s: float, constant_s: float) -> float:
    """The share of its way that a current has gone after a time.

    constant_s: its time constant. Raises OutsideValidity.
    Source: OpenStax University Physics volume 2, RL circuits.
    """
    not_negative(time_s=time_s)
    above_zero(constant_s=constant_s)
    return -expm1(-time_s / constant_s)


@worked(
    "i",
    "A",
    "V / R + (I_0 - V / R) * exp(-t * R / L)",
    {
        "V": ("voltage_V", "V"),
        "R": ("resistance_ohm", "Ω"),
        "L": ("inductance_H", "H"),
        "t": ("time_s", "s"),
        "I_0": ("start_A", "A"),
    },
    _RL,
)
def current_A(voltage_V: float, resistance_ohm: float, inductance_H: float, time_s: float, start_A: float) -> float:
    """Current a time after a voltage was put on; start_A is what flowed before.

    voltage_V: 0 for a coil that is shorted. Raises OutsideValidity.
    Source: OpenStax University Physics volume 2, RL circuits.
    """
    not_negative(voltage_V=voltage_V, time_s=time_s, start_A=start_A)
    y = settled(time_s, time_constant_s(inductance_H, resistance_ohm))
    return start_A + (voltage_V / resistance_ohm - start_A) * y


@worked(
    "t",
    "s",
    "-L / R * log(1 - I * R / V)",
    {
        "V": ("voltage_V", "V"),
        "R": ("resistance_ohm", "Ω"),
        "L": ("inductance_H", "H"),
        "I": ("current_A", "A"),
    },
    _RL,
    never="I * R >= V",
)
def time_to_current_s(voltage_V: float, resistance_ohm: float, inductance_H: float, current_A: float) -> float:
    """Time from switching on until a current flows; infinite when the winding never lets so much through.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, RL circuits.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm, inductance_H=inductance_H)
    not_negative(current_A=current_A)
    if current_A * resistance_ohm >= voltage_V:
        return float("inf")
    return -time_constant_s(inductance_H, resistance_ohm) * log1p(-current_A * resistance_ohm / voltage_V)


@worked("I", "A", "V / R", {"V": ("voltage_V", "V"), "R": ("resistance_ohm", "Ω")}, _OHM)
def steady_current_A(voltage_V: float, resistance_ohm: float) -> float:
    """What a coil draws once its current has risen.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, Ohm's law.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm)
    return voltage_V / resistance_ohm


@worked("P", "W", "V ** 2 / R", {"V": ("voltage_V", "V"), "R": ("resistance_ohm", "Ω")}, _POWER)
def power_W(voltage_V: float, resistance_ohm: float) -> float:
    """Heat in a coil while it is on.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, electrical power.
    """
    above_zero(voltage_V=voltage_V, resistance_ohm=resistance_ohm)
    return voltage_V**2 / resistance_ohm


@worked("E_L", "J", "L * I ** 2 / 2", {"L": ("inductance_H", "H"), "I": ("current_A", "A")}, _RL)
def stored_energy_J(inductance_H: float, current_A: float) -> float:
    """Energy in the coil's field, set free when it is switched off.

    Raises OutsideValidity. Source: OpenStax University Physics volume 2, RL circuits.
    """
    above_zero(inductance_H=inductance_H)
    not_negative(current_A=current_A)
    return inductance_H * current_A**2 / 2


@worked(
    "E",
    "J",
    "V ** 2 / R * (t - L / R * (1 - exp(-t * R / L)))",
    {"V": ("voltage_V", "V"), "R": ("resistance_ohm", "Ω"), "L": ("inductance_H", "H"), "t": ("time_s", "s")},
    "this project, by integration of the current's rise",
)
def supplied_energy_J(voltage_V: float, resistance_ohm: float, inductance_H: float, time_s: float) -> float:
    """What the supply gives from switching on to a time; less the stored energy it is the winding's heat.

    Raises OutsideValidity. Source: this project; integral of the rise in OpenStax University Physics volume 2.
    """
    not_negative(voltage_V=voltage_V, time_s=time_s)
    constant = time_constant_s(inductance_H, resistance_ohm)
    return voltage_V**2 / resistance_ohm * (time_s - constant * settled(time_s, constant))


# Copper and its surroundings ----------------------------------------------------------------------------------------


@worked(
    "m",
    "kg",
    f"{_COPPER.density_kg_per_m3:g} * R_20 * (0.785398 * (d / 1000) ** 2) ** 2 / {_COPPER.resistivity_ohm_m:g}",
    {"R_20": ("resistance_20_ohm", "Ω"), "d": ("wire_mm", "mm")},
    "IEC 60028; density from a handbook",
)
def copper_mass_by_wire_kg(resistance_20_ohm: float, wire_mm: float) -> float:
    """Mass of a winding from its resistance at 20 °C and the diameter of its bare wire.

    The diameter enters to the fourth power: 5 % wrong is 22 % of the mass.
    wire_mm: 0.02 to 5. Raises OutsideValidity. Source: IEC 60028; density from a handbook.
    """
    above_zero(resistance_20_ohm=resistance_20_ohm)
    within(0.02, 5, wire_mm=wire_mm)
    area_m2 = pi / 4 * (wire_mm / 1000) ** 2
    return _COPPER.density_kg_per_m3 * resistance_20_ohm * area_m2**2 / _COPPER.resistivity_ohm_m


@worked(
    "m",
    "kg",
    f"{_COPPER.density_kg_per_m3 * pi * 1e-9:.9g} * k * (r_o ** 2 - r_i ** 2) * l",
    {
        "k": ("fill", ""),
        "r_o": ("outer_mm", "mm"),
        "r_i": ("inner_mm", "mm"),
        "l": ("length_mm", "mm"),
    },
    "this project; density from a handbook",
)
def copper_mass_by_window_kg(fill: float, outer_mm: float, inner_mm: float, length_mm: float) -> float:
    """Mass of a winding from the room it fills: outer and inner radius, and length.

    fill: share of copper, 0.5 by common practice (0.4 to 0.6). Raises OutsideValidity.
    Source: this project; volume of a hollow cylinder, density from a handbook.
    """
    share(fill=fill)
    above_zero(outer_mm=outer_mm, length_mm=length_mm)
    not_negative(inner_mm=inner_mm)
    if inner_mm >= outer_mm:
        raise OutsideValidity("inner_mm", inner_mm, f"below outer_mm, {outer_mm:g}")
    volume_m3 = fill * pi * (outer_mm**2 - inner_mm**2) * length_mm * 1e-9
    return _COPPER.density_kg_per_m3 * volume_m3


@worked("C", "J/K", f"{_COPPER.specific_heat_J_per_kg_K:g} * m", {"m": ("copper_kg", "kg")}, _HEAT)
def heat_capacity_J_per_K(copper_kg: float) -> float:
    """Heat that warms a winding by one kelvin: its copper alone, the safe side, without bobbin and frame.

    Raises OutsideValidity. Source: OpenStax University Physics volume 1; specific heat of copper from a handbook.
    """
    above_zero(copper_kg=copper_kg)
    return _COPPER.specific_heat_J_per_kg_K * copper_kg


@worked(
    "R_th",
    "K/W",
    "1 / (h * A)",
    {"h": ("transfer_W_per_m2_K", "W/(m² K)"), "A": ("area_m2", "m²")},
    "OpenStax University Physics volume 1, mechanisms of heat transfer",
)
def thermal_resistance_K_per_W(transfer_W_per_m2_K: float, area_m2: float) -> float:
    """Kelvin above the air for each watt that a surface gives off.

    transfer_W_per_m2_K: 12 in still air with radiation, an estimate (8 to 15).
    Raises OutsideValidity. Source: OpenStax University Physics volume 1, mechanisms of heat transfer.
    """
    above_zero(transfer_W_per_m2_K=transfer_W_per_m2_K, area_m2=area_m2)
    return 1 / (transfer_W_per_m2_K * area_m2)


@worked(
    "A",
    "m²",
    f"{pi:.9g} * d * l / 1e6",
    {"d": ("outer_mm", "mm"), "l": ("length_mm", "mm")},
    "this project: mantle of a cylinder",
)
def mantle_m2(outer_mm: float, length_mm: float) -> float:
    """Surface through which a winding gives off its heat: its mantle alone, the safe side, without ends and frame.

    outer_mm: outer diameter. Raises OutsideValidity. Source: this project; mantle of a cylinder.
    """
    above_zero(outer_mm=outer_mm, length_mm=length_mm)
    return pi * outer_mm * length_mm / 1e6


@worked(
    "T_max",
    "°C",
    "T_k - a",
    {"T_k": ("class_degC", "°C"), "a": ("hot_spot_K", "K")},
    "IEC 60085; the allowance is common practice, no source",
)
def mean_limit_degC(class_degC: float, hot_spot_K: float) -> float:
    """How warm a winding may get on average, so that its hottest spot stays within its class.

    hot_spot_K: 10 by common practice (5 to 15). Raises OutsideValidity.
    Source: IEC 60085 for the class; the allowance is common practice, no source.
    """
    temperature(class_degC=class_degC)
    within(0, 50, hot_spot_K=hot_spot_K)
    return class_degC - hot_spot_K


# Heating ------------------------------------------------------------------------------------------------------------


def _ratio(degC: float) -> float:
    """Resistance at a temperature over that at 20 °C."""
    return 1 + _ALPHA * (degC - 20)


def _ratio_text(letter: str) -> str:
    return f"(1 + {_ALPHA:g} * ({letter} - 20))"


@worked(
    "t",
    "s",
    f"R_20 * C * max(0, {_ratio_text('T_1')} ** 2 - {_ratio_text('T_0')} ** 2) / (2 * {_ALPHA:g} * V ** 2)",
    {
        "V": ("voltage_V", "V"),
        "R_20": ("resistance_20_ohm", "Ω"),
        "C": ("capacity_J_per_K", "J/K"),
        "T_0": ("start_degC", "°C"),
        "T_1": ("limit_degC", "°C"),
    },
    _LUMP,
)
def adiabatic_time_s(
    voltage_V: float, resistance_20_ohm: float, capacity_J_per_K: float, start_degC: float, limit_degC: float
) -> float:
    """Time at constant voltage until a winding reaches its limit, no heat given off: the safe side.

    start_degC: the hottest it may be at the start. 0 when it is already there.
    Both temperatures: -100 to 300. Raises OutsideValidity.
    Source: this project; C dT/dt = V²/R(T) in closed form, R(T) by IEC 60028.
    """
    above_zero(voltage_V=voltage_V, resistance_20_ohm=resistance_20_ohm, capacity_J_per_K=capacity_J_per_K)
    within(-100, 300, start_degC=start_degC, limit_degC=limit_degC)
    squares = max(0.0, _ratio(limit_degC) ** 2 - _ratio(start_degC) ** 2)
    return resistance_20_ohm * capacity_J_per_K * squares / (2 * _ALPHA * voltage_V**2)


@worked(
    "T",
    "°C",
    f"20 + (sqrt({_ratio_text('T_0')} ** 2 + 2 * {_ALPHA:g} * V ** 2 * t / (R_20 * C)) - 1) / {_ALPHA:g}",
    {
        "V": ("voltage_V", "V"),
        "R_20": ("resistance_20_ohm", "Ω"),
        "C": ("capacity_J_per_K", "J/K"),
        "T_0": ("start_degC", "°C"),
        "t": ("time_s", "s"),
    },
    _LUMP,
)
def adiabatic_temperature_degC(
    voltage_V: float, resistance_20_ohm: float, capacity_J_per_K: float, start_degC: float, time_s: float
) -> float:
    """Temperature after a time at constant voltage, no heat given off: the inverse of `adiabatic_time_s`.

    Raises OutsideValidity. Source: this project; C dT/dt = V²/R(T) in closed form, R(T) by IEC 60028.
    """
    above_zero(resistance_20_ohm=resistance_20_ohm, capacity_J_per_K=capacity_J_per_K)
    not_negative(voltage_V=voltage_V, time_s=time_s)
    within(-100, 300, start_degC=start_degC)
    added = 2 * _ALPHA * voltage_V**2 * time_s / (resistance_20_ohm * capacity_J_per_K)
    return 20 + (sqrt(_ratio(start_degC) ** 2 + added) - 1) / _ALPHA


@worked(
    "T_s",
    "°C",
    f"20 + (sqrt(max(0, {_ratio_text('T_1')} ** 2 - 2 * {_ALPHA:g} * V ** 2 * t / (R_20 * C))) - 1) / {_ALPHA:g}",
    {
        "V": ("voltage_V", "V"),
        "R_20": ("resistance_20_ohm", "Ω"),
        "C": ("capacity_J_per_K", "J/K"),
        "T_1": ("limit_degC", "°C"),
        "t": ("time_s", "s"),
    },
    _LUMP,
)
def hottest_start_degC(
    voltage_V: float, resistance_20_ohm: float, capacity_J_per_K: float, limit_degC: float, time_s: float
) -> float:
    """The hottest start from which a winding stays at or below its limit for a time, no heat given off.

    Far below any air (-234 °C) where it does not stand that time from any start. limit_degC: -100 to 300.
    Raises OutsideValidity. Source: this project; `adiabatic_time_s` solved for its start.
    """
    above_zero(voltage_V=voltage_V, resistance_20_ohm=resistance_20_ohm, capacity_J_per_K=capacity_J_per_K)
    not_negative(time_s=time_s)
    within(-100, 300, limit_degC=limit_degC)
    added = 2 * _ALPHA * voltage_V**2 * time_s / (resistance_20_ohm * capacity_J_per_K)
    return 20 + (sqrt(max(0.0, _ratio(limit_degC) ** 2 - added)) - 1) / _ALPHA


def _final_text() -> str:
    """Positive root of y (u + alpha y) = V² R_th / R20 with u the ratio at ambient, in a form without cancellation."""
    u, k = _ratio_text("T_a"), "V ** 2 * R_th / R_20"
    return f"T_a + 2 * {k} / ({u} + sqrt({u} ** 2 + 4 * {_ALPHA:g} * {k}))"


@worked(
    "T_f",
    "°C",
    _final_text(),
    {
        "V": ("voltage_V", "V"),
        "R_20": ("resistance_20_ohm", "Ω"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "T_a": ("ambient_degC", "°C"),
    },
    _LUMP,
)
def final_temperature_degC(
    voltage_V: float, resistance_20_ohm: float, thermal_K_per_W: float, ambient_degC: float
) -> float:
    """Where a winding ends that stays on at constant voltage for ever; at or below its limit it may.

    ambient_degC: -100 to 300. Raises OutsideValidity.
    Source: this project; heat in at V²/R(T) equals heat out through R_th.
    """
    above_zero(resistance_20_ohm=resistance_20_ohm, thermal_K_per_W=thermal_K_per_W)
    not_negative(voltage_V=voltage_V)
    within(-100, 300, ambient_degC=ambient_degC)
    cold = voltage_V**2 * thermal_K_per_W / resistance_20_ohm
    u = _ratio(ambient_degC)
    return ambient_degC + 2 * cold / (u + sqrt(u**2 + 4 * _ALPHA * cold))


def _heating_text() -> str:
    """Integral of C dT / (V²/R(T) - (T - Ta)/Rth) by partial fractions; u_f - u_a = alpha (Tf - Ta)."""
    u_f, below = _ratio_text("T_f"), f"{_ALPHA:g} * (T_f - T_a)"
    falling = f"{u_f} * log((T_f - T_0) / (T_f - T_1))"
    rising = f"{below} * log(({_ratio_text('T_1')} + {below}) / ({_ratio_text('T_0')} + {below}))"
    return f"R_th * C * ({falling} - {rising}) / ({u_f} + {below})"


@worked(
    "t",
    "s",
    _heating_text(),
    {
        "R_th": ("thermal_K_per_W", "K/W"),
        "C": ("capacity_J_per_K", "J/K"),
        "T_f": ("final_degC", "°C"),
        "T_a": ("ambient_degC", "°C"),
        "T_0": ("start_degC", "°C"),
        "T_1": ("limit_degC", "°C"),
    },
    _LUMP,
    never="T_1 >= T_f",
)
def heating_time_s(
    thermal_K_per_W: float,
    capacity_J_per_K: float,
    final_degC: float,
    ambient_degC: float,
    start_degC: float,
    limit_degC: float,
) -> float:
    """Time at constant voltage until a winding reaches its limit while it gives off heat; infinite if it never does.

    final_degC: from `final_temperature_degC`, above the ambient. limit_degC: at or above the start.
    Raises OutsideValidity. Source: this project; C dT/dt = V²/R(T) - (T - Ta)/Rth in closed form.
    """
    above_zero(thermal_K_per_W=thermal_K_per_W, capacity_J_per_K=capacity_J_per_K)
    within(-100, 300, ambient_degC=ambient_degC, start_degC=start_degC, limit_degC=limit_degC)
    temperature(final_degC=final_degC)
    if final_degC <= ambient_degC:
        raise OutsideValidity("final_degC", final_degC, f"above ambient_degC, {ambient_degC:g}")
    if limit_degC < start_degC:
        raise OutsideValidity("limit_degC", limit_degC, f"at least start_degC, {start_degC:g}")
    if limit_degC >= final_degC:
        return float("inf")
    end, below = _ratio(final_degC), _ALPHA * (final_degC - ambient_degC)
    falling = end * log((final_degC - start_degC) / (final_degC - limit_degC))
    rising = below * log((_ratio(limit_degC) + below) / (_ratio(start_degC) + below))
    return thermal_K_per_W * capacity_J_per_K * (falling - rising) / (end + below)


@worked(
    "T_f",
    "°C",
    f"T_a + I ** 2 * R_20 * R_th * {_ratio_text('T_a')} / (1 - {_ALPHA:g} * I ** 2 * R_20 * R_th)",
    {
        "I": ("current_A", "A"),
        "R_20": ("resistance_20_ohm", "Ω"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "T_a": ("ambient_degC", "°C"),
    },
    _LUMP,
    never=f"{_ALPHA:g} * I ** 2 * R_20 * R_th >= 1",
    never_means="without end",
)
def final_at_constant_current_degC(
    current_A: float, resistance_20_ohm: float, thermal_K_per_W: float, ambient_degC: float
) -> float:
    """Where a winding ends at a constant current; infinite where each kelvin adds more heat than it gives off.

    ambient_degC: -100 to 300. Raises OutsideValidity.
    Source: this project; heat in at I² R(T) equals heat out through R_th.
    """
    not_negative(current_A=current_A)
    above_zero(resistance_20_ohm=resistance_20_ohm, thermal_K_per_W=thermal_K_per_W)
    within(-100, 300, ambient_degC=ambient_degC)
    rise = current_A**2 * resistance_20_ohm * thermal_K_per_W
    if rise * _ALPHA >= 1:
        return float("inf")
    return ambient_degC + rise * _ratio(ambient_degC) / (1 - _ALPHA * rise)


# Repeated pulses ----------------------------------------------------------------------------------------------------

_PULSES = "this project: a lump that warms and cools exponentially, heat taken at the cold resistance"


@worked(
    "T_p",
    "°C",
    "T_a + P * R_th * (1 - exp(-t_on / tau)) / (1 - exp(-(t_on + t_off) / tau))",
    {
        "T_a": ("ambient_degC", "°C"),
        "P": ("power_W", "W"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "tau": ("constant_s", "s"),
        "t_on": ("on_s", "s"),
        "t_off": ("off_s", "s"),
    },
    _PULSES,
)
def settled_peak_degC(
    ambient_degC: float, power_W: float, thermal_K_per_W: float, constant_s: float, on_s: float, off_s: float
) -> float:
    """The peak of each pulse once pulses have repeated for long.

    power_W: at the cold resistance, the safe side. constant_s: thermal resistance times heat capacity.
    Raises OutsideValidity. Source: this project; a first-order lump.
    """
    temperature(ambient_degC=ambient_degC)
    above_zero(thermal_K_per_W=thermal_K_per_W, constant_s=constant_s, on_s=on_s)
    not_negative(power_W=power_W, off_s=off_s)
    warmed, cycle = settled(on_s, constant_s), settled(on_s + off_s, constant_s)
    return ambient_degC + power_W * thermal_K_per_W * warmed / cycle


@worked(
    "t_off",
    "s",
    "max(0, -t_on - tau * log(1 - P * R_th / dT * (1 - exp(-t_on / tau))))",
    {
        "P": ("power_W", "W"),
        "R_th": ("thermal_K_per_W", "K/W"),
        "tau": ("constant_s", "s"),
        "dT": ("allowed_K", "K"),
        "t_on": ("on_s", "s"),
    },
    _PULSES,
    never="P * R_th * (1 - exp(-t_on / tau)) >= dT",
    never_means="no pause is long enough",
)
def shortest_off_s(power_W: float, thermal_K_per_W: float, constant_s: float, allowed_K: float, on_s: float) -> float:
    """The shortest pause that keeps repeated pulses below a rise; infinite when one pulse alone passes it.

    allowed_K: limit less the warmest air. 0 when it may stay on for ever.
    Raises OutsideValidity. Source: this project; a first-order lump.
    """
    above_zero(thermal_K_per_W=thermal_K_per_W, constant_s=constant_s, allowed_K=allowed_K, on_s=on_s)
    not_negative(power_W=power_W)
    of_limit = power_W * thermal_K_per_W / allowed_K * settled(on_s, constant_s)
    if of_limit >= 1:
        return float("inf")
    return max(0.0, -on_s - constant_s * log1p(-of_limit))


# Holding ------------------------------------------------------------------------------------------------------------


@worked(
    "I_h",
    "A",
    "sqrt(dT / (R_th * R))",
    {"dT": ("allowed_K", "K"), "R_th": ("thermal_K_per_W", "K/W"), "R": ("hot_ohm", "Ω")},
    _LUMP,
)
def hold_current_A(allowed_K: float, thermal_K_per_W: float, hot_ohm: float) -> float:
    """The current that a winding may carry for ever.

    allowed_K: limit less the warmest air. hot_ohm: its resistance at the limit.
    Raises OutsideValidity. Source: this project; heat in at I² R equals heat out through R_th.
    """
    not_negative(allowed_K=allowed_K)
    above_zero(thermal_K_per_W=thermal_K_per_W, hot_ohm=hot_ohm)
    return sqrt(allowed_K / (thermal_K_per_W * hot_ohm))


@worked(
    "D_h",
    "",
    "min(1, (I * R + V_d) / (V + V_d))",
    {
        "I": ("current_A", "A"),
        "R": ("hot_ohm", "Ω"),
        "V_d": ("diode_V", "V"),
        "V": ("voltage_V", "V"),
    },
    "this project: mean voltage of a smooth current with a freewheel diode",
)
def hold_duty(current_A: float, hot_ohm: float, diode_V: float, voltage_V: float) -> float:
    """The PWM duty that holds a coil at a current, smooth enough not to fall to zero in between.

    Raises OutsideValidity. Source: this project; D V - (1 - D) Vd = I R.
    """
    not_negative(current_A=current_A, diode_V=diode_V)
    above_zero(hot_ohm=hot_ohm, voltage_V=voltage_V)
    return min(1.0, (current_A * hot_ohm + diode_V) / (voltage_V + diode_V))
