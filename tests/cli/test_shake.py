"""`shake`: a log from any phone, outside of a clone too; exit codes, sentences, JSON, drawing."""

import json
import os
import sys
from math import pi
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
import pytest

sys.path.insert(0, str(Path(__file__).parents[1]))
from synthetic_logs import G, log, push, pushed, tone

# Each make of log with the same 6.02 Hz, 1 m/s² in it.
MAKES = {
    "comma": {},
    "semicolon": {"separator": ";"},
    "tab": {"separator": "\t"},
    "decimal comma": {"separator": ";", "comma": True},
    "no header": {"header": ""},
    "German": {"header": "Zeit (s),Beschleunigung x (m/s²),Beschleunigung y (m/s²),Beschleunigung z (m/s²)"},
    "French": {"header": "temps,accélération x,accélération y,accélération z"},
    "Polish": {"header": "czas,przyspieszenie X,przyspieszenie Y,przyspieszenie Z"},
    "Cyrillic": {"header": "время,х,у,з"},
    "ms": {"tick": 1e3},
    "us": {"tick": 1e6},
    "ns since 1970": {"tick": 1e9, "epoch": 1.7e9},
    "g": {"unit": 1 / G},
    "gravity taken off": {"gravity": False, "header": "time,ax (m/s²),ay (m/s²),az (m/s²)"},
    "gravity taken off, in g": {"gravity": False, "unit": 1 / G, "header": "time,ax (g),ay (g),az (g)"},
    "spaces": {"separator": " "},
    "much jitter": {"jitter": 0.45},
    "200 a second": {"rate": 200.0},
}
ENCODINGS = ["utf-8", "utf-8-sig", "utf-16", "latin-1"]


@pytest.fixture
def logs(tmp_path, monkeypatch):
    """A folder that is no clone, to put logs in."""
    monkeypatch.chdir(tmp_path)

    def put(text, name="log.csv", encoding="utf-8"):
        Path(name).write_bytes(text if isinstance(text, bytes) else text.encode(encoding))
        return name

    return put


@pytest.mark.parametrize("make", MAKES)
def test_every_make_of_log_is_read_outside_a_clone(make, logs, run, document):
    result = run("shake", logs(log(tone(6.02, 1.0), **MAKES[make])), "--format", "json")
    assert result.exit_code == 0
    found = document(result)
    assert found["turning_Hz"] == pytest.approx(6.02, rel=2e-4)
    assert found["lines"][0]["accel_m_s2"] == pytest.approx(1.0, rel=0.01)
    assert found["within"] is True
    assert found["warnings"] == []


@pytest.mark.parametrize("encoding", ENCODINGS)
def test_the_encoding_does_not_matter(encoding, logs, run):
    name = logs(log(tone(6.02, 1.0), header="t [s],x [m/s²],y [m/s²],z [m/s²]"), encoding=encoding)
    assert "Turning frequency: 6.02 Hz" in run("shake", name).output


def test_the_text_holds_frequency_lines_verdict_and_what_to_copy(logs, run):
    result = run("shake", logs(log(tone(6.0, 1.0))))
    assert result.exit_code == 0
    assert "taken for a running shaker. If that is wrong, add --kind nudge." in result.output
    assert "Within the limit 3M2: at 6.0 Hz" in result.output
    assert "Limit 3M2: 1.5 mm up to 9 Hz, 5 m/s² from there on (IEC 60721-3-3" in result.output
    assert "under `found` of the toy:\n      turning: 6.0 Hz (measured)\n" in result.output
    assert result.output.endswith("copy under `motor` of the toy:\n      speed: 360 rpm (measured)\n")


def test_a_push_gives_frequency_and_damping_with_their_spread(logs, run):
    result = run("shake", logs(log(push(4.5, 0.06), noise=0.005)))
    assert "taken for a cabinet that was pushed by hand" in result.output
    assert "Natural frequency: 4.5 Hz (from 4.4" in result.output
    assert "Damping: 6.0 % (from " in result.output
    assert result.output.endswith("  sideways_frequency: 4.5 Hz (measured)\n  damping: 6.0 % (measured)\n")


