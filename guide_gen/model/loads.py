"""The load of a toy from what every toy says of itself."""

from dataclasses import replace
from typing import Any

from guide_gen.model.fields import ToyFields
from guide_gen.model.plan import Load
from guide_gen.values.quantity import Basis


def load_of(toy: ToyFields, *, kickback: bool, **known: Any) -> Load:
    """Current and voltage as written; `known`: what the kind knows besides, by the names of `Load`."""
    current = toy.current
    return Load(
        current.high, current.low, toy.voltage.middle, current.basis or Basis.ESTIMATE, current, kickback, **known
    )


def at_highest(load: Load, highest_V: float) -> Load:
    """The same load at the highest voltage of its supply, where its pulses are judged: their heat goes with the square.

    A cold filament is a resistance, so its inrush goes with the voltage; what a load draws in use stays as written.
    """
    if load.pulse_A2s is None:
        return load
    ratio = over_rated(load.voltage_V, highest_V)
    start = load.start_A if load.momentary or load.start_A is None else ratio * load.start_A
    return replace(load, start_A=start, pulse_A2s=ratio**2 * load.pulse_A2s)


def over_rated(rated_V: float, highest_V: float) -> float:
    """How many times a toy's own voltage its supply may give; never below one, since toys are judged at their own."""
    return max(1.0, highest_V / rated_V)
