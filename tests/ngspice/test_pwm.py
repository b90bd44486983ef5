"""PWM with a freewheel diode, by simulation from standstill until it repeats. Means within 0.2 %, at 20 kHz 0.5 %."""

from math import ceil

import pytest

from guide_gen.formulas import pwm

VOLT, OHM, HENRY = 12, 0.38, 0.55e-3
STEPS = 500
"""In a period, at the least."""


def _settled(netlist, folder, frequency_Hz, duty, parts, measures):
    """Run for ten time constants and one period more, and measure that last period."""
    period = 1 / frequency_Hz
    start = ceil(10 * HENRY / OHM / period) * period
    lines = [*netlist.supply(VOLT), *netlist.chopped_switch(frequency_Hz, duty), *parts]
    span = f"from={start:.9g} to={start + period:.9g}"
    asked = {name: f"{how} {span}" for name, how in measures.items()}
    return netlist.simulate(folder, lines, start + period, period / STEPS, asked)


@pytest.mark.parametrize(
    ("frequency_Hz", "duty", "emf_V", "diode_V"),
    [
        (50, 0.06, 0, 0.4),
        (100, 0.1, 2, 0.4),
        (200, 0.1, 0, 0.8),
        (200, 0.5, 2, 0.8),
        (1000, 0.1, 0, 0.4),
        (1000, 0.3, 3, 0.8),
        (1000, 0.9, 6, 0.4),
        (4000, 0.2, 1, 0.4),
        (20000, 0.1, 0, 0.4),
        (20000, 0.4, 2, 0.8),
    ],
)
def test_mean_rms_and_peak(netlist, tmp_path, frequency_Hz, duty, emf_V, diode_V):
    parts = [
        *netlist.winding(OHM, HENRY, emf_V, 0, "plus", "low"),
        *netlist.clamp("free", "low", "plus", diode_V),
    ]
    found = _settled(
        netlist,
        tmp_path,
        frequency_Hz,
        duty,
        parts,
        {
            "meter": "avg i(Vport)",
            "heats": "rms i(Vport)",
            "diode": "avg i(Vfree)",
            "diode_heats": "rms i(Vfree)",
            "motor": "avg i(Lwind)",
            "peak": "max i(Lwind)",
        },
    )
    state = pwm.steady_state(VOLT, emf_V, duty, frequency_Hz, OHM, OHM, HENRY, diode_V)
    near = 2e-3 if frequency_Hz < 10000 else 5e-3
    assert found["meter"] == pytest.approx(state.switch_mean_A, rel=near)
    assert found["heats"] == pytest.approx(state.switch_rms_A, rel=near)
    assert found["diode"] == pytest.approx(state.diode_mean_A, rel=near)
    assert found["diode_heats"] == pytest.approx(state.diode_rms_A, rel=near)
    assert found["motor"] == pytest.approx(state.motor_mean_A, rel=near)
    assert found["peak"] == pytest.approx(state.peak_A, rel=near)


@pytest.mark.parametrize(("frequency_Hz", "duty", "avalanche_V"), [(200, 0.1, 60), (1000, 0.3, 40)])
def test_no_diode(netlist, tmp_path, frequency_Hz, duty, avalanche_V):
    parts = [
        *netlist.winding(OHM, HENRY, 0, 0, "plus", "low"),
        *netlist.clamp("bare", "low", "0", avalanche_V),
    ]
    found = _settled(
        netlist,
        tmp_path,
        frequency_Hz,
        duty,
        parts,
        {
            "watt": "avg par('v(low)*i(Vbare)')",
            "peak": "max i(Lwind)",
            "motor": "avg i(Lwind)",
        },
    )
    expected = pwm.without_diode(VOLT, 0, duty, frequency_Hz, OHM, HENRY, avalanche_V)
    assert found["watt"] == pytest.approx(expected.power_W, rel=2e-3)
    assert found["peak"] == pytest.approx(expected.peak_A, rel=2e-3)
    assert found["motor"] == pytest.approx(expected.motor_mean_A, rel=2e-3)


def test_a_dc_meter_finds_the_inductance(netlist, tmp_path):
    """Shaft held, 30 % at 200 Hz: from the simulated reading back to 0.55 mH within 1 %."""
    parts = [*netlist.winding(OHM, HENRY, 0, 0, "plus", "low"), *netlist.clamp("free", "low", "plus", 0.4)]
    found = _settled(netlist, tmp_path, 200, 0.3, parts, {"meter": "avg i(Vport)"})
    assert pwm.inductance_from_meter_H(found["meter"], VOLT, 0.3, 200, OHM, OHM, 0.4) == pytest.approx(HENRY, rel=0.01)
