"""LED: its series resistor, and the current and heat at the ends of its ranges."""

from math import floor, log10

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative
from guide_gen.published.tables import e24_decade, rule
from guide_gen.values.worked import procedure, worked

_LED = "Lessons In Electric Circuits volume III, diodes"
_MARGIN = rule("resistor power margin").value


def _total_V(voltage_V: float, leds: float, forward_V: float) -> float:
    """The drop of all LEDs in a row, checked against the supply."""
    above_zero(voltage_V=voltage_V, leds=leds, forward_V=forward_V)
    total = leds * forward_V
    if total >= voltage_V:
        raise OutsideValidity("voltage_V", voltage_V, f"above the {total:g} that the LEDs in a row take themselves")
    return total


@worked(
    "R",
    "Ω",
    "(V - n * V_f) / I",
    {"V": ("voltage_V", "V"), "n": ("leds", ""), "V_f": ("forward_V", "V"), "I": ("current_A", "A")},
    _LED,
)
def series_resistance_ohm(voltage_V: float, leds: float, forward_V: float, current_A: float) -> float:
    """The resistor in series with LEDs in a row; the next preferred value up is taken.

    leds: how many in a row. forward_V: of one. Raises OutsideValidity, also when nothing is left for the resistor.
    Source: Lessons In Electric Circuits volume III, diodes.
    """
    total = _total_V(voltage_V, leds, forward_V)
    above_zero(current_A=current_A)
    return (voltage_V - total) / current_A


@procedure(
    "R",
    "Ω",
    "smallest value of IEC 60063 series E24 at or above it",
    {"R_n": ("resistance_ohm", "Ω")},
    "IEC 60063, series E24",
)
def next_e24_ohm(resistance_ohm: float) -> float:
    """The next preferred resistor at or above a value. Raises OutsideValidity. Source: IEC 60063, series E24."""
    above_zero(resistance_ohm=resistance_ohm)
    exponent = floor(log10(resistance_ohm))
    candidates = (value * 10.0**power for power in (exponent - 1, exponent, exponent + 1) for value in e24_decade())
    # Three figures again: 4.7 * 10 ** 2 is 470 and not 470.00000000000006.
    return float(f"{next(value for value in candidates if reaches(value, resistance_ohm)):.3g}")


@worked(
    "I",
    "A",
    "max(0, (V - n * V_f) / R)",
    {"V": ("voltage_V", "V"), "n": ("leds", ""), "V_f": ("forward_V", "V"), "R": ("resistance_ohm", "Ω")},
    _LED,
)
def current_A(voltage_V: float, leds: float, forward_V: float, resistance_ohm: float) -> float:
    """Current with a resistor that was chosen: most at the highest voltage and least drop; 0 when it does not light.

    Raises OutsideValidity. Source: Lessons In Electric Circuits volume III, diodes.
    """
    above_zero(voltage_V=voltage_V, leds=leds, forward_V=forward_V, resistance_ohm=resistance_ohm)
    return max(0.0, (voltage_V - leds * forward_V) / resistance_ohm)


@worked(
    "P",
    "W",
    "I ** 2 * R",
    {"I": ("current_A", "A"), "R": ("resistance_ohm", "Ω")},
    _LED,
)
def resistor_W(current_A: float, resistance_ohm: float) -> float:
    """Heat in the resistor. Raises OutsideValidity. Source: Lessons In Electric Circuits volume III, diodes."""
    not_negative(current_A=current_A)
    above_zero(resistance_ohm=resistance_ohm)
    return current_A**2 * resistance_ohm


@worked("P_r", "W", f"{_MARGIN:g} * P", {"P": ("power_W", "W")}, rule("resistor power margin").source)
def resistor_rating_W(power_W: float) -> float:
    """The rating of the resistor to buy: twice its heat, so that it stays touchable and lasts.

    Raises OutsideValidity. Source: common practice, no source.
    """
    not_negative(power_W=power_W)
    return _MARGIN * power_W
