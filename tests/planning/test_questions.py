"""Questions that come up: those that concern the toy, each answered with a computed value."""

import re

import pytest

from guide_gen.controls import controls
from guide_gen.toys import kinds


def answers(case):
    return {one.id: one.answer.replace("\u00a0", " ") for one in case.toy.questions}


@pytest.mark.parametrize("control", sorted(controls()))
@pytest.mark.parametrize("kind", sorted(kinds()))
def test_every_toy_on_every_control_has_its_questions_answered(any_toy, kind, control):
    case = any_toy(kind, control)
    found = case.toy.questions
    assert len({one.id for one in found}) == len(found) >= 6
    assert all(one.question.endswith("?") and one.answer.endswith(".") for one in found)
    assert all(re.search(r"\d", one.answer) for one in found if one.id not in ("power-up",))


def test_a_port_is_asked_about_its_return_and_a_direct_toy_is_not(any_toy):
    assert "common-zero" in answers(any_toy("shaker motor", "pwm port"))
    assert not {"common-zero", "body-diode", "whine"} & set(answers(any_toy("shaker motor", "always on")))


def test_diode_under_pwm_says_mean_current_and_heat(plan_of):
    """Half the full current at most (this project, an estimate over many machines): 1 A of 2 A."""
    assert "on average up to 1 A" in answers(plan_of())["diode-pwm"]


def test_stall_is_held_against_the_fuse(plan_of):
    known = answers(plan_of({"toys.bump.motor": {"resistance": "3 ohm (measured)"}}))
    assert "held fast at full strength asks for up to" in known["fuse-motor"]
    assert "how much is not known" in answers(plan_of())["fuse-motor"]


def test_fuse_that_may_open_is_told_with_the_least_that_flows_and_what_opens_it(plan_of):
    """ISO 8820-3: 3 A opens for certain from 1.35 times that, 4.05 A, which lies between both ends of what it draws."""
    known = answers(plan_of({"toys.bump.motor": {"resistance": "2.2 ohm to 3.4 ohm (measured)"}}))["fuse-motor"]
    low = float(re.search(r"as little as ([\d.]+) A may flow", known)[1])
    high = float(re.search(r"asks for up to ([\d.]+) A", known)[1])
    assert "sure to open only from 4.05 A on" in known
    assert low < 4.05 < high


def test_drop_is_the_same_figure_in_the_strip_and_in_the_answer(plan_of):
    case = plan_of({"toys.bump.current": "0.42 A (measured)"})
    shown = next(value.note for value in case.toy.values if value.label == "Wire").replace("\u00a0", " ")
    drop = re.search(r"drop ([\d.]+ m?V)", shown)[1]
    assert answers(case)["drop"].startswith(drop)


def test_whine_is_heard_below_20_kHz_only(plan_of, with_controller):
    """People hear from about 20 Hz to 20 kHz: common practice, no source."""
    assert "200 Hz, which people hear" in answers(plan_of())["whine"]
    quiet = with_controller(controller__pwm_frequency="25 kHz")
    assert "do not hear" in answers(plan_of(quiet))["whine"]


# Textbooks on power electronics: V (I_on t + I_off t) f / 2; here 12.6 V x 2 x 2 A x 2 us x 200 Hz / 2 = 10.1 mW.


def test_whine_says_what_switching_alone_takes_where_the_boards_switching_time_is_known(plan_of):
    """And what it would at 20 kHz, a hundred times as often."""
    case = plan_of({"boards.quay.switching_time": "2 us (datasheet)"})
    assert case.toy.sized.port.switching_W == pytest.approx(12.6 * 4 * 2e-6 * 200 / 2)
    said = answers(case)["whine"]
    assert "10.1 mW of it from switching" in said
    assert "at 20 kHz that part would be 1.01 W" in said


def test_whine_names_the_key_where_it_is_not(plan_of):
    """1 us is taken: 5.04 mW, an estimate."""
    said = answers(plan_of())["whine"]
    assert "switching_time" in said
    assert "5.04 mW" in said
    assert "(estimate) (estimate)" not in said


def test_place_of_the_fuse_names_the_lead_before_it(plan_of):
    """33 CFR 183.455(b): 7 in."""
    said = answers(plan_of())["fuse-place"]
    assert "7 in" in said
    assert "W1" in said


def test_without_a_fuse_no_question_about_it_is_asked(plan_of):
    assert not any(one.startswith("fuse") for one in answers(plan_of({"toys.bump.feed.fuse": "none"})))


# ---- each question: where it stands, with which value, and where it does not concern --------------------------------

