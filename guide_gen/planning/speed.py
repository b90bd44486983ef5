"""What a gear motor or a blower does at each setting: where it starts, how fast it turns, how hard it pushes when held.

Start and speed hold for all that the values may be off; what it does when held fast is that of the values as written,
at the supply's highest voltage and without a wire: so the cautions count too.
"""

from collections.abc import Iterable
from dataclasses import replace
from math import ceil, floor, inf, isfinite, pi

from guide_gen.controls.pwm_port import PwmPortFields
from guide_gen.formulas import blower, motor
from guide_gen.formulas.spread import Spread
from guide_gen.formulas.turned import AtSetting, Turned, at_settings, keeps_of, load_of, start_of, widest
from guide_gen.formulas.validity import OutsideValidity
from guide_gen.model.fields import ToyFields
from guide_gen.model.kind import Dial
from guide_gen.model.machine import Gear, MeasuredMotor, Turner
from guide_gen.model.plan import Air, Ends, Protection, Sized, SpeedPlan, SpeedPoint
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drive_path import path
from guide_gen.planning.held import fuse_held
from guide_gen.planning.loops import Loop
from guide_gen.planning.motion_readings import share_of
from guide_gen.planning.motion_words import share
from guide_gen.planning.protection import ADJUSTED
from guide_gen.planning.speed_case import Case, as_written, turned_of
from guide_gen.planning.speed_found import BEGINS, RAISED_BY, learnt, left_at
from guide_gen.planning.speed_words import air_words, held_words, table, worded
from guide_gen.planning.speed_working import worked_of
from guide_gen.published.vibration import motion_value
from guide_gen.values import show

GRID = 40  # settings of the curve
STEP_GAINS = 0.05  # of the full speed, by one step of tuning; this project
WIDE = 2.5  # a start range whose ends differ by more is of little use, unless they lie close together; this project
NARROW = 0.1  # of the full setting: ends that lie no farther apart are of use; this project
STEPS = (0.01, 0.05)  # smallest and largest step of tuning; this project
OWN_FRICTION = Spread.usual("friction share of the loss")

BY_START = "the setting at which it just begins to turn, raised by 1 % at a time (found: start)"
MEASURE = {
    "current_A": BY_START,
    "resistance_ohm": "the winding's resistance, shaft held: volts by amperes at four positions, with a multimeter "
    "(motor: resistance)",
    "speed_rad_s": "its speed at full voltage (motor: speed)",
    "friction_share": BY_START,
    "supply_V": "the supply's voltage as it is set, with a multimeter (voltage_range)",
    "inductance_H": BY_START,
    "diode_V": "the diode's drop at its current, from its data sheet",
}


def speed_of(
    turner: Turner | None, toy: ToyFields, sized: Sized, loop: Loop, cabling: Cabling, guarded: Protection
) -> SpeedPlan | None:
    """The plan of one toy; None for one that does not turn, and where PWM must not drive it."""
    if turner is None or (turner.electronics and sized.control in ADJUSTED):
        return None
    settable = sized.control in ADJUSTED
    frequency = sized.port.pwm_frequency_Hz if sized.port and sized.control == "pwm port" else inf
    case = Case(turner, toy, sized, path(loop, cabling, sized), guarded, settable, frequency or inf)
    if settable and frequency is None:
        return unknown(case, "the board's PWM frequency, from its data sheet (pwm_frequency)")
    if turner.motor is None or turner.motor.speed is None:
        return unknown(case, turner.wanted)
    try:
        return known(case, turner.motor)
    except OutsideValidity:  # told as a finding: current, resistance and speed do not belong together
        return unknown(case, MEASURE["resistance_ohm"])


# ---- the numbers ----------------------------------------------------------------------------------------------------


def known(case: Case, measured: MeasuredMotor) -> SpeedPlan:
    """The whole plan of a motor whose running point and winding are known."""
    written = turned_of(case, measured, written=True)
    known_now = learnt(case, turned_of(case, measured))
    doubted = known_now.turned
    plan = SpeedPlan(
        case.turns,
        "",
        at_voltages(case, doubted, written),
        points_of(case, [1.0], doubted, written)[0],
        moving_Nm=moving(case, written),
        helps=case.turner.wanted,
        compared=known_now.compared,
        narrowed=known_now.narrowed,
    )
    if case.settable:
        plan = with_settings(plan, case, doubted, written)
    assert plan.full is not None
    word, opens_s = fuse_held(case.guarded)
    plan = replace(plan, held_fuse=word, held_opens_s=opens_s)
    return replace(worded(plan, case, written), worked=worked_of(case, measured, doubted))


