"""A relay between port and load: what its contact stands, what its coil asks of the port, how it lets go."""

import math

import pytest
import yaml

from guide_gen.description.read import read_text
from guide_gen.model.circuit import SHARED_ROLES
from guide_gen.planning.as_json import plan_json

RELAY = {
    "coil_voltage": "12 V",
    "coil_resistance": "150 ohm (datasheet)",
    "contact_current": "10 A",
    "contact_voltage": "30 V",
}


@pytest.fixture(name="relayed", scope="module")
def _relayed(plan_of):
    """The small build's toy behind a relay, with changes of the relay and of the build."""

    def make(relay=None, changes=None):
        control = {"type": "relay", "board": "quay", "port": "2", "relay": RELAY | (relay or {})}
        return plan_of({"toys.bump.control": control} | (changes or {}))

    return make


def texts(toy, stage):
    return [step.text for step in toy.steps if step.stage == stage]


def said(finding):
    return finding.message.replace("\u00a0", " "), finding.mend.replace("\u00a0", " ")


# ---- the circuit ----------------------------------------------------------------------------------------------------


def test_load_current_flows_through_the_contact_and_never_through_the_port(relayed):
    """Plus through fuse and contact to the toy, back to 0 V; the coil behind the same fuse, to the port."""
    circuit = relayed().toy.sized.circuit
    assert circuit.main == ("T1", "W1", "F1", "W11", "K1B", "W13", "M1", "W12", "T1")
    assert circuit.control == ("T1", "W1", "F1", "W14", "K1B", "W15", "A1", "W2", "T1")
    assert (circuit.wire("W11").end, circuit.wire("W13").start) == ("K1B:11", "K1B:14")
    assert (circuit.wire("W14").start, circuit.wire("W15").end) == ("F1:2", "A1:P2")


def test_port_carries_the_coil_alone(relayed):
    """Ohm's law: 12 V across 150 ohm; the lowest resistance of a range counts."""
    assert relayed().toy.sized.port.load_A == pytest.approx(12 / 150)
    ranged = relayed({"coil_resistance": "120 ohm to 180 ohm (datasheet)"})
    assert ranged.toy.sized.port.load_A == pytest.approx(12 / 120)
    assert ranged.plan.boards["quay"].load_A == pytest.approx(0.1)


def test_load_too_large_for_the_port_is_right_behind_a_relay(relayed, plan_of):
    """9 A on a port for 10 A, of which 8 A may be used for long; the coil asks for almost nothing."""
    current = {"toys.bump.current": "9 A (measured)"}
    assert "port-overloaded" in plan_of(current).codes
    assert not {"port-overloaded", "fuse-above-port"} & set(relayed(changes=current).codes)


def test_coil_too_strong_for_the_port_is_told(relayed):
    """12 V across 1.5 ohm is 8 A, what the port may carry for long; 1.49 ohm is more."""
    assert "port-overloaded" not in relayed({"coil_resistance": "1.5 ohm (measured)"}).codes
    assert "port-overloaded" in relayed({"coil_resistance": "1.49 ohm (measured)"}).codes


def test_coil_has_a_diode_of_its_own_with_its_band_at_a1(relayed):
    """Beside the load's own; both in circuit, steps and parts."""
    toy = relayed().toy
    joints = {frozenset(joint) for joint in toy.sized.circuit.joints}
    assert {frozenset({"D1B:K", "K1B:A1"}), frozenset({"D1B:A", "K1B:A2"})} <= joints
    assert {frozenset({"D1:K", "M1:1"}), frozenset({"D1:A", "M1:2"})} <= joints
    assert any("D1B" in text and "band to K1B:A1" in text for text in texts(toy, "wire"))
    assert {"K1B", "D1B", "D1"} <= {need.used_for for need in toy.needs}


def test_coil_wires_are_as_thick_as_their_fuse_asks_and_marked_as_signals(relayed):
    """They stand behind the feed's fuse, and carry the coil."""
    circuit = relayed(changes={"toys.bump.current": "4 A (measured)"}).toy.sized.circuit
    for name in ("W14", "W15"):
        wire = circuit.wire(name)
        assert (wire.protected_by, wire.colour, wire.size) == ("F1", "BU", "0.75 mm²")
        assert wire.carries_A == pytest.approx(0.08)


