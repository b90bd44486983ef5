"""Fields of the model: lines and maps of quantities, texts, names, yes and no."""

from typing import Annotated, Any

import jsonschema
import pytest
from pydantic import BaseModel, ValidationError

from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import (
    QuantityReading,
    Scalar,
    read_number,
    read_quantity,
    read_slug,
    read_text,
    read_wire_size,
    read_yes_no,
)

CURRENT = read_quantity("current", "A", 0.0005, 100.0, example="5.5 A", ranged=True)


class Toy(BaseModel):
    """One key of each sort."""

    current: Annotated[Quantity, CURRENT] | None = None
    name: Annotated[str, read_text()] | None = None
    slug: Annotated[str, read_slug()] | None = None
    loud: Annotated[bool, read_yes_no()] | None = None


def code_of(**given: Any) -> str:
    with pytest.raises(ValidationError) as refused:
        Toy.model_validate(given)
    return refused.value.errors()[0]["type"]


def test_a_map_says_more_than_a_line() -> None:
    toy = Toy.model_validate({"current": {"value": "5 A to 6 A", "basis": "measured", "how": "bench supply"}})
    assert toy.current == Quantity(5.0, 6.0, "5 A to 6 A", "A", Basis.MEASURED, "bench supply")


def test_a_basis_may_stand_in_the_value_of_a_map() -> None:
    toy = Toy.model_validate({"current": {"value": "5 A (estimate)"}})
    assert toy.current is not None
    assert toy.current.basis is Basis.ESTIMATE


def test_two_different_bases_are_refused() -> None:
    assert code_of(current={"value": "5 A (estimate)", "basis": "measured"}) == "word-unknown"


@pytest.mark.parametrize("given", [["5 A"], 5, None, True])
def test_what_is_no_text_is_of_the_wrong_shape(given: Any) -> None:
    assert code_of(current={"value": given}) == "value-shape"


@pytest.mark.parametrize("text", ["bow-shaker", "a", "x2", "2"])
def test_a_slug_is_small_letters_digits_and_hyphens(text: str) -> None:
    assert Toy.model_validate({"slug": text}).slug == text


@pytest.mark.parametrize("text", ["Bow", "bow shaker", "-a", "a-", "a--b", "ä", "", "../x", "x" * 41])
def test_what_cannot_be_an_address_is_no_slug(text: str) -> None:
    assert code_of(slug=text) == "value-shape"


@pytest.mark.parametrize("text", ["bell\x07", "turn\u202eround", "half\ud800", "\x1b[31mred"])
def test_text_with_hidden_signs_is_refused(text: str) -> None:
    assert code_of(name=text) == "value-shape"


def test_text_is_kept_as_text() -> None:
    assert Toy.model_validate({"name": "<b>{{ 7*7 }}</b>"}).name == "<b>{{ 7*7 }}</b>"


def test_text_without_end_is_refused() -> None:
    assert code_of(name="x" * 2001) == "implausible"


@pytest.mark.parametrize(("text", "said"), [("yes", True), ("no", False)])
def test_yes_and_no_are_the_words(text: str, said: bool) -> None:
    assert Toy.model_validate({"loud": text}).loud is said


@pytest.mark.parametrize("text", ["true", "on", "Yes", "1", ""])
def test_other_words_for_yes_are_refused(text: str) -> None:
    assert code_of(loud=text) == "word-unknown"


@pytest.mark.parametrize(
    ("reading", "given", "fits"),
    [
        (CURRENT, "5.5 A", True),
        (CURRENT, "5 to 6 A (measured)", True),
        (CURRENT, {"value": "5 A", "basis": "measured"}, True),
        (CURRENT, {"basis": "measured"}, False),
        (CURRENT, "5,5 A", False),
        (CURRENT, "5 V", False),
        (CURRENT, 5, False),
        (read_quantity("resistance", "ohm", 0.0001, 1e5, example="0.3 ohm"), "0.3 \u2126", True),
        (read_quantity("length", "m", 0.01, 30.0, example="1 m"), "1 1/2 in", True),
        (read_number("16", 1, 512), 16, True),
        (read_number("16", 1, 512), "16", True),
        (read_number("16", 1, 512), 0, False),
        (read_number("16", 1, 512), "two", False),
        (read_number("1.5", 1.0, 5.0), 1.5, True),
        (read_wire_size(), "1.5 mm2", True),
        (read_wire_size(), "1.5", False),
        (read_yes_no(), "yes", True),
        (read_yes_no(), True, True),
        (read_yes_no(), "on", False),
        (read_slug(), "main", True),
        (read_slug(), "Main", False),
        (read_text(), 3, True),
        (read_text(), ["a"], False),
    ],
)
def test_an_editor_is_told_what_fits(reading: Scalar | QuantityReading, given: Any, fits: bool) -> None:
    assert jsonschema.Draft202012Validator(reading.json_schema()).is_valid(given) is fits
