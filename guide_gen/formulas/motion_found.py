"""What was measured on the machine: compared with what was foretold, and the ranges narrowed by it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from guide_gen.formulas.drive import Floats, Truths, motor_current
from guide_gen.formulas.motion_inputs import (
    CURRENT_WAYS,
    SPEED_WAYS,
    START_WAYS,
    MotionInputs,
    Values,
    corner_of,
    shakers_of,
    speed_corners,
    spreads_of,
)
from guide_gen.formulas.spread import TURN, Pair, Spread
from guide_gen.formulas.swing import swing_threshold, swings_over, turning

_CANDIDATES = 13
_PLACES = 65


class Check(StrEnum):
    """A reading that the plan foretells."""

    START = "start"
    TURNING = "turning"
    CURRENT = "current"
    NATURAL = "natural"
    AS_LEFT = "as left"


@dataclass(frozen=True)
class Compared:
    """A reading against what was foretold before it was taken; outside: they contradict each other."""

    check: Check
    found: float
    predicted: Pair
    outside: bool


_READING = {Check.TURNING: 0.03, Check.CURRENT: 0.05, Check.NATURAL: 0.05}  # what a reading may be off


@dataclass(frozen=True)
class Readings:
    """Readings as ranges: each reading with what it may be off."""

    start: Pair | None
    turning_Hz: Pair | None
    current_A: Pair | None


def _off(value: float | None, check: Check) -> Pair | None:
    return None if value is None else (value * (1 - _READING[check]), value * (1 + _READING[check]))


def _speeds(inputs: MotionInputs, cases: list[Values], setting: float) -> Floats:
    return turning(shakers_of(inputs, *cases), np.array([setting])).speed_rad_s[:, 0]


def _currents(inputs: MotionInputs, cases: list[Values]) -> Floats:
    shakers = shakers_of(inputs, *cases)
    speed = turning(shakers, np.ones(1)).speed_rad_s[:, 0]
    return motor_current(shakers, np.ones(1), speed)[0]


def _predicted(inputs: MotionInputs, check: Check) -> Pair:
    """What the ranges foretell of a reading."""
    if check is Check.START:
        both = [corner_of(inputs, START_WAYS, -1), corner_of(inputs, START_WAYS, 1)]
        low, high = swing_threshold(shakers_of(inputs, *both), from_top=False)
        return float(low), float(high)
    if check is Check.TURNING:
        speeds = _speeds(inputs, speed_corners(inputs, -1) + speed_corners(inputs, 1), inputs.found.turning_at)
        return float(speeds.min() / TURN), float(speeds.max() / TURN)
    if check is Check.CURRENT:
        low, high = _currents(inputs, [corner_of(inputs, CURRENT_WAYS, -1), corner_of(inputs, CURRENT_WAYS, 1)])
        return float(low), float(high)
    return inputs.natural_Hz.low, inputs.natural_Hz.high


def _possible(inputs: MotionInputs, readings: Readings, name: str, values: Floats) -> Truths:
    """Which values of one input could give all readings, the other inputs anywhere in their ranges."""
    one: Values = {name: values}
    possible = np.ones(len(values), bool)
    if readings.start and name in START_WAYS:
        low, high = readings.start
        easy = shakers_of(inputs, corner_of(inputs, START_WAYS, -1) | one)
        hard = shakers_of(inputs, corner_of(inputs, START_WAYS, 1) | one)
        possible &= swings_over(easy, np.full(len(values), high), from_top=False)
        possible &= ~swings_over(hard, np.full(len(values), low), from_top=False)
    if readings.turning_Hz:
        low, high = readings.turning_Hz
        slow = [case | one for case in speed_corners(inputs, -1)]
        fast = [case | one for case in speed_corners(inputs, 1)]
        setting = inputs.found.turning_at
        possible &= _speeds(inputs, slow, setting).reshape(2, -1).min(axis=0) <= high * TURN
        possible &= _speeds(inputs, fast, setting).reshape(2, -1).max(axis=0) >= low * TURN
    if readings.current_A:
        low, high = readings.current_A
        possible &= _currents(inputs, [corner_of(inputs, CURRENT_WAYS, -1) | one]) <= high
        possible &= _currents(inputs, [corner_of(inputs, CURRENT_WAYS, 1) | one]) >= low
    return possible


def _narrowed_by(inputs: MotionInputs, readings: Readings) -> MotionInputs:
    """Each range cut down to the values that can give the readings; a grid's width is left on either side."""
    names = {*START_WAYS} | ({*SPEED_WAYS, *CURRENT_WAYS} if readings.turning_Hz or readings.current_A else set())
    cut: dict[str, Spread] = {}
    for name, spread in spreads_of(inputs).items():
        if name not in names or spread.high <= spread.low:
            continue
        values = np.linspace(spread.low, spread.high, _CANDIDATES)
        kept = np.flatnonzero(_possible(inputs, readings, name, values))
        if len(kept):
            low, high = max(kept[0] - 1, 0), min(kept[-1] + 1, _CANDIDATES - 1)
            cut[name] = spread.within(float(values[low]), float(values[high]))
    return replace(inputs, **cut)  # type: ignore[arg-type]