def test_drop_counts_the_run_behind_the_relay_and_its_contact(relayed):
    """Ohm's law: ten milliohms more in the contact cost 2 A times 10 mohm; a longer run costs more."""
    near = relayed({"contact_resistance": "10 mohm (datasheet)"}).toy.sized.wire
    worn = relayed({"contact_resistance": "20 mohm (datasheet)"}).toy.sized.wire
    far = relayed({"run": "1 m"}).toy.sized.wire
    assert worn.drop_V - near.drop_V == pytest.approx(0.02)
    assert far.drop_V > near.drop_V


def test_port_fuse_does_not_protect_the_feed(relayed):
    """Without a fuse at the source the port's carries only the coil."""
    bare = relayed(changes={"toys.bump.feed.fuse": "none", "boards.quay.port_fuse": "5 x 20 mm"})
    message, _ = said(bare.finding("fuse-misses-the-motor"))
    assert "80 mA of the relay's coil" in message


# ---- a fuse of the coil's own ---------------------------------------------------------------------------------------


def own_fuse(case):
    """Rating of the coil's own fuse; None where it has none."""
    fuse = case.toy.sized.signal_fuse
    return fuse and fuse.rating_A


def drawing(amperes):
    return {"toys.bump.current": f"{amperes} A (measured)"}


def test_coil_gets_its_own_fuse_where_the_thinnest_wire_may_not_stand_behind_the_load_s(relayed):
    """IEC 60204-1: 0.75 mm2 carries 8.5 A at 40 °C. 5 A x 1.5 is 7.5 A; a hair more asks for 10 A."""
    just, past = relayed(changes=drawing(5)).toy.sized, relayed(changes=drawing(5.01)).toy.sized
    assert (just.fuse.rating_A, just.signal_fuse) == (7.5, None)
    assert past.signal_fuse is not None
    assert (past.signal_fuse.id, past.signal_fuse.rating_A) == ("F1B", 1.0)
    assert past.signal_fuse.needed_A == pytest.approx(1.5 * 0.08)


def test_load_s_fuse_then_counts_the_load_alone(relayed):
    """1.5 x 5.01 A = 7.515 A; with the 1 A of the coil three quarters would ask for 6.01 A / 0.75 = 8.01 A or more."""
    fuse = relayed({"coil_resistance": "12 ohm (datasheet)"}, drawing(5.01)).toy.sized.fuse
    assert (fuse.needed_A, fuse.governed_by) == (pytest.approx(7.515), "margin")


def test_coil_gets_its_own_fuse_where_the_load_s_is_larger_than_the_port_stands(relayed):
    """A load of 3 A has 5 A; a port for 5 A stands that, one for 4.9 A does not."""
    calm = relayed(changes=drawing(3) | {"boards.quay.port_current": "5 A"})
    weak = relayed(changes=drawing(3) | {"boards.quay.port_current": "4.9 A"})
    assert (own_fuse(calm), own_fuse(weak)) == (None, 1.0)
    assert "fuse-above-port" not in {*calm.codes, *weak.codes}


def test_coil_gets_its_own_fuse_where_a_long_run_keeps_its_short_circuit_small(relayed):
    """ISO 8820-3: 7.5 A opens within 5 s from twice its rating on. Ohm's law: 11.4 V / 15 A is 0.76 ohm, and 0.75 mm2
    has 26 mohm a metre cold (IEC 60228), there and back: about 13 m one way."""
    assert own_fuse(relayed(changes=drawing(4.9) | {"toys.bump.feed.run": "9 m"})) is None
    assert own_fuse(relayed(changes=drawing(4.9) | {"toys.bump.feed.run": "14 m"})) == 1.0


def test_coil_stays_behind_the_load_s_fuse_where_its_own_would_be_no_smaller(relayed):
    """12 V across 2 ohm, 6 A x 1.5 = 9 A: 10 A alone, and 10 A with a load of 0.05 A."""
    assert own_fuse(relayed({"coil_resistance": "2 ohm (measured)"}, drawing(0.05))) is None
    assert own_fuse(relayed({"coil_resistance": "2 ohm (measured)"}, drawing(2))) == 10.0


