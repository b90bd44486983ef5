"""Steps and readings that every toy shares, made from its circuit; and the order of all steps on a page."""

from collections.abc import Iterable
from dataclasses import replace

from guide_gen.model.circuit import SHARED_ROLES, Circuit, Part, PartKind, Wire
from guide_gen.model.guide import STAGES, Reading, Step
from guide_gen.model.plan import Sized
from guide_gen.planning import suppression
from guide_gen.published import tables
from guide_gen.values import show

CONTINUITY_OHM = 0.3  # what a hobby multimeter can tell from zero; common practice, no source
NO_SHORT_OHM = 10.0


def shared_steps(sized: Sized) -> tuple[Step, ...]:
    """Wiring from the toy back to the fuse, dead checks, first power and holds."""
    return (*wire_steps(sized), *dead_steps(sized), *bench_steps(sized), *power_steps(sized), *hold_steps(sized))


def feed_fuses(sized: Sized) -> list[Part]:
    """Every fuse that has to be fitted: its block's and the feed's, and one of a controller's input."""
    return [part for part in sized.circuit.of(PartKind.FUSE) if not part.inside]


def fuses_said(sized: Sized) -> str:
    """``F1, 10 A`` or ``F1, 10 A, and F1B, 1 A``."""
    return ", and ".join(f"{part.id}, {part.value}" for part in feed_fuses(sized))


def ends_at_the_toy(sized: Sized) -> list[tuple[str, str]]:
    """The wires at the toy's own terminals, with the terminal of each."""
    circuit = sized.circuit
    toy = {sized.ids["load"], *(part.id for part in circuit.of(PartKind.RESISTOR) if part.id in circuit.main)}
    ends = [(wire.id, end) for wire in own_wires(circuit) for end in (wire.start, wire.end)]
    return [(wire, end) for wire, end in ends if end.partition(":")[0] in toy]


def bench_steps(sized: Sized) -> tuple[Step, ...]:
    """Before a bench supply feeds the toy, nothing else may; after it and the dead checks, all is joined again."""
    ends = ends_at_the_toy(sized)
    off = " and ".join(f"{wire} off {end}" for wire, end in ends)
    on = " and ".join(f"{wire} on {end}" for wire, end in ends)
    return (
        Step(
            "toy.bench.apart",
            "bench",
            f"Plug out. Take {off}, so that the bench supply feeds the toy and nothing else.",
            "Take the toy's wires off",
            killer=True,
        ),
        Step(
            "toy.before.joined",
            "before-supply",
            f"All that was taken off for a check is joined again and tight: {on}.",
            "Joined again",
            killer=True,
        ),
    )


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
    """One step a wire, from the toy back to its fuse."""
    circuit, last = sized.circuit, wires_at_source(sized.circuit)
    order = {"board return": 0, "block return": 0, "feed": 2}
    wires = sorted(circuit.wires, key=lambda wire: order.get(wire.role, 1))
    steps = [run_step(wire, sized, "") for wire in wires if wire not in last and wire.role != "block feed"]
    return (*steps, *suppressor_step(sized))


def wires_at_source(circuit: Circuit) -> list[Wire]:
    """The lead that joins the plus of the supply; without a fuse the feed itself does."""
    roles = ("supply lead", "block feed", "feed")
    found = ([wire for wire in circuit.wires if wire.role == role] for role in roles)
    return next((wires for wires in found if wires), [])


def source_steps(sized: Sized) -> tuple[Step, ...]:
    """The source comes last, so that nothing is live while it is wired."""
    steps = []
    if "fuse" in sized.ids:
        steps.append(
            Step(
                "toy.wire.holder",
                "wire",
                f"{holders_said(sized)} Leave every fuse out.",
                "Holder without its fuse",
                killer=True,
            )
        )
    last = wires_at_source(sized.circuit)
    to_block = [wire for wire in sized.circuit.wires if wire.role == "block feed" and wire not in last]
    steps += [run_step(wire, sized, "") for wire in to_block]
    steps += [run_step(wire, sized, " It is the last wire.") for wire in last]
    steps.append(
        Step(
            "toy.wire.tidy",
            "wire",
            f"Tie the wires every {show.rough('15 cm', '6 in', sized.units)}, away from whatever moves, with slack "
            "where the toy shakes.",
            "Tie the wires",
        )
    )
    return tuple(steps)


