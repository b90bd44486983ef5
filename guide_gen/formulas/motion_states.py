"""The state of a shaker at every setting: thresholds, speeds, lines of the cabinet's motion, bands."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from math import inf

import numpy as np

from guide_gen.formulas.bands import ORDER, Band, BandInterval, band_numbers, intervals, without_slivers
from guide_gen.formulas.cabinet import CROSSING_Hz, greatest_shift, least_shift, limit_share
from guide_gen.formulas.drive import Floats, Truths
from guide_gen.formulas.motion_inputs import (
    MotionInputs,
    Values,
    nominal_of,
    shakers_of,
    speed_corners,
    start_corners,
)
from guide_gen.formulas.spread import TURN, Pair
from guide_gen.formulas.swing import (
    EVEN_FROM,
    LINES,
    settled_turns,
    steady_speeds,
    swing_rad_s,
    swing_threshold,
    thresholds,
    turning,
)
from guide_gen.published.vibration import VibrationClass

_NEAR_OWN = (1.1, 1.3)  # times the cabinet's own sway; this project, against random machines
_JUMP_HZ = 1.0  # two tuning steps: a smaller jump is not worth a word
_STARTS = 25  # settings looked at where it may turn over
_SPEEDS = 400  # looked at between standstill and the fastest corner


class State(StrEnum):
    """What the weight does at a setting when nobody helps it."""

    STILL = "still"
    ROCKS = "rocks"
    NEEDS_KICK = "needs kick"  # rocks, but would keep turning once turned
    TURNS = "turns"


@dataclass(frozen=True)
class CurvePoint:
    """The nominal state at a setting, with what the ranges allow.

    turning_Hz is what it turns at or, in NEEDS_KICK, would keep; zero below. slow_Hz, fast_Hz: over all ranges; zero
    where the least or the most favourable of them keeps no turn. accel, shift: of the line that takes most of the
    limit; line: which multiple of the turning frequency that is. accel_low, accel_high: over all ranges, as with the
    speeds.
    limit_share_high: the largest over all ranges.
    """

    setting: float
    state: State
    turning_Hz: float
    slow_Hz: float
    fast_Hz: float
    accel_m_s2: float
    shift_m: float
    line: int
    uneven: bool
    limit_share: float
    limit_share_high: float
    accel_low_m_s2: float
    accel_high_m_s2: float


@dataclass(frozen=True)
class Limits:
    """Thresholds, over all ranges and nominal."""

    move: Pair
    start: Pair
    sustain: Pair
    lift: Pair
    nominal: tuple[float, float, float]  # move, start, sustain


def limits_of(inputs: MotionInputs, begun: Pair | None, through: Sequence[list[Values]] = ()) -> Limits:
    """Thresholds over all corners; begun: the settings between which it was seen to start.

    through: for each reading the machines that pass through it and start or stop earliest and latest.
    """
    all_of = thresholds(shakers_of(inputs, nominal_of(inputs), *start_corners(inputs)))

    def over_all(values: Floats) -> Pair:
        return float(values.min()), float(values.max())

    start, sustain = over_all(all_of.start), over_all(all_of.sustain)
    for machines in filter(None, through):
        passing = shakers_of(inputs, *machines)
        starts = swing_threshold(passing, from_top=False)
        start = _inside(start, over_all(starts))
        sustain = _inside(sustain, over_all(np.minimum(swing_threshold(passing, from_top=True), starts)))
    if begun:
        # it did start there: what the box of inputs still allows beyond is ruled out
        start = (max(start[0], begun[0]), min(start[1], begun[1]))
        start = start if start[0] <= start[1] else begun
        sustain = (min(sustain[0], start[1]), min(sustain[1], start[1]))
    nominal = (float(all_of.move[0]), float(all_of.start[0]), float(all_of.sustain[0]))
    return Limits(over_all(all_of.move), start, sustain, over_all(all_of.static_lift), nominal)


def _inside(whole: Pair, part: Pair) -> Pair:
    """What two ranges have in common; the whole where that is nothing."""
    low, high = max(whole[0], part[0]), min(whole[1], part[1])
    return (low, high) if low <= high else whole


def with_nominal(limits: Limits, inputs: MotionInputs) -> Limits:
    """The same ranges with the thresholds of the nominal inputs."""
    one = thresholds(shakers_of(inputs, nominal_of(inputs)))
    return replace(limits, nominal=(float(one.move[0]), float(one.start[0]), float(one.sustain[0])))


@dataclass(frozen=True)
class States:
    """All that the curve and the bands are made of, one value a setting.

    several: more than one steady speed at the nominal inputs; may_hang: at any corner. shift_m, accel_m_s2, line: of
    the line that takes most of the limit; felt_m_s2: of the one that is felt most. unsettled: no mean speed gives
    itself back there.
    """

    settings: Floats
    speed_rad_s: Floats
    slow_rad_s: Floats
    fast_rad_s: Floats
    several: Truths
    may_hang: Truths
    shift_m: Floats
    accel_m_s2: Floats
    accel_low_m_s2: Floats
    accel_high_m_s2: Floats
    felt_m_s2: Floats
    line: Floats
    uneven: Truths
    unsettled: Truths
    use: Floats
    use_high: Floats
    use_low: Floats


@dataclass(frozen=True)
class Hang:
    """Where more than one steady speed is possible: it may hang at the slow one and jump to the fast one.

    low, high: the settings between which that is so; on the way up it jumps at high. slow_Hz, fast_Hz: at high.
    likeliest: already at the nominal inputs, else only at an unfavourable end of the ranges.
    """

    low: float
    high: float
    slow_Hz: float
    fast_Hz: float
    likeliest: bool


def hang_of(inputs: MotionInputs, states: States, sustain: Pair, nominal_sustain: float) -> Hang | None:
    """The first settings at which the balance has several roots well apart, nominal or else at the slow corners."""
    for likeliest, where in ((True, states.several), (False, states.may_hang)):
        places = np.flatnonzero(where & (states.settings >= (nominal_sustain if likeliest else sustain[0])))
        if not len(places):
            continue
        apart = np.flatnonzero(np.diff(places) > 1)
        first, last = places[0], places[apart[0]] if len(apart) else places[-1]
        cases = [nominal_of(inputs)] if likeliest else [*speed_corners(inputs, -1), *speed_corners(inputs, 1)]
        for case in cases:
            roots = steady_speeds(shakers_of(inputs, case), float(states.settings[last]))
            if len(roots) > 1 and roots[-1] - roots[0] >= _JUMP_HZ * TURN:
                low, high = float(states.settings[first]), float(states.settings[last])
                return Hang(low, high, roots[0] / TURN, roots[-1] / TURN, likeliest)
    return None


def natural_rad_s(inputs: MotionInputs) -> Pair:
    """Both ends of the natural frequency, as angular ones."""
    return inputs.natural_Hz.low * TURN, inputs.natural_Hz.high * TURN


def _widest(inputs: MotionInputs, limit: VibrationClass, speeds: Floats) -> tuple[Floats, Floats, Floats, Floats]:
    """At each even speed, over the cabinet's ranges: largest and smallest share of the limit, then of acceleration."""
    some = np.maximum(speeds, 1e-6)
    most, least = inputs.unbalance_kg_m.high * some**2, inputs.unbalance_kg_m.low * some**2
    large = greatest_shift(most, inputs.mass_kg.low, natural_rad_s(inputs), inputs.damping.low, some)
    small = least_shift(least, inputs.mass_kg.high, natural_rad_s(inputs), inputs.damping.high, some)
    return limit_share(limit, some, large), limit_share(limit, some, small), large * some**2, small * some**2


