"""What a meter shows across a motor's winding."""

from guide_gen.formulas.motor import winding_upper_ohm
from guide_gen.model.fields import ToyFields
from guide_gen.model.guide import Reading
from guide_gen.model.kind import Missing, Weighed
from guide_gen.values import show
from guide_gen.values.quantity import Quantity

LEAST_OHM = 0.05  # a multimeter tells no winding below this from a short; common practice, no source
WHAT = "Resistance of the winding, less the leads"
OHMS_FROM = 3.0  # below it leads and brushes spoil an ohms range; common practice, no source
HELD = "volts and amperes together on a bench supply, shaft held, 1 to 2 V for a second, at four positions"


def motor_weighed(resistance: Quantity | None, speed: Quantity | None, by: str) -> tuple[Weighed, ...]:
    """A motor's winding and speed, on which its results rest. by: the instrument that tells its speed."""
    found = []
    if resistance is not None:
        found.append(Weighed("the winding's resistance", resistance, ("motor", "resistance"), HELD))
    if speed is not None:
        found.append(Weighed("the motor's speed", speed, ("motor", "speed"), by, asked=False))
    return tuple(found)


def motor_missing(resistance: Quantity | None) -> tuple[Missing, ...]:
    """What is not known of a motor without the resistance of its winding."""
    if resistance is not None:
        return ()
    return (
        Missing(
            "motor: {resistance: ..}",
            "its start and stall current, and what fuse, supply and switch do then",
            f"Measure its winding: {HELD}; divide volts by amperes, take the mean, and write it as resistance. Or "
            "divide its voltage by the stall current of its data sheet.",
            ("motor",),
        ),
    )


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
        f"ohms range, leads subtracted; where that shows less than {show.ohms(OHMS_FROM)}, {HELD}, and divide. Only "
        "bounded: the winding's own resistance is not known",
    )


def measured_how(lowest_ohm: float) -> str:
    """How a winding of at least that resistance is measured: in the ohms range from 3 ohm up only."""
    if lowest_ohm < OHMS_FROM:
        return f"{HELD}; divide volts by amperes, take the mean"
    return "ohms range, shaft held, mean of four positions; subtract what the leads read when touched"


def winding_text(held: str, reading: Reading) -> str:
    """The order to measure it: by volts and amperes where it is known to be low.

    held: designator of the motor.
    """
    off = f"Measure {held}:1 to {held}:2 with one lead of the motor off"
    if not reading.how.startswith(HELD):
        return f"{off}."
    return (
        f"{off}, plug out: hold the shaft, feed 1 to 2 V from a bench supply for a second, and divide volts by "
        "amperes. "
        "Bench supply off again."
    )
