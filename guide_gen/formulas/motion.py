"""The whole motion plan of one shaker: from what is known of motor, drive, weight and cabinet to its bands."""

from dataclasses import dataclass, replace
from enum import StrEnum
from math import inf, isfinite, isinf

import numpy as np

from guide_gen.formulas.bands import Band, BandInterval, Tuning, of_band, setting_grid, tuning
from guide_gen.formulas.cabinet import Footing, footing, greatest_shift, least_shift, limit_share
from guide_gen.formulas.drive import Floats
from guide_gen.formulas.motion_found import Check, Compared, learnt
from guide_gen.formulas.motion_inputs import (
    START_WAYS,
    Drive,
    Found,
    MotionInputs,
    Values,
    corner_of,
    nominal_of,
    refuse,
    shakers_of,
    speed_corners,
    spreads_of,
)
from guide_gen.formulas.motion_states import (
    CurvePoint,
    Limits,
    States,
    bands_of,
    curve_of,
    limits_of,
    natural_rad_s,
    states_of,
    sure_bands_of,
)
from guide_gen.formulas.spread import TURN, Pair
from guide_gen.formulas.swing import setting_for_speed, swing_threshold, turning
from guide_gen.published.vibration import VibrationClass, motion_value, vibration_class


class Doubt(StrEnum):
    """Why something cannot be promised, or what to warn of."""

    NEVER_STARTS = "never starts"  # not even at the favourable end of all ranges
    MAY_NEVER_START = "may never start"  # not at the unfavourable end
    CEILING_BELOW_START = "ceiling below start"  # it may be too much as soon as it turns
    START_TOO_WIDE = "start too wide"  # the range is too wide to be of use
    SWAY_EMPTY = "sway empty"
    SEVERAL_SPEEDS = "several speeds"  # it may hang at the resonance, then jump
    MAY_CREEP = "may creep"
    MAY_HOP = "may hop"


class Measurement(StrEnum):
    """What one can measure to know better."""

    RESISTANCE = "resistance"
    SPEED = "speed"
    INDUCTANCE = "inductance"
    SCALE = "scale"
    SWING = "swing"
    DIODE = "diode"
    PWM_FREQUENCY = "pwm frequency"
    SUPPLY = "supply"
    NUDGE = "nudge"
    MASS = "mass"


@dataclass(frozen=True)
class Kick:
    """Kick, then lower: a short time at kick or above, then a setting within hold.

    hold_sure: holds at every corner of the ranges; None where no setting does.
    """

    kick: float
    seconds: Pair
    hold: Pair
    hold_sure: Pair | None


class Remedy(StrEnum):
    """What opens an empty sway band, in the order to offer it."""

    HIGHER_PWM = "higher pwm frequency"
    KICK = "kick"
    SMALLER_WEIGHT = "smaller weight"
    TRIMMER = "trimmer-set controller"


@dataclass(frozen=True)
class SwayRemedy:
    """A remedy with its value (Hz; nothing; kg m; nothing) and the sway band it opens, in shares of the setting."""

    remedy: Remedy
    value: float | None
    sway: Pair


@dataclass(frozen=True)
class MotionPlan:
    """What a shaker does at each setting. Settings are shares of the full one; infinity means never.

    move, start, sustain, static_lift: over all ranges, start narrowed by what was found; *nominal_of: the likeliest.
    bands: at the nominal inputs, without a kick; sure_bands: what holds over all ranges, with gaps where nothing does.
    sway: the nominal sway band. curve: at every setting of the grid. as_left: the point in use, when it was given.
    helps_start, helps_ceiling: the measurement that would narrow each most; None where nothing is in doubt.
    inputs: after narrowing.
    """

    move: Pair
    start: Pair
    sustain: Pair
    static_lift: Pair
    move_nominal: float
    start_nominal: float
    sustain_nominal: float
    begin: float
    step: float
    ceiling: float
    stop: float
    bands: tuple[BandInterval, ...]
    sure_bands: tuple[BandInterval, ...]
    sway: tuple[Pair, ...]
    curve: tuple[CurvePoint, ...]
    kick: Kick | None
    remedies: tuple[SwayRemedy, ...]
    doubts: tuple[Doubt, ...]
    helps_start: Measurement | None
    helps_ceiling: Measurement | None
    compared: tuple[Compared, ...]
    as_left: CurvePoint | None
    footing: Footing
    inputs: MotionInputs


