"""What a shaker does at each setting: from what is known of motor, weight, drive and cabinet to a tuning plan."""

from dataclasses import dataclass, replace
from functools import cache
from math import isfinite

from guide_gen.controls.pwm_port import PwmPortFields
from guide_gen.controls.speed_controller import SpeedControllerFields
from guide_gen.description.build import Cabinet
from guide_gen.formulas.motion import Doubt, Measurement, MotionPlan, Remedy, SwayRemedy, fits_at_full_kg_m, motion_plan
from guide_gen.formulas.motion_found import Check, foretold
from guide_gen.formulas.motion_found import Compared as Outcome
from guide_gen.formulas.motion_inputs import Drive, MotionInputs
from guide_gen.formulas.motion_states import CurvePoint
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.fields import ToyFields
from guide_gen.model.kind import Dial
from guide_gen.model.machine import Machine, spread_of
from guide_gen.model.plan import Compared, Motion, MotionBand, MotionPoint, Sized
from guide_gen.model.shaking import (
    CURRENT,
    DAMPING,
    NATURAL,
    TURNING,
    blocked,
    ends_before,
    first_of_all,
    top,
    weight_of,
)
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drive_path import AT_THE_MOTOR, diode_drop, freewheel_path, path
from guide_gen.planning.loops import Loop
from guide_gen.planning.motion_defaults import motion_defaults
from guide_gen.planning.motion_readings import as_read, found_of, impossible, without_setting
from guide_gen.planning.motion_words import (
    DOUBTS,
    MEASURE,
    NAMES,
    compared,
    doubt,
    footing,
    hangs,
    kick,
    kick_beside,
    lighter,
    narrowed,
    narrows,
    remedies_of,
    remedy,
    says,
    settable,
    short,
    stale,
    turned_round,
    worst_pull_N,
)
from guide_gen.values import show

CLASSES = {"ordinary": "3M2", "spinning disk": "3M1", "rugged": "3M4"}
CONTENTS = {"ordinary": "ordinary electronics", "spinning disk": "a spinning disk", "rugged": "rugged parts"}
SMOOTH_FROM_Hz = 5e3  # a controller that chops faster gives the motor a smooth current; this project
ADJUSTED = ("pwm port", "speed controller")  # controls with a setting
# The smallest step by which each is sure to be set: a whole percent, as a port's menu has it; the width of a minute on
# a clock face, of the three quarters of a turn that a trimmer has. This project, estimates.
SETTABLE = {"pwm port": 0.01, "speed controller": 0.02}
PASSES_ON = ("diode", "on the board", "in the controller")  # what lets the current flow on while the switch is off
WIDE = 2.5  # a start range whose ends differ by more is of little use; this project


def chopped_Hz(toy: ToyFields, sized: Sized) -> float | None:
    """The PWM frequency that the motor sees; None where it is smooth, or not known."""
    if isinstance(toy.control, SpeedControllerFields):
        own_Hz = toy.control.controller.pwm_frequency.middle
        return own_Hz if own_Hz < SMOOTH_FROM_Hz else None
    return sized.port.pwm_frequency_Hz if sized.port and sized.control == "pwm port" else None


@dataclass(frozen=True)
class Shaker:
    """A toy that shakes its cabinet, with all that decides how."""

    machine: Machine
    toy: ToyFields
    sized: Sized
    cabinet: Cabinet
    loop: Loop
    cabling: Cabling


def inputs_of(shaker: Shaker) -> MotionInputs:
    """All that decides the motion."""
    machine, toy, sized, cabinet = shaker.machine, shaker.toy, shaker.sized, shaker.cabinet
    frequency = chopped_Hz(toy, sized)
    given = MotionInputs(
        supply_V=Spread(
            sized.supply_low_V,
            min(max(sized.supply_V, sized.supply_low_V), sized.supply_high_V),
            sized.supply_high_V,
        ),
        resistance_ohm=machine.resistance_ohm,
        path_on_ohm=path(shaker.loop, shaker.cabling, sized),
        path_off_ohm=freewheel_path(toy, shaker.loop, shaker.cabling, sized),
        inductance_H=machine.inductance_H,
        diode_V=diode_drop(sized.suppression, toy.suppressor),
        emf_V_s=None if machine.running_rad_s else machine.emf_V_s,
        friction_N_m=None if machine.friction_share else machine.friction_N_m,
        running_V=machine.running_V,
        running_A=machine.running_A,
        running_rad_s=machine.running_rad_s,
        friction_share=machine.friction_share,
        unbalance_kg_m=machine.unbalance_kg_m,
        swing_s=machine.swing_s,
        mass_kg=spread_of(cabinet.mass) if cabinet.mass else Spread.usual("cabinet mass"),
        natural_Hz=spread_of(cabinet.sideways_frequency)
        if cabinet.sideways_frequency
        else Spread.usual("natural frequency on legs"),
        damping=spread_of(cabinet.damping, 0.2) if cabinet.damping else Spread.usual("damping ratio"),
        pwm_Hz=Spread.exactly(frequency) if frequency else None,
        drive=Drive.PWM if frequency else Drive.VOLTAGE,
        limit_class=CLASSES[cabinet.contents],
    )
    return replace(given, found=found_of(toy.found, given, settable=sized.control in ADJUSTED))


