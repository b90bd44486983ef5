"""The plan: what follows from a description, complete. Pages, JSON and tests see this only and compute nothing."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from guide_gen.model.circuit import SHARED_ROLES, Circuit, PartKind, Wire
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Need, Reading, Setting, Step, Trouble
from guide_gen.values.quantity import Basis, Quantity, WireSize
from guide_gen.values.worked import Worked


@dataclass(frozen=True)
class Load:
    """What a toy asks of its circuit. design_current_A: at full voltage, high end. voltage_V: its own rating.

    kickback: a winding that a meter sees and that kicks back when it is switched off.
    start_A, start_s: what it draws at the moment of switching on at full voltage, and for how long; None: not known.
    held_A: of a motor held fast at full strength on its way, low and high end; the latter is its start, too.
    resistance_ohm, inductance_H: of the winding, low and high end; None: not known.
    pulse_A2s, pulses: heat of one pulse in the fuse, and how many of them it has to stand; None: not a pulsed load.
    release_A: a coil lets go of what it holds below this current; None: it holds nothing, or not known.
    slow_release_s: letting go later than this is told of, 0: with any plain diode; None: it does not matter.
    friction_share: of a motor's torque at full voltage, low and high end; None: as usual.
    switches_per_s: how often it is switched off in use, where that is known.
    momentary: made for pulses, so that it is never kept on to be measured.
    """

    design_current_A: float
    lowest_current_A: float
    voltage_V: float
    basis: Basis
    current: Quantity
    kickback: bool
    start_A: float | None = None
    start_s: float = 0.0
    held_A: tuple[float, float] | None = None
    resistance_ohm: tuple[float, float] | None = None
    inductance_H: tuple[float, float] | None = None
    pulse_A2s: float | None = None
    pulses: float = 1e5
    release_A: float | None = None
    slow_release_s: float | None = None
    friction_share: tuple[float, float] | None = None
    switches_per_s: float | None = None
    momentary: bool = False


@dataclass(frozen=True)
class PulsePlan:
    """How long a pulse-rated coil may be on, must be off, and stands being stuck on.

    None: for ever, never, or not worked out; then a finding or the page says which. fuse_opens_s: the longest that the
    fuse may take, infinite: it may never open.
    peak_degC: of the winding once the pulses have repeated for long. saved_by: what ends a pulse that does not:
    ``fuse``, ``board``, ``coil`` (a thermal cut-out on it), ``cool`` (it may stay on for ever), ``nothing``.
    shortest_off_s: by the limit of the winding alone. pause_s: the pause that the page tells, which meets all rules.
    """

    longest_on_s: float | None
    shortest_off_s: float | None
    stuck_on_safe_s: float | None
    fuse_opens_s: float | None
    peak_degC: float | None = None
    saved_by: str | None = None
    pause_s: float | None = None


@dataclass(frozen=True)
class FusePlan:
    """The fuse of a feed; rating_A is None when there is none.

    smallest_A: the smallest rating of its series that is enough; None when none is. melting_A2s: a floor under the heat
    that melts it; None where its standard tells none.
    """

    id: str
    rating_A: float | None
    series: str
    standard: str
    at: str
    needed_A: float
    governed_by: str
    voltage_V: float | None
    speed: str
    resistance_ohm: float
    stated: bool
    smallest_A: float | None = None
    melting_A2s: float | None = None


@dataclass(frozen=True)
class WirePlan:
    """The wire of a feed: one size for the whole power loop of the toy."""

    size: WireSize
    area_mm2: float
    run_m: float
    ampacity_A: float
    drop_V: float
    drop_percent: float
    governed_by: str
    stated: bool


@dataclass(frozen=True)
class Suppression:
    """What takes the kickback. part: words for a shopping list; class_name: a registered class that fits, or "".

    release_s: from switching off until a coil lets go; None: not known, or it holds nothing. peak_V: at the switch.
    zener_V, zener_W: of a zener in series with the diode, the latter its mean heat. pulse_A, pulse_W, pulse_s: what it
    takes at the moment of switching off, and how long until that is gone. pulse_class_W: its rated 10/1000 μs power at
    the least, of the classes that are sold; infinite: none is enough. capacitance_F, resistance_ohm: of an RC.
    mean_A: mean current of the diode at its worst. heat_W, junction_degC: of the diode under PWM, low and high end.
    cooling_K_per_W: from junction to air at most, where its size alone does not give that.
    """

    type: str
    part: str = ""
    class_name: str = ""
    technology: str = ""
    reverse_V: float | None = None
    forward_A: float | None = None
    surge_A: float | None = None
    drop_low_V: float = 0.0
    drop_high_V: float = 0.0
    release_s: float | None = None
    peak_V: float | None = None
    zener_V: float | None = None
    zener_W: float | None = None
    pulse_A: float | None = None
    pulse_W: float | None = None
    pulse_s: float | None = None
    pulse_class_W: float | None = None
    capacitance_F: float | None = None
    resistance_ohm: float | None = None
    mean_A: float | None = None
    heat_W: float | None = None
    junction_degC: tuple[float, float] | None = None
    cooling_K_per_W: float | None = None


@dataclass(frozen=True)
class PortPlan:
    """A port in use: load_A against limit_A (0.8 of what the port is rated for).

    switch_W, junction_degC: of its switch at the worst setting, the latter low and high end; None, and infinity: it
    heats itself without end.
    signal: what it carries in place of the load, ``the relay's coil``; "": the load itself.
    switching_W: of that heat what comes from turning on and off; None: it is not chopped.
    """

    board: str
    board_id: str
    number: int
    load_A: float
    rated_A: float
    limit_A: float
    switch_W: float | None
    set_to: str
    pwm_frequency_Hz: float | None
    limit_share: float | None
    signal: str
    junction_degC: tuple[float, float]
    switching_W: float | None = None


@dataclass(frozen=True)
class Mounting:
    """The screws that hold it. length_mm, stack_mm: None while the floor's thickness is not known.

    clamp_N: of each screw. torque_Nm: that gives it, besides what a locking nut itself asks for.
    pull_N: at full strength and the highest voltage, with every value that is known as a range at its unfavourable end.
    slip_safety: how many times that the friction holds; both None: its pull is not known.
    """

    screw: str
    length_mm: float | None
    length_shown: str
    count: int
    hole_mm: float
    washer_mm: float
    washer_shown: str
    stack_mm: float | None
    panel_shown: str
    clamp_N: float | None = None
    torque_Nm: float | None = None
    slip_safety: float | None = None
    locking: str = "nylon-insert nut"
    pull_N: float | None = None


@dataclass(frozen=True)
class Value:
    """One of the few values that a builder looks up. estimate: it rests on an estimate."""

    label: str
    figure: str
    unit: str
    note: str
    basis: Basis | None = None
    estimate: bool = False


@dataclass(frozen=True)
class Sized:
    """What planning has worked out about one toy; kinds and controls word their texts from it.

    supply_sure_A: what the supply is sure to give at most; supply_limit_A: what it may give.
    fuses_beside: how many fuses sit side by side at its supply's plus, those of other feeds among them.
    signal_A: what its control takes from the supply besides the load, low and high end. signal_fuse: of that, a relay's
    coil or a controller's input; None: it has none of its own.
    inside_degC: in the closed cabinet, at its warmest. block_slug: the distribution block that its fuse sits at, or "".
    units: ``metric`` or ``US``: which stands first. designators: by sort of part: ``load``, ``fuse``, ``diode``...
    motion: what a shaker does at each setting; None: none, or not worked out. at_full: what one without a setting does.
    foretold: what a reading of a shaker should be, by the names in model/shaking.py: low and high end, in its unit.
    full_mend: what to do where full strength, all that its control gives, may be too much for the contents; else "".
    """

    slug: str
    name: str
    number: int
    units: str
    load: Load
    supply_id: str
    supply_slug: str
    supply_V: float
    supply_low_V: float
    supply_high_V: float
    supply_rated_A: float
    supply_limit_A: float
    fuse: FusePlan
    wire: WirePlan
    port: PortPlan | None
    suppression: Suppression
    mounting: Mounting | None
    circuit: Circuit
    control: str
    ids: Mapping[str, str]
    coil: Suppression | None = None
    inside_degC: float = 40.0
    block_slug: str = ""
    supply_sure_A: float | None = None
    signal_A: tuple[float, float] = (0.0, 0.0)
    signal_fuse: FusePlan | None = None
    fuses_beside: int = 1
    motion: "Motion | None" = None
    at_full: "MotionPoint | None" = None
    foretold: Mapping[str, tuple[float, float]] = field(default_factory=dict)
    full_mend: str = ""

    @property
    def drawn_A(self) -> tuple[float, float]:
        """All that it draws from its supply, low and high end: the load and what its control takes."""
        low, high = self.signal_A
        return self.load.lowest_current_A + low, self.load.design_current_A + high

    @property
    def toy_plus(self) -> str:
        """The terminal that the toy's plus wire runs to: its own, or that of the resistor before it."""
        series = [part.id for part in self.circuit.of(PartKind.RESISTOR) if part.id in self.circuit.main]
        return f"{series[0] if series else self.ids['load']}:1"

    @property
    def toy_minus(self) -> str:
        """The terminal that the toy's return starts from."""
        return f"{self.ids['load']}:2"


