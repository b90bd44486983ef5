"""What a motor draws held fast, which is also how its start begins: one current for every page, chart and sum."""

from dataclasses import replace
from math import isfinite

from guide_gen.formulas.choice import reaches
from guide_gen.formulas.motor import start_current_A
from guide_gen.model.circuit import PartKind
from guide_gen.model.plan import Load, Protection, Sized
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.drive_path import path
from guide_gen.planning.loops import Loop
from guide_gen.planning.protection import time_at

MOTORS = (PartKind.MOTOR, PartKind.FAN)


def on_its_way(sized: Sized, loop: Loop, cabling: Cabling) -> Load:
    """The load with what it draws held fast: the supply's voltage over winding and path.

    The high end is the highest voltage over the least of both; the supply may give less than that.
    """
    load, ohms = sized.load, sized.load.resistance_ohm
    if ohms is None or load.momentary or sized.circuit.part(sized.ids["load"]).what not in MOTORS:
        return load
    way = path(loop, cabling, sized)
    least = start_current_A(voltage_V=sized.supply_low_V, resistance_ohm=ohms[1] + way.high)
    most = start_current_A(voltage_V=sized.supply_high_V, resistance_ohm=ohms[0] + way.low)
    return replace(load, start_A=most, held_A=(least, most))


def fuse_held(guarded: Protection) -> tuple[str, float | None]:
    """What the fuse does while the motor is held fast at full strength, and by when it has opened for certain.

    ``never opens``, ``may open``, ``opens``; "" where it is not known.
    """
    if guarded.held_A is None or not guarded.fuse_id or guarded.never_A is None or guarded.sure_A is None:
        return "", None
    low = min(guarded.held_A[0], guarded.limit_A)
    high = min(guarded.held_A[1], max(guarded.limit_A, guarded.limit_high_A or 0.0))
    if reaches(guarded.never_A, high):
        return "never opens", None
    opens_s = time_at(guarded.longest, low)
    return ("opens", opens_s) if reaches(low, guarded.sure_A) and isfinite(opens_s) else ("may open", None)
