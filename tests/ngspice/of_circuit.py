"""A netlist from a planned toy: every part, wire and joint of its circuit data becomes an element between its nodes.

So a wrong net, a missing wire or a diode the wrong way round in the data shows in the simulation. What the data do not
hold is stated in a `Bench`: what the load does, how the port is driven, what a diode drops, where its switch breaks
down.

Each part has an ammeter, a source of 0 V: ``i(VM1)`` flows from its first terminal to its second, in a diode or zener
from anode to cathode (``VD5Zz``: the other way, in a zener's breakdown). A relay has ``VK2B`` in its coil and ``VK2Bc``
in its contact; a speed controller ``VA2`` from its plus to the motor, ``VA2s`` in its switch, ``VA2d`` in its diode
and ``VA2i`` in its input; a port's switch ``VQ1a`` where it breaks down.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from guide_gen.formulas import fuse
from guide_gen.model.circuit import Circuit, Part, PartKind, Wire
from guide_gen.model.plan import ToyPlan
from guide_gen.published.tables import resistance_ohm_per_m
from guide_gen.values.quantity import WireSize

COPPER_PER_K = 0.00393  # at 20 °C; IEC 60028
CONTACT_OHM = 0.002  # of each end of a run; common practice, no source
SIGNAL_SWITCH_OHM = 0.010  # of a port that carries only a signal; common practice, no source
LEAK_OHM = 1e9  # from every node to 0 V, so that a node without a way there has a voltage too
THERMAL_V = 0.025865  # k T / q at 27 °C, the simulator's own temperature
PREFIXES = {"": 1.0, "m": 1e-3, "µ": 1e-6, "μ": 1e-6, "n": 1e-9, "k": 1e3, "M": 1e6}


# What the load does


@dataclass(frozen=True)
class Winding:
    """Resistance, inductance and back emf in a row."""

    ohm: float
    henry: float = 0.0
    emf_V: float = 0.0


@dataclass(frozen=True)
class Leds:
    """Rows of LEDs, each of forward_V at forward_A."""

    rows: int
    in_a_row: int
    forward_V: float
    forward_A: float


@dataclass(frozen=True)
class Sink:
    """A current, whatever the voltage."""

    current_A: float


Load = Winding | Leds | Sink


# What switches


@dataclass(frozen=True)
class Opening:
    """On from before the beginning, off from a time on; never off where it is None."""

    at_s: float | None = None


@dataclass(frozen=True)
class Chopped:
    """On for a share of each period, from time 0 on."""

    frequency_Hz: float
    duty: float


Drive = Opening | Chopped


def drive_lines(node: str, drive: Drive) -> list[str]:
    """A voltage of 1 V at a node while it is on."""
    if isinstance(drive, Chopped):
        period = 1 / drive.frequency_Hz
        edge = 1e-6 * period
        return [f"V{node} {node} 0 pulse(0 1 0 {edge:.9g} {edge:.9g} {drive.duty * period - edge:.9g} {period:.9g})"]
    if drive.at_s is None:
        return [f"V{node} {node} 0 1"]
    return [f"V{node} {node} 0 pwl(0 1 {drive.at_s:.9g} 1 {drive.at_s * (1 + 1e-6):.9g} 0)"]


@dataclass(frozen=True)
class RelayCoil:
    """The coil of a relay as control, the current at which it has pulled in and that at which it has let go."""

    winding: Winding
    pulls_in_A: float
    releases_A: float


@dataclass(frozen=True)
class Bench:
    """What the circuit data leave open.

    drive: of the port, full on where there is none. avalanche_V: of the port's switch; None: it stands everything.
    diode_V: every diode's drop. trimmer: how a speed controller chops while its input has current.
    input_V, input_A: of a speed controller's input; it passes current one way only.
    """

    supply_V: float
    load: Load
    drive: Drive = Opening()
    diode_V: float = 0.85
    avalanche_V: float | None = None
    coil: RelayCoil | None = None
    trimmer: Drive = Opening()
    input_V: float = 12.0
    input_A: float = 0.008
    contact_ohm: float = CONTACT_OHM


# Reading the plan


def number(text: str) -> float:
    """The value on a drawing: ``4.7 kΩ``, ``24 V``, ``2 × 120 Ω`` (two alike, side by side)."""
    found = re.fullmatch(r"(?:(\d+) × )?([\d.]+)\s?([mµμnkM]?)[ΩFVA]", text.replace("\xa0", " "))
    assert found, f"no value: {text!r}"
    alike, digits, prefix = found.groups()
    return float(digits) * PREFIXES[prefix] / int(alike or 1)


def worked(toy: ToyPlan, id: str):
    """A worked value of the plan."""
    return next(one for one in toy.worked if one.id == id)


def loop_ohm(toy: ToyPlan) -> float:
    """What the plan takes for everything between the supply and the toy, there and back."""
    return float(worked(toy, "drop.loop").result)


def run_of(toy: ToyPlan, role: str) -> str:
    """The designator of its wire with this role."""
    return next(wire.id for wire in toy.sized.circuit.wires if wire.role == role)


def wire_degC(toy: ToyPlan) -> dict[str, float]:
    """The temperature of each wire in the plan: warm in the way of the load's current, else the cabinet's air."""
    circuit = toy.sized.circuit
    found = {wire.id: toy.sized.inside_degC for wire in circuit.wires}
    runs = (wire.id for wire in circuit.wires if wire.id in circuit.main)
    warm = (one for one in toy.worked if one.id.startswith("drop.run."))
    return found | {wire: one.numbers["T"] for wire, one in zip(runs, warm, strict=True)}


def wire_ohm(wire: Wire, degC: float, contact_ohm: float) -> float:
    """A run by its size, length and temperature, with the joints at its ends."""
    digits, system = wire.size.replace("\xa0", " ").split(" ")
    size = WireSize("AWG" if system == "AWG" else "mm2", digits)
    return resistance_ohm_per_m(size) * (1 + COPPER_PER_K * (degC - 20)) * wire.length_m + 2 * contact_ohm


def fuse_ohm(toy: ToyPlan, part: Part) -> float:
    """Cold resistance of a fuse: the plan's own, or that of a fuse in a return or before an input."""
    if part.id == toy.sized.fuse.id:
        return toy.sized.fuse.resistance_ohm
    blade = not part.notes or "blade" in part.notes[0]
    return (fuse.blade_resistance_ohm if blade else fuse.cartridge_resistance_ohm)(number(part.value))


