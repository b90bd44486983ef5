"""Surface: how warm it gets, and what is said of that."""

from guide_gen.formulas.validity import above_zero, not_negative, temperature
from guide_gen.published.tables import Touch, touch_levels
from guide_gen.values.worked import worked

_HEAT = "OpenStax University Physics volume 1, mechanisms of heat transfer"


@worked(
    "T_s",
    "°C",
    "T_a + P / (h * A)",
    {
        "T_a": ("ambient_degC", "°C"),
        "P": ("power_W", "W"),
        "h": ("transfer_W_per_m2_K", "W/(m² K)"),
        "A": ("area_m2", "m²"),
    },
    _HEAT,
)
def surface_degC(ambient_degC: float, power_W: float, transfer_W_per_m2_K: float, area_m2: float) -> float:
    """Temperature of a surface that gives off a power for long.

    power_W: at the highest rail and duty. transfer_W_per_m2_K: 12 in still air with radiation, an estimate (8 to 15).
    Raises OutsideValidity. Source: OpenStax University Physics volume 1, mechanisms of heat transfer.
    """
    temperature(ambient_degC=ambient_degC)
    not_negative(power_W=power_W)
    above_zero(transfer_W_per_m2_K=transfer_W_per_m2_K, area_m2=area_m2)
    return ambient_degC + power_W / (transfer_W_per_m2_K * area_m2)


def touch_level(surface_degC: float) -> Touch | None:
    """What is said of a surface that can be touched; None when it is cool enough for nothing to be said.

    Raises OutsideValidity. Source: ISO 13732-1 for the burn thresholds, from memory.
    """
    temperature(surface_degC=surface_degC)
    reached = [level for level in touch_levels() if surface_degC >= level.from_degC]
    return reached[-1] if reached else None
