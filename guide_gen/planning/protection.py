"""What protects a feed: load, fuse, wire and supply in time and current, and a sentence that says what they do."""

from dataclasses import dataclass, replace
from itertools import pairwise
from math import exp, inf, log, sqrt

from guide_gen.formulas import short_circuit
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import FuseCurve
from guide_gen.model.circuit import SHARED_ROLES
from guide_gen.model.loads import asked_words
from guide_gen.model.plan import Curve, FusePlan, Load, Protection, Sized, WirePlan
from guide_gen.planning import faults
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.halving import last
from guide_gen.values.quantity import WireSize

ADJUSTED = ("pwm port", "speed controller")  # controls by which the strength can be raised slowly
_POINTS = 64
_SHORTEST_S = 0.005  # times below it are drawn nowhere
_FOREVER_S = 1e9
_STANDS_FROM_S, _STANDS_TO_S = 0.005, faults.IN_TIME_S


def seconds(time_s: float) -> str:
    """A time for people: ``40 ms``, ``2.4 s``, ``10 min``."""
    if time_s < 1:
        return show.with_unit(show.figure(1000 * time_s, digits=2), "ms")
    if time_s < 120:
        return show.with_unit(show.figure(time_s, digits=2), "s")
    return show.with_unit(show.figure(time_s / 60, digits=2), "min")


@dataclass(frozen=True)
class Guarded:
    """A feed that a fuse guards. adjusted: the strength of what it feeds can be raised slowly."""

    load_id: str
    wire_ids: tuple[str, ...]
    supply_id: str
    load: Load
    fuse: FusePlan
    wire: WirePlan
    adjusted: bool = False


def protection(sized: Sized, loop: Loop, cabling: Cabling, overload: str) -> Protection:
    """Everything that the time-current plot of a toy's feed shows. overload: what the supply does then."""
    adjusted = sized.control in ADJUSTED
    load_id, wire_ids = sized.ids["load"], own_runs(sized)
    guarded = Guarded(load_id, wire_ids, sized.supply_id, sized.load, sized.fuse, sized.wire, adjusted)
    return of_feed(guarded, loop, cabling, overload)


def of_feed(feed: Guarded, loop: Loop, cabling: Cabling, overload: str) -> Protection:
    """The same of any feed: a toy's, or that of a distribution block."""
    fuse, wire, load = feed.fuse, feed.wire, feed.load
    opening = faults.curve_of(fuse)
    fault_A, _ = loop.fault_A(cabling, wire.size, fuse.resistance_ohm)
    opened_s = None if opening is None else opening.opening(fault_A).longest_s
    in_time = opens_in_time(cabling, wire.size, fuse, loop)
    by = ended_by(cabling, wire.size, fuse, loop, overload)
    # An inrush is a start, told as one.
    pulse_s = load.start_s if load.momentary and load.pulse_A2s is not None else None
    found = Protection(
        load_id=feed.load_id,
        fuse_id=fuse.id if fuse.rating_A is not None else "",
        wire_ids=feed.wire_ids,
        supply_id=feed.supply_id,
        running_A=(load.lowest_current_A, load.design_current_A),
        start_A=load.start_A,
        start_s=load.start_s,
        pulse_s=pulse_s,
        fuse_A=fuse.rating_A,
        never_A=None if opening is None else never_A(opening),
        sure_A=None if opening is None else opening.current_to_open_A(_FOREVER_S),
        shortest=() if opening is None else band(opening, longest=False),
        longest=() if opening is None else band(opening, longest=True),
        wire=wire.size.shown,
        ampacity_A=wire.ampacity_A,
        stands=stands(cabling, wire),
        limit_A=loop.limit_low_A,
        fault_A=fault_A,
        opened_s=None if opened_s is None or opened_s == inf else opened_s,
        in_time=in_time,
        by=by,
        short="",
        says=(),
        held_A=load.held_A,
        limit_high_A=loop.limit_high_A,
    )
    return _said(found, overload, feed.adjusted)


def own_runs(sized: Sized) -> tuple[str, ...]:
    """The toy's own wires of full current, all of one size."""
    main = sized.circuit.main
    return tuple(wire.id for wire in sized.circuit.wires if wire.id in main and wire.role not in SHARED_ROLES)


