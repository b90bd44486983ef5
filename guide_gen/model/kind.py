"""What a kind of toy and a control offer to the rest of the house."""

from collections.abc import Callable
from dataclasses import dataclass

from guide_gen.model.circuit import Circuit, Part, PartKind, Wire
from guide_gen.model.fields import ControlFields, SuppressorFields, ToyFields
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Caution, Introduction, Need, Reading, Setting, Step, Trouble
from guide_gen.model.machine import Machine, Turner
from guide_gen.model.plan import Load, PulsePlan, Question, Section, Sized, Value
from guide_gen.values.quantity import Quantity
from guide_gen.values.worked import Worked


@dataclass(frozen=True)
class Row:
    """A distribution block between a supply and the fuses that sit at it.

    fuse: its own, at the supply; None when there is none. feed, back: its plus and its 0 V lead.
    """

    part: Part
    fuse: Part | None
    feed: Wire
    back: Wire


@dataclass(frozen=True)
class Frame:
    """What stands round a load before a control joins it up.

    number: the toy's place in its build; block: its wires are numbered from here on.
    suppressors: what lies across the load, in series from plus to minus. series: a part before the load, or None.
    fuse, port_fuse: None when there is none. board, switch, board_return: None without a port.
    home: the supply that the board's 0 V lead runs to: the toy's own, unless their 0 V are not joined at the board.
    controller_id: designator kept for a controller. signal_fuse: of its input or of a relay's coil, where that has its
    own.
    coil_suppressors: what lies across the control's own coil, in series from plus to minus.
    row: the distribution block that its fuse sits at; None: it sits at the supply.
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
    feed_m: float
    return_m: float
    plus: str
    zero: str
    back: str
    signal: str
    controller_id: str
    signal_fuse: Part | None
    coil_suppressors: tuple[Part, ...] = ()
    row: Row | None = None

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
        row = (self.row.fuse, self.row.part) if self.row else ()
        return tuple(part for part in (self.supply, *row, self.fuse, self.series, self.load, *self.suppressors) if part)

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
        """What is joined without a wire: a fuse at its block, a resistor before the toy, the suppressor across it."""
        row = ((f"{self.row.part.id}:+", f"{self.fuse.id}:1"),) if self.row and self.fuse else ()
        before = ((f"{self.series.id}:2", f"{self.load.id}:1"),) if self.series else ()
        return *row, *before, *self.across(self.plus_end, self.minus_end)

    def feed_wires(self) -> tuple[Wire, ...]:
        """The lead before the fuse, and that of a block; without a fuse the feed itself begins at the supply."""
        if self.row:
            return (self.lead, self.row.feed) if self.row.fuse else (self.row.feed,)
        return (self.lead,) if self.fuse else ()

    def row_path(self) -> tuple[str, ...]:
        """From the supply's plus to the block, or the supply alone."""
        if not self.row:
            return (self.supply.id,)
        before = (self.lead.id, self.row.fuse.id) if self.row.fuse else ()
        return self.supply.id, *before, self.row.feed.id, self.row.part.id

    def feed_path(self) -> tuple[str, ...]:
        """From the supply's plus to behind the fuse."""
        if not self.fuse:
            return self.row_path()
        return (*self.row_path(), *(() if self.row else (self.lead.id,)), self.fuse.id)

    def signal_parts(self) -> tuple[Part, ...]:
        """The fuse of what switches the load, where that has one of its own."""
        return (self.signal_fuse,) if self.signal_fuse else ()

    @property
    def signal_source(self) -> str:
        """The terminal at which the plus of what switches the load begins: behind its own fuse, or the feed's."""
        return f"{self.signal_fuse.id}:2" if self.signal_fuse else self.source

    def signal_joints(self) -> tuple[tuple[str, str], ...]:
        """Its own fuse sits beside the feed's: both take their plus at one place."""
        if not self.signal_fuse:
            return ()
        return ((f"{self.fuse.id}:1" if self.fuse else self.source, f"{self.signal_fuse.id}:1"),)

    def signal_path(self) -> tuple[str, ...]:
        """From the supply's plus to behind that fuse, or behind the feed's."""
        if not self.signal_fuse:
            return self.feed_path()
        lead = (self.lead.id,) if self.fuse and not self.row else ()
        return (*self.row_path(), *lead, self.signal_fuse.id)

    @property
    def zero_end(self) -> str:
        """Where a 0 V that no port switches returns to: the block, or the supply."""
        return f"{(self.row.part if self.row else self.supply).id}:0V"

    def zero_wires(self) -> tuple[Wire, ...]:
        """The block's 0 V lead, on the way from there."""
        return (self.row.back,) if self.row else ()

    def zero_path(self) -> tuple[str, ...]:
        """From there to 0 V of the supply."""
        return (self.row.part.id, self.row.back.id, self.supply.id) if self.row else (self.supply.id,)

    def across(self, plus: str, minus: str) -> tuple[tuple[str, str], ...]:
        """The joints of the load's suppressor."""
        return joints_across(self.suppressors, plus, minus)

    def port_parts(self) -> tuple[Part, ...]:
        """Board, switch, fuse in the return, and the supply that the board's 0 V belongs to."""
        other = self.home if self.home.id != self.supply.id else None
        return tuple(part for part in (self.board, self.port_fuse, self.switch, other) if part)

    def port_joints(self) -> tuple[tuple[str, str], ...]:
        """From the port's terminal through fuse and switch to the board's 0 V."""
        assert self.board is not None
        assert self.switch is not None
        inside: tuple[tuple[str, str], ...]
        if self.port_fuse:
            inside = (self.port, f"{self.port_fuse.id}:1"), (f"{self.port_fuse.id}:2", f"{self.switch.id}:D")
        else:
            inside = ((self.port, f"{self.switch.id}:D"),)
        return *inside, (f"{self.switch.id}:S", f"{self.board.id}:0V")

    def port_path(self) -> tuple[str, ...]:
        """From the port to 0 V of the supply."""
        assert self.board is not None
        assert self.board_return is not None
        return self.board.id, self.board_return.id, self.home.id

    @property
    def source(self) -> str:
        """The terminal at which this toy's feed begins: behind its fuse, or the block or the supply itself."""
        return f"{self.fuse.id}:2" if self.fuse else f"{(self.row.part if self.row else self.supply).id}:+"


