"""Where a shaker likely starts: seeded draws inside the corners, against the exact start of the same draws."""

from dataclasses import replace

import numpy as np
import pytest

from guide_gen.formulas.drive import supply_current
from guide_gen.formulas.motion import motion_plan
from guide_gen.formulas.motion_chance import likely_start
from guide_gen.formulas.motion_inputs import Found, nominal_of, shakers_of, spreads_of
from guide_gen.formulas.spread import TURN, Spread
from guide_gen.formulas.swing import swing_threshold, turning


def _nominal_start(inputs):
    return float(swing_threshold(shakers_of(inputs, nominal_of(inputs)), from_top=False)[0])


@pytest.mark.parametrize("pwm_Hz", [50, 200, 1000, 20000])
def test_likely_range_agrees_with_other_exact_draws(example_inputs, pwm_Hz):
    """P10 and P90 of 300 other draws, each by the exact swing: 3 %, which is mostly the chance of the draws."""
    inputs = example_inputs(pwm_Hz, give=0.1)
    chance = np.random.default_rng(77)
    drawn = {name: chance.uniform(one.low, one.high, 300) for name, one in spreads_of(inputs).items()}
    exact = swing_threshold(shakers_of(inputs, nominal_of(inputs) | drawn), from_top=False)
    low, middle, high = likely_start(inputs, (0.0, 1.0), _nominal_start(inputs)).start
    assert middle == pytest.approx(np.quantile(exact, 0.5), rel=0.03)
    assert low == pytest.approx(np.quantile(exact, 0.1), rel=0.03)
    assert high == pytest.approx(np.quantile(exact, 0.9), rel=0.03)


def test_likely_range_lies_inside_the_corners(example_inputs):
    """Known to 10 %, the corners span about 1.5 to 1, the likely range about 1.2 to 1."""
    plan = motion_plan(example_inputs(1000, give=0.1))
    low, high = plan.start_likely
    assert plan.start[0] < low < plan.start_nominal < high < plan.start[1]
    assert 1.4 < plan.start[1] / plan.start[0] < 2.4
    assert 1.05 < high / low < 1.25


def test_same_inputs_give_the_same_likely_range(example_inputs):
    """Nothing depends on the hour or on what ran before."""
    inputs = example_inputs(200, give=0.1)
    start = _nominal_start(inputs)
    assert likely_start(inputs, (0.0, 1.0), start) == likely_start(inputs, (0.0, 1.0), start)


def test_without_doubt_there_is_nothing_likely(example_inputs):
    assert motion_plan(example_inputs(200)).start_likely is None


def test_a_start_that_was_seen_leaves_nothing_to_chance(example_inputs):
    assert motion_plan(example_inputs(1000, give=0.1, found=Found(start=0.11))).start_likely is None


def test_likely_range_may_end_at_never(example_inputs):
    """Half of the machines are too weak for their weight."""
    heavy = replace(
        example_inputs(200), unbalance_kg_m=Spread(0.05, 0.15, 0.25), inertia_kg_m2=Spread(0.003, 0.008, 0.014)
    )
    low, _, high = likely_start(heavy, (0.0, float("inf")), _nominal_start(heavy)).start
    assert low < 1
    assert high == float("inf")


# What was found moves the likeliest: a start of 1 kHz machines known to 15 %.


def _found(example_inputs, pwm_Hz=1000, **found):
    return motion_plan(example_inputs(pwm_Hz, give=0.15, found=Found(**found)))


READINGS = (("turning_Hz", "turning"), ("current_A", "current"))


@pytest.mark.parametrize("at", [0.2, 1.0])
@pytest.mark.parametrize(("key", "check"), READINGS)
def test_a_reading_at_the_likeliest_leaves_it_about_where_it_was(example_inputs, key, check, at):
    """What the likeliest machine itself turns at or draws."""
    before = _found(example_inputs)
    reading = _reads(example_inputs, before, key, at)
    after = _found(example_inputs, **{key: reading, f"{check}_at": at})
    assert after.start_nominal == pytest.approx(before.start_nominal, rel=0.03)


