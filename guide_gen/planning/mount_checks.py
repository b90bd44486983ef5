"""Checks of a mount: screws that reach through, nuts that stay, a panel that bears, a grip that holds."""

from math import pi, sqrt

from guide_gen.formulas import fasteners
from guide_gen.formulas.choice import reaches
from guide_gen.model.fields import FloorFields, ToyFields
from guide_gen.model.finding import Finding, Level
from guide_gen.model.plan import Motion, Mounting, Sized
from guide_gen.planning.mounting import PANEL_ALLOWANCE_MM, screw_of
from guide_gen.published import tables
from guide_gen.published.tables import rule
from guide_gen.values import show

Path = tuple[str, ...]
LOOSE = ("spring washer", "none")
GRIPS_AT_CEILING = 2.0  # times its pull at the highest setting in use; this project


def mount_findings(
    toy: ToyFields, sized: Sized, floor: FloorFields, motion: Motion | None, path: Path
) -> list[Finding]:
    """Everything the checks say of one mount."""
    screws = sized.mounting
    if screws is None:
        return []
    here = (*path, "mount")
    return [
        *short(toy, sized, screws, floor, here),
        *unlocked(toy, sized, here),
        *crushed(toy, sized, screws, here),
        *weak(sized, screws, motion, here),
    ]


def short(toy: ToyFields, sized: Sized, screws: Mounting, floor: FloorFields, here: Path) -> list[Finding]:
    """A stated length that does not reach through the nut."""
    if toy.mount.length is None or floor.thickness is None or screws.stack_mm is None or screws.length_mm is None:
        return []
    screw = screw_of(toy.mount, sized.units)
    needed = fasteners.screw_length_needed_mm(
        stack_mm=screws.stack_mm, nut_mm=screw.lock_nut_mm, pitch_mm=screw.pitch_mm
    )
    if reaches(screws.length_mm, needed):
        return []
    longer = next((one.shown for one in tables.screw_lengths(screw.system) if reaches(one.length_mm, needed)), None)
    return [
        Finding(
            "fastener-short",
            Level.MUST,
            f"The screws of {sized.name} are {show.millimetres(screws.length_mm, sized.units)} long; floor (up to "
            f"{PANEL_ALLOWANCE_MM:g} mm thicker than called), bracket, washers, nut and two threads need "
            f"{show.millimetres(needed, sized.units)}: the nut does not hold on all its threads.",
            f"{show.millimetres(needed, sized.units)} or more",
            f"Take {longer}." if longer else "Take threaded rod.",
            (*here, "length"),
            sized.slug,
        )
    ]


def unlocked(toy: ToyFields, sized: Sized, here: Path) -> list[Finding]:
    """Nuts that nothing keeps on a toy that shakes its mount."""
    if toy.mount.locking not in LOOSE:
        return []
    how = (
        "a plain spring washer does not keep a nut that is shaken sideways"
        if toy.mount.locking == "spring washer"
        else "nothing keeps its nuts"
    )
    return [
        Finding(
            "fastener-unlocked",
            Level.MUST,
            f"{sized.name} shakes its {toy.mount.screws} screws, and {how}: they walk off within hours of play.",
            "nylon-insert nuts, thread-locking or two nuts",
            "Fit nylon-insert nuts, then leave locking out.",
            (*here, "locking"),
            sized.slug,
        )
    ]


def crushed(toy: ToyFields, sized: Sized, screws: Mounting, here: Path) -> list[Finding]:
    """A stated torque that presses the washers into the panel, or a washer that its hole swallows."""
    screw, bears = screw_of(toy.mount, sized.units), rule("bearing stress of plywood").value
    if screws.clamp_N is None:
        return [
            Finding(
                "panel-crushed",
                Level.MUST,
                f"The washers of {sized.name} are {screws.washer_shown} wide and its holes "
                f"{show.millimetres(screw.hole_mm, sized.units)}: they are drawn through.",
                f"washers wider than {show.millimetres(screw.hole_mm, sized.units)}",
                f"Take washers of {show.millimetres(25.0, sized.units)}.",
                (*here, "washer"),
                sized.slug,
            )
        ]
    if toy.mount.torque is None:
        return []
    clamp_N = 1000 * toy.mount.torque.high / (rule("nut factor").value * screw.diameter_mm)
    area = pi / 4 * (screws.washer_mm**2 - screw.hole_mm**2)
    if reaches(bears * area, clamp_N):
        return []
    wide = sqrt(clamp_N / bears * 4 / pi + screw.hole_mm**2)
    right = fasteners.tightening_N_m(
        nut_factor=rule("nut factor").value, clamp_N=bears * area, diameter_mm=screw.diameter_mm
    )
    return [
        Finding(
            "panel-crushed",
            Level.MUST,
            f"{show.quantity(toy.mount.torque)} clamp with {show.newtons(clamp_N)} at each screw of {sized.name}, "
            f"{show.with_unit(show.figure(clamp_N / area), 'MPa')} under its washer; plywood bears "
            f"{show.with_unit(show.figure(bears), 'MPa')}: the washer sinks in and the clamp is lost.",
            f"at most {show.with_unit(show.figure(right), 'N m')}",
            f"Tighten with {show.with_unit(show.figure(right), 'N m')}, or take washers of "
            f"{show.millimetres(wide, sized.units)} or a backing plate.",
            (*here, "torque"),
            sized.slug,
        )
    ]


def weak(sized: Sized, screws: Mounting, motion: Motion | None, here: Path) -> list[Finding]:
    """A grip that slips at full strength, or has too little left at the highest setting in use."""
    safety, pulls_N = screws.slip_safety, screws.pull_N
    if safety is None or not pulls_N or screws.clamp_N is None:
        return []
    full_Hz = max((one.turning_high_Hz for one in motion.curve), default=0.0) if motion else 0.0
    top = min(motion.stop, motion.limit or 1.0) if motion else 1.0
    used_Hz = max((one.turning_high_Hz for one in motion.curve if one.setting <= top), default=0.0) if motion else 0.0
    share = min(1.0, used_Hz / full_Hz) ** 2 if full_Hz and used_Hz else 1.0
    in_use = safety / share
    if reaches(safety, 1.0) and reaches(in_use, GRIPS_AT_CEILING):
        return []
    must = not reaches(safety, 1.0)
    wanted = max(1.0 / safety, GRIPS_AT_CEILING / in_use)
    hole = screws.hole_mm
    wide = sqrt(wanted * (screws.washer_mm**2 - hole**2) + hole**2)
    return [
        Finding(
            "grip-too-weak",
            Level.MUST if must else Level.SHOULD,
            f"{sized.name} pulls at its mount with up to {show.newtons(pulls_N if must else pulls_N * share)} "
            f"{'at full strength' if must else 'at the highest setting in use'}; the friction of {screws.count} screws "
            f"{screws.screw} holds {show.figure(safety if must else in_use)} times that: it slides"
            + (", and the screws wear their holes." if must else " once the wood has given way."),
            "1 times its pull at full strength, 2 times at the highest setting in use",
            f"Take washers of {show.millimetres(wide, sized.units)} or a backing plate, or more screws: "
            f"{-(-screws.count * wanted // 1):g} of them.",
            (*here, "washer"),
            sized.slug,
        )
    ]
