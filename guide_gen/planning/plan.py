"""description -> plan: every toy sized, checked and worded; whole-build sums."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from guide_gen.description.build import Build, Supply
from guide_gen.description.read import Default, Description
from guide_gen.formulas import port as port_formulas
from guide_gen.formulas import supply as supply_formulas
from guide_gen.formulas.spread import Spread
from guide_gen.model.circuit import Circuit, PartKind, Wire
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Caution, Setting
from guide_gen.model.machine import spread_of
from guide_gen.model.plan import (
    BlockPlan,
    BoardPlan,
    FusePlan,
    Motion,
    Plan,
    PortPlan,
    Sized,
    SupplyPlan,
    Suppression,
    ToyPlan,
)
from guide_gen.planning import (
    blocks,
    budget,
    cautions,
    estimate_checks,
    flash_checks,
    frames,
    freewheel,
    fuse_checks,
    fuses,
    held,
    hot,
    lookup,
    mount_checks,
    mounting,
    needs,
    protection,
    questions,
    steps,
    supply_checks,
    suppression,
    suppressor_checks,
    switching,
    values,
    wire_checks,
    wires,
    words,
)
from guide_gen.planning.cabling import Cabling, cabling_of
from guide_gen.planning.drafts import (
    Draft,
    board_returns,
    draft,
    drop_share,
    gives_A,
    home_of,
    limit_A,
    limit_to_carry_A,
    returns_to,
    voltage_ends,
)
from guide_gen.planning.faults import Fault, fault_of
from guide_gen.planning.loops import Loop, Run
from guide_gen.planning.motion import Shaker, at_full_words, full_motion, motion_of, tuned, unknown_motion
from guide_gen.planning.motion_checks import motion_findings
from guide_gen.planning.speed import geared_dial, speed_findings, speed_of
from guide_gen.published.tables import rule, screws
from guide_gen.values import show
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Worked, default, work


def plan(description: Description) -> Plan:
    """The plan of a description without problems."""
    build = description.build
    assert build is not None
    drafts = [draft(build, number, slug) for number, slug in enumerate(build.toys, start=1)]
    cabling = cabling_of(build.wiring, len(drafts) + len(build.blocks))
    shared = shared_leads(build, drafts, cabling)
    taken = ports_taken(drafts)
    defaults = tuple(description.defaults())
    toys = {one.slug: toy_plan(build, one, shared, cabling, taken, len(drafts), defaults) for one in drafts}
    supplies = {slug: supply_plan(build, slug, drafts, shared) for slug in build.supplies}
    boards = {slug: board_plan(build, slug, drafts, shared) for slug in build.boards}
    rows = {slug: blocks.plan_of(build, one, cabling) for slug, one in shared.blocks.items()}
    supplies = {slug: with_budget(build, one, toys, rows) for slug, one in supplies.items()}
    findings = [finding for toy in toys.values() for finding in toy.findings]
    findings += shared_findings(build, drafts, shared, supplies, boards)
    findings += blocks.findings(build, shared.blocks, cabling)
    placed = {id(finding): replace(finding, where=description.place(finding.path)) for finding in findings}
    toys = {
        slug: replace(toy, findings=tuple(placed[id(finding)] for finding in toy.findings))
        for slug, toy in toys.items()
    }
    lead_wires = [wire for supply in supplies.values() for wire in supply.wires]
    lead_wires += [wire for board in boards.values() for wire in board.wires]
    lead_wires += [wire for row in rows.values() for wire in row.wires]
    toys = with_all_on(toys, lead_wires)
    return Plan(
        slug=description.slug,
        file=description.file,
        name=build.build,
        summary=build.summary or "",
        invented=build.invented,
        revision=build.revision or "",
        date=build.date or "",
        author=build.author or "",
        licence=build.licence or "",
        units=build.units,
        toys=toys,
        supplies=supplies,
        boards=boards,
        cautions=build_cautions(build, drafts),
        needs=(
            *blocks.needs(list(shared.blocks.values())),
            *needs.fuse_blocks({one.id: positions(drafts, slug) for slug, one in supplies.items()}),
            *needs.build_needs(lead_wires, build.units),
        ),
        worked=default_values(entry for entry in defaults if entry.path[0] != "toys"),
        findings=tuple(sorted(placed.values(), key=lambda finding: (finding.where, finding.code))),
        blocks=rows,
    )


def positions(drafts: Iterable[Draft], supply_slug: str) -> int:
    """How many feeds begin at a supply's fuses: toys of their own, and blocks."""
    here = [one for one in drafts if one.supply_slug == supply_slug]
    return sum(not one.block_slug for one in here) + len({one.block_slug for one in here if one.block_slug})


