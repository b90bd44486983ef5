"""Questions that readers bring, answered with this build's own values; only those that concern the toy."""

from collections.abc import Iterator
from dataclasses import dataclass

from guide_gen.description.build import Build
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import PartKind, Wire
from guide_gen.model.fields import ToyFields
from guide_gen.model.kind import Control, Kind
from guide_gen.model.loads import asked_words
from guide_gen.model.plan import Motion, Protection, Question, Sized
from guide_gen.planning import suppression
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.freewheel import LIMIT_DEGC
from guide_gen.planning.fuses import next_above
from guide_gen.planning.held import fuse_held
from guide_gen.planning.loops import Loop, lead_ohm
from guide_gen.planning.motion_words import between
from guide_gen.planning.protection import ADJUSTED, seconds
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show

AUDIBLE_Hz = (20.0, 20e3)  # what people hear; common practice, no source
TOO_HIGH = 1.15  # times its rated voltage is the most that a toy may get; this project
RESETS_AT = 2.0  # a resettable fuse trips near that many times what it holds; common practice, no source


@dataclass(frozen=True)
class Asked:
    """All that an answer may draw on."""

    build: Build
    toy: ToyFields
    sized: Sized
    loop: Loop
    cabling: Cabling
    protection: Protection
    chopped: bool
    kind: Kind
    control: Control
    kick: suppression.Kick
    motion: Motion | None

    @property
    def load(self) -> str:
        """The toy's designator."""
        return self.sized.ids["load"]

    @property
    def fuse(self) -> str:
        """The fuse's designator, or what stands in its place."""
        return self.sized.fuse.id if self.sized.fuse.rating_A is not None else "the missing fuse"

    def wire(self, role: str) -> Wire | None:
        """The first wire of a role."""
        return next((wire for wire in self.sized.circuit.wires if wire.role == role), None)

    @property
    def pwm_Hz(self) -> float | None:
        """What chops the toy's voltage, if anything does."""
        controller = getattr(self.toy.control, "controller", None)
        if controller is not None:
            return float(controller.pwm_frequency.middle)
        return self.sized.port.pwm_frequency_Hz if self.sized.port and self.chopped else None


def questions(asked: Asked) -> tuple[Question, ...]:
    """Those that concern this toy, in the order in which they come up."""
    return (
        *about_fuse(asked),
        *about_wire(asked),
        *about_suppressor(asked),
        *about_return(asked),
        *about_starting(asked),
        *about_strength(asked),
        *asked.kind.questions(asked.toy, asked.sized),
        *asked.control.questions(asked.toy.control, asked.sized),
        *about_hands(asked),
    )


def about_fuse(asked: Asked) -> Iterator[Question]:
    """Which, where, for what voltage, and what it protects."""
    sized, fuse, found = asked.sized, asked.sized.fuse, asked.protection
    if fuse.rating_A is None:
        return
    rated = show.amps(fuse.rating_A)
    port = (
        f"; port {sized.port.number} may switch {show.amps(sized.port.rated_A)}"
        if sized.port and not sized.port.signal
        else ""
    )
    yield Question(
        "fuse-size",
        f"Why {rated}, and not another fuse?",
        f"{asked.load} needs {show.amps(fuse.needed_A)} ({governs(fuse.governed_by)}). "
        f"{sized.wire.size.shown} behind it may carry {show.amps(sized.wire.ampacity_A)} here{port}. "
        f"A smaller fuse opens in play; a larger one {larger_words(sized)}.",
        "w-fuse.rating",
    )
    yield Question("fuse-motor", f"Does {fuse.id} protect {asked.load}?", stall_words(asked), "protects")
    yield Question(
        "fuse-blows-not",
        "Why might a fuse not open in a short circuit?",
        not_open_words(found),
        "protects",
    )
    lead = asked.wire("supply lead")
    block = sized.ids.get("block")
    if block:
        before = sized.ids.get("block fuse", "no fuse of its own")
        yield Question(
            "fuse-place",
            "Why a fuse at the block, and another one at the supply?",
            f"{fuse.id} sits at {block} and protects the wires from there to {asked.load}. The lead to {block} carries "
            f"more than those wires stand: {before} at {sized.supply_id} protects it. A fault behind {fuse.id} is to "
            f"stop {asked.load} alone, one before it stops all toys on {block}.",
            "circuit",
        )
    elif lead is not None:
        yield Question(
            "fuse-place",
            "Why in plus, and how close to the supply?",
            f"{fuse.id} is the first thing behind {sized.supply_id}:+. A fuse in the 0 V side is bypassed by any fault "
            f"from plus to metal. The lead {lead.id} before it, {show.metres(lead.length_m, sized.units)}, has no "
            "fuse: "
            f"up to {show.metres(rule('lead before the fuse').value, sized.units)} is usual.",
            "circuit",
        )
    yield Question("fuse-voltage", "May any fuse of that rating stand there?", voltage_words(asked), "needed")


