"""What stands round each load before a control joins it up: supply, fuse, board, and the shared leads."""

from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from guide_gen.description.build import Build
from guide_gen.model.circuit import LETTERS, SHARED_ROLES, Circuit, Part, PartKind, Wire
from guide_gen.model.kind import Frame, Row
from guide_gen.model.plan import FusePlan, Suppression
from guide_gen.planning.blocks import SizedBlock
from guide_gen.planning.drafts import Draft, board_returns, returns_to
from guide_gen.planning.wires import SharedLead
from guide_gen.values import show
from guide_gen.values.quantity import WireSize


@dataclass(frozen=True)
class Shared:
    """Designators and leads that all toys share, by slug of supply, board and distribution block.

    returns, return_ids: of the 0 V leads of boards, by board and the supply that they run to.
    """

    supply_ids: dict[str, str]
    board_ids: dict[str, str]
    leads: dict[str, SharedLead]
    returns: dict[tuple[str, str], SharedLead]
    lead_ids: dict[str, str]
    return_ids: dict[tuple[str, str], str]
    blocks: Mapping[str, SizedBlock] = field(default_factory=dict)


def designators(build: Build) -> tuple[dict[str, str], dict[str, str], dict[str, str], dict[tuple[str, str], str]]:
    """T1.. for supplies, A1.. for boards; W1.. for their leads. A toy's own wires begin with its number.

    The leads of boards to further supplies come behind those of distribution blocks.
    """
    supplies = {slug: f"T{place}" for place, slug in enumerate(build.supplies, start=1)}
    boards = {slug: f"A{place}" for place, slug in enumerate(build.boards, start=1)}
    leads = {slug: f"W{place}" for place, slug in enumerate(build.supplies, start=1)}
    first, others = 1 + len(leads), 2 * len(build.blocks)
    returns = {
        one: f"W{place if place < first + len(boards) else place + others}"
        for place, one in enumerate(board_returns(build), start=first)
    }
    return supplies, boards, leads, returns


def supply_part(build: Build, slug: str, id: str) -> Part:
    """A closed unit with plus and 0 V."""
    supply = build.supplies[slug]
    limit = (f"limit {show.amps(supply.current_limit.high)}",) if supply.current_limit else ()
    return Part(
        id,
        PartKind.SUPPLY,
        f"{show.volts(supply.voltage.middle)} DC",
        ("+", "0V"),
        (show.amps(supply.current.low), *limit),
        name=slug.capitalize(),
    )


def lead_wire(build: Build, shared: Shared, slug: str, end: str, carries_A: float) -> Wire:
    """The lead from a supply to its fuses."""
    lead = shared.leads[slug]
    return Wire(
        shared.lead_ids[slug],
        f"{shared.supply_ids[slug]}:+",
        end,
        build.wiring.colours.plus,
        lead.length_m,
        lead.size.shown,
        carries_A,
        "no fuse before it: keep it short",
        "supply lead",
    )


def return_wire(build: Build, shared: Shared, slug: str, supply_slug: str, carries_A: float, protected_by: str) -> Wire:
    """A board's 0 V lead to one supply."""
    lead = shared.returns[slug, supply_slug]
    return Wire(
        shared.return_ids[slug, supply_slug],
        f"{shared.board_ids[slug]}:0V",
        f"{shared.supply_ids[supply_slug]}:0V",
        build.wiring.colours.zero,
        lead.length_m,
        lead.size.shown,
        carries_A,
        protected_by,
        "board return",
    )


def port_words(build: Build, one: Draft) -> tuple[str, ...]:
    """What stands at the switch: how the port works."""
    return one.control.port_words(one.toy.control, build.boards[one.board_slug].pwm_frequency)


def suppressor_parts(plan: Suppression, name: str) -> tuple[Part, ...]:
    """What lies across a coil, in series from plus to minus. name: what follows the letter of their designators."""
    if plan.type == "rc":
        resistance = show.ohms(plan.resistance_ohm) if plan.resistance_ohm else ""
        capacitance = f"{show.figure(1e6 * plan.capacitance_F)} {show.MICRO}F" if plan.capacitance_F else ""
        return (
            Part(f"R{name}C", PartKind.RESISTOR, resistance, ("1", "2")),
            Part(f"C{name}", PartKind.CAPACITOR, capacitance, ("1", "2")),
        )
    if plan.type not in ("diode", "diode and zener"):
        return ()
    values = [show.volts(plan.reverse_V)] if plan.reverse_V else []
    values += [show.amps(plan.forward_A)] if plan.forward_A else []
    word = "Schottky" if "Schottky" in plan.part else "diode"
    diode = Part(f"D{name}", PartKind.DIODE, word, ("K", "A"), (" ".join(values),) if values else ())
    if plan.type == "diode":
        return (diode,)
    zener = show.volts(plan.zener_V) if plan.zener_V else ""
    return diode, Part(f"D{name}Z", PartKind.ZENER, "zener", ("K", "A"), (zener,) if zener else ())


