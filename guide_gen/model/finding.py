"""Findings and problems: what the checks say about a build, with the place where it is written."""

from dataclasses import dataclass, field
from enum import StrEnum


class Level(StrEnum):
    """How much a finding matters."""

    MUST = "must fix"
    SHOULD = "should fix"
    NOTE = "note"


@dataclass(frozen=True, order=True)
class Place:
    """Where something stands: file from the root, line and column from 1."""

    file: str
    line: int
    column: int

    def __str__(self) -> str:
        return f"{self.file}:{self.line}:{self.column}"


@dataclass(frozen=True)
class Finding:
    """One thing that is wrong or worth knowing.

    message: what, by how much, why it matters: one sentence that stands alone.
    expected: what was expected. mend: what to change, with the computed value.
    path: the keys that lead to it in the description: ``("toys", "bump", "feed", "fuse")``.
    toy: slug of the toy that it concerns, or "". where: filled in from the path.
    """

    code: str
    level: Level
    message: str
    expected: str
    mend: str
    path: tuple[str, ...] = ()
    toy: str = ""
    where: Place = field(default=Place("", 1, 1))