def governs(word: str) -> str:
    """The rule that governs the fuse, in words."""
    return {
        "margin": "the usual margin over what it draws",
        "continuous": "a fuse in warm air must not be loaded fully for long",
        "pulse": "the pulses of a lifetime must not tire it",
        "stated": "the rating is stated in the description, and checked",
    }.get(word, word)


MACHINES, COILS = (
    (PartKind.MOTOR, PartKind.FAN),
    (PartKind.SOLENOID, PartKind.CONTACTOR, PartKind.BELL),
)


def stall_words(asked: Asked) -> str:
    """What the fuse does for the toy itself: nothing much."""
    found, load = asked.protection, asked.load
    sort = asked.sized.circuit.part(load).what
    lead = "It protects the wires."
    if found.never_A is None:
        return f"{lead} Pull the plug when {load} hums, heats or smells."
    draws = show.amps(asked.sized.load.design_current_A)
    if sort in COILS and not asked.sized.load.momentary:
        return (
            f"{lead} {load} draws {draws} for as long as it is held, which its coil is made for; {asked.fuse} carries "
            f"up to {show.amps(found.never_A)} for ever. A coil that is blocked or shorted inside gets hot before the "
            "fuse opens: pull the plug when it smells or does not pull in."
        )
    if sort in COILS:
        return (
            f"{lead} A coil that stays on draws the same {draws} as in a pulse, and {asked.fuse} carries up to "
            f"{show.amps(found.never_A)} for ever: only a time limit saves a coil that is made for pulses."
        )
    if sort not in MACHINES:
        return f"{lead} {load} draws {draws}; a short circuit in it or on the way opens {asked.fuse}."
    if found.start_A is None:
        return (
            f"{lead} {load} held fast draws more than in use, how much is not known here; up to "
            f"{show.amps(found.never_A)} the fuse never opens. Measure the winding's resistance; pull the plug when it "
            "hums and does not move."
        )
    asks = asked_words(found.start_A, found.supply_id, found.limit_A, found.limit_high_A)
    held = f"{lead} {load} held fast at full strength asks for up to {asks}"
    does, opened = fuse_held(found)
    if does == "never opens":
        return f"{held}, and the fuse carries {show.amps(found.never_A)} for ever: pull the plug when it hums."
    if does != "opens" or opened is None:
        return (
            f"{held}: the fuse may open, but need not{sure_words(found)}. Pull the plug when it hums and does not move."
        )
    lower = " At a low setting it may never open." if asked.sized.control in ADJUSTED else ""
    return f"{held}; the fuse has opened within {seconds(opened)}.{lower} Pull the plug when it hums and does not move."


def sure_words(found: Protection) -> str:
    """Why a fuse may stay whole while a motor is held fast: the least that flows then, against what opens it."""
    if found.held_A is None or found.sure_A is None:
        return ""
    least_A = min(found.held_A[0], found.limit_A)
    if reaches(least_A, found.sure_A):
        return ""
    return (
        f"; as little as {show.amps(least_A)} may flow, and it is sure to open only from {show.amps(found.sure_A)} on"
    )


