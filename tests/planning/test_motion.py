"""What a shaker does at each setting, on the plan: bands, remedies, readings and findings.

The machine is that of the design's example: 0.32 ohm, 2100 rpm and 5 to 6 A at 12 V, arm 50 mm, 210 g raising and 150 g
lowering, swing 0.47 s. By hand: unbalance 0.05 x 0.18 kg = 9 g m; friction 9.80665 x 0.05 x 0.03 = 15 mN m;
Ke = (12 - 5.5 x 0.32) / 219.9 = 46.6 mV s. Physics of the thresholds is held in tests/formulas and tests/outside.
"""

from itertools import pairwise
from pathlib import Path

import pytest

from guide_gen.controls import controls
from guide_gen.model.finding import Level
from guide_gen.toys import kinds

ROOT = Path(__file__).parents[2]
FERRY = (ROOT / "content" / "builds" / "night-ferry" / "build.yaml").read_text(encoding="utf-8")
SHED = (ROOT / "content" / "builds" / "salt-shed" / "build.yaml").read_text(encoding="utf-8")


@pytest.fixture(name="shaker", scope="module")
def _shaker(plan_of):
    """Plans the Night Ferry with changes of its text, and gives the shaker and the whole case."""

    def planned(*changes, text=FERRY, slug="bow-shaker"):
        for old, new in changes:
            assert old in text, old
            text = text.replace(old, new, 1)
        case = plan_of(text)
        return case, case.plan.toys[slug]

    return planned


def codes(toy):
    return {finding.code for finding in toy.findings}


def test_machine_is_what_the_scale_and_the_speed_say(plan_of):
    """Each by hand from the readings."""
    toy = plan_of(FERRY).description.build.toys["bow-shaker"]
    machine = kinds()["shaker motor"].machine(toy)
    assert machine.unbalance_kg_m.nominal == pytest.approx(0.05 * 0.18)
    assert machine.friction_N_m.nominal == pytest.approx(9.80665 * 0.05 * 0.03)
    assert machine.emf_V_s.nominal == pytest.approx((12 - 5.477 * 0.32) / 219.9, rel=1e-3)
    assert machine.guessed == ("inductance",)


def test_empty_sway_is_told_with_what_to_change(shaker):
    """At 200 Hz it starts straight into vibration; remedies stand in the order of the design."""
    _, toy = shaker()
    assert not [band for band in toy.motion.bands if band.name == "sway"]
    assert any("no sway" in doubt for doubt in toy.motion.doubts)
    assert [sentence.split()[1] for sentence in toy.motion.remedies] == ["PWM", "kick,", "smaller", "trimmer-set"]


def test_higher_pwm_frequency_opens_the_sway_band(shaker):
    """The first remedy works: at 1 kHz there is a sway band between start and 8 Hz."""
    _, toy = shaker(("pwm_frequency: 200 Hz", "pwm_frequency: 1 kHz"))
    sway = [band for band in toy.motion.bands if band.name == "sway"]
    assert len(sway) == 1
    assert sway[0].low == pytest.approx(toy.motion.start_nominal, abs=0.005)


def test_trimmer_has_a_wide_sway_band(shaker):
    """A smooth voltage lets it turn slowly."""
    _, toy = shaker(text=SHED, slug="keel-shaker")
    assert [band.name for band in toy.motion.bands if band.name == "sway"]
    assert toy.motion.what == "share of full voltage"


def test_bands_cover_all_settings_without_gaps(shaker):
    """From 0 to 100 %."""
    _, toy = shaker()
    bands = toy.motion.bands
    assert (bands[0].low, bands[-1].high) == (0.0, 1.0)
    assert all(one.high == other.low for one, other in pairwise(bands))


def test_tuning_steps_begin_where_the_plan_says(shaker):
    """The computed beginning and step stand in the step, and nothing goes above the build's limit."""
    _, toy = shaker()
    text = next(step.text for step in toy.steps if step.id == "shaker.tune.first")
    assert f"{100 * toy.motion.begin:.1f}"[:3] in text
    assert "12\u00a0%" in text
    assert toy.motion.begin <= toy.motion.start[0]


def test_measured_start_narrows_the_range(shaker):
    """It was seen to begin at 8 %, so the range shrinks round it."""
    _, before = shaker()
    _, after = shaker(("found: {setting: 8 %", "found: {setting: 9 %, start: 8 %"))
    assert after.motion.start[1] - after.motion.start[0] < before.motion.start[1] - before.motion.start[0]
    assert after.motion.start[0] <= 0.08 + 0.02
    assert any(one.what == "begins to turn" and one.fits for one in after.motion.compared)


def test_reading_that_contradicts_the_plan_is_told(shaker):
    """A weight that begins to turn at 60 % is another machine."""
    case, toy = shaker(("found: {setting: 8 %", "found: {setting: 70 %, start: 60 %"))
    outside = [finding for finding in toy.findings if finding.code == "reading-outside"]
    assert outside
    assert outside[0].level is Level.NOTE
    assert case.above(outside[0])[-1] == "found"


def test_limit_above_what_the_contents_stand_is_told(shaker):
    """A spinning disk stands 1 m/s² (IEC 60721-3-3:1994 class 3M1): the limit of 12 % is too high, one below is not."""
    disk = ("  damping: 6 % (measured)\n", "  damping: 6 % (measured)\n  contents: spinning disk\n")
    case, toy = shaker(disk, ("limit: 12 %", "limit: 90 %"))
    assert "limit-too-high" in codes(toy)
    _, low = shaker(disk, ("limit: 12 %", f"limit: {100 * toy.motion.stop:.1f} %"))
    assert "limit-too-high" not in codes(low)
    assert case.plan.toys["bow-shaker"].motion.contents.startswith("a spinning disk")


def test_as_left_above_the_limit_is_told(shaker):
    """Left at 90 % with a spinning disk inside."""
    disk = ("  damping: 6 % (measured)\n", "  damping: 6 % (measured)\n  contents: spinning disk\n")
    _, toy = shaker(disk, ("limit: 12 %", "limit: 100 %"), ("found: {setting: 8 %", "found: {setting: 90 %"))
    assert "sway-over-limit" in codes(toy)


def test_unknown_machine_names_the_measurement_that_helps_most(plan_of):
    """No setting is foretold from the running current alone."""
    toy = plan_of({}).toy
    assert toy.motion is None
    assert any("nothing is known of this motor" in note and "would help most" in note for note in toy.tuning_notes)


@pytest.mark.parametrize("control", [word for word, one in controls().items() if not one.ported])
def test_toy_without_a_setting_has_no_motion_plan(plan_of, control):
    """Nothing can be set."""
    assert plan_of({"toys.bump.control": {"type": control}, "boards": None}).toy.motion is None
