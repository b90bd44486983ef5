"""The screws that hold a toy: their length from the stack that they clamp."""

from guide_gen.formulas import fasteners
from guide_gen.formulas.choice import first_that_fits, reaches
from guide_gen.model.fields import FloorFields, MountFields
from guide_gen.model.plan import Mounting
from guide_gen.published import tables
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, work

PANEL_ALLOWANCE_MM = 0.5  # a panel may be that much thicker than it is called; this project, an estimate


def mounting(mount: MountFields, floor: FloorFields, units: str) -> tuple[Mounting | None, tuple[Worked, ...]]:
    """Screws for this floor; None when the screw is not in the tables. Without a thickness there is no length."""
    assert mount.screw is not None
    assert mount.bracket is not None
    assert mount.washer is not None
    try:
        screw = tables.screw(mount.screw)
    except tables.NotInTable:
        return None, ()
    washer = show.millimetres(mount.washer.low * 1000, units)
    material = floor.material or "panel"
    if floor.thickness is None:
        return Mounting(
            screw.shown, None, "", mount.screws, screw.hole_mm, mount.washer.low * 1000, washer, None, "the floor"
        ), ()
    panel_mm = floor.thickness.high * 1000
    stack = work(
        fasteners.stack_mm,
        "mount.stack",
        "What the screws clamp",
        panel_mm=panel_mm,
        allowance_mm=PANEL_ALLOWANCE_MM,
        bracket_mm=mount.bracket.high * 1000,
        washer_mm=screw.washer_mm,
    )
    needed = work(
        fasteners.screw_length_needed_mm,
        "mount.needed",
        "Least length of the screws",
        stack_mm=float(stack.result),
        nut_mm=screw.lock_nut_mm,
        pitch_mm=screw.pitch_mm,
    )
    least = float(needed.result)

    fitting = first_that_fits(
        tables.screw_lengths(screw.system),
        lambda one: "" if reaches(one.length_mm, least) else "too short",
        lambda one: one.shown,
    )
    length, candidates = fitting
    shown = f"{length.shown}" if length else ""
    choice = Worked(
        "mount.length",
        "Length of the screws",
        Shape.CHOICE,
        "l",
        shown or "none fits",
        "",
        "shortest preferred length at or above the least length",
        "ISO 888" if screw.system == "metric" else "ASME B18.6.3, from memory",
        candidates=candidates[-3:],
    )
    return Mounting(
        screw.shown,
        length.length_mm if length else None,
        shown,
        mount.screws,
        screw.hole_mm,
        mount.washer.low * 1000,
        washer,
        float(stack.result),
        f"the {floor.thickness.text} {material}",
    ), (stack, needed, choice)
