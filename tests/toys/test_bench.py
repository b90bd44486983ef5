"""The bench supply's current limit: a good motor turns over below it, or its page says that the limit tells nothing."""

import re
from math import pi

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from guide_gen.published.vibration import motion_value

GRAVITY_M_S2 = 9.80665  # ISO 80000-3, standard acceleration of free fall


def bench(toy, slug):
    """The step, and the current limit in its text."""
    step = next(one for one in toy.steps if one.id == slug)
    number, unit = re.search(r"current limit ([\d.]+)\s(m?A)", step.text).groups()
    return step, float(number) * (1e-3 if unit == "mA" else 1)


def held(step):
    """Whether its reading calls a motor that stands still at the limit blocked."""
    return "at the current limit and still not turning: blocked" in step.record.if_not


@settings(max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    amps=st.floats(1.5, 8),
    rpm=st.integers(1200, 3000),
    gram_m=st.floats(2, 25),
    lost=st.floats(0.05, 0.4),
    controlled=st.booleans(),
)
def test_good_shaker_is_never_called_blocked(plan_of, with_controller, amps, rpm, gram_m, lost, controlled):
    """Torque of the arm held level and of the friction, over V s/rad: textbook of the DC machine (k = EMF / speed)."""
    ohm = lost * 12 / amps
    case = plan_of(
        {
            "toys.bump.current": f"{amps:.3f} A (measured)",
            "toys.bump.motor": {"resistance": f"{ohm:.4f} ohm (measured)", "speed": f"{rpm} rpm (measured)"},
            "toys.bump.weight": {"unbalance": f"{gram_m:.3f} g m (datasheet)"},
            **(with_controller() if controlled else {}),
        }
    )
    constant = (12 - amps * ohm) / (rpm * pi / 30)
    needed_A = gram_m / 1000 * GRAVITY_M_S2 / constant + motion_value("friction share of the loss").high * amps
    step, limit_A = bench(case.toy, "shaker.bench.turns")
    assert limit_A >= min(needed_A, 12 / ohm) * (1 - 1e-3) or not held(step)
    assert limit_A <= 2 * amps * 1.01  # a winding that stands still heats fast
    assert step.record.low < step.record.high <= 12


def test_shaker_that_needs_more_than_half_its_current_gets_it(plan_of):
    """0.40 ohm, 5 A, 1900 rpm, 6 g m: its arm and friction may ask for 4.4 A; half of its current is 2.5 A."""
    case = plan_of(
        {
            "toys.bump.current": "4 A to 5 A (measured)",
            "toys.bump.motor": {"resistance": "0.40 ohm (measured)", "speed": "1900 rpm (measured)"},
            "toys.bump.weight": {"unbalance": "6 g m (datasheet)", "swing": "0.5 s (measured)"},
        }
    )
    step, limit_A = bench(case.toy, "shaker.bench.turns")
    assert 4.4 < limit_A < 5
    assert step.record.high / 0.42 < limit_A
    assert held(step)
    assert "full current" not in step.more


def test_winding_that_stands_less_than_turning_over_asks_says_so(plan_of):
    """25 g m asks a small motor for more than twice its current: then the limit tells nothing of a fault."""
    case = plan_of(
        {
            "toys.bump.current": "0.8 A (measured)",
            "toys.bump.motor": {"resistance": "1.5 ohm (measured)", "speed": "3000 rpm (measured)"},
            "toys.bump.weight": {"unbalance": "25 g m (datasheet)"},
        }
    )
    step, limit_A = bench(case.toy, "shaker.bench.turns")
    assert limit_A == pytest.approx(1.6)
    assert "tells nothing" in step.record.if_not
    assert "five seconds" in step.more


def test_unknown_motor_has_a_limit_that_its_usual_values_pass(plan_of):
    """Nothing but voltage and current is known: usual values stand for the rest."""
    step, limit_A = bench(plan_of({"toys.bump.current": "6 A (measured)"}).toy, "shaker.bench.turns")
    assert not held(step) or limit_A > 6


@pytest.mark.parametrize("amps", [0.3, 2.0, 7.0])
@pytest.mark.parametrize(("kind", "slug"), [("gear motor", "gear.bench.turns"), ("blower fan", "blower.bench.current")])
def test_gear_motor_and_blower_turn_below_their_limit(any_toy, kind, slug, amps):
    """All of a gear motor's current may be friction and load; a fan starts with its friction and half of it more."""
    step, limit_A = bench(any_toy(kind, "on/off port", {"toys.bump.current": f"{amps} A (measured)"}).toy, slug)
    friction, reserve = motion_value("friction share of the loss").high, motion_value("blower start reserve").value
    share = 1.0 if kind == "gear motor" else friction * reserve
    assert limit_A >= share * 1.05 * amps
    assert step.record is not None
