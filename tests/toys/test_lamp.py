"""Lamps: resistors of LEDs, the cold filament, flashes, heat."""

import re

import pytest

LEDS = {
    "lamp_type": "LEDs with resistor",
    "count": "6",
    "led": {"forward_voltage": "3.0 V to 3.4 V (datasheet)", "current": "20 mA (datasheet)", "in_a_row": "3"},
}


@pytest.fixture(name="lamp", scope="module")
def _lamp(any_toy):
    def make(own, current="40 mA (measured)", changes=None, control="on/off port"):
        base = {f"toys.bump.{key}": value for key, value in own.items()}
        exact = {"supplies.main.voltage_range": "12 V to 12 V"} if own.get("lamp_type") == "filament" else {}
        return any_toy("lamp", control, base | exact | {"toys.bump.current": current} | (changes or {}))

    return make


@pytest.fixture(name="leds", scope="module")
def _leds(lamp):
    def make(led=None, changes=None, **own):
        return lamp(LEDS | own | {"led": LEDS["led"] | (led or {})}, changes=changes)

    return make


def worked(case):
    return {one.id: one.result for one in case.toy.worked}


def cautions(case):
    return {one.id: one for one in case.toy.cautions}


# ---- LEDs -----------------------------------------------------------------------------------------------------------


def test_series_resistor_takes_what_the_leds_leave(leds):
    """Lessons In Electric Circuits volume III, diodes: (12 V - 3 x 3.2 V) / 20 mA = 120 ohm, a value of E24."""
    found = worked(leds())
    assert found["led.resistance"] == pytest.approx(120)
    assert found["led.resistor"] == pytest.approx(120)


def test_next_standard_resistor_is_taken_upwards(leds):
    """IEC 60063, series E24: (12 - 2 x 3.2) / 20 mA = 280 ohm, then 300 ohm."""
    found = worked(leds({"in_a_row": "2"}))
    assert (found["led.resistance"], found["led.resistor"]) == (pytest.approx(280), 300)


def test_current_and_heat_are_worked_out_at_the_worst_ends(leds):
    """Highest supply 12.6 V, lowest drop 9 V across 120 ohm: 30 mA, 0.108 W; a resistor of twice that, 0.25 W."""
    case = leds()
    found = worked(case)
    assert found["led.worst"] == pytest.approx(0.03)
    assert found["led.heat"] == pytest.approx(0.108)
    assert found["led.rating"] == pytest.approx(0.216)
    need = next(need for need in case.toy.needs if need.what == "Series resistor")
    assert (need.value.replace("\u00a0", " "), need.count) == ("120 Ω, 0.25 W or more", "2")


def test_resistors_stand_before_the_leds(leds):
    """In the circuit, on the way of the current, and in a step."""
    case = leds()
    assert case.toy.sized.circuit.main == ("T1", "W1", "F1", "W11", "R1S", "E1", "W12", "A1", "W2", "T1")
    assert case.toy.sized.circuit.part("R1S").value.replace("\u00a0", " ") == "2 × 120 Ω"
    assert any("120\u00a0Ω" in step.text for step in case.toy.steps if step.id == "lamp.wire.resistor")


def test_leds_that_leave_nothing_for_the_resistor_are_refused(leds):
    """Three of 4 V take all of 12 V; of 3.99 V they leave 0.03 V, with which they may stay dark."""
    assert leds({"forward_voltage": "3.99 V (datasheet)"}).finding("voltage-mismatch").level == "should fix"
    case = leds({"forward_voltage": "4 V (datasheet)"})
    assert "Put 2 in a row" in case.finding("voltage-mismatch").mend
    assert "R1S" not in {part.id for part in case.toy.sized.circuit.parts}


def test_led_that_gets_too_much_at_the_highest_supply_is_told(leds):
    """30 mA at the worst ends: an LED for 30 mA stands them, one for 29.9 mA does not."""
    assert "led-overloaded" not in leds({"highest_current": "30 mA (datasheet)"}).codes
    finding = leds({"highest_current": "29.9 mA (datasheet)"}).finding("led-overloaded")
    assert finding.level == "must fix"
    assert "130\u00a0Ω" in finding.mend  # the next of E24 above (12.6 - 9) V / 29.9 mA


def told_current(mend):
    """The current that a mend says to write, as in a description."""
    return re.search(r"current: ([\d.]+)\sm?A for each", mend).group(1) + " mA (datasheet)"


