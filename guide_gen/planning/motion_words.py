"""The sentences about a shaker's motion, from the engine's numbers."""

from dataclasses import replace
from math import ceil, inf, isfinite

from guide_gen.formulas.bands import Band
from guide_gen.formulas.motion import Doubt, Kick, Measurement, MotionPlan, Remedy, SwayRemedy
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.motion_found import Compared as Outcome
from guide_gen.formulas.spread import TURN, Pair
from guide_gen.formulas.swing import GRAVITY_M_S2
from guide_gen.model.fields import FoundFields
from guide_gen.model.plan import Compared
from guide_gen.model.shaking import grams, head
from guide_gen.published.vibration import motion_value
from guide_gen.values import show

MEASURE = {
    Measurement.RESISTANCE: "the winding's resistance: hold the shaft, feed 1 to 2 V for a second, and divide volts by "
    "amperes at four positions (motor: resistance)",
    Measurement.SPEED: "the speed at full voltage, from its data sheet; or clamp it to a heavy bench, covered, and log "
    "a phone's accelerometer there for 20 s, for guide-gen shake (motor: speed)",
    Measurement.INDUCTANCE: "the winding's inductance, by an LCR meter at 1 kHz or less, one lead of the motor off "
    "(motor: inductance)",
    Measurement.SCALE: "the weight on a kitchen scale: its arm level, slowly raised and lowered (weight: scale)",
    Measurement.SWING: "the period of the weight's free swing on a phone video (weight: swing)",
    Measurement.DIODE: "the diode's drop at the motor's current, from its data sheet (suppressor: forward_voltage)",
    Measurement.PWM_FREQUENCY: "the board's PWM frequency (pwm_frequency)",
    Measurement.SUPPLY: "the supply's voltage as it is set (voltage_range)",
    Measurement.NUDGE: "the cabinet's sway: nudge it with a phone on top (cabinet: sideways_frequency and damping)",
    Measurement.MASS: "the cabinet's mass, corner by corner on a bathroom scale (cabinet: mass)",
}
NAMES = {
    Check.START: "begins to turn",
    Check.TURNING: "turning frequency",
    Check.CURRENT: "running current",
    Check.NATURAL: "the cabinet's own sway",
    Check.DAMPING: "damping of that sway",
    Check.AS_LEFT: "as-left setting",
}
WRONG_VALUE = "one of the values of motor, weight or cabinet is wrong"
WRONG = {
    NAMES[Check.NATURAL]: "write it under cabinet: sideways_frequency",
    NAMES[Check.DAMPING]: "write it under cabinet: damping",
    NAMES[Check.AS_LEFT]: f"set it within that range, or {WRONG_VALUE}",
}
DOUBTS = {
    Doubt.NEVER_STARTS: "By these values it never turns over, not even at full strength.",
    Doubt.MAY_NEVER_START: "It may never turn over, not even at full strength.",
    Doubt.CEILING_BELOW_START: "No setting can be promised{}: at an unfavourable end of the ranges it is too much as "
    "soon as it turns.",
    Doubt.START_TOO_WIDE: "The range in which it starts is too wide to be of much use.",
    Doubt.UNSETTLED: "Near the cabinet's own sway it may not settle: it surges and sinks, and what is said of those "
    "settings is rough.",
    Doubt.SWAY_EMPTY: "There is no sway: as soon as it turns it turns too fast and only vibrates.",
}


def share(value: float) -> str:
    """A setting in words, in the digits of steps and chart."""
    return "never" if value == inf else show.setting(value)


def between(low: float, high: float) -> str:
    """Two settings in words."""
    if low == inf:
        return "never"
    if high == inf:
        return f"at {share(low)} or never"
    first, last = show.settings(low, high)
    return f"at {first}" if first == last else f"between {first} and {last}"


def upto(low: float, high: float) -> str:
    """From one setting to another: ``7.73 % to 15.4 %``."""
    if low == high:
        return share(low)
    return f"{share(low)} to never" if high == inf else " to ".join(show.settings(low, high))


