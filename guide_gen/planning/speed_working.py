"""How the numbers of a gear motor or a blower were found: the likeliest values, step by step."""

from math import isfinite, pi

from guide_gen.formulas import blower, motor, pwm
from guide_gen.formulas.turned import Turned
from guide_gen.model.machine import Gear, MeasuredMotor, spread_of
from guide_gen.planning.speed_case import Case
from guide_gen.values import show
from guide_gen.values.worked import Worked, default, work


def worked_of(case: Case, measured: MeasuredMotor, turned: Turned) -> tuple[Worked, ...]:
    """The likeliest values, step by step."""
    assert measured.speed is not None
    bases = {"R": measured.resistance.basis, "I": measured.current.basis, "w": measured.speed.basis}
    known_bases = {letter: basis for letter, basis in bases.items() if basis}
    constant = work(
        motor.constant_V_s_per_rad,
        "speed.constant",
        "Constant of the motor, likeliest",
        sentence="From the running point; its torque for each ampere is the same number.",
        bases=known_bases,
        voltage_V=turned.voltage_V,
        brush_V=0.0,
        current_A=turned.current_A.nominal,
        resistance_ohm=turned.resistance_ohm.nominal,
        speed_rad_per_s=turned.speed_rad_s.nominal,
    )
    load = work(
        motor.torque_N_m,
        "speed.load",
        "Torque at the running point",
        sentence="What its load and its own losses ask for there.",
        constant_V_s_per_rad=float(constant.result),
        current_A=turned.current_A.nominal,
    )
    losses, friction, drag = split(measured, turned, float(load.result))
    reserve, needed = with_reserve(case, friction)
    loop_ohm = turned.resistance_ohm.nominal + turned.path_on_ohm.nominal
    full = work(
        motor.steady_speed_rad_per_s,
        "speed.full",
        "Speed of the motor at full strength, likeliest",
        voltage_V=turned.supply_V.nominal,
        brush_V=0.0,
        resistance_ohm=loop_ohm,
        constant_V_s_per_rad=float(constant.result),
        load_N_m=friction,
        drag_N_m_s2=drag,
    )
    start = (start_worked(turned, needed, float(constant.result), loop_ohm),) if case.settable else ()
    return (
        constant,
        load,
        *losses,
        *reserve,
        full,
        *start,
        *pushing(case, measured, turned, float(constant.result), float(load.result), loop_ohm),
        *(fan_worked(float(full.result)) if case.turner.gear is None else ()),
        *taken(case, measured),
    )


def split(measured: MeasuredMotor, turned: Turned, loss_N_m: float) -> tuple[tuple[Worked, ...], float, float]:
    """The torque of a running point in two: steps, what is the same at every speed, what grows with its square."""
    friction = work(
        motor.constant_torque_N_m,
        "speed.friction",
        "Part of it that is the same at every speed, likeliest",
        constant_share=turned.friction_share.nominal,
        torque_N_m=loss_N_m,
    )
    drag = work(
        motor.drag_N_m_s2,
        "speed.drag",
        "What grows with the square of the speed",
        loss_N_m=loss_N_m,
        friction_N_m=float(friction.result),
        speed_rad_per_s=turned.speed_rad_s.nominal,
    )
    return (share_worked(measured, turned), friction, drag), float(friction.result), float(drag.result)


def share_worked(measured: MeasuredMotor, turned: Turned) -> Worked:
    """Where that share comes from: the current with the arm off, what was found, or what is usual."""
    if measured.free is not None and turned.friction_share.nominal == measured.friction_share.nominal:
        drawn_A, loaded_A = spread_of(measured.free).nominal, spread_of(measured.current).nominal
        return work(
            motor.constant_share,
            "speed.share",
            "Share of that torque that is the same at every speed, likeliest",
            sentence="What it draws with the arm off is its own loss, the rest is load.",
            bases={"I_0": measured.free.basis} if measured.free.basis else {},
            free_A=min(drawn_A, loaded_A),
            current_A=loaded_A,
        )
    low, likeliest, high = turned.friction_share
    found = turned.friction_share != measured.friction_share
    return default(
        "default.steady-share",
        "Share of that torque that is the same at every speed",
        f"{show.percent(low)} to {show.percent(high)}, likeliest {show.percent(likeliest)}",
        "narrowed by what was found" if found else "this project: estimate",
    )


def with_reserve(case: Case, friction_N_m: float) -> tuple[tuple[Worked, ...], float]:
    """The torque that is needed to start: of a fan for sure, behind a gearbox just so."""
    if case.turner.gear:
        return (), friction_N_m
    needed = work(blower.start_torque_N_m, "speed.needed", "Torque to start for sure", friction_N_m=friction_N_m)
    return (needed,), float(needed.result)


