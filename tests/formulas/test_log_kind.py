"""A record tells by itself whether the shaker was running or the cabinet was pushed."""

import sys
from itertools import pairwise
from math import pi
from pathlib import Path

import numpy as np
import pytest

from guide_gen.formulas.log_kind import is_nudge, pushes
from guide_gen.formulas.log_reading import read_log, read_nudge

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import log, push, pushed, rubbing, switched, tone

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
