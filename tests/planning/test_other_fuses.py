"""Fuses besides the feed's own, what flows where a feed has none, and what else a feed's fuse carries."""

import re

import pytest

from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json

BARE = {"toys.bump.feed.fuse": "none"}
RELAY = {
    "coil_voltage": "12 V",
    "coil_resistance": "150 ohm (datasheet)",
    "contact_current": "10 A",
    "contact_voltage": "30 V",
}


def said(finding):
    return finding.message.replace("\u00a0", " ")


def asked(worked, id):
    return next(float(one.result) for one in worked if one.id == id)


@pytest.fixture(name="relayed", scope="module")
def _relayed(plan_of):
    def make(relay, changes=None):
        control = {"type": "relay", "board": "quay", "port": "2", "relay": RELAY | relay}
        return plan_of({"toys.bump.control": control} | (changes or {}))

    return make


# ---- the lead to the fuses, where a feed has none --------------------------------------------------------------------


@pytest.mark.parametrize("changes", [
    BARE,
    {"toys.bump.current": "22 A (measured)", "toys.bump.feed.fuse": {"holder": "mini blade"}},
])  # fmt: skip
def test_feed_without_a_fuse_starts_at_the_supply_and_not_in_its_lead(plan_of, changes):
    """Kirchhoff: what is drawn from T1:+ straight does not flow in the lead to the fuses."""
    case = plan_of(changes)
    supply, circuit = case.plan.supplies["main"], case.toy.sized.circuit
    assert circuit.wire("W11").start == "T1:+"
    assert "W1" not in circuit.main
    assert supply.wires[0].carries_A == 0
    assert asked(supply.worked, "lead.main.needed") == 0


def test_lead_to_the_fuses_carries_the_fused_toys_alone(plan_of, small_build):
    """Beside a toy of 6 A without a fuse it carries the 2 A of the other, behind 3 A."""
    bump = small_build["toys"]["bump"]
    bare = bump | {"current": "6 A (measured)", "control": {"type": "always on"}}
    case = plan_of({"toys.bump": bump, "toys.bare": bare | {"feed": {"run": "0.5 m", "fuse": "none"}}})
    supply = case.plan.supplies["main"]
    assert supply.wires[0].carries_A == pytest.approx(2.0)
    assert asked(supply.worked, "lead.main.needed") == pytest.approx(3.0)
    assert supply.demand_A == pytest.approx(8.0)


def test_rating_needed_is_told_where_there_is_no_fuse(plan_of):
    """2 A x 1.5 = 3.0 A, as the finding asks for."""
    fuse = plan_json(plan_of(BARE).plan)["toys"]["bump"]["fuse"]
    assert fuse["needed_A"] == pytest.approx(3.0)
    assert "rating_A" not in fuse


# ---- an input with a fuse of its own ---------------------------------------------------------------------------------


@pytest.mark.parametrize("changes", [{}, BARE])
def test_board_lead_is_bounded_by_the_fuse_of_the_input_that_returns_there(plan_of, with_controller, changes):
    """8 mA behind the smallest blade, 1 A: whatever guards the feed, which does not pass the board."""
    case = plan_of(changes | with_controller(controller__input_from="before the fuse"))
    board = case.plan.boards["quay"]
    assert asked(board.worked, "return.quay.needed") == pytest.approx(1.0)
    assert board.wires[0].protected_by == "F1B"
    assert "F1B" in case.toy.sized.circuit.wire("W2").protected_by
    assert "wire-too-thin" not in case.codes


def test_input_behind_the_feeds_fuse_is_bounded_by_that(plan_of, with_controller):
    """2 A x 1.5: a 3 A blade stands before the input too."""
    board = plan_of(with_controller()).plan.boards["quay"]
    assert asked(board.worked, "return.quay.needed") == pytest.approx(3.0)
    assert board.wires[0].protected_by == "F1"


# ---- a fuse in the switched return -----------------------------------------------------------------------------------


def inside(case):
    return next(part for part in case.toy.sized.circuit.parts if part.id == "F1C")


