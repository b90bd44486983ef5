"""What builders of cabinets tell about large shakers. Common practice, no source.

One that draws 5 to 6 A at full 12 V buzzes first and is set at about 6 to 10 % on PWM, where it is strong for its
weight. The motors are drawn at random from estimated ranges; nothing is fitted.
"""

import re
from math import pi

import numpy as np
import pytest

from guide_gen.formulas.drive import Shakers
from guide_gen.formulas.swing import move_threshold, swing_threshold, turning


def _large_shakers(ohm, emf, unbalance, count=150):
    """Random shakers that all draw 5 to 6 A while they turn at full 12 V."""
    chance = np.random.default_rng(42)
    kept = []
    while len(kept) < count:
        resistance, constant, pull = chance.uniform(*ohm), chance.uniform(*emf), chance.uniform(*unbalance)
        current, friction, own = chance.uniform(5, 6), chance.uniform(0.01, 0.04), chance.uniform(11, 16)
        speed = (12 - current * resistance) / constant
        drag = (constant * current - friction) / speed**2
        if speed > 0 and drag > 0:
            kept.append((resistance, constant, pull, friction, drag, 9.80665 * pull / own**2, chance.uniform(0.6, 2.5)))
    columns = (np.array(one) for one in zip(*kept, strict=True))
    resistance, constant, pull, friction, drag, inertia, milliseconds = columns
    return lambda pwm_Hz: Shakers.of(
        supply_V=12.0, pwm_Hz=pwm_Hz, loop_on_ohm=resistance + 0.06, loop_off_ohm=resistance + 0.03,
        inductance_H=resistance * milliseconds / 1000, diode_V=0.45, brush_V=0.0, emf_V_s=constant,
        friction_N_m=friction, drag_N_m_s2=drag, unbalance_kg_m=pull, inertia_kg_m2=inertia, mass_kg=90.0,
        natural_Hz=5.0, damping_share=0.05,
    )  # fmt: skip


@pytest.fixture(scope="module", name="strong")
def _strong():
    return _large_shakers((0.18, 0.40), (0.032, 0.055), (0.004, 0.010))


@pytest.mark.parametrize("pwm_Hz", [100.0, 200.0, 1000.0, 20000.0])
def test_most_motors_that_are_strong_for_their_weight_start_at_6_to_10_percent(strong, pwm_Hz):
    start = swing_threshold(strong(pwm_Hz), from_top=False)
    inside = np.mean((start >= 0.06) & (start <= 0.10))
    assert 0.35 < inside < 0.90
    assert 0.05 < np.median(start) < 0.11


@pytest.mark.parametrize("pwm_Hz", [100.0, 1000.0])
def test_the_running_current_alone_does_not_say_it(pwm_Hz):
    """The same 5 to 6 A drawn by all kinds of motors: most start elsewhere, so nothing is promised from it."""
    start = swing_threshold(_large_shakers((0.15, 0.8), (0.025, 0.06), (0.003, 0.02))(pwm_Hz), from_top=False)
    inside = np.mean((start >= 0.06) & (start <= 0.10))
    assert 0.12 < inside < 0.45
    assert np.quantile(start, 0.9) > 2 * np.quantile(start, 0.1)


def test_a_buzz_comes_before_the_turn_in_every_draw(strong):
    for pwm_Hz in (100.0, 1000.0, 20000.0):
        shakers = strong(pwm_Hz)
        assert (move_threshold(shakers) < swing_threshold(shakers, from_top=False)).all()


def test_they_draw_5_to_6_A_and_turn_at_30_to_60_Hz_at_full_power(strong):
    """Drawn to take that without the 60 mohm of the path and a cabinet that sways: those take a little off."""
    shakers = strong(200.0)
    speed = turning(shakers, np.ones(1)).speed_rad_s[:, 0]
    current = (12 - shakers.emf_V_s * speed) / shakers.loop_on_ohm
    assert ((current > 4.5) & (current < 6.3)).all()
    assert ((speed / (2 * pi) > 25) & (speed / (2 * pi) < 60)).all()


def test_the_page_of_one_known_by_its_current_alone_promises_no_setting(plan_of):
    """It says that nothing can be foretold and what to measure; the only share it names is 0 % to begin at."""
    toy = plan_of({"toys.bump.current": "5 A to 6 A (measured)"}).toy
    assert toy.motion is None
    said = " ".join(toy.tuning_notes)
    assert "No setting can be foretold" in said
    assert "would help most" in said
    assert re.findall(r"[\d.]+\s*%", said) == ["0 %"]


def test_a_strong_motor_is_foretold_to_buzz_first_and_start_within_6_to_10_percent_as_likely(plan_of):
    """Described by what a hobbyist measures: 0.32 ohm, 2100 rpm, 9 g m. The corners span wider and stand beside it."""
    motion = plan_of({
        "toys.bump.current": "5 A to 6 A (measured)",
        "toys.bump.motor": {"resistance": "0.32 ohm (measured)", "speed": "2100 rpm (measured)"},
        "toys.bump.weight": {"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"}},
    }).toy.motion  # fmt: skip
    assert [band.name for band in motion.bands[:2]] == ["no motion", "buzz"]
    assert 0.06 < motion.start_likely[0] < motion.start_nominal < motion.start_likely[1] < 0.10
    assert motion.start[0] < 0.06
    assert motion.start[1] > 0.10
