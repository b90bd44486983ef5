"""Shapes against integration point by point, scale and swing against each other."""

from math import pi, sqrt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import unbalance, weight
from guide_gen.formulas.validity import OutsideValidity


@pytest.mark.parametrize(("angle", "inner", "outer"), [(pi, 0, 0.05), (pi, 0.01, 0.05), (2, 0.02, 0.04), (5, 0, 0.03)])
def test_a_sector_agrees_with_adding_up_its_points(angle, inner, outer):
    radii = np.linspace(inner, outer, 801)
    middle = (radii[1:] + radii[:-1]) / 2
    turn = (np.arange(800) + 0.5) / 800 * angle - angle / 2
    area = middle * (outer - inner) / 800 * angle / 800
    found = weight.sector(angle, inner, outer, 0.3)
    total = area.sum() * 800
    assert found.arm_m == pytest.approx((area * middle).sum() * np.cos(turn).sum() / total, rel=1e-5)
    assert found.inertia_kg_m2 == pytest.approx(0.3 * (area * middle**2).sum() * 800 / total, rel=1e-5)
    assert weight.sector_mass_kg(angle, inner, outer, 0.01, 7850) == pytest.approx(total * 0.01 * 7850, rel=1e-5)


def test_a_half_disc_is_a_sector():
    mass = weight.sector_mass_kg(pi, 0, 0.052, 0.012, 7850)
    unbalanced = weight.sector(pi, 0, 0.052, mass).unbalance_kg_m
    assert unbalanced == pytest.approx(unbalance.half_disc_unbalance_kg_m(0.052, 0.012, 7850))


def test_a_full_disc_is_balanced():
    assert weight.sector(2 * pi, 0, 0.05, 0.3).arm_m == pytest.approx(0, abs=1e-15)


@given(angle=st.floats(-3, 3), first=st.floats(0.001, 0.1), second=st.floats(0.001, 0.1))
def test_two_weights_add_like_arrows(angle, first, second):
    found = weight.two_weights(first, second, angle, 0.1)
    assert found.unbalance_kg_m == pytest.approx(abs(first + second * np.exp(1j * angle)), abs=1e-12)
    assert found.couple_kg_m2 == pytest.approx(0.05 * abs(first - second * np.exp(1j * angle)), abs=1e-12)


def test_equal_weights_face_to_face_only_rock():
    found = weight.two_weights(0.01, 0.01, pi, 0.2)
    assert found.unbalance_kg_m == pytest.approx(0, abs=1e-9)
    assert found.couple_kg_m2 == pytest.approx(0.002)


@given(lever=st.floats(0.01, 0.2), torque=st.floats(0.01, 1), share=st.floats(0, 0.9))
def test_scale_readings_give_back_weight_and_friction(lever, torque, share):
    raising, lowering = ((torque + sign * share * torque) / lever / 9.80665 for sign in (1, -1))
    assert weight.gravity_torque_N_m(unbalance.scale_unbalance_kg_m(lever, raising, lowering)) == pytest.approx(torque)
    assert weight.scale_friction_N_m(lever, raising, lowering) == pytest.approx(share * torque, abs=1e-12)


def test_lowering_that_reads_more_than_raising_is_refused():
    with pytest.raises(OutsideValidity, match=r"lowering_kg is 0.3, it must be at most raising_kg, 0.2"):
        weight.scale_friction_N_m(0.05, 0.2, 0.3)


def test_a_bar_swings_as_its_inertia_says():
    """Period of a physical pendulum, and back again."""
    bar = weight.bar(0.1, 0.02, 0.03, 0.4)
    period = 2 * pi * sqrt(bar.inertia_kg_m2 / weight.gravity_torque_N_m(bar.unbalance_kg_m))
    assert weight.swing_inertia_kg_m2(bar.unbalance_kg_m, period) == pytest.approx(bar.inertia_kg_m2)
