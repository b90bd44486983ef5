"""What stands round each load before a control joins it up: supply, fuse, board, and the shared leads."""

from dataclasses import dataclass, replace

from guide_gen.controls.pwm_port import PwmPortFields
from guide_gen.controls.speed_controller import SpeedControllerFields
from guide_gen.description.build import Build
from guide_gen.model.circuit import LETTERS, Part, PartKind, Wire
from guide_gen.model.kind import Frame
from guide_gen.model.plan import FusePlan, Suppression
from guide_gen.planning.drafts import Draft, home_of
from guide_gen.planning.wires import SharedLead
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import WireSize


@dataclass(frozen=True)
class Shared:
    """Designators and leads that all toys share, by slug of supply and board."""

    supply_ids: dict[str, str]
    board_ids: dict[str, str]
    leads: dict[str, SharedLead]
    returns: dict[str, SharedLead]
    lead_ids: dict[str, str]
    return_ids: dict[str, str]


def designators(build: Build) -> tuple[dict[str, str], dict[str, str], dict[str, str], dict[str, str]]:
    """T1.. for supplies, A1.. for boards; W1.. for their leads. A toy's own wires begin with its number."""
    supplies = {slug: f"T{place}" for place, slug in enumerate(build.supplies, start=1)}
    boards = {slug: f"A{place}" for place, slug in enumerate(build.boards, start=1)}
    leads = {slug: f"W{place}" for place, slug in enumerate(build.supplies, start=1)}
    returns = {slug: f"W{place}" for place, slug in enumerate(build.boards, start=1 + len(leads))}
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
    limit = "only by the supply's own limit: keep it short"
    return Wire(
        shared.lead_ids[slug],
        f"{shared.supply_ids[slug]}:+",
        end,
        build.wiring.colours.plus,
        lead.length_m,
        lead.size.shown,
        carries_A,
        limit,
        "supply lead",
    )


def return_wire(build: Build, shared: Shared, slug: str, carries_A: float, protected_by: str) -> Wire:
    """A board's own 0 V lead."""
    lead = shared.returns[slug]
    home = shared.supply_ids[home_of(build, build.boards[slug])]
    return Wire(
        shared.return_ids[slug],
        f"{shared.board_ids[slug]}:0V",
        f"{home}:0V",
        build.wiring.colours.zero,
        lead.length_m,
        lead.size.shown,
        carries_A,
        protected_by,
        "board return",
    )


def port_words(build: Build, one: Draft) -> tuple[str, ...]:
    """What stands at the switch: how the port works."""
    control = one.toy.control
    board = build.boards[one.board_slug]
    if isinstance(control, PwmPortFields):
        frequency = f"PWM {show.hertz(board.pwm_frequency.low)}" if board.pwm_frequency else "PWM"
        return (frequency, *((f"limit {show.percent(control.limit.high)}",) if control.limit else ()))
    if isinstance(control, SpeedControllerFields) and control.port_set_to == "pwm":
        return ("PWM",)
    return ("on/off",)


def input_fuse(one: Draft) -> FusePlan | None:
    """The fuse of a controller's input, where it has one of its own: the smallest of its series that is enough."""
    control = one.toy.control
    if not isinstance(control, SpeedControllerFields) or control.controller.input_from != "before the fuse":
        return None
    series = tables.fuse_series(one.fuse.series or "blade")
    need_A = rule("fuse margin").value * control.controller.input_current.high
    rating = next((rating for rating in series.ratings_A if rating >= need_A), series.ratings_A[-1])
    return replace(one.fuse, id=f"F{one.number}B", rating_A=rating, series=series.holder, needed_A=need_A)


