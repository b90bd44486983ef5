"""A shaker motor: an eccentric weight on a motor's shaft sways the whole cabinet."""

from math import pi, sqrt
from typing import Annotated, Literal, cast

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.log_reading import RECORD_S
from guide_gen.formulas.motor import constant_V_s_per_rad, start_current_A
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.unbalance import (
    half_disc_unbalance_kg_m,
    rim_speed_m_s,
    scale_unbalance_kg_m,
    turning_force_N,
)
from guide_gen.formulas.weight import GRAVITY_M_S2, gravity_torque_N_m, scale_friction_N_m, swing_inertia_kg_m2
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import Mass, Resistance, Run, Section, Thickness, ToyFields, YesNo, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind, Missing, Weighed
from guide_gen.model.loads import held_words, load_of
from guide_gen.model.machine import OFF, Machine, spread_of
from guide_gen.model.plan import Load, Motion, Sized
from guide_gen.model.plan import Section as PageSection
from guide_gen.model.playing import played
from guide_gen.model.shaking import (
    CURRENT,
    DAMPING,
    NATURAL,
    at,
    blocked,
    by_volts,
    feed_open,
    first_of_all,
    left_reading,
    resonance_words,
    smaller_weight,
    start_reading,
    stop_words,
    sways,
    too_much_at_full,
    turning_reading,
    turning_words,
    waiting_words,
)
from guide_gen.model.winding import WHAT, bounded_winding, measured_how, motor_missing, motor_weighed, winding_text
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Worked, default, work

Speed = Annotated[Quantity, read_quantity("speed", "rpm", 1.0, 2100.0, example="2100 rpm", ranged=True)]
Inductance = Annotated[Quantity, read_quantity("inductance", "H", 1e-6, 10.0, example="0.5 mH", ranged=True)]
Unbalance = Annotated[Quantity, read_quantity("unbalance", "g m", 1e-5, 1.0, example="8 g m", ranged=True)]
Period = Annotated[Quantity, read_quantity("time", "s", 0.05, 10.0, example="0.47 s", ranged=True)]

# The motor that the usual values of published/motion.csv are for; this project, estimates.
USUAL_V, USUAL_A = 12.0, 5.5
USUAL_SWING_S = Spread(0.40, 0.47, 0.60)  # period of the hanging weight's free swing; this project, an estimate
INDUCTANCE_OFF, FRICTION_OFF = 0.30, 0.20  # what such measurements may be off; this project, estimates
BENCH_ROOM = 1.1  # current limit of the bench supply over what turning over may take; this project, for its meter
BENCH_MOST = 2.0  # times its full current for some seconds at rest, no more; common practice, no source
SWUNG_OVER = 0.72  # share of m g e that, applied steadily, swings a weight at rest over; pendulum's energy, derived
START_S = 0.2  # a small motor is up to speed after that; this project, an estimate
LOG = "guide-gen shake NUDGE.csv"
METER = "an LCR meter at 1 kHz or less, one lead of the motor off; left out, what is usual is taken"
DENSITY_KG_M3 = {"steel": 7850.0, "brass": 8500.0, "aluminium": 2700.0, "lead": 11340.0}  # handbook, from memory


class Motor(Section):
    """The motor by what a hobbyist can measure."""

    resistance: Resistance | None = key(
        "resistance of the winding, shaft held, mean of four positions", example="0.32 ohm (measured)"
    )
    speed: Speed | None = key("speed at the toy's voltage, weight fitted", example="2100 rpm (measured)")
    inductance: Inductance | None = key(
        "inductance of the winding, by an LCR meter at 1 kHz or less; left out, what is usual is taken",
        example="0.5 mH (estimate)",
    )


class Scale(Section):
    """The weight on a kitchen scale: its arm held level at a lever."""

    lever: Run = key(
        "from the shaft to the point that rests on the scale", example="50 mm", ask="measure it with a ruler"
    )
    raising: Mass = key("reading while the arm is slowly raised", example="210 g", ask="read the kitchen scale")
    lowering: Mass = key("reading while the arm is slowly lowered", example="150 g", ask="read the kitchen scale")


class Shape(Section):
    """The weight by its shape."""

    form: Literal["half disc"] = key("its form", example="half disc", ask="choose the nearest form")
    radius: Thickness = key("outer radius", example="52 mm", ask="measure it with a ruler")
    thickness: Thickness = key("thickness", example="12 mm", ask="measure it with a ruler")
    material: Literal["steel", "brass", "aluminium", "lead"] = key(
        "what it is made of", example="steel", ask="look: a magnet sticks to steel"
    )


class Weight(Section):
    """The eccentric weight; one of scale, shape and unbalance is enough."""

    scale: Scale | None = key(
        "measured with a kitchen scale", example="{lever: 50 mm, raising: 210 g, lowering: 150 g}"
    )
    shape: Shape | None = key(
        "worked out from its shape", example="{form: half disc, radius: 52 mm, thickness: 12 mm, material: steel}"
    )
    unbalance: Unbalance | None = key(
        "mass times the distance of its centre from the shaft", example="8 g m (datasheet)"
    )
    swing: Period | None = key("period of its free swing, leads open", example="0.47 s (measured)")


class ShakerMotor(ToyFields):
    """A shaker motor."""

    kind: Literal["shaker motor"] = key("what it is", example="shaker motor", ask="choose one of the kinds")
    cover: YesNo = key(
        "whether a cover stands round the weight",
        example="yes",
        ask="look whether a closed cover stands round the weight on every side",
    )
    motor: Motor | None = key("the motor by what was measured", example="{resistance: 0.32 ohm (measured)}")
    weight: Weight | None = key("the eccentric weight", example="{unbalance: 8 g m (datasheet)}")


