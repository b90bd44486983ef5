"""How hot a port's switch and a diode under PWM get: the figures, and the findings just past and just not."""

import re

import pytest

from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json

BOARD = {
    "boards.quay.switch_resistance": "10 mohm (datasheet)",
    "boards.quay.switch_thermal_resistance": "60 K/W (datasheet)",
    "boards.quay.port_current": "25 A",
    "boards.quay.board_current": "40 A",
}
ON_OFF = {"toys.bump.control": {"type": "on/off port", "board": "quay", "port": "2"}}
SCHOTTKY = {"type": "diode", "reverse_voltage": "40 V", "forward_current": "3 A"}


def draws(amps, **changes):
    return {"toys.bump.current": f"{amps} A (measured)"} | changes


def switch(case):
    """Heat and junction as the JSON has them."""
    port = plan_json(case.plan)["toys"]["bump"]["port"]
    return port.get("switch_W"), port["junction_degC"]


def suppressor(case):
    return plan_json(case.plan)["toys"]["bump"]["suppression"]


def iterated(air, thermal, switching, rms, ohm):
    """Junction and heat by going round: Tj = Ta + Rth P(Tj), 0.6 % a kelvin."""
    junction = air
    for _ in range(500):
        heat = switching + rms**2 * ohm * (1 + 0.006 * (junction - 25))
        junction = air + thermal * heat
    return junction, heat


# ---- the switch


def test_switch_that_is_only_on_has_the_heat_of_its_resistance(plan_of):
    """8 A, 10 mohm, 60 K/W, 40 °C: against going round heat and temperature."""
    junction, heat = iterated(40, 60, 0, 8, 0.010)
    found_W, found_degC = switch(plan_of(draws(8) | BOARD | ON_OFF))
    assert (found_W, found_degC) == (pytest.approx(heat), pytest.approx(junction))


def test_pwm_adds_the_heat_of_its_edges(plan_of):
    """Half of voltage times current at each edge (textbooks of power electronics): 12.6 V, 8 A, 1 us twice, 20 kHz."""
    edges = 12.6 * 8 * 2e-6 * 20e3 / 2
    junction, heat = iterated(40, 30, edges, 8, 0.010)
    case = plan_of(
        draws(8)
        | BOARD
        | {"boards.quay.pwm_frequency": "20 kHz", "boards.quay.switch_thermal_resistance": "30 K/W (datasheet)"}
    )
    found_W, found_degC = switch(case)
    assert found_W == pytest.approx(heat)
    assert found_degC["high"] == pytest.approx(junction)


def test_known_winding_at_a_low_frequency_heats_the_switch_more(plan_of):
    """Its current comes in pulses then: more rms than the full current."""
    motor = {"toys.bump.motor": {"resistance": "0.3 ohm (measured)"}, "boards.quay.pwm_frequency": "50 Hz"}
    unknown, known = (plan_of(draws(5.5) | BOARD | more) for more in ({}, motor))
    assert switch(known)[0] > 1.2 * switch(unknown)[0]


def test_figure_for_a_warm_switch_is_taken_back_to_cold(plan_of):
    """16 mohm at 125 °C are 10 mohm at 25 °C by 0.6 % a kelvin."""
    cold = plan_of(draws(8) | BOARD | ON_OFF)
    warm = plan_of(
        draws(8)
        | BOARD
        | ON_OFF
        | {"boards.quay.switch_resistance": "16 mohm (datasheet)", "boards.quay.switch_resistance_at": "125 °C"}
    )
    assert switch(warm)[0] == pytest.approx(switch(cold)[0])
    assert switch(warm)[1] == pytest.approx(switch(cold)[1])


def test_ranges_of_the_board_give_a_range(plan_of):
    """Each end with its own end of current and cooling."""
    wide = {"boards.quay.switch_thermal_resistance": "50 K/W to 65 K/W (datasheet)"}
    _, found = switch(plan_of({"toys.bump.current": "5 A to 6 A (measured)"} | BOARD | ON_OFF | wide))
    assert found["low"] == pytest.approx(iterated(40, 50, 0, 5, 0.010)[0])
    assert found["high"] == pytest.approx(iterated(40, 65, 0, 6, 0.010)[0])


