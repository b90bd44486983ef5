"""What a guide says of any coil that is made for pulses: cautions, checks, first pulse, tuning from short upward."""

from math import isinf
from typing import cast

from guide_gen.formulas.choice import reaches
from guide_gen.model.coil import resistance_reading
from guide_gen.model.fields import ToyFields
from guide_gen.model.guide import Caution, Reading, Step, Trouble, Word
from guide_gen.model.kind import Dial
from guide_gen.model.plan import Sized
from guide_gen.model.pulse_coil import (
    BENCH_SHARE,
    FIRST_ON_S,
    HAND_S,
    LONGEST_TRIED_S,
    STEP_ON_S,
    Noun,
    PulseCoilToy,
    Pulses,
    change_words,
    cut_after,
    fuse_words,
    proposed_limit_s,
    pulses_of,
    window_words,
)
from guide_gen.model.pulse_remedy import LONGEST_PAUSE_S, TOUCH_DEGC, longest_pulse_s, whole_pause
from guide_gen.values import show

SEMICONDUCTORS = ("pwm port", "on/off port", "speed controller")


def ceiling_s(toy: ToyFields, sized: Sized) -> float:
    """The longest on-time to try: a stroke is over by then, and coil and time limit allow it."""
    described, found = cast(PulseCoilToy, toy), pulses_of(toy, sized)
    limit = described.time_limit
    bounds = [max(LONGEST_TRIED_S, found.on_s or 0.0)]
    bounds += [limit.after.low] if limit and limit.after else []
    bounds += [found.alone_s] if found.alone_s is not None and not isinf(found.alone_s) else []
    top = min(bounds)
    if found.peak_degC is None or whole_pause(found.coil, top, found.ends_s) is not None:
        return top
    allowed = longest_pulse_s(found.coil, LONGEST_PAUSE_S, found.ends_s, top)
    return allowed if allowed is not None and reaches(allowed, FIRST_ON_S) else top


def pause_at_top(found: Pulses, top_s: float) -> str:
    """The pause for the longest pulse that is tried, in a sentence; "" where it is not known or none is needed."""
    pause = whole_pause(found.coil, top_s, found.ends_s) if found.peak_degC is not None else None
    if pause is None or pause.off_s <= 0:
        return ""
    limit = f" With an on-time limit of {show.seconds(pause.stays_s)}." if pause.limited else ""
    return f"With pulses of {show.seconds(top_s)} pause {show.seconds(pause.off_s)} or more.{limit}"


def cautions(toy: ToyFields, sized: Sized, noun: Noun) -> tuple[Caution, ...]:
    """Stuck on, hot, moving, loud, kicking back."""
    found = pulses_of(toy, sized)
    powered = (f"{noun.slug}.bench.pull", f"{noun.slug}.tune.first")
    told = stuck_on(sized, noun, found)
    told += [
        Caution(
            "plunger-strike",
            Word.CAUTION,
            f"The {noun.mover} strikes without warning.",
            "Pinched or bruised fingers.",
            ("Hands clear of it and of its stop.", "Test it with its cover on."),
            grouped=True,
            before=powered,
        ),
        Caution(
            "knock-noise",
            Word.CAUTION,
            f"It {noun.does} loudly, near the ear while the head is in the cabinet.",
            "Hearing strain.",
            ("Wear ear protection while tuning.", "Limit how loud it is in play."),
            before=(f"{noun.slug}.tune.first",),
        ),
    ]
    if found.peak_degC is None or found.peak_degC >= TOUCH_DEGC:
        told.append(
            Caution(
                "coil-hot",
                Word.CAUTION,
                "A coil that has worked for a while is hot.",
                "It burns the skin.",
                ("Let it cool with the plug out.", "Measure before touching; guard it where it can be reached."),
                reason=f"About {show.celsius(found.peak_degC, sized.units)} (estimate) with the pulses of this build."
                if found.peak_degC is not None
                else "How warm this one gets is not known: measure it.",
                before=(f"{noun.slug}.after.look",),
            )
        )
    if sized.control in SEMICONDUCTORS:
        told.append(
            Caution(
                "kickback",
                Word.NOTICE,
                "At each switch-off the coil drives its voltage up.",
                "A dead port, odd resets.",
                ("Fit the suppressor the right way round.", "Check it with the meter before power."),
                before=("wire",),
            )
        )
    return tuple(told)


