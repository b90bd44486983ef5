"""A turning machine with an eccentric weight, as ranges: what decides at which setting it moves, starts and sways."""

from dataclasses import dataclass

from guide_gen.formulas.spread import Spread
from guide_gen.values.quantity import Basis, Quantity

# How far a single value may be off, by its basis; this project, estimates.
OFF = {Basis.MEASURED: 0.05, Basis.DATASHEET: 0.10, Basis.ESTIMATE: 0.25}


def spread_of(value: Quantity, off: float | None = None) -> Spread:
    """A written range as it stands; a single value give or take what its basis, or `off`, allows."""
    if value.is_range:
        return Spread.between(value.low, value.high)
    return Spread.about(value.low, OFF[value.basis or Basis.ESTIMATE] if off is None else off)


@dataclass(frozen=True)
class Machine:
    """Motor and weight, in SI. emf_V_s: back emf constant, also torque for each ampere. guessed: taken from defaults.

    drag_N_m_s2: loss torque over the square of the speed. inertia_kg_m2: weight and rotor about the shaft.
    """

    resistance_ohm: Spread
    inductance_H: Spread
    emf_V_s: Spread
    friction_N_m: Spread
    drag_N_m_s2: Spread
    unbalance_kg_m: Spread
    inertia_kg_m2: Spread
    guessed: tuple[str, ...]

    @property
    def known(self) -> bool:
        """Whether anything of it was given at all."""
        return len(self.guessed) < len(ALL_OF_IT)


ALL_OF_IT = ("resistance", "inductance", "speed", "unbalance", "inertia")
