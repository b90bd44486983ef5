"""description -> plan: every toy sized, checked and worded; whole-build sums."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from guide_gen.description.build import Board, Build, Supply
from guide_gen.description.read import Default, Description
from guide_gen.formulas import port as port_formulas
from guide_gen.formulas import supply as supply_formulas
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.spread import Spread
from guide_gen.model.circuit import PartKind, Wire
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
    ToyPlan,
)
from guide_gen.model.shaking import too_much_at_full, turning_span
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
    left_out,
    lookup,
    mends,
    mount_checks,
    mounting,
    needs,
    protection,
    questions,
    signals,
    steps,
    supply_checks,
    suppression,
    suppressor_checks,
    switching,
    values,
    wires,
    words,
)
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drafts import (
    Draft,
    drawn_by_letter,
    gives_A,
    home_of,
    limit_A,
    limit_to_carry_A,
    returns_to,
    voltage_ends,
)
from guide_gen.planning.loops import Loop
from guide_gen.planning.motion import (
    Shaker,
    at_full_words,
    expected,
    full_compared,
    full_mend,
    full_motion,
    full_narrowed,
    full_pull_N,
    motion_of,
    tuned,
    unknown_motion,
)
from guide_gen.planning.motion_checks import motion_findings, motion_missing
from guide_gen.planning.sizing import FedToy, Sizing, allowed_V, fuse_returning, returning, sizing, switched_at
from guide_gen.planning.speed import geared_dial, speed_of
from guide_gen.planning.speed_found import speed_findings
from guide_gen.published.tables import rule, screws
from guide_gen.values import show
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Worked, default, work


def plan(description: Description) -> Plan:
    """The plan of a description without problems."""
    build = description.build
    assert build is not None
    whole = sizing(build)
    drafts, cabling, shared = whole.drafts, whole.cabling, whole.shared
    taken = ports_taken(drafts)
    defaults = tuple(description.defaults())
    told = mends.findings(whole)
    toys = {slug: toy_plan(whole, one, of_toy(told, slug), taken, defaults) for slug, one in whole.toys.items()}
    supplies = {slug: supply_plan(build, slug, drafts, shared) for slug in build.supplies}
    boards = {slug: board_plan(build, slug, drafts, shared) for slug in build.boards}
    rows = {slug: blocks.plan_of(build, one, cabling) for slug, one in shared.blocks.items()}
    supplies = {slug: with_budget(whole, one, toys, rows) for slug, one in supplies.items()}
    findings = [finding for toy in toys.values() for finding in toy.findings]
    findings += of_toy(told, "")
    findings += shared_findings(build, drafts, supplies, boards)
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
            *blocks.needs(list(shared.blocks.values()), whole.positions),
            *needs.fuse_blocks({one.id: whole.positions[slug] for slug, one in supplies.items()}),
            *needs.build_needs(lead_wires, build.units),
        ),
        worked=default_values(entry for entry in defaults if entry.path[0] != "toys"),
        findings=tuple(sorted(placed.values(), key=lambda finding: (finding.where, finding.code))),
        blocks=rows,
    )


# ---- what toys share ------------------------------------------------------------------------------------------------


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
        "supply.demand", "Current of all toys together, with coils and inputs of their controls", drawn_by_letter(here)
    )
    total = float(demand.result)
    headroom = work(
        supply_formulas.headroom_percent,
        "supply.headroom",
        "Share of the supply that is left",
        sentence="" if reaches(gives_A(supply), total) else "Below zero: more is asked of it than it gives.",
        demand_A=total,
        rated_A=gives_A(supply),
    )
    rows = {name: row.draft for name, row in shared.blocks.items()}
    fused_A = sum(one.drawn_A[1] for one in here if blocks.on_lead(one, rows))
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
    whole: Sizing, supply: SupplyPlan, toys: Mapping[str, ToyPlan], rows: Mapping[str, BlockPlan]
) -> SupplyPlan:
    """The supply with what all its toys ask of it; at worst, while the heaviest of them starts."""
    asked = budget.budget(whole, supply, toys, rows)
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


def board_return(build: Build, shared: frames.Shared, drafts: Iterable[Draft], slug: str, supply_slug: str) -> Wire:
    """A board's 0 V lead to one supply, with all that returns there."""
    here = returning(build, drafts, slug, supply_slug)
    fuses = ", ".join(one.returns_by.id for one in here if one.returns_by.rating_A is not None)
    protected = fuses or ("nothing" if here else "no toy returns there")
    return frames.return_wire(build, shared, slug, supply_slug, sum(one.through_port_A for one in here), protected)


