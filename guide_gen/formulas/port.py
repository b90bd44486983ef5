"""Port of a driver board: what may be asked of it."""

from guide_gen.formulas.validity import above_zero
from guide_gen.published.tables import rule
from guide_gen.values.worked import worked

_USABLE = rule("usable port share").value


@worked("I_limit", "A", f"{_USABLE:g} * I_r", {"I_r": ("rated_A", "A")}, rule("usable port share").source)
def usable_current_A(rated_A: float) -> float:
    """What may be asked of a port, or of all ports of a board together, for long.

    Raises OutsideValidity. Source: common practice, no source.
    """
    above_zero(rated_A=rated_A)
    return _USABLE * rated_A
