"""Descriptions to plan: small ones from Python maps, with changes; any kind on any control; the printed examples.

And one Chromium for all tests that look at pages or drawings.
"""

import copy
import os
import shutil
import types
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Union, get_args, get_origin

import pytest
import yaml
from playwright.sync_api import Browser, sync_playwright

from guide_gen.controls import controls
from guide_gen.description.read import Description, read_text
from guide_gen.model.fields import Section
from guide_gen.model.finding import Finding
from guide_gen.model.plan import Plan
from guide_gen.planning.plan import plan
from guide_gen.toys import kinds

FILE = "content/builds/tidepool/build.yaml"

# One toy on a PWM port: every other control and kind is a change of it.
PORTED = {
    "build": "Tidepool",
    "wiring": {"ampacity_table": "IEC 60204-1", "bundled_circuits": "1"},
    "cabinet": {"floor": {"material": "plywood", "thickness": "18 mm"}},
    "supplies": {"main": {"voltage": "12 V", "current": "20 A", "overload": "restarts"}},
    "boards": {
        "quay": {
            "ports": "16",
            "port_current": "10 A",
            "board_current": "30 A",
            "port_voltage": "30 V",
            "pwm_frequency": "200 Hz",
        }
    },
    "toys": {
        "bump": {
            "kind": "shaker motor",
            "voltage": "12 V",
            "current": "2 A (measured)",
            "cover": "yes",
            "control": {"type": "pwm port", "board": "quay", "port": "2"},
            "feed": {"run": "0.5 m"},
        }
    },
}

CONTROLLER = {
    "type": "speed controller",
    "board": "quay",
    "port": "2",
    "controller": {
        "current": "10 A",
        "pwm_frequency": "15 kHz",
        "run": "0.5 m",
        "input": "on/off",
        "input_voltage": "12 V",
        "input_current": "8 mA",
        "input_from": "behind the fuse",
        "lowest": "fully counter-clockwise",
    },
}


@dataclass(frozen=True)
class Case:
    """A description that was read, and its plan where there is one."""

    text: str
    description: Description
    plan: Plan | None

    @property
    def toy(self):
        """The plan of the only or first toy."""
        return next(iter(self.plan.toys.values()))

    @property
    def codes(self) -> list[str]:
        """The codes of all findings, by place."""
        return [finding.code for finding in self.plan.findings]

    def finding(self, code: str) -> Finding:
        """The only finding of this code."""
        found = [each for each in self.plan.findings if each.code == code]
        assert len(found) == 1, (code, self.plan.findings)
        return found[0]

    def at(self, finding: Finding) -> str:
        """The rest of the line that a finding points at."""
        return self.text.splitlines()[finding.where.line - 1][finding.where.column - 1 :]

    def above(self, finding: Finding) -> list[str]:
        """The keys of the maps round the place of a finding, the outermost first; its own line's last."""
        lines = self.text.splitlines()
        line = lines[finding.where.line - 1]
        found, indent = [line.strip().partition(":")[0]], len(line) - len(line.lstrip())
        for before in reversed(lines[: finding.where.line - 1]):
            less = len(before) - len(before.lstrip())
            if less < indent:
                found, indent = [before.strip().partition(":")[0], *found], less
        return found


def changed(base: Mapping, changes: Mapping) -> dict:
    """A copy with changes in depth; None takes a key away; a dotted key reaches down: ``"toys.bump.cover"``.

    A map with a `type` replaces what was there, since another type has other keys.
    """
    copied = copy.deepcopy(dict(base))
    for dotted, value in changes.items():
        *way, last = dotted.split(".")
        inner = copied
        for key in way:
            inner = inner.setdefault(key, {})
        if value is None:
            inner.pop(last, None)
        elif isinstance(value, Mapping) and "type" not in value and isinstance(inner.get(last), Mapping):
            inner[last] = changed(inner[last], value)
        else:
            inner[last] = copy.deepcopy(value)
    return copied


def planned(text: str, file: str = FILE) -> Case:
    """Read and plan a text, which has no problems."""
    description = read_text(text, file)
    assert not description.problems, description.problems
    return Case(text, description, plan(description))


def written(data: Mapping) -> str:
    """A map as YAML in block style."""
    return yaml.safe_dump(dict(data), sort_keys=False, allow_unicode=True, width=1000)


def section_of(annotation) -> type[Section] | None:
    """The map that a field holds, if it holds one."""
    if isinstance(annotation, type) and issubclass(annotation, Section):
        return annotation
    if get_origin(annotation) in (Union, types.UnionType):
        return next((found for each in get_args(annotation) if (found := section_of(each))), None)
    return None


def least(model: type[Section]) -> dict:
    """A map with what is asked for and nothing else, by the examples of the keys."""
    found = {}
    for name, field in model.model_fields.items():
        extra = field.json_schema_extra or {}
        if "ask" not in extra or name == "control":
            continue
        inner = section_of(field.annotation)
        found[field.alias or name] = least(inner) if inner else str(extra["example"])
    return found


def least_toy(kind: str, control: str) -> dict:
    """A toy of a kind on a control, with what is asked for: by the examples of their keys."""
    toy = least(kinds()[kind].fields) | {"current": "2 A (measured)", "control": least(controls()[control].fields)}
    if "port" in toy["control"]:
        toy["control"]["port"] = "2"
    return toy


@pytest.fixture(scope="session")
def plan_of():
    """Plan a small build with changes: ``plan_of({"toys.bump.current": "6 A (measured)"})``; a text as it stands."""

    def make(changes: Mapping | str | None = None, base: Mapping = PORTED) -> Case:
        return planned(changes) if isinstance(changes, str) else planned(written(changed(base, changes or {})))

    return make


@pytest.fixture(scope="session")
def any_toy():
    """Plan one toy of any kind on any control, described by the least that is asked for, with changes."""

    def make(kind: str, control: str, changes: Mapping | None = None) -> Case:
        base = PORTED | {"toys": {"bump": least_toy(kind, control)}}
        return planned(written(changed(base, changes or {})))

    return make


@pytest.fixture(scope="session")
def with_controller():
    """The changes that put the small build's toy behind a trimmer-set speed controller."""

    def make(**changes) -> dict:
        return {
            "toys.bump.control": changed(CONTROLLER, {key.replace("__", "."): value for key, value in changes.items()})
        }

    return make


@pytest.fixture(scope="session")
def small_build():
    """The small build as a map, to be changed and written."""
    return copy.deepcopy(PORTED)


FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A Chromium; without one these tests are skipped, but not where they must run."""
    chromium = next(filter(None, map(shutil.which, ("chromium", "chromium-browser", "google-chrome"))), None)
    if chromium is None:
        if os.environ.get("CI") == "true":
            pytest.fail("no Chromium here, and CI=true asks for the browser tests")
        pytest.skip("no Chromium here: chromium, chromium-browser or google-chrome would do")
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium, args=FLAGS)
        yield started
        started.close()
