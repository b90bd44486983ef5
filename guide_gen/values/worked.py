"""Worked values: a result with its formula, its numbers and its source, so that a reader can trace it."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from enum import StrEnum
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
    """What a formula is besides its code: symbol, unit of the result, text, letters and source."""

    symbol: str
    unit: str
    text: str
    letters: Mapping[str, str]
    units: Mapping[str, str]
    source: str


def worked(
    symbol: str, unit: str, formula: str, letters: Mapping[str, tuple[str, str]], source: str
) -> Callable[[F], F]:
    """Attach a formula's text to the function that computes it.

    letters: letter in the text -> (argument's name, unit). A house test evaluates the text against the function.
    """

    def attach(function: F) -> F:
        function.formula = Formula(  # type: ignore[attr-defined]
            symbol,
            unit,
            formula,
            {letter: argument for letter, (argument, _) in letters.items()},
            {letter: unit_of for letter, (_, unit_of) in letters.items()},
            source,
        )
        return function

    return attach


def work(
    function: Callable[..., float],
    id: str,
    name: str,
    *,
    sentence: str = "",
    bases: Mapping[str, Basis] | None = None,
    **arguments: float,
) -> Worked:
    """Call a `worked` function and keep how it was done."""
    data: Formula = function.formula  # type: ignore[attr-defined]
    numbers = {letter: arguments[argument] for letter, argument in data.letters.items()}
    return Worked(
        id,
        name,
        Shape.FORMULA,
        data.symbol,
        function(**arguments),
        data.unit,
        data.text,
        data.source,
        sentence,
        numbers,
        data.units,
        dict(bases or {}),
    )


def default(id: str, name: str, text: str, source: str) -> Worked:
    """A value that was left out, and what was taken for it."""
    return Worked(id, name, Shape.DEFAULT, "", text, "", "default", source)


def formulas_of(module: Any) -> dict[str, Callable[..., float]]:
    """All `worked` functions of a module, by name."""
    return {name: thing for name, thing in vars(module).items() if hasattr(thing, "formula")}