LONGEST_BARE_M = rule("lead before the fuse").value


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
        own = [one.input_fuse for one in here if blocks.on_lead(one, rows) and not one.block_slug]
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


def ports_taken(drafts: Iterable[Draft]) -> dict[tuple[str, int], str]:
    """Which toy has which port; the first one written keeps it."""
    taken: dict[tuple[str, int], str] = {}
    for one in drafts:
        if one.port:
            taken.setdefault((one.port.board, one.port.port), one.slug)
    return taken


def supply_plan(build: Build, slug: str, drafts: Iterable[Draft], shared: frames.Shared) -> SupplyPlan:
    """What a supply has to give, and its lead."""
    supply = build.supplies[slug]
    here = [one for one in drafts if one.supply_slug == slug]
    demand = supply_formulas.demand(
        "supply.demand", "Current of all toys together", {f"I_{one.number}": one.load.design_current_A for one in here}
    )
    total = float(demand.result)
    headroom = work(
        supply_formulas.headroom_percent,
        "supply.headroom",
        "Share of the supply that is left",
        demand_A=total,
        rated_A=gives_A(supply),
    )
    rows = {name: row.draft for name, row in shared.blocks.items()}
    fused_A = sum(one.fed_A for one in here if blocks.on_lead(one, rows))
    lead = frames.lead_wire(build, shared, slug, "fuses", fused_A)
    return SupplyPlan(
        slug,
        shared.supply_ids[slug],
        supply.voltage.middle,
        supply.current.low,
        limit_A(supply),
        total,
        total,
        float(headroom.result),
        supply.overload,
        (lead,),
        (demand, headroom, *supply_taken(supply), *shared.leads[slug].worked),
    )


def with_all_on(toys: Mapping[str, ToyPlan], shared: Iterable[Wire]) -> dict[str, ToyPlan]:
    """The toys with what their shared leads carry while all toys are on, as the build's own page says it."""
    carried = {wire.id: wire.carries_A for wire in shared}

    def told(toy: ToyPlan) -> ToyPlan:
        circuit = toy.sized.circuit
        found = [replace(wire, carries_A=carried.get(wire.id, wire.carries_A)) for wire in circuit.wires]
        return replace(toy, sized=replace(toy.sized, circuit=circuit.with_wires(found)))

    return {slug: told(toy) for slug, toy in toys.items()}


def with_budget(
    build: Build, supply: SupplyPlan, toys: Mapping[str, ToyPlan], rows: Mapping[str, BlockPlan]
) -> SupplyPlan:
    """The supply with what all its toys ask of it; at worst, while the heaviest of them starts."""
    asked = budget.budget(build, supply, toys, rows)
    return replace(supply, budget=asked, worst_A=max(supply.demand_A, asked.start_A))


