"""Steps and readings that every toy shares, made from its circuit; and the order of all steps on a page."""

from collections.abc import Iterable
from dataclasses import replace

from guide_gen.model.circuit import Circuit, Wire
from guide_gen.model.guide import STAGES, Reading, Step
from guide_gen.model.plan import Sized
from guide_gen.published import tables
from guide_gen.values import show

CONTINUITY_OHM = 0.3  # what a hobby multimeter can tell from zero; common practice, no source
NO_SHORT_OHM = 10.0


def shared_steps(sized: Sized) -> tuple[Step, ...]:
    """Wiring from the toy back to the source, dead checks, first power and holds."""
    return (*wire_steps(sized), *dead_steps(sized), *power_steps(sized), *hold_steps(sized))


def in_order(*groups: Iterable[Step]) -> tuple[Step, ...]:
    """All steps stage by stage; within a stage in the order of the groups. In a hold every step is a killer."""
    steps = [step for group in groups for step in group]
    return tuple(
        replace(step, killer=True) if stage.hold else step
        for stage in STAGES
        for step in steps
        if step.stage == stage.id
    )


def wire_steps(sized: Sized) -> tuple[Step, ...]:
    """One step a wire, the source last, so that nothing is live while it is wired."""
    circuit, load = sized.circuit, sized.ids["load"]
    own = [wire for wire in circuit.wires if wire.role not in ("supply lead", "board return", "feed")]
    shared_back = [wire for wire in circuit.wires if wire.role == "board return"]
    shared_lead = [wire for wire in circuit.wires if wire.role == "supply lead"]
    feed = [wire for wire in circuit.wires if wire.role == "feed"]
    steps = [run_step(wire, sized, "") for wire in (*shared_back, *own, *feed)]
    if "diode" in sized.ids:
        steps.append(
            Step(
                "toy.wire.suppressor",
                "wire",
                f"Fit {sized.ids['diode']} across {load}:1 and {load}:2, the end with the "
                f"band to {load}:1, the plus side.",
                f"Fit {sized.ids['diode']}, band to plus",
                killer=True,
                more="As near to the toy as it goes, its leads in sleeve. The wrong way round it is a short circuit.",
            )
        )
    if "fuse" in sized.ids:
        steps.append(
            Step(
                "toy.wire.holder",
                "wire",
                f"Fasten the holder of {sized.ids['fuse']} beside the supply. Leave the fuse out.",
                "Holder without its fuse",
                killer=True,
            )
        )
    steps += [run_step(wire, sized, " It is the last wire.") for wire in shared_lead]
    steps.append(
        Step(
            "toy.wire.tidy",
            "wire",
            "Tie the wires every 15 cm, away from whatever moves, with slack where the toy shakes.",
            "Tie the wires",
        )
    )
    return tuple(steps)


def run_step(wire: Wire, sized: Sized, tail: str) -> Step:
    """Cut, end and run one wire."""
    ends = f"from {wire.start} to {wire.end}"
    length = show.metres(wire.length_m, sized.units)
    there = (
        " If it is there already from another toy, only check it."
        if wire.role in ("supply lead", "board return")
        else ""
    )
    return Step(
        f"toy.wire.{wire.role.replace(' ', '-')}",
        "wire",
        f"Run {wire.id}, {wire.colour}, {wire.size}, {length}, {ends}.{tail}{there}",
        f"{wire.id} {ends}",
        more="A ferrule or a crimp at both ends, no solder under a screw." if wire.role == "feed" else "",
    )


def dead_steps(sized: Sized) -> tuple[Step, ...]:
    """Hold 1: what is measured before any power."""
    circuit, load = sized.circuit, sized.ids["load"]
    in_hand = f" The fuse in your hand says {show.amps(sized.fuse.rating_A)}." if sized.fuse.rating_A else ""
    steps = [
        Step(
            "toy.dead.tug",
            "dead-checks",
            f"Every crimp holds a tug; no stray strand.{in_hand}",
            "Tug every crimp",
            killer=True,
        ),
        Step(
            "toy.dead.runs",
            "dead-checks",
            f"Measure each run from end to end: {names(own_wires(circuit))}.",
            "Resistance of each run",
            record=run_reading(sized),
        ),
        Step(
            "toy.dead.short",
            "dead-checks",
            f"Toy unplugged, fuse out: measure {load_side(sized)} to {sized.supply_id}:0V.",
            "No short circuit",
            record=Reading(
                "Resistance from plus to 0 V",
                f"{load_side(sized)} and {sized.supply_id}:0V",
                NO_SHORT_OHM,
                None,
                "Ω",
                "Find the short before anything else: a pinched wire, a stray strand, "
                f"{sized.ids.get('diode', 'a part')} the wrong way round.",
                "ohms range; a board may let it rise slowly",
            ),
            killer=True,
        ),
    ]
    if "diode" in sized.ids:
        diode = sized.ids["diode"]
        steps.append(
            Step(
                "toy.dead.suppressor",
                "dead-checks",
                f"Toy unplugged, diode range: red on {load}:2, black on {load}:1. "
                f"Then "
                "the other way round: it shows open.",
                f"{diode} the right way round",
                record=Reading(
                    f"Forward voltage of {diode}",
                    f"{load}:2 (red) and {load}:1 (black)",
                    sized.suppression.drop_low_V,
                    sized.suppression.drop_high_V,
                    "V",
                    f"Open both ways: {diode} is missing or broken. Near zero both ways: shorted, or the toy is "
                    "still connected. A value with red on the other side: turn it round.",
                    "diode range",
                ),
                killer=True,
            )
        )
    return tuple(steps)


