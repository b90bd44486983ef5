"""A trimmer-set speed controller whose isolated input is switched by a port."""

from typing import Literal, cast

from guide_gen.model.circuit import Circuit, Part, PartKind
from guide_gen.model.fields import (
    ControlFields,
    Current,
    Frequency,
    Percent,
    PortedFields,
    Rail,
    RatedCurrent,
    Resistance,
    Run,
    Section,
    Text,
    YesNo,
    key,
)
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Setting, Step, Trouble
from guide_gen.model.kind import Control, Dial, Frame, Weighed
from guide_gen.model.plan import Sized, Value
from guide_gen.model.ported import off_while_starting, port_name_settings, port_of, two_speed_methods
from guide_gen.published.tables import rule
from guide_gen.values import show


class ControllerFields(Section):
    """The speed controller itself."""

    current: RatedCurrent = key("current that it may carry", example="10 A", ask="read it on its label or data sheet")
    pwm_frequency: Frequency = key("its PWM frequency", example="15 kHz", ask="look it up in its data sheet")
    run: Run = key(
        "length of wire from controller to toy", example="1.2 m", ask="measure with a string along the way of the wire"
    )
    input: Literal["on/off", "pwm"] = key("what its input wants", example="on/off", ask="look it up in its data sheet")
    input_voltage: Rail = key("voltage of its input", example="12 V", ask="look it up in its data sheet")
    input_current: Current = key(
        "current of its input: all that the port carries",
        example="8 mA (datasheet)",
        ask="look it up in its data sheet, or measure it on a multimeter's mA range",
    )
    input_from: Literal["behind the fuse", "before the fuse"] = key(
        "where its input takes its plus: behind the feed's fuse, or before it with a fuse of its own",
        example="behind the fuse",
        ask="decide where the input's plus wire starts",
    )
    lowest: Text = key(
        "the end of the trimmer that its maker marks as lowest",
        example="fully counter-clockwise",
        ask="look for the mark at the trimmer; commonly fully counter-clockwise",
    )
    suppressor: YesNo = key(
        "whether it has a diode across its output inside", example="yes", default="no", source="this project"
    )
    reverses: YesNo = key("whether its output can reverse", example="no", default="no", source="this project")
    resistance: Resistance = key(
        "resistance from its plus to its output, switched on",
        example="10 mohm (datasheet)",
        default="10 mohm (estimate)",
        source="this project: estimate, 5 to 30 mohm",
    )


class SpeedControllerFields(PortedFields):
    """The toy behind a speed controller."""

    type: Literal["speed controller"] = key(
        "how it is driven", example="speed controller", ask="choose how the toy is driven"
    )
    port_set_to: Literal["on/off", "pwm"] = key(
        "how the port is set up", example="on/off", default="on/off", source="this project"
    )
    limit: Percent | None = key("a limit that stands in the port", example="40 %")
    controller: ControllerFields = key(
        "the speed controller",
        example="{current: 10 A}",
        ask="describe the controller: current, pwm_frequency, run, input and the rest",
    )


def of(fields: ControlFields) -> ControllerFields:
    """The speed controller itself."""
    return cast(SpeedControllerFields, fields).controller


def set_to(fields: ControlFields) -> str:
    """How the port is set up."""
    return cast(SpeedControllerFields, fields).port_set_to


def weighed(fields: ControlFields) -> tuple[Weighed, ...]:
    """Its resistance, where it is stated."""
    if "resistance" not in of(fields).model_fields_set:
        return ()
    return (
        Weighed(
            "the controller's resistance",
            of(fields).resistance,
            ("controller", "resistance"),
            "a multimeter's millivolts from its plus to its output at full, over the current",
        ),
    )


