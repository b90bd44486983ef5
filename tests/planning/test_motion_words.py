"""How settings, ranges and readings of a motion are worded: in the digits of the steps, ends told apart, said once."""

from dataclasses import replace
from math import inf
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from guide_gen.controls import controls
from guide_gen.formulas.motion_found import Check
from guide_gen.formulas.motion_found import Compared as Outcome
from guide_gen.model.kind import Dial
from guide_gen.model.shaking import left_reading
from guide_gen.planning.as_text import motion_lines
from guide_gen.planning.motion import tuned
from guide_gen.planning.motion_words import between, compared, settable, upto
from guide_gen.values import show

ROOT = Path(__file__).parents[2]
FERRY = (ROOT / "content" / "builds" / "night-ferry" / "build.yaml").read_text(encoding="utf-8")
SHED = (ROOT / "content" / "builds" / "salt-shed" / "build.yaml").read_text(encoding="utf-8")


def plain(text):
    return text.replace("\u00a0", " ")


@pytest.fixture(name="ferry", scope="module")
def _ferry(plan_of):
    return plan_of(FERRY).plan.toys["bow-shaker"]


@pytest.fixture(name="shed", scope="module")
def _shed(plan_of):
    return plan_of(SHED).plan.toys["keel-shaker"]


@pytest.mark.parametrize(
    ("shown", "text"),
    [
        (between(0.0493, 0.08), "between 4.93 % and 8 %"),
        (between(0.07731, 0.07733), "between 7.731 % and 7.733 %"),
        (between(0.0773, 0.0773), "at 7.73 %"),
        (between(0.05, inf), "at 5 % or never"),
        (between(inf, inf), "never"),
        (upto(0.0771, 0.2123), "7.71 % to 21.23 %"),
        (upto(0.05, inf), "5 % to never"),
        (upto(0.05, 0.05), "5 %"),
    ],
)
def test_settings_are_worded_as_fine_as_the_steps(shown, text):
    assert plain(shown) == text


@given(st.floats(0.001, 0.999), st.floats(1e-7, 0.001))
def test_ends_of_settings_read_alike_only_where_they_are_alike(low, further):
    """To six digits."""
    first, last = upto(low, low + further).split(" to ")
    assert first != last or further < 1e-5 * low


@given(st.sampled_from([Check.TURNING, Check.NATURAL, Check.CURRENT]), st.floats(0.2, 60.0), st.floats(0.0, 0.2))
def test_a_range_of_a_reading_never_has_two_ends_that_read_alike(check, low, further):
    said = compared(Outcome(check, low, (low, low * (1 + further)), outside=False)).predicted
    if " to " in said:
        first, last = said.split(" to ")
        assert first != show.figure_and_unit(last)[0]


def test_a_narrow_range_of_frequencies_is_told_apart():
    said = compared(Outcome(Check.TURNING, 8.3, (8.297, 8.304), outside=False))
    assert plain(said.predicted) == "8.297 to 8.304 Hz"


@pytest.mark.parametrize(
    ("band", "step", "wide"),
    [((0.046, 0.049), 0.01, False), ((0.04, 0.05), 0.01, True), ((0.04, 0.055), 0.02, False), (None, 0.01, False)],
)
def test_a_band_narrower_than_a_step_cannot_be_set(band, step, wide):
    assert settable(band, step) is wide


# One motion, three places: the line under the chart, the terminal, the steps.


@pytest.mark.parametrize("name", ["ferry", "shed"])
def test_terminal_sentences_and_steps_name_the_same_settings(name, request):
    toy = request.getfixturevalue(name)
    motion = toy.motion
    lines = [plain(line) for line in motion_lines(motion)]
    starts = plain(between(*motion.start))
    assert lines[0] == f"  Motion ({motion.what}):"
    assert lines[1] == f"    turns over {starts}, likeliest at {plain(show.setting(motion.start_nominal))}"
    begin, step, stop = (plain(show.setting(one)) for one in (motion.begin, motion.step, motion.stop))
    assert lines[2] == f"    begin {begin}, step {step}, stop {stop}"
    assert lines[3].startswith("    likeliest bands: no motion 0 % to ")
    assert lines[3].endswith("to 100 %")
    assert [line.removeprefix("    note: ") for line in lines[4:]] == [plain(one) for one in motion.doubts]
    assert plain(motion.short).startswith(f"Turns over {starts}. ")
    for band in motion.bands:
        assert plain(show.setting(band.low)) in lines[3]


def test_terminal_says_never_and_not_promised(ferry):
    never = replace(ferry.motion, start=(inf, inf), start_nominal=inf, begin=inf, stop=inf)
    lines = [plain(line) for line in motion_lines(never)]
    assert lines[1] == "    turns over never, likeliest never"
    assert lines[2].startswith("    begin never, step ")
    assert lines[2].endswith("stop cannot be promised, measure first")


