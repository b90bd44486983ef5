"""What the grammar of quantities takes, and what it refuses with which spelling to use."""

import math
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.values.grammar import (
    Expected,
    UnreadableError,
    parse_number,
    parse_quantity,
    parse_wire_size,
)
from guide_gen.values.quantity import Basis, WireSize

CURRENT = Expected("current", "A", 0.0005, 100.0, "5.5 A", ranged=True)
RAIL = Expected("voltage", "V", 1.0, 60.0, "12 V", extra_low=True)
RUN = Expected("length", "m", 0.01, 30.48, "1.8 m")
RESISTANCE = Expected("resistance", "ohm", 1e-4, 1e5, "0.30 ohm", ranged=True)
TEMPERATURE = Expected("temperature", "°C", -40.0, 250.0, "40 °C", zero=True)
SHARE = Expected("share", "%", 0.0, 1.0, "12 %", zero=True)
SPEED = Expected("speed", "rpm", 1.0, 2100.0, "2100 rpm")
TORQUE = Expected("torque", "N m", 0.1, 50.0, "4 N m")


@pytest.mark.parametrize(
    ("text", "wanted", "low", "high", "tidy"),
    [
        ("5.5 A", CURRENT, 5.5, 5.5, "5.5 A"),
        ("5.5A", CURRENT, 5.5, 5.5, "5.5 A"),
        ("5.5\u00a0A", CURRENT, 5.5, 5.5, "5.5 A"),
        ("  8   mA ", CURRENT, 0.008, 0.008, "8 mA"),
        ("5 A to 6 A", CURRENT, 5.0, 6.0, "5 A to 6 A"),
        ("5 to 6 A", CURRENT, 5.0, 6.0, "5 A to 6 A"),
        ("500 mA to 1 A", CURRENT, 0.5, 1.0, "500 mA to 1 A"),
        ("0.30 ohm", RESISTANCE, 0.3, 0.3, "0.30 ohm"),
        ("0.3 Ω", RESISTANCE, 0.3, 0.3, "0.3 ohm"),
        ("0.3 \u2126", RESISTANCE, 0.3, 0.3, "0.3 ohm"),
        ("10 mΩ", RESISTANCE, 0.01, 0.01, "10 mohm"),
        ("6 ft", RUN, 1.8288, 1.8288, "6 ft"),
        ("1 1/2 in", RUN, 0.0381, 0.0381, "1 1/2 in"),
        ("3/4 in", RUN, 0.01905, 0.01905, "3/4 in"),
        ("-5 °C", TEMPERATURE, -5.0, -5.0, "-5 °C"),
        ("\u22125 °C", TEMPERATURE, -5.0, -5.0, "-5 °C"),
        ("0 °C", TEMPERATURE, 0.0, 0.0, "0 °C"),
        ("40 degC", TEMPERATURE, 40.0, 40.0, "40 °C"),
        ("104 °F", TEMPERATURE, 40.0, 40.0, "104 °F"),
        ("12%", SHARE, 0.12, 0.12, "12 %"),
        ("0 %", SHARE, 0.0, 0.0, "0 %"),
        ("4 N m", TORQUE, 4.0, 4.0, "4 N m"),
        ("60 V", RAIL, 60.0, 60.0, "60 V"),
    ],
)
def test_a_quantity_is_taken_as_it_is_meant(text: str, wanted: Expected, low: float, high: float, tidy: str) -> None:
    quantity = parse_quantity(text, wanted)
    assert (quantity.low, quantity.high, quantity.text) == (low, high, tidy)


def test_turning_comes_out_in_radians_a_second() -> None:
    assert parse_quantity("2100 rpm", SPEED).low == pytest.approx(2100 * 2 * math.pi / 60)


@pytest.mark.parametrize("basis", list(Basis))
def test_brackets_behind_a_value_say_its_basis(basis: Basis) -> None:
    quantity = parse_quantity(f"5 A to 6 A ({basis})", CURRENT)
    assert (quantity.basis, quantity.text) == (basis, "5 A to 6 A")


