"""What lies between supply and winding while the switch is on, and round the diode while it is off."""

from guide_gen.controls.speed_controller import SpeedControllerFields
from guide_gen.formulas.spread import Spread
from guide_gen.model.fields import SuppressorFields, ToyFields
from guide_gen.model.machine import spread_of
from guide_gen.model.plan import Sized, Suppression
from guide_gen.planning.cabling import Cabling
from guide_gen.planning.loops import Loop
from guide_gen.published.tables import rule

AT_THE_MOTOR = Spread(0.0, 0.004, 0.01)  # the loop of a diode at the motor's terminals, ohm; this project, an estimate
INSIDE_JOINTS = 4  # of a controller's diode loop: two runs to the motor
DROP_OFF = 0.15  # a diode's drop is given at one current; this project, an estimate


def path(loop: Loop, cabling: Cabling, sized: Sized) -> Spread:
    """Everything between supply and winding while the switch is on."""
    off = around(loop, cabling, sized)
    return Spread(off.low + loop.switch_low_ohm, off.nominal + loop.switch_ohm, off.high + loop.switch_ohm)


def around(loop: Loop, cabling: Cabling, sized: Sized) -> Spread:
    """All wires, fuses and contacts between supply and winding: what a diode on the board leaves in its loop."""
    contact = rule("contact resistance")
    assert contact.low is not None
    assert contact.high is not None
    nominal = loop.wire_ohm(cabling, sized.wire.size) + loop.other_ohm(sized.fuse.resistance_ohm) - loop.switch_ohm
    return Spread(
        nominal - loop.contacts * (contact.value - contact.low),
        nominal,
        nominal + loop.contacts * (contact.high - contact.value),
    )


def freewheel_path(toy: ToyFields, loop: Loop, cabling: Cabling, sized: Sized) -> Spread:
    """What the current passes while the switch is off, the winding left out: by where the diode sits."""
    if sized.suppression.type == "on the board":
        return around(loop, cabling, sized)
    if sized.suppression.type == "in the controller" and isinstance(toy.control, SpeedControllerFields):
        contact = rule("contact resistance")
        run_ohm = cabling.run_ohm(sized.wire.size, toy.control.controller.run.high, loop.current_A)
        each = (contact.low or contact.value, contact.value, contact.high or contact.value)
        return Spread(*(2 * run_ohm + INSIDE_JOINTS * ohm for ohm in each))
    return AT_THE_MOTOR


def diode_drop(suppression: Suppression, written: object) -> Spread:
    """What the freewheel diode drops at its current, as written; unknown technology has the whole range."""
    if isinstance(written, SuppressorFields) and written.forward_voltage:
        return spread_of(written.forward_voltage, DROP_OFF)
    schottky, silicon = Spread.usual("Schottky drop"), Spread.usual("silicon drop")
    known = {"schottky": schottky, "standard": silicon}
    return known.get(suppression.technology, Spread(schottky.low, (schottky.high + silicon.low) / 2, silicon.high))
