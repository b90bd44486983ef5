"""Synthetic logs with known truth: every make, unit and fault that a phone's record may have."""

import sys
from math import pi
from pathlib import Path

import numpy as np
import pytest

from guide_gen.formulas.log_reading import (
    LogWarning,
    lateral,
    read_log,
    read_nudge,
    read_running,
    spectrum,
    stands_out,
)
from guide_gen.formulas.log_text import LogProblem, Trouble
from guide_gen.published.vibration import vibration_class

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import G, log, push, rubbing, tone

LIMIT = vibration_class("3M2")


MAKES = {
    "plain": {},
    "in g": {"unit": 1 / G},
    "gravity removed": {"gravity": False, "header": "time,ax (m/s²),ay (m/s²),az (m/s²)"},
    "milliseconds": {"tick": 1e3},
    "microseconds": {"tick": 1e6},
    "nanoseconds since 1970": {"tick": 1e9, "epoch": 1.7e9},
    "semicolon and decimal comma": {"separator": ";", "comma": True},
    "tab": {"separator": "\t"},
    "tab and decimal comma": {"separator": "\t", "comma": True},
    "no header": {"header": ""},
    "spaces": {"separator": " "},
    "spaces and decimal comma": {"separator": " ", "comma": True},
    "milli-g": {"unit": 1000 / G},
    "times below zero": {"epoch": -15.0},
    "long names": {"header": '"Time (s)","Acceleration x (m/s^2)","Acceleration y (m/s^2)","Acceleration z (m/s^2)"'},
    "short names": {"header": "t,x,y,z"},
    "200 Hz": {"rate": 200.0, "seconds": 12.0},
    "much jitter": {"jitter": 0.45},
}