def test_mend_gives_the_current_whose_resistor_keeps_the_led(leds):
    """11 to 14 V, 3 x 3.0 to 3.4 V, 25 mA at most: (14 - 9) / 25 mA is 200 ohm, and (12 - 9.6) / 200 ohm is 12 mA."""
    range_V = {"supplies.main.voltage_range": "11 V to 14 V", "toys.bump.voltage": "12.2 V"}
    most = {"highest_current": "25 mA (datasheet)"}
    mend = leds(most, range_V).finding("led-overloaded").mend
    assert "12\u00a0mA for each" in mend
    assert "200\u00a0Ω" in mend
    assert "led-overloaded" not in leds(most | {"current": told_current(mend)}, range_V).codes


# 6 LEDs of 20 mA in rows of three: (12 V - 9.6 V) / 20 mA = 120 ohm. Small LEDs of 20 mA commonly stand 30 mA: common
# practice, no source. At 12.6 V and 3.0 V each gets 30 mA; of 2.99 to 3.41 V the middle stays, and 30.3 mA flow.
@pytest.mark.parametrize(("forward", "told"), [("3.0 V to 3.4 V", False), ("2.99 V to 3.41 V", True)])
def test_led_of_unknown_strength_is_told_half_above_its_current(leds, forward, told):
    case = leds({"forward_voltage": f"{forward} (datasheet)"})
    assert ("led-overloaded" in case.codes) == told
    if told:
        finding = case.finding("led-overloaded")
        assert finding.level == "should fix"
        assert "30\u00a0mA" in finding.expected
        assert "highest_current" in finding.mend


# At 120 ohm a tenth of 20 mA takes 0.24 V: the supply of 11.4 V leaves it up to 3.72 V for each of three.
@pytest.mark.parametrize(("forward", "told"), [("2.68 V to 3.72 V", False), ("2.66 V to 3.74 V", True)])
def test_row_that_may_stay_dark_is_told(leds, forward, told):
    case = leds({"forward_voltage": f"{forward} (datasheet)", "highest_current": "60 mA (datasheet)"})
    assert ("voltage-mismatch" in case.codes) == told
    if told:
        assert case.finding("voltage-mismatch").level == "should fix"
        assert "11.4\u00a0V" in case.finding("voltage-mismatch").message


def test_rows_with_almost_no_headroom_are_mended_by_what_is_said(leds, lamp):
    """3 x 3.6 to 3.9 V at 12 V: 39 ohm, 46 mA at 12.6 V, none at 11.4 V. Two in a row clear it; so does the supply."""
    led = {"forward_voltage": "3.6 V to 3.9 V (datasheet)"}
    case = leds(led)
    assert "46.2\u00a0mA" in case.finding("led-overloaded").message
    assert "Put 2 in a row" in case.finding("led-overloaded").mend
    assert "Put 2 in a row" in case.finding("voltage-mismatch").mend
    assert "constant-current driver" in case.finding("led-overloaded").mend
    group = re.search(r"about ([\d.]+)\smA", case.finding("led-overloaded").mend).group(1)
    fewer = lamp(LEDS | {"led": LEDS["led"] | led | {"in_a_row": "2"}}, f"{group} mA (measured)")
    assert not {"led-overloaded", "voltage-mismatch", "reading-outside"} & set(fewer.codes)
    mend = case.finding("led-overloaded").mend
    weaker = leds(led | {"highest_current": "30 mA (datasheet)", "current": told_current(mend)})
    assert "led-overloaded" not in weaker.codes
    least = re.search(r"less than ([\d.]+)", case.finding("voltage-mismatch").expected).group(1)
    steady = {"supplies.main.voltage_range": f"{least} V to 12.6 V"}
    assert "voltage-mismatch" not in leds(led, steady).codes


def test_lamp_on_a_high_rail_does_not_run(leds):
    high = leds(changes={"supplies.main.voltage_range": "11 V to 14 V"})
    assert "too brightly" in high.finding("rail-too-high-for-toy").message


def test_group_current_that_its_rows_do_not_draw_is_doubted(leds, lamp):
    """Two rows of 20 mA; a quarter off is let pass."""
    assert "reading-outside" not in leds().codes
    assert "reading-outside" not in lamp(LEDS, "32 mA (measured)").codes
    assert "40\u00a0mA" in lamp(LEDS, "31 mA (measured)").finding("reading-outside").expected


def test_rows_that_do_not_come_out_even_are_told(leds):
    """Seven in rows of three."""
    assert "do not fill rows" in leds(count="7").finding("not-worked-out").message


def test_leds_without_their_data_are_asked_for(lamp):
    """No resistor is guessed."""
    case = lamp({"lamp_type": "LEDs with resistor"})
    assert "led:" in case.finding("not-worked-out").expected


