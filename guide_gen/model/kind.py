"""What a kind of toy and a control offer to the rest of the house."""

from collections.abc import Callable
from dataclasses import dataclass

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire
from guide_gen.model.fields import ControlFields, ToyFields
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Caution, Introduction, Reading, Setting, Step, Trouble
from guide_gen.model.plan import Section, Sized


@dataclass(frozen=True)
class Frame:
    """What stands round a load before a control joins it up.

    number: the toy's place in its build; block: its wires are numbered from here on.
    suppressor: a part across the load, or None. fuse, port_fuse: None when there is none.
    board, switch, board_return: None without a port. home: the supply that the board's 0 V lead runs to.
    joined: the 0 V of home and supply are joined at the board. controller_id: designator kept for a controller.
    input_fuse: rating and series of a fuse of the controller's input, as words for the drawing.
    """

    number: int
    block: int
    supply: Part
    lead: Wire
    fuse: Part | None
    load: Part
    suppressor: Part | None
    board: Part | None
    switch: Part | None
    port_fuse: Part | None
    board_return: Wire | None
    home: Part
    joined: bool
    feed_m: float
    return_m: float
    plus: str
    zero: str
    back: str
    signal: str
    controller_id: str
    input_fuse: str

    def wire(self, place: int, start: str, end: str, colour: str, length_m: float, role: str) -> Wire:
        """A wire of this toy; `place` counts within the toy's block."""
        return Wire(f"W{self.block + place}", start, end, colour, length_m, role=role)

    @property
    def port(self) -> str:
        """The terminal of the board that this toy's return, or its controller's input, runs to."""
        assert self.board is not None
        return f"{self.board.id}:{self.board.terminals[0]}"

    def feed_parts(self) -> tuple[Part, ...]:
        """What every circuit has: supply, fuse, load and what lies across it."""
        return tuple(part for part in (self.supply, self.fuse, self.load, self.suppressor) if part)

    def feed_wires(self) -> tuple[Wire, ...]:
        """The lead before the fuse; without a fuse the feed itself begins at the supply."""
        return (self.lead,) if self.fuse else ()

    def feed_path(self) -> tuple[str, ...]:
        """From the supply's plus to behind the fuse."""
        return (self.supply.id, self.lead.id, self.fuse.id) if self.fuse else (self.supply.id,)

    def across(self, plus: str, minus: str) -> tuple[tuple[str, str], ...]:
        """The suppressor's joints: band to plus."""
        if not self.suppressor:
            return ()
        return (plus, f"{self.suppressor.id}:K"), (minus, f"{self.suppressor.id}:A")

    def port_parts(self) -> tuple[Part, ...]:
        """Board, switch, fuse in the return, and the supply that the board's 0 V belongs to."""
        other = self.home if self.home.id != self.supply.id else None
        return tuple(part for part in (self.board, self.port_fuse, self.switch, other) if part)

    def port_joints(self) -> tuple[tuple[str, str], ...]:
        """From the port's terminal through fuse and switch to the board's 0 V; the supplies' common 0 V."""
        assert self.board is not None
        assert self.switch is not None
        inside: tuple[tuple[str, str], ...]
        if self.port_fuse:
            inside = (self.port, f"{self.port_fuse.id}:1"), (f"{self.port_fuse.id}:2", f"{self.switch.id}:D")
        else:
            inside = ((self.port, f"{self.switch.id}:D"),)
        common = ((f"{self.home.id}:0V", f"{self.supply.id}:0V"),) if self.joined else ()
        return *inside, (f"{self.switch.id}:S", f"{self.board.id}:0V"), *common

    def port_path(self) -> tuple[str, ...]:
        """From the port to 0 V of the supply."""
        assert self.board is not None
        assert self.board_return is not None
        return self.board.id, self.board_return.id, self.home.id

    @property
    def source(self) -> str:
        """The terminal at which this toy's feed begins: behind its fuse, or the supply itself."""
        return f"{self.fuse.id}:2" if self.fuse else f"{self.supply.id}:+"


@dataclass(frozen=True)
class Dial:
    """How the strength of a toy is set.

    lowest: the words for its lowest end. to_lowest: the order to bring it there.
    smallest_step: the order to raise it a little. unit: of the as-left value. limit: the highest setting of this build.
    full: where full strength is.
    """

    lowest: str
    to_lowest: str
    smallest_step: str
    unit: str
    full: str
    begin: str
    limit: float | None = None

    def reading(self, what: str) -> Reading:
        """A setting to write down; only a limit of the build bounds it."""
        outside = "Write what the setting shows." if self.limit is None else "Go back below the limit of this build."
        return Reading(what, f"from {self.lowest}", None, self.limit, self.unit, outside)


@dataclass(frozen=True)
class Control:
    """A control: its fields, the circuit round any load, its dial, settings and checks.

    ported: it takes a port of a board. contacts: joints in the loop of the load's current (two for each run).
    """

    word: str
    title: str
    fields: type[ControlFields]
    ported: bool
    contacts: int
    circuit: Callable[[ControlFields, Frame], Circuit]
    dial: Callable[[ControlFields], Dial | None]
    settings: Callable[[ControlFields, Sized], tuple[Setting, ...]]
    steps: Callable[[ControlFields, Sized], tuple[Step, ...]]
    sentence: Callable[[ControlFields, Sized], str]
    control_words: Callable[[ControlFields, Sized], tuple[str, ...]]
    notes: Callable[[ControlFields, Sized], tuple[str, ...]]
    troubles: Callable[[ControlFields, Sized], tuple[Trouble, ...]]
    findings: Callable[[ControlFields, Sized, tuple[str, ...]], tuple[Finding, ...]]


@dataclass(frozen=True)
class Kind:
    """A kind of toy: its fields, its load, and what its page says.

    inductive: it kicks back when switched off; moving: a part that can be reached moves.
    """

    word: str
    title: str
    slug: str
    fields: type[ToyFields]
    part: PartKind
    brushed: Callable[[ToyFields], bool]
    introduction: Callable[[ToyFields, Sized], Introduction]
    cautions: Callable[[ToyFields, Sized], tuple[Caution, ...]]
    mounting: Callable[[ToyFields, Sized], Section]
    steps: Callable[[ToyFields, Sized, Dial | None], tuple[Step, ...]]
    tuning_notes: Callable[[ToyFields, Sized, Dial | None], tuple[str, ...]]
    play_notes: Callable[[ToyFields, Sized], tuple[str, ...]]
    troubles: Callable[[ToyFields, Sized, Dial | None], tuple[Trouble, ...]]
    emergency: tuple[str, ...]
    findings: Callable[[ToyFields, Sized, tuple[str, ...]], tuple[Finding, ...]]
