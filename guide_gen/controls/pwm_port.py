"""A toy on a PWM port: the port switches the return many times a second."""

from typing import Literal, cast

from guide_gen.model.circuit import PartKind
from guide_gen.model.fields import ControlFields, Percent, PortedFields, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Setting, Step, Trouble
from guide_gen.model.kind import Control, Dial
from guide_gen.model.plan import Sized, Value
from guide_gen.model.ported import (
    full_strength_troubles_value,
    off_while_starting,
    port_circuit,
    port_name_settings,
    port_of,
)
from guide_gen.values import show
from guide_gen.values.quantity import Quantity


class PwmPortFields(PortedFields):
    """The toy on a PWM port of a driver board."""

    type: Literal["pwm port"] = key("how it is driven", example="pwm port", ask="choose how the toy is driven")
    limit: Percent | None = key("the highest value that the port may give", example="12 %")


def dial(fields: ControlFields) -> Dial:
    """Strength is the port's highest value in percent."""
    limit = cast(PwmPortFields, fields).limit
    ceiling = f" Never go above {show.percent(limit.high)}, the limit of this build." if limit else ""
    return Dial(
        lowest="0 %",
        to_lowest="Set the port's highest value to 0 %.",
        smallest_step="Raise the port's highest value by 1 %, or by the board's smallest step if that is larger."
        + ceiling,
        unit="%",
        full="100 %",
        begin="0 %",
        limit=100 * limit.high if limit else None,
    )


def settings(fields: ControlFields, sized: Sized) -> tuple[Setting, ...]:
    """What to enter on the board's and on the game's side."""
    port = port_of(sized)
    frequency = show.hertz(port.pwm_frequency_Hz) if port.pwm_frequency_Hz else "as the board has it"
    limit = cast(PwmPortFields, fields).limit
    return (
        *port_name_settings(sized, "PWM"),
        Setting("board", "PWM frequency", frequency, depends(sized)),
        Setting("board", "highest value of the port, before tuning", "0 %", "nothing may start at first power"),
        *(
            (
                Setting(
                    "board",
                    "highest value of the port, never above",
                    show.percent(limit.high),
                    "the limit of this build",
                ),
            )
            if limit
            else ()
        ),
    )


def depends(sized: Sized) -> str:
    """What the frequency decides, by what is driven."""
    what = sized.circuit.part(sized.ids["load"]).what
    if what in (PartKind.MOTOR, PartKind.FAN):
        return "the speed that a setting gives depends on it"
    if what is PartKind.LAMP:
        return "the light that a setting gives depends on it, and whether it flickers"
    return "the pull that a setting gives depends on it, and how its coil hums"


def port_words(fields: ControlFields, frequency: Quantity | None) -> tuple[str, ...]:
    """Frequency and limit."""
    limit = cast(PwmPortFields, fields).limit
    pwm = f"PWM {show.hertz(frequency.low)}" if frequency else "PWM"
    return (pwm, *((f"limit {show.percent(limit.high)}",) if limit else ()))


def values(fields: ControlFields) -> tuple[Value, ...]:
    """The limit in the port."""
    limit = cast(PwmPortFields, fields).limit
    if limit is None:
        return ()
    return (Value("Limit in the port", *show.figure_and_unit(show.percent(limit.high)), "highest value, never above"),)


def steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """Setting the port up before anything can turn."""
    port = port_of(sized)
    return (
        Step(
            "pwm-port.settings.mode",
            "settings",
            f"Set port {port.number} of {port.board_id} to PWM and give it the name {sized.name}.",
            f"Port {port.number}: PWM",
            more="A port set to on/off gives full strength at once.",
        ),
        Step(
            "pwm-port.settings.zero",
            "settings",
            f"Enter 0 % as the highest value of port {port.number}.",
            "Highest value 0 %",
            killer=True,
            more="A manual test of an output may ignore this value: do not use one until the toy is tuned.",
        ),
        Step(
            "pwm-port.before.zero",
            "before-supply",
            f"The highest value of port {port.number} is 0 %.",
            "Port at 0 %",
            killer=True,
        ),
        off_while_starting("pwm-port", sized),
    )


def sentence(fields: ControlFields, sized: Sized) -> str:
    """What feeds what, how it is switched."""
    port = port_of(sized)
    often = (
        f", {show.count(port.pwm_frequency_Hz)} times a second" if port.pwm_frequency_Hz else ", many times a second"
    )
    return f"port P{port.number} of board {port.board_id} switches its return to 0 V{often}"


def control_words(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """How it is controlled."""
    port = port_of(sized)
    limit = cast(PwmPortFields, fields).limit
    top = show.percent(limit.high) if limit else "100 %"
    return (f"Software sets {port.board_id}:P{port.number} from 0 to {top}. When the board starts the port is off.",)


def notes(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """What a reader should know of this control."""
    return (
        "A limit in software can be lost: a failed switch or a manual test gives full strength. So fuse and wire "
        f"are sized for the full {show.amps(sized.load.design_current_A)}.",
    )


def troubles(fields: ControlFields, sized: Sized) -> tuple[Trouble, ...]:
    """Faults of the port."""
    port = port_of(sized)
    return (
        Trouble(
            "Runs at full strength at once",
            f"the switch {sized.ids['switch']} has failed closed, or the port is set to on/off",
            f"voltage from {port.board_id}:P{port.number} to 0 V with the port off",
            f"{show.volts(sized.supply_low_V)} or more",
        ),
        Trouble(
            "Never runs, at no setting",
            "the highest value is still 0 %, or another port is wired",
            f"voltage from {sized.toy_plus} to {sized.toy_minus} with the port at 100 %, toy unplugged and hands out",
            full_strength_troubles_value(sized),
        ),
    )


def findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A limit that lets nothing through."""
    limit = cast(PwmPortFields, fields).limit
    if limit is None or limit.high > 0:
        return ()
    return (
        Finding(
            "implausible",
            Level.MUST,
            f"The port's limit is 0 %: {sized.name} never does anything, and there is nothing to tune.",
            "a limit above 0 %, at which it works",
            "Leave limit out until it is tuned; then write the highest value that the port may give.",
            (*path, "limit"),
            sized.slug,
        ),
    )


CONTROL = Control(
    word="pwm port",
    title="PWM port",
    fields=PwmPortFields,
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
    short="PWM",
    chops=True,
    port_words=port_words,
    set_to=lambda fields: "pwm",
    values=values,
)
