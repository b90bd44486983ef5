"""Checks of the motion: more than the contents stand, readings that contradict the plan, what is missing."""

from collections.abc import Iterable
from itertools import pairwise
from math import isfinite

from guide_gen.formulas.motion import Measurement
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Missing
from guide_gen.model.plan import Compared, Motion, MotionPoint, Sized
from guide_gen.model.shaking import blocked, smaller_weight, wanted
from guide_gen.planning.motion import (
    ADJUSTED,
    Shaker,
    described,
    full_compared,
    full_mend,
    full_motion,
    inputs_of,
    moves,
    planned,
    stands,
    why_not,
)
from guide_gen.planning.motion_readings import in_volts, shown
from guide_gen.planning.motion_words import (
    MEASURE,
    NAMES,
    WRONG,
    WRONG_VALUE,
)
from guide_gen.values import show


def motion_findings(motion: Motion | None, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """What is missing, a strength that passes what the contents stand, and readings that contradict the plan."""
    sized = shaker.sized
    if motion is None:
        if moves(shaker):
            return missing(shaker, path)
        return [*full_strength(shaker, path), *outside(full_compared(shaker), sized, path)]
    told = [
        one for one in motion.compared if not (one.what == NAMES[Check.AS_LEFT] and (motion.as_left_worst or 0.0) > 1)
    ]
    beyond = over_port(motion, shaker, path)
    if beyond:
        told = [one for one in told if one.what != NAMES[Check.AS_LEFT]]
    return [
        *limit_findings(motion, shaker, path),
        *as_left_findings(motion, shaker, path),
        *beyond,
        *outside(told, sized, path),
    ]


def outside(compared: Iterable[Compared], sized: Sized, path: tuple[str, ...]) -> list[Finding]:
    """Readings that contradict the plan."""
    return [
        Finding(
            "reading-outside",
            Level.NOTE,
            f"{sized.name}, {one.what}: {one.found} was found, {one.predicted} was worked out.",
            f"{one.what} {one.predicted}",
            f"Measure again; if it stays, {mend_of(one)}.",
            (*path, "found"),
            sized.slug,
        )
        for one in compared
        if not one.fits
    ]


def over_port(motion: Motion, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A setting that was found in use, above the highest that its port is said to give."""
    if motion.limit is None or motion.as_left is None or motion.as_left <= motion.limit + 1e-9:
        return []
    limit = show.setting(motion.limit)
    return [
        Finding(
            "reading-outside",
            Level.NOTE,
            f"{shaker.sized.name} was left at {show.setting(motion.as_left)}, and its port is said to give {limit} at "
            "most: one of the two is wrong.",
            f"a setting of at most {limit}",
            "Look at the limit in the port and at the setting again, and write both as they are.",
            (*path, "found", "setting"),
            shaker.sized.slug,
        )
    ]


def mend_of(one: Compared) -> str:
    """What is wrong where a reading stays outside; an as-left setting only where there is a range to set it in."""
    if one.what == NAMES[Check.AS_LEFT] and " to " not in one.predicted:
        return WRONG_VALUE
    return WRONG.get(one.what, WRONG_VALUE)


def missing(shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """Why a motion that could be worked out is not."""
    reason = why_not(shaker)
    if reason is None:
        try:
            planned(inputs_of(shaker))
        except OutsideValidity as error:
            reason = f"its values contradict each other: {error}", "values that can be together", ()
    if reason is None:
        return []
    why, wanted, key = reason
    return [
        Finding(
            "not-worked-out",
            Level.NOTE,
            f"The motion of {shaker.sized.name} is not worked out: {why}.",
            wanted,
            "Look at what is named, and mend it.",
            (*path, *key),
            shaker.sized.slug,
        )
    ]


def motion_missing(shaker: Shaker, path: tuple[str, ...]) -> list[Missing]:
    """Keys without which nothing is said of its motion: at any setting, or at full strength where it has none."""
    machine, adjusted = shaker.machine, shaker.sized.control in ADJUSTED
    if machine.contradicts or machine.scale_swapped or (adjusted and machine.known):
        return []
    gives = "how strongly it shakes the cabinet at full strength, and whether its contents stand that"
    if adjusted:
        gives = "at which setting it turns over, and how strongly it shakes the cabinet"
    wanted = (
        ("speed" in machine.guessed, "motor: {speed: ..}", Measurement.SPEED, (*path, "motor")),
        ("unbalance" in machine.guessed, "weight: {scale: ..}", Measurement.SCALE, (*path, "weight")),
        (
            not adjusted and shaker.cabinet.mass is None,
            "cabinet: {mass: ..}",
            Measurement.MASS,
            ("cabinet",),
        ),
    )
    return [Missing(key, gives, f"Measure {MEASURE[how]}.", where) for lacks, key, how, where in wanted if lacks]


def full_strength(shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A control that gives full strength or nothing, where that is more than the contents stand."""
    full = full_motion(shaker)
    return [] if full is None else [*may_pass_at_full(shaker, full[1], path), *passes_at_full(shaker, full[0], path)]


def passes_at_full(shaker: Shaker, full: MotionPoint, path: tuple[str, ...]) -> list[Finding]:
    """It most likely shakes too much whenever it is on."""
    sized, used = shaker.sized, full.limit_share
    if used <= 1:
        return []
    return [
        Finding(
            "sway-over-limit",
            Level.SHOULD,
            f"Whenever it is on, at full strength, {sized.name} most likely shakes {times(used)} times what the "
            f"contents stand ({stands(shaker.cabinet.contents)}), at the height of the shaker; farther up it is more.",
            "at most what the contents stand",
            f"{full_mend(shaker)} Look at connectors and solder joints.",
            (*path, "control", "type"),
            sized.slug,
        )
    ]


def times(used: float) -> str:
    """How many times the limit; just past it still reads as more than once."""
    return show.ends(1.0, used, digits=3, most=9)[1]


def may_pass_at_full(shaker: Shaker, used: float, path: tuple[str, ...]) -> list[Finding]:
    """At an unfavourable end of the ranges it shakes too much at full strength."""
    sized = shaker.sized
    if used <= 1:
        return []
    return [
        Finding(
            "limit-too-high",
            Level.SHOULD,
            f"This control gives full strength or nothing, and there {sized.name} may shake {times(used)} times what "
            f"the contents stand ({stands(shaker.cabinet.contents)}).",
            "at most what the contents stand",
            full_mend(shaker),
            (*path, "control", "type"),
            sized.slug,
        )
    ]


def limit_findings(motion: Motion, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A port's limit that allows too much, or too little to start; and none where one is needed."""
    limit, sized, found = motion.limit, shaker.sized, list[Finding]()
    highest = 1.0 if limit is None else limit
    if sized.control == "pwm port" and highest >= motion.ceiling - 1e-9:
        sure = described(shaker) or most_likely_over(motion, highest)
        expected, mend = lower_limit(motion)
        why = f"The port's limit of {show.setting(highest)} is not below {show.setting(motion.ceiling)}, from where on"
        if limit is None:
            strong = f", at 100 % {times(motion.full_share)} times that" if motion.full_share > 1 else ""
            why = f"The port has no limit, and from {show.setting(motion.ceiling)} on"
        else:
            strong = ""
        found.append(
            Finding(
                "limit-too-high",
                Level.SHOULD if sure else Level.NOTE,
                f"{why} {sized.name} may shake more than the contents stand ({motion.contents}){strong}."
                + ("" if sure else " That rests on usual values."),
                expected,
                mend,
                (*path, "control") if limit is None else (*path, "control", "limit"),
                sized.slug,
            )
        )
    if limit is None:
        return found
    here = (*path, "control", "limit")
    if 0 < limit < motion.start[0] - 1e-9:  # a limit of nothing is told by its port
        starts = f"between {show.setting(motion.start[0])} and {show.setting(motion.start[1])}"
        if not isfinite(motion.start[0]):
            starts = "at no setting"
        elif not isfinite(motion.start[1]):
            starts = f"at {show.setting(motion.start[0])} or later"
        found.append(
            Finding(
                "not-worked-out",
                Level.NOTE,
                f"The tuning of {sized.name} is not worked out: with the port's limit of {show.setting(limit)} it "
                f"cannot turn over, which it does {starts}.",
                f"a limit of {show.setting(motion.start[0])} or more"
                if isfinite(motion.start[0])
                else "a lighter weight",
                "Raise the limit, if the contents stand it, or fit a smaller weight.",
                here,
                sized.slug,
            )
        )
    return found


def most_likely_over(motion: Motion, highest: float) -> bool:
    """Whether it most likely passes the limit of the contents at some setting up to the highest one."""
    return any(
        one.limit_share > 1 for one in motion.curve if motion.start_nominal <= one.setting <= highest and one.turning_Hz
    )


def lower_limit(motion: Motion) -> tuple[str, str]:
    """What the limit of a port has to be, and how to mend it; where none can be promised, what comes first."""
    if not blocked(motion) and isfinite(motion.stop):
        to = show.setting(motion.stop)
        return f"a limit of at most {to}", f"Set the limit in the port to {to}, and write it here."
    return instead(motion)


def instead(motion: Motion) -> tuple[str, str]:
    """What is wanted where no setting can be promised, and how to mend it."""
    smaller = smaller_weight(motion)
    if not motion.helps:
        return smaller, f"Fit {smaller}."
    return f"{wanted(motion)}, measured, or {smaller}", f"Measure {motion.helps}; or fit {smaller}."


def as_left_findings(motion: Motion, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A setting in use at which it shakes too much."""
    sized, found = shaker.sized, shaker.toy.found and shaker.toy.found.setting
    used, worst = motion.as_left_share, motion.as_left_worst
    if motion.as_left is None or used is None or worst is None or worst <= 1:
        return []
    shakes = f"shakes {times(used)} times" if used > 1 else f"may, at worst, shake {times(worst)} times"
    expected, mend = lower_setting(motion)
    left = f"{shown(found)} at the motor" if found and in_volts(found) else at(motion.as_left, motion)
    return [
        Finding(
            "sway-over-limit",
            Level.SHOULD,
            f"As left, at {left}, {sized.name} {shakes} what the contents stand "
            f"({motion.contents}), at the height of the shaker; farther up it is more.",
            expected,
            f"{mend} Look at connectors and solder joints.",
            (*path, "found", "setting"),
            sized.slug,
        )
    ]


def lower_setting(motion: Motion) -> tuple[str, str]:
    """What a setting in use has to be where it is or may be too much, and how to mend it."""
    if isfinite(motion.stop) and not blocked(motion):
        to = at(motion.stop, motion)
        return f"at most {to}", f"Lower the setting to {to} or less."
    expected, mend = instead(motion)
    over = over_up_to(motion, motion.as_left or 0.0)
    if not over:
        return expected, mend
    within = within_below(motion, over)
    if within is None:
        return expected, f"Lower the setting until it stops. {mend}"
    low, high = within
    unsure = f"no setting can be promised: {mend[0].lower()}{mend[1:]}"
    if low is None:
        to = at(high, motion)
        return f"at most {to}, where it most likely is within it", f"Lower the setting to {to} or less; {unsure}"
    to = between(low, high, motion)
    return (
        f"{to}, where it most likely is within it",
        f"Lower the setting to {to}, and no further: below that it most likely is too much again; {unsure}",
    )


def over_up_to(motion: Motion, left: float) -> list[tuple[float, float]]:
    """The settings that most likely are too much, up to those that a setting lies in; empty where it lies in none."""
    over = [(one.low, one.high) for one in motion.bands if one.name == "too much" and one.low <= left]
    return over if over and left <= over[-1][1] else []


def within_below(motion: Motion, over: list[tuple[float, float]]) -> tuple[float | None, float] | None:
    """The nearest settings below the last of `over` at which it most likely turns within the limit; None: none.

    Both ends stay a step inside, and settings between two of `over` count where a step fits between these ends. Without
    a low end all that lies below is within.
    """
    for (_, below), (above, _) in reversed(list(pairwise(over))):
        low, high = below + motion.step, above - motion.step
        if high - low >= motion.step - 1e-9:
            return low, high
    highest = over[0][0] - motion.step
    return (None, highest) if highest >= motion.start_nominal else None


def at(share: float, motion: Motion) -> str:
    """A setting as the steps say it: behind a trimmer in volts at the motor, or as a share of the full voltage."""
    if motion.full_V is not None:
        return f"{show.volts(share * motion.full_V)} at the motor"
    return show.setting(share) if motion.what == "setting" else f"{show.setting(share)} of the full voltage"


def between(low: float, high: float, motion: Motion) -> str:
    """From one setting to a higher one: ``between 16.5 % and 41 %``."""
    first = at(low, motion).removesuffix(" at the motor").removesuffix(" of the full voltage")
    return f"between {first} and {at(high, motion)}"
