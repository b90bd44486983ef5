"""What drives the shaft, for many machines, settings and speeds at once: mean and peak current of the motor.

The closed form of the exact periodic steady state, as arrays; `guide_gen.formulas.pwm` has the same for one case, with
everything that a page shows of it.
"""

from collections.abc import Sequence
from dataclasses import dataclass, fields
from typing import Self

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Truths = NDArray[np.bool_]

_TINY = 1e-300  # keeps a division by a standing zero finite; no physical value is near it


@dataclass(frozen=True)
class Shakers:
    """A batch of shakers with their drive and cabinet; every field is an array of the same length, in SI.

    pwm_Hz: infinity stands for a smooth voltage of setting times supply, as a trimmer-set controller gives.
    loop_on_ohm, loop_off_ohm: winding included. emf_V_s: back emf constant, in SI also the torque constant.
    drag_N_m_s2: torque that grows with the square of the speed. inertia_kg_m2: weight and rotor about the shaft.
    """

    supply_V: Floats
    pwm_Hz: Floats
    loop_on_ohm: Floats
    loop_off_ohm: Floats
    inductance_H: Floats
    diode_V: Floats
    brush_V: Floats
    emf_V_s: Floats
    friction_N_m: Floats
    drag_N_m_s2: Floats
    unbalance_kg_m: Floats
    inertia_kg_m2: Floats
    mass_kg: Floats
    natural_Hz: Floats
    damping_share: Floats

    @classmethod
    def of(cls, **values: float | Floats) -> Self:
        """A batch from numbers and arrays: what is one number holds for all."""
        spread = np.broadcast_arrays(*(np.asarray(value, float) for value in values.values()))
        return cls(**{name: np.atleast_1d(array) for name, array in zip(values, spread, strict=True)})

    @classmethod
    def joined(cls, batches: Sequence[Self]) -> Self:
        """Several batches as one."""
        return cls(
            **{field.name: np.concatenate([getattr(one, field.name) for one in batches]) for field in fields(cls)}
        )

    def __len__(self) -> int:
        return len(self.supply_V)

    def take(self, which: object) -> Self:
        """The members that an index, a list of indices or a mask names."""
        return type(self)(**{field.name: np.atleast_1d(getattr(self, field.name)[which]) for field in fields(self)})

    def with_axes(self, extra: int) -> Self:
        """The same with trailing axes of length one, to meet settings and speeds."""
        return type(self)(**{field.name: getattr(self, field.name).reshape(-1, *[1] * extra) for field in fields(self)})


def motor_current(shakers: Shakers, setting: Floats, speed_rad_s: Floats) -> tuple[Floats, Floats]:
    """Mean and peak current of the motor; all three are broadcast against each other.

    A switch in the return and a diode across the motor drive but never brake: the current is never negative.
    Source: N. Mohan, T. M. Undeland, W. P. Robbins, Power Electronics, DC motor drives with choppers; the closed form
    of the discontinuous mean is derived here.
    """
    mean_A, peak_A, _ = _currents(shakers, setting, speed_rad_s)
    return mean_A, peak_A


def supply_current(shakers: Shakers, setting: Floats, speed_rad_s: Floats) -> Floats:
    """What a DC meter in the supply lead shows: the mean of what flows while the switch is on.

    With a smooth voltage: what a controller without losses takes. Source: as for `motor_current`.
    """
    return _currents(shakers, setting, speed_rad_s)[2]


def _currents(shakers: Shakers, setting: Floats, speed_rad_s: Floats) -> tuple[Floats, Floats, Floats]:
    """Mean and peak of the motor, and the mean of the supply."""
    back_V = shakers.emf_V_s * speed_rad_s + shakers.brush_V
    if np.isinf(shakers.pwm_Hz).all():
        smooth = np.maximum((setting * shakers.supply_V - back_V) / shakers.loop_on_ohm, 0.0)
        return smooth, smooth, setting * smooth
    period_s = 1 / shakers.pwm_Hz
    tau_on_s = shakers.inductance_H / shakers.loop_on_ohm
    tau_off_s = shakers.inductance_H / shakers.loop_off_ohm
    rise_A = np.maximum((shakers.supply_V - back_V) / shakers.loop_on_ohm, 0.0)
    fall_A = (shakers.diode_V + back_V) / shakers.loop_off_ohm  # the fall aims at minus this
    on_s = setting * period_s
    off_s = (1 - setting) * period_s
    risen = -np.expm1(-on_s / tau_on_s)
    fallen = -np.expm1(-off_s / tau_off_s)
    peak_A = (rise_A * risen - (1 - risen) * fall_A * fallen) / (risen + fallen - risen * fallen)
    lowest_A = peak_A * (1 - fallen) - fall_A * fallen
    steady = lowest_A > 0
    peak_A = np.where(steady, peak_A, rise_A * risen)
    lowest_A = np.where(steady, lowest_A, 0.0)
    # in the discontinuous mode the current has reached zero after run_s, and its fall covers just the peak
    run_s = np.where(steady, off_s, np.minimum(tau_off_s * np.log1p(peak_A / np.maximum(fall_A, _TINY)), off_s))
    on_charge = rise_A * on_s + (lowest_A - rise_A) * tau_on_s * risen
    off_charge = (peak_A - lowest_A) * tau_off_s - fall_A * run_s
    # without a rise all three are zero by themselves
    mean_A = np.maximum(on_charge + off_charge, 0.0) * shakers.pwm_Hz
    return mean_A, peak_A, np.maximum(on_charge, 0.0) * shakers.pwm_Hz


def mean_torque_N_m(shakers: Shakers, setting: Floats, speed_rad_s: Floats) -> Floats:
    """The motor's mean torque, friction not taken off."""
    return shakers.emf_V_s * motor_current(shakers, setting, speed_rad_s)[0]
