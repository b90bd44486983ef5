"""The units that a description may use, and their factors to SI.

The list is ours; dimension and factor of each come from pint. pint never reads a person's text: it takes ``5,5 A`` for
55 A and ``5 amps`` for attometres per second.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any


@dataclass(frozen=True)
class Dimension:
    """A sort of quantity.

    noun: with its article, for messages. si: pint's name of the unit inside. units: as written -> pint's name.
    range_example: a range as a person writes it.
    """

    noun: str
    si: str
    units: Mapping[str, str]
    range_example: str = ""


DIMENSIONS: dict[str, Dimension] = {
    "voltage": Dimension("a voltage", "volt", {"V": "volt", "mV": "millivolt"}, "11 V to 13 V"),
    "current": Dimension("a current", "ampere", {"A": "ampere", "mA": "milliampere"}, "5 A to 6 A"),
    "power": Dimension("a power", "watt", {"W": "watt"}, "20 W to 25 W"),
    "resistance": Dimension(
        "a resistance", "ohm", {"ohm": "ohm", "mohm": "milliohm", "kohm": "kiloohm"}, "0.28 ohm to 0.32 ohm"
    ),
    "inductance": Dimension(
        "an inductance", "henry", {"mH": "millihenry", "uH": "microhenry", "H": "henry"}, "0.4 mH to 0.6 mH"
    ),
    "capacitance": Dimension("a capacitance", "farad", {"uF": "microfarad"}, "90 uF to 110 uF"),
    "frequency": Dimension("a frequency", "hertz", {"Hz": "hertz", "kHz": "kilohertz"}, "4 Hz to 5 Hz"),
    "time": Dimension(
        "a time",
        "second",
        {"s": "second", "ms": "millisecond", "us": "microsecond", "ns": "nanosecond", "min": "minute"},
        "40 ms to 50 ms",
    ),
    "length": Dimension(
        "a length",
        "metre",
        {"m": "metre", "cm": "centimetre", "mm": "millimetre", "km": "kilometre", "ft": "foot", "in": "inch"},
        "1.5 m to 1.8 m",
    ),
    "area": Dimension("a cross-section", "metre**2", {"mm2": "millimetre**2"}, "1.5 mm2 to 2.5 mm2"),
    "mass": Dimension(
        "a mass", "kilogram", {"kg": "kilogram", "g": "gram", "lb": "pound", "oz": "ounce"}, "90 kg to 100 kg"
    ),
    "unbalance": Dimension("an unbalance", "kilogram*metre", {"g m": "gram*metre"}, "8 g m to 9 g m"),
    "torque": Dimension(
        "a torque", "newton*metre", {"N m": "newton*metre", "lbf in": "pound_force*inch"}, "4 N m to 5 N m"
    ),
    "temperature": Dimension(
        "a temperature", "degree_Celsius", {"°C": "degree_Celsius", "°F": "degree_Fahrenheit"}, "35 °C to 40 °C"
    ),
    "thermal resistance": Dimension("a thermal resistance", "kelvin/watt", {"K/W": "kelvin/watt"}, "50 K/W to 65 K/W"),
    "share": Dimension("a share", "dimensionless", {"%": "percent"}, "5 % to 6 %"),
    "sound level": Dimension("a sound level", "dimensionless", {"dB": "dimensionless"}, "74 dB to 78 dB"),
    "speed": Dimension("a speed of turning", "radian/second", {"rpm": "revolution/minute"}, "2000 rpm to 2200 rpm"),
}

DIMENSION_OF = {unit: name for name, dimension in DIMENSIONS.items() for unit in dimension.units}

# Other spellings that can be read one way only, and the spelling that is kept.
SAME = {
    "Ω": "ohm",
    "mΩ": "mohm",
    "kΩ": "kohm",
    "µH": "uH",
    "μH": "uH",
    "µF": "uF",
    "μF": "uF",
    "µs": "us",
    "μs": "us",
    "mm²": "mm2",
    "°C/W": "K/W",
    "degC/W": "K/W",
    "degC": "°C",
    "degF": "°F",
}

# What people write, and what it stands for: never taken, only named in the message.
MEANT = {
    "amp": "A",
    "amps": "A",
    "ampere": "A",
    "amperes": "A",
    "a": "A",
    "ma": "mA",
    "milliamp": "mA",
    "milliamps": "mA",
    "milliampere": "mA",
    "milliamperes": "mA",
    "v": "V",
    "volt": "V",
    "volts": "V",
    "vdc": "V",
    "v dc": "V",
    "vac": "V",
    "v ac": "V",
    "mv": "mV",
    "millivolt": "mV",
    "millivolts": "mV",
    "w": "W",
    "watt": "W",
    "watts": "W",
    "ohms": "ohm",
    "ohm": "ohm",
    "r": "ohm",
    "milliohm": "mohm",
    "milliohms": "mohm",
    "mohms": "mohm",
    "kiloohm": "kohm",
    "kilohm": "kohm",
    "kohms": "kohm",
    "k": "kohm",
    "hz": "Hz",
    "hertz": "Hz",
    "khz": "kHz",
    "kilohertz": "kHz",
    "sec": "s",
    "secs": "s",
    "second": "s",
    "seconds": "s",
    "msec": "ms",
    "milliseconds": "ms",
    "usec": "us",
    "microsecond": "us",
    "microseconds": "us",
    "nanosecond": "ns",
    "nanoseconds": "ns",
    "minute": "min",
    "minutes": "min",
    "metre": "m",
    "metres": "m",
    "meter": "m",
    "meters": "m",
    "mtr": "m",
    "centimetre": "cm",
    "centimetres": "cm",
    "centimeter": "cm",
    "centimeters": "cm",
    "millimetre": "mm",
    "millimetres": "mm",
    "millimeter": "mm",
    "millimeters": "mm",
    "inch": "in",
    "inches": "in",
    '"': "in",
    "″": "in",
    "foot": "ft",
    "feet": "ft",
    "'": "ft",
    "′": "ft",
    "sqmm": "mm2",
    "sq mm": "mm2",
    "mm^2": "mm2",
    "qmm": "mm2",
    "kilo": "kg",
    "kilos": "kg",
    "kgs": "kg",
    "kilogram": "kg",
    "kilograms": "kg",
    "gram": "g",
    "grams": "g",
    "gr": "g",
    "pound": "lb",
    "pounds": "lb",
    "lbs": "lb",
    "ounce": "oz",
    "ounces": "oz",
    "nm": "N m",
    "n m": "N m",
    "n·m": "N m",
    "n*m": "N m",
    "g·m": "g m",
    "g*m": "g m",
    "in lb": "lbf in",
    "in-lb": "lbf in",
    "inlb": "lbf in",
    "lbf·in": "lbf in",
    "c": "°C",
    "° c": "°C",
    "f": "°F",
    "° f": "°F",
    "degrees": "°C",
    "deg": "°C",
    "°": "°C",
    "deg c": "°C",
    "deg f": "°F",
    "c/w": "K/W",
    "deg c/w": "K/W",
    "kelvin/watt": "K/W",
    "celsius": "°C",
    "fahrenheit": "°F",
    "percent": "%",
    "per cent": "%",
    "pct": "%",
    "rev/min": "rpm",
    "r/min": "rpm",
    "1/min": "rpm",
    "revs": "rpm",
}


def tidy_unit(written: str) -> str:
    """The one spelling of a unit of our list; other text comes back as it is."""
    return SAME.get(written, written)


def meant_unit(written: str) -> str:
    """The unit that was probably meant by text that is none of our units, or ""."""
    lowered = " ".join(written.split()).rstrip(".").lower()
    if lowered in MEANT:
        return MEANT[lowered]
    return next((unit for unit in DIMENSION_OF if unit.lower() == lowered), "")


@cache
def _registry() -> Any:
    # Imported at first use: commands that read no quantity start sooner. With pint's cache folder it loads twice as
    # fast; where the home cannot be written to, it does without.
    import pint

    try:
        return pint.UnitRegistry(cache_folder=":auto:")
    except OSError:
        return pint.UnitRegistry()


@cache
def _scale(unit: str) -> tuple[float, float]:
    """Factor and offset: SI value = number * factor + offset."""
    registry = _registry()
    dimension = DIMENSIONS[DIMENSION_OF[unit]]
    name = dimension.units[unit]
    zero = registry.Quantity(0.0, name).to(dimension.si).magnitude
    one = registry.Quantity(1.0, name).to(dimension.si).magnitude
    return (one - zero, zero) if zero else (one, 0.0)


def to_si(number: float, unit: str) -> float:
    """The value in SI (temperatures in °C, shares of one, turning in rad/s) of a number with a unit of our list.

    Twelve digits are kept, so that 18 mm is 0.018 m and 104 °F is 40 °C.
    """
    factor, offset = _scale(unit)
    value = float(f"{number * factor + offset:.12g}")
    return round(value, 9) + 0.0 if offset else value


def from_si(value: float, unit: str) -> float:
    """The number that stands before `unit` for a value in SI."""
    factor, offset = _scale(unit)
    return float(f"{(value - offset) / factor:.12g}")
