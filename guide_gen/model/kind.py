"""What a kind of toy and a control offer to the rest of the house."""

from collections.abc import Callable
from dataclasses import dataclass

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire
from guide_gen.model.fields import ControlFields, ToyFields
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Caution, Introduction, Reading, Setting, Step, Trouble
from guide_gen.model.plan import Load, PulsePlan, Section, Sized
from guide_gen.values.worked import Worked


@dataclass(frozen=True)
class Frame:
    """What stands round a load before a control joins it up.

    number: the toy's place in its build; block: its wires are numbered from here on.
    suppressors: what lies across the load, in series from plus to minus. series: a part before the load, or None.
    fuse, port_fuse: None when there is none. board, switch, board_return: None without a port.
    home: the supply that the board's 0 V lead runs to; joined: its 0 V and the supply's are joined at the board.
    controller_id: designator kept for a controller. input_fuse: rating of a fuse of its input's own, or "".
    """

    number: int
    block: int
    supply: Part
    lead: Wire
    fuse: Part | None
    load: Part
    suppressors: tuple[Part, ...]
    series: Part | None
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
        return tuple(part for part in (self.supply, self.fuse, self.series, self.load, *self.suppressors) if part)

    @property
    def plus_end(self) -> str:
        """The terminal of the toy that its plus wire runs to."""
        return f"{(self.series or self.load).id}:1"

    @property
    def minus_end(self) -> str:
        """The terminal of the toy that its return starts from."""
        return f"{self.load.id}:2"

    def load_path(self) -> tuple[str, ...]:
        """The toy on the way of its current."""
        return (self.series.id, self.load.id) if self.series else (self.load.id,)

    def load_joints(self) -> tuple[tuple[str, str], ...]:
        """What is joined at the toy without a wire: a resistor before it, the suppressor across it."""
        before = ((f"{self.series.id}:2", f"{self.load.id}:1"),) if self.series else ()
        return *before, *self.across(self.plus_end, self.minus_end)

    def feed_wires(self) -> tuple[Wire, ...]:
        """The lead before the fuse; without a fuse the feed itself begins at the supply."""
        return (self.lead,) if self.fuse else ()

    def feed_path(self) -> tuple[str, ...]:
        """From the supply's plus to behind the fuse."""
        return (self.supply.id, self.lead.id, self.fuse.id) if self.fuse else (self.supply.id,)

    def across(self, plus: str, minus: str) -> tuple[tuple[str, str], ...]:
        """The suppressor's joints: from plus through its parts to minus, a diode's band to plus, a zener's to minus."""
        ends = [ends_of(part) for part in self.suppressors]
        terminals = [plus, *(end for pair in ends for end in pair), minus]
        return tuple(zip(terminals[::2], terminals[1::2], strict=True)) if ends else ()

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


def ends_of(part: Part) -> tuple[str, str]:
    """A suppressor's part from its plus end to its minus end."""
    first, last = part.terminals
    return (
        (f"{part.id}:{last}", f"{part.id}:{first}")
        if part.what is PartKind.ZENER
        else (f"{part.id}:{first}", f"{part.id}:{last}")
    )


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

    part: how it is drawn. series: a part that stands before it inside the toy. pulse: what a pulse-rated coil stands.
    worked: results of its own, with their working.
    """

    word: str
    title: str
    slug: str
    fields: type[ToyFields]
    part: PartKind
    load: Callable[[ToyFields], Load]
    introduction: Callable[[ToyFields, Sized], Introduction]
    cautions: Callable[[ToyFields, Sized], tuple[Caution, ...]]
    mounting: Callable[[ToyFields, Sized], Section]
    steps: Callable[[ToyFields, Sized, Dial | None], tuple[Step, ...]]
    tuning_notes: Callable[[ToyFields, Sized, Dial | None], tuple[str, ...]]
    play_notes: Callable[[ToyFields, Sized], tuple[str, ...]]
    troubles: Callable[[ToyFields, Sized, Dial | None], tuple[Trouble, ...]]
    emergency: tuple[str, ...]
    findings: Callable[[ToyFields, Sized, tuple[str, ...]], tuple[Finding, ...]]
    series: Callable[[ToyFields, int, float], Part | None] = lambda toy, number, supply_V: None
    pulse: Callable[[ToyFields, Sized], PulsePlan | None] = lambda toy, sized: None
    worked: Callable[[ToyFields, Sized], tuple[Worked, ...]] = lambda toy, sized: ()
