"""How long the whole motion plan of one toy takes, ranges included, on one core; ratios are measured in one run.

Run it by hand: `python tests/benchmarks/bench_motion.py`. It is a benchmark, no test: nothing fails.
"""

from dataclasses import replace
from math import pi
from statistics import median
from time import process_time

import numpy as np

from guide_gen.formulas import pwm
from guide_gen.formulas.drive import Shakers, motor_current
from guide_gen.formulas.motion import motion_plan
from guide_gen.formulas.motion_inputs import Drive, Found, MotionInputs
from guide_gen.formulas.spread import Spread

TARGET_S = 0.3
RUNS = 7


def example(pwm_Hz: float, give: float) -> MotionInputs:
    """An invented large shaker, each measured value off by up to give."""
    about, exactly = (lambda value: Spread.about(value, give)), Spread.exactly
    return MotionInputs(
        supply_V=exactly(12.0), resistance_ohm=about(0.32), path_on_ohm=exactly(0.06), path_off_ohm=exactly(0.03),
        inductance_H=about(0.55e-3), diode_V=about(0.5), emf_V_s=about(0.045), friction_N_m=about(0.022),
        drag_N_m_s2=about(4.6e-6), unbalance_kg_m=about(0.00897), inertia_kg_m2=about(4.97e-4), mass_kg=about(95.0),
        natural_Hz=about(4.5), damping=about(0.06), pwm_Hz=exactly(pwm_Hz),
    )  # fmt: skip


def running(pwm_Hz: float, found: Found) -> MotionInputs:
    """The same known by its running point, so that every corner follows from one."""
    return replace(
        example(pwm_Hz, 0.1), emf_V_s=None, friction_N_m=None, drag_N_m_s2=None, running_V=12.0,
        running_A=Spread(5.0, 5.5, 6.0), running_rad_s=Spread.about(219.0, 0.05), friction_share=Spread(0.1, 0.2, 0.6),
        found=found,
    )  # fmt: skip


def seconds(call, runs: int = RUNS) -> float:
    """Median processor time of a call."""
    call()
    took = []
    for _ in range(runs):
        begin = process_time()
        call()
        took.append(process_time() - begin)
    return median(took)


def main() -> None:
    """Print each case against the target, and the arrays against the single case."""
    cases = {
        "1 kHz, exact": example(1000, 0.0),
        "1 kHz, 10 %": example(1000, 0.1),
        "200 Hz, 10 %, sway empty": example(200, 0.1),
        "1 kHz, 20 %, everything found": replace(
            example(1000, 0.2), found=Found(start=0.1, turning_Hz=34.0, current_A=5.4, natural_Hz=4.6, as_left=0.12)
        ),
        "200 Hz, 30 %, light, ceiling in doubt": replace(
            example(200, 0.3), mass_kg=Spread.about(60.0, 0.3), natural_Hz=Spread(3.0, 5.0, 8.0), limit_class="3M1"
        ),
        "200 Hz, 20 %, current at 12 %": replace(
            example(200, 0.2),
            found=Found(current_A=0.5, current_at=0.12, turning_Hz=12.0, turning_at=0.12, as_left=0.12),
        ),
        "200 Hz, running point, wide": running(200, Found()),
        "200 Hz, running point, start and speed": running(200, Found(start=0.1, turning_Hz=34.0, as_left=0.12)),
        "1 kHz, running point, all found": running(
            1000, Found(start=0.11, turning_Hz=10.0, turning_at=0.2, current_A=5.4, natural_Hz=4.6, as_left=0.12)
        ),
        "1 kHz, running point, swing, all found": replace(
            running(
                1000, Found(start=0.11, turning_Hz=10.0, turning_at=0.2, current_A=5.4, natural_Hz=4.6, as_left=0.12)
            ),
            inertia_kg_m2=None,
            swing_s=Spread.about(0.47, 0.05),
        ),
        "trimmer, 10 %": replace(example(1000, 0.1), drive=Drive.VOLTAGE),
    }
    for name, inputs in cases.items():
        took = seconds(lambda inputs=inputs: motion_plan(inputs))
        print(f"{name:38} {1000 * took:6.0f} ms   {took / TARGET_S:5.2f} of the target")
    speeds = np.linspace(0, 60 * pi, 400)
    shaker = Shakers.of(
        supply_V=12.0, pwm_Hz=200.0, loop_on_ohm=0.38, loop_off_ohm=0.35, inductance_H=0.55e-3, diode_V=0.5,
        brush_V=0.0, emf_V_s=0.045, friction_N_m=0.022, drag_N_m_s2=4.6e-6, unbalance_kg_m=0.009,
        inertia_kg_m2=5e-4, mass_kg=95.0, natural_Hz=4.5, damping_share=0.06,
    )  # fmt: skip
    together = seconds(lambda: motor_current(shaker, np.array([0.1]), speeds), 21)
    single = seconds(lambda: [pwm.steady_state(12, 0.045 * w, 0.1, 200, 0.38, 0.35, 5.5e-4, 0.5) for w in speeds], 3)
    print(f"400 currents at once take 1/{single / together:.0f} of one by one")


if __name__ == "__main__":
    main()