COIL = {
    "toys.bump.coil": {
        "resistance": "6 ohm (measured)",
        "inductance": "60 mH (datasheet)",
        "wire_diameter": "0.5 mm (measured)",
        "outer_diameter": "34 mm",
        "length": "45 mm",
        "insulation_class": "B",
    },
    "toys.bump.pulse": {"on_time": "40 ms", "off_time": "5 s"},
    "boards.quay.port_voltage": "60 V",
}
MOTOR = {"toys.bump.motor": {"resistance": "0.5 ohm (measured)"}}
WEIGHT = {
    "toys.bump.motor": {"resistance": "0.32 ohm (measured)", "speed": "2100 rpm (measured)"},
    "toys.bump.weight": {"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"},
                         "swing": "0.47 s (measured)"},
    "toys.bump.current": "5.5 A (measured)",
}  # fmt: skip
FILAMENT = {"toys.bump.lamp_type": "filament"}
SHAKER, PWM, ON_OFF, ALWAYS, TRIMMER = "shaker motor", "pwm port", "on/off port", "always on", "speed controller"
HELD = COIL | {"toys.bump.pulse": None}
UNFUSED = (SHAKER, PWM, {"toys.bump.feed.fuse": "none"})
STRIP = ("lamp", ON_OFF, {"toys.bump.lamp_type": "LED module"})

# id: (kind, control, changes), what its answer says by this build's values, (kind, control, changes) of no concern.
ASKED = {
    "fuse-size": ((SHAKER, PWM, {}), ("needs 3 A", "port 2 may switch 10 A"), UNFUSED),
    "fuse-motor": ((SHAKER, PWM, MOTOR), ("asks for up to",), UNFUSED),
    "fuse-place": ((SHAKER, PWM, {}), ("W1", "0.15 m", "7 in"), UNFUSED),
    "fuse-voltage": ((SHAKER, PWM, {}), ("12.6 V", "32 V DC", "30 A"), UNFUSED),
    "fuse-blows-not": ((SHAKER, PWM, {}), ("sure to open from 4.05 A",), UNFUSED),
    "body-diode": ((SHAKER, PWM, {}), ("13.1 V",), (SHAKER, ALWAYS, {})),
    # L/R ln of OpenStax University Physics volume 2: 10 ms ln((2 x 6 + 0.7) / (0.2 x 6 + 0.7))
    "release": (("knocker", ON_OFF, COIL), ("19 ms", "0.2 A", "24 V"), ("lamp", ON_OFF, {})),
    "coil-pulses": (("knocker", ON_OFF, COIL), ("26.5 W", "Longest on", "pause"), ("contactor", ON_OFF, HELD)),
    "coil-hot": (("bell", ON_OFF, COIL), ("settles at", "2.1 A", "1.36 A at 120 °C"), (SHAKER, PWM, {})),
    # 60 mH / 6 ohm x -ln(1 - 0.85): the charging coil of any text
    "coil-hold": (("contactor", ON_OFF, HELD), ("19 ms", "% of full strength", "75 %"), (SHAKER, PWM, {})),
    "common-zero": ((SHAKER, PWM, {}), ("T1:0V", "2 A"), (SHAKER, ALWAYS, {})),
    "computer": ((SHAKER, PWM, {}), ("2 A through W2", "mV"), (SHAKER, ALWAYS, {})),
    "sag": (
        (SHAKER, PWM, WEIGHT),
        ("up to 22 A", "V are lost", "T1: its own voltage falls to about"),
        ("lamp", ON_OFF, {}),
    ),
    "power-up": ((SHAKER, PWM, {}), ("port 2 must stay off",), (SHAKER, ALWAYS, {})),
    "whine": ((SHAKER, PWM, {}), ("200 Hz", "mW"), (SHAKER, ON_OFF, {})),
    "fan-electronics": (
        ("blower fan", ON_OFF, {"toys.bump.motor_type": "brushless"}),
        ("on/off port", "12 V"),
        ("blower fan", ON_OFF, {"toys.bump.motor_type": "brushed"}),
    ),
    "low-start": ((SHAKER, PWM, WEIGHT), ("turns over between", "keeps turning down to", "%"), (SHAKER, PWM, {})),
    "higher-supply": ((SHAKER, PWM, {}), ("24 V", "four times the pull"), (SHAKER, ON_OFF, {})),
    "dim": (STRIP, (" V, ", "%"), ("lamp", ON_OFF, FILAMENT)),
    "wire-basis": ((SHAKER, PWM, {}), ("IEC 60204-1", "70 °C", "8.5 A in the table"), None),
    "drop": ((SHAKER, PWM, {}), ("of 12 V", "5 % is allowed"), None),
    "supply-start": ((SHAKER, PWM, WEIGHT), ("asks for up to", "22 A at most"), None),
    "braking": ((SHAKER, PWM, {}), ("12.6 V at most",), (SHAKER, ALWAYS, {})),
    "contact-dc": (
        (SHAKER, "relay", {}),
        ("2 A at up to 12.6 V", "10 A at 30 V DC", "is enough"),
        ("contactor", ON_OFF, {}),
    ),
    "cold-lamp": (("lamp", ON_OFF, FILAMENT), ("21 A in place of 2 A", "10 ms"), STRIP),
    "ends": ((SHAKER, PWM, {}), ("0.75 mm²",), None),
    "washers": ((SHAKER, PWM, {}), ("4 screws M5, 1.2 N m", "1 h and 10 h"), None),
    "first-power": ((SHAKER, PWM, {}), ("hold 1", "hold 2"), None),
    "resettable": ((SHAKER, PWM, {}), ("holds 2 A trips near 4 A", "from 4.05 A"), UNFUSED),
}