def test_own_fuse_that_is_larger_than_the_port_stands_is_told(relayed):
    """The smallest blade fuse is 1 A, ISO 8820-3: a port for 0.9 A is destroyed before it opens."""
    case = relayed(changes=drawing(6) | {"boards.quay.port_current": "0.9 A"})
    message, mend = said(case.finding("fuse-above-port"))
    assert message.startswith("F1B is 1 A")
    assert "1 A or more" in mend
    assert "fuse-above-port" not in relayed(changes=drawing(6) | {"boards.quay.port_current": "1 A"}).codes


def test_current_of_the_coil_leaves_before_the_load_s_fuse(relayed):
    """Both fuses take their plus at one place; behind its own the coil's leads and the board's 0 V lead are thin."""
    case = relayed(changes=drawing(20) | {"supplies.main.current": "60 A"})
    circuit = case.toy.sized.circuit
    assert circuit.control == ("T1", "W1", "F1B", "W14", "K1B", "W15", "A1", "W2", "T1")
    assert frozenset({"F1:1", "F1B:1"}) in {frozenset(joint) for joint in circuit.joints}
    assert (circuit.wire("W1").end, circuit.wire("W14").start) == ("F1:1", "F1B:2")
    thin = [circuit.wire(name) for name in ("W14", "W15", "W2")]
    assert {wire.size for wire in thin} == {"0.75 mm²"}
    assert all("F1B" in wire.protected_by for wire in thin)
    assert circuit.wire("W1").carries_A == pytest.approx(20.08)


def test_fuse_of_the_coil_sits_at_the_block_of_its_toy(relayed):
    """And takes a position there; the block's fuse carries load and coil."""
    row = {"blocks": {"galley": {"feed": {"run": "1 m"}}}, "toys.bump.feed.from": "galley"}
    case = relayed(changes=drawing(6) | row)
    joints = {frozenset(joint) for joint in case.toy.sized.circuit.joints}
    assert {frozenset({"X1:+", "F1:1"}), frozenset({"F1:1", "F1B:1"})} <= joints
    assert case.toy.sized.signal_fuse.at == case.toy.sized.fuse.at == "block plus"
    assert any("2 fused positions" in need.value for need in case.plan.needs)
    assert case.plan.blocks["galley"].load.design_current_A == pytest.approx(6.08)
    assert any("F1 and F1B sit" in text for text in texts(case.toy, "wire"))


def test_every_step_that_fits_or_checks_a_fuse_names_that_of_the_coil(relayed):
    """Holder, dead check, first power and the last hold; spares of both."""
    toy = relayed(changes=drawing(6)).toy
    steps = {step.id: step for step in toy.steps}
    for id in ("toy.wire.holder", "toy.dead.tug", "toy.dead.short", "toy.first.fuse", "toy.closing.fuse"):
        assert "F1B" in steps[id].text, id
    assert "F1B:2" in steps["toy.dead.short"].record.between
    fuses = [(need.what, need.count) for need in toy.needs if need.used_for == "F1B"]
    assert fuses == [("Fuse holder", "1"), ("Fuse", "2")]
    assert "F1 and F1B" in toy.disposal


def test_page_says_what_the_fuse_of_the_coil_does(relayed):
    """Strip of values, circuit in words, protection, look-up table, troubles, JSON."""
    case = relayed(changes=drawing(6))
    toy = case.toy
    assert [value.label for value in toy.values if value.label.startswith("Fuse")] == ["Fuse F1", "Fuse F1B"]
    assert "F1B of its own" in toy.words.sentence
    assert any(text.startswith("F1B") for text in toy.protection.says)
    assert toy.lookup.note.startswith("F1B")
    assert {trouble.cause.partition(" is open")[0] for trouble in toy.troubles} >= {"F1", "F1B"}
    told = plan_json(case.plan)["toys"]["bump"]
    assert (told["signal_fuse"]["id"], told["signal_fuse"]["rating_A"]) == ("F1B", 1.0)
    assert "signal_fuse" not in plan_json(relayed().plan)["toys"]["bump"]