def not_open_words(found: Protection) -> str:
    """The supply's limit against what the fuse needs."""
    if found.never_A is None or found.sure_A is None:
        return "Its opening times are not in the tables: see its data sheet."
    can = (
        f"{found.supply_id} gives {show.amps(found.limit_A)} at most"
        if reaches(found.fault_A, found.limit_A)
        else f"the wires let {show.amps(found.fault_A)} flow"
    )
    answer = {
        "fuse": f"enough: it opens within {seconds(found.opened_s or 0)}",
        "supply": "too little to be sure of it: the supply stops first",
        "wire": "too little to be sure of it, and little enough for the wire",
        "nothing": "too little to be sure of it in time",
    }[found.by]
    return (
        "Because too little current flows: the supply limits it, or a long thin wire does. "
        f"{found.fuse_id} is sure to open from {show.amps(found.sure_A)} on; here {can}: {answer}."
    )


def voltage_words(asked: Asked) -> str:
    """Series and DC rating."""
    fuse = asked.sized.fuse
    highest = show.volts(asked.sized.supply_high_V)
    made = (
        f"This one is made for {show.volts(fuse.voltage_V)} DC"
        if fuse.voltage_V
        else "On this series only an AC voltage is printed: ask for the DC one"
    )
    return (
        f"Only {fuse.series} fuses fit the holder. A DC arc does not go out by itself, so the fuse's DC voltage must "
        "be at "
        f"least the {highest} that the supply can reach, and its breaking capacity above the "
        f"{show.amps(asked.sized.supply_limit_A)} that it can give{limit_basis(asked)}. {made}."
    )


def limit_basis(asked: Asked) -> str:
    """Why one supply has two limits, where its data sheet does not say one."""
    if asked.build.supplies[asked.sized.supply_slug].current_limit is not None:
        return ""
    rated, sure, most = asked.sized.supply_rated_A, asked.protection.limit_A, asked.sized.supply_limit_A
    return (
        f". Its data sheet does not say here: {show.figure(most / rated)} times its {show.amps(rated)} is taken for "
        f"what must be carried, but only {show.figure(sure / rated)} times, {show.amps(sure)}, for opening a fuse"
    )


def larger_words(sized: Sized) -> str:
    """What a fuse of the next rating would do: harm the wire, or only let more pass than the toy ever needs."""
    larger_A = next_above(tables.fuse_series(sized.fuse.series), sized.fuse.rating_A or 0.0)
    if reaches(sized.wire.ampacity_A, larger_A):
        return "lets a faulty toy draw more before it opens, and nothing needs it"
    return "lets the wire burn"


def about_wire(asked: Asked) -> Iterator[Question]:
    """Basis of the ampacity, drop, ends."""
    cabling, wire, units = asked.cabling, asked.sized.wire, asked.sized.units
    yield Question(
        "wire-basis",
        "Other tables give this wire another current. Which is right?",
        f"Each for its own case. Here: {cabling.family.name}, insulation of "
        f"{show.celsius(cabling.column_degC, units)}, "
        f"air of {show.celsius(cabling.ambient_degC, units)}, {cabling.bundled} "
        f"circuit{'s' if cabling.bundled != 1 else ''} tied together: "
        f"{show.amps(cabling.table_A(wire.size))} in the table, {show.amps(wire.ampacity_A)} here. "
        "Values for a single wire in free air are higher, those for nearly cold bundles lower.",
        "w-wire.ampacity",
    )
    yield Question(
        "drop",
        "How much voltage is lost on the way?",
        f"{show.volts(wire.drop_V)} of {show.volts(asked.sized.supply_V)}, {wire.drop_percent:.1f} %, at full "
        "strength; "
        f"{show.percent(asked.loop.limit_share)} is allowed.",
        "w-drop.volts",
    )
    yield Question(
        "ends",
        "Solder the ends for screw terminals?",
        "No. Solder creeps under pressure and the screw comes loose; the wire breaks where the solder ends. "
        f"Crimp a ferrule for {wire.size.shown} on every end.",
        "wiring",
    )


