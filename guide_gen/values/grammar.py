"""The small grammar of numbers with units: ``5.5 A``, ``5 A to 6 A (measured)``, ``1 1/2 in``, ``16 AWG``.

What could be read two ways is refused with the spelling to use.
"""

import math
import re
import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from typing import NoReturn

from guide_gen.values.quantity import Basis, Quantity, WireSize
from guide_gen.values.units import DIMENSION_OF, DIMENSIONS, from_si, meant_unit, tidy_unit, to_si

LONGEST = 80  # characters of a quantity
_NUMBER = r"[+-]?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][+-]?\d+)?"
_FRACTION = r"(?:\d+\s+)?\d+/\d+"
_UNIT = r"(?!.*[/*]\s*\d)[^\d\s.,+\-/=~±<>()–—…_][^\d,+\-=~±<>()–—…]*(?:\^?2)?"
_SIDE = re.compile(rf"(?P<number>{_FRACTION}(?![\d.])|{_NUMBER})\s*(?P<unit>{_UNIT})?", re.ASCII)
_BASIS = re.compile(r"(?P<value>.*?)\s*\((?P<basis>[^()]*)\)", re.DOTALL)
_DASHED = re.compile(
    rf"({_NUMBER})\s*([^\d\s.,\-–—]*)\s*(?:-|–|—|\.{{2,3}}|…|~|\bbis\b|\buntil\b)\s*({_NUMBER})\s*([^\d,\-–—]*)",
    re.ASCII,
)
_PLUS_MINUS = re.compile(rf"({_NUMBER})\s*([^\d\s±+]*)\s*(?:±|\+/-|\+-)\s*({_NUMBER})\s*(\S.*)", re.ASCII)
_TWO_PARTS = re.compile(rf"({_NUMBER})\s*([^\d\s]+)\s+({_NUMBER})\s*([^\d\s]+)", re.ASCII)
_SPACED = re.compile(r"(\d{1,3}(?:[ _']\d{3})+|\d+(?:_\d+)+)(.*)", re.ASCII)
_VAGUE = re.compile(
    rf"(?:about|around|approx\.?|approximately|circa|ca\.?|c\.|~|≈|roughly)\s*({_NUMBER}.*)", re.I | re.ASCII
)
_BOUND = re.compile(
    rf"(?:max\.?|min\.?|maximum|minimum|up to|at least|at most|less than|more than|<=?|>=?|≤|≥)\s*"
    rf"({_NUMBER}.*)",
    re.I | re.ASCII,
)
_NOT_FINITE = re.compile(r"[+-]?(?:nan|inf|infinity|∞)\b.*|[+-]?∞.*", re.I)
_SIZE = re.compile(r"(\d+(?:\.\d+)?)\s*(mm2|AWG)", re.ASCII)


@dataclass
class UnreadableError(Exception):
    """A value that cannot be read: why (a problem code), what is wrong, what was expected, how to mend it."""

    code: str
    wrong: str
    expected: str
    mend: str


@dataclass(frozen=True)
class Expected:
    """What a key wants of its quantity.

    dimension: a name of `DIMENSIONS`. unit: of the ends as messages show them. low, high: plausible ends in SI.
    ranged: a range may stand. zero: zero may stand (and below it, for temperatures).
    extra_low: a voltage of the circuits themselves, refused above 60 V DC.
    instead: another dimension that may stand in its place.
    """

    dimension: str
    unit: str
    low: float
    high: float
    example: str
    ranged: bool = False
    zero: bool = False
    extra_low: bool = False
    instead: "Expected | None" = None

    @property
    def noun(self) -> str:
        """The sort of quantity with its article: ``a current``."""
        own = DIMENSIONS[self.dimension].noun
        return f"{own} or {self.instead.noun}" if self.instead else own

    @property
    def units(self) -> str:
        """The units that may stand, for a message: ``A or mA``."""
        return either(
            [*DIMENSIONS[self.dimension].units, *(DIMENSIONS[self.instead.dimension].units if self.instead else ())]
        )

    @property
    def sentence(self) -> str:
        """What was expected: ``a number and A or mA, such as 5.5 A or 5 A to 6 A``."""
        also = DIMENSIONS[self.dimension].range_example if self.ranged else ""
        other = self.instead.example if self.instead else ""
        examples = " or ".join(dict.fromkeys(part for part in (self.example, also, other) if part))
        return f"a number and {self.units}, such as {examples}"

    @property
    def ends(self) -> str:
        """The plausible ends, for a message: ``1 V to 60 V``."""
        return f"{self._shown(self.low)} to {self._shown(self.high)}"

    def _shown(self, end: float) -> str:
        small = f"m{self.unit}"
        unit = small if 0 < abs(from_si(end, self.unit)) < 0.01 and small in DIMENSION_OF else self.unit
        if self.dimension == "time" and end >= 1:
            unit = "min" if end >= 60 else "s"
        return f"{plain(from_si(end, unit))} {unit}"