def with_settings(plan: SpeedPlan, case: Case, doubted: Turned, written: Turned) -> SpeedPlan:
    """The same with start, curve and tuning, where there is something to set."""
    found, control = case.toy.found, case.toy.control
    start, keeps = start_of(doubted), keeps_of(doubted)
    at = share_of(found.start, case.sized.supply_V) if found and found.start else None
    if at is not None and any(one.what == BEGINS and one.fits for one in plan.compared):
        start = start.within(max(start.low, at - RAISED_BY), max(min(start.high, at), start.low))
        keeps = keeps.within(keeps.low, min(keeps.high, start.high))
    as_left = round(share_of(found.setting, case.sized.supply_V), 9) if found and found.setting else None
    limit = control.limit.high if isinstance(control, PwmPortFields) and control.limit else None
    marks = {one for one in (*start, keeps.nominal, as_left, limit) if one is not None and one <= 1}
    settings = sorted({round(one, 9) for one in [step / GRID for step in range(GRID + 1)] + list(marks)})
    points = points_of(case, settings, doubted, written)
    return replace(
        plan,
        axis="setting" if isfinite(case.pwm_Hz) else "share of full voltage",
        points=points,
        start=ends(start),
        keeps=ends(keeps),
        begin=floor(100 * start.low + 1e-9) / 100 if start.low <= 1 else None,
        step=step_of(points, start.nominal),
        limit=limit,
        as_left=as_left,
        kick=kick(case, start, keeps),
        compared=(*plan.compared, *([left_at(as_left, keeps)] if as_left is not None else [])),
        helps=case.turner.wanted or first_to_measure(doubted, at is not None),
        useful=start.high <= max(WIDE * start.low, start.low + NARROW),
    )


def kick(case: Case, start: Spread, keeps: Spread) -> str:
    """A fan that turns keeps turning below where it starts."""
    if case.turner.gear or not isfinite(start.high) or share(keeps.high) == share(start.high):
        return ""
    seconds_s = motion_value("blower kick time").value
    return (
        f"Once it turns, it keeps turning down to {share(keeps.high)}: {seconds_s:g} s at 100 % starts it, then lower "
        "to the setting wanted."
    )


def first_to_measure(doubted: Turned, start_found: bool) -> str:
    """What would narrow the start most; "" where that was measured itself, or nothing is in doubt."""
    asked = MEASURE.get(widest(doubted) or "", "")
    return "" if start_found and asked == BY_START else asked


def points_of(case: Case, settings: Iterable[float], doubted: Turned, written: Turned) -> tuple[SpeedPoint, ...]:
    """What it does at each setting of the supply's whole range."""
    asked = list(settings)
    loss = load_of(written)
    pairs = zip(at_settings(doubted, asked), at_settings(written, asked), strict=True)
    return tuple(point_of(case, case.sized.supply_V, one, held_fast, loss) for one, held_fast in pairs)


def at_voltages(case: Case, doubted: Turned, written: Turned) -> tuple[SpeedPoint, ...]:
    """What it does switched on at the lowest, the nominal and the highest voltage of the supply.

    Each is a share of the highest, which a smooth voltage stands for; full is what it does at the nominal one.
    """
    low, nominal, high = case.supply_V
    volts = sorted({low, nominal, high})
    alike = [replace(one, supply_V=Spread.exactly(high), pwm_Hz=inf) for one in (doubted, written)]
    loss = load_of(written)
    pairs = zip(*(at_settings(one, [volt / high for volt in volts], nominal / high) for one in alike), strict=True)
    return tuple(
        replace(point_of(case, volt, one, held_fast, loss), setting=1.0)
        for volt, (one, held_fast) in zip(volts, pairs, strict=True)
    )


def point_of(case: Case, supply_V: float, one: AtSetting, held_fast: AtSetting, loss: Spread) -> SpeedPoint:
    """The numbers of a motor as those of what it turns."""
    gear = case.turner.gear
    torque = pushed(case, gear, held_fast.stall_N_m, loss) if gear and gear.ratio else None
    return SpeedPoint(
        one.setting,
        supply_V,
        ends(speed / (2 * pi) / case.ratio for speed in one.speed_rad_s),
        ends(held_fast.stall_A),
        torque,
        arm_force(gear, torque),
        air_of(one.own_share) if gear is None else None,
    )


def pushed(case: Case, gear: Gear, torque_N_m: Spread, loss: Spread) -> Ends:
    """Torque of the output held fast: the motor's own friction off at the low end, none of it at the high one."""
    assert gear.ratio is not None
    alone = free_share(case) or Spread.exactly(1.0)
    own = (OWN_FRICTION.high * alone.high * loss.high, OWN_FRICTION.nominal * alone.nominal * loss.nominal, 0.0)
    return ends(
        motor.output_torque_N_m(torque, gear.ratio, efficiency, min(friction, torque))
        for torque, efficiency, friction in zip(torque_N_m, gear.efficiency, own, strict=True)
    )


