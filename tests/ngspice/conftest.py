"""The circuit simulator, where it is installed, the writers of its netlists, and the planned toys that it simulates."""

import importlib.util
import os
import shutil
from functools import cache
from pathlib import Path

import pytest

from guide_gen.description.read import read_text
from guide_gen.planning.plan import plan

ROOT = Path(__file__).parents[2]


def _beside(name: str):
    """A module of this folder."""
    spec = importlib.util.spec_from_file_location(name, Path(__file__).with_name(f"{name}.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture(scope="session")
def netlist():
    """The module that runs netlists; skips where ngspice is missing, fails there with CI=true."""
    if not shutil.which("ngspice"):
        reason = "ngspice is not installed (Debian: apt-get install ngspice): no circuit is compared with a simulator"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    return _beside("netlist")


@pytest.fixture(scope="session")
def of_circuit():
    """The module that writes netlists from the circuit data of a planned toy."""
    return _beside("of_circuit")


@pytest.fixture
def simulated(netlist, of_circuit, tmp_path):
    """Simulate a planned toy, or a changed copy of its circuit; measures name terminals: ``max v(Q1:D)``.

    meter: terminals at its red and its black lead; it sends a milliampere out of the red one, at 10 V at most.
    """

    def run(toy, bench, stop_s, measures, *, circuit=None, steps=1000, from_rest=False, meter=None):
        written = of_circuit.netlist_of(toy, bench, circuit)
        lines = list(written.lines)
        if meter:
            red, black = (written.names[terminal] for terminal in meter)
            lines += [f"Imeter {black} {red} 1e-3", f"Rmeter {red} {black} 1e4"]
        asked = {name: written.asked(how) for name, how in measures.items()}
        return netlist.simulate(tmp_path, lines, stop_s, stop_s / steps, asked, from_rest=from_rest)

    return run


@cache
def _demo(build: str):
    file = f"content/builds/{build}/build.yaml"
    return plan(read_text((ROOT / file).read_text(encoding="utf-8"), file))


@pytest.fixture(scope="session")
def demo():
    """A toy of the demo builds, planned: ``demo("night-ferry/vent")``."""

    def toy(name: str):
        build, _, slug = name.partition("/")
        return _demo(build).toys[slug]

    return toy