def test_short_circuit_of_the_coil_opens_its_own_fuse(relayed):
    """A blade fuse of 1 A has opened within 5 s from 2 A on, ISO 8820-3; so little flows in no lead of 0.5 m."""
    toy = relayed(changes=drawing(6)).toy
    said_of = next(text for text in toy.protection.says if text.startswith("F1B"))
    assert "W14 and W15" in said_of
    assert "has opened within" in said_of


def test_short_circuit_of_a_coil_that_opens_no_fuse_is_told(relayed):
    """10 A for a coil of 6 A, which 1 mm2 may stand behind; 20 A open it. Ohm's law: 11.4 V / 20 A is 0.57 ohm, and
    1 mm2 has 19.5 mohm a metre cold (IEC 60228): 14 m one way. It carries 10.1 A for ever, what flows at the end of
    29 m. The load's wire is stated thicker: there it opens."""
    strong = {"coil_resistance": "2 ohm (measured)"}
    changes = drawing(0.05) | {"supplies.main.current": "60 A", "toys.bump.feed.wire": "4 mm2"}
    case = relayed(strong, changes | {"toys.bump.feed.run": "29 m"})
    finding = case.finding("fuse-cannot-open")
    message, mend = said(finding)
    assert "A short circuit at the relay's coil of Bump" in message
    assert mend.startswith("Shorten the run to")
    assert case.above(finding)[-2:] == ["feed", "run"]
    assert "fuse-cannot-open" not in relayed(strong, changes | {"toys.bump.feed.run": "5 m"}).codes


def test_leads_of_a_coil_that_would_burn_before_its_fuse_opens_are_thicker(relayed):
    """At the end of 20 m of 1 mm2 some 13 A flow, more than the 10.1 A that it carries and less than opens 10 A."""
    strong = {"coil_resistance": "2 ohm (measured)"}
    changes = drawing(0.05) | {"supplies.main.current": "60 A", "toys.bump.feed.wire": "4 mm2"}
    cases = [relayed(strong, changes | {"toys.bump.feed.run": run}) for run in ("5 m", "20 m")]
    circuits = [case.toy.sized.circuit for case in cases]
    own = [[wire for wire in one.wires if wire.id in one.control and wire.role not in SHARED_ROLES] for one in circuits]
    sizes = [{wire.size for wire in wires} for wires in own]
    assert "fuse-cannot-open" not in cases[1].codes
    assert sizes == [{"1 mm²"}, {"2.5 mm²"}]


def test_stated_rating_that_is_too_large_gives_the_coil_its_own_fuse(relayed):
    """What was stated for the load protects no coil."""
    stated = {"toys.bump.feed.fuse": {"holder": "blade", "rating": "15 A"}, "toys.bump.feed.wire": "2.5 mm2"}
    sized = relayed(changes=stated).toy.sized
    assert (sized.fuse.rating_A, sized.signal_fuse.rating_A, sized.signal_fuse.stated) == (15.0, 1.0, False)


# ---- what it must stand ---------------------------------------------------------------------------------------------


def test_contact_carries_just_its_dc_current(relayed):
    """2 A through a contact for 2 A, then for 1.9 A."""
    assert "contacts-rating" not in relayed({"contact_current": "2 A"}).codes
    finding = relayed({"contact_current": "1.9 A"}).finding("contacts-rating")
    message, mend = said(finding)
    assert "1.9 A" in message
    assert "2 A" in mend
    assert finding.level == "must fix"


def test_contact_stands_the_highest_voltage_of_the_supply(relayed):
    """12 V, up to 14 V by its trimmer: 14 V is enough, 13.9 V is not."""
    reach = {"supplies.main.voltage_range": "11 V to 13.5 V"}
    assert "contacts-rating" not in relayed({"contact_voltage": "13.5 V"}, reach).codes
    case = relayed({"contact_voltage": "13.4 V"}, reach)
    assert "contact_voltage: 13.4 V" in case.above(case.finding("contacts-rating"))[-1] + ": 13.4 V"
    assert "13.5 V" in said(case.finding("contacts-rating"))[0]


