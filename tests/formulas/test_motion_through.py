"""A reading of a running shaker leads every corner to it: narrower, without a leap, and never past the true machine.

Held against machines drawn at random, which know nothing of corners (this project).
"""

from dataclasses import replace
from itertools import pairwise

import numpy as np
import pytest

from guide_gen.formulas.motion import motion_plan
from guide_gen.formulas.motion_found import Check, Reading, currents
from guide_gen.formulas.motion_inputs import Drive, Found, nominal_of, shakers_of, speed_corners, spreads_of
from guide_gen.formulas.motion_through import speeds_through, starts_through
from guide_gen.formulas.spread import TURN, Spread
from guide_gen.formulas.swing import quick_start, turning

AT = 0.12
GRID = np.array([0.09, 0.12, 0.2, 0.4, 1.0])


def hertz(inputs, cases, settings=GRID):
    return turning(shakers_of(inputs, *cases), settings).speed_rad_s / TURN


def running(inputs):
    """The same known by a running point."""
    return replace(
        inputs, emf_V_s=None, friction_N_m=None, drag_N_m_s2=None, running_V=12.0, running_A=Spread(5.0, 5.5, 6.0),
        running_rad_s=Spread.about(219.0, 0.05), friction_share=Spread(0.1, 0.2, 0.6),
    )  # fmt: skip


@pytest.fixture(name="read", scope="module")
def _read():
    """Plans, kept: with and without what was found."""
    return {}


def planned(read, inputs):
    if inputs not in read:
        read[inputs] = motion_plan(inputs)
    return read[inputs]


@pytest.mark.parametrize("found_Hz", [11.2, 12.0, 12.9])
def test_after_a_turning_reading_the_range_there_is_the_reading_and_nowhere_wider(example_inputs, read, found_Hz):
    wide = example_inputs(200, give=0.1)
    before = planned(read, wide)
    after = motion_plan(replace(wide, found=Found(turning_Hz=found_Hz, turning_at=AT)))
    here = min(after.curve, key=lambda one: abs(one.setting - AT))
    assert (here.slow_Hz, here.fast_Hz) == pytest.approx((0.97 * found_Hz, 1.03 * found_Hz), rel=0.003)
    assert here.turning_Hz == pytest.approx(found_Hz, rel=0.005)
    old = {one.setting: one for one in before.curve}
    both = [(one, old[one.setting]) for one in after.curve if one.setting in old and not one.uneven]
    assert len(both) > 300
    for new, was in both:
        assert was.slow_Hz - 1e-6 <= new.slow_Hz <= new.turning_Hz + 1e-6 or new.turning_Hz == 0
        assert new.turning_Hz - 1e-6 <= new.fast_Hz <= max(was.fast_Hz, new.turning_Hz) + 1e-6
    assert before.start[0] <= after.start[0] <= after.start[1] <= before.start[1]
    assert before.sustain[0] <= after.sustain[0] <= after.sustain[1] <= before.sustain[1]
    assert after.ceiling >= before.ceiling
    (told,) = after.compared
    assert told.narrows


def test_no_range_leaps_where_no_corner_does(example_inputs):
    """From setting to setting both ends rise no faster than the steepest corner of the ranges, a quarter allowed."""
    wide = example_inputs(200, give=0.1)
    plan = motion_plan(replace(wide, found=Found(turning_Hz=12.0, turning_at=AT)))
    points = [one for one in plan.curve if one.setting >= 0.09]
    corners = [*speed_corners(wide, -1), *speed_corners(wide, 1)]
    steps = np.diff(hertz(wide, corners, np.array([one.setting for one in points])), axis=1).max(axis=0)
    for (one, later), most in zip(pairwise(points), steps, strict=True):
        for first, last in ((one.slow_Hz, later.slow_Hz), (one.fast_Hz, later.fast_Hz)):
            assert -1e-6 <= last - first <= 1.25 * most + 0.01, (one.setting, first, last)


