"""A toy behind a relay or contactor: a port switches its coil, its contact switches the load."""

from typing import Annotated, Literal, cast

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.coil import steady_current_A
from guide_gen.formulas.kickback import decay_time_s
from guide_gen.model.circuit import Circuit, Part, PartKind
from guide_gen.model.coil import Inductance
from guide_gen.model.fields import (
    ControlFields,
    Current,
    MapOrWord,
    PortedFields,
    Rail,
    RatedCurrent,
    RatedVoltage,
    Resistance,
    Run,
    Section,
    SuppressorFields,
    SuppressorType,
    key,
)
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Reading, Setting, Step, Trouble
from guide_gen.model.kind import Coil, Control, Dial, Frame, Missing, Weighed, joints_across
from guide_gen.model.plan import Load, Question, Sized, Suppression, Value
from guide_gen.model.ported import dc_contact, full_strength_troubles_value, port_name_settings, port_of
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import Basis
from guide_gen.values.worked import Worked, work

READING_SPREAD = (
    0.15  # of a coil's resistance: its tolerance and the temperature of the room; this project, an estimate
)
DROP_V = rule("silicon diode drop").low or 0.0  # the low end: the slowest
NOT_TAKEN = ("none", "not needed", "in the controller")


class RelayParts(Section):
    """The relay or contactor itself."""

    coil_voltage: Rail = key("voltage of its coil", example="12 V", ask="read it on the relay")
    coil_resistance: Resistance = key(
        "resistance of its coil",
        example="150 ohm (datasheet)",
        ask="look it up in its data sheet, or measure it on a multimeter's ohms range, the relay unplugged",
    )
    contact_current: RatedCurrent = key(
        "current that its contact may switch, the DC rating",
        example="10 A",
        ask="read the figure for DC on the relay or in its data sheet; the figure for AC never counts",
    )
    contact_voltage: RatedVoltage = key(
        "voltage that its contact may switch at that current, the DC rating",
        example="30 V",
        ask="read the figure for DC on the relay or in its data sheet; the figure for AC never counts",
    )
    making_current: RatedCurrent | None = key(
        "current that its contact may make for a moment, for loads that draw more at their start: lamps, motors",
        example="40 A (datasheet)",
    )
    contact_resistance: Resistance = key(
        "resistance of its closed contact",
        example="10 mohm (datasheet)",
        default="10 mohm (estimate)",
        source="this project: estimate, 5 to 30 mohm",
    )
    run: Run = key(
        "length of wire from relay to toy", example="0.15 m", default="0.15 m", source="this project: beside the toy"
    )
    coil_inductance: Inductance | None = key(
        "inductance of its coil, closed; it decides how fast the relay lets go", example="0.5 H (datasheet)"
    )
    release_current: Current | None = key(
        "current of the coil at which it has let go; left out: a tenth of the coil's current",
        example="10 mA (measured)",
    )
    suppressor: Annotated[SuppressorFields | SuppressorType, MapOrWord()] | None = key(
        "what takes the kickback of its coil", example="diode", chosen="a diode across the coil"
    )


class RelayFields(PortedFields):
    """The toy behind a relay or contactor."""

    type: Literal["relay"] = key("how it is driven", example="relay", ask="choose how the toy is driven")
    relay: RelayParts = key(
        "the relay or contactor",
        example="{coil_voltage: 12 V}",
        ask="describe the relay: coil_voltage, coil_resistance, contact_current and contact_voltage",
    )


def of(fields: ControlFields) -> RelayParts:
    """The relay itself."""
    return cast(RelayFields, fields).relay


def coil_A(fields: ControlFields) -> float:
    """What the port carries: the coil at its own voltage, its resistance at its low end."""
    relay = of(fields)
    return steady_current_A(voltage_V=relay.coil_voltage.high, resistance_ohm=relay.coil_resistance.low)


def release_A(fields: ControlFields) -> float:
    """Below this it has let go."""
    stated = of(fields).release_current
    return min(stated.low, coil_A(fields)) if stated else rule("release share of a coil").value * coil_A(fields)