def tidy(text: str) -> str:
    """NFC, signs that look alike made one, runs of space made one space."""
    text = unicodedata.normalize("NFC", text)
    return " ".join(text.replace("−", "-").replace("⁄", "/").split())


def short(text: str, longest: int = 60) -> str:
    """Text for a message: on one line, never longer than `longest`, nothing invisible in it."""
    line = " ".join("".join(c if c.isprintable() else " " for c in text).split())
    return line if len(line) <= longest else line[: longest - 1] + "…"


def plain(number: float) -> str:
    """A number as a person writes it: no exponent, no noise behind the sixth digit."""
    text = f"{float(f'{number:.6g}'):.10f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def either(words: list[str]) -> str:
    """``a, b or c``."""
    return " or ".join(filter(None, [", ".join(words[:-1]), words[-1]])) if words else ""


def parse_quantity(text: str, wanted: Expected) -> Quantity:
    """Read a quantity, a range or one of them with its basis in brackets.

    Raises: UnreadableError, with the code and the spelling to use.
    """
    written = tidy(text)
    if len(written) > LONGEST:
        raise UnreadableError(
            "number-wrong",
            f'"{short(text)}" is too long for {wanted.noun}',
            wanted.sentence,
            "write the number and its unit only; more to say goes under how",
        )
    value, basis = _split_basis(written)
    sides = re.split(r"\s+to\s+", value)
    if len(sides) == 2:
        return _range(value, sides[0], sides[1], basis, wanted)
    number, unit = _side(value, value, wanted)
    if wanted.instead and DIMENSION_OF[unit] == wanted.instead.dimension:
        wanted = wanted.instead
    in_si = _checked(value, number, unit, wanted)
    return Quantity(in_si, in_si, f"{number} {unit}", unit, basis)


def _split_basis(written: str) -> tuple[str, Basis | None]:
    match = _BASIS.fullmatch(written)
    if not match:
        return written, None
    return match["value"], parse_basis(match["basis"])


def parse_basis(text: str) -> Basis:
    """Read measured, datasheet or estimate."""
    word = tidy(text)
    try:
        return Basis(word)
    except ValueError:
        words = [basis.value for basis in Basis]
        alike = word.lower().replace(" ", "")
        near = [choice for choice in words if alike.startswith(choice)] or get_close_matches(alike[:40], words, 1, 0.6)
        mend = f'write "{near[0]}"' if near else f"choose {either(words)}"
        raise UnreadableError(
            "word-unknown", f'"{short(word)}" does not say where the value comes from', either(words), mend
        ) from None


def _range(value: str, first: str, second: str, basis: Basis | None, wanted: Expected) -> Quantity:
    number_2, unit_2 = _side(second, value, wanted)
    number_1, unit_1 = _side(first, value, wanted, given=unit_2)
    low, high = _checked(value, number_1, unit_1, wanted), _checked(value, number_2, unit_2, wanted)
    if low > high:
        raise UnreadableError(
            "number-wrong",
            f'"{short(value)}" runs downwards',
            "the lower end first",
            f'write "{number_2} {unit_2} to {number_1} {unit_1}"',
        )
    if not wanted.ranged and low < high:
        raise UnreadableError(
            "number-wrong",
            f'"{short(value)}" is a range, and one value is wanted here',
            f"{wanted.noun} such as {wanted.example}",
            "write the one value that holds",
        )
    return Quantity(low, high, f"{number_1} {unit_1} to {number_2} {unit_2}", unit_2, basis)


