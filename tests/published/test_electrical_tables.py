"""The tables behind fuse opening, short circuits, windings, surfaces and parts to buy: ordered, and refusing."""

from itertools import pairwise

import pytest

from guide_gen.published import tables
from guide_gen.published.tables import NotInTable


def test_a_rating_has_one_set_of_gates_for_each_character_it_may_have():
    cartridge = tables.fuse_series("5 x 20 mm")
    assert [len(cartridge.gates_of(5, speed)) for speed in ("fast", "time-lag", "")] == [1, 2, 3]
    assert len(tables.fuse_series("blade").gates_of(5, "time-lag")) == 1


@pytest.mark.parametrize("holder", sorted(tables.all_fuse_series()))
def test_every_set_of_gates_rises_and_opens_the_fuse_at_last(holder):
    series = tables.fuse_series(holder)
    for rating in series.ratings_A:
        for gates in series.gates_of(rating):
            assert all(low.multiple < high.multiple for low, high in pairwise(gates))
            assert gates[0].longest_s is None
            assert gates[-1].longest_s is not None


def test_more_pulses_leave_a_smaller_share():
    points = tables.fuse_pulse_points()
    assert all(few[0] < many[0] and few[1] > many[1] for few, many in pairwise(points))
    assert points[0] == (1, 1)


def test_the_cautious_row_is_never_cooler_than_the_insulation():
    for insulation in (60, 70, 75, 80, 90, 105, 125, 200):
        row = tables.withstand_for(insulation)
        assert row.start_degC >= insulation
        assert row.end_degC > row.start_degC


def test_insulation_above_the_hottest_row_is_refused():
    with pytest.raises(NotInTable, match="no short-circuit constant for 250 °C; the table has 70 °C, "):
        tables.withstand_for(250)


def test_hotter_surfaces_are_worse():
    assert [level.level for level in tables.touch_levels()] == ["note", "warm", "caution", "must fix"]
    assert all(cool.from_degC < warm.from_degC for cool, warm in pairwise(tables.touch_levels()))


@pytest.mark.parametrize("values", [tables.e24_decade(), tables.supply_ratings_A()])
def test_values_to_buy_rise(values):
    assert all(low < high for low, high in pairwise(values))


def test_copper_is_heavy_and_takes_little_heat():
    assert 8900 < tables.copper().density_kg_per_m3 < 9000
    assert 380 < tables.copper().specific_heat_J_per_kg_K < 390
