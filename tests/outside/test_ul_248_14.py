"""UL 248-14: supplemental fuses. Looked-up."""

import pytest

from guide_gen.published.tables import fuse_series

HOLDERS = ["5 x 20 mm UL", "6.3 x 32 mm UL"]


@pytest.mark.parametrize("holder", HOLDERS)
def test_opens_for_certain_at_135_percent(holder):
    assert fuse_series(holder).opens_at == 1.35


@pytest.mark.parametrize("holder", HOLDERS)
def test_opens_within_an_hour_at_135_percent_and_within_two_minutes_at_200(holder):
    fast = {
        gate.multiple: gate.longest_s for gate in fuse_series(holder).gates
        if gate.character in {"any", "fast-acting"} and gate.from_A <= 5 <= gate.to_A
    }
    assert fast[1.35] == 3600
    assert fast[2] == 120


@pytest.mark.parametrize("holder", HOLDERS)
def test_only_an_ac_rating_is_printed(holder):
    assert fuse_series(holder).dc_voltage_V is None
