"""Worked values: a result with its formula, its numbers and its source, so that a reader can trace it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from math import isinf
from typing import Any, TypeVar

from guide_gen.values.quantity import Basis

F = TypeVar("F", bound=Callable[..., float])


class Shape(StrEnum):
    """How a result came about."""

    FORMULA = "formula"
    TABLE = "table"
    CHOICE = "choice"
    DEFAULT = "default"


@dataclass(frozen=True)
class Candidate:
    """Something that could have been chosen, and the rule that passed it over ("" for the one taken)."""

    value: str
    rejected: str


@dataclass(frozen=True)
class Worked:
    """One result as it was worked out.

    id: stable within a toy. name, sentence: for the reader. result: number or words in `unit`.
    formula: a Python expression of the letters in `numbers`; row and column in a table; the rule in a choice.
    numbers: letter -> number; units: letter -> unit; bases: letter -> basis, where it has one.
    """

    id: str
    name: str
    shape: Shape
    symbol: str
    result: float | str
    unit: str
    formula: str
    source: str
    sentence: str = ""
    numbers: Mapping[str, float] = field(default_factory=dict)
    units: Mapping[str, str] = field(default_factory=dict)
    bases: Mapping[str, Basis] = field(default_factory=dict)
    table: str = ""
    row: str = ""
    column: str = ""
    candidates: tuple[Candidate, ...] = ()


@dataclass(frozen=True)
class Formula:
    """What a formula is besides its code: symbol, unit of the result, text, letters and source.

    never: where the text has no value, as a condition of the same letters; the result is infinite there.
    never_means: that in words, ``never`` or ``without end``.
    """

    symbol: str
    unit: str
    text: str
    letters: Mapping[str, str]
    units: Mapping[str, str]
    source: str
    never: str = ""
    never_means: str = ""


@dataclass(frozen=True)
class Procedure:
    """A result that no single expression gives: what is done, in words. Else as `Formula`."""

    symbol: str
    unit: str
    method: str
    letters: Mapping[str, str]
    units: Mapping[str, str]
    source: str
    never_means: str = "never"


Letters = Mapping[str, tuple[str, str]]
"""Letter in the text -> (argument's name, its unit)."""


def worked(
    symbol: str,
    unit: str,
    formula: str,
    letters: Letters,
    source: str,
    never: str = "",
    never_means: str = "never",
) -> Callable[[F], F]:
    """Attach a formula's text to the function that computes it.

    A house test evaluates the text against the function, and `never` where the function gives infinity.
    """

    def attach(function: F) -> F:
        function.formula = Formula(  # type: ignore[attr-defined]
            symbol, unit, formula, *_split(letters), source, never, never_means if never else ""
        )
        return function

    return attach


def procedure(
    symbol: str, unit: str, method: str, letters: Letters, source: str, never_means: str = "never"
) -> Callable[[F], F]:
    """Attach a method in words to a function that steps, searches or interpolates."""

    def attach(function: F) -> F:
        function.procedure = Procedure(  # type: ignore[attr-defined]
            symbol, unit, method, *_split(letters), source, never_means
        )
        return function

    return attach


def _split(letters: Letters) -> tuple[Mapping[str, str], Mapping[str, str]]:
    """Letter -> argument, and letter -> unit."""
    return (
        {letter: argument for letter, (argument, _) in letters.items()},
        {letter: unit for letter, (_, unit) in letters.items()},
    )


def work(
    function: Callable[..., float],
    id: str,
    name: str,
    *,
    sentence: str = "",
    bases: Mapping[str, Basis] | None = None,
    **arguments: float,
) -> Worked:
    """Call a `worked` function or a `procedure` and keep how it was done.

    A procedure, and a formula without a value, is kept as a rule in words: only a formula can be evaluated.
    """
    data: Formula | Procedure = getattr(function, "formula", None) or function.procedure  # type: ignore[attr-defined]
    result = function(**arguments)
    shape = Shape.FORMULA
    text = data.text if isinstance(data, Formula) else data.method
    if isinstance(data, Procedure):
        shape = Shape.CHOICE
    elif isinf(result):
        shape, text = Shape.CHOICE, f"{data.never_means} where {data.never}"
    return Worked(
        id,
        name,
        shape,
        data.symbol,
        data.never_means if isinf(result) else result,
        "" if isinf(result) else data.unit,
        text,
        data.source,
        sentence,
        {letter: arguments[argument] for letter, argument in data.letters.items()},
        data.units,
        dict(bases or {}),
    )


def default(id: str, name: str, text: str, source: str) -> Worked:
    """A value that was left out, and what was taken for it."""
    return Worked(id, name, Shape.DEFAULT, "", text, "", "default", source)


def formulas_of(module: Any) -> dict[str, Callable[..., float]]:
    """All `worked` functions of a module, by name."""
    return {name: thing for name, thing in vars(module).items() if hasattr(thing, "formula")}


def procedures_of(module: Any) -> dict[str, Callable[..., float]]:
    """All functions of a module with a `procedure`, by name."""
    return {name: thing for name, thing in vars(module).items() if hasattr(thing, "procedure")}