# ---- what protects a feed, and what a reader looks up ---------------------------------------------------------------

Curve = tuple[tuple[float, float], ...]
"""Points (current in A, time in s) by rising current."""


@dataclass(frozen=True)
class Protection:
    """One feed in time and current: what the toy draws, when its fuse opens, what its wire stands.

    start_A, start_s: at switching on; start_s 0: how long is not known. pulse_s: how long a pulsed load is on.
    shortest, longest: the band in which the fuse opens. never_A: up to here it never opens; sure_A: from here it opens
    for certain; None without a fuse whose curve is known. stands: how long the wire stands a current, up to 5 s.
    held_A: of a motor held fast, low and high end, whatever the supply gives; None: not a motor, or not known.
    limit_A: what the supply is sure to give at most; limit_high_A: what it may give, None: no more.
    fault_A: what a short circuit at the toy draws at least.
    opened_s: by when the fuse has opened that; None: it may never. in_time: before the wire is harmed.
    by: what ends a short circuit: ``fuse``, ``supply``, ``wire`` (it carries the supply's limit for ever), ``nothing``.
    short, says: what the chart shows, in one line and in sentences.
    """

    load_id: str
    fuse_id: str
    wire_ids: tuple[str, ...]
    supply_id: str
    running_A: tuple[float, float]
    start_A: float | None
    start_s: float
    pulse_s: float | None
    fuse_A: float | None
    never_A: float | None
    sure_A: float | None
    shortest: Curve
    longest: Curve
    wire: str
    ampacity_A: float
    stands: Curve
    limit_A: float
    fault_A: float
    opened_s: float | None
    in_time: bool
    by: str
    short: str
    says: tuple[str, ...]
    held_A: tuple[float, float] | None = None
    limit_high_A: float | None = None


