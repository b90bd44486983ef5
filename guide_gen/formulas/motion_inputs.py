"""What decides the motion of a shaker, as ranges, and the corners of those ranges.

A result that moves one way with each input is worked out at the two corners of all ranges: what that promises holds
for every machine in them.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from enum import StrEnum
from itertools import accumulate, product
from math import inf

import numpy as np

from guide_gen.formulas.drive import Floats, Shakers
from guide_gen.formulas.spread import TURN, Spread
from guide_gen.formulas.swing import GRAVITY_M_S2
from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, share, within

_NONE = Spread(0.0, 0.0, 0.0)


class Drive(StrEnum):
    """What the setting is a share of: on-time of PWM, or a smooth voltage as a trimmer-set controller gives."""

    PWM = "pwm"
    VOLTAGE = "voltage"


@dataclass(frozen=True)
class Found:
    """What was measured on the machine; each may be absent.

    start: the setting at which it began to turn, when raised by start_step at a time. turning_Hz: at the setting
    turning_at. current_A: on a DC meter in the supply lead, running at the setting current_at. as_left: the setting in
    use.
    """

    start: float | None = None
    start_step: float = 0.02
    as_left: float | None = None
    turning_Hz: float | None = None
    turning_at: float = 1.0
    current_A: float | None = None
    current_at: float = 1.0
    natural_Hz: float | None = None
    damping: float | None = None


@dataclass(frozen=True)
class MotionInputs:
    """All that decides the motion, in SI. Paths are without the winding; the off path is the loop of the diode.

    emf_V_s: back emf constant. drag_N_m_s2: loss torque over the square of the speed. mass_kg: what moves sideways.
    running_V, running_A, running_rad_s: a point at which it was measured, weight fitted, voltage at its terminals. Each
    machine in the ranges then follows from its own point: back emf constant (unless emf_V_s is given), friction (as
    friction_share of the torque there, unless friction_N_m is given), and drag as what is left of that torque.
    inertia_kg_m2: of weight and rotor; or swing_s, the period of the hanging weight's own small swing, from which each
    machine's inertia follows with its unbalance: the two are never one at its low and the other at its high end.
    port_steps: settings of the port above zero. sway_Hz, felt_m_s2: where sway ends and where motion is felt.
    """

    supply_V: Spread
    resistance_ohm: Spread
    path_on_ohm: Spread
    path_off_ohm: Spread
    inductance_H: Spread
    diode_V: Spread
    unbalance_kg_m: Spread
    mass_kg: Spread
    natural_Hz: Spread
    damping: Spread
    pwm_Hz: Spread | None
    inertia_kg_m2: Spread | None = None
    swing_s: Spread | None = None
    emf_V_s: Spread | None = None
    friction_N_m: Spread | None = None
    drag_N_m_s2: Spread | None = None
    running_V: float | None = None
    running_A: Spread | None = None
    running_rad_s: Spread | None = None
    friction_share: Spread | None = None
    brush_V: Spread = _NONE
    drive: Drive = Drive.PWM
    port_steps: int | None = None
    limit_class: str = "3M2"
    sway_Hz: float = 8.0
    felt_m_s2: float = 0.03
    found: Found = Found()


# Which way the start setting goes with each input (+1: rises with it).
START_WAYS = {
    "supply_V": -1, "resistance_ohm": 1, "path_on_ohm": 1, "path_off_ohm": 1, "inductance_H": 1, "diode_V": 1,
    "emf_V_s": -1, "friction_N_m": 1, "drag_N_m_s2": 1, "unbalance_kg_m": 1, "inertia_kg_m2": -1, "swing_s": -1,
    "pwm_Hz": 1, "brush_V": 1, "running_A": 1, "running_rad_s": 1, "friction_share": 1,
}  # fmt: skip
# Which way the smooth speed goes. Back emf is left out: both its ends are tried, and with a running point both ends
# of its current, of the winding and of the friction: see `speed_ends`. A heavy, well damped cabinet and a small weight
# take the least torque away at resonance.
SPEED_WAYS = {
    "supply_V": 1, "resistance_ohm": -1, "path_on_ohm": -1, "path_off_ohm": -1, "inductance_H": -1, "diode_V": -1,
    "friction_N_m": -1, "drag_N_m_s2": -1, "unbalance_kg_m": -1, "pwm_Hz": -1, "brush_V": -1, "mass_kg": 1,
    "damping": 1, "running_rad_s": 1,
}  # fmt: skip
# Which way the running current at the full setting goes.
CURRENT_WAYS = {
    "supply_V": 1, "resistance_ohm": -1, "path_on_ohm": -1, "emf_V_s": -1, "friction_N_m": 1, "drag_N_m_s2": 1,
    "unbalance_kg_m": 1, "brush_V": -1, "mass_kg": -1, "damping": -1,
}  # fmt: skip
_MOST_LOST = 0.95  # of a running point's voltage in the winding: a case beyond it could not turn as it was seen to
_MAY_BE_ZERO = {"path_on_ohm", "path_off_ohm", "brush_V", "drag_N_m_s2", "friction_N_m", "friction_share"}
Values = dict[str, float | Floats]


def spreads_of(inputs: MotionInputs) -> dict[str, Spread]:
    """All ranges of the inputs, by name."""
    found = {field.name: getattr(inputs, field.name) for field in fields(inputs)}
    return {name: value for name, value in found.items() if isinstance(value, Spread)}


def refuse(inputs: MotionInputs) -> None:
    """Refuse what cannot be, by name. Raises OutsideValidity."""
    for name, spread in spreads_of(inputs).items():
        for value in spread:
            (not_negative if name in _MAY_BE_ZERO else above_zero)(**{name: value})
        if not spread.low <= spread.nominal <= spread.high:
            raise OutsideValidity(name, spread.nominal, f"from {spread.low:g} to {spread.high:g}")
    within(1e-4, 0.99, damping=inputs.damping.low)
    within(1e-4, 0.99, damping=inputs.damping.high)
    if inputs.drive is Drive.PWM and inputs.pwm_Hz is None:
        raise OutsideValidity("pwm_Hz", 0.0, "given for a PWM drive")
    if inputs.inertia_kg_m2 is None and inputs.swing_s is None:
        raise OutsideValidity("inertia_kg_m2", 0.0, "given where swing_s is not")
    _refuse_motor(inputs)
    if inputs.brush_V.high >= inputs.supply_V.low:
        raise OutsideValidity("brush_V", inputs.brush_V.high, f"below supply_V, {inputs.supply_V.low:g}")
    if inputs.port_steps is not None:
        within(1, 1e6, port_steps=inputs.port_steps)
    found = inputs.found
    for name in ("start", "start_step", "as_left", "turning_at", "current_at"):
        value = getattr(found, name)
        if value is not None:
            share(**{name: value})
    for name in ("turning_Hz", "current_A", "natural_Hz", "damping"):
        value = getattr(found, name)
        if value is not None:
            above_zero(**{name: value})


def _refuse_motor(inputs: MotionInputs) -> None:
    """Refuse a motor that is not known well enough, or that could not run as it was seen to. Raises OutsideValidity."""
    if inputs.running_V is None or inputs.running_A is None:
        for name in ("emf_V_s", "friction_N_m", "drag_N_m_s2"):
            if getattr(inputs, name) is None:
                raise OutsideValidity(name, 0.0, "given where no running point is")
        return
    above_zero(running_V=inputs.running_V)
    if inputs.emf_V_s is None and inputs.running_rad_s is None:
        raise OutsideValidity("running_rad_s", 0.0, "given where emf_V_s is not")
    if inputs.friction_N_m is None and inputs.friction_share is None:
        raise OutsideValidity("friction_share", 0.0, "given where friction_N_m is not")
    if inputs.friction_share is not None:
        share(friction_share=inputs.friction_share.high)
    most = inputs.running_V / inputs.running_A.nominal
    if inputs.resistance_ohm.nominal >= most:
        raise OutsideValidity("resistance_ohm", inputs.resistance_ohm.nominal, f"below {most:g}, voltage over current")


def nominal_of(inputs: MotionInputs) -> Values:
    """The likeliest value of each input."""
    return {name: spread.nominal for name, spread in spreads_of(inputs).items()}


def corner_of(inputs: MotionInputs, ways: dict[str, int], sign: int) -> Values:
    """All inputs at the end that moves a result one way; what has no way stays nominal."""
    return {
        name: {1: spread.high, -1: spread.low, 0: spread.nominal}[sign * ways.get(name, 0)]
        for name, spread in spreads_of(inputs).items()
    }


def shakers_of(inputs: MotionInputs, *cases: Values) -> Shakers:
    """One batch of one or more cases, each of numbers or of arrays as long as the case."""
    value = _columns(cases)
    resistance_ohm, emf_V_s, friction_N_m, drag_N_m_s2 = _motor(inputs, value)
    return Shakers.of(
        supply_V=value["supply_V"],
        pwm_Hz=value["pwm_Hz"] if inputs.drive is Drive.PWM else np.full(len(value["supply_V"]), inf),
        loop_on_ohm=resistance_ohm + value["path_on_ohm"],
        loop_off_ohm=resistance_ohm + value["path_off_ohm"],
        inductance_H=value["inductance_H"],
        diode_V=value["diode_V"],
        brush_V=value["brush_V"],
        emf_V_s=emf_V_s,
        friction_N_m=friction_N_m,
        drag_N_m_s2=drag_N_m_s2,
        unbalance_kg_m=value["unbalance_kg_m"],
        inertia_kg_m2=_inertia_kg_m2(value),
        mass_kg=value["mass_kg"],
        natural_Hz=value["natural_Hz"],
        damping_share=value["damping"],
    )


def _columns(cases: Sequence[Values]) -> dict[str, Floats]:
    """All cases below each other, one column for each input."""
    ends = [0, *accumulate(max(np.size(value) for value in case.values()) for case in cases)]
    columns = {name: np.empty(ends[-1]) for name in cases[0]}
    for case, first, last in zip(cases, ends, ends[1:], strict=False):
        for name, value in case.items():
            columns[name][first:last] = value
    return columns


def _inertia_kg_m2(value: dict[str, Floats]) -> Floats:
    """Inertia of weight and rotor of each case.

    Source: OpenStax College Physics 2e, the physical pendulum, for the period of a small swing.
    """
    if "swing_s" not in value:
        return value["inertia_kg_m2"]
    return value["unbalance_kg_m"] * GRAVITY_M_S2 * (value["swing_s"] / TURN) ** 2


def _motor(inputs: MotionInputs, value: dict[str, Floats]) -> tuple[Floats, Floats, Floats, Floats]:
    """Winding, back emf constant, friction and drag of each case.

    Source: OpenStax College Physics 2e, back emf, for the constant; the split of the loss is derived here.
    """
    ohm = value["resistance_ohm"]
    if inputs.running_V is None:
        return ohm, value["emf_V_s"], value["friction_N_m"], value["drag_N_m_s2"]
    drawn_A = value["running_A"]
    ohm = np.minimum(ohm, _MOST_LOST * inputs.running_V / drawn_A)
    back_V = inputs.running_V - drawn_A * ohm
    emf = value["emf_V_s"] if "emf_V_s" in value else back_V / value["running_rad_s"]
    torque_N_m = emf * drawn_A
    rubbing = value["friction_N_m"] if "friction_N_m" in value else value["friction_share"] * torque_N_m
    return ohm, emf, rubbing, np.maximum(torque_N_m - rubbing, 0.0) * (emf / back_V) ** 2


def with_ends(inputs: MotionInputs, corner: Values, names: tuple[str, ...]) -> list[Values]:
    """A corner with every combination of both ends of some inputs."""
    spreads = spreads_of(inputs)
    ends = [[(name, end) for end in dict.fromkeys((spreads[name].low, spreads[name].high))] for name in names]
    return [corner | dict(chosen) for chosen in product(*ends)]


def start_corners(inputs: MotionInputs) -> list[Values]:
    """Both start corners, each with both ends of winding and back emf: sustain need not move one way with those.

    Nor with the unbalance, where the inertia follows from it.
    """
    names: tuple[str, ...] = ("resistance_ohm", "emf_V_s" if inputs.emf_V_s else "running_rad_s")
    if inputs.swing_s:
        names = (*names, "unbalance_kg_m")
    return [case for sign in (-1, 1) for case in with_ends(inputs, corner_of(inputs, START_WAYS, sign), names)]


def speed_ends(inputs: MotionInputs) -> tuple[str, ...]:
    """The inputs of which speed and current need not move one way, but lie between what both ends give.

    Of a running point: what a machine loses at a low setting depends on how the loss is split, and against what.
    """
    emf = ("emf_V_s",) if inputs.emf_V_s else ()
    if inputs.running_V is None:
        return emf
    return (*emf, "running_A", "resistance_ohm", "friction_N_m" if inputs.friction_N_m else "friction_share")


def speed_corners(inputs: MotionInputs, sign: int) -> list[Values]:
    """The corners that make it slow (-1) or fast (1)."""
    return with_ends(inputs, corner_of(inputs, SPEED_WAYS, sign), speed_ends(inputs))