def test_estimates_of_an_led_are_named(leds):
    """Its forward voltage decides the resistor."""
    finding = leds({"forward_voltage": "3.2 V"}).finding("estimate-used")
    assert "the LED's forward_voltage" in finding.message


def test_polarity_of_leds_is_checked_and_no_winding_measured(leds):
    """The plus side to E1:1; nothing kicks back."""
    toy = leds().toy
    assert any("E1:1" in step.text for step in toy.steps if step.id == "lamp.dead.polarity")
    assert toy.sized.suppression.type == "not needed"


# ---- filaments ------------------------------------------------------------------------------------------------------

FILAMENT = {"lamp_type": "filament"}


def test_cold_filament_takes_ten_times_its_current(lamp):
    """Common practice, no source: 10 times, gone in about 10 ms; heat of a decay is I0 squared times tau over two."""
    load = lamp(FILAMENT, "2 A (measured)").toy.sized.load
    assert load.start_A == pytest.approx(20)
    assert load.start_s == pytest.approx(0.010)
    assert load.pulse_A2s == pytest.approx(20**2 * 0.010 / 2)


def test_measured_cold_resistance_replaces_the_usual_inrush(lamp):
    """Ohm's law: 12 V across 0.5 ohm."""
    case = lamp(FILAMENT | {"cold_resistance": "0.5 ohm (measured)"}, "2 A (measured)")
    assert case.toy.sized.load.start_A == pytest.approx(24)
    assert worked(case)["lamp.ratio"] == pytest.approx(12)


def test_contact_of_a_relay_is_said_to_see_the_inrush(lamp):
    """20 A for 10 ms (common practice, no source), in the caution, at the contact and where its rating is asked for."""
    case = lamp(FILAMENT, "2 A (measured)", control="relay")
    contact = "contact sees up to 20\u00a0A"
    assert "the relay's " + contact in cautions(case)["inrush"].reason
    assert "10\u00a0ms" in cautions(case)["inrush"].reason
    asked = {one.id: one.answer for one in case.toy.questions}
    assert contact in asked["contact-dc"]
    assert any(contact in note for note in case.toy.wiring_notes)
    weak = lamp(FILAMENT, "2 A (measured)", {"toys.bump.control.relay.contact_current": "1.9 A"}, "relay")
    assert contact in weak.finding("contacts-rating").message


def test_inrush_is_warned_of_with_its_current_for_filaments_alone(lamp):
    """LEDs and modules have none that is known."""
    assert "20\u00a0A" in cautions(lamp(FILAMENT, "2 A (measured)"))["inrush"].reason
    assert "inrush" not in cautions(lamp({"lamp_type": "LED module"}))


@pytest.mark.parametrize(("current", "word"), [("0.833 A", "CAUTION"), ("0.834 A", "WARNING")])
def test_hot_filament_is_a_warning_from_ten_watts(lamp, current, word):
    """Each lamp by itself: 12 V times 0.833 A is just below 10 W."""
    assert cautions(lamp(FILAMENT, f"{current} (measured)"))["lamp-hot"].word == word


def test_power_is_counted_for_each_lamp(lamp):
    """Twice 9 W are no lamp of 18 W."""
    pair = lamp(FILAMENT | {"count": "2"}, "1.5 A (measured)")
    assert cautions(pair)["lamp-hot"].word == "CAUTION"


def test_cold_lamps_are_measured_between_an_eighth_and_a_fifteenth_of_the_hot_resistance(lamp):
    """12 V / 2 A is 6 ohm hot; known cold: 20 % each way."""

    def reading(case):
        return next(one for one in case.toy.readings if one.what.startswith("Resistance of the cold"))

    usual = reading(lamp(FILAMENT, "2 A (measured)"))
    known = reading(lamp(FILAMENT | {"cold_resistance": "0.5 ohm (measured)"}, "2 A (measured)"))
    assert (usual.low, usual.high) == pytest.approx((6 / 15, 6 / 8))
    assert (known.low, known.high) == pytest.approx((0.4, 0.6))


# ---- light, flashes, heat -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("current", "told"), [("0.25 A", False), ("0.26 A", True)])
def test_strong_led_is_warned_of_above_three_watts(lamp, current, told):
    """12 V times 0.25 A is 3 W."""
    assert ("bright" in cautions(lamp({"lamp_type": "LED module"}, f"{current} (measured)"))) is told


