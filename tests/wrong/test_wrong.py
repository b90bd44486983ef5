"""Wrong descriptions, each with its exact message beside it: ``NAME.yaml`` and ``NAME.txt``.

After a message was reworded, ``RENEW=1 pytest tests/wrong`` writes the texts anew; review them as a diff.
"""

import os
from pathlib import Path

import pytest

from guide_gen.description.read import read_text
from guide_gen.description.report import as_text
from guide_gen.model.finding import Level

HERE = Path(__file__).parent
FILES = sorted(HERE.glob("*.yaml"))


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_wrong_description_gets_its_message(file: Path) -> None:
    description = read_text(file.read_text(encoding="utf-8"), file.name)
    told = "".join(f"{as_text(problem, description.lines)}\n" for problem in description.problems)
    beside = file.with_suffix(".txt")
    if os.environ.get("RENEW"):
        beside.write_text(told, encoding="utf-8")
    assert told == beside.read_text(encoding="utf-8")


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_wrong_description_gives_no_build(file: Path) -> None:
    description = read_text(file.read_text(encoding="utf-8"), file.name)
    assert description.build is None
    assert description.problems
    assert all(problem.level is Level.MUST for problem in description.problems)


def test_every_text_has_its_description() -> None:
    assert [file.stem for file in FILES] == sorted(file.stem for file in HERE.glob("*.txt"))