def test_the_limit_can_be_chosen_and_an_unknown_one_is_misuse(logs, run):
    name = logs(log(tone(6.0, 1.0)))
    assert "Over the limit 3M1" in run("shake", name, "--limit", "3M1").output
    assert run("shake", name, "--limit", "3M9").exit_code == 2


def test_json_of_a_running_shaker(logs, run, document):
    found = document(run("shake", logs(log(tone(6.0, 1.0))), "--format", "json"))
    assert list(found) == [
        "guide_gen", "kind", "record", "verdict", "within", "limit", "turning_Hz", "used_s", "lines", "strongest",
        "noise_m_s2", "warnings", "paste", "paste_at_full_voltage",
    ]  # fmt: skip
    assert found["kind"] == "running"
    assert found["limit"]["class"] == "3M2"
    assert [line["number"] for line in found["lines"]] == [1, 2, 3, 4, 5]
    assert set(found["lines"][0]) == {
        "number", "frequency_Hz", "accel_m_s2", "shift_mm", "limit_share", "in_noise",
    }  # fmt: skip
    assert found["lines"][0]["shift_mm"] == pytest.approx(1000 / (2 * pi * 6) ** 2, rel=0.01)
    assert [line["in_noise"] for line in found["lines"]] == [False, True, True, True, True]
    assert found["paste"] == {"under": "found", "lines": ["turning: 6.0 Hz (measured)"]}
    assert found["paste_at_full_voltage"] == {"under": "motor", "lines": ["speed: 360 rpm (measured)"]}


def test_json_of_three_pushes(logs, run, document):
    found = document(run("shake", logs(log(pushed(3, 8, 14))), "--format", "json"))
    assert found["kind"] == "nudge"
    assert len(found["pushes"]) == 3
    spread = found["natural_spread_Hz"]
    assert spread["low"] <= found["natural_Hz"] <= spread["high"]
    assert found["damping_percent"] == pytest.approx(4.5, rel=0.02)
    assert found["paste"]["under"] == "cabinet"


BAD = {
    "empty": ("", "no-numbers", "No rows of numbers were found"),
    "words": ("hello\nthis, is, not, a log\n", "no-numbers", "Export the record as CSV"),
    "HTML": ("<!doctype html><html><body><p>Sign in, please</p></body></html>\n" * 9, "no-numbers", "No rows"),
    "NaN": ("t,x,y,z\n" + "nan,nan,nan,nan\n" * 400, "no-numbers", "No rows of numbers"),
    "two columns": (
        "\n".join(f"{n / 50},{n % 7}" for n in range(900)),
        "no-numbers",
        "three accelerations in each row",
    ),
    "comma twice": (log(tone()).replace(".", ","), "no-numbers", "export the record with a decimal point"),
    "time stands still": ("t,x,y,z\n" + "1,2,3,4\n" * 400, "no-numbers", "time does not advance"),
    "few rows": (log(tone(), seconds=1.5), "too-few", "record for 20 seconds or more"),
    "short": (log(tone(), seconds=4.0), "too-short", "lasts 4.0 s, at least 5 s are needed"),
    "slow": (log(tone(3), rate=12.0, jitter=0.05), "too-slow", "choose the fastest rate"),
    "gaps": (log(tone(), drop=(4.0, 17.0)), "mostly-gaps", "record it again"),
    "lying still": (log(lambda time: 0 * time), "no-motion", "No frequency stands out of the noise"),
    "dead": ("\n".join(f"{n / 50},1,0,0" for n in range(500)), "no-motion", "no motion at all"),
    "aliased": (log(tone(42.0)), "aliased", "Record again with the phone's fastest rate"),
    "no time": ("\n".join(f"{n % 7},{n % 5},9.8" for n in range(900)), "no-numbers", "column of times is missing"),
    "gyroscope": (
        log(tone(), gravity=False, header="time,gyro_x,gyro_y,gyro_z"),
        "columns",
        "record the accelerometer",
    ),
    "short run": (log(lambda time: tone()(time) * (abs(time - 6) < 1)), "too-short", "less than 4 s in a row"),
    "dies at once": (log(push(damping=0.6)), "no-decay", "push harder or record longer"),
}


