"""A circuit in words, from the same data as its drawing."""

from guide_gen.model.circuit import Circuit, Part, PartKind
from guide_gen.model.plan import Sized, Words
from guide_gen.values import show

NAMES = {
    PartKind.SUPPLY: "supply",
    PartKind.BOARD: "driver board",
    PartKind.CONTROLLER: "speed controller",
    PartKind.SWITCH: "port switch",
    PartKind.FUSE: "fuse",
    PartKind.MOTOR: "motor",
    PartKind.FAN: "fan",
    PartKind.SOLENOID: "solenoid",
    PartKind.CONTACTOR: "contactor",
    PartKind.BELL: "bell",
    PartKind.LAMP: "lamp",
    PartKind.DIODE: "diode",
    PartKind.ZENER: "zener diode",
    PartKind.RESISTOR: "resistor",
    PartKind.CAPACITOR: "capacitor",
    PartKind.TRIMMER: "trimmer",
    PartKind.RELAY: "relay",
    PartKind.BLOCK: "distribution block",
}
SHORT_LIMIT = 120  # characters of a text alternative, guidance of this project


def words(sized: Sized, control_sentence: str, control_words: tuple[str, ...], notes: tuple[str, ...]) -> Words:
    """The whole circuit in words."""
    circuit = sized.circuit
    load = circuit.part(sized.ids["load"])
    through = f" through the fuse {sized.ids['fuse']}" if "fuse" in sized.ids else " with no fuse"
    feeder = f"Supply {sized.supply_id}"
    if "block" in sized.ids:
        own = f" through the fuse {sized.ids['block fuse']}" if "block fuse" in sized.ids else " with no fuse"
        feeder += f" feeds the distribution block {sized.ids['block']}{own}, and {sized.ids['block']}"
    return Words(
        short=short_words(sized),
        sentence=f"{feeder} feeds the {NAMES[load.what]} {load.id}{through}; {control_sentence}.",
        chain=chain(circuit, circuit.main),
        across=across(sized),
        control=(*control_path(circuit), *control_words),
        notes=notes,
    )


def short_words(sized: Sized) -> str:
    """The drawing's text alternative, at most 120 characters."""
    fused = "fused" if "fuse" in sized.ids else "unfused"
    how = {
        True: f"port {sized.port.number} switches it" if sized.port else "",
        False: "always on",
    }[sized.port is not None]
    name = sized.name
    whole = f"Circuit of {name}: {fused} {show.volts(sized.supply_V)} feed, {how}; described below."
    over = len(whole) - SHORT_LIMIT
    return whole if over <= 0 else whole.replace(name, name[: -over - 1] + "…", 1)


def chain(circuit: Circuit, path: tuple[str, ...]) -> tuple[tuple[str, str, str], ...]:
    """Stops and wires along a path: ("stop", terminals, what it is) and ("wire", designator, what it is)."""
    wires = {wire.id: wire for wire in circuit.wires}
    found = []
    for place, name in enumerate(path):
        if name in wires:
            wire = wires[name]
            found.append(("wire", name, f"{wire.colour} {wire.size} {wire.length_m:g} m"))
            continue
        before = wires[path[place - 1]].end if place and path[place - 1] in wires else ""
        after = wires[path[place + 1]].start if place + 1 < len(path) and path[place + 1] in wires else ""
        terminals = [end for end in dict.fromkeys((before, after)) if end.startswith(f"{name}:")]
        terminals = through(circuit.part(name), terminals, first=bool(before), ends=place in (0, len(path) - 1))
        found.append(("stop", " to ".join(terminals) or name, stop_words(circuit, circuit.part(name))))
    return tuple(found)


def through(part: Part, terminals: list[str], *, first: bool, ends: bool) -> list[str]:
    """Both terminals of a part that is joined to its neighbour without a wire."""
    if ends or len(terminals) != 1 or len(part.terminals) != 2 or part.what is PartKind.BLOCK:
        return terminals
    other = next(f"{part.id}:{name}" for name in part.terminals if f"{part.id}:{name}" != terminals[0])
    return [*terminals, other] if first else [other, *terminals]


def stop_words(circuit: Circuit, part: Part) -> str:
    """What stands at a stop of the path."""
    name = NAMES[part.what]
    if part.what is PartKind.BLOCK:
        return f"{name} {part.name}"
    if part.what is PartKind.BOARD:
        inside = [other.id for other in circuit.parts if other.inside == part.id]
        return f"{name} {part.name}, port with {' and '.join(inside)}"
    return f"{name}, {part.value}" if part.value and part.value != name else name


def across(sized: Sized) -> tuple[str, ...]:
    """What lies across the load."""
    load = sized.ids["load"]
    if "zener" in sized.ids:
        diode, zener = sized.ids["diode"], sized.ids["zener"]
        return (
            f"{diode} and {zener} in series, {sized.suppression.part}, directly at {load}: the band of {diode} to "
            f"{load}:1, the plus side, the band of {zener} to {load}:2.",
        )
    if "rc capacitor" in sized.ids:
        return (
            f"{sized.ids['rc resistor']} and {sized.ids['rc capacitor']} in series, {sized.suppression.part}, directly "
            f"at {load}.",
        )
    if "diode" in sized.ids:
        return (
            f"{sized.ids['diode']}, {sized.suppression.part}, directly at {load}: the end with the band to {load}:1, "
            f"the "
            "plus side.",
        )
    where = {
        "on the board": "The driver board has the suppressor.",
        "in the controller": "The speed controller has the suppressor inside.",
        "not needed": "Nothing: no winding of it kicks back.",
    }
    stated = sized.suppression.type
    return (where.get(stated, "Nothing." if stated == "none" else f"As described: {stated}."),)


def control_path(circuit: Circuit) -> tuple[str, ...]:
    """The input's path, when the load is not switched directly."""
    if not circuit.control:
        return ()
    return ("Way of its current: " + " – ".join(circuit.control) + ".",)
