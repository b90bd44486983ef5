"""What a formula refuses: an input that cannot be, named with its value and its range."""

from math import isfinite


class OutsideValidity(ValueError):  # noqa: N818 - the name says what is wrong
    """An input for which a formula has no meaning; argument, value and allowed say which and why."""

    def __init__(self, argument: str, value: float, allowed: str) -> None:
        super().__init__(f"{argument} is {value:g}, it must be {allowed}")
        self.argument = argument
        self.value = value
        self.allowed = allowed


def above_zero(**arguments: float) -> None:
    """Refuse each argument that is zero, negative or not finite."""
    for argument, value in arguments.items():
        if not (isfinite(value) and value > 0):
            raise OutsideValidity(argument, value, "above 0")


def at_least(low: float, **arguments: float) -> None:
    """Refuse each argument that is below low or not finite."""
    for argument, value in arguments.items():
        if not (isfinite(value) and value >= low):
            raise OutsideValidity(argument, value, f"{low:g} or more")


def not_negative(**arguments: float) -> None:
    """Refuse each argument that is negative or not finite."""
    at_least(0, **arguments)


def within(low: float, high: float, **arguments: float) -> None:
    """Refuse each argument that is not finite or not from low to high, both included."""
    for argument, value in arguments.items():
        if not (isfinite(value) and low <= value <= high):
            raise OutsideValidity(argument, value, f"from {low:g} to {high:g}")


def share(**arguments: float) -> None:
    """Refuse each argument that is not a share: above 0, at most 1."""
    for argument, value in arguments.items():
        if not 0 < value <= 1:
            raise OutsideValidity(argument, value, "above 0 and at most 1")


def temperature(**arguments: float) -> None:
    """Refuse each temperature in °C below absolute zero or not finite."""
    at_least(-273.15, **arguments)
