"""What protects a feed: curves, and the sentence that says whether it is in time."""

import math
import re

import pytest

from guide_gen.planning.protection import protector, seconds, time_at
from guide_gen.published.tables import fuse_series

LIMITS = {"supplies.main.overload": "limits", "supplies.main.current_limit": "24 A (datasheet)"}
SIX = {"toys.bump.current": "6 A (measured)", "toys.bump.feed.wire": "1.5 mm2"}


def protection(plan_of, changes):
    return plan_of(changes).toy.protection


def test_a_supply_that_gives_enough_lets_the_fuse_open_in_time(plan_of):
    """ISO 8820-3: 10 A at 24 A is 2.4 times its rating, between 5 s at 2.0 and 0.5 s at 3.5 times, straight on
    logarithmic scales: 2.36 s. IEC 60364-4-43: 1.5 mm2 of PVC stands 24 A for far more than 5 s."""
    found = protection(plan_of, LIMITS | SIX)
    by_hand = 5 * (0.5 / 5) ** (math.log(24 / 10 / 2) / math.log(3.5 / 2))
    assert found.by == "fuse"
    assert found.in_time
    assert found.opened_s == pytest.approx(by_hand, rel=1e-6)
    assert "has opened within 2.4 s" in plain(found)
    assert "in time" in found.short


def test_wire_is_harmed_by_k_squared_s_squared(plan_of):
    """IEC 60364-4-43 434.5.2: I2t = (115 x 1.5)2 for PVC copper, to 5 s."""
    found = protection(plan_of, LIMITS | SIX)
    assert found.wire.startswith("1.5")
    assert found.stands[0][1] == pytest.approx(5.0)
    for current, time in found.stands:
        assert current**2 * time == pytest.approx((115 * 1.5) ** 2)


def test_band_of_a_blade_runs_through_its_gates(plan_of):
    """ISO 8820-3, as the table of gates has it: shortest and longest times at 1.35 to 6 times the rating."""
    found = protection(plan_of, LIMITS | SIX)
    gates = [gate for gate in fuse_series("blade").gates if gate.longest_s is not None]
    for gate in gates:
        assert time_at(found.longest, 10 * gate.multiple) == pytest.approx(gate.longest_s)
        assert time_at(found.shortest, 10 * gate.multiple) == pytest.approx(gate.shortest_s)
    assert found.never_A == pytest.approx(11.0, rel=1e-6)
    assert found.sure_A == pytest.approx(13.5)


def test_a_weak_supply_that_limits_is_the_protection_where_the_wire_carries_it(plan_of):
    found = protection(plan_of, LIMITS | {"supplies.main.current_limit": "3 A (datasheet)"})
    assert (found.by, found.in_time, found.opened_s) == ("wire", False, None)
    assert "limit of 3 A is the protection" in plain(found)


def test_a_supply_that_restarts_ends_it_itself(plan_of):
    found = protection(plan_of, SIX | {"supplies.main.current": "8 A"})
    assert found.by == "supply"
    assert "tries again" in plain(found)


def test_without_a_fuse_nothing_is_drawn_of_it(plan_of):
    found = protection(plan_of, {"toys.bump.feed.fuse": "none"})
    assert (found.fuse_id, found.longest, found.never_A) == ("", (), None)
    assert "No fuse" in found.short


def test_the_supply_notices_only_what_reaches_its_limit():
    """A long thin run keeps the current under the limit: then a supply that restarts protects nothing."""
    assert protector(False, True, "restarts", False) == "supply"
    assert protector(False, False, "restarts", False) == "nothing"
    assert protector(True, False, "restarts", False) == "fuse"
    assert protector(False, True, "limits", True) == "wire"
    assert protector(False, True, "limits", False) == "nothing"
    assert protector(False, True, "not known", True) == "nothing"


@pytest.mark.parametrize(("time", "shown"), [(0.04, "40 ms"), (2.36, "2.4 s"), (600, "10 min")])
def test_times_are_shown_for_people(time, shown):
    assert seconds(time).replace("\u00a0", " ") == shown


def plain(found):
    return re.sub("\u00a0", " ", " ".join(found.says))