def short(plan: MotionPlan) -> str:
    """What the chart shows, in plain sentences."""
    sway = f"Likeliest sway: {', '.join(upto(*one) for one in plan.sway)}" if plan.sway else "No slow sway"
    worst = "At the height of the shaker it is never too much" + ("; higher up it may be" if plan.over_top else "")
    if isfinite(plan.ceiling):
        worst = f"At worst it is too much for the contents from {show.setting(plan.ceiling)} on"
    return f"Turns over {between(*plan.start)}. {sway}. {worst}{unpromised(plan)}.{dashed(plan)}"


def dashed(plan: MotionPlan) -> str:
    """Why the limit in the chart goes up and down, with a space before it; "" where it does not."""
    lines = {one.line for one in plan.curve if one.setting >= plan.start_nominal and one.turning_Hz > 0}
    if len(lines) < 2:
        return ""
    return " The dashed limit steps where another multiple of the turning frequency, mostly twice, decides."


def unpromised(plan: MotionPlan) -> str:
    """A warning to add where the guaranteed ceiling lies in or below the range of the start; else ""."""
    return f"; no setting can be promised{first(plan)}" if Doubt.CEILING_BELOW_START in plan.doubts else ""


def first(plan: MotionPlan) -> str:
    """What comes before a setting can be promised."""
    return ", measure first" if plan.helps_ceiling else ", fit a smaller weight first"


def doubt(plan: MotionPlan, one: Doubt) -> str:
    """A doubt in words."""
    return empty(plan) if one is Doubt.SWAY_EMPTY else DOUBTS[one].format(first(plan))


def says(plan: MotionPlan, trimmer: bool) -> tuple[str, ...]:
    """What the chart shows, in sentences."""
    found = [doubt(plan, Doubt.CEILING_BELOW_START)] if Doubt.CEILING_BELOW_START in plan.doubts else []
    found += [
        f"Most likely nothing moves below {share(still_below(plan))}; it may buzz from {share(plan.move[0])} on. "
        f"The weight turns over {between(*plan.start)}{likely(plan)}; until then it buzzes."
    ]
    if plan.sway:
        bands = " and ".join(f"from {upto(*one)}" for one in plan.sway)
        found.append(
            f"It most likely sways {bands}: slower than {show.hertz(plan.inputs.sway_Hz)}, felt one by one"
            f"{but_not_promised(plan)}."
        )
    if isfinite(plan.ceiling):
        stop = (
            f"stop at {show.setting(plan.stop)} at the latest"
            if isfinite(plan.stop)
            else "no setting at which it may turn is sure to stay below"
        )
        found.append(f"From {show.setting(plan.ceiling)} on it may pass what the contents stand: {stop}.")
    else:
        found.append("At no setting does it pass what the contents stand, at the height of the shaker.")
    found.append(at_top(plan))
    if plan.harmful and plan.hang is None and plan.harmful[1] >= plan.start[0] and isfinite(plan.stop):
        own = show.span(plan.inputs.natural_Hz.low, plan.inputs.natural_Hz.high, "Hz")
        where = max(plan.harmful[0], plan.start[0]), plan.harmful[1]
        found.append(
            f"It may meet the cabinet's own sway, {own}, {between(*where)}: pass that quickly and settle beside it."
        )
    if trimmer:
        found.append(
            "The trimmer has no scale: the setting is the share of the full voltage that the controller gives."
            f"{at_the_motor(plan)}"
        )
    return tuple(found)


def still_below(plan: MotionPlan) -> float:
    """Where the band in which nothing moves ends, as the chart shows it."""
    return plan.bands[0].high if plan.bands and plan.bands[0].band is Band.NO_MOTION else plan.move_nominal


def but_not_promised(plan: MotionPlan) -> str:
    """What to add to a sway that lies where it may be too much."""
    if not isfinite(plan.ceiling) or plan.sway[0][0] < (plan.stop if isfinite(plan.stop) else plan.ceiling):
        return ""
    return ", but there it may be too much for the contents"