def circuit(fields: ControlFields, frame: Frame) -> Circuit:
    """Supply, fuse, controller, load and back; beside it the isolated input, switched by a port."""
    controller = cast(SpeedControllerFields, fields).controller
    assert frame.board_return is not None
    box = frame.controller_id
    motor_m = controller.run.high
    feed = frame.wire(1, frame.source, f"{box}:+", frame.plus, frame.feed_m, "feed")
    back = frame.wire(2, f"{box}:-", frame.zero_end, frame.zero, frame.return_m, "return")
    motor_plus = frame.wire(3, f"{box}:M+", frame.plus_end, frame.plus, motor_m, "motor plus")
    motor_minus = frame.wire(4, frame.minus_end, f"{box}:M-", frame.back, motor_m, "motor minus")
    input_plus = frame.wire(5, frame.signal_source, f"{box}:IN+", frame.signal, frame.feed_m, "input plus")
    input_back = frame.wire(6, f"{box}:IN-", frame.port, frame.signal, frame.feed_m, "input return")
    return Circuit(
        parts=(
            *frame.feed_parts(),
            *frame.signal_parts(),
            Part(
                box,
                PartKind.CONTROLLER,
                show.amps(controller.current.low),
                ("+", "-", "IN+", "IN-", "M+", "M-"),
                (f"PWM {show.hertz(controller.pwm_frequency.low)}",),
            ),
            Part(f"R{frame.number}", PartKind.TRIMMER, "trimmer", (), inside=box),
            *frame.port_parts(),
        ),
        wires=(
            *frame.feed_wires(),
            feed,
            back,
            motor_plus,
            motor_minus,
            input_plus,
            input_back,
            *frame.zero_wires(),
            frame.board_return,
        ),
        joints=(
            *frame.load_joints(),
            *frame.port_joints(),
            *frame.signal_joints(),
        ),
        main=(
            *frame.feed_path(),
            feed.id,
            box,
            motor_plus.id,
            *frame.load_path(),
            motor_minus.id,
            box,
            back.id,
            *frame.zero_path(),
        ),
        control=(
            *frame.signal_path(),
            input_plus.id,
            box,
            input_back.id,
            *frame.port_path(),
        ),
    )


def dial(fields: ControlFields) -> Dial | None:
    """Strength is the trimmer's turn from its lowest end."""
    lowest = cast(SpeedControllerFields, fields).controller.lowest
    return Dial(
        lowest=lowest,
        to_lowest=f"Turn the trimmer to its lowest end, {lowest}.",
        smallest_step="With an insulated screwdriver, turn the trimmer up by a few degrees: about the width of a "
        "minute on a clock face.",
        unit="°",
        full="the other end of the trimmer",
        begin=lowest,
    )


def settings(fields: ControlFields, sized: Sized) -> tuple[Setting, ...]:
    """What to enter on the board's side, and where the trimmer stands at first."""
    control = cast(SpeedControllerFields, fields)
    mode = "on/off, never PWM" if control.controller.input == "on/off" else "as the controller's input wants it"
    return (
        *port_name_settings(sized, mode),
        Setting("controller", "trimmer, before tuning", control.controller.lowest, "the end marked as lowest"),
    )


def steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """Port on/off, trimmer at its lowest end, before anything can turn."""
    control = cast(SpeedControllerFields, fields)
    port, lowest = port_of(sized), control.controller.lowest
    mode = "on/off" if control.controller.input == "on/off" else "PWM"
    return (
        Step(
            "speed-controller.settings.mode",
            "settings",
            f"Set port {port.number} of {port.board_id} to {mode} and give it the name {sized.name}.",
            f"Port {port.number}: {mode}",
            more="The trimmer alone sets the strength. PWM from the port would confuse a plain on/off input."
            if mode == "on/off"
            else "The controller's input is made for PWM.",
        ),
        Step(
            "speed-controller.wire.lowest",
            "wire",
            f"Find the trimmer R{sized.number}, and turn it to the end marked as lowest: {lowest}.",
            "Trimmer at its lowest end",
            killer=True,
            more="Commonly that is fully counter-clockwise; the controller's maker decides. A trimmer of many turns "
            "clicks or turns freely at its end.",
        ),
        Step(
            "speed-controller.before.lowest",
            "before-supply",
            f"The trimmer R{sized.number} is at its lowest end: {lowest}.",
            "Trimmer at its lowest end",
            killer=True,
        ),
        off_while_starting("speed-controller", sized),
    )


def sentence(fields: ControlFields, sized: Sized) -> str:
    """What feeds what, how it is switched."""
    port = port_of(sized)
    return (
        f"the trimmer of speed controller {sized.ids['controller']} sets its strength, and port P{port.number} of "
        f"board {port.board_id} switches the controller's input on or off"
    )