def coil(fields: ControlFields) -> Coil:
    """The coil that kicks back at the port."""
    relay, current = of(fields), coil_A(fields)
    inductance = relay.coil_inductance
    load = Load(
        current,
        relay.coil_voltage.low / relay.coil_resistance.high,
        relay.coil_voltage.middle,
        relay.coil_resistance.basis or Basis.ESTIMATE,
        relay.coil_resistance,
        True,
        resistance_ohm=(relay.coil_resistance.low, relay.coil_resistance.high),
        inductance_H=(inductance.low, inductance.high) if inductance else None,
        release_A=release_A(fields),
        slow_release_s=rule("slow release").value,
    )
    return Coil(load, relay.suppressor, ("relay", "suppressor"))


def weighed(fields: ControlFields) -> tuple[Weighed, ...]:
    """Its resistances, as far as they are stated."""
    relay = of(fields)
    found = [
        Weighed(
            "the relay coil's resistance",
            relay.coil_resistance,
            ("relay", "coil_resistance"),
            "a multimeter's ohms range, the relay unplugged",
        )
    ]
    if "contact_resistance" in relay.model_fields_set:
        found.append(
            Weighed(
                "the contact's resistance",
                relay.contact_resistance,
                ("relay", "contact_resistance"),
                "a multimeter's millivolts across the closed contact, over the current through it",
            )
        )
    if relay.coil_inductance is not None:
        found.append(
            Weighed(
                "the relay coil's inductance",
                relay.coil_inductance,
                ("relay", "coil_inductance"),
                "an inductance meter, armature pushed in",
            )
        )
    return tuple(found)


def box_id(number: int) -> str:
    """The relay's designator."""
    return f"K{number}B"


def circuit(fields: ControlFields, frame: Frame) -> Circuit:
    """Supply, fuse, contact, load, 0 V; beside it the coil behind the same fuse or its own, switched by a port."""
    assert frame.board_return is not None
    relay, box = of(fields), box_id(frame.number)
    onward_m = relay.run.high
    feed = frame.wire(1, frame.source, f"{box}:11", frame.plus, frame.feed_m, "feed")
    back = frame.wire(2, frame.minus_end, frame.zero_end, frame.zero, frame.return_m + onward_m, "return")
    onward = frame.wire(3, f"{box}:14", frame.plus_end, frame.plus, onward_m, "relay to toy")
    coil_plus = frame.wire(4, frame.signal_source, f"{box}:A1", frame.signal, frame.feed_m, "coil plus")
    coil_back = frame.wire(5, f"{box}:A2", frame.port, frame.signal, frame.feed_m, "coil return")
    return Circuit(
        parts=(
            *frame.feed_parts(),
            *frame.signal_parts(),
            Part(
                box,
                PartKind.RELAY,
                "relay",
                ("11", "14", "A1", "A2"),
                (
                    f"coil {show.volts(relay.coil_voltage.middle)}, {show.quantity(relay.coil_resistance)}",
                    f"contact {show.amps(relay.contact_current.low)}, {show.volts(relay.contact_voltage.low)} DC",
                ),
            ),
            *frame.coil_suppressors,
            *frame.port_parts(),
        ),
        wires=(
            *frame.feed_wires(),
            feed,
            back,
            onward,
            coil_plus,
            coil_back,
            *frame.zero_wires(),
            frame.board_return,
        ),
        joints=(
            *frame.load_joints(),
            *joints_across(frame.coil_suppressors, f"{box}:A1", f"{box}:A2"),
            *frame.port_joints(),
            *frame.signal_joints(),
        ),
        main=(
            *frame.feed_path(),
            feed.id,
            box,
            onward.id,
            *frame.load_path(),
            back.id,
            *frame.zero_path(),
        ),
        control=(*frame.signal_path(), coil_plus.id, box, coil_back.id, *frame.port_path()),
    )


def dial(fields: ControlFields) -> Dial | None:
    """On or off: there is nothing to set."""
    return None


def settings(fields: ControlFields, sized: Sized) -> tuple[Setting, ...]:
    """What to enter on the board's and on the game's side."""
    return port_name_settings(sized, "on/off, never PWM")