def empty(plan: MotionPlan) -> str:
    """Why there is no sway: too much, too weak or too fast where it turns."""
    first = next((one.band for one in plan.bands if one.band not in (Band.NO_MOTION, Band.BUZZ)), None)
    turns = next((one for one in plan.curve if one.setting >= plan.start_nominal and one.turning_Hz > 0), None)
    slow = turns is not None and turns.turning_Hz <= plan.inputs.sway_Hz
    if first is Band.FAINT and slow:
        return "There is no sway: where it turns slowly enough it is too weak to be felt, and then it only vibrates."
    if first is Band.TOO_MUCH and slow:
        return "There is no sway: where it turns slowly enough it is too much for the contents."
    return DOUBTS[Doubt.SWAY_EMPTY]


def at_the_motor(plan: MotionPlan) -> str:
    """What a meter at the motor shows as it begins to turn."""
    low, high = plan.start_V
    if low == inf:
        return ""
    reads = show.span(low, high, "V") if high < inf else f"{show.volts(low)} or more"
    return f" Just before it turns over a meter at the motor shows {reads}; once it turns the reading jumps up."


def turned_round(shaft: str | None) -> str:
    """What differs where the shaft does not lie front to back, as the sideways sway takes it to; "" where it does."""
    if shaft == "side to side":
        return (
            "With the shaft side to side the weight throws front to back, not sideways: settings and turning "
            "frequencies hold, the sideways sway and its limit are those of a shaft front to back."
        )
    if shaft == "upright":
        return (
            "With the shaft upright nothing lifts the weight: it begins to turn at a lower setting than is said here, "
            "which is for a lying shaft. The sideways sway at a turning frequency holds."
        )
    return ""


def likely(plan: MotionPlan) -> str:
    """How the start lies within its range."""
    nominal = share(plan.start_nominal)
    if plan.start_likely is None:
        return "" if plan.start[0] == plan.start[1] else f", most likely at {nominal}"
    return (
        f", wherever the values lie in their ranges; 8 of 10 such machines do so {between(*plan.start_likely)}, the "
        f"likeliest at {nominal}"
    )


def at_top(plan: MotionPlan) -> str:
    """What the limit means higher up, where the cabinet sways farther."""
    times = motion_value("shift at the top")
    first = (
        f"This holds at the height of the shaker. The top of a cabinet sways about {times.value:g} times as far "
        f"({times.low:g} to {times.high:g}, an estimate): "
    )
    if not plan.over_top:
        return f"{first}what stands there stays within it too."
    where = [f"from {share(low)} on" if high >= 1 else between(low, high) for low, high in plan.over_top]
    return f"{first}what stands there may pass it {' and '.join(where)}."


def hangs(plan: MotionPlan) -> tuple[str, ...]:
    """Several steady speeds at one setting: where it may hang, and where it jumps."""
    one = plan.hang
    if one is None:
        return ()
    where = (
        f"At {share(one.high)}" if share(one.low) == share(one.high) else f"{between(one.low, one.high).capitalize()}"
    )
    return (
        f"{where} it {'can' if one.likeliest else 'may, in the worst case,'} keep two speeds: it hangs at "
        f"{show.hertz(one.slow_Hz)}, near the cabinet's own sway, and above {share(one.high)} jumps to "
        f"{show.hertz(one.fast_Hz)}. Pass this quickly and set it above or below. A supply that limits its current "
        "makes it worse.",
    )


def worst_pull_N(plan: MotionPlan) -> float:
    """How hard the weight pulls at full strength, with every value and the voltage at the unfavourable end."""
    return plan.inputs.unbalance_kg_m.high * (TURN * plan.curve[-1].fast_Hz) ** 2


def footing(plan: MotionPlan) -> tuple[str, ...]:
    """Whether the pull at full strength can walk or lift the cabinet, with both forces."""
    if not plan.footing.creeps:
        return ()
    weight_N = plan.inputs.mass_kg.low * GRAVITY_M_S2
    grip = motion_value("friction of the feet").value
    what = "creep on its feet and hop" if plan.footing.hops else "creep on its feet"
    return (
        f"At full strength the cabinet can {what}: the weight pulls with up to "
        f"{show.newtons(worst_pull_N(plan))} (highest voltage, every value at the unfavourable end), the cabinet "
        f"weighs {show.newtons(weight_N)} or more, and feet slide at about {show.percent(grip)} of that (an estimate).",
    )


