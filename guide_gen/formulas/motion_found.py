"""What was measured on the machine: compared with what was foretold, and the ranges narrowed by it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import StrEnum

import numpy as np

from guide_gen.formulas.drive import Floats, Truths, supply_current
from guide_gen.formulas.motion_inputs import (
    CURRENT_WAYS,
    SPEED_WAYS,
    START_WAYS,
    MotionInputs,
    Values,
    corner_of,
    nominal_of,
    shakers_of,
    speed_corners,
    speed_ends,
    spreads_of,
    with_ends,
)
from guide_gen.formulas.spread import TURN, Pair, Spread
from guide_gen.formulas.swing import EVEN_FROM, settled_turns, swing_rad_s, swing_threshold, swings_over, turning

_WEIGHT = {"unbalance_kg_m", "inertia_kg_m2", "swing_s"}
_CANDIDATES = 13
_PLACES = 65
_NO_MORE_UNEVEN = (0.7, 1.3)  # beside its smooth turn: what is farther off is another turn; this project


class Check(StrEnum):
    """A reading that the plan foretells."""

    START = "start"
    TURNING = "turning"
    CURRENT = "current"
    NATURAL = "natural"
    DAMPING = "damping"
    AS_LEFT = "as left"


@dataclass(frozen=True)
class Compared:
    """A reading against what was foretold before any was taken.

    outside: it contradicts the ranges, or what the readings before it left of them. narrows: it cut the ranges.
    """

    check: Check
    found: float
    predicted: Pair
    outside: bool
    narrows: bool = False


@dataclass(frozen=True)
class Learnt:
    """Inputs narrowed by what was found. start: where it was seen to start, when that agrees.

    before: the start as foretold before any reading; None where no reading narrows. in_use: whether the setting in use
    narrows the start. readings: those that agree.
    """

    inputs: MotionInputs
    start: Pair | None
    compared: list[Compared]
    before: Pair | None
    in_use: bool
    readings: dict[Check, "Reading"]

    def ends(self, check: Check) -> Pair | None:
        """Both ends of a reading that agrees; None: there is none."""
        one = self.readings.get(check)
        return (one.low, one.high) if one else None


@dataclass(frozen=True)
class Reading:
    """A reading as a range, with what it may be off. ways: which way the result goes with each input."""

    check: Check
    low: float
    high: float
    ways: dict[str, int]


_OFF = {Check.TURNING: 0.03, Check.CURRENT: 0.05, Check.NATURAL: 0.05, Check.DAMPING: 0.20}  # what a reading may be off
_FIGURE_A = 0.01  # the last figure of a multimeter's 10 A range
# Below so many times the weight's own swing the smooth balance is off by so much; this project, against a turn followed
# round.
_UNEVEN = ((1.3, 0.30), (EVEN_FROM, 0.08))


def _off(inputs: MotionInputs, check: Check, value: float, pace: float) -> tuple[float, float]:
    """Both ends of what a reading stands for; pace: how fast it turned, in terms of the weight's own swing."""
    uneven = (
        next((off for below, off in _UNEVEN if pace < below), 0.0) if check in (Check.TURNING, Check.CURRENT) else 0
    )
    give = value * max(_OFF[check], uneven) + (_FIGURE_A if check is Check.CURRENT else 0.0)
    return max(value - give, 0.0), value + give


def speeds(inputs: MotionInputs, cases: list[Values], setting: float) -> Floats:
    """The smooth speed of each case at a setting, in rad/s."""
    return turning(shakers_of(inputs, *cases), np.array([setting])).speed_rad_s[:, 0]


def currents(inputs: MotionInputs, cases: list[Values]) -> Floats:
    """What a meter in the supply lead shows at the setting of that reading, in A."""
    setting = np.array([inputs.found.current_at])
    shakers = shakers_of(inputs, *cases)
    speed = turning(shakers, setting).speed_rad_s
    return supply_current(shakers.with_axes(1), setting, speed)[:, 0]


