"""What a gear motor or a blower does at each setting: sentences and a table."""

from collections.abc import Callable
from dataclasses import replace
from math import floor, isfinite

from guide_gen.formulas.turned import Turned
from guide_gen.model.plan import Ends, SpeedPlan, SpeedPoint
from guide_gen.planning.motion_words import between, share, stale
from guide_gen.planning.protection import seconds
from guide_gen.planning.speed_case import Case, never_below
from guide_gen.planning.speed_found import BEGINS
from guide_gen.values import show

LAWS = "Half the speed moves half the air, at a quarter of the pressure and an eighth of the power, 15 dB quieter."


def worded(plan: SpeedPlan, case: Case, written: Turned) -> SpeedPlan:
    """The same with its table and its sentences."""
    says = [*starting_words(plan, case), *speed_words(plan, case)]
    if plan.narrowed:
        says.append(f"Narrowed by what was found: {', '.join(plan.narrowed)}.")
    if not case.settable and (lost := stale(case.toy.found)):
        says.append(lost)
    says += held_words(plan, case, written)
    if plan.axis == "share of full voltage":
        says.append(
            "The trimmer has no scale: the setting is the share of the full voltage that a meter shows at the motor."
        )
    heads, rows = table(plan, case)
    return replace(plan, heads=heads, rows=rows, short=short(plan, case), says=tuple(says))


def noun(case: Case) -> str:
    """What turns, with its article."""
    return {"output": "the output", "motor": "the motor's shaft", "fan": "the fan"}[case.turns]


def capital(text: str) -> str:
    """With a capital letter in front."""
    return text[:1].upper() + text[1:]


def rpm(turning_Hz: float) -> str:
    """Turns a minute."""
    return show.figure(60 * turning_Hz, digits=2)


def range_of(values: Ends, shown: Callable[[float], str]) -> str:
    """Two ends in words; one where they look alike. A unit that both have is said once."""
    low, high = shown(values[0]), shown(values[2])
    (first, unit), (_, other) = show.figure_and_unit(low), show.figure_and_unit(high)
    if low == high:
        return low
    return f"{first} to {high}" if unit and unit == other else f"{low} to {high}"


def short(plan: SpeedPlan, case: Case) -> str:
    """What the chart shows, in one line."""
    assert plan.full is not None
    assert plan.full.turning_Hz is not None
    full = f"{range_of(plan.full.turning_Hz, rpm)} turns a minute at full strength"
    if plan.start is None:
        return f"{capital(noun(case))}: {full}."
    return f"Begins to turn {between(plan.start[0], plan.start[2])}; {full}."


def starting_words(plan: SpeedPlan, case: Case) -> list[str]:
    """Where it begins to turn, and why there."""
    if plan.start is None:
        return []
    low, likeliest, high = plan.start
    if not isfinite(low):
        return [f"By these values {noun(case)} never begins to turn, not even at full strength."]
    why = (
        "there the mean current gives its dry friction and its load, which are the same at every speed"
        if case.turner.gear
        else "there the mean current gives its friction and half of that in reserve"
    )
    sure = f", most likely at {share(likeliest)}" if isfinite(likeliest) and share(low) != share(high) else ""
    found = [f"{capital(noun(case))} begins to turn {between(low, high)}{sure}: {why}."]
    measured = case.turner.motor
    if case.turner.gear and measured and measured.free is None and BEGINS not in plan.narrowed:
        found.append(
            "How much of its current goes into a load is not known, from nothing to all of it: read the current with "
            "the arm off (free_current)."
        )
    if plan.limit is not None and plan.limit < low:
        found.append(f"The port's limit of {share(plan.limit)} lies below that: it will not move.")
    return found


def speed_words(plan: SpeedPlan, case: Case) -> list[str]:
    """How fast it turns, and what that moves."""
    assert plan.full is not None
    assert plan.full.turning_Hz is not None
    likely = rpm(plan.full.turning_Hz[1])
    found = [
        f"At full strength {noun(case)} turns {range_of(plan.full.turning_Hz, rpm)} times a minute, most likely "
        f"{likely}."
    ]
    if plan.moving_Nm:
        units = case.sized.units
        low, _, high = plan.moving_Nm
        gives = show.torque(low, high, units) if low > 0 else f"at most {show.torque(high, high, units)}"
        found.append(f"While it moves, the output gives {gives} to the arm.")
    if case.turner.gear is None:
        found.append(LAWS if plan.axis else air_words(plan.points))
    return found


