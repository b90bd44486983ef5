"""What an accelerometer log shows: a running shaker and where it runs, or pushes by hand and where each lies.

Source: the procedure is derived here.
"""

from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from guide_gen.formulas.drive import Floats
from guide_gen.formulas.log_reading import Samples, lateral, spectrum, stands_out

_WINDOW_S = 0.5  # holds a peak of any sway from 1 Hz on
_QUIET = 0.25  # of the largest swing: below it a push is over, and the next one may come
_LOUD = 0.5
_FLAT = 0.7
_RISE = 1.6  # times the least swing since the push before
_BEFORE_S = 1.5
_BEFORE_PUSH_S = 0.1
_LEVEL_S = 1.0  # holds two half cycles of a sway from 1 Hz on
_FEWEST_SAMPLES = 80  # in a window: the level of noise is then told to about a tenth
_PER_WINDOW = 4  # windows that overlap at a time
LASTING_S = 4.0  # the shortest run that is judged
_WEAKER = 0.7  # of the level at which it runs: below it something else begins
_LOUDER = 1.4
_OFTEN = 0.25  # of the record louder than what lasts: it does not run steadily


def heights(samples: Samples) -> tuple[Floats, Floats]:
    """Begin and largest swing of each window of half a second, windows overlapping by half."""
    time, signal = samples.time_s, np.abs(lateral(samples))
    begins = np.arange(0.0, max(float(time[-1]) - _WINDOW_S, 0.0) + 1e-9, _WINDOW_S / 2)
    left, right = np.searchsorted(time, begins), np.searchsorted(time, begins + _WINDOW_S)
    filled = right > left
    tall = np.array([signal[a:b].max() for a, b in zip(left[filled], right[filled], strict=True)])
    return begins[filled], tall


def is_nudge(samples: Samples) -> bool:
    """Whether the record dies away as after a push.

    The largest swing comes out of quiet, fades to a quarter, and takes no longer from the start to 0.7 than from there
    to a quarter, as every decay does; a shaker that is switched on and off stays near its largest instead.
    """
    begin, tall = heights(samples)
    peak = int(tall.argmax())
    share = tall / tall[peak]
    before = share[(begin >= begin[peak] - _BEFORE_S) & (begin < begin[peak])]
    quiet_after = np.flatnonzero(share[peak:] < _QUIET)
    if not len(quiet_after) or (len(before) > 2 and before.min() > _QUIET):
        return False
    high = int(np.argmax(share[peak:] < _FLAT))
    return high <= int(quiet_after[0]) - high + 2  # two windows: a swing counts in each that it lies in


def pushes(samples: Samples) -> tuple[Samples, ...]:
    """The record cut into one piece a push, each from shortly before it up to the next one.

    A push makes the swings rise to more than those that the one before has left; left alone they never do.
    """
    begin, tall = heights(samples)
    starts: list[float] = []
    least = 0.0
    for at, height in zip(begin, tall, strict=True):
        if height > _LOUD * tall.max() and height > _RISE * least:
            start = _onset(samples, float(at), max(0.5 * height, 1.2 * least))
            if not starts or start > starts[-1] + _WINDOW_S:
                starts.append(start)
            least = height
        least = min(least, height)
    edges = [*(max(start - _BEFORE_PUSH_S, 0.0) for start in starts), float(samples.time_s[-1]) + 1.0]
    return tuple(_piece(samples, low, high) for low, high in pairwise(edges))


def _onset(samples: Samples, begin_s: float, height: float) -> float:
    """When the signal first reaches a height, from a time on."""
    reached = (samples.time_s >= begin_s) & (np.abs(lateral(samples)) >= height)
    return float(samples.time_s[reached][0]) if reached.any() else begin_s


def _piece(samples: Samples, low_s: float, high_s: float) -> Samples:
    inside = (samples.time_s >= low_s) & (samples.time_s < high_s)
    return replace(samples, time_s=samples.time_s[inside], accel_m_s2=samples.accel_m_s2[:, inside])


@dataclass(frozen=True)
class Stretch:
    """The part of a record in which a shaker runs steadily at its strongest.

    steady: whether there is one; the whole record is kept where there is none. still: whether it stood still in the
    rest. louder: the strongest level anywhere in the record, by the middle one of this part.
    """

    samples: Samples
    steady: bool
    still: bool
    louder: float


def running_part(samples: Samples) -> Stretch:
    """Where the shaker runs steadily at its strongest, for four seconds or more.

    The level is the median of the swing's size over a second, which for a sine is its effective value, and which a
    touch of the phone does not move.
    """
    begin, level, width = _levels(samples)
    span = max(round((LASTING_S - width) * _PER_WINDOW / width) + 1, 1)
    if len(level) < span:
        return Stretch(samples, True, False, 1.0)
    spans = np.lib.stride_tricks.sliding_window_view(level, span)
    low, high = spans.min(axis=1), spans.max(axis=1)
    at = int(np.argmax(np.where(low > _WEAKER / _LOUDER * high, low, 0.0)))
    runs = float(np.median(spans[at]))
    if not low[at] > _WEAKER / _LOUDER * high[at] or np.mean(level > _LOUDER * runs) > _OFTEN:
        return Stretch(samples, False, False, _over(level, level))
    same = (level >= _WEAKER * runs) & (level <= _LOUDER * runs)
    first, last = _reach(same, at, -1), _reach(same, at + span - 1, 1)
    end_s = float(samples.time_s[-1])
    low_s = float(begin[first]) + width / 2 if first else 0.0
    high_s = float(begin[last]) + width / 2 if last < len(level) - 1 else end_s + 1.0
    rest = _piece(samples, 0.0, low_s - width), _piece(samples, high_s + width, end_s + 1.0)
    louder = _over(level, level[first : last + 1])
    return Stretch(_piece(samples, low_s, high_s), True, not any(map(_moves, rest)), louder)


def _over(level: Floats, part: Floats) -> float:
    """The highest level by the middle one of a part."""
    return float(level.max()) / max(float(np.median(part)), 1e-12)


def _levels(samples: Samples) -> tuple[Floats, Floats, float]:
    """Begin and level of each window, and how long they are; one with less than half of its samples is left out."""
    time, signal = samples.time_s, np.abs(lateral(samples))
    width = max(_LEVEL_S, _FEWEST_SAMPLES / samples.rate_Hz)
    begins = np.arange(0.0, max(float(time[-1]) - width, 0.0) + 1e-9, width / _PER_WINDOW)
    left, right = np.searchsorted(time, begins), np.searchsorted(time, begins + width)
    filled = right - left > 0.5 * width * samples.rate_Hz
    level = [float(np.median(signal[a:b])) for a, b in zip(left[filled], right[filled], strict=True)]
    return begins[filled], np.array(level), width


def _reach(same: NDArray[np.bool_], place: int, way: int) -> int:
    """How far a stretch goes on from a place in it; fewer windows than make one apart are bridged."""
    end = place
    while 0 <= place < len(same) and abs(place - end) < _PER_WINDOW:
        if same[place]:
            end = place
        place += way
    return end


def _moves(samples: Samples) -> bool:
    """Whether a frequency stands out in a piece that is long enough to tell."""
    time = samples.time_s
    if len(time) < _FEWEST_SAMPLES or float(time[-1] - time[0]) < LASTING_S / 2:
        return False
    if not np.ptp(samples.accel_m_s2, axis=1).any():
        return False
    return stands_out(spectrum(time, lateral(samples), samples.rate_Hz)[1])