def stuck_on(sized: Sized, noun: Noun, found: Pulses) -> list[Caution]:
    """A coil that must not stay on; none for one that stands it for ever."""
    if found.saved_by == "cool":
        return []
    return [
        Caution(
            "stuck-on",
            Word.WARNING,
            f"The coil of {sized.ids['load']} is made for pulses and can stay on: software fault, shorted switch.",
            "Smoke, then fire, within minutes or less.",
            (f"Pull the plug when the {noun.mover} stays in.", "Keep the on-time limit set; fit a thermal cut-out."),
            reason=stuck_on_words(sized, found),
            grouped=True,
            before=(f"{noun.slug}.bench.pull", f"{noun.slug}.tune.first", "first-power"),
        ),
    ]


def stuck_on_words(sized: Sized, found: Pulses) -> str:
    """What happens when it stays on, computed."""
    if found.longest_on_s is None:
        return f"How long this coil stands it is not known; {fuse_words(sized, found)}."
    if found.longest_on_s <= 0:
        return f"Its pulses alone bring it to its limit; {fuse_words(sized, found)}."
    return (
        f"It reaches {show.celsius(found.coil.limit_degC, sized.units)} within {show.seconds(found.longest_on_s)}; "
        f"{fuse_words(sized, found)}."
    )


def saved_words(toy: ToyFields, sized: Sized) -> str:
    """What ends a pulse that does not end by itself."""
    limit = cast(PulseCoilToy, toy).time_limit
    fuse = sized.ids.get("fuse", "the fuse")
    return {
        "cool": "Its coil may stay on for ever: it never reaches the limit of its insulation.",
        "fuse": f"If it stays on, {fuse} opens before the coil is too hot.",
        "board": "If software leaves it on, the board ends the pulse"
        + (f" after {show.quantity(limit.after)}" if limit and limit.after else "")
        + ". It cannot end a switch that has failed closed: then only the plug does, or a thermal cut-out on the coil.",
        "coil": "If it stays on, the thermal cut-out on the coil opens. It closes again when it has cooled: find the "
        "cause first.",
        "nothing": "Nothing ends a pulse that stays on but the plug.",
    }[pulses_of(toy, sized).saved_by]


# ---- steps ----------------------------------------------------------------------------------------------------------


def check_steps(toy: ToyFields, sized: Sized, noun: Noun) -> tuple[Step, ...]:
    """Coil resistance, the board's time limit, and one single short pulse from a bench supply."""
    described, found, held = cast(PulseCoilToy, toy), pulses_of(toy, sized), sized.ids["load"]
    steps = [
        Step(
            f"{noun.slug}.dead.coil",
            "dead-checks",
            f"Coil cold: measure {held}:1 to {held}:2 with one lead of the coil off.",
            "Resistance of the coil",
            record=resistance_reading(described, sized),
        ),
    ]
    limit = described.time_limit
    if limit and limit.by == "coil":
        steps.append(
            Step(
                f"{noun.slug}.dead.cut-out",
                "dead-checks",
                "The thermal cut-out sits tight on the coil, in series with it, and its leads are sleeved.",
                "Thermal cut-out on the coil",
                killer=True,
            )
        )
    if sized.port is not None:
        steps += setting_steps(described, sized, noun, found)
    return (*steps, *bench_steps(sized, noun, found))