def supply_taken(supply: Supply) -> tuple[Worked, ...]:
    """What is taken for a supply where its description is silent: the spread of its voltage, and its limits."""
    found = []
    if supply.voltage_range is None:
        low, high = (show.volts(end) for end in voltage_ends(supply))
        found.append(
            default(
                "default.voltage_range",
                "What the supply's trimmer allows",
                f"{low} to {high}",
                "this project: estimate",
            )
        )
    if supply.current_limit is None:
        found += [
            work(supply_formulas.limit_for_opening_A, "supply.limit-low", "What it is sure to give at most",
                 rated_A=supply.current.low),
            work(supply_formulas.limit_to_carry_A, "supply.limit-high", "What a lead of it must be able to carry",
                 rated_A=supply.current.high),
        ]  # fmt: skip
    return tuple(found)


def taken_behind(build: Build, one: Draft, cabling: Cabling) -> tuple[Worked, ...]:
    """What is taken for the wiring and the supply of one toy where the description is silent."""
    bundled = () if build.wiring.bundled_circuits else (
        default("default.wiring.bundled_circuits", "Circuits tied together and loaded at once", str(cabling.bundled),
                "this project: the number of feeds"),)  # fmt: skip
    usual = rule(one.kind.drop_rule)
    drop = () if build.wiring.drop_limit else (
        default("default.wiring.drop_limit", "Largest voltage drop from supply to toy", show.percent(usual.value),
                usual.source),)  # fmt: skip
    return *bundled, *drop, *supply_taken(build.supplies[one.supply_slug])


def board_plan(build: Build, slug: str, drafts: Iterable[Draft], shared: frames.Shared) -> BoardPlan:
    """What a board has to switch, and its 0 V lead."""
    board = build.boards[slug]
    here = [one for one in drafts if one.board_slug == slug]
    load = sum(one.through_port_A for one in here)
    usable = work(
        port_formulas.usable_current_A,
        "board.usable",
        "What the board may carry for long",
        rated_A=board.board_current.low,
    )
    ways = [one for one in shared.returns if one[0] == slug]
    backs = tuple(board_return(build, shared, drafts, slug, supply_slug) for _, supply_slug in ways)
    return BoardPlan(
        slug,
        shared.board_ids[slug],
        load,
        board.board_current.low,
        float(usable.result),
        backs,
        {one.port.port: one.slug for one in reversed(here) if one.port},  # the first one written keeps it
        board.ports,
        (usable, *(one for way in ways for one in shared.returns[way].worked)),
    )


def returning(build: Build, drafts: Iterable[Draft], slug: str, supply_slug: str) -> list[Draft]:
    """The toys whose ports let current back from a board to one supply."""
    here = (one for one in drafts if one.board_slug == slug)
    return [one for one in here if returns_to(build, slug, one.supply_slug) == supply_slug]


def board_return(build: Build, shared: frames.Shared, drafts: Iterable[Draft], slug: str, supply_slug: str) -> Wire:
    """A board's 0 V lead to one supply, with all that returns there."""
    here = returning(build, drafts, slug, supply_slug)
    fuses = ", ".join(one.returns_by.id for one in here if one.returns_by.rating_A is not None)
    protected = fuses or ("nothing" if here else "no toy returns there")
    return frames.return_wire(build, shared, slug, supply_slug, sum(one.through_port_A for one in here), protected)


