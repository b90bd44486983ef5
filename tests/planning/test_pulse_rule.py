"""The pulse rule of the fuse: short pulses tire it by their heat, a long one asks for no more than its current."""

from math import sqrt

import pytest

from guide_gen.model.finding import Level

EXACT = {"supplies.main.voltage_range": "12 V to 12 V"}
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
        return plan_of(EXACT, base).toy.sized.fuse

    return make


@pytest.mark.parametrize("on_time", ["40 ms", "242 ms", "243 ms", "1 s", "10 s", "60 s"])
def test_a_coils_pulse_never_asks_for_more_than_its_current_for_ever(fuse, on_time):
    """ISO 8820-3: 3 A carry 2 A for ever; by I²t alone 10 s would ask for sqrt(40/(0.22 x 0.49)) = 19 A."""
    plan = fuse(on_time)
    assert (plan.needed_A, plan.rating_A, plan.governed_by) == (pytest.approx(3.0), 3.0, "margin")


@pytest.mark.parametrize(("on_time", "heat_A"), [("40 ms", 1.218), ("1 s", 2 / 0.7)])
def test_working_shows_the_bound_of_a_long_pulse(plan_of, small_build, on_time, heat_A):
    """At 40 °C a fuse carries 0.75 x 0.933 of its rating for ever: 2 A ask for 2.86 A; 40 ms for less by their heat."""
    base = small_build | {"toys": {"bump": KNOCK | {"pulse": {"on_time": on_time, "off_time": "60 s"}}}}
    worked = {one.id: one.result for one in plan_of(EXACT, base).toy.worked}
    assert worked["fuse.pulse-for-ever"] == pytest.approx(2 / 0.7)
    assert worked["fuse.pulse"] == pytest.approx(heat_A, abs=1e-3)


def test_a_series_that_tells_nothing_of_short_times_asks_for_nothing(fuse):
    """UL 248-14 has no gate below seconds: the margin stays."""
    assert fuse("1 s", feed={"run": "0.5 m", "fuse": {"holder": "6.3 x 32 mm UL"}}).governed_by == "margin"


@pytest.fixture(name="filament", scope="module")
def _filament(any_toy):
    """Two amperes of filament: 20 A for 10 ms, so 2 A²s (common practice, no source)."""

    def make(changes=None, **fuse):
        said = {"toys.bump.lamp_type": "filament", "toys.bump.feed": {"run": "0.5 m", "fuse": fuse}}
        return any_toy("lamp", "always on", EXACT | said | (changes or {}))

    return make


@pytest.mark.parametrize(
    ("speed", "floor", "rating_A"), [("fast", 0.16, 8.0), ("time-lag", 1.0, 3.15), ("", 0.16, 8.0)]
)
def test_cartridge_is_judged_by_the_row_of_its_own_rating(filament, speed, floor, rating_A):
    """IEC 60127-2: F sheet 2 from 125 mA, 4 x for 10 ms; T sheet 5 to 3.15 A, 10 x for 10 ms; the worse if unknown."""
    fuse = filament(holder="5 x 20 mm", dc_voltage="60 V", **({"speed": speed} if speed else {})).toy.sized.fuse
    assert fuse.needed_A == pytest.approx(max(3.0, sqrt(2 / (0.22 * floor))))
    assert (fuse.rating_A, fuse.governed_by) == (rating_A, "pulse")


def test_stated_cartridge_is_judged_by_its_row_and_the_mend_by_its_own(filament):
    """IEC 60127-2, F sheet 2: a tenth of an ampere melts at 4² x 3 ms, larger ones at 4² x 10 ms."""
    case = filament(holder="5 x 20 mm", dc_voltage="60 V", speed="fast", rating="0.1 A")
    assert case.toy.sized.fuse.needed_A == pytest.approx(sqrt(2 / (0.22 * 0.048)))
    assert case.finding("fuse-below-load").mend == "Fit 8\u00a0A."


