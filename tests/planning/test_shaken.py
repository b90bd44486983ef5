"""What a log means, in sentences: verdict, what is felt, what is doubtful, what to copy into the description."""

import re
import sys
from math import pi
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from guide_gen.description.build import Cabinet
from guide_gen.formulas.log_text import LogProblem, Trouble
from guide_gen.model.fields import FoundFields
from guide_gen.planning.shaken import percent, shaken
from guide_gen.planning.shaken_report import shaken_json, shaken_text
from guide_gen.published.vibration import vibration_class
from guide_gen.toys.shaker_motor import Motor
from guide_gen.values.show import plain_spaces

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import log, push, pushed, rubbing, tone


def read(signal, *, limit="3M2", kind="auto", **make):
    """A record read as the command reads it."""
    return shaken(log(signal, **make), vibration_class(limit), kind)


def verdict(signal, **how):
    """Its one sentence, with plain spaces."""
    return plain_spaces(read(signal, **how).found.verdict)


# Shift of a sinusoid: acceleration by (2 pi f) squared; limits of IEC 60721-3-3 (labels of 1994): 3M1 0.3 mm and
# 1 m/s², 3M2 and 3M3 1.5 mm and 5 m/s², 3M4 3 mm and 10 m/s²; shift below 9 Hz, acceleration from there on.
@pytest.mark.parametrize(("signal", "limit", "sentence"), [
    (tone(6, 1.0), "3M2",
     "Within the limit 3M2: at 6.0 Hz the cabinet moves by 0.703 mm (0.0277 in) each way, 47 % of the 1.5 mm that it "
     "allows."),
    (tone(6, 1.0), "3M1",
     "Over the limit 3M1: at 6.0 Hz the cabinet moves by 0.703 mm (0.0277 in) each way, 234 % of the 0.3 mm that "
     "it allows: lower the setting."),
    (tone(20, 3.0), "3M3",
     "Within the limit 3M3: at 20 Hz the cabinet is shaken with 3 m/s² (0.306 g), 60 % of the 5 m/s² that it allows."),
    (tone(20, 12.0), "3M4",
     "Over the limit 3M4: at 20 Hz the cabinet is shaken with 12 m/s² (1.22 g), 120 % of the 10 m/s² that it allows: "
     "lower the setting."),
])  # fmt: skip
def test_the_verdict_is_one_sentence_with_strength_share_and_what_to_do(signal, limit, sentence):
    assert verdict(signal, limit=limit) == sentence


@pytest.mark.parametrize(("signal", "sentence"), [
    (tone(6, 0.5),
     "The turning itself is the strongest, slower than about 8 times a second: felt as a sway."),
    (tone(14, 2.0),
     "The turning itself is the strongest, faster than about 8 times a second: felt as a vibration."),
    (lambda time: 0.25 * np.sin(2 * pi * 2.4 * time) + 0.9 * np.sin(2 * pi * 4.8 * time + 1),
     "Line 2 is the strongest: the weight turns at 2.4 Hz, but the cabinet answers at 4.8 Hz, slower than about 8 "
     "times a second: felt as a sway."),
])  # fmt: skip
def test_it_says_how_the_strongest_line_is_felt(signal, sentence):
    assert plain_spaces(read(signal).found.felt) == sentence


def test_what_a_hand_hardly_feels_is_told():
    assert read(tone(6, 0.02), noise=0.001).found.felt == "A hand hardly feels it."


def test_lines_in_the_noise_get_no_strength():
    text = shaken_text(read(tone(6, 1.0)))
    assert text.count("lost in the noise") == 4
    assert "  1      6.0 Hz      1 m/s²" in text


def test_below_2_Hz_it_says_that_the_standard_ends():
    assert "The standard begins at 2 Hz" in shaken_text(read(tone(1.5, 0.05), noise=0.001))
    assert "The standard begins" not in shaken_text(read(tone(2.5, 0.05), noise=0.001))


