"""Settings as bands: what the shaker does from one setting to another, as sets of intervals."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum
from itertools import groupby
from math import floor, inf, isinf

import numpy as np

from guide_gen.formulas.drive import Floats, Truths

FINEST_STEP = 0.0025
LARGEST_STEP = 0.02
STEP_HZ = 0.5


class Band(StrEnum):
    """What the shaker does; the words stand on pages and in the plan."""

    NO_MOTION = "no motion"
    BUZZ = "buzz"
    FAINT = "faint"
    SWAY = "sway"
    VIBRATION = "vibration"
    TOO_MUCH = "too much"


ORDER = tuple(Band)
_TURNING = (Band.FAINT, Band.SWAY, Band.VIBRATION, Band.TOO_MUCH)


@dataclass(frozen=True)
class BandInterval:
    """A band from one setting to another, as shares of the full setting."""

    band: Band
    low: float
    high: float


def band_numbers(
    turning_Hz: Floats, accel_m_s2: Floats, limit_share: Floats, sway_Hz: float, felt_m_s2: float
) -> Floats:
    """The place in `ORDER` of each state that turns. A resonance may put too much between two that are not."""
    calm = np.where(turning_Hz <= sway_Hz * (1 + 1e-9), ORDER.index(Band.SWAY), ORDER.index(Band.VIBRATION))
    felt = np.where(accel_m_s2 < felt_m_s2, ORDER.index(Band.FAINT), calm)
    return np.where(limit_share > 1, ORDER.index(Band.TOO_MUCH), felt).astype(float)


def intervals(settings: Floats, numbers: Floats, known: Truths | None = None) -> tuple[BandInterval, ...]:
    """Neighbouring settings of the same band as one interval, which ends where the next band begins.

    known: settings of which the band is sure; the others become gaps, and an interval then ends at its last setting.
    """
    sure = np.ones(len(settings), bool) if known is None else known
    keys = [ORDER[int(number)] if here else None for number, here in zip(numbers, sure, strict=True)]
    return tuple(_joined(settings, keys, last_holds=known is not None))


def _joined(settings: Floats, keys: Sequence[Band | None], last_holds: bool) -> Iterator[BandInterval]:
    for band, group in groupby(range(len(keys)), key=lambda place: keys[place]):
        places = list(group)
        first, last = places[0], places[-1]
        if band is None:
            continue
        following = min(last + 1, len(keys) - 1)
        end = last if last_holds and keys[following] is None else following
        yield BandInterval(band, float(settings[first]), float(settings[end]))


def without_slivers(found: Sequence[BandInterval], port_steps: int | None) -> tuple[BandInterval, ...]:
    """The bands with each that is thinner than two steps joined to the worse of the turning bands beside it.

    Nothing that is too much is joined to a milder band; what lies below the first turn stays.
    """
    least = 2 / (port_steps or round(1 / FINEST_STEP))
    bands = list(found)
    while True:
        thin = [
            (one.high - one.low, place)
            for place, one in enumerate(bands)
            if one.band in _TURNING[:-1] and one.high - one.low < least - 1e-9 and _beside(bands, place)
        ]
        if not thin:
            return tuple(bands)
        place = min(thin)[1]
        worse = max(_beside(bands, place), key=lambda near: ORDER.index(bands[near].band))
        bands[place] = replace(bands[place], band=bands[worse].band)
        bands = _merged(bands)


def _beside(bands: Sequence[BandInterval], place: int) -> list[int]:
    """The places beside one in which it turns as well."""
    near = [other for other in (place - 1, place + 1) if 0 <= other < len(bands)]
    return [other for other in near if bands[other].band in _TURNING]


def _merged(bands: Sequence[BandInterval]) -> list[BandInterval]:
    groups = [list(group) for _, group in groupby(bands, key=lambda one: one.band)]
    return [BandInterval(group[0].band, group[0].low, group[-1].high) for group in groups]


def of_band(found: Sequence[BandInterval], band: Band) -> tuple[tuple[float, float], ...]:
    """The intervals of one band as pairs, those of no width left out."""
    return tuple((one.low, one.high) for one in found if one.band is band and one.high > one.low)


def setting_grid(port_steps: int | None, exact: Sequence[float]) -> Floats:
    """The settings to look at: the port's own steps or a quarter of a percent, and exact places between them."""
    steps = port_steps or round(1 / FINEST_STEP)
    inside = [place for place in exact if 0 <= place <= 1]
    return np.unique(np.concatenate([np.arange(steps + 1) / steps, inside]))


@dataclass(frozen=True)
class Tuning:
    """How to tune by hand; shares of the full setting.

    begin: where to start; infinity where it never starts. step: how far to go on at a time. ceiling: the first setting
    that may be too much, infinity when even the full one is not. stop: the last setting to try; infinity where there is
    none from begin on.
    """

    begin: float
    step: float
    ceiling: float
    stop: float


def tuning(settings: Floats, limit_share: Floats, start_low: float, slope_Hz: float, port_steps: int | None) -> Tuning:
    """Begin at the lowest setting at which it may start, go on by half a hertz, stop a step before it may be too much.

    limit_share: the largest that each setting may take. slope_Hz: turning frequency gained over the full range of
    settings, at the rate just above start.
    """
    one = 1 / (port_steps or round(1 / FINEST_STEP))
    wanted = LARGEST_STEP if slope_Hz <= 0 else min(STEP_HZ / slope_Hz, LARGEST_STEP)
    step = max(min(round(wanted / one), floor(LARGEST_STEP / one + 1e-9)), 1) * one
    if isinf(start_low):
        return Tuning(inf, step, inf, inf)
    begin = floor(start_low / one + 1e-9) * one
    over = (settings >= start_low - 1e-12) & (limit_share > 1)
    ceiling = float(settings[over.argmax()]) if over.any() else inf
    stop = 1.0 if isinf(ceiling) else ceiling - step
    return Tuning(begin, step, ceiling, stop if stop >= begin - 1e-9 else inf)