_GROUPS = {
    Measurement.RESISTANCE: ("resistance_ohm",),
    Measurement.SPEED: ("emf_V_s", "drag_N_m_s2"),
    Measurement.INDUCTANCE: ("inductance_H",),
    Measurement.SCALE: ("unbalance_kg_m", "friction_N_m"),
    Measurement.SWING: ("inertia_kg_m2",),
    Measurement.DIODE: ("diode_V",),
    Measurement.PWM_FREQUENCY: ("pwm_Hz",),
    Measurement.SUPPLY: ("supply_V",),
}
_WIDE = 2.5  # high over low of the start range: beyond it the page says that it is of little use
_WELL_UNDER = 0.8  # sustain over start: below it a kick pays
_RISE = 0.01
_LOWER_WEIGHTS = np.array([0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3])
_HIGHER_PWM_HZ = np.array([100.0, 200.0, 500.0, 1e3, 2e3, 5e3, 10e3, 20e3])
_LEAST_SWAY = 0.01  # of the setting: a remedy must leave room to tune


def _speed_setting(inputs: MotionInputs, *cases: Values) -> Floats:
    """The setting of each case at which it turns at the upper end of sway."""
    shakers = shakers_of(inputs, *cases)
    return setting_for_speed(shakers, np.full(len(shakers), inputs.sway_Hz * TURN))


def _kick(inputs: MotionInputs, limits: Limits, sway_top: float, sure_top: float) -> Kick | None:
    """Advice where sustain lies well under start, and something slow lies between."""
    _, start, sustain = limits.nominal
    top = min(sway_top, 1.0)
    if isinf(start) or sustain >= _WELL_UNDER * start or top <= sustain:
        return None
    seconds = motion_value("kick time")
    sure = (limits.sustain[1], min(sure_top, 1.0))
    kick = limits.start[1] if isfinite(limits.start[1]) else 1.0
    hold_sure = sure if sure[0] < sure[1] else None
    return Kick(kick, (seconds.low or seconds.value, seconds.high or seconds.value), (sustain, top), hold_sure)


def _opens(inputs: MotionInputs, limit: VibrationClass, cases: Values) -> list[Pair | None]:
    """The sway band that each variant has: from its start to the setting for the upper end of sway, if acceptable."""
    shakers = shakers_of(inputs, cases)
    start = swing_threshold(shakers, from_top=False)
    top = np.minimum(setting_for_speed(shakers, np.full(len(shakers), inputs.sway_Hz * TURN)), 1.0)
    settings = start[:, None] + (top - start)[:, None] * np.linspace(0, 1, 9)
    usable = np.isfinite(start) & (top - start >= max(1 / (inputs.port_steps or 400), _LEAST_SWAY))
    speed = turning(shakers, np.where(usable[:, None], settings, 0.0)).speed_rad_s
    found: list[Pair | None] = []
    for number in range(len(shakers)):
        one = shakers.take(number)
        natural = float(one.natural_Hz[0]) * TURN
        some = np.maximum(speed[number], 1e-6)
        force = one.unbalance_kg_m * some**2
        moved = greatest_shift(force, float(one.mass_kg[0]), (natural, natural), float(one.damping_share[0]), some)
        gentle = (limit_share(limit, some, moved) <= 1) & (moved * some**2 >= inputs.felt_m_s2)
        found.append((float(start[number]), float(top[number])) if usable[number] and gentle.any() else None)
    return found