def moves(shaker: Shaker) -> bool:
    """Whether a motion is to be worked out: something of its machine is known, and it has a setting."""
    return shaker.machine.known and shaker.sized.control in ADJUSTED


def why_not(shaker: Shaker) -> tuple[str, str, tuple[str, ...]] | None:
    """Why the drive allows no motion to be worked out, what is wanted, and its key; None where it does."""
    toy, sized = shaker.toy, shaker.sized
    if sized.control == "pwm port" and chopped_Hz(toy, sized) is None:
        return "the PWM frequency of its board is not known", "pwm_frequency of the board", ("control", "board")
    if chopped_Hz(toy, sized) and sized.suppression.type not in PASSES_ON:
        return (
            f"with the suppressor {sized.suppression.type} its current stops at each switch-off of the PWM, and "
            "with it much of its torque",
            "a diode across the motor",
            ("suppressor",),
        )
    return None


def motion_of(shaker: Shaker) -> Motion | None:
    """The tuning plan of one toy; None where it cannot be worked out."""
    toy, sized, cabinet = shaker.toy, shaker.sized, shaker.cabinet
    if not moves(shaker) or why_not(shaker):
        return None
    inputs = inputs_of(shaker)
    limit = toy.control.limit.high if isinstance(toy.control, PwmPortFields) and toy.control.limit else None
    try:
        step = SETTABLE[sized.control]
        plan, trimmer = planned(inputs), sized.control != "pwm port"
        motion = worded(plan, limit, cabinet.contents, trimmer, step)
    except OutsideValidity:  # told by `missing`
        return None
    read = tuple(as_read(one, toy.found, inputs, plan.over_top) for one in within_limit(plan.compared, limit))
    turned = turned_round(toy.mount.shaft)
    return replace(
        motion,
        compared=(*read, *impossible(toy.found, plan, inputs)),
        narrowed=f"{motion.narrowed} {without_setting(toy.found, trimmer)}".strip(),
        worked=motion_defaults(inputs, shaker.machine, cabinet, toy),
        says=(*motion.says, turned) if turned else motion.says,
    )


@cache
def planned(inputs: MotionInputs) -> MotionPlan:
    """The engine's answer, kept: preview plans the same machine at every save."""
    return motion_plan(inputs)


