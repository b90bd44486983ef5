"""Cautions: raised just past the value that decides, silent just before it, at their word, with their reason."""

import pytest

from guide_gen.model.guide import Word

SHAKER, PWM, ON_OFF = "shaker motor", "pwm port", "on/off port"
WEIGHT = {
    "toys.bump.motor": {"resistance": "0.32 ohm (measured)", "speed": "2100 rpm (measured)"},
    "toys.bump.weight": {"unbalance": "8 g m (datasheet)", "swing": "0.47 s (measured)"},
    "toys.bump.current": "5.5 A (measured)",
}
COIL = {
    "toys.bump.coil": {
        "resistance": "6 ohm (measured)",
        "wire_diameter": "0.5 mm (measured)",
        "outer_diameter": "34 mm",
        "length": "45 mm",
        "insulation_class": "B",
    },
    "toys.bump.pulse": {"on_time": "40 ms", "off_time": "5 s"},
}


def plain(text):
    return text.replace("\u00a0", " ")


def toy_cautions(case):
    return {one.id: one for one in case.toy.cautions}


def build_cautions(case):
    return {one.id: one for one in case.plan.cautions}


# ---- capacitors -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("capacitance", "word"),
    [
        ("12590 uF", None),  # C V²/2 (OpenStax University Physics volume 2) is 1 J at 12.6 V from 12598 uF on
        ("12600 uF", Word.CAUTION),
        ("251000 uF", Word.CAUTION),
        ("252000 uF", Word.WARNING),  # 20 J: the hazardous energy of IEC 60950-1, from memory
    ],
)
def test_stored_charge_is_warned_of_by_its_energy(plan_of, capacitance, word):
    case = plan_of({"supplies.main.capacitance": f"{capacitance} (datasheet)"})
    for told in (toy_cautions(case), build_cautions(case)):
        assert (told["stored-charge"].word if "stored-charge" in told else None) is word
    if word:
        assert " J at 12.6 V" in plain(build_cautions(case)["stored-charge"].reason)


def test_stored_charge_says_how_long_to_wait_where_that_is_known(plan_of):
    """R C ln(12.6 / 5) = 1 kohm x 20 mF x 0.924 = 18.5 s (OpenStax University Physics volume 2, RC circuits)."""
    stored = {"supplies.main.capacitance": "20000 uF"}
    bled = plan_of(stored | {"supplies.main.bleed_resistance": "1 kohm (datasheet)"})
    assert "wait 19 s" in plain(" ".join(build_cautions(bled)["stored-charge"].avoid))
    assert "measure" in " ".join(build_cautions(plan_of(stored))["stored-charge"].avoid)
    assert "stored-charge" not in build_cautions(plan_of())


# ---- noise ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("found", "told"),
    [
        ({"loudness": "79.9 dB (measured)"}, False),
        ({"loudness": "80 dB (measured)"}, True),
        ({"peak": "134.9 dB (measured)"}, False),
        ({"peak": "135 dB (measured)"}, True),
    ],
)
def test_noise_is_warned_of_from_the_lower_action_values_on(plan_of, found, told):
    """80 dB(A) lasting, 135 dB(C) at its peak: noise rules of the European Union, from memory."""
    cautions = toy_cautions(plan_of({"toys.bump.found": found}))
    assert ("noise" in cautions) is told
    if told:
        assert "dB(" in cautions["noise"].reason
        assert cautions["noise"].word is Word.CAUTION


def test_pulsed_coils_are_loud_while_they_are_tuned(any_toy):
    for kind in ("knocker", "bell"):
        assert f"{kind}.tune.first" in toy_cautions(any_toy(kind, ON_OFF))["knock-noise"].before


# ---- shaker ---------------------------------------------------------------------------------------------------------


def test_pull_is_told_at_the_highest_rail_too(any_toy):
    """m e w² (OpenStax College Physics 2e): 0.008 x 220² = 387 N, times (12.6 / 12)² = 427 N."""
    reason = plain(toy_cautions(any_toy(SHAKER, PWM, WEIGHT))["weight-flies"].reason)
    assert "387 N" in reason
    assert "at 12.6 V with up to 427 N" in reason


