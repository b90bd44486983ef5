"""Where a shaker likely starts: seeded draws inside the corners, against the exact start of the same draws."""

from dataclasses import replace

import numpy as np
import pytest

from guide_gen.formulas.motion import motion_plan
from guide_gen.formulas.motion_chance import likely_start
from guide_gen.formulas.motion_inputs import Found, nominal_of, shakers_of, spreads_of
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.swing import swing_threshold


@pytest.mark.parametrize("pwm_Hz", [50, 200, 1000, 20000])
def test_likely_range_agrees_with_other_exact_draws(example_inputs, pwm_Hz):
    """P10 and P90 of 300 other draws, each by the exact swing: 3 %, which is mostly the chance of the draws."""
    inputs = example_inputs(pwm_Hz, give=0.1)
    chance = np.random.default_rng(77)
    drawn = {name: chance.uniform(one.low, one.high, 300) for name, one in spreads_of(inputs).items()}
    exact = swing_threshold(shakers_of(inputs, nominal_of(inputs) | drawn), from_top=False)
    low, high = likely_start(inputs, (0.0, 1.0))
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
    assert likely_start(inputs, (0.0, 1.0)) == likely_start(inputs, (0.0, 1.0))


def test_without_doubt_there_is_nothing_likely(example_inputs):
    assert motion_plan(example_inputs(200)).start_likely is None


def test_a_start_that_was_seen_leaves_nothing_to_chance(example_inputs):
    assert motion_plan(example_inputs(1000, give=0.1, found=Found(start=0.11))).start_likely is None


def test_likely_range_may_end_at_never(example_inputs):
    """Half of the machines are too weak for their weight."""
    heavy = replace(
        example_inputs(200), unbalance_kg_m=Spread(0.05, 0.15, 0.25), inertia_kg_m2=Spread(0.003, 0.008, 0.014)
    )
    low, high = likely_start(heavy, (0.0, float("inf")))
    assert low < 1
    assert high == float("inf")
