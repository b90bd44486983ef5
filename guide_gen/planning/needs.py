"""What is needed: parts, holder, wire by colour and length with spare, end pieces, fasteners."""

from collections.abc import Iterable, Mapping

from guide_gen.model.circuit import SHARED_ROLES, PartKind, Wire
from guide_gen.model.fields import ToyFields
from guide_gen.model.guide import Need
from guide_gen.model.plan import FusePlan, Mounting, Sized, Suppression
from guide_gen.planning.suppression import film_V, zener_words
from guide_gen.values import show

SPARE_M = 0.15  # on each run, for slack and a second crimp; this project


def toy_needs(toy: ToyFields, title: str, sized: Sized) -> tuple[Need, ...]:
    """Everything for one toy; shared leads are in the build's list."""
    circuit, fuse = sized.circuit, sized.fuse
    beside = beside_supply(sized.supply_id, sized.fuses_beside)
    where = f"a position of {sized.ids['block']}" if "block" in sized.ids else beside
    cover = "with cover" if getattr(toy, "cover", False) else ""
    found = [
        Need(
            title,
            f"{show.volts(sized.load.voltage_V)}, draws {show.quantity(sized.load.current)}",
            "1",
            cover,
            sized.ids["load"],
        )
    ]
    for box in circuit.of(PartKind.CONTROLLER):
        found.append(Need("Speed controller", f"{box.value}, with trimmer and isolated input", "1", "", box.id))
    found += fuse_needs(fuse, where)
    found += fuse_needs(sized.signal_fuse, where) if sized.signal_fuse else ()
    for own in circuit.of(PartKind.FUSE):
        if own.inside:
            kind = f", {own.notes[0]}" if own.notes else ""
            found.append(
                Need("Fuse", f"{own.value}{kind}", "2", f"in {own.inside}'s own holder; one is the spare", own.id)
            )
    found += suppressor_needs(sized)
    for relay in circuit.of(PartKind.RELAY):
        found.append(Need("Relay or contactor", "; ".join(relay.notes), "1", "with its socket", relay.id))
    if sized.coil and "coil diode" in sized.ids:
        found.append(coil_need(sized.coil, sized.ids["coil diode"]))
    own_wires = [wire for wire in circuit.wires if wire.role not in SHARED_ROLES]
    found += wire_needs(own_wires, sized.units)
    found.append(
        Need(
            "End pieces",
            "ferrules or crimps for the sizes above",
            str(2 * len(own_wires)),
            "two for each wire, and a few to spare",
            names(own_wires),
        )
    )
    if "diode" in sized.ids:
        found.append(Need("Insulating sleeve", "for the suppressor's leads", "0.1 m", "", sized.ids["diode"]))
    found += fasteners(sized)
    return tuple(found)


def beside_supply(supply_id: str, positions: int) -> str:
    """What holds a fuse at a supply's plus where so many sit there."""
    return f"a position of the fuse block beside {supply_id}" if positions > 1 else "beside the supply"


def fuse_needs(fuse: FusePlan, where: str) -> tuple[Need, ...]:
    """A fuse with its holder; nothing where there is none."""
    if fuse.rating_A is None:
        return ()
    speed = f", {fuse.speed}" if fuse.speed else ""
    return (
        Need("Fuse holder", f"for {fuse.series} fuses", "1", where, fuse.id),
        Need("Fuse", f"{show.amps(fuse.rating_A)}, {fuse.series}{speed}", "2", "one is the spare", fuse.id),
    )