def about_suppressor(asked: Asked) -> Iterator[Question]:
    """The diode under PWM, the body diode, release."""
    sized, plan = asked.sized, asked.sized.suppression
    diode = sized.ids.get("diode")
    if diode and plan.mean_A is not None and plan.heat_W is not None:
        part = f" ({plan.part})" if plan.part != "diode" else ""
        hot = (
            f"; its junction reaches up to {show.celsius(plan.junction_degC[1], sized.units)} (estimate), "
            f"{show.celsius(LIMIT_DEGC, sized.units)} is its limit"
            if plan.junction_degC
            else ""
        )
        yield Question(
            "diode-pwm",
            f"{diode} with PWM: is that right?",
            f"Yes: across {asked.load}, band to plus{part}. It carries the current whenever the switch is off, on "
            f"average up to {show.amps(plan.mean_A)}, which heats it with up to {show.watts(plan.heat_W)}{hot}. "
            "It must be a fast or Schottky diode.",
            "w-suppressor.heat",
        )
    switch = next((part.id for part in sized.circuit.of(PartKind.SWITCH)), "")
    if diode and switch and sized.port and not sized.port.signal:
        yield Question(
            "body-diode",
            f"{switch} has a diode inside. Is that not enough?",
            f"No: it lies across {switch}, not across {asked.load}. Without {diode} the voltage at the port rises "
            "until "
            f"{switch} breaks through; with it, to {show.volts(sized.supply_high_V + plan.drop_high_V)} at most.",
            "circuit",
        )
    if not asked.chopped:
        yield from about_release(asked)


def about_release(asked: Asked) -> Iterator[Question]:
    """How fast a coil lets go, with a plain diode and with a zener in series."""
    plan, kick, load = asked.sized.suppression, asked.kick, asked.load
    plain = kick.release(suppression.SLOWEST_DROP_V["standard"])
    if plain is None or kick.release_A is None or plan.release_s is None:
        return
    if plan.type == "diode and zener" and plan.zener_V is not None and plan.peak_V is not None:
        yield Question(
            "release",
            "Would a plain diode do?",
            f"It would, more slowly. With {show.volts(plan.zener_V)} of zener {load} lets go within "
            f"{seconds(plan.release_s)}; with a diode alone within {seconds(float(plain.result))}. The price: the "
            f"switch sees {show.volts(plan.peak_V)} at each switch-off.{other_ways(asked)}",
            "circuit",
        )
    if plan.type != "diode":
        return
    pair, _ = suppression.diode_and_zener(None, kick)
    quick = (
        f"A zener of {show.volts(pair.zener_V)} in series makes that {seconds(pair.release_s)}; the switch then sees "
        f"{show.volts(pair.peak_V)} and must stand it."
        if pair.zener_V is not None and pair.release_s is not None and pair.peak_V is not None
        else f"A zener in series would be faster, but this port stands only {show.volts(kick.allowed_V or 0.0)}."
    )
    yield Question(
        "release",
        "Why does it let go slowly?",
        f"With a plain diode its current needs {seconds(plan.release_s)} to fall to the {show.amps(kick.release_A)} at "
        f"which it lets go. {quick}{other_ways(asked)}",
        "circuit",
    )


def other_ways(asked: Asked) -> str:
    """The same coil with resistor and capacitor, and with nothing; what is not known is left out."""
    kick, port = asked.kick, asked.build.boards.get(asked.sized.port.board) if asked.sized.port else None
    plan, _ = suppression.rc(None, kick)
    told = ""
    if plan.peak_V is not None and plan.release_s is not None:
        told = f" {plan.part} would let go within {seconds(plan.release_s)} at {show.volts(plan.peak_V)}."
    elif kick.coil is not None and suppression.rc_allowed_V(kick) > 2 * kick.highest_V:
        told = f" An RC is no way: {suppression.unsold_words(kick)}."
    if port is not None and kick.at == "port":
        bare_V = port.port_voltage.low
        bare = kick.release(bare_V - kick.highest_V) if bare_V > kick.highest_V else None
        if bare is not None:
            told += (
                f" With nothing it would let go within {seconds(float(bare.result))}, but only because the voltage "
                f"rises above the {show.volts(bare_V)} that the port stands, at every switch-off."
            )
    return told


