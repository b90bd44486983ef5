"""A lamp or a group of lamps: LEDs with their resistors, modules with electronics of their own, or filaments."""

from math import ceil
from typing import Annotated, Literal, cast

from guide_gen.formulas import lamp as filaments
from guide_gen.formulas import led as formulas
from guide_gen.formulas.choice import reaches, smallest_at_or_above
from guide_gen.formulas.fuse_opening import decay_A2s
from guide_gen.formulas.surface import touch_level
from guide_gen.model.bolting import bolt_steps
from guide_gen.model.circuit import Part, PartKind
from guide_gen.model.fields import Count, Current, Resistance, Section, Temperature, ToyFields, key
from guide_gen.model.finding import Finding, Level
from guide_gen.model.guide import Advice, Caution, Introduction, Need, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial, Kind, Missing, Weighed
from guide_gen.model.loads import load_of, over_rated
from guide_gen.model.plan import Load, Question, Sized
from guide_gen.model.plan import Section as PageSection
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.quantity import Basis, Quantity
from guide_gen.values.reading import read_quantity
from guide_gen.values.worked import Worked, work

ForwardVoltage = Annotated[
    Quantity, read_quantity("voltage", "V", 0.5, 60.0, example="3.0 V to 3.4 V (datasheet)", ranged=True)
]
FlashRate = Annotated[Quantity, read_quantity("frequency", "Hz", 0.01, 1000.0, example="2 Hz")]

HOT_FILAMENT_W = 10.0  # from here on a filament burns what touches it; common practice, no source
BRIGHT_LED_W = 3.0  # above this a bare LED dazzles; common practice, no source
BRIGHT_GROUP = 2  # from this risk group of IEC 62471 on staring harms the eye; from memory
FLICKER_HZ = 200.0  # below this PWM is seen from the corner of the eye; IEEE 1789 in outline, from memory
READING_SPREAD = 0.15  # how far the current may lie from its figure; this project, an estimate
COLD_SPREAD = 0.2  # of a cold filament's resistance that was measured; this project, an estimate
MATCH = 0.25  # how far the group's current and that of its LEDs may differ before one of them is doubted; this project
STANDS = 1.5  # times the current it is made for: small LEDs of 20 mA commonly stand 30 mA; common practice, no source
DARK = 0.1  # share of its current below which an LED is all but dark; this project, an estimate
DRIVER = "take a constant-current driver, or LED modules, made for this voltage: then write lamp_type: LED module."
RESISTOR_W = (0.125, 0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0, 25.0, 50.0)  # ratings that are sold; common practice
SAFE_FLASH = rule("flash rate")
HOT, MUST = "caution", "must fix"  # levels of published/touch.csv


class LedFields(Section):
    """One LED as its data sheet has it, and how they stand in rows."""

    forward_voltage: ForwardVoltage = key(
        "voltage that one LED takes",
        example="3.0 V to 3.4 V (datasheet)",
        ask="look it up in its data sheet: lowest and highest",
    )
    current: Current = key(
        "current that each LED is to carry", example="20 mA (datasheet)", ask="look it up in its data sheet"
    )
    in_a_row: Count = key(
        "how many share one resistor, one behind the other", example="3", default="1", source="this project"
    )
    highest_current: Current | None = key("current that each LED stands at most", example="30 mA (datasheet)")


class FlashFields(Section):
    """How it flashes."""

    rate: FlashRate = key(
        "flashes in a second", example="2 Hz", ask="look what the game or the board is set to, or count for ten seconds"
    )


class Lamp(ToyFields):
    """A lamp or a group of lamps."""

    kind: Literal["lamp"] = key("what it is", example="lamp", ask="choose one of the kinds")
    lamp_type: Literal["LEDs with resistor", "LED module", "filament"] = key(
        "bare LEDs that need a resistor, modules or strips made for this voltage, or lamps with a filament",
        example="LED module",
        ask="look at it: two bare legs need a resistor, a print or strip marked with a voltage is a module, a glowing "
        "wire is a filament",
    )
    count: Count = key("how many lamps this group has", example="6", default="1", source="this project")
    led: LedFields | None = key("the LEDs, for LEDs with resistor", example="{forward_voltage: 3.0 V to 3.4 V}")
    flash: FlashFields | None = key("how it flashes; left out: steady", example="{rate: 2 Hz}")
    cold_resistance: Resistance | None = key(
        "resistance of the whole group of filaments, cold", example="0.6 ohm (measured)"
    )
    risk_group: Literal["0", "1", "2", "3"] | None = key(
        "its photobiological risk group by IEC 62471, as printed on it or in its data sheet: 0 is exempt", example="1"
    )
    surface: Temperature | None = key(
        "its hottest surface that can be touched, after half an hour", example="55 °C (measured)"
    )


def of(toy: ToyFields) -> Lamp:
    """The toy as what it is."""
    return cast(Lamp, toy)


def filament(toy: ToyFields) -> bool:
    """Whether a wire glows in it."""
    return of(toy).lamp_type == "filament"


def each_W(toy: ToyFields) -> float:
    """Power of one lamp, at the high end."""
    return toy.voltage.high * toy.current.high / of(toy).count


# ---- filaments ------------------------------------------------------------------------------------------------------


def inrush_ratio(toy: Lamp) -> float:
    """How many times its current a cold filament takes: from what was measured, else the usual figure."""
    if toy.cold_resistance is None:
        return rule("lamp inrush ratio").value
    return filaments.measured_inrush_ratio(
        voltage_V=toy.voltage.high, cold_ohm=toy.cold_resistance.low, hot_A=toy.current.high
    )