@pytest.mark.parametrize(("changes", "value"), [
    ({}, "3 A"),  # 2 A x 1.5 = 3.0 A: blades have 3 A
    ({"wiring.fuse_margin": "2"}, "4 A"),  # 2 A x 2
    ({"wiring.fuse_margin": "1", "wiring.inside_temperature": "60 °C"}, "4 A"),  # 2 A / 0.75 at 60 °C: above 3 A
])  # fmt: skip
def test_fuse_in_the_return_is_sized_by_the_rules_of_a_feed(plan_of, changes, value):
    """Common practice, no source: the margin; a fuse in warm air carries less for long."""
    case = plan_of({"boards.quay.port_fuse": "blade"} | changes)
    assert inside(case).value.replace("\u00a0", " ") == value
    assert inside(case).value == case.toy.sized.circuit.part("F1").value


def test_series_that_is_too_small_for_the_return_is_told(plan_of):
    """9 A x 1.5 = 13.5 A; IEC 60127-2 sheets end at 10 A."""
    case = plan_of({
        "toys.bump.current": "9 A (measured)",
        "boards.quay.port_current": "15 A",
        "boards.quay.port_fuse": "5 x 20 mm",
        "boards.quay.port_fuse_voltage": "60 V",
    })  # fmt: skip
    found = case.finding("fuse-below-load")
    assert found.level is Level.MUST
    assert "F1C" in said(found)
    assert "13.5 A" in said(found)
    assert case.above(found)[-1] == "port_fuse"
    assert not [part for part in case.toy.sized.circuit.parts if part.id == "F1C"]


HIGH = {"supplies.main.voltage": "48 V", "supplies.main.voltage_range": "48 V to 50 V", "toys.bump.voltage": "48 V",
        "boards.quay.port_voltage": "80 V", "toys.bump.feed.fuse": {"dc_voltage": "58 V"}}  # fmt: skip


def test_fuse_in_the_return_has_to_break_the_voltage_too(plan_of):
    """ISO 8820-3: blades are made for 32 V; the rail is 48 V."""
    told = plan_of(HIGH | {"boards.quay.port_fuse": "blade"}).finding("fuse-voltage")
    assert (told.level, "F1C" in told.message) == (Level.MUST, True)
    stated = HIGH | {"boards.quay.port_fuse": "blade", "boards.quay.port_fuse_voltage": "58 V"}
    assert "fuse-voltage" not in plan_of(stated).codes


def test_cartridge_in_the_return_asks_for_its_dc_rating(plan_of):
    """IEC 60127-2: 250 V AC is printed on them."""
    assert plan_of({"boards.quay.port_fuse": "5 x 20 mm"}).finding("fuse-voltage").level is Level.SHOULD


@pytest.mark.parametrize(("holder", "drop_V"), [("blade", 0.1), ("5 x 20 mm", 0.2)])
def test_fuse_in_the_return_loses_its_own_voltage(plan_of, holder, drop_V):
    """This project's estimate of what such a fuse drops at its rating: 0.1 V of a blade, 0.2 V of a cartridge."""
    plain, more = plan_of({}).toy, plan_of({"boards.quay.port_fuse": holder}).toy
    ohm = drop_V / float(inside_rating(more))
    assert more.sized.wire.size == plain.sized.wire.size
    assert more.sized.wire.drop_V - plain.sized.wire.drop_V == pytest.approx(2.0 * ohm)
    assert asked(more.worked, "fault.prospective") < asked(plain.worked, "fault.prospective")


def inside_rating(toy):
    return next(part for part in toy.sized.circuit.parts if part.id == "F1C").value.replace("\u00a0", " ").split()[0]


def test_meter_shows_less_behind_a_fuse_in_the_return(plan_of):
    """The reading while it runs counts every fuse of the loop."""
    on_off = {"toys.bump.control": {"type": "on/off port", "board": "quay", "port": "2"}}
    plain, more = (
        next(one for one in plan_of(on_off | changes).toy.readings if one.what == "Voltage at the toy while it runs")
        for changes in ({}, {"boards.quay.port_fuse": "blade"})
    )
    assert more.low < plain.low
    assert more.high < plain.high