def holders_said(sized: Sized) -> str:
    """Where its fuses sit: beside the supply, or at a distribution block whose own fuse is there."""
    own = [part.id for part in feed_fuses(sized) if part.id != sized.ids.get("block fuse")]
    if "block" not in sized.ids:
        return f"Fasten {beside_supply(own, sized)}."
    block = f"{sized.ids['block']}, {sitting(own)}"
    if "block fuse" not in sized.ids:
        return f"Fasten {block}."
    return f"Fasten {block}, and {beside_supply([sized.ids['block fuse']], sized)}."


def sitting(fuses: list[str]) -> str:
    """``where F1 sits``."""
    return f"where {' and '.join(fuses)} {'sits' if len(fuses) == 1 else 'sit'}"


def beside_supply(fuses: list[str], sized: Sized) -> str:
    """What holds these fuses beside the supply: one block for all that sit there, or the holder of a single one."""
    if sized.fuses_beside > 1:
        return f"the fuse block beside {sized.supply_id}, {sitting(fuses)}"
    return f"the holder of {' and of '.join(fuses)} beside the supply"


def suppressor_step(sized: Sized) -> list[Step]:
    """Fitting what takes the kickback, where it is a part of its own."""
    load, ids = sized.ids["load"], sized.ids
    near = "As near to the toy as it goes, its leads in sleeve."
    if "zener" in ids:
        diode, zener = ids["diode"], ids["zener"]
        text = (
            f"Fit {diode} and {zener} in series across {load}:1 and {load}:2, bands outwards: the band of {diode} to "
            f"{load}:1, the plus side, the band of {zener} to {load}:2."
        )
        short = f"Fit {diode} and {zener}, bands outwards"
        more = f"{near} With {diode} the wrong way round they are all but a short circuit."
    elif "diode" in ids:
        text = f"Fit {ids['diode']} across {load}:1 and {load}:2, the end with the band to {load}:1, the plus side."
        short = f"Fit {ids['diode']}, band to plus"
        more = f"{near} The wrong way round it is a short circuit."
    elif "rc capacitor" in ids:
        resistor, capacitor = ids["rc resistor"], ids["rc capacitor"]
        text = f"Fit {resistor} and {capacitor} in series across {load}:1 and {load}:2."
        short = f"Fit {resistor} and {capacitor}"
        more = f"{near} A film capacitor has no polarity; one with a plus mark is the wrong sort."
    else:
        return []
    return [Step("toy.wire.suppressor", "wire", text, short, killer=True, more=more)]


def run_step(wire: Wire, sized: Sized, tail: str) -> Step:
    """Cut, end and run one wire."""
    ends = f"from {wire.start} to {wire.end}"
    length = show.metres(wire.length_m, sized.units)
    common = " Where several fuses start there, they sit on one fuse block: it feeds their common plus."
    tail += common if wire.role == "supply lead" else ""
    there = " If it is there already from another toy, only check it." if wire.role in SHARED_ROLES else ""
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
    in_hand = f" The fuses in your hand say what they must: {fuses_said(sized)}." if feed_fuses(sized) else ""
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
        short_step(sized),
    ]
    if "zener" in sized.ids or "rc capacitor" in sized.ids:
        steps.append(pair_step(sized))
    elif "diode" in sized.ids:
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


