"""What a phone's accelerometer log says: turning frequency and strength, or natural frequency and damping.

The times of such a log are uneven, so nothing is resampled: spectra and lines are fitted by least squares at the times
as they stand. Source: N. R. Lomb, Least-squares frequency analysis of unequally spaced data (1976); that the power of
noise at one frequency is spread exponentially: J. D. Scargle, Studies in astronomical time series analysis II (1982),
from memory; the rest is derived here.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import hypot, inf, log2, pi, sqrt

import numpy as np
from numpy.typing import NDArray

from guide_gen.formulas.cabinet import limit_share
from guide_gen.formulas.drive import Floats
from guide_gen.formulas.log_text import (
    GRAVITY_M_S2,
    G,
    LogProblem,
    Trouble,
    like_gravity,
    log_table,
    missing_time,
    not_acceleration,
)
from guide_gen.published.vibration import VibrationClass, motion_value

# How long to record: frequencies 2 / T apart are told apart behind a Hann window (F. J. Harris, On the use of windows
# for harmonic analysis, 1978), here 0.1 Hz, a fifth of a tuning step; and each quarter of it, which must agree with the
# others in frequency, is then as long as the shortest log that is read.
RECORD_S = 20.0
_SHORTEST_S = 5.0
_FEWEST = 200
_SLOWEST_HZ = 20.0
_LONGEST_S = 60.0  # more of a log adds time, not knowledge
_MOST = 12_000
_LINES = 5
_LOWEST_HZ = 0.5
_HIGHEST_HZ = 60.0
_LARGEST_TEXT = 50_000_000
_BACKWARDS = 0.1  # share of the rows; blocks in another order have few such steps, another quantity half of them
_SHARED = 0.2  # share of the rows; fewer can be spared
_MILLI_G = G / 1000
_NO_GRAVITY_M_S2 = 2.0  # an offset may be left where the phone took gravity off
_NO_UNIT = 30.0  # a mean beyond three times that of gravity is in no unit of acceleration
_LEVELS = 100  # steps of resolution in a swing that is cut: over half the range of a sensor of 8 bits, the coarsest
# A sine in steps stays at its extreme up to 1 / (sqrt(2) - 1) = 2.4 times as often as at the next step; more when it is
# sampled in time with its turns.
_REPEATS = 6.0
_HUM_Hz = (50.0, 60.0, 100.0, 120.0)  # mains and its force, which comes twice a period
_HUM_NEAR_Hz = 0.15
_MIRRORED = 0.98  # of the strength: a mirror image that fits as well may be the true frequency
_CHANCE = 1e-4  # that noise alone makes a line anywhere in the spectrum
_CHANCE_OF_PART = 1e-2  # that noise alone makes one at a half or a third of the strongest
_SURE_PART = 0.15  # of the strongest: a weight that turns at a half or a third of it
# What a weight that turns at half the cabinet's own frequency does at that half, of what it does at the whole: F1 / 3 M
# against F2 / 2 z M. Its fall speeds it up, so that F2 / F1 is 2 (W / w)², at most about 1, where W is the frequency at
# which it swings hanging down. Estimates: a damping z of 0.015 or more, W of 2.5 Hz or less.
_LEAST_PART = 0.01
_HANGING_Hz = 2.5
_FADES = 0.1  # of a swing's height, from first to last: less is no decay
_OTHER_MOTION = 0.1  # share of a decay's power that is neither a single decay nor noise
FASTEST_TURN_Hz = 35.0  # a shaker at full voltage, 2100 rpm; this project, an estimate
ENOUGH_SAMPLES = 2.5  # in a turn


class LogWarning(StrEnum):
    """What makes a reading doubtful, as a sentence."""

    ALIASED = (
        "The frequency found is more than 0.4 of the sampling rate: the true one may be another. "
        "Record again with a higher rate."
    )
    CLIPPED = (
        "The strongest samples all have the same value: the phone's range ended there, the true strength is larger. "
        "Choose a wider range or turn the shaker down."
    )
    GAPS = "Samples are missing in places: close other programs on the phone and record again if the result matters."
    UNSTEADY = (
        "The frequency changed during the record: the speed was not steady. Let it run for half a minute before you "
        "record, and keep the setting still."
    )
    HUM = (
        "Mains hum looks just like the strongest frequency here. Record once more with the shaker off: what is still "
        "there does not come from it."
    )
    VARYING = (
        "The strength rose and fell during the record: the shaker did not run steadily. Let it run for half a minute "
        "before you record, and keep the setting still."
    )
    UNIT_ASSUMED = (
        "The log does not name its unit and has no gravity to tell it by: m/s² was assumed. If it is in g, the true "
        "strength is 9.8 times what is shown here."
    )
    UNIT_BY_GRAVITY = (
        "The unit in the header does not fit the gravity in the log: the strength was scaled by that gravity, not by "
        "the header."
    )
    UNIT_DOUBTFUL = (
        "At rest the log shows neither gravity nor zero: the phone turned while it recorded, or its unit is not what "
        "it seems, and the strength may be wrong."
    )


@dataclass(frozen=True)
class Samples:
    """A log in SI: time from zero, three axes by samples, whether gravity is still in it, median rate, warnings.

    whole_s: how long the log lasts, of which the samples may be the beginning.
    """

    time_s: Floats
    accel_m_s2: Floats
    with_gravity: bool
    rate_Hz: float
    warnings: tuple[LogWarning, ...]
    whole_s: float


@dataclass(frozen=True)
class Line:
    """A multiple of the turning frequency: peak acceleration, peak shift, share of the limit."""

    number: int
    frequency_Hz: float
    accel_m_s2: float
    shift_m: float
    limit_share: float


@dataclass(frozen=True)
class Running:
    """A log of the running shaker. strongest: the line that takes the largest share of the limit.

    or_turning_Hz: another frequency at which it may turn as well, by what the log shows: a part of the strongest, or
    what the sampling mirrors; None where the log leaves no doubt. mirrored: whether it is the latter. swell: the
    strength in the strongest quarter of the record, by that in all of it.
    """

    turning_Hz: float
    or_turning_Hz: float | None
    mirrored: bool
    lines: tuple[Line, ...]
    strongest: Line
    noise_m_s2: float
    warnings: tuple[LogWarning, ...]
    swell: float


@dataclass(frozen=True)
class Nudge:
    """A log of a pushed cabinet. damping: None where friction, not a damper, stops it.

    check_damping: the same from the heights of the swings alone; extrema: how many there were. The errors are standard
    errors of the fit: noise alone, not what differs from push to push.
    """

    natural_Hz: float
    damping: float | None
    check_damping: float
    extrema: int
    warnings: tuple[LogWarning, ...]
    natural_error_Hz: float
    damping_error: float


# Reading ------------------------------------------------------------------------------------------------------------


def _unit_of_time(step: float) -> float:
    """Seconds in one unit of the log's time, from its median step."""
    for above, unit in ((1e6, 1e-9), (1e3, 1e-6), (1.0, 1e-3)):
        if step > above:
            return unit
    return 1.0