def _along(inputs: MotionInputs, ways: dict[str, int], enough: Callable[[list[Values]], Truths]) -> MotionInputs:
    """Nominal values moved together, from corner over nominal to corner, to where a result just becomes enough."""
    place = np.linspace(-1, 1, _PLACES)
    line: Values = {}
    for name, spread in spreads_of(inputs).items():
        way = ways.get(name, 0) * place
        end = np.where(way > 0, spread.high, spread.low)
        line[name] = spread.nominal + (end - spread.nominal) * np.abs(way)
    there = enough([line])
    chosen = int(there.argmax()) if there.any() else _PLACES - 1
    moved = {
        name: spread._replace(nominal=float(np.broadcast_to(line[name], _PLACES)[chosen]))
        for name, spread in spreads_of(inputs).items()
    }
    return replace(inputs, **moved)  # type: ignore[arg-type]


def _centred(inputs: MotionInputs, readings: Readings) -> MotionInputs:
    """Nominal values moved to where they give the readings; after one of full speed, the start moves the others."""
    decided: set[str] = set()
    if readings.current_A:
        current_A = sum(readings.current_A) / 2
        inputs = _along(inputs, CURRENT_WAYS, lambda cases: _currents(inputs, cases) >= current_A)
        decided = {"drag_N_m_s2"}
    if readings.turning_Hz:
        speed, at = sum(readings.turning_Hz) / 2 * TURN, inputs.found.turning_at
        ways = {name: way for name, way in (SPEED_WAYS | {"emf_V_s": -1}).items() if name not in decided}
        inputs = _along(inputs, ways, lambda cases: _speeds(inputs, cases, at) >= speed)
        decided |= {"emf_V_s", "resistance_ohm", "supply_V", "drag_N_m_s2"}
    if readings.start:
        setting = sum(readings.start) / 2
        ways = {name: way for name, way in START_WAYS.items() if name not in decided}

        def later(cases: list[Values]) -> Truths:
            shakers = shakers_of(inputs, *cases)
            return ~swings_over(shakers, np.full(len(shakers), setting), from_top=False)

        inputs = _along(inputs, ways, later)
    return inputs


def _overlap(one: Pair, other: Pair) -> bool:
    return one[0] <= other[1] and other[0] <= one[1]


def learnt(inputs: MotionInputs) -> tuple[MotionInputs, Readings, list[Compared]]:
    """The inputs narrowed by what was found, the readings that agree, and each reading against its prediction.

    A reading that contradicts the ranges narrows nothing.
    """
    found = inputs.found
    compared: list[Compared] = []

    def agreed(check: Check, value: float | None, reading: Pair | None) -> Pair | None:
        if value is None or reading is None:
            return None
        predicted = _predicted(inputs, check)
        outside = not _overlap(reading, predicted)
        compared.append(Compared(check, value, predicted, outside))
        return None if outside else reading

    natural = agreed(Check.NATURAL, found.natural_Hz, _off(found.natural_Hz, Check.NATURAL))
    if natural and found.natural_Hz is not None:
        low, high = max(natural[0], inputs.natural_Hz.low), min(natural[1], inputs.natural_Hz.high)
        inputs = replace(inputs, natural_Hz=Spread(low, min(max(found.natural_Hz, low), high), high))
    if found.damping is not None and inputs.damping.low <= found.damping <= inputs.damping.high:
        inputs = replace(inputs, damping=inputs.damping.within(found.damping * 0.8, found.damping * 1.2))
        inputs = replace(inputs, damping=inputs.damping._replace(nominal=found.damping))
    begun = None if found.start is None else (max(found.start - found.start_step, 0.0), found.start)
    readings = Readings(
        agreed(Check.START, found.start, begun),
        agreed(Check.TURNING, found.turning_Hz, _off(found.turning_Hz, Check.TURNING)),
        agreed(Check.CURRENT, found.current_A, _off(found.current_A, Check.CURRENT)),
    )
    if readings.start or readings.turning_Hz or readings.current_A:
        inputs = _centred(_narrowed_by(inputs, readings), readings)
    return inputs, readings, compared