def _current_ways(inputs: MotionInputs) -> dict[str, int]:
    """Which way the supply's current goes: known at the full setting of a known motor, else found by trying."""
    if inputs.found.current_at >= 1 and inputs.running_V is None:
        return CURRENT_WAYS
    ranged = {name: spread for name, spread in spreads_of(inputs).items() if spread.high > spread.low}
    if not ranged:
        return {}
    nominal = nominal_of(inputs)
    cases = [nominal | {name: end} for name, spread in ranged.items() for end in (spread.low, spread.high)]
    drawn = currents(inputs, cases).reshape(-1, 2)
    return {name: int(np.sign(high - low)) for name, (low, high) in zip(ranged, drawn, strict=True)}


def _current_corners(inputs: MotionInputs, ways: dict[str, int], sign: int) -> list[Values]:
    corner = corner_of(inputs, ways, sign)
    sure = inputs.found.current_at >= 1 and inputs.running_V is None
    return [corner] if sure else with_ends(inputs, corner, speed_ends(inputs))


def predicted_of(inputs: MotionInputs, check: Check, ways: dict[str, int]) -> Pair:
    """What the ranges foretell of a reading; ways: which way the supply's current goes, for a reading of that."""
    if check is Check.START:
        both = [corner_of(inputs, START_WAYS, -1), corner_of(inputs, START_WAYS, 1)]
        low, high = swing_threshold(shakers_of(inputs, *both), from_top=False)
        return float(low), float(high)
    if check is Check.TURNING:
        turned = speeds(inputs, speed_corners(inputs, -1) + speed_corners(inputs, 1), inputs.found.turning_at)
        return float(turned.min() / TURN), float(turned.max() / TURN)
    if check is Check.CURRENT:
        drawn = currents(inputs, _current_corners(inputs, ways, -1) + _current_corners(inputs, ways, 1))
        return float(drawn.min()), float(drawn.max())
    spread = inputs.natural_Hz if check is Check.NATURAL else inputs.damping
    return spread.low, spread.high


def _possible(inputs: MotionInputs, reading: Reading, tried: dict[str, Floats]) -> dict[str, Truths]:
    """Which values of each input could give a reading, the other inputs anywhere in their ranges.

    tried: as many values of each. All of them are worked out in one batch.
    """
    ones: list[Values] = [{name: values} for name, values in tried.items()]

    def all_of(corners: list[Values]) -> list[Values]:
        return [corner | one for one in ones for corner in corners]

    if reading.check is Check.START:
        easy, hard = (
            shakers_of(inputs, *all_of([corner_of(inputs, START_WAYS, sign)])) for sign in (-1, 1)
        )  # fmt: skip
        there = swings_over(easy, np.full(len(easy), reading.high), from_top=False)
        there &= ~swings_over(hard, np.full(len(hard), reading.low), from_top=False)
        return dict(zip(tried, there.reshape(len(ones), -1), strict=True))
    if reading.check is Check.TURNING:
        at = inputs.found.turning_at
        little, much = (speeds(inputs, all_of(speed_corners(inputs, sign)), at) / TURN for sign in (-1, 1))
    else:
        little, much = (
            currents(inputs, all_of(_current_corners(inputs, reading.ways, sign))) for sign in (-1, 1)
        )  # fmt: skip
    least = little.reshape(len(ones), -1, _CANDIDATES).min(axis=1)
    most = much.reshape(len(ones), -1, _CANDIDATES).max(axis=1)
    return dict(zip(tried, (least <= reading.high) & (most >= reading.low), strict=True))


def _narrowed_by(inputs: MotionInputs, reading: Reading) -> MotionInputs:
    """Each range cut down to the values that can give a reading; a grid's width is left on either side."""
    tried = {
        name: np.linspace(spread.low, spread.high, _CANDIDATES)
        for name, spread in spreads_of(inputs).items()
        if name in {*reading.ways, *speed_ends(inputs)} and spread.high > spread.low
    }
    if not tried:
        return inputs
    spreads, cut = spreads_of(inputs), dict[str, Spread]()
    for name, possible in _possible(inputs, reading, tried).items():
        kept = np.flatnonzero(possible)
        if len(kept):
            low, high = max(kept[0] - 1, 0), min(kept[-1] + 1, _CANDIDATES - 1)
            cut[name] = spreads[name].within(float(tried[name][low]), float(tried[name][high]))
    return replace(inputs, **cut)  # type: ignore[arg-type]


