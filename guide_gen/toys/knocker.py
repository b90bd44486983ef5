"""A knocker: a pulse-rated solenoid whose plunger strikes wood, so that a win is heard and felt."""

from typing import Literal, cast

from guide_gen.model import coil_questions, pulse_coil, pulse_guide
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import PartKind
from guide_gen.model.coil import weighed
from guide_gen.model.fields import ToyFields, YesNo, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind
from guide_gen.model.plan import Section, Sized
from guide_gen.model.playing import played

NOUN = pulse_coil.Noun("knocker", "knocker", "knocks", "plunger")


class Knocker(pulse_coil.PulseCoilToy):
    """A knocker."""

    kind: Literal["knocker"] = key("what it is", example="knocker", ask="choose one of the kinds")
    end_stop: YesNo = key(
        "whether stops at both ends keep the plunger in the coil",
        example="yes",
        ask="push the plunger by hand to both ends: a fixed stop must hold it there, with the coil mounted",
    )


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    return Introduction(
        sentence="A solenoid that throws its plunger against a block of wood: one loud, felt knock for each pulse.",
        meant_for="Single short pulses during play, a fraction of a second each, with pauses.",
        not_for="Not for holding anything, not for being kept on, and not for use without its end stops and cover.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection", "ear protection"),
    )


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a knocker."""
    found = [
        *pulse_guide.cautions(toy, sized, NOUN),
        Caution(
            "vibration-damage",
            Word.NOTICE,
            "Each knock shakes what stands near it.",
            "Connectors work loose, solder cracks, disks and screens fail over months.",
            ("Mount it away from boards, disks and the screen.", "Re-seat and tie every connector."),
            before=("knocker.mount.place", "knocker.tune.repeat"),
        ),
    ]
    if not cast(Knocker, toy).end_stop:
        found.insert(
            0,
            Caution(
                "plunger-exit",
                Word.WARNING,
                "Without a stop the plunger leaves the coil.",
                "Flying metal can blind.",
                ("Fit a fixed stop at each end before any power.", "Eye protection on while it is tried."),
                reason="This build describes no end stop.",
                grouped=True,
                before=("knocker.mount.stop", "knocker.bench.pull"),
            ),
        )
    return tuple(found)


def mounting(toy: ToyFields, sized: Sized) -> Section:
    """Where, which way round and why."""
    place = f"This build has it in the {toy.mount.place} of the floor." if toy.mount.place else ""
    return Section(
        (place,) if place else (),
        (
            Advice(
                "On the floor or a side panel, where the knock is to be felt.",
                "The panel is the sounding board: a stiff one knocks, a thin one rattles.",
            ),
            Advice(
                "The plunger strikes a block of hard wood that is screwed and glued down.",
                "Metal on metal breaks itself, and plywood wears hollow.",
            ),
            Advice("A fixed stop at each end of the stroke.", "A plunger without a stop leaves the coil and flies."),
            Advice(
                "The return spring fitted, or the coil so that the plunger falls back by itself.",
                "A plunger that does not come back has no stroke left.",
            ),
            Advice("A cover over plunger and block.", "Fingers and cables stay out of the stroke."),
            Advice(
                "Away from boards, disks and the screen's mount.",
                "Each knock shakes what stands near it.",
            ),
            Advice(
                "Through-bolts, wide washers and locking nuts.",
                "Each knock pulls at the screws; wood screws work loose.",
            ),
        ),
    )


def tighten_steps(sized: Sized) -> tuple[Step, ...]:
    """How far to tighten by eye, where no torque has been told with the bolts."""
    if sized.mounting is not None and sized.mounting.torque_Nm is not None:
        return ()
    return (
        Step(
            "knocker.mount.tighten",
            "mount",
            "Tighten the nuts cross-wise until the washers just begin to press into the wood.",
            "Tighten cross-wise",
            more="Wait a day and tighten again: wood gives way.",
        ),
    )


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a knocker."""
    return (
        Step(
            "knocker.mount.place",
            "mount",
            "Hold coil and block in their place: the plunger points squarely at the block.",
            "Find its place",
        ),
        Step(
            "knocker.mount.stroke",
            "mount",
            "Slide the plunger by hand from end to end. It moves freely, and the block stops it just before its end.",
            "Slide the plunger",
        ),
        Step("knocker.mount.mark", "mount", "Mark the holes through its bracket.", "Mark the holes"),
        *bolt_steps("knocker", sized.mounting, sized.units),
        *tighten_steps(sized),
        Step(
            "knocker.mount.stop",
            "mount",
            "Fit the stops at both ends. Push the plunger hard against each: it stays in the coil.",
            "Stops at both ends",
            killer=True,
        ),
        Step("knocker.mount.cover", "mount", "Put the cover over plunger and block.", "Cover on", killer=True),
        Step(
            "knocker.dead.stop",
            "dead-checks",
            "Both end stops are tight, and the cover is on.",
            "End stops and cover",
            killer=True,
        ),
        *pulse_guide.check_steps(toy, sized, NOUN),
        *pulse_guide.first_steps(sized, NOUN, dial),
        *pulse_guide.tune_steps(toy, sized, NOUN, dial),
        Step(
            "knocker.play.knock",
            "play",
            "Play three games. It knocks once where it should, and never twice for one event.",
            "Play three games",
        ),
        Step(
            "knocker.play.nudge",
            "play",
            "Watch the game's nudge reading while it knocks: a knock must not register as a nudge.",
            "No false nudge",
            more="It does: shorten the on-time first, then raise the threshold of the nudge sensor.",
        ),
        pulse_guide.warm_step(sized, NOUN, "play.warm"),
        Step(
            "knocker.after.look",
            "after-play",
            "After 1 h and again after 10 h of play: stops tight, block not hollow, nuts tight, no brown wrapping.",
            "Look after 1 h and 10 h",
        ),
        Step(
            "knocker.yearly.wear",
            "yearly",
            "Look at plunger, block, spring, stops and the cable where it bends. Wipe the plunger dry: oil draws dust.",
            "Yearly look",
        ),
    )


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a knocker."""
    return (
        *pulse_guide.troubles(toy, sized, NOUN),
        Trouble(
            "Knocks dully",
            "the block has worn hollow or come loose",
            "look at the block, plug out",
            "flat, and tight to the panel",
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Those of any pulse coil, and the end stops."""
    found = pulse_coil.findings(toy, sized, path)
    if cast(Knocker, toy).end_stop:
        return found
    return (
        Finding(
            "end-stop-missing",
            Level.MUST,
            f"{sized.name} has no end stop: its plunger can leave the coil and fly out.",
            "end_stop: yes",
            "Fit a fixed stop at each end of the stroke before it is powered, then write end_stop: yes.",
            (*path, "end_stop"),
            sized.slug,
        ),
        *found,
    )


KIND = Kind(
    word="knocker",
    title="Knocker",
    slug="knocker",
    fields=Knocker,
    part=PartKind.SOLENOID,
    load=pulse_coil.load,
    introduction=introduction,
    cautions=cautions,
    mounting=mounting,
    steps=steps,
    tuning_notes=lambda toy, sized, dial: pulse_guide.tuning_notes(toy, sized, NOUN),
    play_notes=played("knocker"),
    troubles=troubles,
    emergency=(
        "The plunger stays drawn in: pull the plug at once; the coil burns within seconds to minutes.",
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "After either: do not touch the coil, and do not power it again before its resistance is right.",
    ),
    findings=findings,
    missing=pulse_coil.missing,
    pulse=pulse_coil.pulse_plan,
    worked=coil_questions.pulse_worked,
    weighed=weighed,
    questions=lambda toy, sized: coil_questions.of_pulses(toy, sized, pulse_coil.pulses_of(toy, sized)),
)