def test_a_clipped_record_is_never_called_within_the_limit():
    """A range of 0.7 m/s² cuts a swing of 1 m/s²."""
    found = read(tone(6, 1.0), limit="3M4", gravity=False, clip=0.7, noise=0.0)
    assert found.found.within is None
    assert found.found.verdict.startswith("Not to be judged against the limit 3M4: at")
    assert "or more, at least" in found.found.verdict
    assert any("range ended there" in warning for warning in found.warnings)
    assert "within" not in shaken_json(found)


def test_an_unsteady_speed_is_not_to_be_copied():
    found = read(lambda time: 0.3 * np.sin(2 * pi * (8 + 0.05 * time) * time))
    assert found.paste is None
    assert found.found.within is None
    assert "copy into the description" not in shaken_text(found)


def test_a_clipped_record_has_no_speed_to_copy_and_says_that_it_may_be_wrong():
    """30 Hz, cut at 2 g: three times 30 Hz, mirrored at 100 samples a second, is 10 Hz."""
    found = read(tone(30.0, 60.0), clip=19.6)
    assert found.paste is None
    assert found.found.verdict.startswith("Over the limit 3M2: at 30\u00a0Hz")
    assert " or more, at least " in found.found.verdict
    text = shaken_text(found)
    assert "Careful: The strongest samples all have the same value" in text
    assert "the turning frequency may be wrong too" in text
    assert "copy into the description" not in text
    assert re.search(r"at least \d+ % \(decides\)", text)
    assert "paste" not in shaken_json(found)


def test_a_unit_that_was_assumed_leaves_the_verdict_open_where_it_matters():
    """3 m/s² at 20 Hz are 60 % of 5 m/s²; 3 g would be six times that limit. 0.2 m/s² are within it either way."""
    open_one = read(tone(20, 3.0), gravity=False)
    assert plain_spaces(open_one.found.verdict).endswith(
        "is shaken with 3 m/s² (0.306 g), 60 % of the 5 m/s² that it allows, if the log is in m/s²."
    )
    assert open_one.found.within is None
    assert "within" not in shaken_json(open_one)
    assert any("m/s² was assumed" in warning for warning in shaken_json(open_one)["warnings"])
    assert read(tone(20, 0.2), gravity=False).found.within is True
    assert read(tone(20, 8.0), gravity=False).found.within is False


def test_a_unit_that_does_not_fit_leaves_the_verdict_open():
    doubtful = read(tone(20, 3.0), unit=0.5)
    assert doubtful.found.within is None
    assert doubtful.found.verdict.endswith("if its unit is right.")


def test_a_push_needs_no_unit():
    assert read(push(), gravity=False).warnings == ()


def test_what_was_left_of_a_long_log_is_told():
    sentence = "Only the first 60 s of the 90 s were read: if what you mean comes later, cut the log to it."
    found = read(tone(6, 1.0), seconds=90.0)
    assert found.warnings == (sentence,)
    assert f"Careful: {sentence}" in shaken_text(found)
    assert shaken_json(found)["warnings"] == [sentence]
    assert shaken_json(found)["record"]["whole_length_s"] == pytest.approx(90.0, abs=0.1)
    assert read(tone(6, 1.0), seconds=60.5).warnings == ()


def test_a_refusal_of_a_long_log_tells_what_was_left_too():
    with pytest.raises(LogProblem, match=r"No frequency stands out .* Only the first 60 s of the 90 s were read"):
        read(lambda time: tone(6, 1.0)(time) * (time > 70), seconds=90.0)


def test_a_clipped_push_gives_its_frequency_alone():
    found = read(push(), gravity=False, clip=1.0, noise=0.0)
    assert found.found.damping is None
    assert found.found.natural_Hz.value == pytest.approx(4.7, rel=0.02)
    assert "since the record is clipped" in found.found.verdict
    assert [line.split(":")[0] for line in found.paste.lines] == ["sideways_frequency"]