def unbalance_kg_m(toy: ShakerMotor) -> float | None:
    """Mass times eccentricity at its high end, by the best of the three ways that were given."""
    weight = toy.weight
    if weight is None:
        return None
    if weight.scale and weight.scale.lowering.high <= weight.scale.raising.high:
        return scale_unbalance_kg_m(
            lever_m=weight.scale.lever.high,
            raising_kg=weight.scale.raising.high,
            lowering_kg=weight.scale.lowering.high,
        )
    if weight.unbalance:
        return weight.unbalance.high
    if weight.shape:
        return half_disc_unbalance_kg_m(
            radius_m=weight.shape.radius.high,
            thickness_m=weight.shape.thickness.high,
            density_kg_m3=DENSITY_KG_M3[weight.shape.material],
        )
    return None


def rim_m(weight: Weight | None) -> float | None:
    """How far the weight reaches from the shaft, where its shape or the lever of its scale test says it."""
    if weight and weight.shape:
        return weight.shape.radius.high
    return weight.scale.lever.high if weight and weight.scale else None


def pull_words(toy: ShakerMotor, highest_V: float, worst_N: float | None = None) -> str:
    """How hard the weight pulls and how fast its rim is, at full voltage and at the highest of the supply.

    At most the speed grows in proportion to the voltage, and the pull with its square. "" where speed or unbalance is
    not known. worst_N: at that voltage with every value at the unfavourable end of its range; None: not worked out.
    """
    unbalance, reach = unbalance_kg_m(toy), rim_m(toy.weight)
    if unbalance is None or toy.motor is None or toy.motor.speed is None:
        return ""
    full = toy.motor.speed.high

    def at(speed: float) -> str:
        pull = show.newtons(turning_force_N(unbalance_kg_m=unbalance, speed_rad_s=speed))
        if reach is None:
            return pull
        rim = rim_speed_m_s(radius_m=reach, speed_rad_s=speed)
        return f"{pull}, its rim at {show.with_unit(show.figure(rim, digits=2), 'm/s')}"

    faster = highest_V / toy.voltage.low
    at_most = f"; at {show.volts(highest_V)} with up to {at(full * faster)}" if faster > 1 + 1e-9 else ""
    worst = "" if worst_N is None else f"; with every value at the unfavourable end {show.newtons(worst_N)}"
    return f"At full speed it pulls with about {at(full)}{at_most}{worst}."


def pulls_N(toy: ToyFields, highest_V: float) -> float | None:
    """How hard the weight pulls at full strength, when speed and unbalance are known."""
    shaker = cast(ShakerMotor, toy)
    unbalance, motor = unbalance_kg_m(shaker), shaker.motor
    if unbalance is None or motor is None or motor.speed is None:
        return None
    fastest = motor.speed.high * max(1.0, highest_V / toy.voltage.low)
    return turning_force_N(unbalance_kg_m=unbalance, speed_rad_s=fastest)


def stall_words(sized: Sized) -> str:
    """What a blocked motor draws, against what its fuse is rated for; "" while the winding is not known."""
    blocked, rating = sized.load.start_A, sized.fuse.rating_A
    if blocked is None or rating is None:
        return ""
    return f"Blocked it asks for up to {held_words(sized)}; {sized.fuse.id} is rated {show.amps(rating)}."


def load(toy: ToyFields) -> Load:
    """A motor: at the moment of switching on only its winding bounds the current."""
    motor = cast(ShakerMotor, toy).motor
    winding = (motor.resistance.low, motor.resistance.high) if motor and motor.resistance else None
    start = start_current_A(voltage_V=toy.voltage.high, resistance_ohm=winding[0]) if winding else None
    return load_of(
        toy,
        kickback=True,
        resistance_ohm=winding,
        inductance_H=(motor.inductance.low, motor.inductance.high) if motor and motor.inductance else None,
        friction_share=friction_share(toy),
        start_A=start,
        start_s=START_S,
    )


def friction_share(toy: ToyFields) -> tuple[float, float] | None:
    """What dry friction takes of the torque at full voltage, where the weight was on a scale; None: as usual."""
    shaker, known = cast(ShakerMotor, toy), machine(toy)
    if known.contradicts or shaker.weight is None or trusted(shaker.weight).scale is None:
        return None
    shares = (
        known.friction_N_m.low / (known.emf_V_s.high * toy.current.high),
        known.friction_N_m.high / (known.emf_V_s.low * toy.current.low),
    )
    return min(shares[0], 1.0), min(shares[1], 1.0)


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """Its winding, which bounds its start."""
    return motor_missing((cast(ShakerMotor, toy).motor or Motor()).resistance)


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """Motor and weight as far as they were stated; all but the winding count for its motion alone."""
    shaker = cast(ShakerMotor, toy)
    motor, weight = shaker.motor or Motor(), shaker.weight or Weight()
    found = [
        *motor_weighed(
            motor.resistance,
            motor.speed,
            "a phone's accelerometer on a heavy bench that it is clamped to, covered: 20 s, for guide-gen shake",
        )
    ]
    video = "a phone's video of its free swing, leads open"
    scale = "a kitchen scale and a ruler, the arm level, slowly raised and lowered"
    named = (
        ("the winding's inductance", motor.inductance, ("motor", "inductance"), METER, True),
        ("the unbalance", weight.unbalance, ("weight", "unbalance"), scale, False),
        ("the weight's swing", weight.swing, ("weight", "swing"), video, False),
    )
    found += [
        Weighed(name, value, path, how, asked, moves=True)
        for name, value, path, how, asked in named
        if value is not None
    ]
    return tuple(found)