def setting_steps(toy: PulseCoilToy, sized: Sized, noun: Noun, found: Pulses) -> list[Step]:
    """On-time and its limit, entered before the coil can be driven."""
    assert sized.port is not None
    after = toy.time_limit.after if toy.time_limit and toy.time_limit.by == "board" else None
    stood = after is not None and (found.stuck_s is None or reaches(found.stuck_s, after.high))
    proposed = proposed_limit_s(found)
    on_time = Step(
        f"{noun.slug}.settings.time",
        "settings",
        f"Enter {show.seconds(FIRST_ON_S)} as on-time of port {sized.port.number}, or the shortest there is.",
        f"On-time {show.seconds(FIRST_ON_S)}",
        more="Board and game may both have such a value: the shorter one holds.",
    )
    if after is not None and stood:
        limit = show.quantity(after)
    elif proposed is not None:
        limit = show.seconds(proposed)
    else:
        return [on_time, *unsaved_steps(sized, noun, found)]
    return [
        on_time,
        Step(
            f"{noun.slug}.settings.limit",
            "settings",
            f"Enter {limit} as the longest on-time that the board allows on port {sized.port.number}.",
            f"On-time limit {limit}",
            killer=True,
            more="A board without such a limit leaves the coil on when software hangs: then fit a thermal cut-out on "
            "the coil.",
        ),
        Step(
            f"{noun.slug}.before.limit",
            "before-supply",
            f"The on-time limit of port {sized.port.number} is {limit}, and the on-time is the shortest.",
            "On-time limit set",
            killer=True,
        ),
    ]


def unsaved_steps(sized: Sized, noun: Noun, found: Pulses) -> list[Step]:
    """In place of a limit: this coil cannot be pulsed so at its voltage, and what to change."""
    assert sized.port is not None
    longest, port = found.longest_on_s, sized.port.number
    why = (
        f"From its hottest start it stands {show.seconds(longest)} of that, less than a pulse or than can be set."
        if longest
        else "Its pulses alone bring it to its limit."
    )
    return [
        Step(
            f"{noun.slug}.settings.limit",
            "settings",
            f"Leave port {port} off for now: with up to {show.volts(sized.supply_high_V)} no on-time limit saves this "
            "coil. Change what is named below first.",
            "No on-time limit saves this coil",
            killer=True,
            more=f"{why} {change_words(found)}",
        ),
        Step(
            f"{noun.slug}.before.limit",
            "before-supply",
            f"The coil or its voltage has been changed, and port {port} has an on-time limit that the coil stands.",
            "Coil changed, on-time limit set",
            killer=True,
        ),
    ]


def bench_steps(sized: Sized, noun: Noun, found: Pulses) -> tuple[Step, ...]:
    """At part of its current first, for moments; then one single short pulse by hand."""
    held, current = sized.ids["load"], sized.load.design_current_A
    known = found.longest_on_s is not None
    stands = found.longest_on_s if found.longest_on_s is not None else 0.0
    moment = show.seconds(min(2.0, stands) if known and stands > 0 else 1.0)
    whole = known and stands >= 4 * HAND_S
    volts = sized.load.voltage_V if whole else BENCH_SHARE * sized.load.voltage_V
    why = (
        "A hand can hardly be shorter than half a second."
        if whole
        else "Half the voltage is a quarter of the heat: at full voltage this coil stands too little, or nobody knows."
    )
    return (
        Step(
            f"{noun.slug}.bench.pull",
            "bench",
            f"Feed the coil alone, its fuse out: current limit {show.amps(BENCH_SHARE * current)}, voltage from 0 V up "
            f"until the {noun.mover} moves. On for {moment} at most, then off for half a minute.",
            "Bench supply from 0 V",
            record=Reading(
                f"Voltage at which the {noun.mover} moves",
                f"{held}:1 and {held}:2",
                0.0,
                BENCH_SHARE * sized.load.voltage_V,
                "V",
                f"At the limit and still nothing: move the {noun.mover} by hand, output off. If it slides, go on to "
                f"the "
                "single pulse; if not, it is stuck. Never raise the limit to get past a fault.",
                "bench supply's meter",
            ),
        ),
        Step(
            f"{noun.slug}.bench.pulse",
            "bench",
            f"Current limit {show.amps(current)}, {show.volts(volts)}. Switch the output on and at once off again: one "
            f"single short pulse. It {noun.does} once and comes back.",
            "One single short pulse",
            more=f"{why} Output off: its current goes to zero; if not, the output is still on. The suppressor is "
            "fitted, or the bench supply takes the kick.",
        ),
    )