def test_likeliest_of_the_sentence_is_the_edge_of_the_chart(ferry):
    """Where it turns evenly from its start on."""
    motion = ferry.motion
    nominal = show.setting(motion.start_nominal)
    assert any(f"the likeliest at {nominal}" in one for one in motion.says)
    assert nominal in {show.setting(one.low) for one in motion.bands}


# The dial.


def dial_of(toy, plan_of):
    build = plan_of(FERRY if toy.slug == "bow-shaker" else SHED).description.build
    control = build.toys[toy.slug].control
    return controls()[toy.sized.control].dial(control)


def test_a_useful_plan_puts_its_settings_on_the_dial(ferry, plan_of):
    motion = replace(ferry.motion, useful=True, limit=None)
    dial = tuned(dial_of(ferry, plan_of), motion)
    said = plain(dial.smallest_step)
    begin, step, stop = (plain(show.setting(one)) for one in (motion.begin, motion.step, motion.stop))
    assert said == (
        f"Set the port's highest value to {begin} first, then raise it by {step} at a time. Stop at {stop} at the "
        "latest."
    )
    assert dial.limit == pytest.approx(100 * motion.stop)


def test_a_port_s_limit_below_the_stop_is_the_dials_stop(ferry, plan_of):
    dial = tuned(dial_of(ferry, plan_of), replace(ferry.motion, useful=True, limit=0.12))
    assert "Stop at 12 % at the latest." in plain(dial.smallest_step)


def test_a_plan_of_no_use_leaves_the_dial_as_it_was(ferry, plan_of):
    dial = dial_of(ferry, plan_of)
    assert tuned(dial, replace(ferry.motion, useful=False)) == dial
    assert tuned(dial, None) == dial
    assert tuned(None, ferry.motion) is None


def test_a_trimmer_is_told_by_volts_at_the_motor(shed, plan_of):
    motion = replace(shed.motion, useful=True, start_V=(0.515, 1.832), stop_V=3.6)
    said = plain(tuned(dial_of(shed, plan_of), motion).smallest_step)
    assert "A meter at the motor shows 0.515 to 1.83 V just before it turns over" in said
    assert "Stop at 3.6 V at the latest." in said


def test_too_much_as_soon_as_it_turns_stands_on_the_dial(ferry, plan_of):
    motion = replace(ferry.motion, start=(0.05, 0.08), ceiling=0.045, stop=inf)
    assert plain(tuned(dial_of(ferry, plan_of), motion).smallest_step).startswith("It may be too much from 4.5 % on")


@pytest.mark.parametrize("mass", ["20 kg", "30 kg", "40 kg", "60 kg"])
def test_no_step_says_twice_that_no_setting_can_be_promised(plan_of, mass):
    """Light cabinets with a disk: too much as soon as it turns, or perhaps."""
    text = FERRY.replace("cabinet:\n", "cabinet:\n  contents: spinning disk\n", 1).replace(
        "mass: 95 kg", f"mass: {mass}"
    )
    for limit in ("limit: 12 %", "limit: 90 %"):
        toy = plan_of(text.replace("limit: 12 %", limit, 1)).plan.toys["bow-shaker"]
        for step in toy.steps:
            if step.id.startswith("shaker.tune"):
                assert f"{step.text} {step.more}".lower().count("no setting can be promised") <= 1, step.id


def test_as_left_setting_of_a_trimmer_is_expected_in_volts(shed):
    """From what the motor at rest just stands to the stop: here the whole voltage."""
    step = next(one for one in shed.steps if one.id == "shaker.tune.left")
    reading = step.record
    assert (reading.low, reading.unit) == (shed.motion.start_V[0], "V")
    assert reading.high == shed.sized.supply_high_V
    assert "meter at the motor" in step.text
    assert "in percent" in step.more


def test_a_stop_of_a_trimmer_is_the_highest_that_is_expected_as_left(shed):
    """In volts, and no range where it cannot turn below its stop."""
    dial = Dial("the end", "Turn it down.", "A little.", "°", "the other end", "the end")
    for stop, start_V, low in ((0.25, (0.5, 1.8), 0.5), (0.04, (0.5, 1.8), None)):
        motion = replace(shed.motion, ceiling=stop + 0.01, stop=stop, start_V=start_V)
        reading = left_reading(replace(shed.sized, motion=motion), dial)
        assert (reading.low, reading.high) == (low, pytest.approx(stop * shed.sized.supply_V))


def test_as_left_share_of_a_trimmer_is_held_against_the_plan(plan_of):
    """Written as setting: the meter's volts over the supply's."""
    assert "    play: {loud: yes, effect: both}\n" in SHED
    for setting, outside in (("2 %", True), ("20 %", False)):
        text = SHED.replace(
            "    play: {loud: yes, effect: both}\n",
            f"    play: {{loud: yes, effect: both}}\n    found: {{setting: {setting}}}\n",
            1,
        )
        toy = plan_of(text).plan.toys["keel-shaker"]
        assert ("reading-outside" in {one.code for one in toy.findings}) is outside
