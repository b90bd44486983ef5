"""The first description of a cabinet passes, whatever was answered."""

from itertools import product

import pytest

from guide_gen.controls import controls
from guide_gen.description.read import read_text
from guide_gen.description.report import as_text
from guide_gen.description.start import questions, starting_text
from guide_gen.published.tables import families
from guide_gen.toys import kinds

FILE = "content/builds/pier/build.yaml"
KIND, CONTROL, FAMILY = ("toys", "*", "kind"), ("toys", "*", "control", "type"), ("wiring", "ampacity_table")


def problems(text: str) -> list[str]:
    return [as_text(problem) for problem in read_text(text, FILE).problems]


def test_the_defaults_pass() -> None:
    assert problems(starting_text({})) == []


@pytest.mark.parametrize(("kind", "control", "family"), list(product(kinds(), controls(), families())))
def test_every_choice_passes(kind: str, control: str, family: str) -> None:
    assert problems(starting_text({KIND: kind, CONTROL: control, FAMILY: family})) == []


@pytest.mark.parametrize("name", ['It\'s: a #5 "x"', "- ferry", "@ferry", "{x}", "yes", "2", "  a  b ", "a: b"])
def test_a_strange_name_stays_text(name: str) -> None:
    build = read_text(starting_text({("build",): name}), FILE).build
    assert build is not None
    assert build.build == " ".join(name.split())


def test_every_line_with_a_value_has_a_comment() -> None:
    lines = [line for line in starting_text({}).splitlines() if line.strip() and not line.startswith("#")]
    assert [line for line in lines if not line.endswith(":") and " # " not in line] == []


def test_every_default_answer_is_right() -> None:
    assert [question.wrong(question.default) for question in questions()] == [""] * len(questions())


def test_a_wrong_answer_is_told_in_a_sentence() -> None:
    by_path = {question.path: question for question in questions()}
    assert by_path["toys", "*", "current"].wrong("5,5 A") == '"5,5 A" can be read two ways: write "5.5 A".'
    told = by_path[KIND].wrong("shaker")
    assert told.startswith("Choose ")
    assert told.endswith('; did you mean "shaker motor"?')
