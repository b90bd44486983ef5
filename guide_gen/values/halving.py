"""The last value for which something still holds, between two ends."""

from collections.abc import Callable


def last(holds: Callable[[float], bool], good: float, bad: float, halvings: int = 60) -> float:
    """The value next to the bad end for which it still holds, by halving; it holds at the good end."""
    for _ in range(halvings):
        middle = (good + bad) / 2
        good, bad = (middle, bad) if holds(middle) else (good, middle)
    return good
