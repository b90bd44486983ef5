"""A blower or fan: moves air, at the player's face or through the cabinet."""

from typing import Annotated, Literal, cast

from guide_gen.formulas.blower import electronics_start_V
from guide_gen.formulas.choice import reaches
from guide_gen.formulas.motor import start_current_A
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.unbalance import rim_speed_m_s
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import Current, Resistance, Thickness, ToyFields, key
from guide_gen.model.fields import Section as Keys
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind, Missing, Weighed
from guide_gen.model.loads import load_of
from guide_gen.model.machine import MeasuredMotor, Turner
from guide_gen.model.plan import Load, Question, Section, Sized
from guide_gen.model.playing import notes_of
from guide_gen.model.winding import bounded_winding, motor_missing, motor_weighed
from guide_gen.published.vibration import motion_value
from guide_gen.values import show
from guide_gen.values.quantity import Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Worked, work

RUNNING_SPREAD = 0.15  # how far a fan's current may lie from its figure in another duct; this project, an estimate
STARTING_SPREAD = 0.5  # room for the start when the voltage is raised slowly; this project, an estimate
CHOPPED = ("pwm port", "speed controller")
FILLED_S = 0.01  # the capacitor of a fan's electronics is full after that; this project, an estimate
START_S = 0.5  # a small blower is up to speed after that; this project, an estimate
FAST_TIP_M_S = 15.0  # blades whose tips are faster cut deep; this project
RESERVE = motion_value("blower start reserve").value

FanSpeed = Annotated[Quantity, read_quantity("speed", "rpm", 1.0, 6000.0, example="3200 rpm", ranged=True)]


class FanMotor(Keys):
    """The motor of a brushed blower, by what was measured."""

    resistance: Resistance | None = key(
        "resistance of the winding, rotor held, mean of four positions", example="1.9 ohm (measured)"
    )
    speed: FanSpeed | None = key("speed at the toy's voltage, in its place", example="3200 rpm (measured)")


class BlowerFan(ToyFields):
    """A blower or fan."""

    kind: Literal["blower fan"] = key("what it is", example="blower fan", ask="choose one of the kinds")
    motor_type: Literal["brushed", "brushless"] = key(
        "brushed, or brushless (with its own electronics)",
        example="brushed",
        ask="look at the label or the data sheet: two leads and a motor that hums when turned by hand is brushed; "
        "a fan with electronics, or with three or four leads, is brushless",
    )
    form: Literal["blower", "fan"] = key(
        "blower: a wheel in a housing; fan: open blades",
        example="fan",
        default="blower",
        source="this project: taken as the one that cuts worse",
    )
    blade_diameter: Thickness | None = key("outer diameter of its blades or wheel", example="92 mm")
    rated_speed: FanSpeed | None = key("speed of its blades, as printed on it", example="2400 rpm (datasheet)")
    motor: FanMotor | None = key(
        "the motor by what was measured, where it is brushed",
        example="{resistance: 1.9 ohm (measured), speed: 3200 rpm (measured)}",
    )
    start_current: Current | None = key(
        "highest current at the moment of switching on, where it has electronics: their capacitor fills",
        example="6 A (datasheet)",
    )


def brushed(toy: ToyFields) -> bool:
    """Whether a meter sees its winding."""
    return cast(BlowerFan, toy).motor_type == "brushed"


def motor_of(toy: ToyFields) -> FanMotor:
    """The motor as described; of a fan with electronics a meter sees nothing."""
    return cast(BlowerFan, toy).motor or FanMotor() if brushed(toy) else FanMotor()


def load(toy: ToyFields) -> Load:
    """Held fast and at the moment of switching on only the winding bounds the current; else the electronics do."""
    known, inrush = motor_of(toy).resistance, cast(BlowerFan, toy).start_current
    if not brushed(toy) and inrush is not None:
        return load_of(toy, kickback=False, start_A=max(inrush.high, toy.current.high), start_s=FILLED_S)
    if known is None:
        return load_of(toy, kickback=brushed(toy))
    return load_of(
        toy,
        kickback=True,
        resistance_ohm=(known.low, known.high),
        start_A=start_current_A(voltage_V=toy.voltage.high, resistance_ohm=known.low),
        start_s=START_S,
    )