def test_friction_gives_the_frequency_alone_and_says_why():
    found = read(rubbing())
    assert plain_spaces(found.found.verdict) == (
        "The damping cannot be told, since friction, not a damper, stops it; a weight that turns at 4.7 Hz, or at half "
        "of that, shakes this cabinet most."
    )
    assert found.paste.lines == ("sideways_frequency: 4.7 Hz (measured)",)


def test_a_push_says_how_fast_it_fades_and_what_meets_it():
    """A third is left after 1 / (2 pi f z), by e = 2.7: 0.564 s at 4.7 Hz and 6 %."""
    assert verdict(push(damping=0.06), noise=0.002) == (
        "A push fades to a third in about 0.564 s, and a weight that turns at 4.7 Hz, or at half of that, shakes "
        "this cabinet most."
    )


def test_a_single_push_asks_for_three():
    text = shaken_text(read(push()))
    assert "From one push" in text
    assert "Three pushes in one record, with rest between, show the spread better." in text


def test_several_pushes_give_the_middle_and_the_range():
    found = read(pushed(3, 8, 14)).found
    each = sorted(one.nudge.natural_Hz for one in found.pushes)
    assert (found.natural_Hz.low, found.natural_Hz.value, found.natural_Hz.high) == tuple(each)
    assert "The middle of 3 pushes" in shaken_text(read(pushed(3, 8, 14)))


def test_pushes_that_differ_are_warned_of():
    both = read(lambda time: push(4.2)(time) * (time < 9) + push(5.4, at=10)(time))
    assert any("The pushes differ in frequency" in warning for warning in both.warnings)


def test_what_is_copied_can_be_read_as_a_description():
    """The very fields: turning frequency under found, sway and damping under cabinet."""
    running = dict([read(tone(6, 1.0)).paste.lines[0].split(": ")])
    assert running == {"turning": "6.0 Hz (measured)"}
    assert FoundFields.model_validate(running).turning.low == pytest.approx(6.0)
    full = read(tone(33.5, 1.0)).at_full
    assert full.key == "motor"
    motor = Motor.model_validate(dict([full.lines[0].split(": ")]))
    assert motor.speed.middle == pytest.approx(2 * pi * 33.5, rel=1e-3)  # rad/s
    nudged = dict(line.split(": ") for line in read(push(4.5, 0.06), noise=0.002).paste.lines)
    assert nudged == {"sideways_frequency": "4.5 Hz (measured)", "damping": "6.0 % (measured)"}
    assert Cabinet.model_validate(nudged).damping.low == pytest.approx(0.06)


def test_the_lines_to_copy_say_where_they_belong():
    assert shaken_text(read(tone(6, 1.0))).endswith(
        "To keep it, copy into the description, under `found` of the toy:\n      turning: 6.0 Hz (measured)\n\n"
        "Only if it ran at the toy's full voltage, at 100 %, copy under `motor` of the toy:\n"
        "      speed: 360 rpm (measured)\n"
    )
    assert "copy into the description, under `cabinet`:\n  sideways_frequency: 4.7 Hz" in shaken_text(read(push()))


def test_a_kind_that_does_not_fit_is_doubted():
    with pytest.raises(LogProblem, match=r"less than 4 s in a row.* The record dies away as after a push by hand"):
        read(push(), kind="running")
    stopping = read(lambda time: tone(6, 1.0)(time) * np.where(time < 8, 1, np.exp(-(time - 8) * 2)), kind="nudge")
    assert stopping.warnings[0].startswith("The record does not die away")
    assert stopping.paste is None
    assert "copy into the description" not in shaken_text(stopping)


def test_a_frequency_near_half_the_rate_cannot_be_trusted():
    """42 Hz in 100 samples a second; a tone of 58 Hz looks the same."""
    for hertz in (42.0, 58.0):
        with pytest.raises(LogProblem, match="Record again with the phone's fastest rate") as refusal:
            read(tone(hertz), jitter=0.0)
        assert refusal.value.trouble is Trouble.ALIASED