def test_pulses_heat_the_switch_by_their_rms(any_toy):
    """10 A for 30 ms every 2 s and more: 10 A times the root of 0.03/2.03 at most."""
    case = any_toy(
        "knocker",
        "on/off port",
        BOARD
        | {
            "toys.bump.current": "10 A (measured)",
            "toys.bump.pulse": {"on_time": "30 ms", "off_time": "2 s"},
            "supplies.main.voltage_range": "12 V to 12 V",
        },
    )
    rms = next(float(one.result) for one in case.toy.worked if one.id == "port.rms")
    assert rms == pytest.approx(10 * (0.03 / 2.03) ** 0.5, rel=0.01)
    assert switch(case)[0] == pytest.approx(iterated(40, 60, 0, rms, 0.010)[1])


# 60 K/W, 10 mohm, 40 °C: 125 °C at sqrt(85/60/0.016) = 9.41 A.
@pytest.mark.parametrize(("amps", "told"), [(9.4, False), (9.43, True)])
def test_switch_above_its_limit_must_be_fixed(plan_of, amps, told):
    case = plan_of(draws(amps) | BOARD | ON_OFF)
    assert ("port-overloaded" in case.codes) == told
    if told:
        finding = case.finding("port-overloaded")
        assert finding.level is Level.MUST
        assert "126\u00a0°C" in finding.message
        assert "9.4\u00a0A" in finding.expected  # what just does, rounded down
        assert case.at(finding) == "'2'"


def test_switch_that_heats_itself_without_end_has_no_figure(plan_of):
    """60 K/W x I² 10 mohm x 0.006 reaches 1 at 16.7 A."""
    case = plan_of(draws(17) | BOARD | ON_OFF)
    assert "without end" in case.finding("port-overloaded").message
    port = plan_json(case.plan)["toys"]["bump"]["port"]
    assert "switch_W" not in port
    assert "junction_degC" not in port


def test_what_rests_on_usual_values_is_asked_about(plan_of):
    """Within what the board's maker allows: the board's own values are asked for, and its page is not held back."""
    usual = {key: value for key, value in BOARD.items() if "switch" not in key}
    finding = plan_of(draws(9.5) | usual | ON_OFF).finding("port-overloaded")
    assert finding.level is Level.SHOULD
    assert "switch_thermal_resistance" in finding.mend
    assert "port-overloaded" not in plan_of(draws(8) | usual | ON_OFF).codes


def test_even_the_best_usual_switch_is_too_hot(plan_of):
    """20 A in 5 mohm and 50 K/W pass 125 °C too."""
    usual = {key: value for key, value in BOARD.items() if "switch" not in key}
    assert plan_of(draws(20) | usual | ON_OFF).finding("port-overloaded").level is Level.MUST


def test_load_beyond_the_port_is_told_once(plan_of):
    assert plan_of(draws(12) | ON_OFF).codes.count("port-overloaded") == 1


def test_cooler_ports_carry_more(plan_of):
    """What the mend proposes is enough: at most that many kelvin a watt."""
    hot = plan_of(draws(12) | BOARD | ON_OFF).finding("port-overloaded")
    cooling = hot.mend.partition("switch_thermal_resistance of at most ")[2].partition("\u00a0")[0]
    mended = {"boards.quay.switch_thermal_resistance": f"{cooling} K/W (datasheet)"}
    assert "port-overloaded" not in plan_of(draws(12) | BOARD | ON_OFF | mended).codes


FAST = {"boards.quay.pwm_frequency": "20 kHz", "boards.quay.port_current": "10 A"}


def read(text, key):
    """The value that a mend names for a key of the board, as it is written in a description."""
    value = text.partition(f"{key} of at most ")[2]
    return re.match(r"[\d.]+\s\S+?(?=[,.;]?(\s|$))", value).group().replace("\u00a0", " ").replace("Ω", "ohm")


@pytest.mark.parametrize("amps", [4.2, 6.0])
def test_current_that_is_expected_keeps_the_switch_just_cool(plan_of, amps):
    """Its switching heat goes with the current too, so that it is not told 0 A: just that passes, 2 % more does not."""
    told = plan_of(draws(amps) | FAST).finding("port-overloaded")
    most = float(told.expected.partition("switch, ")[2].partition("\u00a0")[0])
    assert 4.0 < most < 4.2
    assert "port-overloaded" not in plan_of(draws(most) | FAST).codes
    assert "port-overloaded" in plan_of(draws(1.02 * most) | FAST).codes


