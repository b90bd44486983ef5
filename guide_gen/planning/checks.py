"""Electrical checks: what a plan says about the build that it was made from."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from math import ceil, floor, isclose, log10
from typing import Protocol

from guide_gen.controls import controls
from guide_gen.description.build import Board, Build, Supply
from guide_gen.formulas import supply as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import Outcome, pulse_share
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Control, Weighed
from guide_gen.model.plan import FusePlan, Load, PortPlan, Sized, SupplyPlan, WirePlan
from guide_gen.planning import faults, freewheel
from guide_gen.planning import suppression as suppressors
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drafts import gives_A
from guide_gen.planning.faults import Fault
from guide_gen.planning.loops import Loop
from guide_gen.planning.wires import Choice, SharedLead, carries_fuse, least_behind_A
from guide_gen.published import tables
from guide_gen.toys import kinds
from guide_gen.values import show
from guide_gen.values.quantity import Basis, WireSize

Path = tuple[str, ...]
USABLE = tables.rule("usable port share").value
SHORT_START_S = 0.02  # longer starts are the supply's own to carry; this project
SAG = tables.rule("capacitor sag").value
OWN_DIODES = (
    "Look in the controller's data sheet: if its output has diodes inside, write suppressor: yes under controller; "
    "else take one that has, or one that does not reverse, with a diode across the toy."
)
HIGHER_BLADE_V = 58.0  # ISO 8820-3 knows a second voltage class of blade fuses (looked-up)


class Fed(Protocol):
    """What a feed ends at: a toy, or a distribution block (whose slug is "", since it is no toy)."""

    @property
    def slug(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def units(self) -> str: ...
    @property
    def load(self) -> Load: ...
    @property
    def fuse(self) -> FusePlan: ...
    @property
    def wire(self) -> WirePlan: ...
    @property
    def supply_slug(self) -> str: ...
    @property
    def supply_high_V(self) -> float: ...


def control_of(sized: Sized) -> Control:
    """The control of a toy."""
    return controls()[sized.control]


def rounded_up(value: float) -> float:
    """A value in three digits that is still enough: a mend must not propose a little too little."""
    step = 10.0 ** (floor(log10(value)) - 2)
    return ceil(value / step - 1e-9) * step


def fuse_findings(toy: ToyFields, sized: Sized, continuous_A: float, board: Board | None, path: Path) -> list[Finding]:
    """Is there a fuse at the source, and is it large enough, small enough and made for this voltage?"""
    fuse, slug = sized.fuse, sized.slug
    here = (*path, "feed", "fuse")
    if fuse.rating_A is None:
        elsewhere = return_only(toy, sized, board, here) if isinstance(toy.feed.fuse, str) else []
        return [missing_fuse(toy, sized, here), *elsewhere]
    found = []
    rating = fuse.rating_A
    if not reaches(rating, fuse.needed_A):
        must = not reaches(rating, continuous_A)
        mend = fuse.smallest_A
        found.append(
            Finding(
                "fuse-below-load",
                Level.MUST if must else Level.SHOULD,
                f"{fuse.id} is {show.amps(rating)}; {sized.name} draws up to {show.amps(sized.load.design_current_A)} "
                f"and "
                f"needs "
                f"{show.amps(fuse.needed_A)}: "
                + (
                    "it would open in normal use."
                    if must
                    else "it has less than the usual margin, and the pulses tire it."
                    if sized.load.momentary
                    else "it has less than the usual margin and may open at a start."
                ),
                f"{show.amps(fuse.needed_A)} or more",
                f"Fit {show.amps(mend)}." if mend else "Take a holder whose series goes that high.",
                (*here, "rating"),
                slug,
            )
        )
    if sized.port and control_of(sized).port_carries_load and not reaches(sized.port.rated_A, rating):
        found.append(
            Finding(
                "fuse-above-port",
                Level.SHOULD,
                f"{fuse.id} is {show.amps(rating)} and port {sized.port.number} may switch "
                f"{show.amps(sized.port.rated_A)}: at "
                "an overload the port is destroyed before the fuse opens.",
                f"a fuse of at most {show.amps(sized.port.rated_A)}",
                f"Use a port for {show.amps(rating)} or more, a stronger port by way of a relay, or a toy that draws "
                "less.",
                (*path, "control", "port"),
                slug,
            )
        )
    found += fuse_in_series(sized, here)
    found += fuse_voltage(sized, here)
    return found


def fuse_in_series(sized: Fed, here: Path) -> list[Finding]:
    """A stated rating that the series of its holder does not have: misread, or of another holder."""
    fuse = sized.fuse
    if not fuse.stated or fuse.rating_A is None:
        return []
    ratings, rating = tables.fuse_series(fuse.series).ratings_A, fuse.rating_A
    if any(isclose(rating, each, rel_tol=1e-9) for each in ratings):
        return []
    below, above = [each for each in ratings if each < rating][-1:], [each for each in ratings if each > rating][:1]
    near = " or ".join(show.amps(each) for each in (*below, *above))
    return [
        Finding(
            "fuse-not-in-series",
            Level.SHOULD,
            f"{fuse.id} is stated as {show.amps(rating)}, and the tables have no {fuse.series} fuse of that rating: "
            "what is said of when it opens holds for no fuse that fits this holder.",
            f"{near}, the nearest of the series",
            f"Read the number printed on the fuse again: write {near}, the holder that it fits, or leave rating out to "
            "have it chosen.",
            (*here, "rating"),
            sized.slug,
        )
    ]


def pulse_findings(sized: Sized, here: Path) -> list[Finding]:
    """Pulses of which nobody can say whether the fuse stands them, since the tables do not tell when it melts."""
    load, fuse = sized.load, sized.fuse
    if load.pulse_A2s is None or fuse.rating_A is None or fuse.melting_A2s is not None:
        return []
    needed_A2s = load.pulse_A2s / pulse_share(pulses=load.pulses)
    return [
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"Whether {fuse.id} stands {show.count(load.pulses)} "
            + ("pulses" if load.momentary else "cold starts")
            + f" of {sized.name} is not worked out: {fuse.standard} does not say with how much heat such a fuse melts.",
            f"a melting I²t of {show.figure(needed_A2s)} A²s or more",
            f"Look for the melting I²t of {show.amps(fuse.rating_A)} in the fuse's data sheet; if it is less, take "
            "a larger rating, or a holder for blade fuses.",
            (*here, "feed", "fuse"),
            sized.slug,
        )
    ]


def missing_fuse(toy: ToyFields, sized: Sized, here: Path) -> Finding:
    """A feed without a fuse at its source; or a load beyond the holder's series."""
    where = sized.ids.get("block", "the supply's plus")
    behind = f", and {sized.ids['block fuse']} is made for all of its block" if "block fuse" in sized.ids else ""
    if isinstance(toy.feed.fuse, str):
        return Finding(
            "fuse-missing",
            Level.MUST,
            f"The feed of {sized.name} has no fuse at its source{behind}: a short circuit heats the wire until it "
            "burns.",
            f"a fuse of {show.amps(sized.fuse.needed_A)} or more at {where}",
            "Leave the key fuse out, or write fuse: {holder: blade}; the rating is chosen.",
            here,
            sized.slug,
        )
    return Finding(
        "fuse-missing",
        Level.MUST,
        f"{sized.name} needs a fuse of {show.amps(sized.fuse.needed_A)}, and the series of the holder "
        f"{toy.feed.fuse.holder} does not go that high.",
        "a holder whose series has such a rating",
        "Take another holder, or split the load.",
        (*here, "holder"),
        sized.slug,
    )


