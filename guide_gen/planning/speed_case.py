"""A gear motor or a blower on its way to its plan, and the motor that stands for it."""

from collections.abc import Callable
from dataclasses import dataclass
from math import isfinite

from guide_gen.formulas import pwm
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.turned import Turned
from guide_gen.model.fields import ToyFields
from guide_gen.model.machine import MeasuredMotor, Turner, spread_of
from guide_gen.model.plan import Protection, Sized
from guide_gen.planning.drive_path import AT_THE_MOTOR, diode_drop
from guide_gen.values.halving import last
from guide_gen.values.quantity import Quantity

HALVINGS = 40


@dataclass(frozen=True)
class Case:
    """One toy on its way to its plan. pwm_Hz: infinity for a smooth voltage. settable: there is something to set."""

    turner: Turner
    toy: ToyFields
    sized: Sized
    path_ohm: Spread
    guarded: Protection
    settable: bool
    pwm_Hz: float

    @property
    def turns(self) -> str:
        """What turns, in one word."""
        if self.turner.gear is None:
            return "fan"
        return "output" if self.turner.gear.ratio else "motor"

    @property
    def ratio(self) -> float:
        """Turns of the motor for one of what turns."""
        return self.turner.gear.ratio or 1.0 if self.turner.gear else 1.0

    @property
    def supply_V(self) -> Spread:
        """What the supply may give."""
        return Spread(self.sized.supply_low_V, self.sized.supply_V, self.sized.supply_high_V)


def turned_of(case: Case, measured: MeasuredMotor, *, written: bool = False) -> Turned:
    """The motor with its drive. written: the values as they stand."""
    assert measured.speed is not None
    ends: Callable[[Quantity], Spread] = as_written if written else spread_of
    low, nominal, high = case.path_ohm
    return Turned(
        voltage_V=measured.voltage_V,
        current_A=ends(measured.current),
        resistance_ohm=ends(measured.resistance),
        speed_rad_s=ends(measured.speed),
        friction_share=measured.friction_share,
        inductance_H=measured.inductance_H,
        supply_V=case.supply_V,
        path_on_ohm=Spread(low, nominal, high),
        path_off_ohm=AT_THE_MOTOR,
        diode_V=diode_drop(case.sized.suppression, case.toy.suppressor),
        pwm_Hz=case.pwm_Hz,
        reserve=measured.reserve,
    )


def as_written(value: Quantity) -> Spread:
    """A range or a value as it stands, nothing taken for its basis."""
    return Spread.between(value.low, value.high)


def never_below(case: Case, written: Turned) -> float | None:
    """The setting up to which the fuse never opens though it is held fast; None where that is not worked out."""
    never_A = case.guarded.never_A
    if never_A is None or not case.guarded.fuse_id or not isfinite(case.pwm_Hz):
        return None

    def opens(duty: float) -> bool:
        ohm = written.resistance_ohm.low
        on_ohm = ohm + written.path_on_ohm.low
        state = pwm.steady_state(
            written.supply_V.high,
            0.0,
            duty,
            case.pwm_Hz,
            on_ohm,
            ohm,
            written.inductance_H.low,
            written.diode_V.low,
        )
        return state.switch_rms_A > never_A

    return last(lambda setting: not opens(setting), 0.0, 1.0, HALVINGS) if opens(1.0) else 1.0
