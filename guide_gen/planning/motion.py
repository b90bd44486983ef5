"""What a shaker does at each setting: from what is known of motor, weight, drive and cabinet to a tuning plan."""

from dataclasses import replace
from functools import cache
from math import isfinite

from guide_gen.controls.pwm_port import PwmPortFields
from guide_gen.description.build import Cabinet
from guide_gen.formulas.motion import Doubt, MotionPlan, motion_plan
from guide_gen.formulas.motion_inputs import Drive, Found, MotionInputs
from guide_gen.formulas.motion_states import CurvePoint
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.fields import FoundFields, SuppressorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Dial
from guide_gen.model.machine import Machine, spread_of
from guide_gen.model.plan import Motion, MotionBand, MotionPoint, Sized, Suppression
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.planning.motion_defaults import motion_defaults
from guide_gen.planning.motion_words import (
    DOUBTS,
    MEASURE,
    WRONG,
    WRONG_VALUE,
    compared,
    footing,
    hangs,
    kick,
    narrowed,
    remedy,
    says,
    share,
    short,
)
from guide_gen.published.tables import rule
from guide_gen.values import show

CLASSES = {"ordinary": "3M2", "spinning disk": "3M1", "rugged": "3M4"}
CONTENTS = {"ordinary": "ordinary electronics", "spinning disk": "a spinning disk", "rugged": "rugged parts"}
AT_THE_MOTOR = Spread(0.0, 0.004, 0.01)  # the loop of a diode at the motor's terminals, ohm; this project, an estimate
WITHOUT_SETTING = "A turning frequency or current was found, but not the setting it belongs to: give that as well."
DROP_OFF = 0.15  # a diode's drop is given at one current; this project, an estimate
WIDE = 2.5  # a start range whose ends differ by more is of little use; this project


def inputs_of(
    machine: Machine | None, toy: ToyFields, sized: Sized, cabinet: Cabinet, loop: Loop, cabling: Cabling
) -> MotionInputs | None:
    """All that decides the motion; None for a toy without a setting, and where nothing of its machine is known."""
    if machine is None or not machine.known or sized.control not in ("pwm port", "speed controller"):
        return None
    drive = Drive.PWM if sized.control == "pwm port" else Drive.VOLTAGE
    frequency = sized.port.pwm_frequency_Hz if sized.port else None
    if drive is Drive.PWM and frequency is None:
        return None
    return MotionInputs(
        supply_V=Spread(sized.supply_low_V, sized.supply_V, sized.supply_high_V),
        resistance_ohm=machine.resistance_ohm,
        path_on_ohm=path(loop, cabling, sized),
        path_off_ohm=AT_THE_MOTOR,
        inductance_H=machine.inductance_H,
        diode_V=diode_drop(sized.suppression, toy.suppressor),
        emf_V_s=None if machine.running_rad_s else machine.emf_V_s,
        friction_N_m=None if machine.friction_share else machine.friction_N_m,
        running_V=machine.running_V,
        running_A=machine.running_A,
        running_rad_s=machine.running_rad_s,
        friction_share=machine.friction_share,
        unbalance_kg_m=machine.unbalance_kg_m,
        inertia_kg_m2=machine.inertia_kg_m2,
        mass_kg=spread_of(cabinet.mass) if cabinet.mass else Spread.usual("cabinet mass"),
        natural_Hz=spread_of(cabinet.sideways_frequency)
        if cabinet.sideways_frequency
        else Spread.usual("natural frequency on legs"),
        damping=spread_of(cabinet.damping, 0.2) if cabinet.damping else Spread.usual("damping ratio"),
        pwm_Hz=Spread.exactly(frequency) if drive is Drive.PWM and frequency else None,
        drive=drive,
        limit_class=CLASSES[cabinet.contents],
        found=found_of(toy.found),
    )