def test_fuse_in_the_return_of_a_coil_is_not_in_the_loop_of_the_load(relayed):
    """The coil's 0.08 A flow through it, the load's 2 A do not."""
    plain, more = relayed({}), relayed({}, {"boards.quay.port_fuse": "blade"})
    assert inside_rating(more.toy) == "1"
    assert more.toy.sized.wire.drop_V == pytest.approx(plain.toy.sized.wire.drop_V)


# ---- two supplies at one board ---------------------------------------------------------------------------------------

SECOND = {"voltage": "12 V", "current": "20 A", "overload": "limits"}
TWO = {"supplies.high": SECOND, "boards.quay": {"supply": "main", "common_return": ["main", "high"],
                                                "return": {"run": "2 m"}}}  # fmt: skip


@pytest.fixture(name="two", scope="module")
def _two(plan_of, small_build):
    """2 A on the board's own supply, 6 A on the second one, both switched by the board."""
    bump = small_build["toys"]["bump"]
    far = bump | {"supply": "high", "current": "6 A (measured)", "control": bump["control"] | {"port": "3"}}
    return plan_of(TWO | {"toys.bump": bump | {"supply": "main"}, "toys.far": far})


def test_board_has_a_lead_to_the_0_v_of_each_supply(two):
    """Kirchhoff: what leaves a supply at its plus comes back to its 0 V; each lead has the guards of its own toys."""
    home, other = two.plan.boards["quay"].wires
    assert [(one.start, one.end) for one in (home, other)] == [("A1:0V", "T1:0V"), ("A1:0V", "T2:0V")]
    assert (home.carries_A, other.carries_A) == (pytest.approx(2.0), pytest.approx(6.0))
    assert (home.protected_by, other.protected_by) == ("F1", "F2")
    assert two.plan.boards["quay"].load_A == pytest.approx(8.0)


def test_lead_to_the_second_supply_is_sized_for_its_own_fuses(two):
    """6 A x 1.5 = 9 A: a 10 A blade; 1 mm2 carries 10.1 A, 0.75 mm2 8.5 A (IEC 60204-1 table 6, from memory)."""
    board = two.plan.boards["quay"]
    assert asked(board.worked, "return.quay.needed") == pytest.approx(3.0)
    assert asked(board.worked, "return.quay.high.needed") == pytest.approx(10.0)
    assert [wire.size.replace("\u00a0", " ") for wire in board.wires] == ["0.75 mm²", "1 mm²"]
    assert [wire.length_m for wire in board.wires] == [2.0, 2.0]


def test_toy_of_the_second_supply_loses_voltage_in_that_lead(two, plan_of):
    """Its own loop has the run of 2 m; a longer one loses more."""
    far = two.plan.toys["far"]
    lead = two.plan.boards["quay"].wires[1]
    assert far.sized.circuit.main[-2:] == (lead.id, "T2")
    runs = [one.name for one in far.worked if one.id.startswith("drop.run.")]
    assert any(lead.id in name for name in runs)
    assert any(lead.id in step.text for step in far.steps if step.stage == "wire")


def test_wire_of_each_lead_is_needed_and_the_pages_name_both(two):
    """In the build's list of parts, in the document, and where the two supplies are said to meet."""
    leads = [wire.id for wire in two.plan.boards["quay"].wires]
    needed = " ".join(need.used_for for need in two.plan.needs)
    assert all(id in needed for id in leads)
    assert [wire["id"] for wire in plan_json(two.plan)["boards"]["quay"]["wires"]] == leads
    assert any(all(id in note for id in leads) for note in two.plan.toys["far"].wiring_notes)
    assert "each by a lead of its own" in " ".join(two.plan.supplies["high"].budget.shared)


def test_lead_that_is_too_thin_for_the_second_supply_is_told(plan_of, small_build):
    """0.75 mm2 carries 8.5 A; the 10 A fuse of its toy lets more pass."""
    far = small_build["toys"]["bump"] | {"supply": "high", "current": "6 A (measured)"}
    case = plan_of(TWO | {"toys.bump": far, "boards.quay.return.wire": "0.75 mm2"})
    assert "to T2" in case.finding("wire-too-thin").message


