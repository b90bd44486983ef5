"""ISO 10133 annex A: currents that drop 3 percent of 12 V over a round trip, E = 0.0164 I L / S.

Looked-up in a reprint of its table, rounded there to whole amperes.
"""

import pytest

from guide_gen.formulas.wire import drop_percent, drop_V, run_resistance_ohm


@pytest.mark.parametrize(
    ("mm2", "by_metre"),
    [
        (0.75, {1: "16", 2: "8", 3: "5"}),
        (1, {1: "22", 2: "11", 3: "7"}),
        (1.5, {1: "33", 2: "16", 3: "11"}),
        (2.5, {2: "27", 3: "18", 4: "14", 5: "11"}),
        (4, {2: "44", 3: "29", 4: "22", 5: "18"}),
    ],
)
def test_current_that_drops_three_percent(mm2, by_metre, printed):
    for metres, ampere in by_metre.items():
        percent_per_ampere = drop_percent(drop_V(1, run_resistance_ohm(0.0164 / mm2, metres)), 12)
        assert 3 / percent_per_ampere == printed(ampere)
