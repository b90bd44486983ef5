"""What a shaker's tuning steps say, from its motion plan: what to look for, where to stop, what to pass quickly."""

import re
from math import floor, inf, isfinite

from guide_gen.model.guide import Reading
from guide_gen.model.kind import Dial
from guide_gen.model.plan import Motion, MotionPoint, Sized
from guide_gen.values import show

USUAL_START = (2.0, 35.0)  # percent, large shakers of every usual value; this project, estimates
# Names of readings that may be foretold.
NATURAL, DAMPING, TURNING, CURRENT = "natural frequency", "damping", "turning frequency", "current"
LOG_READS_HZ = (0.5, 60.0)  # what `guide-gen shake` looks for, where no plan says more


def at(share: float, dial: Dial, motion: Motion | None = None) -> str:
    """A setting; behind a trimmer, which has no scale, volts at the motor, or a share of the full voltage."""
    if dial.unit == "%":
        return show.setting(share)
    if motion is not None and motion.full_V is not None:
        return f"{show.volts(share * motion.full_V)} at the motor"
    return f"{show.setting(share)} of the full voltage"


def span(low: float, high: float, dial: Dial, motion: Motion | None = None) -> str:
    """From one setting to another: ``13.75 % to 30 % of the full voltage``."""
    if dial.unit != "%" and motion is not None and motion.full_V is not None:
        return f"{show.span(low * motion.full_V, high * motion.full_V, 'V')} at the motor"
    return f"{show.setting(low)} to {at(high, dial)}"


def blocked(motion: Motion | None) -> bool:
    """Whether it has to be stopped before it most likely turns over: no setting can be promised or looked for."""
    return motion is not None and ends_before(motion.ceiling, motion.stop, motion.start_nominal)


def feed_open(sized: Sized) -> str:
    """What keeps a toy that must not run without current: its fuse out, or its plus off where it has none."""
    fuse = sized.ids.get("fuse")
    return f"Take {fuse} out again" if fuse else f"Take the plus wire off {sized.ids['load']}"


def ends_before(ceiling: float, stop: float, start: float) -> bool:
    """Whether the settings that are not too much end before the one at which it most likely turns over."""
    return isfinite(ceiling) and (stop if isfinite(stop) else ceiling) < start


def too_much_at_full(sized: Sized) -> bool:
    """Whether it gets full strength or nothing, and that most likely is more than the contents stand."""
    return sized.at_full is not None and sized.at_full.limit_share > 1


def wanted(motion: Motion) -> str:
    """What has to be measured before a setting can be promised, in a few words; "" where no measurement helps."""
    return " and ".join(head(one) for one in (motion.helps, *motion.also) if one)


def head(measurement: str) -> str:
    """What a measurement measures, without how: ``the cabinet's mass``."""
    return re.split("[:,(]", measurement)[0].strip()


def first_of_all(motion: Motion) -> str:
    """What comes before any setting: ``measure first (the cabinet's mass), as ..``."""
    what = wanted(motion)
    return f"{f'measure first ({what})' if what else 'fit a smaller weight'}, as no setting can be promised"


def smaller_weight(motion: Motion) -> str:
    """What to fit where it is too much as soon as it turns, with the size that is not."""
    return weight_of(motion.fits_kg_m)


def weight_of(fits_kg_m: float | None) -> str:
    """What to fit, with its largest unbalance where that is known."""
    return "a smaller weight or a shorter arm" + (f", at most {grams(fits_kg_m)}" if fits_kg_m else "")


def grams(unbalance_kg_m: float) -> str:
    """An unbalance that is not to be passed: ``2.5 g m``, rounded down."""
    return show.with_unit(show.figure(floor(1e4 * unbalance_kg_m + 1e-6) / 10), "g m")


def sways(sized: Sized) -> bool:
    """Whether a sway may be looked for where there is a setting: a band of it below the stop, or nothing worked out.

    Where no setting can be promised yet, any band of it.
    """
    motion = sized.motion
    if motion is None or blocked(motion):
        return motion is None or any(one.name == "sway" for one in motion.bands)
    return bool(sway_bands(motion))


def top(motion: Motion | None) -> float:
    """The highest setting that a step may ask for, as a share; 1 where nothing bounds it."""
    if motion is None:
        return 1.0
    return min(motion.limit or 1.0, motion.stop if isfinite(motion.stop) else motion.ceiling, 1.0)


