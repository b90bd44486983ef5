"""OpenStax University Physics: volume 2, motors (module m58481), wire (m58731), coils; volume 1, heat. Looked-up."""

import pytest

from guide_gen.formulas import coil, kickback
from guide_gen.formulas.motor import back_emf_V
from guide_gen.formulas.switch import conduction_W
from guide_gen.formulas.wire import awg_area_mm2, run_resistance_ohm
from guide_gen.published.tables import awg_diameter_mm


@pytest.mark.parametrize(("ampere", "back_emf", "heat_kW"), [(10, "100", "0.20"), (20, "80", "0.80")])
def test_a_motor_under_load(ampere, back_emf, heat_kW, printed):
    """120 V, 2.0 ohm."""
    assert back_emf_V(120, ampere, 2.0) == printed(back_emf)
    assert conduction_W(ampere, 2.0, 25) / 1000 == printed(heat_kW)


def test_12_AWG(printed):
    """2.053 mm and 3.31 mm²."""
    assert awg_diameter_mm(12) == printed("2.053")
    assert awg_area_mm2(12) == printed("3.31")


def test_five_metres_of_12_AWG(printed):
    """0.025 ohm with the book's 1.68e-8 ohm m."""
    assert run_resistance_ohm(1.68e-8 / (awg_area_mm2(12) * 1e-6), 5) == printed("0.025")


@pytest.mark.parametrize(
    ("constants", "ampere", "coil_V"),
    [
        (0, "0.00", "2.0"),
        (2, "0.43", "0.27"),
        (40, "0.50", "0.00"),
    ],
)
def test_a_coil_is_switched_on(constants, ampere, coil_V, printed):
    """Module m58752. 2.0 V, 4.0 ohm, 4.0 H: a time constant of 1.0 s."""
    assert coil.time_constant_s(4.0, 4.0) == printed("1.0")
    current = coil.current_A(2.0, 4.0, 4.0, constants * 1.0, 0)
    assert current == printed(ampere)
    assert 2.0 - 4.0 * current == printed(coil_V)


def test_half_of_the_current_and_a_hundredth_of_the_energy(printed):
    """The same coil shorted: half the current after 0.69 s; 1.0 % of the energy, a tenth of the current, at 2.3 s."""
    assert kickback.decay_time_s(4.0, 4.0, 0.50, 0.25, 0) == printed("0.69")
    tenth = kickback.decaying_current_A(4.0, 4.0, 0.50, 0, 2.3)
    assert coil.stored_energy_J(4.0, tenth) / coil.stored_energy_J(4.0, 0.50) * 100 == printed("1.0")


def test_a_time_constant_from_a_rise(printed):
    """Chapter 14: nine tenths of the current after 5.0 s: 2.2 s, and 43 H at 20 ohm."""
    henry = next(h / 100 for h in range(1000, 10000) if coil.time_to_current_s(20, 20, h / 100, 0.9) >= 5.0)
    assert henry == printed("43")
    assert coil.time_constant_s(henry, 20) == printed("2.2")


def test_copper_loss_of_a_winch(printed):
    """Module m58734. 115 V, 20.00 A, 4900 N by 10.00 m in 30.00 s: 2300 W in, 1633.33 W out, so 1.67 ohm."""
    out_W = 4900 * 10.00 / 30.00
    assert out_W == printed("1633.33")
    ohm = (115 * 20.00 - out_W) / 20.00**2
    assert ohm == printed("1.67")
    assert back_emf_V(115, 20.00, ohm) * 20.00 == pytest.approx(out_W)
    assert conduction_W(20.00, ohm, 25) == pytest.approx(2300 - out_W)


def test_heated_copper(printed):
    """Volume 1: 2.4 kJ into 0.50 kg of copper warm it by 12 K; the book's specific heat is 387, ours 385."""
    assert 2400 / coil.heat_capacity_J_per_K(0.50) == printed("12")
