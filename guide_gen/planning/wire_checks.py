"""Checks of wires and shared leads: ampacity, drop, and what a short circuit does to them."""

from dataclasses import replace

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.fuse_opening import Outcome
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Sized
from guide_gen.planning import faults
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.checks import Fed, Path
from guide_gen.planning.faults import Fault
from guide_gen.planning.loops import Loop
from guide_gen.planning.wires import Choice, SharedLead, carries_fuse, least_behind_A
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.quantity import WireSize

USUAL_V = (12.0, 24.0, 48.0)  # IEC 60038, preferred voltages of DC equipment (from memory), those up to 60 V in use
MORE = 1.2  # a voltage that is higher by less is the same one at another setting
COOLER = (
    "Only cooler air or better insulation helps: in air as warm as its insulation stands a wire may carry nothing. "
    "Cool the cabinet by a vent or a fan; or take wire rated for 90 °C, and write insulation: 90 °C with an "
    "ampacity_table that has it, NFPA 70 310.16 or 33 CFR 183.425."
)
"""The mend where a wire of any size may carry nothing."""


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
                COOLER if plan.ampacity_A <= 0 else "Take a higher voltage, fewer bundled circuits or cooler air.",
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
                f"a wire that may stand behind {show.amps(fuse.rating_A)}"
                + (", or a smaller fuse" if fuse.rating_A > (fuse.smallest_A or fuse.rating_A) else ""),
                COOLER
                if plan.ampacity_A <= 0
                else "Use a fuse series that opens nearer to its rating, fewer bundled circuits, or a smaller load.",
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
                "Take a faster fuse, or a smaller load.",
                here,
                slug,
            )
        )
    return found


def drop_findings(
    sized: Sized, choice: Choice, loop: Loop, path: Path, biggest_other: str, cabling: Cabling
) -> list[Finding]:
    """Does the wire keep the drop?"""
    plan, slug, limit_V = choice.plan, sized.slug, loop.limit_V()
    here = (*path, "feed", "wire")
    higher = higher_voltage(sized, loop, cabling)
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
                drop_mend(sized, loop, cabling) if choice.drop_counts else f"Look at {biggest_other} first{higher}.",
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
                f"Look at {biggest_other} first{higher}.",
                (*path, "feed", "run"),
                slug,
            )
        )
    return found


def drop_mend(sized: Fed, loop: Loop, cabling: Cabling) -> str:
    """The longest run that keeps the drop with the thickest wire, and the next usual voltage that does."""
    size, thickest, run_m = sized.wire.size, cabling.sizes()[-1], longest_run_m(sized, loop, cabling)
    thicker = f"take wire of {thickest.shown} and " if size != thickest else ""
    if run_m is None:
        lead = f", a thicker lead to {loop.row}" if loop.row else ""
        first = f"take less current{lead} or shorter leads before the fuse: no run to {sized.name} is short enough"
    else:
        first = f"{thicker}shorten the run to {show.metres(run_m, sized.units)} or less"
    return f"{first[0].upper()}{first[1:]}{higher_voltage(sized, loop, cabling)}."


def longest_run_m(sized: Fed, loop: Loop, cabling: Cabling) -> float | None:
    """The longest run whose thickest wire keeps the drop, the way back as much shorter; None where none is."""
    thickest = cabling.sizes()[-1]
    own_ohm = sum(cabling.run_ohm(thickest, run.length_m, loop.current_A) for run in loop.runs if not run.size)
    fixed_ohm = loop.wire_ohm(cabling, thickest) - own_ohm + loop.other_ohm(sized.fuse.resistance_ohm)
    share = (loop.limit_V() / loop.current_A - fixed_ohm) / own_ohm
    run_m = show.rounded_down(0.99 * share * sized.wire.run_m)
    return run_m or None


