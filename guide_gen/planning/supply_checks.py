"""Checks of supplies, boards and ports: current, voltage, start."""

from collections.abc import Mapping
from math import inf

from guide_gen.description.build import Board, Build, Supply
from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import PortPlan, Sized, SupplyPlan
from guide_gen.planning import drafts
from guide_gen.planning.checks import Path
from guide_gen.planning.left_out import port_start_A
from guide_gen.published import tables
from guide_gen.values import show

USABLE = tables.rule("usable port share").value
SHORT_START_S = 0.02  # longer starts are the supply's own to carry; this project
SAG = tables.rule("capacitor sag").value


def port_findings(
    build: Build,
    sized: Sized,
    board: Board,
    taken: Mapping[tuple[str, int], str],
    path: Path,
    heat: tuple[float, str] = (inf, ""),
) -> list[Finding]:
    """Is there such a port, is it free, and does it stand current and voltage?

    heat: the current that keeps its switch cool, and what to add to a mend where the rating alone does not do.
    """
    port = sized.port
    assert port is not None
    here = (*path, "control", "port")
    found = []
    if port.number > board.ports:
        found.append(
            Finding(
                "port-unknown",
                Level.MUST,
                f"{sized.name} is on port {port.number}, and {port.board} has ports 1 to {board.ports}.",
                f"a port from 1 to {board.ports}",
                free_port(build, port, taken),
                here,
                sized.slug,
            )
        )
    first = taken[port.board, port.number]
    if first != sized.slug:
        found.append(
            Finding(
                "port-taken",
                Level.MUST,
                f"Port {port.number} of {port.board} already belongs to {first}: both toys "
                f"would move "
                "together and load the port twice.",
                "one toy on each port",
                free_port(build, port, taken),
                here,
                sized.slug,
            )
        )
    if not reaches(port.limit_A, port.load_A):
        found.append(
            Finding(
                "port-overloaded",
                Level.MUST,
                f"{sized.name} draws up to {show.amps(port.load_A)} through port {port.number}; the port may carry "
                f"{show.amps(port.rated_A)}, and for long only {show.amps(port.limit_A)} of it.",
                f"at most {show.amps(min(port.limit_A, heat[0]))} through this port",
                f"Use a stronger port, for {show.amps(show.rounded_up(port.load_A / USABLE))} or more, a relay or a "
                f"speed controller that the port switches, or a toy that draws less.{heat[1]}",
                here,
                sized.slug,
            )
        )
    start_A, stands = port_start_A(sized), board.port_peak_current
    if start_A is not None and stands is not None and not reaches(max(stands.low, port.rated_A), start_A):
        found.append(
            Finding(
                "port-overloaded",
                Level.MUST,
                f"At its start {sized.name} draws up to {show.amps(start_A)} through port {port.number}; its switch "
                f"stands {show.amps(stands.low)} for a moment: it fails, and may stay on.",
                f"a port that stands {show.amps(start_A)} for a moment",
                f"Use a port with a port_peak_current of {show.amps(show.rounded_up(start_A))} or more, a relay whose "
                "contact may make that, or a soft start.",
                here,
                sized.slug,
            )
        )
    if not reaches(board.port_voltage.low, sized.supply_high_V):
        found.append(
            Finding(
                "port-voltage",
                Level.MUST,
                f"Port {port.number} of {port.board} may switch {show.volts(board.port_voltage.low)}; "
                f"{sized.supply_slug} "
                f"can "
                f"reach {show.volts(sized.supply_high_V)}.",
                f"a port for {show.volts(sized.supply_high_V)} or more",
                f"Take a board for that voltage, {show.volts(sized.supply_high_V)} or more, or a supply that cannot go "
                "so high.",
                here,
                sized.slug,
            )
        )
    return found


def free_port(build: Build, port: PortPlan, taken: Mapping[tuple[str, int], str]) -> str:
    """The first port that nobody uses."""
    free = next(
        (number for number in range(1, build.boards[port.board].ports + 1) if (port.board, number) not in taken), None
    )
    return f"Port {free} is free." if free else "No port of this board is free: add a board."


def voltage_findings(toy: ToyFields, sized: Sized, path: Path) -> list[Finding]:
    """Does the toy's voltage fit its supply, at its highest too?"""
    found = []
    rated = toy.voltage.middle
    if abs(rated - sized.supply_V) > 0.1 * sized.supply_V * (1 + 1e-9):
        found.append(
            Finding(
                "voltage-mismatch",
                Level.MUST,
                f"{sized.name} is made for {show.volts(rated)} and gets {show.volts(sized.supply_V)} from "
                f"{sized.supply_slug}.",
                "a toy and a supply whose voltages differ by at most 10 %",
                f"Take another supply for it, one of {show.volts(rated)}, or a toy for {show.volts(sized.supply_V)}.",
                (*path, "voltage"),
                sized.slug,
            )
        )
    if sized.supply_high_V > 1.15 * rated * (1 + 1e-9):
        found.append(
            Finding(
                "rail-too-high-for-toy",
                Level.MUST,
                f"{sized.supply_slug} can reach {show.volts(sized.supply_high_V)}, more than 1.15 times the "
                f"{show.volts(rated)} of {sized.name}: {too_much(sized)}.",
                f"at most {show.volts(1.15 * rated)}",
                f"Set the supply lower, to {show.volts(1.15 * rated)} at most, and state its true voltage_range; or "
                "take another supply.",
                (*path, "voltage"),
                sized.slug,
            )
        )
    return found