def load_of(toy: ToyPlan, henry: float = 0.0) -> Load:
    """A load that draws the design current at the toy's own voltage.

    A motor whose winding is not known has a tenth of V / I and the rest as back emf. henry: where it is not known.
    """
    load = toy.sized.load
    whole = load.voltage_V / load.design_current_A
    if toy.sized.circuit.part(toy.sized.ids["load"]).what in (PartKind.MOTOR, PartKind.FAN):
        ohm = load.resistance_ohm[0] if load.resistance_ohm else 0.1 * whole
        return Winding(ohm, henry or 1.5e-3 * ohm, load.voltage_V - ohm * load.design_current_A)
    return Winding(whole, load.inductance_H[1] if load.inductance_H else henry)


# The netlist


@dataclass(frozen=True)
class Netlist:
    """Lines of a circuit without title. names: the node of each terminal, by its full name ``M1:1``."""

    lines: tuple[str, ...]
    names: dict[str, str]

    def asked(self, measure: str) -> str:
        """A measure with terminals, ``max v(Q1:D)``, as the simulator takes it: with nodes."""
        return re.sub(r"\bv\(([^()]+:[^()]+)\)", lambda found: f"v({self.names[found[1]]})", measure)


def netlist_of(toy: ToyPlan, bench: Bench, circuit: Circuit | None = None) -> Netlist:
    """The netlist of a planned toy, or of a changed copy of its circuit."""
    circuit = circuit or toy.sized.circuit
    names = nodes_of(circuit)
    degC = wire_degC(toy)
    lines = [*drive_lines("gate", bench.drive), *drive_lines("trim", bench.trimmer), "Vzero zero 0 0"]
    for wire in circuit.wires:
        ohm = wire_ohm(wire, degC[wire.id], bench.contact_ohm)
        lines += metered(wire.id, names[f"{wire.id}:a"], names[f"{wire.id}:b"], f"R{{}} {{}} {{}} {ohm:.9g}")
    for part in circuit.parts:
        lines += element(toy, bench, part, [names[f"{part.id}:{terminal}"] for terminal in part.terminals])
    lines += [f"Rleak{node} {node} 0 {LEAK_OHM:.9g}" for node in dict.fromkeys(names.values()) if node != "zero"]
    return Netlist(tuple(lines), names)