def about_return(asked: Asked) -> Iterator[Question]:
    """Common 0 V, the computer, a floating port."""
    sized = asked.sized
    back = asked.wire("board return")
    if sized.port is None or back is None:
        return
    if sized.port.signal:
        yield Question(
            "common-zero",
            "Which 0 V belong together?",
            f"{back.id} carries only the {show.amps(sized.port.load_A)} of port {sized.port.number}; {asked.load}'s "
            f"{show.amps(sized.load.design_current_A)} go straight back to {sized.supply_id}:0V, not through the "
            "board.",
            "circuit",
        )
    else:
        yield Question(
            "common-zero",
            "May supply and board share one 0 V?",
            f"They must: the port switches to 0 V. They meet at one point, {back.end}, by {back.id}. "
            f"{asked.load}'s {show.amps(sized.load.design_current_A)} go back that way and never through the "
            "computer's "
            "USB lead.",
            "circuit",
        )
    if sized.load.kickback:
        yield computer_question(asked, back)
    what = "at that gate" if not sized.port.signal else "at that gate, or as the board's maker advises"
    yield Question(
        "power-up",
        f"{asked.load} comes on at power-up. Why?",
        f"A port without orders may float until the software sets it. With all toys' fuses out, switch on and off "
        f"three times: port {sized.port.number} must stay off. If not, the board needs a pull-down {what}; or "
        f"{asked.fuse} stays out until the software runs.",
        "checks",
    )


def computer_question(asked: Asked, back: Wire) -> Question:
    """What a toy's return does to the 0 V that the computer shares. back: the board's 0 V lead."""
    sized = asked.sized
    assert sized.port is not None
    run = next((run for run in asked.loop.runs if run.name == back.id and run.size is not None), None)
    if run is not None:
        lifted_V = sized.load.design_current_A * lead_ohm(asked.cabling, run, sized.load.design_current_A)
        why = (
            f"{show.amps(sized.load.design_current_A)} through {back.id} lift the board's 0 V, and with it the "
            f"computer's, by {show.volts(lifted_V)}; the switch-off itself is heard by every wire near it."
        )
    else:
        why = (
            f"Not from its current: {back.id} carries only {show.amps(sized.port.load_A)} for it. Its switching is "
            "heard by every wire near it."
        )
    diode = sized.ids.get("diode")
    at_toy = f"{diode} sits at the toy" if diode else "a suppressor sits at the toy"
    return Question(
        "computer",
        f"The computer or USB drops out when {asked.load} stops. Why?",
        f"{why} Look that {at_toy}, twist supply and return, keep the USB lead away from them, or isolate it.",
        "wrong",
    )