@pytest.mark.parametrize("make", MAKES)
def test_every_make_of_log_gives_the_known_frequency_and_strength(make):
    """Frequency to 0.02 %, strength to 0.5 %."""
    found = read_running(read_log(log(tone(), **MAKES[make])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)
    assert found.lines[0].accel_m_s2 == pytest.approx(1.2, rel=5e-3)
    assert found.lines[0].shift_m == pytest.approx(1.2 / (2 * pi * 7.31) ** 2, rel=6e-3)
    assert found.strongest.number == 1
    assert found.strongest.limit_share == pytest.approx(found.lines[0].shift_m / 1.5e-3)
    assert found.warnings == ()


def test_columns_are_found_by_name_wherever_they_stand():
    rows = log(tone(), header="").strip().splitlines()
    shuffled = [",".join([c[3], "7", c[0], c[1], c[2]]) for c in (row.split(",") for row in rows)]
    found = read_running(read_log("\n".join(["az,gyro_x,time,ax,ay", *shuffled])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)


def test_rows_out_of_order_and_given_twice_do_no_harm():
    head, *rows = log(tone()).splitlines()
    mixed = [*rows[500:], *rows[:600], "cut off,", ""]
    found = read_running(read_log("\n".join([head, *mixed])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)


@pytest.mark.parametrize("part", [2, 3])
def test_a_strong_multiple_is_not_taken_for_the_speed(part):
    """The cabinet answers a multiple of the turning frequency most."""
    found = read_running(read_log(log(
        lambda time: 0.25 * np.sin(2 * pi * 2.4 * time) + 0.9 * np.sin(2 * pi * 2.4 * part * time + 1)
    )), LIMIT)  # fmt: skip
    assert found.turning_Hz == pytest.approx(2.4, rel=1e-3)
    assert found.lines[part - 1].accel_m_s2 == pytest.approx(0.9, rel=0.01)
    assert found.lines[0].accel_m_s2 == pytest.approx(0.25, rel=0.03)


def test_from_9_Hz_on_the_acceleration_counts():
    found = read_running(read_log(log(tone(30.0, 2.0))), LIMIT)
    assert found.strongest.limit_share == pytest.approx(0.4, rel=0.01)


WARNED = {
    LogWarning.ALIASED: log(tone(42.0)),
    LogWarning.GAPS: log(tone(), drop=(6.0, 7.5)),
    LogWarning.CLIPPED: log(tone(3.0, 6.0), gravity=False, clip=4.0, noise=0.0, unit=1.0),
    LogWarning.UNSTEADY: log(lambda time: np.sin(2 * pi * (8 + 0.05 * time) * time)),
}


@pytest.mark.parametrize("warning", WARNED)
def test_a_doubtful_log_is_warned_of(warning):
    assert warning in read_running(read_log(WARNED[warning]), LIMIT).warnings


@pytest.mark.parametrize(("text", "trouble", "words"), [
    ("", Trouble.NO_NUMBERS, "No rows of numbers"),
    ("hello\nworld, this, is, text\n", Trouble.NO_NUMBERS, "Export the record as CSV"),
    (log(tone(), seconds=1.5), Trouble.TOO_FEW, "has 150 rows of numbers, at least 200 are needed"),
    (log(tone(), seconds=4.0), Trouble.TOO_SHORT, "lasts 4.0 s, at least 5 s"),
    (log(tone(3), rate=12.0, jitter=0.05), Trouble.TOO_SLOW, "has 12 samples a second, at least 20"),
    (log(tone(), drop=(4.0, 17.0)), Trouble.MOSTLY_GAPS, "More than half of the log is missing"),
    ("t,x,y,z\n" + "1,2,3,4\n" * 400, Trouble.NO_NUMBERS, "time does not advance"),
    ("t,x,y,z\n" + "\n".join(f"{n / 50},1,0,0" for n in range(500)), Trouble.NO_MOTION, "no motion at all"),
    ("t,x,y,z\n" + "nan,nan,nan,nan\n" * 400, Trouble.NO_NUMBERS, "No rows of numbers"),
    (log(lambda time: 0 * time), Trouble.NO_MOTION, "No frequency stands out"),
])  # fmt: skip
def test_a_bad_log_gets_one_clear_sentence(text, trouble, words):
    with pytest.raises(LogProblem, match=words) as refusal:
        read_running(read_log(text), LIMIT)
    assert refusal.value.trouble is trouble
    assert str(refusal.value).endswith(".")
    assert "\n" not in str(refusal.value)


@pytest.mark.parametrize("make", ["plain", "in g", "milliseconds", "semicolon and decimal comma", "much jitter"])
@pytest.mark.parametrize(("natural", "damping"), [(4.7, 0.045), (9.2, 0.08), (3.1, 0.03)])
def test_a_nudge_gives_natural_frequency_and_damping(make, natural, damping):
    """Frequency to 0.1 %, damping to 2 %; the noise of a phone's quiet sensor."""
    found = read_nudge(read_log(log(push(natural, damping), noise=0.005, **MAKES[make])))
    assert found.natural_Hz == pytest.approx(natural, rel=1e-3)
    assert found.damping == pytest.approx(damping, rel=0.02)
    assert found.check_damping == pytest.approx(damping, rel=0.2)


@pytest.mark.parametrize("seed", range(6))
def test_a_short_decay_in_noise_is_still_found(seed):
    """9.2 Hz, damping 0.08, a hundredth of the push as noise: four swings or so."""
    found = read_nudge(read_log(log(push(9.2, 0.08), noise=0.02, seed=seed)))
    assert found.natural_Hz == pytest.approx(9.2, rel=5e-3)
    assert found.damping == pytest.approx(0.08, rel=0.06)


def test_swings_that_fall_along_a_straight_line_are_told_as_friction():
    found = read_nudge(read_log(log(rubbing())))
    assert found.damping is None
    assert found.natural_Hz == pytest.approx(4.7, rel=2e-3)


def test_a_push_that_dies_at_once_asks_for_more():
    with pytest.raises(LogProblem, match="push harder or record longer") as refusal:
        read_nudge(read_log(log(push(damping=0.6))))
    assert refusal.value.trouble is Trouble.NO_DECAY


def test_swings_that_go_on_are_no_push():
    with pytest.raises(LogProblem, match="do not die away") as refusal:
        read_nudge(read_log(log(tone())), read_log(log(lambda time: 0 * time)))
    assert refusal.value.trouble is Trouble.NO_DECAY


@pytest.mark.parametrize("header", [
    "Nr;Zeit [s];Beschleunigung x;Beschleunigung y;Beschleunigung z",
    "index;czas;x;y;z",
    "index;Time (s);ax;ay;az",
    "gravity x;Zeit;ax;ay;az",
])  # fmt: skip
def test_a_count_before_the_time_is_not_taken_for_it(header):
    rows = log(tone(), header="", separator=";").strip().splitlines()
    counted = [f"{number};{row}" for number, row in enumerate(rows)]
    assert read_running(read_log("\n".join([header, *counted])), LIMIT).turning_Hz == pytest.approx(7.31, rel=2e-4)


@pytest.mark.parametrize("header", ["x;y;z;Zeit", "Beschl. X (m/s²);Beschl. Y (m/s²);Beschl. Z (m/s²);aika"])
def test_a_time_behind_the_axes_is_found(header):
    rows = [row.split(";") for row in log(tone(), header="", separator=";").strip().splitlines()]
    turned = [";".join([*row[1:], row[0]]) for row in rows]
    assert read_running(read_log("\n".join([header, *turned])), LIMIT).turning_Hz == pytest.approx(7.31, rel=2e-4)


def test_numbers_in_quotes_may_have_a_decimal_comma():
    head, *rows = log(tone()).splitlines()
    quoted = [",".join(f'"{cell.replace(".", ",")}"' for cell in row.split(",")) for row in rows]
    assert read_running(read_log("\n".join([head, *quoted])), LIMIT).turning_Hz == pytest.approx(7.31, rel=2e-4)


def test_a_comma_between_and_inside_numbers_is_refused():
    head, *rows = log(tone()).splitlines()
    with pytest.raises(LogProblem, match="export the record with a decimal point") as refusal:
        read_log("\n".join([head, *(row.replace(".", ",") for row in rows)]))
    assert refusal.value.trouble is Trouble.NO_NUMBERS


def test_numbers_that_no_phone_writes_are_no_numbers():
    with pytest.raises(LogProblem) as refusal:
        read_log("\n".join(f"{number / 50},1e300,inf,-1e200" for number in range(500)))
    assert refusal.value.trouble is Trouble.NO_NUMBERS


def test_a_log_far_faster_than_a_phone_is_refused():
    with pytest.raises(LogProblem, match="record 100 to 500 a second") as refusal:
        read_log("\n".join(f"{number / 5000},0,{number % 7},9.8" for number in range(30_000)))
    assert refusal.value.trouble is Trouble.TOO_FAST


# Clipping -----------------------------------------------------------------------------------------------------------


# A range of 2 g, 19.6 m/s², and a swing beyond it. Three times 30 Hz, mirrored at 100 samples a second, is 10 Hz.
CLIPPED = {
    "30 Hz, 60 m/s²": tone(30.0, 60.0),
    "34 Hz, 60 m/s²": tone(34.0, 60.0),
    "10 Hz, a tenth at each rail": tone(10.0, 21.5),
    "30 Hz, a fifth at each rail": tone(30.0, 25.0),
}


@pytest.mark.parametrize("jitter", [0.2, 0.02])
@pytest.mark.parametrize("case", CLIPPED)
def test_a_fast_swing_that_is_cut_has_few_equal_samples_in_a_row_and_is_still_told(case, jitter):
    found = read_running(read_log(log(CLIPPED[case], clip=19.6, jitter=jitter)), LIMIT)
    assert LogWarning.CLIPPED in found.warnings
    assert found.turning_Hz == pytest.approx(float(case.split()[0]), rel=1e-3)


@pytest.mark.parametrize("strength", [1.0, 19.0])
@pytest.mark.parametrize("hertz", [2.0, 7.31, 12.5, 30.0])
@pytest.mark.parametrize("step", [0.0024, 0.15, 0.6])
def test_a_coarse_resolution_is_not_taken_for_a_range_that_ends(step, hertz, strength):
    """0.6 m/s² is a range of 16 g in 512 steps."""
    head, *rows = log(tone(hertz, strength), rate=200.0).splitlines()
    coarse = [
        ",".join([time, *(f"{round(float(cell) / step) * step:.4f}" for cell in cells)])
        for time, *cells in (row.split(",") for row in rows)
    ]
    assert LogWarning.CLIPPED not in read_log("\n".join([head, *coarse])).warnings


def test_a_coarse_axis_that_rests_is_not_taken_for_a_range_that_ends():
    """One axis that shows two values, one of them for most of the time."""
    head, *rows = log(tone(), gravity=False).splitlines()
    flat = [",".join([*row.split(",")[:3], "0.15" if number % 20 < 4 else "0"]) for number, row in enumerate(rows)]
    assert LogWarning.CLIPPED not in read_log("\n".join([head, *flat])).warnings


# Units --------------------------------------------------------------------------------------------------------------


def strength(**make):
    """Strength of a tone of 1.2 m/s², as it is read."""
    samples = read_log(log(tone(), **make))
    return read_running(samples, LIMIT).lines[0].accel_m_s2, samples.warnings


@pytest.mark.parametrize(("header", "unit"), [
    ("time,ax (g),ay (g),az (g)", 1 / G),
    ("t [s],x [g],y [g],z [g]", 1 / G),
    ("time,ax_g,ay_g,az_g", 1 / G),
    ("time,x g,y g,z g", 1 / G),
    ("time,ax (G),ay (G),az (G)", 1 / G),
    ("time,ax (mg),ay (mg),az (mg)", 1000 / G),
    ("time,ax_mg,ay_mg,az_mg", 1000 / G),
    ("time,ax (m/s2),ay (m/s2),az (m/s2)", 1.0),
    ("time,ax (m/s^2),ay (m/s^2),az (m/s^2)", 1.0),
    ("time,ax [m/s²],ay [m/s²],az [m/s²]", 1.0),
    ("time,ax [m/s\ufffd],ay [m/s\ufffd],az [m/s\ufffd]", 1.0),
    ("time,ax (m s^-2),ay (m s^-2),az (m s^-2)", 1.0),
    ("time,ax (cm/s²),ay (cm/s²),az (cm/s²)", 100.0),
    ("time,ax,ay,az\ns,g,g,g", 1 / G),
    ("time,ax,ay,az\n[s],[m/s²],[m/s²],[m/s²]", 1.0),
])  # fmt: skip
@pytest.mark.parametrize("gravity", [True, False])
def test_the_unit_stands_in_the_header(header, unit, gravity):
    """1 g is 9.80665 m/s² (3rd CGPM, 1901)."""
    found, warnings = strength(header=header, unit=unit, gravity=gravity)
    assert found == pytest.approx(1.2, rel=5e-3)
    assert warnings == ()


def test_without_gravity_and_unit_it_says_what_was_assumed():
    found, warnings = strength(gravity=False)
    assert found == pytest.approx(1.2, rel=5e-3)
    assert warnings == (LogWarning.UNIT_ASSUMED,)


@pytest.mark.parametrize(("header", "unit"), [
    ("time,ax (m/s²),ay (m/s²),az (m/s²)", 1 / G),
    ("time,ax (g),ay (g),az (g)", 1.0),
    ("time,ax (g),ay (g),az (g)", 1000 / G),
])  # fmt: skip
def test_gravity_wins_against_the_header(header, unit):
    found, warnings = strength(header=header, unit=unit)
    assert found == pytest.approx(1.2, rel=5e-3)
    assert warnings == (LogWarning.UNIT_BY_GRAVITY,)


def test_a_mean_that_is_neither_gravity_nor_zero_is_doubted_or_refused():
    assert strength(unit=0.5)[1] == (LogWarning.UNIT_DOUBTFUL,)
    with pytest.raises(LogProblem, match="its header names no unit") as refusal:
        strength(unit=16384 / G)
    assert refusal.value.trouble is Trouble.NO_UNIT


# Length and hum -----------------------------------------------------------------------------------------------------


def test_of_a_long_log_the_first_minute_is_read_and_its_whole_length_is_known():
    samples = read_log(log(tone(), seconds=100.0, rate=50.0))
    assert samples.time_s[-1] == pytest.approx(60.0, abs=0.1)
    assert samples.whole_s == pytest.approx(100.0, abs=0.1)


# Mains is 50 or 60 Hz, and its force comes twice a period; at 100 samples a second 120 Hz looks like 20 Hz.
@pytest.mark.parametrize(("hertz", "rate", "jitter"), [
    (50.0, 200.0, 0.1), (59.99, 200.0, 0.1), (120.0, 100.0, 0.0), (120.0, 100.0, 0.1), (100.0, 90.0, 0.05),
])  # fmt: skip
def test_a_strongest_line_that_hum_explains_is_doubted(hertz, rate, jitter):
    samples = read_log(log(tone(hertz, 0.8), rate=rate, jitter=jitter))
    assert LogWarning.HUM in read_running(samples, LIMIT).warnings


@pytest.mark.parametrize(("hertz", "rate", "jitter"), [
    (20.0, 100.0, 0.1), (12.0, 100.0, 0.0), (48.0, 200.0, 0.1), (25.0, 100.0, 0.0),
])  # fmt: skip
def test_a_line_that_uneven_times_tell_from_hum_is_not_doubted(hertz, rate, jitter):
    samples = read_log(log(tone(hertz, 0.8), rate=rate, jitter=jitter))
    assert LogWarning.HUM not in read_running(samples, LIMIT).warnings


# Noise, halves and mirror images --------------------------------------------------------------------------------------


@pytest.mark.parametrize("rate", [50.0, 100.0])
def test_noise_alone_has_no_frequency(rate):
    """Chance 1e-4 a record."""
    for seed in range(8):
        with pytest.raises(LogProblem, match="No frequency stands out"):
            read_running(read_log(log(lambda time: 0 * time, rate=rate, seed=seed)), LIMIT)


def test_a_threshold_is_passed_by_noise_as_often_as_it_says():
    """White noise: its power at a frequency is spread exponentially (Scargle 1982, from memory).

    With a chance of 0.5 at most, 40 records pass it less than 30 times: a binomial does so once in a thousand. Since
    neighbours in the spectrum go together, it is really less.
    """
    passed, high = 0, 0.0
    for seed in range(40):
        samples = read_log(log(lambda time: 0 * time, seconds=6.0, rate=60.0, seed=seed))
        _, amplitudes = spectrum(samples.time_s, lateral(samples), samples.rate_Hz)
        passed += stands_out(amplitudes, 0.5)
        high = max(high, float(amplitudes.max() / np.median(amplitudes)))
    assert 1 <= passed < 30
    assert high > 3


def test_a_weak_line_is_still_found():
    """A tenth of the noise's effective value, over 20 seconds: its power is 5 times what the threshold asks."""
    assert read_running(read_log(log(tone(7.31, 0.006), noise=0.02)), LIMIT).turning_Hz == pytest.approx(7.31, rel=2e-3)


def halves(turning, first, second, noise=0.01, **make):
    """A weight that turns unevenly, so that the cabinet answers at twice its speed."""
    return read_running(read_log(log(
        lambda time: first * np.sin(2 * pi * turning * time) + second * np.sin(4 * pi * turning * time + 0.5),
        noise=noise, **make,
    )), LIMIT)  # fmt: skip


@pytest.mark.parametrize(("turning", "first", "second"), [(2.25, 0.0063, 0.19), (1.8, 0.05, 0.6), (3.0, 0.02, 0.6)])
def test_a_weak_line_at_half_leaves_the_speed_open(turning, first, second):
    found = halves(turning, first, second)
    assert found.turning_Hz == pytest.approx(2 * turning, rel=1e-3)
    assert found.or_turning_Hz == pytest.approx(turning, rel=1e-3)
    assert not found.mirrored


def test_a_line_at_half_that_noise_may_hide_leaves_the_speed_open():
    assert halves(2.25, 0.0, 0.19, noise=0.1).or_turning_Hz == pytest.approx(2.25, rel=1e-3)


@pytest.mark.parametrize(("hertz", "strength"), [(4.5, 0.6), (9.6, 0.44), (6.0, 1.0), (12.0, 6.0), (20.0, 0.1)])
def test_where_nothing_is_at_half_the_speed_is_sure(hertz, strength):
    """Above the range of a cabinet's own sway the weight turns evenly, and noise hides nothing."""
    assert read_running(read_log(log(tone(hertz, strength))), LIMIT).or_turning_Hz is None


def test_a_slow_weight_shakes_at_half_by_two_thirds_of_the_damping_or_more():
    """A sway of one mass on a spring, driven at w = wn / 2 by F and at wn by F: |H| w² at both, by hand."""
    natural, mass = 2 * pi * 4.5, 95.0
    for damping in (0.015, 0.03, 0.06):

        def accel(pace, damping=damping):
            return pace**2 / abs(mass * (natural**2 - pace**2 + 2j * damping * natural * pace))

        assert accel(natural / 2) / accel(natural) == pytest.approx(damping / 1.5, rel=0.01)
        assert accel(natural / 2) / accel(natural) > 0.0099


@pytest.mark.parametrize(("hertz", "found"), [(33.0, 17.0), (28.0, 22.0)])
def test_at_few_samples_a_mirror_image_is_told(hertz, found):
    """At 50 samples a second 33 Hz and 17 Hz are the same samples."""
    read = read_running(read_log(log(tone(hertz, 4.0), rate=50.0, jitter=0.0)), LIMIT)
    assert {round(read.turning_Hz, 1), round(read.or_turning_Hz, 1)} == {hertz, found}
    assert read.mirrored or LogWarning.ALIASED in read.warnings


def test_uneven_times_tell_a_frequency_from_its_image():
    right = read_running(read_log(log(tone(17.0, 4.0), rate=50.0)), LIMIT)
    assert (round(right.turning_Hz, 1), right.or_turning_Hz) == (17.0, None)
    assert read_running(read_log(log(tone(33.0, 4.0), rate=50.0)), LIMIT).turning_Hz == pytest.approx(33.0, rel=1e-3)


def test_a_strength_that_falls_is_seen_in_its_strongest_quarter():
    """From 1 down to 2/3 along a line: 0.958 in the first quarter's middle, by 0.833 in all."""
    found = read_running(read_log(log(lambda time: np.sin(2 * pi * 9 * time) * (1 - time / 60))), LIMIT)
    assert found.swell == pytest.approx(0.958 / 0.833, rel=0.02)
    assert read_running(read_log(log(tone())), LIMIT).swell < 1.02
