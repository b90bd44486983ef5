"""What switches a load, a relay's coil or a controller's input: the fuse that guards it, and its leads as a feed."""

from collections.abc import Sequence
from dataclasses import dataclass

from guide_gen.description.build import Build
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import SHARED_ROLES
from guide_gen.model.plan import FusePlan, Load, Sized, WirePlan
from guide_gen.planning import faults, wires
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drafts import Draft, draft, limit_A, limit_to_carry_A, through_port, voltage_ends
from guide_gen.planning.loops import Loop, Run
from guide_gen.planning.protection import ended_by, opens_in_time, seconds
from guide_gen.values import show


@dataclass(frozen=True)
class Signal:
    """The leads of what switches a load, from the fuse that guards them to the port. units: ``metric`` or ``US``."""

    draft: Draft
    loop: Loop
    choice: wires.Choice
    fault: faults.Fault | None
    units: str

    @property
    def slug(self) -> str:
        """The toy that it belongs to."""
        return self.draft.slug

    @property
    def name(self) -> str:
        """Its name in what is found."""
        return f"{self.draft.control.signal} of {self.draft.name}"

    @property
    def load(self) -> Load:
        """What it draws."""
        return through_port(self.draft.control, self.draft.toy, self.draft.load)

    @property
    def fuse(self) -> FusePlan:
        """Its own fuse, or the feed's."""
        return self.draft.returns_by

    @property
    def wire(self) -> WirePlan:
        """The size of its leads."""
        return self.choice.plan

    @property
    def supply_slug(self) -> str:
        """The supply that feeds it."""
        return self.draft.supply_slug

    @property
    def supply_high_V(self) -> float:
        """The highest voltage of that supply."""
        return self.loop.high_V


def drafted(build: Build, number: int, slug: str, cabling: Cabling) -> Draft:
    """Load and fuses of one toy; a relay's coil has its own fuse where the load's is too large for coil and port."""
    shared = draft(build, number, slug)
    no_coil = shared.control.coil(shared.toy.control) is None
    if no_coil or shared.fuse.rating_A is None or guarded(build, shared, cabling):
        return shared
    apart = draft(build, number, slug, apart=True)
    own = apart.signal_fuse
    smaller = own is not None and own.rating_A is not None and own.rating_A < shared.fuse.rating_A
    return apart if smaller else shared


def guarded(build: Build, one: Draft, cabling: Cabling) -> bool:
    """Whether the feed's fuse protects the thinnest leads that a coil may have, and the port that switches it.

    The shared leads are not sized yet: they count at their lengths in the thinnest size, which keeps a short circuit
    at its end smallest, and not at all where it is largest.
    """
    size, loop = cabling.sizes()[0], loop_of(build, one, [Run(length) for length in lengths_m(build, one)])
    if not takes(cabling, one.fuse, build.boards[one.board_slug].port_current.low):
        return False
    if faults.curve_of(one.fuse) is None:
        return True
    stands = faults.stands(cabling, size, one.fuse, loop)
    return stands and ended_by(cabling, size, one.fuse, loop, build.supplies[one.supply_slug].overload) != "nothing"


def lengths_m(build: Build, one: Draft) -> list[float]:
    """Every run from the supply's plus through its fuse to what switches the load, to its port and back to 0 V."""
    before = [build.supplies[one.supply_slug].fuse_block.run.high]
    if one.block_slug:
        before.append(build.blocks[one.block_slug].feed.run.high)
    run_m = one.toy.feed.run.high
    return [*before, run_m, run_m, build.boards[one.board_slug].back.run.high]


def loop_of(build: Build, one: Draft, runs: Sequence[Run], row: str = "", row_ohm: float = 0.0) -> Loop:
    """The way of its current; no limit is set to what it loses, since it draws so little. row: as `Loop` has it."""
    supply, switch = build.supplies[one.supply_slug], build.boards[one.board_slug].switch_resistance
    low_V, high_V = voltage_ends(supply)
    low_A, high_A = one.signal_A
    return Loop(
        runs=tuple(runs),
        contacts=2 * len(runs),
        switch_ohm=switch.high,
        switch_low_ohm=switch.low,
        current_A=high_A,
        lowest_A=low_A,
        voltage_V=supply.voltage.middle,
        limit_share=1.0,
        low_V=low_V,
        high_V=high_V,
        limit_low_A=limit_A(supply),
        limit_high_A=limit_to_carry_A(supply),
        overload=supply.overload,
        row=row,
        row_ohm=row_ohm,
        return_ohm=one.port_fuse.resistance_ohm if one.port_fuse else 0.0,
    )


def takes(cabling: Cabling, fuse: FusePlan, port_A: float) -> bool:
    """Whether the thinnest leads and a port for this current may stand behind a fuse."""
    return wires.carries_fuse(cabling, cabling.sizes()[0], fuse) and reaches(port_A, fuse.rating_A or 0.0)


def fault_words(signal: Signal, sized: Sized, cabling: Cabling, overload: str) -> str:
    """What its own fuse does in a short circuit of its leads."""
    fuse, size, fault = signal.fuse, signal.wire.size, signal.fault
    circuit, what = sized.circuit, signal.draft.control.signal
    own = [wire.id for wire in circuit.wires if wire.id in circuit.control and wire.role not in SHARED_ROLES]
    lead = (
        f"{fuse.id}, {show.amps(fuse.rating_A or 0.0)}, guards {' and '.join(own)}, {size.shown}, the leads of {what}"
    )
    if fault is None:
        return f"{lead}."
    flows = f"{lead}: a short circuit at their end draws {show.amps(fault.least_A)} or more"
    if opens_in_time(cabling, size, fuse, signal.loop):
        return f"{flows}, and {fuse.id} has opened within {seconds(fault.longest_s)}."
    ender = {"supply": "the supply ends that", "wire": f"{size.shown} carries that for ever"}
    by = ended_by(cabling, size, fuse, signal.loop, overload)
    return f"{flows}; {ender.get(by, f'{fuse.id} may not open in time')}."


def signal_of(build: Build, one: Draft, loop: Loop, cabling: Cabling) -> Signal:
    """Its leads, of the thinnest size that its fuse allows."""
    choice = wires.choose(cabling, one.returns_by, loop, None, one.toy.feed.run.high)
    fault = faults.fault_of(cabling, choice.plan.size, one.returns_by, loop)
    return Signal(one, loop, choice, fault, build.units)
