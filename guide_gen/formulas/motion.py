"""The whole motion plan of one shaker: from what is known of motor, drive, weight and cabinet to its bands."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import inf, isfinite, isinf

import numpy as np

from guide_gen.formulas.bands import ORDER, Band, BandInterval, Tuning, intervals, of_band, setting_grid, tuning
from guide_gen.formulas.cabinet import Footing, footing, greatest_shift, limit_share
from guide_gen.formulas.drive import Floats, Shakers, Truths, motor_current
from guide_gen.formulas.motion_chance import likely_start
from guide_gen.formulas.motion_found import Check, Compared, Learnt, Reading, centred, learnt
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
    Hang,
    Limits,
    States,
    bands_of,
    curve_of,
    hang_of,
    limits_of,
    natural_rad_s,
    quick_ceilings,
    quick_uses,
    states_of,
    sure_bands_of,
    with_nominal,
)
from guide_gen.formulas.motion_through import speeds_through, starts_through
from guide_gen.formulas.spread import TURN, Pair, Spread
from guide_gen.formulas.swing import gravity_torque_N_m, over_the_top_s, setting_for_speed, swing_threshold, turning
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
    UNSETTLED = "unsettled"  # at some setting it surges and sinks near the cabinet's own sway


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
    """Kick, then lower: a short time at kick, then a setting within hold.

    seconds: after which the slowest machine of the ranges is over the top. hold_sure: holds at every corner of the
    ranges; None where no setting does.
    """

    kick: float
    seconds: float
    hold: Pair
    hold_sure: Pair | None


class Remedy(StrEnum):
    """What opens an empty sway band, in the order to offer it."""

    HIGHER_PWM = "higher pwm frequency"
    KICK = "kick"
    SMALLER_WEIGHT = "smaller weight"
    TRIMMER = "trimmer-set controller"
    LARGER_WEIGHT = "larger weight"  # in its place, where it turns slowly enough, but too weakly to be felt


@dataclass(frozen=True)
class SwayRemedy:
    """A remedy with its value (Hz; nothing; kg m; nothing) and the sway band it opens, in shares of the setting."""

    remedy: Remedy
    value: float | None
    sway: Pair


@dataclass(frozen=True)
class MotionPlan:
    """What a shaker does at each setting. Settings are shares of the full one; infinity means never.

    move, start, sustain, static_lift: over all ranges, start narrowed by what was found; *_nominal: the likeliest.
    start_likely: where 8 of 10 start within that; None where nothing is in doubt. start_before: as foretold before
    anything was found; None where that narrows nothing.
    start_V: what a meter at the motor shows just before it turns over: winding times mean current; infinity: never.
    bench_V, bench_A: at the motor just before it turns over while a bench supply is slowly raised; infinity: never.
    over_top: where what stands at the top of the cabinet may be over its limit, as that sways farther than the shaker.
    bands: at the nominal inputs, without a kick; sure_bands: what holds over all ranges, with gaps where nothing does.
    sway: the nominal sway band. curve: at every setting of the grid. as_left: the point in use, when it was given.
    hang: where it may hang and jump. resonance: the settings, from the lowest at which it keeps turning on, at which
    it may pass the cabinet's own sway; harmful: from the first to the last of them at which what stands at the top may
    be over its limit.
    helps_start: the measurement that would narrow the start most; helps_ceiling: where the ceiling may lie below the
    start, the one that would lift it most. None where nothing is in doubt or nothing helps.
    helps_also: what has to be measured as well, where that alone does not lift it.
    fits_kg_m: where the ceiling may lie below the start, the largest unbalance with which it does not.
    inputs: after narrowing.
    """

    move: Pair
    start: Pair
    sustain: Pair
    static_lift: Pair
    move_nominal: float
    start_nominal: float
    sustain_nominal: float
    start_likely: Pair | None
    start_before: Pair | None
    begin: float
    step: float
    ceiling: float
    stop: float
    start_V: Pair
    bench_V: Pair
    bench_A: Pair
    bands: tuple[BandInterval, ...]
    sure_bands: tuple[BandInterval, ...]
    sway: tuple[Pair, ...]
    curve: tuple[CurvePoint, ...]
    kick: Kick | None
    remedies: tuple[SwayRemedy, ...]
    hang: Hang | None
    resonance: Pair | None
    harmful: Pair | None
    doubts: tuple[Doubt, ...]
    helps_start: Measurement | None
    helps_ceiling: Measurement | None
    helps_also: tuple[Measurement, ...]
    fits_kg_m: float | None
    compared: tuple[Compared, ...]
    as_left: CurvePoint | None
    over_top: tuple[Pair, ...]
    footing: Footing
    inputs: MotionInputs


# What each measurement tells, and what it leaves open, as a share; this project, estimates.
_TELLS = {
    Measurement.RESISTANCE: {"resistance_ohm": 0.05},
    Measurement.SPEED: {"emf_V_s": 0.05, "running_rad_s": 0.05, "drag_N_m_s2": 0.20},
    Measurement.INDUCTANCE: {"inductance_H": 0.30},
    Measurement.SCALE: {"unbalance_kg_m": 0.05, "friction_N_m": 0.20},
    Measurement.SWING: {"inertia_kg_m2": 0.10, "swing_s": 0.05},
    Measurement.DIODE: {"diode_V": 0.15},
    Measurement.PWM_FREQUENCY: {"pwm_Hz": 0.0},
    Measurement.SUPPLY: {"supply_V": 0.01},
    Measurement.NUDGE: {"natural_Hz": 0.05, "damping": 0.20},
    Measurement.MASS: {"mass_kg": 0.05},
}
_WIDE = 2.5  # high over low of the start range: beyond it the page says that it is of little use
_WELL_UNDER = 0.8  # sustain over start: below it a kick pays
_KICK = 1.25  # times the highest start
_HARDER = np.array([1.0, 1.1, 1.25, 1.5, 2.0, 3.0])
_RISE = 0.01
_NEVER = 2.0  # stands for a start that even the full setting does not reach, to compare ranges
_COARSE = np.concatenate([np.linspace(0, 0.3, 41), np.linspace(0.325, 1, 28)])
_HELPS = 0.98  # of the range that was: less is not worth measuring
_TOGETHER = 3  # measurements looked at beside the first
_LIFTED = 1.001  # a ceiling at the lowest start itself is none
_LIGHTER = np.linspace(0.9, 0.1, 9)
_HIGHER_WEIGHTS = np.array([1.25, 1.5, 2.0, 3.0, 5.0])
_LOWER_WEIGHTS = np.array([0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3])
_HIGHER_PWM_HZ = np.array([100.0, 200.0, 500.0, 1e3, 2e3, 5e3, 10e3, 20e3])
_LEAST_SWAY = 0.01  # of the setting: a remedy must leave room to tune


def _speed_setting(inputs: MotionInputs, *cases: Values) -> Floats:
    """The setting of each case at which it turns at the upper end of sway."""
    shakers = shakers_of(inputs, *cases)
    return setting_for_speed(shakers, np.full(len(shakers), inputs.sway_Hz * TURN))


def _kick(inputs: MotionInputs, limits: Limits, states: States, sway_top: float, sure_top: float) -> Kick | None:
    """Advice where sustain lies well under start, something slow that is felt lies between and below the kick, and
    neither kick nor hold may be too much at any corner of the ranges.

    The kick is a quarter above the highest start, or as much as is not too much: just at its start a weight creeps.
    """
    _, start, sustain = limits.nominal
    kick = limits.start[1] if isfinite(limits.start[1]) else 1.0
    over = states.settings[(states.settings >= limits.sustain[0]) & (states.use_high > 1)]
    if len(over) and over[0] <= kick:
        return None
    gentle = float(states.settings[states.settings < over[0]][-1]) if len(over) else 1.0
    if isinf(start) or sustain >= _WELL_UNDER * start:
        return None
    kick = max(kick, min(_KICK * kick, gentle))
    felt = states.settings[(states.settings >= sustain) & (states.felt_m_s2 >= inputs.felt_m_s2)]
    lowest = max(sustain, float(felt[0])) if len(felt) else inf
    hold = (lowest, min(sway_top, gentle, kick))
    if hold[1] <= hold[0]:
        return None
    seconds = _kick_s(inputs, kick)
    if isinf(seconds):
        return None
    sure = (max(limits.sustain[1], hold[0]), min(sure_top, hold[1]))
    return Kick(kick, seconds, hold, sure if sure[0] < sure[1] else None)


def _kick_s(inputs: MotionInputs, kick: float) -> float:
    """How long the slowest machine takes to the top; infinity where even the likeliest does not get there.

    A corner that needs more than the kick was ruled out by a reading: it stands, with what just turns it over, for the
    slowest that is left.
    """
    settings = np.concatenate([[kick], kick * _HARDER])
    corners = [corner_of(inputs, START_WAYS, 1)] * len(_HARDER)
    taken_s = over_the_top_s(shakers_of(inputs, nominal_of(inputs), *corners), np.minimum(settings, 1.0))
    slowest_s = taken_s[1:][np.isfinite(taken_s[1:])][:1]
    return float(max([taken_s[0], *slowest_s]))


def _opens(inputs: MotionInputs, limit: VibrationClass, cases: Values) -> list[Pair | None]:
    """The sway band that each variant has: from its start to the setting for the upper end of sway, if acceptable."""
    shakers = shakers_of(inputs, cases)
    start = swing_threshold(shakers, from_top=False)
    top = np.minimum(setting_for_speed(shakers, np.full(len(shakers), inputs.sway_Hz * TURN)), 1.0)
    usable = top - start >= max(1 / (inputs.port_steps or 400), _LEAST_SWAY)
    first = np.where(usable, start, 0.0)
    settings = first[:, None] + np.where(usable, top - first, 0.0)[:, None] * np.linspace(0, 1, 9)
    speed = turning(shakers, settings).speed_rad_s
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


def _remedies(
    inputs: MotionInputs, limit: VibrationClass, kick: Kick | None, fits_kg_m: float | None, faint: bool
) -> tuple[SwayRemedy, ...]:
    """What opens an empty sway band, in the order to offer it.

    fits_kg_m: a smaller weight has to be that small; None: any may help. faint: it turns slowly enough, but too weakly.
    """
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
    way, shares = (Remedy.LARGER_WEIGHT, _HIGHER_WEIGHTS) if faint else (Remedy.SMALLER_WEIGHT, _LOWER_WEIGHTS)
    if fits_kg_m and not faint:
        shares = np.minimum(shares, fits_kg_m / inputs.unbalance_kg_m.nominal)
    weights = inputs.unbalance_kg_m.nominal * shares
    variants = nominal | {"unbalance_kg_m": weights}
    if inputs.inertia_kg_m2:
        variants["inertia_kg_m2"] = inputs.inertia_kg_m2.nominal * shares
    for value, sway in zip(weights, _opens(inputs, limit, variants), strict=True):
        if sway:
            found.append(SwayRemedy(way, float(value), sway))
            break
    if inputs.drive is Drive.PWM:
        sway = _opens(replace(inputs, drive=Drive.VOLTAGE), limit, nominal)[0]
        if sway:
            found.append(SwayRemedy(Remedy.TRIMMER, None, sway))
    return tuple(found)


def _variants(inputs: MotionInputs) -> dict[Measurement, MotionInputs]:
    """The inputs as each measurement would leave them, all else as wide as it is; only where it narrows something."""
    found: dict[Measurement, MotionInputs] = {}
    for measurement, tells in _TELLS.items():
        own = _measured_directly(inputs, measurement)
        spreads = spreads_of(own)
        narrowed = {
            name: spreads[name].within(spreads[name].nominal * (1 - left), spreads[name].nominal * (1 + left))
            for name, left in tells.items()
            if name in spreads
        }
        if any(narrowed[name] != spreads[name] for name in narrowed):
            found[measurement] = replace(own, **narrowed)  # type: ignore[arg-type]
    return found


def _measured_directly(inputs: MotionInputs, measurement: Measurement) -> MotionInputs:
    """The inputs with what a measurement tells in place of what stood for it: the scale friction, not a share of the
    loss; the speed its own, not a usual back emf constant. As wide as it was."""
    if inputs.running_V is None:
        return inputs
    one = shakers_of(inputs, nominal_of(inputs))
    if measurement is Measurement.SCALE and (part := inputs.friction_share):
        rubs = float(one.friction_N_m[0])
        wide = Spread(rubs * part.low / part.nominal, rubs, rubs * part.high / part.nominal)
        return replace(inputs, friction_share=None, friction_N_m=wide)
    if measurement is Measurement.SPEED and (emf := inputs.emf_V_s) and inputs.running_A:
        back_V = inputs.running_V - inputs.running_A.nominal * inputs.resistance_ohm.nominal
        wide = Spread(back_V / emf.high, back_V / emf.nominal, back_V / emf.low)
        return replace(inputs, emf_V_s=None, running_rad_s=wide)
    return inputs


def _helps(
    inputs: MotionInputs, limit: VibrationClass, ceiling_doubtful: bool
) -> tuple[Measurement | None, Measurement | None, tuple[Measurement, ...]]:
    """The measurement that leaves the narrowest start, and the one that lifts the ceiling farthest over the start.

    The second only where the ceiling is doubtful. Where none alone lifts it, as too much is met as soon as it turns,
    it is the one that takes most of that away; then come those that lift it together with that one.
    """
    variants = _variants(inputs)
    tried = [inputs, *variants.values()]
    start = _starts(tried)
    ratio = start[:, 1] / start[:, 0]
    best = int(ratio.argmin())
    helps_start = list(variants)[best - 1] if ratio[best] < _HELPS * ratio[0] else None
    if not ceiling_doubtful:
        return helps_start, None, ()
    ceilings = np.minimum(quick_ceilings(tried, limit, _COARSE, start[:, 0]), _NEVER)
    room = np.where(ceilings > start[:, 0] * _LIFTED, ceilings / start[:, 1], 0.0)
    if room.max() > 0:
        best = int(room.argmax())
        return helps_start, list(variants)[best - 1] if room[0] < _HELPS * room[best] else None, ()
    used = quick_uses(tried, limit, start)
    helpful = [place for place in used.argsort() if used[place] < _HELPS * used[0]]
    if not helpful:
        return helps_start, None, ()
    first, *others = [list(variants)[place - 1] for place in helpful]
    return helps_start, first, _together(variants[first], others, limit)


def _together(inputs: MotionInputs, others: list[Measurement], limit: VibrationClass) -> tuple[Measurement, ...]:
    """The first of some measurements that, taken together, leave nothing too much where it may turn over; else ()."""
    for number, other in enumerate(others[:_TOGETHER], 1):
        inputs = _variants(inputs).get(other, inputs)
        if quick_uses([inputs], limit, _starts([inputs]))[0] <= 1:
            return tuple(others[:number])
    return ()


def _starts(variants: Sequence[MotionInputs]) -> Floats:
    """The lowest and the highest start of each of several inputs, one row each; _NEVER: at no setting."""
    ends = (shakers_of(one, *(corner_of(one, START_WAYS, sign) for sign in (-1, 1))) for one in variants)
    start: Floats = np.minimum(swing_threshold(Shakers.joined(list(ends)), from_top=False), _NEVER).reshape(-1, 2)
    return start


def fits_at_full_kg_m(inputs: MotionInputs) -> float | None:
    """The largest unbalance, in kg m, that is not too much at full strength; None where not even a tenth fits.

    Raises NotInTable for an unknown limit class. Source: that of `motion_plan`; rounding down to steps, this project.
    """
    return _fits_kg_m(inputs, vibration_class(inputs.limit_class), lambda variants: np.ones((len(variants), 2)))


def _fits_kg_m(
    inputs: MotionInputs, limit: VibrationClass, settings: Callable[[Sequence[MotionInputs]], Floats]
) -> float | None:
    """The largest unbalance with which nothing is too much at the settings; None where not even a tenth fits.

    settings: the lowest and the highest to look at, one row for each of several inputs.
    """
    shares = _LIGHTER
    for _ in range(2):  # a coarse look, then a fine one between what fits and what does not
        variants = [_lighter(inputs, float(share)) for share in shares]
        fits = shares[quick_uses(variants, limit, settings(variants)) <= 1]
        if not len(fits):
            return None
        most = float(fits.max())
        shares = np.linspace(most, most + float(_LIGHTER[0] - _LIGHTER[1]), 6)[:-1]
    return most * inputs.unbalance_kg_m.nominal


def _lighter(inputs: MotionInputs, share: float) -> MotionInputs:
    """The same with a part of its weight, as far from the shaft."""
    lighter = replace(inputs, unbalance_kg_m=Spread(*(share * one for one in inputs.unbalance_kg_m)))
    if inputs.inertia_kg_m2 is None:
        return lighter
    return replace(lighter, inertia_kg_m2=Spread(*(share * one for one in inputs.inertia_kg_m2)))


def _resonance(inputs: MotionInputs, states: States, lowest: float) -> tuple[Pair | None, Pair | None]:
    """The settings at which the turning frequency may be the cabinet's own, and those of them that may do harm.

    lowest: at which it may keep turning.
    """
    low, high = natural_rad_s(inputs)
    near = (states.settings >= lowest) & (states.fast_rad_s >= low) & (states.slow_rad_s <= high)
    near &= states.fast_rad_s > 0
    return _ends(states.settings[near]), _ends(states.settings[near & _over_at_top(states)])


def _ends(places: Floats) -> Pair | None:
    """The first and the last of some settings."""
    return (float(places[0]), float(places[-1])) if len(places) else None


def _over_at_top(states: States) -> Truths:
    """Where what stands at the top of the cabinet may be over its limit."""
    over: Truths = states.use_high * motion_value("shift at the top").value > 1
    return over


def _over_top(states: States, start: Pair) -> tuple[Pair, ...]:
    """The settings, from the lowest start on, at which the top of the cabinet may sway too far."""
    over = (states.settings >= start[0]) & _over_at_top(states)
    return of_band(intervals(states.settings, np.full(len(over), ORDER.index(Band.TOO_MUCH)), over), Band.TOO_MUCH)


def _doubts(
    limits: Limits, tuned: Tuning, sway: tuple[Pair, ...], hang: Hang | None, stand: Footing, states: States
) -> tuple[Doubt, ...]:
    low, high = limits.start
    return tuple(
        doubt
        for doubt, holds in (
            (Doubt.NEVER_STARTS, isinf(low)),
            (Doubt.MAY_NEVER_START, isinf(high) and not isinf(low)),
            (Doubt.CEILING_BELOW_START, not isinf(low) and tuned.ceiling <= high and not isinf(tuned.ceiling)),
            (Doubt.START_TOO_WIDE, not isinf(low) and high > _WIDE * low),
            (Doubt.SWAY_EMPTY, not isinf(limits.nominal[1]) and not sway),
            (Doubt.SEVERAL_SPEEDS, hang is not None),
            (Doubt.MAY_CREEP, stand.creeps),
            (Doubt.MAY_HOP, stand.hops),
            (Doubt.UNSETTLED, bool((states.unsettled & (states.settings >= limits.nominal[2])).any())),
        )
        if holds
    )


def _of_running(known: Learnt) -> list[Reading]:
    """The readings of a running shaker that agree."""
    return [known.readings[check] for check in (Check.TURNING, Check.CURRENT) if check in known.readings]


def _passing(inputs: MotionInputs, known: Learnt, check: Check) -> list[Values]:
    """The slowest and fastest machines that turn, or draw, as was found; empty: not found."""
    reading = known.readings.get(check)
    at = inputs.found.turning_at if check is Check.TURNING else inputs.found.current_at
    return speeds_through(inputs, reading, at) if reading else []


def _likeliest(given: MotionInputs, known: Learnt) -> tuple[MotionInputs, Limits, Pair | None]:
    """The inputs round the likeliest machine, its limits, and where 8 of 10 start; None where that is not in doubt.

    Without a reading of the machine the likeliest is what was given. Else it is the middle of all machines that agree
    with the readings: no value is merely cut off at the end of a narrowed range.
    """
    inputs, narrowed = known.inputs, bool(known.readings) or known.in_use
    limits = limits_of(inputs, known.start, [starts_through(inputs, one) for one in _of_running(known)])
    chance = likely_start(
        inputs,
        limits.start,
        limits.nominal[1],
        given if narrowed else None,
        known.ends(Check.TURNING),
        known.ends(Check.CURRENT),
    )
    low, middle, high = chance.start if chance else (limits.start[0], sum(limits.start) / 2, limits.start[1])
    if narrowed:
        sure = middle if isfinite(middle) and (chance or known.start) else None
        inputs = centred(chance.machine(inputs) if chance else inputs, known.readings, sure)
        limits = with_nominal(limits, inputs)
    if not low <= limits.nominal[1] <= high and isfinite(middle):  # ranges that lie askew round the likeliest values
        inputs = centred(inputs, known.readings, middle)
        limits = with_nominal(limits, inputs)
        if not low <= limits.nominal[1] <= high:  # what the readings have decided leaves too little to move
            limits = replace(limits, nominal=(limits.nominal[0], middle, limits.nominal[2]))
    move, start, sustain = limits.nominal
    limits = replace(limits, nominal=(move, start, min(sustain, start)))
    return inputs, limits, (low, high) if chance and (known.start is None or known.in_use) else None


def motor_V_at_start(inputs: MotionInputs) -> Pair:
    """What a meter at the motor shows at the start, over all ranges: winding times mean current, the shaft at rest."""
    _, ohm, amps = _at_start(inputs)
    low, high = ohm * amps
    return float(low), float(high)


def _at_start(inputs: MotionInputs) -> tuple[Shakers, Floats, Floats]:
    """The earliest and the latest machine, its winding, and its mean current at the start; infinity: never."""
    corners = [corner_of(inputs, START_WAYS, sign) for sign in (-1, 1)]
    shakers = shakers_of(inputs, *corners)
    start = swing_threshold(shakers, from_top=False)
    current_A = motor_current(shakers, np.minimum(start, 1.0), np.zeros(len(shakers)))[0]
    ohm = shakers.loop_on_ohm - np.array([corner["path_on_ohm"] for corner in corners])
    return shakers, ohm, np.where(np.isinf(start), inf, current_A)


def _at_bench(inputs: MotionInputs) -> tuple[Pair, Pair]:
    """Voltage at the motor and current just before it turns over on a bench supply, over all ranges.

    The low end: swung over, as where the voltage comes at once. The high end: raised so slowly that the weight never
    swings, so that its arm has to be lifted level; at most what the full voltage gives.
    """
    shakers, ohm, amps = _at_start(inputs)
    full_A = motor_current(shakers, np.ones(len(shakers)), np.zeros(len(shakers)))[0]
    level_A = (gravity_torque_N_m(shakers) + shakers.friction_N_m) / shakers.emf_V_s
    high = float(max(amps[1], min(level_A[1], full_A[1])))
    return (float(ohm[0] * amps[0]), float(ohm[1]) * high), (float(amps[0]), high)


def _slope_Hz(inputs: MotionInputs, start: float) -> float:
    """Turning frequency gained over the full range of settings, at the rate just above start."""
    if isinf(start):
        return 0.0
    settings = np.array([start, min(start + _RISE, 1.0)])
    below, above = turning(shakers_of(inputs, nominal_of(inputs)), settings).speed_rad_s[0]
    return float((above - below) / TURN / (settings[1] - settings[0])) if settings[1] > settings[0] else 0.0


def _as_left(
    found: Found, curve: tuple[CurvePoint, ...], lowest: float, tuned: Tuning
) -> tuple[CurvePoint | None, Compared | None]:
    """The point of the curve in use, and whether it may turn there and is sure not to be too much.

    lowest: the lowest setting at which it may start, before anything was found.
    """
    if found.as_left is None:
        return None, None
    here = found.as_left
    point = min(curve, key=lambda one: abs(one.setting - here))
    top = max(min(tuned.stop, tuned.ceiling, 1.0), min(lowest, 1.0))
    outside = here < lowest - 1e-9 or here > top + 1e-9
    return point, Compared(Check.AS_LEFT, here, (min(tuned.begin, lowest), top), outside)


def motion_plan(inputs: MotionInputs) -> MotionPlan:
    """The whole plan of one shaker's motion; pure and deterministic.

    Raises OutsideValidity for an input that cannot be; NotInTable for an unknown limit class.
    Source: S. H. Strogatz, Nonlinear Dynamics and Chaos, driven pendulum; W. T. Thomson, Theory of Vibration with
    Applications, rotating unbalance; corner rules derived here.
    """
    refuse(inputs)
    limit = vibration_class(inputs.limit_class)
    known = learnt(inputs)
    inputs, limits, likely = _likeliest(inputs, known)
    turned, drew = (_passing(inputs, known, check) for check in (Check.TURNING, Check.CURRENT))
    move, start, sustain = limits.nominal
    tops = _speed_setting(inputs, nominal_of(inputs), *speed_corners(inputs, 1))
    sway_top, sure_top = float(tops[0]), float(tops[1:].min())
    exact = [move, start, sustain, *limits.start, *limits.sustain, *limits.move, sway_top, sure_top]
    exact += [just * (1 + side) for just in (limits.move[0], limits.start[0], sway_top) for side in (-1e-9, 1e-9)]
    exact += [inputs.found.turning_at] if turned else []
    if inputs.found.as_left is not None:
        exact.append(inputs.found.as_left)
    settings = setting_grid(inputs.port_steps, exact)
    states = states_of(inputs, limit, settings, sustain, turned, drew)
    bands = bands_of(inputs, states, limits)
    sway = of_band(bands, Band.SWAY)
    tuned = tuning(settings, states.use_high, limits.start[0], _slope_Hz(inputs, start), inputs.port_steps)
    hang = hang_of(inputs, states, limits.sustain, sustain)
    stand = (
        footing(
            inputs.unbalance_kg_m.high * float(states.fast_rad_s[-1]) ** 2,
            inputs.mass_kg.low,
            motion_value("friction of the feet").value,
        )
        if states.fast_rad_s[-1] > 0
        else Footing(False, False)
    )
    resonance, harmful = _resonance(inputs, states, limits.sustain[0])
    kick = _kick(inputs, limits, states, sway_top, sure_top)
    curve = curve_of(states, limits)
    lowest = known.before[0] if known.before else limits.start[0]
    as_left, left = _as_left(inputs.found, curve, min(lowest, limits.start[0]), tuned)
    left = replace(left, narrows=known.in_use) if left else None
    doubts = _doubts(limits, tuned, sway, hang, stand, states)
    helps_start, helps_ceiling, helps_also = _helps(inputs, limit, Doubt.CEILING_BELOW_START in doubts)
    fits_kg_m = _fits_kg_m(inputs, limit, _starts) if Doubt.CEILING_BELOW_START in doubts else None
    faint = any(one.band is Band.FAINT for one in bands)
    return MotionPlan(
        limits.move,
        limits.start,
        limits.sustain,
        limits.lift,
        move,
        start,
        sustain,
        likely,
        known.before,
        tuned.begin,
        tuned.step,
        tuned.ceiling,
        tuned.stop,
        motor_V_at_start(inputs),
        *_at_bench(inputs),
        bands,
        sure_bands_of(inputs, states, limits),
        sway,
        curve,
        kick,
        _remedies(inputs, limit, kick, fits_kg_m, faint) if isfinite(start) and not sway else (),
        hang,
        resonance if isfinite(limits.start[0]) else None,
        harmful if isfinite(limits.start[0]) else None,
        doubts,
        helps_start,
        helps_ceiling,
        helps_also,
        fits_kg_m,
        tuple(known.compared + ([left] if left else [])),
        as_left,
        _over_top(states, limits.start),
        stand,
        inputs,
    )