def test_coil_is_made_for_its_supply(relayed):
    """A tenth each way."""
    assert "voltage-mismatch" not in relayed({"coil_voltage": "13.2 V"}).codes
    assert "voltage-mismatch" in relayed({"coil_voltage": "13.3 V"}).codes
    assert "voltage-mismatch" in relayed({"coil_voltage": "10.7 V"}).codes


@pytest.mark.parametrize("stated", ["none", "not needed", "in the controller"])
def test_coil_without_a_suppressor_destroys_the_port(relayed, stated):
    """It kicks back like any coil."""
    case = relayed({"suppressor": stated})
    assert case.at(case.finding("suppressor-missing")).startswith(stated)


def test_suppressor_of_the_board_is_enough_for_the_coil(relayed):
    """Then there is no diode to fit."""
    toy = relayed({"suppressor": "on the board"})
    assert "suppressor-missing" not in toy.codes
    assert "D1B" not in {part.id for part in toy.toy.sized.circuit.parts}


def test_stated_diode_of_the_coil_stands_twice_the_supply(relayed):
    """Common practice, no source: 2 x 12.6 V = 25.2 V."""

    def coil_diode(volts):
        return {"suppressor": {"type": "diode", "reverse_voltage": f"{volts} V"}}

    assert "suppressor-too-small" not in relayed(coil_diode(25.2)).codes
    message, _ = said(relayed(coil_diode(25.1)).finding("suppressor-too-small"))
    assert "the relay of Bump" in message


def test_coil_with_diode_and_zener_is_two_parts_in_series(relayed):
    """The zener's band to minus."""
    circuit = relayed({"suppressor": "diode and zener", "coil_inductance": "0.3 H (datasheet)"}).toy.sized.circuit
    joints = {frozenset(joint) for joint in circuit.joints}
    assert frozenset({"D1BZ:K", "K1B:A2"}) in joints
    assert frozenset({"D1B:A", "D1BZ:A"}) in joints


# ---- how fast it lets go --------------------------------------------------------------------------------------------


def decay_s(inductance_H, resistance_ohm, start_A, release_A, clamp_V):
    """L di/dt = -R i - V, solved by any text on RL circuits."""
    return (
        inductance_H
        / resistance_ohm
        * math.log((start_A + clamp_V / resistance_ohm) / (release_A + clamp_V / resistance_ohm))
    )


def test_release_is_worked_out_with_a_plain_diode_and_with_a_zener(relayed):
    """0.3 H, 150 ohm, 80 mA down to 8 mA; a diode of 0.7 V, a zener of twice the supply."""
    worked = {one.id: one.result for one in relayed({"coil_inductance": "300 mH (datasheet)"}).toy.worked}
    assert worked["coil.suppressor.release"] == pytest.approx(decay_s(0.3, 150, 0.08, 0.008, 0.7), rel=1e-6)
    assert worked["relay.release.zener"] == pytest.approx(decay_s(0.3, 150, 0.08, 0.008, 24.7), rel=1e-6)
    assert worked["relay.release.zener"] < worked["coil.suppressor.release"] / 3
    fast = relayed({"coil_inductance": "300 mH (datasheet)", "suppressor": "diode and zener"})
    other = {one.id: one.result for one in fast.toy.worked}
    assert other["relay.release.diode"] == pytest.approx(decay_s(0.3, 150, 0.08, 0.008, 0.7), rel=1e-6)


def test_slow_release_is_told_just_above_ten_milliseconds(relayed):
    """The inductance at which a diode of 0.7 V takes 10 ms, a hair below and above."""
    edge_H = 0.010 / decay_s(1.0, 150, 0.08, 0.008, 0.7)
    calm = relayed({"coil_inductance": f"{990 * edge_H:.4f} mH (datasheet)"})
    slow = relayed({"coil_inductance": f"{1010 * edge_H:.4f} mH (datasheet)"})
    assert "suppressor-too-slow" not in calm.codes
    assert slow.finding("suppressor-too-slow").level == "should fix"
    assert "diode and zener" in slow.finding("suppressor-too-slow").mend