@pytest.mark.parametrize("id", ASKED)
def test_question_stands_with_its_value_where_it_concerns(any_toy, id):
    """The common questions of the trade (common practice, no source), each with what this build works out."""
    (kind, control, changes), says, _ = ASKED[id]
    found = answers(any_toy(kind, control, changes))
    assert [words for words in says if words not in found[id]] == [], found[id]


@pytest.mark.parametrize("id", [id for id, (*_, other) in ASKED.items() if other])
def test_question_does_not_stand_where_it_does_not_concern(any_toy, id):
    kind, control, changes = ASKED[id][2]
    assert id not in answers(any_toy(kind, control, changes))


def test_questions_are_all_known(any_toy):
    """None is asked that no test above looks at."""
    others = {"diode-pwm", "relay-release"}
    asked = {one.id for kind in kinds() for control in controls() for one in any_toy(kind, control).toy.questions}
    assert asked <= set(ASKED) | others


def test_answers_are_short(any_toy):
    """At most 85 words, each sentence at most 40."""
    for (kind, control, changes), *_ in ASKED.values():
        for one in any_toy(kind, control, changes).toy.questions:
            assert len(one.answer.split()) <= 85, one.id
            assert max(len(part.split()) for part in re.split(r"(?<=[.:;!?])\s", one.answer)) <= 40, one.id


def test_release_of_a_pair_is_held_against_a_plain_diode(any_toy):
    """Where diode and zener are fitted the answer says what a diode alone would take; 24 V of zener on 12 V."""
    said = answers(
        any_toy("contactor", ON_OFF, COIL | {"toys.bump.pulse": None, "toys.bump.suppressor": "diode and zener"})
    )
    assert "With 24 V of zener" in said["release"]
    assert "within 19 ms" in said["release"]


def test_relays_coil_is_asked_about_its_release(any_toy):
    """Where its inductance is described."""
    relay = {"toys.bump.control.relay.coil_inductance": "0.3 H (datasheet)"}
    assert "24 V" in answers(any_toy(SHAKER, "relay", relay))["relay-release"]
    assert "relay-release" not in answers(any_toy(SHAKER, "relay"))


def test_contact_that_is_too_weak_is_told_in_the_answer_too(any_toy):
    relay = {"toys.bump.control.relay.contact_current": "1.9 A"}
    assert "not enough" in answers(any_toy(SHAKER, "relay", relay))["contact-dc"]


def test_used_contacts_of_a_contactor_are_asked_about(any_toy):
    used = {"toys.bump.contacts": "used", "toys.bump.contact_voltage": "30 V", "toys.bump.contact_current": "10 A",
            "toys.bump.switched": {"voltage": "24 V", "current": "4 A (measured)"}}  # fmt: skip
    assert (
        "4 A at 24 V here, and are rated for 10 A at 30 V DC"
        in answers(any_toy("contactor", ON_OFF, used))["contact-dc"]
    )


def test_output_that_reverses_can_push_the_rail_up(any_toy):
    """1.15 x 12 V is the most that a toy may get; this project."""
    said = answers(any_toy(SHAKER, TRIMMER, {"toys.bump.control.controller.reverses": "yes"}))["braking"]
    assert "returns energy" in said
    assert "13.8 V" in said


def test_start_that_is_not_known_is_to_be_measured(any_toy):
    """Of a winding its resistance: Ohm's law gives the most; electronics need a meter."""
    assert "measure its winding's resistance" in answers(any_toy(SHAKER, PWM))["supply-start"]
    assert "clamp meter" in answers(any_toy(*STRIP))["supply-start"]


def test_breaking_capacity_is_explained_beside_the_lower_limit(any_toy):
    """1.5 and 1.1 times 20 A where no data sheet says (this project): 30 A and 22 A."""
    said = answers(any_toy(SHAKER, PWM))["fuse-voltage"]
    assert "1.5 times its 20 A" in said
    assert "1.1 times, 22 A" in said