def arm_force(gear: Gear | None, torque: Ends | None) -> Ends | None:
    """At the end of the arm: a short arm pushes hardest."""
    if gear is None or gear.arm_m is None or torque is None:
        return None
    return ends(motor.arm_force_N(one, radius) for one, radius in zip(torque, reversed(tuple(gear.arm_m)), strict=True))


def moving(case: Case, written: Turned) -> Ends | None:
    """Torque that the output gave while its current was measured: what moves the arm.

    None where it is not known how much of that current it draws with the arm off.
    """
    gear, alone = case.turner.gear, free_share(case)
    if gear is None or gear.ratio is None or alone is None:
        return None
    ratio, loss = gear.ratio, load_of(written)
    return ends(
        motor.output_torque_N_m(torque, ratio, efficiency, own * torque)
        for torque, efficiency, own in zip(loss, gear.efficiency, reversed(tuple(alone)), strict=True)
    )


def free_share(case: Case) -> Spread | None:
    """Of its current what it draws with nothing on its output; None: not known."""
    return case.turner.motor.free_share if case.turner.motor else None


def air_of(own_share: Spread) -> Air:
    """The fan laws, at both ends and the likeliest."""
    laws = [blower.fan_point(share, 1.0) for share in own_share]
    return Air(
        ends(one.flow_share for one in laws),
        ends(one.pressure_share for one in laws),
        ends(one.power_share for one in laws),
        ends(one.sound_dB for one in laws),
    )


def ends(values: Iterable[float]) -> Ends:
    """Low end, likeliest, high end."""
    low, likeliest, high = values
    return low, likeliest, high


def step_of(points: tuple[SpeedPoint, ...], start: float) -> float:
    """The whole percent that gains about a twentieth of the full speed, at the rate just above the start."""
    turning = [(one.setting, one.turning_Hz[1]) for one in points if one.turning_Hz and one.setting >= start]
    full = turning[-1][1] if turning else 0.0
    later = next((one for one in turning if one[1] >= turning[0][1] + STEP_GAINS * full), None) if full else None
    gains = later[0] - turning[0][0] if later else STEPS[0]
    return min(max(floor(100 * gains + 1e-9) / 100, STEPS[0]), STEPS[1])


# ---- where something is missing -------------------------------------------------------------------------------------


def unknown(case: Case, helps: str) -> SpeedPlan:
    """What can be said all the same: of the fan by the supply's ends, of a winding what it draws when held fast."""
    points = () if case.turner.gear or case.settable else about(case.supply_V)
    plan = SpeedPlan(case.turns, "", points, stalled(case), helps=helps, useful=not case.settable)
    word, opens_s = fuse_held(case.guarded)
    plan = replace(plan, held_fuse=word, held_opens_s=opens_s)
    says = []
    if case.settable:
        says.append("Where it starts and what each setting gives cannot be worked out: raise it slowly and look.")
    if points:
        says.append(f"{air_words(points)} Its speed is taken to go with the voltage.")
    says += held_words(plan, case, None)
    heads, rows = table(plan, case) if points else ((), ())
    return replace(plan, heads=heads, rows=rows, says=tuple(says), short=says[0] if says else "")


def about(supply_V: Spread) -> tuple[SpeedPoint, ...]:
    """A fan whose motor is not known: its speed goes about with the voltage, as its winding takes little of it."""
    return tuple(
        SpeedPoint(1.0, volts, air=air_of(Spread.exactly(volts / supply_V.nominal))) for volts in sorted({*supply_V})
    )


def stalled(case: Case) -> SpeedPoint | None:
    """What a winding draws when held fast; nothing else is known of it."""
    measured = case.turner.motor
    if measured is None:
        return None
    low, nominal, high = case.supply_V
    ohms = as_written(measured.resistance)
    way = case.path_ohm
    stall = low / (ohms.high + way.high), nominal / (ohms.nominal + way.nominal), high / (ohms.low + way.low)
    return SpeedPoint(1.0, nominal, stall_A=stall)


# ---- the dial -------------------------------------------------------------------------------------------------------


def geared_dial(dial: Dial | None, plan: SpeedPlan | None, full_V: float) -> Dial | None:
    """The dial with the computed beginning and step, where it was worked out."""
    if dial is None or plan is None or plan.start is None or plan.begin is None:
        return dial
    low, _, high = plan.start
    top = min(high, 1.0)
    if dial.unit != "%":
        volts = show.span(low * full_V, top * full_V, "V")
        return replace(
            dial,
            smallest_step=f"{dial.smallest_step} A meter at the motor shows where you are: it should begin at {volts}.",
        )
    limit = f" Never go above {share(plan.limit)}, the limit of this build." if plan.limit is not None else ""
    return replace(
        dial,
        smallest_step=f"Set the port's highest value to {share(plan.begin)} first, then raise it by "
        f"{share(plan.step)} at a time.{limit}",
        start=(100 * plan.begin, ceil(100 * top - 1e-9) + 100 * plan.step) if plan.begin < top else None,
    )
