"""Sums that component data sheets and course notes on parts print, without their makers. Looked-up."""

import pytest

from guide_gen.formulas import pwm, switch
from guide_gen.formulas.choice import smallest_at_or_above
from guide_gen.formulas.fuse import needed_by_continuous_A
from guide_gen.formulas.switch import conduction_W
from guide_gen.published.tables import fuse_series


def test_a_fuse_for_1_5_A_at_40_degC(printed):
    """1.5 / (0.70 x 0.95) = 2.255 as printed, so 2.5 A of the IEC row; our continuous share is 0.75 for their 0.70."""
    needed = needed_by_continuous_A(1.5 * 0.75 / 0.70, 0.95)
    assert needed == pytest.approx(2.255, abs=0.001)
    assert smallest_at_or_above(fuse_series("5 x 20 mm").ratings_A, needed, "A")[0] == 2.5


def test_a_switch_that_heats_a_60_W_load():
    """4.4 A at 13.5 V through 70 milliohm when hot: 1.35 W."""
    assert conduction_W(4.4, 0.070, 25) == pytest.approx(1.35, abs=0.01)


@pytest.mark.parametrize(("watt", "case", "junction"), [(3.9, "76", "88"), (6, "103", None)])
def test_a_transistor_on_a_heat_sink(watt, case, junction, printed):
    """13 K/W from case to air and 3.125 K/W inside, 25 °C."""
    assert switch.part_degC(25, watt, 13) == printed(case)
    if junction:
        assert switch.part_degC(25, watt, 13 + 3.125) == printed(junction)


def test_a_junction_is_found_by_going_round_three_times():
    """Take the resistance at the guessed temperature, Tj = P Rth + Ta, repeat: the closed form is where it ends."""
    guess = 25.0
    for _ in range(6):
        guess = switch.part_degC(40, switch.conduction_W(4.4, 0.040, guess), 50)
    assert switch.junction_degC(40, 50, 0, 4.4, 0.040) == pytest.approx(guess, abs=0.5)


@pytest.mark.parametrize(("percent", "volt", "mean"), [(75, 3.3, "2.48"), (50, 3.3, "1.65"), (42, 12, "5.04")])
def test_the_mean_of_a_chopped_voltage(percent, volt, mean, printed):
    """Into 1 ohm, smooth, with an ideal diode."""
    assert pwm.smooth_current_A(volt, 0, percent / 100, 1, 1, 0) == printed(mean)


def test_8_79_V_of_12_V_are_73_25_percent(printed):
    assert pwm.smooth_current_A(12, 0, 0.7325, 1, 1, 0) == printed("8.79")
