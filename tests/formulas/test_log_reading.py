"""Synthetic logs with known truth: every make, unit and fault that a phone's record may have."""

from math import pi, sqrt

import numpy as np
import pytest

from guide_gen.formulas.log_reading import LogProblem, LogWarning, Trouble, read_log, read_nudge, read_running
from guide_gen.published.vibration import vibration_class

LIMIT = vibration_class("3M2")
G = 9.80665


def _log(signal, *, seconds=20.0, rate=100.0, jitter=0.2, gravity=True, unit=1.0, tick=1.0, separator=",", comma=False,
         header="time,ax,ay,az", noise=0.02, seed=1, clip=None, drop=None, epoch=0.0):  # fmt: skip
    """A record of a sideways signal in m/s², the phone tilted and turned on the cabinet."""
    chance = np.random.default_rng(seed)
    time = np.arange(0, seconds, 1 / rate)
    time = np.sort(time + chance.uniform(-jitter, jitter, len(time)) / rate)
    down = np.array([0.1, 0.2, 0.97])
    down /= np.linalg.norm(down)
    along = np.cross(np.cross(down, [1, 0.4, 0]), down)
    along /= np.linalg.norm(along)
    accel = np.outer(signal(time), along) + noise * chance.standard_normal((len(time), 3))
    if gravity:
        accel += G * down
    if clip is not None:
        accel = np.clip(accel, -clip, clip)
    table = np.column_stack([(time - time[0] + epoch) * tick, accel * unit])
    if drop:
        table = table[(time < drop[0]) | (time > drop[1])]
    rows = [separator.join(f"{value:.7f}" for value in row) for row in table]
    text = "\n".join([header.replace(",", separator), *rows])
    return text.replace(".", ",") if comma else text


def _tone(hertz=7.31, strength=1.2):
    return lambda time: strength * np.sin(2 * pi * hertz * time + 0.3)


MAKES = {
    "plain": {},
    "in g": {"unit": 1 / G},
    "gravity removed": {"gravity": False},
    "milliseconds": {"tick": 1e3},
    "microseconds": {"tick": 1e6},
    "nanoseconds since 1970": {"tick": 1e9, "epoch": 1.7e9},
    "semicolon and decimal comma": {"separator": ";", "comma": True},
    "tab": {"separator": "\t"},
    "tab and decimal comma": {"separator": "\t", "comma": True},
    "no header": {"header": ""},
    "long names": {"header": '"Time (s)","Acceleration x (m/s^2)","Acceleration y (m/s^2)","Acceleration z (m/s^2)"'},
    "short names": {"header": "t,x,y,z"},
    "200 Hz": {"rate": 200.0, "seconds": 12.0},
    "much jitter": {"jitter": 0.45},
}