def test_rim_of_a_known_shape_is_told_in_metres_a_second(any_toy):
    """r w at the highest rail: 0.052 x 220 x 1.05 = 12 m/s."""
    shape = {"form": "half disc", "radius": "52 mm", "thickness": "12 mm", "material": "steel"}
    case = any_toy(SHAKER, PWM, WEIGHT | {"toys.bump.weight": {"shape": shape}})
    assert "12 m/s" in plain(toy_cautions(case)["weight-flies"].reason)


def test_blocked_motor_is_held_against_its_fuse(any_toy):
    """12.6 V over 0.32 ohm and its way, and what the supply gives of that, against a fuse of 10 A."""
    said = plain(toy_cautions(any_toy(SHAKER, PWM, WEIGHT))["stall"].reason)
    assert "asks for up to 30.4 A, of which T1 gives 22 to 30 A; F1 is rated 10 A" in said
    assert toy_cautions(any_toy(SHAKER, PWM))["stall"].reason == ""


def test_resonance_is_told_where_the_toy_can_turn_that_fast(any_toy):
    """4.5 Hz is among its speeds; with a limit of 15 % a cabinet that sways at 30 Hz is not."""
    within = WEIGHT | {"cabinet.sideways_frequency": "4.5 Hz (measured)"}
    caution = toy_cautions(any_toy(SHAKER, PWM, within))["resonance"]
    assert caution.word is Word.NOTICE
    assert "own sway is" in caution.reason
    assert "resonance" not in toy_cautions(any_toy(SHAKER, ON_OFF, within))
    above = WEIGHT | {"cabinet.sideways_frequency": "30 Hz (measured)", "toys.bump.control.limit": "15 %"}
    assert "resonance" not in toy_cautions(any_toy(SHAKER, PWM, above))


@pytest.mark.parametrize("kind", [SHAKER, "knocker"])
def test_what_shakes_the_cabinet_loosens_its_connectors(any_toy, kind):
    assert toy_cautions(any_toy(kind, ON_OFF))["vibration-damage"].word is Word.NOTICE


def test_bolts_are_looked_at_again_after_one_and_ten_hours(any_toy):
    """Transverse vibration undoes threads: common practice, no source."""
    caution = toy_cautions(any_toy(SHAKER, PWM))["bolts-walk-out"]
    assert "1 h and 10 h" in " ".join(caution.avoid)


# ---- coils ----------------------------------------------------------------------------------------------------------


def test_coil_that_may_stay_on_for_ever_is_not_warned_of(any_toy):
    """A tenth of an ampere through the same body never reaches its limit."""
    cool = COIL | {"toys.bump.current": "0.1 A (measured)", "toys.bump.coil.resistance": "120 ohm (measured)"}
    assert toy_cautions(any_toy("knocker", ON_OFF, COIL))["stuck-on"].word is Word.WARNING
    assert "stuck-on" not in toy_cautions(any_toy("knocker", ON_OFF, cool))


@pytest.mark.parametrize(("off_time", "told"), [("1.3 s", True), ("1.35 s", False)])
def test_hot_coil_is_told_from_sixty_degrees_on(any_toy, off_time, told):
    """The settled peak of its pulses, on either side of 60 °C (ISO 13732-1 as a basis, from memory)."""
    case = any_toy("knocker", ON_OFF, COIL | {"toys.bump.pulse.off_time": off_time})
    assert (case.toy.pulse.peak_degC >= 60) is told
    assert ("coil-hot" in toy_cautions(case)) is told
    if told:
        assert "°C" in toy_cautions(case)["coil-hot"].reason


def test_kickback_is_told_where_a_semiconductor_switches(any_toy):
    for control, told in ((PWM, True), (ON_OFF, True), ("relay", False), ("always on", False)):
        assert ("kickback" in toy_cautions(any_toy("knocker", control))) is told


@pytest.mark.parametrize(("stop", "told"), [("no", True), ("yes", False)])
def test_plunger_without_a_stop_is_warned_of(any_toy, stop, told):
    assert ("plunger-exit" in toy_cautions(any_toy("knocker", ON_OFF, {"toys.bump.end_stop": stop}))) is told


HELD = {
    "toys.bump.current": "0.6 A (measured)",
    "toys.bump.coil": {
        "resistance": "20 ohm (measured)",
        "inductance": "129 mH (datasheet)",
        "release_current": "100 mA (measured)",
    },
    "toys.bump.surface_temperature": "50 °C (measured)",
    "boards.quay.port_voltage": "60 V",
}
USED = {"toys.bump.contacts": "used", "toys.bump.contact_voltage": "30 V", "toys.bump.contact_current": "10 A"}


