"""Coils that are switched off: netlists from the circuit data of planned toys against the figures of their plans.

Release times and energies within 0.5 %, peaks within 0.2 %. The plan counts with the design current at the moment of
switching off and leaves out what the wires lose, so the supply is set to what drives that current.
"""

from dataclasses import replace

import pytest

from guide_gen.formulas import coil, kickback
from guide_gen.model.circuit import PartKind

RELEASE, PEAK = 5e-3, 2e-3
OFF_S = 1e-3
LEAST_SILICON_V, MOST_SILICON_V = 0.70, 1.00  # common practice, no source

CONTACTOR = {
    "boards.quay.port_voltage": "60 V",
    "supplies.main.voltage_range": "12 V to 12 V",
    "toys.bump.current": "0.25 A (measured)",
    "toys.bump.coil": {"resistance": "48 ohm (measured)", "inductance": "0.35 H (datasheet)"},
}
KNOCKER = {
    "boards.quay.port_voltage": "60 V",
    "supplies.main.voltage_range": "12 V to 12 V",
    "toys.bump.current": "3 A (measured)",
    "toys.bump.coil.resistance": "4.0 ohm (measured)",
    "toys.bump.coil.inductance": "12 mH to 30 mH (datasheet)",
}


RC_PORT = {"boards.quay.port_voltage": "250 V"}  # so that a film capacitor that is sold takes the kick


@pytest.fixture(scope="session")
def toy_of(demo, any_toy):
    """A toy with a coil on a port, by what lies across it."""

    def make(name: str):
        if "/" in name:
            return demo(name)
        kind, _, suppressor = name.partition(", ")
        changes = CONTACTOR if kind == "contactor" else KNOCKER
        stands = RC_PORT if suppressor == "rc" else {}
        return any_toy(kind, "on/off port", changes | stands | {"toys.bump.suppressor": suppressor}).toy

    return make


@pytest.fixture
def switched_off(simulated, of_circuit):
    """Switch a toy's own coil off: its peak at the switch, and when its current has fallen below its release."""

    def run(toy, *, diode_V, supply_V=None, circuit=None, avalanche_V=None, stop_s=0.06, measures=None):
        load = toy.sized.load
        winding = of_circuit.Winding(load.resistance_ohm[0], load.inductance_H[1])
        volts = supply_V or load.design_current_A * (winding.ohm + of_circuit.loop_ohm(toy))
        bench = of_circuit.Bench(volts, winding, of_circuit.Opening(OFF_S), diode_V, avalanche_V)
        switch, id = toy.sized.ids["switch"], toy.sized.ids["load"]
        asked = {
            "peak": f"max v({switch}:D)",
            "start": f"find i(V{id}) at={0.9 * OFF_S}",
            "released": f"when i(V{id})={load.release_A} fall=1",
        }
        found = simulated(toy, bench, OFF_S + stop_s, asked | (measures or {}), circuit=circuit, steps=6000)
        return found | {"released": found["released"] - OFF_S}

    return run


# With its suppressor


@pytest.mark.parametrize(
    "name",
    [
        "night-ferry/hull-knock",
        "night-ferry/bulkhead",
        "contactor, diode",
        "contactor, diode and zener",
        "contactor, rc",
        "knocker, diode and zener",
        "knocker, rc",
    ],
)
def test_a_coil_lets_go_when_the_plan_says(switched_off, toy_of, name):
    toy = toy_of(name)
    found = switched_off(toy, diode_V=LEAST_SILICON_V)
    assert found["start"] == pytest.approx(toy.sized.load.design_current_A, rel=1e-3)
    assert found["released"] == pytest.approx(toy.sized.suppression.release_s, rel=RELEASE)


@pytest.mark.parametrize("name", ["night-ferry/bulkhead", "contactor, diode and zener", "knocker, diode and zener"])
def test_a_zener_drives_the_switch_as_high_as_the_plan_says(switched_off, toy_of, name):
    toy = toy_of(name)
    found = switched_off(toy, diode_V=MOST_SILICON_V, supply_V=toy.sized.supply_high_V)
    assert found["peak"] == pytest.approx(toy.sized.suppression.peak_V, rel=PEAK)


def test_a_resistor_and_capacitor_drive_the_switch_as_high_as_the_plan_says(switched_off, toy_of):
    """Of a supply that cannot be set any higher."""
    toy = toy_of("contactor, rc")
    found = switched_off(toy, diode_V=MOST_SILICON_V, supply_V=toy.sized.supply_high_V)
    assert found["peak"] == pytest.approx(toy.sized.suppression.peak_V, rel=5e-3)
    assert found["peak"] < 0.8 * 250