def short_step(sized: Sized) -> Step:
    """No short circuit behind the fuse, nor at a distribution block and on its lead."""
    zero, side, block = f"{sized.supply_id}:0V", load_side(sized), sized.ids.get("block")
    own, what, fuses = sized.ids.get("signal fuse"), "", "fuses" if "signal fuse" in sized.ids else "fuse"
    sides = [side, *([f"{own}:2"] if own else []), *([f"{block}:+"] if block and side != f"{block}:+" else [])]
    tail = "; write the lower" if len(sides) == 2 else "; write the lowest" if len(sides) > 2 else ""
    measured = ", then ".join(f"{one} to {zero}" for one in sides)
    if block:
        what = f", a lead of {block}"
        fuses = " and ".join(
            [*([sized.ids["block fuse"]] if "block fuse" in sized.ids else []), f"all fuses at {block}"]
        )
    return Step(
        "toy.dead.short",
        "dead-checks",
        f"Toy unplugged, {fuses} out: measure {measured}{tail}.",
        "No short circuit",
        record=Reading(
            "Resistance from plus to 0 V",
            measured.replace(" to ", " and "),
            NO_SHORT_OHM,
            None,
            "Ω",
            f"Find the short before anything else: a pinched wire, a stray strand{what}, "
            f"{sized.ids.get('diode', 'a part')} the wrong way round.",
            "ohms range; a board may let it rise slowly",
        ),
        killer=True,
    )


def pair_step(sized: Sized) -> Step:
    """What a meter shows of a suppressor of two parts."""
    ids, load = sized.ids, sized.ids["load"]
    if "zener" in ids:
        diode, zener = ids["diode"], ids["zener"]
        return Step(
            "toy.dead.suppressor",
            "dead-checks",
            f"Toy unplugged, diode range, red on where {diode} and {zener} meet: black on {load}:1, then on {load}:2.",
            f"{diode} and {zener} the right way round",
            record=Reading(
                f"Forward voltage of {diode}, and of {zener}",
                f"the joint of both (red) and {load}:1, then {load}:2 (black)",
                *suppression.METER_V["standard"],
                "V",
                "Open at one of them: it is the wrong way round, or broken. Near zero: shorted, or the toy is still "
                "connected.",
                "diode range",
            ),
            killer=True,
        )
    farad = sized.suppression.capacitance_F
    return Step(
        "toy.dead.suppressor",
        "dead-checks",
        f"Toy unplugged, capacitance range: measure {load}:1 to {load}:2.",
        f"{ids['rc resistor']} and {ids['rc capacitor']} in series",
        record=Reading(
            "Capacitance of the suppressor",
            f"{load}:1 and {load}:2",
            0.8 * 1e6 * farad if farad else None,
            1.2 * 1e6 * farad if farad else None,
            f"{show.MICRO}F",
            "Near nothing: a lead is off. A short on the ohms range: the capacitor has failed.",
            "capacitance range; on the ohms range it rises until it is open",
        ),
        killer=True,
    )


def own_wires(circuit: Circuit) -> list[Wire]:
    """The toy's own wires."""
    return [wire for wire in circuit.wires if wire.role not in SHARED_ROLES]


def names(wires: list[Wire]) -> str:
    """W11, W12 and W13."""
    ids = [wire.id for wire in wires]
    return ids[0] if len(ids) == 1 else f"{', '.join(ids[:-1])} and {ids[-1]}"


def load_side(sized: Sized) -> str:
    """The terminal behind the fuse, or the plus of block or supply without one."""
    return f"{sized.ids['fuse']}:2" if "fuse" in sized.ids else f"{sized.ids.get('block', sized.supply_id)}:+"


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
    own = f", {sized.ids['block fuse']} too" if "block fuse" in sized.ids else ""
    fitted = f"Plug out. Fit {fuses_said(sized)}." if feed_fuses(sized) else "Plug out."
    return (
        Step(
            "toy.first.supply",
            "first-power",
            f"All toys' fuses out{own}. Plug in, and measure {supply}:+ to {supply}:0V.",
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
    return Step(
        "toy.first.voltage",
        "first-power",
        f"While it runs, measure {sized.toy_plus} to {sized.toy_minus} from outside, or with clips fitted while the "
        "plug was out.",
        "Voltage while it runs",
        record=running_reading(sized, low_V, high_V),
    )


def running_reading(sized: Sized, low_V: float, high_V: float) -> Reading:
    """Voltage at the toy while it runs at full strength."""
    return Reading(
        "Voltage at the toy while it runs",
        f"{sized.toy_plus} (red) and {sized.toy_minus} (black)",
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
            f"The fuse fitted says what it must: {fuses_said(sized)}."
            if feed_fuses(sized)
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