def test_held_fast_is_one_current_on_the_whole_page(any_toy):
    """Ohm's law: the highest voltage over winding and path; caution, question, chart and supply quote the same."""
    case = any_toy(SHAKER, PWM, MOTOR)
    load, guarded = case.toy.sized.load, case.toy.protection
    assert load.start_A < 12.6 / 0.5
    assert guarded.start_A == guarded.held_A[1] == load.start_A
    told = f"asks for up to {load.start_A:.3g} A"
    said = [answers(case)["fuse-motor"], *guarded.says, *(one.reason for one in case.toy.cautions if one.id == "stall")]
    assert sum(told in one.replace("\u00a0", " ") for one in said) == 3


def test_start_that_is_not_known_loses_so_much_for_each_ten_amperes(any_toy):
    """Ohm's law: ten amperes times the loop."""
    said = answers(any_toy(SHAKER, PWM))["sag"]
    assert "Each 10 A of it lose" in said


def test_coil_that_stays_cool_may_be_held(any_toy):
    """A tenth of an ampere in the same body: full voltage for ever."""
    cool = COIL | {"toys.bump.current": "0.1 A (measured)", "toys.bump.coil.resistance": "120 ohm (measured)"}
    assert "full voltage for ever" in answers(any_toy("knocker", ON_OFF, cool))["coil-hold"]


# ---- of a supply ----------------------------------------------------------------------------------------------------


def of_supply(case, supply="main"):
    return {one.id: one.answer.replace("\u00a0", " ") for one in case.plan.supplies[supply].budget.questions}


def test_supply_answers_what_is_asked_of_it(plan_of, small_build):
    """Parallel supplies, touching, tingling; one fuse for several where there are several."""
    alone = of_supply(plan_of())
    assert list(alone) == ["parallel", "touched", "tingle"]
    assert "16 A for long, and 2 A are asked" in alone["parallel"]
    second = small_build["toys"]["bump"] | {"control": {"type": "always on"}}
    both = of_supply(plan_of({"toys.second": second}))
    assert "4 A of all together" in both["one-fuse"]
    assert "8.5 A of 0.75 mm²" in both["one-fuse"]


def test_supply_that_is_too_small_says_which_to_buy(plan_of):
    """2 A at four fifths is 2.5 A (common practice, no source)."""
    assert "take one of" in of_supply(plan_of({"supplies.main.current": "2.2 A"}))["parallel"]


@pytest.mark.parametrize(
    ("high", "words"),
    [
        ("30 V", "stays at or below 30 V"),
        ("30.5 V", "above 30 V"),
        ("49.9 V", "above 30 V"),
        ("50 V", "guard bare parts"),
    ],
)
def test_voltage_that_can_be_touched_is_told_by_degree(plan_of, high, words):
    """IEC 60364-4-41 (from memory); 29 CFR 1910.303(g)(2)(i)."""
    said = of_supply(plan_of({"supplies.main.voltage_range": f"11 V to {high}"}))["touched"]
    assert words in said
    assert " W into a ring" in said


@pytest.mark.parametrize(
    ("pin", "words"), [("yes", "earthed plug, so"), ("no", "two-wire plug"), (None, "not described")]
)
def test_tingling_is_answered_by_the_plug(plan_of, pin, words):
    """Filters of unearthed supplies leak: common practice, no source."""
    assert words in of_supply(plan_of({"supplies.main.earth_pin": pin}))["tingle"]


def test_a_held_coil_is_not_told_about_pulses(any_toy):
    held, pulsed = (
        answers(any_toy(kind, ON_OFF, COIL if kind == "knocker" else HELD)) for kind in ("contactor", "knocker")
    )
    assert "made for pulses" in pulsed["fuse-motor"]
    assert "pulse" not in held["fuse-motor"]


def test_release_is_compared_with_rc_and_with_nothing(any_toy):
    """Nothing: 10 ms ln((2 x 6 + 47.4) / (0.2 x 6 + 47.4)), the port breaking through at 60 V of 12.6 V: 2.0 ms."""
    said = answers(any_toy("knocker", ON_OFF, COIL))["release"]
    assert "With nothing it would let go within 2" in said
    assert "60 V" in said
    assert "no way" in said
    high = answers(any_toy("knocker", ON_OFF, COIL | {"boards.quay.port_voltage": "250 V"}))["release"]
    assert "in series would let go within" in high


def test_a_knocker_is_told_when_its_current_has_risen(any_toy):
    """60 mH / 6 ohm x -ln(1 - 0.85): the charging coil of any text."""
    assert "19 ms" in answers(any_toy("knocker", ON_OFF, COIL))["coil-hold"]