def _narrower(before: MotionInputs, after: MotionInputs) -> bool:
    """Whether any range has become narrower."""
    old, new = spreads_of(before), spreads_of(after)
    return any(new[name].high - new[name].low < 0.999 * (one.high - one.low) for name, one in old.items())


def _along(inputs: MotionInputs, ways: dict[str, int], enough: Callable[[list[Values]], Truths]) -> MotionInputs:
    """Nominal values moved together, from corner over nominal to corner, to where a result just becomes enough."""
    place = np.linspace(-1, 1, _PLACES)
    line: dict[str, Floats] = {}
    for name, spread in spreads_of(inputs).items():
        way = ways.get(name, 0) * place
        end = np.where(way > 0, spread.high, spread.low)
        line[name] = spread.nominal + (end - spread.nominal) * np.abs(way)
    for _ in range(2):  # the second time between two places of the first
        there = enough([dict(line)])
        chosen = int(there.argmax()) if there.any() else _PLACES - 1
        line = {name: np.linspace(some[max(chosen - 1, 0)], some[chosen], _PLACES) for name, some in line.items()}
    moved = {name: spread._replace(nominal=float(line[name][-1])) for name, spread in spreads_of(inputs).items()}
    return replace(inputs, **moved)  # type: ignore[arg-type]


def _recentred(inputs: MotionInputs, setting: float, weight_alone: bool) -> MotionInputs:
    """Nominal values, or those of the weight alone, moved to where the weight just turns over at a setting."""
    ways = {name: way for name, way in START_WAYS.items() if name in _WEIGHT or not weight_alone}

    def later(cases: list[Values]) -> Truths:
        shakers = shakers_of(inputs, *cases)
        return ~swings_over(shakers, np.full(len(shakers), setting), from_top=False)

    return _along(inputs, ways, later)


def _turned(inputs: MotionInputs, rad_s: float, decided: set[str]) -> MotionInputs:
    """Nominal values moved to where it turns so fast, smoothly, at the setting of that reading."""
    ways = {name: way for name, way in (SPEED_WAYS | {"emf_V_s": -1}).items() if name not in decided}
    return _along(inputs, ways, lambda cases: speeds(inputs, cases, inputs.found.turning_at) >= rad_s)


def _unevenness(inputs: MotionInputs, turning_Hz: float) -> float:
    """What a slow turn, which is uneven, is of the smooth one that stands for it, about as fast as found."""
    one = _turned(inputs, turning_Hz * TURN, set())
    shaker, at = shakers_of(one, nominal_of(one)), np.array([inputs.found.turning_at])
    smooth = turning(shaker, at).speed_rad_s[:, 0]
    if smooth[0] <= 0:
        return 1.0
    settled = settled_turns(shaker, at, smooth)
    return float(np.clip(settled.speed_rad_s[0] / smooth[0], *_NO_MORE_UNEVEN)) if settled.turns[0] else 1.0


def centred(inputs: MotionInputs, readings: dict[Check, Reading], start: float | None) -> MotionInputs:
    """Nominal values moved to where they give the readings, then to where it starts at a setting.

    start: that setting; None: wherever they put it. After a reading of speed or current only the weight moves, which
    leaves those as they are.
    """
    decided: set[str] = set()
    if drawn := readings.get(Check.CURRENT):
        current_A, ways = (drawn.low + drawn.high) / 2, drawn.ways
        inputs = _along(inputs, ways, lambda cases: currents(inputs, cases) >= current_A)
        decided = {"drag_N_m_s2", "running_A"}
    if turned := readings.get(Check.TURNING):
        inputs = _turned(inputs, (turned.low + turned.high) / 2 * TURN, decided)
    alone = Check.CURRENT in readings or Check.TURNING in readings
    return inputs if start is None else _recentred(inputs, start, alone)


def _overlap(one: Pair, other: Pair) -> bool:
    return one[0] <= other[1] and other[0] <= one[1]