def shared_findings(
    build: Build,
    drafts: Iterable[Draft],
    shared: frames.Shared,
    supplies: Mapping[str, SupplyPlan],
    boards: Mapping[str, BoardPlan],
) -> list[Finding]:
    """Findings that concern no single toy."""
    found: list[Finding] = flash_checks.flash_findings([(one.name, one.kind.flash_Hz(one.toy)) for one in drafts])
    for slug, supply in build.supplies.items():
        found += supply_checks.supply_findings(supply, slug, supplies[slug].demand_A)
        capacitance_F = supply.capacitance.low if supply.capacitance else None
        found += supply_checks.start_findings(slug, supplies[slug], capacitance_F)
        found += wire_checks.lead_finding(
            shared.leads[slug],
            f"lead of {supplies[slug].id} before the fuses",
            ("supplies", slug, "fuse_block"),
            LONGEST_BARE_M,
        )
    drafts = list(drafts)
    for slug, board in build.boards.items():
        found += supply_checks.board_finding(board, slug, boards[slug].load_A, boards[slug].limit_A)
        found += fuse_checks.port_fuse_findings(
            slug,
            [
                (one.port_fuse, voltage_ends(build.supplies[one.supply_slug])[1])
                for one in drafts
                if one.board_slug == slug and one.port_fuse
            ],
        )
        for way in (one for one in shared.returns if one[0] == slug):
            to = "" if way[1] == home_of(build, board) else f" to {supplies[way[1]].id}"
            found += wire_checks.lead_finding(
                shared.returns[way], f"0 V lead of {boards[slug].id}{to}", ("boards", slug, "return"), None
            )
        home = home_of(build, board)
        others = {one.supply_slug for one in drafts if one.board_slug == slug} - {home}
        for other in sorted(others):
            if not {home, other} <= set(board.common_return):
                found.append(
                    Finding(
                        "return-not-common",
                        Level.MUST,
                        f"Toys on {slug} are fed by {other}, and its 0 V belongs to {home}: without a common return "
                        f"their "
                        "current has no way back.",
                        "the 0 V of both supplies joined at the board",
                        f"Join them at one point, and write common_return: [{home}, {other}].",
                        ("boards", slug),
                    )
                )
    return found


def supply_cautions(supply: Supply, slug: str) -> tuple[Caution, ...]:
    """What one supply asks for by its voltage, its power, its plug and its capacitors."""
    highest_V = voltage_ends(supply)[1]
    stored, bleed = supply.capacitance, supply.bleed_resistance
    return (
        *cautions.supply_cautions(highest_V, limit_to_carry_A(supply), supply.earth_pin, slug),
        *cautions.stored_charge(highest_V, stored.high if stored else None, bleed.high if bleed else None, slug),
    )


def build_cautions(build: Build, drafts: Iterable[Draft]) -> tuple[Caution, ...]:
    """Safety messages of the whole build."""
    found = [
        cautions.MAINS,
        cautions.fuse_fire("the stated fuse"),
        cautions.CHILDREN,
        cautions.unplug_first(),
        cautions.auto_start(),
        cautions.EMERGENCY,
        cautions.tools(),
    ]
    for slug, supply in build.supplies.items():
        found += supply_cautions(supply, slug)
    if together_Hz := flash_checks.flashing_Hz([(one.name, one.kind.flash_Hz(one.toy)) for one in drafts]):
        found.append(cautions.flashing_together(together_Hz))
    order = list(type(cautions.MAINS.word))
    unique = {(one.id, one.reason): one for one in found}
    return tuple(sorted(unique.values(), key=lambda one: order.index(one.word)))


def default_values(defaults: Iterable[Default]) -> tuple[Worked, ...]:
    """Defaults taken, as worked values."""
    return tuple(
        default("default." + ".".join(one.path), f"{one.meaning[0].upper()}{one.meaning[1:]}", one.text, one.source)
        for one in defaults
    )


def defaults_behind(defaults: Iterable[Default], one: Draft, build: Build) -> list[Default]:
    """The defaults that one toy's numbers rest on: its own, and those of wiring, supply and board."""
    roots = [one.path, ("wiring",), ("cabinet",), ("supplies", one.supply_slug)]
    if one.board_slug:
        roots.append(("boards", one.board_slug))
    if one.block_slug:
        roots.append(("blocks", one.block_slug))
    return [entry for entry in defaults if any(entry.path[: len(root)] == root for root in roots)]


# ---- one toy --------------------------------------------------------------------------------------------------------


