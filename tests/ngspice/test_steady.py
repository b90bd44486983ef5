"""Toys that are on, off or shorted: netlists from their own circuit data against the figures of their plans.

Currents and drops within 0.1 %, and no more besides than what a relay's coil or a controller's input loses in the lead
and fuse that it shares with the load: the plan's drop does not count that current.
"""

from dataclasses import replace

import pytest

from guide_gen.controls import controls
from guide_gen.formulas import led
from guide_gen.planning.sizing import sizing
from guide_gen.toys import kinds

NEAR = 1e-3
OFF_S, STOP_S = 5e-4, 1e-3
WORST_CONTACT_OHM = 0.005  # of each end of a run; common practice, no source: an estimate
OPEN_V = 10.0  # what the meter shows of an open circuit

DEMOS = [
    "night-ferry/bow-shaker",
    "night-ferry/vent",
    "night-ferry/hull-knock",
    "night-ferry/deck-bell",
    "night-ferry/bulkhead",
    "night-ferry/lighthouse",
    "night-ferry/pilot-lights",
    "salt-shed/keel-shaker",
    "salt-shed/masthead-light",
    "pilot-cutter/gale",  # behind a distribution block
    "pilot-cutter/chart-light",
]
LEDS = "night-ferry/pilot-lights"
SEVERAL = [name for name in DEMOS if name != LEDS]
WITHOUT_DIAL = [
    "night-ferry/vent",
    "night-ferry/bulkhead",
    "night-ferry/pilot-lights",
    "salt-shed/masthead-light",
]


@pytest.fixture(scope="session")
def bench_of(of_circuit):
    """A bench for a toy at its supply's middle voltage, its windings without inductance so that all is steady."""

    def make(toy, **changes):
        load = replace(of_circuit.load_of(toy), henry=0.0)
        coil = of_circuit.RelayCoil(of_circuit.Winding(150.0), 0.05, 0.01)
        bench = of_circuit.Bench(toy.sized.supply_V, load, of_circuit.Opening(OFF_S), coil=coil)
        return replace(bench, **changes)

    return make


@pytest.fixture
def toy_is_right(simulated, of_circuit, bench_of):
    """Assert that a toy runs while it is on, stops when it is off, and loses what its plan says; by its circuit."""

    def look(toy, circuit=None):
        load, plus, minus = toy.sized.ids["load"], toy.sized.toy_plus, toy.sized.toy_minus
        bench, loop, lead = bench_of(toy), of_circuit.loop_ohm(toy), of_circuit.run_of(toy, "supply lead")
        found = simulated(
            toy,
            bench,
            STOP_S,
            {
                "on": f"find i(V{load}) at=4e-4",
                "off": f"find i(V{load}) at=9e-4",
                "supply": f"find i(V{lead}) at=4e-4",
            },
            circuit=circuit,
            from_rest=True,
        )
        expected = (toy.sized.supply_V - bench.load.emf_V) / (bench.load.ohm + loop)
        beside = found["supply"] - found["on"]
        assert -1e-6 < beside < 0.1
        lost_V = beside * loop
        assert found["on"] <= (1 + NEAR) * expected
        assert found["on"] >= (1 - NEAR) * expected - lost_V / bench.load.ohm
        off = expected if toy.sized.control == "always on" else 0
        assert found["off"] == pytest.approx(off, rel=NEAR, abs=1e-6)
        sink = bench_of(toy, load=of_circuit.Sink(toy.sized.load.design_current_A), drive=of_circuit.Opening())
        left = simulated(
            toy, sink, STOP_S, {"V": f"find par('v({plus})-v({minus})') at=4e-4"}, circuit=circuit, from_rest=True
        )
        drop = toy.sized.wire.drop_V
        assert (1 - NEAR) * drop - 2e-5 <= toy.sized.supply_V - left["V"] <= (1 + NEAR) * drop + 2e-5 + lost_V

    return look


@pytest.mark.parametrize("name", SEVERAL)
def test_current_and_drop_are_those_of_the_plan(toy_is_right, demo, name):
    toy_is_right(demo(name))


@pytest.mark.parametrize("control", controls())
@pytest.mark.parametrize("kind", kinds())
def test_every_kind_runs_and_stops_on_every_control(toy_is_right, any_toy, kind, control):
    toy_is_right(any_toy(kind, control).toy)