def higher_voltage(sized: Fed, loop: Loop, cabling: Cabling) -> str:
    """The next usual voltage at which as much power loses little enough, as another way to mend; "" where none does.

    A fuse loses as much at its rating whatever that is; the other parts of the way stay as they are.
    """
    for voltage_V in USUAL_V:
        ratio = voltage_V / loop.voltage_V
        if ratio < MORE:
            continue
        fuse_ohm = ratio * sized.fuse.resistance_ohm
        way = replace(
            loop,
            current_A=loop.current_A / ratio,
            voltage_V=voltage_V,
            row_ohm=ratio * loop.row_ohm,
            return_ohm=ratio * loop.return_ohm,
        )
        size = next(
            (one for one in cabling.sizes() if reaches(way.limit_V(), way.drop_V(cabling, one, fuse_ohm))), None
        )
        if size is not None:
            kept = max(size, sized.wire.size, key=tables.area_mm2)
            lost_V, limit_V = show.volts(way.drop_V(cabling, kept, fuse_ohm)), show.volts(way.limit_V())
            return (
                f"; or take a toy and a supply of {show.volts(voltage_V)}: as much power then draws "
                f"{show.amps(way.current_A)}, and {kept.shown} loses about {lost_V} of the {limit_V} allowed"
            )
    return ""


def fault_findings(
    sized: Fed, fault: Fault | None, overload: str, loop: Loop, cabling: Cabling, path: Path
) -> list[Finding]:
    """Can the supply give what opens the fuse? One that stops by itself protects the wire once it is reached."""
    stops = overload in faults.STOPS
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
    carries = next((size for size in cabling.sizes() if reaches(cabling.ampacity_A(size), loop.limit_high_A)), None)
    thicker = "" if carried or carries is None else f", or wire of {carries.shown} or thicker, which carries all of it"
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
            f"Take a supply whose limit is {show.amps(fault.opens_in_time_A)} or more{thicker}.",
            here,
            sized.slug,
        )
    ]


def long_run(sized: Fed, fault: Fault, remedy: faults.Remedy, here: Path) -> Finding:
    """A run whose own resistance lets too little flow into a short circuit at its end to open the fuse in time."""
    fuse, plan = sized.fuse, sized.wire
    carried = reaches(plan.ampacity_A, fault.least_A)
    shorter = shorter_run(plan.run_m, remedy, sized.units)
    stronger = f"a supply whose limit is {show.amps(fault.opens_in_time_A)} or more, nearer by or of a higher voltage"
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
        f"{shorter[0].upper()}{shorter[1:]}." if shorter else f"Take {stronger}.",
        here,
        sized.slug,
    )


def shorter_run(run_m: float, remedy: faults.Remedy, units: str) -> str:
    """How short the run would have to be, in words; "" where no run is short enough."""
    if remedy.run_share is None:
        return ""
    return f"shorten the run to {show.metres(0.99 * remedy.run_share * run_m, units)} or less"


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
            f"Take {smallest.shown} or thicker.",
            here,
            slug,
        )
    ]


def bare_words(bare_m: float) -> str:
    """How long a lead before the fuses may be, in both units."""
    return f"{show.with_unit(f'{1000 * bare_m:g}', 'mm')} ({show.with_unit(f'{bare_m / 0.0254:g}', 'in')})"


def lead_finding(lead: SharedLead, what: str, path: Path, bare_m: float | None) -> list[Finding]:
    """A shared lead that does not stand what can flow in it, or is thinner than any such wire may be."""
    small = small_wire(lead.size, lead.smallest, what, (*path, "wire"))
    if lead.fits:
        return small
    long = bare_m is not None and lead.length_m > bare_m * (1 + 1e-9) and lead.ampacity_A > 0
    most = bare_words(bare_m or 0.0)
    if long:
        thin = lead.short is not None and tables.area_mm2(lead.short) > tables.area_mm2(lead.size)
        shorter = "" if lead.short is None else f"Shorten it to {most}{f' of {lead.short.shown}' if thin else ''}, s"
        mend = f"{shorter or 'S'}hare the load between supplies, or fuse it at the supply."
    elif lead.ampacity_A <= 0:
        mend = COOLER
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
