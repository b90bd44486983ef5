"""The plan: what follows from a description, complete. Pages, JSON and tests see this only and compute nothing."""

from collections.abc import Mapping
from dataclasses import dataclass

from guide_gen.model.circuit import Circuit, Wire
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Need, Reading, Setting, Step, Trouble
from guide_gen.values.quantity import Basis, Quantity, WireSize
from guide_gen.values.worked import Worked


@dataclass(frozen=True)
class Load:
    """What a toy asks of its circuit. design_current_A: at full voltage, high end. voltage_V: its own rating.

    kickback: a winding that a meter sees and that kicks back when it is switched off.
    start_A, start_s: what it draws at the moment of switching on at full voltage, and for how long; None: not known.
    resistance_ohm, inductance_H: of the winding, low and high end; None: not known.
    pulse_A2s, pulses: heat of one pulse in the fuse, and how many of them it has to stand; None: not a pulsed load.
    """

    design_current_A: float
    lowest_current_A: float
    voltage_V: float
    basis: Basis
    current: Quantity
    kickback: bool
    start_A: float | None = None
    start_s: float = 0.0
    resistance_ohm: tuple[float, float] | None = None
    inductance_H: tuple[float, float] | None = None
    pulse_A2s: float | None = None
    pulses: float = 1e5


@dataclass(frozen=True)
class PulsePlan:
    """How long a pulse-rated coil may be on, must be off, and stands being stuck on; None: for ever, or never."""

    longest_on_s: float | None
    shortest_off_s: float | None
    stuck_on_safe_s: float | None
    fuse_opens_s: float | None


@dataclass(frozen=True)
class FusePlan:
    """The fuse of a feed; rating_A is None when there is none."""

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
    """What takes the kickback. part: words for a shopping list; class_name: a registered class that fits, or ""."""

    type: str
    part: str = ""
    class_name: str = ""
    technology: str = ""
    reverse_V: float | None = None
    forward_A: float | None = None
    surge_A: float | None = None
    drop_low_V: float = 0.0
    drop_high_V: float = 0.0


@dataclass(frozen=True)
class PortPlan:
    """A port in use: load_A against limit_A (0.8 of what the port is rated for)."""

    board: str
    board_id: str
    number: int
    load_A: float
    rated_A: float
    limit_A: float
    switch_W: float
    set_to: str
    pwm_frequency_Hz: float | None
    limit_share: float | None


@dataclass(frozen=True)
class Mounting:
    """The screws that hold it. length_mm, stack_mm: None while the floor's thickness is not known."""

    screw: str
    length_mm: float | None
    length_shown: str
    count: int
    hole_mm: float
    washer_mm: float
    washer_shown: str
    stack_mm: float | None
    panel_shown: str


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

    units: ``metric`` or ``US``: which stands first. designators: by sort of part: ``load``, ``fuse``, ``diode``...
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

    @property
    def must_fix(self) -> bool:
        """Whether wiring, first-power and tuning steps are held back."""
        return any(finding.level is Level.MUST for finding in self.findings)

    @property
    def wires(self) -> tuple[Wire, ...]:
        """The toy's own wires; shared leads stand under their supply or board."""
        shared = {"supply lead", "board return"}
        return tuple(wire for wire in self.sized.circuit.wires if wire.role not in shared)


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
