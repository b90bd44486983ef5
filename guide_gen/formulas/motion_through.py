"""Machines that pass through a reading: how far a result can go while they turn or draw as was found.

The corners of the ranges alone know nothing of a reading that no single range decides. So each corner that misses the
reading is led to it, one input after the other, the one first that costs the result least; the last one part of the
way.
"""

from collections.abc import Callable, Sequence
from math import inf

import numpy as np
import numpy.typing as npt

from guide_gen.formulas.drive import Floats, Truths, mean_torque_N_m
from guide_gen.formulas.motion_found import Check, Reading, currents, speeds
from guide_gen.formulas.motion_inputs import (
    MotionInputs,
    Values,
    shakers_of,
    speed_corners,
    spreads_of,
    start_corners,
    with_ends,
)
from guide_gen.formulas.spread import TURN
from guide_gen.formulas.swing import gravity_torque_N_m, loss_torque_N_m, quick_start, swing_rad_s, turning

_PARTS, _ROUNDS = 10, 2  # of an edge, which are looked at: to a hundredth of it
_SETTINGS = np.linspace(0, 1, 25)[1:] ** 2  # at which the farthest machines are picked
_FARTHEST = 3  # corners from which each result is followed
_ENDS = 2  # machines at either end of a quick order of starts, which are worked out exactly
_TINY = 1e-12
_NEVER = 2.0  # stands for a start that even the full setting does not reach
_PAST_OWN = 1.5  # times the weight's own swing: about the slowest turn that lasts

Measure = Callable[[Values], Floats]
Places = npt.NDArray[np.intp]


def _measured(inputs: MotionInputs, reading: Reading) -> Measure:
    """What a reading would show of each case."""
    if reading.check is Check.TURNING:
        return lambda cases: speeds(inputs, [cases], inputs.found.turning_at) / TURN
    return lambda cases: currents(inputs, [cases])


class _Walk:
    """From corners of the ranges to a reading."""

    def __init__(self, inputs: MotionInputs, reading: Reading) -> None:
        spreads = spreads_of(inputs)
        self.names = list(spreads)
        self.ends = np.array([[one.low, one.high] for one in spreads.values()])
        self.ranged = np.flatnonzero(self.ends[:, 1] > self.ends[:, 0])
        self.low, self.high = reading.low, reading.high
        self._inputs, self._turns = inputs, reading.check is Check.TURNING
        self._shows = _measured(inputs, reading)

    def cases(self, places: Floats) -> Values:
        """Values by name of places, one a row."""
        flat = places.reshape(-1, len(self.names))
        return {name: flat[:, number] for number, name in enumerate(self.names)}

    def shown(self, places: Floats) -> Floats:
        """What the reading would be at each place."""
        result: Floats = self._shows(self.cases(places)).reshape(places.shape[:-1])
        return result

    def _over(self, places: Floats, bound: Floats) -> Floats:
        """By how much the reading would be over a bound at each place, in a measure of its own.

        Whether it turns faster than so fast is told by the torque that is left there: no balance has to be found.
        """
        if not self._turns:
            return self.shown(places) - bound
        shakers = shakers_of(self._inputs, self.cases(places))
        rad_s = np.broadcast_to(bound, places.shape[:-1]).ravel() * TURN
        at = np.array([self._inputs.found.turning_at])
        left = mean_torque_N_m(shakers, at, rad_s) - loss_torque_N_m(shakers, rad_s)
        result: Floats = (left / gravity_torque_N_m(shakers)).reshape(places.shape[:-1])
        return result

    def _fits(self, shown: Floats) -> Truths:
        return np.asarray((shown >= self.low) & (shown <= self.high))

    def led(self, corners: Sequence[Values], results: Measure, sign: int) -> Floats:
        """The places to which the corners come, one a row; those that already fit stay. None where none comes there.

        results: what to keep far out, high (sign 1) or low (-1); cases by results.
        """
        places = np.array([[float(corner[name]) for name in self.names] for corner in corners])
        shown = self.shown(places)
        fits = self._fits(shown)
        kept, places, shown = places[fits], places[~fits], shown[~fits]
        if not len(places):
            return kept
        far = np.argsort(-sign * results(self.cases(places)), axis=0, kind="stable")[:_FARTHEST]
        places, shown = places[np.unique(far)], shown[np.unique(far)]
        way = np.where(shown > self.high, -1.0, 1.0)
        bound = np.where(way < 0, self.high, self.low)
        aims, gain, order = self._order(places, way, bound, results, sign)
        path = self._path(places, aims, gain, order)
        way, bound = (np.repeat(each, order.shape[2]) for each in (way, bound))
        there = way * self._over(path, bound) >= 0
        comes = there.any(axis=0)
        first, rows = np.maximum(there.argmax(axis=0), 1)[comes], np.flatnonzero(comes)
        before, after = path[first - 1, rows], path[first, rows]
        return np.concatenate([kept, self._on_edge(before, after, way[comes], bound[comes])])

    def _order(
        self, places: Floats, way: Floats, bound: Floats, results: Measure, sign: int
    ) -> tuple[Floats, Floats, Places]:
        """Where each input goes, what that does for the reading, and in which order they go for each result."""
        count, each = len(places), self.ranged
        turned = np.repeat(np.repeat(places[:, None, None, :], len(each), 1), 2, 2)  # corner, input, end, values
        for number, name in enumerate(each):
            turned[:, number, :, name] = self.ends[name]
        here = self._over(places, bound)[:, None, None]
        gains = way[:, None, None] * (self._over(turned, bound[:, None, None]) - here)
        best = gains.argmax(axis=2)
        gain = np.take_along_axis(gains, best[:, :, None], 2)[:, :, 0]
        chosen = np.take_along_axis(turned, best[:, :, None, None], 2)[:, :, 0]
        aims = np.stack([chosen[:, number, name] for number, name in enumerate(each)], axis=1)
        now = results(self.cases(places)).reshape(count, 1, -1)
        then = results(self.cases(chosen)).reshape(count, len(each), -1)
        loss = np.maximum(sign * (now - then), 0.0)
        worth = np.where((gain > _TINY)[:, :, None], loss / np.maximum(gain, _TINY)[:, :, None], inf)
        return aims, gain, np.argsort(worth, axis=1, kind="stable")

    def _path(self, places: Floats, aims: Floats, gain: Floats, order: Places) -> Floats:
        """The corners passed, one input moved after the other: steps by ways by values."""
        results = order.shape[2]
        rows = np.arange(len(places) * results)
        now = np.repeat(places, results, axis=0)
        aims, gain = np.repeat(aims, results, axis=0), np.repeat(gain, results, axis=0)
        first = order.transpose(0, 2, 1).reshape(len(rows), -1)
        path = [now]
        for step in range(first.shape[1]):
            number = first[:, step]
            now, name = now.copy(), self.ranged[number]
            now[rows, name] = np.where(gain[rows, number] > _TINY, aims[rows, number], now[rows, name])
            path.append(now)
        return np.stack(path)

    def _on_edge(self, before: Floats, after: Floats, way: Floats, bound: Floats) -> Floats:
        """Where the reading is just met between two corners; where it leaps over it, just before."""
        rows = np.arange(len(before))
        for _ in range(_ROUNDS):
            part = np.linspace(0, 1, _PARTS + 1)[:, None, None]
            line = before + part * (after - before)
            there = way * self._over(line, bound) >= 0
            there[-1] = True
            first = np.maximum(there.argmax(axis=0), 1)
            before, after = line[first - 1, rows], line[first, rows]
        return np.where(self._fits(self.shown(after))[:, None], after, before)


