"""A motor that turns a gearbox or a fan, from one running point: at which setting it starts, and what it does at each.

The running point, its losses and the drive are ranges. Every result is worked out for all corners of what was measured,
of the supply and of the inductance, with all else that stands in the current's way at its low and at its high end; the
lowest and highest of them are kept. Under PWM the mean current dips a little, by less than 0.5 %, at the inductance
that just lets it flow on through the pause: that dip is left out. What is found on the machine cuts the ranges of what
was measured.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import product
from math import inf, isfinite

import numpy as np

from guide_gen.formulas.drive import Floats, Shakers, motor_current, supply_current
from guide_gen.formulas.motor import constant_V_s_per_rad, torque_N_m
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.swing import lift_threshold, turning
from guide_gen.formulas.validity import above_zero, share

_MEASURED = ("current_A", "resistance_ohm", "speed_rad_s", "friction_share")
_DRIVEN = ("supply_V", "path_on_ohm", "path_off_ohm", "inductance_H", "diode_V")
_EASIER_WHEN_LOW = ("path_on_ohm", "path_off_ohm", "diode_V")
_EITHER_WAY = (*_MEASURED, "supply_V", "inductance_H")
_CANDIDATES = 13
_PLACES = 25


@dataclass(frozen=True)
class Turned:
    """A motor by its running point at voltage_V, and what drives it, in SI. Paths are without the winding.

    friction_share: of the torque at the running point what is the same at every speed; the rest grows with its square.
    reserve: torque at standstill over that friction, for a sure start. pwm_Hz: infinity for a smooth voltage.
    """

    voltage_V: float
    current_A: Spread
    resistance_ohm: Spread
    speed_rad_s: Spread
    friction_share: Spread
    inductance_H: Spread
    supply_V: Spread
    path_on_ohm: Spread
    path_off_ohm: Spread
    diode_V: Spread
    pwm_Hz: float = inf
    reserve: float = 1.0


@dataclass(frozen=True)
class AtSetting:
    """One setting, over all ranges. own_share: of its own speed at full. stall: shaft held.

    drawn_A: while it turns, on a DC meter in the supply lead.
    """

    setting: float
    speed_rad_s: Spread
    own_share: Spread
    stall_A: Spread
    stall_N_m: Spread
    drawn_A: Spread


def batch(turned: Turned) -> Shakers:
    """The likeliest machine first, then every corner. A machine without a weight: nothing that shakes takes torque.

    Raises OutsideValidity for what cannot be, such as a current as at standstill.
    """
    return _machines(turned, _cases(turned))


def _cases(turned: Turned) -> list[dict[str, float]]:
    """The likeliest case, then every corner."""
    nominal = {name: getattr(turned, name).nominal for name in (*_MEASURED, *_DRIVEN)}
    cases = [nominal]
    for ends in product(*({getattr(turned, name).low, getattr(turned, name).high} for name in _EITHER_WAY)):
        for easy in (True, False):
            path = {
                name: getattr(turned, name).low if easy else getattr(turned, name).high for name in _EASIER_WHEN_LOW
            }
            cases.append(dict(zip(_EITHER_WAY, ends, strict=True)) | path)
    return cases


def _machines(turned: Turned, cases: Sequence[dict[str, float]]) -> Shakers:
    """One batch of motors, each with the constant and the losses of its own running point."""
    above_zero(voltage_V=turned.voltage_V, reserve=turned.reserve)
    columns: dict[str, list[float]] = {name: [] for name in (*_MEASURED, *_DRIVEN)}
    emf, friction, drag = [], [], []
    for case in cases:
        share(friction_share=case["friction_share"])
        above_zero(**{name: case[name] for name in ("supply_V", "inductance_H", "diode_V")})
        for name, column in columns.items():
            column.append(case[name])
        constant = constant_V_s_per_rad(
            turned.voltage_V, 0.0, case["current_A"], case["resistance_ohm"], case["speed_rad_s"]
        )
        loss = torque_N_m(constant, case["current_A"])
        emf.append(constant)
        friction.append(case["friction_share"] * loss)
        drag.append((1 - case["friction_share"]) * loss / case["speed_rad_s"] ** 2)
    value = {name: np.array(column) for name, column in columns.items()}
    return Shakers.of(
        supply_V=value["supply_V"],
        pwm_Hz=turned.pwm_Hz,
        loop_on_ohm=value["resistance_ohm"] + value["path_on_ohm"],
        loop_off_ohm=value["resistance_ohm"] + value["path_off_ohm"],
        inductance_H=value["inductance_H"],
        diode_V=value["diode_V"],
        brush_V=0.0,
        emf_V_s=np.array(emf),
        friction_N_m=np.array(friction),
        drag_N_m_s2=np.array(drag),
        unbalance_kg_m=0.0,
        inertia_kg_m2=1.0,
        mass_kg=1.0,
        natural_Hz=1.0,
        damping_share=0.5,
    )


def _spread(values: Floats) -> Spread:
    """The ends over all machines, and the likeliest, which is the first."""
    return Spread(float(values.min()), float(values[0]), float(values.max()))


def start_of(turned: Turned) -> Spread:
    """The setting at which it begins to turn from rest; infinity where the full one is not enough.

    Raises OutsideValidity. Source: mean torque at standstill against friction and reserve, as this project derives it.
    """
    machines = batch(turned)
    return _spread(lift_threshold(machines, machines.friction_N_m * turned.reserve))


def keeps_of(turned: Turned) -> Spread:
    """The setting down to which it keeps turning once it turns: no reserve is needed there.

    Raises OutsideValidity. Source: as for `start_of`.
    """
    machines = batch(turned)
    return _spread(lift_threshold(machines, machines.friction_N_m))


def load_of(turned: Turned) -> Spread:
    """The torque that the motor gave at its running point, N m: what its load and its own losses asked for.

    Raises OutsideValidity. Source: as for `at_settings`.
    """
    machines = batch(turned)
    return _spread(machines.friction_N_m + machines.drag_N_m_s2 * _speeds_of(turned) ** 2)


def _speeds_of(turned: Turned) -> Floats:
    """The measured speed of each machine of the batch, in its order."""
    return np.array([case["speed_rad_s"] for case in _cases(turned)])


def at_settings(turned: Turned, settings: Sequence[float], full: float = 1.0) -> tuple[AtSetting, ...]:
    """What it does at each setting; the speed is that of a motor that was started. full: what shares are of.
    Raises OutsideValidity. Source: balance of mean torques; permanent-magnet motor of A. E. Fitzgerald, C. Kingsley,
    S. D. Umans, Electric Machinery.
    """
    machines = batch(turned)
    asked = np.array([*settings, full])
    speed = turning(machines, asked).speed_rad_s
    stall = motor_current(machines.with_axes(1), asked, np.zeros((1, 1)))[0]
    torque = stall * machines.emf_V_s[:, None]
    drawn = supply_current(machines.with_axes(1), asked, speed)
    most = speed[:, -1:]
    own = np.divide(speed, most, out=np.zeros_like(speed), where=most > 0)
    return tuple(
        AtSetting(
            setting,
            _spread(speed[:, place]),
            _spread(own[:, place]),
            _spread(stall[:, place]),
            _spread(torque[:, place]),
            _spread(drawn[:, place]),
        )
        for place, setting in enumerate(settings)
    )


def narrowed(turned: Turned, foretell: Callable[[Turned], Spread], low: float, high: float) -> Turned:
    """The ranges of what was measured, each cut to the values that can give a reading from low to high.

    foretell: the reading of a motor. The other values may lie anywhere in their ranges, and a grid's width is left on
    either side. A range of which no value can give it stays whole. Raises OutsideValidity.
    """
    cut: dict[str, Spread] = {}
    for name in _MEASURED:
        whole: Spread = getattr(turned, name)
        if whole.high <= whole.low:
            continue
        values = [whole.low + place * (whole.high - whole.low) / (_CANDIDATES - 1) for place in range(_CANDIDATES)]
        told = [foretell(_with(turned, name, value)) for value in values]
        kept = [place for place, one in enumerate(told) if one.low <= high and low <= one.high]
        if kept:
            cut[name] = whole.within(values[max(kept[0] - 1, 0)], values[min(kept[-1] + 1, _CANDIDATES - 1)])
    return replace(turned, **cut)  # type: ignore[arg-type]


def centred(turned: Turned, name: str, foretell: Callable[[Turned], Spread], reading: float) -> Turned:
    """The likeliest of one range moved to where the likeliest motor comes nearest to a reading.

    Raises OutsideValidity.
    """
    whole: Spread = getattr(turned, name)
    values = [whole.low + place * (whole.high - whole.low) / (_PLACES - 1) for place in range(_PLACES)]
    likeliest = _only(turned, "")
    best = min(values, key=lambda value: abs(foretell(_with(likeliest, name, value)).nominal - reading))
    return replace(turned, **{name: whole._replace(nominal=best)})  # type: ignore[arg-type]


def _with(turned: Turned, name: str, value: float) -> Turned:
    """The same with one value known."""
    return replace(turned, **{name: Spread.exactly(value)})  # type: ignore[arg-type]


def widest(turned: Turned) -> str | None:
    """The input whose range alone moves the start most: its name; None where no range is of account."""
    found: dict[str, float] = {}
    for name in (*_MEASURED, *_DRIVEN):
        alone = _only(turned, name)
        low, _, high = start_of(alone)
        found[name] = min(high, 2.0) / low if low > 0 and isfinite(low) else 1.0
    best = max(found, key=lambda name: found[name])
    return best if found[best] > 1 + 1e-3 else None


def _only(turned: Turned, name: str) -> Turned:
    """The same with every range but one drawn together to its likeliest value."""
    known = {other: Spread.exactly(getattr(turned, other).nominal) for other in (*_MEASURED, *_DRIVEN) if other != name}
    return Turned(**(vars(turned) | known))