def opens_in_time(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether the least short circuit opens the fuse in time, and the wire stands it until then."""
    return faults.opens(cabling, size, fuse, loop) and faults.stands(cabling, size, fuse, loop)


def ended_by(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop, overload: str) -> str:
    """What ends a short circuit: ``fuse``, ``supply``, ``wire`` or ``nothing``, as `Protection` has it."""
    least_A, _ = loop.fault_A(cabling, size, fuse.resistance_ohm)
    limited, carries = reaches(least_A, loop.limit_low_A), reaches(cabling.ampacity_A(size), loop.limit_high_A)
    return protector(opens_in_time(cabling, size, fuse, loop), limited, overload, carries)


def protector(in_time: bool, limited: bool, overload: str, carries_limit: bool) -> str:
    """What ends a short circuit, or makes it harmless.

    limited: the supply's limit bounds it, so that the supply notices. carries_limit: the wire carries that for ever.
    """
    if in_time:
        return "fuse"
    if limited and overload in faults.STOPS:
        return "supply"
    return "wire" if overload == "limits" and carries_limit else "nothing"


def never_A(opening: FuseCurve) -> float:
    """The highest current that the fuse carries for ever, by its gates."""
    surely_A = opening.current_to_open_A(_FOREVER_S)
    return last(lambda current_A: opening.opening(current_A).shortest_s == inf, 0.0, surely_A)


def band(opening: FuseCurve, *, longest: bool) -> Curve:
    """One edge of the band, from the current that opens it for certain to where it is faster than a plot shows."""
    first = opening.current_to_open_A(_FOREVER_S)
    last = opening.current_to_open_A(_SHORTEST_S)
    ratio = max(last / first, 1.01)
    gates = {gate.multiple * opening.rating_A for gates in opening.gates for gate in gates}
    currents = {first * ratio ** (step / _POINTS) for step in range(_POINTS + 1)}
    currents |= {current for current in gates if first <= current <= last}
    edge = [(current, opening.opening(current)) for current in sorted(currents)]
    return tuple((current, one.longest_s if longest else one.shortest_s) for current, one in edge)


def stands(cabling: Cabling, wire: WirePlan) -> Curve:
    """How long the wire stands a current before its insulation fails, up to 5 s; by rising current."""
    constant, area = tables.withstand_for(cabling.column_degC).k, wire.area_mm2
    span = log(_STANDS_TO_S / _STANDS_FROM_S)
    times = [_STANDS_TO_S * exp(-span * step / 12) for step in range(13)]
    currents = [constant * area / sqrt(time) for time in times]
    return tuple(
        (current, short_circuit.time_stood_s(constant=constant, area_mm2=area, current_A=current))
        for current in currents
    )


# ---- in words -------------------------------------------------------------------------------------------------------


def _said(found: Protection, overload: str, adjusted: bool) -> Protection:
    """The same with its sentences. adjusted: its strength can be raised slowly."""
    return replace(found, short=short_of(found), says=tuple(sentences(found, overload, adjusted)))


def short_of(found: Protection) -> str:
    """What the chart shows, in one line."""
    if not found.fuse_id:
        return f"No fuse protects {found.wire}: a short circuit heats it until it burns."
    heads = {
        "fuse": f"{found.fuse_id} opens in time: before {found.wire} is harmed.",
        "supply": f"Not {found.fuse_id} but the supply ends a short circuit at {found.load_id}.",
        "wire": f"{found.fuse_id} may not open; {found.wire} carries all that the supply gives, for ever.",
        "nothing": f"{found.fuse_id} is not sure to open in time.",
    }
    return heads[found.by]


def sentences(found: Protection, overload: str, adjusted: bool) -> list[str]:
    """What the chart shows: the load, a short circuit, and what ends it."""
    if not found.fuse_id:
        return ["Fit a fuse at the supply's plus before anything is connected."]
    if found.never_A is None or found.sure_A is None:
        return [
            f"The tables have no opening times for {show.amps(found.fuse_A or 0)} in this series. "
            "Look them up in the fuse's data sheet."
        ]
    return [load_words(found), fault_words(found), *starting_words(found, adjusted), *end_words(found, overload)]


def load_words(found: Protection) -> str:
    """The load against what the fuse never opens at."""
    assert found.never_A is not None
    most = show.amps(found.running_A[1])
    if reaches(found.never_A, found.running_A[1]):
        return f"The {most} of {found.load_id} never open {found.fuse_id}: it carries up to {show.amps(found.never_A)}."
    return f"The {most} of {found.load_id} may open {found.fuse_id}: it carries {show.amps(found.never_A)} for sure."


def fault_words(found: Protection) -> str:
    """A short circuit at the toy, and the fuse's answer."""
    assert found.sure_A is not None
    what = (
        f"The supply gives at most {show.amps(found.limit_A)}"
        if limited(found)
        else f"A short circuit at {found.load_id} draws {show.amps(found.fault_A)} or more"
    )
    if found.opened_s is None:
        return f"{what}; {found.fuse_id} is sure to open only from {show.amps(found.sure_A)} on."
    stood = stood_s(found, found.fault_A)
    wire = (
        f"{found.wire} stands that for more than {seconds(faults.IN_TIME_S)}"
        if stood is None
        else f"{found.wire} stands that for {seconds(stood)}"
    )
    return f"{what}; {found.fuse_id} has opened within {seconds(found.opened_s)}, and {wire}."


def limited(found: Protection) -> bool:
    """Whether the supply's limit, not the wire's resistance, bounds a short circuit."""
    return reaches(found.fault_A, found.limit_A)


def stood_s(found: Protection, current_A: float) -> float | None:
    """How long the wire stands a current; None: for more than 5 s, where another rule holds."""
    first, time = found.stands[0]
    return None if current_A < first else time * (first / current_A) ** 2


def starting_words(found: Protection, adjusted: bool) -> list[str]:
    """The start or the pulse, against the fuse."""
    if found.pulse_s is not None:
        return [f"Each pulse is over after {seconds(found.pulse_s)}."]
    if found.start_A is None:
        return []
    drawn = min(found.start_A, max(found.limit_A, found.limit_high_A or 0.0))
    asked = asked_words(found.start_A, found.supply_id, found.limit_A, found.limit_high_A)
    lead = f"At the moment of switching on {found.load_id} asks for up to {asked}"
    shortest = time_at(found.shortest, drawn) if drawn > (found.never_A or 0) else inf
    if shortest == inf:
        return [f"{lead}: that never opens {found.fuse_id}."]
    if found.start_s and reaches(shortest, found.start_s):
        return [f"{lead}, for {seconds(found.start_s)}: {found.fuse_id} carries that for {seconds(shortest)}."]
    lasts = f" for {seconds(found.start_s)}" if found.start_s else ""
    advice = "raise the strength in small steps" if adjusted else "if it opens at a start, take a time-lag one"
    return [f"{lead}{lasts}: {found.fuse_id} may open after {seconds(shortest)}; {advice}."]


def time_at(curve: Curve, current_A: float) -> float:
    """The time of a curve at a current, straight between its points on logarithmic scales; before it: infinite."""
    if not curve or current_A < curve[0][0] * (1 - 1e-9):
        return curve[0][1] if curve and current_A > 0.75 * curve[0][0] else inf
    for (left, before), (right, after) in pairwise(curve):
        if current_A <= right:
            if before <= 0 or after <= 0:
                return 0.0
            return float(before * (after / before) ** (log(current_A / left) / log(right / left)))
    return curve[-1][1]


def end_words(found: Protection, overload: str) -> list[str]:
    """What ends a short circuit where it is not the fuse, or not the fuse alone."""
    limit = show.amps(found.limit_A)
    if found.by == "supply":
        does = "tries again and again" if overload == "restarts" else "switches off"
        return [
            f"On overload the supply {does}: that ends it, the fuse may stay whole, and every toy on this supply stops."
        ]
    if found.by == "wire":
        return [f"So the supply's limit of {limit} is the protection here, not {found.fuse_id}."]
    if found.by == "nothing" and overload == "not known":
        return ["Look up what the supply does on overload: limit its current, restart or switch off."]
    if found.by == "nothing" and not limited(found):
        return ["Not in time: the run itself bounds it. Shorten it, or take a thicker wire or a smaller fuse."]
    if found.by == "nothing":
        return [
            f"Not in time: take a supply that gives at least {show.amps(2 * (found.fuse_A or 0))}, or a thicker wire."
        ]
    return []