def first_steps(sized: Sized, noun: Noun, dial: Dial | None) -> tuple[Step, ...]:
    """The first pulse on the cabinet's supply, where there is no dial to begin from."""
    if dial is not None:
        return ()
    if sized.port is None:
        return (
            Step(
                f"{noun.slug}.first.once",
                "first-power",
                f"Plug in for a second. It {noun.does} once when power comes; plug out at once.",
                "One stroke, plug out",
                killer=True,
            ),
        )
    return (
        Step(
            f"{noun.slug}.first.once",
            "first-power",
            f"Trigger it once from the game's test. It {noun.does} once, and the {noun.mover} comes back.",
            "One stroke, then back",
            killer=True,
            more=f"The {noun.mover} stays in: the coil is still on and gets warm. Pull the plug at once.",
        ),
    )


def tune_steps(toy: ToyFields, sized: Sized, noun: Noun, dial: Dial | None) -> tuple[Step, ...]:
    """Strength is the on-time, from short upward; with a dial first the setting."""
    if sized.port is None:
        return (
            Step(
                f"{noun.slug}.tune.first",
                "tune",
                f"Nothing can be tuned: it is on with its supply. Put it on a port before it {noun.does} in play.",
                "Put it on a port",
            ),
        )
    top, found = ceiling_s(toy, sized), pulses_of(toy, sized)
    on_time = Reading(
        "On-time as left",
        f"entered for port {sized.port.number}",
        None,
        1000 * top,
        "ms",
        "Go back below: a longer pulse adds heat, not strength.",
    )
    steps = []
    if dial is not None:
        steps.append(
            Step(
                f"{noun.slug}.tune.lowest",
                "tune",
                f"{dial.to_lowest} Power on from outside. It stays still.",
                "Lowest setting",
                killer=True,
            )
        )
    begin = f"{dial.smallest_step} Trigger it each time, " if dial else "Trigger it with the shortest on-time, "
    steps.append(
        Step(
            f"{noun.slug}.tune.first",
            "tune",
            f"{begin}until it {noun.does}; a buzz before that is normal."
            if dial
            else f"{begin}{show.seconds(FIRST_ON_S)}: it may only twitch.",
            "First small pulse",
            more="Wait two seconds between tries. A manual test of an output may hold it on: use the game's test.",
        )
    )
    if dial is not None:
        steps.append(
            Step(
                f"{noun.slug}.tune.setting",
                "tune",
                "Write down the setting as left.",
                "Setting as left",
                record=dial.reading("Setting as left"),
            )
        )
    return (
        *steps,
        Step(
            f"{noun.slug}.tune.longer",
            "tune",
            f"Make the on-time longer by {show.seconds(STEP_ON_S)} each time, until the stroke is strong enough. "
            f"Stop where longer is no stronger, and at {show.seconds(top)} in any case.",
            "On-time from short upward",
            more=f"{pause_at_top(found, top)} A longer pulse needs a longer pause: write the on-time as left into this "
            "build, and set the pause that it then tells.".strip(),
        ),
        Step(
            f"{noun.slug}.tune.repeat",
            "tune",
            "Trigger it twenty times, as fast as a game would with that pause. It comes back each time.",
            "Twenty strokes",
        ),
        Step(
            f"{noun.slug}.tune.left",
            "tune",
            "Write the as-left on-time down.",
            "As-left on-time",
            record=on_time,
            killer=True,
        ),
    )


def warm_step(sized: Sized, noun: Noun, id: str) -> Step:
    """How warm the coil is after play."""
    return Step(
        f"{noun.slug}.{id}",
        "play",
        "After ten minutes of hard play pull the plug and measure the coil's surface.",
        "How warm the coil is",
        record=Reading(
            "Surface of the coil after ten minutes of play",
            f"on the winding of {sized.ids['load']}",
            None,
            TOUCH_DEGC,
            "°C",
            "Warmer: longer pauses or a shorter on-time, and a guard so that nobody touches it.",
            "contact or infrared thermometer on dull tape",
        ),
    )


