"""Steps and needs of bolting any toy down."""

from guide_gen.model.guide import Step
from guide_gen.model.plan import Mounting
from guide_gen.values import show


def bolt_steps(kind: str, screws: Mounting | None, units: str) -> tuple[Step, Step]:
    """Drill the holes and fit through-bolts; kind: first part of the steps' ids."""
    if screws is None:
        hole, through, bolts, washer = "holes for the screws", "the floor", "through-bolts", "wide"
    else:
        hole = f"{screws.count} holes of {show.millimetres(screws.hole_mm, units)}"
        through = screws.panel_shown
        measured = ", long enough for floor, bracket, washers and nut"
        length = f" × {screws.length_shown}" if screws.length_shown else measured
        bolts = f"{screws.count} through-bolts {screws.screw}{length}"
        washer = screws.washer_shown
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
            f"Fit {bolts}, a {washer} washer under each head and each nut, nylon-insert locking nuts.",
            "Fit the through-bolts",
        ),
    )
