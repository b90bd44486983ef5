"""The table for the reader's own value: the same answers as the plan itself would give."""

import pytest

from guide_gen.planning.lookup import CURRENTS_A, around

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


def test_more_current_never_asks_for_a_smaller_fuse_and_a_longer_run_never_for_a_thinner_wire(plan_of):
    table = plan_of(LIMITS | {"toys.bump.current": "5 A (measured)"}).toy.lookup
    ratings = [row.fuse_A for row in table.rows if row.fuse_A]
    assert ratings == sorted(ratings)
    for row in table.rows:
        sizes = [float(wire.split()[0]) for wire, lossy in zip(row.wires, row.lossy, strict=True) if not lossy]
        assert sizes == sorted(sizes)


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
    assert {row.current_A: row.beyond for row in table.rows}[10.0] == ("port",)
    assert {row.current_A: row.beyond for row in table.rows}[20.0] == ("port",)
    small = plan_of({"supplies.main.current": "4 A", "toys.bump.current": "2 A (measured)"}).toy.lookup
    assert {row.current_A: row.beyond for row in small.rows}[5.0] == ("supply",)


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
