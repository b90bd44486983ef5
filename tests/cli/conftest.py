"""A wiki of its own in a temporary folder, and the commands run in it."""

import json
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner

from guide_gen.cli import main

TIDEPOOL = """\
build: Tidepool
wiring: {ampacity_table: IEC 60204-1}
cabinet: {mass: 90 kg, floor: {thickness: 18 mm}}
supplies: {brick: {voltage: 12 V, current: 8 A, overload: restarts}}
toys:
  bump:
    kind: shaker motor
    voltage: 12 V
    current: 1.9 A (measured)
    cover: yes
    motor: {resistance: 2.5 ohm (measured), speed: 2300 rpm (measured)}
    control: {type: always on}
    feed: {run: 0.9 m}
    weight: {unbalance: 1 g m (datasheet), swing: 0.35 s (measured)}
"""

MKDOCS = """\
site_name: Club
docs_dir: content
use_directory_urls: false
theme: {name: material, font: false}
plugins: [guide_gen]
markdown_extensions: [attr_list, tables]
"""


@dataclass(frozen=True)
class Wiki:
    """The root of a clone."""

    root: Path

    def put(self, name: str, text: str) -> Path:
        """Write a description into the folder of a build."""
        folder = self.root / "content" / "builds" / name
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "build.yaml").write_text(text, encoding="utf-8")
        return folder


@pytest.fixture
def wiki(tmp_path, monkeypatch):
    """A clone with one good build; the commands run in its root."""
    (tmp_path / "mkdocs.yml").write_text(MKDOCS, encoding="utf-8")
    made = Wiki(tmp_path)
    made.put("tidepool", TIDEPOOL)
    monkeypatch.chdir(tmp_path)
    return made


@pytest.fixture
def tidepool():
    """The text of the good build."""
    return TIDEPOOL


@pytest.fixture
def run():
    """Run a command as a user does; no traceback ever."""

    def call(*words, typed=None):
        result = CliRunner().invoke(main, [str(word) for word in words], input=typed)
        assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
        assert "Traceback" not in result.output
        return result

    return call


@pytest.fixture
def document():
    """The one JSON document on standard output, and nothing else there."""

    def read(result):
        return json.loads(result.stdout, parse_constant=lambda word: pytest.fail(f"{word} is no JSON"))

    return read