def joints_across(parts: tuple[Part, ...], plus: str, minus: str) -> tuple[tuple[str, str], ...]:
    """From plus through a suppressor's parts to minus: a diode's band to plus, a zener's to minus."""
    ends = [ends_of(part) for part in parts]
    terminals = [plus, *(end for pair in ends for end in pair), minus]
    return tuple(zip(terminals[::2], terminals[1::2], strict=True)) if ends else ()


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
    full: where full strength is. start: from where to where it should begin to move, in `unit`.
    """

    lowest: str
    to_lowest: str
    smallest_step: str
    unit: str
    full: str
    begin: str
    limit: float | None = None
    start: tuple[float, float] | None = None

    def start_reading(self, what: str) -> Reading:
        """The setting at which it begins to move, with where that should be, if it was worked out."""
        if self.start is None:
            return self.reading(what)
        return Reading(
            what,
            f"from {self.lowest}",
            *self.start,
            self.unit,
            "Below: it has more strength than described. Above: it rubs, or voltage is lost. Look before you go on.",
        )

    def reading(self, what: str) -> Reading:
        """A setting to write down; only a limit of the build bounds it."""
        if self.limit is None:
            whole = 100.0 if self.unit == "%" else None
            return Reading(what, f"from {self.lowest}", None, whole, self.unit, "Write what the setting shows.")
        return Reading(
            what, f"from {self.lowest}", None, self.limit, self.unit, "Go back below the limit of this build."
        )


@dataclass(frozen=True)
class Coil:
    """A coil of the control's own, which a port switches; it kicks back too.

    load: what it draws at its own voltage. stated: its suppressor as described; None: chosen.
    path: the suppressor's keys below the control.
    """

    load: Load
    stated: SuppressorFields | str | None
    path: tuple[str, ...]


@dataclass(frozen=True)
class Weighed:
    """A value on which results rest. path: its keys, for a kind's or control's own those below the toy or control.

    measure: how to know it better, with which instrument. asked: its basis is asked for, so that none counts as an
    estimate. moves: it counts only where the toy's motion is worked out.
    """

    name: str
    value: Quantity
    path: tuple[str, ...]
    measure: str
    asked: bool = True
    moves: bool = False


@dataclass(frozen=True)
class Missing:
    """A key that is left out, and what of the plan it would give. All of a toy are told in one note.

    key: as it would be written, ``motor: {resistance: ..}``. gives: what is not worked out without it. how: how to
    know it, with which instrument, as whole sentences. path: keys of the map that lacks it, for a kind's or control's
    own those below the toy or control.
    """

    key: str
    gives: str
    how: str
    path: tuple[str, ...] = ()


@dataclass(frozen=True)
class Control:
    """A control: its fields, the circuit round any load, its dial, settings and checks.

    short: one word for the strip of values. ported: it takes a port of a board.
    contacts: joints in the loop of the load's current (two for each run).
    chops: PWM drives the load. signal: what the port carries in place of the load, ``the relay's coil``; "": the load.
    port_current_A: what the port carries. port_words: what stands at the port's switch, by the board's PWM frequency.
    set_to: how the port is set up. switch: resistance of what switches the load, where that is not the port.
    own_fuse: the signal's plus has a fuse of its own. suppresses: it takes the load's kickback itself.
    reverses: its output can reverse. coil: a coil of its own. weighed: its values that results rest on.
    contact_V: DC voltage of a contact of its own that switches the load; None: it has none.
    worked: results of its own, with their working. values: its lines in the strip of values.
    questions: what readers ask of it alone, answered. missing: its keys that are left out, with what they would give.
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
    short: str
    chops: bool = False
    signal: str = ""
    port_current_A: Callable[[ControlFields, Load], float] = lambda fields, load: load.design_current_A
    port_words: Callable[[ControlFields, Quantity | None], tuple[str, ...]] = lambda fields, frequency: ("on/off",)
    set_to: Callable[[ControlFields], str] = lambda fields: "on/off"
    switch: Callable[[ControlFields], Quantity | None] = lambda fields: None
    own_fuse: Callable[[ControlFields], bool] = lambda fields: False
    suppresses: Callable[[ControlFields], bool] = lambda fields: False
    reverses: Callable[[ControlFields], bool] = lambda fields: False
    coil: Callable[[ControlFields], Coil | None] = lambda fields: None
    contact_V: Callable[[ControlFields], float | None] = lambda fields: None
    weighed: Callable[[ControlFields], tuple[Weighed, ...]] = lambda fields: ()
    worked: Callable[[ControlFields, Sized], tuple[Worked, ...]] = lambda fields, sized: ()
    values: Callable[[ControlFields], tuple[Value, ...]] = lambda fields: ()
    questions: Callable[[ControlFields, Sized], tuple[Question, ...]] = lambda fields, sized: ()
    missing: Callable[[ControlFields, Sized], tuple[Missing, ...]] = lambda fields, sized: ()

    @property
    def port_carries_load(self) -> bool:
        """Whether a port switches the load itself."""
        return self.ported and not self.signal