def return_only(toy: ToyFields, sized: Sized, board: Board | None, here: Path) -> list[Finding]:
    """A fuse that stands where it does not protect the feed."""
    own_fuse = any(part.id != sized.ids.get("block fuse") for part in sized.circuit.of(PartKind.FUSE))
    signal = control_of(sized).signal
    if signal and sized.port and (own_fuse or (board and board.port_fuse)):
        return [
            Finding(
                "fuse-misses-the-motor",
                Level.MUST,
                f"The fuse of the port or of the input carries only the {show.amps(sized.port.load_A)} of {signal}; "
                f"the feed of {sized.name}, up to {show.amps(sized.load.design_current_A)}, has none.",
                "a fuse of the feed's own, at the supply's plus",
                f"Give the feed a fuse of {show.amps(sized.fuse.needed_A)} or more: leave out fuse: none.",
                here,
                sized.slug,
            )
        ]
    if board and board.port_fuse and sized.port:
        return [
            Finding(
                "fuse-in-return-only",
                Level.MUST,
                f"The only fuse of {sized.name} is in the switched return: a feed wire that touches 0 V or metal "
                f"bypasses "
                f"it.",
                "a fuse at the supply's plus",
                f"Keep the fuse in the return if you like, and add one at the source, {show.amps(sized.fuse.needed_A)} "
                "or more.",
                here,
                sized.slug,
            )
        ]
    return []


def fuse_voltage(sized: Fed, here: Path) -> list[Finding]:
    """The feed's fuse must be able to break this DC voltage."""
    return breaks_voltage(sized.fuse, sized.fuse.id, sized.supply_high_V, (*here, "dc_voltage"), sized.slug)


