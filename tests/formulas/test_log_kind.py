"""A record tells by itself whether the shaker was running or the cabinet was pushed."""

import sys
from itertools import pairwise
from math import pi
from pathlib import Path

import numpy as np
import pytest

from guide_gen.formulas.log_kind import is_nudge, pushes, running_part
from guide_gen.formulas.log_reading import read_log, read_nudge, read_running
from guide_gen.formulas.log_text import LogProblem
from guide_gen.published.vibration import vibration_class

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import log, push, pushed, rubbing, switched, tone

LIMIT = vibration_class("3M2")
RUNNING = {
    "steady": tone(),
    "slow and gentle": tone(2.1, 0.3),
    "switched on and off": switched(5, 12),
    "on for three seconds": switched(5, 8),
    "on until the end": switched(5, 40),
    "off in the middle": switched(-5, 9),
    "beating": lambda time: np.sin(2 * pi * 6 * time) + 0.8 * np.sin(2 * pi * 6.3 * time),
}
NUDGED = {
    "once": push(),
    "hardly damped": push(3.1, 0.01),
    "heavily damped": push(9.0, 0.1),
    "at once": push(at=0.3),
    "three times": pushed(3, 8, 14),
    "three times, the second strongest": pushed(3, 8, 14, strengths=(1.2, 2.0, 1.5)),
    "stopped by friction": rubbing(),
}


@pytest.mark.parametrize("case", RUNNING)
def test_a_running_shaker_is_not_taken_for_a_push(case):
    assert not is_nudge(read_log(log(RUNNING[case])))


@pytest.mark.parametrize("case", NUDGED)
def test_a_record_that_dies_away_is_a_push(case):
    assert is_nudge(read_log(log(NUDGED[case])))


def test_each_push_gets_its_own_piece():
    found = pushes(read_log(log(pushed(3, 8, 14))))
    assert [float(piece.time_s[0]) for piece in found] == pytest.approx([3, 8, 14], abs=0.6)
    for piece in found:
        read = read_nudge(piece)
        assert read.natural_Hz == pytest.approx(4.7, rel=1e-3)
        assert read.damping == pytest.approx(0.045, rel=0.03)
    assert all(one.time_s[-1] < other.time_s[0] for one, other in pairwise(found))


def test_the_errors_of_a_decay_hold_what_is_true_in_most_cases():
    """Two standard errors hold about 95 in 100; of 30 records, 24 or more: a binomial falls below once in 300."""
    read = [read_nudge(read_log(log(push(), noise=0.05, seed=seed))) for seed in range(30)]
    assert sum(abs(one.natural_Hz - 4.7) < 2 * one.natural_error_Hz for one in read) >= 24
    assert sum(abs(one.damping - 0.045) < 2 * one.damping_error for one in read) >= 24


@pytest.mark.parametrize(("gap", "natural", "damping"), [
    (1.2, 4.5, 0.04), (1.2, 4.7, 0.045), (1.2, 9.0, 0.05), (1.5, 3.2, 0.03), (1.0, 4.5, 0.04), (2.0, 4.5, 0.04),
])  # fmt: skip
def test_pushes_that_follow_each_other_give_the_truth_or_nothing(gap, natural, damping):
    """Sways of one frequency add up to a sway of that frequency, so each piece between two pushes holds the truth.

    Where two pushes add up to no more than the first, they are one piece, and no single decay.
    """
    samples = read_log(log(pushed(3, 3 + gap, 3 + 2 * gap, natural=natural, damping=damping)))
    read = []
    for piece in pushes(samples):
        try:
            read.append(read_nudge(piece, samples))
        except LogProblem as problem:
            assert "not those of one push" in str(problem)  # noqa: PT017 - either outcome is right
    assert read
    for one in read:
        assert one.natural_Hz == pytest.approx(natural, rel=5e-3)
        assert one.damping is None or one.damping == pytest.approx(damping, rel=0.06)


@pytest.mark.parametrize("seed", range(2))
def test_a_decay_in_noise_is_not_taken_for_friction_nor_friction_for_a_decay(seed):
    assert read_nudge(read_log(log(push(), noise=0.15, seed=seed))).damping == pytest.approx(0.045, rel=0.1)
    assert read_nudge(read_log(log(rubbing(), noise=0.15, seed=seed))).damping is None