def test_diode_and_zener_mends_a_slow_release(relayed):
    """As the finding proposes."""
    assert (
        "suppressor-too-slow"
        not in relayed({"coil_inductance": "1500 mH (datasheet)", "suppressor": "diode and zener"}).codes
    )


def test_release_is_left_out_while_the_inductance_is_not_known(relayed):
    """Nothing is guessed."""
    assert not any(one.id.startswith("relay.release") for one in relayed().toy.worked)


# ---- what its page says ---------------------------------------------------------------------------------------------


def test_coil_is_measured_before_its_wire_to_the_port_is_fixed(relayed):
    """15 % each way of 150 ohm."""
    reading = next(one for one in relayed().toy.readings if "relay's coil" in one.what)
    assert (reading.low, reading.high) == pytest.approx((127.5, 172.5))


def test_inductive_load_and_the_dc_rating_are_spoken_of(relayed):
    """An AC figure never counts; a winding keeps the arc alive."""
    notes = " ".join(relayed().toy.wiring_notes)
    assert "AC rating never counts" in notes
    assert "A winding keeps an arc alive" in notes


def test_start_above_the_contact_is_spoken_of(relayed):
    """A motor of 0.5 ohm takes 24 A for a moment, the contact may switch 10 A."""
    motor = {"toys.bump.motor": {"resistance": "0.5 ohm (measured)"}}
    assert any("may weld" in note for note in relayed(changes=motor).toy.wiring_notes)
    assert not any("may weld" in note for note in relayed().toy.wiring_notes)


def test_port_is_plain_on_off(relayed):
    """PWM makes a relay chatter."""
    toy = relayed().toy
    assert toy.sized.port.set_to == "on/off"
    assert any("chatter" in step.more for step in toy.steps if step.stage == "settings")


def test_estimate_of_the_coil_is_named(relayed):
    """It decides what the port carries."""
    assert "the relay coil's resistance" in relayed({"coil_resistance": "150 ohm"}).finding("estimate-used").message
    assert "estimate-used" not in relayed().codes


def test_board_of_a_relay_is_looked_up_like_any_other(small_build):
    """A board that is described nowhere is a problem, and points at its name."""
    control = {"type": "relay", "board": "quey", "port": "2", "relay": RELAY}
    build = small_build | {"toys": {"bump": small_build["toys"]["bump"] | {"control": control}}}
    problems = read_text(yaml.safe_dump(build, allow_unicode=True), "content/builds/tidepool/build.yaml").problems
    assert [(one.code, one.path[-1]) for one in problems] == [("name-unknown", "board")]


def test_two_toys_never_share_a_port_with_a_relay(plan_of, small_build):
    """The coil takes the port as a load would."""
    control = {"type": "relay", "board": "quay", "port": "2", "relay": RELAY}
    other = {key: value for key, value in small_build["toys"]["bump"].items() if key not in ("control", "feed")}
    toys = {"bump": small_build["toys"]["bump"], "clack": other | {"control": control, "feed": {"run": "1 m"}}}
    assert "port-taken" in plan_of({}, small_build | {"toys": toys}).codes


def test_diode_of_the_coil_is_checked_before_it_is_fitted(relayed):
    """Across the coil no ohms range tells its direction: 1 mA x 150 ohm is 0.15 V, below what silicon conducts at.

    Common practice, no source: a meter's diode range shows 0.4 to 0.8 V of silicon, about 1 mA on its ohms range.
    """
    steps = {step.id: step for step in relayed().toy.steps}
    order = list(steps)
    assert order.index("relay.wire.diode") < order.index("relay.wire.suppressor") < order.index("relay.wire.coil")
    checked = steps["relay.wire.diode"].record
    assert (checked.low, checked.high, checked.unit) == (0.4, 0.8, "V")
    assert "does not show here" in steps["relay.wire.coil"].record.if_not
    without = {step.id for step in relayed({"suppressor": "on the board"}).toy.steps}
    assert "relay.wire.diode" not in without