def control_words(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """How it is controlled."""
    controller, port = cast(SpeedControllerFields, fields).controller, port_of(sized)
    return (
        f"Software switches {port.board_id}:P{port.number} on or off; the port carries only the "
        f"{show.amps(controller.input_current.high)} of the isolated input.",
        f"R{sized.number} inside {sized.ids['controller']} sets the speed; lowest: {controller.lowest}.",
    )


def notes(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """The port's fuse is not the motor's."""
    controller = cast(SpeedControllerFields, fields).controller
    return (
        f"The motor's current flows through {sized.ids['controller']}, not through the port. A fuse at the port or in "
        f"its return carries only the {show.amps(controller.input_current.high)} of the input and cannot protect the "
        f"motor's wires: the feed has {sized.ids.get('fuse', 'to have a fuse')} of its own.",
        "Trimmer or port: one thing sets the strength. Here it is the trimmer.",
        "The wires of the input are counted as long as the feed.",
    )


def troubles(fields: ControlFields, sized: Sized) -> tuple[Trouble, ...]:
    """Faults of controller and input."""
    port, box = port_of(sized), sized.ids["controller"]
    controller = cast(SpeedControllerFields, fields).controller
    return (
        Trouble(
            "Never turns, at no position of the trimmer",
            "the input gets no current: port off, or plus and minus of the input swapped",
            f"voltage from {box}:IN+ to {box}:IN- with the port on",
            f"about {show.volts(controller.input_voltage.middle)}",
        ),
        Trouble(
            "Turns whenever the supply is on",
            f"{port.board_id}:P{port.number} stays on, or the input is bridged",
            f"voltage from {box}:IN+ to {box}:IN- with the port off",
            "below 1 V",
        ),
        Trouble(
            "Full speed at once", "the trimmer stands at the wrong end", "look at the trimmer's mark", controller.lowest
        ),
    )


def findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """One method of setting the speed, fed as the input wants it, by a controller that is large enough."""
    control = cast(SpeedControllerFields, fields)
    controller, found = control.controller, []
    if control.port_set_to == "pwm" and controller.input == "on/off":
        found.append(
            Finding(
                "pwm-into-on-off-input",
                Level.MUST,
                f"Port {control.port} is set to PWM, and the input of the speed controller wants plain on/off: it "
                f"would "
                "chatter, overheat or ignore the setting.",
                "a port set to on/off",
                "Set the port to on/off, and set the strength with the trimmer.",
                (*path, "port_set_to"),
                sized.slug,
            )
        )
    if control.port_set_to == "pwm" and control.limit is not None:
        found.append(
            two_speed_methods(
                (*path, "limit"),
                sized.slug,
                f"The trimmer and the port's limit of {show.percent(control.limit.high)} both set the strength: "
                f"nobody can "
                "tell later which one was changed.",
                "Take the limit out, set the port to on/off, and use the trimmer alone.",
            )
        )
    elif controller.input == "pwm":
        found.append(
            two_speed_methods(
                (*path, "controller", "input"),
                sized.slug,
                "The trimmer and PWM at the controller's input both set the strength: nobody can tell later which one "
                "was "
                "changed.",
                "Choose one. The trimmer: a controller whose input takes on/off; write input: on/off and port_set_to: "
                "on/off. Or the port: no controller, but type: pwm port, on a port for "
                f"{show.amps(show.rounded_up(sized.load.design_current_A / rule('usable port share').value))} or more.",
            )
        )
    if controller.current.low < sized.load.design_current_A:
        found.append(
            Finding(
                "port-overloaded",
                Level.MUST,
                f"The speed controller may carry {show.amps(controller.current.low)}; the toy draws up to "
                f"{show.amps(sized.load.design_current_A)} at full voltage.",
                f"a controller for {show.amps(sized.load.design_current_A)} or more",
                f"Take a controller rated for at least {show.amps(sized.load.design_current_A / 0.8)}, which leaves a "
                f"fifth "
                "in reserve.",
                (*path, "controller", "current"),
                sized.slug,
            )
        )
    if abs(controller.input_voltage.middle - sized.supply_V) > 0.1 * sized.supply_V:
        found.append(
            Finding(
                "voltage-mismatch",
                Level.MUST,
                f"The controller's input wants {show.volts(controller.input_voltage.middle)} and would get "
                f"{show.volts(sized.supply_V)} from its supply.",
                f"an input for {show.volts(sized.supply_V)}",
                "Take a controller whose input fits the supply, or feed the input from a supply of its voltage.",
                (*path, "controller", "input_voltage"),
                sized.slug,
            )
        )
    return tuple(found)


CONTROL = Control(
    word="speed controller",
    title="Trimmer-set speed controller",
    fields=SpeedControllerFields,
    ported=True,
    contacts=10,
    circuit=circuit,
    dial=dial,
    settings=settings,
    steps=steps,
    sentence=sentence,
    control_words=control_words,
    notes=notes,
    troubles=troubles,
    findings=findings,
    short="Trimmer",
    chops=True,
    signal="the controller's input",
    port_current_A=lambda fields, load: of(fields).input_current.high,
    port_words=lambda fields, frequency: ("PWM",) if set_to(fields) == "pwm" else ("on/off",),
    set_to=set_to,
    switch=lambda fields: of(fields).resistance,
    own_fuse=lambda fields: of(fields).input_from == "before the fuse",
    suppresses=lambda fields: of(fields).suppressor,
    reverses=lambda fields: of(fields).reverses,
    weighed=weighed,
    values=lambda fields: (Value("Trimmer, lowest", "", "", of(fields).lowest),),
)