def unpromised(motion: Motion | None) -> bool:
    """Whether it may be too much as soon as it turns, or it may not turn at or below its stop."""
    return motion is not None and isfinite(motion.ceiling) and (not isfinite(motion.stop) or motion.stop < motion.begin)


def stop_words(motion: Motion | None, dial: Dial) -> str:
    """Where to stop, with a space before it; "" where nothing bounds it."""
    highest = top(motion)
    if motion is None or highest >= 1:
        return ""
    if unpromised(motion):
        edge = "Stay below" if highest == motion.ceiling else "Never go above"
        return f" {edge} {at(highest, dial, motion)}; if it does not turn by then, go no further: " + (
            f"{first_of_all(motion)}."
        )
    end = at(highest, dial, motion)
    if motion.start[1] <= highest:
        return f" Stop at {end} at the latest."
    return f" Stop at {end} at the latest; if it has not turned over by then, {why_not_turned(motion)}."


def why_not_turned(motion: Motion) -> str:
    """What to think of where it has not turned over by its stop."""
    return "the limit is too low, or a value is wrong" if motion.limit == top(motion) else first_of_all(motion)


def sway_bands(motion: Motion) -> tuple[tuple[float, float], ...]:
    """The likeliest sway, as far as it lies below the stop."""
    end = top(motion)
    return tuple((one.low, min(one.high, end)) for one in motion.bands if one.name == "sway" and one.low < end)


def met(motion: Motion | None) -> tuple[float, float] | None:
    """Below the stop, the settings at which it may start or run at the cabinet's own sway and do harm; None: none."""
    if motion is None or motion.harmful is None:
        return None
    low, high = max(motion.harmful[0], motion.start[0]), motion.harmful[1]
    return (low, high) if low <= high and low < top(motion) else None


def beside(motion: Motion) -> tuple[tuple[float, float], ...]:
    """What is left of the sway outside the settings at which it may meet the cabinet's own sway."""
    low, high = met(motion) or (inf, -inf)
    return tuple(
        (start, end)
        for band in sway_bands(motion)
        for start, end in ((band[0], min(band[1], low)), (max(band[0], high), band[1]))
        if end - start > motion.step / 2
    )


def turning_words(motion: Motion | None, dial: Dial) -> str:
    """How to turn over where that may happen at the cabinet's own sway, with a space before it; else ""."""
    harmful = met(motion)
    if motion is None or harmful is None or harmful[0] > motion.start[1]:
        return ""
    low, high = harmful
    whole = low <= motion.start[0] and motion.start[1] <= high
    where = "The whole range in which it starts lies in" if whole else "It may start in"
    return f" {where} the cabinet's own sway, {span(low, high, dial, motion)}: {passing(motion, high, dial)}"


def passing(motion: Motion, high: float, dial: Dial) -> str:
    """How to leave the settings at which it may meet the cabinet's own sway: upward only below the stop."""
    if high + motion.step > top(motion) + 1e-9:
        return "as soon as it turns there, go back down; the way past it lies above the stop."
    return f"as soon as it turns there, go past {at(high, dial, motion)} in one go, or back down."


def resonance_words(motion: Motion | None, dial: Dial) -> str:
    """What to pass in one go, and which part of the sway is left, with a space before it; "" where nothing is met."""
    harmful = met(motion)
    if motion is None or harmful is None:
        return ""
    low, high = harmful
    if high + motion.step <= top(motion) + 1e-9:
        passed = f" Pass from {span(low, high, dial, motion)} in one go: there it may meet the cabinet's own sway."
    elif low > motion.start_nominal:
        passed = f" Stay below {at(low, dial, motion)}: from there to the stop it may meet the cabinet's own sway."
    else:
        passed = (
            f" From {at(low, dial, motion)} to the stop it may meet the cabinet's own sway: no longer than a few "
            + ("seconds at a time there.")
        )
    if not sway_bands(motion):
        return passed
    left = beside(motion)
    if not left:
        narrower = f": {motion.narrows}" if motion.narrows else ""
        return f"{passed} The whole sway lies there{narrower}."
    if left == sway_bands(motion):
        return passed
    *first, last = (span(start, end, dial, motion) for start, end in left)
    tail = " at the motor" if last.endswith(" at the motor") else " of the full voltage"
    parts = " and ".join([*(one.removesuffix(tail) for one in first), last])
    return f"{passed} Of the sway, {parts} is left beside it."


def waiting_words(motion: Motion | None, dial: Dial) -> str:
    """How long to wait at each step: three seconds, but not where it may meet the cabinet's own sway."""
    harmful = met(motion)
    if harmful is None:
        return "Wait three seconds each time."
    there = f"from {span(*harmful, dial, motion)}"
    return f"Wait three seconds each time, but {there} only until you see whether it turns."


