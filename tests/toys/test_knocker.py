"""The knocker: how long its coil may be on, what saves it, and each finding just past and just at its limit.

Heat: C dT/dt = V²/R(T) with R(T) by IEC 60028, stepped here; opening times by the gates of ISO 8820-3 (from memory).
"""

import re
from math import isinf

import pytest

from guide_gen.model.finding import Level
from guide_gen.planning.as_json import plan_json

ALPHA, SPECIFIC_HEAT, DENSITY, RESISTIVITY = 0.00393, 385.0, 8960.0, 1.7241e-8  # copper, IEC 60028 and handbook values

# 30 V, 6.5 ohm, 0.45 mm bare copper, class B, 30 °C inside.
BASE = {
    "build": "Tidepool",
    "wiring": {"ampacity_table": "IEC 60204-1", "bundled_circuits": "1", "inside_temperature": "30 °C"},
    "cabinet": {"floor": {"material": "plywood", "thickness": "18 mm"}},
    "supplies": {
        "main": {"voltage": "30 V", "voltage_range": "30 V to 30 V", "current": "20 A", "overload": "restarts"}
    },
    "boards": {
        "quay": {
            "ports": "16",
            "port_current": "10 A",
            "board_current": "30 A",
            "port_voltage": "60 V",
            "pwm_frequency": "200 Hz",
        }
    },
    "toys": {
        "knock": {
            "kind": "knocker",
            "voltage": "30 V",
            "current": "4.615 A (measured)",
            "coil": {
                "resistance": "6.5 ohm (measured)",
                "inductance": "30 mH (datasheet)",
                "wire_diameter": "0.45 mm (measured)",
                "outer_diameter": "40 mm",
                "length": "60 mm",
                "insulation_class": "B",
            },
            "pulse": {"on_time": "40 ms", "off_time": "20 s"},
            "end_stop": "yes",
            "time_limit": {"by": "board", "after": "200 ms"},
            "control": {"type": "on/off port", "board": "quay", "port": "2"},
            "feed": {"run": "0.5 m"},
        }
    },
}  # fmt: skip


@pytest.fixture(name="knock", scope="module")
def _knock(plan_of):
    return lambda changes=None: plan_of({f"toys.knock.{key}": value for key, value in (changes or {}).items()}, BASE)


def _worked(case, id):
    return next(one for one in case.toy.worked if one.id == id)


def _level(case, code):
    return case.finding(code).level


def _stepped_s(start_degC, limit_degC, volts, ohm, capacity):
    """Time to a limit by small steps: the same equation, another way."""
    degC, seconds, step = start_degC, 0.0, 0.001
    while degC < limit_degC:
        degC += step * volts**2 / (ohm * (1 + ALPHA * (degC - 20))) / capacity
        seconds += step
    return seconds


def test_sound_knocker_has_nothing_to_mend(knock):
    """With all that is asked for and no pause too short."""
    assert [finding.code for finding in knock().plan.findings] == []


def test_copper_and_time_of_the_printed_example(knock):
    """85 g, 138 W, 26 s from 30 to 120 °C; checked by stepping the heating equation."""
    case = knock({"pulse.off_time": "30 min"})
    area = 3.14159265 / 4 * 0.45e-3**2
    mass = DENSITY * 6.5 * area**2 / RESISTIVITY
    assert _worked(case, "coil.copper").result == pytest.approx(mass, rel=1e-3)
    assert mass == pytest.approx(0.085, abs=0.001)
    assert _worked(case, "coil.power").result == pytest.approx(138, abs=1)
    stepped = _stepped_s(30, 120, 30, 6.5, SPECIFIC_HEAT * mass)
    assert case.toy.pulse.longest_on_s == pytest.approx(stepped, rel=5e-3)
    assert stepped == pytest.approx(26, abs=0.5)


def test_hot_coil_draws_less(knock):
    """Cold 30 V over 6.5 ohm; at 120 °C a resistance of 1 + 0.00393 x 100 times as much (IEC 60028)."""
    case = knock()
    assert _worked(case, "coil.cold").result == pytest.approx(30 / 6.5)
    assert _worked(case, "coil.hot").result == pytest.approx(30 / (6.5 * 1.393))