def _of_cabinet(inputs: MotionInputs) -> tuple[MotionInputs, list[Compared]]:
    """Natural frequency and damping: a reading that lies in the range takes its place."""
    compared: list[Compared] = []
    readings = (
        (Check.NATURAL, "natural_Hz", inputs.found.natural_Hz),
        (Check.DAMPING, "damping", inputs.found.damping),
    )
    for check, name, value in readings:
        if value is None:
            continue
        spread = spreads_of(inputs)[name]
        reading = _off(inputs, check, value, 0.0)
        outside = not _overlap(reading, (spread.low, spread.high))
        before = inputs
        if not outside:
            low, high = max(reading[0], spread.low), min(reading[1], spread.high)
            one = Spread(low, min(max(value, low), high), high)
            inputs = replace(inputs, **{name: one})  # type: ignore[arg-type]
        compared.append(Compared(check, value, (spread.low, spread.high), outside, _narrower(before, inputs)))
    return inputs, compared


def learnt(inputs: MotionInputs) -> Learnt:
    """The inputs narrowed by what was found, one reading after the other, and each reading against its prediction.

    A reading that contradicts the ranges narrows nothing.
    """
    found, given = inputs.found, inputs
    inputs, compared = _of_cabinet(inputs)
    raw, agreed = inputs, dict[Check, Reading]()
    own = float(swing_rad_s(shakers_of(inputs, nominal_of(inputs)))[0])
    ways = _current_ways(inputs) if found.current_A is not None else {}

    for check, value in (
        (Check.CURRENT, found.current_A),
        (Check.TURNING, found.turning_Hz),
        (Check.START, found.start),
    ):
        if value is None:
            continue
        uneven = 1.0
        if check is Check.START:
            reading = Reading(check, max(value - found.start_step, 0.0), value, START_WAYS)
        else:
            at_turning = found.turning_Hz is not None and (
                check is Check.TURNING or found.current_at == found.turning_at
            )
            rad_s = (
                (found.turning_Hz or 0.0) * TURN
                if at_turning
                else float(speeds(inputs, [nominal_of(inputs)], found.current_at)[0])
            )
            if check is Check.TURNING and rad_s < EVEN_FROM * own:
                uneven = _unevenness(inputs, value)
            low, high = _off(inputs, check, value / uneven, rad_s / own)
            reading = Reading(check, low, high, SPEED_WAYS if check is Check.TURNING else ways)
        predicted = predicted_of(raw, check, ways)
        foretold = (predicted[0] * uneven, predicted[1] * uneven)
        within = (reading.low, reading.high)
        outside = not (_overlap(within, predicted) and _overlap(within, predicted_of(inputs, check, ways)))
        before = inputs
        if not outside:
            agreed[check] = reading
            inputs = _narrowed_by(inputs, reading)
        cuts = predicted[0] < reading.low or reading.high < predicted[1]
        narrows = not outside and (cuts or _narrower(before, inputs))
        compared.append(Compared(check, value, foretold, outside, narrows))
    start = agreed.get(Check.START)
    seen = (start.low, start.high) if start else None
    begins = predicted_of(inputs, Check.START, {})
    in_use = found.start is None and found.as_left is not None and begins[0] <= found.as_left < begins[1]
    if in_use and found.as_left is not None:  # it is left where it turns: it starts there at the latest
        seen = (0.0, found.as_left)
        inputs = _narrowed_by(inputs, Reading(Check.START, *seen, START_WAYS))
    return Learnt(
        inputs,
        seen,
        compared,
        predicted_of(given, Check.START, {}) if in_use or any(one.narrows for one in compared) else None,
        in_use,
        agreed,
    )


def foretold(inputs: MotionInputs, setting: float) -> tuple[Pair, Pair]:
    """What the ranges foretell of the turning frequency in Hz and of the supply's current in A at a setting."""
    there = replace(inputs, found=replace(inputs.found, turning_at=setting, current_at=setting))
    return predicted_of(there, Check.TURNING, {}), predicted_of(there, Check.CURRENT, _current_ways(there))