def coil_steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """The coil's suppressor, checked before it is fitted, and the coil on a meter.

    Across the coil nothing tells its direction: an ohms range stays below what any silicon diode needs to conduct.
    """
    relay, box, coil, diode = of(fields), box_id(sized.number), sized.coil, sized.ids.get("coil diode")
    low, high = relay.coil_resistance.low, relay.coil_resistance.high
    banded = f" The band of {diode} is at {box}:A1." if diode else ""
    fitted = (
        (
            Step(
                "relay.wire.diode",
                "wire",
                f"Before {diode} is fitted, diode range: red on its end without the band, black on the end with it. "
                "Then the other way round: it shows open.",
                f"{diode} whole, its band known",
                killer=True,
                record=Reading(
                    f"Forward voltage of {diode}",
                    "the end without the band (red) and the end with it (black)",
                    coil.drop_low_V,
                    coil.drop_high_V,
                    "V",
                    "Open both ways: broken. Near zero both ways: shorted. A value only with red on the band: it is "
                    "marked wrongly; throw it away.",
                    "diode range; once it lies across the coil no meter tells which way round it is",
                ),
            ),
            Step(
                "relay.wire.suppressor",
                "wire",
                f"Fit {diode} across {box}:A1 and {box}:A2, the end with the band to {box}:A1.",
                f"Fit {diode}, band to {box}:A1",
                killer=True,
                more="The wrong way round it is a short circuit at the port. Some sockets have one inside: "
                "then see which way it wants the plus.",
            ),
        )
        if coil and diode
        else ()
    )
    return (
        *fitted,
        Step(
            "relay.wire.coil",
            "wire",
            f"Measure {box}:A1 to {box}:A2 with the wire to the port off.{banded}",
            "Resistance of the coil",
            killer=True,
            record=Reading(
                "Resistance of the relay's coil",
                f"{box}:A1 and {box}:A2",
                (1 - READING_SPREAD) * low,
                (1 + READING_SPREAD) * high,
                "Ω",
                "Open: a broken coil or wrong terminals. Far below: another coil, or a shorted diode. A diode the "
                "wrong way round does not show here: look at its band.",
                "ohms range",
            ),
        ),
    )


def steps(fields: ControlFields, sized: Sized) -> tuple[Step, ...]:
    """Mounting, port, coil, first power."""
    port, box, load = port_of(sized), box_id(sized.number), sized.ids["load"]
    return (
        Step(
            "relay.mount.place",
            "mount",
            f"Fasten {box} or its socket near the toy, on a still part, where no wire or tool can touch its terminals.",
            "Fasten the relay",
        ),
        Step(
            "relay.settings.mode",
            "settings",
            f"Set port {port.number} of {port.board_id} to on/off and give it the name {sized.name}.",
            f"Port {port.number}: on/off",
            more="PWM makes a relay chatter: its contact burns within minutes.",
        ),
        *coil_steps(fields, sized),
        Step(
            "relay.first.off",
            "first-power",
            f"From outside, plug in and restart the board's computer. {box} does not click, and {load} stays off.",
            "Off while starting",
            killer=True,
            more="If it clicks, the port floats while the board starts: pull the plug, and add what the board's "
            "maker advises to hold it off.",
        ),
    )


def sentence(fields: ControlFields, sized: Sized) -> str:
    """What feeds what, how it is switched."""
    port = port_of(sized)
    own = f", which has the fuse {sized.ids['signal fuse']} of its own," if "signal fuse" in sized.ids else ""
    return (
        f"the contact of relay {box_id(sized.number)} switches its plus, and port P{port.number} of board "
        f"{port.board_id} switches the relay's coil{own} on or off"
    )