def _between(low: Floats, high: Floats, speeds: Floats, values: Floats, greatest: bool) -> Floats:
    """The greatest or least value over the speeds from low to high, one range a row; values at both ends count."""
    inside = (speeds >= low[:, None]) & (speeds <= high[:, None])
    ends = [np.interp(low, speeds, values), np.interp(high, speeds, values)]
    result: Floats
    if greatest:
        result = np.maximum(np.where(inside, values, -inf).max(axis=1), np.maximum(*ends))
    else:
        result = np.minimum(np.where(inside, values, inf).min(axis=1), np.minimum(*ends))
    return result


def _passed(
    inputs: MotionInputs, some: Floats, whole: tuple[Floats, Floats], settings: Floats, at: float | None
) -> tuple[Floats, Floats]:
    """The slowest and the fastest of the machines that pass a reading, at each setting.

    whole: of all machines. Near the cabinet's own sway and below it few machines do not stand for all: it goes over
    into the whole there. at: the setting of a reading of the speed itself, which rises with the setting.
    """
    own, parts = natural_rad_s(inputs)[1], []
    for end, all_ends in zip((some.min(axis=0), some.max(axis=0)), whole, strict=True):
        trusted = np.clip((end / own - _NEAR_OWN[0]) / (_NEAR_OWN[1] - _NEAR_OWN[0]), 0, 1)
        parts.append(all_ends + trusted * (end - all_ends))
    slow, fast = np.maximum.accumulate(parts[0]), np.minimum.accumulate(parts[1][::-1])[::-1]
    if at is not None:
        here = int(np.abs(settings - at).argmin())
        slow = np.where(settings >= settings[here], np.maximum(slow, some[:, here].min()), slow)
        fast = np.where(settings <= settings[here], np.minimum(fast, some[:, here].max()), fast)
    return slow, fast


