"""What an accelerometer log shows: a running shaker or pushes by hand, and where each push lies.

Source: the procedure is derived here.
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np

from guide_gen.formulas.drive import Floats
from guide_gen.formulas.log_reading import Samples, lateral

_WINDOW_S = 0.5  # holds a peak of any sway from 1 Hz on
_QUIET = 0.25  # of the largest swing: below it a push is over, and the next one may come
_LOUD = 0.5
_FLAT = 0.7
_BEFORE_S = 1.5


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
    """The record cut into one piece a push, each from shortly before it up to the next one."""
    begin, tall = heights(samples)
    share = tall / tall.max()
    starts, armed = [], True
    for at, height in zip(begin, share, strict=True):
        if armed and height > _LOUD:
            starts.append(float(at))
            armed = False
        armed = armed or height < _QUIET
    edges = [*(max(start - _WINDOW_S / 2, 0.0) for start in starts), float(samples.time_s[-1]) + 1.0]
    return tuple(_piece(samples, low, high) for low, high in pairwise(edges))


def _piece(samples: Samples, low_s: float, high_s: float) -> Samples:
    inside = (samples.time_s >= low_s) & (samples.time_s < high_s)
    return replace(samples, time_s=samples.time_s[inside], accel_m_s2=samples.accel_m_s2[:, inside])
