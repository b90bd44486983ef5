"""Rules of WCAG by axe-core, where a developer has it: AXE names its file axe.min.js. Not part of the project."""

import os
from collections.abc import Callable
from itertools import product
from pathlib import Path

import pytest

AXE = os.environ.get("AXE", "")
PAGES = [
    "index.html",
    "legend.html",
    "describe.html",
    "builds/night-ferry/index.html",
    "builds/night-ferry/bow-shaker.html",
]


@pytest.mark.skipif(not AXE, reason="AXE does not name a file of axe-core; an extra check for developers")
def test_axe_finds_nothing(site: Path, window: Callable) -> None:
    found = {}
    for path, width, scheme in product(PAGES, (390, 1280), ("light", "dark")):
        page = window(width, color_scheme=scheme, bypass_csp=True).open(site / path)
        page.add_script_tag(path=AXE)
        found[path, width, scheme] = page.evaluate("axe.run().then(done => done.violations.map(one => one.id))")
    assert {where: rules for where, rules in found.items() if rules} == {}
