"""Where a shaker likely starts, inside what the corners of all ranges guarantee: seeded random machines."""

from dataclasses import dataclass, replace

import numpy as np

from guide_gen.formulas.drive import Floats, Shakers, Truths, supply_current
from guide_gen.formulas.motion_inputs import START_WAYS, MotionInputs, nominal_of, shakers_of, spreads_of
from guide_gen.formulas.spread import TURN, Pair, Spread
from guide_gen.formulas.swing import quick_start, turning

_DRAWS, _SEED = 200, 20
_MORE = 5  # times as many draws where something was found, which most of them do not have
_SHARES = (10, 50, 90)  # percent
_LEAST = 20  # draws that must agree with what was found, to say anything


@dataclass(frozen=True)
class Likely:
    """Where machines start: 8 of 10 from low to high, half of them at nominal or below; infinity: never.

    values: of each input that decides the start and is a range, the value that half of these machines lie below.
    """

    start: Spread
    values: dict[str, float]

    def machine(self, inputs: MotionInputs) -> MotionInputs:
        """The same ranges round a machine of which as many like it lie on one side as on the other."""
        spreads = spreads_of(inputs)
        moved = {name: spreads[name]._replace(nominal=value) for name, value in self.values.items()}
        return replace(inputs, **moved)  # type: ignore[arg-type]


def likely_start(
    inputs: MotionInputs,
    start: Pair,
    nominal_start: float,
    given: MotionInputs | None = None,
    turning_Hz: Pair | None = None,
    current_A: Pair | None = None,
) -> Likely | None:
    """Where machines start whose values lie anywhere in their ranges, as often above as below the likeliest.

    start: what the corners or a reading allow; machines outside it are left out, and so are those that turn or draw
    outside turning_Hz and current_A at the settings of those readings. given: the inputs before anything was found,
    by whose likeliest values the machines are drawn. None where nothing is in doubt or too few are left. The quick
    start is set right by nominal_start, the exact one at the nominal inputs.
    Source: this project; the corners are the guarantee.
    """
    ranged = {name: spread for name, spread in spreads_of(inputs).items() if spread.high > spread.low}
    if not ranged or start[0] == start[1]:
        return None
    drawn = _drawn(ranged, spreads_of(given or inputs), _DRAWS * (_MORE if given else 1))
    nominal = nominal_of(inputs)
    machines = shakers_of(inputs, {**nominal, **drawn})
    starts = quick_start(machines)
    quick = float(quick_start(shakers_of(inputs, nominal))[0])
    if np.isfinite(nominal_start) and np.isfinite(quick):
        starts = starts * nominal_start / quick
    fits = (starts >= start[0]) & (starts <= start[1])
    fits[fits] &= _as_found(inputs, machines.take(fits), turning_Hz, current_A)
    kept = np.sort(starts[fits])
    if len(kept) < _LEAST:
        return None
    low, middle, high = (float(kept[int(share / 100 * (len(kept) - 1))]) for share in _SHARES)
    values = {name: float(np.median(drawn[name][fits])) for name in ranged if name in START_WAYS}
    return Likely(Spread(low, middle, high), values)


def _drawn(ranged: dict[str, Spread], given: dict[str, Spread], draws: int) -> dict[str, Floats]:
    """Seeded values within narrowed ranges, half of those in the given ranges on either side of the likeliest."""
    chance = np.random.default_rng(_SEED)
    drawn: dict[str, Floats] = {}
    for name, spread in ranged.items():
        prior = given[name]
        below = 0.5 if prior.low < prior.nominal < prior.high else float(prior.nominal == prior.high)
        values, shares = list(prior), [0.0, below, 1.0]
        low, high = np.interp([spread.low, spread.high], values, shares)
        drawn[name] = np.asarray(np.interp(chance.uniform(float(low), float(high), draws), shares, values))
    return drawn


def _as_found(inputs: MotionInputs, machines: Shakers, turning_Hz: Pair | None, current_A: Pair | None) -> Truths:
    """Which machines turn and draw as was found, each at the setting of its reading."""
    fits = np.ones(len(machines), bool)
    found, speeds = inputs.found, dict[float, Floats]()
    for reading, at in ((turning_Hz, found.turning_at), (current_A, found.current_at)):
        if reading and at not in speeds and len(machines):
            speeds[at] = turning(machines, np.array([at])).speed_rad_s
    if turning_Hz and len(machines):
        hertz = speeds[found.turning_at][:, 0] / TURN
        fits &= (hertz >= turning_Hz[0]) & (hertz <= turning_Hz[1])
    if current_A and len(machines):
        at = found.current_at
        drawn_A = supply_current(machines.with_axes(1), np.array([at]), speeds[at])[:, 0]
        fits &= (drawn_A >= current_A[0]) & (drawn_A <= current_A[1])
    return fits