def test_a_higher_supply_drives_a_resistor_and_capacitor_higher(switched_off, any_toy):
    """13.2 V drive a tenth more current through the coil than its own 12 V."""
    changes = CONTACTOR | RC_PORT | {"supplies.main.voltage_range": "12 V to 13.2 V", "toys.bump.suppressor": "rc"}
    toy = any_toy("contactor", "on/off port", changes).toy
    found = switched_off(toy, diode_V=MOST_SILICON_V, supply_V=toy.sized.supply_high_V)
    assert found["start"] == pytest.approx(1.1 * toy.sized.load.design_current_A, rel=1e-2)
    assert found["peak"] == pytest.approx(toy.sized.suppression.peak_V, rel=5e-3)


@pytest.mark.parametrize("name", ["night-ferry/hull-knock", "contactor, diode"])
def test_a_plain_diode_keeps_the_switch_a_drop_above_the_supply(switched_off, toy_of, name):
    toy = toy_of(name)
    high = toy.sized.supply_high_V
    found = switched_off(toy, diode_V=MOST_SILICON_V, supply_V=high)
    assert found["peak"] == pytest.approx(kickback.clamped_peak_V(high, MOST_SILICON_V), rel=PEAK)


def test_what_a_zener_takes(switched_off, of_circuit, demo):
    toy = demo("night-ferry/bulkhead")
    zener = toy.sized.ids["zener"]
    taken = {"taken": f"integ par('(v({zener}:K)-v({zener}:A))*i(V{zener}z)')"}
    found = switched_off(toy, diode_V=LEAST_SILICON_V, measures=taken)
    assert found["taken"] == pytest.approx(of_circuit.worked(toy, "suppressor.energy").result, rel=RELEASE)


# Without, and with one that is fitted wrongly


def _bare(of_circuit, toy):
    parts = [part.id for part in toy.sized.circuit.parts if part.what in (PartKind.DIODE, PartKind.ZENER)]
    return of_circuit.without(toy.sized.circuit, *parts)


@pytest.mark.parametrize("name", ["night-ferry/hull-knock", "night-ferry/bulkhead"])
def test_without_its_suppressor_the_switch_breaks_down(switched_off, of_circuit, toy_of, name):
    """A switch that avalanches at the 60 V of its port takes the coil's energy, and the supply's share too."""
    toy, avalanche_V = toy_of(name), 60.0
    switch, load = toy.sized.ids["switch"], toy.sized.load
    whole_ohm = load.resistance_ohm[0] + of_circuit.loop_ohm(toy)
    supply_V = load.design_current_A * whole_ohm
    found = switched_off(
        toy,
        diode_V=MOST_SILICON_V,
        circuit=_bare(of_circuit, toy),
        avalanche_V=avalanche_V,
        measures={"taken": f"integ par('(v({switch}:D)-v({switch}:S))*i(V{switch}a)')"},
    )
    case = load.inductance_H[1], whole_ohm, load.design_current_A
    over = avalanche_V - supply_V
    assert found["peak"] == pytest.approx(avalanche_V, rel=PEAK)
    assert found["released"] == pytest.approx(kickback.decay_time_s(*case, load.release_A, over), rel=RELEASE)
    assert found["taken"] == pytest.approx(kickback.clamp_energy_J(avalanche_V, over, *case), rel=RELEASE)
    assert found["taken"] > coil.stored_energy_J(load.inductance_H[1], load.design_current_A)


def test_without_a_suppressor_a_switch_that_never_breaks_down_sees_kilovolts(switched_off, of_circuit, demo):
    toy = demo("night-ferry/hull-knock")
    found = switched_off(toy, diode_V=MOST_SILICON_V, circuit=_bare(of_circuit, toy), stop_s=1e-4)
    assert found["peak"] > 1000


def test_a_zener_the_wrong_way_round_is_a_plain_diode_and_slow(switched_off, of_circuit, demo):
    toy = demo("night-ferry/bulkhead")
    circuit = of_circuit.turned(toy.sized.circuit, toy.sized.ids["zener"])
    found = switched_off(toy, diode_V=LEAST_SILICON_V, circuit=circuit)
    assert found["released"] > 4 * toy.sized.suppression.release_s
    assert found["peak"] < toy.sized.supply_high_V + 2