def about_starting(asked: Asked) -> Iterator[Question]:
    """Sag, a supply that clicks, whine."""
    sized, found = asked.sized, asked.protection
    shared_ohm = asked.loop.shared_ohm(asked.cabling, sized.load.design_current_A)
    ohm = asked.loop.wire_ohm(asked.cabling, sized.wire.size) + asked.loop.other_ohm(sized.fuse.resistance_ohm)
    if found.start_A is not None:
        drawn = min(found.start_A, found.limit_A)
        shared = (
            f" Of that, {show.volts(drawn * shared_ohm)} are lost on leads that other toys and the board share."
            if shared_ohm
            else ""
        )
        yield Question(
            "sag",
            f"What happens to the voltage when {asked.load} starts?",
            f"For a moment it draws up to {show.amps(drawn)}, and up to {show.volts(min(drawn * ohm, sized.supply_V))} "
            f"are lost on the way.{shared}{collapse_words(asked)} "
            "If a board resets then: a lead of its own, 100 nF at the toy, supply and return twisted.",
            "wrong",
        )
        yield Question("supply-start", "The supply clicks or dies at a start. Why?", start_words(asked), "protects")
    elif sized.circuit.part(asked.load).what in MACHINES:
        yield Question(
            "sag",
            f"What happens to the voltage when {asked.load} starts?",
            f"What it draws then is not described. Each 10 A of it lose {show.volts(10 * ohm)} on the way, of which "
            f"{show.volts(10 * shared_ohm)} on leads that other toys and the board share. If a board resets then: a "
            "lead of its own, 100 nF at the toy, supply and return twisted.",
            "wrong",
        )
    if found.start_A is None:
        yield Question("supply-start", "The supply clicks or dies at a start. Why?", measure_words(asked), "protects")
    if frequency := asked.pwm_Hz:
        low, high = AUDIBLE_Hz
        heard = low <= frequency <= high
        yield Question(
            "whine",
            "Why does it whine?",
            whine_words(frequency, heard) + switch_words(asked),
            "tuning",
        )


def about_strength(asked: Asked) -> Iterator[Question]:
    """A low setting, a higher supply, braking: what a motor does on a control that lowers its voltage."""
    sized, motion = asked.sized, asked.motion
    if sized.control not in ADJUSTED or sized.circuit.part(asked.load).what not in MACHINES:
        return
    if motion is not None:
        yield Question(
            "low-start",
            "Why does it not start at a low setting?",
            f"At rest the weight has to be lifted over the top; turning, it carries itself over. It turns over "
            f"{between(*motion.start)}; once it turns it keeps turning down to {between(*motion.sustain)}"
            f". {motion.kick}".strip(),
            "tuning",
        )
    twice, rated = show.volts(2 * sized.load.voltage_V), show.volts(sized.load.voltage_V)
    pull = "four times the pull" if asked.kind.machine(asked.toy) is not None else "twice the speed"
    yield Question(
        "higher-supply",
        f"A supply of {twice} and half the setting?",
        f"No. The average would fit, but a switch that fails gives {asked.load} the whole {twice}: {pull}. Where the "
        f"current comes in bursts its winding also heats up to twice as much. Take a supply of {rated}.",
        "circuit",
    )
    highest, bound = show.volts(sized.supply_high_V), show.volts(TOO_HIGH * sized.load.voltage_V)
    yield Question(
        "braking",
        "Does it push the voltage up when it stops?",
        f"It can: this controller's output reverses, and a braking motor returns energy that most supplies cannot "
        f"take. Measure at {sized.supply_id} while it stops from full strength: above {bound} fit a clamp or a brake "
        "resistor."
        if asked.control.reverses(asked.toy.control)
        else f"No: one switch with a diode cannot brake, so the rail stays at {highest} at most. A controller that "
        "reverses can: it needs a clamp or a brake resistor.",
        "circuit",
    )


def collapse_words(asked: Asked) -> str:
    """What is left of the supply's own voltage where its limit bounds the start; "" where it does not."""
    found, sized = asked.protection, asked.sized
    if found.start_A is None or reaches(found.limit_A, found.start_A):
        return ""
    left = show.volts(sized.supply_high_V * found.limit_A / found.start_A)
    overload = asked.build.supplies[sized.supply_slug].overload
    off = ", or it switches off" if overload in ("restarts", "switches off", "not known") else ""
    return (
        f" At full strength the start is bounded by {found.supply_id}: its own voltage falls to about {left} for every "
        f"toy and board on it{off}."
    )


def measure_words(asked: Asked) -> str:
    """What to measure where the start is not known."""
    limit = show.amps(asked.protection.limit_A)
    if not asked.sized.load.kickback:
        return (
            f"The start of {asked.load} is not known: electronics inside set it. Read it on a clamp meter for direct "
            f"current that holds the highest value: above {limit} the supply stops it."
        )
    return (
        f"The start of {asked.load} is not known. Plug out, measure its winding's resistance: the "
        f"{show.volts(asked.sized.supply_high_V)} of the supply over it is the most that a start draws; above {limit} "
        "the supply may stop it."
    )