def turner(toy: ToyFields) -> Turner:
    """The motor and its fan: a part of its load is friction, the air asks for the rest."""
    motor = motor_of(toy)
    measured = MeasuredMotor(
        voltage_V=toy.voltage.middle,
        current=toy.current,
        resistance=motor.resistance,
        speed=motor.speed,
        friction_share=Spread.usual("friction share of the loss"),
        reserve=RESERVE,
    ) if motor.resistance else None  # fmt: skip
    return Turner(measured, None, electronics=not brushed(toy), wanted=wanted(toy))


def wanted(toy: ToyFields) -> str:
    """The first of what is missing, in the order in which it helps."""
    motor = motor_of(toy)
    if not brushed(toy):
        return ""
    if motor.resistance is None:
        return (
            "the winding's resistance: hold the rotor, feed 1 to 2 V for a second, and divide volts by amperes at four "
            "positions, with a multimeter (motor: resistance)"
        )
    if motor.speed is None:
        return (
            "the speed at full voltage: an optical tachometer, or the strongest tone in a phone's sound spectrum "
            "divided by the number of blades (motor: speed)"
        )
    return ""


PEAK_METER = "a clamp meter for direct current that holds the highest value"


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """What bounds its start: its winding, or its own electronics."""
    if brushed(toy):
        return motor_missing(motor_of(toy).resistance)
    if cast(BlowerFan, toy).start_current is not None:
        return ()
    return (
        Missing(
            "start_current: ..",
            "the current at its start, when the capacitor of its electronics fills, and what supply and switch do then",
            f"Look for the inrush current in its data sheet, or read it on {PEAK_METER}; write it as start_current.",
        ),
    )


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """Winding, speed or inrush that were stated."""
    motor, inrush = motor_of(toy), cast(BlowerFan, toy).start_current
    if not brushed(toy) and inrush is not None:
        return (Weighed("the start_current", inrush, ("start_current",), PEAK_METER),)
    tone = "an optical tachometer, or the tone in a phone's sound spectrum divided by the number of blades"
    return motor_weighed(motor.resistance, motor.speed, tone)


def worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """How fast its tips are; when a fan's own electronics begin to turn it: only of use on a steady voltage."""
    if brushed(toy):
        return tip_worked(toy)
    return (
        *tip_worked(toy),
        work(
            electronics_start_V,
            "blower.electronics",
            "Voltage at which a fan's electronics begin to turn it",
            sentence="On a steady voltage only. PWM on the supply of such a fan kills it.",
            voltage_V=toy.voltage.middle,
        ),
    )


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    return Introduction(
        sentence="A blower that moves air: a gust at the player, or wind for an effect.",
        meant_for="Bursts of air during play, into the open.",
        not_for="Not for cooling a supply or a board: a game switches it off. Not for use without guards on both "
        "sides.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection"),
    )


def tip_worked(toy: ToyFields) -> tuple[Worked, ...]:
    """How fast the tips of its blades are; nothing where size or speed are not described."""
    blower, measured = cast(BlowerFan, toy), motor_of(toy).speed
    speeds = [one.high for one in (measured, blower.rated_speed) if one is not None]
    if blower.blade_diameter is None or not speeds:
        return ()
    radius_m = blower.blade_diameter.high / 2
    return (work(rim_speed_m_s, "blower.tip", "Speed of the blades' tips", radius_m=radius_m, speed_rad_s=max(speeds)),)