def shared_findings(
    build: Build,
    drafts: list[Draft],
    supplies: Mapping[str, SupplyPlan],
    boards: Mapping[str, BoardPlan],
) -> list[Finding]:
    """Findings that concern no single toy."""
    found: list[Finding] = flash_checks.flash_findings([(one.name, one.kind.flash_Hz(one.toy)) for one in drafts])
    for slug, supply in build.supplies.items():
        beside_A = sum(one.signal_A[1] for one in drafts if one.supply_slug == slug)
        found += supply_checks.supply_findings(supply, slug, supplies[slug].demand_A, beside_A)
        capacitance_F = supply.capacitance.low if supply.capacitance else None
        found += supply_checks.start_findings(slug, supplies[slug], capacitance_F)
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


def of_toy(findings: Iterable[Finding], slug: str) -> list[Finding]:
    """Those that concern one toy; with "" those that concern no single one."""
    return [finding for finding in findings if finding.toy == slug]


def toy_plan(
    whole: Sizing,
    fed: FedToy,
    told: Iterable[Finding],
    taken: Mapping[tuple[str, int], str],
    defaults: Iterable[Default],
) -> ToyPlan:
    """All that one toy's page says. told: what is found about its fuse and wire."""
    build, shared, cabling, one = whole.build, whole.shared, whole.cabling, fed.draft
    toy, kind, control = one.toy, one.kind, one.control
    supply = build.supplies[one.supply_slug]
    low_V, high_V = voltage_ends(supply)
    sized, loop = fed.sized, fed.loop
    sized = replace(sized, load=held.on_its_way(sized, loop, cabling))
    machine = kind.machine(toy)
    shaker = Shaker(machine, toy, sized, build.cabinet, loop, cabling) if machine else None
    motion = motion_of(shaker) if shaker else None
    at_full = full_motion(shaker) if shaker else None
    about_N = kind.pulls_N(toy, high_V)
    pulls_N = full_pull_N(shaker) or about_N if shaker and about_N else about_N
    screws, screws_worked = mounting.mounting(toy.mount, build.cabinet.floor, build.units, pulls_N)
    sized = replace(sized, motion=motion, at_full=at_full[0] if at_full else None, mounting=screws)
    if shaker:
        sized = replace(sized, foretold=expected(shaker, motion), full_mend=full_mend(shaker))
    guarded = protection.protection(sized, loop, cabling, supply.overload)
    if fed.signal and sized.signal_fuse:
        own = signals.fault_words(fed.signal, sized, cabling, supply.overload)
        guarded = replace(guarded, says=(*guarded.says, own))
    speed = speed_of(kind.turner(toy), toy, sized, loop, cabling, guarded)
    dial = geared_dial(tuned(control.dial(toy.control), motion), speed, sized.supply_V)
    row = shared.blocks.get(one.block_slug)
    running = running_voltage(one, row.fuse if row else None, loop, cabling, sized.wire.size, low_V, high_V)
    all_steps = steps.in_order(
        steps.shared_steps(sized),
        control.steps(toy.control, sized),
        kind.steps(toy, sized, dial),
        steps.source_steps(sized),
        (steps.running_step(sized, *running),)
        if dial is None and not one.load.momentary and not too_much_at_full(sized)
        else (),
    )
    cautions_told = toy_cautions(build, one, sized, motion)
    told_of_wires = (*control.notes(toy.control, sized), *port_fuse_note(sized), *common_note(build, one, shared))
    return ToyPlan(
        slug=one.slug,
        name=one.name,
        kind=kind.word,
        kind_title=kind.title,
        number=one.number,
        of=len(whole.toys),
        sized=sized,
        introduction=kind.introduction(toy, sized),
        values=values.values(toy, sized, control),
        cautions=cautions_told,
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
            *(full_narrowed(shaker) if shaker else ()),
        ),
        motion=motion,
        at_full=sized.at_full,
        found_at_full=full_compared(shaker) if shaker else (),
        speed=speed,
        play_notes=kind.play_notes(toy, sized),
        needs=(*needs.toy_needs(toy, kind.title, sized), *kind.needs(toy, sized)),
        readings=steps.step_readings(all_steps),
        steps=all_steps,
        settings=(*control.settings(toy.control, sized), *game_settings(toy.play.loud, toy.play.effect, sized.port)),
        emergency=kind.emergency,
        troubles=(*kind.troubles(toy, sized, dial), *control.troubles(toy.control, sized)),
        disposal=disposal(sized),
        pulse=kind.pulse(toy, sized),
        worked=(
            *fed.worked,
            *screws_worked,
            *control.worked(toy.control, sized),
            *kind.worked(toy, sized),
            *(speed.worked if speed else ()),
            *(motion.worked if motion else ()),
            *taken_behind(build, one, cabling),
            *default_values(defaults_behind(defaults, one, build)),
        ),
        findings=(
            *told,
            *toy_findings(build, one, sized, shaker, taken),
            *speed_findings(speed, sized, one.path),
        ),
        protection=guarded,
        lookup=lookup.lookup(whole, replace(fed, sized=sized)),
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
    shaker: Shaker | None,
    taken: Mapping[tuple[str, int], str],
) -> Iterable[Finding]:
    """Everything else that the checks say about one toy, once each."""
    toy, path = one.toy, one.path
    board = build.boards[one.board_slug] if one.board_slug else None
    if board is not None:
        yield from supply_checks.port_findings(build, sized, board, taken, path, hot.heat_beside(build, one, sized))
        yield from hot.switch_findings(build, one, sized)
    yield from supply_checks.voltage_findings(toy, sized, path)
    yield from suppressor_checks.coil_findings(toy, sized, path)
    kick = kick_of(build, one, sized.supply_high_V) if one.kickback else None
    if kick is not None:
        yield from suppressor_checks.suppressor_findings(toy, sized, kick, board, path)
        yield from suppressor_checks.release_findings(sized, kick, path)
        yield from suppressor_checks.clamp_findings(sized, toy.suppressor, kick, holds_V(one, board), path)
        yield from hot.diode_findings(toy, sized, kick.chop, path)
    if shaker is not None:
        yield from motion_findings(sized.motion, shaker, path)
    yield from one.kind.findings(toy, sized, path)
    yield from one.control.findings(toy.control, sized, (*path, "control"))
    yield from estimate_checks.estimates(build, toy, sized, sized.motion is not None, path)
    yield from mount_checks.mount_findings(toy, sized, build.cabinet.floor, sized.motion, path)
    yield from screw_findings(toy, sized, path)
    moves = motion_missing(shaker, path) if shaker else []
    yield from left_out.left_out(one.kind, toy, sized, kick, board, build.cabinet.floor, path, moves)


