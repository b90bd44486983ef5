"""Filament lamp: cold it draws many times what it draws hot."""

from guide_gen.formulas.validity import above_zero, at_least, not_negative, within
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_OHM = "OpenStax College Physics 2e, Ohm's law"
_TUNGSTEN = rule("tungsten coefficient").value


@worked("I_0", "A", "k * I", {"k": ("inrush_ratio", ""), "I": ("hot_A", "A")}, rule("lamp inrush ratio").source)
def inrush_A(inrush_ratio: float, hot_A: float) -> float:
    """Current at the moment of switching a cold lamp on.

    inrush_ratio: 10 by common practice (8 to 15). Raises OutsideValidity. Source: common practice, no source.
    """
    at_least(1, inrush_ratio=inrush_ratio)
    not_negative(hot_A=hot_A)
    return inrush_ratio * hot_A


@worked(
    "I_h",
    "A",
    "I_0 * V_h / V",
    {"I_0": ("inrush_A", "A"), "V_h": ("highest_V", "V"), "V": ("rated_V", "V")},
    _OHM,
)
def inrush_at_A(inrush_A: float, highest_V: float, rated_V: float) -> float:
    """The same inrush at another voltage: a cold filament is a resistance.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, Ohm's law.
    """
    not_negative(inrush_A=inrush_A)
    above_zero(highest_V=highest_V, rated_V=rated_V)
    return inrush_A * highest_V / rated_V


@worked(
    "W",
    "A²s",
    "(k * I) ** 2 * tau / 2",
    {"k": ("inrush_ratio", ""), "I": ("hot_A", "A"), "tau": ("constant_s", "s")},
    "common practice, no source",
)
def inrush_A2s(inrush_ratio: float, hot_A: float, constant_s: float) -> float:
    """I2t of a cold lamp's inrush, as a current that dies away exponentially.

    constant_s: 0.01 by common practice (0.005 to 0.05). Raises OutsideValidity.
    Source: common practice, no source; an estimate.
    """
    at_least(1, inrush_ratio=inrush_ratio)
    not_negative(hot_A=hot_A)
    above_zero(constant_s=constant_s)
    return (inrush_ratio * hot_A) ** 2 * constant_s / 2


@worked(
    "k",
    "",
    "max(1, V / (R_0 * I))",
    {"V": ("voltage_V", "V"), "R_0": ("cold_ohm", "Ω"), "I": ("hot_A", "A")},
    _OHM,
)
def measured_inrush_ratio(voltage_V: float, cold_ohm: float, hot_A: float) -> float:
    """The inrush ratio of a lamp whose cold resistance was measured.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, Ohm's law.
    """
    above_zero(voltage_V=voltage_V, cold_ohm=cold_ohm, hot_A=hot_A)
    return max(1.0, voltage_V / (cold_ohm * hot_A))


@worked(
    "R_h",
    "Ω",
    f"R_0 * (1 + {_TUNGSTEN:g} * dT)",
    {"R_0": ("cold_ohm", "Ω"), "dT": ("rise_K", "K")},
    rule("tungsten coefficient").source,
)
def hot_resistance_ohm(cold_ohm: float, rise_K: float) -> float:
    """Resistance of a tungsten filament that has warmed by so much.

    rise_K: 0 to 3300. Raises OutsideValidity.
    Source: OpenStax College Physics 2e, table of temperature coefficients.
    """
    above_zero(cold_ohm=cold_ohm)
    within(0, 3300, rise_K=rise_K)
    return cold_ohm * (1 + _TUNGSTEN * rise_K)