def nodes_of(circuit: Circuit) -> dict[str, str]:
    """A node's name for each terminal and each end of a wire; that of the supply's 0 V is ``zero``."""
    earth = f"{circuit.of(PartKind.SUPPLY)[0].id}:0V"
    found = {}
    for place, terminals in enumerate(circuit.nodes(), start=1):
        found |= dict.fromkeys(terminals, "zero" if earth in terminals else f"n{place}")
    return found


def metered(id: str, first: str, last: str, line: str) -> list[str]:
    """An element behind an ammeter; the line's places are its name and its two nodes."""
    return [f"V{id} {first} {id}m 0", line.format(id, f"{id}m", last)]


def one_way(id: str, first: str, last: str, drop_V: float) -> list[str]:
    """Lets current pass from first to last above a voltage, with 0.1 milliohm behind it."""
    return metered(id, first, last, f"B{{0}} {{1}} {{2}} i=1e4*max(0,v({id}m,{last})-{drop_V:.9g})")


def winding(id: str, first: str, last: str, what: Winding) -> list[str]:
    """Its own current is that of its ammeter, since all is in a row."""
    return [
        f"V{id} {first} {id}m 0",
        f"R{id} {id}m {id}r {what.ohm:.9g}",
        f"L{id} {id}r {id}l {what.henry:.9g}" if what.henry else f"VL{id} {id}r {id}l 0",
        f"Vemf{id} {id}l {last} {what.emf_V:.9g}",
    ]


def load_lines(id: str, first: str, last: str, load: Load) -> list[str]:
    """The toy itself."""
    if isinstance(load, Winding):
        return winding(id, first, last, load)
    if isinstance(load, Sink):
        return metered(id, first, last, f"I{{}} {{}} {{}} {load.current_A:.9g}")
    # Saturation current of a junction with emission coefficient 2, from its point of voltage and current.
    exponent = load.forward_V / (2 * THERMAL_V)
    saturation = f"{load.forward_A:.9g}*exp({-exponent:.9g})"
    across = f"(v({id}m,{last})/{2 * THERMAL_V * load.in_a_row:.9g})"
    return metered(id, first, last, f"B{{}} {{}} {{}} i={load.rows}*{saturation}*(exp(min({across},80))-1)")