def machine(toy: ToyFields) -> Machine:
    """Motor and weight as ranges: what was given, else what is usual for a motor of this voltage and current."""
    shaker = cast(ShakerMotor, toy)
    motor, weight = shaker.motor or Motor(), trusted(shaker.weight or Weight())
    guessed: list[str] = []
    volts, amps = toy.voltage.middle, Spread.between(toy.current.low, toy.current.high)
    size = volts / USUAL_V
    contradicts = contradicted(shaker)
    most = 0.95 * volts / amps.high  # beyond it no machine runs at that current
    if motor.resistance and not contradicts:
        resistance = spread_of(motor.resistance)
    else:
        usual = guess("resistance", "winding resistance", guessed, size * USUAL_A / amps.nominal)
        resistance = Spread(*(min(value, most) for value in usual))
    inductance = (
        spread_of(motor.inductance, INDUCTANCE_OFF)
        if motor.inductance
        else times(resistance, guess("inductance", "winding time constant", guessed, 1.0))
    )
    emf = (
        emf_by_speed(volts, amps, resistance, spread_of(motor.speed))
        if motor.speed
        else guess("speed", "back emf constant", guessed, size)
    )
    unbalance = unbalance_spread(weight) or guess("unbalance", "unbalance", guessed, 1.0)
    return Machine(
        resistance,
        inductance,
        emf,
        friction_spread(weight, emf, amps),
        volts,
        amps,
        spread_of(motor.speed) if motor.speed else None,
        None if weight.scale else Spread.usual("friction share of the loss"),
        unbalance,
        swing_spread(weight, unbalance, guessed),
        tuple(guessed),
        contradicts,
        trusted(shaker.weight or Weight()) != (shaker.weight or Weight()),
    )


def contradicted(toy: ShakerMotor) -> bool:
    """Whether current and winding cannot belong together: the winding alone would take the whole voltage."""
    ohms = toy.motor.resistance if toy.motor else None
    return ohms is not None and toy.current.high * spread_of(ohms).nominal >= toy.voltage.middle


def trusted(weight: Weight) -> Weight:
    """The weight without a scale test that reads the wrong way round."""
    scale = weight.scale
    swapped = scale is not None and scale.lowering.middle > scale.raising.middle
    return weight.model_copy(update={"scale": None}) if swapped else weight


def guess(what: str, usual: str, guessed: list[str], size: float) -> Spread:
    """What is usual, scaled to this motor's size, and noted as a guess."""
    guessed.append(what)
    return Spread(*(size * value for value in Spread.usual(usual)))


def times(one: Spread, other: Spread) -> Spread:
    """Product of two ranges of positive values."""
    return Spread(one.low * other.low, one.nominal * other.nominal, one.high * other.high)


def emf_by_speed(volts: float, amps: Spread, resistance: Spread, speed: Spread) -> Spread:
    """Back emf constant from the running point at full voltage: most with least loss in the winding and least speed."""

    def at(current: float, ohms: float, rad_s: float) -> float:
        able = min(ohms, 0.95 * volts / current)  # of a range only what can be
        return constant_V_s_per_rad(
            voltage_V=volts, brush_V=0.0, current_A=current, resistance_ohm=able, speed_rad_per_s=rad_s
        )

    return Spread(
        at(amps.high, resistance.high, speed.high),
        at(amps.nominal, resistance.nominal, speed.nominal),
        at(amps.low, resistance.low, speed.low),
    )


def unbalance_spread(weight: Weight) -> Spread | None:
    """Mass times eccentricity by the best of three ways."""
    if weight.scale:
        scale = weight.scale
        return Spread.about(
            scale_unbalance_kg_m(
                lever_m=scale.lever.middle, raising_kg=scale.raising.middle, lowering_kg=scale.lowering.middle
            ),
            OFF[Basis.MEASURED],
        )
    if weight.unbalance:
        return spread_of(weight.unbalance)
    if weight.shape:
        shape = weight.shape
        return Spread.about(
            half_disc_unbalance_kg_m(
                radius_m=shape.radius.middle,
                thickness_m=shape.thickness.middle,
                density_kg_m3=DENSITY_KG_M3[shape.material],
            ),
            OFF[Basis.DATASHEET],
        )
    return None


def friction_spread(weight: Weight, emf: Spread, amps: Spread) -> Spread:
    """Friction by the scale, else a share of the loss at full speed."""
    if weight.scale:
        scale = weight.scale
        return Spread.about(
            scale_friction_N_m(
                lever_m=scale.lever.middle, raising_kg=scale.raising.middle, lowering_kg=scale.lowering.middle
            ),
            FRICTION_OFF,
        )
    return times(Spread.usual("friction share of the loss"), times(emf, amps))


def swing_spread(weight: Weight, unbalance: Spread, guessed: list[str]) -> Spread:
    """Period of the weight's free swing: as measured, by the shape with its rotor, else as usual."""
    if weight.swing:
        return spread_of(weight.swing)
    if weight.shape and not weight.scale and not weight.unbalance:
        rotor = Spread.usual("rotor inertia")
        # A half disc: its mass times the radius over two, squared; from m e with e = 4 r / (3 pi).
        disc_m = 3 * pi / 8 * weight.shape.radius.middle
        lengths = (
            disc_m + rotor.low / unbalance.high,
            disc_m + rotor.nominal / unbalance.nominal,
            disc_m + rotor.high / unbalance.low,
        )
        return Spread(*(2 * pi * sqrt(length / GRAVITY_M_S2) for length in lengths))
    guessed.append("inertia")
    return USUAL_SWING_S


def worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """Unbalance, friction, inertia and the motor's constant, each from what was measured."""
    shaker = cast(ShakerMotor, toy)
    weight, motor = trusted(shaker.weight or Weight()), shaker.motor or Motor()
    found: list[Worked] = []
    scale, shape = weight.scale, weight.shape
    if scale:
        for function, id, name in (
            (scale_unbalance_kg_m, "shaker.unbalance", "Unbalance of the weight, by the scale"),
            (scale_friction_N_m, "shaker.friction", "Friction of bearings and brushes"),
        ):
            found.append(
                work(
                    function,
                    id,
                    name,
                    lever_m=scale.lever.middle,
                    raising_kg=scale.raising.middle,
                    lowering_kg=scale.lowering.middle,
                )
            )
    elif shape and not weight.unbalance:
        found.append(
            work(
                half_disc_unbalance_kg_m,
                "shaker.unbalance",
                "Unbalance of the weight, by its shape",
                radius_m=shape.radius.middle,
                thickness_m=shape.thickness.middle,
                density_kg_m3=DENSITY_KG_M3[shape.material],
            )
        )
    pull = unbalance_spread(weight)
    if pull:
        found.append(
            work(
                gravity_torque_N_m,
                "shaker.lift",
                "Torque that holds the arm level",
                sentence="A start needs less: the weight swings itself up.",
                unbalance_kg_m=pull.nominal,
            )
        )
    if pull and weight.swing:
        found.append(
            work(
                swing_inertia_kg_m2,
                "shaker.inertia",
                "Inertia of weight and rotor, by the free swing",
                unbalance_kg_m=pull.nominal,
                period_s=weight.swing.middle,
            )
        )
    if not scale:
        usual = Spread.usual("friction share of the loss")
        text = f"{usual.nominal:g} ({usual.low:g} to {usual.high:g})"
        found.append(default("shaker.friction", "Friction's share of the loss at full speed", text, "this project"))
    amps = Spread.between(toy.current.low, toy.current.high).nominal
    if motor.resistance and motor.speed and amps * motor.resistance.middle < toy.voltage.middle:
        found.append(
            work(
                constant_V_s_per_rad,
                "shaker.constant",
                "Back emf for each unit of speed, and torque for each ampere",
                voltage_V=toy.voltage.middle,
                brush_V=0.0,
                current_A=amps,
                resistance_ohm=motor.resistance.middle,
                speed_rad_per_s=motor.speed.middle,
            )
        )
    return tuple(found)


