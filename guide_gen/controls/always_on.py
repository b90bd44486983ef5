"""A toy that runs whenever its supply is on."""

from typing import Literal

from guide_gen.model.circuit import Circuit
from guide_gen.model.fields import ControlFields, key
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Setting, Step, Trouble
from guide_gen.model.kind import Control, Dial, Frame
from guide_gen.model.plan import Sized
from guide_gen.model.ported import full_strength_troubles_value
from guide_gen.model.shaking import feed_open, too_much_at_full


class AlwaysOnFields(ControlFields):
    """No port: on with the supply."""

    type: Literal["always on"] = key("how it is driven", example="always on", ask="choose how the toy is driven")


def circuit(fields: ControlFields, frame: Frame) -> Circuit:
    """Supply, fuse, load, 0 V."""
    feed = frame.wire(1, frame.source, frame.plus_end, frame.plus, frame.feed_m, "feed")
    back = frame.wire(2, frame.minus_end, frame.zero_end, frame.zero, frame.return_m, "return")
    return Circuit(
        parts=frame.feed_parts(),
        wires=(*frame.feed_wires(), feed, back, *frame.zero_wires()),
        joints=frame.load_joints(),
        main=(*frame.feed_path(), feed.id, *frame.load_path(), back.id, *frame.zero_path()),
    )


def dial(fields: ControlFields) -> Dial | None:
    """Always full: there is nothing to set."""
    return None


def settings(fields: ControlFields, sized: Sized) -> tuple[Setting, ...]:
    """Nothing to enter anywhere."""
    return ()


def steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """It starts with the supply: say so before the plug goes in."""
    if too_much_at_full(sized):
        held = sized.ids["load"]
        return (
            Step(
                "always-on.first.out",
                "first-power",
                f"{feed_open(sized)} before you plug in: {held} would start at once, at full strength, and that most "
                "likely is more than the contents stand.",
                "Its feed stays open",
                killer=True,
            ),
        )
    return (
        Step(
            "always-on.first.starts",
            "first-power",
            f"Plug in from outside and expect {sized.ids['load']} to start at once, at full strength.",
            "Starts with the supply",
            killer=True,
        ),
    )


def sentence(fields: ControlFields, sized: Sized) -> str:
    """What feeds what, how it is switched."""
    return "nothing switches it, it runs whenever the supply is on"


def control_words(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """How it is controlled."""
    return ("None: on with the supply, off with the plug.",)


def notes(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """What a reader should know of this control."""
    return ("It runs at full strength whenever the supply is on, and only the plug stops it.",)


def troubles(fields: ControlFields, sized: Sized) -> tuple[Trouble, ...]:
    """Faults of the feed."""
    return (
        Trouble(
            "Never runs",
            "the fuse is open, or a joint is loose",
            f"voltage from {sized.toy_plus} to {sized.toy_minus}",
            full_strength_troubles_value(sized),
        ),
    )


def findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Nothing to contradict."""
    return ()


CONTROL = Control(
    word="always on",
    title="Always on",
    fields=AlwaysOnFields,
    ported=False,
    contacts=6,
    circuit=circuit,
    dial=dial,
    settings=settings,
    steps=steps,
    sentence=sentence,
    control_words=control_words,
    notes=notes,
    troubles=troubles,
    findings=findings,
    short="Always on",
)
