"""How numbers stand on pages: few digits, a space that does not break, both systems of units."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.values import show
from guide_gen.values.grammar import Expected, parse_quantity
from guide_gen.values.show import NBSP


def plain(text: str) -> str:
    return text.replace(NBSP, " ")


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (show.show(9.000000001, "A"), "9.0 A"),
        (show.seconds(0.04), "40 ms"),
        (show.seconds(26.004), "26 s"),
        (show.seconds(600.0), "10 min"),
        (show.show(10.0, "A"), "10 A"),
        (show.show(0.048, "%"), "4.8 %"),
        (show.show(0.3, "ohm"), "0.30 Ω"),
        (show.amps(7.5), "7.5 A"),
        (show.amps(3.0), "3 A"),
        (show.amps(0.008), "8 mA"),
        (show.amps(0.0), "0 A"),
        (show.volts(0.58), "0.58 V"),
        (show.volts(0.045), "45 mV"),
        (show.watts(1234.5), "1230 W"),
        (show.ohms(0.01), "10 mΩ"),
        (show.ohms(2200.0), "2.2 kΩ"),
        (show.ohms(999.9), "1 kΩ"),
        (show.hertz(4.5), "4.5 Hz"),
        (show.hertz(15000.0), "15 kHz"),
        (show.percent(0.048321), "4.8 %"),
        (show.percent(0.12), "12 %"),
        (show.newtons(123.4), "123 N"),
        (show.force(13.0, 57.0, "metric"), "13 to 57 N (2.9 to 13 lbf)"),  # 1 lbf is 4.448 N (NIST SP 811)
        (show.force(4.448, 4.448, "US"), "1 lbf (4.4 N)"),
        (show.torque(1.0, 2.0, "US"), "8.9 to 18 lbf in (1 to 2 N m)"),  # 1 lbf in is 0.1130 N m (NIST SP 811)
        (show.count(15000.0), "15 000"),
        (show.metres(1.8, "metric"), "1.8 m (5.9 ft)"),
        (show.metres(1.8288, "US"), "6 ft (1.83 m)"),
        (show.metres(0.15, "metric"), "0.15 m (5.9 in)"),
        (show.millimetres(18.0, "metric"), "18 mm (0.71 in)"),
        (show.millimetres(19.05, "US"), "3/4 in (19.1 mm)"),
        (show.millimetres(38.1, "US"), "1 1/2 in (38.1 mm)"),
        (show.celsius(40.0, "metric"), "40 °C (104 °F)"),
        (show.celsius(40.0, "US"), "104 °F (40 °C)"),
        (show.span(5.0, 6.0, "A"), "5 to 6 A"),
        (show.span(8.297, 8.304, "Hz"), "8.297 to 8.304 Hz"),
        (show.span(8.3, 8.3, "Hz"), "8.3 Hz"),
        (show.span(None, 0.3, "Ω"), "up to 0.3 Ω"),
        (show.span(0.2, None, "Ω"), "above 0.2 Ω"),
    ],
)
def test_a_value_is_shown_short(shown: str, text: str) -> None:
    assert plain(shown) == text


@pytest.mark.parametrize(
    ("written", "dimension", "unit", "text"),
    [
        ("5 A to 6 A (measured)", "current", "A", "5 to 6 A"),
        ("500 mA to 1 A", "current", "A", "500 mA to 1 A"),
        ("0.30 ohm", "resistance", "ohm", "0.30 Ω"),
        ("1 1/2 in", "length", "m", "1 1/2 in"),
        ("-5 degC", "temperature", "°C", "\u22125 °C"),
    ],
)
def test_a_quantity_is_shown_as_it_was_written(written: str, dimension: str, unit: str, text: str) -> None:
    wanted = Expected(dimension, unit, -100.0, 1000.0, "", ranged=True, zero=True)
    assert plain(show.quantity(parse_quantity(written, wanted))) == text


@given(st.floats(1e-6, 1e6))
def test_a_shown_figure_is_within_half_of_its_third_digit(value: float) -> None:
    assert float(show.figure(value, decimals=12)) == pytest.approx(value, rel=0.0051)


@given(st.floats(1e-4, 1e4))
def test_number_and_unit_are_never_parted(value: float) -> None:
    assert " " not in show.amps(value) + show.volts(value) + show.ohms(value)


@pytest.mark.parametrize(
    ("low", "high", "text"),
    [
        (5.0, 6.0, "5 to 6 A"),
        (0.0323, 0.0483, "32.3 to 48.3 mA"),
        (0.05, 0.2, "0.05 to 0.2 A"),
        (None, 0.042, "up to 42 mA"),
        (None, 6.0, "up to 6 A"),
        (0.0, 0.0, "0 A"),
    ],
)
def test_a_span_of_small_currents_is_in_milliamperes(low: float | None, high: float, text: str) -> None:
    """As the display of a meter shows it; rules: this project."""
    assert plain(show.span(low, high, "A")) == text


def test_two_currents_that_differ_read_differently():
    """32.013 A beside a limit of 32 A."""
    assert show.amps_apart(32.0, 32.013) == ("32\u00a0A", "32.01\u00a0A")
    assert show.amps_apart(24.0, 32.0) == ("24\u00a0A", "32\u00a0A")
    assert show.amps_apart(32.0, 32.0) == ("32\u00a0A", "32\u00a0A")