def port_fuse_findings(board: str, fuses: Sequence[tuple[FusePlan, float]]) -> list[Finding]:
    """The fuses in a board's switched returns, each with the highest voltage of its supply, told once together."""
    found = []
    none = [fuse for fuse, _ in fuses if fuse.rating_A is None]
    if none:
        needed = show.amps(max(fuse.needed_A for fuse in none))
        found.append(
            Finding(
                "fuse-below-load",
                Level.MUST,
                f"{' and '.join(fuse.id for fuse in none)}, in the switched return of {board}, would have to be "
                f"{needed} or the next larger one, and the series {none[0].series} does not go that high: any that "
                "fits the holder opens in normal use.",
                f"{needed} or more",
                "Take a board without a fuse there, or with holders of another series; or put a relay or a controller "
                "between the port and the toy.",
                ("boards", board, "port_fuse"),
            )
        )
    fitted = [(fuse, high_V) for fuse, high_V in fuses if fuse.rating_A is not None]
    weak = [one for one in fitted if one[0].voltage_V is None or not reaches(one[0].voltage_V, one[1])]
    if weak:
        ids, highest_V = " and ".join(fuse.id for fuse, _ in weak), max(high_V for _, high_V in weak)
        found += breaks_voltage(weak[0][0], ids, highest_V, ("boards", board, "port_fuse_voltage"), "")
    return found


def breaks_voltage(fuse: FusePlan, ids: str, high_V: float, here: Path, slug: str) -> list[Finding]:
    """A fuse must be able to break this DC voltage. ids: of all fuses of its sort, in words; here: its key."""
    has, are = ("has", "is") if ids == fuse.id else ("have", "are")
    if fuse.voltage_V is None:
        return [
            Finding(
                "fuse-voltage",
                Level.SHOULD,
                f"Only an AC voltage is printed on {fuse.series} fuses; {ids} {has} to break "
                f"{show.volts(high_V)} "
                "DC, where an arc does not go out by itself.",
                f"a fuse whose maker states {show.volts(high_V)} DC or more",
                f"Look up the DC rating and write it as {here[-1]}.",
                here,
                slug,
            )
        ]
    if reaches(fuse.voltage_V, high_V):
        return []
    higher = "blade" in fuse.series and reaches(HIGHER_BLADE_V, high_V)
    other = " Blade fuses are also made for 58 V: then write {here[-1]}: 58 V." if higher else ""
    return [
        Finding(
            "fuse-voltage",
            Level.MUST,
            f"{ids} {are} made for {show.volts(fuse.voltage_V)} DC and the supply can reach "
            f"{show.volts(high_V)}: "
            "its arc may not go out.",
            f"a fuse for {show.volts(high_V)} DC or more",
            f"Take a fuse with a higher DC rating, {show.volts(high_V)} or more.{other}",
            here,
            slug,
        )
    ]


def size_for(choice: Choice, name: str, otherwise: str, beside: str = "") -> str:
    """The size that a rule asks for, or what else helps. beside: a rule that is told by the same code, kept as well."""
    sizes = [choice.least.get(one) for one in (name, beside) if one]
    known = [size for size in sizes if size]
    if len(known) < len(sizes):
        return otherwise
    return f"Take {max(known, key=tables.area_mm2).shown} or thicker."


def wire_findings(sized: Fed, choice: Choice, cabling: Cabling, loop: Loop, path: Path) -> list[Finding]:
    """Does the wire carry the current and stand behind its fuse?"""
    plan, slug, fuse = choice.plan, sized.slug, sized.fuse
    here = (*path, "feed", "wire")
    found = small_wire(plan.size, cabling.smallest_above(plan.size), f"feed of {sized.name}", here, slug)

    if not reaches(plan.ampacity_A, sized.load.design_current_A):
        found.append(
            Finding(
                "wire-too-thin",
                Level.MUST,
                f"{plan.size.shown} may carry {show.amps(plan.ampacity_A)} in this cabinet; {sized.name} draws up to "
                f"{show.amps(sized.load.design_current_A)}.",
                f"a wire for {show.amps(sized.load.design_current_A)} or more",
                size_for(
                    choice,
                    "ampacity",
                    "Take a higher voltage, fewer bundled circuits or cooler air.",
                    "short circuit",
                ),
                here,
                slug,
            )
        )
    if fuse.rating_A is not None and not carries_fuse(cabling, plan.size, fuse):
        cap = cabling.fuse_cap_A(plan.size)
        if cap is not None and reaches(plan.ampacity_A, least_behind_A(fuse)):
            lack = f"by {cabling.family.name} may have no fuse above {show.amps(cap)}, whatever it carries"
        else:
            lack = (
                f"may carry {show.amps(plan.ampacity_A)} here and would have to carry {show.amps(least_behind_A(fuse))}"
            )
        found.append(
            Finding(
                "fuse-above-wire",
                Level.MUST,
                f"{fuse.id} is {show.amps(fuse.rating_A)}; behind it stands {plan.size.shown}, which {lack}: the wire "
                "can burn before the fuse opens.",
                f"a wire that may stand behind {show.amps(fuse.rating_A)}, or a smaller fuse",
                size_for(
                    choice,
                    "fuse",
                    "Use a fuse series that opens nearer to its rating, fewer bundled circuits, or a smaller load.",
                ),
                here if plan.stated else (*path, "feed", "fuse"),
                slug,
            )
        )
    if not faults.stands(cabling, plan.size, fuse, loop):
        found.append(
            Finding(
                "wire-too-thin",
                Level.MUST,
                f"{plan.size.shown} does not stand the heat of a short circuit until {fuse.id}, "
                f"{show.amps(fuse.rating_A or 0.0)}, has opened: its insulation melts.",
                "a wire that stands what the fuse lets pass",
                size_for(choice, "short circuit", "Take a smaller or faster fuse.", "ampacity"),
                here,
                slug,
            )
        )
    return found