@pytest.mark.parametrize("holder", ["5 x 20 mm UL", "6.3 x 32 mm UL"])
def test_series_that_tells_nothing_of_short_times_says_what_would(filament, holder):
    """UL 248-14 has no gate below seconds: the melting heat must come from a data sheet, 2 A²s over 0.22."""
    case = filament(holder=holder, dc_voltage="60 V")
    told = [one for one in case.plan.findings if one.code == "not-worked-out" and "melts" in one.message]
    assert [one.level for one in told] == [Level.NOTE]
    assert "9.09" in told[0].expected
    assert "melting I²t" in told[0].mend
    assert "100\u00a0000 cold starts" in told[0].message


def test_pulse_coil_on_such_a_series_needs_no_data_sheet(plan_of, small_build):
    """UL 248-14 lets a fuse carry its rating for ever, and a coil draws no more in a pulse than it would for ever."""
    toy = KNOCK | {"feed": {"run": "0.5 m", "fuse": {"holder": "6.3 x 32 mm UL", "dc_voltage": "60 V"}}}
    base = small_build | {"toys": {"bump": toy | {"pulse": {"on_time": "40 ms", "off_time": "60 s"}}}}
    assert not any("melts" in one.message for one in plan_of({}, base).plan.findings)


def test_fuse_that_is_judged_needs_no_data_sheet(filament):
    """ISO 8820-3 and IEC 60127-2 have gates at short times."""
    assert "not-worked-out" not in [
        one.code for one in filament(holder="blade").plan.findings if "melts" in one.message
    ]


def test_pulses_are_judged_at_the_highest_voltage_of_the_supply(filament, plan_of, small_build):
    """Ohm's law (OpenStax College Physics 2e): a cold filament and a coil draw in proportion, heat with the square."""
    high = {"supplies.main.voltage_range": "12 V to 13.2 V"}
    plain, more = filament(holder="blade"), filament(high, holder="blade")
    assert more.toy.sized.load.start_A == pytest.approx(22)
    assert more.toy.sized.load.pulse_A2s == pytest.approx(1.21 * plain.toy.sized.load.pulse_A2s)
    working = {one.id: one.result for one in more.toy.worked}
    assert working["lamp.inrush"] == pytest.approx(22)
    assert working["lamp.heat"] == pytest.approx(more.toy.sized.load.pulse_A2s)
    base = small_build | {"toys": {"bump": KNOCK | {"pulse": {"on_time": "1 s", "off_time": "60 s"}}}}
    coil = plan_of(high, base).toy
    assert coil.sized.load.pulse_A2s == pytest.approx(2.2**2)
    assert next(one.result for one in coil.worked if one.id == "coil.pulse-heat") == pytest.approx(2.2**2)
    assert coil.sized.load.design_current_A == 2


def test_pulse_heat_is_that_of_the_lowest_resistance(plan_of, small_build):
    """Ohm's law: 12 V across 5 ohm, the low end, for a second: 5.76 A²s."""
    toy = KNOCK | {"pulse": {"on_time": "1 s", "off_time": "60 s"}, "coil": {"resistance": "5 ohm to 6 ohm (measured)"}}
    load = plan_of(EXACT, small_build | {"toys": {"bump": toy}}).toy.sized.load
    assert load.pulse_A2s == pytest.approx(2.4**2)


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


@pytest.mark.parametrize(("rating", "level"), [("3 A", None), ("2.9 A", Level.SHOULD), ("2 A", Level.MUST)])
def test_fuse_of_a_long_pulse_is_judged_as_for_ever(plan_of, small_build, rating, level):
    """3 A by the margin, 2 A / (0.75 x 0.933) = 2.86 A for ever at 40 °C."""
    toy = KNOCK | {
        "pulse": {"on_time": "1 s", "off_time": "60 s"},
        "feed": {"run": "0.5 m", "fuse": {"rating": rating}},
    }
    case = plan_of({}, small_build | {"toys": {"bump": toy}})
    assert [one.level for one in case.plan.findings if one.code == "fuse-below-load"] == ([level] if level else [])