def air_words(points: tuple[SpeedPoint, ...]) -> str:
    """One sentence on the supply's ends."""
    low, high = points[0], points[-1]
    if low is high or low.air is None or high.air is None:
        return LAWS
    flow, power = (
        [show.percent(round(part[1], 2)) for part in parts]
        for parts in ((low.air.flow, high.air.flow), (low.air.power, high.air.power))
    )
    return (
        f"At {show.volts(low.supply_V)} of the supply it moves about {flow[0]} of the air and takes {power[0]} of the "
        f"power; at {show.volts(high.supply_V)} {flow[1]} and {power[1]}."
    )


def held_words(plan: SpeedPlan, case: Case, written: Turned | None) -> list[str]:
    """Held fast: current, torque, force, and the fuse."""
    full, units, fuse = plan.full, case.sized.units, case.guarded.fuse_id
    if full is None or full.stall_A is None:
        return []
    lead = f"Held fast at full strength it draws {range_of(full.stall_A, show.amps)}"
    if full.torque_Nm:
        lead += f"; the output pushes with {show.torque(full.torque_Nm[0], full.torque_Nm[2], units)}"
    if full.force_N:
        lead += f", the end of the arm with {show.force(full.force_N[0], full.force_N[2], units)}"
    does = {
        "opens": f"{fuse} has opened within {seconds(plan.held_opens_s or 0.0)}; the motor may be hot by then.",
        "may open": f"{fuse} may open, but need not{only_from(case)}. Pull the plug when it hums and does not move.",
        "never opens": f"{fuse} never opens at that: pull the plug when it hums and does not move.",
        "": "",
    }[plan.held_fuse]
    found = [f"{lead}.", *([does] if does else [])]
    below = never_below(case, written) if written and plan.axis else None
    if below is not None and below < 1 and floor(100 * below) > 0:
        found.append(f"Held fast below {floor(100 * below)} %, it never opens {fuse}, however long that lasts.")
    elif plan.axis and plan.held_fuse != "never opens" and fuse and below is None:
        found.append(f"Held fast at a low setting it may never open {fuse}.")
    return found


def only_from(case: Case) -> str:
    """From which current on the fuse is sure to open; "" where it is not known."""
    sure_A = case.guarded.sure_A
    return "" if sure_A is None else f": it is sure to open only from {show.amps(sure_A)} on"


def table(plan: SpeedPlan, case: Case) -> tuple[tuple[str, ...], tuple[tuple[str, ...], ...]]:
    """A row for each round setting, or for each voltage of the supply."""
    rows = [row(one, plan, case.sized.units) for one in plan.points if not plan.axis or in_table(plan, one.setting)]
    return (tuple(rows[0]) if rows else ()), tuple(tuple(one.values()) for one in rows)


def row(one: SpeedPoint, plan: SpeedPlan, units: str) -> dict[str, str]:
    """What is known of one setting or voltage, by the head of its column."""
    found = {capital(plan.axis): share(one.setting)} if plan.axis else {"Supply": show.volts(one.supply_V)}
    if one.turning_Hz:
        found["Turns a minute"] = range_of(one.turning_Hz, rpm)
    if one.air:
        found |= {"Flow": shares(one.air.flow), "Pressure": shares(one.air.pressure), "Power": shares(one.air.power)}
        return found | {"Sound": decibels(one.air.sound_dB)}
    if one.stall_A:
        found["Held fast, current"] = range_of(one.stall_A, show.amps)
    if one.force_N:
        found["Held fast, at the arm"] = show.force(one.force_N[0], one.force_N[2], units)
    elif one.torque_Nm:
        found["Held fast, torque"] = show.torque(one.torque_Nm[0], one.torque_Nm[2], units)
    return found


def in_table(plan: SpeedPlan, setting: float) -> bool:
    """Every fifth of the way from where it may turn, and the setting as left."""
    if setting == plan.as_left:
        return True
    first = plan.keeps[0] if plan.keeps else 0.0
    return setting >= first and abs(5 * setting - round(5 * setting)) < 1e-6


def shares(values: Ends) -> str:
    """A range of shares in whole percents."""
    return range_of(values, lambda one: show.with_unit(f"{100 * one:.0f}", "%"))


def decibels(values: Ends) -> str:
    """A change of sound, in whole decibels."""
    low, _, high = (f"{one:+.0f}".replace("-", "\u2212").replace("+0", "0").replace("\u22120", "0") for one in values)
    if not isfinite(values[2]):
        return "silent"
    if not isfinite(values[0]):
        return f"silent to {show.with_unit(high, 'dB')}"
    return show.with_unit(low if low == high else f"{low} to {high}", "dB")