def read_log(text: str) -> Samples:
    """The samples of a log of unknown make: separator, decimal comma, column names, units of time and acceleration.

    Raises LogProblem with one sentence. At most the first minute and 12 000 samples are kept.
    """
    if len(text) > _LARGEST_TEXT:
        raise LogProblem(Trouble.TOO_LARGE, "The log has more than 50 million characters: cut it to one minute.")
    table = log_table(text)
    rows = table.rows
    if len(rows) < _FEWEST:
        raise LogProblem(
            Trouble.TOO_FEW,
            f"The log has {len(rows)} rows of numbers, at least {_FEWEST} are needed: record for {RECORD_S:g} seconds "
            "or more.",
        )
    if np.mean(np.diff(rows[:, 0]) < 0) > _BACKWARDS:
        raise missing_time()
    rows = rows[np.argsort(rows[:, 0], kind="stable")]
    advances = np.diff(rows[:, 0]) > 0
    _refuse_batches(rows, advances)
    rows = rows[np.concatenate([[True], advances])]
    steps = np.diff(rows[:, 0])
    if not len(steps):
        raise LogProblem(Trouble.NO_NUMBERS, "The time does not advance: the first column must be the time.")
    unit = 1.0 if table.clock else _unit_of_time(float(np.median(steps)))
    time = (rows[:, 0] - rows[0, 0]) * unit
    step = float(np.median(steps)) * unit
    if time[-1] < _SHORTEST_S:
        raise LogProblem(
            Trouble.TOO_SHORT,
            f"The log lasts {time[-1]:.1f} s, at least {_SHORTEST_S:g} s are needed: record for {RECORD_S:g} seconds "
            "or more.",
        )
    if len(time) < _FEWEST:
        raise LogProblem(
            Trouble.TOO_FEW, f"The log has {len(time)} different times, at least {_FEWEST} are needed: record longer."
        )
    if 1 / step < _SLOWEST_HZ:
        raise LogProblem(
            Trouble.TOO_SLOW,
            f"The log has {1 / step:.0f} samples a second, at least {_SLOWEST_HZ:g} are needed: choose the fastest "
            "rate.",
        )
    keep = (time <= _LONGEST_S) & (np.arange(len(time)) < _MOST)
    if time[keep][-1] < _SHORTEST_S:
        raise LogProblem(
            Trouble.TOO_FAST,
            f"The log has {1 / step:.0f} samples a second, more than a shaker needs: record 100 to 500 a second.",
        )
    if table.doubtful and not like_gravity(float(np.linalg.norm(rows[keep, 1:].mean(axis=0)))):
        raise not_acceleration(table.doubtful)
    warnings = _warnings(time[keep], rows[keep, 1:].T, step)
    accel, with_gravity, doubt = _in_m_s2(rows[keep, 1:].T, table.unit_m_s2)
    return Samples(time[keep], accel, with_gravity, 1 / step, (*warnings, *doubt), float(time[-1]))