def load(toy: ToyFields) -> Load:
    """No winding; a cold filament takes many times its current for a moment.

    LEDs behind a resistor start with what they draw in use; what electronics in a module take at first is not known.
    """
    if of(toy).lamp_type == "LEDs with resistor":
        return load_of(toy, kickback=False, start_A=toy.current.high)
    if not filament(toy):
        return load_of(toy, kickback=False)
    ratio, tau = inrush_ratio(of(toy)), rule("lamp inrush time constant").value
    hot_A = toy.current.high
    return load_of(
        toy,
        kickback=False,
        start_A=filaments.inrush_A(inrush_ratio=ratio, hot_A=hot_A),
        start_s=tau,
        pulse_A2s=filaments.inrush_A2s(inrush_ratio=ratio, hot_A=hot_A, constant_s=tau),
    )


def inrush_worked(toy: Lamp, sized: Sized) -> tuple[Worked, ...]:
    """Current and heat of a cold start, at the highest voltage of the supply."""
    hot_A, tau = toy.current.high, rule("lamp inrush time constant").value
    measured: tuple[Worked, ...] = ()
    if toy.cold_resistance is not None:
        measured = (
            work(
                filaments.measured_inrush_ratio,
                "lamp.ratio",
                "How many times its current a cold filament takes",
                bases={"R_0": toy.cold_resistance.basis or Basis.ESTIMATE},
                voltage_V=toy.voltage.high,
                cold_ohm=toy.cold_resistance.low,
                hot_A=hot_A,
            ),
        )
    basis = Basis.MEASURED if toy.cold_resistance else Basis.ESTIMATE
    rated_V = toy.voltage.middle
    highest_V = over_rated(rated_V, sized.supply_high_V) * rated_V
    rated = work(
        filaments.inrush_A,
        "lamp.inrush-rated",
        f"Current of the cold lamp at switching on, at {show.volts(rated_V)}",
        sentence="An estimate is 8 to 15 times." if toy.cold_resistance is None else "",
        bases={"k": basis},
        inrush_ratio=inrush_ratio(toy),
        hot_A=hot_A,
    )
    highest = work(
        filaments.inrush_at_A,
        "lamp.inrush",
        "Current of the cold lamp at switching on, at the highest voltage",
        bases={"I_0": basis},
        inrush_A=float(rated.result),
        highest_V=highest_V,
        rated_V=rated_V,
    )
    return (
        *measured,
        rated,
        highest,
        work(
            decay_A2s,
            "lamp.heat",
            "Heat of one cold start in the fuse",
            sentence="It dies away within about 10 ms, an estimate of 5 to 50 ms.",
            bases={"I": basis, "tau": Basis.ESTIMATE},
            peak_A=float(highest.result),
            constant_s=tau,
        ),
    )


# ---- LEDs -----------------------------------------------------------------------------------------------------------


def rows_of(toy: Lamp) -> int:
    """How many rows of LEDs the group has, each with a resistor of its own."""
    return ceil(toy.count / toy.led.in_a_row) if toy.led else 0


def resistor_ohm(toy: Lamp, supply_V: float) -> float | None:
    """The standard resistor of each row; None where nothing is left for one, or the LEDs are not known."""
    led = toy.led
    if toy.lamp_type != "LEDs with resistor" or led is None or led.in_a_row * led.forward_voltage.middle >= supply_V:
        return None
    return formulas.next_e24_ohm(
        formulas.series_resistance_ohm(
            voltage_V=supply_V, leds=led.in_a_row, forward_V=led.forward_voltage.middle, current_A=led.current.low
        )
    )


def times(count: int, what: str) -> str:
    """``2 × 150 Ω``; one needs no number."""
    return what if count == 1 else f"{count} × {what}"


def series(toy: ToyFields, number: int, supply_V: float) -> Part | None:
    """The resistors before the LEDs, drawn as one."""
    value = resistor_ohm(of(toy), supply_V)
    if value is None:
        return None
    rows = rows_of(of(toy))
    notes = ("one for each row",) if rows > 1 else ()
    return Part(f"R{number}S", PartKind.RESISTOR, times(rows, show.ohms(value)), ("1", "2"), notes)


def led_worked(toy: Lamp, sized: Sized) -> tuple[Worked, ...]:
    """Resistor, and current and heat at the worst ends: highest supply, least voltage of the LEDs."""
    led, value = toy.led, resistor_ohm(toy, sized.supply_V)
    if led is None or value is None:
        return ()
    bases = {"V_f": led.forward_voltage.basis or Basis.ESTIMATE, "I": led.current.basis or Basis.ESTIMATE}
    exact = work(
        formulas.series_resistance_ohm,
        "led.resistance",
        "Resistor in series",
        sentence=f"{led.in_a_row} in a row.",
        bases=bases,
        voltage_V=sized.supply_V,
        leds=led.in_a_row,
        forward_V=led.forward_voltage.middle,
        current_A=led.current.low,
    )
    chosen = work(formulas.next_e24_ohm, "led.resistor", "Resistor to buy", resistance_ohm=float(exact.result))
    worst = work(
        formulas.current_A,
        "led.worst",
        "Current of each LED at most",
        sentence="Highest supply, lowest voltage of the LEDs.",
        bases={"V_f": bases["V_f"]},
        voltage_V=sized.supply_high_V,
        leds=led.in_a_row,
        forward_V=led.forward_voltage.low,
        resistance_ohm=value,
    )
    heat = work(
        formulas.resistor_W,
        "led.heat",
        "Heat in each resistor at most",
        current_A=float(worst.result),
        resistance_ohm=value,
    )
    needed = work(
        formulas.resistor_rating_W, "led.rating", "Rating of each resistor, needed", power_W=float(heat.result)
    )
    return exact, chosen, worst, heat, needed


