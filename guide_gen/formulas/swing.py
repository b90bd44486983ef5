"""How an eccentric weight moves on its motor: four duties, the speed, and the lines of an uneven turn.

All of it runs over a batch of machines at once. The swing is followed over the angle, not over time: its kinetic
energy then grows by torque alone, and the pull of gravity is the same number for every member.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from math import cos

import numpy as np

from guide_gen.formulas.cabinet import shift
from guide_gen.formulas.drive import Floats, Shakers, Truths, mean_torque_N_m, motor_current

GRAVITY_M_S2 = 9.80665
LINES = 5
EVEN_FROM = 3.0  # times the weight's own swing: above it the smooth balance holds to 1 %

_NODES = 65  # of the torque table
_START_STEPS = 128
_SUSTAIN_STEPS = 224
_TURN_STEPS = 128
_CANDIDATES = 32
_ROUNDS = 3  # 32 candidates, three times: one part in 32 768
_HALVINGS = 40
_STEPS = 24  # of false position; four or so are enough
_NEAR_ENOUGH = 1e-9  # of the speed
_TINY = 1e-300  # keeps a division by a standing zero finite; no physical value is near it
_MOST_TURNS = 16  # most settle in four
_BETTERED = 3  # turns after which a gain that grows again is what the straight lines of the table leave open
_LEAST_SLOPE = -0.02  # of the gain of a turn: nearer to zero it would never settle
_SETTLED = 1e-7  # of the energy at the top
_ABOVE = 1.05  # times the smooth speed: an uneven turn is rarely faster
_PLACES_TRIED = 24
_CLOSED = 1e-5  # of the mean speed
_GIVEN_BACK = 1e-3  # of the mean speed: the straight lines of the table leave a few ten-thousandths open
_SCAN = 97
_NEAR_RESONANCE = np.linspace(-4, 4, 33)
_DRAGS = np.linspace(0, 1.2, 13)  # from 1.2 on a start asks for the whole gravity torque
_PLACES = 60


@dataclass(frozen=True)
class Thresholds:
    """Settings, one a machine; infinity where even the full setting is not enough.

    move: something stirs. start: the hanging weight passes the top. sustain: a turning weight keeps turning.
    static_lift: the mean torque holds the arm level; only a bound.
    """

    move: Floats
    start: Floats
    sustain: Floats
    static_lift: Floats


@dataclass(frozen=True)
class Turning:
    """Speeds, machines by settings; zero where it does not turn. several: more than one steady speed is possible."""

    speed_rad_s: Floats
    several: Truths


@dataclass(frozen=True)
class SettledTurn:
    """One turn that repeats: mean speed, and lateral force at 1 to 5 times the turning frequency.

    turns: false where the weight stops before it has come round. force_N: settings by lines.
    settled: false where no mean speed gives itself back; it then surges and sinks, and the values are those nearest.
    """

    turns: Truths
    speed_rad_s: Floats
    force_N: Floats
    settled: Truths


def gravity_torque_N_m(shakers: Shakers) -> Floats:
    """What the level arm asks of the shaft."""
    return shakers.unbalance_kg_m * GRAVITY_M_S2


def swing_rad_s(shakers: Shakers) -> Floats:
    """The hanging weight's own swing, small and free."""
    return np.sqrt(gravity_torque_N_m(shakers) / shakers.inertia_kg_m2)


# The swing over the angle -------------------------------------------------------------------------------------------


class SwingTable:
    """Torque less losses over gravity torque, lanes by speeds from 0 to `top` times the weight's own swing.

    Kept as one straight line for each piece between two speeds.
    """

    def __init__(self, values: Floats, top: float) -> None:
        lanes, nodes = values.shape
        width = top / (nodes - 1)
        slope = np.diff(values, axis=1) / width
        self.rises = values[:, 0] > 0
        self._drag = -slope.ravel()
        self._torque = (values[:, :-1] - slope * width * np.arange(nodes - 1)).ravel()
        self._first = np.arange(0, lanes * (nodes - 1), nodes - 1)
        self._last = nodes - 2
        self._per_speed = 1 / width

    def step(self, speed: Floats, angle: float, further: float) -> tuple[Truths, Floats]:
        """Turn on by an angle: whether it gets there, and the speed then.

        The energy balance of the step with the drag at the mean of both speeds: exact for gravity and for a steady
        torque, second order for the rest, and steady however slow the weight creeps.
        """
        piece = np.minimum((speed * self._per_speed).astype(np.intp), self._last) + self._first
        half_drag = self._drag.take(piece) * (further / 2)
        fall = 2 * (cos(angle) - cos(angle + further))
        energy = speed * speed + self._torque.take(piece) * (2 * further) - 2 * half_drag * speed - fall
        arrives = energy > 0
        return arrives, np.sqrt(half_drag * half_drag + np.maximum(energy, 0.0)) - half_drag


