"""Numbers for people: three digits at most, a unit that keeps them short, the other system of units in brackets.

A no-break space stands between number and unit. ``units`` is ``metric`` or ``US``: which stands first.
"""

import math
import re
from fractions import Fraction

from guide_gen.values.quantity import Quantity
from guide_gen.values.units import DIMENSION_OF, from_si

NBSP = "\u00a0"
MICRO = "\u03bc"  # the letter that the page's fonts have

_FOOT_M = 0.3048
_INCH_MM = 25.4
_LBF_N = 4.4482216152605
_SIGNS = {"ohm": "Ω", "mohm": "mΩ", "kohm": "kΩ", "mm2": "mm²", "uF": f"{MICRO}F", "uH": f"{MICRO}H", "us": f"{MICRO}s"}


def figure(number: float, digits: int = 3, decimals: int = 6, keep: int = 0) -> str:
    """A number in at most so many significant digits and decimals; `keep` decimals stay even where they are zeros.

    Digits before the point are never rounded away beyond `digits`: 1234 in three digits is 1230.
    """
    if not math.isfinite(number):
        return str(number)
    rounded = round(float(f"{number:.{digits}g}"), decimals)
    text = f"{abs(rounded):.{max(decimals, keep)}f}"
    if "." in text:
        whole, _, rest = text.partition(".")
        rest = rest.rstrip("0").ljust(keep, "0")
        text = f"{whole}.{rest}" if rest else whole
    return f"\u2212{text}" if rounded < 0 else text


def ends(low: float, high: float, digits: int = 3, most: int = 6) -> tuple[str, str]:
    """Both ends of a range, in so many digits or as many more, at most `most`, as tell them apart.

    They read alike only where they are the same.
    """
    first, last = figure(low, digits), figure(high, digits)
    while first == last and low != high and digits < most:
        digits += 1
        first, last = figure(low, digits), figure(high, digits)
    return first, last


def amps_apart(low_A: float, high_A: float) -> tuple[str, str]:
    """Two currents in as many digits as tell them apart, up to six: ``32 A`` and ``32.02 A``."""
    first, last = amps(low_A), amps(high_A)
    if first != last or low_A == high_A:
        return first, last
    low, high = ends(low_A, high_A)
    return with_unit(low, "A"), with_unit(high, "A")


def plain_spaces(text: str) -> str:
    """The same text for a terminal or another program, where a space that does not break is only in the way."""
    return text.replace(NBSP, " ")


def with_unit(text: str, unit: str) -> str:
    """Number and unit with the space that does not break between them."""
    return f"{text}{NBSP}{unit}"


def show(value: float, unit: str) -> str:
    """A worked-out value in SI, in the unit named, with two digits at least: ``9.0 A``, ``4.8 %``, ``10 A``."""
    number = from_si(value, unit) if unit in DIMENSION_OF else value
    rounded = abs(float(f"{number:.3g}"))
    keep = 0 if rounded == 0 or rounded >= 10 else 1 - math.floor(math.log10(rounded)) if rounded < 1 else 1
    return with_unit(figure(number, keep=keep), _SIGNS.get(unit, unit))


def rounded_up(value: float) -> float:
    """A value in three digits that is still enough: a mend must not propose a little too little. value: above zero."""
    step = 10.0 ** (math.floor(math.log10(value)) - 2)
    return math.ceil(value / step - 1e-9) * step


def rounded_down(value: float) -> float:
    """A bound in three digits that is still kept; 0 for nothing or less."""
    if value <= 0:
        return 0.0
    step = 10.0 ** (math.floor(math.log10(value)) - 2)
    return math.floor(value / step + 1e-9) * step


def amps(value_A: float) -> str:
    """A current: ``7.5 A``, ``8 mA``."""
    return _scaled(value_A, (("A", 1.0), ("mA", 1e-3)), smallest=0.1)


