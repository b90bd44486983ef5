"""What the fuses, leads and parts of a build come to: what its pages, checks and mends all begin from."""

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass, replace

from guide_gen.description.build import Build
from guide_gen.formulas import port as port_formulas
from guide_gen.model.circuit import Circuit, PartKind
from guide_gen.model.plan import FusePlan, PortPlan, Sized, Suppression
from guide_gen.planning import blocks, frames, freewheel, signals, suppression, switching, wires
from guide_gen.planning.cabling import Cabling, cabling_of
from guide_gen.planning.drafts import (
    Draft,
    board_returns,
    drop_share,
    home_of,
    limit_A,
    limit_to_carry_A,
    returns_to,
    voltage_ends,
)
from guide_gen.planning.faults import Fault, fault_of
from guide_gen.planning.loops import Loop, Run
from guide_gen.published.tables import rule
from guide_gen.values.worked import Worked, work

LONGEST_BARE_M = rule("lead before the fuse").value


@dataclass(frozen=True)
class FedToy:
    """A toy with its fuse, leads, port and parts sized. worked: how all of it was found.

    signal: the leads of what switches the load, where that is not the port itself.
    """

    draft: Draft
    sized: Sized
    loop: Loop
    choice: wires.Choice
    fault: Fault | None
    worked: tuple[Worked, ...]
    signal: signals.Signal | None = None


@dataclass(frozen=True)
class Sizing:
    """Everything of a build that is fused, wired or switched, by slug. positions: fuses that sit beside each supply."""

    build: Build
    cabling: Cabling
    shared: frames.Shared
    toys: Mapping[str, FedToy]
    positions: Mapping[str, int]

    @property
    def drafts(self) -> list[Draft]:
        """Its toys before their wires, in the order of the build."""
        return [one.draft for one in self.toys.values()]


def sizing(build: Build) -> Sizing:
    """All fuses and leads of a build: stated ones as stated, the others chosen."""
    cabling = cabling_of(build.wiring, len(build.toys) + len(build.blocks))
    drafts = [signals.drafted(build, number, slug, cabling) for number, slug in enumerate(build.toys, start=1)]
    shared = shared_leads(build, drafts, cabling)
    beside = {slug: positions(drafts, slug) for slug in build.supplies}
    toys = {one.slug: fed_toy(build, one, shared, cabling, beside[one.supply_slug]) for one in drafts}
    return Sizing(build, cabling, shared, toys, beside)


def positions(drafts: Iterable[Draft], supply_slug: str) -> int:
    """How many fuses sit beside a supply: of toys, of what switches them, and of blocks."""
    here = [one for one in drafts if one.supply_slug == supply_slug]
    straight = sum(len(one.source_fuses) for one in here if not one.block_slug)
    return straight + len({one.block_slug for one in here if one.block_slug})


# ---- what toys share ------------------------------------------------------------------------------------------------


def shared_leads(build: Build, drafts: Iterable[Draft], cabling: Cabling) -> frames.Shared:
    """The leads before the fuses, the boards' 0 V leads, then those of distribution blocks."""
    drafts = list(drafts)
    rows = blocks.drafts_of(build, drafts)
    supply_ids, board_ids, lead_ids, return_ids = frames.designators(build)
    leads, returns = {}, {}
    for slug, supply in build.supplies.items():
        length = supply.fuse_block.run.high
        here = [one for one in drafts if one.supply_slug == slug]
        own = [one.signal_fuse for one in here if blocks.on_lead(one, rows) and not one.block_slug]
        behind = [fuse for fuse in (*blocks.fuses_before(here, rows), *own) if fuse and fuse.rating_A]
        leads[slug] = wires.shared_lead(
            cabling,
            f"lead of {supply_ids[slug]}",
            f"lead.{slug}",
            length,
            supply.fuse_block.wire,
            behind,
            limit_to_carry_A(supply),
            bool(behind) and length > LONGEST_BARE_M * (1 + 1e-9),
        )
    for slug, supply_slug in board_returns(build):
        here = returning(build, drafts, slug, supply_slug)
        feeding = {one.supply_slug for one in here} or {supply_slug}
        bounding = blocks.fuses_returning(here, rows)
        home = home_of(build, build.boards[slug]) == supply_slug
        to = "" if home else f" to {supply_ids[supply_slug]}"
        returns[slug, supply_slug] = wires.shared_lead(
            cabling,
            f"0 V lead of {board_ids[slug]}{to}",
            f"return.{slug}" if home else f"return.{slug}.{supply_slug}",
            build.boards[slug].back.run.high,
            build.boards[slug].back.wire,
            bounding,
            sum(limit_to_carry_A(build.supplies[name]) for name in feeding),
            any(fuse.rating_A is None for fuse in bounding),
        )
    sized = {
        slug: blocks.sized(
            build, row, cabling, supply_ids[row.supply_slug], leads[row.supply_slug], lead_ids[row.supply_slug]
        )
        for slug, row in rows.items()
    }
    return frames.Shared(supply_ids, board_ids, leads, returns, lead_ids, return_ids, sized)