def passes(table: SwingTable, from_top: bool) -> Truths:
    """Whether a weight released at rest reaches the top: hanging, or from the top once round.

    Speeds are in units of the weight's own swing.
    """
    begin, sweep, steps = (np.pi, 2 * np.pi, _SUSTAIN_STEPS) if from_top else (0.0, np.pi, _START_STEPS)
    further = sweep / steps
    alive = table.rises
    speed = np.zeros(len(alive))
    for number in range(steps):
        arrives, speed = table.step(speed, begin + number * further, further)
        alive = alive & arrives
    return alive


def over_the_top_s(shakers: Shakers, settings: Floats) -> Floats:
    """How long each member takes at its setting from hanging at rest to the top; infinity where it never gets there."""
    table = SwingTable(_balance(shakers, settings, 3.0), 3.0)
    further = np.pi / _START_STEPS
    alive, speed, time = table.rises, np.zeros(len(shakers)), np.zeros(len(shakers))
    for number in range(_START_STEPS):
        before = speed
        arrives, speed = table.step(speed, number * further, further)
        alive = alive & arrives
        time = time + 2 * further / np.maximum(before + speed, 1e-9)
    result: Floats = np.where(alive, time / swing_rad_s(shakers), np.inf)
    return result


def _balance(shakers: Shakers, settings: Floats, top: float) -> Floats:
    """The numbers of a `SwingTable`; settings: one a member."""
    each = shakers.with_axes(1)
    speed = swing_rad_s(each) * np.linspace(0, top, _NODES)
    torque = mean_torque_N_m(each, settings[:, None], speed) - each.friction_N_m - each.drag_N_m_s2 * speed**2
    result: Floats = torque / gravity_torque_N_m(each)
    return result


def swings_over(shakers: Shakers, settings: Floats, from_top: bool) -> Truths:
    """Whether each member passes the top at its setting; see `passes`."""
    return passes(SwingTable(_balance(shakers, settings, 3.0), 3.0), from_top)


def swing_threshold(shakers: Shakers, from_top: bool) -> Floats:
    """The lowest setting at which each member passes the top; infinity where none does."""
    count = len(shakers)
    low, high = np.zeros(count), np.ones(count)
    lanes = shakers.take(np.repeat(np.arange(count), _CANDIDATES))
    for _ in range(_ROUNDS):
        settings = low[:, None] + (high - low)[:, None] * np.arange(1, _CANDIDATES + 1) / _CANDIDATES
        passed = swings_over(lanes, settings.ravel(), from_top).reshape(count, _CANDIDATES)
        high = np.where(passed.any(axis=1), settings[np.arange(count), passed.argmax(axis=1)], np.inf)
        width = settings[:, 1] - settings[:, 0]
        low = np.where(np.isinf(high), 1.0, high - width)
        high = np.where(np.isinf(high), 1.0, high)
        never = ~passed.any(axis=1)
        if never.all():
            break
    return np.where(never, np.inf, high)


@cache
def _straight_starts() -> Floats:
    """Steady torque over gravity torque at which a hanging weight passes the top, for each drag of `_DRAGS`."""
    low, width, speeds = np.zeros(len(_DRAGS)), 1.2, np.linspace(0, 3.0, 3)
    for _ in range(_ROUNDS):
        tried = low[:, None] + width * np.arange(1, _PLACES + 1) / _PLACES
        lanes = tried.ravel()[:, None] - np.repeat(_DRAGS, _PLACES)[:, None] * speeds
        first = passes(SwingTable(lanes, 3.0), from_top=False).reshape(tried.shape).argmax(axis=1)
        width /= _PLACES
        low = tried[np.arange(len(_DRAGS)), first] - width
    return low + width