def may_sway(sized: Sized) -> bool:
    """Whether a sway may be looked for: it has a setting, and none or a sway was worked out."""
    return sized.control in ("pwm port", "speed controller") and sways(sized)


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    swaying = may_sway(sized)
    does = "Turned slowly, it sways the whole cabinet from side to side."
    return Introduction(
        sentence="A motor with an eccentric weight on its shaft. "
        + (
            does if swaying else "As it is driven here it makes the whole cabinet tremble; a slow sway is not foretold."
        ),
        meant_for=f"Short, gentle {'sways' if swaying else 'trembling'} of a standing cabinet during play.",
        not_for="Not for use without its cover, not for standing on, and not for running at full strength for long.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection"),
    )


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a shaker motor."""
    shaker = cast(ShakerMotor, toy)
    held = sized.ids["load"]
    found = [
        Caution(
            "weight-flies",
            Word.WARNING,
            "The eccentric weight can come off its shaft.",
            "Thrown metal can blind.",
            (
                "Fix it on a flat of the shaft with two set screws or a clamp, thread-locked.",
                "Cover on before power; eye protection at the first spin.",
                "First spin from the lowest setting.",
            ),
            reason=pull_words(shaker, sized.supply_high_V, sized.motion.pull_N if sized.motion else None),
            grouped=True,
            before=("shaker.bench.turns", "shaker.tune.first"),
        ),
        Caution(
            "entangle",
            Word.WARNING,
            "A turning weight draws in hair, sleeves and cables.",
            "It can injure a hand or tear wires.",
            ("Plug out before the cover comes off.", "Tie hair and cables back; no gloves near it."),
            before=("shaker.mount.free", "shaker.after.look"),
        ),
        Caution(
            "bolts-walk-out",
            Word.CAUTION,
            "Shaking works the mounting loose.",
            "The motor can drop and tear its wires.",
            ("Use through-bolts with wide washers and locking nuts.", "Tighten again after 1 h and 10 h of play."),
            grouped=True,
            before=("shaker.mount.bolt",),
        ),
        Caution(
            "stall",
            Word.CAUTION,
            "A blocked weight stops the motor while the current flows.",
            "The winding overheats and smokes; the fuse protects the wire, not the motor.",
            ("Pull the plug when it hums and does not turn.", "Free it before the next try."),
            stall_words(sized),
            before=("shaker.tune.turns" if sized.control in ("pwm port", "speed controller") else "shaker.tune.first",),
        ),
        Caution(
            "vibration-damage",
            Word.NOTICE,
            "Long shaking loosens connectors and cracks solder joints.",
            "Screens and disks fail over months.",
            ("Stop well before everything rattles.", "Re-seat and tie every connector."),
            before=("shaker.tune.sway",),
        ),
    ]
    ratio = sized.supply_high_V / sized.load.voltage_V
    if ratio > 1.1:
        found.append(
            Caution(
                "overspeed",
                Word.WARNING,
                f"{held} can get more than its rated voltage.",
                "It turns faster and pulls harder than it was made for.",
                ("Set the supply to the motor's voltage.", "Use a limit as well; never a limit alone."),
                reason=f"The supply can give {show.volts(sized.supply_high_V)}; up to {ratio**2:.2g} times the pull.",
                grouped=True,
            )
        )
    return tuple(found)


def mounting(toy: ToyFields, sized: Sized) -> PageSection:
    """Where, which way round and why, how it is held."""
    mount = toy.mount
    found: list[Advice] = [
        Advice(
            "Shaft front to back.",
            "The weight then throws sideways, which is felt as sway, and does not lift the front legs.",
        ),
        Advice("In the front half of the floor.", "The player's hands are there, and a little strength is enough."),
        Advice(
            "On a free, flat place, clear of everything that the weight or its cover could hit.",
            "Cables, legs and ramps of other parts move too.",
        ),
        Advice(
            "Holes marked from the frame itself, not from a drawing.", "Frames differ by more than a hole forgives."
        ),
        Advice(
            "Through-bolts, wide washers and locking nuts.",
            "Wood screws shake loose, and small washers sink into the wood.",
        ),
    ]
    if sized.control == "speed controller":
        found.append(
            Advice(
                "The controller where its trimmer can be reached from the service door.",
                "Then it is tuned with the guard shut and no hand near the weight.",
            )
        )
    told = [f"shaft {mount.shaft}"] if mount.shaft else []
    told += [f"in the {mount.place} of the floor"] if mount.place else []
    paragraphs = [f"This build: {', '.join(told)}."] if told else []
    if mount.shaft not in (None, "front to back"):
        paragraphs.append(
            "Front to back would be better: another direction lifts or rocks the cabinet instead of swaying it."
        )
    return PageSection(tuple(paragraphs), tuple(found))


def mount_steps(sized: Sized) -> tuple[Step, ...]:
    """Mounting, from a free place to the cover."""
    screws = sized.mounting
    told = screws is not None and screws.torque_Nm is not None
    by_eye = "" if told else "Tighten the nuts cross-wise until the washers just begin to press into the wood. "
    steps = [
        Step(
            "shaker.mount.place",
            "mount",
            "Set the shaker on the floor of the cabinet, in the front half, with its shaft front to back.",
            "Find its place",
        ),
        Step(
            "shaker.mount.free",
            "mount",
            "Take the cover off and turn the weight by hand, one whole turn. Nothing stands within "
            f"{show.rough('20 mm', '3/4 in', sized.units)} of it.",
            "Turn the weight by hand",
            killer=True,
        ),
        Step("shaker.mount.mark", "mount", "Mark the holes through the frame itself.", "Mark the holes"),
        *bolt_steps("shaker", screws, sized.units),
        Step(
            "shaker.mount.tighten",
            "mount",
            f"{by_eye}Mark each nut and bolt with a line of paint.",
            "Mark the nuts",
            more="A broken line later shows a nut that moved.",
        ),
        Step(
            "shaker.mount.weight",
            "mount",
            "Tighten both set screws of the weight, thread-locked, on the flat of the shaft.",
            "Set screws of the weight",
            killer=True,
        ),
        Step("shaker.mount.cover", "mount", "Put the cover on and tighten all its screws.", "Cover on", killer=True),
    ]
    if sized.control == "speed controller":
        steps.append(
            Step(
                "shaker.mount.controller",
                "mount",
                "Fasten the speed controller so that its trimmer can be "
                "reached from the service door, with the guard shut.",
                "Controller within reach",
            )
        )
    return tuple(steps)


def winding_reading(toy: ShakerMotor, sized: Sized) -> Reading:
    """Resistance of the winding: computed from what is known, else only bounded by V / I."""
    held = sized.ids["load"]
    between = f"{held}:1 and {held}:2"
    motor = toy.motor
    if motor and motor.resistance:
        return Reading(
            WHAT,
            between,
            0.8 * motor.resistance.low,
            1.2 * motor.resistance.high,
            "Ω",
            "Turn the shaft a little and measure again; worn or dirty brushes read high, a shorted winding reads low.",
            measured_how(motor.resistance.low),
        )
    return bounded_winding(toy, held)


def bench_V(toy: ShakerMotor, sized: Sized) -> tuple[float, float]:
    """From which to which voltage it turns over on a bench supply: current of the start's torque times the winding.

    Without a motion plan by what is described and usual: no more than lifts the arm held level, and no less than what
    swings a weight over that starts hanging at rest.
    """
    if sized.motion and sized.motion.bench_V:
        return sized.motion.bench_V
    known, (low_A, high_A) = machine(toy), turning_over_A(toy)
    high, low = high_A * known.resistance_ohm.high, low_A * known.resistance_ohm.low
    return min(low, sized.load.voltage_V), min(high, sized.load.voltage_V)


def turning_over_A(toy: ShakerMotor) -> tuple[float, float]:
    """What it draws just before it turns over, by what is described and usual: torque over torque constant."""
    known = machine(toy)
    pull, friction = known.unbalance_kg_m, known.friction_N_m
    low_N_m = SWUNG_OVER * gravity_torque_N_m(pull.low) + friction.low
    high_N_m = gravity_torque_N_m(pull.high) + friction.high
    return low_N_m / known.emf_V_s.high, high_N_m / known.emf_V_s.low


def bench_most_A(toy: ShakerMotor, sized: Sized) -> float:
    """The most that it may draw before it turns over on a bench supply, at most at its full voltage."""
    most_A = sized.motion.bench_A[1] if sized.motion and sized.motion.bench_A else turning_over_A(toy)[1]
    return min(most_A, sized.load.voltage_V / machine(toy).resistance_ohm.low)


def bench_limit_A(toy: ShakerMotor, sized: Sized) -> float:
    """Current limit of the bench supply: lets it turn over, and no more than its winding stands for some seconds."""
    full_A = sized.load.design_current_A
    return show.rounded_up(min(max(full_A / 2, BENCH_ROOM * bench_most_A(toy, sized)), BENCH_MOST * full_A))


def bench_step(toy: ShakerMotor, sized: Sized) -> Step:
    """From 0 V upward until the weight turns over; a limit below what that may ask for tells nothing of a fault."""
    held, limit_A, most_A = sized.ids["load"], bench_limit_A(toy, sized), bench_most_A(toy, sized)
    full_A, limit, most = sized.load.design_current_A, show.amps(limit_A), show.amps(most_A)
    passes, rest = reaches(limit_A, most_A), ""
    if not reaches(full_A, limit_A):
        rest = (
            f" That is above its full current of {show.amps(full_A)}: for five seconds at most, then a minute's rest, "
            "since a winding heats fast while it stands still."
        )
    return Step(
        "shaker.bench.turns",
        "bench",
        "Cover on. Feed the motor alone, its fuse out: "
        f"current limit {limit}, voltage from 0 V slowly up until the weight turns over.",
        "Bench supply from 0 V",
        record=Reading(
            "Voltage at which it turns over",
            f"{held}:1 and {held}:2",
            *bench_V(toy, sized),
            "V",
            "Below: it turns more easily than described. Above, or at the current limit and still not turning: "
            "blocked, rubbing, or the wrong voltage. Never raise the limit to get past a fault."
            if passes
            else f"At the current limit and still not turning tells nothing: it may ask for {most}, and more than "
            f"{limit} heats the winding too fast. Output off; turn the weight by hand: if it turns freely, go on. "
            "Never raise the limit.",
            bench_how(toy, sized),
        ),
        more=f"It may draw up to {most} before it turns over. A bench supply that gives less cannot tell a heavy "
        f"weight from a blocked one.{rest}",
    )


def bench_how(toy: ShakerMotor, sized: Sized) -> str:
    """By which meter, and whether what is expected rests on usual values."""
    guessed = () if sized.motion and sized.motion.bench_V else machine(toy).guessed
    usual = f"; expected by what is usual, as nothing is known of its {' and '.join(guessed)}" if guessed else ""
    return f"bench supply's meter{usual}"


def power_steps(toy: ShakerMotor, sized: Sized) -> tuple[Step, ...]:
    """Dead checks and first power that belong to a motor with a weight."""
    held = sized.ids["load"]
    return (
        Step(
            "shaker.dead.winding",
            "dead-checks",
            winding_text(held, winding_reading(toy, sized)),
            "Resistance of the winding",
            record=winding_reading(toy, sized),
        ),
        Step(
            "shaker.dead.cover", "dead-checks", "The cover is on and all its screws are tight.", "Cover on", killer=True
        ),
        bench_step(toy, sized),
    )


def tune_steps(sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """From the lowest setting upward to a sway, in small steps."""
    if dial is None and too_much_at_full(sized):
        return (not_at_full(sized),)
    if dial is None:
        return (
            Step(
                "shaker.tune.first",
                "tune",
                "Hands out, guard shut. Run it for one second at full strength.",
                "One second at full",
                killer=True,
            ),
            Step(
                "shaker.tune.sway",
                "tune",
                "Judge it: the cabinet trembles no more strongly than you like, and nothing rattles.",
                "No stronger than you like",
                more="Too strong: this control cannot lower it. "
                + (sized.full_mend or "Fit a smaller weight, or use a PWM port or a trimmer-set controller."),
            ),
        )
    outside = (
        "Hands out and guard shut at each power-on."
        if dial.unit == "%"
        else "Hands out and guard shut at each power-on; or reach the trimmer from outside with an insulated tool, "
        "where nothing moves within reach."
    )
    motion, stop = sized.motion, stop_words(sized.motion, dial)
    swaying, met = sways(sized), resonance_words(motion, dial)
    goal = "sways sideways: a sway, not a vibration" if swaying else "trembles as strongly as you like"
    waits, kick = waiting_words(motion, dial), motion.kick if motion is not None and motion.kick_helps else ""
    raised = dial.smallest_step if not stop or "at the latest" in dial.smallest_step else f"{dial.smallest_step}{stop}"
    lowest = Step(
        "shaker.tune.lowest",
        "tune",
        f"{dial.to_lowest} Power on from outside. It stays still.",
        "Lowest setting",
        killer=True,
        more=outside,
    )
    if motion and blocked(motion):
        return (lowest, no_further(motion, dial))
    return (
        lowest,
        Step(
            "shaker.tune.first",
            "tune",
            f"Start the toy from the game's test. {raised} Take the first step only, and wait three seconds: it stays "
            "still or buzzes.",
            "First small step",
            more="A buzz before it turns over is normal. A manual test of an output "
            "may ignore the limit that was set: use the game's test, not a test of the bare output.",
        ),
        Step(
            "shaker.tune.turns",
            "tune",
            f"Go on by the same small steps until the weight just turns over. {waits}{stop}"
            f"{turning_words(motion, dial)} Write down where it did.",
            "Where it turns over",
            record=start_reading(sized, dial),
        ),
        Step(
            "shaker.tune.sway",
            "tune",
            f"Go on by small steps until the cabinet {goal}. Stop well before everything rattles.{stop}{met}",
            "Up to a gentle sway" if swaying else "Up to a gentle tremble",
            more="In doubt, one step back. Strength can be added any day; cracked solder cannot be taken back."
            + (f" Too strong as soon as it turns, and the board or game can kick it: {kick}" if kick else ""),
        ),
        Step(
            "shaker.tune.repeat",
            "tune",
            "Switch it off and on five times. It turns over every time.",
            "Five starts",
            more=f"It hums once: one small step up, then five starts again.{stop}",
        ),
        Step(
            "shaker.tune.left",
            "tune",
            "Write down where the trimmer stands, and what a meter at the motor shows while it runs there."
            if by_volts(sized, dial)
            else "Write the as-left setting down.",
            "As-left setting",
            record=left_reading(sized, dial),
            killer=True,
            more="In the description both stand under found: trimmer in words, and as setting the meter's volts over "
            f"the {show.volts(sized.supply_V)} of the supply, in percent."
            if by_volts(sized, dial)
            else "",
        ),
    )


def not_at_full(sized: Sized) -> Step:
    """In place of all tuning, where there is full strength only, and that most likely is too much."""
    return Step(
        "shaker.tune.weight",
        "tune",
        f"Go no further. Plug out. {feed_open(sized)}. This control gives full strength or nothing, and full strength "
        f"most likely is more than the contents stand. {sized.full_mend} Write it into the description and make this "
        "guide again.",
        "Not at full strength",
        killer=True,
    )


def no_further(motion: Motion, dial: Dial) -> Step:
    """In place of all further tuning, where no setting can be promised at which it most likely turns."""
    why = (
        f"Go no further. From {at(motion.ceiling, dial, motion)} on it may be too much for the contents, and it most "
        f"likely turns over at {at(motion.start_nominal, dial, motion)} only: no setting can be promised."
    )
    if not motion.helps:
        return Step(
            "shaker.tune.weight",
            "tune",
            f"{why} Fit {smaller_weight(motion)}. Write it into the description and make this guide again.",
            "A smaller weight first",
            killer=True,
            more="No measurement lifts the limit above the start.",
        )
    return Step(
        "shaker.tune.measure",
        "tune",
        f"{why} Measure {motion.helps}. Write it into the description and make this guide again.",
        "Measure first",
        killer=True,
        more=f"If it does not help, fit {smaller_weight(motion)}.",
    )


def nudge_steps(sized: Sized) -> tuple[Step, ...]:
    """Before it is tuned: how the cabinet itself sways, by a phone's log."""
    unusual = "Push again and log again; several pushes with rest between show the spread."
    own, fades = (sized.foretold.get(name) for name in (NATURAL, DAMPING))
    strange = "Not as described, or the cabinet stands otherwise. {}" if own else "Unusual (an estimate). {}"
    return (
        Step(
            "shaker.tune.nudge-log",
            "tune",
            "Plug out. Tape a phone flat on the cabinet's floor, log its accelerometer, and push the cabinet sideways "
            "three times, at rest in between. Run: guide-gen shake NUDGE.csv. Write the natural frequency down.",
            "Log the cabinet's own sway",
            record=Reading(
                "The cabinet's own sway",
                "the phone's log",
                *(own or (3.0, 14.0)),
                "Hz",
                strange.format(unusual),
                LOG,
            ),
            more="Usual are 3 to 8 Hz on four legs and 6 to 14 Hz on a pedestal. The command prints the line for the "
            "description.",
        ),
        Step(
            "shaker.tune.nudge-damping",
            "tune",
            "Write down the damping that the same log gives.",
            "Damping of that sway",
            record=Reading(
                "Damping of the cabinet's own sway",
                "the phone's log",
                *(fades or (3.0, 10.0)),
                "%",
                (strange if fades else "Unusual (an estimate). {}").format(unusual),
                LOG,
            ),
            more="The command prints the line for the description.",
        ),
    )


