"""A gear motor: a motor with a gearbox turns an arm slowly and strongly."""

from dataclasses import replace
from math import pi
from typing import Annotated, Literal, cast

from guide_gen.formulas.motor import (
    arm_force_N,
    constant_V_s_per_rad,
    output_speed_rad_per_s,
    output_torque_N_m,
    start_current_A,
    torque_N_m,
)
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import Current, Resistance, Run, Section, ToyFields, YesNo, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind, Missing, Weighed
from guide_gen.model.loads import held_words, load_of
from guide_gen.model.machine import Gear, MeasuredMotor, Turner, share_of, spread_of
from guide_gen.model.plan import Load, Sized
from guide_gen.model.plan import Section as PageSection
from guide_gen.model.playing import notes_of
from guide_gen.model.winding import WHAT, bounded_winding, measured_how, motor_missing, motor_weighed, winding_text
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import read_number, read_quantity
from guide_gen.values.worked import Worked, default, work

MotorSpeed = Annotated[Quantity, read_quantity("speed", "rpm", 1.0, 3000.0, example="4200 rpm", ranged=True)]
Efficiency = Annotated[Quantity, read_quantity("share", "%", 0.05, 0.99, example="50 %", ranged=True)]
Ratio = Annotated[float, read_number("62.5", 1.0, 10000.0)]

OWN_FRICTION = Spread.usual("friction share of the loss")  # of what it loses by itself
START_S = 0.1  # a small geared motor is up to speed after that; this project, an estimate
RUNNING_SPREAD = 0.3  # how far the current may lie from its figure with another load on the arm; this project
WINDING_SPREAD = 0.2  # of a winding on a multimeter: brushes and leads; this project, an estimate
SAFE_N = rule("closing force").value


class GearedMotor(Section):
    """The motor before its gearbox, by what was measured."""

    resistance: Resistance | None = key(
        "resistance of the winding, shaft held, mean of four positions", example="1.6 ohm (measured)"
    )
    speed: MotorSpeed | None = key(
        "speed of the motor's own shaft at the toy's voltage: that of the output times the reduction",
        example="4200 rpm (measured)",
    )


class GearMotor(ToyFields):
    """A gear motor."""

    kind: Literal["gear motor"] = key("what it is", example="gear motor", ask="choose one of the kinds")
    gearbox: Literal["worm", "spur", "not known"] = key(
        "worm: the output crosses the motor's shaft and cannot be turned by hand; spur: wheels side by side",
        example="worm",
        default="not known",
        source="this project: taken as one that cannot be turned back",
    )
    reduction: Ratio | None = key("turns of the motor for one turn of the output", example="60")
    efficiency: Efficiency | None = key(
        "torque of the output over reduction times torque of the motor",
        example="40 % to 55 % (datasheet)",
        chosen="by the gearbox: worm 25 to 70 %, spur 65 to 95 %, not known 25 to 95 %; estimates",
    )
    arm_radius: Run | None = key(
        "from the output shaft to the end of what it moves: gives the force at the arm", example="60 mm (measured)"
    )
    free_current: Current | None = key(
        "what it draws at full voltage with its arm taken off: what remains is its load",
        example="0.2 A (measured)",
    )
    travel_limited: YesNo = key(
        "whether the arm comes to a stop within a turn", example="yes", default="no", source="this project"
    )
    stop_device: Literal["limit switches", "time-out", "none"] = key(
        "what switches it off at the end of its travel",
        example="limit switches",
        default="none",
        source="this project",
    )
    motor: GearedMotor | None = key(
        "the motor by what was measured", example="{resistance: 1.6 ohm (measured), speed: 4200 rpm (measured)}"
    )


def of(toy: ToyFields) -> GearMotor:
    """The toy as what it is."""
    return cast(GearMotor, toy)


def winding_ohm(toy: GearMotor) -> tuple[float, float] | None:
    """Resistance of the winding, low and high end, where it is known."""
    known = toy.motor.resistance if toy.motor else None
    return (known.low, known.high) if known else None


def load(toy: ToyFields) -> Load:
    """At the moment of switching on, and at stall, only the winding bounds the current."""
    winding = winding_ohm(of(toy))
    start = start_current_A(voltage_V=toy.voltage.high, resistance_ohm=winding[0]) if winding else None
    steady = steady_share(of(toy))
    return load_of(
        toy,
        kickback=True,
        resistance_ohm=winding,
        friction_share=(steady.low, steady.high),
        start_A=start,
        start_s=START_S,
    )