def _side(text: str, whole: str, wanted: Expected, given: str = "") -> tuple[str, str]:
    """Number and unit of one value, as text; `given` is the unit of a range's other end."""
    match = _SIDE.fullmatch(text)
    if not match:
        _refuse(text, whole, wanted)
    number, unit = match["number"], tidy_unit((match["unit"] or "").strip()) or given
    if not unit:
        _refuse_bare(number, whole, wanted)
    if "/" in number and DIMENSION_OF.get(unit, wanted.dimension) != "length":
        raise UnreadableError(
            "number-wrong",
            f'"{short(whole)}" can be read two ways',
            wanted.sentence,
            f'write the number with a point, such as "{wanted.example}"',
        )
    if unit not in DIMENSION_OF:
        _refuse_unit(number, unit, whole, wanted)
    if DIMENSION_OF[unit] not in {wanted.dimension, wanted.instead.dimension if wanted.instead else ""}:
        actual = DIMENSIONS[DIMENSION_OF[unit]].noun
        raise UnreadableError(
            "unit-wrong",
            f'"{short(whole)}" is {actual}, and {wanted.noun} is wanted here',
            wanted.sentence,
            f"give {wanted.noun} in {wanted.units}",
        )
    return number, unit


def _value_of(number: str) -> float:
    """The value of a number's text; inf when it is too large, nan when a fraction has no value."""
    if "/" not in number:
        return float(number)
    whole, _, fraction = number.rpartition(" ")
    top, bottom = fraction.split("/")
    return float(whole or 0) + float(top) / float(bottom) if float(bottom) else math.nan


def _checked(whole: str, number: str, unit: str, wanted: Expected) -> float:
    """The value in SI, when it is finite, has the right sign and is what such a thing can be."""
    value = to_si(_value_of(number), unit)
    shown = short(whole)
    if not math.isfinite(value):
        raise UnreadableError(
            "number-wrong",
            f'"{shown}" is not a number that can be reckoned with',
            wanted.sentence,
            f"write {wanted.noun} from {wanted.ends}",
        )
    if wanted.extra_low and value > 60.0:
        raise UnreadableError(
            "above-extra-low-voltage",
            f"{shown} is above 60 V DC, where extra-low voltage ends",
            "1 V to 60 V DC",
            "describe only what runs on 60 V DC or less; anything above it, the mains too, is work for a licensed "
            "electrician",
        )
    below = value < 0 and wanted.dimension != "temperature"
    if below or (value == 0 and not wanted.zero):
        sort = "below zero" if value < 0 else "zero"
        expected = (
            f"{wanted.noun} from {wanted.ends}"
            if wanted.zero
            else (f"{wanted.noun} above zero, such as {wanted.example}")
        )
        raise UnreadableError("number-wrong", f'"{shown}" is {sort}', expected, _sign_mend(number, unit, wanted))
    if not wanted.low <= value <= wanted.high:
        degree = "less" if value < wanted.low else "more"
        raise UnreadableError(
            "implausible",
            f'"{shown}" is {degree} than such a thing can be',
            wanted.ends,
            "look at the number and its unit again",
        )
    return value


def _sign_mend(number: str, unit: str, wanted: Expected) -> str:
    if number.startswith("-") and float(number) < 0:
        return f'write "{number[1:]} {unit}" if only the direction was meant'
    return f"write the real value, such as {wanted.example}, or leave the key out if it has a default"


def _refuse_bare(number: str, whole: str, wanted: Expected) -> NoReturn:
    if wanted.dimension == "share" and number == whole and "/" not in number and 0 < float(number) < 1:
        mend = f'write "{plain(100 * float(number))} %"'
    else:
        mend = f'write "{short(whole)} {wanted.unit}" if {wanted.unit} is meant'
    raise UnreadableError("unit-missing", f'"{short(whole)}" has no unit', wanted.sentence, mend)