@pytest.mark.parametrize("control", controls())
def test_every_control_works_behind_a_distribution_block(toy_is_right, any_toy, control):
    changes = {"blocks": {"wharf": {"feed": {"run": "2 m"}}}, "toys.bump.feed.from": "wharf"}
    toy_is_right(any_toy("shaker motor", control, changes).toy)


# What is wrong in the data is seen


def _turned(name):
    """The part that has this name in `Sized.ids`, the wrong way round."""
    return lambda of, toy: of.turned(toy.sized.circuit, toy.sized.ids[name])


def _cut(role):
    return lambda of, toy: of.cut(toy.sized.circuit, of.run_of(toy, role))


def _moved(role, **ends):
    """A run with another end, length or size; its ends by the names in `Sized.ids` where they are not terminals."""

    def change(of, toy):
        known = toy.sized.ids | {"supply": toy.sized.supply_id, "relay": f"K{toy.sized.number}B"}
        at = {key: end.format(**known) if isinstance(end, str) else end for key, end in ends.items()}
        return of.moved(toy.sized.circuit, of.run_of(toy, role), **at)

    return change


def _input_turned(of, toy):
    box = toy.sized.ids["controller"]
    swapped = of.moved(toy.sized.circuit, of.run_of(toy, "input plus"), end=f"{box}:IN-")
    return of.moved(swapped, of.run_of(toy, "input return"), start=f"{box}:IN+")