def efficiency(toy: GearMotor) -> Spread:
    """Of the gearbox: as stated, else what is usual for its sort; its high end pinches hardest."""
    if toy.efficiency:
        return Spread(*(min(share, 0.99) for share in spread_of(toy.efficiency)))
    worm, spur = (
        Spread(figure.low or figure.value, figure.value, figure.high or figure.value)
        for figure in (rule("worm gear efficiency"), rule("spur gear efficiency"))
    )
    return {"worm": worm, "spur": spur}.get(toy.gearbox, Spread.between(worm.low, spur.high))


def steady_share(toy: GearMotor) -> Spread:
    """Of its torque while running what is the same at every speed, and so what it asks for to start.

    Two things take that torque. What the arm lifts or rubs against asks for the same at any speed: all of it counts.
    What motor and gears lose by themselves, as the current with the arm off shows it, is dry friction for a part only;
    most of it grows with the speed (grease, air), as in any motor. Where that current is not known nothing tells the
    two apart: from a head that turns free (a tenth) to an arm whose load takes everything (all of it).
    """
    if toy.free_current is None:
        return Spread.between(OWN_FRICTION.low, 1.0)
    free = share_of(toy.free_current, toy.current)
    alone = (free.high, free.nominal, free.low)
    return Spread(*(1 - (1 - own) * part for own, part in zip(OWN_FRICTION, alone, strict=True)))


def turner(toy: ToyFields) -> Turner:
    """The motor and what stands between it and the arm."""
    gear, motor = of(toy), of(toy).motor or GearedMotor()
    measured = MeasuredMotor(
        voltage_V=toy.voltage.middle,
        current=toy.current,
        resistance=motor.resistance,
        speed=motor.speed,
        friction_share=steady_share(gear),
        free=gear.free_current,
    ) if motor.resistance else None  # fmt: skip
    return Turner(
        measured,
        Gear(
            gear.reduction,
            efficiency(gear),
            Spread.between(gear.arm_radius.low, gear.arm_radius.high) if gear.arm_radius else None,
        ),
        wanted=wanted(gear, motor),
    )


def wanted(toy: GearMotor, motor: GearedMotor) -> str:
    """The first of what is missing, in the order in which it helps."""
    if motor.resistance is None:
        return (
            "the winding's resistance: hold the motor's shaft, feed 1 to 2 V for a second, and divide volts by amperes "
            "at four positions, with a multimeter (motor: resistance)"
        )
    if motor.speed is None:
        return (
            "the speed: count the turns of the output in a minute at full voltage, with a stopwatch, times the "
            "reduction (motor: speed)"
        )
    if toy.reduction is None:
        return "the reduction: count the turns of the motor's shaft for one turn of the output (reduction)"
    return "the arm, with a ruler (arm_radius)" if toy.arm_radius is None else ""


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """Its winding, which bounds its start; and what else its strength needs."""
    gear, motor = of(toy), of(toy).motor or GearedMotor()
    pinch = "how hard the arm pinches"
    named = (
        (motor.speed is None, "motor: {speed: ..}", "Count the turns of the output in a minute at full voltage, times "
         "the reduction, and write it as speed.", ("motor",)),
        (gear.reduction is None, "reduction: ..", "Count the turns of the motor's shaft for one turn of the output.",
         ()),
        (gear.arm_radius is None, "arm_radius: ..", "Measure the arm with a ruler.", ()),
    )  # fmt: skip
    return (
        *(replace(one, gives=f"{one.gives}, and {pinch}") for one in motor_missing(motor.resistance)),
        *(Missing(key, pinch, how, path) for lacks, key, how, path in named if lacks),
    )


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """Winding, speed, efficiency and arm, as far as they were stated."""
    gear, motor = of(toy), of(toy).motor or GearedMotor()
    counted = "turns of the output counted for a minute, times the reduction"
    found = [*motor_weighed(motor.resistance, motor.speed, counted)]
    if gear.free_current is not None:
        alone = "a DC meter in its feed at full voltage, the arm off"
        found.append(Weighed("the free_current", gear.free_current, ("free_current",), alone, asked=False))
    if gear.efficiency is not None:
        lifted = "a luggage scale at the end of the arm, over its radius, at a known current"
        found.append(Weighed("the gearbox's efficiency", gear.efficiency, ("efficiency",), lifted, asked=False))
    if gear.arm_radius is not None:
        found.append(Weighed("the arm_radius", gear.arm_radius, ("arm_radius",), "a ruler", asked=False))
    return tuple(found)


def worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """Stall current, output speed, torque and force at the arm: each at the end that is worst for a finger."""
    gear, motor = of(toy), of(toy).motor
    if motor is None or motor.resistance is None:
        return ()
    basis = {"R": motor.resistance.basis or Basis.ESTIMATE}
    usual = () if gear.efficiency else (usual_efficiency(gear),)
    stall = work(
        start_current_A,
        "gear.stall",
        "Current at stall",
        sentence="As at the moment of switching on; the highest voltage of the supply, the least of winding and path. "
        "The supply may give less.",
        bases=basis,
        voltage_V=sized.supply_high_V,
        resistance_ohm=sized.supply_high_V / sized.load.start_A if sized.load.start_A else motor.resistance.low,
    )
    if motor.speed is None:
        return (stall,)
    try:
        return (stall, *usual, *strength(gear, motor.resistance.low, motor.speed, float(stall.result), basis))
    except OutsideValidity:  # told as a finding: current, resistance and speed do not belong together
        return (stall,)


def usual_efficiency(toy: GearMotor) -> Worked:
    """What is taken for the gearbox where its efficiency is not stated."""
    low, _, high = efficiency(toy)
    sort = {"worm": "a worm gearbox", "spur": "a spur gearbox"}.get(toy.gearbox, "a gearbox of an unknown sort")
    return default(
        "default.efficiency",
        f"Efficiency of {sort}",
        f"{show.percent(low)} to {show.percent(high)}",
        "common practice, no source: estimate",
    )


def strength(
    toy: GearMotor, resistance_ohm: float, speed: Quantity, stall_A: float, basis: dict[str, Basis]
) -> tuple[Worked, ...]:
    """Constant and torque of the motor; behind the gearbox speed, torque and force."""
    constant = work(
        constant_V_s_per_rad,
        "gear.constant",
        "Constant of the motor",
        sentence="From the running point; its torque for each ampere is the same number.",
        bases=basis,
        voltage_V=toy.voltage.high,
        brush_V=0.0,
        current_A=toy.current.low,
        resistance_ohm=resistance_ohm,
        speed_rad_per_s=speed.low,
    )
    torque = work(
        torque_N_m,
        "gear.torque.motor",
        "Torque of the motor at stall",
        constant_V_s_per_rad=float(constant.result),
        current_A=stall_A,
    )
    if toy.reduction is None:
        return constant, torque
    turning = work(
        output_speed_rad_per_s,
        "gear.speed",
        "Speed of the output",
        sentence=f"About {show.figure(30 / pi * speed.middle / toy.reduction)} turns a minute.",
        speed_rad_per_s=speed.middle,
        ratio=toy.reduction,
    )
    output = work(
        output_torque_N_m,
        "gear.torque",
        "Torque of the output at stall",
        sentence="Friction of the motor left out; the efficiency at its high end: what pinches hardest.",
        torque_N_m=float(torque.result),
        ratio=toy.reduction,
        efficiency=efficiency(toy).high,
        friction_N_m=0.0,
    )
    if toy.arm_radius is None:
        return constant, torque, turning, output
    force = work(
        arm_force_N,
        "gear.force",
        "Force at the end of the arm",
        torque_N_m=float(output.result),
        radius_m=toy.arm_radius.low,
    )
    return constant, torque, turning, output, force


def result(toy: ToyFields, sized: Sized, id: str) -> float | None:
    """One of the worked values, where there is enough to work it out."""
    return next((float(one.result) for one in worked(toy, sized) if one.id == id), None)


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    return Introduction(
        sentence="A motor with a gearbox: it turns an arm, a wheel or a figure slowly and strongly.",
        meant_for="Slow movements during play, behind a guard.",
        not_for="Not for lifting loads or people, and not for use where a finger can reach the arm or its gap.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection"),
    )


