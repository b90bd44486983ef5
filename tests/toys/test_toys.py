"""What each kind says of itself."""

from math import pi

import pytest


@pytest.fixture(name="shaker", scope="module")
def _shaker(plan_of):
    return lambda changes=None: plan_of(changes or {}).toy


def _texts(toy, stage):
    return [step.text for step in toy.steps if step.stage == stage]


def _reason(toy, id):
    return next(caution.reason for caution in toy.cautions if caution.id == id).replace("\u00a0", " ")


SPEED = {"toys.bump.motor": {"speed": "2100 rpm (measured)"}}


@pytest.mark.parametrize(
    ("weight", "unbalance_kg_m"),
    [
        ({"unbalance": "8 g m (datasheet)"}, 0.008),
        ({"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"}}, 0.05 * 0.180),  # lever rule
        (
            {"shape": {"form": "half disc", "radius": "52 mm", "thickness": "12 mm", "material": "steel"}},
            7850 * 0.012 * pi * 0.052**2 / 2 * 4 * 0.052 / (3 * pi),  # centroid: Beer and Johnston, Statics
        ),
    ],
)  # fmt: skip
def test_pull_of_the_weight_is_told_from_each_way_to_know_it(shaker, weight, unbalance_kg_m):
    """m e w squared, at 2100 turns a minute."""
    force = unbalance_kg_m * (2100 * 2 * pi / 60) ** 2
    told = _reason(shaker(SPEED | {"toys.bump.weight": weight}), "weight-flies")
    assert float(told.split("about ")[1].split(" N")[0]) == pytest.approx(force, rel=0.005)


def test_pull_is_not_guessed(shaker):
    """Without speed or weight no force is told, and the caution stands all the same."""
    assert _reason(shaker(), "weight-flies") == ""
    assert _reason(shaker({"toys.bump.weight": {"unbalance": "8 g m (datasheet)"}}), "weight-flies") == ""


def test_rim_speed_and_the_supplys_highest_voltage_stand_beside_the_pull(shaker):
    """r w with the lever of the scale: 50 mm at 2100 turns a minute is 11 m/s; 13 V instead of 12 adds 8 and 17 %."""
    weight = {"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"}}
    known = SPEED | {"toys.bump.weight": weight, "supplies.main.voltage_range": "12 V to 13 V"}
    told = _reason(shaker(known), "weight-flies")
    assert "435 N, its rim at 11 m/s" in told
    assert "at 13 V with up to 511 N, its rim at 12 m/s" in told


def test_rim_speed_is_left_out_where_the_reach_is_not_known(shaker):
    told = _reason(shaker(SPEED | {"toys.bump.weight": {"unbalance": "8 g m (datasheet)"}}), "weight-flies")
    assert "387 N" in told
    assert "m/s" not in told


def test_scale_comes_before_shape(shaker):
    """It is preferred to geometry."""
    both = {"scale": {"lever": "50 mm", "raising": "210 g", "lowering": "150 g"}, "unbalance": "20 g m (estimate)"}
    assert "435 N" in _reason(shaker(SPEED | {"toys.bump.weight": both}), "weight-flies")


def test_overspeed_is_warned_of_above_a_tenth(shaker):
    """11 V motor on a supply that can reach 12.1 V, then 12.2 V: force goes with the square."""
    calm = shaker({"toys.bump.voltage": "11 V", "supplies.main.voltage_range": "11 V to 12.1 V"})
    fast = shaker({"toys.bump.voltage": "11 V", "supplies.main.voltage_range": "11 V to 12.2 V"})
    assert "overspeed" not in {caution.id for caution in calm.cautions}
    assert "1.2 times the pull" in _reason(fast, "overspeed")


def test_winding_is_measured_against_its_resistance_or_only_bounded(shaker):
    """Known: 20 % each way. Not known: below V / I (OpenStax College Physics 2e, back emf)."""
    known = shaker({"toys.bump.motor": {"resistance": "0.32 ohm (measured)"}})
    bounded = shaker({"toys.bump.current": "1.5 A to 2 A (measured)"})
    readings = [next(one for one in toy.readings if one.what.startswith("Resistance of the winding"))
                for toy in (known, bounded)]  # fmt: skip
    assert (readings[0].low, readings[0].high) == pytest.approx((0.256, 0.384))
    assert readings[1].high == pytest.approx(12.0 / 1.5)


