"""Eccentric weight: its unbalance by scale or shape, and how hard it pulls."""

from math import pi

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative
from guide_gen.values.worked import worked


@worked(
    "m_e",
    "kg m",
    "l * (F_up + F_dn) / 2",
    {"l": ("lever_m", "m"), "F_up": ("raising_kg", "kg"), "F_dn": ("lowering_kg", "kg")},
    "this project: lever rule, friction cancels between raising and lowering",
)
def scale_unbalance_kg_m(lever_m: float, raising_kg: float, lowering_kg: float) -> float:
    """Mass times eccentricity from a kitchen scale under the level arm.

    Raises OutsideValidity, also when lowering reads more than raising. Source: this project; the lever rule.
    """
    above_zero(lever_m=lever_m, raising_kg=raising_kg)
    not_negative(lowering_kg=lowering_kg)
    if lowering_kg > raising_kg:
        raise OutsideValidity("lowering_kg", lowering_kg, f"at most raising_kg, {raising_kg:g}")
    return lever_m * (raising_kg + lowering_kg) / 2


@worked(
    "m_e",
    "kg m",
    "2 / 3 * rho * t * r ** 3",
    {"r": ("radius_m", "m"), "t": ("thickness_m", "m"), "rho": ("density_kg_m3", "kg/m³")},
    "this project: centroid of a half disc by integration, 4 r / (3 pi)",
)
def half_disc_unbalance_kg_m(radius_m: float, thickness_m: float, density_kg_m3: float) -> float:
    """Mass times eccentricity of a half disc that turns about the middle of its straight side.

    Its mass is rho t pi r² / 2 and its centre lies 4 r / (3 pi) from the shaft.
    Raises OutsideValidity. Source: this project; the centroid follows by integration.
    """
    above_zero(radius_m=radius_m, thickness_m=thickness_m, density_kg_m3=density_kg_m3)
    mass_kg = density_kg_m3 * thickness_m * pi * radius_m**2 / 2
    return mass_kg * 4 * radius_m / (3 * pi)


@worked(
    "F",
    "N",
    "m_e * w ** 2",
    {"m_e": ("unbalance_kg_m", "kg m"), "w": ("speed_rad_s", "rad/s")},
    "OpenStax College Physics 2e, centripetal force",
)
def turning_force_N(unbalance_kg_m: float, speed_rad_s: float) -> float:
    """The pull of a turning unbalance on its shaft.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, centripetal force.
    """
    above_zero(unbalance_kg_m=unbalance_kg_m, speed_rad_s=speed_rad_s)
    return unbalance_kg_m * speed_rad_s**2


@worked(
    "v",
    "m/s",
    "r * w",
    {"r": ("radius_m", "m"), "w": ("speed_rad_s", "rad/s")},
    "OpenStax College Physics 2e, angular velocity",
)
def rim_speed_m_s(radius_m: float, speed_rad_s: float) -> float:
    """How fast the rim of a turning part moves.

    Raises OutsideValidity. Source: OpenStax College Physics 2e, angular velocity.
    """
    above_zero(radius_m=radius_m, speed_rad_s=speed_rad_s)
    return radius_m * speed_rad_s