def returning(build: Build, drafts: Iterable[Draft], slug: str, supply_slug: str) -> list[Draft]:
    """The toys whose ports let current back from a board to one supply."""
    here = (one for one in drafts if one.board_slug == slug)
    return [one for one in here if returns_to(build, slug, one.supply_slug) == supply_slug]


# ---- one toy --------------------------------------------------------------------------------------------------------


def fed_toy(build: Build, one: Draft, shared: frames.Shared, cabling: Cabling, beside: int) -> FedToy:
    """One toy with what feeds and switches it. beside: how many fuses sit at its supply's plus."""
    toy, control = one.toy, one.control
    supply = build.supplies[one.supply_slug]
    low_V, high_V = voltage_ends(supply)
    kickback, kickback_worked = suppression.suppression(
        "none" if toy.suppressor is None and bare_reversing(one) else toy.suppressor,
        kickback=one.kickback,
        chop=freewheel.chop_of(build, one),
        inside_controller=control.suppresses(toy.control),
        current_A=one.load.design_current_A,
        highest_V=high_V,
        allowed_V=allowed_V(build, one),
        load=one.load,
        at=switched_at(one),
    )
    coil, coil_worked = coil_suppression(build, one, high_V)
    frame = frames.frame(build, shared, one, kickback, coil)
    circuit = control.circuit(toy.control, frame)
    loop = loop_of(build, one, shared, circuit)
    choice = wires.choose(cabling, one.fuse, loop, toy.feed.wire, frame.feed_m)
    fault = fault_of(cabling, choice.plan.size, one.fuse, loop)
    signal = signal_of(build, one, shared, circuit, cabling) if control.signal else None
    size = choice.plan.size
    circuit = circuit.with_wires(frames.sized_wires(one, circuit, size, signal.wire.size if signal else size))
    port, port_worked = port_plan(build, one, shared)
    ids = {"load": frame.load.id, "controller": frame.controller_id}
    for name, part in (
        ("fuse", frame.fuse),
        ("signal fuse", frame.signal_fuse),
        ("diode", next((part for part in frame.suppressors if part.what is PartKind.DIODE), None)),
        ("zener", next((part for part in frame.suppressors if part.what is PartKind.ZENER), None)),
        ("rc resistor", next((part for part in frame.suppressors if part.what is PartKind.RESISTOR), None)),
        ("rc capacitor", next((part for part in frame.suppressors if part.what is PartKind.CAPACITOR), None)),
        ("coil diode", next((part for part in frame.coil_suppressors if part.what is PartKind.DIODE), None)),
        ("board", frame.board),
        ("block", frame.row.part if frame.row else None),
        ("block fuse", frame.row.fuse if frame.row else None),
        ("switch", frame.switch),
    ):
        if part is not None:
            ids[name] = part.id
    sized = Sized(
        slug=one.slug,
        name=one.name,
        number=one.number,
        units=build.units,
        load=one.load,
        supply_id=frame.supply.id,
        supply_slug=one.supply_slug,
        supply_V=supply.voltage.middle,
        supply_low_V=low_V,
        supply_high_V=high_V,
        supply_rated_A=supply.current.low,
        supply_limit_A=limit_to_carry_A(supply),
        fuse=one.fuse,
        wire=choice.plan,
        port=port,
        suppression=kickback,
        mounting=None,  # once it is known how hard it pulls
        circuit=circuit,
        control=control.word,
        ids=ids,
        inside_degC=build.wiring.inside_temperature.high,
        coil=coil,
        signal_fuse=one.signal_fuse,
        block_slug=one.block_slug,
        supply_sure_A=limit_A(supply),
        signal_A=one.signal_A,
        fuses_beside=beside,
    )
    working = (
        *one.worked,
        *choice.worked,
        *(fault.worked if fault else ()),
        *kickback_worked,
        *coil_worked,
        *port_worked,
    )
    return FedToy(one, sized, loop, choice, fault, working, signal)


def loop_of(build: Build, one: Draft, shared: frames.Shared, circuit: Circuit) -> Loop:
    """The way of the load's current: every run of its main path."""
    row = shared.blocks.get(one.block_slug)
    runs = runs_of(build, one, shared, circuit, circuit.main)
    switch = switch_of(build, one)
    supply = build.supplies[one.supply_slug]
    low_V, high_V = voltage_ends(supply)
    return Loop(
        runs=runs,
        contacts=2 * len(runs),
        switch_ohm=switch[1],
        switch_low_ohm=switch[0],
        current_A=one.load.design_current_A,
        lowest_A=one.load.lowest_current_A,
        voltage_V=supply.voltage.middle,
        limit_share=drop_share(build, one.kind),
        low_V=low_V,
        high_V=high_V,
        limit_low_A=limit_A(supply),
        limit_high_A=limit_to_carry_A(supply),
        overload=supply.overload,
        row=row.draft.id if row else "",
        row_ohm=row.fuse.resistance_ohm if row else 0.0,
        return_ohm=back.resistance_ohm if (back := fuse_returning(one)) else 0.0,
    )