@dataclass(frozen=True)
class LookupRow:
    """Fuse and wires for one current. wires: by run, as shown; "" where no size of the table meets every rule.

    fuse_A: None when the holder's series does not go so high. here: the row that this toy falls into.
    beyond: what else of this build is too small for it, in few words each: ``above this port``. return_A: the fuse in
    the switched return; None without one, or where its series does not go so high.
    """

    current_A: float
    fuse_A: float | None
    wires: tuple[str, ...]
    here: bool = False
    beyond: tuple[str, ...] = ()
    return_A: float | None = None


@dataclass(frozen=True)
class Lookup:
    """If yours draws another current: fuse and wire by current and run. runs_m: one way. holder: the fuse's series.

    note: what else is fused, as a sentence, or "".
    """

    holder: str
    runs_m: tuple[float, ...]
    rows: tuple[LookupRow, ...]
    note: str = ""


@dataclass(frozen=True)
class Question:
    """A question that readers bring, with the answer of this build. id: stable. see: anchor of a section, or ""."""

    id: str
    question: str
    answer: str
    see: str = ""


# ---- what a shaker does at each setting -----------------------------------------------------------------------------


@dataclass(frozen=True)
class MotionBand:
    """A band of settings, as shares. name: no motion, buzz, faint, sway, vibration or too much."""

    name: str
    low: float
    high: float