def blades(toy: ToyFields) -> Caution:
    """Blades that cut; slow open ones less."""
    tip = next((float(one.result) for one in tip_worked(toy)), None)
    slow = cast(BlowerFan, toy).form == "fan" and tip is not None and reaches(FAST_TIP_M_S, tip)
    return Caution(
        "blades",
        Word.CAUTION if slow else Word.WARNING,
        "Turning blades catch fingers, hair and cables.",
        "They cut and break.",
        ("Guard both sides before power.", "Tie hair and cables back.", "Plug out before a guard comes off."),
        f"Their tips move at up to {show.with_unit(show.figure(tip), 'm/s')}." if tip is not None else "",
        grouped=True,
        before=("blower.bench.current", "blower.first.run", "blower.tune.turns"),
    )


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a blower."""
    found = [
        blades(toy),
        Caution(
            "blocked",
            Word.CAUTION,
            "A blocked outlet or a stuck rotor overheats the motor.",
            "The winding smokes; the fuse protects the wire, not the motor.",
            ("Keep inlet and outlet free.", "Pull the plug when it hums and does not turn."),
            before=("blower.bench.current", "blower.first.run", "blower.tune.turns"),
        ),
        Caution(
            "ingest",
            Word.NOTICE,
            "Wood dust and loose cables are drawn in.",
            "The blower jams and heats.",
            ("Vacuum the cabinet.", "Tie cables; fit a filter where there is dust."),
            before=("blower.mount.inlet",),
        ),
        Caution(
            "no-air",
            Word.NOTICE,
            "The game switches this blower off.",
            "What it was meant to cool overheats.",
            ("Never use it as the cooling of a supply or a board.",),
            before=("blower.mount.place",),
        ),
    ]
    if not brushed(toy) and sized.control in CHOPPED:
        found.append(
            Caution(
                "chop",
                Word.NOTICE,
                "PWM chops the supply of the fan's own electronics.",
                "The fan stutters and dies.",
                ("Use an on/off port, or the fan's own control lead.",),
                before=("wire",),
            )
        )
    return tuple(found)


def mounting(toy: ToyFields, sized: Sized) -> Section:
    """Where, which way round and why."""
    place = f"This build has it in the {toy.mount.place}." if toy.mount.place else ""
    return Section(
        (place,) if place else (),
        (
            Advice(
                "The outlet points at the player, past glass and rails.", "Air that meets an edge turns into noise."
            ),
            Advice(
                "Inlet and outlet free by at least the width of the outlet.",
                "A blocked blower heats and gives no wind.",
            ),
            Advice("Guards on both sides, fixed with screws.", "A hand finds the inlet from behind."),
            Advice(
                "Through-bolts, wide washers and locking nuts, soft washers under the feet.",
                "It does not shake loose and does not hum through the wood.",
            ),
            Advice("Not in line with wood dust or loose cables.", "Whatever is loose is drawn in."),
        ),
    )


def running_reading(sized: Sized) -> Reading:
    """Current while it runs in its place."""
    low = (1 - RUNNING_SPREAD) * sized.load.lowest_current_A
    high = (1 + RUNNING_SPREAD) * sized.load.design_current_A
    return Reading(
        "Running current",
        f"in the feed of {sized.ids['load']}",
        low,
        high,
        "A",
        "Above: blocked, stiff or the wrong voltage. Below: a loose joint. Plug out and look.",
        "the bench supply's meter, or a clamp meter for DC round the feed wire",
    )


def dead_step(toy: ToyFields, sized: Sized) -> Step:
    """What a meter shows across a winding, or across the fan's own electronics."""
    held = sized.ids["load"]
    if brushed(toy):
        return Step(
            "blower.dead.winding",
            "dead-checks",
            f"Measure {held}:1 to {held}:2 with one lead of the motor off.",
            "Resistance of the winding",
            record=bounded_winding(toy, held),
        )
    return Step(
        "blower.dead.leads",
        "dead-checks",
        f"The fan's plus lead is on {held}:1 and its minus lead on {held}:2.",
        "Plus and minus of the fan",
        killer=True,
        more="A fan with electronics can die at once when they are swapped. A meter tells nothing across it.",
    )


def first_steps(dial: Dial | None) -> tuple[Step, ...]:
    """The first run, where it can only be at full strength; with a dial it is tuned from the lowest end upward."""
    if dial is not None:
        return ()
    return (
        Step(
            "blower.first.run",
            "first-power",
            "Run it for three seconds. It turns at once, without a smell.",
            "Three seconds",
        ),
    )