def starts_through(inputs: MotionInputs, reading: Reading) -> list[Values]:
    """Machines that pass through a reading and start, or keep turning, as early and as late as such machines can."""
    walk, corners = _Walk(inputs, reading), start_corners(inputs)
    first = quick_start(shakers_of(inputs, *corners))
    at = np.array([np.minimum(first, 1.0).mean()])

    def results(cases: Values) -> Floats:
        shakers = shakers_of(inputs, cases)
        slow = _PAST_OWN * swing_rad_s(shakers)
        lacks = loss_torque_N_m(shakers, slow) - mean_torque_N_m(shakers, at, slow)
        return np.stack([np.minimum(quick_start(shakers), _NEVER), lacks / gravity_torque_N_m(shakers)], axis=1)

    half = len(corners) // 2
    places = np.concatenate([walk.led(corners[:half], results, -1), walk.led(corners[half:], results, 1)])
    if not len(places):
        return []
    order = np.argsort(results(walk.cases(places)), axis=0)
    return [walk.cases(places[np.unique(np.concatenate([order[:_ENDS], order[-_ENDS:]]))])]


def speeds_through(inputs: MotionInputs, reading: Reading, at: float) -> list[Values]:
    """Machines that pass through a reading at a setting and turn as slowly and as fast as such machines can.

    Few: those that are the slowest or the fastest at some setting. Empty: no corner comes to the reading.
    """
    walk = _Walk(inputs, reading)
    aims = np.unique(np.minimum([0.5 * at, 0.75 * at, 1.3 * at, at**0.5, 1.0], 1.0))

    def results(cases: Values) -> Floats:
        return turning(shakers_of(inputs, cases), aims).speed_rad_s

    led = []
    for sign in (-1, 1):  # beside the cabinet's own sway it matters on which side that lies
        corners = [one for corner in speed_corners(inputs, sign) for one in with_ends(inputs, corner, ("natural_Hz",))]
        led.append(walk.led(corners, results, sign))
    places = np.unique(np.concatenate(led), axis=0)
    if not len(places):
        return []
    rad_s = turning(shakers_of(inputs, walk.cases(places)), _SETTINGS).speed_rad_s
    far = np.unique(np.concatenate([rad_s.argmin(axis=0), rad_s.argmax(axis=0)]))
    return [walk.cases(places[far])]
