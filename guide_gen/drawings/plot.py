"""A circuit on its way to paper: who is who in it, and what lies between two terminals."""

from dataclasses import dataclass, field
from functools import cached_property

from guide_gen.drawings.sheet import Point, Sheet
from guide_gen.drawings.symbols import LOADS
from guide_gen.model.circuit import Circuit, Part, PartKind, Wire

_ACROSS = (PartKind.DIODE, PartKind.ZENER, PartKind.RESISTOR, PartKind.CAPACITOR)
_PLUS = {PartKind.CONTROLLER: "IN+", PartKind.RELAY: "A1"}  # where a signal comes in


@dataclass(frozen=True)
class Across:
    """A part of what lies across a coil. plus: its terminal on the side of plus."""

    part: Part
    plus: str


@dataclass
class Plot:
    """A circuit on its way to paper: who is who in it, and what lies between two terminals.

    home: from the line at the left edge up to the 0 V of the feeding supply, once that is drawn.
    """

    circuit: Circuit
    sheet: Sheet
    home: list[Point] = field(default_factory=list)

    # ---- who is who -------------------------------------------------------------------

    @cached_property
    def supply(self) -> Part:
        """The supply that feeds the load."""
        return self.circuit.part(self.circuit.main[0])

    @cached_property
    def other_supply(self) -> Part | None:
        """A second supply, whose 0 V the board's lead runs to."""
        return next((part for part in self.circuit.of(PartKind.SUPPLY) if part.id != self.supply.id), None)

    @cached_property
    def load(self) -> Part:
        """The machine."""
        found = [part for part in self.circuit.parts if part.what in LOADS]
        if len(found) != 1:
            raise ValueError(f"a drawing has one load, this circuit has {len(found)}")
        return found[0]

    @cached_property
    def controller(self) -> Part:
        """The speed controller."""
        return self.circuit.of(PartKind.CONTROLLER)[0]

    @cached_property
    def relay(self) -> Part:
        """The relay between port and load."""
        return self.circuit.of(PartKind.RELAY)[0]

    @cached_property
    def box(self) -> Part | None:
        """What a port switches in place of the load: a speed controller or a relay."""
        return next((part for part in self.circuit.parts if part.what in _PLUS), None)

    @cached_property
    def series(self) -> Part | None:
        """A resistor before the load."""
        return next((part for part in self.circuit.of(PartKind.RESISTOR) if part.id in self.circuit.main), None)

    @property
    def plus_end(self) -> str:
        """The toy's terminal on the side of plus."""
        return f"{(self.series or self.load).id}:1"

    @cached_property
    def suppressors(self) -> tuple[Across, ...]:
        """What lies across the toy, in series from plus to minus."""
        return self._chain(self.plus_end, f"{self.load.id}:2")

    @cached_property
    def coil_suppressors(self) -> tuple[Across, ...]:
        """What lies across the relay's coil, in series from plus to minus."""
        return self._chain(f"{self.relay.id}:A1", f"{self.relay.id}:A2")

    def _chain(self, plus: str, minus: str) -> tuple[Across, ...]:
        left = [part for part in self.circuit.parts if part.what in _ACROSS and part.id not in self.circuit.main]
        found: list[Across] = []
        here = self._node[plus]
        while here != self._node[minus]:
            step = next(
                (
                    (part, near, far)
                    for part in left
                    for near, far in (part.terminals, part.terminals[::-1])
                    if self._node[f"{part.id}:{near}"] == here
                ),
                None,
            )
            if step is None:
                return ()
            part, near, far = step
            left.remove(part)
            found.append(Across(part, near))
            here = self._node[f"{part.id}:{far}"]
        return tuple(found)

    def one(self, what: PartKind) -> Part | None:
        """The only part of a sort, or None."""
        return next(iter(self.circuit.of(what)), None)

    @cached_property
    def fuse(self) -> Part | None:
        """The fuse of the feed."""
        found = (part for part in self._fuses if part.id in self.circuit.main and not part.inside)
        return next((part for part in found if part is not self.row_fuse), None)

    @cached_property
    def row(self) -> Part | None:
        """The distribution block between supply and fuse."""
        return self.one(PartKind.BLOCK)

    @cached_property
    def row_fuse(self) -> Part | None:
        """The fuse of that block, at the supply."""
        main = self.circuit.main
        before = main[: main.index(self.row.id)] if self.row else ()
        return next((part for part in self._fuses if part.id in before), None)

    @cached_property
    def signal_fuse(self) -> Part | None:
        """The controller's input's own fuse."""
        feeds = (self.fuse, self.row_fuse)
        return next((part for part in self._fuses if part not in feeds and not part.inside), None)

    @cached_property
    def port_fuse(self) -> Part | None:
        """A fuse inside the board, in the switched return."""
        return next((part for part in self._fuses if part.inside), None)

    @property
    def _fuses(self) -> tuple[Part, ...]:
        return self.circuit.of(PartKind.FUSE)

    @property
    def plus(self) -> str:
        """The terminal where the toy's own part begins: the block's plus, or the supply's."""
        return f"{(self.row or self.supply).id}:+"

    @property
    def zero(self) -> str:
        """Where a return that no port switches ends: the block's 0 V, or the supply's."""
        return f"{(self.row if self.row and '0V' in self.row.terminals else self.supply).id}:0V"

    @property
    def behind_fuse(self) -> str:
        """Where the feed begins: the fuse's far end, or the block or supply itself."""
        return f"{self.fuse.id}:2" if self.fuse else self.plus

    @property
    def port(self) -> str:
        """The board's terminal that the switch works on."""
        board = self.one(PartKind.BOARD)
        assert board is not None
        return next(f"{board.id}:{terminal}" for terminal in board.terminals if terminal.startswith("P"))

    @property
    def board_id(self) -> str:
        """The board's designator."""
        return self.port.split(":")[0]

    @property
    def board_goes_home(self) -> bool:
        """Whether the board's 0 V lead runs to the supply that feeds the load."""
        lead = self.wire_at(f"{self.board_id}:0V")
        return f"{self.supply.id}:0V" in (lead.start, lead.end)

    # ---- what lies between ------------------------------------------------------------

    @cached_property
    def _node(self) -> dict[str, int]:
        return {terminal: place for place, net in enumerate(self.circuit.nodes()) for terminal in net}

    def same(self, one: str, other: str) -> bool:
        """Whether two terminals are one point."""
        return self._node[one] == self._node[other]

    def wire_at(self, terminal: str, other: str = "") -> Wire:
        """The wire fixed to a terminal, and to another one where several are."""
        for wire in self.circuit.wires:
            if terminal in (wire.start, wire.end) and other in ("", wire.start, wire.end):
                return wire
        raise ValueError(f"no wire ends at {terminal}")

    def between(self, one: str, other: str) -> Wire | None:
        """The wire between the points of two terminals, or None when they are one point, or nothing joins them."""
        for wire in self.circuit.wires:
            ends = self._node[wire.start], self._node[wire.end]
            if sorted(ends) == sorted((self._node[one], self._node[other])):
                return wire
        return None

    def run(self, one: str, other: str, *points: Point) -> Wire | None:
        """Draw what lies between two terminals along these points: a wire, a direct joint, or nothing."""
        wire = self.between(one, other)
        if wire:
            self.sheet.wire(wire, *points, backwards=not self.same(wire.start, one))
        elif self.same(one, other):
            self.sheet.joint(*points)
        return wire

    def label(
        self, wire: Wire | None, x: float, y: float, limit: float, side: str = "start", *, up: bool = False
    ) -> int:
        """The wire's label, if there is a wire; gives back its number of rows."""
        if not wire:
            return 0
        self.sheet.label(wire, x, y, limit, side, up=up)
        return len(self.sheet.label_rows(wire, limit))

    def rows(self, wire: Wire | None, limit: float) -> int:
        """How many rows a wire's label takes."""
        return len(self.sheet.label_rows(wire, limit)) if wire else 0

    @cached_property
    def branch(self) -> str:
        """The terminal where the signal of controller or relay takes its plus."""
        if self.signal_fuse:
            return f"{self.signal_fuse.id}:1"
        terminal = self.signal_plus
        wire = self.wire_at(terminal)
        return wire.start if wire.end == terminal else wire.end

    def branches_at(self, terminal: str) -> bool:
        """Whether the signal of controller or relay takes its plus from this terminal's point."""
        return self.box is not None and self.same(self.branch, terminal)

    @property
    def signal_plus(self) -> str:
        """The plus terminal of the controller's input or the relay's coil."""
        assert self.box is not None
        return f"{self.box.id}:{_PLUS[self.box.what]}"
