"""Centroids and moments of inertia as the inside covers of statics texts print them. From memory.

Such as F. P. Beer and E. R. Johnston, Vector Mechanics for Engineers; inertia also in OpenStax University Physics 1,
moments of inertia of common shapes.
"""

from math import pi, sqrt

import pytest

from guide_gen.formulas.weight import bar, sector, sector_mass_kg, swing_inertia_kg_m2, two_weights


@pytest.mark.parametrize(("name", "angle", "inner", "arm"), [
    ("half disc: 4 r / 3 pi", pi, 0.0, 0.4244),
    ("quarter disc: 4 r root 2 / 3 pi along its middle", pi / 2, 0.0, 0.6002),
    ("half ring, thin: 2 r / pi", pi, 0.9999, 0.6366),
    ("quarter ring, thin: 2 r root 2 / pi along its middle", pi / 2, 0.9999, 0.9003),
    ("narrow slice: two thirds", 0.001, 0.0, 0.6667),
])  # fmt: skip
def test_centroid(name, angle, inner, arm):
    assert sector(angle, inner, 1.0, 1.0).arm_m == pytest.approx(arm, abs=1e-4), name


@pytest.mark.parametrize(("inner", "inertia"), [(0.0, 0.5), (0.5, 0.625), (0.9999, 1.0)])
def test_inertia_of_disc_and_ring_about_the_axis(inner, inertia):
    """m r²/2, m (r1² + r2²)/2, m r²; a sector of any angle has the same."""
    for angle in (pi / 2, pi, 2 * pi):
        assert sector(angle, inner, 1.0, 1.0).inertia_kg_m2 == pytest.approx(inertia, abs=2e-4)


@pytest.mark.parametrize(("name", "length", "width", "offset", "inertia"), [
    ("rod about its middle: m l²/12", 1.0, 1e-6, 0.0, 1 / 12),
    ("rod about its end: m l²/3", 1.0, 1e-6, 0.5, 1 / 3),
    ("slab about its middle: m (a² + b²)/12", 3.0, 4.0, 0.0, 25 / 12),
    ("slab about its edge's middle", 2.0, 1.0, 1.0, 5 / 12 + 1),
])  # fmt: skip
def test_inertia_of_a_bar(name, length, width, offset, inertia):
    assert bar(length, width, offset, 1.0).inertia_kg_m2 == pytest.approx(inertia, rel=1e-6), name


def test_mass_of_a_steel_disc(printed):
    """Area pi r²: 100 mm across, 10 mm thick, 7850 kg/m³: 0.617 kg."""
    assert sector_mass_kg(2 * pi, 0.0, 0.05, 0.01, 7850) == printed("0.617")


def test_a_rod_on_its_end_swings_like_a_pendulum_of_two_thirds_its_length():
    """OpenStax University Physics 1, physical pendulum: 2 pi root(2 l / 3 g)."""
    period = 2 * pi * sqrt(2 * 1.0 / (3 * 9.80665))
    rod = bar(1.0, 1e-6, 0.5, 1.0)
    assert swing_inertia_kg_m2(rod.unbalance_kg_m, period) == pytest.approx(rod.inertia_kg_m2)


def test_equal_weights_at_right_angles_pull_like_root_two():
    assert two_weights(1.0, 1.0, pi / 2).unbalance_kg_m == pytest.approx(sqrt(2))