@dataclass(frozen=True)
class MotionPoint:
    """What it does at a setting. state: still, rocks, needs kick (keeps turning once turned) or turns.

    turning_Hz, accel_m_s2, shift_m: the likeliest. *_low, *_high: over all ranges; None where they are not worked out.
    accel_m_s2 and shift_m are those of the line that takes most of the limit; line: its multiple of the turning
    frequency. limit_m_s2: the acceleration that would reach the contents' limit there.
    """

    setting: float
    state: str
    turning_Hz: float
    turning_low_Hz: float
    turning_high_Hz: float
    accel_m_s2: float
    shift_m: float
    limit_share: float
    limit_m_s2: float | None = None
    accel_low_m_s2: float | None = None
    accel_high_m_s2: float | None = None
    line: int = 1


@dataclass(frozen=True)
class Compared:
    """What was found against what was predicted, in words with units."""

    what: str
    found: str
    predicted: str
    fits: bool


@dataclass(frozen=True)
class Motion:
    """What a shaker does at each setting. Settings are shares of the full one; infinity: never.

    move, start, sustain: over all ranges; start_nominal: the likeliest. begin, step, ceiling, stop: the tuning plan.
    start_likely: where 8 of 10 such machines start; None: not in doubt, or not known. over_top: settings at which what
    stands at the top of the cabinet may be over its limit. resonance: settings at which it may pass the cabinet's own
    sway.
    what: the axis in words: ``setting``, ``share of full voltage``. limit: highest value entered in the port.
    harmful: from the first to the last of them at which what stands at the top may be over its limit. narrows: what
    narrows them, in words. fits_kg_m: the largest unbalance that is not too much as soon as it turns; None: any
    that is described. also: what has to be measured beside helps. kick_helps: whether kick is an advice.
    full_V: what a trimmer gives at its other end, where a setting is a share of that; None: elsewhere.
    as_left: the setting in use. kick: what a short kick would do, or "". contents: the limit of what it shakes, named.
    helps: the one measurement that would help most, or "". doubts, remedies: sentences.
    narrowed: what the readings did to the ranges, in sentences, or "". worked: what was taken where nothing is given.
    short, says: what the chart shows, in one line and in sentences. useful: whether its ranges are narrow enough.
    as_left_share, as_left_worst: of the limit, at the setting in use, likeliest and at worst. start_V: what a meter at
    the motor shows just before it turns over, stop_V: at most, both behind a trimmer. full_share: of the limit, at full
    strength at worst. bench_V, bench_A: at the motor just before it turns over, on a bench supply. pull_N: of the
    weight, at full strength at the highest voltage with every value at the unfavourable end of its range.
    """

    move: tuple[float, float]
    start: tuple[float, float]
    start_nominal: float
    sustain: tuple[float, float]
    begin: float
    step: float
    ceiling: float
    stop: float
    bands: tuple[MotionBand, ...]
    curve: tuple[MotionPoint, ...]
    short: str
    says: tuple[str, ...]
    what: str = "setting"
    limit: float | None = None
    as_left: float | None = None
    contents: str = ""
    kick: str = ""
    helps: str = ""
    doubts: tuple[str, ...] = ()
    remedies: tuple[str, ...] = ()
    compared: tuple[Compared, ...] = ()
    useful: bool = True
    start_likely: tuple[float, float] | None = None
    over_top: tuple[tuple[float, float], ...] = ()
    resonance: tuple[float, float] | None = None
    narrowed: str = ""
    worked: tuple[Worked, ...] = ()
    as_left_share: float | None = None
    start_V: tuple[float, float] | None = None
    stop_V: float | None = None
    full_share: float = 0.0
    bench_V: tuple[float, float] | None = None
    bench_A: tuple[float, float] | None = None
    pull_N: float | None = None
    harmful: tuple[float, float] | None = None
    narrows: str = ""
    also: tuple[str, ...] = ()
    fits_kg_m: float | None = None
    kick_helps: bool = False
    full_V: float | None = None
    as_left_worst: float | None = None


# ---- what a gear motor or a blower does at each setting --------------------------------------------------------------

Ends = tuple[float, float, float]
"""Low end over all ranges, likeliest, high end."""


@dataclass(frozen=True)
class Air:
    """What a fan moves, as shares of what it does at full; sound_dB: the change, minus infinity at rest."""

    flow: Ends
    pressure: Ends
    power: Ends
    sound_dB: Ends


