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
    assert "held fast draws up to" in known["fuse-motor"]
    assert "how much is not known" in answers(plan_of())["fuse-motor"]


def test_whine_is_heard_below_20_kHz_only(plan_of, with_controller):
    """People hear from about 20 Hz to 20 kHz: common practice, no source."""
    assert "200 Hz, which people hear" in answers(plan_of())["whine"]
    quiet = with_controller(controller__pwm_frequency="25 kHz")
    assert "do not hear" in answers(plan_of(quiet))["whine"]


def test_place_of_the_fuse_names_the_lead_before_it(plan_of):
    """33 CFR 183.455(b): 7 in."""
    said = answers(plan_of())["fuse-place"]
    assert "7 in" in said
    assert "W1" in said


def test_without_a_fuse_no_question_about_it_is_asked(plan_of):
    assert not any(one.startswith("fuse") for one in answers(plan_of({"toys.bump.feed.fuse": "none"})))