def _remedies(inputs: MotionInputs, limit: VibrationClass, kick: Kick | None) -> tuple[SwayRemedy, ...]:
    """What opens an empty sway band, in the order to offer it."""
    nominal = nominal_of(inputs)
    found: list[SwayRemedy] = []
    now = inputs.pwm_Hz.nominal if inputs.drive is Drive.PWM and inputs.pwm_Hz is not None else inf
    tried = _HIGHER_PWM_HZ[now * 1.01 < _HIGHER_PWM_HZ]
    if len(tried):
        for value, sway in zip(tried, _opens(inputs, limit, nominal | {"pwm_Hz": tried}), strict=True):
            if sway:
                found.append(SwayRemedy(Remedy.HIGHER_PWM, float(value), sway))
                break
    if kick:
        found.append(SwayRemedy(Remedy.KICK, None, kick.hold))
    lighter = inputs.unbalance_kg_m.nominal * _LOWER_WEIGHTS
    variants = nominal | {"unbalance_kg_m": lighter, "inertia_kg_m2": inputs.inertia_kg_m2.nominal * _LOWER_WEIGHTS}
    for value, sway in zip(lighter, _opens(inputs, limit, variants), strict=True):
        if sway:
            found.append(SwayRemedy(Remedy.SMALLER_WEIGHT, float(value), sway))
            break
    if inputs.drive is Drive.PWM:
        sway = _opens(replace(inputs, drive=Drive.VOLTAGE), limit, nominal)[0]
        if sway:
            found.append(SwayRemedy(Remedy.TRIMMER, None, sway))
    return tuple(found)


def _helps_start(inputs: MotionInputs) -> Measurement | None:
    """The measurement whose range alone moves the start most, from the nominal inputs."""
    spreads = spreads_of(inputs)
    groups = {
        group: [name for name in names if name in spreads and spreads[name].high > spreads[name].low]
        for group, names in _GROUPS.items()
    }
    groups = {group: names for group, names in groups.items() if names}
    if not groups:
        return None
    cases = []
    for names in groups.values():
        for sign in (-1, 1):
            corner = corner_of(inputs, START_WAYS, sign)
            cases.append(nominal_of(inputs) | {name: corner[name] for name in names})
    start = np.minimum(swing_threshold(shakers_of(inputs, *cases), from_top=False), 2.0).reshape(-1, 2)
    ratio = start[:, 1] / start[:, 0]
    best = int(ratio.argmax())
    return list(groups)[best] if ratio[best] > 1 + 1e-3 else None


def _helps_ceiling(inputs: MotionInputs, speed_rad_s: float) -> Measurement | None:
    """The measurement whose range alone moves the sideways shift most, at one speed."""
    some = np.array([max(speed_rad_s, 1e-3)])
    nominal = (inputs.natural_Hz.nominal * TURN,) * 2
    mass, damping = inputs.mass_kg.nominal, inputs.damping
    pull = inputs.unbalance_kg_m.nominal * some**2
    ratio = {
        Measurement.NUDGE: greatest_shift(pull, mass, natural_rad_s(inputs), damping.low, some)
        / least_shift(pull, mass, natural_rad_s(inputs), damping.high, some),
        Measurement.MASS: greatest_shift(pull, inputs.mass_kg.low, nominal, damping.nominal, some)
        / greatest_shift(pull, inputs.mass_kg.high, nominal, damping.nominal, some),
        Measurement.SCALE: np.array([inputs.unbalance_kg_m.high / inputs.unbalance_kg_m.low]),
    }
    best = max(ratio, key=lambda one: float(ratio[one][0]))
    return best if ratio[best][0] > 1 + 1e-3 else None


def _doubts(limits: Limits, tuned: Tuning, sway: tuple[Pair, ...], states: States, stand: Footing) -> tuple[Doubt, ...]:
    low, high = limits.start
    turns = states.settings >= limits.nominal[1]
    several = bool((states.several & turns).any())
    return tuple(
        doubt
        for doubt, holds in (
            (Doubt.NEVER_STARTS, isinf(low)),
            (Doubt.MAY_NEVER_START, isinf(high) and not isinf(low)),
            (Doubt.CEILING_BELOW_START, not isinf(low) and tuned.ceiling <= high and not isinf(tuned.ceiling)),
            (Doubt.START_TOO_WIDE, not isinf(low) and high > _WIDE * low),
            (Doubt.SWAY_EMPTY, not isinf(limits.nominal[1]) and not sway),
            (Doubt.SEVERAL_SPEEDS, several),
            (Doubt.MAY_CREEP, stand.creeps),
            (Doubt.MAY_HOP, stand.hops),
        )
        if holds
    )