# ---- a coil beside the load ------------------------------------------------------------------------------------------


def test_fuse_carries_a_strong_coil_beside_a_weak_load(relayed):
    """0.25 A and 12 V across 12 ohm, 1 A: 1.25 A for ever is 1.67 A at three quarters; the margin asks for 0.375 A."""
    case = relayed({"coil_resistance": "12 ohm (datasheet)"}, {"toys.bump.current": "0.25 A (measured)"})
    fuse = case.toy.sized.fuse
    assert asked(case.toy.worked, "fuse.margin") == pytest.approx(0.375)
    assert fuse.needed_A == asked(case.toy.worked, "fuse.continuous") >= 1.25 / 0.75
    assert (fuse.governed_by, fuse.rating_A) == ("continuous", 2.0)
    told = next(one for one in case.toy.worked if one.id == "fuse.continuous")
    assert "1 A of the relay's coil" in told.sentence.replace("\u00a0", " ")
    assert case.plan.supplies["main"].wires[0].carries_A == pytest.approx(1.25)


def test_usual_coil_changes_no_fuse_but_what_the_lead_carries(relayed):
    """2 A and 0.08 A: the margin of the load, 3.0 A, covers both."""
    case = relayed({})
    assert case.toy.sized.fuse.needed_A == pytest.approx(3.0)
    assert case.toy.sized.fuse.governed_by == "margin"
    assert case.plan.supplies["main"].wires[0].carries_A == pytest.approx(2.08)


# ---- a short circuit -------------------------------------------------------------------------------------------------


def test_short_circuit_on_the_page_is_the_one_that_decides(plan_of):
    """One figure: the loop at its worst gives the current that has to open the fuse."""
    toy = plan_of({"supplies.main": {"current": "200 A", "overload": "limits"}}).toy
    assert toy.protection.fault_A < 200
    assert asked(toy.worked, "fault.prospective") == pytest.approx(toy.protection.fault_A)
    assert asked(toy.worked, "fault.current") == pytest.approx(toy.protection.fault_A)


@pytest.mark.parametrize("holder", ["blade", "5 x 20 mm UL", "6.3 x 32 mm UL"])
def test_wire_that_is_proposed_is_enough_at_once(any_toy, holder):
    """With the fault current and the fuse that it has itself: a bell of 18.8 A at 4 V in a hot cabinet."""
    hot = {
        "wiring": {"inside_temperature": "65 °C", "fuse_margin": "2.00"},
        "supplies.main": {"voltage": "4 V", "current": "54 A", "overload": "limits"},
        "toys.bump": {"voltage": "4 V", "current": "15 A to 18.8 A"},
        "toys.bump.feed": {"run": "0.3 m", "fuse": {"holder": holder}},
    }
    thin = any_toy("bell", "always on", hot | {"toys.bump.feed.wire": "1.5 mm2"})
    for finding in thin.toy.findings:
        size = re.match(r"Take ([0-9.]+) mm² or thicker", finding.mend.replace("\u00a0", " "))
        if size:
            again = any_toy("bell", "always on", hot | {"toys.bump.feed.wire": f"{size[1]} mm2"})
            assert finding.code not in {one.code for one in again.toy.findings}


@pytest.mark.parametrize(("rating", "told"), [("0.8 A", True), ("1 A", False)])
def test_drop_of_a_cartridge_below_one_ampere_says_that_it_is_not_covered(plan_of, rating, told):
    """0.2 V at the rating is common practice from 1 A up (no source); no table here has smaller ones."""
    fuse = {"holder": "5 x 20 mm", "rating": rating, "dc_voltage": "60 V"}
    case = plan_of({"toys.bump.current": "0.5 A (measured)", "toys.bump.feed.fuse": fuse})
    shown = next(one for one in case.toy.worked if one.id == "fuse.resistance")
    assert ("smaller cartridge" in shown.sentence) == told