def drop_findings(sized: Sized, choice: Choice, loop: Loop, path: Path, biggest_other: str) -> list[Finding]:
    """Does the wire keep the drop?"""
    plan, slug, limit_V = choice.plan, sized.slug, loop.limit_V()
    here = (*path, "feed", "wire")
    thicker = f", a thicker lead to {loop.row}" if loop.row else ""
    found = []
    if not reaches(limit_V, plan.drop_V):
        found.append(
            Finding(
                "drop-too-high",
                Level.SHOULD,
                f"{show.volts(plan.drop_V)} ({plan.drop_percent:.1f} %) is lost on the way to {sized.name}; the limit "
                f"is "
                f"{show.volts(limit_V)}."
                + (
                    ""
                    if choice.drop_counts
                    else f" More than half of the limit is lost in {biggest_other}, where no thicker wire helps."
                ),
                f"at most {show.volts(limit_V)}",
                (
                    size_for(choice, "drop", f"Take a shorter run{thicker} or a higher voltage.")
                    if choice.drop_counts
                    else f"Look at {biggest_other} first; a higher voltage helps too."
                ),
                here if plan.stated else (*path, "feed", "run"),
                slug,
            )
        )
    elif not choice.drop_counts:
        found.append(
            Finding(
                "drop-too-high",
                Level.SHOULD,
                f"Of the {show.volts(limit_V)} that may be lost on the way to {sized.name}, more than half is lost in "
                f"{biggest_other}, where no thicker wire helps.",
                f"at most {show.volts(limit_V / 2)} lost in fuse, contacts and switch",
                f"Look at {biggest_other}; a higher voltage helps too.",
                (*path, "feed", "run"),
                slug,
            )
        )
    return found


def fault_findings(sized: Fed, fault: Fault | None, overload: str, loop: Loop, path: Path) -> list[Finding]:
    """Can the supply give what opens the fuse? One that stops by itself protects the wire once it is reached."""
    stops = overload in ("restarts", "switches off")
    if fault is None or (stops and reaches(fault.least_A, loop.limit_low_A)):
        return []
    fuse, here = sized.fuse, (*path, "feed", "fuse")
    rated = show.amps(fuse.rating_A or 0.0)
    if overload == "not known":
        return [
            Finding(
                "fuse-cannot-open",
                Level.SHOULD,
                f"What {sized.supply_slug} does at overload is not known: if it lowers its current, {fuse.id}, "
                f"{rated}, may "
                f"stay whole in a short circuit; it opens within 5 s from {show.amps(fault.opens_in_time_A)} on.",
                "overload: limits, restarts or switches off",
                "Look in the supply's data sheet under over-current protection, and write what it says as overload.",
                ("supplies", sized.supply_slug, "overload"),
                sized.slug,
            )
        ]
    if fault.outcome is Outcome.OPENS:
        return []
    if fault.remedy is not None:
        return [long_run(sized, fault, fault.remedy, here)]
    carried = reaches(sized.wire.ampacity_A, loop.limit_high_A)
    return [
        Finding(
            "fuse-cannot-open",
            Level.SHOULD if carried else Level.MUST,
            f"A short circuit at {sized.name} lets only {show.amps(fault.least_A)} flow, since {sized.supply_slug} "
            f"limits its current; {fuse.id}, {rated}, "
            f"needs {show.amps(fault.opens_in_time_A)} to open within 5 s. "
            + (
                "The wire carries that current for ever, so the supply protects it and the fuse does not."
                if carried
                else f"The wire may carry {show.amps(sized.wire.ampacity_A)}: it burns while the fuse stays whole."
            ),
            f"a supply that gives at least {show.amps(fault.opens_in_time_A)}",
            f"Take a supply whose limit is {show.amps(fault.opens_in_time_A)} or more, or wire for "
            f"{show.amps(loop.limit_high_A)}.",
            here,
            sized.slug,
        )
    ]