def worded(plan: MotionPlan, limit: float | None, contents: str, trimmer: bool, step: float) -> Motion:
    """The engine's numbers with the sentences that a reader needs. trimmer: of a speed controller; it has no scale.

    step: the smallest by which the control is sure to be set.
    """
    smooth = plan.inputs.drive is Drive.VOLTAGE
    helps = plan.helps_ceiling if Doubt.CEILING_BELOW_START in plan.doubts else plan.helps_start
    also = plan.helps_also if Doubt.CEILING_BELOW_START in plan.doubts else ()
    narrow = isfinite(plan.start[0]) and plan.start[1] <= WIDE * plan.start[0]
    coarse = not narrow and not trimmer and isfinite(plan.begin)  # a range of little use: from nothing, as the steps go
    beside = kick_beside(plan)
    return Motion(
        move=plan.move,
        start=plan.start,
        start_nominal=plan.start_nominal,
        sustain=plan.sustain,
        begin=0.0 if coarse else plan.begin,
        step=max(step, plan.step) if coarse else plan.step,
        ceiling=plan.ceiling,
        stop=plan.stop,
        bands=tuple(MotionBand(one.band.value, one.low, one.high) for one in plan.bands),
        curve=tuple(point(one) for one in thinned(plan)),
        short=short(plan),
        says=says(plan, trimmer),
        what="share of full voltage" if trimmer else "setting",
        limit=limit,
        as_left=plan.inputs.found.as_left,
        contents=stands(contents),
        kick=kick(plan, step, limit),
        helps="; and as well ".join(MEASURE[one] for one in (helps, *also) if one),
        doubts=(
            *(doubt(plan, one) for one in plan.doubts if one in DOUBTS),
            *hangs(plan),
            *footing(plan),
        ),
        remedies=(
            *(remedy(one) for one in remedies_of(plan) if offered(one, trimmer, step)),
            *lighter(plan),
        ),
        compared=tuple(compared(one) for one in within_limit(plan.compared, limit)),
        useful=narrow,
        start_likely=plan.start_likely,
        over_top=plan.over_top,
        resonance=plan.resonance,
        narrowed=narrowed(plan),
        as_left_share=plan.as_left.limit_share if plan.as_left else None,
        start_V=plan.start_V if trimmer and isfinite(plan.start_V[1]) else None,
        stop_V=plan.stop * plan.inputs.supply_V.nominal
        if trimmer and smooth and isfinite(plan.ceiling) and isfinite(plan.stop)
        else None,
        full_share=plan.curve[-1].limit_share_high,
        bench_V=plan.bench_V if isfinite(plan.bench_V[1]) else None,
        bench_A=plan.bench_A if isfinite(plan.bench_A[1]) else None,
        pull_N=worst_pull_N(plan),
        harmful=plan.harmful,
        narrows=narrows(plan),
        also=tuple(MEASURE[one] for one in also),
        fits_kg_m=plan.fits_kg_m,
        kick_helps=not trimmer and beside is not None and settable(beside.hold, step),
        full_V=plan.inputs.supply_V.nominal if trimmer and smooth else None,
        as_left_worst=plan.as_left.limit_share_high if plan.as_left else None,
    )


def offered(one: SwayRemedy, trimmer: bool, step: float) -> bool:
    """Whether a remedy can be followed: no trimmer where there is one, no kick to a sway too narrow to set."""
    if one.remedy is Remedy.KICK:
        return settable(one.sway, step)
    return not (trimmer and one.remedy is Remedy.TRIMMER)


def within_limit(compared: tuple[Outcome, ...], limit: float | None) -> tuple[Outcome, ...]:
    """The readings, the as-left setting held against the port's limit as well."""
    return tuple(
        replace(
            one,
            predicted=(one.predicted[0], max(min(one.predicted[1], limit), one.predicted[0])),
            outside=one.outside or one.found > limit + 1e-9,
        )
        if limit is not None and one.check is Check.AS_LEFT
        else one
        for one in compared
    )