def draw_in(toy: ToyFields, sized: Sized) -> Caution:
    """The arm catches fingers; a WARNING from the force that powered doors may close with."""
    force = result(toy, sized, "gear.force")
    reason = f"At stall the arm pushes with up to about {show.newtons(force)}." if force is not None else ""
    return Caution(
        "draw-in",
        Word.WARNING if force is not None and force >= SAFE_N * (1 - 1e-9) else Word.CAUTION,
        "The slow, strong arm catches fingers.",
        "It crushes them and does not stop.",
        ("Guard the arm and its gap before power.", "Keep hands out.", "Plug out for every adjustment."),
        reason,
        grouped=True,
        before=("gear.bench.turns", "gear.first.run", "gear.tune.turns"),
    )


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a gear motor."""
    gear = of(toy)
    found = [
        draw_in(toy, sized),
        Caution(
            "coupling-loose",
            Word.CAUTION,
            "The set screw of the arm slips.",
            "The arm is thrown off or hits what it should not.",
            ("Fix it on a flat of the shaft, thread-locked.", "Check it after 1 h of play."),
            before=("gear.mount.arm", "gear.after.look"),
        ),
        Caution(
            "stall",
            Word.CAUTION,
            "A blocked arm stops the motor while the current flows.",
            "The winding overheats and smokes; the fuse protects the wire, not the motor.",
            ("Pull the plug when it hums and does not turn.", "Free it before the next try."),
            stall_words(toy, sized),
            before=("gear.bench.turns", "gear.first.run", "gear.tune.turns"),
        ),
    ]
    if gear.gearbox != "spur":
        found.append(
            Caution(
                "no-backdrive",
                Word.CAUTION,
                "A worm gear holds what it has caught, with the power off too."
                if gear.gearbox == "worm"
                else "This gearbox may hold what it has caught, with the power off too.",
                "A trapped finger stays trapped.",
                ("Know how the arm is undone before the first power-on.", "Keep that tool at hand."),
                before=("gear.first.run", "gear.tune.turns"),
            )
        )
    if gear.travel_limited and gear.stop_device == "none":
        found.append(
            Caution(
                "end-stop",
                Word.NOTICE,
                "The arm is driven against its stop.",
                "Stall current flows for minutes; motor and gears fail.",
                ("Fit limit switches, or a time-out in the board.",),
                before=("gear.mount.travel",),
            )
        )
    return tuple(found)


def stall_words(toy: ToyFields, sized: Sized) -> str:
    """The stall current against the fuse."""
    stall, rating = sized.load.start_A, sized.fuse.rating_A
    if stall is None or rating is None:
        return ""
    return f"Held fast it asks for up to {held_words(sized)}; {sized.fuse.id} is rated {show.amps(rating)}."


def mounting(toy: ToyFields, sized: Sized) -> PageSection:
    """Where, which way round and why."""
    place = f"This build has it in the {toy.mount.place}." if toy.mount.place else ""
    return PageSection(
        (place,) if place else (),
        (
            Advice("The arm and its gap behind a guard, on every side that a hand can reach.", "It does not stop."),
            Advice("Room for the whole swing of the arm, and a finger's width more.", "What it meets, it bends."),
            Advice("The screw of the arm within reach of a tool.", "A trapped thing is freed by undoing it."),
            Advice(
                "Through-bolts, wide washers and locking nuts.",
                "The torque of the output pulls at the screws in both directions.",
            ),
        ),
    )


def mount_steps(toy: GearMotor, sized: Sized) -> tuple[Step, ...]:
    """From its place to the guard."""
    travel = (
        f"Move the arm by hand, or the output with the motor off the gearbox, from end to end: {stops(toy)}."
        if toy.travel_limited
        else "Turn the arm once round, by hand or with the bench supply: it touches nothing."
    )
    return (
        Step("gear.mount.place", "mount", "Hold the motor in its place and find the swing of the arm.", "Its place"),
        Step("gear.mount.mark", "mount", "Mark the holes through its frame itself.", "Mark the holes"),
        *bolt_steps("gear", sized.mounting, sized.units),
        Step(
            "gear.mount.arm",
            "mount",
            "Fix the arm on the flat of the shaft: set screw tight, thread-locked.",
            "Fix the arm",
            killer=True,
        ),
        Step("gear.mount.travel", "mount", travel, "The whole travel"),
        Step("gear.mount.guard", "mount", "Fit the guard over the arm and its gap.", "Guard on", killer=True),
    )


def stops(toy: GearMotor) -> str:
    """What stands at the ends of its travel."""
    return {
        "limit switches": "each limit switch clicks before the stop is reached",
        "time-out": "note how long one travel takes; the time-out is a little longer",
        "none": "nothing switches it off there, so it will push against the stop",
    }[toy.stop_device]


def winding_reading(toy: GearMotor, sized: Sized) -> Reading:
    """Resistance of the winding: from what is known, else only bounded by V / I."""
    held, known = sized.ids["load"], winding_ohm(toy)
    if known is None:
        return bounded_winding(toy, held)
    return Reading(
        WHAT,
        f"{held}:1 and {held}:2",
        (1 - WINDING_SPREAD) * known[0],
        (1 + WINDING_SPREAD) * known[1],
        "Ω",
        "Turn the shaft a little and measure again; dirty brushes read high, a shorted winding reads low.",
        measured_how(known[0]),
    )


def power_steps(toy: GearMotor, sized: Sized) -> tuple[Step, ...]:
    """Dead checks and first power."""
    held, limit = sized.ids["load"], (1 + RUNNING_SPREAD) * sized.load.design_current_A
    return (
        Step(
            "gear.dead.winding",
            "dead-checks",
            winding_text(held, winding_reading(toy, sized)),
            "Resistance of the winding",
            record=winding_reading(toy, sized),
        ),
        Step(
            "gear.dead.guard",
            "dead-checks",
            "The guard is on; the tool that undoes the arm lies beside the cabinet.",
            "Guard on, tool at hand",
            killer=True,
        ),
        Step(
            "gear.bench.turns",
            "bench",
            f"Guard on. Feed the motor alone, its fuse out: current limit {show.amps(limit)}, voltage from 0 V slowly "
            f"up to {show.volts(sized.load.voltage_V)}. Read the current while the arm moves.",
            "Bench supply from 0 V",
            record=Reading(
                "Current while the arm moves",
                f"in the feed of {held}",
                (1 - RUNNING_SPREAD) * sized.load.lowest_current_A,
                limit,
                "A",
                "Above: the arm rubs or is blocked. Below: the arm slips on its shaft. Plug out and look.",
                "the bench supply's meter",
            ),
            more="At the limit and not moving: blocked. Never raise the limit to get past a fault.",
        ),
    )


def run_steps(toy: GearMotor, dial: Dial | None) -> tuple[Step, ...]:
    """First run and tuning."""
    watched = "It moves to its end and is switched off there." if toy.travel_limited else "It turns evenly."
    if dial is None:
        return (
            Step("gear.first.run", "first-power", f"Run it for two seconds. {watched}", "Two seconds", killer=True),
            Step(
                "gear.tune.time",
                "tune",
                "Set in the game how long it runs: as short as the effect allows.",
                "How long it runs",
                more="On and off is all this control can do: time, arm and reduction set the effect.",
            ),
        )
    return (
        Step(
            "gear.tune.lowest",
            "tune",
            f"{dial.to_lowest} Power on from outside. It stays still.",
            "Lowest setting",
            killer=True,
        ),
        Step(
            "gear.tune.turns",
            "tune",
            f"{dial.smallest_step} Go on until the arm just starts to move. Write the setting down.",
            "Where it moves",
            record=dial.start_reading("Setting at which it moves"),
        ),
        Step(
            "gear.tune.left",
            "tune",
            f"Go on by small steps until the movement looks right. {watched} Write the as-left setting down.",
            "As-left setting",
            record=dial.reading("Setting as left"),
            killer=True,
        ),
        Step("gear.tune.repeat", "tune", "Switch it off and on five times. It starts every time.", "Five starts"),
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a gear motor."""
    gear = of(toy)
    return (
        *mount_steps(gear, sized),
        *power_steps(gear, sized),
        *run_steps(gear, dial),
        Step(
            "gear.play.moves",
            "play",
            "Play three games. The arm moves when it should, stops, and nothing touches it.",
            "Play three games",
        ),
        Step(
            "gear.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: set screw of the arm, nuts and guard tight; the motor not too hot "
            "to hold.",
            "Look after 1 h and 10 h",
        ),
        Step(
            "gear.yearly.look",
            "yearly",
            "Look at arm, gears and guard, at the cable where it bends, and at the fuse: the same rating as before.",
            "Look at it",
        ),
    )