def volts(value_V: float) -> str:
    """A voltage: ``12 V``, ``0.58 V``, ``45 mV``."""
    return _scaled(value_V, (("V", 1.0), ("mV", 1e-3)), smallest=0.1)


def watts(value_W: float) -> str:
    """A power: ``240 W``."""
    return _scaled(value_W, (("W", 1.0), ("mW", 1e-3)), smallest=0.1)


def ohms(value_ohm: float) -> str:
    """A resistance: ``10 mΩ``, ``0.3 Ω``, ``2.2 kΩ``."""
    return _scaled(value_ohm, (("kΩ", 1e3), ("Ω", 1.0), ("mΩ", 1e-3)), smallest=0.1)


def hertz(value_Hz: float) -> str:
    """A frequency: ``4.5 Hz``, ``15 kHz``."""
    return _scaled(value_Hz, (("kHz", 1e3), ("Hz", 1.0)), smallest=0.0)


def seconds(value_s: float) -> str:
    """A time: ``40 ms``, ``2.5 s``, ``10 min``."""
    if value_s >= 300:
        return with_unit(figure(value_s / 60, decimals=0), "min")
    return _scaled(value_s, (("s", 1.0), ("ms", 1e-3)), smallest=1.0)


def short_seconds(value_s: float) -> str:
    """A time that may be far below a millisecond: ``35 ns``, ``2 μs``, ``0.1 ms``."""
    if value_s >= 1e-3:
        return seconds(value_s)
    if value_s >= 0.99995e-6:
        return with_unit(figure(1e6 * value_s), f"{MICRO}s")
    return with_unit(figure(1e9 * value_s), "ns")


def newtons(value_N: float) -> str:
    """A force: ``120 N``."""
    return with_unit(figure(value_N), "N")


def force(low_N: float, high_N: float, units: str) -> str:
    """A force that is known roughly: ``13 to 57 N (2.9 to 13 lbf)``, US ``2.9 to 13 lbf (13 to 57 N)``."""
    return _pair(_rough(low_N, high_N, "N"), _rough(low_N / _LBF_N, high_N / _LBF_N, "lbf"), units)


def torque(low_Nm: float, high_Nm: float, units: str) -> str:
    """A torque that is known roughly: ``0.58 to 2.6 N m (5.2 to 23 lbf in)``, US the other way round."""
    low, high = (value / _LBF_N / _INCH_MM * 1000 for value in (low_Nm, high_Nm))
    return _pair(_rough(low_Nm, high_Nm, f"N{NBSP}m"), _rough(low, high, f"lbf{NBSP}in"), units)


def _rough(low: float, high: float, unit: str) -> str:
    """A range in two digits; one value where they look alike."""
    first, last = figure(low, 2, 2), figure(high, 2, 2)
    return with_unit(last if first == last else f"{first} to {last}", unit)


def percent(share: float) -> str:
    """A share of one: ``4.8 %``."""
    return with_unit(figure(100 * share, decimals=1), "%")


def setting(share: float) -> str:
    """A setting as fine as a port's steps: ``39.25 %``."""
    return with_unit(figure(100 * share, digits=4, decimals=2), "%")


def settings(low: float, high: float) -> tuple[str, str]:
    """Two settings, as `setting`; with more decimals where they would read alike and are not."""
    first, last = setting(low), setting(high)
    if first != last or low == high:
        return first, last
    finer = ends(100 * low, 100 * high, digits=4)
    return with_unit(finer[0], "%"), with_unit(finer[1], "%")


def count(number: float) -> str:
    """A whole number, thousands set apart: ``15 000``."""
    return f"{number:,.0f}".replace(",", NBSP)


def metres(length_m: float, units: str) -> str:
    """A run: ``1.8 m (5.9 ft)``, US ``6 ft (1.83 m)``; below a foot in inches."""
    metric = with_unit(figure(length_m, decimals=2), "m")
    us = (
        with_unit(figure(length_m / _FOOT_M, decimals=1), "ft")
        if length_m >= _FOOT_M * 0.999
        else with_unit(figure(1000 * length_m / _INCH_MM, decimals=1), "in")
    )
    return _pair(metric, us, units)