def _refuse_batches(rows: Floats, advances: NDArray[np.bool_]) -> None:
    """Many rows with the time of the row before and other values; a row that is given twice has the same ones."""
    differs = (rows[1:, 1:] != rows[:-1, 1:]).any(axis=1)
    shared = int((~advances & differs).sum())
    if advances.any() and shared > _SHARED * len(rows):
        raise LogProblem(
            Trouble.TOO_SLOW,
            f"{shared} of the {len(rows)} rows have the same time as the row before: export the record with its time "
            "in milliseconds or finer, one time for each sample.",
        )


def _warnings(time_s: Floats, accel: Floats, step_s: float) -> tuple[LogWarning, ...]:
    warnings = []
    gap = np.diff(time_s)
    wide = gap > max(5 * step_s, 0.1)
    if gap[wide].sum() > 0.5 * time_s[-1]:
        raise LogProblem(
            Trouble.MOSTLY_GAPS, "More than half of the log is missing between its samples: record it again."
        )
    if wide.any():
        warnings.append(LogWarning.GAPS)
    if _clipped(accel):
        warnings.append(LogWarning.CLIPPED)
    return tuple(warnings)


def _in_m_s2(accel: Floats, named_m_s2: float | None) -> tuple[Floats, bool, tuple[LogWarning, ...]]:
    """The axes in m/s², whether gravity is in them, and what is doubtful about the unit.

    The mean vector is gravity, or nearly nothing where the phone took that off: then the header's unit alone counts.
    """
    length = float(np.linalg.norm(accel.mean(axis=1)))
    tried = [unit for unit in (named_m_s2, 1.0, G, _MILLI_G) if unit is not None]
    fitting = [unit for unit in tried if GRAVITY_M_S2[0] <= unit * length <= GRAVITY_M_S2[1]]
    if fitting:
        contradicted = named_m_s2 is not None and fitting[0] != named_m_s2
        return accel * fitting[0], True, (LogWarning.UNIT_BY_GRAVITY,) if contradicted else ()
    if named_m_s2 is None and length > _NO_UNIT:
        raise LogProblem(
            Trouble.NO_UNIT,
            f"At rest the log shows {length:.4g}, which is not gravity (9.8 m/s², 1 g or 1000 mg), and its header "
            "names no unit: export the record in m/s² or in g.",
        )
    unit = named_m_s2 or 1.0
    if unit * length > _NO_GRAVITY_M_S2:
        return accel * unit, False, (LogWarning.UNIT_DOUBTFUL,)
    return accel * unit, False, () if named_m_s2 else (LogWarning.UNIT_ASSUMED,)


def _clipped(accel: Floats) -> bool:
    """Whether an axis keeps its extreme value, and that value is no mere step of a coarse resolution.

    It keeps it for three samples in a row, again and again; or in more than a hundredth of the samples, where a fast
    swing has one or two of them each time; or for four samples, in few swings. The last is for a push, whose first
    swings alone are cut. An axis that hardly moves is left out of the last two, since its few steps repeat by
    themselves.
    """
    reach = np.ptp(accel, axis=1)
    for axis, own in zip(accel, reach, strict=True):
        strong = own > 0.5 * reach.max()
        for at in _at_rails(axis):
            rows = at[:-2] & at[1:-1] & at[2:]
            if at.mean() > 0.01 and (strong or rows.sum() >= 3):
                return True
            longer = rows[:-1] & rows[1:]
            swings = int((np.diff(longer.astype(int)) == 1).sum())
            if swings >= 2 and strong:
                return True
    return False