def test_pulse_heat_counts_the_rise_of_the_current(knock):
    """0.70 A²s for 40 ms; a rectangle, 0.85 A²s, where the inductance is not known."""
    assert _worked(knock(), "coil.pulse-heat").result == pytest.approx(0.70, abs=0.01)
    assert _worked(knock({"coil.inductance": None}), "coil.pulse-heat").result == pytest.approx((30 / 6.5) ** 2 * 0.04)


@pytest.mark.parametrize(
    ("fuse", "word"),
    [("4 A", "may never open"), ("3 A", "too late"), ("2 A", "tires")],
)
def test_no_fuse_stands_the_pulses_and_saves_the_coil(knock, fuse, word):
    """The printed window: 4 A may never open, 3 A opens too late, 2 A tires at 1e5 pulses of 0.70 A²s."""
    window = _worked(knock({"coil.outer_diameter": None}), "coil.window")
    assert window.result == "none"
    assert word in next(one.rejected for one in window.candidates if one.value.replace("\u00a0", " ") == fuse)


def test_window_is_open_where_pulses_are_short(knock):
    """5 ms are too little heat to tire 2 A, which opens within the 26 s: said, and still below the usual margin."""
    case = knock({"pulse.on_time": "5 ms", "time_limit": None})
    assert "2" in str(_worked(case, "coil.window").result)
    assert "below the usual margin" in case.finding("stuck-on-unprotected").mend


def test_a_fuse_by_the_margin_never_opens_on_a_coil_that_stays_on(knock):
    """At 1 / 1.5 of its rating or less: below 1.1 times ISO 8820-3 promises that it holds."""
    case = knock()
    assert case.toy.sized.fuse.rating_A == 7.5
    assert isinf(case.toy.pulse.fuse_opens_s)
    assert plan_json(case.plan)["toys"][case.toy.slug]["pulse"]["fuse_opens_s"] == "never"
    assert "may never" in _worked(case, "coil.fuse-opens").result


# ---- stuck on -------------------------------------------------------------------------------------------------------


def test_coil_without_a_time_limit_is_unprotected(knock):
    """The mend names a limit and a temperature."""
    finding = knock({"time_limit": None}).finding("stuck-on-unprotected")
    assert finding.level is Level.MUST
    assert "may never open" in finding.message
    assert "after: 200 ms" in finding.mend
    assert "120" in finding.mend


@pytest.mark.parametrize(("after", "saved"), [("25 s", "board"), ("26.5 s", "nothing")])
def test_a_board_must_end_it_before_the_coil_is_too_hot(knock, after, saved):
    """Just below and just past the time that the coil stands, from its settled peak: about 25.5 s."""
    case = knock({"time_limit.after": after, "pulse.off_time": "600 s"})
    assert case.toy.pulse.saved_by == saved
    assert ("stuck-on-unprotected" in case.codes) == (saved == "nothing")


@pytest.mark.parametrize(("opens_at", "saved"), [("120 °C", "coil"), ("121 °C", "nothing")])
def test_a_thermal_cut_out_must_open_below_the_limit_of_the_winding(knock, opens_at, saved):
    """Class B less 10 K for its hottest spot (IEC 60085; allowance common practice, no source)."""
    case = knock({"time_limit": {"by": "coil", "after": None, "opens_at": opens_at}})
    assert case.toy.pulse.saved_by == saved
    assert ("stuck-on-unprotected" in case.codes) == (saved == "nothing")


def test_a_board_limit_without_a_time_is_none(knock):
    """Nobody knows when it ends the pulse."""
    case = knock({"time_limit.after": None})
    assert "not described" in case.finding("stuck-on-unprotected").message


def test_a_fuse_that_opens_in_time_saves(knock):
    """2 A at 4.44 A is 2.2 times its rating: within 5 s by ISO 8820-3, and the coil stands 26 s."""
    case = knock({"time_limit": None, "feed.fuse": {"rating": "2 A"}})
    assert case.toy.pulse.saved_by == "fuse"
    assert case.toy.pulse.fuse_opens_s < 5
    assert "stuck-on-unprotected" not in case.codes