@pytest.mark.parametrize(
    ("text", "wanted", "code", "mend"),
    [
        # what pint 0.25.3 would have taken for something else
        ("5,5 A", CURRENT, "number-wrong", 'write "5.5 A"'),
        ("1,8 m", RUN, "number-wrong", 'write "1.8 m"'),
        ("5 amps", CURRENT, "unit-unknown", 'write "5 A"'),
        ("4 Nm", TORQUE, "unit-unknown", 'write "4 N m"'),
        ("10 R", RESISTANCE, "unit-unknown", 'write "10 ohm"'),
        ("4.7k", RESISTANCE, "unit-unknown", 'write "4.7 kohm"'),
        ("20 C", TEMPERATURE, "unit-unknown", 'write "20 °C"'),
        ("3 ft 6 in", RUN, "number-wrong", 'write it in one unit: "42 in"'),
        ("nan V", RAIL, "number-wrong", "write a voltage from 1 V to 60 V"),
        ("inf A", CURRENT, "number-wrong", "write a current from 0.5 mA to 100 A"),
        ("1_000 mm", RUN, "number-wrong", 'write "1000 mm"'),
        ("12V/2", RAIL, "number-wrong", "work it out and write the result"),
        ("9^9^9 V", RAIL, "number-wrong", 'write the number first and then its unit, like "12 V"'),
        ("5 Ohm", RESISTANCE, "unit-unknown", 'write "5 ohm"'),
        # what could be read two ways
        ("5-6 A", CURRENT, "number-wrong", 'write "5 A to 6 A"'),
        ("5\u20136A", CURRENT, "number-wrong", 'write "5 A to 6 A"'),
        ("5 A - 6 A", CURRENT, "number-wrong", 'write "5 A to 6 A"'),
        ("5...6 A", CURRENT, "number-wrong", 'write "5 A to 6 A"'),
        ("1,000 mm", RUN, "number-wrong", 'write "1000 mm" or "1 mm", as it is meant'),
        ("1 000 mm", RUN, "number-wrong", 'write "1000 mm"'),
        ("1/2 A", CURRENT, "number-wrong", 'write the number with a point, such as "5.5 A"'),
        # what is not all there, or too much
        ("5", CURRENT, "unit-missing", 'write "5 A" if A is meant'),
        ("0.12", SHARE, "unit-missing", 'write "12 %"'),
        ("5 A to 6", CURRENT, "unit-missing", 'write "5 A to 6 A" if A is meant'),
        ("5 V", CURRENT, "unit-wrong", "give a current in A or mA"),
        ("-5 A", CURRENT, "number-wrong", 'write "5 A" if only the direction was meant'),
        ("6 A to 5 A", CURRENT, "number-wrong", 'write "5 A to 6 A"'),
        ("101 A", CURRENT, "implausible", "look at the number and its unit again"),
        ("1e400 A", CURRENT, "number-wrong", "write a current from 0.5 mA to 100 A"),
        ("about 5 A", CURRENT, "number-wrong", 'write "5 A (estimate)"'),
        ("5 A (estimated)", CURRENT, "word-unknown", 'write "estimate"'),
        ("24 VDC", RAIL, "unit-unknown", 'write "24 V"'),
    ],
)
def test_a_refusal_names_the_spelling_to_use(text: str, wanted: Expected, code: str, mend: str) -> None:
    with pytest.raises(UnreadableError) as refused:
        parse_quantity(text, wanted)
    assert (refused.value.code, refused.value.mend) == (code, mend)


# The limit of this project for everything that it describes: 60 V DC.
@pytest.mark.parametrize("text", ["60.1 V", "230 V", "230 VAC", "325 V (measured)"])
def test_a_circuit_above_60_volts_is_refused(text: str) -> None:
    with pytest.raises(UnreadableError) as refused:
        parse_quantity(text, RAIL)
    assert refused.value.code == "above-extra-low-voltage"


NUMBERS = st.decimals(min_value="0.001", max_value="99", places=3).map(lambda number: format(number.normalize(), "f"))


