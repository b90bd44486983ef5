"""A circuit as data: parts, their terminals, the wires between them and what is joined directly.

Drawing, circuit in words, wire list, cut list, expected readings and a simulator's netlist all come from it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum


class PartKind(StrEnum):
    """What a part is; the letter of its designator is fixed by `LETTERS`."""

    SUPPLY = "supply"
    BOARD = "board"
    CONTROLLER = "speed controller"
    SWITCH = "port switch"
    FUSE = "fuse"
    MOTOR = "motor"
    FAN = "fan"
    SOLENOID = "solenoid"
    CONTACTOR = "contactor"
    BELL = "bell"
    LAMP = "lamp"
    DIODE = "diode"
    ZENER = "zener diode"
    RESISTOR = "resistor"
    CAPACITOR = "capacitor"
    TRIMMER = "trimmer"
    RELAY = "relay"
    BLOCK = "distribution block"


# IEC 81346-2 letters as known from memory; D for diodes is the trade's habit and said so in the legend.
LETTERS = {
    PartKind.SUPPLY: "T",
    PartKind.BOARD: "A",
    PartKind.CONTROLLER: "A",
    PartKind.SWITCH: "Q",
    PartKind.FUSE: "F",
    PartKind.MOTOR: "M",
    PartKind.FAN: "M",
    PartKind.SOLENOID: "M",
    PartKind.CONTACTOR: "K",
    PartKind.BELL: "P",
    PartKind.LAMP: "E",
    PartKind.DIODE: "D",
    PartKind.ZENER: "D",
    PartKind.RESISTOR: "R",
    PartKind.CAPACITOR: "C",
    PartKind.TRIMMER: "R",
    PartKind.RELAY: "K",
    PartKind.BLOCK: "X",
}

SHARED_ROLES = ("supply lead", "board return", "block feed", "block return")
"""Roles of wires that several toys share; they are cut and listed under their supply, board or block."""


@dataclass(frozen=True)
class Part:
    """One part of a circuit.

    id: designator, ``F1``. what: its sort. terminals: names without the designator: ``("1", "2")``.
    value: the one value that stands beside it on the drawing: ``10 A``.
    notes: further short lines for the drawing: ``("blade, 32 V DC",)``.
    inside: designator of the part whose outline it stands in (a port's switch in its board), or "".

    Terminals by sort: supply ``+ 0V``; board ``P<n> 0V``; controller ``+ - IN+ IN- M+ M-``; switch ``D S``;
    block ``+ 0V``; relay ``11 14 A1 A2`` (contact, coil); diode and zener ``K A`` (K is the band); all others ``1 2``.
    """

    id: str
    what: PartKind
    value: str
    terminals: tuple[str, ...]
    notes: tuple[str, ...] = ()
    inside: str = ""
    name: str = ""


@dataclass(frozen=True)
class Wire:
    """A run of wire from one terminal to another.

    start, end: full terminal names: ``F1:2``. colour: IEC 60757 letters. size: as shown (``1.5 mm²``), "" until sized.
    carries_A: the current it is sized for. protected_by: designators of fuses, or a sentence when there is none.
    """

    id: str
    start: str
    end: str
    colour: str
    length_m: float
    size: str = ""
    carries_A: float = 0.0
    protected_by: str = ""
    role: str = ""


@dataclass(frozen=True)
class Circuit:
    """Parts, wires and direct joints of one toy, from the supply's plus back to its 0 V.

    joints: pairs of terminals that are one point without a wire: a diode at a motor's terminals, a switch in its board.
    main: the path of the load's current, supply plus first: alternately terminals' part ids and wire ids
        (``("T1", "W1", "F1", "W11", "M1", "W12", "A1", "W2", "T1")``).
    control: the same for the controller's input, when there is one.
    """

    parts: tuple[Part, ...]
    wires: tuple[Wire, ...]
    joints: tuple[tuple[str, str], ...] = ()
    main: tuple[str, ...] = ()
    control: tuple[str, ...] = ()

    def part(self, part_id: str) -> Part:
        """The part with this designator; KeyError when it is not in the circuit."""
        for part in self.parts:
            if part.id == part_id:
                return part
        raise KeyError(part_id)

    def wire(self, wire_id: str) -> Wire:
        """The wire with this designator; KeyError when it is not in the circuit."""
        for wire in self.wires:
            if wire.id == wire_id:
                return wire
        raise KeyError(wire_id)

    def of(self, what: PartKind) -> tuple[Part, ...]:
        """All parts of one sort, in order."""
        return tuple(part for part in self.parts if part.what is what)

    def nodes(self) -> list[list[str]]:
        """Terminals that are one electrical point; a wire counts as a part with the ends ``a`` and ``b``."""
        pairs = list(self.joints)
        for wire in self.wires:
            pairs += [(wire.start, f"{wire.id}:a"), (wire.end, f"{wire.id}:b")]
        return sorted(_joined(pairs, self._terminals()))

    def _terminals(self) -> Iterator[str]:
        for part in self.parts:
            yield from (f"{part.id}:{terminal}" for terminal in part.terminals)

    def with_wires(self, sized: Iterable[Wire]) -> "Circuit":
        """The same circuit with these wires in place of those of the same designator."""
        by_id = {wire.id: wire for wire in sized}
        return replace(self, wires=tuple(by_id.get(wire.id, wire) for wire in self.wires))


def _joined(pairs: Iterable[tuple[str, str]], terminals: Iterable[str]) -> list[list[str]]:
    """Groups of terminals that the pairs tie together, each sorted."""
    group = {terminal: {terminal} for terminal in terminals}
    for one, other in pairs:
        merged = group.setdefault(one, {one}) | group.setdefault(other, {other})
        for terminal in merged:
            group[terminal] = merged
    return [list(names) for names in {tuple(sorted(members)) for members in group.values()}]
