"""A coil's rise, capacitors, a turning motor, and heat as a circuit, by simulation: formulas alone. Within 0.2 %."""

import pytest

from guide_gen.formulas import coil, fuse_opening, kickback, motor, pwm, switch

NEAR = 2e-3


# A coil switched on


def test_rise_time_energy_and_i2t_of_a_coil(netlist, tmp_path):
    """30 V, 6.5 ohm, 31 mH for 40 ms."""
    found = netlist.simulate(
        tmp_path,
        [*netlist.supply(30), *netlist.winding(6.5, 0.031, 0, 0, "plus", "0")],
        0.04,
        1e-5,
        {
            "at_3_ms": "find i(Lwind) at=3e-3",
            "at_40_ms": "find i(Lwind) at=39.99e-3",
            "to_2_A": "when i(Lwind)=2 rise=1",
            "supplied": "integ par('-30*i(Vsup)')",
            "i2t": "integ par('i(Vemf)*i(Vemf)')",
        },
    )
    assert found["at_3_ms"] == pytest.approx(coil.current_A(30, 6.5, 0.031, 3e-3, 0), rel=NEAR)
    assert found["at_40_ms"] == pytest.approx(coil.current_A(30, 6.5, 0.031, 39.99e-3, 0), rel=NEAR)
    assert found["to_2_A"] == pytest.approx(coil.time_to_current_s(30, 6.5, 0.031, 2), rel=NEAR)
    assert found["supplied"] == pytest.approx(coil.supplied_energy_J(30, 6.5, 0.031, 0.04), rel=NEAR)
    assert found["i2t"] == pytest.approx(fuse_opening.coil_pulse_A2s(30, 6.5, 0.031, 0.04), rel=NEAR)


def test_a_rise_from_a_current_that_flows_already(netlist, tmp_path):
    found = netlist.simulate(
        tmp_path,
        [*netlist.supply(15), *netlist.winding(2, 1, 0, 5, "plus", "0")],
        1,
        1e-3,
        {"later": "find i(Lwind) at=0.25"},
    )
    assert found["later"] == pytest.approx(coil.current_A(15, 2, 1, 0.25, 5), rel=NEAR)


def test_a_shorted_coil_keeps_its_current(netlist, tmp_path):
    found = netlist.simulate(
        tmp_path,
        [*netlist.winding(3, 7.5e-3, 0, 10, "a", "0"), "Vshort a 0 0"],
        0.01,
        1e-5,
        {"later": "find i(Lwind) at=5e-3"},
    )
    assert found["later"] == pytest.approx(kickback.decaying_current_A(7.5e-3, 3, 10, 0, 5e-3), rel=NEAR)


# Capacitors and motors


@pytest.mark.parametrize(("farad", "ohm"), [(0.01, 0.1), (0.0047, 0.35)])
def test_a_capacitor_into_a_fault(netlist, tmp_path, farad, ohm):
    """Its I2t over ten time constants."""
    end = 10 * farad * ohm
    found = netlist.simulate(
        tmp_path,
        [f"Cout a 0 {farad} ic=24", f"Rloop a b {ohm}", "Vfault b 0 0"],
        end,
        end / 5000,
        {"i2t": "integ par('i(Vfault)*i(Vfault)')"},
    )
    assert found["i2t"] == pytest.approx(fuse_opening.capacitor_A2s(farad, 24, ohm), rel=NEAR)


def _rotor(constant, inertia, friction, drag):
    """Speed as the voltage of a capacitor; torque flows into it, friction and drag out of it."""
    return [
        f"Bemf w2 0 v={constant}*v(speed)",
        f"Cturn speed 0 {inertia} ic=0",
        f"Bturn 0 speed i={constant}*i(Lwind)-{drag}*v(speed)*v(speed)-{friction}*tanh(v(speed)*1e3)",
    ]


def test_a_motor_speeds_up_to_its_steady_speed(netlist, tmp_path):
    found = netlist.simulate(
        tmp_path,
        [
            *netlist.supply(12),
            "Rwind plus w1 0.38",
            "Lwind w1 w2 0.55e-3 ic=0",
            *_rotor(0.045, 5e-4, 0.022, 4.6e-6),
        ],
        3,
        1e-3,
        {"speed": "find v(speed) at=2.999", "current": "find i(Lwind) at=2.999"},
    )
    speed = motor.steady_speed_rad_per_s(12, 0, 0.38, 0.045, 0.022, 4.6e-6)
    assert found["speed"] == pytest.approx(speed, rel=NEAR)
    assert found["current"] == pytest.approx(motor.running_current_A(12, 0, 0.38, 0.045, speed), rel=NEAR)


def test_the_i2t_of_a_motors_start(netlist, tmp_path):
    """Without friction its current dies out; an inductance of 10 uH hardly matters."""
    found = netlist.simulate(
        tmp_path,
        [
            *netlist.supply(12),
            "Rwind plus w1 0.38",
            "Lwind w1 w2 1e-5 ic=0",
            *_rotor(0.045, 5e-4, 0, 0),
        ],
        1,
        1e-4,
        {"i2t": "integ par('i(Vsup)*i(Vsup)')"},
    )
    assert found["i2t"] == pytest.approx(fuse_opening.motor_start_A2s(12, 0.38, 5e-4, 0.045), rel=NEAR)