def narrowed(plan: MotionPlan) -> str:
    """What the readings did to the ranges."""
    useful = [NAMES[one.check] for one in plan.compared if one.narrows]
    idle = [NAMES[one.check] for one in plan.compared if not one.narrows and not one.outside]
    idle = [name for name in idle if name != NAMES[Check.AS_LEFT]]
    found = []
    if useful and plan.start_before:
        before, now = between(*plan.start_before), between(*plan.start)
        found.append(
            f"Narrowed by what was found: {', '.join(useful)}."
            + (f" Without that it would turn over {before}." if before != now else "")
        )
        if any(one.narrows and one.check is Check.AS_LEFT for one in plan.compared):
            here = show.setting(plan.inputs.found.as_left or 0.0)
            found.append(f"It is left at {here}: it turns over there at the latest.")
    if idle:
        found.append(f"Found, but no news to what is described: {', '.join(idle)}.")
    return " ".join(found)


def stale(found: FoundFields | None) -> str:
    """What to do with readings of a setting that a control without one does not have; "" where there are none."""
    setting = found.setting.middle if found and found.setting else 1.0
    if found is None or setting >= 1 or not (found.turning or found.current):
        return ""
    return (
        f"What was found belongs to a setting of {share(setting)}, which this control does not have: find it again at "
        "full strength."
    )


def settable(band: tuple[float, float] | None, step: float) -> bool:
    """Whether a band is wide enough that a control of such steps can be set within it."""
    return band is not None and band[1] - band[0] >= step * (1 - 1e-9)


def kick_beside(plan: MotionPlan) -> Kick | None:
    """The kick, with what it may be lowered to beside the settings at which it would meet the cabinet's own sway."""
    if plan.kick is None or plan.harmful is None:
        return plan.kick
    hold = widest_beside(plan.kick.hold, plan.harmful)
    sure = plan.kick.hold_sure and widest_beside(plan.kick.hold_sure, plan.harmful)
    return replace(plan.kick, hold=hold, hold_sure=sure) if hold else None


def widest_beside(band: Pair, harmful: Pair) -> Pair | None:
    """The wider part of a band that is left beside some settings; None where nothing is."""
    parts = [(band[0], min(band[1], harmful[0])), (max(band[0], harmful[1]), band[1])]
    widest = max(parts, key=lambda one: one[1] - one[0])
    return widest if widest[1] > widest[0] else None


def remedies_of(plan: MotionPlan) -> tuple[SwayRemedy, ...]:
    """What opens an empty sway band; a kick only to what is left beside the cabinet's own sway."""
    beside = kick_beside(plan)
    return tuple(
        replace(one, sway=beside.hold) if one.remedy is Remedy.KICK and beside else one
        for one in plan.remedies
        if beside or one.remedy is not Remedy.KICK
    )


def lighter(plan: MotionPlan) -> tuple[str, ...]:
    """The weight that is not too much as soon as it turns, where the one that is described may be."""
    if plan.fits_kg_m is None or any(one.remedy is Remedy.SMALLER_WEIGHT for one in plan.remedies):
        return ()
    return (
        f"A smaller weight or shorter arm, at most {grams(plan.fits_kg_m)}: even at worst it is then not too much as "
        "soon as it turns.",
    )