def long_run(sized: Fed, fault: Fault, remedy: faults.Remedy, here: Path) -> Finding:
    """A run whose own resistance lets too little flow into a short circuit at its end to open the fuse in time."""
    fuse, plan = sized.fuse, sized.wire
    carried = reaches(plan.ampacity_A, fault.least_A)
    ways = []
    if remedy.run_share is not None:
        ways.append(f"shorten the run to {show.metres(0.99 * remedy.run_share * plan.run_m, sized.units)} or less")
    if remedy.size is not None:
        ways.append(f"take {remedy.size.shown} or thicker")
    if remedy.fuse_A is not None:
        ways.append(f"keep this wire and take a fuse of {show.amps(remedy.fuse_A)}")
    mend = "; or ".join(ways) or (
        f"take a supply whose limit is {show.amps(fault.opens_in_time_A)} or more, nearer by or of a higher voltage"
    )
    return Finding(
        "fuse-cannot-open",
        Level.SHOULD if carried else Level.MUST,
        f"A short circuit at {sized.name} lets only {show.amps(fault.least_A)} flow: the resistance of the run bounds "
        f"it, not {sized.supply_slug}. {fuse.id}, {show.amps(fuse.rating_A or 0.0)}, needs "
        f"{show.amps(fault.opens_in_time_A)} to open within 5 s. "
        + (
            "The wire carries that current, but the fault may last for minutes or for ever."
            if carried
            else f"The wire may carry {show.amps(plan.ampacity_A)}: it overheats until the fuse opens, if it does."
        ),
        f"{show.amps(fault.opens_in_time_A)} or more in a short circuit at the end of the run",
        f"{mend[0].upper()}{mend[1:]}.",
        here,
        sized.slug,
    )


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


def suppressor_findings(
    toy: ToyFields, sized: Sized, kick: suppressors.Kick, board: Board | None, path: Path
) -> list[Finding]:
    """Is the kickback taken care of, by a part that stands it?"""
    plan, here, found = sized.suppression, (*path, "suppressor"), []
    control = control_of(sized)
    nowhere = (
        plan.type in ("none", "not needed")
        or (plan.type == "in the controller" and not control.suppresses(toy.control))
        or (plan.type == "on the board" and not control.port_carries_load)
    )
    if nowhere and control.reverses(toy.control):
        found.append(bare_reversing(sized, here))
    elif nowhere:
        what = "fast or Schottky diode" if kick.chopped else "diode"
        heat_W = None
        reverse_V, mean_A, _, _ = suppressors.needs(kick.current_A, kick.highest_V, kick.chop)
        if kick.chop and board and control.port_carries_load:
            heat_W = freewheel.bare_W(kick.chop, board.port_voltage.low)
        burns = f", and PWM turns up to about {show.watts(heat_W)} into heat in it" if heat_W else ""
        found.append(
            Finding(
                "suppressor-missing",
                Level.MUST,
                f"Nothing takes the kickback of {sized.name}: each switch-off drives whatever switches it beyond its "
                f"voltage until it fails{burns}.",
                "a diode across the toy, band to plus",
                f"Fit a {what} across it, for {show.volts(reverse_V)} and {show.amps(mean_A)} or more: leave "
                "suppressor out and it is chosen.",
                here,
                sized.slug,
            )
        )
    if plan.type == "diode" and control.reverses(toy.control):
        found.append(
            Finding(
                "suppressor-reversed",
                Level.MUST,
                f"The controller's output can reverse: then the diode across {sized.name} is a short circuit.",
                "no diode across an output that can reverse",
                "Take the diode off: the controller takes the kickback itself."
                if control.suppresses(toy.control)
                else f"Take the diode off. {OWN_DIODES}",
                here,
                sized.slug,
            )
        )
    if isinstance(toy.suppressor, SuppressorFields) and plan.type in ("diode", "diode and zener"):
        found += small_suppressor(toy.suppressor, sized.name, sized.load, sized, kick.chop, here)
    return found


def bare_reversing(sized: Sized, here: Path) -> Finding:
    """A winding on an output that can reverse and has no suppressor of its own: no part across the toy is right."""
    return Finding(
        "suppressor-missing",
        Level.MUST,
        f"Nothing takes the kickback of {sized.name}: its controller has no suppressor of its own, and each "
        "switch-off drives it beyond its voltage until it fails. Its output can reverse, so a diode across the toy "
        "would be a short circuit.",
        "diodes inside the controller",
        OWN_DIODES,
        here,
        sized.slug,
    )


