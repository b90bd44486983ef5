"""The table of keys says what the model does."""

from pathlib import Path

import pytest

from guide_gen.description.read import read
from guide_gen.publish.keys import SMALLEST, KeyRow, Left, key_rows


def test_every_kind_and_every_control_has_its_table() -> None:
    groups = {row.group for row in key_rows()}
    assert {"toys: what a shaker motor adds", "control: speed controller", "control: pwm port"} <= groups


def test_kind_and_control_are_asked_for(rows: dict[str, KeyRow]) -> None:
    assert "shaker motor" in rows["toys.<toy>.kind"].unit
    assert "speed controller" in rows["toys.<toy>.control.type"].unit


@pytest.fixture(scope="module")
def rows() -> dict[str, KeyRow]:
    return {row.path: row for row in key_rows()}


def test_smallest_file_can_be_read(tmp_path: Path) -> None:
    folder = tmp_path / "content" / "builds" / "tidepool"
    folder.mkdir(parents=True)
    (folder / "build.yaml").write_text(SMALLEST)
    assert read(folder / "build.yaml", tmp_path).problems == ()


def test_key_asked_for_says_what_to_do(rows: dict[str, KeyRow]) -> None:
    row = rows["toys.<toy>.feed.run"]
    assert (row.left, row.unit) == (Left.ASKED, "m, cm, mm, km, ft or in")
    assert "string" in row.detail


def test_key_chosen_says_by_which_rule(rows: dict[str, KeyRow]) -> None:
    row = rows["toys.<toy>.feed.wire"]
    assert row.left is Left.CHOSEN
    assert row.detail


def test_default_stands_with_its_source(rows: dict[str, KeyRow]) -> None:
    row = rows["wiring.fuse_margin"]
    assert row.left is Left.DEFAULT
    assert row.detail.startswith("1.5 (")


def test_usual_drop_limit_is_said_by_sort_of_toy(rows: dict[str, KeyRow]) -> None:
    row = rows["wiring.drop_limit"]
    assert row.left is Left.CHOSEN
    assert "3 %" in row.detail
    assert "5 % for toys with a motor" in row.detail


def test_words_to_choose_from_are_listed(rows: dict[str, KeyRow]) -> None:
    assert rows["supplies.<supply>.overload"].unit == "limits, restarts, switches off, not known"


def test_every_kind_and_every_control_adds_its_keys(rows: dict[str, KeyRow]) -> None:
    assert "toys.<toy>.cover" in rows
    assert "toys.<toy>.control.controller.input_current" in rows


def test_every_key_has_meaning_unit_and_example(rows: dict[str, KeyRow]) -> None:
    assert [row.path for row in rows.values() if not (row.meaning and row.unit and row.example)] == []


def test_key_under_its_written_name(rows: dict[str, KeyRow]) -> None:
    assert "boards.<board>.return" in rows
    assert "boards.<board>.back" not in rows
