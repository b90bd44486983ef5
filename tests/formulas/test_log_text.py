"""Every way to write a log as text is read, or refused in one clear sentence that names the cause."""

import re
import sys
from datetime import datetime, timedelta
from math import pi
from pathlib import Path

import numpy as np
import pytest

from guide_gen.formulas.log_reading import read_log, read_running
from guide_gen.formulas.log_text import LogProblem, Trouble
from guide_gen.published.vibration import vibration_class

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import log, tone

HEAD, *ROWS = log(tone()).splitlines()
CELLS = [row.split(",") for row in ROWS]


def turning(text):
    """The turning frequency of a log's text; 7.31 Hz is true."""
    found = read_running(read_log(text), vibration_class("3M2"))
    assert found.lines[0].accel_m_s2 == pytest.approx(1.2, rel=5e-3)
    return found.turning_Hz


def timed(write, *, head=HEAD, separator=","):
    """The log with its time written by a function of seconds."""
    return "\n".join([head.replace(",", separator), *(separator.join([write(float(c[0])), *c[1:]]) for c in CELLS)])


def clock(form, begin="2026-11-02T10:00:00"):
    """Writes a time as a date and a clock time."""
    return lambda seconds: (datetime.fromisoformat(begin) + timedelta(seconds=seconds)).strftime(form)


# ISO 8601-1:2019, 5.3 and 5.4: hh:mm:ss.fff, date and clock time joined by T; a space in its place is common practice.
@pytest.mark.parametrize(("form", "separator"), [
    ("%Y-%m-%dT%H:%M:%S.%f", ","),
    ("%Y-%m-%dT%H:%M:%S,%f", ";"),
    ("%Y-%m-%d %H:%M:%S.%f", ","),
    ("%Y-%m-%d %H:%M:%S.%f", " "),
    ("%Y-%m-%dT%H:%M:%S.%fZ", "\t"),
    ("%Y-%m-%dT%H:%M:%S.%f+01:00", " "),
    ("%H:%M:%S.%f", ","),
    ("%d.%m.%Y %H:%M:%S.%f", " "),
    ("%m/%d/%Y %H:%M:%S.%f", ";"),
])  # fmt: skip
def test_clock_times_are_read_past_midnight_too(form, separator):
    for begin in ("2026-11-02T10:00:00", "2026-11-02T23:59:53"):
        assert turning(timed(clock(form, begin), separator=separator)) == pytest.approx(7.31, rel=2e-4)


def test_a_date_in_a_column_of_its_own_is_left_out():
    text = timed(clock("%Y-%m-%d;%H:%M:%S,%f"), head="date;time;ax;ay;az", separator=";")
    assert turning(text) == pytest.approx(7.31, rel=2e-4)
    assert turning(text.split("\n", 1)[1]) == pytest.approx(7.31, rel=2e-4)


def test_columns_may_be_lined_up_with_spaces():
    lined = "\n".join(f"  {'   '.join(cell.rjust(12) for cell in cells)} " for cells in CELLS)
    for head in (
        "time ax ay az",
        "t[s]   x[m/s^2]   y[m/s^2]  z[m/s^2]",
        "Time (s)  Acceleration x  Acceleration y",
        "",
    ):
        assert turning(f"{head}\n{lined}") == pytest.approx(7.31, rel=2e-4)


@pytest.mark.parametrize("above", [
    "# a log\n# of 20 seconds, 100 a second, 2 g, 16 bits\n\n{}",
    "# 1,2,3,4,5\n{}\n# begin",
    "# {}",
    "// a log\n{}",
    "{}\ns,m/s²,m/s²,m/s²",
    "{}\n# s,m/s²,m/s²,m/s²",
])  # fmt: skip
def test_comments_and_a_row_of_units_do_not_hide_the_header(above):
    """The columns stand in another order than the usual one, so that the header must be found."""
    turned = [",".join([c[3], c[0], c[2], c[1]]) for c in CELLS]
    assert turning("\n".join([above.format("az,time,ay,ax"), *turned])) == pytest.approx(7.31, rel=2e-4)


def refused(text):
    """The sentence that a text is refused with."""
    with pytest.raises(LogProblem) as refusal:
        read_log(text)
    assert refusal.value.trouble is Trouble.NO_NUMBERS
    assert str(refusal.value).count(". ") == 0
    return str(refusal.value)