def fuse_part(fuse: FusePlan) -> Part | None:
    """A fuse of a feed as it is drawn; None when there is none."""
    if fuse.rating_A is None:
        return None
    rated = f", {show.volts(fuse.voltage_V)} DC" if fuse.voltage_V else ""
    return Part(fuse.id, PartKind.FUSE, show.amps(fuse.rating_A), ("1", "2"), (f"{fuse.series}{rated}",))


def signal_fuse_part(one: Draft) -> Part | None:
    """The fuse of what switches the load, where that has one of its own: of the same sort as the feed's beside it."""
    own = fuse_part(one.signal_fuse) if one.signal_fuse else None
    return replace(own, notes=()) if own else None


def row_of(block: SizedBlock, one: Draft) -> Row:
    """The block that a toy's fuse sits at, with the terminals that this toy uses."""
    terminals = ("+",) if one.control.port_carries_load else ("+", "0V")
    name = block.draft.slug.replace("-", " ").capitalize()
    part = Part(block.draft.id, PartKind.BLOCK, "", terminals, ("block",), name=name)
    return Row(part, fuse_part(block.fuse), block.feed, block.back)


def frame(build: Build, shared: Shared, one: Draft, suppression: Suppression, coil: Suppression | None = None) -> Frame:
    """Everything round one toy's load."""
    number, toy, colours = one.number, one.toy, build.wiring.colours
    supply = supply_part(build, one.supply_slug, shared.supply_ids[one.supply_slug])
    fuse = fuse_part(one.fuse)
    row = row_of(shared.blocks[one.block_slug], one) if one.block_slug else None
    load = Part(
        f"{LETTERS[one.kind.part]}{number}",
        one.kind.part,
        show.volts(one.load.voltage_V),
        ("1", "2"),
        (show.quantity(toy.current),),
        name=one.name,
    )
    series = one.kind.series(toy, number, build.supplies[one.supply_slug].voltage.middle)
    board = switch = port_fuse = back = None
    home = supply
    if one.port:
        board_id = shared.board_ids[one.board_slug]
        terminal = f"P{one.port.port}"
        board = Part(board_id, PartKind.BOARD, "", (terminal, "0V"), name=one.board_slug.capitalize())
        switch = Part(f"Q{number}", PartKind.SWITCH, "", ("D", "S"), port_words(build, one), inside=board_id)
        inside = fuse_part(one.port_fuse) if one.port_fuse else None
        if inside and one.port_fuse:
            port_fuse = replace(inside, notes=(one.port_fuse.series,), inside=board_id)
        home_slug = returns_to(build, one.board_slug, one.supply_slug)
        home = supply if home_slug == one.supply_slug else supply_part(build, home_slug, shared.supply_ids[home_slug])
        protected = one.returns_by.id if one.returns_by.rating_A is not None else "nothing"
        back = return_wire(
            build, shared, one.board_slug, home_slug, one.through_port_A, f"the feeds' fuses, here {protected}"
        )
    first = row.fuse if row else fuse
    end = f"{first.id}:1" if first else f"{(series or load).id}:1"
    leads = len(shared.lead_ids) + len(shared.return_ids) + 2 * len(build.blocks)
    return Frame(
        number=number,
        block=number * (10 if leads <= 10 else 100),
        supply=supply,
        lead=lead_wire(build, shared, one.supply_slug, end, one.drawn_A[1]),
        fuse=fuse,
        load=load,
        suppressors=suppressor_parts(suppression, str(number)),
        series=series,
        board=board,
        switch=switch,
        port_fuse=port_fuse,
        board_return=back,
        home=home,
        feed_m=toy.feed.run.high,
        return_m=(toy.feed.return_run or toy.feed.run).high,
        plus=colours.plus,
        zero=colours.zero,
        back=colours.back,
        signal=colours.control,
        controller_id=f"A{len(build.boards) + number}",
        signal_fuse=signal_fuse_part(one),
        coil_suppressors=suppressor_parts(coil, f"{number}B") if coil else (),
        row=row,
    )


def sized_wires(one: Draft, circuit: Circuit, size: WireSize, signal_size: WireSize) -> list[Wire]:
    """The toy's own wires with their size, what they carry and what protects them."""
    guard = one.fuse.id if one.fuse.rating_A is not None else "nothing: fit a fuse"
    own = one.signal_fuse
    signal_guard = own.id if own and own.rating_A is not None else guard
    found = []
    for wire in circuit.wires:
        if wire.role in SHARED_ROLES:
            found.append(wire)
        elif wire.id not in circuit.main:
            found.append(replace_wire(wire, signal_size, one.through_port_A, signal_guard))
        else:
            found.append(replace_wire(wire, size, one.load.design_current_A, guard))
    return found


def replace_wire(wire: Wire, size: WireSize, carries_A: float, protected_by: str) -> Wire:
    """The same run with its size."""
    return Wire(
        wire.id, wire.start, wire.end, wire.colour, wire.length_m, size.shown, carries_A, protected_by, wire.role
    )