def test_shaker_is_mounted_front_to_back_for_a_reason(shaker):
    """So that the weight throws sideways; another way round is told of."""
    advice = {each.what: each.why for each in shaker().mounting_advice.advice}
    assert "sideways" in advice["Shaft front to back."]
    assert any("sway" in text or "better" in text
               for text in shaker({"toys.bump.mount": {"shaft": "upright"}}).mounting_advice.paragraphs)  # fmt: skip


def test_shaker_is_tuned_to_a_sway_in_small_steps(shaker):
    """From zero, a buzz first, well below everything rattling, the as-left value written, later lowered."""
    toy = shaker()
    tuning = " ".join(_texts(toy, "tune"))
    for words in ("0 %", "1 %", "turns over", "a sway, not a vibration", "well before everything rattles", "as-left"):
        assert words in tuning.replace("\u00a0", " ")
    assert any("buzz" in step.more for step in toy.steps)
    assert any("Lower it rather than raise it" in text for text in _texts(toy, "after-play"))
    assert any("nudge" in text for text in _texts(toy, "play"))


def test_hands_are_out_while_a_shaker_is_tuned(shaker, with_controller):
    """Or the trimmer is reached from outside with an insulated tool, where nothing moves within reach."""
    assert any("Hands out and guard shut" in step.more for step in shaker().steps)
    assert any("insulated tool" in step.more for step in shaker(with_controller()).steps)


def test_shaker_without_a_setting_cannot_be_turned_down(any_toy):
    """The page says what to do instead."""
    toy = any_toy("shaker motor", "always on").toy
    assert any("smaller weight" in step.more for step in toy.steps)
    assert any("full strength or nothing" in note for note in toy.tuning_notes)


def test_loud_toys_and_sampled_sounds_are_told(shaker):
    """What the game's side is to be set to."""
    quiet, loud = shaker(), shaker({"toys.bump.play": {"loud": "yes", "effect": "both"}})
    entered = [
        {setting.what: setting.value for setting in toy.settings if setting.where == "game"} for toy in (quiet, loud)
    ]
    assert entered[0] == {"effect": "the real effect, no sampled sound", "silenced after hours": "no"}
    assert entered[1] == {"effect": "the real effect and the sampled sound", "silenced after hours": "yes"}
    assert any("silenced after hours" in note for note in loud.play_notes)


def test_fan_with_electronics_has_its_polarity_checked_and_no_winding(any_toy):
    """A meter tells nothing across it."""
    brushless = any_toy("blower fan", "on/off port", {"toys.bump.motor_type": "brushless"}).toy
    brushed = any_toy("blower fan", "on/off port", {"toys.bump.motor_type": "brushed"}).toy
    assert any("plus lead is on M1:1" in text for text in _texts(brushless, "dead-checks"))
    assert not any("winding" in one.what for one in brushless.readings)
    assert any("winding" in one.what for one in brushed.readings)


def test_fan_on_a_dial_is_tuned_before_it_runs_at_full_strength(any_toy):
    """From the lowest end upward; on an on/off port the first run is full strength."""
    dialled = any_toy("blower fan", "pwm port").toy
    plain = any_toy("blower fan", "on/off port").toy
    assert "blower.first.run" not in {step.id for step in dialled.steps}
    assert "blower.first.run" in {step.id for step in plain.steps}


def test_fan_chopped_by_pwm_is_warned_of(any_toy):
    """Beside the finding."""
    chopped = any_toy("blower fan", "pwm port", {"toys.bump.motor_type": "brushless"}).toy
    assert "chop" in {caution.id for caution in chopped.cautions}
    assert "chop" not in {caution.id for caution in any_toy("blower fan", "pwm port").toy.cautions}