@pytest.mark.parametrize("check", [Check.TURNING, Check.CURRENT])
@pytest.mark.parametrize("known", [lambda inputs: inputs, running])
def test_the_true_machine_stays_inside(example_inputs, known, check):
    """Machines in the ranges, each read without error; start and speeds are then held by what is left."""
    wide = known(example_inputs(200, give=0.1))
    chance, tried = np.random.default_rng(8), 0
    while tried < 2:
        real = replace(wide, **{
            name: Spread.exactly(chance.uniform(spread.low, spread.high)) for name, spread in spreads_of(wide).items()
        })  # fmt: skip
        true_Hz = hertz(real, [nominal_of(real)])[0]
        if true_Hz[1] < 7:  # it would not keep turning there, or unevenly
            continue
        tried += 1
        found = Found(turning_Hz=float(true_Hz[1]), turning_at=AT)
        if check is Check.CURRENT:
            asked = replace(real, found=Found(current_A=1.0, current_at=AT))
            found = Found(current_A=motion_plan(asked).compared[0].predicted[0], current_at=AT)
        plan = motion_plan(replace(wide, found=found))
        assert not plan.compared[0].outside
        start = motion_plan(real).start[0]
        assert plan.start[0] - 2e-4 <= start <= plan.start[1] + 2e-4
        for setting, turns in zip(GRID[1:], true_Hz[1:], strict=True):
            at = min(plan.curve, key=lambda one: abs(one.setting - setting))
            assert 0.998 * at.slow_Hz <= turns <= 1.002 * at.fast_Hz, setting


@pytest.mark.parametrize(("check", "value", "off"), [(Check.TURNING, 12.0, 0.03), (Check.CURRENT, 0.49, 0.05)])
def test_corners_reach_as_far_as_the_machines_that_agree_and_little_farther(example_inputs, check, value, off):
    """2000 machines, two thirds of their values at the ends of the ranges; those that read as found are kept."""
    inputs = replace(example_inputs(200, give=0.1), found=Found(turning_at=AT, current_at=AT))
    reading = Reading(check, value * (1 - off), value * (1 + off), {})
    chance = np.random.default_rng(1)
    drawn = {}
    for name, spread in spreads_of(inputs).items():
        which, inside = chance.random(2000), chance.uniform(spread.low, spread.high, 2000)
        drawn[name] = np.where(which < 1 / 3, spread.low, np.where(which < 2 / 3, spread.high, inside))
    turns = hertz(inputs, [drawn])
    shown = turns[:, 1]
    if check is Check.CURRENT:
        shown = currents(inputs, [drawn])
    agree = (shown >= reading.low) & (shown <= reading.high)
    assert agree.sum() > 100
    reached = hertz(inputs, speeds_through(inputs, reading, AT))
    low, high = turns[agree].min(axis=0), turns[agree].max(axis=0)
    assert (reached.min(axis=0) <= low * 1.003).all()
    assert (reached.min(axis=0) >= 0.98 * low).all()
    assert (reached.max(axis=0) >= high * 0.997).all()
    assert (reached.max(axis=0) <= 1.02 * high).all()
    start = quick_start(shakers_of(inputs, drawn))[agree]
    passing = quick_start(shakers_of(inputs, *starts_through(inputs, reading)))
    assert passing.min() <= start.min() * 1.003
    assert passing.max() >= start.max() * 0.997


def test_a_reading_that_no_machine_gives_leads_nowhere(example_inputs):
    inputs = example_inputs(200, give=0.02)
    reading = Reading(Check.TURNING, 50.0, 52.0, {})
    assert speeds_through(inputs, reading, AT) == []
    assert starts_through(inputs, reading) == []


def test_the_likeliest_of_an_uneven_turn_passes_through_the_reading(example_inputs):
    """A slow turn is followed round: what is drawn is that turn, not the smooth one that stands for it."""
    inputs = replace(example_inputs(1000, give=0.1), drive=Drive.VOLTAGE)
    at = 0.1
    slow = min(motion_plan(inputs).curve, key=lambda one: abs(one.setting - at))
    assert slow.uneven
    found_Hz = 0.97 * slow.turning_Hz
    plan = motion_plan(replace(inputs, found=Found(turning_Hz=found_Hz, turning_at=at)))
    here = min(plan.curve, key=lambda one: abs(one.setting - at))
    assert here.turning_Hz == pytest.approx(found_Hz, rel=0.015)
    assert (here.slow_Hz, here.fast_Hz) == pytest.approx((0.92 * found_Hz, 1.08 * found_Hz), rel=0.02)