def _at_rails(axis: Floats) -> list[NDArray[np.bool_]]:
    """Which samples have the axis' lowest or highest value, where it is far more frequent than the values next to it.

    None where the whole swing has but a few steps of resolution: a coarse sine stays at its extremes by itself.
    """
    values, counts = np.unique(axis, return_counts=True)
    if len(values) < 3 or np.ptp(values) < _LEVELS * np.diff(values).min():
        return []
    ends = ((values[0], counts[0], counts[1:4]), (values[-1], counts[-1], counts[-4:-1]))
    return [
        axis == value for value, count, beside in ends if count > _REPEATS * beside.max() and count < 0.9 * len(axis)
    ]


def lateral(samples: Samples) -> Floats:
    """The signal along the direction that moves most, gravity and mean removed."""
    mean = samples.accel_m_s2.mean(axis=1, keepdims=True)
    moving = samples.accel_m_s2 - mean
    if samples.with_gravity:
        down = mean[:, 0] / np.linalg.norm(mean)
        moving = moving - np.outer(down, down @ moving)
    _, directions = np.linalg.eigh(moving @ moving.T)
    result: Floats = directions[:, -1] @ moving
    if not np.ptp(result) > 0:
        raise LogProblem(Trouble.NO_MOTION, "The log shows no motion at all: check that the phone lay on the cabinet.")
    return result


# Spectrum and lines -------------------------------------------------------------------------------------------------


def _hann(time_s: Floats) -> Floats:
    result: Floats = 0.5 - 0.5 * np.cos(2 * pi * (time_s - time_s[0]) / (time_s[-1] - time_s[0]))
    return result


def spectrum(time_s: Floats, signal: Floats, rate_Hz: float) -> tuple[Floats, Floats]:
    """Frequencies and amplitudes of an unevenly timed signal, without resampling."""
    length = float(time_s[-1] - time_s[0])
    low, high = max(_LOWEST_HZ, 3 / length), min(_HIGHEST_HZ, 0.45 * rate_Hz)
    step = 1 / (8 * length)
    frequencies = np.arange(low, high, step)
    window = _hann(time_s)
    turn = np.exp(-2j * pi * low * time_s) * (window * (signal - np.average(signal, weights=window)))
    on = np.exp(-2j * pi * step * time_s)
    sums = np.empty(len(frequencies), complex)
    for place in range(len(frequencies)):
        sums[place] = turn.sum()
        turn *= on
    return frequencies, np.abs(sums) * 2 / window.sum()


def _solved(
    time_s: Floats, signal: Floats, weights: Floats, frequencies: Sequence[float]
) -> tuple[Floats, NDArray[np.float64]]:
    """Columns of one weighted fit of a constant, a trend and the frequencies, and how much of each."""
    middle = time_s - time_s.mean()
    columns = [np.ones_like(time_s), middle]
    for frequency in frequencies:
        columns += [np.cos(2 * pi * frequency * middle), np.sin(2 * pi * frequency * middle)]
    root = np.sqrt(weights)
    stacked = np.stack(columns, axis=1)
    return stacked, np.linalg.lstsq(stacked * root[:, None], signal * root, rcond=None)[0]


def _fit(time_s: Floats, signal: Floats, weights: Floats, frequencies: Sequence[float]) -> Floats:
    """Amplitude of each frequency in one weighted fit with a constant and a trend."""
    _, solved = _solved(time_s, signal, weights, frequencies)
    amplitudes: Floats = np.hypot(solved[2::2], solved[3::2])
    return amplitudes


def _noise_beside(time_s: Floats, signal: Floats, lines_Hz: Sequence[float], at_Hz: float) -> float:
    """Middle amplitude of what the lines leave at frequencies close to one: uneven times smear a strong line."""
    weights = _hann(time_s)
    columns, solved = _solved(time_s, signal, weights, lines_Hz)
    left = (signal - columns @ solved) * weights
    apart = np.arange(2.0, 10.5, 0.5) / float(time_s[-1] - time_s[0])
    near = np.concatenate([at_Hz - apart, at_Hz + apart])
    sums = np.exp(-2j * pi * np.outer(near[near > 0], time_s)) @ left
    return float(np.median(np.abs(sums))) * 2 / float(weights.sum())


