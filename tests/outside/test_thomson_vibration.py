"""W. T. Thomson, Theory of Vibration with Applications: rotating unbalance. Looked-up, unless a test says otherwise."""

from math import exp, log, pi

import numpy as np
import pytest

from guide_gen.formulas.cabinet import (
    damping_from_two_shifts,
    decrement_damping,
    floor_force_N,
    line_shift,
    sideways_shift_m,
)


def test_damping_from_a_counter_rotating_exciter(printed):
    """Example 3.2-1: 0.60 cm at resonance, 0.08 cm far above: 0.0667."""
    assert damping_from_two_shifts(0.0008, 0.0060) == printed("0.0667")


def test_the_exciter_far_above_resonance_tends_to_unbalance_over_mass(printed):
    """The same example as a finite-element program's published verification case solves it, not as the book prints it.

    At 100 times its resonance of 34.0294 rad/s: 0.080008 where the limit is 0.08. 5.41595 Hz is computed.
    """
    resonance_Hz = 34.0294 / (2 * pi)
    assert resonance_Hz == printed("5.41595")
    assert 1000 * sideways_shift_m(0.0008, 1.0, 100 * resonance_Hz, resonance_Hz, 0.08 / 1.2) == printed("0.80008")
    assert 1000 * sideways_shift_m(0.0008, 1.0, resonance_Hz, resonance_Hz, 0.08 / 1.2) == printed("6.0000")


def test_a_structure_shaken_by_two_wheels(printed):
    """Stroboscope problem, chapter 3; answers computed, not seen. 181.4 kg, 21.6 mm at 900 rpm, 0.0921 kg m a wheel.

    Damping 0.0235; 2.31 mm at 1200 rpm. One wheel alone would halve the damping.
    """
    both = 2 * 0.0921
    damping = damping_from_two_shifts(both / 181.4, 0.0216)
    assert damping == printed("0.0235")
    assert 1000 * sideways_shift_m(both, 181.4, 20.0, 15.0, damping) == printed("2.31")
    assert 1000 * sideways_shift_m(both, 181.4, 15.0, 15.0, damping) == printed("21.6")
    assert damping_from_two_shifts(both / 2 / 181.4, 0.0216) == pytest.approx(damping / 2)


def test_phase_of_a_damped_machine_gives_its_damper(printed):
    """Rotating unbalance experiment of a university's open laboratory: 20 kg, 2 N/mm, 45 degrees at 5 rad/s: 300 N s/m.

    At 45 degrees stiffness less inertia and damping are equal, so the shift is the force over their root sum.
    """
    natural = (2000 / 20) ** 0.5
    damping = 300 / (2 * 20 * natural)
    shift = line_shift(np.array([1.0]), 20.0, np.asarray(natural), damping, np.array([5.0]))[0]
    assert shift == pytest.approx(1 / (2**0.5 * 5 * 300))
    assert sideways_shift_m(1.0, 1.0, 5.0, 5.0, 0.5) == printed("1.000")  # amplification 1 at resonance: 0.5


def test_a_machine_on_a_stiff_support(printed):
    """A university's problem: 2495 + 5 kg, 1e6 N/m, 3000 N s/m, 30 rad/s, 2.5 mm: an arm of 0.7 m."""
    mass, natural = 2500.0, (1e6 / 2500) ** 0.5
    damping = 3000 / (2 * mass * natural)
    for_one_metre = sideways_shift_m(5.0, mass, 30 / (2 * pi), natural / (2 * pi), damping)
    assert 2.5e-3 / for_one_metre == printed("0.696")


@pytest.mark.parametrize(("cycles", "damping"), [(1, 0.11), (2, 0.055), (5, 0.022), (10, 0.011)])
def test_cycles_to_half_the_height(cycles, damping):
    """Chapter 2, from memory: damping times cycles to half the height is about 0.110."""
    assert decrement_damping(1.0, 0.5, cycles) == pytest.approx(damping, rel=0.01)


def test_decrement_of_5_percent_damping(printed):
    """From memory: 0.05 gives a decrement of 0.315, so a height of 0.730 a cycle later."""
    assert exp(-0.3146) == printed("0.730")
    assert decrement_damping(1.0, exp(-0.3146), 1) == printed("0.0500")
    assert log(1 / 0.730) == printed("0.315")


@pytest.mark.parametrize("damping", [0.01, 0.05, 0.1, 0.5, 1.0])
def test_all_curves_of_transmission_cross_at_root_two(damping):
    """Transmissibility is 1 at the square root of two whatever the damping, from memory."""
    turning_Hz = 5.0 * 2**0.5
    assert floor_force_N(0.01, turning_Hz, 5.0, damping) == pytest.approx(0.01 * (2 * pi * turning_Hz) ** 2)
