"""The load of a toy from what every toy says of itself."""

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