# ---- what to know ---------------------------------------------------------------------------------------------------


def tuning_notes(toy: ToyFields, sized: Sized, noun: Noun) -> tuple[str, ...]:
    """What governs strength and heat, with the computed times."""
    found = pulses_of(toy, sized)
    told = [
        f"Strength is how long the pulse lasts, up to where the {noun.mover} has arrived. Longer only heats the coil.",
        f"Cold it draws {show.amps(found.coil.cold_A)} at most. At "
        f"{show.celsius(found.coil.limit_degC, sized.units)}, its limit, and the lowest voltage only "
        f"{show.amps(found.coil.least_A(found.coil.limit_degC))}: a hot coil pulls less.",
    ]
    if found.longest_on_s is not None and not isinf(found.longest_on_s):
        told.append(
            f"It may be on for {show.seconds(found.longest_on_s)} at the very longest, once."
            if found.longest_on_s > 0
            else "No pulse at this repetition: once the pulses have repeated for long, the coil is at its limit."
        )
    if found.pause_s is not None and found.on_s is not None and not isinf(found.pause_s):
        told.append(
            f"With pulses of {show.seconds(found.on_s)} pause {show.seconds(found.pause_s)} or more."
            if found.pause_s > 0
            else f"With pulses of {show.seconds(found.on_s)} no pause is needed for its heat."
        )
    described = cast(PulseCoilToy, toy)
    top = ceiling_s(toy, sized) if sized.port is not None else 0.0
    if found.on_s is not None and top > found.on_s and pause_at_top(found, top):
        told.append(f"The longest that is tried: {pause_at_top(found, top)[0].lower()}{pause_at_top(found, top)[1:]}")
    cut = cut_after(described)
    if cut is not None and described.pulse is not None:
        told.append(
            f"Pulses of {show.quantity(described.pulse.on_time)} are cut: the board ends each after "
            f"{show.quantity(cut)}."
        )
    window = window_words(sized, found)
    return (*told, saved_words(toy, sized), *((window,) if window else ()))


def port_reading(sized: Sized) -> str:
    """Where a failed switch is told apart with nothing powered."""
    if sized.port is None:
        return "resistance of what switches it, plug out"
    return f"resistance from {sized.port.board_id}:P{sized.port.number} to 0 V, plug out, the wire of its port off"


def troubles(toy: ToyFields, sized: Sized, noun: Noun) -> tuple[Trouble, ...]:
    """Symptoms of any pulse coil."""
    reading, fuse = resistance_reading(cast(PulseCoilToy, toy), sized), sized.ids.get("fuse", "The fuse")
    span = show.span(reading.low, reading.high, "Ω")
    return (
        Trouble(
            f"The {noun.mover} stays in, the coil gets warm",
            "the port stays on: pull the plug now; then a failed switch or a lost time limit",
            port_reading(sized),
            "open, not near zero",
        ),
        Trouble(
            f"Only twitches, or the {noun.mover} sticks",
            "on-time too short, dirt, a bent guide, or a hot coil",
            f"move the {noun.mover} by hand, plug out",
            "slides freely and comes back",
        ),
        Trouble(
            "Grew weaker over an evening",
            "the coil is hot and draws less",
            f"resistance {reading.between}, plug out, once it is cold again",
            span,
        ),
        Trouble(
            "Smell, brown wrapping",
            "the coil was on for too long: shorted turns",
            f"resistance {reading.between}, plug out",
            f"{span}; lower means a new coil",
        ),
        Trouble(
            f"{fuse} opens after weeks",
            "it tires with the pulses, or a wire is pinched",
            "rating printed on it",
            show.amps(sized.fuse.rating_A) if sized.fuse.rating_A is not None else "as the page says",
        ),
    )
