"""Checks of the motion: more than the contents stand, readings that contradict the plan, what is missing."""

from collections.abc import Iterable
from math import isfinite

from guide_gen.formulas.motion import Measurement
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Missing
from guide_gen.model.plan import Compared, Motion, MotionPoint, Sized
from guide_gen.planning.motion import (
    ADJUSTED,
    Shaker,
    described,
    full_compared,
    full_motion,
    inputs_of,
    moves,
    planned,
    stands,
    why_not,
)
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
        one for one in motion.compared if not (one.what == NAMES[Check.AS_LEFT] and (motion.as_left_share or 0.0) > 1)
    ]
    return [
        *limit_findings(motion, shaker, path),
        *as_left_findings(motion, sized, path),
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
            f"Measure again; if it stays, {WRONG.get(one.what, WRONG_VALUE)}.",
            (*path, "found"),
            sized.slug,
        )
        for one in compared
        if not one.fits
    ]


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
            "Fit a smaller weight or a control that can be set, and look at connectors and solder joints.",
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
            "a control that can be set, or a smaller weight",
            "Use a PWM port with a limit or a trimmer-set speed controller, or fit a smaller weight.",
            (*path, "control", "type"),
            sized.slug,
        )
    ]


def limit_findings(motion: Motion, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A port's limit that allows too much, or too little to start; and none where one is needed."""
    to = show.setting(motion.stop) if isfinite(motion.stop) else ""
    wanted = f"a limit of at most {to}" if to else "a smaller weight"
    mend = f"to {to}" if to else "no higher than where it just turns, and fit a smaller weight"
    limit, sized = motion.limit, shaker.sized
    if limit is None:
        if sized.control != "pwm port" or motion.full_share <= 1 or not described(shaker):
            return []
        return [
            Finding(
                "limit-too-high",
                Level.SHOULD,
                f"The port has no limit, and at 100 % {sized.name} may shake {times(motion.full_share)} times what the "
                f"contents stand ({motion.contents}); from {show.setting(motion.ceiling)} on it may pass that.",
                wanted,
                f"Set a limit in the port and write it here: {mend}.",
                (*path, "control"),
                sized.slug,
            )
        ]
    here = (*path, "control", "limit")
    found = []
    if limit >= motion.ceiling - 1e-9:
        found.append(
            Finding(
                "limit-too-high",
                Level.SHOULD,
                f"The port's limit of {show.setting(limit)} is not below {show.setting(motion.ceiling)}, from where "
                f"{sized.name} may shake more than the contents stand ({motion.contents}).",
                wanted,
                f"Set the limit {mend}.",
                here,
                sized.slug,
            )
        )
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


def as_left_findings(motion: Motion, sized: Sized, path: tuple[str, ...]) -> list[Finding]:
    """A setting in use at which it shakes too much."""
    used = motion.as_left_share
    if motion.as_left is None or used is None or used <= 1:
        return []
    to = (
        f"to {show.setting(motion.stop)} or less"
        if isfinite(motion.stop)
        else "until it stops, or fit a smaller weight"
    )
    return [
        Finding(
            "sway-over-limit",
            Level.SHOULD,
            f"As left, at {show.setting(motion.as_left)}, {sized.name} shakes {times(used)} times what the contents "
            f"stand ({motion.contents}), at the height of the shaker; farther up it is more.",
            f"at most {show.setting(motion.stop)}" if isfinite(motion.stop) else "a smaller weight",
            f"Lower the setting {to}, and look at connectors and solder joints.",
            (*path, "found", "setting"),
            sized.slug,
        )
    ]
