"""The circuit simulator, where it is installed, and the writer of its netlists."""

import importlib.util
import os
import shutil
from pathlib import Path

import pytest


@pytest.fixture(scope="session")
def netlist():
    """The module that writes and runs netlists; skips where ngspice is missing, fails there with CI=true."""
    if not shutil.which("ngspice"):
        reason = "ngspice is not installed (Debian: apt-get install ngspice): no circuit is compared with a simulator"
        if os.environ.get("CI") == "true":
            pytest.fail(reason)
        pytest.skip(reason)
    spec = importlib.util.spec_from_file_location("netlist", Path(__file__).with_name("netlist.py"))
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module