@dataclass(frozen=True)
class SpeedPoint:
    """A gear motor or blower at a setting, a share of the full one, or at a voltage of its supply.

    turning_Hz: of the output or the fan. stall_A: held fast. torque_Nm, force_N: of the output held fast, at its arm.
    None: not known, or it has none.
    """

    setting: float
    supply_V: float
    turning_Hz: Ends | None = None
    stall_A: Ends | None = None
    torque_Nm: Ends | None = None
    force_N: Ends | None = None
    air: Air | None = None


@dataclass(frozen=True)
class SpeedPlan:
    """What a gear motor or a blower does at each setting; settings are shares of the full one, infinity: never.

    turns: what turns: ``output``, ``motor`` or ``fan``. axis: the setting in words, "" where there is none.
    start: where it begins to turn, with the likeliest between; keeps: down to where it keeps turning; None: not known.
    points: a curve over the settings; where there is none, lowest, nominal and highest voltage of the supply.
    full: at full setting. moving_Nm: torque of the output as it was measured running.
    held_fuse: what the fuse does when it is held fast: ``opens``, ``may open``, ``never opens``, "" when not known.
    heads, rows: the table. short, says: the chart in one line and in sentences. helps: the measurement that helps most.
    useful: whether the range of its start is narrow enough. compared: what was found; narrowed: what of it cut ranges.
    """

    turns: str
    axis: str
    points: tuple[SpeedPoint, ...]
    full: SpeedPoint | None
    start: Ends | None = None
    keeps: Ends | None = None
    begin: float | None = None
    step: float = 0.0
    limit: float | None = None
    as_left: float | None = None
    moving_Nm: Ends | None = None
    held_fuse: str = ""
    held_opens_s: float | None = None
    heads: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    short: str = ""
    says: tuple[str, ...] = ()
    kick: str = ""
    helps: str = ""
    compared: tuple[Compared, ...] = ()
    narrowed: tuple[str, ...] = ()
    useful: bool = True
    worked: tuple[Worked, ...] = ()


# ---- a supply as a whole --------------------------------------------------------------------------------------------


@dataclass(frozen=True)
class Branch:
    """One toy's part of a supply. start_A: at switching on at full voltage; None: not known.

    wire: its thinnest. by: what ends a short circuit, as in `Protection`. block: slug of the block it runs on, or "".
    start_note: what the start assumes, or "". opened_s: by when its fuse has opened in a short circuit; None: it may
    never.
    """

    toy: str
    name: str
    fuse_id: str
    fuse_A: float | None
    wire: str
    ampacity_A: float
    running_A: tuple[float, float]
    start_A: float | None
    by: str
    block: str = ""
    start_note: str = ""
    opened_s: float | None = None


@dataclass(frozen=True)
class Budget:
    """What is asked of a supply.

    blocks: those on it, each with all its toys. running_A: all toys together, with what their controls take.
    gives_A: for ever. usable_A: what of that may be asked for long. used_share: of what it gives, asked by what runs.
    start_A: while the heaviest known starter starts and all others run; started_by: its name, "" when none is known.
    started_s: for how long it takes that.
    start_mend: what helps where that is more than it gives; "": it is not.
    unmeasured: names of toys whose start is not known. needed_A, buy_A: rating needed, and the standard one to buy;
    buy_A None: none is large enough. short: the chosen supply is too small.
    contradicted: it is too small only by a limit below its own rated current, so that one of the two is wrong.
    overload, start, shared: sentences: what it does on overload and what protects; starts; what several supplies need.
    questions: what readers ask of a supply, answered.
    """

    branches: tuple[Branch, ...]
    running_A: float
    usable_A: float
    used_share: float
    start_A: float
    started_by: str
    unmeasured: tuple[str, ...]
    needed_A: float
    buy_A: float | None
    short: bool
    overload: tuple[str, ...]
    start: tuple[str, ...]
    shared: tuple[str, ...]
    worked: tuple[Worked, ...]
    started_s: float = 0.0
    gives_A: float = 0.0
    start_mend: str = ""
    contradicted: bool = False
    questions: tuple[Question, ...] = ()
    blocks: tuple[Branch, ...] = ()

    @property
    def rows(self) -> tuple[Branch, ...]:
        """The lines of its table: what is fed straight from it, then each block with its toys behind it."""
        direct = [one for one in self.branches if not one.block]
        behind = {row: [one for one in self.branches if one.block == row.block] for row in self.blocks}
        return (*direct, *(line for row, toys in behind.items() for line in (row, *toys)))