def grouped(seconds):
    """Milliseconds with thousands separators."""
    return f"{1000 * seconds:,.1f}"


@pytest.mark.parametrize("text", [
    timed(grouped, separator=";"),
    timed(lambda seconds: f'"{grouped(seconds)}"'),
    timed(lambda seconds: f'"{grouped(seconds).split(".")[0]}"'),
    timed(lambda seconds: grouped(seconds).replace(",", " "), separator=";"),
    timed(lambda seconds: grouped(seconds).replace(",", "'"), separator=";"),
    timed(lambda seconds: f"{round(1e9 * (1.7e9 + seconds)):,}", separator=";"),
    timed(lambda seconds: f"{1.7e9 + seconds:,.3f}", separator="\t"),
])  # fmt: skip
def test_thousands_separators_are_named(text):
    assert "thousands separators, such as 1,234.5" in refused(text)


@pytest.mark.parametrize("text", [
    timed(grouped),
    timed(lambda seconds: grouped(seconds).split(".")[0]),
    timed(grouped).split("\n", 1)[1],
    timed(lambda seconds: f"{1.7e9 + seconds:,.3f}"),
    timed(clock("%Y-%m-%dT%H:%M:%S,%f")),
    timed(lambda seconds: grouped(seconds).replace(",", " "), separator=" "),
])  # fmt: skip
def test_a_mark_between_and_inside_numbers_is_named(text):
    assert re.search("as if a (comma|space) stood both between the numbers and inside them", refused(text))


@pytest.mark.parametrize("form", ["%I:%M:%S %p", "%Y%m%dT%H%M%SZ", "on Monday, %S.%f", "%j days"])
def test_a_time_that_cannot_be_read_is_named(form):
    text = timed(clock(form), separator=";")
    assert "The times are neither numbers nor clock times" in refused(text)
    numbered = [f"{number};{line}" for number, line in enumerate(text.splitlines())]
    numbered[0] = "number;time;ax;ay;az"
    assert "The times are neither numbers nor clock times" in refused("\n".join(numbered))


def test_a_time_in_whole_seconds_is_named():
    with pytest.raises(LogProblem, match="with its time in milliseconds or finer") as refusal:
        read_log(timed(clock("%Y-%m-%dT%H:%M:%S")))
    assert refusal.value.trouble is Trouble.TOO_SLOW


def test_thousandths_of_a_second_are_not_taken_for_thousands():
    assert turning(timed(lambda seconds: f"{seconds:.3f}")) == pytest.approx(7.31, rel=2e-4)
    assert turning(timed(lambda seconds: f"{seconds:.3f}".replace(".", ","), separator=";")) > 2 * pi


# Columns that are no acceleration ------------------------------------------------------------------------------------


def with_turning(header, *, first=True, strength=0.05, separator=",", gravity=True):
    """A log with the turning rates of a gyroscope, rad/s, in three more columns, before or behind the acceleration."""
    chance = np.random.default_rng(4)
    rows = []
    for time, *axes in (row.split(",") for row in log(tone(), header="", gravity=gravity).strip().splitlines()):
        swing = strength * np.sin(2 * pi * 7.31 * float(time) + np.arange(3)) + chance.normal(0, 0.002, 3)
        turns = [f"{value:.5f}" for value in swing]
        rows.append(separator.join([time, *(turns + axes if first else axes + turns)]))
    return "\n".join([*([header] if header else []), *rows])


@pytest.mark.parametrize("header", [
    "time,gx,gy,gz,ax,ay,az",
    "time,gyro_x,gyro_y,gyro_z,acc_x,acc_y,acc_z",
    "time,gyro_x,gyro_y,gyro_z,x,y,z",
    "time,wx,wy,wz,gFx,gFy,gFz",
    "time,gx,gy,gz,x,y,z",
    "Time (s),Gyroscope x (rad/s),Gyroscope y (rad/s),Gyroscope z (rad/s),Accelerometer x (m/s2),Accelerometer y (m/s2)"
    ",Accelerometer z (m/s2)",
    "time,x (°/s),y (°/s),z (°/s),x (m/s²),y (m/s²),z (m/s²)",
    "time,x,y,z,x,y,z\ns,rad/s,rad/s,rad/s,m/s²,m/s²,m/s²",
    "time,mx,my,mz,ax,ay,az",
    "time,magnetic_x,magnetic_y,magnetic_z,X acceleration,Y acceleration,Z acceleration",
    "Zeit,Drehrate x,Drehrate y,Drehrate z,Beschleunigung x,Beschleunigung y,Beschleunigung z",
    "czas,gx,gy,gz,ax,ay,az",
    "time,angular acceleration x,angular acceleration y,angular acceleration z,acceleration x,acceleration y,"
    "acceleration z",
])  # fmt: skip
def test_the_acceleration_is_taken_wherever_other_sensors_stand_before_it(header):
    assert turning(with_turning(header)) == pytest.approx(7.31, rel=2e-4)