@pytest.mark.parametrize(("group", "told"), [("0", False), ("1", False), ("2", True), ("3", True)])
@pytest.mark.parametrize("sort", ["LED module", "filament"])
def test_light_of_risk_group_two_is_warned_of_whatever_its_power(lamp, sort, group, told):
    """IEC 62471, from memory: from group 2 on only looking away protects the eye."""
    found = cautions(lamp({"lamp_type": sort, "risk_group": group}, "0.1 A (measured)"))
    assert ("bright" in found) is told


@pytest.mark.parametrize(("rate", "told"), [("3 Hz", False), ("3.1 Hz", True), ("60 Hz", True), ("61 Hz", False)])
def test_flashes_are_told_above_three_a_second_up_to_sixty(lamp, rate, told):
    """WCAG 2.2 success criterion 2.3.1: no more than three flashes in any second; up to 60 by common practice."""
    case = lamp({"flash": {"rate": rate}})
    assert ("flash-rate" in case.codes) is told
    assert ("seizure" in cautions(case)) is told
    if told:
        finding = case.finding("flash-rate")
        assert finding.level == "should fix"
        assert case.at(finding).startswith(rate)


@pytest.mark.parametrize(("second", "told"), [("1 Hz", False), ("1.2 Hz", True)])
def test_lamps_out_of_step_add_up(plan_of, small_build, second, told):
    """2 Hz and 1 Hz are three a second, 2 Hz and 1.2 Hz more; none of them alone is too fast."""
    base = small_build["toys"]["bump"] | {"kind": "lamp", "lamp_type": "LED module", "cover": None}
    toys = {
        name: {key: value for key, value in base.items() if value is not None}
        | {
            "feed": {"run": "1 m"},
            "flash": {"rate": rate},
            "control": {"type": "on/off port", "board": "quay", "port": port},
        }
        for name, rate, port in (("one", "2 Hz", "2"), ("two", second, "3"))
    }
    case = plan_of({}, small_build | {"toys": toys})
    assert ("flash-rate" in case.codes) is told


def test_flashes_are_counted_while_tuning(lamp):
    """At most thirty in ten seconds."""
    case = lamp({"flash": {"rate": "10 Hz"}})
    reading = next(one for one in case.toy.readings if one.what.startswith("Flashes"))
    assert reading.high == 30
    assert not any(one.what.startswith("Flashes") for one in lamp({}).toy.readings)


@pytest.mark.parametrize(
    ("surface", "level"),
    [("59 °C", None), ("60 °C", "should fix"), ("84 °C", "should fix"), ("85 °C", "must fix")],
)
def test_hot_surface_is_told_from_sixty_and_must_be_mended_from_85(lamp, surface, level):
    """ISO 13732-1 burn thresholds, from memory."""
    case = lamp({"surface": f"{surface} (measured)"})
    assert [one.level for one in case.plan.findings if one.code == "surface-hot"] == ([level] if level else [])
    assert ("lamp-hot" in cautions(case)) is (level is not None)


@pytest.mark.parametrize(("frequency", "told"), [("199 Hz", True), ("200 Hz", False)])
def test_slow_pwm_flickers(lamp, frequency, told):
    """IEEE 1789 in outline, from memory."""
    case = lamp({}, changes={"boards.quay.pwm_frequency": frequency}, control="pwm port")
    assert ("flicker" in cautions(case)) is told
    assert "flicker" not in cautions(lamp({}))


def test_leds_are_bought_by_number_and_rows_stand_side_by_side(leds):
    toy = leds().toy
    need = next(need for need in toy.needs if need.what == "LED")
    assert (need.count, need.note) == ("6", "two rows of three")
    step = next(step for step in toy.steps if step.id == "lamp.wire.resistor")
    assert "Two rows side by side" in step.more


def test_bench_reading_holds_whatever_good_leds_draw(leds):
    """Two rows at 12 V through 120 ohm: (12 - 3 x 3.4) / 60 = 30 mA to (12 - 3 x 3.0) / 60 = 50 mA."""
    step = next(step for step in leds().toy.steps if step.id == "lamp.bench.current")
    assert step.record.low <= 0.030 + 1e-9
    assert step.record.high >= 0.050 - 1e-9


def test_rows_that_may_draw_more_than_is_stated_are_told(leds):
    """12.6 V: 2 x (12.6 - 9) / 120 = 60 mA where 40 mA are stated."""
    assert any("60\u00a0mA" in note for note in leds().toy.tuning_notes)


def test_filaments_are_not_spoken_of_as_leds(lamp):
    toy = lamp({"lamp_type": "filament"}, "2 A (measured)").toy
    step = next(step for step in toy.steps if step.id == "lamp.bench.current")
    assert "resistor" not in step.record.if_not
    assert "row" not in step.record.if_not
    assert toy.sized.suppression.part == "no winding of it kicks back"