@pytest.mark.parametrize(("share", "words"), [(0.466, "47 %"), (0.061, "6.1 %"), (1.004, "100.4 %"), (0.996, "99.6 %"),
                                              (9.65, "965 %")])  # fmt: skip
def test_a_share_near_the_limit_keeps_its_decimal(share, words):
    assert plain_spaces(percent(share)) == words


# What weakens, hides or doubles ---------------------------------------------------------------------------------------


def between(on, off, strength, hertz=12.0):
    """A shaker that runs from a time to another."""
    return lambda time: strength * np.sin(2 * pi * hertz * time) * ((time > on) & (time < off))


def warned(found):
    """All warnings, with plain spaces."""
    return plain_spaces(" ".join(found.warnings))


def test_still_parts_are_left_out_and_told():
    """5.35 m/s² for 10 of 16 s are 107 % of 5 m/s²."""
    found = read(between(3, 13, 5.35), seconds=16.0)
    assert found.found.within is False
    assert "107 % of the 5 m/s² that it allows: lower the setting." in plain_spaces(found.found.verdict)
    assert re.match(
        r"It stood still for part of the 16 s: only the (9|10) s in which it ran, from 3\.\d s to 12\.\d s, were used",
        warned(found),
    )
    assert "speed was not steady" not in warned(found)
    assert found.paste.lines == ("turning: 12 Hz (measured)",)
    used = shaken_json(found)["used_s"]
    assert 3 <= used["from"] < used["to"] <= 13


def test_of_several_strengths_the_strongest_is_judged_and_told():
    found = read(lambda time: np.where(time < 10, 0.9 * np.sin(2 * pi * 12 * time), 0.4 * np.sin(2 * pi * 9 * time)))
    assert "at 12 Hz the cabinet is shaken with 0.899 m/s²" in plain_spaces(found.found.verdict)
    assert re.match(
        r"It ran at several strengths in the 20 s: only the (9|10) s in which it was strongest and steady, from 0\.0 s",
        warned(found),
    )


def test_a_run_that_is_too_short_is_refused_by_that_cause():
    with pytest.raises(LogProblem, match="It shook for less than 4 s in a row") as refusal:
        read(between(5, 7, 6.0))
    assert refusal.value.trouble is Trouble.TOO_SHORT


@pytest.mark.parametrize("signal", [
    lambda time: 6 * np.sin(2 * pi * 12 * time) * (time % 4 < 2),
    lambda time: np.where(time < 5, 0, np.where(time < 7, 3, 1)) * 2 * np.sin(2 * pi * 12 * time),
    lambda time: 5.3 * np.sin(2 * pi * 12 * time) * (1 - time / 60),
])  # fmt: skip
def test_what_was_stronger_for_a_while_is_not_called_within_the_limit(signal):
    """Each is over 5 m/s² for seconds, and under it on the whole or where it is steady."""
    found = read(signal)
    assert found.found.within is None
    assert found.warnings


def test_half_the_speed_is_told_and_nothing_is_to_be_copied_as_certain():
    found = read(lambda time: 0.0063 * np.sin(2 * pi * 2.25 * time) + 0.19 * np.sin(2 * pi * 4.5 * time + 0.5),
                 noise=0.01)  # fmt: skip
    assert found.paste is None
    assert found.at_full is None
    assert "Turning frequency: 4.5 Hz, or 2.25 Hz\n" in shaken_text(found)
    assert plain_spaces(found.found.felt).startswith("The turning itself, or a multiple of it, is the strongest")
    assert "It may turn at 4.5 Hz, or at half of that, 2.25 Hz" in warned(found)
    assert "count its turns, or change the setting" in warned(found)
    assert "turning: 4.5 Hz (measured) or turning: 2.25 Hz (measured)" in warned(found)
    assert shaken_json(found)["or_turning_Hz"] == pytest.approx(2.25, rel=1e-3)
    assert "or_turning_Hz" not in shaken_json(read(tone(6, 1.0)))


