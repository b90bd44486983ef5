"""Laws of the wire formulas."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from guide_gen.formulas import wire
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.published.tables import families, family, resistance_ohm_per_m
from guide_gen.values.quantity import WireSize

FAMILIES = sorted(families())
current = st.floats(0.01, 50)
length = st.floats(0.1, 30)
air = st.floats(-20, 100)


def _drop_V(size, length_m, current_A, degC):
    ohm_per_m = wire.resistance_at_ohm_per_m(resistance_ohm_per_m(size), degC)
    loop = wire.loop_resistance_ohm(wire.run_resistance_ohm(ohm_per_m, 2 * length_m), 0.01, 8, 0.002, 0.01)
    return wire.drop_V(current_A, loop)


@given(name=st.sampled_from(FAMILIES), length_m=length, current_A=current, degC=st.floats(-20, 100))
def test_thicker_wire_drops_less(name, length_m, current_A, degC):
    table = family(name)
    drops = [_drop_V(WireSize(table.sizes_system, size), length_m, current_A, degC) for size in table.sizes]
    assert drops == sorted(drops, reverse=True)
    assert drops[0] > drops[-1]


@given(length_m=length, more=length, current_A=current)
def test_longer_wire_drops_more(length_m, more, current_A):
    size = WireSize("mm2", "1.5")
    assert _drop_V(size, length_m + more, current_A, 20) > _drop_V(size, length_m, current_A, 20)


@given(cool=st.floats(-50, 150), more=st.floats(0.1, 100))
def test_hotter_copper_resists_more(cool, more):
    assert wire.resistance_at_ohm_per_m(0.01, cool + more) > wire.resistance_at_ohm_per_m(0.01, cool)


def test_resistance_at_20_degC_is_the_tables_own():
    assert wire.resistance_at_ohm_per_m(0.0133, 20) == 0.0133


@given(name=st.sampled_from(FAMILIES), one=air, other=air, circuits=st.integers(1, 20))
def test_hotter_air_never_gives_more_ampacity(name, one, other, circuits):
    table = family(name)
    column = table.insulation_degC[0]
    size = table.sizes_in(column)[0]

    def ampacity(degC):
        factor = wire.ambient_factor(column, degC, table.ambient_degC)
        return wire.derated_ampacity_A(table.ampacity_A(size, column), factor, table.bundle_factor(circuits)[0])

    assert ampacity(max(one, other)) <= ampacity(min(one, other))


@given(name=st.sampled_from(FAMILIES), warmer=st.floats(0, 60), circuits=st.integers(1, 20))
def test_derating_never_gives_more_than_the_table(name, warmer, circuits):
    table = family(name)
    for column in table.insulation_degC:
        factor = wire.ambient_factor(column, table.ambient_degC + warmer, table.ambient_degC)
        for size in table.sizes_in(column):
            printed = table.ampacity_A(size, column)
            assert wire.derated_ampacity_A(printed, factor, table.bundle_factor(circuits)[0]) <= printed


def test_the_tables_own_air_changes_nothing():
    assert wire.ambient_factor(70, 40, 40) == 1


@pytest.mark.parametrize("air_degC", [70, 71, 200])
def test_air_as_hot_as_the_insulation_leaves_no_ampacity(air_degC):
    assert wire.ambient_factor(70, air_degC, 40) == 0


def test_insulation_no_better_than_the_tables_air_is_refused():
    with pytest.raises(OutsideValidity, match="base_ambient_degC is 40, it must be below insulation_degC, 40"):
        wire.ambient_factor(40, 20, 40)


@given(
    insulation=st.floats(60, 200),
    base=st.floats(20, 40),
    ambient=st.floats(-10, 59),
    table_A=st.floats(1, 100),
    bundle=st.floats(0.3, 1),
)
def test_a_wire_at_its_ampacity_is_as_hot_as_its_insulation_may_be(insulation, base, ambient, table_A, bundle):
    assume(insulation - ambient > 1)
    ampacity = wire.derated_ampacity_A(table_A, wire.ambient_factor(insulation, ambient, base), bundle)
    hot = wire.conductor_temperature_degC(ambient, insulation, base, ampacity, table_A, bundle)
    assert hot == pytest.approx(insulation)


def test_a_wire_without_current_is_as_warm_as_its_air():
    assert wire.conductor_temperature_degC(35, 70, 40, 0, 13.1, 0.8) == 35


@given(limit=st.floats(1, 100), ratings=st.floats(1, 100), more=st.floats(1, 2.1))
def test_a_shared_lead_needs_no_more_than_supply_or_fuses_let_pass(limit, ratings, more):
    needed = wire.shared_lead_ampacity_A(limit, ratings, more * ratings)
    assert needed <= limit
    assert needed <= max(ratings, more * ratings / 1.45)


def test_a_shared_lead_behind_a_small_supply_carries_the_supplys_limit():
    assert wire.shared_lead_ampacity_A(5, 13, 13 * 1.35) == 5


def test_a_shared_lead_behind_a_large_supply_carries_the_fuses():
    assert wire.shared_lead_ampacity_A(24, 13, 13 * 1.35) == 13


def test_a_shared_lead_stands_late_opening_cartridges():
    """2.1 x 10 A until they open is 1.45 x 14.5 A."""
    assert wire.shared_lead_ampacity_A(100, 10, 21) == pytest.approx(21 / 1.45)


def test_half_a_gauge_is_refused():
    with pytest.raises(OutsideValidity, match=r"gauge is 16\.5, it must be a whole number"):
        wire.awg_area_mm2(16.5)


def test_the_drop_is_a_share_of_the_nominal_voltage():
    assert wire.drop_percent(0.6, 12) == pytest.approx(5)