def _golden(value: Callable[[float], float], low: float, high: float, rounds: int = 36) -> float:
    """Where a value is greatest between low and high."""
    share = (5**0.5 - 1) / 2
    left, right = high - share * (high - low), low + share * (high - low)
    at_left, at_right = value(left), value(right)
    for _ in range(rounds):
        if at_left < at_right:
            low, left, at_left = left, right, at_right
            right = low + share * (high - low)
            at_right = value(right)
        else:
            high, right, at_right = right, left, at_left
            left = high - share * (high - low)
            at_left = value(left)
    return (low + high) / 2


def _refined(time_s: Floats, signal: Floats, near_Hz: float, reach_Hz: float) -> float:
    weights = _hann(time_s)
    low = max(near_Hz - reach_Hz, 1e-3)
    return _golden(lambda f: float(_fit(time_s, signal, weights, [f])[0]), low, near_Hz + reach_Hz)


def _quarters(time_s: Floats, signal: Floats, top_Hz: float, rate_Hz: float) -> list[tuple[float, float]]:
    """Frequency and amplitude of the strongest line in each quarter of the record."""
    edges = np.linspace(time_s[0], time_s[-1], 5)
    found = []
    for begin, end in pairwise(edges):
        part = (time_s >= begin) & (time_s <= end)
        if part.sum() < 20:
            continue
        frequencies, amplitudes = spectrum(time_s[part], signal[part], rate_Hz)
        near = np.abs(frequencies - top_Hz) < 0.25 * top_Hz
        if near.any():
            rough = float(frequencies[near][amplitudes[near].argmax()])
            found.append(_near(time_s[part], signal[part], rough))
    return found


def stands_out(amplitudes: Floats, chance: float = _CHANCE) -> bool:
    """Whether a spectrum has a frequency that noise alone would hardly make: with this chance or less, anywhere in it.

    At one frequency noise exceeds a power of q² medians with a chance of 2^-q², since its power is spread
    exponentially; the chances of all frequencies together are at most their sum.
    """
    if not len(amplitudes):
        return False
    return float(amplitudes.max()) > float(np.median(amplitudes)) * sqrt(log2(len(amplitudes) / chance))


def read_running(samples: Samples, limit: VibrationClass) -> Running:
    """Turning frequency and the strength of its lines, from a log of the running shaker.

    Where a line at a half or a third of the strongest one stands clear, that is the turning frequency: a slow weight
    shakes a cabinet at twice its speed. Raises LogProblem.
    """
    time, signal = samples.time_s, lateral(samples)
    length = float(time[-1] - time[0])
    frequencies, amplitudes = spectrum(time, signal, samples.rate_Hz)
    noise = float(np.median(amplitudes))
    if not stands_out(amplitudes):
        raise LogProblem(
            Trouble.NO_MOTION,
            "No frequency stands out of the noise: lay the phone nearer to a running shaker, or push the cabinet "
            "harder, and record again.",
        )
    top = _refined(time, signal, float(frequencies[amplitudes.argmax()]), 1 / length)
    image, fits = _image(time, signal, top, samples.rate_Hz)
    if fits > 1 / _MIRRORED and image:
        top, image = image, None
    clipped = LogWarning.CLIPPED in samples.warnings
    quarters = _quarters(time, signal, top, samples.rate_Hz) or [(top, 0.0)]
    steady = max(frequency for frequency, _ in quarters) <= 1.03 * min(frequency for frequency, _ in quarters)
    height = float(_fit(time, signal, _hann(time), [top])[0])
    swell = max(max(amplitude for _, amplitude in quarters) / height, 1.0)
    turning, part = (top, None) if clipped else _part_of(time, signal, top, samples.rate_Hz)
    weights = _hann(time)
    numbers = [number for number in range(1, _LINES + 1) if number * turning < 0.45 * samples.rate_Hz] or [1]
    strengths = _fit(time, signal, weights, [number * turning for number in numbers])
    lines = tuple(
        _line(number, number * turning, float(strength), limit)
        for number, strength in zip(numbers, strengths, strict=True)
    )
    warnings = list(samples.warnings)
    if turning > 0.4 * samples.rate_Hz or top > 0.4 * samples.rate_Hz:
        warnings.append(LogWarning.ALIASED)
    if not steady:
        warnings.append(LogWarning.UNSTEADY)
    if _like_hum(time, signal, top, samples.rate_Hz):
        warnings.append(LogWarning.HUM)
    strongest = max(lines, key=lambda line: line.limit_share)
    other = image or (part if steady else None)
    return Running(turning, other, image is not None, lines, strongest, noise, tuple(warnings), swell)