def states_of(
    inputs: MotionInputs,
    limit: VibrationClass,
    settings: Floats,
    sustain: float,
    turned: list[Values] | None = None,
    drew: list[Values] | None = None,
) -> States:
    """All states; below sustain a turn is not followed round.

    turned, drew: the slowest and fastest machines that turn, or draw, as was found; None: not found.
    """
    slow_ones = speed_corners(inputs, -1)
    corners = [*slow_ones, *speed_corners(inputs, 1)]
    nominal = shakers_of(inputs, nominal_of(inputs))
    passing = [machines for machines in (turned, drew) if machines]
    all_of = turning(
        shakers_of(inputs, nominal_of(inputs), *corners, *(one for each in passing for one in each)), settings
    )
    speed = all_of.speed_rad_s[0].copy()
    count = 1 + len(corners)
    slow, fast = all_of.speed_rad_s[: 1 + len(slow_ones)].min(axis=0), all_of.speed_rad_s[:count].max(axis=0)

    # lines of the turn: even ones first, then those that are followed round
    force = np.zeros((len(settings), LINES))
    own = float(swing_rad_s(nominal)[0])
    uneven = (speed > 0) & (speed < EVEN_FROM * own) & (settings >= sustain)
    unsettled, off = np.zeros(len(settings), bool), np.ones(len(settings))
    if uneven.any():
        lanes = nominal.take(np.zeros(int(uneven.sum()), int))
        settled = settled_turns(lanes, settings[uneven], speed[uneven])
        force[uneven] = settled.force_N
        unsettled[uneven] = ~settled.settled
        speed[uneven] = settled.speed_rad_s
        # what an uneven turn is off the smooth balance, its corners are off too
        off[uneven] = np.where(settled.turns, speed[uneven] / all_of.speed_rad_s[0, uneven], 1)
        slow, fast = slow * np.minimum(off, 1), fast * np.maximum(off, 1)
        fast = np.minimum(fast, np.maximum(fast[-1], speed))  # no faster than at the full setting
    for machines in passing:
        reading_at = inputs.found.turning_at if machines is turned else None
        # what was found turning is off by as much as the turn at its setting, whatever that is
        known = float(off[np.abs(settings - inputs.found.turning_at).argmin()]) if machines is turned else 1.0
        some = all_of.speed_rad_s[count : count + len(machines[0]["supply_V"])]  # type: ignore[arg-type]
        count += len(some)
        slowest, fastest = _passed(inputs, some, (slow, fast), settings, reading_at)
        slow = np.maximum(slow, np.minimum(slowest * np.minimum(off, known), speed))
        fast = np.minimum(fast, np.maximum(fastest * np.maximum(off, known), speed))
    even = ~uneven
    force[even, 0] = inputs.unbalance_kg_m.nominal * speed[even] ** 2
    lines = np.maximum(speed[:, None], 1e-6) * np.arange(1, LINES + 1)
    mass, damping, natural = inputs.mass_kg.nominal, inputs.damping.nominal, inputs.natural_Hz.nominal * TURN
    shifts = greatest_shift(force, mass, (natural, natural), damping, lines)
    uses = limit_share(limit, lines, shifts)
    accels = shifts * lines**2
    row = np.arange(len(settings))
    strongest = uses.argmax(axis=1)

    # over all ranges: every speed that the corners allow, and the lines of the nominal turn with the worst cabinet
    speeds = np.unique(np.concatenate([np.linspace(0, float(fast.max()) + 1e-6, _SPEEDS), _near(inputs)]))
    most, least, most_accel, least_accel = _widest(inputs, limit, speeds)
    pull = inputs.unbalance_kg_m
    up, down = force * pull.high / pull.nominal, force * pull.low / pull.nominal
    worst = greatest_shift(up, inputs.mass_kg.low, natural_rad_s(inputs), inputs.damping.low, lines)
    best = least_shift(down, inputs.mass_kg.high, natural_rad_s(inputs), inputs.damping.high, lines)
    turns = fast > 0
    use_high = np.where(turns, _between(slow, fast, speeds, most, True), 0.0)
    accel_high = np.where(turns, _between(slow, fast, speeds, most_accel, True), 0.0)
    accel_low = np.where(turns, _between(slow, fast, speeds, least_accel, False), 0.0)
    at_best = np.where(uneven, (best * lines**2).max(axis=1), inf)
    return States(
        settings,
        speed,
        slow,
        fast,
        all_of.several[0],
        np.asarray(all_of.several[: 1 + len(corners)].any(axis=0)),
        shifts[row, strongest],
        accels[row, strongest],
        np.minimum(np.minimum(accel_low, at_best), accels[row, strongest]),
        np.maximum(np.maximum(accel_high, (worst * lines**2).max(axis=1) * uneven), accels[row, strongest]),
        accels.max(axis=1),
        strongest + 1.0,
        uneven & (speed > 0),
        unsettled,
        uses.max(axis=1),
        np.maximum(np.maximum(use_high, (limit_share(limit, lines, worst)).max(axis=1) * uneven), uses.max(axis=1)),
        np.where(turns, _between(slow, fast, speeds, least, False), 0.0),
    )