def suppressor_needs(sized: Sized) -> list[Need]:
    """The parts that lie across the toy; a pair is two lines."""
    plan, ids = sized.suppression, sized.ids
    note = f"for example class {plan.class_name}" if plan.class_name else ""
    if "rc capacitor" in ids:
        ohm = show.ohms(plan.resistance_ohm) if plan.resistance_ohm else "as described"
        farad = f"{show.figure(1e6 * plan.capacitance_F)} {show.MICRO}F" if plan.capacitance_F else "as described"
        volts = f", for {show.volts(film_V(plan.peak_V))} or more" if plan.peak_V else ""
        return [
            Need("Resistor", f"{ohm}, 1 W or more", "1", "of the suppressor", ids["rc resistor"]),
            Need("Capacitor", f"{farad}{volts}", "1", "film, without polarity", ids["rc capacitor"]),
        ]
    if "diode" not in ids:
        return []
    part = plan.part.split(", in series")[0]
    found = [Need("Suppressor", part[0].upper() + part[1:], "1", note, ids["diode"])]
    if "zener" in ids:
        volts = show.volts(plan.zener_V) if plan.zener_V else "none fits"
        which = f": {zener_words(plan)}" if plan.pulse_W else ""
        note = "in series with the diode; its voltage is the breakdown voltage, not the stand-off voltage"
        found.append(Need("Zener diode", f"{volts}{which}", "1", note, ids["zener"]))
    return found


def coil_need(coil: Suppression, id: str) -> Need:
    """What takes the kickback of a control's own coil."""
    note = f"at the coil; for example class {coil.class_name}" if coil.class_name else "at the coil"
    return Need("Suppressor", coil.part[0].upper() + coil.part[1:], "1", note, id)


def wire_needs(wires: Iterable[Wire], units: str) -> list[Need]:
    """Wire by size and colour, each run with its spare."""
    groups: dict[tuple[str, str], list[Wire]] = {}
    for wire in wires:
        groups.setdefault((wire.size, wire.colour), []).append(wire)
    found = []
    for (size, colour), group in groups.items():
        pieces = [wire.length_m + SPARE_M for wire in group]
        cut = " and ".join(show.metres(piece, units) for piece in pieces)
        found.append(
            Need(
                "Wire",
                size,
                show.metres(sum(pieces), units),
                f"cut {cut}, spare counted" if len(pieces) > 1 else "one piece, spare counted",
                names(group),
                colour,
            )
        )
    return found


def names(wires: Iterable[Wire]) -> str:
    """W11, W12."""
    return ", ".join(wire.id for wire in wires)


def fasteners(sized: Sized) -> list[Need]:
    """Through-bolts, washers, locking nuts."""
    screws = sized.mounting
    if screws is None:
        return []
    length = f" × {screws.length_shown}" if screws.length_shown else ", length: measure floor, bracket, washers and nut"
    return [
        Need("Screw", f"{screws.screw}{length}", str(screws.count), "through-bolts, no wood screws", "mount"),
        Need(
            "Washer",
            f"{screws.washer_shown} across, for {screws.screw}",
            str(2 * screws.count),
            "wide, both sides",
            "mount",
        ),
        nut(screws),
    ]


def nut(screws: Mounting) -> Need:
    """What keeps the screws; for a mount whose nuts nothing keeps, what mends it."""
    if screws.locking == "two nuts":
        return Need("Nut", screws.screw, str(2 * screws.count), "two on each, against each other", "mount")
    if screws.locking == "thread-locking":
        return Need("Nut", screws.screw, str(screws.count), "with thread-locking", "mount")
    return Need("Locking nut", f"{screws.screw}, nylon insert", str(screws.count), "", "mount")


def fuse_blocks(positions: Mapping[str, int]) -> tuple[Need, ...]:
    """What holds the feeds' fuses beside each supply. positions: by the supply's designator; one is a holder alone."""
    return tuple(
        Need("Fuse block", f"common plus, {count} positions", "1", f"beside {supply}, fed by its lead", supply)
        for supply, count in positions.items()
        if count > 1
    )


def build_needs(wires: Iterable[Wire], units: str) -> tuple[Need, ...]:
    """What the build needs besides its toys: shared leads."""
    shared = list(wires)
    if not shared:
        return ()
    return (
        *wire_needs(shared, units),
        Need(
            "End pieces",
            "ferrules or crimps for the sizes above",
            str(2 * len(shared)),
            "two for each lead",
            names(shared),
        ),
    )
