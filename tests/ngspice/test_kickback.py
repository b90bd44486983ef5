"""A coil that is switched off, by simulation: diode, diode and zener, resistor and capacitor, nothing. Within 0.1 %."""

import pytest

from guide_gen.formulas import coil, kickback

VOLT, OHM, HENRY, RELEASE = 24, 20, 0.06, 0.1
START = VOLT / OHM
OFF_S = 1e-3


def _switched_off(netlist, folder, parts, stop_s, measures):
    """The coil carries its full current from time 0 and is switched off at OFF_S."""
    lines = [
        *netlist.supply(VOLT),
        *netlist.winding(OHM, HENRY, 0, START, "plus", "low"),
        *netlist.opening_switch(OFF_S),
        *parts,
    ]
    return netlist.simulate(folder, lines, OFF_S + stop_s, stop_s / 5000, measures)


@pytest.mark.parametrize(("clamp_V", "stop_s"), [(0.7, 0.02), (0.7 + 24, 0.004), (0.7 + 47, 0.003)])
def test_a_diode_alone_and_with_a_zener(netlist, tmp_path, clamp_V, stop_s):
    found = _switched_off(
        netlist,
        tmp_path,
        netlist.clamp("free", "low", "plus", clamp_V),
        stop_s,
        {
            "peak": "max v(low)",
            "released": f"when i(Lwind)={RELEASE} fall=1",
            "energy": "integ par('v(low,plus)*i(Vfree)')",
        },
    )
    assert found["peak"] == pytest.approx(kickback.clamped_peak_V(VOLT, clamp_V), rel=1e-3)
    release_s = kickback.decay_time_s(HENRY, OHM, START, RELEASE, clamp_V)
    assert found["released"] - OFF_S == pytest.approx(release_s, rel=1e-3)
    taken = kickback.clamp_energy_J(clamp_V, clamp_V, HENRY, OHM, START)
    assert found["energy"] == pytest.approx(taken, rel=2e-3)


@pytest.mark.parametrize("avalanche_V", [60, 100])
def test_nothing_at_all_and_the_switch_avalanches(netlist, tmp_path, avalanche_V):
    found = _switched_off(
        netlist,
        tmp_path,
        netlist.clamp("bare", "low", "0", avalanche_V),
        0.004,
        {
            "peak": "max v(low)",
            "released": f"when i(Lwind)={RELEASE} fall=1",
            "energy": "integ par('v(low)*i(Vbare)')",
        },
    )
    assert found["peak"] == pytest.approx(avalanche_V, rel=1e-3)
    over = avalanche_V - VOLT
    assert found["released"] - OFF_S == pytest.approx(kickback.decay_time_s(HENRY, OHM, START, RELEASE, over), rel=1e-3)
    taken = kickback.clamp_energy_J(avalanche_V, over, HENRY, OHM, START)
    assert found["energy"] == pytest.approx(taken, rel=2e-3)
    assert taken < coil.stored_energy_J(HENRY, START) * avalanche_V / over


@pytest.mark.parametrize(
    ("farad", "series_ohm", "stop_s"),
    [
        (2.2e-6, 10, 0.004),
        (1e-5, 47, 0.01),
        (1e-5, 220, 0.01),
        (4.7e-4, 10, 0.1),
        (1e-3, 100, 0.2),
    ],
)
def test_resistor_and_capacitor_whether_they_ring_or_creep(netlist, tmp_path, farad, series_ohm, stop_s):
    parts = [f"Rsnub low sn {series_ohm}", f"Csnub plus sn {farad} ic={VOLT}"]
    found = _switched_off(
        netlist, tmp_path, parts, stop_s, {"peak": "max v(low)", "released": f"when i(Lwind)={RELEASE} fall=1"}
    )
    case = VOLT, START, HENRY, OHM, farad, series_ohm
    assert found["peak"] == pytest.approx(kickback.rc_peak_V(*case), rel=1e-3)
    assert found["released"] - OFF_S == pytest.approx(kickback.rc_release_s(*case, RELEASE), rel=1e-3)
