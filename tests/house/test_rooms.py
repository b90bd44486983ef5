"""The house: imports point one way, and what every room has."""

import ast
import re
from pathlib import Path

import pytest

import guide_gen

ROOT = Path(guide_gen.__file__).parent
ORDER = (
    "values", "published", "formulas", "model", "controls", "toys", "description", "planning", "drawings", "publish",
    "cli", "plugin",
)  # fmt: skip
MODULES = sorted(ROOT.rglob("*.py"))
# The published tables are keyed by wire sizes, so the plain nouns of `values` are open to all; nothing else is crossed.
TEXTS = sorted(
    path for path in ROOT.rglob("*")
    if path.suffix in {".py", ".csv", ".md", ".html", ".txt", ".css", ".js", ".yaml"}
)  # fmt: skip


def room_of(path):
    """The room that a module stands in; "" for the house itself."""
    parts = path.relative_to(ROOT).with_suffix("").parts
    return "" if parts == ("__init__",) else parts[0]


def imported_rooms(path):
    """The rooms that a module imports from, with the line."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            names = [
                f"{node.module}.{alias.name}" if node.module == "guide_gen" else node.module for alias in node.names
            ]
        for name in names:
            parts = name.split(".")
            if parts[0] == "guide_gen" and len(parts) > 1 and parts[1] in ORDER:
                yield parts[1], node.lineno


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_imports_point_one_way(path):
    """A room imports only from rooms before it, and from itself."""
    room = room_of(path)
    if room == "":
        assert list(imported_rooms(path)) == []
        return
    assert room in ORDER, f"{path} stands in no known room"
    for other, line in imported_rooms(path):
        assert ORDER.index(other) <= ORDER.index(room), f"{path.relative_to(ROOT)}:{line} imports from {other}"


def test_the_ends_alone_touch_files():
    """The middle is functions of data: no module between `published` and `publish` opens or writes a file."""
    openers = re.compile(r"\bopen\(|\.write_text\(|\.write_bytes\(|\.read_text\(|\.read_bytes\(|\.unlink\(|\.mkdir\(")
    for path in MODULES:
        if room_of(path) in {"values", "formulas", "model", "controls", "toys", "planning", "drawings"}:
            assert not openers.search(path.read_text(encoding="utf-8")), path


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(ROOT)))
def test_every_module_says_what_it_is(path):
    """A docstring, in a sentence."""
    said = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8")))
    assert said, path


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: str(path.relative_to(ROOT)))
def test_no_path_of_a_machine_and_no_host_stands_in_the_code(path):
    """Nothing needs the network; name spaces and licences are no requests."""
    text = path.read_text(encoding="utf-8")
    assert not re.search(r"/(work|home|tmp|root|Users)/", text)
    hosts = [
        host for host in re.findall(r"https?://([\w.-]+)", text)
        if host not in {"www.w3.org", "json-schema.org", "creativecommons.org", "127.0.0.1", "localhost", "example.org"}
    ]  # fmt: skip
    assert hosts == []


def test_nothing_lists_kinds_or_controls_by_hand():
    """They are found by looking into their folders; only their own file, and what belongs to it, names a kind."""
    for path in MODULES:
        if room_of(path) in {"toys", ""}:
            continue
        for other, line in imported_toys(path):
            assert room_of(path) == "toys", f"{path.relative_to(ROOT)}:{line} imports {other}"


def imported_toys(path):
    """Modules of single kinds that a module imports."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("guide_gen.toys."):
            yield node.module, node.lineno
