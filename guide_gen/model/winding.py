"""What a meter shows across a motor's winding."""

from guide_gen.formulas.motor import winding_upper_ohm
from guide_gen.model.fields import ToyFields
from guide_gen.model.guide import Reading
from guide_gen.model.kind import Weighed
from guide_gen.values.quantity import Quantity

LEAST_OHM = 0.05  # a multimeter tells no winding below this from a short; common practice, no source
WHAT = "Resistance of the winding, less the leads"
HELD = "volts and amperes together on a bench supply, shaft held, 1 to 2 V for a second, at four positions"


def motor_weighed(resistance: Quantity | None, speed: Quantity | None, by: str) -> tuple[Weighed, ...]:
    """A motor's winding and speed, on which its results rest. by: the instrument that tells its speed."""
    found = []
    if resistance is not None:
        found.append(Weighed("the winding's resistance", resistance, ("motor", "resistance"), HELD))
    if speed is not None:
        found.append(Weighed("the motor's speed", speed, ("motor", "speed"), by, asked=False))
    return tuple(found)


def bounded_winding(toy: ToyFields, held: str) -> Reading:
    """Without data of the motor the winding is only bounded: above the touched leads, below V / I.

    held: designator of the motor.
    """
    upper = winding_upper_ohm(voltage_V=toy.voltage.low, current_A=toy.current.low)
    return Reading(
        WHAT,
        f"{held}:1 and {held}:2",
        LEAST_OHM,
        upper,
        "Ω",
        "Turn the shaft a little and measure again. Still above: open winding or brushes; no more than the touched "
        "leads "
        "read: a short.",
        "ohms range; above what the leads read when touched together. Only bounded: the winding's own resistance is "
        "not "
        "known",
    )
