"""A contactor or a large relay used for its sound: a held coil slams an armature, in and out."""

from typing import Literal, cast

from guide_gen.formulas.choice import reaches
from guide_gen.model import coil as coils
from guide_gen.model import coil_questions
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.coil import CoilToy, coil_of, resistance_reading
from guide_gen.model.fields import Current, Rail, RatedCurrent, RatedVoltage, Temperature, ToyFields, key
from guide_gen.model.fields import Section as Fields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind, Missing, Weighed
from guide_gen.model.loads import load_of
from guide_gen.model.plan import Load, Question, Section, Sized
from guide_gen.model.playing import played
from guide_gen.model.ported import dc_contact
from guide_gen.published.tables import rule, touch_levels
from guide_gen.values import show
from guide_gen.values.quantity import Basis
from guide_gen.values.worked import Worked

HELD_SPREAD = 0.20  # how far a held coil's current may lie below that of the cold one, and above; this project
SLOW_S = rule("slow release").value
WARM_DEGC = {level.level: level.from_degC for level in touch_levels()}["caution"]


class SwitchedFields(Fields):
    """What its contacts switch."""

    voltage: Rail = key("voltage that they switch, DC", example="24 V", ask="read it on the supply of that load")
    current: Current = key("current that they switch", example="4 A (measured)", ask="measure that load")


class Contactor(CoilToy):
    """A contactor or relay as a toy."""

    kind: Literal["contactor"] = key("what it is", example="contactor", ask="choose one of the kinds")
    coil_type: Literal["DC", "AC"] = key(
        "what its coil is made for", example="DC", ask="read it beside the coil's terminals: DC or =, AC or ~"
    )
    contacts: Literal["unused", "used"] = key(
        "whether its contacts switch anything", example="unused", default="unused", source="this project"
    )
    contact_voltage: RatedVoltage | None = key(
        "DC voltage that its contacts are rated for; the AC figure never counts", example="30 V"
    )
    contact_current: RatedCurrent | None = key("DC current that its contacts are rated for", example="10 A")
    switched: SwitchedFields | None = key("what its contacts switch", example="{voltage: 24 V, current: 4 A}")
    surface_temperature: Temperature | None = key(
        "surface of its coil after half an hour held, in the closed cabinet", example="54 °C (measured)"
    )


def load(toy: ToyFields) -> Load:
    """A coil that is held, and that has to let go in time."""
    contactor = cast(Contactor, toy)
    return load_of(
        contactor,
        kickback=True,
        design_A=coils.drawn_A(contactor),
        start_A=coils.drawn_A(contactor),
        resistance_ohm=coils.resistance_ohm(contactor),
        inductance_H=coils.inductance_H(contactor),
        release_A=coils.release_A(contactor),
        slow_release_s=0.0 if contactor.contacts == "used" else SLOW_S,
    )


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    return Introduction(
        sentence="A contactor used for the slam of its armature: once when it pulls in, once when it lets go.",
        meant_for="Single slams and short bursts during play; its coil may be held.",
        not_for="Not for switching mains in this cabinet, whatever is printed on it, and not for any safety function.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection"),
    )


def held_degC(toy: ToyFields, sized: Sized) -> float | None:
    """Surface of the held coil: measured, else worked out from its size; None when neither is known."""
    contactor = cast(Contactor, toy)
    if contactor.surface_temperature is not None:
        return contactor.surface_temperature.high
    return coil_of(contactor, sized).final_degC


def held_basis(toy: Contactor) -> Basis:
    """Where the surface of the held coil comes from."""
    written = toy.surface_temperature
    return Basis.ESTIMATE if written is None else written.basis or Basis.ESTIMATE


