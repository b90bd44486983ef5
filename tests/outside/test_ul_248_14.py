"""UL 248-14: supplemental fuses. Looked-up."""

from math import inf

import pytest

from guide_gen.formulas.fuse_opening import Outcome, curve
from guide_gen.published.tables import fuse_series

HOLDERS = ["5 x 20 mm UL", "6.3 x 32 mm UL"]


@pytest.mark.parametrize("holder", HOLDERS)
def test_opens_for_certain_at_135_percent(holder):
    assert fuse_series(holder).opens_at == 1.35


@pytest.mark.parametrize("holder", HOLDERS)
def test_opens_within_an_hour_at_135_percent_and_within_two_minutes_at_200(holder):
    fast = {
        gate.multiple: gate.longest_s
        for gate in fuse_series(holder).gates
        if gate.character in {"any", "fast-acting"} and gate.from_A <= 5 <= gate.to_A
    }
    assert fast[1.35] == 3600
    assert fast[2] == 120


@pytest.mark.parametrize("holder", HOLDERS)
def test_only_an_ac_rating_is_printed(holder):
    assert fuse_series(holder).dc_voltage_V is None


@pytest.mark.parametrize("holder", HOLDERS)
@pytest.mark.parametrize(("speed", "shortest_s"), [("fast", 0), ("time-lag", 12)])
def test_twice_its_rating_opens_a_5_A_fuse_within_two_minutes(holder, speed, shortest_s):
    """A time-delay fuse stands it for 12 s; of a fast one no shortest time is asked."""
    band = curve(fuse_series(holder), 5, speed).opening(10)
    assert (band.shortest_s, band.longest_s) == (shortest_s, 120)


@pytest.mark.parametrize("holder", HOLDERS)
def test_its_rating_is_carried_for_ever_and_a_little_more_perhaps_not(holder):
    found = curve(fuse_series(holder), 5)
    assert found.opening(5).shortest_s == inf
    assert found.outcome(6, 1e9) is Outcome.MAYBE