def quick_ceilings(variants: Sequence[MotionInputs], limit: VibrationClass, settings: Floats, starts: Floats) -> Floats:
    """The first setting of each of several inputs, from its start on, at which it may be too much; infinity: none.

    settings: those to look at, rising. An even turn is taken.
    """
    each = zip(variants, starts.tolist(), strict=True)
    return np.array([_first_over(one, limit, settings, start) for one, start in each])


def quick_uses(variants: Sequence[MotionInputs], limit: VibrationClass, starts: Floats) -> Floats:
    """The largest share of the limit of each of several inputs where it may turn over: from the first to the last of
    its starts, one row each. An even turn is taken."""
    return np.array(
        [
            _uses(one, limit, np.linspace(min(low, 1.0), min(high, 1.0), _STARTS))[0].max()
            for one, (low, high) in zip(variants, starts.tolist(), strict=True)
        ]
    )


def _uses(inputs: MotionInputs, limit: VibrationClass, settings: Floats) -> tuple[Floats, Floats]:
    """At each setting: the largest share of the limit over all ranges, and the fastest turn."""
    corners = [*speed_corners(inputs, -1), *speed_corners(inputs, 1)]
    rad_s = turning(shakers_of(inputs, *corners), settings).speed_rad_s
    speeds = np.unique(np.concatenate([np.linspace(0, float(rad_s.max()) + 1e-6, _SPEEDS), _near(inputs)]))
    use = _between(rad_s.min(axis=0), rad_s.max(axis=0), speeds, _widest(inputs, limit, speeds)[0], True)
    return use, rad_s.max(axis=0)


