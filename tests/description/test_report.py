"""Messages for a terminal, for annotations and as JSON."""

from guide_gen.description.report import as_github, as_json, as_text
from guide_gen.model.finding import Finding, Level, Place

UNKNOWN = Finding(
    "unit-unknown",
    Level.MUST,
    'bow motor, current: "5 amps" is not a current I can read',
    "a number and A or mA, such as 5.5 A or 5 A to 6 A",
    'write "5 A"',
    ("toys", "bow-motor", "current"),
    "bow-motor",
    Place("content/builds/harbour/build.yaml", 2, 14),
)
LINES = ["toys:", "    current: 5 amps   # weak"]


def test_a_message_is_one_line_and_the_line_it_is_about() -> None:
    assert as_text(UNKNOWN, LINES) == (
        'content/builds/harbour/build.yaml:2:14: must fix [unit-unknown] bow motor, current: "5 amps" is not a '
        'current I can read; expected a number and A or mA, such as 5.5 A or 5 A to 6 A; write "5 A".\n'
        "   2 |     current: 5 amps   # weak\n"
        "     |              ^^^^^^"
    )


def test_a_message_stands_alone_without_the_file() -> None:
    assert "\n" not in as_text(UNKNOWN)


def test_a_finding_without_expectation_reads_as_a_sentence() -> None:
    finding = Finding(
        "estimate-used", Level.NOTE, "Bump rests on an estimate.", "", "Measure it.", (), "", Place("build.yaml", 1, 1)
    )
    assert as_text(finding) == "build.yaml:1:1: note [estimate-used] Bump rests on an estimate. Measure it."


def test_a_line_cannot_steer_the_terminal() -> None:
    shown = as_text(UNKNOWN, ["", "    current: \x1b[31mred\u202e"])
    assert "\x1b" not in shown
    assert "\u202e" not in shown


def test_an_annotation_names_file_and_line() -> None:
    finding = Finding("drop-too-high", Level.SHOULD, "5 % is lost:\nmuch", "", "", (), "", Place("a,b.yaml", 3, 7))
    assert as_github(finding) == (
        "::warning file=a%2Cb.yaml,line=3,col=7,title=should fix [drop-too-high]::5 %25 is lost:%0Amuch."
    )


def test_a_json_entry_has_the_promised_keys() -> None:
    assert as_json(UNKNOWN) == {
        "code": "unit-unknown",
        "level": "must fix",
        "message": UNKNOWN.message,
        "expected": UNKNOWN.expected,
        "mend": 'write "5 A"',
        "toy": "bow-motor",
        "where": {"file": "content/builds/harbour/build.yaml", "line": 2, "column": 14},
    }


def test_a_finding_of_the_whole_build_names_no_toy() -> None:
    finding = Finding("supply-overloaded", Level.MUST, "x", "", "", (), "", Place("build.yaml", 1, 1))
    assert "toy" not in as_json(finding)