@pytest.mark.parametrize(
    ("amps", "more", "ways"),
    [
        (6.0, {}, {"switch_thermal_resistance", "switching_time", "pwm_frequency"}),
        (4.2, {}, {"switch_thermal_resistance", "switch_resistance", "switching_time", "pwm_frequency"}),
        (11.0, {"boards.quay.port_current": "15 A"}, {"switch_thermal_resistance"}),
        (
            4.2,
            {"toys.bump.motor": {"resistance": "0.5 ohm (measured)"}},
            {"switch_thermal_resistance", "switch_resistance", "switching_time", "pwm_frequency"},
        ),
    ],
)
def test_each_value_that_a_mend_names_is_enough_alone(plan_of, amps, more, ways):
    """By planning with it; a way that is not enough at any value is not named."""
    told = plan_of(draws(amps) | FAST | more).finding("port-overloaded")
    named = set(re.findall(r"(\w+) of at most", told.mend))
    assert named == ways
    for key in named:
        mended = {f"boards.quay.{key}": f"{read(told.mend, key)} (datasheet)".replace("kHz (datasheet)", "kHz")}
        assert "port-overloaded" not in plan_of(draws(amps) | FAST | more | mended).codes, key


def test_what_decides_is_named(plan_of):
    """1.51 W of 12.6 V, 6 A, 20 kHz and twice 1 us."""
    told = plan_of(draws(6) | FAST).finding("port-overloaded")
    assert "Most of it, 1.51\u00a0W" in told.message
    assert "1\u00a0μs, an estimate" in told.message
    on = plan_of(draws(9.5) | ON_OFF | {"boards.quay.port_current": "25 A"}).finding("port-overloaded")
    assert "turning on and off" not in on.message
    assert "switching_time" not in on.mend


def test_heat_that_rests_on_a_usual_switching_time_is_asked_about(plan_of):
    """Resistance and thermal resistance are described, the time is not: no more than a should."""
    own = {
        "boards.quay.switch_resistance": "1 mohm (datasheet)",
        "boards.quay.switch_thermal_resistance": "65 K/W (datasheet)",
    }
    told = plan_of(draws(6) | FAST | own).finding("port-overloaded")
    assert told.level is Level.SHOULD
    assert "switching_time of the board first" in told.mend
    timed = {"boards.quay.switching_time": "1 us (datasheet)"}
    assert plan_of(draws(6) | FAST | own | timed).finding("port-overloaded").level is Level.MUST


def test_larger_rating_that_does_not_cool_the_switch_says_so(plan_of):
    """9 A ask for a port of 11.3 A, and heat a usual switch past its limit all the same."""
    told = plan_of(draws(9) | {"boards.quay.pwm_frequency": "1 kHz"}).finding("port-overloaded")
    assert "11.3\u00a0A" in told.mend
    assert "higher rating alone is not enough" in told.mend
    both = {
        "boards.quay.pwm_frequency": "1 kHz",
        "boards.quay.port_current": "11.3 A",
        "boards.quay.switch_thermal_resistance": f"{read(told.mend, 'switch_thermal_resistance')} (datasheet)",
    }
    assert "port-overloaded" not in plan_of(draws(9) | both).codes
    assert "alone" not in plan_of(draws(8.1)).finding("port-overloaded").mend


def test_one_junction_is_told_everywhere(plan_of):
    """Finding and page round alike; what no part lasts is given as no figure in the JSON."""
    case = plan_of(draws(6) | FAST)
    shown = re.search(r"would reach ([\d.]+)", case.finding("port-overloaded").message).group(1)
    high = plan_json(case.plan)["toys"]["bump"]["port"]["junction_degC"]["high"]
    assert round(high) == int(shown)
    assert any(f"up to {shown}\u00a0°C" in note for note in case.toy.words.notes)
    gone = plan_of(draws(25) | {"boards.quay.port_current": "10 A"})
    assert "junction_degC" not in plan_json(gone.plan)["toys"]["bump"]["port"]
    assert "without end" in gone.finding("port-overloaded").mend


def test_page_says_how_hot_switch_and_diode_get(plan_of):
    """In the notes beside the circuit, and among the worked values."""
    case = plan_of(draws(6))
    notes = " ".join(case.toy.words.notes)
    assert "Q1 turns up to" in notes
    assert "D1 carries up to" in notes
    assert {"port.heat", "port.junction", "suppressor.heat", "suppressor.junction"} <= {
        one.id for one in case.toy.worked
    }