def _first_over(inputs: MotionInputs, limit: VibrationClass, settings: Floats, start: float) -> float:
    use, fastest = _uses(inputs, limit, settings)
    over = (np.append(settings[1:], 1.0) > start) & (use > 1) & (fastest > 0)
    return max(float(settings[over.argmax()]), start) if over.any() else inf


def _near(inputs: MotionInputs) -> Floats:
    """Speeds close together round both ends of the natural frequency, and on both sides of the limit's crossing."""
    low, high = natural_rad_s(inputs)
    narrow = 1 + inputs.damping.low * np.linspace(-3, 3, 25)
    crossing = CROSSING_Hz * TURN * np.array([1 - 1e-9, 1.0])
    speeds: Floats = np.maximum(np.concatenate([low * narrow, high * narrow, crossing]), 0.0)
    return speeds


def bands_of(inputs: MotionInputs, states: States, limits: Limits) -> tuple[BandInterval, ...]:
    """At the nominal inputs, nobody helping."""
    move, start, _ = limits.nominal
    turns = (states.settings >= start) & (states.speed_rad_s > 0)
    resting = np.where(states.settings < move, ORDER.index(Band.NO_MOTION), ORDER.index(Band.BUZZ))
    moving = band_numbers(states.speed_rad_s / TURN, states.felt_m_s2, states.use, inputs.sway_Hz, inputs.felt_m_s2)
    return without_slivers(intervals(states.settings, np.where(turns, moving, resting)), inputs.port_steps)


def sure_bands_of(inputs: MotionInputs, states: States, limits: Limits) -> tuple[BandInterval, ...]:
    """What holds over all ranges."""
    settings = states.settings
    turns = (settings >= limits.start[1]) & (states.slow_rad_s > 0)
    acceptable = turns & (states.use_high <= 1)
    felt = states.felt_m_s2 >= inputs.felt_m_s2
    slow_enough = states.fast_rad_s <= inputs.sway_Hz * TURN * (1 + 1e-9)
    holds = [
        (Band.NO_MOTION, settings < limits.move[0]),
        (Band.BUZZ, (settings >= limits.move[1]) & (settings < limits.start[0])),
        (Band.FAINT, acceptable & (states.accel_high_m_s2 < inputs.felt_m_s2)),
        (Band.SWAY, acceptable & felt & slow_enough),
        (Band.VIBRATION, acceptable & felt & (states.slow_rad_s > inputs.sway_Hz * TURN)),
        (Band.TOO_MUCH, turns & (states.use_low > 1)),
    ]
    numbers = np.zeros(len(settings))
    known = np.zeros(len(settings), bool)
    for band, where in holds:
        numbers[where & ~known] = ORDER.index(band)
        known |= where
    return intervals(settings, numbers, known)


def curve_of(states: States, limits: Limits) -> tuple[CurvePoint, ...]:
    """The points of the curve."""
    move, start, sustain = limits.nominal
    points = []
    for number, setting in enumerate(states.settings.tolist()):
        if setting >= start and states.speed_rad_s[number] > 0:
            state = State.TURNS
        elif setting >= sustain and states.speed_rad_s[number] > 0:
            state = State.NEEDS_KICK
        else:
            state = State.ROCKS if setting >= move else State.STILL
        goes = 1.0 if state in (State.TURNS, State.NEEDS_KICK) else 0.0
        may = 1.0 if setting >= limits.sustain[0] else 0.0
        must = 1.0 if setting >= limits.sustain[1] else 0.0
        points.append(
            CurvePoint(
                setting,
                state,
                goes * float(states.speed_rad_s[number]) / TURN,
                must * float(states.slow_rad_s[number]) / TURN,
                may * float(states.fast_rad_s[number]) / TURN,
                goes * float(states.accel_m_s2[number]),
                goes * float(states.shift_m[number]),
                int(states.line[number]),
                bool(states.uneven[number]),
                goes * float(states.use[number]),
                float(states.use_high[number]),
                must * float(states.accel_low_m_s2[number]),
                may * float(states.accel_high_m_s2[number]),
            )
        )
    return tuple(points)