def _part_of(time_s: Floats, signal: Floats, top_Hz: float, rate_Hz: float) -> tuple[float, float | None]:
    """Turning frequency by the strongest line and those at a third and a half of it, and what it may be as well.

    What a range cuts off comes back as lines that may fall on a part of the strongest: they are no sign of the speed.
    """
    weights = _hann(time_s)
    height = float(_fit(time_s, signal, weights, [top_Hz])[0])
    perhaps = None
    multiples = [number * top_Hz for number in range(1, _LINES + 1) if number * top_Hz < 0.45 * rate_Hz] or [top_Hz]
    for part in (3, 2):
        if top_Hz / part < max(_LOWEST_HZ, 2 / float(time_s[-1] - time_s[0])):
            continue
        below = float(_fit(time_s, signal, weights, [top_Hz / part, top_Hz])[0])
        floor = _noise_beside(time_s, signal, multiples, top_Hz / part) * sqrt(log2(1 / _CHANCE_OF_PART))
        if below > max(_SURE_PART * height, floor):
            return top_Hz / part, None
        least = _LEAST_PART * height * max((top_Hz / part / _HANGING_Hz) ** 2 / 2, 1.0)
        if below > max(floor, least) or (part == 2 and _may_sway(top_Hz) and floor > least):
            perhaps = top_Hz / part
    return top_Hz, perhaps


def _may_sway(frequency_Hz: float) -> bool:
    """Whether a cabinet may have this sideways frequency of its own."""
    low, high = motion_value("natural frequency on legs").low, motion_value("natural frequency on a pedestal").high
    return (low or 0.0) <= frequency_Hz <= (high or 0.0)


def _image(time_s: Floats, signal: Floats, top_Hz: float, rate_Hz: float) -> tuple[float | None, float]:
    """What a shaker may turn at as well, mirrored at the sampling rate, and how strong that is by the one found.

    Times that jitter tell a frequency from its mirror: the wrong one fits worse.
    """
    rate_Hz = _mean_rate(time_s, rate_Hz)
    height = float(_fit(time_s, signal, _hann(time_s), [top_Hz])[0])
    for image in (rate_Hz - top_Hz, rate_Hz + top_Hz):
        if top_Hz < image < FASTEST_TURN_Hz:
            near, strength = _near(time_s, signal, image)
            if strength > _MIRRORED * height:
                return near, strength / height
    return None, 0.0


def _mean_rate(time_s: Floats, rate_Hz: float) -> float:
    """Samples a second without the gaps."""
    steps = np.diff(time_s)
    return 1 / float(steps[steps < 5 / rate_Hz].mean())


def _near(time_s: Floats, signal: Floats, frequency_Hz: float) -> tuple[float, float]:
    """The strongest frequency nearby, and its amplitude."""
    near = _refined(time_s, signal, frequency_Hz, 1 / float(time_s[-1] - time_s[0]))
    return near, float(_fit(time_s, signal, _hann(time_s), [near])[0])


def _like_hum(time_s: Floats, signal: Floats, top_Hz: float, rate_Hz: float) -> bool:
    """Whether mains hum explains the strongest line as well, itself or mirrored at the sampling rate.

    Times that jitter tell a frequency from its mirror: the wrong one fits worse.
    """
    rate_Hz = _mean_rate(time_s, rate_Hz)
    height = float(_fit(time_s, signal, _hann(time_s), [top_Hz])[0])
    for hum in _HUM_Hz:
        turns = round(hum / rate_Hz)
        image = turns * rate_Hz + (top_Hz if hum > turns * rate_Hz else -top_Hz)
        if abs(image - hum) <= _HUM_NEAR_Hz and _near(time_s, signal, image)[1] > _MIRRORED * height:
            return True
    return False


def _line(number: int, frequency_Hz: float, accel_m_s2: float, limit: VibrationClass) -> Line:
    pace = 2 * pi * frequency_Hz
    shift_m = accel_m_s2 / pace**2
    use = float(limit_share(limit, np.array([pace]), np.array([shift_m]))[0])
    return Line(number, frequency_Hz, accel_m_s2, shift_m, use)


# A nudge ------------------------------------------------------------------------------------------------------------


def _still_m_s2(record: Samples) -> float:
    """Effective value of the signal in the quietest second of a record."""
    time, signal = record.time_s, lateral(record)
    begins = np.arange(float(time[0]), float(time[-1]) - 1.0, 0.5)
    left, right = np.searchsorted(time, begins), np.searchsorted(time, begins + 1.0)
    return min((float(np.std(signal[a:b])) for a, b in zip(left, right, strict=True) if b > a), default=inf)


