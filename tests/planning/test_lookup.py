"""The table for the reader's own value: the same answers as the plan itself would give."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide_gen.model.finding import Level
from guide_gen.planning.lookup import CURRENTS_A, around
from guide_gen.published.tables import all_fuse_series

LIMITS = {"supplies.main.overload": "limits", "supplies.main.current": "60 A"}


@pytest.mark.parametrize("current", [2, 4, 6])
@pytest.mark.parametrize("place", [0, 1, 3])
def test_a_row_says_what_the_plan_of_such_a_toy_says(plan_of, current, place):
    table = plan_of(LIMITS | {"toys.bump.current": "3 A (measured)"}).toy.lookup
    row = next(row for row in table.rows if row.current_A == current)
    run = table.runs_m[place]
    toy = plan_of(LIMITS | {"toys.bump.current": f"{current} A (measured)", "toys.bump.feed.run": f"{run:g} m"}).toy
    assert row.fuse_A == toy.sized.fuse.rating_A
    assert row.wires[place] == toy.sized.wire.size.shown


WIRES = {"wire-too-thin", "fuse-above-wire", "drop-too-high", "fuse-cannot-open"}
NEVER = 1e9  # a dash: no wire is thick enough


def area(wire):
    """The number of a metric size; of a gauge, the larger the thicker."""
    number, unit = wire.split() if wire else (NEVER, "mm²")
    return float(number) if unit == "mm²" else -float(number)


@st.composite
def changes(draw):
    """A supply, a holder and a toy; metric or US units."""
    amps = draw(st.floats(2, 40))
    american = draw(st.booleans())
    return {
        "units": "US" if american else "metric",
        "wiring": {
            "ampacity_table": "33 CFR 183.425" if american else "IEC 60204-1",
            "inside_temperature": f"{draw(st.integers(20, 60))} °C",
            "drop_limit": f"{draw(st.integers(1, 10))} %",
        },
        "supplies.main": {
            "current": f"{amps:.3g} A", "current_limit": f"{amps * draw(st.floats(1, 2)):.3g} A (datasheet)",
            "overload": draw(st.sampled_from(["limits", "limits", "restarts", "not known"])),
        },
        "toys.bump.current": f"{draw(st.floats(0.3, 12)):.2g} A (measured)",
        "toys.bump.feed": {"run": "1.5 m", "fuse": {"holder": draw(st.sampled_from(sorted(all_fuse_series())))}},
        "toys.bump.feed.wire": None,
    }  # fmt: skip


@settings(max_examples=40, deadline=None)
@given(data=changes())
def test_no_size_gets_thinner_with_more_current_or_a_longer_run(plan_of, data):
    """Nor is a size printed beyond a dash."""
    rows = plan_of(data).toy.lookup.rows
    ratings = [row.fuse_A or NEVER for row in rows]
    assert ratings == sorted(ratings)
    for row in rows:
        assert [area(wire) for wire in row.wires] == sorted(area(wire) for wire in row.wires)
    for less, more in pairwise(rows):
        assert all(area(thin) <= area(thick) for thin, thick in zip(less.wires, more.wires, strict=True))


@settings(max_examples=40, deadline=None)
@given(data=changes(), chance=st.randoms(use_true_random=False))
def test_a_printed_size_passes_the_checks_of_the_plan_with_that_current_and_run(plan_of, data, chance):
    """Whatever is found of that plan's fuse, port and supply is in words beside its row."""
    table = plan_of(data).toy.lookup
    row, place = chance.choice(table.rows), chance.randrange(len(table.runs_m))
    wire = row.wires[place]
    asked = data | {"toys.bump.current": f"{row.current_A} A (measured)"}
    feed = data["toys.bump.feed"] | {"run": f"{table.runs_m[place]} m"}
    plan = plan_of(asked | {"toys.bump.feed": feed | ({"wire": wire.replace("\u00a0", " ")} if wire else {})}).plan
    told = {(finding.code, finding.level): finding for finding in plan.findings}
    codes = {code for code, _ in told}
    if wire:
        lost = "much lost in fuse and contacts" in row.beyond
        assert not {code for code, level in told if level is Level.MUST} & WIRES
        assert lost or "drop-too-high" not in codes
        assert ("fuse-cannot-open" in codes) <= bool(
            "more than this supply opens" in row.beyond or data["supplies.main"]["overload"] == "not known"
        )
    assert ("port-overloaded" in codes) == ("above this port" in row.beyond)
    assert ("fuse-above-port" in codes) <= bool({"above this port", "fuse above this port"} & set(row.beyond))
    assert bool({"supply-overloaded", "supply-headroom"} & codes) == ("above this supply" in row.beyond)


