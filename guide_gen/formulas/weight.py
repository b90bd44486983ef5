"""Eccentric weight: unbalance and inertia from its shape, from a scale, from its swing."""

from dataclasses import dataclass
from math import cos, hypot, pi, sin, sqrt

from guide_gen.formulas.validity import OutsideValidity, above_zero, not_negative, within
from guide_gen.values.worked import worked

GRAVITY_M_S2 = 9.80665
_LEVER = "this project: lever rule, friction turns its sign between raising and lowering"
_PENDULUM = "OpenStax University Physics 1, physical pendulum"


@dataclass(frozen=True)
class Weight:
    """A weight about its shaft: mass, distance of its centre from the shaft, moment of inertia about the shaft."""

    mass_kg: float
    arm_m: float
    inertia_kg_m2: float

    @property
    def unbalance_kg_m(self) -> float:
        """Mass times arm."""
        return self.mass_kg * self.arm_m


@dataclass(frozen=True)
class Pairing:
    """Two weights on one shaft: joint unbalance, and rocking couple over the square of the speed."""

    unbalance_kg_m: float
    couple_kg_m2: float


@worked(
    "m",
    "kg",
    "a / 2 * (R ** 2 - r ** 2) * t * rho",
    {
        "a": ("angle_rad", "rad"),
        "r": ("inner_m", "m"),
        "R": ("outer_m", "m"),
        "t": ("thickness_m", "m"),
        "rho": ("density_kg_m3", "kg/m³"),
    },
    "this project: area of a ring sector times thickness and density",
)
def sector_mass_kg(angle_rad: float, inner_m: float, outer_m: float, thickness_m: float, density_kg_m3: float) -> float:
    """Mass of a sector of a disc or ring; angle_rad: its full angle.

    Raises OutsideValidity. Source: this project; area times thickness and density.
    """
    _sector(angle_rad, inner_m, outer_m)
    above_zero(thickness_m=thickness_m, density_kg_m3=density_kg_m3)
    return angle_rad / 2 * (outer_m**2 - inner_m**2) * thickness_m * density_kg_m3


def _sector(angle_rad: float, inner_m: float, outer_m: float) -> None:
    above_zero(angle_rad=angle_rad, outer_m=outer_m)
    not_negative(inner_m=inner_m)
    within(0, 2 * pi * (1 + 1e-12), angle_rad=angle_rad)
    if inner_m >= outer_m:
        raise OutsideValidity("inner_m", inner_m, f"below outer_m, {outer_m:g}")


def sector(angle_rad: float, inner_m: float, outer_m: float, mass_kg: float) -> Weight:
    """A sector of a disc or ring about the middle of its circle; a half disc has angle pi and inner 0.

    mass_kg: weighed, or `sector_mass_kg`. Raises OutsideValidity.
    Source: F. P. Beer and E. R. Johnston, Vector Mechanics for Engineers, centroids and moments of inertia.
    """
    _sector(angle_rad, inner_m, outer_m)
    above_zero(mass_kg=mass_kg)
    half = angle_rad / 2
    ring = (outer_m**3 - inner_m**3) / (outer_m**2 - inner_m**2)
    arm_m = max(2 / 3 * sin(half) / half * ring, 0.0)
    return Weight(mass_kg, arm_m, mass_kg * (outer_m**2 + inner_m**2) / 2)


def bar(length_m: float, width_m: float, offset_m: float, mass_kg: float) -> Weight:
    """A flat rectangular bar whose middle lies offset_m from the shaft.

    Raises OutsideValidity.
    Source: F. P. Beer and E. R. Johnston, Vector Mechanics for Engineers, mass moments of inertia, parallel axes.
    """
    above_zero(length_m=length_m, width_m=width_m, mass_kg=mass_kg)
    not_negative(offset_m=offset_m)
    return Weight(mass_kg, offset_m, mass_kg * ((length_m**2 + width_m**2) / 12 + offset_m**2))


def two_weights(first_kg_m: float, second_kg_m: float, angle_rad: float, apart_m: float = 0.0) -> Pairing:
    """Two weights set at an angle to each other, apart_m along the shaft.

    Raises OutsideValidity. Source: addition of vectors.
    """
    above_zero(first_kg_m=first_kg_m, second_kg_m=second_kg_m)
    not_negative(apart_m=apart_m)
    within(-2 * pi, 2 * pi, angle_rad=angle_rad)
    # half angles, since two nearly alike would leave nothing but rounding of the usual law of cosines
    apart, both = first_kg_m - second_kg_m, 2 * sqrt(first_kg_m * second_kg_m)
    joint, rocking = hypot(apart, both * cos(angle_rad / 2)), hypot(apart, both * sin(angle_rad / 2))
    return Pairing(joint, apart_m / 2 * rocking)


@worked("T_g", "N m", "9.80665 * m_e", {"m_e": ("unbalance_kg_m", "kg m")}, "OpenStax University Physics 1, torque")
def gravity_torque_N_m(unbalance_kg_m: float) -> float:
    """What the level arm asks of the shaft.

    Raises OutsideValidity. Source: OpenStax University Physics 1, torque.
    """
    above_zero(unbalance_kg_m=unbalance_kg_m)
    return GRAVITY_M_S2 * unbalance_kg_m


@worked(
    "T_c",
    "N m",
    "9.80665 * l * (F_up - F_dn) / 2",
    {"l": ("lever_m", "m"), "F_up": ("raising_kg", "kg"), "F_dn": ("lowering_kg", "kg")},
    _LEVER,
)
def scale_friction_N_m(lever_m: float, raising_kg: float, lowering_kg: float) -> float:
    """Friction of bearings and brushes from a kitchen scale under the level arm, raised and lowered slowly.

    Raises OutsideValidity, also when lowering reads more than raising. Source: this project; the lever rule.
    """
    above_zero(lever_m=lever_m, raising_kg=raising_kg)
    not_negative(lowering_kg=lowering_kg)
    if lowering_kg > raising_kg:
        raise OutsideValidity("lowering_kg", lowering_kg, f"at most raising_kg, {raising_kg:g}")
    return GRAVITY_M_S2 * lever_m * (raising_kg - lowering_kg) / 2


@worked(
    "J",
    "kg m²",
    "9.80665 * m_e * (P / (2 * 3.141592653589793)) ** 2",
    {"m_e": ("unbalance_kg_m", "kg m"), "P": ("period_s", "s")},
    _PENDULUM,
)
def swing_inertia_kg_m2(unbalance_kg_m: float, period_s: float) -> float:
    """Moment of inertia about the shaft, rotor included, from the period of the hanging weight's small free swing.

    Raises OutsideValidity. Source: OpenStax University Physics 1, physical pendulum.
    """
    above_zero(unbalance_kg_m=unbalance_kg_m, period_s=period_s)
    return GRAVITY_M_S2 * unbalance_kg_m * (period_s / (2 * pi)) ** 2
