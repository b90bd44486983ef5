"""How the values of a description are read: annotations for the fields of the model.

Every value comes as text. What cannot be read becomes an error of pydantic whose type is a problem code and whose
context holds what is wrong, what was expected and how to mend it.
"""

import re
import unicodedata
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic import GetCoreSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from guide_gen.values.grammar import (
    SIZE_EXPECTED,
    Expected,
    UnreadableError,
    parse_basis,
    parse_number,
    parse_quantity,
    parse_wire_size,
    short,
)
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.units import DIMENSIONS, SAME

# Marks the steps of an error's place that are no keys of the description: which shape or which choice was taken.
BRANCH = "\0"
LONGEST_TEXT = 2000
SLUG = r"[a-z0-9]+(-[a-z0-9]+)*"
LONGEST_SLUG = 40

JsonSchema = dict[str, Any]


def error(unreadable: UnreadableError) -> PydanticCustomError:
    """The same as an error that pydantic collects."""
    return PydanticCustomError(
        unreadable.code,
        "{wrong}",
        {"wrong": unreadable.wrong, "expected": unreadable.expected, "mend": unreadable.mend},
    )


def shape_of(value: Any) -> str:
    """What stands there, for a message: a map, a list or the text itself."""
    if isinstance(value, Mapping):
        return "a map of keys"
    if isinstance(value, list | tuple):
        return "a list"
    return f'"{short(str(value))}"'


def text_only(read: Callable[[str], Any], expected: str) -> Callable[[Any], Any]:
    """A validator from a function of text: other shapes and unreadable text become errors."""

    def validate(value: Any) -> Any:
        try:
            if not isinstance(value, str):
                raise UnreadableError(
                    "value-shape",
                    f"{shape_of(value)} stands where one value belongs",
                    expected,
                    "write the value behind the colon, on the same line",
                )
            return read(value)
        except UnreadableError as unreadable:
            raise error(unreadable) from None

    return validate


@dataclass(frozen=True)
class Scalar:
    """A value of one line: how it is read, and what an editor may check of it."""

    read: Callable[[str], Any]
    expected: str
    schema: Callable[[], JsonSchema]

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.no_info_plain_validator_function(text_only(self.read, self.expected))

    def json_schema(self) -> JsonSchema:
        """What an editor may check."""
        return self.schema()


@dataclass(frozen=True)
class QuantityReading:
    """A quantity: one line, or a map of value, basis, how, by and date."""

    wanted: Expected

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        expected = self.wanted.sentence
        line = text_only(lambda text: parse_quantity(text, self.wanted), expected)

        def field(validate: Callable[[Any], Any], required: bool = False) -> core_schema.TypedDictField:
            return core_schema.typed_dict_field(
                core_schema.no_info_plain_validator_function(validate), required=required
            )

        words = text_only(read_plain_text, "plain text")
        parts = core_schema.typed_dict_schema(
            {
                "value": field(line, required=True),
                "basis": field(text_only(parse_basis, "measured, datasheet or estimate")),
                "how": field(words),
                "by": field(words),
                "date": field(words),
            },
            extra_behavior="forbid",
        )
        return core_schema.tagged_union_schema(
            {
                BRANCH + "line": core_schema.no_info_plain_validator_function(line),
                BRANCH + "map": core_schema.no_info_after_validator_function(_joined, parts),
            },
            discriminator=lambda value: BRANCH + ("map" if isinstance(value, Mapping) else "line"),
        )

    def json_schema(self) -> JsonSchema:
        """What an editor may check."""
        line = quantity_line(self.wanted)
        text = {"type": "string"}
        return {
            "anyOf": [
                line,
                {
                    "type": "object",
                    "additionalProperties": False,
                    "required": ["value"],
                    "properties": {
                        "value": line | {"description": "the number with its unit"},
                        "basis": {"enum": [basis.value for basis in Basis], "description": "where it comes from"},
                        "how": text | {"description": "how it was found"},
                        "by": text | {"description": "a handle, never a name"},
                        "date": text | {"description": "when it was found"},
                    },
                },
            ]
        }


def _joined(parts: Mapping[str, Any]) -> Quantity:
    value: Quantity = parts["value"]
    basis = parts.get("basis")
    if basis and value.basis and basis is not value.basis:
        raise error(
            UnreadableError(
                "word-unknown",
                f"the value says {value.basis.value} and basis says {basis.value}",
                "one basis",
                "leave the brackets behind the value away",
            )
        )
    return replace(
        value, basis=basis or value.basis, how=parts.get("how", ""), by=parts.get("by", ""), date=parts.get("date", "")
    )


def quantity_line(wanted: Expected) -> JsonSchema:
    """JSON Schema of a quantity on one line. A bare number would have no unit, so it is always a string."""
    known = [*DIMENSIONS[wanted.dimension].units]
    if wanted.instead:
        known += DIMENSIONS[wanted.instead.dimension].units
    spellings = [*known, *(other for other, unit in SAME.items() if unit in known)]
    spellings += [spelling.replace("Ω", "\u2126") for spelling in spellings if "Ω" in spelling]  # the ohm sign
    units = "|".join(sorted((re.escape(unit).replace(r"\ ", " ") for unit in spellings), key=len, reverse=True))
    number = r"([+\-−]?([0-9]+(\.[0-9]+)?|\.[0-9]+)([eE][+\-]?[0-9]+)?|([0-9]+ +)?[0-9]+/[0-9]+)"
    start = rf"({number} *({units})? +to +)?" if wanted.ranged else ""
    pattern = rf"^ *{start}{number} *({units}) *(\((measured|datasheet|estimate)\))? *$"
    return {"type": "string", "pattern": pattern}


