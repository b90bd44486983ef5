"""A toy on a plain on/off port."""

from typing import Literal

from guide_gen.model.fields import ControlFields, PortedFields, key
from guide_gen.model.finding import Finding
from guide_gen.model.guide import Setting, Step, Trouble
from guide_gen.model.kind import Control, Dial
from guide_gen.model.plan import Sized
from guide_gen.model.ported import (
    full_strength_troubles_value,
    off_while_starting,
    port_circuit,
    port_name_settings,
    port_of,
)
from guide_gen.values import show


class OnOffPortFields(PortedFields):
    """The toy on a port that is either on or off."""

    type: Literal["on/off port"] = key("how it is driven", example="on/off port", ask="choose how the toy is driven")


def dial(fields: ControlFields) -> Dial | None:
    """On or off: there is nothing to set."""
    return None


def settings(fields: ControlFields, sized: Sized) -> tuple[Setting, ...]:
    """What to enter on the board's and on the game's side."""
    return port_name_settings(sized, "on/off, never PWM")


def steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """Setting the port up."""
    port = port_of(sized)
    return (
        Step(
            "on-off-port.settings.mode",
            "settings",
            f"Set port {port.number} of {port.board_id} to on/off and give it the name {sized.name}.",
            f"Port {port.number}: on/off",
        ),
        off_while_starting("on-off-port", sized),
    )


def sentence(fields: ControlFields, sized: Sized) -> str:
    """What feeds what, how it is switched."""
    port = port_of(sized)
    return f"port P{port.number} of board {port.board_id} switches its return to 0 V, on or off"


def control_words(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """How it is controlled."""
    port = port_of(sized)
    return (f"Software switches {port.board_id}:P{port.number} on or off. When the board starts the port is off.",)


def notes(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """What a reader should know of this control."""
    return ("On means full strength: there is nothing between off and full.",)


def troubles(fields: ControlFields, sized: Sized) -> tuple[Trouble, ...]:
    """Faults of the port."""
    port = port_of(sized)
    return (
        Trouble(
            "Never switches off",
            f"the switch {sized.ids['switch']} has failed closed",
            f"resistance from {port.board_id}:P{port.number} to 0 V, plug out, the toy's wire off the port",
            "open, not near zero",
        )
        if sized.load.momentary
        else Trouble(
            "Never switches off",
            f"the switch {sized.ids['switch']} has failed closed",
            f"voltage from {port.board_id}:P{port.number} to 0 V with the port off",
            f"{show.volts(sized.supply_low_V)} or more",
        ),
        Trouble(
            "Never switches on",
            "another port is wired, or the fuse is open",
            f"voltage from {sized.toy_plus} to {port.board_id}:0V with the port off; a meter is too slow for the pulse"
            if sized.load.momentary
            else f"voltage from {sized.toy_plus} to {sized.toy_minus} with the port on",
            f"{show.volts(sized.supply_low_V)} or more; the meter's bar flicks across the toy at each pulse"
            if sized.load.momentary
            else full_strength_troubles_value(sized),
        ),
    )


def findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A port with a load has no faults of its own kind."""
    return ()


CONTROL = Control(
    word="on/off port",
    title="On/off port",
    fields=OnOffPortFields,
    ported=True,
    contacts=8,
    circuit=port_circuit,
    dial=dial,
    settings=settings,
    steps=steps,
    sentence=sentence,
    control_words=control_words,
    notes=notes,
    troubles=troubles,
    findings=findings,
    short="On/off",
)
