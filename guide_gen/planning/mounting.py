"""The screws that hold a toy: their length from the stack that they clamp, how hard they clamp, what that holds."""

from dataclasses import replace

from guide_gen.formulas import fasteners
from guide_gen.formulas.choice import first_that_fits, reaches
from guide_gen.model.fields import FloorFields, MountFields
from guide_gen.model.plan import Mounting
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show
from guide_gen.values.worked import Shape, Worked, default, work

PANEL_ALLOWANCE_MM = 0.5  # a panel may be that much thicker than it is called; this project, an estimate
USUAL_SCREW = {"metric": "M5", "US": "#10-32"}  # common practice, no source


def mounting(
    mount: MountFields, floor: FloorFields, units: str, pulls_N: float | None
) -> tuple[Mounting | None, tuple[Worked, ...]]:
    """Screws for this floor; None when the screw is not in the tables. Without a thickness there is no length.

    pulls_N: how hard the toy pulls from the side at full strength; None: not known.
    """
    assert mount.bracket is not None
    assert mount.washer is not None
    taken = (
        () if mount.screw else (default("mount.screw", "Screw size", USUAL_SCREW[units], "common practice, no source"),)
    )
    try:
        screw = screw_of(mount, units)
    except tables.NotInTable:
        return None, ()
    washer = show.millimetres(mount.washer.low * 1000, units)
    material = floor.material or "panel"
    bare = Mounting(
        screw.shown, None, "", mount.screws, screw.hole_mm, mount.washer.low * 1000, washer, None, "the floor"
    )
    held, clamping = clamped(replace(bare, locking=mount.locking), mount, screw, pulls_N)
    if floor.thickness is None:
        return held, (*clamping, *taken)
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
    length, shown, choice = length_of(mount, screw, least, units)
    sized = replace(
        held,
        length_mm=length,
        length_shown=shown,
        stack_mm=float(stack.result),
        panel_shown=f"the {floor.thickness.text} {material}",
    )
    return sized, (stack, needed, *choice, *clamping, *taken)


def screw_of(mount: MountFields, units: str) -> tables.Screw:
    """The screw as stated, else the usual one of the description's units. Raises NotInTable."""
    return tables.screw(mount.screw or USUAL_SCREW[units])


def length_of(
    mount: MountFields, screw: tables.Screw, least_mm: float, units: str
) -> tuple[float | None, str, tuple[Worked, ...]]:
    """The length as stated, else the shortest preferred one that is enough."""
    if mount.length is not None:
        stated_mm = 1000 * mount.length.low
        return stated_mm, show.millimetres(stated_mm, units), ()
    fitting = first_that_fits(
        tables.screw_lengths(screw.system),
        lambda one: "" if reaches(one.length_mm, least_mm) else "too short",
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
    return length.length_mm if length else None, shown, (choice,)


def clamped(
    bare: Mounting, mount: MountFields, screw: tables.Screw, pulls_N: float | None
) -> tuple[Mounting, tuple[Worked, ...]]:
    """The clamp that screw and panel stand, the torque that gives it, and what its friction holds."""
    if bare.washer_mm <= screw.hole_mm:  # told as a finding: such a washer falls through
        return bare, ()
    clamp = work(
        fasteners.clamp_N,
        "mount.clamp",
        "Clamp of each screw",
        sentence="Taken for plywood, whatever the panel is made of: the washer decides, not the screw.",
        proof_MPa=tables.screw_strengths()[mount.strength],
        stress_area_mm2=screw.stress_area_mm2,
        bearing_MPa=rule("bearing stress of plywood").value,
        washer_mm=bare.washer_mm,
        hole_mm=screw.hole_mm,
    )
    torque = work(
        fasteners.tightening_N_m,
        "mount.torque",
        "Torque that gives it",
        sentence="A locking nut asks for more of its own: measure that first, and add it.",
        nut_factor=rule("nut factor").value,
        clamp_N=float(clamp.result),
        diameter_mm=screw.diameter_mm,
    )
    held_N = float(clamp.result)
    if mount.torque is not None:
        held_N = min(held_N, held_N * mount.torque.low / float(torque.result))
    plan = replace(
        bare,
        clamp_N=held_N,
        torque_Nm=mount.torque.low if mount.torque is not None else float(torque.result),
    )
    if not pulls_N:
        return plan, (clamp, torque)
    grip = work(
        fasteners.slip_safety,
        "mount.grip",
        "How many times its pull at full strength the friction holds",
        sentence="Half of the clamp is left once wood has given way: tighten again after a day.",
        screws=float(mount.screws),
        friction=rule("wood friction").value,
        kept=rule("clamp kept by wood").value,
        clamp_N=held_N,
        side_N=pulls_N,
    )
    return replace(plan, slip_safety=float(grip.result), pull_N=pulls_N), (clamp, torque, grip)