def element(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    """One part between its nodes, in the order of its terminals."""
    id = part.id
    if id == toy.sized.ids["load"]:
        return load_lines(id, *nodes, bench.load)
    write = WRITERS[part.what]
    return list(write(toy, bench, part, nodes))


def _supply(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    return [f"V{part.id} {nodes[0]} {nodes[1]} {bench.supply_V:.9g}"]


def _nothing(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    """A board is only an outline round its switches, a block joins its wires, a trimmer turns in its controller."""
    return []


def _fuse(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    return metered(part.id, *nodes, f"R{{}} {{}} {{}} {fuse_ohm(toy, part):.9g}")


def _resistor(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    return metered(part.id, *nodes, f"R{{}} {{}} {{}} {number(part.value):.9g}")


def _capacitor(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    return metered(part.id, *nodes, f"C{{}} {{}} {{}} {number(part.value):.9g}")


def _diode(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    cathode, anode = nodes
    return one_way(part.id, anode, cathode, bench.diode_V)


def _zener(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> list[str]:
    cathode, anode = nodes
    breakdown = one_way(f"{part.id}z", cathode, anode, number(part.notes[0]))
    return [*one_way(part.id, anode, cathode, bench.diode_V), *breakdown]


def _switch(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> Iterator[str]:
    drain, source = nodes
    port = toy.sized.port
    assert port is not None
    on_ohm = SIGNAL_SWITCH_OHM if port.signal else worked(toy, "drop.loop").numbers["R_s"]
    yield f".model {part.id}on sw(vt=0.5 vh=0.1 ron={on_ohm:.9g} roff=1e8)"
    yield from metered(part.id, drain, source, f"S{{}} {{}} {{}} gate 0 {part.id}on")
    if bench.avalanche_V is not None:
        yield from one_way(f"{part.id}a", drain, source, bench.avalanche_V)


def _relay(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> Iterator[str]:
    contact, contact_end, plus, minus = nodes
    coil = bench.coil
    assert coil is not None
    middle, half = (coil.pulls_in_A + coil.releases_A) / 2, (coil.pulls_in_A - coil.releases_A) / 2
    on_ohm = worked(toy, "drop.loop").numbers["R_s"]
    yield from winding(part.id, plus, minus, coil.winding)
    yield f".model {part.id}on csw(it={middle:.9g} ih={half:.9g} ron={on_ohm:.9g} roff=1e8)"
    # Between the two currents it stays as it was; it begins closed.
    begins = "on" if isinstance(bench.drive, Opening) else "off"
    yield from metered(f"{part.id}c", contact, contact_end, f"W{{}} {{}} {{}} V{part.id} {part.id}on {begins}")


def _controller(toy: ToyPlan, bench: Bench, part: Part, nodes: list[str]) -> Iterator[str]:
    plus, minus, input_plus, input_minus, motor_plus, motor_minus = nodes
    id = part.id
    on_ohm = worked(toy, "drop.loop").numbers["R_s"]
    yield f"V{id} {plus} {motor_plus} 0"
    # The isolated input: a diode, and a resistor that lets its rated current pass.
    yield from one_way(f"{id}i", input_plus, f"{id}r", 1.2)
    yield f"R{id}i {id}r {input_minus} {(bench.input_V - 1.2) / bench.input_A:.9g}"
    yield f"B{id}g {id}g 0 v=v(trim)*u(i(V{id}i)-{bench.input_A / 2:.9g})"
    yield f".model {id}on sw(vt=0.5 vh=0.1 ron={on_ohm:.9g} roff=1e8)"
    yield from metered(f"{id}s", motor_minus, minus, f"S{{}} {{}} {{}} {id}g 0 {id}on")
    if toy.sized.suppression.type == "in the controller":
        yield from one_way(f"{id}d", motor_minus, motor_plus, bench.diode_V)


Writer = Callable[[ToyPlan, Bench, Part, list[str]], list[str] | Iterator[str]]
WRITERS: dict[PartKind, Writer] = {
    PartKind.SUPPLY: _supply,
    PartKind.BOARD: _nothing,
    PartKind.TRIMMER: _nothing,
    PartKind.BLOCK: _nothing,
    PartKind.CONTROLLER: _controller,
    PartKind.SWITCH: _switch,
    PartKind.FUSE: _fuse,
    PartKind.DIODE: _diode,
    PartKind.ZENER: _zener,
    PartKind.RESISTOR: _resistor,
    PartKind.CAPACITOR: _capacitor,
    PartKind.RELAY: _relay,
}


# Faults in the data, for copies of a circuit


def turned(circuit: Circuit, part_id: str) -> Circuit:
    """A part of two terminals the wrong way round."""
    first, last = (f"{part_id}:{terminal}" for terminal in circuit.part(part_id).terminals)
    other = {first: last, last: first}
    joints = tuple((other.get(one, one), other.get(two, two)) for one, two in circuit.joints)
    return replace(circuit, joints=joints)


def without(circuit: Circuit, *part_ids: str) -> Circuit:
    """Parts taken out, with what was joined to them."""

    def kept(terminal: str) -> bool:
        return terminal.partition(":")[0] not in part_ids

    return replace(
        circuit,
        parts=tuple(part for part in circuit.parts if part.id not in part_ids),
        joints=tuple(pair for pair in circuit.joints if kept(pair[0]) and kept(pair[1])),
    )


def moved(circuit: Circuit, wire_id: str, **ends: str) -> Circuit:
    """A wire with its start or end at another terminal, or with another length or size."""
    return circuit.with_wires([replace(circuit.wire(wire_id), **ends)])


def cut(circuit: Circuit, wire_id: str) -> Circuit:
    """A wire that is missing."""
    return replace(circuit, wires=tuple(wire for wire in circuit.wires if wire.id != wire_id))