def _refuse_unit(number: str, unit: str, whole: str, wanted: Expected) -> NoReturn:
    meant = meant_unit(unit)
    if meant and DIMENSION_OF[meant] == wanted.dimension:
        if wanted.extra_low:
            _checked(whole, number, meant, wanted)
        mend = f'write "{number} {meant}"'
        if "ac" in unit.lower():
            mend += " if it is DC; alternating current is not dealt with here"
    else:
        mend = f"use {wanted.units}"
    raise UnreadableError("unit-unknown", f'"{short(whole)}" is not {wanted.noun} I can read', wanted.sentence, mend)


def _refuse(text: str, whole: str, wanted: Expected) -> NoReturn:
    """Say why text is no number with a unit, by the ways in which people write them."""
    shown = short(whole)
    unreadable = f'"{shown}" is not {wanted.noun} I can read'
    two_ways = f'"{shown}" can be read two ways'

    def refuse(wrong: str, mend: str) -> NoReturn:
        raise UnreadableError("number-wrong", wrong, wanted.sentence, mend)

    if not text:
        refuse("there is no number" if not whole else unreadable, f'write it like "{wanted.example}"')
    if _NOT_FINITE.fullmatch(text):
        refuse(f'"{shown}" is not a number that can be reckoned with', f"write {wanted.noun} from {wanted.ends}")
    if re.search(r"\d,\d", text):
        refuse(two_ways, _comma_mend(text))
    if dashed := _DASHED.fullmatch(text):
        last = _spelled(dashed[4]) or _spelled(dashed[2]) or wanted.unit
        first = _spelled(dashed[2]) or last
        refuse(two_ways, f'write "{dashed[1]} {first} to {dashed[3]} {last}"')
    if about := _PLUS_MINUS.fullmatch(text):
        last = _spelled(about[4])
        low, high = float(about[1]) - float(about[3]), float(about[1]) + float(about[3])
        refuse(unreadable, f'write it as a range: "{plain(low)} {last} to {plain(high)} {last}"')
    if re.search(r"[*/+]\s*\d", text):
        refuse(unreadable, "work it out and write the result")
    if vague := _VAGUE.fullmatch(text):
        refuse(unreadable, f'write "{short(vague[1])} (estimate)"')
    if bound := _BOUND.fullmatch(text):
        refuse(unreadable, f'write "{short(bound[1])}", the end that counts, without a word or sign before it')
    if spaced := _SPACED.fullmatch(text):
        digits = re.sub(r"[ _']", "", spaced[1])
        refuse(two_ways, f'write "{short(f"{digits} {spaced[2].strip()}".strip())}"')
    if parts := _TWO_PARTS.fullmatch(text):
        refuse(unreadable, _sum_mend(parts, wanted))
    refuse(unreadable, f'write the number first and then its unit, like "{wanted.example}"')


def _spelled(unit: str) -> str:
    """A unit of our list for what was written, or the text itself."""
    unit = tidy_unit(unit.strip())
    return unit if unit in DIMENSION_OF else meant_unit(unit) or unit


def _comma_mend(text: str) -> str:
    """Both readings of ``1,000 mm``, the one of ``1,8 m``."""
    if thousands := re.fullmatch(r"([1-9]\d{0,2}),(\d{3})(?!\d)(.*)", text):
        whole, rest, unit = thousands[1], thousands[2], thousands[3]
        return f'write "{whole}{rest}{unit}" or "{plain(float(f"{whole}.{rest}"))}{unit}", as it is meant'
    return f'write "{short(text.replace(",", "."))}"'


def _sum_mend(parts: re.Match[str], wanted: Expected) -> str:
    """``3 ft 6 in`` is 42 in: one unit."""
    big, small = _spelled(parts[2]), _spelled(parts[4])
    if big == small or DIMENSION_OF.get(big) != wanted.dimension or DIMENSION_OF.get(small) != wanted.dimension:
        return f'write one number and one unit, like "{wanted.example}"'
    total = from_si(to_si(float(parts[1]), big) + to_si(float(parts[3]), small), small)
    return f'write it in one unit: "{plain(total)} {small}"'