def test_a_coil_that_stays_cool_needs_nothing(knock):
    """A tenth of an ampere from the same coil body: it never reaches its limit."""
    case = knock({"time_limit": None, "current": "0.1 A (measured)", "coil.resistance": "300 ohm (measured)"})
    assert case.toy.pulse.saved_by == "cool"
    assert case.toy.pulse.longest_on_s is None
    assert "stuck-on-unprotected" not in case.codes


# ---- pulses ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("on_time", "told"), [("25.9 s", False), ("26.2 s", True)])
def test_one_pulse_may_last_as_long_as_the_copper_stands(knock, on_time, told):
    """About 26 s from 30 °C; its surface left out, so that pauses do not count."""
    alone = {"pulse.off_time": "60 min", "coil.outer_diameter": None, "time_limit.after": "30 s"}
    case = knock({"pulse.on_time": on_time} | alone)
    assert ("pulse-too-long" in case.codes) == told
    if told:
        assert case.at(case.finding("pulse-too-long")).startswith("26.2 s")


def test_pause_must_let_the_coil_cool(knock):
    """Just at the shortest pause that is told, and a little below: 60 °C burn the skin (ISO 13732-1, from memory)."""
    shortest = knock().toy.pulse.pause_s
    enough = knock({"pulse.off_time": f"{shortest:g} s"})
    assert enough.codes == []
    assert enough.toy.pulse.peak_degC == pytest.approx(59.5, abs=0.1)
    short = knock({"pulse.off_time": f"{0.97 * shortest:.4g} s"}).finding("surface-hot")
    hot = knock({"pulse.off_time": "500 ms"}).finding("pulse-too-long")
    assert hot.level is Level.MUST
    for mend in (short.mend, hot.mend):
        assert f"wait {shortest:g}\u00a0s or more" in mend


def test_pulses_that_are_too_hot_leave_no_time_at_all(knock):
    """From the hottest start, the settled peak (this project): it is above the limit, so 0, and 0 s stuck on."""
    case = knock({"pulse.off_time": "500 ms"})
    assert case.toy.pulse.peak_degC > 120
    assert case.toy.pulse.longest_on_s == 0
    assert case.toy.pulse.stuck_on_safe_s == 0
    assert "no pulse at this repetition" in _worked(case, "coil.longest-on").sentence
    assert any("No pulse at this repetition" in note for note in case.toy.tuning_notes)
    assert case.codes.count("pulse-too-long") == 1
    assert "stuck-on-unprotected" not in case.codes


def test_the_hottest_start_is_the_settled_peak(knock):
    """A warmer start leaves less time: C dT/dt = V²/R(T) in closed form, R(T) by IEC 60028."""
    cool, warm = knock({"pulse.off_time": "60 s"}).toy.pulse, knock({"pulse.off_time": "2 s"}).toy.pulse
    assert cool.peak_degC < warm.peak_degC < 120
    squares = [(1 + ALPHA * 100) ** 2 - (1 + ALPHA * (one.peak_degC - 20)) ** 2 for one in (cool, warm)]
    assert warm.longest_on_s / cool.longest_on_s == pytest.approx(squares[1] / squares[0], rel=1e-6)


@pytest.mark.parametrize(("after", "told"), [("40 ms", False), ("39 ms", True)])
def test_limit_shorter_than_the_pulse_cuts_it(knock, after, told):
    """Two keys that contradict each other (this project): the shorter one holds."""
    case = knock({"time_limit.after": after})
    assert ("pulse-too-long" in case.codes) == told
    assert any("are cut: the board ends each after" in note for note in case.toy.tuning_notes) == told
    if told:
        finding = case.finding("pulse-too-long")
        assert "ends every pulse after 39\u00a0ms" in finding.message
        assert "Write time_limit: {by: board, after: 200 ms}" in finding.mend
        assert case.at(finding).startswith("40 ms")


