"""Numbers with their units as a page shows them."""

from dataclasses import dataclass

from guide_gen.values.show import figure
from guide_gen.values.units import from_si

NBSP = "\u00a0"
_SHOWN = {"ohm": "Ω", "ohm/m": "Ω/m", "mm2": "mm²", "m/s2": "m/s²", "degC": "°C", "Nm": "N m", "1": ""}
_SCALED = {"V", "A", "W", "Ω", "Ω/m", "H", "F", "s", "J"}
_SCALED_UP = {"Ω", "Hz"}
_SMALL = ((1e-1, 1.0, ""), (1e-4, 1e-3, "m"), (1e-7, 1e-6, "\u03bc"), (0.0, 1e-9, "n"))


@dataclass(frozen=True)
class Expected:
    """A range that a reading should fall into. low, high: as written in `unit`, "" for no limit."""

    words: str
    low: str
    high: str
    unit: str


def number(value: float, digits: int = 4) -> str:
    """`value` in at most so many significant digits: ``0.4968``, ``9``, ``15000``."""
    return figure(value, digits=max(digits, len(f"{abs(value):.0f}")), decimals=12)


def unit_shown(unit: str) -> str:
    """A unit's letters as a page shows them: ``Ω`` for ``ohm``."""
    return _SHOWN.get(unit, unit)


def scaled(value: float, unit: str) -> tuple[float, str]:
    """The same quantity with a prefix that keeps it readable: 0.0149 ohm/m is 14.9 mΩ/m."""
    shown = unit_shown(unit)
    size = abs(value)
    if size >= 1000 and shown in _SCALED_UP:
        return value / 1000, "k" + shown
    if shown in _SCALED and size:
        _, factor, prefix = next(row for row in _SMALL if size >= row[0])
        return value / factor, prefix + shown
    return value, shown


def expected(low: float | None, high: float | None, unit: str, units: str) -> Expected:
    """A range in words and as the two numbers that a field is judged by, all in one unit.

    units: ``metric`` or ``US``: the scale on which a temperature is read.
    """
    other = ""
    if unit == "°C":
        unit, other = ("°F", "°C") if units == "US" else ("°C", "°F")
        at = {sign: [None if end is None else from_si(end, sign) for end in (low, high)] for sign in (unit, other)}
        (low, high), others = at[unit], at[other]
        other = f" ({' to '.join(figure(end) for end in others if end is not None)}{NBSP}{other})"
    ends = [end for end in (low, high) if end is not None]
    largest = max(ends, key=abs, default=0.0)
    amount, shown = scaled(largest, unit)
    factor = amount / largest if largest else 1.0
    least, most = ("" if end is None else figure(end * factor) for end in (low, high))
    behind = (f"{NBSP}{shown}" if shown else "") + other
    if least and most:
        words = f"expect {least}{behind}" if least == most else f"expect {least} to {most}{behind}"
    elif least:
        words = f"expect {least}{behind} or more"
    elif most:
        words = f"expect {most}{behind} or less"
    else:
        words = "write down what you find"
    return Expected(words, least, most, shown)
