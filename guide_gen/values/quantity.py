"""A quantity as a person wrote it, and as the formulas take it."""

from dataclasses import dataclass
from enum import StrEnum


class Basis(StrEnum):
    """Where an input value comes from, from the best known to the least."""

    MEASURED = "measured"
    DATASHEET = "datasheet"
    ESTIMATE = "estimate"


@dataclass(frozen=True)
class Quantity:
    """A value or a range of values with its unit.

    low, high: the ends in SI (temperatures in °C, angles of turning in rad/s, percent as a fraction of one);
        equal when a single value was written.
    text: as written, tidied, without the basis: ``5 A to 6 A``.
    unit: the unit as written: ``A``; formatting for the page begins from it.
    basis: None when none was given.
    """

    low: float
    high: float
    text: str
    unit: str
    basis: Basis | None = None
    how: str = ""
    by: str = ""
    date: str = ""

    @property
    def is_range(self) -> bool:
        """Whether two ends were written."""
        return self.low != self.high

    @property
    def middle(self) -> float:
        """The middle of the range, for values that have no safe end."""
        return (self.low + self.high) / 2


@dataclass(frozen=True)
class WireSize:
    """A standard conductor size: ``1.5 mm2`` or ``16 AWG``.

    system: ``mm2`` or ``AWG``. number: as it stands in the tables, text: ``1.5``, ``16``.
    """

    system: str
    number: str

    @property
    def text(self) -> str:
        """As it is written in a description."""
        return f"{self.number} {self.system}"

    @property
    def shown(self) -> str:
        """As it is shown on a page."""
        return f"{self.number} mm²" if self.system == "mm2" else f"{self.number} AWG"