def release_words(sized: Sized) -> str:
    """How long this one takes to let go, computed."""
    if sized.suppression.release_s is None:
        return ""
    return f"With its {sized.suppression.type} it lets go within {show.seconds(sized.suppression.release_s)}."


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a contactor."""
    contactor, held = cast(Contactor, toy), held_degC(toy, sized)
    found = [
        Caution(
            "contacts-unused",
            Word.WARNING,
            "The main contacts invite use for mains.",
            "Electrocution, fire.",
            ("Leave them unwired and cover their terminals.", "Mains switching is for a licensed person, elsewhere.")
            if contactor.contacts == "unused"
            else ("Wire extra-low voltage to them and nothing else.", "Cover the terminals that are free."),
            grouped=True,
            before=("wire",),
        ),
        Caution(
            "armature-strike",
            Word.CAUTION,
            "The armature slams in and out without warning.",
            "Pinched fingers.",
            ("Keep its housing shut.", "Never push it in by hand with the plug in."),
            before=("contactor.bench.pull", "contactor.tune.first"),
        ),
    ]
    if held is None or held >= WARM_DEGC:
        found.append(
            Caution(
                "coil-warm",
                Word.CAUTION,
                "A held coil gets hot.",
                "It burns the skin.",
                ("Hold it for short times only.", "Measure before touching; guard it where it can be reached."),
                reason=f"About {show.celsius(held, sized.units)} ({held_basis(contactor)}) when it is held for long."
                if held is not None
                else "How warm this one gets is not known: measure it.",
                before=("contactor.bench.held", "contactor.after.look"),
            )
        )
    return (*found, *slow_release(contactor, sized))


def slow_release(toy: Contactor, sized: Sized) -> tuple[Caution, ...]:
    """A plain diode, where contacts are under load or the armature lets go late, as far as that is known."""
    release_s, plain = sized.suppression.release_s, sized.suppression.type == "diode"
    quick = release_s is not None and reaches(SLOW_S, release_s) and toy.contacts == "unused"
    if not plain or quick or sized.control == "pwm port":
        return ()
    return (
        Caution(
            "release-slow",
            Word.NOTICE,
            "With a plain diode the armature lets go late.",
            "Fast repeats blur, and contacts under load burn.",
            ("Fit a diode and a zener in series where that matters.",),
            reason=release_words(sized) or "How late is not worked out: its inductance is not described.",
            before=("contactor.play.repeat",),
        ),
    )


def mounting(toy: ToyFields, sized: Sized) -> Section:
    """Where, which way round and why."""
    place = f"This build has it in the {toy.mount.place} of the floor." if toy.mount.place else ""
    return Section(
        (place,) if place else (),
        (
            Advice(
                "On a panel that sounds: the cabinet's side near the player's hands.",
                "The slam goes into what it is bolted to.",
            ),
            Advice(
                "The way its maker shows: as a rule upright, on a vertical panel.",
                "Lying on its back, its spring may not push the armature out.",
            ),
            Advice(
                "Through-bolts or a bolted-down rail, no foam under it.",
                "Foam swallows the sound, and wood screws work loose.",
            ),
            Advice(
                "Unused terminals covered.",
                "Nobody is tempted to wire mains to them, and nothing loose bridges them.",
            ),
            Advice("Air round the coil.", "A held coil is warm by design."),
        ),
    )


def held_reading(sized: Sized) -> Reading:
    """Current of the held coil: it falls while the coil warms."""
    return Reading(
        "Current of the held coil",
        f"in the feed of {sized.ids['load']}",
        (1 - 2 * HELD_SPREAD) * sized.load.lowest_current_A,
        (1 + HELD_SPREAD) * sized.load.design_current_A,
        "A",
        "Above: the wrong coil, or shorted turns. Below: a bad joint. It falls by up to a third while the coil warms.",
        "the bench supply's meter, at its full voltage",
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a contactor."""
    contactor, held = cast(Contactor, toy), sized.ids["load"]
    unused = contactor.contacts == "unused"
    return (
        Step(
            "contactor.mount.place",
            "mount",
            "Hold the contactor against the panel where it is to sound, the way round that its maker shows.",
            "Find its place",
        ),
        Step("contactor.mount.mark", "mount", "Mark the holes of its feet, or of its rail.", "Mark the holes"),
        *bolt_steps("contactor", sized.mounting, sized.units),
        Step(
            "contactor.mount.cover",
            "mount",
            "Cover every terminal that stays unused."
            if unused
            else "Cover every terminal that stays unused; only extra-low voltage goes to the others.",
            "Cover unused terminals",
            killer=True,
        ),
        Step(
            "contactor.mount.press",
            "mount",
            "Push the armature in with an insulated stick: it moves freely and springs back.",
            "Armature springs back",
        ),
        Step(
            "contactor.dead.type",
            "dead-checks",
            f"Beside the coil's terminals stands {show.volts(sized.load.voltage_V)} DC.",
            "Coil voltage, DC",
            killer=True,
        ),
        Step(
            "contactor.dead.coil",
            "dead-checks",
            f"Coil cold: measure {held}:1 to {held}:2 with one lead of the coil off.",
            "Resistance of the coil",
            record=resistance_reading(contactor, sized),
        ),
        Step(
            "contactor.dead.contacts",
            "dead-checks",
            "No wire is on the main contacts; their terminals are covered."
            if unused
            else "Only extra-low voltage is on the contacts, behind a fuse of its own.",
            "Nothing on the contacts" if unused else "Contacts: extra-low voltage only",
            killer=True,
        ),
        Step(
            "contactor.bench.pull",
            "bench",
            f"Feed the coil alone, its fuse out: current limit {show.amps(1.2 * sized.load.design_current_A)}, voltage "
            "from 0 V up until the armature pulls in. Then down until it lets go.",
            "Bench supply from 0 V",
            record=Reading(
                "Voltage at which it pulls in",
                f"{held}:1 and {held}:2",
                0.0,
                sized.supply_low_V,
                "V",
                "Not in at the lowest voltage of its supply: it will chatter. Look for a stuck armature or the wrong "
                "coil.",
                "bench supply's meter",
            ),
        ),
        Step(
            "contactor.bench.held",
            "bench",
            f"At {show.volts(sized.load.voltage_V)}, read the current at once and again after ten minutes held.",
            "Current while held",
            record=held_reading(sized),
        ),
        Step(
            "contactor.bench.surface",
            "bench",
            "After half an hour held, measure the coil's surface.",
            "Surface while held",
            record=Reading(
                "Surface of the held coil after half an hour",
                f"on the coil of {held}",
                None,
                WARM_DEGC,
                "°C",
                "Warmer: hold it for short times only, or guard it so that nobody touches it.",
                "contact or infrared thermometer on dull tape",
            ),
            more="Inside the closed cabinet it gets warmer by as much as the cabinet is warmer than the room.",
        ),
        *first_steps(sized, dial),
        *tune_steps(sized, dial),
        Step(
            "contactor.play.slam",
            "play",
            "Play three games. It slams in and out with the game, and does not chatter in between.",
            "Play three games",
        ),
        Step(
            "contactor.play.repeat",
            "play",
            "Let the game repeat it as fast as it ever will. Each slam stays apart from the next.",
            "Fast repeats stay apart",
            more=release_words(sized),
        ),
        Step(
            "contactor.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: nuts tight, covers on, terminals tight, coil not brown.",
            "Look after 1 h and 10 h",
        ),
        Step(
            "contactor.yearly.look",
            "yearly",
            "Blow the dust out, push the armature in by hand, look at the cable and the terminals.",
            "Yearly look",
        ),
    )


