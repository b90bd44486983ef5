"""Questions that readers bring, answered with this build's own values; only those that concern the toy."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from guide_gen.description.build import Build
from guide_gen.formulas import diode as diode_formulas
from guide_gen.formulas import kickback as kickback_formulas
from guide_gen.formulas.choice import reaches
from guide_gen.model.circuit import PartKind, Wire
from guide_gen.model.fields import ToyFields
from guide_gen.model.plan import Protection, Question, Sized
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.planning.protection import ADJUSTED, seconds, time_at
from guide_gen.published.tables import rule
from guide_gen.values import show

AUDIBLE_Hz = (20.0, 20e3)  # what people hear; common practice, no source
ZENER_V = 24.0  # the example of a zener in series, for the comparison of release times; this project
RELEASED = 0.1  # of the current: then a coil has let go; this project, an estimate


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
        "A smaller fuse opens in play, a larger one lets the wire burn.",
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
    if lead is not None:
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
    drawn = min(found.start_A, found.limit_A)
    held = f"{lead} {load} held fast draws up to {show.amps(drawn)}"
    if reaches(found.never_A, drawn):
        return f"{held}, and the fuse carries {show.amps(found.never_A)} for ever: pull the plug when it hums."
    opened = time_at(found.longest, drawn) if found.sure_A and reaches(drawn, found.sure_A) else None
    if opened is None:
        return f"{held}: the fuse may open, but need not. Pull the plug when it hums and does not move."
    return (
        f"{held} at full strength, and the fuse may take {seconds(opened)}; at a low setting it may never open. "
        "Pull the plug when it hums and does not move."
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
        f"{show.amps(asked.sized.supply_limit_A)} that it can give. {made}."
    )


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
    if diode and asked.chopped:
        mean = diode_formulas.mean_current_under_pwm_A(current_A=sized.load.design_current_A)
        carries = f", class {show.amps(plan.forward_A)}" if plan.forward_A else ""
        yield Question(
            "diode-pwm",
            f"{diode} with PWM: is that right?",
            f"Yes: across {asked.load}, band to plus. It carries the current whenever the port is off, on average up "
            "to "
            f"{show.amps(mean)}{carries}, which heats it with {show.watts(mean * plan.drop_high_V)}. "
            "It must be a fast or Schottky diode.",
            "circuit",
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
    load = sized.load
    if diode and not asked.chopped and load.inductance_H and load.resistance_ohm:
        plain, quick = (release_s(asked, clamp) for clamp in (plan.drop_high_V, plan.drop_high_V + ZENER_V))
        yield Question(
            "release",
            "Why does it let go slowly?",
            f"With a plain diode the current takes {seconds(plain)} to fall to a tenth. A zener of {ZENER_V:g} V in "
            f"series makes that {seconds(quick)}; the switch then sees "
            f"{show.volts(sized.supply_high_V + plan.drop_high_V + ZENER_V)} and must stand it.",
        )


def release_s(asked: Asked, clamp_V: float) -> float:
    """Until a tenth of the current is left, at the slow end."""
    load = asked.sized.load
    assert load.inductance_H
    assert load.resistance_ohm
    return kickback_formulas.decay_time_s(
        inductance_H=load.inductance_H[1],
        resistance_ohm=load.resistance_ohm[0],
        start_A=load.design_current_A,
        release_A=RELEASED * load.design_current_A,
        clamp_V=clamp_V,
    )


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
        yield Question(
            "power-up",
            f"{asked.load} comes on at power-up. Why?",
            f"A port without orders may float until the software sets it. With all toys' fuses out, switch on and off "
            f"three times: port {sized.port.number} must stay off. If not, the board needs a pull-down at that gate, "
            "or "
            f"{asked.fuse} stays out until the software runs.",
            "checks",
        )


def about_starting(asked: Asked) -> Iterator[Question]:
    """Sag, a supply that clicks, whine."""
    sized, found = asked.sized, asked.protection
    if found.start_A is not None:
        drawn = min(found.start_A, found.limit_A)
        shared_ohm = sum(
            asked.cabling.run_ohm(run.size, run.length_m, sized.load.design_current_A)
            for run in asked.loop.runs
            if run.size is not None
        )
        shared = (
            f" Of that, {show.volts(drawn * shared_ohm)} are lost on leads that other toys and the board share."
            if shared_ohm
            else ""
        )
        ohm = asked.loop.wire_ohm(asked.cabling, sized.wire.size) + asked.loop.other_ohm(sized.fuse.resistance_ohm)
        yield Question(
            "sag",
            f"What happens to the voltage when {asked.load} starts?",
            f"For a moment it draws up to {show.amps(drawn)}, and up to {show.volts(min(drawn * ohm, sized.supply_V))} "
            f"are lost on the way.{shared} "
            "If a board resets then: a lead of its own, 100 nF at the toy, supply and return twisted.",
            "wrong",
        )
        yield Question("supply-start", "The supply clicks or dies at a start. Why?", start_words(asked), "protects")
    if frequency := asked.pwm_Hz:
        low, high = AUDIBLE_Hz
        heard = low <= frequency <= high
        yield Question(
            "whine",
            "Why does it whine?",
            whine_words(frequency, heard),
            "tuning",
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


def about_hands(asked: Asked) -> Iterator[Question]:
    """Fasteners, first power, other ways of protection."""
    sized = asked.sized
    if sized.mounting is not None:
        yield Question(
            "washers",
            "Do spring washers hold against shaking?",
            f"No. Locking nuts on the {sized.mounting.count} screws {sized.mounting.screw}, the stated torque, a paint "
            "mark, and a second look after 1 h and 10 h of play do.",
            "mounting",
        )
    limit = max(1, ceil(sized.load.design_current_A))
    yield Question(
        "first-power",
        "How do I switch on the first time?",
        f"Plug out, hold 1 done. Then on a bench supply limited to about {show.amps(limit)}, hands off; only after "
        "hold 2 on the cabinet's supply.",
        "checks",
    )