def _decay(samples: Samples, still_m_s2: float) -> tuple[Floats, Floats, float, float]:
    """Time from zero and signal from the largest swing on until it is lost, its rough frequency, and the noise."""
    time, signal = samples.time_s, lateral(samples)
    noise = float(np.std(signal[int(0.85 * len(signal)) :]))
    if noise > 2 * still_m_s2:  # cut off by the next push
        noise = still_m_s2
    floor = 3 * noise
    begin = int(np.abs(signal).argmax())
    time, signal = time[begin:] - time[begin], signal[begin:]
    if len(time) < 20:
        raise _short_decay()
    rough = _rough_Hz(time, signal, noise**2, samples.rate_Hz)
    cycle = np.floor(time * rough).astype(int)
    height = np.array([np.abs(signal[cycle == number]).max(initial=0.0) for number in range(cycle[-1] + 1)])
    lost = np.flatnonzero(height < max(0.05 * height[0], floor))
    last = cycle < (lost[0] if len(lost) else cycle[-1] + 1)
    keep = last & (time >= 0.5 / rough)  # the first half cycle is the push itself
    return time[keep], signal[keep], rough, noise


def _rough_Hz(time_s: Floats, signal: Floats, noise: float, rate_Hz: float) -> float:
    """The frequency of a decay that begins at once: over the part that holds nearly all of its energy."""
    energy = np.cumsum(signal**2 - noise)
    part = max(int(np.argmax(energy >= 0.95 * energy.max())) + 1, int(0.5 * rate_Hz), 20)
    time, begun = time_s[:part], signal[:part]
    window = 0.5 + 0.5 * np.cos(pi * time / time[-1])
    length = float(time[-1])
    frequencies = np.arange(max(_LOWEST_HZ, 0.75 / length), min(_HIGHEST_HZ, 0.45 * rate_Hz), 1 / (8 * length))
    if not len(frequencies):
        raise _short_decay()
    weighted = window * (begun - np.average(begun, weights=window))
    sums = np.exp(-2j * pi * np.outer(frequencies, time)) @ weighted
    return float(frequencies[np.abs(sums).argmax()])


def _short_decay() -> LogProblem:
    return LogProblem(
        Trouble.NO_DECAY, "Fewer than four swings stand clear of the noise: push harder or record longer."
    )


def _misfit(time_s: Floats, signal: Floats, frequency_Hz: float, rate: float) -> float:
    """What is left of the signal beside a decaying oscillation and a constant."""
    return float(np.sum((signal - _decaying(time_s, signal, frequency_Hz, rate)) ** 2))


def _decaying(time_s: Floats, signal: Floats, frequency_Hz: float, rate: float) -> Floats:
    fade = np.exp(-rate * time_s)
    phase = 2 * pi * frequency_Hz * time_s
    columns = np.stack([fade * np.cos(phase), fade * np.sin(phase), np.ones_like(time_s)], axis=1)
    result: Floats = columns @ np.linalg.lstsq(columns, signal, rcond=None)[0]
    return result


def _best_decay(time_s: Floats, signal: Floats, rough_Hz: float) -> tuple[float, float]:
    """Frequency and rate of the best decaying oscillation: a grid, then steps that are halved."""
    width = max(0.5 / float(time_s[-1] - time_s[0]), 0.03 * rough_Hz)
    grid = [
        (frequency, 2 * pi * rough_Hz * damping)
        for frequency in np.linspace(rough_Hz - 2 * width, rough_Hz + 2 * width, 17)
        for damping in (0.003, 0.01, 0.02, 0.04, 0.07, 0.12, 0.2, 0.3)
        if frequency > 0
    ]
    frequency, rate = min(grid, key=lambda pair: _misfit(time_s, signal, *pair))
    best = _misfit(time_s, signal, frequency, rate)
    steps = [width / 4, rate / 2]
    for _ in range(200):
        moved = False
        for change_f, change_r in ((steps[0], 0.0), (-steps[0], 0.0), (0.0, steps[1]), (0.0, -steps[1])):
            tried = (frequency + change_f, max(rate + change_r, 0.0))
            misfit = _misfit(time_s, signal, *tried)
            if misfit < best:
                (frequency, rate), best, moved = tried, misfit, True
        if not moved:
            steps = [step / 2 for step in steps]
            if steps[0] < 1e-7 * rough_Hz:
                break
    return float(frequency), float(rate)