def motion_of(
    machine: Machine | None, toy: ToyFields, sized: Sized, cabinet: Cabinet, loop: Loop, cabling: Cabling
) -> Motion | None:
    """The tuning plan of one toy; None where it cannot be worked out."""
    inputs = inputs_of(machine, toy, sized, cabinet, loop, cabling)
    if machine is None or inputs is None:
        return None
    limit = toy.control.limit.high if isinstance(toy.control, PwmPortFields) and toy.control.limit else None
    try:
        motion = worded(planned(inputs), limit, cabinet.contents)
    except OutsideValidity:  # values that contradict each other, such as a current above that at standstill
        return None
    lost = toy.found is not None and toy.found.setting is None and (toy.found.turning or toy.found.current)
    said = f"{motion.narrowed} {WITHOUT_SETTING}".strip() if lost else motion.narrowed
    return replace(motion, narrowed=said, worked=motion_defaults(inputs, machine, cabinet, toy))


@cache
def planned(inputs: MotionInputs) -> MotionPlan:
    """The engine's answer, kept: preview plans the same machine at every save."""
    return motion_plan(inputs)


def path(loop: Loop, cabling: Cabling, sized: Sized) -> Spread:
    """Everything between supply and winding while the switch is on."""
    contact = rule("contact resistance")
    assert contact.low is not None
    assert contact.high is not None
    wire = loop.wire_ohm(cabling, sized.wire.size) + sized.fuse.resistance_ohm
    return Spread(
        wire + loop.contacts * contact.low + loop.switch_low_ohm,
        wire + loop.contacts * contact.value + loop.switch_ohm,
        wire + loop.contacts * contact.high + loop.switch_ohm,
    )


def diode_drop(suppression: Suppression, written: object) -> Spread:
    """What the freewheel diode drops at its current, as written; unknown technology has the whole range."""
    if isinstance(written, SuppressorFields) and written.forward_voltage:
        return spread_of(written.forward_voltage, DROP_OFF)
    schottky, silicon = Spread.usual("Schottky drop"), Spread.usual("silicon drop")
    known = {"schottky": schottky, "standard": silicon}
    return known.get(suppression.technology, Spread(schottky.low, (schottky.high + silicon.low) / 2, silicon.high))


def found_of(found: FoundFields | None) -> Found:
    """The readings of the as-left record; a frequency or current without its setting says nothing."""
    if found is None:
        return Found()
    left = found.setting.middle if found.setting else None
    return Found(
        start=found.start.middle if found.start else None,
        as_left=left,
        turning_Hz=found.turning.middle if found.turning and left else None,
        turning_at=left or 1.0,
        current_A=found.current.middle if found.current and left else None,
        current_at=left or 1.0,
        natural_Hz=found.sideways_frequency.middle if found.sideways_frequency else None,
        damping=found.damping.middle or None if found.damping else None,
    )


def worded(plan: MotionPlan, limit: float | None, contents: str) -> Motion:
    """The engine's numbers with the sentences that a reader needs."""
    what = "setting" if plan.inputs.drive is Drive.PWM else "share of full voltage"
    helps = plan.helps_ceiling if Doubt.CEILING_BELOW_START in plan.doubts else plan.helps_start
    narrow = isfinite(plan.start[0]) and plan.start[1] <= WIDE * plan.start[0]
    return Motion(
        move=plan.move,
        start=plan.start,
        start_nominal=plan.start_nominal,
        sustain=plan.sustain,
        begin=plan.begin,
        step=plan.step,
        ceiling=plan.ceiling,
        stop=plan.stop,
        bands=tuple(MotionBand(one.band.value, one.low, one.high) for one in plan.bands),
        curve=tuple(point(one) for one in thinned(plan)),
        short=short(plan),
        says=says(plan, what),
        what=what,
        limit=limit,
        as_left=plan.inputs.found.as_left,
        contents=f"{CONTENTS[contents]}, IEC 60721-3-3:1994 class {CLASSES[contents]}",
        kick=kick(plan),
        helps=MEASURE[helps] if helps else "",
        doubts=(*(DOUBTS[one] for one in plan.doubts if one in DOUBTS), *hangs(plan), *footing(plan)),
        remedies=tuple(remedy(one) for one in plan.remedies),
        compared=tuple(compared(one) for one in plan.compared),
        useful=narrow,
        start_likely=plan.start_likely,
        over_top=plan.over_top,
        resonance=plan.resonance,
        narrowed=narrowed(plan),
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
    )