@dataclass(frozen=True)
class Section:
    """Text of one section of a page that is not made of steps: paragraphs and advice."""

    paragraphs: tuple[str, ...] = ()
    advice: tuple[Advice, ...] = ()


@dataclass(frozen=True)
class ToyPlan:
    """All that one toy's page says."""

    slug: str
    name: str
    kind: str
    kind_title: str
    number: int
    of: int
    sized: Sized
    introduction: Introduction
    values: tuple[Value, ...]
    cautions: tuple[Caution, ...]
    words: "Words"
    mounting_advice: Section
    wiring_notes: tuple[str, ...]
    tuning_notes: tuple[str, ...]
    play_notes: tuple[str, ...]
    needs: tuple[Need, ...]
    readings: tuple[Reading, ...]
    steps: tuple[Step, ...]
    settings: tuple[Setting, ...]
    emergency: tuple[str, ...]
    troubles: tuple[Trouble, ...]
    disposal: str
    pulse: PulsePlan | None
    worked: tuple[Worked, ...]
    findings: tuple[Finding, ...]
    protection: Protection | None = None
    lookup: Lookup | None = None
    questions: tuple[Question, ...] = ()
    motion: Motion | None = None
    speed: SpeedPlan | None = None
    at_full: MotionPoint | None = None  # what a shaker does that gets full strength or nothing
    found_at_full: tuple[Compared, ...] = ()  # what was found of it

    @property
    def must_fix(self) -> bool:
        """Whether wiring, first-power and tuning steps are held back."""
        return any(finding.level is Level.MUST for finding in self.findings)

    @property
    def wires(self) -> tuple[Wire, ...]:
        """The toy's own wires; shared leads stand under their supply, board or block."""
        return tuple(wire for wire in self.sized.circuit.wires if wire.role not in SHARED_ROLES)


@dataclass(frozen=True)
class Words:
    """A circuit in words. chain: stops and wires from + to 0 V: ("stop", id, text) or ("wire", id, text)."""

    short: str
    sentence: str
    chain: tuple[tuple[str, str, str], ...]
    across: tuple[str, ...]
    control: tuple[str, ...]
    notes: tuple[str, ...]


@dataclass(frozen=True)
class SupplyPlan:
    """A supply and its lead."""

    slug: str
    id: str
    voltage_V: float
    rated_A: float
    limit_A: float
    demand_A: float
    worst_A: float
    headroom_percent: float
    overload: str
    wires: tuple[Wire, ...]
    worked: tuple[Worked, ...]
    budget: Budget | None = None


@dataclass(frozen=True)
class BoardPlan:
    """A driver board, its 0 V lead and its ports (number -> toy slug)."""

    slug: str
    id: str
    load_A: float
    rated_A: float
    limit_A: float
    wires: tuple[Wire, ...]
    ports: Mapping[int, str]
    port_count: int
    worked: tuple[Worked, ...]


@dataclass(frozen=True)
class BlockPlan:
    """A distribution block: its fuse at the supply, its plus and 0 V lead, the toys behind it.

    load: all its toys together. wire: the size of both leads. says: sentences. readings: before any power.
    """

    slug: str
    id: str
    supply_slug: str
    supply_id: str
    load: Load
    fuse: FusePlan
    wire: WirePlan
    wires: tuple[Wire, ...]
    toys: tuple[str, ...]
    protection: Protection
    says: tuple[str, ...]
    readings: tuple[Reading, ...]
    worked: tuple[Worked, ...]


@dataclass(frozen=True)
class Plan:
    """A whole build."""

    slug: str
    file: str
    name: str
    summary: str
    invented: bool
    revision: str
    date: str
    author: str
    licence: str
    units: str
    toys: Mapping[str, ToyPlan]
    supplies: Mapping[str, SupplyPlan]
    boards: Mapping[str, BoardPlan]
    cautions: tuple[Caution, ...]
    needs: tuple[Need, ...]
    worked: tuple[Worked, ...]
    findings: tuple[Finding, ...]
    blocks: Mapping[str, BlockPlan] = field(default_factory=dict)
