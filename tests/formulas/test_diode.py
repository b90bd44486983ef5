"""Laws of the diode formulas, and the classes that follow from them."""

from hypothesis import given
from hypothesis import strategies as st

from guide_gen.formulas import diode
from guide_gen.published.tables import diodes


def _standing(voltage_V, mean_A, surge_A):
    """The registered Schottky classes that stand all three."""
    return [
        one.name
        for one in diodes()
        if one.technology == "schottky" and one.vrrm_V >= voltage_V and one.if_av_A >= mean_A and one.ifsm_A >= surge_A
    ]


@given(current_A=st.floats(0.01, 100))
def test_a_diode_under_pwm_carries_more_than_one_of_single_shots(current_A):
    assert diode.mean_current_single_shots_A(current_A) < diode.mean_current_under_pwm_A(current_A) < current_A


def test_a_six_ampere_motor_at_12_V_takes_a_3_A_schottky():
    """26 V for a supply that may stand at 13 V; a 1 A class is too small for the 3 A mean."""
    needed = diode.reverse_voltage_V(13), diode.mean_current_under_pwm_A(6), 6
    assert _standing(*needed) == ["1N5821", "1N5822"]


def test_no_schottky_class_is_left_at_24_V():
    assert _standing(diode.reverse_voltage_V(24), 1, 1) == []


@given(mean_A=st.floats(0, 10), peak_A=st.floats(0, 20), frequency_Hz=st.floats(10, 1e5))
def test_a_slow_diode_is_hotter_than_a_fast_one(mean_A, peak_A, frequency_Hz):
    slow, fast = (diode.power_W(0.9, mean_A, second, peak_A, 24, frequency_Hz) for second in (2e-6, 5e-8))
    assert slow >= fast >= 0.9 * mean_A
    assert diode.junction_degC(40, slow, 50) >= diode.junction_degC(40, fast, 50)


def test_a_schottky_diode_has_its_drop_only():
    assert diode.power_W(0.5, 2, 0, 6, 12, 20000) == 1
