"""Where a shaker likely starts, inside what the corners of all ranges guarantee: seeded random machines."""

import numpy as np

from guide_gen.formulas.motion_inputs import MotionInputs, Values, nominal_of, shakers_of, spreads_of
from guide_gen.formulas.spread import Pair
from guide_gen.formulas.swing import quick_start, swing_threshold

_DRAWS, _SEED = 200, 20
_SHARES = (10, 90)  # percent
_LEAST = 20  # draws that must agree with what was found, to say anything


def likely_start(inputs: MotionInputs, start: Pair) -> Pair | None:
    """The settings between which 8 of 10 machines start whose values lie anywhere in their ranges, all alike likely.

    start: what the corners or a reading allow; machines outside it are left out. Infinity: never. None where nothing is
    in doubt or too few are left. The quick start is set right by the exact one at the nominal inputs.
    Source: this project; the corners are the guarantee.
    """
    chance = np.random.default_rng(_SEED)
    ranged = {name: spread for name, spread in spreads_of(inputs).items() if spread.high > spread.low}
    if not ranged or start[0] == start[1]:
        return None
    drawn: Values = {name: chance.uniform(spread.low, spread.high, _DRAWS) for name, spread in ranged.items()}
    nominal = nominal_of(inputs)
    starts = quick_start(shakers_of(inputs, nominal | drawn))
    one = shakers_of(inputs, nominal)
    exact, quick = float(swing_threshold(one, from_top=False)[0]), float(quick_start(one)[0])
    if np.isfinite(exact) and np.isfinite(quick):
        starts = starts * exact / quick
    kept = np.sort(starts[(starts >= start[0]) & (starts <= start[1])])
    if len(kept) < _LEAST:
        return None
    low, high = (float(kept[int(share / 100 * (len(kept) - 1))]) for share in _SHARES)
    return low, high