def toy_plan(
    build: Build,
    one: Draft,
    shared: frames.Shared,
    cabling: Cabling,
    taken: Mapping[tuple[str, int], str],
    of: int,
    defaults: Iterable[Default],
) -> ToyPlan:
    """All that one toy's page says."""
    toy, kind, control = one.toy, one.kind, one.control
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
    circuit = circuit.with_wires(frames.sized_wires(one, circuit, choice.plan.size, signal_wire(cabling, one)))
    pulls_N = kind.pulls_N(toy, high_V)
    screws, screws_worked = mounting.mounting(toy.mount, build.cabinet.floor, build.units, pulls_N)
    port, port_worked = port_plan(build, one, shared)
    ids = {"load": frame.load.id, "controller": frame.controller_id}
    for name, part in (
        ("fuse", frame.fuse),
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
        mounting=screws,
        circuit=circuit,
        control=control.word,
        ids=ids,
        inside_degC=build.wiring.inside_temperature.high,
        coil=coil,
        block_slug=one.block_slug,
        supply_sure_A=limit_A(supply),
    )
    sized = replace(sized, load=held.on_its_way(sized, loop, cabling))
    machine = kind.machine(toy)
    shaker = Shaker(machine, toy, sized, build.cabinet, loop, cabling) if machine else None
    motion = motion_of(shaker) if shaker else None
    sized = replace(sized, motion=motion)
    at_full = full_motion(shaker) if shaker else None
    guarded = protection.protection(sized, loop, cabling, supply.overload)
    speed = speed_of(kind.turner(toy), toy, sized, loop, cabling, guarded)
    dial = geared_dial(tuned(control.dial(toy.control), motion), speed, sized.supply_V)
    row = shared.blocks.get(one.block_slug)
    running = running_voltage(one, row.fuse if row else None, loop, cabling, choice.plan.size, low_V, high_V)
    all_steps = steps.in_order(
        steps.shared_steps(sized),
        control.steps(toy.control, sized),
        kind.steps(toy, sized, dial),
        steps.source_steps(sized),
        (steps.running_step(sized, *running),) if dial is None and not one.load.momentary else (),
    )
    told = toy_cautions(build, one, sized, motion)
    told_of_wires = (*control.notes(toy.control, sized), *port_fuse_note(sized), *common_note(build, one, shared))
    return ToyPlan(
        slug=one.slug,
        name=one.name,
        kind=kind.word,
        kind_title=kind.title,
        number=one.number,
        of=of,
        sized=sized,
        introduction=kind.introduction(toy, sized),
        values=values.values(toy, sized, control),
        cautions=told,
        words=words.words(
            sized,
            control.sentence(toy.control, sized),
            control.control_words(toy.control, sized),
            (*told_of_wires, *heat_notes(sized)),
        ),
        mounting_advice=kind.mounting(toy, sized),
        wiring_notes=told_of_wires,
        tuning_notes=(
            *kind.tuning_notes(toy, sized, dial),
            *unknown_motion(machine, motion, dial),
            *at_full_words(at_full, build.cabinet),
        ),
        motion=motion,
        at_full=at_full[0] if at_full else None,
        speed=speed,
        play_notes=kind.play_notes(toy, sized),
        needs=(*needs.toy_needs(toy, kind.title, sized), *kind.needs(toy, sized)),
        readings=steps.step_readings(all_steps),
        steps=all_steps,
        settings=(*control.settings(toy.control, sized), *game_settings(toy.play.loud, toy.play.effect, port)),
        emergency=kind.emergency,
        troubles=(*kind.troubles(toy, sized, dial), *control.troubles(toy.control, sized)),
        disposal=disposal(sized),
        pulse=kind.pulse(toy, sized),
        worked=(
            *one.worked,
            *choice.worked,
            *(fault.worked if fault else ()),
            *kickback_worked,
            *coil_worked,
            *port_worked,
            *screws_worked,
            *control.worked(toy.control, sized),
            *kind.worked(toy, sized),
            *(speed.worked if speed else ()),
            *(motion.worked if motion else ()),
            *taken_behind(build, one, cabling),
            *default_values(defaults_behind(defaults, one, build)),
        ),
        findings=(
            *toy_findings(build, one, sized, choice, cabling, loop, fault, shaker, taken),
            *speed_findings(speed, sized, one.path),
        ),
        protection=guarded,
        lookup=lookup.lookup(sized, toy.feed.fuse, build.wiring, loop, cabling),
        questions=questions.questions(
            questions.Asked(
                build,
                toy,
                sized,
                loop,
                cabling,
                guarded,
                one.chopped,
                kind,
                control,
                kick_of(build, one, high_V),
                motion,
            )
        ),
    )