def release_findings(sized: Sized, kick: suppressors.Kick, path: Path) -> list[Finding]:
    """A plain diode lets a coil go late: told where that matters, with what diode and zener would do."""
    slow_s, plan = sized.load.slow_release_s, sized.suppression
    if slow_s is None or plan.type != "diode" or kick.chopped:
        return []
    if plan.release_s is None and slow_s > 0:
        return []
    if plan.release_s is not None and reaches(slow_s, plan.release_s):
        return []
    pair, _ = suppressors.diode_and_zener(None, kick)
    late = f"within {show.seconds(plan.release_s)}" if plan.release_s is not None else "late"
    why = f"{show.seconds(slow_s)} or less is quick" if slow_s else "its contacts are under load and open slowly"
    quick = f", which lets go within {show.seconds(pair.release_s)}" if pair.release_s is not None else ""
    mend = (
        f"Fit a diode and a zener of {show.volts(pair.zener_V)} in series{quick}: write suppressor: diode and zener."
        if pair.zener_V is not None
        else f"Take a {'board whose ports stand' if kick.at == 'port' else 'relay whose contact stands'} a higher "
        "voltage; then a diode and a zener in series fit."
    )
    return [
        Finding(
            "suppressor-too-slow",
            Level.SHOULD,
            f"With a plain diode {sized.name} lets go {late}; {why}.",
            "diode and zener" + (f", {show.seconds(pair.release_s)}" if pair.release_s is not None else ""),
            mend,
            (*path, "suppressor"),
            sized.slug,
        )
    ]


def clamp_findings(sized: Sized, kick: suppressors.Kick, board: Board | None, path: Path) -> list[Finding]:
    """What a diode and zener, or an RC, lets the switch see; and what PWM makes of either."""
    plan, here = sized.suppression, (*path, "suppressor")
    holder = "board" if kick.at == "port" else "relay"
    if plan.type not in ("diode and zener", "rc"):
        return []
    if kick.chop:
        zener = plan.type == "diode and zener"
        heat_W = None
        if zener and plan.zener_V is not None:
            heat_W = freewheel.zener_W(kick.chop, plan.zener_V)
        elif plan.capacitance_F is not None:
            heat_W = freewheel.rc_W(kick.chop, plan.capacitance_F)
        much = f", up to about {show.watts(heat_W)}" if heat_W else ""
        return [
            Finding(
                "suppressor-too-small",
                Level.MUST,
                f"PWM switches {sized.name} {show.count(kick.chop.frequency_Hz)} times a second, and "
                f"{'the zener turns' if zener else 'resistor and capacitor turn'} the energy of each time into "
                f"heat{much}. Parts of a usual size burn out.",
                "a fast or Schottky diode alone",
                "Leave suppressor out: then a diode that stands PWM is chosen.",
                here,
                sized.slug,
            )
        ]
    if plan.type == "diode and zener" and plan.zener_V is None:
        return [
            Finding(
                "suppressor-too-small",
                Level.MUST,
                f"No zener fits for {sized.name}: with {show.volts(sized.supply_high_V)} of the supply the {kick.at} "
                f"may see no more than {show.volts(kick.allowed_V or 0.0)}.",
                f"a {kick.at} for a higher voltage, or a plain diode",
                f"Take a {holder} whose {kick.at}s stand more, or write suppressor: diode.",
                here,
                sized.slug,
            )
        ]
    if plan.type == "rc" and plan.capacitance_F is None:
        return [
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"Resistor and capacitor of {sized.name} are not worked out: {rc_cause(kick)}.",
                "capacitance and resistance under suppressor",
                f"State both, or {rc_mend(kick)}; else take a diode.",
                here,
                sized.slug,
            )
        ]
    if board is None or kick.at != "port" or kick.allowed_V is None or plan.peak_V is None:
        return []
    if reaches(board.port_voltage.low, plan.peak_V):
        return []
    return [
        Finding(
            "port-voltage",
            Level.MUST,
            f"When {sized.name} is switched off, its suppressor lets the port rise to {show.volts(plan.peak_V)}; it "
            f"may switch {show.volts(board.port_voltage.low)}.",
            f"at most {show.volts(kick.allowed_V)}",
            "Take a lower zener or a larger capacitor, or leave its values out: then they are chosen.",
            here,
            sized.slug,
        )
    ]