def parse_number(text: str, example: str, low: float, high: float) -> float:
    """Read a number without a unit; whole when the example is whole.

    Raises: UnreadableError.
    """
    written, whole = tidy(text), "." not in example
    sort = "a whole number" if whole else "a number"
    expected = f"{sort} from {plain(low)} to {plain(high)}, such as {example}"
    shown = short(text)
    match = re.fullmatch(r"[+-]?\d+" if whole else _NUMBER, written)
    if not match:
        return _refuse_number(written, whole, expected)
    value = float(written)
    if not math.isfinite(value):
        raise UnreadableError(
            "number-wrong",
            f'"{shown}" is not a number that can be reckoned with',
            expected,
            f'write it like "{example}"',
        )
    if value <= 0:
        raise UnreadableError(
            "number-wrong", f'"{shown}" is {"zero" if value == 0 else "below zero"}', expected, "write the real number"
        )
    if not low <= value <= high:
        raise UnreadableError(
            "implausible", f'"{shown}" is not what such a number can be', expected, "look at the number again"
        )
    return value


def _refuse_number(written: str, whole: bool, expected: str) -> NoReturn:
    shown = short(written)
    wrong = f'"{shown}" is not {"a whole number" if whole else "a number"} I can read'
    if re.fullmatch(r"[+-]?\d+,\d+", written) and not whole:
        raise UnreadableError("number-wrong", f'"{shown}" can be read two ways', expected, _comma_mend(written))
    if whole and re.fullmatch(r"[+-]?[\d.,eE+-]+", written):
        raise UnreadableError("number-wrong", wrong, expected, "write digits only, with no point, comma or exponent")
    if leading := re.fullmatch(rf"({_NUMBER})\s*([^\d\s].*)", written):
        mend = f'write "{short(leading[1])}" without anything behind it'
        raise UnreadableError("number-wrong", wrong, expected, mend)
    raise UnreadableError("number-wrong", wrong, expected, "write the digits only")


SIZE_EXPECTED = "a number and mm2 or AWG, such as 1.5 mm2 or 16 AWG"


def parse_wire_size(text: str) -> WireSize:
    """Read a conductor size; whether a table has it is asked elsewhere.

    Raises: UnreadableError.
    """
    written = tidy(text).replace("mm²", "mm2")
    shown = short(text)
    if match := _SIZE.fullmatch(written):
        number = plain(float(match[1])) if len(match[1]) < 12 else match[1]
        return WireSize(match[2], number)
    if re.fullmatch(_NUMBER, written):
        also = "" if "." in written else f' or "{short(written)} AWG"'
        mend = f'write "{short(written)} mm2"{also}'
        raise UnreadableError("unit-missing", f'"{shown}" has no unit', SIZE_EXPECTED, mend)
    if re.search(r"\d,\d", written):
        raise UnreadableError("number-wrong", f'"{shown}" can be read two ways', SIZE_EXPECTED, _comma_mend(written))
    if gauge := re.fullmatch(r"(?:#\s*|awg\s*)?(\d{1,2})\s*(?:awg|ga\.?|gauge)?", written, re.I):
        raise UnreadableError(
            "unit-unknown", f'"{shown}" is not a wire size I can read', SIZE_EXPECTED, f'write "{gauge[1]} AWG"'
        )
    if leading := re.fullmatch(rf"({_NUMBER})\s*(\S.*)", written):
        number, unit = leading[1], tidy_unit(leading[2])
        if unit in DIMENSION_OF and unit != "mm2":
            raise UnreadableError(
                "unit-wrong",
                f'"{shown}" is {DIMENSIONS[DIMENSION_OF[unit]].noun}, and the cross-section of a wire is wanted here',
                SIZE_EXPECTED,
                "read the size printed on the wire; a diameter is not it",
            )
        mend = "read the size printed on the wire or its reel"
        if meant_unit(unit) == "mm2" and unit != "mm2":
            mend = f'write "{number} mm2"'
        code = "unit-unknown" if not number.startswith("-") else "number-wrong"
        raise UnreadableError(code, f'"{shown}" is not a wire size I can read', SIZE_EXPECTED, mend)
    raise UnreadableError(
        "number-wrong",
        f'"{shown}" is not a wire size I can read',
        SIZE_EXPECTED,
        "read the size printed on the wire or its reel",
    )