def heat_notes(sized: Sized) -> tuple[str, ...]:
    """How hot switch and diode get: a line each."""
    air, units = sized.inside_degC, sized.units
    return (
        *switching.notes(sized.port, sized.ids.get("switch"), air, units),
        *freewheel.notes(sized.suppression, sized.ids.get("diode"), air, units),
    )


def port_fuse_note(sized: Sized) -> tuple[str, ...]:
    """A fuse in the switched return does not protect the feed: said wherever there is one."""
    inside = [part for part in sized.circuit.of(PartKind.FUSE) if part.inside]
    return tuple(
        f"{part.id} in the switched return opens when the port carries too much. It does not protect the feed: a feed "
        f"wire "
        f"that touches 0 V or metal bypasses it. That is what {sized.ids.get('fuse', 'a fuse at the supply')} is for."
        for part in inside
    )


def common_note(build: Build, one: Draft, shared: frames.Shared) -> tuple[str, ...]:
    """The leads that join the 0 V of several supplies at a board: said wherever this toy's current uses one."""
    ways = [way for way in shared.returns if way[0] == one.board_slug]
    if len(ways) < 2 or returns_to(build, one.board_slug, one.supply_slug) != one.supply_slug:
        return ()
    zero = f"{shared.board_ids[one.board_slug]}:0V"
    ends = " and ".join(f"{shared.return_ids[way]} to {shared.supply_ids[way[1]]}:0V" for way in ways)
    return (f"At {zero} the 0 V of several supplies are joined, each by a lead of its own: {ends}.",)


def toy_findings(
    build: Build,
    one: Draft,
    sized: Sized,
    choice: wires.Choice,
    cabling: Cabling,
    loop: Loop,
    fault: Fault | None,
    shaker: Shaker | None,
    taken: Mapping[tuple[str, int], str],
) -> Iterable[Finding]:
    """Everything the checks say about one toy, once each."""
    toy, path = one.toy, one.path
    board = build.boards[one.board_slug] if one.board_slug else None
    continuous = next(float(value.result) for value in one.worked if value.id == "fuse.continuous")
    yield from fuse_checks.fuse_findings(toy, sized, continuous, board, path)
    yield from fuse_checks.pulse_findings(sized, path)
    yield from wire_checks.wire_findings(sized, choice, cabling, loop, path)
    yield from wire_checks.drop_findings(sized, choice, loop, path, biggest_other(one, loop))
    yield from wire_checks.fault_findings(sized, fault, build.supplies[one.supply_slug].overload, loop, path)
    if board is not None:
        yield from supply_checks.port_findings(build, sized, board, taken, path)
        yield from hot.switch_findings(build, one, sized)
    yield from supply_checks.voltage_findings(toy, sized, path)
    yield from suppressor_checks.coil_findings(toy, sized, path)
    if one.kickback:
        kick = kick_of(build, one, sized.supply_high_V)
        yield from suppressor_checks.suppressor_findings(toy, sized, kick, board, path)
        yield from suppressor_checks.release_findings(sized, kick, path)
        yield from suppressor_checks.clamp_findings(sized, kick, board, path)
        yield from hot.diode_findings(toy, sized, kick.chop, path)
    if shaker is not None:
        yield from motion_findings(sized.motion, shaker, path)
    yield from one.kind.findings(toy, sized, path)
    yield from one.control.findings(toy.control, sized, (*path, "control"))
    yield from estimate_checks.estimates(build, toy, sized, sized.motion is not None, path)
    yield from mount_checks.mount_findings(one.kind, toy, sized, build.cabinet.floor, sized.motion, path)
    yield from missing_parts(toy, sized, path)


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


