"""The damped pendulum under a steady torque, as texts on nonlinear dynamics give it. From memory.

S. H. Strogatz, Nonlinear Dynamics and Chaos, section 8.5; the same equation stands for a superconducting junction in
M. Tinkham, Introduction to Superconductivity, chapter 6 (retrapping). Torque is in units of the level arm's.
"""

from math import cos, pi

import numpy as np
import pytest

from guide_gen.formulas.swing import SwingTable, passes


def _lowest(drag, from_top):
    low, high = 0.0, 1.2
    speeds = np.linspace(0, 3, 65)
    for _ in range(3):
        torques = np.linspace(low, high, 61)[1:]
        first = int(passes(SwingTable(torques[:, None] - drag * speeds[None, :], 3.0), from_top).argmax())
        low, high = torques[first] - (torques[1] - torques[0]), torques[first]
    return high


@pytest.mark.parametrize("drag", [0.02, 0.05, 0.1])
def test_a_turning_pendulum_stops_below_four_over_pi_times_its_drag(drag):
    """The homoclinic bifurcation for small drag; the retrapping current 4 / (pi Q)."""
    assert _lowest(drag, from_top=True) == pytest.approx(4 / pi * drag, rel=0.01)


@pytest.mark.parametrize("drag", [1.25, 1.5, 2.0])
def test_with_heavy_drag_it_turns_only_when_no_resting_place_is_left(drag):
    """Above about 1.19 there is no second state: both thresholds are the static one."""
    assert _lowest(drag, from_top=True) == pytest.approx(1, abs=0.005)
    assert _lowest(drag, from_top=False) == pytest.approx(1, abs=0.005)


def test_with_light_drag_there_are_two_states_at_one_torque():
    """Hysteresis: it hangs or turns, as it was before."""
    assert _lowest(0.5, from_top=True) < 0.65 < _lowest(0.5, from_top=False)


def test_torque_put_on_at_once_goes_over_at_0_725_of_the_static_one(printed):
    """Energy: the greatest (1 - cos x) / x, by a fine search."""
    angles = np.linspace(1e-3, pi, 100001)
    by_energy = float(((1 - np.cos(angles)) / angles).max())
    assert by_energy == printed("0.725")
    assert _lowest(0.0, from_top=False) == pytest.approx(by_energy, abs=5e-4)
    assert (1 - cos(pi)) / pi == printed("0.637")  # what energy at the top alone would say
