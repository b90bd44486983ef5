"""Checks of supplies, boards and ports: current, voltage, start."""

from collections.abc import Mapping

from guide_gen.description.build import Board, Build, Supply
from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import PortPlan, Sized, SupplyPlan
from guide_gen.planning.checks import Path, rounded_up
from guide_gen.planning.drafts import gives_A
from guide_gen.published import tables
from guide_gen.values import show

USABLE = tables.rule("usable port share").value
SHORT_START_S = 0.02  # longer starts are the supply's own to carry; this project
SAG = tables.rule("capacitor sag").value


def port_findings(
    build: Build, sized: Sized, board: Board, taken: Mapping[tuple[str, int], str], path: Path
) -> list[Finding]:
    """Is there such a port, is it free, and does it stand current and voltage?"""
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
                f"at most {show.amps(port.limit_A)} through this port",
                f"Use a stronger port, for {show.amps(rounded_up(port.load_A / USABLE))} or more, a relay or a speed "
                "controller that the port switches, or a toy that draws less.",
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
                f"{show.volts(rated)} of {sized.name}: it would run too fast and too hot.",
                f"at most {show.volts(1.15 * rated)}",
                f"Set the supply lower, to {show.volts(1.15 * rated)} at most, and state its true voltage_range; or "
                "take another supply.",
                (*path, "voltage"),
                sized.slug,
            )
        )
    return found


def supply_findings(supply: Supply, slug: str, demand_A: float) -> list[Finding]:
    """Does the supply carry the sum, of its rated current, or of its limit where that is lower?"""
    rated = gives_A(supply)
    path = ("supplies", slug, "current" if rated == supply.current.low else "current_limit")
    if demand_A > rated * (1 + 1e-9):
        return [
            Finding(
                "supply-overloaded",
                Level.MUST,
                f"All toys on {slug} together draw up to {show.amps(demand_A)}; it gives {show.amps(rated)}.",
                f"at most {show.amps(0.8 * rated)}",
                f"Take a supply for {show.amps(rounded_up(demand_A / 0.8))} or more, or split the toys.",
                path,
            )
        ]
    if demand_A > 0.8 * rated * (1 + 1e-9):
        return [
            Finding(
                "supply-headroom",
                Level.SHOULD,
                f"All toys on {slug} together draw up to {show.amps(demand_A)} of {show.amps(rated)}: less than a "
                f"fifth "
                f"is left.",
                f"at most {show.amps(0.8 * rated)}",
                f"Take a supply for {show.amps(rounded_up(demand_A / 0.8))} or more.",
                path,
            )
        ]
    return []


def start_findings(slug: str, supply: SupplyPlan, capacitance_F: float | None) -> list[Finding]:
    """Does the supply carry the heaviest start while all others run? capacitance_F: on its rail, where described."""
    asked = supply.budget
    if asked is None or not asked.started_by or reaches(supply.limit_A, asked.start_A):
        return []
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
                    f"{asked.started_by} asks {slug} for {show.amps(asked.start_A)} with all others, more than its "
                    f"{show.amps(supply.limit_A)}, for {show.seconds(asked.started_s)}: its capacitors carry that and "
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
            f"While {asked.started_by} starts and all others run, {show.amps(asked.start_A)} are asked of {slug}; it "
            f"gives "
            f"{show.amps(supply.limit_A)} at most: it sags, or switches off and tries again.",
            f"at most {show.amps(supply.limit_A)} at any moment",
            f"Take a supply that gives {show.amps(asked.start_A)} for a moment, raise the strength in small steps, or "
            f"start "
            "the toys one after the other.",
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
            f"{show.amps(rounded_up(load_A / USABLE))} or more.",
            ("boards", slug, "board_current"),
        )
    ]