@dataclass(frozen=True)
class Kind:
    """A kind of toy: its fields, its load, and what its page says.

    part: how it is drawn. series: a part that stands before it inside the toy. pulse: what a pulse-rated coil stands.
    worked: results of its own, with their working. drop_rule: which usual limit of its voltage drop holds.
    machine: motor and weight, for a toy whose motion is worked out. turner: motor and what it turns, where that has no
    weight. needs: parts of its own besides the circuit's.
    weighed: its values that results rest on. flash_Hz: how often it flashes in a second.
    pulls_N: how hard it pulls at its mount at full strength and the highest voltage; None: it does not, or not known.
    questions: what readers ask of it alone, answered. missing: its keys that are left out, with what they would give.
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
    drop_rule: str = "drop limit"
    series: Callable[[ToyFields, int, float], Part | None] = lambda toy, number, supply_V: None
    needs: Callable[[ToyFields, Sized], tuple[Need, ...]] = lambda toy, sized: ()
    weighed: Callable[[ToyFields], tuple[Weighed, ...]] = lambda toy: ()
    flash_Hz: Callable[[ToyFields], float] = lambda toy: 0.0
    pulse: Callable[[ToyFields, Sized], PulsePlan | None] = lambda toy, sized: None
    worked: Callable[[ToyFields, Sized], tuple[Worked, ...]] = lambda toy, sized: ()
    machine: Callable[[ToyFields], Machine | None] = lambda toy: None
    pulls_N: Callable[[ToyFields, float], float | None] = lambda toy, highest_V: None
    turner: Callable[[ToyFields], Turner | None] = lambda toy: None
    questions: Callable[[ToyFields, Sized], tuple[Question, ...]] = lambda toy, sized: ()
    missing: Callable[[ToyFields, Sized], tuple[Missing, ...]] = lambda toy, sized: ()
