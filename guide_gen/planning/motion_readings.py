"""The as-left record as the engine takes it: settings as shares, told from volts at the motor where those were read."""

from dataclasses import replace
from math import isfinite

from guide_gen.formulas.motion import MotionPlan, motor_V_at_start
from guide_gen.formulas.motion_found import Check, predicted_of
from guide_gen.formulas.motion_found import Compared as Outcome
from guide_gen.formulas.motion_inputs import Found, MotionInputs
from guide_gen.model.fields import FoundFields
from guide_gen.model.plan import Compared
from guide_gen.planning.motion_words import NAMES, compared, share, upto
from guide_gen.values import show
from guide_gen.values.quantity import Quantity
from guide_gen.values.units import DIMENSION_OF

WITHOUT_SETTING = "A turning frequency or current was found, but not the setting it belongs to: give that as well"


def in_volts(found: Quantity | None) -> bool:
    """Whether a setting was read as a voltage at the motor."""
    return found is not None and DIMENSION_OF.get(found.unit) == "voltage"


def share_of(found: Quantity, supply_V: float) -> float:
    """A setting as found, as a share of the full one; of a running motor where volts were read."""
    return found.middle / supply_V if in_volts(found) else found.middle


def shown(found: Quantity) -> str:
    """A setting as found, in the unit in which it was read."""
    return show.volts(found.middle) if in_volts(found) else share(found.middle)


def share_at_start(inputs: MotionInputs, motor_V: float) -> float:
    """The setting that belongs to a voltage at the motor just before it turns over.

    The earliest and the latest machine of the ranges each have their setting and their voltage there; what lies between
    those is shared out evenly, what lies beyond goes with the voltage. Without a latest one the earliest tells all.
    """
    low, high = predicted_of(inputs, Check.START, {})
    low_V, high_V = motor_V_at_start(inputs)
    if not isfinite(low):
        return motor_V / inputs.supply_V.nominal
    if motor_V <= low_V or not isfinite(high) or high_V <= low_V:
        return low * motor_V / low_V
    return (
        float(low + (high - low) * (motor_V - low_V) / (high_V - low_V))
        if motor_V <= high_V
        else high * motor_V / high_V
    )


def _possible(setting: float | None) -> float | None:
    """A setting that can be; None for one that cannot."""
    return setting if setting is not None and 0 < setting <= 1 else None


def _start(found: FoundFields, inputs: MotionInputs) -> float | None:
    if found.start is None:
        return None
    return share_at_start(inputs, found.start.middle) if in_volts(found.start) else found.start.middle


def found_of(found: FoundFields | None, inputs: MotionInputs, *, settable: bool) -> Found:
    """The readings of the as-left record; a frequency or current without its setting says nothing.

    Where there is nothing to set, the setting is the full one, and one that was left lower says nothing. Nor does a
    setting that cannot be, see `impossible`.
    """
    if found is None:
        return Found()
    supply_V = inputs.supply_V.nominal
    left = share_of(found.setting, supply_V) if found.setting else None if settable else 1.0
    here = _possible(left) if settable else left if left and left >= 1 else None
    return Found(
        start=_possible(_start(found, inputs)) if settable else None,
        as_left=_possible(left) if settable else None,
        turning_Hz=found.turning.middle if found.turning and here else None,
        turning_at=here or 1.0,
        current_A=found.current.middle if found.current and here else None,
        current_at=here or 1.0,
        natural_Hz=found.sideways_frequency.middle if found.sideways_frequency else None,
        damping=found.damping.middle or None if found.damping else None,
    )


def impossible(found: FoundFields | None, plan: MotionPlan, inputs: MotionInputs) -> tuple[Compared, ...]:
    """Settings of the record at which nothing can turn, or which the control cannot give: named, and left aside."""
    if found is None:
        return ()
    told = []
    start, setting = found.start, found.setting
    if start is not None and _possible(_start(found, inputs)) is None:
        told.append(Compared(NAMES[Check.START], shown(start), _start_words(start, plan.start, inputs), fits=False))
    if setting is not None and _possible(share_of(setting, inputs.supply_V.nominal)) is None:
        most = min(plan.stop, plan.ceiling, 1.0)
        where = (min(plan.begin, most), most)
        told.append(Compared(NAMES[Check.AS_LEFT], shown(setting), _left_words(setting, where, inputs), fits=False))
    return tuple(told)


def as_read(
    one: Outcome, found: FoundFields | None, inputs: MotionInputs, over_top: tuple[tuple[float, float], ...]
) -> Compared:
    """A reading against what was foretold, a setting in the unit in which it was read.

    over_top: where what stands at the top of the cabinet may be over its limit.
    """
    words = _in_its_unit(one, found, inputs)
    if one.check is not Check.AS_LEFT or one.predicted[0] == one.predicted[1]:
        return words
    high = any(low <= one.found <= top for low, top in over_top)
    more = "; what stands at the top of the cabinet may be over its limit there" if high else ""
    return replace(words, predicted=f"{words.predicted}, begin to stop{more}")


def _in_its_unit(one: Outcome, found: FoundFields | None, inputs: MotionInputs) -> Compared:
    words = compared(one)
    if found and found.start and in_volts(found.start) and one.check is Check.START:
        return replace(words, found=shown(found.start), predicted=_start_words(found.start, one.predicted, inputs))
    if found and found.setting and in_volts(found.setting) and one.check is Check.AS_LEFT:
        return replace(words, found=shown(found.setting), predicted=_left_words(found.setting, one.predicted, inputs))
    return words


def _start_words(found: Quantity, ends: tuple[float, float], inputs: MotionInputs) -> str:
    if not in_volts(found):
        return upto(*ends)
    low, high = motor_V_at_start(inputs)
    if not isfinite(low):
        return upto(*ends)
    return show.span(low, high, "V") if isfinite(high) else f"{show.volts(low)} or more"


def _left_words(found: Quantity, ends: tuple[float, float], inputs: MotionInputs) -> str:
    if not in_volts(found):
        return upto(*ends)
    low, high = (one * inputs.supply_V.nominal for one in ends)
    return show.span(low, high, "V")


def without_setting(found: FoundFields | None, trimmer: bool) -> str:
    """That a frequency or current says nothing without the setting it belongs to; "" where it has one."""
    if found is None or found.setting is not None or not (found.turning or found.current):
        return ""
    if trimmer:
        return f"{WITHOUT_SETTING}, as the voltage at the motor while it runs (found: setting, in V)."
    return f"{WITHOUT_SETTING}."
