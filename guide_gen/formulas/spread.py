"""A value that is known as a range, and the likeliest within it."""

from math import pi, sqrt
from typing import NamedTuple, Self

from guide_gen.published.vibration import motion_value

Pair = tuple[float, float]
TURN = 2 * pi


class Spread(NamedTuple):
    """A value that is known from low to high; nominal is the likeliest."""

    low: float
    nominal: float
    high: float

    @classmethod
    def exactly(cls, value: float) -> Self:
        """A value without doubt."""
        return cls(value, value, value)

    @classmethod
    def between(cls, low: float, high: float) -> Self:
        """Two ends; likeliest is their geometric mean, or the middle when one end is zero."""
        return cls(low, sqrt(low * high) if low > 0 else (low + high) / 2, high)

    @classmethod
    def about(cls, value: float, give: float) -> Self:
        """A value give or take a share of it."""
        return cls(value * (1 - give), value, value * (1 + give))

    @classmethod
    def usual(cls, name: str) -> Self:
        """What is taken when nothing is known; the name is one of published/motion.csv."""
        rule = motion_value(name)
        return cls(rule.value if rule.low is None else rule.low, rule.value, rule.high or rule.value)

    def within(self, low: float, high: float) -> "Spread":
        """Cut down to a range that it overlaps."""
        return Spread(max(self.low, low), min(max(self.nominal, low), high), min(self.high, high))
