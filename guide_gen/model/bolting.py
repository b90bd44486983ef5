"""Steps and needs of bolting any toy down."""

from guide_gen.model.guide import Step
from guide_gen.model.plan import Mounting
from guide_gen.values import show

NUTS = {
    "nylon-insert nut": "nylon-insert locking nuts",
    "thread-locking": "nuts with thread-locking",
    "two nuts": "two nuts on each, tightened against each other",
}


def bolt_steps(kind: str, screws: Mounting | None, units: str) -> tuple[Step, Step]:
    """Drill the holes and fit through-bolts; kind: first part of the steps' ids."""
    if screws is None:
        hole, through, bolts, washer = "holes for the screws", "the floor", "through-bolts", "wide"
        torque, nuts = "", NUTS["nylon-insert nut"]
    else:
        hole = f"{screws.count} holes of {show.millimetres(screws.hole_mm, units)}"
        through = screws.panel_shown
        measured = ", long enough for floor, bracket, washers and nut"
        length = f" × {screws.length_shown}" if screws.length_shown else measured
        bolts = f"{screws.count} through-bolts {screws.screw}{length}"
        washer = screws.washer_shown
        torque, nuts = torque_words(screws, units), NUTS.get(screws.locking, NUTS["nylon-insert nut"])
    return (
        Step(
            f"{kind}.mount.drill",
            "mount",
            f"Drill {hole} through {through}.",
            "Drill the holes",
            more="Look underneath first: wires and legs are there.",
        ),
        Step(
            f"{kind}.mount.bolt",
            "mount",
            f"Fit {bolts}, a {washer} washer under each head and each nut, {nuts}.",
            "Fit the through-bolts",
            more=torque,
        ),
    )


def torque_words(screws: Mounting, units: str) -> str:
    """How hard to tighten them."""
    if screws.torque_Nm is None:
        return ""
    own = (
        ", besides what the locking nut asks for of its own: turn it on alone first and read the wrench"
        if screws.locking == "nylon-insert nut"
        else ""
    )
    torque = show.torque(screws.torque_Nm, screws.torque_Nm, units)
    return f"Tighten each with {torque}{own}, cross-wise. Wait a day and tighten again: wood gives way."