def too_much(sized: Sized) -> str:
    """What too high a voltage does to it."""
    what = sized.circuit.part(sized.ids["load"]).what
    if what in (PartKind.MOTOR, PartKind.FAN):
        return "it would run too fast and too hot"
    if what is PartKind.LAMP:
        return "it would shine too brightly, get too hot and fail early"
    return "its coil would draw more than it is made for and get too hot"


def supply_findings(supply: Supply, slug: str, demand_A: float, beside_A: float = 0.0) -> list[Finding]:
    """Does the supply carry the sum, of its rated current, or of its limit where that is lower?

    beside_A: what of the sum coils and inputs of controls take.
    """
    gives_A = drafts.gives_A(supply)
    path = ("supplies", slug, "current" if gives_A == supply.current.low else "current_limit")
    limit = contradiction(supply, slug) if drafts.contradicted(supply) else None
    found = [limit] if limit else []
    if reaches(formulas.usable_current_A(gives_A), demand_A):
        return found
    given, asked = show.amps_apart(gives_A, demand_A)
    beside = f" ({show.amps(beside_A)} of it for coils and inputs of controls)" if beside_A > 0.01 * demand_A else ""
    draw = f"All toys on {slug} together draw up to {asked}{beside}"
    least = f"at most {show.amps(formulas.usable_current_A(gives_A))}"
    take = f"Take a supply for {show.amps(show.rounded_up(formulas.rating_to_run_A(demand_A)))} or more"
    by_rated = limit is not None and reaches(formulas.usable_current_A(supply.current.low), demand_A)
    if not reaches(gives_A, demand_A):
        mend = limit.mend if limit and by_rated else f"{take}, or split the toys."
        return [
            *found,
            Finding("supply-overloaded", Level.MUST, f"{draw}; it gives {given}.", least, mend, path),
        ]
    mend = limit.mend if limit and by_rated else f"{take}."
    message = f"{draw} of {given}: less than a fifth is left."
    return [*found, Finding("supply-headroom", Level.SHOULD, message, least, mend, path)]


def contradiction(supply: Supply, slug: str) -> Finding:
    """A limit below the rated current."""
    assert supply.current_limit is not None
    rated, limit = show.amps(supply.current.low), show.quantity(supply.current_limit)
    return Finding(
        "implausible",
        Level.MUST,
        f"Supply {slug} is rated for {rated} for ever and is said to give {limit} at most: one of the two is wrong. "
        "The lower one counts until then.",
        f"{rated} or more",
        f"Look both up again, on its label and in its data sheet. If it is rated for {rated}, write a current_limit of "
        f"{rated} or more, or leave it out; if {limit} is all it gives, write current: {show.plain_spaces(limit)}.",
        ("supplies", slug, "current_limit"),
    )


def start_findings(slug: str, supply: SupplyPlan, capacitance_F: float | None) -> list[Finding]:
    """Does the supply carry the heaviest start while all others run? capacitance_F: on its rail, where described."""
    asked = supply.budget
    if asked is None or not asked.start_mend:
        return []
    given, most = show.amps_apart(supply.limit_A, asked.start_A)
    extra_A = asked.start_A - supply.demand_A
    if capacitance_F is not None and 0 < asked.started_s <= SHORT_START_S:
        sag = formulas.capacitor_sag(
            current_A=extra_A, time_s=asked.started_s, capacitance_F=capacitance_F, voltage_V=supply.voltage_V
        )
        if reaches(SAG, sag):
            return [
                Finding(
                    "supply-start",
                    Level.NOTE,
                    f"{asked.started_by} asks {slug} for {most} with all others, more than its {given}, for "
                    f"{show.seconds(asked.started_s)}: its capacitors carry that and "
                    f"lose {show.percent(sag)} of their voltage.",
                    f"at most {show.percent(SAG)} lost",
                    "Nothing to change while the capacitance is as described.",
                    ("supplies", slug, "current"),
                )
            ]
    return [
        Finding(
            "supply-start",
            Level.SHOULD,
            f"While {asked.started_by} starts and all others run, {most} are asked of {slug}; it gives {given} at "
            "most: it sags, or switches off and tries again.",
            f"at most {given} at any moment",
            asked.start_mend,
            ("supplies", slug, "current"),
        )
    ]


def board_finding(board: Board, slug: str, load_A: float, limit_A: float) -> list[Finding]:
    """Does the board carry the sum of its ports?"""
    if reaches(limit_A, load_A):
        return []
    return [
        Finding(
            "board-overloaded",
            Level.MUST,
            f"All ports of {slug} together carry up to {show.amps(load_A)}; the board may carry "
            f"{show.amps(board.board_current.low)}, and for long only {show.amps(limit_A)} of it.",
            f"at most {show.amps(limit_A)}",
            f"Move a toy to another board, or behind a relay or controller; or take a board for "
            f"{show.amps(show.rounded_up(load_A / USABLE))} or more.",
            ("boards", slug, "board_current"),
        )
    ]