def test_switch_of_a_signal_is_worked_out_and_not_spoken_of(plan_of, with_controller):
    case = plan_of(with_controller())
    assert switch(case)[0] < 1e-3
    assert not any("Q1 turns" in note for note in case.toy.words.notes)


# ---- the diode


def test_diode_of_an_unknown_winding_is_sized_by_half_the_current(plan_of):
    """6 A at 12 V: a Schottky diode of 40 V and 3 A; its drop by its registration (JEDEC), 0.525 V at 3 A."""
    found = suppressor(plan_of(draws(6)))
    assert (found["class"], found["mean_A"]) == ("1N5822", 3.0)
    assert found["heat_W"] == pytest.approx(3 * 0.525)
    assert found["junction_degC"]["high"] == pytest.approx(40 + 3 * 0.525 * 53)
    assert found["junction_degC"]["high"] <= 125


def test_known_winding_gives_the_mean_of_its_worst_setting(plan_of):
    """Usual friction, up to 0.6 of the torque: about half the current; a weight that was on a scale has far less."""
    known = {"toys.bump.motor": {"resistance": "0.3 ohm (measured)", "speed": "2100 rpm (measured)"}}
    scale = {"toys.bump.weight": {"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"}}}
    usual, easy = (suppressor(plan_of(draws(5.5) | known | more))["mean_A"] for more in ({}, scale))
    assert 0.3 * 5.5 < usual < 0.6 * 5.5
    assert easy < 0.5 * usual


def test_gear_motor_asks_more_of_its_diode_than_a_shaker(any_toy):
    """What it lifts asks for the same torque at any speed."""
    means = [
        suppressor(
            any_toy(
                kind,
                "pwm port",
                {"toys.bump.current": "2 A (measured)", "toys.bump.motor": {"resistance": "1 ohm (measured)"}},
            )
        )["mean_A"]
        for kind in ("gear motor", "shaker motor")
    ]
    assert means[0] > 1.2 * means[1]


def test_peaks_that_repeat_ask_for_a_surge_class(plan_of):
    """At 50 Hz the pulses of a strong motor are several times its current."""
    known = draws(1.5) | {"toys.bump.motor": {"resistance": "0.5 ohm (measured)"}}
    slow, fast = (plan_of(known | {"boards.quay.pwm_frequency": hertz}).toy.worked for hertz in ("50 Hz", "20 kHz"))
    surge = [next(float(one.result) for one in worked if one.id == "suppressor.surge") for worked in (slow, fast)]
    assert surge[0] > 3 * surge[1]


def test_diode_that_no_class_carries_cool_enough_gets_a_heat_sink(plan_of):
    """60 °C of air leave 65 K: 3 A class by registration would reach 143 °C."""
    found = suppressor(plan_of(draws(6) | {"wiring.inside_temperature": "60 °C", "wiring.insulation": "90 °C"}))
    assert "class" not in found
    assert "heat sink" in found["part"]
    assert found["cooling_K_per_W"] == pytest.approx(65 / found["heat_W"])
    assert "junction_degC" not in found


# 3 A of mean, 0.5 V: 1.5 W; 85 K allow 56.7 K/W.
@pytest.mark.parametrize(("thermal", "told"), [("56 K/W", False), ("57 K/W", True)])
def test_stated_diode_that_gets_too_hot_must_be_fixed(plan_of, thermal, told):
    stated = SCHOTTKY | {"forward_voltage": "0.5 V", "thermal_resistance": thermal}
    case = plan_of(draws(6) | {"toys.bump.suppressor": stated})
    assert ("suppressor-too-small" in case.codes) == told
    if told:
        finding = case.finding("suppressor-too-small")
        assert finding.level is Level.MUST
        assert "56.6\u00a0K/W" in finding.mend


def test_stated_silicon_diode_of_unknown_make_is_asked_about(plan_of):
    """50 V means no Schottky class; 1.0 V and 53 K/W would be too much, 0.35 V and 28 K/W would not."""
    case = plan_of(draws(6) | {"toys.bump.suppressor": SCHOTTKY | {"reverse_voltage": "50 V"}})
    assert case.finding("suppressor-too-small").level is Level.SHOULD