def runs_of(
    build: Build, one: Draft, shared: frames.Shared, circuit: Circuit, path: Collection[str]
) -> tuple[Run, ...]:
    """Every run of a path; those of shared leads have their size."""
    sizes = {shared.lead_ids[one.supply_slug]: shared.leads[one.supply_slug].size}
    if one.board_slug:
        way = one.board_slug, returns_to(build, one.board_slug, one.supply_slug)
        sizes[shared.return_ids[way]] = shared.returns[way].size
    row = shared.blocks.get(one.block_slug)
    if row:
        sizes |= dict.fromkeys((row.feed.id, row.back.id), row.wire.size)
    return tuple(Run(wire.length_m, sizes.get(wire.id), wire.id) for wire in circuit.wires if wire.id in path)


def signal_of(build: Build, one: Draft, shared: frames.Shared, circuit: Circuit, cabling: Cabling) -> signals.Signal:
    """The leads of what switches the load: every run of the control's path."""
    row = shared.blocks.get(one.block_slug)
    runs = runs_of(build, one, shared, circuit, circuit.control)
    passed = (row.draft.id, row.fuse.resistance_ohm) if row else ("", 0.0)
    return signals.signal_of(build, one, signals.loop_of(build, one, runs, *passed), cabling)


def fuse_returning(one: Draft) -> FusePlan | None:
    """The fuse in the switched return, where the load's own current flows through it."""
    return one.port_fuse if one.control.port_carries_load else None


def switch_of(build: Build, one: Draft) -> tuple[float, float]:
    """Resistance of what switches the load, low and high end."""
    resistance = one.control.switch(one.toy.control)
    if resistance is None and one.control.port_carries_load:
        resistance = build.boards[one.board_slug].switch_resistance
    return (resistance.low, resistance.high) if resistance else (0.0, 0.0)


def port_plan(build: Build, one: Draft, shared: frames.Shared) -> tuple[PortPlan | None, tuple[Worked, ...]]:
    """The port of a toy, and how far it is loaded."""
    if one.port is None:
        return None, ()
    board = build.boards[one.port.board]
    control = one.toy.control
    load = one.through_port_A
    usable = work(
        port_formulas.usable_current_A,
        "port.usable",
        "What the port may carry for long",
        rated_A=board.port_current.low,
    )
    heat_W, junction_degC, heat_worked = switching.switch_heat(build, one)
    limit = getattr(control, "limit", None)
    plan = PortPlan(
        one.port.board,
        shared.board_ids[one.port.board],
        one.port.port,
        load,
        board.port_current.low,
        float(usable.result),
        heat_W,
        one.control.set_to(control),
        board.pwm_frequency.middle if board.pwm_frequency else None,
        limit.high if limit else None,
        one.control.signal,
        junction_degC,
        next((float(each.result) for each in heat_worked if each.id == "port.switching"), None),
    )
    return plan, (usable, *heat_worked)


def coil_suppression(build: Build, one: Draft, highest_V: float) -> tuple[Suppression | None, tuple[Worked, ...]]:
    """What takes the kickback of a control's own coil, which its port switches."""
    coil = one.control.coil(one.toy.control)
    if coil is None:
        return None, ()
    plan, working = suppression.suppression(
        coil.stated,
        kickback=True,
        chop=None,
        inside_controller=False,
        current_A=coil.load.design_current_A,
        highest_V=highest_V,
        allowed_V=suppression.CLAMPED_SHARE * build.boards[one.board_slug].port_voltage.low,
        load=coil.load,
    )
    return plan, tuple(replace(each, id=f"coil.{each.id}", name=f"{each.name}, of the coil") for each in working)


def bare_reversing(one: Draft) -> bool:
    """Whether a winding hangs on an output that can reverse and has no suppressor: then no diode can be chosen."""
    fields = one.toy.control
    return one.kickback and one.control.reverses(fields) and not one.control.suppresses(fields)


def switched_at(one: Draft) -> str:
    """What the kickback of the load drives up: the port that switches it, or the control's own contact."""
    return "port" if one.control.contact_V(one.toy.control) is None else "contact"


def allowed_V(build: Build, one: Draft) -> float | None:
    """How high the port or contact that switches the load may be driven by its kickback; None without either."""
    contact_V = one.control.contact_V(one.toy.control)
    if contact_V is not None:
        return contact_V - (rule("silicon diode drop").high or 0.0)
    if not one.control.port_carries_load:
        return None
    return suppression.CLAMPED_SHARE * build.boards[one.board_slug].port_voltage.low
