"""A bell or chime: a pulse-rated coil throws a clapper against metal, one stroke for each pulse."""

from typing import Literal

from guide_gen.model import coil_questions, pulse_coil, pulse_guide
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.coil import weighed
from guide_gen.model.fields import ToyFields, key
from guide_gen.model.guide import Advice, Introduction, Step, Trouble
from guide_gen.model.kind import Dial, Kind
from guide_gen.model.plan import Section, Sized
from guide_gen.model.playing import played

NOUN = pulse_coil.Noun("bell", "bell", "rings", "clapper")


class Bell(pulse_coil.PulseCoilToy):
    """A bell or a bar of a chime."""

    kind: Literal["bell"] = key("what it is", example="bell", ask="choose one of the kinds")


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    return Introduction(
        sentence="A coil that throws a clapper against a bell or a bar: one stroke for each pulse.",
        meant_for="Single short strokes during play, with pauses.",
        not_for="Not for a bell that interrupts its own current, not for ringing without end, not for an alarm.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection", "ear protection"),
    )


def mounting(toy: ToyFields, sized: Sized) -> Section:
    """Where, which way round and why."""
    place = f"This build has it in the {toy.mount.place} of the floor." if toy.mount.place else ""
    return Section(
        (place,) if place else (),
        (
            Advice(
                "The bell or bar on soft washers, at its own holding points.",
                "Held hard, or in the wrong place, it only clicks.",
            ),
            Advice(
                "The clapper at rest a few millimetres off the metal.",
                "It has to swing on by itself, strike and fall back; pressed against the metal it damps the tone.",
            ),
            Advice(
                "Upright coils with the clapper hanging or lifted straight, so that it falls back by its weight.",
                "A clapper that stays on the metal rings once and never again.",
            ),
            Advice("A stop that keeps clapper and plunger in the coil.", "What can come out flies out."),
            Advice(
                "Coil and frame on through-bolts with locking nuts.",
                "Each stroke pulls at the screws; wood screws work loose.",
            ),
            Advice("A cover or a shut compartment round it.", "Fingers and cables stay out of the stroke."),
        ),
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a bell."""
    return (
        Step(
            "bell.mount.place",
            "mount",
            "Hold frame and bell in their place, as high and as free as the tone asks for.",
            "Find its place",
        ),
        Step("bell.mount.mark", "mount", "Mark the holes through its frame.", "Mark the holes"),
        *bolt_steps("bell", sized.mounting, sized.units),
        Step(
            "bell.mount.gap",
            "mount",
            "Move the clapper by hand: at rest it stands off the metal, it strikes, and it falls back.",
            "Clapper strikes and falls back",
        ),
        Step(
            "bell.mount.stop",
            "mount",
            "Pull clapper and plunger outwards: a stop keeps them in the coil.",
            "Clapper cannot come out",
            killer=True,
        ),
        Step(
            "bell.dead.free",
            "dead-checks",
            "The clapper moves freely and touches no wire.",
            "Clapper free",
            killer=True,
        ),
        *pulse_guide.check_steps(toy, sized, NOUN),
        *pulse_guide.first_steps(sized, NOUN, dial),
        *pulse_guide.tune_steps(toy, sized, NOUN, dial),
        Step(
            "bell.play.tone",
            "play",
            "Play three games. Each stroke is one clear tone, and none is lost in fast repeats.",
            "Play three games",
            more="A damped stroke asks for more gap, or a shorter on-time: the clapper is then off the metal at once.",
        ),
        pulse_guide.warm_step(sized, NOUN, "play.warm"),
        Step(
            "bell.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: gap as it was, nuts tight, stop tight, no brown wrapping.",
            "Look after 1 h and 10 h",
        ),
        Step(
            "bell.yearly.wear",
            "yearly",
            "Look at clapper, spring, stop and the cable where it bends. Wipe the guide dry: oil gathers dust.",
            "Yearly look",
        ),
    )


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a bell."""
    return (
        *pulse_guide.troubles(toy, sized, NOUN),
        Trouble(
            "Clicks without a tone",
            "the clapper stays on the metal, or the bell is held too hard",
            "gap and holding points, plug out",
            "clapper off the metal at rest, bell free to swing",
        ),
    )


KIND = Kind(
    word="bell",
    title="Bell",
    slug="bell",
    fields=Bell,
    part=PartKind.BELL,
    load=pulse_coil.load,
    introduction=introduction,
    cautions=lambda toy, sized: pulse_guide.cautions(toy, sized, NOUN),
    mounting=mounting,
    steps=steps,
    tuning_notes=lambda toy, sized, dial: pulse_guide.tuning_notes(toy, sized, NOUN),
    play_notes=played("bell"),
    troubles=troubles,
    emergency=(
        "The clapper stays on the metal: pull the plug at once; the coil burns within seconds to minutes.",
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "After either: do not touch the coil, and do not power it again before its resistance is right.",
    ),
    findings=pulse_coil.findings,
    missing=pulse_coil.missing,
    pulse=pulse_coil.pulse_plan,
    worked=coil_questions.pulse_worked,
    weighed=weighed,
    questions=lambda toy, sized: coil_questions.of_pulses(toy, sized, pulse_coil.pulses_of(toy, sized)),
)
