"""The few values that a builder looks up, for the strip at the head of a page."""

from dataclasses import replace

from guide_gen.model.fields import ToyFields
from guide_gen.model.kind import Control
from guide_gen.model.plan import FusePlan, Sized, Value
from guide_gen.planning.motion_readings import in_volts
from guide_gen.values import show
from guide_gen.values.quantity import Basis


def values(toy: ToyFields, sized: Sized, control: Control) -> tuple[Value, ...]:
    """Supply, current, fuse, wire, control, port, setting, as left."""
    return (
        Value(
            "Supply",
            *show.figure_and_unit(show.volts(sized.supply_V)),
            f"{sized.supply_id}, {show.amps(sized.supply_rated_A)}"
            + (f"; by block {sized.ids['block']}" if "block" in sized.ids else ""),
        ),
        current(toy, sized),
        sized_for(sized, fuse(sized.fuse)),
        *((fuse(sized.signal_fuse, control.signal),) if sized.signal_fuse else ()),
        sized_for(sized, wire(sized)),
        Value(
            "Control",
            control.short,
            "",
            control_note(sized, control),
        ),
        *port(sized),
        *control.values(toy.control),
        *as_left(toy),
    )


def sized_for(sized: Sized, value: Value) -> Value:
    """A size with its mark where the current that it is for is an estimate."""
    estimate = sized.load.basis is Basis.ESTIMATE
    return replace(value, basis=Basis.ESTIMATE, estimate=True) if estimate else value


def wire(sized: Sized) -> Value:
    """The wire, its run and what it loses."""
    return Value(
        "Wire",
        *show.figure_and_unit(sized.wire.size.shown),
        f"run {show.metres(sized.wire.run_m, sized.units)}; drop {show.volts(sized.wire.drop_V)}, "
        f"{sized.wire.drop_percent:.1f} %",
    )


def doubted(sized: Sized) -> str:
    """What it is sized for in place of its current as written; "" where it is sized for that."""
    drawn_A = sized.load.design_current_A
    return f"sized for {show.amps(drawn_A)}, by its resistance" if drawn_A > sized.load.current.high else ""


def current(toy: ToyFields, sized: Sized) -> Value:
    """What it draws, with its basis."""
    basis = sized.load.basis
    figure, unit = show.figure_and_unit(show.quantity(toy.current))
    return Value(
        "Current",
        figure,
        unit,
        doubted(sized) or toy.current.how or f"at {show.volts(sized.load.voltage_V)}",
        basis,
        basis is Basis.ESTIMATE,
    )


def fuse(plan: FusePlan, of: str = "") -> Value:
    """A fuse and what is needed. of: what it feeds in place of the load."""
    if plan.rating_A is None:
        return Value("Fuse", "none", "", f"needed {show.amps(plan.needed_A)}")
    rated = f", {show.volts(plan.voltage_V)} DC" if plan.voltage_V else ""
    return Value(
        f"Fuse {plan.id}",
        *show.figure_and_unit(show.amps(plan.rating_A)),
        (f"of {of}; " if of else "") + f"{plan.series}{rated}; needed {show.amps(plan.needed_A)}",
    )


def control_note(sized: Sized, control: Control) -> str:
    """Frequency, where the port chops the load."""
    if control.chops and control.port_carries_load and sized.port and sized.port.pwm_frequency_Hz:
        return f"{show.hertz(sized.port.pwm_frequency_Hz)}, switched to 0 V"
    return control.title


def port(sized: Sized) -> tuple[Value, ...]:
    """Board and port."""
    if sized.port is None:
        return ()
    return (
        Value(
            "Port",
            f"{sized.port.board_id}:P{sized.port.number}",
            "",
            f"{sized.port.board}, carries {show.amps(sized.port.load_A)}",
        ),
    )


def as_left(toy: ToyFields) -> tuple[Value, ...]:
    """What was found when the job was finished."""
    found = toy.found
    if found is None:
        return ()
    date = found.date or ""
    if found.setting is not None:
        left = found.setting
        shown = show.volts(left.middle) if in_volts(left) else show.percent(left.middle)
        return (Value("As left", *show.figure_and_unit(shown), date),)
    if found.trimmer is not None:
        return (Value("As left", "", "", f"{found.trimmer}; {date}" if date else found.trimmer),)
    return ()
