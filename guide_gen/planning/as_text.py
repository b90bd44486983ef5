"""A plan as plain text for a terminal."""

from guide_gen.model.plan import Plan, ToyPlan
from guide_gen.values.show import plain_spaces


def plan_text(plan: Plan) -> str:
    """The few values of each toy, its wires and its steps."""
    head = f"{plan.name}: {plan.summary}" if plan.summary else plan.name
    return plain_spaces("\n\n".join([head, *(toy_text(toy) for toy in plan.toys.values())])) + "\n"


def toy_text(toy: ToyPlan) -> str:
    """One toy."""
    lines = [f"{toy.name} ({toy.kind}, {toy.sized.control})"]
    lines += [
        f"  {value.label + ':':<18} {value.figure} {value.unit}".rstrip() + f"  ({value.note})" * bool(value.note)
        for value in toy.values
    ]
    lines.append("  Wires:")
    lines += [
        f"    {wire.id:<4} {wire.start} to {wire.end}, {wire.colour}, {wire.size}, {wire.length_m:g} m"
        for wire in toy.sized.circuit.wires
    ]
    return "\n".join(lines)