def rc_cause(kick: suppressors.Kick) -> str:
    """Why no resistor and capacitor were found."""
    if kick.coil is None:
        return "its inductance is not described"
    return (
        f"the {kick.at} may see {show.volts(kick.allowed_V or 0.0)} ({suppressors.ALLOWED[kick.at]}), and an RC needs "
        f"more than {show.volts(2 * kick.highest_V)}, twice the highest voltage of the supply"
    )


def rc_mend(kick: suppressors.Kick) -> str:
    """What would let them be worked out."""
    if kick.coil is None:
        return "measure the coil's inductance and write it under coil"
    share = suppressors.CLAMPED_SHARE if kick.at == "port" else 1.0
    needed_V = 2 * kick.highest_V / share
    return f"take a {kick.at} for more than {show.volts(needed_V)}"


def coil_findings(toy: ToyFields, sized: Sized, path: Path) -> Iterable[Finding]:
    """A stated diode across the control's own coil."""
    coil = control_of(sized).coil(toy.control)
    if coil is None or not isinstance(coil.stated, SuppressorFields) or coil.stated.type != "diode":
        return []
    here = (*path, "control", *coil.path)
    return small_suppressor(coil.stated, f"the relay of {sized.name}", coil.load, sized, None, here)


def small_suppressor(
    stated: SuppressorFields, of: str, load: Load, sized: Sized, chop: freewheel.Chop | None, here: Path
) -> Iterable[Finding]:
    """A stated diode against what it must stand. of: whose it is. chop: what PWM does to the load."""
    reverse_V, mean_A, surge_A, _ = suppressors.needs(load.design_current_A, sized.supply_high_V, chop)
    lacks = []
    if stated.reverse_voltage and not reaches(stated.reverse_voltage.low, reverse_V):
        lacks.append((f"blocks {show.volts(stated.reverse_voltage.low)}", f"{show.volts(reverse_V)}"))
    if stated.forward_current and not reaches(stated.forward_current.low, mean_A):
        lacks.append((f"carries {show.amps(stated.forward_current.low)} for long", f"{show.amps(mean_A)}"))
    if stated.surge_current and not reaches(stated.surge_current.low, surge_A):
        lacks.append((f"stands a surge of {show.amps(stated.surge_current.low)}", f"{show.amps(surge_A)}"))
    if not lacks:
        return []
    return [
        Finding(
            "suppressor-too-small",
            Level.MUST,
            f"The diode of {of} " + " and ".join(f"{has}, needed {need}" for has, need in lacks) + ".",
            " and ".join(need for _, need in lacks),
            "Take a larger one, or leave its values out: then it is chosen.",
            here,
            sized.slug,
        )
    ]


def small_wire(size: WireSize, smallest: WireSize | None, what: str, here: Path, slug: str = "") -> list[Finding]:
    """A stated wire below the family's smallest size: it may carry the current and still break or slip out."""
    if smallest is None:
        return []
    return [
        Finding(
            "wire-too-thin",
            Level.MUST,
            f"The {what} is of {size.shown}; the smallest that the chosen table allows for such a wire is "
            f"{smallest.shown}: a thinner one breaks too easily, whatever it carries.",
            f"{smallest.shown} or thicker",
            f"Take {smallest.shown} or thicker, or leave its size out: then it is chosen.",
            here,
            slug,
        )
    ]


def lead_finding(lead: SharedLead, what: str, path: Path, bare_m: float | None) -> list[Finding]:
    """A shared lead that does not stand what can flow in it, or is thinner than any such wire may be."""
    small = small_wire(lead.size, lead.smallest, what, (*path, "wire"))
    if lead.fits:
        return small
    long = bare_m is not None and lead.length_m > bare_m * (1 + 1e-9)
    most = (
        f"{show.with_unit(f'{1000 * (bare_m or 0):g}', 'mm')} ({show.with_unit(f'{(bare_m or 0) / 0.0254:g}', 'in')})"
    )
    thicker = "Take a thicker wire, or leave its size out: then it is chosen."
    if lead.stated:
        mend = f"{thicker[:-1]}; or keep it within {most}." if long else thicker
    elif long:
        mend = f"Shorten it to {most}, share the load between supplies, or fuse it at the supply."
    else:
        mend = "Share the load between supplies or boards, bundle fewer circuits, or take better insulation."
    return [
        *small,
        Finding(
            "fuse-missing" if bare_m is not None else "wire-too-thin",
            Level.MUST,
            f"The {what}, {lead.size.shown}, may carry {show.amps(lead.ampacity_A)} here and must carry "
            f"{show.amps(lead.needed_A)}"
            + (
                f": it is longer than {most}, so only the supply's own limit bounds it."
                if long
                else ": that much can flow in it before the fuses open."
            ),
            f"a lead that carries {show.amps(lead.needed_A)}",
            mend,
            (*path, "wire" if lead.stated else "run"),
        ),
    ]


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