def _reads(example_inputs, plan, key, at):
    """What the nominal machine of a plan turns at or draws."""
    one = shakers_of(plan.inputs, nominal_of(plan.inputs))
    speed = turning(one, np.array([at])).speed_rad_s
    if key == "turning_Hz":
        return float(speed[0, 0]) / TURN
    return float(supply_current(one.with_axes(1), np.array([at]), speed)[0, 0])


def test_a_start_seen_at_the_likeliest_leaves_it_there_and_one_near_an_end_moves_it_there(example_inputs):
    before = _found(example_inputs)
    low, high = before.start
    for seen in (before.start_nominal, low + 0.1 * (high - low), low + 0.7 * (high - low)):
        after = _found(example_inputs, start=seen + 0.0025, start_step=0.005)
        assert after.start_nominal == pytest.approx(seen, abs=0.0026)


@pytest.mark.parametrize("seen", [(1e-9, 1.0), (0.99, 1.0)])
def test_a_start_that_half_contradicts_leaves_the_middle_of_what_is_left(example_inputs, seen):
    """Seen in a step of which only one end lies in the plan's range."""
    low, high = _found(example_inputs).start
    at = low + 0.004 if seen[0] < 0.5 else high + 0.004
    after = _found(example_inputs, start=at, start_step=0.008)
    assert after.start[0] < after.start_nominal < after.start[1]
    assert after.start_nominal - after.start[0] > 0.0005
    assert after.start[1] - after.start_nominal > 0.0005


@pytest.mark.parametrize(("key", "at", "value"), [
    ("turning_Hz", 1.0, 31.0), ("turning_Hz", 1.0, 39.0), ("turning_Hz", 0.2, 9.3), ("turning_Hz", 0.2, 11.5),
    ("current_A", 1.0, 4.6), ("current_A", 1.0, 6.3),
])  # fmt: skip
def test_likeliest_start_is_the_middle_of_the_machines_that_agree_with_a_reading(example_inputs, key, at, value):
    """Other draws of the ranges as given, each by the exact swing; those kept turn within 3 % or draw within 5 %."""
    check = {"turning_Hz": "turning", "current_A": "current"}[key]
    inputs = example_inputs(1000, give=0.15)
    after = _found(example_inputs, **{key: value, f"{check}_at": at})
    assert not after.compared[0].outside
    chance = np.random.default_rng(99)
    drawn = {name: chance.uniform(one.low, one.high, 3000) for name, one in spreads_of(inputs).items()}
    machines = shakers_of(inputs, nominal_of(inputs) | drawn)
    speed = turning(machines, np.array([at])).speed_rad_s
    reads = speed[:, 0] / TURN
    if key == "current_A":
        reads = supply_current(machines.with_axes(1), np.array([at]), speed)[:, 0]
    kept = machines.take(np.abs(reads / value - 1) < {"turning_Hz": 0.03, "current_A": 0.05}[key])
    starts = swing_threshold(kept, from_top=False)
    low, high = after.start_likely
    assert after.start_nominal == pytest.approx(np.median(starts), rel=0.03)
    assert low <= after.start_nominal <= high
    assert (low, high) == pytest.approx(np.quantile(starts, (0.1, 0.9)), rel=0.05)


def test_a_setting_in_use_puts_the_likeliest_below_it(example_inputs):
    """Not at it: half of the machines that turn at that setting start well below."""
    before = _found(example_inputs)
    in_use = before.start[0] + 0.4 * (before.start[1] - before.start[0])
    after = _found(example_inputs, as_left=in_use)
    low, high = after.start_likely
    assert before.start[0] < low < after.start_nominal < high <= in_use
    assert after.start_nominal < in_use - 0.002


def test_a_reading_of_the_cabinet_alone_leaves_the_start_where_it_was(example_inputs):
    assert _found(example_inputs, natural_Hz=4.4).start_nominal == _found(example_inputs).start_nominal