def thinned(plan: MotionPlan) -> list[CurvePoint]:
    """The points that a chart and a table need: where the bands change, and some between."""
    steps = max(1, len(plan.curve) // 120)
    edges = {one.low for one in plan.bands} | {one.high for one in plan.bands}
    edges |= {*plan.start, *plan.sustain, plan.inputs.found.as_left or 0.0}
    return [one for place, one in enumerate(plan.curve) if place % steps == 0 or one.setting in edges]


def point(one: CurvePoint) -> MotionPoint:
    """A point of the curve, with the acceleration that would reach the contents' limit there.

    Below 9 Hz that depends on the frequency: it is the one at which the ranges come nearest to it, so that the range
    of the acceleration meets it just where the ceiling is.
    """
    accel, used = one.accel_high_m_s2, one.limit_share_high
    return MotionPoint(
        one.setting,
        one.state.value,
        one.turning_Hz,
        one.slow_Hz,
        one.fast_Hz,
        one.accel_m_s2,
        one.shift_m,
        one.limit_share,
        accel / used if accel > 0 and used > 0 else None,
        one.accel_low_m_s2,
        one.accel_high_m_s2,
        one.line,
    )


def stands(contents: str) -> str:
    """What the contents are and by which class they stand it."""
    return f"{CONTENTS[contents]}, IEC 60721-3-3:1994 class {CLASSES[contents]}"


def described(shaker: Shaker) -> bool:
    """Whether what decides the shaking at full strength is described, not taken from usual values."""
    return not {"speed", "unbalance"} & set(shaker.machine.guessed) and shaker.cabinet.mass is not None


def at_full(shaker: Shaker) -> MotionPlan | None:
    """The engine's answer for a toy without a setting; None where it has one, or nothing is known of its machine."""
    if not shaker.machine.known or shaker.sized.control in ADJUSTED:
        return None
    try:
        return planned(inputs_of(shaker))
    except OutsideValidity:
        return None


def full_motion(shaker: Shaker) -> tuple[MotionPoint, float] | None:
    """What a toy without a setting does at full strength, with its largest share of the limit; None: not described."""
    plan = at_full(shaker) if described(shaker) else None
    return (point(plan.curve[-1]), plan.curve[-1].limit_share_high) if plan else None


def full_mend(shaker: Shaker) -> str:
    """What to do where full strength may be more than the contents stand: a smaller weight, or a control that helps."""
    full, plan = full_motion(shaker), at_full(shaker)
    if full is None or plan is None or full[1] <= 1:
        return ""
    controls = controls_that_help(shaker, plan)
    return f"Fit {weight_of(fits_at_full_kg_m(plan.inputs))}" + (f"; or use {controls}." if controls else ".")


def controls_that_help(shaker: Shaker, full: MotionPlan) -> str:
    """The controls behind which the same weight most likely turns below what is too much; "" where none does.

    full: its plan at a smooth voltage, which is what a trimmer gives.
    """
    return " or ".join(
        name
        for name, plan in (("a PWM port with a limit", by_port(shaker)), ("a trimmer-set speed controller", full))
        if plan and isfinite(plan.start_nominal) and not ends_before(plan.ceiling, plan.stop, plan.start_nominal)
    )


def by_port(shaker: Shaker) -> MotionPlan | None:
    """The plan of a toy on a port without PWM, were it a PWM port of the same board; None: not known."""
    port, sized = shaker.sized.port, shaker.sized
    if port is None or not port.pwm_frequency_Hz or sized.suppression.type not in PASSES_ON:
        return None
    chopped = replace(inputs_of(shaker), drive=Drive.PWM, pwm_Hz=Spread.exactly(port.pwm_frequency_Hz))
    try:
        return planned(chopped)
    except OutsideValidity:
        return None


def full_compared(shaker: Shaker) -> tuple[Compared, ...]:
    """What was found of a toy without a setting, against what its full strength foretells."""
    plan = at_full(shaker)
    return tuple(compared(one) for one in plan.compared) if plan else ()


def full_narrowed(shaker: Shaker) -> tuple[str, ...]:
    """What the readings did to the ranges at full strength, in sentences."""
    if shaker.sized.control in ADJUSTED:
        return ()
    plan = at_full(shaker)
    useful = [NAMES[one.check] for one in plan.compared if one.narrows] if plan else []
    said = (f"Narrowed by what was found: {', '.join(useful)}." if useful else "", stale(shaker.toy.found))
    return tuple(one for one in said if one)


def full_pull_N(shaker: Shaker) -> float | None:
    """How hard the weight pulls at full strength with every value at the unfavourable end; None: not worked out."""
    if not shaker.machine.known or why_not(shaker):
        return None
    try:
        return worst_pull_N(planned(inputs_of(shaker)))
    except OutsideValidity:
        return None


def at_full_words(full: tuple[MotionPoint, float] | None, cabinet: Cabinet) -> tuple[str, ...]:
    """What it does at full strength, in a sentence."""
    if full is None:
        return ()
    one, used = full
    if one.turning_Hz <= 0:
        return ("By these values it never turns over, not even at full strength.",)
    turns = f"{show.hertz(one.turning_Hz)} ({show.span(one.turning_low_Hz, one.turning_high_Hz, 'Hz')})"
    return (
        f"At full strength it turns at {turns}. The cabinet then shakes sideways by "
        f"{show.with_unit(show.figure(1000 * one.shift_m), 'mm')} each way, "
        f"{show.with_unit(show.figure(one.accel_m_s2), 'm/s²')}: {show.figure(one.limit_share)} times what the "
        f"contents stand, at worst {show.figure(used)} times ({stands(cabinet.contents)}).",
    )


def unknown_motion(machine: Machine | None, motion: Motion | None, dial: Dial | None) -> tuple[str, ...]:
    """What the page says of a motion that is not worked out, with the measurement that would help most."""
    if machine is None or dial is None or motion is not None:
        return ()
    if machine.contradicts:
        return (
            "No setting can be foretold: the motor's resistance and running current contradict each other, as the "
            f"winding alone would take the whole voltage. What would help most is {MEASURE[Measurement.RESISTANCE]}.",
        )
    if machine.scale_swapped:
        return (
            "No setting can be foretold: the scale test of the weight reads less raising than lowering, which cannot "
            f"be. What would help most is to do it again: {MEASURE[Measurement.SCALE]}.",
        )
    if machine.known:
        return ("No setting can be foretold; what is in the way is told among the findings.",)
    return (
        "No setting can be foretold: nothing is known of this motor and its weight. What would help most is "
        f"{first_measurement()}.",
    )


def expected(shaker: Shaker, motion: Motion | None) -> dict[str, tuple[float, float]]:
    """What a reading should be, as its check has it: of the cabinet as far as described, of the machine at its setting.

    Where no setting is left yet: from its lowest start to its stop.
    """
    cabinet, found = shaker.cabinet, dict[str, tuple[float, float]]()
    if cabinet.sideways_frequency:
        own = spread_of(cabinet.sideways_frequency)
        found[NATURAL] = own.low, own.high
    if cabinet.damping:
        fades = spread_of(cabinet.damping, 0.2)
        found[DAMPING] = 100 * fades.low, 100 * fades.high
    plan = planned(inputs_of(shaker)) if motion else at_full(shaker) if described(shaker) else None
    if plan is None:
        return found
    compared = {one.check: one.predicted for one in plan.compared}
    given = plan.inputs
    left = given.found.as_left if motion else 1.0
    if left is not None:
        turns, draws = foretold(given, left)
        found[TURNING] = compared.get(Check.TURNING, turns)
        found[CURRENT] = compared.get(Check.CURRENT, draws)
    elif motion and not blocked(motion) and motion.start[0] < top(motion):
        found[CURRENT] = foretold(given, motion.start[0])[1][0], foretold(given, top(motion))[1][1]
    return {name: ends for name, ends in found.items() if ends[1] > 0}


@cache
def first_measurement() -> str:
    """What helps most when nothing is known: worked out once for a usual large shaker."""
    usual = Spread.usual
    inputs = MotionInputs(
        supply_V=Spread.about(12.0, 0.05),
        resistance_ohm=usual("winding resistance"),
        path_on_ohm=Spread(0.03, 0.06, 0.1),
        path_off_ohm=AT_THE_MOTOR,
        inductance_H=Spread(*(0.3 * value for value in usual("winding time constant"))),
        diode_V=usual("Schottky drop"),
        emf_V_s=usual("back emf constant"),
        friction_N_m=usual("friction torque"),
        drag_N_m_s2=Spread.exactly(4.6e-6),
        unbalance_kg_m=usual("unbalance"),
        swing_s=Spread(0.40, 0.47, 0.60),
        mass_kg=usual("cabinet mass"),
        natural_Hz=usual("natural frequency on legs"),
        damping=usual("damping ratio"),
        pwm_Hz=Spread.exactly(200.0),
    )
    helps = planned(inputs).helps_start
    return MEASURE[helps] if helps else ""


def tuned(dial: Dial | None, motion: Motion | None) -> Dial | None:
    """The dial with the computed beginning, step and end, where they are of use."""
    if dial is None or motion is None:
        return dial
    unpromised = isfinite(motion.ceiling) and motion.start[0] < motion.ceiling <= motion.start[1]
    never = isfinite(motion.ceiling) and isfinite(motion.start[0]) and motion.ceiling <= motion.start[0]
    if never or blocked(motion) or (unpromised and not isfinite(motion.stop)):
        return replace(
            dial,
            smallest_step=f"It may be too much from {show.setting(motion.ceiling)} on, as soon as it turns. "
            f"{dial.smallest_step}",
        )
    if not motion.useful or not isfinite(motion.stop) or motion.stop <= motion.begin:
        return dial
    if dial.unit == "%":
        top = min(motion.stop, motion.limit or 1.0)
        if top < motion.start[0]:
            return dial
        return replace(
            dial,
            smallest_step=f"Set the port's highest value to {show.setting(motion.begin)} first, then raise it by "
            f"{show.setting(motion.step)} at a time. Stop at {show.setting(top)} at the latest."
            + f" If it has not turned over by then, {first_of_all(motion)}."
            * unpromised,
            limit=100 * top,
        )
    if motion.start_V is None:
        return dial
    stop = f" Stop at {show.volts(motion.stop_V)} at the latest." if motion.stop_V else ""
    return replace(
        dial,
        smallest_step=f"{dial.smallest_step} A meter at the motor shows {show.span(*motion.start_V, 'V')} just before "
        f"it turns over; then the reading jumps up.{stop}",
    )
