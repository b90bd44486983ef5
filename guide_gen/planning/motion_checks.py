"""Checks of the motion: more than the contents stand, readings that contradict the plan, what is missing."""

from math import isfinite

from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Motion, Sized
from guide_gen.planning.motion import Shaker, described, full_motion, inputs_of, moves, planned, stands, why_not
from guide_gen.planning.motion_words import (
    NAMES,
    WRONG,
    WRONG_VALUE,
)
from guide_gen.values import show


def motion_findings(motion: Motion | None, shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """What is missing, a strength that passes what the contents stand, and readings that contradict the plan."""
    sized = shaker.sized
    if motion is None:
        return missing(shaker, path) if moves(shaker) else full_strength(shaker, path)
    return [
        *limit_findings(motion, shaker, path),
        *as_left_findings(motion, sized, path),
        *(
            Finding(
                "reading-outside",
                Level.NOTE,
                f"{sized.name}, {one.what}: {one.found} was found, {one.predicted} was worked out.",
                f"{one.what} {one.predicted}",
                f"Measure again; if it stays, {WRONG.get(one.what, WRONG_VALUE)}.",
                (*path, "found"),
                sized.slug,
            )
            for one in motion.compared
            if not one.fits and not (one.what == NAMES[Check.AS_LEFT] and (motion.as_left_share or 0.0) > 1)
        ),
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


def full_strength(shaker: Shaker, path: tuple[str, ...]) -> list[Finding]:
    """A control that gives full strength or nothing, where that is more than the contents stand."""
    sized, full = shaker.sized, full_motion(shaker)
    if full is None or full[1] <= 1:
        return []
    used = full[1]
    return [
        Finding(
            "limit-too-high",
            Level.SHOULD,
            f"This control gives full strength or nothing, and there {sized.name} may shake {used:.2f} times what the "
            f"contents stand ({stands(shaker.cabinet.contents)}).",
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
                f"The port has no limit, and at 100 % {sized.name} may shake {motion.full_share:.2f} times what the "
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
    if limit < motion.start[0] - 1e-9:
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
            f"As left, at {show.setting(motion.as_left)}, {sized.name} shakes {used:.2f} times what the contents stand "
            f"({motion.contents}), at the height of the shaker; farther up it is more.",
            f"at most {show.setting(motion.stop)}" if isfinite(motion.stop) else "a smaller weight",
            f"Lower the setting {to}, and look at connectors and solder joints.",
            (*path, "found", "setting"),
            sized.slug,
        )
    ]