def test_settled_peak_is_that_of_many_pulses(knock):
    """Stepped pulse by pulse at the cold power, with the exponential cooling of one lump."""
    from math import exp

    case = knock({"pulse.off_time": "500 ms"})
    capacity = _worked(case, "coil.capacity").result
    thermal = _worked(case, "coil.thermal").result
    power, constant, rise = 30**2 / 6.5, thermal * capacity, 0.0
    for _ in range(20000):
        rise = power * thermal + (rise - power * thermal) * exp(-0.04 / constant)
        peak, rise = rise, rise * exp(-0.5 / constant)
    assert case.toy.pulse.peak_degC == pytest.approx(30 + peak, abs=0.01)


@pytest.mark.parametrize(
    ("off_time", "level"),
    [("3.1 s", None), ("2.95 s", Level.SHOULD), ("1.7 s", Level.SHOULD), ("1.55 s", Level.MUST)],
)
def test_surface_is_told_by_degree(knock, off_time, level):
    """138 W at 40 ms through 16.6 K/W: 60 °C at a period of 3.06 s, 85 °C at 1.67 s (ISO 13732-1, from memory)."""
    case = knock({"pulse.off_time": off_time})
    assert [one.level for one in case.plan.findings if one.code == "surface-hot"] == ([level] if level else [])


def test_knocker_that_is_always_on_is_told(knock):
    """No port ends its pulse."""
    finding = knock({"control": {"type": "always on"}}).finding("pulse-too-long")
    assert finding.level is Level.MUST
    assert "as long as its supply" in finding.message


# ---- the rest -------------------------------------------------------------------------------------------------------


def test_end_stop_is_asked_for_before_power(knock):
    """Without one the plunger flies: must fix, and a warning at the head."""
    case = knock({"end_stop": "no"})
    assert _level(case, "end-stop-missing") is Level.MUST
    assert case.at(case.finding("end-stop-missing")) == "'no'"
    assert "plunger-exit" in {caution.id for caution in case.toy.cautions if caution.grouped}
    assert "end-stop-missing" not in knock().codes


def test_unknown_coil_says_what_to_measure(knock):
    """Diameter of the wire, size of the winding, pulses: each a note of its own."""
    case = knock({"coil": None, "pulse": None})
    told = " ".join(finding.message for finding in case.plan.findings if finding.code == "not-worked-out")
    for key in ("wire_diameter", "outer_diameter", "pulses"):
        assert key in told
    assert case.toy.pulse.longest_on_s is None


def test_estimate_that_decides_is_named(knock):
    """Its inductance, told once."""
    case = knock({"coil.inductance": "30 mH (estimate)"})
    assert "the coil's inductance" in case.finding("estimate-used").message
    assert "estimate-used" not in knock().codes


@pytest.mark.parametrize(("amps", "told"), [("3.7 A", False), ("3.6 A", True)])
def test_current_and_resistance_must_fit(knock, amps, told):
    """30 V over 6.5 ohm is 4.6 A; a quarter off in resistance is told."""
    assert ("reading-outside" in knock({"current": f"{amps} (measured)"}).codes) == told


def test_copper_may_come_from_the_room_that_the_winding_fills(knock):
    """0.4 x 8960 kg/m³ x pi (20² - 10²) mm² x 60 mm: the low end of its fill, common practice, no source."""
    case = knock({"coil.wire_diameter": None, "coil.inner_diameter": "20 mm"})
    mass = 0.4 * 8960 * 3.14159265 * (0.020**2 - 0.010**2) * 0.060
    assert _worked(case, "coil.copper").result == pytest.approx(mass, rel=1e-6)


def test_coil_resistance_to_expect_is_that_of_the_data_or_of_voltage_and_current(knock):
    """A tenth each way, and what 40 °C adds (IEC 60028)."""
    known = next(one for one in knock().toy.readings if one.what.startswith("Resistance of the cold coil"))
    bounded = next(
        one for one in knock({"coil": None}).toy.readings if one.what.startswith("Resistance of the cold coil")
    )
    assert known.low == pytest.approx(0.9 * 6.5)
    assert known.high == pytest.approx(1.1 * 6.5 * (1 + ALPHA * 20))
    assert bounded.low == pytest.approx(0.9 * 30 / 4.615, rel=1e-6)


