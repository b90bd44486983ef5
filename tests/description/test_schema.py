"""The JSON Schema that editors use, and the table of keys, from the same model."""

import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from guide_gen.controls import controls
from guide_gen.description.keys import key_rows
from guide_gen.description.schema import schema
from guide_gen.toys import kinds

HERE = Path(__file__).parent
DESCRIPTIONS = sorted([*HERE.glob("*.yaml"), *HERE.parents[1].glob("content/builds/*/build.yaml")])


class Yaml12(yaml.SafeLoader):
    """Scalars by the core schema of YAML 1.2.2, section 10.3.2."""


Yaml12.yaml_implicit_resolvers = {}
for tag, pattern, first in [
    ("null", r"null|Null|NULL|~|", ["~", "n", "N", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", list("tTfF")),
    ("int", r"[-+]?[0-9]+", list("-+0123456789")),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", list("-+.0123456789")),
]:
    Yaml12.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(f"^(?:{pattern})$"), first)


def as_an_editor_reads(text: str) -> Any:
    return yaml.load(text, Loader=Yaml12)


@pytest.fixture(scope="module")
def validator() -> jsonschema.Draft202012Validator:
    return jsonschema.Draft202012Validator(schema())


def test_the_schema_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(schema())


@pytest.mark.parametrize("file", DESCRIPTIONS, ids=lambda file: f"{file.parent.name}-{file.stem}")
def test_an_editor_finds_no_fault_in_a_right_description(
    file: Path, validator: jsonschema.Draft202012Validator
) -> None:
    data = as_an_editor_reads(file.read_text(encoding="utf-8"))
    assert [error.message for error in validator.iter_errors(data)] == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("cover: yes", "cuver: yes"),
        ("    cover: yes\n", ""),
        ("12 V", "12"),
        ("1.9 A (measured)", "1.9 amps"),
        ("1.9 A (measured)", "5,5 A"),
        ("shaker motor", "steam whistle"),
        ("always on", "sometimes on"),
        ("{type: always on}", "{type: pwm port}"),
        ("0.9 m", "0.9 V"),
        ("IEC 60204-1", "IEC 60204"),
        ("bump:", "Bow Shaker:"),
        ("{run: 0.9 m}", "{run: 0.9 m, fuse: no}"),
        ("{run: 0.9 m}", "[0.9 m]"),
        ("build: Tidepool\n", ""),
    ],
)
def test_an_editor_marks_a_wrong_description(old: str, new: str, validator: jsonschema.Draft202012Validator) -> None:
    text = (HERE / "smallest.yaml").read_text(encoding="utf-8")
    assert old in text
    assert not validator.is_valid(as_an_editor_reads(text.replace(old, new)))


def test_nothing_in_the_schema_is_called_title() -> None:
    assert '"title"' not in re.sub(r'"title": \{', "", str(schema()).replace("'", '"'))


def test_the_schema_knows_every_kind_and_every_control() -> None:
    text = str(schema())
    assert [word for word in [*kinds(), *controls()] if f"'{word}'" not in text] == []


def test_every_key_is_documented() -> None:
    assert [row.path for row in key_rows() if not (row.meaning and row.example and row.unit)] == []


def test_every_key_says_what_happens_when_it_is_left_out() -> None:
    rows = key_rows()
    assert {row.left_out for row in rows} == {"asked for", "chosen", "default", "left off"}
    assert [row.path for row in rows if row.left_out != "left off" and not row.says] == []


def test_a_key_of_all_kinds_stands_once_in_the_table() -> None:
    paths = [row.path for row in key_rows()]
    assert len(paths) == len(set(paths))
    assert paths.count("toys.<slug>.feed.run") == 1
    assert "toys.<slug>.<shaker motor>.cover" in paths


def test_the_row_of_kind_names_every_kind() -> None:
    row = next(row for row in key_rows() if row.path == "toys.<slug>.kind")
    assert [word for word in kinds() if word not in row.unit] == []