def _decay_errors(time_s: Floats, signal: Floats, frequency_Hz: float, rate: float) -> tuple[float, float]:
    """Standard errors of frequency and rate: least squares, linear about the best fit."""
    fade = np.exp(-rate * time_s)
    phase = 2 * pi * frequency_Hz * time_s
    linear = np.stack([fade * np.cos(phase), fade * np.sin(phase), np.ones_like(time_s)], axis=1)
    a, b, _ = solved = np.linalg.lstsq(linear, signal, rcond=None)[0]
    by_frequency = 2 * pi * time_s * (b * linear[:, 0] - a * linear[:, 1])
    by_rate = -time_s * (a * linear[:, 0] + b * linear[:, 1])
    slopes = np.column_stack([linear, by_frequency, by_rate])
    left = float(np.sum((signal - linear @ solved) ** 2)) / (len(time_s) - slopes.shape[1])
    spread = np.sqrt(np.maximum(np.diag(np.linalg.pinv(slopes.T @ slopes)) * left, 0.0))
    return float(spread[3]), float(spread[4])


def _swings(time_s: Floats, signal: Floats, frequency_Hz: float) -> tuple[Floats, Floats]:
    """Time and height of the largest sample of each half cycle, the signal's middle taken off."""
    half = np.floor((time_s - time_s[0]) * 2 * frequency_Hz).astype(int)
    middle = signal - np.median(signal)
    when, height = [], []
    for number in range(half[-1] + 1):
        inside = np.flatnonzero(half == number)
        if len(inside) >= 2:
            top = inside[np.abs(middle[inside]).argmax()]
            when.append(time_s[top])
            height.append(abs(middle[top]))
    return np.array(when), np.array(height)


def _explained(values: Floats, model: Floats) -> float:
    """Share of the spread of values that a model explains."""
    return 1 - float(np.sum((values - model) ** 2) / max(np.sum((values - values.mean()) ** 2), 1e-30))


def _straight(when: Floats, height: Floats) -> float:
    """How well a straight line explains the heights of the swings."""
    line: Floats = np.polyval(np.polyfit(when, height, 1), when).astype(np.float64)
    return _explained(height, line)


def _exponential(when: Floats, height: Floats) -> float:
    """How well the best exponential explains them; both have two numbers to choose."""
    length = float(when[-1] - when[0])
    fades = (np.exp(-rate * (when - when[0]) / length) for rate in np.geomspace(0.05, 20, 60))
    return max(_explained(height, fade * float(fade @ height) / float(fade @ fade)) for fade in fades)


def read_nudge(samples: Samples, record: Samples | None = None) -> Nudge:
    """Natural frequency and damping ratio of a cabinet that was pushed and let go.

    record: what these samples were cut from, which shows the noise where they end before the cabinet is still.
    Where a straight line describes the heights of the swings better than an exponential, friction stops it and only
    the frequency is given. Raises LogProblem.
    """
    time, signal, rough, noise = _decay(samples, _still_m_s2(record or samples))
    if len(time) < 20 or (time[-1] - time[0]) * 2 * rough < 4:
        raise _short_decay()
    damped_Hz, rate = _best_decay(time, signal, rough)
    if rate * float(time[-1]) < _FADES:
        raise LogProblem(
            Trouble.NO_DECAY, "The swings do not die away: push the cabinet once and let it come to rest by itself."
        )
    left = _misfit(time, signal, damped_Hz, rate) / len(time) - noise**2
    if left > _OTHER_MOTION * float(signal.var()):
        raise LogProblem(
            Trouble.NO_DECAY,
            "The swings are not those of one push that dies away: let the cabinet come to rest, for about five "
            "seconds, before you push again.",
        )
    when, height = _swings(time, signal, damped_Hz)
    if len(when) < 4:
        raise _short_decay()
    slope = np.polyfit(when, np.log(np.maximum(height, 1e-12)), 1)[0]
    friction = _straight(when, height) > _exponential(when, height) + 0.01
    pace = hypot(rate, 2 * pi * damped_Hz)
    damping = None if friction else rate / pace
    natural_Hz = (2 * pi * damped_Hz if friction else pace) / (2 * pi)
    frequency_error_Hz, rate_error = _decay_errors(time, signal, damped_Hz, rate)
    return Nudge(
        natural_Hz,
        damping,
        float(-slope / pace),
        len(when),
        samples.warnings,
        frequency_error_Hz,
        rate_error / pace,
    )
