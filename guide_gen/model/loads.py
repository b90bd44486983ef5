"""The load of a toy from what every toy says of itself."""

from dataclasses import replace
from typing import Any

from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import ToyFields
from guide_gen.model.plan import Load, Sized
from guide_gen.values import show
from guide_gen.values.quantity import Basis


def load_of(toy: ToyFields, *, kickback: bool, design_A: float | None = None, **known: Any) -> Load:
    """Current and voltage as written; `known`: what the kind knows besides, by the names of `Load`.

    design_A: what it is sized for, where that is not the current as written.
    """
    current = toy.current
    return Load(
        design_A or current.high,
        current.low,
        toy.voltage.middle,
        current.basis or Basis.ESTIMATE,
        current,
        kickback,
        **known,
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


def asked_words(asked_A: float, supply_id: str, sure_A: float, may_A: float | None = None) -> str:
    """What a motor asks for while it stands, and what bounds it: ``24 A``, ``36 A, of which T1 gives 11 to 15 A``.

    sure_A: what the supply is sure to give; may_A: what it may give, None: no more.
    """
    if reaches(sure_A, asked_A):
        return show.amps(asked_A)
    most = min(asked_A, max(sure_A, may_A or 0.0))
    return f"{show.amps(asked_A)}, of which {supply_id} gives {show.span(sure_A, most, 'A')}"


def held_words(sized: Sized) -> str:
    """What it draws held fast, and what bounds that; "" where it is not known."""
    if sized.load.start_A is None:
        return ""
    sure_A = sized.supply_limit_A if sized.supply_sure_A is None else sized.supply_sure_A
    return asked_words(sized.load.start_A, sized.supply_id, sure_A, sized.supply_limit_A)
