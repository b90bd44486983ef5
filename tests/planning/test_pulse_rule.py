"""The pulse rule of the fuse: repeated pulses tire it; the largest of margin, continuous and pulse rule governs."""

from math import sqrt

import pytest

from guide_gen.model.finding import Level

KNOCK = {
    "kind": "knocker",
    "voltage": "12 V",
    "current": "2 A (measured)",
    "end_stop": "yes",
    "time_limit": {"by": "coil", "opens_at": "80 °C"},
    "control": {"type": "on/off port", "board": "quay", "port": "2"},
    "feed": {"run": "0.5 m"},
}


@pytest.fixture(name="fuse", scope="module")
def _fuse(plan_of, small_build):
    def make(on_time, **changes):
        base = small_build | {"toys": {"bump": KNOCK | {"pulse": {"on_time": on_time, "off_time": "60 s"}} | changes}}
        return plan_of({}, base).toy.sized.fuse

    return make


@pytest.mark.parametrize(("on_time", "governs"), [("242 ms", "margin"), ("243 ms", "pulse")])
def test_pulse_rule_governs_from_a_quarter_of_a_second_on(fuse, on_time, governs):
    """I² t = 0.22 x 0.49 x (1.5 I)²: at 242.6 ms whatever the current (gates of ISO 8820-3; selection guides)."""
    assert fuse(on_time).governed_by == governs


def test_rating_by_the_pulse_rule(fuse):
    """2 A for 1 s is 4 A²s; 1e5 times: sqrt(4 / (0.22 x 0.49)) = 6.1 A, so 7.5 A."""
    plan = fuse("1 s")
    assert plan.needed_A == pytest.approx(sqrt(4 / (0.22 * 0.49)))
    assert (plan.rating_A, plan.governed_by) == (7.5, "pulse")


def test_a_series_that_tells_nothing_of_short_times_asks_for_nothing(fuse):
    """UL 248-14 has no gate below seconds: the margin stays."""
    assert fuse("1 s", feed={"run": "0.5 m", "fuse": {"holder": "6.3 x 32 mm UL"}}).governed_by == "margin"


def test_working_shows_all_three_rules(plan_of, small_build):
    """The evaluated formula is the largest of its letters."""
    base = small_build | {"toys": {"bump": KNOCK | {"pulse": {"on_time": "1 s", "off_time": "60 s"}}}}
    needed = next(one for one in plan_of({}, base).toy.worked if one.id == "fuse.needed")
    assert needed.formula == "max(I_m, I_c, I_p)"
    assert needed.result == max(needed.numbers.values())


def test_a_load_without_pulses_has_two_rules(plan_of):
    """As before."""
    needed = next(one for one in plan_of().toy.worked if one.id == "fuse.needed")
    assert needed.formula == "max(I_m, I_c)"


@pytest.mark.parametrize(("rating", "told"), [("7.5 A", False), ("5 A", True)])
def test_fuse_that_the_pulses_tire_is_told(plan_of, small_build, rating, told):
    """6.1 A needed: above the continuous rule, so it should be mended, and why is said."""
    toy = KNOCK | {
        "pulse": {"on_time": "1 s", "off_time": "60 s"},
        "feed": {"run": "0.5 m", "fuse": {"rating": rating}},
    }
    case = plan_of({}, small_build | {"toys": {"bump": toy}})
    assert ("fuse-below-load" in case.codes) == told
    if told:
        assert case.finding("fuse-below-load").level is Level.SHOULD
        assert "pulses tire it" in case.finding("fuse-below-load").message