def start_worked(turned: Turned, needed_N_m: float, constant: float, loop_ohm: float) -> Worked:
    """Where it begins to turn, likeliest."""
    if not isfinite(turned.pwm_Hz):
        return work(
            motor.start_share,
            "speed.start",
            "Share of full voltage at which it begins to turn, likeliest",
            sentence="As a share of the whole: 0.25 is 25 %.",
            torque_N_m=needed_N_m,
            resistance_ohm=loop_ohm,
            constant_V_s_per_rad=constant,
            voltage_V=turned.supply_V.nominal,
        )
    return work(
        pwm.start_duty,
        "speed.start",
        "Setting at which it begins to turn, likeliest",
        sentence="On-time as a share of the whole: 0.25 is 25 %.",
        torque_N_m=needed_N_m,
        constant_V_s_per_rad=constant,
        voltage_V=turned.supply_V.nominal,
        frequency_Hz=turned.pwm_Hz,
        on_ohm=loop_ohm,
        off_ohm=turned.resistance_ohm.nominal + turned.path_off_ohm.nominal,
        inductance_H=turned.inductance_H.nominal,
        diode_V=turned.diode_V.nominal,
    )


def pushing(
    case: Case, measured: MeasuredMotor, turned: Turned, constant: float, load_N_m: float, loop_ohm: float
) -> tuple[Worked, ...]:
    """Held fast, likeliest: current; behind a gearbox torque and force, and what moves the arm."""
    stall = work(
        motor.start_current_A,
        "speed.stall",
        "Current held fast at full strength, likeliest",
        voltage_V=turned.supply_V.nominal,
        resistance_ohm=loop_ohm,
    )
    gear = case.turner.gear
    if gear is None or gear.ratio is None:
        return (stall,)
    moves, alone_N_m = moved(gear, measured, constant, load_N_m)
    own = work(motor.friction_guess_N_m, "speed.own", "Friction of the motor alone, likeliest", loss_N_m=alone_N_m)
    holds = work(
        motor.output_torque_N_m,
        "speed.held",
        "Torque of the output held fast, likeliest",
        torque_N_m=constant * float(stall.result),
        ratio=gear.ratio,
        efficiency=gear.efficiency.nominal,
        friction_N_m=float(own.result),
    )
    if gear.arm_m is None:
        return stall, *moves, own, holds
    force = work(
        motor.arm_force_N,
        "speed.force",
        "Force at the end of the arm, likeliest",
        torque_N_m=float(holds.result),
        radius_m=gear.arm_m.nominal,
    )
    return stall, *moves, own, holds, force


def moved(gear: Gear, measured: MeasuredMotor, constant: float, load_N_m: float) -> tuple[tuple[Worked, ...], float]:
    """What moves the arm, where the current with the arm off is known; and the torque that the motor takes alone."""
    if measured.free is None or gear.ratio is None:
        return (), load_N_m
    alone = work(
        motor.torque_N_m,
        "speed.alone",
        "Torque that it takes with the arm off",
        constant_V_s_per_rad=constant,
        current_A=spread_of(measured.free).nominal,
    )
    moves = work(
        motor.output_torque_N_m,
        "speed.moving",
        "Torque of the output while it moves, likeliest",
        torque_N_m=load_N_m,
        ratio=gear.ratio,
        efficiency=gear.efficiency.nominal,
        friction_N_m=min(float(alone.result), load_N_m),
    )
    return (alone, moves), min(float(alone.result), load_N_m)


def fan_worked(full_rad_s: float) -> tuple[Worked, ...]:
    """The fan laws, worked once."""
    full_Hz = full_rad_s / (2 * pi)
    return tuple(
        work(law, f"speed.{name}", f"{name.capitalize()} at half the speed", turning_Hz=full_Hz / 2, full_Hz=full_Hz)
        for name, law in (
            ("flow", blower.flow_share),
            ("pressure", blower.pressure_share),
            ("power", blower.power_share),
            ("sound", blower.sound_change_dB),
        )
    )


def taken(case: Case, measured: MeasuredMotor) -> tuple[Worked, ...]:
    """What was taken for what nobody measured."""
    if not isfinite(case.pwm_Hz):
        return ()
    low, _, high = (1000 * one for one in measured.inductance_H)
    return (
        default(
            "default.inductance",
            "Inductance of the winding",
            f"{show.figure(low, 2)} to {show.with_unit(show.figure(high, 2), 'mH')}",
            "common practice, no source: estimate, 0.6 to 2.5 ms of its resistance",
        ),
    )
