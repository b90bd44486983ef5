"""Short circuits: whether the fuse opens in time, and whether the wire stands it until then."""

from dataclasses import dataclass

from guide_gen.formulas import short_circuit as formulas
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import FuseCurve, Outcome, curve
from guide_gen.model.plan import FusePlan
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values.quantity import WireSize
from guide_gen.values.worked import Worked, work

IN_TIME_S = rule("adiabatic limit").value  # a fuse that opens within this time opens in time


@dataclass(frozen=True)
class Fault:
    """A short circuit at the toy. least_A, most_A: what flows. longest_s: until the fuse has opened, at the least."""

    least_A: float
    most_A: float
    outcome: Outcome
    longest_s: float
    opens_in_time_A: float
    worked: tuple[Worked, ...]


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


def fault_of(cabling: Cabling, size: WireSize, fuse: FusePlan, loop: Loop) -> Fault | None:
    """The short circuit of one feed, with its working; None without a fuse that the tables know."""
    opening = curve_of(fuse)
    if opening is None:
        return None
    least, most = loop.fault_A(cabling, size, fuse.resistance_ohm)
    band = opening.opening(least)
    ohm = loop.wire_ohm(cabling, size) + loop.other_ohm(fuse.resistance_ohm)
    prospective = work(
        formulas.prospective_A,
        "fault.prospective",
        "Short-circuit current at the toy, if the supply gave it",
        voltage_V=loop.low_V,
        supply_ohm=0.0,
        loop_ohm=ohm,
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
    return Fault(
        least,
        most,
        opening.outcome(least, IN_TIME_S),
        band.longest_s,
        opening.current_to_open_A(IN_TIME_S),
        (prospective, flows, withstand, *passes),
    )
