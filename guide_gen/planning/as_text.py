"""A plan as plain text for a terminal."""

from math import isfinite

from guide_gen.model.plan import Motion, Plan, ToyPlan
from guide_gen.planning.motion_words import between, upto
from guide_gen.values import show
from guide_gen.values.show import plain_spaces


def plan_text(plan: Plan) -> str:
    """The few values of each toy, its wires and its steps."""
    head = f"{plan.name}: {plan.summary}" if plan.summary else plan.name
    return plain_spaces("\n\n".join([head, *(toy_text(toy) for toy in plan.toys.values())])) + "\n"


def toy_text(toy: ToyPlan) -> str:
    """One toy."""
    lines = [f"{toy.name} ({toy.kind}, {toy.sized.control})"]
    lines += [
        f"  {value.label + ':':<18} {value.figure} {value.unit}".rstrip() + f"  ({note})" * bool(note)
        for value in toy.values
        for note in [", ".join(filter(None, [value.basis and value.basis.value, value.note]))]
    ]
    lines.append("  Wires:")
    lines += [
        f"    {wire.id:<4} {wire.start} to {wire.end}, {wire.colour}, {wire.size}, {wire.length_m:g} m"
        for wire in toy.sized.circuit.wires
    ]
    return "\n".join([*lines, *(motion_lines(toy.motion) if toy.motion else ())])


def motion_lines(motion: Motion) -> list[str]:
    """Where it starts, how to tune it and what it does at each setting."""
    stop = show.setting(motion.stop) if isfinite(motion.stop) else "cannot be promised, measure first"
    begin = show.setting(motion.begin) if isfinite(motion.begin) else "never"
    bands = "; ".join(f"{one.name} {upto(one.low, one.high)}" for one in motion.bands)
    return [
        f"  Motion ({motion.what}):",
        f"    turns over {between(*motion.start)}, likeliest {between(motion.start_nominal, motion.start_nominal)}",
        f"    begin {begin}, step {show.setting(motion.step)}, stop {stop}",
        f"    likeliest bands: {bands}",
        *(f"    note: {one}" for one in motion.doubts),
    ]