def quick_start(shakers: Shakers) -> Floats:
    """The start within 1 to 2 %, for many members: the drive's torque as a straight line up to the swing's own speed.

    Infinity where the full setting is not enough. Source: derived here; see `swing_threshold` for the exact one.
    """
    weight, own = gravity_torque_N_m(shakers), swing_rad_s(shakers)
    still = np.zeros(len(shakers))

    def enough(setting: Floats) -> Truths:
        rest = mean_torque_N_m(shakers, setting, still) - shakers.friction_N_m
        turning = mean_torque_N_m(shakers, setting, own) - shakers.friction_N_m - shakers.drag_N_m_s2 * own**2
        return rest / weight >= np.interp((rest - turning) / weight, _DRAGS, _straight_starts())

    return _lowest(enough, len(shakers), _HALVINGS // 2)


def _lowest(enough: Callable[[Floats], Truths], count: int, halvings: int) -> Floats:
    """The lowest setting of each of count members that is enough, by halving; infinity where the full one is not."""
    low, high = np.zeros(count), np.ones(count)
    possible = enough(high)
    for _ in range(halvings):
        middle = (low + high) / 2
        there = enough(middle)
        low, high = np.where(there, low, middle), np.where(there, middle, high)
    return np.where(possible, high, np.inf)


def _reaches(shakers: Shakers, needed_N_m: Floats, peak: bool) -> Floats:
    """The lowest setting whose standstill torque is needed_N_m; infinity where the full setting is not enough."""

    def enough(setting: Floats) -> Truths:
        current_A = motor_current(shakers, setting, np.zeros(1))[1 if peak else 0]
        return current_A * shakers.emf_V_s >= needed_N_m

    return _lowest(enough, len(shakers), _HALVINGS)


def move_threshold(shakers: Shakers) -> Floats:
    """The setting whose peak torque at standstill overcomes the friction."""
    return _reaches(shakers, shakers.friction_N_m, peak=True)


def lift_threshold(shakers: Shakers, load_N_m: Floats) -> Floats:
    """The setting whose mean torque at standstill carries a load."""
    return _reaches(shakers, load_N_m, peak=False)


def thresholds(shakers: Shakers) -> Thresholds:
    """The four duties of each member.

    Source: S. H. Strogatz, Nonlinear Dynamics and Chaos, driven pendulum; one-way drive and thresholds derived here.
    """
    start = swing_threshold(shakers, from_top=False)
    sustain = np.minimum(swing_threshold(shakers, from_top=True), start)
    lift = lift_threshold(shakers, shakers.friction_N_m + gravity_torque_N_m(shakers))
    return Thresholds(move_threshold(shakers), start, sustain, lift)


# Speed --------------------------------------------------------------------------------------------------------------


def shaking_torque_N_m(shakers: Shakers, speed_rad_s: Floats) -> Floats:
    """The mean shaft torque that feeds the cabinet's damping."""
    natural = 2 * np.pi * shakers.natural_Hz
    moved = shift(shakers.unbalance_kg_m, shakers.mass_kg, natural, shakers.damping_share, speed_rad_s)
    result: Floats = shakers.damping_share * shakers.mass_kg * natural * speed_rad_s * moved**2
    return result


def loss_torque_N_m(shakers: Shakers, speed_rad_s: Floats) -> Floats:
    """Friction, drag and what the cabinet takes."""
    result: Floats = (
        shakers.friction_N_m + shakers.drag_N_m_s2 * speed_rad_s**2 + shaking_torque_N_m(shakers, speed_rad_s)
    )
    return result


def _scanned(shakers: Shakers) -> Floats:
    """Speeds to look for a balance at: machines by speeds, rising, close together round the resonance."""
    fastest = ((shakers.supply_V - shakers.brush_V) / shakers.emf_V_s)[:, None]
    even = fastest * np.linspace(0, 1, _SCAN)
    natural = (2 * np.pi * shakers.natural_Hz)[:, None]
    near = natural * np.maximum(1 + shakers.damping_share[:, None] * _NEAR_RESONANCE, 0.0)
    return np.sort(np.concatenate([even, np.minimum(near, fastest)], axis=1), axis=1)


def turning(shakers: Shakers, settings: Floats) -> Turning:
    """The steady smooth speed of each member at each setting, the slowest stable one.

    settings: for all members, or members by settings. Found by a scan and by false position.
    """
    speeds = _scanned(shakers)
    settings = np.broadcast_to(settings, (len(shakers), np.shape(settings)[-1]))
    cube, plane = shakers.with_axes(2), shakers.with_axes(1)
    losses = loss_torque_N_m(plane, speeds)
    surplus = mean_torque_N_m(cube, settings[:, :, None], speeds[:, None, :]) - losses[:, None, :]
    crossing = (surplus[:, :, :-1] > 0) & (surplus[:, :, 1:] <= 0)
    first = crossing.argmax(axis=2)
    found = crossing.any(axis=2)
    low, high = (np.take_along_axis(speeds, first + end, axis=1) for end in (0, 1))
    over_low, over_high = (np.take_along_axis(surplus, (first + end)[:, :, None], axis=2)[:, :, 0] for end in (0, 1))
    over_low, over_high = np.where(found, over_low, 1.0), np.where(found, over_high, -1.0)
    place = _balanced(plane, settings, (low, high), (over_low, over_high), np.asarray(found))
    return Turning(np.where(found, place, 0.0), crossing.sum(axis=2) > 1)


def _balanced(
    shakers: Shakers, settings: Floats, between: tuple[Floats, Floats], over: tuple[Floats, Floats], wanted: Truths
) -> Floats:
    """Where the torque that is left falls through zero, by false position.

    between: speeds below and above it. over: the torque that is left there. wanted: what has to be found.
    Source: N. Anderson and A. Björck, A new high order method of regula falsi type, BIT 13 (1973), from memory.
    """
    (low, high), (over_low, over_high) = between, over
    place, rose = high, np.full(np.shape(high), np.nan)
    for _ in range(_STEPS):
        last, place = place, high - over_high * (high - low) / (over_high - over_low)
        if (np.abs(place - last) <= _NEAR_ENOUGH * place)[wanted].all():
            break
        left = mean_torque_N_m(shakers, settings, place) - loss_torque_N_m(shakers, place)
        faster = left > 0
        # an end that stays a second time counts less, or the other would creep
        share = left / np.where(faster, over_low, over_high)
        less = np.where(faster == rose, np.where(share < 1, 1 - share, 0.5), 1.0)
        over_low = np.where(faster, left, over_low * less)
        over_high = np.where(faster, over_high * less, np.minimum(left, -_TINY))
        low, high, rose = np.where(faster, place, low), np.where(faster, high, place), np.where(faster, 1.0, 0.0)
    return place


def setting_for_speed(shakers: Shakers, speed_rad_s: Floats) -> Floats:
    """The setting that keeps each member at its speed; infinity where the full setting is not enough."""
    needed = loss_torque_N_m(shakers, speed_rad_s)

    def enough(setting: Floats) -> Truths:
        return mean_torque_N_m(shakers, setting, speed_rad_s) >= needed

    return _lowest(enough, len(shakers), _HALVINGS)


def steady_speeds(shaker: Shakers, setting: float) -> tuple[float, ...]:
    """All smooth speeds that one member can keep at a setting, slowest first, in rad/s.

    More than one: the cabinet takes so much at its resonance that the motor may hang there.
    Source: V. O. Kononenko, Vibrating Systems with a Limited Power Supply; the search is derived here.
    """
    speeds = _scanned(shaker)[0]
    settings = np.array([setting])
    surplus = mean_torque_N_m(shaker, settings, speeds) - loss_torque_N_m(shaker, speeds)
    kept = np.flatnonzero((surplus[:-1] > 0) & (surplus[1:] <= 0))
    ends, over = (speeds[kept], speeds[kept + 1]), (surplus[kept], np.minimum(surplus[kept + 1], -_TINY))
    place = _balanced(shaker, settings, ends, over, np.ones(len(kept), bool))
    return tuple(place.tolist())


# An uneven turn -----------------------------------------------------------------------------------------------------


def _one_turn(table: SwingTable, speed: Floats) -> tuple[Truths, Floats]:
    """A turn from the top: whether it comes round, and the speed at every step (steps + 1 by lanes)."""
    further = 2 * np.pi / _TURN_STEPS
    path = np.empty((_TURN_STEPS + 1, len(speed)))
    path[0] = speed
    alive = np.ones(len(speed), bool)
    for number in range(_TURN_STEPS):
        arrives, speed = table.step(speed, np.pi + number * further, further)
        alive &= arrives
        path[number + 1] = speed = np.maximum(speed, 1e-6)
    return alive, path


class _Turns:
    """Turns that repeat, under a steady torque of the cabinet; lanes as in a batch."""

    def __init__(self, shakers: Shakers, settings: Floats, speed_rad_s: Floats) -> None:
        self.shakers, self.own = shakers, swing_rad_s(shakers)
        self._top = float(np.max(speed_rad_s / self.own, initial=1.0)) + 2.5
        self._base = _balance(shakers, settings, self._top)
        self._weight = gravity_torque_N_m(shakers)
        self._begin = np.maximum((speed_rad_s / self.own) ** 2 - 2, 0.04)
        self._energy = self._begin
        self._slope = np.full(len(shakers), -1.0)  # of what a turn gains, over the energy before it
        self.path = np.ones((_TURN_STEPS + 1, len(shakers)))

    def mean(self, shaking_N_m: Floats) -> Floats:
        """The mean speed of the turn that repeats; zero where the weight stops. Its path is kept.

        The energy at the top after a turn rises with that before it, so two turns tell how fast they settle, and the
        search jumps to where they would. It begins where the last one ended: a little too slow still comes round if
        that did, and too fast only slows down.
        """
        table = SwingTable(self._base - (shaking_N_m / self._weight)[:, None], self._top)
        energy = self._energy
        gained, moved = np.zeros_like(energy), np.zeros_like(energy)
        for number in range(_MOST_TURNS):
            turns, self.path = _one_turn(table, np.sqrt(energy))
            last = self.path[-1] ** 2
            gain = last - energy
            no_better = (np.abs(gain) >= np.abs(gained)) & (number >= _BETTERED)
            if (~turns | (np.abs(gain) <= _SETTLED * last) | no_better).all():
                break
            told = np.abs(moved) > _SETTLED * last
            slope = np.where(told, (gain - gained) / np.where(told, moved, 1.0), self._slope)
            self._slope = np.clip(slope, -1.0, _LEAST_SLOPE)
            further = np.clip(energy - gain / self._slope, last / 4, last * 4)
            gained, moved, energy = gain, further - energy, further
        self._energy = np.where(turns, last, self._begin)
        result: Floats = np.where(turns, 2 * np.pi / _dwell(self.path, self.own).sum(axis=0), 0.0)
        return result


def settled_turns(shakers: Shakers, settings: Floats, speed_rad_s: Floats) -> SettledTurn:
    """The turn that repeats, one member a setting; speed_rad_s: the smooth speed, where the search begins.

    The cabinet's pull goes by the mean speed, and the mean speed by that pull: a bracket round the speed that gives
    itself back is closed by false position. Putting one into the other in turn need not end near the resonance.
    """
    turns = _Turns(shakers, settings, speed_rad_s)
    free = turns.mean(np.zeros(len(shakers)))  # nothing taken by the cabinet: the fastest that can be
    low, over_low = np.zeros(len(shakers)), free
    high = np.minimum(_ABOVE * np.maximum(speed_rad_s, 1e-3), free)
    over_high = turns.mean(shaking_torque_N_m(shakers, high)) - high
    wide = over_high > 0  # the slowest balance is not below: it is looked for up to the fastest
    high, over_high = np.where(wide, free, high), np.where(wide, np.minimum(over_high, -1e-12 * free), over_high)
    place = high
    for _ in range(_PLACES_TRIED):
        with np.errstate(divide="ignore", invalid="ignore"):
            place = high - over_high * (high - low) / (over_high - over_low)
        place = np.where(np.isfinite(place), place, (low + high) / 2)
        over = turns.mean(shaking_torque_N_m(shakers, place)) - place
        closed = (free <= 0) | (np.abs(over) <= _CLOSED * place) | (high - low <= _CLOSED * high)
        if closed.all():
            break
        faster = over > 0
        # an end that stays where it is counts half, or the other would creep
        over_high = np.where(faster, over_high / 2, over)
        over_low = np.where(faster, over, over_low / 2)
        low, high = np.where(faster, place, low), np.where(faster, high, place)
    settled = (free <= 0) | (np.abs(over) <= _GIVEN_BACK * np.maximum(place, 1e-9))
    goes = (free > 0) & (over + place > 0)
    mean = np.where(goes, over + place, 0.0)
    lines = _lines(shakers, turns.path, np.maximum(mean, 1e-3)) * goes[:, None]
    return SettledTurn(goes, mean, lines, settled)


def _dwell(path: Floats, own_rad_s: Floats) -> Floats:
    """The time of each step of a turn, exact for a steady pull."""
    result: Floats = 2 * (2 * np.pi / _TURN_STEPS) / (path[1:] + path[:-1]) / own_rad_s
    return result


def _lines(shakers: Shakers, path: Floats, mean_rad_s: Floats) -> Floats:
    """Lateral force at each multiple of the turning frequency, from the weight's place over one turn."""
    dwell = _dwell(path, swing_rad_s(shakers))
    middle = np.cumsum(dwell, axis=0) - dwell / 2
    further = 2 * np.pi / _TURN_STEPS
    place = np.sin(np.pi + further * (np.arange(_TURN_STEPS) + 0.5))[:, None] * dwell
    once = np.exp(-1j * mean_rad_s * middle)
    forces = []
    turn = np.ones_like(once)
    for line in range(1, LINES + 1):
        turn = turn * once
        part = np.abs(np.sum(place * turn, axis=0)) * mean_rad_s / np.pi
        forces.append(shakers.unbalance_kg_m * (line * mean_rad_s) ** 2 * part)
    return np.stack(forces, axis=1)