def motion_findings(motion: Motion | None, sized: Sized, path: tuple[str, ...]) -> list[Finding]:
    """A limit or a setting that passes what the contents stand, and readings that contradict the plan."""
    if motion is None:
        return []
    found = []
    if motion.limit is not None and motion.limit > motion.ceiling:
        found.append(
            Finding(
                "limit-too-high",
                Level.SHOULD,
                f"The port's limit of {share(motion.limit)} lies above {share(motion.ceiling)}, from where "
                f"{sized.name} may "
                f"shake more than the contents stand ({motion.contents}).",
                f"a limit of at most {share(motion.stop)}",
                f"Set the limit to {share(motion.stop)}.",
                (*path, "control", "limit"),
                sized.slug,
            )
        )
    if motion.as_left is not None:
        here = min(motion.curve, key=lambda one: abs(one.setting - (motion.as_left or 0.0)))
        if here.limit_share > 1:
            found.append(
                Finding(
                    "sway-over-limit",
                    Level.SHOULD,
                    f"As left, at {share(motion.as_left)}, {sized.name} shakes {here.limit_share:.1f} times what the "
                    f"contents stand ({motion.contents}), at the height of the shaker; farther up it is more.",
                    f"at most {share(motion.stop)}",
                    f"Lower the setting to {share(motion.stop)} or less, and look at connectors and solder joints.",
                    (*path, "found", "setting"),
                    sized.slug,
                )
            )
    outside = [one for one in motion.compared if not one.fits]
    found += [
        Finding(
            "reading-outside",
            Level.NOTE,
            f"{sized.name}, {one.what}: {one.found} was found, {one.predicted} was worked out.",
            f"{one.what} {one.predicted}",
            f"Measure again; if it stays, {WRONG.get(one.what, WRONG_VALUE)}.",
            (*path, "found"),
            sized.slug,
        )
        for one in outside
    ]
    return found


def unknown_motion(machine: Machine | None, motion: Motion | None, dial: Dial | None) -> tuple[str, ...]:
    """What the page says of a motion that is not worked out, with the measurement that would help most."""
    if machine is None or dial is None or motion is not None:
        return ()
    return (
        "No setting can be foretold: nothing is known of this motor and its weight, or their values contradict each "
        "other. What would help most is "
        f"{first_measurement()}.",
    )


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
        inertia_kg_m2=Spread(2e-4, 5e-4, 1.2e-3),
        mass_kg=usual("cabinet mass"),
        natural_Hz=usual("natural frequency on legs"),
        damping=usual("damping ratio"),
        pwm_Hz=Spread.exactly(200.0),
    )
    helps = planned(inputs).helps_start
    return MEASURE[helps] if helps else ""


def tuned(dial: Dial | None, motion: Motion | None, full_V: float) -> Dial | None:
    """The dial with the computed beginning, step and end, where they are of use."""
    if dial is None or motion is None or not motion.useful or motion.stop <= motion.begin:
        return dial
    stop = motion.stop if isfinite(motion.stop) else 1.0
    if dial.unit == "%":
        top = min(stop, motion.limit or 1.0)
        return replace(
            dial,
            smallest_step=f"Set the port's highest value to {share(motion.begin)} first, then raise it by "
            f"{share(motion.step)} at a time. Stop at {share(top)} at the latest.",
            limit=100 * top,
        )
    start = show.span(motion.start[0] * full_V, min(motion.start[1], 1.0) * full_V, "V")
    return replace(
        dial,
        smallest_step=f"{dial.smallest_step} A meter at the motor shows where you are: it should turn over at {start}; "
        f"stop at {show.volts(stop * full_V)} at the latest.",
    )
