"""Where a shaker likely starts, inside what the corners of all ranges guarantee: seeded random machines."""

import numpy as np

from guide_gen.formulas.motion_inputs import MotionInputs, Values, nominal_of, shakers_of, spreads_of
from guide_gen.formulas.spread import TURN, Pair
from guide_gen.formulas.swing import quick_start, swing_threshold, turning

_DRAWS, _SEED = 200, 20
_MORE = 10  # times as many draws where a turning frequency was found, which most of them do not have
_SHARES = (10, 90)  # percent
_LEAST = 20  # draws that must agree with what was found, to say anything


def likely_start(inputs: MotionInputs, start: Pair, turning_Hz: Pair | None = None) -> Pair | None:
    """The settings between which 8 of 10 machines start whose values lie anywhere in their ranges, all alike likely.

    start: what the corners or a reading allow; machines outside it are left out, and so are those that turn outside
    turning_Hz at the setting of that reading. Infinity: never. None where nothing is
    in doubt or too few are left. The quick start is set right by the exact one at the nominal inputs.
    Source: this project; the corners are the guarantee.
    """
    chance = np.random.default_rng(_SEED)
    ranged = {name: spread for name, spread in spreads_of(inputs).items() if spread.high > spread.low}
    if not ranged or start[0] == start[1]:
        return None
    draws = _DRAWS * (_MORE if turning_Hz else 1)
    drawn: Values = {name: chance.uniform(spread.low, spread.high, draws) for name, spread in ranged.items()}
    nominal = nominal_of(inputs)
    machines = shakers_of(inputs, nominal | drawn)
    starts = quick_start(machines)
    one = shakers_of(inputs, nominal)
    exact, quick = float(swing_threshold(one, from_top=False)[0]), float(quick_start(one)[0])
    if np.isfinite(exact) and np.isfinite(quick):
        starts = starts * exact / quick
    fits = (starts >= start[0]) & (starts <= start[1])
    if turning_Hz:
        hertz = turning(machines, np.array([inputs.found.turning_at])).speed_rad_s[:, 0] / TURN
        fits &= (hertz >= turning_Hz[0]) & (hertz <= turning_Hz[1])
    kept = np.sort(starts[fits])
    if len(kept) < _LEAST:
        return None
    low, high = (float(kept[int(share / 100 * (len(kept) - 1))]) for share in _SHARES)
    return low, high