def tuning_notes(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[str, ...]:
    """What to know before tuning."""
    if dial is None:
        return ("There is no setting: on is full strength.",)
    return ("Begin at the lowest end and go up. A lower setting moves more slowly, but may stall.",)


def play_notes(toy: ToyFields, sized: Sized) -> tuple[str, ...]:
    """What to know before playing."""
    return notes_of(
        toy,
        "The game drives the real movement.",
        "The game plays a sampled sound; the motor stays off.",
        "The game drives the motor and plays a sampled sound as well.",
    )


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a gear motor."""
    held, fuse = sized.ids["load"], sized.ids.get("fuse", "The fuse")
    stall = result(toy, sized, "gear.stall")
    return (
        Trouble(
            "Hums and does not move",
            "the arm is blocked, or the voltage too low",
            f"current in the feed of {held}",
            show.span(0.0, (1 + RUNNING_SPREAD) * sized.load.design_current_A, "A")
            + (f"; {show.amps(stall)} means stalled" if stall is not None else ""),
        ),
        Trouble(
            "Motor turns, arm does not",
            "the set screw slips, or a gear has lost teeth",
            "mark shaft and arm, plug out, and turn",
            "the marks stay together",
        ),
        Trouble(
            "Moves the wrong way",
            "plus and minus swapped",
            f"polarity at {held}:1 and {held}:2",
            f"plus at {held}:1; swap the leads at the motor, not the suppressor",
        ),
        Trouble(
            f"{fuse} opens",
            "the arm is blocked, a pinched wire, or a fuse of the wrong rating",
            f"current in the feed of {held}",
            show.span(
                (1 - RUNNING_SPREAD) * sized.load.lowest_current_A,
                (1 + RUNNING_SPREAD) * sized.load.design_current_A,
                "A",
            ),
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """How hard it pinches, and whether what was measured belongs together."""
    gear, motor = of(toy), of(toy).motor
    known = motor is not None and motor.resistance is not None and motor.speed is not None
    if known and result(toy, sized, "gear.constant") is None:
        return (
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"The strength of {sized.name} is not worked out: with this resistance it could not draw "
                f"{show.amps(gear.current.low)} while it turns.",
                "a resistance below voltage divided by current",
                "Measure the winding again, shaft held: voltage and current together at 1 to 2 V.",
                (*path, "motor", "resistance"),
                sized.slug,
            ),
        )
    free = gear.free_current
    if free is not None and free.low > gear.current.high:
        return (
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"What the arm of {sized.name} takes is not worked out: with the arm off it draws "
                f"{show.amps(free.low)}, loaded only {show.amps(gear.current.high)}. It is taken as turning free.",
                "a current with the arm off that is no more than the loaded one",
                "Read both again at the same voltage, with the same meter.",
                (*path, "free_current"),
                sized.slug,
            ),
            *pinching(gear, sized, result(toy, sized, "gear.force"), path),
        )
    return pinching(gear, sized, result(toy, sized, "gear.force"), path)


def pinching(gear: GearMotor, sized: Sized, force: float | None, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """An arm that pushes harder than what powered doors may close with."""
    if force is None or gear.arm_radius is None or force < SAFE_N * (1 - 1e-9):
        return ()
    return (
        Finding(
            "pinch-force",
            Level.SHOULD,
            f"At stall the arm of {sized.name} pushes with up to {show.newtons(force)} at its end: it crushes a finger "
            "and does not stop.",
            f"below {show.newtons(SAFE_N)}, what a powered door may close with",
            f"Guard it so that no finger reaches it, or take a longer arm than "
            f"{show.millimetres(1000 * gear.arm_radius.low * force / SAFE_N, sized.units)}, a smaller reduction or a "
            "lower voltage.",
            (*path, "arm_radius"),
            sized.slug,
        ),
    )


KIND = Kind(
    word="gear motor",
    title="Gear motor",
    slug="gear",
    fields=GearMotor,
    part=PartKind.MOTOR,
    drop_rule="drop limit for a motor",
    load=load,
    introduction=introduction,
    cautions=cautions,
    mounting=mounting,
    steps=steps,
    tuning_notes=tuning_notes,
    play_notes=play_notes,
    troubles=troubles,
    emergency=(
        "A finger is caught: pull the plug first. A worm gear keeps holding: undo the screw of the arm.",
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "It hums and does not move: pull the plug within seconds; the winding heats fast.",
    ),
    findings=findings,
    weighed=weighed,
    worked=worked,
    turner=turner,
    missing=missing,
)