SHAKER, RELAY, CONTROLLER = "night-ferry/bow-shaker", "salt-shed/masthead-light", "salt-shed/keel-shaker"
FAULTS = {
    "the diode the wrong way round": (SHAKER, _turned("diode")),
    "the diode before a zener the wrong way round": ("night-ferry/bulkhead", _turned("diode")),
    "the diode of a relay's coil the wrong way round": (RELAY, _turned("coil diode")),
    "no feed": ("night-ferry/vent", _cut("feed")),
    "no board return": ("night-ferry/vent", _cut("board return")),
    "a return past the switch": (SHAKER, _moved("return", end="{supply}:0V")),
    "a feed past the fuse": (SHAKER, _moved("feed", start="{fuse}:1")),
    "a run that is too long": (SHAKER, _moved("feed", length_m=3.6)),
    "a run of another size": (SHAKER, _moved("return", size="2.5 mm²")),
    "no plus for the controller's input": (CONTROLLER, _cut("input plus")),
    "the controller's input the wrong way round": (CONTROLLER, _input_turned),
    "a relay's coil past its port": (RELAY, _moved("coil return", end="{supply}:0V")),
    "the load at the relay's coil": (RELAY, _moved("relay to toy", start="{relay}:A2")),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_a_fault_in_the_circuit_data_is_seen(toy_is_right, of_circuit, demo, fault):
    name, change = FAULTS[fault]
    toy = demo(name)
    with pytest.raises(AssertionError):
        toy_is_right(toy, change(of_circuit, toy))


def test_a_diode_the_wrong_way_round_blows_the_fuse(simulated, of_circuit, bench_of, demo):
    toy = demo(SHAKER)
    circuit = _turned("diode")(of_circuit, toy)
    fuse, diode = toy.sized.fuse.id, toy.sized.ids["diode"]
    asked = {"fuse": f"find i(V{fuse}) at=4e-4", "diode": f"find i(V{diode}) at=4e-4"}
    right = simulated(toy, bench_of(toy), STOP_S, asked, from_rest=True)
    wrong = simulated(toy, bench_of(toy), STOP_S, asked, circuit=circuit, from_rest=True)
    assert right["fuse"] < toy.sized.fuse.rating_A
    assert right["diode"] == pytest.approx(0, abs=1e-6)
    assert wrong["fuse"] > 10 * toy.sized.fuse.rating_A


# What a meter shows


@pytest.mark.parametrize("end", ["low", "high"])
@pytest.mark.parametrize("name", WITHOUT_DIAL)
def test_a_meter_at_the_running_toy_shows_what_the_page_says(simulated, of_circuit, bench_of, demo, name, end):
    """The supply at either end, the contacts at their own: 5 and 1 milliohm."""
    toy = demo(name)
    reading = next(one for one in toy.readings if one.what == "Voltage at the toy while it runs")
    plus, minus = (word.split(" ")[0] for word in reading.between.split(" and "))
    volts, contact = {
        "low": (toy.sized.supply_low_V, 0.005),
        "high": (toy.sized.supply_high_V, 0.001),
    }[end]
    load = of_circuit.Leds(2, 3, 3.2, 0.020) if name == LEDS else of_circuit.load_of(toy)
    bench = bench_of(toy, supply_V=volts, load=load, drive=of_circuit.Opening(), contact_ohm=contact)
    found = simulated(toy, bench, STOP_S, {"meter": f"find par('v({plus})-v({minus})') at=4e-4"})
    assert reading.low - 1e-3 <= found["meter"] <= reading.high + 1e-3


@pytest.mark.parametrize("name", ["bow-shaker", "vent", "hull-knock", "deck-bell", "lighthouse"])
def test_a_meter_finds_the_diode_with_its_leads_as_the_page_says(simulated, of_circuit, bench_of, demo, name):
    """Toy unplugged, fuse out, a milliampere: the drop one way round, open the other."""
    toy = demo(f"night-ferry/{name}")
    reading = next(one for one in toy.readings if one.what.startswith("Forward voltage"))
    red, black = (word.split(" ")[0] for word in reading.between.split(" and "))
    drop_V = (reading.low + reading.high) / 2
    circuit = of_circuit.without(toy.sized.circuit, toy.sized.fuse.id)
    bench = bench_of(toy, supply_V=0.0, load=of_circuit.Sink(0.0), diode_V=drop_V, drive=of_circuit.Opening(1e-4))
    for leads, shown in (((red, black), drop_V), ((black, red), None)):
        found = simulated(
            toy,
            bench,
            STOP_S,
            {"V": f"find par('v({leads[0]})-v({leads[1]})') at=4e-4"},
            circuit=circuit,
            from_rest=True,
            meter=leads,
        )
        assert found["V"] == pytest.approx(shown or OPEN_V, rel=0.01)


@pytest.mark.parametrize("name", SEVERAL)
def test_a_short_circuit_at_the_toy(simulated, of_circuit, bench_of, demo, name):
    """The supply gives all that the loop lets pass, at its lowest voltage, its contacts at their worst."""
    toy = demo(name)
    bench = bench_of(
        toy,
        supply_V=toy.sized.supply_low_V,
        load=of_circuit.Winding(1e-7),
        drive=of_circuit.Opening(),
        contact_ohm=WORST_CONTACT_OHM,
    )
    load = toy.sized.ids["load"]
    found = simulated(toy, bench, STOP_S, {"fault": f"find i(V{load}) at=4e-4"}, from_rest=True)
    near = 5e-3 if toy.sized.control == "relay" else NEAR  # its coil draws through the same lead and fuse
    assert found["fault"] == pytest.approx(of_circuit.worked(toy, "fault.prospective").result, rel=near)


# A relay's coil behind a fuse of its own

OWN_FUSE = {
    "toys.bump.current": "6 A (measured)",
    "boards.quay.switch_resistance": "10 mohm (datasheet)",
    "toys.bump.feed.run": "2 m",
}


def test_a_coil_with_a_fuse_of_its_own_draws_nothing_through_the_load_s(simulated, of_circuit, bench_of, any_toy):
    toy = any_toy("lamp", "relay", OWN_FUSE).toy
    load = toy.sized.ids["load"]
    asked = {"load": f"find i(V{load}) at=4e-4", "fuse": "find i(VF1) at=4e-4", "own": "find i(VF1B) at=4e-4"}
    found = simulated(toy, bench_of(toy), STOP_S, asked, from_rest=True)
    assert found["load"] == pytest.approx(12 / (2 + of_circuit.loop_ohm(toy)), rel=NEAR)
    assert found["fuse"] == pytest.approx(found["load"], rel=1e-6)
    assert found["own"] == pytest.approx(12 / 150, rel=5e-3)


def test_without_its_own_fuse_the_coil_lets_go_and_without_the_load_s_it_still_clicks(
    simulated, of_circuit, bench_of, any_toy
):
    toy = any_toy("lamp", "relay", OWN_FUSE).toy
    asked = {"load": f"find i(V{toy.sized.ids['load']}) at=4e-4", "coil": "find i(VK1B) at=4e-4"}
    for fuse, load_A, coil_A in (("F1", 0.0, 12 / 150), ("F1B", 0.0, 0.0)):
        open_fuse = of_circuit.without(toy.sized.circuit, fuse)
        if fuse == "F1":  # its holder stays, and joins the lead to the coil's fuse
            open_fuse = of_circuit.moved(open_fuse, of_circuit.run_of(toy, "supply lead"), end="F1B:1")
        found = simulated(toy, bench_of(toy), STOP_S, asked, circuit=open_fuse, from_rest=True)
        assert found["load"] == pytest.approx(load_A, abs=1e-6)
        assert found["coil"] == pytest.approx(coil_A, rel=5e-3, abs=1e-6)


def test_a_short_circuit_of_the_coil_is_as_large_as_its_fuse_is_judged_by(simulated, of_circuit, bench_of, any_toy):
    """The loop of its own leads, its contacts at their worst; the load draws next to nothing meanwhile."""
    case = any_toy("lamp", "relay", OWN_FUSE)
    whole = sizing(case.description.build)
    signal = next(iter(whole.toys.values())).signal
    bench = bench_of(
        case.toy,
        supply_V=case.toy.sized.supply_low_V,
        load=of_circuit.Winding(1e6),
        drive=of_circuit.Opening(),
        coil=of_circuit.RelayCoil(of_circuit.Winding(1e-7), 0.05, 0.01),
        contact_ohm=WORST_CONTACT_OHM,
    )
    found = simulated(case.toy, bench, STOP_S, {"fault": "find i(VF1B) at=4e-4"}, from_rest=True)
    ohm = signal.loop.fault_ohm(whole.cabling, signal.wire.size, signal.fuse.resistance_ohm)
    assert found["fault"] == pytest.approx(signal.loop.low_V / ohm, rel=5e-3)


# LEDs


@pytest.fixture
def lit(simulated, of_circuit, bench_of, demo):
    """Current of the LEDs on and off, and the voltage across their resistors; forward_V: of one at 20 mA."""

    def run(toy, forward_V, supply_V, circuit=None):
        load, series = toy.sized.ids["load"], toy.sized.toy_plus.partition(":")[0]
        bench = bench_of(toy, load=of_circuit.Leds(2, 3, forward_V, 0.020), supply_V=supply_V)
        asked = {
            "on": f"find i(V{load}) at=4e-4",
            "off": f"find i(V{load}) at=9e-4",
            "V": f"find par('v({series}:1)-v({series}:2)') at=4e-4",
        }
        return simulated(toy, bench, STOP_S, asked, circuit=circuit)

    return run


def test_leds_behind_their_resistors_draw_what_was_measured(lit, demo):
    """LEDs of 3.2 V at 20 mA, as exponential diodes: two rows draw 38 to 42 mA at 12 V."""
    toy = demo(LEDS)
    found = lit(toy, 3.2, 12.0)
    assert toy.sized.load.lowest_current_A <= found["on"] <= toy.sized.load.design_current_A
    assert found["on"] == pytest.approx(2 * led.current_A(12, 3, 3.2, 120), rel=0.01)
    assert found["off"] == pytest.approx(0, abs=1e-6)


def test_leds_at_their_worst_end(lit, of_circuit, demo):
    """The highest supply and LEDs of 3.0 V at 20 mA: up to 3 % below the plan, whose LEDs keep that voltage."""
    toy = demo(LEDS)
    found = lit(toy, 3.0, toy.sized.supply_high_V)
    worst, heat = (of_circuit.worked(toy, id).result for id in ("led.worst", "led.heat"))
    assert 0.97 * worst <= found["on"] / 2 <= worst
    assert 0.94 * heat <= found["V"] * found["on"] / 2 <= heat


def test_leds_the_wrong_way_round_stay_dark(lit, of_circuit, demo):
    toy = demo(LEDS)
    load, series = toy.sized.ids["load"], toy.sized.toy_plus.partition(":")[0]
    joints = tuple(
        (one, f"{load}:2") if (one, other) == (f"{series}:2", f"{load}:1") else (one, other)
        for one, other in toy.sized.circuit.joints
    )
    assert joints != toy.sized.circuit.joints
    circuit = replace(toy.sized.circuit, joints=joints)
    circuit = of_circuit.moved(circuit, of_circuit.run_of(toy, "return"), start=f"{load}:1")
    assert lit(toy, 3.2, 12.0, circuit)["on"] == pytest.approx(0, abs=1e-6)