def kick_of(build: Build, one: Draft, highest_V: float) -> suppression.Kick:
    """What a suppressor across the toy has to take."""
    chop = freewheel.chop_of(build, one)
    allowed = allowed_V(build, one)
    return suppression.Kick(one.load.design_current_A, highest_V, chop, allowed, one.load, switched_at(one))


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


def missing_parts(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> Iterable[Finding]:
    """Parts of the plan that could not be worked out, and the key that would give them."""
    if sized.mounting is None:
        yield Finding(
            "not-worked-out",
            Level.NOTE,
            f"The screws of {sized.name} are not worked out: {toy.mount.screw} is not in the tables.",
            "one of " + ", ".join(screws()),
            "Write one of them as screw.",
            (*path, "mount", "screw"),
            sized.slug,
        )
    elif sized.mounting.stack_mm is None:
        yield Finding(
            "not-worked-out",
            Level.NOTE,
            f"The length of the screws of {sized.name} is not worked out: the floor's thickness is not known.",
            "cabinet: {floor: {thickness: 18 mm}}",
            "Measure the floor with a ruler and write its thickness under cabinet.",
            path,
            sized.slug,
        )
    elif sized.mounting.length_mm is None:
        yield Finding(
            "not-worked-out",
            Level.NOTE,
            f"No screw {sized.mounting.screw} of {sized.name} is long enough for "
            f"{show.millimetres(sized.mounting.stack_mm, sized.units)} of floor, bracket and washers.",
            "a thinner stack, or a longer screw than the tables have",
            "Look at floor thickness and bracket again, or take threaded rod.",
            (*path, "mount"),
            sized.slug,
        )


def biggest_other(one: Draft, loop: Loop) -> str:
    """What loses most besides the wire."""
    parts = {
        "the fuse": one.fuse.resistance_ohm,
        "the fuse in the switched return": loop.return_ohm,
        "the contacts": loop.contacts * rule("contact resistance").value,
        "the switch": loop.switch_ohm,
    }
    if loop.row:
        parts[f"the fuse of {loop.row}"] = loop.row_ohm
    return max(parts, key=lambda name: parts[name])


def loop_of(build: Build, one: Draft, shared: frames.Shared, circuit: Circuit) -> Loop:
    """The way of the load's current: every run of its main path."""
    sizes = {shared.lead_ids[one.supply_slug]: shared.leads[one.supply_slug].size}
    if one.board_slug:
        way = one.board_slug, returns_to(build, one.board_slug, one.supply_slug)
        sizes[shared.return_ids[way]] = shared.returns[way].size
    row = shared.blocks.get(one.block_slug)
    if row:
        sizes |= dict.fromkeys((row.feed.id, row.back.id), row.wire.size)
    runs = tuple(Run(wire.length_m, sizes.get(wire.id), wire.id) for wire in circuit.wires if wire.id in circuit.main)
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
        row=row.draft.id if row else "",
        row_ohm=row.fuse.resistance_ohm if row else 0.0,
        return_ohm=back.resistance_ohm if (back := fuse_returning(one)) else 0.0,
    )


def fuse_returning(one: Draft) -> FusePlan | None:
    """The fuse in the switched return, where the load's own current flows through it."""
    return one.port_fuse if one.control.port_carries_load else None


def switch_of(build: Build, one: Draft) -> tuple[float, float]:
    """Resistance of what switches the load, low and high end."""
    resistance = one.control.switch(one.toy.control)
    if resistance is None and one.control.port_carries_load:
        resistance = build.boards[one.board_slug].switch_resistance
    return (resistance.low, resistance.high) if resistance else (0.0, 0.0)