def own_wires(circuit: Circuit) -> list[Wire]:
    """The toy's own wires."""
    return [wire for wire in circuit.wires if wire.role not in ("supply lead", "board return")]


def names(wires: list[Wire]) -> str:
    """W11, W12 and W13."""
    ids = [wire.id for wire in wires]
    return ids[0] if len(ids) == 1 else f"{', '.join(ids[:-1])} and {ids[-1]}"


def load_side(sized: Sized) -> str:
    """The terminal behind the fuse, or the supply's plus without one."""
    return f"{sized.ids['fuse']}:2" if "fuse" in sized.ids else f"{sized.supply_id}:+"


def run_reading(sized: Sized) -> Reading:
    """The longest of the toy's own power runs, computed; most are below what a hobby multimeter can tell."""
    length_m = max(wire.length_m for wire in own_wires(sized.circuit))
    computed = tables.resistance_ohm_per_m(sized.wire.size) * length_m
    return Reading(
        "Resistance of the worst run, less the leads",
        "both ends of each run",
        0.0,
        max(CONTINUITY_OHM, 1.5 * computed),
        "Ω",
        "A loose crimp or the wrong wire: mend it and measure again.",
        f"ohms range; subtract what the leads read when touched together. Computed for the longest: "
        f"{show.ohms(computed)}",
    )


def power_steps(sized: Sized) -> tuple[Step, ...]:
    """First power: the supply alone, then with the fuse."""
    supply = sized.supply_id
    fitted = (
        f"Plug out. Fit {sized.ids['fuse']}, {show.amps(sized.fuse.rating_A)}." if sized.fuse.rating_A else "Plug out."
    )
    return (
        Step(
            "toy.first.supply",
            "first-power",
            f"All toys' fuses out. Plug in, and measure {supply}:+ to {supply}:0V.",
            "Supply alone",
            record=Reading(
                "Voltage of the supply, no load",
                f"{supply}:+ (red) and {supply}:0V (black)",
                sized.supply_low_V,
                sized.supply_high_V,
                "V",
                "A minus sign: leads or wires are swapped. Outside: set the supply's trimmer, or it is another supply.",
                "DC volts",
            ),
        ),
        Step(
            "toy.first.fuse", "first-power", f"{fitted} Guard shut, hands out.", "Fit the fuse, guard shut", killer=True
        ),
    )


def running_step(sized: Sized, low_V: float, high_V: float) -> Step:
    """The first run at full strength, for a toy that has no setting."""
    load = sized.ids["load"]
    return Step(
        "toy.first.voltage",
        "first-power",
        f"While it runs, measure {load}:1 to {load}:2 from outside, or with clips fitted while the plug was out.",
        "Voltage while it runs",
        record=running_reading(sized, low_V, high_V),
    )


def running_reading(sized: Sized, low_V: float, high_V: float) -> Reading:
    """Voltage at the toy while it runs at full strength."""
    load = sized.ids["load"]
    return Reading(
        "Voltage at the toy while it runs",
        f"{load}:1 (red) and {load}:2 (black)",
        low_V,
        high_V,
        "V",
        "Lower: a loose joint, or a wire that is too thin or too long; measure along the way back to the supply.",
        "DC volts",
    )


def hold_steps(sized: Sized) -> tuple[Step, ...]:
    """Holds 2 and 3: confirm before tuning, confirm before the door is shut."""
    found = [
        Step(
            "toy.before.left",
            "before-supply",
            "Plug out. No tool, no measuring lead and no bench supply is connected any more.",
            "Nothing left connected",
            killer=True,
        ),
        Step(
            "toy.before.guard",
            "before-supply",
            "All guards and covers are on; the plug can be reached from where you will stand.",
            "Guards on, plug in reach",
            killer=True,
        ),
        Step(
            "toy.closing.fuse",
            "before-closing",
            f"The fuse fitted in {sized.ids['fuse']} says {show.amps(sized.fuse.rating_A)}."
            if sized.fuse.rating_A
            else "No feed is without a fuse.",
            "Fuse as stated",
            killer=True,
        ),
        Step(
            "toy.closing.free",
            "before-closing",
            "No tool, wire end or screw lies loose inside.",
            "Nothing loose inside",
            killer=True,
        ),
        Step(
            "toy.closing.record",
            "before-closing",
            "The as-left values stand in this list, with the date.",
            "As-left values written",
        ),
    ]
    return tuple(found)


def step_readings(steps: Iterable[Step]) -> tuple[Reading, ...]:
    """All readings of a page, in the order of its steps."""
    return tuple(step.record for step in steps if step.record)