def no_columns(text):
    """The sentence that a log is refused with whose columns do not tell the acceleration."""
    with pytest.raises(LogProblem) as refusal:
        read_log(text)
    assert refusal.value.trouble is Trouble.COLUMNS
    assert "ax, ay and az" in str(refusal.value)
    return str(refusal.value)


def test_several_sets_of_axes_that_may_be_the_acceleration_are_named():
    assert "(ux, uy, uz; sx, sy, sz)" in no_columns(with_turning("time,ux,uy,uz,sx,sy,sz"))
    assert "(x, y, z; x, y, z)" in no_columns(with_turning("time,x,y,z,x,y,z"))


@pytest.mark.parametrize("header", ["time,gyro_x,gyro_y,gyro_z", "time,wx,wy,wz", "time,x (rad/s),y (rad/s),z (rad/s)",
                                    "time,mag_x,mag_y,mag_z", "time,rotation x,rotation y,rotation z"])  # fmt: skip
def test_a_log_of_another_sensor_alone_is_refused(header):
    assert "record the accelerometer" in no_columns(log(tone(), gravity=False, header=header))


def test_a_g_before_the_axis_is_acceleration_only_with_gravity_or_its_unit():
    """g may stand for a gyroscope, or for the unit."""
    assert turning(log(tone(), header="time,gx,gy,gz")) == pytest.approx(7.31, rel=2e-4)
    assert turning(log(tone(), header="time,gx (g),gy (g),gz (g)", unit=1 / 9.80665)) == pytest.approx(7.31, rel=2e-4)
    assert "gx, gy, gz may tell turning" in no_columns(log(tone(), gravity=False, header="time,gx,gy,gz"))


def test_without_names_gravity_must_be_in_the_first_three():
    assert "gravity is not in the first three" in no_columns(with_turning(""))
    assert turning(with_turning("", first=False)) == pytest.approx(7.31, rel=2e-4)


def test_a_name_in_a_message_is_cut_and_holds_no_control_characters():
    long = "s" * 200 + "\x1b[31m"
    sentence = no_columns(with_turning(f"time,ux,uy,uz,{long}x,{long}y,{long}z"))
    assert "\x1b" not in sentence
    assert len(sentence) < 400


# Time that is missing -------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("text", [
    "\n".join(["x,y,z", *(",".join(c[1:]) for c in CELLS)]),
    "\n".join(["x;y;z", *(";".join(c[1:]).replace(".", ",") for c in CELLS)]),
    "\n".join(" ".join(c[1:]) for c in CELLS),
    "\n".join(["x,y,z,total", *(",".join([*c[1:], c[2]]) for c in CELLS)]),
    "\n".join(["ax,ay,az,gx,gy,gz", *(",".join([*c[1:], *c[1:]]) for c in CELLS)]),
    "\n".join(",".join([c[1], *c[1:]]) for c in CELLS),
])  # fmt: skip
def test_a_missing_time_is_named(text):
    assert "The column of times is missing" in refused(text)


@pytest.mark.parametrize("batch", [2, 5])
def test_samples_that_share_their_time_in_batches_are_refused_by_that_cause(batch):
    shared = [",".join([CELLS[place // batch * batch][0], *cells[1:]]) for place, cells in enumerate(CELLS)]
    with pytest.raises(LogProblem, match=r"\d+ of the 2000 rows have the same time as the row before") as refusal:
        read_log("\n".join([HEAD, *shared]))
    assert refusal.value.trouble is Trouble.TOO_SLOW


def test_a_few_samples_that_share_their_time_do_no_harm():
    shared = [",".join([CELLS[place - (place % 20 == 19)][0], *cells[1:]]) for place, cells in enumerate(CELLS)]
    assert turning("\n".join([HEAD, *shared])) == pytest.approx(7.31, rel=2e-3)
