"""Electrical checks: what a plan says about the build that it was made from."""

from collections.abc import Iterable, Mapping
from math import ceil, floor, log10

from guide_gen.controls import controls
from guide_gen.description.build import Board, Build, Supply
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import Outcome
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Control
from guide_gen.model.plan import Load, PortPlan, Sized, SupplyPlan
from guide_gen.planning import faults
from guide_gen.planning import suppression as suppressors
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.faults import Fault
from guide_gen.planning.loops import Loop
from guide_gen.planning.wires import Choice, SharedLead, carries_fuse, least_behind_A
from guide_gen.published import tables
from guide_gen.toys import kinds
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity

Path = tuple[str, ...]
HIGHER_BLADE_V = 58.0  # ISO 8820-3 knows a second voltage class of blade fuses (looked-up)


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
        series = tables.fuse_series(fuse.series)
        mend = next((one for one in series.ratings_A if reaches(one, fuse.needed_A)), None)
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
                "Use a stronger port or a relay, or a toy that draws less.",
                (*path, "control", "port"),
                slug,
            )
        )
    found += fuse_voltage(sized, here)
    return found


def missing_fuse(toy: ToyFields, sized: Sized, here: Path) -> Finding:
    """A feed without a fuse at its source; or a load beyond the holder's series."""
    if isinstance(toy.feed.fuse, str):
        return Finding(
            "fuse-missing",
            Level.MUST,
            f"The feed of {sized.name} has no fuse at its source: a short circuit heats the wire until it burns.",
            f"a fuse of {show.amps(sized.fuse.needed_A)} or more at the supply's plus",
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
    own_fuse = any(part.what is PartKind.FUSE for part in sized.circuit.parts)
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
                "Keep the fuse in the return if you like, and add one at the source.",
                here,
                sized.slug,
            )
        ]
    return []


def fuse_voltage(sized: Sized, here: Path) -> list[Finding]:
    """A fuse must be able to break this DC voltage."""
    fuse = sized.fuse
    here = (*here, "dc_voltage")
    if fuse.voltage_V is None:
        return [
            Finding(
                "fuse-voltage",
                Level.SHOULD,
                f"Only an AC voltage is printed on {fuse.series} fuses; {fuse.id} has to break "
                f"{show.volts(sized.supply_high_V)} "
                "DC, where an arc does not go out by itself.",
                f"a fuse whose maker states {show.volts(sized.supply_high_V)} DC or more",
                "Look up the DC rating and write it as dc_voltage.",
                here,
                sized.slug,
            )
        ]
    if reaches(fuse.voltage_V, sized.supply_high_V):
        return []
    higher = "blade" in fuse.series and reaches(HIGHER_BLADE_V, sized.supply_high_V)
    other = " Blade fuses are also made for 58 V: then write dc_voltage: 58 V." if higher else ""
    return [
        Finding(
            "fuse-voltage",
            Level.MUST,
            f"{fuse.id} is made for {show.volts(fuse.voltage_V)} DC and the supply can reach "
            f"{show.volts(sized.supply_high_V)}: "
            "its arc may not go out.",
            f"a fuse for {show.volts(sized.supply_high_V)} DC or more",
            "Take a fuse with a higher DC rating." + other,
            here,
            sized.slug,
        )
    ]


def wire_findings(
    sized: Sized, choice: Choice, cabling: Cabling, loop: Loop, path: Path, biggest_other: str
) -> list[Finding]:
    """Does the wire carry the current, stand behind its fuse, and keep the drop?"""
    plan, slug, fuse = choice.plan, sized.slug, sized.fuse
    here = (*path, "feed", "wire")
    limit_V = loop.limit_V()
    found = []

    def size_for(name: str, otherwise: str) -> str:
        size = choice.least.get(name)
        return f"Take {size.shown} or thicker." if size else otherwise

    if not reaches(plan.ampacity_A, sized.load.design_current_A):
        found.append(
            Finding(
                "wire-too-thin",
                Level.MUST,
                f"{plan.size.shown} may carry {show.amps(plan.ampacity_A)} in this cabinet; {sized.name} draws up to "
                f"{show.amps(sized.load.design_current_A)}.",
                f"a wire for {show.amps(sized.load.design_current_A)} or more",
                size_for("ampacity", "Take a higher voltage, fewer bundled circuits or cooler air."),
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
                size_for("short circuit", "Take a smaller or faster fuse."),
                here,
                slug,
            )
        )
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
                    size_for("drop", "Take a shorter run or a higher voltage.")
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