def first_steps(sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """The first time at full voltage, where there is no dial."""
    if dial is not None:
        return ()
    return (
        Step(
            "contactor.first.slam",
            "first-power",
            "Switch it on for a second and off again: it slams in, holds without chatter, and slams out.",
            "One second on",
        ),
    )


def tune_steps(sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """There is little to tune: a coil wants its full voltage."""
    first = Step(
        "contactor.tune.first",
        "tune",
        "Switch it on and off five times, a second each. It slams each time and never chatters.",
        "Five slams",
        more="Too loud: a soft washer under its feet. Too quiet: a stiffer bolt, or a larger panel.",
    )
    if dial is None:
        return (first,)
    return (
        Step(
            "contactor.tune.lowest",
            "tune",
            f"{dial.to_lowest} Power on from outside. It stays still.",
            "Lowest setting",
            killer=True,
        ),
        Step(
            "contactor.tune.raise",
            "tune",
            f"{dial.smallest_step} Go on until it pulls in without chatter, then to {dial.full}, or to this build's "
            "limit. Write the setting down.",
            "As-left setting",
            record=dial.reading("Setting as left"),
            killer=True,
        ),
        first,
    )


def tuning_notes(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[str, ...]:
    """What to know before tuning."""
    coil = coil_of(cast(Contactor, toy), sized)
    told = [
        f"Cold its coil draws {show.amps(coil.cold_A)} at most; at {show.celsius(coil.limit_degC, sized.units)}, the "
        f"limit of its insulation, and the lowest voltage {show.amps(coil.least_A(coil.limit_degC))}.",
        "It wants its full voltage to pull in. Held for long, a fraction of it is enough, if the board can lower its "
        "port after the first tenth of a second; test that shaking does not make it let go.",
    ]
    if dial is not None:
        told.append("Half a setting makes a coil chatter: it burns its own contacts and shakes itself loose.")
    release = release_words(sized)
    return (*told, *((release,) if release else ()))


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a contactor."""
    reading, held = resistance_reading(cast(Contactor, toy), sized), sized.ids["load"]
    span = show.span(reading.low, reading.high, "Ω")
    return (
        Trouble(
            "Chatters",
            "voltage too low at the coil, PWM below full, or an AC coil",
            f"voltage at {held}:1 and {held}:2 while it is on",
            f"{show.volts(max(0.0, sized.supply_low_V - sized.wire.drop_V))} or more",
        ),
        Trouble(
            "Clicks or gets warm and does not pull in",
            "armature blocked, mounted the wrong way round, or an AC coil (one that hums is fed AC or PWM)",
            "push it in with an insulated stick, plug out",
            "moves freely and springs back",
        ),
        Trouble(
            "Lets go late",
            "a plain diode across the coil",
            "which suppressor is fitted",
            "diode and zener in series for a quick release",
        ),
        Trouble(
            "Never pulls in",
            "open coil, or the port never switches on",
            f"resistance {reading.between}, plug out",
            span,
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Its coil's kind, its contacts, how warm it gets."""
    contactor, found = cast(Contactor, toy), list(coils.data_findings(cast(Contactor, toy), sized, path))
    if contactor.coil_type == "AC":
        found.append(
            Finding(
                "coil-kind",
                Level.MUST,
                f"The coil of {sized.name} is made for AC: on DC only its copper limits the current, and it burns out.",
                "coil_type: DC",
                f"Take a contactor with a coil for {show.volts(sized.supply_V)} DC.",
                (*path, "coil_type"),
                sized.slug,
            )
        )
    held = held_degC(toy, sized)
    if held is not None:
        limit = coils.limit_degC(contactor)
        where = (*path, "surface_temperature") if contactor.surface_temperature else (*path, "coil")
        found += coils.surface_findings(
            sized,
            held,
            limit,
            "Held for long",
            "Let the game hold it for short times, lower its port once it has pulled in, or guard the coil.",
            where,
            held_basis(contactor),
        )
    return (*found, *contact_findings(contactor, sized, path))


def contact_findings(toy: Contactor, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Used contacts against their DC rating."""
    if toy.contacts == "unused":
        return ()
    lacks, here = [], (*path, "contacts")
    if toy.contact_voltage is None or toy.contact_current is None:
        lacks.append("no DC rating of them is described, and an AC rating never counts")
    if toy.switched and toy.contact_voltage and toy.switched.voltage.high > toy.contact_voltage.low * (1 + 1e-9):
        lacks.append(f"they switch {show.quantity(toy.switched.voltage)} and are rated for "
                     f"{show.quantity(toy.contact_voltage)} DC")  # fmt: skip
        here = (*path, "contact_voltage")
    if toy.switched and toy.contact_current and toy.switched.current.high > toy.contact_current.low * (1 + 1e-9):
        lacks.append(f"they switch {show.quantity(toy.switched.current)} and are rated for "
                     f"{show.quantity(toy.contact_current)} DC")  # fmt: skip
        here = (*path, "contact_current") if len(lacks) == 1 else here
    if lacks:
        needs = toy.switched
        wanted = (
            f"contacts rated for {show.quantity(needs.voltage)} and {show.quantity(needs.current)} DC or more"
            if needs
            else "contact_voltage and contact_current, the DC ratings"
        )
        return (
            Finding(
                "contacts-rating",
                Level.MUST,
                f"The contacts of {sized.name} are used: {' and '.join(lacks)}. A DC arc does not go out by "
                "itself, and burns.",
                wanted,
                "Look up the DC rating of its contacts, take a contactor that has it, or leave the contacts unused.",
                here,
                sized.slug,
            ),
        )
    return ()


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """Its inductance, how warm it gets, what its contacts switch."""
    contactor = cast(Contactor, toy)
    told = [*coils.missing_inductance(contactor)]
    if held_degC(toy, sized) is None:
        told.append(
            Missing(
                "surface_temperature: ..",
                "how warm the held coil gets",
                "Hold it for half an hour, then measure the coil's surface with a thermometer.",
            )
        )
    if contactor.contacts == "used" and contactor.switched is None:
        told.append(
            Missing(
                "switched: {voltage: .., current: ..}",
                "whether its contacts stand what they switch",
                "Measure the current of what they switch on a multimeter's 10 A range, and read its voltage.",
            )
        )
    return tuple(told)


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """The coil, its surface, and what its contacts switch."""
    contactor = cast(Contactor, toy)
    found = [*coils.weighed(toy)]
    if contactor.surface_temperature is not None:
        how = "a thermometer on its coil, after half an hour held, in the closed cabinet"
        surface = contactor.surface_temperature
        found.append(Weighed("the surface_temperature", surface, ("surface_temperature",), how, asked=False))
    if contactor.contacts == "used" and contactor.switched is not None:
        how = "a multimeter's 10 A range in the feed of what they switch"
        found.append(Weighed("the current switched", contactor.switched.current, ("switched", "current"), how))
    return tuple(found)


def worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """Results of the coil, with their working."""
    contactor = cast(Contactor, toy)
    coil = coil_of(contactor, sized)
    return (*coil.worked, *coil_questions.hold_worked(contactor, coil))


def questions(toy: ToyFields, sized: Sized) -> tuple[Question, ...]:
    """How hot, held with less power, and what its contacts may switch."""
    contactor = cast(Contactor, toy)
    written = held_basis(contactor) if contactor.surface_temperature else None
    coil = coil_of(contactor, sized)
    return (
        *coil_questions.of_held(contactor, sized, coil, held_degC(toy, sized), written),
        *contact_question(contactor),
    )


def contact_question(toy: Contactor) -> tuple[Question, ...]:
    """The DC rating of contacts that are used, against what they switch."""
    if toy.contacts == "unused":
        return ()
    switched = (
        f"They switch {show.quantity(toy.switched.current)} at {show.quantity(toy.switched.voltage)} here"
        if toy.switched
        else "What they switch is not described"
    )
    rated = (
        f"and are rated for {show.quantity(toy.contact_current)} at {show.quantity(toy.contact_voltage)} DC"
        if toy.contact_current and toy.contact_voltage
        else "and no DC rating is described"
    )
    return (dc_contact(f"{switched}, {rated}."),)


KIND = Kind(
    word="contactor",
    title="Contactor",
    slug="contactor",
    fields=Contactor,
    part=PartKind.CONTACTOR,
    load=load,
    introduction=introduction,
    cautions=cautions,
    mounting=mounting,
    steps=steps,
    tuning_notes=tuning_notes,
    play_notes=played("contactor"),
    troubles=troubles,
    emergency=(
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "It chatters without end: pull the plug; coil and contacts burn.",
        "It will not let go: pull the plug, not a toy's wire.",
    ),
    findings=findings,
    worked=worked,
    weighed=weighed,
    questions=questions,
    missing=missing,
)