def frame(build: Build, shared: Shared, one: Draft, suppression: Suppression) -> Frame:
    """Everything round one toy's load."""
    number, toy, colours = one.number, one.toy, build.wiring.colours
    own = input_fuse(one)
    supply = supply_part(build, one.supply_slug, shared.supply_ids[one.supply_slug])
    fuse = None
    if one.fuse.rating_A is not None:
        rated = f", {show.volts(one.fuse.voltage_V)} DC" if one.fuse.voltage_V else ""
        fuse = Part(
            one.fuse.id, PartKind.FUSE, show.amps(one.fuse.rating_A), ("1", "2"), (f"{one.fuse.series}{rated}",)
        )
    load = Part(
        f"{LETTERS[one.kind.part]}{number}",
        one.kind.part,
        show.volts(one.load.voltage_V),
        ("1", "2"),
        (show.quantity(toy.current),),
        name=one.name,
    )
    series = one.kind.series(toy, number, build.supplies[one.supply_slug].voltage.middle)
    diode = None
    if suppression.type == "diode":
        words = suppression.part.split(" ")
        name = "Schottky" if "Schottky" in suppression.part else "diode"
        diode = Part(
            f"D{number}",
            PartKind.DIODE,
            name,
            ("K", "A"),
            (" ".join(word for word in words if any(sign.isdigit() for sign in word)),),
        )
    board = switch = port_fuse = back = None
    home = supply
    joined = False
    if one.port:
        fields = build.boards[one.board_slug]
        board_id = shared.board_ids[one.board_slug]
        terminal = f"P{one.port.port}"
        board = Part(board_id, PartKind.BOARD, "", (terminal, "0V"), name=one.board_slug.capitalize())
        switch = Part(f"Q{number}", PartKind.SWITCH, "", ("D", "S"), port_words(build, one), inside=board_id)
        if fields.port_fuse:
            port_fuse = Part(f"F{number}C", PartKind.FUSE, "", ("1", "2"), (fields.port_fuse,), inside=board_id)
        home_slug = home_of(build, fields)
        home = supply if home_slug == one.supply_slug else supply_part(build, home_slug, shared.supply_ids[home_slug])
        joined = home is not supply and {home_slug, one.supply_slug} <= set(fields.common_return)
        protected = one.fuse.id if one.fuse.rating_A is not None else "nothing"
        back = return_wire(build, shared, one.board_slug, one.through_port_A, f"the feeds' fuses, here {protected}")
    end = f"{one.fuse.id}:1" if fuse else f"{(series or load).id}:1"
    return Frame(
        number=number,
        block=number * (10 if len(shared.lead_ids) + len(shared.return_ids) <= 10 else 100),
        supply=supply,
        lead=lead_wire(build, shared, one.supply_slug, end, one.load.design_current_A),
        fuse=fuse,
        load=load,
        suppressors=(diode,) if diode else (),
        series=series,
        board=board,
        switch=switch,
        port_fuse=port_fuse,
        board_return=back,
        home=home,
        joined=joined,
        feed_m=toy.feed.run.high,
        return_m=(toy.feed.return_run or toy.feed.run).high,
        plus=colours.plus,
        zero=colours.zero,
        back=colours.back,
        signal=colours.control,
        controller_id=f"A{len(build.boards) + number}",
        input_fuse=show.amps(own.rating_A) if own and own.rating_A else "",
    )


def sized_wires(one: Draft, wires: tuple[Wire, ...], size: WireSize, input_size: WireSize) -> list[Wire]:
    """The toy's own wires with their size, what they carry and what protects them."""
    guard = one.fuse.id if one.fuse.rating_A is not None else "nothing: fit a fuse"
    control = one.toy.control
    own_input = isinstance(control, SpeedControllerFields) and control.controller.input_from == "before the fuse"
    found = []
    for wire in wires:
        if wire.role in ("supply lead", "board return"):
            found.append(wire)
        elif wire.role.startswith("input"):
            found.append(replace_wire(wire, input_size, one.through_port_A, f"F{one.number}B" if own_input else guard))
        else:
            found.append(replace_wire(wire, size, one.load.design_current_A, guard))
    return found


def replace_wire(wire: Wire, size: WireSize, carries_A: float, protected_by: str) -> Wire:
    """The same run with its size."""
    return Wire(
        wire.id, wire.start, wire.end, wire.colour, wire.length_m, size.shown, carries_A, protected_by, wire.role
    )