def test_a_diode_that_is_not_joined_takes_nothing(switched_off, of_circuit, demo):
    toy = demo("night-ferry/hull-knock")
    anode = f"{toy.sized.ids['diode']}:A"
    circuit = replace(toy.sized.circuit, joints=tuple(pair for pair in toy.sized.circuit.joints if anode not in pair))
    found = switched_off(toy, diode_V=LEAST_SILICON_V, circuit=circuit, avalanche_V=60.0)
    assert found["peak"] == pytest.approx(60.0, rel=PEAK)
    assert found["released"] < 0.3 * toy.sized.suppression.release_s


# A relay's coil


@pytest.mark.parametrize("suppressor", ["diode", "diode and zener"])
def test_a_relay_opens_its_contact_when_the_plan_says(simulated, of_circuit, any_toy, suppressor):
    """12 V, 150 ohm, 0.6 H; the contact follows the coil's current, and the small load on it stops."""
    changes = {
        "boards.quay.port_voltage": "60 V",
        "toys.bump.current": "0.2 A (measured)",
        "toys.bump.control.relay.coil_inductance": "0.6 H (datasheet)",
        "toys.bump.control.relay.suppressor": suppressor,
    }
    toy = any_toy("lamp", "relay", changes).toy
    release_A = 0.1 * 12 / 150
    relay = of_circuit.RelayCoil(of_circuit.Winding(150.0, 0.6), 0.056, release_A)
    load = of_circuit.load_of(toy)
    bench = of_circuit.Bench(12.0, load, of_circuit.Opening(OFF_S), LEAST_SILICON_V, coil=relay)
    asked = {
        "peak": "max v(Q1:D)",
        "opened": f"when i(VE1)={toy.sized.load.design_current_A / 2} fall=1",
        "released": f"when i(VK1B)={release_A} fall=1",
    }
    found = simulated(toy, bench, 0.03, asked, steps=6000)
    assert found["released"] - OFF_S == pytest.approx(toy.sized.coil.release_s, rel=RELEASE)
    assert found["opened"] == pytest.approx(found["released"], rel=1e-2)
    high = replace(bench, supply_V=toy.sized.supply_high_V, diode_V=MOST_SILICON_V)
    highest = kickback.clamped_peak_V(toy.sized.supply_high_V, MOST_SILICON_V)
    peak = simulated(toy, high, 0.03, {"peak": asked["peak"]}, steps=6000)["peak"]
    assert peak == pytest.approx(toy.sized.coil.peak_V or highest, rel=PEAK)


def test_a_relay_pulls_in_when_its_coil_has_its_current(simulated, of_circuit, demo):
    toy = demo("salt-shed/masthead-light")
    relay = of_circuit.RelayCoil(of_circuit.Winding(150.0, 0.6), 0.056, 0.008)
    # A drive that begins with the simulation.
    bench = of_circuit.Bench(12.0, of_circuit.load_of(toy), of_circuit.Chopped(10, 0.99), coil=relay)
    found = simulated(
        toy, bench, 0.02, {"closed": f"when i(V{toy.sized.ids['load']})=0.2 rise=1"}, from_rest=True, steps=4000
    )
    assert found["closed"] == pytest.approx(coil.time_to_current_s(12.0, 150.0, 0.6, 0.056), rel=RELEASE)


# The formulas at their own ends


@pytest.mark.parametrize(
    ("farad", "series_ohm", "stop_s"),
    [
        (2.2e-6, 10, 0.004),
        (1e-5, 47, 0.01),
        (1e-5, 220, 0.01),
        (4.7e-4, 10, 0.1),
        (1e-3, 100, 0.2),
    ],
)
def test_resistor_and_capacitor_whether_they_ring_or_creep(netlist, tmp_path, farad, series_ohm, stop_s):
    """24 V, 20 ohm, 60 mH, released at 0.1 A: within 0.1 %."""
    volt, ohm, henry, release = 24, 20, 0.06, 0.1
    lines = [
        *netlist.supply(volt),
        *netlist.winding(ohm, henry, 0, volt / ohm, "plus", "low"),
        *netlist.opening_switch(OFF_S),
        f"Rsnub low sn {series_ohm}",
        f"Csnub plus sn {farad} ic={volt}",
    ]
    asked = {"peak": "max v(low)", "released": f"when i(Lwind)={release} fall=1"}
    found = netlist.simulate(tmp_path, lines, OFF_S + stop_s, stop_s / 5000, asked)
    case = volt, volt / ohm, henry, ohm, farad, series_ohm
    assert found["peak"] == pytest.approx(kickback.rc_peak_V(*case), rel=1e-3)
    assert found["released"] - OFF_S == pytest.approx(kickback.rc_release_s(*case, release), rel=1e-3)