def narrows(plan: MotionPlan) -> str:
    """What narrows the settings at which it may meet the cabinet's own sway: the wider of that and of the turning
    frequency has to be known better; "" where nothing helps."""
    here = min(plan.curve, key=lambda one: abs(one.setting - min(plan.start_nominal, 1.0)))
    natural = plan.inputs.natural_Hz
    wider = natural.low <= 0 or (here.slow_Hz > 0 and natural.high / natural.low > here.fast_Hz / here.slow_Hz)
    if wider:
        return f"measure {head(MEASURE[Measurement.NUDGE])}, which narrows it"
    wide = f"what is wide is the turning frequency, {show.span(here.slow_Hz, here.fast_Hz, 'Hz')}"
    if plan.inputs.found.turning_Hz is None:
        return f"{wide}: log it, as left (found: turning), which narrows it"
    return f"{wide}: measure {head(MEASURE[plan.helps_start])}, which narrows it" if plan.helps_start else wide


def kick(plan: MotionPlan, step: float, limit: float | None) -> str:
    """Kick, then lower: where a turning weight keeps turning well under the setting at which it starts.

    step: of the control; a band that it cannot be set within is no advice. limit: the port's highest value.
    """
    advice = kick_beside(plan)
    if plan.kick is None:
        return ""
    narrow = f"too narrow to set in steps of {show.setting(step)}"
    if not settable(plan.kick.hold, step):
        return f"A kick, then lower, does not help: what it leads to lies {between(*plan.kick.hold)}, {narrow}. " + (
            change(plan)
        )
    if advice is None or not settable(advice.hold, step):
        return (
            f"A kick, then lower, does not help: what it leads to lies {between(*plan.kick.hold)}, but there "
            f"it may meet the cabinet's own sway. {change(plan)}"
        )
    sure = settable(advice.hold_sure, step)
    low, high = show.settings(*(advice.hold_sure if sure and advice.hold_sure else advice.hold))
    raised = f" The port's limit has to be {show.setting(advice.kick)} or more for it."
    told = (
        f"A kick {'helps' if sure else 'may help'}: {kick_s(advice.seconds)} at {show.setting(advice.kick)}, by when "
        f"even the slowest machine of the ranges is over the top, then down to between {low} and {high}: once it "
        f"turns, it {'keeps' if sure else 'may keep'} turning there."
    )
    if advice.hold_sure and not sure:
        told += f" Where it is sure to, {between(*advice.hold_sure)}, is {narrow}. {change(plan)}"
    return f"{told}{raised * (limit is not None and limit < advice.kick)}".strip()


def kick_s(seconds: float) -> str:
    """A kick's length, rounded up to a twentieth of a second."""
    return show.with_unit(show.figure(ceil(20 * seconds - 1e-9) / 20, decimals=2), "s")


def change(plan: MotionPlan) -> str:
    """What to change or to measure where a setting is needed that cannot be set."""
    others = [one for one in plan.remedies if one.remedy is not Remedy.KICK]
    if others:
        return f"What would help instead: {remedy(others[0])[0].lower()}{remedy(others[0])[1:]}"
    return f"Measure first: {MEASURE[plan.helps_start]}." if plan.helps_start else ""


def remedy(one: SwayRemedy) -> str:
    """What opens an empty sway band."""
    sway = f"sway from {upto(*one.sway)}"
    if one.remedy is Remedy.HIGHER_PWM:
        return f"A PWM frequency of {show.hertz(one.value or 0.0)} or more: {sway}."
    if one.remedy is Remedy.KICK:
        return f"A kick, then lower: {sway}."
    if one.remedy is Remedy.SMALLER_WEIGHT:
        return f"A smaller weight or shorter arm, {grams(one.value or 0.0)}: {sway}."
    if one.remedy is Remedy.LARGER_WEIGHT:
        return f"A larger weight or longer arm, {1000 * (one.value or 0.0):.1f} g m: {sway}."
    return f"A trimmer-set speed controller: {sway} of the full voltage."


def compared(one: Outcome) -> Compared:
    """A reading against what was foretold."""
    words = {Check.TURNING: (show.hertz, "Hz"), Check.CURRENT: (show.amps, "A"), Check.NATURAL: (show.hertz, "Hz")}
    if one.check in words:
        shown, unit = words[one.check]
        found, predicted = shown(one.found), show.span(*one.predicted, unit)
    else:
        found, predicted = share(one.found), upto(*one.predicted)
    return Compared(NAMES[one.check], found, predicted, not one.outside)
