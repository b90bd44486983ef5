"""Short circuits: whether the fuse opens in time, and whether the wire stands it until then."""

from dataclasses import dataclass, replace

from guide_gen.formulas import short_circuit as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import FuseCurve, Outcome, curve
from guide_gen.model.plan import FusePlan
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.halving import last
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Worked, work

STOPS = ("restarts", "switches off")
"""What a supply does at overload so that it protects the wire once its limit is reached."""
IN_TIME_S = rule("adiabatic limit").value  # a fuse that opens within this time opens in time


@dataclass(frozen=True)
class Remedy:
    """What would let a fuse open in time where the run's resistance keeps the short circuit small; None: nothing does.

    run_share: of the length of the feed's own runs, with the same wire. size: of the wire, with the same run.
    """

    run_share: float | None
    size: WireSize | None


@dataclass(frozen=True)
class Fault:
    """A short circuit at the toy. least_A, most_A: what flows. longest_s: until the fuse has opened, at the least.

    remedy: where the fuse may not open in time although the supply could give enough; else None.
    """

    least_A: float
    most_A: float
    outcome: Outcome
    longest_s: float
    opens_in_time_A: float
    worked: tuple[Worked, ...]
    remedy: Remedy | None = None


def curve_of(fuse: FusePlan) -> FuseCurve | None:
    """When this fuse opens; None without a fuse, or for a rating that its standard does not know."""
    if fuse.rating_A is None:
        return None
    try:
        return curve(tables.fuse_series(fuse.series), fuse.rating_A, fuse.speed)
    except tables.NotInTable:
        return None


def heats(opening: FuseCurve, most_A: float) -> list[float]:
    """The currents at which a fuse lets most heat pass: the highest fault, and the least that it opens in time."""
    in_time = opening.current_to_open_A(IN_TIME_S)
    return [current for current in (most_A, in_time) if current <= most_A and reaches(current, in_time)]


def stands(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether a wire stands every short circuit that its fuse opens within 5 s; slower ones are overload's rule."""
    opening = curve_of(fuse)
    if opening is None:
        return True
    constant = tables.withstand_for(cabling.column_degC).k
    withstand = formulas.withstand_A2s(constant=constant, area_mm2=tables.area_mm2(size))
    _, most = loop.fault_A(cabling, size, fuse.resistance_ohm)
    return all(
        reaches(withstand, formulas.let_through_A2s(current_A=current, longest_s=longest(opening, current)))
        for current in heats(opening, most)
    )


def longest(opening: FuseCurve, current_A: float) -> float:
    """Time to open at a current that opens it in time."""
    return min(opening.opening(current_A).longest_s, IN_TIME_S)


def lasting_A(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> tuple[float, bool]:
    """What may flow into a short circuit for ever, since nothing ends it in time; and whether the supply bounds it.

    0: the fuse opens, or the supply stops by itself; or what it does is not known, and is asked for.
    """
    opening = curve_of(fuse)
    if opening is None or loop.overload == "not known":
        return 0.0, False
    least, _ = loop.fault_A(cabling, size, fuse.resistance_ohm)
    if opening.outcome(least, IN_TIME_S) is Outcome.OPENS:
        return 0.0, False
    limited = reaches(least, loop.limit_low_A)
    if limited and loop.overload in STOPS:
        return 0.0, True
    return (loop.limit_high_A if limited else least), limited


def fault_of(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> Fault | None:
    """The short circuit of one feed, with its working; None without a fuse that the tables know."""
    opening = curve_of(fuse)
    if opening is None:
        return None
    least, most = loop.fault_A(cabling, size, fuse.resistance_ohm)
    band = opening.opening(least)
    worst = rule("contact resistance").high
    assert worst is not None
    prospective = work(
        formulas.prospective_A,
        "fault.prospective",
        "Short-circuit current at the toy, if the supply gave it",
        sentence=f"The loop at its worst: warm, each end of a run with {show.ohms(worst)}.",
        voltage_V=loop.low_V,
        supply_ohm=0.0,
        loop_ohm=loop.fault_ohm(cabling, size, fuse.resistance_ohm),
    )
    flows = work(
        formulas.fault_current_A,
        "fault.current",
        "Short-circuit current at the toy",
        prospective_A=float(prospective.result),
        limit_A=loop.limit_low_A,
    )
    constant = tables.withstand_for(cabling.column_degC)
    withstand = work(
        formulas.withstand_A2s,
        "fault.withstand",
        "Heat that the wire stands",
        sentence=f"{constant.material} ({constant.how_known}).",
        constant=constant.k,
        area_mm2=tables.area_mm2(size),
    )
    passes = [
        work(
            formulas.let_through_A2s,
            "fault.let-through" if place == 0 else "fault.let-through-slow",
            "Heat that the fuse lets pass"
            + (" at the highest fault" if place == 0 else " where it just opens in time"),
            current_A=current,
            longest_s=longest(opening, current),
        )
        for place, current in enumerate(heats(opening, most))
    ]
    outcome = opening.outcome(least, IN_TIME_S)
    by_wires = outcome is not Outcome.OPENS and not reaches(least, loop.limit_low_A)
    return Fault(
        least,
        most,
        outcome,
        band.longest_s,
        opening.current_to_open_A(IN_TIME_S),
        (prospective, flows, withstand, *passes),
        remedy_of(cabling, size, fuse, loop) if by_wires else None,
    )


# ---- a run whose own resistance keeps its short circuit too small ----------------------------------------------------


def opens(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> bool:
    """Whether the least short circuit at the toy opens this fuse in time."""
    opening = curve_of(fuse)
    if opening is None:
        return False
    least, _ = loop.fault_A(cabling, size, fuse.resistance_ohm)
    return opening.outcome(least, IN_TIME_S) is Outcome.OPENS


def remedy_of(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> Remedy:
    """A shorter run, or a thicker wire: each alone."""
    thicker = [one for one in cabling.sizes() if tables.area_mm2(one) > tables.area_mm2(size)]
    return Remedy(
        longest_share(cabling, size, fuse, loop),
        next((one for one in thicker if opens(cabling, one, fuse, loop)), None),
    )


def longest_share(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> float | None:
    """The share of the feed's own runs up to which the fuse opens in time; None where even none of it is enough."""

    def shortened(share: float) -> Loop:
        runs = (run if run.size else replace(run, length_m=share * run.length_m) for run in loop.runs)
        return replace(loop, runs=tuple(runs))

    def in_time(share: float) -> bool:
        return opens(cabling, size, fuse, shortened(share))

    return last(in_time, 0.0, 1.0, 40) if in_time(0.0) else None