def signal_wire(cabling: Cabling, one: Draft) -> WireSize:
    """The thinnest wire for what switches the load that may stand behind its fuse."""
    guard = one.returns_by
    return next((size for size in cabling.sizes() if wires.carries_fuse(cabling, size, guard)), cabling.sizes()[-1])


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
    )
    return plan, (usable, *heat_worked)


def running_voltage(
    one: Draft, before: FusePlan | None, loop: Loop, cabling: Cabling, size: WireSize, low_V: float, high_V: float
) -> tuple[float, float]:
    """What a meter shows at the toy while it runs at full strength. before: the fuse of its block, if it has one."""
    ohms = [fuse_ohms(fuse) for fuse in (one.fuse, before, fuse_returning(one)) if fuse]
    low, high = (sum(ends) for ends in zip(*ohms, strict=True))
    return wires.voltage_at_toy(loop, cabling, size, low, high, low_V, high_V)


def fuse_ohms(fuse: FusePlan) -> tuple[float, float]:
    """Resistance of a fuse, low and high end; none without a fuse."""
    if fuse.rating_A is None:
        return 0.0, 0.0
    low, high = fuses.drop_range_V(fuse.series)
    return low / fuse.rating_A, high / fuse.rating_A


def toy_cautions(build: Build, one: Draft, sized: Sized, motion: Motion | None) -> tuple[Caution, ...]:
    """The toy's own, the mains side and the fuse; those of the stages and steps that it has."""
    loud = one.toy.found
    fuse = f"{sized.fuse.id}, {show.amps(sized.fuse.rating_A)}," if sized.fuse.rating_A is not None else "a fuse"
    supply = build.supplies[one.supply_slug]
    found = [
        cautions.MAINS,
        cautions.fuse_fire(fuse),
        cautions.unplug_first(),
        cautions.auto_start(),
        cautions.tools(),
        *one.kind.cautions(one.toy, sized),
        *supply_cautions(supply, sized.supply_slug),
        *cautions.noise(
            sized.name,
            loud.loudness.high if loud and loud.loudness else None,
            loud.peak.high if loud and loud.peak else None,
        ),
        *resonance(build, sized, motion),
    ]
    kept = {caution.id for caution in cautions.heads(found)}
    return tuple(replace(caution, grouped=caution.id in kept) for caution in found)


def resonance(build: Build, sized: Sized, motion: Motion | None) -> tuple[Caution, ...]:
    """The cabinet's own sway, where the toy turns at that frequency at some setting that may be used."""
    sway = build.cabinet.sideways_frequency
    if motion is None:
        return ()
    natural = spread_of(sway) if sway else Spread.usual("natural frequency on legs")
    top = motion.limit or 1.0
    turning = [one for one in motion.curve if one.turning_high_Hz > 0 and one.setting <= top]
    if not turning:
        return ()
    ends = (
        min(one.turning_low_Hz or one.turning_high_Hz for one in turning),
        max(one.turning_high_Hz for one in turning),
    )
    return cautions.resonance(sized.name, (natural.low, natural.high), ends)


def game_settings(loud: bool, effect: str, port: PortPlan | None) -> tuple[Setting, ...]:
    """What to enter on the game's side, in plain words."""
    if port is None:
        return ()
    sound = {
        "real": "the real effect, no sampled sound",
        "sound": "the sampled sound only",
        "both": "the real effect and the sampled sound",
    }[effect]
    return (
        Setting("game", "effect", sound),
        Setting(
            "game", "silenced after hours", "yes" if loud else "no", "it is loud" if loud else "it is quiet enough"
        ),
    )


def disposal(sized: Sized) -> str:
    """Taking it out of service."""
    where = f"at {sized.ids['fuse']}" if "fuse" in sized.ids else f"at {sized.supply_id}"
    return (
        f"Plug out. Disconnect it {where} first, cap the ends of its wires, and take its settings out of board "
        f"and game. "
        "What is worn out goes to the electronic waste of your place."
    )