def start_words(asked: Asked) -> str:
    """Start against the supply's limit."""
    found = asked.protection
    assert found.start_A is not None
    start, limit = show.amps(found.start_A), show.amps(found.limit_A)
    if reaches(found.limit_A, found.start_A):
        return f"It should not for this toy alone: the start draws up to {start}, the supply gives {limit}."
    slowly = "Raise the strength in small steps, or start" if asked.sized.control in ADJUSTED else "Start"
    return (
        f"A start at full strength asks for up to {start}, the supply gives {limit} at most. "
        f"{slowly} toys one after the other."
    )


def whine_words(frequency_Hz: float, heard: bool) -> str:
    """Whether the PWM is heard."""
    shown = show.hertz(frequency_Hz)
    if heard:
        return (
            f"The current is switched at {shown}, which people hear. Above about 20 kHz they do not, but then the "
            "switch "
            "heats more and the diode must be faster. A filter that slows the switch burns it."
        )
    return f"Not from PWM: it is switched at {shown}, which people do not hear. Look for loose screws and worn brushes."


def switch_words(asked: Asked) -> str:
    """What the port's switch makes of it, where a port chops the load itself."""
    port = asked.sized.port
    if port is None or port.signal or port.switch_W is None:
        return ""
    total = f" Port {port.number}'s switch takes up to {show.watts(port.switch_W)} here"
    if port.switching_W is None or port.pwm_frequency_Hz is None:
        return f"{total}."
    board = asked.build.boards[port.board]
    if "switching_time" not in board.model_fields_set:
        return (
            f"{total}; how much of it is switching alone, the board's switching_time tells: with "
            f"{show.quantity(board.switching_time)} (estimate) it is {show.watts(port.switching_W)}."
        )
    told = f"{total}, {show.watts(port.switching_W)} of it from switching"
    high_Hz = AUDIBLE_Hz[1]
    if port.pwm_frequency_Hz >= high_Hz:
        return f"{told}."
    there_W = port.switching_W * high_Hz / port.pwm_frequency_Hz
    return f"{told}; at {show.hertz(high_Hz)} that part would be {show.watts(there_W)}."


def about_hands(asked: Asked) -> Iterator[Question]:
    """Fasteners, first power, other ways of protection."""
    sized, found = asked.sized, asked.protection
    if sized.fuse.rating_A is not None and found.sure_A is not None:
        draws = sized.load.design_current_A
        yield Question(
            "resettable",
            "A resettable fuse instead?",
            f"Only as an extra. One that holds {show.amps(draws)} trips near {show.amps(RESETS_AT * draws)}, slowly, "
            f"sooner in the warm cabinet, and never opens fully: some current goes on into the fault. "
            f"{sized.fuse.id} opens for certain from {show.amps(found.sure_A)} on, and stays open.",
            "protects",
        )
    screws = sized.mounting
    if screws is not None:
        torque = (
            f"{show.torque(screws.torque_Nm, screws.torque_Nm, sized.units)} and what the nut itself asks for"
            if screws.torque_Nm is not None
            else "tight"
        )
        grip = (
            f" Their friction then holds {show.figure(screws.slip_safety, digits=2)} times what it pulls at full "
            "strength."
            if screws.slip_safety is not None
            else ""
        )
        yield Question(
            "washers",
            "Do spring washers hold against shaking?",
            f"No. Locking nuts on the {screws.count} screws {screws.screw}, {torque}, a paint mark, and a second look "
            f"after 1 h and 10 h of play do.{grip}",
            "mounting",
        )
    yield Question(
        "first-power",
        "How do I switch on the first time?",
        "Plug out, hold 1 done. Then on a bench supply with the current limit that the first-power step names, hands "
        "off; never raise it to get past a fault. Only after hold 2 on the cabinet's supply.",
        "checks",
    )