def kick_of(build: Build, one: Draft, highest_V: float) -> suppression.Kick:
    """What a suppressor across the toy has to take."""
    chop = freewheel.chop_of(build, one)
    allowed = allowed_V(build, one)
    return suppression.Kick(one.load.design_current_A, highest_V, chop, allowed, one.load, switched_at(one))


def holds_V(one: Draft, board: Board | None) -> float | None:
    """The DC voltage of the contact or port that switches the load itself; None where neither does."""
    contact_V = one.control.contact_V(one.toy.control)
    if contact_V is not None or board is None or not one.control.port_carries_load:
        return contact_V
    return board.port_voltage.low


def screw_findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> Iterable[Finding]:
    """Screws that no table has, or that are too short in every table."""
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
    elif sized.mounting.stack_mm is not None and sized.mounting.length_mm is None:
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
    """The cabinet's own sway, where the toy turns at that frequency at some setting that may be used, and does harm."""
    sway = build.cabinet.sideways_frequency
    if motion is None or motion.harmful is None:
        return ()
    natural = spread_of(sway) if sway else Spread.usual("natural frequency on legs")
    slowest, fastest = turning_span(motion)
    if not motion.curve[-1].turning_high_Hz or fastest is None:
        return ()
    return cautions.resonance(sized.name, (natural.low, natural.high), (slowest or 0.0, fastest))


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
    fuses = [sized.ids[name] for name in ("fuse", "signal fuse") if name in sized.ids]
    where = f"at {' and '.join(fuses) or sized.supply_id}"
    return (
        f"Plug out. Disconnect it {where} first, cap the ends of its wires, and take its settings out of board "
        f"and game. "
        "What is worn out goes to the electronic waste of your place."
    )
