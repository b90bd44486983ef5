"""A turning machine with an eccentric weight, as ranges: what decides at which setting it moves, starts and sways."""

from dataclasses import dataclass

from guide_gen.formulas.spread import Spread
from guide_gen.formulas.weight import swing_inertia_kg_m2
from guide_gen.values.quantity import Basis, Quantity

# How far a single value may be off, by its basis; this project, estimates.
OFF = {Basis.MEASURED: 0.05, Basis.DATASHEET: 0.10, Basis.ESTIMATE: 0.25}


def spread_of(value: Quantity, off: float | None = None) -> Spread:
    """A written range as it stands; a single value give or take what its basis, or `off`, allows."""
    if value.is_range:
        return Spread.between(value.low, value.high)
    return Spread.about(value.low, OFF[value.basis or Basis.ESTIMATE] if off is None else off)


def share_of(part: Quantity, whole: Quantity) -> Spread:
    """Which share of a value another is, never more than all of it."""
    one, all_of_it = spread_of(part), spread_of(whole)
    low, nominal, high = one.low / all_of_it.high, one.nominal / all_of_it.nominal, one.high / all_of_it.low
    return Spread(min(low, 1.0), min(nominal, 1.0), min(high, 1.0))


@dataclass(frozen=True)
class Machine:
    """Motor and weight, in SI. emf_V_s: back emf constant, also torque for each ampere. guessed: taken from defaults.

    running_V, running_A, running_rad_s: its running point, weight fitted; running_rad_s None: then emf_V_s is a guess.
    friction_share: of the torque at that point, where friction_N_m was not measured. swing_s: period of the hanging
    weight's own small swing, which with the unbalance tells the inertia about the shaft. contradicts: what is written
    of the motor cannot be; then the rest stands for nothing.
    scale_swapped: the scale test of the weight reads the wrong way round; then nothing stands in its place.
    """

    resistance_ohm: Spread
    inductance_H: Spread
    emf_V_s: Spread
    friction_N_m: Spread
    running_V: float
    running_A: Spread
    running_rad_s: Spread | None
    friction_share: Spread | None
    unbalance_kg_m: Spread
    swing_s: Spread
    guessed: tuple[str, ...]
    contradicts: bool = False
    scale_swapped: bool = False

    @property
    def inertia_kg_m2(self) -> Spread:
        """Of weight and rotor about the shaft."""
        return Spread(
            *(
                swing_inertia_kg_m2(unbalance_kg_m=pull, period_s=period)
                for pull, period in zip(self.unbalance_kg_m, self.swing_s, strict=True)
            )
        )

    @property
    def known(self) -> bool:
        """Whether anything of it was given at all, and can be."""
        return not self.contradicts and not self.scale_swapped and len(self.guessed) < len(ALL_OF_IT)


ALL_OF_IT = ("resistance", "inductance", "speed", "unbalance", "inertia")


@dataclass(frozen=True)
class MeasuredMotor:
    """A motor by its running point at voltage_V, loaded as in use, as written. speed: of its own shaft; None: unknown.

    friction_share: of its torque there what is the same at every speed. reserve: torque over that, for a sure start.
    free: current at that voltage with nothing on its output; None: not known.
    """

    voltage_V: float
    current: Quantity
    resistance: Quantity
    speed: Quantity | None
    friction_share: Spread
    reserve: float = 1.0
    free: Quantity | None = None

    @property
    def free_share(self) -> Spread | None:
        """Of its current what it draws with nothing on its output; None: not known."""
        return share_of(self.free, self.current) if self.free else None

    @property
    def inductance_H(self) -> Spread:
        """Not measured by many: what is usual for its winding."""
        ohms = spread_of(self.resistance)
        return Spread(*(ohm * usual for ohm, usual in zip(ohms, USUAL_TIME_CONSTANT_S, strict=True)))


@dataclass(frozen=True)
class Gear:
    """What stands between motor and arm. ratio, arm_m: None where they are not known."""

    ratio: float | None
    efficiency: Spread
    arm_m: Spread | None


@dataclass(frozen=True)
class Turner:
    """What a motor turns: an arm behind a gearbox, or a fan. motor: None where nothing of it is known.

    electronics: the fan has its own, so that PWM must not chop its supply. wanted: the one measurement that would help
    most, with what to measure it, or "".
    """

    motor: MeasuredMotor | None
    gear: Gear | None
    electronics: bool = False
    wanted: str = ""


USUAL_TIME_CONSTANT_S = Spread.usual("winding time constant")