@pytest.mark.parametrize("current", ["0.42 A", "1.4 A", "2 A"])
def test_the_toy_has_one_row_of_its_own_with_the_fuse_of_its_card(plan_of, current):
    toy = plan_of({"toys.bump.current": f"{current} (measured)"}).toy
    rows = [row for row in toy.lookup.rows if row.here]
    assert [(row.current_A, row.fuse_A) for row in rows] == [(float(current[:-2]), toy.sized.fuse.rating_A)]
    assert [row.current_A for row in toy.lookup.rows] == sorted({row.current_A for row in toy.lookup.rows})


def test_a_stated_fuse_stands_in_the_toys_own_row_alone(plan_of):
    stated = plan_of({"toys.bump.current": "1.4 A (measured)", "toys.bump.feed.fuse": {"rating": "5 A"}}).toy.lookup
    chosen = plan_of({"toys.bump.current": "1.4 A (measured)"}).toy.lookup
    assert [row.fuse_A for row in stated.rows if row.here] == [5.0]
    others = [[row.fuse_A for row in table.rows if not row.here] for table in (stated, chosen)]
    assert others[0] == others[1]


def test_runs_follow_the_units_of_the_build(plan_of):
    metric, us = (plan_of({"units": units}).toy.lookup for units in ("metric", "US"))
    assert metric.runs_m == (1, 2, 3, 4, 6)
    assert us.runs_m == pytest.approx([0.3048 * feet for feet in (3, 6, 10, 15, 20)])


def test_what_port_and_supply_do_not_carry_is_said(plan_of):
    table = plan_of({"toys.bump.current": "8 A (measured)"}).toy.lookup
    words = {row.current_A: row.beyond for row in table.rows}
    assert "above this port" in words[10.0]
    assert "above this port" in words[20.0]
    small = plan_of({"supplies.main.current": "4 A", "toys.bump.current": "2 A (measured)"}).toy.lookup
    assert "above this supply" in {row.current_A: row.beyond for row in small.rows}[5.0]


@pytest.mark.parametrize(("limit", "told"), [("15.1 A", False), ("14.9 A", True)])
def test_a_fuse_that_the_supply_cannot_open_is_said_beside_its_row(plan_of, limit, told):
    """ISO 8820-3: 7.5 A, 1.5 times 5 A, opens within 5 s from twice its rating, 15 A."""
    limits = {"supplies.main.overload": "limits", "supplies.main.current": "14 A"}
    table = plan_of(limits | {"supplies.main.current_limit": f"{limit} (datasheet)"}).toy.lookup
    row = next(row for row in table.rows if row.current_A == 5)
    assert ("more than this supply opens" in row.beyond) == told


def test_a_fuse_above_the_port_is_said_beside_its_row(plan_of):
    """6 A asks for 9 A, so that 10 A is fitted: an 8 A port may carry 6.4 A for long, and no fuse of 10 A."""
    cool = {"boards.quay.port_current": "8 A", "boards.quay.switch_resistance": "5 mohm (datasheet)"}
    words = {row.current_A: row.beyond for row in plan_of(cool).toy.lookup.rows}
    assert "fuse above this port" in words[6.0]
    assert "fuse above this port" not in words[5.0]


def test_a_controller_shares_the_run_with_its_motor(plan_of, with_controller):
    """Half a metre before and half a metre behind the controller is a run of one metre."""
    toy = plan_of(LIMITS | with_controller() | {"toys.bump.current": "4 A (measured)"}).toy
    row = next(row for row in toy.lookup.rows if row.here)
    assert row.wires[0] == toy.sized.wire.size.shown


@pytest.mark.parametrize("current", [0.1, 0.5, 1.4, 6, 25, 60])
def test_the_rows_stand_round_the_toys_own_current(current):
    rows = around(current)
    assert len(rows) >= 4
    assert list(rows) == sorted(rows)
    assert set(rows) <= set(CURRENTS_A)
    assert min(CURRENTS_A, key=lambda one: abs(one - current)) in rows


@pytest.mark.parametrize("current", [1, 2, 4])
def test_fuse_in_the_switched_return_is_that_of_the_rows_own_current(plan_of, current):
    """A cartridge loses 0.2 V at its rating, whatever that is (common practice, no source): it decides thin wires."""
    returned = LIMITS | {"boards.quay.port_fuse": "5 x 20 mm", "boards.quay.port_fuse_voltage": "60 V"}
    table = plan_of(returned | {"toys.bump.current": "3 A (measured)"}).toy.lookup
    row = next(row for row in table.rows if row.current_A == current)
    run = f"{table.runs_m[2]:g} m"
    toy = plan_of(returned | {"toys.bump.current": f"{current} A (measured)", "toys.bump.feed.run": run}).toy
    chosen = next(one.result for one in toy.worked if one.id == "return.fuse.rating")
    assert (row.return_A, row.wires[2]) == (chosen, toy.sized.wire.size.shown)
    assert "F1C" in table.note


def test_without_a_fuse_in_the_return_no_row_has_one(plan_of):
    table = plan_of().toy.lookup
    assert {row.return_A for row in table.rows} == {None}
    assert table.note == ""