def log_steps(sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """After it is tuned, or at full strength where that is all: how fast it turns, by a phone's log; what it draws."""
    at = "at the setting as left" if dial else "at full strength"
    careful = " It may be too much for the contents: stop at once if anything rattles." if sized.full_mend else ""
    held, fuse = sized.ids["load"], sized.ids.get("fuse")
    draws: tuple[float | None, float] = sized.foretold.get(CURRENT) or (None, sized.load.design_current_A)
    place = f"in the place of {fuse}" if fuse else f"in the feed of {held}"
    return (
        Step(
            "shaker.tune.log",
            "tune",
            "Plug out. Tape a phone flat on the cabinet's floor, clear of the weight. Start its log, guard shut, hands "
            f"out; run the shaker for {RECORD_S:g} seconds {at}.{careful} Run: guide-gen shake LOG.csv. "
            "Write the turning frequency down.",
            "Log how fast it turns",
            record=turning_reading(sized, at),
            more=f"In {RECORD_S:g} seconds the log tells frequencies {2 / RECORD_S:g} Hz apart; a shorter one blurs "
            "them. The same command says whether the shaking is within what the contents stand, and prints the line "
            "for the description.",
        ),
        Step(
            "shaker.tune.current",
            "tune",
            f"Plug out. Put a DC ammeter, on its fused range above {show.amps(sized.load.design_current_A)}, {place}. "
            f"Guard shut, hands out: run it {at} and write the current down. Plug out, fuse back.",
            "Running current",
            record=Reading(
                f"Current {at}",
                place,
                *draws,
                "A",
                "Plug out: the weight rubs or is blocked, or the motor is another one.",
                "DC amperes; the meter shows the mean, never what sizes a wire",
            ),
            more="Start it with the meter in: a start draws more than running. In the description it stands under "
            "found, as current.",
        ),
    )


def play_steps(felt: str) -> tuple[Step, ...]:
    """The first games. felt: what is felt of it."""
    return (
        Step(
            "shaker.play.sway",
            "play",
            f"Play three games. You feel the {felt} in the palms and do not hear it in the service door.",
            "Play three games",
        ),
        Step(
            "shaker.play.nudge",
            "play",
            f"Watch the game's nudge reading while the shaker runs: the {felt} must not register as a nudge.",
            "No false nudge",
            more="It does: lower the shaker first, then raise the threshold of the nudge sensor.",
        ),
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a shaker motor."""
    shaker, felt = cast(ShakerMotor, toy), "sway" if may_sway(sized) else "trembling"
    tunes = not (too_much_at_full(sized) if dial is None else blocked(sized.motion))
    return (
        *mount_steps(sized),
        *power_steps(shaker, sized),
        Step("shaker.before.clear", "before-supply", "Nothing loose lies in or on the cabinet.", "Nothing loose"),
        *nudge_steps(sized),
        *tune_steps(sized, dial),
        *((*log_steps(sized, dial), *play_steps(felt)) if tunes else ()),
        Step(
            "shaker.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: cover off, set screws of the "
            "weight tight, paint lines unbroken, connectors seated.",
            "Look after 1 h and 10 h",
        ),
        Step("shaker.after.retighten", "after-play", "Tighten the mounting nuts again.", "Tighten again"),
        Step(
            "shaker.after.setting",
            "after-play",
            "Look at the setting again after some hours of play. Lower it rather than raise it.",
            "Lower rather than raise",
        ),
        Step(
            "shaker.yearly.wear",
            "yearly",
            "Look at brushes, bearings, set screws, nuts and the cable where it bends. If the strength has changed, "
            "tune again from zero.",
            "Yearly look",
        ),
    )


def tuning_notes(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[str, ...]:
    """What to know before tuning."""
    if dial is None:
        told = "This control gives full strength or nothing. What can be tuned is the weight, not the setting."
        return (told + " It must not be run as it is: the steps end there." * too_much_at_full(sized),)
    if sized.motion and blocked(sized.motion):
        return (
            f"It cannot be tuned yet: {first_of_all(sized.motion)}. The steps end there. The chart shows "
            "what is known so far.",
        )
    found = [
        f"Begin at {dial.begin} before the first power-on, and go up in small steps. The motor first buzzes, then "
        + (
            "turns over, then sways the cabinet. Beyond that it only vibrates and breaks things."
            if sways(sized)
            else "turns over, and then makes the cabinet tremble. More strength only breaks things."
        ),
        "What you look for is a sideways sway, not a vibration."
        if sways(sized)
        else "No sway is foretold: go up until it trembles as strongly as you like, at most to the stop.",
    ]
    if sized.port and sized.port.limit_share is not None:
        found.append(f"This build never goes above {show.percent(sized.port.limit_share)}.")
    return tuple(found)


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a shaker motor."""
    shaker = cast(ShakerMotor, toy)
    winding = winding_reading(shaker, sized)
    held, fuse = sized.ids["load"], sized.ids.get("fuse", "the fuse")
    setting = "the setting" if dial else "the voltage"
    return (
        Trouble(
            "Hums and never turns over",
            f"{setting} too low, weight blocked, or stiff bearings",
            "turn the weight by hand, plug out",
            "turns freely a whole turn",
        ),
        Trouble(
            "Turns, but weaker than it was",
            "brushes worn, or a joint that has become loose",
            f"resistance {winding.between}, plug out: {winding.how}",
            show.span(winding.low, winding.high, "Ω"),
        ),
        Trouble(
            f"{fuse} opens at the start",
            "weight blocked, a wire pinched, or a fuse of the wrong rating",
            f"current of {held} while it runs at full strength on a bench supply",
            show.span(sized.load.lowest_current_A, sized.load.design_current_A, "A"),
        ),
        Trouble(
            "Rattles somewhere in the cabinet",
            "strength too high, or a loose part near it",
            "lower the setting until it stops, then search with a hand outside",
            "no rattle at the as-left setting",
        ),
        Trouble(
            "Screen flickers, or the computer restarts",
            "voltage drop in a shared lead",
            f"voltage at {sized.supply_id} while it starts" + (" at the setting as left" if dial else ""),
            f"{show.volts(sized.supply_low_V)} or more",
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A turning weight must be covered; friction makes a scale read more while the arm is raised."""
    shaker = cast(ShakerMotor, toy)
    scale = shaker.weight.scale if shaker.weight else None
    found = []
    if contradicted(shaker) and shaker.motor and shaker.motor.resistance:
        most = toy.voltage.middle / toy.current.high
        found.append(
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"The motion of {sized.name} is not worked out: its current of {show.amps(toy.current.high)} through "
                f"{show.quantity(shaker.motor.resistance)} would take the whole {show.volts(toy.voltage.middle)}, and "
                "nothing would be left to turn it.",
                f"motor: resistance below {show.ohms(most)}, or a lower current",
                "Measure both again: the resistance with the shaft held, the current at full voltage.",
                (*path, "motor", "resistance"),
                sized.slug,
            )
        )
    if scale and scale.lowering.high > scale.raising.high:
        found.append(
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"The weight of {sized.name} is not worked out: the scale read more while the arm was lowered than "
                "while it was raised, and friction makes it the other way round.",
                "lowering at or below raising",
                "Measure again; perhaps the two readings are swapped.",
                (*path, "weight", "scale", "lowering"),
                sized.slug,
            )
        )
    if shaker.cover:
        return tuple(found)
    return (
        *found,
        Finding(
            "cover-missing",
            Level.MUST,
            f"{sized.name} has no cover round its weight: a hand, hair or a cable can be drawn in, and a weight "
            f"that "
            "comes loose flies out.",
            "cover: yes",
            "Build a closed cover round the weight before it is powered, then write cover: yes.",
            (*path, "cover"),
            sized.slug,
        ),
    )


KIND = Kind(
    word="shaker motor",
    title="Shaker motor",
    slug="shaker",
    fields=ShakerMotor,
    part=PartKind.MOTOR,
    drop_rule="drop limit for a motor",
    load=load,
    machine=machine,
    pulls_N=pulls_N,
    worked=worked,
    weighed=weighed,
    introduction=introduction,
    cautions=cautions,
    mounting=mounting,
    steps=steps,
    tuning_notes=tuning_notes,
    play_notes=played("shaker"),
    troubles=troubles,
    emergency=(
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "It will not stop: pull the plug, not a toy's wire.",
        "It hums and does not turn: pull the plug within seconds; the winding heats fast.",
    ),
    findings=findings,
    missing=missing,
)