def test_a_motor_under_pwm_turns_faster_than_its_duty_suggests(netlist, tmp_path):
    """200 Hz, 10 %: a simulated rotor settles within 1 % of the balance of mean torques; 3.5 Hz by its duty."""
    found = netlist.simulate(
        tmp_path,
        [
            *netlist.supply(12),
            "Rwind plus w1 0.38",
            "Lwind w1 w2 0.55e-3 ic=0",
            *[line.replace("w2 0 v", "w2 low v") for line in _rotor(0.045, 5e-5, 0.022, 4.6e-6)],
            *netlist.chopped_switch(200, 0.1),
            *netlist.clamp("free", "low", "plus", 0.4),
        ],
        0.8,
        2e-5,
        {"speed": "avg v(speed) from=0.7 to=0.8"},
    )
    speed = pwm.turning_speed_rad_per_s(12, 0, 0.1, 200, 0.38, 0.38, 0.55e-3, 0.4, 0.045, 0.022, 4.6e-6)
    assert found["speed"] == pytest.approx(speed, rel=0.01)
    assert speed > 2 * motor.angular_speed_rad_per_s(3.5 * 60)


# Heat, with kelvin as volts and watts as amperes


def test_a_coil_heats_to_its_limit_and_to_its_end(netlist, tmp_path):
    """12 V, 20 ohm, 30 J/K, 12 K/W in 40 °C."""
    final = coil.final_temperature_degC(12, 20, 12, 40)
    limit = 40 + 0.6 * (final - 40)
    found = netlist.simulate(
        tmp_path,
        [
            "Ccopper hot 0 30 ic=40",
            "Rair hot air 12",
            "Vair air 0 40",
            "Bheat 0 hot i=144/(20*(1+0.00393*(v(hot)-20)))",
        ],
        4000,
        1,
        {"final": "find v(hot) at=3999", "limit": f"when v(hot)={limit:.9g} rise=1"},
    )
    assert found["final"] == pytest.approx(final, rel=NEAR)
    assert found["limit"] == pytest.approx(coil.heating_time_s(12, 30, final, 40, 40, limit), rel=NEAR)


def test_a_stuck_coil_without_losses(netlist, tmp_path):
    """30 V, 6.5 ohm, 33 J/K, from 30 to 120 °C."""
    found = netlist.simulate(
        tmp_path,
        ["Ccopper hot 0 33 ic=30", "Rair hot 0 1e9", "Bheat 0 hot i=900/(6.5*(1+0.00393*(v(hot)-20)))"],
        40,
        0.01,
        {"limit": "when v(hot)=120 rise=1"},
    )
    assert found["limit"] == pytest.approx(coil.adiabatic_time_s(30, 6.5, 33, 30, 120), rel=NEAR)


def test_pulses_settle_at_their_peak(netlist, tmp_path):
    """138 W for 2 s of every 12 s, 8 K/W and 33 J/K in 40 °C."""
    found = netlist.simulate(
        tmp_path,
        [
            "Ccopper hot 0 33 ic=40",
            "Rair hot air 8",
            "Vair air 0 40",
            "Iheat 0 hot pulse(0 138 0 1e-3 1e-3 2 12)",
        ],
        3600,
        0.2,
        {"peak": "max v(hot) from=3400 to=3600"},
    )
    assert found["peak"] == pytest.approx(coil.settled_peak_degC(40, 138, 8, 8 * 33, 2, 10), rel=5e-3)


def test_a_switch_settles_where_its_own_heat_leaves_it(netlist, tmp_path):
    """6 A rms, 20 milliohm at 25 °C, 50 K/W, 0.3 W of switching in 45 °C."""
    found = netlist.simulate(
        tmp_path,
        [
            "Cdie hot 0 0.1 ic=45",
            "Rair hot air 50",
            "Vair air 0 45",
            "Bheat 0 hot i=0.3+36*0.020*(1+0.006*(v(hot)-25))",
        ],
        100,
        0.1,
        {"junction": "find v(hot) at=99.9"},
    )
    assert found["junction"] == pytest.approx(switch.junction_degC(45, 50, 0.3, 6, 0.020), rel=NEAR)


def test_a_coil_is_held_by_a_duty(netlist, tmp_path):
    """24 V, 30 ohm hot, 0.5 A through a 0.7 V diode at 1 kHz and 0.3 H: smooth, so within 0.5 %."""
    duty = coil.hold_duty(0.5, 30, 0.7, 24)
    found = netlist.simulate(
        tmp_path,
        [
            *netlist.supply(24),
            *netlist.winding(30, 0.3, 0, 0.5, "plus", "low"),
            *netlist.chopped_switch(1000, duty),
            *netlist.clamp("free", "low", "plus", 0.7),
        ],
        0.1,
        5e-6,
        {"held": "avg i(Lwind) from=0.08 to=0.1"},
    )
    assert found["held"] == pytest.approx(0.5, rel=5e-3)
