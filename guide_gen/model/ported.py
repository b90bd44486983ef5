"""What every control with a port has in common: circuit, settings and sentences of a low-side switched port."""

from typing import Any

from guide_gen.model.circuit import Circuit
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Setting, Step
from guide_gen.model.kind import Frame
from guide_gen.model.plan import PortPlan, Question, Sized


def port_circuit(fields: Any, frame: Frame) -> Circuit:
    """Supply, fuse, load, port, 0 V: the port switches the load's return."""
    assert frame.board_return is not None
    feed = frame.wire(1, frame.source, frame.plus_end, frame.plus, frame.feed_m, "feed")
    back = frame.wire(2, frame.minus_end, frame.port, frame.back, frame.return_m, "return")
    return Circuit(
        parts=(*frame.feed_parts(), *frame.port_parts()),
        wires=(*frame.feed_wires(), feed, back, frame.board_return),
        joints=(*frame.load_joints(), *frame.port_joints()),
        main=(*frame.feed_path(), feed.id, *frame.load_path(), back.id, *frame.port_path()),
    )


def port_of(sized: Sized) -> PortPlan:
    """The port of a toy whose control has one."""
    assert sized.port is not None
    return sized.port


def port_name_settings(sized: Sized, mode: str) -> tuple[Setting, ...]:
    """Number, name and mode of the port: what every board's software asks for under some name."""
    port = port_of(sized)
    return (
        Setting("board", "port number", str(port.number), f"wired to it as {port.board_id}:P{port.number}"),
        Setting("board", "name of the port", sized.name, "so that others find it"),
        Setting("board", "how the port works", mode),
    )


def full_strength_troubles_value(sized: Sized) -> str:
    """Voltage to expect across the toy at full strength."""
    low = max(0.0, sized.supply_low_V - sized.wire.drop_V)
    return f"{low:.1f} to {sized.supply_high_V:.1f} V"


def two_speed_methods(path: tuple[str, ...], toy: str, message: str, mend: str) -> Finding:
    """Both a trimmer and a port's PWM govern one toy."""
    return Finding("two-speed-methods", Level.SHOULD, message, "one way to set the speed", mend, path, toy)


def off_while_starting(control: str, sized: Sized) -> Step:
    """A port must not float while its board starts. control: first part of the step's id."""
    return Step(
        f"{control}.first.off",
        "first-power",
        f"From outside, plug in and restart the board's computer. {sized.ids['load']} does nothing the whole time.",
        "Off while starting",
        killer=True,
        more="If it starts, the port floats while the board starts: pull the plug, and add what the board's "
        "maker advises to hold it off.",
    )


def dc_contact(here: str) -> Question:
    """Whether an AC rating counts on DC. here: what this build's contact switches, and its DC rating."""
    return Question(
        "contact-dc",
        "250 V AC is printed on the contact. Is that enough for 48 V DC?",
        "No: an AC arc goes out a hundred times a second by itself, a DC arc does not. Only the DC figure counts, and "
        f"with a coil or motor behind it a lower one. {here}",
        "wiring",
    )
