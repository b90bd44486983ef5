"""Reading: the whole build and the smallest one pass; places, defaults, and that no text raises."""

from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from guide_gen.description.problems import near
from guide_gen.description.read import Description, read_text
from guide_gen.description.report import as_github, as_json, as_text
from guide_gen.model.finding import Place
from guide_gen.values.quantity import Basis, WireSize

HERE = Path(__file__).parent
FILE = "content/builds/night-ferry/build.yaml"
WHOLE = (HERE / "night_ferry.yaml").read_text(encoding="utf-8")
SMALLEST = (HERE / "smallest.yaml").read_text(encoding="utf-8")


@pytest.fixture(scope="module")
def whole() -> Description:
    return read_text(WHOLE, FILE)


@pytest.fixture(scope="module")
def smallest() -> Description:
    return read_text(SMALLEST, "content/builds/tidepool/build.yaml")


def test_the_whole_build_has_no_problem(whole: Description) -> None:
    assert whole.problems == ()


def test_the_smallest_build_has_no_problem(smallest: Description) -> None:
    assert smallest.problems == ()


def test_values_come_out_as_they_are_meant(whole: Description) -> None:
    assert whole.build is not None
    shaker = whole.build.toys["bow-shaker"]
    assert (shaker.current.low, shaker.current.high, shaker.current.basis) == (5.0, 6.0, Basis.MEASURED)
    assert shaker.current.how == "bench supply at 12 V with the weight fitted"
    assert whole.build.invented is True
    assert whole.build.date == "2026-11-02"
    assert whole.build.boards["quay"].ports == 16
    assert whole.build.boards["quay"].back.run.low == 0.6


def test_a_toy_is_of_its_kind_and_its_control_of_its_type(whole: Description) -> None:
    assert whole.build is not None
    assert {slug: (toy.kind, toy.control.type) for slug, toy in whole.build.toys.items()} == {
        "bow-shaker": ("shaker motor", "pwm port"),
        "vent": ("blower fan", "on/off port"),
    }


def test_the_folder_gives_the_slug(whole: Description) -> None:
    assert (whole.slug, whole.file) == ("night-ferry", FILE)


@pytest.mark.parametrize(
    ("path", "line", "written"),
    [
        (("toys", "bow-shaker", "control", "limit"), 67, "12 %"),
        (("supplies", "main", "fuse_block", "run"), 39, "0.15 m"),
        (("toys", "vent", "feed", "fuse", "holder"), 89, "blade"),
        (("toys", "bow-shaker"), 53, "bow-shaker:"),
        (("toys", "vent", "control"), 88, "{type"),
        ((), 2, "build:"),
    ],
)
def test_a_place_is_where_the_value_is_written(
    whole: Description, path: tuple[str, ...], line: int, written: str
) -> None:
    place = whole.place(path)
    assert (place.file, place.line) == (FILE, line)
    assert whole.lines[place.line - 1][place.column - 1 :].startswith(written)


def test_what_is_not_written_has_the_place_of_its_map(whole: Description) -> None:
    fuse = ("toys", "bow-shaker", "feed", "fuse")
    assert whole.place((*fuse, "rating")) == whole.place(fuse)
    assert whole.place(("toys", "vent", "mount", "screw")) == whole.place(("toys", "vent"))


def test_every_default_that_was_taken_is_listed(smallest: Description) -> None:
    taken = {".".join(default.path): (default.text, default.source) for default in smallest.defaults()}
    assert taken["wiring.insulation"] == ("70 °C", "common practice, no source: plain PVC wire")
    assert taken["toys.bump.feed.fuse.holder"][0] == "blade"
    assert taken["supplies.brick.fuse_block.run"][0] == "0.15 m"
    assert taken["wiring.colours.return"][0] == "BN"
    assert "toys.bump.cover" not in taken
    assert all(source for _, source in taken.values())


def test_what_is_written_is_no_default(whole: Description) -> None:
    paths = {default.path for default in whole.defaults()}
    assert ("wiring", "insulation") not in paths
    assert ("toys", "vent", "mount", "screws") in paths


def test_windows_line_ends_change_nothing(whole: Description) -> None:
    assert read_text(WHOLE.replace("\n", "\r\n"), FILE).build == whole.build


def test_a_stated_wire_is_kept() -> None:
    description = read_text(SMALLEST.replace("{run: 0.9 m}", "{run: 0.9 m, wire: 2.5 mm²}"), FILE)
    assert description.build is not None
    assert description.build.toys["bump"].feed.wire == WireSize("mm2", "2.5")


def test_a_quoted_screw_size_is_no_comment() -> None:
    description = read_text(SMALLEST + '    mount: {screw: "#10-32"}\n', FILE)
    assert description.problems == ()


def test_a_comment_with_a_space_is_a_comment() -> None:
    assert read_text(SMALLEST.replace("cover: yes", "cover: yes # 2 screws"), FILE).problems == ()


def test_a_commented_line_may_stand_without_a_space() -> None:
    assert read_text("#build: old\n" + SMALLEST, FILE).problems == ()


def test_one_mistake_is_told_once() -> None:
    description = read_text(SMALLEST.replace("brick:", "Brick:"), FILE)
    assert [problem.code for problem in description.problems] == ["value-shape"]


