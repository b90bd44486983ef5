"""What a shaker does at each setting: from what is known of motor, weight, drive and cabinet to a tuning plan."""

from dataclasses import replace
from functools import cache
from math import inf, isfinite

from guide_gen.controls.pwm_port import PwmPortFields
from guide_gen.description.build import Cabinet
from guide_gen.formulas.motion import Doubt, Measurement, MotionPlan, Remedy, SwayRemedy, motion_plan
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.motion_found import Compared as Outcome
from guide_gen.formulas.motion_inputs import Drive, Found, MotionInputs
from guide_gen.formulas.motion_states import CurvePoint
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.fields import FoundFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.kind import Dial
from guide_gen.model.machine import Machine, spread_of
from guide_gen.model.plan import Compared, Motion, MotionBand, MotionPoint, Sized, Suppression
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published.tables import rule
from guide_gen.values import show

CLASSES = {"ordinary": "3M2", "spinning disk": "3M1", "rugged": "3M4"}
CONTENTS = {"ordinary": "ordinary electronics", "spinning disk": "a spinning disk", "rugged": "rugged parts"}
AT_THE_MOTOR = Spread(0.0, 0.004, 0.01)  # the loop of a diode at the motor's terminals, ohm; this project, an estimate
WIDE = 2.5  # a start range whose ends differ by more is of little use; this project

MEASURE = {
    Measurement.RESISTANCE: "the winding's resistance: hold the shaft, feed 1 to 2 V for a second, and divide volts by "
    "amperes at four positions (motor: resistance)",
    Measurement.SPEED: "the speed at full voltage: a phone's accelerometer on the cabinet for a second (motor: speed)",
    Measurement.INDUCTANCE: "the winding's inductance (motor: inductance)",
    Measurement.SCALE: "the weight on a kitchen scale: its arm level, slowly raised and lowered (weight: scale)",
    Measurement.SWING: "the period of the weight's free swing on a phone video (weight: swing)",
    Measurement.DIODE: "the diode's drop at its current, from its data sheet",
    Measurement.PWM_FREQUENCY: "the board's PWM frequency (pwm_frequency)",
    Measurement.SUPPLY: "the supply's voltage as it is set (voltage_range)",
    Measurement.NUDGE: "the cabinet's sway: nudge it with a phone on top (cabinet: sideways_frequency and damping)",
    Measurement.MASS: "the cabinet's mass, corner by corner on a bathroom scale (cabinet: mass)",
}
DOUBTS = {
    Doubt.NEVER_STARTS: "By these values it never turns over, not even at full strength.",
    Doubt.MAY_NEVER_START: "It may never turn over, not even at full strength.",
    Doubt.CEILING_BELOW_START: "It may be too much as soon as it turns: measure before you trust a setting.",
    Doubt.START_TOO_WIDE: "The range in which it starts is too wide to be of much use.",
    Doubt.SWAY_EMPTY: "There is no sway: as soon as it turns it turns too fast and only vibrates.",
    Doubt.SEVERAL_SPEEDS: "Near the cabinet's own sway it may hang at one speed and then jump to another: pass it "
    "quickly.",
    Doubt.MAY_CREEP: "At full strength the cabinet can creep on its feet.",
    Doubt.MAY_HOP: "At full strength the cabinet can hop.",
}


def motion_of(
    machine: Machine | None, toy: ToyFields, sized: Sized, cabinet: Cabinet, loop: Loop, cabling: Cabling
) -> Motion | None:
    """The tuning plan of one toy; None for a toy without a setting, and where nothing of its machine is known."""
    if machine is None or not machine.known or sized.control not in ("pwm port", "speed controller"):
        return None
    drive = Drive.PWM if sized.control == "pwm port" else Drive.VOLTAGE
    frequency = sized.port.pwm_frequency_Hz if sized.port else None
    if drive is Drive.PWM and frequency is None:
        return None
    inputs = MotionInputs(
        supply_V=Spread(sized.supply_low_V, sized.supply_V, sized.supply_high_V),
        resistance_ohm=machine.resistance_ohm,
        path_on_ohm=path(loop, cabling, sized),
        path_off_ohm=AT_THE_MOTOR,
        inductance_H=machine.inductance_H,
        diode_V=diode_drop(sized.suppression),
        emf_V_s=machine.emf_V_s,
        friction_N_m=machine.friction_N_m,
        drag_N_m_s2=machine.drag_N_m_s2,
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
    limit = toy.control.limit.high if isinstance(toy.control, PwmPortFields) and toy.control.limit else None
    try:
        return worded(planned(inputs), drive, limit, cabinet.contents)
    except OutsideValidity:  # values that contradict each other, such as a current above that at standstill
        return None


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


def diode_drop(suppression: Suppression) -> Spread:
    """What the freewheel diode drops at its current; unknown technology has the whole range."""
    schottky, silicon = Spread.usual("Schottky drop"), Spread.usual("silicon drop")
    known = {"schottky": schottky, "standard": silicon}
    return known.get(suppression.technology, Spread(schottky.low, (schottky.high + silicon.low) / 2, silicon.high))


def found_of(found: FoundFields | None) -> Found:
    """The readings of the as-left record."""
    if found is None:
        return Found()
    left = found.setting.middle if found.setting else None
    return Found(
        start=found.start.middle if found.start else None,
        as_left=left,
        turning_Hz=found.turning.middle if found.turning and left else None,
        turning_at=left or 1.0,
    )


def worded(plan: MotionPlan, drive: Drive, limit: float | None, contents: str) -> Motion:
    """The engine's numbers with the sentences that a reader needs."""
    what = "setting" if drive is Drive.PWM else "share of full voltage"
    helps = plan.helps_start if Doubt.CEILING_BELOW_START not in plan.doubts else plan.helps_ceiling
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
        doubts=tuple(DOUBTS[one] for one in plan.doubts),
        remedies=tuple(remedy(one) for one in plan.remedies),
        compared=tuple(compared(one) for one in plan.compared),
        useful=narrow,
    )


