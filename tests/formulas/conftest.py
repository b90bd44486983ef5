"""The example shaker that several tests share: 12 V, 5.5 A and 35 Hz at full power, invented."""

from collections.abc import Callable
from typing import Any

import pytest

from guide_gen.formulas.drive import Shakers
from guide_gen.formulas.motion_inputs import MotionInputs
from guide_gen.formulas.spread import Spread

GRAVITY_N_M = 0.088
OWN_RAD_S = 13.3


@pytest.fixture
def example() -> Callable[..., Shakers]:
    """A batch of example shakers; whatever is given replaces its own value."""

    def batch(**changes: Any) -> Shakers:
        values = {
            "supply_V": 12.0, "pwm_Hz": 200.0, "loop_on_ohm": 0.38, "loop_off_ohm": 0.35, "inductance_H": 0.55e-3,
            "diode_V": 0.5, "brush_V": 0.0, "emf_V_s": 0.045, "friction_N_m": 0.022, "drag_N_m_s2": 4.6e-6,
            "unbalance_kg_m": GRAVITY_N_M / 9.80665, "inertia_kg_m2": GRAVITY_N_M / OWN_RAD_S**2, "mass_kg": 95.0,
            "natural_Hz": 4.5, "damping_share": 0.06,
        }  # fmt: skip
        return Shakers.of(**values | changes)

    return batch


@pytest.fixture
def example_inputs() -> Callable[..., MotionInputs]:
    """The same as inputs of a plan; give: what each measured value may be off, as a share."""

    def inputs(pwm_Hz: float = 200.0, give: float = 0.0, **changes: Any) -> MotionInputs:
        exactly = Spread.exactly
        values: dict[str, Any] = {
            "supply_V": exactly(12.0), "path_on_ohm": exactly(0.06), "path_off_ohm": exactly(0.03),
            "pwm_Hz": exactly(pwm_Hz),
        }  # fmt: skip
        measured = {
            "resistance_ohm": 0.32, "inductance_H": 0.55e-3, "diode_V": 0.5, "emf_V_s": 0.045, "friction_N_m": 0.022,
            "drag_N_m_s2": 4.6e-6, "unbalance_kg_m": GRAVITY_N_M / 9.80665, "inertia_kg_m2": GRAVITY_N_M / OWN_RAD_S**2,
            "mass_kg": 95.0, "natural_Hz": 4.5, "damping": 0.06,
        }  # fmt: skip
        values |= {name: Spread.about(value, give) for name, value in measured.items()}
        return MotionInputs(**values | changes)

    return inputs