def test_a_quarter_faster_tells_which_it_was():
    """What the sentence promises: away from the cabinet's 4.5 Hz, damping 5 %, the line at half is over 15 %.

    By hand, for a pull twice a turn that is the one once a turn at 2.25 Hz, and then falls with the square of the
    speed: 2 z / 3 at resonance; 0.16 at 2.81 and 5.62 Hz.
    """
    pace, own = 2.8125, 4.5

    def swing(hertz, pull):
        return pull * hertz**2 / abs(own**2 - hertz**2 + 0.1j * own * hertz)

    share = swing(pace, pace**2) / swing(2 * pace, 2.25**2)
    assert share > 0.15
    found = read(lambda time: 0.1 * share * np.sin(2 * pi * pace * time) + 0.1 * np.sin(4 * pi * pace * time + 1),
                 noise=0.005)  # fmt: skip
    assert found.paste.lines == ("turning: 2.81 Hz (measured)",)


def test_a_rate_that_is_too_slow_for_a_fast_shaker_is_told():
    """A shaker may turn at 35 Hz, which takes 2.5 x 35 = 87.5 samples a second."""
    slow = read(tone(5, 1.0), rate=50.0)
    assert "a shaker may turn at up to 35 Hz (an estimate): choose a faster rate, 100 samples a second" in warned(slow)
    assert slow.paste
    assert read(tone(5, 1.0), rate=100.0).warnings == ()


def test_a_mirror_image_is_told_and_not_to_be_copied():
    found = read(tone(33, 4.0), rate=50.0, jitter=0.0)
    assert "It may turn at 33 Hz as well as at 17 Hz: in 50 samples a second both look the same." in warned(found)
    assert found.paste is None
    assert "Turning frequency: 17 Hz, or 33 Hz" in shaken_text(found)


def test_pushes_that_are_too_close_are_told():
    """4.5 Hz, damping 4 %: 5 % is left after ln 20 / (2 pi 4.5 x 0.04) = 2.65 s."""
    found = read(pushed(3, 4.2, 5.4, natural=4.5, damping=0.04))
    assert found.found.natural_Hz.value == pytest.approx(4.5, rel=2e-3)
    assert found.found.damping.value == pytest.approx(0.04, rel=0.05)
    assert "Some pushes came while it still swayed from the one before: wait until it is still, 3 s at least" in (
        warned(found)
    )
    assert "came while it still swayed" not in warned(read(pushed(3, 8, 14)))


def test_nothing_but_noise_names_both_remedies():
    with pytest.raises(LogProblem, match="nearer to a running shaker, or push the cabinet harder"):
        read(pushed(3, 9, 15, strengths=(0.03, 0.03, 0.03)))


CELLS = st.one_of(
    st.floats(allow_nan=True, allow_infinity=True).map(str),
    st.integers(-(10**6), 10**6).map(str),
    st.sampled_from(["", "nan", '"', "1,5", "x", "1e999", "12:30:01"]),
)


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.lists(CELLS, min_size=4, max_size=4), min_size=1, max_size=12),
    st.sampled_from([",", ";", "\t"]),
    st.floats(0.001, 0.04),
    st.sampled_from(["running", "nudge", "auto"]),
)
def test_whatever_stands_in_a_log_is_read_or_refused_in_a_sentence(rows, separator, step, kind):
    lines = [separator.join([str(number * step), *rows[number % len(rows)][1:]]) for number in range(600)]
    try:
        found = shaken("\n".join(lines), vibration_class("3M2"), kind)
    except LogProblem as problem:
        assert str(problem).endswith(".")  # noqa: PT017 - either outcome is right
    else:
        assert shaken_text(found)
        assert shaken_json(found)["kind"] in {"running", "nudge"}