def fault_findings(sized: Sized, fault: Fault | None, overload: str, loop: Loop, path: Path) -> list[Finding]:
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
    carried = reaches(sized.wire.ampacity_A, loop.limit_high_A)
    bound = (
        f"{sized.supply_slug} limits its current"
        if reaches(fault.least_A, loop.limit_low_A)
        else "the wires bound the current"
    )
    return [
        Finding(
            "fuse-cannot-open",
            Level.SHOULD if carried else Level.MUST,
            f"A short circuit at {sized.name} lets only {show.amps(fault.least_A)} flow, since {bound}; {fuse.id}, "
            f"{rated}, "
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
                "Use a stronger port, a relay or a speed controller that the port switches, or a toy that draws less.",
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
                "Take a board for that voltage, or a supply that cannot go so high.",
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
                "Take another supply for it, or another toy.",
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
                "Set the supply lower and state its true voltage_range, or take another supply.",
                (*path, "voltage"),
                sized.slug,
            )
        )
    return found


def suppressor_findings(toy: ToyFields, sized: Sized, *, kickback: bool, chopped: bool, path: Path) -> list[Finding]:
    """Is the kickback taken care of, by a part that stands it?"""
    plan, here, found = sized.suppression, (*path, "suppressor"), []
    if not kickback:
        return []
    control = control_of(sized)
    nowhere = (
        plan.type in ("none", "not needed")
        or (plan.type == "in the controller" and not control.suppresses(toy.control))
        or (plan.type == "on the board" and not control.port_carries_load)
    )
    if nowhere:
        what = "diode" if not chopped else "fast or Schottky diode"
        found.append(
            Finding(
                "suppressor-missing",
                Level.MUST,
                f"Nothing takes the kickback of {sized.name}: each switch-off drives whatever switches it beyond its "
                "voltage until it fails.",
                "a diode across the toy, band to plus",
                f"Fit a {what} across it: leave suppressor out and it is chosen.",
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
                "Take the diode off; such a controller has its own inside.",
                here,
                sized.slug,
            )
        )
    if isinstance(toy.suppressor, SuppressorFields) and plan.type in ("diode", "diode and zener"):
        found += small_suppressor(toy.suppressor, sized.name, sized.load, sized, chopped, here)
    return found


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
        else "Take a board whose ports stand a higher voltage; then a diode and a zener in series fit."
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
    """What a diode and zener, or an RC, lets the switch see; and what PWM makes of a zener."""
    plan, here = sized.suppression, (*path, "suppressor")
    if plan.type not in ("diode and zener", "rc"):
        return []
    if plan.type == "diode and zener" and kick.chopped:
        return [
            Finding(
                "suppressor-too-small",
                Level.MUST,
                f"PWM switches {sized.name} off many times a second, and the zener turns the energy of each time into "
                "heat: it burns out.",
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
                f"No zener fits for {sized.name}: with {show.volts(sized.supply_high_V)} of the supply the port may "
                f"see no more than {show.volts(kick.allowed_V or 0.0)}.",
                "a port for a higher voltage, or a plain diode",
                "Take a board whose ports stand more, or write suppressor: diode.",
                here,
                sized.slug,
            )
        ]
    if plan.type == "rc" and plan.capacitance_F is None:
        return [
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"Resistor and capacitor of {sized.name} are not worked out: its inductance is not described, or 0.8 "
                "of the port's voltage is less than twice the supply's.",
                "capacitance and resistance under suppressor",
                "State both, or describe the inductance and take a port for a higher voltage; else take a diode.",
                here,
                sized.slug,
            )
        ]
    if board is None or kick.allowed_V is None or plan.peak_V is None:
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


def coil_findings(toy: ToyFields, sized: Sized, path: Path) -> Iterable[Finding]:
    """A stated diode across the control's own coil."""
    coil = control_of(sized).coil(toy.control)
    if coil is None or not isinstance(coil.stated, SuppressorFields) or coil.stated.type != "diode":
        return []
    here = (*path, "control", *coil.path)
    return small_suppressor(coil.stated, f"the relay of {sized.name}", coil.load, sized, False, here)


def small_suppressor(
    stated: SuppressorFields, of: str, load: Load, sized: Sized, chopped: bool, here: Path
) -> Iterable[Finding]:
    """A stated diode against what it must stand. of: whose it is."""
    reverse_V, mean_A, _ = suppressors.needs(load.design_current_A, sized.supply_high_V, chopped)
    surge_A = load.design_current_A
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