def worked(toy: ToyFields, sized: Sized) -> tuple[Worked, ...]:
    """Resistors of LEDs; inrush of filaments."""
    return inrush_worked(of(toy), sized) if filament(toy) else led_worked(of(toy), sized)


def result(toy: ToyFields, sized: Sized, id: str) -> float | None:
    """One of the LED's worked values."""
    return next((float(one.result) for one in led_worked(of(toy), sized) if one.id == id), None)


def rating_words(toy: ToyFields, sized: Sized) -> str:
    """The rating of the resistor to buy."""
    needed = result(toy, sized, "led.rating")
    if needed is None:
        return ""
    rating, _ = smallest_at_or_above(RESISTOR_W, needed, "W")
    return f"{show.watts(rating if rating is not None else needed)} or more"


def rows_words(toy: Lamp) -> str:
    """``two rows of three``; one LED behind each resistor: ``each with its own resistor``."""
    assert toy.led is not None
    rows, row = rows_of(toy), toy.led.in_a_row
    if row == 1:
        return "each with its own resistor" if rows > 1 else "with its resistor"
    return f"{spelled(rows)} row{'s' if rows > 1 else ''} of {spelled(row)}" + (
        "" if rows * row == toy.count else " or less"
    )


def spelled(count: int) -> str:
    """Small numbers in words."""
    words = ("", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
    return words[count] if count < len(words) else str(count)


def joined_words(toy: Lamp) -> str:
    """How the rows are joined."""
    assert toy.led is not None
    rows, row = rows_of(toy), toy.led.in_a_row
    leds = "one LED" if row == 1 else f"{spelled(row)} LEDs one behind the other"
    if rows == 1:
        return f"One row: the resistor, then {leds}."
    return (
        f"{spelled(rows).capitalize()} rows side by side, each from plus to minus: its own resistor, then {leds}. "
        f"Never all {spelled(rows)} resistors in one line."
        if rows > 2
        else f"Two rows side by side, each from plus to minus: its own resistor, then {leds}. Never both resistors in "
        "one line."
    )


def needs(toy: ToyFields, sized: Sized) -> tuple[Need, ...]:
    """The LEDs and their resistors."""
    lamp = of(toy)
    value = resistor_ohm(lamp, sized.supply_V)
    if value is None or lamp.led is None:
        return ()
    led = lamp.led
    return (
        Need(
            "LED",
            f"{show.quantity(led.forward_voltage)}, {show.quantity(led.current)}",
            str(lamp.count),
            rows_words(lamp),
            sized.ids["load"],
        ),
        Need(
            "Series resistor",
            f"{show.ohms(value)}, {rating_words(toy, sized)}",
            str(rows_of(of(toy))),
            "one for each row of LEDs",
            f"R{sized.number}S",
        ),
    )


def weighed(toy: ToyFields) -> tuple[Weighed, ...]:
    """What the resistor rests on."""
    lamp = of(toy)
    found = []
    if lamp.led is not None and lamp.lamp_type == "LEDs with resistor":
        found += [
            Weighed(
                "the LED's forward_voltage",
                lamp.led.forward_voltage,
                ("led", "forward_voltage"),
                "a multimeter's volts range across one LED that carries its current",
            ),
            Weighed("the LED's current", lamp.led.current, ("led", "current"), "its data sheet; no meter tells it"),
        ]
    if lamp.cold_resistance is not None and filament(toy):
        found.append(
            Weighed(
                "the cold resistance",
                lamp.cold_resistance,
                ("cold_resistance",),
                "a multimeter's ohms range, lamps cold, leads subtracted",
            )
        )
    if lamp.surface is not None:
        found.append(
            Weighed("its surface", lamp.surface, ("surface",), "a thermometer on dull tape, after half an hour", False)
        )
    return tuple(found)


def flash_Hz(toy: ToyFields) -> float:
    """How often it flashes in a second; 0: it does not."""
    flash = of(toy).flash
    return flash.rate.high if flash else 0.0


def too_fast(rate_Hz: float) -> bool:
    """Whether a rate can provoke seizures."""
    return SAFE_FLASH.value * (1 + 1e-9) < rate_Hz <= (SAFE_FLASH.high or rate_Hz)


# ---- what its page says ---------------------------------------------------------------------------------------------


def introduction(toy: ToyFields, sized: Sized) -> Introduction:
    """What it is and is for."""
    lamp = of(toy)
    what = {"LEDs with resistor": "LED", "LED module": "LED module", "filament": "filament lamp"}[lamp.lamp_type]
    group = f"A {what}" if lamp.count == 1 else f"A group of {lamp.count} {what}s"
    return Introduction(
        sentence=f"{group} that lights up or flashes with the game.",
        meant_for="Light in and on the cabinet during play.",
        not_for="Not for lighting a room or a way out, and not for flashing faster than three times a second.",
        who="Someone who can crimp, read a drawing and use a multimeter. Mains work: a licensed or competent person "
        "only.",
        tools=("crimping tool", "multimeter", "drill", "eye protection"),
    )


def hot_caution(toy: ToyFields) -> Caution | None:
    """Glass, holder or heat sink that burns; the reason is the power, or the temperature that was measured."""
    lamp, power = of(toy), each_W(toy)
    measured = touch_level(lamp.surface.high) if lamp.surface else None
    hot = measured is not None and measured.level in (HOT, MUST)
    if not (filament(toy) or hot):
        return None
    reason = f"Each takes about {show.watts(power)}."
    if lamp.surface is not None:
        reason += f" Measured: {show.quantity(lamp.surface)}."
    return Caution(
        "lamp-hot",
        Word.WARNING if filament(toy) and power >= HOT_FILAMENT_W * (1 - 1e-9) else Word.CAUTION,
        "Lamp and holder get hot.",
        "They ignite plastic and burn skin.",
        ("Keep distance on all sides.", "Use a holder rated for the lamp, or a lamp of lower power.", "Let it cool."),
        reason,
        grouped=True,
        before=("lamp.mount.away", "lamp.bench.current", "lamp.after.look"),
    )


def cautions(toy: ToyFields, sized: Sized) -> tuple[Caution, ...]:
    """Cautions of a lamp, each raised by its type and values."""
    hot, rate = hot_caution(toy), flash_Hz(toy)
    found = [hot] if hot else []
    if too_fast(rate):
        found.append(
            Caution(
                "seizure",
                Word.WARNING,
                "Flashes faster than three a second, large or red ones above all.",
                "Seizures, also in people who never had one.",
                (
                    "Set three a second or fewer.",
                    "Put a notice on the cabinet.",
                    "Fit a switch that stops all flashing.",
                ),
                f"This build flashes {show.hertz(rate)}.",
                grouped=True,
                before=("lamp.bench.current", "lamp.first.on", "lamp.tune.flash"),
            )
        )
    if bright := bright_words(toy):
        found.append(
            Caution(
                "bright",
                Word.CAUTION,
                "A strong light at eye level dazzles.",
                "It can harm the eye.",
                ("Fit a diffuser, or aim it away.", "Never look into it."),
                bright,
                grouped=True,
                before=("lamp.bench.current", "lamp.first.on", "lamp.tune.aim"),
            )
        )
    if filament(toy) and sized.load.start_A is not None:
        found.append(
            Caution(
                "inrush",
                Word.NOTICE,
                "A cold filament takes many times its current.",
                "Blown fuse, welded contact, dead switch.",
                ("Use a port or relay rated for lamps, or a soft start.",),
                f"For about {show.seconds(sized.load.start_s)} {seen_by(sized)} sees up to "
                f"{show.amps(sized.load.start_A)}.",
                before=("lamp.first.on",),
            )
        )
    port = sized.port
    if port and port.set_to == "pwm" and port.pwm_frequency_Hz and port.pwm_frequency_Hz < FLICKER_HZ * (1 - 1e-9):
        found.append(
            Caution(
                "flicker",
                Word.NOTICE,
                "Slow PWM is seen at the corner of the eye, and moving parts seem to stand still.",
                "Unease, wrong judgement.",
                (f"Raise the frequency to {show.hertz(FLICKER_HZ)} or more.",),
                f"This board: {show.hertz(port.pwm_frequency_Hz)}.",
                before=("tune",),
            )
        )
    return tuple(found)


def bright_words(toy: ToyFields) -> str:
    """Why it may harm the eye: its power where it has no filament, or its risk group; "" where neither says so."""
    group, told = of(toy).risk_group, []
    if not filament(toy) and each_W(toy) > BRIGHT_LED_W * (1 + 1e-9):
        told.append(f"Each takes about {show.watts(each_W(toy))}.")
    if group is not None and int(group) >= BRIGHT_GROUP:
        told.append(f"It is of risk group {group} (IEC 62471, from memory).")
    return " ".join(told)


def seen_by(sized: Sized) -> str:
    """What closes the lamp's circuit, and so takes its inrush."""
    if sized.control == "relay":
        return "the relay's contact"
    if sized.port is None:
        return sized.ids.get("fuse", "the supply")
    return f"port {sized.port.number}" if not sized.port.signal else "the controller"


def mounting(toy: ToyFields, sized: Sized) -> PageSection:
    """Where and why."""
    place = f"This build has it in the {toy.mount.place}." if toy.mount.place else ""
    advice = [
        Advice("Not at eye level, or behind a diffuser.", "A bare point of light dazzles the player."),
        Advice("Air round it, and nothing of plastic, paper or cloth near it.", "Heat gathers behind a panel."),
        Advice("Held by screws or clips, wires tied.", "Tape lets go when it is warm, and the cabinet shakes."),
    ]
    if filament(toy):
        advice.append(Advice("Away from the shaker, on a soft washer.", "Shaking breaks hot filaments."))
    if resistor_ohm(of(toy), sized.supply_V) is not None:
        advice.append(Advice(joined_words(of(toy)), "Each resistor bounds the current of its own row alone."))
    if of(toy).lamp_type == "LEDs with resistor":
        advice.append(Advice("Resistors in free air, not inside a sleeve with others.", "Each gives off its heat."))
    return PageSection((place,) if place else (), tuple(advice))


def mount_steps(toy: ToyFields, sized: Sized) -> tuple[Step, ...]:
    """Place, distance, screws."""
    return (
        Step("lamp.mount.place", "mount", "Hold the lamp in its place and look from where the player stands.", "Place"),
        Step(
            "lamp.mount.away",
            "mount",
            "Look that nothing of plastic, paper, cloth or wire lies within "
            f"{show.rough('50 mm', '2 in', sized.units)} of it.",
            "Free all round",
            killer=filament(toy),
        ),
        Step("lamp.mount.mark", "mount", "Mark the holes through its holder.", "Mark the holes"),
        *bolt_steps("lamp", sized.mounting, sized.units),
        *resistor_step(toy, sized),
    )


def resistor_step(toy: ToyFields, sized: Sized) -> tuple[Step, ...]:
    """The resistors, where there are some."""
    value = resistor_ohm(of(toy), sized.supply_V)
    if value is None:
        return ()
    rows = rows_of(of(toy))
    each = "each row of LEDs" if rows > 1 else "the LEDs"
    return (
        Step(
            "lamp.wire.resistor",
            "wire",
            f"Fit a resistor of {show.ohms(value)}, {rating_words(toy, sized)}, before the plus side of {each}.",
            "Resistors before the LEDs",
            killer=True,
            more=f"{joined_words(of(toy))} Without it an LED dies at once.",
        ),
    )


def cold_reading(toy: Lamp, held: str) -> Reading:
    """Resistance of cold filaments: measured before, or from the usual inrush."""
    usual, hot_ohm = rule("lamp inrush ratio"), toy.voltage.middle / toy.current.middle
    if toy.cold_resistance is not None:
        low, high = (1 - COLD_SPREAD) * toy.cold_resistance.low, (1 + COLD_SPREAD) * toy.cold_resistance.high
    else:
        low, high = hot_ohm / (usual.high or usual.value), hot_ohm / (usual.low or usual.value)
    return Reading(
        "Resistance of the cold lamps, less the leads",
        f"{held}:1 and {held}:2",
        low,
        high,
        "Ω",
        "Higher: a lamp is broken or loose in its holder. Near zero: a short.",
        "ohms range, lamps cold; subtract what the leads read when touched together",
    )


def dead_step(toy: ToyFields, sized: Sized) -> Step:
    """Filaments on a meter; the polarity of LEDs."""
    held = sized.ids["load"]
    if filament(toy):
        return Step(
            "lamp.dead.filament",
            "dead-checks",
            f"Measure {held}:1 to {held}:2 with one lead of the lamps off.",
            "Resistance, cold",
            record=cold_reading(of(toy), held),
        )
    return Step(
        "lamp.dead.polarity",
        "dead-checks",
        f"The plus side of every LED or module is on the side of {held}:1.",
        "Plus and minus of the LEDs",
        killer=True,
        more="The wrong way round an LED stays dark, and some die. A meter's diode range lights a single LED faintly.",
    )


def rows_A(toy: Lamp, supply_V: float, voltage_V: float) -> tuple[float, float] | None:
    """Current of all rows at a voltage, LEDs at the high and low end of theirs; None where it is not worked out.

    supply_V: of which the resistor was chosen.
    """
    value, led = resistor_ohm(toy, supply_V), toy.led
    if value is None or led is None:
        return None
    ends = (led.forward_voltage.high, led.forward_voltage.low)
    low, high = (rows_of(toy) * max(0.0, voltage_V - led.in_a_row * each) / value for each in ends)
    return low, high


def current_reading(toy: ToyFields, sized: Sized) -> Reading:
    """Current of the whole group: as stated, and whatever else good LEDs may draw."""
    low = (1 - READING_SPREAD) * sized.load.lowest_current_A
    high = (1 + READING_SPREAD) * sized.load.design_current_A
    drawn = rows_A(of(toy), sized.supply_V, sized.load.voltage_V)
    if drawn is not None:
        low, high = min(low, drawn[0]), max(high, drawn[1])
    wrong = {
        "LEDs with resistor": "Above: a wrong resistor or a short. Below: a row is dark or the wrong way round.",
        "LED module": "Above: another module or a short. Below: a module is dark or the wrong way round.",
        "filament": "Above: a lamp of higher power or a short. Below: a lamp is broken or loose in its holder.",
    }[of(toy).lamp_type]
    return Reading(
        "Current of the group",
        f"in the feed of {sized.ids['load']}",
        low,
        high,
        "A",
        wrong,
        "the bench supply's meter, or a clamp meter for DC round the feed wire",
    )


def power_steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """Bench supply and first light."""
    reading = current_reading(toy, sized)
    limit = max((1 + 2 * READING_SPREAD) * sized.load.design_current_A, reading.high or 0.0)
    first = (
        Step(
            "lamp.first.on",
            "first-power",
            "Switch it on for ten seconds. Every lamp lights, none flickers, nothing smells.",
            "Ten seconds",
        ),
    )
    return (
        Step(
            "lamp.bench.current",
            "bench",
            f"Feed the group alone, its fuse out: current limit {show.amps(limit)}, voltage from 0 V slowly up to "
            f"{show.volts(sized.load.voltage_V)}. Read the current.",
            "Bench supply from 0 V",
            record=reading,
        ),
        *(first if dial is None else ()),
    )


def tune_steps(toy: ToyFields, dial: Dial | None) -> tuple[Step, ...]:
    """Aim, brightness, flashes."""
    rate = flash_Hz(toy)
    found = [
        Step(
            "lamp.tune.aim",
            "tune",
            "Look from where the player stands: nothing dazzles, no bare lamp is seen.",
            "Nothing dazzles",
        )
    ]
    if dial is not None:
        found = [
            Step(
                "lamp.tune.lowest",
                "tune",
                f"{dial.to_lowest} Power on from outside. It stays dark.",
                "Lowest setting",
                killer=True,
            ),
            Step(
                "lamp.tune.left",
                "tune",
                f"{dial.smallest_step} Go on until it is bright enough and no brighter. Write the as-left setting "
                "down.",
                "As-left setting",
                record=dial.reading("Setting as left"),
                killer=True,
            ),
            *found,
        ]
    if rate:
        most = 10 * min(rate, SAFE_FLASH.value)
        found.append(
            Step(
                "lamp.tune.flash",
                "tune",
                "Let it flash and count for ten seconds, looking past it.",
                "Count the flashes",
                record=Reading(
                    "Flashes in ten seconds",
                    "by eye and watch",
                    0.0,
                    most,
                    "flashes",
                    f"More: set it slower, to {SAFE_FLASH.value:g} a second or fewer.",
                ),
                killer=True,
            )
        )
    return tuple(found)


def steps(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Step, ...]:
    """All steps that belong to a lamp."""
    return (
        *mount_steps(toy, sized),
        dead_step(toy, sized),
        Step(
            "lamp.dead.free",
            "dead-checks",
            "Nothing touches the lamp, and no bare joint can touch metal.",
            "Nothing touches it",
            killer=True,
        ),
        *power_steps(toy, sized, dial),
        *tune_steps(toy, dial),
        Step("lamp.play.light", "play", "Play three games. It lights when it should, and goes out.", "Three games"),
        Step(
            "lamp.after.look",
            "after-play",
            "After 1 h of play: nothing near the lamp is brown, soft or smells. Measure its surface with a "
            "thermometer.",
            "Look after 1 h",
            record=Reading(
                "Temperature of what can be touched",
                "the hottest surface of lamp, holder and resistors",
                None,
                60.0,
                "°C",
                "Above: guard it, give it air, or take a lamp of lower power.",
                "after half an hour of use",
            ),
        ),
        Step(
            "lamp.yearly.look",
            "yearly",
            "Dust it cold. Look at holder, joints and cable, and at the fuse: the same rating as before.",
            "Dust it",
        ),
    )


def tuning_notes(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[str, ...]:
    """What to know before tuning."""
    return (*setting_notes(dial), *rows_notes(of(toy), sized))


def rows_notes(toy: Lamp, sized: Sized) -> tuple[str, ...]:
    """What the rows draw by calculation at most, where that is clearly more than the current that sizes the feed."""
    drawn = rows_A(toy, sized.supply_V, sized.supply_high_V)
    stated = sized.load.design_current_A
    if drawn is None or drawn[1] <= stated * (1 + MATCH):
        return ()
    fuse, wire_A = sized.fuse.rating_A, sized.wire.ampacity_A
    least_A = wire_A if fuse is None else min(fuse / rule("fuse margin").value, wire_A)
    enough = "still carry that" if reaches(least_A, drawn[1]) else "do not carry that with the usual margin: measure"
    return (
        f"By the LEDs' data all rows together may draw up to {show.amps(drawn[1])} at {show.volts(sized.supply_high_V)}"
        f". Fuse and wire are worked out for the {show.amps(stated)} that are stated; they {enough}.",
    )


def setting_notes(dial: Dial | None) -> tuple[str, ...]:
    """Where to begin."""
    if dial is None:
        return ("There is no setting: on is full light. What can be tuned is where it points.",)
    return ("Begin at the lowest end and go up. The eye gets used to a little light within a minute.",)


def play_notes(toy: ToyFields, sized: Sized) -> tuple[str, ...]:
    """What to know before playing."""
    rate = flash_Hz(toy)
    flashing = f"It flashes {show.figure(rate)} times a second." if rate else "It lights steadily."
    return (flashing, "Three flashes a second is the most; several lamps out of step add up.")


def troubles(toy: ToyFields, sized: Sized, dial: Dial | None) -> tuple[Trouble, ...]:
    """Symptoms of a lamp."""
    held, fuse, reading = sized.ids["load"], sized.ids.get("fuse", "The fuse"), current_reading(toy, sized)
    span = show.span(reading.low, reading.high, "A")
    opens = "cold filaments, a short in a holder" if filament(toy) else "a short, a resistor left out"
    cold = cold_reading(of(toy), held)
    dark = (
        Trouble(
            "A lamp stays dark",
            "broken, or loose in its holder",
            f"resistance of the cold group, {cold.between}, plug out",
            show.span(cold.low, cold.high, "Ω"),
        )
        if filament(toy)
        else Trouble("A row stays dark", "one of it is broken or the wrong way round", f"polarity at {held}:1", "plus")
    )
    return (
        dark,
        Trouble(f"{fuse} opens", f"{opens}, or a fuse of the wrong rating", reading.between, span),
        Trouble(
            "Dimmer than its neighbour",
            "a long or thin wire, or a loose joint",
            f"voltage from {sized.toy_plus} to {sized.toy_minus} while it is on",
            f"{show.volts(max(0.0, sized.supply_low_V - sized.wire.drop_V))} or more at full light",
        ),
    )


def findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Flashes, resistors, heat."""
    return (*flash_findings(toy, sized, path), *led_findings(of(toy), sized, path), *hot_findings(toy, sized, path))


def flash_findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A rate that can provoke seizures."""
    rate = flash_Hz(toy)
    if not too_fast(rate):
        return ()
    return (
        Finding(
            "flash-rate",
            Level.SHOULD,
            f"{sized.name} flashes {show.figure(rate)} times a second: from three to sixty that can provoke seizures.",
            f"at most {SAFE_FLASH.value:g} Hz",
            f"Set it to {SAFE_FLASH.value:g} Hz or slower, and fit a switch that stops all flashing.",
            (*path, "flash", "rate"),
            sized.slug,
        ),
    )


def led_findings(toy: Lamp, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """LEDs that get nothing, too much, or another current than was written."""
    led = toy.led
    if toy.lamp_type != "LEDs with resistor":
        return ()
    if led is None:
        return ()
    if toy.count % led.in_a_row:
        return (
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"{toy.count} LEDs of {sized.name} do not fill rows of {led.in_a_row}: the last row needs another "
                "resistor, which is not worked out.",
                "rows of the same length",
                "Take as many LEDs as fill whole rows.",
                (*path, "led", "in_a_row"),
                sized.slug,
            ),
        )
    row_V = led.in_a_row * led.forward_voltage.middle
    if row_V >= sized.supply_V:
        return (
            Finding(
                "voltage-mismatch",
                Level.MUST,
                f"{led.in_a_row} LEDs in a row take {show.volts(row_V)}, and {sized.supply_slug} gives "
                f"{show.volts(sized.supply_V)}: nothing is left for the resistor, and they stay dark.",
                f"less than {show.volts(sized.supply_V)} for a row",
                any_of(fewer_words(toy, led, sized)) or "Take a supply of a higher voltage.",
                (*path, "led", "in_a_row"),
                sized.slug,
            ),
        )
    return (
        *led_overload(toy, led, sized, path),
        *led_dark(toy, led, sized, path),
        *led_doubt(toy, led, sized, path),
    )


def missing(toy: ToyFields, sized: Sized) -> tuple[Missing, ...]:
    """The LEDs, for which a resistor is to be found."""
    if of(toy).lamp_type != "LEDs with resistor" or of(toy).led is not None:
        return ()
    return (
        Missing(
            "led: {forward_voltage: .., current: ..}",
            "the resistor of its LEDs",
            "Look up forward voltage and current in the LED's data sheet.",
        ),
    )


def stands_A(led: LedFields) -> float:
    """What each LED stands: as described, else what is common over the current that it is to carry."""
    return led.highest_current.low if led.highest_current else STANDS * led.current.low


def led_overload(toy: Lamp, led: LedFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """More than an LED stands, at the highest supply and its own least voltage."""
    worst, most_A = result(toy, sized, "led.worst"), stands_A(led)
    if worst is None or reaches(most_A, worst):
        return ()
    stands = (
        f"it stands {show.amps(most_A)}"
        if led.highest_current
        else f"small LEDs commonly stand {STANDS:g} times the {show.amps(led.current.low)} that each is to carry, "
        f"{show.amps(most_A)}"
    )
    at_least = (sized.supply_high_V - led.in_a_row * led.forward_voltage.low) / most_A
    ohms = formulas.next_e24_ohm(at_least)
    current_A = show.rounded_up((sized.supply_V - led.in_a_row * led.forward_voltage.middle) / ohms)
    first = "" if led.highest_current else f"highest_current: {show.amps(most_A)}, if its data sheet allows that, and "
    return (
        Finding(
            "led-overloaded",
            Level.MUST if led.highest_current else Level.SHOULD,
            f"At {show.volts(sized.supply_high_V)} each LED of {sized.name} gets up to {show.amps(worst)}, since "
            f"little is left for its resistor; {stands}.",
            f"at most {show.amps(most_A)}",
            any_of(
                fewer_words(toy, led, sized),
                f"write {first}current: {show.amps(current_A)} for each LED: a resistor of {show.ohms(ohms)} keeps it.",
                DRIVER,
            ),
            (*path, "led", "current"),
            sized.slug,
        ),
    )


def led_dark(toy: Lamp, led: LedFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """Rows that may stay dark or all but dark: at the lowest supply, with LEDs that take the most."""
    value, row_V = resistor_ohm(toy, sized.supply_V), led.in_a_row * led.forward_voltage.high
    if value is None or reaches((sized.supply_low_V - row_V) / value, DARK * led.current.low):
        return ()
    needed_V = row_V + DARK * led.current.low * value
    return (
        Finding(
            "voltage-mismatch",
            Level.SHOULD,
            f"{led.in_a_row} LEDs of {sized.name} in a row take up to {show.volts(row_V)}, and {sized.supply_slug} may "
            f"give only {show.volts(sized.supply_low_V)}: a row may stay dark, or all but dark.",
            f"a supply that never gives less than {show.volts(show.rounded_up(needed_V))}, or fewer in a row",
            any_of(
                fewer_words(toy, led, sized),
                f"set the supply so that it never gives less than {show.volts(show.rounded_up(needed_V))}, and write "
                "its voltage_range.",
                DRIVER,
            ),
            (*path, "led", "in_a_row"),
            sized.slug,
        ),
    )


def fewer_words(toy: Lamp, led: LedFields, sized: Sized) -> str:
    """How many in a row neither get too much nor stay dark, with what the group then draws; "" where none do."""
    for row in range(led.in_a_row - 1, 0, -1):
        ohms = resistor_ohm(toy.model_copy(update={"led": led.model_copy(update={"in_a_row": row})}), sized.supply_V)
        if toy.count % row or ohms is None:
            continue
        most_A = (sized.supply_high_V - row * led.forward_voltage.low) / ohms
        least_A = (sized.supply_low_V - row * led.forward_voltage.high) / ohms
        if reaches(stands_A(led), most_A) and reaches(least_A, DARK * led.current.low):
            group_A = toy.count // row * (sized.supply_V - row * led.forward_voltage.middle) / ohms
            return (
                f"put {row} in a row, each row with {show.ohms(ohms)}: each LED then gets "
                f"{show.span(least_A, most_A, 'A')}, and the group about "
                f"{show.amps(group_A)}: write that as its current."
            )
    return ""


def any_of(*ways: str) -> str:
    """Ways of mending, each a sentence; those that are none are left out."""
    text = " Or ".join(filter(None, ways))
    return text[:1].upper() + text[1:]


def led_doubt(toy: Lamp, led: LedFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """The group's current as written against what its rows draw."""
    value = resistor_ohm(toy, sized.supply_V)
    assert value is not None
    drawn = rows_of(toy) * (sized.supply_V - led.in_a_row * led.forward_voltage.middle) / value
    if toy.current.low * (1 - MATCH) <= drawn <= toy.current.high * (1 + MATCH):
        return ()
    return (
        Finding(
            "reading-outside",
            Level.NOTE,
            f"{sized.name} is written with {show.quantity(toy.current)}; {rows_of(toy)} rows with "
            f"{show.ohms(value)} draw about {show.amps(drawn)}.",
            f"about {show.amps(drawn)}",
            "Measure the current of the whole group, or look at count, in_a_row and the LED's values again.",
            (*path, "current"),
            sized.slug,
        ),
    )


def hot_findings(toy: ToyFields, sized: Sized, path: tuple[str, ...]) -> tuple[Finding, ...]:
    """A surface that burns whoever touches it."""
    surface = of(toy).surface
    level = touch_level(surface.high) if surface else None
    if surface is None or level is None or level.level not in (HOT, MUST):
        return ()
    return (
        Finding(
            "surface-hot",
            Level.MUST if level.level == MUST else Level.SHOULD,
            f"{sized.name} reaches {show.celsius(surface.high, sized.units)} where it can be touched: it burns skin"
            + (" at once, and chars what lies against it." if level.level == MUST else " within seconds."),
            f"below {show.celsius(60.0, sized.units)}",
            "Guard it so that no hand reaches it, give it air, or take a lamp of lower power.",
            (*path, "surface"),
            sized.slug,
        ),
    )


def ratio_words(toy: Lamp) -> str:
    """Where the cold filament was not measured: what is taken, and what to measure it with."""
    if toy.cold_resistance is not None:
        return ""
    times = show.figure(rule("lamp inrush ratio").value)
    return f"{times} times is an estimate: measure it cold with a multimeter, and state it as its cold resistance. "


def questions(toy: ToyFields, sized: Sized) -> tuple[Question, ...]:
    """The rush of a cold filament; light that is lost on the way."""
    load, wire, port = sized.load, sized.wire, sized.port
    if filament(toy) and load.start_A is not None:
        switched = (
            f" Port {port.number} may switch {show.amps(port.rated_A)}: "
            + ("enough." if reaches(port.rated_A, load.start_A) else "take a relay for lamps, or a soft start.")
            if port and not port.signal
            else f" Here {seen_by(sized)} takes it: one made for lamps, or a soft start."
            if port
            else ""
        )
        return (
            Question(
                "cold-lamp",
                "Why does a lamp blow the fuse or its switch?",
                f"A cold filament takes many times its current: here up to {show.amps(load.start_A)} in place of "
                f"{show.amps(load.design_current_A)}, gone after about {show.seconds(load.start_s)}. "
                + ratio_words(of(toy))
                + (
                    f"Whether {sized.fuse.series} fuses stand that, their data sheet must say."
                    if sized.fuse.rating_A is not None and sized.fuse.melting_A2s is None
                    else f"A fuse of {show.amps(sized.fuse.needed_A)} or more stands that."
                )
                + switched,
                "w-lamp.inrush",
            ),
        )
    return (
        Question(
            "dim",
            "Why is it dim at its end?",
            f"Wire and the copper of a strip lose voltage. Up to its terminals it is {show.volts(wire.drop_V)}, "
            f"{wire.drop_percent:.1f} %, here; measure the rest from end to end. Feed both ends, take thicker wire, or "
            "one for twice the voltage, which draws half the current.",
            "w-drop.volts",
        ),
    )


KIND = Kind(
    word="lamp",
    title="Lamp",
    slug="lamp",
    fields=Lamp,
    part=PartKind.LAMP,
    load=load,
    introduction=introduction,
    cautions=cautions,
    mounting=mounting,
    steps=steps,
    tuning_notes=tuning_notes,
    play_notes=play_notes,
    troubles=troubles,
    emergency=(
        "Smoke, a smell of burning or a glowing wire: pull the plug, keep clear, and look for the cause cold.",
        "Somebody feels unwell or twitches while lamps flash: pull the plug, stay with them, and call for help.",
        "Broken glass: pull the plug, let it cool, and take the pieces out with pliers.",
    ),
    findings=findings,
    series=series,
    worked=worked,
    needs=needs,
    weighed=weighed,
    flash_Hz=flash_Hz,
    questions=questions,
    missing=missing,
)