def tune_steps(toy: ToyFields, dial: Dial | None) -> tuple[Step, ...]:
    """Full strength first for a fan; a dial lowers it."""
    if dial is None:
        return (
            Step(
                "blower.tune.aim",
                "tune",
                "Plug out. Turn the outlet until the air meets the player, not the glass.",
                "Aim the air",
                more="On and off is all this control can do: distance and direction set the strength.",
            ),
            Step("blower.tune.quiet", "tune", "Run it for a minute: no rattle, no rubbing.", "A minute without rattle"),
        )
    return (
        Step(
            "blower.tune.lowest",
            "tune",
            f"{dial.to_lowest} Power on from outside. It stays still.",
            "Lowest setting",
            killer=True,
        ),
        Step(
            "blower.tune.turns",
            "tune",
            f"{dial.smallest_step} Go on until the fan just starts to turn. Write the setting down.",
            "Where it turns",
            record=dial.start_reading("Setting at which it starts"),
        ),
        Step(
            "blower.tune.left",
            "tune",
            "Go on by small steps until the gust is felt and the noise does not disturb. "
            "Write the as-left setting down.",
            "As-left setting",
            record=dial.reading("Setting as left"),
            killer=True,
        ),
        Step("blower.tune.repeat", "tune", "Switch it off and on five times. It starts every time.", "Five starts"),
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a blower."""
    limit = (1 + STARTING_SPREAD) * sized.load.design_current_A
    return (
        Step(
            "blower.mount.place",
            "mount",
            "Hold the blower in its place and point its outlet at the player.",
            "Find its place",
        ),
        Step(
            "blower.mount.inlet",
            "mount",
            "Look that inlet and outlet are free by at least the width of the outlet.",
            "Inlet and outlet free",
        ),
        Step("blower.mount.mark", "mount", "Mark the holes through its feet.", "Mark the holes"),
        *bolt_steps("blower", sized.mounting, sized.units),
        Step(
            "blower.mount.guard", "mount", "Fit guards on both sides, with screws.", "Guards on both sides", killer=True
        ),
        Step(
            "blower.mount.turn",
            "mount",
            "Turn the rotor by hand with a stick: it turns freely and touches nothing.",
            "Turn the rotor",
        ),
        dead_step(toy, sized),
        Step("blower.dead.guards", "dead-checks", "The guards are on, both sides.", "Guards on", killer=True),
        Step(
            "blower.bench.current",
            "bench",
            f"Guards on. Feed the blower alone, its fuse out: current limit {show.amps(limit)}, voltage from 0 V up to "
            f"{show.volts(sized.load.voltage_V)}. Read the current once it runs.",
            "Bench supply from 0 V",
            record=running_reading(sized),
        ),
        *first_steps(dial),
        *tune_steps(toy, dial),
        Step(
            "blower.play.gust",
            "play",
            "Play three games. The gust comes when it should, and stops.",
            "Play three games",
        ),
        Step("blower.play.quiet", "play", "Listen with the door shut: nothing rattles or hums.", "Nothing rattles"),
        Step(
            "blower.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: nuts tight, guards tight, no "
            "dust "
            "at the inlet, nothing too hot to hold.",
            "Look after 1 h and 10 h",
        ),
        Step(
            "blower.yearly.clean",
            "yearly",
            "Brush blades and inlet clean. Look at the cable where it bends, and at "
            "the "
            "fuse: the same rating as before.",
            "Clean it",
        ),
    )


def tuning_notes(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[str, ...]:
    """What to know before tuning."""
    slower = () if brushed(toy) else electronics_notes(toy)
    if dial is None:
        return ("There is no setting: on is full strength. What can be tuned is where the air goes.", *slower)
    return ("Begin at the lowest end and go up. A fan needs more to start than to keep turning.", *slower)


def electronics_notes(toy: ToyFields) -> tuple[str, ...]:
    """How a fan with electronics may be made slower: never by PWM on its supply."""
    starts, lead = motion_value("fan electronics start share"), motion_value("control lead minimum share")
    kick = motion_value("blower kick time").value
    assert starts.low is not None
    assert starts.high is not None
    assert lead.low is not None
    volts = toy.voltage.middle
    return (
        "To make it slower: never by PWM on its supply. With four leads, the control lead takes PWM of 25 kHz: not "
        f"below {show.percent(lead.low)} to {show.percent(lead.value)}, and {kick:g} s at 100 % to start.",
        f"With two or three leads it takes a steady lower voltage, from a regulator or from PWM of 20 kHz or more "
        f"behind a filter: it begins at about {show.volts(starts.value * volts)} "
        f"({show.span(starts.low * volts, starts.high * volts, 'V')}, an estimate).",
    )


def play_notes(toy: ToyFields, sized: Sized) -> tuple[str, ...]:
    """What to know before playing."""
    return notes_of(
        toy,
        "The game drives the real blower.",
        "The game plays a sampled sound; the blower stays off.",
        "The game drives the blower and plays a sampled sound as well.",
    )


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a blower."""
    running = running_reading(sized)
    held, fuse = sized.ids["load"], sized.ids.get("fuse", "The fuse")
    return (
        Trouble(
            "Hums and does not turn",
            "rotor stuck, or voltage too low",
            "turn the rotor with a stick, plug out",
            "turns freely",
        ),
        Trouble(
            "Little air",
            "blocked, dirty, or turning the wrong way",
            f"polarity at {held}:1 and {held}:2",
            f"plus at {held}:1",
        ),
        Trouble(
            f"{fuse} opens",
            "rotor stuck, a pinched wire, or a fuse of the wrong rating",
            running.between,
            show.span(running.low, running.high, "A"),
        ),
        Trouble(
            "Stutters",
            "PWM on a fan with electronics, or a loose joint",
            "how the port is set up",
            "on/off" if sized.control not in CHOPPED else "steady at full strength",
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A fan with electronics must not be chopped; what was measured must belong together."""
    if brushed(toy):
        return contradicted(toy, sized, path)
    if sized.control not in CHOPPED:
        return ()
    return (
        Finding(
            "fan-chopped",
            Level.MUST,
            f"{sized.name} has its own electronics, and its supply is chopped by PWM: it stutters and dies.",
            "an on/off port, or always on",
            "Put it on an on/off port, or use the fan's own control lead.",
            (*path, "control", "type"),
            sized.slug,
        ),
    )


def questions(toy: ToyFields, sized: Sized) -> tuple[Question, ...]:
    """Why a fan with electronics of its own is not chopped; what this build's control does to it."""
    if brushed(toy):
        return ()
    full = show.volts(sized.load.voltage_V)
    here = (
        f"Here {sized.control} chops them: see the findings."
        if sized.control in CHOPPED
        else f"Here the control, {sized.control}, gives {full} or nothing: that is right."
    )
    return (
        Question(
            "fan-electronics",
            "Why does a fan stutter under PWM?",
            f"It has electronics of its own, and they want {full} all the time: chopped, they start anew at each "
            f"pulse and die of it. Its speed is set by its own control lead, if it has one. {here}",
            "circuit",
        ),
    )


def contradicted(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A winding that would let no such current flow."""
    known = motor_of(toy).resistance
    if known is None or known.high * toy.current.high < toy.voltage.middle:
        return ()
    return (
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"What {sized.name} moves is not worked out: with this resistance it could not draw "
            f"{show.amps(toy.current.high)} while it turns.",
            "a resistance below voltage divided by current",
            "Measure the winding again, rotor held: voltage and current together at 1 to 2 V.",
            (*path, "motor", "resistance"),
            sized.slug,
        ),
    )


KIND = Kind(
    word="blower fan",
    title="Blower fan",
    slug="blower",
    fields=BlowerFan,
    part=PartKind.FAN,
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
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "Something is caught in the blades: pull the plug, wait until they stand still, then free it.",
        "It hums and does not turn: pull the plug within seconds; the winding heats fast.",
    ),
    findings=findings,
    questions=questions,
    weighed=weighed,
    worked=worked,
    turner=turner,
    missing=missing,
)
