"""Fuse: what rating a load needs, and what a wire allows."""

from itertools import pairwise

from guide_gen.formulas.validity import above_zero, at_least, share, within
from guide_gen.published.tables import fuse_temperature_points, rule
from guide_gen.values.worked import worked

_CONTINUOUS = rule("continuous share").value
_OVERLOAD = rule("overload share").value
_BLADE_V = rule("blade fuse drop").value
_CARTRIDGE_V = rule("cartridge fuse drop").value
_POINTS = fuse_temperature_points()
_HOTTEST_DEGC = _POINTS[-1][0]


@worked("I_needed", "A", "I * m", {"I": ("current_A", "A"), "m": ("margin", "")}, rule("fuse margin").source)
def needed_by_margin_A(current_A: float, margin: float) -> float:
    """The rating that the margin over the current asks for.

    current_A: at full voltage, high end. margin: 1 or more, commonly 1.5.
    Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(current_A=current_A)
    at_least(1, margin=margin)
    return current_A * margin


def _temperature_text() -> str:
    """The straight lines between the points as one expression: they bend downward, so the least one holds."""
    lines = ["1"]
    for (cool, before), (warm, after) in pairwise(_POINTS):
        lines.append(f"{before:g} - {before - after:g} * (T - {cool:g}) / {warm - cool:g}")
    return f"min({', '.join(lines)})"


@worked("k_T", "", _temperature_text(), {"T": ("temperature_degC", "°C")}, "common practice, no source")
def temperature_factor(temperature_degC: float) -> float:
    """The share of its rating that a fuse carries in air of this temperature.

    Straight between the points 20 °C 1.00, 65 °C 0.85, 85 °C 0.75. Cooler than 20 °C stays at 1: a cold
    cabinet earns no smaller fuse. Raises OutsideValidity, also above 85 °C, where there is no point.
    Source: common practice, no source; points from memory.
    """
    within(-273.15, _HOTTEST_DEGC, temperature_degC=temperature_degC)
    for (cool, before), (warm, after) in pairwise(_POINTS):
        if temperature_degC <= warm:
            return min(1.0, before - (before - after) * (temperature_degC - cool) / (warm - cool))
    raise AssertionError("the hottest point bounds the temperature")


@worked(
    "I_continuous",
    "A",
    f"I / ({_CONTINUOUS:g} * k_T)",
    {"I": ("current_A", "A"), "k_T": ("temperature_factor", "")},
    rule("continuous share").source,
)
def needed_by_continuous_A(current_A: float, temperature_factor: float) -> float:
    """The rating below which a fuse would tire and open under a load that lasts.

    A fuse is loaded for long with at most 0.75 of what it carries in air of this temperature.
    Raises OutsideValidity. Source: UL 248-14, common practice on its test basis.
    """
    above_zero(current_A=current_A)
    share(temperature_factor=temperature_factor)
    return current_A / (_CONTINUOUS * temperature_factor)


@worked(
    "I_n,max",
    "A",
    f"min(I_z, {_OVERLOAD:g} * I_z / r)",
    {"I_z": ("ampacity_A", "A"), "r": ("opens_at", "")},
    "IEC 60364-4-43 433.1",
)
def largest_rating_A(ampacity_A: float, opens_at: float) -> float:
    """The largest fuse that a wire allows: In <= Iz and I2 <= 1.45 Iz.

    opens_at: I2/In, the multiple of its rating that opens the fuse for certain, from its own standard.
    Raises OutsideValidity. Source: IEC 60364-4-43 433.1, from memory.
    """
    above_zero(ampacity_A=ampacity_A)
    within(1, 10, opens_at=opens_at)
    return min(ampacity_A, _OVERLOAD * ampacity_A / opens_at)


@worked(
    "I_z,min",
    "A",
    f"max(I_n, r * I_n / {_OVERLOAD:g})",
    {"I_n": ("rating_A", "A"), "r": ("opens_at", "")},
    "IEC 60364-4-43 433.1",
)
def least_ampacity_A(rating_A: float, opens_at: float) -> float:
    """The ampacity that a wire behind a fuse needs: the inverse of `largest_rating_A`.

    Raises OutsideValidity. Source: IEC 60364-4-43 433.1, from memory.
    """
    above_zero(rating_A=rating_A)
    within(1, 10, opens_at=opens_at)
    return max(rating_A, opens_at * rating_A / _OVERLOAD)


@worked("R_F", "Ω", f"{_BLADE_V:g} / I_n", {"I_n": ("rating_A", "A")}, rule("blade fuse drop").source)
def blade_resistance_ohm(rating_A: float) -> float:
    """Resistance of a blade fuse with its clips: it drops about 0.1 V at its rating.

    Raises OutsideValidity. Source: common practice, no source; an estimate, 0.07 V to 0.15 V.
    """
    above_zero(rating_A=rating_A)
    return _BLADE_V / rating_A


@worked("R_F", "Ω", f"{_CARTRIDGE_V:g} / I_n", {"I_n": ("rating_A", "A")}, rule("cartridge fuse drop").source)
def cartridge_resistance_ohm(rating_A: float) -> float:
    """Resistance of a cartridge fuse from 1 A up, with its clips: it drops about 0.2 V at its rating.

    Raises OutsideValidity. Source: common practice, no source; an estimate, 0.1 V to 0.4 V.
    """
    above_zero(rating_A=rating_A)
    return _CARTRIDGE_V / rating_A
