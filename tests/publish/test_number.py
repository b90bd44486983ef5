"""Numbers as people read them."""

import pytest

from guide_gen.publish.number import expected, number, scaled


@pytest.mark.parametrize(
    ("value", "shown"),
    [(0.0, "0"), (9.0, "9"), (0.49678, "0.4968"), (15000.0, "15000"), (0.000123456, "0.0001235"), (-2.5, "−2.5")],
)
def test_number_has_four_digits_at_most(value: float, shown: str) -> None:
    assert number(value) == shown


@pytest.mark.parametrize(
    ("value", "unit", "amount", "shown"),
    [
        (0.0149, "ohm/m", 14.9, "mΩ/m"),
        (0.008, "A", 8.0, "mA"),
        (6.0, "A", 6.0, "A"),
        (25000.0, "ohm", 25.0, "kΩ"),
        (15000.0, "Hz", 15.0, "kHz"),
        (0.0, "V", 0.0, "V"),
        (0.05, "mm2", 0.05, "mm²"),
    ],
)
def test_prefix_keeps_a_value_readable(value: float, unit: str, amount: float, shown: str) -> None:
    assert scaled(value, unit) == (pytest.approx(amount), shown)


@pytest.mark.parametrize(
    ("low", "high", "unit", "words", "ends"),
    [
        (0.2, 0.6, "Ω", "expect 0.2 to 0.6\u00a0Ω", ("0.2", "0.6", "Ω")),
        (10000.0, None, "Ω", "expect 10\u00a0kΩ or more", ("10", "", "kΩ")),
        (None, 0.3, "Ω", "expect 0.3\u00a0Ω or less", ("", "0.3", "Ω")),
        (0.0, 0.0, "V", "expect 0\u00a0V", ("0", "0", "V")),
        (None, None, "%", "write down what you find", ("", "", "%")),
    ],
)
def test_expected_range_and_field_use_one_unit(
    low: float | None,
    high: float | None,
    unit: str,
    words: str,
    ends: tuple[str, str, str],
) -> None:
    range_ = expected(low, high, unit, "metric")
    assert (range_.words, (range_.low, range_.high, range_.unit)) == (words, ends)


def test_a_temperature_to_expect_stands_in_both_units():
    """60 degC are 140 degF: 9/5 and 32, by the definition of the scales."""
    assert expected(None, 60.0, "°C", "metric").words.replace("\u00a0", " ") == "expect 60 °C (140 °F) or less"


def test_in_us_units_a_temperature_is_written_down_in_fahrenheit():
    """Else a thermometer that shows 130 degF, which is well, would be told to be above 60."""
    range_ = expected(None, 60.0, "°C", "US")
    assert range_.words.replace("\u00a0", " ") == "expect 140 °F (60 °C) or less"
    assert (range_.low, range_.high, range_.unit) == ("", "140", "°F")