# A hundredth of a period of 5 kHz is 2 us: common practice, no source.
@pytest.mark.parametrize(("time", "told"), [("2 us", False), ("2.1 us", True)])
def test_diode_that_stops_too_slowly_for_the_frequency(plan_of, time, told):
    case = plan_of(
        draws(2) | {"boards.quay.pwm_frequency": "5 kHz", "toys.bump.suppressor": SCHOTTKY | {"recovery_time": time}}
    )
    assert ("suppressor-too-slow" in case.codes) == told
    if told:
        finding = case.finding("suppressor-too-slow")
        assert finding.level is Level.SHOULD
        assert "2\u00a0\u03bcs" in finding.expected
        assert case.at(finding).startswith("2.1 us")


def test_recovery_heats_the_diode(plan_of):
    """Half of t_rr I_pk V f more (textbooks of power electronics)."""
    quick, slow = (
        suppressor(
            plan_of(
                draws(2)
                | {
                    "boards.quay.pwm_frequency": "10 kHz",
                    "toys.bump.suppressor": SCHOTTKY | {"forward_voltage": "0.5 V"} | more,
                }
            )
        )["heat_W"]
        for more in ({}, {"recovery_time": "1 us"})
    )
    assert slow - quick == pytest.approx(1e-6 * 2 * 12.6 * 10e3 / 2)


# ---- what else PWM burns

COIL = {
    "toys.bump.current": "0.6 A (measured)",
    "toys.bump.coil": {"resistance": "20 ohm (measured)", "inductance": "60 mH (datasheet)"},
    "supplies.main.voltage_range": "12 V to 12 V",
    "boards.quay.port_voltage": "60 V",
}


def burns(finding):
    """The watts of a message."""
    return float(finding.message.replace("\u00a0", " ").partition("about ")[2].partition(" W")[0])


def test_nothing_under_pwm_burns_the_supply_share_too(any_toy):
    """A coil at 10 kHz keeps a smooth current: what leaves it is charge times the 60 V at which the switch breaks."""
    bare = {"toys.bump.suppressor": "none", "boards.quay.pwm_frequency": "10 kHz"}
    finding = any_toy("contactor", "pwm port", COIL | bare).finding("suppressor-missing")
    # Means of voltage: D 12 = (1-D) 48 + 20 I; the mean through the switch while it breaks is (1-D) I.
    settings = [step / 20 for step in range(1, 21)]
    smooth = [max(0.0, duty * 12 - (1 - duty) * 48) / 20 * (1 - duty) for duty in settings]
    assert burns(finding) == pytest.approx(60 * max(smooth), rel=0.05)


def test_nothing_on_an_on_off_port_names_no_watts(plan_of):
    """It is switched now and then only."""
    message = plan_of(ON_OFF | {"toys.bump.suppressor": "none"}).finding("suppressor-missing").message
    assert " W" not in message


def test_zener_under_pwm_is_told_with_its_watts(any_toy):
    """The same coil against 24.7 V: 24 V times the mean through the zener."""
    pair = {"toys.bump.suppressor": "diode and zener", "boards.quay.pwm_frequency": "10 kHz"}
    finding = any_toy("contactor", "pwm port", COIL | pair).finding("suppressor-too-small")
    settings = [step / 20 for step in range(1, 21)]
    smooth = [max(0.0, duty * 12 - (1 - duty) * 24.7) / 20 * (1 - duty) for duty in settings]
    assert finding.level is Level.MUST
    assert burns(finding) == pytest.approx(24 * max(smooth), rel=0.05)


def test_rc_under_pwm_is_told_with_its_watts(any_toy):
    """f (C V² + L I²/2): OpenStax University Physics 2, energies of capacitor and inductor."""
    pair = {"toys.bump.suppressor": {"type": "rc", "capacitance": "10 uF", "resistance": "22 ohm"}}
    finding = any_toy("contactor", "pwm port", COIL | pair).finding("suppressor-too-small")
    assert finding.level is Level.MUST
    assert burns(finding) == pytest.approx(200 * (10e-6 * 12**2 + 0.06 * 0.6**2 / 2), rel=0.01)
    assert "suppressor-too-small" not in any_toy("contactor", "on/off port", COIL | pair).codes


def test_question_of_the_diode_names_part_current_and_heat(plan_of):
    answer = next(one for one in plan_of(draws(6)).toy.questions if one.id == "diode-pwm").answer.replace("\u00a0", " ")
    assert "Schottky diode 40 V 3 A" in answer
    assert "up to 3 A" in answer
    assert "1.58 W" in answer