def test_coil_is_never_kept_on_to_be_measured(knock):
    """No reading asks for a voltage while it runs, and the bench gives one short pulse."""
    toy = knock().toy
    assert "toy.first.voltage" not in {step.id for step in toy.steps}
    assert any("one single short pulse" in step.text for step in toy.steps if step.stage == "bench")


@pytest.mark.parametrize("control", ["on/off port", "pwm port"])
def test_strength_is_the_on_time_from_short_upward(any_toy, control):
    """10 ms first, the as-left on-time written down, never above what the board allows."""
    toy = any_toy("knocker", control, {"toys.bump.time_limit": {"by": "board", "after": "60 ms"}}).toy
    entered = next(step for step in toy.steps if step.id == "knocker.settings.time")
    left = next(step for step in toy.steps if step.id == "knocker.tune.left")
    assert "10\u00a0ms" in entered.text
    assert left.record.high == pytest.approx(60)


def test_page_says_what_ends_a_pulse_and_what_cannot(knock):
    """A board's limit does not end a switch that has failed closed."""
    assert any("failed closed" in note for note in knock().toy.tuning_notes)
    assert any("never open" in caution.reason for caution in knock().toy.cautions if caution.id == "stuck-on")


def test_pulses_that_are_too_hot_are_mended_before_a_limit_is_set(knock):
    """From its settled peak the coil stands nothing more: finding and result say the same; first a pause is named."""
    case = knock({"pulse": {"on_time": "400 ms", "off_time": "100 ms"}, "time_limit": None})
    finding = case.finding("stuck-on-unprotected")
    assert case.toy.pulse.longest_on_s == case.toy.pulse.stuck_on_safe_s == 0
    assert "stands nothing more" in finding.message
    assert finding.mend.startswith("First mend the pulses")
    assert finding.mend.index(" wait ") < finding.mend.index("after:")


def test_a_coil_on_dc_is_not_listened_to(any_toy):
    """Only an AC coil or PWM hums (common practice, no source): a stuck coil is seen and felt."""
    for kind in ("knocker", "bell", "contactor"):
        toy = any_toy(kind, "on/off port").toy
        said = [*toy.emergency, *(step.text + step.more for step in toy.steps)]
        said += [words for caution in toy.cautions for words in caution.avoid]
        assert not [words for words in said if " hum" in words.lower() or words.startswith("It hums")]


def test_nothing_is_read_within_a_pulse_or_with_the_plug_in(knock):
    """A meter takes a third of a second and more for a reading; a pulse is over before (common practice, no source)."""
    rows = {one.symptom: one for one in knock().toy.troubles}
    assert "port on" not in rows["Never switches on"].measure
    assert "plug out" in rows["Never switches off"].measure


def steps_about_the_limit(case):
    """What is to be entered as the on-time limit, and looked at before the supply is switched on."""
    return [step for step in case.toy.steps if step.id in ("knocker.settings.limit", "knocker.before.limit")]


# 0.45 mm on 6.5 ohm at 30 V, alone: 30 s/26 s of physics; a wire of 0.08 mm has a thousandth of its copper.


@pytest.mark.parametrize(("wire", "saved"), [("0.45 mm", True), ("0.12 mm", True), ("0.08 mm", False)])
def test_coil_that_no_limit_saves_is_not_given_one(knock, wire, saved):
    """Copper goes with the fourth power of the wire: 26 s at 0.45 mm, 0.13 s at 0.12 mm, 26 ms at 0.08 mm for 40 ms."""
    case = knock({"coil.wire_diameter": f"{wire} (measured)", "time_limit": None, "pulse.off_time": "60 s"})
    settings, before = steps_about_the_limit(case)
    texts = settings.text + settings.more + before.text
    assert ("longest on-time" in settings.text) == saved
    assert "10\u00a0ms" not in texts
    if not saved:
        assert "no on-time limit saves this coil" in settings.text
        assert "in series" in settings.more
        assert "of its force" in settings.more
        assert "in series" in case.finding("stuck-on-unprotected").mend