def lead_finding(lead: SharedLead, what: str, path: Path, bare_m: float | None) -> list[Finding]:
    """A shared lead that does not stand what can flow in it."""
    if lead.fits:
        return []
    long = bare_m is not None and lead.length_m > bare_m
    thicker = "Take a thicker wire, or leave its size out: then it is chosen."
    if lead.stated:
        mend = f"{thicker[:-1]}; or keep it within 175 mm (7 in)." if long else thicker
    elif long:
        mend = "Shorten it to 175 mm (7 in), share the load between supplies, or fuse it at the supply."
    else:
        mend = "Share the load between supplies or boards, bundle fewer circuits, or take better insulation."
    return [
        Finding(
            "fuse-missing" if bare_m is not None else "wire-too-thin",
            Level.MUST,
            f"The {what}, {lead.size.shown}, may carry {show.amps(lead.ampacity_A)} here and must carry "
            f"{show.amps(lead.needed_A)}"
            + (
                ": it is longer than 175 mm (7 in), so only the supply's own limit bounds it."
                if long
                else ": that much can flow in it before the fuses open."
            ),
            f"a lead that carries {show.amps(lead.needed_A)}",
            mend,
            (*path, "wire" if lead.stated else "run"),
        )
    ]


def supply_findings(supply: Supply, slug: str, demand_A: float) -> list[Finding]:
    """Does the supply carry the sum?"""
    rated = supply.current.low
    path = ("supplies", slug, "current")
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


def start_findings(slug: str, supply: SupplyPlan) -> list[Finding]:
    """Does the supply carry the heaviest start while all others run?"""
    asked = supply.budget
    if asked is None or not asked.started_by or reaches(supply.limit_A, asked.start_A):
        return []
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
            "Move a toy to another board, or behind a relay or controller.",
            ("boards", slug, "board_current"),
        )
    ]


def estimates(build: Build, toy: ToyFields, sized: Sized, path: Path) -> list[Finding]:
    """Which values without a firm basis decide this toy's results; told once."""
    values: list[tuple[str, Quantity, Path]] = [("its current", toy.current, (*path, "current"))]
    motor = getattr(toy, "motor", None)
    if motor is not None and motor.resistance is not None:
        values.append(("the winding's resistance", motor.resistance, (*path, "motor", "resistance")))
    if sized.port and control_of(sized).port_carries_load:
        board = build.boards[sized.port.board]
        if "switch_resistance" in board.model_fields_set:
            values.append(
                (
                    "the port's switch_resistance",
                    board.switch_resistance,
                    ("boards", sized.port.board, "switch_resistance"),
                )
            )
    values += [(one.name, one.value, (*path, *one.path)) for one in kinds()[toy.kind].weighed(toy)]
    values += [(one.name, one.value, (*path, "control", *one.path)) for one in control_of(sized).weighed(toy.control)]
    limit = build.supplies[sized.supply_slug].current_limit
    if limit is not None:
        values.append(("the supply's current_limit", limit, ("supplies", sized.supply_slug, "current_limit")))
    weak = [(name, value, place) for name, value, place in values if value.basis in (None, Basis.ESTIMATE)]
    if not weak:
        return []
    named = " and ".join(f"{name} ({show.quantity(value)})" for name, value, _ in weak)
    return [
        Finding(
            "estimate-used",
            Level.NOTE,
            f"{sized.name} rests on an estimate: {named}. Results are only as good as that.",
            "a measured value, or one from a data sheet",
            "Measure before you buy: current at full voltage, loaded as in use, on a multimeter's 10 A range or a "
            "bench "
            "supply; "
            "a resistance from voltage and current together. Then write (measured) behind the value.",
            weak[0][2],
            sized.slug,
        )
    ]


def flash_findings(rates: Iterable[tuple[str, float]]) -> list[Finding]:
    """Lamps that are not driven together: the sum of their rates, where none of them alone flashes too fast."""
    flashing = [(name, rate) for name, rate in rates if rate > 0]
    limit, total = tables.rule("flash rate"), sum(rate for _, rate in flashing)
    if len(flashing) < 2 or any(not reaches(limit.value, rate) for _, rate in flashing):
        return []
    if reaches(limit.value, total) or total > (limit.high or total):
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
