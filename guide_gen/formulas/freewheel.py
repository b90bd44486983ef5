"""A winding under PWM at every setting: what it asks at worst of switch and freewheel diode while its motor turns.

voltage_V: of the supply. resistance_ohm, inductance_H: of the winding; leads and switch are left out, which is the safe
side. diode_V: what the freewheel diode drops. full_A: at full_V, loaded as in use; friction_share of it turns the dry
friction, the rest grows with the square of the speed. Where full_V drives no more than full_A through the winding it
makes no back emf: a coil, or a motor that is held. Settings go from 5 % to 100 % in steps of 5 %.
"""

from collections.abc import Callable
from functools import lru_cache

from guide_gen.formulas.pwm import Chopped, steady_state, turning_speed_rad_per_s
from guide_gen.formulas.validity import above_zero, within
from guide_gen.values.worked import procedure

STEPS = 20
_SOURCE = "this project: exact steady state of the chopped winding, its motor in balance with its load"
_METHOD = "at every setting from 5 % to 100 %, in steps of 5 %, the motor turning as its load lets it: the largest "
_LETTERS = {
    "V": ("voltage_V", "V"),
    "f": ("frequency_Hz", "Hz"),
    "R": ("resistance_ohm", "Ω"),
    "L": ("inductance_H", "H"),
    "V_d": ("diode_V", "V"),
    "V_f": ("full_V", "V"),
    "I_f": ("full_A", "A"),
    "s": ("friction_share", ""),
}


@lru_cache(maxsize=512)
def settings(
    voltage_V: float,
    frequency_Hz: float,
    resistance_ohm: float,
    inductance_H: float,
    diode_V: float,
    full_V: float,
    full_A: float,
    friction_share: float,
) -> tuple[Chopped, ...]:
    """The steady state at every setting, the lowest first. Raises OutsideValidity.

    Speed is counted by the back emf alone, as if a volt were a radian a second: then torque is current.
    """
    above_zero(
        voltage_V=voltage_V,
        frequency_Hz=frequency_Hz,
        resistance_ohm=resistance_ohm,
        inductance_H=inductance_H,
        diode_V=diode_V,
        full_V=full_V,
        full_A=full_A,
    )
    within(0, 1, friction_share=friction_share)
    full_emf_V = full_V - full_A * resistance_ohm
    found = []
    for step in range(1, STEPS + 1):
        duty, emf_V = step / STEPS, 0.0
        if full_emf_V > 1e-9 * full_V:
            emf_V = turning_speed_rad_per_s(
                voltage_V=voltage_V,
                brush_V=0.0,
                duty=duty,
                frequency_Hz=frequency_Hz,
                on_ohm=resistance_ohm,
                off_ohm=resistance_ohm,
                inductance_H=inductance_H,
                diode_V=diode_V,
                constant_V_s_per_rad=1.0,
                load_N_m=friction_share * full_A,
                drag_N_m_s2=(1 - friction_share) * full_A / full_emf_V**2,
            )
        found.append(
            steady_state(voltage_V, emf_V, duty, frequency_Hz, resistance_ohm, resistance_ohm, inductance_H, diode_V)
        )
    return tuple(found)


def _largest(of: Callable[[Chopped], float], known: tuple[float, ...]) -> float:
    return max(of(one) for one in settings(*known))


@procedure("I_rms", "A", _METHOD + "rms current in the switch", _LETTERS, _SOURCE)
def largest_switch_rms_A(
    voltage_V: float,
    frequency_Hz: float,
    resistance_ohm: float,
    inductance_H: float,
    diode_V: float,
    full_V: float,
    full_A: float,
    friction_share: float,
) -> float:
    """Rms current in the switch at the setting where it is largest; at a low frequency more than at full strength.

    Raises OutsideValidity. Source: this project; `settings`.
    """
    return _largest(
        lambda one: one.switch_rms_A,
        (voltage_V, frequency_Hz, resistance_ohm, inductance_H, diode_V, full_V, full_A, friction_share),
    )


@procedure("I_pk", "A", _METHOD + "peak current", _LETTERS, _SOURCE)
def largest_peak_A(
    voltage_V: float,
    frequency_Hz: float,
    resistance_ohm: float,
    inductance_H: float,
    diode_V: float,
    full_V: float,
    full_A: float,
    friction_share: float,
) -> float:
    """Peak current at the end of a pulse, at the setting where it is largest.

    Raises OutsideValidity. Source: this project; `settings`.
    """
    return _largest(
        lambda one: one.peak_A,
        (voltage_V, frequency_Hz, resistance_ohm, inductance_H, diode_V, full_V, full_A, friction_share),
    )


@procedure("I_F", "A", _METHOD + "mean current in the diode", _LETTERS, _SOURCE)
def largest_diode_mean_A(
    voltage_V: float,
    frequency_Hz: float,
    resistance_ohm: float,
    inductance_H: float,
    diode_V: float,
    full_V: float,
    full_A: float,
    friction_share: float,
) -> float:
    """Mean current in the diode at the setting where it is largest.

    diode_V: with a zener in series, or of a switch that breaks through, what either drops above the supply.
    Raises OutsideValidity. Source: this project; `settings`.
    """
    return _largest(
        lambda one: one.diode_mean_A,
        (voltage_V, frequency_Hz, resistance_ohm, inductance_H, diode_V, full_V, full_A, friction_share),
    )