def thinned(plan: MotionPlan) -> list[CurvePoint]:
    """The points that a chart and a table need: where the bands change, and some between."""
    steps = max(1, len(plan.curve) // 120)
    edges = {one.low for one in plan.bands} | {one.high for one in plan.bands}
    return [one for place, one in enumerate(plan.curve) if place % steps == 0 or one.setting in edges]


def point(one: CurvePoint) -> MotionPoint:
    """A point of the curve, with the acceleration that would reach the contents' limit there."""
    return MotionPoint(
        one.setting,
        one.state.value,
        one.turning_Hz,
        one.slow_Hz,
        one.fast_Hz,
        one.accel_m_s2,
        one.shift_m,
        one.limit_share,
        one.accel_m_s2 / one.limit_share if one.limit_share > 0 else None,
    )


def share(value: float) -> str:
    """A setting in words."""
    return "never" if value == inf else show.percent(value)


def between(low: float, high: float) -> str:
    """Two settings in words."""
    if low == inf:
        return "never"
    if high == inf:
        return f"at {share(low)} or never"
    return f"at {share(low)}" if share(low) == share(high) else f"between {share(low)} and {share(high)}"


def short(plan: MotionPlan) -> str:
    """What the chart shows, in one line."""
    sway = ", ".join(f"{share(low)} to {share(high)}" for low, high in plan.sway) or "none"
    return f"Turns over {between(*plan.start)}; sway {sway}; too much from {share(plan.ceiling)}."


def says(plan: MotionPlan, what: str) -> tuple[str, ...]:
    """What the chart shows, in sentences."""
    found = [
        f"Nothing moves below {share(plan.move[0])}. The weight turns over {between(*plan.start)}, most likely "
        f"at {share(plan.start_nominal)}; until then it buzzes."
    ]
    if plan.sway:
        bands = " and ".join(f"from {share(low)} to {share(high)}" for low, high in plan.sway)
        found.append(f"It sways {bands}: slower than {show.hertz(plan.inputs.sway_Hz)}, felt one by one.")
    if isfinite(plan.ceiling):
        found.append(
            f"From {share(plan.ceiling)} on it may pass what the contents stand: stop at {share(plan.stop)} at the "
            f"latest."
        )
    else:
        found.append("At no setting does it pass what the contents stand.")
    if what != "setting":
        found.append(
            "The trimmer has no scale: the setting is the share of the full voltage that a meter shows at the motor."
        )
    return tuple(found)


def kick(plan: MotionPlan) -> str:
    """Kick, then lower: where a turning weight keeps turning well under the setting at which it starts."""
    advice = plan.kick
    if advice is None:
        return ""
    low, high = advice.hold
    return (
        f"A kick helps: {advice.seconds[0]:g} to {advice.seconds[1]:g} s at {share(advice.kick)}, then down to between "
        f"{share(low)} and {share(high)}: once it turns, it keeps turning there."
    )


def remedy(one: SwayRemedy) -> str:
    """What opens an empty sway band."""
    sway = f"sway from {share(one.sway[0])} to {share(one.sway[1])}"
    if one.remedy is Remedy.HIGHER_PWM:
        return f"A PWM frequency of {show.hertz(one.value or 0.0)} or more: {sway}."
    if one.remedy is Remedy.KICK:
        return f"A kick, then lower: {sway}."
    if one.remedy is Remedy.SMALLER_WEIGHT:
        return f"A smaller weight or shorter arm, {1000 * (one.value or 0.0):.1f} g m: {sway}."
    return f"A trimmer-set speed controller: {sway} of the full voltage."


def compared(one: Outcome) -> Compared:
    """A reading against what was foretold."""
    names = {
        Check.START: "begins to turn",
        Check.TURNING: "turning frequency",
        Check.CURRENT: "running current",
        Check.NATURAL: "the cabinet's own sway",
        Check.AS_LEFT: "as-left setting",
    }
    words = {Check.TURNING: show.hertz, Check.CURRENT: show.amps, Check.NATURAL: show.hertz}
    shown = words.get(one.check, share)
    low, high = one.predicted
    return Compared(names[one.check], shown(one.found), f"{shown(low)} to {shown(high)}", not one.outside)


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
                    f"contents "
                    f"stand ({motion.contents}).",
                    f"at most {share(motion.stop)}",
                    "Lower the setting, and look at connectors and solder joints.",
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
            "Measure again; if it stays, one of the values of motor, weight or cabinet is wrong.",
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
