"""Choosing from a list, keeping why each candidate was passed over."""

from collections.abc import Callable, Iterable
from typing import TypeVar

from guide_gen.formulas.validity import above_zero
from guide_gen.values.worked import Candidate

T = TypeVar("T")

_TOLERANCE = 1e-9
"""Relative: 7.5 A is enough for a need of 7.500000001 A that only binary fractions have made."""

_SHOWN_BELOW = 2
"""Of a long series only the last ones that are too small are worth showing."""


def reaches(value: float, needed: float) -> bool:
    """Whether a value is at or above what is needed, rounding of the sum forgiven."""
    return value >= needed * (1 - _TOLERANCE)


def first_that_fits(
    options: Iterable[T], rejected: Callable[[T], str], shown: Callable[[T], str]
) -> tuple[T | None, tuple[Candidate, ...]]:
    """The first option that nothing speaks against, and all that were looked at up to it.

    rejected: why an option is passed over, "" when it fits. None is taken when none fits.
    """
    looked_at = []
    for option in options:
        why = rejected(option)
        looked_at.append(Candidate(shown(option), why))
        if not why:
            return option, tuple(looked_at)
    return None, tuple(looked_at)


def smallest_at_or_above(
    series: Iterable[float], needed: float, unit: str
) -> tuple[float | None, tuple[Candidate, ...]]:
    """The smallest of a series at or above a value, and its neighbours with why each was passed over.

    None is taken when the whole series is too small. Raises OutsideValidity when needed is not above 0.
    """
    above_zero(needed=needed)

    def too_small(value: float) -> str:
        return "" if reaches(value, needed) else f"below the {needed:g} {unit} needed"

    def shown(value: float) -> str:
        return f"{value:g} {unit}"

    rising = sorted(series)
    found = first_that_fits(rising, too_small, shown)
    taken, looked_at = found
    candidates = looked_at[-_SHOWN_BELOW - 1 :] if taken is not None else looked_at[-_SHOWN_BELOW:]
    larger = [value for value in rising if taken is not None and value > taken]
    if larger:
        candidates += (Candidate(shown(larger[0]), "larger than it need be"),)
    return taken, candidates