def test_problems_stand_in_the_order_of_the_file() -> None:
    text = SMALLEST.replace("12 V", "12").replace("0.9 m", "0.9").replace("1.9 A", "1.9")
    places = [problem.where for problem in read_text(text, FILE).problems]
    assert len(places) == 4
    assert places == sorted(places)


def test_a_wrong_kind_hides_no_other_problem() -> None:
    text = SMALLEST.replace("shaker motor", "steam whistle").replace("1.9 A", "1.9 amps").replace("always on", "on")
    codes = [problem.code for problem in read_text(text, FILE).problems]
    assert codes == ["word-unknown", "unit-unknown", "word-unknown"]


def test_a_board_uses_pwm_through_a_controller_too() -> None:
    board = "boards: {quay: {ports: 4, port_current: 2 A, board_current: 4 A, port_voltage: 30 V}}\n"
    control = (
        "{type: speed controller, board: quay, port: 1, port_set_to: pwm, controller: {current: 10 A, "
        "pwm_frequency: 15 kHz, run: 1 m, input: pwm, input_voltage: 12 V, input_current: 8 mA, "
        "input_from: behind the fuse, lowest: fully counter-clockwise}}"
    )
    text = board + SMALLEST.replace("{type: always on}", control)
    assert [problem.path for problem in read_text(text, FILE).problems] == [("boards", "quay", "pwm_frequency")]


def everything_of(description: Description) -> None:
    """All that a command would do with a description."""
    for problem in description.problems:
        assert problem.message
        assert problem.expected
        assert problem.mend
        assert 1 <= problem.where.line <= len(description.lines) + 1
        assert as_text(problem, description.lines)
        assert as_github(problem)
        assert as_json(problem)["where"]["line"] == problem.where.line
    assert (description.build is None) == bool(description.problems)
    description.defaults()


@given(st.text(max_size=200))
@example("\ud800")
@example('"\\ud800": x')
@example('toys: {"[key]": {"[key]": x}}')
@example("? [a]\n: b")
@example("a: &a\nb: *a")
@example("<<: {a: b}")
@example("build: ~\nwiring: null\n")
def test_any_text_is_read_or_told(text: str) -> None:
    everything_of(read_text(text, FILE))


@given(
    st.sampled_from([WHOLE, SMALLEST]),
    st.integers(0, 3000),
    st.integers(0, 12),
    st.sampled_from(
        [
            "",
            "{",
            "}",
            "[",
            "]",
            ":",
            ": ",
            "#",
            " #x",
            "\t",
            "\n",
            "- ",
            "'",
            '"',
            "&a ",
            "*a",
            "!x ",
            "|",
            ">",
            "%",
            "@",
            ",",
            "?",
            "---\n",
            "é",
            "\x00",
            "\u202e",
            "~",
            "\\",
            "0",
            "-1",
            "  ",
        ]
    ),
)
def test_any_slip_of_the_keys_is_read_or_told(text: str, at: int, length: int, sign: str) -> None:
    everything_of(read_text(text[:at] + sign + text[at + length :], FILE))


YAML = st.recursive(
    st.sampled_from(["12 V", "yes", "shaker motor", "pwm port", "main", "1.5 mm2", "", "5", "[key]", "none"]),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.sampled_from(
                [
                    "build",
                    "toys",
                    "supplies",
                    "boards",
                    "wiring",
                    "kind",
                    "control",
                    "type",
                    "feed",
                    "fuse",
                    "wire",
                    "current",
                    "value",
                    "basis",
                    "supply",
                    "board",
                    "name",
                    "[key]",
                    "common_return",
                    "sizes",
                    "ampacity_table",
                    "insulation",
                    "port_set_to",
                    "suppressor",
                    "return",
                ]
            ),
            inner,
            max_size=4,
        )
    ),
    max_leaves=12,
)


def flow(value: object) -> str:
    if isinstance(value, dict):
        return "{" + ", ".join(f'"{key}": {flow(inner)}' for key, inner in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(map(flow, value)) + "]"
    return f'"{value}"'


@given(YAML)
def test_any_shape_is_read_or_told(value: object) -> None:
    everything_of(read_text(flow(value), FILE))


@pytest.mark.parametrize(
    "text",
    [
        "a: [" + ",".join("*a" for _ in range(60_000)) + "]",
        "a: [" + ",".join("!a b" for _ in range(40_000)) + "]",
        "[" * 200_000,
        "supplies:\n"
        + "".join(f"  t{number}: {{}}\n" for number in range(9_000))
        + "toys:\n"
        + "".join(f"  t{number}: {{supply: c{number}}}\n" for number in range(5_000)),
        "".join(f"k{number}: 1\n" for number in range(20_000)),
    ],
    ids=["aliases", "tags", "brackets", "names", "keys"],
)
def test_a_large_wrong_file_is_told_soon(text: str) -> None:
    assert 0 < len(read_text(text, FILE).problems) <= 200


@pytest.mark.parametrize(("written", "meant"), [
    ("turning_frequency", "turning"), ("frequency", "sideways_frequency"), ("dampin", "damping"), ("colour", ""),
])  # fmt: skip
def test_the_key_that_begins_as_the_wrong_one_is_offered_before_one_that_only_ends_alike(written, meant) -> None:
    assert near(written, ["setting", "start", "turning", "current", "sideways_frequency", "damping"]) == meant


def test_a_place_prints_as_editors_read_it() -> None:
    assert str(Place("build.yaml", 3, 4)) == "build.yaml:3:4"