def _slope_Hz(inputs: MotionInputs, start: float) -> float:
    """Turning frequency gained over the full range of settings, at the rate just above start."""
    if isinf(start):
        return 0.0
    settings = np.array([start, min(start + _RISE, 1.0)])
    below, above = turning(shakers_of(inputs, nominal_of(inputs)), settings).speed_rad_s[0]
    return float((above - below) / TURN / (settings[1] - settings[0])) if settings[1] > settings[0] else 0.0


def _as_left(found: Found, curve: tuple[CurvePoint, ...], limits: Limits) -> tuple[CurvePoint | None, Compared | None]:
    """The point of the curve in use, and whether the plan allows it to turn there at all."""
    if found.as_left is None:
        return None, None
    here = found.as_left
    point = min(curve, key=lambda one: abs(one.setting - here))
    return point, Compared(Check.AS_LEFT, here, (limits.sustain[0], 1.0), here < limits.sustain[0] - 1e-9)


def motion_plan(inputs: MotionInputs) -> MotionPlan:
    """The whole plan of one shaker's motion; pure and deterministic.

    Raises OutsideValidity for an input that cannot be; NotInTable for an unknown limit class.
    Source: driven damped pendulum and rotating unbalance of any text on vibration; corner rules derived here.
    """
    refuse(inputs)
    limit = vibration_class(inputs.limit_class)
    inputs, readings, compared = learnt(inputs)
    limits = limits_of(inputs, readings.start)
    move, start, sustain = limits.nominal
    tops = _speed_setting(inputs, nominal_of(inputs), *speed_corners(inputs, 1))
    sway_top, sure_top = float(tops[0]), float(tops[1:].min())
    exact = [move, start, sustain, *limits.start, *limits.sustain, *limits.move, sway_top, sure_top]
    exact += [just * (1 + side) for just in (limits.move[0], limits.start[0], sway_top) for side in (-1e-9, 1e-9)]
    if inputs.found.as_left is not None:
        exact.append(inputs.found.as_left)
    settings = setting_grid(inputs.port_steps, exact)
    states = states_of(inputs, limit, settings, sustain)
    bands = bands_of(inputs, states, limits)
    sway = of_band(bands, Band.SWAY)
    tuned = tuning(settings, states.use_high, limits.start[0], _slope_Hz(inputs, start), inputs.port_steps)
    stand = (
        footing(
            inputs.unbalance_kg_m.high * float(states.fast_rad_s[-1]) ** 2,
            inputs.mass_kg.low,
            motion_value("friction of the feet").value,
        )
        if states.fast_rad_s[-1] > 0
        else Footing(False, False)
    )
    kick = _kick(inputs, limits, sway_top, sure_top)
    curve = curve_of(states, limits)
    as_left, left = _as_left(inputs.found, curve, limits)
    at_start = float(np.interp(min(start, 1.0), settings, states.speed_rad_s))
    return MotionPlan(
        limits.move,
        limits.start,
        limits.sustain,
        limits.lift,
        move,
        start,
        sustain,
        tuned.begin,
        tuned.step,
        tuned.ceiling,
        tuned.stop,
        bands,
        sure_bands_of(inputs, states, limits),
        sway,
        curve,
        kick,
        _remedies(inputs, limit, kick) if isfinite(start) and not sway else (),
        _doubts(limits, tuned, sway, states, stand),
        _helps_start(inputs),
        _helps_ceiling(inputs, at_start),
        tuple(compared + ([left] if left else [])),
        as_left,
        stand,
        inputs,
    )