@pytest.mark.parametrize(
    ("changes", "told"),
    [
        ({}, False),  # L/R ln(12.7 / 2.7) is 10 ms at 129.2 mH; 10 ms is an estimate of the trade
        ({"toys.bump.coil.inductance": "130 mH (datasheet)"}, True),
        (USED, True),
        (USED | {"toys.bump.suppressor": "diode and zener"}, False),
        ({"toys.bump.coil.inductance": None}, True),
    ],
)
def test_slow_release_is_told_with_a_plain_diode_where_it_matters(any_toy, changes, told):
    case = any_toy("contactor", ON_OFF, HELD | changes)
    assert ("release-slow" in toy_cautions(case)) is told
    if told:
        assert toy_cautions(case)["release-slow"].reason


# ---- fans -----------------------------------------------------------------------------------------------------------

FAN = {"toys.bump.form": "fan", "toys.bump.rated_speed": "3000 rpm (datasheet)"}


@pytest.mark.parametrize(
    ("changes", "word"),
    [
        (FAN | {"toys.bump.blade_diameter": "95.4 mm"}, Word.CAUTION),  # pi x 50 Hz x 95.49 mm = 15 m/s
        (FAN | {"toys.bump.blade_diameter": "95.6 mm"}, Word.WARNING),
        (
            {"toys.bump.rated_speed": "3000 rpm (datasheet)", "toys.bump.blade_diameter": "40 mm"},
            Word.WARNING,
        ),  # blower
        (FAN, Word.WARNING),  # size not known
    ],
)
def test_blades_are_warned_of_by_the_speed_of_their_tips(any_toy, changes, word):
    """15 m/s: this project. A blower's wheel, and blades of unknown size, are taken as the worse."""
    case = any_toy("blower fan", ON_OFF, changes)
    caution = toy_cautions(case)["blades"]
    assert caution.word is word
    assert ("m/s" in caution.reason) is ("toys.bump.blade_diameter" in changes)


# ---- lamps ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("second", "told"), [("1 Hz", False), ("1.1 Hz", True)])
def test_lamps_that_add_up_are_warned_of_for_the_whole_build(plan_of, small_build, second, told):
    """WCAG 2.2 success criterion 2.3.1: three flashes in a second; 2 Hz beside another."""
    toys = {
        name: {
            "kind": "lamp",
            "voltage": "12 V",
            "current": "0.2 A (measured)",
            "lamp_type": "LED module",
            "feed": {"run": "1 m"},
            "flash": {"rate": rate},
            "control": {"type": ON_OFF, "board": "quay", "port": port},
        }
        for name, rate, port in (("one", "2 Hz", "2"), ("two", second, "3"))
    }
    told_of = build_cautions(plan_of({}, small_build | {"toys": toys}))
    assert ("seizure" in told_of) is told
    if told:
        assert "3.1 times a second" in told_of["seizure"].reason
        assert told_of["seizure"].word is Word.WARNING


# ---- shape ----------------------------------------------------------------------------------------------------------


def test_cautions_that_values_raise_are_short_and_whole(any_toy, plan_of):
    """At most 45 words (this project), hazard, consequence, one to three ways to avoid it."""
    cases = [
        any_toy(SHAKER, PWM, WEIGHT | {"toys.bump.found": {"loudness": "90 dB", "peak": "140 dB"}}),
        any_toy("blower fan", ON_OFF, FAN),
        any_toy("contactor", ON_OFF, HELD | {"toys.bump.coil.inductance": None}),
        any_toy("knocker", ON_OFF, COIL),
        plan_of({"supplies.main.capacitance": "300000 uF", "supplies.main.bleed_resistance": "1 kohm"}),
    ]
    for case in cases:
        for caution in (*case.toy.cautions, *case.plan.cautions):
            assert len(caution.text.split()) <= 45, caution.id
            assert caution.hazard.endswith(".")
            assert caution.consequence.endswith(".")
            assert 1 <= len(caution.avoid) <= 3
            assert caution.reason == "" or caution.reason.endswith(".")