def millimetres(length_mm: float, units: str) -> str:
    """A small length: ``18 mm (0.71 in)``, US ``3/4 in (19.1 mm)``."""
    metric = with_unit(figure(length_mm, decimals=1), "mm")
    inches = figure(length_mm / _INCH_MM, decimals=2)
    return _pair(metric, with_unit(_fraction(length_mm / _INCH_MM) if units == "US" else inches, "in"), units)


def celsius(value_degC: float, units: str) -> str:
    """A temperature: ``40 °C (104 °F)``."""
    return _pair(
        with_unit(figure(value_degC, decimals=0), "°C"),
        with_unit(figure(from_si(value_degC, "°F"), decimals=0), "°F"),
        units,
    )


def span(low: float | None, high: float | None, unit: str) -> str:
    """From one value to another in the unit named: ``5 to 6 A``; an open end: ``above 0.2 Ω``, ``up to 6 A``.

    A current below 0.1 A is shown in milliamperes, as by `amps`. Ends that read alike in three digits get a fourth; one
    value where even that does not tell them apart.
    """
    if unit == "A" and 0 < max(low or 0.0, high or 0.0) < 0.1:
        return span(low and 1000 * low, high and 1000 * high, "mA")
    if low is None or high is None:
        if high is not None:
            return f"up to {with_unit(figure(high), unit)}"
        return f"above {with_unit(figure(low), unit)}" if low is not None else ""
    first, last = ends(low, high, most=4)
    return with_unit(last if first == last else f"{first} to {last}", unit)


def figure_and_unit(text: str) -> tuple[str, str]:
    """Figure and unit of a shown value: ``12 V`` gives ``12`` and ``V``."""
    figure, _, unit = plain_spaces(text).rpartition(" ")
    return (figure, unit) if figure else (unit, "")


def quantity(value: Quantity) -> str:
    """A quantity as it was written, with its signs: ``5 to 6 A``, ``0.30 Ω``."""
    sides = [_side(side) for side in value.text.split(" to ")]
    if len(sides) == 2 and sides[0][1] == sides[1][1]:
        return f"{sides[0][0]} to {with_unit(*sides[1])}"
    return " to ".join(with_unit(number, unit) for number, unit in sides)


def _side(text: str) -> tuple[str, str]:
    match = re.fullmatch(r"([-+0-9./eE ]*[0-9.])\s*(.*)", text)
    if not match:
        return text, ""
    return match[1].replace("-", "\u2212"), _SIGNS.get(match[2], match[2])


def _scaled(value: float, steps: tuple[tuple[str, float], ...], smallest: float) -> str:
    """In the largest unit in which the rounded number is not below one; the base unit down to `smallest`."""
    for unit, size in steps:
        least = smallest if size == 1.0 else 1.0
        if abs(float(f"{value / size:.3g}")) >= least:
            return with_unit(figure(value / size), unit)
    unit, size = steps[-1] if value else next(step for step in steps if step[1] == 1.0)
    return with_unit(figure(value / size), unit)


def _fraction(inches: float) -> str:
    """A fraction of the rule when the length is one, to the thousandth: ``3/4``, ``1 1/2``; else decimals."""
    near = Fraction(round(inches * 32), 32)
    whole, part = divmod(near.numerator, near.denominator)
    if abs(float(near) - inches) > 0.001 or not part:
        return figure(inches, decimals=2)
    return f"{whole} {part}/{near.denominator}" if whole else f"{part}/{near.denominator}"


def rough(metric: str, us: str, units: str) -> str:
    """A length by rule of thumb, a round number in both systems: ``20 mm (3/4 in)``."""
    return _pair(metric.replace(" ", NBSP), us.replace(" ", NBSP), units)


def _pair(metric: str, us: str, units: str) -> str:
    return f"{us} ({metric})" if units == "US" else f"{metric} ({us})"