def start_reading(sized: Sized, dial: Dial) -> Reading:
    """The setting at which it turns over: the plan's range, never above stop or limit; else what is usual."""
    motion, what = sized.motion, "Setting at which it turns over"
    if dial.unit != "%":
        if motion is None or motion.start_V is None:
            return dial.reading(what)
        low, high = motion.start_V
        held = sized.ids["load"]
        return Reading(
            "Voltage at the motor just before it turns over",
            f"{held}:1 and {held}:2",
            low,
            min(high, motion.stop_V or high),
            "V",
            f"Below: it turns more easily than described. {ABOVE}",
            "DC volts, clips fitted while the plug was out",
        )
    highest = 100 * top(motion)
    if motion is None:
        low, high = USUAL_START
        high = min(high, dial.limit if dial.limit is not None else 100.0)
        return Reading(
            what,
            f"from {dial.lowest}",
            min(low, high),
            high,
            "%",
            f"Nothing is worked out here; this is what is usual (an estimate). Below: go on by smaller steps. {ABOVE}",
        )
    low, high = 100 * motion.start[0], min(100 * motion.start[1], highest)
    if low >= high:
        return Reading(what, f"from {dial.lowest}", None, highest, "%", f"Go no further: {why_not_turned(motion)}.")
    return Reading(what, f"from {dial.lowest}", low, high, "%", f"Below: it turns more easily than described. {ABOVE}")


ABOVE = "Above: it rubs, or voltage is lost. Go back to the lowest setting and look before you go on."


def by_volts(sized: Sized, dial: Dial) -> bool:
    """Whether a setting is told by a meter at the motor: behind a trimmer, which has no scale, where that is known."""
    return dial.unit != "%" and sized.motion is not None and sized.motion.start_V is not None


def left_reading(sized: Sized, dial: Dial) -> Reading:
    """The setting as left, at most the plan's stop and the build's limit; behind a trimmer as volts at the motor.

    A turning motor has more across it than the same one at rest just before it turns over.
    """
    highest = 100 * top(sized.motion)
    if by_volts(sized, dial) and sized.motion and sized.motion.start_V:
        held, low_V = sized.ids["load"], sized.motion.start_V[0]
        high_V = sized.supply_high_V if highest >= 100 else top(sized.motion) * sized.supply_V
        return Reading(
            "Voltage at the motor at the setting as left, while it runs",
            f"{held}:1 and {held}:2",
            low_V if low_V < high_V else None,
            high_V,
            "V",
            "Below: it does not turn, or the meter sits at another place. Above: go back below the stop.",
            "DC volts, clips fitted while the plug was out",
        )
    if dial.unit != "%" or highest >= 100 or sized.motion is None:
        return dial.reading("Setting as left")
    return Reading(
        "Setting as left",
        f"from {dial.lowest}",
        None,
        highest,
        "%",
        "Go back below the stop, or the limit of this build.",
    )


def turning_span(motion: Motion | None, at_full: MotionPoint | None = None) -> tuple[float | None, float | None]:
    """Turning frequency that the plan allows between its start and its stop, or at full strength, in Hz.

    Where no setting can be promised there is no stop yet: up to the highest setting.
    """
    end = (motion.limit or 1.0) if motion and blocked(motion) else top(motion)
    curve = motion.curve if motion else tuple(filter(None, [at_full]))
    seen = [one for one in curve if one.turning_high_Hz > 0 and one.setting <= end]
    if motion:
        seen = [one for one in seen if one.setting >= min(motion.start[0], end)] or seen
    slowest, fastest = LOG_READS_HZ
    return (
        min((one.turning_low_Hz for one in seen if one.turning_low_Hz > 0), default=None if seen else slowest),
        max((one.turning_high_Hz for one in seen), default=fastest),
    )


def turning_reading(sized: Sized, at: str) -> Reading:
    """Turning frequency as left: what is foretold of the setting in use, else from the plan's start to its stop.

    at: the setting in words.
    """
    low, high = sized.foretold.get(TURNING) or turning_span(sized.motion, sized.at_full)
    return Reading(
        f"Turning frequency {at}",
        "the phone's log",
        low,
        high,
        "Hz",
        "Log again, the phone taped flat. If it stays, a value of motor or weight is wrong: measure it again.",
        "guide-gen shake LOG.csv",
    )