def control_words(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """How it is controlled, and what lies across the coil."""
    port, box, coil = port_of(sized), box_id(sized.number), sized.coil
    said = [
        f"Software switches {port.board_id}:P{port.number} on or off; the port carries only the "
        f"{show.amps(port.load_A)} of the coil.",
        f"{box}:A1 is plus, {box}:A2 goes to the port; the contact is {box}:11 to {box}:14.",
    ]
    if coil and "coil diode" in sized.ids:
        said.append(f"{sized.ids['coil diode']}, {coil.part}, directly at the coil: the end with the band to {box}:A1.")
    elif coil and coil.type == "on the board":
        said.append("The driver board has the suppressor of the coil.")
    return tuple(said)


def notes(fields: ControlFields, sized: Sized) -> tuple[str, ...]:
    """What a contact stands, and what the port's fuse does not."""
    relay, load = of(fields), sized.load
    contact = f"{show.amps(relay.contact_current.low)} at {show.volts(relay.contact_voltage.low)} DC"
    said = [
        f"The load's current flows through the contact, not through the port. The feed has "
        f"{sized.ids.get('fuse', 'to have a fuse')} of its own; a fuse at the port carries only the coil.",
        f"The contact is rated {contact}. An AC rating never counts: a DC arc does not go out by itself.",
        "On means full strength: there is nothing between off and full.",
        "The wires of the coil are counted as long as the feed.",
        *own_fuse_notes(sized),
    ]
    if load.kickback:
        said.append(
            "A winding keeps an arc alive while the contact opens: its DC rating holds only with the suppressor across "
            "the toy. Some data sheets give a lower figure for inductive loads; that one counts."
        )
    seen, making = seen_at_start(sized), makes_A(relay)
    if seen and load.start_A is not None and not reaches(making, load.start_A):
        said.append(f"{seen}, more than its {show.amps(making)}: it may weld. Take one made for lamps or motors.")
    return tuple(said)


def own_fuse_notes(sized: Sized) -> tuple[str, ...]:
    """Why the coil has a fuse of its own."""
    fuse, own = sized.fuse, sized.signal_fuse
    if own is None or own.rating_A is None or fuse.rating_A is None:
        return ()
    return (
        f"{own.id}, {show.amps(own.rating_A)}, sits beside {fuse.id} and feeds only the coil: {fuse.id}, "
        f"{show.amps(fuse.rating_A)}, lets through more than a coil's thin wires or its port stand. Mark the two "
        "holders, so that their fuses are never swapped.",
    )


def makes_A(relay: RelayParts) -> float:
    """What the contact is known to make: its making current, else no more than what it may switch."""
    making = relay.making_current
    return relay.contact_current.low if making is None else max(making.low, relay.contact_current.low)


def start_findings(relay: RelayParts, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """What the load draws while the contact bounces, against the contact's stated making current."""
    seen, start_A = seen_at_start(sized), sized.load.start_A
    if not seen or start_A is None or relay.making_current is None or reaches(makes_A(relay), start_A):
        return ()
    wanted = show.amps(show.rounded_up(start_A))
    return (
        Finding(
            "contacts-rating",
            Level.MUST,
            f"{seen} of {sized.name}; it may make {show.amps(makes_A(relay))}: it welds and then never switches off.",
            f"a contact that may make {wanted}",
            f"Take a relay or contactor whose making current is {wanted} or more, made for lamps or motors, "
            "or limit the start: a soft start, or a resistor that is bridged a moment later.",
            (*path, "relay", "making_current"),
            sized.slug,
        ),
    )


def missing(fields: ControlFields, sized: Sized) -> tuple[Missing, ...]:
    """What the contact may make, where the start asks for more than it switches; the inductance of the coil."""
    relay, told = of(fields), []
    seen, start_A = seen_at_start(sized), sized.load.start_A
    if seen and start_A is not None and relay.making_current is None and not reaches(makes_A(relay), start_A):
        told.append(
            Missing(
                "relay: {making_current: ..}",
                f"whether its contact stands the start, up to {show.amps(start_A)}, more than its "
                f"{show.amps(relay.contact_current.low)}",
                "Look in the relay's data sheet for the making or inrush current: "
                f"{show.amps(show.rounded_up(start_A))} or more, or a category of IEC 60947-4-1 (from memory): DC-6 "
                "for filament lamps, DC-3 and DC-5 for motors.",
                ("relay",),
            )
        )
    if relay.coil_inductance is None:
        told.append(
            Missing(
                "relay: {coil_inductance: ..}",
                "when the relay lets go",
                "Look up the inductance of the relay's coil, or measure it with an inductance meter, armature in.",
                ("relay",),
            )
        )
    return tuple(told)


def seen_at_start(sized: Sized) -> str:
    """What the contact sees at the moment of switching on; "" where that is no more than in use, or not known."""
    load = sized.load
    if load.momentary or load.start_A is None or reaches(load.design_current_A, load.start_A):
        return ""
    time = f"about {show.seconds(load.start_s)}" if load.start_s else "a moment"
    return f"At switching on the contact sees up to {show.amps(load.start_A)} for {time}"


def troubles(fields: ControlFields, sized: Sized) -> tuple[Trouble, ...]:
    """Faults of coil and contact."""
    port, box, own = port_of(sized), box_id(sized.number), sized.ids.get("signal fuse")
    return (
        Trouble(
            "Clicks, and nothing runs",
            f"{sized.ids['fuse'] if own else 'the fuse'} is open, or the contact is burnt",
            f"voltage from {box}:14 to 0 V with the port on",
            full_strength_troubles_value(sized),
        ),
        Trouble(
            "No click",
            f"{own} is open, or the coil gets no current" if own else "the coil gets no current",
            f"voltage from {box}:A1 to {box}:A2 with the port on",
            f"about {show.volts(of(fields).coil_voltage.middle)}",
        ),
        Trouble(
            "Stays on with the port off",
            "the contact has welded, or the port's switch has failed closed",
            f"voltage from {port.board_id}:P{port.number} to 0 V with the port off",
            f"{show.volts(sized.supply_low_V)} or more: then it is the contact",
        ),
    )


def worked(fields: ControlFields, sized: Sized) -> tuple[Worked, ...]:
    """The coil's current, and how fast it would let go with the other suppressor."""
    relay = of(fields)
    basis = {"R": relay.coil_resistance.basis or Basis.ESTIMATE}
    current = work(
        steady_current_A,
        "relay.coil",
        "Current of the relay's coil",
        sentence="All that the port carries.",
        bases=basis,
        voltage_V=relay.coil_voltage.high,
        resistance_ohm=relay.coil_resistance.low,
    )
    if relay.coil_inductance is None:
        return (current,)
    zener_V = 2 * sized.supply_V
    with_zener = sized.coil is not None and sized.coil.type == "diode and zener"
    id, words, clamp_V, sentence = (
        ("diode", "if it had a plain diode", DROP_V, "The contact itself needs some milliseconds more.")
        if with_zener
        else (
            "zener",
            f"if it had a zener of {zener_V:g} V as well",
            DROP_V + zener_V,
            f"The port would have to stand {show.volts(sized.supply_high_V + zener_V + 1.0)}.",
        )
    )
    other = work(
        decay_time_s,
        f"relay.release.{id}",
        f"Time until the relay lets go, {words}",
        sentence=sentence,
        bases=basis,
        inductance_H=relay.coil_inductance.high,
        resistance_ohm=relay.coil_resistance.low,
        start_A=coil_A(fields),
        release_A=release_A(fields),
        clamp_V=clamp_V,
    )
    return current, other


def findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A contact for this current and voltage, a coil for this supply, its kickback taken."""
    relay, found = of(fields), []
    current_A, highest_V, seen = sized.load.design_current_A, sized.supply_high_V, seen_at_start(sized)
    if not reaches(relay.contact_current.low, current_A):
        found.append(
            Finding(
                "contacts-rating",
                Level.MUST,
                f"The contact may switch {show.amps(relay.contact_current.low)} DC; {sized.name} draws up to "
                f"{show.amps(current_A)}: it burns, welds and then never switches off." + (f" {seen}." if seen else ""),
                f"a contact for {show.amps(current_A)} DC or more",
                f"Take a relay or contactor whose DC rating is {show.amps(current_A)} or more.",
                (*path, "relay", "contact_current"),
                sized.slug,
            )
        )
    if not reaches(relay.contact_voltage.low, highest_V):
        found.append(
            Finding(
                "contacts-rating",
                Level.MUST,
                f"The contact may switch {show.volts(relay.contact_voltage.low)} DC and the supply can reach "
                f"{show.volts(highest_V)}: its arc may not go out.",
                f"a contact for {show.volts(highest_V)} DC or more",
                f"Take a relay or contactor whose DC rating is {show.volts(highest_V)} or more at this current.",
                (*path, "relay", "contact_voltage"),
                sized.slug,
            )
        )
    if abs(relay.coil_voltage.middle - sized.supply_V) > 0.1 * sized.supply_V * (1 + 1e-9):
        found.append(
            Finding(
                "voltage-mismatch",
                Level.MUST,
                f"The relay's coil is made for {show.volts(relay.coil_voltage.middle)} and gets "
                f"{show.volts(sized.supply_V)} from {sized.supply_slug}.",
                f"a coil for {show.volts(sized.supply_V)}",
                "Take a relay whose coil fits the supply.",
                (*path, "relay", "coil_voltage"),
                sized.slug,
            )
        )
    return (*found, *start_findings(relay, sized, path), *coil_findings(fields, sized, path))


def coil_findings(fields: ControlFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """The coil's own kickback, and how long the contact takes to open."""
    coil, here = sized.coil, (*path, "relay", "suppressor")
    assert coil is not None
    if coil.type in NOT_TAKEN:
        return (
            Finding(
                "suppressor-missing",
                Level.MUST,
                f"Nothing takes the kickback of the relay's coil: each switch-off drives port {port_of(sized).number} "
                "beyond its voltage until it fails.",
                "a diode across the coil, band to plus",
                "Fit a diode across it: leave suppressor out under relay and it is chosen.",
                here,
                sized.slug,
            ),
        )
    if coil.release_s is None:
        return ()
    return slow_release(coil, coil.release_s, fields, sized, here)


def quick_s(fields: ControlFields, sized: Sized) -> float | None:
    """How fast it would let go with a zener of twice the supply as well; None while its inductance is not known."""
    relay = of(fields)
    if relay.coil_inductance is None:
        return None
    return decay_time_s(
        inductance_H=relay.coil_inductance.high,
        resistance_ohm=relay.coil_resistance.low,
        start_A=coil_A(fields),
        release_A=release_A(fields),
        clamp_V=DROP_V + 2 * sized.supply_V,
    )


def slow_release(
    coil: Suppression, release_s: float, fields: ControlFields, sized: Sized, here: tuple[str, ...]
) -> tuple[Finding, ...]:
    """A contact that opens slowly burns."""
    slow, quick = rule("slow release").value, quick_s(fields, sized)
    if reaches(slow, release_s):
        return ()
    then = f" It lets go within about {show.seconds(quick)} with {2 * sized.supply_V:g} V of zener." if quick else ""
    return (
        Finding(
            "suppressor-too-slow",
            Level.SHOULD,
            f"With {coil.type} the relay of {sized.name} lets go after {show.seconds(release_s)}: the contact "
            "opens slowly and its arc burns it.",
            f"at most {show.seconds(slow)}",
            f"Write suppressor: diode and zener under relay; the port must stand the higher voltage.{then}",
            here,
            sized.slug,
        ),
    )


def values(fields: ControlFields) -> tuple[Value, ...]:
    """What its contact may switch."""
    relay = of(fields)
    return (
        Value(
            "Contact",
            *show.figure_and_unit(show.amps(relay.contact_current.low)),
            f"at {show.volts(relay.contact_voltage.low)} DC",
        ),
    )


def making_words(relay: RelayParts) -> str:
    """What the contact may make, or where that is written."""
    if relay.making_current is not None:
        return f"it may make {show.amps(makes_A(relay))}"
    return "look in its data sheet for what it may make, of lamps or motors"


def questions(fields: ControlFields, sized: Sized) -> tuple[Question, ...]:
    """What its contact stands, and how fast it lets go."""
    relay, coil = of(fields), sized.coil
    load_A, highest_V = sized.load.design_current_A, sized.supply_high_V
    seen = seen_at_start(sized)
    enough = reaches(relay.contact_current.low, load_A) and reaches(relay.contact_voltage.low, highest_V)
    found = [
        dc_contact(
            f"Here it switches up to {show.amps(load_A)} at up to {show.volts(highest_V)} and is rated for "
            f"{show.amps(relay.contact_current.low)} at {show.volts(relay.contact_voltage.low)} DC: "
            + ("that is enough." if enough else "that is not enough.")
            + (f" {seen}; {making_words(relay)}." if seen else "")
        )
    ]
    quick = quick_s(fields, sized)
    if coil is not None and coil.release_s is not None and quick is not None and coil.type == "diode":
        found.append(
            Question(
                "relay-release",
                "Why does the relay let go slowly?",
                f"With a plain diode its coil's current needs {show.seconds(coil.release_s)} until it lets go, and "
                f"the contact burns a little each time. A zener of {2 * sized.supply_V:g} V in series makes that "
                f"{show.seconds(quick)}; the port then sees {show.volts(highest_V + 2 * sized.supply_V + 1.0)} and "
                "must stand it.",
                "circuit",
            )
        )
    return tuple(found)


CONTROL = Control(
    word="relay",
    title="Relay or contactor",
    fields=RelayFields,
    ported=True,
    contacts=8,
    circuit=circuit,
    dial=dial,
    settings=settings,
    steps=steps,
    sentence=sentence,
    control_words=control_words,
    notes=notes,
    troubles=troubles,
    findings=findings,
    short="Relay",
    signal="the relay's coil",
    port_current_A=lambda fields, load: coil_A(fields),
    switch=lambda fields: of(fields).contact_resistance,
    coil=coil,
    contact_V=lambda fields: of(fields).contact_voltage.low,
    weighed=weighed,
    worked=worked,
    values=values,
    questions=questions,
    missing=missing,
)