def estimates(build: Build, toy: ToyFields, sized: Sized, moves: bool, path: Path) -> list[Finding]:
    """Which values without a firm basis decide this toy's results; told once. moves: its motion is worked out."""
    values = [one for one in weighed(build, toy, sized, path) if moves or not one.moves]
    weak = [one for one in values if one.value.basis is Basis.ESTIMATE or (one.asked and one.value.basis is None)]
    if not weak:
        return []
    named = " and ".join(f"{one.name} ({show.quantity(one.value)})" for one in weak)
    how = " ".join(f"{one.name[0].upper()}{one.name[1:]}: {one.measure}." for one in weak)
    return [
        Finding(
            "estimate-used",
            Level.NOTE,
            f"{sized.name} rests on {'an estimate' if len(weak) == 1 else 'estimates'}: {named}. Results are only as "
            "good as that.",
            "a measured value, or one from a data sheet",
            f"Measure before you buy. {how} Then write (measured) behind the value, or (datasheet).",
            weak[0].path,
            sized.slug,
        )
    ]


def weighed(build: Build, toy: ToyFields, sized: Sized, path: Path) -> list[Weighed]:
    """Every value on which a toy's results rest, with the instrument that tells it better."""
    extra = type(toy).model_fields["current"].json_schema_extra
    assert isinstance(extra, dict)
    values = [Weighed("its current", toy.current, (*path, "current"), str(extra["ask"]))]
    if sized.port and control_of(sized).port_carries_load:
        board, here = build.boards[sized.port.board], ("boards", sized.port.board, "switch_resistance")
        if "switch_resistance" in board.model_fields_set:
            how = "a multimeter's millivolts across the port that is on, over the current through it"
            values.append(Weighed("the port's switch_resistance", board.switch_resistance, here, how))
        if "switch_thermal_resistance" in board.model_fields_set:
            here = (*here[:-1], "switch_thermal_resistance")
            how = "the data sheet of the board or of its switch; it is not measured at home"
            thermal = board.switch_thermal_resistance
            values.append(Weighed("the port's switch_thermal_resistance", thermal, here, how, asked=False))
    values += [replace(one, path=(*path, *one.path)) for one in kinds()[toy.kind].weighed(toy)]
    values += [replace(one, path=(*path, "control", *one.path)) for one in control_of(sized).weighed(toy.control)]
    limit = build.supplies[sized.supply_slug].current_limit
    if limit is not None:
        here = ("supplies", sized.supply_slug, "current_limit")
        how = "its data sheet, under over-current protection; it is not measured at home"
        values.append(Weighed("the supply's current_limit", limit, here, how))
    return [*values, *cabinet_weighed(build)]


def cabinet_weighed(build: Build) -> list[Weighed]:
    """What is known of the cabinet as a body; it counts where a motion is worked out."""
    cabinet, nudge = build.cabinet, "a phone's accelerometer on top of it, nudged and let go"
    named = (
        ("the cabinet's mass", cabinet.mass, "mass", "a bathroom scale, corner by corner", False),
        ("the cabinet's sideways_frequency", cabinet.sideways_frequency, "sideways_frequency", nudge, True),
        ("the cabinet's damping", cabinet.damping, "damping", nudge, False),
    )
    return [
        Weighed(name, value, ("cabinet", place), how, asked, moves=True)
        for name, value, place, how, asked in named
        if value is not None
    ]


def flashing_Hz(rates: Iterable[tuple[str, float]]) -> float:
    """The sum of the rates of lamps that are not driven together, where only the sum is too fast; else 0."""
    flashing = [rate for _, rate in rates if rate > 0]
    limit, total = tables.rule("flash rate"), sum(flashing)
    alone = any(not reaches(limit.value, rate) for rate in flashing)
    fits = len(flashing) < 2 or alone or reaches(limit.value, total) or total > (limit.high or total)
    return 0.0 if fits else total


def flash_findings(rates: Iterable[tuple[str, float]]) -> list[Finding]:
    """Lamps that are not driven together: the sum of their rates, where none of them alone flashes too fast."""
    flashing = [(name, rate) for name, rate in rates if rate > 0]
    limit, total = tables.rule("flash rate"), flashing_Hz(flashing)
    if not total:
        return []
    named = " and ".join(f"{name} ({show.hertz(rate)})" for name, rate in flashing)
    return [
        Finding(
            "flash-rate",
            Level.SHOULD,
            f"{named} together flash {show.figure(total)} times a second where they are not in step: from three to "
            "sixty that can provoke seizures.",
            f"at most {limit.value:g} Hz together",
            "Drive them from one port so that they flash in step, or set them slower.",
            ("toys",),
        )
    ]