# Where it runs --------------------------------------------------------------------------------------------------------


def between(on, off, strength=5.35, hertz=12.0):
    """A shaker that runs from a time to another."""
    return lambda time: strength * np.sin(2 * pi * hertz * time) * ((time > on) & (time < off))


def tapped(signal, *times):
    """With short knocks on the phone."""
    return lambda time: (
        signal(time) + sum(3 * np.exp(-(((time - at) / 0.03) ** 2)) * np.sin(60 * (time - at)) for at in times)
    )


@pytest.mark.parametrize(("on", "off", "seconds", "make"), [
    (3, 13, 16, {}), (4, 14, 30, {"rate": 50.0}), (6, 16, 24, {"rate": 200.0}), (-1, 11, 20, {"noise": 0.1}),
    (5, 30, 20, {"gravity": False}), (6, 12, 20, {}),
])  # fmt: skip
def test_what_stands_still_before_and_after_does_not_weaken_what_runs(on, off, seconds, make):
    """5.35 m/s² are 107 % of 5 m/s²; with the still parts in it the fit of a long record would give less."""
    stretch = running_part(read_log(log(between(on, off), seconds=float(seconds), **make)))
    used = stretch.samples.time_s
    assert max(on, 0) <= used[0] <= max(on, 0) + 1.0
    assert min(off, seconds) - 1.0 <= used[-1] <= min(off, seconds)
    assert stretch.steady
    assert stretch.still
    assert read_running(stretch.samples, LIMIT).lines[0].accel_m_s2 == pytest.approx(5.35, rel=0.01)


@pytest.mark.parametrize("signal", [
    tone(), tone(0.7, 0.3), tone(2.1, 0.3), tone(6, 0.05), tapped(tone(6, 0.5), 0.3, 19.7, 12.0),
    lambda time: 0.25 * np.sin(2 * pi * 2.4 * time) + 0.9 * np.sin(2 * pi * 4.8 * time + 1),
    lambda time: np.sin(2 * pi * (8 + 0.05 * time) * time), lambda time: 0 * time,
])  # fmt: skip
def test_a_record_that_runs_throughout_is_used_whole(signal):
    samples = read_log(log(signal))
    stretch = running_part(samples)
    assert len(stretch.samples.time_s) == len(samples.time_s)
    assert stretch.louder < 1.4


def test_knocks_at_its_ends_do_not_hide_where_it_runs():
    stretch = running_part(read_log(log(tapped(between(3, 13, 0.44, 9.6), 0.3, 15.6), seconds=16.0)))
    assert read_running(stretch.samples, LIMIT).lines[0].accel_m_s2 == pytest.approx(0.44, rel=0.02)


@pytest.mark.parametrize(("first", "second"), [(0.44, 0.2), (0.2, 0.44), (0.44, 0.1)])
def test_of_several_strengths_the_strongest_is_used(first, second):
    stretch = running_part(read_log(log(
        lambda time: np.where(time < 10, first * np.sin(2 * pi * 9 * time), second * np.sin(2 * pi * 8 * time))
    )))  # fmt: skip
    assert stretch.steady
    assert not stretch.still
    assert read_running(stretch.samples, LIMIT).lines[0].accel_m_s2 == pytest.approx(0.44, rel=0.02)


def test_a_short_start_that_is_stronger_is_left_out_and_told():
    stretch = running_part(read_log(log(
        lambda time: np.where(time < 5, 0, np.where(time < 7, 3, 1)) * np.sin(2 * pi * 9 * time)
    )))  # fmt: skip
    assert read_running(stretch.samples, LIMIT).lines[0].accel_m_s2 == pytest.approx(1.0, rel=0.02)
    assert stretch.louder == pytest.approx(3.0, rel=0.05)


@pytest.mark.parametrize("signal", [
    lambda time: 6 * np.sin(2 * pi * 12 * time) * (time % 4 < 2),
    lambda time: 6 * np.sin(2 * pi * 12 * time) * (time % 1 < 0.5),
    lambda time: np.sin(2 * pi * 6 * time) + 0.8 * np.sin(2 * pi * 6.3 * time),
])  # fmt: skip
def test_a_strength_that_rises_and_falls_is_not_steady(signal):
    assert not running_part(read_log(log(signal))).steady
