"""A formula on a page says what the Python expression says."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.publish.sum import formula, result, substituted, symbol


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("a * b / c", "a ×\u00a0b ÷\u00a0c"),
        ("a / (b * c)", "a ÷\u00a0(b ×\u00a0c)"),
        ("(a + b) * c", "(a +\u00a0b) ×\u00a0c"),
        ("a - (b - c)", "a −\u00a0(b −\u00a0c)"),
        ("a + b - c", "a +\u00a0b −\u00a0c"),
        ("-a * b", "−a ×\u00a0b"),
        ("I ** 2 * R", "I² ×\u00a0R"),
        ("(a + b) ** 2", "(a +\u00a0b)²"),
        ("a ** n", "a<sup>n</sup>"),
        ("sqrt(a / b)", "√(a ÷\u00a0b)"),
        ("x ** 0.5", "√(x)"),
        ("abs(x)", "|x|"),
        ("max(1.5 * I, I / (0.75 * k_T))", "max(1.5 ×\u00a0I ; I ÷\u00a0(0.75 ×\u00a0k<sub>T</sub>))"),
        ("a if a <= b else b", "a where a ≤\u00a0b, else b"),
        ("1e-7 * x", "1\u00a0×\u00a010<sup>−7</sup> ×\u00a0x"),
    ],
)
def test_expression_is_shown_as_a_formula(written: str, shown: str) -> None:
    assert formula(written) == shown


@pytest.mark.parametrize(
    ("name", "shown"),
    [
        ("I", "I"),
        ("I_F", "I<sub>F</sub>"),
        ("rho_20", "ρ<sub>20</sub>"),
        ("k1", "k<sub>1</sub>"),
        ("pi", "π"),
        ("I_n,max", "I<sub>n,max</sub>"),
    ],
)
def test_letters_carry_their_index(name: str, shown: str) -> None:
    assert symbol(name) == shown


def test_numbers_stand_in_for_letters_with_their_units() -> None:
    shown = substituted("2 * l * R", {"l": 1.8, "R": 0.0149}, {"l": "m", "R": "ohm/m"})
    assert shown == "2 ×\u00a01.8\u00a0m ×\u00a014.9\u00a0mΩ/m"


def test_square_of_a_value_takes_its_unit_along() -> None:
    assert substituted("I ** 2", {"I": 6.0}, {"I": "A"}) == "(6\u00a0A)²"


def test_negative_value_stands_in_brackets() -> None:
    assert substituted("a - b", {"a": 1.0, "b": -2.0}, {}) == "1 −\u00a0(−2)"


def test_result_is_a_number_or_words() -> None:
    assert result(0.57432, "V") == "0.574\u00a0V"
    assert result("70 °C <b>", "") == "70 °C &lt;b&gt;"


def test_unknown_expression_is_refused() -> None:
    with pytest.raises(ValueError, match="no way to write"):
        formula("[x for x in y]")


LETTERS = {"a": 3.0, "b": 7.0, "c": 2.0}
SHOWN_AS = str.maketrans({"×": "*", "÷": "/", "−": "-", "\u00a0": " "})
expressions = st.recursive(
    st.sampled_from(sorted(LETTERS)),
    lambda inner: st.tuples(inner, st.sampled_from("+-*/"), inner).map(
        lambda parts: f"({parts[0]} {parts[1]} {parts[2]})"
    ),
    max_leaves=8,
)


@given(expressions)
def test_brackets_left_out_change_no_value(expression: str) -> None:
    def value(text: str) -> float | None:
        try:
            return float(eval(text, {}, LETTERS))
        except ZeroDivisionError:
            return None

    before, after = value(expression), value(str(formula(expression)).translate(SHOWN_AS))
    assert after == pytest.approx(before) if before is not None else True