@pytest.mark.parametrize("make", MAKES)
def test_every_make_of_log_gives_the_known_frequency_and_strength(make):
    """Frequency to 0.02 %, strength to 0.5 %."""
    found = read_running(read_log(_log(_tone(), **MAKES[make])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)
    assert found.lines[0].accel_m_s2 == pytest.approx(1.2, rel=5e-3)
    assert found.lines[0].shift_m == pytest.approx(1.2 / (2 * pi * 7.31) ** 2, rel=6e-3)
    assert found.strongest.number == 1
    assert found.strongest.limit_share == pytest.approx(found.lines[0].shift_m / 1.5e-3)
    assert found.warnings == ()


def test_columns_are_found_by_name_wherever_they_stand():
    rows = _log(_tone(), header="").strip().splitlines()
    shuffled = [",".join([c[3], "7", c[0], c[1], c[2]]) for c in (row.split(",") for row in rows)]
    found = read_running(read_log("\n".join(["az,gyro_x,time,ax,ay", *shuffled])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)


def test_rows_out_of_order_and_given_twice_do_no_harm():
    head, *rows = _log(_tone()).splitlines()
    mixed = [*rows[500:], *rows[:600], "cut off,", ""]
    found = read_running(read_log("\n".join([head, *mixed])), LIMIT)
    assert found.turning_Hz == pytest.approx(7.31, rel=2e-4)


@pytest.mark.parametrize("part", [2, 3])
def test_a_strong_multiple_is_not_taken_for_the_speed(part):
    """The cabinet answers a multiple of the turning frequency most."""
    found = read_running(read_log(_log(
        lambda time: 0.25 * np.sin(2 * pi * 2.4 * time) + 0.9 * np.sin(2 * pi * 2.4 * part * time + 1)
    )), LIMIT)  # fmt: skip
    assert found.turning_Hz == pytest.approx(2.4, rel=1e-3)
    assert found.lines[part - 1].accel_m_s2 == pytest.approx(0.9, rel=0.01)
    assert found.lines[0].accel_m_s2 == pytest.approx(0.25, rel=0.03)


def test_from_9_Hz_on_the_acceleration_counts():
    found = read_running(read_log(_log(_tone(30.0, 2.0))), LIMIT)
    assert found.strongest.limit_share == pytest.approx(0.4, rel=0.01)


WARNED = {
    LogWarning.ALIASED: _log(_tone(42.0)),
    LogWarning.GAPS: _log(_tone(), drop=(6.0, 7.5)),
    LogWarning.CLIPPED: _log(_tone(3.0, 6.0), gravity=False, clip=4.0, noise=0.0, unit=1.0),
    LogWarning.UNSTEADY: _log(lambda time: np.sin(2 * pi * (8 + 0.05 * time) * time)),
}


@pytest.mark.parametrize("warning", WARNED)
def test_a_doubtful_log_is_warned_of(warning):
    assert warning in read_running(read_log(WARNED[warning]), LIMIT).warnings


@pytest.mark.parametrize(("text", "trouble", "words"), [
    ("", Trouble.NO_NUMBERS, "No rows of numbers"),
    ("hello\nworld, this, is, text\n", Trouble.NO_NUMBERS, "Export the record as CSV"),
    (_log(_tone(), seconds=1.5), Trouble.TOO_FEW, "has 150 rows of numbers, at least 200 are needed"),
    (_log(_tone(), seconds=4.0), Trouble.TOO_SHORT, "lasts 4.0 s, at least 5 s"),
    (_log(_tone(3), rate=12.0, jitter=0.05), Trouble.TOO_SLOW, "has 12 samples a second, at least 20"),
    (_log(_tone(), drop=(4.0, 17.0)), Trouble.MOSTLY_GAPS, "More than half of the log is missing"),
    ("t,x,y,z\n" + "1,2,3,4\n" * 400, Trouble.NO_NUMBERS, "time does not advance"),
    ("t,x,y,z\n" + "\n".join(f"{n / 50},1,0,0" for n in range(500)), Trouble.NO_MOTION, "no motion at all"),
    ("t,x,y,z\n" + "nan,nan,nan,nan\n" * 400, Trouble.NO_NUMBERS, "No rows of numbers"),
    (_log(lambda time: 0 * time), Trouble.NO_MOTION, "No frequency stands out"),
])  # fmt: skip
def test_a_bad_log_gets_one_clear_sentence(text, trouble, words):
    with pytest.raises(LogProblem, match=words) as refusal:
        read_running(read_log(text), LIMIT)
    assert refusal.value.trouble is trouble
    assert str(refusal.value).endswith(".")
    assert "\n" not in str(refusal.value)


def _push(natural=4.7, damping=0.045, at=3.0, strength=2.0):
    pace = 2 * pi * natural

    def signal(time):
        since = np.maximum(time - at, 0)
        swing = strength * np.exp(-damping * pace * since) * np.cos(pace * sqrt(1 - damping**2) * since)
        return np.where(time > at, swing, 0)

    return signal


@pytest.mark.parametrize("make", ["plain", "in g", "milliseconds", "semicolon and decimal comma", "much jitter"])
@pytest.mark.parametrize(("natural", "damping"), [(4.7, 0.045), (9.2, 0.08), (3.1, 0.03)])
def test_a_nudge_gives_natural_frequency_and_damping(make, natural, damping):
    """Frequency to 0.1 %, damping to 2 %; the noise of a phone's quiet sensor."""
    found = read_nudge(read_log(_log(_push(natural, damping), noise=0.005, **MAKES[make])))
    assert found.natural_Hz == pytest.approx(natural, rel=1e-3)
    assert found.damping == pytest.approx(damping, rel=0.02)
    assert found.check_damping == pytest.approx(damping, rel=0.2)


@pytest.mark.parametrize("seed", range(6))
def test_a_short_decay_in_noise_is_still_found(seed):
    """9.2 Hz, damping 0.08, a hundredth of the push as noise: four swings or so."""
    found = read_nudge(read_log(_log(_push(9.2, 0.08), noise=0.02, seed=seed)))
    assert found.natural_Hz == pytest.approx(9.2, rel=5e-3)
    assert found.damping == pytest.approx(0.08, rel=0.06)


def test_swings_that_fall_along_a_straight_line_are_told_as_friction():
    def rubbing(time):
        since = np.maximum(time - 3, 0)
        return np.where(time > 3, 2 * np.maximum(1 - since / 4, 0) * np.cos(2 * pi * 4.7 * since), 0)

    found = read_nudge(read_log(_log(rubbing)))
    assert found.damping is None
    assert found.natural_Hz == pytest.approx(4.7, rel=2e-3)


def test_a_push_that_dies_at_once_asks_for_more():
    with pytest.raises(LogProblem, match="push harder or record longer") as refusal:
        read_nudge(read_log(_log(_push(damping=0.6))))
    assert refusal.value.trouble is Trouble.NO_DECAY