def test_stated_limit_that_the_coil_does_not_stand_is_not_to_be_entered(knock):
    """The step says what the coil stands, as the finding does."""
    case = knock({"coil.wire_diameter": "0.10 mm (measured)", "time_limit.after": "200 ms", "pulse.off_time": "60 s"})
    settings, _ = steps_about_the_limit(case)
    assert "200\u00a0ms" not in settings.text
    assert "stuck-on-unprotected" in case.codes


def test_pulse_shorter_than_can_be_set_is_not_proposed(knock):
    """0.05 mm: 4 ms, below the shortest on-time that is tried: another voltage, not another pulse.

    0.12 mm: 0.13 s to 120 °C, so 1/3 of that and less to 60 °C.
    """
    thin = {"coil.wire_diameter": "0.05 mm (measured)", "pulse.off_time": "60 s"}
    mend = knock(thin).finding("pulse-too-long").mend
    assert "Shorten" not in mend
    assert "in series" in mend
    thicker = {"coil.wire_diameter": "0.12 mm (measured)", "pulse.on_time": "150 ms"}
    assert "Shorten the pulse" in knock(thin | thicker).finding("pulse-too-long").mend


def test_nuts_are_tightened_by_one_instruction(knock):
    """By torque where that is worked out, by eye where it is not: never both."""
    for size in ("M5", "oval 3"):
        mounting = [one for one in knock({"mount": {"screw": size}}).toy.steps if one.stage == "mount"]
        assert sum("Wait a day" in one.more for one in mounting) == 1


def test_longest_pulse_that_is_tried_has_its_pause(knock):
    """Followed, that pulse with that pause leaves nothing to mend; with a little less it is too hot to touch."""
    toy = knock().toy
    step = next(one for one in toy.steps if one.id == "knocker.tune.longer")
    assert "at 100\u00a0ms in any case" in step.text
    pause = re.search(r"With pulses of 100\u00a0ms pause ([\d.]+)\u00a0s or more", step.more)
    assert pause
    assert any(pause[0][1:] in note for note in toy.tuning_notes)
    seconds = float(pause[1])
    assert knock({"pulse": {"on_time": "100 ms", "off_time": f"{seconds} s"}}).codes == []
    shorter = knock({"pulse": {"on_time": "100 ms", "off_time": f"{0.97 * seconds:.3f} s"}})
    assert shorter.codes == ["surface-hot"]


def test_cut_out_is_told_as_it_is_written(knock):
    """120 °C less 10 K, in steps of 5 K (common practice, no source): followed, it is saved."""
    finding = knock({"time_limit": None}).finding("stuck-on-unprotected")
    assert "time_limit: {by: coil, opens_at: 110 °C}" in finding.mend
    assert knock({"time_limit": {"by": "coil", "opens_at": "110 °C"}}).codes == []


@pytest.mark.parametrize(("amps", "rating_A"), [("2 A", 7.5), ("4.615 A", 7.5), ("8 A", 15)])
def test_contradicting_current_and_resistance_are_sized_for_the_larger(knock, amps, rating_A):
    """Ohm's law: 30 V over 6.5 ohm are 4.6 A, over 3.75 ohm 8 A; times 1.5 (product's margin) 6.9 A and 12 A."""
    case = knock({"current": f"{amps} (measured)"})
    assert case.toy.sized.fuse.rating_A == rating_A
    assert case.toy.sized.load.design_current_A == pytest.approx(max(float(amps[:-2]), 30 / 6.5), rel=1e-3)
    if amps != "4.615 A":
        assert "sized for the larger current" in case.finding("reading-outside").message
    heat = _worked(case, "coil.power").result
    assert heat == pytest.approx(30 * max(float(amps[:-2]), 30 / 6.5), rel=1e-3)