def read_quantity(
    dimension: str,
    unit: str,
    low: float,
    high: float,
    *,
    example: str,
    ranged: bool = False,
    zero: bool = False,
    extra_low: bool = False,
    instead: Expected | None = None,
) -> QuantityReading:
    """A quantity of a dimension (a name of `units.DIMENSIONS`) between `low` and `high`, both in SI.

    unit: in which messages show the ends. ranged: a range may stand. zero: zero may stand.
    extra_low: a voltage of the circuits themselves, refused above 60 V DC. instead: what may stand in its place.
    """
    return QuantityReading(Expected(dimension, unit, low, high, example, ranged, zero, extra_low, instead))


def read_number(example: str, low: float, high: float) -> Scalar:
    """A number without a unit; whole when the example is whole."""
    whole = "." not in example

    def read(text: str) -> float:
        number = parse_number(text, example, low, high)
        return int(number) if whole else number

    def schema() -> JsonSchema:
        kinds = ["integer", "string"] if whole else ["number", "string"]
        pattern = r"^ *\+?[0-9]+ *$" if whole else r"^ *\+?[0-9]*\.?[0-9]+ *$"
        return {
            "type": kinds,
            "minimum": int(low) if whole else low,
            "maximum": int(high) if whole else high,
            "pattern": pattern,
        }

    return Scalar(read, f"a number, such as {example}", schema)


def read_wire_size() -> Scalar:
    """A conductor size in mm2 or AWG."""
    return Scalar(
        parse_wire_size, SIZE_EXPECTED, lambda: {"type": "string", "pattern": r"^ *[0-9]+(\.[0-9]+)? *(mm2|mm²|AWG) *$"}
    )


def read_slug() -> Scalar:
    """A name that other keys refer to and that becomes an address."""
    return Scalar(
        _slug,
        "small letters, digits and single hyphens",
        lambda: {"type": ["string", "integer"], "pattern": f"^{SLUG}$", "maxLength": LONGEST_SLUG},
    )


def slug_like(text: str) -> str:
    """The nearest slug to a text, or ""."""
    plain = unicodedata.normalize("NFKD", text).encode("ascii", "ignore").decode().lower()
    return re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:LONGEST_SLUG].strip("-")


def _slug(text: str) -> str:
    if re.fullmatch(SLUG, text) and len(text) <= LONGEST_SLUG:
        return text
    near = slug_like(text)
    raise UnreadableError(
        "value-shape",
        f'"{short(text)}" cannot be a name that other keys and addresses use',
        f"small letters, digits and single hyphens, at most {LONGEST_SLUG} of them, such as bow-shaker",
        f'write "{near}"' if near else "choose a short name in plain letters",
    )


def read_text() -> Scalar:
    """Plain text for people. It never becomes markup."""
    return Scalar(
        read_plain_text,
        "plain text",
        lambda: {"type": ["string", "number", "integer", "boolean"], "maxLength": LONGEST_TEXT},
    )


def read_plain_text(text: str) -> str:
    """Text in NFC, without ends of blanks; refuses signs that cannot be seen and text without end."""
    tidied = unicodedata.normalize("NFC", text).strip()
    if not tidied:
        raise UnreadableError(
            "key-missing", "there is nothing but blanks", "plain text", "write the text, or leave the key out"
        )
    if len(tidied) > LONGEST_TEXT:
        raise UnreadableError(
            "implausible",
            f'"{short(text, 40)}" has {len(tidied)} letters',
            f"at most {LONGEST_TEXT} letters",
            "say it shorter",
        )
    if hidden := next((sign for sign in tidied if _hidden(sign)), ""):
        wrong = f'"{short(text, 40)}" holds a sign that cannot be seen (U+{ord(hidden):04X})'
        raise UnreadableError("value-shape", wrong, "plain text", "type the text again instead of pasting it")
    return tidied


def _hidden(sign: str) -> bool:
    """Control characters, halves of characters, and signs that turn the direction of reading."""
    return sign not in "\n\t" and (
        unicodedata.category(sign) in {"Cc", "Cs", "Cn"}
        or sign in "\u200e\u200f\u061c"
        or "\u202a" <= sign <= "\u202e"
        or "\u2066" <= sign <= "\u2069"
    )


def read_yes_no() -> Scalar:
    """Yes or no. An editor that follows YAML 1.1 sees true and false in them."""
    return Scalar(_yes_no, "yes or no", lambda: {"type": ["string", "boolean"], "enum": ["yes", "no", True, False]})


def _yes_no(text: str) -> bool:
    word = text.strip()
    if word in {"yes", "no"}:
        return word == "yes"
    lowered = word.lower()
    near = (
        "yes"
        if lowered in {"yes", "y", "true", "on", "ja", "oui"}
        else ("no" if lowered in {"no", "n", "false", "off", "none", "nein", "non"} else "")
    )
    raise UnreadableError(
        "word-unknown",
        f'"{short(text)}" is neither yes nor no',
        "yes or no",
        f'write "{near}"' if near else "choose yes or no",
    )