@given(NUMBERS)
def test_a_quantity_reads_its_own_text_again(number: str) -> None:
    once = parse_quantity(f"{number}A", CURRENT)
    assert parse_quantity(once.text, CURRENT) == once
    assert once.low == float(number)


@given(NUMBERS, NUMBERS)
def test_a_range_reads_its_own_text_again(one: str, other: str) -> None:
    low, high = sorted((one, other), key=float)
    once = parse_quantity(f"{low} to {high} A", CURRENT)
    assert parse_quantity(once.text, CURRENT) == once
    assert once.low <= once.high


@given(st.text(max_size=40) | st.from_regex(r"[0-9 .,/eE+\-]{0,12}[A-Za-z°%Ω]{0,4}( to [0-9]{1,3} A)?", fullmatch=True))
def test_any_text_is_read_or_refused_in_words(text: str) -> None:
    for wanted in (CURRENT, RAIL, RUN, SHARE, TEMPERATURE):
        low, high, words = read_or_words(text, wanted)
        assert all(words)
        assert wanted.low <= low <= high <= wanted.high


def read_or_words(text: str, wanted: Expected) -> tuple[float, float, tuple[str, ...]]:
    """The ends that were read; or the plausible ends, and the words of the refusal."""
    try:
        quantity = parse_quantity(text, wanted)
    except UnreadableError as refused:
        return wanted.low, wanted.high, (refused.wrong, refused.expected, refused.mend)
    return quantity.low, quantity.high, ()


@pytest.mark.parametrize(
    ("text", "system", "number"),
    [("1.5 mm2", "mm2", "1.5"), ("1.5 mm²", "mm2", "1.5"), ("1.50mm2", "mm2", "1.5"), ("16 AWG", "AWG", "16")],
)
def test_a_wire_size_stands_as_in_the_tables(text: str, system: str, number: str) -> None:
    assert parse_wire_size(text) == WireSize(system, number)


@pytest.mark.parametrize(
    ("text", "code", "mend"),
    [
        ("1.5", "unit-missing", 'write "1.5 mm2"'),
        ("16", "unit-missing", 'write "16 mm2" or "16 AWG"'),
        ("16 gauge", "unit-unknown", 'write "16 AWG"'),
        ("#16", "unit-unknown", 'write "16 AWG"'),
        ("1,5 mm2", "number-wrong", 'write "1.5 mm2"'),
        ("1.5 mm", "unit-wrong", "read the size printed on the wire; a diameter is not it"),
        ("thick", "number-wrong", "read the size printed on the wire or its reel"),
    ],
)
def test_a_wire_size_is_refused_with_the_spelling_to_use(text: str, code: str, mend: str) -> None:
    with pytest.raises(UnreadableError) as refused:
        parse_wire_size(text)
    assert (refused.value.code, refused.value.mend) == (code, mend)


@pytest.mark.parametrize(("text", "number"), [("1.5", 1.5), ("2", 2.0)])
def test_a_number_without_unit_is_read(text: str, number: float) -> None:
    assert parse_number(text, "1.5", 1.0, 5.0) == number


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("1,5", "1.5", 1.0, 5.0), "number-wrong"),
        (("16.5", "16", 1.0, 512.0), "number-wrong"),
        (("16 ports", "16", 1.0, 512.0), "number-wrong"),
        (("0", "16", 1.0, 512.0), "number-wrong"),
        (("-2", "16", 1.0, 512.0), "number-wrong"),
        (("1e400", "1.5", 1.0, 5.0), "number-wrong"),
        (("600", "16", 1.0, 512.0), "implausible"),
    ],
)
def test_a_number_is_refused(arguments: Any, code: str) -> None:
    with pytest.raises(UnreadableError) as refused:
        parse_number(*arguments)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("high", "ends"),
    [(60.0, "1 ms to 1 min"), (3600.0, "1 ms to 60 min"), (5.0, "1 ms to 5 s"), (0.5, "1 ms to 500 ms")],
)
def test_ends_of_a_time_are_told_in_a_unit_that_fits(high: float, ends: str) -> None:
    """BIPM SI brochure: a minute is 60 s."""
    assert Expected("time", "ms", 1e-3, high, example="40 ms").ends == ends