@pytest.mark.parametrize("case", BAD)
def test_a_log_that_cannot_be_read_says_what_to_record_instead(case, logs, run, document):
    text, code, words = BAD[case]
    name = logs(text)
    result = run("shake", name, "--plot", "out.svg")
    assert result.exit_code == 1
    assert result.output.startswith("log.csv cannot be read. ")
    assert words in result.output
    assert result.output.count("\n") == 1
    assert not Path("out.svg").exists()
    told = run("shake", name, "--format", "json")
    assert told.exit_code == 1
    assert document(told)["problem"]["code"] == code


def test_a_doubtful_log_is_read_with_a_warning(logs, run):
    clipped = run("shake", logs(log(tone(3.0, 6.0), gravity=False, clip=4.0, noise=0.0)))
    assert clipped.exit_code == 0
    assert "Careful: The strongest samples all have the same value" in clipped.output
    gaps = run("shake", logs(log(tone(), drop=(6.0, 7.5))))
    assert gaps.exit_code == 0
    assert "Careful: Samples are missing in places" in gaps.output


def test_what_can_be_no_log_is_misuse(logs, run, tmp_path):
    (tmp_path / "folder").mkdir()
    logs(b"PK\x03\x04\x00\x00\x08\x00" * 50, "sheet.xlsx")
    logs(b"1,2,3,4\n" * 2_500_001, "huge.csv")
    for name, words in (
        ("missing.csv", "There is no file missing.csv."),
        ("folder", "folder is a folder or a device, not a file."),
        ("sheet.xlsx", "sheet.xlsx is not text. Export the record as CSV"),
        ("huge.csv", "huge.csv has more than 20 million bytes. Cut it to one minute"),
    ):
        result = run("shake", name)
        assert result.exit_code == 2
        assert words in result.output.replace("\n", " ")
    assert run("shake").exit_code == 2


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes on this system")
def test_a_pipe_is_not_waited_for(logs, run, tmp_path):
    os.mkfifo(tmp_path / "pipe.csv")
    assert run("shake", "pipe.csv").exit_code == 2


def test_noise_in_place_of_text_is_refused(logs, run):
    """Bytes without a zero among them are text of a kind, without numbers."""
    bytes_ = bytes(np.random.default_rng(1).integers(1, 256, 5000, dtype=np.uint8))
    assert run("shake", logs(bytes_)).exit_code == 1


def test_the_drawing_is_written_and_the_same_each_time(logs, run):
    name = logs(log(tone(6.0, 1.0)))
    assert run("shake", name, "--plot", "one.svg").output.endswith("Written: one.svg\n")
    run("shake", name, "--plot", "two.svg")
    assert Path("one.svg").read_bytes() == Path("two.svg").read_bytes()
    assert ElementTree.parse("one.svg").getroot().tag == "{http://www.w3.org/2000/svg}svg"


def test_with_json_the_drawing_is_not_mentioned(logs, run):
    result = run("shake", logs(log(tone(6.0, 1.0))), "--plot", "one.svg", "--format", "json")
    assert json.loads(result.stdout)["kind"] == "running"
    assert Path("one.svg").exists()


def test_the_drawing_never_overwrites_the_log(logs, run):
    text = log(tone(6.0, 1.0))
    result = run("shake", logs(text), "--plot", "./log.csv")
    assert result.exit_code == 2
    assert "would overwrite the log" in result.output
    assert Path("log.csv").read_text(encoding="utf-8") == text


def test_a_drawing_that_cannot_be_written_is_told(logs, run):
    result = run("shake", logs(log(tone(6.0, 1.0))), "--plot", "nowhere/one.svg")
    assert result.exit_code == 2
    assert "nowhere/one.svg cannot be written" in result.output
